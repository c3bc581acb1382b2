//! The uncertain quantity whose kind is known only when the program runs: for documents and for bindings.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::{Contribution, DegreesOfFreedom, Interval, Origin, Side, Simulation, Term, Trial, Uncertain, simulate};
use crate::error::{Error, ErrorCode};
use crate::quantity::{AdditiveKind, Kind, Quantity, Ratio};
use crate::text;

/// An [`Uncertain`] value whose kind is known only when the program runs, as [`Quantity`] is to the typed quantities.
///
/// Sums, products and quotients follow the identities of the kinds as those of [`Quantity`] do, and give the digits that the typed ones give.
///
/// # Example
///
/// 6 L to 1 % on 0.02 ha are 300 L/ha to 1 %, once they are claimed as a volume rate.
///
/// ```
/// use mixcalc::{Quantity, Uncertain, UncertainQuantity, VolumeRate};
///
/// let refill = UncertainQuantity::from_tolerance("refill", Quantity::read("6 L")?, Quantity::read("60 mL")?)?;
/// let ground = UncertainQuantity::exact(Quantity::read("0.02 ha")?)?;
/// let rate: Uncertain<VolumeRate> = refill.over(&ground)?.claim()?;
/// assert!((rate.value().liters_per_hectare() - 300.0).abs() < 1e-9);
/// assert!((rate.standard_uncertainty().liters_per_hectare() - 3.0 / 3_f64.sqrt()).abs() < 1e-9);
/// assert!(refill.plus(&ground).is_err());
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// As [`Uncertain`].
#[derive(Clone, Debug, PartialEq)]
pub struct UncertainQuantity {
    /// One of the coherent unit of its kind: the kind, and what the numbers are numbers of.
    one: Quantity,
    number: Uncertain<Ratio>,
}

impl UncertainQuantity {
    /// As [`Uncertain::exact`].
    ///
    /// # Errors
    ///
    /// As there, and [`WrongQuantity`](ErrorCode::WrongQuantity) for a temperature, which has no sum.
    pub fn exact(value: Quantity) -> Result<Self, Error> {
        let one = one_of(value)?;
        Ok(Self { one, number: Uncertain::exact(parts(value, one)?)? })
    }

    /// As [`Uncertain::from_standard_uncertainty`].
    ///
    /// # Errors
    ///
    /// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) where the standard uncertainty is of another kind than the value.
    pub fn from_standard_uncertainty(
        name: &str,
        value: Quantity,
        standard_uncertainty: Quantity,
        degrees_of_freedom: DegreesOfFreedom,
    ) -> Result<Self, Error> {
        let one = one_of(value)?;
        let uncertainty = like(standard_uncertainty, one, "standard_uncertainty")?;
        Self::of_input(
            one,
            Uncertain::from_standard_uncertainty(name, parts(value, one)?, uncertainty, degrees_of_freedom)?,
        )
    }

    /// As [`Uncertain::from_repeats`].
    ///
    /// # Errors
    ///
    /// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) at `repeats[i]` for one of another kind than the first.
    pub fn from_repeats(name: &str, repeats: &[Quantity]) -> Result<Self, Error> {
        let (one, numbers) = numbers(repeats, "repeats")?;
        Self::of_input(one, Uncertain::from_repeats(name, &numbers)?)
    }

    /// As [`Uncertain::from_tolerance`].
    ///
    /// # Errors
    ///
    /// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) where the half-width is of another kind than the value.
    pub fn from_tolerance(name: &str, value: Quantity, half_width: Quantity) -> Result<Self, Error> {
        let one = one_of(value)?;
        let half_width = like(half_width, one, "half_width")?;
        Self::of_input(one, Uncertain::from_tolerance(name, parts(value, one)?, half_width)?)
    }

    /// As [`Uncertain::from_resolution`].
    ///
    /// # Errors
    ///
    /// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) where the resolution is of another kind than the value.
    pub fn from_resolution(name: &str, value: Quantity, resolution: Quantity) -> Result<Self, Error> {
        let one = one_of(value)?;
        let resolution = like(resolution, one, "resolution")?;
        Self::of_input(one, Uncertain::from_resolution(name, parts(value, one)?, resolution)?)
    }

