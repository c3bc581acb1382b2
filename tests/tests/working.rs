//! The working of every number of a plan: each formula, evaluated on its stated inputs, gives the number; each input is a number of
//! the job, of the plan or of another working; each number of the plan document has one working, and nothing else has.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::float_cmp,
    clippy::cast_precision_loss,
    reason = "a test fails by panicking, and compares exact doubles"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::iter::Peekable;
use std::str::Chars;

use mixcalc::*;
use mixcalc_tests::jobs::sketches;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};
use serde_json::Value;

// ---------------------------------------------------------------------------------------------------------- evaluation

/// Closeness of `docs/numbers.md`, section 1.
const CLOSE: f64 = 1e-12;
/// A difference may be off by this much of its largest term.
const DIFFERENCE: f64 = 4e-12;

/// A number on the way: in coherent units, without its kind, so that a dose and a rate may be added where a formula does.
#[derive(Clone, Copy, Debug)]
struct Number {
    quantity: Quantity,
    /// The size of the largest term of a difference on the way here, brought through the operations since; 0 where there was none.
    difference: f64,
}

fn without_kind(quantity: Quantity) -> Quantity {
    let bare = quantity.claim_kind(Kind::Derived).unwrap();
    if quantity.dimension() == Dimension::NONE { bare.claim_kind(Kind::Ratio).unwrap() } else { bare }
}

fn si(quantity: Quantity) -> f64 {
    match quantity.dimension() {
        Dimension::NONE => without_kind(quantity).number().unwrap(),
        _ => without_kind(quantity).to_parts().0,
    }
}

fn ratio(number: f64) -> Quantity {
    Ratio::from_number(number).unwrap().into()
}

impl Number {
    fn new(quantity: Quantity) -> Self {
        Self { quantity: without_kind(quantity), difference: 0.0 }
    }

    fn of(worked: Worked) -> Self {
        Self::new(match worked {
            Worked::Quantity(quantity) => quantity,
            Worked::Count(count) => ratio(count as f64),
            _ => panic!("{worked:?}"),
        })
    }

    fn si(self) -> f64 {
        si(self.quantity)
    }

    /// A bare 0 is none of anything.
    fn like(self, other: Self) -> Self {
        if self.si() == 0.0 && self.quantity.dimension() == Dimension::NONE {
            let none = other.quantity.times(ratio(0.0)).unwrap();
            Self { quantity: without_kind(none), ..self }
        } else {
            self
        }
    }

    fn apply(self, operator: char, other: Self) -> Result<Self, Error> {
        let (a, b) = (self.si(), other.si());
        let (quantity, difference) = match operator {
            '*' => {
                let difference = (self.difference * b).abs().max((other.difference * a).abs());
                (self.quantity.times(other.quantity)?, difference)
            }
            '/' => {
                let quotient = self.quantity.over(other.quantity)?;
                (quotient, (self.difference / b).abs().max((other.difference * a / b / b).abs()))
            }
            _ => {
                let (this, that) = (self.like(other), other.like(self));
                let before = self.difference.max(other.difference);
                if operator == '+' {
                    (this.quantity.plus(that.quantity)?, before)
                } else {
                    (this.quantity.minus(that.quantity)?, before.max(a.abs()).max(b.abs()))
                }
            }
        };
        Ok(Self { quantity: without_kind(quantity), difference })
    }

    fn call(name: &str, arguments: &[Self]) -> Result<Self, String> {
        match (name, arguments) {
            ("min" | "max", [a, b]) => {
                let (a, b) = (a.like(*b), b.like(*a));
                let order = a.quantity.compare(b.quantity).map_err(|error| error.to_string())?;
                Ok(if order.is_lt() == (name == "min") { a } else { b })
            }
            ("div", [a, b]) => {
                let count = |x: &Self| x.quantity.number().map_err(|error| error.to_string());
                Ok(Self::new(ratio((count(a)? / count(b)?).floor())))
            }
            ("steps_down" | "steps_up" | "steps_nearest", [x]) => {
                let x = x.quantity.number().map_err(|error| error.to_string())?;
                Ok(Self::new(ratio(steps(name, x))))
            }
            _ => Err(format!("{name} of {} is no function", arguments.len())),
        }
    }
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= CLOSE * a.abs().max(b.abs())
}

