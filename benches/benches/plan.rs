//! Times, against what one would do instead: the sums by hand in plain doubles, and the document parsed and no more.
//!
//! ```text
//! cargo bench --package mixcalc-benches --bench plan
//! ```
#![allow(clippy::unwrap_used, reason = "a benchmark fails by panicking")]

use std::hint::black_box;

use mixcalc_benches as given;

fn main() {
    divan::main();
}

mod reading {
    use super::*;
    use mixcalc::{Job, Quantity, document};

    #[divan::bench(args = ["300 L/ha", "12.5 US fl oz/1000 ft2"])]
    fn quantity(text: &str) -> Quantity {
        Quantity::read(text).unwrap()
    }

    #[divan::bench]
    fn job_json(bencher: divan::Bencher<'_, '_>) {
        let document = given::json();
        bencher.bench(|| -> Job { document::read_job(black_box(document.as_bytes())).unwrap() });
    }

    #[divan::bench]
    fn peer_json_value(bencher: divan::Bencher<'_, '_>) {
        let document = given::json();
        bencher.bench(|| -> serde_json::Value { serde_json::from_str(black_box(&document)).unwrap() });
    }

    #[divan::bench]
    fn job_toml() -> Job {
        document::read_job(black_box(given::TOML.as_bytes())).unwrap()
    }
}

mod planning {
    use super::*;
    use mixcalc::Plan;

    /// Products, loads.
    const JOBS: [(usize, u64); 4] = [(1, 10), (3, 10), (3, 10_000), (3, 10_000_000_000)];

    #[divan::bench(args = JOBS)]
    fn plan(bencher: divan::Bencher<'_, '_>, (products, loads): (usize, u64)) {
        let job = given::job(products, loads);
        bencher.bench(|| -> Plan { mixcalc::plan(black_box(&job)).unwrap() });
    }

    #[divan::bench(args = JOBS)]
    fn peer_plain_sums(bencher: divan::Bencher<'_, '_>, (products, loads): (usize, u64)) {
        let job = given::plain::job(products, loads);
        bencher.bench(|| given::plain::plan(black_box(&job)));
    }
}

mod writing {
    use super::*;
    use mixcalc::{document, sheet};

    #[divan::bench]
    fn plan_json(bencher: divan::Bencher<'_, '_>) {
        let plan = mixcalc::plan(&given::demo()).unwrap();
        bencher.bench(|| document::write_plan(black_box(&plan)));
    }

    #[divan::bench]
    fn load_sheet(bencher: divan::Bencher<'_, '_>) {
        let plan = mixcalc::plan(&given::demo()).unwrap();
        let cleared = plan.cleared().unwrap();
        bencher.bench(|| sheet::text(black_box(&cleared)));
    }
}
