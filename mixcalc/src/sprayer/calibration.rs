//! Calibration: what a sprayer really puts out per area, from whatever was measured, with its uncertainty and its working.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::nozzle::above_zero;
use super::record::CalibrationRecord;
use super::setting::{Difference, Setting};
use crate::error::{Error, ErrorCode};
use crate::quantity::checks::answered;
use crate::quantity::close::is_over;
use crate::quantity::{
    AdditiveKind, Area, Density, Flow, Length, Mass, Ratio, Speed, Temperature, Time, Volume, VolumePerArea,
    VolumeRate, WorkRate, not_negative, positive,
};

use crate::text::{self, working as words};
use crate::uncertainty::{Interval, Uncertain};
use crate::working::{Worked, Working};

/// A measured volume rate: the value with its uncertainty, how it was reached, and what it holds for.
///
/// There is a constructor for each way to measure, named after what is measured. Each takes uncertain values. What two of them depend on, such as one
/// stopwatch, is an input of one name in both, and counts once.
///
/// # Example
///
/// Three catches of 30 s from one nozzle, caught over 0.5 m at 8 km/h: 1.2 L/min, so 600 x 1.2 / (8 x 0.5) = 180 L/ha.
///
/// ```
/// use mixcalc::{Calibration, Flow, Length, Ratio, Speed, Uncertain};
///
/// let catches = [Flow::read("1.19 L/min")?, Flow::read("1.2 L/min")?, Flow::read("1.21 L/min")?];
/// let flow = Uncertain::from_repeats("catches", &catches)?;
/// let speed = Uncertain::from_tolerance("speed", Speed::read("8 km/h")?, Speed::read("0.1 km/h")?)?;
/// let spacing = Uncertain::exact(Length::read("0.5 m")?)?;
/// let calibration = Calibration::from_flow(&flow, &speed, &spacing)?;
/// assert!((calibration.volume_rate().value().liters_per_hectare() - 180.0).abs() < 1e-9);
/// assert_eq!(calibration.working().formula(), "Q / (v * w)");
/// assert_eq!(calibration.volume_rate().contributions()[0].name(), "speed");
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Calibration {
    volume_rate: Uncertain<VolumeRate>,
    working: Working,
    /// The formula of the working, in which each input stands as `symbol@place`.
    formula: Arc<str>,
    setting: Option<Setting>,
}

/// Which alleys of an orchard are driven, and what is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Alleys {
    /// Each alley once, with everything open that the flow is of. With one side open, one side of each row is treated.
    Each,
    /// Each alley twice, once for each side of it: with one side open, both sides of every row are treated.
    EachTwice,
    /// Every other alley: each pass has two rows' width of ground.
    EveryOther,
}

impl Alleys {
    /// All of them.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::Each, Self::EachTwice, Self::EveryOther]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Each => "each",
            Self::EachTwice => "each-twice",
            Self::EveryOther => "every-other",
        }
    }

    /// How often an alley is driven.
    pub(super) fn passes(self) -> Ratio {
        Ratio::one()
            * match self {
                Self::Each => 1.0,
                Self::EachTwice => 2.0,
                Self::EveryOther => 0.5,
            }
    }
}

/// The rates of a banded treatment.
#[derive(Clone, Debug, PartialEq)]
pub struct Banded {
    /// Volume of mix per area of treated band: what most label doses are on.
    pub band: Calibration,
    /// Volume of mix per area of field: what the tank is filled for.
    pub field: Calibration,
}

/// Refuses inputs that are not above zero, each at its own name.
macro_rules! above_zero {
    ($($name:ident),*) => { $(above_zero($name, stringify!($name))?;)* };
}

impl Calibration {
    /// From a rate that was reached by a formula in which each input stands as `symbol@place`.
    fn reached(volume_rate: Uncertain<VolumeRate>, formula: &str, inputs: &[(&str, Worked)]) -> Self {
        let known = |place: &str| inputs.iter().find(|(name, _)| *name == place).map(|(_, value)| *value);
        let value = volume_rate.value().into();
        let working = Working::new("volume_rate".into(), value, formula, words::CALIBRATION, known);
        Self { volume_rate, working, formula: formula.into(), setting: None }
    }

