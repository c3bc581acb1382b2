//! What every plan promises, on random jobs that seek the edges. `docs/numbers.md` is the page that these hold the plan to.
//!
//! The jobs are the same in every run; `PROPTEST_RNG_SEED` gives others and `PROPTEST_CASES` more of them.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::float_cmp,
    reason = "a test fails by panicking, and compares exact doubles"
)]

use std::cell::Cell;

use mixcalc::*;
use mixcalc_tests::jobs::{Most, ProductSketch, Sketch, for_all, sketches, sketches_of};
use proptest::prelude::*;
use proptest::test_runner::TestCaseResult;

/// Relative distance within which two numbers are the same: the library's own, and a thousandth of it for roundings of the tests.
const CLOSE: f64 = 1.001e-12;

fn close(a: f64, b: f64) -> bool {
    within(a, b, CLOSE * a.abs().max(b.abs()))
}

fn within(a: f64, b: f64, distance: f64) -> bool {
    (a - b).abs() <= distance
}

fn over(a: f64, limit: f64) -> bool {
    a > limit && !close(a, limit)
}

fn number(amount: Amount) -> f64 {
    match amount {
        Amount::Volume(volume) => volume.liters(),
        Amount::Mass(mass) => mass.kilograms(),
        _ => panic!("{amount}"),
    }
}

macro_rules! check_close {
    ($a:expr, $b:expr) => {{
        let (a, b) = ($a, $b);
        prop_assert!(close(a, b), "{} = {a:?}, and {} = {b:?}", stringify!($a), stringify!($b));
    }};
}

/// What became of the jobs that were tried, so that no property holds for want of plans.
#[derive(Default)]
struct Tally {
    jobs: Cell<u32>,
    plans: Cell<u32>,
    stopped: Cell<u32>,
    with_part_load: Cell<u32>,
    at_maximum: Cell<u32>,
}

fn count(cell: &Cell<u32>, is_one: bool) {
    cell.set(cell.get() + u32::from(is_one));
}

impl Tally {
    fn add(&self, plan: &Plan) {
        count(&self.plans, true);
        count(&self.stopped, !plan.usable());
        count(&self.with_part_load, plan.loads().len() > 1);
        // Where rounding to the nearest graduation would pass the maximum.
        let held_down = plan.cleared().is_some_and(|cleared| {
            cleared.recipes().any(|recipe| {
                recipe.amounts().any(|amount| {
                    let measured = number(amount.measured());
                    let step = measured / amount.graduations() as f64;
                    number(amount.exact()) - measured > 0.51 * step
                })
            })
        });
        count(&self.at_maximum, held_down);
    }

    fn check(&self) {
        let [jobs, plans, stopped, with_part_load, at_maximum] =
            [&self.jobs, &self.plans, &self.stopped, &self.with_part_load, &self.at_maximum].map(Cell::get);
        let of = format!(
            "{jobs} jobs, {plans} plans, {stopped} stopped, {with_part_load} with a part load, {at_maximum} held at a maximum"
        );
        println!("{of}");
        assert!(plans * 10 >= jobs * 8, "{of}");
        assert!(stopped * 100 >= jobs && stopped * 10 <= jobs * 4, "{of}");
        assert!(at_maximum * 100 >= jobs * 5, "{of}");
        assert!(with_part_load * 10 >= jobs, "{of}");
    }
}

/// Runs a property over the plans of random jobs, and makes sure that there are enough plans of each sort.
fn for_plans(property: impl Fn(&Sketch, &Plan) -> TestCaseResult) {
    let tally = Tally::default();
    for_all(&sketches(), |sketch| {
        count(&tally.jobs, true);
        let job = sketch.job().map_err(|error| TestCaseError::fail(error.to_string()))?;
        let Ok(plan) = plan(&job) else {
            return Ok(());
        };
        tally.add(&plan);
        property(sketch, &plan)
    });
    tally.check();
}

