//! How every number of a plan was reached. Formulas are stated here, and values are picked from the plan; nothing is worked out.

use alloc::collections::BTreeMap;
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::loads::{self, Cut};
use super::recipe::Choice;
use super::steps::{self, Action, Level, Step};
use super::{
    Binding, BufferSize, CleanWater, ContainerUse, Field, InTank, Job, LargestDose, LastStrip, Load, MeasuredAmount,
    Overlap, Pass, Plan, Rate, mix, recipe, season, to_make,
};
use crate::label::{
    ActiveSubstance, Applied, Basis, CONTAINER_RINSES, CapBasis, Capped, Displacement, Dose, Equivalent,
    LARGE_RINSE_PERCENT, LabelTank, Product, Rows, Rule, SMALL_RINSE_PERCENT, Season, Sides, State, SubstanceContent,
};
use crate::measure::{Amount, Measure, MeasureKind};
use crate::quantity::{Quantity, Ratio, Volume};
use crate::sprayer::{CalibrationInput, Residual, ScaleCheck, Straight, Tank, asked_of_rinse_tank, unmarked_fill};
use crate::text::working as words;
use crate::working::{Worked, Working};

impl Plan {
    /// How every number of the plan was reached: of each number of its document, and of the numbers between, whose places begin
    /// with `mix.`, down to numbers of the job and to defaults. Worked out on demand; a plan without it costs no more.
    ///
    /// A gap in percent is a ratio in its formula.
    #[must_use]
    pub fn working(&self) -> Vec<Working> {
        let mut workings = Workings { plan: self, source: "", given: BTreeMap::new(), stated: Vec::new() };
        workings.job();
        workings.treatments();
        workings.advice();
        workings.mix();
        workings.tank();
        workings.ground();
        workings.calibration();
        workings.water();
        workings.loads();
        workings.start();
        workings.run_out();
        workings.amounts();
        workings.steps();
        workings.totals();
        workings.jar_test();
        workings.ledger();
        workings.field_list();
        workings.substances();
        workings.season();
        workings.finished()
    }

    /// How the number at a place was reached, such as `loads[0].products[1].exact`.
    #[must_use]
    pub fn working_of(&self, place: &str) -> Option<Working> {
        self.working().into_iter().find(|working| working.place() == place)
    }
}

/// A number of the plan with its formula, in which each input stands as `symbol@place`.
struct Stated {
    place: String,
    value: Worked,
    formula: String,
    source: &'static str,
}

struct Workings<'plan> {
    plan: &'plan Plan,
    /// The section of `docs/numbers.md` that is being gone through.
    source: &'static str,
    /// Numbers of the job, and defaults.
    given: BTreeMap<String, Worked>,
    stated: Vec<Stated>,
}