    fn over_area(volume: &Uncertain<Volume>, area: &Uncertain<Area>) -> Result<Uncertain<VolumeRate>, Error> {
        volume.over::<_, VolumePerArea>(area)?.claim()
    }

    /// From flow, speed and swath: `R = Q / (v w)`.
    ///
    /// * `flow` (Q): of the nozzles over the swath; for a boom the mean of its nozzles.
    /// * `speed` (v): over the ground.
    /// * `swath` (w): for the mean of a boom's nozzles, their spacing.
    ///
    /// # Errors
    ///
    /// At each input: [`NotPositive`](ErrorCode::NotPositive). [`DuplicateName`](ErrorCode::DuplicateName) where one name stands for two inputs.
    ///
    /// # Source
    ///
    /// Definition, as [`volume_rate()`](crate::volume_rate()).
    pub fn from_flow(
        flow: &Uncertain<Flow>,
        speed: &Uncertain<Speed>,
        swath: &Uncertain<Length>,
    ) -> Result<Self, Error> {
        above_zero!(flow, speed, swath);
        let rate = flow.over::<_, VolumePerArea>(&speed.times::<_, WorkRate>(swath)?)?.claim()?;
        let inputs = [("flow", flow.value().into()), ("speed", speed.value().into()), ("swath", swath.value().into())];
        Ok(Self::reached(rate, "Q@flow / (v@speed * w@swath)", &inputs))
    }

    /// From a timed catch and a timed course: `R = (V / t) / ((L / T) w)`. Where one stopwatch timed both, give both times its input: it cancels.
    ///
    /// * `catch` (V), `catch_time` (t): volume caught, and how long.
    /// * `course` (L), `course_time` (T): length driven or walked, and how long. Over runs of one course the mean time gives the harmonic
    ///   mean of the speeds, which is the right one.
    /// * `swath` (w): of the nozzles that were caught.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow).
    ///
    /// # Source
    ///
    /// Definition; ASABE EP367.2 for the procedure (probable).
    pub fn from_timed_course(
        catch: &Uncertain<Volume>,
        catch_time: &Uncertain<Time>,
        course: &Uncertain<Length>,
        course_time: &Uncertain<Time>,
        swath: &Uncertain<Length>,
    ) -> Result<Self, Error> {
        above_zero!(catch, catch_time, course, course_time, swath);
        let flow = catch.over(catch_time)?;
        let speed = course.over(course_time)?;
        let rate = Self::from_flow(&flow, &speed, swath)?.volume_rate;
        let inputs = [
            ("catch", catch.value().into()),
            ("catch_time", catch_time.value().into()),
            ("course", course.value().into()),
            ("course_time", course_time.value().into()),
            ("swath", swath.value().into()),
        ];
        let formula = "V@catch / t@catch_time / (L@course / T@course_time * w@swath)";
        Ok(Self::reached(rate, formula, &inputs))
    }

    /// From a catch that takes as long as a course: `R = V / (L w)`. Nobody needs to know the time.
    ///
    /// * `catch` (V): caught in the time of the course.
    /// * `course` (L): its length.
    /// * `swath` (w): of the nozzles that were caught; for a band its width.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow).
    ///
    /// # Source
    ///
    /// Definition.
    pub fn from_catch_over_course(
        catch: &Uncertain<Volume>,
        course: &Uncertain<Length>,
        swath: &Uncertain<Length>,
    ) -> Result<Self, Error> {
        above_zero!(catch, course, swath);
        let rate = Self::over_area(catch, &course.times(swath)?)?;
        let inputs =
            [("catch", catch.value().into()), ("course", course.value().into()), ("swath", swath.value().into())];
        Ok(Self::reached(rate, "V@catch / (L@course * w@swath)", &inputs))
    }

