//! The record of a calibration: what was read and how well, as it is written down beside the sprayer.

use alloc::collections::BTreeMap;
use alloc::format;
use alloc::string::String;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::calibration::{Alleys, Calibration, air_density, volume_of_catch, water_density};
use super::setting::{Difference, Setting};
use crate::error::{Error, ErrorCode};
use crate::quantity::{
    AdditiveKind, Flow, Kind, Length, Mass, Quantity, Ratio, Speed, Temperature, Time, not_negative, positive,
};
use crate::text::{self, legible_at, legible_name};
use crate::uncertainty::{Uncertain, UncertainQuantity, customary_coverage};

/// Most readings of one input: more is a log and not a record.
const MOST_READINGS: usize = 1000;
/// Most instruments of a record.
const MOST_INSTRUMENTS: usize = 100;

/// What was read of one input, once or again and again, and how well.
///
/// * Readings: of one kind. Two or more give their mean, with the uncertainty of their spread.
/// * Tolerance: how far all readings may be off together, since the jug, the scale or the tape is; a quantity of their kind, or a ratio
///   of the value. Rectangular.
/// * Resolution: the smallest step that the instrument shows. Rectangular, half a step to each side, once and not for each reading, since
///   the spread of repeats holds no more than its change from one to the next.
/// * Instrument: what it was read with, where another input was read with it too: its tolerance is the record's, and counts once.
///
/// # Example
///
/// ```
/// use mixcalc::{Measurement, Quantity};
///
/// let catches = ["1.19 L", "1.2 L", "1.21 L"].map(Quantity::read);
/// let [a, b, c] = catches;
/// let catch = Measurement::new(&[a?, b?, c?])?.with_tolerance(Quantity::read("1 %")?)?;
/// assert_eq!(catch.readings().len(), 3);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Measurement {
    readings: Vec<Quantity>,
    tolerance: Option<Quantity>,
    resolution: Option<Quantity>,
    instrument: Option<Arc<str>>,
}

impl Measurement {
    /// One reading or more.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) for none, [`TooLarge`](ErrorCode::TooLarge) for over 1000,
    /// [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) at `measured[i]` for one of another kind than the first.
    pub fn new(readings: &[Quantity]) -> Result<Self, Error> {
        let Some(first) = readings.first() else {
            return Err(Error::new(ErrorCode::MissingInput).at("measured").allowed(text::word("one or more")));
        };
        if readings.len() > MOST_READINGS {
            let error = Error::new(ErrorCode::OutOfRange).at("measured").given(readings.len());
            return Err(error.allowed(format_args!("{} {MOST_READINGS}", text::word("at most"))));
        }
        for (i, reading) in readings.iter().enumerate().skip(1) {
            first.plus(*reading).map_err(|error| error.at(format_args!("measured[{i}]")))?;
        }
        // On the doubles of documents, so that a record that was written down and read again is the same.
        let readings = readings.iter().map(|reading| reading.documented()).collect();
        Ok(Self { readings, tolerance: None, resolution: None, instrument: None })
    }

    /// How far all readings may be off together.
    ///
    /// # Errors
    ///
    /// At `tolerance`: [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) unless it is of the readings' kind or a ratio,
    /// [`OutOfRange`](ErrorCode::OutOfRange) below zero, and for a ratio of one or more, which could be anything.
    pub fn with_tolerance(mut self, tolerance: Quantity) -> Result<Self, Error> {
        if tolerance.kind() == Kind::Ratio {
            part_of_value(tolerance.claim()?).map_err(|error| error.at("tolerance"))?;
        } else {
            self.like(tolerance).map_err(|error| error.at("tolerance"))?;
        }
        self.tolerance = Some(tolerance.documented());
        Ok(self)
    }

    /// The smallest step that the instrument shows.
    ///
    /// # Errors
    ///
    /// At `resolution`: [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) unless it is of the readings' kind,
    /// [`OutOfRange`](ErrorCode::OutOfRange) below zero.
    pub fn with_resolution(mut self, resolution: Quantity) -> Result<Self, Error> {
        self.like(resolution).map_err(|error| error.at("resolution"))?;
        self.resolution = Some(resolution.documented());
        Ok(self)
    }