    /// As [`Uncertain::from_expanded_uncertainty`].
    ///
    /// # Errors
    ///
    /// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) where the uncertainty is of another kind than the value.
    pub fn from_expanded_uncertainty(
        name: &str,
        value: Quantity,
        expanded_uncertainty: Quantity,
        coverage_factor: Ratio,
        degrees_of_freedom: DegreesOfFreedom,
    ) -> Result<Self, Error> {
        let one = one_of(value)?;
        let (value, expanded) = (parts(value, one)?, like(expanded_uncertainty, one, "expanded_uncertainty")?);
        let number = Uncertain::from_expanded_uncertainty(name, value, expanded, coverage_factor, degrees_of_freedom)?;
        Self::of_input(one, number)
    }

    /// A typed value.
    ///
    /// # Errors
    ///
    /// [`NotFinite`](ErrorCode::NotFinite) for a value of no size.
    pub fn of<Q: AdditiveKind>(value: &Uncertain<Q>) -> Result<Self, Error> {
        let one = one_of(Quantity::of(value.value))?;
        let terms: Result<_, Error> = value
            .terms
            .iter()
            .map(|term| Ok(Term { origin: Arc::clone(&term.origin), amount: parts(Quantity::of(term.amount), one)? }))
            .collect();
        Ok(Self { one, number: Uncertain::combined(parts(Quantity::of(value.value), one)?, terms?)? })
    }

    /// The value as of a kind, for what takes only that.
    ///
    /// # Errors
    ///
    /// As [`Quantity::claim`].
    pub fn claim<Q: AdditiveKind>(&self) -> Result<Uncertain<Q>, Error> {
        let one: Q = one_of(Quantity::of(self.value().claim::<Q>()?))?.claim()?;
        let terms = self.number.carried(|amount| one * amount).collect();
        Uncertain::combined(self.value().claim()?, terms)
    }

    /// The value as of a kind that is known only when the program runs.
    ///
    /// # Errors
    ///
    /// As [`Quantity::claim_kind`].
    pub fn claim_kind(&self, kind: Kind) -> Result<Self, Error> {
        let value = self.value().claim_kind(kind)?;
        let one = one_of(value)?;
        let terms = self.number.carried(|amount| amount).collect();
        Ok(Self { one, number: Uncertain::combined(parts(value, one)?, terms)? })
    }

    /// An input: its name, with the kind that its uncertainty is of, is its identity.
    fn of_input(one: Quantity, mut number: Uncertain<Ratio>) -> Result<Self, Error> {
        for term in &mut number.terms {
            let standard_uncertainty = one.times(Quantity::of(term.origin.standard_uncertainty.claim::<Ratio>()?))?;
            let (name, shape, spread) = (Arc::clone(&term.origin.name), term.origin.shape, term.origin.spread.clone());
            term.origin = Arc::new(Origin { name, standard_uncertainty, shape, spread });
        }
        Ok(Self { one, number })
    }

    /// The value as a number of the coherent unit of its kind: for what is the same in any unit.
    pub(crate) const fn number(&self) -> &Uncertain<Ratio> {
        &self.number
    }

    fn told(&self, number: Ratio) -> Quantity {
        // A double times one is itself, and of the kind of the one.
        self.one.times(Quantity::of(number)).unwrap_or(self.one)
    }

    fn told_interval(&self, interval: Interval<Ratio>) -> Interval<Quantity> {
        Interval { low: self.told(interval.low), high: self.told(interval.high), coverage: interval.coverage }
    }

    /// As [`Uncertain::value`].
    #[must_use]
    pub fn value(&self) -> Quantity {
        self.told(self.number.value)
    }

    /// As [`Uncertain::standard_uncertainty`].
    #[must_use]
    pub fn standard_uncertainty(&self) -> Quantity {
        self.told(self.number.standard_uncertainty())
    }

    /// As [`Uncertain::degrees_of_freedom`].
    #[must_use]
    pub fn degrees_of_freedom(&self) -> DegreesOfFreedom {
        self.number.degrees_of_freedom()
    }

    /// As [`Uncertain::contributions`].
    #[must_use]
    pub fn contributions(&self) -> Vec<Contribution<Quantity>> {
        let told = |contribution: Contribution<Ratio>| Contribution {
            standard_uncertainty: self.told(contribution.standard_uncertainty),
            name: contribution.name,
            share_of_variance: contribution.share_of_variance,
        };
        self.number.contributions().into_iter().map(told).collect()
    }

    /// As [`Uncertain::coverage_factor`].
    ///
    /// # Errors
    ///
    /// As there.
    pub fn coverage_factor(&self, coverage: Ratio) -> Result<Ratio, Error> {
        self.number.coverage_factor(coverage)
    }

