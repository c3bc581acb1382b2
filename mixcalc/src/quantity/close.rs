//! The one place that decides whether two doubles are the same, stand on a step, or are over a limit.
//!
//! A value that was reached by a handful of roundings may stand a few units in the last place beside the step that it
//! means: 0.48 / 0.01 is 47.99999999999999. Every count, step, tie and limit on doubles is decided here, at
//! [`TOLERANCE`] relative. That is some ten thousand roundings wide, and still far below the smallest step anybody can
//! measure: at ten billion loads it is a hundredth of one load.

use super::kind::{QuantityKind, Ratio};

/// Relative distance within which two values are the same.
const TOLERANCE: f64 = 1e-12;

#[inline(always)]
pub(super) fn close(a: f64, b: f64) -> bool {
    let (size, other) = (libm::fabs(a), libm::fabs(b));
    libm::fabs(a - b) <= TOLERANCE * if size < other { other } else { size }
}

/// Whether two quantities of a kind are the same.
#[inline(always)]
pub(crate) fn is_close<Q: QuantityKind>(a: Q, b: Q) -> bool {
    close(a.si(), b.si())
}

/// Whether a quantity is over a limit.
#[inline(always)]
pub(crate) fn is_over<Q: QuantityKind>(a: Q, limit: Q) -> bool {
    (a.si() > limit.si()) & !is_close(a, limit)
}

/// Whether a quantity is under a limit.
#[inline(always)]
pub(crate) fn is_under<Q: QuantityKind>(a: Q, limit: Q) -> bool {
    is_over(limit, a)
}

/// Most steps that are counted exactly: above it doubles no longer hold every whole number.
pub(crate) const MOST_STEPS: u64 = 1 << 53;

/// From here on every double is a whole number.
const WHOLE_FROM: f64 = 4_503_599_627_370_496.0;

/// The whole number at or below `x`. Adding a number whose last bit stands for one rounds to a whole number on every processor, where an
/// instruction or a call for it is not to be had everywhere, and never within a loop over rows.
#[inline(always)]
fn floor(x: f64) -> f64 {
    let to_whole = libm::copysign(WHOLE_FROM, x);
    let near = (x + to_whole) - to_whole;
    let down = near - if near > x { 1.0 } else { 0.0 };
    if libm::fabs(x) < WHOLE_FROM { down } else { x }
}

/// The whole number nearest to `x`, which is not negative; a half goes up.
#[inline(always)]
fn nearest(x: f64) -> f64 {
    let down = floor(x);
    down + if x - down >= 0.5 { 1.0 } else { 0.0 }
}

/// A whole number of steps: none where the number is negative, not finite, or too large to be counted exactly.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn whole(steps: Ratio) -> Option<u64> {
    is_countable(steps).then_some(steps.si() as u64)
}

/// Whether a whole number of steps is not negative and can be counted exactly.
#[inline(always)]
#[allow(clippy::cast_precision_loss)]
pub(crate) fn is_countable(steps: Ratio) -> bool {
    (steps.si() >= 0.0) & (steps.si() <= MOST_STEPS as f64)
}

/// Whole steps in `x`, which is not negative: a value that is close to a step is on it.
#[inline(always)]
pub(crate) fn whole_down(x: Ratio) -> Ratio {
    let (x, nearest) = (x.si(), nearest(x.si()));
    Ratio::from_si(if close(x, nearest) { nearest } else { floor(x) })
}

/// Whole steps that hold all of `x`, which is not negative.
#[inline(always)]
pub(crate) fn whole_up(x: Ratio) -> Ratio {
    let (x, nearest) = (x.si(), nearest(x.si()));
    let down = floor(x);
    Ratio::from_si(if close(x, nearest) { nearest } else { down + if x > down { 1.0 } else { 0.0 } })
}

/// Whole steps nearest to `x`, which is not negative; a half goes down.
#[inline(always)]
pub(crate) fn whole_nearest(x: Ratio) -> Ratio {
    let down = whole_down(x);
    let half = down + Ratio::from_si(0.5);
    Ratio::from_si(down.si() + if is_over(x, half) { 1.0 } else { 0.0 })
}

/// Whole steps in `x`: a value that is close to a step is on it.
pub(crate) fn steps_down(x: Ratio) -> Option<u64> {
    whole(whole_down(x))
}

/// Steps that hold all of `x`.
pub(crate) fn steps_up(x: Ratio) -> Option<u64> {
    whole(whole_up(x))
}

/// Rounding of a difference, as a part of the terms it is made from: a handful of units in the last place.
const ROUNDING: f64 = 1e-15;

/// Whole steps in a difference `x` of terms as large as `scale`, and whether it stands on that step.
pub(crate) fn steps_in_difference(x: Ratio, scale: Ratio) -> Option<(u64, bool)> {
    let (x, nearest) = (x.si(), nearest(x.si()));
    let is_on_step = close(x, nearest) || libm::fabs(x - nearest) <= ROUNDING * scale.si();
    Some((whole(Ratio::from_si(if is_on_step { nearest } else { floor(x) }))?, is_on_step))
}