impl Workings<'_> {
    fn given(&mut self, place: impl Into<String>, value: Option<impl Into<Worked>>) {
        self.given.extend(value.map(|value| (place.into(), value.into())));
    }

    fn add(&mut self, place: impl Into<String>, value: impl Into<Worked>, formula: impl Into<String>) {
        let (place, value, formula) = (place.into(), value.into(), formula.into());
        self.stated.push(Stated { place, value, formula, source: self.source });
    }

    /// The workings, each input with its value, and what stands behind the defaults that were used.
    fn finished(self) -> Vec<Working> {
        let Self { plan, given, stated, .. } = self;
        let known: BTreeMap<&str, Worked> = stated.iter().map(|one| (one.place.as_str(), one.value)).collect();
        let known = |place: &str| known.get(place).or(given.get(place)).copied();
        let working = |one: &Stated| Working::new(one.place.clone(), one.value, &one.formula, one.source, known);
        let mut workings: Vec<Working> = stated.iter().map(working).collect();
        let is_carried = plan.job.sprayer().kind().is_carried();
        for (place, value) in given.iter().filter(|(place, _)| place.starts_with("advice.")) {
            if workings.iter().flat_map(Working::inputs).any(|input| input.place() == place) {
                workings.push(Working::new(place.clone(), *value, "", words::advice(place, is_carried), known));
            }
        }
        workings
    }

    fn job(&mut self) {
        let job = &self.plan.job;
        self.given_ground();
        self.given_crop();
        self.given_calibration();
        self.given(
            format!("job.{}", job.rate().key()),
            Some(job.rate().stated()).filter(|_| job.calibration().is_none()),
        );
        self.given("job.mix_density", job.mix_density());
        let (tank, sprayer) = (job.tank(), job.sprayer());
        self.given("job.tank.nominal", tank.nominal());
        self.given("job.tank.brim", tank.brim());
        self.given("job.tank.headspace", tank.headspace());
        self.given("job.tank.graduation", tank.graduation());
        for (i, point) in tank.scale_check().into_iter().flat_map(ScaleCheck::points).enumerate() {
            self.given(format!("job.tank.scale_check.points[{i}].poured"), Some(point.poured()));
            self.given(format!("job.tank.scale_check.points[{i}].read"), Some(point.read()));
        }
        self.given("job.sprayer.empty_mass", sprayer.empty_mass());
        self.given("job.sprayer.carried_mass_limit", sprayer.carried_mass_limit());
        let residual = sprayer.residual();
        self.given("job.sprayer.residual.dilutable", residual.map(Residual::dilutable));
        self.given("job.sprayer.residual.non_dilutable", residual.map(Residual::non_dilutable));
        match job.loading().last_strip() {
            Some(LastStrip::Area(area)) => self.given("job.loading.last_strip.area", Some(area)),
            Some(LastStrip::Volume(volume)) => self.given("job.loading.last_strip.volume", Some(volume)),
            None => {}
        }
        let [hands, eyes, tank_rinse] = job.field_list().unwrap_or_default().stated();
        self.given("job.field_list.hands", hands);
        self.given("job.field_list.eyes", eyes);
        self.given("job.field_list.tank_rinse", tank_rinse);
        self.given("job.mixing.jar_test", job.mixing().and_then(|mixing| mixing.jar_test()));
        for (i, product) in job.products().iter().enumerate() {
            let at = |key: &str| format!("job.products[{i}].{key}");
            self.given(at("dose"), Some(Quantity::from(product.dose())));
            self.given(at("at_least"), product.at_least().map(Quantity::from));
            self.given(at("density"), product.density());
            self.given(at("particle_density"), product.particle_density());
            self.given(at("bulk_density"), product.bulk_density());
            self.given(at("stock"), product.stated_stock());
            if let Some(containers) = product.containers() {
                self.given(at("containers.content"), Some(containers.content()));
                self.given(at("containers.full"), containers.full());
                self.given(at("containers.part"), containers.part());
            }
            for (key, dose) in product.label().doses() {
                self.given(at(&format!("label.{key}")), Some(Quantity::from(dose)));
            }
            self.given(at("label.tank.mix"), product.label().tank().map(LabelTank::mix));
            self.given(at("label.tank.area"), product.label().tank().map(LabelTank::area));
            self.given(at("label.first_carrier"), product.label().first_carrier);
            let caps = product.label().restrictions().iter().filter_map(|restriction| match restriction.rule() {
                Rule::Cap(Capped::Product(most), ..) => Some(Quantity::from(*most)),
                Rule::Cap(Capped::Substance(_, most), ..) => Some(Quantity::from(*most)),
                _ => None,
            });
            for (k, most) in caps.enumerate() {
                self.given(at(&format!("label.caps[{k}].value")), Some(most));
            }
            for (s, substance) in product.active_substances().iter().enumerate() {
                let at = |key: &str| format!("job.products[{i}].active_substances[{s}].{key}");
                match substance.content() {
                    SubstanceContent::PerVolume(content) => self.given(at("content"), Some(content)),
                    SubstanceContent::PerMass(content) => self.given(at("content"), Some(content)),
                }
                self.given(at("equivalent.factor"), substance.equivalent().map(Equivalent::factor));
            }
            self.given(at("label.wait"), product.label().wait);
            product.measure().into_iter().for_each(|measure| self.measure(&at("measure"), measure));
        }
        for (i, measure) in job.measures().iter().enumerate() {
            self.measure(&format!("job.measures[{i}]"), measure);
        }
    }

    fn given_ground(&mut self) {
        let ground = self.plan.job.ground();
        let at = if ground.is_by_parts() { "job.ground.area" } else { "job.area" };
        match ground.measured_by() {
            Field::Area(area) => self.given(at, Some(area)),
            Field::Sides { length, width } => {
                self.given("job.ground.length", Some(length));
                self.given("job.ground.width", Some(width));
            }
        }
        for (i, buffer) in ground.buffers().iter().enumerate() {
            let at = |key: &str| format!("job.ground.buffers[{i}].{key}");
            match buffer.size() {
                BufferSize::Area(area) => self.given(at("area"), Some(area)),
                BufferSize::Strip { width, along, edge_distance } => {
                    self.given(at("width"), Some(width));
                    self.given(at("along"), Some(along));
                    self.given(at("edge_distance"), Some(edge_distance));
                }
            }
        }
        match ground.overlap() {
            Some(Overlap::Share(share)) => self.given("job.ground.overlap.share", Some(share)),
            Some(Overlap::Passes { width, swath }) => {
                self.given("job.ground.overlap.width", Some(width));
                self.given("job.ground.overlap.swath", Some(swath));
            }
            None => {}
        }
    }

    fn given_crop(&mut self) {
        let crop = self.plan.job.crop();
        self.given("job.crop.row_spacing", crop.row_spacing());
        self.given("job.crop.plant_spacing", crop.plant_spacing());
        self.given("job.crop.canopy_height", crop.canopy_height());
        self.given("job.crop.canopy_width", crop.canopy_width());
        self.given("job.crop.band_width", crop.band_width());
        self.given("job.crop.plants", crop.plants());
        self.given("job.crop.spots", crop.spots());
        self.given("job.crop.spot_area", crop.spot_area());
    }

    /// The rate of mix over the ground, what overlap sprays twice inside.
    fn ground_rate(&self) -> &'static str {
        if self.plan.job.ground().overlap().is_some() { "R@mix.ground_rate" } else { "R@volume_rate" }
    }

    fn treatments(&mut self) {
        let treatments = self.plan.job.season().map(Season::treatments).unwrap_or_default();
        for (t, treatment) in treatments.iter().enumerate() {
            let at = format!("job.season.treatments[{t}]");
            self.given(format!("{at}.treated_share"), Some(treatment.treated_share()));
            match treatment.applied() {
                Applied::Product(_, dose) => self.given(format!("{at}.dose"), Some(Quantity::from(*dose))),
                Applied::Substances(substances) => {
                    for (u, (_, dose)) in substances.iter().enumerate() {
                        self.given(format!("{at}.substances[{u}].dose"), Some(*dose));
                    }
                }
            }
        }
    }

    fn measure(&mut self, at: &str, measure: &Measure) {
        self.given(format!("{at}.capacity"), Some(measure.capacity()));
        self.given(format!("{at}.graduation"), Some(measure.graduation()));
    }

    fn advice(&mut self) {
        let job = &self.plan.job;
        self.given("advice.headspace", job.tank().headspace_kept(job.sprayer().kind()));
        self.given("advice.first_carrier", Some(Ratio::of_percent(steps::FIRST_CARRIER_PERCENT)));
        self.given("advice.rinses", Some(steps::RINSES));
        self.given("advice.rinse", Some(Ratio::of_percent(steps::RINSE_PERCENT)));
        self.given("advice.container_rinses", Some(CONTAINER_RINSES));
        self.given("advice.small_container_rinse", Some(Ratio::of_percent(SMALL_RINSE_PERCENT)));
        self.given("advice.large_container_rinse", Some(Ratio::of_percent(LARGE_RINSE_PERCENT)));
        self.given("advice.premix_parts", Some(steps::PREMIX_PARTS));
        self.given("advice.premix_density", Some(steps::premix_density()));
        let (least, most) = steps::wait_advised();
        let (hands, eyes) = (CleanWater::new().hands(), CleanWater::new().eyes());
        let (part, times) = asked_of_rinse_tank();
        self.given("advice.hands", Some(hands));
        self.given("advice.eyes", Some(eyes));
        self.given("advice.tank_rinse", Some(part));
        self.given("advice.residual_rinse", Some(times));
        self.given("advice.least_wait", Some(least));
        self.given("advice.most_wait", Some(most));
    }

    /// What stays in the sprayer, where anything does.
    fn residual(&self) -> Option<&'static str> {
        (self.plan.residual() > Volume::ZERO).then_some("r@residual.volume")
    }

    // 2. The mix.

    fn mix(&mut self) {
        self.source = words::MIX;
        let Plan { held: job, mix, .. } = self.plan;
        let dose_at = |i: usize| dose_at(self.plan, i);
        let (mut per_area, mut per_mix, mut per_carrier) = (Vec::new(), Vec::new(), Vec::new());
        for (i, product) in job.products().iter().enumerate() {
            let (terms, value): (_, Quantity) = match mix.displacements.get(i).copied().flatten() {
                Some(Displacement::Area(dose)) => (&mut per_area, dose.into()),
                Some(Displacement::Mix(share)) => (&mut per_mix, share.into()),
                Some(Displacement::Carrier(share)) => (&mut per_carrier, share.into()),
                None => continue,
            };
            terms.push(format!("d{i}@mix.displacements[{i}]"));
            let dose = on_ground(product.dose().basis(), format!("D@{}", dose_at(i)), job);
            let density = room_density(i, product, "");
            let formula = match (product.dose(), density) {
                (Dose::MassPerMass(_), Some(density)) => format!("{dose} * s@job.mix_density / {density}"),
                (of, Some(density)) if !of.is_by_volume() => format!("{dose} / {density}"),
                _ => dose,
            };
            self.add(format!("mix.displacements[{i}]"), value, formula);
        }
        let (area, mixed, carrier) = mix::displaced(&mix.displacements);
        self.add("mix.displaced_per_area", area, sum(per_area));
        self.add("mix.displaced_per_mix", mixed, sum(per_mix));
        self.add("mix.displaced_per_carrier", carrier, sum(per_carrier));

        let rate = |symbol: char| on_ground(job.rate().basis(), format!("{symbol}@job.{}", job.rate().key()), job);
        let rate = match job.rate() {
            Rate::Volume(_) if job.calibration().is_some() => "R@calibration.volume_rate".into(),
            Rate::Volume(_) | Rate::VolumePerCrop(_) => rate('R'),
            Rate::Carrier(_) | Rate::CarrierPerCrop(_) => {
                let rate = rate('Q');
                format!(
                    "({rate} * (1 + C@mix.displaced_per_carrier) + a@mix.displaced_per_area) / (1 - m@mix.displaced_per_mix)"
                )
            }
        };
        self.add("volume_rate", mix.rate, rate);
        let share = "(1 - (a@mix.displaced_per_area / R@volume_rate + m@mix.displaced_per_mix)) / (1 + C@mix.displaced_per_carrier)";
        self.add("mix.carrier_share", mix.carrier_share, share);
        self.add("carrier_rate", mix.carrier_rate(), "R@volume_rate * k@mix.carrier_share");

        let share = |dose: Dose, term: String| {
            let basis = match dose {
                Dose::LiquidPerArea(_) | Dose::SolidPerArea(_) | Dose::PerCrop(_) => " / R@volume_rate",
                Dose::LiquidPerMix(_) | Dose::SolidPerMix(_) => "",
                Dose::MassPerMass(_) => " * s@job.mix_density",
                Dose::LiquidPerCarrier(_) | Dose::SolidPerCarrier(_) => " * k@mix.carrier_share",
            };
            format!("{}{basis}", on_ground(dose.basis(), term, job))
        };
        let largest = |i: usize, product: &Product| {
            let each = product
                .largest_doses()
                .enumerate()
                .map(|(n, (key, dose))| share(dose, most_term(self.plan, (i, n), key, product)));
            match each.collect::<Vec<_>>().as_slice() {
                [only] => only.clone(),
                several => format!("min({})", several.join(", ")),
            }
        };
        for (i, (product, (exact, most))) in job.products().iter().zip(&mix.shares).enumerate() {
            let formula = share(product.dose(), format!("D@{}", dose_at(i)));
            self.add(format!("mix.shares[{i}]"), *exact, formula);
            if self.plan.usable() {
                let mut formula = largest(i, product);
                if season::is_held(job, i) {
                    formula = format!("min({formula}, c@mix.shares[{i}])");
                }
                self.add(format!("mix.most[{i}]"), *most, formula);
            }
        }
    }

    // 3. The tank.

    fn tank(&mut self) {
        self.source = words::TANK;
        let Plan { job, safe_fill, .. } = self.plan;
        let (tank, sprayer) = (job.tank(), job.sprayer());
        let headspace = tank.headspace().map_or("advice.headspace", |_| "job.tank.headspace");
        let part_of = |whole: &str| format!("(1 - h@{headspace}) * {whole}");
        let mut fill = match (tank.headspace_kept(sprayer.kind()), tank.nominal(), tank.brim()) {
            (None, ..) => "N@job.tank.nominal".into(),
            (_, Some(_), Some(_)) => format!("min(N@job.tank.nominal, {})", part_of("B@job.tank.brim")),
            (_, Some(_), None) => part_of("N@job.tank.nominal"),
            (_, None, _) => part_of("B@job.tank.brim"),
        };
        if sprayer.carried_mass_limit().is_some() {
            let limited = "(L@job.sprayer.carried_mass_limit - E@job.sprayer.empty_mass) / s@job.mix_density";
            fill = format!("min({fill}, {limited})");
        }
        if let Some(last) = tank.scale_check().map(|check| check.points().len() - 1) {
            fill = format!("min({fill}, P@job.tank.scale_check.points[{last}].poured)");
        }
        // What could be worked out once can be worked out again.
        let unmarked = unmarked_fill(sprayer, tank, job.mix_density()).unwrap_or(*safe_fill);
        fill = held_at_mark(tank, &fill, tank.within_check(unmarked));
        self.add("safe_fill", *safe_fill, fill);
    }

    // 4. How much mix.

    fn ground(&mut self) {
        self.source = words::GROUND;
        let Plan { job, mix, strip, .. } = self.plan;
        self.ground_by_parts();
        let rate = self.ground_rate();
        if self.residual().is_some() {
            let parts = "d@job.sprayer.residual.dilutable + n@job.sprayer.residual.non_dilutable";
            self.add("residual.volume", self.plan.residual(), parts);
            if let Some(short) = self.plan.ground_short() {
                self.add("residual.ground_short", short, format!("r@residual.volume / {rate}"));
            }
        }
        let mut made = format!("{rate} * A@area");
        if let Some(strip) = strip {
            let held_back = match (job.loading().last_strip(), self.residual()) {
                (Some(LastStrip::Volume(_)), _) => "H@job.loading.last_strip.volume".into(),
                (_, None) => format!("{rate} * S@job.loading.last_strip.area"),
                (_, Some(r)) => format!("max(0, {rate} * S@job.loading.last_strip.area - {r})"),
            };
            self.add("last_strip.held_back", strip.held_back(), held_back);
            let area = match self.residual() {
                Some(r) => format!("(H@last_strip.held_back + {r}) / {rate}"),
                None => format!("H@last_strip.held_back / {rate}"),
            };
            self.add("last_strip.area", strip.area(), area);
            made.push_str(" - H@last_strip.held_back");
        }
        self.add("mix.to_make", to_make(job, mix, *strip), made);
    }

    /// The area, and what it is made of where the job says.
    fn ground_by_parts(&mut self) {
        let ground = self.plan.job.ground();
        if !ground.is_by_parts() {
            return self.add("area", ground.treated(), "A@job.area");
        }
        let field = match ground.measured_by() {
            Field::Area(_) => "A@job.ground.area",
            Field::Sides { .. } => "l@job.ground.length * w@job.ground.width",
        };
        self.add("ground.field", ground.field(), field);
        let buffers = ground.buffers().iter().enumerate().map(|(i, buffer)| {
            let at = |symbol: char, key: &str| format!("{symbol}{i}@job.ground.buffers[{i}].{key}");
            match buffer.size() {
                BufferSize::Area(_) => at('a', "area"),
                BufferSize::Strip { .. } => {
                    format!("max(0, {} - {}) * {}", at('w', "width"), at('e', "edge_distance"), at('l', "along"))
                }
            }
        });
        self.add("ground.buffers", ground.buffered(), sum(buffers));
        self.add("area", ground.treated(), "F@ground.field - B@ground.buffers");
        let share = match ground.overlap() {
            Some(Overlap::Share(_)) => "o@job.ground.overlap.share",
            Some(Overlap::Passes { .. }) => {
                "o@job.ground.overlap.width / (w@job.ground.overlap.swath - o@job.ground.overlap.width)"
            }
            None => return self.add("ground.sprayed_twice", ground.sprayed_twice(), "0"),
        };
        self.add("mix.overlap", ground.overlap_share(), share);
        self.add("ground.sprayed_twice", ground.sprayed_twice(), "A@area * o@mix.overlap");
        self.add("mix.ground_rate", self.plan.mix.ground_rate, "R@volume_rate * (1 + o@mix.overlap)");
    }

    // 5. Loads.

    /// What the record of the calibration and the pass state.
    fn given_calibration(&mut self) {
        let pass = self.plan.job.pass();
        self.given("job.passes.swath", pass.map(Pass::swath));
        self.given("job.passes.length", pass.and_then(Pass::length));
        let Some((record, _)) = self.plan.job.calibration() else { return };
        self.given("job.calibration.coverage", Some(record.coverage()));
        for input in CalibrationInput::all() {
            let Some(measurement) = record.measurement(*input) else { continue };
            let place = measurement.place(*input);
            match measurement.readings() {
                [one] => self.given(place, Some(*one)),
                many => {
                    many.iter().enumerate().for_each(|(i, one)| self.given(format!("{place}[{i}]"), Some(*one)));
                }
            }
        }
    }

    /// The rate by its formula; what the calculus of uncertainty gives has no formula of this language, and names its section.
    fn calibration(&mut self) {
        let Some((record, calibration)) = self.plan.job.calibration() else { return };
        self.source = words::CALIBRATION;
        // What could be worked out once can be worked out again.
        for (name, value, formula) in record.between().unwrap_or_default() {
            self.add(format!("mix.calibration.{name}"), value, formula);
        }
        let rate = calibration.volume_rate();
        let formula = calibration.formula().replace('@', "@mix.calibration.");
        self.add("calibration.volume_rate", rate.value(), formula);
        self.add("calibration.coverage", record.coverage(), "p@job.calibration.coverage");
        for (end, value) in calibration.interval(record).iter().flat_map(|i| [("low", i.low()), ("high", i.high())]) {
            let sign = if end == "low" { '-' } else { '+' };
            let half = "k@calibration.coverage_factor * u@calibration.standard_uncertainty";
            self.add(format!("calibration.interval.{end}"), value, format!("R@calibration.volume_rate {sign} {half}"));
        }
        self.source = words::UNCERTAINTY;
        self.add("calibration.standard_uncertainty", rate.standard_uncertainty(), "");
        if let Some(degrees) = rate.degrees_of_freedom().number() {
            self.add("calibration.degrees_of_freedom", degrees, "");
        }
        if let Ok(factor) = rate.coverage_factor(record.coverage()) {
            self.add("calibration.coverage_factor", factor, "");
        }
        for (i, contribution) in rate.contributions().iter().enumerate() {
            let at = |key: &str| format!("calibration.contributions[{i}].{key}");
            self.add(at("standard_uncertainty"), contribution.standard_uncertainty(), "");
            self.add(at("share_of_variance"), contribution.share_of_variance(), "");
        }
    }

    fn run_out(&mut self) {
        self.source = words::RUN_OUT;
        let plan = self.plan;
        for (j, load) in plan.loads.iter().enumerate() {
            let Some(run_out) = plan.run_out(load) else { continue };
            let at = |key: &str| format!("loads[{j}].run_out.{key}");
            let area = run_out.area();
            self.span(&at("area"), (area.value, format!("a@loads[{j}].area")), (area.low, area.high));
            if let Some(length) = run_out.length() {
                let driven = format!("v@loads[{j}].mix / R@volume_rate / w@job.passes.swath");
                self.span(&at("length"), (length.value, driven), (length.low, length.high));
            }
            if let Some(passes) = run_out.passes() {
                for (end, value) in [("value", Some(passes.value)), ("low", passes.low), ("high", passes.high)] {
                    if let Some(value) = value {
                        let formula = format!("l@{} / p@job.passes.length", at(&format!("length.{end}")));
                        self.add(at(&format!("passes.{end}")), value, formula);
                    }
                }
            }
        }
    }

    /// A value, and its ends at the ends of the volume rate's interval.
    fn span(
        &mut self,
        place: &str,
        (value, formula): (impl Into<Worked>, String),
        (low, high): (Option<impl Into<Worked>>, Option<impl Into<Worked>>),
    ) {
        let at_rate = |end: &str| format!("x@{place}.value * R@volume_rate / r@calibration.interval.{end}");
        self.add(format!("{place}.value"), value, formula);
        if let Some(low) = low {
            self.add(format!("{place}.low"), low, at_rate("high"));
        }
        if let Some(high) = high {
            self.add(format!("{place}.high"), high, at_rate("low"));
        }
    }

    /// The dose that a load really delivers, at the place of a product in it.
    fn delivered(&mut self, at: &str, (j, i): (usize, usize), amount: &MeasuredAmount<'_>) {
        let Some(delivered) = amount.delivered() else { return };
        let before = core::mem::replace(&mut self.source, words::RUN_OUT);
        let place = |key: &str| format!("{at}.delivered.{key}");
        let in_tank = match self.held((j, i), " + ") {
            held if held.is_empty() => format!("m@{at}.measured"),
            held => format!("(m@{at}.measured{held})"),
        };
        let at_rate = |rate: &str| format!("{in_tank} / v@loads[{j}].mix * R@{rate}");
        self.add(place("dose"), delivered.dose().value(), at_rate("calibration.volume_rate"));
        // Where the measure or the tank's scale has a doubt of its own, squares are added, which formulas do not tell.
        let is_of_rate = amount.uncertainty().is_none() && amount.mix_doubt().is_none();
        if !is_of_rate {
            self.source = words::UNCERTAINTY;
        }
        let of_rate = |rate: &str| if is_of_rate { at_rate(rate) } else { String::new() };
        let (uncertainty, interval) = (delivered.dose().standard_uncertainty(), delivered.interval());
        self.add(place("standard_uncertainty"), uncertainty, of_rate("calibration.standard_uncertainty"));
        self.add(place("interval.low"), interval.low(), of_rate("calibration.interval.low"));
        self.add(place("interval.high"), interval.high(), of_rate("calibration.interval.high"));
        self.source = words::UNCERTAINTY;
        if let Some(probability) = delivered.probability_over() {
            self.add(place("probability_over"), probability, "");
        }
        if let Some(aim) = delivered.aim() {
            self.add(place("aim"), aim, "");
        }
        self.source = before;
    }

    fn loads(&mut self) {
        self.source = words::LOADS;
        let Plan { job, mix, safe_fill, strip, loads, .. } = self.plan;
        let mut made = to_make(job, mix, *strip);
        // What the mix to divide, and how many loads it makes, are called.
        let (mut whole, mut total) = ("mix.to_make", "totals.loads");
        let topped_up = usize::from(self.plan.start().is_some());
        if let Some(load) = loads.first().filter(|_| topped_up > 0) {
            self.add("loads[0].first", load.first(), "1");
            self.add("loads[0].last", load.last(), "1");
            self.add("loads[0].count", load.count, "1");
            self.add("loads[0].mix", load.mix, "min(U@safe_fill, V@mix.to_make)");
            self.served((0, load));
            if loads.len() == 1 {
                return self.add("totals.loads", self.plan.load_count(), "1");
            }
            made = made - load.mix;
            (whole, total) = ("mix.after_first", "mix.loads_after_first");
            self.add(whole, made, "V@mix.to_make - v@loads[0].mix");
            self.add("totals.loads", self.plan.load_count(), format!("1 + n@{total}"));
        }
        // What could be divided once can be divided again.
        let Ok(division) = loads::divided(made, *safe_fill, job) else { return };
        let count = self.plan.load_count() - u64::try_from(topped_up).unwrap_or(0);
        self.add(total, count, format!("steps_up(V@{whole} / U@safe_fill)"));

        // Loads share all of the mix, or what full loads leave.
        let full = loads.get(topped_up);
        let is_after_full = division.sharing > 1 && full.is_some_and(|load| load.count == division.full);
        let (shared, sharing) = if is_after_full {
            let full = format!("F@loads[{topped_up}].count");
            self.add("mix.shared", division.shared, format!("V@{whole} - {full} * U@safe_fill"));
            self.add("mix.sharing", division.sharing, format!("N@{total} - {full}"));
            ("W@mix.shared".into(), "n@mix.sharing".into())
        } else {
            (format!("W@{whole}"), format!("n@{total}"))
        };
        let marks = format!("steps_down({shared} / g@job.tank.graduation)");
        for (j, (load, run)) in (topped_up..).zip(loads.iter().skip(topped_up).zip(&division.runs)) {
            let at = |key: &str| format!("loads[{j}].{key}");
            let first = j.checked_sub(1).map_or("1".into(), |before| format!("e@loads[{before}].last + 1"));
            self.add(at("first"), load.first(), first);
            self.add(at("last"), load.last(), format!("f@{} + n@{} - 1", at("first"), at("count")));
            let before =
                |term: fn(usize) -> String| (topped_up..j).map(move |k| format!(" - {}", term(k))).collect::<String>();
            let left = before(|k| format!("n{k}@loads[{k}].count"));
            let count = match run.cut {
                _ if j + 1 == loads.len() => format!("N@{total}{left}"),
                Cut::FewerMarks => format!("N@{total}{left} - 1"),
                Cut::MoreMarks => format!("{marks} - div({marks}, {sharing}) * {sharing}"),
                _ if is_after_full => format!("steps_down(V@{whole} / U@safe_fill) - 1"),
                _ => format!("steps_down(V@{whole} / U@safe_fill)"),
            };
            self.add(at("count"), load.count, count);
            let left = before(|k| format!("n{k}@loads[{k}].count * v{k}@loads[{k}].mix"));
            let volume = match run.cut {
                _ if load.mix == *safe_fill => "U@safe_fill".into(),
                Cut::EqualPart => format!("{shared} / {sharing}"),
                Cut::MoreMarks => format!("(div({marks}, {sharing}) + 1) * g@job.tank.graduation"),
                Cut::FewerMarks => format!("div({marks}, {sharing}) * g@job.tank.graduation"),
                Cut::Full | Cut::Rest => format!("V@{whole}{left}"),
            };
            self.add(at("mix"), load.mix, volume);
            self.served((j, load));
        }
    }

    /// The ground that a load serves, and how uncertain its mix is.
    fn served(&mut self, (j, load): (usize, &Load)) {
        let at = |key: &str| format!("loads[{j}].{key}");
        self.add(at("area"), load.area, format!("v@{} / {}", at("mix"), self.ground_rate()));
        if let Some((uncertainty, mix)) = self.plan.mix_uncertainty(load).zip(self.plan.uncertain_mix(load)) {
            let before = core::mem::replace(&mut self.source, words::TANK_SCALE);
            self.add(at("mix_uncertainty.percent"), uncertainty, "");
            let formula = format!("U@{} * v@{}", at("mix_uncertainty.percent"), at("mix"));
            self.add(at("mix_uncertainty.amount"), mix, formula);
            self.source = before;
        }
    }

    /// What the tank holds before the first load.
    fn start(&mut self) {
        let (Some(stated), Some(held)) = (self.plan.job.start(), self.plan.start()) else { return };
        self.given("job.start.volume", Some(stated.volume()));
        for (k, (_, amount)) in stated.amounts().enumerate() {
            self.given(format!("job.start.products[{k}].amount"), Some(amount));
        }
        self.add("start.volume", held.volume(), "h@job.start.volume");
        let is_as_planned = stated.holds() == InTank::ThisMix && stated.amounts().len() == 0;
        let products = self.plan.job.products();
        for (i, (product, amount)) in products.iter().zip(held.amounts()).enumerate() {
            let stated = stated.amounts().position(|(name, _)| name == product.name());
            let share = format!("c@mix.shares[{i}] * h@start.volume");
            let formula = match stated {
                Some(k) => format!("a@job.start.products[{k}].amount"),
                None if is_as_planned => share,
                None => format!("0 * {share}"),
            };
            self.add(format!("start.products[{i}].amount"), *amount, formula);
        }
    }

    /// What the tank holds before a load, with a sign before its symbol; nothing before all but the first.
    fn held_volume(&self, j: usize, sign: &str) -> String {
        if j == 0 && self.plan.start().is_some() { format!("{sign}h@start.volume") } else { String::new() }
    }

    /// The same of a product.
    fn held(&self, (j, i): (usize, usize), sign: &str) -> String {
        let is_held = j == 0 && self.plan.start().is_some();
        if is_held { format!("{sign}h{i}@start.products[{i}].amount") } else { String::new() }
    }

    /// An amount less what the tank holds of it, and not below none.
    fn lacking(&self, at: (usize, usize), amount: String) -> String {
        match self.held(at, " - ") {
            held if held.is_empty() => amount,
            held => format!("max(0, {amount}{held})"),
        }
    }

    // 6. Amounts.

    fn amounts(&mut self) {
        self.source = words::AMOUNTS;
        let plan = self.plan;
        let products = plan.held.products();
        let is_on_carrier = |i: usize| products.get(i).is_some_and(Product::is_limited_by_carrier);
        for (j, load) in plan.loads.iter().enumerate() {
            // What could be measured once can be measured again.
            let alone = (plan.usable() && (0..products.len()).any(is_on_carrier)).then(|| {
                recipe::portions(
                    &plan.held,
                    &plan.mix,
                    load.mix,
                    load.held(),
                    plan.loads.first().map(|load| load.portions.as_slice()),
                )
                .ok()
            });
            let alone = alone.flatten().map(|portions| Load { portions, ..load.clone() });
            for (i, portion) in load.portions.iter().enumerate() {
                let at = format!("loads[{j}].products[{i}]");
                let asked = format!("c@mix.shares[{i}] * v@loads[{j}].mix");
                self.add(format!("{at}.exact"), portion.exact, self.lacking((j, i), asked));
                if let Some(amount) = MeasuredAmount::of(plan, load, i).filter(|_| plan.usable()) {
                    let alone = alone.as_ref().filter(|_| is_on_carrier(i));
                    let alone = alone.and_then(|alone| MeasuredAmount::of(plan, alone, i));
                    self.measured(&at, (j, i), portion.choice, &amount, alone);
                    self.gap(&at, amount.exact(), (amount.gap(), amount.dose_gap()), &format!("loads[{j}].area"));
                    self.emptied((j, i), &amount);
                    self.uncertainty(&at, &amount);
                    self.delivered(&at, (j, i), &amount);
                }
            }
            if let Some(alone) = alone {
                let at = |i| if is_on_carrier(i) { "mix.loads" } else { "loads" };
                let rooms = (0..alone.portions.len()).filter_map(|i| room(plan, (at(i), j), i, &format!("{i}")));
                let held = (0..alone.portions.len()).filter_map(|i| held_room(plan, j, i));
                let rooms: String = rooms.chain(held).map(|room| format!(" - {room}")).collect();
                let formula = format!("v@loads[{j}].mix{rooms}");
                let held = load.held().map_or(Volume::ZERO, |held| held.room(&plan.job));
                let carrier = steps::carrier(&plan.job, load.mix - held, &alone.portions);
                self.add(format!("mix.loads[{j}].carrier"), carrier, formula);
            }
        }
    }

    /// A product's amount in a load; `alone` is what it would be but for the load's carrier, where its largest dose is counted on that.
    fn measured(
        &mut self,
        at: &str,
        (j, i): (usize, usize),
        choice: Choice,
        amount: &MeasuredAmount<'_>,
        alone: Option<MeasuredAmount<'_>>,
    ) {
        let measure = amount.measure();
        let g = &format!("g@{}.graduation", measure_at(choice, i));
        let n = &format!("n@{at}.graduations");
        let product = self.plan.held.products().get(i);
        let (to, back) = match product.and_then(|product| sort_density(i, product, measure)) {
            Some(density) if matches!(measure.graduation(), Amount::Volume(_)) => {
                (format!(" / {density}"), format!(" * {density}"))
            }
            Some(density) => (format!(" * {density}"), format!(" / {density}")),
            None => Default::default(),
        };
        let nearest = format!("steps_nearest(x@{at}.exact{to} / {g})");
        let ceiling = self.lacking((j, i), format!("M@mix.most[{i}] * v@loads[{j}].mix"));
        let most = format!("steps_down({ceiling}{to} / {g})");
        // What the tank holds may be all of it.
        let is_held = amount.exact() == amount.exact().none();
        let rounded = format!("min({nearest}, {most})");
        let mut graduations = if is_held { rounded } else { format!("max(1, {rounded})") };
        if let Some(alone) = alone {
            let alone_at = format!("mix.{at}");
            self.add(format!("{alone_at}.graduations"), alone.graduations(), graduations);
            if room(self.plan, ("mix.loads", j), i, "").is_some() {
                let shown = format!("n@{alone_at}.graduations * {g}{back}");
                self.add(format!("{alone_at}.measured"), alone.measured(), shown);
            }
            let most = product.map_or_else(String::new, |product| on_carrier_at(self.plan, i, product));
            let ceiling = self.lacking((j, i), format!("M@{most} * K@mix.loads[{j}].carrier"));
            let most = format!("steps_down({ceiling}{to} / {g})");
            graduations = format!("min(n@{alone_at}.graduations, {most})");
        }
        self.add(format!("{at}.graduations"), amount.graduations(), graduations);
        self.add(format!("{at}.measured"), amount.measured(), format!("{n} * {g}{back}"));

        let marks = format!("steps_down(C@{}.capacity / {g})", measure_at(choice, i));
        for (k, (count, graduations)) in amount.fillings().groups().enumerate() {
            let (fillings, shown) = match k {
                _ if measure.kind() == MeasureKind::Pack => (n.clone(), g.clone()),
                _ if graduations == amount.graduations() => ("1".into(), format!("{n} * {g}")),
                0 => (format!("steps_down({n} / {marks})"), format!("{marks} * {g}")),
                _ => ("1".into(), format!("({n} - f@{at}.fillings[0].count * {marks}) * {g}")),
            };
            self.add(format!("{at}.fillings[{k}].count"), count, fillings);
            self.add(format!("{at}.fillings[{k}].amount"), measure.shows(graduations), shown);
        }
    }

    /// What a job does with a product's containers: `x` drawn and `q` gone from the open one make so many contents `C`.
    fn containers(&mut self, i: usize, used: Option<ContainerUse>) {
        let Some(used) = used else { return };
        let before = core::mem::replace(&mut self.source, words::CONTAINERS);
        let (drawn, open) = (format!("x@totals.products[{i}].measured"), open(self.plan, i));
        let at = |key: &str| format!("totals.products[{i}].containers.{key}");
        let content = format!("C@job.products[{i}].containers.content");
        self.add(at("content"), used.content(), content.clone());
        let is_open = if open.is_empty() { "" } else { " - 1" };
        self.add(at("opened"), used.opened(), format!("steps_up(({drawn}{open}) / {content}){is_open}"));
        self.add(at("emptied"), used.emptied(), format!("steps_down(({drawn}{open}) / {content})"));
        let part = if open.is_empty() { String::new() } else { format!(" + p@job.products[{i}].containers.part") };
        self.add(at("left"), used.left(), format!("o@{} * {content}{part} - {drawn}", at("opened")));
        let (opened, full) = (format!("o@{}", at("opened")), format!("F@job.products[{i}].containers.full"));
        let take = if used.buy().is_some() { format!("min({opened}, {full})") } else { opened.clone() };
        self.add(at("take"), used.take(), take);
        if let Some(buy) = used.buy() {
            self.add(at("buy"), buy, format!("max(0, {opened} - {full})"));
        }
        self.source = before;
    }

    /// Which containers some equal loads empty.
    fn emptied(&mut self, (j, i): (usize, usize), amount: &MeasuredAmount<'_>) {
        let Some(emptied) = amount.emptied() else { return };
        let plan = self.plan;
        let source = core::mem::replace(&mut self.source, words::CONTAINERS);
        let earlier = plan.loads.iter().enumerate().take(j);
        let drawn: Vec<String> =
            earlier.map(|(k, _)| format!("n{k}@loads[{k}].count * m{k}@loads[{k}].products[{i}].measured")).collect();
        let drawn = if drawn.is_empty() { format!("0 * m@loads[{j}].products[{i}].measured") } else { sum(drawn) };
        let (open, content) = (open(plan, i), format!("C@job.products[{i}].containers.content"));
        let these = format!("n@loads[{j}].count * m@loads[{j}].products[{i}].measured");
        let before = format!("steps_down(({drawn}{open}) / {content})");
        let count = format!("steps_down(({drawn} + {these}{open}) / {content}) - {before}");
        let at = format!("loads[{j}].products[{i}].emptied");
        self.add(format!("{at}.count"), emptied.count(), count);
        for (k, load) in emptied.loads().iter().enumerate() {
            let until = format!("({before} + {}) * {content} - ({drawn}{open})", k + 1);
            let each = format!("m@loads[{j}].products[{i}].measured");
            let nth = format!("min(n@loads[{j}].count, max(1, steps_up(({until}) / {each})))");
            self.add(format!("{at}.loads[{k}]"), *load, format!("f@loads[{j}].first + {nth} - 1"));
        }
        self.source = source;
    }

    fn uncertainty(&mut self, at: &str, amount: &MeasuredAmount<'_>) {
        let before = core::mem::replace(&mut self.source, words::MEASURING);
        if let (Some(uncertainty), Some(size)) = (amount.uncertainty(), amount.uncertain_amount()) {
            self.add(format!("{at}.uncertainty.percent"), uncertainty, "");
            let formula = format!("U@{at}.uncertainty.percent * m@{at}.measured");
            self.add(format!("{at}.uncertainty.amount"), size, formula);
        }
        self.source = before;
    }

    fn gap(&mut self, at: &str, exact: Amount, (gap, dose): (Ratio, Quantity), area: &str) {
        let less = format!("(m@{at}.measured - x@{at}.exact)");
        let part = if exact == exact.none() { "0".into() } else { format!("{less} / x") };
        self.add(format!("{at}.gap.percent"), gap, part);
        let twice = if self.plan.job.ground().overlap().is_some() { " / (1 + o@mix.overlap)" } else { "" };
        self.add(format!("{at}.gap.dose"), dose, format!("{less} / A@{area}{twice}"));
    }

    // 7. Carrier, rinses and steps.

    fn steps(&mut self) {
        self.source = words::STEPS;
        let plan = self.plan;
        for (j, load) in plan.loads.iter().enumerate() {
            let carrier = if plan.usable() {
                let room = |i| {
                    room(plan, ("loads", j), i, &format!("{i}")).map_or_else(String::new, |room| format!(" - {room}"))
                };
                let rooms: String = (0..load.portions.len()).map(room).collect();
                format!("v@loads[{j}].mix{}{rooms}", self.held_volume(j, " - "))
            } else {
                match self.held_volume(j, " - ") {
                    held if held.is_empty() => format!("k@mix.carrier_share * v@loads[{j}].mix"),
                    held => format!("k@mix.carrier_share * (v@loads[{j}].mix{held})"),
                }
            };
            self.add(format!("loads[{j}].carrier"), plan.carrier_in(load), carrier);
            for (s, step) in load.steps.iter().enumerate() {
                self.step((j, load), s, *step);
            }
        }
    }

    fn step(&mut self, (j, load): (usize, &Load), s: usize, step: Step) {
        let plan = self.plan;
        let at = |key: &str| format!("loads[{j}].steps[{s}].{key}");
        let before =
            s.checked_sub(1).map_or_else(|| self.held_volume(j, ""), |s| format!("t@loads[{j}].steps[{s}].in_tank"));
        let with_room = |i| room(plan, ("loads", j), i, "").map_or(before.clone(), |room| format!("{before} + {room}"));
        let in_tank = match step.action() {
            Action::Fill { carrier, level } => {
                self.add(at("carrier"), carrier, first_carrier(plan, (j, load), level));
                self.level(&at, level, step.in_tank());
                format!("{}w@{}", self.held_volume(j, "").replace("volume", "volume + "), at("carrier"))
            }
            Action::TopUp { carrier, level } => {
                let kept = reserved(j, load);
                let first = load.steps.first().is_some_and(|step| matches!(step.action(), Action::Fill { .. }));
                let first = if first { format!(" - f@loads[{j}].steps[0].carrier") } else { String::new() };
                self.add(at("carrier"), carrier, format!("w@loads[{j}].carrier{first}{kept}"));
                self.level(&at, level, step.in_tank());
                format!("{before} + w@{}", at("carrier"))
            }
            Action::Measure { product } => {
                let fillings = MeasuredAmount::of(plan, load, product).into_iter();
                let fillings = fillings.flat_map(|amount| amount.fillings().groups().map(move |group| (amount, group)));
                for (k, (amount, (count, graduations))) in fillings.enumerate() {
                    let of = |key: &str| format!("x@loads[{j}].products[{product}].fillings[{k}].{key}");
                    self.add(at(&format!("fillings[{k}].count")), count, of("count"));
                    self.add(at(&format!("fillings[{k}].amount")), amount.measure().shows(graduations), of("amount"));
                }
                let next = load.steps.get(s + 1).map(|next| next.action());
                if matches!(next, Some(Action::Premix { .. })) { before } else { with_room(product) }
            }
            Action::Premix { product, carrier } => {
                let measured = format!("P@advice.premix_parts * m@loads[{j}].products[{product}].measured");
                let by_mass = plan.job.products().get(product).is_some_and(|product| !product.dose().is_by_volume());
                let density = if by_mass { " / d@advice.premix_density" } else { "" };
                self.add(at("carrier"), carrier, format!("{measured}{density}"));
                format!("{} + w@{}", with_room(product), at("carrier"))
            }
            Action::Rinse { product, times, each } => {
                self.add(at("times"), times, "n@advice.rinses");
                if let Some(portion) = load.portions.get(product) {
                    let measure = measure_at(portion.choice, product);
                    self.add(at("each"), each, format!("q@advice.rinse * C@{measure}.capacity"));
                }
                format!("{before} + n@{} * e@{}", at("times"), at("each"))
            }
            Action::RinseContainers { product, containers, times, each } => {
                let source = core::mem::replace(&mut self.source, words::CONTAINERS);
                let amount = format!("m@loads[{j}].products[{product}].measured");
                let most = format!("steps_up({amount} / C@job.products[{product}].containers.content)");
                let formula = format!("min({most}, e@loads[{j}].products[{product}].emptied.count)");
                self.add(at("containers"), containers, formula);
                self.add(at("times"), times, "n@advice.container_rinses");
                self.add(at("each"), each, container_rinse(plan, product));
                self.source = source;
                before
            }
            Action::Wait { product, least, most } => {
                let is_advice = most.is_some();
                let label = format!("w@job.products[{product}].label.wait");
                self.add(at("least"), least, if is_advice { "w@advice.least_wait".into() } else { label });
                most.into_iter().for_each(|most| self.add(at("most"), most, "w@advice.most_wait"));
                before
            }
            Action::StartAgitator => before,
            Action::Agitate if s + 1 == load.steps.len() => format!("v@loads[{j}].mix"),
            Action::Agitate => before,
        };
        self.add(at("in_tank"), step.in_tank(), in_tank);
    }

    /// Mark and rest of a filling.
    fn level(&mut self, at: &impl Fn(&str) -> String, level: Level, volume: Volume) {
        let (to, tank) = (format!("t@{}", at("in_tank")), self.plan.job.tank());
        if let Some(mark) = level.mark() {
            self.add(at("mark"), mark, to_mark(tank, &to, volume));
        }
        if let Some(rest) = level.rest() {
            let carrier = format!("w@{}", at("carrier"));
            let over = |mark| format!("{to} - {}", held_at(tank, &format!("k@{}", at("mark")), mark));
            self.add(at("rest"), rest, level.mark().map_or(carrier, over));
        }
    }

    // Totals, each in the section of what is summed.

    fn totals(&mut self) {
        let plan = self.plan;
        self.source = words::LOADS;
        let mixes = over_loads(plan, |j, _| Some(format!("v{j}@loads[{j}].mix")));
        self.add("totals.mix", plan.made(), mixes + &self.held_volume(0, " - "));
        let all = match self.held_volume(0, " + ") {
            held if held.is_empty() => "V@totals.mix".into(),
            held => format!("(V@totals.mix{held})"),
        };
        self.add("totals.area", plan.area_made_for(), format!("{all} / {}", self.ground_rate()));
        self.source = words::STEPS;
        self.add("totals.carrier", plan.carrier(), over_loads(plan, |j, _| Some(format!("w{j}@loads[{j}].carrier"))));
        self.source = words::AMOUNTS;
        for (i, exact) in plan.exact_totals().into_iter().enumerate() {
            let asked = self.lacking((0, i), format!("c@mix.shares[{i}] * {all}"));
            self.add(format!("totals.products[{i}].exact"), exact, asked);
            self.doses(i);
        }
        for (i, total) in plan.cleared().into_iter().flat_map(|cleared| cleared.totals().enumerate()) {
            let at = format!("totals.products[{i}]");
            let measured = |j, _: &Load| Some(format!("m{j}@loads[{j}].products[{i}].measured"));
            self.add(format!("{at}.measured"), total.measured(), over_loads(plan, measured));
            self.gap(&at, total.exact(), (total.gap(), total.dose_gap()), "totals.area");
            self.containers(i, total.containers());
            for (k, ((choice, _), (measure, count))) in plan.choices(i).zip(total.drawn()).enumerate() {
                let graduation = format!("g@{}.graduation", measure_at(choice, i));
                self.add(format!("{at}.drawn[{k}].graduation"), measure.graduation(), graduation);
                let counted = |j, load: &Load| {
                    let by_it = load.portions.get(i).is_some_and(|portion| portion.choice == choice);
                    by_it.then(|| format!("g{j}@loads[{j}].products[{i}].graduations"))
                };
                self.add(format!("{at}.drawn[{k}].count"), count, over_loads(plan, counted));
            }
        }
    }

    /// A product's dose on each basis, brought from its share of the mix.
    fn doses(&mut self, product: usize) {
        let plan = self.plan;
        let source = core::mem::replace(&mut self.source, words::MIX);
        for (j, dose) in plan.doses(product).into_iter().enumerate() {
            let on_ground = format!("c@mix.shares[{product}] * R@volume_rate");
            let formula = match dose.basis() {
                Basis::MixVolume => format!("c@mix.shares[{product}]"),
                basis => from_ground(basis, on_ground, &plan.job),
            };
            self.add(format!("totals.products[{product}].doses[{j}].dose"), Quantity::from(dose), formula);
        }
        self.source = source;
    }

    // 19. Water.

    fn water(&mut self) {
        self.source = words::WATER;
        let Some(water) = self.plan.job.water() else { return };
        self.given("job.water.potassium", Some(water.potassium()));
        self.given("job.water.sodium", Some(water.sodium()));
        self.given("job.water.calcium", Some(water.calcium()));
        self.given("job.water.magnesium", Some(water.magnesium()));
        self.given("job.water.iron", Some(water.iron()));
        let hardness = "2.497 * a@job.water.calcium + 4.118 * m@job.water.magnesium";
        self.add("water.hardness", water.hardness(), hardness);
        let pounds = "0.002 * k@job.water.potassium + 0.005 * n@job.water.sodium + 0.009 * a@job.water.calcium + 0.014 * m@job.water.magnesium + 0.042 * f@job.water.iron";
        // A pound in 100 US gallons, in parts of a milligram in a liter.
        let formula = format!("({pounds}) * 1198.2642731689664");
        self.add("water.ammonium_sulfate_need", water.ammonium_sulfate_need(), formula);
    }

    // 18. The jar test.

    fn jar_test(&mut self) {
        self.source = words::JAR_TEST;
        let Some(jar) = self.plan.jar_test_asked() else { return };
        self.add("mixing.jar_test.volume", jar.volume(), "V@job.mixing.jar_test");
        self.add("mixing.jar_test.carrier", jar.carrier(), "k@mix.carrier_share * V@mixing.jar_test.volume");
        for (i, amount) in jar.amounts().iter().enumerate() {
            let formula = format!("c@mix.shares[{i}] * V@mixing.jar_test.volume");
            self.add(format!("mixing.jar_test.products[{i}].exact"), *amount, formula);
        }
    }

    // 8. Ledger.

    // 24. The field list.

    fn field_list(&mut self) {
        self.source = words::FIELD_LIST;
        let Some(list) = self.plan.field_list_asked() else { return };
        for (i, product) in list.products().iter().enumerate() {
            let at = |key: &str| format!("field_list.products[{i}].{key}");
            self.add(at("amount"), product.amount(), format!("m@totals.products[{i}].measured"));
            let used = format!("totals.products[{i}].containers");
            if let Some(containers) = product.containers() {
                let is_open = self.plan.cleared().and_then(|cleared| cleared.totals().nth(i)?.containers());
                let open = if is_open.is_some_and(|used| used.is_open()) { " + 1" } else { "" };
                self.add(at("containers"), containers, format!("o@{used}.opened{open}"));
            }
            if let Some(buy) = product.buy() {
                self.add(at("buy"), buy, format!("b@{used}.buy"));
            }
        }
        let (water, job) = (list.water(), &self.plan.job);
        let stated = job.field_list().unwrap_or_default().stated().map(|water| water.is_some());
        let [hands, eyes, tank_rinse] = stated;
        let from = |key: &str, is_stated| {
            if is_stated { format!("w@job.field_list.{key}") } else { format!("w@advice.{key}") }
        };
        let tank = if job.tank().nominal().is_some() { "N@job.tank.nominal" } else { "B@job.tank.brim" };
        let dilutable = job.sprayer().residual().map(|_| "d@job.sprayer.residual.dilutable * t@advice.residual_rinse");
        let advised = format!("{tank} * p@advice.tank_rinse");
        let rinse = match dilutable {
            _ if tank_rinse => from("tank_rinse", true),
            Some(dilutable) => format!("max({advised}, {dilutable})"),
            None => advised,
        };
        let rinsed = self.plan.cleared().and_then(|cleared| cleared.ledger().carrier().container_rinses());
        let containers = rinsed.map_or("0", |_| "c@ledger.carrier.container_rinses");
        self.add("field_list.water.carrier", water.carrier(), "d@ledger.carrier.drawn");
        self.add("field_list.water.measure_rinses", water.measure_rinses(), "r@ledger.carrier.rinses");
        self.add("field_list.water.container_rinses", water.container_rinses(), containers);
        self.add("field_list.water.tank_rinse", water.tank_rinse(), rinse);
        self.add("field_list.water.hands", water.hands(), from("hands", hands));
        self.add("field_list.water.eyes", water.eyes(), from("eyes", eyes));
        let parts = [("c", "carrier"), ("t", "tank_rinse"), ("h", "hands"), ("e", "eyes")];
        let parts = parts.map(|(symbol, key)| format!("{symbol}@field_list.water.{key}"));
        self.add("field_list.water.total", water.total(), parts.join(" + "));
    }

    fn ledger(&mut self) {
        self.source = words::LEDGER;
        let plan = self.plan;
        let Some(ledger) = plan.cleared().map(|cleared| cleared.ledger()) else { return };
        for (i, account) in ledger.products().iter().enumerate() {
            let at = |key: &str| format!("ledger.products[{i}].{key}");
            self.add(at("in_loads"), account.in_loads(), format!("m@totals.products[{i}].measured"));
            self.add(at("spilled"), account.spilled(), "0");
            self.add(at("drawn"), account.drawn(), format!("l@{} + s@{}", at("in_loads"), at("spilled")));
            if let (Some(stock), Some(left)) = (account.stock(), account.left()) {
                let stated = format!("S@job.products[{i}].stock");
                let containers = plan.job.products().get(i).and_then(Product::containers);
                let of = containers.filter(|containers| containers.full().is_some()).map(|containers| {
                    let at = format!("job.products[{i}].containers");
                    let part = containers.part().map_or_else(String::new, |_| format!(" + p@{at}.part"));
                    format!("F@{at}.full * C@{at}.content{part}")
                });
                self.add(at("stock"), stock, of.unwrap_or(stated));
                self.add(at("left"), left, format!("S@{} - d@{}", at("stock"), at("drawn")));
            }
        }
        let carrier = ledger.carrier();
        let into = |is_it: fn(Action) -> bool| over_loads(plan, |j, load| carriers(j, load, is_it));
        let first = into(|action| matches!(action, Action::Fill { .. }));
        self.add("ledger.carrier.first", carrier.first(), first);
        let premixed = into(|action| matches!(action, Action::Premix { .. }));
        self.add("ledger.carrier.premixed", carrier.premixed(), premixed);
        let rinses = into(|action| matches!(action, Action::Rinse { .. }));
        self.add("ledger.carrier.rinses", carrier.rinses(), rinses);
        let topped_up = into(|action| matches!(action, Action::TopUp { .. }));
        self.add("ledger.carrier.topped_up", carrier.topped_up(), topped_up);
        if let Some(rinses) = carrier.container_rinses() {
            let source = core::mem::replace(&mut self.source, words::CONTAINERS);
            let rinsed = plan.job.products().iter().enumerate();
            let rinsed =
                rinsed.filter(|(_, product)| product.containers().is_some() && product.container_rinse().is_some());
            let of = |(i, _): (usize, &Product)| {
                let (emptied, each) =
                    (format!("e{i}@totals.products[{i}].containers.emptied"), container_rinse(plan, i));
                format!("{emptied} * n@advice.container_rinses * {each}")
            };
            self.add("ledger.carrier.container_rinses", rinses, sum(rinsed.map(of)));
            self.source = source;
        }
        let accounts = [("f", "first"), ("p", "premixed"), ("r", "rinses"), ("t", "topped_up")];
        let accounts = accounts.map(|(symbol, key)| format!("{symbol}@ledger.carrier.{key}"));
        self.add("ledger.carrier.drawn", carrier.drawn(), sum(accounts));

        self.add("ledger.mix.made", ledger.made(), "V@totals.mix");
        let mut all = String::from("V@ledger.mix.made");
        if plan.start().is_some() {
            self.add("ledger.mix.at_start", ledger.at_start(), "h@start.volume");
            all.push_str(" + s@ledger.mix.at_start");
        }
        let residual = self.residual().map_or("0".into(), |r| format!("min({r}, {all})"));
        self.add("ledger.mix.residual", ledger.residual(), residual);
        self.add("ledger.mix.sprayed", ledger.sprayed(), format!("{all} - r@ledger.mix.residual"));
    }

    // 14. The season.

    fn season(&mut self) {
        self.source = words::SEASON;
        let plan = self.plan;
        for (i, largest) in plan.largest_doses().iter().enumerate() {
            let (Some(largest), Some(product)) = (largest, plan.held.products().get(i)) else { continue };
            let at = |key: &str| format!("totals.products[{i}].largest_dose.{key}");
            let (dose, limit) = match (largest.binding(), largest.cap) {
                (Binding::Cap, Some((j, k, _))) => {
                    let limit = format!("L@job.products[{j}].label.caps[{k}].value");
                    (self.left_of_cap(i, product, largest, (j, k), &limit), Some(limit))
                }
                (Binding::MaxDose, _) => {
                    let Some((n, key, most, _)) = plan.binding_maximum(product) else { continue };
                    let term = most_term(self.plan, (i, n), key, product);
                    let per_ground = match most {
                        Dose::LiquidPerMix(_) | Dose::SolidPerMix(_) => " * R@volume_rate",
                        Dose::MassPerMass(_) => " * s@job.mix_density * R@volume_rate",
                        Dose::LiquidPerCarrier(_) | Dose::SolidPerCarrier(_) => {
                            " * k@mix.carrier_share * R@volume_rate"
                        }
                        Dose::LiquidPerArea(_) | Dose::SolidPerArea(_) | Dose::PerCrop(_) => "",
                    };
                    (format!("{}{per_ground}", on_ground(most.basis(), term.clone(), &plan.job)), Some(term))
                }
                _ => ("0".into(), None),
            };
            self.add(at("dose"), Quantity::from(largest.dose()), dose);
            if let Some(limit) = limit {
                self.add(at("limit"), largest.limit().value(), limit);
            }
        }
    }

    /// The limit of a cap less what was and is brought out beside a product, per unit of the product.
    fn left_of_cap(
        &self,
        i: usize,
        product: &Product,
        largest: &LargestDose,
        (j, k): (usize, usize),
        limit: &str,
    ) -> String {
        let plan = self.plan;
        let products = plan.held.products();
        let of_cap = products.get(j).map(|of| of.label().restrictions()).unwrap_or_default().iter();
        let mut caps = of_cap.filter_map(|restriction| match restriction.rule() {
            Rule::Cap(capped, _, basis) => Some((capped, *basis)),
            _ => None,
        });
        let Some((capped, basis)) = caps.nth(k) else { return String::new() };
        let on_part = basis == CapBasis::TreatedArea && plan.job.crop().part_treated(plan.job.area()).is_some();
        let mut less = Vec::new();
        let treatments = plan.job.season().map(Season::treatments).unwrap_or_default();
        for t in plan.counted_treatments(largest) {
            let Some(treatment) = treatments.get(t) else { continue };
            let at = format!("job.season.treatments[{t}]");
            let share = match basis {
                CapBasis::GroundArea => format!(" * s{t}@{at}.treated_share"),
                CapBasis::TreatedArea => String::new(),
            };
            match treatment.applied() {
                Applied::Product(name, _) => {
                    let of = products.iter().enumerate().find(|(_, product)| product.name() == &**name);
                    let part = of.and_then(|(of, product)| per_unit(of, product, capped));
                    let part = part.map_or_else(String::new, |part| format!(" * {part}"));
                    less.push(format!("d{t}@{at}.dose{share}{part}"));
                }
                Applied::Substances(substances) => {
                    let Capped::Substance(counted, _) = capped else { continue };
                    for (u, (name, _)) in substances.iter().enumerate() {
                        let factor = match season::equivalent_of(&plan.job, name, counted) {
                            _ if name == counted => String::new(),
                            Some((p, s, _)) => {
                                format!(" * e{p}_{s}@job.products[{p}].active_substances[{s}].equivalent.factor")
                            }
                            None => continue,
                        };
                        less.push(format!("d{t}_{u}@{at}.substances[{u}].dose{factor}{share}"));
                    }
                }
            }
        }
        for (of, other) in products.iter().enumerate().filter(|(of, _)| *of != i) {
            if let Capped::Substance(name, _) = capped
                && other.active_substances().iter().any(|one| one.summed_name() == &**name)
                && let Some(part) = per_unit(of, other, capped)
            {
                let dose = ground_dose(plan, of, other);
                let dose = if on_part { from_ground(Basis::TreatedArea, dose, &plan.job) } else { dose };
                less.push(format!("{dose} * {part}"));
            }
        }
        let left = if less.is_empty() { limit.into() } else { format!("max(0, {limit} - ({}))", sum(less)) };
        let left = if on_part { on_ground(Basis::TreatedArea, left, &plan.job) } else { left };
        per_unit(i, product, capped).map_or_else(|| left.clone(), |part| format!("{left} / {part}"))
    }

    // 12. Active substances.

    fn substances(&mut self) {
        self.source = words::SUBSTANCES;
        for (k, total) in self.plan.substances().iter().enumerate() {
            let summed = |of: &dyn Fn(usize, &Product) -> String| {
                let products = self.plan.held.products().iter().enumerate();
                sum(products.flat_map(|(i, product)| {
                    let substances = product.active_substances().iter().enumerate();
                    let its = substances.filter(|(_, substance)| substance.summed_name() == total.name());
                    its.map(move |one| format!("{} * {}", in_product((i, product), one), of(i, product)))
                }))
            };
            let dose = summed(&|i, product| ground_dose(self.plan, i, product));
            let exact = summed(&|i, _| format!("x{i}@totals.products[{i}].exact"));
            let measured = summed(&|i, _| format!("m{i}@totals.products[{i}].measured"));
            let at = |key: &str| format!("totals.active_substances[{k}].{key}");
            if let Some(value) = total.dose() {
                self.add(at("dose"), value, dose);
            }
            if let Some(value) = total.exact() {
                self.add(at("exact"), value, exact);
            }
            if let Some(value) = total.measured() {
                self.add(at("measured"), value, measured);
            }
        }
    }
}

