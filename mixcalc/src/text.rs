//! Every sentence: errors, findings, cautions, steps, the load sheet.
//!
//! A catalogue of templates with named gaps, so that wording is found in one place and no other room holds any. Where a gap
//! has no value the gap's name stays visible, which a test would see.

use alloc::string::String;
use core::fmt::{self, Write};

use crate::error::ErrorCode;
use crate::finding::FindingCode;
use crate::label::Basis;
use crate::measure::MeasureKind;
use crate::quantity::Kind;

/// Writes a template with its gaps filled: `{given}` becomes the value named `given`.
pub(crate) fn fill(
    out: &mut dyn Write,
    template: &str,
    values: &[(&str, &dyn fmt::Display)],
) -> fmt::Result {
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
        ErrorCode::NotFinite => {
            "must be a finite number, got {given}; write a plain decimal number such as 2.5"
        }
        ErrorCode::NotPositive => "must be above zero, got {given}",
        ErrorCode::OutOfRange => "must be {allowed}, got {given}",
        ErrorCode::MissingInput => "is missing; give {allowed}",
        ErrorCode::BothGiven => "{given} are both given; keep {allowed}",
        ErrorCode::DuplicateName => "{given} is the name of another one already; give each its own",
        ErrorCode::MissingDensity => {
            "{given} cannot measure this product without its {allowed}; add that key to the product"
        }
        ErrorCode::ProductsFillMix => {
            "the products take up {given} of the mix and leave no carrier; they must be under 100 % together"
        }
        ErrorCode::StripCoversJob => {
            "a last strip of {given} is as large as the job of {allowed}; hold back less"
        }
        ErrorCode::TooManyLoads => {
            "the job comes to {given} loads, more than {allowed}; check area, rate and tank"
        }
        ErrorCode::BelowFirstMark => {
            "the tank's first mark, {given}, is above its safe fill of {allowed}; check the tank"
        }
        ErrorCode::UnknownChoice => "{given} is not a choice here; write {allowed}",
        ErrorCode::NoMeasure => {
            "none of the {given} measures can measure this product; add {allowed}"
        }
        ErrorCode::Uncountable => {
            "comes to more than {allowed} graduations of {given}, too many to count exactly; use a coarser measure"
        }
        ErrorCode::UnknownUnit => "{given} is not a unit that is read here; write {allowed}",
        ErrorCode::WrongQuantity => "must be {allowed}, got {given}",
        ErrorCode::UnreadableQuantity => {
            "cannot read {given}; write a number, a blank and a unit, such as {allowed}"
        }
        ErrorCode::AmbiguousUnit => "{given} has more than one meaning; write {allowed}",
        ErrorCode::MissingUnit => "{given} has no unit; write text such as {allowed}",
        ErrorCode::DecimalComma => {
            "the comma in {given} can be read in more than one way; write {allowed}"
        }
        ErrorCode::UnlikeQuantities => "cannot put together {given}; they are different things",
        ErrorCode::UnreadableDocument => "cannot be read: {given}",
        ErrorCode::UnknownKey => "{given} is not a key here; write {allowed}",
        ErrorCode::DuplicateKey => "{given} stands here twice; keep one",
        ErrorCode::WrongType => "must be {allowed}, got {given}",
        ErrorCode::TooLarge => {
            "a document of {given} is larger than is read; keep it under {allowed}"
        }
    }
}

