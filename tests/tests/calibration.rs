//! Calibration: published examples, published factors, what holds for any sprayer, and first order against simulation.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a test fails by panicking, and compares exact doubles"
)]

use std::collections::BTreeMap;

use mixcalc::*;
use mixcalc_tests::{is_within, run, text};

use serde_json::Value;

type Outcome = Result<(), Error>;

fn number(value: f64) -> Ratio {
    Ratio::from_number(value).unwrap()
}

fn percent(value: f64) -> Ratio {
    Ratio::from_percent(value).unwrap()
}

/// A quantity as text, taken as it stands.
fn exact<Q: AdditiveKind>(text: &str) -> Uncertain<Q> {
    Uncertain::exact(Quantity::read(text).unwrap().claim().unwrap()).unwrap()
}

/// An input with a relative standard uncertainty.
fn normal<Q: AdditiveKind>(name: &str, value: Q, relative: f64) -> Uncertain<Q> {
    Uncertain::from_standard_uncertainty(name, value, value * relative, DegreesOfFreedom::INFINITE).unwrap()
}

fn assert_near(what: &str, got: f64, expected: f64, within: f64) {
    println!("{what}: {got}, expected {expected} within {within}");
    assert!((got - expected).abs() <= within, "{what}: {got}, expected {expected} within {within}");
}

// --- The published examples, through the functions that a user would reach for ---

/// The topics that calibration answers.
const TOPICS: [&str; 9] = [
    "calibration-128",
    "calibration-area",
    "calibration-time",
    "speed",
    "volume-rate",
    "nozzle-check",
    "pressure-flow",
    "density-correction",
    "band",
];

/// Unit words of the examples that are other words here.
const UNITS: [(&str, &str); 7] = [
    ("floz", "US fl oz"),
    ("gpa", "US gal/ac"),
    ("gpm", "US gal/min"),
    ("acre", "ac"),
    ("L/acre", "L/ac"),
    ("lb/gal", "lb/US gal"),
    ("lb/acre", "lb/ac"),
];

fn unit(name: &str) -> &str {
    UNITS.iter().find(|(theirs, _)| *theirs == name).map_or(name, |(_, ours)| ours)
}

struct Example(Value);

impl Example {
    fn id(&self) -> &str {
        self.0["id"].as_str().unwrap()
    }

    fn topic(&self) -> &str {
        self.0["topic"].as_str().unwrap()
    }

    fn given<Q: QuantityKind>(&self, name: &str) -> Result<Q, Error> {
        let input = &self.0["inputs"][name];
        Quantity::from_parts(input["value"].as_f64().unwrap(), unit(input["unit"].as_str().unwrap()))?.claim()
    }

    fn input<Q: AdditiveKind>(&self, name: &str) -> Result<Uncertain<Q>, Error> {
        Uncertain::exact(self.given(name)?)
    }

