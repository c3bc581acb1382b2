//! v/v and w/w added.

use mixcalc::{MassFraction, VolumeFraction};

fn main() {
    let by_volume = VolumeFraction::from_percent(0.25).unwrap();
    let by_mass = MassFraction::from_percent(50.0).unwrap();
    let _ = by_volume + by_mass;
}
