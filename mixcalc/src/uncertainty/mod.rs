//! Values that are not known exactly, and how sure the results are that are made from them.
//!
//! An [`Uncertain`] value remembers each independent input that it depends on by name, and how much a standard uncertainty of that input moves
//! it. Sums, products and quotients combine these contributions, so that an input that is used twice, such as one stopwatch for two
//! times, is counted once with its whole effect. Where first order does not do, [`simulate`] draws the inputs. Formulas and sources are in
//! `docs/numbers.md`, section 11.

mod degrees;
pub(crate) mod dynamic;
mod function;
pub(crate) mod line;
mod probability;
mod simulation;
pub(crate) mod student;

use alloc::collections::BTreeMap;
use alloc::sync::Arc;
use alloc::vec::Vec;
use core::cmp::Ordering;
use core::ops::{Div, Mul};

use crate::error::{Error, ErrorCode};
use crate::quantity::close::{is_close, is_over};
use crate::quantity::{AdditiveKind, Quantity, Ratio, bounded, not_negative, ordered_sum, positive};
use crate::text::{self, legible_name};

pub use degrees::DegreesOfFreedom;
pub use dynamic::{SimulatedQuantity, UncertainQuantity, simulate_quantity};
pub use probability::Side;
pub use simulation::{Simulation, Trial, simulate};

/// Half the width of a rectangular distribution, in standard deviations: the square root of three.
const RECTANGULAR_HALF_WIDTH: f64 = 1.732_050_807_568_877_2;

/// How an input is distributed about its value.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Shape {
    /// As Student's t; as the normal distribution where the degrees of freedom are infinite.
    Bell(DegreesOfFreedom),
    /// Anywhere within a half-width with one probability.
    Rectangular,
}

impl Shape {
    const fn degrees_of_freedom(self) -> DegreesOfFreedom {
        match self {
            Self::Bell(degrees) => degrees,
            Self::Rectangular => DegreesOfFreedom::INFINITE,
        }
    }
}

/// An independent input. Its name is its identity.
#[derive(Debug, PartialEq)]
struct Origin {
    name: Arc<str>,
    standard_uncertainty: Quantity,
    shape: Shape,
    /// The name of the spread that the standard uncertainty was found from, where several inputs were found from one: they err
    /// independently, and are known equally well or badly together.
    spread: Option<Arc<str>>,
}

impl Origin {
    /// Refuses a name that stands for two different inputs.
    fn same_as(&self, other: &Self) -> Result<(), Error> {
        if self == other {
            return Ok(());
        }
        Err(Error::new(ErrorCode::DuplicateName).at("name").given(text::quoted(&self.name)))
    }
}

/// How much one standard uncertainty of an input moves a value: sensitivity times standard uncertainty, with its sign.
#[derive(Clone, Debug, PartialEq)]
struct Term<Q> {
    origin: Arc<Origin>,
    amount: Q,
}

pub(crate) fn magnitude<Q: AdditiveKind>(amount: Q) -> Q {
    if amount < Q::default() { amount * -1.0 } else { amount }
}

/// The square root of the sum of squares, reckoned in parts of the largest, so that no square leaves the range of doubles and a change of
/// unit changes nothing but the last digits.
pub(crate) fn root_of_squares<Q: AdditiveKind>(amounts: impl Iterator<Item = Q> + Clone) -> Q {
    let none = Q::default();
    let largest = amounts.clone().map(magnitude).fold(none, |a, b| if b > a { b } else { a });
    if largest == none {
        return none;
    }
    let squares = amounts.map(|amount| {
        let part = amount / largest;
        part * part
    });
    largest * libm::sqrt(ordered_sum(squares).number())
}

/// The standard uncertainty of what may be off by anything up to a half-width, one deviation as likely as another.
pub(crate) fn of_rectangular<Q: AdditiveKind>(half_width: Q) -> Q {
    half_width * RECTANGULAR_HALF_WIDTH.recip()
}

/// The most that an interval is asked to cover: nearer to certainty, the last digits of a double do not tell where the tail ends.
const MOST_COVERAGE_PERCENT: f64 = 99.9999;

