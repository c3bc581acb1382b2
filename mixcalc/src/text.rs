//! Every sentence: errors, findings, cautions, steps, the load sheet.
//!
//! A catalogue of templates with named gaps, so that wording is found in one place and no other room holds any. Where a gap
//! has no value the gap's name stays visible, which a test would see.

use alloc::string::String;
use alloc::sync::Arc;
use core::fmt::{self, Write};

use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, FindingCode};
use crate::label::{Basis, Unsuited};
use crate::measure::{MeasureClass, MeasureKind};
use crate::quantity::Kind;

/// Writes a template with its gaps filled: `{given}` becomes the value named `given`.
pub(crate) fn fill(out: &mut dyn Write, template: &str, values: &[(&str, &dyn fmt::Display)]) -> fmt::Result {
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('{') {
        out.write_str(before)?;
        let Some((gap, after)) = after.split_once('}') else {
            break;
        };
        match values.iter().find(|(name, _)| *name == gap) {
            Some((_, value)) => write!(out, "{value}")?,
            None => write!(out, "{{{gap}}}")?,
        }
        rest = after;
    }
    out.write_str(rest)
}

/// Declares a list of things that have a name, the same in documents and in all languages.
macro_rules! named {
    ($(#[$list:meta])* $list_name:ident { $($(#[$doc:meta])* $variant:ident = $name:literal;)* }) => {
        $(#[$list])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum $list_name { $($(#[$doc])* $variant,)* }

        impl $list_name {
            /// All of them.
            #[must_use]
            pub const fn all() -> &'static [Self] {
                &[$(Self::$variant,)*]
            }

            /// Name in documents, and in every language.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }
        }
    };
}
pub(crate) use named;

/// [`fill`] into a new string.
pub(crate) fn filled(template: &str, values: &[(&str, &dyn fmt::Display)]) -> String {
    let mut text = String::new();
    // Writing to a string does not fail.
    let _ = fill(&mut text, template, values);
    text
}

/// What an error says: what must be, what was given, how to mend it.
pub(crate) const fn error(code: ErrorCode) -> &'static str {
    match code {
        ErrorCode::NotFinite => "must be a finite number, got {given}; write a plain decimal number such as 2.5",
        ErrorCode::NotPositive => "must be above zero, got {given}",
        ErrorCode::OutOfRange => "must be {allowed}, got {given}",
        ErrorCode::MissingInput => "is missing; give {allowed}",
        ErrorCode::BothGiven => "{given} are both given; keep {allowed}",
        ErrorCode::DuplicateName => "{given} is the name of another one already; give each its own",
        ErrorCode::MissingDensity => {
            "{given} cannot measure this product without its {allowed}; add that key to the product"
        }
        ErrorCode::ProductsFillMix => {
            "the products take up {given} of the mix and leave no carrier; see that a dose and the volume rate are not swapped"
        }
        ErrorCode::StripCoversJob => "a last strip of {given} is as large as the job of {allowed}; hold back less",
        ErrorCode::TooManyLoads => "the job comes to {given} loads, more than {allowed}; check area, rate and tank",
        ErrorCode::BelowFirstMark => {
            "the tank's first mark, {given}, is above its safe fill of {allowed}; check the tank"
        }
        ErrorCode::UnknownChoice => "{given} is not a choice here; write {allowed}",
        ErrorCode::NoMeasure => "none of the {given} measures can measure this product; add {allowed}",
        ErrorCode::Uncountable => {
            "comes to more than {allowed} graduations of {given}, too many to count exactly; use a coarser measure"
        }
        ErrorCode::PlanStopped => "this plan must not be mixed, so it has no amounts, steps or load sheet: {given}",
        ErrorCode::UnsuitedFormulation => "{given} does not go into a mix with water: {allowed}",
        ErrorCode::OrderInCircle => {
            "the labels' orders go round in a circle: {given}; read the labels again, and keep what they say"
        }
        ErrorCode::UnknownUnit => "{given} is not a unit that is read here; write {allowed}",
        ErrorCode::WrongQuantity => "must be {allowed}, got {given}",
        ErrorCode::UnreadableQuantity => "cannot read {given}; write a number, a blank and a unit, such as {allowed}",
        ErrorCode::AmbiguousUnit => "{given} has more than one meaning; write {allowed}",
        ErrorCode::MissingUnit => "{given} has no unit; write text such as {allowed}",
        ErrorCode::DecimalComma => "a comma may not stand in a number, got {given}; write {allowed}",
        ErrorCode::UnlikeQuantities => "cannot put together {given}; they are different things",
        ErrorCode::UnreadableDocument => "cannot be read: {given}",
        ErrorCode::UnknownKey => "{given} is not a key here; write {allowed}",
        ErrorCode::DuplicateKey => "{given} stands here twice; keep one",
        ErrorCode::WrongType => "must be {allowed}, got {given}",
        ErrorCode::TooLarge => "a document of {given} is larger than is read; keep it under {allowed}",
    }
}

/// A word or phrase inside a sentence. The one door for phrases that other rooms put into a gap, so that they are found here.
pub(crate) const fn word(phrase: &'static str) -> &'static str {
    phrase
}

/// `a volume rate`, `an area`.
pub(crate) fn with_article(words: &str) -> String {
    let article = if words.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    alloc::format!("{article} {words}")
}

/// Longest piece of a caller's text that a message repeats.
const LONGEST_QUOTE: usize = 60;

/// A caller's text in quotes, shortened, with nothing in it that would disturb a terminal.
pub(crate) fn quoted(text: &str) -> String {
    let mut shown: String = text.chars().take(LONGEST_QUOTE).flat_map(escaped).collect();
    if text.chars().nth(LONGEST_QUOTE).is_some() {
        shown.push('…');
    }
    alloc::format!("\"{shown}\"")
}

/// Longest name of a product, measure, substance or input, in characters.
const LONGEST_NAME: usize = 1000;

/// A name that tells something, and that somebody can read.
pub(crate) fn legible_name(name: &str) -> Result<Arc<str>, Error> {
    legible_at("name", name)
}

/// The same, at a key of its own.
pub(crate) fn legible_at(key: &str, name: &str) -> Result<Arc<str>, Error> {
    if name.trim().is_empty() {
        return Err(Error::new(ErrorCode::MissingInput).at(key).allowed(word("a name")));
    }
    match name.chars().count() {
        0..=LONGEST_NAME => Ok(name.into()),
        letters => {
            let error = Error::new(ErrorCode::OutOfRange).at(key).given(format_args!("{letters} characters"));
            Err(error.allowed(format_args!("{} {LONGEST_NAME}", word("at most"))))
        }
    }
}

/// Text of a caller without what would disturb a printer: line ends and tabs are blanks, and what cannot be seen shows as a question
/// mark.
pub(crate) fn legible(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            _ if c.is_whitespace() => ' ',
            _ if c.is_control() || is_unseen(c) => '?',
            _ => c,
        })
        .collect()
}

/// Whether a character cannot be seen, and so could hide that two names differ or turn the order of digits round: Unicode's default
/// ignorable code points and the blank of Braille. Left out are the two that join letters, which some scripts need, and the selectors of a
/// letter's form.
pub(crate) const fn is_unseen(c: char) -> bool {
    matches!(
        c,
        '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{115f}'..='\u{1160}'
            | '\u{17b4}'..='\u{17b5}'
            | '\u{180e}'
            | '\u{200b}'
            | '\u{200e}'..='\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{2800}'
            | '\u{3164}'
            | '\u{feff}'
            | '\u{ffa0}'
            | '\u{fff0}'..='\u{fff8}'
            | '\u{1bca0}'..='\u{1bca3}'
            | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}

/// One character of a quote: escaped where it would disturb a terminal or end the quote, or cannot be seen.
fn escaped(c: char) -> impl Iterator<Item = char> {
    let unseen = is_unseen(c).then(|| c.escape_unicode());
    let plain = (c == '\'').then_some(c);
    let escape = (unseen.is_none() && plain.is_none()).then(|| c.escape_debug());
    plain.into_iter().chain(unseen.into_iter().flatten()).chain(escape.into_iter().flatten())
}

/// The candidate that differs from `word` in the fewest letters, if that is few enough to be a slip.
pub(crate) fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word: alloc::vec::Vec<char> = word.chars().take(LONGEST_QUOTE).collect();
    candidates
        .into_iter()
        .map(|candidate| (letters_apart(&word, candidate), candidate))
        .filter(|(apart, candidate)| match candidate.chars().count().min(word.len()) {
            0 | 1 => *apart == 0,
            letters => *apart <= 1 + letters / 3,
        })
        .min_by_key(|(apart, _)| *apart)
        .map(|(_, candidate)| candidate)
}

