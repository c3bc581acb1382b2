//! The steps of a load: what to do, in order, with the volume in the tank after each.

use alloc::vec::Vec;

use super::Portion;
use super::job::Job;
use super::order::{MixingOrder, OrderedProduct};
use crate::label::CONTAINER_RINSES;
use crate::measure::{Amount, Measure, MeasureKind};
use crate::quantity::close::{is_close, is_over};
use crate::quantity::{Density, Ratio, Time, Volume, ordered_sum};
use crate::sprayer::Tank;

/// Share of the load that goes in before the products, where no label asks for more. Extension bulletins name a quarter to three
/// quarters; half is what most agree on.
pub(super) const FIRST_CARRIER_PERCENT: f64 = 50.0;
/// Rinses of a vessel, each a quarter of it. Triple rinsing as extension bulletins teach it for small vessels (University of
/// Illinois; Montana ARM rule).
pub(super) const RINSES: u64 = 3;
pub(super) const RINSE_PERCENT: f64 = 25.0;
/// Carrier for a premix: two parts to one of product (South Dakota State University Extension), a product by mass counted
/// as 1 kg/L.
pub(super) const PREMIX_PARTS: u64 = 2;

/// Minutes in which a product disperses, as advice; longer in cold water. Extension bulletins (probable).
const WAIT_MINUTES: (f64, f64) = (1.0, 5.0);

/// The least and the most that a product is waited for, as advice.
pub(super) fn wait_advised() -> (Time, Time) {
    let minutes = |minutes| Time::from_minutes(minutes).unwrap_or(Time::ZERO);
    (minutes(WAIT_MINUTES.0), minutes(WAIT_MINUTES.1))
}

/// How long a product is waited for: as its label says, or as advised where the job asks for a mixing order.
fn wait(job: &Job, product: usize) -> Option<Action> {
    let label = job.products().get(product)?.label().wait;
    let (least, most) = wait_advised();
    match label {
        Some(least) => Some(Action::Wait { product, least, most: None }),
        None => job.mixing().map(|_| Action::Wait { product, least, most: Some(most) }),
    }
}

/// What a filling goes up to: a mark, and a rest that is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    mark: Option<Volume>,
    rest: Option<Volume>,
}

impl Level {
    /// The tank's mark to fill to, where there is one to use: as it is written beside it, whatever a check says that it holds.
    #[must_use]
    pub const fn mark(self) -> Option<Volume> {
        self.mark
    }

    /// What is measured on top of the mark, or in all where there is no mark to use.
    #[must_use]
    pub const fn rest(self) -> Option<Volume> {
        self.rest
    }

    /// Up to a volume, by so much carrier.
    fn reached(to: Volume, carrier: Volume, tank: &Tank) -> Self {
        let measured = Self { mark: None, rest: Some(carrier) };
        let Some(mark) = tank.mark_below(to) else {
            return measured;
        };
        match (is_over(mark.holds, to - carrier), is_close(mark.holds, to)) {
            (true, true) => Self { mark: Some(mark.written), rest: None },
            (true, false) => Self { mark: Some(mark.written), rest: Some(to - mark.holds) },
            (false, _) => measured,
        }
    }
}

/// What to do.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Action {
    /// Fill the tank with the first carrier.
    Fill {
        /// How much.
        carrier: Volume,
        /// Up to where.
        level: Level,
    },
    /// Measure a product, and pour it in unless it is premixed.
    Measure {
        /// Its place in the job.
        product: usize,
    },
    /// Stir the measured product into carrier, and pour that in.
    Premix {
        /// Its place in the job.
        product: usize,
        /// How much carrier.
        carrier: Volume,
    },
    /// Rinse the measure of a product, and pour the rinses in.
    Rinse {
        /// Its place in the job.
        product: usize,
        /// How often.
        times: u64,
        /// How much carrier each time.
        each: Volume,
    },
    /// Rinse the containers of a product that the load empties, and pour the rinses in. Their carrier is a part of the top-up.
    RinseContainers {
        /// Its place in the job.
        product: usize,
        /// How many containers one of the loads empties at most.
        containers: u64,
        /// How often.
        times: u64,
        /// How much carrier each time.
        each: Volume,
    },
    /// Wait until a product is dispersed or dissolved, before the next.
    Wait {
        /// Its place in the job.
        product: usize,
        /// How long at least: what its label asks for, or what is advised.
        least: Time,
        /// How long at most as a rule, where that is advice.
        most: Option<Time>,
    },
    /// Start the agitator, and let it run until the tank is empty.
    StartAgitator,
    /// Agitate until the mix is even.
    Agitate,
    /// Fill up with what is left of the carrier.
    TopUp {
        /// How much.
        carrier: Volume,
        /// Up to where.
        level: Level,
    },
}

