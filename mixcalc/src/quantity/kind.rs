//! The kinds: one type per thing that must not be mistaken for another, and the identities between them.
//!
//! A volume rate, a liquid dose and a walked distance all have the dimension of length. Each is a type of its own here,
//! over a private value, so that one cannot stand where another is due. Every identity below is checked twice: by the
//! compiler, which refuses a line whose dimensions are wrong, and by whoever reads it.

use core::cmp::Ordering;
use core::fmt;
use core::ops::{Add, Div, Mul, Sub};
use core::str::FromStr;

use super::dimension::Dimension;
use super::dynamic::Quantity;
use super::read;
use super::system::{self, Coherent as _};
use super::unit::{self, Factor};
use crate::error::{Error, ErrorCode};
use crate::text::with_article;

mod sealed {
    pub trait Sealed {}
}

/// A typed quantity: implemented by the kinds of this module and by nothing else.
///
/// What is read or constructed is finite. Sums, products and quotients of typed quantities are those of doubles, so that they cost
/// nothing: one may overflow, and one over nothing is infinite or not a number. Such a quantity goes nowhere: whatever takes a typed
/// quantity to make a job refuses it with [`NotPositive`](ErrorCode::NotPositive) or [`OutOfRange`](ErrorCode::OutOfRange), and a
/// [`Quantity`] made of it can neither be claimed, compared, converted nor reckoned with ([`NotFinite`](ErrorCode::NotFinite)).
pub trait QuantityKind: Copy + PartialOrd + fmt::Display + sealed::Sealed {
    /// The kind, for text and bindings.
    const KIND: Kind;

    #[doc(hidden)]
    fn si(self) -> f64;

    #[doc(hidden)]
    fn from_si(value: f64) -> Self;
}

/// A typed quantity that has a sum, a multiple and a ratio: every kind but [`Temperature`], of which 20 °C and 20 °C are not 40 °C.
///
/// What works for any of them, such as [`Uncertain`](crate::Uncertain), asks for this.
pub trait AdditiveKind:
    QuantityKind
    + Default
    + fmt::Debug
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<f64, Output = Self>
    + Mul<Ratio, Output = Self>
    + Div<Output = Ratio>
{
}

