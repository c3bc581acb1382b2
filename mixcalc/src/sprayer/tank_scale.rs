//! The tank's own scale: what its marks really hold, by a check.

use alloc::format;
use alloc::sync::Arc;

use super::Tank;
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Finding, FindingCode, Force, Limit};
use crate::quantity::close::{is_over, steps_down};
use crate::quantity::{Quantity, Ratio, System, Volume, not_negative, positive};
use crate::text::{self, source};
use crate::uncertainty::root_of_squares;

/// How far the scale of a new tank may be off, as a part of what it shows: 7.5 % at marks up to 20 % of nominal, 5 % above. EN 12761, as
/// carried into GOST 33037-2014, 4.1.1.4.
const OFF_LOW_PERCENT: f64 = 7.5;
const OFF_PERCENT: f64 = 5.0;
const LOW_PERCENT: f64 = 20.0;
/// A mark is read to a quarter of a graduation, as on a vessel.
const READ_TO: f64 = 0.25;
/// What may be off by `a`, one deviation as likely as another, is uncertain by the root of a third of `a^2` (JCGM 100:2008, 4.3.7).
const RECTANGLE: f64 = 3.0;
/// Coverage factor of what is stated as uncertain.
const COVERAGE: f64 = 2.0;
/// Most points of a check: far more than anybody pours.
const MOST_POINTS: usize = 1000;

/// What was in the tank when its scale was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScalePoint {
    poured: Volume,
    read: Volume,
}

impl ScalePoint {
    /// What had been poured in, in all, and what the scale then showed.
    ///
    /// # Errors
    ///
    /// At `poured`: [`NotPositive`](ErrorCode::NotPositive); at `read`: [`OutOfRange`](ErrorCode::OutOfRange) for less than nothing.
    pub fn new(poured: Volume, read: Volume) -> Result<Self, Error> {
        Ok(Self {
            poured: positive(poured).map_err(|error| error.at("poured"))?,
            read: not_negative(read).map_err(|error| error.at("read"))?,
        })
    }

    /// What had been poured in, in all.
    #[must_use]
    pub const fn poured(self) -> Volume {
        self.poured
    }

    /// What the scale showed.
    #[must_use]
    pub const fn read(self) -> Volume {
        self.read
    }
}

/// A check of a tank's scale: volumes poured in against what it showed, and how far off at most what was poured may have been.
///
/// Between two points the scale is taken as straight, and below the first as straight from the empty tank. Above the last it says nothing.
///
/// # Example
///
/// The scale shows 40 L when 42 L are in, and 80 L when 82 L are: half way between, its mark of 60 L holds 62 L.
///
/// ```
/// use mixcalc::{Ratio, ScaleCheck, ScalePoint, Volume};
///
/// let liters = |liters| Volume::from_liters(liters);
/// let points = [ScalePoint::new(liters(42.0)?, liters(40.0)?)?, ScalePoint::new(liters(82.0)?, liters(80.0)?)?];
/// let check = ScaleCheck::new(&points, Ratio::from_percent(1.0)?)?;
/// assert_eq!(check.volume_at(liters(60.0)?)?.to_string(), "62 L");
/// assert_eq!(check.mark_for(liters(62.0)?)?.to_string(), "60 L");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// `docs/numbers.md`, 23.
#[derive(Clone, Debug, PartialEq)]
pub struct ScaleCheck {
    points: Arc<[ScalePoint]>,
    tolerance: Ratio,
}

/// A straight part of a scale: the points at its ends, by their places in the check; it may begin at the empty tank.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Straight {
    pub(crate) from: Option<usize>,
    pub(crate) to: usize,
    low: (Volume, Volume),
    high: (Volume, Volume),
}

impl Straight {
    /// Volume in the tank for each volume on its scale.
    fn slope(self) -> Ratio {
        (self.high.0 - self.low.0) / (self.high.1 - self.low.1)
    }

    fn volume_at(self, mark: Volume) -> Volume {
        self.low.0 + (mark - self.low.1) * self.slope()
    }

    fn mark_for(self, volume: Volume) -> Volume {
        self.low.1 + (volume - self.low.0) / self.slope()
    }
}

