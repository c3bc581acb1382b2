//! What a label limits, and where it says so.

use alloc::string::String;
use alloc::sync::Arc;

use super::{Dose, LabelOrder};
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Force, Limit};
use crate::quantity::{Quantity, Ratio, Time, VolumeRate, positive};
use crate::text;

/// What a product's label limits, and where it says so.
///
/// A label without a largest dose has the dose itself as its maximum. Its limits are checked when a product takes it
/// ([`Product::with_label`]), and held against a job by [`plan`](crate::plan()), where a limit that is broken is no error but a
/// stop: the plan then has no measured amounts, no steps and no sheet.
///
/// # Example
///
/// 2.5 L/ha of a product whose label allows 2 L/ha:
///
/// ```
/// use mixcalc::*;
///
/// let label = Label::new().with_max_dose(LiquidDose::read("2 L/ha")?).with_source("label, section 3");
/// let product = Product::new("example product A", LiquidDose::read("2.5 L/ha")?)?.with_label(label)?;
/// let rate = Rate::Volume(VolumeRate::read("200 L/ha")?);
/// let tank = Tank::of_nominal(Volume::read("100 L")?)?;
/// let job = Job::new(Area::read("1.2 ha")?, rate, Sprayer::new(SprayerKind::Boom), tank)?
///     .with_product(product)?
///     .with_measure(Measure::vessel(Volume::read("2 L")?, Volume::read("20 mL")?)?)?;
///
/// let plan = mixcalc::plan(&job)?;
/// let stop = &plan.findings()[0];
/// assert_eq!((stop.code(), stop.path()), (FindingCode::OverMaximumDose, "products[0].dose"));
/// assert_eq!(stop.limit().unwrap().source(), "label, section 3");
/// assert!(plan.cleared().is_none());
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Label {
    pub(crate) max_dose: Option<Dose>,
    pub(crate) min_volume_rate: Option<VolumeRate>,
    pub(crate) max_volume_rate: Option<VolumeRate>,
    pub(crate) first_carrier: Option<Ratio>,
    pub(crate) wait: Option<Time>,
    pub(crate) order: Option<LabelOrder>,
    pub(crate) source: Option<Arc<str>>,
}

impl Label {
    /// A label that limits nothing but the dose itself.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The largest dose.
    #[must_use]
    pub fn with_max_dose(mut self, dose: impl Into<Dose>) -> Self {
        self.max_dose = Some(dose.into());
        self
    }

    /// The least volume rate.
    #[must_use]
    pub const fn with_min_volume_rate(mut self, rate: VolumeRate) -> Self {
        self.min_volume_rate = Some(rate);
        self
    }

    /// The largest volume rate.
    #[must_use]
    pub const fn with_max_volume_rate(mut self, rate: VolumeRate) -> Self {
        self.max_volume_rate = Some(rate);
        self
    }

    /// The share of the load that the label wants in the tank before the product.
    #[must_use]
    pub const fn with_first_carrier(mut self, share: Ratio) -> Self {
        self.first_carrier = Some(share);
        self
    }

    /// How long to wait after the product, before the next one.
    #[must_use]
    pub const fn with_wait(mut self, time: Time) -> Self {
        self.wait = Some(time);
        self
    }

    /// The place in the mixing order, where the label says one.
    #[must_use]
    pub fn with_order(mut self, order: LabelOrder) -> Self {
        self.order = Some(order).filter(|order| !order.says_nothing());
        self
    }

    /// Where the limits stand.
    #[must_use]
    pub fn with_source(mut self, source: &str) -> Self {
        self.source = Some(source.into());
        self
    }

    /// The largest dose, where the label gives one.
    #[must_use]
    pub const fn max_dose(&self) -> Option<Dose> {
        self.max_dose
    }

    /// The least volume rate, where the label gives one.
    #[must_use]
    pub const fn min_volume_rate(&self) -> Option<VolumeRate> {
        self.min_volume_rate
    }

    /// The largest volume rate, where the label gives one.
    #[must_use]
    pub const fn max_volume_rate(&self) -> Option<VolumeRate> {
        self.max_volume_rate
    }

    /// The share of the load that the label wants in the tank before the product, where it asks for one.
    #[must_use]
    pub const fn first_carrier(&self) -> Option<Ratio> {
        self.first_carrier
    }

    /// How long to wait after the product, where the label says so.
    #[must_use]
    pub const fn wait(&self) -> Option<Time> {
        self.wait
    }

    /// The place in the mixing order, where the label says one.
    #[must_use]
    pub const fn order(&self) -> Option<&LabelOrder> {
        self.order.as_ref()
    }

    /// Where the limits stand, where that is said.
    #[must_use]
    pub fn source(&self) -> Option<&str> {
        self.source.as_deref()
    }

    /// A limit of this label.
    pub(crate) fn limit(&self, bound: Bound, value: impl Into<Quantity>) -> Limit {
        Limit { bound, value: value.into(), force: Force::Label, source: self.source_text().into() }
    }

    /// Where the limits stand, in words.
    pub(crate) fn source_text(&self) -> String {
        self.source.as_deref().unwrap_or(text::word("the label as given in the job")).into()
    }

    pub(super) fn checked(&self, dose: Dose) -> Result<(), Error> {
        if let Some(max_dose) = self.max_dose {
            max_dose.positive().map_err(|error| error.at("max_dose"))?;
            if max_dose.is_by_volume() != dose.is_by_volume() {
                return Err(Error::new(ErrorCode::WrongQuantity)
                    .at("max_dose")
                    .given(Quantity::from(max_dose))
                    .allowed(text::dose_like(dose.is_by_volume())));
            }
        }
        self.checked_alone()
    }

    /// What can be checked without the product's dose.
    pub(crate) fn checked_alone(&self) -> Result<(), Error> {
        for (rate, key) in [(self.min_volume_rate, "min_volume_rate"), (self.max_volume_rate, "max_volume_rate")] {
            rate.map(positive).transpose().map_err(|error| error.at(key))?;
        }
        self.wait.map(positive).transpose().map_err(|error| error.at("wait"))?;
        if let (Some(least), Some(most)) = (self.min_volume_rate, self.max_volume_rate)
            && least > most
        {
            return Err(Error::new(ErrorCode::OutOfRange)
                .at("min_volume_rate")
                .given(least)
                .allowed(format_args!("{} {most}", text::word("at most max_volume_rate,"))));
        }
        match self.first_carrier {
            Some(share) if !(share > Ratio::ZERO && share <= Ratio::one()) => Err(Error::new(ErrorCode::OutOfRange)
                .at("first_carrier")
                .given(share)
                .allowed(text::word("above 0 % and at most 100 % of the load"))),
            _ => Ok(()),
        }
    }
}
