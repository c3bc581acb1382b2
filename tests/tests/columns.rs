//! Columns: every row is the sum of one number, to the last bit; what is refused is refused alike, counted, and stops nothing.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::cast_precision_loss,
    reason = "a test fails by panicking"
)]

use std::num::NonZeroUsize;

use mixcalc::columns::{self, Calculation, Column, Statuses, calculations};
use mixcalc::*;
use proptest::prelude::*;

/// Bare numbers to kinds by their constructors, all of them before the sum is asked.
macro_rules! scalar {
    ($row:expr; $($kind:ident::$from:ident),* => |$($input:ident),*| $sum:expr) => {{
        let [$($input),*] = $row else { panic!("{} numbers", $row.len()) };
        (|| { $(let $input = $kind::$from(*$input)?;)* Ok($sum) })()
    }};
}

/// The sum of one number that a calculation is held against: typed quantities in, bare numbers out.
fn one(name: &str, row: &[f64]) -> Result<Vec<f64>, Error> {
    let known = |volume: Volume| (volume != Volume::ZERO).then_some(volume);
    let exact = |flow: Flow, pressure: Pressure| Nozzle::new(&Uncertain::exact(flow)?, &Uncertain::exact(pressure)?);
    match name {
        "plan" => {
            scalar!(row; Area::from_hectares, VolumeRate::from_liters_per_hectare, LiquidDose::from_liters_per_hectare, Volume::from_liters
            => |area, rate, dose, fill| {
                let plain = plain_plan(area, rate, dose, fill)?;
                let full = plain.full_loads as f64;
                let [mix, product, part] = [plain.mix, plain.product, plain.part_load].map(Volume::liters);
                vec![mix, product, full, part, plain.product_in_full_load.liters(), plain.product_in_part_load.liters()]
            })
        }
        "mix" => {
            scalar!(row; VolumeRate::from_liters_per_hectare, Area::from_hectares => |r, a| vec![mix(r, a)?.liters()])
        }
        "area_for_mix" => {
            scalar!(row; Volume::from_liters, VolumeRate::from_liters_per_hectare => |v, r| vec![area_for_mix(v, r)?.hectares()])
        }
        "full_and_part_load" => scalar!(row; Volume::from_liters, Volume::from_liters => |mix, fill| {
            let (full, part) = full_and_part_load(mix, fill)?;
            vec![full as f64, part.liters()]
        }),
        "safe_fill" => {
            scalar!(row; Volume::from_liters, Volume::from_liters, Ratio::from_percent, Volume::from_liters => |nominal, brim, headspace, graduation| {
                let tank = Tank::new(known(nominal), known(brim))?.with_headspace(headspace)?;
                let tank = match known(graduation) { Some(step) => tank.with_graduation(step)?, None => tank };
                vec![tank.safe_fill()?.liters()]
            })
        }
        "graduations_of_volume" => scalar!(row; Volume::from_liters, Volume::from_liters, Volume::from_liters
            => |x, g, most| vec![graduations(x.into(), g.into(), most.into())? as f64]),
        "graduations_of_mass" => scalar!(row; Mass::from_kilograms, Mass::from_kilograms, Mass::from_kilograms
            => |x, g, most| vec![graduations(x.into(), g.into(), most.into())? as f64]),
        "liquid_amount" => {
            scalar!(row; LiquidDose::from_liters_per_hectare, Area::from_hectares => |d, a| vec![liquid_amount(d, a)?.liters()])
        }
        "solid_amount" => {
            scalar!(row; SolidDose::from_kilograms_per_hectare, Area::from_hectares => |d, a| vec![solid_amount(d, a)?.kilograms()])
        }
        "liquid_amount_in_mix" => {
            scalar!(row; VolumeFraction::from_milliliters_per_100_liters, Volume::from_liters => |f, v| vec![liquid_amount_in_mix(f, v)?.liters()])
        }
        "solid_amount_in_mix" => {
            scalar!(row; MassConcentration::from_grams_per_100_liters, Volume::from_liters => |c, v| vec![solid_amount_in_mix(c, v)?.kilograms()])
        }
        "liquid_dose" => {
            scalar!(row; VolumeFraction::from_milliliters_per_100_liters, VolumeRate::from_liters_per_hectare => |f, r| vec![liquid_dose(f, r)?.liters_per_hectare()])
        }
        "solid_dose" => {
            scalar!(row; MassConcentration::from_grams_per_100_liters, VolumeRate::from_liters_per_hectare => |c, r| vec![solid_dose(c, r)?.kilograms_per_hectare()])
        }
        "volume_fraction" => {
            scalar!(row; LiquidDose::from_liters_per_hectare, VolumeRate::from_liters_per_hectare => |d, r| vec![volume_fraction(d, r)?.milliliters_per_100_liters()])
        }
        "mass_concentration" => {
            scalar!(row; SolidDose::from_kilograms_per_hectare, VolumeRate::from_liters_per_hectare => |d, r| vec![mass_concentration(d, r)?.grams_per_100_liters()])
        }
        "substance_in_liquid_dose" => {
            scalar!(row; Content::from_grams_per_liter, LiquidDose::from_liters_per_hectare => |c, d| vec![substance_in_liquid_dose(c, d)?.kilograms_per_hectare()])
        }
        "substance_in_solid_dose" => {
            scalar!(row; MassFraction::from_grams_per_kilogram, SolidDose::from_kilograms_per_hectare => |c, d| vec![substance_in_solid_dose(c, d)?.kilograms_per_hectare()])
        }
        "liquid_dose_of_substance" => {
            scalar!(row; Content::from_grams_per_liter, MassPerArea::from_kilograms_per_hectare => |c, s| vec![liquid_dose_of_substance(c, s)?.liters_per_hectare()])
        }
        "solid_dose_of_substance" => {
            scalar!(row; MassFraction::from_grams_per_kilogram, MassPerArea::from_kilograms_per_hectare => |c, s| vec![solid_dose_of_substance(c, s)?.kilograms_per_hectare()])
        }
        "liquid_mass" => {
            scalar!(row; Density::from_kilograms_per_liter, Volume::from_liters => |d, v| vec![liquid_mass(d, v)?.kilograms()])
        }
        "liquid_volume" => {
            scalar!(row; Mass::from_kilograms, Density::from_kilograms_per_liter => |m, d| vec![liquid_volume(m, d)?.liters()])
        }
        "volume_rate" => {
            scalar!(row; Flow::from_liters_per_minute, Speed::from_kilometers_per_hour, Length::from_meters => |q, v, w| vec![volume_rate(q, v, w)?.liters_per_hectare()])
        }
        "required_flow" => {
            scalar!(row; VolumeRate::from_liters_per_hectare, Speed::from_kilometers_per_hour, Length::from_meters => |r, v, w| vec![required_flow(r, v, w)?.liters_per_minute()])
        }
        "required_speed" => {
            scalar!(row; Flow::from_liters_per_minute, VolumeRate::from_liters_per_hectare, Length::from_meters => |q, r, w| vec![required_speed(q, r, w)?.kilometers_per_hour()])
        }
        "required_swath" => {
            scalar!(row; Flow::from_liters_per_minute, VolumeRate::from_liters_per_hectare, Speed::from_kilometers_per_hour => |q, r, v| vec![required_swath(q, r, v)?.meters()])
        }
        "work_rate" => {
            scalar!(row; Speed::from_kilometers_per_hour, Length::from_meters => |v, w| vec![work_rate(v, w)?.hectares_per_hour()])
        }
        "spraying_time" => {
            scalar!(row; Area::from_hectares, WorkRate::from_hectares_per_hour => |a, w| vec![spraying_time(a, w)?.seconds()])
        }
        "flow" => scalar!(row; Volume::from_liters, Time::from_seconds => |v, t| vec![flow(v, t)?.liters_per_minute()]),
        "speed" => {
            scalar!(row; Length::from_meters, Time::from_seconds => |d, t| vec![speed(d, t)?.kilometers_per_hour()])
        }
        "course_length" => {
            scalar!(row; Area::from_hectares, Length::from_meters => |a, w| vec![course_length(a, w)?.meters()])
        }
        "applied_point" => {
            scalar!(row; Length::from_meters, Length::from_meters, Length::from_meters, VolumeRate::from_liters_per_hectare, VolumeRate::from_liters_per_hectare
            => |distance, swath, overlap, applied, target| {
                let point = applied_point(distance, swath, overlap, applied, target)?;
                vec![point.area.hectares(), point.mix.liters(), point.target_mix.liters(), point.to_target.number()]
            })
        }
        "water_density" => {
            scalar!(row; Temperature::from_degrees_celsius => |t| vec![water_density(t)?.kilograms_per_liter()])
        }
        "flow_at_pressure" => {
            scalar!(row; Flow::from_liters_per_minute, Pressure::from_kilopascals, Pressure::from_kilopascals
            => |q, p, at| vec![exact(q, p)?.flow_at(&Uncertain::exact(at)?)?.value().liters_per_minute()])
        }
        "required_pressure" => {
            scalar!(row; Flow::from_liters_per_minute, Pressure::from_kilopascals, Flow::from_liters_per_minute
            => |q, p, to| vec![exact(q, p)?.required_pressure(&Uncertain::exact(to)?)?.value().kilopascals()])
        }
        "delivered_liquid_dose" => {
            scalar!(row; Volume::from_liters, Volume::from_liters, Volume::from_liters, Volume::from_liters, VolumeRate::from_liters_per_hectare, VolumeRate::from_liters_per_hectare
            => |x, ux, v, uv, r, ur| {
                let dose = delivered_liquid_dose(&known_to("amount", x, ux)?, &known_to("mix", v, uv)?, &known_to("volume_rate", r, ur)?)?;
                vec![dose.value().liters_per_hectare(), dose.standard_uncertainty().liters_per_hectare()]
            })
        }
        "delivered_solid_dose" => {
            scalar!(row; Mass::from_kilograms, Mass::from_kilograms, Volume::from_liters, Volume::from_liters, VolumeRate::from_liters_per_hectare, VolumeRate::from_liters_per_hectare
            => |x, ux, v, uv, r, ur| {
                let dose = delivered_solid_dose(&known_to("amount", x, ux)?, &known_to("mix", v, uv)?, &known_to("volume_rate", r, ur)?)?;
                vec![dose.value().kilograms_per_hectare(), dose.standard_uncertainty().kilograms_per_hectare()]
            })
        }
        _ => panic!("no sum of one number is called {name}"),
    }
}

