//! Two printers: one for people, and one that reads back to the same value.

use alloc::borrow::Cow;
use alloc::format;
use alloc::string::{String, ToString};

use super::dimension::Dimension;
use super::dynamic::Quantity;
use super::kind::{Kind, Ratio};
use super::read::{self, Expression};
use super::unit::{Factor, System};
use crate::error::Error;

/// Significant digits that people are shown.
const PEOPLE_DIGITS: usize = 4;
/// Digits that show a whole number of graduations as what it is, and hide the noise of the last places.
const MARK_DIGITS: usize = 9;

/// Value and unit text in the unit of documents: the shortest value that reads back to the same quantity, where one does.
pub(super) fn parts(quantity: Quantity) -> (f64, Cow<'static, str>) {
    match quantity.kind().unit_factor() {
        Some(unit) => (shortest(quantity.si(), unit), quantity.kind().unit().into()),
        None => (quantity.si(), quantity.dimension().base_unit().into()),
    }
}

/// Text that reads back to the same value: in the unit of documents, or in base units where no double in that unit is the same.
pub(super) fn exact(quantity: Quantity) -> String {
    let (value, unit) = parts(quantity);
    let reads_back = quantity.kind().unit_factor().is_none_or(|factor| same(factor.to_si(value), quantity.si()));
    if reads_back {
        number_and_unit(value, &unit)
    } else {
        format!("{:?} {}", quantity.si(), quantity.dimension().base_unit())
    }
}

/// A number, whole ones without a point, and its unit.
pub(super) fn number_and_unit(value: f64, unit: &str) -> String {
    format!("{value:?} {unit}").replacen(".0 ", " ", 1)
}

/// The number of a unit that reads back to a quantity, near its plain value: with few digits where few do.
pub(super) fn told(quantity: Quantity, plain: f64, unit: Expression) -> f64 {
    let read = |value: f64| unit.quantity(value)?.claim_kind(quantity.kind());
    let reads_back = |value: &f64| read(*value).is_ok_and(|read| same(read.si(), quantity.si()));
    // A thermometer's zero costs digits: 5 °F is 258.15 K.
    rounded(plain, [12, 13]).chain(candidates(plain)).find(reads_back).unwrap_or(plain)
}

/// A number to fewer digits, itself, and the numbers next to it.
fn candidates(plain: f64) -> impl Iterator<Item = f64> {
    rounded(plain, [14, 15]).chain(next_to(plain))
}

/// A number with so many digits after its first.
fn rounded(plain: f64, digits: [usize; 2]) -> impl Iterator<Item = f64> {
    digits.into_iter().map(move |digits| format!("{plain:.digits$e}").parse::<f64>().unwrap_or(plain))
}

/// A number and the doubles next to it: two each way, for a value passes two roundings on its way from unit to unit.
pub(super) fn next_to(number: f64) -> impl Iterator<Item = f64> {
    let (up, down) = (number.next_up(), number.next_down());
    [number, up, down, up.next_up(), down.next_down()].into_iter()
}

fn same(a: f64, b: f64) -> bool {
    a.to_bits() == b.to_bits()
}

/// The value in a unit that reads back to the same double: with few digits where few do, else one of the next doubles.
fn shortest(si: f64, unit: Factor) -> f64 {
    let plain = unit.of_si(si);
    candidates(plain).find(|value| same(unit.to_si(*value), si)).unwrap_or(plain)
}

/// The value in a unit to the last roundings, for a printer that shows fewer digits.
fn plain(quantity: Quantity, unit: &str) -> Result<f64, Error> {
    read::unit(unit)?.value_of(quantity)
}

/// Text for people, in the measures of a trade.
pub(super) fn people(quantity: Quantity, system: System) -> String {
    let chosen = unit_for_people(quantity, system);
    match plain(quantity, chosen) {
        Ok(value) if !chosen.is_empty() => {
            format!("{} {chosen}", significant(value, PEOPLE_DIGITS))
        }
        _ if chosen.is_empty() && quantity.dimension() == Dimension::NONE => significant(quantity.si(), PEOPLE_DIGITS),
        _ if Some(quantity.dimension()) == Kind::Temperature.dimension() => {
            format!("{} K", significant(quantity.si(), PEOPLE_DIGITS))
        }
        _ => format!("{} {}", significant(quantity.si(), PEOPLE_DIGITS), quantity.dimension().base_unit()),
    }
}

