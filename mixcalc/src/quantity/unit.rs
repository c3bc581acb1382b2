//! The units: each exact factor once, with its source.
//!
//! Sources: the SI brochure (BIPM, 9th edition, 2019) for SI and the units accepted with it; the international yard and pound
//! agreement of 1959 (yard 0.9144 m, pound 0.453 592 37 kg exactly); NIST Handbook 44, Appendix C (US liquid measures from the
//! gallon of 231 cubic inches, the international and the survey acre); Weights and Measures Act 1985, Schedule 1 (gallon of
//! 4.546 09 L and its parts); UCUM 2.2 for the codes in brackets.

use super::dimension::Dimension;
use super::kind::Kind;

/// A unit in coherent SI units, as a fraction of two doubles that are exact (plus an offset for thermometers).
///
/// Two exact parts, because 1 L/ha is 1e-7 m and no double is: a division by 1e7 is rounded once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Factor {
    numerator: f64,
    denominator: f64,
    offset: f64,
}

impl Factor {
    pub(super) const ONE: Self = Self::new(1.0, 1.0);

    /// No unit: nothing over nothing.
    #[cfg(feature = "columns")]
    pub(super) const NOTHING: Self = Self::new(0.0, 0.0);

    const fn new(numerator: f64, denominator: f64) -> Self {
        Self { numerator, denominator, offset: 0.0 }
    }

    /// This many of it.
    pub(super) const fn many(self, count: f64) -> Self {
        Self::new(self.numerator * count, self.denominator)
    }

    /// One of so many equal parts.
    const fn part(self, of: f64) -> Self {
        Self::new(self.numerator, self.denominator * of)
    }

    /// This unit per another one, reduced where one part divides the other, to stay exact.
    pub(super) const fn per(self, below: Self) -> Self {
        Self::new(self.numerator * below.denominator, self.denominator * below.numerator).reduced()
    }

    /// This unit per another one; one where they are the same.
    #[cfg(feature = "columns")]
    pub(super) const fn per_or_one(self, other: Self) -> Self {
        let is_other = same(self.numerator, other.numerator) && same(self.denominator, other.denominator);
        if is_other { Self::ONE } else { self.per(other) }
    }

    const fn reduced(self) -> Self {
        let (up, down) = (self.numerator / self.denominator, self.denominator / self.numerator);
        if is_whole(down) && same(down * self.numerator, self.denominator) {
            Self::new(1.0, down)
        } else if is_whole(up) && same(up * self.denominator, self.numerator) {
            Self::new(up, 1.0)
        } else {
            self
        }
    }

    /// Whether it is a unit at all: numbers below the line may be so large or small that none is left.
    pub(super) const fn is_normal(self) -> bool {
        (self.numerator / self.denominator).is_normal()
    }

    pub(super) const fn to_si(self, value: f64) -> f64 {
        value * self.numerator / self.denominator + self.offset
    }

    /// A value in this unit as one in another unit of the same dimension: one rounding where the two are whole multiples.
    pub(super) fn converted_to(self, other: Self, value: f64) -> f64 {
        if same(self.offset, 0.0) && same(other.offset, 0.0) {
            self.per(other).to_si(value)
        } else {
            other.of_si(self.to_si(value))
        }
    }

    pub(super) const fn of_si(self, value: f64) -> f64 {
        (value - self.offset) * self.denominator / self.numerator
    }
}

/// Whether two words are one, while compiling.
#[cfg(feature = "columns")]
pub(super) const fn is_word(a: &str, b: &str) -> bool {
    let (mut a, mut b) = (a.as_bytes(), b.as_bytes());
    while let ([first, rest @ ..], [other, others @ ..]) = (a, b) {
        if *first != *other {
            return false;
        }
        (a, b) = (rest, others);
    }
    a.is_empty() && b.is_empty()
}

const fn same(a: f64, b: f64) -> bool {
    a.to_bits() == b.to_bits()
}