impl ScaleCheck {
    /// A check by its points, in ascending order.
    ///
    /// * `tolerance`: how far off at most what was poured may have been, as a part of it: of the meter or the measure.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) without a point; [`OutOfRange`](ErrorCode::OutOfRange) for a point that is not above the one
    /// before it in both volumes, for a single one that shows nothing, for over 1000, and for a tolerance under 0 % or from 100 % on.
    pub fn new(points: &[ScalePoint], tolerance: Ratio) -> Result<Self, Error> {
        let Some(last) = points.last() else {
            return Err(Error::new(ErrorCode::MissingInput).at("points").allowed(text::SCALE_POINTS));
        };
        if points.len() > MOST_POINTS {
            let most = format_args!("{} {MOST_POINTS}", text::word("at most"));
            return Err(Error::new(ErrorCode::OutOfRange).at("points").given(points.len()).allowed(most));
        }
        let above = |index: usize, key: &str, given: Volume, before: Volume| {
            if is_over(given, before) {
                return Ok(());
            }
            let error = Error::new(ErrorCode::OutOfRange).at(format!("points[{index}].{key}")).given(given);
            Err(error.allowed(format_args!("{} {before}", text::word("above that of the point before,"))))
        };
        for (index, (before, point)) in points.iter().zip(points.iter().skip(1)).enumerate() {
            above(index + 1, "poured", point.poured, before.poured)?;
            above(index + 1, "read", point.read, before.read)?;
        }
        above(points.len() - 1, "read", last.read, Volume::ZERO)?;
        if !(tolerance >= Ratio::ZERO && tolerance < Ratio::one()) {
            let error = Error::new(ErrorCode::OutOfRange).at("tolerance").given(tolerance);
            return Err(error.allowed(text::SCALE_TOLERANCE));
        }
        Ok(Self { points: points.into(), tolerance })
    }

    /// Its points.
    #[must_use]
    pub fn points(&self) -> &[ScalePoint] {
        &self.points
    }

    /// How far off at most what was poured may have been.
    #[must_use]
    pub const fn tolerance(&self) -> Ratio {
        self.tolerance
    }

    /// What had been poured in at its last point.
    #[must_use]
    pub fn reach(&self) -> Volume {
        self.points.last().map_or(Volume::ZERO, |point| point.poured)
    }

    /// What the tank holds when its scale shows so much: straight between the points beside it.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for less than nothing, and for more than was read at the last point.
    pub fn volume_at(&self, mark: Volume) -> Result<Volume, Error> {
        let most = self.points.last().map_or(Volume::ZERO, |point| point.read);
        checked(mark, most).map(|mark| self.holds(mark)).map_err(|error| error.at("mark"))
    }

    /// What the scale shows when the tank holds so much; nothing where that is less than it begins to show at.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for less than nothing, and for more than had been poured in at the last point.
    pub fn mark_for(&self, volume: Volume) -> Result<Volume, Error> {
        checked(volume, self.reach()).map(|volume| self.shows(volume)).map_err(|error| error.at("volume"))
    }

