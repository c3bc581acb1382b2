//! What one point of an as-applied log says: ground, mix that went on it, and mix that the target asks for.

use crate::error::Error;
use crate::quantity::checks::answered;
use crate::quantity::{Area, Length, Ratio, Volume, VolumeRate};

/// One point of an as-applied log, worked out: what [`applied_point()`] answers.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct AppliedPoint {
    /// Ground that the swath treats, without the overlap that is taken off.
    pub area: Area,
    /// Mix that went on it.
    pub mix: Volume,
    /// Mix that the target asks for on it.
    pub target_mix: Volume,
    /// The applied rate as a part of the target.
    pub to_target: Ratio,
}

/// One point of an as-applied log: ground `A = L (w - o)`, mix on it `V = L w R`, mix asked for `A T`, and `R / T`.
///
/// The nozzles work over the whole swath whatever lies under it, so an overlap is less ground and no less mix.
///
/// * `distance` (L): travelled since the point before.
/// * `swath` (w): width of the open sections; zero where the boom is closed.
/// * `overlap` (o): what of the swath lies on ground that was treated before, where such ground is counted once; zero where it is
///   counted each time.
/// * `applied` (R): volume rate over the swath, as logged.
/// * `target` (T): volume rate that was asked for.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, a size that nobody measures, or an `overlap` wider than the swath;
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `target` that is not above zero.
///
/// # Example
///
/// 5 m with 24 m open, 6 m of them on ground treated before, at 110 where 100 L/ha are asked for: 5 x 18 = 90 m2; 5 x 24 = 120 m2 at
/// 110 L/ha are 1.32 L, where 90 m2 at 100 L/ha ask for 0.9 L.
///
/// ```
/// use mixcalc::{Length, VolumeRate, applied_point};
///
/// let [distance, swath, overlap] = [Length::read("5 m")?, Length::read("24 m")?, Length::read("6 m")?];
/// let point = applied_point(distance, swath, overlap, VolumeRate::read("110 L/ha")?, VolumeRate::read("100 L/ha")?)?;
/// assert!((point.area.square_meters() - 90.0).abs() < 1e-9);
/// assert_eq!((point.mix.to_string(), point.target_mix.to_string()), ("1.32 L".into(), "900 mL".into()));
/// assert!((point.to_target.percent() - 110.0).abs() < 1e-9);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn applied_point(
    distance: Length,
    swath: Length,
    overlap: Length,
    applied: VolumeRate,
    target: VolumeRate,
) -> Result<AppliedPoint, Error> {
    let (area, mix, target_mix, to_target) =
        answered(|checks| formula::applied_point(checks, distance, swath, overlap, applied, target))?;
    Ok(AppliedPoint { area, mix, target_mix, to_target })
}

/// The formulas, branch-free.
pub(crate) mod formula {
    use super::{Area, Length, Ratio, Volume, VolumeRate};
    use crate::error::ErrorCode;
    use crate::quantity::checks::Checks;
    use crate::quantity::close::is_over;
    use crate::text::word;

    #[inline(always)]
    pub(crate) fn applied_point(
        checks: &mut impl Checks,
        distance: Length,
        swath: Length,
        overlap: Length,
        applied: VolumeRate,
        target: VolumeRate,
    ) -> (Area, Volume, Volume, Ratio) {
        let distance = checks.factor(distance, "distance");
        let swath = checks.factor(swath, "swath");
        let overlap = checks.factor(overlap, "overlap");
        checks.must(!is_over(overlap, swath), ErrorCode::OutOfRange, |error| {
            error.at("overlap").given(overlap).allowed(format_args!("{} {swath}", word("at most")))
        });
        let applied = checks.factor(applied, "applied");
        let target = checks.divisor(target, "target");
        let left = if is_over(swath, overlap) { swath - overlap } else { Length::ZERO };
        let area = distance * left;
        (area, applied * (distance * swath), target * area, applied / target)
    }
}
