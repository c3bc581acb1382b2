//! Recipes: for each product of a load the measure, and the amount in whole graduations.

use alloc::format;
use alloc::vec::Vec;

use super::job::Job;
use super::mix::Mix;
use super::{Held, Load, Portion, steps};
use crate::error::{Error, ErrorCode};
use crate::label::{Product, Share};
use crate::measure::{Amount, Measure, MeasureKind, uncountable};
use crate::quantity::close::{is_close, is_over, is_under};
use crate::quantity::{Ratio, Volume};
use crate::text;

/// Largest graduation, as a part of the amount, that is not coarse: half of it is then under 2.5 %.
const COARSE_PERCENT: f64 = 5.0;
/// Largest gap for which a product keeps its measure from load to load.
const KEPT_PERCENT: f64 = 2.5;

/// Which measure: the product's own, or one of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Choice {
    Own,
    Listed(usize),
}

impl Choice {
    pub(crate) fn measure(self, job: &Job, product: usize) -> Option<&Measure> {
        match self {
            Self::Own => job.products().get(product)?.measure(),
            Self::Listed(index) => job.measures().get(index),
        }
    }
}

/// An amount in whole graduations of a measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Measured {
    pub(crate) choice: Choice,
    pub(crate) graduations: u64,
}

/// What is wanted of a product in a load, in the sort that it is dosed in.
#[derive(Clone, Copy)]
pub(super) struct Wanted<'job> {
    pub(super) product: &'job Product,
    pub(super) exact: Amount,
    pub(super) ceiling: Amount,
}

impl<'job> Wanted<'job> {
    /// Exact amount and ceiling in the sort that a measure shows. `None` where the density is missing.
    pub(super) fn brought_to(&self, measure: &Measure) -> Option<(Amount, Amount)> {
        Some((self.product.brought_to(measure, self.exact)?, self.product.brought_to(measure, self.ceiling)?))
    }

    /// Whole graduations of a measure; `None` below one.
    pub(super) fn graduations(&self, measure: &Measure) -> Result<Option<u64>, Error> {
        let (exact, ceiling) = self.brought_to(measure).unwrap_or((self.exact, self.ceiling));
        measure.graduations(exact, ceiling)
    }

    /// How a measure would serve. `None` where the density is missing.
    fn service(&self, measure: &Measure, max_fillings: u64) -> Option<Service> {
        let (exact, _) = self.brought_to(measure)?;
        let fillings = measure.fillings_for(exact);
        Some(Service {
            drawbacks: (
                exact.is_under(measure.graduation()),
                fillings > max_fillings,
                is_coarse(measure, exact),
                fillings,
            ),
            capacity: measure.capacity().over(exact)?,
            graduation: measure.graduation().over(exact)?,
        })
    }

    /// The measure of the list that serves best; the first of those that serve alike.
    fn chosen(&self, job: &'job Job) -> Option<Choice> {
        let services = job.measures().iter().enumerate();
        let services =
            services.filter_map(|(i, measure)| Some((self.service(measure, job.loading().max_fillings())?, i)));
        let best = services.reduce(|best, other| if other.0.is_better_than(&best.0) { other } else { best });
        best.map(|(_, index)| Choice::Listed(index))
    }

    /// Whether a measure that served the first load serves this one too, at no great cost.
    fn is_served_by(&self, measure: &Measure, max_fillings: u64) -> Result<bool, Error> {
        let Some((exact, _)) = self.brought_to(measure) else {
            return Ok(false);
        };
        let Some(graduations) = self.graduations(measure)? else {
            return Ok(false);
        };
        let gap = measure.shows(graduations).minus(exact).and_then(|gap| gap.over(exact)).unwrap_or(Ratio::ZERO);
        let gap = gap.max(Ratio::ZERO - gap);
        Ok(measure.fillings_for(exact) <= max_fillings && !is_over(gap, Ratio::of_percent(KEPT_PERCENT)))
    }
}

/// How a measure would serve an amount, in the order in which it matters.
struct Service {
    /// Below one graduation, more fillings than advised, a coarse graduation; and how many fillings.
    drawbacks: (bool, bool, bool, u64),
    /// As parts of the amount, so that vessels and scales compare.
    capacity: Ratio,
    graduation: Ratio,
}

impl Service {
    fn is_better_than(&self, other: &Self) -> bool {
        if self.drawbacks != other.drawbacks {
            self.drawbacks < other.drawbacks
        } else if !is_close(self.capacity, other.capacity) {
            self.capacity < other.capacity
        } else {
            is_under(self.graduation, other.graduation)
        }
    }
}

/// Whether a measure's graduation is over 5 % of an amount of its own sort. A pack is what it is.
pub(crate) fn is_coarse(measure: &Measure, exact: Amount) -> bool {
    measure.kind() != MeasureKind::Pack && measure.graduation().exceeds(coarsest_advised(exact))
}

impl Portion {
    /// What whole packs come to, where they miss an amount by over 5 % of it.
    pub(crate) fn packs_off(&self, measure: &Measure, exact: Amount) -> Option<Amount> {
        let counted = measure.shows(self.measured?.graduations);
        let gap = counted.minus(exact)?.over(exact)?;
        let is_off = is_over(gap.max(Ratio::ZERO - gap), Ratio::of_percent(COARSE_PERCENT));
        (measure.kind() == MeasureKind::Pack && is_off).then_some(counted)
    }
}

