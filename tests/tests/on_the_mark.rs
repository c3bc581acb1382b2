//! Doses that come to whole graduations and areas that come to whole loads give just these, however the doubles between them
//! round. Beside each the plain `floor` and `ceil` of the same doubles is counted where it would have been wrong.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::cast_precision_loss,
    clippy::float_cmp,
    reason = "a test fails by panicking, and compares whole numbers as doubles"
)]

use std::cell::Cell;

use mixcalc::*;
use mixcalc_tests::jobs::for_all;
use proptest::prelude::*;
use proptest::sample::select;

/// Graduations of measures, the unit of the tank with how many of these it is, and the unit of ground.
struct Trade {
    graduations: &'static [(f64, &'static str)],
    tank: &'static str,
    area: &'static str,
    rates: &'static [f64],
}

const METRIC: Trade = Trade {
    graduations: &[
        (0.5, "mL"),
        (1.0, "mL"),
        (2.0, "mL"),
        (5.0, "mL"),
        (10.0, "mL"),
        (20.0, "mL"),
        (25.0, "mL"),
        (50.0, "mL"),
        (100.0, "mL"),
        (250.0, "mL"),
        (0.1, "g"),
        (1.0, "g"),
        (5.0, "g"),
        (20.0, "g"),
    ],
    tank: "L",
    area: "ha",
    rates: &[80.0, 93.4, 100.0, 137.5, 200.0, 300.0, 450.0, 1000.0],
};

const US: Trade = Trade {
    graduations: &[
        (0.25, "US fl oz"),
        (0.5, "US fl oz"),
        (1.0, "US fl oz"),
        (2.0, "US fl oz"),
        (4.0, "US fl oz"),
        (1.0, "US pt"),
        (0.05, "oz av"),
        (0.5, "oz av"),
        (1.0, "oz av"),
    ],
    tank: "US gal",
    area: "ac",
    rates: &[7.5, 10.0, 12.3, 15.0, 20.0, 30.0, 43.56],
};

fn read<Q: QuantityKind>(value: f64, unit: &str) -> Q {
    // The shortest text of a double: up to 17 digits.
    Quantity::read(&format!("{value} {unit}")).and_then(Quantity::claim).unwrap()
}

fn amount(value: f64, unit: &str) -> Amount {
    match Quantity::read(&format!("{value} {unit}")).unwrap() {
        quantity if quantity.kind() == Kind::Mass => quantity.claim::<Mass>().unwrap().into(),
        quantity => quantity.claim::<Volume>().unwrap().into(),
    }
}

/// A job whose full load takes `graduations` of a measure, on the ground of `loads`.
#[derive(Clone, Debug)]
struct OnTheMark {
    us: bool,
    measure: usize,
    rate: usize,
    tank: f64,
    graduations: u64,
    loads: u64,
}

/// The job stated in text, and what plain sums make of the same text.
struct Stated {
    job: Job,
    naive_graduations: f64,
    naive_loads: f64,
}

impl OnTheMark {
    fn trade(&self) -> &'static Trade {
        if self.us { &US } else { &METRIC }
    }

    /// `beside` graduations beside the mark, `part` of a load beside whole loads, and whether the label allows more than the dose.
    fn stated(&self, beside: f64, part: f64, more_allowed: bool) -> Stated {
        let trade = self.trade();
        let (graduation, unit) = trade.graduations[self.measure % trade.graduations.len()];
        let rate = trade.rates[self.rate % trade.rates.len()];
        let wanted = (self.graduations as f64 + beside) * graduation;
        let capacity = graduation * 100.0;
        // A tank that holds many times the product and the rinses.
        let held = amount(wanted + capacity, unit);
        let share = |tank: f64| match held {
            Amount::Volume(volume) => (volume / read::<Volume>(tank, trade.tank)).number(),
            Amount::Mass(mass) => mass.kilograms() / read::<Volume>(tank, trade.tank).liters(),
            _ => panic!("{held}"),
        };
        let mut tank = self.tank;
        while share(tank) > 0.1 {
            tank *= 10.0;
        }

        let dose_text = |dose: f64| format!("{dose} {unit}/{}", trade.area);
        let dose = |times: f64| {
            let text = dose_text(wanted * rate / tank * times);
            Dose::claim(Quantity::read(&text).unwrap(), None).unwrap()
        };
        let (step, all) = (amount(graduation, unit), amount(capacity, unit));
        let measure = match (all, step) {
            (Amount::Volume(all), Amount::Volume(step)) => Measure::vessel(all, step),
            (Amount::Mass(all), Amount::Mass(step)) => Measure::scale(all, step),
            _ => panic!("{step}"),
        };
        let mut label = Label::new();
        if more_allowed {
            label = label.with_max_dose(dose(2.0));
        }
        let product = Product::new("example product A", dose(1.0))
            .unwrap()
            .with_label(label)
            .unwrap()
            .with_measure(measure.unwrap());

        let fill: Volume = read(tank, trade.tank);
        let per_area = format!("{}/{}", trade.tank, trade.area);
        let volume_rate: VolumeRate = read(rate, &per_area);
        let area: Area = read((self.loads as f64 + part) * tank / rate, trade.area);
        let brim = read(tank * 1.2, trade.tank);
        let job = Job::new(
            area,
            Rate::Volume(volume_rate),
            Sprayer::new(SprayerKind::Boom),
            Tank::new(Some(fill), Some(brim)).unwrap(),
        )
        .unwrap()
        .with_product(product)
        .unwrap();

        let served = fill / volume_rate;
        let naive_graduations = match (dose(1.0), step) {
            (Dose::LiquidPerArea(dose), Amount::Volume(step)) => (dose * served) / step,
            (Dose::SolidPerArea(dose), Amount::Mass(step)) => (dose * served) / step,
            (dose, _) => panic!("{dose:?}"),
        };
        Stated { job, naive_graduations: naive_graduations.number(), naive_loads: (volume_rate * area / fill).number() }
    }
}