    /// From a catch that takes as long as an area: `R = V / A`. For 1/128 acre US fluid ounces are US gallons per acre ([`one_128th_acre`]); for 100 m2
    /// millilitres over ten are litres per hectare.
    ///
    /// * `catch` (V): caught in the time that the area takes.
    /// * `area` (A): of the course.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow).
    ///
    /// # Example
    ///
    /// ```
    /// use mixcalc::{Calibration, Uncertain, Volume, one_128th_acre};
    ///
    /// let catch = Uncertain::exact(Volume::read("31 US fl oz")?)?;
    /// let calibration = Calibration::from_catch_over_area(&catch, &Uncertain::exact(one_128th_acre())?)?;
    /// assert!((calibration.volume_rate().value().us_gallons_per_acre() - 31.0).abs() < 1e-12);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// Definition; Louisiana State University AgCenter for 1/128 acre.
    pub fn from_catch_over_area(catch: &Uncertain<Volume>, area: &Uncertain<Area>) -> Result<Self, Error> {
        above_zero!(catch, area);
        let inputs = [("catch", catch.value().into()), ("area", area.value().into())];
        Ok(Self::reached(Self::over_area(catch, area)?, "V@catch / A@area", &inputs))
    }

    /// From what refills the tank to the mark after a test area: `R = V / A`. The mark was read twice, so that its reading is in `refill` twice.
    ///
    /// * `refill` (V): poured to the mark again.
    /// * `area` (A): sprayed.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow).
    ///
    /// # Source
    ///
    /// Definition.
    pub fn from_refill(refill: &Uncertain<Volume>, area: &Uncertain<Area>) -> Result<Self, Error> {
        above_zero!(refill, area);
        let inputs = [("refill", refill.value().into()), ("area", area.value().into())];
        Ok(Self::reached(Self::over_area(refill, area)?, "V@refill / A@area", &inputs))
    }

    /// From a tank that was sprayed out: `R = (V - r) / A`.
    ///
    /// * `filled` (V): what the tank and the lines held at the start.
    /// * `residual` (r): what stayed in them.
    /// * `area` (A): sprayed.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow); at `residual`: [`OutOfRange`](ErrorCode::OutOfRange) below zero; at `filled`:
    /// [`NotPositive`](ErrorCode::NotPositive) where no more was filled than stayed.
    ///
    /// # Source
    ///
    /// Definition; ISO 13440 for the residual.
    pub fn from_emptied_tank(
        filled: &Uncertain<Volume>,
        residual: &Uncertain<Volume>,
        area: &Uncertain<Area>,
    ) -> Result<Self, Error> {
        above_zero!(area);
        not_negative(residual.value()).map_err(|error| error.at("residual"))?;
        let sprayed = filled.minus(residual)?;
        above_zero(&sprayed, "filled")?;
        let inputs =
            [("filled", filled.value().into()), ("residual", residual.value().into()), ("area", area.value().into())];
        let rate = Self::over_area(&sprayed, area)?;
        Ok(Self::reached(rate, "(V@filled - r@residual) / A@area", &inputs))
    }

    /// From a hand gun or lance: a spot is treated as always, timed, and then caught: `R = (V / t) T / A`. Where the catch takes as long as the spot, give
    /// both the same time.
    ///
    /// * `catch` (V), `catch_time` (t): volume caught, and how long.
    /// * `spot` (A), `spot_time` (T): area treated, and how long.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow).
    ///
    /// # Source
    ///
    /// Definition.
    pub fn from_spot(
        catch: &Uncertain<Volume>,
        catch_time: &Uncertain<Time>,
        spot: &Uncertain<Area>,
        spot_time: &Uncertain<Time>,
    ) -> Result<Self, Error> {
        above_zero!(catch, catch_time, spot, spot_time);
        let sprayed = catch.over::<_, Flow>(catch_time)?.times::<_, Volume>(spot_time)?;
        let inputs = [
            ("catch", catch.value().into()),
            ("catch_time", catch_time.value().into()),
            ("spot_time", spot_time.value().into()),
            ("spot", spot.value().into()),
        ];
        let rate = Self::over_area(&sprayed, spot)?;
        Ok(Self::reached(rate, "V@catch / t@catch_time * T@spot_time / A@spot", &inputs))
    }

    /// From the volume that plants take each: `R = V / a`.
    ///
    /// * `volume` (V): mean per plant; of ten trees or more.
    /// * `ground` (a): of one plant: spacing in the row times spacing of the rows.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow).
    ///
    /// # Source
    ///
    /// Definition.
    pub fn from_plants(volume: &Uncertain<Volume>, ground: &Uncertain<Area>) -> Result<Self, Error> {
        above_zero!(volume, ground);
        let inputs = [("volume", volume.value().into()), ("ground", ground.value().into())];
        Ok(Self::reached(Self::over_area(volume, ground)?, "V@volume / a@ground", &inputs))
    }

