//! Dose and volume rate swapped.

use mixcalc::{LiquidDose, VolumeFraction, VolumeRate};

fn concentration(dose: LiquidDose, rate: VolumeRate) -> VolumeFraction {
    dose / rate
}

fn main() {
    let dose = LiquidDose::from_liters_per_hectare(2.5).unwrap();
    let rate = VolumeRate::from_liters_per_hectare(300.0).unwrap();
    concentration(rate, dose);
}
