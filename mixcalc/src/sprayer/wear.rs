//! Wear: how flow rises with hours of use, when it reaches a limit, and whether one value is out of the ordinary.

use alloc::vec::Vec;

use crate::error::{Error, ErrorCode};
use crate::quantity::close::{is_over, is_under};
use crate::quantity::{AdditiveKind, Flow, Quantity, Ratio, Time, bounded, not_negative, ordered_sum, positive};
use crate::text;
use crate::uncertainty::dynamic::numbers;
use crate::uncertainty::line::Line;
use crate::uncertainty::{Uncertain, magnitude, student};

/// The straight line through the flows of a nozzle, or the mean flows of a set, over their hours of use: `q = q0 (1 + b t)`, by least squares.
///
/// All flows are of one pressure and one way to measure. Wear is no straight line for good: do not look far beyond the last flow.
///
/// # Example
///
/// 1 L/min when new, and 1 % more each ten hours: 10 % more after 100 hours.
///
/// ```
/// use mixcalc::{Flow, Ratio, Time, Wear};
///
/// let flows = [(0.0, 1.0), (10.0, 1.011), (20.0, 1.019), (30.0, 1.031), (40.0, 1.039)];
/// let mut points = Vec::new();
/// for (hours, flow) in flows {
///     points.push((Time::from_minutes(hours * 60.0)?, Flow::from_liters_per_minute(flow)?));
/// }
/// let wear = Wear::from_flows(&points)?;
/// let worn = wear.reaches(Flow::read("1.1 L/min")?, Ratio::from_percent(95.0)?)?;
/// let hours = worn.map(|worn| [worn.earliest, worn.expected, worn.latest].map(|time| time.minutes() / 60.0));
/// assert!(hours.is_some_and(|[earliest, expected, latest]| earliest > 85.0 && (expected - 101.0).abs() < 1.0 && latest < 125.0));
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// ISO 11095:1996, 6, for the line; E. C. Fieller, Some problems in interval estimation, Journal of the Royal Statistical Society B 16 (1954), 175-185, for when
/// a limit is reached.
#[derive(Clone, Debug, PartialEq)]
pub struct Wear {
    line: Line,
    hour: Time,
    first: Flow,
}

/// When a limit is reached, in hours of use.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct WornAt {
    /// Where the line meets the limit.
    pub expected: Time,
    /// The lower end of the interval. Before the last flow: it may have been reached already.
    pub earliest: Time,
    /// The upper end.
    pub latest: Time,
}

const MINUTES_PER_HOUR: f64 = 60.0;

impl Wear {
    /// The line through three flows or more at their hours of use.
    ///
    /// # Errors
    ///
    /// At `points`: [`OutOfRange`](ErrorCode::OutOfRange) for fewer than three, or all at one time; at `points[i]`:
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a time below zero, [`NotPositive`](ErrorCode::NotPositive) for a flow that is not above it.
    pub fn from_flows(points: &[(Time, Flow)]) -> Result<Self, Error> {
        let hour = Time::from_minutes(MINUTES_PER_HOUR)?;
        let first = points.first().map_or(Flow::ZERO, |(_, flow)| *flow);
        let mut parts = Vec::with_capacity(points.len());
        for (i, (time, flow)) in points.iter().enumerate() {
            let at = |error: Error| error.at(format_args!("points[{i}]"));
            let (x, y) = (not_negative(*time).map_err(at)? / hour, positive(*flow).map_err(at)? / first);
            parts.push((x.number(), y.number()));
        }
        Ok(Self { line: Line::through(&parts)?, hour, first })
    }

    /// The flow at a time of use, on the line.
    #[must_use]
    pub fn flow_at(&self, time: Time) -> Flow {
        self.first * self.line.at((time / self.hour).number())
    }

    /// How much more than when new it gives after a time of use, as a part of the flow when new, `b t`.
    ///
    /// # Errors
    ///
    /// [`NotFinite`](ErrorCode::NotFinite) for a line that begins at no flow.
    pub fn wear_at(&self, time: Time) -> Result<Ratio, Error> {
        bounded(self.flow_at(time) / self.flow_at(Time::ZERO) - Ratio::one())
    }

