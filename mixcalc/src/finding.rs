//! Findings: sentences about a plan, with stable codes; limits as data with a source; the cautions that every sheet shows.

use alloc::borrow::Cow;
use alloc::string::String;
use alloc::vec::Vec;

use crate::quantity::{Quantity, System};
use crate::text;

/// How much a finding weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// The plan must not be carried out: it has no measured amounts, no steps and no sheet.
    Stop,
    /// Somebody should decide.
    Caution,
    /// Good to know.
    Note,
}

impl Severity {
    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Caution => "caution",
            Self::Note => "note",
        }
    }
}

/// Declares the codes once: Rust name, name in documents, severity.
macro_rules! finding_codes {
    ($($(#[$doc:meta])* $name:ident = $text:literal, $severity:ident;)*) => {
        /// Stable code of a finding, so that software can act on it without reading English.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[non_exhaustive]
        pub enum FindingCode { $($(#[$doc])* $name,)* }

        impl FindingCode {
            /// The whole catalogue.
            #[must_use]
            pub const fn all() -> &'static [Self] {
                &[$(Self::$name,)*]
            }

            /// Name in documents, such as `over-maximum-dose`.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$name => $text,)* }
            }

            /// How much it weighs.
            #[must_use]
            pub const fn severity(self) -> Severity {
                match self { $(Self::$name => Severity::$severity,)* }
            }
        }
    };
}

finding_codes! {
    /// A dose is over the most that the label allows.
    OverMaximumDose = "over-maximum-dose", Stop;
    /// The volume rate is under the least that a label allows.
    VolumeRateBelowMinimum = "volume-rate-below-minimum", Stop;
    /// The volume rate is over the most that a label allows.
    VolumeRateAboveMaximum = "volume-rate-above-maximum", Stop;
    /// There would be more treatments in the season than the label allows.
    TooManyTreatments = "too-many-treatments", Stop;
    /// Another treatment with the product is nearer than the label allows.
    IntervalTooShort = "interval-too-short", Stop;
    /// There would be more of a product or a substance in a window of time than is allowed.
    CapPassed = "cap-passed", Stop;
    /// The harvest is nearer than the label allows.
    WaitingPeriodNotKept = "waiting-period-not-kept", Stop;
    /// The growth stage is not among those that the label allows.
    GrowthStageOutside = "growth-stage-outside", Stop;
    /// An amount is less than one graduation of its measure.
    AmountBelowGraduation = "amount-below-graduation", Stop;
    /// Rinses and premixes need more carrier than a load has.
    RinsesExceedCarrier = "rinses-exceed-carrier", Stop;
    /// The safe fill leaves less than 5 % of the tank empty.
    HeadspaceBelowFivePercent = "headspace-below-five-percent", Caution;
    /// A load is under the least volume that the sprayer works with.
    PartLoadBelowWorkingVolume = "part-load-below-working-volume", Caution;
    /// The last strip is over a tenth of the job.
    StripAboveTenPercent = "strip-above-ten-percent", Caution;
    /// What stays in the sprayer leaves more ground untreated than the strip that was asked for.
    ResidualExceedsStrip = "residual-exceeds-strip", Caution;
    /// A graduation is over 5 % of the amount measured with it.
    CoarseGraduation = "coarse-graduation", Caution;
    /// Whole packs of a product miss the dose of a load by over 5 % of it.
    PacksOffDose = "packs-off-dose", Caution;
    /// An amount takes more fillings of its measure than advised.
    ManyFillings = "many-fillings", Caution;
    /// A full carried sprayer is heavier than advised.
    CarriedMassAboveAdvice = "carried-mass-above-advice", Caution;
    /// The job takes more of a product than there is.
    StockShort = "stock-short", Caution;
    /// Ground at the end goes short by what stays in the sprayer.
    ResidualLeavesGroundShort = "residual-leaves-ground-short", Note;
    /// A product's displacement is unknown and not counted.
    DisplacementNotCounted = "displacement-not-counted", Caution;
    /// The concentration of a label and the ground that it says a tank serves make two doses at this volume rate.
    LabelTankDisagrees = "label-tank-disagrees", Caution;
    /// A dose is counted on all the ground, and only a part of it is treated.
    DoseOnPartOfGround = "dose-on-part-of-ground", Caution;
    /// Passes overlap: some ground takes the dose twice.
    OverlapDoublesDose = "overlap-doubles-dose", Caution;
    /// The active substance that a product brings is unknown and not summed.
    SubstanceNotCounted = "substance-not-counted", Caution;
    /// Over 90 % of what is allowed in a window of time would be used.
    CapNearlyUsed = "cap-nearly-used", Caution;
    /// The job does not state what a limit is held against.
    LimitNotChecked = "limit-not-checked", Note;
    /// What to look at before spraying.
    CheckBeforeSpraying = "check-before-spraying", Note;
    /// Published mixing orders differ about two groups of products that are in this tank.
    MixingOrderDiffers = "mixing-order-differs", Note;
    /// The least dose per ground area holds, since the dose per volume comes to less.
    LeastDoseHolds = "least-dose-holds", Note;
    /// The label's maximum was not given: the dose itself stands for it.
    DoseTakenAsMaximum = "dose-taken-as-maximum", Note;
    /// A dose is under the least of the label's range.
    BelowMinimumDose = "below-minimum-dose", Caution;
    /// The calibration was made in another setting than it is to be used in.
    CalibrationDiffers = "calibration-differs", Caution;
    /// The calibration is older than is accepted.
    CalibrationTooOld = "calibration-too-old", Caution;
    /// The dose that is really delivered is over the maximum with a greater probability than is taken.
    DoseMayPassMaximum = "dose-may-pass-maximum", Caution;
    /// No doubt is stated of anything that the calibration was made from.
    CalibrationDoubtMissing = "calibration-doubt-missing", Note;
    /// A value is outside its range, and a known confusion of units explains it better than that it is meant.
    UnitSlip = "unit-slip", Caution;
    /// An amount is uncertain by over 5 % with its measure.
    AmountHardToMeasure = "amount-hard-to-measure", Caution;
    /// How far a measure in use may be off is a figure of custom.
    ToleranceUnverified = "tolerance-unverified", Caution;
    /// The water is harder than advised.
    HardWater = "hard-water", Note;
    /// There is less ammonium sulfate in the mix than its water and a label ask for.
    AmmoniumSulfateShort = "ammonium-sulfate-short", Caution;
    /// The tank holds another mix before the first load.
    TankHoldsAnotherMix = "tank-holds-another-mix", Stop;
    /// The tank holds more of a product before the first load than that load may hold.
    TankHoldsTooMuch = "tank-holds-too-much", Stop;
    /// The tank holds more of a product before the first load than its dose asks for, and no more than its maximum.
    TankHoldsMore = "tank-holds-more", Caution;
    /// The tank's scale is off by more than is allowed of a new one.
    TankScaleOff = "tank-scale-off", Caution;
    /// The tank could be filled further than its scale was checked.
    ScaleCheckShort = "scale-check-short", Note;
}

/// Which side of a limit is allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Bound {
    /// The value may be as large as the limit.
    AtMost,
    /// The value may be as small as the limit.
    AtLeast,
}

impl Bound {
    /// Words in sentences and in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AtMost => "at most",
            Self::AtLeast => "at least",
        }
    }
}