/// Declares the kinds. Per kind: type, private value, words for messages, an example, constructors; the first is in the
/// unit of documents.
macro_rules! kinds {
    ($(
        $(#[$doc:meta])*
        $name:ident($inner:ident), $words:literal, $example:literal
        { $($from:ident / $get:ident = $factor:expr, $symbol:literal;)* }
    )*) => {
        /// What a quantity is, beyond its dimension.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[non_exhaustive]
        pub enum Kind {
            $($(#[$doc])* $name,)*
            /// Any other quantity, such as the square of a volume: it arises between steps and has no slot of its own.
            Derived,
        }

        impl Kind {
            /// Every kind, `Derived` last.
            #[must_use]
            pub const fn all() -> &'static [Self] {
                &[$(Self::$name,)* Self::Derived]
            }

            /// The words for it in messages and in the vocabulary.
            #[must_use]
            pub const fn words(self) -> &'static str {
                match self { $(Self::$name => $words,)* Self::Derived => "derived quantity" }
            }

            /// A quantity of this kind as text, for messages.
            pub(crate) const fn example(self) -> &'static str {
                match self { $(Self::$name => $example,)* Self::Derived => "2 m^2 s^-1" }
            }

            /// The unit that documents use.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self {
                    $(Self::$name => {
                        let [symbol, ..] = [$($symbol),*];
                        symbol
                    })*
                    Self::Derived => "",
                }
            }

            /// The factor of the unit that documents use; `None` for a derived quantity.
            pub(super) const fn unit_factor(self) -> Option<Factor> {
                match self {
                    $(Self::$name => {
                        let [factor, ..] = [$($factor),*];
                        Some(factor)
                    })*
                    Self::Derived => None,
                }
            }

            /// The factor of a unit that it has a constructor for, by the symbol of the unit.
            #[cfg(feature = "columns")]
            pub(super) const fn factor_of(self, symbol: &str) -> Option<Factor> {
                match self {
                    $(Self::$name => {
                        $(if unit::is_word(symbol, $symbol) {
                            return Some($factor);
                        })*
                        None
                    })*
                    Self::Derived => None,
                }
            }

            /// The dimension; `None` for a derived quantity, which may have any.
            #[must_use]
            pub const fn dimension(self) -> Option<Dimension> {
                match self {
                    $(Self::$name => Some(Dimension::whole(<system::$inner as system::Coherent>::EXPONENTS)),)*
                    Self::Derived => None,
                }
            }
        }

        $(
            $(#[$doc])*
            #[derive(Clone, Copy, PartialEq)]
            #[repr(transparent)]
            pub struct $name(system::$inner);

            impl sealed::Sealed for $name {}

            impl QuantityKind for $name {
                const KIND: Kind = Kind::$name;
                #[inline]
                fn si(self) -> f64 {
                    self.0.value()
                }
                #[inline]
                fn from_si(value: f64) -> Self {
                    Self(system::$inner::coherent(value))
                }
            }

            impl $name {
                $(
                    #[doc = concat!("The quantity of `value` ", $symbol, ".\n\n# Errors\n\n[`NotFinite`](ErrorCode::NotFinite) for a value that is infinite or not a number.")]
                    pub fn $from(value: f64) -> Result<Self, Error> {
                        finite(value, $symbol, $factor)
                    }

                    #[doc = concat!("The value in ", $symbol, ".")]
                    #[must_use]
                    pub fn $get(self) -> f64 {
                        $factor.of_si(self.si())
                    }
                )*

                #[doc = concat!("Reads text such as `", $example, "`.\n\n# Errors\n\n[`WrongQuantity`](ErrorCode::WrongQuantity) for a quantity of another kind, and the codes of [`Quantity::read`].")]
                pub fn read(text: &str) -> Result<Self, Error> {
                    read_as(text)
                }
            }

            impl FromStr for $name {
                type Err = Error;
                fn from_str(text: &str) -> Result<Self, Error> {
                    Self::read(text)
                }
            }

            impl TryFrom<Quantity> for $name {
                type Error = Error;
                fn try_from(quantity: Quantity) -> Result<Self, Error> {
                    quantity.claim()
                }
            }

            impl From<$name> for Quantity {
                fn from(value: $name) -> Self {
                    Self::of(value)
                }
            }

            impl PartialOrd for $name {
                fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
                    self.si().partial_cmp(&other.si())
                }
            }

            impl fmt::Debug for $name {
                fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                    write!(f, concat!(stringify!($name), "({})"), Quantity::of(*self).to_text())
                }
            }

            impl fmt::Display for $name {
                fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                    fmt::Display::fmt(&Quantity::of(*self), f)
                }
            }
        )*
    };
}

/// A double into a kind, the same as text of it would give, or the error that shows it.
pub(super) fn finite<Q: QuantityKind>(value: f64, symbol: &str, factor: Factor) -> Result<Q, Error> {
    let si = read::si_of(value, factor, Q::KIND);
    if Q::KIND == Kind::Temperature && si < 0.0 {
        Err(read::below_absolute_zero(value))
    } else if si.is_finite() {
        Ok(Q::from_si(si))
    } else {
        Err(Error::new(ErrorCode::NotFinite).given(format_args!("{value} {symbol}")))
    }
}

/// Reads text for one kind, whose example then stands in the message.
pub(crate) fn read_as<Q: QuantityKind>(text: &str) -> Result<Q, Error> {
    let example = format_args!("\"{}\"", Q::KIND.example());
    let quantity = Quantity::read(text).map_err(|error| match error.code() {
        ErrorCode::MissingUnit => error.allowed(example),
        _ => read::suggesting(Q::KIND, text.split_once(' ').map_or("", |(_, unit)| unit), error),
    })?;
    quantity.claim().map_err(|error| match error.code() {
        ErrorCode::WrongQuantity => error.given(format_args!("{text}, {}", with_article(quantity.kind().words()))),
        _ => error,
    })
}

