//! What a sprayer puts out as it travels: flow, speed and swath against volume rate and work rate.

use crate::error::Error;
use crate::quantity::checks::answered;
use crate::quantity::{Area, Flow, Length, Speed, Time, Volume, VolumeRate, WorkRate};

/// Volume rate at a given flow, speed over the ground and swath: `R = Q / (v * w)`.
///
/// The volume that leaves the nozzles in a time, over the ground treated in that time.
///
/// * `flow` (Q): of all open nozzles together.
/// * `speed` (v): over the ground.
/// * `swath` (w): treated width per pass; for a boom, nozzle spacing times nozzles.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `speed` or `swath` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `flow` below zero, or a size that nobody measures.
///
/// # Example
///
/// 1.2 L/min at 4 km/h over 1 m: 600 x 1.2 / (4 x 1) = 180 L/ha, where 600 = 10 000 m2/ha / (1000 m/km / 60 min/h).
///
/// ```
/// use mixcalc::{Flow, Length, Speed, volume_rate};
///
/// let rate = volume_rate(Flow::read("1.2 L/min")?, Speed::read("4 km/h")?, Length::read("1 m")?)?;
/// assert_eq!(rate.to_string(), "180 L/ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also [`required_flow`], [`required_speed`], [`required_swath`].
pub fn volume_rate(flow: Flow, speed: Speed, swath: Length) -> Result<VolumeRate, Error> {
    answered(|checks| formula::volume_rate(checks, flow, speed, swath))
}

/// Flow of all open nozzles that a volume rate takes: `Q = R * v * w`.
///
/// * `volume_rate` (R), `speed` (v), `swath` (w): as in [`volume_rate()`].
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 180 L/ha at 4 km/h over 1 m: 180 x 4 x 1 / 600 = 1.2 L/min.
///
/// ```
/// use mixcalc::{Length, Speed, VolumeRate, required_flow};
///
/// let flow = required_flow(VolumeRate::read("180 L/ha")?, Speed::read("4 km/h")?, Length::read("1 m")?)?;
/// assert_eq!(flow.to_string(), "1.2 L/min");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// [`volume_rate()`] solved for the flow.
pub fn required_flow(volume_rate: VolumeRate, speed: Speed, swath: Length) -> Result<Flow, Error> {
    answered(|checks| formula::required_flow(checks, volume_rate, speed, swath))
}

/// Speed over the ground at which a flow gives a volume rate: `v = Q / (R * w)`.
///
/// * `flow` (Q), `volume_rate` (R), `swath` (w): as in [`volume_rate()`].
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `volume_rate` or `swath` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `flow` below zero, or a size that nobody measures.
///
/// # Example
///
/// 1.2 L/min for 180 L/ha over 1 m: 600 x 1.2 / (180 x 1) = 4 km/h.
///
/// ```
/// use mixcalc::{Flow, Length, VolumeRate, required_speed};
///
/// let speed = required_speed(Flow::read("1.2 L/min")?, VolumeRate::read("180 L/ha")?, Length::read("1 m")?)?;
/// assert_eq!(speed.to_string(), "4 km/h");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// [`volume_rate()`] solved for the speed.
pub fn required_speed(flow: Flow, volume_rate: VolumeRate, swath: Length) -> Result<Speed, Error> {
    answered(|checks| formula::required_speed(checks, flow, volume_rate, swath))
}

/// Swath over which a flow gives a volume rate at a speed: `w = Q / (R * v)`.
///
/// * `flow` (Q), `volume_rate` (R), `speed` (v): as in [`volume_rate()`].
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `volume_rate` or `speed` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `flow` below zero, or a size that nobody measures.
///
/// # Example
///
/// 1.2 L/min for 180 L/ha at 4 km/h: 600 x 1.2 / (180 x 4) = 1 m.
///
/// ```
/// use mixcalc::{Flow, Speed, VolumeRate, required_swath};
///
/// let swath = required_swath(Flow::read("1.2 L/min")?, VolumeRate::read("180 L/ha")?, Speed::read("4 km/h")?)?;
/// assert!((swath.meters() - 1.0).abs() < 1e-12);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// [`volume_rate()`] solved for the swath.
pub fn required_swath(flow: Flow, volume_rate: VolumeRate, speed: Speed) -> Result<Length, Error> {
    answered(|checks| formula::required_swath(checks, flow, volume_rate, speed))
}

/// Ground treated in a time: `v * w`. Turning and filling are not in it.
///
/// * `speed` (v): over the ground.
/// * `swath` (w): treated width per pass.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 8 km/h over 24 m: 8000 m/h x 24 m = 192 000 m2/h = 19.2 ha/h.
///
/// ```
/// use mixcalc::{Length, Speed, work_rate};
///
/// let rate = work_rate(Speed::read("8 km/h")?, Length::read("24 m")?)?;
/// assert_eq!(rate.to_string(), "19.2 ha/h");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn work_rate(speed: Speed, swath: Length) -> Result<WorkRate, Error> {
    answered(|checks| formula::work_rate(checks, speed, swath))
}

