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
use mixcalc_tests::{is_within, run, text, vectors};
use proptest::prelude::*;
use serde::Deserialize;
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
                let off: Ratio = NozzleLimits::advised().of_mean.value().claim()?;
                assert_eq!(off, self.given::<Ratio>("tol")?);
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
    let flows: Vec<f64> = NozzleSize::all().iter().map(|size| size.nominal().flow().liters_per_minute()).collect();
    assert!(flows.windows(2).all(|pair| pair[0] < pair[1]));
    let error = NozzleSize::read("0300").unwrap_err();
    assert_eq!(error.code(), ErrorCode::UnknownChoice);
    Ok(())
}

// --- The ways to a volume rate, worked by hand ---

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "why is for readers")]
struct Case {
    id: String,
    by: String,
    inputs: BTreeMap<String, Stated>,
    volume_rate: String,
    u_percent: f64,
    rel_tol: f64,
    why: String,
}

/// A quantity, its relative standard uncertainty, and the name of the input behind it where that is not its own.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Stated {
    quantity: String,
    u_percent: f64,
    name: Option<String>,
}

impl Case {
    fn input<Q>(&self, name: &str) -> Result<Uncertain<Q>, Error>
    where
        Q: AdditiveKind,
    {
        let stated = &self.inputs[name];
        let factor = normal(stated.name.as_deref().unwrap_or(name), number(1.0), stated.u_percent / 100.0);
        exact::<Q>(&stated.quantity).times(&factor)
    }

    fn calibration(&self) -> Result<Calibration, Error> {
        let alleys = |alleys| {
            Calibration::from_alleys(&self.input("flow")?, &self.input("speed")?, &self.input("row_spacing")?, alleys)
        };
        let band = || {
            let (flow, speed) = (self.input("flow")?, self.input("speed")?);
            Calibration::from_band(&flow, &speed, &self.input("band")?, &self.input("row_spacing")?)
        };
        match self.by.as_str() {
            "flow" => Calibration::from_flow(&self.input("flow")?, &self.input("speed")?, &self.input("swath")?),
            "timed course" => Calibration::from_timed_course(
                &self.input("catch")?,
                &self.input("catch_time")?,
                &self.input("course")?,
                &self.input("course_time")?,
                &self.input("swath")?,
            ),
            "catch over course" => {
                let (catch, course) = (self.input("catch")?, self.input("course")?);
                Calibration::from_catch_over_course(&catch, &course, &self.input("swath")?)
            }
            "catch over area" => Calibration::from_catch_over_area(&self.input("catch")?, &self.input("area")?),
            "refill" => Calibration::from_refill(&self.input("refill")?, &self.input("area")?),
            "emptied tank" => {
                let (filled, residual) = (self.input("filled")?, self.input("residual")?);
                Calibration::from_emptied_tank(&filled, &residual, &self.input("area")?)
            }
            "spot" => {
                let (catch, time) = (self.input("catch")?, self.input("catch_time")?);
                Calibration::from_spot(&catch, &time, &self.input("spot")?, &self.input("spot_time")?)
            }
            "plants" => Calibration::from_plants(&self.input("volume")?, &self.input("ground")?),
            "band" => Ok(band()?.band),
            "band of field" => Ok(band()?.field),
            "alleys: each" => alleys(Alleys::Each),
            "alleys: each twice" => alleys(Alleys::EachTwice),
            "alleys: every other" => alleys(Alleys::EveryOther),
            "sides" => {
                let (left, right) = (self.input("left")?, self.input("right")?);
                Calibration::from_sides(&left, &right, &self.input("speed")?, &self.input("row_spacing")?)
            }
            by => panic!("no way is called {by}"),
        }
    }
}

/// A formula of `+ - * /` and parentheses over numbers in coherent units, from left to right.
struct Formula<'a> {
    rest: &'a str,
    inputs: &'a [Input],
}

