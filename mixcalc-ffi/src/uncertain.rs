//! Uncertain quantities as handles: made from what was measured, combined, read out, given back.

use std::ffi::{CString, c_char};
use std::mem::size_of;
use std::sync::OnceLock;

use mixcalc::{AdditiveKind, DegreesOfFreedom, Error, Interval, Quantity, Ratio, Uncertain, UncertainQuantity};

use crate::border::answer;
use crate::choice;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::handle::{free, list, read, room};
use crate::quantity::kind_named;
use crate::sized::{fill, first_release_ends_with};
use crate::text::{lent, word};

/// A value with its uncertainty and with what each input contributes to it. Made by mixcalc_uncertain_exact() and the functions beside it, given back with
/// mixcalc_uncertain_free().
///
/// It never changes: any number of threads may read one at once. The name of an input is its identity: what two values share, such as one stopwatch, is an
/// input of one name in both, and counts once.
#[derive(Debug)]
pub struct UncertainHandle {
    pub(crate) value: UncertainQuantity,
    contributions: OnceLock<Vec<LentContribution>>,
}

/// A contribution whose name the caller may borrow.
#[derive(Debug)]
struct LentContribution {
    name: CString,
    standard_uncertainty: Quantity,
    share_of_variance: Ratio,
}

impl UncertainHandle {
    pub(crate) const fn new(value: UncertainQuantity) -> Self {
        Self { value, contributions: OnceLock::new() }
    }

    pub(crate) fn of<Q: AdditiveKind>(value: &Uncertain<Q>) -> Result<Self, Error> {
        UncertainQuantity::of(value).map(Self::new)
    }

    fn contributions(&self) -> &[LentContribution] {
        self.contributions.get_or_init(|| {
            let lend = |contribution: &mixcalc::Contribution<Quantity>| LentContribution {
                name: lent(contribution.name()),
                standard_uncertainty: contribution.standard_uncertainty(),
                share_of_variance: contribution.share_of_variance(),
            };
            self.value.contributions().iter().map(lend).collect()
        })
    }
}

/// What mixcalc_uncertain_contribution() fills: what one input adds to a standard uncertainty.
#[derive(Clone, Copy, Debug)]
#[repr(C)]
pub struct ContributionView {
    /// sizeof(mixcalc_contribution) of the caller.
    pub struct_size: usize,
    /// Name of the input; borrowed from the uncertain value.
    pub name: *const c_char,
    /// The standard uncertainty that the value would have from this input alone, in the unit that was asked for.
    pub standard_uncertainty: f64,
    /// Its part of the squared standard uncertainty, %; these add up to 100.
    pub share_of_variance_percent: f64,
}

first_release_ends_with! { ContributionView.share_of_variance_percent; }

/// A value of the caller as of a kind; a failure names the parameter.
///
/// `value` is NULL or came from this library and was not given back.
pub(crate) unsafe fn claimed<Q: AdditiveKind>(
    parameter: &str,
    value: *const UncertainHandle,
) -> Result<Uncertain<Q>, Box<Failure>> {
    // SAFETY: the caller's promise.
    let value = unsafe { read(parameter, value) }?;
    value.value.claim().map_err(|error| Box::<Failure>::from(error).at(parameter))
}

/// A number with a unit word as a quantity, as documents hold it; a failure names the parameter.
pub(crate) fn quantity(parameter: &str, value: f64, unit: &str) -> Result<Quantity, Box<Failure>> {
    let parts = Quantity::from_parts(value, unit).map_err(|error| Box::<Failure>::from(error).at(parameter))?;
    Ok(parts.documented())
}

/// A part that the caller says in percent.
pub(crate) fn percent(parameter: &str, value: f64) -> Result<Ratio, Box<Failure>> {
    Ratio::from_percent(value).map_err(|error| Box::<Failure>::from(error).at(parameter))
}

/// Writes both ends of an interval in a unit, or neither.
///
/// The ends are NULL or have room for a number; the unit is NULL or ends in a zero byte.
pub(crate) unsafe fn write_interval(
    out_low: *mut f64,
    out_high: *mut f64,
    unit: *const c_char,
    interval: impl FnOnce() -> Result<Interval<Quantity>, Box<Failure>>,
) -> Result<(), Box<Failure>> {
    let (out_low, out_high) = (room("out_low", out_low)?, room("out_high", out_high)?);
    let interval = interval()?;
    // SAFETY: the caller's promise.
    let unit = unsafe { word("unit", unit) }?;
    let (low, high) = (interval.low().to(&unit)?, interval.high().to(&unit)?);
    // SAFETY: there is room, as just checked.
    unsafe {
        out_low.write(low);
        out_high.write(high);
    }
    Ok(())
}

