//! Bad documents: each is refused with the code, the name and the place that its case states, and in the sentence that it
//! states, which may be printed anywhere.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test fails by panicking")]

use std::cell::RefCell;
use std::time::Instant;

use mixcalc::{Error, document};
use mixcalc_tests::{run, vectors};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    id: String,
    document: Document,
    error: Refusal,
    #[serde(rename = "why")]
    _why: String,
}

/// A document as text, as hexadecimal digits of bytes that are no text, or as a piece many times over.
#[derive(Deserialize)]
#[serde(untagged, deny_unknown_fields)]
enum Document {
    Text(String),
    Bytes {
        hex: String,
    },
    Repeated {
        #[serde(default)]
        before: String,
        repeat: String,
        times: usize,
        #[serde(default)]
        after: String,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Refusal {
    code: u32,
    name: String,
    path: String,
    /// The sentence, whole, without the place before it.
    says: String,
}

impl Document {
    fn bytes(&self) -> Vec<u8> {
        match self {
            Self::Text(text) => text.clone().into_bytes(),
            Self::Bytes { hex } => {
                (0..hex.len()).step_by(2).map(|at| u8::from_str_radix(&hex[at..at + 2], 16).unwrap()).collect()
            }
            Self::Repeated { before, repeat, times, after } => {
                [before, repeat.repeat(*times).as_str(), after].concat().into_bytes()
            }
        }
    }
}

/// Longest sentence of an error, in characters.
const LONGEST: usize = 400;

fn check(case: &Case, error: &Error) -> Result<(), String> {
    let Refusal { code, name, path, says } = &case.error;
    let message = error.to_string();
    let found = (error.code().number(), error.code().name(), error.path());
    if found != (*code, name.as_str(), path.as_str()) {
        return Err(format!("{found:?} for {code} at {path:?}: {message}"));
    }
    let sentence = message.strip_prefix(&format!("{path}: ")).unwrap_or(&message);
    if sentence.is_empty() || message.chars().count() >= LONGEST || message.chars().any(char::is_control) {
        return Err(format!("not a sentence to be shown: {message:?}"));
    }
    if sentence != says {
        return Err(format!("says {sentence:?} and not {says:?}"));
    }
    Ok(())
}

#[test]
fn every_bad_document_is_refused_with_code_and_place() {
    let cases: Vec<Case> = vectors("refused", "refused");
    let times = RefCell::new(Vec::new());
    run(
        "refused.json",
        &cases,
        |case| &case.id,
        |case| {
            let document = case.document.bytes();
            let started = Instant::now();
            let answer = document::read_job(&document).and_then(|job| mixcalc::plan(&job));
            times.borrow_mut().push((started.elapsed(), case.id.clone()));
            match answer {
                Ok(plan) => Err(format!("gives a plan of {} loads, {}", plan.load_count(), plan.made())),
                Err(error) => check(case, &error),
            }
        },
    );
    // A figure to look at, not a test: machines differ.
    let mut times = times.into_inner();
    times.sort_unstable();
    println!("slowest: {:?}", times.iter().rev().take(3).collect::<Vec<_>>());
}
