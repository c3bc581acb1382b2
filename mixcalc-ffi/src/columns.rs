//! The functions over columns. Made from the list of calculations of the core: change it there, then run
//! `UPDATE_COLUMNS=1 cargo test -p mixcalc-tests --test columns` and `make header`.
#![allow(clippy::too_many_arguments, reason = "C has no other way to name what goes in and out")]

use crate::column::{ColumnView, run};
use crate::error::ErrorDetails;

/// The loads of one liquid product at a volume rate: mix, product, full loads and the part load after them, and the product in each. Nothing is measured here, and no limit of a label is known.
///
/// area_ha                                      ground to be treated, ha, above 0
/// volume_rate_l_per_ha                         volume of mix per ground area, the product inside, L/ha, above 0
/// dose_l_per_ha                                volume of product per ground area, L/ha, above 0 and below the volume rate
/// safe_fill_l                                  the most that the tank may be filled to, L, above 0
/// out_mix_l                                    receives finished mix for the area, L
/// out_product_l                                receives product for the area, L
/// out_full_loads                               receives how many loads are filled to the safe fill
/// out_part_load_l                              receives the part load after them, L; 0 where there is none
/// out_product_in_full_load_l                   receives product in a load at the safe fill, L
/// out_product_in_part_load_l                   receives product in the part load, L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_plan(
    area_ha: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    dose_l_per_ha: ColumnView,
    safe_fill_l: ColumnView,
    rows: usize,
    threads: usize,
    out_mix_l: *mut f64,
    out_product_l: *mut f64,
    out_full_loads: *mut f64,
    out_part_load_l: *mut f64,
    out_product_in_full_load_l: *mut f64,
    out_product_in_part_load_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("plan", &[area_ha, volume_rate_l_per_ha, dose_l_per_ha, safe_fill_l], rows, threads, &[("out_mix_l", out_mix_l), ("out_product_l", out_product_l), ("out_full_loads", out_full_loads), ("out_part_load_l", out_part_load_l), ("out_product_in_full_load_l", out_product_in_full_load_l), ("out_product_in_part_load_l", out_product_in_part_load_l)], (out_status, out_refused), error) }
}

/// Volume of mix for an area at a volume rate.
///
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, 0 or more
/// area_ha                                      ground to be treated, ha, 0 or more
/// out_mix_l                                    receives finished mix, L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_mix(
    volume_rate_l_per_ha: ColumnView,
    area_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_mix_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("mix", &[volume_rate_l_per_ha, area_ha], rows, threads, &[("out_mix_l", out_mix_l)], (out_status, out_refused), error) }
}

/// Ground that a volume of mix serves.
///
/// mix_l                                        finished mix, L, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
/// out_area_ha                                  receives ground that it serves, ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_area_for_mix(
    mix_l: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_area_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("area_for_mix", &[mix_l, volume_rate_l_per_ha], rows, threads, &[("out_area_ha", out_area_ha)], (out_status, out_refused), error) }
}

/// Full loads, and the volume of the part load after them.
///
/// mix_l                                        finished mix, L, above 0
/// safe_fill_l                                  the most that the tank may be filled to, L, above 0
/// out_full_loads                               receives how many loads are filled to the safe fill
/// out_part_load_l                              receives the part load after them, L; 0 where there is none
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_full_and_part_load(
    mix_l: ColumnView,
    safe_fill_l: ColumnView,
    rows: usize,
    threads: usize,
    out_full_loads: *mut f64,
    out_part_load_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("full_and_part_load", &[mix_l, safe_fill_l], rows, threads, &[("out_full_loads", out_full_loads), ("out_part_load_l", out_part_load_l)], (out_status, out_refused), error) }
}