/// Time that the nozzles are open over an area: `A / (work rate)`. Turning and filling are not in it.
///
/// * `area` (A): ground to be treated.
/// * `work_rate`: ground treated in a time, as [`work_rate()`] gives it.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `work_rate` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an `area` below zero, or a size that nobody measures.
///
/// # Example
///
/// 9.6 ha at 19.2 ha/h: half an hour.
///
/// ```
/// use mixcalc::{Area, WorkRate, spraying_time};
///
/// let time = spraying_time(Area::read("9.6 ha")?, WorkRate::read("19.2 ha/h")?)?;
/// assert_eq!(time.to_string(), "30 min");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn spraying_time(area: Area, work_rate: WorkRate) -> Result<Time, Error> {
    answered(|checks| formula::spraying_time(checks, area, work_rate))
}

/// Flow from a volume that was caught in a time: `V / t`.
///
/// * `volume` (V): caught.
/// * `time` (t): for which it was caught.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `time` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `volume` below zero, or a size that nobody measures.
///
/// # Example
///
/// 600 mL in 30 s are 1.2 L/min.
///
/// ```
/// use mixcalc::{Time, Volume, flow};
///
/// assert_eq!(flow(Volume::read("600 mL")?, Time::read("30 s")?)?.to_string(), "1.2 L/min");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn flow(volume: Volume, time: Time) -> Result<Flow, Error> {
    answered(|checks| formula::flow(checks, volume, time))
}

/// Speed from a distance that was covered in a time: `d / t`.
///
/// * `distance` (d): covered over the ground.
/// * `time` (t): that it took.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `time` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `distance` below zero, or a size that nobody measures.
///
/// # Example
///
/// 50 m in 45 s: 50 / 45 x 3.6 = 4 km/h.
///
/// ```
/// use mixcalc::{Length, Time, speed};
///
/// assert_eq!(speed(Length::read("50 m")?, Time::read("45 s")?)?.to_string(), "4 km/h");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn speed(distance: Length, time: Time) -> Result<Speed, Error> {
    answered(|checks| formula::speed(checks, distance, time))
}

/// The formulas, each for one number and for a column.
pub(crate) mod formula {
    use super::{Area, Flow, Length, Speed, Time, Volume, VolumeRate, WorkRate};
    use crate::quantity::checks::Checks;

    #[inline(always)]
    pub(crate) fn volume_rate(checks: &mut impl Checks, flow: Flow, speed: Speed, swath: Length) -> VolumeRate {
        let treated = checks.divisor(speed, "speed") * checks.divisor(swath, "swath");
        (checks.factor(flow, "flow") / treated).as_volume_rate()
    }

    #[inline(always)]
    pub(crate) fn required_flow(
        checks: &mut impl Checks,
        volume_rate: VolumeRate,
        speed: Speed,
        swath: Length,
    ) -> Flow {
        let treated = checks.factor(speed, "speed") * checks.factor(swath, "swath");
        treated * checks.factor(volume_rate, "volume_rate")
    }

    #[inline(always)]
    pub(crate) fn required_speed(
        checks: &mut impl Checks,
        flow: Flow,
        volume_rate: VolumeRate,
        swath: Length,
    ) -> Speed {
        let work_rate = checks.factor(flow, "flow") / checks.divisor(volume_rate, "volume_rate");
        work_rate / checks.divisor(swath, "swath")
    }

    #[inline(always)]
    pub(crate) fn required_swath(
        checks: &mut impl Checks,
        flow: Flow,
        volume_rate: VolumeRate,
        speed: Speed,
    ) -> Length {
        let work_rate = checks.factor(flow, "flow") / checks.divisor(volume_rate, "volume_rate");
        work_rate / checks.divisor(speed, "speed")
    }

    #[inline(always)]
    pub(crate) fn work_rate(checks: &mut impl Checks, speed: Speed, swath: Length) -> WorkRate {
        checks.factor(speed, "speed") * checks.factor(swath, "swath")
    }

    #[inline(always)]
    pub(crate) fn spraying_time(checks: &mut impl Checks, area: Area, work_rate: WorkRate) -> Time {
        checks.factor(area, "area") / checks.divisor(work_rate, "work_rate")
    }

    #[inline(always)]
    pub(crate) fn flow(checks: &mut impl Checks, volume: Volume, time: Time) -> Flow {
        checks.factor(volume, "volume") / checks.divisor(time, "time")
    }

    #[inline(always)]
    pub(crate) fn speed(checks: &mut impl Checks, distance: Length, time: Time) -> Speed {
        checks.factor(distance, "distance") / checks.divisor(time, "time")
    }
}