/// Coverage of intervals where none is asked for.
const CUSTOMARY_COVERAGE_PERCENT: f64 = 95.0;

/// The coverage of intervals where none is asked for: 95 %.
///
/// # Source
///
/// JCGM 100:2008, 6.3.3 and G.1.3: about 95 %, by custom.
#[must_use]
pub fn customary_coverage() -> Ratio {
    Ratio::of_percent(CUSTOMARY_COVERAGE_PERCENT)
}

/// A probability that is neither none nor next to certainty.
fn coverage_within(coverage: Ratio) -> Result<f64, Error> {
    if coverage > Ratio::ZERO && !is_over(coverage, Ratio::of_percent(MOST_COVERAGE_PERCENT)) {
        return Ok(coverage.number());
    }
    let error = Error::new(ErrorCode::OutOfRange).at("coverage").given(coverage);
    Err(error.allowed(format_args!("{} {MOST_COVERAGE_PERCENT} %", text::word("above 0 % and at most"))))
}

/// A value with its standard uncertainty, and the independent inputs that it depends on.
///
/// Each input has a name, which is its identity: two values that name the same input err together, and two that name different ones err
/// independently. One name cannot stand for two inputs of different uncertainty
/// ([`DuplicateName`](ErrorCode::DuplicateName)).
///
/// # Accuracy
///
/// First order: contributions are linear in the inputs. Where a result bends noticeably within the uncertainty of an input,
/// or is the lesser or greater of two, [`simulate`] it.
///
/// # Example
///
/// A boom passes 20 m in 12 s and a catch takes 30 s, both timed with one stopwatch that may be off by 1 %. The volume rate divides one
/// time by the other, so that the stopwatch falls out of their ratio.
///
/// ```
/// use mixcalc::{DegreesOfFreedom, Ratio, Time, Uncertain};
///
/// let one = Ratio::from_number(1.0)?;
/// let stopwatch = Uncertain::from_tolerance("stopwatch", one, Ratio::from_percent(1.0)?)?;
/// let pass = Uncertain::exact(Time::from_seconds(12.0)?)?.times(&stopwatch)?;
/// let catch = Uncertain::exact(Time::from_seconds(30.0)?)?.times(&stopwatch)?;
///
/// // 12 s x 1 % / sqrt(3)
/// assert!((pass.standard_uncertainty().seconds() - 0.0693).abs() < 1e-4);
/// let ratio = catch.over(&pass)?;
/// assert_eq!(ratio.value().number(), 2.5);
/// assert!(ratio.standard_uncertainty().number() < 1e-15);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement (GUM), 5.1.2, 5.2.2 and F.1.2.3.
#[derive(Clone, Debug, PartialEq)]
pub struct Uncertain<Q> {
    value: Q,
    /// In the order of their names, each name once, none without an effect.
    terms: Vec<Term<Q>>,
}

impl<Q: AdditiveKind> Uncertain<Q> {
    /// A value that is taken as it stands: a count, a constant of a definition.
    ///
    /// # Errors
    ///
    /// [`NotFinite`](ErrorCode::NotFinite) and [`OutOfRange`](ErrorCode::OutOfRange) for what cannot be measured: over 1e30 in SI units.
    pub fn exact(value: Q) -> Result<Self, Error> {
        Self::combined(value, Vec::new()).map_err(|error| error.at("value"))
    }

    /// A value whose standard uncertainty is known from elsewhere, such as an experience or a pooled spread.
    ///
    /// # Errors
    ///
    /// At `name`: [`MissingInput`](ErrorCode::MissingInput) for a blank one, [`OutOfRange`](ErrorCode::OutOfRange) for one of over 1000
    /// characters. At `value`: as [`exact`](Self::exact). At `standard_uncertainty`: [`OutOfRange`](ErrorCode::OutOfRange) below
    /// zero or of a size that nobody measures. Zero is allowed: the input then has no effect.
    pub fn from_standard_uncertainty(
        name: &str,
        value: Q,
        standard_uncertainty: Q,
        degrees_of_freedom: DegreesOfFreedom,
    ) -> Result<Self, Error> {
        not_negative(standard_uncertainty).map_err(|error| error.at("standard_uncertainty"))?;
        Self::of_input(name, value, standard_uncertainty, Shape::Bell(degrees_of_freedom))
    }

