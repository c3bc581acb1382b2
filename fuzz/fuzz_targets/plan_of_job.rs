//! Jobs from pieces that mostly fit together, planned.
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

/// Units, each with a usual number of it.
type Units = &'static [(&'static str, f64)];

const AREA: Units = &[("ha", 1.0), ("m2", 1000.0), ("ac", 2.0), ("ft2", 10_000.0)];
const RATE: Units = &[("L/ha", 200.0), ("L/100 m2", 2.0), ("US gal/ac", 20.0), ("imp gal/ac", 20.0)];
const TANK: Units = &[("L", 20.0), ("mL", 20_000.0), ("US gal", 5.0), ("imp gal", 5.0)];
const RESIDUAL: Units = &[("L", 0.2), ("mL", 200.0), ("US fl oz", 5.0)];
const MASS: Units = &[("kg", 5.0), ("g", 5000.0), ("lb", 10.0)];
const DENSITY: Units = &[("kg/L", 1.0), ("lb/US gal", 10.0)];
/// By volume, by mass.
const DOSE: [Units; 2] = [
    &[
        ("L/ha", 1.0),
        ("mL/ha", 500.0),
        ("US fl oz/ac", 10.0),
        ("imp pt/ac", 1.0),
        ("% v/v", 0.2),
        ("mL/100 L", 200.0),
        ("US fl oz/100 US gal", 10.0),
        ("ppm v/v", 1000.0),
        ("mL/15 L", 20.0),
    ],
    &[
        ("kg/ha", 1.0),
        ("g/ha", 500.0),
        ("oz av/ac", 10.0),
        ("g/L", 1.0),
        ("g/100 L", 100.0),
        ("lb/100 US gal", 1.0),
        ("% w/v", 0.2),
        ("% w/w", 0.2),
        ("ppm w/w", 1000.0),
    ],
];
const GRADUATION: [Units; 2] =
    [&[("mL", 1.0), ("L", 0.01), ("US fl oz", 0.1), ("imp fl oz", 0.1)], &[("g", 1.0), ("kg", 0.01), ("oz av", 0.05)]];
const STOCK: [Units; 2] = [&[("L", 1.0), ("US gal", 1.0)], &[("kg", 1.0), ("lb", 1.0)]];
const FORMULATIONS: [&[&str]; 2] = [&["SC", "EC", "GL"], &["WG", "WP", "SC", "GL"]];

/// A table of keys, some of which are left out.
#[derive(Default)]
struct Table(Map<String, Value>);

impl Table {
    fn with(mut self, key: &str, value: impl Into<Value>) -> Self {
        self.0.insert(key.into(), value.into());
        self
    }

    /// The key in so many tables of sixteen.
    fn maybe<'a, V: Into<Value>>(
        self,
        u: &mut Unstructured<'a>,
        of_sixteen: u8,
        key: &str,
        value: impl FnOnce(&mut Unstructured<'a>) -> Result<V>,
    ) -> Result<Self> {
        Ok(if u.ratio(of_sixteen, 16)? { self.with(key, value(u)?) } else { self })
    }
}

impl From<Table> for Value {
    fn from(table: Table) -> Self {
        Self::Object(table.0)
    }
}

/// A number that a person may write where so much is usual; seldom, any double.
fn number(u: &mut Unstructured<'_>, usual: f64) -> Result<f64> {
    if u.ratio(1, 1000)? {
        return f64::arbitrary(u);
    }
    Ok(f64::from(u.int_in_range(1..=999)?) / 100.0 * u.choose(&[0.1, 1.0, 1.0, 10.0])? * usual)
}

fn quantity(units: Units) -> impl FnOnce(&mut Unstructured<'_>) -> Result<String> {
    move |u| {
        let (unit, usual) = u.choose(units)?;
        Ok(format!("{:?} {unit}", number(u, *usual)?))
    }
}

fn word(words: &[&str]) -> impl FnOnce(&mut Unstructured<'_>) -> Result<String> {
    move |u| u.choose(words).map(ToString::to_string)
}

fn share(u: &mut Unstructured<'_>) -> Result<f64> {
    Ok(f64::from(u.int_in_range(1..=99)?) / 100.0)
}

/// A vessel, a scale, or a pack of either sort.
fn measure(u: &mut Unstructured<'_>, name: &str, sort: usize, is_pack: bool) -> Result<Table> {
    let (unit, usual) = u.choose(GRADUATION[sort])?;
    let graduation = number(u, *usual)?;
    let table = Table::default().with("name", name).with("graduation", format!("{graduation:?} {unit}"));
    if is_pack {
        return Ok(table.with("kind", "pack"));
    }
    let capacity = graduation * u.choose(&[1.0, 7.5, 10.0, 20.0, 50.0, 100.0, 250.0])?;
    Ok(table.with("kind", ["vessel", "scale"][sort]).with("capacity", format!("{capacity:?} {unit}")))
}