fn steps(name: &str, x: f64) -> f64 {
    let nearest = x.round();
    let down = if close(x, nearest) { nearest } else { x.floor() };
    match name {
        "steps_down" => down,
        "steps_up" if close(x, nearest) => nearest,
        "steps_up" => x.ceil(),
        _ if x > down + 0.5 && !close(x, down + 0.5) => down + 1.0,
        _ => down,
    }
}

/// A formula that is being evaluated, by descent: sums of products of factors.
struct Reader<'text> {
    rest: &'text str,
    inputs: BTreeMap<String, Number>,
    used: BTreeSet<&'text str>,
}

impl<'text> Reader<'text> {
    fn next(&mut self, wanted: &[char]) -> Option<char> {
        self.rest = self.rest.trim_start();
        let found = self.rest.chars().next().filter(|c| wanted.contains(c))?;
        self.rest = &self.rest[1..];
        Some(found)
    }

    fn word(&mut self) -> &'text str {
        self.rest = self.rest.trim_start();
        let end = |c: char| !(c.is_ascii_alphanumeric() || c == '_' || c == '.');
        let (word, rest) = self.rest.split_at(self.rest.find(end).unwrap_or(self.rest.len()));
        self.rest = rest;
        word
    }

    fn sum(&mut self) -> Result<Number, String> {
        let mut sum = self.product()?;
        while let Some(sign) = self.next(&['+', '-']) {
            sum = sum.apply(sign, self.product()?).map_err(|error| error.to_string())?;
        }
        Ok(sum)
    }

    fn product(&mut self) -> Result<Number, String> {
        let mut product = self.factor()?;
        while let Some(sign) = self.next(&['*', '/']) {
            product = product.apply(sign, self.factor()?).map_err(|error| error.to_string())?;
        }
        Ok(product)
    }

    fn factor(&mut self) -> Result<Number, String> {
        if self.next(&['(']).is_some() {
            let inside = self.sum()?;
            return self.closed(inside);
        }
        let word = self.word();
        if let Ok(number) = word.parse() {
            return Ok(Number::new(ratio(number)));
        }
        if self.next(&['(']).is_some() {
            let mut arguments = vec![self.sum()?];
            while self.next(&[',']).is_some() {
                arguments.push(self.sum()?);
            }
            return Number::call(word, &arguments).and_then(|value| self.closed(value));
        }
        self.used.insert(word);
        self.inputs.get(word).copied().ok_or(format!("no input {word:?}"))
    }

    fn closed(&mut self, value: Number) -> Result<Number, String> {
        self.next(&[')']).map(|_| value).ok_or(format!("no ) before {:?}", self.rest))
    }
}

/// What a formula gives. Every input stands in it.
fn evaluated(working: &Working, formula: &str) -> Result<Number, String> {
    let inputs = working.inputs().iter();
    let inputs: BTreeMap<_, _> = inputs.map(|i| (i.symbol().to_owned(), Number::of(i.value()))).collect();
    if inputs.len() != working.inputs().len() {
        return Err("two inputs of one symbol".into());
    }
    let mut reader = Reader { rest: formula, inputs, used: BTreeSet::new() };
    let value = reader.sum()?;
    if !reader.rest.is_empty() {
        return Err(format!("{:?} is left", reader.rest));
    }
    if reader.used.len() != reader.inputs.len() {
        return Err(format!("only {:?} stand in it", reader.used));
    }
    Ok(value)
}

/// Whether a formula gives the number of a working on its inputs.
fn check_formula(working: &Working, formula: &str) -> Result<(), String> {
    let value = Number::of(working.value());
    let given = evaluated(working, formula)?.like(value);
    if given.quantity.dimension() != value.quantity.dimension() {
        return Err(format!("gives {:?}", given.quantity));
    }
    let tolerance = (CLOSE * value.si().abs()).max(DIFFERENCE * given.difference);
    let is_close = match working.value() {
        Worked::Count(_) => given.si() == value.si(),
        _ => (given.si() - value.si()).abs() <= tolerance,
    };
    is_close.then_some(()).ok_or(format!("gives {:?}, not {:?}", given.quantity, value.quantity))
}

// ----------------------------------------------------------------------------------------------------------- documents

