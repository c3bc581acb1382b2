//! Published worked examples: each is worked out by the algebra of quantities, and the questions about products, loads and
//! fractions once more through the typed kinds that a user would reach for.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test fails by panicking")]

use std::collections::BTreeMap;

use mixcalc::*;
use mixcalc_tests::{is_within, run, text};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "the other fields are for readers")]
struct Example {
    id: String,
    topic: String,
    source: Source,
    question: String,
    inputs: BTreeMap<String, Amount>,
    stated: BTreeMap<String, Stated>,
    stated_rounding: String,
    formula: String,
    derive: BTreeMap<String, String>,
    recomputed: BTreeMap<String, f64>,
    verdict: String,
    test_abs_tol: BTreeMap<String, Option<f64>>,
    note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "the source is for readers")]
struct Source {
    publisher: String,
    title: String,
    url: Option<String>,
    year: Option<u32>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Amount {
    value: f64,
    unit: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "the tolerance already holds the resolution")]
struct Stated {
    value: f64,
    unit: String,
    resolution: f64,
}

fn examples() -> Vec<Example> {
    let examples: Vec<Example> = serde_json::from_str(&text("worked-examples")).unwrap();
    assert_eq!(examples.len(), 101);
    examples
}

/// The units of the examples: how many of which unit each name is. Without "imp", the measures are US customary.
const UNITS: &[(&str, f64, &str)] = &[
    ("1", 1.0, "1"),
    ("%", 1.0, "%"),
    ("ppm", 1e-4, "%"),
    ("m", 1.0, "m"),
    ("cm", 1.0, "cm"),
    ("ft", 1.0, "ft"),
    ("in", 1.0, "in"),
    ("m2", 1.0, "m2"),
    ("acre", 1.0, "ac"),
    ("sqft", 1.0, "ft2"),
    ("ksqft", 1000.0, "ft2"),
    ("sqrod", 272.25, "ft2"), // a rod is 16.5 ft
    ("L", 1.0, "L"),
    ("mL", 1.0, "mL"),
    ("m3", 1.0, "m3"),
    ("cuft", 1.0, "ft3"),
    ("gal", 1.0, "US gal"),
    ("qt", 1.0, "US qt"),
    ("floz", 1.0, "US fl oz"),
    ("tsp", 1.0, "US tsp"),
    ("kg", 1.0, "kg"),
    ("g", 1.0, "g"),
    ("lb", 1.0, "lb"),
    ("oz", 1.0, "oz av"),
    ("s", 1.0, "s"),
    ("min", 1.0, "min"),
    ("degC", 1.0, "°C"),
    ("degF", 1.0, "°F"),
    ("K", 1.0, "K"),
    ("psi", 1.0, "psi"),
    ("bar", 1.0, "bar"),
    ("kPa", 1.0, "kPa"),
    ("km/h", 1.0, "km/h"),
    ("mph", 1.0, "mph"),
    ("L/min", 1.0, "L/min"),
    ("gpm", 1.0, "US gal/min"),
    ("L/ha", 1.0, "L/ha"),
    ("mL/ha", 1.0, "mL/ha"),
    ("mL/m2", 1.0, "mL/m2"),
    ("L/acre", 1.0, "L/ac"),
    ("gpa", 1.0, "US gal/ac"),
    ("gal/acre", 1.0, "US gal/ac"),
    ("gal/ha", 1.0, "US gal/ha"),
    ("qt/acre", 1.0, "US qt/ac"),
    ("pt/acre", 1.0, "US pt/ac"),
    ("impfloz/acre", 1.0, "imp fl oz/ac"),
    ("qt/ksqft", 1.0, "US qt/1000 ft2"),
    ("tbsp/ksqft", 1.0, "US tbsp/1000 ft2"),
    ("gal/kcuft", 1.0, "US gal/1000 ft3"),
    ("kg/ha", 1.0, "kg/ha"),
    ("kg/m2", 1.0, "kg/m2"),
    ("g/m2", 1.0, "g/m2"),
    ("lb/acre", 1.0, "lb/ac"),
    ("lb/sqft", 1.0, "lb/ft2"),
    ("oz/sqyd", 1.0, "oz av/yd2"),
    ("g/L", 1.0, "g/L"),
    ("mg/L", 1.0, "mg/L"),
    ("kg/L", 1.0, "kg/L"),
    ("g/gal", 1.0, "g/US gal"),
    ("oz/gal", 1.0, "oz av/US gal"),
    ("lb/gal", 1.0, "lb/US gal"),
    ("lb/cgal", 1.0, "lb/100 US gal"),
    ("lb/impgal", 1.0, "lb/imp gal"),
    ("kg/m", 1.0, "kg/m"),
    ("lb/ft", 1.0, "lb/ft"),
];

