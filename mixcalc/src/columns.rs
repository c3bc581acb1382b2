//! The sums of this crate over columns: numbers with their unit in their name, any number of rows, one pass over memory.
//!
//! No formula stands here. A row is worked out by the same function as the sum of one number, and is its result to the last bit.
//!
//! * An input is a [`Column`]: a number for each row, or one for all. Outputs go where the caller says.
//! * Each row has a status: 0, or the number of the [`ErrorCode`] that the sum of one number would give. A row that is refused is not a number
//!   in every output, is counted, and stops no other. [`Calculation::explained`] gives its error.
//! * Memory is the caller's: nothing as long as a column is allocated. No thread is started unless [`Statuses::on_threads`] asks for it. The
//!   processor's wide instructions are taken where it has them, and change no digit.
//!
//! # Example
//!
//! Three fields at 200 L/ha with a tank that may be filled to 95 L; the second area is no area.
//!
//! ```
//! use mixcalc::columns::{self, Column, Statuses};
//! use mixcalc::ErrorCode;
//!
//! let areas = [1.2, -1.0, 0.4];
//! let (mut mix, mut product, mut full, mut part, mut in_full, mut in_part) = ([0.0; 3], [0.0; 3], [0.0; 3], [0.0; 3], [0.0; 3], [0.0; 3]);
//! let mut status = [0; 3];
//! let refused = columns::plan(
//!     Column::Each(&areas),
//!     Column::Same(200.0),
//!     Column::Same(1.5),
//!     Column::Same(95.0),
//!     [&mut mix, &mut product, &mut full, &mut part, &mut in_full, &mut in_part],
//!     Statuses::new(&mut status),
//! )?;
//! assert_eq!((refused, status), (1, [0, ErrorCode::NotPositive.number() as u16, 0]));
//! assert_eq!((full[0], full[2]), (2.0, 0.0));
//! assert!((part[0] - 50.0).abs() < 1e-9 && (part[2] - 80.0).abs() < 1e-9);
//! assert!(part[1].is_nan());
//! # Ok::<(), mixcalc::Error>(())
//! ```

mod calculations;
mod log;

use alloc::vec::Vec;
use core::num::NonZeroUsize;
use core::ops::Range;
use std::sync::Mutex;

pub use calculations::*;
pub use log::*;

use crate::error::{Error, ErrorCode};
use crate::text;

/// Statuses that are worked out at a time: what of them is copied stays in the nearest cache.
const BLOCK: usize = 1024;

/// The numbers of an input, in the unit that its name ends in.
#[derive(Clone, Copy, Debug)]
pub enum Column<'a> {
    /// One for each row.
    Each(&'a [f64]),
    /// One for all rows.
    Same(f64),
    /// The first, and so on in steps: a field of records, a column of a table in rows.
    Stepped(&'a [f64], NonZeroUsize),
}

impl<'a> Column<'a> {
    /// How many rows it has; `None` for one number for all.
    fn rows(self) -> Option<usize> {
        match self {
            Self::Each(values) => Some(values.len()),
            Self::Same(_) => None,
            Self::Stepped(values, step) => Some(values.len().div_ceil(step.get())),
        }
    }

    /// The column of some of the rows.
    fn part(self, rows: &Range<usize>) -> Self {
        match self {
            Self::Each(values) => Self::Each(values.get(rows.clone()).unwrap_or_default()),
            Self::Same(_) => self,
            Self::Stepped(values, step) => {
                let end = values.len().min(rows.end.saturating_mul(step.get()));
                Self::Stepped(values.get(rows.start * step.get()..end).unwrap_or_default(), step)
            }
        }
    }

    /// The number of a row.
    fn at(self, row: usize) -> Option<f64> {
        match self {
            Self::Each(values) => values.get(row).copied(),
            Self::Same(value) => Some(value),
            Self::Stepped(values, step) => values.get(row.saturating_mul(step.get())).copied(),
        }
    }

    /// Its rows side by side: as they lie, or copied into `room`.
    fn block<'b>(self, rows: &Range<usize>, room: &'b mut Vec<f64>) -> &'b [f64]
    where
        'a: 'b,
    {
        match self {
            Self::Each(values) => values.get(rows.clone()).unwrap_or_default(),
            Self::Same(value) => {
                if room.is_empty() {
                    room.resize(BLOCK, value);
                }
                room.get(..rows.len()).unwrap_or_default()
            }
            Self::Stepped(values, step) => {
                room.clear();
                let from = values.get(rows.start * step.get()..).unwrap_or_default();
                room.extend(from.iter().step_by(step.get()).take(rows.len()));
                room
            }
        }
    }
}

