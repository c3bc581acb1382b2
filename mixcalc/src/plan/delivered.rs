//! What a calibration's doubt does to a plan: the dose that is really delivered, and where each load really runs out.

use alloc::format;
use alloc::vec::Vec;

use super::{Load, MeasuredAmount, Plan};
use crate::error::Error;
use crate::finding::{Bound, Finding, FindingCode, Limit};
use crate::label::{Dose, Product};
use crate::measure::Amount;
use crate::quantity::close::is_over;
use crate::quantity::{AdditiveKind, Area, Length, Quantity, Ratio, VolumeRate, positive};
use crate::sprayer::{Calibration, CalibrationRecord, Difference, delivered_liquid_dose, delivered_solid_dose};
use crate::text::{self, source};
use crate::uncertainty::{DegreesOfFreedom, Interval, Uncertain, UncertainQuantity};

/// A pass of the sprayer: how wide, and how long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pass {
    swath: Length,
    length: Option<Length>,
}

impl Pass {
    /// A pass of a treated width.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](crate::ErrorCode::NotPositive) at `swath`.
    pub fn new(swath: Length) -> Result<Self, Error> {
        Ok(Self { swath: positive(swath).map_err(|error| error.at("swath"))?, length: None })
    }

    /// How long a pass is, so that ground is told in passes too.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](crate::ErrorCode::NotPositive) at `length`.
    pub fn with_length(mut self, length: Length) -> Result<Self, Error> {
        self.length = Some(positive(length).map_err(|error| error.at("length"))?);
        Ok(self)
    }

    /// Treated width.
    #[must_use]
    pub const fn swath(self) -> Length {
        self.swath
    }

    /// Length, where it is stated.
    #[must_use]
    pub const fn length(self) -> Option<Length> {
        self.length
    }
}

/// A value, and between what it is where a calibration tells: an end is missing where the doubt does not bound it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span<Q> {
    /// What it comes to at the volume rate of the plan.
    pub value: Q,
    /// The least.
    pub low: Option<Q>,
    /// The most.
    pub high: Option<Q>,
}

impl<Q: AdditiveKind> Span<Q> {
    /// What ends the sooner the more is put out: a value at a rate, and at the ends of the rate's interval.
    fn of(value: Q, rate: VolumeRate, rates: Option<Interval<VolumeRate>>) -> Self {
        let at = |other: VolumeRate| (other > VolumeRate::ZERO).then(|| value * (rate / other));
        Self { value, low: rates.and_then(|rates| at(rates.high())), high: rates.and_then(|rates| at(rates.low())) }
    }
}

/// Where a load runs out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunOut {
    area: Span<Area>,
    length: Option<Span<Length>>,
    passes: Option<Span<Ratio>>,
}

impl RunOut {
    /// After so much ground.
    #[must_use]
    pub const fn area(&self) -> Span<Area> {
        self.area
    }

    /// After such a length with the boom open; where the job states its pass.
    #[must_use]
    pub const fn length(&self) -> Option<Span<Length>> {
        self.length
    }

    /// After so many passes; where the job states their length.
    #[must_use]
    pub const fn passes(&self) -> Option<Span<Ratio>> {
        self.passes
    }
}

/// The dose that a load really delivers, as far as the calibration, the measure and the tank's scale tell: what states no uncertainty is taken as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct DeliveredDose {
    dose: UncertainQuantity,
    interval: Interval<Quantity>,
    maximum: Option<Quantity>,
    probability_over: Option<Ratio>,
    aim: Option<Quantity>,
}

impl DeliveredDose {
    /// The dose per ground area in one pass, with its uncertainty.
    #[must_use]
    pub const fn dose(&self) -> &UncertainQuantity {
        &self.dose
    }

    /// Between what the true dose is, with the coverage of the calibration's record.
    #[must_use]
    pub const fn interval(&self) -> Interval<Quantity> {
        self.interval
    }

    /// The most that the label allows per ground area, or the dose itself where it states none; `None` where its maximum is counted on
    /// something else.
    #[must_use]
    pub const fn maximum(&self) -> Option<Quantity> {
        self.maximum
    }

    /// The probability that the true dose is over the most that the label allows per ground area; `None` where it allows none so.
    #[must_use]
    pub const fn probability_over(&self) -> Option<Ratio> {
        self.probability_over
    }

    /// The dose to aim at, so that the true one is over the maximum no more often than the risk that is taken; `None` where none is stated.
    #[must_use]
    pub const fn aim(&self) -> Option<Quantity> {
        self.aim
    }
}

impl Plan {
    /// Where a load runs out; `None` where the job has neither a calibration nor a pass.
    ///
    /// The length is what is driven with the boom open: mix / (volume rate x swath), overlap or not. With a calibration each comes with its
    /// interval: a sprayer that puts out more than it was measured at runs out sooner.
    #[must_use]
    pub fn run_out(&self, load: &Load) -> Option<RunOut> {
        let (calibration, pass) = (self.job.calibration(), self.job.pass());
        if calibration.is_none() && pass.is_none() {
            return None;
        }
        let rates = calibration.and_then(|(record, calibration)| calibration.interval(record).ok());
        let area = Span::of(load.area, self.mix.rate, rates);
        let length = pass.map(|pass| Span::of(load.mix / self.mix.rate / pass.swath, self.mix.rate, rates));
        let in_passes = |length: Span<Length>, pass: Length| Span {
            value: length.value / pass,
            low: length.low.map(|low| low / pass),
            high: length.high.map(|high| high / pass),
        };
        let passes = length.zip(pass.and_then(Pass::length)).map(|(length, pass)| in_passes(length, pass));
        Some(RunOut { area, length, passes })
    }