// -------------------------------------------------------------------------------------------------- pieces of formulas

/// The dose of a product per ground area.
fn ground_dose(plan: &Plan, i: usize, product: &Product) -> String {
    match product.dose() {
        Dose::LiquidPerArea(_) | Dose::SolidPerArea(_) => format!("D{i}@{}", dose_at(plan, i)),
        _ => format!("c{i}@mix.shares[{i}] * R@volume_rate"),
    }
}

/// What a product counts towards a cap per unit of its dose; none where it is the product itself that is counted.
fn per_unit(i: usize, product: &Product, capped: &Capped) -> Option<String> {
    let Capped::Substance(name, _) = capped else { return None };
    let substances = product.active_substances().iter().enumerate().filter(|(_, one)| one.summed_name() == &**name);
    Some(format!("({})", sum(substances.map(|one| in_product((i, product), one)))))
}

/// How much of a substance, as it is summed, there is per unit of what its product is dosed in.
fn in_product((i, product): (usize, &Product), (s, substance): (usize, &ActiveSubstance)) -> String {
    let at = format!("job.products[{i}].active_substances[{s}]");
    let mut part = format!("q{i}_{s}@{at}.content");
    let density = format!("p{i}@job.products[{i}].density");
    match (substance.content(), product.dose().is_by_volume()) {
        (SubstanceContent::PerMass(_), true) => part.push_str(&format!(" * {density}")),
        (SubstanceContent::PerVolume(_), false) => part.push_str(&format!(" / {density}")),
        _ => {}
    }
    if substance.equivalent().is_some() {
        part.push_str(&format!(" * e{i}_{s}@{at}.equivalent.factor"));
    }
    part
}

