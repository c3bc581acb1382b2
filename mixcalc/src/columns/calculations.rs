//! The calculations: for each its formula, and the names, units and words of its columns. The C and Python faces are made from this list.

use super::{Calculation, Column, Named, Statuses};
use crate::error::Error;
use crate::quantity::checks::{Coded, Sound, Stated, UnitOf, answered};
use crate::quantity::*;
use crate::sprayer::{Nozzle, Tank};
use crate::uncertainty::{DegreesOfFreedom, Uncertain};

/// A loop over slices of one length side by side.
macro_rules! side_by_side {
    (@ $pattern:pat, $zipped:expr; $body:block) => {
        for $pattern in $zipped $body
    };
    (@ $pattern:pat, $zipped:expr; $next:ident, $($rest:ident,)* $body:block) => {
        side_by_side!(@ ($pattern, $next), $zipped.zip($next); $($rest,)* $body)
    };
    ($first:ident, $($rest:ident,)* $body:block) => {
        side_by_side!(@ $first, $first.iter(); $($rest,)* $body)
    };
}

/// Declares the calculations. Each is a module with its loops, and a function that runs it.
macro_rules! calculations {
    ($(
        $(#[doc = $doc:literal])*
        $name:ident($($input:ident: $kind:ident in $unit:literal $what:literal),* $(,)?)
            -> ($($output:ident: $into:ident in $in:literal $is:literal),* $(,)?)
            = $formula:expr;
    )*) => {
        $(
            #[allow(clippy::too_many_arguments)]
            mod $name {
                use super::*;

                pub(super) static CALCULATION: Calculation = Calculation {
                    name: stringify!($name),
                    doc: concat!($($doc),*),
                    inputs: &[$(Named { name: stringify!($input), unit: $unit, doc: $what }),*],
                    outputs: &[$(Named { name: stringify!($output), unit: $in, doc: $is }),*],
                    kernel: block,
                    explain,
                };

                /// One row, from bare numbers to bare numbers.
                #[inline(always)]
                fn row<C: Stated>(checks: &mut C, $($input: f64),*) -> [f64; [$($in),*].len()] {
                    $(
                        let $input = checks.stated(
                            $input, const { &UnitOf::<$kind>::named($unit) }, stringify!($input)
                        );
                    )*
                    #[allow(unused_parens, reason = "one output or more")]
                    let ($($output),*) = $formula(checks, $($input),*);
                    [$(UnitOf::<$into>::number(const { &UnitOf::<$into>::named($in) }, $output)),*]
                }

                /// All rows; a status that is not 0 where one is refused. Every slice is a parameter of its own, so that the compiler
                /// knows that none overlaps another.
                #[multiversion::multiversion(targets("x86_64+avx2"))]
                fn worked_out($($input: &[f64],)* $($output: &mut [f64],)* status: &mut [u16]) {
                    side_by_side!($($input,)* $($output,)* status, {
                        let mut checks = Sound(true);
                        [$(*$output),*] = row(&mut checks, $(*$input),*);
                        *status = u16::from(!checks.0);
                    });
                }

                /// The rows that are refused: why, and no number.
                fn refused($($input: &[f64],)* $($output: &mut [f64],)* status: &mut [u16]) {
                    side_by_side!($($input,)* $($output,)* status, {
                        if *status != 0 {
                            let mut checks = Coded::default();
                            row(&mut checks, $(*$input),*);
                            *status = checks.status();
                            $(*$output = f64::NAN;)*
                        }
                    });
                }

                fn block(inputs: &[&[f64]], outputs: &mut [&mut [f64]], status: &mut [u16]) -> usize {
                    let ([$($input),*], [$($output),*]) = (inputs, outputs) else { return 0 };
                    worked_out($($input,)* $($output,)* status);
                    let count = status.iter().filter(|status| **status != 0).count();
                    if count > 0 {
                        refused($($input,)* $($output,)* status);
                    }
                    count
                }

                fn explain(values: &[f64]) -> Result<(), Error> {
                    let [$($input),*] = values else { return Ok(()) };
                    answered(|checks| row(checks, $(*$input),*)).map(drop)
                }
            }

            #[doc = concat!($($doc),*)]
            ///
            /// Inputs:
            ///
            $(#[doc = concat!("* `", stringify!($input), "`: ", $what, ".")])*
            ///
            /// Outputs, in this order:
            ///
            $(#[doc = concat!("* `", stringify!($output), "`: ", $is, ".")])*
            ///
            /// # Errors
            ///
            /// As [`Calculation::run`].
            #[allow(clippy::too_many_arguments)]
            pub fn $name(
                $($input: Column<'_>,)*
                outputs: [&mut [f64]; [$($in),*].len()],
                rows: Statuses<'_>,
            ) -> Result<usize, Error> {
                let mut outputs = outputs;
                $name::CALCULATION.run(&[$($input),*], &mut outputs, rows)
            }
        )*

        /// Every calculation.
        #[must_use]
        pub fn calculations() -> impl ExactSizeIterator<Item = &'static Calculation> {
            [$(&$name::CALCULATION),*].into_iter()
        }
    };
}

calculations! {
    /// The loads of one liquid product at a volume rate: mix, product, full loads and the part load after them, and the product in each. Nothing is measured here, and no limit of a label is known.
    plan(
        area_ha: Area in "ha" "ground to be treated, ha, above 0",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, the product inside, L/ha, above 0",
        dose_l_per_ha: LiquidDose in "L/ha" "volume of product per ground area, L/ha, above 0 and below the volume rate",
        safe_fill_l: Volume in "L" "the most that the tank may be filled to, L, above 0",
    ) -> (
        mix_l: Volume in "L" "finished mix for the area, L",
        product_l: Volume in "L" "product for the area, L",
        full_loads: Ratio in "1" "how many loads are filled to the safe fill",
        part_load_l: Volume in "L" "the part load after them, L; 0 where there is none",
        product_in_full_load_l: Volume in "L" "product in a load at the safe fill, L",
        product_in_part_load_l: Volume in "L" "product in the part load, L",
    ) = crate::plan::plain::formula::plain_plan;

    /// Volume of mix for an area at a volume rate.
    mix(
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, 0 or more",
        area_ha: Area in "ha" "ground to be treated, ha, 0 or more",
    ) -> (mix_l: Volume in "L" "finished mix, L") = crate::plan::mix::formula::mix;

    /// Ground that a volume of mix serves.
    area_for_mix(
        mix_l: Volume in "L" "finished mix, L, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, above 0",
    ) -> (area_ha: Area in "ha" "ground that it serves, ha") = crate::plan::mix::formula::area_for_mix;

    /// Full loads, and the volume of the part load after them.
    full_and_part_load(
        mix_l: Volume in "L" "finished mix, L, above 0",
        safe_fill_l: Volume in "L" "the most that the tank may be filled to, L, above 0",
    ) -> (
        full_loads: Ratio in "1" "how many loads are filled to the safe fill",
        part_load_l: Volume in "L" "the part load after them, L; 0 where there is none",
    ) = crate::plan::loads::formula::full_and_part_load;

    /// The most that a tank may be filled to, by what is known of it: the lesser of the nominal volume and the brim capacity without the headspace, down to a mark of the tank.
    safe_fill(
        nominal_l: Volume in "L" "nominal volume, L; 0 where it is not known",
        brim_l: Volume in "L" "brim capacity, L; 0 where it is not known",
        headspace_percent: Ratio in "%" "part of the brim capacity left empty on purpose, %, 0 or more and below 100",
        graduation_l: Volume in "L" "the step of the tank's own marks, L; 0 for a tank without",
    ) -> (safe_fill_l: Volume in "L" "the safe fill, L") = safe_fill_of;

    /// Whole graduations nearest to a volume, a half going down, and never over the maximum.
    graduations_of_volume(
        amount_l: Volume in "L" "what the dose asks for, L, at least one graduation and at most the maximum",
        graduation_l: Volume in "L" "the smallest step that the measure shows, L, above 0",
        maximum_l: Volume in "L" "the most that the label allows, L; the amount itself where it allows no more",
    ) -> (graduations: Ratio in "1" "how many graduations to measure") = measured::<Volume>;

    /// Whole graduations nearest to a mass, a half going down, and never over the maximum.
    graduations_of_mass(
        amount_kg: Mass in "kg" "what the dose asks for, kg, at least one graduation and at most the maximum",
        graduation_kg: Mass in "kg" "the smallest step that the measure shows, kg, above 0",
        maximum_kg: Mass in "kg" "the most that the label allows, kg; the amount itself where it allows no more",
    ) -> (graduations: Ratio in "1" "how many graduations to measure") = measured::<Mass>;

    /// Volume of a product for an area, at a dose by volume.
    liquid_amount(
        liquid_dose_l_per_ha: LiquidDose in "L/ha" "volume of product per ground area, L/ha, 0 or more",
        area_ha: Area in "ha" "ground to be treated, ha, 0 or more",
    ) -> (amount_l: Volume in "L" "product, L") = crate::label::amount::formula::liquid_amount;

    /// Mass of a product for an area, at a dose by mass.
    solid_amount(
        solid_dose_kg_per_ha: SolidDose in "kg/ha" "mass of product per ground area, kg/ha, 0 or more",
        area_ha: Area in "ha" "ground to be treated, ha, 0 or more",
    ) -> (amount_kg: Mass in "kg" "product, kg") = crate::label::amount::formula::solid_amount;

    /// Volume of a product in a volume of mix, at a dose per volume of finished mix.
    liquid_amount_in_mix(
        volume_fraction_ml_per_100_l: VolumeFraction in "mL/100 L" "product per finished mix, mL/100 L, 0 or more",
        mix_l: Volume in "L" "finished mix, the product inside, L, 0 or more",
    ) -> (amount_l: Volume in "L" "product, L") = crate::label::amount::formula::liquid_amount_in_mix;

    /// Mass of a product in a volume of mix, at a dose per volume of finished mix.
    solid_amount_in_mix(
        mass_concentration_g_per_100_l: MassConcentration in "g/100 L" "product per finished mix, g/100 L, 0 or more",
        mix_l: Volume in "L" "finished mix, the product inside, L, 0 or more",
    ) -> (amount_kg: Mass in "kg" "product, kg") = crate::label::amount::formula::solid_amount_in_mix;

    /// Dose by volume per ground area that a dose per volume of mix comes to.
    liquid_dose(
        volume_fraction_ml_per_100_l: VolumeFraction in "mL/100 L" "product per finished mix, mL/100 L, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, 0 or more",
    ) -> (liquid_dose_l_per_ha: LiquidDose in "L/ha" "volume of product per ground area, L/ha") = crate::label::amount::formula::liquid_dose;

    /// Dose by mass per ground area that a dose per volume of mix comes to.
    solid_dose(
        mass_concentration_g_per_100_l: MassConcentration in "g/100 L" "product per finished mix, g/100 L, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, 0 or more",
    ) -> (solid_dose_kg_per_ha: SolidDose in "kg/ha" "mass of product per ground area, kg/ha") = crate::label::amount::formula::solid_dose;

    /// Dose per volume of finished mix that a dose by volume per ground area comes to.
    volume_fraction(
        liquid_dose_l_per_ha: LiquidDose in "L/ha" "volume of product per ground area, L/ha, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, above 0",
    ) -> (volume_fraction_ml_per_100_l: VolumeFraction in "mL/100 L" "product per finished mix, mL/100 L") = crate::label::amount::formula::volume_fraction;

    /// Dose per volume of finished mix that a dose by mass per ground area comes to.
    mass_concentration(
        solid_dose_kg_per_ha: SolidDose in "kg/ha" "mass of product per ground area, kg/ha, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, above 0",
    ) -> (mass_concentration_g_per_100_l: MassConcentration in "g/100 L" "product per finished mix, g/100 L") = crate::label::amount::formula::mass_concentration;

    /// Active substance per ground area in a dose by volume.
    substance_in_liquid_dose(
        content_g_per_l: Content in "g/L" "active substance in the product, g/L, 0 or more",
        liquid_dose_l_per_ha: LiquidDose in "L/ha" "volume of product per ground area, L/ha, 0 or more",
    ) -> (substance_kg_per_ha: MassPerArea in "kg/ha" "active substance per ground area, kg/ha") = crate::label::amount::formula::substance_in_liquid_dose;

    /// Active substance per ground area in a dose by mass.
    substance_in_solid_dose(
        content_g_per_kg: MassFraction in "g/kg" "active substance in the product, g/kg, 0 or more",
        solid_dose_kg_per_ha: SolidDose in "kg/ha" "mass of product per ground area, kg/ha, 0 or more",
    ) -> (substance_kg_per_ha: MassPerArea in "kg/ha" "active substance per ground area, kg/ha") = crate::label::amount::formula::substance_in_solid_dose;

    /// Dose by volume that gives an amount of active substance per ground area.
    liquid_dose_of_substance(
        content_g_per_l: Content in "g/L" "active substance in the product, g/L, above 0",
        substance_kg_per_ha: MassPerArea in "kg/ha" "active substance per ground area, kg/ha, 0 or more",
    ) -> (liquid_dose_l_per_ha: LiquidDose in "L/ha" "volume of product per ground area, L/ha") = crate::label::amount::formula::liquid_dose_of_substance;

    /// Dose by mass that gives an amount of active substance per ground area.
    solid_dose_of_substance(
        content_g_per_kg: MassFraction in "g/kg" "active substance in the product, g/kg, above 0",
        substance_kg_per_ha: MassPerArea in "kg/ha" "active substance per ground area, kg/ha, 0 or more",
    ) -> (solid_dose_kg_per_ha: SolidDose in "kg/ha" "mass of product per ground area, kg/ha") = crate::label::amount::formula::solid_dose_of_substance;

    /// Mass of a volume of a liquid.
    liquid_mass(
        density_kg_per_l: Density in "kg/L" "density of the liquid, kg/L, above 0",
        volume_l: Volume in "L" "its volume, L, 0 or more",
    ) -> (mass_kg: Mass in "kg" "its mass, kg") = crate::label::amount::formula::liquid_mass;

    /// Volume of a mass of a liquid.
    liquid_volume(
        mass_kg: Mass in "kg" "mass of the liquid, kg, 0 or more",
        density_kg_per_l: Density in "kg/L" "its density, kg/L, above 0",
    ) -> (volume_l: Volume in "L" "its volume, L") = crate::label::amount::formula::liquid_volume;

    /// Volume rate at a flow, a speed over the ground and a swath.
    volume_rate(
        flow_l_per_min: Flow in "L/min" "flow of all open nozzles together, L/min, 0 or more",
        speed_km_per_h: Speed in "km/h" "speed over the ground, km/h, above 0",
        swath_m: Length in "m" "treated width per pass, m, above 0",
    ) -> (volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha") = crate::sprayer::output::formula::volume_rate;

    /// Flow of all open nozzles that a volume rate takes.
    required_flow(
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, 0 or more",
        speed_km_per_h: Speed in "km/h" "speed over the ground, km/h, 0 or more",
        swath_m: Length in "m" "treated width per pass, m, 0 or more",
    ) -> (flow_l_per_min: Flow in "L/min" "flow of all open nozzles together, L/min") = crate::sprayer::output::formula::required_flow;

    /// Speed over the ground at which a flow gives a volume rate.
    required_speed(
        flow_l_per_min: Flow in "L/min" "flow of all open nozzles together, L/min, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, above 0",
        swath_m: Length in "m" "treated width per pass, m, above 0",
    ) -> (speed_km_per_h: Speed in "km/h" "speed over the ground, km/h") = crate::sprayer::output::formula::required_speed;

    /// Swath over which a flow gives a volume rate at a speed.
    required_swath(
        flow_l_per_min: Flow in "L/min" "flow of all open nozzles together, L/min, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, L/ha, above 0",
        speed_km_per_h: Speed in "km/h" "speed over the ground, km/h, above 0",
    ) -> (swath_m: Length in "m" "treated width per pass, m") = crate::sprayer::output::formula::required_swath;

    /// Ground treated in a time. Turning and filling are not in it.
    work_rate(
        speed_km_per_h: Speed in "km/h" "speed over the ground, km/h, 0 or more",
        swath_m: Length in "m" "treated width per pass, m, 0 or more",
    ) -> (work_rate_ha_per_h: WorkRate in "ha/h" "ground treated in a time, ha/h") = crate::sprayer::output::formula::work_rate;

    /// Time that the nozzles are open over an area. Turning and filling are not in it.
    spraying_time(
        area_ha: Area in "ha" "ground to be treated, ha, 0 or more",
        work_rate_ha_per_h: WorkRate in "ha/h" "ground treated in a time, ha/h, above 0",
    ) -> (time_s: Time in "s" "time that the nozzles are open, s") = crate::sprayer::output::formula::spraying_time;

    /// Flow from a volume that was caught in a time.
    flow(
        volume_l: Volume in "L" "volume that was caught, L, 0 or more",
        time_s: Time in "s" "time for which it was caught, s, above 0",
    ) -> (flow_l_per_min: Flow in "L/min" "flow, L/min") = crate::sprayer::output::formula::flow;

    /// Speed from a distance that was covered in a time.
    speed(
        distance_m: Length in "m" "distance over the ground, m, 0 or more",
        time_s: Time in "s" "time that it took, s, above 0",
    ) -> (speed_km_per_h: Speed in "km/h" "speed over the ground, km/h") = crate::sprayer::output::formula::speed;

    /// Length of a course that a swath treats an area on.
    course_length(
        area_ha: Area in "ha" "ground of the course, ha, 0 or more",
        swath_m: Length in "m" "treated width per pass, m, above 0",
    ) -> (course_length_m: Length in "m" "length of the course, m") = crate::sprayer::calibration::formula::course_length;

    /// One point of an as-applied log: ground that the swath treats, mix that went on it, mix that the target asks for on it, and the applied rate as a part of the target.
    applied_point(
        distance_m: Length in "m" "travelled since the point before, m, 0 or more",
        swath_m: Length in "m" "width of the open sections, m, 0 or more; 0 where the boom is closed",
        overlap_m: Length in "m" "what of the swath lies on ground treated before, where such ground is counted once, m, at most the swath; 0 where it is counted each time",
        applied_l_per_ha: VolumeRate in "L/ha" "volume rate over the swath, as logged, L/ha, 0 or more",
        target_l_per_ha: VolumeRate in "L/ha" "volume rate that was asked for, L/ha, above 0",
    ) -> (
        area_ha: Area in "ha" "ground that the swath treats, without the overlap, ha",
        mix_l: Volume in "L" "mix that went on it, L",
        target_mix_l: Volume in "L" "mix that the target asks for on it, L",
        to_target: Ratio in "1" "the applied rate as a part of the target",
    ) = crate::sprayer::applied::formula::applied_point;

    /// Density of pure water at a temperature from 0 to 40 °C.
    water_density(
        temperature_c: Temperature in "°C" "temperature of the water, °C, from 0 to 40",
    ) -> (density_kg_per_l: Density in "kg/L" "its density, kg/L") = density_of_water;

    /// Flow of a nozzle at a pressure, by the square root of the pressure, from its flow at one pressure.
    flow_at_pressure(
        rated_flow_l_per_min: Flow in "L/min" "flow of the nozzle at the rated pressure, L/min, above 0",
        rated_pressure_kpa: Pressure in "kPa" "pressure at which it has that flow, kPa, above 0",
        pressure_kpa: Pressure in "kPa" "pressure that is asked about, kPa, above 0",
    ) -> (flow_l_per_min: Flow in "L/min" "flow at that pressure, L/min") = flow_of_nozzle;

    /// Pressure at which a nozzle has a flow, by the square root of the pressure, from its flow at one pressure.
    required_pressure(
        rated_flow_l_per_min: Flow in "L/min" "flow of the nozzle at the rated pressure, L/min, above 0",
        rated_pressure_kpa: Pressure in "kPa" "pressure at which it has that flow, kPa, above 0",
        flow_l_per_min: Flow in "L/min" "flow that is asked for, L/min, above 0",
    ) -> (pressure_kpa: Pressure in "kPa" "pressure that gives it, kPa") = pressure_of_nozzle;

    /// Dose by volume that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.
    delivered_liquid_dose(
        amount_l: Volume in "L" "product in the mix, L, above 0",
        amount_standard_uncertainty_l: Volume in "L" "its standard uncertainty, L, 0 or more",
        mix_l: Volume in "L" "finished mix, L, above 0",
        mix_standard_uncertainty_l: Volume in "L" "its standard uncertainty, L, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, as calibrated, L/ha, above 0",
        volume_rate_standard_uncertainty_l_per_ha: VolumeRate in "L/ha" "its standard uncertainty, L/ha, 0 or more",
    ) -> (
        liquid_dose_l_per_ha: LiquidDose in "L/ha" "volume of product per ground area, L/ha",
        liquid_dose_standard_uncertainty_l_per_ha: LiquidDose in "L/ha" "its standard uncertainty, L/ha",
    ) = delivered_liquid;

    /// Dose by mass that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.
    delivered_solid_dose(
        amount_kg: Mass in "kg" "product in the mix, kg, above 0",
        amount_standard_uncertainty_kg: Mass in "kg" "its standard uncertainty, kg, 0 or more",
        mix_l: Volume in "L" "finished mix, L, above 0",
        mix_standard_uncertainty_l: Volume in "L" "its standard uncertainty, L, 0 or more",
        volume_rate_l_per_ha: VolumeRate in "L/ha" "volume of mix per ground area, as calibrated, L/ha, above 0",
        volume_rate_standard_uncertainty_l_per_ha: VolumeRate in "L/ha" "its standard uncertainty, L/ha, 0 or more",
    ) -> (
        solid_dose_kg_per_ha: SolidDose in "kg/ha" "mass of product per ground area, kg/ha",
        solid_dose_standard_uncertainty_kg_per_ha: SolidDose in "kg/ha" "its standard uncertainty, kg/ha",
    ) = delivered_solid;
}

// What follows asks the sum of one number, which takes a choice or allocates: such a row costs what that sum costs.

#[inline(always)]
fn measured<Q: AdditiveKind>(checks: &mut impl Stated, amount: Q, graduation: Q, maximum: Q) -> Ratio {
    crate::measure::formula::graduations(checks, amount, graduation, maximum)
}

fn safe_fill_of(
    checks: &mut impl Stated,
    nominal: Volume,
    brim: Volume,
    headspace: Ratio,
    graduation: Volume,
) -> Volume {
    let known = |volume: Volume| (volume != Volume::ZERO).then_some(volume);
    checks.asked(|| {
        let tank = Tank::new(known(nominal), known(brim))?.with_headspace(headspace)?;
        known(graduation).map_or(Ok(tank.clone()), |graduation| tank.with_graduation(graduation))?.safe_fill()
    })
}

fn density_of_water(checks: &mut impl Stated, temperature: Temperature) -> Density {
    checks.asked(|| crate::sprayer::water_density(temperature))
}

fn flow_of_nozzle(checks: &mut impl Stated, rated_flow: Flow, rated_pressure: Pressure, pressure: Pressure) -> Flow {
    checks.asked(|| Ok(nozzle(rated_flow, rated_pressure)?.flow_at(&exact("pressure", pressure)?)?.value()))
}

fn pressure_of_nozzle(checks: &mut impl Stated, rated_flow: Flow, rated_pressure: Pressure, flow: Flow) -> Pressure {
    checks.asked(|| Ok(nozzle(rated_flow, rated_pressure)?.required_pressure(&exact("flow", flow)?)?.value()))
}

fn nozzle(rated_flow: Flow, rated_pressure: Pressure) -> Result<Nozzle, Error> {
    let (flow, pressure) = (exact("rated_flow", rated_flow)?, exact("rated_pressure", rated_pressure)?);
    Nozzle::new(&flow, &pressure).map_err(|error| error.at("rated"))
}

fn exact<Q: AdditiveKind>(name: &'static str, value: Q) -> Result<Uncertain<Q>, Error> {
    Uncertain::exact(value).map_err(|error| error.at(name))
}

/// An input with a standard uncertainty, whose error names the uncertainty.
fn uncertain<Q: AdditiveKind>(name: &'static str, value: Q, standard_uncertainty: Q) -> Result<Uncertain<Q>, Error> {
    Uncertain::from_standard_uncertainty(name, value, standard_uncertainty, DegreesOfFreedom::INFINITE)
        .map_err(|error| error.at(name))
}

fn delivered_liquid(
    checks: &mut impl Stated,
    amount: Volume,
    amount_uncertainty: Volume,
    mix: Volume,
    mix_uncertainty: Volume,
    volume_rate: VolumeRate,
    volume_rate_uncertainty: VolumeRate,
) -> (LiquidDose, LiquidDose) {
    checks.asked(|| {
        let (amount, mix) = (uncertain("amount", amount, amount_uncertainty)?, uncertain("mix", mix, mix_uncertainty)?);
        let volume_rate = uncertain("volume_rate", volume_rate, volume_rate_uncertainty)?;
        let dose = crate::sprayer::delivered_liquid_dose(&amount, &mix, &volume_rate)?;
        Ok((dose.value(), dose.standard_uncertainty()))
    })
}

fn delivered_solid(
    checks: &mut impl Stated,
    amount: Mass,
    amount_uncertainty: Mass,
    mix: Volume,
    mix_uncertainty: Volume,
    volume_rate: VolumeRate,
    volume_rate_uncertainty: VolumeRate,
) -> (SolidDose, SolidDose) {
    checks.asked(|| {
        let (amount, mix) = (uncertain("amount", amount, amount_uncertainty)?, uncertain("mix", mix, mix_uncertainty)?);
        let volume_rate = uncertain("volume_rate", volume_rate, volume_rate_uncertainty)?;
        let dose = crate::sprayer::delivered_solid_dose(&amount, &mix, &volume_rate)?;
        Ok((dose.value(), dose.standard_uncertainty()))
    })
}
