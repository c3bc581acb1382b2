//! The fan of a flat nozzle: how wide it is at a height, and how high the boom goes for an overlap.

use core::f64::consts::PI;

use crate::error::{Error, ErrorCode};
use crate::quantity::{Length, Ratio, factor, positive};
use crate::text;

/// The angle of a fan, as nozzles state it: in whole degrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FanAngle(u8);

/// Half of a turn, in degrees.
const HALF_TURN: f64 = 180.0;

impl FanAngle {
    /// An angle of so many degrees.
    ///
    /// # Errors
    ///
    /// At `fan_angle`: [`OutOfRange`](ErrorCode::OutOfRange) unless it is from 1 to 179.
    pub fn of_degrees(degrees: u8) -> Result<Self, Error> {
        if (1..=179).contains(&degrees) {
            return Ok(Self(degrees));
        }
        let error = Error::new(ErrorCode::OutOfRange).at("fan_angle").given(degrees);
        Err(error.allowed(text::word("from 1 to 179 degrees")))
    }

    /// Width of the fan at one height, in parts of the height: `2 tan(angle / 2)`.
    fn width_by_height(self) -> Ratio {
        Ratio::one() * (2.0 * libm::tan(f64::from(self.0) * 0.5 * PI / HALF_TURN))
    }
}

/// Width of a fan at a height above its target: `2 h tan(angle / 2)`. Real fans bend: it is the most that the geometry gives.
///
/// # Errors
///
/// At `height`: [`OutOfRange`](ErrorCode::OutOfRange) below zero.
///
/// # Example
///
/// ```
/// use mixcalc::{FanAngle, Length, fan_width};
///
/// let width = fan_width(FanAngle::of_degrees(110)?, Length::read("0.5 m")?)?;
/// assert!((width.meters() - 1.428).abs() < 5e-4);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Geometry.
pub fn fan_width(angle: FanAngle, height: Length) -> Result<Length, Error> {
    Ok(factor(height, "height")? * angle.width_by_height())
}

/// Height of the boom above its target at which fans overlap: `h = (1 + overlap) x / (2 tan(angle / 2))`. With an overlap of 100 % each point is under two
/// fans; with none, it is the height for a band as wide as `spacing`. Makers advise more, since real fans bend.
///
/// * `angle`: of the fan.
/// * `spacing` (x): from nozzle to nozzle; or the width of a band.
/// * `overlap`: width of the fan less the spacing, in parts of the spacing.
///
/// # Errors
///
/// At `spacing`: [`NotPositive`](ErrorCode::NotPositive); at `overlap`: [`OutOfRange`](ErrorCode::OutOfRange) below zero.
///
/// # Example
///
/// 110 degrees at 0.5 m with 100 % overlap: 0.5 m / tan(55 degrees) = 0.35 m.
///
/// ```
/// use mixcalc::{FanAngle, Length, Ratio, boom_height};
///
/// let height = boom_height(FanAngle::of_degrees(110)?, Length::read("0.5 m")?, Ratio::from_percent(100.0)?)?;
/// assert!((height.meters() - 0.35).abs() < 5e-4);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Geometry.
pub fn boom_height(angle: FanAngle, spacing: Length, overlap: Ratio) -> Result<Length, Error> {
    let spacing = positive(spacing).map_err(|error| error.at("spacing"))?;
    let width = spacing * (Ratio::one() + factor(overlap, "overlap")?);
    Ok(width / angle.width_by_height())
}