    /// The instrument that it was read with, by the name that the record has for it.
    ///
    /// # Errors
    ///
    /// At `instrument`: [`MissingInput`](ErrorCode::MissingInput) for a blank name, [`OutOfRange`](ErrorCode::OutOfRange) for one of over 1000
    /// characters.
    pub fn with_instrument(mut self, name: &str) -> Result<Self, Error> {
        self.instrument = Some(legible_at("instrument", name)?);
        Ok(self)
    }

    /// What was read.
    #[must_use]
    pub fn readings(&self) -> &[Quantity] {
        &self.readings
    }

    /// How far all readings may be off together.
    #[must_use]
    pub const fn tolerance(&self) -> Option<Quantity> {
        self.tolerance
    }

    /// The smallest step that the instrument shows.
    #[must_use]
    pub const fn resolution(&self) -> Option<Quantity> {
        self.resolution
    }

    /// The instrument that it was read with.
    #[must_use]
    pub fn instrument(&self) -> Option<&str> {
        self.instrument.as_deref()
    }

    /// Whether nothing is said of how well it was read.
    pub(crate) fn is_bare(&self) -> bool {
        self.tolerance.is_none() && self.resolution.is_none() && self.instrument.is_none()
    }

    /// Where its readings stand in a document, under the key of an input.
    pub(crate) fn place(&self, input: CalibrationInput) -> String {
        let table = if self.is_bare() { "" } else { ".measured" };
        format!("job.calibration.{}{table}", input.name())
    }

    /// Refuses a doubt of another kind than the readings, or below zero.
    fn like(&self, doubt: Quantity) -> Result<(), Error> {
        if let Some(first) = self.readings.first() {
            first.plus(doubt)?;
            if doubt.over(doubt.unity()?)?.number()? < 0.0 {
                return Err(not_negative(Ratio::one() * -1.0)
                    .err()
                    .unwrap_or(Error::new(ErrorCode::OutOfRange))
                    .given(doubt));
            }
        }
        Ok(())
    }

    /// The value with its uncertainty, each doubt an input of its own that is named after the place.
    pub(crate) fn uncertain(&self, place: &str, instruments: &[Instrument]) -> Result<UncertainQuantity, Error> {
        let mut value = match self.readings.as_slice() {
            [one] => UncertainQuantity::exact(*one)?,
            repeats => UncertainQuantity::from_repeats(place, repeats)?,
        };
        let one = Quantity::of(Ratio::one());
        let none = value.value().minus(value.value())?;
        let named = |what: &str| format!("{place} {what}");
        match self.tolerance {
            Some(tolerance) if tolerance.kind() == Kind::Ratio => {
                value = value.times(&UncertainQuantity::from_tolerance(&named(text::TOLERANCE), one, tolerance)?)?;
            }
            Some(tolerance) => {
                value = value.plus(&UncertainQuantity::from_tolerance(&named(text::TOLERANCE), none, tolerance)?)?;
            }
            None => {}
        }
        if let Some(resolution) = self.resolution {
            value = value.plus(&UncertainQuantity::from_resolution(&named(text::RESOLUTION), none, resolution)?)?;
        }
        if let Some(name) = &self.instrument {
            let Some(instrument) = instruments.iter().find(|instrument| instrument.name == *name) else {
                let names: Vec<&str> = instruments.iter().map(|instrument| &*instrument.name).collect();
                let error = Error::new(ErrorCode::UnknownChoice).at("instrument").given(text::quoted(name));
                return Err(error.allowed(text::instrument_of(&names)));
            };
            value = value.times(&UncertainQuantity::from_tolerance(name, one, Quantity::of(instrument.tolerance))?)?;
        }
        Ok(value)
    }
}

