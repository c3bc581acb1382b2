//! One number at a time: the vectors that all languages share, and what holds between them.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::float_cmp,
    reason = "a test fails by panicking, and compares exact doubles"
)]

use std::collections::{BTreeMap, BTreeSet};

use mixcalc::*;
use mixcalc_tests::{is_within, run, vectors};
use proptest::prelude::*;
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(dead_code, reason = "why and source are for readers")]
struct Case {
    id: String,
    function: String,
    input: BTreeMap<String, f64>,
    value: Option<f64>,
    rel_tol: Option<f64>,
    error: Option<Refusal>,
    why: String,
    source: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Refusal {
    code: u32,
    path: String,
}

/// Each function by its name in C, from numbers to a number.
macro_rules! sums {
    ($name:expr, $input:expr; $($c:literal: $sum:ident($($kind:ident::$from:ident[$key:literal]),*).$unit:ident;)*) => {
        match $name {
            $($c => Some($sum($($kind::$from($input[$key]).unwrap()),*).map(|answer| answer.$unit())),)*
            _ => None,
        }
    };
}

fn answered(name: &str, input: &BTreeMap<String, f64>) -> Result<f64, Error> {
    let known =
        |key: &str| Some(input[key]).filter(|value| *value != 0.0).map(|value| Volume::from_liters(value).unwrap());
    if name == "safe_fill_l" {
        let tank = Tank::new(known("nominal_l"), known("brim_l"))?;
        let tank = tank.with_headspace(Ratio::from_percent(input["headspace_percent"])?)?;
        let tank = known("graduation_l").map_or(Ok(tank.clone()), |graduation| tank.with_graduation(graduation))?;
        return tank.safe_fill().map(Volume::liters);
    }
    sums! { name, input;
        "mix_l": mix(VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"], Area::from_hectares["area_ha"]).liters;
        "area_for_mix_ha": area_for_mix(Volume::from_liters["mix_l"], VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"]).hectares;
        "liquid_amount_l": liquid_amount(LiquidDose::from_liters_per_hectare["liquid_dose_l_per_ha"], Area::from_hectares["area_ha"]).liters;
        "solid_amount_kg": solid_amount(SolidDose::from_kilograms_per_hectare["solid_dose_kg_per_ha"], Area::from_hectares["area_ha"]).kilograms;
        "liquid_amount_in_mix_l": liquid_amount_in_mix(VolumeFraction::from_milliliters_per_100_liters["volume_fraction_ml_per_100_l"], Volume::from_liters["mix_l"]).liters;
        "solid_amount_in_mix_kg": solid_amount_in_mix(MassConcentration::from_grams_per_100_liters["mass_concentration_g_per_100_l"], Volume::from_liters["mix_l"]).kilograms;
        "liquid_dose_l_per_ha": liquid_dose(VolumeFraction::from_milliliters_per_100_liters["volume_fraction_ml_per_100_l"], VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"]).liters_per_hectare;
        "solid_dose_kg_per_ha": solid_dose(MassConcentration::from_grams_per_100_liters["mass_concentration_g_per_100_l"], VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"]).kilograms_per_hectare;
        "volume_fraction_ml_per_100_l": volume_fraction(LiquidDose::from_liters_per_hectare["liquid_dose_l_per_ha"], VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"]).milliliters_per_100_liters;
        "mass_concentration_g_per_100_l": mass_concentration(SolidDose::from_kilograms_per_hectare["solid_dose_kg_per_ha"], VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"]).grams_per_100_liters;
        "substance_in_liquid_dose_kg_per_ha": substance_in_liquid_dose(Content::from_grams_per_liter["content_g_per_l"], LiquidDose::from_liters_per_hectare["liquid_dose_l_per_ha"]).kilograms_per_hectare;
        "substance_in_solid_dose_kg_per_ha": substance_in_solid_dose(MassFraction::from_grams_per_kilogram["content_g_per_kg"], SolidDose::from_kilograms_per_hectare["solid_dose_kg_per_ha"]).kilograms_per_hectare;
        "liquid_dose_of_substance_l_per_ha": liquid_dose_of_substance(Content::from_grams_per_liter["content_g_per_l"], MassPerArea::from_kilograms_per_hectare["substance_kg_per_ha"]).liters_per_hectare;
        "solid_dose_of_substance_kg_per_ha": solid_dose_of_substance(MassFraction::from_grams_per_kilogram["content_g_per_kg"], MassPerArea::from_kilograms_per_hectare["substance_kg_per_ha"]).kilograms_per_hectare;
        "liquid_mass_kg": liquid_mass(Density::from_kilograms_per_liter["density_kg_per_l"], Volume::from_liters["volume_l"]).kilograms;
        "liquid_volume_l": liquid_volume(Mass::from_kilograms["mass_kg"], Density::from_kilograms_per_liter["density_kg_per_l"]).liters;
        "volume_rate_l_per_ha": volume_rate(Flow::from_liters_per_minute["flow_l_per_min"], Speed::from_kilometers_per_hour["speed_km_per_h"], Length::from_meters["swath_m"]).liters_per_hectare;
        "required_flow_l_per_min": required_flow(VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"], Speed::from_kilometers_per_hour["speed_km_per_h"], Length::from_meters["swath_m"]).liters_per_minute;
        "required_speed_km_per_h": required_speed(Flow::from_liters_per_minute["flow_l_per_min"], VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"], Length::from_meters["swath_m"]).kilometers_per_hour;
        "required_swath_m": required_swath(Flow::from_liters_per_minute["flow_l_per_min"], VolumeRate::from_liters_per_hectare["volume_rate_l_per_ha"], Speed::from_kilometers_per_hour["speed_km_per_h"]).meters;
        "work_rate_ha_per_h": work_rate(Speed::from_kilometers_per_hour["speed_km_per_h"], Length::from_meters["swath_m"]).hectares_per_hour;
        "spraying_time_s": spraying_time(Area::from_hectares["area_ha"], WorkRate::from_hectares_per_hour["work_rate_ha_per_h"]).seconds;
        "flow_l_per_min": flow(Volume::from_liters["volume_l"], Time::from_seconds["time_s"]).liters_per_minute;
        "speed_km_per_h": speed(Length::from_meters["distance_m"], Time::from_seconds["time_s"]).kilometers_per_hour;
        "course_length_m": course_length(Area::from_hectares["area_ha"], Length::from_meters["swath_m"]).meters;
        "water_density_kg_per_l": water_density(Temperature::from_degrees_celsius["temperature_c"]).kilograms_per_liter;
    }
    .unwrap_or_else(|| panic!("no sum is called {name}"))
}

#[test]
fn every_sum_is_the_one_worked_by_hand_or_refused() {
    let cases = vectors::<Case>("sums", "sum");
    run(
        "sums.json",
        &cases,
        |case| &case.id,
        |case| match (answered(&case.function, &case.input), &case.error) {
            (Err(error), Some(refusal)) if (error.code().number(), error.path()) == (refusal.code, &refusal.path) => {
                Ok(())
            }
            (Ok(value), None) if is_within(value, case.value.unwrap(), case.rel_tol.unwrap()) => Ok(()),
            (answer, _) => Err(format!("{answer:?}")),
        },
    );
}

#[test]
fn every_sum_has_vectors_that_answer_and_vectors_that_refuse() {
    let names = |refused: bool| -> BTreeSet<String> {
        let cases = vectors::<Case>("sums", "sum").into_iter().filter(|case| case.error.is_some() == refused);
        cases.map(|case| case.function).collect()
    };
    assert_eq!(names(true), names(false));
    assert_eq!(names(true), sums_of_c());
}

/// The functions of the C header from numbers to a number, without their prefix.
fn sums_of_c() -> BTreeSet<String> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../mixcalc-ffi/include/mixcalc.h");
    let header = std::fs::read_to_string(path).unwrap();
    let is_sum = |inputs: &str| {
        let mut inputs: Vec<&str> = inputs.split(',').map(str::trim).collect();
        let (error, out) = (inputs.pop().unwrap(), inputs.pop().unwrap_or_default());
        let is_number = |input: &&str| input.starts_with("double ") && !input.contains('*');
        error.ends_with("*error")
            && out.starts_with("double *out_")
            && !inputs.is_empty()
            && inputs.iter().all(is_number)
    };
    let functions =
        header.split("uint32_t mixcalc_").skip(1).filter_map(|rest| rest.split_once(')')?.0.split_once('('));
    functions.filter(|(_, inputs)| is_sum(inputs)).map(|(name, _)| name.into()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn each_required_input_gives_the_volume_rate_back(q in 0.01..500.0, v in 0.1..40.0, w in 0.1..60.0) {
        let (q, v, w) = (Flow::from_liters_per_minute(q)?, Speed::from_kilometers_per_hour(v)?, Length::from_meters(w)?);
        let rate = volume_rate(q, v, w)?;
        prop_assert!(is_within(required_flow(rate, v, w)?.liters_per_minute(), q.liters_per_minute(), 1e-14));
        prop_assert!(is_within(required_speed(q, rate, w)?.kilometers_per_hour(), v.kilometers_per_hour(), 1e-14));
        prop_assert!(is_within(required_swath(q, rate, v)?.meters(), w.meters(), 1e-14));
        let time = spraying_time(Area::from_hectares(1.0)?, work_rate(v, w)?)?;
        prop_assert!(is_within(flow(mix(rate, Area::from_hectares(1.0)?)?, time)?.liters_per_minute(), q.liters_per_minute(), 1e-14));
    }

    #[test]
    fn full_loads_and_the_part_load_are_the_mix_and_never_over_the_safe_fill(mix in 0.001..1e6, fill in 0.5..1e4) {
        let (mix, fill) = (Volume::from_liters(mix)?, Volume::from_liters(fill)?);
        let (full, part) = full_and_part_load(mix, fill)?;
        prop_assert!(part < fill);
        prop_assert!(is_within(fill.liters() * full as f64 + part.liters(), mix.liters(), 1e-12));
    }

    #[test]
    fn graduations_are_nearest_and_never_over_the_maximum(amount in 0.001..2.0, step in 0.0005..0.1, more in 0.0..0.2) {
        let [x, g, most] = [amount, step, amount + more].map(|liters| Volume::from_liters(liters).unwrap());
        match graduations(x.into(), g.into(), most.into()) {
            Ok(counted) => {
                let shown = counted as f64 * step;
                prop_assert!(counted >= 1 && shown <= (amount + more) * (1.0 + 1e-12) && (shown - amount).abs() < step * (1.0 + 1e-12));
                prop_assert!(shown + step > amount + more || (shown - amount).abs() <= step * (0.5 + 1e-9));
            }
            Err(error) => prop_assert!(amount < step && error.path() == "amount", "{error}"),
        }
    }
}

#[test]
fn graduations_that_cannot_be_counted_are_refused_with_their_reason() {
    let volume = |text| Amount::from(Volume::read(text).unwrap());
    let refused = |amount, step, most| {
        let error = graduations(amount, step, most).unwrap_err();
        (error.code(), error.to_string())
    };
    let (code, message) = refused(volume("4 mL"), volume("10 mL"), volume("20 mL"));
    assert_eq!(
        (code, message.as_str()),
        (ErrorCode::OutOfRange, "amount: must be at least one graduation, 10 mL, got 4 mL")
    );
    let (code, message) = refused(volume("30 mL"), volume("10 mL"), volume("20 mL"));
    assert_eq!(
        (code, message.as_str()),
        (ErrorCode::OutOfRange, "amount: must be at most the maximum, 20 mL, got 30 mL")
    );
    let (code, message) = refused(volume("30 mL"), Mass::read("1 g").unwrap().into(), volume("30 mL"));
    assert_eq!(code, ErrorCode::WrongQuantity);
    assert!(message.starts_with("graduation: must be a volume"), "{message}");
    assert_eq!(refused(volume("1 L"), volume("1e-25 L"), volume("1 L")).0, ErrorCode::Uncountable);
}
