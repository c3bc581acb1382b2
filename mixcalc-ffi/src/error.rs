//! The struct that tells the caller why a call failed.

use std::ffi::c_char;
use std::mem::size_of;

use crate::failure::Failure;
use crate::sized::{Appended, first_release_ends_with};

/// Room for a message, the zero byte at its end counted.
pub const MIXCALC_MESSAGE_SIZE: usize = 512;

/// Room for each other text of an error, the zero byte at its end counted.
pub const MIXCALC_TEXT_SIZE: usize = 256;

/// Why a call failed. The caller owns it, one for each thread, starts it with
///
///     mixcalc_error error = MIXCALC_ERROR_INIT;
///
/// and hands a pointer to it, or NULL, to any function that takes one. It is written when that function fails and left as
/// it was when it succeeds. Later releases append fields and write no more of them than struct_size covers.
/// Text that is too long for its field is cut at the end of a character; every text ends in a zero byte.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct ErrorDetails {
    /// sizeof(mixcalc_error) of the caller; never written.
    pub struct_size: usize,
    /// The status that the function returned.
    pub code: u32,
    /// Always 0: keeps the fields after it where they are on every machine.
    pub reserved: u32,
    /// What is wrong, what was given, what is allowed, and how to mend it, in one sentence that begins with the path.
    pub message: [c_char; MIXCALC_MESSAGE_SIZE],
    /// The field that it is about, such as `products[1].label.max_dose`, or the parameter; empty where there is none.
    pub path: [c_char; MIXCALC_TEXT_SIZE],
    /// What was given.
    pub given: [c_char; MIXCALC_TEXT_SIZE],
    /// What would be allowed instead.
    pub allowed: [c_char; MIXCALC_TEXT_SIZE],
}

first_release_ends_with! { ErrorDetails.allowed; }

impl ErrorDetails {
    /// Tells the caller of a failure, where it wants to know.
    ///
    /// `this` is NULL or points at a struct as large as its `struct_size` says, and is sound.
    pub(crate) unsafe fn tell(this: *mut Self, failure: &Failure) {
        if !this.is_null() {
            // SAFETY: the caller's promise.
            unsafe { Self::write(this, &Self::from(failure)) };
        }
    }
}

impl From<&Failure> for ErrorDetails {
    fn from(failure: &Failure) -> Self {
        Self {
            struct_size: size_of::<Self>(),
            code: failure.code,
            reserved: 0,
            message: terminated(&failure.message),
            path: terminated(&failure.path),
            given: terminated(&failure.given),
            allowed: terminated(&failure.allowed),
        }
    }
}

/// `text` up to the last character that fits, and zeros.
fn terminated<const N: usize>(text: &str) -> [c_char; N] {
    let mut field = [0; N];
    let fitting = text.floor_char_boundary(N - 1);
    for (to, from) in field.iter_mut().zip(text.bytes().take(fitting)) {
        *to = c_char::from_ne_bytes([from]);
    }
    field
}

#[cfg(test)]
mod tests {
    use super::*;

    fn failure() -> Failure {
        Failure {
            code: 103,
            message: "é".repeat(400),
            path: "area".into(),
            given: "-1 ha".into(),
            allowed: "above 0 ha".into(),
        }
    }

    fn text(field: &[c_char]) -> String {
        let bytes = field.iter().map(|c| c.to_ne_bytes()[0]);
        String::from_utf8(bytes.take_while(|byte| *byte != 0).collect()).unwrap()
    }

    #[test]
    fn text_is_cut_between_characters_and_ends_in_zero() {
        let details = ErrorDetails::from(&failure());
        assert_eq!(text(&details.message), "é".repeat(255));
        assert_eq!(details.message[MIXCALC_MESSAGE_SIZE - 1], 0);
        assert_eq!(text(&details.allowed), "above 0 ha");
        assert_eq!(text(&terminated::<4>("abc")), "abc");
        assert_eq!(text(&terminated::<4>("abcd")), "abc");
    }

    #[test]
    fn a_caller_of_another_release_has_its_size_kept_and_its_tail_left() {
        #[repr(C)]
        struct Later {
            known: ErrorDetails,
            tail: u64,
        }
        let mut later = Later { known: ErrorDetails::from(&Failure::default()), tail: 7 };
        later.known.struct_size = size_of::<Later>();
        let this = (&raw mut later).cast();
        unsafe {
            assert!(ErrorDetails::is_sound(this));
            ErrorDetails::tell(this, &failure());
        }
        assert_eq!(later.known.code, 103);
        assert_eq!(text(&later.known.given), "-1 ha");
        assert_eq!(later.known.struct_size, size_of::<Later>());
        assert_eq!(later.tail, 7);

        later.known.struct_size = ErrorDetails::LEAST_SIZE - 1;
        assert!(!unsafe { ErrorDetails::is_sound(&raw const later.known) });
        assert!(unsafe { ErrorDetails::is_sound(std::ptr::null()) });
    }
}