    /// The straight parts, from the bottom up. A first point that shows nothing is where the scale begins.
    fn straights(&self) -> impl Iterator<Item = Straight> + '_ {
        let ends = |index: usize| self.points.get(index).map(|point| (point.poured, point.read));
        (0..self.points.len()).filter_map(move |to| {
            let (from, high) = (to.checked_sub(1), ends(to)?);
            let low = from.map_or(Some((Volume::ZERO, Volume::ZERO)), ends)?;
            (high.1 > low.1).then_some(Straight { from, to, low, high })
        })
    }

    /// The straight part that a mark lies on; the last where it lies above.
    pub(crate) fn straight_at(&self, mark: Volume) -> Option<Straight> {
        let mut last = None;
        for straight in self.straights() {
            last = Some(straight);
            if !is_over(mark, straight.high.1) {
                break;
            }
        }
        last
    }

    /// The straight part that a volume lies on; the last where it lies above.
    pub(crate) fn straight_for(&self, volume: Volume) -> Option<Straight> {
        let mut last = None;
        for straight in self.straights() {
            last = Some(straight);
            if !is_over(volume, straight.high.0) {
                break;
            }
        }
        last
    }

    fn holds(&self, mark: Volume) -> Volume {
        self.straight_at(mark).map_or(mark, |straight| straight.volume_at(mark)).min(self.reach())
    }

    fn shows(&self, volume: Volume) -> Volume {
        let mark = self.straight_for(volume).map_or(volume, |straight| straight.mark_for(volume));
        Volume::ZERO.max(mark)
    }

    /// The point at which the scale is off the most, held against what is allowed there of a new one, where it is off by more.
    fn worst(&self, nominal: Volume) -> Option<(ScalePoint, Ratio, Ratio)> {
        let off = |point: &ScalePoint| {
            let (off, most) = ((point.poured - point.read) / point.read, off_at_most(point.read, nominal));
            (*point, off.max(Ratio::ZERO - off), most)
        };
        let points = self.points.iter().filter(|point| point.read > Volume::ZERO).map(off);
        let wrong = points.filter(|(_, off, most)| is_over(*off, *most));
        wrong.reduce(|worst, other| if other.1 / other.2 > worst.1 / worst.2 { other } else { worst })
    }
}

fn checked(volume: Volume, most: Volume) -> Result<Volume, Error> {
    if volume >= Volume::ZERO && !is_over(volume, most) {
        return Ok(volume);
    }
    let allowed = format_args!("{} {most}", text::word("from nothing up to where the scale was checked,"));
    Err(Error::new(ErrorCode::OutOfRange).given(volume).allowed(allowed))
}

/// How far off the scale of a new tank may be at a mark, as a part of what it shows.
fn off_at_most(mark: Volume, nominal: Volume) -> Ratio {
    let is_low = !is_over(mark, nominal * Ratio::of_percent(LOW_PERCENT));
    Ratio::of_percent(if is_low { OFF_LOW_PERCENT } else { OFF_PERCENT })
}

/// A mark of the tank: what is written beside it, and what the tank then holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Mark {
    pub(crate) written: Volume,
    pub(crate) holds: Volume,
}

impl Tank {
    /// States what a check of its scale found. Steps then name the mark that really holds what is wanted, and the tank is filled no further
    /// than it was checked.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) for a tank whose graduation is not stated.
    ///
    /// # Example
    ///
    /// 16 L fill a knapsack to a mark of 15 L: its mark of 14 L then holds 14.93 L, and filled to 15 L it would be fuller than it should.
    ///
    /// ```
    /// use mixcalc::{Ratio, ScaleCheck, ScalePoint, Tank, Volume};
    ///
    /// let point = ScalePoint::new(Volume::read("16 L")?, Volume::read("15 L")?)?;
    /// let tank = Tank::of_nominal(Volume::read("15 L")?)?
    ///     .with_headspace(Ratio::ZERO)?
    ///     .with_graduation(Volume::read("1 L")?)?
    ///     .with_scale_check(ScaleCheck::new(&[point], Ratio::from_percent(1.0)?)?)?;
    /// assert_eq!(tank.safe_fill()?.to_string(), "14.93 L");
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// `docs/numbers.md`, 23.
    pub fn with_scale_check(mut self, check: ScaleCheck) -> Result<Self, Error> {
        if self.graduation.is_none() {
            let error = Error::new(ErrorCode::MissingInput).at("graduation");
            return Err(error.allowed(text::example("graduation", crate::quantity::Kind::Volume)));
        }
        self.scale_check = Some(check);
        Ok(self)
    }

    /// The check of its scale, where one is stated.
    #[must_use]
    pub const fn scale_check(&self) -> Option<&ScaleCheck> {
        self.scale_check.as_ref()
    }