fn degrees_of_freedom(value: f64) -> Result<DegreesOfFreedom, Box<Failure>> {
    if value == f64::INFINITY {
        return Ok(DegreesOfFreedom::INFINITE);
    }
    let number = Ratio::from_number(value).map_err(|error| Box::<Failure>::from(error).at("degrees_of_freedom"))?;
    Ok(DegreesOfFreedom::new(number)?)
}

/// The body of a function that makes an uncertain value.
macro_rules! answer_uncertain {
    ($out:ident, $error:ident, $make:expr) => {{
        let body = || {
            // SAFETY: the caller's promise.
            unsafe {
                $crate::handle::hand_over(stringify!($out), $out, || {
                    let made: Result<_, Box<$crate::failure::Failure>> = $make;
                    made
                })
            }
        };
        // SAFETY: the caller's promise.
        unsafe { $crate::border::answer($error, body) }
    }};
}
pub(crate) use answer_uncertain;

/// The body of a function that makes an uncertain value of two.
macro_rules! answer_combined {
    ($a:ident, $b:ident, $out:ident, $error:ident, $combine:ident) => {
        answer_uncertain!($out, $error, {
            let (a, b) = (read(stringify!($a), $a)?, read(stringify!($b), $b)?);
            Ok(UncertainHandle::new(a.value.$combine(&b.value)?))
        })
    };
}

/// The body of a function that makes an uncertain value of a list.
macro_rules! answer_of_all {
    ($values:ident, $count:ident, $out:ident, $error:ident, $combine:ident) => {
        answer_uncertain!($out, $error, {
            let mut all = Vec::new();
            for (i, value) in list("values", $values, $count)?.iter().enumerate() {
                all.push(read(&format!("values[{i}]"), *value)?.value.clone());
            }
            Ok(UncertainHandle::new(UncertainQuantity::$combine(&all)?))
        })
    };
}

/// The body of a function that reads one number.
macro_rules! answer_number {
    ($out:ident, $error:ident, $make:expr) => {{
        let body = || {
            let out = room(stringify!($out), $out)?;
            // SAFETY: the caller's promise.
            let answered = unsafe { $make };
            // SAFETY: the caller's promise.
            unsafe { out.write(answered) };
            Ok(())
        };
        // SAFETY: the caller's promise.
        unsafe { answer($error, body) }
    }};
}

/// A value that is taken as it stands.
///
/// value           the number
/// unit            its unit, such as "US gal/ac"; "1" or "%" for a ratio; ends in a zero byte
/// out_uncertain   receives the value; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (unit, out_uncertain), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _OUT_OF_RANGE, _WRONG_QUANTITY (a
/// temperature), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_exact(
    value: f64,
    unit: *const c_char,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, {
        let unit = word("unit", unit)?;
        Ok(UncertainHandle::new(UncertainQuantity::exact(quantity("value", value, &unit)?)?))
    })
}

/// A value with a standard uncertainty, such as a certificate states it.
///
/// name                   of the input; ends in a zero byte
/// value                  the number
/// standard_uncertainty   its standard uncertainty, in the same unit, 0 or more
/// degrees_of_freedom     how well that is known, 1 or more; INFINITY where it is taken as certain
/// unit                   the unit of both; ends in a zero byte
/// out_uncertain          receives the value; give it back with mixcalc_uncertain_free()
/// error                  may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (name, unit, out_uncertain), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _MISSING_INPUT (a blank name),
/// _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_from_standard_uncertainty(
    name: *const c_char,
    value: f64,
    standard_uncertainty: f64,
    degrees_of_freedom: f64,
    unit: *const c_char,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, {
        let (name, unit) = (word("name", name)?, word("unit", unit)?);
        let (value, u) =
            (quantity("value", value, &unit)?, quantity("standard_uncertainty", standard_uncertainty, &unit)?);
        let degrees = self::degrees_of_freedom(degrees_of_freedom)?;
        Ok(UncertainHandle::new(UncertainQuantity::from_standard_uncertainty(&name, value, u, degrees)?))
    })
}