/// Letters to add, drop or change to make one word into the other.
fn letters_apart(word: &[char], other: &str) -> usize {
    let mut row: alloc::vec::Vec<usize> = (0..=word.len()).collect();
    for (i, theirs) in other.chars().enumerate() {
        let mut diagonal = i;
        let mut left = i + 1;
        if let Some(first) = row.first_mut() {
            *first = left;
        }
        for (slot, ours) in row.iter_mut().skip(1).zip(word) {
            let change = diagonal + usize::from(*ours != theirs);
            diagonal = *slot;
            *slot = change.min(diagonal + 1).min(left + 1);
            left = *slot;
        }
    }
    row.last().copied().unwrap_or(0)
}

/// What a finding says.
pub(crate) const fn finding(code: FindingCode) -> &'static str {
    match code {
        FindingCode::OverMaximumDose => {
            "the dose of {subject}, {actual}, is over the most that is allowed, {limit} ({source})"
        }
        FindingCode::VolumeRateBelowMinimum => {
            "the volume rate of {actual} is under the least for {subject}, {limit} ({source})"
        }
        FindingCode::VolumeRateAboveMaximum => {
            "the volume rate of {actual} is over the most for {subject}, {limit} ({source})"
        }
        FindingCode::TooManyTreatments => {
            "this would be treatment {actual} with {subject} in the season, and {limit} are allowed ({source})"
        }
        FindingCode::IntervalTooShort => {
            "{actual} lie between this and another treatment with {subject}, and at least {limit} must ({source})"
        }
        FindingCode::CapPassed => {
            "{subject} would come to {actual} in its window of time, over the most that is allowed, {limit} ({source})"
        }
        FindingCode::WaitingPeriodNotKept => {
            "{actual} are left before the harvest, and {subject} must have at least {limit} ({source})"
        }
        FindingCode::GrowthStageOutside => {
            "the crop is at growth stage {actual}, and {subject} is allowed at stage {limit} {bound} ({source})"
        }
        FindingCode::CapNearlyUsed => {
            "{subject} would come to {actual} in its window of time, over 90 % of the most that is allowed, {limit} ({source})"
        }
        FindingCode::LimitNotChecked => "{path} is not checked: {subject}",
        FindingCode::CheckBeforeSpraying => "before spraying, check: {subject}: {bound} {limit} ({source})",
        FindingCode::AmountBelowGraduation => {
            "load {load} takes {actual} of {subject}, less than one graduation of {limit}; a finer measure is needed"
        }
        FindingCode::RinsesExceedCarrier => {
            "rinsing the measures of load {load} takes {actual} of carrier, and the load has {limit} in all; \
             smaller measures, or loads of equal size, are needed"
        }
        FindingCode::HeadspaceBelowFivePercent => {
            "a fill of {actual} leaves less than 5 % of the tank empty for foam and movement ({limit} would; {source})"
        }
        FindingCode::PartLoadBelowWorkingVolume => {
            "load {load} of {actual} is under the least volume that the sprayer works with, {limit}"
        }
        FindingCode::StripAboveTenPercent => {
            "the last strip of {actual} is over a tenth of the job, {limit} ({source})"
        }
        FindingCode::ResidualExceedsStrip => {
            "what stays in the sprayer leaves {actual} untreated by itself, more than the last strip of {limit} that was asked for"
        }
        FindingCode::CoarseGraduation => {
            "load {load} measures {subject} in steps of {actual}, over 5 % of the amount; steps of {limit} or less would do ({source})"
        }
        FindingCode::PacksOffDose => {
            "load {load} takes {actual} of {subject} in whole packs, and its dose asks for {limit}; loads of another size may come closer ({source})"
        }
        FindingCode::ManyFillings => {
            "load {load} takes {actual} of {subject}, and the fillings advised of its measure hold {limit}; a larger measure would help ({source})"
        }
        FindingCode::CarriedMassAboveAdvice => {
            "the full sprayer comes to {actual} on the back, over {limit} ({source})"
        }
        FindingCode::StockShort => "the job takes {actual} of {subject}, and there are {limit}",
        FindingCode::ResidualLeavesGroundShort => {
            "what stays in the sprayer leaves {actual} at the end untreated; a last strip gives the rinse water a place to go"
        }
        FindingCode::DisplacementNotCounted => {
            "the room that {subject} takes up in the tank is not counted without {path}: fill to marks, never by measured carrier alone"
        }
        FindingCode::SubstanceNotCounted => {
            "how much {subject} this comes to is not known without {path}: its sum is left out"
        }
        FindingCode::MixingOrderDiffers => {
            "mixing orders differ: {subject}; the labels decide, and a jar test shows what does not go together"
        }
        FindingCode::LeastDoseHolds => {
            "the dose of {subject}, {actual}, comes to less than its least per area, {limit} ({source}); the least holds"
        }
        FindingCode::DoseTakenAsMaximum => {
            "no maximum dose is given for {subject}: its dose of {actual} is taken as the most, and amounts are rounded down"
        }
        FindingCode::LabelTankDisagrees => {
            "for {subject} the concentration of the label comes to {actual} at this volume rate, and what it says that a tank serves to {limit}: \
             the two agree at the label's own volume rate alone ({source})"
        }
        FindingCode::DoseOnPartOfGround => {
            "the dose of {subject}, {limit} of all the ground, lies as {actual} on the part that is treated; where the label means treated ground, \
             its basis is treated-area"
        }
        FindingCode::OverlapDoublesDose => "where passes overlap, {actual} of ground take the dose twice",
        FindingCode::UnitSlip => {
            "{what} is {actual}, {side} {limit} ({source}). Look at the unit: it would be {readings}. Nothing was changed; look it up before you go on"
        }
        FindingCode::CalibrationDiffers => {
            "the calibration holds for {subject}; calibrate again as the job will be sprayed"
        }
        FindingCode::CalibrationTooOld => {
            "the calibration is {actual} old, and up to {limit} are accepted ({source}); calibrate again"
        }
        FindingCode::DoseMayPassMaximum => {
            "the dose of {subject}, {actual}, may pass its maximum as it is really sprayed, more often than the risk that the job takes; \
             {limit} would keep to that risk ({source})"
        }
        FindingCode::CalibrationDoubtMissing => {
            "no doubt is stated of anything that the calibration was made from, so that its interval tells nothing; give repeats, tolerances or resolutions"
        }
        FindingCode::AmountHardToMeasure => {
            "load {load} measures {subject} to {actual} of its amount, and up to {limit} is advised ({source})"
        }
        FindingCode::ToleranceUnverified => {
            "how far off {subject} is is told by custom alone ({source}): check its marks with weighed water, and state its tolerance"
        }
        FindingCode::HardWater => {
            "the water has {actual} of hardness, as calcium carbonate, and over {limit} it is treated ({source})"
        }
        FindingCode::AmmoniumSulfateShort => {
            "there are {actual} of ammonium sulfate in the mix, and {subject} asks for {limit} or more ({source}); it goes in before that, and is dissolved first"
        }
        FindingCode::TankHoldsAnotherMix => {
            "the tank holds {actual} of another mix; empty it as its label and the law allow, and rinse the sprayer before this one is made"
        }
        FindingCode::TankHoldsTooMuch => {
            "the tank holds {actual} of {subject}, and the first load may hold {limit} at most; no product is added to it until it is mended"
        }
        FindingCode::TankHoldsMore => {
            "the tank holds {actual} of {subject}, over the {limit} that the dose asks for in the first load; none is added, and the dose there is the greater"
        }
        FindingCode::TankScaleOff => {
            "at its mark of {subject} the scale of the tank is off by {actual}, and up to {limit} is allowed of a new one ({source}); \
             steps name the marks that the check found"
        }
        FindingCode::ScaleCheckShort => {
            "the scale of the tank was checked up to {actual}, and the tank is filled no further; a check up to {limit} would let it be fuller"
        }
        FindingCode::BelowMinimumDose => {
            "the dose of {subject}, {actual}, is under the least of its label, {limit} ({source}); a lower dose may be lawful, and should be decided"
        }
    }
}

/// What would help, after what a finding says.
pub(crate) const HELP: &str = ". What would help: {help}";
pub(crate) const OR_HELP: &str = "; or ";