/// A sum; `0` of no terms.
fn sum(terms: impl IntoIterator<Item = String>) -> String {
    let terms: Vec<String> = terms.into_iter().collect();
    if terms.is_empty() { "0".into() } else { terms.join(" + ") }
}

/// The sum over loads of their count times what each has.
fn over_loads(plan: &Plan, each: impl Fn(usize, &Load) -> Option<String>) -> String {
    let loads = plan.loads.iter().enumerate();
    sum(loads.filter_map(|(j, load)| Some(format!("n{j}@loads[{j}].count * {}", each(j, load)?))))
}

/// The mark that a volume reaches, as it is written beside the tank.
fn to_mark(tank: &Tank, formula: &str, volume: Volume) -> String {
    let shown = match tank.scale_check().and_then(|check| check.straight_for(volume)) {
        Some(straight) => along(straight, formula, ("poured", "p", "P"), ("read", "r", "R")),
        None => formula.into(),
    };
    format!("steps_down({shown} / g@job.tank.graduation) * g@job.tank.graduation")
}

/// What the tank holds at a written mark.
fn held_at(tank: &Tank, formula: &str, mark: Volume) -> String {
    match tank.scale_check().and_then(|check| check.straight_at(mark)) {
        Some(straight) => along(straight, formula, ("read", "r", "R"), ("poured", "p", "P")),
        None => formula.into(),
    }
}

