//! Reading, printing and reckoning with quantities: the vectors that all languages share, and properties.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a test fails by panicking, and compares exact doubles"
)]

use std::collections::BTreeSet;

use mixcalc::*;
use mixcalc_tests::{is_within, run, vectors};
use proptest::prelude::*;
use serde::Deserialize;

// ------------------------------------------------------------------------------------------------------------ vectors

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "why and source are for readers")]
struct ReadCase {
    id: String,
    text: String,
    claim: Option<String>,
    kind: Option<String>,
    value: Option<f64>,
    unit: Option<String>,
    rel_tol: Option<f64>,
    error: Option<Refusal>,
    why: String,
    source: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Refusal {
    code: u32,
    name: String,
    message: String,
}

fn kind(words: &str) -> Kind {
    *Kind::all().iter().find(|kind| kind.words() == words).unwrap_or_else(|| panic!("no kind is called {words}"))
}

fn same<T: PartialEq + std::fmt::Debug>(actual: T, expected: T) -> Result<(), String> {
    if actual == expected { Ok(()) } else { Err(format!("{actual:?} instead of {expected:?}")) }
}

#[test]
fn text_is_read_or_refused_as_the_vectors_say() {
    let cases = vectors::<ReadCase>("quantity", "read_quantity");
    run(
        "quantity.json",
        &cases,
        |case| &case.id,
        |case| {
            let read = Quantity::read(&case.text).and_then(|quantity| match &case.claim {
                Some(words) => quantity.claim_kind(kind(words)),
                None => Ok(quantity),
            });
            match (&case.error, read) {
                (Some(refusal), Err(error)) => {
                    same(error.code().number(), refusal.code)?;
                    same(error.code().name(), &refusal.name)?;
                    same(error.to_string(), refusal.message.clone())
                }
                (None, Ok(quantity)) => {
                    same(Some(quantity.kind().words()), case.kind.as_deref())?;
                    let (unit, tolerance) = (case.unit.as_deref().unwrap(), case.rel_tol.unwrap());
                    let (actual, expected) = (quantity.to(unit).unwrap(), case.value.unwrap());
                    if is_within(actual, expected, tolerance) {
                        Ok(())
                    } else {
                        Err(format!("{actual:?} {unit} instead of {expected:?}"))
                    }
                }
                (_, read) => Err(format!("{:?} gives {read:?}", case.text)),
            }
        },
    );
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "why and source are for readers")]
struct UnitCase {
    id: String,
    unit: String,
    kind: String,
    base_unit: String,
    factor: String,
    offset: Option<String>,
    why: String,
    source: String,
}

/// The double nearest to a fraction of whole numbers, to one rounding.
fn fraction(text: &str) -> f64 {
    let (above, below) = text.split_once('/').unwrap_or((text, "1"));
    above.parse::<f64>().unwrap() / below.parse::<f64>().unwrap()
}

#[test]
fn each_unit_is_its_legal_definition() {
    let cases = vectors::<UnitCase>("units", "unit");
    run(
        "units.json",
        &cases,
        |case| &case.id,
        |case| {
            let offset = case.offset.as_deref().map_or(0.0, fraction);
            for value in [1.0, 3.0, 1e6] {
                let quantity = Quantity::from_parts(value, &case.unit).unwrap();
                same(quantity.kind(), kind(&case.kind))?;
                let actual = quantity.to(&case.base_unit).unwrap();
                let expected = value * fraction(&case.factor) + offset;
                if !is_within(actual, expected, 1e-15) {
                    return Err(format!("{value} is {actual:?} instead of {expected:?}"));
                }
            }
            Ok(())
        },
    );
}

/// The string literals in a piece of source.
fn literals(source: &str) -> impl Iterator<Item = &str> {
    source.split('"').skip(1).step_by(2)
}

#[test]
fn every_word_of_the_table_has_its_vector() {
    let source = std::fs::read_to_string(
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../mixcalc/src/quantity/unit.rs"),
    )
    .unwrap();
    let table = |name: &str| {
        let after = source.split_once(&format!("static {name}:")).unwrap().1;
        after.split_once("];").unwrap().0
    };
    let units = vectors::<UnitCase>("units", "unit");
    let tested: BTreeSet<&str> = units.iter().map(|case| case.unit.as_str()).collect();
    let known: BTreeSet<&str> = literals(table("UNITS")).collect();
    assert_eq!(tested, known);

    let reads = vectors::<ReadCase>("quantity", "read_quantity");
    let read: BTreeSet<&str> =
        reads.iter().filter_map(|case| case.text.split_once(' ').map(|(_, unit)| unit)).collect();
    assert!(known.is_subset(&read), "{:?}", known.difference(&read));
    for entry in table("AMBIGUOUS").split("(&[").skip(1) {
        for word in literals(entry.split_once(']').unwrap().0) {
            assert!(read.contains(word), "no vector refuses {word}");
        }
    }
}