    /// How uncertain a volume is that is read on the tank's scale, as a part of itself (coverage factor 2); `None` for a tank without marks.
    ///
    /// By a check: `2 sqrt((a V / sqrt(3))^2 + 2 (s g / 4)^2) / V`, with the tolerance `a` of what was poured, the graduation `g`, and the
    /// volume `s` that the tank takes for each on its scale, which is read twice: at the check and in use. Without one: what the scale of a new
    /// tank may be off, `2 a / sqrt(3)` with 7.5 % at marks up to 20 % of nominal and 5 % above.
    ///
    /// # Example
    ///
    /// ```
    /// use mixcalc::{Quantity, Tank, Volume};
    ///
    /// let tank = Tank::of_nominal(Volume::read("100 L")?)?.with_graduation(Volume::read("5 L")?)?;
    /// let read = |liters| Volume::from_liters(liters).map(|volume| tank.uncertainty(volume).map(|part| part.number() * 100.0));
    /// assert!((read(60.0)?.unwrap_or_default() - 5.7735).abs() < 1e-4);
    /// assert!((read(20.0)?.unwrap_or_default() - 8.6603).abs() < 1e-4);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// EN 12761, as carried into GOST 33037-2014, 4.1.1.4; JCGM 100:2008, 4.3.7.
    #[must_use]
    pub fn uncertainty(&self, volume: Volume) -> Option<Ratio> {
        let graduation = self.graduation?;
        if volume <= Volume::ZERO {
            return None;
        }
        let even = |off: Ratio| off * libm::sqrt(RECTANGLE).recip();
        let standard = match &self.scale_check {
            None => even(off_at_most(volume, self.declared())),
            Some(check) => {
                let read = graduation * check.straight_for(volume)?.slope() / volume * READ_TO;
                root_of_squares([even(check.tolerance), read, read].into_iter())
            }
        };
        Some(standard * COVERAGE)
    }

    /// Nominal volume, or the brim where that alone is known.
    fn declared(&self) -> Volume {
        self.nominal.or(self.brim).unwrap_or(Volume::ZERO)
    }

    /// The step of marks that hold equal volumes, as far as is known; none where a check says what each holds.
    pub(crate) const fn equal_marks(&self) -> Option<Volume> {
        match self.scale_check {
            Some(_) => None,
            None => self.graduation,
        }
    }

    /// How many of its marks a volume reaches; none without marks, or where they are too many to count.
    pub(crate) fn marks_up_to(&self, volume: Volume) -> Option<u64> {
        let shown = self.scale_check.as_ref().map_or(volume, |check| check.shows(volume));
        steps_down(shown / self.graduation?)
    }

    /// One of its marks, counted from the bottom.
    pub(crate) fn mark(&self, number: u64) -> Option<Mark> {
        let written = self.graduation? * Ratio::of_steps(number);
        let holds = self.scale_check.as_ref().map_or(written, |check| check.holds(written));
        // Where a scale begins to show above the bottom, there is something below its first mark.
        Some(Mark { written, holds: if number == 0 { Volume::ZERO } else { holds } })
    }

    /// The highest mark that a volume reaches; the bottom where it reaches none.
    pub(crate) fn mark_below(&self, volume: Volume) -> Option<Mark> {
        self.mark(self.marks_up_to(volume).unwrap_or(0))
    }

    /// What a check of the scale allows of a fill: no more than was poured.
    pub(crate) fn within_check(&self, fill: Volume) -> Volume {
        self.scale_check.as_ref().map_or(fill, |check| fill.min(check.reach()))
    }

    /// What is to be said of a check of the scale; `unchecked` is the fill that would be without it, before marks.
    pub(super) fn findings_on_scale(&self, unchecked: Volume, units: System) -> impl Iterator<Item = Finding> {
        let check = self.scale_check.as_ref();
        let off = check.and_then(|check| check.worst(self.declared())).map(|(point, off, most)| {
            let limit = Limit::new(Bound::AtMost, most, Force::Standard, source::TANK_SCALE);
            let subject = Quantity::from(point.read).to_people(units);
            Finding::new(FindingCode::TankScaleOff, "tank.scale_check", units)
                .about(&subject)
                .actual_value(off)
                .against(limit)
        });
        let short = check.filter(|check| is_over(unchecked, check.reach())).map(|check| {
            Finding::new(FindingCode::ScaleCheckShort, "tank.scale_check", units)
                .actual_value(check.reach())
                .against(Limit::fact(Bound::AtLeast, unchecked, source::JOB))
        });
        off.into_iter().chain(short)
    }
}
