//! The load sheet and the findings page: snapshots that a person has read, and what must hold of any sheet.
//!
//! `UPDATE_SHEETS=1 cargo test --package mixcalc-tests --test sheet` writes the snapshots anew.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use std::cell::Cell;
use std::path::PathBuf;

use mixcalc::*;
use mixcalc_tests::jobs::{for_all, sketches};
use proptest::prelude::*;

// ---------------------------------------------------------------------------------------------------------------- jobs

fn litre_jug() -> Measure {
    vessel("1 L", "10 mL", "1 L jug")
}

fn vessel(capacity: &str, graduation: &str, name: &str) -> Measure {
    let (capacity, graduation) = (Volume::read(capacity), Volume::read(graduation));
    Measure::vessel(capacity.unwrap(), graduation.unwrap()).unwrap().with_name(name).unwrap()
}

fn scale(capacity: &str, graduation: &str, name: &str) -> Measure {
    let (capacity, graduation) = (Mass::read(capacity), Mass::read(graduation));
    Measure::scale(capacity.unwrap(), graduation.unwrap()).unwrap().with_name(name).unwrap()
}

fn liquid(name: &str, dose: &str) -> Product {
    Product::new(name, LiquidDose::read(dose).unwrap()).unwrap()
}

fn powder(name: &str, dose: &str) -> Product {
    Product::new(name, SolidDose::read(dose).unwrap())
        .unwrap()
        .with_formulation(Formulation::read("WP").unwrap())
        .unwrap()
}

fn knapsack() -> Sprayer {
    let residual = Residual::new(Volume::read("0.1 L").unwrap(), Volume::read("50 mL").unwrap());
    Sprayer::new(SprayerKind::Knapsack).with_residual(residual.unwrap())
}

/// Young trees, with a powder that is weighed and premixed, a liquid, and an adjuvant per volume of mix.
fn tree_nursery() -> Job {
    let tank = Tank::new(Some(Volume::read("16 L").unwrap()), Some(Volume::read("17.5 L").unwrap()))
        .unwrap()
        .with_graduation(Volume::read("1 L").unwrap())
        .unwrap();
    let wettable = powder("example product A", "1.2 kg/ha")
        .with_particle_density(ParticleDensity::read("1.5 kg/L").unwrap())
        .unwrap()
        .with_label(Label::new().with_max_dose(SolidDose::read("1.5 kg/ha").unwrap()).with_source("label, section 4"))
        .unwrap();
    let suspension = liquid("example product B", "2.5 L/ha")
        .with_formulation(Formulation::read("SC").unwrap())
        .unwrap()
        .with_stock(Volume::read("1 L").unwrap())
        .unwrap();
    let adjuvant = Product::new("example adjuvant C", VolumeFraction::from_percent(0.25).unwrap()).unwrap();
    Job::new(Area::read("1500 m2").unwrap(), Rate::Volume(VolumeRate::read("300 L/ha").unwrap()), knapsack(), tank)
        .unwrap()
        .with_title("Tree nursery, beds 3 to 5: young limes, one pass along each row")
        .with_loading(Loading::new().with_last_strip(LastStrip::Area(Area::read("60 m2").unwrap())).unwrap())
        .with_product(wettable)
        .unwrap()
        .with_product(suspension)
        .unwrap()
        .with_product(adjuvant)
        .unwrap()
        .with_measure(litre_jug())
        .unwrap()
        .with_measure(vessel("100 mL", "2 mL", "small cylinder"))
        .unwrap()
        .with_measure(scale("500 g", "1 g", "kitchen scale kept for this"))
        .unwrap()
}

