//! As-applied logs: by ground and not by point, whatever the order and the resolution of the points.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test that cannot read its data has to fail"
)]

use std::path::PathBuf;

use mixcalc::columns::{AppliedLog, AppliedTotals, Column, OverlapCount, PointMark};
use mixcalc::*;
use proptest::prelude::*;

fn percent(value: f64) -> Ratio {
    Ratio::from_percent(value).unwrap()
}

/// Points of distance, swath, overlap, applied and target, counted as said.
fn add_up(points: &[[f64; 5]], count: OverlapCount) -> (AppliedTotals, Vec<u16>) {
    let column = |i: usize| points.iter().map(|point| point[i]).collect::<Vec<f64>>();
    let columns: Vec<Vec<f64>> = (0..5).map(column).collect();
    let mut marks = vec![9; points.len()];
    let log = AppliedLog::new(
        Column::Each(&columns[0]),
        Column::Each(&columns[1]),
        Column::Each(&columns[3]),
        Column::Each(&columns[4]),
    );
    let applied = log.with_overlap(Column::Each(&columns[2]), count).add_up(percent(10.0), &mut marks).unwrap();
    (applied, marks)
}

/// A sprayer's log of one pass, 780 points in US units: its area, its mix, and the five points that are off target.
fn u16_of(code: ErrorCode) -> u16 {
    u16::try_from(code.number()).unwrap_or_default()
}

#[test]
fn a_log_of_a_sprayer_adds_up_to_its_ground_and_its_mix() {
    let beside = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../shared/data");
    let file = std::env::var_os("MIXCALC_DATA").map_or(beside, PathBuf::from).join("as_applied_log/one_hertz_log.csv");
    let Ok(text) = std::fs::read_to_string(&file) else {
        println!("skipped: {} is absent; MIXCALC_DATA may say where the data are", file.display());
        return;
    };
    let points: Vec<[f64; 5]> = (text.lines().skip(1))
        .map(|line| {
            let number: Vec<f64> = line.split(',').map(|number| number.parse().unwrap()).collect();
            let [distance, swath] = [4, 5].map(|i| Length::from_feet(number[i]).unwrap().meters());
            let [target, applied] =
                [6, 7].map(|i| VolumeRate::from_us_gallons_per_acre(number[i]).unwrap().liters_per_hectare());
            [distance, swath, 0.0, applied, target]
        })
        .collect();
    assert_eq!(points.len(), 780);
    let (applied, marks) = add_up(&points, OverlapCount::EachTime);
    let (acres, gallons, target) = (applied.area.acres(), applied.mix.us_gallons(), applied.target_mix.us_gallons());
    let rate = applied.volume_rate().unwrap().us_gallons_per_acre();
    println!("{acres:.4} ac, {gallons:.3} US gal of {target:.3}, {rate:.4} US gal/ac, {:?}", applied.marked);
    assert!((acres - 47.6347).abs() < 5e-5 && (gallons - 475.836).abs() < 5e-4 && (target - 476.145).abs() < 5e-4);
    assert!((rate - 9.9893).abs() < 5e-5);
    assert!((applied.to_target().unwrap().number() - 475.836 / 476.145).abs() < 1e-5);
    let seen: Vec<(usize, u16)> = marks.iter().copied().enumerate().filter(|(_, mark)| *mark != 0).collect();
    let [start, off] = [PointMark::StartUp, PointMark::OffTarget].map(PointMark::number);
    assert_eq!(seen, [(0, start), (1, start), (2, start), (3, start), (779, off)]);
    assert_eq!((applied.marked, applied.refused), ([775, 1, 4, 0, 0], 0));
}

#[test]
fn a_pass_begins_at_the_first_point_after_a_standstill_and_after_a_closed_boom() {
    let point = |distance, swath, applied| [distance, swath, 0.0, applied, 100.0];
    let (applied, marks) = add_up(
        &[
            point(1.0, 24.0, 150.0),
            point(2.0, 24.0, 111.0),
            point(5.0, 24.0, 110.0),
            point(5.0, 24.0, 89.0),
            point(0.0, 24.0, 90.0),
            point(1.0, 24.0, 60.0),
            point(5.0, 24.0, 90.0),
            point(5.0, 0.0, 0.0),
            point(5.0, 12.0, 130.0),
            point(f64::NAN, 12.0, 130.0),
            point(5.0, 12.0, -1.0),
            point(5.0, 12.0, 130.0),
        ],
        OverlapCount::EachTime,
    );
    let (not_finite, out_of_range) = (u16_of(ErrorCode::NotFinite), u16_of(ErrorCode::OutOfRange));
    assert_eq!(marks, [2, 2, 0, 1, 3, 2, 0, 4, 2, not_finite, out_of_range, 2]);
    assert_eq!((applied.marked, applied.refused), ([2, 1, 5, 1, 1], 2));
    // 24 m times 19 m and 12 m times 10 m, of which 24 m times 10 m are on target.
    assert!((applied.area.square_meters() - 576.0).abs() < 1e-9);
    assert!((applied.area_off_target.square_meters() - 336.0).abs() < 1e-9);
}

