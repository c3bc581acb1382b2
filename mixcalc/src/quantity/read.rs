//! The strict reader of quantity text: a number, a blank, a unit.
//!
//! A closed grammar. No separators, no signs but a minus, no guesses: a word with two meanings is refused with its readings.
//!
//! ```text
//! quantity = number " " unit
//! number   = ["-"] digits ["." digits] [("e" | "E") ["+" | "-"] digits]
//! unit     = word { "/" below }               300 L/ha, 150 mL/100 L, 6 US fl oz/1000 ft2
//! below    = [number " "] word | number "." word | "(" number ("." | " ") word ")"      mL/(100.L)
//!          | base { " " base }, base = "m^3" ...  derived quantities
//! ```

use alloc::format;
use alloc::string::String;

use super::dimension::Dimension;
use super::dynamic::Quantity;
use super::kind::Kind;
use super::show;
use super::unit::{AMBIGUOUS, Factor, System, UNITS, Unit, quotient_kind};
use crate::error::{Error, ErrorCode};
use crate::text::{self, quoted};

/// Longer text is not a quantity.
const LONGEST: usize = 100;

/// A unit text that was understood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Expression {
    factor: Factor,
    dimension: Dimension,
    kind: Kind,
    /// The trade whose measures the first of its words with one belongs to.
    pub(crate) system: Option<System>,
}

impl Expression {
    pub(crate) fn value_of(self, quantity: Quantity) -> Result<f64, Error> {
        let kinds_agree = self.kind != Kind::Temperature || quantity.kind() == Kind::Temperature;
        if self.dimension == quantity.dimension() && kinds_agree {
            let value = self.factor.of_si(quantity.si());
            if value.is_finite() { Ok(value) } else { Err(Error::new(ErrorCode::NotFinite).given(value)) }
        } else {
            quantity.claim_kind(self.kind).map(|_| 0.0).and_then(|_| {
                Err(Error::new(ErrorCode::WrongQuantity).given(quantity).allowed(text::with_article(self.kind.words())))
            })
        }
    }

    /// `value` of this unit.
    pub(crate) fn quantity(self, value: f64) -> Result<Quantity, Error> {
        let si = si_of(value, self.factor, self.kind);
        if self.kind == Kind::Temperature && si < 0.0 {
            return Err(below_absolute_zero(value));
        }
        Quantity::from_si(si, self.dimension, self.kind).ok_or_else(|| Error::new(ErrorCode::NotFinite).given(value))
    }
}

/// No temperature is below it.
pub(super) fn below_absolute_zero(value: f64) -> Error {
    Error::new(ErrorCode::OutOfRange).given(value).allowed(text::word("a temperature, at or above absolute zero"))
}

/// The value of a kind in coherent units, from a value in a unit: on the grid of doubles in the unit of documents, so that a document
/// says it exactly. The two units stand in an exact ratio, so that 70 mL are 0.07 L to the bit.
pub(super) fn si_of(value: f64, unit: Factor, kind: Kind) -> f64 {
    match kind.unit_factor() {
        Some(document) if document != unit => document.to_si(unit.converted_to(document, value)),
        _ => unit.to_si(value),
    }
}

/// A value in coherent units on the grid of doubles in the unit of documents for a kind; one that is on it stays.
pub(super) fn on_grid(si: f64, kind: Kind) -> f64 {
    let Some(document) = kind.unit_factor() else {
        return si;
    };
    let value = document.of_si(si);
    let mut near = show::next_to(value).map(|value| document.to_si(value));
    near.find(|near| near.to_bits() == si.to_bits()).unwrap_or_else(|| document.to_si(value))
}

/// A value of one kind claimed as another, which documents may state in another unit: g/L of any mass per volume, kg/L of a density.
pub(super) fn claimed(si: f64, from: Kind, to: Kind) -> f64 {
    if from.unit_factor() == to.unit_factor() { si } else { on_grid(si, to) }
}

/// Reads a quantity, and tells the unit that it was stated in.
pub(crate) fn quantity(text: &str) -> Result<(Quantity, Expression), Error> {
    if text.len() > LONGEST {
        return Err(unreadable(text));
    }
    let (number, unit_text) = text.split_once(' ').unwrap_or((text, ""));
    if unit_text.is_empty() && is_number(number) {
        return Err(missing_unit(number));
    }
    let value = self::number(number, text)?;
    let expression = unit(unit_text)?;
    Ok((expression.quantity(value).map_err(|error| error.given(quoted(text)))?, expression))
}

/// The unit on a scale that measures a kind.
pub(crate) fn scale_unit(text: &str, kind: Kind) -> Result<Expression, Error> {
    let expression = unit(text)?;
    if Some(expression.dimension) == kind.dimension() {
        Ok(expression)
    } else {
        Err(Error::new(ErrorCode::WrongQuantity).given(quoted(text)).allowed(text::unit_of(kind)))
    }
}

