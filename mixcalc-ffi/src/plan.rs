//! A job document in, a plan document out.

use std::ffi::c_char;

use mixcalc::document;

use crate::border::answer;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::text::{hand_out, taken};

/// Plans a job: loads, recipes in whole graduations, steps, ledger and findings.
///
/// job       the job document, "mixcalc-job/1", as JSON or TOML; its first character that is not blank tells which
/// job_len   length of job in bytes
/// out       receives the plan document, "mixcalc-plan/1", as JSON; give it back with mixcalc_string_free()
/// out_len   receives the length of *out in bytes, the zero byte at its end not counted; may be NULL
/// error     receives why there is no plan; may be NULL
///
/// MIXCALC_STATUS_OK means that the question is answered, not that the plan may be used: where a finding of severity
/// "stop" stands, "usable" is false and the plan holds no measured amounts and no steps. The same job gives the same
/// bytes here, in Rust and in Python.
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (job, out), _STRUCT_SIZE (error), _LENGTH (job_len), _PANIC, or what is wrong
/// with the job, 100 or above.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_json(
    job: *const c_char,
    job_len: usize,
    out: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        let job = unsafe { taken("job", job, job_len) }?;
        if out.is_null() {
            return Err(Failure::null_pointer("out"));
        }
        let plan = mixcalc::plan(&document::read_job(job)?)?;
        // SAFETY: the caller's promise.
        unsafe { hand_out(document::write_plan(&plan), out, out_len) }
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}
