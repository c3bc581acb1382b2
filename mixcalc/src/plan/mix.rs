//! The mix: volume rate, carrier's share, and each product's share of it.

use alloc::format;
use alloc::vec::Vec;

use super::job::{Job, Rate};
use crate::error::{Error, ErrorCode};
use crate::label::{Displacement, Dose, Product, Share};
use crate::quantity::{Area, LiquidDose, Ratio, Volume, VolumeFraction, VolumeRate, divisor, factor, ordered_sum};

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
    Ok(factor(volume_rate, "volume_rate")? * factor(area, "area")?)
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
    Ok(factor(mix, "mix")? / divisor(volume_rate, "volume_rate")?)
}

/// What a liter of mix is made of.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Mix {
    /// Volume of mix per ground area.
    pub(crate) rate: VolumeRate,
    /// Volume of carrier per volume of mix.
    pub(crate) carrier_share: VolumeFraction,
    /// Per product: its share, and the share that its largest dose would have.
    pub(crate) shares: Vec<(Share, Share)>,
}

impl Mix {
    /// Volume of carrier per ground area.
    pub(crate) fn carrier_rate(&self) -> VolumeRate {
        self.rate * self.carrier_share.as_ratio()
    }

    /// The mix of a job.
    pub(crate) fn of(job: &Job) -> Result<Self, Error> {
        let (per_area, per_mix, per_carrier) = displaced(job);
        let fills_mix =
            |taken: VolumeFraction| Error::new(ErrorCode::ProductsFillMix).at("products").given(taken.as_ratio());
        if !per_mix.leaves_rest() {
            return Err(fills_mix(per_mix));
        }
        let per_carrier = Ratio::one() + per_carrier.as_ratio();
        let rate = match job.rate() {
            Rate::Volume(rate) => rate,
            Rate::Carrier(carrier) => (carrier * per_carrier + per_area.as_volume_rate()) / per_mix.rest().as_ratio(),
        };
        let taken = per_area / rate + per_mix;
        if !taken.leaves_rest() {
            return Err(fills_mix(taken));
        }
        let carrier_share = taken.rest() / per_carrier;
        let share = |product: &Product| {
            let share = |dose: Dose| dose.share(rate, carrier_share, job.mix_density());
            // What findings hold the dose against needs the density of the mix as the dose does.
            product.label().min_dose().map(share).transpose()?;
            Ok((share(product.dose())?, share(product.max_dose())?))
        };
        let shares = job.products().iter().enumerate();
        let shares = shares.map(|(i, product)| {
            share(product).map_err(|error: Error| match error.path() {
                "mix_density" => error,
                _ => error.at(format!("products[{i}]")),
            })
        });
        Ok(Self { rate, carrier_share, shares: shares.collect::<Result<_, _>>()? })
    }

    /// What is left of a volume of mix for carrier.
    pub(crate) fn carrier_in(&self, mix: Volume) -> Volume {
        self.carrier_share * mix
    }
}

/// What the products take up, summed per basis: per area, per volume of mix, per volume of carrier.
pub(super) fn displaced(job: &Job) -> (LiquidDose, VolumeFraction, VolumeFraction) {
    let each = || job.products().iter().filter_map(|product| product.displacement(job.mix_density()));
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
