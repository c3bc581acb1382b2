//! Measures: vessels, scales and counted packs, and amounts in their whole graduations.

mod accuracy;

use alloc::format;
use alloc::string::String;
use alloc::sync::Arc;
use core::fmt;

use crate::error::{Error, ErrorCode};
use crate::quantity::checks::{Checks, answered};
use crate::quantity::close::{
    MOST_STEPS, is_countable, is_over, is_under, steps_down, steps_up, whole_down, whole_nearest,
};
use crate::quantity::{
    AdditiveKind, Kind, Mass, Quantity, Ratio, System, Volume, on_scale, people_unit, positive, scale_unit,
};
use crate::text::{self, legible_name};

use self::accuracy::Accuracy;
pub use self::accuracy::MeasureClass;
pub(crate) use self::accuracy::cylinders;

/// An amount of a product: by volume or by mass.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Amount {
    /// By volume.
    Volume(Volume),
    /// By mass.
    Mass(Mass),
}

/// Runs one expression over two amounts of the same sort.
macro_rules! both {
    ($a:expr, $b:expr, |$x:ident, $y:ident| $body:expr) => {
        match ($a, $b) {
            (Amount::Volume($x), Amount::Volume($y)) => Some($body),
            (Amount::Mass($x), Amount::Mass($y)) => Some($body),
            _ => None,
        }
    };
}

impl Amount {
    /// None of it, of the same sort as this.
    pub(crate) const fn none(self) -> Self {
        match self {
            Self::Volume(_) => Self::Volume(Volume::ZERO),
            Self::Mass(_) => Self::Mass(Mass::ZERO),
        }
    }

    pub(crate) fn times(self, factor: Ratio) -> Self {
        match self {
            Self::Volume(volume) => Self::Volume(volume * factor),
            Self::Mass(mass) => Self::Mass(mass * factor),
        }
    }

    /// Sum; `None` for a volume and a mass.
    pub(crate) fn plus(self, other: Self) -> Option<Self> {
        match (self, other) {
            (Self::Volume(a), Self::Volume(b)) => Some(Self::Volume(a + b)),
            (Self::Mass(a), Self::Mass(b)) => Some(Self::Mass(a + b)),
            _ => None,
        }
    }

    /// Difference; `None` for a volume and a mass.
    pub(crate) fn minus(self, other: Self) -> Option<Self> {
        self.plus(other.times(Ratio::ZERO - Ratio::one()))
    }

    /// How many times the other; `None` for a volume and a mass.
    pub(crate) fn over(self, other: Self) -> Option<Ratio> {
        both!(self, other, |a, b| a / b)
    }

    pub(crate) fn exceeds(self, limit: Self) -> bool {
        both!(self, limit, |a, b| is_over(a, b)).unwrap_or(false)
    }

    pub(crate) fn is_under(self, limit: Self) -> bool {
        both!(self, limit, |a, b| is_under(a, b)).unwrap_or(false)
    }

    /// Claims a quantity as a volume or as a mass.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for anything else.
    pub fn claim(quantity: Quantity) -> Result<Self, Error> {
        match quantity.kind() {
            Kind::Mass => quantity.claim().map(Self::Mass),
            _ => quantity.claim().map(Self::Volume),
        }
    }

    fn positive(self) -> Result<Self, Error> {
        match self {
            Self::Volume(volume) => positive(volume).map(Self::Volume),
            Self::Mass(mass) => positive(mass).map(Self::Mass),
        }
    }
}

impl From<Volume> for Amount {
    fn from(volume: Volume) -> Self {
        Self::Volume(volume)
    }
}

impl From<Mass> for Amount {
    fn from(mass: Mass) -> Self {
        Self::Mass(mass)
    }
}

impl From<Amount> for Quantity {
    fn from(amount: Amount) -> Self {
        match amount {
            Amount::Volume(volume) => volume.into(),
            Amount::Mass(mass) => mass.into(),
        }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        Quantity::from(*self).fmt(f)
    }
}

/// What an amount is measured with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum MeasureKind {
    /// A jug, cylinder or cup, graduated in volume.
    Vessel,
    /// A scale, graduated in mass.
    Scale,
    /// A bag, tablet or bottle that is counted and not divided.
    Pack,
}

impl MeasureKind {
    /// The kinds.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::Vessel, Self::Scale, Self::Pack]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Vessel => "vessel",
            Self::Scale => "scale",
            Self::Pack => "pack",
        }
    }
}

