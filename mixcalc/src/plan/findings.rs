//! What is to be said of a plan: what breaks or nears a limit.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use super::recipe::Choice;
use super::{LastStrip, Load, Plan, Portion, measuring, recipe};
use crate::finding::{Bound, Finding, FindingCode, Limit};
use crate::label::{AMMONIUM_SULFATE, Basis, LabelTank, Product, Share, State, Water, treated_from};
use crate::measure::{Measure, MeasureClass};
use crate::quantity::close::{is_close, is_over, is_under};
use crate::quantity::{Area, MassConcentration, Quantity, Ratio};
use crate::sprayer;
use crate::text::{self, source};

/// Largest part of a job that a last strip takes without a caution.
const STRIP_PERCENT: f64 = 10.0;

impl Plan {
    /// Every finding but the ones on steps, which are not laid out yet; the gravest first.
    pub(super) fn all_findings(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (index, product) in self.held.products().iter().enumerate() {
            self.on_least_dose(index, product, &mut findings);
            self.on_dose(index, product, &mut findings);
            self.on_volume_rate(index, product, &mut findings);
            self.on_substances(index, product, &mut findings);
        }
        self.on_season(&mut findings);
        for load in &self.loads {
            for (index, portion) in load.portions.iter().enumerate() {
                self.on_measuring(load, index, portion, &mut findings);
            }
        }
        self.on_unverified(&mut findings);
        self.on_water(&mut findings);
        self.on_slips(&mut findings);
        self.on_calibration(&mut findings);
        self.on_working_volume(&mut findings);
        self.on_start(&mut findings);
        self.on_ground(&mut findings);
        let job = &self.job;
        findings.extend(sprayer::findings_on(
            self.safe_fill,
            (job.sprayer(), job.tank()),
            job.mix_density(),
            job.units(),
        ));
        findings.extend(self.order.iter().flat_map(|order| order.differences(job)));
        findings.sort_by_key(Finding::severity);
        findings
    }

    /// The stop on a load whose rinses and premixes leave no carrier to begin with.
    pub(super) fn rinses_exceed_carrier(&self, load: &Load, needed: impl Into<Quantity>) -> Finding {
        Finding::new(FindingCode::RinsesExceedCarrier, "measures", self.job.units())
            .in_load(load.first)
            .actual_value(needed)
            .against(Limit::fact(Bound::AtMost, self.mix.carrier_in(load.added()), source::LOAD))
    }

    fn finding(&self, code: FindingCode, path: impl Into<String>) -> Finding {
        Finding::new(code, path, self.job.units())
    }

    fn on_product(&self, code: FindingCode, index: usize, key: &str, product: &Product) -> Finding {
        self.finding(code, format!("products[{index}].{key}")).about(product.name())
    }

    fn on_dose(&self, index: usize, product: &Product, findings: &mut Vec<Finding>) {
        let on = |code, key| self.on_product(code, index, key, product).actual_value(product.dose());
        let Some((share, largest)) = self.mix.shares.get(index).copied() else { return };
        if exceeds(share, largest) {
            self.on_largest_doses(index, product, share, findings);
        }
        if let Some(tank) = product.label().tank() {
            self.on_label_tank(index, product, share, tank, findings);
        }
        if let Some(part) = self.job.crop().part_treated(self.job.area())
            && product.dose().basis() == Basis::GroundArea
        {
            let concentrated = share.on_ground(self.mix.rate).over_part(part);
            let finding = self.on_product(FindingCode::DoseOnPartOfGround, index, "basis", product);
            let stated = Limit::fact(Bound::AtMost, product.dose(), source::JOB);
            findings.push(finding.actual_value(concentrated).against(stated));
        }
        if let Some(least) = product.label().min_dose
            && let Ok(needed) = least.share(&self.mix.composition(&self.job))
            && exceeds(needed, share)
        {
            let limit = product.label().limit(Bound::AtLeast, least);
            let finding = on(FindingCode::BelowMinimumDose, "dose")
                .on_bases([product.dose().basis(), least.basis()].map(text::on_basis));
            findings.push(finding.against(limit));
        }
        if product.is_its_own_maximum() {
            let basis = product.dose().basis();
            findings.push(
                on(FindingCode::DoseTakenAsMaximum, "label.max_dose").on_bases([basis, basis].map(text::on_basis)),
            );
        }
        if self.mix.displacements.get(index).is_some_and(Option::is_none) {
            let key = if product.state() == State::Dry { "particle_density" } else { "density" };
            findings.push(self.on_product(FindingCode::DisplacementNotCounted, index, key, product));
        }
    }