/// What the tank holds at the mark that a volume reaches; the volume itself in a tank without marks.
fn held_at_mark(tank: &Tank, formula: &str, volume: Volume) -> String {
    match tank.mark_below(volume) {
        Some(mark) => held_at(tank, &to_mark(tank, formula, volume), mark.written),
        None => formula.into(),
    }
}

/// From one side of a straight part of a tank's scale to the other.
fn along(straight: Straight, formula: &str, from: (&str, &str, &str), to: (&str, &str, &str)) -> String {
    let at = |point: usize, key: &str| format!("job.tank.scale_check.points[{point}].{key}");
    let high = |(key, _, symbol): (&str, &str, &str)| format!("{symbol}@{}", at(straight.to, key));
    match straight.from {
        None => format!("{formula} * {} / {}", high(to), high(from)),
        Some(low) => {
            let low = |(key, symbol, _): (&str, &str, &str)| format!("{symbol}@{}", at(low, key));
            let span = |side| format!("({} - {})", high(side), low(side));
            format!("({} + ({formula} - {}) * {} / {})", low(to), low(from), span(to), span(from))
        }
    }
}

/// Where a product's measure stands.
fn measure_at(choice: Choice, product: usize) -> String {
    match choice {
        Choice::Own => format!("job.products[{product}].measure"),
        Choice::Listed(index) => format!("job.measures[{index}]"),
    }
}

