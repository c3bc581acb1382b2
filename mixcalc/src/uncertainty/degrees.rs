//! How well a standard uncertainty is known.

use crate::error::{Error, ErrorCode};
use crate::quantity::close::steps_down;
use crate::quantity::{Ratio, bounded};
use crate::text;

/// Degrees of freedom: how well a standard uncertainty is known; infinitely many where it is taken as certain.
///
/// Of `n` repeats there are `n - 1`. An uncertainty that is itself known to one part in four has eight, to one in two, two.
///
/// # Source
///
/// JCGM 100:2008 (GUM), 4.2.6 and G.4.2.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DegreesOfFreedom(Option<Ratio>);

impl DegreesOfFreedom {
    /// Of an uncertainty that is taken as certain.
    pub const INFINITE: Self = Self(None);

    /// So many, not always a whole number.
    ///
    /// # Errors
    ///
    /// At `degrees_of_freedom`: [`OutOfRange`](ErrorCode::OutOfRange) below one, and for more than any count
    /// ([`INFINITE`](Self::INFINITE) says that); [`NotFinite`](ErrorCode::NotFinite).
    pub fn new(degrees: Ratio) -> Result<Self, Error> {
        let place = |error: Error| error.at("degrees_of_freedom");
        let degrees = bounded(degrees).map_err(place)?;
        if degrees < Ratio::one() {
            let error = Error::new(ErrorCode::OutOfRange).given(format_args!("{}", degrees.number()));
            return Err(place(error.allowed(text::word("one or more"))));
        }
        Ok(Self(Some(degrees)))
    }

    /// How many; `None` for infinitely many.
    #[must_use]
    pub const fn number(self) -> Option<Ratio> {
        self.0
    }

    /// Down to a whole number, as tables of Student's t have them; `None` where there are more than are counted.
    pub(super) fn whole(self) -> Option<u64> {
        self.0.and_then(steps_down).map(|degrees| degrees.max(1))
    }

    /// One over their number: nothing where there are infinitely many.
    pub(super) fn reciprocal(self) -> Ratio {
        self.0.map_or(Ratio::ZERO, |degrees| Ratio::one() / degrees)
    }

    /// The other way round.
    pub(super) fn from_reciprocal(reciprocal: Ratio) -> Self {
        let degrees = Ratio::one() / reciprocal;
        Self(bounded(degrees).ok())
    }
}