const fn is_whole(number: f64) -> bool {
    number >= 1.0 && same(number % 1.0, 0.0)
}

/// Which trade's measures a unit belongs to; units of SI and of every trade have none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum System {
    /// Liters, kilograms, hectares.
    Metric,
    /// US customary measures.
    Us,
    /// Imperial measures.
    Imperial,
}

impl System {
    /// The three systems.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::Metric, Self::Us, Self::Imperial]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Us => "US",
            Self::Imperial => "imperial",
        }
    }

    /// The trade whose measures a unit text belongs to; `None` for a text that is no unit, and for one that every trade uses.
    #[must_use]
    pub fn of_unit(unit: &str) -> Option<Self> {
        super::read::unit(unit).ok().and_then(|unit| unit.system)
    }
}

/// One unit word: the words it is known by (its own symbol first, then others, then its UCUM code), its factor, what it measures.
#[derive(Debug)]
pub(super) struct Unit {
    pub(super) words: &'static [&'static str],
    pub(super) factor: Factor,
    pub(super) kind: Kind,
    pub(super) system: Option<System>,
}

pub(super) const METER: Factor = Factor::ONE;
pub(super) const INCH: Factor = Factor::new(254.0, 10_000.0); // a thirty-sixth of the yard
pub(super) const FOOT: Factor = Factor::new(3_048.0, 10_000.0);
const YARD: Factor = Factor::new(9_144.0, 10_000.0);
const MILE: Factor = Factor::new(1_609_344.0, 1_000.0); // 1760 yd

pub(super) const SQUARE_METER: Factor = Factor::ONE;
pub(super) const HECTARE: Factor = Factor::new(10_000.0, 1.0);
const SQUARE_INCH: Factor = Factor::new(64_516.0, 100_000_000.0);
pub(super) const SQUARE_FOOT: Factor = Factor::new(9_290_304.0, 100_000_000.0);
const SQUARE_YARD: Factor = Factor::new(83_612_736.0, 100_000_000.0);
/// International acre: 4840 square yards of the international yard.
pub(super) const ACRE: Factor = Factor::new(40_468_564_224.0, 10_000_000.0);
/// US survey acre: 43 560 square survey feet of 1200/3937 m; 4 ppm larger. UCUM's `[acr_us]` is this one.
const SURVEY_ACRE: Factor = Factor::new(43_560.0 * 1_440_000.0, 15_499_969.0);

pub(super) const CUBIC_METER: Factor = Factor::ONE;
pub(super) const LITER: Factor = CUBIC_METER.part(1e3);
pub(super) const MILLILITER: Factor = CUBIC_METER.part(1e6);
const CUBIC_INCH: Factor = Factor::new(16_387_064.0, 1e12);
const CUBIC_FOOT: Factor = Factor::new(28_316_846_592.0, 1e12);
const CUBIC_YARD: Factor = Factor::new(764_554_857_984.0, 1e12);
pub(super) const US_GALLON: Factor = Factor::new(3_785_411_784.0, 1e12); // 231 cubic inches
const US_QUART: Factor = US_GALLON.part(4.0);
pub(super) const US_PINT: Factor = US_GALLON.part(8.0);
const US_CUP: Factor = US_GALLON.part(16.0);
pub(super) const US_FLUID_OUNCE: Factor = US_GALLON.part(128.0);
const US_TABLESPOON: Factor = US_GALLON.part(256.0);
const US_TEASPOON: Factor = US_GALLON.part(768.0);
pub(super) const IMPERIAL_GALLON: Factor = Factor::new(454_609.0, 1e8);
const IMPERIAL_QUART: Factor = IMPERIAL_GALLON.part(4.0);
const IMPERIAL_PINT: Factor = IMPERIAL_GALLON.part(8.0);
const IMPERIAL_FLUID_OUNCE: Factor = IMPERIAL_GALLON.part(160.0);