    /// From the flow over one band: two rates, on treated and on field ground: `R = Q / (v b)` and `Q / (v d)`.
    ///
    /// * `flow` (Q): of all nozzles of one row together.
    /// * `speed` (v): over the ground.
    /// * `band` (b): treated width in each row.
    /// * `row_spacing` (d): from row to row; not under the band.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow); at `band`: [`OutOfRange`](ErrorCode::OutOfRange) for a band that is wider than the rows are apart.
    ///
    /// # Example
    ///
    /// 0.4 L/min at 6 km/h on a band of 0.25 m in rows of 0.75 m: 160 L per hectare of band, and a third of that of field.
    ///
    /// ```
    /// use mixcalc::{Calibration, Flow, Length, Speed, Uncertain};
    ///
    /// let banded = Calibration::from_band(
    ///     &Uncertain::exact(Flow::read("0.4 L/min")?)?,
    ///     &Uncertain::exact(Speed::read("6 km/h")?)?,
    ///     &Uncertain::exact(Length::read("0.25 m")?)?,
    ///     &Uncertain::exact(Length::read("0.75 m")?)?,
    /// )?;
    /// assert!((banded.band.volume_rate().value().liters_per_hectare() - 160.0).abs() < 1e-9);
    /// assert!((banded.field.volume_rate().value().liters_per_hectare() - 53.333).abs() < 1e-3);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// Definition.
    pub fn from_band(
        flow: &Uncertain<Flow>,
        speed: &Uncertain<Speed>,
        band: &Uncertain<Length>,
        row_spacing: &Uncertain<Length>,
    ) -> Result<Banded, Error> {
        above_zero!(flow, speed, band, row_spacing);
        if is_over(band.value(), row_spacing.value()) {
            let error = Error::new(ErrorCode::OutOfRange).at("band").given(band.value());
            return Err(error.allowed(format_args!("{} {}", text::word("at most"), row_spacing.value())));
        }
        let over = |width: &Uncertain<Length>, formula: &str, place: &'static str| {
            let rate = Self::from_flow(flow, speed, width)?.volume_rate;
            let inputs =
                [("flow", flow.value().into()), ("speed", speed.value().into()), (place, width.value().into())];
            Ok::<_, Error>(Self::reached(rate, formula, &inputs))
        };
        Ok(Banded {
            band: over(band, "Q@flow / (v@speed * b@band)", "band")?,
            field: over(row_spacing, "Q@flow / (v@speed * d@row_spacing)", "row_spacing")?,
        })
    }

    /// From the flow of an orchard sprayer: `R = g Q / (v d)`, where `g` is 1 for each alley driven once, 2 for each twice, 1/2 for every other one.
    ///
    /// * `flow` (Q): of all nozzles that are open in a pass.
    /// * `speed` (v): over the ground.
    /// * `row_spacing` (d): from row to row.
    /// * `alleys`: which are driven. Every other one means half of the dose in each of two treatments.
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow).
    ///
    /// # Example
    ///
    /// 12 L/min from both sides at 4.8 km/h in rows of 4 m: 600 x 12 / (4.8 x 4) = 375 L/ha.
    ///
    /// ```
    /// use mixcalc::{Alleys, Calibration, Flow, Length, Speed, Uncertain};
    ///
    /// let calibration = Calibration::from_alleys(
    ///     &Uncertain::exact(Flow::read("12 L/min")?)?,
    ///     &Uncertain::exact(Speed::read("4.8 km/h")?)?,
    ///     &Uncertain::exact(Length::read("4 m")?)?,
    ///     Alleys::Each,
    /// )?;
    /// assert!((calibration.volume_rate().value().liters_per_hectare() - 375.0).abs() < 1e-9);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// Definition.
    pub fn from_alleys(
        flow: &Uncertain<Flow>,
        speed: &Uncertain<Speed>,
        row_spacing: &Uncertain<Length>,
        alleys: Alleys,
    ) -> Result<Self, Error> {
        above_zero!(flow, speed, row_spacing);
        let passes = alleys.passes();
        let rate = Self::from_flow(&flow.times(&Uncertain::exact(passes)?)?, speed, row_spacing)?.volume_rate;
        let inputs = [
            ("alleys", passes.into()),
            ("flow", flow.value().into()),
            ("speed", speed.value().into()),
            ("row_spacing", row_spacing.value().into()),
        ];
        Ok(Self::reached(rate, "g@alleys * Q@flow / (v@speed * d@row_spacing)", &inputs))
    }

    /// From the flows of both sides of an orchard sprayer, each alley driven once: `R = (Q_left + Q_right) / (v d)`. How far the sides are apart:
    /// [`side_difference`].
    ///
    /// * `left`, `right`: flow of all open nozzles of a side.
    /// * `speed` (v), `row_spacing` (d): as in [`from_alleys`](Self::from_alleys).
    ///
    /// # Errors
    ///
    /// As [`from_flow`](Self::from_flow).
    ///
    /// # Source
    ///
    /// Definition.
    pub fn from_sides(
        left: &Uncertain<Flow>,
        right: &Uncertain<Flow>,
        speed: &Uncertain<Speed>,
        row_spacing: &Uncertain<Length>,
    ) -> Result<Self, Error> {
        above_zero!(left, right, speed, row_spacing);
        let rate = Self::from_flow(&left.plus(right)?, speed, row_spacing)?.volume_rate;
        let inputs = [
            ("left", left.value().into()),
            ("right", right.value().into()),
            ("speed", speed.value().into()),
            ("row_spacing", row_spacing.value().into()),
        ];
        let formula = "(Q_left@left + Q_right@right) / (v@speed * d@row_spacing)";
        Ok(Self::reached(rate, formula, &inputs))
    }

    /// States what it was measured with and where.
    #[must_use]
    pub fn with_setting(mut self, setting: Setting) -> Self {
        self.setting = Some(setting);
        self
    }

    /// The volume rate.
    #[must_use]
    pub const fn volume_rate(&self) -> &Uncertain<VolumeRate> {
        &self.volume_rate
    }

    /// The formula of the working, in which each input stands as `symbol@place`.
    pub(crate) fn formula(&self) -> &str {
        &self.formula
    }

    /// Between what the true volume rate is, with the coverage that its record asks for.
    pub(crate) fn interval(&self, record: &CalibrationRecord) -> Result<Interval<VolumeRate>, Error> {
        self.volume_rate.interval(record.coverage())
    }

    /// How it was reached. The contributions of its inputs are those of the volume rate.
    #[must_use]
    pub const fn working(&self) -> &Working {
        &self.working
    }

    /// What it was measured with and where, as far as stated.
    #[must_use]
    pub const fn setting(&self) -> Option<&Setting> {
        self.setting.as_ref()
    }

    /// What differs between the setting that it was measured in and one that it is to be used in: each a reason to calibrate again. None where nothing
    /// differs; where no setting was stated, that alone.
    #[must_use]
    pub fn differences(&self, use_in: &Setting, oldest: Time) -> Vec<Difference> {
        match &self.setting {
            Some(setting) => setting.differences(use_in, oldest),
            None => Vec::from([Difference::Unstated]),
        }
    }

    /// The volume rate after something of it changes, all else as calibrated: `R` times the ratio that the change makes.
    ///
    /// # Errors
    ///
    /// At the parts of the change: [`NotPositive`](ErrorCode::NotPositive). Else as [`Uncertain::sum`].
    ///
    /// # Example
    ///
    /// From 8 to 10 km/h at 180 L/ha: 180 x 8 / 10 = 144 L/ha.
    ///
    /// ```
    /// use mixcalc::{Calibration, Change, Flow, Length, Speed, Uncertain};
    ///
    /// let flow = Uncertain::exact(Flow::read("1.2 L/min")?)?;
    /// let [slow, fast] = [8.0, 10.0].map(Speed::from_kilometers_per_hour);
    /// let (slow, fast) = (Uncertain::exact(slow?)?, Uncertain::exact(fast?)?);
    /// let calibration = Calibration::from_flow(&flow, &slow, &Uncertain::exact(Length::read("0.5 m")?)?)?;
    /// let rate = calibration.after(Change::Speed(&slow, &fast))?;
    /// assert!((rate.value().liters_per_hectare() - 144.0).abs() < 1e-9);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// [`from_flow`](Self::from_flow), as a ratio of two states.
    pub fn after(&self, change: Change<'_>) -> Result<Uncertain<VolumeRate>, Error> {
        let ratio = match change {
            Change::Flow(from, to) => parts(to, from)?,
            Change::Speed(from, to) => parts(from, to)?,
            Change::Swath(from, to) => parts(from, to)?,
        };
        self.volume_rate.times(&ratio)
    }
}

