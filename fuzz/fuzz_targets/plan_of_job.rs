//! Jobs from pieces that mostly read, planned.
#![no_main]

use libfuzzer_sys::arbitrary::{Arbitrary, Result, Unstructured};
use libfuzzer_sys::fuzz_target;
use mixcalc::document;
use mixcalc_fuzz::{check_error, check_plan};
use serde_json::{Map, Value, json};

fuzz_target!(|bytes: &[u8]| {
    let Ok(job) = job(&mut Unstructured::new(bytes)) else {
        return;
    };
    match document::read_job(job.to_string().as_bytes()) {
        Ok(job) => check_plan(&job),
        Err(error) => check_error(&error),
    }
});

const AREA: &[&str] = &["ha", "m2", "ac", "ft2"];
const VOLUME: &[&str] = &["L", "mL", "US gal", "US fl oz", "imp gal", "imp pt"];
const MASS: &[&str] = &["kg", "g", "lb", "oz av"];
const RATE: &[&str] = &["L/ha", "L/100 m2", "US gal/ac", "imp gal/ac"];
const DENSITY: &[&str] = &["kg/L", "g/mL", "lb/US gal"];
const DOSE: &[&str] = &[
    "L/ha",
    "mL/ha",
    "US fl oz/ac",
    "imp pt/ac",
    "kg/ha",
    "g/ha",
    "oz av/ac",
    "% v/v",
    "mL/100 L",
    "US fl oz/100 US gal",
    "ppm v/v",
    "g/L",
    "g/100 L",
    "lb/100 US gal",
    "mL/15 L",
    "% w/v",
    "% w/w",
    "ppm w/w",
];

/// A table of keys, some of which are left out.
#[derive(Default)]
struct Table(Map<String, Value>);

impl Table {
    fn with(mut self, key: &str, value: impl Into<Value>) -> Self {
        self.0.insert(key.into(), value.into());
        self
    }

    /// The key in every other table.
    fn maybe<'a, V: Into<Value>>(
        self,
        u: &mut Unstructured<'a>,
        key: &str,
        value: impl FnOnce(&mut Unstructured<'a>) -> Result<V>,
    ) -> Result<Self> {
        Ok(if u.arbitrary()? { self.with(key, value(u)?) } else { self })
    }
}

impl From<Table> for Value {
    fn from(table: Table) -> Self {
        Self::Object(table.0)
    }
}

/// A number that a person may write; seldom, any double.
fn number(u: &mut Unstructured<'_>) -> Result<f64> {
    if u.ratio(1, 100)? {
        return f64::arbitrary(u);
    }
    let (digits, size) = (u.int_in_range(1..=999)?, u.choose(&[0.001, 0.01, 0.1, 1.0, 10.0, 100.0])?);
    Ok(f64::from(digits) * size)
}

fn quantity(units: &[&str]) -> impl FnOnce(&mut Unstructured<'_>) -> Result<String> {
    move |u| Ok(format!("{:?} {}", number(u)?, u.choose(units)?))
}

fn word(words: &[&str]) -> impl FnOnce(&mut Unstructured<'_>) -> Result<String> {
    move |u| u.choose(words).map(ToString::to_string)
}

fn measure(u: &mut Unstructured<'_>, name: &str, kinds: &[&str]) -> Result<Value> {
    let kind = *u.choose(kinds)?;
    let unit = match kind {
        "vessel" => u.choose(VOLUME)?,
        "scale" => u.choose(MASS)?,
        _ => u.choose(&["L", "mL", "US fl oz", "kg", "g", "oz av"])?,
    };
    let graduation = number(u)?;
    let table =
        Table::default().with("name", name).with("kind", kind).with("graduation", format!("{graduation:?} {unit}"));
    Ok(match kind {
        "pack" => table.into(),
        _ => {
            let capacity = graduation * u.choose(&[1.0, 7.5, 10.0, 20.0, 50.0, 100.0, 250.0])?;
            table.with("capacity", format!("{capacity:?} {unit}")).into()
        }
    })
}

