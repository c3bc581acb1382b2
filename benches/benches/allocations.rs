//! Allocations of a plan: the table's `alloc` lines hold their number and bytes, per plan.
//!
//! ```text
//! cargo bench --package mixcalc-benches --bench allocations
//! ```
#![allow(clippy::unwrap_used, reason = "a benchmark fails by panicking")]

use std::hint::black_box;

use divan::AllocProfiler;
use mixcalc::Plan;
use mixcalc_benches as given;

#[global_allocator]
static COUNTED: AllocProfiler = AllocProfiler::system();

fn main() {
    divan::main();
}

/// By products of the job.
#[divan::bench(args = [0, 1, 2, 3], sample_count = 1, sample_size = 1)]
fn plan(bencher: divan::Bencher<'_, '_>, products: usize) {
    let job = given::job(products, 10);
    bencher.bench(|| -> Plan { mixcalc::plan(black_box(&job)).unwrap() });
}

/// The job of three products in the example, which has marks, a strip and findings.
#[divan::bench(sample_count = 1, sample_size = 1)]
fn plan_of_example(bencher: divan::Bencher<'_, '_>) {
    let job = given::demo();
    bencher.bench(|| -> Plan { mixcalc::plan(black_box(&job)).unwrap() });
}
