//! A bare number where a quantity is due.

use mixcalc::{Area, VolumeRate};

fn main() {
    let rate = VolumeRate::from_liters_per_hectare(300.0).unwrap();
    let area: Area = 12.5;
    let _ = rate * area;
}
