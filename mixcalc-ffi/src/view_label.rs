//! What a plan says of its products beside amounts: doses on every basis, the largest dose that is left, active substances, what a
//! value may have been meant as, and the mixing order.

use std::ffi::c_char;
use std::mem::size_of;
use std::ptr::null;

use mixcalc::{Finding, LargestDose, MixingOrder, Plan, Quantity};

use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::plan::PlanHandle;
use crate::sized::first_release_ends_with;
use crate::view::{Amount, at, lent, product_at, show, value, write};

/// What mixcalc_plan_product() fills: what the plan says of a product as a whole. A stopped plan has it too.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct ProductView {
    /// sizeof(mixcalc_product) of the caller.
    pub struct_size: usize,
    /// Name of the product. Borrowed from the plan, as is every text below.
    pub name: *const c_char,
    /// On how many bases the job says enough to tell its dose: entries of mixcalc_plan_dose().
    pub doses: usize,
    /// The largest dose that the limits given leave on the planned date, in largest_dose_unit: a sum, and no permission.
    pub largest_dose: f64,
    /// Its unit; NULL without a season, and where a limit could not be checked. Then all below is NULL or 0.
    pub largest_dose_unit: *const c_char,
    /// Which limit it comes from: max-treatments, min-interval, waiting-period, growth-stage, max-dose or cap.
    pub binding: *const c_char,
    /// The parcel on which it binds; NULL where parcels have no names.
    pub parcel: *const c_char,
    /// The limit itself, in limit_unit.
    pub limit: f64,
    /// Its unit; NULL where the limit is no amount.
    pub limit_unit: *const c_char,
    /// Where it stands.
    pub source: *const c_char,
}

/// What mixcalc_plan_dose() fills: a dose on a basis.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct DoseView {
    /// sizeof(mixcalc_dose) of the caller.
    pub struct_size: usize,
    /// What it is counted on: ground-area and so on. Borrowed from the plan.
    pub basis: *const c_char,
    /// The dose, in unit.
    pub dose: f64,
    /// Its unit, such as L/ha. Borrowed from the plan.
    pub unit: *const c_char,
}

/// What mixcalc_plan_substance() fills: what the plan brings out of an active substance, summed across products by name.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct SubstanceView {
    /// sizeof(mixcalc_substance) of the caller.
    pub struct_size: usize,
    /// The substance, or the acid or element that it is counted as. Borrowed from the plan.
    pub name: *const c_char,
    /// 1 where dose_kg_per_ha is known; 0 where a density is missing.
    pub has_dose: u32,
    /// 1 where exact_kg is known; 0 where a density is missing.
    pub has_exact: u32,
    /// 1 where measured_kg is known; 0 where a density is missing or a stop stands.
    pub has_measured: u32,
    /// Always 0.
    pub reserved: u32,
    /// Per ground area, kg/ha.
    pub dose_kg_per_ha: f64,
    /// In what the doses ask for, kg.
    pub exact_kg: f64,
    /// In what the measures show, kg.
    pub measured_kg: f64,
}

/// What mixcalc_plan_reading() fills: what a value that looks like a slip of the unit may have been meant as.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct ReadingView {
    /// sizeof(mixcalc_reading) of the caller.
    pub struct_size: usize,
    /// The value that it would be, in unit.
    pub value: f64,
    /// Its unit. Borrowed from the plan, as is every text below.
    pub unit: *const c_char,
    /// What was meant.
    pub meant: *const c_char,
    /// What was stated instead.
    pub stated: *const c_char,
}

/// What mixcalc_plan_mixing() fills: the order in which the products go into the tank. It is one of several that are published.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct MixingView {
    /// sizeof(mixcalc_mixing) of the caller.
    pub struct_size: usize,
    /// The profile that it follows where no label says otherwise; NULL where the job asks for none, and then all below is NULL or 0.
    /// Borrowed from the plan.
    pub profile: *const c_char,
    /// Who says so. Borrowed from the plan.
    pub source: *const c_char,
    /// How many products: entries of mixcalc_plan_ordered_product().
    pub products: usize,
    /// 1 where a jar test is asked for and no stop stands, else 0.
    pub has_jar_test: u32,
    /// Always 0.
    pub reserved: u32,
    /// Volume of mix in the jar, L.
    pub jar_mix_l: f64,
    /// Volume of carrier in the jar, L.
    pub jar_carrier_l: f64,
}