impl Formula<'_> {
    fn sum(&mut self) -> f64 {
        let mut sum = self.product();
        loop {
            match self.take(&["+", "-"]) {
                Some("+") => sum += self.product(),
                Some(_) => sum -= self.product(),
                None => return sum,
            }
        }
    }

    fn product(&mut self) -> f64 {
        let mut product = self.part();
        loop {
            match self.take(&["*", "/"]) {
                Some("*") => product *= self.part(),
                Some(_) => product /= self.part(),
                None => return product,
            }
        }
    }

    fn part(&mut self) -> f64 {
        if self.take(&["("]).is_some() {
            let sum = self.sum();
            self.take(&[")"]).unwrap();
            return sum;
        }
        let end = self.rest.find([' ', '(', ')']).unwrap_or(self.rest.len());
        let (symbol, rest) = self.rest.split_at(end);
        self.rest = rest;
        let input = self.inputs.iter().find(|input| input.symbol() == symbol);
        coherent(input.unwrap_or_else(|| panic!("no input is called {symbol}")).value())
    }

    fn take(&mut self, any: &[&'static str]) -> Option<&'static str> {
        let rest = self.rest.trim_start();
        let next = any.iter().find(|next| rest.starts_with(**next))?;
        self.rest = rest[next.len()..].trim_start();
        Some(next)
    }
}

fn coherent(worked: Worked) -> f64 {
    let Worked::Quantity(quantity) = worked else { panic!("{worked:?}") };
    quantity.number().unwrap_or_else(|_| quantity.claim_kind(Kind::Derived).unwrap().to_parts().0)
}

#[test]
fn every_way_to_a_volume_rate_gives_what_a_hand_gets() {
    let cases: Vec<Case> = vectors("calibration", "calibration");
    run(
        "calibration.json",
        &cases,
        |case| &case.id,
        |case| {
            let calibration = case.calibration().map_err(|error| error.to_string())?;
            let rate = calibration.volume_rate();
            let expected = VolumeRate::read(&case.volume_rate).unwrap();
            let u = 100.0 * (rate.standard_uncertainty() / rate.value()).number();
            let is_rate = is_within((rate.value() / expected).number(), 1.0, case.rel_tol);
            if !is_rate || (u - case.u_percent).abs() > case.rel_tol * case.u_percent.max(1e-3) {
                return Err(format!("{} and {u} %, expected {} %", rate.value(), case.u_percent));
            }
            // The working is of this number, and its formula gives it from its inputs, each of which the caller stated.
            let working = calibration.working();
            let Worked::Quantity(value) = working.value() else { panic!() };
            let mut formula = Formula { rest: working.formula(), inputs: working.inputs() };
            let worked = formula.sum();
            assert_eq!((formula.rest, value), ("", rate.value().into()), "{}", working.text(System::Metric));
            assert!(is_within(worked, coherent(working.value()), 1e-14), "{}", working.text(System::Metric));
            for input in working.inputs() {
                assert!(case.inputs.contains_key(input.place()) || input.place() == "alleys", "{}", input.place());
            }
            Ok(())
        },
    );
}

#[test]
fn what_cannot_be_measured_is_refused_at_its_place() -> Outcome {
    let (flow, speed, swath) = (exact::<Flow>("1.2 L/min"), exact::<Speed>("8 km/h"), exact::<Length>("0.5 m"));
    let (volume, time, area) = (exact::<Volume>("1 L"), exact::<Time>("30 s"), exact::<Area>("100 m2"));
    let not_positive = |result: Result<Calibration, Error>, place: &str| {
        let error = result.unwrap_err();
        assert_eq!((error.code(), error.path()), (ErrorCode::NotPositive, place), "{error}");
    };
    for none in [0.0, -1.0] {
        let speed_none = Uncertain::exact(Speed::from_kilometers_per_hour(none)?)?;
        let swath_none = Uncertain::exact(Length::from_meters(none)?)?;
        let area_none = Uncertain::exact(Area::from_hectares(none)?)?;
        let time_none = Uncertain::exact(Time::from_seconds(none)?)?;
        not_positive(Calibration::from_flow(&flow, &speed_none, &swath), "speed");
        not_positive(Calibration::from_flow(&flow, &speed, &swath_none), "swath");
        not_positive(Calibration::from_refill(&volume, &area_none), "area");
        not_positive(Calibration::from_catch_over_area(&volume, &area_none), "area");
        not_positive(Calibration::from_timed_course(&volume, &time_none, &swath, &time, &swath), "catch_time");
        not_positive(Calibration::from_timed_course(&volume, &time, &swath, &time_none, &swath), "course_time");
        not_positive(Calibration::from_spot(&volume, &time, &area_none, &time), "spot");
        not_positive(Calibration::from_plants(&volume, &area_none), "ground");
        not_positive(Calibration::from_alleys(&flow, &speed, &swath_none, Alleys::Each), "row_spacing");
        not_positive(Calibration::from_emptied_tank(&volume, &exact("0 L"), &area_none), "area");
    }
    not_positive(Calibration::from_emptied_tank(&volume, &exact("1 L"), &area), "filled");
    let wide = Calibration::from_band(&flow, &speed, &exact("0.8 m"), &exact("0.75 m")).unwrap_err();
    assert_eq!((wide.code(), wide.path()), (ErrorCode::OutOfRange, "band"));

    let nozzle = Nozzle::new(&flow, &exact("300 kPa"))?.with_pressure_loss(&exact("60 kPa"))?;
    let closed = nozzle.flow_at(&exact("60 kPa")).unwrap_err();
    assert_eq!((closed.code(), closed.path()), (ErrorCode::OutOfRange, "pressure"), "{closed}");
    assert_eq!(nozzle.clone().with_exponent(&exact("-0.5 1")).unwrap_err().path(), "exponent");
    assert_eq!(nozzle.clone().with_duty_cycle(&exact("101 %")).unwrap_err().path(), "duty_cycle");
    let kpa = Pressure::from_kilopascals;
    assert_eq!(nozzle.with_pressure_range(kpa(300.0)?, kpa(200.0)?, "maker").unwrap_err().path(), "highest");
    let point = (kpa(200.0)?, Flow::from_liters_per_minute(1.0)?);
    assert_eq!(Nozzle::from_points("n", &[point, point]).unwrap_err().path(), "points");
    assert_eq!(Nozzle::from_points("n", &[point, point, point]).unwrap_err().path(), "points");
    let falling = [(100.0, 1.2), (200.0, 1.1), (300.0, 1.0)].map(|(p, q)| (kpa(p), Flow::from_liters_per_minute(q)));
    let falling = falling.map(|(p, q)| (p.unwrap(), q.unwrap()));
    assert_eq!(Nozzle::from_points("n", &falling).unwrap_err().path(), "exponent");
    let same = (&exact::<Pressure>("200 kPa"), &flow);
    assert_eq!(Nozzle::from_two_points(same, same).unwrap_err().code(), ErrorCode::NotFinite);
    assert_eq!(Uncertain::<Speed>::harmonic_mean(&[]).unwrap_err().path(), "values");
    assert_eq!(exact::<Ratio>("0 1").power(&exact("0.5 1")).unwrap_err().code(), ErrorCode::NotPositive);
    assert_eq!(FanAngle::of_degrees(180).unwrap_err().path(), "fan_angle");
    for text in ["2026-13-01", "2026-02-29", "2026-2-01", "26-02-01", "2026-02-01-", "0000-01-01", "2026-00-10", "x"] {
        assert_eq!(Date::read(text).unwrap_err().code(), ErrorCode::OutOfRange, "{text}");
    }
    Ok(())
}

#[test]
fn days_are_counted_over_leap_years() -> Outcome {
    let days = |from, to| Ok::<_, Error>((Date::read(to)?.since(Date::read(from)?).minutes() / 1440.0).round());
    assert_eq!(days("2026-01-01", "2026-12-31")?, 364.0);
    assert_eq!(days("2024-02-28", "2024-03-01")?, 2.0);
    assert_eq!(days("2023-02-28", "2023-03-01")?, 1.0);
    assert_eq!(days("1900-02-28", "1900-03-01")?, 1.0);
    assert_eq!(days("2000-01-01", "2400-01-01")?, 146_097.0);
    assert_eq!(days("1970-01-01", "2026-11-25")?, 20_782.0);
    assert_eq!(days("2026-11-25", "2026-11-24")?, 0.0);
    Ok(())
}

#[test]
fn a_calibration_of_another_setting_says_what_differs() -> Outcome {
    let calibration = Calibration::from_refill(&exact("2 L"), &exact("200 m2"))?;
    let setting = Setting {
        sprayer: "knapsack 2".into(),
        operator: "A".into(),
        nozzles: "03".into(),
        pressure: Pressure::read("200 kPa")?,
        ground: "level stubble".into(),
        date: Date::read("2026-05-01")?,
    };
    let month = Time::read("43200 min")?;
    assert_eq!(calibration.differences(&setting, month), [Difference::Unstated]);
    let calibration = calibration.with_setting(setting.clone());
    assert_eq!(calibration.differences(&setting, month), []);
    let on_the_last_day = Setting { date: Date::read("2026-05-31")?, ..setting.clone() };
    assert_eq!(calibration.differences(&on_the_last_day, month), []);
    let other = Setting {
        sprayer: "knapsack 3".into(),
        operator: "B".into(),
        nozzles: "04".into(),
        pressure: Pressure::read("2.1 bar")?,
        ground: "slope".into(),
        date: Date::read("2026-06-01")?,
    };
    let all = [
        Difference::Sprayer,
        Difference::Operator,
        Difference::Nozzles,
        Difference::Pressure,
        Difference::Ground,
        Difference::TooOld,
    ];
    assert_eq!(calibration.differences(&other, month), all);
    let before = Setting { date: Date::read("2026-04-30")?, ..setting };
    assert_eq!(calibration.differences(&before, month), [Difference::LaterDay]);
    Ok(())
}

// --- Nozzles ---

/// Five points of a nozzle; by an independent program (Python, the formulas of docs/numbers.md): exponent 0.492 847 756 380 157 65 with
/// u 0.009 641 327 155 111 29, and at 250 kPa 1.091 249 403 169 815 2 L/min with u 0.005 576 117 744 843 2.
#[test]
fn an_exponent_is_fitted_with_its_uncertainty() -> Outcome {
    let points = [(100.0, 0.69), (150.0, 0.86), (200.0, 0.97), (300.0, 1.20), (400.0, 1.37)]
        .map(|(p, q)| (Pressure::from_kilopascals(p).unwrap(), Flow::from_liters_per_minute(q).unwrap()));
    let nozzle = Nozzle::from_points("nozzle 3", &points)?;
    assert_near("n", nozzle.exponent().value().number(), 0.492_847_756_380_157_65, 1e-13);
    assert_near("u(n)", nozzle.exponent().standard_uncertainty().number(), 0.009_641_327_155_111_29, 1e-13);
    let flow = nozzle.flow_at(&exact("250 kPa"))?;
    assert_near("q", flow.value().liters_per_minute(), 1.091_249_403_169_815_2, 1e-13);
    assert_near("u(q)", flow.standard_uncertainty().liters_per_minute(), 0.005_576_117_744_843_2, 1e-13);
    // Exponent and flow are known by one scatter: three degrees of freedom, not six.
    assert_near("v(q)", flow.degrees_of_freedom().number().unwrap().number(), 3.0, 1e-9);
    // Another unit of pressure, and a jug that is off by one factor, leave the exponent alone.
    let scaled = points.map(|(p, q)| (p * 7.0, q * 1.1));
    let scaled = Nozzle::from_points("nozzle 3", &scaled)?;
    assert_near("n", scaled.exponent().value().number(), nozzle.exponent().value().number(), 1e-12);
    Ok(())
}

#[test]
fn what_both_points_share_leaves_the_exponent_alone() -> Outcome {
    let (jug, gauge) = (normal("jug", number(1.0), 0.03), normal("gauge", number(1.0), 0.1));
    let flow = |text: &str| exact::<Flow>(text).times::<_, Flow>(&jug);
    let pressure = |text: &str| exact::<Pressure>(text).times::<_, Pressure>(&gauge);
    let (low, high) = ((pressure("100 kPa")?, flow("0.6 L/min")?), (pressure("400 kPa")?, flow("1.2 L/min")?));
    let nozzle = Nozzle::from_two_points((&low.0, &low.1), (&high.0, &high.1))?;
    assert_near("n", nozzle.exponent().value().number(), 0.5, 1e-15);
    assert_near("u(n)", nozzle.exponent().standard_uncertainty().number(), 0.0, 1e-15);
    // At a pressure read from the same gauge, the gauge cancels too, and the jug remains.
    let flow = nozzle.flow_at(&pressure("225 kPa")?)?;
    assert_near("q", flow.value().liters_per_minute(), 0.9, 1e-14);
    assert_near("u(q) / q", (flow.standard_uncertainty() / flow.value()).number(), 0.03, 1e-14);
    Ok(())
}

/// 1.2 L/min at 300 kPa; an anti-drip valve that takes 60 kPa, half of the time open, a liquid of 1.21 times the density of water: at 360 kPa
/// 1.2 / 2 / 1.1 L/min. A pressure of 10 % is then felt as 12 % at the nozzle, and as 6 % in the flow.
#[test]
fn valve_pulse_and_density_come_together() -> Outcome {
    let factor = density_factor(&exact("1.21 kg/L"), &exact("1 kg/L"))?;
    let kpa = Pressure::from_kilopascals;
    let nozzle = Nozzle::rated(NozzleSize::read("03")?.nominal())?
        .with_pressure_loss(&exact("60 kPa"))?
        .with_density_factor(&factor)?
        .with_duty_cycle(&exact("50 %"))?
        .with_pressure_range(kpa(150.0)?, kpa(400.0)?, "maker's table")?;
    let flow = nozzle.flow_at(&normal("gauge", kpa(360.0)?, 0.1))?;
    assert_near("q", flow.value().liters_per_minute(), 0.6 / 1.1, 1e-14);
    assert_near("u(q) / q", (flow.standard_uncertainty() / flow.value()).number(), 0.06, 1e-14);
    let back = nozzle.required_pressure(&flow)?;
    assert_near("p", back.value().kilopascals(), 360.0, 1e-10);
    assert_eq!(nozzle.broken_limit(kpa(150.0)?), None);
    assert_eq!(nozzle.broken_limit(kpa(400.0)?), None);
    let limit = |pressure| nozzle.broken_limit(pressure).map(|limit| (limit.bound(), limit.source().to_string()));
    assert_eq!(limit(kpa(149.9)?), Some((Bound::AtLeast, "maker's table".into())));
    assert_eq!(limit(kpa(400.1)?), Some((Bound::AtMost, "maker's table".into())));
    Ok(())
}

// --- Repeats and outliers ---

/// Two-sided critical values of Grubbs' test at 5 %, as tables print them.
#[test]
fn critical_residuals_are_those_of_the_tables() -> Outcome {
    let table = [
        (3, 1.1543),
        (4, 1.4812),
        (5, 1.7150),
        (6, 1.8871),
        (7, 2.0200),
        (8, 2.1266),
        (9, 2.2150),
        (10, 2.2900),
        (12, 2.4116),
        (15, 2.5483),
        (20, 2.7082),
        (30, 2.9085),
    ];
    for (count, critical) in table {
        let values: Vec<Length> = (0..count).map(|i| Length::from_meters(f64::from(i)).unwrap()).collect();
        let test = outlier(&values, percent(5.0))?;
        assert_near(&format!("{count}"), test.critical.unwrap().number(), critical, 5.1e-5);
    }
    Ok(())
}

#[test]
fn an_outlier_is_told_from_four_on_and_never_of_three() -> Outcome {
    let test = |values: &[f64]| {
        let values: Vec<Volume> = values.iter().map(|value| Volume::from_milliliters(*value).unwrap()).collect();
        outlier(&values, percent(5.0))
    };
    // Whatever the third value is, three do not tell.
    for third in [600.0, 601.0, 700.0, 1e6] {
        assert_eq!(test(&[600.0, 600.001, third])?.verdict, OutlierVerdict::TooFew);
    }
    assert_eq!(test(&[600.0, 601.0])?.critical, None);
    let four = test(&[600.0, 604.0, 680.0, 602.0])?;
    assert_eq!((four.verdict, four.farthest), (OutlierVerdict::Outlier, 2));
    // By hand: mean 621.5, distances 21.5, 17.5, 58.5, 19.5; s = sqrt(4571 / 3) = 39.034, G = 1.4987.
    assert_near("G", four.residual.number(), 58.5 / (4571.0_f64 / 3.0).sqrt(), 1e-12);
    assert_eq!(test(&[600.0, 604.0, 612.0, 602.0, 598.0])?.verdict, OutlierVerdict::None);
    let alike = test(&[600.0; 5])?;
    assert_eq!((alike.verdict, alike.residual), (OutlierVerdict::None, Ratio::ZERO));
    assert_eq!(test(&[600.0]).unwrap_err().path(), "values");
    for risk in [0.0, -1.0, 100.0] {
        let values = [Volume::read("1 L")?; 4];
        assert_eq!(outlier(&values, percent(risk)).unwrap_err().path(), "risk");
    }
    Ok(())
}

#[test]
fn repeats_are_as_many_as_the_interval_takes() -> Outcome {
    let of = |spread, precision| repeats_needed(percent(spread), percent(precision), percent(95.0));
    // From the quantiles 2.447 at 6 degrees of freedom and 2.571 at 5: 4.62 % with seven, 5.25 % with six.
    assert_eq!((of(5.0, 5.0)?, of(3.0, 5.0)?, of(0.1, 5.0)?), (7, 4, 2));
    assert_eq!(of(5.0, 0.01).unwrap_err().path(), "precision");
    assert_eq!(of(0.0, 5.0).unwrap_err().path(), "spread");
    assert_eq!(repeats_needed(percent(5.0), percent(5.0), percent(100.0)).unwrap_err().path(), "coverage");
    let effort = Effort { spread: percent(1.0), time: Time::read("60 s")? };
    assert_eq!(best_repeats(&[effort; 3], Time::read("5.9 min")?).unwrap_err().path(), "available");
    assert_eq!(best_repeats(&[effort; 3], Time::read("6 min")?)?, [2, 2, 2]);
    assert_eq!(best_repeats(&[effort; 6], Time::read("600 min")?).unwrap_err().path(), "available");
    assert_eq!(best_repeats(&[], Time::read("6 min")?).unwrap_err().path(), "efforts");
    Ok(())
}

// --- The nozzle check ---

fn caught(name: &str, repeats: &[f64]) -> NozzleCatches {
    let repeats: Vec<Flow> = repeats.iter().map(|flow| Flow::from_liters_per_minute(*flow).unwrap()).collect();
    NozzleCatches::new(name, &repeats).unwrap()
}

/// Three catches each, within 0.3 %.
fn thrice(flows: &[f64]) -> Vec<NozzleCatches> {
    let all = flows.iter().enumerate();
    all.map(|(i, flow)| caught(&format!("{}", i + 1), &[flow * 0.997, *flow, flow * 1.003])).collect()
}

fn rated(text: &str) -> NozzleCheck {
    NozzleCheck::new(NewNozzle::Rated(exact(text)))
}

fn advice(set: &CheckedSet) -> Vec<NozzleAdvice> {
    set.nozzles.iter().map(|nozzle| nozzle.advice).collect()
}

#[test]
fn nozzles_are_judged_by_the_mean_and_by_new() -> Outcome {
    use NozzleAdvice::{CannotTell, Clean, Keep, Replace, SharedBias};
    // Flows in parts of new, and what is to be said of each and of the set.
    let table: &[(&[f64], &[NozzleAdvice], SetAdvice)] = &[
        (&[1.00, 1.01, 0.99, 1.00], &[Keep; 4], SetAdvice::Keep),
        (&[1.00, 1.01, 1.13, 1.00], &[Keep, Keep, Replace, Keep], SetAdvice::SingleNozzles),
        (&[1.00, 1.01, 0.88, 1.00], &[Keep, Keep, Clean, Keep], SetAdvice::SingleNozzles),
        (
            &[1.00, 1.00, 1.00, 1.00, 1.00, 1.00, 1.15, 1.15],
            &[Keep, Keep, Keep, Keep, Keep, Keep, Replace, Replace],
            SetAdvice::ReplaceSet,
        ),
        // All of them off a table: not wear, whatever the size.
        (&[1.20, 1.21, 1.19, 1.20], &[SharedBias; 4], SetAdvice::CheckGaugeClockJug),
        (&[0.85, 0.86, 0.84, 0.85], &[SharedBias; 4], SetAdvice::CheckGaugeClockJug),
        (
            &[1.20, 1.21, 1.40, 1.20, 1.20],
            &[SharedBias, SharedBias, Replace, SharedBias, SharedBias],
            SetAdvice::CheckGaugeClockJug,
        ),
        // 5 % over the mean as nearly as the catches are: withheld. The mean of 1, 1, 1 and x is x / 1.05 at x = 1.0678.
        (&[1.00, 1.00, 1.00, 1.0678], &[Keep, Keep, Keep, CannotTell], SetAdvice::CannotTell),
    ];
    for (flows, each, all) in table {
        let set = rated("1 L/min").judge(&thrice(flows))?;
        assert_eq!((advice(&set).as_slice(), set.advice), (*each, *all), "{flows:?}");
    }
    // Against a new nozzle that was caught alike, what all have is wear.
    let new = caught("new", &[0.997, 1.0, 1.003]);
    let set = NozzleCheck::new(NewNozzle::Caught(new)).judge(&thrice(&[1.20, 1.21, 1.19, 1.20]))?;
    assert_eq!((advice(&set).as_slice(), set.advice), ([Replace; 4].as_slice(), SetAdvice::ReplaceSet));
    Ok(())
}

#[test]
fn a_jug_that_cannot_tell_withholds_the_verdict_and_cancels_within_the_set() -> Outcome {
    let jug = Uncertain::from_tolerance("jug", number(1.0), percent(10.0))?;
    let catches = thrice(&[1.09, 1.05, 1.01, 1.05]);
    // A jug to 1 % would keep the others; one to 10 % cannot tell 9 % over new from 10 %.
    let set = rated("1 L/min").with_common(&jug)?.judge(&catches)?;
    assert_eq!(advice(&set), [NozzleAdvice::CannotTell; 4]);
    assert_eq!(set.advice, SetAdvice::CannotTell);
    // Between the nozzles the jug makes no difference.
    let without = rated("1 L/min").judge(&catches)?;
    for (with, without) in set.nozzles.iter().zip(&without.nozzles) {
        let (with, without) = (with.of_mean.standard_uncertainty(), without.of_mean.standard_uncertainty());
        assert_near("u of the mean", with.number(), without.number(), 1e-15);
    }
    // Nor against a new nozzle that was caught with it.
    let new = NozzleCheck::new(NewNozzle::Caught(caught("new", &[1.0, 1.0])));
    let set = new.with_common(&jug)?.judge(&catches)?;
    assert!(set.of_new.standard_uncertainty() < percent(0.5), "{:?}", set.of_new);
    Ok(())
}

#[test]
fn law_sides_outliers_and_single_catches() -> Outcome {
    let limits = NozzleLimits::advised().with_reject(percent(15.0), "example decree")?;
    assert_eq!(limits.reject.as_ref().map(Limit::force), Some(Force::Law));
    let set = rated("1 L/min").with_limits(limits).judge(&thrice(&[1.0, 1.2, 0.8, 1.15]))?;
    let rejected: Vec<_> = set.nozzles.iter().map(|nozzle| nozzle.rejected).collect();
    let sides = [Side::Under, Side::Over, Side::Over, Side::CannotTell];
    assert_eq!(rejected, sides.map(Some));

    let [a, b, c, d]: [NozzleCatches; 4] = thrice(&[1.08, 1.08, 0.96, 0.96]).try_into().unwrap();
    let on = |nozzle: NozzleCatches, side| nozzle.on_side(side);
    let catches = [on(a, BoomSide::Left), on(b, BoomSide::Left), on(c, BoomSide::Right), on(d, BoomSide::Right)];
    let (apart, side) = rated("1 L/min").judge(&catches)?.sides.unwrap();
    // 2.16 and 1.92 of a mean of 2.04.
    assert_near("apart", apart.value().number(), 0.24 / 2.04, 1e-12);
    assert_eq!(side, Side::Over);
    assert_eq!(rated("1 L/min").judge(&thrice(&[1.0, 1.0]))?.sides, None);

    let many = [1.0, 1.01, 0.99, 1.0, 1.01, 0.99, 1.3];
    let outlier = rated("1 L/min").judge(&thrice(&many))?.outlier.unwrap();
    assert_eq!((outlier.verdict, outlier.farthest), (OutlierVerdict::Outlier, 6));

    let single: Vec<_> = [1.0, 1.02, 0.98].iter().enumerate().map(|(i, q)| caught(&format!("{i}"), &[*q])).collect();
    let error = rated("1 L/min").judge(&single).unwrap_err();
    assert_eq!((error.code(), error.path()), (ErrorCode::MissingInput, "repeatability"), "{error}");
    let set = rated("1 L/min").with_repeatability(percent(1.0))?.judge(&single)?;
    assert_eq!((set.advice, set.repeatability), (SetAdvice::Keep, percent(1.0)));
    let kpa = Limit::new(Bound::AtMost, Pressure::read("5 kPa")?, Force::Law, "example decree");
    let wrong = rated("1 L/min").with_limits(NozzleLimits { of_mean: kpa, ..NozzleLimits::advised() });
    let error = wrong.judge(&thrice(&[1.0, 1.0])).unwrap_err();
    assert_eq!((error.code(), error.path()), (ErrorCode::WrongQuantity, "limits"), "{error}");
    let strict = Limit::new(Bound::AtMost, percent(2.0), Force::Advice, "a maker's handbook");
    let strict = rated("1 L/min").with_limits(NozzleLimits { of_mean: strict, ..NozzleLimits::advised() });
    let judged = advice(&strict.judge(&thrice(&[1.04, 1.0, 1.0, 1.0, 1.0]))?);
    assert_eq!((judged[0], &judged[1..]), (NozzleAdvice::Replace, [NozzleAdvice::Keep; 4].as_slice()));
    let twice = [caught("1", &[1.0, 1.01]), caught("1", &[1.0, 1.0])];
    assert_eq!(rated("1 L/min").judge(&twice).unwrap_err().path(), "catches[1].name");
    assert_eq!(rated("1 L/min").judge(&[]).unwrap_err().path(), "catches");
    assert_eq!(NozzleCatches::new("1", &[Flow::ZERO]).unwrap_err().path(), "repeats[0]");
    Ok(())
}

/// All repeats together: nozzles of 0.98, 1, 1.02 and of 1.99, 2.01 have squares 2 x 0.0004 and 2 x 0.000025 over three degrees of freedom.
#[test]
fn one_repeatability_comes_of_all_repeats() -> Outcome {
    let set = rated("1 L/min").judge(&[caught("1", &[0.98, 1.0, 1.02]), caught("2", &[1.99, 2.01])])?;
    assert_near("s", set.repeatability.number(), (0.000_85_f64 / 3.0).sqrt(), 1e-12);
    let flow = &set.nozzles[0].flow;
    assert_near(
        "u",
        flow.standard_uncertainty().liters_per_minute(),
        set.repeatability.number() / 3.0_f64.sqrt(),
        1e-12,
    );
    assert_near("v", flow.degrees_of_freedom().number().unwrap().number(), 3.0, 1e-9);
    // The mean is of two nozzles, known by one spread.
    assert_near("v of the mean", set.mean.degrees_of_freedom().number().unwrap().number(), 3.0, 1e-9);
    Ok(())
}

// --- Wear ---

/// F. J. Anscombe, Graphs in statistical analysis, The American Statistician 27 (1973), first set: slope 0.5001, intercept 3.0001. When 12 is reached, by an
/// independent program from the formula in docs/numbers.md: 17.996 546 082 530 443, from 14.577 130 125 052 497 to 28.568 916 917 597 274.
#[test]
fn wear_is_a_line_with_an_interval() -> Outcome {
    let x = [10.0, 8.0, 13.0, 9.0, 11.0, 14.0, 6.0, 4.0, 12.0, 7.0, 5.0];
    let y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
    let hours = |hours: f64| Time::from_minutes(hours * 60.0).unwrap();
    let flow = |flow| Flow::from_liters_per_minute(flow).unwrap();
    let points: Vec<_> = x.into_iter().zip(y).map(|(x, y)| (hours(x), flow(y))).collect();
    let wear = Wear::from_flows(&points)?;
    assert_near("q0", wear.flow_at(Time::ZERO).liters_per_minute(), 3.0001, 5e-5);
    assert_near("q(1 h)", wear.flow_at(hours(1.0)).liters_per_minute(), 3.5002, 5e-5);
    assert_near("b", wear.wear_at(hours(1.0))?.number(), 0.5001 / 3.0001, 2e-5);
    let worn = wear.reaches(flow(12.0), percent(95.0))?.unwrap();
    assert_near("expected", worn.expected.minutes() / 60.0, 17.996_546_082_530_443, 1e-11);
    assert_near("earliest", worn.earliest.minutes() / 60.0, 14.577_130_125_052_497, 1e-10);
    assert_near("latest", worn.latest.minutes() / 60.0, 28.568_916_917_597_274, 1e-10);
    // A scatter without a trend, and a falling one, foretell nothing.
    for flows in [[1.0, 1.02, 0.99, 1.01, 1.0], [1.1, 1.08, 1.06, 1.04, 1.02]] {
        let points: Vec<_> = (0..).map(f64::from).map(hours).zip(flows.map(flow)).collect();
        assert_eq!(Wear::from_flows(&points)?.reaches(flow(1.2), percent(95.0))?, None);
    }
    assert_eq!(Wear::from_flows(&points[..2]).unwrap_err().path(), "points");
    Ok(())
}

/// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: ten flows with mean 50.81 and mean range 1.8778, limits 55.8041 and 45.8159 (by 3 / 1.128 in
/// place of 2.66).
#[test]
fn a_chart_of_individuals_is_that_of_the_handbook() -> Outcome {
    let flows = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
    let mut flows = flows.map(|flow| Flow::from_liters_per_minute(flow).unwrap());
    let chart = control_chart(&flows)?;
    assert_near("center", chart.center.liters_per_minute(), 50.81, 1e-9);
    assert_near("high", chart.high.liters_per_minute(), 55.8041, 2e-3);
    assert_near("low", chart.low.liters_per_minute(), 45.8159, 2e-3);
    assert!(chart.outside.is_empty());
    flows[9] = Flow::from_liters_per_minute(70.0)?;
    assert_eq!(control_chart(&flows)?.outside, [9]);
    assert_eq!(control_chart(&flows[..1]).unwrap_err().path(), "values");
    Ok(())
}

// --- Delivered dose ---

/// 1 L in 30 s over 50 m x 1 m in 30 s is 200 L/ha, known to 3 % / sqrt(3). A litre of product for the hectare, in a vessel of 1 mL steps that may be 4 % off:
/// `u(D) / D = sqrt(3 % ^2 / 3 + 4 % ^2 / 3 + (0.25 / 1000)^2) = sqrt(0.0003 + 0.000533333 + 0.0000000625) = 2.886860 %`. The expanded one is 1.959964 times that, 5.658142 %.
/// Marks of a tank of 250 L may be 5 % off at 200 L: `5 % ^2 / 3 = 0.000833333` more.
#[test]
fn a_plan_s_delivered_dose_counts_the_rate_and_the_measure() -> Outcome {
    let job = |tolerance: &str, marks: &str| {
        let job = format!(
            r#"
            format = "mixcalc-job/1"
            area = "1 ha"
            products = [{{ name = "example product", formulation = "SC", dose = "1 L/ha" }}]
            measures = [{{ kind = "vessel", capacity = "1 L", graduation = "1 mL"{tolerance} }}]
            sprayer = {{ kind = "boom" }}
            tank = {{ nominal = "250 L"{marks} }}
            [calibration]
            method = "timed-course"
            catch = {{ measured = "1 L", tolerance = "3 %" }}
            catch_time = "30 s"
            course = "50 m"
            course_time = "30 s"
            swath = "1 m"
            "#
        );
        document::read_job(job.as_bytes())
    };
    let marks = ", graduation = '10 L'";
    let cases = [
        ("", "", 0.0003_f64),
        (", tolerance = '4 %'", "", 0.000_833_395_833_333_333),
        (", tolerance = '4 %'", marks, 0.001_666_729_166_666_666),
    ];
    for (tolerance, marks, share) in cases {
        let plan = plan(&job(tolerance, marks)?)?;
        let recipe = plan.cleared().expect("nothing breaks the label").recipes().next().expect("a load");
        let delivered = recipe.amounts().next().and_then(|amount| amount.delivered()).expect("a calibration");
        let dose = delivered.dose().value();
        let of_dose = |quantity: Quantity| quantity.over(dose).and_then(Quantity::number).expect("doses");
        assert_near("u", of_dose(delivered.dose().standard_uncertainty()), share.sqrt(), 1e-9);
        let half = 1.959_963_984_540_054 * share.sqrt();
        assert_near("low", of_dose(delivered.interval().low()), 1.0 - half, 1e-9);
        assert_near("high", of_dose(delivered.interval().high()), 1.0 + half, 1e-9);
        // The dose is its own maximum.
        assert_near("P", delivered.probability_over().expect("a maximum").number(), 0.5, 1e-9);
    }
    Ok(())
}

/// A knapsack by refill: 2 %, 5 % and 10 % are 11.4 % together, 23 % expanded. At 5 % and a risk of 5 % the aim is 92.4 % of the most.
#[test]
fn a_delivered_dose_is_as_uncertain_as_what_it_is_made_of() -> Outcome {
    let flow = normal("flow", Flow::read("1 L/min")?, 0.02);
    let speed = normal("speed", Speed::read("3.6 km/h")?, 0.05);
    let swath = normal("swath", Length::read("1 m")?, 0.1);
    let calibration = Calibration::from_flow(&flow, &speed, &swath)?;
    let rate = calibration.volume_rate();
    assert_near("u", (rate.standard_uncertainty() / rate.value()).number(), 0.1136, 5e-5);
    let expanded = rate.expanded_uncertainty(percent(95.45))? / rate.value();
    assert_near("U", expanded.number(), 0.227, 5e-4);

    let litres_per_hectare = |value| LiquidDose::from_liters_per_hectare(value);
    let amount = normal("jug", Volume::read("150 mL")?, 0.03);
    let mix = normal("tank", Volume::read("15 L")?, 0.04);
    let dose = delivered_liquid_dose(&amount, &mix, &exact("200 L/ha"))?;
    assert_near("D", dose.value().liters_per_hectare(), 2.0, 1e-12);
    assert_near("u", dose.standard_uncertainty().liters_per_hectare(), 0.1, 1e-12);
    assert_near("aim", dose.aim_under(litres_per_hectare(2.0)?, percent(5.0))?.liters_per_hectare(), 2.0 * 0.924, 5e-4);
    // Two standard uncertainties: 2.275 % above.
    assert_near("P", dose.probability_over(litres_per_hectare(2.2)?).number(), 0.022_750_131_948_179_2, 1e-12);
    assert_near("P", dose.probability_over(litres_per_hectare(1.8)?).number(), 1.0 - 0.022_750_131_948_179_2, 1e-12);
    let solid = delivered_solid_dose(&exact("30 g"), &exact("15 L"), &exact("200 L/ha"))?;
    assert_near("D", solid.value().kilograms_per_hectare(), 0.4, 1e-12);
    let certain = Uncertain::exact(litres_per_hectare(2.0)?)?;
    assert_eq!(certain.probability_over(litres_per_hectare(2.0)?), Ratio::ZERO);
    assert_eq!(certain.probability_over(litres_per_hectare(1.9)?), number(1.0));
    assert_eq!(certain.aim_under(litres_per_hectare(2.0)?, percent(5.0))?, litres_per_hectare(2.0)?);
    for risk in [0.0, 50.0, 60.0, -1.0] {
        assert_eq!(dose.aim_under(litres_per_hectare(2.0)?, percent(risk)).unwrap_err().path(), "risk");
    }
    Ok(())
}

/// Above one thousand degrees of freedom the share within t is an approximation: it meets the sum below, and undoes the quantile above.
#[test]
fn probabilities_join_where_the_formula_changes() -> Outcome {
    let meters = |value| Length::from_meters(value).unwrap();
    for degrees in [1.0, 2.0, 7.0, 1000.0, 1001.0, 20_000.0] {
        let of = DegreesOfFreedom::new(number(degrees))?;
        let value = Uncertain::from_standard_uncertainty("x", meters(0.0), meters(1.0), of)?;
        for coverage in [50.0, 95.0, 99.9] {
            let t = value.coverage_factor(percent(coverage))?.number();
            let over = value.probability_over(meters(t)).number();
            assert_near(&format!("{degrees}"), over, (1.0 - coverage / 100.0) / 2.0, 1e-11);
        }
    }
    Ok(())
}

// --- What holds for any sprayer ---

fn unit_interval() -> std::ops::Range<f64> {
    0.01..1.0
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_higher_pressure_never_lowers_the_flow_and_the_flow_takes_its_pressure(
        flow in 0.1..10.0, at in 50.0..1000.0, n in 0.3..1.2, loss in 0.0..80.0, duty in 0.1..1.0, factor in 0.8..1.4,
        p in 81.0..2000.0, more in 1.0..5.0,
    ) {
        let kpa = |value| Uncertain::exact(Pressure::from_kilopascals(value).unwrap()).unwrap();
        let ratio = |value| Uncertain::exact(number(value)).unwrap();
        let flow = Uncertain::exact(Flow::from_liters_per_minute(flow).unwrap()).unwrap();
        let nozzle = Nozzle::new(&flow, &kpa(at)).unwrap().with_exponent(&ratio(n)).unwrap()
            .with_pressure_loss(&kpa(loss)).unwrap().with_duty_cycle(&ratio(duty)).unwrap()
            .with_density_factor(&ratio(factor)).unwrap();
        let (low, high) = (nozzle.flow_at(&kpa(p)).unwrap(), nozzle.flow_at(&kpa(p * more)).unwrap());
        prop_assert!(high.value() >= low.value());
        let back = nozzle.required_pressure(&low).unwrap().value().kilopascals();
        prop_assert!((back / p - 1.0).abs() < 1e-11, "{back} {p}");
        // A denser liquid, a shorter pulse and a larger loss never raise it.
        let denser = nozzle.clone().with_density_factor(&ratio(factor * more)).unwrap().flow_at(&kpa(p)).unwrap();
        let shorter = nozzle.clone().with_duty_cycle(&ratio(duty / more)).unwrap().flow_at(&kpa(p)).unwrap();
        let lossier = nozzle.with_pressure_loss(&kpa(loss + (80.0 - loss) * (1.0 - 1.0 / more))).unwrap().flow_at(&kpa(p)).unwrap();
        prop_assert!(denser.value() <= low.value() && shorter.value() <= low.value() && lossier.value() <= low.value());
    }

    #[test]
    fn the_rate_goes_with_flow_and_against_speed_and_swath(
        q in 0.1..50.0, v in 1.0..30.0, w in 0.2..40.0, more in 1.0..4.0, u in 0.0..0.2,
    ) {
        let flow = |value| normal("flow", Flow::from_liters_per_minute(value).unwrap(), u);
        let speed = |value| normal("speed", Speed::from_kilometers_per_hour(value).unwrap(), u);
        let swath = |value| normal("swath", Length::from_meters(value).unwrap(), u);
        let calibration = Calibration::from_flow(&flow(q), &speed(v), &swath(w)).unwrap();
        let rate = |calibration: &Calibration| calibration.volume_rate().value();
        let now = rate(&calibration);
        prop_assert!(rate(&Calibration::from_flow(&flow(q * more), &speed(v), &swath(w)).unwrap()) >= now);
        prop_assert!(rate(&Calibration::from_flow(&flow(q), &speed(v * more), &swath(w)).unwrap()) <= now);
        prop_assert!(rate(&Calibration::from_flow(&flow(q), &speed(v), &swath(w * more)).unwrap()) <= now);
        // A change of the calibrated state is a calibration of the changed one; a shared input cancels.
        let faster = calibration.after(Change::Speed(&speed(v), &speed(v))).unwrap();
        prop_assert!(((faster.value() / now).number() - 1.0).abs() < 1e-12);
        let (to, from) = (exact_speed(v * more), exact_speed(v));
        let changed = calibration.after(Change::Speed(&from, &to)).unwrap().value();
        let again = rate(&Calibration::from_flow(&flow(q), &speed(v * more), &swath(w)).unwrap());
        prop_assert!(((changed / again).number() - 1.0).abs() < 1e-12);
        // The relative variance is the sum of three.
        let relative = (calibration.volume_rate().standard_uncertainty() / now).number();
        prop_assert!((relative - u * 3.0_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn a_power_multiplies_the_relative_uncertainty_and_undoes_itself(x in 0.01..100.0, u in 0.0..0.3, n in 0.1..3.0) {
        let base = normal("x", number(x), u);
        let exponent = Uncertain::exact(number(n)).unwrap();
        let power = base.power(&exponent).unwrap();
        let relative = (power.standard_uncertainty() / power.value()).number();
        prop_assert!((relative - n * u).abs() < 1e-12);
        let inverse = base.power(&Uncertain::exact(number(-n)).unwrap()).unwrap();
        let one = power.times::<_, Ratio>(&inverse).unwrap();
        prop_assert!((one.value().number() - 1.0).abs() < 1e-12 && one.standard_uncertainty().number() < 1e-12);
        // By finite differences of the exponent too.
        let uncertain = normal("n", number(n), 1e-6);
        let moved = base.power(&uncertain).unwrap();
        let slope = (x.powf(n * 1.000_001) - x.powf(n * 0.999_999)) / 2.0;
        let of_n = moved.contributions().iter().find(|it| it.name() == "n").map_or(0.0, |it| it.standard_uncertainty().number());
        prop_assert!((of_n - slope.abs()).abs() <= 1e-4 * slope.abs() + 1e-12, "{of_n} {slope}");
    }

    #[test]
    fn the_harmonic_mean_lies_between_and_under_the_mean(speeds in prop::collection::vec(0.5..20.0, 1..8), u in 0.0..0.1) {
        let speeds: Vec<_> = speeds.iter().enumerate()
            .map(|(i, v)| normal(&format!("{i}"), Speed::from_kilometers_per_hour(*v).unwrap(), u)).collect();
        let harmonic = Uncertain::harmonic_mean(&speeds).unwrap();
        let mean = Uncertain::mean(&speeds).unwrap();
        prop_assert!(harmonic.value().kilometers_per_hour() <= mean.value().kilometers_per_hour() * (1.0 + 1e-12));
        // A factor common to all comes through whole.
        let wheel = normal("wheel", number(1.0), 0.05);
        let scaled: Vec<_> = speeds.iter().map(|v| Uncertain::exact(v.value()).unwrap().times::<_, Speed>(&wheel).unwrap()).collect();
        let scaled = Uncertain::harmonic_mean(&scaled).unwrap();
        prop_assert!(((scaled.standard_uncertainty() / scaled.value()).number() - 0.05).abs() < 1e-12);
    }

    #[test]
    fn repeats_needed_are_enough_and_one_less_is_not(spread in 0.1..20.0, precision in 1.0..20.0) {
        let count = repeats_needed(percent(spread), percent(precision), percent(95.0)).unwrap();
        let half_width = |n: u64| {
            let n = f64::from(u32::try_from(n).unwrap());
            let of = DegreesOfFreedom::new(number(n - 1.0)).unwrap();
            let one = Uncertain::from_standard_uncertainty("x", number(1.0), percent(spread), of).unwrap();
            one.expanded_uncertainty(percent(95.0)).unwrap().number() / n.sqrt()
        };
        prop_assert!(half_width(count) <= precision / 100.0 * (1.0 + 1e-12));
        prop_assert!(count == 2 || half_width(count - 1) > precision / 100.0);
    }

    #[test]
    fn no_other_sharing_of_the_time_is_better(
        spreads in prop::array::uniform3(0.1..10.0), minutes in prop::array::uniform3(0.5..5.0), extra in 0.0..40.0,
    ) {
        let time = |value| Time::from_minutes(value).unwrap();
        let efforts: Vec<_> = spreads.iter().zip(&minutes)
            .map(|(spread, minutes)| Effort { spread: percent(*spread), time: time(*minutes) }).collect();
        let available = 2.0 * minutes.iter().sum::<f64>() + extra;
        let best = best_repeats(&efforts, time(available * (1.0 + 1e-9))).unwrap();
        let variance = |counts: &[u64]| -> f64 {
            spreads.iter().zip(counts).map(|(s, n)| s * s / f64::from(u32::try_from(*n).unwrap())).sum()
        };
        let taken = |counts: &[u64]| -> f64 {
            minutes.iter().zip(counts).map(|(t, n)| t * f64::from(u32::try_from(*n).unwrap())).sum()
        };
        prop_assert!(taken(&best) <= available * (1.0 + 1e-8) && best.iter().all(|n| *n >= 2));
        let fitting = |i: usize| (2_u32..).take_while(move |n| minutes[i] * f64::from(*n) <= available);
        for a in fitting(0) {
            for b in fitting(1) {
                for c in fitting(2) {
                    let counts = [a, b, c].map(u64::from);
                    prop_assert!(taken(&counts) > available || variance(&best) <= variance(&counts) * (1.0 + 1e-12));
                }
            }
        }
    }

    #[test]
    fn an_outlier_test_does_not_look_at_order_or_unit(values in prop::collection::vec(0.5..1.5, 2..12), turn in 0_usize..12) {
        let flows: Vec<_> = values.iter().map(|value| Flow::from_liters_per_minute(*value).unwrap()).collect();
        let mut turned = flows.clone();
        turned.rotate_left(turn % flows.len());
        let (test, other) = (outlier(&flows, percent(5.0)).unwrap(), outlier(&turned, percent(5.0)).unwrap());
        prop_assert_eq!((test.residual, test.verdict), (other.residual, other.verdict));
        let scaled: Vec<_> = flows.iter().map(|flow| *flow * 3.7).collect();
        let scaled = outlier(&scaled, percent(5.0)).unwrap();
        prop_assert!((scaled.residual.number() - test.residual.number()).abs() < 1e-9);
        // No residual is over (n - 1) / sqrt(n).
        let n = f64::from(u32::try_from(values.len()).unwrap());
        prop_assert!(test.residual.number() <= (n - 1.0) / n.sqrt() * (1.0 + 1e-9));
    }

    #[test]
    fn an_aim_runs_its_risk_and_no_more(u in 0.001..0.4, risk in 0.001..0.49, n in 1.0..200.0, share in unit_interval()) {
        let of = DegreesOfFreedom::new(number(n)).unwrap();
        let most = LiquidDose::from_liters_per_hectare(2.0).unwrap();
        let dose = |value: LiquidDose| Uncertain::from_standard_uncertainty("dose", value, value * u, of).unwrap();
        let aim = dose(most).aim_under(most, number(risk)).unwrap();
        prop_assert!(aim <= most);
        prop_assert!((dose(aim).probability_over(most).number() - risk).abs() < 1e-9);
        // A smaller risk never aims higher; a higher limit is never likelier passed.
        prop_assert!(dose(most).aim_under(most, number(risk * share)).map_or(true, |less| less <= aim));
        prop_assert!(dose(aim).probability_over(most * (1.0 + share)) <= dose(aim).probability_over(most));
    }
}

fn exact_speed(value: f64) -> Uncertain<Speed> {
    Uncertain::exact(Speed::from_kilometers_per_hour(value).unwrap()).unwrap()
}

// --- Simulated calibrations whose truth is known ---

/// How often, in so many calibrations of a seed, the interval of 95 % holds the truth. `measured` makes one from the draws of a trial.
fn share_that_holds<Q: AdditiveKind>(
    count: u32,
    truth: Q,
    mut measured: impl FnMut(&mut Trial) -> Result<(Q, Q), Error>,
) -> f64 {
    let holds = simulate(count, 2026, |trial| {
        let (low, high) = measured(trial)?;
        Ok(number(if low <= truth && truth <= high { 1.0 } else { 0.0 }))
    });
    holds.unwrap().mean().unwrap().number()
}

fn ends<Q: AdditiveKind>(value: &Uncertain<Q>) -> Result<(Q, Q), Error> {
    let interval = value.interval(percent(95.0))?;
    Ok((interval.low(), interval.high()))
}

/// So many readings about a true value, each an independent input.
fn readings<Q: AdditiveKind>(name: &str, truth: Q, relative: f64, count: usize) -> Vec<Uncertain<Q>> {
    (0..count).map(|i| normal(&format!("{name} {i}"), truth, relative)).collect()
}

fn drawn<Q: AdditiveKind>(trial: &mut Trial, readings: &[Uncertain<Q>]) -> Result<Vec<Q>, Error> {
    readings.iter().map(|reading| trial.of(reading)).collect()
}

/// Share of intervals that hold the truth, by case: 0.6 L in 30 s, 50 m in 45 s, a swath of 1 m: 180 L/ha.
fn coverages(count: u32) -> Vec<(&'static str, f64)> {
    let rate = VolumeRate::from_liters_per_hectare(180.0).unwrap();
    let (volume, seconds, length) = (Volume::from_liters, Time::from_seconds, Length::from_meters);
    let (half, caught_in, ran_in) = (volume(0.6).unwrap(), seconds(30.0).unwrap(), seconds(45.0).unwrap());
    let (course, swath) = (exact::<Length>("50 m"), exact::<Length>("1 m"));
    let mut all = Vec::new();
    for (n, name) in [(3, "3 catches"), (5, "5 catches"), (10, "10 catches")] {
        let catches = readings("catch", half, 0.02, n);
        let share = share_that_holds(count, rate, |trial| {
            let catch = Uncertain::from_repeats("catch", &drawn(trial, &catches)?)?;
            let (time, run) = (Uncertain::exact(caught_in)?, Uncertain::exact(ran_in)?);
            ends(Calibration::from_timed_course(&catch, &time, &course, &run, &swath)?.volume_rate())
        });
        all.push((name, share));
    }
    let jug = Uncertain::from_tolerance("true jug", number(1.0), percent(3.0)).unwrap();
    let clock = Uncertain::from_tolerance("true clock", number(1.0), percent(1.0)).unwrap();
    for (catch_n, run_n, name) in
        [(3, 3, "3 catches by a jug, 3 runs, tape"), (5, 5, "5 catches by a jug, 5 runs, tape")]
    {
        let (catches, runs) = (readings("catch", half, 0.02, catch_n), readings("run", ran_in, 0.04, run_n));
        let tape = Uncertain::from_tolerance("true tape", length(1.0).unwrap(), length(0.03).unwrap()).unwrap();
        let share = share_that_holds(count, rate, |trial| {
            let jug_reads = trial.of(&jug)?;
            let catches: Vec<Volume> = drawn(trial, &catches)?.into_iter().map(|catch| catch * jug_reads).collect();
            let jug = Uncertain::from_tolerance("jug", number(1.0), percent(3.0))?;
            let catch = Uncertain::from_repeats("catch", &catches)?.times(&jug)?;
            let run = Uncertain::from_repeats("run", &drawn(trial, &runs)?)?;
            let swath = Uncertain::from_tolerance("swath", trial.of(&tape)?, length(0.03)?)?;
            let time = Uncertain::exact(caught_in)?;
            ends(Calibration::from_timed_course(&catch, &time, &course, &run, &swath)?.volume_rate())
        });
        all.push((name, share));
    }
    // A clock that runs wrong for both times cancels; two inputs in its place make intervals that are too wide.
    for (one, name) in [(true, "3 catches, clock shared"), (false, "3 catches, clock taken for two")] {
        let catches = readings("catch", half, 0.005, 3);
        let share = share_that_holds(count, rate, |trial| {
            let runs_at = trial.of(&clock)?;
            let shows = |name: &str, time: Time| {
                let clock = Uncertain::from_tolerance(name, number(1.0), percent(1.0))?;
                Uncertain::exact(time * runs_at)?.times::<_, Time>(&clock)
            };
            let (time, run) = (shows("clock", caught_in)?, shows(if one { "clock" } else { "other" }, ran_in)?);
            // The truth of a catch is what flows in the true time.
            let catch = Uncertain::from_repeats("catch", &drawn(trial, &catches)?)?;
            ends(Calibration::from_timed_course(&catch, &time, &course, &run, &swath)?.volume_rate())
        });
        all.push((name, share));
    }
    let pressures = [150.0, 200.0, 300.0, 400.0].map(|p| Pressure::from_kilopascals(p).unwrap());
    let law = Nozzle::rated(NozzleSize::read("03").unwrap().nominal()).unwrap();
    let flows: Vec<_> = pressures
        .iter()
        .enumerate()
        .map(|(i, p)| {
            let flow = law.flow_at(&Uncertain::exact(*p).unwrap()).unwrap().value();
            normal(&format!("flow {i}"), flow, 0.02)
        })
        .collect();
    let at = exact::<Pressure>("500 kPa");
    let truth = law.flow_at(&at).unwrap().value();
    let fitted = |trial: &mut Trial| {
        let points: Vec<_> = pressures.into_iter().zip(drawn(trial, &flows)?).collect();
        Nozzle::from_points("n", &points)
    };
    let exponent = share_that_holds(count, number(0.5), |trial| ends(fitted(trial)?.exponent()));
    all.push(("exponent of 4 points", exponent));
    all.push(("flow outside of 4 points", share_that_holds(count, truth, |trial| ends(&fitted(trial)?.flow_at(&at)?))));
    let hours = [0.0, 10.0, 20.0, 30.0, 40.0].map(|hours| Time::from_minutes(hours * 60.0).unwrap());
    let worn: Vec<_> = hours
        .iter()
        .enumerate()
        .map(|(i, time)| {
            let flow = Flow::from_liters_per_minute(1.0 + time.minutes() / 60_000.0).unwrap();
            normal(&format!("flow {i}"), flow, 0.004)
        })
        .collect();
    let limit = Flow::from_liters_per_minute(1.1).unwrap();
    let foretold = share_that_holds(count, Time::from_minutes(6000.0).unwrap(), |trial| {
        let points: Vec<_> = hours.into_iter().zip(drawn(trial, &worn)?).collect();
        let worn = Wear::from_flows(&points)?.reaches(limit, percent(95.0))?;
        // Where nothing is foretold, nothing is wrong.
        Ok(worn.map_or((Time::ZERO, Time::from_minutes(1e9)?), |worn| (worn.earliest, worn.latest)))
    });
    all.push(("hour of wear from 5 flows", foretold));
    let catches = readings("catch", half, 0.03, 20);
    let stopped = share_that_holds(count, half, |trial| {
        let all = drawn(trial, &catches)?;
        let enough = |n: &usize| {
            let mean = Uncertain::from_repeats("catch", &all[..*n]).unwrap();
            is_settled(&mean, percent(4.0), percent(95.0)).unwrap()
        };
        let n = (3..=all.len()).find(enough).unwrap_or(all.len());
        ends(&Uncertain::from_repeats("catch", &all[..n])?)
    });
    all.push(("stopped at the first 4 %", stopped));
    all
}

fn tabulated(count: u32) -> BTreeMap<&'static str, f64> {
    let all = coverages(count);
    for (name, share) in &all {
        println!("{count} x {name}: {:.2} %", share * 100.0);
    }
    all.into_iter().collect()
}

/// What must hold in any number of calibrations, within three standard deviations of the binomial law.
fn assert_coverages(count: u32) -> BTreeMap<&'static str, f64> {
    let table = tabulated(count);
    let slack = 3.0 * (0.95 * 0.05 / f64::from(count)).sqrt();
    for exact in ["3 catches", "5 catches", "10 catches", "exponent of 4 points", "hour of wear from 5 flows"] {
        assert_near(exact, table[exact], 0.95, slack.max(0.002));
    }
    // Linear in what is known by one scatter, but for the bend of an exponential.
    assert_near("flow outside of 4 points", table["flow outside of 4 points"], 0.95, slack + 0.003);
    assert_near("clock shared", table["3 catches, clock shared"], 0.95, slack + 0.001);
    // Effective degrees of freedom are an approximation: within half a percent here.
    assert!(table["3 catches by a jug, 3 runs, tape"] > 0.945 - slack);
    assert!(table["5 catches by a jug, 5 runs, tape"] > 0.945 - slack);
    assert!(table["3 catches, clock taken for two"] > 0.96);
    // Stopping at luck costs, as the documentation of `is_settled` says.
    assert!(table["stopped at the first 4 %"] < 0.95 && table["stopped at the first 4 %"] > 0.85);
    table
}

#[test]
fn intervals_of_calibrations_hold_the_truth_as_often_as_they_say() {
    assert_coverages(4_000);
}

#[test]
#[ignore = "takes half a minute: for the patient"]
fn intervals_of_many_calibrations_hold_the_truth_as_often_as_they_say() {
    let table = assert_coverages(100_000);
    for repeats in ["3 catches", "5 catches", "10 catches"] {
        assert!((0.945..=0.955).contains(&table[repeats]), "{repeats}");
    }
}

/// First order against simulation where both apply: uncertainties of a few percent, every way of combining them.
#[test]
fn first_order_agrees_with_simulation() -> Outcome {
    let volume = normal("catch", Volume::read("0.6 L")?, 0.02);
    let clock = normal("clock", number(1.0), 0.03);
    let time = Uncertain::exact(Time::read("30 s")?)?.times::<_, Time>(&clock)?;
    let run = Uncertain::exact(Time::read("45 s")?)?.times::<_, Time>(&clock)?;
    let course = Uncertain::from_tolerance("tape", Length::read("50 m")?, Length::read("1 m")?)?;
    let swath = Uncertain::from_tolerance("swath", Length::read("1 m")?, Length::read("0.05 m")?)?;
    let calibration = Calibration::from_timed_course(&volume, &time, &course, &run, &swath)?;
    let simulated = simulate(200_000, 11, |trial| {
        let flow = trial.of(&volume)? / trial.of(&time)?;
        let speed = trial.of(&course)? / trial.of(&run)?;
        volume_rate(flow, speed, trial.of(&swath)?)
    })?;
    let compare = |what: &str, first: f64, simulated: f64| assert_near(what, simulated / first, 1.0, 0.012);
    let rate = calibration.volume_rate();
    let per_hectare = VolumeRate::liters_per_hectare;
    compare("R", per_hectare(rate.value()), per_hectare(simulated.mean().unwrap()));
    compare("u(R)", per_hectare(rate.standard_uncertainty()), per_hectare(simulated.standard_uncertainty().unwrap()));

    let gauge = normal("gauge", Pressure::read("200 kPa")?, 0.05);
    let exponent = normal("exponent", number(0.48), 0.03);
    let table = normal("table", Flow::read("1.2 L/min")?, 0.02);
    let nozzle = Nozzle::new(&table, &exact("300 kPa"))?.with_exponent(&exponent)?;
    let simulated = simulate(200_000, 12, |trial| {
        let part = (trial.of(&gauge)? / Pressure::from_kilopascals(300.0)?).number();
        Ok(trial.of(&table)? * part.powf(trial.of(&exponent)?.number()))
    })?;
    let flow = nozzle.flow_at(&gauge)?;
    let per_minute = Flow::liters_per_minute;
    compare("q", per_minute(flow.value()), per_minute(simulated.mean().unwrap()));
    compare("u(q)", per_minute(flow.standard_uncertainty()), per_minute(simulated.standard_uncertainty().unwrap()));

    let speeds =
        [4.0, 5.0, 6.5].map(|v| normal(&format!("run {v}"), Speed::from_kilometers_per_hour(v).unwrap(), 0.04));
    let mean = Uncertain::harmonic_mean(&speeds)?;
    let simulated = simulate(200_000, 13, |trial| {
        let speeds = [trial.of(&speeds[0])?, trial.of(&speeds[1])?, trial.of(&speeds[2])?];
        let sum: f64 = speeds.iter().map(|v| 1.0 / v.kilometers_per_hour()).sum();
        Speed::from_kilometers_per_hour(3.0 / sum)
    })?;
    let per_hour = Speed::kilometers_per_hour;
    compare("v", per_hour(mean.value()), per_hour(simulated.mean().unwrap()));
    compare("u(v)", per_hour(mean.standard_uncertainty()), per_hour(simulated.standard_uncertainty().unwrap()));

    // The probability of passing a limit, by count.
    let dose = delivered_liquid_dose(&normal("jug", Volume::read("150 mL")?, 0.03), &exact("15 L"), rate)?;
    let limit = dose.value() * 1.05;
    let simulated = simulate(200_000, 14, |trial| Ok(number(if trial.of(&dose)? > limit { 1.0 } else { 0.0 })))?;
    // Swath and tape are rectangular: their sum with the others is not quite normal.
    assert_near("P", simulated.mean().unwrap().number(), dose.probability_over(limit).number(), 0.008);
    Ok(())
}
