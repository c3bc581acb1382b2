//! How well an amount is measured: tolerances of vessels and scales by their class, as data, and what they make of an amount.

use alloc::format;

use super::{Amount, Measure, MeasureKind};
use crate::error::{Error, ErrorCode};
use crate::quantity::close::is_over;
use crate::quantity::{Kind, Quantity, Ratio, Volume, not_negative};
use crate::text;
use crate::uncertainty::{of_rectangular, root_of_squares};

/// Capacities of glass cylinders, how far one of class A is off at most (class B twice as far), and their steps, all in mL. ISO 4788:2005
/// (certain).
const CYLINDER_CAPACITIES: [f64; 8] = [10.0, 25.0, 50.0, 100.0, 250.0, 500.0, 1000.0, 2000.0];
const CYLINDER_OFF: [f64; 8] = [0.1, 0.25, 0.5, 0.5, 1.0, 2.5, 5.0, 10.0];
const CYLINDER_STEPS: [f64; 8] = [0.2, 0.5, 1.0, 1.0, 2.0, 5.0, 10.0, 20.0];
/// Plastic cylinders are off once or twice as far as glass of class B (ISO 6706, probable): twice is taken, four times class A.
const PLASTIC_OF_CLASS_A: f64 = 4.0;
/// Parts of what is read, in percent: the far ends of the ranges that are named.
const FLASK_PERCENT: f64 = 5.0;
const JUG_PERCENT: f64 = 5.0;
const UNCHECKED_JUG_PERCENT: f64 = 10.0;
const CUP_PERCENT: f64 = 10.0;
const CAP_PERCENT: f64 = 10.0;
const POWDER_CUP_PERCENT: f64 = 15.0;
/// Syringes (ISO 7886-1, probable): from half the capacity on, a part of what is pressed out; below, a part of the capacity and a part of
/// what is pressed out. Small ones hold under 5 mL.
const SMALL_SYRINGE_BELOW: f64 = 5.0;
const SYRINGE_PERCENT: (f64, f64) = (4.0, 5.0);
const SYRINGE_OF_CAPACITY_PERCENT: f64 = 1.5;
const SYRINGE_OF_CONTENT_PERCENT: (f64, f64) = (1.0, 2.0);
/// Steps that a scale is off within its class, at most (OIML R 76, probable).
const SCALE_STEPS: f64 = 1.5;
/// A vessel is read to a quarter of a step, as a standard uncertainty (extension and laboratory practice: a quarter to a fifth).
const READING: f64 = 0.25;
/// The coverage factor of what is told.
const COVERAGE_FACTOR: f64 = 2.0;

text::named! {
    /// What sort of vessel or scale it is, which says how far it may be off.
    ///
    /// ```
    /// use mixcalc::MeasureClass;
    ///
    /// assert_eq!(MeasureClass::CylinderB.name(), "cylinder-b");
    /// assert!(!MeasureClass::UncheckedJug.is_verified());
    /// ```
    #[non_exhaustive]
    MeasureClass {
        /// A measuring cylinder of glass, class A.
        CylinderA = "cylinder-a";
        /// A measuring cylinder of glass, class B.
        CylinderB = "cylinder-b";
        /// A measuring cylinder of plastic.
        PlasticCylinder = "plastic-cylinder";
        /// A conical flask or the like, marked for orientation.
        Flask = "flask";
        /// A moulded jug whose marks were checked.
        Jug = "jug";
        /// A moulded jug whose marks nobody checked.
        UncheckedJug = "unchecked-jug";
        /// A syringe.
        Syringe = "syringe";
        /// A cup or spoon made for a household.
        Cup = "cup";
        /// The cap or the chamber of a product's own bottle.
        Cap = "cap";
        /// A product's own cup for powder or granules.
        PowderCup = "powder-cup";
        /// A kitchen or platform scale.
        Scale = "scale";
    }
}

impl MeasureClass {
    /// The kind of measure that may be of it.
    #[must_use]
    pub const fn kind(self) -> MeasureKind {
        match self {
            Self::Scale => MeasureKind::Scale,
            _ => MeasureKind::Vessel,
        }
    }

    /// Who says how far it may be off, and how sure that is.
    #[must_use]
    pub const fn source(self) -> &'static str {
        text::measure_class(self)
    }

    /// Whether its tolerance is from a source; else it is a figure of custom, and a plan says so.
    #[must_use]
    pub const fn is_verified(self) -> bool {
        !matches!(self, Self::UncheckedJug | Self::Cap)
    }
}

/// How far a measure may be off: as its class has it, or as stated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Accuracy {
    Class(MeasureClass),
    /// In each filling, anywhere on the scale.
    Amount(Amount),
    /// Of what is read.
    Share(Ratio),
}

fn milliliters(milliliters: f64) -> Volume {
    Volume::from_milliliters(milliliters).unwrap_or_default()
}

