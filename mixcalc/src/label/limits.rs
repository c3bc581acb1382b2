//! What a label limits, and where it says so.

use alloc::string::String;
use alloc::sync::Arc;
use alloc::vec::Vec;
use core::mem::discriminant;

use super::{Basis, Dose, LabelOrder, Protection, Restriction, Rule};
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Force, Limit};
use crate::quantity::{
    Area, MassConcentration, Quantity, Ratio, Time, Volume, VolumeRate, divisor, not_negative, positive,
};
use crate::text;

/// What a label says that one tank serves, where it doses by the tank: the dose per area that it means without saying so.
///
/// # Example
///
/// 15 L of mix for 400 m2 are 375 L/ha.
///
/// ```
/// use mixcalc::{Area, LabelTank, Volume};
///
/// let tank = LabelTank::new(Volume::read("15 L")?, Area::read("400 m2")?)?;
/// assert_eq!(tank.volume_rate().to_string(), "375 L/ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelTank {
    mix: Volume,
    area: Area,
}

impl LabelTank {
    /// So much mix for so much ground.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) at `mix` or `area` for one that is not above zero.
    pub fn new(mix: Volume, area: Area) -> Result<Self, Error> {
        Ok(Self { mix: divisor(mix, "mix")?, area: divisor(area, "area")? })
    }

    /// The finished mix.
    #[must_use]
    pub const fn mix(self) -> Volume {
        self.mix
    }

    /// The ground that it serves.
    #[must_use]
    pub const fn area(self) -> Area {
        self.area
    }

    /// The volume rate that this comes to.
    #[must_use]
    pub fn volume_rate(self) -> VolumeRate {
        (self.mix / self.area).as_volume_rate()
    }
}

/// What a product's label limits, and where it says so.
///
/// A label without a largest dose has the dose itself as its maximum. Its limits are checked when a product takes it
/// ([`Product::with_label`](crate::Product::with_label)), and held against a job by [`plan`](crate::plan()), where a limit that is broken is no error but a
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
    pub(crate) min_dose: Option<Dose>,
    pub(crate) max_dose: Option<Dose>,
    pub(crate) max_ground_dose: Option<Dose>,
    pub(crate) max_concentration: Option<Dose>,
    pub(crate) tank: Option<LabelTank>,
    pub(crate) min_volume_rate: Option<VolumeRate>,
    pub(crate) max_volume_rate: Option<VolumeRate>,
    pub(crate) volume_rate_basis: Option<Basis>,
    pub(crate) first_carrier: Option<Ratio>,
    pub(crate) wait: Option<Time>,
    pub(crate) ammonium_sulfate: Option<MassConcentration>,
    pub(crate) order: Option<LabelOrder>,
    pub(crate) protection: Option<Protection>,
    pub(crate) source: Option<Arc<str>>,
    pub(crate) restrictions: Vec<Restriction>,
}

impl Label {
    /// A label that limits nothing but the dose itself.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The least dose of the label's range. A dose under it is cautioned and not stopped: a lower dose may be lawful, and should be
    /// decided.
    #[must_use]
    pub fn with_min_dose(mut self, dose: impl Into<Dose>) -> Self {
        self.min_dose = Some(dose.into());
        self
    }

    /// The largest dose.
    #[must_use]
    pub fn with_max_dose(mut self, dose: impl Into<Dose>) -> Self {
        self.max_dose = Some(dose.into());
        self
    }

    /// The largest dose per ground area, which holds beside one on another basis.
    #[must_use]
    pub fn with_max_ground_dose(mut self, dose: impl Into<Dose>) -> Self {
        self.max_ground_dose = Some(dose.into());
        self
    }

    /// The largest concentration in the finished mix, which holds beside a largest dose on another basis.
    #[must_use]
    pub fn with_max_concentration(mut self, dose: impl Into<Dose>) -> Self {
        self.max_concentration = Some(dose.into());
        self
    }

    /// What the label says that one tank serves, where it doses by the tank: so much mix for so much ground. The dose per area that
    /// this comes to is the largest one where the label gives no other per ground area.
    #[must_use]
    pub const fn with_tank(mut self, tank: LabelTank) -> Self {
        self.tank = Some(tank);
        self
    }

