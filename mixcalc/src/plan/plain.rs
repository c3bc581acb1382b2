//! The plain plan: the loads of one liquid product at a volume rate, for sweeps over many fields, rates and tanks.

use super::loads::formula::full_and_part;
use crate::error::{Error, ErrorCode};
use crate::quantity::checks::{Checks, answered};
use crate::quantity::close::steps_down;
use crate::quantity::{Area, LiquidDose, Ratio, Volume, VolumeRate};

/// The loads of one liquid product at a volume rate: what [`plain_plan`] answers.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct PlainPlan {
    /// Finished mix for the area.
    pub mix: Volume,
    /// Product for the area.
    pub product: Volume,
    /// Loads at the safe fill.
    pub full_loads: u64,
    /// The part load after them; zero where there is none.
    pub part_load: Volume,
    /// Product in a load at the safe fill.
    pub product_in_full_load: Volume,
    /// Product in the part load.
    pub product_in_part_load: Volume,
}

/// The plain plan of one liquid product: mix `V = R A`, full loads `n = steps_down(V / U)`, part load `V - n U`, and in each volume of mix its
/// share `d / R` of product.
///
/// Nothing is measured, and no limit of a label is known: [`plan()`](super::plan) is what people measure by. Without last strip, residual, marks
/// and least working volume.
///
/// * `area` (A): ground to be treated.
/// * `volume_rate` (R): volume of mix per ground area, the product inside.
/// * `dose` (d): volume of product per ground area.
/// * `safe_fill` (U): the most that the tank may be filled to.
///
/// # Errors
///
/// [`NotPositive`](ErrorCode::NotPositive) for an input that is not above zero; [`OutOfRange`](ErrorCode::OutOfRange) for a size that nobody
/// measures; [`ProductsFillMix`](ErrorCode::ProductsFillMix) for a dose that leaves no carrier;
/// [`TooManyLoads`](ErrorCode::TooManyLoads) for over 1e11 loads.
///
/// # Example
///
/// 1.2 ha at 200 L/ha are 240 L: two loads of 95 L, each with 712.5 mL of a product at 1.5 L/ha, and one of 50 L with 375 mL.
///
/// ```
/// use mixcalc::{Area, LiquidDose, Volume, VolumeRate, plain_plan};
///
/// let (area, rate) = (Area::read("1.2 ha")?, VolumeRate::read("200 L/ha")?);
/// let plain = plain_plan(area, rate, LiquidDose::read("1.5 L/ha")?, Volume::read("95 L")?)?;
/// assert_eq!((plain.full_loads, plain.part_load.to_string()), (2, "50 L".into()));
/// assert_eq!(plain.product_in_full_load.to_string(), "712.5 mL");
/// assert_eq!(plain.product_in_part_load.to_string(), "375 mL");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// `docs/numbers.md`, sections 4 to 6.
pub fn plain_plan(
    area: Area,
    volume_rate: VolumeRate,
    dose: LiquidDose,
    safe_fill: Volume,
) -> Result<PlainPlan, Error> {
    let answer = answered(|checks| formula::plain_plan(checks, area, volume_rate, dose, safe_fill))?;
    let (mix, product, full_loads, part_load, product_in_full_load, product_in_part_load) = answer;
    let full_loads = steps_down(full_loads).unwrap_or(0);
    Ok(PlainPlan { mix, product, full_loads, part_load, product_in_full_load, product_in_part_load })
}

/// The formulas, each for one number and for a column.
pub(crate) mod formula {
    use super::{Area, Checks, ErrorCode, LiquidDose, Ratio, Volume, VolumeRate, full_and_part};

    #[inline(always)]
    pub(crate) fn plain_plan(
        checks: &mut impl Checks,
        area: Area,
        volume_rate: VolumeRate,
        dose: LiquidDose,
        safe_fill: Volume,
    ) -> (Volume, Volume, Ratio, Volume, Volume, Volume) {
        let (area, volume_rate) = (checks.divisor(area, "area"), checks.divisor(volume_rate, "volume_rate"));
        let (dose, safe_fill) = (checks.divisor(dose, "dose"), checks.divisor(safe_fill, "safe_fill"));
        let share = dose / volume_rate;
        checks.must(share.leaves_rest(), ErrorCode::ProductsFillMix, |error| error.at("dose").given(share.as_ratio()));
        let mix = volume_rate * area;
        let (full, part) = full_and_part(checks, mix, safe_fill, "area");
        (mix, share * mix, full, part, share * safe_fill, share * part)
    }
}
