//! What every function at the border does.

use std::panic::{AssertUnwindSafe, catch_unwind};

use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::sized::Appended;
use crate::status::{MIXCALC_STATUS_OK, MIXCALC_STATUS_STRUCT_SIZE};

/// Runs the body of a C function and returns its status: nothing unwinds into C, and a failure reaches `error`.
///
/// `error` is NULL or points at a struct as large as its `struct_size` says.
pub(crate) unsafe fn answer(error: *mut ErrorDetails, body: impl FnOnce() -> Result<(), Box<Failure>>) -> u32 {
    // SAFETY: the caller's promise.
    if !unsafe { ErrorDetails::is_sound(error) } {
        return MIXCALC_STATUS_STRUCT_SIZE;
    }
    // Unwind safe: what a panic leaves half done is dropped with the call, since nothing is kept between calls.
    match catch_unwind(AssertUnwindSafe(body)).unwrap_or_else(|_| Err(Failure::panic())) {
        Ok(()) => MIXCALC_STATUS_OK,
        Err(failure) => {
            // SAFETY: the caller's promise, and it is sound.
            unsafe { ErrorDetails::tell(error, &failure) };
            failure.code
        }
    }
}

#[cfg(test)]
mod tests {
    use std::ptr::null_mut;

    use super::*;
    use crate::status::{MIXCALC_STATUS_NULL_POINTER, MIXCALC_STATUS_PANIC};

    #[test]
    fn a_panic_becomes_a_status() {
        let mut error = ErrorDetails::from(&Failure::default());
        let status = unsafe { answer(&raw mut error, || panic!("on purpose")) };
        assert_eq!(status, MIXCALC_STATUS_PANIC);
        assert_eq!(error.code, MIXCALC_STATUS_PANIC);
        assert_ne!(error.message[0], 0);
        let status = unsafe { answer(null_mut(), || panic!("on purpose")) };
        assert_eq!(status, MIXCALC_STATUS_PANIC);
    }

    #[test]
    fn a_failure_is_reported_and_a_success_leaves_the_struct_alone() {
        let mut error = ErrorDetails::from(&Failure::default());
        assert_eq!(unsafe { answer(&raw mut error, || Ok(())) }, 0);
        assert_eq!(error.code, 0);
        let status = unsafe { answer(&raw mut error, || Err(Failure::null_pointer("job"))) };
        assert_eq!(status, MIXCALC_STATUS_NULL_POINTER);
        assert_eq!(error.code, status);
    }

    #[test]
    fn a_struct_that_is_too_small_stops_the_call() {
        let mut error = ErrorDetails::from(&Failure::default());
        error.struct_size = 8;
        let status = unsafe { answer(&raw mut error, || unreachable!()) };
        assert_eq!(status, MIXCALC_STATUS_STRUCT_SIZE);
        assert_eq!(error.message[0], 0);
    }
}
