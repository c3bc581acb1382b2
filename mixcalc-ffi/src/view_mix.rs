//! What a plan says of measuring, containers, water and what to take along.

use std::ffi::c_char;
use std::mem::size_of;
use std::ptr::null;

use mixcalc::{FieldList, Plan};

use crate::error::ErrorDetails;
use crate::plan::PlanHandle;
use crate::sized::first_release_ends_with;
use crate::view::{Amount, at, lent, load_at, product_at, recipe_at, show, total_at, value, write};

/// What mixcalc_plan_uncertainty() fills: how uncertain a measured amount is, with a coverage factor of 2.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct UncertaintyView {
    /// sizeof(mixcalc_uncertainty) of the caller.
    pub struct_size: usize,
    /// 1 where the measure states a class or a tolerance, else 0, and all below is 0.
    pub is_known: u32,
    /// Always 0.
    pub reserved: u32,
    /// In percent of the amount.
    pub percent: f64,
    /// The same as an amount.
    pub amount: Amount,
}

/// What mixcalc_plan_mix_uncertainty() fills: how uncertain the mix in each of some loads is, read on the tank's scale, with a coverage factor
/// of 2.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct MixUncertaintyView {
    /// sizeof(mixcalc_mix_uncertainty) of the caller.
    pub struct_size: usize,
    /// In percent of the mix; 0 where no mark is reached, as is the volume.
    pub percent: f64,
    /// The same as a volume, L.
    pub mix_l: f64,
}

/// What mixcalc_plan_emptied() fills: the containers of a product that some equal loads empty.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct EmptiedView {
    /// sizeof(mixcalc_emptied) of the caller.
    pub struct_size: usize,
    /// 1 where the job states the product's containers, else 0, and all below is 0.
    pub is_known: u32,
    /// Always 0.
    pub reserved: u32,
    /// How many.
    pub count: u64,
    /// How many loads mixcalc_plan_emptying_load() names: one for each container, the first twenty.
    pub loads: usize,
}

/// What mixcalc_plan_containers() fills: what the job does with the containers of a product. The one that is open is used up first.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct ContainersView {
    /// sizeof(mixcalc_containers) of the caller.
    pub struct_size: usize,
    /// 1 where the job states the product's containers, else 0, and all below is 0.
    pub is_known: u32,
    /// 1 where buy is known, else 0: it is not stated how many there are.
    pub has_buy: u32,
    /// What one holds.
    pub content: Amount,
    /// How many full ones are opened.
    pub opened: u64,
    /// How many are emptied, the one that was open among them.
    pub emptied: u64,
    /// What is left over in the last one that is opened.
    pub left: Amount,
    /// How many full ones to take along, of those there are.
    pub take: u64,
    /// How many to buy.
    pub buy: u64,
}

/// What mixcalc_plan_water() fills: what the water analysis of the job comes to.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct WaterView {
    /// sizeof(mixcalc_water) of the caller.
    pub struct_size: usize,
    /// Its hardness, as calcium carbonate, g/L.
    pub hardness_g_per_l: f64,
    /// soft, moderate, hard or very-hard; NULL where the job states no analysis, and then the numbers are 0. Borrowed from the plan.
    pub hardness_class: *const c_char,
    /// Ammonium sulfate per volume of mix that binds what is in it, g/L.
    pub ammonium_sulfate_need_g_per_l: f64,
}

/// What mixcalc_plan_load_size() fills: a size of loads with which every amount can be measured.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct LoadSizeView {
    /// sizeof(mixcalc_load_size) of the caller.
    pub struct_size: usize,
    /// Volume of mix in each of these loads, L.
    pub mix_l: f64,
    /// How many of them.
    pub count: u64,
    /// Volume of mix in the load after them, L; 0 where they make the whole.
    pub rest_l: f64,
    /// What is measured into each of them, of the product that is hard to measure.
    pub amount: Amount,
    /// What is measured into the load after them; its kind is 0 where there is none.
    pub rest_amount: Amount,
    /// The dose that this makes in each of them, in dose_unit.
    pub dose: f64,
    /// Its unit. Borrowed from the plan.
    pub dose_unit: *const c_char,
    /// How uncertain the amount is, in percent of it; 0 where its measure does not say so.
    pub uncertainty_percent: f64,
}