/// The rows of a calculation: where the status of each goes, and on how many threads they are worked out.
#[derive(Debug)]
pub struct Statuses<'a> {
    status: &'a mut [u16],
    threads: usize,
}

impl<'a> Statuses<'a> {
    /// As many rows as `status` has places, on the thread of the caller.
    #[must_use]
    pub const fn new(status: &'a mut [u16]) -> Self {
        Self { status, threads: 1 }
    }

    /// Shared among so many threads, which end with the call.
    #[must_use]
    pub const fn on_threads(mut self, threads: usize) -> Self {
        self.threads = threads;
        self
    }
}

/// An input or an output of a calculation.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct Named {
    /// Its name, which ends in its unit.
    pub name: &'static str,
    /// The unit.
    pub unit: &'static str,
    /// What it is.
    pub doc: &'static str,
}

/// Works out a block of rows, and tells how many are refused.
type Kernel = fn(&[&[f64]], &mut [&mut [f64]], &mut [u16]) -> usize;

/// A calculation over columns, and what it is called in every language.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct Calculation {
    /// Its name.
    pub name: &'static str,
    /// What it answers, in a sentence.
    pub doc: &'static str,
    /// Its inputs, in their order.
    pub inputs: &'static [Named],
    /// Its outputs, in their order.
    pub outputs: &'static [Named],
    kernel: Kernel,
    explain: fn(&[f64]) -> Result<(), Error>,
}