// --------------------------------------------------------------------------------------------- units and their parts

#[test]
fn a_square_unit_is_the_product_of_its_sides() {
    for side in ["mm", "cm", "dm", "m", "km", "in", "ft", "yd"] {
        let length = Quantity::from_parts(1.0, side).unwrap();
        let square = length.times(length).unwrap();
        for exponent in ["2", "²"] {
            let value = square.to(&format!("{side}{exponent}")).unwrap();
            assert!(is_within(value, 1.0, 4e-16), "{value} {side}{exponent}");
        }
    }
}

#[test]
fn a_cubic_unit_is_the_product_of_its_sides() {
    for side in ["mm", "cm", "dm", "m", "in", "ft", "yd"] {
        let length = Quantity::from_parts(1.0, side).unwrap();
        let cube = length.power(3, 1).unwrap();
        for exponent in ["3", "³"] {
            let value = cube.to(&format!("{side}{exponent}")).unwrap();
            assert!(is_within(value, 1.0, 1e-15), "{value} {side}{exponent}");
        }
    }
}

#[test]
fn a_unit_is_as_many_of_its_parts_as_the_trade_says() {
    for (whole, count, part) in [
        ("US gal", 231.0, "in3"),
        ("US gal", 4.0, "US qt"),
        ("US gal", 8.0, "US pt"),
        ("US gal", 16.0, "US cup"),
        ("US gal", 128.0, "US fl oz"),
        ("US fl oz", 2.0, "US tbsp"),
        ("US tbsp", 3.0, "US tsp"),
        ("imp gal", 4.0, "imp qt"),
        ("imp gal", 8.0, "imp pt"),
        ("imp gal", 160.0, "imp fl oz"),
        ("imp pt", 20.0, "imp fl oz"),
        ("ac", 43_560.0, "ft2"),
        ("ac", 4_840.0, "yd2"),
        ("ha", 10_000.0, "m2"),
        ("mi", 5_280.0, "ft"),
        ("ft", 12.0, "in"),
        ("yd", 3.0, "ft"),
        ("lb", 16.0, "oz av"),
        ("tonne", 1_000.0, "kg"),
        ("hL", 100.0, "L"),
        ("m3", 1_000.0, "L"),
        ("L", 1_000.0, "cm3"),
        ("h", 60.0, "min"),
        ("bar", 1_000.0, "mbar"),
        ("MPa", 10.0, "bar"),
        ("hPa", 1.0, "mbar"),
        ("% v/v", 10_000.0, "ppm v/v"),
        ("% w/w", 10_000.0, "ppm w/w"),
        ("% w/v", 10_000.0, "ppm w/v"),
        ("% w/v", 10.0, "g/L"),
        ("ppm w/v", 1.0, "mg/L"),
        ("% v/v", 10.0, "mL/L"),
        ("% w/w", 10.0, "g/kg"),
    ] {
        let value = Quantity::from_parts(1.0, whole).unwrap().to(part).unwrap();
        assert!(is_within(value, count, 4e-16), "1 {whole} is {value} {part}");
    }
}

#[test]
fn a_quotient_is_its_parts_divided() {
    for (above, below) in [
        ("L", "ha"),
        ("mL", "m2"),
        ("US gal", "ac"),
        ("imp gal", "ac"),
        ("US fl oz", "ac"),
        ("US pt", "ac"),
        ("kg", "ha"),
        ("lb", "ac"),
        ("oz av", "ac"),
        ("lb", "US gal"),
        ("lb", "imp gal"),
        ("g", "L"),
        ("g", "kg"),
        ("mL", "L"),
        ("km", "h"),
        ("mi", "h"),
        ("L", "min"),
        ("US gal", "min"),
        ("ha", "h"),
        ("ac", "h"),
        ("US fl oz", "ft2"),
        ("lb", "ft"),
    ] {
        let one = |unit: &str| Quantity::from_parts(1.0, unit).unwrap();
        let parts = one(above).over(one(below)).unwrap();
        for (text, count) in [
            (format!("{above}/{below}"), 1.0),
            (format!("{above}/100 {below}"), 100.0),
            (format!("{above}/(100.{below})"), 100.0),
        ] {
            let value = parts.to(&text).unwrap();
            assert!(is_within(value, count, 1e-15), "{value} {text}");
        }
    }
}

// ---------------------------------------------------------------------------------------------------------- properties