/// Kinds that can be added to themselves, scaled, and compared as a ratio; the ratio itself is one of them. Temperature is not: 20 °C
/// and 20 °C are not 40 °C.
macro_rules! additive {
    ($($name:ident)*) => {
        $(
            additive! { @one $name }

            impl Div<Ratio> for $name {
                type Output = Self;
                fn div(self, divisor: Ratio) -> Self {
                    Self(self.0 / divisor.0)
                }
            }
        )*
        additive! { @one Ratio }

        /// Whether a kind can be added to itself.
        pub(super) const fn is_additive(kind: Kind) -> bool {
            matches!(kind, Kind::Derived | Kind::Ratio $(| Kind::$name)*)
        }
    };
    (@one $name:ident) => {
        impl AdditiveKind for $name {}
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl Mul<Ratio> for $name {
            type Output = Self;
            fn mul(self, factor: Ratio) -> Self {
                Self(self.0 * factor.0)
            }
        }
        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }
        impl Div for $name {
            type Output = Ratio;
            fn div(self, other: Self) -> Ratio {
                Ratio(self.0 / other.0)
            }
        }
        impl Default for $name {
            fn default() -> Self {
                Self::ZERO
            }
        }
        impl $name {
            /// None of it.
            pub const ZERO: Self = Self(system::zero());

            /// The lesser of two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                if other < self { other } else { self }
            }

            /// The greater of two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                if other > self { other } else { self }
            }
        }
    };
}

/// Each line is an identity of the trade; both orders are made from it.
macro_rules! products {
    ($($a:ident * $b:ident = $c:ident;)*) => {
        $(products! { @one $a $b $c })*

        /// The kind of a product, where an identity gives it one.
        pub(super) const PRODUCTS: &[(Kind, Kind, Kind)] = &[$((Kind::$a, Kind::$b, Kind::$c),)*];
    };
    (@one Length Length $c:ident) => { products! { @impl Length Length $c } };
    (@one $a:ident $b:ident $c:ident) => {
        products! { @impl $a $b $c }
        products! { @impl $b $a $c }
    };
    (@impl $a:ident $b:ident $c:ident) => {
        impl Mul<$b> for $a {
            type Output = $c;
            fn mul(self, other: $b) -> $c {
                $c(self.0 * other.0)
            }
        }
    };
}

macro_rules! quotients {
    ($($a:ident / $b:ident = $c:ident;)*) => {
        $(
            impl Div<$b> for $a {
                type Output = $c;
                fn div(self, other: $b) -> $c {
                    $c(self.0 / other.0)
                }
            }
        )*

        /// The kind of a quotient, where an identity gives it one.
        pub(super) const QUOTIENTS: &[(Kind, Kind, Kind)] = &[$((Kind::$a, Kind::$b, Kind::$c),)*];
    };
}

/// Claims: what an unclaimed quantity may be said to be. A claim changes no number; it states what is meant.
macro_rules! claims {
    ($($from:ident { $($method:ident -> $to:ident, $what:literal;)* })*) => {
        $(impl $from { $(
            #[doc = concat!("Claims that this is ", $what, ".")]
            #[must_use]
            pub const fn $method(self) -> $to {
                $to(self.0)
            }
        )* })*

        /// Whether a quantity of the first kind may be claimed as the second.
        pub(super) const fn may_claim(from: Kind, to: Kind) -> bool {
            matches!((from, to), $($((Kind::$from, Kind::$to))|*)|*)
        }
    };
}

