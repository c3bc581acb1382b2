//! The plan as a handle: made from a job document, written as documents and pages, given back.

use std::collections::BTreeMap;
use std::ffi::{CString, c_char};
use std::ptr::null;

use mixcalc::{Limit, Measure, Plan, Quantity, document, sheet};

use crate::border::answer;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::text::{hand_out, lent, taken};

/// A job worked out: loads, recipes, steps, ledger, findings. Made by mixcalc_plan_new(), given back with mixcalc_plan_free().
///
/// It never changes: any number of threads may read one plan at once. Every const char pointer that is read from it is borrowed: it
/// points into the plan and is good until the plan is given back.
#[derive(Debug)]
pub struct PlanHandle {
    pub(crate) plan: Plan,
    /// One sentence per finding.
    pub(crate) messages: Vec<CString>,
    /// Every other text that is lent, by itself.
    texts: BTreeMap<String, CString>,
}

impl PlanHandle {
    fn of(plan: Plan) -> Self {
        let products = plan.job().products();
        let mut own: Vec<String> = products.iter().map(|product| product.name().into()).collect();
        for amount in plan.cleared().iter().flat_map(mixcalc::Cleared::recipes).flat_map(|recipe| recipe.amounts()) {
            own.push(Measure::name(amount.measure()).into());
        }
        for finding in plan.findings() {
            own.extend([finding.code().name().into(), finding.path().into()]);
            own.extend(finding.limit().map(|limit| limit.source().into()));
            let values = [finding.actual(), finding.limit().map(Limit::value)];
            own.extend(values.into_iter().flatten().map(|value: Quantity| value.to_told_parts().1));
        }
        for caution in plan.cautions() {
            own.extend([caution.code().into(), caution.text().into()]);
        }
        own.extend(crate::view_label::texts(&plan));
        own.extend(crate::view_mix::texts(&plan));
        let messages = plan.findings().iter().map(|finding| lent(&finding.message())).collect();
        // One by one: collecting would sort first, and bring a sort of its own along.
        let mut texts = BTreeMap::new();
        for text in own {
            texts.entry(text).or_insert_with_key(|text| lent(text));
        }
        Self { plan, messages, texts }
    }

    /// A text of the plan, for the caller to borrow; NULL for one that is not the plan's.
    pub(crate) fn lend(&self, text: &str) -> *const c_char {
        self.texts.get(text).map_or(null(), |text| text.as_ptr())
    }
}

/// The plan that the caller's parameter `plan` is.
///
/// `plan` is NULL or came from `mixcalc_plan_new` and was not given back.
pub(crate) unsafe fn read<'a>(plan: *const PlanHandle) -> Result<&'a PlanHandle, Box<Failure>> {
    // SAFETY: the caller's promise.
    unsafe { plan.as_ref() }.ok_or_else(|| Failure::null_pointer("plan"))
}

/// Plans a job: loads, recipes in whole graduations, steps, ledger and findings.
///
/// job        the job document, "mixcalc-job/1", as JSON or TOML; its first character that is not blank tells which
/// job_len    length of job in bytes
/// out_plan   receives the plan; give it back with mixcalc_plan_free()
/// error      receives why there is no plan; may be NULL
///
/// MIXCALC_STATUS_OK means that the question is answered, not that the plan may be carried out: look at the field usable of
/// mixcalc_plan_totals(), or ask for amounts and be refused. The job is read and is not needed afterwards.
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (job, out_plan), _STRUCT_SIZE (error), _LENGTH (job_len), _PANIC, or what is
/// wrong with the job, 100 or above.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_new(
    job: *const c_char,
    job_len: usize,
    out_plan: *mut *mut PlanHandle,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        let job = unsafe { taken("job", job, job_len) }?;
        if out_plan.is_null() {
            return Err(Failure::null_pointer("out_plan"));
        }
        let plan = mixcalc::plan(&document::read_job(job)?)?;
        // SAFETY: the caller's promise.
        unsafe { out_plan.write(Box::into_raw(Box::new(PlanHandle::of(plan)))) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// Gives back a plan. Every text that was borrowed from it ends with it.
///
/// plan   from mixcalc_plan_new(), not given back before, and read by no other thread any more; NULL is allowed and does nothing
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_free(plan: *mut PlanHandle) {
    if !plan.is_null() {
        // SAFETY: the caller's promise: it came from `Box::into_raw` above.
        drop(unsafe { Box::from_raw(plan) });
    }
}

/// The plan document, "mixcalc-plan/1", as JSON: the same bytes here, in Rust and in Python.
///
/// plan       from mixcalc_plan_new()
/// out_text   receives the document; give it back with mixcalc_string_free()
/// out_len    receives its length in bytes, the zero byte at its end not counted; may be NULL
/// error      may be NULL
///
/// A plan with a stop has no measured amounts, no steps and no ledger here either.
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (plan, out_text), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_json(
    plan: *const PlanHandle,
    out_text: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { hand_out(out_text, out_len, error, || Ok(document::write_plan(&read(plan)?.plan))) }
}

/// The job of a plan as a document, "mixcalc-job/1", as JSON, every quantity in the one unit of its kind.
///
/// Parameters, result and thread safety are those of mixcalc_plan_json().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_job_json(
    plan: *const PlanHandle,
    out_text: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { hand_out(out_text, out_len, error, || Ok(document::write_job(read(plan)?.plan.job()))) }
}

/// How every number of a plan was reached, as a JSON list: place, value, formula, inputs, source.
///
/// Parameters, result and thread safety are those of mixcalc_plan_json().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_working_json(
    plan: *const PlanHandle,
    out_text: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { hand_out(out_text, out_len, error, || Ok(document::write_working(&read(plan)?.plan))) }
}

/// The load sheet as text of at most 80 columns: what to read first, what to measure into each load, and in which steps.
///
/// Parameters and thread safety are those of mixcalc_plan_json(). Returns what it returns, or MIXCALC_STATUS_PLAN_STOPPED where a
/// stop stands, and error then says which: such a plan has a findings page and no load sheet.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_sheet(
    plan: *const PlanHandle,
    out_text: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { hand_out(out_text, out_len, error, || Ok(sheet::text(&read(plan)?.plan.try_cleared()?))) }
}

/// The load sheet, and at its end how every number of the plan was reached.
///
/// Parameters, result and thread safety are those of mixcalc_plan_sheet().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_sheet_with_working(
    plan: *const PlanHandle,
    out_text: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { hand_out(out_text, out_len, error, || Ok(sheet::text_with_working(&read(plan)?.plan.try_cleared()?))) }
}

/// The findings page of any plan as text: no amounts and no steps. That of a stopped plan says first that it must not be mixed.
///
/// Parameters, result and thread safety are those of mixcalc_plan_json().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_plan_findings_page(
    plan: *const PlanHandle,
    out_text: *mut *mut c_char,
    out_len: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    // SAFETY: the caller's promise.
    unsafe { hand_out(out_text, out_len, error, || Ok(sheet::findings(&read(plan)?.plan))) }
}