fn unit(name: &str) -> (f64, &'static str) {
    let (_, count, unit) =
        UNITS.iter().find(|(known, ..)| *known == name).unwrap_or_else(|| panic!("no unit is called {name}"));
    (*count, unit)
}

fn quantity(value: f64, name: &str) -> Quantity {
    let (count, unit) = unit(name);
    Quantity::from_parts(value * count, unit).unwrap()
}

fn value(quantity: Quantity, name: &str) -> f64 {
    let (count, unit) = unit(name);
    quantity.to(unit).unwrap() / count
}

// ------------------------------------------------------------------------------------------------ the expressions

/// An expression over quantities, read from left to right: sums of products of parts.
struct Expression<'a> {
    rest: &'a str,
    names: &'a BTreeMap<String, Quantity>,
}

fn evaluate(text: &str, names: &BTreeMap<String, Quantity>) -> Quantity {
    let mut expression = Expression { rest: text, names };
    let sum = expression.sum();
    assert_eq!(expression.rest, "", "left over in {text}");
    sum
}

impl<'a> Expression<'a> {
    fn sum(&mut self) -> Quantity {
        let mut sum = self.product();
        loop {
            sum = match self.take(&['+', '-']) {
                Some('+') => sum.plus(self.product()).unwrap(),
                Some(_) => sum.minus(self.product()).unwrap(),
                None => return sum,
            }
        }
    }

    fn product(&mut self) -> Quantity {
        let mut product = self.part();
        loop {
            product = match self.take(&['*', '/']) {
                Some('*') => product.times(self.part()).unwrap(),
                Some(_) => product.over(self.part()).unwrap(),
                None => return product,
            }
        }
    }

    /// A number, a name, a function of arguments, or a sum in parentheses.
    fn part(&mut self) -> Quantity {
        if self.take(&['(']).is_some() {
            let sum = self.sum();
            self.take(&[')']).unwrap();
            return sum;
        }
        let word = self.word();
        if let Ok(number) = word.parse() {
            return quantity(number, "1");
        }
        if self.take(&['(']).is_none() {
            return match word {
                "pi" => quantity(std::f64::consts::PI, "1"),
                name => self.names[name],
            };
        }
        let result = match word {
            "u" => {
                self.take(&['\'']).unwrap();
                let unit = quantity(1.0, self.word());
                self.take(&['\'']).unwrap();
                unit
            }
            "sqrt" => self.sum().power(1, 2).unwrap(),
            "rh_from_wetbulb" => {
                let (air, wet) = self.two_arguments();
                relative_humidity(celsius(air), celsius(wet))
            }
            "delta_t_empirical" => {
                let (air, humidity) = self.two_arguments();
                delta_t(celsius(air), humidity.to("%").unwrap())
            }
            other => panic!("no function is called {other}"),
        };
        self.take(&[')']).unwrap();
        result
    }

    fn two_arguments(&mut self) -> (Quantity, Quantity) {
        let first = self.sum();
        self.take(&[',']).unwrap();
        (first, self.sum())
    }

    fn take(&mut self, any: &[char]) -> Option<char> {
        let next = self.rest.chars().next().filter(|c| any.contains(c))?;
        self.rest = &self.rest[next.len_utf8()..];
        Some(next)
    }

