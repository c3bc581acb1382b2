//! What a label limits over time, and the season that it is held against: treatments done, parcels, dates.

use alloc::sync::Arc;
use alloc::vec::Vec;
use core::fmt;

use super::{Dose, Label};
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Force, Limit};
use crate::quantity::{Area, Length, MassPerArea, Quantity, Ratio, Speed, Temperature, Time, not_negative, positive};
use crate::text::{self, legible_name};

/// A day of the calendar, as documents and records write it: `2026-05-31`.
///
/// ```
/// use mixcalc::Date;
///
/// assert_eq!(Date::read("2028-02-29")?.to_string(), "2028-02-29");
/// assert!(Date::read("2026-02-29").is_err());
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date(time::Date);

impl Date {
    /// Reads year, month and day with hyphens between (ISO 8601).
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for text of another form, and for a day that the calendar does not have.
    pub fn read(text: &str) -> Result<Self, Error> {
        let refused = || Error::new(ErrorCode::OutOfRange).given(text::quoted(text)).allowed(text::A_DATE);
        let is_digits = |part: &&str| part.bytes().all(|byte| byte.is_ascii_digit());
        let parts: Vec<&str> = text.split('-').filter(is_digits).collect();
        let [year, month, day] = parts.as_slice() else { return Err(refused()) };
        if text.len() != "2026-05-31".len() || (year.len(), month.len()) != (4, 2) {
            return Err(refused());
        }
        let month = month.parse::<u8>().ok().and_then(|month| time::Month::try_from(month).ok());
        let date = year.parse().ok().zip(month).zip(day.parse().ok());
        let date = date.and_then(|((year, month), day)| time::Date::from_calendar_date(year, month, day).ok());
        date.filter(|date| date.year() > 0).map(Self).ok_or_else(refused)
    }

    /// How long after another date it is; none where it is not after it.
    #[must_use]
    pub fn since(self, other: Self) -> Time {
        Time::of_days(u64::try_from(self.days_since(other)).unwrap_or(0))
    }

    /// Days from another date to this one.
    pub(crate) fn days_since(self, other: Self) -> i64 {
        i64::from(self.0.to_julian_day()) - i64::from(other.0.to_julian_day())
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.0.year(), u8::from(self.0.month()), self.0.day())
    }
}

/// The span of time that a cap counts amounts over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Window {
    /// From the start of the season on.
    Season,
    /// So many days, the last of which is the date.
    Days(u16),
    /// So many months of the calendar, up to and with the date.
    Months(u16),
    /// So many years of the calendar, up to and with the date.
    Years(u16),
}

impl Window {
    /// Whether a treatment is in the window that ends on a date: after the day that is so much earlier. A month that lacks that day has
    /// its last one instead. Every date from the start of the season on is in the season.
    pub(crate) fn holds(self, date: Date, end: Date, season_start: Option<Date>) -> bool {
        let months = match self {
            Self::Season => return season_start.is_none_or(|start| date >= start),
            Self::Days(days) => return date <= end && end.days_since(date) < i64::from(days),
            Self::Months(months) => i32::from(months),
            Self::Years(years) => 12 * i32::from(years),
        };
        let month = end.0.year() * 12 + i32::from(u8::from(end.0.month())) - 1 - months;
        let (year, month) = (month.div_euclid(12), month.rem_euclid(12) + 1);
        let before = u8::try_from(month)
            .ok()
            .and_then(|month| time::Month::try_from(month).ok())
            .and_then(|month| time::Date::from_calendar_date(year, month, end.0.day().min(month.length(year))).ok());
        date <= end && before.is_none_or(|before| date.0 > before)
    }
}

/// What the amounts of a cap are counted on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum CapBasis {
    /// The whole ground of a parcel: a band counts by the share of the ground that it is.
    #[default]
    GroundArea,
    /// The ground that was treated: a band counts in full.
    TreatedArea,
}

impl CapBasis {
    /// What there is to choose from.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::GroundArea, Self::TreatedArea]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::GroundArea => "ground-area",
            Self::TreatedArea => "treated-area",
        }
    }
}

/// What a cap counts, and the most of it per ground area.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Capped {
    /// The product, a dose per ground area.
    Product(Dose),
    /// An active substance under the name that it is summed under, from every product that has it.
    Substance(Arc<str>, MassPerArea),
}

