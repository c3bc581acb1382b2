//! What laws and standards ask of a rinsing, as data with a source. Law changes faster than code: which of it holds where one sprays, the user says.

use alloc::vec::Vec;

use super::{Confidence, Rinsing};
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Force, Limit};
use crate::quantity::Ratio;
use crate::quantity::close::{is_over, is_under};
use crate::text::{self, rinse};

text::named! {
    /// What a rule for rinsing looks at.
    RinseMeasure {
        /// Water of the first portion per volume of what stays in the sprayer: how far the first rinse water that is sprayed is diluted.
        FirstDilution = "first-dilution";
        /// Concentration of what is drained at the end, as a share of the first: [`Rinsing::drained_share`].
        DrainedShare = "drained-share";
    }
}

/// A rule for rinsing: what it looks at, the limit, what stands behind it, and how sure it is that it says so.
///
/// ```
/// use mixcalc::{Force, Residual, RinseRule, Rinsing, Volume};
///
/// let residual = Residual::new(Volume::read("5 L")?, Volume::ZERO)?;
/// let rinsing = Rinsing::in_equal_portions(residual, Volume::read("50 L")?, 3)?;
/// // Three portions of ten residuals in all leave 1.23 %: within 2 %, over a hundredth.
/// assert!(RinseRule::read("two-percent")?.is_kept_by(&rinsing));
/// let rule = RinseRule::read("hundred-fold")?;
/// assert!(!rule.is_kept_by(&rinsing));
/// assert_eq!((rule.force(), rule.limit().value().to_string()), (Force::Law, "1 %".into()));
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RinseRule {
    name: &'static str,
    measure: RinseMeasure,
    bound: Bound,
    /// Numerator and denominator, so that a three-hundredth is one.
    value: (u16, u16),
    force: Force,
    confidence: Confidence,
    source: &'static str,
    note: &'static str,
}

/// The rules. What was not seen in force in a text of its own is advice here, whatever it is or was elsewhere.
const RULES: [RinseRule; 6] = [
    RinseRule {
        name: "five-fold",
        measure: RinseMeasure::FirstDilution,
        bound: Bound::AtLeast,
        value: (5, 1),
        force: Force::Law,
        confidence: Confidence::Certain,
        source: rinse::FRANCE,
        note: rinse::FIVE_FOLD,
    },
    RinseRule {
        name: "hundred-fold",
        measure: RinseMeasure::DrainedShare,
        bound: Bound::AtMost,
        value: (1, 100),
        force: Force::Law,
        confidence: Confidence::Certain,
        source: rinse::FRANCE,
        note: rinse::HUNDRED_FOLD,
    },
    RinseRule {
        name: "two-percent",
        measure: RinseMeasure::DrainedShare,
        bound: Bound::AtMost,
        value: (2, 100),
        force: Force::Standard,
        confidence: Confidence::Certain,
        source: rinse::ISO_16236,
        note: rinse::TWO_PERCENT,
    },
    RinseRule {
        name: "one-in-300",
        measure: RinseMeasure::DrainedShare,
        bound: Bound::AtMost,
        value: (1, 300),
        force: Force::Standard,
        confidence: Confidence::Certain,
        source: rinse::ISO_22368,
        note: rinse::ONE_IN_300,
    },
    RinseRule {
        name: "two-percent-at-nozzle",
        measure: RinseMeasure::DrainedShare,
        bound: Bound::AtMost,
        value: (2, 100),
        force: Force::Advice,
        confidence: Confidence::Probable,
        source: rinse::DENMARK,
        note: rinse::AT_NOZZLE,
    },
    RinseRule {
        name: "one-percent",
        measure: RinseMeasure::DrainedShare,
        bound: Bound::AtMost,
        value: (1, 100),
        force: Force::Advice,
        confidence: Confidence::Probable,
        source: rinse::FRANCE_EARLIER,
        note: rinse::ONE_PERCENT,
    },
];

impl RinseRule {
    /// The rules that are held.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &RULES
    }

    /// A rule by its name.
    ///
    /// # Errors
    ///
    /// [`UnknownChoice`](ErrorCode::UnknownChoice) for a name that is not held.
    pub fn read(name: &str) -> Result<Self, Error> {
        RULES.iter().find(|rule| rule.name == name).copied().ok_or_else(|| {
            let names: Vec<&str> = RULES.iter().map(|rule| rule.name).collect();
            Error::new(ErrorCode::UnknownChoice).given(text::quoted(name)).allowed(text::one_of(&names))
        })
    }

    /// Its name.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// What it looks at.
    #[must_use]
    pub const fn measure(&self) -> RinseMeasure {
        self.measure
    }

    /// The limit.
    #[must_use]
    pub fn limit(&self) -> Limit {
        Limit::new(self.bound, self.value(), self.force, self.source)
    }

    /// What stands behind it.
    #[must_use]
    pub const fn force(&self) -> Force {
        self.force
    }

    /// How sure it is that its source says so.
    #[must_use]
    pub const fn confidence(&self) -> Confidence {
        self.confidence
    }

    /// Where it stands.
    #[must_use]
    pub const fn source(&self) -> &'static str {
        self.source
    }

    /// What else it asks for, and how it is read here.
    #[must_use]
    pub const fn note(&self) -> &'static str {
        self.note
    }

    /// Whether a rinsing keeps to it; one of a sprayer that nothing stays in does. That is the sum alone: what the rule asks of places and times is in the [`note`](Self::note).
    #[must_use]
    pub fn is_kept_by(&self, rinsing: &Rinsing) -> bool {
        rinsing.measured(self.measure).is_none_or(|actual| match self.bound {
            Bound::AtMost => !is_over(actual, self.value()),
            Bound::AtLeast => !is_under(actual, self.value()),
        })
    }

    fn value(&self) -> Ratio {
        Ratio::of_steps(u64::from(self.value.0)) / Ratio::of_steps(u64::from(self.value.1))
    }
}