/// The numbers of a document by their places: quantities, counts, and bare fractions or percents.
fn numbers(place: &str, value: &Value, found: &mut BTreeMap<String, Value>) {
    match value {
        Value::Object(table) if table.len() == 2 && table.contains_key("unit") => {
            found.insert(place.into(), value.clone());
        }
        Value::Object(table) => {
            for (key, value) in table {
                let dot = if place.is_empty() { "" } else { "." };
                numbers(&format!("{place}{dot}{key}"), value, found);
            }
        }
        Value::Array(list) => {
            for (i, value) in list.iter().enumerate() {
                numbers(&format!("{place}[{i}]"), value, found);
            }
        }
        Value::Number(_) => {
            found.insert(place.into(), value.clone());
        }
        _ => {}
    }
}

/// Whether a number of a document is a number of a working. `times` is what a bare number counts a ratio in.
fn is_same(stated: &Value, worked: Worked, times: f64) -> bool {
    match worked {
        #[allow(clippy::cast_precision_loss, reason = "counts stay below 2^53")]
        Worked::Count(count) => stated.as_f64() == Some(count as f64),
        Worked::Quantity(quantity) if stated.is_number() => {
            quantity.kind() == Kind::Ratio && stated.as_f64() == Some(quantity.number().unwrap() * times)
        }
        Worked::Quantity(quantity) => {
            let (value, unit) = quantity.to_parts();
            stated["value"].as_f64() == Some(value) && stated["unit"] == *unit
        }
        _ => panic!("{worked:?}"),
    }
}

/// What `docs/numbers.md` gives the defaults.
fn check_advice(working: &Working) -> Result<(), String> {
    let (Worked::Quantity(_) | Worked::Count(_)) = working.value() else {
        return Err("no number".into());
    };
    let allowed: &[&str] = match working.place() {
        "advice.headspace" => &["10 %", "5 %"],
        "advice.first_carrier" => &["50 %"],
        "advice.rinses" => &["3"],
        "advice.rinse" => &["25 %"],
        "advice.container_rinses" => &["3"],
        "advice.small_container_rinse" => &["25 %"],
        "advice.large_container_rinse" => &["20 %"],
        "advice.hands" => &["15 L"],
        "advice.eyes" => &["22.71 L"],
        "advice.tank_rinse" => &["10 %"],
        "advice.residual_rinse" => &["10"],
        "advice.premix_parts" => &["2"],
        "advice.premix_density" => &["1 kg/L"],
        "advice.least_wait" => &["60 s"],
        "advice.most_wait" => &["5 min"],
        _ => &[],
    };
    let text = working.value().to_people(System::Metric);
    let is_known = allowed.contains(&text.as_str()) && working.formula().is_empty();
    is_known.then_some(()).ok_or(format!("{text} is no default"))
}

/// What the calculus of uncertainty or a table gives has no formula, and names its section; the witness works it out by itself.
fn check_statistic(working: &Working) -> Result<(), String> {
    let place = working.place();
    let is_of_calibration = ["standard_uncertainty", "degrees_of_freedom", "coverage_factor"]
        .iter()
        .any(|key| place == format!("calibration.{key}"))
        || place.starts_with("calibration.contributions[");
    let is_of_dose = place.ends_with(".delivered.probability_over") || place.ends_with(".delivered.aim");
    match (is_of_calibration || is_of_dose, place, working.source()) {
        (true, _, "docs/numbers.md, 11")
        | (_, "mix.calibration.density" | "mix.calibration.air", "docs/numbers.md, 15") => Ok(()),
        (_, place, "docs/numbers.md, 21") if place.ends_with(".uncertainty.percent") => Ok(()),
        (_, place, "docs/numbers.md, 23") if place.ends_with(".mix_uncertainty.percent") => Ok(()),
        (.., source) => Err(format!("has no formula, and names {source}")),
    }
}

/// Follows the inputs of a number down to the job and to defaults.
fn check_ends(place: &str, all: &BTreeMap<&str, &Working>, ended: &mut BTreeMap<String, bool>) -> Result<(), String> {
    match ended.get(place) {
        Some(true) => return Ok(()),
        Some(false) => return Err(format!("{place} is worked out from itself")),
        None => {}
    }
    ended.insert(place.into(), false);
    for input in all[place].inputs().iter().filter(|input| !input.place().starts_with("job.")) {
        check_ends(input.place(), all, ended)?;
    }
    ended.insert(place.into(), true);
    Ok(())
}