/// The mean of two or more repeats of one value, with the standard uncertainty that their spread shows.
///
/// name            of the input; ends in a zero byte
/// repeats         the numbers
/// repeats_count   how many
/// unit            the unit of all; ends in a zero byte
/// out_uncertain   receives the mean; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (name, repeats, unit, out_uncertain), _LENGTH (repeats_count), _MISSING_INPUT (a blank name, fewer than two
/// repeats), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _OUT_OF_RANGE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_from_repeats(
    name: *const c_char,
    repeats: *const f64,
    repeats_count: usize,
    unit: *const c_char,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, {
        let (name, unit) = (word("name", name)?, word("unit", unit)?);
        let repeats = quantities("repeats", list("repeats", repeats, repeats_count)?, &unit)?;
        Ok(UncertainHandle::new(UncertainQuantity::from_repeats(&name, &repeats)?))
    })
}

fn quantities(parameter: &str, values: &[f64], unit: &str) -> Result<Vec<Quantity>, Box<Failure>> {
    values.iter().enumerate().map(|(i, value)| quantity(&format!("{parameter}[{i}]"), *value, unit)).collect()
}

/// A value that may be off by a tolerance to either side, anywhere within it alike.
///
/// name            of the input; ends in a zero byte
/// value           the number
/// half_width      the most that it is off, in the same unit, 0 or more
/// unit            the unit of both; ends in a zero byte
/// out_uncertain   receives the value; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns what mixcalc_uncertain_from_standard_uncertainty() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_from_tolerance(
    name: *const c_char,
    value: f64,
    half_width: f64,
    unit: *const c_char,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, {
        let (name, unit) = (word("name", name)?, word("unit", unit)?);
        let (value, half_width) = (quantity("value", value, &unit)?, quantity("half_width", half_width, &unit)?);
        Ok(UncertainHandle::new(UncertainQuantity::from_tolerance(&name, value, half_width)?))
    })
}

/// A value that was read from a display or a scale: off by half of a step to either side.
///
/// name            of the input; ends in a zero byte
/// value           the number
/// resolution      the step, in the same unit, 0 or more
/// unit            the unit of both; ends in a zero byte
/// out_uncertain   receives the value; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns what mixcalc_uncertain_from_standard_uncertainty() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_from_resolution(
    name: *const c_char,
    value: f64,
    resolution: f64,
    unit: *const c_char,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, {
        let (name, unit) = (word("name", name)?, word("unit", unit)?);
        let (value, resolution) = (quantity("value", value, &unit)?, quantity("resolution", resolution, &unit)?);
        Ok(UncertainHandle::new(UncertainQuantity::from_resolution(&name, value, resolution)?))
    })
}

/// A value with an expanded uncertainty, as most certificates state it.
///
/// name                   of the input; ends in a zero byte
/// value                  the number
/// expanded_uncertainty   half the width of its interval, in the same unit, 0 or more
/// coverage_factor        how many standard uncertainties that is, above 0; mostly 2
/// degrees_of_freedom     how well that is known, 1 or more; INFINITY where it is taken as certain
/// unit                   the unit of both; ends in a zero byte
/// out_uncertain          receives the value; give it back with mixcalc_uncertain_free()
/// error                  may be NULL
///
/// Returns what mixcalc_uncertain_from_standard_uncertainty() returns, and _NOT_POSITIVE (coverage_factor).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_from_expanded_uncertainty(
    name: *const c_char,
    value: f64,
    expanded_uncertainty: f64,
    coverage_factor: f64,
    degrees_of_freedom: f64,
    unit: *const c_char,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, {
        let (name, unit) = (word("name", name)?, word("unit", unit)?);
        let value = quantity("value", value, &unit)?;
        let expanded = quantity("expanded_uncertainty", expanded_uncertainty, &unit)?;
        let factor =
            Ratio::from_number(coverage_factor).map_err(|error| Box::<Failure>::from(error).at("coverage_factor"))?;
        let degrees = self::degrees_of_freedom(degrees_of_freedom)?;
        let made = UncertainQuantity::from_expanded_uncertainty(&name, value, expanded, factor, degrees)?;
        Ok(UncertainHandle::new(made))
    })
}

