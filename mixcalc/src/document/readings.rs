//! Readings of calibrations and nozzle checks as a tidy table: CSV with one reading a row.

use alloc::collections::BTreeMap;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

use crate::error::{Error, ErrorCode};
use crate::quantity::{Flow, Quantity, Ratio, Time, Volume, positive};
use crate::sprayer::{
    Alleys, BoomSide, CalibrationInput, CalibrationMethod, CalibrationRecord, CheckedSet, MOST_NOZZLES, Measurement,
    NewNozzle, NozzleCatches, NozzleCheck, flow, too_many_nozzles,
};
use crate::text;
use crate::uncertainty::UncertainQuantity;

/// The columns; those from `unit` on may be left out.
const COLUMNS: [&str; 11] =
    ["check", "method", "input", "value", "unit", "nozzle", "side", "time", "tolerance", "resolution", "alleys"];
const REQUIRED: usize = 4;
/// The method of a check of nozzles, and its inputs.
const NOZZLE_CHECK: &str = "nozzle-check";
const NOZZLE_INPUTS: [&str; 5] = ["catch", "rated", "new", "repeatability", "common"];
/// More is no table of readings.
const LONGEST: usize = 64 << 20;

/// A row that is left out, and why. It is never repaired.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct FlaggedRow {
    /// Where it begins in the table, from 1, the header being the first.
    pub line: u64,
    /// The check that it says it belongs to.
    pub check: String,
    /// What is wrong with it; its path is the column.
    pub error: Error,
}

/// A calibration that a table holds.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct ReadCalibration {
    /// The name that its rows share.
    pub check: String,
    /// What was read; [`CalibrationRecord::calibration`] works it out.
    pub record: Result<CalibrationRecord, Error>,
    /// How many of its rows are flagged and left out.
    pub flagged: usize,
}

/// A check of nozzles that a table holds.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct ReadNozzleCheck {
    /// The name that its rows share.
    pub check: String,
    /// What the catches are checked against.
    pub against: Result<NozzleCheck, Error>,
    /// What was caught from each nozzle, in the order of the table.
    pub catches: Vec<NozzleCatches>,
    /// How many of its rows are flagged and left out.
    pub flagged: usize,
}

impl ReadNozzleCheck {
    /// Judges the catches.
    ///
    /// # Errors
    ///
    /// What stood against the check, and as [`NozzleCheck::judge`].
    pub fn judge(&self) -> Result<CheckedSet, Error> {
        self.against.as_ref().map_err(Clone::clone)?.judge(&self.catches)
    }
}

/// What a table of readings holds.
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Readings {
    /// The calibrations, in the order in which they begin.
    pub calibrations: Vec<ReadCalibration>,
    /// The checks of nozzles, in the order in which they begin.
    pub nozzle_checks: Vec<ReadNozzleCheck>,
    /// The rows that are left out.
    pub flagged: Vec<FlaggedRow>,
}