/// All that holds of the working of a plan. Adds the formulas that were met, without the numbers in their symbols and each term once.
fn check(plan: &Plan, formulas: &mut BTreeSet<String>) -> Result<(), String> {
    let document: Value = serde_json::from_str(&document::write_plan(plan)).unwrap();
    let (mut in_plan, mut in_job) = (BTreeMap::new(), BTreeMap::new());
    for (key, value) in document.as_object().unwrap() {
        match key.as_str() {
            "job" => numbers("job", value, &mut in_job),
            "findings" | "cautions" => {}
            _ => numbers(key, value, &mut in_plan),
        }
    }
    let workings = plan.working();
    let all: BTreeMap<&str, &Working> = workings.iter().map(|w| (w.place(), w)).collect();
    if all.len() != workings.len() {
        return Err("a place has two workings".into());
    }
    if let Some(place) = in_plan.keys().find(|place| !all.contains_key(place.as_str())) {
        return Err(format!("{place} has no working"));
    }
    let inputs = || workings.iter().flat_map(Working::inputs);
    let mut ended = BTreeMap::new();
    for working in &workings {
        let (place, text) = (working.place(), working.text(System::Metric));
        let wrong = |what: String| Err(format!("{text}\n    {what}"));
        let outcome = match in_plan.get(place) {
            Some(stated) if !is_same(stated, working.value(), if place.ends_with("percent") { 100.0 } else { 1.0 }) => {
                wrong(format!("the plan has {stated}"))
            }
            None if !place.starts_with("mix.") && !place.starts_with("advice.") => wrong("is not in the plan".into()),
            None if inputs().all(|input| input.place() != place) => wrong("is used by nothing".into()),
            _ if place.starts_with("advice.") => check_advice(working).or_else(wrong),
            _ if working.formula().is_empty() => check_statistic(working).or_else(wrong),
            _ => check_formula(working, working.formula()).or_else(wrong),
        };
        outcome?;
        for input in working.inputs() {
            let is_known = match in_job.get(input.place()) {
                Some(stated) => is_same(stated, input.value(), 1.0),
                None => all.get(input.place()).is_some_and(|of| of.value() == input.value()),
            };
            if !is_known {
                return wrong(format!("{} is not what stands at {}", input.symbol(), input.place()));
            }
        }
        check_ends(place, &all, &mut ended)?;
        formulas.insert(once_each(&without_numbers(working.formula())));
    }
    Ok(())
}

/// A formula with its symbols without the numbers at their ends: `n0 * v0` is `n * v`.
fn without_numbers(formula: &str) -> String {
    let mut text = String::new();
    for c in formula.chars() {
        let in_symbol = text.ends_with(|last: char| last.is_ascii_alphabetic()) || text.ends_with('\u{0}');
        match c {
            '0'..='9' if in_symbol => text.push('\u{0}'),
            '_' if text.ends_with('\u{0}') => {}
            _ => text.push(c),
        }
    }
    text.replace('\u{0}', "")
}

/// A formula with each term of a sum over products or loads once, whatever their number and order: `w - f - t * e - t * e` is
/// `w - f - t * e`.
fn once_each(formula: &str) -> String {
    let text = arguments(&mut formula.chars().peekable());
    let several = |text: String| text.replace("max(max(F, F), F)", "max(F, F)");
    several(several(text))
}

fn arguments(formula: &mut Peekable<Chars<'_>>) -> String {
    let (mut text, mut terms) = (String::new(), vec![String::new()]);
    while let Some(c) = formula.next_if(|c| *c != ')') {
        match c {
            '+' | '-' => terms.push(c.into()),
            ',' => text += &format!("{},", terms_once(&std::mem::replace(&mut terms, vec![String::new()]))),
            _ => terms.last_mut().unwrap().push(c),
        }
        if c == '(' {
            let inner = arguments(formula);
            *terms.last_mut().unwrap() += &inner;
            terms.last_mut().unwrap().extend(formula.next());
        }
    }
    text + &terms_once(&terms)
}

/// The first term, and those after it that are not the same once more, in one order.
fn terms_once(terms: &[String]) -> String {
    let (first, rest) = terms.split_first().unwrap();
    let first = first.trim_end();
    let rest: BTreeSet<String> = rest.iter().map(|term| term.trim_end().to_string()).collect();
    let again = format!("+ {}", first.trim_start());
    rest.iter().filter(|term| **term != again).fold(first.to_string(), |text, term| format!("{text} {term}"))
}

fn planned(job: &[u8]) -> Result<Plan, Error> {
    plan(&document::read_job(job)?)
}

fn demo() -> Plan {
    planned(include_bytes!("../../docs/examples/demo.toml")).unwrap()
}