/// As [`for_plans`], for the plans without a stop.
fn for_cleared(property: impl Fn(&Sketch, &Plan, Cleared<'_>) -> TestCaseResult) {
    for_plans(|sketch, plan| match plan.cleared() {
        Some(cleared) => property(sketch, plan, cleared),
        None => Ok(()),
    });
}

// ------------------------------------------------------------------------------- sums of the tests' own, from the formulas

/// What a dose comes to on an area and in a volume of mix, with the plan's share of carrier.
fn asked(plan: &Plan, dose: Dose, area: Area, mix: Volume) -> Amount {
    asked_of(plan, dose, area, mix, mix * (plan.carrier_rate() / plan.volume_rate()))
}

/// What a dose comes to on an area, in a volume of mix and in a volume of carrier.
fn asked_of(plan: &Plan, dose: Dose, area: Area, mix: Volume, carrier: Volume) -> Amount {
    match dose {
        Dose::LiquidPerArea(dose) => (dose * area).into(),
        Dose::SolidPerArea(dose) => (dose * area).into(),
        Dose::LiquidPerMix(share) => (share * mix).into(),
        Dose::SolidPerMix(share) => (share * mix).into(),
        Dose::MassPerMass(share) => (share * (plan.job().mix_density().unwrap() * mix)).into(),
        Dose::LiquidPerCarrier(share) => (share * carrier).into(),
        Dose::SolidPerCarrier(share) => (share * carrier).into(),
        _ => panic!("{dose:?}"),
    }
}

/// An amount in graduations of a measure.
fn graduations(sketch: &ProductSketch, measure: &Measure, amount: Amount) -> f64 {
    let dry = sketch.state == State::Dry;
    match (amount, measure.graduation()) {
        (Amount::Volume(a), Amount::Volume(b)) => a / b,
        (Amount::Mass(a), Amount::Mass(b)) => a / b,
        (Amount::Mass(a), Amount::Volume(b)) if dry => a / sketch.bulk_density().unwrap() / b,
        (Amount::Mass(a), Amount::Volume(b)) => a / sketch.density().unwrap() / b,
        (Amount::Volume(a), Amount::Mass(b)) => sketch.density().unwrap() * a / b,
        _ => panic!("{amount}"),
    }
    .number()
}

/// The room that an amount takes up in the tank.
fn room(sketch: &ProductSketch, amount: Amount) -> Volume {
    match amount {
        Amount::Volume(volume) => volume,
        Amount::Mass(mass) if sketch.state == State::Dry => {
            sketch.particle_density().map_or(Volume::ZERO, |density| mass / density)
        }
        Amount::Mass(mass) => mass / sketch.density().unwrap(),
        _ => panic!("{amount}"),
    }
}

fn marks(volume: Volume, plan: &Plan) -> Option<f64> {
    Some((volume / plan.job().tank().graduation()?).number())
}

fn is_whole(x: f64) -> bool {
    close(x, x.round())
}

/// The mix that is due on the ground, less what is held back.
fn due(plan: &Plan) -> Volume {
    let held_back = plan.last_strip().map_or(Volume::ZERO, Strip::held_back);
    plan.volume_rate() * plan.job().area() - held_back
}

/// `count` times a volume.
fn many(volume: Volume, count: u64) -> f64 {
    volume.liters() * count as f64
}

// ------------------------------------------------------------------------------------------------------------------- loads

#[test]
fn marks_do_not_lift_a_fill_over_the_tank() {
    for nominal in 1..=200 {
        for steps in 1..=12 {
            let [nominal, step] =
                [10 * nominal * steps, 10 * nominal].map(|liters| Volume::from_liters(f64::from(liters)).unwrap());
            let tank = Tank::new(Some(nominal), Some(nominal * 1.1)).unwrap().with_graduation(step).unwrap();
            let rate = Rate::Volume(VolumeRate::from_liters_per_hectare(200.0).unwrap());
            let job =
                Job::new(Area::from_hectares(500.0).unwrap(), rate, Sprayer::new(SprayerKind::Boom), tank).unwrap();
            let fill = plan(&job).unwrap().safe_fill();
            assert!(fill <= nominal && (fill / nominal).number() > 0.999_999, "{fill:?} of {nominal:?}");
        }
    }
}

#[test]
fn no_load_is_over_the_safe_fill() {
    for_plans(|_, plan| {
        for load in plan.loads() {
            prop_assert!(load.mix() <= plan.safe_fill(), "{load:?}");
            // What somebody with the tank's papers compares, to the last bit: marks may not lift a fill over it.
            let tank = plan.job().tank();
            for capacity in [tank.nominal(), tank.brim()].into_iter().flatten() {
                prop_assert!(load.mix() <= capacity, "{load:?} in {capacity:?}");
            }
            prop_assert!(load.mix() > Volume::ZERO, "{load:?}");
        }
        Ok(())
    });
}

#[test]
fn mix_of_the_loads_adds_up_to_the_mix_made() {
    for_plans(|_, plan| {
        let made = due(plan);
        let loads: f64 = plan.loads().iter().map(|load| many(load.mix(), load.count())).sum();
        check_close!(loads, made.liters());
        check_close!(plan.made().liters(), made.liters());
        let areas: f64 = plan.loads().iter().map(|load| load.area().hectares() * load.count() as f64).sum();
        check_close!(areas, plan.area_made_for().hectares());
        Ok(())
    });
}

#[test]
fn loads_are_numbered_from_one_without_a_gap() {
    for_plans(|_, plan| {
        let mut next = 1;
        for load in plan.loads() {
            prop_assert_eq!(load.first(), next);
            prop_assert_eq!(load.last() - load.first() + 1, load.count());
            next = load.last() + 1;
        }
        prop_assert_eq!(plan.load_count(), next - 1);
        Ok(())
    });
}

#[test]
fn equal_loads_are_as_few_as_fit() {
    for_plans(|_, plan| {
        let fit = (due(plan) / plan.safe_fill()).number();
        let count = plan.load_count() as f64;
        prop_assert!(!over(fit, count), "{fit} in {count}");
        prop_assert!(fit - (count - 1.0) > 0.9 * CLOSE * fit, "{fit} in {count}");
        if plan.job().loading().split() == Split::Even {
            let (first, last) = (&plan.loads()[0], plan.loads().last().unwrap());
            match marks(first.mix() - last.mix(), plan) {
                None => prop_assert_eq!(plan.loads().len(), 1),
                // The last load takes what is below a mark, so that it may also be the larger one.
                Some(apart) => prop_assert!(!over(apart.abs(), 1.0), "{apart} marks"),
            }
        }
        Ok(())
    });
}

#[test]
fn all_loads_but_the_last_are_full_where_they_are_not_equal() {
    for_plans(|_, plan| {
        if plan.job().loading().split() == Split::FullThenPart {
            // A part below the least working volume is shared with the load before.
            let may_share = plan.job().tank().least_working_volume().is_some();
            let beside = if may_share { 2 } else { 1 };
            let full: u64 = plan.loads().iter().filter(|load| load.mix() == plan.safe_fill()).map(Load::count).sum();
            prop_assert!(full + beside >= plan.load_count(), "{full}");
        }
        Ok(())
    });
}

#[test]
fn a_part_below_the_working_volume_is_shared_or_said() {
    for_plans(|_, plan| {
        let Some(least) = plan.job().tank().least_working_volume() else {
            return Ok(());
        };
        let under = |load: &&Load| over(least.liters(), load.mix().liters());
        let said = plan
            .findings()
            .iter()
            .filter(|finding| finding.code() == FindingCode::PartLoadBelowWorkingVolume)
            .map(|finding| finding.load().unwrap());
        let small = plan.loads().iter().filter(under).map(Load::first);
        prop_assert!(said.eq(small));
        if plan.job().loading().split() == Split::FullThenPart && plan.load_count() > 1 {
            let last = plan.loads().last().unwrap();
            let half = plan.safe_fill() / 2.0;
            let mark = plan.job().tank().graduation().unwrap_or(Volume::ZERO);
            prop_assert!(!under(&last) || last.mix() + mark >= half, "{last:?}");
        }
        Ok(())
    });
}

#[test]
fn a_tank_with_marks_is_filled_to_marks() {
    for_plans(|_, plan| {
        let Some(full) = marks(plan.safe_fill(), plan) else {
            return Ok(());
        };
        prop_assert!(is_whole(full), "safe fill of {full} marks");
        for load in plan.loads() {
            let marks = marks(load.mix(), plan).unwrap();
            let last = load.last() == plan.load_count();
            prop_assert!(is_whole(marks) || (last && load.count() == 1), "{marks} marks");
        }
        Ok(())
    });
}

#[test]
fn a_plan_costs_the_same_for_ten_loads_and_for_ten_billion() {
    for_plans(|sketch, plan| {
        prop_assert!(plan.loads().len() <= 3);
        let most = 3 * sketch.products.len() + 4;
        for recipe in plan.cleared().iter().flat_map(Cleared::recipes) {
            prop_assert!(recipe.steps().len() <= most);
        }
        Ok(())
    });
}

#[test]
fn more_loads_of_the_same_size_are_the_same_recipe() {
    const TIMES: u64 = 1_000_000_000;
    let compared = Cell::new(0);
    for_all(&sketches_of(2..=12_u64), |sketch| {
        let mut few = sketch.clone();
        (few.part, few.nudge, few.strip, few.of_carrier) = (0.0, 0.0, None, false);
        let many = Sketch { loads: few.loads * TIMES, ..few.clone() };
        let [few, many] = [few, many].map(|sketch| plan(&sketch.job().unwrap()));
        let (Ok(few), Ok(many)) = (few, many) else {
            return Ok(()); // an amount that cannot be counted, say
        };
        if few.loads().iter().any(|load| load.mix() != few.safe_fill()) {
            return Ok(()); // a fill that the sketch did not foresee, and with it a part load
        }
        prop_assert_eq!(many.load_count(), few.load_count() * TIMES);
        prop_assert_eq!(many.loads().len(), few.loads().len());
        prop_assert_eq!(many.usable(), few.usable());
        let (Some(few), Some(many)) = (few.cleared(), many.cleared()) else {
            return Ok(());
        };
        count(&compared, true);
        let steps = |cleared: Cleared<'_>| {
            let steps = cleared.recipes().map(|recipe| recipe.steps().len());
            steps.collect::<Vec<_>>()
        };
        prop_assert_eq!(steps(few), steps(many));
        for (few, many) in few.totals().zip(many.totals()) {
            let drawn = |total: Total<'_>| total.drawn().map(|(_, count)| count).sum::<u64>();
            prop_assert_eq!(drawn(few) * TIMES, drawn(many));
        }
        Ok(())
    });
    assert!(compared.get() > 5_000, "{} compared", compared.get());
}

