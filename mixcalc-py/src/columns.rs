//! Columns of numpy: the core reads and writes where the arrays lie.
//!
//! Arrays are taken by numpy's array interface, a capsule that each array hands out: the stable ABI of Python 3.10 has no buffers, and a
//! crate for numpy would bring more than these fields.

use std::ffi::{c_char, c_int, c_void};
use std::num::NonZeroUsize;
use std::slice;

use mixcalc::columns::{Calculation, Column, Statuses, calculations};
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

fn named(name: &str) -> PyResult<&'static Calculation> {
    calculations().find(|of| of.name == name).ok_or_else(|| PyValueError::new_err(name.to_owned()))
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
    let (of, taken) = (named(name)?, inputs(&arrays)?);
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
    border::checked(py, named(name)?.explained(&columns, row))
}
