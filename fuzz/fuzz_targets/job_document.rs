//! Any bytes as a job document; a job that reads is planned too.
#![no_main]

use libfuzzer_sys::fuzz_target;
use mixcalc::document;
use mixcalc_fuzz::{check_error, check_plan};

fuzz_target!(|document: &[u8]| {
    let job = match document::read_job(document) {
        Ok(job) => job,
        Err(error) => return check_error(&error),
    };
    let written = document::write_job(&job);
    let again = document::read_job(written.as_bytes()).expect(&written);
    assert_eq!(document::write_job(&again), written);
    check_plan(&job);
});