// ------------------------------------------------------------------------------------------------------------------ ground

#[test]
fn strip_and_residual_account_for_the_ground() {
    for_plans(|_, plan| {
        let (job, rate) = (plan.job(), plan.volume_rate());
        let area = job.area().hectares();
        let residual = (plan.residual() / rate).hectares();
        let made_for = plan.area_made_for().hectares();
        let Some(strip) = plan.last_strip() else {
            check_close!(made_for, area);
            prop_assert_eq!(plan.ground_short().unwrap().hectares(), residual);
            let said = plan.findings().iter().any(|finding| finding.code() == FindingCode::ResidualLeavesGroundShort);
            prop_assert_eq!(said, residual > 0.0);
            return Ok(());
        };
        prop_assert!(plan.ground_short().is_none());
        let kept = strip.area().hectares();
        // What is sprayed out and what is kept is the job.
        prop_assert!(within(made_for - residual + kept, area, CLOSE * area));
        match job.loading().last_strip().unwrap() {
            LastStrip::Volume(volume) => prop_assert_eq!(strip.held_back(), volume),
            LastStrip::Area(wanted) => {
                let wanted = wanted.hectares();
                prop_assert!(within(kept, wanted.max(residual), CLOSE * area));
            }
            _ => panic!(),
        }
        prop_assert!(kept < area);
        Ok(())
    });
}