/// One step, and what the tank holds after it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    action: Action,
    in_tank: Volume,
}

impl Step {
    /// What to do.
    #[must_use]
    pub const fn action(self) -> Action {
        self.action
    }

    /// What the tank holds after it.
    #[must_use]
    pub const fn in_tank(self) -> Volume {
        self.in_tank
    }

    /// The carrier that it takes.
    #[must_use]
    pub fn carrier(self) -> Volume {
        match self.action {
            Action::Fill { carrier, .. } | Action::Premix { carrier, .. } | Action::TopUp { carrier, .. } => carrier,
            Action::Rinse { times, each, .. } => each * Ratio::of_steps(times),
            Action::Measure { .. }
            | Action::RinseContainers { .. }
            | Action::Wait { .. }
            | Action::StartAgitator
            | Action::Agitate => Volume::ZERO,
        }
    }
}

/// What one product of a load needs in the tank.
struct Addition<'job> {
    index: usize,
    measure: &'job Measure,
    room: Volume,
    premix: Volume,
    rinse: Volume,
}

impl<'job> Addition<'job> {
    fn of(job: &'job Job, index: usize, portion: &Portion) -> Option<Self> {
        let product = job.products().get(index)?;
        let measured = portion.measured.filter(|measured| measured.graduations > 0)?;
        let measure = measured.choice.measure(job, index)?;
        let amount = product.brought_back(measure.shows(measured.graduations));
        let premixed = job.sprayer().kind().is_carried() && product.is_premixed(measure);
        Some(Self {
            index,
            measure,
            room: product.room_of(amount),
            premix: if premixed { premix(amount) } else { Volume::ZERO },
            rinse: match (measure.kind(), measure.capacity()) {
                (MeasureKind::Vessel, Amount::Volume(capacity)) => capacity * Ratio::of_percent(RINSE_PERCENT),
                _ => Volume::ZERO,
            },
        })
    }

    /// Carrier for the premix and the rinses.
    fn carrier(&self) -> Volume {
        self.premix + self.rinse * Ratio::of_steps(RINSES)
    }
}

/// The carrier of a premix.
pub(super) fn premix(amount: Amount) -> Volume {
    let volume = match amount {
        Amount::Volume(volume) => volume,
        Amount::Mass(mass) => mass / premix_density(),
    };
    volume * Ratio::of_steps(PREMIX_PARTS)
}

/// What a product by mass is counted as for its premix: 1 kg/L.
pub(super) fn premix_density() -> Density {
    Density::from_kilograms_per_liter(1.0).unwrap_or(Density::ZERO)
}

/// The carrier that the measured amounts of a load leave.
pub(crate) fn carrier(job: &Job, load: Volume, portions: &[Portion]) -> Volume {
    let additions = portions.iter().enumerate().filter_map(|(index, portion)| Addition::of(job, index, portion));
    Volume::ZERO.max(load - ordered_sum(additions.map(|addition| addition.room)))
}

