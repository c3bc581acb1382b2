//! The mix: volume rate, carrier's share, and each product's share of it.

use alloc::vec::Vec;

use super::job::{Job, Rate};
use crate::error::{Error, ErrorCode};
use crate::label::{Basis, Composition, Displacement, Product, Share, Stand};
use crate::quantity::checks::answered;
use crate::quantity::{Area, LiquidDose, Ratio, Volume, VolumeFraction, VolumeRate, ordered_sum};

/// Volume of mix for an area at a volume rate: `R * A`.
///
/// * `volume_rate` (R): volume of mix per ground area.
/// * `area` (A): ground to be treated.
///
/// # Errors
///
/// [`OutOfRange`](ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 200 L/ha on 12.4 ha are 2480 L.
///
/// ```
/// use mixcalc::{Area, VolumeRate, mix};
///
/// assert_eq!(mix(VolumeRate::read("200 L/ha")?, Area::read("12.4 ha")?)?.to_string(), "2480 L");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// `docs/numbers.md`, section 4, without strip.
pub fn mix(volume_rate: VolumeRate, area: Area) -> Result<Volume, Error> {
    answered(|checks| formula::mix(checks, volume_rate, area))
}

/// Ground that a volume of mix serves: `V / R`.
///
/// * `mix` (V): finished mix.
/// * `volume_rate` (R): volume of mix per ground area.
///
/// # Errors
///
/// [`NotPositive`](ErrorCode::NotPositive) for a `volume_rate` that is not above zero;
/// [`OutOfRange`](ErrorCode::OutOfRange) for a `mix` below zero, or a size that nobody measures.
///
/// # Example
///
/// A tank of 600 L at 200 L/ha: 3 ha.
///
/// ```
/// use mixcalc::{Volume, VolumeRate, area_for_mix};
///
/// assert_eq!(area_for_mix(Volume::read("600 L")?, VolumeRate::read("200 L/ha")?)?.to_string(), "3 ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// `docs/numbers.md`, section 5.
pub fn area_for_mix(mix: Volume, volume_rate: VolumeRate) -> Result<Area, Error> {
    answered(|checks| formula::area_for_mix(checks, mix, volume_rate))
}

/// What a liter of mix is made of.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Mix {
    /// Volume of mix per ground area.
    pub(crate) rate: VolumeRate,
    /// Volume of mix for the ground of the job, per area: overlap sprays a part of it twice.
    pub(crate) ground_rate: VolumeRate,
    /// Volume of carrier per volume of mix.
    pub(crate) carrier_share: VolumeFraction,
    /// Per product: what it takes up; `None` where that is unknown.
    pub(crate) displacements: Vec<Option<Displacement>>,
    /// Per product: its share, and the share that its largest dose would have.
    pub(crate) shares: Vec<(Share, Share)>,
}

impl Mix {
    /// What shares of it are counted on.
    pub(crate) fn composition(&self, job: &Job) -> Composition {
        let Self { rate, carrier_share, .. } = *self;
        Composition { rate, carrier_share, density: job.mix_density(), stand: job.stand() }
    }

    /// Volume of mix on the basis that a label counts its volume rates on.
    pub(crate) fn rate_on(&self, basis: Option<Basis>, Stand { crop, area }: Stand) -> Result<VolumeRate, Error> {
        match basis {
            Some(Basis::TreatedArea) => Ok(self.rate / crop.treated_share(area)?),
            Some(Basis::LeafWallArea) => Ok(self.rate / crop.leaf_wall_per_ground()?),
            _ => Ok(self.rate),
        }
    }

    /// Volume of carrier per ground area.
    pub(crate) fn carrier_rate(&self) -> VolumeRate {
        self.rate * self.carrier_share.as_ratio()
    }

    /// The mix of a job.
    pub(crate) fn of(job: &Job) -> Result<Self, Error> {
        let stand = job.stand();
        let displacement = |product: &Product| product.displacement(job.mix_density(), stand);
        let displacements = job.products().iter().map(displacement).collect::<Result<Vec<_>, _>>()?;
        let (per_area, per_mix, per_carrier) = displaced(&displacements);
        let fills_mix =
            |taken: VolumeFraction| Error::new(ErrorCode::ProductsFillMix).at("products").given(taken.as_ratio());
        if !per_mix.leaves_rest() {
            return Err(fills_mix(per_mix));
        }
        let per_carrier = Ratio::one() + per_carrier.as_ratio();
        let around =
            |carrier: VolumeRate| (carrier * per_carrier + per_area.as_volume_rate()) / per_mix.rest().as_ratio();
        let rate = match job.rate() {
            Rate::Volume(rate) => rate,
            Rate::VolumePerCrop(volume) => volume.volume_rate(stand)?,
            Rate::Carrier(carrier) => around(carrier),
            Rate::CarrierPerCrop(carrier) => around(carrier.volume_rate(stand)?),
        };
        let taken = per_area / rate + per_mix;
        if !taken.leaves_rest() {
            return Err(fills_mix(taken));
        }
        let carrier_share = taken.rest() / per_carrier;
        let of = Composition { rate, carrier_share, density: job.mix_density(), stand };
        let shares = job.products().iter().map(|product| {
            // What findings hold the dose against needs what the dose does.
            product.label().min_dose().map(|least| least.share(&of)).transpose()?;
            Ok((product.dose().share(&of)?, product.largest_share(&of)?))
        });
        let ground_rate = rate * job.ground().passes();
        let shares = shares.collect::<Result<_, Error>>()?;
        let mix = Self { rate, ground_rate, carrier_share, displacements, shares };
        for product in job.products() {
            mix.rate_on(product.label().volume_rate_basis(), stand)?;
        }
        Ok(mix)
    }

    /// What is left of a volume of mix for carrier.
    pub(crate) fn carrier_in(&self, mix: Volume) -> Volume {
        self.carrier_share * mix
    }
}

/// What the products take up, summed per basis: per area, per volume of mix, per volume of carrier.
pub(super) fn displaced(displacements: &[Option<Displacement>]) -> (LiquidDose, VolumeFraction, VolumeFraction) {
    let each = || displacements.iter().copied().flatten();
    (
        ordered_sum(each().filter_map(|taken| if let Displacement::Area(dose) = taken { Some(dose) } else { None })),
        ordered_sum(each().filter_map(|taken| if let Displacement::Mix(share) = taken { Some(share) } else { None })),
        ordered_sum(each().filter_map(
            |taken| {
                if let Displacement::Carrier(share) = taken { Some(share) } else { None }
            },
        )),
    )
}

/// The formulas, each for one number and for a column.
pub(crate) mod formula {
    use super::{Area, Volume, VolumeRate};
    use crate::quantity::checks::Checks;

    #[inline(always)]
    pub(crate) fn mix(checks: &mut impl Checks, volume_rate: VolumeRate, area: Area) -> Volume {
        checks.factor(volume_rate, "volume_rate") * checks.factor(area, "area")
    }

    #[inline(always)]
    pub(crate) fn area_for_mix(checks: &mut impl Checks, mix: Volume, volume_rate: VolumeRate) -> Area {
        checks.factor(mix, "mix") / checks.divisor(volume_rate, "volume_rate")
    }
}
