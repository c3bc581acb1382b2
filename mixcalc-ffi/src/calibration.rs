//! Calibration: every way to a volume rate, what it holds for, and what is worked out beside it.

use std::ffi::{CString, c_char};

use mixcalc::{
    Alleys, Area, Calibration, Change, Date, Density, Flow, Length, Mass, Pressure, Setting, Speed, System,
    Temperature, Time, Volume, VolumeRate,
};

use crate::border::answer;
use crate::choice;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::handle::{free, read, room};
use crate::sized::{Appended, first_release_ends_with};
use crate::sum::{answer_sum, named};
use crate::text::{hand_out, lent, word};
use crate::uncertain::{UncertainHandle, answer_uncertain, claimed};

/// A measured volume rate: the value with its uncertainty, how it was reached, and what it holds for. Made by mixcalc_calibration_from_flow() and the
/// functions beside it, given back with mixcalc_calibration_free(). It never changes: any number of threads may read one at once.
#[derive(Debug)]
pub struct CalibrationHandle {
    calibration: Calibration,
    volume_rate: UncertainHandle,
    formula: CString,
}

impl CalibrationHandle {
    fn of(calibration: Calibration) -> Result<Self, Box<Failure>> {
        let volume_rate = UncertainHandle::of(calibration.volume_rate())?;
        let formula = lent(calibration.working().formula());
        Ok(Self { calibration, volume_rate, formula })
    }
}

/// What a calibration was measured with and where, or what it is to be used with. Texts end in a zero byte, are read and not kept.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct SettingView {
    /// sizeof(mixcalc_setting) of the caller.
    pub struct_size: usize,
    /// The sprayer's name.
    pub sprayer: *const c_char,
    /// Who sprays: a carried sprayer is calibrated with its operator. ("operator" is a word of C++.)
    pub operator_name: *const c_char,
    /// The nozzles.
    pub nozzles: *const c_char,
    /// The ground: its surface and slope.
    pub ground: *const c_char,
    /// The day, as "2026-05-01".
    pub date: *const c_char,
    /// Pressure at the gauge, kPa.
    pub pressure_kpa: f64,
}

first_release_ends_with! { SettingView.pressure_kpa; }

/// The setting that the caller's `parameter` holds.
///
/// `setting` is NULL or points at a struct as large as its `struct_size` says, whose texts are NULL or end in a zero byte.
unsafe fn setting_of(parameter: &str, setting: *const SettingView) -> Result<Setting, Box<Failure>> {
    if setting.is_null() {
        return Err(Failure::null_pointer(parameter));
    }
    // SAFETY: the caller's promise.
    if !unsafe { SettingView::is_sound(setting) } {
        return Err(Failure::struct_size(parameter));
    }
    let at = |field: &str| format!("{parameter}.{field}");
    // SAFETY: it is as large as this release's, as just checked; texts by the caller's promise.
    unsafe {
        let setting = &*setting;
        Ok(Setting {
            sprayer: word(&at("sprayer"), setting.sprayer)?.as_ref().into(),
            operator: word(&at("operator_name"), setting.operator_name)?.as_ref().into(),
            nozzles: word(&at("nozzles"), setting.nozzles)?.as_ref().into(),
            pressure: named(&at("pressure"), Pressure::from_kilopascals(setting.pressure_kpa))?,
            ground: word(&at("ground"), setting.ground)?.as_ref().into(),
            date: named(&at("date"), Date::read(&word(&at("date"), setting.date)?))?,
        })
    }
}

/// The body of a function that makes a calibration.
macro_rules! answer_calibration {
    ($out:ident, $error:ident, $way:ident($($name:ident: $kind:ident),*)) => {
        answer_uncertain!($out, $error, {
            $(let $name = claimed::<$kind>(stringify!($name), $name)?;)*
            CalibrationHandle::of(Calibration::$way($(&$name),*)?)
        })
    };
}

