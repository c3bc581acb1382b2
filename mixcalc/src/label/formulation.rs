//! Formulation types: how a product behaves when it is measured, poured and mixed, and which do not go into a mix at all.

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

/// How a product is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MeasuredBy {
    /// In a vessel.
    Volume,
    /// In a vessel, once its container was shaken: what is in it settles.
    ShakenVolume,
    /// On a scale; in a vessel only by the density of its heap.
    Mass,
    /// Whole ones: tablets, sealed bags.
    Count,
}

/// Products that go into the tank at the same place of a mixing order, in the sequence that mixcalc suggests.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum MixGroup {
    /// Keep foam down.
    AntiFoam,
    /// In sealed bags that dissolve.
    SolubleBag,
    /// Bind what makes water hard, such as ammonium sulfate.
    WaterConditioner,
    /// Bring the water to a pH.
    Buffer,
    /// Keep products from separating.
    CompatibilityAgent,
    /// Powders that disperse.
    Powder,
    /// Granules and tablets that disperse.
    Granule,
    /// Particles in water.
    Suspension,
    /// Capsules in water.
    CapsuleSuspension,
    /// Droplets in water.
    Emulsion,
    /// Particles in oil.
    OilDispersion,
    /// Liquids that become droplets or particles in the tank.
    Emulsifiable,
    /// Liquids that dissolve.
    Solution,
    /// Powders, granules and tablets that dissolve.
    SolubleSolid,
    /// Oils that are added to a mix.
    Oil,
    /// Help the mix to wet and to spread.
    Surfactant,
    /// Keep droplets from drifting.
    DriftAgent,
    /// Feed the leaf.
    FoliarNutrient,
}

impl MixGroup {
    /// The groups, in the sequence that mixcalc suggests.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[
            Self::AntiFoam,
            Self::SolubleBag,
            Self::WaterConditioner,
            Self::Buffer,
            Self::CompatibilityAgent,
            Self::Powder,
            Self::Granule,
            Self::Suspension,
            Self::CapsuleSuspension,
            Self::Emulsion,
            Self::OilDispersion,
            Self::Emulsifiable,
            Self::Solution,
            Self::SolubleSolid,
            Self::Oil,
            Self::Surfactant,
            Self::DriftAgent,
            Self::FoliarNutrient,
        ]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AntiFoam => "anti-foam",
            Self::SolubleBag => "soluble-bag",
            Self::WaterConditioner => "water-conditioner",
            Self::Buffer => "buffer",
            Self::CompatibilityAgent => "compatibility-agent",
            Self::Powder => "powder",
            Self::Granule => "granule",
            Self::Suspension => "suspension",
            Self::CapsuleSuspension => "capsule-suspension",
            Self::Emulsion => "emulsion",
            Self::OilDispersion => "oil-dispersion",
            Self::Emulsifiable => "emulsifiable",
            Self::Solution => "solution",
            Self::SolubleSolid => "soluble-solid",
            Self::Oil => "oil",
            Self::Surfactant => "surfactant",
            Self::DriftAgent => "drift-agent",
            Self::FoliarNutrient => "foliar-nutrient",
        }
    }
}

/// Why a formulation type does not go into a mix with water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unsuited {
    /// Made for oil.
    ForOil,
    /// Used as it is.
    Undiluted,
    /// Strewn or dusted dry.
    Dry,
    /// Eaten where it lies.
    Bait,
    /// Put straight where it is to act.
    Direct,
    /// Made for a fogger.
    Fog,
    /// Works as a gas, a smoke or a vapour.
    Gas,
    /// Sold as two parts.
    TwinPack,
    /// Raw material.
    Technical,
    /// Put on seed.
    Seed,
    /// The code says nothing.
    Unstated,
}