/// A seed field by a boom sprayer in US measures, three products, with loads of one size.
fn seed_field() -> Job {
    let gallons = |text| Volume::read(text).unwrap();
    let tank = Tank::of_nominal(gallons("300 US gal"))
        .unwrap()
        .with_graduation(gallons("5 US gal"))
        .unwrap()
        .marked_in("US gal")
        .unwrap();
    let jug = vessel("160 US fl oz", "2 US fl oz", "gallon jug").marked_in("US fl oz").unwrap();
    let cup = vessel("32 US fl oz", "0.5 US fl oz", "quart cup").marked_in("US fl oz").unwrap();
    let bench_scale = scale("10 lb", "0.5 oz av", "bench scale").marked_in("oz av").unwrap();
    Job::new(
        Area::read("95 ac").unwrap(),
        Rate::Volume(VolumeRate::read("15 US gal/ac").unwrap()),
        Sprayer::new(SprayerKind::Boom),
        tank,
    )
    .unwrap()
    .in_units(System::Us)
    .with_title("Seed field north of the pond")
    .with_loading(Loading::new().with_split(Split::Even))
    .with_product(
        powder("example granule D", "3.5 oz av/ac")
            .with_label(Label::new().with_max_dose(SolidDose::read("4 oz av/ac").unwrap()))
            .unwrap(),
    )
    .unwrap()
    .with_product(liquid("example concentrate E with a name as long as some names on containers are", "24 US fl oz/ac"))
    .unwrap()
    .with_product(Product::new("example adjuvant F", VolumeFraction::from_percent(0.125).unwrap()).unwrap())
    .unwrap()
    .with_measure(jug)
    .unwrap()
    .with_measure(cup)
    .unwrap()
    .with_measure(bench_scale)
    .unwrap()
}

/// A garden bed in imperial measures, whose dose is over the label's, and whose amount is below a graduation.
fn garden_bed() -> Job {
    let tank = Tank::of_nominal(Volume::read("2 imp gal").unwrap()).unwrap().marked_in("imp gal").unwrap();
    Job::new(
        Area::read("900 ft2").unwrap(),
        Rate::Volume(VolumeRate::read("40 imp gal/ac").unwrap()),
        Sprayer::new(SprayerKind::HandHeld),
        tank,
    )
    .unwrap()
    .in_units(System::Imperial)
    .with_title("Botanical garden, bed 12")
    .with_product(
        liquid("example product G", "3 imp pt/ac")
            .with_label(
                Label::new().with_max_dose(LiquidDose::read("2 imp pt/ac").unwrap()).with_source("label, table 2"),
            )
            .unwrap(),
    )
    .unwrap()
    .with_product(liquid("example product H", "0.1 imp fl oz/ac"))
    .unwrap()
    .with_measure(vessel("5 imp fl oz", "0.25 imp fl oz", "small cup").marked_in("imp fl oz").unwrap())
    .unwrap()
}

/// Water alone, to learn the walking speed.
fn water_alone() -> Job {
    Job::new(
        Area::read("0.5 ha").unwrap(),
        Rate::Volume(VolumeRate::read("200 L/ha").unwrap()),
        Sprayer::new(SprayerKind::Knapsack),
        Tank::of_nominal(Volume::read("10 L").unwrap()).unwrap().with_graduation(Volume::read("1 L").unwrap()).unwrap(),
    )
    .unwrap()
}

/// More loads than anybody makes.
fn huge_count() -> Job {
    Job::new(
        Area::read("1e9 ha").unwrap(),
        Rate::Carrier(VolumeRate::read("150 L/ha").unwrap()),
        knapsack(),
        Tank::of_nominal(Volume::read("16.5 L").unwrap()).unwrap(),
    )
    .unwrap()
    .with_title("A bed larger than the world")
    .with_loading(Loading::new().with_split(Split::Even))
    .with_product(liquid("example product A", "1.5 L/ha"))
    .unwrap()
    .with_measure(vessel("200 mL", "5 mL", "beaker"))
    .unwrap()
}

/// Bags that are not divided, and a large amount by a small jug, in loads by the dozen.
fn orchard() -> Job {
    let bag = Measure::pack(Mass::read("500 g").unwrap()).unwrap().with_name("500 g bag, dissolves whole").unwrap();
    Job::new(
        Area::read("20 ha").unwrap(),
        Rate::Volume(VolumeRate::read("500 L/ha").unwrap()),
        Sprayer::new(SprayerKind::BushAndTree),
        Tank::new(Some(Volume::read("800 L").unwrap()), Some(Volume::read("850 L").unwrap())).unwrap(),
    )
    .unwrap()
    .with_title("Cider orchard, upper terraces")
    .with_product(
        powder("example product J", "1.25 kg/ha")
            .with_label(Label::new().with_max_dose(SolidDose::read("2 kg/ha").unwrap()))
            .unwrap()
            .with_measure(bag),
    )
    .unwrap()
    .with_product(liquid("example product K", "1.5 L/ha"))
    .unwrap()
    .with_measure(litre_jug())
    .unwrap()
}

