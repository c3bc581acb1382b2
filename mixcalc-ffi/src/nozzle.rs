//! Nozzles: flow against pressure, standard sizes, fans.

use std::ffi::{CString, c_char};
use std::mem::size_of;
use std::ptr::null;
use std::sync::OnceLock;

use mixcalc::{Density, FanAngle, Flow, Length, Nozzle, NozzleSize, Pressure, RatedFlow, Ratio};

use crate::border::answer;
use crate::calibration::answer_of;
use crate::choice;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::handle::{free, list, read, room};
use crate::sized::{fill, first_release_ends_with};
use crate::sum::named;
use crate::text::{lent, word};
use crate::uncertain::{UncertainHandle, answer_uncertain, claimed, percent};

/// A nozzle: its flow of water at a reference pressure, and how the flow goes with pressure. Made by mixcalc_nozzle_new() and the functions beside it, given
/// back with mixcalc_nozzle_free(). It never changes: what is stated of it makes another one.
#[derive(Debug)]
pub struct NozzleHandle(Nozzle);

/// What mixcalc_rated_flow() fills: a flow of water at a pressure, as a standard or a custom states it.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct RatedFlowView {
    /// sizeof(mixcalc_rated) of the caller.
    pub struct_size: usize,
    /// The flow, L/min.
    pub flow_l_per_min: f64,
    /// The pressure at which it is stated, kPa.
    pub pressure_kpa: f64,
    /// Where it stands; good for good.
    pub source: *const c_char,
    /// MIXCALC_CONFIDENCE_CERTAIN or _PROBABLE.
    pub confidence: u32,
    /// Always 0.
    pub reserved: u32,
}

first_release_ends_with! { RatedFlowView.confidence; }

/// The texts of standard sizes that are lent for good: names and sources.
fn lasting(text: &str) -> *const c_char {
    static TEXTS: OnceLock<Vec<CString>> = OnceLock::new();
    let texts = TEXTS.get_or_init(|| {
        let of = |size: &NozzleSize| [size.name(), size.nominal().source(), size.by_custom().source()].map(lent);
        NozzleSize::all().iter().flat_map(of).collect()
    });
    texts.iter().find(|known| known.as_bytes() == text.as_bytes()).map_or(null(), |known| known.as_ptr())
}

/// The flow that the caller's size stands for by the caller's definition.
///
/// `size` is NULL or ends in a zero byte.
unsafe fn rated(size: *const c_char, definition: u32) -> Result<RatedFlow, Box<Failure>> {
    // SAFETY: the caller's promise.
    let size = named("size", NozzleSize::read(&unsafe { word("size", size) }?))?;
    match definition {
        choice::MIXCALC_SIZE_NOMINAL => Ok(size.nominal()),
        choice::MIXCALC_SIZE_BY_CUSTOM => Ok(size.by_custom()),
        other => Err(Failure::choice("definition", other)),
    }
}

