//! What holds of limits over time in random seasons: the largest dose is the largest, history only takes from it, and no order matters.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test fails by panicking")]

use mixcalc::*;
use mixcalc_tests::jobs::for_all;
use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::{Value, json};

/// A day of 2020 to 2028, as text.
fn day() -> impl Strategy<Value = String> {
    (2020..=2028, 1..=12, 1..=28).prop_map(|(year, month, day)| format!("{year}-{month:02}-{day:02}"))
}

fn window() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(json!({"season": true})),
        (1..1000).prop_map(|days| json!({"days": days})),
        (1..30).prop_map(|months| json!({"months": months})),
        (1..8).prop_map(|years| json!({"years": years})),
    ]
}

fn treatment() -> impl Strategy<Value = Value> {
    let what = (0..4, 1..30).prop_map(|(what, tenths)| {
        let tenths = f64::from(tenths) / 10.0;
        match what {
            0 => json!({"product": "example product A", "dose": format!("{tenths} L/ha")}),
            1 => json!({"product": "example product B", "dose": format!("{tenths} kg/ha")}),
            2 => json!({"substances": [{"name": "example salt", "dose": format!("{tenths} kg/ha")}]}),
            _ => json!({"substances": [{"name": "example acid", "dose": format!("{tenths} kg/ha")}]}),
        }
    });
    (what, day(), 0..4usize, 1..=4).prop_map(|(mut treatment, date, parcel, quarters)| {
        treatment["date"] = date.into();
        treatment["treated_share"] = (f64::from(quarters) / 4.0).into();
        if let Some(name) = ["North", "South"].get::<usize>(parcel) {
            treatment["parcel"] = Value::from(*name);
        }
        treatment
    })
}

fn cap(value: &str, substance: Option<&str>, window: &Value) -> Value {
    let mut cap = json!({"value": value, "over": window});
    if let Some(name) = substance {
        cap["substance"] = name.into();
    }
    cap
}

/// A job with two products that bring one acid, caps on both, and a season.
fn jobs() -> impl Strategy<Value = Value> {
    let caps = (1..200i32, 1..200i32, window(), window());
    (vec(treatment(), 0..6), caps, day(), 1..40i32, 1..40i32, 0..3).prop_map(|(treatments, caps, date, a, b, most)| {
        let (of_acid, of_product, first, second) = caps;
        let tenths = |number: i32| f64::from(number) / 10.0;
        let acid = json!({"name": "example salt", "content": "400 g/L", "equivalent": {"name": "example acid", "factor": 0.75}});
        let mut label_b = json!({"max_dose": format!("{} kg/ha", tenths(b.max(30)))});
        if most > 0 {
            label_b["max_treatments"] = json!({"value": most});
        }
        json!({
            "format": "mixcalc-job/1", "area": "1 ha", "volume_rate": "200 L/ha",
            "sprayer": {"kind": "boom"}, "tank": {"nominal": "300 L"},
            "measures": [
                {"kind": "vessel", "name": "jug", "capacity": "10 L", "graduation": "1 mL"},
                {"kind": "scale", "name": "scale", "capacity": "10 kg", "graduation": "1 g"},
            ],
            "products": [
                {
                    "name": "example product A", "dose": format!("{} L/ha", tenths(a)), "active_substances": [acid],
                    "label": {
                        "max_dose": format!("{} L/ha", tenths(a.max(30))),
                        "caps": [
                            cap(&format!("{} kg/ha", tenths(of_acid)), Some("example acid"), &first),
                            cap(&format!("{} L/ha", tenths(of_product)), None, &second),
                        ],
                    },
                },
                {
                    "name": "example product B", "dose": format!("{} kg/ha", tenths(b)), "formulation": "SG",
                    "active_substances": [{"name": "example acid", "content": "50 % w/w"}], "label": label_b,
                },
            ],
            "season": {
                "date": date, "season_start": format!("{}-01-01", &date[..4]),
                "parcels": [{"name": "North"}, {"name": "South"}], "treatments": treatments,
            },
        })
    })
}

fn planned(job: &Value) -> Plan {
    plan(&document::read_job(job.to_string().as_bytes()).unwrap()).unwrap()
}

fn number(dose: Dose) -> f64 {
    match dose {
        Dose::LiquidPerArea(dose) => dose.liters_per_hectare(),
        Dose::SolidPerArea(dose) => dose.kilograms_per_hectare(),
        _ => f64::NAN,
    }
}

fn largest(job: &Value) -> Vec<f64> {
    planned(job).largest_doses().iter().map(|largest| number(largest.as_ref().unwrap().dose())).collect()
}

/// Whether a stop of a limit on doses stands.
fn breaks(plan: &Plan) -> bool {
    let codes = [
        FindingCode::OverMaximumDose,
        FindingCode::CapPassed,
        FindingCode::TooManyTreatments,
        FindingCode::IntervalTooShort,
    ];
    plan.findings().iter().any(|finding| codes.contains(&finding.code()))
}

#[test]
fn one_more_treatment_never_raises_the_largest_dose() {
    for_all(&(jobs(), treatment()), |(job, more)| {
        let before = largest(job);
        let mut after = job.clone();
        after["season"]["treatments"].as_array_mut().unwrap().push(more.clone());
        for (before, after) in before.iter().zip(largest(&after)) {
            prop_assert!(after <= before * (1.0 + 1e-9) + 1e-9, "{after} after {before}");
        }
        Ok(())
    });
}

