//! One number at a time, for sums that are called in loops. Each is one call of the core's function of that name: no arithmetic here.

use mixcalc::{
    Amount, Area, Content, Density, Flow, Length, LiquidDose, Mass, MassConcentration, MassFraction, MassPerArea,
    Ratio, SolidDose, Speed, Tank, Time, Volume, VolumeFraction, VolumeRate, WorkRate,
};

use crate::border::answer;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::handle::room;

/// A bare number as a kind; an error names the quantity.
pub(crate) fn named<Q>(name: &str, kind: Result<Q, mixcalc::Error>) -> Result<Q, Box<Failure>> {
    kind.map_err(|error| Box::<Failure>::from(error).at(name))
}

/// The body of a sum: bare numbers become kinds, the core answers, the answer goes out as a bare number.
macro_rules! answer_sum {
    ($out:ident, $error:ident, $sum:ident($($name:ident = $kind:ident::$from:ident($bare:ident)),*).$unit:ident) => {{
        let body = || {
            let out = $crate::handle::room(stringify!($out), $out)?;
            $(let $name = $crate::sum::named(stringify!($name), $kind::$from($bare))?;)*
            let answered = mixcalc::$sum($($name),*)?.$unit();
            // SAFETY: the caller's promise.
            unsafe { out.write(answered) };
            Ok(())
        };
        // SAFETY: the caller's promise.
        unsafe { $crate::border::answer($error, body) }
    }};
}
pub(crate) use answer_sum;

/// Volume of mix for an area at a volume rate.
///
/// volume_rate_l_per_ha   volume of mix per ground area, L/ha, 0 or more
/// area_ha                ground to be treated, ha, 0 or more
/// out_mix_l              receives the volume, L
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_mix_l), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_mix_l(
    volume_rate_l_per_ha: f64,
    area_ha: f64,
    out_mix_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_mix_l,
        error,
        mix(
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha),
            area = Area::from_hectares(area_ha)
        )
        .liters
    )
}

/// Ground that a volume of mix serves.
///
/// mix_l                  finished mix, L, 0 or more
/// volume_rate_l_per_ha   volume of mix per ground area, L/ha, above 0
/// out_area_ha            receives the ground, ha
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_area_ha), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_area_for_mix_ha(
    mix_l: f64,
    volume_rate_l_per_ha: f64,
    out_area_ha: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_area_ha,
        error,
        area_for_mix(
            mix = Volume::from_liters(mix_l),
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha)
        )
        .hectares
    )
}

/// Volume of a product for an area, at a dose by volume.
///
/// liquid_dose_l_per_ha   volume of product per ground area, L/ha, 0 or more
/// area_ha                ground to be treated, ha, 0 or more
/// out_amount_l           receives the volume of product, L
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_amount_l), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_liquid_amount_l(
    liquid_dose_l_per_ha: f64,
    area_ha: f64,
    out_amount_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_amount_l,
        error,
        liquid_amount(
            liquid_dose = LiquidDose::from_liters_per_hectare(liquid_dose_l_per_ha),
            area = Area::from_hectares(area_ha)
        )
        .liters
    )
}

/// Mass of a product for an area, at a dose by mass.
///
/// solid_dose_kg_per_ha   mass of product per ground area, kg/ha, 0 or more
/// area_ha                ground to be treated, ha, 0 or more
/// out_amount_kg          receives the mass of product, kg
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_amount_kg), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_solid_amount_kg(
    solid_dose_kg_per_ha: f64,
    area_ha: f64,
    out_amount_kg: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_amount_kg,
        error,
        solid_amount(
            solid_dose = SolidDose::from_kilograms_per_hectare(solid_dose_kg_per_ha),
            area = Area::from_hectares(area_ha)
        )
        .kilograms
    )
}

