//! Plans worked by hand: each case states a part of the plan document, which the plan made of its job must hold.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test fails by panicking")]

use mixcalc::document;
use mixcalc_tests::{is_within, run, vectors};
use serde::Deserialize;
use serde_json::Value;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    id: String,
    job: Value,
    /// A plan document with keys left out. What it holds, it holds whole: lists are as long, findings are all of them.
    expect: Value,
    rel_tol: f64,
    #[serde(rename = "why")]
    _why: String,
    #[serde(rename = "source")]
    _source: String,
}

/// Compares what is expected with what is; numbers within a relative tolerance, counts exactly.
fn compare(place: &str, expected: &Value, actual: &Value, rel_tol: f64) -> Result<(), String> {
    let agrees =
        match (expected, actual) {
            (Value::Object(expected), Value::Object(actual)) => {
                return expected.iter().try_for_each(|(key, expected)| {
                    let actual = actual.get(key).ok_or_else(|| format!("{place} has no {key}"))?;
                    compare(&format!("{place}.{key}"), expected, actual, rel_tol)
                });
            }
            (Value::Array(expected), Value::Array(actual)) if expected.len() == actual.len() => {
                return expected.iter().zip(actual).enumerate().try_for_each(|(i, (expected, actual))| {
                    compare(&format!("{place}[{i}]"), expected, actual, rel_tol)
                });
            }
            (Value::Number(expected), Value::Number(actual)) if actual.is_f64() => {
                is_within(actual.as_f64().unwrap(), expected.as_f64().unwrap(), rel_tol)
            }
            _ => expected == actual,
        };
    if agrees { Ok(()) } else { Err(format!("{place} is {actual}, not {expected}")) }
}

#[test]
fn every_plan_worked_by_hand_is_what_the_library_makes() {
    let cases: Vec<Case> = vectors("plan", "plan");
    run(
        "plan.json",
        &cases,
        |case| &case.id,
        |case| {
            let plan = document::read_job(case.job.to_string().as_bytes())
                .and_then(|job| mixcalc::plan(&job))
                .map_err(|error| error.to_string())?;
            let plan: Value = serde_json::from_str(&document::write_plan(&plan)).unwrap();
            compare("plan", &case.expect, &plan, case.rel_tol)
        },
    );
}

#[test]
fn every_finding_is_found_by_one_of_them() {
    let cases: Vec<Case> = vectors("plan", "plan");
    let found = |code: &mixcalc::FindingCode| {
        let findings = cases.iter().filter_map(|case| case.expect["findings"].as_array()).flatten();
        findings.filter_map(|finding| finding["code"].as_str()).any(|found| found == code.name())
    };
    let missed: Vec<_> = mixcalc::FindingCode::all().iter().filter(|code| !found(code)).collect();
    assert!(missed.is_empty(), "{missed:?}");
}