    /// The mean of repeats, with the experimental standard deviation of the mean.
    ///
    /// `u = s / sqrt(n)` with `s^2 = sum((x - mean)^2) / (n - 1)`, and `n - 1` degrees of freedom. What is the same in all repeats, such as a
    /// jug that reads high, does not show in their spread: it is an input of its own.
    ///
    /// # Errors
    ///
    /// At `repeats`: [`OutOfRange`](ErrorCode::OutOfRange) for fewer than two, and, with [`NotFinite`](ErrorCode::NotFinite), at
    /// `repeats[i]` for what cannot be measured. At `name`: as [`from_standard_uncertainty`](Self::from_standard_uncertainty).
    ///
    /// # Example
    ///
    /// Catches of 1.1, 1.2 and 1.3 L: the mean is 1.2 L, `s` is 0.1 L, and `u` is 0.1 L / sqrt(3).
    ///
    /// ```
    /// use mixcalc::{Uncertain, Volume};
    ///
    /// let catches = [1.1, 1.2, 1.3].map(Volume::from_liters);
    /// let [a, b, c] = catches;
    /// let catch = Uncertain::from_repeats("catch", &[a?, b?, c?])?;
    /// assert!((catch.value().liters() - 1.2).abs() < 1e-12);
    /// assert!((catch.standard_uncertainty().liters() - 0.057735).abs() < 1e-6);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// JCGM 100:2008, 4.2.1 to 4.2.3 and 4.2.6.
    pub fn from_repeats(name: &str, repeats: &[Q]) -> Result<Self, Error> {
        if repeats.len() < 2 {
            let error = Error::new(ErrorCode::OutOfRange).at("repeats").given(repeats.len());
            return Err(error.allowed(text::word("two or more repeats, or one value stated with its tolerance")));
        }
        for (i, repeat) in repeats.iter().enumerate() {
            bounded(*repeat).map_err(|error| error.at(format_args!("repeats[{i}]")))?;
        }
        let count = Ratio::of_steps(repeats.len() as u64).number();
        let mean = ordered_sum(repeats.iter().copied()) * count.recip();
        let spread = root_of_squares(repeats.iter().map(|repeat| *repeat - mean));
        let degrees = DegreesOfFreedom::new(Ratio::of_steps(repeats.len() as u64 - 1))?;
        Self::of_input(name, mean, spread * libm::sqrt(count * (count - 1.0)).recip(), Shape::Bell(degrees))
    }

    /// A value that may be off by anything up to a tolerance, one deviation as likely as another: `u = half_width / sqrt(3)`.
    ///
    /// # Errors
    ///
    /// As [`from_standard_uncertainty`](Self::from_standard_uncertainty), with `half_width` for its place.
    ///
    /// # Source
    ///
    /// JCGM 100:2008, 4.3.7.
    pub fn from_tolerance(name: &str, value: Q, half_width: Q) -> Result<Self, Error> {
        not_negative(half_width).map_err(|error| error.at("half_width"))?;
        Self::of_input(name, value, of_rectangular(half_width), Shape::Rectangular)
    }

    /// A value as read from a display or a scale of a given resolution, its smallest step: `u = resolution / 2 / sqrt(3)`.
    ///
    /// # Errors
    ///
    /// As [`from_standard_uncertainty`](Self::from_standard_uncertainty), with `resolution` for its place.
    ///
    /// # Source
    ///
    /// JCGM 100:2008, F.2.2.1.
    pub fn from_resolution(name: &str, value: Q, resolution: Q) -> Result<Self, Error> {
        not_negative(resolution).map_err(|error| error.at("resolution"))?;
        Self::of_input(name, value, of_rectangular(resolution * 0.5), Shape::Rectangular)
    }