fn part_of_value(tolerance: Ratio) -> Result<Ratio, Error> {
    let tolerance = not_negative(tolerance)?;
    if tolerance < Ratio::one() {
        return Ok(tolerance);
    }
    Err(Error::new(ErrorCode::OutOfRange).given(tolerance).allowed(text::word("from 0 % to under 100 %")))
}

/// What several inputs of a record were read with: what it is off, it is off in all of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Instrument {
    name: Arc<str>,
    tolerance: Ratio,
}

impl Instrument {
    /// An instrument that may be off by a part of what it shows.
    ///
    /// # Errors
    ///
    /// At `name`: as [`Measurement::with_instrument`]. At `tolerance`: [`OutOfRange`](ErrorCode::OutOfRange) unless it is from 0 % to under
    /// 100 %.
    pub fn new(name: &str, tolerance: Ratio) -> Result<Self, Error> {
        let tolerance = part_of_value(tolerance).map_err(|error| error.at("tolerance"))?;
        Ok(Self { name: legible_name(name)?, tolerance })
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// How far it may be off, as a part of what it shows.
    #[must_use]
    pub const fn tolerance(&self) -> Ratio {
        self.tolerance
    }
}

text::named! {
    /// What is measured for a calibration.
    #[derive(PartialOrd, Ord)]
    #[non_exhaustive]
    CalibrationInput {
        /// Flow of the nozzles over the swath; of all nozzles of a row, of an alley, for those methods.
        Flow = "flow";
        /// Speed over the ground.
        Speed = "speed";
        /// Treated width of the nozzles that the flow is of; their spacing for the mean of a boom's nozzles.
        Swath = "swath";
        /// Volume caught, or its mass.
        Catch = "catch";
        /// How long it was caught.
        CatchTime = "catch_time";
        /// Length that was driven or walked.
        Course = "course";
        /// How long that took.
        CourseTime = "course_time";
        /// Ground that was sprayed.
        Area = "area";
        /// Volume that fills the tank up again, or its mass.
        Refill = "refill";
        /// Volume that was filled in, or its mass.
        Filled = "filled";
        /// What stayed in the sprayer.
        Residual = "residual";
        /// Ground of one spot.
        Spot = "spot";
        /// How long one spot is sprayed.
        SpotTime = "spot_time";
        /// Volume sprayed on one plant, or its mass.
        Volume = "volume";
        /// Ground of one plant.
        Ground = "ground";
        /// Treated width in each row.
        Band = "band";
        /// Distance from row to row.
        RowSpacing = "row_spacing";
        /// Flow of the left side.
        Left = "left";
        /// Flow of the right side.
        Right = "right";
        /// Density of what was weighed.
        Density = "density";
    }
}

use CalibrationInput as In;

text::named! {
    /// A way to measure a volume rate, named after what is measured: each is a constructor of [`Calibration`].
    #[derive(PartialOrd, Ord)]
    #[non_exhaustive]
    CalibrationMethod {
        /// [`Calibration::from_flow`].
        Flow = "flow";
        /// [`Calibration::from_timed_course`].
        TimedCourse = "timed-course";
        /// [`Calibration::from_catch_over_course`].
        CatchOverCourse = "catch-over-course";
        /// [`Calibration::from_catch_over_area`].
        CatchOverArea = "catch-over-area";
        /// [`Calibration::from_refill`].
        Refill = "refill";
        /// [`Calibration::from_emptied_tank`].
        EmptiedTank = "emptied-tank";
        /// [`Calibration::from_spot`].
        Spot = "spot";
        /// [`Calibration::from_plants`].
        Plants = "plants";
        /// [`Calibration::from_band`], the rate on the field: what the tank is filled for.
        Band = "band";
        /// [`Calibration::from_alleys`].
        Alleys = "alleys";
        /// [`Calibration::from_sides`].
        Sides = "sides";
    }
}

impl CalibrationMethod {
    /// What is measured. In place of a flow, a catch and its time; in place of a speed, a course and its time.
    #[must_use]
    pub const fn inputs(self) -> &'static [CalibrationInput] {
        match self {
            Self::Flow => &[In::Flow, In::Speed, In::Swath],
            Self::TimedCourse => &[In::Catch, In::CatchTime, In::Course, In::CourseTime, In::Swath],
            Self::CatchOverCourse => &[In::Catch, In::Course, In::Swath],
            Self::CatchOverArea => &[In::Catch, In::Area],
            Self::Refill => &[In::Refill, In::Area],
            Self::EmptiedTank => &[In::Filled, In::Residual, In::Area],
            Self::Spot => &[In::Catch, In::CatchTime, In::Spot, In::SpotTime],
            Self::Plants => &[In::Volume, In::Ground],
            Self::Band => &[In::Flow, In::Speed, In::Band, In::RowSpacing],
            Self::Alleys => &[In::Flow, In::Speed, In::RowSpacing],
            Self::Sides => &[In::Left, In::Right, In::Speed, In::RowSpacing],
        }
    }
}