/// One thing that a label limits over time, or before spraying.
///
/// What is to be looked at before spraying gates the spraying and not the plan: it becomes a note.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Rule {
    /// Most treatments with the product in a season.
    MaxTreatments(u16),
    /// Least time between treatments with the product, in whole days.
    MinInterval(Time),
    /// Most of a product or a substance in a window of time.
    Cap(Capped, Window, CapBasis),
    /// Least time before the harvest, in whole days.
    WaitingPeriod(Time),
    /// Earliest growth stage (BBCH, 0 to 99).
    MinGrowthStage(u8),
    /// Latest growth stage (BBCH, 0 to 99).
    MaxGrowthStage(u8),
    /// Time before anybody may enter.
    ReEntry(Time),
    /// Ground not to be treated: beside what, and how wide.
    Buffer(Arc<str>, Length),
    /// Least wind, and the height that it is meant at.
    MinWind(Speed, Option<Length>),
    /// Most wind, and the height that it is meant at.
    MaxWind(Speed, Option<Length>),
    /// Least temperature.
    MinTemperature(Temperature),
    /// Largest temperature.
    MaxTemperature(Temperature),
    /// Least difference between the dry and the wet bulb, in kelvins.
    MinDeltaT(Temperature),
    /// Largest difference between the dry and the wet bulb, in kelvins.
    MaxDeltaT(Temperature),
}

/// A limit as data: the rule, what stands behind it, and where it is written.
///
/// ```
/// use mixcalc::{Force, Label, Restriction, Rule};
///
/// let label = Label::new().with_restriction(Restriction::new(Rule::MaxTreatments(2)))?;
/// assert_eq!(label.restrictions()[0].force(), Force::Label);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Restriction {
    rule: Rule,
    force: Force,
    source: Option<Arc<str>>,
}

impl Restriction {
    /// A limit of the label, written where the label's limits are.
    #[must_use]
    pub const fn new(rule: Rule) -> Self {
        Self { rule, force: Force::Label, source: None }
    }

    /// States what stands behind it.
    #[must_use]
    pub const fn with_force(mut self, force: Force) -> Self {
        self.force = force;
        self
    }

    /// States where it is written.
    #[must_use]
    pub fn with_source(mut self, source: &str) -> Self {
        self.source = Some(source.into());
        self
    }

    /// What is limited.
    #[must_use]
    pub const fn rule(&self) -> &Rule {
        &self.rule
    }

    /// What stands behind it.
    #[must_use]
    pub const fn force(&self) -> Force {
        self.force
    }

    /// Where it is written, where that is not the source of the label.
    #[must_use]
    pub fn source(&self) -> Option<&str> {
        self.source.as_deref()
    }

    pub(crate) fn limit(&self, label: &Label, bound: Bound, value: impl Into<Quantity>) -> Limit {
        let source = self.source.as_deref().map_or_else(|| label.source_text(), Into::into);
        Limit { bound, value: value.into(), force: self.force, source: source.into() }
    }