/// The most that a tank may be filled to, by what is known of it: the lesser of the nominal volume and the brim capacity without the headspace, down to a mark of the tank.
///
/// nominal_l                                    nominal volume, L; 0 where it is not known
/// brim_l                                       brim capacity, L; 0 where it is not known
/// headspace_percent                            part of the brim capacity left empty on purpose, %, 0 or more and below 100
/// graduation_l                                 the step of the tank's own marks, L; 0 for a tank without
/// out_safe_fill_l                              receives the safe fill, L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_safe_fill(
    nominal_l: ColumnView,
    brim_l: ColumnView,
    headspace_percent: ColumnView,
    graduation_l: ColumnView,
    rows: usize,
    threads: usize,
    out_safe_fill_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("safe_fill", &[nominal_l, brim_l, headspace_percent, graduation_l], rows, threads, &[("out_safe_fill_l", out_safe_fill_l)], (out_status, out_refused), error) }
}

/// Whole graduations nearest to a volume, a half going down, and never over the maximum.
///
/// amount_l                                     what the dose asks for, L, at least one graduation and at most the maximum
/// graduation_l                                 the smallest step that the measure shows, L, above 0
/// maximum_l                                    the most that the label allows, L; the amount itself where it allows no more
/// out_graduations                              receives how many graduations to measure
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_graduations_of_volume(
    amount_l: ColumnView,
    graduation_l: ColumnView,
    maximum_l: ColumnView,
    rows: usize,
    threads: usize,
    out_graduations: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("graduations_of_volume", &[amount_l, graduation_l, maximum_l], rows, threads, &[("out_graduations", out_graduations)], (out_status, out_refused), error) }
}

/// Whole graduations nearest to a mass, a half going down, and never over the maximum.
///
/// amount_kg                                    what the dose asks for, kg, at least one graduation and at most the maximum
/// graduation_kg                                the smallest step that the measure shows, kg, above 0
/// maximum_kg                                   the most that the label allows, kg; the amount itself where it allows no more
/// out_graduations                              receives how many graduations to measure
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_graduations_of_mass(
    amount_kg: ColumnView,
    graduation_kg: ColumnView,
    maximum_kg: ColumnView,
    rows: usize,
    threads: usize,
    out_graduations: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("graduations_of_mass", &[amount_kg, graduation_kg, maximum_kg], rows, threads, &[("out_graduations", out_graduations)], (out_status, out_refused), error) }
}

/// Volume of a product for an area, at a dose by volume.
///
/// liquid_dose_l_per_ha                         volume of product per ground area, L/ha, 0 or more
/// area_ha                                      ground to be treated, ha, 0 or more
/// out_amount_l                                 receives product, L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_liquid_amount(
    liquid_dose_l_per_ha: ColumnView,
    area_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_amount_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("liquid_amount", &[liquid_dose_l_per_ha, area_ha], rows, threads, &[("out_amount_l", out_amount_l)], (out_status, out_refused), error) }
}

/// Mass of a product for an area, at a dose by mass.
///
/// solid_dose_kg_per_ha                         mass of product per ground area, kg/ha, 0 or more
/// area_ha                                      ground to be treated, ha, 0 or more
/// out_amount_kg                                receives product, kg
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_solid_amount(
    solid_dose_kg_per_ha: ColumnView,
    area_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_amount_kg: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("solid_amount", &[solid_dose_kg_per_ha, area_ha], rows, threads, &[("out_amount_kg", out_amount_kg)], (out_status, out_refused), error) }
}

/// Volume of a product in a volume of mix, at a dose per volume of finished mix.
///
/// volume_fraction_ml_per_100_l                 product per finished mix, mL/100 L, 0 or more
/// mix_l                                        finished mix, the product inside, L, 0 or more
/// out_amount_l                                 receives product, L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_liquid_amount_in_mix(
    volume_fraction_ml_per_100_l: ColumnView,
    mix_l: ColumnView,
    rows: usize,
    threads: usize,
    out_amount_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("liquid_amount_in_mix", &[volume_fraction_ml_per_100_l, mix_l], rows, threads, &[("out_amount_l", out_amount_l)], (out_status, out_refused), error) }
}

