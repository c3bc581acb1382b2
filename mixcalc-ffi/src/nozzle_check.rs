//! The nozzle check: catches of a boom in, what to do about each nozzle and about the set out.

use std::ffi::{CString, c_char};
use std::mem::size_of;
use std::ptr::null;

use mixcalc::{
    BoomSide, Bound, CheckedNozzle, CheckedSet, Flow, Force, Limit, NewNozzle, NozzleCatches, NozzleCheck,
    NozzleLimits, OutlierTest, Ratio,
};

use crate::border::answer;
use crate::choice;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::handle::{free, list, read};
use crate::sized::{Appended, fill, first_release_ends_with};
use crate::sum::named;
use crate::text::{lent, word};
use crate::uncertain::{UncertainHandle, answer_uncertain, claimed, percent};

/// What was caught from one nozzle: one to many repeats, all at one pressure. This struct never changes.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct Catches {
    /// Its name or number on the boom; ends in a zero byte.
    pub name: *const c_char,
    /// The catches as flows, L/min.
    pub repeats_l_per_min: *const f64,
    /// How many.
    pub repeats_count: usize,
    /// MIXCALC_BOOM_LEFT or _RIGHT; 0 where it is not said.
    pub side: u32,
    /// Always 0.
    pub reserved: u32,
}

/// How nozzles are to be checked. What is 0 or NULL is as advised, or not stated; one of rated and caught must be there, and not both.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct NozzleCheckView {
    /// sizeof(mixcalc_nozzle_check) of the caller.
    pub struct_size: usize,
    /// What a new nozzle gives at the pressure of the catches, as a table or a standard says. Gauge, clock and jug stand between it and the catches.
    pub rated: *const UncertainHandle,
    /// A new nozzle that was caught in the same way, at the same gauge, with the same clock and jug: what they do to all catches cancels. Its side is not
    /// looked at.
    pub caught: *const Catches,
    /// What all catches share, as a factor of about one: jug, clock, gauge.
    pub common: *const UncertainHandle,
    /// Standard deviation of one catch as a part of it, %, known from earlier work: for single catches.
    pub repeatability_percent: f64,
    /// Most that a nozzle may be off the mean of the set, %; advised are 5.
    pub of_mean_percent: f64,
    /// Most that a nozzle may be over a new one, %; advised are 10.
    pub over_new_percent: f64,
    /// Most that the sides may be apart, %; 10 in a standard.
    pub sides_percent: f64,
    /// Where the three above are written; must be there where one of them is.
    pub limits_source: *const c_char,
    /// How far from new an inspection allows a nozzle to be, %; 0 where no law is stated.
    pub reject_percent: f64,
    /// Which law says so; must be there where reject_percent is.
    pub reject_law: *const c_char,
}

first_release_ends_with! { NozzleCheckView.reject_law; }

/// What a check says of a set of nozzles. Made by mixcalc_check_nozzles(), given back with mixcalc_checked_free(). It never changes: any number of
/// threads may read one at once, and what is read from it is borrowed until it is given back.
#[derive(Debug)]
pub struct CheckedSetHandle {
    set: CheckedSet,
    nozzles: Vec<LentNozzle>,
    mean: UncertainHandle,
    of_new: UncertainHandle,
    shared: Option<UncertainHandle>,
    sides: Option<UncertainHandle>,
}

/// What the caller may borrow of one nozzle.
#[derive(Debug)]
struct LentNozzle {
    name: CString,
    flow: UncertainHandle,
    of_mean: UncertainHandle,
    of_new: UncertainHandle,
}

