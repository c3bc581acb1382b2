//! How often to measure, when to stop, and which repeat does not belong to the others.

use alloc::vec::Vec;

use crate::error::{Error, ErrorCode};
use crate::quantity::close::{is_over, steps_down};
use crate::quantity::{AdditiveKind, Quantity, Ratio, Time, bounded, ordered_sum, positive};
use crate::text;
use crate::uncertainty::dynamic::numbers;
use crate::uncertainty::student::two_sided;
use crate::uncertainty::{Uncertain, UncertainQuantity, magnitude};

/// The most repeats that are planned for: whoever needs more needs another way to measure.
const MOST_REPEATS: u64 = 10_000;

/// How many repeats bring the half-width of a mean's interval down to a part of the mean: the least `n` from 2 on with
/// `t s / sqrt(n) <= precision`, where `t` is Student's at `n - 1` degrees of freedom. Since `t` falls as `n` grows, it is found by trying.
///
/// * `spread` (s): standard deviation of one repeat, as a part of the mean.
/// * `precision`: half-width of the interval, as a part of the mean.
/// * `coverage`: probability with which the interval is to hold the true value.
///
/// It is a plan: the spread that then shows may be larger. [`is_settled`] says when to stop.
///
/// # Errors
///
/// At `spread` or `precision`: [`NotPositive`](ErrorCode::NotPositive); at `precision`: [`OutOfRange`](ErrorCode::OutOfRange) where it takes more than 10 000
/// repeats. At `coverage`: as [`Uncertain::coverage_factor`].
///
/// # Example
///
/// ```
/// use mixcalc::{Ratio, repeats_needed};
///
/// let percent = Ratio::from_percent;
/// assert_eq!(repeats_needed(percent(5.0)?, percent(5.0)?, percent(95.0)?)?, 7);
/// assert_eq!(repeats_needed(percent(3.0)?, percent(5.0)?, percent(95.0)?)?, 4);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// JCGM 100:2008, 4.2.3 and G.3, solved for `n`.
pub fn repeats_needed(spread: Ratio, precision: Ratio, coverage: Ratio) -> Result<u64, Error> {
    let spread = positive(spread).map_err(|error| error.at("spread"))?;
    let precision = positive(precision).map_err(|error| error.at("precision"))?;
    // Checks the coverage, which is the same for all counts.
    Uncertain::exact(Ratio::one())?.coverage_factor(coverage)?;
    let is_enough = |count: &u64| {
        let half_width = spread * two_sided(coverage.number(), Some(count - 1));
        !is_over(half_width / libm::sqrt(Ratio::of_steps(*count).number()), precision)
    };
    (2..=MOST_REPEATS).find(is_enough).ok_or_else(|| {
        let error = Error::new(ErrorCode::OutOfRange).at("precision").given(precision);
        error.allowed(format_args!("{} {MOST_REPEATS}", text::word("reached with repeats up to")))
    })
}

/// Whether a mean of repeats is as precise as wanted, so that one may stop: the half-width of its interval is not over that part of the mean.
///
/// Stopping at the first time that it is so, rather than at a number that was planned, picks lucky spreads: such intervals hold the true value somewhat less
/// often than they say. Plan the number by [`repeats_needed`], and use this to see whether it was enough.
///
/// # Errors
///
/// At `precision`: [`NotPositive`](ErrorCode::NotPositive). At `coverage`: as [`Uncertain::coverage_factor`].
///
/// # Example
///
/// ```
/// use mixcalc::{Ratio, Uncertain, Volume, is_settled};
///
/// let [a, b, c] = [600.0, 603.0, 597.0].map(Volume::from_milliliters);
/// let catches = Uncertain::from_repeats("catches", &[a?, b?, c?])?;
/// let percent = Ratio::from_percent;
/// assert!(is_settled(&catches, percent(2.5)?, percent(95.0)?)?);
/// assert!(!is_settled(&catches, percent(1.0)?, percent(95.0)?)?);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// JCGM 100:2008, G.3.
pub fn is_settled<Q: AdditiveKind>(mean: &Uncertain<Q>, precision: Ratio, coverage: Ratio) -> Result<bool, Error> {
    let precision = positive(precision).map_err(|error| error.at("precision"))?;
    let half_width = mean.expanded_uncertainty(coverage)?;
    let size = magnitude(mean.value());
    Ok(!is_over(half_width, size * precision))
}

impl UncertainQuantity {
    /// As [`is_settled()`].
    ///
    /// # Errors
    ///
    /// As there.
    pub fn is_settled(&self, precision: Ratio, coverage: Ratio) -> Result<bool, Error> {
        is_settled(self.number(), precision, coverage)
    }
}

text::named! {
    /// What a test for an outlier says.
    OutlierVerdict {
        /// None of the values is so far off that chance does not account for it.
        None = "none";
        /// The value farthest from the mean is. Look for its cause before leaving it out.
        Outlier = "outlier";
        /// There are too few values to tell: measure once more.
        TooFew = "too-few";
    }
}

