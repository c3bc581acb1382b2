//! The one place that decides whether two doubles are the same, stand on a step, or are over a limit.
//!
//! A value that was reached by a handful of roundings may stand a few units in the last place beside the step that it
//! means: 0.48 / 0.01 is 47.99999999999999. Every count, step, tie and limit on doubles is decided here, at
//! [`TOLERANCE`] relative. That is some ten thousand roundings wide, and still far below the smallest step anybody can
//! measure: at ten billion loads it is a hundredth of one load.

use super::kind::{QuantityKind, Ratio};

/// Relative distance within which two values are the same.
const TOLERANCE: f64 = 1e-12;

pub(super) fn close(a: f64, b: f64) -> bool {
    libm::fabs(a - b) <= TOLERANCE * libm::fmax(libm::fabs(a), libm::fabs(b))
}

/// Whether two quantities of a kind are the same.
pub(crate) fn is_close<Q: QuantityKind>(a: Q, b: Q) -> bool {
    close(a.si(), b.si())
}

/// Whether a quantity is over a limit.
pub(crate) fn is_over<Q: QuantityKind>(a: Q, limit: Q) -> bool {
    a.si() > limit.si() && !is_close(a, limit)
}

/// Whether a quantity is under a limit.
pub(crate) fn is_under<Q: QuantityKind>(a: Q, limit: Q) -> bool {
    is_over(limit, a)
}

/// Most steps that are counted exactly: above it doubles no longer hold every whole number.
pub(crate) const MOST_STEPS: u64 = 1 << 53;

/// A whole number of steps: none where the number is negative, not finite, or too large to be counted exactly.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss)]
fn whole(steps: f64) -> Option<u64> {
    (0.0..=MOST_STEPS as f64).contains(&steps).then_some(steps as u64)
}

/// Whole steps in `x`: a value that is close to a step is on it.
pub(crate) fn steps_down(x: Ratio) -> Option<u64> {
    let (x, nearest) = (x.si(), libm::round(x.si()));
    whole(if close(x, nearest) { nearest } else { libm::floor(x) })
}

/// Steps that hold all of `x`.
pub(crate) fn steps_up(x: Ratio) -> Option<u64> {
    let (x, nearest) = (x.si(), libm::round(x.si()));
    whole(if close(x, nearest) { nearest } else { libm::ceil(x) })
}

/// The step nearest to `x`, a half going down.
pub(crate) fn steps_nearest(x: Ratio) -> Option<u64> {
    let down = steps_down(x)?;
    let half = Ratio::of_steps(down) + Ratio::from_si(0.5);
    Some(if is_over(x, half) { down + 1 } else { down })
}

/// Rounding of a difference, as a part of the terms it is made from: a handful of units in the last place.
const ROUNDING: f64 = 1e-15;

/// Whole steps in a difference `x` of terms as large as `scale`, and whether it stands on that step.
pub(crate) fn steps_in_difference(x: Ratio, scale: Ratio) -> Option<(u64, bool)> {
    let (x, nearest) = (x.si(), libm::round(x.si()));
    let is_on_step = close(x, nearest) || libm::fabs(x - nearest) <= ROUNDING * scale.si();
    Some((whole(if is_on_step { nearest } else { libm::floor(x) })?, is_on_step))
}
