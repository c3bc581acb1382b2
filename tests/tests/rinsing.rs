//! Rinsing: the tables worked by hand, and what holds whatever the residual, the water and the portions.
#![allow(clippy::unwrap_used, clippy::float_cmp, reason = "a test fails by panicking, and compares exact doubles")]

use mixcalc::*;
use mixcalc_tests::is_within;
use proptest::prelude::*;

fn liters(value: f64) -> Volume {
    Volume::from_liters(value).unwrap()
}

fn percent(value: f64) -> Ratio {
    Ratio::from_percent(value).unwrap()
}

fn rate(value: f64) -> VolumeRate {
    VolumeRate::from_liters_per_hectare(value).unwrap()
}

fn residual(dilutable: f64, not: f64) -> Residual {
    Residual::new(liters(dilutable), liters(not)).unwrap()
}

/// Shares to two figures, as they are worked out by hand from `(1 / (1 + W / (n r)))^n` and `e^(-W / r)`.
#[test]
fn shares_are_those_of_the_table() {
    let table = [(5.0, [16.7, 8.2, 5.3, 3.9], 0.67), (10.0, [9.1, 2.8, 1.23, 0.67], 0.0045)];
    for (residuals, shares, continuous) in table {
        for (portions, share) in (1..).zip(shares) {
            let found = share_after_rinsing(liters(3.0), liters(3.0 * residuals), portions).unwrap().percent();
            assert!((found - share).abs() <= if share < 2.0 { 0.005 } else { 0.05 }, "{residuals} {portions}: {found}");
        }
        let found = share_after_continuous_rinsing(liters(3.0), liters(3.0 * residuals)).unwrap().percent();
        assert!((found - continuous).abs() < continuous * 0.01, "{residuals}: {found}");
    }
    // (3 / 13)^3 = 27 / 2197.
    assert!(is_within(share_after_rinsing(liters(1.0), liters(10.0), 3).unwrap().number(), 27.0 / 2197.0, 1e-14));
}

/// Water in residuals for a wanted share.
#[test]
fn water_is_that_of_the_table() {
    let table = [
        (1.0 / 50.0, [(2, 12.1), (3, 8.05), (4, 6.64), (6, 5.52)], 3.91),
        (1.0 / 100.0, [(2, 18.0), (3, 10.9), (4, 8.65), (6, 6.93)], 4.61),
        (1.0 / 300.0, [(2, 32.6), (3, 17.1), (4, 12.6), (6, 9.52)], 5.70),
    ];
    for (share, steps, continuous) in table {
        let share = percent(share * 100.0);
        for (portions, residuals) in steps {
            let found = rinse_water(liters(2.0), share, portions).unwrap().liters() / 2.0;
            assert!((found - residuals).abs() <= if residuals < 10.0 { 0.006 } else { 0.05 }, "{portions}: {found}");
        }
        let found = continuous_rinse_water(liters(2.0), share).unwrap().liters() / 2.0;
        assert!((found - continuous).abs() <= 0.006, "{found}");
    }
}

#[test]
fn ten_residuals_in_three_portions_keep_two_percent_and_just_miss_one() {
    let rinsing = Rinsing::in_equal_portions(residual(5.0, 0.0), liters(50.0), 3).unwrap();
    let kept: Vec<&str> =
        RinseRule::all().iter().filter(|rule| rule.is_kept_by(&rinsing)).map(RinseRule::name).collect();
    assert_eq!(kept, ["two-percent", "two-percent-at-nozzle"]);
    assert_eq!(rinse_portions(liters(5.0), liters(50.0), percent(1.0)).unwrap(), 4);
    assert_eq!(rinse_portions(liters(5.0), liters(50.0), percent(2.0)).unwrap(), 3);
}

#[test]
fn what_rinsing_does_not_reach_is_a_floor() {
    // 50 times the residual in ten portions, and yet a tenth of what is drained is the first mix.
    let rinsing = Rinsing::in_equal_portions(residual(4.5, 0.5), liters(225.0), 10).unwrap();
    assert!(rinsing.share().number() < 1e-7);
    assert!((rinsing.drained_share().number() - 0.1).abs() < 1e-7);
    assert!(!RinseRule::read("two-percent").unwrap().is_kept_by(&rinsing));
    let share = drained_share(rinsing.share(), residual(4.5, 0.5)).unwrap();
    assert!(is_within(share.number(), rinsing.drained_share().number(), 1e-14));
}

