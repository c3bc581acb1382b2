//! The calibration document: wire structs of a record and of what comes of it, and the way to a [`CalibrationRecord`] and back.

use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;

use serde::de::{self, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::job::At;
use super::stated::{Fraction, Stated};
use crate::error::{Error, ErrorCode};
use crate::label::Date;
use crate::quantity::{Quantity, Ratio, System, read_unit};
use crate::sprayer::{
    Alleys, Calibration, CalibrationInput, CalibrationMethod, CalibrationRecord, Difference, Instrument, Measurement,
    Setting,
};
use crate::text;
use crate::uncertainty::{Contribution, Interval};

choices! {
    /// A way to measure a volume rate, named after what is measured.
    MethodWire for CalibrationMethod {
        Flow = "flow", TimedCourse = "timed-course", CatchOverCourse = "catch-over-course", CatchOverArea = "catch-over-area",
        Refill = "refill", EmptiedTank = "emptied-tank", Spot = "spot", Plants = "plants", Band = "band", Alleys = "alleys",
        Sides = "sides",
    }
    /// Which alleys of an orchard are driven.
    AlleysWire for Alleys { Each = "each", EachTwice = "each-twice", EveryOther = "every-other" }
}

wire! {
    /// What was read of an input, and how well.
    struct MeasurementTable {
        /// A number, beside a unit, in place of `measured`.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        value: Option<f64>,
        /// Its unit.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        unit: Option<String>,
        /// One reading, or a list of them.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        measured: Option<Readings>,
        /// How far all readings may be off together: of their kind, or a part of the value in %.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tolerance: Option<Stated>,
        /// The smallest step that the instrument shows.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        resolution: Option<Stated>,
        /// The name of the instrument that it was read with, where others were too.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        instrument: Option<String>,
    }

    /// What several inputs were read with.
    struct InstrumentWire {
        /// Its name.
        name: String,
        /// How far it may be off, as a part of what it shows.
        tolerance: Fraction,
    }

    /// What a calibration was measured with and where.
    struct SettingWire {
        /// The sprayer's name.
        sprayer: String,
        /// Who sprays.
        operator: String,
        /// The nozzles.
        nozzles: String,
        /// Pressure at the gauge.
        pressure: Stated,
        /// The ground.
        ground: String,
        /// When.
        date: String,
    }
}

/// Declares the record with a key for each input.
macro_rules! record {
    ($($(#[$doc:meta])* $input:ident: $variant:ident,)*) => {
        wire! {
            /// A calibration as it was written down: the method, what was read of each of its inputs, and in which setting.
            struct CalibrationWire {
                /// How it was measured.
                method: MethodWire,
                $(
                    $(#[$doc])*
                    #[serde(default, skip_serializing_if = "Option::is_none")]
                    $input: Option<MeasurementWire>,
                )*
                /// Which alleys are driven: for the method of that name.
                #[serde(default, skip_serializing_if = "Option::is_none")]
                alleys: Option<AlleysWire>,
                /// What several inputs were read with.
                #[serde(default, skip_serializing_if = "Vec::is_empty")]
                instruments: Vec<InstrumentWire>,
                /// The temperature of the water that was weighed, in place of its density.
                #[serde(default, skip_serializing_if = "Option::is_none")]
                water_temperature: Option<Stated>,
                /// What it was measured with and where.
                #[serde(default, skip_serializing_if = "Option::is_none")]
                setting: Option<SettingWire>,
                /// The setting that it is to be used in.
                #[serde(default, skip_serializing_if = "Option::is_none")]
                use_in: Option<SettingWire>,
                /// The age up to which it is accepted.
                #[serde(default, skip_serializing_if = "Option::is_none")]
                oldest: Option<Stated>,
                /// The probability that its intervals hold the truth with; 95 % where absent.
                #[serde(default, skip_serializing_if = "Option::is_none")]
                coverage: Option<Fraction>,
                /// The probability of being over the label's maximum that is taken.
                #[serde(default, skip_serializing_if = "Option::is_none")]
                risk: Option<Fraction>,
            }
        }

        impl CalibrationWire {
            fn measured(&self) -> impl Iterator<Item = (CalibrationInput, &MeasurementWire)> {
                [$((CalibrationInput::$variant, self.$input.as_ref()),)*]
                    .into_iter()
                    .filter_map(|(input, measurement)| measurement.map(|measurement| (input, measurement)))
            }

            pub(super) fn of(record: &CalibrationRecord) -> Self {
                let measured = |input| record.measurement(input).map(MeasurementWire::of);
                Self {
                    method: record.method().into(),
                    $($input: measured(CalibrationInput::$variant),)*
                    alleys: record.alleys().map(AlleysWire::from),
                    instruments: record.instruments().iter().map(InstrumentWire::of).collect(),
                    water_temperature: record.water_temperature().map(Stated::of),
                    setting: record.setting().map(SettingWire::of),
                    use_in: record.use_in().map(SettingWire::of),
                    oldest: record.oldest().map(Stated::of),
                    coverage: Some(record.coverage().into()),
                    risk: record.risk().map(Fraction::from),
                }
            }
        }
    };
}

record! {
    /// Flow of the nozzles over the swath; of all nozzles of a row or of an alley for those methods.
    flow: Flow,
    /// Speed over the ground.
    speed: Speed,
    /// Treated width of the nozzles that the flow or the catch is of; their spacing for one nozzle.
    swath: Swath,
    /// Volume caught, or its mass.
    catch: Catch,
    /// How long it was caught.
    catch_time: CatchTime,
    /// Length that was driven or walked.
    course: Course,
    /// How long that took.
    course_time: CourseTime,
    /// Ground that was sprayed.
    area: Area,
    /// Volume that fills the tank up again, or its mass.
    refill: Refill,
    /// Volume that was filled in, or its mass.
    filled: Filled,
    /// What stayed in the sprayer.
    residual: Residual,
    /// Ground of one spot.
    spot: Spot,
    /// How long one spot is sprayed.
    spot_time: SpotTime,
    /// Volume sprayed on one plant, or its mass.
    volume: Volume,
    /// Ground of one plant.
    ground: Ground,
    /// Treated width in each row.
    band: Band,
    /// Distance from row to row.
    row_spacing: RowSpacing,
    /// Flow of the left side.
    left: Left,
    /// Flow of the right side.
    right: Right,
    /// Density of what was weighed.
    density: Density,
}

impl CalibrationWire {
    pub(super) fn record(&self) -> Result<CalibrationRecord, Error> {
        let mut record = CalibrationRecord::new(self.method.into());
        for instrument in &self.instruments {
            let place = format!("instruments[{}]", record.instruments().len());
            record = record.with_instrument(instrument.instrument().at(&place)?)?;
        }
        for (input, measurement) in self.measured() {
            let measurement = measurement.measurement().map_err(|error| match error.code() {
                ErrorCode::MissingUnit => error.allowed(text::input_example(input.name())),
                _ => error,
            });
            record = record.with(input, measurement.at(input.name())?)?;
        }
        if let Some(alleys) = self.alleys {
            record = record.with_alleys(alleys.into())?;
        }
        if let Some(temperature) = &self.water_temperature {
            record = record.with_water_temperature(temperature.claim().at("water_temperature")?)?;
        }
        if let Some(setting) = &self.setting {
            record = record.with_setting(setting.setting().at("setting")?);
        }
        if let Some(setting) = &self.use_in {
            record = record.with_use_in(setting.setting().at("use_in")?);
        }
        if let Some(age) = &self.oldest {
            record = record.with_oldest(age.claim().at("oldest")?)?;
        }
        if let Some(coverage) = &self.coverage {
            record = record.with_coverage(coverage.0.fraction().at("coverage")?)?;
        }
        match &self.risk {
            Some(risk) => record.with_risk(risk.0.fraction().at("risk")?),
            None => Ok(record),
        }
    }

    /// The measures that its first input is read in.
    pub(super) fn system(&self) -> Option<System> {
        self.measured().find_map(|(_, measurement)| measurement.system())
    }
}

impl InstrumentWire {
    fn instrument(&self) -> Result<Instrument, Error> {
        Instrument::new(&self.name, self.tolerance.0.fraction().at("tolerance")?)
    }

    fn of(instrument: &Instrument) -> Self {
        Self { name: instrument.name().to_string(), tolerance: instrument.tolerance().into() }
    }
}

impl SettingWire {
    fn setting(&self) -> Result<Setting, Error> {
        let named = |key: &str, name: &str| text::legible_at(key, name);
        Ok(Setting {
            sprayer: named("sprayer", &self.sprayer)?,
            operator: named("operator", &self.operator)?,
            nozzles: named("nozzles", &self.nozzles)?,
            pressure: self.pressure.claim().at("pressure")?,
            ground: named("ground", &self.ground)?,
            date: Date::read(&self.date).at("date")?,
        })
    }

    fn of(setting: &Setting) -> Self {
        Self {
            sprayer: setting.sprayer.to_string(),
            operator: setting.operator.to_string(),
            nozzles: setting.nozzles.to_string(),
            pressure: Stated::of(setting.pressure),
            ground: setting.ground.to_string(),
            date: setting.date.to_string(),
        }
    }
}

/// One reading, or a list of them.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Readings {
    One(Stated),
    Many(Vec<Stated>),
}

/// Readings, or a table that says how well they were read.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum MeasurementWire {
    Readings(Readings),
    Table(MeasurementTable),
}

/// What stands where a reading may: a quantity's text or parts, a list, and for a measurement a table.
macro_rules! reading_forms {
    ($wire:ident, $value:ident => $wrapped:expr, $map:expr) => {
        impl<'de> Deserialize<'de> for $wire {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct Any;

                impl<'de> Visitor<'de> for Any {
                    type Value = $wire;

                    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                        f.write_str(text::READING_FORMS)
                    }
                    fn visit_str<E: de::Error>(self, text: &str) -> Result<$wire, E> {
                        let $value = Readings::One(Stated::deserialize(de::value::StrDeserializer::<E>::new(text))?);
                        Ok($wrapped)
                    }
                    fn visit_f64<E: de::Error>(self, number: f64) -> Result<$wire, E> {
                        let $value = Readings::One(Stated::Number(number));
                        Ok($wrapped)
                    }
                    fn visit_bytes<E: de::Error>(self, bytes: &[u8]) -> Result<$wire, E> {
                        let $value = Readings::One(Stated::deserialize(de::value::BytesDeserializer::<E>::new(bytes))?);
                        Ok($wrapped)
                    }
                    fn visit_seq<A: SeqAccess<'de>>(self, list: A) -> Result<$wire, A::Error> {
                        let $value = Readings::Many(Vec::deserialize(de::value::SeqAccessDeserializer::new(list))?);
                        Ok($wrapped)
                    }
                    fn visit_map<A: MapAccess<'de>>(self, table: A) -> Result<$wire, A::Error> {
                        let table = de::value::MapAccessDeserializer::new(table);
                        let read: fn(_) -> Result<$wire, A::Error> = $map;
                        read(table)
                    }
                }

                deserializer.deserialize_any(Any)
            }
        }
    };
}

