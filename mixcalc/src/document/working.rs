//! The working document: wire structs, filled from the workings of a plan.

use alloc::vec::Vec;

use serde::Serialize;

use super::stated::Stated;
use crate::working::{Input, Worked, Working};

/// How a number was reached.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(super) struct WorkingWire<'working> {
    /// Its path in the plan document; `mix.` and a name for a number between, `advice.` and a name for a default.
    place: &'working str,
    /// The number. A gap in percent is a quantity in %.
    value: WorkedWire,
    /// The formula, with the symbols of the inputs; empty for a default.
    formula: &'working str,
    /// What stands in the formula.
    inputs: Vec<InputWire<'working>>,
    /// Where the formula is written, or what stands behind a default.
    source: &'static str,
}

/// What stands in a formula.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(super) struct InputWire<'working> {
    /// Its name in the formula.
    symbol: &'working str,
    /// `job.` and a path for a number of the job, else the place of another working.
    place: &'working str,
    /// The number.
    value: WorkedWire,
}

/// A quantity as value and unit, or a count as a number.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(untagged)]
pub(super) enum WorkedWire {
    /// Value and unit.
    Quantity(Stated),
    /// A whole number.
    Count(u64),
}

impl From<Worked> for WorkedWire {
    fn from(worked: Worked) -> Self {
        match worked {
            Worked::Quantity(quantity) => Self::Quantity(Stated::of(quantity)),
            Worked::Count(count) => Self::Count(count),
        }
    }
}

impl<'working> WorkingWire<'working> {
    pub(super) fn of(working: &'working Working) -> Self {
        Self {
            place: working.place(),
            value: working.value().into(),
            formula: working.formula(),
            inputs: working.inputs().iter().map(InputWire::of).collect(),
            source: working.source(),
        }
    }
}

impl<'working> InputWire<'working> {
    fn of(input: &'working Input) -> Self {
        Self { symbol: input.symbol(), place: input.place(), value: input.value().into() }
    }
}