/// What stands behind a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Force {
    /// Law.
    Law,
    /// The product's label.
    Label,
    /// A technical standard.
    Standard,
    /// Advice: cautious practice, with its origin.
    Advice,
    /// What is there: a stock, a graduation, a load.
    Fact,
}

impl Force {
    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Law => "law",
            Self::Label => "label",
            Self::Standard => "standard",
            Self::Advice => "advice",
            Self::Fact => "fact",
        }
    }
}

/// A limit as data: law and labels change faster than code.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    pub(crate) bound: Bound,
    pub(crate) value: Quantity,
    pub(crate) force: Force,
    pub(crate) source: Cow<'static, str>,
}

impl Limit {
    /// A limit of the caller's: of the law where the sprayer is used, of a maker's table.
    ///
    /// ```
    /// use mixcalc::{Bound, Force, Limit, Ratio};
    ///
    /// let limit = Limit::new(Bound::AtMost, Ratio::from_percent(15.0)?, Force::Law, "example decree");
    /// assert_eq!(limit.source(), "example decree");
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    #[must_use]
    pub fn new(bound: Bound, value: impl Into<Quantity>, force: Force, source: &str) -> Self {
        Self { bound, value: value.into(), force, source: Cow::Owned(text::legible(source)) }
    }

    pub(crate) fn advice(bound: Bound, value: impl Into<Quantity>, source: &'static str) -> Self {
        Self { bound, value: value.into(), force: Force::Advice, source: Cow::Borrowed(source) }
    }

