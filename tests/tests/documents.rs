//! Documents: the schemas are those of the types, what is written is read back, and how a job is written changes no digit of its
//! plan.
//!
//! Whether documents hold to the schemas is tested in Python, `tests/bindings/test_schema.py`: there a validator is at hand.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test fails by panicking")]

use std::path::{Path, PathBuf};

use mixcalc::document::{Node, Part};
use mixcalc::*;
use mixcalc_tests::is_within;
use mixcalc_tests::jobs::sketches;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};
use serde_json::{Map, Value};

/// Runs a property over random jobs, each as Rust builds it and as a document has it: the marks of a tank are then in a stated unit.
/// Fewer than the properties of plans have, for each is written and read many times; `PROPTEST_RNG_SEED` gives others.
fn for_jobs(property: impl Fn(Job) -> Result<(), TestCaseError>) {
    let mut config = ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(1000) };
    if config.rng_seed == RngSeed::Random {
        config.rng_seed = RngSeed::Fixed(1);
    }
    let outcome = TestRunner::new(config).run(&sketches(), |sketch| {
        let built = sketch.job().unwrap();
        let documented = document::read_job(document::write_job(&built).as_bytes()).unwrap();
        property(built)?;
        property(documented)
    });
    outcome.unwrap_or_else(|error| panic!("{error}"));
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap()
}

fn job_of(document: &Value) -> Job {
    document::read_job(document.to_string().as_bytes()).unwrap_or_else(|error| panic!("{error}: {document}"))
}

fn plan_of(job: &Job) -> Value {
    serde_json::from_str(&document::write_plan(&plan(job).unwrap_or_else(|error| panic!("{error}")))).unwrap()
}

/// The jobs of `tests/conformance/plan.json`.
fn conformance_jobs() -> Vec<Value> {
    let vectors: Value = serde_json::from_str(&mixcalc_tests::text("plan")).unwrap();
    let jobs: Vec<Value> = vectors["cases"].as_array().unwrap().iter().map(|case| case["job"].clone()).collect();
    assert!(jobs.len() >= 40);
    jobs
}

fn demo(name: &str) -> Vec<u8> {
    std::fs::read(root().join("docs/examples").join(name)).unwrap()
}

// ------------------------------------------------------------------------------------------ schemas

/// `UPDATE_SCHEMA=1 cargo test` writes them anew.
/// A part by itself is read as it is read within a job, and what it writes reads back.
#[test]
fn a_part_by_itself_is_what_it_is_in_a_job() {
    let text = std::fs::read(root().join("docs/examples/demo.toml")).unwrap();
    let node = Node::read(&text).unwrap();
    let job = Job::from_node(&node).unwrap();
    let part = |of: &Node, key: &str| match of {
        Node::Table(entries) => entries.iter().find(|(name, _)| name == key).unwrap().1.clone(),
        _ => panic!("{of:?}"),
    };
    let Node::List(products) = part(&node, "products") else { panic!("products") };
    assert!(!products.is_empty());
    for (node, product) in products.iter().zip(job.products()) {
        let alone = Product::from_node(node).unwrap();
        assert_eq!(alone, *product);
        assert_eq!(Product::from_node(&Node::read(alone.to_json().as_bytes()).unwrap()).unwrap(), alone);
    }
    assert_eq!(Tank::from_node(&part(&node, "tank")).unwrap(), *job.tank());
    assert_eq!(Sprayer::from_node(&part(&node, "sprayer")).unwrap(), *job.sprayer());
    assert_eq!(Loading::from_node(&part(&node, "loading")).unwrap(), job.loading());
}

/// A quantity that a program hands over keeps its claim, its exact value and the unit that it was stated in.
#[test]
fn a_quantity_handed_over_is_taken_as_its_text_is() {
    let handed = |text: &str| {
        let unit = text.split_once(' ').unwrap().1;
        Node::Quantity(Quantity::read(text).unwrap(), unit.into())
    };
    let measure = |capacity: Node, graduation: Node| {
        let kind = ("kind".into(), Node::Text("vessel".into()));
        Measure::from_node(&Node::Table(vec![kind, ("capacity".into(), capacity), ("graduation".into(), graduation)]))
    };
    let text = |text: &str| Node::Text(text.into());
    assert_eq!(
        measure(handed("16 US fl oz"), handed("0.1 US fl oz")).unwrap(),
        measure(text("16 US fl oz"), text("0.1 US fl oz")).unwrap(),
    );
    let dose = Node::Quantity(LiquidDose::read("1 L/ha").unwrap().into(), "L/ha".into());
    let refused = measure(dose, text("10 mL")).unwrap_err();
    assert_eq!((refused.code(), refused.path()), (ErrorCode::WrongQuantity, "capacity"));
    let refused = measure(Node::Other("a date".into()), text("10 mL")).unwrap_err();
    assert_eq!((refused.code(), refused.path()), (ErrorCode::WrongType, "capacity"));
    assert!(refused.to_string().contains("got a date"), "{refused}");
}