reading_forms!(Readings, readings => readings, |table| Stated::deserialize(table).map(Readings::One));
reading_forms!(MeasurementWire, readings => MeasurementWire::Readings(readings), |table| {
    MeasurementTable::deserialize(table).map(MeasurementWire::Table)
});

impl Serialize for Readings {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::One(one) => one.serialize(serializer),
            Self::Many(many) => many.serialize(serializer),
        }
    }
}

impl Serialize for MeasurementWire {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Readings(readings) => readings.serialize(serializer),
            Self::Table(table) => table.serialize(serializer),
        }
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Readings {
    fn schema_name() -> alloc::borrow::Cow<'static, str> {
        "Readings".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let one = generator.subschema_for::<Stated>();
        schemars::json_schema!({
            "description": text::READING_FORMS,
            "anyOf": [one, { "type": "array", "items": one, "minItems": 1, "maxItems": 1000 }]
        })
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for MeasurementWire {
    fn schema_name() -> alloc::borrow::Cow<'static, str> {
        "Measurement".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let readings = generator.subschema_for::<Readings>();
        let table = generator.subschema_for::<MeasurementTable>();
        schemars::json_schema!({ "description": text::READING_FORMS, "anyOf": [readings, table] })
    }
}

impl Readings {
    fn quantities(&self) -> Result<Vec<Quantity>, Error> {
        match self {
            Self::One(one) => Ok(Vec::from([one.read()?.0])),
            Self::Many(many) => {
                let read = |(i, one): (usize, &Stated)| one.read().at(&format!("[{i}]")).map(|(quantity, _)| quantity);
                many.iter().enumerate().map(read).collect()
            }
        }
    }
}

