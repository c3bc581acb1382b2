//! How a number was reached: its formula, what stands in the formula, and where the formula is written.
//!
//! A formula is text with the names of its inputs, decimal numbers, `+ - * /`, parentheses, `min(a, b)`, `max(a, b)`, `div(a, b)` (the
//! whole quotient of two counts), and the whole steps of `docs/numbers.md`, section 1: `steps_down(x)`, `steps_up(x)`,
//! `steps_nearest(x)`. A percent is a part of one in it.

use alloc::collections::BTreeSet;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use crate::quantity::{Quantity, System};
use crate::text::{filled, working as words};

/// A number that was worked out, or that something was worked out from.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Worked {
    /// A quantity.
    Quantity(Quantity),
    /// A count.
    Count(u64),
}

impl Worked {
    /// Text for people, in the measures of a trade.
    #[must_use]
    pub fn to_people(self, system: System) -> String {
        match self {
            Self::Quantity(quantity) => quantity.to_people(system),
            Self::Count(count) => format!("{count}"),
        }
    }
}

impl<Q: Into<Quantity>> From<Q> for Worked {
    fn from(quantity: Q) -> Self {
        Self::Quantity(quantity.into())
    }
}

impl From<u64> for Worked {
    fn from(count: u64) -> Self {
        Self::Count(count)
    }
}

/// A number that stands in a formula, and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    symbol: String,
    place: String,
    value: Worked,
}

impl Input {
    /// Its name in the formula.
    #[must_use]
    pub fn symbol(&self) -> &str {
        &self.symbol
    }

    /// Its place: `job.` and a path for a number of the job, `advice.` and a name for a default, else that of another working.
    #[must_use]
    pub fn place(&self) -> &str {
        &self.place
    }

    /// Its value.
    #[must_use]
    pub const fn value(&self) -> Worked {
        self.value
    }
}

/// How a number was reached.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    place: String,
    value: Worked,
    formula: String,
    inputs: Vec<Input>,
    source: &'static str,
}

impl Working {
    /// The working of a number by a formula in which each input stands as `symbol@place`, where `known` finds its value; a symbol that
    /// stands there again may do without its place.
    pub(crate) fn new(
        place: String,
        value: Worked,
        formula: &str,
        source: &'static str,
        known: impl Fn(&str) -> Option<Worked>,
    ) -> Self {
        let mut parts = formula.split('@');
        let mut text = String::from(parts.next().unwrap_or_default());
        let (mut inputs, mut symbols) = (Vec::new(), BTreeSet::new());
        for part in parts {
            let (place, rest) = part.split_at(part.find([' ', ',', ')']).unwrap_or(part.len()));
            let symbol = text.rsplit([' ', '(']).next().unwrap_or_default();
            if let Some(value) = known(place)
                && symbols.insert(String::from(symbol))
            {
                inputs.push(Input { symbol: symbol.into(), place: place.into(), value });
            }
            text.push_str(rest);
        }
        Self { place, value, formula: text, inputs, source }
    }

    /// Where the number stands: a path in the plan document, such as `loads[0].products[1].exact`; or a name that begins with
    /// `mix.` for a number between, and with `advice.` for a default.
    #[must_use]
    pub fn place(&self) -> &str {
        &self.place
    }

    /// The number.
    #[must_use]
    pub const fn value(&self) -> Worked {
        self.value
    }

    /// The formula; empty for a default, which is not worked out.
    #[must_use]
    pub fn formula(&self) -> &str {
        &self.formula
    }

    /// What stands in the formula.
    #[must_use]
    pub fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    /// Where the formula is written, or what stands behind a default.
    #[must_use]
    pub const fn source(&self) -> &'static str {
        self.source
    }

    /// All of it on one line, in the measures of a trade:
    /// `loads[0].products[1].exact = 106.7 mL: c * v, with c = 0.6667 % v/v (mix.shares[1]), v = 16 L (loads[0].mix); docs/numbers.md, 6`.
    #[must_use]
    pub fn text(&self, system: System) -> String {
        let how = self.pieces(system).join(" ");
        filled(words::LINE, &[("number", &self.number(system)), ("how", &how)])
    }

    /// The number at its place.
    pub(crate) fn number(&self, system: System) -> String {
        let value = self.value.to_people(system);
        filled(words::NUMBER, &[("place", &self.place), ("value", &value)])
    }

    /// How it was reached, in pieces that stand on one line each: the formula, each input, the source.
    pub(crate) fn pieces(&self, system: System) -> Vec<String> {
        let mut pieces = Vec::with_capacity(self.inputs().len() + 2);
        let formula = match self.inputs() {
            [] => words::FORMULA_ALONE,
            _ => words::FORMULA,
        };
        if !self.formula().is_empty() {
            pieces.push(filled(formula, &[("formula", &self.formula)]));
        }
        for (i, Input { symbol, place, value }) in self.inputs().iter().enumerate() {
            let is_last = i + 1 == self.inputs().len();
            let template = if is_last { words::LAST_INPUT } else { words::INPUT };
            let value = value.to_people(system);
            pieces.push(filled(template, &[("symbol", symbol), ("value", &value), ("place", place)]));
        }
        pieces.push(self.source.into());
        pieces
    }
}
