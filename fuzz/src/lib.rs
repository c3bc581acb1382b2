//! What holds for every error, and for the plan of every job.

use std::collections::BTreeMap;

use mixcalc::*;
use serde_json::Value;

/// Longest message: a screen of text.
const LONGEST_MESSAGE: usize = 2000;
/// Relative distance within which two numbers are the same.
const CLOSE: f64 = 1e-12;
/// Characters in a line of a sheet.
const WIDTH: usize = 80;
/// The keys of a plan document that may be null.
const NULLABLE: &[&str] = &[
    "last_strip",
    "residual",
    "ground_short",
    "measured",
    "gap",
    "drawn",
    "measure",
    "graduations",
    "fillings",
    "ledger",
    "mark",
    "rest",
    "stock",
    "left",
    "load",
    "actual",
    "limit",
];

/// An error has a code of the catalogue and a message that a person can read.
pub fn check_error(error: &Error) {
    let message = error.to_string();
    assert!(ErrorCode::all().contains(&error.code()), "{message}");
    assert!(!message.is_empty() && message.len() < LONGEST_MESSAGE, "{} bytes: {message}", message.len());
}

/// The promises of `docs/numbers.md` that a plan can be held to without planning it again by other means.
pub fn check_plan(job: &Job) {
    let plan = match plan(job) {
        Ok(plan) => plan,
        Err(error) => return check_error(&error),
    };
    let has_stop = plan.findings().iter().any(|finding| finding.severity() == Severity::Stop);
    assert_eq!(plan.usable(), !has_stop);
    assert_eq!(plan.cleared().is_some(), !has_stop);

    check_loads(&plan);
    check_page(&sheet::findings(&plan));
    if let Some(cleared) = plan.cleared() {
        check_page(&sheet::text(&cleared));
        cleared.recipes().for_each(|recipe| check_recipe(&plan, &recipe));
        check_totals(&plan, &cleared);
    }
    let document = document::write_plan(&plan);
    check_numbers("", &serde_json::from_str(&document).expect(&document), plan.usable());
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= CLOSE * a.abs().max(b.abs())
}

fn number(amount: Amount) -> f64 {
    match amount {
        Amount::Volume(volume) => volume.liters(),
        Amount::Mass(mass) => mass.kilograms(),
        _ => unreachable!(),
    }
}

#[allow(clippy::cast_precision_loss)] // loads and graduations stay below 2^53
fn many(each: f64, count: u64) -> f64 {
    each * count as f64
}

fn check_loads(plan: &Plan) {
    let mut next = 1;
    for load in plan.loads() {
        assert!(load.mix() > Volume::ZERO && load.mix() <= plan.safe_fill(), "{load:?}");
        assert_eq!(load.first(), next);
        next += load.count();
    }
    assert_eq!(plan.load_count(), next - 1);
    let held_back = plan.last_strip().map_or(Volume::ZERO, Strip::held_back);
    let wanted = plan.volume_rate() * plan.job().area() - held_back;
    let mix: f64 = plan.loads().iter().map(|load| many(load.mix().liters(), load.count())).sum();
    assert!(close(mix, wanted.liters()), "{mix} L of {wanted:?}");
}

fn check_recipe(plan: &Plan, recipe: &Recipe<'_>) {
    let load = recipe.load();
    assert_eq!(recipe.amounts().count(), plan.job().products().len());
    for (product, amount) in plan.job().products().iter().zip(recipe.amounts()) {
        let poured: u64 = amount.fillings().groups().map(|(count, graduations)| count * graduations).sum();
        assert!(poured > 0);
        assert_eq!(poured, amount.graduations());
        check_maximum(plan, product, amount.measured(), load.area(), load.mix());
    }
    // Carrier that is left but close to nothing is not topped up.
    let noise = 2.0 * CLOSE * load.mix().liters();
    let steps = recipe.steps();
    let mut in_tank = 0.0;
    for step in steps {
        let (rise, carrier) = (step.in_tank().liters() - in_tank, step.carrier().liters());
        let has_product = matches!(step.action(), Action::Measure { .. } | Action::Premix { .. });
        assert!(carrier >= 0.0 && rise >= carrier - noise && (has_product || rise <= carrier + noise), "{steps:?}");
        in_tank += rise;
    }
    let carrier: f64 = steps.iter().map(|step| step.carrier().liters()).sum();
    assert!((carrier - recipe.carrier().liters()).abs() <= noise, "{carrier} L of {:?}: {steps:?}", recipe.carrier());
    assert!(close(in_tank, load.mix().liters()), "{in_tank} L of {:?}", load.mix());
}