/// The flow that a standard nozzle size stands for.
///
/// size         its name, such as "015"; ends in a zero byte
/// definition   MIXCALC_SIZE_NOMINAL or MIXCALC_SIZE_BY_CUSTOM: one number means two flows, 1.3 % apart; say which one a table was made from
/// out_rated    filled; start it with MIXCALC_RATED_INIT
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (size, out_rated), _UNKNOWN_CHOICE (size), _CHOICE (definition), _STRUCT_SIZE (out_rated, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_rated_flow(
    size: *const c_char,
    definition: u32,
    out_rated: *mut RatedFlowView,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        unsafe {
            fill("out_rated", out_rated, || {
                let rated = rated(size, definition)?;
                Ok(RatedFlowView {
                    struct_size: size_of::<RatedFlowView>(),
                    flow_l_per_min: rated.flow().liters_per_minute(),
                    pressure_kpa: rated.pressure().kilopascals(),
                    source: lasting(rated.source()),
                    confidence: choice::confidence(rated.confidence()),
                    reserved: 0,
                })
            })
        }
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// The standard sizes that give a flow of water at a pressure between two, by the nominal flows of ISO 10625; smallest first.
///
/// flow_l_per_min      the flow, L/min, above 0
/// lowest_kpa          the lowest pressure, kPa, above 0
/// highest_kpa         the highest, kPa, above 0
/// out_names           receives up to room names, good for good
/// out_pressures_kpa   receives for each the pressure that it takes, kPa
/// room_for            how many fit into both; there are no more than MIXCALC_NOZZLE_SIZES
/// out_count           receives how many there are, also where that is more than fit
/// error               may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_names and out_pressures_kpa unless room_for is 0, out_count), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE,
/// _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_required_sizes(
    flow_l_per_min: f64,
    lowest_kpa: f64,
    highest_kpa: f64,
    out_names: *mut *const c_char,
    out_pressures_kpa: *mut f64,
    room_for: usize,
    out_count: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out_count = room("out_count", out_count)?;
        if room_for > 0 {
            room("out_names", out_names)?;
            room("out_pressures_kpa", out_pressures_kpa)?;
        }
        let flow = named("flow", Flow::from_liters_per_minute(flow_l_per_min))?;
        let lowest = named("lowest", Pressure::from_kilopascals(lowest_kpa))?;
        let highest = named("highest", Pressure::from_kilopascals(highest_kpa))?;
        let sizes = mixcalc::required_sizes(flow, lowest, highest)?;
        // SAFETY: the caller's promise: there is room for so many.
        unsafe {
            for (i, (size, pressure)) in sizes.iter().take(room_for).enumerate() {
                out_names.add(i).write(lasting(size.name()));
                out_pressures_kpa.add(i).write(pressure.kilopascals());
            }
            out_count.write(sizes.len());
        }
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// How many standard nozzle sizes there are.
pub const MIXCALC_NOZZLE_SIZES: usize = 16;

/// A nozzle of a known flow of water at a pressure at its tip. Its exponent is that of a fixed orifice, 0.5, until another is stated.
///
/// flow         of water
/// pressure     at its tip
/// out_nozzle   receives the nozzle; give it back with mixcalc_nozzle_free()
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (flow, pressure, out_nozzle), _WRONG_QUANTITY, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_new(
    flow: *const UncertainHandle,
    pressure: *const UncertainHandle,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_nozzle, error, {
        let (flow, pressure) = (claimed("flow", flow)?, claimed("pressure", pressure)?);
        Ok(NozzleHandle(Nozzle::new(&flow, &pressure)?))
    })
}

/// A nozzle of a standard size, taken as it stands.
///
/// size         its name, such as "015"; ends in a zero byte
/// definition   MIXCALC_SIZE_NOMINAL or MIXCALC_SIZE_BY_CUSTOM
/// out_nozzle   receives the nozzle; give it back with mixcalc_nozzle_free()
/// error        may be NULL
///
/// Returns what mixcalc_rated_flow() returns, and _NULL_POINTER (out_nozzle).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_rated(
    size: *const c_char,
    definition: u32,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_nozzle, error, Ok(NozzleHandle(Nozzle::rated(rated(size, definition)?)?)))
}

/// A nozzle of two measured points. Inputs that both share, such as a jug, cancel in the exponent.
///
/// first_pressure, first_flow     the first point
/// second_pressure, second_flow   the second, at another pressure
/// out_nozzle                     receives the nozzle; give it back with mixcalc_nozzle_free()
/// error                          may be NULL
///
/// Returns what mixcalc_nozzle_new() returns, and _NOT_FINITE for two points at one pressure, _DUPLICATE_NAME.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_from_two_points(
    first_pressure: *const UncertainHandle,
    first_flow: *const UncertainHandle,
    second_pressure: *const UncertainHandle,
    second_flow: *const UncertainHandle,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_nozzle, error, {
        let first = (claimed("first_pressure", first_pressure)?, claimed("first_flow", first_flow)?);
        let second = (claimed("second_pressure", second_pressure)?, claimed("second_flow", second_flow)?);
        Ok(NozzleHandle(Nozzle::from_two_points((&first.0, &first.1), (&second.0, &second.1))?))
    })
}

/// A nozzle of three measured points or more: exponent and flow by least squares, with the uncertainty that the scatter shows.
///
/// name             whose inputs they are; ends in a zero byte
/// pressures_kpa    at the tip, kPa, above 0
/// flows_l_per_min  of water there, L/min, above 0
/// points_count     how many points, 3 or more
/// out_nozzle       receives the nozzle; give it back with mixcalc_nozzle_free()
/// error            may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (name, pressures_kpa, flows_l_per_min, out_nozzle), _LENGTH, _MISSING_INPUT (a blank name), _NOT_FINITE,
/// _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_from_points(
    name: *const c_char,
    pressures_kpa: *const f64,
    flows_l_per_min: *const f64,
    points_count: usize,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_nozzle, error, {
        let name = word("name", name)?;
        let pressures = list("pressures_kpa", pressures_kpa, points_count)?;
        let flows = list("flows_l_per_min", flows_l_per_min, points_count)?;
        let mut points = Vec::new();
        for (i, (pressure, flow)) in pressures.iter().zip(flows).enumerate() {
            let at = format!("points[{i}]");
            let pressure = named(&at, Pressure::from_kilopascals(*pressure))?;
            points.push((pressure, named(&at, Flow::from_liters_per_minute(*flow))?));
        }
        Ok(NozzleHandle(Nozzle::from_points(&name, &points)?))
    })
}