fn known_to<Q: AdditiveKind>(name: &str, value: Q, uncertainty: Q) -> Result<Uncertain<Q>, Error> {
    Uncertain::from_standard_uncertainty(name, value, uncertainty, DegreesOfFreedom::INFINITE)
}

/// All rows through columns: per row its outputs or its status.
fn rows(of: &Calculation, inputs: &[Column<'_>], count: usize, threads: usize) -> (usize, Vec<Vec<f64>>, Vec<u16>) {
    let mut outputs = vec![vec![7.0; count]; of.outputs.len()];
    let mut status = vec![9; count];
    let mut into: Vec<&mut [f64]> = outputs.iter_mut().map(Vec::as_mut_slice).collect();
    let refused = of.run(inputs, &mut into, Statuses::new(&mut status).on_threads(threads)).unwrap();
    (refused, outputs, status)
}

/// Holds every row against the sum of one number; how many are refused.
fn hold(of: &Calculation, table: &[Vec<f64>], threads: usize) -> usize {
    let columns: Vec<Vec<f64>> = (0..of.inputs.len()).map(|i| table.iter().map(|row| row[i]).collect()).collect();
    let inputs: Vec<Column<'_>> = columns.iter().map(|column| Column::Each(column)).collect();
    let (refused, outputs, status) = rows(of, &inputs, table.len(), threads);
    let mut expected = 0;
    for (i, row) in table.iter().enumerate() {
        match one(of.name, row) {
            Ok(values) => {
                let found: Vec<u64> = outputs.iter().map(|output| output[i].to_bits()).collect();
                let values: Vec<u64> = values.into_iter().map(f64::to_bits).collect();
                assert_eq!((status[i], found), (0, values), "{}{row:?}", of.name);
                assert!(of.explained(&inputs, i).is_ok());
            }
            Err(error) => {
                expected += 1;
                assert_eq!(u32::from(status[i]), error.code().number(), "{}{row:?}: {error}", of.name);
                assert!(outputs.iter().all(|output| output[i].is_nan()), "{}{row:?}", of.name);
                let told = of.explained(&inputs, i).unwrap_err();
                assert_eq!((told.code(), told.allowed_text()), (error.code(), error.allowed_text()));
                let named = told.path().strip_suffix(&format!("[{i}]")).unwrap();
                assert!(named == of.name || of.inputs.iter().any(|input| input.name == named), "{named}");
                // What takes a choice of inputs, or a step between inputs and answer, may be refused as a whole.
                let has_steps = [
                    "safe_fill",
                    "flow_at_pressure",
                    "required_pressure",
                    "delivered_liquid_dose",
                    "delivered_solid_dose",
                ];
                assert!(named != of.name || has_steps.contains(&of.name), "{}: {told}", of.name);
            }
        }
    }
    assert_eq!(refused, expected, "{}", of.name);
    refused
}

/// What a sensor, a spreadsheet or a hand may leave in a column.
const HOSTILE: [f64; 19] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    0.0,
    -0.0,
    5e-324,
    -5e-324,
    2.2e-308,
    1e-300,
    1e-28,
    -1.0,
    1e28,
    1e35,
    1e300,
    f64::MAX,
    f64::MIN,
    1.0,
    95.0,
    0.3,
];

