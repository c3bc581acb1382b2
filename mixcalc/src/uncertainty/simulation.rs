//! Monte Carlo: what first order does not do.

use alloc::sync::Arc;
use alloc::vec::Vec;
use core::cmp::Ordering;
use core::ops::RangeInclusive;

use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng, SeedableRng};

use super::{Interval, Origin, RECTANGULAR_HALF_WIDTH, Shape, Uncertain, coverage_within, root_of_squares};
use crate::error::{Error, ErrorCode};
use crate::quantity::close::steps_down;
use crate::quantity::{AdditiveKind, Ratio, bounded};
use crate::text;

/// Fewest and most trials: enough for an interval, and no more than 80 MB.
const TRIALS: RangeInclusive<usize> = 1_000..=10_000_000;

/// Degrees of freedom up to which Student's t has no standard deviation.
const FEWEST_WITHOUT_MOMENTS: u64 = 2;

/// The draws of one input: a generator of its own, so that neither the other inputs nor the order in which a model asks for them changes
/// a draw.
#[derive(Debug)]
struct Stream {
    origin: Arc<Origin>,
    generator: Xoshiro256PlusPlus,
    drawn: Option<f64>,
}

impl Stream {
    fn new(origin: &Arc<Origin>, seed: u64) -> Self {
        let generator = Xoshiro256PlusPlus::seed_from_u64(seed_of(seed, &origin.name));
        Self { origin: Arc::clone(origin), generator, drawn: None }
    }

    /// From -1 to 1 without 1, in 2^53 steps.
    #[allow(clippy::cast_precision_loss)] // 53 bits are a double's
    fn even(&mut self) -> f64 {
        const STEP: f64 = 1.0 / (1_u64 << 52) as f64;
        (self.generator.next_u64() >> 11) as f64 * STEP - 1.0
    }

    /// How many standard uncertainties the input is off, the same for the whole of a trial.
    fn deviation(&mut self) -> f64 {
        if let Some(drawn) = self.drawn {
            return drawn;
        }
        let drawn = match self.origin.shape {
            Shape::Rectangular => self.even() * RECTANGULAR_HALF_WIDTH,
            Shape::Bell(degrees) => self.bell(degrees.number().map(Ratio::number)),
        };
        self.drawn = Some(drawn);
        drawn
    }

    /// Student's t by Bailey's polar method, of which Marsaglia's for the normal distribution is the limit.
    fn bell(&mut self, degrees: Option<f64>) -> f64 {
        loop {
            let (u, v) = (self.even(), self.even());
            let w = u * u + v * v;
            if w > 0.0 && w < 1.0 {
                let logarithm = -2.0 * libm::log(w);
                let squared = degrees.map_or(logarithm, |degrees| degrees * libm::expm1(logarithm / degrees));
                return u * libm::sqrt(squared / w);
            }
        }
    }
}

/// A seed for an input: the 64-bit FNV-1a hash of the caller's seed and its name.
fn seed_of(seed: u64, name: &str) -> u64 {
    const BASIS: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0100_0000_01b3;
    let bytes = seed.to_le_bytes().into_iter().chain(name.bytes());
    bytes.fold(BASIS, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(PRIME))
}

/// One trial of a simulation: a world in which every input has one value.
#[derive(Debug)]
pub struct Trial {
    seed: u64,
    streams: Vec<Stream>,
}

impl Trial {
    /// An uncertain value as it is in this trial. Inputs that values share are drawn once.
    ///
    /// # Errors
    ///
    /// [`DuplicateName`](ErrorCode::DuplicateName) where one name stands for inputs of different uncertainty or distribution.
    pub fn of<Q: AdditiveKind>(&mut self, value: &Uncertain<Q>) -> Result<Q, Error> {
        let mut drawn = value.value;
        for term in &value.terms {
            drawn = drawn + term.amount * self.deviation(&term.origin)?;
        }
        Ok(drawn)
    }

    fn deviation(&mut self, origin: &Arc<Origin>) -> Result<f64, Error> {
        for stream in &mut self.streams {
            if Arc::ptr_eq(&stream.origin, origin) {
                return Ok(stream.deviation());
            }
            if stream.origin.name == origin.name {
                stream.origin.same_as(origin)?;
                return Ok(stream.deviation());
            }
        }
        let mut stream = Stream::new(origin, self.seed);
        let deviation = stream.deviation();
        self.streams.push(stream);
        Ok(deviation)
    }

    fn next(&mut self) {
        self.streams.iter_mut().for_each(|stream| stream.drawn = None);
    }
}

