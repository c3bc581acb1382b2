//! Dividing the mix into loads that never pass the safe fill.

use alloc::vec::Vec;

use super::job::{Job, LastStrip, Split};
use crate::error::{Error, ErrorCode};
use crate::quantity::close::{is_close, is_over, is_under, steps_down, steps_up};
use crate::quantity::{Area, Ratio, Volume, VolumeRate};
use crate::text;

/// Most loads of one plan.
const MOST_LOADS: u64 = 100_000_000_000;

/// What is held back for a last strip, and the ground that it leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    held_back: Volume,
    area: Area,
}

impl Strip {
    /// Mix that is not made.
    #[must_use]
    pub const fn held_back(self) -> Volume {
        self.held_back
    }

    /// Ground left untreated: by the mix that is held back, and by what stays in the sprayer.
    #[must_use]
    pub const fn area(self) -> Area {
        self.area
    }

    /// The strip of a job, where it keeps one.
    pub(crate) fn of(job: &Job, rate: VolumeRate, residual: Volume) -> Result<Option<Self>, Error> {
        let Some(wanted) = job.last_strip() else {
            return Ok(None);
        };
        let held_back = match wanted {
            LastStrip::Volume(volume) => volume,
            LastStrip::Area(area) => Volume::ZERO.max(rate * area - residual),
        };
        let strip = Self {
            held_back,
            area: (held_back + residual) / rate,
        };
        if is_under(strip.area, job.area()) {
            Ok(Some(strip))
        } else {
            let error = Error::new(ErrorCode::StripCoversJob).at("loading.last_strip");
            Err(error.given(strip.area).allowed(job.area()))
        }
    }
}

/// Equal loads that follow each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Run {
    pub(crate) volume: Volume,
    pub(crate) count: u64,
}

/// Divides a volume of mix into loads.
pub(crate) fn divided(mix: Volume, safe_fill: Volume, job: &Job) -> Result<Vec<Run>, Error> {
    let loads = mix / safe_fill;
    let too_many = || {
        let error = Error::new(ErrorCode::TooManyLoads).at("area");
        error
            .given(crate::quantity::significant(loads.number(), 4))
            .allowed(text::word("1e11"))
    };
    let count = steps_up(loads)
        .filter(|count| *count <= MOST_LOADS)
        .ok_or_else(too_many)?;
    let divider = Divider {
        safe_fill,
        graduation: job.tank().graduation(),
    };
    let mut runs = Vec::with_capacity(3);
    match job.split() {
        Split::Even => divider.even(mix, count, &mut runs),
        Split::FullThenPart => {
            let full = steps_down(loads).unwrap_or(count);
            let part = mix - safe_fill * Ratio::of_steps(full);
            let too_small = |least| count > full && is_under(part, least);
            match job.tank().least_working_volume() {
                Some(least) if full >= 1 && too_small(least) => {
                    divider.push(safe_fill, full - 1, &mut runs);
                    divider.even(safe_fill + part, 2, &mut runs);
                }
                _ => {
                    divider.push(safe_fill, full, &mut runs);
                    divider.push(part, count - full, &mut runs);
                }
            }
        }
    }
    Ok(runs)
}

#[derive(Clone, Copy)]
struct Divider {
    safe_fill: Volume,
    graduation: Option<Volume>,
}

impl Divider {
    /// Adds equal loads. A load that is close to the safe fill has the safe fill's own value, and none is over it.
    fn push(self, volume: Volume, count: u64, runs: &mut Vec<Run>) {
        if count == 0 {
            return;
        }
        let volume = if is_close(volume, self.safe_fill) {
            self.safe_fill
        } else {
            volume.min(self.safe_fill)
        };
        match runs.last_mut() {
            Some(last) if is_close(last.volume, volume) => last.count += count,
            _ => runs.push(Run { volume, count }),
        }
    }

    /// As equal as the tank's marks allow: whole marks are apportioned, and the last load takes what is below a mark.
    fn even(self, mix: Volume, count: u64, runs: &mut Vec<Run>) {
        let Some(graduation) = self.graduation else {
            return self.push(mix / Ratio::of_steps(count), count, runs);
        };
        let to_mark = |marks: u64| graduation * Ratio::of_steps(marks);
        let marks = steps_down(mix / graduation).unwrap_or(0);
        let (each, larger) = (marks / count, marks % count);
        let rest = if is_over(mix, to_mark(marks)) {
            mix - to_mark(marks)
        } else {
            Volume::ZERO
        };
        self.push(to_mark(each + 1), larger, runs);
        self.push(to_mark(each), count - larger - 1, runs);
        self.push(to_mark(each) + rest, 1, runs);
    }
}