/// What would help with an amount that is hard to measure.
pub(crate) mod measuring {
    pub(crate) const AT_HAND: &str = "{measure}, which measures it to {uncertainty}";
    pub(crate) const CYLINDER: &str =
        "a measuring cylinder of {capacity} in steps of {graduation}, class B, which measures it to {uncertainty}";
    pub(crate) const SCALE: &str = "a scale in steps of {graduation}, which weighs it to {uncertainty}";
    pub(crate) const PREMIX: &str = "a premix: {amount} of it ({measure}), with clean carrier to {whole} in {vessel}, and of that, stirred well, {aliquot} ({in}): \
         to {uncertainty}; of what stays mixed alone, where its label allows it, used within the day, and the rest is product still";
    pub(crate) const LOADS: &str =
        "loads of {mix}, {count} of them with {amount} each{to}, which is {dose} of ground{rest}";
    pub(crate) const TO: &str = ", to {uncertainty}";
    pub(crate) const REST: &str = ", and one of {mix} with {amount}";
}

/// What a calibration that is used elsewhere holds for.
pub(crate) fn difference(name: &str) -> &'static str {
    match name {
        "unstated" => "a setting that is not stated",
        "sprayer" => "another sprayer",
        "operator" => "another operator",
        "nozzles" => "other nozzles",
        "pressure" => "another pressure",
        "ground" => "other ground",
        "later-day" => "a later day than the job",
        _ => "an earlier day",
    }
}

/// What a value may have been meant as.
pub(crate) const READING: &str = "{value} if {meant} was taken for {stated}";
pub(crate) const OR_READING: &str = ", or ";

/// What a field holds, in the words of a sentence about its unit.
pub(crate) fn field(path: &str) -> &'static str {
    match path.rsplit('.').next().unwrap_or_default() {
        "dose" => "the dose of {subject}",
        "density" => "the density of {subject}",
        "particle_density" => "the particle density of {subject}",
        "bulk_density" => "the bulk density of {subject}",
        "content" => "the content of {subject}",
        "stock" => "the stock of {subject}",
        "capacity" => "the capacity of {subject}",
        "carrier_rate" => "the carrier rate",
        "brim" => "the brim of the tank",
        "residual" => "the residual of the sprayer",
        _ => "the volume rate",
    }
}

/// On which side of a limit a value is that breaks it.
pub(crate) const fn side(bound: Bound) -> &'static str {
    match bound {
        Bound::AtMost => "over",
        Bound::AtLeast => "under",
    }
}

/// What rules for rinsing ask, and where they stand.
pub(crate) mod rinse {
    pub(crate) const FRANCE: &str = "France, order of 4 May 2017, article 7";
    pub(crate) const FIVE_FOLD: &str = "For spraying out what stays in the tank, on the ground just treated, where the dose of all passes is within the \
         maximum. Counted on the first portion, for it is sprayed as it is diluted.";
    pub(crate) const HUNDRED_FOLD: &str = "For draining in the field, after at least one rinsing that was sprayed: 50 m or more from water points and \
         drains, 100 m from bathing places and fish farms, and never twice in one place.";
    pub(crate) const ISO_16236: &str = "ISO 16236, as ISO 16119-4:2014 asks for it";
    pub(crate) const TWO_PERCENT: &str =
        "Said of the liquid that is drained after cleaning. The standard itself was not opened.";
    pub(crate) const ISO_22368: &str = "ISO 22368-1, as ISO 16119-4:2014 asks for it";
    pub(crate) const ONE_IN_300: &str =
        "Said of the residue after cleaning, as a factor of 300. The standard itself was not opened.";
    pub(crate) const DENMARK: &str = "Denmark, rule of 2009, as reported by the agriculture ministry of Ontario, 2016";
    pub(crate) const AT_NOZZLE: &str =
        "Said of the liquid at the nozzle. Its own text was not seen: look it up where it may hold.";
    pub(crate) const FRANCE_EARLIER: &str =
        "France, rule of 2006, as reported by the agriculture ministry of Ontario, 2016";
    pub(crate) const ONE_PERCENT: &str = "An earlier rule, whose text was not seen.";
}

/// Sources of the advice that findings quote.
pub(crate) mod source {
    /// Headspace.
    pub(crate) const HEADSPACE: &str = "ISO 16119-1 and EN 12761-1: total volume at least 5 % above nominal";
    /// Strip.
    pub(crate) const STRIP: &str = "mixcalc: a larger strip is more often a slip of the unit than a wish";
    /// Graduation.
    pub(crate) const GRADUATION: &str = "mixcalc: half a graduation is then under 2.5 % of the amount";
    /// A dose that keeps to a risk.
    pub(crate) const GUARD_BAND: &str = "JCGM 106:2012, 8.3: a limit less a guard band";
    pub(crate) const HARD_WATER: &str = "advisories for turf, US extension services";
    pub(crate) const AMMONIUM_SULFATE: &str = "North Dakota State University, 2015: what binds this water";
    /// How uncertain an amount may be.
    pub(crate) const MEASURABLE: &str = "mixcalc: twice the standard uncertainty within 5 % of the amount";
    pub(crate) const TANK_SCALE: &str = "EN 12761, as carried into GOST 33037-2014, 4.1.1.4";
    pub(crate) const PACKS: &str = "mixcalc: within 5 % of the amount, as for the steps of a measure";
    /// Fillings.
    pub(crate) const FILLINGS: &str = "mixcalc: each filling is a chance to splash or miscount";
    /// Ends of ranges that a slip of the unit is judged by.
    pub(crate) const SPAN: &str = "mixcalc: the end that is not given, as twenty times the other";
    pub(crate) const PLAUSIBLE: &str = "mixcalc: hardly any product is beyond";
    pub(crate) const JOB_TAKES: &str = "mixcalc: a part of what the job takes";
    pub(crate) const STEPS: &str = "mixcalc: so many graduations";
    pub(crate) const TANK: &str = "mixcalc: a part of the tank";
    /// What the job states.
    pub(crate) const JOB: &str = "the job";
    /// What a label says that one tank serves.
    pub(crate) const LABEL_TANK: &str = "the ground that the label says a tank serves";
    /// What a measure shows.
    pub(crate) const MEASURE: &str = "the measure";
    /// What a load holds.
    pub(crate) const LOAD: &str = "the load";
    /// Carried mass.
    pub(crate) const CARRIED_MASS: &str =
        "FAO, guidelines on minimum requirements for pesticide application equipment, 2001, volume 1";
    /// Nominal flows.
    pub(crate) const ISO_10625: &str = "ISO 10625:2018, nominal flow of water at 300 kPa";
    /// Size numbers.
    pub(crate) const SIZE_BY_CUSTOM: &str = "custom: tenths of a US gallon per minute at 40 psi";
    /// Nozzles of one set.
    pub(crate) const NOZZLE_OF_MEAN: &str =
        "extension bulletins and makers' handbooks: within 5 % of the mean of the set";
    /// Worn nozzles.
    pub(crate) const NOZZLE_OVER_NEW: &str = "US state examination guidance: worn at 10 % over a new nozzle";
    /// Left and right.
    pub(crate) const NOZZLE_SIDES: &str = "ISO 16122-3 and EN 13790-2: at most 10 % between the sides (text not seen)";
}

/// Cautions for people, in the order of their force: code, whether only for carried sprayers, text.
pub(crate) const CAUTIONS: &[(&str, bool, &str)] = &[
    (
        "label-decides",
        false,
        "The label in force where you are decides. This is arithmetic, not permission: local codes and licensed practice come first.",
    ),
    (
        "check-by-another",
        false,
        "Have somebody check the amounts, or work one load by hand, before the first container is opened.",
    ),
    (
        "protect-yourself",
        false,
        "Wear what the label asks for, for mixing and for spraying: the concentrate is the worst of it. Wash before breaks.",
    ),
    (
        "mixing-place",
        false,
        "Mix away from water, wells, drains, children and animals. Never leave a filling tank. Keep a spill kit at hand.",
    ),
    (
        "measures-apart",
        false,
        "Keep the measures for this work alone, marked and locked away. Nothing that ever holds food or drink.",
    ),
    (
        "carried-sprayer",
        true,
        "Check straps, lid and hoses for leaks before you lift the sprayer; change wet clothes at once; stop when unwell.",
    ),
    (
        "mixing-order",
        false,
        "The products stand in the order of the job. The labels decide the order of mixing, and whether they may be mixed.",
    ),
    (
        "conditions",
        false,
        "Wind, heat, rain, buffers, bees and drains decide whether to spray; waiting times decide who may enter and harvest.",
    ),
    (
        "containers",
        false,
        "Rinse emptied containers three times into the tank, make them unusable, and give them to a collection.",
    ),
    (
        "rinse-water",
        false,
        "Spray rinse water on the ground that the label allows, never into a drain, and never over the maximum dose.",
    ),
    ("emergency", false, "Know the emergency number and the poison centre, and have the labels with you."),
];