/// The body of a function that makes an uncertain value of others.
macro_rules! answer_of {
    ($out:ident, $error:ident, $function:ident($($name:ident: $kind:ident),*)) => {
        answer_uncertain!($out, $error, {
            $(let $name = claimed::<$kind>(stringify!($name), $name)?;)*
            Ok(UncertainHandle::of(&mixcalc::$function($(&$name),*)?)?)
        })
    };
}
pub(crate) use answer_of;

/// From flow, speed and swath.
///
/// flow              of the nozzles over the swath; for a boom the mean of its nozzles
/// speed             over the ground
/// swath             for the mean of a boom's nozzles, their spacing
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (an input, out_calibration), _WRONG_QUANTITY (an input of another kind), _NOT_POSITIVE, _DUPLICATE_NAME (one name
/// for different inputs), _OUT_OF_RANGE, _NOT_FINITE, _STRUCT_SIZE (error) or _PANIC. The error's path names the input.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_flow(
    flow: *const UncertainHandle,
    speed: *const UncertainHandle,
    swath: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_flow(flow: Flow, speed: Speed, swath: Length))
}

/// From a timed catch and a timed course. Where one stopwatch timed both, give both times its input: it cancels.
///
/// catch             volume caught
/// catch_time        how long
/// course            length driven or walked
/// course_time       how long
/// swath             of the nozzles that were caught
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_timed_course(
    catch: *const UncertainHandle,
    catch_time: *const UncertainHandle,
    course: *const UncertainHandle,
    course_time: *const UncertainHandle,
    swath: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_timed_course(catch: Volume, catch_time: Time, course: Length, course_time: Time, swath: Length))
}

/// From a catch that takes as long as a course.
///
/// catch             caught in the time of the course
/// course            its length
/// swath             of the nozzles that were caught; for a band its width
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_catch_over_course(
    catch: *const UncertainHandle,
    course: *const UncertainHandle,
    swath: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_catch_over_course(catch: Volume, course: Length, swath: Length))
}

/// From a catch that takes as long as an area.
///
/// catch             caught in the time that the area takes
/// area              of the course
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_catch_over_area(
    catch: *const UncertainHandle,
    area: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_catch_over_area(catch: Volume, area: Area))
}

/// From what refills the tank to the mark after a test area.
///
/// refill            poured to the mark again
/// area              sprayed
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_refill(
    refill: *const UncertainHandle,
    area: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_refill(refill: Volume, area: Area))
}

/// From a tank that was sprayed out.
///
/// filled            what the tank and the lines held at the start
/// residual          what stayed in them, 0 or more
/// area              sprayed
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_emptied_tank(
    filled: *const UncertainHandle,
    residual: *const UncertainHandle,
    area: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_emptied_tank(filled: Volume, residual: Volume, area: Area))
}

/// From a hand gun or lance: a spot is treated as always, timed, and then caught.
///
/// catch             volume caught
/// catch_time        how long
/// spot              area treated
/// spot_time         how long
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_spot(
    catch: *const UncertainHandle,
    catch_time: *const UncertainHandle,
    spot: *const UncertainHandle,
    spot_time: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_spot(catch: Volume, catch_time: Time, spot: Area, spot_time: Time))
}

/// From the volume that plants take each.
///
/// volume            mean per plant
/// ground            of one plant
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_plants(
    volume: *const UncertainHandle,
    ground: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_plants(volume: Volume, ground: Area))
}

