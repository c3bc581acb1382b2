//! Text taken from the caller, handed out and taken back.

use std::ffi::{CString, c_char};

use crate::failure::Failure;

/// What the caller's `parameter` holds.
///
/// `start` is NULL or points at `len` bytes that stay as they are for the length of the call.
pub(crate) unsafe fn taken<'a>(parameter: &str, start: *const c_char, len: usize) -> Result<&'a [u8], Failure> {
    if start.is_null() {
        return Err(Failure::null_pointer(parameter));
    }
    if isize::try_from(len).is_err() {
        return Err(Failure::length(&format!("{parameter}_len"), len));
    }
    // SAFETY: neither NULL nor too long, as just checked; the rest is the caller's promise.
    Ok(unsafe { std::slice::from_raw_parts(start.cast(), len) })
}

/// Hands `text` to the caller, who gives it back with `mixcalc_string_free`.
///
/// `out` points at room for a pointer; `out_len` is NULL or points at room for a length.
pub(crate) unsafe fn hand_out(text: String, out: *mut *mut c_char, out_len: *mut usize) -> Result<(), Failure> {
    let len = text.len();
    // A zero byte within would cut the text short for the caller; JSON has none.
    let text = CString::new(text).map_err(|_| Failure::panic())?;
    // SAFETY: the caller's promise.
    unsafe {
        out.write(text.into_raw());
        if !out_len.is_null() {
            out_len.write(len);
        }
    }
    Ok(())
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
