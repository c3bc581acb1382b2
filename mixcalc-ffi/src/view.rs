//! What a plan holds, one struct at a time.

use std::ffi::c_char;
use std::mem::size_of;
use std::ptr::null;

use mixcalc::{Action, Cleared, Finding, Level, Limit, Load, Quantity, Recipe, Total, Volume};

use crate::border::answer;
use crate::choice;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::plan::{PlanHandle, read};
use crate::sized::{Appended, fill, first_release_ends_with};

/// A value in the unit of documents: the double that the plan document shows.
pub(crate) fn value(quantity: impl Into<Quantity>) -> f64 {
    quantity.into().to_parts().0
}

/// An amount of a product: by volume or by mass, as kind says; the other is 0. This struct never changes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[repr(C)]
pub struct Amount {
    /// MIXCALC_KIND_VOLUME or MIXCALC_KIND_MASS; 0 where there is no amount.
    pub kind: u32,
    /// Always 0.
    pub reserved: u32,
    /// Volume in liters, where kind is MIXCALC_KIND_VOLUME.
    pub volume_l: f64,
    /// Mass in kilograms, where kind is MIXCALC_KIND_MASS.
    pub mass_kg: f64,
}

impl Amount {
    pub(crate) fn of(amount: mixcalc::Amount) -> Self {
        let kind = choice::kind_of(amount);
        let in_kind = |this| if kind == this { value(amount) } else { 0.0 };
        Self {
            kind,
            reserved: 0,
            volume_l: in_kind(choice::MIXCALC_KIND_VOLUME),
            mass_kg: in_kind(choice::MIXCALC_KIND_MASS),
        }
    }
}

/// What mixcalc_plan_totals() fills: the plan as a whole.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct Totals {
    /// sizeof(mixcalc_totals) of the caller.
    pub struct_size: usize,
    /// 1 where the plan may be carried out; 0 where a stop stands, and then there are no measured amounts, no steps, no sheet.
    pub usable: u32,
    /// 1 where a last strip is kept, else 0.
    pub has_last_strip: u32,
    /// The most that the tank may be filled to, L.
    pub safe_fill_l: f64,
    /// Ground of the job, ha.
    pub area_ha: f64,
    /// Volume of mix per ground area, L/ha.
    pub volume_rate_l_per_ha: f64,
    /// Volume of carrier per ground area, L/ha.
    pub carrier_rate_l_per_ha: f64,
    /// Volume of mix in all loads, L.
    pub mix_l: f64,
    /// Volume of carrier in all loads, L; beside the exact amounts where a stop stands.
    pub carrier_l: f64,
    /// Ground that the mix is made for, ha.
    pub area_made_for_ha: f64,
    /// What stays in the sprayer after spraying out, L; 0 where none is stated.
    pub residual_l: f64,
    /// Ground at the end that goes short by the residual, ha; 0 where a last strip is kept.
    pub ground_short_ha: f64,
    /// Mix that is not made, since the last strip takes rinse water instead, L; 0 without one.
    pub held_back_l: f64,
    /// Ground of the last strip, ha; 0 without one.
    pub last_strip_ha: f64,
    /// How many loads: fillings of the tank.
    pub load_count: u64,
    /// How many entries mixcalc_plan_load() has: equal loads that follow each other are one.
    pub load_entries: usize,
    /// How many products.
    pub products: usize,
    /// How many findings.
    pub findings: usize,
    /// How many cautions for people.
    pub cautions: usize,
    /// 1 where the job states its ground by parts, else 0: the field, its buffers, overlap.
    pub has_ground: u32,
    /// Always 0.
    pub reserved: u32,
    /// The field, buffers inside, ha; 0 without ground by parts, as are the two below.
    pub field_ha: f64,
    /// Ground that the buffers take, ha.
    pub buffers_ha: f64,
    /// Ground that overlap sprays twice, ha.
    pub sprayed_twice_ha: f64,
    /// How many active substances: entries of mixcalc_plan_substance().
    pub substances: usize,
}