    /// A value with an expanded uncertainty and its coverage factor, as a certificate states them: `u = expanded / factor`.
    ///
    /// # Errors
    ///
    /// As [`from_standard_uncertainty`](Self::from_standard_uncertainty), with `expanded_uncertainty` for its place; at
    /// `coverage_factor`: [`NotPositive`](ErrorCode::NotPositive) for zero or less.
    ///
    /// # Source
    ///
    /// JCGM 100:2008, 4.3.3.
    pub fn from_expanded_uncertainty(
        name: &str,
        value: Q,
        expanded_uncertainty: Q,
        coverage_factor: Ratio,
        degrees_of_freedom: DegreesOfFreedom,
    ) -> Result<Self, Error> {
        not_negative(expanded_uncertainty).map_err(|error| error.at("expanded_uncertainty"))?;
        let factor = positive(coverage_factor).map_err(|error| error.at("coverage_factor"))?;
        let standard_uncertainty = expanded_uncertainty * (Ratio::one() / factor);
        bounded(standard_uncertainty).map_err(|error| error.at("expanded_uncertainty"))?;
        Self::of_input(name, value, standard_uncertainty, Shape::Bell(degrees_of_freedom))
    }

    fn of_input(name: &str, value: Q, standard_uncertainty: Q, shape: Shape) -> Result<Self, Error> {
        let name = legible_name(name)?;
        Self::of_origin(name, value, standard_uncertainty, shape, None)
    }

    fn of_origin(name: Arc<str>, value: Q, amount: Q, shape: Shape, spread: Option<Arc<str>>) -> Result<Self, Error> {
        let origin = Arc::new(Origin { name, standard_uncertainty: Quantity::of(amount), shape, spread });
        Self::combined(value, Vec::from([Term { origin, amount }])).map_err(|error| error.at("value"))
    }

    /// A value whose standard uncertainty was found from a spread that gave those of other values too.
    pub(crate) fn from_spread(
        name: &str,
        value: Q,
        standard_uncertainty: Q,
        spread: &str,
        degrees_of_freedom: DegreesOfFreedom,
    ) -> Result<Self, Error> {
        let (name, shape) = (legible_name(name)?, Shape::Bell(degrees_of_freedom));
        Self::of_origin(name, value, bounded(standard_uncertainty)?, shape, Some(spread.into()))
    }

    /// Adds up what the same input contributes: the only way to a value.
    fn combined(value: Q, mut terms: Vec<Term<Q>>) -> Result<Self, Error> {
        // Keeps the order of equals, whose sum does not depend on it.
        terms.sort_by(|a, b| a.origin.name.cmp(&b.origin.name));
        let mut gathered = Vec::with_capacity(terms.len());
        for same in terms.chunk_by(|a, b| a.origin.name == b.origin.name) {
            let [first, others @ ..] = same else { continue };
            others.iter().try_for_each(|other| first.origin.same_as(&other.origin))?;
            let none = Q::default();
            let up = ordered_sum(same.iter().map(|term| term.amount).filter(|amount| *amount > none));
            let down = ordered_sum(same.iter().map(|term| term.amount * -1.0).filter(|amount| *amount > none));
            // What falls out but for the last digits has fallen out.
            if !is_close(up, down) {
                let amount = bounded(up - down)?;
                gathered.push(Term { origin: Arc::clone(&first.origin), amount });
            }
        }
        Ok(Self { value: bounded(value)?, terms: gathered })
    }

    /// The terms, each turned into one of another value.
    fn carried<R>(&self, by: impl Fn(Q) -> R) -> impl Iterator<Item = Term<R>> {
        self.terms.iter().map(move |term| Term { origin: Arc::clone(&term.origin), amount: by(term.amount) })
    }

    /// The value: the best estimate.
    #[must_use]
    pub const fn value(&self) -> Q {
        self.value
    }

    /// Its standard uncertainty: the square root of the sum over the inputs of their squared contributions.
    ///
    /// # Source
    ///
    /// JCGM 100:2008, equations 10 and 11.
    #[must_use]
    pub fn standard_uncertainty(&self) -> Q {
        root_of_squares(self.terms.iter().map(|term| term.amount))
    }