fn product(u: &mut Unstructured<'_>, index: usize) -> Result<Table> {
    let sort = usize::from(bool::arbitrary(u)?);
    let (unit, usual) = u.choose(DOSE[sort])?;
    let dose = number(u, *usual)?;
    let label = Table::default()
        .maybe(u, 2, "min_dose", |u| Ok(format!("{:?} {unit}", dose * u.choose(&[0.5, 0.9, 1.0, 1.001])?)))?
        .maybe(u, 8, "max_dose", |u| Ok(format!("{:?} {unit}", dose * u.choose(&[1.0, 1.0, 1.0, 1.01, 1.2, 0.9])?)))?
        .maybe(u, 4, "first_carrier", share)?
        .maybe(u, 1, "min_volume_rate", quantity(RATE))?
        .maybe(u, 1, "max_volume_rate", quantity(RATE))?;
    // A maximum in another unit may not fit at all.
    let label = label.maybe(u, 1, "max_dose", quantity(DOSE[sort]))?;
    Table::default()
        .with("name", format!("product {index}"))
        .with("dose", format!("{dose:?} {unit}"))
        .with("label", label)
        .maybe(u, 4, "viscous", bool::arbitrary)?
        .maybe(u, 12, "density", quantity(DENSITY))?
        .maybe(u, 8, "particle_density", quantity(DENSITY))?
        .maybe(u, 12, "bulk_density", quantity(DENSITY))?
        .maybe(u, 4, "formulation", word(FORMULATIONS[sort]))?
        .maybe(u, 2, "basis", word(&["carrier-volume", "ground-area", "mix-volume"]))?
        .maybe(u, 2, "stock", quantity(STOCK[sort]))?
        .maybe(u, 4, "measure", |u| {
            let (own_sort, is_pack) = (usize::from(bool::arbitrary(u)?), bool::arbitrary(u)?);
            measure(u, "own", own_sort, is_pack)
        })
}

fn job(u: &mut Unstructured<'_>) -> Result<Value> {
    let sprayer = Table::default()
        .with("kind", word(&["hand-held", "knapsack", "boom", "bush-and-tree", "semi-mobile"])(u)?)
        .maybe(u, 8, "residual", |u| {
            Ok(json!({"dilutable": quantity(RESIDUAL)(u)?, "non_dilutable": quantity(RESIDUAL)(u)?}))
        })?
        .maybe(u, 8, "empty_mass", quantity(MASS))?
        .maybe(u, 1, "carried_mass_limit", quantity(MASS))?;

    let (tank_unit, usual) = u.choose(TANK)?;
    let nominal = number(u, *usual)?;
    let times = |factors: &'static [f64]| {
        move |u: &mut Unstructured<'_>| Ok(format!("{:?} {tank_unit}", nominal * u.choose(factors)?))
    };
    let tank = Table::default()
        .with("nominal", format!("{nominal:?} {tank_unit}"))
        .maybe(u, 8, "brim", times(&[1.0, 1.04, 1.05, 1.1, 1.3]))?
        .maybe(u, 4, "headspace", share)?
        .maybe(u, 8, "graduation", times(&[1.0, 0.3, 0.125, 0.0625, 0.05, 0.01]))?
        .maybe(u, 8, "least_working_volume", times(&[0.01, 0.1, 0.2, 0.5, 0.9, 2.0]))?;

    let (area_unit, usual) = u.choose(AREA)?;
    let area = number(u, *usual)?;
    let loading = Table::default()
        .maybe(u, 8, "split", word(&["full-then-part", "even"]))?
        .maybe(u, 8, "last_strip", |u| {
            let strip = area * u.choose(&[0.0, 0.001, 0.01, 0.1, 0.2, 0.5])?;
            Ok(if u.ratio(3, 4)? {
                json!({"area": format!("{strip:?} {area_unit}")})
            } else {
                json!({"volume": quantity(RESIDUAL)(u)?})
            })
        })?
        .maybe(u, 4, "max_fillings", |u| u.int_in_range(1..=9))?;

    let products = (0..u.int_in_range(0..=4)?).map(|index| product(u, index)).collect::<Result<Vec<_>>>()?;
    let measures = (0..u.int_in_range(2..=6)?)
        .map(|index| measure(u, &format!("measure {index}"), index % 2, false))
        .collect::<Result<Vec<_>>>()?;
    Ok(Table::default()
        .with("format", "mixcalc-job/1")
        .with("area", format!("{area:?} {area_unit}"))
        .with(u.choose(&["volume_rate", "volume_rate", "carrier_rate"])?, quantity(RATE)(u)?)
        .with("sprayer", sprayer)
        .with("tank", tank)
        .with("loading", loading)
        .with("products", products)
        .with("measures", measures)
        .maybe(u, 4, "units", word(&["metric", "US", "imperial"]))?
        .maybe(u, 14, "mix_density", quantity(&[("kg/L", 0.2), ("lb/US gal", 2.0)]))?
        .into())
}