/// What mixcalc_plan_load() fills: equal loads that follow each other.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct LoadView {
    /// sizeof(mixcalc_load) of the caller.
    pub struct_size: usize,
    /// Number of the first of them, from 1.
    pub first: u64,
    /// Number of the last of them.
    pub last: u64,
    /// How many they are.
    pub count: u64,
    /// Volume of mix in each, L.
    pub mix_l: f64,
    /// Volume of carrier in each, L; beside the exact amounts where a stop stands.
    pub carrier_l: f64,
    /// Ground that each serves, ha.
    pub area_ha: f64,
    /// How many steps each takes; 0 where a stop stands.
    pub steps: usize,
}

/// What mixcalc_plan_measured_amount() fills: one product in each of some equal loads.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct MeasuredAmount {
    /// sizeof(mixcalc_measured_amount) of the caller.
    pub struct_size: usize,
    /// Name of the product; borrowed from the plan.
    pub product: *const c_char,
    /// Name of the measure; borrowed from the plan.
    pub measure: *const c_char,
    /// MIXCALC_MEASURE_VESSEL, _SCALE or _PACK.
    pub measure_kind: u32,
    /// Always 0.
    pub reserved: u32,
    /// What the dose asks for.
    pub exact: Amount,
    /// What the measure shows, in the kind that the product is dosed in.
    pub measured: Amount,
    /// The smallest step of the measure, in the measure's kind: a product dosed by mass may be measured in a vessel.
    pub graduation: Amount,
    /// Whole graduations of the measure, in all of its fillings.
    pub graduations: u64,
    /// How many equal fillings of the measure are poured; for packs, how many packs.
    pub fillings: u64,
    /// What each of these fillings shows, in the measure's kind.
    pub filling: Amount,
    /// What one more filling after them shows; its kind is 0 where there is none.
    pub last_filling: Amount,
    /// Measured less exact, in percent of exact.
    pub gap_percent: f64,
    /// Measured less exact, per ground area, for a product dosed by volume, L/ha; else 0.
    pub gap_l_per_ha: f64,
    /// Measured less exact, per ground area, for a product dosed by mass, kg/ha; else 0.
    pub gap_kg_per_ha: f64,
}

/// What mixcalc_plan_measured_total() fills: one product in all loads.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct MeasuredTotal {
    /// sizeof(mixcalc_measured_total) of the caller.
    pub struct_size: usize,
    /// Name of the product; borrowed from the plan.
    pub product: *const c_char,
    /// What the dose asks for.
    pub exact: Amount,
    /// What the measures show.
    pub measured: Amount,
    /// Measured less exact, in percent of exact.
    pub gap_percent: f64,
    /// Measured less exact, per ground area, for a product dosed by volume, L/ha; else 0.
    pub gap_l_per_ha: f64,
    /// Measured less exact, per ground area, for a product dosed by mass, kg/ha; else 0.
    pub gap_kg_per_ha: f64,
    /// How many measures it is drawn with: entries of mixcalc_plan_drawn().
    pub measures: usize,
}

/// What mixcalc_plan_drawn() fills: whole graduations of one measure, in all loads.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct Drawn {
    /// sizeof(mixcalc_drawn) of the caller.
    pub struct_size: usize,
    /// Name of the measure; borrowed from the plan.
    pub measure: *const c_char,
    /// MIXCALC_MEASURE_VESSEL, _SCALE or _PACK.
    pub measure_kind: u32,
    /// Always 0.
    pub reserved: u32,
    /// The smallest step of the measure.
    pub graduation: Amount,
    /// How many of them: recipe times count, summed in integers.
    pub graduations: u64,
}

