//! Hardness and ammonium sulfate against the published figures, in their own units.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use mixcalc::*;
use mixcalc_tests::is_within;

fn water(ions: [f64; 5]) -> Result<Water, Error> {
    let [potassium, sodium, calcium, magnesium, iron] =
        ions.map(|ppm| Quantity::from_parts(ppm, "mg/L").unwrap().claim::<MassConcentration>().unwrap());
    Water::new()
        .with_potassium(potassium)?
        .with_sodium(sodium)?
        .with_calcium(calcium)?
        .with_magnesium(magnesium)?
        .with_iron(iron)
}

#[test]
fn ammonium_sulfate_is_that_of_the_published_equation() {
    // Each ion by itself, 100 ppm: the coefficients; then all of them at once.
    let each = [0.2, 0.5, 0.9, 1.4, 4.2];
    for (ion, pounds) in each.into_iter().enumerate() {
        let mut ions = [0.0; 5];
        ions.iter_mut().skip(ion).take(1).for_each(|ppm| *ppm = 100.0);
        let need = Quantity::from(water(ions).unwrap().ammonium_sulfate_need());
        assert!(is_within(need.to("lb/100 US gal").unwrap(), pounds, 1e-12), "{ion}: {need}");
    }
    // 0.002 x 10 + 0.005 x 160 + 0.009 x 213 + 0.014 x 84 + 0.042 x 2 = 0.02 + 0.8 + 1.917 + 1.176 + 0.084 lb.
    let need = Quantity::from(water([10.0, 160.0, 213.0, 84.0, 2.0]).unwrap().ammonium_sulfate_need());
    assert!(is_within(need.to("lb/100 US gal").unwrap(), 3.997, 1e-12), "{need}");
    // 1 lb in 100 US gal is 453.59237 g in 378.5411784 L, 1.19826427 g/L.
    assert!(is_within(need.to("g/L").unwrap(), 3.997 * 453.592_37 / 378.541_178_4, 1e-12), "{need}");
    assert_eq!(water([0.0; 5]).unwrap().ammonium_sulfate_need(), MassConcentration::ZERO);
}

#[test]
fn hardness_and_its_classes() {
    // 120 mg/L of calcium carbonate is 48.0577... mg/L of calcium; the classes end on their figures.
    for (calcium, magnesium, class) in [
        (24.0, 0.0, HardnessClass::Soft),
        (60.0 / 2.497, 0.0, HardnessClass::Moderate),
        (120.0 / 2.497, 0.0, HardnessClass::Moderate),
        (120.001 / 2.497, 0.0, HardnessClass::Hard),
        (0.0, 180.0 / 4.118, HardnessClass::Hard),
        (0.0, 180.001 / 4.118, HardnessClass::VeryHard),
        (100.0, 30.0, HardnessClass::VeryHard),
    ] {
        let water = water([0.0, 0.0, calcium, magnesium, 0.0]).unwrap();
        let hardness = Quantity::from(water.hardness()).to("mg/L").unwrap();
        assert!(is_within(hardness, 2.497 * calcium + 4.118 * magnesium, 1e-12), "{hardness}");
        assert_eq!(water.hardness_class(), class, "{hardness}");
    }
}

#[test]
fn less_than_nothing_is_refused_and_the_greater_rate_is_taken() {
    let none = MassConcentration::read("0 g/L").unwrap();
    let less = none - MassConcentration::read("1 mg/L").unwrap();
    let refused = Water::new().with_iron(less).unwrap_err();
    assert_eq!((refused.code(), refused.path()), (ErrorCode::OutOfRange, "iron"));
    let [need, label] = ["1.5 g/L", "10 g/L"].map(|text| MassConcentration::read(text).unwrap());
    assert_eq!(ammonium_sulfate(need, label).unwrap(), label);
    assert_eq!(ammonium_sulfate(label, need).unwrap(), label);
    assert_eq!(ammonium_sulfate(need, less).unwrap_err().path(), "label");
}