/// The same value once more, with a life of its own.
///
/// uncertain       the value
/// out_uncertain   receives the copy; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, out_uncertain), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_clone(
    uncertain: *const UncertainHandle,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, Ok(UncertainHandle::new(read("uncertain", uncertain)?.value.clone())))
}

/// Gives back an uncertain value. Every name that was borrowed from it ends with it.
///
/// uncertain   handed out by this library, not lent by another handle, not given back before, and read by no other thread any more; NULL is allowed and
///             does nothing
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_free(uncertain: *mut UncertainHandle) {
    // SAFETY: the caller's promise.
    unsafe { free(uncertain) };
}

/// Claims a value as of a kind: a volume per area as a volume rate, say.
///
/// uncertain       the value
/// kind            "volume rate", "liquid dose", "area" and so on, the words of the library for its kinds; ends in a zero byte
/// out_uncertain   receives the value; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, kind, out_uncertain), _KIND, _WRONG_QUANTITY, _AMBIGUOUS_UNIT, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_claim(
    uncertain: *const UncertainHandle,
    kind: *const c_char,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, {
        let (value, kind) = (read("uncertain", uncertain)?, kind_named(&word("kind", kind)?)?);
        Ok(UncertainHandle::new(value.value.claim_kind(kind)?))
    })
}

/// The sum of two values.
///
/// a, b            the values, of one kind
/// out_uncertain   receives the sum; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (a, b, out_uncertain), _UNLIKE_QUANTITIES, _DUPLICATE_NAME (one name for different inputs),
/// _OUT_OF_RANGE, _NOT_FINITE, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_plus(
    a: *const UncertainHandle,
    b: *const UncertainHandle,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_combined!(a, b, out_uncertain, error, plus)
}

/// The difference of two values; of a value and itself, exactly nothing.
///
/// Parameters and result are those of mixcalc_uncertain_plus().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_minus(
    a: *const UncertainHandle,
    b: *const UncertainHandle,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_combined!(a, b, out_uncertain, error, minus)
}

/// The product of two values, of the kind that the identities of quantities give it.
///
/// Parameters and result are those of mixcalc_uncertain_plus(); the values may be of any kinds.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_times(
    a: *const UncertainHandle,
    b: *const UncertainHandle,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_combined!(a, b, out_uncertain, error, times)
}

/// The quotient of two values, a over b, of the kind that the identities of quantities give it.
///
/// Parameters and result are those of mixcalc_uncertain_times(), and _NOT_FINITE where b is zero.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_over(
    a: *const UncertainHandle,
    b: *const UncertainHandle,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_combined!(a, b, out_uncertain, error, over)
}

/// A ratio to a power, which may be uncertain itself.
///
/// ratio           above 0
/// exponent        a ratio
/// out_uncertain   receives the power; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns what mixcalc_uncertain_plus() returns, and _WRONG_QUANTITY, _NOT_POSITIVE (ratio).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_power(
    ratio: *const UncertainHandle,
    exponent: *const UncertainHandle,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_combined!(ratio, exponent, out_uncertain, error, power)
}

/// The natural logarithm of a ratio.
///
/// ratio           above 0
/// out_uncertain   receives the logarithm; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns what mixcalc_uncertain_power() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_logarithm(
    ratio: *const UncertainHandle,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_uncertain!(out_uncertain, error, Ok(UncertainHandle::new(read("ratio", ratio)?.value.logarithm()?)))
}

/// The sum of any number of values; their order changes no digit.
///
/// values          the values, of one kind
/// values_count    how many, 1 or more
/// out_uncertain   receives the sum; give it back with mixcalc_uncertain_free()
/// error           may be NULL
///
/// Returns what mixcalc_uncertain_plus() returns, and _LENGTH (values_count), _MISSING_INPUT (no values).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_sum(
    values: *const *const UncertainHandle,
    values_count: usize,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_of_all!(values, values_count, out_uncertain, error, sum)
}

/// The mean of different values, such as the flows of the nozzles on a boom. For repeats of one value: mixcalc_uncertain_from_repeats().
///
/// Parameters and result are those of mixcalc_uncertain_sum().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_mean(
    values: *const *const UncertainHandle,
    values_count: usize,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_of_all!(values, values_count, out_uncertain, error, mean)
}