/// What mixcalc_plan_ordered_product() fills: a product's place in the mixing order.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct OrderedProductView {
    /// sizeof(mixcalc_ordered_product) of the caller.
    pub struct_size: usize,
    /// Its index, as in mixcalc_plan_product_name().
    pub product_index: usize,
    /// Name of the product. Borrowed from the plan, as is every text below.
    pub product: *const c_char,
    /// What it goes in with, such as suspension.
    pub group: *const c_char,
    /// Why it stands there, and who says so.
    pub reason: *const c_char,
}

first_release_ends_with! {
    ProductView.source;
    DoseView.unit;
    SubstanceView.measured_kg;
    ReadingView.stated;
    MixingView.jar_carrier_l;
    OrderedProductView.reason;
}

/// The texts of a plan that are lent here.
pub(crate) fn texts(plan: &Plan) -> Vec<String> {
    let unit = |quantity: Quantity| quantity.to_told_parts().1;
    let mut texts = Vec::new();
    for product in 0..plan.job().products().len() {
        for dose in plan.doses(product) {
            texts.extend([dose.basis().name().into(), unit(dose.into())]);
        }
    }
    for largest in plan.largest_doses().iter().flatten() {
        texts.extend([unit(largest.dose().into()), largest.binding().name().into(), largest.limit().source().into()]);
        texts.extend(largest.parcel().map(Into::into));
        texts.extend(largest.most().map(unit));
    }
    texts.extend(plan.substances().iter().map(|total| total.name().into()));
    for reading in plan.findings().iter().flat_map(Finding::readings) {
        texts.extend([unit(reading.value()), reading.meant().into(), reading.stated().into()]);
    }
    if let Some(order) = plan.mixing_order() {
        texts.extend([order.profile().name().into(), order.profile().source().into()]);
        for product in order.products() {
            texts.extend([product.group().name().into(), product.reason().into()]);
        }
    }
    texts
}