/// What mixcalc_plan_step() fills: one thing to do. What its action does not have is 0 or NULL.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct Step {
    /// sizeof(mixcalc_step) of the caller.
    pub struct_size: usize,
    /// MIXCALC_ACTION_FILL and so on.
    pub action: u32,
    /// 1 where mark_l is a mark to fill to, else 0.
    pub has_mark: u32,
    /// 1 where rest_l is to be measured, else 0.
    pub has_rest: u32,
    /// Always 0.
    pub reserved: u32,
    /// Name of the product; borrowed from the plan; NULL for a step without one.
    pub product: *const c_char,
    /// Index of the product, where product is not NULL.
    pub product_index: usize,
    /// Name of the measure that is used or rinsed; borrowed from the plan; NULL for another step.
    pub measure: *const c_char,
    /// The carrier that it takes, L; of a rinse, all of its times together.
    pub carrier_l: f64,
    /// The tank's mark to fill to, L.
    pub mark_l: f64,
    /// What is measured on top of the mark, or in all where there is no mark to use, L.
    pub rest_l: f64,
    /// How often a measure is rinsed.
    pub times: u64,
    /// How much carrier each time, L.
    pub each_l: f64,
    /// What the tank then holds, L.
    pub in_tank_l: f64,
    /// How long is waited at least, s.
    pub least_wait_s: f64,
    /// How long is waited at most as a rule, s; 0 where a label says how long.
    pub most_wait_s: f64,
    /// How many containers one of the loads empties at most, where they are rinsed.
    pub containers: u64,
}

/// What mixcalc_plan_ledger() fills: where carrier and mix came from and went.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct LedgerView {
    /// sizeof(mixcalc_ledger) of the caller.
    pub struct_size: usize,
    /// Carrier in all, L: the sum of the four below.
    pub carrier_drawn_l: f64,
    /// Carrier into the tank before the products, L.
    pub carrier_first_l: f64,
    /// Carrier for premixes, L.
    pub carrier_premixed_l: f64,
    /// Carrier for rinsing the measures, L.
    pub carrier_rinses_l: f64,
    /// Carrier into the tank after the products, L.
    pub carrier_topped_up_l: f64,
    /// Mix made, L: sprayed and residual together.
    pub mix_made_l: f64,
    /// Mix that leaves the nozzles, L.
    pub mix_sprayed_l: f64,
    /// Mix that stays in the sprayer, L.
    pub mix_residual_l: f64,
    /// What of topped_up is for rinses of emptied containers, L.
    pub container_rinses_l: f64,
    /// 1 where containers are rinsed, else 0.
    pub has_container_rinses: u32,
    /// Always 0.
    pub reserved: u32,
}

/// What mixcalc_plan_account() fills: where a product came from and went.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct Account {
    /// sizeof(mixcalc_account) of the caller.
    pub struct_size: usize,
    /// Name of the product; borrowed from the plan.
    pub product: *const c_char,
    /// Taken out of containers: in_loads and spilled together.
    pub drawn: Amount,
    /// Measured into loads.
    pub in_loads: Amount,
    /// Spilled: nothing, in a plan.
    pub spilled: Amount,
    /// What there was; its kind is 0 where the job does not say.
    pub stock: Amount,
    /// What is left of the stock, below zero where it is short; its kind is 0 where there is no stock.
    pub left: Amount,
}

/// What mixcalc_plan_finding() fills: a sentence about the plan.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct FindingView {
    /// sizeof(mixcalc_finding) of the caller.
    pub struct_size: usize,
    /// MIXCALC_SEVERITY_STOP, _CAUTION or _NOTE.
    pub severity: u32,
    /// MIXCALC_BOUND_AT_MOST or _AT_LEAST; 0 where there is no limit.
    pub bound: u32,
    /// What stands behind the limit: MIXCALC_FORCE_LAW and so on; 0 where there is no limit.
    pub force: u32,
    /// Always 0.
    pub reserved: u32,
    /// Stable code, such as MIXCALC_FINDING_STOCK_SHORT; compare it with strcmp(). Borrowed from the plan.
    pub code: *const c_char,
    /// The field of the job that it concerns, such as `products[1].dose`; empty for none. Borrowed from the plan.
    pub path: *const c_char,
    /// The sentence, in the measures of the job. Borrowed from the plan.
    pub message: *const c_char,
    /// Number of the first load that it concerns, from 1; 0 where it concerns none.
    pub load: u64,
    /// What was found, in actual_unit.
    pub actual: f64,
    /// Unit of actual, such as L/ha; NULL where there is no such value. Borrowed from the plan.
    pub actual_unit: *const c_char,
    /// What it is held against, in limit_unit.
    pub limit: f64,
    /// Unit of limit; NULL where there is no limit. Borrowed from the plan.
    pub limit_unit: *const c_char,
    /// Where the limit stands; NULL where there is no limit. Borrowed from the plan.
    pub source: *const c_char,
    /// How many things the value may have been meant as: entries of mixcalc_plan_reading().
    pub readings: usize,
    /// How many things would help: entries of mixcalc_plan_help().
    pub helps: usize,
}