/// The caution of the mixing order where products stand in one that was asked for.
pub(crate) const ORDERED: &str = "This mixing order is one of several that are published. The labels decide the order, and whether products may be mixed.";

/// The name of a measure that nobody named.
pub(crate) const fn measure_name(kind: MeasureKind) -> &'static str {
    match kind {
        MeasureKind::Vessel => "{capacity} vessel in steps of {graduation}",
        MeasureKind::Scale => "{capacity} scale in steps of {graduation}",
        MeasureKind::Pack => "{capacity} pack",
    }
}

/// Who says how far a measure of a class may be off, and how sure that is.
pub(crate) const fn measure_class(class: MeasureClass) -> &'static str {
    match class {
        MeasureClass::CylinderA | MeasureClass::CylinderB => "ISO 4788:2005, the largest error at any point (certain)",
        MeasureClass::PlasticCylinder => "ISO 6706, twice that of glass of class B (probable)",
        MeasureClass::Flask => "ISO 3819 and the practice of makers, 5 % of what is read (probable)",
        MeasureClass::Jug => "practice, 5 % of what is read (probable)",
        MeasureClass::UncheckedJug => "practice, 10 % of what is read (unverified)",
        MeasureClass::Syringe => "ISO 7886-1 (probable)",
        MeasureClass::Cup => "practice, 10 % of what is read (probable)",
        MeasureClass::Cap => "practice, 10 % of what is read (unverified)",
        MeasureClass::PowderCup => "practice, 15 % of what is read, for the heap packs more or less (probable)",
        MeasureClass::Scale => "OIML R 76, one and a half steps (probable)",
    }
}
/// The largest measuring cylinder of the standard.
pub(crate) const LARGEST_CYLINDER: &str = "a capacity of at most 2 L, or a tolerance of its own";
/// What a pack has in place of a class.
pub(crate) const PACK_TOLERANCE: &str = "no class on a pack, but a tolerance";

/// Why a formulation type does not go into a mix with water, and what to do instead.
pub(crate) const fn unsuited(why: Unsuited) -> &'static str {
    match why {
        Unsuited::ForOil => "it is made to be thinned with oil; check the code on the label",
        Unsuited::Undiluted => "it is used as it is, undiluted; check the code on the label",
        Unsuited::Dry => "it is strewn or dusted dry; check the code on the label",
        Unsuited::Bait => "it is laid out to be eaten; check the code on the label",
        Unsuited::Direct => "it is put straight where it is to act; check the code on the label",
        Unsuited::Fog => "it is made for a fogger; check the code on the label",
        Unsuited::Gas => "it works as a gas, a smoke or a vapour; check the code on the label",
        Unsuited::TwinPack => "it is sold in two parts; enter each part as a product with the code of its own",
        Unsuited::Technical => "it is raw material for makers; check the code on the label",
        Unsuited::Seed => {
            "it is for seed; check the code, since some labels use these letters for a liquid to be sprayed"
        }
        Unsuited::Unstated => "the code does not say what it is; take the type from the label, or ask the maker",
    }
}

/// What a spill kit holds: the practice of extension services.
pub(crate) const SPILL_KIT: &str =
    "spill kit: absorbent, shovel and broom, a container that closes, gloves and eye protection, and barrier tape";
/// What a check of the tank's scale is made of.
pub(crate) const SCALE_POINTS: &str = "points such as { poured = \"5 L\", read = \"4.8 L\" }";
/// How far off what was poured may have been.
pub(crate) const SCALE_TOLERANCE: &str = "from 0 % to under 100 % of what was poured";
/// How many containers there may be.
pub(crate) const CONTAINERS: &str = "a whole number from 0 to 1000000000";
/// What rinses of a container that is filled by mass need.
pub(crate) const CONTAINER_VOLUME: &str = "this density, which tells how large the containers are that are rinsed";

/// What a tank may hold before the first load.
pub(crate) const AT_MOST_SAFE_FILL: &str = "at most the safe fill,";
pub(crate) const AT_MOST_THE_MIX: &str = "at most the mix that the ground takes,";

/// The sort of amount that goes with a dose.
pub(crate) const fn amount_like(is_by_volume: bool) -> &'static str {
    if is_by_volume { "a volume, as the dose is" } else { "a mass, as the dose is" }
}

/// `one of a, b, c`.
pub(crate) fn one_of(choices: &[&str]) -> String {
    alloc::format!("one of {}", choices.join(", "))
}

/// `mix_density such as "1.1 kg/L"`.
pub(crate) fn example(key: &str, kind: Kind) -> String {
    alloc::format!("{key} such as \"{}\"", kind.example())
}

/// `a unit of volume such as L`.
pub(crate) fn unit_of(kind: Kind) -> String {
    alloc::format!("a unit of {} such as {}", kind.words(), kind.unit())
}

/// Doses on a basis.
pub(crate) const fn dose_examples(basis: Option<Basis>) -> &'static str {
    match basis {
        None => "a dose such as \"2.5 L/ha\", \"0.4 kg/ha\", \"150 mL/100 L\" or \"0.25 % v/v\"",
        Some(Basis::GroundArea) => "a dose per ground area such as \"2.5 L/ha\" or \"0.4 kg/ha\"",
        Some(Basis::MixVolume) => "a dose per volume of mix such as \"150 mL/100 L\", \"2 g/L\" or \"0.25 % v/v\"",
        Some(Basis::CarrierVolume) => {
            "a dose per volume of carrier such as \"150 mL/100 L\", \"2 g/L\" or \"0.25 % v/v\""
        }
        Some(Basis::TreatedArea) => "a dose per treated area such as \"2.5 L/ha\" or \"0.4 kg/ha\"",
        Some(Basis::LeafWallArea) => "a dose per leaf wall area such as \"1.2 L/10000 m2\" or \"0.4 kg/ha\"",
        Some(Basis::TreeRowVolume) => "a dose per tree row volume such as \"0.8 L/10000 m3\" or \"0.6 kg/10000 m3\"",
        Some(Basis::CrownHeight) => "a dose per crown height such as \"0.5 L/ha/m\" or \"0.4 kg/ha/m\"",
        Some(Basis::RowLength) => "a dose per row length such as \"25 mL/100 m\" or \"5 g/100 m\"",
        Some(Basis::Plant) => "an amount for one plant such as \"5 mL\" or \"2 g\"",
        Some(Basis::Spot) => "an amount for one spot such as \"5 mL\" or \"2 g\"",
    }
}

/// A bare amount where a dose is due.
pub(crate) const DOSE_FOR_EACH: &str =
    "a dose such as \"2.5 L/ha\", or with the basis plant or spot an amount for each of them";

/// What a quantity on a basis is counted on, where its unit does not say: put after it.
pub(crate) const fn on_basis(basis: Basis) -> &'static str {
    match basis {
        Basis::GroundArea | Basis::MixVolume => "",
        Basis::CarrierVolume => " of carrier",
        Basis::TreatedArea => " of treated area",
        Basis::LeafWallArea => " of leaf wall",
        Basis::TreeRowVolume => " of tree row volume",
        Basis::CrownHeight => " of crown height",
        Basis::RowLength => " of row",
        Basis::Plant => " for each plant",
        Basis::Spot => " for each spot",
    }
}

/// Volumes of mix on a basis.
pub(crate) const fn volume_examples(basis: Basis) -> &'static str {
    match basis {
        Basis::GroundArea | Basis::TreatedArea | Basis::LeafWallArea => "a volume per area such as \"300 L/ha\"",
        Basis::TreeRowVolume => "a volume per tree row volume such as \"100 L/1000 m3\"",
        Basis::CrownHeight => "a volume per crown height such as \"500 L/ha/m\"",
        Basis::RowLength => "a volume per row length such as \"10 L/100 m\"",
        Basis::Plant | Basis::Spot => "a volume for each such as \"50 mL\"",
        Basis::MixVolume | Basis::CarrierVolume => "a basis of the ground or of the crop",
    }
}

/// A dose by volume or by mass.
pub(crate) const fn dose_like(by_volume: bool) -> &'static str {
    if by_volume { "by volume, such as \"2.5 L/ha\", as the dose is" } else { "by mass, such as \"0.4 kg/ha\"" }
}

/// `copper of example product A`.
pub(crate) fn of_product(what: &str, product: &str) -> String {
    alloc::format!("{what} of {product}")
}

/// `copper on parcel North`.
pub(crate) fn on_parcel(what: &str, parcel: Option<&str>) -> String {
    parcel.map_or_else(|| what.into(), |parcel| alloc::format!("{what} on parcel {parcel}"))
}