#[test]
fn schemas_checked_in_are_those_of_the_types() {
    let files: [(&str, &str); 2] =
        [("job.schema.json", document::job_schema()), ("plan.schema.json", document::plan_schema())];
    for ((name, checked_in), of_types) in files.into_iter().zip(document::schemas_from_types()) {
        let path: PathBuf = root().join("mixcalc/schema").join(name);
        if std::env::var_os("UPDATE_SCHEMA").is_some() {
            std::fs::write(&path, &of_types).unwrap();
        } else {
            assert!(checked_in == of_types, "{name} is not that of the types: run this test with UPDATE_SCHEMA=1");
        }
    }
}

/// Every object of a job is closed, so that a slip is refused by a validator too.
#[test]
fn schemas_are_of_the_draft_that_is_stated_and_closed() {
    for schema in document::schemas_from_types() {
        let schema: Value = serde_json::from_str(&schema).unwrap();
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
        for name in ["Product", "Label", "Measure", "Sprayer", "Tank", "Loading", "Strip", "Parts"] {
            assert_eq!(schema["$defs"][name]["additionalProperties"], Value::Bool(false), "{name}");
        }
    }
}

// ------------------------------------------------------------------------------------------ there and back

fn same_again(job: &Job) -> Result<(), TestCaseError> {
    let written = document::write_job(job);
    let read =
        document::read_job(written.as_bytes()).map_err(|error| TestCaseError::fail(format!("{error}: {written}")))?;
    prop_assert_eq!(&read, job);
    prop_assert_eq!(&document::write_job(&read), &written);
    match (plan(&read), plan(job)) {
        (Ok(again), Ok(plan)) => {
            let plan_text = document::write_plan(&plan);
            prop_assert_eq!(document::write_plan(&again), plan_text.clone());
            let document: Value = serde_json::from_str(&plan_text).unwrap();
            prop_assert_eq!(document["job"].to_string(), serde_json::from_str::<Value>(&written).unwrap().to_string());
        }
        (Err(again), Err(error)) => prop_assert_eq!(again, error),
        (again, plan) => prop_assert!(false, "{again:?} and {plan:?}"),
    }
    Ok(())
}

#[test]
fn a_calibration_that_is_written_is_read_back_the_same() {
    let mut records = 0;
    for job in conformance_jobs().iter().map(job_of) {
        let Some((record, calibration)) = job.calibration() else { continue };
        let again = CalibrationRecord::from_node(&Node::read(record.to_json().as_bytes()).unwrap()).unwrap();
        assert_eq!(&again, record);
        assert_eq!(&again.calibration().unwrap(), calibration, "and to the last bit");
        records += 1;
    }
    assert!(records >= 3, "the vectors hold {records}");
}

