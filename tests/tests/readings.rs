//! Tables of readings: what they hold, which rows they flag, and that no table makes a panic.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test fails by panicking")]

use mixcalc::document::{Readings, read_readings};
use mixcalc::*;
use proptest::prelude::*;

const TABLE: &str = include_str!("../conformance/readings.csv");

fn read(table: &str) -> Readings {
    read_readings(table.as_bytes()).unwrap()
}

fn rate(readings: &Readings, check: &str) -> Result<VolumeRate, Error> {
    let read = readings.calibrations.iter().find(|read| read.check == check).unwrap();
    Ok(read.record.clone()?.calibration()?.volume_rate().value())
}

/// 1.2 L in 30 s under 0.5 m at 20 m in 9 s are 360 L/ha; 600 x 12 / (4.8 x 4) are 375 L/ha; a refill without its ground is no rate.
#[test]
fn calibrations_are_what_a_hand_gets() {
    let readings = read(TABLE);
    let checks: Vec<_> = readings.calibrations.iter().map(|read| (&*read.check, read.flagged)).collect();
    assert_eq!(checks, [("spring", 1), ("orchard", 0), ("poor", 0)]);
    assert!((rate(&readings, "spring").unwrap().liters_per_hectare() - 360.0).abs() < 1e-9);
    assert!((rate(&readings, "orchard").unwrap().liters_per_hectare() - 375.0).abs() < 1e-9);
    let missing = rate(&readings, "poor").unwrap_err();
    assert_eq!((missing.code(), missing.path()), (ErrorCode::MissingInput, "area"));
    let spring = readings.calibrations[0].record.clone().unwrap().calibration().unwrap();
    let names: Vec<_> = spring.volume_rate().contributions().iter().map(|one| one.name().to_owned()).collect();
    assert_eq!(names, ["catch tolerance", "catch"]);
}

/// 403 mL in half a minute are 0.806 L/min, 0.75 % over 0.8.
#[test]
fn a_nozzle_check_is_what_a_hand_gets() {
    let readings = read(TABLE);
    let [boom] = readings.nozzle_checks.as_slice() else { panic!("one check") };
    assert_eq!((&*boom.check, boom.flagged), ("boom", 10));
    let set = boom.judge().unwrap();
    let names: Vec<_> = set.nozzles.iter().map(|nozzle| &*nozzle.name).collect();
    assert_eq!(names, ["L1", "R1"]);
    assert!((set.nozzles[0].flow.value().liters_per_minute() - 0.806).abs() < 1e-12);
    assert!((set.nozzles[0].of_new.value().percent() - 0.75).abs() < 1e-9);
    assert_eq!(set.advice, SetAdvice::Keep);
    let (apart, side) = set.sides.unwrap();
    assert!((apart.value().number() - 0.006 / 0.803).abs() < 1e-9);
    assert_eq!(side, Side::Under);
}

#[test]
fn rows_are_flagged_with_their_line_their_column_and_why() {
    let readings = read(TABLE);
    let flagged: Vec<_> = readings.flagged.iter().map(|row| (row.line, row.error.path(), row.error.code())).collect();
    assert_eq!(
        flagged,
        [
            (10, "value", ErrorCode::UnlikeQuantities),
            (17, "side", ErrorCode::UnknownChoice),
            (18, "value", ErrorCode::MissingInput),
            (19, "value", ErrorCode::NotPositive),
            (20, "nozzle", ErrorCode::MissingInput),
            (21, "side", ErrorCode::UnknownChoice),
            (22, "value", ErrorCode::AmbiguousUnit),
            (23, "value", ErrorCode::DecimalComma),
            (24, "method", ErrorCode::UnknownChoice),
            (25, "method", ErrorCode::UnknownChoice),
            (26, "", ErrorCode::UnreadableDocument),
            (27, "check", ErrorCode::MissingInput),
        ]
    );
}