    pub(crate) fn fact(bound: Bound, value: impl Into<Quantity>, source: &'static str) -> Self {
        Self { bound, value: value.into(), force: Force::Fact, source: Cow::Borrowed(source) }
    }

    pub(crate) fn label(bound: Bound, value: impl Into<Quantity>, source: &'static str) -> Self {
        Self { bound, value: value.into(), force: Force::Label, source: Cow::Borrowed(source) }
    }

    /// The same limit, from another place.
    pub(crate) fn at_source(self, source: impl Into<Cow<'static, str>>) -> Self {
        Self { source: source.into(), ..self }
    }

    /// Which side is allowed.
    #[must_use]
    pub const fn bound(&self) -> Bound {
        self.bound
    }

    /// The limit itself.
    #[must_use]
    pub const fn value(&self) -> Quantity {
        self.value
    }

    /// What stands behind it.
    #[must_use]
    pub const fn force(&self) -> Force {
        self.force
    }

    /// Where it stands.
    #[must_use]
    pub fn source(&self) -> &str {
        &self.source
    }
}

/// What a value may have been meant as, where a confusion of units explains it. It is shown, and never taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    pub(crate) value: Quantity,
    pub(crate) meant: &'static str,
    pub(crate) stated: &'static str,
}

impl Reading {
    /// The value that it would be.
    #[must_use]
    pub const fn value(&self) -> Quantity {
        self.value
    }

    /// What was meant, such as `per ac`.
    #[must_use]
    pub const fn meant(&self) -> &'static str {
        self.meant
    }

    /// What was stated instead, such as `per ha`.
    #[must_use]
    pub const fn stated(&self) -> &'static str {
        self.stated
    }
}

/// A sentence about a plan: code, severity, place, the actual value and the limit it breaks or nears.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    pub(crate) code: FindingCode,
    pub(crate) path: String,
    pub(crate) load: Option<u64>,
    pub(crate) subject: String,
    pub(crate) actual: Option<Quantity>,
    pub(crate) limit: Option<Limit>,
    pub(crate) readings: Vec<Reading>,
    pub(crate) help: Vec<String>,
    pub(crate) units: System,
    /// What the actual value and the limit are counted on, to be said after them; empty where their units say it.
    pub(crate) bases: [&'static str; 2],
}

impl Finding {
    pub(crate) fn new(code: FindingCode, path: impl Into<String>, units: System) -> Self {
        Self {
            code,
            path: path.into(),
            load: None,
            subject: String::new(),
            actual: None,
            limit: None,
            readings: Vec::new(),
            help: Vec::new(),
            units,
            bases: [""; 2],
        }
    }

    /// In which load.
    pub(crate) fn in_load(mut self, load: u64) -> Self {
        self.load = Some(load);
        self
    }

    /// The product or measure that it is about.
    pub(crate) fn about(mut self, subject: impl Into<String>) -> Self {
        self.subject = subject.into();
        self
    }

    pub(crate) fn actual_value(mut self, actual: impl Into<Quantity>) -> Self {
        self.actual = Some(actual.into());
        self
    }

