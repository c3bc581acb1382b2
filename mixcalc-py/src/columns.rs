//! Columns of numpy: the core reads and writes where the arrays lie.
//!
//! Arrays are taken by numpy's array interface, a capsule that each array hands out: the stable ABI of Python 3.10 has no buffers, and a
//! crate for numpy would bring more than these fields.

use std::ffi::{c_char, c_int, c_void};
use std::num::NonZeroUsize;
use std::slice;

use mixcalc::columns::{AppliedLog, Column, OverlapCount, Statuses, calculation};
use mixcalc::{Length, Ratio};
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::types::{PyCapsule, PyCapsuleMethods};

use crate::border;

/// What `__array_struct__` points at, as numpy documents it.
#[repr(C)]
struct ArrayInterface {
    two: c_int,
    dimensions: c_int,
    type_kind: c_char,
    item_size: c_int,
    flags: c_int,
    shape: *const isize,
    strides: *const isize,
    data: *mut c_void,
    description: *mut c_void,
}

/// Aligned, and in the byte order of the machine.
const PLAIN: c_int = 0x100 | 0x200;
const WRITEABLE: c_int = 0x400;

/// An array that is kept alive, and where it lies.
struct Array<'py> {
    _capsule: Bound<'py, PyCapsule>,
    data: *mut c_void,
    /// One number for all rows where there is none.
    rows: Option<usize>,
    /// From a number to the next, in numbers.
    step: usize,
}

impl<'py> Array<'py> {
    fn taken(array: &Bound<'py, PyAny>, kind: u8, size: usize, flags: c_int) -> PyResult<Self> {
        let refused = || PyValueError::new_err("not an array that columns are taken from");
        let capsule = array.getattr("__array_struct__")?.cast_into::<PyCapsule>()?;
        // SAFETY: the array interface says that the capsule points at this struct, and the capsule keeps it.
        let interface = unsafe { capsule.pointer_checked(None)?.cast::<ArrayInterface>().as_ref() };
        let of_kind = interface.two == 2
            && interface.type_kind.to_ne_bytes() == [kind]
            && usize::try_from(interface.item_size) == Ok(size)
            && interface.flags & flags == flags;
        let (rows, step) = match interface.dimensions {
            0 => (None, 1),
            1 => {
                // SAFETY: an array of one dimension has one length and one stride.
                let (rows, stride) = unsafe { (*interface.shape, *interface.strides) };
                let stride = usize::try_from(stride).map_err(|_| refused())?;
                let rows = usize::try_from(rows).map_err(|_| refused())?;
                if stride % size != 0 || (stride == 0 && rows > 1) {
                    return Err(refused());
                }
                (Some(rows), (stride / size).max(1))
            }
            _ => return Err(refused()),
        };
        if !of_kind {
            return Err(refused());
        }
        let data = interface.data;
        Ok(Self { _capsule: capsule, data, rows, step })
    }

    /// The numbers of an input, as long as the array is kept.
    fn column(&self) -> Column<'_> {
        let length = match self.rows {
            Some(0) => return Column::Each(&[]),
            Some(rows) => (rows - 1) * self.step + 1,
            None => 1,
        };
        // SAFETY: so many doubles lie there, aligned, as the interface says.
        let values = unsafe { slice::from_raw_parts(self.data.cast_const().cast::<f64>(), length) };
        match (self.rows, values, NonZeroUsize::new(self.step)) {
            (None, [value, ..], _) => Column::Same(*value),
            (_, _, Some(step)) if step.get() > 1 => Column::Stepped(values, step),
            _ => Column::Each(values),
        }
    }

    /// Where an output goes.
    ///
    /// # Safety
    ///
    /// Nothing else reads or writes it meanwhile: the package hands over arrays that it has just made.
    #[expect(clippy::mut_from_ref, reason = "the array is Python's")]
    unsafe fn output<T>(&self) -> PyResult<&mut [T]> {
        match self.rows {
            Some(0) => Ok(&mut []),
            // SAFETY: so many items lie there, aligned, side by side.
            Some(rows) if self.step == 1 => Ok(unsafe { slice::from_raw_parts_mut(self.data.cast::<T>(), rows) }),
            _ => Err(PyValueError::new_err("an output lies side by side")),
        }
    }
}