/// A vessel, a scale or a counted pack; its graduation is the smallest step it shows.
///
/// ```
/// use mixcalc::{Measure, Volume};
///
/// let jug = Measure::vessel(Volume::read("1 L")?, Volume::read("10 mL")?)?;
/// assert_eq!(jug.name(), "1 L vessel in steps of 10 mL");
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    name: Arc<str>,
    kind: MeasureKind,
    capacity: Amount,
    graduation: Amount,
    /// Whole graduations that one filling holds.
    marks: u64,
    /// The unit on its scale, as text.
    marked_in: Arc<str>,
    /// How far it may be off, where that is stated.
    accuracy: Option<Accuracy>,
}

impl Measure {
    /// A vessel of a capacity, graduated in steps.
    ///
    /// One filling is at most the whole graduations that fit the capacity. Its name is made from both, until
    /// [`with_name`](Self::with_name) gives it one.
    ///
    /// * `capacity`: the most it holds in one filling.
    /// * `graduation`: the smallest step it shows; amounts are measured in whole ones.
    ///
    /// # Errors
    ///
    /// At `capacity` or `graduation`: [`NotPositive`](ErrorCode::NotPositive) for one that is not above zero;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a graduation over the capacity, or a size that nobody measures;
    /// [`Uncountable`](ErrorCode::Uncountable) for more graduations than are counted exactly.
    ///
    /// # Example
    ///
    /// 46 steps of 10 mL are 460 mL.
    ///
    /// ```
    /// use mixcalc::{ErrorCode, Measure, Volume};
    ///
    /// let jug = Measure::vessel(Volume::read("1 L")?, Volume::read("10 mL")?)?;
    /// assert_eq!(jug.shows(46).to_string(), "460 mL");
    ///
    /// let refused = Measure::vessel(Volume::read("5 mL")?, Volume::read("10 mL")?).unwrap_err();
    /// assert_eq!((refused.code(), refused.path()), (ErrorCode::OutOfRange, "graduation"));
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    pub fn vessel(capacity: Volume, graduation: Volume) -> Result<Self, Error> {
        Self::new(MeasureKind::Vessel, capacity.into(), graduation.into(), None, None)
    }

    /// A scale that weighs up to a capacity, in steps.
    ///
    /// # Errors
    ///
    /// As [`vessel`](Self::vessel).
    pub fn scale(capacity: Mass, graduation: Mass) -> Result<Self, Error> {
        Self::new(MeasureKind::Scale, capacity.into(), graduation.into(), None, None)
    }

    /// A pack of a content that is counted and not divided.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a content that is not above zero.
    pub fn pack(content: impl Into<Amount>) -> Result<Self, Error> {
        let content = content.into();
        Self::new(MeasureKind::Pack, content, content, None, None)
    }

    /// A measure; the unit on its scale and its name follow from its size where they are not stated.
    pub(crate) fn new(
        kind: MeasureKind,
        capacity: Amount,
        graduation: Amount,
        unit: Option<&str>,
        name: Option<&str>,
    ) -> Result<Self, Error> {
        let capacity = capacity.positive().map_err(|error| error.at("capacity"))?;
        let graduation = graduation.positive().map_err(|error| error.at("graduation"))?;
        let steps = capacity.over(graduation).unwrap_or(Ratio::ZERO);
        let marks = steps_down(steps).ok_or_else(|| uncountable(graduation).at("graduation"))?;
        if marks == 0 {
            return Err(Error::new(ErrorCode::OutOfRange)
                .at("graduation")
                .given(graduation)
                .allowed(format_args!("{} {capacity}", text::word("at most the capacity,"))));
        }
        let (marked_in, system) = match unit {
            Some(unit) => (unit, system_of(graduation, unit).map_err(|error| error.at("marked_in"))?),
            None => (people_unit(graduation.into()), System::Metric),
        };
        let name = match name {
            Some(name) => legible_name(name)?,
            None => named(kind, capacity, graduation, system).into(),
        };
        let marked_in = marked_in.into();
        Ok(Self { name, kind, capacity, graduation, marks, marked_in, accuracy: None })
    }

    /// Gives it a name.
    ///
    /// # Errors
    ///
    /// At `name`: [`MissingInput`](ErrorCode::MissingInput) for a blank one; [`OutOfRange`](ErrorCode::OutOfRange) for one of over 1000
    /// characters.
    pub fn with_name(mut self, name: &str) -> Result<Self, Error> {
        self.name = legible_name(name)?;
        Ok(self)
    }