    fn word(&mut self) -> &'a str {
        let end =
            self.rest.find(|c: char| !c.is_ascii_alphanumeric() && !matches!(c, '_' | '.')).unwrap_or(self.rest.len());
        let (word, rest) = self.rest.split_at(end);
        self.rest = rest;
        word
    }
}

fn celsius(temperature: Quantity) -> f64 {
    temperature.to("°C").unwrap()
}

/// Saturation pressure of water vapour over water in kPa, as the WMO guide to instruments and methods of observation gives it.
fn saturation_pressure(celsius: f64) -> f64 {
    0.6112 * (17.62 * celsius / (celsius + 243.12)).exp()
}

/// Relative humidity from a ventilated psychrometer (FAO irrigation and drainage paper 56) in the standard atmosphere.
fn relative_humidity(air: f64, wet: f64) -> Quantity {
    let vapour = saturation_pressure(wet) - 6.62e-4 * 101.325 * (air - wet);
    quantity(100.0 * vapour / saturation_pressure(air), "%")
}

/// Air less wet-bulb temperature by the one-line fit of J. Appl. Meteor. Climatol. 50(11), 2267-2269, 2011.
fn delta_t(air: f64, humidity: f64) -> Quantity {
    let wet = air * (0.151_977 * (humidity + 8.313_659).sqrt()).atan() + (air + humidity).atan()
        - (humidity - 1.676_331).atan()
        + 0.003_918_38 * humidity.powf(1.5) * (0.023_101 * humidity).atan()
        - 4.686_035;
    quantity(air - wet, "K")
}

#[test]
fn every_published_example_is_worked_out_by_the_algebra_of_quantities() {
    let examples = examples();
    run(
        "worked-examples.json",
        &examples,
        |example| &example.id,
        |example| {
            let mut names: BTreeMap<String, Quantity> =
                example.inputs.iter().map(|(name, input)| (name.clone(), quantity(input.value, &input.unit))).collect();
            let mut answers = example.derive.len();
            assert_eq!(example.derive.len(), example.stated.len(), "{}", example.id);
            // An answer may be an input of another one, whatever their order: those that lack a name wait for a round.
            while answers > 0 {
                let ready: Vec<&String> = example
                    .derive
                    .keys()
                    .filter(|name| !names.contains_key(*name) && can_evaluate(&example.derive[*name], &names))
                    .collect();
                assert!(!ready.is_empty(), "{}: an expression names something unknown", example.id);
                for name in ready {
                    let answer = evaluate(&example.derive[name], &names);
                    check(example, name, value(answer, &example.stated[name].unit))?;
                    names.insert(name.clone(), answer);
                    answers -= 1;
                }
            }
            Ok(())
        },
    );
}

fn can_evaluate(expression: &str, names: &BTreeMap<String, Quantity>) -> bool {
    const FUNCTIONS: &[&str] = &["pi", "sqrt", "u", "acre", "rh_from_wetbulb", "delta_t_empirical"];
    expression
        .split(|c: char| !c.is_ascii_alphanumeric() && !matches!(c, '_' | '.'))
        .filter(|word| word.starts_with(|c: char| c.is_ascii_alphabetic()))
        .all(|word| FUNCTIONS.contains(&word) || names.contains_key(word))
}

/// Compares an answer with the exact one, and with the printed one where that is right.
fn check(example: &Example, name: &str, actual: f64) -> Result<(), String> {
    let (exact, printed) = (example.recomputed[name], example.stated[name].value);
    let is_exact = is_within(actual, exact, 1e-7);
    let is_printed = example.test_abs_tol[name].is_none_or(|tolerance| (actual - printed).abs() <= tolerance);
    if is_exact && is_printed {
        Ok(())
    } else {
        Err(format!("{name} is {actual:?}; exact {exact:?}, printed {printed:?}"))
    }
}

// ------------------------------------------------------------------------------------------ through the typed kinds

/// Compares the answers that a user's lines gave, each stated in the unit of the example, with the published example.
fn answers(id: &str, answers: &[(&str, f64)]) {
    let examples = examples();
    let example = examples.iter().find(|example| example.id == id).unwrap();
    assert_eq!(answers.len(), example.derive.len(), "{id}: {}", example.question);
    for (name, actual) in answers {
        check(example, name, *actual).unwrap_or_else(|error| panic!("{id}: {error}"));
    }
}

