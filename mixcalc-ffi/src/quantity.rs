//! Quantities as text: a number in another unit, and what somebody typed.

use std::ffi::c_char;

use mixcalc::{Kind, Quantity};

use crate::border::answer;
use crate::error::ErrorDetails;
use crate::failure::Failure;
use crate::text::word;

/// A number in another unit, by exact legal factors: to the last digit what Python says, and what a document that holds it says.
///
/// value       the number
/// unit        its unit, such as "US gal/ac"; ends in a zero byte
/// to_unit     the unit that is asked for, such as "L/ha"; ends in a zero byte
/// out_value   receives the number in to_unit
/// error       may be NULL
///
/// Unit words are those of documents. One with more than one meaning ("gal", "pt", "oz", "t") is refused with its readings. Both units must
/// measure the same; a dose and a volume rate do, and which of them it is only its place says.
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (unit, to_unit, out_value), _NOT_FINITE, _UNKNOWN_UNIT, _AMBIGUOUS_UNIT,
/// _WRONG_QUANTITY, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_convert(
    value: f64,
    unit: *const c_char,
    to_unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        let (unit, to_unit) = unsafe { (word("unit", unit)?, word("to_unit", to_unit)?) };
        if out_value.is_null() {
            return Err(Failure::null_pointer("out_value"));
        }
        let answered = Quantity::from_parts(value, &unit)?.documented().to(&to_unit)?;
        // SAFETY: the caller's promise.
        unsafe { out_value.write(answered) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

/// Reads text such as "20 US gal/ac", "150 mL/100 L" or "0.25 % v/v" as a kind of quantity, and gives its number in a unit.
///
/// text        a number with a decimal point, a blank and a unit; ends in a zero byte
/// kind        what it is claimed to be: "volume rate", "liquid dose", "area" and so on, the words of the library for its kinds; NULL
///             claims nothing
/// unit        the unit that is asked for, such as "L/ha"; ends in a zero byte
/// out_value   receives the number in unit
/// error       may be NULL; its path is empty where it is the text that cannot be read
///
/// Returns MIXCALC_STATUS_OK, _NULL_POINTER (text, unit, out_value), _KIND, _NOT_FINITE, _UNKNOWN_UNIT, _WRONG_QUANTITY,
/// _UNREADABLE_QUANTITY, _AMBIGUOUS_UNIT, _MISSING_UNIT, _DECIMAL_COMMA, _STRUCT_SIZE (error) or _PANIC.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn mixcalc_read_quantity(
    text: *const c_char,
    kind: *const c_char,
    unit: *const c_char,
    out_value: *mut f64,
    error: *mut ErrorDetails,
) -> u32 {
    let body = || {
        // SAFETY: the caller's promise.
        let (text, unit) = unsafe { (word("text", text)?, word("unit", unit)?) };
        if out_value.is_null() {
            return Err(Failure::null_pointer("out_value"));
        }
        let mut quantity = Quantity::read(&text)?;
        if !kind.is_null() {
            // SAFETY: the caller's promise.
            quantity = quantity.claim_kind(kind_named(&unsafe { word("kind", kind) }?)?)?;
        }
        let answered = quantity.documented().to(&unit)?;
        // SAFETY: the caller's promise.
        unsafe { out_value.write(answered) };
        Ok(())
    };
    // SAFETY: the caller's promise.
    unsafe { answer(error, body) }
}

pub(crate) fn kind_named(words: &str) -> Result<Kind, Box<Failure>> {
    let known = Kind::all().iter().find(|kind| kind.words() == words && **kind != Kind::Derived);
    known.copied().ok_or_else(|| Failure::kind(words))
}