fn on_the_mark(loads: impl Strategy<Value = u64>) -> impl Strategy<Value = OnTheMark> {
    let tank = select(&[5.0, 10.0, 12.0, 15.0, 16.0, 18.9][..]);
    let places = (0..64_usize, 0..64_usize);
    (any::<bool>(), places, tank, 1..5000_u64, loads).prop_map(|(us, (measure, rate), tank, graduations, loads)| {
        OnTheMark { us, measure, rate, tank, graduations, loads }
    })
}

fn any_count() -> impl Strategy<Value = u64> {
    prop_oneof![
        4 => 1..200_u64,
        2 => 1..1_000_000_u64,
        2 => 1..=10_000_000_000_u64,
        1 => Just(100_000_000_000_u64), // the most loads of a plan
    ]
}

/// Counts cases, and those in which plain rounding would have been wrong.
#[derive(Default)]
struct Bite {
    cases: Cell<u32>,
    wrong: Cell<u32>,
}

impl Bite {
    fn add(&self, naive_is_wrong: bool) {
        self.cases.set(self.cases.get() + 1);
        self.wrong.set(self.wrong.get() + u32::from(naive_is_wrong));
    }

    fn check(&self, what: &str) {
        let (cases, wrong) = (self.cases.get(), self.wrong.get());
        println!("{cases} cases; {what} of the same doubles would have been wrong in {wrong}");
        assert!(wrong > 0, "{what} is never wrong: nothing was tested");
    }
}

#[test]
fn a_dose_of_whole_graduations_at_its_maximum_gives_just_these() {
    let bite = Bite::default();
    for_all(&on_the_mark(1..4_u64), |case| {
        let stated = case.stated(0.0, 0.0, false);
        bite.add(stated.naive_graduations.floor() != case.graduations as f64);
        let plan = plan(&stated.job).unwrap();
        let cleared = plan.cleared().unwrap();
        for recipe in cleared.recipes() {
            let measured = recipe.amount(0).unwrap();
            prop_assert_eq!(measured.graduations(), case.graduations);
        }
        Ok(())
    });
    bite.check("floor");
}

#[test]
fn an_area_of_whole_loads_gives_just_these() {
    let bite = Bite::default();
    for_all(&on_the_mark(any_count()), |case| {
        let stated = case.stated(0.0, 0.0, false);
        bite.add(stated.naive_loads.ceil() != case.loads as f64);
        let plan = plan(&stated.job).unwrap();
        prop_assert_eq!(plan.load_count(), case.loads);
        prop_assert_eq!(plan.loads().len(), 1);
        prop_assert_eq!(plan.loads().first().map(Load::mix), Some(plan.safe_fill()));
        let cleared = plan.cleared().unwrap();
        let drawn: u64 =
            cleared.totals().flat_map(|total| total.drawn().map(|(_, count)| count).collect::<Vec<_>>()).sum();
        prop_assert_eq!(drawn, case.loads * case.graduations);
        Ok(())
    });
    bite.check("ceil");
}

