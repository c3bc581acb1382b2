//! Bad documents: each is refused with the code, the name and the place that its case states, and in the sentence that it
//! states, which may be printed anywhere.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, reason = "a test fails by panicking")]

use std::cell::RefCell;
use std::time::Instant;

use mixcalc::*;
use mixcalc_tests::{run, vectors};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    id: String,
    document: Document,
    error: Refusal,
    #[serde(rename = "why")]
    _why: String,
}

/// A document as text, as hexadecimal digits of bytes that are no text, or as a piece many times over, `{n}` in it being its number.
#[derive(Deserialize)]
#[serde(untagged, deny_unknown_fields)]
enum Document {
    Text(String),
    Bytes {
        hex: String,
    },
    Repeated {
        #[serde(default)]
        before: String,
        repeat: String,
        times: usize,
        #[serde(default)]
        after: String,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Refusal {
    code: u32,
    name: String,
    path: String,
    /// The sentence, whole, without the place before it.
    says: String,
}

impl Document {
    fn bytes(&self) -> Vec<u8> {
        match self {
            Self::Text(text) => text.clone().into_bytes(),
            Self::Bytes { hex } => {
                (0..hex.len()).step_by(2).map(|at| u8::from_str_radix(&hex[at..at + 2], 16).unwrap()).collect()
            }
            Self::Repeated { before, repeat, times, after } => {
                let pieces = if repeat.contains("{n}") {
                    (0..*times).map(|n| repeat.replace("{n}", &n.to_string())).collect()
                } else {
                    repeat.repeat(*times)
                };
                [before, pieces.as_str(), after].concat().into_bytes()
            }
        }
    }
}

/// Longest sentence of an error, in characters.
const LONGEST: usize = 400;

fn check(case: &Case, error: &Error) -> Result<(), String> {
    let Refusal { code, name, path, says } = &case.error;
    let message = error.to_string();
    let found = (error.code().number(), error.code().name(), error.path());
    if found != (*code, name.as_str(), path.as_str()) {
        return Err(format!("{found:?} for {code} at {path:?}: {message}"));
    }
    let sentence = message.strip_prefix(&format!("{path}: ")).unwrap_or(&message);
    if sentence.is_empty() || message.chars().count() >= LONGEST || message.chars().any(char::is_control) {
        return Err(format!("not a sentence to be shown: {message:?}"));
    }
    if sentence != says {
        return Err(format!("says {sentence:?} and not {says:?}"));
    }
    Ok(())
}

#[test]
fn every_bad_document_is_refused_with_code_and_place() {
    let cases: Vec<Case> = vectors("refused", "refused");
    let times = RefCell::new(Vec::new());
    run(
        "refused.json",
        &cases,
        |case| &case.id,
        |case| {
            let document = case.document.bytes();
            let started = Instant::now();
            let answer = document::read_job(&document).and_then(|job| plan(&job));
            times.borrow_mut().push((started.elapsed(), case.id.clone()));
            match answer {
                Ok(plan) => Err(format!("gives a plan of {} loads, {}", plan.load_count(), plan.made())),
                Err(error) => check(case, &error),
            }
        },
    );
    // A figure to look at, not a test: machines differ.
    let mut times = times.into_inner();
    times.sort_unstable();
    println!("slowest: {:?}", times.iter().rev().take(3).collect::<Vec<_>>());
}

/// The code and place of a refusal.
fn refusal<T: std::fmt::Debug>(made: Result<T, Error>) -> (ErrorCode, String) {
    let error = made.unwrap_err();
    (error.code(), error.path().to_string())
}

#[test]
fn constructors_refuse_what_the_reader_of_documents_refuses() {
    let liter = Volume::from_liters(1.0).unwrap();
    let dose = LiquidDose::from_liters_per_hectare(1.0).unwrap();
    let content = SubstanceContent::PerVolume(Content::from_grams_per_liter(250.0).unwrap());
    let long = "é".repeat(1001);
    for (name, code) in
        [("", ErrorCode::MissingInput), (" \t", ErrorCode::MissingInput), (&long, ErrorCode::OutOfRange)]
    {
        let at_name = (code, "name".to_string());
        assert_eq!(refusal(Product::new(name, dose)), at_name);
        assert_eq!(refusal(ActiveSubstance::new(name, content)), at_name);
        assert_eq!(refusal(Measure::vessel(liter, liter).unwrap().with_name(name)), at_name);
    }
    assert_eq!(Product::new(&long[2..], dose).unwrap().name().chars().count(), 1000);

    for fillings in [0, 1_000_001, u64::MAX] {
        let refused = refusal(Loading::new().with_max_fillings(fillings));
        assert_eq!(refused, (ErrorCode::OutOfRange, "max_fillings".to_string()));
    }
    assert_eq!(Loading::new().with_max_fillings(1_000_000).unwrap().max_fillings(), 1_000_000);
}

/// Arithmetic on typed quantities is that of doubles, and so may end beyond them; then nothing takes what comes of it.
#[test]
fn a_quantity_that_is_not_finite_goes_nowhere() {
    let liter = Volume::from_liters(1.0).unwrap();
    let kilogram = Mass::from_kilograms(1.0).unwrap();
    let hectare = Area::from_hectares(1.0).unwrap();
    let density = Density::from_kilograms_per_liter(1.0).unwrap();
    let dose = LiquidDose::from_liters_per_hectare(1.0).unwrap();
    let rate = VolumeRate::from_liters_per_hectare(200.0).unwrap();
    let job = |area, rate| Job::new(area, rate, Sprayer::new(SprayerKind::Boom), Tank::of_nominal(liter).unwrap());
    let finite = job(hectare, Rate::Volume(rate)).unwrap();
    let product = Product::new("example product A", dose).unwrap();
    let sprayer = Sprayer::new(SprayerKind::Boom);
    for beyond in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let (volume, mass, area) = (liter * beyond, kilogram * beyond, hectare * beyond);
        let tank = || Tank::of_nominal(liter).unwrap();
        let label = |label: Label| product.clone().with_label(label).map(|_| ());
        let particles = ParticleDensity::from_kilograms_per_liter(1.0).unwrap() * beyond;
        let bulk = BulkDensity::from_kilograms_per_liter(1.0).unwrap() * beyond;
        let content = Content::from_grams_per_liter(1.0).unwrap() * beyond;
        let share = MassFraction::from_percent(1.0).unwrap() * beyond;
        let made = [
            job(area, Rate::Volume(rate)).map(|_| ()),
            job(hectare, Rate::Volume(rate * beyond)).map(|_| ()),
            job(hectare, Rate::Carrier(rate * beyond)).map(|_| ()),
            finite.clone().with_mix_density(density * beyond).map(|_| ()),
            Loading::new().with_last_strip(LastStrip::Area(area)).map(|_| ()),
            Loading::new().with_last_strip(LastStrip::Volume(volume)).map(|_| ()),
            Product::new("example product B", dose * beyond).map(|_| ()),
            Product::new("example product B", VolumeFraction::from_percent(1.0).unwrap() * beyond).map(|_| ()),
            Product::new("example product B", share).map(|_| ()),
            product.clone().with_density(density * beyond).map(|_| ()),
            product.clone().with_particle_density(particles).map(|_| ()),
            product.clone().with_bulk_density(bulk).map(|_| ()),
            product.clone().with_stock(volume).map(|_| ()),
            label(Label::new().with_max_dose(dose * beyond)),
            label(Label::new().with_min_volume_rate(rate * beyond)),
            label(Label::new().with_max_volume_rate(rate * beyond)),
            label(Label::new().with_first_carrier(Ratio::from_number(1.0).unwrap() * beyond)),
            ActiveSubstance::new("example substance", SubstanceContent::PerVolume(content)).map(|_| ()),
            ActiveSubstance::new("example substance", SubstanceContent::PerMass(share)).map(|_| ()),
            Measure::vessel(volume, liter).map(|_| ()),
            Measure::vessel(liter, volume).map(|_| ()),
            Measure::scale(kilogram, mass).map(|_| ()),
            Measure::pack(mass).map(|_| ()),
            Tank::of_nominal(volume).map(|_| ()),
            Tank::of_brim(volume).map(|_| ()),
            tank().with_headspace(Ratio::from_number(1.0).unwrap() * beyond).map(|_| ()),
            tank().with_graduation(volume).map(|_| ()),
            tank().with_least_working_volume(volume).map(|_| ()),
            sprayer.with_empty_mass(mass).map(|_| ()),
            sprayer.with_carried_mass_limit(mass).map(|_| ()),
            Residual::new(volume, liter).map(|_| ()),
            Residual::new(liter, volume).map(|_| ()),
        ];
        for (i, made) in made.into_iter().enumerate() {
            let code = made.expect_err(&format!("{i} with {beyond}")).code();
            assert!(matches!(code, ErrorCode::NotPositive | ErrorCode::OutOfRange), "{i} with {beyond}: {code:?}");
        }

        let quantity = Quantity::from(volume);
        let one = Quantity::from(liter);
        let reckoned = [
            quantity.claim::<Volume>().map(|_| ()),
            quantity.to("L").map(|_| ()),
            quantity.compare(one).map(|_| ()),
            one.compare(quantity).map(|_| ()),
            quantity.plus(one).map(|_| ()),
            one.minus(quantity).map(|_| ()),
            quantity.times(one).map(|_| ()),
            quantity.power(1, 1).map(|_| ()),
            Quantity::from(volume / liter).number().map(|_| ()),
        ];
        for (i, reckoned) in reckoned.into_iter().enumerate() {
            assert_eq!(reckoned.map_err(|error| error.code()), Err(ErrorCode::NotFinite), "{i} with {beyond}");
        }
    }
}