pub(super) const KILOGRAM: Factor = Factor::ONE;
pub(super) const GRAM: Factor = KILOGRAM.part(1e3);
pub(super) const POUND: Factor = Factor::new(45_359_237.0, 1e8);
pub(super) const OUNCE_AVOIRDUPOIS: Factor = POUND.part(16.0);

pub(super) const SECOND: Factor = Factor::ONE;
pub(super) const MINUTE: Factor = SECOND.many(60.0);
pub(super) const HOUR: Factor = SECOND.many(3_600.0);
pub(super) const DAY: Factor = SECOND.many(86_400.0);

pub(super) const DEGREE_CELSIUS: Factor = Factor { offset: 273.15, ..Factor::ONE };
/// t/°F = 9/5 t/°C + 32, so that 0 °F is 273.15 K - 160/9 K.
pub(super) const DEGREE_FAHRENHEIT: Factor = Factor { numerator: 5.0, denominator: 9.0, offset: 273.15 - 160.0 / 9.0 };

pub(super) const KILOMETER_PER_HOUR: Factor = METER.many(1e3).per(HOUR);
pub(super) const MILE_PER_HOUR: Factor = Factor::new(44_704.0, 100_000.0);

const PASCAL: Factor = Factor::ONE;
pub(super) const KILOPASCAL: Factor = PASCAL.many(1e3);
pub(super) const BAR: Factor = PASCAL.many(1e5);
/// Pound-force (0.453 592 37 kg x 9.806 65 m/s2) per square inch.
pub(super) const POUND_PER_SQUARE_INCH: Factor = Factor::new(44_482_216_152_605.0, 6_451_600_000.0);

pub(super) const PERCENT: Factor = Factor::ONE.part(1e2);
const PART_PER_MILLION: Factor = Factor::ONE.part(1e6);
/// One percent weight in volume is a gram in 100 mL.
const PERCENT_WEIGHT_IN_VOLUME: Factor = GRAM.per(MILLILITER.many(100.0));
/// One ppm weight in volume is a milligram in a liter.
const PPM_WEIGHT_IN_VOLUME: Factor = KILOGRAM.part(1e6).per(LITER);

const fn unit(words: &'static [&'static str], factor: Factor, kind: Kind) -> Unit {
    Unit { words, factor, kind, system: None }
}

const fn metric(words: &'static [&'static str], factor: Factor, kind: Kind) -> Unit {
    Unit { words, factor, kind, system: Some(System::Metric) }
}

const fn us(words: &'static [&'static str], factor: Factor, kind: Kind) -> Unit {
    Unit { words, factor, kind, system: Some(System::Us) }
}

const fn imperial(words: &'static [&'static str], factor: Factor, kind: Kind) -> Unit {
    Unit { words, factor, kind, system: Some(System::Imperial) }
}

