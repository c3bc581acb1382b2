//! Text taken from Python.

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyString};

/// The bytes of a `str` or `bytes`.
///
/// A `str` that UTF-8 cannot hold (half of a surrogate pair) passes as bytes that are not UTF-8, so that it gets the
/// core's own error and not one more kind.
pub(crate) fn taken<'py>(job: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyBytes>> {
    if let Ok(bytes) = job.cast::<PyBytes>() {
        return Ok(bytes.clone());
    }
    if job.is_instance_of::<PyString>() {
        let bytes = job.call_method1("encode", ("utf-8", "surrogatepass"))?;
        return Ok(bytes.cast_into()?);
    }
    let given = job.get_type().name()?;
    Err(PyTypeError::new_err(format!("a job document is str or bytes, not {given}")))
}