    pub(super) fn checked(&self) -> Result<(), Error> {
        let out = |key: &str, allowed: &'static str| Error::new(ErrorCode::OutOfRange).at(key).allowed(allowed);
        let days = |key: &str, time: Time| {
            let days = not_negative(time).map_err(|error| error.at("value").at(key))?.days();
            let is_whole = days <= MOST_DAYS && libm::floor(days).to_bits() == days.to_bits();
            is_whole
                .then_some(())
                .ok_or_else(|| out("value", text::word("whole days, at most 36525")).at(key).given(time))
        };
        let stage = |key: &str, stage: u8| match stage {
            0..=99 => Ok(()),
            _ => Err(out("value", text::word("a growth stage from 0 to 99")).at(key).given(stage)),
        };
        match &self.rule {
            Rule::MaxTreatments(_) => Ok(()),
            Rule::MinInterval(time) => days("min_interval", *time),
            Rule::WaitingPeriod(time) => days("waiting_period", *time),
            Rule::MinGrowthStage(value) => stage("min_growth_stage", *value),
            Rule::MaxGrowthStage(value) => stage("max_growth_stage", *value),
            Rule::Cap(capped, window, _) => {
                match capped {
                    Capped::Product(Dose::LiquidPerArea(dose)) => positive(*dose).map(|_| ()),
                    Capped::Product(Dose::SolidPerArea(dose)) => positive(*dose).map(|_| ()),
                    Capped::Product(dose) => Err(Error::new(ErrorCode::WrongQuantity)
                        .given(Quantity::from(*dose))
                        .allowed(text::dose_examples(Some(super::Basis::GroundArea)))),
                    Capped::Substance(_, most) => positive(*most).map(|_| ()),
                }
                .map_err(|error| error.at("value").at("caps"))?;
                let (count, most) = match *window {
                    Window::Season => (1, 1),
                    Window::Days(days) => (days, 36_525),
                    Window::Months(months) => (months, 1200),
                    Window::Years(years) => (years, 100),
                };
                let is_window = (1..=most).contains(&count);
                is_window
                    .then_some(())
                    .ok_or_else(|| out("over", text::word("a window of one day to 100 years")).at("caps").given(count))
            }
            Rule::ReEntry(time) => not_negative(*time).map(|_| ()).map_err(|error| error.at("value").at("re_entry")),
            Rule::Buffer(_, width) => positive(*width).map(|_| ()).map_err(|error| error.at("value").at("buffers")),
            Rule::MinWind(speed, _) => {
                not_negative(*speed).map(|_| ()).map_err(|error| error.at("value").at("min_wind"))
            }
            Rule::MaxWind(speed, _) => {
                not_negative(*speed).map(|_| ()).map_err(|error| error.at("value").at("max_wind"))
            }
            _ => Ok(()),
        }
    }
}

/// A hundred years of days: longer than any record.
const MOST_DAYS: f64 = 36_525.0;

/// Ground with a record of its own. Where a field was divided, each part has its own history.
#[derive(Clone, Debug, PartialEq)]
pub struct Parcel {
    name: Arc<str>,
    area: Option<Area>,
}

impl Parcel {
    /// A parcel by its name.
    ///
    /// # Errors
    ///
    /// At `name` as [`Product::new`](super::Product::new).
    pub fn new(name: &str) -> Result<Self, Error> {
        Ok(Self { name: legible_name(name)?, area: None })
    }

    /// States how large it is.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for an area that is not above zero.
    pub fn with_area(mut self, area: Area) -> Result<Self, Error> {
        self.area = Some(positive(area).map_err(|error| error.at("area"))?);
        Ok(self)
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// How large it is, where stated.
    #[must_use]
    pub const fn area(&self) -> Option<Area> {
        self.area
    }
}

/// What a treatment brought out, per area of the ground that was treated.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Applied {
    /// A product of the job, by its name and its dose per ground area.
    Product(Arc<str>, Dose),
    /// Active substances, each by the name that it is summed under: for any other product.
    Substances(Vec<(Arc<str>, MassPerArea)>),
}

/// A treatment that was recorded.
#[derive(Clone, Debug, PartialEq)]
pub struct Treatment {
    date: Date,
    applied: Applied,
    parcel: Option<Arc<str>>,
    treated_share: Ratio,
}

impl Treatment {
    /// A treatment of all of the ground of all parcels.
    ///
    /// # Errors
    ///
    /// At `dose` or `substances`: [`WrongQuantity`](ErrorCode::WrongQuantity) for a dose that is not per ground area,
    /// [`NotPositive`](ErrorCode::NotPositive) and [`OutOfRange`](ErrorCode::OutOfRange) for amounts that are none.
    pub fn new(date: Date, applied: Applied) -> Result<Self, Error> {
        match &applied {
            Applied::Product(_, Dose::LiquidPerArea(dose)) => positive(*dose).map(|_| ()),
            Applied::Product(_, Dose::SolidPerArea(dose)) => positive(*dose).map(|_| ()),
            Applied::Product(_, dose) => Err(Error::new(ErrorCode::WrongQuantity)
                .given(Quantity::from(*dose))
                .allowed(text::dose_examples(Some(super::Basis::GroundArea)))),
            Applied::Substances(substances) => {
                for (i, (_, dose)) in substances.iter().enumerate() {
                    positive(*dose).map_err(|error| error.at("dose").at(format_args!("substances[{i}]")))?;
                }
                return Ok(Self { date, applied, parcel: None, treated_share: Ratio::one() });
            }
        }
        .map_err(|error| error.at("dose"))?;
        Ok(Self { date, applied, parcel: None, treated_share: Ratio::one() })
    }