kinds! {
    /// A length: a width, a walked distance, a height.
    Length(Length), "length", "0.5 m" {
        from_meters / meters = unit::METER, "m";
        from_feet / feet = unit::FOOT, "ft";
        from_inches / inches = unit::INCH, "in";
    }
    /// An area of ground.
    Area(Area), "area", "12.5 ha" {
        from_hectares / hectares = unit::HECTARE, "ha";
        from_square_meters / square_meters = unit::SQUARE_METER, "m2";
        from_acres / acres = unit::ACRE, "ac";
        from_square_feet / square_feet = unit::SQUARE_FOOT, "ft2";
    }
    /// A volume of liquid, or of a heap.
    Volume(Volume), "volume", "15 L" {
        from_liters / liters = unit::LITER, "L";
        from_milliliters / milliliters = unit::MILLILITER, "mL";
        from_us_gallons / us_gallons = unit::US_GALLON, "US gal";
        from_us_fluid_ounces / us_fluid_ounces = unit::US_FLUID_OUNCE, "US fl oz";
        from_imperial_gallons / imperial_gallons = unit::IMPERIAL_GALLON, "imp gal";
    }
    /// A mass.
    Mass(Mass), "mass", "2.5 kg" {
        from_kilograms / kilograms = unit::KILOGRAM, "kg";
        from_grams / grams = unit::GRAM, "g";
        from_pounds / pounds = unit::POUND, "lb";
        from_ounces_avoirdupois / ounces_avoirdupois = unit::OUNCE_AVOIRDUPOIS, "oz av";
    }
    /// A span of time.
    Time(Time), "time", "30 s" {
        from_seconds / seconds = unit::SECOND, "s";
        from_minutes / minutes = unit::MINUTE, "min";
        from_days / days = unit::DAY, "d";
    }
    /// A temperature, as read from a thermometer.
    Temperature(Temperature), "temperature", "21 °C" {
        from_degrees_celsius / degrees_celsius = unit::DEGREE_CELSIUS, "°C";
        from_kelvins / kelvins = Factor::ONE, "K";
        from_degrees_fahrenheit / degrees_fahrenheit = unit::DEGREE_FAHRENHEIT, "°F";
    }
    /// A speed over the ground.
    Speed(Speed), "speed", "5 km/h" {
        from_kilometers_per_hour / kilometers_per_hour = unit::KILOMETER_PER_HOUR, "km/h";
        from_meters_per_second / meters_per_second = unit::METER.per(unit::SECOND), "m/s";
        from_miles_per_hour / miles_per_hour = unit::MILE_PER_HOUR, "mph";
    }
    /// Ground treated in a time.
    WorkRate(AreaPerTime), "work rate", "4 ha/h" {
        from_hectares_per_hour / hectares_per_hour = unit::HECTARE.per(unit::HOUR), "ha/h";
        from_acres_per_hour / acres_per_hour = unit::ACRE.per(unit::HOUR), "ac/h";
    }
    /// Volume leaving nozzles in a time.
    Flow(VolumePerTime), "flow", "1.2 L/min" {
        from_liters_per_minute / liters_per_minute = unit::LITER.per(unit::MINUTE), "L/min";
        from_us_gallons_per_minute / us_gallons_per_minute = unit::US_GALLON.per(unit::MINUTE), "US gal/min";
    }
    /// A pressure above that of the air.
    Pressure(Pressure), "pressure", "300 kPa" {
        from_kilopascals / kilopascals = unit::KILOPASCAL, "kPa";
        from_bars / bars = unit::BAR, "bar";
        from_pounds_per_square_inch / pounds_per_square_inch = unit::POUND_PER_SQUARE_INCH, "psi";
    }
    /// Volume per area that nobody has yet said the meaning of: a volume rate or a liquid dose.
    VolumePerArea(Length), "volume per area", "300 L/ha" {
        from_liters_per_hectare / liters_per_hectare = unit::LITER.per(unit::HECTARE), "L/ha";
    }
    /// Volume of spray mix, or of carrier, per ground area.
    VolumeRate(Length), "volume rate", "300 L/ha" {
        from_liters_per_hectare / liters_per_hectare = unit::LITER.per(unit::HECTARE), "L/ha";
        from_us_gallons_per_acre / us_gallons_per_acre = unit::US_GALLON.per(unit::ACRE), "US gal/ac";
        from_imperial_gallons_per_acre / imperial_gallons_per_acre = unit::IMPERIAL_GALLON.per(unit::ACRE), "imp gal/ac";
    }
    /// Volume of a product per ground area.
    LiquidDose(Length), "liquid dose", "2.5 L/ha" {
        from_liters_per_hectare / liters_per_hectare = unit::LITER.per(unit::HECTARE), "L/ha";
        from_milliliters_per_hectare / milliliters_per_hectare = unit::MILLILITER.per(unit::HECTARE), "mL/ha";
        from_us_fluid_ounces_per_acre / us_fluid_ounces_per_acre = unit::US_FLUID_OUNCE.per(unit::ACRE), "US fl oz/ac";
        from_us_pints_per_acre / us_pints_per_acre = unit::US_PINT.per(unit::ACRE), "US pt/ac";
    }
    /// Mass per area that nobody has yet said the meaning of, such as active substance per area.
    MassPerArea(MassPerArea), "mass per area", "0.4 kg/ha" {
        from_kilograms_per_hectare / kilograms_per_hectare = unit::KILOGRAM.per(unit::HECTARE), "kg/ha";
        from_pounds_per_acre / pounds_per_acre = unit::POUND.per(unit::ACRE), "lb/ac";
    }
    /// Mass of a product per ground area.
    SolidDose(MassPerArea), "solid dose", "0.4 kg/ha" {
        from_kilograms_per_hectare / kilograms_per_hectare = unit::KILOGRAM.per(unit::HECTARE), "kg/ha";
        from_grams_per_hectare / grams_per_hectare = unit::GRAM.per(unit::HECTARE), "g/ha";
        from_pounds_per_acre / pounds_per_acre = unit::POUND.per(unit::ACRE), "lb/ac";
        from_ounces_avoirdupois_per_acre / ounces_avoirdupois_per_acre = unit::OUNCE_AVOIRDUPOIS.per(unit::ACRE), "oz av/ac";
    }
    /// Volume of a part per volume of the whole.
    VolumeFraction(Ratio), "volume fraction", "0.25 % v/v" {
        from_percent / percent = unit::PERCENT, "% v/v";
        from_milliliters_per_liter / milliliters_per_liter = unit::MILLILITER.per(unit::LITER), "mL/L";
        from_milliliters_per_100_liters / milliliters_per_100_liters = unit::MILLILITER.per(unit::LITER.many(1e2)), "mL/100 L";
    }
    /// Mass of a part per mass of the whole.
    MassFraction(Ratio), "mass fraction", "50 % w/w" {
        from_percent / percent = unit::PERCENT, "% w/w";
        from_grams_per_kilogram / grams_per_kilogram = unit::GRAM.per(unit::KILOGRAM), "g/kg";
    }
    /// Mass per volume that nobody has yet said the meaning of.
    MassPerVolume(MassPerVolume), "mass per volume", "2 g/L" {
        from_grams_per_liter / grams_per_liter = unit::GRAM.per(unit::LITER), "g/L";
    }
    /// Mass of a product per volume of mix.
    MassConcentration(MassPerVolume), "mass concentration", "2 g/L" {
        from_grams_per_liter / grams_per_liter = unit::GRAM.per(unit::LITER), "g/L";
        from_grams_per_100_liters / grams_per_100_liters = unit::GRAM.per(unit::LITER.many(1e2)), "g/100 L";
    }
    /// Mass of an active substance per volume of a product.
    Content(MassPerVolume), "content", "250 g/L" {
        from_grams_per_liter / grams_per_liter = unit::GRAM.per(unit::LITER), "g/L";
        from_pounds_per_us_gallon / pounds_per_us_gallon = unit::POUND.per(unit::US_GALLON), "lb/US gal";
    }
    /// Mass per volume of a liquid: a liquid product, the mix.
    Density(MassPerVolume), "density", "1.1 kg/L" {
        from_kilograms_per_liter / kilograms_per_liter = unit::KILOGRAM.per(unit::LITER), "kg/L";
        from_pounds_per_us_gallon / pounds_per_us_gallon = unit::POUND.per(unit::US_GALLON), "lb/US gal";
    }
    /// Mass per volume of the particles of a dry product: what it displaces in a liquid.
    ParticleDensity(MassPerVolume), "particle density", "1.6 kg/L" {
        from_kilograms_per_liter / kilograms_per_liter = unit::KILOGRAM.per(unit::LITER), "kg/L";
    }
    /// Mass per volume of the heap of a dry product: what a vessel of it weighs.
    BulkDensity(MassPerVolume), "bulk density", "0.5 kg/L" {
        from_kilograms_per_liter / kilograms_per_liter = unit::KILOGRAM.per(unit::LITER), "kg/L";
    }
    /// Volume per length of row.
    VolumePerRowLength(Area), "volume per row length", "25 mL/100 m" {
        from_liters_per_100_meters / liters_per_100_meters = unit::LITER.per(unit::METER.many(1e2)), "L/100 m";
    }
    /// Mass per length of row.
    MassPerRowLength(MassPerLength), "mass per row length", "5 g/100 m" {
        from_kilograms_per_100_meters / kilograms_per_100_meters = unit::KILOGRAM.per(unit::METER.many(1e2)), "kg/100 m";
    }
    /// Volume per tree row volume: the room that the crowns of a row take.
    VolumePerTreeRowVolume(Ratio), "volume per tree row volume", "0.8 L/10000 m3" {
        from_liters_per_10000_cubic_meters / liters_per_10000_cubic_meters = unit::LITER.per(unit::CUBIC_METER.many(1e4)), "L/10000 m3";
    }
    /// Mass per tree row volume: the room that the crowns of a row take.
    MassPerTreeRowVolume(MassPerVolume), "mass per tree row volume", "0.6 kg/10000 m3" {
        from_kilograms_per_10000_cubic_meters / kilograms_per_10000_cubic_meters = unit::KILOGRAM.per(unit::CUBIC_METER.many(1e4)), "kg/10000 m3";
    }
    /// Volume per ground area, for each unit of crown height.
    VolumePerCrownHeight(Ratio), "volume per crown height", "0.5 L/ha/m" {
        from_liters_per_hectare_and_meter / liters_per_hectare_and_meter = unit::LITER.per(unit::HECTARE).per(unit::METER), "L/ha/m";
    }
    /// Mass per ground area, for each unit of crown height.
    MassPerCrownHeight(MassPerVolume), "mass per crown height", "0.4 kg/ha/m" {
        from_kilograms_per_hectare_and_meter / kilograms_per_hectare_and_meter = unit::KILOGRAM.per(unit::HECTARE).per(unit::METER), "kg/ha/m";
    }
    /// A pure number.
    Ratio(Ratio), "ratio", "10 %" {
        from_percent / percent = unit::PERCENT, "%";
        from_number / number = Factor::ONE, "1";
    }
}

