//! A volume per area that nobody has claimed yet, where a volume rate is due.

use mixcalc::{Area, Volume, VolumeRate};

fn spray(_rate: VolumeRate) {}

fn main() {
    let used = Volume::from_liters(15.0).unwrap() / Area::from_square_meters(500.0).unwrap();
    spray(used);
}
