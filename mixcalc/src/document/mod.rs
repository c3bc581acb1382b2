//! Documents: jobs in JSON and TOML, plans in JSON, readings in CSV.
//!
//! A document becomes a tree, the tree becomes wire structs, the wire structs become a [`Job`]; each step has errors that name
//! the place. A plan document embeds its job and is worked out from it again, never parsed back into a plan.

#[macro_use]
mod wire;
mod calibration;
mod job;
mod node;
mod plan;
mod readings;
mod stated;
mod working;

use alloc::string::String;
use alloc::vec::Vec;

pub use self::job::Part;
pub use self::node::Node;
pub use self::readings::{FlaggedRow, ReadCalibration, ReadNozzleCheck, Readings, read_readings};

use self::job::JobWire;
use self::plan::PlanWire;
use self::working::WorkingWire;
use crate::error::Error;
use crate::plan::{Job, Plan};

/// Reads a job document: JSON where the first character is `{`, TOML otherwise.
///
/// A quantity is text (`"300 L/ha"`) or `{"value": 300, "unit": "L/ha"}`; a number without a unit is refused where a quantity is
/// due. The keys are in `docs/documents.md` and in [`job_schema`].
///
/// # Errors
///
/// For the document: [`TooLarge`](crate::ErrorCode::TooLarge) (over 1 MiB),
/// [`UnreadableDocument`](crate::ErrorCode::UnreadableDocument) with line and column,
/// [`UnknownKey`](crate::ErrorCode::UnknownKey) with the nearest known key, [`DuplicateKey`](crate::ErrorCode::DuplicateKey),
/// [`WrongType`](crate::ErrorCode::WrongType), [`UnknownChoice`](crate::ErrorCode::UnknownChoice),
/// [`MissingInput`](crate::ErrorCode::MissingInput), [`BothGiven`](crate::ErrorCode::BothGiven). For its quantities: the codes of
/// [`Quantity::read`](crate::Quantity::read), and those of the constructors of [`Job`] and its parts. Each names its place, such as
/// `products[1].label.max_dose`.
///
/// # Example
///
/// 1.2 ha at 200 L/ha take 240 L; the tank is filled to 95 % of its nominal 100 L: two loads of 95 L, one of 50 L.
///
/// ```
/// let job = mixcalc::document::read_job(br#"
///     format = "mixcalc-job/1"
///     area = "1.2 ha"
///     volume_rate = "200 L/ha"
///     sprayer = { kind = "boom" }
///     tank = { nominal = "100 L" }
///     measures = [{ kind = "vessel", capacity = "1 L", graduation = "10 mL" }]
///     products = [{ name = "example product A", dose = "1.5 L/ha" }]
/// "#)?;
/// let plan = mixcalc::plan(&job)?;
/// assert_eq!(plan.load_count(), 3);
///
/// let refused = mixcalc::document::read_job(br#"{"format": "mixcalc-job/1", "aera": "1.2 ha"}"#).unwrap_err();
/// assert_eq!((refused.code(), refused.path()), (mixcalc::ErrorCode::UnknownKey, "aera"));
/// # Ok::<(), mixcalc::Error>(())
/// ```
pub fn read_job(document: &[u8]) -> Result<Job, Error> {
    Job::from_node(&Node::read(document)?)
}

/// Writes a job as JSON: every quantity as value and unit, in the one unit of its kind.
#[must_use]
pub fn write_job(job: &Job) -> String {
    json(&JobWire::of(job))
}

/// Writes a plan as JSON. A plan with a stop has no measured amounts, no steps and no ledger.
#[must_use]
pub fn write_plan(plan: &Plan) -> String {
    json(&PlanWire::of(plan))
}

/// Writes how every number of a plan was reached, as a JSON list: place, value, formula, inputs, source.
#[must_use]
pub fn write_working(plan: &Plan) -> String {
    let workings = plan.working();
    json(&workings.iter().map(WorkingWire::of).collect::<Vec<_>>())
}

/// The wire structs have text keys and finite numbers, so that writing them does not fail.
fn json(wire: &impl serde::Serialize) -> String {
    serde_json::to_string(wire).unwrap_or_default()
}

/// The JSON Schema (2020-12) of job documents.
#[must_use]
pub const fn job_schema() -> &'static str {
    include_str!("../../schema/job.schema.json")
}

/// The JSON Schema (2020-12) of plan documents.
#[must_use]
pub const fn plan_schema() -> &'static str {
    include_str!("../../schema/plan.schema.json")
}

/// The schemas as the wire structs have them now, to be compared with the ones checked in: job, plan.
#[cfg(feature = "schema")]
#[must_use]
pub fn schemas_from_types() -> [String; 2] {
    // That these types are the wire's is nobody's business.
    let pretty = |schema: &schemars::Schema| {
        serde_json::to_string_pretty(schema).unwrap_or_default().replace("Wire\"", "\"") + "\n"
    };
    [pretty(&schemars::schema_for!(JobWire)), pretty(&schemars::schema_for!(PlanWire))]
}