    /// States the unit on its scale, in which people are then shown amounts.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a unit that its graduation is not measured in, and the codes of reading a unit.
    pub fn marked_in(mut self, unit: &str) -> Result<Self, Error> {
        let system = system_of(self.graduation, unit)?;
        if self.name.as_ref() == named(self.kind, self.capacity, self.graduation, System::Metric) {
            self.name = named(self.kind, self.capacity, self.graduation, system).into();
        }
        self.marked_in = unit.into();
        Ok(self)
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its kind.
    #[must_use]
    pub const fn kind(&self) -> MeasureKind {
        self.kind
    }

    /// The most it holds or weighs; a pack's content.
    #[must_use]
    pub const fn capacity(&self) -> Amount {
        self.capacity
    }

    /// The smallest step it shows.
    #[must_use]
    pub const fn graduation(&self) -> Amount {
        self.graduation
    }

    /// The unit on its scale.
    #[must_use]
    pub fn unit(&self) -> &str {
        &self.marked_in
    }

    /// The amount that so many graduations are.
    #[must_use]
    pub fn shows(&self, graduations: u64) -> Amount {
        self.graduation.times(Ratio::of_steps(graduations))
    }

    /// An amount in the unit on its scale: `460 mL`.
    pub(crate) fn reading(&self, amount: Amount) -> String {
        on_scale(amount.into(), &self.marked_in)
    }

    /// How an amount of this measure's sort is poured: full fillings, and graduations of one more that is not full.
    pub(crate) fn fillings(&self, graduations: u64) -> Fillings {
        Fillings { full: graduations / self.marks, marks: self.marks, last: graduations % self.marks }
    }

    /// What it shows at so many graduations, as it reads: 110 oz av on a scale in half ounces, where the sum in SI units is a last digit off.
    #[must_use]
    pub fn read_at(&self, graduations: u64) -> Quantity {
        let shown = Quantity::from(self.shows(graduations));
        let read = Quantity::read(&on_scale(shown, &self.marked_in)).and_then(|read| read.claim_kind(shown.kind()));
        read.ok().filter(|read| read.is_close(shown).unwrap_or(false)).unwrap_or(shown)
    }

    /// Graduations for an amount: nearest, a half going down, and never over the ceiling. `None` below one graduation.
    pub(crate) fn graduations(&self, amount: Amount, ceiling: Amount) -> Result<Option<u64>, Error> {
        nearest(amount, self.graduation, ceiling)
    }

    /// The whole graduations that are not over a ceiling.
    pub(crate) fn most_graduations(&self, ceiling: Amount) -> u64 {
        most_within(ceiling, self.graduation)
    }

    /// Fillings that an amount takes; a pack takes one, however many are counted.
    pub(crate) fn fillings_for(&self, amount: Amount) -> u64 {
        match self.kind {
            MeasureKind::Pack => 1,
            _ => amount.over(self.shows(self.marks)).and_then(steps_up).unwrap_or(u64::MAX).max(1),
        }
    }
}

/// The trade of a unit that a graduation is stated in.
fn system_of(graduation: Amount, unit: &str) -> Result<System, Error> {
    Ok(scale_unit(unit, Quantity::from(graduation).kind())?.system.unwrap_or(System::Metric))
}

/// The name of a measure that nobody named.
fn named(kind: MeasureKind, capacity: Amount, graduation: Amount, system: System) -> String {
    let people = |amount: Amount| Quantity::from(amount).to_people(system);
    let template = text::measure_name(kind);
    text::filled(template, &[("capacity", &people(capacity)), ("graduation", &people(graduation))])
}

/// Whole graduations nearest to an amount, a half going down, and never over the maximum: `min(steps_nearest(x / g), steps_down(M / g))`.
///
/// * `amount` (x): what the dose asks for.
/// * `graduation` (g): the smallest step that the measure shows.
/// * `maximum` (M): the most that the label allows; the amount itself where it allows no more.
///
/// # Errors
///
/// [`NotPositive`](ErrorCode::NotPositive) for an input that is not above zero; [`OutOfRange`](ErrorCode::OutOfRange) for an `amount` below
/// one graduation, which cannot be measured, or over the `maximum`, or a size that nobody measures;
/// [`WrongQuantity`](ErrorCode::WrongQuantity) for a volume beside a mass; [`Uncountable`](ErrorCode::Uncountable).
///
/// # Example
///
/// 466 mL in steps of 10 mL are 47 steps, but 46 where 466 mL is the most.
///
/// ```
/// use mixcalc::{Volume, graduations};
///
/// let [amount, step, most] = [Volume::read("466 mL")?, Volume::read("10 mL")?, Volume::read("500 mL")?];
/// assert_eq!(graduations(amount.into(), step.into(), most.into())?, 47);
/// assert_eq!(graduations(amount.into(), step.into(), amount.into())?, 46);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// `docs/numbers.md`, sections 1 and 6.
pub fn graduations(amount: Amount, graduation: Amount, maximum: Amount) -> Result<u64, Error> {
    let counted = match (amount, graduation, maximum) {
        (Amount::Volume(x), Amount::Volume(g), Amount::Volume(most)) => {
            answered(|checks| formula::graduations(checks, x, g, most))?
        }
        (Amount::Mass(x), Amount::Mass(g), Amount::Mass(most)) => {
            answered(|checks| formula::graduations(checks, x, g, most))?
        }
        _ => {
            for (input, name) in [(amount, "amount"), (graduation, "graduation"), (maximum, "maximum")] {
                input.positive().map_err(|error| error.at(name))?;
            }
            for (other, name) in [(graduation, "graduation"), (maximum, "maximum")] {
                Quantity::from(other).claim_kind(Quantity::from(amount).kind()).map_err(|error| error.at(name))?;
            }
            Ratio::ZERO
        }
    };
    Ok(steps_down(counted).unwrap_or(MOST_STEPS))
}

/// The formulas, each for one number and for a column.
pub(crate) mod formula {
    use super::{AdditiveKind, Checks, ErrorCode, Ratio, is_countable, is_over, is_under, nearest_within, text};