    /// How well the standard uncertainty is known: `u^4 / sum(c^4 / v)` over the contributions `c` of inputs with `v` degrees of freedom
    /// (Welch and Satterthwaite). An input that is used twice is one contribution, and so are inputs whose uncertainties were found from
    /// one spread, such as the two parameters of a fitted line, with the root of their squares.
    ///
    /// # Source
    ///
    /// JCGM 100:2008, equation G.2b.
    #[must_use]
    pub fn degrees_of_freedom(&self) -> DegreesOfFreedom {
        let whole = self.standard_uncertainty();
        let mut estimates: BTreeMap<(bool, &str), (Ratio, Ratio)> = BTreeMap::new();
        for Term { origin, amount } in &self.terms {
            let part = *amount / whole;
            let name = origin.spread.as_ref().unwrap_or(&origin.name);
            let estimate = estimates.entry((origin.spread.is_some(), name)).or_default();
            *estimate = (estimate.0 + part * part, origin.shape.degrees_of_freedom().reciprocal());
        }
        DegreesOfFreedom::from_reciprocal(ordered_sum(estimates.into_values().map(|(part, of)| part * part * of)))
    }

    /// What each input contributes, the largest first: what to measure better.
    #[must_use]
    pub fn contributions(&self) -> Vec<Contribution<Q>> {
        let whole = self.standard_uncertainty();
        let mut contributions: Vec<_> = self
            .terms
            .iter()
            .map(|term| {
                let part = term.amount / whole;
                let name = Arc::clone(&term.origin.name);
                Contribution { name, standard_uncertainty: magnitude(term.amount), share_of_variance: part * part }
            })
            .collect();
        // Equals stay in the order of their names.
        contributions
            .sort_by(|a, b| b.standard_uncertainty.partial_cmp(&a.standard_uncertainty).unwrap_or(Ordering::Equal));
        contributions
    }

    /// How many standard uncertainties to each side hold the true value with a probability of `coverage`: the two-sided quantile of Student's
    /// t at the degrees of freedom, down to a whole number of them; of the normal distribution where they are infinite.
    ///
    /// # Errors
    ///
    /// At `coverage`: [`OutOfRange`](ErrorCode::OutOfRange) unless it is above 0 % and at most 99.9999 %.
    ///
    /// # Example
    ///
    /// Three repeats have two degrees of freedom: 4.30 for 95 %.
    ///
    /// ```
    /// use mixcalc::{Ratio, Uncertain, Volume};
    ///
    /// let [a, b, c] = [1.1, 1.2, 1.3].map(Volume::from_liters);
    /// let catch = Uncertain::from_repeats("catch", &[a?, b?, c?])?;
    /// let factor = catch.coverage_factor(Ratio::from_percent(95.0)?)?;
    /// assert!((factor.number() - 4.303).abs() < 5e-4);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// JCGM 100:2008, G.3.2, G.4.1 and table G.2.
    pub fn coverage_factor(&self, coverage: Ratio) -> Result<Ratio, Error> {
        let quantile = student::two_sided(coverage_within(coverage)?, self.degrees_of_freedom().whole());
        bounded(Ratio::one() * quantile)
    }

    /// The half-width of the [`interval`](Self::interval): coverage factor times standard uncertainty.
    ///
    /// # Errors
    ///
    /// As [`coverage_factor`](Self::coverage_factor).
    pub fn expanded_uncertainty(&self, coverage: Ratio) -> Result<Q, Error> {
        bounded(self.standard_uncertainty() * self.coverage_factor(coverage)?)
    }

    /// The interval about the value that holds the true one with a probability of `coverage`.
    ///
    /// # Errors
    ///
    /// As [`coverage_factor`](Self::coverage_factor).
    pub fn interval(&self, coverage: Ratio) -> Result<Interval<Q>, Error> {
        let half_width = self.expanded_uncertainty(coverage)?;
        Ok(Interval { low: self.value - half_width, high: self.value + half_width, coverage })
    }

    /// The sum of any number of values; their order changes no digit.
    ///
    /// # Errors
    ///
    /// [`DuplicateName`](ErrorCode::DuplicateName) where one name stands for inputs of different uncertainty or distribution;
    /// [`OutOfRange`](ErrorCode::OutOfRange) and [`NotFinite`](ErrorCode::NotFinite) for a result beyond what is measured.
    pub fn sum(values: &[Self]) -> Result<Self, Error> {
        let terms = values.iter().flat_map(|value| value.terms.iter().cloned()).collect();
        Self::combined(ordered_sum(values.iter().map(|value| value.value)), terms)
    }

