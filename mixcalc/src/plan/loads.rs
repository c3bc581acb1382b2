//! Dividing the mix into loads that never pass the safe fill.

use alloc::vec::Vec;

use super::job::{Job, LastStrip, Split};
use crate::error::{Error, ErrorCode};
use crate::quantity::checks::{Checks, answered};
use crate::quantity::close::{is_close, is_under, steps_down, steps_in_difference, whole_down, whole_up};
use crate::quantity::{Area, Ratio, Volume, VolumeRate, significant};
use crate::text;

/// Most loads of one plan.
const MOST_LOADS: f64 = 1e11;

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
        let Some(wanted) = job.loading().last_strip() else {
            return Ok(None);
        };
        let held_back = match wanted {
            LastStrip::Volume(volume) => volume,
            LastStrip::Area(area) => Volume::ZERO.max(rate * area - residual),
        };
        let strip = Self { held_back, area: (held_back + residual) / rate };
        if is_under(strip.area, job.area()) {
            Ok(Some(strip))
        } else {
            let error = Error::new(ErrorCode::StripCoversJob).at("loading.last_strip");
            Err(error.given(strip.area).allowed(job.area()))
        }
    }
}

/// How the volume of a run came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Cut {
    /// Filled to the safe fill.
    Full,
    /// An equal part.
    EqualPart,
    /// Whole marks: an equal part of them, rounded up.
    MoreMarks,
    /// Whole marks: an equal part of them, rounded down.
    FewerMarks,
    /// What the loads before leave.
    Rest,
}

/// Equal loads that follow each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Run {
    pub(crate) volume: Volume,
    pub(crate) count: u64,
    pub(crate) cut: Cut,
}

/// A volume of mix as full loads, and loads that share what is left as evenly as they can.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Division {
    pub(crate) full: u64,
    pub(crate) shared: Volume,
    pub(crate) sharing: u64,
    pub(crate) runs: Vec<Run>,
}

/// Full loads, and the volume of the part load after them, zero where there is none: `steps_down(V / U)`, and `V - n * U`.
///
/// * `mix` (V): finished mix.
/// * `safe_fill` (U): the most that the tank may be filled to.
///
/// # Errors
///
/// [`NotPositive`](ErrorCode::NotPositive) for an input that is not above zero; [`OutOfRange`](ErrorCode::OutOfRange) for a size that nobody
/// measures; [`TooManyLoads`](ErrorCode::TooManyLoads) for over 1e11 loads.
///
/// # Example
///
/// 240 L in a tank that may be filled to 95 L: two full loads and one of 50 L.
///
/// ```
/// use mixcalc::{Volume, full_and_part_load};
///
/// let (full, part) = full_and_part_load(Volume::read("240 L")?, Volume::read("95 L")?)?;
/// assert_eq!((full, part.to_string()), (2, "50 L".into()));
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// `docs/numbers.md`, sections 1 and 5: without marks and without a least working volume.
pub fn full_and_part_load(mix: Volume, safe_fill: Volume) -> Result<(u64, Volume), Error> {
    let (full, part) = answered(|checks| formula::full_and_part_load(checks, mix, safe_fill))?;
    Ok((steps_down(full).unwrap_or(0), part))
}

/// The formulas, each for one number and for a column.
pub(crate) mod formula {
    use super::{Checks, Ratio, Volume, counted, left_of};

    #[inline(always)]
    pub(crate) fn full_and_part_load(checks: &mut impl Checks, mix: Volume, safe_fill: Volume) -> (Ratio, Volume) {
        let (mix, safe_fill) = (checks.divisor(mix, "mix"), checks.divisor(safe_fill, "safe_fill"));
        full_and_part(checks, mix, safe_fill, "mix")
    }

    /// Full loads and the part load of a mix; `of` is the input that gives too many.
    #[inline(always)]
    pub(in crate::plan) fn full_and_part(
        checks: &mut impl Checks,
        mix: Volume,
        safe_fill: Volume,
        of: &'static str,
    ) -> (Ratio, Volume) {
        let (count, full) = counted(checks, mix, safe_fill, of);
        let part = left_of(mix, safe_fill * full).min(safe_fill);
        (full, if count > full { part } else { Volume::ZERO })
    }
}