/// `the ground kept free beside water`.
pub(crate) fn buffer(from: &str) -> String {
    alloc::format!("the ground kept free beside {from}")
}

/// `the wind at 2 m`.
pub(crate) fn wind(height: Option<String>) -> String {
    height.map_or_else(|| "the wind".into(), |height| alloc::format!("the wind at a height of {height}"))
}

/// A date that documents and programs state.
pub(crate) const A_DATE: &str = "a day of the calendar as year-month-day, such as \"2026-05-31\"";

/// What treatments and caps of a season need.
pub(crate) const SEASON_START: &str =
    "season_start such as \"2026-03-01\", from which treatments and caps of a season are counted";

/// Of which product a treatment is.
pub(crate) const PRODUCT_OF_JOB: &str = "the name of a product of this job, or the substances of any other product";

/// Not after a date.
pub(crate) fn not_after(date: impl fmt::Display) -> String {
    alloc::format!("{} {date}", word("a day up to the date of the treatment,"))
}

/// Not before a date.
pub(crate) fn not_before(date: impl fmt::Display) -> String {
    alloc::format!("{} {date}", word("a day from the date of the treatment on,"))
}

/// One of the parcels.
pub(crate) fn parcel_of(names: &[&str]) -> String {
    match names {
        [] => word("it among season.parcels, or leave it out for all ground").into(),
        _ => one_of(names),
    }
}

/// What a job does not state that a limit of a product is held against.
pub(crate) fn not_stated(product: &str, key: &str) -> String {
    alloc::format!("for {product} the job does not state {key}")
}

/// A substance of a treatment that is counted nowhere.
pub(crate) fn not_brought(substance: &str) -> String {
    alloc::format!("no product of the job brings {substance}, so that no cap counts it")
}

/// How large a season may be.
pub(crate) fn season_terms(most: usize) -> String {
    alloc::format!(
        "at most {most} terms in the sums of its caps: treatments on each parcel in each window, and products beside each product"
    )
}

/// A substance that a cap counts.
pub(crate) fn summed_substance(names: &[&str]) -> String {
    match names {
        [] => word("it among active_substances of the product").into(),
        _ => one_of(names),
    }
}

/// The least dose beside a dose per volume.
pub(crate) const LEAST_DOSE: &str = "a dose per ground area such as \"1 L/ha\", of the same sort, beside a dose per volume of mix such as \"0.5 % v/v\"";

/// A measure that would serve a product.
pub(crate) const fn measure_wanted(by_volume: bool) -> &'static str {
    if by_volume {
        "a vessel (or a scale, and the product's density)"
    } else {
        "a scale (or a vessel, and the product's bulk_density or density)"
    }
}

/// How many plants or spots a job may have.
pub(crate) const COUNTED: &str = "a whole number from 1 to 1000000000000";

/// A whole number of treatments, days, months or years.
#[cfg(feature = "document")]
pub(crate) const SMALL_NUMBER: &str = "a whole number from 0 to 36525";

/// A growth stage.
pub(crate) const GROWTH_STAGE: &str = "a growth stage from 0 to 99";

/// A window of time.
#[cfg(feature = "document")]
pub(crate) const A_WINDOW: &str = "one of season = true, days, months and years";

/// A difference of temperatures.
#[cfg(feature = "document")]
pub(crate) const KELVINS: &str = "a difference in kelvins such as \"8 K\"";

/// How many fillings a job may ask for.
pub(crate) const FILLINGS: &str = "a whole number from 1 to 1000000";

/// An active substance of a product, by a name that only one of them has.
#[cfg(feature = "document")]
pub(crate) fn substance_of(names: &[&str]) -> String {
    match names {
        [] => word("the name of one of its active_substances").into(),
        _ => {
            alloc::format!("{} {}", word("a name that one of its active_substances alone has, among"), names.join(", "))
        }
    }
}

/// What a doubt of a measurement is named after its place.
pub(crate) const TOLERANCE: &str = "tolerance";
pub(crate) const RESOLUTION: &str = "resolution";

/// The instruments that a record names.
pub(crate) fn instrument_of(names: &[&str]) -> String {
    match names {
        [] => word("the name of an instrument, which the list of instruments then gives with its tolerance").into(),
        _ => alloc::format!("{} {}", word("the name of an instrument of the list:"), names.join(", ")),
    }
}

/// What an earlier row of the same thing says.
#[cfg(feature = "document")]
pub(crate) fn as_earlier(said: &str) -> String {
    let said = if said.is_empty() { word("nothing").into() } else { quoted(said) };
    alloc::format!("{said}, {}", word("as an earlier row of it does"))
}

/// A row of a table that is not as long as its header.
#[cfg(feature = "document")]
pub(crate) fn fields_under(fields: usize, header: usize) -> String {
    alloc::format!("{}: {fields} {} {header}", word("CSV"), word("fields under a header of"))
}

/// What a method takes.
pub(crate) fn inputs_of(method: &str, names: &[&str]) -> String {
    alloc::format!("{} \"{method}\" {}: {}", word("what the method"), word("takes"), names.join(", "))
}

pub(crate) const ALLEYS_ALONE: &str = "alleys for the method \"alleys\" alone";
pub(crate) const DENSITY_OR_WATER: &str = "density such as \"1.05 kg/L\", or water_temperature such as \"20 °C\"";

/// An input of a calibration with an example.
pub(crate) fn calibration_example(input: &str) -> String {
    alloc::format!("{input} {} {}", word("such as"), input_example(input))
}

/// An example of a calibration's input.
pub(crate) fn input_example(input: &str) -> &'static str {
    match input {
        "flow" => "\"1.2 L/min\", or catch and catch_time",
        "speed" => "\"8 km/h\", or course and course_time",
        "catch" => "\"1.2 L\" or a list of catches",
        "catch_time" | "spot_time" => "\"30 s\"",
        "course" => "\"100 m\"",
        "course_time" => "\"45 s\" or a list of times",
        "area" => "\"0.1 ha\"",
        "refill" | "filled" => "\"20 L\"",
        "residual" | "volume" => "\"1 L\"",
        "spot" | "ground" => "\"1 m2\"",
        "left" | "right" => "\"6 L/min\"",
        "density" => "\"1.05 kg/L\"",
        _ => "\"0.5 m\"",
    }
}

/// What a quantity may be in a document.
#[cfg(feature = "document")]
pub(crate) const QUANTITY_FORMS: &str =
    "a quantity: text such as \"300 L/ha\", or {\"value\": 300, \"unit\": \"L/ha\"}";

/// What a measurement may be in a document.
#[cfg(feature = "document")]
pub(crate) const READING_FORMS: &str = "a reading such as \"1.2 L\", a list of readings, or a table with measured, and tolerance, resolution and instrument";

/// What a fraction may be in a document.
#[cfg(feature = "schema")]
pub(crate) const FRACTION_FORMS: &str = "a fraction: a number from 0 to 1, or text such as \"10 %\"";

/// A JSON array, in words.
#[cfg(feature = "document")]
pub(crate) const A_LIST: &str = "a list";

/// A JSON object, in words.
#[cfg(feature = "document")]
pub(crate) const A_TABLE: &str = "a table of keys";

/// A quantity that is not text.
#[cfg(feature = "document")]
pub(crate) const A_QUANTITY: &str = "a quantity";

/// What to write for a key that is missing.
pub(crate) fn key_example(key: &str) -> String {
    let example = match key {
        "format" => "format: \"mixcalc-job/1\"",
        "area" => "area such as \"12.5 ha\"",
        "volume_rate" => {
            "volume_rate such as \"200 L/ha\" (products inside), or carrier_rate (products on top), or calibration"
        }
        "sprayer" => "sprayer with its kind",
        "tank" => "tank with nominal or brim such as \"16 L\"",
        "kind" => "kind, one of its choices",
        "dose" => "dose such as \"2.5 L/ha\" or \"150 mL/100 L\"",
        "name" => "a name",
        "capacity" => "capacity such as \"1 L\"",
        "graduation" => "graduation such as \"10 mL\"",
        "factor" => "factor, a number from 0 to 1",
        "content" => "content such as \"250 g/L\"",
        "ground" => "area such as \"12.5 ha\", or length and width such as \"240 m\" and \"100 m\"",
        "buffer" => "area such as \"400 m2\", or width and along such as \"5 m\" and \"240 m\"",
        "overlap" => "share such as \"5 %\", or width and swath such as \"0.5 m\" and \"12 m\"",
        "row_spacing" => "row_spacing such as \"2.5 m\"",
        "plant_spacing" => "plant_spacing such as \"0.9 m\", or plants, a count",
        "canopy_height" => "canopy_height such as \"1.4 m\"",
        "canopy_width" => "canopy_width such as \"0.8 m\"",
        "band_width" => "band_width such as \"0.25 m\", or spots and spot_area",
        "treated_sides" => "treated_sides, one or both",
        "spots" => "spots, a count",
        "spot_area" => "spot_area such as \"0.5 m2\"",
        "last_strip" => "area such as \"0.1 ha\" or volume such as \"20 L\"",
        "value" => "value, a number",
        "date" => "date such as \"2026-05-31\"",
        "over" => "over, the window of time: season = true, days, months or years",
        "from" => "from, beside what it is kept free, such as \"water\"",
        "unit" => "unit such as \"L/ha\"",
        _ => key,
    };
    example.into()
}

