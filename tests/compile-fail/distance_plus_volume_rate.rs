//! A walked distance and a volume rate added, though both are lengths.

use mixcalc::{Length, VolumeRate};

fn main() {
    let distance = Length::from_meters(100.0).unwrap();
    let rate = VolumeRate::from_liters_per_hectare(300.0).unwrap();
    let _ = distance + rate;
}