#[test]
fn a_rule_is_data_and_one_whose_text_was_not_seen_is_advice() {
    for rule in RinseRule::all() {
        assert_eq!(RinseRule::read(rule.name()).unwrap(), *rule);
        assert_eq!(rule.confidence() == Confidence::Probable, rule.force() == Force::Advice, "{}", rule.name());
        assert_eq!((rule.limit().source(), rule.limit().force()), (rule.source(), rule.force()));
        assert!(!rule.note().is_empty());
    }
    let shown: Vec<String> = RinseRule::all().iter().map(|rule| rule.limit().value().to_string()).collect();
    assert_eq!(shown.len(), 6);
    let error = RinseRule::read("ten-fold").unwrap_err();
    assert_eq!(error.code(), ErrorCode::UnknownChoice);
    assert!(error.to_string().contains("five-fold"), "{error}");
    // Five-fold is counted on the first portion, and on all that stays in the sprayer.
    let is_five_fold = |dilutable, not, water, portions| {
        let rinsing = Rinsing::in_equal_portions(residual(dilutable, not), liters(water), portions).unwrap();
        RinseRule::read("five-fold").unwrap().is_kept_by(&rinsing)
    };
    assert!(is_five_fold(4.0, 1.0, 25.0, 1) && is_five_fold(4.0, 1.0, 50.0, 2));
    assert!(!is_five_fold(4.0, 1.0, 24.9, 1) && !is_five_fold(4.0, 1.0, 25.0, 2));
    assert!(is_five_fold(0.0, 0.0, 0.1, 1), "of a sprayer that nothing stays in");
}

/// 5 L stay; 20 L, then 16 L that leave 2 L: 1/5 in 21 L sprayed, 1/25 in 18 L. At 100 L/ha they cover 3900 m2, or half of that twice.
#[test]
fn a_strip_is_the_one_worked_by_hand() {
    let portions = [
        RinsePortion { water: liters(20.0), left: liters(4.0) },
        RinsePortion { water: liters(16.0), left: liters(2.0) },
    ];
    let rinsing = Rinsing::new(residual(5.0, 1.0), &portions).unwrap();
    let told: Vec<_> =
        rinsing.portions().iter().map(|p| (p.share.number(), p.sprayed.liters(), p.left.liters())).collect();
    assert!(is_within(told[0].0, 0.2, 1e-14) && is_within(told[1].0, 0.04, 1e-14));
    assert!(is_within(told[0].1, 21.0, 1e-14) && is_within(told[1].1, 18.0, 1e-14) && told[1].2 == 2.0);
    assert_eq!(rinsing.left(), liters(2.0));
    // 21 / 5 + 18 / 25 = 4.92 L of the first mix are sprayed, 0.08 L are left; with 1 L undiluted 1.08 / 3.
    assert!(is_within(rinsing.mix_sprayed().liters(), 4.92, 1e-14));
    assert!(is_within(rinsing.mix_left().liters(), 0.08, 1e-13));
    assert!(is_within(rinsing.drained_share().number(), 0.36, 1e-14));

    let once = rinsing.strip(rate(200.0), rate(100.0), 1).unwrap();
    assert!(is_within(once.area().hectares(), 0.39, 1e-14));
    assert!(is_within(once.most().number(), 0.1, 1e-14) && is_within(once.least().number(), 0.02, 1e-14));
    assert!(is_within(once.mean().number(), 4.92 / (0.39 * 200.0), 1e-14));
    let twice = rinsing.strip(rate(200.0), rate(100.0), 2).unwrap();
    // The first pass ends after 19.5 L, within the first portion; the second begins there, and ends with the second portion.
    assert!(is_within(twice.area().hectares(), 0.195, 1e-14));
    assert!(is_within(twice.most().number(), 0.2, 1e-14) && is_within(twice.least().number(), 0.12, 1e-14));
    assert!(is_within(twice.main_dose_share().number(), 1.0 / 1.2, 1e-14));
    assert!(is_within(twice.length(Length::from_meters(13.0).unwrap()).unwrap().meters(), 150.0, 1e-13));
    // 0.195 ha take 39 L of mix; 6 L of them stay in the sprayer.
    assert!(is_within(rinsing.held_back(twice.area(), rate(200.0)).unwrap().liters(), 33.0, 1e-13));
    assert_eq!(rinsing.held_back(Area::from_square_meters(100.0).unwrap(), rate(200.0)).unwrap(), Volume::ZERO);
}

#[test]
fn the_strip_of_a_rinsing_is_the_last_strip_of_a_job() {
    let residual = residual(3.0, 1.0);
    let rinsing = Rinsing::in_equal_portions(residual, liters(30.0), 3).unwrap();
    let strip = rinsing.strip(rate(200.0), rate(150.0), 3).unwrap();
    let tank = Tank::new(Some(liters(600.0)), Some(liters(650.0))).unwrap();
    let job = Job::new(
        Area::read("4 ha").unwrap(),
        Rate::Volume(rate(200.0)),
        Sprayer::new(SprayerKind::Boom).with_residual(residual),
        tank,
    )
    .unwrap()
    .with_loading(Loading::new().with_last_strip(LastStrip::Area(strip.area())).unwrap());
    let plan = plan(&job).unwrap();
    let held_back = rinsing.held_back(strip.area(), rate(200.0)).unwrap();
    assert!(is_within(plan.last_strip().unwrap().held_back().liters(), held_back.liters(), 1e-14));
}

