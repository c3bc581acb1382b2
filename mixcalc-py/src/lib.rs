//! The private module `mixcalc._mixcalc`; the public package around it is in `python/mixcalc`.
//!
//! No arithmetic and no wording of its own: text goes in, the core answers, text comes out.
//!
//! | file | holds |
//! | --- | --- |
//! | `border` | what every function does: let other threads run, catch a panic, raise an error |
//! | `text` | text taken from Python |

mod border;
mod text;

#[pyo3::pymodule(gil_used = false)]
mod _mixcalc {
    use mixcalc::document;
    use pyo3::prelude::*;

    use crate::{border, text};

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

    /// Panics on purpose, so that a test can see what becomes of it.
    #[pyfunction]
    #[expect(clippy::panic, reason = "it is what the function is for")]
    fn _panic(py: Python<'_>) -> PyResult<()> {
        border::answer(py, || panic!("on purpose"))
    }
}