/// Any finite double: every exponent, subnormals, both zeros, and the numbers that people write.
fn any_finite() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => any::<u64>().prop_map(f64::from_bits).prop_filter("finite", |x| x.is_finite()),
        4 => -1e6..1e6_f64,
        2 => (0_u32..1_000_000, 0_i32..6).prop_map(|(n, d)| f64::from(n) / 10_f64.powi(d)),
        1 => prop_oneof![
            Just(0.0), Just(-0.0), Just(5e-324), Just(-5e-324), Just(2.3e-308),
            Just(1e300), Just(-1e300), Just(f64::MAX), Just(f64::MIN_POSITIVE)
        ],
    ]
}

/// Every unit word, and quotients of them.
fn any_unit() -> impl Strategy<Value = String> {
    let words: Vec<String> = vectors::<UnitCase>("units", "unit").into_iter().map(|case| case.unit).collect();
    let word = proptest::sample::select(words);
    let count = prop_oneof![Just(""), Just("100 "), Just("1000 "), Just("2.5 ")];
    prop_oneof![
        2 => word.clone(),
        2 => (word.clone(), count, word).prop_map(|(a, n, b)| format!("{a}/{n}{b}")),
    ]
}

/// The base units of a kind, or of what has no kind of its own.
fn any_base_unit() -> impl Strategy<Value = String> {
    let exponent = (-48_i16..=48, proptest::sample::select(vec![1_i16, 2, 3, 4, 6, 12]));
    proptest::collection::vec((proptest::sample::select(vec!["m", "kg", "s", "K"]), exponent), 1..5).prop_map(
        |factors| factors.into_iter().map(|(unit, (n, d))| format!("{unit}^{n}/{d}")).collect::<Vec<_>>().join(" "),
    )
}

/// Base units of each kind, in which any double can be stated.
fn base_unit(kind: Kind) -> &'static str {
    match kind {
        Kind::Length | Kind::VolumePerArea | Kind::VolumeRate | Kind::LiquidDose => "m^1",
        Kind::Area | Kind::VolumePerRowLength => "m^2",
        Kind::MassPerRowLength => "m^-1 kg^1",
        Kind::Volume => "m^3",
        Kind::Mass => "kg^1",
        Kind::Time => "s^1",
        Kind::Temperature => "K^1",
        Kind::Speed => "m^1 s^-1",
        Kind::WorkRate => "m^2 s^-1",
        Kind::Flow => "m^3 s^-1",
        Kind::Pressure => "m^-1 kg^1 s^-2",
        Kind::MassPerArea | Kind::SolidDose => "m^-2 kg^1",
        Kind::VolumeFraction
        | Kind::MassFraction
        | Kind::VolumePerTreeRowVolume
        | Kind::VolumePerCrownHeight
        | Kind::Ratio => "m^0",
        _ => "m^-3 kg^1",
    }
}

fn named_kinds() -> impl Iterator<Item = Kind> {
    Kind::all().iter().copied().filter(|kind| *kind != Kind::Derived)
}

/// A quantity of any named kind and any value.
fn any_quantity() -> impl Strategy<Value = Quantity> {
    let kinds = proptest::sample::select(named_kinds().collect::<Vec<_>>());
    (any_finite(), kinds).prop_map(|(value, kind)| {
        // No temperature is below the zero of its base unit.
        let value = if kind == Kind::Temperature { value.abs() } else { value };
        let base = Quantity::from_parts(value, base_unit(kind)).unwrap();
        base.claim_kind(kind).unwrap()
    })
}

/// Another quantity of the same kind.
fn like(quantity: Quantity, value: f64) -> Quantity {
    let kind = quantity.kind();
    let value = if kind == Kind::Temperature { value.abs() } else { value };
    Quantity::from_parts(value, base_unit(kind)).unwrap().claim_kind(kind).unwrap()
}

fn bits(quantity: Quantity) -> u64 {
    let unit = if quantity.kind() == Kind::Derived { quantity.to_parts().1 } else { base_unit(quantity.kind()).into() };
    quantity.to(&unit).unwrap().to_bits()
}

