//! What a calibration's doubt does to a plan: where loads run out, and what they deliver.

use std::ffi::c_char;
use std::mem::size_of;
use std::ptr::null;

use mixcalc::{Ratio, Span};

use crate::error::ErrorDetails;
use crate::plan::PlanHandle;
use crate::sized::first_release_ends_with;
use crate::view::{at, lent, load_at, recipe_at, show, value};

/// What mixcalc_plan_run_out() fills: where each of some equal loads runs out. All is 0 where the job has neither a calibration nor a pass.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct RunOutView {
    /// sizeof(mixcalc_run_out) of the caller.
    pub struct_size: usize,
    /// After so much ground at the volume rate of the plan, ha.
    pub area_ha: f64,
    /// The least, ha; 0 without a calibration.
    pub area_low_ha: f64,
    /// The most, ha; 0 without a calibration, and where its doubt does not bound it.
    pub area_high_ha: f64,
    /// After such a length with the boom open, m; 0 where the job states no pass.
    pub length_m: f64,
    /// The least, m; 0 as for the ground.
    pub length_low_m: f64,
    /// The most, m; 0 as for the ground.
    pub length_high_m: f64,
    /// After so many passes; 0 where the job does not state their length.
    pub passes: f64,
    /// The least; 0 as for the ground.
    pub passes_low: f64,
    /// The most; 0 as for the ground.
    pub passes_high: f64,
}

/// What mixcalc_plan_delivered() fills: the dose that each of some equal loads really delivers, as far as the calibration, the measure and the tank's scale tell.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct DeliveredView {
    /// sizeof(mixcalc_delivered) of the caller.
    pub struct_size: usize,
    /// The unit of the doses, "L/ha" or "kg/ha"; borrowed from the plan; NULL without a calibration, and then all below is 0.
    pub unit: *const c_char,
    /// Per ground area, in one pass.
    pub dose: f64,
    /// Its standard uncertainty.
    pub standard_uncertainty: f64,
    /// The lower end of its interval, with the coverage of the calibration.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// 1 where a maximum is allowed per ground area, which it is held against, else 0.
    pub has_maximum: u32,
    /// Always 0.
    pub reserved: u32,
    /// The probability that it is over the maximum, from 0 to 1.
    pub probability_over: f64,
    /// What to aim at to keep to the risk of the calibration; 0 where it states none.
    pub aim: f64,
}

impl DeliveredView {
    const NONE: Self = Self {
        struct_size: size_of::<Self>(),
        unit: null(),
        dose: 0.0,
        standard_uncertainty: 0.0,
        low: 0.0,
        high: 0.0,
        has_maximum: 0,
        reserved: 0,
        probability_over: 0.0,
        aim: 0.0,
    };
}

first_release_ends_with! {
    RunOutView.passes_high;
    DeliveredView.aim;
}

/// Value, least and most; 0 for what is not known.
fn numbers<Q>(span: Option<Span<Q>>, number: impl Fn(Q) -> f64) -> [f64; 3] {
    let ends = span.map(|span| [Some(span.value), span.low, span.high]).into_iter().flatten();
    let mut all = [0.0; 3];
    for (number_of, end) in all.iter_mut().zip(ends) {
        *number_of = end.map_or(0.0, &number);
    }
    all
}

/// Where each of some equal loads runs out: how much ground, length and passes it covers, and between what the calibration leaves that.
///
/// plan          from mixcalc_plan_new()
/// load          index of the load, as in mixcalc_plan_load()
/// out_run_out   starts as MIXCALC_RUN_OUT_INIT and receives it
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_run_out), _STRUCT_SIZE (out_run_out, error), _INDEX (load) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_run_out(
    plan: *const PlanHandle,
    load: usize,
    out_run_out: *mut RunOutView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let run_out = plan.plan.run_out(load_at(plan, load)?);
        let [area_ha, area_low_ha, area_high_ha] = numbers(run_out.map(|of| of.area()), value);
        let [length_m, length_low_m, length_high_m] = numbers(run_out.and_then(|of| of.length()), value);
        let [passes, passes_low, passes_high] = numbers(run_out.and_then(|of| of.passes()), Ratio::number);
        Ok(RunOutView {
            struct_size: size_of::<RunOutView>(),
            area_ha,
            area_low_ha,
            area_high_ha,
            length_m,
            length_low_m,
            length_high_m,
            passes,
            passes_low,
            passes_high,
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_run_out", out_run_out), error, make) }
}

/// The dose of a product that each of some equal loads really delivers, as far as the calibration, the measure and the tank's scale tell: what states no uncertainty is taken as it stands.
///
/// plan            from mixcalc_plan_new()
/// load            index of the load, as in mixcalc_plan_load()
/// product         index of the product, as in mixcalc_plan_product_name()
/// out_delivered   starts as MIXCALC_DELIVERED_INIT and receives the dose
/// error           may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_delivered), _STRUCT_SIZE (out_delivered, error), _INDEX (load, product),
/// _PLAN_STOPPED where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_delivered(
    plan: *const PlanHandle,
    load: usize,
    product: usize,
    out_delivered: *mut DeliveredView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let Some(delivered) = at("product", product, recipe_at(plan, load)?.amounts())?.delivered() else {
            return Ok(DeliveredView::NONE);
        };
        let (dose, over) = (delivered.dose(), delivered.probability_over());
        let (number, unit) = lent(plan, Some(dose.value()));
        Ok(DeliveredView {
            unit,
            dose: number,
            standard_uncertainty: value(dose.standard_uncertainty()),
            low: value(delivered.interval().low()),
            high: value(delivered.interval().high()),
            has_maximum: over.is_some().into(),
            probability_over: over.map_or(0.0, Ratio::number),
            aim: delivered.aim().map_or(0.0, value),
            ..DeliveredView::NONE
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_delivered", out_delivered), error, make) }
}