// ----------------------------------------------------------------------------------------------------------------- amounts

#[test]
fn exact_amounts_are_the_dose_on_the_ground_that_a_load_serves() {
    for_plans(|_, plan| {
        let totals = plan.exact_totals();
        for (index, product) in plan.job().products().iter().enumerate() {
            let mut sum = 0.0;
            for load in plan.loads() {
                let exact = number(load.exact_amounts().nth(index).unwrap());
                let dose = asked(plan, product.dose(), load.area(), load.mix());
                check_close!(exact, number(dose));
                sum += exact * load.count() as f64;
            }
            check_close!(sum, number(totals[index]));
        }
        Ok(())
    });
}

#[test]
fn product_is_conserved_exactly() {
    for_cleared(|sketch, plan, cleared| {
        for (index, total) in cleared.totals().enumerate() {
            let amounts = || cleared.recipes().map(|recipe| (recipe.load().count(), recipe.amount(index).unwrap()));
            let mut drawn = 0;
            let mut shown = 0.0;
            for (measure, count) in total.drawn() {
                let sum: u128 = amounts()
                    .filter(|(_, amount)| std::ptr::eq(amount.measure(), measure))
                    .map(|(count, amount)| u128::from(count) * u128::from(amount.graduations()))
                    .sum();
                prop_assert_eq!(sum, u128::from(count));
                let one = amounts().find(|(_, amount)| std::ptr::eq(amount.measure(), measure));
                let one = one.unwrap().1;
                shown += number(one.measured()) / one.graduations() as f64 * count as f64;
                drawn += sum;
            }
            let all: u128 = amounts().map(|(count, amount)| u128::from(count) * u128::from(amount.graduations())).sum();
            prop_assert_eq!(drawn, all, "a measure is drawn with and not shown");
            check_close!(number(total.measured()), shown);
            for (_, amount) in amounts() {
                let steps = graduations(&sketch.products[index], amount.measure(), amount.measured());
                check_close!(steps, amount.graduations() as f64);
            }
        }
        prop_assert_eq!(cleared.totals().count(), plan.job().products().len());
        Ok(())
    });
}

#[test]
fn nothing_measured_is_over_the_maximum() {
    for_cleared(|_, plan, cleared| {
        for (index, (product, total)) in plan.job().products().iter().zip(cleared.totals()).enumerate() {
            for recipe in cleared.recipes() {
                let load = recipe.load();
                let most = number(asked_of(plan, product.max_dose(), load.area(), load.mix(), recipe.carrier()));
                let measured = number(recipe.amount(index).unwrap().measured());
                prop_assert!(!over(measured, most), "{measured:?} over {most:?}");
            }
            let (area, made) = (plan.area_made_for(), plan.made());
            let most = number(asked_of(plan, product.max_dose(), area, made, plan.carrier()));
            let measured = number(total.measured());
            prop_assert!(!over(measured, most), "{measured:?} over {most:?} in all");
        }
        Ok(())
    });
}

#[test]
fn a_dose_over_its_maximum_is_stopped_and_no_other() {
    for_plans(|sketch, plan| {
        for (index, product) in sketch.products.iter().enumerate() {
            let path = format!("products[{index}].dose");
            let stopped = plan
                .findings()
                .iter()
                .any(|finding| finding.code() == FindingCode::OverMaximumDose && finding.path() == path);
            match product.most {
                Most::NotGiven => prop_assert!(!stopped),
                Most::Times(times) => prop_assert_eq!(stopped, times < 1.0),
                Most::TimesOn(..) => {
                    let product = &plan.job().products()[index];
                    let (area, made) = (plan.area_made_for(), plan.made());
                    let [dose, most] = [product.dose(), product.max_dose()].map(|dose| asked(plan, dose, area, made));
                    prop_assert_eq!(stopped, over(number(dose), number(most)));
                }
            }
        }
        Ok(())
    });
}

