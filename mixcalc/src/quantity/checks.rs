//! What a formula asks of its inputs, answered in two ways: for one number by the error that explains it, for a row of columns by its code.
//!
//! A formula is one branch-free function from typed quantities to its value, and asks its questions of a [`Checks`]. It goes on whatever the
//! answers are: a value whose inputs are refused is never handed out. So one text serves the sum of one number and the loop over many,
//! and a row's result is the number's result to the last bit.

#[cfg(feature = "columns")]
use core::marker::PhantomData;

use super::kind::{self, QuantityKind};
#[cfg(feature = "columns")]
use super::kind::{Kind, MAGNITUDES};
#[cfg(feature = "columns")]
use super::unit::Factor;
use crate::error::{Error, ErrorCode};

/// Asked by a formula about its inputs; the first no counts.
pub(crate) trait Checks {
    /// What must hold; `explained` completes the error with what was given and what is allowed.
    fn must(&mut self, holds: bool, code: ErrorCode, explained: impl FnOnce(Error) -> Error);

    /// What is multiplied: zero or more.
    fn factor<Q: QuantityKind>(&mut self, value: Q, name: &'static str) -> Q;

    /// What is divided by, or is nothing where there is none of it: above zero.
    fn divisor<Q: QuantityKind>(&mut self, value: Q, name: &'static str) -> Q;
}

/// The checks of one number.
#[derive(Default)]
pub(crate) struct Explained(Option<Error>);

impl Explained {
    fn note(&mut self, answer: impl FnOnce() -> Result<(), Error>) {
        if self.0.is_none() {
            self.0 = answer().err();
        }
    }
}

impl Checks for Explained {
    fn must(&mut self, holds: bool, code: ErrorCode, explained: impl FnOnce(Error) -> Error) {
        self.note(|| if holds { Ok(()) } else { Err(explained(Error::new(code))) });
    }

    fn factor<Q: QuantityKind>(&mut self, value: Q, name: &'static str) -> Q {
        self.note(|| kind::factor(value, name).map(drop));
        value
    }

    fn divisor<Q: QuantityKind>(&mut self, value: Q, name: &'static str) -> Q {
        self.note(|| kind::divisor(value, name).map(drop));
        value
    }
}

/// What a formula answers for one number, or the error that explains why it does not.
pub(crate) fn answered<T>(formula: impl FnOnce(&mut Explained) -> T) -> Result<T, Error> {
    let mut checks = Explained::default();
    let value = formula(&mut checks);
    checks.0.map_or(Ok(value), Err)
}

/// Whether all checks of a row hold. Nothing in it branches, so that a loop over rows is made of the wide instructions of a processor; why a
/// row is refused, [`Coded`] tells.
#[cfg(feature = "columns")]
#[derive(Clone, Copy)]
pub(crate) struct Sound(pub(crate) bool);

#[cfg(feature = "columns")]
impl Checks for Sound {
    #[inline(always)]
    fn must(&mut self, holds: bool, _: ErrorCode, _: impl FnOnce(Error) -> Error) {
        self.0 &= holds;
    }

    #[inline(always)]
    fn factor<Q: QuantityKind>(&mut self, value: Q, _: &'static str) -> Q {
        self.0 &= (value.si() == 0.0) | is_measured(value);
        value
    }

    #[inline(always)]
    fn divisor<Q: QuantityKind>(&mut self, value: Q, _: &'static str) -> Q {
        self.0 &= is_measured(value);
        value
    }
}

#[cfg(feature = "columns")]
#[inline(always)]
fn is_measured<Q: QuantityKind>(value: Q) -> bool {
    (value.si() >= *MAGNITUDES.start()) & (value.si() <= *MAGNITUDES.end())
}

/// The checks of a row: the number of the first code, 0 where there is none.
#[cfg(feature = "columns")]
#[derive(Clone, Copy, Default)]
pub(crate) struct Coded(u32);

#[cfg(feature = "columns")]
impl Coded {
    fn note(&mut self, holds: bool, code: ErrorCode) {
        if self.0 == 0 && !holds {
            self.0 = code.number();
        }
    }

    /// 0, or the number of an [`ErrorCode`].
    #[allow(clippy::cast_possible_truncation)] // codes stay below 1000
    pub(crate) const fn status(self) -> u16 {
        self.0 as u16
    }
}

#[cfg(feature = "columns")]
impl Checks for Coded {
    fn must(&mut self, holds: bool, code: ErrorCode, _: impl FnOnce(Error) -> Error) {
        self.note(holds, code);
    }

    fn factor<Q: QuantityKind>(&mut self, value: Q, _: &'static str) -> Q {
        self.note((value.si() == 0.0) | is_measured(value), ErrorCode::OutOfRange);
        value
    }

    fn divisor<Q: QuantityKind>(&mut self, value: Q, _: &'static str) -> Q {
        self.note(value.si() > 0.0, ErrorCode::NotPositive);
        self.note(is_measured(value), ErrorCode::OutOfRange);
        value
    }
}

/// A unit of a kind, in which a column states bare numbers.
#[cfg(feature = "columns")]
pub(crate) struct UnitOf<Q> {
    /// Into the unit of documents; one where it is that unit.
    to_document: Factor,
    document: Factor,
    unit: Factor,
    symbol: &'static str,
    kind: PhantomData<Q>,
}

#[cfg(feature = "columns")]
impl<Q: QuantityKind> UnitOf<Q> {
    /// The unit of a symbol that the kind has a constructor for, found while compiling. One that there is not makes no number.
    pub(crate) const fn named(symbol: &'static str) -> Self {
        let (unit, document) = match (Q::KIND.factor_of(symbol), Q::KIND.unit_factor()) {
            (Some(unit), Some(document)) => (unit, document),
            _ => (Factor::NOTHING, Factor::NOTHING),
        };
        Self { to_document: unit.per_or_one(document), document, unit, symbol, kind: PhantomData }
    }

    /// A bare number as a quantity, as its constructor makes it.
    #[inline(always)]
    const fn si(&self, value: f64) -> f64 {
        self.document.to_si(self.to_document.to_si(value))
    }

    /// A quantity as a bare number.
    #[inline(always)]
    pub(crate) fn number(&self, quantity: Q) -> f64 {
        self.unit.of_si(quantity.si())
    }
}

/// Checks that begin with bare numbers.
#[cfg(feature = "columns")]
pub(crate) trait Stated: Checks {
    /// A bare number as a quantity, as its constructor makes it.
    fn stated<Q: QuantityKind>(&mut self, value: f64, unit: &UnitOf<Q>, name: &'static str) -> Q;

    /// What a sum of one number answers, where it has no formula of its own; not asked once an input is refused.
    fn asked<T: Default>(&mut self, sum: impl FnOnce() -> Result<T, Error>) -> T;
}

#[cfg(feature = "columns")]
impl Stated for Sound {
    /// Every number is asked about by its formula, which refuses what its constructor refuses.
    #[inline(always)]
    fn stated<Q: QuantityKind>(&mut self, value: f64, unit: &UnitOf<Q>, _: &'static str) -> Q {
        Q::from_si(unit.si(value))
    }

    fn asked<T: Default>(&mut self, sum: impl FnOnce() -> Result<T, Error>) -> T {
        let answer = sum();
        self.0 &= answer.is_ok();
        answer.unwrap_or_default()
    }
}

#[cfg(feature = "columns")]
impl Stated for Coded {
    #[inline(always)]
    fn stated<Q: QuantityKind>(&mut self, value: f64, unit: &UnitOf<Q>, _: &'static str) -> Q {
        let si = unit.si(value);
        if Q::KIND == Kind::Temperature {
            self.note(si >= 0.0 || si.is_nan(), ErrorCode::OutOfRange);
        }
        self.note(si.is_finite(), ErrorCode::NotFinite);
        Q::from_si(si)
    }

    fn asked<T: Default>(&mut self, sum: impl FnOnce() -> Result<T, Error>) -> T {
        if self.0 != 0 {
            return T::default();
        }
        sum().unwrap_or_else(|error| {
            self.0 = error.code().number();
            T::default()
        })
    }
}

#[cfg(feature = "columns")]
impl Stated for Explained {
    fn stated<Q: QuantityKind>(&mut self, value: f64, unit: &UnitOf<Q>, name: &'static str) -> Q {
        self.note(|| kind::finite::<Q>(value, unit.symbol, unit.unit).map(drop).map_err(|error| error.at(name)));
        Q::from_si(unit.si(value))
    }

    fn asked<T: Default>(&mut self, sum: impl FnOnce() -> Result<T, Error>) -> T {
        let mut answer = T::default();
        self.note(|| {
            answer = sum()?;
            Ok(())
        });
        answer
    }
}
