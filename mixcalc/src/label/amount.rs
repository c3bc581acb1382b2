//! Doses into amounts, and from one basis to another.

use crate::error::Error;
use crate::quantity::checks::answered;
use crate::quantity::{
    Area, Content, Density, LiquidDose, Mass, MassConcentration, MassFraction, MassPerArea, SolidDose, Volume,
    VolumeFraction, VolumeRate,
};

/// Volume of a product for an area at a dose by volume: `D * A`.
///
/// * `liquid_dose` (D): volume of product per ground area.
/// * `area` (A): ground to be treated.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 1.5 L/ha on 2.4 ha are 3.6 L.
///
/// ```
/// use mixcalc::{Area, LiquidDose, liquid_amount};
///
/// assert_eq!(liquid_amount(LiquidDose::read("1.5 L/ha")?, Area::read("2.4 ha")?)?.to_string(), "3.6 L");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn liquid_amount(liquid_dose: LiquidDose, area: Area) -> Result<Volume, Error> {
    answered(|checks| formula::liquid_amount(checks, liquid_dose, area))
}

/// Mass of a product for an area at a dose by mass: `D * A`.
///
/// * `solid_dose` (D): mass of product per ground area.
/// * `area` (A): ground to be treated.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 0.25 kg/ha on 2.4 ha are 600 g.
///
/// ```
/// use mixcalc::{Area, SolidDose, solid_amount};
///
/// assert_eq!(solid_amount(SolidDose::read("0.25 kg/ha")?, Area::read("2.4 ha")?)?.to_string(), "600 g");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn solid_amount(solid_dose: SolidDose, area: Area) -> Result<Mass, Error> {
    answered(|checks| formula::solid_amount(checks, solid_dose, area))
}

/// Volume of a product in a volume of mix: `f * V`.
///
/// * `volume_fraction` (f): volume of product per volume of finished mix.
/// * `mix` (V): finished mix, the product inside.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 150 mL per 100 L, for a tank of 600 L: 900 mL.
///
/// ```
/// use mixcalc::{Volume, VolumeFraction, liquid_amount_in_mix};
///
/// let amount = liquid_amount_in_mix(VolumeFraction::read("150 mL/100 L")?, Volume::read("600 L")?)?;
/// assert_eq!(amount.to_string(), "900 mL");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn liquid_amount_in_mix(volume_fraction: VolumeFraction, mix: Volume) -> Result<Volume, Error> {
    answered(|checks| formula::liquid_amount_in_mix(checks, volume_fraction, mix))
}

/// Mass of a product in a volume of mix: `f * V`.
///
/// * `mass_concentration` (f): mass of product per volume of finished mix.
/// * `mix` (V): finished mix, the product inside.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 50 g per 100 L, for a tank of 600 L: 300 g.
///
/// ```
/// use mixcalc::{MassConcentration, Volume, solid_amount_in_mix};
///
/// let amount = solid_amount_in_mix(MassConcentration::read("50 g/100 L")?, Volume::read("600 L")?)?;
/// assert_eq!(amount.to_string(), "300 g");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition.
pub fn solid_amount_in_mix(mass_concentration: MassConcentration, mix: Volume) -> Result<Mass, Error> {
    answered(|checks| formula::solid_amount_in_mix(checks, mass_concentration, mix))
}

/// Dose by volume per ground area that a dose per volume of mix comes to: `f * R`.
///
/// * `volume_fraction` (f): volume of product per volume of finished mix, such as 150 mL/100 L.
/// * `volume_rate` (R): volume of mix per ground area.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 150 mL/100 L at 300 L/ha: 3 x 150 mL = 450 mL/ha.
///
/// ```
/// use mixcalc::{VolumeFraction, VolumeRate, liquid_dose};
///
/// let dose = liquid_dose(VolumeFraction::read("150 mL/100 L")?, VolumeRate::read("300 L/ha")?)?;
/// assert_eq!(dose.to_string(), "450 mL/ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`volume_fraction`].
pub fn liquid_dose(volume_fraction: VolumeFraction, volume_rate: VolumeRate) -> Result<LiquidDose, Error> {
    answered(|checks| formula::liquid_dose(checks, volume_fraction, volume_rate))
}