/// Mass of a product in a volume of mix, at a dose per volume of finished mix.
///
/// mass_concentration_g_per_100_l               product per finished mix, g/100 L, 0 or more
/// mix_l                                        finished mix, the product inside, L, 0 or more
/// out_amount_kg                                receives product, kg
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_solid_amount_in_mix(
    mass_concentration_g_per_100_l: ColumnView,
    mix_l: ColumnView,
    rows: usize,
    threads: usize,
    out_amount_kg: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("solid_amount_in_mix", &[mass_concentration_g_per_100_l, mix_l], rows, threads, &[("out_amount_kg", out_amount_kg)], (out_status, out_refused), error) }
}

/// Dose by volume per ground area that a dose per volume of mix comes to.
///
/// volume_fraction_ml_per_100_l                 product per finished mix, mL/100 L, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, 0 or more
/// out_liquid_dose_l_per_ha                     receives volume of product per ground area, L/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_liquid_dose(
    volume_fraction_ml_per_100_l: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_liquid_dose_l_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("liquid_dose", &[volume_fraction_ml_per_100_l, volume_rate_l_per_ha], rows, threads, &[("out_liquid_dose_l_per_ha", out_liquid_dose_l_per_ha)], (out_status, out_refused), error) }
}

/// Dose by mass per ground area that a dose per volume of mix comes to.
///
/// mass_concentration_g_per_100_l               product per finished mix, g/100 L, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, 0 or more
/// out_solid_dose_kg_per_ha                     receives mass of product per ground area, kg/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_solid_dose(
    mass_concentration_g_per_100_l: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_solid_dose_kg_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("solid_dose", &[mass_concentration_g_per_100_l, volume_rate_l_per_ha], rows, threads, &[("out_solid_dose_kg_per_ha", out_solid_dose_kg_per_ha)], (out_status, out_refused), error) }
}

/// Dose per volume of finished mix that a dose by volume per ground area comes to.
///
/// liquid_dose_l_per_ha                         volume of product per ground area, L/ha, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
/// out_volume_fraction_ml_per_100_l             receives product per finished mix, mL/100 L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_volume_fraction(
    liquid_dose_l_per_ha: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_volume_fraction_ml_per_100_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("volume_fraction", &[liquid_dose_l_per_ha, volume_rate_l_per_ha], rows, threads, &[("out_volume_fraction_ml_per_100_l", out_volume_fraction_ml_per_100_l)], (out_status, out_refused), error) }
}

/// Dose per volume of finished mix that a dose by mass per ground area comes to.
///
/// solid_dose_kg_per_ha                         mass of product per ground area, kg/ha, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
/// out_mass_concentration_g_per_100_l           receives product per finished mix, g/100 L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_mass_concentration(
    solid_dose_kg_per_ha: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_mass_concentration_g_per_100_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("mass_concentration", &[solid_dose_kg_per_ha, volume_rate_l_per_ha], rows, threads, &[("out_mass_concentration_g_per_100_l", out_mass_concentration_g_per_100_l)], (out_status, out_refused), error) }
}

/// Active substance per ground area in a dose by volume.
///
/// content_g_per_l                              active substance in the product, g/L, 0 or more
/// liquid_dose_l_per_ha                         volume of product per ground area, L/ha, 0 or more
/// out_substance_kg_per_ha                      receives active substance per ground area, kg/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_substance_in_liquid_dose(
    content_g_per_l: ColumnView,
    liquid_dose_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_substance_kg_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("substance_in_liquid_dose", &[content_g_per_l, liquid_dose_l_per_ha], rows, threads, &[("out_substance_kg_per_ha", out_substance_kg_per_ha)], (out_status, out_refused), error) }
}