/// Formulation types that are mixed with water: code, name, state, how it is measured, place in a mixing order.
///
/// Source: `CropLife` International, Technical Monograph No. 2, 7th edition, 2017, for codes and names. Groups: `docs/numbers.md`, 16.
const FORMULATIONS: &[(&str, &str, State, MeasuredBy, MixGroup)] = &[
    ("WP", "wettable powder", State::Dry, MeasuredBy::Mass, MixGroup::Powder),
    ("WG", "water-dispersible granule", State::Dry, MeasuredBy::Mass, MixGroup::Granule),
    ("WT", "water-dispersible tablet", State::Dry, MeasuredBy::Count, MixGroup::Granule),
    ("EG", "emulsifiable granule", State::Dry, MeasuredBy::Mass, MixGroup::Granule),
    ("EP", "emulsifiable powder", State::Dry, MeasuredBy::Mass, MixGroup::Powder),
    ("SP", "water-soluble powder", State::Dry, MeasuredBy::Mass, MixGroup::SolubleSolid),
    ("SG", "water-soluble granule", State::Dry, MeasuredBy::Mass, MixGroup::SolubleSolid),
    ("ST", "water-soluble tablet", State::Dry, MeasuredBy::Count, MixGroup::SolubleSolid),
    ("SC", "suspension concentrate", State::Liquid, MeasuredBy::ShakenVolume, MixGroup::Suspension),
    ("CS", "capsule suspension", State::Liquid, MeasuredBy::ShakenVolume, MixGroup::CapsuleSuspension),
    (
        "ZC",
        "mixed capsule suspension and suspension concentrate",
        State::Liquid,
        MeasuredBy::ShakenVolume,
        MixGroup::Suspension,
    ),
    ("SE", "suspo-emulsion", State::Liquid, MeasuredBy::ShakenVolume, MixGroup::Suspension),
    (
        "ZE",
        "mixed capsule suspension and suspo-emulsion",
        State::Liquid,
        MeasuredBy::ShakenVolume,
        MixGroup::Suspension,
    ),
    ("OD", "oil dispersion", State::Liquid, MeasuredBy::ShakenVolume, MixGroup::OilDispersion),
    ("EW", "emulsion, oil in water", State::Liquid, MeasuredBy::Volume, MixGroup::Emulsion),
    ("EO", "emulsion, water in oil", State::Liquid, MeasuredBy::Volume, MixGroup::Emulsion),
    ("ME", "micro-emulsion", State::Liquid, MeasuredBy::Volume, MixGroup::Emulsifiable),
    ("ZW", "mixed capsule suspension and emulsion", State::Liquid, MeasuredBy::ShakenVolume, MixGroup::Emulsion),
    ("EC", "emulsifiable concentrate", State::Liquid, MeasuredBy::Volume, MixGroup::Emulsifiable),
    ("DC", "dispersible concentrate", State::Liquid, MeasuredBy::Volume, MixGroup::Emulsifiable),
    ("SL", "soluble concentrate", State::Liquid, MeasuredBy::Volume, MixGroup::Solution),
    ("SO", "spreading oil", State::Liquid, MeasuredBy::Volume, MixGroup::Oil),
    ("GL", "emulsifiable gel", State::Viscous, MeasuredBy::Mass, MixGroup::Emulsifiable),
    ("GW", "water-soluble gel", State::Viscous, MeasuredBy::Mass, MixGroup::Solution),
    ("PA", "paste", State::Viscous, MeasuredBy::Mass, MixGroup::Suspension),
    ("WP-SB", "wettable powder in sealed bags", State::Dry, MeasuredBy::Count, MixGroup::SolubleBag),
    ("WG-SB", "water-dispersible granule in sealed bags", State::Dry, MeasuredBy::Count, MixGroup::SolubleBag),
    ("EG-SB", "emulsifiable granule in sealed bags", State::Dry, MeasuredBy::Count, MixGroup::SolubleBag),
    ("EP-SB", "emulsifiable powder in sealed bags", State::Dry, MeasuredBy::Count, MixGroup::SolubleBag),
    ("SP-SB", "water-soluble powder in sealed bags", State::Dry, MeasuredBy::Count, MixGroup::SolubleBag),
    ("SG-SB", "water-soluble granule in sealed bags", State::Dry, MeasuredBy::Count, MixGroup::SolubleBag),
    ("GL-SB", "emulsifiable gel in sealed bags", State::Viscous, MeasuredBy::Count, MixGroup::SolubleBag),
    ("GW-SB", "water-soluble gel in sealed bags", State::Viscous, MeasuredBy::Count, MixGroup::SolubleBag),
];