/// Works a model out many times, each time with other values of its inputs, drawn as they are distributed.
///
/// A tolerance and a resolution are drawn evenly over their width, repeats from Student's t, others from the normal distribution, or from
/// Student's t where their degrees of freedom are finite. The same seed gives the same digits on every machine, in whatever order the model
/// asks for its values.
///
/// * `trials`: a million settles 95 % intervals to two or three digits; from 1000 to ten million.
/// * `seed`: any number; another one shows how far the digits have settled.
/// * `model`: from the values of one trial, by [`Trial::of`], to the result in that trial.
///
/// # Errors
///
/// At `trials`: [`OutOfRange`](ErrorCode::OutOfRange). Whatever the model returns as an error ends the simulation, and so does a result
/// beyond what is measured ([`OutOfRange`](ErrorCode::OutOfRange), [`NotFinite`](ErrorCode::NotFinite)).
///
/// # Example
///
/// The narrower of two swaths of 2 m with a tolerance of 0.1 m: the lesser of two even draws lies a third of the half-width under their
/// middle, so that its mean is 2 m - 0.0333 m.
///
/// ```
/// use mixcalc::{Length, Uncertain, simulate};
///
/// let two = Length::from_meters(2.0)?;
/// let tenth = Length::from_meters(0.1)?;
/// let left = Uncertain::from_tolerance("left swath", two, tenth)?;
/// let right = Uncertain::from_tolerance("right swath", two, tenth)?;
/// let narrower = simulate(100_000, 1, |trial| Ok(trial.of(&left)?.min(trial.of(&right)?)))?;
/// let mean = narrower.mean().map(Length::meters);
/// assert!(mean.is_some_and(|mean| (mean - (2.0 - 0.1 / 3.0)).abs() < 1e-3));
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// JCGM 101:2008, Supplement 1 to the GUM: Propagation of distributions using a Monte Carlo method, 6.4 and 7. Generator: D. Blackman and S.
/// Vigna, Scrambled linear pseudorandom number generators, 2021 (xoshiro256++). Student's t: R. W. Bailey, Polar generation of random
/// variates with the t-distribution, 1994.
pub fn simulate<Q: AdditiveKind>(
    trials: u32,
    seed: u64,
    mut model: impl FnMut(&mut Trial) -> Result<Q, Error>,
) -> Result<Simulation<Q>, Error> {
    let count = usize::try_from(trials).unwrap_or(usize::MAX);
    if !TRIALS.contains(&count) {
        let allowed = format_args!("{} {} to {}", text::word("from"), TRIALS.start(), TRIALS.end());
        return Err(Error::new(ErrorCode::OutOfRange).at("trials").given(trials).allowed(allowed));
    }
    let mut trial = Trial { seed, streams: Vec::new() };
    let mut results = Vec::with_capacity(count);
    for _ in 0..count {
        results.push(bounded(model(&mut trial)?)?);
        trial.next();
    }
    results.sort_unstable_by(|a, b| a.partial_cmp(b).unwrap_or(Ordering::Equal));
    let has_moments = trial.streams.iter().all(|stream| {
        let degrees = stream.origin.shape.degrees_of_freedom();
        degrees.whole().is_none_or(|degrees| degrees > FEWEST_WITHOUT_MOMENTS)
    });
    Ok(Simulation { results, has_moments })
}

/// What came out of a simulation.
#[derive(Clone, Debug, PartialEq)]
pub struct Simulation<Q> {
    /// In ascending order, a thousand or more.
    results: Vec<Q>,
    has_moments: bool,
}

impl<Q: AdditiveKind> Simulation<Q> {
    /// The middle of the results.
    #[must_use]
    pub fn median(&self) -> Q {
        let count = self.results.len();
        let (low, high) = (self.nth((count - 1) / 2), self.nth(count / 2));
        low + (high - low) * 0.5
    }

    /// The mean of the results.
    ///
    /// `None` where an input was drawn from two repeats or three: mean and standard deviation of so wide a distribution do not settle
    /// with any number of trials. [`median`](Self::median) and [`interval`](Self::interval) do.
    ///
    /// # Source
    ///
    /// JCGM 101:2008, 7.6 and 6.4.9.4.
    #[must_use]
    pub fn mean(&self) -> Option<Q> {
        let median = self.median();
        let sum = self.results.iter().fold(Q::default(), |sum, result| sum + (*result - median));
        self.has_moments.then(|| median + sum * self.count().recip())
    }

    /// The standard deviation of the results; `None` as for [`mean`](Self::mean).
    ///
    /// # Source
    ///
    /// JCGM 101:2008, 7.6.
    #[must_use]
    pub fn standard_uncertainty(&self) -> Option<Q> {
        let mean = self.mean()?;
        let spread = root_of_squares(self.results.iter().map(|result| *result - mean));
        Some(spread * libm::sqrt(self.count() - 1.0).recip())
    }

    /// The interval that holds a share of `coverage` of the results, with as many below it as above.
    ///
    /// # Errors
    ///
    /// At `coverage`: [`OutOfRange`](ErrorCode::OutOfRange) unless it is above 0 % and at most 99.9999 %, or where it leaves no result outside.
    ///
    /// # Source
    ///
    /// JCGM 101:2008, 7.7.2.
    pub fn interval(&self, coverage: Ratio) -> Result<Interval<Q>, Error> {
        let share = coverage_within(coverage)?;
        let count = self.results.len();
        let within = steps_down(Ratio::one() * (share * self.count() + 0.5));
        let within = within.and_then(|within| usize::try_from(within).ok()).unwrap_or(count);
        let outside = count.saturating_sub(within);
        if outside == 0 {
            let error = Error::new(ErrorCode::OutOfRange).at("coverage").given(coverage);
            return Err(error.allowed(text::word("less for so few trials")));
        }
        let low = outside.div_ceil(2) - 1;
        Ok(Interval { low: self.nth(low), high: self.nth(low + within), coverage })
    }

    #[allow(clippy::cast_precision_loss)] // at most ten million
    fn count(&self) -> f64 {
        self.results.len() as f64
    }

    /// The result at a place, from 0. Every place that is asked for is within a thousand or more.
    fn nth(&self, place: usize) -> Q {
        self.results.get(place).copied().unwrap_or_default()
    }
}