fn check_totals(plan: &Plan, cleared: &Cleared<'_>) {
    assert_eq!(cleared.totals().count(), plan.job().products().len());
    for (index, (product, total)) in plan.job().products().iter().zip(cleared.totals()).enumerate() {
        let mut counted = BTreeMap::new();
        for recipe in cleared.recipes() {
            let amount = recipe.amount(index).expect("each recipe measures each product");
            *counted.entry(amount.measure().name()).or_insert(0) += amount.graduations() * recipe.load().count();
        }
        let drawn: BTreeMap<&str, u64> = total.drawn().map(|(measure, count)| (measure.name(), count)).collect();
        assert_eq!(counted, drawn);
        check_maximum(plan, product, total.measured(), plan.area_made_for(), plan.made());
    }
    let (ledger, noise) = (cleared.ledger(), CLOSE * plan.made().liters());
    let carrier = ledger.carrier().drawn().liters();
    assert!((carrier - plan.carrier().liters()).abs() <= noise, "{carrier} L of {:?}", plan.carrier());
    let mix = (ledger.sprayed() + ledger.residual()).liters();
    assert!((mix - ledger.made().liters()).abs() <= noise);
}

/// Nothing measured is over the maximum dose times what the mix is made for. A graduation that is close to the amount counts as the
/// amount, and an amount that is close to the maximum as the maximum, so that the two may add up.
fn check_maximum(plan: &Plan, product: &Product, measured: Amount, area: Area, mix: Volume) {
    let carrier = mix * (plan.carrier_rate() / plan.volume_rate());
    let most: Amount = match product.max_dose() {
        Dose::LiquidPerArea(dose) => (dose * area).into(),
        Dose::SolidPerArea(dose) => (dose * area).into(),
        Dose::LiquidPerMix(share) => (share * mix).into(),
        Dose::SolidPerMix(share) => (share * mix).into(),
        Dose::MassPerMass(share) => (share * (plan.job().mix_density().expect("it was needed") * mix)).into(),
        Dose::LiquidPerCarrier(share) => (share * carrier).into(),
        Dose::SolidPerCarrier(share) => (share * carrier).into(),
        _ => unreachable!(),
    };
    assert!(number(measured) <= number(most) * (1.0 + 3.0 * CLOSE), "{measured:?} of {product:?}, at most {most:?}");
}

fn check_page(page: &str) {
    for line in page.lines() {
        assert!(line.chars().count() <= WIDTH, "{line}");
    }
}

/// A number that is not finite is written as null. A plan without a stop has all its amounts.
fn check_numbers(key: &str, value: &Value, is_usable: bool) {
    match value {
        Value::Null => {
            assert!(NULLABLE.contains(&key), "{key}");
            let is_amount = ["measured", "gap", "drawn", "measure", "graduations", "fillings", "ledger"].contains(&key);
            assert!(!(is_usable && is_amount), "{key}");
        }
        Value::Number(number) => assert!(number.as_f64().is_some_and(f64::is_finite), "{key}"),
        Value::Array(values) => values.iter().for_each(|value| check_numbers(key, value, is_usable)),
        Value::Object(fields) => fields.iter().for_each(|(key, value)| check_numbers(key, value, is_usable)),
        Value::Bool(_) | Value::String(_) => {}
    }
}
