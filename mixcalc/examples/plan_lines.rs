//! Plans one job document a line, for programs that check many plans.
//!
//! Standard input: a job a line, as it is or, where it is TOML of many lines, quoted as a JSON string. Standard output:
//! for each, a line of JSON, `{"job": …, "plan": …}` or `{"job": …, "error": {"code", "name", "path", "message"}}`. A
//! job that is not JSON is quoted there too.

use std::borrow::Cow;
use std::io::{self, BufRead, Write};

use mixcalc::{Error, document};
use serde::de::IgnoredAny;
use serde_json::json;

fn main() -> io::Result<()> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().split(b'\n') {
        let line = line?;
        let unquoted: Option<String> = serde_json::from_slice(&line).ok();
        let answer = match plan(unquoted.as_ref().map_or(&line, String::as_bytes)) {
            Ok(plan) => format!("\"plan\": {plan}"),
            Err(error) => format!("\"error\": {}", described(&error)),
        };
        writeln!(out, "{{\"job\": {}, {answer}}}", quoted(&line))?;
    }
    out.flush()
}

/// The plan on one line: within JSON, line ends and the blanks after them stand between values only.
fn plan(job: &[u8]) -> Result<String, Error> {
    let plan = mixcalc::plan(&document::read_job(job)?)?;
    Ok(document::write_plan(&plan).lines().map(str::trim_start).collect())
}

fn described(error: &Error) -> serde_json::Value {
    json!({
        "code": error.code().number(),
        "name": error.code().name(),
        "path": error.path(),
        "message": error.to_string(),
    })
}

/// The job as it came where it is JSON, as a JSON string otherwise.
fn quoted(job: &[u8]) -> Cow<'_, str> {
    let text = String::from_utf8_lossy(job);
    match serde_json::from_str::<IgnoredAny>(&text) {
        Ok(_) => text,
        Err(_) => json!(text).to_string().into(),
    }
}
