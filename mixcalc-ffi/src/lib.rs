//! C interface of mixcalc: what `include/mixcalc.h` declares.
//!
//! No arithmetic and no wording about spraying: numbers and text go in, the core answers, numbers and text come out.
//!
//! | file | holds |
//! | --- | --- |
//! | `border` | what every function does: catch a panic, report a failure |
//! | `status` | codes of the border |
//! | `failure` | why a call failed, and the sentences of the border's own codes |
//! | `error` | the struct that tells the caller |
//! | `sized` | structs whose first field says how much of them the caller knows |
//! | `handle` | what is made behind a pointer, and lists that come in |
//! | `text` | text taken from the caller, handed out and taken back |
//! | `choice` | numbers of closed lists |
//! | `sum` | one number at a time |
//! | `quantity` | unit words and text of quantities |
//! | `plan` | a job document in, a plan out: documents and pages |
//! | `view` | what a plan holds, one struct at a time |
//! | `view_label` | of them, what label and mixing order bring |
//! | `view_mix` | of them, measuring, containers, water, what to take along |
//! | `view_calibration` | of them, what a calibration's doubt does |
//! | `uncertain` | uncertain quantities |
//! | `calibration` | every way to a volume rate, its setting, delivered doses |
//! | `nozzle` | nozzles, standard sizes, fans |
//! | `nozzle_check` | the catches of a boom judged |
//! | `repeats` | how often to measure, outliers, wear, control charts |
//! | `column` | a column, and what every function over columns does |
//! | `columns` | the functions over columns, made from the core's list |
//! | `simulation` | Monte Carlo over the caller's model |
//! | `schema` | the schemas of the documents |
//! | `version` | which library this is |
#![deny(unsafe_op_in_unsafe_fn)]
#![allow(
    clippy::missing_safety_doc,
    reason = "the doc comments become the C header, which says in plain sentences what the caller must do"
)]

mod border;
mod calibration;
mod choice;
mod column;
mod columns;
mod error;
mod failure;
mod handle;
mod nozzle;
mod nozzle_check;
mod plan;
mod quantity;
mod repeats;
mod schema;
mod simulation;
mod sized;
mod status;
mod sum;
mod text;
mod uncertain;
mod version;
mod view;
mod view_calibration;
mod view_label;
mod view_mix;

pub use calibration::*;
pub use choice::*;
pub use column::{ColumnView, mixcalc_columns_explain};
pub use columns::*;
pub use error::{ErrorDetails, MIXCALC_MESSAGE_SIZE, MIXCALC_TEXT_SIZE};
pub use nozzle::*;
pub use nozzle_check::*;
pub use plan::*;
pub use quantity::*;
pub use repeats::*;
pub use schema::*;
pub use simulation::*;
pub use status::*;
pub use sum::*;
pub use text::mixcalc_string_free;
pub use uncertain::*;
pub use version::{MIXCALC_ABI_VERSION, mixcalc_abi_version, mixcalc_version};
pub use view::*;
pub use view_calibration::*;
pub use view_label::*;
pub use view_mix::*;