/// Words of the mixing order: what each profile says, in words of our own.
pub(crate) mod order {
    use alloc::string::String;
    use alloc::vec::Vec;

    use crate::label::{MixGroup, OrderStep};
    use crate::plan::Profile;

    pub(crate) const MIXING_WANTED: &str =
        "mixing such as { profile = \"suggested\" }, the order in which this label's word counts";
    pub(crate) const GROUP_WANTED: &str = "formulation such as \"SC\", or a role, for the mixing order goes by it";
    pub(crate) const NAME_WANTED: &str = "the name of another product of this job";

    pub(crate) const BY_LABEL: &str = "its label: {said}";
    pub(crate) const BEFORE: &str = "before {names}";
    pub(crate) const AFTER: &str = "after {names}";

    /// An end of the order.
    pub(crate) const fn end(step: OrderStep) -> &'static str {
        match step {
            OrderStep::First => "first",
            OrderStep::Last => "last",
        }
    }

    /// Who says so. All but the first are probable: the tables were read, some of them at second hand.
    pub(crate) const fn source(profile: Profile) -> &'static str {
        match profile {
            Profile::Suggested => "the order that mixcalc suggests",
            Profile::Manitoba => "the Manitoba guide (Canola Council, 2013)",
            Profile::SouthDakota => "South Dakota State University",
            Profile::Wales => "WALES (extension services and farm press, Canada)",
            Profile::Utah => "Utah State University (2012, for a jar)",
            Profile::SeedTrade => "a sheet of the seed trade",
        }
    }

    /// What a profile says of a group that it names.
    const fn says(profile: Profile, group: MixGroup) -> &'static str {
        use MixGroup as G;
        match (profile, group) {
            (Profile::Manitoba, G::SolubleBag) => "bags first, before any fertilizer is in the tank",
            (Profile::SouthDakota, G::WaterConditioner) => "ammonium sulfate and conditioners to begin with",
            (Profile::SouthDakota, G::CompatibilityAgent) => "after what conditions the water",
            (Profile::SouthDakota, G::AntiFoam) => "after the compatibility agent",
            (Profile::Utah, G::WaterConditioner | G::FoliarNutrient) => "fertilizers at the very end",
            (_, G::WaterConditioner | G::Buffer) => {
                "the water is treated before products meet it; salts dissolve fully first"
            }
            (Profile::Manitoba, G::Powder | G::Granule | G::Suspension) => "dry products and suspensions together",
            (Profile::SouthDakota, G::Powder | G::Granule) => "dry products next, stirred into twice as much water",
            (Profile::Utah, G::Powder) => "powders, the first of the dry products",
            (Profile::Utah, G::Granule) => "granules after powders",
            (Profile::SeedTrade, G::Granule) => "granules that disperse, the first of the products",
            (_, G::Powder | G::Granule) => "dry products early, while there is water to disperse them",
            (Profile::SeedTrade, G::OilDispersion) => "oil dispersions before suspensions",
            (Profile::SeedTrade, G::Suspension) => "suspensions after oil dispersions",
            (_, G::Suspension) => "suspensions after dry products",
            (Profile::SouthDakota, G::CapsuleSuspension) => "capsules after emulsifiable concentrates",
            (Profile::Utah, G::CapsuleSuspension) => "capsules before emulsifiable concentrates",
            (Profile::Manitoba | Profile::SouthDakota, G::Solution) => "solutions before emulsifiable concentrates",
            (Profile::Wales, G::Solution) => "solutions last, with the surfactants",
            (Profile::Utah | Profile::SeedTrade, G::Solution) => "solutions after emulsifiable concentrates",
            (Profile::Manitoba | Profile::SouthDakota, G::Emulsifiable) => "emulsifiable concentrates after solutions",
            (Profile::Utah, G::Emulsifiable) => "emulsifiable concentrates after capsules",
            (Profile::SeedTrade, G::Emulsifiable) => "emulsifiable concentrates before solutions",
            (_, G::Emulsifiable) => "emulsifiable concentrates after suspensions",
            (Profile::Utah, G::SolubleSolid) => "soluble powders after solutions",
            (Profile::SouthDakota, G::DriftAgent) => "drift agents at the end",
            (Profile::SeedTrade, G::Oil | G::Surfactant) => "oils and surfactants after the products",
            (_, G::Oil | G::Surfactant) => "oils and surfactants near the end",
            (_, G::AntiFoam) => "before anything foams",
            (_, G::SolubleBag) => "bags dissolve in plain water, away from oils, boron, chlorine and fertilizers",
            (_, G::CompatibilityAgent) => "before what it keeps together",
            (_, G::CapsuleSuspension) => "capsules with suspensions",
            (_, G::Emulsion | G::OilDispersion) => "emulsions and oil dispersions after suspensions",
            (_, G::Solution | G::SolubleSolid) => "what dissolves, after what disperses",
            (_, G::DriftAgent | G::FoliarNutrient) => "at the end, unless their labels say earlier",
        }
    }

    /// Why a product stands where it stands.
    pub(crate) fn by_profile(profile: Profile, group: MixGroup) -> String {
        super::filled("{source}: {says}", &[("source", &source(profile)), ("says", &says(profile, group))])
    }

    /// The same, where the source is silent about its group.
    pub(crate) fn by_suggestion(profile: Profile, group: MixGroup) -> String {
        let says = says(Profile::Suggested, group);
        super::filled(
            "{source} does not say; mixcalc suggests: {says}",
            &[("source", &source(profile)), ("says", &says)],
        )
    }

    /// The same where several are named in one sentence.
    const fn short(profile: Profile) -> &'static str {
        match profile {
            Profile::Suggested => "the suggested order",
            Profile::Manitoba => "Manitoba",
            Profile::SouthDakota => "South Dakota",
            Profile::Wales => "WALES",
            Profile::Utah => "Utah",
            Profile::SeedTrade => "the seed trade's sheet",
        }
    }

    /// Products in the order in which they are placed, and who has them so or the other way round.
    pub(crate) fn differ(placed: (&[&str], &[Profile]), reverse: (&[&str], &[Profile])) -> String {
        let sources = |profiles: &[Profile]| profiles.iter().map(|at| short(*at)).collect::<Vec<_>>().join(", ");
        super::filled(
            "{first} before {second} here ({placed}), the other way round elsewhere ({reverse})",
            &[
                ("first", &placed.0.join(", ")),
                ("second", &reverse.0.join(", ")),
                ("placed", &sources(placed.1)),
                ("reverse", &sources(reverse.1)),
            ],
        )
    }
}

/// Words of the load sheet and of the findings page.
pub(crate) mod sheet {
    use crate::finding::Severity;
    use crate::label::HardnessClass;
    use crate::measure::MeasureKind;
    use crate::plan::Action;
    use crate::sprayer::SprayerKind;

    pub(crate) const LOAD_SHEET: &str = "LOAD SHEET";
    pub(crate) const FINDINGS: &str = "FINDINGS";

    // The verdict of the findings page.
    pub(crate) const MUST_NOT_BE_MIXED: &str = "DO NOT MIX THIS AS IT STANDS.";
    pub(crate) const WHY_NOT: &str = "What is marked STOP below must be settled first, and the job planned again. Until then this plan has no \
         measuring instructions.";
    pub(crate) const NO_STOP: &str = "No stop stands against this plan. Its amounts and steps are on the load sheet.";
    pub(crate) const NOTHING_FOUND: &str = "Nothing else was found.";
    pub(crate) const LOOK_AT: &str = "field of the job: {path}";

