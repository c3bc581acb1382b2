//! Bent functions of uncertain values, to first order: powers, logarithms, means.

use super::{Term, Uncertain};
use crate::error::{Error, ErrorCode};
use crate::quantity::{AdditiveKind, Ratio, ordered_sum, positive};
use crate::text;

impl Uncertain<Ratio> {
    /// This ratio to a power, which may be uncertain itself: `d(x^n) = n x^n (dx / x) + x^n ln(x) dn`.
    ///
    /// So a relative uncertainty is multiplied by the exponent: a pressure that is off by 10 % moves a flow that goes with its square root by
    /// 5 %.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a ratio that is not above zero; else as [`sum`](Self::sum).
    ///
    /// # Example
    ///
    /// Four times the pressure, known to 10 %, gives twice the flow, known to 5 %.
    ///
    /// ```
    /// use mixcalc::{DegreesOfFreedom, Ratio, Uncertain};
    ///
    /// let number = Ratio::from_number;
    /// let pressures =
    ///     Uncertain::from_standard_uncertainty("gauge", number(4.0)?, number(0.4)?, DegreesOfFreedom::INFINITE)?;
    /// let flows = pressures.power(&Uncertain::exact(number(0.5)?)?)?;
    /// assert!((flows.value().number() - 2.0).abs() < 1e-15);
    /// assert!((flows.standard_uncertainty().number() - 0.1).abs() < 1e-15);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// JCGM 100:2008, equations 10 and 12.
    pub fn power(&self, exponent: &Self) -> Result<Self, Error> {
        let (x, n) = (positive(self.value)?, exponent.value);
        let power = Ratio::one() * libm::pow(x.number(), n.number());
        let of_base = self.carried(|dx| power * n * (dx / x));
        let of_exponent = exponent.carried(|dn| power * libm::log(x.number()) * dn);
        Self::combined(power, of_base.chain(of_exponent).collect())
    }

    /// The natural logarithm of this ratio: `d(ln x) = dx / x`.
    ///
    /// # Errors
    ///
    /// As [`power`](Self::power).
    ///
    /// # Source
    ///
    /// JCGM 100:2008, equation 10.
    pub fn logarithm(&self) -> Result<Self, Error> {
        let x = positive(self.value)?;
        Self::combined(Ratio::one() * libm::log(x.number()), self.carried(|dx| dx / x).collect())
    }
}

impl<Q: AdditiveKind> Uncertain<Q> {
    /// The mean of different values, such as the flows of the nozzles on a boom. For repeats of one value:
    /// [`from_repeats`](Self::from_repeats).
    ///
    /// # Errors
    ///
    /// At `values`: [`MissingInput`](ErrorCode::MissingInput) for none; else as [`sum`](Self::sum).
    ///
    /// # Source
    ///
    /// JCGM 100:2008, equation 10.
    pub fn mean(values: &[Self]) -> Result<Self, Error> {
        let share = Ratio::one() / counted(values)?;
        Self::sum(values)?.times(&Uncertain::exact(share)?)
    }

    /// The harmonic mean of different values: one over the mean of one over each. Of speeds over courses of equal length it is the speed that
    /// counts for a sprayer whose flow does not follow its speed: what it puts out per area goes with `1 / v`.
    ///
    /// `h = n / sum(1 / x)`, `dh = sum((h / x)^2 dx) / n`.
    ///
    /// # Errors
    ///
    /// At `values`: [`MissingInput`](ErrorCode::MissingInput) for none; at `values[i]`: [`NotPositive`](ErrorCode::NotPositive) for
    /// one that is not above zero; else as [`sum`](Self::sum).
    ///
    /// # Example
    ///
    /// Half of the ground at 4 km/h and half at 6 km/h take as long as all of it at 4.8 km/h, not at 5.
    ///
    /// ```
    /// use mixcalc::{Speed, Uncertain};
    ///
    /// let [slow, fast] = [4.0, 6.0].map(Speed::from_kilometers_per_hour);
    /// let both = [Uncertain::exact(slow?)?, Uncertain::exact(fast?)?];
    /// assert!((Uncertain::harmonic_mean(&both)?.value().kilometers_per_hour() - 4.8).abs() < 1e-12);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// Definition; JCGM 100:2008, equation 10.
    pub fn harmonic_mean(values: &[Self]) -> Result<Self, Error> {
        let count = counted(values)?;
        for (i, value) in values.iter().enumerate() {
            positive(value.value).map_err(|error| error.at(format_args!("values[{i}]")))?;
        }
        let Some(first) = values.first().map(|value| value.value) else {
            return Err(none());
        };
        let mean = first * (count / ordered_sum(values.iter().map(|value| first / value.value)));
        let terms = values.iter().flat_map(|value| {
            let part = mean / value.value;
            value.carried(move |dx| dx * (part * part / count))
        });
        Self::combined(mean, terms.collect::<alloc::vec::Vec<Term<Q>>>())
    }
}

/// How many there are: one or more.
fn counted<Q>(values: &[Uncertain<Q>]) -> Result<Ratio, Error> {
    if values.is_empty() { Err(none()) } else { Ok(Ratio::of_steps(values.len() as u64)) }
}

fn none() -> Error {
    Error::new(ErrorCode::MissingInput).at("values").allowed(text::word("one or more"))
}