/// A calibration as it was written down: how it was measured, what was read, with what, in which setting; and what it is to be used for.
///
/// [`calibration`](Self::calibration) works it out. A catch, a refill, a filling or a plant's volume may be weighed: its mass is divided by a
/// density, or by that of water at a temperature. A flow may be given as a catch and its time, a speed as a course and its time.
///
/// # Example
///
/// Three catches of 30 s under nozzles 0.5 m apart, and a course of 20 m in 9 s: 1.2 L / 0.5 min / (8 km/h x 0.5 m) = 360 L/ha. One stopwatch
/// took both times: it cancels, and only the tolerance of the jug and the spread are left.
///
/// ```
/// use mixcalc::{CalibrationInput, CalibrationMethod, CalibrationRecord, Instrument, Measurement, Quantity, Ratio};
///
/// let read = |text| Quantity::read(text);
/// let catches = [read("1.19 L")?, read("1.2 L")?, read("1.21 L")?];
/// let timed = |text| Measurement::new(&[read(text)?])?.with_instrument("stopwatch");
/// let record = CalibrationRecord::new(CalibrationMethod::TimedCourse)
///     .with_instrument(Instrument::new("stopwatch", Ratio::from_percent(1.0)?)?)?
///     .with(CalibrationInput::Catch, Measurement::new(&catches)?.with_tolerance(read("1 %")?)?)?
///     .with(CalibrationInput::CatchTime, timed("30 s")?)?
///     .with(CalibrationInput::Course, Measurement::new(&[read("20 m")?])?)?
///     .with(CalibrationInput::CourseTime, timed("9 s")?)?
///     .with(CalibrationInput::Swath, Measurement::new(&[read("0.5 m")?])?)?;
/// let calibration = record.calibration()?;
/// assert!((calibration.volume_rate().value().liters_per_hectare() - 360.0).abs() < 1e-9);
/// let doubts: Vec<_> = calibration.volume_rate().contributions().iter().map(|doubt| doubt.name().to_owned()).collect();
/// assert_eq!(doubts, ["catch tolerance", "catch"]);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct CalibrationRecord {
    method: CalibrationMethod,
    measured: BTreeMap<CalibrationInput, Measurement>,
    alleys: Option<Alleys>,
    instruments: Vec<Instrument>,
    water_temperature: Option<Temperature>,
    setting: Option<Setting>,
    use_in: Option<Setting>,
    oldest: Option<Time>,
    coverage: Ratio,
    risk: Option<Ratio>,
}

impl CalibrationRecord {
    /// A record that nothing is written in yet.
    #[must_use]
    pub fn new(method: CalibrationMethod) -> Self {
        Self {
            method,
            measured: BTreeMap::new(),
            alleys: None,
            instruments: Vec::new(),
            water_temperature: None,
            setting: None,
            use_in: None,
            oldest: None,
            coverage: customary_coverage(),
            risk: None,
        }
    }

