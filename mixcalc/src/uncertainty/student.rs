//! How many standard uncertainties hold a value with a given probability: the quantiles of Student's t and of the normal distribution.
//!
//! Both are the root of a coverage that grows ever more slowly, so that Newton's steps from zero come up to it from below and never pass it.
//! Why this is not a library's: `docs/decisions/0030-uncertainty.md`.

use core::f64::consts::{FRAC_1_SQRT_2, FRAC_2_PI, FRAC_2_SQRT_PI};

/// Degrees of freedom up to which the finite series is summed.
const MOST_SUMMED: u64 = 1000;

/// More steps than any coverage takes.
const MOST_STEPS: usize = 100;

/// The two-sided quantile: with `coverage` above 0 and not so near to 1 that the slope there is lost in
/// rounding, `t` such that a share of `coverage` lies within `-t` and `t`. Without degrees of
/// freedom, of the normal distribution.
pub(crate) fn two_sided(coverage: f64, degrees: Option<u64>) -> f64 {
    match degrees {
        #[allow(clippy::cast_precision_loss)] // at most a thousand
        Some(degrees) if degrees <= MOST_SUMMED => {
            let angle = root(coverage, |angle| within_angle(angle, degrees));
            libm::sqrt(degrees as f64) * libm::tan(angle)
        }
        #[allow(clippy::cast_precision_loss)] // the last digits of so many make no difference
        Some(degrees) => far(normal(coverage), degrees as f64),
        None => normal(coverage),
    }
}

/// A `t` that holds all but 1e-21 with over a thousand degrees of freedom.
const CERTAIN: f64 = 10.0;

/// Steps after which [`far`] is undone to the last digits: each leaves less than a tenth of the error.
const STEPS_BACK: usize = 16;

/// The share within `-t` and `t`: the other way round.
pub(super) fn within(t: f64, degrees: Option<u64>) -> f64 {
    let t = libm::fabs(t);
    let normal = |z: f64| libm::erf(z * FRAC_1_SQRT_2);
    match degrees {
        #[allow(clippy::cast_precision_loss)] // at most a thousand
        Some(degrees) if degrees <= MOST_SUMMED => within_angle(libm::atan(t / libm::sqrt(degrees as f64)), degrees).0,
        #[allow(clippy::cast_precision_loss)] // the last digits of so many make no difference
        Some(degrees) => {
            let t = libm::fmin(t, CERTAIN);
            normal((0..STEPS_BACK).fold(t, |z, _| z - (far(z, degrees as f64) - t)))
        }
        None => normal(t),
    }
}

fn normal(coverage: f64) -> f64 {
    root(coverage, |z| (libm::erf(z * FRAC_1_SQRT_2), FRAC_2_SQRT_PI * FRAC_1_SQRT_2 * libm::exp(z * z * -0.5)))
}

/// Where `within`, which gives coverage and slope, reaches `coverage`.
fn root(coverage: f64, within: impl Fn(f64) -> (f64, f64)) -> f64 {
    let mut x = 0.0;
    for _ in 0..MOST_STEPS {
        let (reached, slope) = within(x);
        let next = x + (coverage - reached) / slope;
        if next.is_nan() || next <= x {
            break;
        }
        x = next;
    }
    x
}

/// Coverage and slope of Student's t at `t = sqrt(degrees) * tan(angle)`: Abramowitz and Stegun, 26.7.3 and 26.7.4.
#[allow(clippy::cast_precision_loss)] // at most a thousand
fn within_angle(angle: f64, degrees: u64) -> (f64, f64) {
    let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
    let is_odd = degrees % 2 == 1;
    let (first, mut term) = if is_odd { (3, cosine) } else { (2, 1.0) };
    let mut sum = 0.0;
    for n in (first..=degrees).step_by(2) {
        sum += term;
        term *= cosine * cosine * ((n - 1) as f64 / n as f64);
    }
    // The next term of the series is the slope but for a factor.
    let slope = degrees as f64 * term / cosine;
    if is_odd { (FRAC_2_PI * (angle + sine * sum), FRAC_2_PI * slope) } else { (sine * sum, slope) }
}

/// Student's t far from few degrees of freedom, from the normal quantile: Abramowitz and Stegun, 26.7.5. Each row holds the coefficients of
/// `x`, `x^3`, `x^5` and so on, and what they are divided by.
fn far(x: f64, degrees: f64) -> f64 {
    const ROWS: [([i32; 5], i32); 4] = [
        ([1, 1, 0, 0, 0], 4),
        ([3, 16, 5, 0, 0], 96),
        ([-15, 17, 19, 3, 0], 384),
        ([-945, -1920, 1482, 776, 79], 92160),
    ];
    let correction = ROWS.iter().rev().fold(0.0, |sum, (row, divisor)| {
        let polynomial = row.iter().rev().fold(0.0, |sum, factor| sum * x * x + f64::from(*factor));
        (sum + polynomial / f64::from(*divisor)) / degrees
    });
    x + x * correction
}