#[test]
fn a_job_that_is_written_is_read_back_the_same() {
    for_jobs(|job| same_again(&job));
    for job in conformance_jobs() {
        same_again(&job_of(&job)).unwrap();
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    /// The units of documents are others: what Rust states in acres and gallons has to be sayable in hectares and litres.
    #[test]
    fn a_job_that_rust_builds_in_us_measures_is_read_back_the_same(
        area in 0.1_f64..500.0,
        rate in 5.0_f64..60.0,
        tank in 3.0_f64..400.0,
        (liquid, powder) in (0.5_f64..40.0, 0.5_f64..40.0),
        (cup, scale) in (1_u8..40, 1_u8..40),
    ) {
        let ounces = |ounces: f64| Volume::from_us_fluid_ounces(ounces).unwrap();
        let weight = |ounces: f64| Mass::from_ounces_avoirdupois(ounces).unwrap();
        let job = Job::new(
            Area::from_acres(area).unwrap(),
            Rate::Volume(VolumeRate::from_us_gallons_per_acre(rate).unwrap()),
            Sprayer::new(SprayerKind::Boom),
            Tank::of_nominal(Volume::from_us_gallons(tank).unwrap()).unwrap(),
        )
        .and_then(|job| {
            let liquid = LiquidDose::from_us_fluid_ounces_per_acre(liquid).unwrap();
            let powder = SolidDose::from_ounces_avoirdupois_per_acre(powder).unwrap();
            job.with_product(Product::new("example product A", liquid)?)?
                .with_product(Product::new("example product B", powder)?)?
                .with_measure(Measure::vessel(ounces(f64::from(cup)), ounces(f64::from(cup) / 64.0))?)?
                .with_measure(Measure::scale(weight(f64::from(scale)), weight(f64::from(scale) / 320.0))?)
        });
        same_again(&job.unwrap())?;
    }
}

#[test]
fn the_job_in_a_plan_is_a_job_document_with_the_same_plan() {
    for job in conformance_jobs() {
        let first = plan_of(&job_of(&job));
        assert_eq!(plan_of(&job_of(&first["job"])), first);
    }
}

// ------------------------------------------------------------------------------------------ Rust and documents

const EVERY_KEY: &str = r#"{
    "format": "mixcalc-job/1", "title": "bed 7", "units": "imperial", "area": "1.2 ha", "volume_rate": "200 L/ha",
    "mix_density": "1.05 kg/L",
    "sprayer": {"kind": "knapsack", "residual": {"dilutable": "0.1 L", "non_dilutable": "0.05 L"}, "empty_mass": "5 kg",
                "carried_mass_limit": "25 kg"},
    "tank": {"nominal": "16 L", "brim": "18 L", "headspace": "12 %", "graduation": "1 L", "least_working_volume": "2 L",
             "marked_in": "imp gal",
             "scale_check": {"points": [{"poured": "8 L", "read": "7.5 L"}, {"poured": "16 L", "read": "15.5 L"}], "tolerance": "1 %"}},
    "loading": {"split": "even", "last_strip": {"area": "300 m2"}, "max_fillings": 3},
    "products": [
        {"name": "example product A", "formulation": "SC", "dose": "1.5 L/ha", "density": "1.1 kg/L", "viscous": true,
         "stock": "20 L",
         "active_substances": [{"name": "example substance", "content": "250 g/L"}, {"name": "another", "content": "5 % w/w"}],
         "label": {"min_dose": "1 L/ha", "max_dose": "2 L/ha", "min_volume_rate": "150 L/ha", "max_volume_rate": "400 L/ha", "first_carrier": 0.75,
                   "source": "label, section 3"},
         "measure": {"kind": "vessel", "name": "cup", "capacity": "500 mL", "graduation": "5 mL", "marked_in": "mL"}},
        {"name": "example product B", "formulation": "WG", "dose": "2 g/L", "basis": "carrier-volume", "stock": "3 kg",
         "particle_density": "1.6 kg/L", "bulk_density": "0.5 kg/L"}
    ],
    "measures": [{"kind": "scale", "capacity": "500 g", "graduation": "1 g", "marked_in": "g"}]
}"#;

