//! What the benchmarks run on, and the peer that they are measured against.
#![allow(clippy::expect_used, reason = "a job that is no job is a fault of the benchmark and has to be seen")]

pub mod plain;

use mixcalc::{Job, document};

/// A job of three products as a TOML document.
pub const TOML: &str = include_str!("../../docs/examples/demo.toml");

/// The job of [`TOML`].
///
/// # Panics
///
/// Where the example does not read.
#[must_use]
pub fn demo() -> Job {
    document::read_job(TOML.as_bytes()).expect("the example reads")
}

/// The job of [`TOML`] as a JSON document.
#[must_use]
pub fn json() -> String {
    document::write_job(&demo())
}

const PRODUCTS: [&str; 3] = [
    r#"{ name = "example product A", dose = "1.375 L/ha", label = { max_dose = "1.5 L/ha" } }"#,
    r#"{ name = "example product B", dose = "0.4136 kg/ha", label = { max_dose = "0.5 kg/ha" }, particle_density = "1.6 kg/L" }"#,
    r#"{ name = "example wetter C", dose = "0.1 % v/v", label = { max_dose = "0.15 % v/v" } }"#,
];

/// A boom sprayer's job of up to three products that comes to so many loads, the last of them half a load.
///
/// # Panics
///
/// Never for a job of one load or more.
#[must_use]
#[allow(clippy::cast_precision_loss)] // up to 1e11 loads
pub fn job(products: usize, loads: u64) -> Job {
    let hectares = 5.0 * (loads as f64 - 0.5);
    let products: Vec<&str> = PRODUCTS.into_iter().take(products).collect();
    let document = format!(
        r#"
        format = "mixcalc-job/1"
        area = "{hectares} ha"
        volume_rate = "200 L/ha"
        sprayer = {{ kind = "boom" }}
        tank = {{ nominal = "1000 L", brim = "1100 L" }}
        products = [{}]
        measures = [
            {{ kind = "vessel", capacity = "1 L", graduation = "10 mL" }},
            {{ kind = "vessel", capacity = "5 L", graduation = "100 mL" }},
            {{ kind = "scale", capacity = "5 kg", graduation = "5 g" }},
        ]
        "#,
        products.join(", "),
    );
    document::read_job(document.as_bytes()).expect(&document)
}