/// Where a product's largest dose stands.
/// A largest dose of a product, the `n`th of them, in a formula.
fn most_term(plan: &Plan, (i, n): (usize, usize), key: &str, product: &Product) -> String {
    let at = |key: &str| format!("@job.products[{i}].{key}");
    match key {
        "tank" => format!("D{} * V{} / T{}", at("dose"), at("label.tank.mix"), at("label.tank.area")),
        _ if product.is_its_own_maximum() => format!("D@{}", dose_at(plan, i)),
        _ => format!("D{n}{}", at(&format!("label.{key}"))),
    }
}

/// Where a largest dose that is counted on carrier stands.
fn on_carrier_at(plan: &Plan, i: usize, product: &Product) -> String {
    if product.is_its_own_maximum() { dose_at(plan, i) } else { format!("job.products[{i}].label.max_dose") }
}

/// What an amount on a basis of the crop is multiplied and divided by, to be one per ground area.
fn to_ground(basis: Basis, job: &Job) -> (Vec<String>, Vec<String>) {
    let crop = job.crop();
    let both = crop.treated_sides() == Some(Sides::Both);
    let sides = |halved: bool| (both != halved).then(|| String::from("2"));
    let height = || String::from("h@job.crop.canopy_height");
    // Every second row: for each one that is treated there is twice the ground.
    let alternate = (crop.treated_rows() == Rows::Alternate).then(|| String::from("2"));
    let spacing = || alternate.clone().into_iter().chain([String::from("w@job.crop.row_spacing")]).collect();
    let counted = |key: &str| (vec![format!("n@job.crop.{key}")], vec![String::from("A@area")]);
    match basis {
        Basis::GroundArea | Basis::MixVolume | Basis::CarrierVolume => (Vec::new(), Vec::new()),
        Basis::TreatedArea if crop.spots().is_some() && crop.spot_area().is_some() => {
            let (mut by, over) = counted("spots");
            by.push("q@job.crop.spot_area".into());
            (by, over)
        }
        Basis::TreatedArea => (vec!["b@job.crop.band_width".into()], spacing()),
        Basis::LeafWallArea => (sides(false).into_iter().chain([height()]).collect(), spacing()),
        Basis::TreeRowVolume => {
            let over: Vec<String> = spacing();
            (vec![height(), "B@job.crop.canopy_width".into()], over.into_iter().chain(sides(true)).collect())
        }
        Basis::CrownHeight => (vec![height()], sides(true).into_iter().chain(alternate).collect()),
        Basis::RowLength => (Vec::new(), spacing()),
        Basis::Plant if crop.plants().is_some() => counted("plants"),
        Basis::Plant => {
            let over: Vec<String> = spacing();
            (Vec::new(), over.into_iter().chain(["x@job.crop.plant_spacing".into()]).collect())
        }
        Basis::Spot => counted("spots"),
    }
}