impl MeasurementWire {
    fn system(&self) -> Option<System> {
        let read = |stated: &Stated| stated.read().ok().and_then(|(_, unit)| unit.system);
        let of_readings = |readings: &Readings| match readings {
            Readings::One(one) => read(one),
            Readings::Many(many) => many.iter().find_map(read),
        };
        match self {
            Self::Readings(readings) => of_readings(readings),
            Self::Table(table) => match (&table.measured, table.value, &table.unit) {
                (Some(readings), ..) => of_readings(readings),
                (None, Some(_), Some(unit)) => read_unit(unit).ok().and_then(|unit| unit.system),
                _ => None,
            },
        }
    }

    fn measurement(&self) -> Result<Measurement, Error> {
        match self {
            Self::Readings(readings) => Measurement::new(&readings.quantities()?),
            Self::Table(table) => table.measurement(),
        }
    }

    fn of(measurement: &Measurement) -> Self {
        let readings = match measurement.readings() {
            [one] => Readings::One(Stated::of(*one)),
            many => Readings::Many(many.iter().map(|reading| Stated::of(*reading)).collect()),
        };
        if measurement.is_bare() {
            return Self::Readings(readings);
        }
        Self::Table(MeasurementTable {
            value: None,
            unit: None,
            measured: Some(readings),
            tolerance: measurement.tolerance().map(Stated::of),
            resolution: measurement.resolution().map(Stated::of),
            instrument: measurement.instrument().map(ToString::to_string),
        })
    }
}

