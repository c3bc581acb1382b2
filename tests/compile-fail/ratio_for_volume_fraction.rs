//! A plain ratio where a volume fraction is due: its basis has not been said.

use mixcalc::{Ratio, VolumeFraction};

fn adjuvant(_share: VolumeFraction) {}

fn main() {
    adjuvant(Ratio::from_percent(0.25).unwrap());
}