/// What mixcalc_plan_field_list() fills: what to take along beside the products, and how many there are of everything.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct FieldListView {
    /// sizeof(mixcalc_field_list) of the caller.
    pub struct_size: usize,
    /// What a spill kit holds. NULL where the job does not ask for a field list or a stop stands, and then all below is 0. Borrowed from the plan.
    pub spill_kit: *const c_char,
    /// Clean water in all, L.
    pub water_l: f64,
    /// For all loads, L: the carrier, the rinses below among it.
    pub carrier_l: f64,
    /// What of that is for rinsing measures, L.
    pub measure_rinses_l: f64,
    /// What of that is for rinsing emptied containers, L.
    pub container_rinses_l: f64,
    /// For rinsing the tank after spraying, L.
    pub tank_rinse_l: f64,
    /// For washing hands, L.
    pub hands_l: f64,
    /// For flushing eyes, L.
    pub eyes_l: f64,
    /// How many products: entries of mixcalc_plan_product_to_take().
    pub products: usize,
    /// How many measures: entries of mixcalc_plan_listed() of MIXCALC_LIST_MEASURES.
    pub measures: usize,
    /// How many things to wear for mixing: entries of MIXCALC_LIST_MIXING.
    pub mixing: usize,
    /// How many things to wear for spraying: entries of MIXCALC_LIST_SPRAYING.
    pub spraying: usize,
    /// Of how many products the job does not state what to wear: entries of MIXCALC_LIST_UNSTATED.
    pub unstated: usize,
}

/// What mixcalc_plan_product_to_take() fills: a product to take along.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct ProductToTakeView {
    /// sizeof(mixcalc_product_to_take) of the caller.
    pub struct_size: usize,
    /// Name of the product. Borrowed from the plan.
    pub product: *const c_char,
    /// What all loads take of it.
    pub amount: Amount,
    /// 1 where containers is known, else 0: the job states none.
    pub has_containers: u32,
    /// 1 where buy is known, else 0: it is not stated how many there are.
    pub has_buy: u32,
    /// How many of its containers go along, the one that is open among them.
    pub containers: u64,
    /// How many of them are still to be bought.
    pub buy: u64,
}

first_release_ends_with! {
    UncertaintyView.amount;
    MixUncertaintyView.mix_l;
    EmptiedView.loads;
    ContainersView.buy;
    WaterView.ammonium_sulfate_need_g_per_l;
    LoadSizeView.uncertainty_percent;
    FieldListView.unstated;
    ProductToTakeView.buy;
}

/// The measures that amounts are measured with.
pub const MIXCALC_LIST_MEASURES: u32 = 1;
/// What labels ask to be worn for mixing.
pub const MIXCALC_LIST_MIXING: u32 = 2;
/// What labels ask to be worn for spraying.
pub const MIXCALC_LIST_SPRAYING: u32 = 3;
/// Products of which the job does not state what to wear.
pub const MIXCALC_LIST_UNSTATED: u32 = 4;

/// The texts of a plan that are lent here.
pub(crate) fn texts(plan: &Plan) -> Vec<String> {
    let mut texts: Vec<String> =
        plan.job().water().map(|water| water.hardness_class().name().into()).into_iter().collect();
    texts.extend(plan.load_sizes().iter().map(|size| size.dose().to_told_parts().1));
    texts.extend(plan.findings().iter().flat_map(mixcalc::Finding::help).cloned());
    if let Some(list) = plan.field_list_asked() {
        texts.push(list.spill_kit().into());
        let told = [list.worn_for_mixing(), list.worn_for_spraying(), list.protection_unstated()];
        texts.extend(told.into_iter().flatten().map(|text| String::from(*text)));
        texts.extend(list.measures().iter().map(|measure| measure.name().into()));
    }
    texts
}

