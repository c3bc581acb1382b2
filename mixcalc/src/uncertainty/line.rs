//! The straight line through points that scatter about it in one direction: least squares.

use crate::error::{Error, ErrorCode};
use crate::quantity::close::steps_down;
use crate::quantity::{Ratio, ordered_sum};
use crate::text;

/// A fitted line, `y = y_mean + slope (x - x_mean)`. About the mean of `x` its two parameters err independently.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Line {
    pub(crate) count: f64,
    pub(crate) x_mean: f64,
    pub(crate) y_mean: f64,
    pub(crate) slope: f64,
    /// Sum of the squared distances of `x` from its mean.
    pub(crate) x_squares: f64,
    /// Sum of the squared distances of `y` from the line.
    pub(crate) residual_squares: f64,
}

impl Line {
    /// The line through three points or more, not all at one `x`.
    ///
    /// # Source
    ///
    /// ISO 11095:1996, 6; NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1.
    pub(crate) fn through(points: &[(f64, f64)]) -> Result<Self, Error> {
        let refused = |given: &dyn core::fmt::Display| {
            let error = Error::new(ErrorCode::OutOfRange).at("points").given(given);
            error.allowed(text::word("three or more, not all of them alike"))
        };
        if points.len() < FEWEST {
            return Err(refused(&points.len()));
        }
        let sum = |terms: &mut dyn Iterator<Item = f64>| ordered_sum(terms.map(|term| Ratio::one() * term)).number();
        let count = Ratio::of_steps(points.len() as u64).number();
        let x_mean = sum(&mut points.iter().map(|(x, _)| *x)) / count;
        let y_mean = sum(&mut points.iter().map(|(_, y)| *y)) / count;
        let x_squares = sum(&mut points.iter().map(|(x, _)| (x - x_mean) * (x - x_mean)));
        let products = sum(&mut points.iter().map(|(x, y)| (x - x_mean) * (y - y_mean)));
        let slope = products / x_squares;
        if !slope.is_finite() {
            return Err(refused(&text::word("one pressure or time for all")));
        }
        let residual_squares = sum(&mut points.iter().map(|(x, y)| {
            let residual = y - (y_mean + slope * (x - x_mean));
            residual * residual
        }));
        Ok(Self { count, x_mean, y_mean, slope, x_squares, residual_squares })
    }

    /// Its `y` at an `x`.
    pub(crate) fn at(&self, x: f64) -> f64 {
        self.y_mean + self.slope * (x - self.x_mean)
    }

    /// Degrees of freedom of the scatter about it: two less than the points.
    pub(crate) const fn degrees(&self) -> f64 {
        self.count - 2.0
    }

    /// The same as a count.
    pub(crate) fn whole_degrees(&self) -> u64 {
        steps_down(Ratio::one() * self.degrees()).unwrap_or(1)
    }

    /// Standard deviation of the scatter about it.
    pub(crate) fn scatter(&self) -> f64 {
        libm::sqrt(self.residual_squares / self.degrees())
    }
}

/// Fewest points that tell how far they scatter.
const FEWEST: usize = 3;