/// Gives back a nozzle.
///
/// nozzle   handed out by this library, not given back before; NULL is allowed and does nothing
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_free(nozzle: *mut NozzleHandle) {
    // SAFETY: the caller's promise.
    unsafe { free(nozzle) };
}

/// The body of a function that states one thing more of a nozzle.
macro_rules! answer_with {
    ($nozzle:ident, $name:ident, $out:ident, $error:ident, $with:ident) => {
        answer_uncertain!($out, $error, {
            let nozzle = read("nozzle", $nozzle)?.0.clone();
            Ok(NozzleHandle(nozzle.$with(&claimed(stringify!($name), $name)?)?))
        })
    };
}

/// The same nozzle with an exponent of the pressure.
///
/// nozzle       the nozzle; it stays as it is
/// exponent     a ratio above 0
/// out_nozzle   receives the nozzle; give it back with mixcalc_nozzle_free()
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (an input, out_nozzle), _WRONG_QUANTITY, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_with_exponent(
    nozzle: *const NozzleHandle,
    exponent: *const UncertainHandle,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_with!(nozzle, exponent, out_nozzle, error, with_exponent)
}

/// The same nozzle with what the pressure loses between gauge and tip.
///
/// Parameters and result are those of mixcalc_nozzle_with_exponent(), with a pressure of 0 or more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_with_pressure_loss(
    nozzle: *const NozzleHandle,
    pressure_loss: *const UncertainHandle,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_with!(nozzle, pressure_loss, out_nozzle, error, with_pressure_loss)
}

/// The same nozzle for another liquid than water, by mixcalc_density_factor().
///
/// Parameters and result are those of mixcalc_nozzle_with_exponent().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_with_density_factor(
    nozzle: *const NozzleHandle,
    density_factor: *const UncertainHandle,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_with!(nozzle, density_factor, out_nozzle, error, with_density_factor)
}

/// The same nozzle with the part of the time that a pulsing valve is open.
///
/// Parameters and result are those of mixcalc_nozzle_with_exponent(), with a ratio of at most 100 %.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_with_duty_cycle(
    nozzle: *const NozzleHandle,
    duty_cycle: *const UncertainHandle,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_with!(nozzle, duty_cycle, out_nozzle, error, with_duty_cycle)
}

/// The same nozzle with the pressures at the gauge between which it may be used.
///
/// nozzle        the nozzle; it stays as it is
/// lowest_kpa    the lowest, kPa, above 0
/// highest_kpa   the highest, kPa, not under the lowest
/// source        where that is written; ends in a zero byte
/// out_nozzle    receives the nozzle; give it back with mixcalc_nozzle_free()
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (nozzle, source, out_nozzle), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_with_pressure_range(
    nozzle: *const NozzleHandle,
    lowest_kpa: f64,
    highest_kpa: f64,
    source: *const c_char,
    out_nozzle: *mut *mut NozzleHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_nozzle, error, {
        let (nozzle, source) = (read("nozzle", nozzle)?.0.clone(), word("source", source)?);
        let lowest = named("lowest", Pressure::from_kilopascals(lowest_kpa))?;
        let highest = named("highest", Pressure::from_kilopascals(highest_kpa))?;
        Ok(NozzleHandle(nozzle.with_pressure_range(lowest, highest, &source)?))
    })
}

/// The end of its pressure range that a pressure at the gauge is beyond.
///
/// nozzle          the nozzle
/// pressure_kpa    at the gauge, kPa
/// out_bound       receives MIXCALC_BOUND_AT_LEAST or _AT_MOST; 0 within the range, or where none was stated
/// out_limit_kpa   receives the end of the range, kPa; 0 likewise
/// error           may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (nozzle, out_bound, out_limit_kpa), _NOT_FINITE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_broken_limit(
    nozzle: *const NozzleHandle,
    pressure_kpa: f64,
    out_bound: *mut u32,
    out_limit_kpa: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let (out_bound, out_limit) = (room("out_bound", out_bound)?, room("out_limit_kpa", out_limit_kpa)?);
        // SAFETY: the caller's promise.
        let nozzle = unsafe { read("nozzle", nozzle) }?;
        let pressure = named("pressure", Pressure::from_kilopascals(pressure_kpa))?;
        let (bound, limit) = match nozzle.0.broken_limit(pressure) {
            Some(limit) => (choice::bound(limit.bound()), limit.value().to("kPa")?),
            None => (0, 0.0),
        };
        // SAFETY: as above.
        unsafe {
            out_bound.write(bound);
            out_limit.write(limit);
        }
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// The exponent of the pressure with which the flow of a nozzle goes.
///
/// nozzle         the nozzle
/// out_exponent   receives the ratio; give it back with mixcalc_uncertain_free()
/// error          may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (nozzle, out_exponent), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_exponent(
    nozzle: *const NozzleHandle,
    out_exponent: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_exponent, error, Ok(UncertainHandle::of(read("nozzle", nozzle)?.0.exponent())?))
}