// --------------------------------------------------------------------------------------------------------------- tests

#[test]
fn the_demo_job_shows_its_working() {
    check(&demo(), &mut BTreeSet::new()).unwrap_or_else(|error| panic!("{error}"));
}

#[test]
fn every_method_of_calibration_shows_its_working() {
    let example = |input: CalibrationInput| match input.name() {
        "flow" | "left" | "right" => r#"["4.9 L/min", "5.1 L/min"]"#,
        "speed" => r#""6 km/h""#,
        "swath" | "row_spacing" => r#"{ measured = "1.5 m", tolerance = "1 cm" }"#,
        "band" => r#""0.4 m""#,
        "catch" | "refill" | "filled" | "volume" => r#"{ measured = ["3 L", "3.1 L"], resolution = "10 mL" }"#,
        "catch_time" | "course_time" | "spot_time" => r#"{ measured = "20 s", tolerance = "2 %" }"#,
        "course" => r#""40 m""#,
        "area" | "spot" | "ground" => r#""100 m2""#,
        "residual" => r#""0.5 L""#,
        other => panic!("{other}"),
    };
    for method in CalibrationMethod::all() {
        let inputs = method.inputs().iter().map(|input| format!("{} = {}, ", input.name(), example(*input)));
        let alleys = if *method == CalibrationMethod::Alleys { "alleys = \"each-twice\", " } else { "" };
        let job = format!(
            r#"
                format = "mixcalc-job/1"
                area = "0.2 ha"
                calibration = {{ {inputs}{alleys}method = "{method}" }}
                passes = {{ swath = "6 m", length = "80 m" }}
                sprayer = {{ kind = "boom" }}
                tank = {{ nominal = "100 L" }}
                measures = [{{ kind = "vessel", capacity = "1 L", graduation = "1 mL" }}]
                products = [{{ name = "example product A", dose = "1 L/ha", density = "1 kg/L" }}]
            "#,
            inputs = inputs.collect::<String>(),
            method = method.name(),
        );
        let plan = planned(job.as_bytes()).unwrap_or_else(|error| panic!("{error}: {job}"));
        check(&plan, &mut BTreeSet::new()).unwrap_or_else(|wrong| panic!("{}: {wrong}", method.name()));
    }
}

#[test]
fn the_jobs_of_the_vectors_show_their_working() {
    let file: Value = serde_json::from_str(&mixcalc_tests::text("plan")).unwrap();
    let (mut plans, mut formulas) = (0, BTreeSet::new());
    for case in file["cases"].as_array().unwrap() {
        if let Ok(plan) = planned(case["job"].to_string().as_bytes()) {
            plans += 1;
            let id = &case["id"];
            check(&plan, &mut formulas).unwrap_or_else(|error| panic!("{id}: {error}"));
        }
    }
    println!("{plans} plans, {} formulas", formulas.len());
    assert!(plans >= 50, "{plans} plans");
}

#[test]
fn random_jobs_show_their_working() {
    let mut config = ProptestConfig::default();
    config.cases = config.cases.max(2000); // fewer do not meet every branch
    config.failure_persistence = None;
    if config.rng_seed == RngSeed::Random {
        config.rng_seed = RngSeed::Fixed(1);
    }
    let formulas = std::cell::RefCell::new(BTreeSet::new());
    let plans = std::cell::Cell::new((0, 0));
    let outcome = TestRunner::new(config).run(&sketches(), |sketch| {
        if let Ok(plan) = plan(&sketch.job().unwrap()) {
            let (usable, stopped) = plans.get();
            plans.set(if plan.usable() { (usable + 1, stopped) } else { (usable, stopped + 1) });
            check(&plan, &mut formulas.borrow_mut()).map_err(TestCaseError::fail)?;
        }
        Ok(())
    });
    if let Err(error) = outcome {
        panic!("{error}");
    }
    let (usable, stopped) = plans.get();
    let formulas = formulas.into_inner();
    println!("{usable} usable plans, {stopped} stopped, {} formulas", formulas.len());
    assert!(usable >= 1200 && stopped >= 20, "{usable} usable plans, {stopped} stopped");
    // Where several labels ask for a first carrier, each formula with one has a twin; a job with either will do.
    for branch in BRANCHES {
        let twin = branch.replace("max(F, F)", "F");
        assert!(formulas.contains(*branch) || formulas.contains(&twin), "no job has {branch}");
    }
    let is_known = |formula: &String| {
        [formula.clone(), formula.replace("max(F, F)", "F")].iter().any(|f| BRANCHES.contains(&f.as_str()))
    };
    let unknown: Vec<_> = formulas.iter().filter(|formula| !is_known(formula)).collect();
    assert!(unknown.is_empty(), "no branch is {unknown:?}");
}

