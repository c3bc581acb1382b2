//! As-applied logs: what the points of a log add up to, by ground and not by point, and which of them to look at.

use super::{BLOCK, Column, Statuses, applied_point, as_long};
use crate::error::Error;
#[cfg(doc)]
use crate::error::ErrorCode;
use crate::quantity::close::{is_over, is_under};
use crate::quantity::{Area, Length, Ratio, Volume, VolumeRate};

/// What a point of an as-applied log is. Its number is its mark in [`AppliedLog::add_up`]; numbers from 100 on are those of an
/// [`ErrorCode`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u16)]
pub enum PointMark {
    /// Within the tolerance of the target.
    OnTarget = 0,
    /// Further from the target than the tolerance.
    OffTarget = 1,
    /// The same, without a break since the first point, or since a point that stands still or is closed: a pass begins.
    StartUp = 2,
    /// The machine stands still, so that its rate says nothing.
    Standstill = 3,
    /// The boom is closed: no swath.
    Closed = 4,
}

impl PointMark {
    /// Its number, which never changes.
    #[must_use]
    pub const fn number(self) -> u16 {
        self as u16
    }
}

/// How ground that is treated more than once counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OverlapCount {
    /// Once: what is treated is ground, and more mix than its target goes on the overlap.
    Once,
    /// Each time that a swath goes over it: what is treated is distance times swath.
    EachTime,
}

/// The columns of an as-applied log, a point for each row.
#[derive(Clone, Copy, Debug)]
pub struct AppliedLog<'a> {
    distance_m: Column<'a>,
    swath_m: Column<'a>,
    overlap_m: Column<'a>,
    applied_l_per_ha: Column<'a>,
    target_l_per_ha: Column<'a>,
    count: OverlapCount,
    standstill: Length,
}

/// What an as-applied log adds up to: what [`AppliedLog::add_up`] answers.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct AppliedTotals {
    /// Ground treated.
    pub area: Area,
    /// Mix that went on it.
    pub mix: Volume,
    /// Mix that the target asks for on that ground.
    pub target_mix: Volume,
    /// Of the ground, what points treat that are marked [`OffTarget`](PointMark::OffTarget) or [`StartUp`](PointMark::StartUp).
    pub area_off_target: Area,
    /// Points with each mark, in the order of their numbers.
    pub marked: [usize; 5],
    /// Points that are refused: they count for nothing.
    pub refused: usize,
}

impl AppliedTotals {
    /// The volume rate over all ground treated: mix over area, not the mean of the points. `None` where no ground is treated.
    #[must_use]
    pub fn volume_rate(&self) -> Option<VolumeRate> {
        (self.area > Area::ZERO).then(|| (self.mix / self.area).as_volume_rate())
    }

    /// Mix over the mix that the target asks for: the ratio to target by ground, not the mean of the points. `None` where no ground is
    /// treated.
    #[must_use]
    pub fn to_target(&self) -> Option<Ratio> {
        (self.target_mix > Volume::ZERO).then(|| self.mix / self.target_mix)
    }
}

impl<'a> AppliedLog<'a> {
    /// A log without overlap, or with its overlap counted each time; only a point that does not move stands still.
    ///
    /// * `distance_m`: travelled since the point before, m.
    /// * `swath_m`: width of the open sections, m; 0 where the boom is closed.
    /// * `applied_l_per_ha`: volume rate over the swath, as logged, L/ha.
    /// * `target_l_per_ha`: volume rate that was asked for, L/ha, above 0.
    #[must_use]
    pub const fn new(
        distance_m: Column<'a>,
        swath_m: Column<'a>,
        applied_l_per_ha: Column<'a>,
        target_l_per_ha: Column<'a>,
    ) -> Self {
        let (overlap_m, count, standstill) = (Column::Same(0.0), OverlapCount::EachTime, Length::ZERO);
        Self { distance_m, swath_m, overlap_m, applied_l_per_ha, target_l_per_ha, count, standstill }
    }

    /// With what of each swath lies on ground that was treated before, in metres, and how such ground counts. Where swaths lie is
    /// for whoever has their positions.
    #[must_use]
    pub const fn with_overlap(self, overlap_m: Column<'a>, count: OverlapCount) -> Self {
        Self { overlap_m, count, ..self }
    }

    /// A point that travels no further than this stands still: positions wander where a machine does not. It still counts by its ground.
    #[must_use]
    pub const fn with_standstill(self, distance: Length) -> Self {
        Self { standstill: distance, ..self }
    }