/// Active substance per ground area in a dose by mass.
///
/// content_g_per_kg                             active substance in the product, g/kg, 0 or more
/// solid_dose_kg_per_ha                         mass of product per ground area, kg/ha, 0 or more
/// out_substance_kg_per_ha                      receives active substance per ground area, kg/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_substance_in_solid_dose(
    content_g_per_kg: ColumnView,
    solid_dose_kg_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_substance_kg_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("substance_in_solid_dose", &[content_g_per_kg, solid_dose_kg_per_ha], rows, threads, &[("out_substance_kg_per_ha", out_substance_kg_per_ha)], (out_status, out_refused), error) }
}

/// Dose by volume that gives an amount of active substance per ground area.
///
/// content_g_per_l                              active substance in the product, g/L, above 0
/// substance_kg_per_ha                          active substance per ground area, kg/ha, 0 or more
/// out_liquid_dose_l_per_ha                     receives volume of product per ground area, L/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_liquid_dose_of_substance(
    content_g_per_l: ColumnView,
    substance_kg_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_liquid_dose_l_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("liquid_dose_of_substance", &[content_g_per_l, substance_kg_per_ha], rows, threads, &[("out_liquid_dose_l_per_ha", out_liquid_dose_l_per_ha)], (out_status, out_refused), error) }
}

/// Dose by mass that gives an amount of active substance per ground area.
///
/// content_g_per_kg                             active substance in the product, g/kg, above 0
/// substance_kg_per_ha                          active substance per ground area, kg/ha, 0 or more
/// out_solid_dose_kg_per_ha                     receives mass of product per ground area, kg/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_solid_dose_of_substance(
    content_g_per_kg: ColumnView,
    substance_kg_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_solid_dose_kg_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("solid_dose_of_substance", &[content_g_per_kg, substance_kg_per_ha], rows, threads, &[("out_solid_dose_kg_per_ha", out_solid_dose_kg_per_ha)], (out_status, out_refused), error) }
}

/// Mass of a volume of a liquid.
///
/// density_kg_per_l                             density of the liquid, kg/L, above 0
/// volume_l                                     its volume, L, 0 or more
/// out_mass_kg                                  receives its mass, kg
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_liquid_mass(
    density_kg_per_l: ColumnView,
    volume_l: ColumnView,
    rows: usize,
    threads: usize,
    out_mass_kg: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("liquid_mass", &[density_kg_per_l, volume_l], rows, threads, &[("out_mass_kg", out_mass_kg)], (out_status, out_refused), error) }
}

/// Volume of a mass of a liquid.
///
/// mass_kg                                      mass of the liquid, kg, 0 or more
/// density_kg_per_l                             its density, kg/L, above 0
/// out_volume_l                                 receives its volume, L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_liquid_volume(
    mass_kg: ColumnView,
    density_kg_per_l: ColumnView,
    rows: usize,
    threads: usize,
    out_volume_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("liquid_volume", &[mass_kg, density_kg_per_l], rows, threads, &[("out_volume_l", out_volume_l)], (out_status, out_refused), error) }
}

/// Volume rate at a flow, a speed over the ground and a swath.
///
/// flow_l_per_min                               flow of all open nozzles together, L/min, 0 or more
/// speed_km_per_h                               speed over the ground, km/h, above 0
/// swath_m                                      treated width per pass, m, above 0
/// out_volume_rate_l_per_ha                     receives volume of mix per ground area, L/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_volume_rate(
    flow_l_per_min: ColumnView,
    speed_km_per_h: ColumnView,
    swath_m: ColumnView,
    rows: usize,
    threads: usize,
    out_volume_rate_l_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("volume_rate", &[flow_l_per_min, speed_km_per_h, swath_m], rows, threads, &[("out_volume_rate_l_per_ha", out_volume_rate_l_per_ha)], (out_status, out_refused), error) }
}