/// Every unit word that is read.
pub(super) static UNITS: &[Unit] = &[
    metric(&["m"], METER, Kind::Length),
    metric(&["µm", "μm", "um"], METER.part(1e6), Kind::Length),
    metric(&["mm"], METER.part(1e3), Kind::Length),
    metric(&["cm"], METER.part(1e2), Kind::Length),
    metric(&["dm"], METER.part(1e1), Kind::Length),
    metric(&["km"], METER.many(1e3), Kind::Length),
    unit(&["in", "[in_i]"], INCH, Kind::Length),
    unit(&["ft", "[ft_i]"], FOOT, Kind::Length),
    unit(&["yd", "[yd_i]"], YARD, Kind::Length),
    unit(&["mi", "[mi_i]"], MILE, Kind::Length),
    metric(&["ha", "har"], HECTARE, Kind::Area),
    metric(&["m2", "m²"], SQUARE_METER, Kind::Area),
    metric(&["mm2", "mm²"], SQUARE_METER.part(1e6), Kind::Area),
    metric(&["cm2", "cm²"], SQUARE_METER.part(1e4), Kind::Area),
    metric(&["dm2", "dm²"], SQUARE_METER.part(1e2), Kind::Area),
    metric(&["km2", "km²"], SQUARE_METER.many(1e6), Kind::Area),
    unit(&["ac"], ACRE, Kind::Area),
    unit(&["[acr_us]"], SURVEY_ACRE, Kind::Area),
    unit(&["in2", "in²", "[sin_i]"], SQUARE_INCH, Kind::Area),
    unit(&["ft2", "ft²", "[sft_i]"], SQUARE_FOOT, Kind::Area),
    unit(&["yd2", "yd²", "[syd_i]"], SQUARE_YARD, Kind::Area),
    metric(&["L", "l"], LITER, Kind::Volume),
    metric(&["µL", "μL", "uL", "ul"], LITER.part(1e6), Kind::Volume),
    metric(&["mL", "ml"], MILLILITER, Kind::Volume),
    metric(&["cL", "cl"], LITER.part(1e2), Kind::Volume),
    metric(&["dL", "dl"], LITER.part(1e1), Kind::Volume),
    metric(&["hL", "hl"], LITER.many(1e2), Kind::Volume),
    metric(&["m3", "m³"], CUBIC_METER, Kind::Volume),
    metric(&["cm3", "cm³"], CUBIC_METER.part(1e6), Kind::Volume),
    metric(&["dm3", "dm³"], CUBIC_METER.part(1e3), Kind::Volume),
    metric(&["mm3", "mm³"], CUBIC_METER.part(1e9), Kind::Volume),
    unit(&["in3", "in³", "[cin_i]"], CUBIC_INCH, Kind::Volume),
    unit(&["ft3", "ft³", "[cft_i]"], CUBIC_FOOT, Kind::Volume),
    unit(&["yd3", "yd³", "[cyd_i]"], CUBIC_YARD, Kind::Volume),
    us(&["US gal", "[gal_us]"], US_GALLON, Kind::Volume),
    us(&["US qt", "[qt_us]"], US_QUART, Kind::Volume),
    us(&["US pt", "[pt_us]"], US_PINT, Kind::Volume),
    us(&["US cup", "[cup_us]"], US_CUP, Kind::Volume),
    us(&["US fl oz", "[foz_us]"], US_FLUID_OUNCE, Kind::Volume),
    us(&["US tbsp", "[tbs_us]"], US_TABLESPOON, Kind::Volume),
    us(&["US tsp", "[tsp_us]"], US_TEASPOON, Kind::Volume),
    imperial(&["imp gal", "[gal_br]"], IMPERIAL_GALLON, Kind::Volume),
    imperial(&["imp qt", "[qt_br]"], IMPERIAL_QUART, Kind::Volume),
    imperial(&["imp pt", "[pt_br]"], IMPERIAL_PINT, Kind::Volume),
    imperial(&["imp fl oz", "[foz_br]"], IMPERIAL_FLUID_OUNCE, Kind::Volume),
    metric(&["kg"], KILOGRAM, Kind::Mass),
    metric(&["g"], GRAM, Kind::Mass),
    metric(&["mg"], KILOGRAM.part(1e6), Kind::Mass),
    metric(&["µg", "μg", "ug"], KILOGRAM.part(1e9), Kind::Mass),
    metric(&["tonne"], KILOGRAM.many(1e3), Kind::Mass),
    unit(&["lb", "[lb_av]"], POUND, Kind::Mass),
    unit(&["oz av", "[oz_av]"], OUNCE_AVOIRDUPOIS, Kind::Mass),
    unit(&["s"], SECOND, Kind::Time),
    unit(&["min"], MINUTE, Kind::Time),
    unit(&["h"], HOUR, Kind::Time),
    unit(&["d"], DAY, Kind::Time),
    metric(&["°C", "Cel"], DEGREE_CELSIUS, Kind::Temperature),
    us(&["°F", "[degF]"], DEGREE_FAHRENHEIT, Kind::Temperature),
    metric(&["K"], Factor::ONE, Kind::Temperature),
    metric(&["kPa"], KILOPASCAL, Kind::Pressure),
    metric(&["Pa"], PASCAL, Kind::Pressure),
    metric(&["hPa"], PASCAL.many(1e2), Kind::Pressure),
    metric(&["MPa"], PASCAL.many(1e6), Kind::Pressure),
    metric(&["bar"], BAR, Kind::Pressure),
    metric(&["mbar"], PASCAL.many(1e2), Kind::Pressure),
    us(&["psi", "[psi]"], POUND_PER_SQUARE_INCH, Kind::Pressure),
    unit(&["mph"], MILE_PER_HOUR, Kind::Speed),
    unit(&["% v/v"], PERCENT, Kind::VolumeFraction),
    unit(&["% w/v"], PERCENT_WEIGHT_IN_VOLUME, Kind::MassPerVolume),
    unit(&["% w/w"], PERCENT, Kind::MassFraction),
    unit(&["ppm v/v"], PART_PER_MILLION, Kind::VolumeFraction),
    unit(&["ppm w/v"], PPM_WEIGHT_IN_VOLUME, Kind::MassPerVolume),
    unit(&["ppm w/w"], PART_PER_MILLION, Kind::MassFraction),
    unit(&["%"], PERCENT, Kind::Ratio),
    unit(&["1"], Factor::ONE, Kind::Ratio),
];