/// One thing that changes, from what it was when calibrated to what it is to be. A pressure changes the flow: [`Nozzle::flow_at`](crate::Nozzle::flow_at)
/// gives both.
#[derive(Clone, Copy, Debug)]
pub enum Change<'a> {
    /// Flow: the volume rate goes with it.
    Flow(&'a Uncertain<Flow>, &'a Uncertain<Flow>),
    /// Speed: the volume rate goes against it.
    Speed(&'a Uncertain<Speed>, &'a Uncertain<Speed>),
    /// Swath or nozzle spacing: the volume rate goes against it.
    Swath(&'a Uncertain<Length>, &'a Uncertain<Length>),
}

fn parts<Q: AdditiveKind>(above: &Uncertain<Q>, below: &Uncertain<Q>) -> Result<Uncertain<Ratio>, Error> {
    above_zero(above, "change")?.over(above_zero(below, "change")?)
}

/// How far two sides are apart, as a part of their mean: `(left - right) / ((left + right) / 2)`. Above zero where the left gives more.
///
/// # Errors
///
/// At `left` or `right`: [`NotPositive`](ErrorCode::NotPositive). Else as [`Uncertain::sum`].
///
/// # Example
///
/// 6.3 L/min on the left and 5.7 on the right are 10 % of 6 L/min apart.
///
/// ```
/// use mixcalc::{Flow, Uncertain, side_difference};
///
/// let [left, right] = [6.3, 5.7].map(Flow::from_liters_per_minute);
/// let apart = side_difference(&Uncertain::exact(left?)?, &Uncertain::exact(right?)?)?;
/// assert!((apart.value().number() - 0.1).abs() < 1e-12);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// ISO 16122-3 asks for at most 10 % of sprayers in use (probable).
pub fn side_difference(left: &Uncertain<Flow>, right: &Uncertain<Flow>) -> Result<Uncertain<Ratio>, Error> {
    above_zero!(left, right);
    let mean = Uncertain::mean(&[left.clone(), right.clone()])?;
    left.minus(right)?.over(&mean)
}

