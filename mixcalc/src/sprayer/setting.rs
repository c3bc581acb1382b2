//! What a calibration was measured with and where, and what differs from that.

use alloc::sync::Arc;
use alloc::vec::Vec;

use crate::error::{Error, ErrorCode};
use crate::quantity::close::{is_close, is_over};
use crate::quantity::{Pressure, Time};
use crate::text;

/// A day of the calendar, as text `2026-05-01`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Day {
    /// Since 1 March of the year 0.
    number: u32,
}

impl Day {
    /// Reads a day.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for anything but a day of the years 1 to 9999, as year, month and day with two and four digits.
    ///
    /// # Source
    ///
    /// ISO 8601-1:2019, 5.2.2; the Gregorian calendar.
    pub fn read(text: &str) -> Result<Self, Error> {
        let refused =
            || Error::new(ErrorCode::OutOfRange).at("day").given(text::quoted(text)).allowed("\"2026-05-01\"");
        let digits = |part: Option<&str>, count: usize| {
            let part = part.filter(|part| part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit()));
            part.and_then(|part| part.parse::<u32>().ok()).ok_or_else(refused)
        };
        let mut parts = text.split('-');
        let (year, month, day) = (digits(parts.next(), 4)?, digits(parts.next(), 2)?, digits(parts.next(), 2)?);
        let is_leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let length = match month {
            2 => 28 + u32::from(is_leap),
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => return Err(refused()),
        };
        if parts.next().is_some() || year == 0 || !(1..=length).contains(&day) {
            return Err(refused());
        }
        // From March on, the months before one have 30.6 days each, rounded.
        let (years, months) = if month < 3 { (year - 1, month + 9) } else { (year, month - 3) };
        let number = 365 * years + years / 4 - years / 100 + years / 400 + (153 * months + 2) / 5 + day - 1;
        Ok(Self { number })
    }

    /// How long after another day it is; none where it is not after it.
    #[must_use]
    pub fn since(self, other: Self) -> Time {
        const SECONDS: f64 = 86_400.0;
        let days = f64::from(self.number.saturating_sub(other.number));
        Time::from_seconds(SECONDS).unwrap_or(Time::ZERO) * days
    }
}

/// Sprayer, operator, nozzles, pressure, ground and day of a calibration, or of a job that is to use it.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// The sprayer's name.
    pub sprayer: Arc<str>,
    /// Who sprays: a carried sprayer is calibrated with its operator.
    pub operator: Arc<str>,
    /// The nozzles.
    pub nozzles: Arc<str>,
    /// Pressure at the gauge.
    pub pressure: Pressure,
    /// The ground: its surface and slope set the pace and the slip of wheels.
    pub ground: Arc<str>,
    /// The day.
    pub day: Day,
}

/// What differs between two settings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Difference {
    /// Nobody stated what the calibration was measured with.
    Unstated,
    /// Another sprayer.
    Sprayer,
    /// Another operator.
    Operator,
    /// Other nozzles.
    Nozzles,
    /// Another pressure.
    Pressure,
    /// Other ground.
    Ground,
    /// It is older than is accepted.
    TooOld,
    /// It is of a later day than the job.
    LaterDay,
}

impl Setting {
    /// What differs where a calibration of this setting is used in another one, in the order of the fields.
    ///
    /// * `use_in`: the setting of the job.
    /// * `oldest`: the age up to which a calibration is accepted. It has no default: at the start of a season, after repairs, and where a label or a
    ///   law says so.
    ///
    /// # Example
    ///
    /// ```
    /// use mixcalc::{Day, Difference, Pressure, Setting, Time};
    ///
    /// let may = Setting {
    ///     sprayer: "knapsack 2".into(),
    ///     operator: "A".into(),
    ///     nozzles: "4 x 03".into(),
    ///     pressure: Pressure::read("200 kPa")?,
    ///     ground: "level stubble".into(),
    ///     day: Day::read("2026-05-01")?,
    /// };
    /// let july = Setting { operator: "B".into(), day: Day::read("2026-07-01")?, ..may.clone() };
    /// let month = Time::from_minutes(30.0 * 24.0 * 60.0)?;
    /// assert_eq!(may.differences(&july, month), [Difference::Operator, Difference::TooOld]);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    #[must_use]
    pub fn differences(&self, use_in: &Self, oldest: Time) -> Vec<Difference> {
        [
            (self.sprayer != use_in.sprayer, Difference::Sprayer),
            (self.operator != use_in.operator, Difference::Operator),
            (self.nozzles != use_in.nozzles, Difference::Nozzles),
            (!is_close(self.pressure, use_in.pressure), Difference::Pressure),
            (self.ground != use_in.ground, Difference::Ground),
            (is_over(use_in.day.since(self.day), oldest), Difference::TooOld),
            (self.day > use_in.day, Difference::LaterDay),
        ]
        .into_iter()
        .filter_map(|(differs, difference)| differs.then_some(difference))
        .collect()
    }
}
