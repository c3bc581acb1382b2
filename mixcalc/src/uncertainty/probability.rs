//! On which side of a limit the true value is, and how far from a limit to aim.

use super::{Uncertain, coverage_within, student};
use crate::error::{Error, ErrorCode};
use crate::quantity::close::is_over;
use crate::quantity::{AdditiveKind, Ratio, positive};
use crate::text;

/// Where the true value is, as far as its interval tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// The interval is under the limit.
    Under,
    /// The interval is over the limit.
    Over,
    /// The interval holds the limit: nothing can be said.
    CannotTell,
}

impl Side {
    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Under => "under",
            Self::Over => "over",
            Self::CannotTell => "cannot-tell",
        }
    }
}

impl<Q: AdditiveKind> Uncertain<Q> {
    /// The probability that the true value is over a limit.
    ///
    /// `P = (1 + W) / 2` for a value over the limit, `(1 - W) / 2` for one under it, where `W` is the share of Student's t, at the degrees of freedom,
    /// within the distance from the limit in standard uncertainties.
    ///
    /// # Example
    ///
    /// A dose of 2 L/ha known to 5 %, with a limit of one standard uncertainty more: 16 % of the normal distribution are over it.
    ///
    /// ```
    /// use mixcalc::{DegreesOfFreedom, LiquidDose, Uncertain};
    ///
    /// let l_per_ha = LiquidDose::from_liters_per_hectare;
    /// let dose = Uncertain::from_standard_uncertainty("dose", l_per_ha(2.0)?, l_per_ha(0.1)?, DegreesOfFreedom::INFINITE)?;
    /// assert!((dose.probability_over(l_per_ha(2.1)?).number() - 0.1587).abs() < 5e-5);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// JCGM 106:2012, Evaluation of measurement data: The role of measurement uncertainty in conformity assessment, 7.2.
    #[must_use]
    pub fn probability_over(&self, limit: Q) -> Ratio {
        let (u, none) = (self.standard_uncertainty(), Q::default());
        let distance = self.value - limit;
        if u == none {
            return if is_over(self.value, limit) { Ratio::one() } else { Ratio::ZERO };
        }
        let within = student::within((distance / u).number(), self.degrees_of_freedom().whole());
        Ratio::one() * (0.5 + 0.5 * if distance < none { -within } else { within })
    }

    /// On which side of a limit the interval of a coverage is.
    ///
    /// # Errors
    ///
    /// As [`coverage_factor`](Self::coverage_factor).
    ///
    /// # Source
    ///
    /// JCGM 106:2012, 8.3: guarded acceptance and guarded rejection, and what lies between.
    pub fn side_of(&self, limit: Q, coverage: Ratio) -> Result<Side, Error> {
        let interval = self.interval(coverage)?;
        Ok(if is_over(interval.low, limit) {
            Side::Over
        } else if is_over(interval.high, limit) {
            Side::CannotTell
        } else {
            Side::Under
        })
    }

    /// What to aim at, so that the true value is over a limit with no more than a chosen probability: `limit / (1 + t u / x)`, where `t` is
    /// the one-sided quantile of Student's t. The relative uncertainty is taken to stay what it is here.
    ///
    /// * `limit`: the most that is allowed; the aim is never over it.
    /// * `risk`: the probability of being over the limit that is accepted; under one half.
    ///
    /// # Errors
    ///
    /// At `risk`: [`OutOfRange`](ErrorCode::OutOfRange) unless it is at least 0.00005 % and under 50 %. At `limit`, and for a value that is not above
    /// zero: [`NotPositive`](ErrorCode::NotPositive).
    ///
    /// # Example
    ///
    /// A relative standard uncertainty of 5 % and a risk of 5 %: 1 / (1 + 1.645 x 0.05) = 92.4 % of the limit.
    ///
    /// ```
    /// use mixcalc::{DegreesOfFreedom, LiquidDose, Ratio, Uncertain};
    ///
    /// let l_per_ha = LiquidDose::from_liters_per_hectare;
    /// let dose = Uncertain::from_standard_uncertainty("dose", l_per_ha(2.0)?, l_per_ha(0.1)?, DegreesOfFreedom::INFINITE)?;
    /// let aim = dose.aim_under(l_per_ha(2.0)?, Ratio::from_percent(5.0)?)?;
    /// assert!((aim.liters_per_hectare() - 1.848).abs() < 5e-4);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// JCGM 106:2012, 8.3.2: a guard band under an upper tolerance limit.
    pub fn aim_under(&self, limit: Q, risk: Ratio) -> Result<Q, Error> {
        let limit = positive(limit).map_err(|error| error.at("limit"))?;
        let allowed = || text::word("above 0 % and under 50 %");
        let refused = |_| Error::new(ErrorCode::OutOfRange).at("risk").given(risk).allowed(allowed());
        let coverage = coverage_within(Ratio::one() - risk * 2.0).map_err(refused)?;
        let quantile = student::two_sided(coverage, self.degrees_of_freedom().whole());
        let relative = self.standard_uncertainty() / positive(self.value)?;
        Ok(limit * (Ratio::one() / (Ratio::one() + relative * quantile)))
    }
}
