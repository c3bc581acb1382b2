//! What a label asks to be worn, in its own words: passed through, never judged.

use alloc::format;
use alloc::sync::Arc;
use alloc::vec::Vec;

use crate::error::{Error, ErrorCode};
use crate::text;

/// Most things that one list names.
const MOST_WORN: usize = 100;

/// What a label asks to be worn for mixing and for spraying, in its words. The two differ: the concentrate is handled in mixing.
///
/// ```
/// use mixcalc::Protection;
///
/// let protection = Protection::new(["gloves", "face shield"], ["gloves"])?;
/// assert_eq!(protection.mixing().collect::<Vec<_>>(), ["gloves", "face shield"]);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Protection {
    mixing: Vec<Arc<str>>,
    spraying: Vec<Arc<str>>,
}

impl Protection {
    /// What is worn for mixing, and what for spraying.
    ///
    /// # Errors
    ///
    /// At a place in `mixing` or `spraying`: [`MissingInput`](ErrorCode::MissingInput) for an empty text;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a longer one than a name may be, and for over 100 of them.
    pub fn new<'text>(
        mixing: impl IntoIterator<Item = &'text str>,
        spraying: impl IntoIterator<Item = &'text str>,
    ) -> Result<Self, Error> {
        Ok(Self { mixing: worn("mixing", mixing)?, spraying: worn("spraying", spraying)? })
    }

    /// What is worn for mixing.
    pub fn mixing(&self) -> impl Iterator<Item = &str> {
        self.mixing.iter().map(AsRef::as_ref)
    }

    /// What is worn for spraying.
    pub fn spraying(&self) -> impl Iterator<Item = &str> {
        self.spraying.iter().map(AsRef::as_ref)
    }
}

fn worn<'text>(key: &str, texts: impl IntoIterator<Item = &'text str>) -> Result<Vec<Arc<str>>, Error> {
    let mut worn = Vec::new();
    for text in texts {
        if worn.len() == MOST_WORN {
            let most = format_args!("{} {MOST_WORN}", text::word("at most"));
            return Err(Error::new(ErrorCode::OutOfRange).at(key).given(MOST_WORN + 1).allowed(most));
        }
        worn.push(text::legible_at(&format!("{key}[{}]", worn.len()), text)?);
    }
    Ok(worn)
}
