//! What a calibration was measured with and where, and what differs from that.

use alloc::sync::Arc;
use alloc::vec::Vec;

use crate::label::Date;
use crate::quantity::close::{is_close, is_over};
use crate::quantity::{Pressure, Time};

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
    /// When.
    pub date: Date,
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

impl Difference {
    /// All of them.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[
            Self::Unstated,
            Self::Sprayer,
            Self::Operator,
            Self::Nozzles,
            Self::Pressure,
            Self::Ground,
            Self::TooOld,
            Self::LaterDay,
        ]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Unstated => "unstated",
            Self::Sprayer => "sprayer",
            Self::Operator => "operator",
            Self::Nozzles => "nozzles",
            Self::Pressure => "pressure",
            Self::Ground => "ground",
            Self::TooOld => "too-old",
            Self::LaterDay => "later-day",
        }
    }

    /// Where in the setting it lies.
    pub(crate) const fn place(self) -> &'static str {
        match self {
            Self::Unstated => "calibration.setting",
            Self::Sprayer => "calibration.setting.sprayer",
            Self::Operator => "calibration.setting.operator",
            Self::Nozzles => "calibration.setting.nozzles",
            Self::Pressure => "calibration.setting.pressure",
            Self::Ground => "calibration.setting.ground",
            Self::TooOld | Self::LaterDay => "calibration.setting.date",
        }
    }
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
    /// use mixcalc::{Date, Difference, Pressure, Setting, Time};
    ///
    /// let may = Setting {
    ///     sprayer: "knapsack 2".into(),
    ///     operator: "A".into(),
    ///     nozzles: "4 x 03".into(),
    ///     pressure: Pressure::read("200 kPa")?,
    ///     ground: "level stubble".into(),
    ///     date: Date::read("2026-05-01")?,
    /// };
    /// let july = Setting { operator: "B".into(), date: Date::read("2026-07-01")?, ..may.clone() };
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
            (is_over(use_in.date.since(self.date), oldest), Difference::TooOld),
            (self.date > use_in.date, Difference::LaterDay),
        ]
        .into_iter()
        .filter_map(|(differs, difference)| differs.then_some(difference))
        .collect()
    }
}