/// From the flows of both sides of an orchard sprayer, each alley driven once.
///
/// left              flow of all open nozzles of the left side
/// right             of the right side
/// speed             over the ground
/// row_spacing       from row to row
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_sides(
    left: *const UncertainHandle,
    right: *const UncertainHandle,
    speed: *const UncertainHandle,
    row_spacing: *const UncertainHandle,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_calibration!(out_calibration, error, from_sides(left: Flow, right: Flow, speed: Speed, row_spacing: Length))
}
/// From the flow over one band: two rates, on treated and on field ground.
///
/// flow          of all nozzles of one row together
/// speed         over the ground
/// band          treated width in each row
/// row_spacing   from row to row; not under the band
/// out_band      receives the rate per area of treated band: what most label doses are on; give it back with mixcalc_calibration_free()
/// out_field     receives the rate per area of field: what the tank is filled for; likewise
/// error         may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_band(
    flow: *const UncertainHandle,
    speed: *const UncertainHandle,
    band: *const UncertainHandle,
    row_spacing: *const UncertainHandle,
    out_band: *mut *mut CalibrationHandle,
    out_field: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let (out_band, out_field) = (room("out_band", out_band)?, room("out_field", out_field)?);
        // SAFETY: the caller's promise.
        let (flow, speed) = unsafe { (claimed::<Flow>("flow", flow)?, claimed::<Speed>("speed", speed)?) };
        // SAFETY: as above.
        let (band, row) = unsafe { (claimed("band", band)?, claimed("row_spacing", row_spacing)?) };
        let banded = Calibration::from_band(&flow, &speed, &band, &row)?;
        let (band, field) = (CalibrationHandle::of(banded.band)?, CalibrationHandle::of(banded.field)?);
        // SAFETY: as above.
        unsafe {
            out_band.write(Box::into_raw(Box::new(band)));
            out_field.write(Box::into_raw(Box::new(field)));
        }
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// From the flow of an orchard sprayer.
///
/// flow              of all nozzles that are open in a pass
/// speed             over the ground
/// row_spacing       from row to row
/// alleys            which are driven: MIXCALC_ALLEYS_EACH, _EACH_TWICE or _EVERY_OTHER
/// out_calibration   receives the calibration; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns what mixcalc_calibration_from_flow() returns, and _CHOICE (alleys).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_from_alleys(
    flow: *const UncertainHandle,
    speed: *const UncertainHandle,
    row_spacing: *const UncertainHandle,
    alleys: u32,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_calibration, error, {
        let (flow, speed) = (claimed::<Flow>("flow", flow)?, claimed::<Speed>("speed", speed)?);
        let row_spacing = claimed::<Length>("row_spacing", row_spacing)?;
        let alleys = choice::member("alleys", alleys, Alleys::all(), choice::alleys)?;
        CalibrationHandle::of(Calibration::from_alleys(&flow, &speed, &row_spacing, alleys)?)
    })
}

/// Gives back a calibration. What was borrowed from it ends with it.
///
/// calibration   handed out by this library, not given back before, and read by no other thread any more; NULL is allowed and does nothing
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_free(calibration: *mut CalibrationHandle) {
    // SAFETY: the caller's promise.
    unsafe { free(calibration) };
}

/// The volume rate of a calibration, with its uncertainty.
///
/// calibration   the calibration
/// out_rate      receives the rate; borrowed from the calibration
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, out_rate), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_volume_rate(
    calibration: *const CalibrationHandle,
    out_rate: *mut *const UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_rate", out_rate)?;
        // SAFETY: the caller's promise.
        unsafe { out.write(&raw const read("calibration", calibration)?.volume_rate) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// The formula by which a calibration was reached, such as "Q / (v * w)".
///
/// calibration   the calibration
/// out_formula   receives the formula; borrowed from the calibration
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, out_formula), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_formula(
    calibration: *const CalibrationHandle,
    out_formula: *mut *const c_char,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_formula", out_formula)?;
        // SAFETY: the caller's promise.
        unsafe { out.write(read("calibration", calibration)?.formula.as_ptr()) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// How a calibration was reached, on one line: its formula, what stands in it, and where it is written.
///
/// calibration   the calibration
/// system        the measures to show: MIXCALC_SYSTEM_METRIC, _US or _IMPERIAL
/// out_text      receives the text; give it back with mixcalc_string_free()
/// out_len       receives its length in bytes; may be NULL
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, out_text), _CHOICE (system), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_working(
    calibration: *const CalibrationHandle,
    system: u32,
    out_text: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    let make = || {
        // SAFETY: the caller's promise.
        let calibration = unsafe { read("calibration", calibration) }?;
        let system = choice::member("system", system, System::all(), choice::system)?;
        Ok(calibration.calibration.working().text(system))
    };
    // SAFETY: the caller's promise.
    unsafe { hand_out(out_text, out_len, error, make) }
}

/// The same calibration, with what it was measured with and where.
///
/// calibration       the calibration; it stays as it is
/// setting           sprayer, operator, nozzles, pressure, ground, day; start it with MIXCALC_SETTING_INIT
/// out_calibration   receives the calibration with its setting; give it back with mixcalc_calibration_free()
/// error             may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, setting or a text of it, out_calibration), _NOT_FINITE, _OUT_OF_RANGE (date),
/// _STRUCT_SIZE (setting, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_with_setting(
    calibration: *const CalibrationHandle,
    setting: *const SettingView,
    out_calibration: *mut *mut CalibrationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_calibration, error, {
        let calibration = read("calibration", calibration)?.calibration.clone();
        CalibrationHandle::of(calibration.with_setting(setting_of("setting", setting)?))
    })
}