/// The same job by the functions that Rust has for it.
fn every_function() -> Result<Job, Error> {
    let label = Label::new()
        .with_min_dose(LiquidDose::read("1 L/ha")?)
        .with_max_dose(LiquidDose::read("2 L/ha")?)
        .with_min_volume_rate(VolumeRate::read("150 L/ha")?)
        .with_max_volume_rate(VolumeRate::read("400 L/ha")?)
        .with_first_carrier(Ratio::read("75 %")?)
        .with_source("label, section 3");
    let cup = Measure::vessel(Volume::read("500 mL")?, Volume::read("5 mL")?)?.with_name("cup")?.marked_in("mL")?;
    let per_volume = SubstanceContent::PerVolume(Content::read("250 g/L")?);
    let per_mass = SubstanceContent::PerMass(MassFraction::read("5 % w/w")?);
    let liquid = Product::new("example product A", LiquidDose::read("1.5 L/ha")?)?
        .with_formulation(Formulation::read("SC")?)?
        .with_density(Density::read("1.1 kg/L")?)?
        .viscous()
        .with_stock(Volume::read("20 L")?)?
        .with_active_substance(ActiveSubstance::new("example substance", per_volume)?)
        .with_active_substance(ActiveSubstance::new("another", per_mass)?)
        .with_label(label)?
        .with_measure(cup);
    let powder = Product::new("example product B", Dose::SolidPerCarrier(MassConcentration::read("2 g/L")?))?
        .with_formulation(Formulation::read("WG")?)?
        .with_particle_density(ParticleDensity::read("1.6 kg/L")?)?
        .with_bulk_density(BulkDensity::read("0.5 kg/L")?)?
        .with_stock(Mass::read("3 kg")?)?;
    let sprayer = Sprayer::new(SprayerKind::Knapsack)
        .with_residual(Residual::new(Volume::read("0.1 L")?, Volume::read("0.05 L")?)?)
        .with_empty_mass(Mass::read("5 kg")?)?
        .with_carried_mass_limit(Mass::read("25 kg")?)?;
    let tank = Tank::new(Some(Volume::read("16 L")?), Some(Volume::read("18 L")?))?
        .with_headspace(Ratio::read("12 %")?)?
        .with_graduation(Volume::read("1 L")?)?
        .with_least_working_volume(Volume::read("2 L")?)?
        .marked_in("imp gal")?
        .with_scale_check(ScaleCheck::new(
            &[
                ScalePoint::new(Volume::read("8 L")?, Volume::read("7.5 L")?)?,
                ScalePoint::new(Volume::read("16 L")?, Volume::read("15.5 L")?)?,
            ],
            Ratio::read("1 %")?,
        )?)?;
    let loading = Loading::new().with_split(Split::Even).with_max_fillings(3)?;
    let loading = loading.with_last_strip(LastStrip::Area(Area::read("300 m2")?))?;
    Job::new(Area::read("1.2 ha")?, Rate::Volume(VolumeRate::read("200 L/ha")?), sprayer, tank)?
        .with_title("bed 7")
        .in_units(System::Imperial)
        .with_mix_density(Density::read("1.05 kg/L")?)?
        .with_loading(loading)
        .with_product(liquid)?
        .with_product(powder)?
        .with_measure(Measure::scale(Mass::read("500 g")?, Mass::read("1 g")?)?.marked_in("g")?)
}

#[test]
fn what_rust_builds_is_what_a_document_states() {
    let read = document::read_job(EVERY_KEY.as_bytes()).unwrap();
    assert_eq!(every_function().unwrap(), read);
    assert_eq!(document::write_job(&every_function().unwrap()), document::write_job(&read));
    let label = read.products()[0].label();
    assert_eq!(label.min_volume_rate(), Some(VolumeRate::read("150 L/ha").unwrap()));
    assert_eq!(label.max_volume_rate(), Some(VolumeRate::read("400 L/ha").unwrap()));
    assert_eq!(label.first_carrier(), Some(Ratio::read("75 %").unwrap()));
    assert_eq!(label.source(), Some("label, section 3"));
    let names = read.products().iter().map(|product| product.formulation().unwrap().name());
    assert!(names.eq(["suspension concentrate", "water-dispersible granule"]));
    // No two keys are mistaken for each other: each makes another job.
    let job: Value = serde_json::from_str(EVERY_KEY).unwrap();
    for place in ["min_volume_rate", "max_volume_rate", "first_carrier", "source"] {
        let mut without = job.clone();
        without["products"][0]["label"].as_object_mut().unwrap().remove(place);
        assert_ne!(job_of(&without), read, "{place}");
    }
}

/// The names are those of the vocabulary, which the parity test sees to; here that each is the name of its own choice.
#[test]
fn choices_are_read_by_their_names() {
    let job: Value = serde_json::from_str(EVERY_KEY).unwrap();
    let with = |place: &str, name: &str| {
        let mut job = job.clone();
        *job.pointer_mut(place).unwrap() = name.into();
        job_of(&job)
    };
    for kind in SprayerKind::all() {
        assert_eq!(with("/sprayer/kind", kind.name()).sprayer().kind(), *kind);
    }
    for split in Split::all() {
        assert_eq!(with("/loading/split", split.name()).loading().split(), *split);
    }
    for units in System::all() {
        assert_eq!(with("/units", units.name()).units(), *units);
    }
    for basis in [Basis::MixVolume, Basis::CarrierVolume] {
        assert_eq!(with("/products/1/basis", basis.name()).products()[1].dose().basis(), basis);
    }
    assert_eq!(with("/measures/0/kind", "scale").measures()[0].kind(), MeasureKind::Scale);
    assert_eq!(with("/products/0/measure/kind", "vessel").products()[0].measure().unwrap().kind(), MeasureKind::Vessel);
    assert_eq!([MeasureKind::Scale, MeasureKind::Vessel].map(MeasureKind::name), ["scale", "vessel"]);
}