/// A rate that is measured, with its doubt; ground in passes.
fn calibrated() -> Job {
    document::read_job(include_bytes!("../../docs/examples/calibrated.toml")).unwrap()
}

fn jobs() -> [(&'static str, Job); 7] {
    [
        ("calibrated", calibrated()),
        ("tree-nursery", tree_nursery()),
        ("seed-field", seed_field()),
        ("garden-bed", garden_bed()),
        ("water-alone", water_alone()),
        ("huge-count", huge_count()),
        ("orchard", orchard()),
    ]
}

// ----------------------------------------------------------------------------------------------------------- snapshots

fn is_as_kept(name: &str, text: &str) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("sheets").join(format!("{name}.txt"));
    if std::env::var_os("UPDATE_SHEETS").is_some() {
        std::fs::write(&path, text).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    assert!(kept == text, "{name} is not as kept; UPDATE_SHEETS=1 writes it anew. It is now:\n{text}");
}

#[test]
fn sheets_are_as_they_were_read() {
    for (name, job) in jobs() {
        let plan = plan(&job).unwrap();
        if let Some(cleared) = plan.cleared() {
            is_as_kept(name, &sheet::text(&cleared));
        }
        if name == "tree-nursery" || name == "garden-bed" {
            is_as_kept(&format!("{name}-findings"), &sheet::findings(&plan));
        }
    }
}

#[test]
fn a_stopped_plan_has_a_findings_page_alone() {
    let plan = plan(&garden_bed()).unwrap();
    assert!(plan.cleared().is_none());
    tells_why_and_nothing_to_measure(&plan);
}

#[test]
fn no_stopped_plan_has_a_page_to_measure_from() {
    let stopped = Cell::new(0);
    for_all(&sketches(), |sketch| {
        if let Ok(plan) = plan(&sketch.job().unwrap())
            && !plan.usable()
        {
            stopped.set(stopped.get() + 1);
            tells_why_and_nothing_to_measure(&plan);
        }
        Ok(())
    });
    assert!(stopped.get() >= 100, "{stopped:?}");
}

/// What only somebody who measures needs to be told.
const INSTRUCTIONS: &[&str] = &[
    "Fill the tank",
    "Top up with",
    "Measure ",
    "Weigh ",
    "Take ",
    "pour it in",
    "put it in",
    "pour that in",
    "into a bucket",
    "Rinse the measure",
    " mark.",
    " mark)",
    " mark,",
    " times to ",
    " whole",
    "drawn with",
    "Amount",
    "In each",
    "Measured",
    "Gap",
    "Step",
    "In tank",
    "[ ]",
    "Really used",
];

#[test]
fn instructions_are_found_on_the_sheets_that_have_them() {
    let pages: Vec<String> = jobs()
        .iter()
        .filter_map(|(_, job)| plan(job).unwrap().cleared().map(|cleared| one_line(&sheet::text(&cleared))))
        .collect();
    for words in INSTRUCTIONS {
        assert!(pages.iter().any(|page| page.contains(words)), "no sheet says {words:?}");
    }
}

/// The findings page of a stopped plan, whole: the sentences of its findings stand on it, and no word of a step. Its numbers are those
/// that were found and their limits, what the sources of limits say, numbers of loads, and a finer measure that would do.
fn tells_why_and_nothing_to_measure(plan: &Plan) {
    let page = sheet::findings(plan);
    let words = one_line(&page);
    assert!(words.contains("DO NOT MIX THIS AS IT STANDS."), "{page}");
    assert!(!words.contains("premix:") && !words.contains("of them with"), "{page}");
    for instruction in INSTRUCTIONS {
        assert!(!words.contains(instruction), "{instruction:?} on\n{page}");
    }
    let mut known = format!("{} 5 %", plan.job().title().unwrap_or_default());
    for finding in plan.findings() {
        assert!(words.contains(&one_line(&finding.message())), "{}\n{page}", finding.message());
        let limit =
            finding.limit().map(|limit| format!("{} {}", limit.value().to_people(plan.job().units()), limit.source()));
        let actual = finding.actual().map(|actual| actual.to_people(plan.job().units()));
        let load = finding.load().map(|load| load.to_string());
        let readings = finding.readings().iter().map(|reading| {
            let value = reading.value().to_people(plan.job().units());
            format!("{value} {} {}", reading.meant(), reading.stated())
        });
        // A finer measure that would do is no instruction.
        let help = finding.help().iter().cloned();
        for part in [limit, actual, load].into_iter().flatten().chain(readings).chain(help) {
            known = format!("{known} {part}");
        }
    }
    let numbers = |text: &str| -> Vec<String> {
        let bare = text.split(' ').map(|word| word.trim_matches(|c: char| c.is_ascii_punctuation() && c != '-'));
        bare.filter(|word| word.parse::<f64>().is_ok()).map(ToString::to_string).collect()
    };
    let known = numbers(&known);
    for number in numbers(&words) {
        assert!(known.contains(&number), "{number} on\n{page}");
    }
}

// ---------------------------------------------------------------------------------------------------------- properties

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What must hold of every page.
fn is_well_laid_out(page: &str) {
    assert!(page.ends_with('\n') && !page.ends_with("\n\n"), "{page}");
    for line in page.lines() {
        assert!(line.chars().count() <= 80, "{line:?}");
        assert_eq!(line, line.trim_end());
        assert!(!line.contains(['\t', '\r']), "{line:?}");
    }
    assert!(!page.contains('{'), "a gap without a value:\n{page}");
}

/// What must hold of every sheet.
fn is_a_good_sheet(plan: &Plan, page: &str) {
    is_well_laid_out(page);
    let mut next = 1;
    let all = plan.load_count();
    let ending = format!(" of {all}");
    for line in page.lines() {
        let load = line.strip_prefix("Load ").or(line.strip_prefix("Loads "));
        let Some(numbers) = load.and_then(|load| load.strip_suffix(&ending)) else {
            continue;
        };
        let (first, last) = numbers.split_once(" to ").unwrap_or((numbers, numbers));
        assert_eq!(first.parse::<u64>().unwrap(), next, "{page}");
        next = last.parse::<u64>().unwrap() + 1;
    }
    assert_eq!(next, all + 1, "the loads of the sheet are not those of the plan:\n{page}");
    for caution in plan.cautions() {
        let words = one_line(page).replace(" - ", " ");
        assert!(words.contains(&one_line(caution.text())), "{}", caution.text());
    }
    for finding in plan.findings() {
        assert!(one_line(page).contains(&one_line(&finding.message())), "{page}");
    }
}

#[test]
fn sheets_keep_the_layout_and_hold_what_a_person_needs() {
    for (name, job) in jobs() {
        let plan = plan(&job).unwrap();
        is_well_laid_out(&sheet::findings(&plan));
        let Some(cleared) = plan.cleared() else {
            continue;
        };
        let page = sheet::text(&cleared);
        is_a_good_sheet(&plan, &page);
        let called = page.to_lowercase().replace("safe fill", "");
        assert!(!called.contains("safe"), "nothing is called safe:\n{page}");
        for product in job.products() {
            let words: Vec<&str> = page.split_whitespace().collect();
            for word in product.name().split(' ') {
                assert!(words.contains(&word), "{name}: {word} of {}", product.name());
            }
        }
        for recipe in cleared.recipes() {
            for amount in recipe.amounts() {
                assert!(page.contains(amount.measure().name()), "{name}");
            }
        }
    }
}

#[test]
fn ten_billion_loads_fit_on_the_sheet_of_ten() {
    let plan = plan(&huge_count()).unwrap();
    assert!(plan.load_count() > 9_000_000_000);
    let page = sheet::text(&plan.cleared().unwrap());
    assert!(page.lines().count() < 120, "{}", page.lines().count());
}

#[test]
fn every_load_of_a_short_run_has_a_box_beside_every_step() {
    for (loads, boxes) in [(1_u8, 1), (6, 6), (7, 0)] {
        let job = Job::new(
            Area::read(&format!("{loads} ha")).unwrap(),
            Rate::Volume(VolumeRate::read("9 L/ha").unwrap()),
            Sprayer::new(SprayerKind::Knapsack),
            Tank::of_nominal(Volume::read("10 L").unwrap()).unwrap(),
        )
        .unwrap()
        .with_product(liquid("example product A", "40 mL/ha"))
        .unwrap()
        .with_measure(vessel("100 mL", "2 mL", "small cylinder"))
        .unwrap();
        let plan = plan(&job).unwrap();
        let cleared = plan.cleared().unwrap();
        let page = sheet::text(&cleared);
        let steps = cleared.recipes().next().unwrap().steps().len();
        let row_of_loads = if boxes == 0 { usize::from(loads) } else { 0 };
        assert_eq!(page.matches("[ ]").count(), steps * boxes + row_of_loads, "{page}");
    }
}

#[test]
fn what_disturbs_a_printer_does_not_reach_it() {
    let job = water_alone()
        .with_title("bed\u{1b}[2J 7\n\u{202e}L 001")
        .with_product(liquid("example\tproduct \u{202e}A\u{61c}\u{180e}\u{3164}\u{e0041} {amount}\r\n", "1 L/ha"))
        .unwrap()
        .with_measure(vessel("100 mL", "1 mL", "jug\u{7}"))
        .unwrap();
    let plan = plan(&job).unwrap();
    for page in [sheet::text(&plan.cleared().unwrap()), sheet::findings(&plan)] {
        assert!(page.contains("bed?[2J 7 ?L 001"), "{page}");
        assert!(page.contains("example product ?A???? {amount}"), "{page}");
        assert!(
            !page.contains(['\u{1b}', '\u{202e}', '\u{61c}', '\u{180e}', '\u{3164}', '\u{e0041}', '\u{7}', '\r', '\t']),
            "{page}"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn no_job_breaks_the_layout(
        area in 0.01_f64..1e6,
        rate in 50.0_f64..600.0,
        dose in 0.2_f64..4.0,
        tank in 5.0_f64..3000.0,
        names in proptest::collection::btree_set("[a-zäß0-9]{1,40}( [a-z0-9,]{1,60}){0,6}", 0..5),
        system in prop::sample::select(System::all()),
        kind in prop::sample::select(SprayerKind::all()),
        even in any::<bool>(),
        marks in any::<bool>(),
    ) {
        let volume = |liters| Volume::from_liters(liters).unwrap();
        let mut vat = Tank::of_nominal(volume(tank)).unwrap();
        if marks {
            vat = vat.with_graduation(volume(tank / 16.0)).unwrap();
        }
        let mut job = Job::new(
            Area::from_hectares(area).unwrap(),
            Rate::Volume(VolumeRate::from_liters_per_hectare(rate).unwrap()),
            Sprayer::new(kind),
            vat,
        )
        .unwrap()
        .in_units(system)
        .with_loading(Loading::new().with_split(if even { Split::Even } else { Split::FullThenPart }));
        for name in &names {
            let dose = LiquidDose::from_liters_per_hectare(dose).unwrap();
            job = job.with_product(Product::new(name, dose).unwrap()).unwrap();
        }
        job = job
            .with_measure(vessel("5 L", "50 mL", "bucket"))
            .unwrap()
            .with_measure(Measure::vessel(volume(0.1), volume(0.001)).unwrap())
            .unwrap();
        if let Ok(plan) = plan(&job) {
            is_well_laid_out(&sheet::findings(&plan));
            if let Some(cleared) = plan.cleared() {
                is_a_good_sheet(&plan, &sheet::text(&cleared));
            }
        }
    }
}
