//! Quantities: kinds that cannot be mistaken for each other, exact units, the strict reader and the two printers.
//!
//! The only room that knows base units, factors and `uom`. A kind is a newtype over a private value in coherent SI units:
//!
//! ```
//! use mixcalc::{Area, VolumeRate};
//!
//! let rate = VolumeRate::read("300 L/ha")?;
//! let area = Area::from_hectares(12.5)?;
//! assert!(((rate * area).liters() - 3750.0).abs() < 1e-9);
//! # Ok::<(), mixcalc::Error>(())
//! ```
//!
//! A dose where a volume rate is due does not compile:
//!
//! ```compile_fail
//! use mixcalc::{LiquidDose, VolumeRate};
//!
//! fn volume_rate(rate: VolumeRate) {}
//! volume_rate(LiquidDose::from_liters_per_hectare(2.5).unwrap());
//! ```

pub(crate) mod checks;
pub(crate) mod close;
mod dimension;
mod dynamic;
mod kind;
mod read;
mod show;
mod system;
mod unit;

pub use dimension::Dimension;
pub use dynamic::Quantity;
pub use kind::*;
pub use unit::System;

pub(crate) use kind::{bounded, divisor, factor, not_negative, ordered_sum, positive};
pub(crate) use read::scale_unit;
#[cfg(feature = "document")]
pub(crate) use read::{Expression, missing_unit, quantity as read_stated, suggesting, unit as read_unit};
pub(crate) use show::{in_unit, on_scale, people_unit, signed_percent, significant};
