//! Instructions, which repeat exactly where times do not. `benches/gate.py` holds them against the numbers checked in.
//!
//! ```text
//! cargo bench --package mixcalc-benches --bench instructions -- --output-format=json | python3 benches/gate.py
//! ```
//!
//! Needs valgrind, and the runner of the same version: `cargo install --locked gungraun-runner@0.20.0`.
#![allow(clippy::unwrap_used, reason = "a benchmark fails by panicking")]
#![allow(missing_docs, unused_qualifications, reason = "the macros write so")]

use std::hint::black_box;

use gungraun::Dhat;
use gungraun::prelude::*;
use mixcalc::{Job, Plan, Quantity, document, sheet};
use mixcalc_benches as given;

/// What a benchmark only borrows is made before counting starts, and never dropped.
fn kept<T>(value: T) -> &'static T {
    Box::leak(Box::new(value))
}

fn job(products: usize, loads: u64) -> &'static Job {
    kept(given::job(products, loads))
}

fn planned() -> &'static Plan {
    kept(mixcalc::plan(&given::demo()).unwrap())
}

#[library_benchmark]
#[bench::metric("300 L/ha")]
#[bench::us("12.5 US fl oz/1000 ft2")]
fn read_quantity(text: &str) -> Quantity {
    black_box(Quantity::read(black_box(text)).unwrap())
}

#[library_benchmark]
#[bench::json(kept(given::json()))]
#[bench::toml(given::TOML)]
fn read_job(document: &str) -> Job {
    black_box(document::read_job(black_box(document).as_bytes()).unwrap())
}

#[library_benchmark(setup = job)]
#[bench::one_product(1, 10)]
#[bench::three_products(3, 10)]
#[bench::many_loads(3, 10_000_000_000)]
fn plan(job: &Job) -> Plan {
    black_box(mixcalc::plan(black_box(job)).unwrap())
}

#[library_benchmark]
#[bench::demo(planned())]
fn write_plan(plan: &Plan) -> String {
    black_box(document::write_plan(black_box(plan)))
}

#[library_benchmark]
#[bench::demo(planned())]
fn write_sheet(plan: &Plan) -> String {
    black_box(sheet::text(black_box(&plan.cleared().unwrap())))
}

library_benchmark_group!(name = all, benchmarks = [read_quantity, read_job, plan, write_plan, write_sheet]);
main!(config = LibraryBenchmarkConfig::default().tool(Dhat::default()), library_benchmark_groups = all);