/// What differs between the setting that a calibration was measured in and one that it is to be used in: each a reason to calibrate again.
///
/// calibration       the calibration
/// use_in            the setting of the job; start it with MIXCALC_SETTING_INIT
/// oldest_days       the age up to which a calibration is accepted, d; there is no default
/// out_differences   receives MIXCALC_DIFFERENCE_SPRAYER and so on, added up; 0 where nothing differs
/// error             may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, use_in or a text of it, out_differences), _NOT_FINITE, _OUT_OF_RANGE (date),
/// _STRUCT_SIZE (use_in, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_differences(
    calibration: *const CalibrationHandle,
    use_in: *const SettingView,
    oldest_days: f64,
    out_differences: *mut u32,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_differences", out_differences)?;
        // SAFETY: the caller's promise.
        let (calibration, use_in) = unsafe { (read("calibration", calibration)?, setting_of("use_in", use_in)?) };
        let oldest = named("oldest", Time::from_days(oldest_days))?;
        let differences = calibration.calibration.differences(&use_in, oldest);
        let bits = differences.into_iter().fold(0, |bits, difference| bits | choice::difference(difference));
        // SAFETY: as above.
        unsafe { out.write(bits) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// The body of a function that says a volume rate after a change.
macro_rules! answer_after {
    ($calibration:ident, $from:ident, $to:ident, $out:ident, $error:ident, $change:ident) => {
        answer_uncertain!($out, $error, {
            let calibration = read("calibration", $calibration)?;
            let (from, to) = (claimed("from", $from)?, claimed("to", $to)?);
            Ok(UncertainHandle::of(&calibration.calibration.after(Change::$change(&from, &to))?)?)
        })
    };
}

/// The volume rate after the flow changes, all else as calibrated. A pressure changes the flow: mixcalc_nozzle_flow_at() gives both.
///
/// calibration   the calibration
/// from          the flow when calibrated
/// to            the flow that it is to be
/// out_rate      receives the rate; give it back with mixcalc_uncertain_free()
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (calibration, from, to, out_rate), _WRONG_QUANTITY, _NOT_POSITIVE, _DUPLICATE_NAME, _OUT_OF_RANGE,
/// _NOT_FINITE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_after_flow(
    calibration: *const CalibrationHandle,
    from: *const UncertainHandle,
    to: *const UncertainHandle,
    out_rate: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_after!(calibration, from, to, out_rate, error, Flow)
}

/// The volume rate after the speed changes, all else as calibrated.
///
/// Parameters and result are those of mixcalc_calibration_after_flow(), with speeds.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_after_speed(
    calibration: *const CalibrationHandle,
    from: *const UncertainHandle,
    to: *const UncertainHandle,
    out_rate: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_after!(calibration, from, to, out_rate, error, Speed)
}

/// The volume rate after the swath or the nozzle spacing changes, all else as calibrated.
///
/// Parameters and result are those of mixcalc_calibration_after_flow(), with lengths.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_calibration_after_swath(
    calibration: *const CalibrationHandle,
    from: *const UncertainHandle,
    to: *const UncertainHandle,
    out_rate: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_after!(calibration, from, to, out_rate, error, Swath)
}