/// Flow of all open nozzles that a volume rate takes.
///
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, 0 or more
/// speed_km_per_h                               speed over the ground, km/h, 0 or more
/// swath_m                                      treated width per pass, m, 0 or more
/// out_flow_l_per_min                           receives flow of all open nozzles together, L/min
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_required_flow(
    volume_rate_l_per_ha: ColumnView,
    speed_km_per_h: ColumnView,
    swath_m: ColumnView,
    rows: usize,
    threads: usize,
    out_flow_l_per_min: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("required_flow", &[volume_rate_l_per_ha, speed_km_per_h, swath_m], rows, threads, &[("out_flow_l_per_min", out_flow_l_per_min)], (out_status, out_refused), error) }
}

/// Speed over the ground at which a flow gives a volume rate.
///
/// flow_l_per_min                               flow of all open nozzles together, L/min, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
/// swath_m                                      treated width per pass, m, above 0
/// out_speed_km_per_h                           receives speed over the ground, km/h
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_required_speed(
    flow_l_per_min: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    swath_m: ColumnView,
    rows: usize,
    threads: usize,
    out_speed_km_per_h: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("required_speed", &[flow_l_per_min, volume_rate_l_per_ha, swath_m], rows, threads, &[("out_speed_km_per_h", out_speed_km_per_h)], (out_status, out_refused), error) }
}

/// Swath over which a flow gives a volume rate at a speed.
///
/// flow_l_per_min                               flow of all open nozzles together, L/min, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, L/ha, above 0
/// speed_km_per_h                               speed over the ground, km/h, above 0
/// out_swath_m                                  receives treated width per pass, m
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_required_swath(
    flow_l_per_min: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    speed_km_per_h: ColumnView,
    rows: usize,
    threads: usize,
    out_swath_m: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("required_swath", &[flow_l_per_min, volume_rate_l_per_ha, speed_km_per_h], rows, threads, &[("out_swath_m", out_swath_m)], (out_status, out_refused), error) }
}

/// Ground treated in a time. Turning and filling are not in it.
///
/// speed_km_per_h                               speed over the ground, km/h, 0 or more
/// swath_m                                      treated width per pass, m, 0 or more
/// out_work_rate_ha_per_h                       receives ground treated in a time, ha/h
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_work_rate(
    speed_km_per_h: ColumnView,
    swath_m: ColumnView,
    rows: usize,
    threads: usize,
    out_work_rate_ha_per_h: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("work_rate", &[speed_km_per_h, swath_m], rows, threads, &[("out_work_rate_ha_per_h", out_work_rate_ha_per_h)], (out_status, out_refused), error) }
}

/// Time that the nozzles are open over an area. Turning and filling are not in it.
///
/// area_ha                                      ground to be treated, ha, 0 or more
/// work_rate_ha_per_h                           ground treated in a time, ha/h, above 0
/// out_time_s                                   receives time that the nozzles are open, s
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_spraying_time(
    area_ha: ColumnView,
    work_rate_ha_per_h: ColumnView,
    rows: usize,
    threads: usize,
    out_time_s: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("spraying_time", &[area_ha, work_rate_ha_per_h], rows, threads, &[("out_time_s", out_time_s)], (out_status, out_refused), error) }
}

/// Flow from a volume that was caught in a time.
///
/// volume_l                                     volume that was caught, L, 0 or more
/// time_s                                       time for which it was caught, s, above 0
/// out_flow_l_per_min                           receives flow, L/min
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_flow(
    volume_l: ColumnView,
    time_s: ColumnView,
    rows: usize,
    threads: usize,
    out_flow_l_per_min: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("flow", &[volume_l, time_s], rows, threads, &[("out_flow_l_per_min", out_flow_l_per_min)], (out_status, out_refused), error) }
}

/// Speed from a distance that was covered in a time.
///
/// distance_m                                   distance over the ground, m, 0 or more
/// time_s                                       time that it took, s, above 0
/// out_speed_km_per_h                           receives speed over the ground, km/h
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_speed(
    distance_m: ColumnView,
    time_s: ColumnView,
    rows: usize,
    threads: usize,
    out_speed_km_per_h: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("speed", &[distance_m, time_s], rows, threads, &[("out_speed_km_per_h", out_speed_km_per_h)], (out_status, out_refused), error) }
}