    /// What was read of an input; a later measurement of it takes the place of an earlier one.
    ///
    /// # Errors
    ///
    /// At the input's name: [`UnknownKey`](ErrorCode::UnknownKey) where the method does not take it.
    pub fn with(mut self, input: CalibrationInput, measurement: Measurement) -> Result<Self, Error> {
        let taken = self.taken();
        if !taken.contains(&input) {
            let names: Vec<&str> = taken.iter().map(|input| input.name()).collect();
            let error = Error::new(ErrorCode::UnknownChoice).at(input.name()).given(input.name());
            return Err(error.allowed(text::inputs_of(self.method.name(), &names)));
        }
        self.measured.insert(input, measurement);
        Ok(self)
    }

    /// What the method takes: its inputs, what may stand in place of a flow or a speed, and a density where something may be weighed.
    fn taken(&self) -> Vec<CalibrationInput> {
        let mut taken = self.method.inputs().to_vec();
        if taken.contains(&In::Flow) {
            taken.extend([In::Catch, In::CatchTime]);
        }
        if taken.contains(&In::Speed) {
            taken.extend([In::Course, In::CourseTime]);
        }
        if taken.iter().any(|input| input.may_be_weighed()) {
            taken.push(In::Density);
        }
        taken
    }

    /// Which alleys were driven: for [`CalibrationMethod::Alleys`] alone, which needs it.
    ///
    /// # Errors
    ///
    /// [`UnknownChoice`](ErrorCode::UnknownChoice) at `alleys` for another method.
    pub fn with_alleys(mut self, alleys: Alleys) -> Result<Self, Error> {
        if self.method != CalibrationMethod::Alleys {
            let error = Error::new(ErrorCode::UnknownChoice).at("alleys").given(text::quoted(alleys.name()));
            return Err(error.allowed(text::ALLEYS_ALONE));
        }
        self.alleys = Some(alleys);
        Ok(self)
    }

    /// What several inputs were read with.
    ///
    /// # Errors
    ///
    /// At `instruments[i].name`: [`DuplicateName`](ErrorCode::DuplicateName). At `instruments`: [`OutOfRange`](ErrorCode::OutOfRange) for over 100.
    pub fn with_instrument(mut self, instrument: Instrument) -> Result<Self, Error> {
        if self.instruments.len() >= MOST_INSTRUMENTS {
            let error = Error::new(ErrorCode::OutOfRange).at("instruments").given(self.instruments.len() + 1);
            return Err(error.allowed(format_args!("{} {MOST_INSTRUMENTS}", text::word("at most"))));
        }
        if self.instruments.iter().any(|other| other.name == instrument.name) {
            let place = format!("instruments[{}].name", self.instruments.len());
            return Err(Error::new(ErrorCode::DuplicateName).at(place).given(text::quoted(&instrument.name)));
        }
        self.instruments.push(instrument);
        Ok(self)
    }

    /// The temperature of the water that was weighed, in place of a density.
    ///
    /// # Errors
    ///
    /// As [`water_density`](crate::water_density), at `water_temperature`.
    pub fn with_water_temperature(mut self, temperature: Temperature) -> Result<Self, Error> {
        water_density(temperature).map_err(|error| error.at("water_temperature"))?;
        self.water_temperature = Some(temperature);
        Ok(self)
    }

    /// What it was measured with and where.
    #[must_use]
    pub fn with_setting(mut self, setting: Setting) -> Self {
        self.setting = Some(setting);
        self
    }

    /// The setting that it is to be used in.
    #[must_use]
    pub fn with_use_in(mut self, setting: Setting) -> Self {
        self.use_in = Some(setting);
        self
    }

    /// The age up to which it is accepted.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) at `oldest`.
    pub fn with_oldest(mut self, age: Time) -> Result<Self, Error> {
        self.oldest = Some(positive(age).map_err(|error| error.at("oldest"))?);
        Ok(self)
    }