/// A word or phrase inside a sentence. The one door for phrases that other rooms put into a gap, so that they are found here.
pub(crate) const fn word(phrase: &'static str) -> &'static str {
    phrase
}

/// `a volume rate`, `an area`.
pub(crate) fn with_article(words: &str) -> String {
    let article = if words.starts_with(['a', 'e', 'i', 'o', 'u']) {
        "an"
    } else {
        "a"
    };
    alloc::format!("{article} {words}")
}

/// Longest piece of a caller's text that a message repeats.
const LONGEST_QUOTE: usize = 60;

/// A caller's text in quotes, shortened, with nothing in it that would disturb a terminal.
pub(crate) fn quoted(text: &str) -> String {
    let mut shown: String = text
        .chars()
        .take(LONGEST_QUOTE)
        .flat_map(char::escape_debug)
        .collect();
    if text.chars().nth(LONGEST_QUOTE).is_some() {
        shown.push('…');
    }
    alloc::format!("\"{shown}\"")
}

/// The candidate that differs from `word` in the fewest letters, if that is few enough to be a slip.
pub(crate) fn nearest<'a>(
    word: &str,
    candidates: impl IntoIterator<Item = &'a str>,
) -> Option<&'a str> {
    let word: alloc::vec::Vec<char> = word.chars().take(LONGEST_QUOTE).collect();
    candidates
        .into_iter()
        .map(|candidate| (letters_apart(&word, candidate), candidate))
        .filter(|(apart, candidate)| *apart <= 1 + candidate.chars().count().min(word.len()) / 3)
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
            "load {load} takes {subject} in steps of {actual}, over 5 % of the amount ({limit}; {source}); a finer measure would help"
        }
        FindingCode::ManyFillings => {
            "load {load} takes {subject} in more fillings of its measure than advised ({source}); a larger measure would help"
        }
        FindingCode::CarriedMassAboveAdvice => {
            "the full sprayer comes to {actual} on the back, over {limit} ({source})"
        }
        FindingCode::StockShort => "the job takes {actual} of {subject}, and there are {limit}",
        FindingCode::ResidualLeavesGroundShort => {
            "what stays in the sprayer leaves {actual} at the end untreated; a last strip gives the rinse water a place to go"
        }
        FindingCode::DisplacementNotCounted => {
            "{subject} takes up room in the tank that is not counted without {path}; topping up to the mark makes up for it"
        }
        FindingCode::DoseTakenAsMaximum => {
            "no maximum dose is given for {subject}: its dose of {actual} is taken as the most, and amounts are rounded down"
        }
    }
}

/// Sources of the advice that findings quote.
pub(crate) mod source {
    /// Headspace.
    pub(crate) const HEADSPACE: &str =
        "ISO 16119-1 and EN 12761-1: total volume at least 5 % above nominal";
    /// Strip.
    pub(crate) const STRIP: &str =
        "mixcalc: a larger strip is more often a slip of the unit than a wish";
    /// Graduation.
    pub(crate) const GRADUATION: &str =
        "mixcalc: half a graduation is then under 2.5 % of the amount";
    /// Fillings.
    pub(crate) const FILLINGS: &str = "mixcalc: each filling is a splash and a miscount";
    /// Carried mass.
    pub(crate) const CARRIED_MASS: &str = "FAO, guidelines on minimum requirements for pesticide application equipment, 2001, volume 1";
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
    (
        "emergency",
        false,
        "Know the emergency number and the poison centre, and have the labels with you.",
    ),
];

/// The name of a measure that nobody named.
pub(crate) const fn measure_name(kind: MeasureKind) -> &'static str {
    match kind {
        MeasureKind::Vessel => "{capacity} vessel in steps of {graduation}",
        MeasureKind::Scale => "{capacity} scale in steps of {graduation}",
        MeasureKind::Pack => "{capacity} pack",
    }
}

/// `one of a, b, c`.
pub(crate) fn one_of(choices: &[&str]) -> String {
    alloc::format!("one of {}", choices.join(", "))
}

/// `mix_density such as "1.1 kg/L"`.
pub(crate) fn example(key: &str, kind: Kind) -> String {
    alloc::format!("{key} such as \"{}\"", kind.example())
}

/// Doses on a basis.
pub(crate) const fn dose_examples(basis: Option<Basis>) -> &'static str {
    match basis {
        None => "a dose such as \"2.5 L/ha\", \"0.4 kg/ha\", \"150 mL/100 L\" or \"0.25 % v/v\"",
        Some(Basis::GroundArea) => "a dose per ground area such as \"2.5 L/ha\" or \"0.4 kg/ha\"",
        Some(Basis::MixVolume) => {
            "a dose per volume of mix such as \"150 mL/100 L\", \"2 g/L\" or \"0.25 % v/v\""
        }
        Some(Basis::CarrierVolume) => {
            "a dose per volume of carrier such as \"150 mL/100 L\", \"2 g/L\" or \"0.25 % v/v\""
        }
    }
}

/// A dose by volume or by mass.
pub(crate) const fn dose_like(by_volume: bool) -> &'static str {
    if by_volume {
        "by volume, such as \"2.5 L/ha\", as the dose is"
    } else {
        "by mass, such as \"0.4 kg/ha\""
    }
}

/// A measure that would serve a product.
pub(crate) const fn measure_wanted(by_volume: bool) -> &'static str {
    if by_volume {
        "a vessel (or a scale, and the product's density)"
    } else {
        "a scale (or a vessel, and the product's bulk_density or density)"
    }
}