/// Length of a course that a swath treats an area on.
///
/// area_ha                                      ground of the course, ha, 0 or more
/// swath_m                                      treated width per pass, m, above 0
/// out_course_length_m                          receives length of the course, m
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_course_length(
    area_ha: ColumnView,
    swath_m: ColumnView,
    rows: usize,
    threads: usize,
    out_course_length_m: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("course_length", &[area_ha, swath_m], rows, threads, &[("out_course_length_m", out_course_length_m)], (out_status, out_refused), error) }
}

/// One point of an as-applied log: ground that the swath treats, mix that went on it, mix that the target asks for on it, and the applied rate as a part of the target.
///
/// distance_m                                   travelled since the point before, m, 0 or more
/// swath_m                                      width of the open sections, m, 0 or more; 0 where the boom is closed
/// overlap_m                                    what of the swath lies on ground treated before, where such ground is counted once, m, at most the swath; 0 where it is counted each time
/// applied_l_per_ha                             volume rate over the swath, as logged, L/ha, 0 or more
/// target_l_per_ha                              volume rate that was asked for, L/ha, above 0
/// out_area_ha                                  receives ground that the swath treats, without the overlap, ha
/// out_mix_l                                    receives mix that went on it, L
/// out_target_mix_l                             receives mix that the target asks for on it, L
/// out_to_target                                receives the applied rate as a part of the target
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_applied_point(
    distance_m: ColumnView,
    swath_m: ColumnView,
    overlap_m: ColumnView,
    applied_l_per_ha: ColumnView,
    target_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_area_ha: *mut f64,
    out_mix_l: *mut f64,
    out_target_mix_l: *mut f64,
    out_to_target: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("applied_point", &[distance_m, swath_m, overlap_m, applied_l_per_ha, target_l_per_ha], rows, threads, &[("out_area_ha", out_area_ha), ("out_mix_l", out_mix_l), ("out_target_mix_l", out_target_mix_l), ("out_to_target", out_to_target)], (out_status, out_refused), error) }
}

/// Density of pure water at a temperature from 0 to 40 °C.
///
/// temperature_c                                temperature of the water, °C, from 0 to 40
/// out_density_kg_per_l                         receives its density, kg/L
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_water_density(
    temperature_c: ColumnView,
    rows: usize,
    threads: usize,
    out_density_kg_per_l: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("water_density", &[temperature_c], rows, threads, &[("out_density_kg_per_l", out_density_kg_per_l)], (out_status, out_refused), error) }
}

/// Flow of a nozzle at a pressure, by the square root of the pressure, from its flow at one pressure.
///
/// rated_flow_l_per_min                         flow of the nozzle at the rated pressure, L/min, above 0
/// rated_pressure_kpa                           pressure at which it has that flow, kPa, above 0
/// pressure_kpa                                 pressure that is asked about, kPa, above 0
/// out_flow_l_per_min                           receives flow at that pressure, L/min
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_flow_at_pressure(
    rated_flow_l_per_min: ColumnView,
    rated_pressure_kpa: ColumnView,
    pressure_kpa: ColumnView,
    rows: usize,
    threads: usize,
    out_flow_l_per_min: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("flow_at_pressure", &[rated_flow_l_per_min, rated_pressure_kpa, pressure_kpa], rows, threads, &[("out_flow_l_per_min", out_flow_l_per_min)], (out_status, out_refused), error) }
}

