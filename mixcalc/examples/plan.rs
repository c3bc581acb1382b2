//! Plans a job document and prints its load sheet, or the plan document.
//!
//! ```text
//! cargo run --example plan -- docs/examples/demo.toml
//! cargo run --example plan -- --json - < job.json
//! ```
//!
//! Ends with 0, with 1 where a stop stands, and with 2 where the job cannot be answered.

use std::io::{Read as _, Write as _};
use std::process::ExitCode;

use mixcalc::{document, sheet};

fn main() -> ExitCode {
    let (flags, places): (Vec<String>, Vec<String>) = std::env::args().skip(1).partition(|word| word.starts_with("--"));
    let as_json = flags.iter().any(|flag| flag == "--json");
    let [place] = places.as_slice() else {
        eprintln!("usage: plan [--json] JOB    (a TOML or JSON file, or - for standard input)");
        return ExitCode::from(2);
    };
    let mut job = Vec::new();
    let read = match place.as_str() {
        "-" => std::io::stdin().read_to_end(&mut job).map(|_| ()),
        path => std::fs::read(path).map(|bytes| job = bytes),
    };
    if let Err(error) = read {
        eprintln!("{place}: {error}");
        return ExitCode::from(2);
    }
    let plan = match document::read_job(&job).and_then(|job| mixcalc::plan(&job)) {
        Ok(plan) => plan,
        Err(error) => {
            eprintln!("{place}: error {}: {error}", error.code().number());
            return ExitCode::from(2);
        }
    };
    let page = match plan.cleared() {
        _ if as_json => document::write_plan(&plan) + "\n",
        Some(cleared) => sheet::text(&cleared),
        None => sheet::findings(&plan),
    };
    // A reader that has seen enough, such as `head`, closes the pipe: no error of ours.
    let _ = std::io::stdout().write_all(page.as_bytes());
    ExitCode::from(u8::from(!plan.usable()))
}