    /// What stands before a finding.
    pub(crate) const fn severity(severity: Severity) -> &'static str {
        match severity {
            Severity::Stop => "STOP",
            Severity::Caution => "CAUTION",
            Severity::Note => "note",
        }
    }

    // The job.
    pub(crate) const JOB: &str = "THE JOB";
    pub(crate) const AREA: &str = "Area";
    pub(crate) const AREA_VALUE: &str = "{area} to treat";
    pub(crate) const LESS_BUFFERS: &str = ", of a field of {field} less buffers of {buffers}";
    pub(crate) const SPRAYED_TWICE: &str = "; passes overlap on {twice}, for which there is more mix";
    pub(crate) const RATE: &str = "Rate";
    pub(crate) const VOLUME_RATE: &str = "{mix} of mix";
    pub(crate) const VOLUME_RATE_CALIBRATED: &str =
        "{mix} of mix by calibration; {low} to {high} ({coverage} interval)";
    pub(crate) const VOLUME_RATE_ON: &str = "{stated}, which makes {mix} of mix on the ground";
    pub(crate) const CARRIER_RATE: &str = "{carrier} of carrier, which makes {mix} of mix";
    pub(crate) const SPRAYER: &str = "Sprayer";
    pub(crate) const SPRAYER_VALUE: &str = "{sprayer}; safe fill {fill}";
    pub(crate) const LOADS: &str = "Loads";
    pub(crate) const LOADS_VALUE: &str = "{count} in all: {runs}";
    pub(crate) const RUN: &str = "{count} of {mix}";
    pub(crate) const MIX: &str = "Mix";
    pub(crate) const MIX_VALUE: &str = "{mix} in all, for {area}";
    pub(crate) const STRIP: &str = "Last strip";
    pub(crate) const NO_STRIP: &str = "none: no ground is kept for the rinse water";
    pub(crate) const STRIP_VALUE: &str = "{area} at the end stay untreated, for the rinse water";
    pub(crate) const STRIP_HELD_BACK: &str = "{strip}; {volume} of mix less is made for it";
    pub(crate) const RESIDUAL: &str = "Residual";
    pub(crate) const NO_RESIDUAL: &str = "not given: all of the mix is counted as sprayed";
    pub(crate) const RESIDUAL_VALUE: &str = "{volume} stays in the sprayer after spraying out";
    pub(crate) const RESIDUAL_SHORT: &str = "{residual}, so {area} at the end will stay untreated by itself";

    /// The sprayer in words.
    pub(crate) const fn sprayer(kind: SprayerKind) -> &'static str {
        match kind {
            SprayerKind::HandHeld => "hand-held sprayer",
            SprayerKind::Knapsack => "knapsack sprayer",
            SprayerKind::Boom => "boom sprayer",
            SprayerKind::BushAndTree => "bush and tree sprayer",
            SprayerKind::SemiMobile => "semi-mobile sprayer",
        }
    }

    // What to read first.
    pub(crate) const ABOUT_THIS_JOB: &str = "ABOUT THIS JOB";
    pub(crate) const READ_FIRST: &str = "READ BEFORE MIXING";

    // Totals.
    pub(crate) const TO_BRING: &str = "WHAT ALL LOADS TAKE";
    pub(crate) const CARRIER_IN_ALL: &str =
        "Carrier {carrier} in all. Water for rinsing the sprayer afterwards comes on top.";
    pub(crate) const PRODUCT: &str = "Product";
    pub(crate) const EXACT: &str = "Exact";
    pub(crate) const MEASURED: &str = "Measured";
    pub(crate) const GAP: &str = "Gap";
    pub(crate) const DOSE: &str = "dose {dose}; at most {most} ({source})";
    pub(crate) const DOSE_AND_LEAST: &str = "{dose}, at least {least}";
    pub(crate) const DOSE_IS_MOST: &str = "dose {dose}; no maximum is given, this is taken as the most";
    pub(crate) const ON_GROUND: &str = "{dose}, which makes {ground} of ground";
    pub(crate) const AND: &str = " and ";
    pub(crate) const DRAWN: &str = "drawn with {measure}: {count} x {graduation}";
    pub(crate) const CONTAINERS: &str =
        "containers of {content}: {opened} to open, {emptied} emptied, {left} left in the last";
    pub(crate) const TAKE_AND_BUY: &str = "; take {take}, buy {buy}, and use up what is open first";
    pub(crate) const EMPTIES: &str = "{product}: {count} emptied here, by load {loads}";
    pub(crate) const AND_MORE: &str = " and later ones";
    pub(crate) const STOCK: &str = "stock {stock}, {left} left afterwards";

    // The season.
    pub(crate) const LARGEST: &str =
        "largest dose that the limits given leave: {dose}, by {binding} ({source}); a sum, no permission";
    pub(crate) const LARGEST_ON: &str = "largest dose that the limits given leave: {dose}, by {binding} on parcel {parcel} ({source}); a sum, no permission";

    // Active substances.
    pub(crate) const SUBSTANCES: &str = "Active substances, summed over the products:";
    pub(crate) const SUBSTANCE: &str = "{name}: {dose}, {amount} in what is measured";

    // The mixing order, and the jar.
    pub(crate) const MIXING_ORDER: &str = "MIXING ORDER";
    pub(crate) const ORDER_IS_ONE_OF_SEVERAL: &str = "By {source}. Others are published that differ. Each product must be dispersed before the next goes in, and no two concentrates \
         meet outside the tank.";
    /// How hard water is.
    pub(crate) const fn hardness(class: HardnessClass) -> &'static str {
        match class {
            HardnessClass::Soft => "soft",
            HardnessClass::Moderate => "moderately hard",
            HardnessClass::Hard => "hard",
            HardnessClass::VeryHard => "very hard",
        }
    }
    pub(crate) const WATER: &str = "Water";
    pub(crate) const WATER_VALUE: &str =
        "{class}: {hardness} as calcium carbonate; {need} of ammonium sulfate would bind it";
    pub(crate) const MIX_IS_READ: &str =
        "Read on the tank's scale as it was checked, that is uncertain by {uncertainty}.";

    // The field list.
    pub(crate) const FIELD_LIST: &str = "TO TAKE ALONG";
    pub(crate) const PRODUCT_TO_TAKE: &str = "{product}: {amount}";
    pub(crate) const CONTAINERS_TO_TAKE: &str = ", in {containers} containers";
    pub(crate) const CONTAINERS_TO_BUY: &str = ", {buy} of them still to be bought";
    pub(crate) const WATER_TO_TAKE: &str = "clean water, {total}: {carrier} for the loads ({measure_rinses} of it for rinsing measures, {container_rinses} for rinsing \
         containers), {tank_rinse} for rinsing the tank, {hands} for hands, {eyes} for eyes";
    pub(crate) const MEASURE_TO_TAKE: &str = "measure: {measure}";
    pub(crate) const WORN_FOR_MIXING: &str = "to wear for mixing: {worn}";
    pub(crate) const WORN_FOR_SPRAYING: &str = "to wear for spraying: {worn}";
    pub(crate) const PROTECTION_UNSTATED: &str = "what to wear for {products}: see the label, it is not stated here";
    pub(crate) const LISTED: &str = ", ";

    pub(crate) const JAR_TEST: &str = "JAR TEST";
    pub(crate) const JAR: &str = "In a clear jar, dressed as the labels ask: part of {carrier} of carrier first, as in the tank, then each product in the \
         order above, stirred until even, then the rest of the carrier. That makes {volume}.";
    pub(crate) const JAR_SHOWS: &str = "Look after 15 to 30 minutes, and again after hours if the mix may stand. Do not mix where there are layers, flakes, gel, \
         sludge, oily scum, heat, gas or foam that stays. The jar shows whether products stay mixed, not what they do to crop or pest.";
    pub(crate) const IN_JAR: &str = "In the jar";

    // A load.
    pub(crate) const LOAD: &str = "Load {first} of {all}";
    pub(crate) const LOADS_RUN: &str = "Loads {first} to {last} of {all}";
    pub(crate) const IN_LOAD: &str = "{mix} of mix with {carrier} of carrier in it, for {area}.";
    pub(crate) const TOPPED_UP: &str = "The tank holds {held} before this load: {what}. With {carrier} of carrier and the amounts below it comes to {mix} of mix, for {area}.";
    pub(crate) const IS_THERE: &str =
        "The tank holds {held} before this load: {what}. That is all of it, for {area}: nothing is added.";
    pub(crate) const HELD_WATER: &str = "carrier alone";
    pub(crate) const HELD_MIX: &str = "what is left of this mix, with {products} in it";
    pub(crate) const HELD_PRODUCT: &str = "{amount} of {product}";
    pub(crate) const NONE_TO_ADD: &str = "none to add";
    pub(crate) const IN_EACH_LOAD: &str = "Each: {mix} of mix with {carrier} of carrier in it, for {area}.";
    pub(crate) const RUNS_OUT: &str = "Runs out after {where}.";
    pub(crate) const RUNS_OUT_BETWEEN: &str = "{value} ({low} to {high})";
    pub(crate) const RUNS_OUT_FROM: &str = "{value} ({low} or more)";
    pub(crate) const PASSES: &str = "{passes} passes";
    pub(crate) const DELIVERS: &str = "delivers {dose}; {low} to {high}";
    pub(crate) const DELIVERS_OVER: &str =
        "delivers {dose}; {low} to {high}; {probability} likely to be over {maximum}";
    pub(crate) const AMOUNT: &str = "Amount";
    pub(crate) const AMOUNT_IN_EACH: &str = "In each";
    pub(crate) const MEASURE: &str = "Measure";
    pub(crate) const MEASURE_AND_FILLINGS: &str = "{measure}: {fillings}";
    pub(crate) const STEP: &str = "Step";
    pub(crate) const IN_TANK: &str = "In tank";
    pub(crate) const TICK_LOADS: &str = "Tick each load when its last step is done:";
    pub(crate) const TALLY_LOADS: &str = "Tally the loads as they are done, in fives:";
    pub(crate) const KEEP_STRIP: &str = "After this load, leave the last {area} untreated: the rinse water goes there.";

    /// Where the fillings of a measure end.
    pub(crate) const fn filling(kind: MeasureKind) -> &'static str {
        match kind {
            MeasureKind::Vessel => "to the {amount} mark",
            MeasureKind::Scale => "to {amount}",
            MeasureKind::Pack => "{count} whole",
        }
    }
    pub(crate) const FILLINGS: &str = "{count} times {filling}";
    pub(crate) const THEN: &str = ", then ";

    /// What a step says, before where it ends.
    pub(crate) const fn step(
        action: Action,
        measure: MeasureKind,
        is_premixed: bool,
        is_carried: bool,
    ) -> &'static str {
        match (action, measure) {
            (Action::Fill { .. }, _) => "Fill the tank with {level}.",
            (Action::TopUp { .. }, _) => "Top up with {level}.",
            (Action::Measure { .. }, MeasureKind::Pack) => {
                "Take {amount} of {product} ({measured_with}) and put it in."
            }
            (Action::Measure { .. }, MeasureKind::Vessel) if is_premixed => {
                "Measure {amount} of {product} into a bucket ({measured_with})."
            }
            (Action::Measure { .. }, MeasureKind::Vessel) => {
                "Measure {amount} of {product} ({measured_with}) and pour it in."
            }
            (Action::Measure { .. }, MeasureKind::Scale) if is_premixed => {
                "Weigh {amount} of {product} into a bucket ({measured_with})."
            }
            (Action::Measure { .. }, MeasureKind::Scale) => {
                "Weigh {amount} of {product} ({measured_with}) and put it in."
            }
            (Action::Premix { .. }, _) => "Stir {product} into {carrier} of carrier in the bucket, and pour that in.",
            (Action::Rinse { .. }, _) => {
                "Rinse the measure ({measure}) {times} times with {each} of carrier each, all into the tank."
            }
            (Action::Wait { most: Some(_), .. }, _) => {
                "Wait until {product} is dispersed: {least} to {most} as a rule, longer in cold water."
            }
            (Action::Wait { most: None, .. }, _) => "Wait {least} after {product}, as its label says.",
            (Action::RinseContainers { .. }, _) => {
                "Rinse each container of {product} that this load empties {times} times with {each} of carrier, as its label says, and drain it into the \
                 tank: at most {containers}, and the top-up is less by that."
            }
            (Action::StartAgitator, _) => {
                "Start the agitator: the surface rolls and does not foam. Let it run until the tank is empty."
            }
            (Action::Agitate, _) if is_carried => "Close the tank and rock it until the mix is even.",
            (Action::Agitate, _) => "Agitate until the mix is even.",
        }
    }
    /// The unit of waits.
    pub(crate) const WAITED_IN: &str = "min";
    pub(crate) const TO_MARK: &str = "carrier to the {mark} mark";
    pub(crate) const TO_MARK_AND_REST: &str = "carrier to the {mark} mark, and a measured {rest} more";
    pub(crate) const MEASURED_REST: &str = "a measured {rest} of carrier";

    // What was done.
    pub(crate) const WRITE_IN: &str = "WRITE IN";
    pub(crate) const DATE: &str = "Date";
    pub(crate) const PLACE: &str = "Place";
    pub(crate) const MIXED_BY: &str = "Mixed by";
    pub(crate) const CHECKED_BY: &str = "Checked by";
    pub(crate) const REALLY_USED: &str = "Really used";
    pub(crate) const PLANNED: &str = "Planned";
    pub(crate) const CARRIER: &str = "Carrier";
    pub(crate) const LOADS_DONE: &str = "Loads";
    pub(crate) const REMARKS: &str = "Spills, what is left over, remarks:";
}