/// Pressure at which a nozzle has a flow, by the square root of the pressure, from its flow at one pressure.
///
/// rated_flow_l_per_min                         flow of the nozzle at the rated pressure, L/min, above 0
/// rated_pressure_kpa                           pressure at which it has that flow, kPa, above 0
/// flow_l_per_min                               flow that is asked for, L/min, above 0
/// out_pressure_kpa                             receives pressure that gives it, kPa
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_required_pressure(
    rated_flow_l_per_min: ColumnView,
    rated_pressure_kpa: ColumnView,
    flow_l_per_min: ColumnView,
    rows: usize,
    threads: usize,
    out_pressure_kpa: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("required_pressure", &[rated_flow_l_per_min, rated_pressure_kpa, flow_l_per_min], rows, threads, &[("out_pressure_kpa", out_pressure_kpa)], (out_status, out_refused), error) }
}

/// Dose by volume that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.
///
/// amount_l                                     product in the mix, L, above 0
/// amount_standard_uncertainty_l                its standard uncertainty, L, 0 or more
/// mix_l                                        finished mix, L, above 0
/// mix_standard_uncertainty_l                   its standard uncertainty, L, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, as calibrated, L/ha, above 0
/// volume_rate_standard_uncertainty_l_per_ha    its standard uncertainty, L/ha, 0 or more
/// out_liquid_dose_l_per_ha                     receives volume of product per ground area, L/ha
/// out_liquid_dose_standard_uncertainty_l_per_ha receives its standard uncertainty, L/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_delivered_liquid_dose(
    amount_l: ColumnView,
    amount_standard_uncertainty_l: ColumnView,
    mix_l: ColumnView,
    mix_standard_uncertainty_l: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    volume_rate_standard_uncertainty_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_liquid_dose_l_per_ha: *mut f64,
    out_liquid_dose_standard_uncertainty_l_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("delivered_liquid_dose", &[amount_l, amount_standard_uncertainty_l, mix_l, mix_standard_uncertainty_l, volume_rate_l_per_ha, volume_rate_standard_uncertainty_l_per_ha], rows, threads, &[("out_liquid_dose_l_per_ha", out_liquid_dose_l_per_ha), ("out_liquid_dose_standard_uncertainty_l_per_ha", out_liquid_dose_standard_uncertainty_l_per_ha)], (out_status, out_refused), error) }
}

/// Dose by mass that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.
///
/// amount_kg                                    product in the mix, kg, above 0
/// amount_standard_uncertainty_kg               its standard uncertainty, kg, 0 or more
/// mix_l                                        finished mix, L, above 0
/// mix_standard_uncertainty_l                   its standard uncertainty, L, 0 or more
/// volume_rate_l_per_ha                         volume of mix per ground area, as calibrated, L/ha, above 0
/// volume_rate_standard_uncertainty_l_per_ha    its standard uncertainty, L/ha, 0 or more
/// out_solid_dose_kg_per_ha                     receives mass of product per ground area, kg/ha
/// out_solid_dose_standard_uncertainty_kg_per_ha receives its standard uncertainty, kg/ha
///
/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,
/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.
#[rustfmt::skip]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_columns_delivered_solid_dose(
    amount_kg: ColumnView,
    amount_standard_uncertainty_kg: ColumnView,
    mix_l: ColumnView,
    mix_standard_uncertainty_l: ColumnView,
    volume_rate_l_per_ha: ColumnView,
    volume_rate_standard_uncertainty_l_per_ha: ColumnView,
    rows: usize,
    threads: usize,
    out_solid_dose_kg_per_ha: *mut f64,
    out_solid_dose_standard_uncertainty_kg_per_ha: *mut f64,
    out_status: *mut u16,
    out_refused: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { run("delivered_solid_dose", &[amount_kg, amount_standard_uncertainty_kg, mix_l, mix_standard_uncertainty_l, volume_rate_l_per_ha, volume_rate_standard_uncertainty_l_per_ha], rows, threads, &[("out_solid_dose_kg_per_ha", out_solid_dose_kg_per_ha), ("out_solid_dose_standard_uncertainty_kg_per_ha", out_solid_dose_standard_uncertainty_kg_per_ha)], (out_status, out_refused), error) }
}
