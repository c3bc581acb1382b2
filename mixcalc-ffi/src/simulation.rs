//! Monte Carlo over a model that the caller writes.

use std::ffi::{c_char, c_void};

use mixcalc::{Quantity, SimulatedQuantity, Trial, simulate_quantity};

use crate::border::answer;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::handle::{free, hand_over, read, room};
use crate::status::MIXCALC_STATUS_OK;
use crate::text::word;
use crate::uncertain::{UncertainHandle, percent, write_interval};

/// One trial of a simulation: a world in which every input has one value. It is good within the call of the model that it was handed to, in that thread.
#[derive(Debug)]
pub struct TrialHandle {
    trial: *mut Trial,
}

/// What came out of a simulation. Made by mixcalc_simulate(), given back with mixcalc_simulation_free(). It never changes: any number of threads may read
/// one at once.
#[derive(Debug)]
pub struct SimulationHandle(SimulatedQuantity);

/// From the values of one trial, by mixcalc_trial_of(), to the result in that trial. It returns MIXCALC_STATUS_OK, and anything else to end the simulation. It
/// must return: nothing may be thrown or jumped through it.
pub type Model =
    Option<unsafe extern "C" fn(trial: *mut TrialHandle, context: *mut c_void, out_value: *mut f64) -> u32>;

/// Works a model out many times, each time with other values of its inputs, drawn as they are distributed. The same seed gives the same digits on every
/// machine, and those of Rust.
///
/// trials           a million settles 95 % intervals to two or three digits; from 1000 to ten million
/// seed             any number; another one shows how far the digits have settled
/// model            called once for each trial, in the thread of the caller
/// context          handed to the model as it is; may be NULL
/// unit             the unit of what the model gives; ends in a zero byte
/// out_simulation   receives the results; give them back with mixcalc_simulation_free()
/// error            may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (model, unit, out_simulation), _MODEL (the model ended it; error's given is its status), _OUT_OF_RANGE (trials, or a
/// result), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_simulate(
    trials: u32,
    seed: u64,
    model: Model,
    context: *mut c_void,
    unit: *const c_char,
    out_simulation: *mut *mut SimulationHandle,
    error: *mut ErrorDetails,
) -> u32 {
    let make = || {
        let model = model.ok_or_else(|| Failure::null_pointer("model"))?;
        // SAFETY: the caller's promise.
        let unit = unsafe { word("unit", unit) }?;
        let mut ended = MIXCALC_STATUS_OK;
        let simulated = simulate_quantity(trials, seed, |trial| {
            let (mut value, mut trial) = (f64::NAN, TrialHandle { trial });
            // SAFETY: the model is the caller's function, and the trial lives as long as its call.
            ended = unsafe { model(&raw mut trial, context, &raw mut value) };
            // What ends the simulation is any error; the caller is told of its own.
            let value = if ended == MIXCALC_STATUS_OK { value } else { f64::NAN };
            Quantity::from_parts(value, &unit)
        });
        match simulated {
            Err(_) if ended != MIXCALC_STATUS_OK => Err(Failure::model(ended)),
            simulated => Ok(SimulationHandle(simulated?)),
        }
    };
    // SAFETY: the caller's promise.
    let body = || unsafe { hand_over("out_simulation", out_simulation, make) };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// An uncertain value as it is in a trial. Inputs that values share are drawn once.
///
/// trial       the trial that the model was called with
/// uncertain   the value
/// unit        the unit that is asked for; ends in a zero byte
/// out_value   receives the number in unit
/// error       may be NULL
///
/// Returns what mixcalc_uncertain_value() returns, _NULL_POINTER (trial), and _DUPLICATE_NAME where one name stands for different inputs.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_trial_of(
    trial: *mut TrialHandle,
    uncertain: *const UncertainHandle,
    unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        let out = room("out_value", out_value)?;
        // SAFETY: the caller's promise.
        let trial = unsafe { &mut *read("trial", trial)?.trial };
        // SAFETY: as above.
        let (uncertain, unit) = unsafe { (read("uncertain", uncertain)?, word("unit", unit)?) };
        let drawn = trial.of_quantity(&uncertain.value)?.to(&unit)?;
        // SAFETY: as above.
        unsafe { out.write(drawn) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// Gives back the results of a simulation.
///
/// simulation   from mixcalc_simulate(), not given back before, and read by no other thread any more; NULL is allowed and does nothing
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_simulation_free(simulation: *mut SimulationHandle) {
    // SAFETY: the caller's promise.
    unsafe { free(simulation) };
}

/// The body of a function that reads one number of a simulation.
macro_rules! answer_simulated {
    ($simulation:ident, $unit:ident, $out:ident, $error:ident, $number:expr) => {{
        let body = || {
            let out = room(stringify!($out), $out)?;
            // SAFETY: the caller's promise.
            let (simulation, unit) = unsafe { (read("simulation", $simulation)?, word("unit", $unit)?) };
            let number: Option<Quantity> = $number(&simulation.0);
            let number = number.map(|number| number.to(&unit)).transpose()?.unwrap_or(f64::NAN);
            // SAFETY: as above.
            unsafe { out.write(number) };
            Ok(())
        };
        // SAFETY: the caller's promise.
        unsafe { answer($error, body) }
    }};
}

/// The median of the results.
///
/// simulation   the results
/// unit         the unit that is asked for; ends in a zero byte
/// out_value    receives the number in unit
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (simulation, unit, out_value), _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _WRONG_QUANTITY, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_simulation_median(
    simulation: *const SimulationHandle,
    unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_simulated!(simulation, unit, out_value, error, |it: &SimulatedQuantity| Some(it.median()))
}

/// The mean of the results; NAN where it does not settle, since an input has two degrees of freedom or fewer.
///
/// Parameters and result are those of mixcalc_simulation_median().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_simulation_mean(
    simulation: *const SimulationHandle,
    unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_simulated!(simulation, unit, out_value, error, SimulatedQuantity::mean)
}

/// The standard deviation of the results; NAN as for mixcalc_simulation_mean().
///
/// Parameters and result are those of mixcalc_simulation_median().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_simulation_standard_uncertainty(
    simulation: *const SimulationHandle,
    unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_simulated!(simulation, unit, out_value, error, SimulatedQuantity::standard_uncertainty)
}

/// The interval that holds a share of the results, with as many below it as above.
///
/// simulation         the results
/// coverage_percent   the share, %
/// unit               the unit that is asked for; ends in a zero byte
/// out_low            receives the lower end in unit
/// out_high           receives the upper end in unit
/// error              may be NULL
///
/// Returns what mixcalc_simulation_median() returns, and _NOT_FINITE, _OUT_OF_RANGE (coverage).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_simulation_interval(
    simulation: *const SimulationHandle,
    coverage_percent: f64,
    unit: *const c_char,
    out_low: *mut f64,
    out_high: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let interval = || {
        // SAFETY: the caller's promise.
        let simulation = unsafe { read("simulation", simulation) }?;
        Ok(simulation.0.interval(percent("coverage", coverage_percent)?)?)
    };
    // SAFETY: the caller's promise.
    let body = || unsafe { write_interval(out_low, out_high, unit, interval) };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}