impl MeasurementTable {
    fn measurement(&self) -> Result<Measurement, Error> {
        let readings = match (&self.measured, self.value, &self.unit) {
            (Some(readings), None, None) => readings.quantities().at("measured")?,
            (None, Some(value), Some(unit)) => Vec::from([Quantity::from_parts(value, unit)?]),
            (None, None, None) => {
                return Err(Error::new(ErrorCode::MissingInput).at("measured").allowed(text::READING_FORMS));
            }
            (None, Some(_), None) => {
                return Err(Error::new(ErrorCode::MissingUnit).at("unit").allowed(text::READING_FORMS));
            }
            (None, None, Some(_)) => {
                return Err(Error::new(ErrorCode::MissingInput).at("value").allowed(text::word("a number")));
            }
            (Some(_), ..) => {
                let given = text::word("measured and value");
                let error = Error::new(ErrorCode::BothGiven).at("measured").given(given);
                return Err(error.allowed(text::word("one of them")));
            }
        };
        let mut measurement = Measurement::new(&readings)?;
        if let Some(tolerance) = &self.tolerance {
            measurement = measurement.with_tolerance(tolerance.read().at("tolerance")?.0)?;
        }
        if let Some(resolution) = &self.resolution {
            measurement = measurement.with_resolution(resolution.read().at("resolution")?.0)?;
        }
        match &self.instrument {
            Some(name) => measurement.with_instrument(name),
            None => Ok(measurement),
        }
    }
}

wire_out! {
    /// What a calibration comes to.
    struct CalibratedWire {
        /// The volume rate, and how well it is known.
        volume_rate: Stated,
        /// Its standard uncertainty.
        standard_uncertainty: Stated,
        /// How well that is known; null where it is taken as known.
        degrees_of_freedom: Option<f64>,
        /// The probability that the interval holds the truth with.
        coverage: f64,
        /// Half the interval in standard uncertainties.
        coverage_factor: Option<f64>,
        /// Between what the true volume rate is.
        interval: Option<IntervalWire>,
        /// What each input adds to the doubt, the most first.
        contributions: Vec<ContributionWire>,
        /// What differs between the setting that it was measured in and the one that it is used in.
        differences: Vec<&'static str>,
    }

    /// From where to where.
    struct IntervalWire {
        /// The lower end.
        low: Stated,
        /// The upper end.
        high: Stated,
    }

    /// What an input adds to a doubt.
    struct ContributionWire {
        /// The input.
        name: String,
        /// The standard uncertainty that there would be from it alone.
        standard_uncertainty: Stated,
        /// Its part of the squared standard uncertainty.
        share_of_variance: f64,
    }
}

impl IntervalWire {
    pub(super) fn of<Q: Copy + Into<Quantity>>(interval: Interval<Q>) -> Self {
        Self { low: Stated::of(interval.low()), high: Stated::of(interval.high()) }
    }
}

impl CalibratedWire {
    pub(super) fn of(record: &CalibrationRecord, calibration: &Calibration) -> Self {
        let rate = calibration.volume_rate();
        let contribution = |one: &Contribution<_>| ContributionWire {
            name: one.name().to_string(),
            standard_uncertainty: Stated::of(one.standard_uncertainty()),
            share_of_variance: one.share_of_variance().number(),
        };
        Self {
            volume_rate: Stated::of(rate.value()),
            standard_uncertainty: Stated::of(rate.standard_uncertainty()),
            degrees_of_freedom: rate.degrees_of_freedom().number().map(Ratio::number),
            coverage: record.coverage().number(),
            coverage_factor: rate.coverage_factor(record.coverage()).ok().map(Ratio::number),
            // A coverage that the record took has an interval.
            interval: calibration.interval(record).ok().map(IntervalWire::of),
            contributions: rate.contributions().iter().map(contribution).collect(),
            differences: record.differences().into_iter().map(Difference::name).collect(),
        }
    }
}