/// Pieces that quantity text is made of, and pieces that it must not be made of.
const TOKENS: &[&str] = &[
    "300", "0", "1", "100", "2.5", "1e3", "1e308", "1e-308", "1e999", "-", "+", ".", ",", "e", "1,5", " ", "  ", "/",
    "(", ")", "^", "^2", "^-1", "1/12", "32767", "-32768", "m", "kg", "s", "K", "L", "ha", "US ", "US gal", "imp pt",
    "gal", "oz", "fl oz", "%", "% v/v", "ppm", "°C", "µ", "[gal_us]", "[", "]", "²", "\u{a0}", "\t", "\0", "é", "🌾",
    "nan", "inf",
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 4096, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_written_reads_back_to_the_same_bits(quantity in any_quantity()) {
        let text = quantity.to_text();
        let back = Quantity::read(&text).and_then(|read| read.claim_kind(quantity.kind()));
        prop_assert!(back.is_ok(), "{text}: {back:?}");
        prop_assert_eq!(bits(back.unwrap()), bits(quantity), "{}", text);
    }

    #[test]
    fn a_derived_quantity_reads_back_to_the_same_bits(value in any_finite(), unit in any_base_unit()) {
        let Ok(quantity) = Quantity::from_parts(value, &unit) else {
            return Ok(()); // exponents that add up beyond what is kept
        };
        let text = quantity.to_text();
        let back = Quantity::read(&text).unwrap();
        prop_assert_eq!(back, quantity, "{}", text);
        prop_assert_eq!(bits(back), bits(quantity), "{}", text);
        let (value, unit) = quantity.to_parts();
        prop_assert_eq!(Quantity::from_parts(value, &unit).unwrap(), quantity);
    }

    #[test]
    fn the_document_form_of_what_was_read_is_exact(value in any_finite(), unit in any_unit()) {
        let Ok(quantity) = Quantity::from_parts(value, &unit) else {
            return Ok(());
        };
        for kind in Kind::all() {
            let Ok(claimed) = quantity.claim_kind(*kind) else { continue };
            if quantity.kind() == Kind::Derived && claimed.kind() != Kind::Derived {
                continue; // what has no kind has no unit of documents whose grid it could be on
            }
            let (number, unit) = claimed.to_parts();
            let back = Quantity::from_parts(number, &unit).and_then(|read| read.claim_kind(*kind));
            prop_assert!(back.is_ok(), "{number:?} {unit}: {back:?}");
            prop_assert_eq!(bits(back.unwrap()), bits(claimed), "{:?} {} as {:?}", number, unit, kind);
        }
    }

    #[test]
    fn text_for_people_always_has_a_unit(quantity in any_quantity()) {
        for system in System::all() {
            let text = quantity.to_people(*system);
            let (number, unit) = text.split_once(' ').expect("a blank");
            let is_number = number.parse::<f64>().is_ok() && number.ends_with(|c: char| c.is_ascii_digit());
            prop_assert!(is_number, "{text}");
            prop_assert!(Quantity::from_parts(1.0, unit).is_ok(), "{text}");
        }
        prop_assert_eq!(quantity.to_people(System::Metric), quantity.to_string());
    }

    #[test]
    fn text_for_people_is_right_to_four_digits(
        value in 1e-3..1e9_f64,
        kind in proptest::sample::select(named_kinds().collect::<Vec<_>>()),
    ) {
        let quantity = Quantity::from_parts(value, base_unit(kind)).unwrap().claim_kind(kind).unwrap();
        for system in System::all() {
            let text = quantity.to_people(*system);
            let (number, unit) = text.split_once(' ').unwrap();
            let (shown, exact) = (number.parse().unwrap(), quantity.to(unit).unwrap());
            prop_assert!(is_within(shown, exact, 5.01e-4), "{text} for {exact}");
        }
    }

    #[test]
    fn text_for_people_of_a_derived_quantity_always_has_a_unit(value in any_finite(), unit in any_base_unit()) {
        if let Ok(quantity) = Quantity::from_parts(value, &unit) {
            for system in System::all() {
                let text = quantity.to_people(*system);
                // A pure number is a count, and has none.
                let is_count = quantity.kind() == Kind::Derived && quantity.dimension() == Dimension::NONE;
                prop_assert!(is_count || text.split_once(' ').is_some_and(|(_, unit)| !unit.is_empty()), "{text}");
            }
        }
    }

    #[test]
    fn any_text_is_a_finite_quantity_or_an_error_that_stays_short(text in any::<String>()) {
        check_reading(&text)?;
    }

    #[test]
    fn any_order_of_the_pieces_of_quantity_text_is_a_finite_quantity_or_an_error_that_stays_short(
        pieces in proptest::collection::vec(proptest::sample::select(TOKENS), 0..12),
    ) {
        check_reading(&pieces.concat())?;
        check_reading(&format!("3 {}", pieces.concat()))?;
    }

    #[test]
    fn a_value_comes_out_of_any_unit_as_it_went_in(value in any_finite(), unit in any_unit()) {
        if let Ok(quantity) = Quantity::from_parts(value, &unit)
            && let Ok(back) = quantity.to(&unit)
            && value.abs() > 1e-250 && quantity.kind() != Kind::Temperature
        {
            // The way in, to the grid of documents and back, and the way out: nine roundings at most.
            prop_assert!(is_within(back, value, 2e-15), "{value:?} {unit} became {back:?}");
        }
    }

    #[test]
    fn products_do_not_depend_on_the_order_of_their_factors(a in any_quantity(), b in any_quantity()) {
        prop_assert_eq!(a.times(b).ok(), b.times(a).ok());
    }

    #[test]
    fn sums_do_not_depend_on_the_order_of_their_terms(a in any_quantity(), b in any_finite()) {
        let b = like(a, b);
        prop_assert_eq!(a.plus(b).ok(), b.plus(a).ok());
        if a.kind() == Kind::Temperature {
            for refused in [a.plus(b), a.minus(b), a.times(b), a.over(b), a.power(2, 1)] {
                prop_assert_eq!(refused.unwrap_err().code(), ErrorCode::WrongQuantity);
            }
        } else if let Ok(difference) = a.minus(b) {
            prop_assert_eq!(difference.kind(), a.kind());
        }
    }

    #[test]
    fn only_quantities_of_one_kind_are_added_or_compared(a in any_quantity(), b in any_quantity()) {
        if a.kind() != b.kind() {
            for refused in [a.plus(b).map(drop), a.minus(b).map(drop), a.compare(b).map(drop)] {
                prop_assert_eq!(refused.unwrap_err().code(), ErrorCode::UnlikeQuantities);
            }
        }
    }

    #[test]
    fn quantities_of_one_kind_are_ordered_as_their_values_are(a in any_quantity(), b in any_finite()) {
        let unit = base_unit(a.kind());
        let other = like(a, b);
        let expected = a.to(unit).unwrap().partial_cmp(&other.to(unit).unwrap());
        prop_assert_eq!(a.compare(other).ok(), expected);
        prop_assert_eq!(other.compare(a).ok(), expected.map(std::cmp::Ordering::reverse));
        prop_assert_eq!(a == other, expected == Some(std::cmp::Ordering::Equal));
    }

    #[test]
    fn a_whole_number_of_a_metric_unit_is_the_same_in_the_larger_one(whole in 1_u64..1_000_000_000, unit in 0_usize..6) {
        let units = [("mL", "L", 3), ("g", "kg", 3), ("m2", "ha", 4), ("mL/ha", "L/ha", 3), ("cL", "L", 2), ("g/ha", "kg/ha", 3)];
        let (fine, coarse, shift) = units[unit];
        let digits = format!("{whole:0>width$}", width = shift + 1);
        let (before, after) = digits.split_at(digits.len() - shift);
        let fine = Quantity::read(&format!("{whole} {fine}")).unwrap();
        prop_assert_eq!(fine, Quantity::read(&format!("{before}.{after} {coarse}")).unwrap());
    }

    #[test]
    fn what_is_on_the_grid_of_documents_stays(a in any_quantity(), b in any_quantity()) {
        for quantity in [Ok(a), a.times(b), a.over(b), a.plus(b)].into_iter().flatten() {
            let documented = quantity.documented();
            prop_assert_eq!(documented.documented(), documented);
            let (value, unit) = documented.to_parts();
            let read = Quantity::from_parts(value, &unit).and_then(|read| read.claim_kind(documented.kind()));
            if documented.kind() != Kind::Derived && value.is_normal() {
                prop_assert_eq!(read.unwrap(), documented);
            }
        }
    }

    #[test]
    fn a_power_is_a_product_of_equal_factors(a in any_quantity()) {
        let square = a.power(2, 1).ok().map(|q| (q.dimension(), q.kind()));
        let product = a.times(a).ok().map(|q| (q.dimension(), q.kind()));
        if a.kind() != Kind::Ratio {
            prop_assert_eq!(square, product);
        }
        if a.kind() != Kind::Temperature {
            prop_assert_eq!(a.power(1, 1).unwrap(), a);
        }
        prop_assert!(a.power(1, 0).is_err());
    }
}