additive! {
    Length Area Volume Mass Time Speed WorkRate Flow Pressure VolumePerArea VolumeRate LiquidDose MassPerArea SolidDose
    VolumeFraction MassFraction MassPerVolume MassConcentration Content Density ParticleDensity BulkDensity
    VolumePerRowLength MassPerRowLength VolumePerTreeRowVolume MassPerTreeRowVolume VolumePerCrownHeight MassPerCrownHeight
}

products! {
    Length * Length = Area;
    VolumePerArea * Area = Volume;
    VolumeRate * Area = Volume;
    LiquidDose * Area = Volume;
    MassPerArea * Area = Mass;
    SolidDose * Area = Mass;
    VolumeFraction * Volume = Volume;
    VolumeFraction * VolumeRate = LiquidDose;
    MassConcentration * Volume = Mass;
    MassConcentration * VolumeRate = SolidDose;
    MassFraction * Mass = Mass;
    MassFraction * SolidDose = MassPerArea;
    MassFraction * Density = MassConcentration;
    MassPerVolume * Volume = Mass;
    Content * Volume = Mass;
    Content * LiquidDose = MassPerArea;
    Density * Volume = Mass;
    Density * LiquidDose = SolidDose;
    ParticleDensity * Volume = Mass;
    BulkDensity * Volume = Mass;
    Speed * Time = Length;
    Speed * Length = WorkRate;
    WorkRate * Time = Area;
    WorkRate * VolumeRate = Flow;
    Flow * Time = Volume;
    VolumePerRowLength * Length = Volume;
    MassPerRowLength * Length = Mass;
    VolumePerTreeRowVolume * Volume = Volume;
    MassPerTreeRowVolume * Volume = Mass;
    VolumePerTreeRowVolume * Length = VolumePerArea;
    MassPerTreeRowVolume * Length = MassPerArea;
    VolumePerCrownHeight * Length = VolumePerArea;
    MassPerCrownHeight * Length = MassPerArea;
}

