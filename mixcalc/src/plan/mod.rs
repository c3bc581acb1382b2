//! The plan: loads, recipes, steps and ledger of a job.
//!
//! One direction: a [`Job`] becomes a [`Mix`](mix), a safe fill and a volume to make; that is divided into runs of equal
//! loads; each run gets one recipe. A plan costs the same for ten loads and for ten billion.

mod containers;
mod delivered;
mod field_list;
mod findings;
mod ground;
mod jar;
mod job;
mod least;
mod ledger;
pub(crate) mod loads;
mod measuring;
pub(crate) mod mix;
mod order;
pub(crate) mod plain;
mod recipe;
mod season;
mod slip;
mod start;
mod steps;
mod substances;
mod working;

use alloc::vec::Vec;

pub use containers::{ContainerUse, EmptiedContainers};
pub use delivered::{DeliveredDose, Pass, RunOut, Span};
pub use field_list::{CleanWater, FieldList, ProductToTake, WaterToTake};
pub use ground::{Buffer, BufferSize, Field, Ground, Overlap};
pub use jar::JarTest;
pub use job::{Job, LastStrip, Loading, Rate, Split};
pub use ledger::{CarrierAccount, Ledger, ProductAccount};
pub use loads::{Strip, full_and_part_load};
pub use measuring::LoadSize;
pub use mix::{area_for_mix, mix};
pub use order::{Mixing, MixingOrder, OrderedProduct, Profile};
pub use plain::{PlainPlan, plain_plan};
pub use season::{Binding, LargestDose};
pub use start::{Held, InTank, TankStart};
pub use steps::{Action, Level, Step};
pub use substances::SubstanceTotal;

use self::loads::Run;
use self::mix::Mix;
use self::recipe::{Choice, Measured};
use crate::error::{Error, ErrorCode};
use crate::finding::{Caution, Finding, Severity};
use crate::label::{Basis, Dose, PerCrop};
use crate::measure::{Amount, Fillings, Measure};
use crate::quantity::{Area, Quantity, Ratio, Volume, VolumeRate, ordered_sum};
use crate::sprayer;

/// What a load holds of one product.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Portion {
    pub(crate) exact: Amount,
    /// The most that may be measured.
    pub(crate) ceiling: Amount,
    pub(crate) choice: Choice,
    /// `None` below one graduation.
    pub(crate) measured: Option<Measured>,
}

/// Equal loads that follow each other: one recipe and a count.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    first: u64,
    pub(crate) count: u64,
    mix: Volume,
    carrier: Volume,
    area: Area,
    held: Option<Held>,
    pub(crate) portions: Vec<Portion>,
    pub(crate) steps: Vec<Step>,
}

impl Load {
    /// Number of the first of them, from 1.
    #[must_use]
    pub const fn first(&self) -> u64 {
        self.first
    }

    /// Number of the last of them.
    #[must_use]
    pub const fn last(&self) -> u64 {
        self.first + self.count - 1
    }

    /// How many.
    #[must_use]
    pub const fn count(&self) -> u64 {
        self.count
    }

    /// Volume of mix in each, with what the tank holds before it.
    #[must_use]
    pub const fn mix(&self) -> Volume {
        self.mix
    }

    /// Ground that each serves.
    #[must_use]
    pub const fn area(&self) -> Area {
        self.area
    }

    /// The exact amount of each product, in the order of the job: what the dose asks for beside what the tank holds, before anything is measured.
    #[must_use]
    pub fn exact_amounts(&self) -> impl ExactSizeIterator<Item = Amount> + '_ {
        self.portions.iter().map(|portion| portion.exact)
    }
}

/// A job worked out: loads, recipes, findings.
///
/// Measured amounts, steps and ledger are behind [`cleared`](Self::cleared), which gives nothing where a stop stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    job: Job,
    /// The job with each product at the dose that holds.
    held: Job,
    mix: Mix,
    safe_fill: Volume,
    strip: Option<Strip>,
    order: Option<MixingOrder>,
    loads: Vec<Load>,
    findings: Vec<Finding>,
}