    /// What is to be said of the calibration that the job goes by.
    pub(super) fn on_calibration(&self, findings: &mut Vec<Finding>) {
        let Some((record, calibration)) = self.job.calibration() else { return };
        for difference in record.differences() {
            let on = |code| {
                let finding = Finding::new(code, difference.place(), self.job.units());
                finding.about(text::difference(difference.name()))
            };
            let ages = record.setting().zip(record.use_in()).zip(record.oldest());
            findings.push(match (difference, ages) {
                (Difference::TooOld, Some(((setting, use_in), oldest))) => on(FindingCode::CalibrationTooOld)
                    .actual_value(use_in.date.since(setting.date))
                    .against(Limit::fact(Bound::AtMost, oldest, source::JOB)),
                _ => on(FindingCode::CalibrationDiffers),
            });
        }
        if calibration.volume_rate().contributions().is_empty() {
            findings.push(Finding::new(FindingCode::CalibrationDoubtMissing, "calibration", self.job.units()));
        }
    }

    /// Doses that are over the maximum more often than is taken, in the load where each is most often.
    pub(super) fn on_delivered(&self, index: usize, product: &Product, findings: &mut Vec<Finding>) {
        let Some(risk) = self.job.calibration().and_then(|(record, _)| record.risk()) else { return };
        let in_load = |load: &Load| Some((load.first, MeasuredAmount::of(self, load, index)?.delivered()?));
        let worst =
            self.loads.iter().filter_map(in_load).reduce(|worst, other| {
                if other.1.probability_over() > worst.1.probability_over() { other } else { worst }
            });
        if let Some((load, delivered)) = worst
            && let Some(aim) =
                delivered.aim.filter(|_| delivered.probability_over.is_some_and(|over| is_over(over, risk)))
        {
            let path = format!("products[{index}].dose");
            let finding = Finding::new(FindingCode::DoseMayPassMaximum, path, self.job.units()).about(product.name());
            let limit = Limit::advice(Bound::AtMost, aim, source::GUARD_BAND);
            findings.push(finding.in_load(load).actual_value(delivered.dose.value()).against(limit));
        }
    }
}

impl MeasuredAmount<'_> {
    /// The dose that it really delivers; `None` without a calibration.
    #[must_use]
    pub fn delivered(&self) -> Option<DeliveredDose> {
        let (record, calibration) = self.plan.job.calibration()?;
        let product = self.plan.held.products().get(self.product)?;
        // What could be planned is of a size that can be measured.
        delivered(self, product, record, calibration).ok()
    }
}

/// What was measured, as its measure or the tank's scale gives it: what that may be off and is read to is one input.
fn doubted<Q: AdditiveKind>(name: &str, amount: Q, doubt: Option<Ratio>) -> Result<Uncertain<Q>, Error> {
    match doubt {
        Some(doubt) => Uncertain::from_standard_uncertainty(name, amount, amount * doubt, DegreesOfFreedom::INFINITE),
        None => Uncertain::exact(amount),
    }
}

fn delivered(
    amount: &MeasuredAmount<'_>,
    product: &Product,
    record: &CalibrationRecord,
    calibration: &Calibration,
) -> Result<DeliveredDose, Error> {
    let (mix, rate) = (doubted("mix", amount.mix, amount.mix_doubt())?, calibration.volume_rate());
    // What the tank held before is taken as it stands: the doubt is that of what was measured.
    let measured = amount.in_tank();
    let doubt = amount.measure().standard_uncertainty(amount.graduations());
    let doubt = doubt.zip(amount.measured.over(measured)).map(|(doubt, share)| doubt * share);
    let dose = match measured {
        Amount::Volume(volume) => {
            UncertainQuantity::of(&delivered_liquid_dose(&doubted("amount", volume, doubt)?, &mix, rate)?)?
        }
        Amount::Mass(mass) => {
            UncertainQuantity::of(&delivered_solid_dose(&doubted("amount", mass, doubt)?, &mix, rate)?)?
        }
    };
    let maximum = product
        .largest_doses()
        .filter_map(|(_, most)| match (most, measured) {
            (Dose::LiquidPerArea(most), Amount::Volume(_)) => Some(Quantity::of(most)),
            (Dose::SolidPerArea(most), Amount::Mass(_)) => Some(Quantity::of(most)),
            _ => None,
        })
        .reduce(|least, most| if most.compare(least).is_ok_and(core::cmp::Ordering::is_lt) { most } else { least });
    Ok(DeliveredDose {
        interval: dose.interval(record.coverage())?,
        probability_over: maximum.map(|most| dose.probability_over(most)).transpose()?,
        aim: maximum.zip(record.risk()).map(|(most, risk)| dose.aim_under(most, risk)).transpose()?,
        maximum,
        dose,
    })
}