/// The formulas of `docs/numbers.md` in all their branches, as [`once_each`] shows them: these and no other.
const BRANCHES: &[&str] = &[
    "min(n, steps_down(M * K / g))",
    "min(n, steps_down(M * K * p / g))",
    "min(n, steps_down(M * K / p / g))",
    "",
    "(1 - (a / R + m)) / (1 + C)",
    "U * v",
    "(1 - h) * B",
    "(1 - h) * N",
    "(H + r) / R",
    "(Q * (1 + C) + a) / (1 - m)",
    "(div(steps_down(W / g), n) + 1) * g",
    "(m - x) / A",
    "(m - x) / x",
    "(n - f * steps_down(C / g)) * g",
    "0",
    "1",
    "A",
    "D",
    "D * k",
    "D * s",
    "D * s / p",
    "D / R",
    "D / p",
    "H",
    "H / R",
    "N",
    "N - 1",
    "N - 1 - n",
    "N - F",
    "N - n",
    "P * m",
    "P * m / d",
    "R",
    "R * A",
    "R * A - H",
    "R * S",
    "R * k",
    "S",
    "S - d",
    "U",
    "V",
    "V - F * U",
    "V - n * v",
    "V - r",
    "V / R",
    "W / n",
    "c * V",
    "c",
    "c * R",
    "c * v",
    "d",
    "d + n",
    "div(steps_down(W / g), n) * g",
    "e + 1",
    "f + n - 1",
    "f + p + r + t",
    "g",
    "k * v",
    "l + s",
    "m",
    "max(0, R * S - r)",
    "max(1, min(steps_nearest(x * p / g), steps_down(M * v * p / g)))",
    "max(1, min(steps_nearest(x / g), steps_down(M * v / g)))",
    "max(1, min(steps_nearest(x / p / g), steps_down(M * v / p / g)))",
    "min((1 - h) * B, (L - E) / s)",
    "min((1 - h) * N, (L - E) / s)",
    "min(F * v, w - t * e - w)",
    "min(F * v, w - t * e)",
    "min(F * v, w - w)",
    "min(F * v, w)",
    "min(N, (1 - h) * B)",
    "min(N, (L - E) / s)",
    "min(min(N, (1 - h) * B), (L - E) / s)",
    "min(r, V)",
    "n",
    "n * (t * e)",
    "n * (t * e) + n * t * e",
    "n * (w)",
    "n * g",
    "n * g * p",
    "n * g / p",
    "n * m",
    "n * t * e",
    "n * t * e + n * (t * e)",
    "n * v",
    "n * w",
    "q * C",
    "r / R",
    "steps_down((1 - h) * B / g) * g",
    "steps_down((1 - h) * N / g) * g",
    "steps_down(C / g) * g",
    "steps_down(N / g) * g",
    "steps_down(V / U)",
    "steps_down(V / U) - 1",
    "steps_down(W / g) - div(steps_down(W / g), n) * n",
    "steps_down(min((1 - h) * B, (L - E) / s) / g) * g",
    "steps_down(min((1 - h) * N, (L - E) / s) / g) * g",
    "steps_down(min(F * v, w - t * e - w) / g) * g",
    "steps_down(min(F * v, w - t * e) / g) * g",
    "steps_down(min(F * v, w - w) / g) * g",
    "steps_down(min(F * v, w) / g) * g",
    "steps_down(min(N, (1 - h) * B) / g) * g",
    "steps_down(min(N, (L - E) / s) / g) * g",
    "steps_down(min(max(F, F) * v, w - t * e - w) / g) * g",
    "steps_down(min(max(F, F) * v, w - t * e) / g) * g",
    "steps_down(min(min(N, (1 - h) * B), (L - E) / s) / g) * g",
    "steps_down(n / steps_down(C / g))",
    "steps_down(t / g) * g",
    "steps_up(V / U)",
    "t",
    "t + m",
    "t + m + w",
    "t + m / p",
    "t + m / p + w",
    "t + n * e",
    "t + w",
    "t - k",
    "v",
    "v - m",
    "v - m - m / p",
    "v - m / p",
    "v / R",
    "w",
    "w - f",
    "w - f - t * e",
    "w - f - t * e - w",
    "w - f - w",
    "x",
];