/// Works out a job: the loads, what goes into each, and in which steps.
///
/// # Errors
///
/// Where the question cannot be answered: [`ProductsFillMix`](crate::ErrorCode::ProductsFillMix),
/// [`StripCoversJob`](crate::ErrorCode::StripCoversJob), [`TooManyLoads`](crate::ErrorCode::TooManyLoads),
/// [`BelowFirstMark`](crate::ErrorCode::BelowFirstMark), [`NoMeasure`](crate::ErrorCode::NoMeasure),
/// [`MissingDensity`](crate::ErrorCode::MissingDensity), [`MissingInput`](crate::ErrorCode::MissingInput) for a density of the mix or an empty
/// mass that is needed, [`OutOfRange`](crate::ErrorCode::OutOfRange) for a mass limit under the empty mass,
/// [`Uncountable`](crate::ErrorCode::Uncountable), and for a mixing order [`MissingInput`](crate::ErrorCode::MissingInput) for the formulation of
/// a product without a role, [`UnknownChoice`](crate::ErrorCode::UnknownChoice) for a name in a label's order that no product has, and
/// [`OrderInCircle`](crate::ErrorCode::OrderInCircle). An answer that breaks a limit is no error but a [`Finding`].
///
/// # Example
///
/// 2 ha at 150 L/ha take 300 L of mix. The brim of the tank is over 1.05 times its nominal 100 L, so that a boom sprayer is filled
/// to nominal: three equal loads, each for 2/3 ha. 1.5 L/ha of product are 1 L in each, 100 graduations of 10 mL, beside 99 L of
/// carrier.
///
/// ```
/// use mixcalc::*;
///
/// let tank = Tank::new(Some(Volume::read("100 L")?), Some(Volume::read("110 L")?))?;
/// let rate = Rate::Volume(VolumeRate::read("150 L/ha")?);
/// let job = Job::new(Area::read("2 ha")?, rate, Sprayer::new(SprayerKind::Boom), tank)?
///     .with_product(Product::new("example product A", LiquidDose::read("1.5 L/ha")?)?)?
///     .with_measure(Measure::vessel(Volume::read("1 L")?, Volume::read("10 mL")?)?)?;
///
/// let plan = mixcalc::plan(&job)?;
/// assert_eq!((plan.loads().len(), plan.load_count()), (1, 3));
/// let cleared = plan.cleared().expect("no stop stands against this plan");
/// let recipe = cleared.recipes().next().expect("equal loads share one recipe");
/// assert_eq!(recipe.carrier().to_string(), "99 L");
/// assert_eq!(recipe.amount(0).unwrap().graduations(), 100);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// The formulas are in `docs/numbers.md`, each with its reason.
pub fn plan(job: &Job) -> Result<Plan, Error> {
    season::checked(job)?;
    let order = MixingOrder::of(job)?;
    let (given, job) = (job, &least::held(job)?);
    let mut mix = Mix::of(job)?;
    season::hold_to_dose(job, &mut mix);
    let safe_fill = sprayer::safe_fill(job.sprayer(), job.tank(), job.mix_density())?;
    let residual = residual(job);
    let strip = Strip::of(job, mix.ground_rate, residual)?;
    let made = to_make(job, &mix, strip);

    let mut loads: Vec<Load> = Vec::with_capacity(3);
    let mut first = 1;
    let mut held = Held::of(job, &mix, safe_fill, made)?;
    let runs = match held {
        Some(_) => start::divided_after(made, safe_fill, job)?,
        None => loads::divided(made, safe_fill, job)?.runs,
    };
    for Run { volume, count, .. } in runs {
        let held = held.take();
        let mut portions =
            recipe::portions(job, &mix, volume, held.as_ref(), loads.first().map(|load| load.portions.as_slice()))?;
        recipe::hold_to_carrier(job, volume, held.as_ref(), &mut portions);
        let carrier = steps::carrier(job, held.as_ref().map_or(volume, |held| held.beside(volume)), &portions);
        loads.push(Load {
            first,
            count,
            mix: volume,
            carrier,
            area: volume / mix.ground_rate,
            held,
            portions,
            steps: Vec::new(),
        });
        first += count;
    }
    let mut plan =
        Plan { job: given.clone(), held: job.clone(), mix, safe_fill, strip, order, loads, findings: Vec::new() };
    plan.check_counts()?;
    plan.findings = plan.all_findings();
    plan.add_steps();
    Ok(plan)
}