    /// What the volume rates are counted on where that is not the ground: treated area or leaf wall area.
    #[must_use]
    pub const fn with_volume_rate_basis(mut self, basis: Basis) -> Self {
        self.volume_rate_basis = Some(basis);
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

    /// Ammonium sulfate that the label asks for in the mix; none where it asks for what the water needs.
    #[must_use]
    pub const fn with_ammonium_sulfate(mut self, rate: MassConcentration) -> Self {
        self.ammonium_sulfate = Some(rate);
        self
    }

    /// What the label asks to be worn.
    #[must_use]
    pub fn with_protection(mut self, protection: Protection) -> Self {
        self.protection = Some(protection);
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

    /// The least dose, where the label gives one.
    #[must_use]
    pub const fn min_dose(&self) -> Option<Dose> {
        self.min_dose
    }

    /// Adds what it limits over time, or before spraying.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange), [`NotPositive`](ErrorCode::NotPositive) and [`WrongQuantity`](ErrorCode::WrongQuantity) for
    /// a limit that is none; [`BothGiven`](ErrorCode::BothGiven) for a second one of a rule other than caps and buffers.
    pub fn with_restriction(mut self, restriction: Restriction) -> Result<Self, Error> {
        restriction.checked()?;
        let is_same = |other: &Restriction| discriminant(other.rule()) == discriminant(restriction.rule());
        if !matches!(restriction.rule(), Rule::Cap(..) | Rule::Buffer(..)) && self.restrictions.iter().any(is_same) {
            let error = Error::new(ErrorCode::BothGiven).given(text::word("two limits of one rule"));
            return Err(error.allowed(text::word("one of them")));
        }
        self.restrictions.push(restriction);
        Ok(self)
    }

    /// What it limits over time, or before spraying.
    #[must_use]
    pub fn restrictions(&self) -> &[Restriction] {
        &self.restrictions
    }

    /// The largest dose, where the label gives one.
    #[must_use]
    pub const fn max_dose(&self) -> Option<Dose> {
        self.max_dose
    }

    /// The largest dose per ground area, where the label gives one beside another.
    #[must_use]
    pub const fn max_ground_dose(&self) -> Option<Dose> {
        self.max_ground_dose
    }

    /// The largest concentration in the mix, where the label gives one.
    #[must_use]
    pub const fn max_concentration(&self) -> Option<Dose> {
        self.max_concentration
    }

    /// What the label says that one tank serves, where it does.
    #[must_use]
    pub const fn tank(&self) -> Option<LabelTank> {
        self.tank
    }

    /// What the volume rates are counted on, where the label says.
    #[must_use]
    pub const fn volume_rate_basis(&self) -> Option<Basis> {
        self.volume_rate_basis
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

    /// Ammonium sulfate that the label asks for in the mix, where it says so.
    #[must_use]
    pub const fn ammonium_sulfate(&self) -> Option<MassConcentration> {
        self.ammonium_sulfate
    }

    /// What the label asks to be worn, where that is stated.
    #[must_use]
    pub const fn protection(&self) -> Option<&Protection> {
        self.protection.as_ref()
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
        for (key, bound) in self.min_dose.map(|dose| ("min_dose", dose)).into_iter().chain(self.doses()) {
            bound.positive().map_err(|error| error.at(key))?;
            let bases: &[Basis] = match key {
                "max_ground_dose" => &[Basis::GroundArea],
                "max_concentration" => &[Basis::MixVolume],
                _ => Basis::all(),
            };
            let is_like = bound.is_by_volume() == dose.is_by_volume();
            if !is_like || !bases.contains(&bound.basis()) {
                let due = match bases {
                    [basis] if is_like => text::dose_examples(Some(*basis)),
                    _ => text::dose_like(dose.is_by_volume()),
                };
                return Err(Error::new(ErrorCode::WrongQuantity).at(key).given(Quantity::from(bound)).allowed(due));
            }
        }
        if self.tank.is_some() && dose.basis() != Basis::MixVolume {
            let error =
                Error::new(ErrorCode::WrongQuantity).at("tank").given(text::word("a dose that is not of the mix"));
            return Err(error.allowed(text::dose_examples(Some(Basis::MixVolume))));
        }
        self.checked_alone()
    }

    /// The largest doses that the label gives in so many words, each with its key.
    pub(crate) fn doses(&self) -> impl Iterator<Item = (&'static str, Dose)> + use<> {
        let keyed = |key, dose: Option<Dose>| dose.map(|dose| (key, dose));
        let given = [
            keyed("max_dose", self.max_dose),
            keyed("max_ground_dose", self.max_ground_dose),
            keyed("max_concentration", self.max_concentration),
        ];
        given.into_iter().flatten()
    }

    /// What can be checked without the product's dose.
    pub(crate) fn checked_alone(&self) -> Result<(), Error> {
        for (rate, key) in [(self.min_volume_rate, "min_volume_rate"), (self.max_volume_rate, "max_volume_rate")] {
            rate.map(positive).transpose().map_err(|error| error.at(key))?;
        }
        if let Some(basis) = self.volume_rate_basis
            && !matches!(basis, Basis::GroundArea | Basis::TreatedArea | Basis::LeafWallArea)
        {
            let error = Error::new(ErrorCode::UnknownChoice).at("volume_rate_basis").given(text::quoted(basis.name()));
            let known = [Basis::GroundArea, Basis::TreatedArea, Basis::LeafWallArea].map(Basis::name);
            return Err(error.allowed(text::one_of(&known)));
        }
        self.ammonium_sulfate.map(not_negative).transpose().map_err(|error| error.at("ammonium_sulfate"))?;
        self.wait.map(positive).transpose().map_err(|error| error.at("wait"))?;
        if let (Some(least), Some(most)) = (self.min_volume_rate, self.max_volume_rate)
            && least > most
        {
            return Err(Error::new(ErrorCode::OutOfRange)
                .at("min_volume_rate")
                .given(least)
                .allowed(format_args!("{} {most}", text::word("at most max_volume_rate,"))));
        }
        if let (Some(least), Some(most)) = (self.min_dose, self.max_dose)
            && least.is_over(most)
        {
            return Err(Error::new(ErrorCode::OutOfRange)
                .at("min_dose")
                .given(Quantity::from(least))
                .allowed(format_args!("{} {}", text::word("at most max_dose,"), Quantity::from(most))));
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