    /// On one parcel alone.
    #[must_use]
    pub fn on_parcel(mut self, name: &str) -> Self {
        self.parcel = Some(name.into());
        self
    }

    /// On a share of the ground alone, such as bands.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a share that is not above 0 and at most 1.
    pub fn with_treated_share(mut self, share: Ratio) -> Result<Self, Error> {
        if !(share > Ratio::ZERO && share <= Ratio::one()) {
            let error = Error::new(ErrorCode::OutOfRange).at("treated_share").given(share);
            return Err(error.allowed(text::word("above 0 % and at most 100 % of the ground")));
        }
        self.treated_share = positive(share).map_err(|error| error.at("treated_share"))?;
        Ok(self)
    }

    /// When.
    #[must_use]
    pub const fn date(&self) -> Date {
        self.date
    }

    /// What it brought out.
    #[must_use]
    pub const fn applied(&self) -> &Applied {
        &self.applied
    }

    /// The parcel that it was on; on all where there is none.
    #[must_use]
    pub fn parcel(&self) -> Option<&str> {
        self.parcel.as_deref()
    }

    /// The share of the ground that was treated.
    #[must_use]
    pub const fn treated_share(&self) -> Ratio {
        self.treated_share
    }

    pub(crate) fn is_on(&self, parcel: Option<&Parcel>) -> bool {
        self.parcel.as_deref().zip(parcel).is_none_or(|(name, parcel)| *name == *parcel.name)
    }

    pub(crate) fn is_of(&self, product: &str) -> bool {
        matches!(&self.applied, Applied::Product(name, _) if **name == *product)
    }
}

/// What limits over time are held against: when the treatment is planned, what was done before, and when the harvest is.
///
/// ```
/// use mixcalc::{Date, Season};
///
/// let season = Season::new().with_date(Date::read("2026-05-31")?).with_harvest(Date::read("2026-08-20")?);
/// assert_eq!(season.date().unwrap().to_string(), "2026-05-31");
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Season {
    pub(crate) date: Option<Date>,
    pub(crate) harvest: Option<Date>,
    pub(crate) growth_stage: Option<u8>,
    pub(crate) season_start: Option<Date>,
    pub(crate) parcels: Vec<Parcel>,
    pub(crate) treatments: Vec<Treatment>,
}

impl Season {
    /// A season of which nothing is known.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// States when the treatment is planned.
    #[must_use]
    pub const fn with_date(mut self, date: Date) -> Self {
        self.date = Some(date);
        self
    }

    /// States when the harvest is.
    #[must_use]
    pub const fn with_harvest(mut self, date: Date) -> Self {
        self.harvest = Some(date);
        self
    }

    /// States the growth stage of the crop (BBCH, 0 to 99).
    #[must_use]
    pub const fn with_growth_stage(mut self, stage: u8) -> Self {
        self.growth_stage = Some(stage);
        self
    }

    /// States when the season began.
    #[must_use]
    pub const fn with_season_start(mut self, date: Date) -> Self {
        self.season_start = Some(date);
        self
    }

    /// Adds a parcel. Without any, all ground has one history.
    #[must_use]
    pub fn with_parcel(mut self, parcel: Parcel) -> Self {
        self.parcels.push(parcel);
        self
    }

    /// Adds a treatment that was recorded.
    #[must_use]
    pub fn with_treatment(mut self, treatment: Treatment) -> Self {
        self.treatments.push(treatment);
        self
    }

    /// When the treatment is planned.
    #[must_use]
    pub const fn date(&self) -> Option<Date> {
        self.date
    }

    /// When the harvest is.
    #[must_use]
    pub const fn harvest(&self) -> Option<Date> {
        self.harvest
    }

    /// The growth stage of the crop.
    #[must_use]
    pub const fn growth_stage(&self) -> Option<u8> {
        self.growth_stage
    }

    /// When the season began.
    #[must_use]
    pub const fn season_start(&self) -> Option<Date> {
        self.season_start
    }

    /// The parcels.
    #[must_use]
    pub fn parcels(&self) -> &[Parcel] {
        &self.parcels
    }

    /// The treatments that were recorded.
    #[must_use]
    pub fn treatments(&self) -> &[Treatment] {
        &self.treatments
    }
}