#[test]
fn what_cannot_be_is_refused_with_its_place() {
    let at = |error: Error| (error.code(), error.path().to_owned());
    let one = liters(1.0);
    let out = |path: &str| (ErrorCode::OutOfRange, path.to_owned());
    let none = |path: &str| (ErrorCode::NotPositive, path.to_owned());
    assert_eq!(at(share_after_rinsing(Volume::ZERO, one, 1).unwrap_err()), none("residual"));
    assert_eq!(at(share_after_rinsing(one, liters(-1.0), 1).unwrap_err()), out("water"));
    assert_eq!(at(share_after_rinsing(one, one, 0).unwrap_err()), out("portions"));
    assert_eq!(at(share_after_rinsing(one, one, 101).unwrap_err()), out("portions"));
    assert_eq!(at(share_after_continuous_rinsing(Volume::ZERO, one).unwrap_err()), none("residual"));
    assert_eq!(at(rinse_water(one, percent(100.1), 1).unwrap_err()), out("share"));
    assert_eq!(at(rinse_water(one, Ratio::ZERO, 1).unwrap_err()), none("share"));
    assert_eq!(at(continuous_rinse_water(Volume::ZERO, percent(1.0)).unwrap_err()), none("residual"));
    assert_eq!(at(drained_share(percent(101.0), residual(1.0, 0.0)).unwrap_err()), out("share"));
    assert_eq!(at(drained_share(percent(1.0), residual(0.0, 0.0)).unwrap_err()), none("residual"));
    assert_eq!(at(least_rinse_tank(one, Volume::ZERO).unwrap_err()), none("dilutable"));
    assert_eq!(at(least_rinse_tank(Volume::ZERO, one).unwrap_err()), none("nominal"));
    let error = rinse_portions(one, liters(4.0), percent(1.0)).unwrap_err();
    assert!(error.to_string().contains("100 portions"), "{error}");
    assert_eq!(at(error), out("water"));
    assert_eq!(at(Rinsing::new(residual(1.0, 0.0), &[]).unwrap_err()), out("portions"));
    let second = |water, left| {
        let portions = [RinsePortion { water: one, left: one }, RinsePortion { water, left }];
        at(Rinsing::new(residual(1.0, 0.0), &portions).unwrap_err())
    };
    assert_eq!(second(Volume::ZERO, one), none("portions[1].water"));
    assert_eq!(second(one, liters(2.1)), out("portions[1].left"));
    assert_eq!(second(one, liters(-0.1)), out("portions[1].left"));
    let rinsing = Rinsing::in_equal_portions(residual(1.0, 0.0), one, 1).unwrap();
    assert_eq!(at(rinsing.strip(rate(0.0), rate(1.0), 1).unwrap_err()), none("volume_rate"));
    assert_eq!(at(rinsing.strip(rate(1.0), rate(0.0), 1).unwrap_err()), none("rinse_rate"));
    assert_eq!(at(rinsing.strip(rate(1.0), rate(1.0), 0).unwrap_err()), out("passes"));
    assert_eq!(at(rinsing.held_back(Area::from_hectares(-1.0).unwrap(), rate(1.0)).unwrap_err()), out("strip"));
}

/// The dose of each of many pieces of the strip, summed over the passes: another way to the most, the least and the mean.
fn pieces(rinsing: &Rinsing, thinner: f64, passes: u64) -> Vec<f64> {
    const PIECES: usize = 400;
    let total = rinsing.sprayed().liters();
    let share_at = |volume: f64| {
        let mut end = 0.0;
        for portion in rinsing.portions() {
            end += portion.sprayed.liters();
            if volume < end {
                return portion.share.number();
            }
        }
        rinsing.share().number()
    };
    let piece = |index: usize| {
        let along = (index as f64 + 0.5) / PIECES as f64;
        (0..passes).map(|pass| share_at((pass as f64 + along) / passes as f64 * total)).sum::<f64>() * thinner
    };
    (0..PIECES).map(piece).collect()
}