/// How far two sides are apart, as a part of their mean; above 0 where the left gives more.
///
/// left, right      flows of the sides
/// out_difference   receives the ratio; give it back with mixcalc_uncertain_free()
/// error            may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (left, right, out_difference), _WRONG_QUANTITY, _NOT_POSITIVE, _DUPLICATE_NAME, _OUT_OF_RANGE, _NOT_FINITE,
/// _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_side_difference(
    left: *const UncertainHandle,
    right: *const UncertainHandle,
    out_difference: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_of!(out_difference, error, side_difference(left: Flow, right: Flow))
}

/// The ground on which US fluid ounces are US gallons per acre: 1/128 acre.
///
/// out_area_ha   receives the area, ha
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_area_ha), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_one_128th_acre_ha(out_area_ha: *mut f64, error: *mut ErrorDetails) -> u32 {
    let body = || {
        let out = room("out_area_ha", out_area_ha)?;
        // SAFETY: the caller's promise.
        unsafe { out.write(mixcalc::one_128th_acre().hectares()) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// Length of the course that makes an area of a swath.
///
/// area_ha        of the course, ha, 0 or more
/// swath_m        of the nozzles that are caught: spacing, band, or row, m, above 0
/// out_length_m   receives the length, m
/// error          may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_length_m), _NOT_FINITE, _NOT_POSITIVE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_course_length_m(
    area_ha: f64,
    swath_m: f64,
    out_length_m: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_length_m,
        error,
        course_length(area = Area::from_hectares(area_ha), swath = Length::from_meters(swath_m)).meters
    )
}

/// Density of air-free water at one atmosphere.
///
/// temperature_c          °C, from 0 to 40
/// out_density_kg_per_l   receives the density, kg/L
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (out_density_kg_per_l), _NOT_FINITE, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_water_density_kg_per_l(
    temperature_c: f64,
    out_density_kg_per_l: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_sum!(
        out_density_kg_per_l,
        error,
        water_density(temperature = Temperature::from_degrees_celsius(temperature_c)).kilograms_per_liter
    )
}

/// Volume of a catch from its weight in air.
///
/// mass         what the scale showed, less the empty vessel
/// density      of the liquid at its temperature; of water mixcalc_water_density_kg_per_l()
/// out_volume   receives the volume; give it back with mixcalc_uncertain_free()
/// error        may be NULL
///
/// Returns what mixcalc_side_difference() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_volume_of_catch(
    mass: *const UncertainHandle,
    density: *const UncertainHandle,
    out_volume: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_of!(out_volume, error, volume_of_catch(mass: Mass, density: Density))
}

/// Dose of a liquid product that is really delivered. How likely it is over the label's most: mixcalc_uncertain_probability_over_percent(); what to aim at:
/// mixcalc_uncertain_aim_under(). None of it allows a dose over the label's.
///
/// amount        volume of the product in the load
/// mix           in the tank
/// volume_rate   as calibrated
/// out_dose      receives the dose; give it back with mixcalc_uncertain_free()
/// error         may be NULL
///
/// Returns what mixcalc_side_difference() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_delivered_liquid_dose(
    amount: *const UncertainHandle,
    mix: *const UncertainHandle,
    volume_rate: *const UncertainHandle,
    out_dose: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_of!(out_dose, error, delivered_liquid_dose(amount: Volume, mix: Volume, volume_rate: VolumeRate))
}

/// Dose of a product by mass that is really delivered.
///
/// amount        mass of the product in the load
/// mix           in the tank
/// volume_rate   as calibrated
/// out_dose      receives the dose; give it back with mixcalc_uncertain_free()
/// error         may be NULL
///
/// Returns what mixcalc_side_difference() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_delivered_solid_dose(
    amount: *const UncertainHandle,
    mix: *const UncertainHandle,
    volume_rate: *const UncertainHandle,
    out_dose: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_of!(out_dose, error, delivered_solid_dose(amount: Mass, mix: Volume, volume_rate: VolumeRate))
}