    /// Adds up all points, each by the ground that it treats, and marks them.
    ///
    /// Sums are compensated, so that a long log is as exact as a short one.
    ///
    /// * `tolerance`: how far a rate may be off its target, as a part of the target.
    /// * `marks`: where the mark of each point goes: the number of a [`PointMark`], or of the [`ErrorCode`] that
    ///   [`applied_point()`](crate::applied_point) gives.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) at a column that has not as many rows as `marks`; at `tolerance` where it is below 0 %; at
    /// `standstill` where that is below zero.
    ///
    /// # Example
    ///
    /// Four points of 10 m at a swath of 24 m, target 100 L/ha; the pass begins at 180 L/ha, and the machine stands still before the last.
    /// 0.072 ha, (180 + 104 + 96) L/ha times 0.024 ha = 9.12 L, which is 126.7 % of 7.2 L.
    ///
    /// ```
    /// use mixcalc::Ratio;
    /// use mixcalc::columns::{AppliedLog, Column};
    ///
    /// let (distances, rates) = ([10.0, 10.0, 0.0, 10.0], [180.0, 104.0, 40.0, 96.0]);
    /// let log = AppliedLog::new(Column::Each(&distances), Column::Same(24.0), Column::Each(&rates), Column::Same(100.0));
    /// let mut marks = [0; 4];
    /// let applied = log.add_up(Ratio::from_percent(10.0)?, &mut marks)?;
    /// assert_eq!((marks, applied.marked), ([2, 0, 3, 0], [2, 0, 1, 1, 0]));
    /// assert_eq!((applied.area.to_string(), applied.mix.to_string()), ("720 m2".into(), "9.12 L".into()));
    /// assert!(applied.to_target().is_some_and(|ratio| (ratio.percent() - 126.667).abs() < 1e-3));
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// Definition.
    pub fn add_up(&self, tolerance: Ratio, marks: &mut [u16]) -> Result<AppliedTotals, Error> {
        crate::quantity::factor(tolerance, "tolerance")?;
        crate::quantity::factor(self.standstill, "standstill")?;
        for (column, name) in self.named() {
            as_long(name, column.rows(), marks.len())?;
        }
        let mut room = [[0.0; BLOCK]; 4];
        let (mut sums, mut off_target) = ([Sum::default(); 3], Sum::default());
        let (mut marked, mut refused, mut begins) = ([0; 5], 0, true);
        for (block, marks) in marks.chunks_mut(BLOCK).enumerate() {
            let rows = block * BLOCK..block * BLOCK + marks.len();
            let overlap = match self.count {
                OverlapCount::Once => self.overlap_m.part(&rows),
                OverlapCount::EachTime => Column::Same(0.0),
            };
            let [distance, swath] = [self.distance_m.part(&rows), self.swath_m.part(&rows)];
            let outputs = room.each_mut().map(|room| room.get_mut(..marks.len()).unwrap_or_default());
            let rates = (self.applied_l_per_ha.part(&rows), self.target_l_per_ha.part(&rows));
            refused += applied_point(distance, swath, overlap, rates.0, rates.1, outputs, Statuses::new(marks))?;
            let [areas, mixes, targets, ratios] = &room;
            let points = areas.iter().zip(mixes).zip(targets).zip(ratios).zip(marks).enumerate();
            for (row, ((((area, mix), target), ratio), mark)) in points {
                if *mark != 0 {
                    continue;
                }
                for (sum, value) in sums.iter_mut().zip([area, mix, target]) {
                    sum.add(*value);
                }
                let point = self.mark(distance.at(row), swath.at(row), *ratio, tolerance, begins)?;
                begins = !matches!(point, PointMark::OnTarget | PointMark::OffTarget);
                if matches!(point, PointMark::OffTarget | PointMark::StartUp) {
                    off_target.add(*area);
                }
                *mark = point.number();
                if let Some(count) = marked.get_mut(usize::from(*mark)) {
                    *count += 1;
                }
            }
        }
        let [area, mix, target_mix] = sums.map(Sum::value);
        Ok(AppliedTotals {
            area: Area::from_hectares(area)?,
            mix: Volume::from_liters(mix)?,
            target_mix: Volume::from_liters(target_mix)?,
            area_off_target: Area::from_hectares(off_target.value())?,
            marked,
            refused,
        })
    }

    /// What a sound point is; `begins` says whether nothing was on target, or off it in another way, since a pass began.
    fn mark(
        &self,
        distance: Option<f64>,
        swath: Option<f64>,
        ratio: f64,
        tolerance: Ratio,
        begins: bool,
    ) -> Result<PointMark, Error> {
        let [distance, swath] = [distance, swath].map(|meters| Length::from_meters(meters.unwrap_or_default()));
        let (ratio, one) = (Ratio::from_number(ratio)?, Ratio::one());
        let is_off = is_over(ratio, one + tolerance) || is_under(ratio + tolerance, one);
        Ok(if !is_over(distance?, self.standstill) {
            PointMark::Standstill
        } else if swath? == Length::ZERO {
            PointMark::Closed
        } else if !is_off {
            PointMark::OnTarget
        } else if begins {
            PointMark::StartUp
        } else {
            PointMark::OffTarget
        })
    }

    fn named(&self) -> [(Column<'a>, &'static str); 5] {
        [
            (self.distance_m, "distance_m"),
            (self.swath_m, "swath_m"),
            (self.overlap_m, "overlap_m"),
            (self.applied_l_per_ha, "applied_l_per_ha"),
            (self.target_l_per_ha, "target_l_per_ha"),
        ]
    }
}

/// A sum and what its roundings lost, by Neumaier, Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen, 1974.
#[derive(Clone, Copy, Default)]
struct Sum {
    sum: f64,
    lost: f64,
}

impl Sum {
    fn add(&mut self, value: f64) {
        let sum = self.sum + value;
        let (large, small) = if self.sum >= value { (self.sum, value) } else { (value, self.sum) };
        self.lost += (large - sum) + small;
        self.sum = sum;
    }

    fn value(self) -> f64 {
        self.sum + self.lost
    }
}
