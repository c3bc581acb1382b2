//! Text taken from the caller, handed out and taken back, and text that the caller borrows.

use std::ffi::{CStr, CString, c_char};

use crate::border::answer;
use crate::error::ErrorDetails;
use crate::failure::Failure;

/// What the caller's `parameter` holds.
///
/// `start` is NULL or points at `len` bytes that stay as they are for the length of the call.
pub(crate) unsafe fn taken<'a>(parameter: &str, start: *const c_char, len: usize) -> Result<&'a [u8], Box<Failure>> {
    if start.is_null() {
        return Err(Failure::null_pointer(parameter));
    }
    if isize::try_from(len).is_err() {
        return Err(Failure::length(&format!("{parameter}_len"), len));
    }
    // SAFETY: neither NULL nor too long, as just checked; the rest is the caller's promise.
    Ok(unsafe { std::slice::from_raw_parts(start.cast(), len) })
}

/// The word that the caller's `parameter` holds. What is not UTF-8 is no word that is known, and its bytes are not repeated.
///
/// `start` is NULL or points at bytes that end in a zero byte and stay as they are for the length of the call.
pub(crate) unsafe fn word<'a>(
    parameter: &str,
    start: *const c_char,
) -> Result<std::borrow::Cow<'a, str>, Box<Failure>> {
    if start.is_null() {
        return Err(Failure::null_pointer(parameter));
    }
    // SAFETY: not NULL, as just checked; the rest is the caller's promise.
    Ok(unsafe { CStr::from_ptr(start) }.to_string_lossy())
}

/// Makes a text and hands it to the caller, who gives it back with `mixcalc_string_free`.
///
/// `out_text` is NULL or points at room for a pointer; `out_len` is NULL or points at room for a length; `error` as in [`answer`].
pub(crate) unsafe fn hand_out(
    out_text: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
    make: impl FnOnce() -> Result<String, Box<Failure>>,
) -> u32 {
    let body = || {
        if out_text.is_null() {
            return Err(Failure::null_pointer("out_text"));
        }
        let text = make()?;
        let len = text.len();
        // A zero byte within would cut the text short for the caller: JSON escapes it, and pages show a question mark.
        let text = CString::new(text).map_err(|_| Failure::panic())?;
        // SAFETY: the caller's promise.
        unsafe {
            out_text.write(text.into_raw());
            if !out_len.is_null() {
                out_len.write(len);
            }
        }
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// A text that the caller borrows. A zero byte within would end it, and is shown as the character for what cannot be shown.
pub(crate) fn lent(text: &str) -> CString {
    CString::new(text.replace('\0', "\u{fffd}")).unwrap_or_default()
}

/// Gives back a text that a function of this library handed out.
///
/// text   from this library, not changed and not given back before; NULL is allowed and does nothing
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_string_free(text: *mut c_char) {
    if !text.is_null() {
        // SAFETY: the caller's promise: it came from `CString::into_raw` above.
        drop(unsafe { CString::from_raw(text) });
    }
}
