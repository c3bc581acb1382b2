//! The private module `mixcalc._mixcalc`; the public package around it is in `python/mixcalc`.
//!
//! No arithmetic and no wording of its own: text goes in, the core answers, text comes out.
//!
//! | file | holds |
//! | --- | --- |
//! | `border` | how the core is asked: errors raised, other threads let run, panics caught |
//! | `text` | text taken from Python |
//! | `quantity` | a class for each kind of quantity |
//! | `node` | Python objects as the tree that parts of a job are made from |
//! | `part` | a job and its parts |
//! | `plan` | a plan and what it holds |
//! | `uncertain` | uncertain values, simulation |
//! | `columns` | columns of numpy |
//! | `calibration` | every way to a volume rate, and the sums around it |
//! | `nozzle` | nozzles, their check, repeats, wear |
//! | `readings` | tables of readings |

mod border;
mod calibration;
mod columns;
mod node;
mod nozzle;
mod part;
mod plan;
mod quantity;
mod readings;
mod text;
mod uncertain;

#[pyo3::pymodule(gil_used = false)]
mod _mixcalc {
    use mixcalc::document;
    use pyo3::prelude::*;

    #[pymodule_export]
    use crate::calibration::{
        Calibration, Setting, course_length, delivered_liquid_dose, delivered_solid_dose, flow, one_128th_acre,
        required_flow, required_speed, required_swath, side_difference, speed, spraying_time, volume_of_catch,
        volume_rate, water_density, work_rate,
    };
    #[pymodule_export]
    use crate::columns::{_applied, _columns, _columns_explained};
    #[pymodule_export]
    use crate::nozzle::{
        Nozzle, NozzleCatches, NozzleSize, Wear, best_repeats, boom_height, check_nozzles, control_chart,
        density_factor, fan_width, is_settled, outlier, repeats_needed, required_sizes,
    };
    #[pymodule_export]
    use crate::plan::{Plan, plan};
    #[pymodule_export]
    use crate::readings::read_readings;
    #[pymodule_export]
    use crate::uncertain::{Simulation, Uncertain, simulate};
    use crate::{border, part, quantity, text};

    /// Version of the compiled library, the same as of the package.
    #[pymodule_export]
    #[allow(non_upper_case_globals, reason = "the name that Python sees")]
    const version: &str = env!("CARGO_PKG_VERSION");

    /// The plan of a job, as a JSON document, from a job document that is JSON or TOML.
    ///
    /// Other threads run meanwhile. The same job gives the same bytes here, in Rust and in C.
    /// Raises InputError, or UnitError where the fault is in a unit, if the job cannot be planned. A plan with a finding
    /// of severity "stop" is no error: its "usable" is false.
    #[pyfunction]
    #[pyo3(signature = (job, /))]
    fn plan_json(py: Python<'_>, job: &Bound<'_, PyAny>) -> PyResult<String> {
        let job = text::taken(job)?;
        let text = job.as_bytes();
        border::answer(py, || {
            let plan = mixcalc::plan(&document::read_job(text)?)?;
            Ok(document::write_plan(&plan))
        })
    }

    /// The JSON Schema (2020-12) of job documents, as text.
    #[pyfunction]
    fn job_schema() -> &'static str {
        document::job_schema()
    }

    /// The JSON Schema (2020-12) of plan documents, as text.
    #[pyfunction]
    fn plan_schema() -> &'static str {
        document::plan_schema()
    }

    #[pymodule_init]
    fn init(module: &Bound<'_, PyModule>) -> PyResult<()> {
        quantity::register(module)?;
        part::register(module)
    }

    /// Panics on purpose, so that a test can see what becomes of it.
    #[pyfunction]
    #[expect(clippy::panic, reason = "it is what the function is for")]
    fn _panic(py: Python<'_>) -> PyResult<()> {
        border::answer(py, || panic!("on purpose"))
    }
}
