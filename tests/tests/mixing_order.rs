//! The mixing order: labels are followed, the order of the job counts for nothing, and every profile places every group.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test fails by panicking")]

use mixcalc::*;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};

const CODES: [&str; 11] = ["WP", "WG", "SC", "CS", "EW", "OD", "EC", "SL", "SG", "SO", "ME"];
const NAMES: [&str; 5] = ["d", "a", "c", "b", "e"];

/// One product: formulation, role, and what its label says: an end, and whom it goes in before and after.
type Sketch = (&'static str, Role, Option<OrderStep>, Vec<usize>, Vec<usize>);

fn sketch() -> impl Strategy<Value = Sketch> {
    let role = prop_oneof![3 => Just(Role::Product), 1 => select(Role::all())];
    let step = prop_oneof![4 => Just(None), 1 => select(OrderStep::all()).prop_map(Some)];
    let names = || prop_oneof![4 => Just(Vec::new()), 1 => subsequence((0..5).collect::<Vec<_>>(), 1..=2)];
    (select(&CODES[..]), role, step, names(), names())
}

fn job(sketches: &[Sketch], turned: &[usize], profile: Profile) -> Result<Job, Error> {
    let tank = Tank::new(Some(Volume::read("200 L")?), Some(Volume::read("220 L")?))?;
    let rate = Rate::Volume(VolumeRate::read("200 L/ha")?);
    let mut job = Job::new(Area::read("2.5 ha")?, rate, Sprayer::new(SprayerKind::Boom), tank)?
        .with_measure(Measure::vessel(Volume::read("1 L")?, Volume::read("10 mL")?)?)?
        .with_measure(Measure::scale(Mass::read("2 kg")?, Mass::read("1 g")?)?)?
        .with_mixing(Mixing::new().with_profile(profile));
    for index in turned {
        let (code, role, step, before, after) = &sketches[*index];
        let formulation = Formulation::read(code)?;
        let product = match formulation.state() {
            State::Dry => Product::new(NAMES[*index], SolidDose::read("0.333 kg/ha")?)?,
            _ => Product::new(NAMES[*index], LiquidDose::read("1.234 L/ha")?)?,
        };
        let mut order = LabelOrder::new();
        if let Some(step) = step {
            order = order.with_step(*step);
        }
        order = before.iter().fold(order, |order, other| order.with_before(NAMES[*other]));
        order = after.iter().fold(order, |order, other| order.with_after(NAMES[*other]));
        let product = product.with_formulation(formulation)?.with_role(*role);
        job = job.with_product(product.with_label(Label::new().with_order(order))?)?;
    }
    Ok(job)
}

/// Names in their order, with reasons; steps as sentences; notes on the order.
fn told(plan: &Plan) -> (Vec<String>, Vec<String>, Vec<String>) {
    let products = plan.job().products();
    let order = plan.mixing_order().unwrap().products();
    let order = order.iter().map(|at| format!("{}: {}", products[at.product()].name(), at.reason())).collect();
    let steps = plan.cleared().into_iter().flat_map(|cleared| {
        cleared
            .recipes()
            .flat_map(|recipe| {
                let sentence = |step: &Step| format!("{} {:?}", sheet::step(&recipe, *step), step.in_tank());
                recipe.steps().iter().map(sentence).collect::<Vec<_>>()
            })
            .collect::<Vec<_>>()
    });
    let notes = plan.findings().iter().filter(|finding| finding.code() == FindingCode::MixingOrderDiffers);
    (order, steps.collect(), notes.map(Finding::message).collect())
}

#[test]
fn the_order_of_the_job_changes_nothing_and_labels_are_followed() {
    let (mut circles, mut followed) = (0, 0);
    let mut runner = proptest::test_runner::TestRunner::new(ProptestConfig {
        failure_persistence: None,
        cases: 1500,
        ..Default::default()
    });
    let jobs = (
        prop::collection::vec(sketch(), 5),
        Just((0..5).collect::<Vec<usize>>()).prop_shuffle(),
        select(Profile::all()),
    );
    let counts = std::cell::RefCell::new((&mut circles, &mut followed));
    runner
        .run(&jobs, |(sketches, turned, profile)| {
            let plans = [&[0, 1, 2, 3, 4][..], &turned].map(|turned| plan(&job(&sketches, turned, profile).unwrap()));
            let [straight, turned] = &plans;
            let (Ok(straight), Ok(turned)) = (straight, turned) else {
                let codes = plans.map(|plan| plan.unwrap_err().code());
                prop_assert_eq!(codes, [ErrorCode::OrderInCircle; 2]);
                *counts.borrow_mut().0 += 1;
                return Ok(());
            };
            prop_assert_eq!(told(straight), told(turned));
            let order = straight.mixing_order().unwrap().products();
            let at = |product: usize| order.iter().position(|at| at.product() == product).unwrap();
            for (index, (_, _, _, before, after)) in sketches.iter().enumerate() {
                prop_assert!(before.iter().all(|other| at(index) < at(*other)));
                prop_assert!(after.iter().all(|other| at(index) > at(*other)));
                *counts.borrow_mut().1 += before.len() + after.len();
            }
            let measured = straight.cleared().unwrap().recipes().next().unwrap();
            let measured = measured.steps().iter().filter_map(|step| match step.action() {
                Action::Measure { product } => Some(product),
                _ => None,
            });
            prop_assert!(measured.eq(order.iter().map(OrderedProduct::product)));
            Ok(())
        })
        .unwrap();
    println!("{circles} circles, {followed} words of labels followed");
    assert!(circles > 100 && followed > 500);
}

#[test]
fn every_profile_places_every_group_once_and_has_a_reason_for_it() {
    // One product of every group: from a formulation type, or from a role.
    let codes = ["WP", "WG", "SC", "CS", "EW", "OD", "EC", "SL", "SG"];
    for profile in Profile::all() {
        let tank = Tank::of_nominal(Volume::read("400 L").unwrap()).unwrap();
        let rate = Rate::Volume(VolumeRate::read("200 L/ha").unwrap());
        let mut job = Job::new(Area::read("1 ha").unwrap(), rate, Sprayer::new(SprayerKind::Boom), tank)
            .unwrap()
            .with_measure(Measure::scale(Mass::read("2 kg").unwrap(), Mass::read("1 g").unwrap()).unwrap())
            .unwrap()
            .with_mixing(Mixing::new().with_profile(*profile));
        let dose = SolidDose::read("0.5 kg/ha").unwrap();
        for code in codes {
            let product = Product::new(code, dose).unwrap();
            job = job.with_product(product.with_formulation(Formulation::read(code).unwrap()).unwrap()).unwrap();
        }
        for role in Role::all().iter().filter(|role| role.group().is_some()) {
            job = job.with_product(Product::new(role.name(), dose).unwrap().with_role(*role)).unwrap();
        }
        let bag = Measure::pack(Mass::read("100 g").unwrap()).unwrap();
        let bags = Product::new("bags", dose).unwrap().with_formulation(Formulation::read("WP-SB").unwrap()).unwrap();
        job = job.with_product(bags.with_measure(bag)).unwrap();
        let plan = plan(&job).unwrap();
        let order = plan.mixing_order().unwrap().products();
        let mut groups: Vec<MixGroup> = order.iter().map(OrderedProduct::group).collect();
        if *profile == Profile::Suggested {
            assert_eq!(groups, MixGroup::all(), "the groups are listed in the sequence that is suggested");
        }
        groups.sort();
        assert_eq!(groups, MixGroup::all(), "{}", profile.name());
        for at in order {
            assert!(at.reason().starts_with(profile.source()), "{}", at.reason());
            assert_eq!(at.reason().contains("does not say"), at.reason().contains("; mixcalc suggests: "));
        }
        assert!(plan.findings().iter().any(|finding| finding.code() == FindingCode::MixingOrderDiffers));
    }
}
