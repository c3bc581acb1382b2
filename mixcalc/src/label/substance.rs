//! Active substances: what acts in a product, and how much of it there is.

use alloc::sync::Arc;

use crate::error::Error;
use crate::quantity::{Content, MassFraction, positive};
use crate::text::legible_name;

/// How much of an active substance a product holds.
#[derive(Clone, Debug, PartialEq)]
pub struct ActiveSubstance {
    name: Arc<str>,
    content: SubstanceContent,
}

/// Content per volume or per mass of a product.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum SubstanceContent {
    /// Mass per volume of product, such as 250 g/L.
    PerVolume(Content),
    /// Mass per mass of product, such as 500 g/kg.
    PerMass(MassFraction),
}

impl ActiveSubstance {
    /// A substance and its content.
    ///
    /// # Errors
    ///
    /// At `content` [`NotPositive`](ErrorCode::NotPositive) for one that is not above zero; at `name` as
    /// [`Product::new`](Product::new).
    pub fn new(name: &str, content: SubstanceContent) -> Result<Self, Error> {
        match content {
            SubstanceContent::PerVolume(content) => positive(content).map(|_| ()),
            SubstanceContent::PerMass(content) => positive(content).map(|_| ()),
        }
        .map_err(|error| error.at("content"))?;
        Ok(Self { name: legible_name(name)?, content })
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its content.
    #[must_use]
    pub const fn content(&self) -> SubstanceContent {
        self.content
    }
}
