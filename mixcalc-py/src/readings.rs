//! Tables of readings. No arithmetic of its own.

use mixcalc::document;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyTuple};

use crate::border;
use crate::calibration::Calibration;
use crate::nozzle::checked_set;
use crate::text;

/// A named tuple of `mixcalc.readings`.
fn shape<'py>(py: Python<'py>, name: &str, fields: impl pyo3::call::PyCallArgs<'py>) -> PyResult<Py<PyAny>> {
    static MODULE: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    let module = MODULE.get_or_try_init(py, || Ok::<_, PyErr>(py.import("mixcalc.readings")?.into_any().unbind()))?;
    Ok(module.bind(py).getattr(name)?.call1(fields)?.unbind())
}

/// What came of a check, or the error that it would raise.
fn result<T>(
    py: Python<'_>,
    came: Result<T, mixcalc::Error>,
    told: impl FnOnce(T) -> PyResult<Py<PyAny>>,
) -> PyResult<[Py<PyAny>; 2]> {
    match border::checked(py, came) {
        Ok(value) => Ok([told(value)?, py.None()]),
        Err(error) => Ok([py.None(), error.into_value(py).into_any()]),
    }
}

/// Reads a tidy table of readings: CSV with a header and one reading a row.
///
/// A row that cannot be read is flagged and left out, never repaired, and the rows of other checks are read; each check says how many of its
/// rows that are. The columns are in docs/documents.md.
///
/// Parameters
/// ----------
/// table : str or bytes
///     The table; of a pandas frame ``frame.to_csv(index=False)``.
///
/// Returns
/// -------
/// readings.Readings
///     Calibrations and checks of nozzles by their names, each worked out or with its error, and the flagged rows.
///
/// Raises
/// ------
/// InputError
///     For a header with an unknown column or without one that must be there, and for what is no text.
///
/// Examples
/// --------
/// >>> from mixcalc import read_readings
/// >>> table = """check,method,input,value,unit,tolerance
/// ... spring,catch-over-course,catch,0.59,L,2 %
/// ... spring,catch-over-course,catch,n/a,L,2 %
/// ... spring,catch-over-course,catch,0.61,L,2 %
/// ... spring,catch-over-course,course,100,m,
/// ... spring,catch-over-course,swath,0.5,m,
/// ... """
/// >>> readings = read_readings(table)
/// >>> spring = readings.calibrations["spring"]
/// >>> f"{spring.calibration.volume_rate.value:.1f L/ha}", spring.flagged
/// ('120.0 L/ha', 1)
/// >>> readings.flagged[0].line, readings.flagged[0].column
/// (3, 'value')
#[pyfunction]
#[pyo3(signature = (table, /))]
pub(crate) fn read_readings(py: Python<'_>, table: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
    let table = text::taken(table)?;
    let bytes = table.as_bytes();
    let readings = border::answer(py, || document::read_readings(bytes))?;
    let calibrations = PyDict::new(py);
    for read in readings.calibrations {
        let came = read.record.and_then(|record| record.calibration());
        let [calibration, error] =
            result(py, came, |calibration| Ok(Py::new(py, Calibration::from(calibration))?.into_any()))?;
        calibrations.set_item(read.check, shape(py, "ReadCalibration", (calibration, error, read.flagged))?)?;
    }
    let checks = PyDict::new(py);
    for read in readings.nozzle_checks {
        let [checked, error] = result(py, read.judge(), |set| checked_set(py, set))?;
        checks.set_item(read.check, shape(py, "ReadNozzleCheck", (checked, error, read.flagged))?)?;
    }
    let flagged: Vec<_> = readings
        .flagged
        .iter()
        .map(|row| {
            let (column, name) = (row.error.path(), row.error.code().name());
            shape(py, "FlaggedRow", (row.line, &row.check, column, name, row.error.to_string()))
        })
        .collect::<PyResult<_>>()?;
    shape(py, "Readings", (calibrations, checks, PyTuple::new(py, flagged)?))
}
