//! The dose: amount of product per unit of a basis, and the share of the mix that it comes to.

use super::{LabelTank, PerCrop, Stand};
use crate::error::{Error, ErrorCode};
use crate::measure::Amount;
use crate::quantity::close::is_over;
use crate::quantity::{
    Density, Kind, LiquidDose, MassConcentration, MassFraction, Quantity, Ratio, SolidDose, Volume, VolumeFraction,
    VolumeRate, positive,
};
use crate::text;

/// What a dose is counted on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Basis {
    /// Treated ground.
    GroundArea,
    /// Finished mix.
    MixVolume,
    /// Carrier alone, as a label that spells "of carrier" means.
    CarrierVolume,
    /// The part of the ground that is treated: bands along the rows, or spots.
    TreatedArea,
    /// The walls of leaves that the spray reaches.
    LeafWallArea,
    /// The room that the crowns of the rows take.
    TreeRowVolume,
    /// Ground, for each meter of crown height.
    CrownHeight,
    /// Length of treated row.
    RowLength,
    /// Plants.
    Plant,
    /// Spots.
    Spot,
}

impl Basis {
    /// The bases.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[
            Self::GroundArea,
            Self::MixVolume,
            Self::CarrierVolume,
            Self::TreatedArea,
            Self::LeafWallArea,
            Self::TreeRowVolume,
            Self::CrownHeight,
            Self::RowLength,
            Self::Plant,
            Self::Spot,
        ]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::GroundArea => "ground-area",
            Self::MixVolume => "mix-volume",
            Self::CarrierVolume => "carrier-volume",
            Self::TreatedArea => "treated-area",
            Self::LeafWallArea => "leaf-wall-area",
            Self::TreeRowVolume => "tree-row-volume",
            Self::CrownHeight => "crown-height",
            Self::RowLength => "row-length",
            Self::Plant => "plant",
            Self::Spot => "spot",
        }
    }

    /// The kinds of an amount on a basis of the crop: by volume, by mass. `None` for ground, mix and carrier.
    pub(super) const fn crop_kinds(self) -> Option<[Kind; 2]> {
        match self {
            Self::GroundArea | Self::MixVolume | Self::CarrierVolume => None,
            Self::TreatedArea | Self::LeafWallArea => Some([Kind::LiquidDose, Kind::SolidDose]),
            Self::TreeRowVolume => Some([Kind::VolumePerTreeRowVolume, Kind::MassPerTreeRowVolume]),
            Self::CrownHeight => Some([Kind::VolumePerCrownHeight, Kind::MassPerCrownHeight]),
            Self::RowLength => Some([Kind::VolumePerRowLength, Kind::MassPerRowLength]),
            Self::Plant | Self::Spot => Some([Kind::Volume, Kind::Mass]),
        }
    }

    /// The basis of the crop that a quantity's kind names, where it names one.
    #[cfg(feature = "document")]
    pub(crate) const fn named_by(kind: Kind) -> Option<Self> {
        match Self::implied(kind) {
            Some(Self::GroundArea | Self::MixVolume) => None,
            named => named,
        }
    }

    /// The basis that a quantity's kind implies where none is said: ground area for an amount per area, finished mix for an amount per
    /// volume or per mass, and what a rate per row or canopy names. `None` for a kind that is no dose, or one on bases that must be
    /// said.
    const fn implied(kind: Kind) -> Option<Self> {
        match kind {
            Kind::VolumePerArea | Kind::LiquidDose | Kind::MassPerArea | Kind::SolidDose => Some(Self::GroundArea),
            Kind::VolumeFraction | Kind::Ratio | Kind::MassPerVolume | Kind::MassConcentration | Kind::MassFraction => {
                Some(Self::MixVolume)
            }
            Kind::VolumePerTreeRowVolume | Kind::MassPerTreeRowVolume => Some(Self::TreeRowVolume),
            Kind::VolumePerCrownHeight | Kind::MassPerCrownHeight => Some(Self::CrownHeight),
            Kind::VolumePerRowLength | Kind::MassPerRowLength => Some(Self::RowLength),
            _ => None,
        }
    }
}

/// Amount of a product per unit of a basis.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Dose {
    /// Volume per ground area.
    LiquidPerArea(LiquidDose),
    /// Mass per ground area.
    SolidPerArea(SolidDose),
    /// Volume per volume of finished mix.
    LiquidPerMix(VolumeFraction),
    /// Mass per volume of finished mix.
    SolidPerMix(MassConcentration),
    /// Mass per mass of finished mix; needs the density of the mix.
    MassPerMass(MassFraction),
    /// Volume per volume of carrier.
    LiquidPerCarrier(VolumeFraction),
    /// Mass per volume of carrier.
    SolidPerCarrier(MassConcentration),
    /// Volume or mass per unit of what the crop is counted in.
    PerCrop(PerCrop),
}

macro_rules! dose_from {
    ($($kind:ident => $variant:ident;)*) => { $(
        impl From<$kind> for Dose {
            fn from(dose: $kind) -> Self {
                Self::$variant(dose)
            }
        }
    )* };
}

