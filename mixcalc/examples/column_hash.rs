//! SHA-256 of plain plans over so many rows, some of them hostile: through columns, and through the sum of one number for each row.

use mixcalc::columns::{self, Column, Statuses};
use mixcalc::{Area, Error, LiquidDose, PlainPlan, Volume, VolumeRate, plain_plan};
use sha2::{Digest, Sha256};

const HOSTILE: [f64; 11] =
    [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, 5e-324, 2.2e-308, 1e-300, -1.0, 1e28, 1e300];

/// A number of a column: plain, or each seventh time a hostile one.
#[allow(clippy::cast_precision_loss, clippy::indexing_slicing, clippy::cast_possible_truncation)]
fn number(row: u64, column: u64, scale: f64) -> f64 {
    let mut mixed = (row * 4 + column + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    mixed = (mixed ^ (mixed >> 29)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed ^= mixed >> 32;
    if mixed.is_multiple_of(7) {
        HOSTILE[(mixed / 7 % 11) as usize]
    } else {
        (mixed >> 11) as f64 / 2_f64.powi(53) * scale
    }
}

fn one(area: f64, rate: f64, dose: f64, fill: f64) -> Result<PlainPlan, Error> {
    let (area, rate) = (Area::from_hectares(area)?, VolumeRate::from_liters_per_hectare(rate)?);
    plain_plan(area, rate, LiquidDose::from_liters_per_hectare(dose)?, Volume::from_liters(fill)?)
}

fn hash(outputs: &[Vec<f64>], status: &[u16]) -> String {
    let mut hash = Sha256::new();
    outputs.iter().flatten().for_each(|value| hash.update(value.to_le_bytes()));
    status.iter().for_each(|status| hash.update(status.to_le_bytes()));
    hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}

#[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation)]
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let rows: u64 = std::env::args().nth(1).ok_or("how many rows")?.parse()?;
    let scales = [50.0, 400.0, 5.0, 3000.0];
    let column = |(i, scale)| (0..rows).map(|row| number(row, i, scale)).collect::<Vec<_>>();
    let inputs: Vec<Vec<f64>> = (0..).zip(scales).map(column).collect();
    let [a, r, d, u] = inputs.as_slice() else { return Ok(()) };

    let mut outputs = vec![vec![0.0; a.len()]; 6];
    let mut status = vec![0; a.len()];
    if let [o1, o2, o3, o4, o5, o6] = outputs.as_mut_slice() {
        let into: [&mut [f64]; 6] = [o1, o2, o3, o4, o5, o6];
        let [a, r, d, u] = [a, r, d, u].map(|column| Column::Each(column));
        columns::plan(a, r, d, u, into, Statuses::new(&mut status))?;
    }
    println!("{}", hash(&outputs, &status));

    for (row, status) in status.iter_mut().enumerate() {
        let at = |column: &Vec<f64>| column.get(row).copied().unwrap_or_default();
        let answer = one(at(a), at(r), at(d), at(u));
        *status = answer.as_ref().map_or_else(|error| error.code().number() as u16, |_| 0);
        let values = answer.map_or([f64::NAN; 6], |plan| {
            let liters = Volume::liters;
            let [mix, product, part] = [plan.mix, plan.product, plan.part_load].map(liters);
            let [full, in_part] = [plan.product_in_full_load, plan.product_in_part_load].map(liters);
            [mix, product, plan.full_loads as f64, part, full, in_part]
        });
        for (output, value) in outputs.iter_mut().zip(values) {
            output.iter_mut().skip(row).take(1).for_each(|place| *place = value);
        }
    }
    println!("{}", hash(&outputs, &status));
    Ok(())
}
