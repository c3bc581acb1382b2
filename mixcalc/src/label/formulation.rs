//! Formulation types: how a product behaves when it is measured and poured.

use alloc::vec::Vec;

use crate::error::{Error, ErrorCode};
use crate::text;

/// How a product behaves when it is measured and poured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum State {
    /// Powder, granules, tablets.
    Dry,
    /// Runs like a liquid.
    Liquid,
    /// A gel or paste, or a liquid that does not run out by itself.
    Viscous,
}

/// Formulation types that are mixed with water: code, name, state.
///
/// Source: `CropLife` International, Technical Monograph No. 2, 7th edition, 2017.
const FORMULATIONS: &[(&str, &str, State)] = &[
    ("WP", "wettable powder", State::Dry),
    ("WG", "water-dispersible granule", State::Dry),
    ("WT", "water-dispersible tablet", State::Dry),
    ("EG", "emulsifiable granule", State::Dry),
    ("EP", "emulsifiable powder", State::Dry),
    ("SP", "water-soluble powder", State::Dry),
    ("SG", "water-soluble granule", State::Dry),
    ("ST", "water-soluble tablet", State::Dry),
    ("SC", "suspension concentrate", State::Liquid),
    ("CS", "capsule suspension", State::Liquid),
    ("ZC", "mixed capsule suspension and suspension concentrate", State::Liquid),
    ("SE", "suspo-emulsion", State::Liquid),
    ("ZE", "mixed capsule suspension and suspo-emulsion", State::Liquid),
    ("OD", "oil dispersion", State::Liquid),
    ("EW", "emulsion, oil in water", State::Liquid),
    ("EO", "emulsion, water in oil", State::Liquid),
    ("ME", "micro-emulsion", State::Liquid),
    ("ZW", "mixed capsule suspension and emulsion", State::Liquid),
    ("EC", "emulsifiable concentrate", State::Liquid),
    ("DC", "dispersible concentrate", State::Liquid),
    ("SL", "soluble concentrate", State::Liquid),
    ("SO", "spreading oil", State::Liquid),
    ("GL", "emulsifiable gel", State::Viscous),
    ("GW", "water-soluble gel", State::Viscous),
    ("PA", "paste", State::Viscous),
];

/// A formulation type by its two-letter international code.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Formulation {
    code: &'static str,
    name: &'static str,
    state: State,
}

impl Formulation {
    /// The formulation type of a two-letter code, such as `SC`.
    ///
    /// # Errors
    ///
    /// [`UnknownChoice`](ErrorCode::UnknownChoice) for a code that is not of a product mixed with water.
    pub fn read(code: &str) -> Result<Self, Error> {
        FORMULATIONS
            .iter()
            .find(|(known, _, _)| *known == code)
            .map(|(code, name, state)| Self { code, name, state: *state })
            .ok_or_else(|| {
                let known: Vec<&str> = FORMULATIONS.iter().map(|(code, _, _)| *code).collect();
                Error::new(ErrorCode::UnknownChoice).given(text::quoted(code)).allowed(text::one_of(&known))
            })
    }

    /// The code.
    #[must_use]
    pub const fn code(self) -> &'static str {
        self.code
    }

    /// What the code stands for.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.name
    }

    /// How it is measured and poured.
    #[must_use]
    pub const fn state(self) -> State {
        self.state
    }
}