    /// The largest doses that are broken, each against the dose on the same basis.
    fn on_largest_doses(&self, index: usize, product: &Product, share: Share, findings: &mut Vec<Finding>) {
        let of = self.mix.composition(&self.job);
        for (key, most) in product.largest_doses() {
            // What could be brought to a share once can be brought to one again.
            if most.share(&of).is_ok_and(|most| exceeds(share, most)) {
                let dose = self.doses(index).into_iter().find(|dose| dose.basis() == most.basis());
                let actual = dose.filter(|_| product.dose().basis() != most.basis()).unwrap_or(product.dose());
                let finding = self.on_product(FindingCode::OverMaximumDose, index, "dose", product);
                let finding = finding.actual_value(actual).on_bases([actual.basis(), most.basis()].map(text::on_basis));
                findings.push(finding.against(product.largest_dose_limit(key, most)));
            }
        }
    }

    /// What a label says that one tank serves, where the volume rate of the job makes another dose of its concentration.
    fn on_label_tank(
        &self,
        index: usize,
        product: &Product,
        share: Share,
        tank: LabelTank,
        findings: &mut Vec<Finding>,
    ) {
        if !is_close(self.mix.rate, tank.volume_rate()) {
            let by_area = Limit::label(Bound::AtMost, share.on_ground(tank.volume_rate()), source::LABEL_TANK);
            let finding = self.on_product(FindingCode::LabelTankDisagrees, index, "label.tank", product);
            findings.push(finding.actual_value(share.on_ground(self.mix.rate)).against(by_area));
        }
    }

    /// That the least dose holds, where it does: the product is then not at the dose that the job gives.
    fn on_least_dose(&self, index: usize, product: &Product, findings: &mut Vec<Finding>) {
        if let Some(given) = self.job.products().get(index).filter(|given| given.dose() != product.dose()) {
            let limit = product.label().limit(Bound::AtLeast, product.dose());
            let finding = self.on_product(FindingCode::LeastDoseHolds, index, "at_least", product);
            let finding = finding
                .actual_value(given.dose())
                .on_bases([given.dose().basis(), product.dose().basis()].map(text::on_basis));
            findings.push(finding.against(limit));
        }
    }

    fn on_volume_rate(&self, index: usize, product: &Product, findings: &mut Vec<Finding>) {
        let label = product.label();
        // What could be brought to the basis once can be brought to it again.
        let Ok(rate) = self.mix.rate_on(label.volume_rate_basis(), self.job.stand()) else { return };
        let basis = label.volume_rate_basis().unwrap_or(Basis::GroundArea);
        let mut push = |code, key, limit| {
            let finding = self
                .on_product(code, index, key, product)
                .actual_value(rate)
                .on_bases([basis, basis].map(text::on_basis));
            findings.push(finding.against(limit));
        };
        if let Some(least) = label.min_volume_rate.filter(|least| is_under(rate, *least)) {
            let limit = label.limit(Bound::AtLeast, least);
            push(FindingCode::VolumeRateBelowMinimum, "label.min_volume_rate", limit);
        }
        if let Some(most) = label.max_volume_rate.filter(|most| is_over(rate, *most)) {
            let limit = label.limit(Bound::AtMost, most);
            push(FindingCode::VolumeRateAboveMaximum, "label.max_volume_rate", limit);
        }
    }

    /// What is to be said of measured amounts. Of a plan that may be carried out only, for it shows them.
    pub(super) fn on_what_is_measured(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (index, product) in self.job.products().iter().enumerate() {
            for (load, portion) in self.loads.iter().filter_map(|load| Some((load, load.portions.get(index)?))) {
                self.on_packs(load, index, product, portion, &mut findings);
            }
            self.on_stock(index, product, &mut findings);
            self.on_delivered(index, product, &mut findings);
        }
        findings
    }

