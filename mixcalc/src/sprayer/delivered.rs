//! Delivered dose: what really reaches the ground, from what was measured into the tank and what the sprayer really puts out.

use super::nozzle::above_zero;
use crate::error::Error;
use crate::quantity::{Area, LiquidDose, Mass, MassPerArea, SolidDose, Volume, VolumePerArea, VolumeRate};
use crate::uncertainty::Uncertain;

/// Dose of a liquid product that is delivered: `D = V / (M / R)`.
///
/// The interval of the result tells between what it may lie, [`probability_over`](Uncertain::probability_over) how likely it is over the most that the label
/// allows, and [`aim_under`](Uncertain::aim_under) what to aim at for a chosen risk of that. None of it allows a dose over the label's.
///
/// * `amount` (V): of the product in the load, with the tolerance and the reading of its measure.
/// * `mix` (M): in the tank, with the tolerance and the reading of its scale.
/// * `volume_rate` (R): as calibrated.
///
/// # Errors
///
/// At each input: [`NotPositive`](crate::ErrorCode::NotPositive). Else as [`Uncertain::sum`].
///
/// # Example
///
/// 1 L in 100 L at 200 L/ha are 2 L/ha. A tank scale that may be 5 % off makes 5 % / sqrt(3) = 2.9 % of it.
///
/// ```
/// use mixcalc::{Ratio, Uncertain, Volume, VolumeRate, delivered_liquid_dose};
///
/// let amount = Uncertain::exact(Volume::read("1 L")?)?;
/// let mix = Uncertain::from_tolerance("tank scale", Volume::read("100 L")?, Volume::read("5 L")?)?;
/// let rate = Uncertain::exact(VolumeRate::read("200 L/ha")?)?;
/// let dose = delivered_liquid_dose(&amount, &mix, &rate)?;
/// assert!((dose.value().liters_per_hectare() - 2.0).abs() < 1e-12);
/// assert!((dose.standard_uncertainty().liters_per_hectare() - 0.0577).abs() < 5e-5);
/// // At the label's maximum, half of all such loads are over it; for one in twenty the aim is lower.
/// assert!((dose.probability_over(dose.value()).number() - 0.5).abs() < 1e-12);
/// let aim = dose.aim_under(dose.value(), Ratio::from_percent(5.0)?)?;
/// assert!((aim.liters_per_hectare() - 1.909).abs() < 1e-3);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition; JCGM 100:2008, equation 10.
pub fn delivered_liquid_dose(
    amount: &Uncertain<Volume>,
    mix: &Uncertain<Volume>,
    volume_rate: &Uncertain<VolumeRate>,
) -> Result<Uncertain<LiquidDose>, Error> {
    above_zero(amount, "amount")?.over::<_, VolumePerArea>(&ground(mix, volume_rate)?)?.claim()
}

/// Dose of a product by mass that is delivered: `D = m / (M / R)`. As [`delivered_liquid_dose`].
///
/// * `amount` (m): of the product in the load.
/// * `mix` (M), `volume_rate` (R): as there.
///
/// # Errors
///
/// As [`delivered_liquid_dose`].
///
/// # Example
///
/// 200 g in 100 L at 200 L/ha are 0.4 kg/ha.
///
/// ```
/// use mixcalc::{Mass, Uncertain, Volume, VolumeRate, delivered_solid_dose};
///
/// let amount = Uncertain::exact(Mass::read("200 g")?)?;
/// let mix = Uncertain::exact(Volume::read("100 L")?)?;
/// let dose = delivered_solid_dose(&amount, &mix, &Uncertain::exact(VolumeRate::read("200 L/ha")?)?)?;
/// assert!((dose.value().kilograms_per_hectare() - 0.4).abs() < 1e-12);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// As [`delivered_liquid_dose`].
pub fn delivered_solid_dose(
    amount: &Uncertain<Mass>,
    mix: &Uncertain<Volume>,
    volume_rate: &Uncertain<VolumeRate>,
) -> Result<Uncertain<SolidDose>, Error> {
    above_zero(amount, "amount")?.over::<_, MassPerArea>(&ground(mix, volume_rate)?)?.claim()
}

/// The ground that a mix really serves.
fn ground(mix: &Uncertain<Volume>, volume_rate: &Uncertain<VolumeRate>) -> Result<Uncertain<Area>, Error> {
    above_zero(mix, "mix")?.over(above_zero(volume_rate, "volume_rate")?)
}