/// Reading gives a finite quantity that can be shown, or an error that stays short and disturbs no terminal.
fn check_reading(text: &str) -> Result<(), TestCaseError> {
    match Quantity::read(text) {
        Ok(quantity) => {
            let (value, _) = quantity.to_parts();
            prop_assert!(value.is_finite(), "{text:?} is {value}");
            let back = Quantity::read(&quantity.to_text());
            prop_assert!(back.is_ok(), "{text:?}: {back:?}");
        }
        Err(error) => {
            let message = error.to_string();
            // Sixty letters of the caller's, each up to ten as an escape, and the sentence around them.
            prop_assert!(message.chars().count() <= 60 * 10 + 200, "{message}");
            prop_assert!(!message.chars().any(char::is_control), "{message:?}");
        }
    }
    Ok(())
}

// -------------------------------------------------------------------------------- the typed and the dynamic algebra

/// Checks that an identity of the typed kinds gives the same double and the same kind on dynamic quantities.
fn check_identity<A, B, C>(
    a: f64,
    b: f64,
    typed: impl Fn(A, B) -> C,
    by: fn(Quantity, Quantity) -> Result<Quantity, Error>,
) where
    A: QuantityKind,
    B: QuantityKind,
    C: QuantityKind,
{
    fn make<Q: QuantityKind>(value: f64) -> Q {
        Quantity::from_parts(value, base_unit(Q::KIND)).unwrap().claim().unwrap()
    }
    let (a, b): (A, B) = (make(a), make(b));
    let typed = Quantity::of(typed(a, b));
    match by(Quantity::of(a), Quantity::of(b)) {
        Ok(dynamic) => assert_eq!((dynamic, bits(dynamic)), (typed, bits(typed)), "{a} and {b}"),
        Err(error) => assert_eq!(error.code(), ErrorCode::NotFinite, "{a} and {b}"),
    }
}