dose_from! {
    LiquidDose => LiquidPerArea;
    SolidDose => SolidPerArea;
    VolumeFraction => LiquidPerMix;
    MassConcentration => SolidPerMix;
    MassFraction => MassPerMass;
}

impl Dose {
    /// Claims a quantity as a dose, on a stated basis or on the one that its dimension implies: ground area for an amount per
    /// area, finished mix for an amount per volume or per mass.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a quantity that is no dose, or not one on this basis;
    /// [`AmbiguousUnit`](ErrorCode::AmbiguousUnit) for a bare percent.
    pub fn claim(quantity: Quantity, basis: Option<Basis>) -> Result<Self, Error> {
        let refused = || {
            Error::new(ErrorCode::WrongQuantity)
                .given(format_args!("{quantity}, {}", text::with_article(quantity.kind().words())))
                .allowed(match (quantity.kind(), basis) {
                    (Kind::Volume | Kind::Mass, None) => text::DOSE_FOR_EACH,
                    _ => text::dose_examples(basis),
                })
        };
        let Some(on) = basis.or(Basis::implied(quantity.kind())) else { return Err(refused()) };
        if let Some(dose) = PerCrop::claim(quantity, on) {
            return dose.map(Self::PerCrop);
        }
        match (quantity.kind(), on) {
            (Kind::VolumePerArea | Kind::LiquidDose, Basis::GroundArea) => quantity.claim().map(Self::LiquidPerArea),
            (Kind::MassPerArea | Kind::SolidDose, Basis::GroundArea) => quantity.claim().map(Self::SolidPerArea),
            (Kind::VolumeFraction | Kind::Ratio, Basis::MixVolume) => quantity.claim().map(Self::LiquidPerMix),
            (Kind::MassPerVolume | Kind::MassConcentration, Basis::MixVolume) => {
                quantity.claim().map(Self::SolidPerMix)
            }
            (Kind::MassFraction, Basis::MixVolume) => quantity.claim().map(Self::MassPerMass),
            (Kind::VolumeFraction | Kind::Ratio, Basis::CarrierVolume) => quantity.claim().map(Self::LiquidPerCarrier),
            (Kind::MassPerVolume | Kind::MassConcentration, Basis::CarrierVolume) => {
                quantity.claim().map(Self::SolidPerCarrier)
            }
            _ => Err(refused()),
        }
    }

    /// What it is counted on.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            Self::LiquidPerArea(_) | Self::SolidPerArea(_) => Basis::GroundArea,
            Self::LiquidPerMix(_) | Self::SolidPerMix(_) | Self::MassPerMass(_) => Basis::MixVolume,
            Self::LiquidPerCarrier(_) | Self::SolidPerCarrier(_) => Basis::CarrierVolume,
            Self::PerCrop(dose) => dose.basis(),
        }
    }

    /// Whether the product is dosed by volume; by mass otherwise.
    #[must_use]
    pub const fn is_by_volume(self) -> bool {
        match self {
            Self::LiquidPerArea(_) | Self::LiquidPerMix(_) | Self::LiquidPerCarrier(_) => true,
            Self::SolidPerArea(_) | Self::SolidPerMix(_) | Self::MassPerMass(_) | Self::SolidPerCarrier(_) => false,
            Self::PerCrop(dose) => dose.is_by_volume(),
        }
    }

    /// Whether it is over another one that is counted as it is. On different bases the volume rate decides, and a plan compares.
    pub(super) fn is_over(self, other: Self) -> bool {
        match (self, other) {
            (Self::LiquidPerArea(dose), Self::LiquidPerArea(other)) => is_over(dose, other),
            (Self::SolidPerArea(dose), Self::SolidPerArea(other)) => is_over(dose, other),
            (Self::LiquidPerMix(dose), Self::LiquidPerMix(other))
            | (Self::LiquidPerCarrier(dose), Self::LiquidPerCarrier(other)) => is_over(dose, other),
            (Self::SolidPerMix(dose), Self::SolidPerMix(other))
            | (Self::SolidPerCarrier(dose), Self::SolidPerCarrier(other)) => is_over(dose, other),
            (Self::MassPerMass(dose), Self::MassPerMass(other)) => is_over(dose, other),
            (Self::PerCrop(dose), Self::PerCrop(other)) => dose.is_over(other),
            _ => false,
        }
    }

    pub(super) fn positive(self) -> Result<Self, Error> {
        match self {
            Self::LiquidPerArea(dose) => positive(dose).map(Self::LiquidPerArea),
            Self::SolidPerArea(dose) => positive(dose).map(Self::SolidPerArea),
            Self::LiquidPerMix(dose) => positive(dose).map(Self::LiquidPerMix),
            Self::SolidPerMix(dose) => positive(dose).map(Self::SolidPerMix),
            Self::MassPerMass(dose) => positive(dose).map(Self::MassPerMass),
            Self::LiquidPerCarrier(dose) => positive(dose).map(Self::LiquidPerCarrier),
            Self::SolidPerCarrier(dose) => positive(dose).map(Self::SolidPerCarrier),
            Self::PerCrop(dose) => dose.positive().map(Self::PerCrop),
        }
    }

    /// The product's share of the mix.
    pub(crate) fn share(self, of: &Composition) -> Result<Share, Error> {
        let carrier_share = of.carrier_share.as_ratio();
        Ok(match self {
            Self::LiquidPerArea(dose) => Share::Volume(dose / of.rate),
            Self::SolidPerArea(dose) => Share::Mass(dose / of.rate),
            Self::LiquidPerMix(fraction) => Share::Volume(fraction),
            Self::SolidPerMix(concentration) => Share::Mass(concentration),
            Self::MassPerMass(fraction) => Share::Mass(fraction * of.density.ok_or_else(needs_mix_density)?),
            Self::LiquidPerCarrier(fraction) => Share::Volume(fraction * carrier_share),
            Self::SolidPerCarrier(concentration) => Share::Mass(concentration * carrier_share),
            Self::PerCrop(dose) => dose.on_ground(of.stand)?.share(of)?,
        })
    }

    /// A dose on all the ground as it lies on the part of it that is treated.
    pub(crate) fn over_part(self, part: Ratio) -> Self {
        match self {
            Self::LiquidPerArea(dose) => Self::LiquidPerArea(dose / part),
            Self::SolidPerArea(dose) => Self::SolidPerArea(dose / part),
            _ => self,
        }
    }

    /// What a concentration comes to per area where a label says how much ground a tank of it serves.
    pub(super) fn in_label_tank(self, tank: LabelTank) -> Option<Self> {
        match self {
            Self::LiquidPerMix(fraction) => Some(Self::LiquidPerArea(fraction * tank.volume_rate())),
            Self::SolidPerMix(concentration) => Some(Self::SolidPerArea(concentration * tank.volume_rate())),
            _ => None,
        }
    }

    /// The amount in a volume of carrier, where it is counted on carrier.
    pub(crate) fn in_carrier(self, carrier: Volume) -> Option<Amount> {
        match self {
            Self::LiquidPerCarrier(fraction) => Some((fraction * carrier).into()),
            Self::SolidPerCarrier(concentration) => Some((concentration * carrier).into()),
            _ => None,
        }
    }
}

