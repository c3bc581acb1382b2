//! Unit-safe arithmetic of mixing, loading and calibrating crop sprayers.
#![no_std]
#![forbid(unsafe_code)]

extern crate alloc;
#[cfg(feature = "std")]
extern crate std;
// `uom`'s macros call each other unqualified, so they must all be in scope.
#[macro_use]
extern crate uom;

#[cfg(feature = "document")]
pub mod document;
mod error;
mod finding;
mod label;
mod measure;
mod plan;
pub mod quantity;
pub mod sheet;
mod sprayer;
mod text;

pub use error::{Error, ErrorCode};
pub use finding::*;
pub use label::{
    ActiveSubstance, Basis, Dose, Formulation, Label, Product, State, SubstanceContent,
};
pub use measure::{Amount, Fillings, Measure, MeasureKind};
pub use plan::*;
pub use quantity::*;
pub use sprayer::{Residual, Sprayer, SprayerKind, Tank};