/// What mixcalc_plan_caution() fills: a caution for people that goes with every plan.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct CautionView {
    /// sizeof(mixcalc_caution) of the caller.
    pub struct_size: usize,
    /// Stable code, such as label-decides. Borrowed from the plan.
    pub code: *const c_char,
    /// The caution. Borrowed from the plan.
    pub text: *const c_char,
}

first_release_ends_with! {
    Totals.cautions;
    LoadView.steps;
    MeasuredAmount.gap_kg_per_ha;
    MeasuredTotal.measures;
    Drawn.graduations;
    Step.in_tank_l;
    LedgerView.mix_residual_l;
    Account.left;
    FindingView.source;
    CautionView.text;
}

/// Fills the caller's `out` from its plan.
///
/// `plan` is NULL or a plan that was not given back; `out` and `error` are NULL or as large as their `struct_size` says.
pub(crate) unsafe fn show<T: Appended>(
    plan: *const PlanHandle,
    (parameter, out): (&str, *mut T),
    error: *mut ErrorDetails,
    make: impl FnOnce(&PlanHandle) -> Result<T, Box<Failure>>,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe {
        answer(error, || {
            let plan = read(plan)?;
            fill(parameter, out, || make(plan))
        })
    }
}

/// Writes the caller's `out`, which never changes its layout, from its plan.
///
/// `plan` is NULL or a plan that was not given back; `out` is NULL or room for a value; `error` as in [`answer`].
pub(crate) unsafe fn write<T>(
    plan: *const PlanHandle,
    (parameter, out): (&str, *mut T),
    error: *mut ErrorDetails,
    make: impl FnOnce(&PlanHandle) -> Result<T, Box<Failure>>,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe {
        answer(error, || {
            let plan = read(plan)?;
            if out.is_null() {
                return Err(Failure::null_pointer(parameter));
            }
            out.write(make(plan)?);
            Ok(())
        })
    }
}

/// The item at the caller's `index`.
pub(crate) fn at<T>(parameter: &str, index: usize, items: impl IntoIterator<Item = T>) -> Result<T, Box<Failure>> {
    let mut count = 0;
    let found = items.into_iter().inspect(|_| count += 1).nth(index);
    match found {
        Some(item) => Ok(item),
        None => Err(Failure::index(parameter, index, count)),
    }
}

pub(crate) fn load_at(plan: &PlanHandle, index: usize) -> Result<&Load, Box<Failure>> {
    at("load", index, plan.plan.loads())
}

pub(crate) fn product_at(plan: &PlanHandle, index: usize) -> Result<&str, Box<Failure>> {
    at("product", index, plan.plan.job().products()).map(mixcalc::Product::name)
}

/// The recipe of the caller's load; a stop, which is said before a wrong index, gives none.
pub(crate) fn recipe_at(plan: &PlanHandle, load: usize) -> Result<Recipe<'_>, Box<Failure>> {
    at("load", load, plan.plan.try_cleared()?.recipes())
}

pub(crate) fn total_at(plan: &PlanHandle, product: usize) -> Result<Total<'_>, Box<Failure>> {
    at("product", product, plan.plan.try_cleared()?.totals())
}

/// A value and its unit, borrowed from the plan; NULL for none.
pub(crate) fn lent(plan: &PlanHandle, quantity: Option<Quantity>) -> (f64, *const c_char) {
    let parts = quantity.map(Quantity::to_told_parts);
    parts.map_or((0.0, null()), |(value, unit)| (value, plan.lend(&unit)))
}