fn product(u: &mut Unstructured<'_>, index: usize) -> Result<Value> {
    let unit = *u.choose(DOSE)?;
    let dose = number(u)?;
    // A maximum in the dose's own unit is often met; in another one it may not fit at all.
    let most = dose * u.choose(&[1.0, 1.0, 1.2, 2.0, 0.9])?;
    let basis = word(&["ground-area", "mix-volume", "carrier-volume"]);
    let label = Table::default()
        .maybe(u, "max_dose", |u| if u.ratio(1, 8)? { quantity(DOSE)(u) } else { Ok(format!("{most:?} {unit}")) })?
        .maybe(u, "first_carrier", |u| Ok(u.int_in_range(1..=100)? as f64 / 100.0))?;
    let label = if u.ratio(1, 8)? { label.with("min_volume_rate", quantity(RATE)(u)?) } else { label };
    let label = if u.ratio(1, 8)? { label.with("max_volume_rate", quantity(RATE)(u)?) } else { label };
    let table = Table::default()
        .with("name", format!("product {index}"))
        .with("dose", format!("{dose:?} {unit}"))
        .with("viscous", bool::arbitrary(u)?)
        .with("label", label)
        .maybe(u, "density", quantity(DENSITY))?
        .maybe(u, "particle_density", quantity(DENSITY))?
        .maybe(u, "bulk_density", quantity(DENSITY))?;
    let table =
        if u.ratio(1, 4)? { table.with("formulation", word(&["SC", "WG", "EC", "GL", "WP"])(u)?) } else { table };
    let table = if u.ratio(1, 4)? { table.with("basis", basis(u)?) } else { table };
    let table = if u.ratio(1, 8)? { table.with("stock", quantity(u.choose(&[VOLUME, MASS])?)(u)?) } else { table };
    let own = u.ratio(1, 4)?;
    Ok(if own { table.with("measure", measure(u, "own", &["vessel", "scale", "pack"])?) } else { table }.into())
}

fn job(u: &mut Unstructured<'_>) -> Result<Value> {
    let sprayer = Table::default()
        .with("kind", word(&["hand-held", "knapsack", "boom", "bush-and-tree", "semi-mobile"])(u)?)
        .maybe(u, "residual", |u| {
            Ok(json!({"dilutable": quantity(VOLUME)(u)?, "non_dilutable": quantity(VOLUME)(u)?}))
        })?
        .maybe(u, "empty_mass", quantity(MASS))?;
    let sprayer = if u.ratio(1, 8)? { sprayer.with("carried_mass_limit", quantity(MASS)(u)?) } else { sprayer };

    let (nominal, unit) = (number(u)?, *u.choose(VOLUME)?);
    let brim = nominal * u.choose(&[1.0, 1.04, 1.05, 1.1, 1.3])?;
    let graduation = nominal / u.choose(&[1.0, 3.0, 8.0, 16.0, 20.0, 100.0])?;
    let tank = Table::default()
        .with("nominal", format!("{nominal:?} {unit}"))
        .maybe(u, "brim", |_| Ok(format!("{brim:?} {unit}")))?
        .maybe(u, "headspace", |u| Ok(u.int_in_range(0..=99)? as f64 / 100.0))?
        .maybe(u, "graduation", |_| Ok(format!("{graduation:?} {unit}")))?
        .maybe(u, "least_working_volume", quantity(VOLUME))?;

    let loading = Table::default()
        .maybe(u, "split", word(&["full-then-part", "even"]))?
        .maybe(u, "last_strip", |u| {
            Ok(if u.arbitrary()? {
                json!({"area": quantity(AREA)(u)?})
            } else {
                json!({"volume": quantity(VOLUME)(u)?})
            })
        })?
        .maybe(u, "max_fillings", |u| u.int_in_range(1..=9))?;

    let products = (0..u.int_in_range(0..=4)?).map(|index| product(u, index)).collect::<Result<Vec<_>>>()?;
    let measures = (0..u.int_in_range(1..=6)?)
        .map(|index| measure(u, &format!("measure {index}"), &["vessel", "scale"]))
        .collect::<Result<Vec<_>>>()?;
    Ok(Table::default()
        .with("format", "mixcalc-job/1")
        .maybe(u, "units", word(&["metric", "US", "imperial"]))?
        .with("area", quantity(AREA)(u)?)
        .with(*u.choose(&["volume_rate", "volume_rate", "carrier_rate"])?, quantity(RATE)(u)?)
        .maybe(u, "mix_density", quantity(DENSITY))?
        .with("sprayer", sprayer)
        .with("tank", tank)
        .with("loading", loading)
        .with("products", products)
        .with("measures", measures)
        .into())
}