    fn on_packs(&self, load: &Load, index: usize, product: &Product, portion: &Portion, findings: &mut Vec<Finding>) {
        let Some(measure) = portion.choice.measure(&self.job, index) else { return };
        let Some(exact) = product.brought_to(measure, portion.exact) else { return };
        if let Some(counted) = portion.packs_off(measure, exact) {
            let bound = if counted.exceeds(exact) { Bound::AtMost } else { Bound::AtLeast };
            let finding = self.finding(FindingCode::PacksOffDose, format!("products[{index}]")).about(product.name());
            let finding = finding.in_load(load.first).actual_value(counted);
            findings.push(finding.against(Limit::advice(bound, exact, source::PACKS)));
        }
    }

    /// What the job takes beyond the stock.
    fn on_stock(&self, index: usize, product: &Product, findings: &mut Vec<Finding>) {
        if let Some((stock, drawn)) = product.stock().zip(self.measured_total(index))
            && drawn.exceeds(stock)
        {
            let finding = self.on_product(FindingCode::StockShort, index, "stock", product);
            findings.push(finding.actual_value(drawn).against(Limit::fact(Bound::AtMost, stock, source::JOB)));
        }
    }

    fn on_measuring(&self, load: &Load, index: usize, portion: &Portion, findings: &mut Vec<Finding>) {
        let product = self.job.products().get(index);
        let (Some(product), Some(measure)) = (product, portion.choice.measure(&self.job, index)) else { return };
        let Some(exact) = product.brought_to(measure, portion.exact) else { return };
        let mut push = |code, actual: Quantity, limit| {
            let finding = self.finding(code, format!("products[{index}]")).about(product.name());
            findings.push(finding.in_load(load.first).actual_value(actual).against(limit));
        };
        let graduation = measure.graduation();
        if portion.measured.is_none() {
            let limit = Limit::fact(Bound::AtLeast, graduation, source::MEASURE);
            // What the dose asks for may be enough, and what the carrier allows not.
            let most = product.brought_to(measure, portion.ceiling).filter(|_| !exact.is_under(graduation));
            return push(FindingCode::AmountBelowGraduation, most.unwrap_or(exact).into(), limit);
        }
        // What the tank holds may be all of it.
        if exact == exact.none() {
            return;
        }
        if recipe::is_coarse(measure, exact) {
            let limit = Limit::advice(Bound::AtMost, recipe::coarsest_advised(exact), source::GRADUATION);
            push(FindingCode::CoarseGraduation, graduation.into(), limit);
        }
        let uncertainty = portion.measured.and_then(|measured| measure.uncertainty(measured.graduations));
        if let Some(uncertainty) = uncertainty.filter(|uncertainty| is_over(*uncertainty, measuring::most_uncertain()))
        {
            let limit = Limit::advice(Bound::AtMost, measuring::most_uncertain(), source::MEASURABLE);
            push(FindingCode::AmountHardToMeasure, uncertainty.into(), limit);
        }
        if measure.fillings_for(exact) > self.job.loading().max_fillings() {
            let most = measure.capacity().times(Ratio::of_steps(self.job.loading().max_fillings()));
            push(FindingCode::ManyFillings, exact.into(), Limit::advice(Bound::AtMost, most, source::FILLINGS));
        }
    }

    /// Hard water, and less ammonium sulfate than water and labels ask for.
    fn on_water(&self, findings: &mut Vec<Finding>) {
        let water = self.job.water();
        if let Some(hardness) = water.map(Water::hardness).filter(|hardness| is_over(*hardness, treated_from())) {
            let limit = Limit::advice(Bound::AtMost, treated_from(), source::HARD_WATER);
            findings.push(self.finding(FindingCode::HardWater, "water").actual_value(hardness).against(limit));
        }
        let need = water.map_or(MassConcentration::ZERO, Water::ammonium_sulfate_need);
        for (index, product) in self.job.products().iter().enumerate() {
            let Some(asked) = product.label().ammonium_sulfate() else { continue };
            let (due, there) = (need.max(asked), self.ammonium_sulfate());
            if let Some(there) = there.filter(|there| is_under(*there, due)) {
                let key = "label.ammonium_sulfate";
                let finding =
                    self.on_product(FindingCode::AmmoniumSulfateShort, index, key, product).actual_value(there);
                let limit = product.label().limit(Bound::AtLeast, due);
                findings.push(finding.against(if need > asked {
                    limit.at_source(source::AMMONIUM_SULFATE)
                } else {
                    limit
                }));
            }
        }
    }