    /// The coverage of its intervals; 95 % where none is asked for.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) at `coverage` unless it is above 0 % and at most 99.9999 %.
    pub fn with_coverage(mut self, coverage: Ratio) -> Result<Self, Error> {
        Uncertain::exact(Ratio::one())?.coverage_factor(coverage)?;
        self.coverage = coverage;
        Ok(self)
    }

    /// The probability of being over the label's maximum that is taken; a plan says where a dose passes it.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) at `risk` unless it is above 0 % and under 50 %.
    pub fn with_risk(mut self, risk: Ratio) -> Result<Self, Error> {
        Uncertain::exact(Ratio::one())?.aim_under(Ratio::one(), risk)?;
        self.risk = Some(risk);
        Ok(self)
    }

    /// How it was measured.
    #[must_use]
    pub const fn method(&self) -> CalibrationMethod {
        self.method
    }

    /// What was read of an input.
    #[must_use]
    pub fn measurement(&self, input: CalibrationInput) -> Option<&Measurement> {
        self.measured.get(&input)
    }

    /// Which alleys were driven.
    #[must_use]
    pub const fn alleys(&self) -> Option<Alleys> {
        self.alleys
    }

    /// What several inputs were read with.
    #[must_use]
    pub fn instruments(&self) -> &[Instrument] {
        &self.instruments
    }

    /// The temperature of the water that was weighed.
    #[must_use]
    pub const fn water_temperature(&self) -> Option<Temperature> {
        self.water_temperature
    }

    /// What it was measured with and where.
    #[must_use]
    pub const fn setting(&self) -> Option<&Setting> {
        self.setting.as_ref()
    }

    /// The setting that it is to be used in.
    #[must_use]
    pub const fn use_in(&self) -> Option<&Setting> {
        self.use_in.as_ref()
    }

    /// The age up to which it is accepted.
    #[must_use]
    pub const fn oldest(&self) -> Option<Time> {
        self.oldest
    }

    /// The coverage of its intervals.
    #[must_use]
    pub const fn coverage(&self) -> Ratio {
        self.coverage
    }

    /// The probability of being over the label's maximum that is taken.
    #[must_use]
    pub const fn risk(&self) -> Option<Ratio> {
        self.risk
    }

    /// What differs between its setting and the one that it is to be used in; none where no use is stated.
    #[must_use]
    pub fn differences(&self) -> Vec<Difference> {
        match (&self.setting, &self.use_in) {
            (Some(setting), Some(use_in)) => {
                let differences = setting.differences(use_in, self.oldest.unwrap_or_default()).into_iter();
                differences.filter(|difference| self.oldest.is_some() || *difference != Difference::TooOld).collect()
            }
            (None, Some(_)) => Vec::from([Difference::Unstated]),
            (_, None) => Vec::new(),
        }
    }

