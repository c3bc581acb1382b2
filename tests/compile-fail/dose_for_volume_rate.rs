//! A dose where a volume rate is due, though both are L/ha.

use mixcalc::{LiquidDose, VolumeRate};

fn spray(_rate: VolumeRate) {}

fn main() {
    let dose = LiquidDose::from_liters_per_hectare(2.5).unwrap();
    spray(dose);
}
