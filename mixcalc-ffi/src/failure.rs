//! Why a call failed.

use mixcalc::{ErrorCode, Kind};

use crate::status::*;

/// The core's error, or one of the border's own. Handed on in a box, so that a success has nothing to carry.
#[derive(Debug, Default, PartialEq)]
pub(crate) struct Failure {
    pub(crate) code: u32,
    pub(crate) message: String,
    pub(crate) path: String,
    pub(crate) given: String,
    pub(crate) allowed: String,
}

impl Failure {
    pub(crate) fn null_pointer(parameter: &str) -> Box<Self> {
        Box::new(Self {
            code: MIXCALC_STATUS_NULL_POINTER,
            message: format!("{parameter}: must not be NULL"),
            path: parameter.into(),
            given: "NULL".into(),
            ..Self::default()
        })
    }

    pub(crate) fn length(parameter: &str, given: usize) -> Box<Self> {
        let allowed = format!("at most {}", isize::MAX);
        Box::new(Self {
            code: MIXCALC_STATUS_LENGTH,
            message: format!("{parameter}: must be {allowed}, got {given}"),
            path: parameter.into(),
            given: given.to_string(),
            allowed,
        })
    }

    pub(crate) fn struct_size(parameter: &str) -> Box<Self> {
        Box::new(Self {
            code: MIXCALC_STATUS_STRUCT_SIZE,
            message: format!("{parameter}: its struct_size is too small; start it with its _INIT macro"),
            path: parameter.into(),
            ..Self::default()
        })
    }

    pub(crate) fn index(parameter: &str, given: usize, count: usize) -> Box<Self> {
        let allowed = format!("under {count}");
        Box::new(Self {
            code: MIXCALC_STATUS_INDEX,
            message: format!("{parameter}: must be {allowed}, got {given}"),
            path: parameter.into(),
            given: given.to_string(),
            allowed,
        })
    }

    /// A number that no member of a list has.
    pub(crate) fn choice(parameter: &str, given: u32) -> Box<Self> {
        Box::new(Self {
            code: MIXCALC_STATUS_CHOICE,
            message: format!("{parameter}: must be one of the numbers of its list in mixcalc.h, got {given}"),
            path: parameter.into(),
            given: given.to_string(),
            ..Self::default()
        })
    }

    /// Two inputs of which one is asked for.
    pub(crate) fn both_given(parameter: &str, given: &str) -> Box<Self> {
        let allowed = "one of them";
        Box::new(Self {
            code: ErrorCode::BothGiven.number(),
            message: format!("{parameter}: {given} are both given; keep {allowed}"),
            path: parameter.into(),
            given: given.into(),
            allowed: allowed.into(),
        })
    }

    /// The caller's model ended a simulation.
    pub(crate) fn model(status: u32) -> Box<Self> {
        Box::new(Self {
            code: MIXCALC_STATUS_MODEL,
            message: format!("model: ended the simulation with status {status}"),
            path: "model".into(),
            given: status.to_string(),
            allowed: "0".into(),
        })
    }

    pub(crate) fn kind(given: &str) -> Box<Self> {
        let words: Vec<&str> =
            Kind::all().iter().filter(|kind| **kind != Kind::Derived).map(|kind| kind.words()).collect();
        let allowed = words.join(", ");
        Box::new(Self {
            code: MIXCALC_STATUS_KIND,
            message: format!("kind: must be NULL or one of {allowed}, got {given:?}"),
            path: "kind".into(),
            given: given.into(),
            allowed,
        })
    }

    /// Puts a place in front of the place already known.
    pub(crate) fn at(mut self: Box<Self>, place: &str) -> Box<Self> {
        self.message = format!("{place}: {}", self.message);
        self.path = place.into();
        self
    }

    pub(crate) fn panic() -> Box<Self> {
        Box::new(Self {
            code: MIXCALC_STATUS_PANIC,
            message: "a fault of the library, not of the input; please report it with the input".into(),
            ..Self::default()
        })
    }
}

impl From<mixcalc::Error> for Box<Failure> {
    fn from(error: mixcalc::Error) -> Self {
        Self::new(Failure {
            code: error.code().number(),
            message: error.to_string(),
            path: error.path().into(),
            given: error.given_text().into(),
            allowed: error.allowed_text().into(),
        })
    }
}