    /// Works it out.
    ///
    /// # Errors
    ///
    /// At an input: [`MissingInput`](ErrorCode::MissingInput), [`WrongQuantity`](ErrorCode::WrongQuantity),
    /// [`NotPositive`](ErrorCode::NotPositive), [`UnknownChoice`](ErrorCode::UnknownChoice) for an instrument that is not the record's,
    /// [`MissingInput`](ErrorCode::MissingInput) at `density` for a mass without a density or a temperature of water,
    /// [`BothGiven`](ErrorCode::BothGiven) for a flow beside a catch, a speed beside a course, a density beside a temperature. Else as the
    /// constructor of the method.
    pub fn calibration(&self) -> Result<Calibration, Error> {
        self.one_of(In::Flow, In::Catch)?;
        self.one_of(In::Speed, In::Course)?;
        use CalibrationMethod as By;
        let length = |input| self.value::<Length>(input);
        let calibration = match self.method {
            By::Flow => Calibration::from_flow(&self.flow()?, &self.speed()?, &length(In::Swath)?),
            By::TimedCourse => Calibration::from_timed_course(
                &self.volume(In::Catch)?,
                &self.value(In::CatchTime)?,
                &length(In::Course)?,
                &self.value(In::CourseTime)?,
                &length(In::Swath)?,
            ),
            By::CatchOverCourse => {
                Calibration::from_catch_over_course(&self.volume(In::Catch)?, &length(In::Course)?, &length(In::Swath)?)
            }
            By::CatchOverArea => Calibration::from_catch_over_area(&self.volume(In::Catch)?, &self.value(In::Area)?),
            By::Refill => Calibration::from_refill(&self.volume(In::Refill)?, &self.value(In::Area)?),
            By::EmptiedTank => Calibration::from_emptied_tank(
                &self.volume(In::Filled)?,
                &self.value(In::Residual)?,
                &self.value(In::Area)?,
            ),
            By::Spot => Calibration::from_spot(
                &self.volume(In::Catch)?,
                &self.value(In::CatchTime)?,
                &self.value(In::Spot)?,
                &self.value(In::SpotTime)?,
            ),
            By::Plants => Calibration::from_plants(&self.volume(In::Volume)?, &self.value(In::Ground)?),
            By::Band => {
                Calibration::from_band(&self.flow()?, &self.speed()?, &length(In::Band)?, &length(In::RowSpacing)?)
                    .map(|banded| banded.field)
            }
            By::Alleys => {
                let Some(alleys) = self.alleys else {
                    return Err(Error::new(ErrorCode::MissingInput)
                        .at("alleys")
                        .allowed(text::one_of(&Alleys::all().iter().map(|alleys| alleys.name()).collect::<Vec<_>>())));
                };
                Calibration::from_alleys(&self.flow()?, &self.speed()?, &length(In::RowSpacing)?, alleys)
            }
            By::Sides => Calibration::from_sides(
                &self.value(In::Left)?,
                &self.value(In::Right)?,
                &self.speed()?,
                &length(In::RowSpacing)?,
            ),
        }?;
        if let (Some(_), Some(_)) = (self.measured.get(&In::Density), self.water_temperature) {
            let error =
                Error::new(ErrorCode::BothGiven).at("density").given(text::word("density and water_temperature"));
            return Err(error.allowed(text::word("one of them")));
        }
        Ok(match &self.setting {
            Some(setting) => calibration.with_setting(setting.clone()),
            None => calibration,
        })
    }

    /// What stands between the readings and the formula of the calibration: a name, its value, and its formula, in which a reading's place
    /// begins with `job.calibration`, and another value's with `mix.calibration`. A density of water has no formula: it is from a table.
    pub(crate) fn between(&self) -> Result<Vec<(&'static str, Quantity, String)>, Error> {
        let mut between = Vec::new();
        // A band does not stand in the formula of the field's rate, nor a density where nothing was weighed.
        let stands = |input: &In| *input != In::Band && (*input != In::Density || self.is_weighed());
        for (input, measurement) in self.measured.iter().filter(|(input, _)| stands(input)) {
            let name = input.name();
            let mean = self.uncertain(*input)?.value();
            let place = measurement.place(*input);
            let formula = match measurement.readings() {
                [_] => format!("x@{place}"),
                many => {
                    let terms: Vec<_> = (0..many.len()).map(|i| format!("x{i}@{place}[{i}]")).collect();
                    format!("({}) / {}", terms.join(" + "), many.len())
                }
            };
            let weighed = mean.kind() == Kind::Mass && input.may_be_weighed();
            if weighed {
                // As `volume_of_catch`, which counts the buoyancy of air.
                let volume = Quantity::of(self.volume(*input)?.value());
                let per_density = "0.99985 / (d@mix.calibration.density - a@mix.calibration.air)";
                between.push((name, volume, format!("{formula} * {per_density}")));
            } else {
                between.push((name, mean, formula));
            }
        }
        if let Some(temperature) = self.water_temperature.filter(|_| self.is_weighed()) {
            between.push(("density", water_density(temperature)?.into(), String::new()));
        }
        if let Some(alleys) = self.alleys {
            between.push(("alleys", alleys.passes().into(), format!("{}", alleys.passes().number())));
        }
        if self.is_weighed() {
            between.push(("air", air_density()?.into(), String::new()));
        }
        let takes = |input| self.method.inputs().contains(&input);
        if takes(In::Flow) && self.measured.contains_key(&In::Catch) {
            let formula = "V@mix.calibration.catch / t@mix.calibration.catch_time".into();
            between.push((In::Flow.name(), self.flow()?.value().into(), formula));
        }
        if takes(In::Speed) && self.measured.contains_key(&In::Course) {
            let formula = "L@mix.calibration.course / T@mix.calibration.course_time".into();
            between.push((In::Speed.name(), self.speed()?.value().into(), formula));
        }
        Ok(between)
    }