/// Each of these changes makes a formula of the demo job wrong.
#[test]
fn a_wrong_formula_is_found() {
    let workings = demo().working();
    let of = |place: &str| workings.iter().find(|working| working.place() == place).unwrap();
    for (place, right, wrong) in [
        ("loads[0].products[1].exact", "c * v", "c / v"),
        ("mix.shares[0]", "D / R", "D * R"),
        ("mix.carrier_share", "1 - (", "1 + ("),
        ("mix.carrier_share", "m", "m + m"),
        ("safe_fill", " * g", "* N"),
        ("totals.loads", "steps_up", "steps_down"),
        ("loads[1].mix", "V - n0 * v0", "V - v0"),
        ("loads[1].mix", "V", "U"),
        ("loads[0].products[0].graduations", "x", "(x + g)"),
        ("loads[0].products[0].graduations", "x", "(x - g / 2)"),
        ("loads[0].products[0].gap.percent", "m - x", "x - m"),
        ("loads[0].products[0].gap.dose", " / A", ""),
        ("loads[0].steps[0].carrier", "F * v", "F * F * v"),
        ("last_strip.held_back", " - r", ""),
        ("totals.mix", " + ", " - "),
        ("ledger.mix.sprayed", "V - r", "V"),
        ("ledger.carrier.drawn", "f + p", "f"),
    ] {
        let working = of(place);
        assert_eq!(check_formula(working, working.formula()), Ok(()));
        let changed = working.formula().replacen(right, wrong, 1);
        assert_ne!(changed, working.formula(), "{place}");
        assert!(check_formula(working, &changed).is_err(), "{place}: {changed}");
    }
}

#[test]
fn the_working_reads_as_a_line_of_text() {
    let plan = demo();
    let text = |place| plan.working_of(place).unwrap().text(System::Metric);
    assert_eq!(
        text("loads[0].products[1].exact"),
        "loads[0].products[1].exact = 106.7 mL: c * v, with c = 0.6667 % v/v (mix.shares[1]), v = 16 L (loads[0].mix); docs/numbers.md, 6"
    );
    assert_eq!(text("loads[0].first"), "loads[0].first = 1: 1; docs/numbers.md, 5");
    assert_eq!(text("advice.rinse").split(": ").next(), Some("advice.rinse = 25 %"));
    let us = plan.working_of("area").unwrap().text(System::Us);
    assert_eq!(us, "area = 1.532 ac: A, with A = 1.532 ac (job.area); docs/numbers.md, 4");
    assert_eq!(plan.working_of("loads[7].mix"), None);
}

#[test]
fn the_working_is_a_document() {
    let plan = demo();
    let list: Vec<Value> = serde_json::from_str(&document::write_working(&plan)).unwrap();
    let workings = plan.working();
    assert_eq!(list.len(), workings.len());
    for (written, working) in list.iter().zip(&workings) {
        assert_eq!(written["place"], *working.place());
        assert_eq!(written["formula"], *working.formula());
        assert_eq!(written["source"], *working.source());
        assert!(is_same(&written["value"], working.value(), 1.0), "{written}");
        assert_eq!(written["inputs"].as_array().unwrap().len(), working.inputs().len());
        for (written, input) in written["inputs"].as_array().unwrap().iter().zip(working.inputs()) {
            assert_eq!((&written["symbol"], &written["place"]), (&input.symbol().into(), &input.place().into()));
            assert!(is_same(&written["value"], input.value(), 1.0), "{written}");
        }
    }
}

#[test]
fn the_sheet_may_end_with_the_working() {
    let plan = demo();
    let cleared = plan.cleared().unwrap();
    let (sheet, with_working) = (sheet::text(&cleared), sheet::text_with_working(&cleared));
    let working = with_working.strip_prefix(&sheet).unwrap();
    assert!(working.starts_with("\nWORKING\n"), "{working}");
    assert!(with_working.lines().all(|line| line.chars().count() <= 80));
    let told: String = working.split_whitespace().collect::<Vec<_>>().join(" ");
    for each in plan.working() {
        let text = each.text(System::Metric);
        let how = text.strip_prefix(&format!("{} = ", each.place())).unwrap();
        let (_, how) = how.split_once(": ").unwrap();
        assert!(told.contains(how), "{text}");
    }
}