    /// The answers, each by its name.
    fn answers(&self) -> Result<BTreeMap<&'static str, Quantity>, Error> {
        let course = |area: Area, width: &str| course_length(area, self.given(width)?);
        let rate = |calibration: Calibration| Quantity::from(calibration.volume_rate().value());
        let ten = one_128th_acre() * 10.0;
        let answers: Vec<(&'static str, Quantity)> = match (self.topic(), self.id()) {
            (_, "we-017") => {
                let (catch, length, row) = (self.input("catch")?, self.input("length")?, self.input("row")?);
                vec![("rate", rate(Calibration::from_catch_over_course(&catch, &length, &row)?))]
            }
            (_, "we-029") => vec![
                ("length", course(one_128th_acre(), "band")?.into()),
                ("long_course", course(ten, "swath")?.into()),
            ],
            (_, "we-140") => {
                let area = Uncertain::exact(one_128th_acre())?;
                let time = self.input("time")?;
                vec![("rate", rate(Calibration::from_spot(&self.input("catch")?, &time, &area, &time)?))]
            }
            (_, "we-142") => vec![("l", course(one_128th_acre(), "w")?.into())],
            (_, "we-144") => vec![("l", course(one_128th_acre(), "b")?.into())],
            (_, "we-146") => {
                let width = self.input::<Length>("wet")?.times::<_, Length>(&self.input::<Ratio>("frac")?)?;
                let catch = self.input("catch")?;
                let calibration = Calibration::from_catch_over_area(&catch, &Uncertain::exact(ten)?)?;
                vec![("width", width.value().into()), ("rate", rate(calibration))]
            }
            ("calibration-128", _) => vec![("length", course(one_128th_acre(), "width")?.into())],
            ("calibration-area", _) => {
                vec![("rate", rate(Calibration::from_refill(&self.input("water")?, &self.input("area")?)?))]
            }
            ("calibration-time", _) => {
                let speed = self.input::<Length>("distance")?.over::<Time, Speed>(&self.input("time")?)?;
                vec![("rate", rate(Calibration::from_flow(&self.input("flow")?, &speed, &self.input("swath")?)?))]
            }
            (_, "we-004") => {
                let length = self.given::<Length>("length")?;
                vec![
                    ("area", (self.given::<Length>("width")? * length).into()),
                    ("v_target", speed(length, self.given("t_target")?)?.into()),
                ]
            }
            (_, "we-156") => vec![("v", speed(self.given("d")?, self.given("t")?)?.into())],
            ("speed", _) if self.0["inputs"]["v"].is_object() => [("t1", "d1"), ("t2", "d2"), ("t3", "d3")]
                .into_iter()
                .map(|(time, way)| Ok((time, (self.given::<Length>(way)? / self.given::<Speed>("v")?).into())))
                .collect::<Result<_, Error>>()?,
            ("speed", _) => vec![("time", (self.given::<Length>("distance")? / self.given::<Speed>("speed")?).into())],
            (_, "we-166") => {
                vec![("q", required_flow(self.given("rate")?, self.given("v")?, self.given("w")?)?.into())]
            }
            ("volume-rate", _) => {
                let calibration = Calibration::from_flow(&self.input("q")?, &self.input("v")?, &self.input("w")?)?;
                vec![("rate", rate(calibration))]
            }
            ("nozzle-check", _) => {
                let flow: Flow = self.given("avg")?;
                let off: Ratio = self.given("tol")?;
                vec![("low", (flow - flow * off).into()), ("high", (flow + flow * off).into())]
            }
            ("pressure-flow", id) => {
                let nozzle = Nozzle::new(&self.input("ref")?, &self.input("p0")?)?;
                let flow = nozzle.flow_at(&self.input("p")?)?;
                let mut answers = vec![("q", flow.value().into())];
                if id == "we-167" {
                    let calibration = Calibration::from_flow(&flow, &self.input("v")?, &self.input("w")?)?;
                    answers.push(("rate", rate(calibration)));
                }
                answers
            }
            ("density-correction", id) => {
                let (liquid, water) = (self.input::<Density>("w")?, self.input::<Density>("water")?);
                let factor = density_factor(&liquid, &water)?;
                if id == "we-057" {
                    let of_water = self.input::<VolumeRate>("rate")?.times::<_, VolumeRate>(&factor)?;
                    vec![("water_rate", of_water.value().into())]
                } else {
                    let relative: Ratio = liquid.value() / water.value();
                    vec![("sg", relative.into()), ("factor", factor.value().into())]
                }
            }
            // What holds for the volume rate of bands and fields holds for any amount per area on them.
            (_, "we-070") => {
                let one = exact::<Flow>("1 L/min");
                let banded = Calibration::from_band(&one, &exact("1 m/s"), &self.input("band")?, &self.input("row")?)?;
                let part = banded.field.volume_rate().over::<_, Ratio>(banded.band.volume_rate())?;
                vec![("crop_rate", (self.given::<MassPerArea>("rate")? * part.value()).into())]
            }
            ("band", _) => {
                let (catch, course, band) = (self.input("catch")?, self.input("l")?, self.input("band")?);
                vec![("rate", rate(Calibration::from_catch_over_course(&catch, &course, &band)?))]
            }
            (topic, id) => panic!("{topic} {id} has no answer"),
        };
        Ok(answers.into_iter().collect())
    }
}