    /// Ammonium sulfate per volume of mix; `None` where that is not known.
    fn ammonium_sulfate(&self) -> Option<MassConcentration> {
        let substances = self.substances();
        match substances.iter().find(|substance| substance.name() == AMMONIUM_SULFATE) {
            Some(substance) => Some(substance.dose()?.as_solid_dose() / self.mix.rate),
            None => Some(MassConcentration::ZERO),
        }
    }

    /// That how far a measure in use may be off is a figure of custom.
    fn on_unverified(&self, findings: &mut Vec<Finding>) {
        let uses = |choice| self.loads.iter().flat_map(|load| &load.portions).any(|portion| portion.choice == choice);
        let class = |measure: &Measure| measure.class().filter(|class| !class.is_verified());
        let mut tell = |path: String, measure: &Measure, class: MeasureClass| {
            let finding = self.finding(FindingCode::ToleranceUnverified, path).about(measure.name());
            let off = Limit::advice(Bound::AtMost, measuring::most_uncertain(), class.source());
            findings.push(finding.against(off));
        };
        for (i, measure) in self.job.measures().iter().enumerate() {
            if let Some(class) = class(measure).filter(|_| uses(Choice::Listed(i))) {
                tell(format!("measures[{i}].class"), measure, class);
            }
        }
        for (i, product) in self.job.products().iter().enumerate() {
            if let Some((measure, class)) = product.measure().and_then(|measure| Some((measure, class(measure)?))) {
                tell(format!("products[{i}].measure.class"), measure, class);
            }
        }
    }

    fn on_working_volume(&self, findings: &mut Vec<Finding>) {
        let Some(least) = self.job.tank().least_working_volume() else { return };
        for load in self.loads.iter().filter(|load| is_under(load.mix, least)) {
            findings.push(
                self.finding(FindingCode::PartLoadBelowWorkingVolume, "tank.least_working_volume")
                    .in_load(load.first)
                    .actual_value(load.mix)
                    .against(Limit::fact(Bound::AtLeast, least, source::JOB)),
            );
        }
    }

    fn on_ground(&self, findings: &mut Vec<Finding>) {
        let twice = self.job.ground().sprayed_twice();
        if twice > Area::ZERO {
            findings.push(self.finding(FindingCode::OverlapDoublesDose, "ground.overlap").actual_value(twice));
        }
        let short = self.residual() / self.mix.ground_rate;
        let Some(strip) = self.strip else {
            if short > Area::ZERO {
                findings
                    .push(self.finding(FindingCode::ResidualLeavesGroundShort, "sprayer.residual").actual_value(short));
            }
            return;
        };
        let tenth = self.job.area() * Ratio::of_percent(STRIP_PERCENT);
        if is_over(strip.area(), tenth) {
            let limit = Limit::advice(Bound::AtMost, tenth, source::STRIP);
            let finding = self.finding(FindingCode::StripAboveTenPercent, "loading.last_strip");
            findings.push(finding.actual_value(strip.area()).against(limit));
        }
        if let Some(LastStrip::Area(wanted)) = self.job.loading().last_strip()
            && is_over(short, wanted)
        {
            let limit = Limit::fact(Bound::AtMost, wanted, source::JOB);
            let finding = self.finding(FindingCode::ResidualExceedsStrip, "loading.last_strip.area");
            findings.push(finding.actual_value(short).against(limit));
        }
    }
}

fn exceeds(share: Share, most: Share) -> bool {
    match (share, most) {
        (Share::Volume(share), Share::Volume(most)) => is_over(share, most),
        (Share::Mass(share), Share::Mass(most)) => is_over(share, most),
        _ => false,
    }
}