/// Dose by mass per ground area that a dose per volume of mix comes to: `f * R`.
///
/// * `mass_concentration` (f): mass of product per volume of finished mix, such as 50 g/100 L.
/// * `volume_rate` (R): volume of mix per ground area.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 50 g/100 L at 300 L/ha: 3 x 50 g = 150 g/ha.
///
/// ```
/// use mixcalc::{MassConcentration, VolumeRate, solid_dose};
///
/// let dose = solid_dose(MassConcentration::read("50 g/100 L")?, VolumeRate::read("300 L/ha")?)?;
/// assert_eq!(dose.to_string(), "150 g/ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`mass_concentration`].
pub fn solid_dose(mass_concentration: MassConcentration, volume_rate: VolumeRate) -> Result<SolidDose, Error> {
    answered(|checks| formula::solid_dose(checks, mass_concentration, volume_rate))
}

/// Volume of a product per volume of mix at a dose by volume: `D / R`.
///
/// * `liquid_dose` (D): volume of product per ground area.
/// * `volume_rate` (R): volume of mix per ground area.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `volume_rate` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `liquid_dose` below zero, or a size that nobody measures.
///
/// # Example
///
/// 1.5 L/ha in 300 L/ha: 0.5 L per 100 L.
///
/// ```
/// use mixcalc::{LiquidDose, VolumeRate, volume_fraction};
///
/// let fraction = volume_fraction(LiquidDose::read("1.5 L/ha")?, VolumeRate::read("300 L/ha")?)?;
/// assert_eq!(fraction.to_string(), "0.5 % v/v");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`liquid_dose`].
pub fn volume_fraction(liquid_dose: LiquidDose, volume_rate: VolumeRate) -> Result<VolumeFraction, Error> {
    answered(|checks| formula::volume_fraction(checks, liquid_dose, volume_rate))
}

/// Mass of a product per volume of mix at a dose by mass: `D / R`.
///
/// * `solid_dose` (D): mass of product per ground area.
/// * `volume_rate` (R): volume of mix per ground area.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `volume_rate` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `solid_dose` below zero, or a size that nobody measures.
///
/// # Example
///
/// 150 g/ha in 300 L/ha: 0.5 g/L.
///
/// ```
/// use mixcalc::{SolidDose, VolumeRate, mass_concentration};
///
/// let concentration = mass_concentration(SolidDose::read("150 g/ha")?, VolumeRate::read("300 L/ha")?)?;
/// assert_eq!(concentration.to_string(), "0.5 g/L");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`solid_dose`].
pub fn mass_concentration(solid_dose: SolidDose, volume_rate: VolumeRate) -> Result<MassConcentration, Error> {
    answered(|checks| formula::mass_concentration(checks, solid_dose, volume_rate))
}

/// Active substance per ground area in a dose by volume: `content * D`.
///
/// * `content`: mass of active substance per volume of product.
/// * `liquid_dose` (D): volume of product per ground area.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 1.2 L/ha of a product with 250 g/L: 300 g/ha.
///
/// ```
/// use mixcalc::{Content, LiquidDose, substance_in_liquid_dose};
///
/// let substance = substance_in_liquid_dose(Content::read("250 g/L")?, LiquidDose::read("1.2 L/ha")?)?;
/// assert_eq!(substance.to_string(), "300 g/ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`liquid_dose_of_substance`].
pub fn substance_in_liquid_dose(content: Content, liquid_dose: LiquidDose) -> Result<MassPerArea, Error> {
    answered(|checks| formula::substance_in_liquid_dose(checks, content, liquid_dose))
}

/// Active substance per ground area in a dose by mass: `content * D`.
///
/// * `content`: mass of active substance per mass of product.
/// * `solid_dose` (D): mass of product per ground area.
///
/// # Errors
///
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
///
/// # Example
///
/// 0.4 kg/ha of a product with 500 g/kg: 200 g/ha.
///
/// ```
/// use mixcalc::{MassFraction, SolidDose, substance_in_solid_dose};
///
/// let substance = substance_in_solid_dose(MassFraction::read("500 g/kg")?, SolidDose::read("0.4 kg/ha")?)?;
/// assert_eq!(substance.to_string(), "200 g/ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`solid_dose_of_substance`].
pub fn substance_in_solid_dose(content: MassFraction, solid_dose: SolidDose) -> Result<MassPerArea, Error> {
    answered(|checks| formula::substance_in_solid_dose(checks, content, solid_dose))
}