/// Volume of a product in a volume of mix, at a dose per volume of finished mix.
///
/// volume_fraction_ml_per_100_l   product per finished mix, mL/100 L, 0 or more
/// mix_l                          finished mix, the product inside, L, 0 or more
/// out_amount_l                   receives the volume of product, L
/// error                          may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_amount_l), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_liquid_amount_in_mix_l(
    volume_fraction_ml_per_100_l: f64,
    mix_l: f64,
    out_amount_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_amount_l,
        error,
        liquid_amount_in_mix(
            volume_fraction = VolumeFraction::from_milliliters_per_100_liters(volume_fraction_ml_per_100_l),
            mix = Volume::from_liters(mix_l)
        )
        .liters
    )
}

/// Mass of a product in a volume of mix, at a dose per volume of finished mix.
///
/// mass_concentration_g_per_100_l   product per finished mix, g/100 L, 0 or more
/// mix_l                            finished mix, the product inside, L, 0 or more
/// out_amount_kg                    receives the mass of product, kg
/// error                            may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_amount_kg), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_solid_amount_in_mix_kg(
    mass_concentration_g_per_100_l: f64,
    mix_l: f64,
    out_amount_kg: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_amount_kg,
        error,
        solid_amount_in_mix(
            mass_concentration = MassConcentration::from_grams_per_100_liters(mass_concentration_g_per_100_l),
            mix = Volume::from_liters(mix_l)
        )
        .kilograms
    )
}

/// Dose by volume per ground area that a dose per volume of mix comes to.
///
/// volume_fraction_ml_per_100_l   product per finished mix, mL/100 L, 0 or more
/// volume_rate_l_per_ha           volume of mix per ground area, L/ha, 0 or more
/// out_liquid_dose_l_per_ha       receives the dose, L/ha
/// error                          may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_liquid_dose_l_per_ha), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_liquid_dose_l_per_ha(
    volume_fraction_ml_per_100_l: f64,
    volume_rate_l_per_ha: f64,
    out_liquid_dose_l_per_ha: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_liquid_dose_l_per_ha,
        error,
        liquid_dose(
            volume_fraction = VolumeFraction::from_milliliters_per_100_liters(volume_fraction_ml_per_100_l),
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha)
        )
        .liters_per_hectare
    )
}

/// Dose by mass per ground area that a dose per volume of mix comes to.
///
/// mass_concentration_g_per_100_l   product per finished mix, g/100 L, 0 or more
/// volume_rate_l_per_ha             volume of mix per ground area, L/ha, 0 or more
/// out_solid_dose_kg_per_ha         receives the dose, kg/ha
/// error                            may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_solid_dose_kg_per_ha), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_solid_dose_kg_per_ha(
    mass_concentration_g_per_100_l: f64,
    volume_rate_l_per_ha: f64,
    out_solid_dose_kg_per_ha: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_solid_dose_kg_per_ha,
        error,
        solid_dose(
            mass_concentration = MassConcentration::from_grams_per_100_liters(mass_concentration_g_per_100_l),
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha)
        )
        .kilograms_per_hectare
    )
}

/// Volume of a product per volume of mix, at a dose by volume.
///
/// liquid_dose_l_per_ha               volume of product per ground area, L/ha, 0 or more
/// volume_rate_l_per_ha               volume of mix per ground area, L/ha, above 0
/// out_volume_fraction_ml_per_100_l   receives product per finished mix, mL/100 L
/// error                              may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_volume_fraction_ml_per_100_l), _NOT_FINITE, _NOT_POSITIVE,
/// _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_volume_fraction_ml_per_100_l(
    liquid_dose_l_per_ha: f64,
    volume_rate_l_per_ha: f64,
    out_volume_fraction_ml_per_100_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_volume_fraction_ml_per_100_l,
        error,
        volume_fraction(
            liquid_dose = LiquidDose::from_liters_per_hectare(liquid_dose_l_per_ha),
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha)
        )
        .milliliters_per_100_liters
    )
}