/// A bare number where a quantity is due.
pub(crate) fn missing_unit(number: impl core::fmt::Display) -> Error {
    Error::new(ErrorCode::MissingUnit).given(&number).allowed(format_args!("\"{number} L/ha\""))
}

fn unreadable(text: &str) -> Error {
    // Where a blank is missing or the number begins or ends in a way of its own, show the text as it is read.
    let bare = text.trim().trim_start_matches('+');
    let split = bare.find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | '-')).unwrap_or(bare.len());
    let (number, rest) = bare.split_at(split);
    let zero = if number.starts_with('.') { "0" } else { "" };
    let number = format!("{zero}{}", number.trim_end_matches('.'));
    let mended = if text.len() <= LONGEST && is_number(&number) && unit(rest.trim()).is_ok() {
        format!("\"{number} {}\"", rest.trim())
    } else {
        String::from("\"300 L/ha\"")
    };
    Error::new(ErrorCode::UnreadableQuantity).given(quoted(text)).allowed(mended)
}

fn number(number: &str, whole_text: &str) -> Result<f64, Error> {
    let comma = number.split_once(',');
    if let Some((before, after)) = comma.filter(|(b, _)| b.ends_with(|c: char| c.is_ascii_digit())) {
        // Where points stand before the comma, they part thousands and the comma does not.
        let decimal = format!("{}.{after}", before.replace('.', ""));
        let thousands = number.replace(',', "");
        // A comma parts thousands where groups of three follow: 1,5 is no fifteen.
        let whole = after.split(['.', 'e', 'E']).next().unwrap_or_default();
        let in_threes = whole.split(',').all(|group| group.len() == 3) && !before.contains('.');
        let readings = match (is_number(&decimal), is_number(&thousands) && in_threes) {
            (true, true) => format!("{decimal} or {thousands}"),
            (true, false) => decimal,
            (false, true) => thousands,
            (false, false) => return Err(unreadable(whole_text)),
        };
        return Err(Error::new(ErrorCode::DecimalComma).given(quoted(number)).allowed(readings));
    }
    if !is_number(number) {
        return Err(unreadable(whole_text));
    }
    match number.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        _ => Err(Error::new(ErrorCode::NotFinite).given(quoted(whole_text))),
    }
}

fn is_number(text: &str) -> bool {
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    let unsigned = text.strip_prefix('-').unwrap_or(text);
    let (mantissa, exponent) = unsigned.split_once(['e', 'E']).map_or((unsigned, None), |(m, e)| (m, Some(e)));
    let (whole, fraction) = mantissa.split_once('.').map_or((mantissa, None), |(w, f)| (w, Some(f)));
    digits(whole)
        && fraction.is_none_or(digits)
        && exponent.is_none_or(|exponent| digits(exponent.strip_prefix(['+', '-']).unwrap_or(exponent)))
}

/// Reads a unit text.
pub(crate) fn unit(text: &str) -> Result<Expression, Error> {
    if text.len() > LONGEST {
        return Err(Error::new(ErrorCode::UnknownUnit).given(quoted(text)).allowed(text::word("a unit such as L/ha")));
    }
    if let Some(unit) = find(text) {
        let dimension = unit.kind.dimension().unwrap_or_default();
        return Ok(Expression { factor: unit.factor, dimension, kind: unit.kind, system: unit.system });
    }
    if text.contains('^') {
        return Dimension::from_base_unit(text)
            .map(|dimension| Expression { factor: Factor::ONE, dimension, kind: Kind::Derived, system: None })
            .ok_or_else(|| unknown(text));
    }
    let mut parts = text.split('/');
    let mut sum = word(parts.next().unwrap_or_default(), text)?;
    for part in parts {
        let below = below_the_line(part, text)?;
        let dimension = sum.dimension.over(below.dimension).ok_or_else(|| unknown(text))?;
        let factor = sum.factor.per(below.factor);
        let kind = match quotient_kind(sum.kind, below.kind, dimension) {
            Kind::VolumeFraction if is_canopy(part) => Kind::VolumePerTreeRowVolume,
            Kind::MassPerVolume if is_canopy(part) => Kind::MassPerTreeRowVolume,
            kind => kind,
        };
        // `2 m2/m` is a length to a checker of dimensions, and nobody means one.
        if kind == Kind::Derived && Kind::all().iter().any(|kind| kind.dimension() == Some(dimension)) {
            return Err(unknown(text));
        }
        if !factor.is_normal() {
            return Err(Error::new(ErrorCode::NotFinite).given(quoted(text)));
        }
        sum = Expression { factor, dimension, kind, system: sum.system.or(below.system) };
    }
    Ok(sum)
}

/// Whether what stands below a line is room that crowns take, and no mix: a label counts those by the hundred cubic meters or feet.
fn is_canopy(part: &str) -> bool {
    let inner = part.trim_start_matches('(').trim_end_matches(')');
    let (count, unit) = inner.split_once([' ', '.']).unwrap_or(("1", inner));
    matches!(unit, "m3" | "m³" | "ft3" | "ft³") && count.parse().is_ok_and(|count: f64| count >= 100.0)
}