#[test]
fn each_calculation_does_what_the_sum_of_one_number_does_with_hostile_numbers() {
    assert!(calculations().len() > 30);
    for of in calculations() {
        let mut table = vec![];
        let mut seed = 1_u64;
        for _ in 0..4000 {
            let row = of.inputs.iter().map(|_| {
                seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                let pick = (seed >> 33) as usize;
                // Mostly a plain number, so that inputs after a refused one are seen too.
                if pick.is_multiple_of(3) { HOSTILE[pick / 3 % HOSTILE.len()] } else { (pick % 997) as f64 * 0.1 }
            });
            table.push(row.collect());
        }
        let refused = hold(of, &table, 1);
        println!("{}: {refused} of {} refused", of.name, table.len());
        assert!(refused > 100 && refused < 3900, "{}: {refused}", of.name);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 32, ..ProptestConfig::default() })]

    #[test]
    fn rows_are_the_sums_of_one_number(seeds in prop::collection::vec(prop::collection::vec(1e-3..1e4_f64, 6), 1..40), steps in 1..2000_u32) {
        for of in calculations() {
            // On steps, beside them, and far from them.
            let row = |seed: &Vec<f64>| {
                let of_step = |value: &f64| (value * 10.0).round() / 10.0 * f64::from(steps) / 7.0;
                seed.iter().enumerate().map(|(i, value)| if i % 2 == 0 { *value } else { of_step(value) }).take(of.inputs.len()).collect()
            };
            let table: Vec<Vec<f64>> = seeds.iter().map(row).collect();
            hold(of, &table, 1);
        }
    }
}