/// The lines of a source that state an identity, such as `Length * Length = Area;`.
fn identities_in(source: &str) -> BTreeSet<Vec<&str>> {
    source
        .lines()
        .map(|line| line.split_whitespace().collect::<Vec<_>>())
        .filter(|words| {
            matches!(words[..], [a, "*" | "/", b, "=", c]
                if c.ends_with(';') && [a, b, c].iter().all(|word| word.starts_with(char::is_uppercase)))
        })
        .collect()
}

#[test]
fn the_identities_tested_here_are_those_of_the_library() {
    let library = std::fs::read_to_string(
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../mixcalc/src/quantity/kind.rs"),
    )
    .unwrap();
    let (known, tested) = (identities_in(&library), identities_in(include_str!("quantity.rs")));
    assert!(!known.is_empty());
    let differing: Vec<_> = known.symmetric_difference(&tested).collect();
    assert!(differing.is_empty(), "in one list only: {differing:?}");
}

/// Each identity once more, written out by hand.
macro_rules! identities {
    ($a:expr, $b:expr; $($left:ident $operator:tt $right:ident = $result:ident;)*) => { $(
        identities!(@ $operator $left $right $result $a, $b);
    )* };
    (@ * $left:ident $right:ident $result:ident $a:expr, $b:expr) => {
        check_identity::<$left, $right, $result>($a, $b, |a, b| a * b, Quantity::times);
        check_identity::<$right, $left, $result>($a, $b, |a, b| a * b, Quantity::times);
    };
    (@ / $left:ident $right:ident $result:ident $a:expr, $b:expr) => {
        check_identity::<$left, $right, $result>($a, $b, |a, b| a / b, Quantity::over);
    };
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2048, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn dynamic_quantities_obey_the_identities_of_the_typed_kinds(a in 1e-9..1e9_f64, b in 1e-9..1e9_f64) {
        identities! { a, b;
            Length * Length = Area;
            VolumePerArea * Area = Volume;
            VolumeRate * Area = Volume;
            LiquidDose * Area = Volume;
            MassPerArea * Area = Mass;
            SolidDose * Area = Mass;
            VolumeFraction * Volume = Volume;
            VolumeFraction * VolumeRate = LiquidDose;
            MassConcentration * Volume = Mass;
            MassConcentration * VolumeRate = SolidDose;
            MassFraction * Mass = Mass;
            MassFraction * SolidDose = MassPerArea;
            MassFraction * Density = MassConcentration;
            MassPerVolume * Volume = Mass;
            Content * Volume = Mass;
            Content * LiquidDose = MassPerArea;
            Density * Volume = Mass;
            Density * LiquidDose = SolidDose;
            ParticleDensity * Volume = Mass;
            BulkDensity * Volume = Mass;
            Speed * Time = Length;
            Speed * Length = WorkRate;
            WorkRate * Time = Area;
            WorkRate * VolumeRate = Flow;
            Flow * Time = Volume;
            Area / Length = Length;
            Volume / Area = VolumePerArea;
            Volume / VolumePerArea = Area;
            Volume / VolumeRate = Area;
            Volume / LiquidDose = Area;
            Mass / Area = MassPerArea;
            Mass / MassPerArea = Area;
            Mass / SolidDose = Area;
            LiquidDose / VolumeRate = VolumeFraction;
            LiquidDose / VolumeFraction = VolumeRate;
            SolidDose / VolumeRate = MassConcentration;
            SolidDose / MassConcentration = VolumeRate;
            Volume / VolumeFraction = Volume;
            Mass / MassFraction = Mass;
            Mass / Volume = MassPerVolume;
            Mass / MassPerVolume = Volume;
            Mass / MassConcentration = Volume;
            Mass / Content = Volume;
            Mass / Density = Volume;
            Mass / ParticleDensity = Volume;
            Mass / BulkDensity = Volume;
            MassPerArea / Content = VolumePerArea;
            MassPerArea / MassFraction = MassPerArea;
            SolidDose / Density = LiquidDose;
            SolidDose / ParticleDensity = LiquidDose;
            MassConcentration / Density = VolumeFraction;
            MassConcentration / ParticleDensity = VolumeFraction;
            Length / Speed = Time;
            Length / Time = Speed;
            Area / WorkRate = Time;
            Area / Time = WorkRate;
            WorkRate / Length = Speed;
            WorkRate / Speed = Length;
            Volume / Flow = Time;
            Volume / Time = Flow;
            Flow / WorkRate = VolumePerArea;
            Flow / VolumeRate = WorkRate;
            VolumePerRowLength * Length = Volume;
            MassPerRowLength * Length = Mass;
            VolumePerTreeRowVolume * Volume = Volume;
            MassPerTreeRowVolume * Volume = Mass;
            VolumePerTreeRowVolume * Length = VolumePerArea;
            MassPerTreeRowVolume * Length = MassPerArea;
            VolumePerCrownHeight * Length = VolumePerArea;
            MassPerCrownHeight * Length = MassPerArea;
            VolumePerRowLength / Length = VolumePerArea;
            MassPerRowLength / Length = MassPerArea;
        }
    }

    #[test]
    fn a_kind_scaled_by_a_ratio_keeps_its_kind(a in 1e-9..1e9_f64, b in 1e-9..1e9_f64) {
        macro_rules! scaled {
            ($($kind:ident)*) => { $(
                check_identity::<$kind, Ratio, $kind>(a, b, |a, b| a * b, Quantity::times);
                check_identity::<$kind, $kind, Ratio>(a, b, |a, b| a / b, Quantity::over);
                check_identity::<$kind, $kind, $kind>(a, b, |a, b| a + b, Quantity::plus);
                check_identity::<$kind, $kind, $kind>(a, b, |a, b| a - b, Quantity::minus);
            )* };
        }
        scaled! {
            Length Area Volume Mass Time Speed WorkRate Flow Pressure VolumePerArea VolumeRate LiquidDose MassPerArea SolidDose
            VolumeFraction MassFraction MassPerVolume MassConcentration Content Density ParticleDensity BulkDensity Ratio
            VolumePerRowLength MassPerRowLength VolumePerTreeRowVolume MassPerTreeRowVolume VolumePerCrownHeight MassPerCrownHeight
        }
    }
}