impl CheckedSetHandle {
    fn of(set: CheckedSet) -> Result<Self, Box<Failure>> {
        let lend = |nozzle: &CheckedNozzle| {
            Ok::<_, Box<Failure>>(LentNozzle {
                name: lent(&nozzle.name),
                flow: UncertainHandle::of(&nozzle.flow)?,
                of_mean: UncertainHandle::of(&nozzle.of_mean)?,
                of_new: UncertainHandle::of(&nozzle.of_new)?,
            })
        };
        Ok(Self {
            nozzles: set.nozzles.iter().map(lend).collect::<Result<_, _>>()?,
            mean: UncertainHandle::of(&set.mean)?,
            of_new: UncertainHandle::of(&set.of_new)?,
            shared: set.shared.as_ref().map(UncertainHandle::of).transpose()?,
            sides: set.sides.as_ref().map(|(apart, _)| UncertainHandle::of(apart)).transpose()?,
            set,
        })
    }
}

/// What mixcalc_checked_summary() fills: the set as a whole. Differences are parts of what is compared with.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct CheckedSetView {
    /// sizeof(mixcalc_checked_set) of the caller.
    pub struct_size: usize,
    /// What to do: MIXCALC_SET_KEEP and so on.
    pub advice: u32,
    /// Whether one nozzle is an outlier among them: MIXCALC_OUTLIER_NONE and so on; 0 for fewer than two nozzles.
    pub outlier_verdict: u32,
    /// The nozzle that is farthest from the mean, from 0, where a verdict is.
    pub outlier_farthest: usize,
    /// How many nozzles: entries of mixcalc_checked_nozzle_at().
    pub nozzles: usize,
    /// The mean flow; borrowed from the set.
    pub mean: *const UncertainHandle,
    /// How far the mean is from a new nozzle; borrowed from the set.
    pub of_new: *const UncertainHandle,
    /// The part of that which all nozzles have, where all differ in one direction; borrowed from the set; NULL for none.
    pub shared: *const UncertainHandle,
    /// How far left and right are apart; borrowed from the set; NULL unless both sides are stated.
    pub sides: *const UncertainHandle,
    /// Standard deviation of one catch, as a part of it, %.
    pub repeatability_percent: f64,
    /// Whether that is over its limit: MIXCALC_SIDE_UNDER and so on; 0 unless both sides are stated.
    pub sides_side: u32,
    /// Always 0.
    pub reserved: u32,
}

first_release_ends_with! { CheckedSetView.sides_side; }

/// What mixcalc_checked_nozzle_at() fills: what a check says of one nozzle. Differences are parts of what is compared with.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct CheckedNozzleView {
    /// sizeof(mixcalc_checked_nozzle) of the caller.
    pub struct_size: usize,
    /// Its name; borrowed from the set.
    pub name: *const c_char,
    /// Its flow; borrowed from the set.
    pub flow: *const UncertainHandle,
    /// How far it is from the mean of the set; borrowed from the set.
    pub of_mean: *const UncertainHandle,
    /// How far it is from a new nozzle; borrowed from the set.
    pub of_new: *const UncertainHandle,
    /// What to do: MIXCALC_NOZZLE_KEEP and so on.
    pub advice: u32,
    /// Whether it is beyond what an inspection allows: MIXCALC_SIDE_UNDER and so on; 0 where no law was stated.
    pub rejected: u32,
    /// Which of its repeats is farthest from their mean, from 0, where a verdict is.
    pub outlier_farthest: usize,
    /// Whether that one is an outlier: MIXCALC_OUTLIER_NONE and so on; 0 for fewer than two repeats.
    pub outlier_verdict: u32,
    /// Always 0.
    pub reserved: u32,
}

first_release_ends_with! { CheckedNozzleView.outlier_verdict; }