    #[inline(always)]
    pub(crate) fn graduations<Q: AdditiveKind>(
        checks: &mut impl Checks,
        amount: Q,
        graduation: Q,
        maximum: Q,
    ) -> Ratio {
        let (amount, graduation) = (checks.divisor(amount, "amount"), checks.divisor(graduation, "graduation"));
        let maximum = checks.divisor(maximum, "maximum");
        checks.must(!is_over(amount, maximum), ErrorCode::OutOfRange, |error| {
            let allowed = text::word("at most the maximum,");
            error.at("amount").given(amount).allowed(format_args!("{allowed} {maximum}"))
        });
        let (nearest, within) = nearest_within(amount / graduation, maximum / graduation);
        checks.must(is_countable(nearest), ErrorCode::Uncountable, |error| {
            error.at("graduation").given(graduation).allowed(super::MOST_STEPS)
        });
        checks.must(!is_under(amount, graduation), ErrorCode::OutOfRange, |error| {
            let allowed = text::word("at least one graduation,");
            error.at("amount").given(amount).allowed(format_args!("{allowed} {graduation}"))
        });
        within
    }
}

/// Whole graduations nearest to an amount, a half going down, and those of them that are not over a maximum, one at least; both amounts in
/// graduations.
#[inline(always)]
fn nearest_within(amount: Ratio, maximum: Ratio) -> (Ratio, Ratio) {
    let (nearest, most) = (whole_nearest(amount), whole_down(maximum));
    (nearest, nearest.min(most).max(Ratio::one()))
}

/// Graduations for an amount: nearest, a half going down, and never over the ceiling. `None` below one graduation.
fn nearest(amount: Amount, graduation: Amount, ceiling: Amount) -> Result<Option<u64>, Error> {
    let (nearest, within) = nearest_within(steps(amount, graduation), steps(ceiling, graduation));
    if !is_countable(nearest) {
        return Err(uncountable(graduation));
    }
    let enough = !amount.is_under(graduation);
    Ok(enough.then(|| steps_down(within).unwrap_or(MOST_STEPS)))
}

/// Whole graduations that are not over a ceiling.
fn most_within(ceiling: Amount, graduation: Amount) -> u64 {
    steps_down(steps(ceiling, graduation)).unwrap_or(MOST_STEPS)
}

fn steps(amount: Amount, graduation: Amount) -> Ratio {
    amount.over(graduation).unwrap_or(Ratio::ZERO)
}

pub(crate) fn uncountable(graduation: Amount) -> Error {
    Error::new(ErrorCode::Uncountable).given(graduation).allowed(format!("{MOST_STEPS}"))
}

/// How an amount is poured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fillings {
    full: u64,
    marks: u64,
    last: u64,
}

impl Fillings {
    /// Counts of fillings, each with its graduations: the full ones, then the one that is not full.
    pub fn groups(self) -> impl Iterator<Item = (u64, u64)> {
        [(self.full, self.marks), (1, self.last)]
            .into_iter()
            .filter(|(count, graduations)| *count > 0 && *graduations > 0)
    }
}