/// An amount on a basis, per ground area.
fn on_ground(basis: Basis, term: String, job: &Job) -> String {
    let (by, over) = to_ground(basis, job);
    scaled(term, &by, &over)
}

/// An amount per ground area, on a basis.
fn from_ground(basis: Basis, term: String, job: &Job) -> String {
    let (by, over) = to_ground(basis, job);
    scaled(term, &over, &by)
}

fn scaled(term: String, by: &[String], over: &[String]) -> String {
    let by: String = by.iter().map(|factor| format!(" * {factor}")).collect();
    let over: String = over.iter().map(|divisor| format!(" / {divisor}")).collect();
    term + &by + &over
}

/// Where the dose stands that holds for a product.
fn dose_at(plan: &Plan, i: usize) -> String {
    let dose = |job: &Job| job.products().get(i).map(Product::dose);
    let key = if dose(&plan.held) == dose(&plan.job) { "dose" } else { "at_least" };
    format!("job.products[{i}].{key}")
}

/// The density by which a mass of a product takes up room in the tank.
fn room_density(i: usize, product: &Product, suffix: &str) -> Option<String> {
    let (key, is_known) = match product.state() {
        State::Dry => ("particle_density", product.particle_density().is_some()),
        State::Liquid | State::Viscous => ("density", product.density().is_some()),
    };
    is_known.then(|| format!("p{suffix}@job.products[{i}].{key}"))
}

