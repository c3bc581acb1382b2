//! The schemas of the documents, as C strings that live as long as the program.

use std::ffi::c_char;

use mixcalc::document;

/// JSON without blanks between its parts, and zero bytes after it. They are made for people; here they would take 25 KB.
const fn packed<const N: usize>(json: &str) -> ([u8; N], usize) {
    let (mut from, mut to, mut len, mut quoted, mut escaped) = (json.as_bytes(), [0; N], 0, false, false);
    while let Some((byte, rest)) = from.split_first() {
        if quoted || !byte.is_ascii_whitespace() {
            // Where N is 0, it is only counted.
            if let Some((_, free)) = to.split_at_mut_checked(len)
                && let Some((place, _)) = free.split_first_mut()
            {
                *place = *byte;
            }
            len += 1;
        }
        quoted ^= *byte == b'"' && !escaped;
        escaped = quoted && *byte == b'\\' && !escaped;
        from = rest;
    }
    (to, len)
}

const JOB_LEN: usize = packed::<0>(document::job_schema()).1;
const PLAN_LEN: usize = packed::<0>(document::plan_schema()).1;
static JOB_SCHEMA: [u8; JOB_LEN + 1] = packed(document::job_schema()).0;
static PLAN_SCHEMA: [u8; PLAN_LEN + 1] = packed(document::plan_schema()).0;

/// What a job document may hold, as JSON Schema 2020-12.
///
/// The text is the library's and lives as long as the program: do not give it back.
#[unsafe(no_mangle)]
pub extern "C" fn mixcalc_job_schema() -> *const c_char {
    JOB_SCHEMA.as_ptr().cast()
}

/// What a plan document may hold, as JSON Schema 2020-12.
///
/// The text is the library's and lives as long as the program: do not give it back.
#[unsafe(no_mangle)]
pub extern "C" fn mixcalc_plan_schema() -> *const c_char {
    PLAN_SCHEMA.as_ptr().cast()
}