    /// As [`Uncertain::expanded_uncertainty`].
    ///
    /// # Errors
    ///
    /// As there.
    pub fn expanded_uncertainty(&self, coverage: Ratio) -> Result<Quantity, Error> {
        Ok(self.told(self.number.expanded_uncertainty(coverage)?))
    }

    /// As [`Uncertain::interval`].
    ///
    /// # Errors
    ///
    /// As there.
    pub fn interval(&self, coverage: Ratio) -> Result<Interval<Quantity>, Error> {
        Ok(self.told_interval(self.number.interval(coverage)?))
    }

    /// As [`Uncertain::probability_over`].
    ///
    /// # Errors
    ///
    /// [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) at `limit` for one of another kind.
    pub fn probability_over(&self, limit: Quantity) -> Result<Ratio, Error> {
        Ok(self.number.probability_over(like(limit, self.one, "limit")?))
    }

    /// As [`Uncertain::side_of`].
    ///
    /// # Errors
    ///
    /// As there and as [`probability_over`](Self::probability_over).
    pub fn side_of(&self, limit: Quantity, coverage: Ratio) -> Result<Side, Error> {
        self.number.side_of(like(limit, self.one, "limit")?, coverage)
    }

    /// As [`Uncertain::aim_under`].
    ///
    /// # Errors
    ///
    /// As there and as [`probability_over`](Self::probability_over).
    pub fn aim_under(&self, limit: Quantity, risk: Ratio) -> Result<Quantity, Error> {
        Ok(self.told(self.number.aim_under(like(limit, self.one, "limit")?, risk)?))
    }

    /// As [`Uncertain::plus`].
    ///
    /// # Errors
    ///
    /// As there and as [`Quantity::plus`].
    pub fn plus(&self, other: &Self) -> Result<Self, Error> {
        self.value().plus(other.value())?;
        Ok(Self { one: self.one, number: self.number.plus(&other.number)? })
    }

    /// As [`Uncertain::minus`].
    ///
    /// # Errors
    ///
    /// As there and as [`Quantity::minus`].
    pub fn minus(&self, other: &Self) -> Result<Self, Error> {
        self.value().minus(other.value())?;
        Ok(Self { one: self.one, number: self.number.minus(&other.number)? })
    }

    /// As [`Uncertain::times`].
    ///
    /// # Errors
    ///
    /// As there and as [`Quantity::times`].
    pub fn times(&self, other: &Self) -> Result<Self, Error> {
        Ok(Self { one: self.one.times(other.one)?, number: self.number.times(&other.number)? })
    }

    /// As [`Uncertain::over`].
    ///
    /// # Errors
    ///
    /// As there and as [`Quantity::over`].
    pub fn over(&self, other: &Self) -> Result<Self, Error> {
        Ok(Self { one: self.one.over(other.one)?, number: self.number.over(&other.number)? })
    }

    /// As [`Uncertain::power`]: both are plain numbers.
    ///
    /// # Errors
    ///
    /// As there and as [`Quantity::claim`].
    pub fn power(&self, exponent: &Self) -> Result<Self, Error> {
        Self::of(&self.claim::<Ratio>()?.power(&exponent.claim()?)?)
    }

    /// As [`Uncertain::logarithm`]: it is a plain number.
    ///
    /// # Errors
    ///
    /// As there and as [`Quantity::claim`].
    pub fn logarithm(&self) -> Result<Self, Error> {
        Self::of(&self.claim::<Ratio>()?.logarithm()?)
    }

    /// As [`Uncertain::sum`].
    ///
    /// # Errors
    ///
    /// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) at `values[i]` for one of another kind than the first.
    pub fn sum(values: &[Self]) -> Result<Self, Error> {
        Self::of_all(values, Uncertain::sum)
    }

    /// As [`Uncertain::mean`].
    ///
    /// # Errors
    ///
    /// As [`sum`](Self::sum), and [`MissingInput`](ErrorCode::MissingInput) for none.
    pub fn mean(values: &[Self]) -> Result<Self, Error> {
        Self::of_all(values, Uncertain::mean)
    }

    /// As [`Uncertain::harmonic_mean`].
    ///
    /// # Errors
    ///
    /// As [`mean`](Self::mean), and [`NotPositive`](ErrorCode::NotPositive) at `values[i]` for one that is not above zero.
    pub fn harmonic_mean(values: &[Self]) -> Result<Self, Error> {
        Self::of_all(values, Uncertain::harmonic_mean)
    }