/// What the plan says of a product as a whole: on how many bases its dose is told, and the largest dose that the limits given leave.
///
/// plan          from mixcalc_plan_new()
/// product       index of the product: from 0, under the field products of mixcalc_plan_totals()
/// out_product   starts as MIXCALC_PRODUCT_INIT and receives the product
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_product), _STRUCT_SIZE (out_product, error), _INDEX (product) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_product(
    plan: *const PlanHandle,
    product: usize,
    out_product: *mut ProductView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let name = product_at(plan, product)?;
        let largest = plan.plan.largest_doses().into_iter().nth(product).flatten();
        let (largest_dose, largest_dose_unit) = lent(plan, largest.as_ref().map(|largest| largest.dose().into()));
        let (limit, limit_unit) = lent(plan, largest.as_ref().and_then(LargestDose::most));
        let text =
            |of: fn(&LargestDose) -> Option<&str>| largest.as_ref().and_then(of).map_or(null(), |text| plan.lend(text));
        Ok(ProductView {
            struct_size: size_of::<ProductView>(),
            name: plan.lend(name),
            doses: plan.plan.doses(product).len(),
            largest_dose,
            largest_dose_unit,
            binding: text(|largest| Some(largest.binding().name())),
            parcel: text(LargestDose::parcel),
            limit,
            limit_unit,
            source: text(|largest| Some(largest.limit().source())),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_product", out_product), error, make) }
}

/// The dose of a product on one basis: on ground area, on mix, and on what else the job says enough of.
///
/// plan       from mixcalc_plan_new()
/// product    index of the product, as in mixcalc_plan_product()
/// dose       index of the dose: from 0, under the field doses of mixcalc_plan_product()
/// out_dose   starts as MIXCALC_DOSE_INIT and receives the dose
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_dose), _STRUCT_SIZE (out_dose, error), _INDEX (product, dose) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_dose(
    plan: *const PlanHandle,
    product: usize,
    dose: usize,
    out_dose: *mut DoseView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        product_at(plan, product)?;
        let found = at("dose", dose, plan.plan.doses(product))?;
        let (dose, unit) = lent(plan, Some(found.into()));
        Ok(DoseView { struct_size: size_of::<DoseView>(), basis: plan.lend(found.basis().name()), dose, unit })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_dose", out_dose), error, make) }
}

/// What the plan brings out of an active substance.
///
/// plan            from mixcalc_plan_new()
/// substance       index of the substance: from 0, under the field substances of mixcalc_plan_totals()
/// out_substance   starts as MIXCALC_SUBSTANCE_INIT and receives the substance
/// error           may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_substance), _STRUCT_SIZE (out_substance, error), _INDEX (substance) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_substance(
    plan: *const PlanHandle,
    substance: usize,
    out_substance: *mut SubstanceView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let total = at("substance", substance, plan.plan.substances())?;
        Ok(SubstanceView {
            struct_size: size_of::<SubstanceView>(),
            name: plan.lend(total.name()),
            has_dose: total.dose().is_some().into(),
            has_exact: total.exact().is_some().into(),
            has_measured: total.measured().is_some().into(),
            reserved: 0,
            dose_kg_per_ha: total.dose().map_or(0.0, value),
            exact_kg: total.exact().map_or(0.0, value),
            measured_kg: total.measured().map_or(0.0, value),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_substance", out_substance), error, make) }
}

/// What a value may have been meant as, the likeliest first.
///
/// plan          from mixcalc_plan_new()
/// finding       index of the finding, as in mixcalc_plan_finding()
/// reading       index of the reading: from 0, under the field readings of mixcalc_plan_finding()
/// out_reading   starts as MIXCALC_READING_INIT and receives the reading
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_reading), _STRUCT_SIZE (out_reading, error), _INDEX (finding, reading) or
/// _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_reading(
    plan: *const PlanHandle,
    finding: usize,
    reading: usize,
    out_reading: *mut ReadingView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let reading = at("reading", reading, at("finding", finding, plan.plan.findings())?.readings())?;
        let (value, unit) = lent(plan, Some(reading.value()));
        Ok(ReadingView {
            struct_size: size_of::<ReadingView>(),
            value,
            unit,
            meant: plan.lend(reading.meant()),
            stated: plan.lend(reading.stated()),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_reading", out_reading), error, make) }
}

/// The order in which the products go into the tank, and what goes into a jar before.
///
/// plan         from mixcalc_plan_new()
/// out_mixing   starts as MIXCALC_MIXING_INIT and receives the order
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_mixing), _STRUCT_SIZE (out_mixing, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_mixing(
    plan: *const PlanHandle,
    out_mixing: *mut MixingView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let order = plan.plan.mixing_order();
        let jar = plan.plan.jar_test_asked();
        Ok(MixingView {
            struct_size: size_of::<MixingView>(),
            profile: order.map_or(null(), |order| plan.lend(order.profile().name())),
            source: order.map_or(null(), |order| plan.lend(order.profile().source())),
            products: order.map_or(0, |order| order.products().len()),
            has_jar_test: jar.is_some().into(),
            reserved: 0,
            jar_mix_l: jar.as_ref().map_or(0.0, |jar| value(jar.volume())),
            jar_carrier_l: jar.as_ref().map_or(0.0, |jar| value(jar.carrier())),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_mixing", out_mixing), error, make) }
}

/// A product's place in the mixing order, with its reason.
///
/// plan          from mixcalc_plan_new()
/// place         index of the place: from 0, under the field products of mixcalc_plan_mixing()
/// out_product   starts as MIXCALC_ORDERED_PRODUCT_INIT and receives the product
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_product), _STRUCT_SIZE (out_product, error), _INDEX (place) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_ordered_product(
    plan: *const PlanHandle,
    place: usize,
    out_product: *mut OrderedProductView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let order = plan.plan.mixing_order().map_or(&[][..], MixingOrder::products);
        let found = at("place", place, order)?;
        Ok(OrderedProductView {
            struct_size: size_of::<OrderedProductView>(),
            product_index: found.product(),
            product: plan.lend(product_at(plan, found.product())?),
            group: plan.lend(found.group().name()),
            reason: plan.lend(found.reason()),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_product", out_product), error, make) }
}

/// What goes into the jar of a jar test of a product, as its dose asks for.
///
/// plan         from mixcalc_plan_new()
/// product      index of the product, as in mixcalc_plan_product_name()
/// out_amount   receives the amount
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_amount), _STRUCT_SIZE (error), _INDEX (product; every index without a jar
/// test) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_jar_amount(
    plan: *const PlanHandle,
    product: usize,
    out_amount: *mut Amount,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| -> Result<Amount, Box<Failure>> {
        let jar = plan.plan.jar_test_asked();
        at("product", product, jar.iter().flat_map(mixcalc::JarTest::amounts)).map(|amount| Amount::of(*amount))
    };
    // SAFETY: the caller's promise.
    unsafe { write(plan, ("out_amount", out_amount), error, make) }
}