/// The carrier beside what would be measured if no largest dose were held to the carrier that a load really has.
fn carrier_beside_rounded(sketch: &Sketch, plan: &Plan, recipe: &Recipe<'_>) -> Volume {
    let load = recipe.load();
    let rooms = recipe.amounts().enumerate().map(|(index, amount)| {
        let (product, n) = (&sketch.products[index], amount.graduations() as f64);
        let poured = room(product, amount.measured());
        let most = plan.job().products()[index].max_dose();
        if most.basis() != Basis::CarrierVolume {
            return poured;
        }
        let most = asked(plan, most, load.area(), load.mix());
        let [exact, most] = [amount.exact(), most].map(|x| graduations(product, amount.measure(), x));
        let rounded = (exact * (1.0 - CLOSE) - 0.5).ceil().min((most * (1.0 + CLOSE)).floor());
        poured * (rounded.max(n) / n)
    });
    load.mix() - rooms.fold(Volume::ZERO, |sum, room| sum + room)
}

#[test]
fn rounding_is_nearest_where_the_maximum_allows() {
    for_cleared(|sketch, plan, cleared| {
        for recipe in cleared.recipes() {
            let load = recipe.load();
            let carrier = carrier_beside_rounded(sketch, plan, &recipe);
            for (index, amount) in recipe.amounts().enumerate() {
                let product = &sketch.products[index];
                let most = plan.job().products()[index].max_dose();
                // The carrier of the plan's share, and what the load has of it.
                let share = asked(plan, most, load.area(), load.mix());
                let most = asked_of(plan, most, load.area(), load.mix(), carrier);
                let [exact, share, most] =
                    [amount.exact(), share, most].map(|x| graduations(product, amount.measure(), x));
                let most = most.min(share);
                let n = amount.graduations() as f64;
                // A half goes down, and what is closer than that to a half is one.
                prop_assert!(over(exact, n - 0.5), "{n} for {exact}");
                let next_is_nearer = over(exact, n + 0.5);
                prop_assert!(!next_is_nearer || over(n + 1.0, most), "{n} for {exact} of {most}");
            }
        }
        Ok(())
    });
}

#[test]
fn gaps_are_what_was_measured_less_what_was_asked() {
    for_cleared(|_, plan, cleared| {
        for recipe in cleared.recipes() {
            for amount in recipe.amounts() {
                let (exact, measured) = (number(amount.exact()), number(amount.measured()));
                prop_assert!(within(amount.gap().number() * exact, measured - exact, CLOSE * exact));
                let area = recipe.load().area();
                let gap = amount.dose_gap();
                let gap = match amount.exact() {
                    Amount::Volume(_) => (gap.claim::<LiquidDose>().unwrap() * area).liters(),
                    _ => (gap.claim::<SolidDose>().unwrap() * area).kilograms(),
                };
                prop_assert!(within(gap, measured - exact, CLOSE * exact));
            }
        }
        for total in cleared.totals() {
            let (exact, measured) = (number(total.exact()), number(total.measured()));
            prop_assert!(within(total.gap().number() * exact, measured - exact, CLOSE * exact));
        }
        prop_assert!(cleared.totals().map(|t| t.exact()).eq(plan.exact_totals()));
        Ok(())
    });
}

#[test]
fn fillings_are_as_few_as_hold_the_amount() {
    for_cleared(|_, _, cleared| {
        for amount in cleared.recipes().flat_map(|recipe| recipe.amounts().collect::<Vec<_>>()) {
            let measure = amount.measure();
            let (capacity, step) = (number(measure.capacity()), number(measure.graduation()));
            let (mut fillings, mut sum) = (0, 0);
            for (count, graduations) in amount.fillings().groups() {
                prop_assert!(!over(graduations as f64 * step, capacity));
                fillings += count;
                sum += count * graduations;
            }
            prop_assert_eq!(sum, amount.graduations());
            let marks = (capacity / step * (1.0 + CLOSE)).floor() as u64;
            prop_assert_eq!(fillings, sum.div_ceil(marks));
        }
        Ok(())
    });
}

#[test]
fn a_stopped_plan_shows_no_amounts_and_no_steps() {
    for_plans(|_, plan| {
        let stops = plan.findings().iter().filter(|f| f.severity() == Severity::Stop).count();
        prop_assert_eq!(plan.usable(), stops == 0);
        prop_assert_eq!(plan.cleared().is_some(), stops == 0);
        // Amounts and steps are behind `cleared`; what a stopped plan does show holds the exact amounts alone.
        if stops > 0 {
            let shown: f64 = plan.loads().iter().map(|load| many(plan.carrier_in(load), load.count())).sum();
            let exact = (plan.carrier_rate() / plan.volume_rate()).number() * plan.made().liters();
            check_close!(shown, exact);
            // Nor where only a debugger looks, nor beside a stock.
            let debugged = format!("{plan:?}");
            prop_assert!(!debugged.contains("measured: Some"), "a measured amount is left");
            prop_assert!(plan.findings().iter().all(|finding| finding.code() != FindingCode::StockShort));
        } else {
            prop_assert!(plan.cleared().unwrap().recipes().all(|recipe| !recipe.steps().is_empty()));
        }
        prop_assert!(plan.findings().is_sorted_by_key(Finding::severity));
        Ok(())
    });
}