#[test]
fn the_largest_dose_breaks_nothing_and_a_hundredth_more_does() {
    let broken = std::cell::Cell::new(0);
    for_all(&jobs(), |job| {
        for (index, unit) in [(0, "L/ha"), (1, "kg/ha")] {
            let most = largest(job)[index];
            if most < 1e-6 {
                continue;
            }
            let at = |dose: f64| {
                let mut job = job.clone();
                job["products"][index]["dose"] = format!("{dose} {unit}").into();
                planned(&job)
            };
            // What the other product does by itself is not the doing of this one.
            let others = planned_without(job, index);
            prop_assert!(others || !breaks(&at(most)), "{most} {unit} breaks a limit");
            prop_assert!(breaks(&at(most * 1.01)), "{} {unit} breaks none", most * 1.01);
            broken.set(broken.get() + 1);
        }
        Ok(())
    });
    assert!(broken.get() > 5000, "{} doses", broken.get());
}

/// Whether limits are broken however little of a product there is.
fn planned_without(job: &Value, index: usize) -> bool {
    let mut job = job.clone();
    let unit = if index == 0 { "L/ha" } else { "kg/ha" };
    job["products"][index]["dose"] = format!("1e-9 {unit}").into();
    breaks(&planned(&job))
}

#[test]
fn no_order_changes_anything() {
    for_all(&jobs(), |job| {
        let mut turned = job.clone();
        turned["season"]["treatments"].as_array_mut().unwrap().reverse();
        turned["season"]["parcels"].as_array_mut().unwrap().reverse();
        turned["products"].as_array_mut().unwrap().reverse();
        let (plan, other) = (planned(job), planned(&turned));
        prop_assert_eq!(plan.substances(), other.substances());
        let doses = largest(job);
        let mut others = largest(&turned);
        others.reverse();
        prop_assert_eq!(doses, others);
        let codes = |plan: &Plan| {
            let mut codes: Vec<_> =
                plan.findings().iter().map(|finding| (finding.code().name(), finding.message())).collect();
            codes.retain(|(code, _)| code.starts_with("cap") || code.ends_with("treatments"));
            codes.sort();
            codes.into_iter().map(|(code, _)| code).collect::<Vec<_>>()
        };
        prop_assert_eq!(codes(&plan), codes(&other));
        Ok(())
    });
}

#[test]
fn a_season_is_written_as_it_was_read() {
    for_all(&jobs(), |job| {
        let once = document::write_job(&document::read_job(job.to_string().as_bytes()).unwrap());
        let twice = document::write_job(&document::read_job(once.as_bytes()).unwrap());
        prop_assert_eq!(&once, &twice);
        Ok(())
    });
}

/// A season with so many treatments after the planned date, each on a day of its own, and so many caps.
fn crowded(treatments: u32, caps: usize) -> Result<Plan, Error> {
    let date = |day: u32| format!("{}-{:02}-{:02}", 2027 + day / 336, day % 336 / 28 + 1, day % 28 + 1);
    let done: Vec<Value> = (0..treatments)
        .map(|day| json!({"date": date(day), "product": "example product A", "dose": "0.001 L/ha"}))
        .collect();
    let caps = vec![json!({"value": "9 L/ha", "over": {"years": 100}}); caps];
    let job = json!({
        "format": "mixcalc-job/1", "area": "1 ha", "volume_rate": "200 L/ha",
        "sprayer": {"kind": "boom"}, "tank": {"nominal": "300 L"},
        "measures": [{"kind": "vessel", "name": "jug", "capacity": "10 L", "graduation": "1 mL"}],
        "products": [{"name": "example product A", "dose": "1 L/ha", "label": {"max_dose": "2 L/ha", "caps": caps}}],
        "season": {"date": "2026-05-31", "treatments": done},
    });
    plan(&document::read_job(job.to_string().as_bytes())?)
}

/// By hand: 500 treatments and 501 windows are 250 500 terms, and one for the product: 39 caps have 9.77 million, 40 over 10 million.
#[test]
fn a_season_whose_sums_would_not_end_is_refused() {
    assert!(crowded(500, 39).unwrap().usable());
    let error = crowded(500, 40).unwrap_err();
    assert_eq!((error.code(), error.path()), (ErrorCode::OutOfRange, "season"));
}

/// A limit that is counted on what the dose itself moves has no largest dose; the same limit on a volume that stands has one.
#[test]
fn a_largest_dose_that_would_move_its_own_limit_is_left_out() {
    let left = |rate: &str, label: Value| {
        let mut job = json!({
            "format": "mixcalc-job/1", "area": "1 ha", "sprayer": {"kind": "boom"}, "tank": {"nominal": "300 L"},
            "measures": [{"kind": "vessel", "name": "jug", "capacity": "10 L", "graduation": "1 mL"}],
            "products": [{"name": "example product A", "dose": "1 L/ha", "label": label}],
            "season": {"date": "2026-05-31"},
        });
        job[rate] = "100 L/ha".into();
        planned(&job).largest_doses().remove(0).map(|largest| number(largest.dose()))
    };
    let of_carrier = json!({"max_dose": "10 % v/v", "max_dose_basis": "carrier-volume"});
    let of_mix = json!({"max_dose": "50 L/ha", "max_concentration": "10 % v/v"});
    assert_eq!(left("volume_rate", of_carrier), None);
    assert_eq!(left("carrier_rate", of_mix.clone()), None);
    assert!((left("volume_rate", of_mix).unwrap() - 10.0).abs() < 1e-9);
}