quotients! {
    Area / Length = Length;
    Volume / Area = VolumePerArea;
    Volume / VolumePerArea = Area;
    Volume / VolumeRate = Area;
    Volume / LiquidDose = Area;
    Mass / Area = MassPerArea;
    Mass / MassPerArea = Area;
    Mass / SolidDose = Area;
    LiquidDose / VolumeRate = VolumeFraction;
    LiquidDose / VolumeFraction = VolumeRate;
    SolidDose / VolumeRate = MassConcentration;
    SolidDose / MassConcentration = VolumeRate;
    Volume / VolumeFraction = Volume;
    Mass / MassFraction = Mass;
    Mass / Volume = MassPerVolume;
    Mass / MassPerVolume = Volume;
    Mass / MassConcentration = Volume;
    Mass / Content = Volume;
    Mass / Density = Volume;
    Mass / ParticleDensity = Volume;
    Mass / BulkDensity = Volume;
    MassPerArea / Content = VolumePerArea;
    MassPerArea / MassFraction = MassPerArea;
    SolidDose / Density = LiquidDose;
    SolidDose / ParticleDensity = LiquidDose;
    MassConcentration / Density = VolumeFraction;
    MassConcentration / ParticleDensity = VolumeFraction;
    Length / Speed = Time;
    Length / Time = Speed;
    Area / WorkRate = Time;
    Area / Time = WorkRate;
    WorkRate / Length = Speed;
    WorkRate / Speed = Length;
    Volume / Flow = Time;
    Volume / Time = Flow;
    Flow / WorkRate = VolumePerArea;
    Flow / VolumeRate = WorkRate;
    VolumePerRowLength / Length = VolumePerArea;
    MassPerRowLength / Length = MassPerArea;
}