/// The catches of one nozzle; a failure names the place.
///
/// Name and repeats are NULL or point at what the struct says.
unsafe fn catches_of(at: &str, catches: &Catches) -> Result<NozzleCatches, Box<Failure>> {
    let place = |field: &str| format!("{at}.{field}");
    // SAFETY: the caller's promise.
    let (name, repeats) = unsafe {
        let repeats = list(&place("repeats_l_per_min"), catches.repeats_l_per_min, catches.repeats_count)?;
        (word(&place("name"), catches.name)?, repeats)
    };
    let mut flows = Vec::new();
    for (i, repeat) in repeats.iter().enumerate() {
        flows.push(named(&place(&format!("repeats[{i}]")), Flow::from_liters_per_minute(*repeat))?);
    }
    let made = named(at, NozzleCatches::new(&name, &flows))?;
    if catches.side == 0 {
        return Ok(made);
    }
    let side = choice::member(&place("side"), catches.side, &[BoomSide::Left, BoomSide::Right], choice::boom_side)?;
    Ok(made.on_side(side))
}

/// The check that the caller's struct asks for.
///
/// `check` is NULL or points at a struct as large as its `struct_size` says, whose pointers are NULL or good.
unsafe fn check_of(check: *const NozzleCheckView) -> Result<NozzleCheck, Box<Failure>> {
    if check.is_null() {
        return Err(Failure::null_pointer("check"));
    }
    // SAFETY: the caller's promise.
    if !unsafe { NozzleCheckView::is_sound(check) } {
        return Err(Failure::struct_size("check"));
    }
    // SAFETY: it is as large as this release's, as just checked; what it points at by the caller's promise.
    let check = unsafe { &*check };
    // SAFETY: as above.
    let new = unsafe {
        match (check.caught.as_ref(), check.rated.is_null()) {
            (Some(_), false) => return Err(Failure::both_given("check.rated", "rated and caught")),
            (Some(caught), true) => NewNozzle::Caught(catches_of("check.caught", caught)?),
            (None, _) => NewNozzle::Rated(claimed("check.rated", check.rated)?),
        }
    };
    // SAFETY: as above.
    let mut made = NozzleCheck::new(new).with_limits(unsafe { limits_of(check) }?);
    if !check.common.is_null() {
        // SAFETY: as above.
        made = made.with_common(&unsafe { claimed::<Ratio>("check.common", check.common) }?)?;
    }
    if check.repeatability_percent != 0.0 {
        made = made.with_repeatability(percent("repeatability", check.repeatability_percent)?)?;
    }
    Ok(made)
}

/// The limits that the caller's struct asks for.
///
/// Its texts are NULL or end in a zero byte.
unsafe fn limits_of(check: &NozzleCheckView) -> Result<NozzleLimits, Box<Failure>> {
    let mut limits = NozzleLimits::advised();
    let stated = [
        ("check.of_mean_percent", check.of_mean_percent, &mut limits.of_mean),
        ("check.over_new_percent", check.over_new_percent, &mut limits.over_new),
        ("check.sides_percent", check.sides_percent, &mut limits.sides),
    ];
    for (parameter, value, limit) in stated {
        if value != 0.0 {
            // SAFETY: the caller's promise on the struct's texts.
            let source = unsafe { word("check.limits_source", check.limits_source) }?;
            *limit = Limit::new(Bound::AtMost, percent(parameter, value)?, Force::Advice, &source);
        }
    }
    if check.reject_percent != 0.0 {
        // SAFETY: as above.
        let law = unsafe { word("check.reject_law", check.reject_law) }?;
        limits = limits.with_reject(percent("check.reject_percent", check.reject_percent)?, &law)?;
    }
    Ok(limits)
}

