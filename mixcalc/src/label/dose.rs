//! The dose: amount of product per unit of a basis, and the share of the mix that it comes to.

use crate::error::{Error, ErrorCode};
use crate::measure::Amount;
use crate::quantity::close::is_over;
use crate::quantity::{
    Density, Kind, LiquidDose, MassConcentration, MassFraction, Quantity, SolidDose, Volume, VolumeFraction,
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
}

impl Basis {
    /// The bases.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::GroundArea, Self::MixVolume, Self::CarrierVolume]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::GroundArea => "ground-area",
            Self::MixVolume => "mix-volume",
            Self::CarrierVolume => "carrier-volume",
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
        let dose = match (quantity.kind(), basis) {
            (Kind::VolumePerArea | Kind::LiquidDose, None | Some(Basis::GroundArea)) => {
                Self::LiquidPerArea(quantity.claim()?)
            }
            (Kind::MassPerArea | Kind::SolidDose, None | Some(Basis::GroundArea)) => {
                Self::SolidPerArea(quantity.claim()?)
            }
            (Kind::VolumeFraction | Kind::Ratio, None | Some(Basis::MixVolume)) => {
                Self::LiquidPerMix(quantity.claim()?)
            }
            (Kind::MassPerVolume | Kind::MassConcentration, None | Some(Basis::MixVolume)) => {
                Self::SolidPerMix(quantity.claim()?)
            }
            (Kind::MassFraction, None | Some(Basis::MixVolume)) => Self::MassPerMass(quantity.claim()?),
            (Kind::VolumeFraction | Kind::Ratio, Some(Basis::CarrierVolume)) => {
                Self::LiquidPerCarrier(quantity.claim()?)
            }
            (Kind::MassPerVolume | Kind::MassConcentration, Some(Basis::CarrierVolume)) => {
                Self::SolidPerCarrier(quantity.claim()?)
            }
            _ => {
                return Err(Error::new(ErrorCode::WrongQuantity)
                    .given(format_args!("{quantity}, {}", text::with_article(quantity.kind().words())))
                    .allowed(text::dose_examples(basis)));
            }
        };
        Ok(dose)
    }

    /// What it is counted on.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            Self::LiquidPerArea(_) | Self::SolidPerArea(_) => Basis::GroundArea,
            Self::LiquidPerMix(_) | Self::SolidPerMix(_) | Self::MassPerMass(_) => Basis::MixVolume,
            Self::LiquidPerCarrier(_) | Self::SolidPerCarrier(_) => Basis::CarrierVolume,
        }
    }

    /// Whether the product is dosed by volume; by mass otherwise.
    #[must_use]
    pub const fn is_by_volume(self) -> bool {
        matches!(self, Self::LiquidPerArea(_) | Self::LiquidPerMix(_) | Self::LiquidPerCarrier(_))
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
        }
    }

    /// The product's share of the mix.
    pub(crate) fn share(
        self,
        rate: VolumeRate,
        carrier_share: VolumeFraction,
        mix_density: Option<Density>,
    ) -> Result<Share, Error> {
        Ok(match self {
            Self::LiquidPerArea(dose) => Share::Volume(dose / rate),
            Self::SolidPerArea(dose) => Share::Mass(dose / rate),
            Self::LiquidPerMix(fraction) => Share::Volume(fraction),
            Self::SolidPerMix(concentration) => Share::Mass(concentration),
            Self::MassPerMass(fraction) => Share::Mass(fraction * mix_density.ok_or_else(needs_mix_density)?),
            Self::LiquidPerCarrier(fraction) => Share::Volume(fraction * carrier_share.as_ratio()),
            Self::SolidPerCarrier(concentration) => Share::Mass(concentration * carrier_share.as_ratio()),
        })
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
        }
    }
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