/// Reads a tidy table of readings: CSV (RFC 4180) with a header and one reading a row. The columns are in `docs/documents.md`.
///
/// A row that cannot be read is flagged and left out, never repaired, and the rows of other checks are read; each check says how many of its rows
/// that are.
///
/// # Errors
///
/// For the table: [`TooLarge`](ErrorCode::TooLarge) (over 64 MiB), [`UnreadableDocument`](ErrorCode::UnreadableDocument) for what is not UTF-8;
/// for its header: [`UnknownKey`](ErrorCode::UnknownKey) with the nearest column, [`DuplicateKey`](ErrorCode::DuplicateKey), and
/// [`MissingInput`](ErrorCode::MissingInput) at a column that must be there.
///
/// # Example
///
/// Two catches over a course of 100 m, and one that was written down as nothing: 0.6 L / (100 m x 0.5 m) = 120 L/ha.
///
/// ```
/// let table = "\
/// check,method,input,value,unit,tolerance
/// spring,catch-over-course,catch,0.59,L,2 %
/// spring,catch-over-course,catch,n/a,L,2 %
/// spring,catch-over-course,catch,0.61,L,2 %
/// spring,catch-over-course,course,100,m,
/// spring,catch-over-course,swath,0.5,m,
/// ";
/// let readings = mixcalc::document::read_readings(table.as_bytes())?;
/// assert_eq!((readings.flagged[0].line, readings.flagged[0].error.path()), (3, "value"));
/// let spring = &readings.calibrations[0];
/// let rate = spring.record.clone()?.calibration()?;
/// assert!((rate.volume_rate().value().liters_per_hectare() - 120.0).abs() < 1e-9);
/// assert_eq!(spring.flagged, 1);
/// # Ok::<(), mixcalc::Error>(())
/// ```
pub fn read_readings(table: &[u8]) -> Result<Readings, Error> {
    if table.len() > LONGEST {
        let error = Error::new(ErrorCode::TooLarge).given(format_args!("{} bytes", table.len()));
        return Err(error.allowed(format_args!("{LONGEST} bytes")));
    }
    let unreadable = |why: String| Error::new(ErrorCode::UnreadableDocument).given(why);
    let table = table.strip_prefix(b"\xef\xbb\xbf").unwrap_or(table);
    let table = core::str::from_utf8(table).map_err(|error| unreadable(error.to_string()))?;
    let mut reader = csv::ReaderBuilder::new().flexible(true).trim(csv::Trim::All).from_reader(table.as_bytes());
    let columns = columns(reader.headers().map_err(|error| unreadable(format!("CSV: {error}")))?)?;

    let mut groups: Vec<Group> = Vec::new();
    let mut known: BTreeMap<String, usize> = BTreeMap::new();
    let mut flagged = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| unreadable(format!("CSV: {error}")))?;
        let line = record.position().map_or(0, csv::Position::line);
        let row = Row { columns: &columns, record: &record };
        let check = row.text("check").to_string();
        let read = row.is_whole().and_then(|()| {
            let method = row.required("method")?;
            let at = known.get(&check).copied();
            if let Some(other) =
                at.and_then(|at| groups.get(at)).map(|group| group.method).filter(|of| of.name() != method)
            {
                return Err(unlike(method, other.name()).at("method"));
            }
            row.required("check")?;
            let method = Method::read(method)?;
            let reading = row.reading(method)?;
            let at = *known.entry(check.clone()).or_insert(groups.len());
            if at == groups.len() {
                groups.push(Group { check: check.clone(), method, inputs: Vec::new(), flagged: 0 });
            }
            groups.get_mut(at).map_or(Ok(()), |group| group.take(reading))
        });
        if let Err(error) = read {
            flagged.push(FlaggedRow { line, check, error });
        }
    }
    for row in &flagged {
        let group = known.get(&row.check).and_then(|at| groups.get_mut(*at));
        group.into_iter().for_each(|group| group.flagged += 1);
    }

    let mut readings = Readings { flagged, ..Readings::default() };
    for group in groups {
        match group.method {
            Method::Calibration(method) => readings.calibrations.push(ReadCalibration {
                record: group.record(method),
                check: group.check,
                flagged: group.flagged,
            }),
            Method::NozzleCheck => {
                let catches = group.catches();
                readings.nozzle_checks.push(ReadNozzleCheck {
                    against: catches.as_ref().map_err(Clone::clone).and_then(|_| group.against()),
                    catches: catches.unwrap_or_default(),
                    check: group.check,
                    flagged: group.flagged,
                });
            }
        }
    }
    Ok(readings)
}

/// Where each column stands.
fn columns(header: &csv::StringRecord) -> Result<BTreeMap<&'static str, usize>, Error> {
    let mut columns = BTreeMap::new();
    for (place, name) in header.iter().enumerate() {
        let Some(column) = COLUMNS.into_iter().find(|column| *column == name) else {
            let nearest = text::nearest(name, COLUMNS).map_or_else(|| COLUMNS.join(", "), text::quoted);
            return Err(Error::new(ErrorCode::UnknownKey).at("header").given(text::quoted(name)).allowed(nearest));
        };
        if columns.insert(column, place).is_some() {
            return Err(Error::new(ErrorCode::DuplicateKey).at("header").given(text::quoted(name)));
        }
    }
    match COLUMNS.iter().take(REQUIRED).find(|column| !columns.contains_key(*column)) {
        Some(column) => Err(missing("header", column)),
        None => Ok(columns),
    }
}

fn missing(at: &str, what: &str) -> Error {
    Error::new(ErrorCode::MissingInput).at(at).allowed(text::quoted(what))
}

/// What differs from what an earlier row of the same thing says.
fn unlike(given: &str, earlier: &str) -> Error {
    Error::new(ErrorCode::UnknownChoice).given(text::quoted(given)).allowed(text::as_earlier(earlier))
}