    pub(crate) fn against(mut self, limit: Limit) -> Self {
        self.limit = Some(limit);
        self
    }

    /// What the actual value and the limit are counted on.
    pub(crate) fn on_bases(mut self, bases: [&'static str; 2]) -> Self {
        self.bases = bases;
        self
    }

    pub(crate) fn read_as(mut self, readings: Vec<Reading>) -> Self {
        self.readings = readings;
        self
    }

    /// The stable code.
    #[must_use]
    pub const fn code(&self) -> FindingCode {
        self.code
    }

    /// How much it weighs.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        self.code.severity()
    }

    /// The field of the job that it concerns, such as `products[1].dose`.
    #[must_use]
    pub fn path(&self) -> &str {
        &self.path
    }

    /// The number of the first load that it concerns, where it concerns one.
    #[must_use]
    pub const fn load(&self) -> Option<u64> {
        self.load
    }

    /// The value that was found.
    #[must_use]
    pub const fn actual(&self) -> Option<Quantity> {
        self.actual
    }

    /// The limit that it breaks or nears.
    #[must_use]
    pub const fn limit(&self) -> Option<&Limit> {
        self.limit.as_ref()
    }

    /// What the value may have been meant as, the likeliest first.
    #[must_use]
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }

    /// What would help, a sentence each, in the measures of the job: of amounts that are hard to measure.
    #[must_use]
    pub fn help(&self) -> &[String] {
        &self.help
    }

    /// The sentence, in the measures of the job.
    #[must_use]
    pub fn message(&self) -> String {
        let [of_actual, of_limit] = self.bases;
        let shown = |quantity: Option<Quantity>, basis: &str| {
            quantity.map(|q| q.to_people(self.units) + basis).unwrap_or_default()
        };
        let load = self.load.map(|load| alloc::format!("{load}")).unwrap_or_default();
        let limit = self.limit.as_ref();
        let readings = self.readings.iter().map(|reading| {
            let value = reading.value.to_people(self.units);
            text::filled(text::READING, &[("value", &value), ("meant", &reading.meant), ("stated", &reading.stated)])
        });
        let readings = readings.collect::<Vec<_>>().join(text::OR_READING);
        let subject = text::legible(&self.subject);
        let what = text::filled(text::field(&self.path), &[("subject", &subject)]);
        let help = self.help.join(text::OR_HELP);
        let help = if help.is_empty() { help } else { text::filled(text::HELP, &[("help", &help)]) };
        let message = text::filled(
            text::finding(self.code),
            &[
                ("subject", &subject),
                ("what", &what),
                ("path", &self.path),
                ("load", &load),
                ("actual", &shown(self.actual, of_actual)),
                ("bound", &limit.map(|limit| limit.bound.name()).unwrap_or_default()),
                ("limit", &shown(limit.map(Limit::value), of_limit)),
                ("side", &limit.map(|limit| text::side(limit.bound)).unwrap_or_default()),
                ("readings", &readings),
                ("source", &text::legible(limit.map(Limit::source).unwrap_or_default())),
            ],
        );
        message + &help
    }
}

/// A caution for people that every plan and sheet carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    code: &'static str,
    text: &'static str,
}

impl Caution {
    /// The cautions for a sprayer that is carried or driven, and for products that stand in a mixing order or in that of the job.
    pub(crate) fn for_plan(carried: bool, is_ordered: bool) -> impl Iterator<Item = Self> {
        let all = text::CAUTIONS.iter().filter(move |(_, only_carried, _)| carried || !only_carried);
        all.map(move |(code, _, text)| {
            let text = if is_ordered && *code == "mixing-order" { text::ORDERED } else { text };
            Self { code, text }
        })
    }

    /// Stable code, such as `label-decides`.
    #[must_use]
    pub const fn code(self) -> &'static str {
        self.code
    }

    /// The caution.
    #[must_use]
    pub const fn text(self) -> &'static str {
        self.text
    }
}