/// What stands below a line: a word, or a number of them.
fn below_the_line(part: &str, whole_text: &str) -> Result<Expression, Error> {
    let grouped = part.strip_prefix('(').and_then(|inner| inner.strip_suffix(')'));
    let counted = [' ', '.'].into_iter().filter_map(|gap| grouped.unwrap_or(part).split_once(gap));
    let Some((count, unit)) = counted.into_iter().find(|(count, _)| is_number(count)) else {
        return word(part, whole_text);
    };
    let count = number(count, whole_text)?;
    if count <= 0.0 {
        return Err(unknown(whole_text));
    }
    let one = word(unit, whole_text)?;
    Ok(Expression { factor: one.factor.many(count), ..one })
}

fn word(word: &str, whole_text: &str) -> Result<Expression, Error> {
    if let Some(unit) = find(word).filter(|unit| unit.kind != Kind::Temperature || word == "K") {
        let dimension = unit.kind.dimension().unwrap_or_default();
        return Ok(Expression { factor: unit.factor, dimension, kind: unit.kind, system: unit.system });
    }
    if let Some((_, readings)) = AMBIGUOUS.iter().find(|(words, _)| words.contains(&word)) {
        return Err(Error::new(ErrorCode::AmbiguousUnit).given(quoted(word)).allowed(readings));
    }
    Err(unknown_word(word, whole_text))
}

fn find(word: &str) -> Option<&'static Unit> {
    UNITS.iter().find(|unit| unit.words.contains(&word))
}

fn unknown(text: &str) -> Error {
    Error::new(ErrorCode::UnknownUnit).given(quoted(text)).allowed(text::word("a unit such as L/ha"))
}

fn unknown_word(word: &str, whole_text: &str) -> Error {
    let words = || UNITS.iter().flat_map(|unit| unit.words).copied();
    // What cannot be seen is no part of the word that was meant, and parentheses are none.
    let seen: String = word.chars().filter(|c| !c.is_control() && !text::is_unseen(*c)).collect();
    let meant = seen.trim_matches(|c: char| c.is_whitespace() || matches!(c, '(' | ')'));
    let same = words().find(|known| *known == meant && meant != word);
    let spelled_out = SPELLED_OUT.iter().find(|(long, _)| long.eq_ignore_ascii_case(meant)).map(|(_, short)| *short);
    let other_case = words().find(|known| known.eq_ignore_ascii_case(meant));
    match same.or(spelled_out).or(other_case).or_else(|| text::nearest(meant, words())) {
        Some(near) if !word.is_empty() => Error::new(ErrorCode::UnknownUnit).given(quoted(word)).allowed(near),
        _ => unknown(whole_text),
    }
}

/// An error on a unit, where a kind is due: a word that is unknown has a unit of that kind to be written instead.
pub(crate) fn suggesting(kind: Kind, unit: &str, error: Error) -> Error {
    let is_due = |unit: &str| Quantity::from_parts(1.0, unit).and_then(|one| one.claim_kind(kind)).is_ok();
    if error.code() != ErrorCode::UnknownUnit || unit.contains('/') || is_due(error.allowed_text()) {
        return error;
    }
    let words = UNITS.iter().filter(|known| known.kind == kind).flat_map(|known| known.words).copied();
    error.allowed(text::nearest(unit, words).unwrap_or(kind.unit()))
}

/// Words that people write out, with the one that is read.
const SPELLED_OUT: &[(&str, &str)] = &[
    ("acre", "ac"),
    ("acres", "ac"),
    ("hectare", "ha"),
    ("hectares", "ha"),
    ("liter", "L"),
    ("liters", "L"),
    ("litre", "L"),
    ("litres", "L"),
    ("lt", "L"),
    ("ltr", "L"),
    ("cc", "cm3"),
    ("gram", "g"),
    ("grams", "g"),
    ("gr", "g"),
    ("kilogram", "kg"),
    ("kilograms", "kg"),
    ("kilo", "kg"),
    ("pound", "lb"),
    ("pounds", "lb"),
    ("lbs", "lb"),
    ("sqft", "ft2"),
    ("sq ft", "ft2"),
    ("sqm", "m2"),
    ("minute", "min"),
    ("minutes", "min"),
    ("hour", "h"),
    ("hr", "h"),
    ("kph", "km/h"),
    ("kmh", "km/h"),
    ("kmph", "km/h"),
    ("sec", "s"),
    ("C", "°C"),
    ("F", "°F"),
    // Only the kelvin is a unit of temperature differences, as in K/h.
    ("°C", "K"),
    ("Cel", "K"),
    ("°F", "K"),
    ("[degF]", "K"),
    ("PSI", "psi"),
];