// -------------------------------------------------------------------------------------------------------- steps and ledger

#[test]
fn the_tank_never_holds_more_than_the_load_and_ends_with_it() {
    for_cleared(|sketch, plan, cleared| {
        for recipe in cleared.recipes() {
            let load = recipe.load().mix();
            let (mut held, mut sum) = (Volume::ZERO, 0.0);
            for step in recipe.steps() {
                prop_assert!(step.in_tank() >= held, "{:?}", recipe.steps());
                prop_assert!(step.in_tank() <= load, "{:?}", recipe.steps());
                let poured = match step.action() {
                    Action::Measure { product } | Action::Premix { product, .. } => {
                        room(&sketch.products[product], recipe.amount(product).unwrap().measured())
                    }
                    _ => Volume::ZERO,
                };
                let rise = step.in_tank().liters() - held.liters();
                let carrier = step.carrier().liters();
                let premix_follows = matches!(step.action(), Action::Measure { .. }) && rise == 0.0;
                prop_assert!(
                    premix_follows || within(rise, carrier + poured.liters(), CLOSE * load.liters()),
                    "{step:?} raises by {rise} L"
                );
                held = step.in_tank();
                // What is poured in adds up by itself: a plan that pours too much cannot hide it by saying that the tank is full.
                let enters = match step.action() {
                    Action::Measure { product } if is_premixed(recipe, product) => 0.0,
                    _ => carrier + poured.liters(),
                };
                sum += enters;
                prop_assert!(!over(sum, load.liters()), "{step:?} makes it {sum} L");
                prop_assert!(within(sum, held.liters(), CLOSE * load.liters()), "{step:?} makes it {sum} L");
            }
            prop_assert_eq!(held, load);
            check_close!(sum, load.liters());
        }
        prop_assert_eq!(plan.loads().len(), cleared.recipes().count());
        Ok(())
    });
}

fn is_premixed(recipe: Recipe<'_>, product: usize) -> bool {
    recipe
        .steps()
        .iter()
        .any(|step| matches!(step.action(), Action::Premix { product: premixed, .. } if premixed == product))
}

#[test]
fn room_that_is_not_counted_is_said_and_no_other() {
    for_plans(|sketch, plan| {
        let said = |index| {
            let path = format!("products[{index}]");
            plan.findings()
                .iter()
                .any(|f| f.code() == FindingCode::DisplacementNotCounted && f.path().starts_with(&path))
        };
        for (index, product) in sketch.products.iter().enumerate() {
            let density = match product.state {
                _ if product.by_volume => true,
                State::Dry => product.particle_density().is_some(),
                _ => product.density().is_some(),
            };
            prop_assert_eq!(said(index), !density, "products[{}]", index);
        }
        Ok(())
    });
}

#[test]
fn a_fill_is_the_mark_below_and_a_rest() {
    for_cleared(|_, plan, cleared| {
        for step in cleared.recipes().flat_map(|recipe| recipe.steps()) {
            let (Action::Fill { carrier, level } | Action::TopUp { carrier, level }) = step.action() else {
                continue;
            };
            let before = step.in_tank() - carrier;
            match (level.mark(), level.rest()) {
                (Some(mark), rest) => {
                    prop_assert!(is_whole(marks(mark, plan).unwrap()));
                    prop_assert!(mark > before);
                    let rest = rest.unwrap_or(Volume::ZERO);
                    check_close!((mark + rest).liters(), step.in_tank().liters());
                    prop_assert!(marks(rest, plan).unwrap() < 1.0);
                }
                (None, rest) => {
                    let rest = rest.unwrap().liters();
                    prop_assert!(within(rest, carrier.liters(), CLOSE * step.in_tank().liters()));
                }
            }
        }
        Ok(())
    });
}

#[test]
fn every_product_is_measured_once_in_the_order_of_the_job() {
    for_cleared(|sketch, plan, cleared| {
        let carried = plan.job().sprayer().kind().is_carried();
        for recipe in cleared.recipes() {
            let steps = || recipe.steps().iter().map(|step| step.action());
            let measured = steps().filter_map(|action| match action {
                Action::Measure { product } => Some(product),
                _ => None,
            });
            prop_assert!(measured.eq(0..sketch.products.len()));
            let premixed = steps().filter_map(|action| match action {
                Action::Premix { product, .. } => Some(product),
                _ => None,
            });
            let due = (0..sketch.products.len()).filter(|index| {
                carried
                    && sketch.products[*index].state != State::Liquid
                    && recipe.amount(*index).unwrap().measure().kind() != MeasureKind::Pack
            });
            prop_assert!(premixed.eq(due));
            let rinsed = steps().filter_map(|action| match action {
                Action::Rinse { product, .. } => Some(product),
                _ => None,
            });
            let due = (0..sketch.products.len())
                .filter(|index| recipe.amount(*index).unwrap().measure().kind() == MeasureKind::Vessel);
            prop_assert!(rinsed.eq(due));
        }
        Ok(())
    });
}