/// Mass of a product per volume of mix, at a dose by mass.
///
/// solid_dose_kg_per_ha                 mass of product per ground area, kg/ha, 0 or more
/// volume_rate_l_per_ha                 volume of mix per ground area, L/ha, above 0
/// out_mass_concentration_g_per_100_l   receives product per finished mix, g/100 L
/// error                                may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_mass_concentration_g_per_100_l), _NOT_FINITE, _NOT_POSITIVE,
/// _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_mass_concentration_g_per_100_l(
    solid_dose_kg_per_ha: f64,
    volume_rate_l_per_ha: f64,
    out_mass_concentration_g_per_100_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_mass_concentration_g_per_100_l,
        error,
        mass_concentration(
            solid_dose = SolidDose::from_kilograms_per_hectare(solid_dose_kg_per_ha),
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha)
        )
        .grams_per_100_liters
    )
}

/// Active substance per ground area in a dose by volume.
///
/// content_g_per_l           active substance per volume of product, g/L, 0 or more
/// liquid_dose_l_per_ha      volume of product per ground area, L/ha, 0 or more
/// out_substance_kg_per_ha   receives the mass of active substance per ground area, kg/ha
/// error                     may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_substance_kg_per_ha), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_substance_in_liquid_dose_kg_per_ha(
    content_g_per_l: f64,
    liquid_dose_l_per_ha: f64,
    out_substance_kg_per_ha: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_substance_kg_per_ha,
        error,
        substance_in_liquid_dose(
            content = Content::from_grams_per_liter(content_g_per_l),
            liquid_dose = LiquidDose::from_liters_per_hectare(liquid_dose_l_per_ha)
        )
        .kilograms_per_hectare
    )
}

/// Active substance per ground area in a dose by mass.
///
/// content_g_per_kg          active substance per mass of product, g/kg, 0 or more
/// solid_dose_kg_per_ha      mass of product per ground area, kg/ha, 0 or more
/// out_substance_kg_per_ha   receives the mass of active substance per ground area, kg/ha
/// error                     may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_substance_kg_per_ha), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_substance_in_solid_dose_kg_per_ha(
    content_g_per_kg: f64,
    solid_dose_kg_per_ha: f64,
    out_substance_kg_per_ha: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_substance_kg_per_ha,
        error,
        substance_in_solid_dose(
            content = MassFraction::from_grams_per_kilogram(content_g_per_kg),
            solid_dose = SolidDose::from_kilograms_per_hectare(solid_dose_kg_per_ha)
        )
        .kilograms_per_hectare
    )
}

/// Dose by volume of a product that brings so much active substance.
///
/// content_g_per_l           active substance per volume of product, g/L, above 0
/// substance_kg_per_ha       mass of active substance per ground area, kg/ha, 0 or more
/// out_liquid_dose_l_per_ha  receives the volume of product per ground area, L/ha
/// error                     may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_liquid_dose_l_per_ha), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_liquid_dose_of_substance_l_per_ha(
    content_g_per_l: f64,
    substance_kg_per_ha: f64,
    out_liquid_dose_l_per_ha: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_liquid_dose_l_per_ha,
        error,
        liquid_dose_of_substance(
            content = Content::from_grams_per_liter(content_g_per_l),
            substance = MassPerArea::from_kilograms_per_hectare(substance_kg_per_ha)
        )
        .liters_per_hectare
    )
}

/// Dose by mass of a product that brings so much active substance.
///
/// content_g_per_kg          active substance per mass of product, g/kg, above 0
/// substance_kg_per_ha       mass of active substance per ground area, kg/ha, 0 or more
/// out_solid_dose_kg_per_ha  receives the mass of product per ground area, kg/ha
/// error                     may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_solid_dose_kg_per_ha), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_solid_dose_of_substance_kg_per_ha(
    content_g_per_kg: f64,
    substance_kg_per_ha: f64,
    out_solid_dose_kg_per_ha: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_solid_dose_kg_per_ha,
        error,
        solid_dose_of_substance(
            content = MassFraction::from_grams_per_kilogram(content_g_per_kg),
            substance = MassPerArea::from_kilograms_per_hectare(substance_kg_per_ha)
        )
        .kilograms_per_hectare
    )
}