/// The choice of a name among those that there are.
fn chosen<T: Copy>(at: &str, name: &str, all: &[T], name_of: fn(T) -> &'static str) -> Result<T, Error> {
    all.iter().copied().find(|one| name_of(*one) == name).ok_or_else(|| {
        let names: Vec<_> = all.iter().map(|one| name_of(*one)).collect();
        let nearest = text::nearest(name, names.iter().copied()).map_or_else(|| names.join(", "), text::quoted);
        Error::new(ErrorCode::UnknownChoice).at(at).given(text::quoted(name)).allowed(nearest)
    })
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Method {
    Calibration(CalibrationMethod),
    NozzleCheck,
}

impl Method {
    fn read(name: &str) -> Result<Self, Error> {
        let mut all = Vec::from([Self::NozzleCheck]);
        all.extend(CalibrationMethod::all().iter().map(|method| Self::Calibration(*method)));
        chosen("method", name, &all, Self::name)
    }

    const fn name(self) -> &'static str {
        match self {
            Self::Calibration(method) => method.name(),
            Self::NozzleCheck => NOZZLE_CHECK,
        }
    }
}

/// A row of the table.
struct Row<'a> {
    columns: &'a BTreeMap<&'static str, usize>,
    record: &'a csv::StringRecord,
}

/// What a row says, once it is read.
struct Reading {
    input: String,
    nozzle: String,
    side: Option<BoomSide>,
    value: Quantity,
    tolerance: Option<Quantity>,
    resolution: Option<Quantity>,
    alleys: Option<Alleys>,
}

impl Row<'_> {
    fn text(&self, column: &str) -> &str {
        self.columns.get(column).and_then(|place| self.record.get(*place)).unwrap_or_default()
    }

    fn required(&self, column: &str) -> Result<&str, Error> {
        Some(self.text(column)).filter(|text| !text.is_empty()).ok_or_else(|| {
            Error::new(ErrorCode::MissingInput).at(column).allowed(text::word("something in this column"))
        })
    }

    fn is_whole(&self) -> Result<(), Error> {
        if self.record.len() == self.columns.len() {
            return Ok(());
        }
        let given = text::fields_under(self.record.len(), self.columns.len());
        Err(Error::new(ErrorCode::UnreadableDocument).given(given))
    }

    fn quantity(&self, column: &'static str) -> Result<Option<Quantity>, Error> {
        let text = self.text(column);
        (!text.is_empty()).then(|| Quantity::read(text).map_err(|error| error.at(column))).transpose()
    }

    fn reading(&self, method: Method) -> Result<Reading, Error> {
        let input = self.required("input")?;
        let of_nozzles = method == Method::NozzleCheck;
        if of_nozzles {
            chosen("input", input, &NOZZLE_INPUTS, |name| name)?;
        } else {
            chosen("input", input, CalibrationInput::all(), CalibrationInput::name)?;
        }
        let text = format!("{} {}", self.required("value")?, self.text("unit"));
        let value = Quantity::read(text.trim_end()).map_err(|error| error.at("value"))?;
        let value = match self.quantity("time")? {
            Some(time) => {
                let time: Time = time.claim().map_err(|error| error.at("time"))?;
                let volume = value.claim::<Volume>().and_then(positive).map_err(|error| error.at("value"))?;
                Quantity::of(flow(volume, time)?)
            }
            None => value,
        };
        let side = Some(self.text("side")).filter(|side| !side.is_empty());
        let alleys = Some(self.text("alleys")).filter(|alleys| !alleys.is_empty());
        let nozzle = if of_nozzles && input == "catch" { self.required("nozzle")? } else { self.text("nozzle") };
        Ok(Reading {
            input: input.into(),
            nozzle: nozzle.into(),
            side: side.map(|side| chosen("side", side, BoomSide::all(), BoomSide::name)).transpose()?,
            value,
            tolerance: self.quantity("tolerance")?,
            resolution: self.quantity("resolution")?,
            alleys: alleys.map(|alleys| chosen("alleys", alleys, Alleys::all(), Alleys::name)).transpose()?,
        })
    }
}

/// The readings of one input, of one nozzle where the input is its catch.
struct Input {
    name: String,
    nozzle: String,
    side: Option<BoomSide>,
    readings: Vec<Quantity>,
    tolerance: Option<Quantity>,
    resolution: Option<Quantity>,
    alleys: Option<Alleys>,
}

impl Input {
    fn measurement(&self) -> Result<Measurement, Error> {
        let mut measurement = Measurement::new(&self.readings)?;
        if let Some(tolerance) = self.tolerance {
            measurement = measurement.with_tolerance(tolerance)?;
        }
        if let Some(resolution) = self.resolution {
            measurement = measurement.with_resolution(resolution)?;
        }
        Ok(measurement)
    }