#[test]
fn threads_steps_and_one_number_for_all_rows_change_nothing() {
    let of = calculations().find(|of| of.name == "plan").unwrap();
    let count = 10_000;
    let of_row =
        |i: usize, most: f64| if i.is_multiple_of(101) { f64::NAN } else { (i * 7919 % 1000) as f64 / 1000.0 * most };
    let areas: Vec<f64> = (0..count).map(|i| of_row(i, 40.0)).collect();
    let records: Vec<f64> = (0..count).flat_map(|i| [of_row(i, 40.0), -1.0, -2.0]).collect();
    let (rates, doses, fills) = (vec![200.0; count], vec![1.5; count], vec![95.0; count]);
    let each = [&areas, &rates, &doses, &fills].map(|column| Column::Each(column));
    let bits = |(refused, outputs, status): (usize, Vec<Vec<f64>>, Vec<u16>)| {
        let bits: Vec<u64> = outputs.into_iter().flatten().map(f64::to_bits).collect();
        (refused, bits, status)
    };
    let expected = bits(rows(of, &each, count, 1));
    assert!(expected.0 > 100);
    let stepped = Column::Stepped(&records, NonZeroUsize::new(3).unwrap());
    let others = [Column::Same(200.0), Column::Same(1.5), Column::Same(95.0)];
    for threads in [0, 1, 2, 3, 64, usize::MAX] {
        for first in [
            Column::Each(&areas),
            stepped,
            Column::Stepped(&records[..records.len() - 2], NonZeroUsize::new(3).unwrap()),
        ] {
            let inputs = [first, others[0], others[1], others[2]];
            assert!(bits(rows(of, &inputs, count, threads)) == expected, "{threads} threads");
        }
    }
    let all_same = [Column::Same(1.2), others[0], others[1], others[2]];
    assert_eq!(rows(of, &all_same, 3, 1).1[2], [2.0; 3]);
    assert_eq!(rows(of, &each.map(|_| Column::Each(&[])), 0, 4).0, 0);
}