/// What may be claimed as what, beside itself. Everything else is refused.
const CLAIMS: &[(Kind, &[Kind])] = &[
    (Kind::VolumePerArea, &[Kind::VolumeRate, Kind::LiquidDose]),
    (Kind::MassPerArea, &[Kind::SolidDose]),
    (
        Kind::MassPerVolume,
        &[Kind::MassConcentration, Kind::Content, Kind::Density, Kind::ParticleDensity, Kind::BulkDensity],
    ),
    // A fraction is also a number; a number is no fraction before its basis is stated.
    (Kind::VolumeFraction, &[Kind::Ratio]),
    (Kind::MassFraction, &[Kind::Ratio]),
];

#[test]
fn a_claimed_quantity_fits_only_its_slot() {
    for from in named_kinds() {
        let base = Quantity::from_parts(2.0, base_unit(from)).unwrap();
        let quantity = base.claim_kind(from).unwrap();
        for to in named_kinds() {
            let listed = CLAIMS.iter().any(|(a, b)| *a == from && b.contains(&to));
            let claimed = quantity.claim_kind(to);
            match claimed {
                Ok(claimed) => {
                    assert!(from == to || listed, "{from:?} was taken as {to:?}");
                    assert_eq!(claimed.kind(), to);
                    assert_eq!(bits(claimed), bits(quantity), "{from:?} as {to:?}");
                }
                Err(error) => {
                    assert!(from != to && !listed, "{from:?} is not taken as {to:?}: {error}");
                    let basis = from == Kind::Ratio && matches!(to, Kind::VolumeFraction | Kind::MassFraction);
                    let code = if basis { ErrorCode::AmbiguousUnit } else { ErrorCode::WrongQuantity };
                    assert_eq!(error.code(), code, "{from:?} as {to:?}: {error}");
                }
            }
        }
    }
}