fn inputs<'py>(arrays: &[Bound<'py, PyAny>]) -> PyResult<Vec<Array<'py>>> {
    arrays.iter().map(|array| Array::taken(array, b'f', size_of::<f64>(), PLAIN)).collect()
}

/// Works out all rows into arrays that the package has just made, and tells how many are refused. Other threads run meanwhile.
#[pyfunction]
#[pyo3(signature = (name, arrays, outputs, status, threads, /))]
pub(crate) fn _columns(
    py: Python<'_>,
    name: &str,
    arrays: Vec<Bound<'_, PyAny>>,
    outputs: Vec<Bound<'_, PyAny>>,
    status: &Bound<'_, PyAny>,
    threads: usize,
) -> PyResult<usize> {
    let (of, taken) = (border::checked(py, calculation(name))?, inputs(&arrays)?);
    let columns: Vec<Column<'_>> = taken.iter().map(Array::column).collect();
    let into = outputs.iter().map(|array| Array::taken(array, b'f', size_of::<f64>(), PLAIN | WRITEABLE));
    let into = into.collect::<PyResult<Vec<_>>>()?;
    let told = Array::taken(status, b'u', size_of::<u16>(), PLAIN | WRITEABLE)?;
    // SAFETY: the package has just made them.
    let (mut into, told) = unsafe {
        (into.iter().map(|array| array.output()).collect::<PyResult<Vec<&mut [f64]>>>()?, told.output::<u16>()?)
    };
    border::answer(py, || of.run(&columns, &mut into, Statuses::new(told).on_threads(threads)))
}

/// Raises the error of a row that is refused.
#[pyfunction]
#[pyo3(signature = (name, arrays, row, /))]
pub(crate) fn _columns_explained(
    py: Python<'_>,
    name: &str,
    arrays: Vec<Bound<'_, PyAny>>,
    row: usize,
) -> PyResult<()> {
    let taken = inputs(&arrays)?;
    let columns: Vec<Column<'_>> = taken.iter().map(Array::column).collect();
    border::checked(py, calculation(name).and_then(|of| of.explained(&columns, row)))
}

/// Adds up an as-applied log: sums, rate and ratio, points with each mark, and how many are refused.
#[pyfunction]
#[pyo3(signature = (arrays, once, tolerance_percent, standstill_m, marks, /))]
#[expect(clippy::type_complexity, reason = "the package names its parts")]
pub(crate) fn _applied(
    py: Python<'_>,
    arrays: Vec<Bound<'_, PyAny>>,
    once: bool,
    tolerance_percent: f64,
    standstill_m: f64,
    marks: &Bound<'_, PyAny>,
) -> PyResult<([f64; 4], Option<f64>, Option<f64>, [usize; 5], usize)> {
    let taken = inputs(&arrays)?;
    let columns: Vec<Column<'_>> = taken.iter().map(Array::column).collect();
    let [distance, swath, overlap, applied, target] = *columns.as_slice() else {
        return Err(PyValueError::new_err("five columns"));
    };
    let count = if once { OverlapCount::Once } else { OverlapCount::EachTime };
    let marks = Array::taken(marks, b'u', size_of::<u16>(), PLAIN | WRITEABLE)?;
    // SAFETY: the package has just made them.
    let marks = unsafe { marks.output::<u16>()? };
    let sums = border::answer(py, || {
        let tolerance = Ratio::from_percent(tolerance_percent).map_err(|error| error.at("tolerance_percent"))?;
        let standstill = Length::from_meters(standstill_m).map_err(|error| error.at("standstill_m"))?;
        let log = AppliedLog::new(distance, swath, applied, target).with_overlap(overlap, count);
        log.with_standstill(standstill).add_up(tolerance, marks)
    })?;
    let numbers = [sums.area.hectares(), sums.mix.liters(), sums.target_mix.liters(), sums.area_off_target.hectares()];
    let rate = sums.volume_rate().map(mixcalc::VolumeRate::liters_per_hectare);
    Ok((numbers, rate, sums.to_target().map(Ratio::number), sums.marked, sums.refused))
}
