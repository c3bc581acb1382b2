//! The density of a liquid where that of a heap is due.

use mixcalc::{BulkDensity, Density};

fn weigh_a_scoop(_heap: BulkDensity) {}

fn main() {
    weigh_a_scoop(Density::from_kilograms_per_liter(1.1).unwrap());
}