/// The unit in which people of a trade read a quantity: the first of theirs that it is large enough for; none for a derived one.
pub(super) fn unit_for_people(quantity: Quantity, system: System) -> &'static str {
    let units = people_units(quantity.kind(), system);
    let smallest = units.last().map_or("", |(_, unit)| *unit);
    let magnitude = |unit: &str| plain(quantity, unit).map(libm::fabs).unwrap_or_default();
    units.iter().find(|(least, unit)| *least <= 0.0 || magnitude(unit) >= *least).map_or(smallest, |(_, unit)| *unit)
}

/// The unit in which people of the metric trade would read a quantity.
pub(crate) fn people_unit(quantity: Quantity) -> &'static str {
    unit_for_people(quantity, System::Metric)
}

/// An amount in the unit on a scale, with the digits that the scale has.
pub(crate) fn on_scale(quantity: Quantity, unit: &str) -> String {
    with_digits(quantity, unit, MARK_DIGITS)
}

/// A quantity in a unit, with the digits that people are shown.
pub(crate) fn in_unit(quantity: Quantity, unit: &str) -> String {
    with_digits(quantity, unit, PEOPLE_DIGITS)
}

fn with_digits(quantity: Quantity, unit: &str, digits: usize) -> String {
    match plain(quantity, unit) {
        Ok(value) => format!("{} {unit}", significant(value, digits)),
        Err(_) => people(quantity, System::Metric),
    }
}

/// A gap in percent with its sign, to hundredths; noise of the last places is no gap.
pub(crate) fn signed_percent(gap: Ratio) -> String {
    let text = format!("{:+.2} %", gap.percent());
    match text.as_str() {
        "+0.00 %" | "-0.00 %" => "0.00 %".into(),
        _ => text,
    }
}

/// A number to so many significant digits, without trailing zeros; digits before the point are never dropped.
pub(crate) fn significant(value: f64, digits: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return if value == 0.0 { "0".into() } else { value.to_string() };
    }
    // The exponent after rounding, so that 9.9996 becomes 10 and not 10.00.
    let scientific = format!("{value:.*e}", digits.saturating_sub(1));
    let exponent: i32 = scientific.split_once('e').and_then(|(_, exponent)| exponent.parse().ok()).unwrap_or(0);
    if !(-9..=15).contains(&exponent) {
        return scientific;
    }
    let decimals = usize::try_from(i32::try_from(digits).unwrap_or(i32::MAX) - 1 - exponent).unwrap_or(0);
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').into() } else { text }
}