/// The flow of a nozzle at a pressure at the gauge.
///
/// nozzle     the nozzle
/// pressure   at the gauge, above the pressure loss
/// out_flow   receives the flow; give it back with mixcalc_uncertain_free()
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (nozzle, pressure, out_flow), _WRONG_QUANTITY, _OUT_OF_RANGE, _DUPLICATE_NAME, _NOT_FINITE, _STRUCT_SIZE
/// (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_flow_at(
    nozzle: *const NozzleHandle,
    pressure: *const UncertainHandle,
    out_flow: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_flow, error, {
        let pressure = claimed("pressure", pressure)?;
        Ok(UncertainHandle::of(&read("nozzle", nozzle)?.0.flow_at(&pressure)?)?)
    })
}

/// The pressure at the gauge that a flow of a nozzle takes.
///
/// nozzle         the nozzle
/// flow           above 0
/// out_pressure   receives the pressure; give it back with mixcalc_uncertain_free()
/// error          may be NULL
///
/// Returns what mixcalc_nozzle_flow_at() returns, and _NOT_POSITIVE (flow).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_nozzle_required_pressure(
    nozzle: *const NozzleHandle,
    flow: *const UncertainHandle,
    out_pressure: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_pressure, error, {
        let flow = claimed("flow", flow)?;
        Ok(UncertainHandle::of(&read("nozzle", nozzle)?.0.required_pressure(&flow)?)?)
    })
}

/// How much more a nozzle takes of water than of a denser liquid at one pressure.
///
/// liquid       density of what is sprayed
/// water        density of water
/// out_factor   receives the ratio; give it back with mixcalc_uncertain_free()
/// error        may be NULL
///
/// Returns what mixcalc_side_difference() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_density_factor(
    liquid: *const UncertainHandle,
    water: *const UncertainHandle,
    out_factor: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_of!(out_factor, error, density_factor(liquid: Density, water: Density))
}

fn fan_angle(degrees: u32) -> Result<FanAngle, Box<Failure>> {
    // What is over 255 is no angle of a fan either.
    Ok(FanAngle::of_degrees(u8::try_from(degrees).unwrap_or(u8::MAX))?)
}

/// Width of a fan at a height above its target. Real fans bend: it is the most that the geometry gives.
///
/// fan_angle_degrees   from 1 to 179
/// height_m            above the target, m, 0 or more
/// out_width_m         receives the width, m
/// error               may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_width_m), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_fan_width_m(
    fan_angle_degrees: u32,
    height_m: f64,
    out_width_m: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_width_m", out_width_m)?;
        let height = named("height", Length::from_meters(height_m))?;
        let width = mixcalc::fan_width(fan_angle(fan_angle_degrees)?, height)?.meters();
        // SAFETY: the caller's promise.
        unsafe { out.write(width) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// Height of the boom above its target at which fans overlap.
///
/// fan_angle_degrees   from 1 to 179
/// spacing_m           from nozzle to nozzle, m, above 0; or the width of a band
/// overlap_percent     width of the fan less the spacing, in parts of the spacing, %, 0 or more
/// out_height_m        receives the height, m
/// error               may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_height_m), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_boom_height_m(
    fan_angle_degrees: u32,
    spacing_m: f64,
    overlap_percent: f64,
    out_height_m: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_height_m", out_height_m)?;
        let spacing = named("spacing", Length::from_meters(spacing_m))?;
        let overlap: Ratio = percent("overlap", overlap_percent)?;
        let height = mixcalc::boom_height(fan_angle(fan_angle_degrees)?, spacing, overlap)?.meters();
        // SAFETY: the caller's promise.
        unsafe { out.write(height) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_size_has_room_and_a_name_that_is_lent() {
        assert_eq!(NozzleSize::all().len(), MIXCALC_NOZZLE_SIZES);
        assert!(NozzleSize::all().iter().all(|size| !lasting(size.name()).is_null()));
        assert!(NozzleSize::all().iter().all(|size| !lasting(size.by_custom().source()).is_null()));
    }
}