/// How uncertain the measured amount of a product in each of some equal loads is.
///
/// plan              from mixcalc_plan_new()
/// load              index of the load, as in mixcalc_plan_load()
/// product           index of the product, as in mixcalc_plan_product_name()
/// out_uncertainty   starts as MIXCALC_UNCERTAINTY_INIT and receives the uncertainty
/// error             may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_uncertainty), _STRUCT_SIZE (out_uncertainty, error), _INDEX (load, product),
/// _PLAN_STOPPED where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_uncertainty(
    plan: *const PlanHandle,
    load: usize,
    product: usize,
    out_uncertainty: *mut UncertaintyView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let amount = at("product", product, recipe_at(plan, load)?.amounts())?;
        let uncertainty = amount.uncertainty();
        Ok(UncertaintyView {
            struct_size: size_of::<UncertaintyView>(),
            is_known: uncertainty.is_some().into(),
            reserved: 0,
            percent: uncertainty.map_or(0.0, mixcalc::Ratio::percent),
            amount: amount.uncertain_amount().map(Amount::of).unwrap_or_default(),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_uncertainty", out_uncertainty), error, make) }
}

/// How uncertain the mix in each of some equal loads is, read on the tank's scale: by its check, or by what that of a new tank may be off.
///
/// plan              from mixcalc_plan_new()
/// load              index of the load, as in mixcalc_plan_load()
/// out_uncertainty   starts as MIXCALC_MIX_UNCERTAINTY_INIT and receives the uncertainty
/// error             may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_uncertainty), _STRUCT_SIZE (out_uncertainty, error), _INDEX (load) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_mix_uncertainty(
    plan: *const PlanHandle,
    load: usize,
    out_uncertainty: *mut MixUncertaintyView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let load = load_at(plan, load)?;
        Ok(MixUncertaintyView {
            struct_size: size_of::<MixUncertaintyView>(),
            percent: plan.plan.mix_uncertainty(load).map_or(0.0, mixcalc::Ratio::percent),
            mix_l: plan.plan.uncertain_mix(load).map_or(0.0, value),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_uncertainty", out_uncertainty), error, make) }
}

/// The containers of a product that some equal loads empty.
///
/// plan          from mixcalc_plan_new()
/// load          index of the load, as in mixcalc_plan_load()
/// product       index of the product, as in mixcalc_plan_product_name()
/// out_emptied   starts as MIXCALC_EMPTIED_INIT and receives the containers
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_emptied), _STRUCT_SIZE (out_emptied, error), _INDEX (load, product), _PLAN_STOPPED
/// where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_emptied(
    plan: *const PlanHandle,
    load: usize,
    product: usize,
    out_emptied: *mut EmptiedView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let emptied = at("product", product, recipe_at(plan, load)?.amounts())?.emptied();
        Ok(EmptiedView {
            struct_size: size_of::<EmptiedView>(),
            is_known: emptied.is_some().into(),
            reserved: 0,
            count: emptied.as_ref().map_or(0, mixcalc::EmptiedContainers::count),
            loads: emptied.as_ref().map_or(0, |emptied| emptied.loads().len()),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_emptied", out_emptied), error, make) }
}

/// The number of a load that empties a container.
///
/// plan       from mixcalc_plan_new()
/// load       index of the load, as in mixcalc_plan_load()
/// product    index of the product, as in mixcalc_plan_product_name()
/// emptied    index of the container: from 0, under the field loads of mixcalc_plan_emptied()
/// out_load   receives the number of the load, from 1
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_load), _STRUCT_SIZE (error), _INDEX (load, product, emptied), _PLAN_STOPPED where a
/// stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_emptying_load(
    plan: *const PlanHandle,
    load: usize,
    product: usize,
    emptied: usize,
    out_load: *mut u64,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let found = at("product", product, recipe_at(plan, load)?.amounts())?.emptied();
        at("emptied", emptied, found.iter().flat_map(|found| found.loads().to_vec()))
    };
    // SAFETY: the caller's promise.
    unsafe { write(plan, ("out_load", out_load), error, make) }
}

