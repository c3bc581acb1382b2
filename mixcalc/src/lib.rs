//! Unit-safe arithmetic of mixing, loading and calibrating crop sprayers.
//!
//! A [`Job`] is ground, a rate, products at their doses, the measures at hand, a sprayer and its tank. [`plan()`] works it out: a
//! [`Plan`] has loads that never pass the safe fill, and for each a recipe in whole graduations of a measure, steps, a ledger that
//! closes, and findings that say what breaks or nears a limit.
//!
//! # From a document to the load sheet
//!
//! 1.2 ha at 200 L/ha take 240 L of mix. A boom sprayer with a 100 L tank is filled to 95 L: two loads of 95 L and one of 50 L.
//! 1.5 L/ha of product are 712.5 mL for 95 L of mix, of which the jug shows 710 mL: never more than the dose, which is the maximum
//! here, and the gap is told.
//!
//! ```
//! # #[cfg(feature = "document")]
//! # fn main() -> Result<(), mixcalc::Error> {
//! let job = mixcalc::document::read_job(br#"
//!     format = "mixcalc-job/1"
//!     area = "1.2 ha"
//!     volume_rate = "200 L/ha"
//!     sprayer = { kind = "boom" }
//!     tank = { nominal = "100 L" }
//!     measures = [{ kind = "vessel", capacity = "1 L", graduation = "10 mL" }]
//!     products = [{ name = "example product A", dose = "1.5 L/ha", label = { max_dose = "1.5 L/ha" } }]
//! "#)?;
//! let plan = mixcalc::plan(&job)?;
//! assert_eq!(plan.load_count(), 3);
//! let cleared = plan.cleared().expect("no stop stands against this plan");
//! let sheet = mixcalc::sheet::text(&cleared);
//! assert!(sheet.contains("Measure 710 mL of example product A"));
//! # Ok(())
//! # }
//! # #[cfg(not(feature = "document"))]
//! # fn main() {}
//! ```
//!
//! # What it promises
//!
//! Units cannot be mixed up: a dose is no volume rate, though both are L/ha. Ambiguous text is refused with its readings. No load is
//! over the safe fill, and nothing measured is over the maximum, whatever the rounding. Amounts are whole graduations, and totals
//! are sums of integers. One job gives one answer, in any order of its products. A plan costs the same for ten loads and for ten
//! billion. Bad input gives an [`Error`] with code, place and remedy; it never panics and never gives a number. A plan that breaks
//! a limit is no error: it has a [`Finding`], and with a stop it gives no measured amounts, no steps and no sheet.
//!
//! # What it does not do
//!
//! It knows no product, no label and no law: you give them. It does not choose a dose, judge whether products may be
//! mixed, or predict drift or effect. It does not yet record, or plan from what was really used. It reads no file, no
//! clock and no network, and keeps no state. It never calls a dose safe: the label in force where you are decides.
//!
//! # Features
//!
//! `std` and `document` (jobs in JSON and TOML, plans in JSON) are on; without them the crate needs only `alloc`. `schema` makes
//! the JSON Schemas from the types, `columns` does every sum over columns. How each number is made is in `docs/numbers.md`, what each word means in `docs/vocabulary.toml`.
#![no_std]
#![forbid(unsafe_code)]

extern crate alloc;
#[cfg(feature = "std")]
extern crate std;
// `uom`'s macros call each other unqualified, so they must all be in scope.
#[macro_use]
extern crate uom;

#[cfg(feature = "columns")]
pub mod columns;
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
mod uncertainty;
mod working;

pub use error::{Error, ErrorCode};
pub use finding::*;
pub use label::*;
pub use measure::{Amount, Fillings, Measure, MeasureClass, MeasureKind, graduations};
pub use plan::*;
pub use quantity::*;
pub use sprayer::*;
pub use uncertainty::*;
pub use working::{Input, Worked, Working};