/// The parts of an acre, each as many gallons per acre as fluid ounces on it: a US gallon has 128 of them.
const OUNCES: f64 = 128.0;

/// The ground on which US fluid ounces are US gallons per acre: 1/128 acre, 340.3125 ft2.
///
/// # Source
///
/// Definition: 128 US fluid ounces are a US gallon.
#[must_use]
pub fn one_128th_acre() -> Area {
    Area::from_acres(OUNCES.recip()).unwrap_or(Area::ZERO)
}

/// Length of the course that makes an area of a swath: `A / w`.
///
/// * `area` (A): of the course.
/// * `swath` (w): of the nozzles that are caught: spacing, band, or row.
///
/// # Errors
///
/// At `swath`: [`NotPositive`](ErrorCode::NotPositive); at `area`: [`OutOfRange`](ErrorCode::OutOfRange) below zero.
///
/// # Example
///
/// 1/128 acre at a spacing of 20 in: 340.3125 ft2 / (20 / 12 ft) = 204.2 ft.
///
/// ```
/// use mixcalc::{Length, course_length, one_128th_acre};
///
/// let course = course_length(one_128th_acre(), Length::read("20 in")?)?;
/// assert!((course.feet() - 204.1875).abs() < 1e-9);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn course_length(area: Area, swath: Length) -> Result<Length, Error> {
    answered(|checks| formula::course_length(checks, area, swath))
}

