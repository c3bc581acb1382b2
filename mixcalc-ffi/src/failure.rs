//! Why a call failed.

use crate::status::{MIXCALC_STATUS_LENGTH, MIXCALC_STATUS_NULL_POINTER, MIXCALC_STATUS_PANIC};

/// The core's error, or one of the border's own.
#[derive(Debug, Default, PartialEq)]
pub(crate) struct Failure {
    pub(crate) code: u32,
    pub(crate) message: String,
    pub(crate) path: String,
    pub(crate) given: String,
    pub(crate) allowed: String,
}

impl Failure {
    pub(crate) fn null_pointer(parameter: &str) -> Self {
        Self {
            code: MIXCALC_STATUS_NULL_POINTER,
            message: format!("{parameter}: must not be NULL"),
            path: parameter.into(),
            given: "NULL".into(),
            ..Self::default()
        }
    }

    pub(crate) fn length(parameter: &str, given: usize) -> Self {
        let allowed = format!("at most {}", isize::MAX);
        Self {
            code: MIXCALC_STATUS_LENGTH,
            message: format!("{parameter}: must be {allowed}, got {given}"),
            path: parameter.into(),
            given: given.to_string(),
            allowed,
        }
    }

    pub(crate) fn panic() -> Self {
        Self {
            code: MIXCALC_STATUS_PANIC,
            message: "a fault of the library, not of the input; please report it with the input".into(),
            ..Self::default()
        }
    }
}

impl From<mixcalc::Error> for Failure {
    fn from(error: mixcalc::Error) -> Self {
        Self {
            code: error.code().number(),
            message: error.to_string(),
            path: error.path().into(),
            given: error.given_text().into(),
            allowed: error.allowed_text().into(),
        }
    }
}