/// What the job does with the containers of a product.
///
/// plan             from mixcalc_plan_new()
/// product          index of the product, as in mixcalc_plan_product_name()
/// out_containers   starts as MIXCALC_CONTAINERS_INIT and receives the containers
/// error            may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_containers), _STRUCT_SIZE (out_containers, error), _INDEX (product), _PLAN_STOPPED
/// where a stop stands, or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_containers(
    plan: *const PlanHandle,
    product: usize,
    out_containers: *mut ContainersView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let used = total_at(plan, product)?.containers();
        Ok(ContainersView {
            struct_size: size_of::<ContainersView>(),
            is_known: used.is_some().into(),
            has_buy: used.and_then(|used| used.buy()).is_some().into(),
            content: used.map(|used| Amount::of(used.content())).unwrap_or_default(),
            opened: used.map_or(0, |used| used.opened()),
            emptied: used.map_or(0, |used| used.emptied()),
            left: used.map(|used| Amount::of(used.left())).unwrap_or_default(),
            take: used.map_or(0, |used| used.take()),
            buy: used.and_then(|used| used.buy()).unwrap_or(0),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_containers", out_containers), error, make) }
}

/// What the water analysis of the job comes to. A stopped plan has it too.
///
/// plan        from mixcalc_plan_new()
/// out_water   starts as MIXCALC_WATER_INIT and receives it
/// error       may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_water), _STRUCT_SIZE (out_water, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_water(
    plan: *const PlanHandle,
    out_water: *mut WaterView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let water = plan.plan.job().water();
        Ok(WaterView {
            struct_size: size_of::<WaterView>(),
            hardness_g_per_l: water.map_or(0.0, |water| value(water.hardness())),
            hardness_class: water.map_or(null(), |water| plan.lend(water.hardness_class().name())),
            ammonium_sulfate_need_g_per_l: water.map_or(0.0, |water| value(water.ammonium_sulfate_need())),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_water", out_water), error, make) }
}

/// A size of loads with which every amount can be measured, where one is hard to measure; the nearest to the plan's own first.
///
/// plan       from mixcalc_plan_new()
/// size       index of the size: from 0; there are three at most
/// out_size   starts as MIXCALC_LOAD_SIZE_INIT and receives the size
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_size), _STRUCT_SIZE (out_size, error), _INDEX (size; every index where nothing is hard
/// to measure, where no size does, and where a stop stands) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_load_size(
    plan: *const PlanHandle,
    size: usize,
    out_size: *mut LoadSizeView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let size = at("size", size, plan.plan.load_sizes())?;
        let (dose, dose_unit) = lent(plan, Some(size.dose()));
        Ok(LoadSizeView {
            struct_size: size_of::<LoadSizeView>(),
            mix_l: value(size.mix()),
            count: size.count(),
            rest_l: size.rest().map_or(0.0, value),
            amount: Amount::of(size.amount()),
            rest_amount: size.rest_amount().map(Amount::of).unwrap_or_default(),
            dose,
            dose_unit,
            uncertainty_percent: size.uncertainty().map_or(0.0, mixcalc::Ratio::percent),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_size", out_size), error, make) }
}

/// What would help with an amount that is hard to measure.
///
/// plan       from mixcalc_plan_new()
/// finding    index of the finding, as in mixcalc_plan_finding()
/// help       index of the sentence: from 0, under the field helps of mixcalc_plan_finding()
/// out_help   receives the sentence, borrowed from the plan
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_help), _STRUCT_SIZE (error), _INDEX (finding, help) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_help(
    plan: *const PlanHandle,
    finding: usize,
    help: usize,
    out_help: *mut *const c_char,
    error: *mut ErrorDetails,
) -> u32 {
    let make =
        |plan: &PlanHandle| Ok(plan.lend(at("help", help, at("finding", finding, plan.plan.findings())?.help())?));
    // SAFETY: the caller's promise.
    unsafe { write(plan, ("out_help", out_help), error, make) }
}

/// Everything to take along, where the job asks for it and no stop stands.
///
/// plan       from mixcalc_plan_new()
/// out_list   starts as MIXCALC_FIELD_LIST_INIT and receives the list
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_list), _STRUCT_SIZE (out_list, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_field_list(
    plan: *const PlanHandle,
    out_list: *mut FieldListView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let list = plan.plan.field_list_asked();
        let water =
            |of: fn(mixcalc::WaterToTake) -> mixcalc::Volume| list.as_ref().map_or(0.0, |list| value(of(list.water())));
        let count = |of: fn(&FieldList<'_>) -> usize| list.as_ref().map_or(0, of);
        Ok(FieldListView {
            struct_size: size_of::<FieldListView>(),
            spill_kit: list.as_ref().map_or(null(), |list| plan.lend(list.spill_kit())),
            water_l: water(mixcalc::WaterToTake::total),
            carrier_l: water(mixcalc::WaterToTake::carrier),
            measure_rinses_l: water(mixcalc::WaterToTake::measure_rinses),
            container_rinses_l: water(mixcalc::WaterToTake::container_rinses),
            tank_rinse_l: water(mixcalc::WaterToTake::tank_rinse),
            hands_l: water(mixcalc::WaterToTake::hands),
            eyes_l: water(mixcalc::WaterToTake::eyes),
            products: count(|list| list.products().len()),
            measures: count(|list| list.measures().len()),
            mixing: count(|list| list.worn_for_mixing().len()),
            spraying: count(|list| list.worn_for_spraying().len()),
            unstated: count(|list| list.protection_unstated().len()),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_list", out_list), error, make) }
}

/// A product to take along.
///
/// plan          from mixcalc_plan_new()
/// product       index of the product: from 0, under the field products of mixcalc_plan_field_list()
/// out_product   starts as MIXCALC_PRODUCT_TO_TAKE_INIT and receives the product
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_product), _STRUCT_SIZE (out_product, error), _INDEX (product; every index without a
/// field list) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_product_to_take(
    plan: *const PlanHandle,
    product: usize,
    out_product: *mut ProductToTakeView,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let list = plan.plan.field_list_asked();
        let taken = at("product", product, list.iter().flat_map(FieldList::products))?;
        Ok(ProductToTakeView {
            struct_size: size_of::<ProductToTakeView>(),
            product: plan.lend(product_at(plan, product)?),
            amount: Amount::of(taken.amount()),
            has_containers: taken.containers().is_some().into(),
            has_buy: taken.buy().is_some().into(),
            containers: taken.containers().unwrap_or(0),
            buy: taken.buy().unwrap_or(0),
        })
    };
    // SAFETY: the caller's promise.
    unsafe { show(plan, ("out_product", out_product), error, make) }
}

/// An entry of one of the lists of texts of the field list.
///
/// plan       from mixcalc_plan_new()
/// list       MIXCALC_LIST_MEASURES, _MIXING, _SPRAYING or _UNSTATED
/// entry      index of the entry: from 0, under the field of mixcalc_plan_field_list() that counts them
/// out_text   receives the text, borrowed from the plan
/// error      may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_text), _STRUCT_SIZE (error), _INDEX (entry; every index without a field list, and in
/// a list that is not known) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_listed(
    plan: *const PlanHandle,
    list: u32,
    entry: usize,
    out_text: *mut *const c_char,
    error: *mut ErrorDetails,
) -> u32 {
    let make = |plan: &PlanHandle| {
        let found = plan.plan.field_list_asked();
        let texts: Vec<&str> = match (&found, list) {
            (Some(found), MIXCALC_LIST_MEASURES) => found.measures().iter().map(|measure| measure.name()).collect(),
            (Some(found), MIXCALC_LIST_MIXING) => found.worn_for_mixing().to_vec(),
            (Some(found), MIXCALC_LIST_SPRAYING) => found.worn_for_spraying().to_vec(),
            (Some(found), MIXCALC_LIST_UNSTATED) => found.protection_unstated().to_vec(),
            _ => Vec::new(),
        };
        Ok(plan.lend(at("entry", entry, texts)?))
    };
    // SAFETY: the caller's promise.
    unsafe { write(plan, ("out_text", out_text), error, make) }
}