#[test]
fn columns_of_unlike_lengths_are_refused_by_name_and_nothing_is_written() {
    let (mut amounts, mut status) = ([7.0; 3], [9; 3]);
    let error =
        columns::mix(Column::Same(200.0), Column::Each(&[1.0, 2.0]), [&mut amounts], Statuses::new(&mut status))
            .unwrap_err();
    assert_eq!((error.code(), error.path()), (ErrorCode::OutOfRange, "area_ha"));
    assert_eq!(error.to_string(), "area_ha: must be 3 rows, got 2 rows");
    let error = columns::mix(Column::Same(200.0), Column::Same(1.0), [&mut amounts[..2]], Statuses::new(&mut status))
        .unwrap_err();
    assert_eq!(error.path(), "mix_l");
    assert_eq!((amounts, status), ([7.0; 3], [9; 3]));
    let of = calculations().find(|of| of.name == "mix").unwrap();
    let error = of.run(&[], &mut [], Statuses::new(&mut status)).unwrap_err();
    assert_eq!((error.code(), error.path()), (ErrorCode::MissingInput, "mix"));
}

#[test]
fn a_refused_row_is_explained_as_its_sum_is_with_the_row_in_its_path() {
    let of = calculations().find(|of| of.name == "plan").unwrap();
    let inputs = [
        Column::Each(&[1.0, 1.0, f64::NAN]),
        Column::Same(200.0),
        Column::Each(&[1.0, 300.0, 1.0]),
        Column::Same(95.0),
    ];
    assert_eq!(of.explained(&inputs, 0), Ok(()));
    let told = |row| of.explained(&inputs, row).unwrap_err();
    assert_eq!((told(1).code(), told(1).path()), (ErrorCode::ProductsFillMix, "dose_l_per_ha[1]"));
    assert_eq!((told(2).code(), told(2).path()), (ErrorCode::NotFinite, "area_ha[2]"));
    assert_eq!(told(3).code(), ErrorCode::MissingInput);
    let error = of.explained(&inputs[..3], 1).unwrap_err();
    assert_eq!((error.code(), error.path()), (ErrorCode::MissingInput, "plan"));
}

#[test]
fn a_name_ends_in_its_unit() {
    let words = [
        ("ha", "ha"),
        ("L/ha", "l_per_ha"),
        ("kg/ha", "kg_per_ha"),
        ("L", "l"),
        ("kg", "kg"),
        ("%", "percent"),
        ("1", ""),
        ("mL/100 L", "ml_per_100_l"),
        ("g/100 L", "g_per_100_l"),
        ("g/L", "g_per_l"),
        ("g/kg", "g_per_kg"),
        ("kg/L", "kg_per_l"),
        ("L/min", "l_per_min"),
        ("km/h", "km_per_h"),
        ("m", "m"),
        ("ha/h", "ha_per_h"),
        ("s", "s"),
        ("°C", "c"),
        ("kPa", "kpa"),
    ];
    for of in calculations() {
        for column in of.inputs.iter().chain(of.outputs) {
            let (_, word) = words.iter().find(|(unit, _)| *unit == column.unit).unwrap();
            assert!(column.name.ends_with(word), "{}: {}", of.name, column.name);
            let said = column.doc.split([',', ';']).any(|part| part.trim() == column.unit);
            assert!(said || column.unit == "1", "{}: {}", column.name, column.doc);
        }
    }
}

