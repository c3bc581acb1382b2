//! Why a question could not be answered.
//!
//! One opaque [`Error`] with a stable [`ErrorCode`] that Rust, Python and C share, the place it concerns, what was
//! given and what is allowed. The sentence is made from these fields by the catalogue in [`text`](crate::text).
//!
//! An error is not a [`Finding`](crate::Finding): a finding is a sentence about an answer.

use alloc::boxed::Box;
use alloc::format;
use alloc::string::{String, ToString};
use core::fmt;

/// Declares the codes once: number, Rust name, name in documents.
macro_rules! error_codes {
    ($($(#[$doc:meta])* $name:ident = $number:literal, $text:literal;)*) => {
        /// Stable number of an error, the same in Rust, Python and C; never reused, never renumbered.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[non_exhaustive]
        #[repr(u32)]
        pub enum ErrorCode { $($(#[$doc])* $name = $number,)* }

        impl ErrorCode {
            /// The whole catalogue, in ascending order.
            #[must_use]
            pub const fn all() -> &'static [Self] {
                &[$(Self::$name,)*]
            }

            /// Name in documents and in Python, such as `not-finite`.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$name => $text,)* }
            }
        }
    };
}

error_codes! {
    /// A value is infinite or not a number.
    NotFinite = 101, "not-finite";
    /// A value that must be above zero is not.
    NotPositive = 102, "not-positive";
    /// A value is outside its range.
    OutOfRange = 103, "out-of-range";
    /// A value that is needed is absent.
    MissingInput = 105, "missing-input";
    /// Two values are given of which only one may be.
    BothGiven = 106, "both-given";
    /// Two things that must be told apart have one name.
    DuplicateName = 107, "duplicate-name";
    /// A density is needed to measure a product with this measure.
    MissingDensity = 108, "missing-density";
    /// The products leave no room for carrier.
    ProductsFillMix = 109, "products-fill-mix";
    /// The last strip is as large as the job.
    StripCoversJob = 110, "strip-covers-job";
    /// More loads than are planned for.
    TooManyLoads = 111, "too-many-loads";
    /// The safe fill is below the tank's first mark.
    BelowFirstMark = 112, "below-first-mark";
    /// A word that is not among the choices.
    UnknownChoice = 113, "unknown-choice";
    /// None of the measures can measure a product.
    NoMeasure = 114, "no-measure";
    /// An amount comes to more graduations than are counted exactly.
    Uncountable = 115, "uncountable";
    /// Amounts, steps or the load sheet are asked of a plan with a stop.
    PlanStopped = 116, "plan-stopped";
    /// A formulation type that does not go into a mix with water.
    UnsuitedFormulation = 131, "unsuited-formulation";
    /// What labels say of the mixing order cannot all be followed.
    OrderInCircle = 132, "order-in-circle";
    /// A unit word that is not known.
    UnknownUnit = 201, "unknown-unit";
    /// A quantity of another kind than the one asked for.
    WrongQuantity = 202, "wrong-quantity";
    /// Text that is not a number, a blank and a unit.
    UnreadableQuantity = 203, "unreadable-quantity";
    /// A unit word with more than one meaning.
    AmbiguousUnit = 204, "ambiguous-unit";
    /// A number without a unit.
    MissingUnit = 205, "missing-unit";
    /// A comma in a number.
    DecimalComma = 206, "decimal-comma";
    /// Two quantities that cannot be added or compared.
    UnlikeQuantities = 207, "unlike-quantities";
    /// A document that is not JSON or TOML.
    UnreadableDocument = 501, "unreadable-document";
    /// A key that the format does not have.
    UnknownKey = 502, "unknown-key";
    /// A key that stands twice in one table.
    DuplicateKey = 503, "duplicate-key";
    /// A value of another JSON type than the one asked for.
    WrongType = 504, "wrong-type";
    /// A document that is larger than is read.
    TooLarge = 505, "too-large";
}

impl ErrorCode {
    /// The number that C and Python see.
    #[must_use]
    pub const fn number(self) -> u32 {
        self as u32
    }
}

/// Why a calculation could not be done: code, place, what was given, what is allowed.
///
/// One word wide, cheap to move; its fields can grow without breaking callers.
///
/// ```
/// use mixcalc::{ErrorCode, VolumeRate};
///
/// let error = VolumeRate::read("300 kg/ha").unwrap_err();
/// assert_eq!(error.code(), ErrorCode::WrongQuantity);
/// assert_eq!(error.to_string(), "must be a volume rate such as \"300 L/ha\", got 300 kg/ha, a mass per area");
/// ```
#[derive(Clone, PartialEq)]
pub struct Error(Box<Inner>);

#[derive(Clone, PartialEq)]
struct Inner {
    code: ErrorCode,
    path: String,
    given: String,
    allowed: String,
}

impl Error {
    pub(crate) fn new(code: ErrorCode) -> Self {
        Self(Box::new(Inner { code, path: String::new(), given: String::new(), allowed: String::new() }))
    }

    /// What the caller gave.
    pub(crate) fn given(mut self, given: impl fmt::Display) -> Self {
        self.0.given = given.to_string();
        self
    }

    /// What would do instead.
    pub(crate) fn allowed(mut self, allowed: impl fmt::Display) -> Self {
        self.0.allowed = allowed.to_string();
        self
    }

    /// Puts the place in front of the place already known: `label` and `max_dose` make `label.max_dose`. For whoever takes inputs by a name and hands them on.
    #[must_use]
    pub fn at(mut self, place: impl fmt::Display) -> Self {
        let place = place.to_string();
        let inner = &mut self.0.path;
        if inner.is_empty() {
            *inner = place;
        } else if inner.starts_with('[') || place.is_empty() {
            *inner = format!("{place}{inner}");
        } else {
            *inner = format!("{place}.{inner}");
        }
        self
    }

    /// Puts a place of the caller's in the place of the one already known.
    #[cfg(any(feature = "columns", feature = "document"))]
    pub(crate) fn placed(mut self, place: impl fmt::Display) -> Self {
        self.0.path = place.to_string();
        self
    }

    /// The stable code.
    #[must_use]
    pub fn code(&self) -> ErrorCode {
        self.0.code
    }

    /// The field that the error is about, such as `products[1].label.max_dose`; empty where there is none.
    #[must_use]
    pub fn path(&self) -> &str {
        &self.0.path
    }

    /// What was given, as the caller wrote it where that is known.
    #[must_use]
    pub fn given_text(&self) -> &str {
        &self.0.given
    }

    /// What would be allowed instead.
    #[must_use]
    pub fn allowed_text(&self) -> &str {
        &self.0.allowed
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Inner { code, path, given, allowed } = &*self.0;
        if !path.is_empty() {
            write!(f, "{path}: ")?;
        }
        crate::text::fill(f, crate::text::error(*code), &[("given", given), ("allowed", allowed)])
    }
}

impl fmt::Debug for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Error({} {}: {self})", self.0.code.number(), self.0.code.name())
    }
}

impl core::error::Error for Error {}
