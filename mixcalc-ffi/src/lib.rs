//! C interface of mixcalc: what `include/mixcalc.h` declares.
//!
//! No arithmetic and no wording about spraying: text goes in, the core answers, text comes out.
//!
//! | file | holds |
//! | --- | --- |
//! | `border` | what every function does: catch a panic, report a failure |
//! | `status` | codes of the border |
//! | `failure` | why a call failed, and the sentences of the border's own codes |
//! | `error` | the struct that tells the caller |
//! | `text` | text taken from the caller, handed out and taken back |
//! | `plan` | a job document in, a plan document out |
//! | `version` | which library this is |
#![deny(unsafe_op_in_unsafe_fn)]
#![allow(
    clippy::missing_safety_doc,
    reason = "the doc comments become the C header, which says in plain sentences what the caller must do"
)]

mod border;
mod error;
mod failure;
mod plan;
mod status;
mod text;
mod version;

pub use error::{ErrorDetails, MIXCALC_MESSAGE_SIZE, MIXCALC_TEXT_SIZE};
pub use plan::mixcalc_plan_json;
pub use status::*;
pub use text::mixcalc_string_free;
pub use version::{MIXCALC_ABI_VERSION, mixcalc_abi_version, mixcalc_version};