#[test]
fn the_ledger_closes() {
    for_cleared(|sketch, plan, cleared| {
        let ledger = cleared.ledger();
        let made = plan.made().liters();
        let same = |a: f64, b: f64| within(a, b, CLOSE * made);

        let carrier = ledger.carrier();
        let drawn = carrier.drawn().liters();
        let uses = [carrier.first(), carrier.premixed(), carrier.rinses(), carrier.topped_up()];
        prop_assert!(same(drawn, uses.map(Volume::liters).iter().sum()));
        let loads: f64 = plan.loads().iter().map(|load| many(plan.carrier_in(load), load.count())).sum();
        prop_assert!(same(drawn, loads), "{drawn} of {loads}");
        prop_assert!(same(drawn, plan.carrier().liters()));
        prop_assert!(uses.iter().all(|volume| *volume >= Volume::ZERO));

        let mut rooms = 0.0;
        for (index, (account, total)) in ledger.products().iter().zip(cleared.totals()).enumerate() {
            prop_assert_eq!(account.drawn(), total.measured());
            let [drawn, in_loads, spilled] = [account.drawn(), account.in_loads(), account.spilled()].map(number);
            check_close!(drawn, in_loads + spilled);
            prop_assert_eq!(spilled, 0.0);
            prop_assert_eq!(account.stock(), plan.job().products()[index].stock());
            let short = plan.findings().iter().any(|finding| {
                finding.code() == FindingCode::StockShort && finding.path() == format!("products[{index}].stock")
            });
            if let Some(stock) = account.stock().map(number) {
                let left = number(account.left().unwrap());
                prop_assert!(within(stock, drawn + left, CLOSE * stock.max(drawn)));
                prop_assert_eq!(short, over(drawn, stock));
            }
            rooms += room(&sketch.products[index], account.drawn()).liters();
        }
        prop_assert_eq!(ledger.products().len(), sketch.products.len());
        prop_assert!(same(drawn + rooms, made), "carrier {drawn} and products {rooms} in {made}");

        check_close!(ledger.made().liters(), made);
        check_close!(made, ledger.sprayed().liters() + ledger.residual().liters());
        Ok(())
    });
}

// -------------------------------------------------------------------------------------------------------------- one answer

/// What a plan says in whole numbers and words: loads, measures, graduations, fillings, kinds of steps, codes. `place` is the place
/// that a product has in the list.
fn counted(plan: &Plan, place: impl Fn(usize) -> usize) -> Vec<String> {
    let mut said = Vec::new();
    for load in plan.loads() {
        said.push(format!("loads {} to {}", load.first(), load.last()));
    }
    for finding in plan.findings() {
        let path = finding.path();
        let path = match path.strip_prefix("products[").and_then(|rest| rest.split_once(']')) {
            Some((index, rest)) => format!("products[{}]{rest}", place(index.parse().unwrap())),
            None => path.into(),
        };
        said.push(format!("{} {path} {:?}", finding.code().name(), finding.load()));
    }
    for recipe in plan.cleared().iter().flat_map(Cleared::recipes) {
        for (index, amount) in recipe.amounts().enumerate() {
            said.push(format!(
                "load {}: {} times a step of {} for {}: {:?}",
                recipe.load().first(),
                amount.graduations(),
                amount.measure().kind().name(),
                place(index),
                amount.fillings()
            ));
            let mut listed = plan.job().measures().iter();
            let listed = listed.position(|measure| std::ptr::eq(measure, amount.measure()));
            said.push(format!("{} is measured with {listed:?}", place(index)));
        }
        for step in recipe.steps() {
            let action = match step.action() {
                Action::Fill { level, .. } => format!("fill {} {}", level.mark().is_some(), level.rest().is_some()),
                Action::Measure { product } => format!("measure {}", place(product)),
                Action::Premix { product, .. } => format!("premix {}", place(product)),
                Action::Rinse { product, times, .. } => format!("rinse {} {times}", place(product)),
                Action::Agitate => "agitate".into(),
                Action::TopUp { level, .. } => format!("top up {} {}", level.mark().is_some(), level.rest().is_some()),
                action => panic!("{action:?}"),
            };
            said.push(format!("load {}: {action}", recipe.load().first()));
        }
    }
    said
}