/// A test of the value that is farthest from the mean.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct OutlierTest {
    /// Which value it is, from 0.
    pub farthest: usize,
    /// Its distance from the mean in standard deviations: the maximum normed residual.
    pub residual: Ratio,
    /// The residual that chance passes with no more than the chosen probability; none for fewer than three values.
    pub critical: Option<Ratio>,
    /// What follows.
    pub verdict: OutlierVerdict,
}

/// Fewest values of which one may be told to be an outlier. Of three no residual is above 1.1547, and 1.1543 is critical at 5 %: two must agree to a
/// hundredth of their distance from the third, which says more about the two.
const FEWEST_TESTED: usize = 4;

/// Tests whether the value farthest from the mean is an outlier: the maximum normed residual `G = max(|x - mean|) / s` against
/// `(n - 1) / sqrt(n) * sqrt(t^2 / (n - 2 + t^2))`, where `t` is Student's at `n - 2` degrees of freedom with `risk / (2 n)` above it.
///
/// * `values`: repeats of one value, or nozzles of one kind.
/// * `risk`: the probability of calling an outlier where there is none.
///
/// # Errors
///
/// At `values`: [`MissingInput`](ErrorCode::MissingInput) for fewer than two; at `values[i]`: [`OutOfRange`](ErrorCode::OutOfRange),
/// [`NotFinite`](ErrorCode::NotFinite). At `risk`: [`OutOfRange`](ErrorCode::OutOfRange) unless it is above 0.0001 % of their number and under 100 %.
///
/// # Example
///
/// With three catches it cannot be told; a fourth like the first two tells.
///
/// ```
/// use mixcalc::{OutlierVerdict, Ratio, Volume, outlier};
///
/// let ml = Volume::from_milliliters;
/// let risk = Ratio::from_percent(5.0)?;
/// let three = [ml(600.0)?, ml(604.0)?, ml(680.0)?];
/// assert_eq!(outlier(&three, risk)?.verdict, OutlierVerdict::TooFew);
/// let test = outlier(&[ml(600.0)?, ml(604.0)?, ml(680.0)?, ml(602.0)?], risk)?;
/// assert_eq!((test.verdict, test.farthest), (OutlierVerdict::Outlier, 2));
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// F. E. Grubbs, Procedures for detecting outlying observations in samples, Technometrics 11 (1969), 1-21; ASTM E178; ISO 5725-2:1994, 7.3.4.
pub fn outlier<Q: AdditiveKind>(values: &[Q], risk: Ratio) -> Result<OutlierTest, Error> {
    for (i, value) in values.iter().enumerate() {
        bounded(*value).map_err(|error| error.at(format_args!("values[{i}]")))?;
    }
    if values.len() < 2 {
        return Err(Error::new(ErrorCode::MissingInput).at("values").allowed(text::word("two or more")));
    }
    let count = Ratio::of_steps(values.len() as u64);
    let refused = || {
        let error = Error::new(ErrorCode::OutOfRange).at("risk").given(risk);
        error.allowed(text::word("above 0 % and under 100 %"))
    };
    let coverage = Ratio::one() - risk / count;
    if !(risk > Ratio::ZERO && risk < Ratio::one()) {
        return Err(refused());
    }
    Uncertain::exact(Ratio::one())?.coverage_factor(coverage).map_err(|_| refused())?;

    let mean = ordered_sum(values.iter().copied()) * (Ratio::one() / count);
    let distances = values.iter().map(|value| magnitude(*value - mean));
    let (farthest, distance) =
        distances.clone().enumerate().fold((0, Q::default()), |most, one| if one.1 > most.1 { one } else { most });
    let none = distance == Q::default();
    let squares = ordered_sum(distances.map(|one| {
        let part = if none { Ratio::ZERO } else { one / distance };
        part * part
    }));
    let fewer = count - Ratio::one();
    // In parts of the farthest distance, the standard deviation is sqrt(squares / (n - 1)).
    let residual = if none { Ratio::ZERO } else { Ratio::one() / root(squares / fewer) };
    let critical = values.len().checked_sub(2).filter(|degrees| *degrees > 0).map(|degrees| {
        let t = two_sided(coverage.number(), Some(degrees as u64));
        let squared = Ratio::one() * t * t;
        fewer / root(count) * root(squared / (squared + Ratio::of_steps(degrees as u64)))
    });
    let verdict = match critical {
        Some(critical) if values.len() >= FEWEST_TESTED && is_over(residual, critical) => OutlierVerdict::Outlier,
        Some(_) if values.len() >= FEWEST_TESTED => OutlierVerdict::None,
        _ => OutlierVerdict::TooFew,
    };
    Ok(OutlierTest { farthest, residual, critical, verdict })
}