/// The density between the sort that a product is dosed in and that of its measure, where they differ.
fn sort_density(i: usize, product: &Product, measure: &Measure) -> Option<String> {
    let key = match (measure.graduation(), product.dose().is_by_volume(), product.state()) {
        (Amount::Volume(_), true, _) | (Amount::Mass(_), false, _) => return None,
        (Amount::Volume(_), false, State::Dry) => "bulk_density",
        _ => "density",
    };
    Some(format!("p@job.products[{i}].{key}"))
}

/// The room that the measured amount of a product takes up in a load; `loads` says which amount, the one before the load's carrier was
/// looked at or the one that is poured.
fn room(plan: &Plan, (loads, j): (&str, usize), i: usize, suffix: &str) -> Option<String> {
    let product = plan.job.products().get(i)?;
    let measured = format!("m{suffix}@{loads}[{j}].products[{i}].measured");
    if product.dose().is_by_volume() {
        return Some(measured);
    }
    Some(format!("{measured} / {}", room_density(i, product, suffix)?))
}

/// The room that what the tank holds of a product takes up.
fn held_room(plan: &Plan, j: usize, i: usize) -> Option<String> {
    let product = plan.job.products().get(i).filter(|_| j == 0 && plan.start().is_some())?;
    let held = format!("h{i}@start.products[{i}].amount");
    if product.dose().is_by_volume() {
        return Some(held);
    }
    Some(format!("{held} / {}", room_density(i, product, &format!("{i}"))?))
}

/// What is gone from the container of a product that is open, as a further term.
fn open(plan: &Plan, i: usize) -> String {
    let containers = plan.job.products().get(i).and_then(Product::containers);
    let is_open = containers.is_some_and(|containers| containers.gone().exceeds(containers.gone().none()));
    let at = format!("job.products[{i}].containers");
    if is_open { format!(" + C@{at}.content - p@{at}.part") } else { String::new() }
}

/// What one rinse of a product's container takes.
fn container_rinse(plan: &Plan, i: usize) -> String {
    let product = plan.job.products().get(i);
    let Some((product, (is_small, _))) = product.and_then(|product| Some((product, product.container_rinsed()?)))
    else {
        return String::new();
    };
    let content = format!("C@job.products[{i}].containers.content");
    let density = match (product.dose().is_by_volume(), product.state()) {
        (true, _) => String::new(),
        (false, State::Dry) => format!(" / b{i}@job.products[{i}].bulk_density"),
        (false, _) => format!(" / d{i}@job.products[{i}].density"),
    };
    let size = if is_small { "small" } else { "large" };
    format!("q{i}@advice.{size}_container_rinse * {content}{density}")
}

/// The carrier of a step: its rinses, or all of it.
fn carrier_of((j, s): (usize, usize), step: Step, suffix: &str) -> String {
    let at = format!("loads[{j}].steps[{s}]");
    match step.action() {
        Action::Rinse { .. } => format!("t{suffix}@{at}.times * e{suffix}@{at}.each"),
        _ => format!("w{suffix}@{at}.carrier"),
    }
}

/// The carrier of the steps of a sort, where a load has any.
fn carriers(j: usize, load: &Load, is_it: fn(Action) -> bool) -> Option<String> {
    let steps = load.steps.iter().enumerate().filter(|(_, step)| is_it(step.action()));
    let terms: Vec<String> = steps.map(|(s, step)| carrier_of((j, s), *step, &format!("{j}_{s}"))).collect();
    match terms.as_slice() {
        [] => None,
        [term] => Some(term.clone()),
        _ => Some(format!("({})", sum(terms))),
    }
}

/// Less the carrier that a load keeps for premixes and rinses.
fn reserved(j: usize, load: &Load) -> String {
    let is_kept = |step: &Step| matches!(step.action(), Action::Premix { .. } | Action::Rinse { .. });
    let kept = load.steps.iter().enumerate().filter(|(_, step)| is_kept(step));
    kept.map(|(s, step)| format!(" - {}", carrier_of((j, s), *step, &format!("{s}")))).collect()
}

/// Less what of the top-up is for rinses of containers.
fn reserved_for_containers(j: usize, load: &Load) -> String {
    let steps = load.steps.iter().enumerate();
    let rinses = steps.filter(|(_, step)| matches!(step.action(), Action::RinseContainers { .. })).map(|(s, _)| {
        let at = format!("loads[{j}].steps[{s}]");
        format!(" - c{s}@{at}.containers * t{s}@{at}.times * e{s}@{at}.each")
    });
    rinses.collect()
}

/// The carrier that goes in before the products: a share of the load, or what is not kept for later, down to a mark.
fn first_carrier(plan: &Plan, (j, load): (usize, &Load), level: Level) -> String {
    if load.portions.is_empty() {
        return format!("w@loads[{j}].carrier");
    }
    let products = plan.job.products().iter().enumerate();
    let asked = products.filter(|(_, product)| product.label().first_carrier.is_some());
    let asked: Vec<String> = asked.map(|(i, _)| format!("F{i}@job.products[{i}].label.first_carrier")).collect();
    let share = match asked.as_slice() {
        [] => "F@advice.first_carrier".into(),
        [first, others @ ..] => {
            let others = others.iter().map(|other| format!(", {other})"));
            format!("{}{first}{}", "max(".repeat(others.len()), others.collect::<String>())
        }
    };
    let kept = reserved(j, load) + &reserved_for_containers(j, load);
    let (share, most) = (format!("{share} * v@loads[{j}].mix"), format!("w@loads[{j}].carrier{kept}"));
    let is_topped_up = j == 0 && plan.start().is_some();
    let first = match is_topped_up {
        true => format!("min(max(0, {share} - h@start.volume), {most})"),
        false => format!("min({share}, {most})"),
    };
    if level.mark().is_none() {
        return first;
    }
    let containers = plan.container_rinses(load);
    let of = (load.mix, load.held_volume(), load.carrier);
    let kept = steps::kept_back(&plan.job, &load.portions, &containers);
    let before = steps::level_before_marks(&plan.job, of, kept);
    match is_topped_up {
        true => {
            let at_mark = held_at_mark(plan.job.tank(), &format!("({first} + h@start.volume)"), before);
            format!("{at_mark} - h@start.volume")
        }
        false => held_at_mark(plan.job.tank(), &first, before),
    }
}
