//! Unit-safe arithmetic of mixing, loading and calibrating crop sprayers.
#![no_std]
#![forbid(unsafe_code)]

extern crate alloc;
#[cfg(feature = "std")]
extern crate std;
// `uom`'s macros call each other unqualified, so they must all be in scope.
#[macro_use]
extern crate uom;

mod error;
pub mod quantity;
mod text;

pub use error::{Error, ErrorCode};
pub use quantity::*;