// --- The Python face, which is made from the list of calculations ---

fn python() -> String {
    let mut text = String::from(PYTHON_HEAD);
    for name in calculations().map(|of| of.name).collect::<std::collections::BTreeSet<_>>() {
        text += &format!("    \"{name}\",\n");
    }
    text += "]\n\n_Numbers: TypeAlias = Any\n_Progress: TypeAlias = bool | Callable[[int, int], object]\n";
    for of in calculations() {
        let inputs = of.inputs.iter().map(|input| format!("{}: _Numbers = None, ", input.name)).collect::<String>();
        let given = of.inputs.iter().map(|input| format!("\"{0}\": {0}", input.name)).collect::<Vec<_>>().join(", ");
        let outputs = of.outputs.iter().map(|output| format!("\"{}\"", output.name)).collect::<Vec<_>>().join(", ");
        let said = |named: &[columns::Named]| {
            named.iter().map(|one| format!("    {}\n        {}.\n", one.name, one.doc)).collect::<String>()
        };
        text += &format!(
            "\n\ndef {}(\n    frame: Any = None, /, *, {inputs}\n    out: Mapping[str, Any] | None = None, on_error: Literal[\"raise\", \"status\"] = \"raise\", threads: int = 1, progress: _Progress = False,\n) -> Any:\n    \"\"\"{}\n\n    Parameters\n    ----------\n{}\n    Returns\n    -------\n{}\n    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.\n    \"\"\"\n    return _columns.run(\"{}\", [{outputs}], frame, {{{given}}}, out, on_error, threads, progress)\n",
            of.name,
            of.doc.trim(),
            said(of.inputs),
            said(of.outputs),
            of.name,
        );
    }
    text
}

const PYTHON_HEAD: &str = r#""""Every sum over columns: keyword arguments that end in the unit, arrays in, arrays out; a frame in, the same kind of frame out.

    >>> from mixcalc import columns
    >>> plan = columns.plan(area_ha=[1.2, 0.4], volume_rate_l_per_ha=200, dose_l_per_ha=1.5, safe_fill_l=95)
    >>> plan["full_loads"].tolist(), plan["part_load_l"].round(9).tolist()
    ([2.0, 0.0], [50.0, 80.0])

An argument is an array, a list, or one number for all rows; they are broadcast as numpy does. Doubles are read where they lie. Masked,
boolean and complex arrays are refused. The answer is a dictionary of arrays by the names under Returns.

With a `frame` of pandas, polars or pyarrow, or anything with the Arrow stream interface, an argument may be the name of a column, and one left out is
the column of its own name. The answer is the frame with the outputs beside its columns. What is missing in it stays missing.

`out` has arrays of doubles by the names under Returns, one row after the other and none of them an input: they are written and handed back, and memory
that is used again costs nothing to be had.

`on_error="raise"` raises the InputError of the first row that is refused, its place such as `area_ha[17]` in its path. With "status" such rows
are not a number, and `status` has for each row 0, or the code of its error. `threads` are used if asked for; other threads of Python run
meanwhile. `progress=True` tells on stderr how far it is, a function is called with rows done and all rows.