/// Volume of mix to make: what the ground takes, less what is held back.
fn to_make(job: &Job, mix: &Mix, strip: Option<Strip>) -> Volume {
    mix.ground_rate * job.area() - strip.map_or(Volume::ZERO, Strip::held_back)
}

fn residual(job: &Job) -> Volume {
    job.sprayer().residual().map_or(Volume::ZERO, sprayer::Residual::total)
}

impl Plan {
    /// Whether it may be carried out: no stop stands.
    #[must_use]
    pub fn usable(&self) -> bool {
        self.findings.iter().all(|finding| finding.severity() != Severity::Stop)
    }

    /// The job that it was made from.
    #[must_use]
    pub const fn job(&self) -> &Job {
        &self.job
    }

    /// The most that the tank may be filled to.
    #[must_use]
    pub const fn safe_fill(&self) -> Volume {
        self.safe_fill
    }

    /// Volume of mix per ground area.
    #[must_use]
    pub const fn volume_rate(&self) -> VolumeRate {
        self.mix.rate
    }

    /// A product's dose on every basis that the job says enough of: per ground area and per volume of mix, then those of the crop.
    #[must_use]
    pub fn doses(&self, product: usize) -> Vec<Dose> {
        let Some((share, _)) = self.mix.shares.get(product) else { return Vec::new() };
        let (on_ground, stand) = (share.on_ground(self.mix.rate), self.job.stand());
        let on_crop = Basis::all().iter().filter_map(|basis| PerCrop::of_ground(on_ground, *basis, stand));
        [on_ground, share.in_mix()].into_iter().chain(on_crop.map(Dose::PerCrop)).collect()
    }

    /// Volume of carrier per ground area.
    #[must_use]
    pub fn carrier_rate(&self) -> VolumeRate {
        self.mix.carrier_rate()
    }

    /// The strip kept for the rinse water, where one is.
    #[must_use]
    pub const fn last_strip(&self) -> Option<Strip> {
        self.strip
    }

    /// What stays in the sprayer after spraying out.
    #[must_use]
    pub fn residual(&self) -> Volume {
        residual(&self.job)
    }

    /// Ground at the end that goes short by the residual, where no strip is kept.
    #[must_use]
    pub fn ground_short(&self) -> Option<Area> {
        self.strip.is_none().then(|| self.residual() / self.mix.ground_rate)
    }

    /// The order in which the products go into the tank, each with the reason, where the job asks for one; else they go in as the job has
    /// them.
    #[must_use]
    pub const fn mixing_order(&self) -> Option<&MixingOrder> {
        self.order.as_ref()
    }

    /// The loads, equal ones together.
    #[must_use]
    pub fn loads(&self) -> &[Load] {
        &self.loads
    }

    /// How many loads.
    #[must_use]
    pub fn load_count(&self) -> u64 {
        self.loads.last().map_or(0, Load::last)
    }

    /// Volume of mix in all loads, without what the tank holds before the first.
    #[must_use]
    pub fn made(&self) -> Volume {
        match self.start() {
            Some(held) => held.beside(self.total(Load::mix)),
            None => self.total(Load::mix),
        }
    }

    /// Volume of carrier in all loads.
    #[must_use]
    pub fn carrier(&self) -> Volume {
        self.total(|load| self.carrier_in(load))
    }

    /// Ground that the mix is made for.
    #[must_use]
    pub fn area_made_for(&self) -> Area {
        self.total(Load::mix) / self.mix.ground_rate
    }

    /// Volume of carrier in each load of a run: beside the measured amounts, or beside the exact ones where nothing is measured.
    #[must_use]
    pub fn carrier_in(&self, load: &Load) -> Volume {
        load.carrier
    }

    /// The exact amount of each product in all loads.
    #[must_use]
    pub fn exact_totals(&self) -> Vec<Amount> {
        (0..self.mix.shares.len()).filter_map(|product| self.exact_total(product)).collect()
    }