/// Dose by volume of a product that brings so much active substance: `S / content`.
///
/// * `content`: mass of active substance per volume of product.
/// * `substance` (S): mass of active substance per ground area.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `content` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `substance` below zero, or a size that nobody measures.
///
/// # Example
///
/// 300 g/ha of a substance, from a product with 250 g/L: 1.2 L/ha.
///
/// ```
/// use mixcalc::{Content, MassPerArea, liquid_dose_of_substance};
///
/// let dose = liquid_dose_of_substance(Content::read("250 g/L")?, MassPerArea::read("300 g/ha")?)?;
/// assert_eq!(dose.to_string(), "1.2 L/ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`substance_in_liquid_dose`].
pub fn liquid_dose_of_substance(content: Content, substance: MassPerArea) -> Result<LiquidDose, Error> {
    answered(|checks| formula::liquid_dose_of_substance(checks, content, substance))
}

/// Dose by mass of a product that brings so much active substance: `S / content`.
///
/// * `content`: mass of active substance per mass of product.
/// * `substance` (S): mass of active substance per ground area.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `content` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `substance` below zero, or a size that nobody measures.
///
/// # Example
///
/// 200 g/ha of a substance, from a product with 500 g/kg: 400 g/ha.
///
/// ```
/// use mixcalc::{MassFraction, MassPerArea, solid_dose_of_substance};
///
/// let dose = solid_dose_of_substance(MassFraction::read("500 g/kg")?, MassPerArea::read("200 g/ha")?)?;
/// assert_eq!(dose.to_string(), "400 g/ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`substance_in_solid_dose`].
pub fn solid_dose_of_substance(content: MassFraction, substance: MassPerArea) -> Result<SolidDose, Error> {
    answered(|checks| formula::solid_dose_of_substance(checks, content, substance))
}

/// Mass of a volume of a liquid product: `density * V`.
///
/// * `density`: of the liquid.
/// * `volume` (V): of the liquid.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `density` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `volume` below zero, or a size that nobody measures.
///
/// # Example
///
/// 5 L at 1.1 kg/L are 5.5 kg.
///
/// ```
/// use mixcalc::{Density, Volume, liquid_mass};
///
/// assert_eq!(liquid_mass(Density::read("1.1 kg/L")?, Volume::read("5 L")?)?.to_string(), "5.5 kg");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`liquid_volume`].
pub fn liquid_mass(density: Density, volume: Volume) -> Result<Mass, Error> {
    answered(|checks| formula::liquid_mass(checks, density, volume))
}

/// Volume of a mass of a liquid product: `m / density`.
///
/// * `mass` (m): of the liquid.
/// * `density`: of the liquid.
///
/// # Errors
///
/// [`NotPositive`](crate::ErrorCode::NotPositive) for a `density` that is not above zero;
/// [`OutOfRange`](crate::ErrorCode::OutOfRange) for a `mass` below zero, or a size that nobody measures.
///
/// # Example
///
/// 5.5 kg at 1.1 kg/L are 5 L.
///
/// ```
/// use mixcalc::{Density, Mass, liquid_volume};
///
/// assert_eq!(liquid_volume(Mass::read("5.5 kg")?, Density::read("1.1 kg/L")?)?.to_string(), "5 L");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Definition. See also its inverse, [`liquid_mass`].
pub fn liquid_volume(mass: Mass, density: Density) -> Result<Volume, Error> {
    answered(|checks| formula::liquid_volume(checks, mass, density))
}

/// The formulas, each for one number and for a column.
pub(crate) mod formula {
    use super::{
        Area, Content, Density, LiquidDose, Mass, MassConcentration, MassFraction, MassPerArea, SolidDose, Volume,
        VolumeFraction, VolumeRate,
    };
    use crate::quantity::checks::Checks;