#[test]
fn half_a_load_takes_half_the_graduations() {
    let bite = Bite::default();
    for_all(&on_the_mark(0..100_u64), |case| {
        let case = OnTheMark { graduations: case.graduations * 2, ..case.clone() };
        let stated = case.stated(0.0, 0.5, false);
        bite.add((stated.naive_graduations * 0.5).floor() != (case.graduations / 2) as f64);
        let plan = plan(&stated.job).unwrap();
        prop_assert_eq!(plan.load_count(), case.loads + 1);
        let cleared = plan.cleared().unwrap();
        let measured: Vec<u64> = cleared.recipes().map(|recipe| recipe.amount(0).unwrap().graduations()).collect();
        let (full, half) = (case.graduations, case.graduations / 2);
        let due = if case.loads == 0 { vec![half] } else { vec![full, half] };
        prop_assert_eq!(measured, due);
        Ok(())
    });
    bite.check("floor");
}

#[test]
fn half_a_graduation_goes_down() {
    let bite = Bite::default();
    for_all(&on_the_mark(1..4_u64), |case| {
        let stated = case.stated(0.5, 0.0, true);
        // Half up after half a graduation is taken off: right where the double is not over the half.
        bite.add((stated.naive_graduations - 0.5).ceil() != case.graduations as f64);
        let plan = plan(&stated.job).unwrap();
        let cleared = plan.cleared().unwrap();
        for recipe in cleared.recipes() {
            let measured = recipe.amount(0).unwrap();
            prop_assert_eq!(measured.graduations(), case.graduations);
        }
        Ok(())
    });
    bite.check("rounding");
}

/// Every filling of a tank whose scale was checked ends where the check says, and no load is over what was poured.
#[test]
fn a_checked_scale_gives_the_mark_that_holds_what_is_wanted() {
    let liters = |liters: f64| Volume::from_liters(liters).unwrap();
    let point = |poured, read| ScalePoint::new(liters(poured), liters(read)).unwrap();
    let check = ScaleCheck::new(&[point(37.0, 40.0), point(95.0, 90.0)], Ratio::from_percent(1.0).unwrap()).unwrap();
    let tank = Tank::new(Some(liters(100.0)), Some(liters(110.0))).unwrap().with_graduation(liters(10.0)).unwrap();
    let tank = tank.with_scale_check(check.clone()).unwrap();
    for split in Split::all() {
        let rate = Rate::Volume(VolumeRate::from_liters_per_hectare(100.0).unwrap());
        let job = Job::new(Area::from_hectares(3.3).unwrap(), rate, Sprayer::new(SprayerKind::Boom), tank.clone());
        let dose = LiquidDose::from_liters_per_hectare(1.0).unwrap();
        let job = job.unwrap().with_product(Product::new("example product A", dose).unwrap()).unwrap();
        let jug = Measure::vessel(liters(1.0), liters(0.01)).unwrap();
        let plan = plan(&job.with_measure(jug).unwrap().with_loading(Loading::new().with_split(*split))).unwrap();
        assert_eq!(plan.safe_fill(), check.volume_at(liters(90.0)).unwrap());
        for recipe in plan.cleared().unwrap().recipes() {
            assert!(recipe.load().mix() <= plan.safe_fill());
            let levels = recipe.steps().iter().filter_map(|step| match step.action() {
                Action::Fill { level, .. } | Action::TopUp { level, .. } => Some((level, step.in_tank())),
                _ => None,
            });
            for (level, in_tank) in levels {
                let Some(mark) = level.mark() else { continue };
                let held = check.volume_at(mark).unwrap() + level.rest().unwrap_or(Volume::ZERO);
                assert!((held.liters() - in_tank.liters()).abs() < 1e-9, "{mark} and {:?} for {in_tank}", level.rest());
                assert!((mark.liters() / 10.0).fract().abs() < 1e-9, "{mark} is no mark of the tank");
            }
        }
    }
    for volume in [1.0, 36.9, 37.0, 60.0, 95.0].map(liters) {
        let back = check.volume_at(check.mark_for(volume).unwrap()).unwrap();
        assert!((back.liters() - volume.liters()).abs() < 1e-12 * volume.liters(), "{volume} comes back as {back}");
    }
    assert!(check.volume_at(liters(91.0)).is_err_and(|error| error.code() == ErrorCode::OutOfRange));
    assert!(check.mark_for(liters(96.0)).is_err_and(|error| error.code() == ErrorCode::OutOfRange));
}