    /// What is to be said of it: stops first, then cautions, then notes.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// The cautions for people that go with every plan.
    pub fn cautions(&self) -> impl Iterator<Item = Caution> {
        Caution::for_plan(self.job.sprayer().kind().is_carried(), self.order.is_some())
    }

    /// Measured amounts, steps and ledger; `None` where a stop stands.
    #[must_use]
    pub fn cleared(&self) -> Option<Cleared<'_>> {
        self.usable().then_some(Cleared { plan: self })
    }

    /// [`cleared`](Self::cleared), or an error that says which stops stand: for a caller who asks for amounts and must be told why
    /// there are none.
    ///
    /// # Errors
    ///
    /// [`PlanStopped`](crate::ErrorCode::PlanStopped), which gives the message of each stop.
    pub fn try_cleared(&self) -> Result<Cleared<'_>, Error> {
        self.cleared().ok_or_else(|| {
            let stops = self.findings.iter().filter(|finding| finding.severity() == Severity::Stop);
            let messages: Vec<_> = stops.map(Finding::message).collect();
            Error::new(ErrorCode::PlanStopped).given(messages.join("; "))
        })
    }

    fn total(&self, of: impl Fn(&Load) -> Volume) -> Volume {
        ordered_sum(self.loads.iter().map(|load| of(load) * Ratio::of_steps(load.count)))
    }

    /// Refuses more graduations than are counted exactly.
    fn check_counts(&self) -> Result<(), Error> {
        for product in 0..self.job.products().len() {
            for (choice, measure) in self.choices(product) {
                recipe::drawn(&self.loads, product, choice, measure)?;
            }
        }
        Ok(())
    }

    /// The measures that a product is measured with, in the order of the loads.
    fn choices(&self, product: usize) -> impl Iterator<Item = (Choice, &Measure)> {
        let choice = move |load: &Load| load.portions.get(product).map(|portion| portion.choice);
        self.loads.iter().enumerate().filter_map(move |(index, load)| {
            let chosen = choice(load)?;
            let is_known = self.loads.iter().take(index).any(|earlier| choice(earlier) == Some(chosen));
            let measure = chosen.measure(&self.job, product)?;
            (!is_known).then_some((chosen, measure))
        })
    }

    /// Adds the steps of each load, or the stop that says why it has none.
    fn add_steps(&mut self) {
        let mut stops = Vec::new();
        let mut steps = Vec::with_capacity(self.loads.len());
        for load in &self.loads {
            let measured = load.portions.iter().all(|portion| portion.measured.is_some());
            let laid_out = measured.then(|| {
                let rinses = self.container_rinses(load);
                let held = load.held_volume();
                steps::steps(&self.job, self.order.as_ref(), (load.mix, held, load.carrier), &load.portions, &rinses)
            });
            match laid_out.transpose() {
                Ok(laid_out) => steps.push(laid_out.unwrap_or_default()),
                Err(needed) => stops.push(self.rinses_exceed_carrier(load, needed)),
            }
        }
        self.findings.splice(0..0, stops);
        if self.usable() {
            for (load, steps) in self.loads.iter_mut().zip(steps) {
                load.steps = steps;
            }
            let mut measured = self.on_what_is_measured();
            self.findings.append(&mut measured);
            self.findings.sort_by_key(Finding::severity);
            self.add_help();
        } else {
            self.add_help();
            self.forget_measured();
        }
    }

    /// A plan with a stop holds no measured amounts, not even where nobody looks.
    fn forget_measured(&mut self) {
        for load in &mut self.loads {
            load.carrier = self.mix.carrier_in(load.added());
            for portion in &mut load.portions {
                portion.measured = None;
            }
        }
    }

    /// What the dose asks for of a product in all loads, beside what the tank holds before the first.
    fn exact_total(&self, product: usize) -> Option<Amount> {
        let (share, _) = self.mix.shares.get(product)?;
        let asked = share.of(self.total(Load::mix));
        Some(self.start().map_or(asked, |held| held.lacking(product, asked)))
    }

    /// What all loads take of a product; `None` where a load takes less than one graduation.
    fn measured_total(&self, product: usize) -> Option<Amount> {
        let portions = self.loads.iter().map(|load| Some((load, load.portions.get(product)?.measured?)));
        let mut sum = self.mix.shares.get(product)?.0.of(Volume::ZERO);
        let of = self.job.products().get(product)?;
        for portion in portions {
            let (load, measured) = portion?;
            let amount = of.brought_back(measured.choice.measure(&self.job, product)?.shows(measured.graduations));
            sum = sum.plus(amount.times(Ratio::of_steps(load.count)))?;
        }
        Some(sum)
    }
}

