//! Shared pieces of the test suites: finding and loading conformance vectors, and comparing numbers.
#![allow(clippy::panic, reason = "a test that cannot find or read its vectors has to fail")]

pub mod jobs;

use std::path::PathBuf;

use serde::Deserialize;
use serde::de::DeserializeOwned;

/// The format that every file of vectors names.
pub const FORMAT: &str = "mixcalc-vectors/1";

/// A file of vectors: one function, its cases, and how many there are, so that a runner that skips some is found out.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File<Case> {
    format: String,
    function: String,
    count: usize,
    cases: Vec<Case>,
}

/// Where `tests/conformance/<name>.json` is.
#[must_use]
pub fn path(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("conformance").join(format!("{name}.json"))
}

/// A file of `tests/conformance` as text.
///
/// # Panics
///
/// Where there is no such file.
#[must_use]
pub fn text(name: &str) -> String {
    let path = path(name);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The cases of `tests/conformance/<name>.json`, which are for `function`.
///
/// # Panics
///
/// Where the file cannot be read, has a field that the case lacks, or another count than it states.
#[must_use]
pub fn vectors<Case: DeserializeOwned>(name: &str, function: &str) -> Vec<Case> {
    let file: File<Case> = serde_json::from_str(&text(name)).unwrap_or_else(|error| panic!("{name}.json: {error}"));
    assert_eq!(file.format, FORMAT, "{name}.json");
    assert_eq!(file.function, function, "{name}.json");
    assert_eq!(file.count, file.cases.len(), "{name}.json: count of cases");
    file.cases
}

/// Runs every case, prints how many ran, and fails with all failures at once. `run` says what is wrong with a case.
///
/// # Panics
///
/// Where a case fails, or where there is none.
pub fn run<Case>(name: &str, cases: &[Case], id: impl Fn(&Case) -> &str, run: impl Fn(&Case) -> Result<(), String>) {
    let failures: Vec<String> =
        cases.iter().filter_map(|case| run(case).err().map(|what| format!("{}: {what}", id(case)))).collect();
    println!("{name}: {} cases run, {} failed", cases.len(), failures.len());
    assert!(!cases.is_empty(), "{name}: no cases");
    assert!(failures.is_empty(), "{name}:\n{}", failures.join("\n"));
}

/// Whether two numbers are the same within a relative tolerance; where `expected` is 0, only 0 is.
#[must_use]
pub fn is_within(actual: f64, expected: f64, relative: f64) -> bool {
    (actual - expected).abs() <= relative * expected.abs()
}