    /// The value where one is due.
    fn only(&self) -> Result<Quantity, Error> {
        match self.readings.as_slice() {
            [one] => Ok(*one),
            _ => Err(Error::new(ErrorCode::DuplicateName).at(&self.name).given(text::quoted(&self.name))),
        }
    }

    /// One value, and how far it may be off.
    fn uncertain(&self) -> Result<UncertainQuantity, Error> {
        self.only()?;
        self.measurement()?.uncertain(&self.name, &[])
    }

    fn flows(&self) -> Result<Vec<Flow>, Error> {
        self.readings.iter().map(|reading| reading.claim()).collect()
    }
}

/// The rows of one check.
struct Group {
    check: String,
    method: Method,
    inputs: Vec<Input>,
    flagged: usize,
}

impl Group {
    fn take(&mut self, reading: Reading) -> Result<(), Error> {
        let Reading { input, nozzle, side, value, tolerance, resolution, alleys } = reading;
        if self.method == Method::NozzleCheck && matches!(&*input, "catch" | "rated" | "new") {
            let caught: Flow = value.claim().map_err(|error| error.at("value"))?;
            positive(caught).map_err(|error| error.at("value"))?;
            if input == "catch" {
                NozzleCatches::new(&nozzle, &[caught]).map_err(|error| error.placed("nozzle"))?;
            }
        }
        let Some(known) = self.inputs.iter_mut().find(|known| known.name == input && known.nozzle == nozzle) else {
            // They are searched one after the other, so that there may not be any number of them.
            if self.inputs.len() >= MOST_NOZZLES {
                return Err(too_many_nozzles(self.inputs.len()).placed("nozzle"));
            }
            self.inputs.push(Input {
                name: input,
                nozzle,
                side,
                readings: Vec::from([value]),
                tolerance,
                resolution,
                alleys,
            });
            return Ok(());
        };
        let shown = |quantity: Option<Quantity>| quantity.map_or_else(String::new, |quantity| quantity.to_string());
        let same = [
            ("side", side.map_or("", BoomSide::name).to_string(), known.side.map_or("", BoomSide::name).to_string()),
            ("tolerance", shown(tolerance), shown(known.tolerance)),
            ("resolution", shown(resolution), shown(known.resolution)),
            ("alleys", alleys.map_or("", Alleys::name).to_string(), known.alleys.map_or("", Alleys::name).to_string()),
        ];
        if let Some((column, given, earlier)) = same.iter().find(|(_, given, earlier)| given != earlier) {
            return Err(unlike(given, earlier).at(column));
        }
        if let Some(first) = known.readings.first() {
            first.plus(value).map_err(|error| error.at("value"))?;
        }
        known.readings.push(value);
        Ok(())
    }

    fn input(&self, name: &str) -> Option<&Input> {
        self.inputs.iter().find(|input| input.name == name)
    }

    fn record(&self, method: CalibrationMethod) -> Result<CalibrationRecord, Error> {
        let mut record = CalibrationRecord::new(method);
        for input in &self.inputs {
            let of = chosen("input", &input.name, CalibrationInput::all(), CalibrationInput::name)?;
            record = record.with(of, input.measurement().map_err(|error| error.at(&input.name))?)?;
        }
        match self.inputs.iter().find_map(|input| input.alleys) {
            Some(alleys) => record.with_alleys(alleys),
            None => Ok(record),
        }
    }

    fn against(&self) -> Result<NozzleCheck, Error> {
        let new = match (self.input("rated"), self.input("new")) {
            (Some(rated), None) => NewNozzle::Rated(rated.uncertain()?.claim()?),
            (None, Some(new)) => NewNozzle::Caught(NozzleCatches::new("new", &new.flows()?)?),
            (Some(_), Some(_)) => return Err(Error::new(ErrorCode::BothGiven).at("input").given("rated, new")),
            (None, None) => return Err(missing("input", "rated")),
        };
        let mut check = NozzleCheck::new(new);
        if let Some(repeatability) = self.input("repeatability") {
            check = check.with_repeatability(repeatability.only()?.claim()?)?;
        }
        if let Some(common) = self.input("common") {
            check = check.with_common(&common.uncertain()?.claim::<Ratio>()?)?;
        }
        Ok(check)
    }

    fn catches(&self) -> Result<Vec<NozzleCatches>, Error> {
        let caught = self.inputs.iter().filter(|input| input.name == "catch");
        caught
            .map(|input| {
                let catches = NozzleCatches::new(&input.nozzle, &input.flows()?)?;
                Ok(match input.side {
                    Some(side) => catches.on_side(side),
                    None => catches,
                })
            })
            .collect()
    }
}