/// A plan without a stop: the only way to measured amounts, steps, ledger and sheet.
#[derive(Clone, Copy, Debug)]
pub struct Cleared<'plan> {
    plan: &'plan Plan,
}

impl<'plan> Cleared<'plan> {
    /// The plan.
    #[must_use]
    pub const fn plan(&self) -> &'plan Plan {
        self.plan
    }

    /// The recipe of each run of equal loads.
    pub fn recipes(&self) -> impl Iterator<Item = Recipe<'plan>> + use<'plan> {
        let plan = self.plan;
        plan.loads.iter().map(move |load| Recipe { plan, load })
    }

    /// What all loads take of each product, in the order of the job.
    pub fn totals(&self) -> impl Iterator<Item = Total<'plan>> + use<'plan> {
        let plan = self.plan;
        (0..plan.job.products().len()).filter_map(move |product| {
            let exact = plan.exact_total(product)?;
            Some(Total { plan, product, exact, measured: plan.measured_total(product)? })
        })
    }

    /// Where everything came from and went.
    #[must_use]
    pub fn ledger(&self) -> Ledger {
        Ledger::of(self)
    }
}

/// What goes into each load of a run, and in which steps.
#[derive(Clone, Copy, Debug)]
pub struct Recipe<'plan> {
    plan: &'plan Plan,
    load: &'plan Load,
}

impl<'plan> Recipe<'plan> {
    /// The plan.
    #[must_use]
    pub const fn plan(&self) -> &'plan Plan {
        self.plan
    }

    /// The loads that it is for.
    #[must_use]
    pub const fn load(&self) -> &'plan Load {
        self.load
    }

    /// Volume of carrier in each load, beside the measured amounts.
    #[must_use]
    pub const fn carrier(&self) -> Volume {
        self.load.carrier
    }

    /// The measured amount of each product, in the order of the job.
    pub fn amounts(&self) -> impl Iterator<Item = MeasuredAmount<'plan>> + use<'plan> {
        let Self { plan, load } = *self;
        (0..load.portions.len()).filter_map(move |product| MeasuredAmount::of(plan, load, product))
    }

    /// The measured amount of one product, by its place in the job.
    #[must_use]
    pub fn amount(&self, product: usize) -> Option<MeasuredAmount<'plan>> {
        MeasuredAmount::of(self.plan, self.load, product)
    }

    /// The steps.
    #[must_use]
    pub fn steps(&self) -> &'plan [Step] {
        &self.load.steps
    }
}

/// A product's amount in a load, in whole graduations of a measure.
#[derive(Clone, Copy, Debug)]
pub struct MeasuredAmount<'plan> {
    name: &'plan str,
    exact: Amount,
    measured: Amount,
    measure: &'plan Measure,
    graduations: u64,
    area: Area,
    mix: Volume,
    /// The first of the loads.
    load: u64,
    plan: &'plan Plan,
    product: usize,
}

impl<'plan> MeasuredAmount<'plan> {
    fn of(plan: &'plan Plan, load: &'plan Load, index: usize) -> Option<Self> {
        let (product, portion) = (plan.job.products().get(index)?, load.portions.get(index)?);
        let Measured { choice, graduations } = portion.measured?;
        let measure = choice.measure(&plan.job, index)?;
        let measured = product.brought_back(measure.shows(graduations));
        Some(Self {
            name: product.name(),
            exact: portion.exact,
            measured,
            measure,
            graduations,
            area: load.area * plan.job.ground().passes(),
            mix: load.mix,
            load: load.first,
            plan,
            product: index,
        })
    }