/// Mass of a volume of a liquid product.
///
/// density_kg_per_l   of the liquid, kg/L, above 0
/// volume_l           of the liquid, L, 0 or more
/// out_mass_kg        receives the mass, kg
/// error              may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_mass_kg), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_liquid_mass_kg(
    density_kg_per_l: f64,
    volume_l: f64,
    out_mass_kg: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_mass_kg,
        error,
        liquid_mass(
            density = Density::from_kilograms_per_liter(density_kg_per_l),
            volume = Volume::from_liters(volume_l)
        )
        .kilograms
    )
}

/// Volume of a mass of a liquid product.
///
/// mass_kg            of the liquid, kg, 0 or more
/// density_kg_per_l   of the liquid, kg/L, above 0
/// out_volume_l       receives the volume, L
/// error              may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_volume_l), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_liquid_volume_l(
    mass_kg: f64,
    density_kg_per_l: f64,
    out_volume_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_volume_l,
        error,
        liquid_volume(
            mass = Mass::from_kilograms(mass_kg),
            density = Density::from_kilograms_per_liter(density_kg_per_l)
        )
        .liters
    )
}

/// Volume rate from flow, speed and swath.
///
/// flow_l_per_min             of all open nozzles together, L/min, 0 or more
/// speed_km_per_h             over the ground, km/h, above 0
/// swath_m                    treated width per pass, m, above 0
/// out_volume_rate_l_per_ha   receives the volume rate, L/ha
/// error                      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_volume_rate_l_per_ha), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
/// _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_volume_rate_l_per_ha(
    flow_l_per_min: f64,
    speed_km_per_h: f64,
    swath_m: f64,
    out_volume_rate_l_per_ha: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_volume_rate_l_per_ha,
        error,
        volume_rate(
            flow = Flow::from_liters_per_minute(flow_l_per_min),
            speed = Speed::from_kilometers_per_hour(speed_km_per_h),
            swath = Length::from_meters(swath_m)
        )
        .liters_per_hectare
    )
}

/// Flow of all open nozzles that a volume rate takes.
///
/// volume_rate_l_per_ha   volume of mix per ground area, L/ha, 0 or more
/// speed_km_per_h         over the ground, km/h, 0 or more
/// swath_m                treated width per pass, m, 0 or more
/// out_flow_l_per_min     receives the flow, L/min
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_flow_l_per_min), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_required_flow_l_per_min(
    volume_rate_l_per_ha: f64,
    speed_km_per_h: f64,
    swath_m: f64,
    out_flow_l_per_min: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_flow_l_per_min,
        error,
        required_flow(
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha),
            speed = Speed::from_kilometers_per_hour(speed_km_per_h),
            swath = Length::from_meters(swath_m)
        )
        .liters_per_minute
    )
}

/// Speed at which a flow gives a volume rate.
///
/// flow_l_per_min         of all open nozzles together, L/min, 0 or more
/// volume_rate_l_per_ha   volume of mix per ground area, L/ha, above 0
/// swath_m                treated width per pass, m, above 0
/// out_speed_km_per_h     receives the speed over the ground, km/h
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_speed_km_per_h), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
/// _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_required_speed_km_per_h(
    flow_l_per_min: f64,
    volume_rate_l_per_ha: f64,
    swath_m: f64,
    out_speed_km_per_h: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_speed_km_per_h,
        error,
        required_speed(
            flow = Flow::from_liters_per_minute(flow_l_per_min),
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha),
            swath = Length::from_meters(swath_m)
        )
        .kilometers_per_hour
    )
}

