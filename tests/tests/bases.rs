//! One treatment stated on every basis: the recipe is the same, to the graduation.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test fails by panicking")]

use std::collections::BTreeSet;

use mixcalc::{
    Area, Basis, Crop, Dose, Job, Label, Length, Measure, Plan, Product, Quantity, Rate, Rows, Sides, Sprayer,
    SprayerKind, Tank, Volume, VolumeRate,
};
use proptest::prelude::*;

/// A crop of which everything is stated: rows in which plants stand, bands, and spots on a part of the ground.
fn crop() -> impl Strategy<Value = Crop> {
    let lengths = (1.0..6.0_f64, 0.2..3.0_f64, 0.3..5.0_f64, 0.2..3.0_f64, 0.05..1.0_f64);
    (lengths, any::<(bool, bool)>(), 1..100_000_u64).prop_map(
        |((row, plant, height, width, band), (both, all), spots)| {
            let m = |meters: f64| Length::from_meters(meters).unwrap();
            Crop::new()
                .with_row_spacing(m(row))
                .and_then(|crop| crop.with_plant_spacing(m(plant)))
                .and_then(|crop| crop.with_canopy_height(m(height)))
                .and_then(|crop| crop.with_canopy_width(m(width)))
                .and_then(|crop| crop.with_band_width(m(band)))
                .and_then(|crop| crop.with_spots(spots))
                .unwrap()
                .with_treated_sides(if both { Sides::Both } else { Sides::One })
                .with_treated_rows(if all { Rows::Every } else { Rows::Alternate })
        },
    )
}

/// A job with one product at a dose.
fn job(crop: Crop, area: Area, rate: Rate, dose: Dose) -> Job {
    let volume = |text| Volume::read(text).unwrap();
    let tank = Tank::new(Some(volume("200 L")), Some(volume("220 L"))).unwrap();
    let product = Product::new("example product A", dose).unwrap();
    let product = product.with_density(mixcalc::Density::from_kilograms_per_liter(1.1).unwrap()).unwrap();
    let product = product.with_label(Label::new().with_max_dose(dose)).unwrap();
    Job::new(area, rate, Sprayer::new(SprayerKind::BushAndTree), tank)
        .and_then(|job| job.with_crop(crop))
        .and_then(|job| job.with_product(product))
        .and_then(|job| job.with_measure(Measure::vessel(volume("2 L"), volume("1 mL"))?))
        .unwrap()
}

/// Loads with their volumes to the digits that people see, and the graduations of each.
fn recipe(plan: &Plan) -> Option<Vec<(u64, String, Option<u64>)>> {
    let cleared = plan.cleared()?;
    let recipes = cleared
        .recipes()
        .map(|recipe| {
            let load = recipe.load();
            (load.count(), load.mix().to_string(), recipe.amount(0).map(|amount| amount.graduations()))
        })
        .collect();
    Some(recipes)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn one_treatment_on_every_basis_has_one_recipe(
        crop in crop(), hectares in 0.2..20.0_f64, per_hectare in 0.05..10.0_f64, rate in 50.0..1500.0_f64, by_mass: bool,
    ) {
        let area = Area::from_hectares(hectares).unwrap();
        let volume_rate = VolumeRate::from_liters_per_hectare(rate).unwrap();
        let unit = if by_mass { "kg/ha" } else { "L/ha" };
        let dose = Dose::claim(Quantity::from_parts(per_hectare, unit).unwrap(), None).unwrap();
        let on_ground = mixcalc::plan(&job(crop, area, Rate::Volume(volume_rate), dose)).unwrap();
        let expected = recipe(&on_ground);
        // Hardly any job ends in a load too small to measure.
        prop_assume!(expected.is_some());

        let doses = on_ground.doses(0);
        let bases: BTreeSet<&str> = doses.iter().map(|dose| dose.basis().name()).collect();
        let all: BTreeSet<&str> = Basis::all().iter().map(|basis| basis.name()).collect();
        prop_assert_eq!(all.difference(&bases).copied().collect::<Vec<_>>(), ["carrier-volume"]);
        for restated in doses {
            let plan = mixcalc::plan(&job(crop, area, Rate::Volume(volume_rate), restated)).unwrap();
            prop_assert_eq!(&recipe(&plan), &expected, "{:?}", restated.basis());
            // And back: each basis gives the same list.
            for (again, first) in plan.doses(0).into_iter().zip(on_ground.doses(0)) {
                let ratio = Quantity::from(again).over(first.into()).unwrap().to("1").unwrap();
                prop_assert!((ratio - 1.0).abs() < 1e-12, "{:?} and {:?}", again, first);
            }
        }
    }

    #[test]
    fn one_rate_on_every_basis_makes_one_mix(crop in crop(), hectares in 0.2..20.0_f64, rate in 50.0..1500.0_f64) {
        let area = Area::from_hectares(hectares).unwrap();
        let volume_rate = VolumeRate::from_liters_per_hectare(rate).unwrap();
        // A product at the volume rate stands for the mix, to be told its volume on each basis.
        let as_dose = Dose::claim(Quantity::from_parts(volume_rate.liters_per_hectare(), "L/ha").unwrap(), None).unwrap();
        let wide = VolumeRate::from_liters_per_hectare(rate * 2.0).unwrap();
        let told = mixcalc::plan(&job(crop, area, Rate::Volume(wide), as_dose)).unwrap().doses(0);
        let dose = Dose::claim(Quantity::read("1 L/ha").unwrap(), None).unwrap();
        let expected = mixcalc::plan(&job(crop, area, Rate::Volume(volume_rate), dose)).unwrap().made();
        for on in told.into_iter().filter(|on| on.basis() != Basis::MixVolume) {
            for stated in [Rate::volume_on(on.into(), on.basis()), Rate::carrier_on(on.into(), on.basis())] {
                let stated = match (stated, on) {
                    (Ok(stated), _) => stated,
                    // A liquid dose is no volume rate, not even where both are L/ha of ground.
                    (Err(_), Dose::LiquidPerArea(_)) => continue,
                    (Err(error), _) => return Err(TestCaseError::fail(error.to_string())),
                };
                let made = mixcalc::plan(&job(crop, area, stated, dose)).unwrap();
                let of_carrier = matches!(stated, Rate::CarrierPerCrop(_));
                let product = if of_carrier { Volume::from_liters(hectares).unwrap() } else { Volume::ZERO };
                prop_assert!(((made.made() / (expected + product)).number() - 1.0).abs() < 1e-12, "{:?}", on.basis());
            }
        }
    }
}
