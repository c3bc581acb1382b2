//! Every sentence: errors, findings, cautions, steps, the load sheet.
//!
//! A catalogue of templates with named gaps, so that wording is found in one place and no other room holds any. Where a gap
//! has no value the gap's name stays visible, which a test would see.

use alloc::string::String;
use core::fmt::{self, Write};

use crate::error::ErrorCode;

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