/// What a cylinder of class A is off at most: as the smallest of the standard's that holds as much.
fn cylinder(capacity: Volume) -> Option<Volume> {
    let holds = |(size, _): &(f64, f64)| !is_over(capacity, milliliters(*size));
    CYLINDER_CAPACITIES.into_iter().zip(CYLINDER_OFF).find(holds).map(|(_, off)| milliliters(off))
}

/// The measuring cylinders of the standard, class B, and the smallest first.
pub(crate) fn cylinders() -> impl Iterator<Item = Measure> {
    CYLINDER_CAPACITIES.into_iter().zip(CYLINDER_STEPS).filter_map(|(capacity, step)| {
        let cylinder = Measure::vessel(milliliters(capacity), milliliters(step)).ok()?;
        cylinder.marked_in("mL").ok()?.with_class(MeasureClass::CylinderB).ok()
    })
}

impl Measure {
    /// States its class, which says how far it may be off.
    ///
    /// # Errors
    ///
    /// At `class`: [`UnknownChoice`](ErrorCode::UnknownChoice) for a class of another kind of measure;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a cylinder that holds more than the standard has;
    /// [`BothGiven`](ErrorCode::BothGiven) beside a tolerance.
    ///
    /// # Example
    ///
    /// 10 mL in a cylinder of 100 mL, class B: off by 1 mL at most, and read to a quarter of 1 mL.
    /// `2 sqrt((1 / sqrt(3))^2 + 0.25^2) / 10` is 12.6 %.
    ///
    /// ```
    /// use mixcalc::{Measure, MeasureClass, Volume};
    ///
    /// let cylinder = Measure::vessel(Volume::read("100 mL")?, Volume::read("1 mL")?)?.with_class(MeasureClass::CylinderB)?;
    /// let percent = cylinder.uncertainty(10).unwrap().number() * 100.0;
    /// assert!((percent - 12.583057392117917).abs() < 1e-9);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    pub fn with_class(self, class: MeasureClass) -> Result<Self, Error> {
        let refused = |code| Error::new(code).at("class").given(text::quoted(class.name()));
        if class.kind() != self.kind {
            let of_kind = MeasureClass::all().iter().filter(|class| class.kind() == self.kind);
            let names: alloc::vec::Vec<&str> = of_kind.map(|class| class.name()).collect();
            let allowed = if names.is_empty() { text::PACK_TOLERANCE.into() } else { text::one_of(&names) };
            return Err(refused(ErrorCode::UnknownChoice).allowed(allowed));
        }
        let is_cylinder =
            matches!(class, MeasureClass::CylinderA | MeasureClass::CylinderB | MeasureClass::PlasticCylinder);
        match self.capacity {
            Amount::Volume(capacity) if is_cylinder && cylinder(capacity).is_none() => {
                Err(Error::new(ErrorCode::OutOfRange)
                    .at("class")
                    .given(format!("{} {capacity}", text::quoted(class.name())))
                    .allowed(text::LARGEST_CYLINDER))
            }
            _ => self.with_accuracy(Accuracy::Class(class)),
        }
    }

    /// States how far it may be off: in each filling, as an amount of its sort, or as a part of what is read.
    ///
    /// # Errors
    ///
    /// At `tolerance`: [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) unless it is of the measure's sort or a ratio;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for one below zero, or of the whole; [`BothGiven`](ErrorCode::BothGiven) beside a class.
    pub fn with_tolerance(self, tolerance: Quantity) -> Result<Self, Error> {
        let accuracy =
            if tolerance.kind() == Kind::Ratio { self.share(tolerance.claim()?) } else { self.like(tolerance) };
        let accuracy = accuracy.map_err(|error| error.at("tolerance"))?;
        self.with_accuracy(accuracy)
    }

    fn share(&self, share: Ratio) -> Result<Accuracy, Error> {
        let share = not_negative(share)?;
        if share < Ratio::one() {
            return Ok(Accuracy::Share(share));
        }
        Err(Error::new(ErrorCode::OutOfRange).given(share).allowed(text::word("from 0 % to under 100 %")))
    }

    fn like(&self, tolerance: Quantity) -> Result<Accuracy, Error> {
        let amount = match self.graduation {
            Amount::Volume(_) => tolerance.claim().and_then(not_negative).map(Amount::Volume),
            Amount::Mass(_) => tolerance.claim().and_then(not_negative).map(Amount::Mass),
        }?;
        if amount.exceeds(self.capacity) {
            let allowed = format!("{} {}", text::word("at most the capacity,"), self.capacity);
            return Err(Error::new(ErrorCode::OutOfRange).given(amount).allowed(allowed));
        }
        Ok(Accuracy::Amount(amount))
    }

    fn with_accuracy(mut self, accuracy: Accuracy) -> Result<Self, Error> {
        if self.accuracy.is_some() {
            let error = Error::new(ErrorCode::BothGiven).at("tolerance");
            return Err(error.given(text::word("class and tolerance")).allowed(text::word("one of them")));
        }
        self.accuracy = Some(accuracy);
        Ok(self)
    }

    /// Its class, where that is stated.
    #[must_use]
    pub const fn class(&self) -> Option<MeasureClass> {
        match self.accuracy {
            Some(Accuracy::Class(class)) => Some(class),
            _ => None,
        }
    }

    /// How far it may be off, where that is stated by itself.
    #[must_use]
    pub fn tolerance(&self) -> Option<Quantity> {
        match self.accuracy? {
            Accuracy::Class(_) => None,
            Accuracy::Amount(amount) => Some(amount.into()),
            Accuracy::Share(share) => Some(share.into()),
        }
    }

    /// How uncertain so many graduations of it are, as a part of the amount: the expanded uncertainty with a coverage factor of 2, about 95 %.
    /// `None` where neither class nor tolerance is stated, and for none.
    ///
    /// What the measure is off adds from filling to filling, what it is misread does not: `U = 2 sqrt((sum(a) / sqrt(3))^2 + n u^2) / x`.
    ///
    /// # Source
    ///
    /// `docs/numbers.md`, 21. JCGM 100:2008, 4.3.7 and 5.1.2.
    #[must_use]
    pub fn uncertainty(&self, graduations: u64) -> Option<Ratio> {
        self.standard_uncertainty(graduations).map(|uncertainty| uncertainty * COVERAGE_FACTOR)
    }

    /// The same with a coverage factor of 1.
    pub(crate) fn standard_uncertainty(&self, graduations: u64) -> Option<Ratio> {
        let accuracy = self.accuracy?;
        let groups = || self.fillings(graduations).groups();
        let off = crate::quantity::ordered_sum(
            groups().map(|(count, marks)| self.off(accuracy, marks) * Ratio::of_steps(count)),
        );
        let fillings: u64 = groups().map(|(count, _)| count).sum();
        let reading = self.reading_error() * libm::sqrt(Ratio::of_steps(fillings).number());
        let spread = root_of_squares([of_rectangular(off), reading].into_iter());
        (graduations > 0).then(|| spread / Ratio::of_steps(graduations))
    }

    /// How far one filling may be off, in graduations.
    fn off(&self, accuracy: Accuracy, marks: u64) -> Ratio {
        let read = Ratio::of_steps(marks);
        let share = |percent: f64| read * Ratio::of_percent(percent);
        let in_steps = |amount: Amount| amount.over(self.graduation).unwrap_or(Ratio::ZERO);
        let class = match accuracy {
            Accuracy::Amount(amount) => return in_steps(amount),
            Accuracy::Share(part) => return read * part,
            Accuracy::Class(class) => class,
        };
        let cylinder = |times: f64| match self.capacity {
            Amount::Volume(capacity) => in_steps(Amount::Volume(cylinder(capacity).unwrap_or(capacity))) * times,
            Amount::Mass(_) => Ratio::ZERO,
        };
        match class {
            MeasureClass::CylinderA => cylinder(1.0),
            MeasureClass::CylinderB => cylinder(2.0),
            MeasureClass::PlasticCylinder => cylinder(PLASTIC_OF_CLASS_A),
            MeasureClass::Flask => share(FLASK_PERCENT),
            MeasureClass::Jug => share(JUG_PERCENT),
            MeasureClass::UncheckedJug => share(UNCHECKED_JUG_PERCENT),
            MeasureClass::Cup => share(CUP_PERCENT),
            MeasureClass::Cap => share(CAP_PERCENT),
            MeasureClass::PowderCup => share(POWDER_CUP_PERCENT),
            MeasureClass::Scale => Ratio::one() * SCALE_STEPS,
            MeasureClass::Syringe => {
                let capacity = in_steps(self.capacity);
                let is_small = Amount::Volume(milliliters(SMALL_SYRINGE_BELOW)).exceeds(self.capacity);
                let of = |(large, small): (f64, f64)| share(if is_small { small } else { large });
                if is_over(capacity * 0.5, read) {
                    capacity * Ratio::of_percent(SYRINGE_OF_CAPACITY_PERCENT) + of(SYRINGE_OF_CONTENT_PERCENT)
                } else {
                    of(SYRINGE_PERCENT)
                }
            }
        }
    }

    /// The standard uncertainty of one reading, in graduations.
    fn reading_error(&self) -> Ratio {
        match self.kind {
            MeasureKind::Vessel => Ratio::one() * READING,
            MeasureKind::Scale => of_rectangular(Ratio::one() * 0.5),
            MeasureKind::Pack => Ratio::ZERO,
        }
    }
}