#[test]
fn every_kind_has_words_of_its_own_and_a_unit_of_its_own_dimension() {
    let words: BTreeSet<&str> = Kind::all().iter().map(|kind| kind.words()).collect();
    assert_eq!(words.len(), Kind::all().len());
    for kind in named_kinds() {
        let quantity = Quantity::from_parts(1.0, kind.unit()).unwrap();
        assert_eq!(Some(quantity.dimension()), kind.dimension(), "{kind:?}");
        assert!(quantity.claim_kind(kind).is_ok(), "{kind:?}");
        assert_eq!(quantity.claim_kind(kind).unwrap().to_parts(), (1.0, kind.unit().into()));
    }
    assert_eq!(Kind::Derived.unit(), "");
}

#[test]
fn zero_has_no_sign() {
    for text in ["-0 L/ha", "-0.0 kg", "-0 m^2"] {
        let zero = Quantity::read(text).unwrap();
        assert!(!zero.to_text().starts_with('-'), "{text} is {zero:?}");
    }
    let below = Quantity::of(Volume::ZERO * -1.0);
    assert_eq!(below.compare(Quantity::of(Volume::ZERO)), Ok(std::cmp::Ordering::Equal));
    assert_eq!(below.to_text(), "0 L");
    let minus = Quantity::of(Ratio::from_number(-2.0).unwrap());
    assert_eq!(minus.times(Quantity::of(Volume::ZERO)).unwrap().to_text(), "0 L");
}

#[test]
fn a_value_is_shown_in_units_of_its_own_dimension_alone() {
    for from in named_kinds() {
        let quantity = Quantity::from_parts(2.0, base_unit(from)).unwrap().claim_kind(from).unwrap();
        for to in named_kinds() {
            let shown = quantity.to(to.unit());
            let code = (from.dimension() != to.dimension()).then_some(ErrorCode::WrongQuantity);
            assert_eq!(shown.err().map(|error| error.code()), code, "{from:?} in {}", to.unit());
        }
    }
    // A difference of temperatures is no reading of a thermometer: 20 K are not -253 °C.
    assert_eq!(Quantity::read("20 K^1").unwrap().to("°C").unwrap_err().code(), ErrorCode::WrongQuantity);
}

/// 1000.7 g/L is no double of kg/L times a thousand.
#[test]
fn a_density_in_grams_is_one_that_documents_can_say() {
    let density = Quantity::read("1000.7 g/L").unwrap().claim_kind(Kind::Density).unwrap();
    let (number, unit) = density.to_parts();
    assert_eq!(unit, "kg/L");
    let back = Quantity::from_parts(number, &unit).unwrap().claim_kind(Kind::Density).unwrap();
    assert_eq!(bits(back), bits(density));
}

#[test]
fn roots_and_powers_have_value_and_dimension() {
    for (text, (numerator, denominator), value, unit) in [
        ("9 m2", (1, 2), 3.0, "m"),
        ("27 m3", (1, 3), 3.0, "m"),
        ("4 m2", (3, 2), 8.0, "m3"),
        ("8 m3", (2, 3), 4.0, "m2"),
        ("3 m", (2, 1), 9.0, "m2"),
        ("4 m2", (-1, 2), 0.5, "m^-1"),
    ] {
        let power = Quantity::read(text).unwrap().power(numerator, denominator).unwrap();
        let actual = power.to(unit).unwrap();
        assert!(is_within(actual, value, 1e-15), "{text} to the {numerator}/{denominator} is {actual:?} {unit}");
    }
}

/// In lowest terms, as a person would write them.
#[test]
fn derived_quantities_are_written_in_base_units() {
    let volume = Quantity::read("2 m3").unwrap();
    assert_eq!(volume.times(Quantity::read("3 m").unwrap()).unwrap().to_text(), "6 m^4");
    assert_eq!(Quantity::read("9 m").unwrap().power(1, 2).unwrap().to_text(), "3 m^1/2");
    assert_eq!(Quantity::read("4 kg").unwrap().power(3, 2).unwrap().to_text(), "8 kg^3/2");
    let per_time = Quantity::read("6 kg").unwrap().over(Quantity::read("2 s").unwrap()).unwrap();
    assert_eq!(per_time.to_text(), "3 kg^1 s^-1");
}

#[test]
fn a_unit_text_has_at_most_a_hundred_letters() {
    let unit = |more: usize| format!("m^12{}", " m^0".repeat(more));
    assert_eq!(unit(24).len(), 100);
    assert!(Quantity::from_parts(1.0, &unit(24)).is_ok());
    for more in [25, 1000] {
        let error = Quantity::from_parts(1.0, &unit(more)).unwrap_err();
        assert_eq!(error.code(), ErrorCode::UnknownUnit);
    }
}