/// The largest graduation that is not coarse for an amount.
pub(crate) fn coarsest_advised(exact: Amount) -> Amount {
    exact.times(Ratio::of_percent(COARSE_PERCENT))
}

/// What the products of a load are measured with, and how much of each, as far as each is looked at alone. `first` are those of the first load.
/// `held` is what the tank holds before.
pub(crate) fn portions(
    job: &Job,
    mix: &Mix,
    volume: Volume,
    held: Option<&Held>,
    first: Option<&[Portion]>,
) -> Result<Vec<Portion>, Error> {
    let kept = |index: usize| first.and_then(|portions| portions.get(index)).map(|portion| portion.choice);
    let shares = mix.shares.iter().enumerate();
    shares.map(|(index, shares)| portion(job, index, *shares, (volume, held), kept(index))).collect()
}

/// Holds the amounts whose largest dose is counted on carrier to the carrier beside all that is measured. What comes down only adds to
/// the carrier, so that one step is enough and the order does not matter.
pub(crate) fn hold_to_carrier(job: &Job, volume: Volume, held: Option<&Held>, portions: &mut [Portion]) {
    let is_limited = job.products().iter().any(Product::is_limited_by_carrier);
    if !is_limited || portions.iter().any(|portion| portion.measured.is_none()) {
        return;
    }
    let carrier = steps::carrier(job, volume - held.map_or(Volume::ZERO, |held| held.room(job)), portions);
    for (index, (product, portion)) in job.products().iter().zip(portions).enumerate() {
        let measure = portion.choice.measure(job, index);
        let on_carrier = product.largest_doses().find_map(|(_, dose)| dose.in_carrier(carrier));
        let on_carrier = on_carrier.map(|most| held.map_or(most, |held| held.lacking(index, most)));
        if let (Some(ceiling), Some(measure)) = (on_carrier, measure) {
            let most = measure.most_graduations(product.brought_to(measure, ceiling).unwrap_or(ceiling));
            let held = |measured: Measured| Measured { graduations: measured.graduations.min(most), ..measured };
            let binds = product.largest_doses().nth(1).is_none() || portion.ceiling.exceeds(ceiling);
            portion.ceiling = if binds { ceiling } else { portion.ceiling };
            portion.measured = portion
                .measured
                .map(held)
                .filter(|measured| measured.graduations > 0 || portion.exact == portion.exact.none());
        }
    }
}

/// What a product of a load is measured with, and how much of it. `kept` is the measure of the first load.
fn portion(
    job: &Job,
    index: usize,
    shares: (Share, Share),
    (mix, held): (Volume, Option<&Held>),
    kept: Option<Choice>,
) -> Result<Portion, Error> {
    let place = |error: Error| error.at(format!("products[{index}]"));
    let Some(product) = job.products().get(index) else {
        return Err(Error::new(ErrorCode::MissingInput));
    };
    let wanted = Wanted { product, exact: shares.0.of(mix), ceiling: shares.1.of(mix) };
    let choice = match (product.measure(), kept.zip(kept.and_then(|choice| choice.measure(job, index)))) {
        (Some(own), _) => {
            if let Some(key) = product.missing_density(own) {
                let error = Error::new(ErrorCode::MissingDensity).at("measure");
                return Err(place(error.given(text::quoted(own.name())).allowed(key)));
            }
            Choice::Own
        }
        (None, Some((choice, measure)))
            if wanted.is_served_by(measure, job.loading().max_fillings()).map_err(place)? =>
        {
            choice
        }
        _ => wanted.chosen(job).ok_or_else(|| {
            let error = Error::new(ErrorCode::NoMeasure).at("measure").given(job.measures().len());
            place(error.allowed(text::measure_wanted(product.dose().is_by_volume())))
        })?,
    };
    // The measure is that of the whole amount, so that it does not change with what the tank holds.
    let lacking = |amount| held.map_or(amount, |held| held.lacking(index, amount));
    let wanted = Wanted { exact: lacking(wanted.exact), ceiling: lacking(wanted.ceiling), ..wanted };
    let graduations = match choice.measure(job, index) {
        Some(_) if wanted.exact == wanted.exact.none() => Some(0),
        Some(measure) => wanted.graduations(measure).map_err(place)?,
        None => None,
    };
    Ok(Portion {
        exact: wanted.exact,
        ceiling: wanted.ceiling,
        choice,
        measured: graduations.map(|graduations| Measured { choice, graduations }),
    })
}

/// Graduations that all loads take of one product with one measure.
pub(crate) fn drawn(loads: &[Load], product: usize, choice: Choice, measure: &Measure) -> Result<u64, Error> {
    let mut sum: u64 = 0;
    for load in loads {
        let Some(measured) =
            load.portions.get(product).and_then(|portion| portion.measured).filter(|m| m.choice == choice)
        else {
            continue;
        };
        sum = measured
            .graduations
            .checked_mul(load.count)
            .and_then(|graduations| sum.checked_add(graduations))
            .filter(|sum| *sum <= crate::quantity::close::MOST_STEPS)
            .ok_or_else(|| uncountable(measure.graduation()).at(format!("products[{product}]")))?;
    }
    Ok(sum)
}