#[test]
fn published_examples_come_out_through_the_functions_of_calibration() {
    let all: Vec<Value> = serde_json::from_str(&text("worked-examples")).unwrap();
    let examples: Vec<Example> =
        all.into_iter().map(Example).filter(|example| TOPICS.contains(&example.topic())).collect();
    assert_eq!(examples.len(), 48);
    run("calibration in worked-examples.json", &examples, Example::id, |example| {
        let answers = example.answers().map_err(|error| error.to_string())?;
        let stated = example.0["stated"].as_object().unwrap();
        assert_eq!(answers.len(), stated.len(), "{}", example.id());
        for (name, printed) in stated {
            let actual = answers[name.as_str()].to(unit(printed["unit"].as_str().unwrap())).unwrap();
            let (exact, printed) =
                (example.0["recomputed"][name].as_f64().unwrap(), printed["value"].as_f64().unwrap());
            let tolerance = example.0["test_abs_tol"][name].as_f64();
            if !is_within(actual, exact, 1e-7) || tolerance.is_some_and(|within| (actual - printed).abs() > within) {
                return Err(format!("{name} is {actual}; exact {exact}, printed {printed}"));
            }
        }
        Ok(())
    });
}

/// Factors for the density of the liquid, as extension services print them: relative density, factor.
#[test]
fn density_factors_are_those_that_are_printed() -> Outcome {
    let printed = [
        (0.79, 0.89),
        (0.84, 0.92),
        (0.96, 0.98),
        (1.0, 1.0),
        (1.08, 1.04),
        (1.20, 1.10),
        (1.28, 1.13),
        (1.32, 1.15),
        (1.37, 1.17),
        (1.38, 1.17),
        (1.44, 1.20),
        (1.68, 1.30),
    ];
    for (relative, factor) in printed {
        let liquid = Uncertain::exact(Density::from_kilograms_per_liter(relative)?)?;
        let got = density_factor(&liquid, &exact("1 kg/L"))?.value().number();
        assert_near(&format!("{relative}"), got, factor, 5.001e-3);
    }
    Ok(())
}

/// Kell's formula of 1975 (Journal of Chemical and Engineering Data 20, 97-105), which is on an older temperature scale and has another maximum: both agree
/// to 0.01 kg/m3. And the values at 20 and 30 °C of handbooks.
#[test]
fn water_is_as_dense_as_another_formula_says() -> Outcome {
    let kell = |t: f64| {
        let powers = [999.839_52, 16.945_176, -7.987_040_1e-3, -46.170_461e-6, 105.563_02e-9, -280.542_53e-12];
        powers.iter().rev().fold(0.0, |sum, factor| sum * t + factor) / (1.0 + 16.879_850e-3 * t)
    };
    for t in 0..=40 {
        let t = f64::from(t);
        let got = water_density(Temperature::from_degrees_celsius(t)?)?.kilograms_per_liter();
        assert_near(&format!("{t} °C"), got * 1e3, kell(t), 0.012);
    }
    assert_near("20 °C", water_density(Temperature::read("20 °C")?)?.kilograms_per_liter(), 0.9982, 5e-5);
    assert_near("30 °C", water_density(Temperature::read("30 °C")?)?.kilograms_per_liter(), 0.9957, 6e-5);
    for outside in ["-0.1 °C", "40.1 °C"] {
        let error = water_density(Temperature::read(outside)?).unwrap_err();
        assert_eq!((error.code(), error.path()), (ErrorCode::OutOfRange, "temperature"), "{error}");
    }
    // A vessel that holds 1 L at 20 °C: 997.2 g of water against steel weights in air (ISO 4787 and its tables: 1.0029 mL/g).
    let density = Uncertain::exact(water_density(Temperature::read("20 °C")?)?)?;
    let volume = volume_of_catch(&exact("1 kg"), &density)?.value().milliliters();
    assert_near("1 kg at 20 °C, mL", volume, 1002.9, 0.06);
    Ok(())
}

/// The two definitions of a size number are 1.3 % apart where both are whole numbers.
#[test]
fn size_numbers_have_two_meanings() -> Outcome {
    assert_eq!(NozzleSize::all().len(), 16);
    for size in NozzleSize::all() {
        let at_300 = Nozzle::rated(size.by_custom())?.flow_at(&exact("300 kPa"))?.value();
        let apart = (at_300 / size.nominal().flow()).number();
        let within = if size.name().starts_with("00") { 0.025 } else { 1e-4 };
        assert_near(size.name(), apart, 0.987, within);
        assert_eq!(NozzleSize::read(size.name())?, *size);
    }
    let flows: Vec<f64> =
        NozzleSize::all().iter().map(|size| size.nominal().flow().liters_per_minute()).collect();
    assert!(flows.windows(2).all(|pair| pair[0] < pair[1]));
    let error = NozzleSize::read("0300").unwrap_err();
    assert_eq!(error.code(), ErrorCode::UnknownChoice);
    Ok(())
}