/// As [`outlier`], of values whose kind is known only when the program runs.
///
/// # Errors
///
/// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) at `values[i]` for one of another kind than the first.
pub fn outlier_quantity(values: &[Quantity], risk: Ratio) -> Result<OutlierTest, Error> {
    outlier(&numbers(values, "values")?.1, risk)
}

fn root(ratio: Ratio) -> Ratio {
    Ratio::one() * libm::sqrt(ratio.number())
}

/// One thing that is measured for a calibration, such as a catch, a run or the swath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Standard deviation of one repeat, as a part of the mean.
    pub spread: Ratio,
    /// What one repeat takes.
    pub time: Time,
}

/// Most ways to share out the time that are looked at.
const MOST_SHARINGS: u64 = 2_000_000;

/// How often to measure each of several things, so that a volume rate made of them by multiplying and dividing is known best in the time there is: the
/// whole numbers from 2 on that make `sum(s^2 / n)` least with `sum(n time) <= available`. All of them are compared, so that it is the best there is.
///
/// What repeats do not lessen, such as a jug that reads high, is not in it: see the shares of variance.
///
/// * `efforts`: what is measured, each with the spread of a repeat and what it takes.
/// * `available`: time for all of it.
///
/// # Errors
///
/// At `efforts`: [`MissingInput`](ErrorCode::MissingInput) for none; at `efforts[i]`: [`NotPositive`](ErrorCode::NotPositive). At `available`:
/// [`OutOfRange`](ErrorCode::OutOfRange) for less than two of each take, or for so much that there are over two million ways.
///
/// # Example
///
/// Catches that spread by 1 % and take 2 minutes, runs of a walker that spread by 5 % and take 3: half an hour goes to the runs.
///
/// ```
/// use mixcalc::{Effort, Ratio, Time, best_repeats};
///
/// let catch = Effort { spread: Ratio::from_percent(1.0)?, time: Time::from_minutes(2.0)? };
/// let run = Effort { spread: Ratio::from_percent(5.0)?, time: Time::from_minutes(3.0)? };
/// assert_eq!(best_repeats(&[catch, run], Time::from_minutes(30.0)?)?, [3, 8]);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// JCGM 100:2008, equation 12, made least under a bound; W. G. Cochran, Sampling Techniques, 5.5, for its solution without whole numbers.
pub fn best_repeats(efforts: &[Effort], available: Time) -> Result<Vec<u64>, Error> {
    let refused =
        |allowed: &'static str| Error::new(ErrorCode::OutOfRange).at("available").given(available).allowed(allowed);
    let mut least = Time::ZERO;
    for (i, effort) in efforts.iter().enumerate() {
        let at = |error: Error| error.at(format_args!("efforts[{i}]"));
        positive(effort.spread).map_err(|error| at(error.at("spread")))?;
        least = least + positive(effort.time).map_err(|error| at(error.at("time")))? * 2.0;
    }
    let Some((last, others)) = efforts.split_last() else {
        return Err(Error::new(ErrorCode::MissingInput).at("efforts").allowed(text::word("one or more")));
    };
    bounded(available).map_err(|error| error.at("available"))?;
    if is_over(least, available) {
        return Err(refused(text::word("enough for two of each")));
    }
    let most = |effort: &Effort| steps_down((available - least) / effort.time).map(|more| more.saturating_add(2));
    let ways = others.iter().try_fold(1_u64, |ways, effort| ways.checked_mul(most(effort)? - 1));
    if ways.is_none_or(|ways| ways > MOST_SHARINGS) || most(last).is_none() {
        return Err(refused(text::word("less time, or fewer things to measure")));
    }

    let mut counts: Vec<u64> = others.iter().map(|_| 2).collect();
    let mut best: Option<(Ratio, Vec<u64>)> = None;
    loop {
        let taken =
            others.iter().zip(&counts).fold(Time::ZERO, |sum, (effort, n)| sum + effort.time * Ratio::of_steps(*n));
        let rest = steps_down((available - taken) / last.time).filter(|rest| *rest >= 2);
        if let Some(rest) = rest {
            let all = efforts.iter().zip(counts.iter().chain([&rest]));
            let variance = ordered_sum(all.map(|(effort, n)| effort.spread * effort.spread / Ratio::of_steps(*n)));
            if best.as_ref().is_none_or(|(least, _)| variance < *least) {
                best = Some((variance, counts.iter().copied().chain([rest]).collect()));
            }
        }
        // The next way, as an odometer counts.
        let turned = others.iter().zip(&mut counts).any(|(effort, n)| {
            let more = most(effort).is_some_and(|most| *n < most);
            *n = if more { *n + 1 } else { 2 };
            more
        });
        if !turned {
            break;
        }
    }
    best.map(|(_, counts)| counts).ok_or_else(|| refused(text::word("enough for two of each")))
}
