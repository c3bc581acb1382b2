//! Which library this is.

use std::ffi::{CStr, c_char};

/// Counts the changes that a program built before cannot live with. 0 until the interface has settled: within 0, any
/// release may be such a change.
pub const MIXCALC_ABI_VERSION: u32 = 0;

const VERSION: &CStr = match CStr::from_bytes_with_nul(concat!(env!("CARGO_PKG_VERSION"), "\0").as_bytes()) {
    Ok(version) => version,
    Err(_) => c"",
};

/// Version of the library that the program runs with, such as "0.1.0"; MIXCALC_VERSION is the one it was built with.
///
/// The text is the library's and lives as long as the program: do not give it back.
#[unsafe(no_mangle)]
pub extern "C" fn mixcalc_version() -> *const c_char {
    VERSION.as_ptr()
}

/// MIXCALC_ABI_VERSION of the library that the program runs with.
#[unsafe(no_mangle)]
pub extern "C" fn mixcalc_abi_version() -> u32 {
    MIXCALC_ABI_VERSION
}
