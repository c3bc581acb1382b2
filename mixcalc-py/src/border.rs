//! How the core is asked: its errors are raised, and what may take long lets other threads run and has a panic caught.

use std::panic::{AssertUnwindSafe, catch_unwind};

use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyType};

/// Runs `body` while other threads may use the interpreter, and raises its error.
///
/// A panic is raised as `InternalError`: what PyO3 would make of it slips past `except Exception`.
pub(crate) fn answer<T: Send>(py: Python<'_>, body: impl FnOnce() -> Result<T, mixcalc::Error> + Send) -> PyResult<T> {
    match py.detach(|| catch_unwind(AssertUnwindSafe(body))) {
        Ok(answer) => checked(py, answer),
        Err(_) => Err(fault(py).unwrap_or_else(|failed| failed)),
    }
}

/// An answer of the core, or its error raised.
pub(crate) fn checked<T>(py: Python<'_>, answer: Result<T, mixcalc::Error>) -> PyResult<T> {
    answer.map_err(|error| raised(py, &error).unwrap_or_else(|failed| failed))
}

/// The error of `float(quantity)`, which Python and other libraries expect to be a `TypeError`.
pub(crate) fn no_number(py: Python<'_>, error: &mixcalc::Error) -> PyErr {
    static NO_NUMBER: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    let class = NO_NUMBER.import(py, "mixcalc.errors", "NoNumberError");
    class.and_then(|class| with_details(py, class, error)).unwrap_or_else(|failed| failed)
}

/// The core's error as an exception of the public package.
fn raised(py: Python<'_>, error: &mixcalc::Error) -> PyResult<PyErr> {
    static UNIT_ERROR: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    static INPUT_ERROR: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    let class = match error.code().number() {
        200..300 => UNIT_ERROR.import(py, "mixcalc.errors", "UnitError")?,
        _ => INPUT_ERROR.import(py, "mixcalc.errors", "InputError")?,
    };
    with_details(py, class, error)
}

fn with_details(py: Python<'_>, class: &Bound<'_, PyType>, error: &mixcalc::Error) -> PyResult<PyErr> {
    let code = error.code();
    let details = PyDict::new(py);
    details.set_item("code", code.number())?;
    details.set_item("name", code.name())?;
    details.set_item("path", error.path())?;
    details.set_item("given", error.given_text())?;
    details.set_item("allowed", error.allowed_text())?;
    Ok(PyErr::from_value(class.call((error.to_string(),), Some(&details))?))
}

/// A fault of the library; its code is the one that C sees.
fn fault(py: Python<'_>) -> PyResult<PyErr> {
    let details = PyDict::new(py);
    details.set_item("code", 99)?;
    details.set_item("name", "panic")?;
    let message = "a fault of the library, not of the input; please report it with the input";
    let class = py.import("mixcalc.errors")?.getattr("InternalError")?;
    Ok(PyErr::from_value(class.call((message,), Some(&details))?))
}