/// The harmonic mean of different values: of speeds over courses of equal length the speed that counts.
///
/// Parameters and result are those of mixcalc_uncertain_sum(), and _NOT_POSITIVE for a value that is not above 0.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_harmonic_mean(
    values: *const *const UncertainHandle,
    values_count: usize,
    out_uncertain: *mut *mut UncertainHandle,
    error: *mut ErrorDetails,
) -> u32 {
    answer_of_all!(values, values_count, out_uncertain, error, harmonic_mean)
}

/// The value itself.
///
/// uncertain   the value
/// unit        the unit that is asked for; ends in a zero byte
/// out_value   receives the number in unit
/// error       may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, unit, out_value), _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _WRONG_QUANTITY, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_value(
    uncertain: *const UncertainHandle,
    unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(out_value, error, read("uncertain", uncertain)?.value.value().to(&word("unit", unit)?)?)
}

/// Its standard uncertainty.
///
/// Parameters and result are those of mixcalc_uncertain_value().
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_standard_uncertainty(
    uncertain: *const UncertainHandle,
    unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(
        out_value,
        error,
        read("uncertain", uncertain)?.value.standard_uncertainty().to(&word("unit", unit)?)?
    )
}

/// How well its standard uncertainty is known: the effective degrees of freedom.
///
/// uncertain                the value
/// out_degrees_of_freedom   receives how many; INFINITY where there is no end of them
/// error                    may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, out_degrees_of_freedom), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_degrees_of_freedom(
    uncertain: *const UncertainHandle,
    out_degrees_of_freedom: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(
        out_degrees_of_freedom,
        error,
        read("uncertain", uncertain)?.value.degrees_of_freedom().number().map_or(f64::INFINITY, Ratio::number)
    )
}

/// How many standard uncertainties reach from the value to the end of its interval.
///
/// uncertain             the value
/// coverage_percent      the probability with which the interval is to hold the true value, %, above 0 and at most 99.9999
/// out_coverage_factor   receives the factor
/// error                 may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, out_coverage_factor), _NOT_FINITE, _OUT_OF_RANGE (coverage), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_coverage_factor(
    uncertain: *const UncertainHandle,
    coverage_percent: f64,
    out_coverage_factor: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(
        out_coverage_factor,
        error,
        read("uncertain", uncertain)?.value.coverage_factor(percent("coverage", coverage_percent)?)?.number()
    )
}

/// Half the width of its interval.
///
/// uncertain          the value
/// coverage_percent   the probability with which the interval is to hold the true value, %, above 0 and at most 99.9999
/// unit               the unit that is asked for; ends in a zero byte
/// out_value          receives the number in unit
/// error              may be NULL
///
/// Returns what mixcalc_uncertain_value() returns, and _NOT_FINITE, _OUT_OF_RANGE (coverage).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_expanded_uncertainty(
    uncertain: *const UncertainHandle,
    coverage_percent: f64,
    unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(out_value, error, {
        let (value, unit) = (read("uncertain", uncertain)?, word("unit", unit)?);
        value.value.expanded_uncertainty(percent("coverage", coverage_percent)?)?.to(&unit)?
    })
}

/// From where to where it lies.
///
/// uncertain          the value
/// coverage_percent   the probability with which the interval is to hold the true value, %, above 0 and at most 99.9999
/// unit               the unit that is asked for; ends in a zero byte
/// out_low            receives the lower end in unit
/// out_high           receives the upper end in unit
/// error              may be NULL
///
/// Returns what mixcalc_uncertain_expanded_uncertainty() returns.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_interval(
    uncertain: *const UncertainHandle,
    coverage_percent: f64,
    unit: *const c_char,
    out_low: *mut f64,
    out_high: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let interval = || {
        // SAFETY: the caller's promise.
        let value = unsafe { read("uncertain", uncertain) }?;
        Ok(value.value.interval(percent("coverage", coverage_percent)?)?)
    };
    // SAFETY: the caller's promise.
    let body = || unsafe { write_interval(out_low, out_high, unit, interval) };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// How many inputs contribute to its uncertainty.
///
/// uncertain   the value
/// out_count   receives how many
/// error       may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, out_count), _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_contributions(
    uncertain: *const UncertainHandle,
    out_count: *mut usize,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(out_count, error, read("uncertain", uncertain)?.contributions().len())
}

