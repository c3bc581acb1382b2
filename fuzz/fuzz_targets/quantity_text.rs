//! Any bytes as the text of a quantity.
#![no_main]

use libfuzzer_sys::fuzz_target;
use mixcalc::{Kind, Quantity, System};
use mixcalc_fuzz::check_error;

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    let quantity = match Quantity::read(&text) {
        Ok(quantity) => quantity,
        Err(error) => return check_error(&error),
    };
    let written = quantity.to_text();
    let again = Quantity::read(&written);
    assert_eq!(again.as_ref(), Ok(&quantity), "{written}");
    for system in System::all() {
        assert!(!quantity.to_people(*system).trim().is_empty(), "{written}");
    }
    for kind in Kind::all() {
        match quantity.claim_kind(*kind) {
            Ok(claimed) => {
                assert_eq!((claimed.kind(), claimed.dimension()), (*kind, quantity.dimension()), "{written}")
            }
            Err(error) => check_error(&error),
        }
    }
});