/// Words of a number's working.
pub(crate) mod working {
    pub(crate) const WORKING: &str = "WORKING";
    pub(crate) const WHAT_IT_SAYS: &str = "Each number of this plan: how it was reached, from what, and where that is written. A place that begins with job \
         is a number of the job, one that begins with advice is a default of mixcalc, every other has a working of its own here.";
    pub(crate) const NUMBER: &str = "{place} = {value}";
    pub(crate) const LINE: &str = "{number}: {how}";
    pub(crate) const FORMULA: &str = "{formula}, with";
    pub(crate) const FORMULA_ALONE: &str = "{formula};";
    pub(crate) const INPUT: &str = "{symbol} = {value} ({place}),";
    pub(crate) const LAST_INPUT: &str = "{symbol} = {value} ({place});";

    // Where the formulas stand.
    pub(crate) const MIX: &str = "docs/numbers.md, 2";
    pub(crate) const TANK: &str = "docs/numbers.md, 3";
    pub(crate) const GROUND: &str = "docs/numbers.md, 4";
    pub(crate) const LOADS: &str = "docs/numbers.md, 5";
    pub(crate) const AMOUNTS: &str = "docs/numbers.md, 6";
    pub(crate) const STEPS: &str = "docs/numbers.md, 7";
    pub(crate) const LEDGER: &str = "docs/numbers.md, 8";
    pub(crate) const SUBSTANCES: &str = "docs/numbers.md, 13";
    pub(crate) const SEASON: &str = "docs/numbers.md, 14";
    pub(crate) const CALIBRATION: &str = "docs/numbers.md, 15";
    pub(crate) const JAR_TEST: &str = "docs/numbers.md, 18";
    pub(crate) const UNCERTAINTY: &str = "docs/numbers.md, 11";
    pub(crate) const RUN_OUT: &str = "docs/numbers.md, 20";
    pub(crate) const MEASURING: &str = "docs/numbers.md, 21";
    pub(crate) const CONTAINERS: &str = "docs/numbers.md, 22";
    pub(crate) const WATER: &str = "docs/numbers.md, 19";
    pub(crate) const TANK_SCALE: &str = "docs/numbers.md, 23";
    pub(crate) const FIELD_LIST: &str = "docs/numbers.md, 24";

    /// What stands behind a default.
    pub(crate) fn advice(place: &str, is_carried: bool) -> &'static str {
        match place {
            "advice.headspace" if is_carried => {
                "advice: the tank moves with the body; twice the least of ISO 16119-1 and EN 12761-1"
            }
            "advice.headspace" => super::source::HEADSPACE,
            "advice.first_carrier" => "advice: extension bulletins name a quarter to three quarters",
            "advice.rinses" | "advice.rinse" => {
                "triple rinsing of small vessels: University of Illinois Extension; Montana ARM rule"
            }
            "advice.container_rinses" | "advice.small_container_rinse" | "advice.large_container_rinse" => {
                "Montana ARM 4.10.803; University of Illinois Extension; the label decides"
            }
            "advice.hands" => "ISO 4254-6: a tank of at least 15 L for washing hands (probable)",
            "advice.eyes" => "40 CFR 170.509: 6 US gallons for flushing eyes (probable)",
            "advice.tank_rinse" | "advice.residual_rinse" => {
                "ISO 16119-2: a tenth of the tank, or ten times what dilutes in it; the greater is taken"
            }
            "advice.premix_parts" => "South Dakota State University Extension: two parts to one of product",
            "advice.least_wait" | "advice.most_wait" => "advice: extension bulletins; longer in cold water",
            "advice.premix_density" => "advice: a product by mass counts as 1 kg/L",
            _ => "advice",
        }
    }
}