pub(crate) fn needs_mix_density() -> Error {
    Error::new(ErrorCode::MissingInput).at("mix_density").allowed(text::example("mix_density", Kind::Density))
}

impl From<Dose> for Quantity {
    fn from(dose: Dose) -> Self {
        match dose {
            Dose::LiquidPerArea(dose) => dose.into(),
            Dose::SolidPerArea(dose) => dose.into(),
            Dose::LiquidPerMix(dose) | Dose::LiquidPerCarrier(dose) => dose.into(),
            Dose::SolidPerMix(dose) | Dose::SolidPerCarrier(dose) => dose.into(),
            Dose::MassPerMass(dose) => dose.into(),
            Dose::PerCrop(dose) => dose.amount(),
        }
    }
}

/// What shares of a mix are counted on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Composition {
    /// Volume of mix per ground area.
    pub(crate) rate: VolumeRate,
    /// Volume of carrier per volume of mix.
    pub(crate) carrier_share: VolumeFraction,
    /// Density of the mix, where known.
    pub(crate) density: Option<Density>,
    /// The crop on the ground of the job.
    pub(crate) stand: Stand,
}

/// A product's share of the mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Share {
    Volume(VolumeFraction),
    Mass(MassConcentration),
}

impl From<Share> for Quantity {
    fn from(share: Share) -> Self {
        match share {
            Share::Volume(fraction) => fraction.into(),
            Share::Mass(concentration) => concentration.into(),
        }
    }
}

impl Share {
    /// The lesser of two shares of one product.
    pub(crate) fn min(self, other: Self) -> Self {
        match (self, other) {
            (Self::Volume(a), Self::Volume(b)) => Self::Volume(a.min(b)),
            (Self::Mass(a), Self::Mass(b)) => Self::Mass(a.min(b)),
            _ => self,
        }
    }

    /// What it comes to per ground area at a volume rate.
    pub(crate) fn on_ground(self, rate: VolumeRate) -> Dose {
        match self {
            Self::Volume(fraction) => Dose::LiquidPerArea(fraction * rate),
            Self::Mass(concentration) => Dose::SolidPerArea(concentration * rate),
        }
    }

    /// As a dose per volume of mix.
    pub(crate) const fn in_mix(self) -> Dose {
        match self {
            Self::Volume(fraction) => Dose::LiquidPerMix(fraction),
            Self::Mass(concentration) => Dose::SolidPerMix(concentration),
        }
    }

    /// The amount in a volume of mix.
    pub(crate) fn of(self, mix: Volume) -> Amount {
        match self {
            Self::Volume(fraction) => Amount::Volume(fraction * mix),
            Self::Mass(concentration) => Amount::Mass(concentration * mix),
        }
    }
}

/// What a product takes up, on the basis of its dose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Displacement {
    Area(LiquidDose),
    Mix(VolumeFraction),
    Carrier(VolumeFraction),
}