#[test]
fn a_scale_is_read_in_the_unit_that_its_steps_are_stated_in() {
    let mut job: Value = serde_json::from_str(EVERY_KEY).unwrap();
    for place in ["/tank", "/measures/0", "/products/0/measure"] {
        job.pointer_mut(place).unwrap().as_object_mut().unwrap().remove("marked_in");
    }
    job["tank"]["graduation"] = "0.25 imp gal".into();
    job["measures"][0]["graduation"] = serde_json::json!({"value": 0.05, "unit": "oz av"});
    job["products"][0]["measure"]["graduation"] = "0.25 imp fl oz".into();
    let job = job_of(&job);
    assert_eq!(job.tank().unit(), Some("imp gal"));
    assert_eq!(job.measures()[0].unit(), "oz av");
    assert_eq!(job.products()[0].measure().unwrap().unit(), "imp fl oz");
}

#[test]
fn a_thousand_products_and_measures_are_read_and_no_more() {
    let job: Value = serde_json::from_str(EVERY_KEY).unwrap();
    for list in ["products", "measures"] {
        let one = job[list].as_array().unwrap().last().unwrap();
        let many = |count: usize| {
            let mut job = job.clone();
            let named = (0..count).map(|i| {
                let mut one = one.clone();
                one["name"] = format!("number {i}").into();
                one
            });
            job[list] = named.collect();
            document::read_job(job.to_string().as_bytes())
        };
        assert!(many(1000).is_ok());
        let error = many(1001).unwrap_err();
        assert_eq!(error.code(), ErrorCode::OutOfRange);
        assert_eq!(error.to_string(), format!("{list}: must be at most 1000, got 1001"));
    }
}

// ------------------------------------------------------------------------------------------ TOML

/// A value of JSON as TOML; a text is written alike in both.
fn toml(value: &Value) -> String {
    match value {
        Value::Object(table) => {
            let entries = table.iter().filter(|(_, value)| !value.is_null());
            let entries: Vec<String> = entries.map(|(key, value)| format!("{key} = {}", toml(value))).collect();
            format!("{{ {} }}", entries.join(", "))
        }
        Value::Array(list) => format!("[{}]", list.iter().map(toml).collect::<Vec<_>>().join(", ")),
        other => other.to_string(),
    }
}

fn toml_document(job: &Map<String, Value>) -> String {
    let entries = job.iter().filter(|(_, value)| !value.is_null());
    entries.map(|(key, value)| format!("{key} = {}\n", toml(value))).collect()
}

#[test]
fn toml_and_json_of_a_job_are_the_same_job() {
    let check = |json: &Value| {
        let toml = toml_document(json.as_object().unwrap());
        let read = document::read_job(toml.as_bytes()).unwrap_or_else(|error| panic!("{error}:\n{toml}"));
        assert_eq!(document::write_job(&read), document::write_job(&job_of(json)), "{toml}");
    };
    conformance_jobs().iter().for_each(check);
    for_jobs(|job| {
        check(&serde_json::from_str(&document::write_job(&job)).unwrap());
        Ok(())
    });
}

#[test]
fn a_byte_order_mark_and_other_line_ends_change_nothing() {
    let text = String::from_utf8(demo("demo.toml")).unwrap();
    let job = document::read_job(text.as_bytes()).unwrap();
    let json = document::write_job(&job);
    for other in [
        format!("\u{feff}{text}"),
        text.replace('\n', "\r\n"),
        format!("\u{feff}\r\n{json}\n\n"),
        format!("\n  {json}"),
    ] {
        assert_eq!(document::read_job(other.as_bytes()).unwrap(), job);
    }
}

#[test]
fn null_is_absent_where_a_key_may_be_absent() {
    let job = job_of(&conformance_jobs()[0]);
    let mut document: Value = serde_json::from_str(&document::write_job(&job)).unwrap();
    document["mix_density"] = Value::Null;
    document["products"][0]["label"]["source"] = Value::Null;
    assert_eq!(job_of(&document), job);
}