/// Density of air-free water at one atmosphere, from 0 to 40 °C: `a5 (1 - (T + a1)^2 (T + a2) / (a3 (T + a4)))`, to 0.001 %.
///
/// A thermometer that is off by 2 °C at 20 °C makes 0.04 % of it; state that as a tolerance.
///
/// # Errors
///
/// At `temperature`: [`OutOfRange`](ErrorCode::OutOfRange) outside of 0 to 40 °C.
///
/// # Example
///
/// ```
/// use mixcalc::{Temperature, water_density};
///
/// let density = water_density(Temperature::read("20 °C")?)?;
/// assert!((density.kilograms_per_liter() - 0.998207).abs() < 1e-6);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// M. Tanaka, G. Girard, R. Davis, A. Peuto and N. Bignell, Recommended table for the density of water between 0 °C and 40 °C based on recent
/// experimental reports, Metrologia 38 (2001), 301-309, the table that the CIPM recommends.
pub fn water_density(temperature: Temperature) -> Result<Density, Error> {
    const A1: f64 = -3.983_035;
    const A2: f64 = 301.797;
    const A3: f64 = 522_528.9;
    const A4: f64 = 69.348_81;
    const A5_KG_PER_L: f64 = 0.999_974_950;
    const WARMEST: f64 = 40.0;
    let t = temperature.degrees_celsius();
    if !(0.0..=WARMEST).contains(&t) {
        let error = Error::new(ErrorCode::OutOfRange).at("temperature").given(temperature);
        return Err(error.allowed(format_args!("{} 0 {} {WARMEST} °C", text::word("from"), text::word("to"))));
    }
    Density::from_kilograms_per_liter(A5_KG_PER_L * (1.0 - (t + A1) * (t + A1) * (t + A2) / (A3 * (t + A4))))
}

/// Density of air, as weighings conventionally take it: OIML D 28.
const AIR_KG_PER_L: f64 = 0.0012;

pub(super) fn air_density() -> Result<Density, Error> {
    Density::from_kilograms_per_liter(AIR_KG_PER_L)
}

/// Volume of a catch from its weight in air: `V = m (1 - a / s) / (d - a)`, where `a` = 0.0012 kg/L is the density of air and `s` = 8 kg/L that of the
/// weights to which scales are set. The air makes 0.1 %.
///
/// * `mass` (m): what the scale showed, less the empty vessel. Where a vessel was weighed empty and full, both readings are in it.
/// * `density` (d): of the liquid at its temperature; of water [`water_density`].
///
/// # Errors
///
/// At `mass`: [`NotPositive`](ErrorCode::NotPositive); at `density`: [`OutOfRange`](ErrorCode::OutOfRange) unless it is above that of air.
///
/// # Example
///
/// 998.2 g of water at 20 °C: 998.2 g x 0.99985 / (0.998207 - 0.0012) kg/L = 1001 mL.
///
/// ```
/// use mixcalc::{Mass, Temperature, Uncertain, volume_of_catch, water_density};
///
/// let mass = Uncertain::exact(Mass::read("998.2 g")?)?;
/// let density = Uncertain::exact(water_density(Temperature::read("20 °C")?)?)?;
/// assert!((volume_of_catch(&mass, &density)?.value().milliliters() - 1001.05).abs() < 5e-3);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// ISO 4787, equation for volume from weighing; OIML R 111 and D 28 for the conventional densities of air and weights.
pub fn volume_of_catch(mass: &Uncertain<Mass>, density: &Uncertain<Density>) -> Result<Uncertain<Volume>, Error> {
    const WEIGHTS_KG_PER_L: f64 = 8.0;
    above_zero!(mass);
    let air = Uncertain::exact(air_density()?)?;
    let heavier = density.minus(&air)?;
    positive(heavier.value()).map_err(|_| {
        let error = Error::new(ErrorCode::OutOfRange).at("density").given(density.value());
        error.allowed(format_args!("{} {}", text::word("above that of air,"), air.value()))
    })?;
    let buoyancy = Uncertain::exact(Ratio::one() * (1.0 - AIR_KG_PER_L / WEIGHTS_KG_PER_L))?;
    mass.times::<_, Mass>(&buoyancy)?.over(&heavier)
}

/// The formulas, each for one number and for a column.
pub(crate) mod formula {
    use super::{Area, Length};
    use crate::quantity::checks::Checks;

    #[inline(always)]
    pub(crate) fn course_length(checks: &mut impl Checks, area: Area, swath: Length) -> Length {
        checks.factor(area, "area") / checks.divisor(swath, "swath")
    }
}