/// Swath over which a flow gives a volume rate at a speed.
///
/// flow_l_per_min         of all open nozzles together, L/min, 0 or more
/// volume_rate_l_per_ha   volume of mix per ground area, L/ha, above 0
/// speed_km_per_h         over the ground, km/h, above 0
/// out_swath_m            receives the treated width per pass, m
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_swath_m), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_required_swath_m(
    flow_l_per_min: f64,
    volume_rate_l_per_ha: f64,
    speed_km_per_h: f64,
    out_swath_m: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_swath_m,
        error,
        required_swath(
            flow = Flow::from_liters_per_minute(flow_l_per_min),
            volume_rate = VolumeRate::from_liters_per_hectare(volume_rate_l_per_ha),
            speed = Speed::from_kilometers_per_hour(speed_km_per_h)
        )
        .meters
    )
}

/// Ground treated in a time; turning and filling are not in it.
///
/// speed_km_per_h           over the ground, km/h, 0 or more
/// swath_m                  treated width per pass, m, 0 or more
/// out_work_rate_ha_per_h   receives the work rate, ha/h
/// error                    may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_work_rate_ha_per_h), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_work_rate_ha_per_h(
    speed_km_per_h: f64,
    swath_m: f64,
    out_work_rate_ha_per_h: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_work_rate_ha_per_h,
        error,
        work_rate(speed = Speed::from_kilometers_per_hour(speed_km_per_h), swath = Length::from_meters(swath_m))
            .hectares_per_hour
    )
}

/// Time that the nozzles are open over an area; turning and filling are not in it.
///
/// area_ha              ground to be treated, ha, 0 or more
/// work_rate_ha_per_h   ground treated in a time, ha/h, above 0
/// out_time_s           receives the time, s
/// error                may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_time_s), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_spraying_time_s(
    area_ha: f64,
    work_rate_ha_per_h: f64,
    out_time_s: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_time_s,
        error,
        spraying_time(
            area = Area::from_hectares(area_ha),
            work_rate = WorkRate::from_hectares_per_hour(work_rate_ha_per_h)
        )
        .seconds
    )
}

/// Flow from a volume that was caught in a time.
///
/// volume_l             caught, L, 0 or more
/// time_s               for which it was caught, s, above 0
/// out_flow_l_per_min   receives the flow, L/min
/// error                may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_flow_l_per_min), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
/// _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_flow_l_per_min(
    volume_l: f64,
    time_s: f64,
    out_flow_l_per_min: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_flow_l_per_min,
        error,
        flow(volume = Volume::from_liters(volume_l), time = Time::from_seconds(time_s)).liters_per_minute
    )
}

/// Speed from a distance that was covered in a time.
///
/// distance_m           covered over the ground, m, 0 or more
/// time_s               that it took, s, above 0
/// out_speed_km_per_h   receives the speed, km/h
/// error                may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_speed_km_per_h), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
/// _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_speed_km_per_h(
    distance_m: f64,
    time_s: f64,
    out_speed_km_per_h: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_speed_km_per_h,
        error,
        speed(distance = Length::from_meters(distance_m), time = Time::from_seconds(time_s)).kilometers_per_hour
    )
}

