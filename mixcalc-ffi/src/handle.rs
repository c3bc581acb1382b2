//! Handles: what is made behind a pointer, read through it, and given back; and lists that the caller hands in.

use crate::failure::Failure;

/// What the caller's `parameter` points at.
///
/// `handle` is NULL or came from this library and was not given back.
pub(crate) unsafe fn read<'a, T>(parameter: &str, handle: *const T) -> Result<&'a T, Box<Failure>> {
    // SAFETY: the caller's promise.
    unsafe { handle.as_ref() }.ok_or_else(|| Failure::null_pointer(parameter))
}

/// Where the caller's `parameter` takes an answer, which is looked at before anything is worked out.
pub(crate) fn room<T>(parameter: &str, out: *mut T) -> Result<*mut T, Box<Failure>> {
    if out.is_null() { Err(Failure::null_pointer(parameter)) } else { Ok(out) }
}

/// Makes something and hands it to the caller's `parameter`, for [`free`] to take back.
///
/// `out` is NULL or points at room for a pointer.
pub(crate) unsafe fn hand_over<T>(
    parameter: &str,
    out: *mut *mut T,
    make: impl FnOnce() -> Result<T, Box<Failure>>,
) -> Result<(), Box<Failure>> {
    let out = room(parameter, out)?;
    let made = Box::into_raw(Box::new(make()?));
    // SAFETY: the caller's promise.
    unsafe { out.write(made) };
    Ok(())
}

/// Takes back what [`hand_over`] gave.
///
/// `handle` is NULL or came from there and was not given back.
pub(crate) unsafe fn free<T>(handle: *mut T) {
    if !handle.is_null() {
        // SAFETY: the caller's promise.
        drop(unsafe { Box::from_raw(handle) });
    }
}

/// The items of the caller's list `parameter`; one without items may be NULL.
///
/// `start` is NULL or points at `count` items that stay as they are for the length of the call.
pub(crate) unsafe fn list<'a, T>(parameter: &str, start: *const T, count: usize) -> Result<&'a [T], Box<Failure>> {
    if count == 0 {
        return Ok(&[]);
    }
    if start.is_null() {
        return Err(Failure::null_pointer(parameter));
    }
    if count > isize::MAX.unsigned_abs() / size_of::<T>().max(1) {
        return Err(Failure::length(&format!("{parameter}_count"), count));
    }
    // SAFETY: neither NULL nor too long, as just checked; the rest is the caller's promise.
    Ok(unsafe { std::slice::from_raw_parts(start, count) })
}