/// The numbers of a plan that do not depend on the order of steps; those of products in the order of `places`.
fn numbers(plan: &Plan, places: &[usize]) -> Vec<(String, f64)> {
    let mut all = vec![
        ("safe fill".into(), plan.safe_fill().liters()),
        ("volume rate".into(), plan.volume_rate().liters_per_hectare()),
        ("carrier rate".into(), plan.carrier_rate().liters_per_hectare()),
        ("made".into(), plan.made().liters()),
        ("carrier".into(), plan.carrier().liters()),
        ("area made for".into(), plan.area_made_for().hectares()),
        ("residual".into(), plan.residual().liters()),
    ];
    if let Some(strip) = plan.last_strip() {
        all.push(("held back".into(), strip.held_back().liters()));
        all.push(("strip".into(), strip.area().hectares()));
    }
    for load in plan.loads() {
        let first = load.first();
        all.push((format!("mix of load {first}"), load.mix().liters()));
        all.push((format!("carrier of load {first}"), plan.carrier_in(load).liters()));
        all.push((format!("area of load {first}"), load.area().hectares()));
        let exact: Vec<f64> = load.exact_amounts().map(number).collect();
        all.extend(places.iter().map(|i| (format!("exact {i} of load {first}"), exact[*i])));
    }
    if let Some(cleared) = plan.cleared() {
        for recipe in cleared.recipes() {
            let first = recipe.load().first();
            let measured: Vec<f64> = recipe.amounts().map(|amount| number(amount.measured())).collect();
            all.extend(places.iter().map(|i| (format!("measured {i} of load {first}"), measured[*i])));
            // Rinses and premixes stand in the order of the products; the others in one order.
            for step in recipe.steps() {
                let name = match step.action() {
                    Action::Fill { .. } => "first",
                    Action::TopUp { .. } => "topped up",
                    _ => continue,
                };
                all.push((format!("{name} of load {first}"), step.carrier().liters()));
            }
        }
        let carrier = cleared.ledger().carrier();
        all.push(("first".into(), carrier.first().liters()));
        all.push(("premixed".into(), carrier.premixed().liters()));
        all.push(("rinses".into(), carrier.rinses().liters()));
        all.push(("topped up".into(), carrier.topped_up().liters()));
        let totals: Vec<f64> = cleared.totals().map(|total| number(total.measured())).collect();
        all.extend(places.iter().map(|i| (format!("total {i}"), totals[*i])));
    }
    all
}

#[test]
fn the_order_of_products_changes_no_digit() {
    for_all(&sketches(), |sketch| {
        let n = sketch.products.len();
        let job = sketch.job().unwrap();
        let mut turned = Job::new(job.area(), job.rate(), *job.sprayer(), job.tank().clone())
            .unwrap()
            .in_units(job.units())
            .with_loading(job.loading());
        if let Some(density) = job.mix_density() {
            turned = turned.with_mix_density(density).unwrap();
        }
        for measure in job.measures() {
            turned = turned.with_measure(measure.clone()).unwrap();
        }
        // Last first, then the others as they were: every order of two, and one of three and four that no swap makes.
        let order: Vec<usize> = (0..n).map(|i| (i + n - 1) % n).collect();
        for index in &order {
            turned = turned.with_product(job.products()[*index].clone()).unwrap();
        }
        let (plan, turned) = match (plan(&job), plan(&turned)) {
            (Ok(plan), Ok(turned)) => (plan, turned),
            (a, b) => {
                let code = |plan: Result<Plan, Error>| plan.err().map(|error| error.code());
                prop_assert_eq!(code(a), code(b));
                return Ok(());
            }
        };
        let sorted = |mut said: Vec<String>| {
            said.sort();
            said
        };
        prop_assert_eq!(sorted(counted(&plan, |i| i)), sorted(counted(&turned, |i| order[i])));
        let places: Vec<usize> = (0..n).collect();
        let back: Vec<usize> = (0..n).map(|i| order.iter().position(|o| *o == i).unwrap()).collect();
        for ((name, a), (_, b)) in numbers(&plan, &places).into_iter().zip(numbers(&turned, &back)) {
            prop_assert!(a.to_bits() == b.to_bits(), "{name}: {a:?} and {b:?}");
        }
        Ok(())
    });
}

#[test]
fn the_same_job_in_other_units_gives_the_same_plan() {
    // A part of a load is what is left of many, and loses a digit for each tenfold: up to forty loads it keeps twelve.
    let loads = prop_oneof![
        8 => 1..=40_u64,
        1 => proptest::sample::select(&[1_000_000_u64, 10_000_000_000][..]),
    ];
    let tally = Tally::default();
    for_all(&sketches_of(loads), |sketch| {
        count(&tally.jobs, true);
        let mut sketch = sketch.clone();
        if sketch.loads > 40 {
            (sketch.part, sketch.nudge, sketch.strip) = (0.0, 0.0, None);
            sketch.of_carrier = false;
        }
        let planned = |units| plan(&sketch.job_in(units).unwrap());
        let first = planned(sketch.units);
        if let Ok(plan) = &first {
            tally.add(plan);
        }
        let places: Vec<usize> = (0..sketch.products.len()).collect();
        for units in System::all() {
            match (&first, planned(*units)) {
                (Ok(first), Ok(other)) => {
                    prop_assert_eq!(counted(first, |i| i), counted(&other, |i| i), "{}", units.name());
                    let made = first.made().liters();
                    for ((name, a), (_, b)) in numbers(first, &places).into_iter().zip(numbers(&other, &places)) {
                        prop_assert!(
                            close(a, b) || within(a, b, 1e-13 * made),
                            "{name}: {a:?} and {b:?} in {}",
                            units.name()
                        );
                    }
                }
                (Err(first), Err(other)) => {
                    prop_assert_eq!(first.code(), other.code());
                    prop_assert_eq!(first.path(), other.path());
                }
                (first, other) => prop_assert!(false, "{first:?} and {other:?}"),
            }
        }
        Ok(())
    });
    tally.check();
}