/// Formulation types that are not: code, name, why. Source: as above.
const UNSUITED: &[(&str, &str, Unsuited)] = &[
    ("OF", "oil-miscible flowable concentrate", Unsuited::ForOil),
    ("OL", "oil-miscible liquid", Unsuited::ForOil),
    ("OP", "oil-dispersible powder", Unsuited::ForOil),
    ("UL", "ultra-low volume liquid", Unsuited::Undiluted),
    ("SU", "ultra-low volume suspension", Unsuited::Undiluted),
    ("AL", "other liquid to be applied undiluted", Unsuited::Undiluted),
    ("AP", "other product to be applied undiluted", Unsuited::Undiluted),
    ("DP", "dustable powder", Unsuited::Dry),
    ("CP", "contact powder", Unsuited::Dry),
    ("GR", "granule", Unsuited::Dry),
    ("FG", "fine granule", Unsuited::Dry),
    ("MG", "microgranule", Unsuited::Dry),
    ("CG", "encapsulated granule", Unsuited::Dry),
    ("RB", "ready bait", Unsuited::Bait),
    ("CB", "bait concentrate", Unsuited::Bait),
    ("BR", "briquette", Unsuited::Direct),
    ("DT", "tablet for direct application", Unsuited::Direct),
    ("GD", "gel for direct application", Unsuited::Direct),
    ("SD", "suspension concentrate for direct application", Unsuited::Direct),
    ("HN", "hot fogging concentrate", Unsuited::Fog),
    ("KN", "cold fogging concentrate", Unsuited::Fog),
    ("AE", "aerosol dispenser", Unsuited::Gas),
    ("FU", "smoke generator", Unsuited::Gas),
    ("GA", "gas", Unsuited::Gas),
    ("GE", "gas generating product", Unsuited::Gas),
    ("VP", "vapour releasing product", Unsuited::Gas),
    ("MC", "coil", Unsuited::Gas),
    ("KK", "twin pack of solid and liquid", Unsuited::TwinPack),
    ("KL", "twin pack of liquids", Unsuited::TwinPack),
    ("KP", "twin pack of solids", Unsuited::TwinPack),
    ("TC", "technical material", Unsuited::Technical),
    ("TK", "technical concentrate", Unsuited::Technical),
    ("DS", "powder for dry seed treatment", Unsuited::Seed),
    ("ES", "emulsion for seed treatment", Unsuited::Seed),
    ("FS", "flowable concentrate for seed treatment", Unsuited::Seed),
    ("LS", "solution for seed treatment", Unsuited::Seed),
    ("WS", "water-dispersible powder for slurry seed treatment", Unsuited::Seed),
    ("XX", "others", Unsuited::Unstated),
];

/// Letters that labels carry for one of the codes and for nothing else: letters, code.
const OTHER_LETTERS: &[(&str, &str)] = &[("WDG", "WG"), ("DF", "WG"), ("FL", "SC"), ("SN", "SL")];

/// A formulation type by its two-letter international code.
///
/// ```
/// use mixcalc::{ErrorCode, Formulation, MeasuredBy, MixGroup};
///
/// let suspension = Formulation::read("SC")?;
/// assert_eq!((suspension.measured_by(), suspension.group()), (MeasuredBy::ShakenVolume, MixGroup::Suspension));
/// assert_eq!(Formulation::read("WP-SB")?.group(), MixGroup::SolubleBag);
///
/// let granule = Formulation::read("GR").unwrap_err();
/// assert_eq!(granule.code(), ErrorCode::UnsuitedFormulation);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Formulation {
    code: &'static str,
    name: &'static str,
    state: State,
    measured_by: MeasuredBy,
    group: MixGroup,
}

impl Formulation {
    /// The formulation type of a two-letter code, such as `SC`; with `-SB` behind it, such as `WP-SB`, in sealed bags that dissolve.
    ///
    /// # Errors
    ///
    /// [`UnsuitedFormulation`](ErrorCode::UnsuitedFormulation) for one that does not go into a mix with water, such as `GR`;
    /// [`UnknownChoice`](ErrorCode::UnknownChoice) for anything else.
    pub fn read(code: &str) -> Result<Self, Error> {
        if let Some((code, name, state, measured_by, group)) = FORMULATIONS.iter().find(|(known, ..)| *known == code) {
            return Ok(Self { code, name, state: *state, measured_by: *measured_by, group: *group });
        }
        if let Some((code, name, why)) = UNSUITED.iter().find(|(known, ..)| *known == code) {
            let error = Error::new(ErrorCode::UnsuitedFormulation).given(format_args!("{code} ({name})"));
            return Err(error.allowed(text::unsuited(*why)));
        }
        let error = Error::new(ErrorCode::UnknownChoice).given(text::quoted(code));
        Err(match OTHER_LETTERS.iter().find(|(letters, _)| *letters == code) {
            Some((_, code)) => error.allowed(code),
            None => error.allowed(text::one_of(&FORMULATIONS.iter().map(|(code, ..)| *code).collect::<Vec<_>>())),
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

    /// How it is measured.
    #[must_use]
    pub const fn measured_by(self) -> MeasuredBy {
        self.measured_by
    }

    /// Where it stands in a mixing order.
    #[must_use]
    pub const fn group(self) -> MixGroup {
        self.group
    }
}