    /// The product's name.
    #[must_use]
    pub const fn name(&self) -> &'plan str {
        self.name
    }

    /// What the dose asks for.
    #[must_use]
    pub const fn exact(&self) -> Amount {
        self.exact
    }

    /// What the measure shows, in the sort that the product is dosed in.
    #[must_use]
    pub const fn measured(&self) -> Amount {
        self.measured
    }

    fn its_load(&self) -> Option<&'plan Load> {
        self.plan.loads.iter().find(|load| load.first == self.load)
    }

    /// How uncertain the mix is that it goes into, as a part of it, with a coverage factor of 1.
    fn mix_doubt(&self) -> Option<Ratio> {
        self.plan.mix_uncertainty(self.its_load()?).map(|uncertainty| uncertainty * 0.5)
    }

    /// All of it in the tank: what is measured, and what the tank holds before.
    #[must_use]
    pub fn in_tank(&self) -> Amount {
        let held = self.its_load().and_then(Load::held);
        let held = held.and_then(|held| held.amounts().get(self.product).copied());
        held.and_then(|held| held.plus(self.measured)).unwrap_or(self.measured)
    }

    /// The measure.
    #[must_use]
    pub const fn measure(&self) -> &'plan Measure {
        self.measure
    }

    /// Whole graduations of the measure.
    #[must_use]
    pub const fn graduations(&self) -> u64 {
        self.graduations
    }

    /// How it is poured.
    #[must_use]
    pub fn fillings(&self) -> Fillings {
        self.measure.fillings(self.graduations)
    }

    /// Measured less exact, as a part of exact.
    #[must_use]
    pub fn gap(&self) -> Ratio {
        gap(self.exact, self.measured)
    }

    /// Measured less exact, per ground area that a pass goes over: as the dose is counted.
    #[must_use]
    pub fn dose_gap(&self) -> Quantity {
        dose_gap(self.exact, self.measured, self.area)
    }
}

/// What all loads take of one product.
#[derive(Clone, Copy, Debug)]
pub struct Total<'plan> {
    plan: &'plan Plan,
    product: usize,
    exact: Amount,
    measured: Amount,
}

impl<'plan> Total<'plan> {
    /// What the dose asks for.
    #[must_use]
    pub const fn exact(&self) -> Amount {
        self.exact
    }

    /// What the measures show.
    #[must_use]
    pub const fn measured(&self) -> Amount {
        self.measured
    }

    /// Per measure, the graduations that all loads take: recipe times count, in integers.
    pub fn drawn(&self) -> impl Iterator<Item = (&'plan Measure, u64)> + use<'plan> {
        let Self { plan, product, .. } = *self;
        plan.choices(product).filter_map(move |(choice, measure)| {
            Some((measure, recipe::drawn(&plan.loads, product, choice, measure).ok()?))
        })
    }

    /// Measured less exact, as a part of exact.
    #[must_use]
    pub fn gap(&self) -> Ratio {
        gap(self.exact, self.measured)
    }

    /// Measured less exact, per ground area that a pass goes over: as the dose is counted.
    #[must_use]
    pub fn dose_gap(&self) -> Quantity {
        dose_gap(self.exact, self.measured, self.plan.area_made_for() * self.plan.job.ground().passes())
    }
}

fn gap(exact: Amount, measured: Amount) -> Ratio {
    // What the tank holds may be all of it.
    if exact == exact.none() {
        return Ratio::ZERO;
    }
    measured.minus(exact).and_then(|gap| gap.over(exact)).unwrap_or(Ratio::ZERO)
}

fn dose_gap(exact: Amount, measured: Amount, area: Area) -> Quantity {
    per_area(measured.minus(exact).unwrap_or(exact.none()), area)
}

/// An amount per ground area.
fn per_area(amount: Amount, area: Area) -> Quantity {
    match amount {
        Amount::Volume(volume) => (volume / area).as_liquid_dose().into(),
        Amount::Mass(mass) => (mass / area).as_solid_dose().into(),
    }
}