claims! {
    VolumePerArea {
        as_volume_rate -> VolumeRate, "a volume rate";
        as_liquid_dose -> LiquidDose, "a liquid dose";
    }
    MassPerArea {
        as_solid_dose -> SolidDose, "a solid dose";
    }
    MassPerVolume {
        as_mass_concentration -> MassConcentration, "the mass concentration of a mix";
        as_content -> Content, "the content of an active substance in a product";
        as_density -> Density, "the density of a liquid";
        as_particle_density -> ParticleDensity, "the density of a dry product's particles";
        as_bulk_density -> BulkDensity, "the density of a dry product's heap";
    }
    Ratio {
        as_volume_fraction -> VolumeFraction, "volume per volume";
        as_mass_fraction -> MassFraction, "mass per mass";
    }
}

impl Kind {
    /// Whether it is a rate that only a label states: no sum arrives at it by its dimension.
    pub(super) const fn is_per_canopy(self) -> bool {
        use Kind::{MassPerCrownHeight, MassPerRowLength, MassPerTreeRowVolume};
        use Kind::{VolumePerCrownHeight, VolumePerRowLength, VolumePerTreeRowVolume};
        matches!(
            self,
            VolumePerRowLength
                | MassPerRowLength
                | VolumePerTreeRowVolume
                | MassPerTreeRowVolume
                | VolumePerCrownHeight
                | MassPerCrownHeight
        )
    }
}

/// The kind of a dimension that no other kind has, a pure number among them. Not a temperature: a difference of two has its dimension.
pub(super) fn only_kind_of(dimension: Dimension) -> Option<Kind> {
    if dimension == Dimension::NONE {
        return Some(Kind::Ratio);
    }
    let mut kinds = Kind::all().iter().filter(|kind| kind.dimension() == Some(dimension) && !kind.is_per_canopy());
    let only = kinds.next().filter(|kind| **kind != Kind::Temperature)?;
    kinds.next().is_none().then_some(*only)
}

impl Ratio {
    /// A whole number of steps or of loads.
    #[allow(clippy::cast_precision_loss)] // counts stay below 2^53
    pub(crate) fn of_steps(steps: u64) -> Self {
        Self::from_si(steps as f64)
    }

    /// So many percent: for constants of the trade.
    pub(crate) fn of_percent(value: f64) -> Self {
        Self::from_si(unit::PERCENT.to_si(value))
    }