Made from the list of calculations of the core: change it there, then run `UPDATE_COLUMNS=1 cargo test -p mixcalc-tests --test columns`.
"""

from collections.abc import Callable, Mapping
from typing import Any, Literal, TypeAlias

from mixcalc import _columns

__all__ = [
"#;

/// Holds a file against what it should be, or writes it.
fn hold_file(path: &str, made: impl FnOnce(&str) -> String) {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(path);
    let found = std::fs::read_to_string(&path).unwrap_or_default();
    let made = made(&found);
    if std::env::var_os("UPDATE_COLUMNS").is_some() {
        std::fs::write(&path, &made).unwrap();
    } else {
        assert!(found == made, "run UPDATE_COLUMNS=1 cargo test -p mixcalc-tests --test columns");
    }
}

#[test]
fn the_python_face_is_what_the_list_of_calculations_says() {
    hold_file("mixcalc-py/python/mixcalc/columns.py", |_| python());
}

// --- The C face ---

fn c() -> String {
    let mut text = String::from(C_HEAD);
    for of in calculations() {
        let (inputs, outputs) = (of.inputs.iter(), of.outputs.iter());
        let said = |name: String, doc: &str| format!("/// {name:<44} {doc}\n");
        let told = inputs.clone().map(|one| said(one.name.into(), one.doc)).collect::<String>()
            + &outputs
                .clone()
                .map(|one| said(format!("out_{}", one.name), &format!("receives {}", one.doc)))
                .collect::<String>();
        let parameters = inputs.clone().map(|one| format!("    {}: ColumnView,\n", one.name)).collect::<String>()
            + "    rows: usize,\n    threads: usize,\n"
            + &outputs.clone().map(|one| format!("    out_{}: *mut f64,\n", one.name)).collect::<String>();
        let given = inputs.map(|one| one.name).collect::<Vec<_>>().join(", ");
        let into = outputs.map(|one| format!("(\"out_{0}\", out_{0})", one.name)).collect::<Vec<_>>().join(", ");
        text += &format!(
            "\n/// {}\n///\n{told}///\n/// What rows, threads, out_status and out_refused are stands at the head of this header. Returns MIXCALC_STATUS_OK,\n/// _NULL_POINTER (inputs, outputs, out_status, out_refused), _LENGTH (rows), _STRUCT_SIZE (error) or _PANIC.\n#[rustfmt::skip]\n#[unsafe(no_mangle)]\npub unsafe extern \"C\" fn mixcalc_columns_{}(\n{parameters}    out_status: *mut u16,\n    out_refused: *mut usize,\n    error: *mut ErrorDetails,\n) -> u32 {{\n    // SAFETY: the caller's promise.\n    unsafe {{ run(\"{}\", &[{given}], rows, threads, &[{into}], (out_status, out_refused), error) }}\n}}\n",
            of.doc.trim(),
            of.name,
            of.name,
        );
    }
    text
}

const C_HEAD: &str = r#"//! The functions over columns. Made from the list of calculations of the core: change it there, then run
//! `UPDATE_COLUMNS=1 cargo test -p mixcalc-tests --test columns` and `make header`.
#![allow(clippy::too_many_arguments, reason = "C has no other way to name what goes in and out")]

use crate::column::{ColumnView, run};
use crate::error::ErrorDetails;
"#;

/// The namespace of columns between its two marks.
fn cpp() -> String {
    let mut text = String::new();
    for of in calculations() {
        let (inputs, outputs) = (of.inputs.iter(), of.outputs.iter());
        let parameters = inputs.clone().map(|one| format!("Column {}, ", one.name)).collect::<String>();
        let into = outputs.clone().map(|one| format!("double *{}, ", one.name)).collect::<String>();
        let given = inputs.map(|one| one.name).chain(["rows", "threads"]).chain(outputs.map(|one| one.name));
        text += &format!(
            "/// {}\ninline std::size_t {}({parameters}std::size_t rows, {into}std::uint16_t *status, std::size_t threads = 1)\n{{\n    return detail::rows(mixcalc_columns_{}, {}, status);\n}}\n\n",
            of.doc.trim(),
            of.name,
            of.name,
            given.collect::<Vec<_>>().join(", "),
        );
    }
    text
}

#[test]
fn the_c_faces_are_what_the_list_of_calculations_says() {
    hold_file("mixcalc-ffi/src/columns.rs", |_| c());
    hold_file("mixcalc-ffi/include/mixcalc.hpp", |found| {
        let (before, rest) = found.split_once("// --- Made from the list of calculations ---\n").unwrap();
        let (_, after) = rest.split_once("// --- Up to here ---\n").unwrap();
        format!("{before}// --- Made from the list of calculations ---\n{}// --- Up to here ---\n{after}", cpp())
    });
}
