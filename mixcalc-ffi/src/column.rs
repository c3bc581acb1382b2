//! What every function over columns does: rows in, rows out, by the core's list of calculations.

use std::ffi::c_char;
use std::num::NonZeroUsize;

use mixcalc::columns::{Calculation, Column, Statuses};

use crate::border::answer;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::handle::{list, room};
use crate::text;

/// The numbers of an input, in the unit that its name ends in. This struct never changes.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct ColumnView {
    /// The number of the first row.
    pub values: *const f64,
    /// How many numbers further the next row stands: 1 where they lie side by side, 0 for one number for all rows.
    pub step: usize,
}

/// Where the numbers of an output go, by its name.
pub(crate) type Output = (&'static str, *mut f64);

impl ColumnView {
    /// As the core takes it, as long as the caller keeps its numbers.
    ///
    /// `values` is NULL or points at the numbers of so many rows.
    unsafe fn column<'a>(self, name: &str, rows: usize) -> Result<Column<'a>, Box<Failure>> {
        let count = match (rows, self.step) {
            (0, _) => 0,
            (_, 0) => 1,
            (_, step) => (rows - 1).saturating_mul(step).saturating_add(1),
        };
        // SAFETY: the caller's promise.
        let values = unsafe { list(name, self.values, count)? };
        Ok(match (values, NonZeroUsize::new(self.step)) {
            ([value], None) => Column::Same(*value),
            (_, Some(step)) if step.get() > 1 => Column::Stepped(values, step),
            _ => Column::Each(values),
        })
    }
}

/// The body of a function over columns.
///
/// Every pointer is NULL or points at as much as `rows` says, apart from all others.
pub(crate) unsafe fn run(
    name: &str,
    inputs: &[ColumnView],
    rows: usize,
    threads: usize,
    outputs: &[Output],
    (status, refused): (*mut u16, *mut usize),
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let refused = room("out_refused", refused)?;
        let of = mixcalc::columns::calculation(name)?;
        // SAFETY: the caller's promise, here and below.
        let columns = unsafe { columns(of, inputs, rows)? };
        let mut into = Vec::with_capacity(outputs.len());
        for (name, start) in outputs {
            into.push(unsafe { list_to_write(name, *start, rows)? });
        }
        let status = unsafe { list_to_write("out_status", status, rows)? };
        let count = of.run(&columns, &mut into, Statuses::new(status).on_threads(threads))?;
        unsafe { refused.write(count) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// Inputs as the core takes them, each by its name.
unsafe fn columns<'a>(of: &Calculation, inputs: &[ColumnView], rows: usize) -> Result<Vec<Column<'a>>, Box<Failure>> {
    // One too many is the core's to refuse.
    let names = of.inputs.iter().map(|named| named.name).chain(std::iter::repeat(of.name));
    // SAFETY: the caller's promise.
    inputs.iter().zip(names).map(|(input, name)| unsafe { input.column(name, rows) }).collect()
}

/// Room for so many items in the caller's `parameter`; without items it may be NULL.
unsafe fn list_to_write<'a, T>(parameter: &str, start: *mut T, count: usize) -> Result<&'a mut [T], Box<Failure>> {
    if count == 0 {
        return Ok(&mut []);
    }
    let start = room(parameter, start)?;
    if count > isize::MAX.unsigned_abs() / size_of::<T>().max(1) {
        return Err(Failure::length("rows", count));
    }
    // SAFETY: neither NULL nor too long, as just checked; the rest is the caller's promise.
    Ok(unsafe { std::slice::from_raw_parts_mut(start, count) })
}

/// Why a row of a function over columns was refused: the error of its sum, whose path is the name of the input with
/// the row in brackets behind it.
///
/// calculation    name of the function after mixcalc_columns_, such as "mix"
/// inputs         its inputs, in its order
/// inputs_count   how many
/// rows           how many rows they have
/// row            which, from 0
/// error          may be NULL; receives the sentence
///
/// Returns the status of the row, MIXCALC_STATUS_OK where it is not refused; MIXCALC_STATUS_NULL_POINTER (calculation, inputs), _LENGTH (inputs),
/// _INDEX (row), _UNKNOWN_CHOICE (calculation), _MISSING_INPUT (inputs), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_explain(
    calculation: *const c_char,
    inputs: *const ColumnView,
    inputs_count: usize,
    rows: usize,
    row: usize,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise, here and below.
        let of = mixcalc::columns::calculation(&unsafe { text::word("calculation", calculation)? })?;
        let inputs = unsafe { list("inputs", inputs, inputs_count)? };
        if row >= rows {
            return Err(Failure::index("row", row, rows));
        }
        let columns = unsafe { columns(of, inputs, rows)? };
        Ok(of.explained(&columns, row)?)
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}