/// Full loads, and the part load after them, of a volume of mix.
///
/// mix_l             finished mix, L, above 0
/// safe_fill_l       the most that the tank may be filled to, L, above 0
/// out_full_loads    receives how many loads are filled to the safe fill
/// out_part_load_l   receives the volume of the load after them, L; 0 where there is none
/// error             may be NULL
///
/// A volume that is a whole number of loads but for rounding has no part load. Marks of the tank and a least working volume are what
/// plans have.
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_full_loads, out_part_load_l), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
/// _TOO_MANY_LOADS, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_full_and_part_load(
    mix_l: f64,
    safe_fill_l: f64,
    out_full_loads: *mut u64,
    out_part_load_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let outs = (room("out_full_loads", out_full_loads)?, room("out_part_load_l", out_part_load_l)?);
        let mix = named("mix", Volume::from_liters(mix_l))?;
        let (full, part) = mixcalc::full_and_part_load(mix, named("safe_fill", Volume::from_liters(safe_fill_l))?)?;
        // SAFETY: the caller's promise.
        unsafe {
            outs.0.write(full);
            outs.1.write(part.liters());
        }
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// The most that a tank may be filled to: the lesser of nominal and of what the headspace leaves of the brim; of nominal where the brim
/// is not known; then down to a mark.
///
/// nominal_l           the filling that the maker declares, L; 0 where it is not known
/// brim_l              what the tank holds when full to the rim, L; 0 where it is not known; one of the two must be
/// headspace_percent   part to be left empty, %, from 0 to under 100; a plan takes 10 for carried sprayers and 5 for machines where
///                     its job does not say
/// graduation_l        the step of the tank's own marks, L; 0 for a tank without
/// out_safe_fill_l     receives the safe fill, L
/// error               may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_safe_fill_l), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _MISSING_INPUT (neither
/// nominal nor brim), _BELOW_FIRST_MARK, _UNCOUNTABLE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_safe_fill_l(
    nominal_l: f64,
    brim_l: f64,
    headspace_percent: f64,
    graduation_l: f64,
    out_safe_fill_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_safe_fill_l", out_safe_fill_l)?;
        // Zero says that it is not known; every other number is the caller's statement.
        let known = |name, bare: f64| {
            named(name, Volume::from_liters(bare)).map(|volume| (volume != Volume::ZERO).then_some(volume))
        };
        let tank = Tank::new(known("nominal", nominal_l)?, known("brim", brim_l)?)?;
        let tank = tank.with_headspace(named("headspace", Ratio::from_percent(headspace_percent))?)?;
        let tank = match known("graduation", graduation_l)? {
            Some(graduation) => tank.with_graduation(graduation)?,
            None => tank,
        };
        // SAFETY: the caller's promise.
        unsafe { out.write(tank.safe_fill()?.liters()) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// The body of both counts of graduations.
unsafe fn graduations<Q: Into<Amount>>(
    out_graduations: *mut u64,
    error: *mut ErrorDetails,
    from: fn(f64) -> Result<Q, mixcalc::Error>,
    [amount, graduation, maximum]: [f64; 3],
) -> u32 {
    let body = || {
        let out = room("out_graduations", out_graduations)?;
        let amount = named("amount", from(amount))?.into();
        let graduation = named("graduation", from(graduation))?.into();
        let counted = mixcalc::graduations(amount, graduation, named("maximum", from(maximum))?.into())?;
        // SAFETY: the caller's promise.
        unsafe { out.write(counted) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// Whole graduations nearest to a volume, a half going down, and never over the maximum.
///
/// amount_l          what the dose asks for, L, above 0
/// graduation_l      the smallest step that the measure shows, L, above 0
/// maximum_l         the most that the label allows, L; the amount itself where it allows no more
/// out_graduations   receives how many graduations to measure
/// error             may be NULL
///
/// An amount below one graduation cannot be measured and is out of range, as is one over the maximum.
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_graduations), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _UNCOUNTABLE,
/// _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_graduations_of_volume(
    amount_l: f64,
    graduation_l: f64,
    maximum_l: f64,
    out_graduations: *mut u64,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { graduations(out_graduations, error, Volume::from_liters, [amount_l, graduation_l, maximum_l]) }
}

/// Whole graduations nearest to a mass, a half going down, and never over the maximum.
///
/// amount_kg         what the dose asks for, kg, above 0
/// graduation_kg     the smallest step that the scale shows, kg, above 0
/// maximum_kg        the most that the label allows, kg; the amount itself where it allows no more
/// out_graduations   receives how many graduations to measure
/// error             may be NULL
///
/// What is refused, and the result, are those of mixcalc_graduations_of_volume().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_graduations_of_mass(
    amount_kg: f64,
    graduation_kg: f64,
    maximum_kg: f64,
    out_graduations: *mut u64,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { graduations(out_graduations, error, Mass::from_kilograms, [amount_kg, graduation_kg, maximum_kg]) }
}