    #[inline(always)]
    pub(crate) fn liquid_amount(checks: &mut impl Checks, liquid_dose: LiquidDose, area: Area) -> Volume {
        checks.factor(liquid_dose, "liquid_dose") * checks.factor(area, "area")
    }

    #[inline(always)]
    pub(crate) fn solid_amount(checks: &mut impl Checks, solid_dose: SolidDose, area: Area) -> Mass {
        checks.factor(solid_dose, "solid_dose") * checks.factor(area, "area")
    }

    #[inline(always)]
    pub(crate) fn liquid_amount_in_mix(
        checks: &mut impl Checks,
        volume_fraction: VolumeFraction,
        mix: Volume,
    ) -> Volume {
        checks.factor(volume_fraction, "volume_fraction") * checks.factor(mix, "mix")
    }

    #[inline(always)]
    pub(crate) fn solid_amount_in_mix(
        checks: &mut impl Checks,
        mass_concentration: MassConcentration,
        mix: Volume,
    ) -> Mass {
        checks.factor(mass_concentration, "mass_concentration") * checks.factor(mix, "mix")
    }

    #[inline(always)]
    pub(crate) fn liquid_dose(
        checks: &mut impl Checks,
        volume_fraction: VolumeFraction,
        volume_rate: VolumeRate,
    ) -> LiquidDose {
        checks.factor(volume_fraction, "volume_fraction") * checks.factor(volume_rate, "volume_rate")
    }

    #[inline(always)]
    pub(crate) fn solid_dose(
        checks: &mut impl Checks,
        mass_concentration: MassConcentration,
        volume_rate: VolumeRate,
    ) -> SolidDose {
        checks.factor(mass_concentration, "mass_concentration") * checks.factor(volume_rate, "volume_rate")
    }

    #[inline(always)]
    pub(crate) fn volume_fraction(
        checks: &mut impl Checks,
        liquid_dose: LiquidDose,
        volume_rate: VolumeRate,
    ) -> VolumeFraction {
        checks.factor(liquid_dose, "liquid_dose") / checks.divisor(volume_rate, "volume_rate")
    }

    #[inline(always)]
    pub(crate) fn mass_concentration(
        checks: &mut impl Checks,
        solid_dose: SolidDose,
        volume_rate: VolumeRate,
    ) -> MassConcentration {
        checks.factor(solid_dose, "solid_dose") / checks.divisor(volume_rate, "volume_rate")
    }

    #[inline(always)]
    pub(crate) fn substance_in_liquid_dose(
        checks: &mut impl Checks,
        content: Content,
        liquid_dose: LiquidDose,
    ) -> MassPerArea {
        checks.factor(content, "content") * checks.factor(liquid_dose, "liquid_dose")
    }

    #[inline(always)]
    pub(crate) fn substance_in_solid_dose(
        checks: &mut impl Checks,
        content: MassFraction,
        solid_dose: SolidDose,
    ) -> MassPerArea {
        checks.factor(content, "content") * checks.factor(solid_dose, "solid_dose")
    }

    #[inline(always)]
    pub(crate) fn liquid_dose_of_substance(
        checks: &mut impl Checks,
        content: Content,
        substance: MassPerArea,
    ) -> LiquidDose {
        (checks.factor(substance, "substance") / checks.divisor(content, "content")).as_liquid_dose()
    }

    #[inline(always)]
    pub(crate) fn solid_dose_of_substance(
        checks: &mut impl Checks,
        content: MassFraction,
        substance: MassPerArea,
    ) -> SolidDose {
        (checks.factor(substance, "substance") / checks.divisor(content, "content")).as_solid_dose()
    }

    #[inline(always)]
    pub(crate) fn liquid_mass(checks: &mut impl Checks, density: Density, volume: Volume) -> Mass {
        checks.divisor(density, "density") * checks.factor(volume, "volume")
    }

    #[inline(always)]
    pub(crate) fn liquid_volume(checks: &mut impl Checks, mass: Mass, density: Density) -> Volume {
        checks.factor(mass, "mass") / checks.divisor(density, "density")
    }
}
