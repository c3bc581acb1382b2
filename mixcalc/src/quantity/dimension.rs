//! Dimensions: the exponents of length, mass, time and temperature.

use alloc::string::String;
use core::fmt::Write;

/// Exponents are counted in twelfths, so that square, cube and fourth roots stay exact.
const PARTS: i16 = 12;

/// Base units of the dimensions, in the order of the exponents.
const BASE_UNITS: [&str; 4] = ["m", "kg", "s", "K"];

/// The dimension of a quantity: exponents of length, mass, time and temperature.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Dimension([i16; 4]);

impl Dimension {
    /// The dimension of a pure number.
    pub const NONE: Self = Self([0; 4]);

    pub(super) const fn whole(exponents: [i8; 4]) -> Self {
        let [l, m, t, k] = exponents;
        Self([l as i16 * PARTS, m as i16 * PARTS, t as i16 * PARTS, k as i16 * PARTS])
    }

    #[cfg(feature = "document")]
    pub(super) fn to_bytes(self) -> [u8; 8] {
        let [[a, b], [c, d], [e, f], [g, h]] = self.0.map(i16::to_le_bytes);
        [a, b, c, d, e, f, g, h]
    }

    #[cfg(feature = "document")]
    pub(super) const fn from_bytes([a, b, c, d, e, f, g, h]: [u8; 8]) -> Self {
        Self([
            i16::from_le_bytes([a, b]),
            i16::from_le_bytes([c, d]),
            i16::from_le_bytes([e, f]),
            i16::from_le_bytes([g, h]),
        ])
    }

    /// Dimension of a product. `None` where an exponent leaves the range that is kept.
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        self.combine(other, i16::checked_add)
    }

    /// Dimension of a quotient. `None` where an exponent leaves the range that is kept.
    #[must_use]
    pub fn over(self, other: Self) -> Option<Self> {
        self.combine(other, i16::checked_sub)
    }

    fn combine(self, other: Self, operation: impl Fn(i16, i16) -> Option<i16>) -> Option<Self> {
        let mut out = [0; 4];
        for (slot, (a, b)) in out.iter_mut().zip(self.0.into_iter().zip(other.0)) {
            *slot = operation(a, b)?;
        }
        Some(Self(out))
    }

    /// Dimension of a power, as a fraction `numerator / denominator`. `None` where an exponent would not be a whole number of
    /// twelfths.
    #[must_use]
    pub fn power(self, numerator: i16, denominator: i16) -> Option<Self> {
        let mut out = [0; 4];
        for (slot, exponent) in out.iter_mut().zip(self.0) {
            let product = i32::from(exponent) * i32::from(numerator);
            if denominator == 0 || product % i32::from(denominator) != 0 {
                return None;
            }
            *slot = i16::try_from(product / i32::from(denominator)).ok()?;
        }
        Some(Self(out))
    }

    /// Unit text in base units, such as `m^3 kg^1 s^-2`; `m^0` for a pure number. Quantities are read in it too.
    #[must_use]
    pub fn base_unit(self) -> String {
        let mut text = String::new();
        for (unit, exponent) in BASE_UNITS.into_iter().zip(self.0).filter(|(_, exponent)| *exponent != 0) {
            let divisor = gcd(exponent.unsigned_abs(), PARTS.unsigned_abs());
            let (numerator, denominator) = (i32::from(exponent) / i32::from(divisor), PARTS.unsigned_abs() / divisor);
            let gap = if text.is_empty() { "" } else { " " };
            let _ = write!(text, "{gap}{unit}^{numerator}");
            if denominator != 1 {
                let _ = write!(text, "/{denominator}");
            }
        }
        if text.is_empty() { "m^0".into() } else { text }
    }

    /// Reads what [`base_unit`](Self::base_unit) writes; `None` for anything else.
    pub(super) fn from_base_unit(text: &str) -> Option<Self> {
        let mut sum = Self::NONE;
        for factor in text.split(' ') {
            let (unit, exponent) = factor.split_once('^')?;
            let (numerator, denominator) = exponent.split_once('/').unwrap_or((exponent, "1"));
            let slot = BASE_UNITS.iter().position(|base| *base == unit)?;
            let mut one = [0; 4];
            *one.get_mut(slot)? = PARTS;
            sum = sum.times(Self(one).power(numerator.parse().ok()?, denominator.parse().ok()?)?)?;
        }
        Some(sum)
    }
}

fn gcd(a: u16, b: u16) -> u16 {
    if b == 0 { a } else { gcd(b, a % b) }
}
