//! Calibration on measurements of others, which are not in the tree: they are looked for in `MIXCALC_DATA`, else in `../shared/data` beside the
//! workspace. Where they are absent the tests say so and check nothing.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its data has to fail"
)]

use std::collections::BTreeMap;
use std::path::PathBuf;

use mixcalc::*;

type Outcome = Result<(), Error>;

/// The rows of a file, split at commas, without the first; `None` where there are no data.
fn rows(file: &str) -> Option<Vec<Vec<String>>> {
    let beside = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../shared/data");
    let path = std::env::var_os("MIXCALC_DATA").map_or(beside, PathBuf::from).join(file);
    let Ok(text) = std::fs::read_to_string(&path) else {
        println!("skipped: {} is absent; MIXCALC_DATA may say where the data are", path.display());
        return None;
    };
    let rows: Vec<Vec<String>> =
        text.lines().skip(1).map(|line| line.split(',').map(str::to_string).collect()).collect();
    assert!(!rows.is_empty(), "{file} is empty");
    Some(rows)
}

fn number(text: &str) -> f64 {
    text.trim().parse().unwrap_or_else(|_| panic!("{text:?} is no number"))
}

fn percent(value: f64) -> Ratio {
    Ratio::from_percent(value).unwrap()
}

fn assert_near(what: &str, got: f64, expected: f64, within: f64) {
    println!("{what}: {got}, expected {expected} within {within}");
    assert!((got - expected).abs() <= within, "{what}: {got}, expected {expected} within {within}");
}

/// Six nozzles at three heights, three catches of 25 s each at 40 psi. The rig reads 14 to 41 % high throughout: no nozzle may be called worn.
#[test]
fn a_rig_that_reads_high_wears_no_nozzle() -> Outcome {
    let Some(rows) = rows("replicate_catch_totals/single_nozzle_catch.csv") else {
        return Ok(());
    };
    assert_eq!(rows.len(), 54);
    let mut catches: BTreeMap<(String, String), Vec<Flow>> = BTreeMap::new();
    let mut nominal = BTreeMap::new();
    for row in &rows {
        let flow = flow(Volume::from_milliliters(number(&row[7]))?, Time::from_seconds(number(&row[5]))?)?;
        catches.entry((row[0].clone(), row[3].clone())).or_default().push(flow);
        nominal.insert(row[0].clone(), Flow::from_us_gallons_per_minute(number(&row[1]))?);
    }
    assert_eq!(catches.len(), 18);

    // Each by itself, against its rated flow.
    let (mut least, mut most, mut tightest, mut widest) = (f64::MAX, 0.0_f64, f64::MAX, 0.0_f64);
    for ((nozzle, height), repeats) in &catches {
        let new = NewNozzle::Rated(Uncertain::exact(nominal[nozzle])?);
        let set = NozzleCheck::new(new).judge(&[NozzleCatches::new(nozzle, repeats)?])?;
        let ratio = 1.0 + set.of_new.value().number();
        let spread = set.repeatability.number();
        println!(
            "{nozzle} at {height} in: {ratio:.3} of nominal, repeats to {:.2} %, {:?}",
            spread * 100.0,
            set.advice
        );
        assert!(
            matches!(set.nozzles[0].advice, NozzleAdvice::SharedBias | NozzleAdvice::CannotTell),
            "{nozzle} at {height}: {:?}",
            set.nozzles[0].advice
        );
        assert!(matches!(set.advice, SetAdvice::CheckGaugeClockJug | SetAdvice::CannotTell));
        // Three repeats never tell an outlier.
        assert_eq!(set.nozzles[0].outlier.map(|test| test.verdict), Some(OutlierVerdict::TooFew));
        (least, most) = (least.min(ratio), most.max(ratio));
        (tightest, widest) = (tightest.min(spread), widest.max(spread));
    }
    assert_near("least of nominal", least, 1.141, 6e-4);
    assert_near("most of nominal", most, 1.409, 6e-4);
    assert_near("tightest repeats, %", tightest * 100.0, 0.03, 5e-3);
    assert_near("widest repeats, %", widest * 100.0, 6.8, 5e-2);

    // All together, in parts of nominal: what they share is said, and it is not wear.
    let unit = Flow::from_liters_per_minute(1.0)?;
    let all: Vec<NozzleCatches> = catches
        .iter()
        .map(|((nozzle, height), repeats)| {
            let parts: Vec<Flow> = repeats.iter().map(|flow| unit * (*flow / nominal[nozzle])).collect();
            NozzleCatches::new(&format!("{nozzle} at {height} in"), &parts)
        })
        .collect::<Result<_, _>>()?;
    let set = NozzleCheck::new(NewNozzle::Rated(Uncertain::exact(unit)?)).judge(&all)?;
    println!("all: {:?}, shared {:?}, repeatability {}", set.advice, set.shared, set.repeatability);
    assert_eq!(set.advice, SetAdvice::CheckGaugeClockJug);
    assert_near("shared", set.shared.unwrap().value().number(), 0.141, 6e-4);
    Ok(())
}