/// What one input contributes, the largest first.
///
/// uncertain          the value
/// index              which, from 0
/// unit               the unit that its standard uncertainty is asked for in; ends in a zero byte
/// out_contribution   filled; start it with MIXCALC_CONTRIBUTION_INIT
/// error              may be NULL
///
/// Returns what mixcalc_uncertain_value() returns, and _INDEX, _STRUCT_SIZE (out_contribution).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_contribution(
    uncertain: *const UncertainHandle,
    index: usize,
    unit: *const c_char,
    out_contribution: *mut ContributionView,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        unsafe {
            fill("out_contribution", out_contribution, || {
                let (value, unit) = (read("uncertain", uncertain)?, word("unit", unit)?);
                let all = value.contributions();
                let one = all.get(index).ok_or_else(|| Failure::index("index", index, all.len()))?;
                Ok(ContributionView {
                    struct_size: size_of::<ContributionView>(),
                    name: one.name.as_ptr(),
                    standard_uncertainty: one.standard_uncertainty.to(&unit)?,
                    share_of_variance_percent: one.share_of_variance.percent(),
                })
            })
        }
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// A limit that the caller states for a value: a number of the value's kind.
fn limit_for(value: &UncertainHandle, limit: f64, unit: &str) -> Result<Quantity, Box<Failure>> {
    let limit = quantity("limit", limit, unit)?;
    limit.claim_kind(value.value.value().kind()).map_err(|error| Box::<Failure>::from(error).at("limit"))
}

/// The probability that the true value is over a limit.
///
/// uncertain                 the value
/// limit                     the limit, of the kind of the value
/// unit                      its unit; ends in a zero byte
/// out_probability_percent   receives the probability, %
/// error                     may be NULL
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (uncertain, unit, out_probability_percent), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT, _WRONG_QUANTITY,
/// _UNLIKE_QUANTITIES, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_probability_over_percent(
    uncertain: *const UncertainHandle,
    limit: f64,
    unit: *const c_char,
    out_probability_percent: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(out_probability_percent, error, {
        let (value, unit) = (read("uncertain", uncertain)?, word("unit", unit)?);
        value.value.probability_over(limit_for(value, limit, &unit)?)?.percent()
    })
}

/// On which side of a limit its interval is.
///
/// uncertain          the value
/// limit              the limit, of the kind of the value
/// unit               its unit; ends in a zero byte
/// coverage_percent   the probability with which the interval is to hold the true value, %, above 0 and at most 99.9999
/// out_side           receives MIXCALC_SIDE_UNDER, _OVER or _CANNOT_TELL
/// error              may be NULL
///
/// Returns what mixcalc_uncertain_probability_over_percent() returns, and _OUT_OF_RANGE (coverage).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_side_of(
    uncertain: *const UncertainHandle,
    limit: f64,
    unit: *const c_char,
    coverage_percent: f64,
    out_side: *mut u32,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(out_side, error, {
        let (value, unit) = (read("uncertain", uncertain)?, word("unit", unit)?);
        let coverage = percent("coverage", coverage_percent)?;
        choice::side(value.value.side_of(limit_for(value, limit, &unit)?, coverage)?)
    })
}

/// What to aim at, so that the true value is over a limit with no more than a chosen probability. It is never over the limit, and does not allow what the
/// label forbids.
///
/// uncertain      the value, above 0
/// limit          the most that is allowed, of the kind of the value, above 0
/// unit           its unit; ends in a zero byte
/// risk_percent   the probability of being over the limit that is accepted, %, above 0 and under 50
/// out_aim        receives the aim in unit
/// error          may be NULL
///
/// Returns what mixcalc_uncertain_probability_over_percent() returns, and _NOT_POSITIVE, _OUT_OF_RANGE (risk).
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_uncertain_aim_under(
    uncertain: *const UncertainHandle,
    limit: f64,
    unit: *const c_char,
    risk_percent: f64,
    out_aim: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    answer_number!(out_aim, error, {
        let (value, unit) = (read("uncertain", uncertain)?, word("unit", unit)?);
        value.value.aim_under(limit_for(value, limit, &unit)?, percent("risk", risk_percent)?)?.to(&unit)?
    })
}