    /// Refuses two ways to one input, where the method takes either.
    fn one_of(&self, one: CalibrationInput, other: CalibrationInput) -> Result<(), Error> {
        let takes_either = self.method.inputs().contains(&one);
        if !(takes_either && self.measured.contains_key(&one) && self.measured.contains_key(&other)) {
            return Ok(());
        }
        let given = format_args!("{} and {}", one.name(), other.name());
        Err(Error::new(ErrorCode::BothGiven).at(one.name()).given(given).allowed(text::word("one of them")))
    }

    /// Whether a mass stands for a volume.
    fn is_weighed(&self) -> bool {
        let is_mass =
            |measurement: &Measurement| measurement.readings().first().is_some_and(|one| one.kind() == Kind::Mass);
        self.measured.iter().any(|(input, measurement)| input.may_be_weighed() && is_mass(measurement))
    }

    fn uncertain(&self, input: CalibrationInput) -> Result<UncertainQuantity, Error> {
        let Some(measurement) = self.measured.get(&input) else {
            return Err(Error::new(ErrorCode::MissingInput)
                .at(input.name())
                .allowed(text::calibration_example(input.name())));
        };
        measurement.uncertain(input.name(), &self.instruments).map_err(|error| error.at(input.name()))
    }

    fn value<Q: AdditiveKind>(&self, input: CalibrationInput) -> Result<Uncertain<Q>, Error> {
        self.uncertain(input)?.claim().map_err(|error| error.at(input.name()))
    }

    fn volume(&self, input: CalibrationInput) -> Result<Uncertain<crate::quantity::Volume>, Error> {
        let caught = self.uncertain(input)?;
        if caught.value().kind() != Kind::Mass {
            return caught.claim().map_err(|error| error.at(input.name()));
        }
        let density = match (self.measured.contains_key(&In::Density), self.water_temperature) {
            (true, _) => self.value(In::Density)?,
            (false, Some(temperature)) => Uncertain::exact(water_density(temperature)?)?,
            (false, None) => {
                let error = Error::new(ErrorCode::MissingInput).at(In::Density.name());
                return Err(error.allowed(text::DENSITY_OR_WATER));
            }
        };
        volume_of_catch(&caught.claim::<Mass>()?, &density)
    }

    fn flow(&self) -> Result<Uncertain<Flow>, Error> {
        match self.measured.contains_key(&In::Catch) {
            true => {
                let time = self.value::<Time>(In::CatchTime)?;
                positive(time.value()).map_err(|error| error.at(In::CatchTime.name()))?;
                self.volume(In::Catch)?.over(&time)
            }
            false => self.value(In::Flow),
        }
    }

    fn speed(&self) -> Result<Uncertain<Speed>, Error> {
        match self.measured.contains_key(&In::Course) {
            true => {
                let time = self.value::<Time>(In::CourseTime)?;
                positive(time.value()).map_err(|error| error.at(In::CourseTime.name()))?;
                self.value::<Length>(In::Course)?.over(&time)
            }
            false => self.value(In::Speed),
        }
    }
}

impl CalibrationInput {
    /// Whether its mass may stand for its volume.
    const fn may_be_weighed(self) -> bool {
        matches!(self, Self::Catch | Self::Refill | Self::Filled | Self::Volume)
    }
}