/// Five of twenty nozzles, four minutes each, against 2.16 L/min: the mean 2.25 is 4.167 % over, single ones 1.39 to 7.41 %.
#[test]
fn a_boom_within_its_limits_is_kept() -> Outcome {
    let Some(rows) = rows("published_checks/boom_catch_5_of_20.csv") else {
        return Ok(());
    };
    let catches: Vec<NozzleCatches> = rows
        .iter()
        .map(|row| {
            let flow = flow(Volume::from_liters(number(&row[1]))?, Time::from_minutes(number(&row[2]))?)?;
            NozzleCatches::new(&row[0], &[flow])
        })
        .collect::<Result<_, _>>()?;
    let nominal = Flow::from_liters_per_minute(2.16)?;
    let check = NozzleCheck::new(NewNozzle::Rated(Uncertain::exact(nominal)?))
        .with_repeatability(percent(0.5))?
        .with_limits(NozzleLimits::advised().with_reject(percent(15.0), "limit of the source")?);
    let set = check.judge(&catches)?;
    assert_near("mean", set.mean.value().liters_per_minute(), 2.25, 1e-9);
    assert_near("mean over new, %", set.of_new.value().number() * 100.0, 4.167, 5e-4);
    let expected = [1.39, 5.56, 7.41, 4.17, 2.31];
    assert_eq!(set.nozzles.len(), expected.len());
    for (nozzle, expected) in set.nozzles.iter().zip(expected) {
        assert_near(&nozzle.name, nozzle.of_new.value().number() * 100.0, expected, 5e-3);
        assert_eq!((nozzle.advice, nozzle.rejected), (NozzleAdvice::Keep, Some(Side::Under)), "{}", nozzle.name);
    }
    assert_eq!(set.advice, SetAdvice::Keep);
    assert_eq!(set.outlier.map(|test| test.verdict), Some(OutlierVerdict::None));
    // A jug to 10 % of which no legal limit could be told.
    let jug = Uncertain::from_tolerance("jug", percent(100.0), percent(10.0))?;
    let blurred = check.with_common(&jug)?.judge(&catches)?;
    assert_eq!(blurred.nozzles[2].rejected, Some(Side::CannotTell));
    assert_eq!(blurred.advice, SetAdvice::CannotTell);
    Ok(())
}

#[test]
fn courses_are_as_long_as_they_are_printed() -> Outcome {
    let Some(rows) = rows("published_checks/ounce_method_course_lengths.csv") else {
        return Ok(());
    };
    for row in &rows {
        let length = course_length(one_128th_acre(), Length::from_inches(number(&row[0]))?)?.feet();
        assert_near(&row[0], length, number(&row[2]), 5.1e-4);
        // One of them was cut down, not rounded.
        assert_near(&row[0], length, number(&row[1]), if row[0] == "32" { 1.0 } else { 0.5 });
    }
    Ok(())
}

/// Catches of a minute each, one way of 46 m in 60 s, a swath of 0.51 m: 429.67 L/ha without rounding on the way.
#[test]
fn a_knapsack_operator_comes_out_without_rounding() -> Outcome {
    let Some(rows) = rows("published_checks/rate_checks.csv") else {
        return Ok(());
    };
    let given = &rows.iter().find(|row| row[0] == "K1").unwrap()[2];
    let after = |word: &str, end: &str| {
        let rest = given.split_once(word).unwrap().1;
        rest.split_once(end).map_or(rest, |(text, _)| text).to_string()
    };
    let catches = after("catches ", " L")
        .split(';')
        .map(|catch| Volume::from_liters(number(catch)))
        .collect::<Result<Vec<_>, _>>()?;
    assert_eq!(catches.len(), 5);
    let catch = Uncertain::from_repeats("catches", &catches)?;
    let minute = Uncertain::exact(Time::from_minutes(1.0)?)?;
    let course = Uncertain::exact(Length::from_meters(number(&after("L; ", " m")))?)?;
    let run = Uncertain::exact(Time::from_seconds(number(&after("walked in ", " s")))?)?;
    let swath = Uncertain::exact(Length::from_meters(number(&after("swath ", " m")))?)?;
    let calibration = Calibration::from_timed_course(&catch, &minute, &course, &run, &swath)?;
    assert_near("R", calibration.volume_rate().value().liters_per_hectare(), 429.67, 5e-3);
    let interval = calibration.volume_rate().interval(percent(95.0))?;
    println!("from {} to {}", interval.low(), interval.high());
    Ok(())
}