/// A gap per ground area, as L/ha and as kg/ha: one of them is 0.
fn gap_per_ha(exact: mixcalc::Amount, gap: Quantity) -> (f64, f64) {
    match choice::kind_of(exact) {
        choice::MIXCALC_KIND_VOLUME => (value(gap), 0.0),
        _ => (0.0, value(gap)),
    }
}

/// The plan as a whole: whether it is usable, its totals, and how many there are of everything.
///
/// plan         from mixcalc_plan_new()
/// out_totals   starts as MIXCALC_TOTALS_INIT and receives the totals
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_totals), _STRUCT_SIZE (out_totals, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_totals(
    plan: *const PlanHandle,
    out_totals: *mut Totals,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |handle: &PlanHandle| {
        let plan = &handle.plan;
        let strip = plan.last_strip();
        let ground = Some(plan.job().ground()).filter(|ground| ground.is_by_parts());
        Ok(Totals {
            struct_size: size_of::<Totals>(),
            usable: plan.usable().into(),
            has_last_strip: strip.is_some().into(),
            safe_fill_l: value(plan.safe_fill()),
            area_ha: value(plan.job().area()),
            volume_rate_l_per_ha: value(plan.volume_rate()),
            carrier_rate_l_per_ha: value(plan.carrier_rate()),
            mix_l: value(plan.made()),
            carrier_l: value(plan.carrier()),
            area_made_for_ha: value(plan.area_made_for()),
            residual_l: value(plan.residual()),
            ground_short_ha: plan.ground_short().map_or(0.0, value),
            held_back_l: strip.map_or(0.0, |strip| value(strip.held_back())),
            last_strip_ha: strip.map_or(0.0, |strip| value(strip.area())),
            load_count: plan.load_count(),
            load_entries: plan.loads().len(),
            products: plan.job().products().len(),
            findings: plan.findings().len(),
            cautions: plan.cautions().count(),
            has_ground: ground.is_some().into(),
            reserved: 0,
            field_ha: ground.map_or(0.0, |ground| value(ground.field())),
            buffers_ha: ground.map_or(0.0, |ground| value(ground.buffered())),
            sprayed_twice_ha: ground.map_or(0.0, |ground| value(ground.sprayed_twice())),
            substances: plan.substances().len(),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_totals", out_totals), error, make) }
}

/// Equal loads that follow each other, in the order in which they are filled.
///
/// plan       from mixcalc_plan_new()
/// load       index of the entry: from 0, under the field load_entries of mixcalc_plan_totals()
/// out_load   starts as MIXCALC_LOAD_INIT and receives the load
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_load), _STRUCT_SIZE (out_load, error), _INDEX (load) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_load(
    plan: *const PlanHandle,
    load: usize,
    out_load: *mut LoadView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let steps = plan.plan.cleared().and_then(|cleared| Some(cleared.recipes().nth(load)?.steps().len()));
        let load = load_at(plan, load)?;
        Ok(LoadView {
            struct_size: size_of::<LoadView>(),
            first: load.first(),
            last: load.last(),
            count: load.count(),
            mix_l: value(load.mix()),
            carrier_l: value(plan.plan.carrier_in(load)),
            area_ha: value(load.area()),
            steps: steps.unwrap_or(0),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_load", out_load), error, make) }
}

/// Name of a product, in the order of the job.
///
/// plan       from mixcalc_plan_new()
/// product    index of the product: from 0, under the field products of mixcalc_plan_totals()
/// out_name   receives the name, borrowed from the plan
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_name), _STRUCT_SIZE (error), _INDEX (product) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_product_name(
    plan: *const PlanHandle,
    product: usize,
    out_name: *mut *const c_char,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { write(plan, ("out_name", out_name), error, |plan| Ok(plan.lend(product_at(plan, product)?))) }
}

/// What the dose of a product asks for in each of some equal loads, before anything is measured. A stopped plan has it too, to be
/// studied and not to be measured.
///
/// plan         from mixcalc_plan_new()
/// load         index of the load, as in mixcalc_plan_load()
/// product      index of the product, as in mixcalc_plan_product_name()
/// out_amount   receives the amount
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_amount), _STRUCT_SIZE (error), _INDEX (load, product) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_exact_amount(
    plan: *const PlanHandle,
    load: usize,
    product: usize,
    out_amount: *mut Amount,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| at("product", product, load_at(plan, load)?.exact_amounts()).map(Amount::of);
    // SAFETY: the caller's promise.
    unsafe { write(plan, ("out_amount", out_amount), error, make) }
}

/// What the dose of a product asks for in all loads, before anything is measured. A stopped plan has it too, to be studied and not
/// to be measured.
///
/// plan         from mixcalc_plan_new()
/// product      index of the product, as in mixcalc_plan_product_name()
/// out_amount   receives the amount
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_amount), _STRUCT_SIZE (error), _INDEX (product) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_exact_total(
    plan: *const PlanHandle,
    product: usize,
    out_amount: *mut Amount,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| at("product", product, plan.plan.exact_totals()).map(Amount::of);
    // SAFETY: the caller's promise.
    unsafe { write(plan, ("out_amount", out_amount), error, make) }
}

/// What is measured of a product into each of some equal loads: whole graduations of a measure, never over the maximum.
///
/// plan         from mixcalc_plan_new()
/// load         index of the load, as in mixcalc_plan_load()
/// product      index of the product, as in mixcalc_plan_product_name()
/// out_amount   starts as MIXCALC_MEASURED_AMOUNT_INIT and receives the amount
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_amount), _STRUCT_SIZE (out_amount, error), _INDEX (load, product),
/// _PLAN_STOPPED where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_measured_amount(
    plan: *const PlanHandle,
    load: usize,
    product: usize,
    out_amount: *mut MeasuredAmount,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let amount = at("product", product, recipe_at(plan, load)?.amounts())?;
        let measure = amount.measure();
        let mut groups = amount.fillings().groups().map(|(count, each)| (count, Amount::of(measure.shows(each))));
        let (fillings, filling) = groups.next().unwrap_or_default();
        let (_, last_filling) = groups.next().unwrap_or_default();
        let (gap_l_per_ha, gap_kg_per_ha) = gap_per_ha(amount.exact(), amount.dose_gap());
        Ok(MeasuredAmount {
            struct_size: size_of::<MeasuredAmount>(),
            product: plan.lend(amount.name()),
            measure: plan.lend(measure.name()),
            measure_kind: choice::measure(measure.kind()),
            reserved: 0,
            exact: Amount::of(amount.exact()),
            measured: Amount::of(amount.measured()),
            graduation: Amount::of(measure.graduation()),
            graduations: amount.graduations(),
            fillings,
            filling,
            last_filling,
            gap_percent: amount.gap().percent(),
            gap_l_per_ha,
            gap_kg_per_ha,
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_amount", out_amount), error, make) }
}

/// What is measured of a product into all loads.
///
/// plan        from mixcalc_plan_new()
/// product     index of the product, as in mixcalc_plan_product_name()
/// out_total   starts as MIXCALC_MEASURED_TOTAL_INIT and receives the total
/// error       may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_total), _STRUCT_SIZE (out_total, error), _INDEX (product),
/// _PLAN_STOPPED where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_measured_total(
    plan: *const PlanHandle,
    product: usize,
    out_total: *mut MeasuredTotal,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let total = total_at(plan, product)?;
        let (gap_l_per_ha, gap_kg_per_ha) = gap_per_ha(total.exact(), total.dose_gap());
        Ok(MeasuredTotal {
            struct_size: size_of::<MeasuredTotal>(),
            product: plan.lend(product_at(plan, product)?),
            exact: Amount::of(total.exact()),
            measured: Amount::of(total.measured()),
            gap_percent: total.gap().percent(),
            gap_l_per_ha,
            gap_kg_per_ha,
            measures: total.drawn().count(),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_total", out_total), error, make) }
}

/// How often a measure is filled to its graduation in all loads: what is drawn of a product, in integers.
///
/// plan        from mixcalc_plan_new()
/// product     index of the product, as in mixcalc_plan_product_name()
/// measure     index of the measure: from 0, under the field measures of mixcalc_plan_measured_total()
/// out_drawn   starts as MIXCALC_DRAWN_INIT and receives what is drawn
/// error       may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_drawn), _STRUCT_SIZE (out_drawn, error), _INDEX (product, measure),
/// _PLAN_STOPPED where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_drawn(
    plan: *const PlanHandle,
    product: usize,
    measure: usize,
    out_drawn: *mut Drawn,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let (measure, graduations) = at("measure", measure, total_at(plan, product)?.drawn())?;
        Ok(Drawn {
            struct_size: size_of::<Drawn>(),
            measure: plan.lend(measure.name()),
            measure_kind: choice::measure(measure.kind()),
            reserved: 0,
            graduation: Amount::of(measure.graduation()),
            graduations,
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_drawn", out_drawn), error, make) }
}

/// One step of each of some equal loads, in the order in which they are done.
///
/// plan       from mixcalc_plan_new()
/// load       index of the load, as in mixcalc_plan_load()
/// step       index of the step: from 0, under the field steps of mixcalc_plan_load()
/// out_step   starts as MIXCALC_STEP_INIT and receives the step
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_step), _STRUCT_SIZE (out_step, error), _INDEX (load, step),
/// _PLAN_STOPPED where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_step(
    plan: *const PlanHandle,
    load: usize,
    step: usize,
    out_step: *mut Step,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let recipe = recipe_at(plan, load)?;
        let step = at("step", step, recipe.steps())?;
        let product = match step.action() {
            Action::Measure { product }
            | Action::Premix { product, .. }
            | Action::Rinse { product, .. }
            | Action::RinseContainers { product, .. }
            | Action::Wait { product, .. } => Some(product),
            _ => None,
        };
        let uses_measure = matches!(step.action(), Action::Measure { .. } | Action::Rinse { .. });
        let amount = product.and_then(|product| recipe.amount(product));
        let level = match step.action() {
            Action::Fill { level, .. } | Action::TopUp { level, .. } => Some(level),
            _ => None,
        };
        let (mark, rest) = (level.and_then(Level::mark), level.and_then(Level::rest));
        let (times, each) = match step.action() {
            Action::Rinse { times, each, .. } | Action::RinseContainers { times, each, .. } => (times, each),
            _ => (0, Volume::ZERO),
        };
        let containers = match step.action() {
            Action::RinseContainers { containers, .. } => containers,
            _ => 0,
        };
        let (least, most) = match step.action() {
            Action::Wait { least, most, .. } => (value(least), most.map_or(0.0, value)),
            _ => (0.0, 0.0),
        };
        Ok(Step {
            struct_size: size_of::<Step>(),
            action: choice::action(step.action()),
            has_mark: mark.is_some().into(),
            has_rest: rest.is_some().into(),
            reserved: 0,
            product: amount.map_or(null(), |amount| plan.lend(amount.name())),
            product_index: product.unwrap_or(0),
            measure: amount.filter(|_| uses_measure).map_or(null(), |amount| plan.lend(amount.measure().name())),
            carrier_l: value(step.carrier()),
            mark_l: mark.map_or(0.0, value),
            rest_l: rest.map_or(0.0, value),
            times,
            each_l: value(each),
            in_tank_l: value(step.in_tank()),
            least_wait_s: least,
            most_wait_s: most,
            containers,
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_step", out_step), error, make) }
}

/// Where the carrier and the mix came from and went.
///
/// plan         from mixcalc_plan_new()
/// out_ledger   starts as MIXCALC_LEDGER_INIT and receives the accounts
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_ledger), _STRUCT_SIZE (out_ledger, error), _PLAN_STOPPED where a
/// stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_ledger(
    plan: *const PlanHandle,
    out_ledger: *mut LedgerView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let ledger = plan.plan.try_cleared().map(|cleared: Cleared<'_>| cleared.ledger())?;
        let carrier = ledger.carrier();
        Ok(LedgerView {
            struct_size: size_of::<LedgerView>(),
            carrier_drawn_l: value(carrier.drawn()),
            carrier_first_l: value(carrier.first()),
            carrier_premixed_l: value(carrier.premixed()),
            carrier_rinses_l: value(carrier.rinses()),
            carrier_topped_up_l: value(carrier.topped_up()),
            mix_made_l: value(ledger.made()),
            mix_sprayed_l: value(ledger.sprayed()),
            mix_residual_l: value(ledger.residual()),
            container_rinses_l: carrier.container_rinses().map_or(0.0, value),
            has_container_rinses: carrier.container_rinses().is_some().into(),
            reserved: 0,
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_ledger", out_ledger), error, make) }
}

/// Where a product came from and went.
///
/// plan          from mixcalc_plan_new()
/// product       index of the product, as in mixcalc_plan_product_name()
/// out_account   starts as MIXCALC_ACCOUNT_INIT and receives the account
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_account), _STRUCT_SIZE (out_account, error), _INDEX (product),
/// _PLAN_STOPPED where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_account(
    plan: *const PlanHandle,
    product: usize,
    out_account: *mut Account,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let ledger = plan.plan.try_cleared()?.ledger();
        let account = *at("product", product, ledger.products())?;
        Ok(Account {
            struct_size: size_of::<Account>(),
            product: plan.lend(product_at(plan, product)?),
            drawn: Amount::of(account.drawn()),
            in_loads: Amount::of(account.in_loads()),
            spilled: Amount::of(account.spilled()),
            stock: account.stock().map(Amount::of).unwrap_or_default(),
            left: account.left().map(Amount::of).unwrap_or_default(),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_account", out_account), error, make) }
}

/// What is to be said of a plan: stops first, then cautions, then notes.
///
/// plan          from mixcalc_plan_new()
/// finding       index of the finding: from 0, under the field findings of mixcalc_plan_totals()
/// out_finding   starts as MIXCALC_FINDING_INIT and receives the finding
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_finding), _STRUCT_SIZE (out_finding, error), _INDEX (finding) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_finding(
    plan: *const PlanHandle,
    finding: usize,
    out_finding: *mut FindingView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let (said, message) = at("finding", finding, plan.plan.findings().iter().zip(&plan.messages))?;
        let limit = said.limit();
        let (actual, actual_unit) = lent(plan, Finding::actual(said));
        let (limit_value, limit_unit) = lent(plan, limit.map(Limit::value));
        Ok(FindingView {
            struct_size: size_of::<FindingView>(),
            severity: choice::severity(said.severity()),
            bound: limit.map_or(0, |limit| choice::bound(limit.bound())),
            force: limit.map_or(0, |limit| choice::force(limit.force())),
            reserved: 0,
            code: plan.lend(said.code().name()),
            path: plan.lend(said.path()),
            message: message.as_ptr(),
            load: said.load().unwrap_or(0),
            actual,
            actual_unit,
            limit: limit_value,
            limit_unit,
            source: limit.map_or(null(), |limit| plan.lend(limit.source())),
            readings: said.readings().len(),
            helps: said.help().len(),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_finding", out_finding), error, make) }
}

/// A caution for people that goes with every plan: show all of them beside whatever you show of it.
///
/// plan          from mixcalc_plan_new()
/// caution       index of the caution: from 0, under the field cautions of mixcalc_plan_totals()
/// out_caution   starts as MIXCALC_CAUTION_INIT and receives the caution
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_caution), _STRUCT_SIZE (out_caution, error), _INDEX (caution) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_caution(
    plan: *const PlanHandle,
    caution: usize,
    out_caution: *mut CautionView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let caution = at("caution", caution, plan.plan.cautions())?;
        Ok(CautionView {
            struct_size: size_of::<CautionView>(),
            code: plan.lend(caution.code()),
            text: plan.lend(caution.text()),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_caution", out_caution), error, make) }
}