/// Words that mean more than one unit, with the readings that can be written instead.
pub(super) static AMBIGUOUS: &[(&[&str], &str)] = &[
    (&["gal", "gallon", "gallons"], "US gal or imp gal"),
    (&["qt", "quart", "quarts"], "US qt or imp qt"),
    (&["pt", "pint", "pints"], "US pt or imp pt"),
    (&["fl oz", "floz", "fluid ounce", "fluid ounces"], "US fl oz or imp fl oz"),
    (&["oz", "ounce", "ounces"], "US fl oz, imp fl oz or oz av"),
    (&["cup", "cups"], "US cup, or the volume in mL"),
    (&["tbsp", "Tbsp", "tablespoon", "tablespoons"], "US tbsp, or 15 mL (20 mL in Australia)"),
    (&["tsp", "teaspoon", "teaspoons"], "US tsp, or 5 mL"),
    (&["t", "ton", "tons"], "tonne, or the mass in kg or lb"),
    (&["a"], "ac for acre, or the area in m2 for are"),
    (&["ppm"], "ppm v/v, ppm w/v or ppm w/w"),
    (&["gpa", "GPA"], "US gal/ac or imp gal/ac"),
    (&["gpm", "GPM"], "US gal/min or imp gal/min"),
];

/// The readings of a bare percent where its basis matters.
pub(super) const PERCENT_READINGS: &str = "% v/v, % w/v or % w/w";

/// What `a` over `b` is called before anybody claims it.
pub(super) fn quotient_kind(above: Kind, below: Kind, dimension: Dimension) -> Kind {
    match (above, below) {
        (Kind::Volume, Kind::Volume) => Kind::VolumeFraction,
        (Kind::Mass, Kind::Mass) => Kind::MassFraction,
        (Kind::Volume, Kind::Area) => Kind::VolumePerArea,
        (Kind::Mass, Kind::Area) => Kind::MassPerArea,
        (Kind::Mass, Kind::Volume) => Kind::MassPerVolume,
        (Kind::Volume, Kind::Length) => Kind::VolumePerRowLength,
        (Kind::Mass, Kind::Length) => Kind::MassPerRowLength,
        (Kind::VolumePerArea, Kind::Length) => Kind::VolumePerCrownHeight,
        (Kind::MassPerArea, Kind::Length) => Kind::MassPerCrownHeight,
        (Kind::Length, Kind::Time) => Kind::Speed,
        (Kind::Area, Kind::Time) => Kind::WorkRate,
        (Kind::Volume, Kind::Time) => Kind::Flow,
        _ if dimension == Dimension::NONE => Kind::Ratio,
        _ => Kind::Derived,
    }
}