#[test]
fn an_overlap_is_less_ground_and_no_less_mix_where_it_counts_once() {
    let points =
        [[100.0, 20.0, 0.0, 200.0, 200.0], [100.0, 20.0, 5.0, 200.0, 200.0], [100.0, 20.0, 20.0, 200.0, 200.0]];
    let (once, _) = add_up(&points, OverlapCount::Once);
    let (each, _) = add_up(&points, OverlapCount::EachTime);
    assert_eq!((once.area.to_string(), each.area.to_string()), ("0.35 ha".into(), "0.6 ha".into()));
    assert_eq!((once.mix, each.mix.to_string()), (each.mix, "120 L".into()));
    assert!((once.to_target().unwrap().number() - 60.0 / 35.0).abs() < 1e-12);
    assert!((each.to_target().unwrap().number() - 1.0).abs() < 1e-12);
    // Wider than the swath: asked about only where it counts.
    let wide = [[100.0, 20.0, 21.0, 200.0, 200.0]];
    assert_eq!(add_up(&wide, OverlapCount::Once).1, [u16_of(ErrorCode::OutOfRange)]);
    assert_eq!(add_up(&wide, OverlapCount::EachTime).1, [0]);
}

#[test]
fn nothing_treated_has_no_rate() {
    for points in [&[][..], &[[0.0, 20.0, 0.0, 200.0, 200.0]], &[[5.0, 0.0, 0.0, 0.0, 200.0]]] {
        let (applied, _) = add_up(points, OverlapCount::EachTime);
        assert_eq!((applied.volume_rate(), applied.to_target(), applied.area), (None, None, Area::ZERO));
    }
}

#[test]
fn what_cannot_be_added_up_is_refused_by_name() {
    let log = AppliedLog::new(Column::Same(1.0), Column::Each(&[1.0, 2.0]), Column::Same(1.0), Column::Same(1.0));
    let mut marks = [9; 3];
    let error = log.add_up(percent(10.0), &mut marks).unwrap_err();
    assert_eq!((error.code(), error.path(), marks), (ErrorCode::OutOfRange, "swath_m", [9; 3]));
    let mut marks = [9; 2];
    let error = log.add_up(percent(-10.0), &mut marks).unwrap_err();
    assert_eq!((error.code(), error.path(), marks), (ErrorCode::OutOfRange, "tolerance", [9; 2]));
    let log = log.with_standstill(Length::from_meters(-1.0).unwrap());
    assert_eq!(log.add_up(percent(10.0), &mut marks).unwrap_err().path(), "standstill");
    let log = log.with_standstill(Length::from_meters(1.0).unwrap());
    assert_eq!(log.add_up(percent(10.0), &mut marks).unwrap().marked, [0, 0, 0, 2, 0]);
}

/// A log long enough that plain sums of its points would drift, and over more than one block.
#[test]
fn a_long_log_is_as_exact_as_a_short_one() {
    let points = vec![[0.1, 3.0, 0.0, 130.0, 100.0]; 1_000_000];
    let (applied, _) = add_up(&points, OverlapCount::EachTime);
    assert!((applied.area.hectares() / 30.0 - 1.0).abs() < 3e-16 * 3.0, "{}", applied.area.hectares());
    assert!((applied.mix.liters() / 3900.0 - 1.0).abs() < 3e-16 * 3.0, "{}", applied.mix.liters());
    assert_eq!(applied.marked, [0, 0, 1_000_000, 0, 0]);
}

prop_compose! {
    fn point()(distance in 0.0..10.0_f64, swath in 0.5..40.0_f64, part in 0.0..1.0_f64, applied in 0.0..400.0_f64, target in 50.0..400.0_f64)
        -> [f64; 5] { [distance, swath, swath * part, applied, target] }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn ground_and_mix_do_not_depend_on_order_or_resolution(points in prop::collection::vec(point(), 1..60), parts in 2..5_usize) {
        for count in [OverlapCount::Once, OverlapCount::EachTime] {
            let (whole, marks) = add_up(&points, count);
            let finer: Vec<[f64; 5]> = points.iter().rev()
                .flat_map(|point| vec![[point[0] / parts as f64, point[1], point[2], point[3], point[4]]; parts]).collect();
            let (fine, _) = add_up(&finer, count);
            let near = |a: f64, b: f64| (a - b).abs() <= 1e-12 * a.max(b);
            prop_assert!(near(whole.area.hectares(), fine.area.hectares()));
            prop_assert!(near(whole.mix.liters(), fine.mix.liters()));
            prop_assert!(near(whole.target_mix.liters(), fine.target_mix.liters()));
            prop_assert!(near(whole.area_off_target.hectares(), fine.area_off_target.hectares()));
            prop_assert_eq!(whole.marked.iter().sum::<usize>() + whole.refused, points.len());
            prop_assert!(marks.iter().all(|mark| *mark < 5));
        }
    }

    #[test]
    fn a_log_on_target_is_on_target_and_once_is_never_more_ground(points in prop::collection::vec(point(), 1..60)) {
        let exact: Vec<[f64; 5]> = points.iter().map(|p| [p[0] + 0.1, p[1], p[2], p[4], p[4]]).collect();
        let (each, _) = add_up(&exact, OverlapCount::EachTime);
        prop_assert!((each.to_target().unwrap().number() - 1.0).abs() < 1e-12);
        prop_assert_eq!(each.marked[0], points.len());
        let (once, _) = add_up(&exact, OverlapCount::Once);
        prop_assert!(once.area <= each.area && once.mix == each.mix);
    }
}