/// The steps of a load that tops up what the tank holds, with the containers of each product that it empties at most and what one rinse of them takes; or, where rinses and premixes leave no carrier to begin with, the carrier that they need.
pub(crate) fn steps(
    job: &Job,
    order: Option<&MixingOrder>,
    (load, held, carrier): (Volume, Volume, Volume),
    portions: &[Portion],
    containers: &[(u64, Volume)],
) -> Result<Vec<Step>, Volume> {
    let order: Vec<usize> = match order {
        Some(order) => order.products().iter().map(OrderedProduct::product).collect(),
        None => (0..portions.len()).collect(),
    };
    let additions = || order.iter().filter_map(|index| Addition::of(job, *index, portions.get(*index)?));
    let tank = job.tank();
    let (reserved, for_containers) = kept_back(job, portions, containers);
    if is_close(held, load) && additions().next().is_none() {
        return Ok(Vec::new());
    }
    if !is_over(carrier, reserved + for_containers) {
        return Err(reserved + for_containers);
    }
    let level = level_before_marks(job, (load, held, carrier), (reserved, for_containers));
    let level = match tank.mark_below(level).map(|mark| mark.holds) {
        Some(mark) if is_over(mark, held) && !portions.is_empty() => mark.min(held + carrier),
        _ => level,
    };
    let first = if is_over(level, held) { level - held } else { Volume::ZERO };

    let mut steps = Vec::with_capacity(4 * portions.len() + 5);
    let mut in_tank = level;
    // A sum of roundings must not be over the load, which may be the safe fill.
    let mut push = |action, in_tank: Volume| {
        steps.push(Step { action, in_tank: in_tank.min(load) });
    };
    if first > Volume::ZERO {
        push(Action::Fill { carrier: first, level: Level::reached(level, first, tank) }, in_tank);
    }
    if job.mixing().is_some() && !portions.is_empty() && !job.sprayer().kind().is_carried() {
        push(Action::StartAgitator, in_tank);
    }
    for Addition { index: product, measure, room, premix, rinse } in additions() {
        let is_premixed = premix > Volume::ZERO;
        if !is_premixed {
            in_tank = in_tank + room;
        }
        push(Action::Measure { product }, in_tank);
        if is_premixed {
            in_tank = in_tank + room + premix;
            push(Action::Premix { product, carrier: premix }, in_tank);
        }
        if measure.kind() == MeasureKind::Vessel {
            in_tank = in_tank + rinse * Ratio::of_steps(RINSES);
            push(Action::Rinse { product, times: RINSES, each: rinse }, in_tank);
        }
        if let Some(wait) = wait(job, product) {
            push(wait, in_tank);
        }
    }
    for product in order.iter().copied() {
        if let Some((count, each)) = containers.get(product).copied().filter(|(count, _)| *count > 0) {
            push(Action::RinseContainers { product, containers: count, times: CONTAINER_RINSES, each }, in_tank);
        }
    }
    // Not from what is in the tank, whose last digits depend on the order of the products.
    let before = first + reserved;
    if is_over(carrier, before) {
        let top_up = carrier - before;
        if !portions.is_empty() {
            push(Action::Agitate, in_tank);
        }
        push(Action::TopUp { carrier: top_up, level: Level::reached(load, top_up, tank) }, load);
    }
    if !portions.is_empty() {
        push(Action::Agitate, load);
    }
    Ok(steps)
}

/// The carrier that is kept for premixes and rinses of measures, and for those of containers.
pub(super) fn kept_back(job: &Job, portions: &[Portion], containers: &[(u64, Volume)]) -> (Volume, Volume) {
    let additions = portions.iter().enumerate().filter_map(|(index, portion)| Addition::of(job, index, portion));
    let rinsed = |(count, each): &(u64, Volume)| *each * Ratio::of_steps(count.saturating_mul(CONTAINER_RINSES));
    (ordered_sum(additions.map(|addition| addition.carrier())), ordered_sum(containers.iter().map(rinsed)))
}

/// What the tank holds with the first carrier on top of what it held, before that is brought down to a mark.
pub(super) fn level_before_marks(
    job: &Job,
    (load, held, carrier): (Volume, Volume, Volume),
    (reserved, for_containers): (Volume, Volume),
) -> Volume {
    (first_carrier(job, load) - held).max(Volume::ZERO).min(carrier - reserved - for_containers) + held
}

/// The carrier that goes in first, before marks and rinses: half the load, or the most that a label asks for. All of it where
/// nothing is to be mixed in.
fn first_carrier(job: &Job, load: Volume) -> Volume {
    if job.products().is_empty() {
        return load;
    }
    let asked = job.products().iter().filter_map(|product| product.label().first_carrier);
    load * asked.reduce(Ratio::max).unwrap_or(Ratio::of_percent(FIRST_CARRIER_PERCENT))
}