/// Units that people of a trade use for a kind, largest first, each with the least value that it is used for.
fn people_units(kind: Kind, system: System) -> &'static [(f64, &'static str)] {
    use System::{Imperial, Metric, Us};
    match (kind, system) {
        (Kind::Length, Metric) => &[(1e3, "km"), (1.0, "m"), (0.01, "cm"), (1.0, "mm"), (0.0, "µm")],
        (Kind::Length, _) => &[(1.0, "mi"), (1.0, "ft"), (0.0, "in")],
        (Kind::Area, Metric) => &[(0.1, "ha"), (0.0, "m2")],
        (Kind::Area, _) => &[(0.1, "ac"), (0.0, "ft2")],
        (Kind::Volume, Metric) => &[(1.0, "L"), (0.0, "mL")],
        (Kind::Volume, Us) => &[(1.0, "US gal"), (0.0, "US fl oz")],
        (Kind::Volume, Imperial) => &[(1.0, "imp gal"), (0.0, "imp fl oz")],
        (Kind::Mass, Metric) => &[(1.0, "kg"), (0.0, "g")],
        (Kind::Mass, _) => &[(1.0, "lb"), (0.0, "oz av")],
        (Kind::Time, _) => &[(3.0, "d"), (2.0, "h"), (2.0, "min"), (0.0, "s")],
        (Kind::Temperature, Us) => &[(0.0, "°F")],
        (Kind::Temperature, _) => &[(0.0, "°C")],
        (Kind::Speed, Metric) => &[(0.0, "km/h")],
        (Kind::Speed, _) => &[(0.0, "mph")],
        (Kind::WorkRate, Metric) => &[(0.0, "ha/h")],
        (Kind::WorkRate, _) => &[(0.0, "ac/h")],
        (Kind::Flow, Metric) => &[(0.0, "L/min")],
        (Kind::Flow, Us) => &[(0.0, "US gal/min")],
        (Kind::Flow, Imperial) => &[(0.0, "imp gal/min")],
        (Kind::Pressure, Metric) => &[(0.0, "kPa")],
        (Kind::Pressure, _) => &[(0.0, "psi")],
        (Kind::VolumePerArea | Kind::LiquidDose, Metric) => &[(1.0, "L/ha"), (0.0, "mL/ha")],
        (Kind::VolumePerArea | Kind::LiquidDose, Us) => &[(1.0, "US gal/ac"), (0.0, "US fl oz/ac")],
        (Kind::VolumePerArea | Kind::LiquidDose, Imperial) => &[(1.0, "imp gal/ac"), (0.0, "imp fl oz/ac")],
        (Kind::VolumeRate, Metric) => &[(0.0, "L/ha")],
        (Kind::VolumeRate, Us) => &[(0.0, "US gal/ac")],
        (Kind::VolumeRate, Imperial) => &[(0.0, "imp gal/ac")],
        (Kind::MassPerArea | Kind::SolidDose, Metric) => &[(1.0, "kg/ha"), (0.0, "g/ha")],
        (Kind::MassPerArea | Kind::SolidDose, _) => &[(1.0, "lb/ac"), (0.0, "oz av/ac")],
        (Kind::VolumeFraction, _) => &[(0.0, "% v/v")],
        (Kind::MassFraction, _) => &[(0.0, "% w/w")],
        (Kind::MassPerVolume | Kind::MassConcentration | Kind::Content, Metric) => &[(0.0, "g/L")],
        (Kind::MassPerVolume | Kind::MassConcentration | Kind::Content, Us) => {
            &[(1.0, "lb/US gal"), (0.0, "oz av/100 US gal")]
        }
        (Kind::MassPerVolume | Kind::MassConcentration | Kind::Content, Imperial) => {
            &[(1.0, "lb/imp gal"), (0.0, "oz av/100 imp gal")]
        }
        (Kind::Density | Kind::ParticleDensity | Kind::BulkDensity, Us) => &[(0.0, "lb/US gal")],
        (Kind::Density | Kind::ParticleDensity | Kind::BulkDensity, Imperial) => &[(0.0, "lb/imp gal")],
        (Kind::Density | Kind::ParticleDensity | Kind::BulkDensity, Metric) => &[(0.0, "kg/L")],
        (Kind::VolumePerRowLength, Metric) => &[(1.0, "L/100 m"), (0.0, "mL/100 m")],
        (Kind::VolumePerRowLength, Us) => &[(1.0, "US gal/1000 ft"), (0.0, "US fl oz/1000 ft")],
        (Kind::VolumePerRowLength, Imperial) => &[(1.0, "imp gal/1000 ft"), (0.0, "imp fl oz/1000 ft")],
        (Kind::MassPerRowLength, Metric) => &[(1.0, "kg/100 m"), (0.0, "g/100 m")],
        (Kind::MassPerRowLength, _) => &[(1.0, "lb/1000 ft"), (0.0, "oz av/1000 ft")],
        (Kind::VolumePerTreeRowVolume, Metric) => &[(0.0, "L/10000 m3")],
        (Kind::VolumePerTreeRowVolume, Us) => &[(0.0, "US gal/1000 ft3")],
        (Kind::VolumePerTreeRowVolume, Imperial) => &[(0.0, "imp gal/1000 ft3")],
        (Kind::MassPerTreeRowVolume, Metric) => &[(0.0, "kg/10000 m3")],
        (Kind::MassPerTreeRowVolume, _) => &[(0.0, "oz av/1000 ft3")],
        (Kind::VolumePerCrownHeight, Metric) => &[(0.0, "L/ha/m")],
        (Kind::VolumePerCrownHeight, Us) => &[(1.0, "US gal/ac/ft"), (0.0, "US fl oz/ac/ft")],
        (Kind::VolumePerCrownHeight, Imperial) => &[(1.0, "imp gal/ac/ft"), (0.0, "imp fl oz/ac/ft")],
        (Kind::MassPerCrownHeight, Metric) => &[(0.0, "kg/ha/m")],
        (Kind::MassPerCrownHeight, _) => &[(0.0, "oz av/ac/ft")],
        (Kind::Ratio, _) => &[(0.0, "%")],
        (Kind::Derived, _) => &[],
    }
}