    /// The sum of two values.
    ///
    /// # Errors
    ///
    /// As [`sum`](Self::sum).
    pub fn plus(&self, other: &Self) -> Result<Self, Error> {
        let terms = self.carried(|amount| amount).chain(other.carried(|amount| amount));
        Self::combined(self.value + other.value, terms.collect())
    }

    /// The difference of two values: of a value and itself, exactly nothing.
    ///
    /// # Errors
    ///
    /// As [`sum`](Self::sum).
    pub fn minus(&self, other: &Self) -> Result<Self, Error> {
        let terms = self.carried(|amount| amount).chain(other.carried(|amount| amount * -1.0));
        Self::combined(self.value - other.value, terms.collect())
    }

    /// The product of two values, of the kind that the identities of quantities give it: `d(x y) = y dx + x dy`.
    ///
    /// # Errors
    ///
    /// As [`sum`](Self::sum).
    pub fn times<R, P>(&self, other: &Uncertain<R>) -> Result<Uncertain<P>, Error>
    where
        Q: Mul<R, Output = P>,
        R: AdditiveKind,
        P: AdditiveKind,
    {
        let (x, y) = (self.value, other.value);
        let terms = self.carried(|dx| -> P { dx * y }).chain(other.carried(|dy| -> P { x * dy }));
        Uncertain::combined(x * y, terms.collect())
    }

    /// The quotient of two values, of the kind that the identities of quantities give it: `d(x / y) = dx / y - (x / y) (dy / y)`.
    ///
    /// # Errors
    ///
    /// As [`sum`](Self::sum), and [`NotFinite`](ErrorCode::NotFinite) where the other value is zero.
    pub fn over<R, P>(&self, other: &Uncertain<R>) -> Result<Uncertain<P>, Error>
    where
        Q: Div<R, Output = P>,
        R: AdditiveKind,
        P: AdditiveKind,
    {
        let (x, y) = (self.value, other.value);
        if y == R::default() {
            return Err(Error::new(ErrorCode::NotFinite).given(text::word("a division by zero")));
        }
        let quotient: P = x / y;
        let terms = self.carried(|dx| -> P { dx / y }).chain(other.carried(|dy| {
            let relative: Ratio = dy / y;
            quotient * relative * -1.0
        }));
        Uncertain::combined(quotient, terms.collect())
    }

    /// Claims the value as of another kind: a volume per area as a volume rate, say.
    ///
    /// # Errors
    ///
    /// As [`Quantity::claim`].
    pub fn claim<R: AdditiveKind>(&self) -> Result<Uncertain<R>, Error> {
        let claimed = |part: Q| Quantity::of(part).claim::<R>();
        let terms: Result<_, Error> = self
            .terms
            .iter()
            .map(|term| Ok(Term { origin: Arc::clone(&term.origin), amount: claimed(term.amount)? }))
            .collect();
        Uncertain::combined(claimed(self.value)?, terms?)
    }
}

/// What one input contributes to the standard uncertainty of a value.
#[derive(Clone, Debug, PartialEq)]
pub struct Contribution<Q> {
    name: Arc<str>,
    standard_uncertainty: Q,
    share_of_variance: Ratio,
}

impl<Q: Copy> Contribution<Q> {
    /// Name of the input.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The standard uncertainty that the value would have from this input alone.
    #[must_use]
    pub const fn standard_uncertainty(&self) -> Q {
        self.standard_uncertainty
    }

    /// Its part of the squared standard uncertainty; these add up to one.
    #[must_use]
    pub const fn share_of_variance(&self) -> Ratio {
        self.share_of_variance
    }
}

/// From where to where a value lies, with which probability.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval<Q> {
    low: Q,
    high: Q,
    coverage: Ratio,
}

impl<Q: Copy> Interval<Q> {
    /// The lower end.
    #[must_use]
    pub const fn low(self) -> Q {
        self.low
    }

    /// The upper end.
    #[must_use]
    pub const fn high(self) -> Q {
        self.high
    }

    /// The probability.
    #[must_use]
    pub const fn coverage(self) -> Ratio {
        self.coverage
    }
}