fn portions() -> impl Strategy<Value = Vec<RinsePortion>> {
    prop::collection::vec((0.1..50.0, 0.0..1.0), 1..6).prop_map(|portions| {
        portions
            .into_iter()
            .map(|(water, left)| RinsePortion { water: liters(water), left: liters(left * water) })
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn more_water_and_more_portions_leave_less(r in 0.01..50.0, w in 0.01..500.0, more in 1.001..3.0, n in 1_u64..99) {
        let share = |w: f64, n| share_after_rinsing(liters(r), liters(w), n).unwrap();
        prop_assert!(share(w * more, n) < share(w, n));
        prop_assert!(share(w, n + 1) < share(w, n));
        prop_assert!(share_after_continuous_rinsing(liters(r), liters(w)).unwrap() < share(w, n));
    }

    #[test]
    fn portions_tend_to_rinsing_without_a_break(r in 0.01..50.0, residuals in 0.01..8.0_f64) {
        let water = liters(r * residuals);
        let continuous = share_after_continuous_rinsing(liters(r), water).unwrap().number();
        let apart = |n| share_after_rinsing(liters(r), water, n).unwrap().number() / continuous - 1.0;
        // The first term of the series: x^2 / (2 n).
        prop_assert!(apart(100) < apart(10) && apart(10) < apart(1));
        prop_assert!(apart(100) < f64::exp_m1(residuals * residuals / 200.0) + 1e-13);
    }

    #[test]
    fn water_and_portions_give_the_share_back(r in 0.01..50.0, wanted in 0.01..99.0, n in 1_u64..=100) {
        let water = rinse_water(liters(r), percent(wanted), n).unwrap();
        prop_assert!(is_within(share_after_rinsing(liters(r), water, n).unwrap().percent(), wanted, 1e-12));
        prop_assert_eq!(rinse_portions(liters(r), water, percent(wanted)).unwrap(), n);
        let water = continuous_rinse_water(liters(r), percent(wanted)).unwrap();
        prop_assert!(is_within(share_after_continuous_rinsing(liters(r), water).unwrap().percent(), wanted, 1e-12));
    }

    #[test]
    fn what_was_in_the_residual_is_sprayed_or_left(r in 0.01..50.0, d in 0.0..5.0, portions in portions()) {
        let rinsing = Rinsing::new(residual(r, d), &portions).unwrap();
        prop_assert!(is_within(rinsing.mix_sprayed().liters() + rinsing.mix_left().liters(), r, 1e-12));
        prop_assert!(is_within(rinsing.sprayed().liters() + rinsing.left().liters(), r + rinsing.water().liters(), 1e-12));
        let shares: Vec<Ratio> = rinsing.portions().iter().map(|portion| portion.share).collect();
        prop_assert!(shares.is_sorted_by(|a, b| a >= b));
        prop_assert!(rinsing.drained_share() >= rinsing.share());
    }

    #[test]
    fn equal_portions_are_the_formula(r in 0.01..50.0, w in 0.01..500.0, n in 1_u64..=100) {
        let rinsing = Rinsing::in_equal_portions(residual(r, 0.0), liters(w), n).unwrap();
        prop_assert!(is_within(rinsing.share().number(), share_after_rinsing(liters(r), liters(w), n).unwrap().number(), 1e-12));
    }

    #[test]
    fn no_square_metre_is_beyond_the_most_and_the_least(r in 0.01..50.0, portions in portions(), thinner in 0.2..2.0, passes in 1_u64..6) {
        let rinsing = Rinsing::new(residual(r, 0.0), &portions).unwrap();
        let strip = rinsing.strip(rate(200.0), rate(200.0 * thinner), passes).unwrap();
        let pieces = pieces(&rinsing, thinner, passes);
        let (most, least, mean) = (strip.most().number(), strip.least().number(), strip.mean().number());
        for dose in &pieces {
            prop_assert!(*dose <= most * (1.0 + 1e-9) && *dose >= least * (1.0 - 1e-9), "{dose} {least} {most}");
        }
        // The mean is met by the pieces to what a piece is wide.
        let found = pieces.iter().sum::<f64>() / pieces.len() as f64;
        prop_assert!((found - mean).abs() <= (most - least) * 0.02 + mean * 1e-9, "{found} {mean}");
        // Main dose and rinse dose are the maximum together, and no more.
        prop_assert!(is_within(strip.main_dose_share().number() * (1.0 + most), 1.0, 1e-14));
    }

    #[test]
    fn one_pass_for_each_of_equal_portions_gives_every_square_metre_the_same(r in 0.1..50.0, w in 1.0..500.0, n in 1_u64..20) {
        let rinsing = Rinsing::in_equal_portions(residual(r, 0.0), liters(w), n).unwrap();
        let strip = rinsing.strip(rate(200.0), rate(150.0), n).unwrap();
        prop_assert!(is_within(strip.most().number(), strip.least().number(), 1e-12));
        prop_assert!(is_within(strip.most().number(), strip.mean().number(), 1e-12));
    }
}