/// How many loads a volume of mix takes, and how many of them are full.
#[inline(always)]
fn counted(checks: &mut impl Checks, mix: Volume, safe_fill: Volume, of: &'static str) -> (Ratio, Ratio) {
    let loads = mix / safe_fill;
    let count = whole_up(loads);
    checks.must(count.number() <= MOST_LOADS, ErrorCode::TooManyLoads, |error| {
        error.at(of).given(significant(loads.number(), 4)).allowed(text::word("1e11"))
    });
    (count, whole_down(loads))
}

/// What loads leave of a mix; the difference of two large volumes carries their rounding, and is none where it would be below nothing.
#[inline(always)]
fn left_of(mix: Volume, taken: Volume) -> Volume {
    Volume::ZERO.max(mix - taken)
}

/// Divides a volume of mix into loads.
pub(crate) fn divided(mix: Volume, safe_fill: Volume, job: &Job) -> Result<Division, Error> {
    let (count, full) = answered(|checks| counted(checks, mix, safe_fill, "area"))?;
    let [count, full] = [count, full].map(|loads| steps_down(loads).unwrap_or(0));
    let left = |loads| InMarks::left_of(mix, safe_fill * Ratio::of_steps(loads), job.tank().equal_marks());
    let least = job.tank().least_working_volume();
    let is_too_small = |part: Volume| least.is_some_and(|least| is_under(part, least));
    let full = match job.loading().split() {
        Split::Even => 0,
        Split::FullThenPart if count > full && full >= 1 && is_too_small(left(full).volume()) => full - 1,
        Split::FullThenPart => full,
    };
    let (shared, sharing) = (left(full), count - full);
    let mut runs = Runs { safe_fill, runs: Vec::with_capacity(3) };
    runs.push(safe_fill, full, Cut::Full);
    runs.push_even(shared, sharing);
    Ok(Division { full, shared: shared.volume(), sharing, runs: runs.runs })
}

/// A volume as whole marks of the tank and a rest below a mark.
#[derive(Clone, Copy)]
struct InMarks {
    /// The step of the marks; none on a tank without.
    graduation: Option<Volume>,
    marks: u64,
    rest: Volume,
}

impl InMarks {
    /// What is left of a volume. Whether it stands on a mark is judged at the scale of both volumes, whose rounding it carries.
    fn left_of(mix: Volume, taken: Volume, graduation: Option<Volume>) -> Self {
        let volume = left_of(mix, taken);
        let Some(step) = graduation else {
            return Self { graduation, marks: 0, rest: volume };
        };
        let (marks, is_on_mark) = steps_in_difference(volume / step, mix / step).unwrap_or((0, false));
        let rest = if is_on_mark { Volume::ZERO } else { volume - step * Ratio::of_steps(marks) };
        Self { graduation, marks, rest }
    }

    fn to_mark(self, marks: u64) -> Volume {
        self.graduation.map_or(Volume::ZERO, |step| step * Ratio::of_steps(marks))
    }

    fn volume(self) -> Volume {
        self.to_mark(self.marks) + self.rest
    }
}

struct Runs {
    safe_fill: Volume,
    runs: Vec<Run>,
}

impl Runs {
    /// Adds equal loads. A load that is close to the safe fill has the safe fill's own value, and none is over it.
    fn push(&mut self, volume: Volume, count: u64, cut: Cut) {
        if count == 0 {
            return;
        }
        let volume = if is_close(volume, self.safe_fill) { self.safe_fill } else { volume.min(self.safe_fill) };
        match self.runs.last_mut() {
            Some(last) if is_close(last.volume, volume) => last.count += count,
            _ => self.runs.push(Run { volume, count, cut }),
        }
    }

    /// As equal as the tank's marks allow: whole marks are apportioned, and the last load takes what is below a mark.
    fn push_even(&mut self, mix: InMarks, count: u64) {
        if count <= 1 {
            return self.push(mix.volume(), count, Cut::Rest);
        }
        if mix.graduation.is_none() {
            return self.push(mix.rest / Ratio::of_steps(count), count, Cut::EqualPart);
        }
        let (each, larger) = (mix.marks / count, mix.marks % count);
        self.push(mix.to_mark(each + 1), larger, Cut::MoreMarks);
        self.push(mix.to_mark(each), count - larger - 1, Cut::FewerMarks);
        self.push(mix.to_mark(each) + mix.rest, 1, Cut::Rest);
    }
}