impl Calculation {
    /// Works out all rows, and tells how many are refused.
    ///
    /// * `inputs`, `outputs`: in the order of [`inputs`](Self::inputs) and [`outputs`](Self::outputs).
    /// * `rows`: where the status of each row goes.
    ///
    /// # Errors
    ///
    /// Nothing is written then. [`OutOfRange`](ErrorCode::OutOfRange) at an input or output that has not as many rows as `rows`;
    /// [`MissingInput`](ErrorCode::MissingInput) where there are not as many of them as the calculation has.
    pub fn run(&self, inputs: &[Column<'_>], outputs: &mut [&mut [f64]], rows: Statuses<'_>) -> Result<usize, Error> {
        let count = rows.status.len();
        let given = inputs.iter().map(|input| input.rows());
        let given = given.chain(outputs.iter().map(|output| Some(output.len())));
        let named = self.inputs.iter().chain(self.outputs);
        if (inputs.len(), outputs.len()) != (self.inputs.len(), self.outputs.len()) {
            return Err(self.missing(named));
        }
        for (column, given) in named.zip(given) {
            as_long(column.name, given, count)?;
        }
        let outputs: Vec<&mut [f64]> = outputs.iter_mut().map(|output| &mut **output).collect();
        Ok(self.shared(inputs, outputs, rows))
    }

    /// The error of a row that is refused: its path is the name of the input with the row, `area_ha[17]`. `Ok` for any other row.
    ///
    /// # Errors
    ///
    /// That one; [`MissingInput`](ErrorCode::MissingInput) for a row that there is not, and where there are not as many inputs as the calculation
    /// has.
    pub fn explained(&self, inputs: &[Column<'_>], row: usize) -> Result<(), Error> {
        if inputs.len() != self.inputs.len() {
            return Err(self.missing(self.inputs.iter()));
        }
        let values: Option<Vec<f64>> = inputs.iter().map(|input| input.at(row)).collect();
        let missing = || Error::new(ErrorCode::MissingInput).at(self.name).allowed(text::word("such a row"));
        (self.explain)(&values.ok_or_else(missing)?).map_err(|error| {
            // `amount.standard_uncertainty` of a sum is `amount_standard_uncertainty_l` here.
            let (whole, first) = (error.path().replace('.', "_"), error.path().split('.').next().unwrap_or_default());
            let named =
                |path: &str| self.inputs.iter().find(|input| input.name == path || is_unit_of(input.name, path));
            let name = named(&whole).or_else(|| named(first)).map_or(self.name, |input| input.name);
            error.placed(format_args!("{name}[{row}]"))
        })
    }

    /// Not as many columns as the calculation has.
    fn missing<'n>(&self, all: impl Iterator<Item = &'n Named>) -> Error {
        let all = all.map(|column| column.name).collect::<Vec<_>>().join(", ");
        Error::new(ErrorCode::MissingInput).at(self.name).allowed(all)
    }

    /// On as many threads as asked; what a thread cannot be had for is worked out here.
    fn shared(&self, inputs: &[Column<'_>], outputs: Vec<&mut [f64]>, rows: Statuses<'_>) -> usize {
        let Statuses { status, threads } = rows;
        let blocks = status.len().div_ceil(BLOCK);
        let own = blocks.div_ceil(threads.clamp(1, blocks.max(1))).saturating_mul(BLOCK).min(status.len());
        if own == status.len() {
            return self.worked_out(inputs, outputs, status);
        }
        let (mut here, mut rest) = (Vec::new(), Vec::new());
        for output in outputs {
            let (first, others) = output.split_at_mut(own);
            here.push(first);
            rest.push(others);
        }
        let (first, others) = status.split_at_mut(own);
        let parts = |rows: Range<usize>| inputs.iter().map(|input| input.part(&rows)).collect::<Vec<_>>();
        let (own_inputs, other_inputs) = (parts(0..own), parts(own..own + others.len()));
        // Whoever comes first takes the other rows: the new thread, or this one where no thread is to be had.
        let left = Mutex::new(Some((rest, Statuses { status: others, threads: threads - 1 })));
        let others = || {
            let taken = left.lock().ok().and_then(|mut left| left.take());
            taken.map_or(0, |(rest, rows)| self.shared(&other_inputs, rest, rows))
        };
        std::thread::scope(|scope| {
            let there = std::thread::Builder::new().spawn_scoped(scope, others);
            let refused = self.worked_out(&own_inputs, here, first);
            refused + there.map_or_else(|_| others(), |there| there.join().unwrap_or(0))
        })
    }

    /// Block by block.
    fn worked_out(&self, inputs: &[Column<'_>], outputs: Vec<&mut [f64]>, status: &mut [u16]) -> usize {
        let mut rooms: Vec<Vec<f64>> = inputs.iter().map(|_| Vec::new()).collect();
        let mut outputs: Vec<_> = outputs.into_iter().map(|output| output.chunks_mut(BLOCK)).collect();
        let (mut from, mut refused) = (0, 0);
        for status in status.chunks_mut(BLOCK) {
            let rows = from..from + status.len();
            let block: Vec<&[f64]> =
                inputs.iter().zip(&mut rooms).map(|(input, room)| input.block(&rows, room)).collect();
            let mut into: Vec<&mut [f64]> = outputs.iter_mut().filter_map(Iterator::next).collect();
            refused += (self.kernel)(&block, &mut into, status);
            from = rows.end;
        }
        refused
    }
}

/// The calculation of a name.
///
/// # Errors
///
/// [`UnknownChoice`](ErrorCode::UnknownChoice) where there is none.
pub fn calculation(name: &str) -> Result<&'static Calculation, Error> {
    calculations().find(|of| of.name == name).ok_or_else(|| {
        let names = calculations().map(|of| of.name).collect::<Vec<_>>().join(", ");
        Error::new(ErrorCode::UnknownChoice).at("calculation").given(name).allowed(names)
    })
}

/// Whether a column has as many rows as there are, or one number for all.
fn as_long(name: &str, given: Option<usize>, count: usize) -> Result<(), Error> {
    let Some(given) = given.filter(|given| *given != count) else { return Ok(()) };
    let (error, rows) = (Error::new(ErrorCode::OutOfRange).at(name), text::word("rows"));
    Err(error.given(format_args!("{given} {rows}")).allowed(format_args!("{count} {rows}")))
}

/// Whether a name is a path with a unit at its end.
fn is_unit_of(name: &str, path: &str) -> bool {
    !path.is_empty() && name.strip_prefix(path).is_some_and(|unit| unit.starts_with('_'))
}