    /// One.
    pub(crate) fn one() -> Self {
        Self::from_si(1.0)
    }

    /// This ratio as a number of percent, for documents.
    #[cfg(feature = "document")]
    pub(crate) fn in_percent(self) -> f64 {
        self.si() * 100.0
    }
}

impl VolumeFraction {
    /// The whole less these parts.
    pub(crate) fn rest(self) -> Self {
        Self::from_si(1.0 - self.si())
    }

    /// Whether these parts leave something of the whole.
    #[inline(always)]
    pub(crate) fn leaves_rest(self) -> bool {
        super::close::is_under(self.as_ratio(), Ratio::one())
    }

    /// As a pure number.
    pub(crate) const fn as_ratio(self) -> Ratio {
        Ratio(self.0)
    }
}

impl Time {
    /// Whole days.
    pub(crate) fn of_days(days: u64) -> Self {
        Self::from_si(unit::DAY.to_si(Ratio::of_steps(days).si()))
    }
}

/// Doses per ground area that are brought to one scale, by their number in coherent units.
macro_rules! one_of {
    ($($name:ident)*) => { $(
        impl $name {
            /// One in coherent units.
            pub(crate) fn one() -> Self {
                Self::from_si(1.0)
            }
        }
    )* };
}

one_of! { MassPerArea LiquidDose SolidDose }

impl LiquidDose {
    /// What the product adds to the volume that the sprayer puts out.
    pub(crate) const fn as_volume_rate(self) -> VolumeRate {
        VolumeRate(self.0)
    }
}

/// The sum of `terms` in ascending magnitude, so that their order changes no digit.
pub(crate) fn ordered_sum<Q: QuantityKind>(terms: impl IntoIterator<Item = Q>) -> Q {
    let mut values: alloc::vec::Vec<f64> = terms.into_iter().map(Q::si).collect();
    values.sort_unstable_by(|a, b| libm::fabs(*a).total_cmp(&libm::fabs(*b)).then(a.total_cmp(b)));
    Q::from_si(values.into_iter().sum())
}

/// Least and largest magnitude, in coherent units, of anything that is measured. Far outside the physical job, and near enough that no sum
/// of a plan leaves the range of doubles.
pub(super) const MAGNITUDES: core::ops::RangeInclusive<f64> = 1e-30..=1e30;

/// A quantity that must be above zero.
pub(crate) fn positive<Q: QuantityKind>(value: Q) -> Result<Q, Error> {
    match value.si() {
        si if MAGNITUDES.contains(&si) => Ok(value),
        si if si > 0.0 => Err(Error::new(ErrorCode::OutOfRange)
            .given(value)
            .allowed(crate::text::word("of a size that can be measured"))),
        _ => Err(Error::new(ErrorCode::NotPositive).given(value)),
    }
}

/// A quantity that must not be below zero.
pub(crate) fn not_negative<Q: QuantityKind>(value: Q) -> Result<Q, Error> {
    match value.si() {
        0.0 => Ok(value),
        si if si > 0.0 => positive(value),
        _ => Err(Error::new(ErrorCode::OutOfRange).given(value).allowed(crate::text::word("zero or more"))),
    }
}

/// A quantity of either sign that is finite and not over what is measured.
pub(crate) fn bounded<Q: QuantityKind>(value: Q) -> Result<Q, Error> {
    match libm::fabs(value.si()) {
        si if si <= *MAGNITUDES.end() => Ok(value),
        si if si.is_finite() => not_negative(Q::from_si(si)),
        _ => Err(Error::new(ErrorCode::NotFinite).given(crate::text::word("a result beyond the range of numbers"))),
    }
}

/// What is multiplied in the calculation of one number: zero or more.
pub(crate) fn factor<Q: QuantityKind>(value: Q, name: &'static str) -> Result<Q, Error> {
    not_negative(value).map_err(|error| error.at(name))
}

/// What is divided by in the calculation of one number: above zero.
pub(crate) fn divisor<Q: QuantityKind>(value: Q, name: &'static str) -> Result<Q, Error> {
    positive(value).map_err(|error| error.at(name))
}