/// Judges the catches of the nozzles of a sprayer against a new nozzle and against their mean.
///
/// check           what to check against; start it with MIXCALC_NOZZLE_CHECK_INIT
/// catches         what was caught from each nozzle
/// catches_count   how many nozzles, 1 or more
/// out_set         receives what the check says; give it back with mixcalc_checked_free()
/// error           may be NULL
///
/// Repeats of all nozzles together give one repeatability; where no nozzle has two, it must be stated. Verdicts are made from intervals of 95 %.
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER, _LENGTH, _CHOICE (a side), _MISSING_INPUT, _BOTH_GIVEN (check.rated), _DUPLICATE_NAME, _WRONG_QUANTITY, _NOT_POSITIVE, _NOT_FINITE,
/// _OUT_OF_RANGE, _STRUCT_SIZE (check, error) or _PANIC. The error's path names the field.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_check_nozzles(
    check: *const NozzleCheckView,
    catches: *const Catches,
    catches_count: usize,
    out_set: *mut *mut CheckedSetHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_set, error, {
        let check = check_of(check)?;
        let mut all = Vec::new();
        for (i, nozzle) in list("catches", catches, catches_count)?.iter().enumerate() {
            all.push(catches_of(&format!("catches[{i}]"), nozzle)?);
        }
        CheckedSetHandle::of(check.judge(&all)?)
    })
}

/// Gives back what a check said. What was borrowed from it ends with it.
///
/// set   from mixcalc_check_nozzles(), not given back before, and read by no other thread any more; NULL is allowed and does nothing
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_checked_free(set: *mut CheckedSetHandle) {
    // SAFETY: the caller's promise.
    unsafe { free(set) };
}

fn told(test: Option<OutlierTest>) -> (u32, usize) {
    test.map_or((0, 0), |test| (choice::outlier_verdict(test.verdict), test.farthest))
}

fn borrowed(value: Option<&UncertainHandle>) -> *const UncertainHandle {
    value.map_or(null(), std::ptr::from_ref)
}

/// What a check says of the set as a whole.
///
/// set           the set
/// out_summary   filled; start it with MIXCALC_CHECKED_SET_INIT
/// error         may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (set, out_summary), _STRUCT_SIZE (out_summary, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_checked_summary(
    set: *const CheckedSetHandle,
    out_summary: *mut CheckedSetView,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        unsafe {
            fill("out_summary", out_summary, || {
                let all = read("set", set)?;
                let (outlier_verdict, outlier_farthest) = told(all.set.outlier);
                Ok(CheckedSetView {
                    struct_size: size_of::<CheckedSetView>(),
                    advice: choice::set_advice(all.set.advice),
                    outlier_verdict,
                    outlier_farthest,
                    nozzles: all.nozzles.len(),
                    mean: &raw const all.mean,
                    of_new: &raw const all.of_new,
                    shared: borrowed(all.shared.as_ref()),
                    sides: borrowed(all.sides.as_ref()),
                    repeatability_percent: all.set.repeatability.percent(),
                    sides_side: all.set.sides.as_ref().map_or(0, |(_, side)| choice::side(*side)),
                    reserved: 0,
                })
            })
        }
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// What a check says of one nozzle.
///
/// set          the set
/// index        which nozzle, from 0, in the order of the catches
/// out_nozzle   filled; start it with MIXCALC_CHECKED_NOZZLE_INIT
/// error        may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (set, out_nozzle), _INDEX, _STRUCT_SIZE (out_nozzle, error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_checked_nozzle_at(
    set: *const CheckedSetHandle,
    index: usize,
    out_nozzle: *mut CheckedNozzleView,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        unsafe {
            fill("out_nozzle", out_nozzle, || {
                let all = read("set", set)?;
                let both = all.set.nozzles.get(index).zip(all.nozzles.get(index));
                let (nozzle, lent) = both.ok_or_else(|| Failure::index("index", index, all.nozzles.len()))?;
                let (outlier_verdict, outlier_farthest) = told(nozzle.outlier);
                Ok(CheckedNozzleView {
                    struct_size: size_of::<CheckedNozzleView>(),
                    name: lent.name.as_ptr(),
                    flow: &raw const lent.flow,
                    of_mean: &raw const lent.of_mean,
                    of_new: &raw const lent.of_new,
                    advice: choice::nozzle_advice(nozzle.advice),
                    rejected: nozzle.rejected.map_or(0, choice::side),
                    outlier_farthest,
                    outlier_verdict,
                    reserved: 0,
                })
            })
        }
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}