type Tested = Result<(), Error>;

#[test]
fn we_042_total_spray_of_an_area() -> Tested {
    let total = Area::from_acres(30.0)? * VolumeRate::read("40 L/ac")?;
    answers("we-042", &[("total", total.liters())]);
    Ok(())
}

#[test]
fn we_059_solution_that_supplies_a_nutrient() -> Tested {
    let nitrogen = MassPerArea::from_pounds_per_acre(75.0)?;
    let content = MassFraction::from_percent(28.0)? * Density::from_pounds_per_us_gallon(10.65)?;
    let content = Quantity::of(content).to("lb/US gal")?;
    let rate = nitrogen / Content::from_pounds_per_us_gallon(content)?;
    let rate = rate.as_volume_rate().us_gallons_per_acre();
    answers("we-059", &[("conc", content), ("rate", rate)]);
    Ok(())
}

#[test]
fn we_061_powder_in_a_weaker_dust() -> Tested {
    let (dust, strength) = (Mass::from_pounds(10.0)?, MassFraction::from_percent(5.0)?);
    let powder = strength * dust / MassFraction::from_percent(80.0)?;
    answers(
        "we-061",
        &[("powder", powder.pounds()), ("powder_oz", powder.ounces_avoirdupois()), ("talc", (dust - powder).pounds())],
    );
    Ok(())
}

#[test]
fn we_064_dust_for_its_active_substance() -> Tested {
    let dust = MassPerArea::from_pounds_per_acre(10.0)? / MassFraction::from_percent(5.0)?;
    answers("we-064", &[("dust", dust.as_solid_dose().pounds_per_acre())]);
    Ok(())
}

#[test]
fn we_069_powder_for_its_active_substance() -> Tested {
    let powder = MassPerArea::from_pounds_per_acre(3.0)? / MassFraction::from_percent(80.0)?;
    answers("we-069", &[("product", powder.as_solid_dose().pounds_per_acre())]);
    Ok(())
}

#[test]
fn we_075_nutrient_in_a_tank() -> Tested {
    let nitrogen = MassFraction::from_percent(15.0)? * Mass::from_ounces_avoirdupois(1.0)?;
    let concentration = nitrogen / Volume::from_us_gallons(100.0)?;
    answers("we-075", &[("ppm", Quantity::of(concentration).to("ppm w/v")?)]);
    Ok(())
}

#[test]
fn we_077_two_salts_that_share_a_nutrient() -> Tested {
    let half = MassConcentration::read("150 ppm w/v")? * Volume::from_us_gallons(100.0)?;
    let salt = |percent| Ok::<_, Error>((half / MassFraction::from_percent(percent)?).ounces_avoirdupois());
    answers("we-077", &[("m1", salt(33.0)?), ("m2", salt(15.0)?)]);
    Ok(())
}

#[test]
fn we_079_dose_per_volume_as_dose_per_area() -> Tested {
    let dose = MassConcentration::read("2.8 kg/500 L")? * VolumeRate::from_liters_per_hectare(750.0)?;
    answers("we-079", &[("rate", dose.kilograms_per_hectare())]);
    Ok(())
}

#[test]
fn we_080_surfactant_in_a_tank() -> Tested {
    let surfactant = VolumeFraction::from_percent(0.2)? * Volume::from_liters(500.0)?;
    answers("we-080", &[("adj", surfactant.liters())]);
    Ok(())
}

#[test]
fn we_082_ground_and_powder_of_a_tank() -> Tested {
    let area = Volume::from_us_gallons(400.0)? / VolumeRate::from_us_gallons_per_acre(20.0)?;
    let active = MassPerArea::from_pounds_per_acre(3.0)? * area;
    let powder = active / MassFraction::from_percent(70.0)?;
    answers("we-082", &[("acres", area.acres()), ("ai_tank", active.pounds()), ("product", powder.pounds())]);
    Ok(())
}