// ------------------------------------------------------------------------------------------ order of products

/// A sentence without the numbers of products in the job: `products[1].density` becomes `products[].density`.
fn without_place(sentence: &str) -> String {
    (0..9).fold(sentence.to_string(), |sentence, index| sentence.replace(&format!("products[{index}]"), "products[]"))
}

/// What a plan says of each product, in the order of the names, and what does not depend on the order of products.
fn by_name(plan: &Value) -> Value {
    let sorted = |list: &Value| {
        let mut list = list.as_array().unwrap().clone();
        list.sort_by_key(|product| product["name"].as_str().unwrap().to_string());
        Value::Array(list)
    };
    let mut plan = plan.clone();
    plan["totals"]["products"] = sorted(&plan["totals"]["products"]);
    for load in plan["loads"].as_array_mut().unwrap() {
        load["products"] = sorted(&load["products"]);
        // The tank fills in another order.
        load["steps"] = Value::Null;
    }
    if !plan["ledger"].is_null() {
        plan["ledger"]["products"] = sorted(&plan["ledger"]["products"]);
    }
    let findings = plan["findings"].as_array().unwrap().iter();
    let mut findings: Vec<String> =
        findings.map(|finding| without_place(finding["message"].as_str().unwrap())).collect();
    findings.sort();
    plan["findings"] = findings.into();
    plan["job"] = Value::Null;
    plan
}

#[test]
fn the_order_of_products_changes_no_digit() {
    for_jobs(|job| {
        let mut job: Value = serde_json::from_str(&document::write_job(&job)).unwrap();
        let Ok(plan) = plan(&job_of(&job)) else { return Ok(()) };
        let expected = by_name(&serde_json::from_str(&document::write_plan(&plan)).unwrap());
        let products = job["products"].as_array().unwrap().clone();
        for turn in 1..products.len() {
            let mut turned = products.clone();
            turned.rotate_left(turn);
            if turn % 2 == 0 {
                turned.reverse();
            }
            job["products"] = turned.into();
            prop_assert_eq!(difference("plan", &by_name(&plan_of(&job_of(&job))), &expected, same_bits), None);
        }
        Ok(())
    });
}

// ------------------------------------------------------------------------------------------ other measures

/// Keys that tell what was stated, and sentences, which speak the measures of the job.
const SPOKEN: &[&str] = &["job", "message"];

fn same_bits(_: &str, a: f64, b: f64) -> bool {
    a.to_bits() == b.to_bits()
}

/// A gap is a difference of two amounts, as close as they are.
fn same_to_1e_12(place: &str, a: f64, b: f64) -> bool {
    if place.contains(".gap.") { (a - b).abs() <= 1e-10 } else { is_within(a, b, 1e-12) }
}

/// Where two plans differ: counts, codes, steps and texts exactly, doubles as `alike` says.
fn difference(place: &str, a: &Value, b: &Value, alike: fn(&str, f64, f64) -> bool) -> Option<String> {
    let is_alike = match (a, b) {
        (Value::Object(a), Value::Object(b)) if a.len() == b.len() => {
            let mut keys = a.keys().filter(|key| !SPOKEN.contains(&key.as_str()));
            return keys.find_map(|key| {
                difference(&format!("{place}.{key}"), &a[key], b.get(key).unwrap_or(&Value::Null), alike)
            });
        }
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => {
            let mut pairs = a.iter().zip(b).enumerate();
            return pairs.find_map(|(i, (a, b))| difference(&format!("{place}[{i}]"), a, b, alike));
        }
        (Value::Number(a), Value::Number(b)) if a.is_f64() => alike(place, a.as_f64().unwrap(), b.as_f64().unwrap()),
        _ => a == b,
    };
    (!is_alike).then(|| format!("{place}: {a} and {b}"))
}

#[test]
fn the_demo_in_us_measures_has_the_same_plan() {
    let [metric, us] = ["demo.toml", "../../tests/conformance/demo-in-us-units.toml"]
        .map(|name| plan_of(&document::read_job(&demo(name)).unwrap()));
    assert_eq!(difference("plan", &metric, &us, same_to_1e_12), None);
    assert_eq!(metric["usable"], true);
    assert_eq!(us["job"]["units"], "US");
}