    fn of_all(
        values: &[Self],
        combine: impl Fn(&[Uncertain<Ratio>]) -> Result<Uncertain<Ratio>, Error>,
    ) -> Result<Self, Error> {
        let Some(first) = values.first() else {
            return Err(Error::new(ErrorCode::MissingInput).at("values").allowed(text::word("one or more")));
        };
        for (i, value) in values.iter().enumerate() {
            first.value().plus(value.value()).map_err(|error| error.at(format_args!("values[{i}]")))?;
        }
        let numbers: Vec<_> = values.iter().map(|value| value.number.clone()).collect();
        Ok(Self { one: first.one, number: combine(&numbers)? })
    }
}

/// One of the unit that the numbers of a quantity's kind are numbers of.
fn one_of(value: Quantity) -> Result<Quantity, Error> {
    value.unity().map_err(|error| error.at("value"))
}

fn parts(value: Quantity, one: Quantity) -> Result<Ratio, Error> {
    value.over(one)?.claim()
}

/// The number of a quantity that must be of the kind of another one.
fn like(value: Quantity, one: Quantity, place: impl core::fmt::Display) -> Result<Ratio, Error> {
    one.plus(value).and_then(|_| parts(value, one)).map_err(|error| error.at(place))
}

/// One of the coherent unit of the kind that values have in common, and their numbers.
pub(crate) fn numbers(values: &[Quantity], place: &str) -> Result<(Quantity, Vec<Ratio>), Error> {
    let one = values.first().map_or_else(|| Ok(Quantity::of(Ratio::one())), |first| one_of(*first))?;
    let numbers = values.iter().enumerate().map(|(i, value)| like(*value, one, format_args!("{place}[{i}]")));
    Ok((one, numbers.collect::<Result<_, _>>()?))
}

impl Trial {
    /// As [`of`](Self::of).
    ///
    /// # Errors
    ///
    /// As there.
    pub fn of_quantity(&mut self, value: &UncertainQuantity) -> Result<Quantity, Error> {
        Ok(value.told(self.of(&value.number)?))
    }
}

/// As [`simulate`], for a model whose kind is known only when the program runs.
///
/// # Errors
///
/// As there, and [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) where a trial gives another kind than the first.
///
/// # Example
///
/// ```
/// use mixcalc::{Quantity, UncertainQuantity, simulate_quantity};
///
/// let swath = UncertainQuantity::from_tolerance("swath", Quantity::read("2 m")?, Quantity::read("0.1 m")?)?;
/// let square = simulate_quantity(10_000, 1, |trial| trial.of_quantity(&swath)?.power(2, 1))?;
/// assert!((square.median().to("m2")? - 4.0).abs() < 0.01);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// As there.
pub fn simulate_quantity(
    trials: u32,
    seed: u64,
    mut model: impl FnMut(&mut Trial) -> Result<Quantity, Error>,
) -> Result<SimulatedQuantity, Error> {
    let mut one = None;
    let simulation = simulate(trials, seed, |trial| {
        let value = model(trial)?;
        let one = *match &mut one {
            Some(one) => one,
            none => none.insert(one_of(value)?),
        };
        like(value, one, "model")
    })?;
    let one = one.unwrap_or(Quantity::of(Ratio::one()));
    Ok(SimulatedQuantity { one: UncertainQuantity { one, number: Uncertain::exact(Ratio::one())? }, simulation })
}

/// What came out of a simulation whose kind is known only when the program runs.
#[derive(Clone, Debug, PartialEq)]
pub struct SimulatedQuantity {
    one: UncertainQuantity,
    simulation: Simulation<Ratio>,
}

impl SimulatedQuantity {
    /// As [`Simulation::median`].
    #[must_use]
    pub fn median(&self) -> Quantity {
        self.one.told(self.simulation.median())
    }

    /// As [`Simulation::mean`].
    #[must_use]
    pub fn mean(&self) -> Option<Quantity> {
        self.simulation.mean().map(|mean| self.one.told(mean))
    }

    /// As [`Simulation::standard_uncertainty`].
    #[must_use]
    pub fn standard_uncertainty(&self) -> Option<Quantity> {
        self.simulation.standard_uncertainty().map(|uncertainty| self.one.told(uncertainty))
    }

    /// As [`Simulation::interval`].
    ///
    /// # Errors
    ///
    /// As there.
    pub fn interval(&self, coverage: Ratio) -> Result<Interval<Quantity>, Error> {
        Ok(self.one.told_interval(self.simulation.interval(coverage)?))
    }
}