#[test]
fn we_097_liquid_for_its_active_substance() -> Tested {
    let product = MassPerArea::from_kilograms_per_hectare(3.0)? / Content::read("35 % w/v")?;
    answers("we-097", &[("p", product.as_liquid_dose().liters_per_hectare())]);
    Ok(())
}

/// Pints per acre of a liquid product, from pounds per acre of its active substance and pounds per gallon in it.
fn pints_per_acre(active: f64, content: f64) -> Result<f64, Error> {
    let product = MassPerArea::from_pounds_per_acre(active)? / Content::from_pounds_per_us_gallon(content)?;
    Ok(product.as_liquid_dose().us_pints_per_acre())
}

#[test]
fn we_101_pints_of_a_product_with_2_64_pounds_per_gallon() -> Tested {
    answers("we-101", &[("pints", pints_per_acre(0.25, 2.64)?)]);
    Ok(())
}

#[test]
fn we_103_pints_of_a_product_with_3_pounds_per_gallon() -> Tested {
    answers("we-103", &[("pints", pints_per_acre(0.25, 3.0)?)]);
    Ok(())
}

#[test]
fn we_105_pints_of_a_product_with_3_34_pounds_per_gallon() -> Tested {
    answers("we-105", &[("pints", pints_per_acre(0.5, 3.34)?)]);
    Ok(())
}

#[test]
fn we_107_pints_of_a_product_with_5_pounds_per_gallon() -> Tested {
    answers("we-107", &[("pints", pints_per_acre(1.5, 5.0)?)]);
    Ok(())
}

#[test]
fn we_109_pints_of_a_product_with_6_7_pounds_per_gallon() -> Tested {
    answers("we-109", &[("pints", pints_per_acre(1.5, 6.7)?)]);
    Ok(())
}

#[test]
fn we_111_pints_of_a_product_with_7_pounds_per_gallon() -> Tested {
    answers("we-111", &[("pints", pints_per_acre(2.0, 7.0)?)]);
    Ok(())
}

#[test]
fn we_116_liquid_for_a_percentage_by_weight() -> Tested {
    let water = Density::from_pounds_per_us_gallon(8.34)? * Volume::from_us_gallons(100.0)?;
    let active = MassFraction::from_percent(1.0)? * water;
    let product = active / Content::from_pounds_per_us_gallon(1.0)?;
    answers("we-116", &[("p", product.us_gallons())]);
    Ok(())
}

#[test]
fn we_220_percent_by_weight_as_parts_per_million_and_in_pounds() -> Tested {
    let share = MassFraction::from_percent(1.0)?;
    let water = Density::from_pounds_per_us_gallon(8.34)? * Volume::from_us_gallons(100.0)?;
    answers("we-220", &[("ppm", Quantity::of(share).to("ppm w/w")?), ("lb", (share * water).pounds())]);
    Ok(())
}

#[test]
fn we_237_powder_of_a_full_and_a_part_load() -> Tested {
    let dose = MassConcentration::read("2 lb/100 US gal")?;
    let load = |gallons| Ok::<_, Error>(dose * Volume::from_us_gallons(gallons)?);
    answers("we-237", &[("p1", load(300.0)?.pounds()), ("p2", load(20.0)?.ounces_avoirdupois())]);
    Ok(())
}

#[test]
fn we_240_tank_over_test_volume() -> Tested {
    let times = Volume::from_liters(15.0)? / Volume::from_liters(5.0)?;
    answers("we-240", &[("mult", times.number())]);
    Ok(())
}

/// The topics that are about products, loads and fractions, each of whose examples has its typed answer above.
const TYPED_TOPICS: &[&str] = &["total-product", "tank-loads", "part-load", "percent-vv", "ppm", "ai-conversion"];

#[test]
fn every_example_about_products_and_loads_has_a_typed_answer() {
    let source = include_str!("worked_examples.rs");
    let examples = examples();
    let mut about = examples.iter().filter(|example| TYPED_TOPICS.contains(&example.topic.as_str()));
    assert_eq!(about.clone().count(), 21);
    assert!(about.all(|example| source.contains(&format!("fn {}_", example.id.replace('-', "_")))));
}