    /// When a flow is reached that counts as worn, such as 1.1 times that of a new nozzle. `None` where the line does not rise for certain: then nothing can be
    /// foreseen, and more flows over more hours are needed.
    ///
    /// # Errors
    ///
    /// At `limit`: [`NotPositive`](ErrorCode::NotPositive). At `coverage`: as [`Uncertain::coverage_factor`].
    pub fn reaches(&self, limit: Flow, coverage: Ratio) -> Result<Option<WornAt>, Error> {
        let limit = positive(limit).map_err(|error| error.at("limit"))?;
        Uncertain::exact(Ratio::one())?.coverage_factor(coverage)?;
        let Line { count, x_mean, y_mean, slope, x_squares, .. } = self.line;
        let t = student::two_sided(coverage.number(), Some(self.line.whole_degrees())) * self.line.scatter();
        // The times for which (y - slope d)^2 is not over t^2 (1 / n + d^2 / x_squares), with d from the mean time and y from the mean flow.
        let y = (limit / self.first).number() - y_mean;
        let certain = slope * slope - t * t / x_squares;
        let root = libm::sqrt(y * y * slope * slope - certain * (y * y - t * t / count));
        if slope <= 0.0 || certain <= 0.0 || root.is_nan() {
            return Ok(None);
        }
        let after = |d: f64| bounded(self.hour * (x_mean + d));
        Ok(Some(WornAt {
            expected: after(y / slope)?,
            earliest: after((y * slope - root) / certain)?,
            latest: after((y * slope + root) / certain)?,
        }))
    }
}

/// The limits between which single values of a steady thing stay: a chart of individuals.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct ControlChart<Q> {
    /// The mean.
    pub center: Q,
    /// The lower limit; below zero where values spread widely.
    pub low: Q,
    /// The upper limit.
    pub high: Q,
    /// The values outside of the limits, from 0.
    pub outside: Vec<usize>,
}

/// Three standard deviations over the mean of moving ranges of two: 3 / 1.128.
const INDIVIDUALS_FACTOR: f64 = 2.66;

/// A chart of individuals over values in the order in which they were measured, such as one nozzle's flow at each check: mean plus and minus 2.66 times the
/// mean of the ranges from each value to the next. A value outside has a cause worth looking for.
///
/// # Errors
///
/// At `values`: [`MissingInput`](ErrorCode::MissingInput) for fewer than two; at `values[i]`: [`OutOfRange`](ErrorCode::OutOfRange),
/// [`NotFinite`](ErrorCode::NotFinite).
///
/// # Example
///
/// 1.20, 1.21, 1.20, 1.22, 1.21 L/min: the mean is 1.208 and the mean range 0.0125, so that the limits are 0.033 to either side.
///
/// ```
/// use mixcalc::{Flow, control_chart};
///
/// let mut flows = Vec::new();
/// for flow in [1.20, 1.21, 1.20, 1.22, 1.21] {
///     flows.push(Flow::from_liters_per_minute(flow)?);
/// }
/// let chart = control_chart(&flows)?;
/// assert!((chart.high.liters_per_minute() - 1.24125).abs() < 1e-9);
/// assert!(chart.outside.is_empty());
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// ISO 7870-2:2013; ASTM E2587; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, for the factor.
pub fn control_chart<Q: AdditiveKind>(values: &[Q]) -> Result<ControlChart<Q>, Error> {
    for (i, value) in values.iter().enumerate() {
        bounded(*value).map_err(|error| error.at(format_args!("values[{i}]")))?;
    }
    if values.len() < 2 {
        return Err(Error::new(ErrorCode::MissingInput).at("values").allowed(text::word("two or more")));
    }
    let count = Ratio::of_steps(values.len() as u64);
    let center = ordered_sum(values.iter().copied()) * (Ratio::one() / count);
    let ranges = values.iter().zip(values.iter().skip(1)).map(|(before, after)| magnitude(*after - *before));
    let range = ordered_sum(ranges) * (Ratio::one() / (count - Ratio::one()));
    let (low, high) = (center - range * INDIVIDUALS_FACTOR, center + range * INDIVIDUALS_FACTOR);
    let is_outside = |value: Q| is_under(value, low) || is_over(value, high);
    let outside = values.iter().enumerate().filter(|(_, value)| is_outside(**value)).map(|(i, _)| i).collect();
    Ok(ControlChart { center, low, high, outside })
}

/// As [`control_chart`], of values whose kind is known only when the program runs.
///
/// # Errors
///
/// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) at `values[i]` for one of another kind than the first.
pub fn control_chart_quantity(values: &[Quantity]) -> Result<ControlChart<Quantity>, Error> {
    let (one, numbers) = numbers(values, "values")?;
    let ControlChart { center, low, high, outside } = control_chart(&numbers)?;
    let told = |number: Ratio| one.times(Quantity::of(number));
    Ok(ControlChart { center: told(center)?, low: told(low)?, high: told(high)?, outside })
}