/// A nozzle that no name can be told of is flagged, and does not vanish; nor do more nozzles than a check may have.
#[test]
fn no_nozzle_vanishes() {
    let header = "check,method,input,value,unit,nozzle\nboom,nozzle-check,rated,1,L/min,\n";
    let long = "x".repeat(2000);
    let readings =
        read(&format!("{header}boom,nozzle-check,catch,1,L/min,{long}\nboom,nozzle-check,catch,1,L/min,a\n"));
    assert_eq!((readings.flagged[0].line, readings.flagged[0].error.path()), (3, "nozzle"));
    assert_eq!((readings.nozzle_checks[0].catches.len(), readings.nozzle_checks[0].flagged), (1, 1));

    let rows: String = (0..1100).map(|i| format!("boom,nozzle-check,catch,1,L/min,n{i}\n")).collect();
    let readings = read(&format!("{header}{rows}"));
    let [boom] = readings.nozzle_checks.as_slice() else { panic!("one check") };
    assert_eq!(boom.catches.len() + readings.flagged.len(), 1100);
    assert_eq!((boom.catches.len(), boom.flagged), (999, 101), "the rated flow is an input too");
    let caught = |count: u64| {
        let flow = Flow::from_liters_per_minute(1.0).unwrap();
        (0..count).map(|i| NozzleCatches::new(&format!("n{i}"), &[flow, flow]).unwrap()).collect::<Vec<_>>()
    };
    let check =
        NozzleCheck::new(NewNozzle::Rated(Uncertain::exact(Flow::from_liters_per_minute(1.0).unwrap()).unwrap()));
    let refused = check.judge(&caught(1001)).unwrap_err();
    assert_eq!((refused.code(), refused.path()), (ErrorCode::OutOfRange, "catches"));
    assert!(check.judge(&caught(1000)).is_ok());
}

#[test]
fn a_header_that_does_not_fit_refuses_the_table() {
    let refused = |table: &[u8]| read_readings(table).unwrap_err();
    let unknown = refused(b"check,method,input,value,unitt\n");
    assert_eq!((unknown.code(), unknown.path(), unknown.allowed_text()), (ErrorCode::UnknownKey, "header", "\"unit\""));
    assert_eq!(refused(b"check,method,input,value,value\n").code(), ErrorCode::DuplicateKey);
    assert_eq!(refused(b"check,method,input\n").code(), ErrorCode::MissingInput);
    assert_eq!(refused(b"").code(), ErrorCode::MissingInput);
    assert_eq!(refused(b"\xff\xfe").code(), ErrorCode::UnreadableDocument);
    assert_eq!(read("check,method,input,value\n"), Readings::default());
}

proptest! {
    /// Rows in another order make the same flows, and rows of others change nothing.
    #[test]
    fn order_and_company_do_not_matter(seed in any::<u64>()) {
        let (header, rows) = TABLE.split_once('\n').unwrap();
        let mut rows: Vec<&str> = rows.lines().filter(|row| row.starts_with("spring") && !row.contains("kg")).collect();
        let count = rows.len();
        for place in 1..count {
            rows.swap(place, usize::try_from(seed.rotate_left(u32::try_from(place).unwrap()) % (place as u64 + 1)).unwrap());
        }
        let shuffled = read(&format!("{header}\n{}\n", rows.join("\n")));
        prop_assert_eq!(shuffled.flagged.len(), 0);
        let (a, b) = (rate(&shuffled, "spring").unwrap(), rate(&read(TABLE), "spring").unwrap());
        prop_assert!((a.liters_per_hectare() / b.liters_per_hectare() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn no_table_makes_a_panic(cells in prop::collection::vec("[a-z0-9 ,\"\n.%-]{0,12}", 0..40)) {
        let table = format!("check,method,input,value,unit,nozzle,side,time,tolerance,resolution,alleys\n{}", cells.join(","));
        let _ = read_readings(table.as_bytes());
        let _ = read_readings(cells.join("\n").as_bytes());
    }
}
