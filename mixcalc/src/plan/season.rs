//! What a label limits over time, held against a season; and the largest dose that these limits leave.

use alloc::collections::BTreeSet;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::substances::dose_on_ground;
use super::{Job, Mix, Plan, Rate};
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Finding, FindingCode, Limit};
use crate::label::{
    ActiveSubstance, Applied, Basis, CapBasis, Capped, Date, Dose, Equivalent, Parcel, Product, Restriction, Rule,
    Season, Share, Treatment, Window,
};
use crate::quantity::close::{is_over, is_under};
use crate::quantity::{Area, LiquidDose, MassPerArea, Quantity, Ratio, SolidDose, Temperature, Time, ordered_sum};
use crate::text;

/// The part of a cap above which its use is cautioned.
const NEARLY_USED_PERCENT: f64 = 90.0;

/// The most terms that the sums of all caps may have: far above any record of a field, and answered within a second.
pub(crate) const MOST_TERMS: usize = 10_000_000;

/// Which limit binds a largest dose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Binding {
    /// No further treatment is left in the season.
    MaxTreatments,
    /// Another treatment is too near.
    MinInterval,
    /// The harvest is too near.
    WaitingPeriod,
    /// The growth stage is outside.
    GrowthStage,
    /// The largest dose of one treatment, also as a concentration.
    MaxDose,
    /// What a cap leaves.
    Cap,
}

impl Binding {
    /// The limits that can bind.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::MaxTreatments, Self::MinInterval, Self::WaitingPeriod, Self::GrowthStage, Self::MaxDose, Self::Cap]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::MaxTreatments => "max-treatments",
            Self::MinInterval => "min-interval",
            Self::WaitingPeriod => "waiting-period",
            Self::GrowthStage => "growth-stage",
            Self::MaxDose => "max-dose",
            Self::Cap => "cap",
        }
    }
}

/// The largest dose of a product that its limits leave on the planned date, the other products being dosed as planned.
///
/// It is arithmetic on what the job states, never permission: what the job does not state, it does not know.
#[derive(Clone, Debug, PartialEq)]
pub struct LargestDose {
    dose: Dose,
    binding: Binding,
    parcel: Option<Arc<str>>,
    limit: Limit,
    /// The cap that binds: of which product, its place among the caps there, and the end of its window.
    pub(super) cap: Option<(usize, usize, Date)>,
}

impl LargestDose {
    /// The dose per ground area; none of it where a treatment is forbidden.
    #[must_use]
    pub const fn dose(&self) -> Dose {
        self.dose
    }

    /// The limit that binds.
    #[must_use]
    pub const fn binding(&self) -> Binding {
        self.binding
    }

    /// The parcel on which it binds, where parcels have names.
    #[must_use]
    pub fn parcel(&self) -> Option<&str> {
        self.parcel.as_deref()
    }

    /// The most that the limit allows; none where it counts treatments, days or stages.
    #[must_use]
    pub fn most(&self) -> Option<Quantity> {
        matches!(self.binding, Binding::MaxDose | Binding::Cap).then_some(self.limit.value())
    }

    /// The limit itself, with its source.
    #[must_use]
    pub const fn limit(&self) -> &Limit {
        &self.limit
    }
}

/// A cap of a product's label: its place and what it says.
#[derive(Clone, Copy)]
struct CapOf<'job> {
    product: usize,
    place: usize,
    restriction: &'job Restriction,
    capped: &'job Capped,
    window: Window,
    basis: CapBasis,
}

fn caps(job: &Job) -> impl Iterator<Item = CapOf<'_>> {
    job.products().iter().enumerate().flat_map(|(product, of)| {
        let caps = of.label().restrictions().iter().filter_map(|restriction| match restriction.rule() {
            Rule::Cap(capped, window, basis) => Some((restriction, capped, *window, *basis)),
            _ => None,
        });
        caps.enumerate().map(move |(place, (restriction, capped, window, basis))| CapOf {
            product,
            place,
            restriction,
            capped,
            window,
            basis,
        })
    })
}

/// Checks what a season says against the products and the ground of its job.
pub(super) fn checked(job: &Job) -> Result<(), Error> {
    for cap in caps(job) {
        if let (Capped::Product(most), Some(product)) = (cap.capped, job.products().get(cap.product))
            && most.is_by_volume() != product.dose().is_by_volume()
        {
            let error = Error::new(ErrorCode::WrongQuantity).given(Quantity::from(*most));
            let place = format!("products[{}].label.caps[{}].value", cap.product, cap.place);
            return Err(error.at(place).allowed(text::dose_like(product.dose().is_by_volume())));
        }
        if let (Capped::Substance(name, _), Some(product)) = (cap.capped, job.products().get(cap.product)) {
            let mut names = product.active_substances().iter().map(ActiveSubstance::summed_name);
            if !names.any(|summed| *summed == **name) {
                let names: Vec<&str> = product.active_substances().iter().map(ActiveSubstance::summed_name).collect();
                let error = Error::new(ErrorCode::UnknownChoice).given(text::quoted(name));
                let place = format!("products[{}].label.caps[{}].substance", cap.product, cap.place);
                return Err(error.at(place).allowed(text::summed_substance(&names)));
            }
        }
    }
    let Some(season) = job.season() else { return Ok(()) };
    checked_season(job, season).map_err(|error| error.at("season"))
}

fn checked_season(job: &Job, season: &Season) -> Result<(), Error> {
    let needs_start = |restriction: &Restriction| {
        matches!(restriction.rule(), Rule::MaxTreatments(_) | Rule::Cap(_, Window::Season, _))
    };
    let mut restrictions = job.products().iter().flat_map(|product| product.label().restrictions());
    if season.date.is_some() && season.season_start.is_none() && restrictions.any(needs_start) {
        return Err(Error::new(ErrorCode::MissingInput).at("season_start").allowed(text::SEASON_START));
    }
    if let Some((date, start)) = season.date.zip(season.season_start).filter(|(date, start)| start > date) {
        let error = Error::new(ErrorCode::OutOfRange).at("season_start").given(start);
        return Err(error.allowed(text::not_after(date)));
    }
    if let Some((date, harvest)) = season.date.zip(season.harvest).filter(|(date, harvest)| harvest < date) {
        return Err(Error::new(ErrorCode::OutOfRange).at("harvest").given(harvest).allowed(text::not_before(date)));
    }
    if let Some(stage) = season.growth_stage.filter(|stage| *stage > 99) {
        let error = Error::new(ErrorCode::OutOfRange).at("growth_stage").given(stage);
        return Err(error.allowed(text::GROWTH_STAGE));
    }
    let terms = terms(job, season);
    if terms > MOST_TERMS {
        return Err(Error::new(ErrorCode::OutOfRange).given(terms).allowed(text::season_terms(MOST_TERMS)));
    }
    let mut names: BTreeSet<&str> = BTreeSet::new();
    for (i, parcel) in season.parcels.iter().enumerate() {
        if !names.insert(parcel.name()) {
            let error = Error::new(ErrorCode::DuplicateName).at(format!("parcels[{i}].name"));
            return Err(error.given(text::quoted(parcel.name())));
        }
    }
    let areas: Option<Vec<Area>> = season.parcels.iter().map(Parcel::area).collect();
    let whole: Option<Area> = areas.filter(|areas| !areas.is_empty()).map(ordered_sum);
    if let Some(whole) = whole.filter(|whole| is_under(*whole, job.area())) {
        let error = Error::new(ErrorCode::OutOfRange).at("parcels").given(whole);
        return Err(error.allowed(format_args!(
            "{} {}",
            text::word("together at least the ground of the job,"),
            job.area()
        )));
    }
    for (i, treatment) in season.treatments.iter().enumerate() {
        let at = |key: &str| format!("treatments[{i}].{key}");
        if let Some(name) = treatment.parcel().filter(|name| !names.contains(name)) {
            let error = Error::new(ErrorCode::UnknownChoice).at(at("parcel")).given(text::quoted(name));
            return Err(error.allowed(text::parcel_of(&names.into_iter().collect::<Vec<_>>())));
        }
        if let Applied::Substances(substances) = treatment.applied() {
            for (j, (name, _)) in substances.iter().enumerate() {
                let same = |known: &&str| known.to_lowercase() == name.to_lowercase();
                if !is_known(job, name) && known_names(job).any(|known| same(&known)) {
                    let mut names: Vec<&str> = known_names(job).filter(same).collect();
                    names.dedup();
                    let error = Error::new(ErrorCode::UnknownChoice).at(at(&format!("substances[{j}].name")));
                    return Err(error.given(text::quoted(name)).allowed(text::summed_substance(&names)));
                }
            }
        }
        if let Applied::Product(name, dose) = treatment.applied() {
            let Some(product) = job.products().iter().find(|product| product.name() == &**name) else {
                let error = Error::new(ErrorCode::UnknownChoice).at(at("product")).given(text::quoted(name));
                return Err(error.allowed(text::PRODUCT_OF_JOB));
            };
            if dose.is_by_volume() != product.dose().is_by_volume() {
                let error = Error::new(ErrorCode::WrongQuantity).at(at("dose")).given(Quantity::from(*dose));
                return Err(error.allowed(text::dose_like(product.dose().is_by_volume())));
            }
        }
    }
    Ok(())
}

/// How many terms the sums of all caps have: for each cap, the treatments on each parcel in each window, and the products beside each
/// product.
fn terms(job: &Job, season: &Season) -> usize {
    let ends = season.date.map_or(0, |date| ends(season, date).len());
    let windows = ends.saturating_mul(season.parcels.len().max(1));
    let products = job.products().len();
    let of_cap =
        windows.saturating_mul(season.treatments.len().max(1)).saturating_add(products.saturating_mul(products));
    of_cap.saturating_mul(caps(job).count())
}

/// The days on which windows end that hold the planned day, or later: that day, and each later one with a treatment.
fn ends(season: &Season, date: Date) -> Vec<Date> {
    let mut ends: Vec<Date> = season.treatments.iter().map(Treatment::date).filter(|end| *end > date).collect();
    ends.push(date);
    ends.sort_unstable();
    ends.dedup();
    ends
}

/// The names that the products of a job give what acts in them: as stated, and as summed.
fn known_names(job: &Job) -> impl Iterator<Item = &str> {
    let substances = job.products().iter().flat_map(Product::active_substances);
    substances.flat_map(|substance| [substance.name(), substance.summed_name()])
}

fn is_known(job: &Job, name: &str) -> bool {
    known_names(job).any(|known| known == name)
}

/// The product and the active substance by whose equivalent a name counts as what a cap counts, and its factor. Where two state different
/// ones, the larger.
pub(super) fn equivalent_of(job: &Job, name: &str, capped: &str) -> Option<(usize, usize, Ratio)> {
    let products = job.products().iter().enumerate();
    let substances = products.flat_map(|(i, product)| {
        product.active_substances().iter().enumerate().map(move |(j, substance)| (i, j, substance))
    });
    let same = substances.filter(|(_, _, one)| one.name() == name && one.summed_name() == capped);
    let factors = same.filter_map(|(i, j, one)| Some((i, j, one.equivalent().map(Equivalent::factor)?)));
    factors.reduce(|most, next| if next.2 > most.2 { next } else { most })
}

/// How much of what a cap counts lies in a unit of a substance by its name.
fn equivalent_in(job: &Job, name: &str, capped: &str) -> Ratio {
    if name == capped {
        return Ratio::one();
    }
    equivalent_of(job, name, capped).map_or(Ratio::ZERO, |(_, _, factor)| factor)
}

/// Keeps what is measured of a product that a cap counts from going over its dose: rounding up would go over what the cap was held
/// against. So too where a label doses by the tank, for rounding up would go over its one concentration.
pub(super) fn hold_to_dose(job: &Job, mix: &mut Mix) {
    for (i, (share, most)) in mix.shares.iter_mut().enumerate() {
        if is_held(job, i) {
            *most = most.min(*share);
        }
    }
}

/// Whether what is measured of a product is held to its dose: by a cap of the job that counts it, or by a label that doses by the tank.
pub(super) fn is_held(job: &Job, index: usize) -> bool {
    let Some(product) = job.products().get(index) else { return false };
    let doses_by_tank = product.label().tank().is_some() && product.label().max_dose().is_none();
    doses_by_tank || caps(job).any(|cap| cap.counts(index, product))
}

fn brings(product: &Product, name: &str) -> bool {
    product.active_substances().iter().any(|substance| substance.summed_name() == name)
}

/// What counts towards a cap, and whether that is all of it: where a density is missing, a part is not known.
#[derive(Clone, Copy)]
struct Counted {
    amount: MassPerArea,
    is_whole: bool,
}

impl Counted {
    fn sum(terms: impl Iterator<Item = Option<MassPerArea>>) -> Self {
        let (mut known, mut is_whole) = (Vec::new(), true);
        for term in terms {
            is_whole &= term.is_some();
            known.extend(term);
        }
        Self { amount: ordered_sum(known), is_whole }
    }
}

/// How much a dose counts towards a cap: of a product as mass or volume per area, of a substance as mass per area. A bare number of
/// one unit, for each cap has one unit. `None` where a density is missing.
fn counted(capped: &Capped, product: &Product, dose: Dose) -> Option<MassPerArea> {
    match capped {
        Capped::Product(_) => Some(as_mass(dose)),
        Capped::Substance(name, _) => {
            let of = product.active_substances().iter().filter(|substance| substance.summed_name() == &**name);
            let parts: Option<Vec<MassPerArea>> =
                of.map(|substance| substance.in_dose(dose, product.density())).collect();
            parts.map(ordered_sum)
        }
    }
}

/// A dose per ground area on one scale for both sorts; only ever compared with doses of its own sort.
fn as_mass(dose: Dose) -> MassPerArea {
    let unit = |ratio: Ratio| MassPerArea::one() * ratio;
    match dose {
        Dose::LiquidPerArea(dose) => unit(dose / LiquidDose::one()),
        Dose::SolidPerArea(dose) => unit(dose / SolidDose::one()),
        _ => MassPerArea::ZERO,
    }
}

/// What [`as_mass`] made of a dose of a sort.
fn as_dose(mass: MassPerArea, by_volume: bool) -> Dose {
    let ratio = mass / MassPerArea::one();
    if by_volume {
        Dose::LiquidPerArea(LiquidDose::one() * ratio)
    } else {
        Dose::SolidPerArea(SolidDose::one() * ratio)
    }
}

impl CapOf<'_> {
    /// Whether it counts a product of the job.
    fn counts(&self, index: usize, product: &Product) -> bool {
        match self.capped {
            Capped::Product(_) => index == self.product,
            Capped::Substance(name, _) => brings(product, name),
        }
    }

    fn most(&self) -> MassPerArea {
        match self.capped {
            Capped::Product(dose) => as_mass(*dose),
            Capped::Substance(_, most) => *most,
        }
    }

    /// An amount that counts towards it, as it is shown.
    fn shown(&self, amount: MassPerArea) -> Quantity {
        match self.capped {
            Capped::Product(dose) => as_dose(amount, dose.is_by_volume()).into(),
            Capped::Substance(..) => amount.into(),
        }
    }

    /// What a recorded treatment counts: on the whole ground, or on the ground that was treated. `None` where a density is missing.
    fn of_treatment(&self, job: &Job, treatment: &Treatment) -> Option<MassPerArea> {
        let amount = match (treatment.applied(), self.capped) {
            (Applied::Product(name, dose), Capped::Substance(..)) => {
                let product = job.products().iter().find(|product| product.name() == &**name)?;
                counted(self.capped, product, *dose)?
            }
            (Applied::Product(name, dose), Capped::Product(_)) => {
                let is_own = job.products().get(self.product).is_some_and(|product| product.name() == &**name);
                if is_own { as_mass(*dose) } else { MassPerArea::ZERO }
            }
            (Applied::Substances(substances), Capped::Substance(name, _)) => {
                ordered_sum(substances.iter().map(|(of, dose)| *dose * equivalent_in(job, of, name)))
            }
            (Applied::Substances(_), Capped::Product(_)) => MassPerArea::ZERO,
        };
        Some(match self.basis {
            CapBasis::GroundArea => amount * treatment.treated_share(),
            CapBasis::TreatedArea => amount,
        })
    }
}

/// What a cap has counted already on one parcel in one window.
struct Used<'job> {
    parcel: Option<&'job Parcel>,
    end: Date,
    counted: Counted,
}

/// A cap with all that counts towards it.
struct Tally<'job> {
    cap: CapOf<'job>,
    /// Before this job; `None` where the planned date is not known.
    used: Option<Vec<Used<'job>>>,
    /// From the products of this job that count, by their places; `None` where a density is missing.
    planned: Vec<(usize, Option<MassPerArea>)>,
}

impl Tally<'_> {
    /// What the products of this job count, but for one of them.
    fn planned(&self, but: Option<usize>) -> Counted {
        Counted::sum(self.planned.iter().filter(|(i, _)| Some(*i) != but).map(|(_, amount)| *amount))
    }
}

impl Plan {
    /// The dose of a product per ground area.
    pub(super) fn ground_dose(&self, index: usize) -> Option<Dose> {
        let product = self.held.products().get(index)?;
        Some(dose_on_ground(product, self.mix.shares.get(index)?.0, &self.mix))
    }

    /// What was used of a cap before this job: per parcel, in the window that ends on the planned date and in each that ends on a later
    /// treatment and holds the planned date. `None` without that date.
    fn used<'job>(&'job self, cap: &CapOf<'_>) -> Option<Vec<Used<'job>>> {
        let season = self.job.season()?;
        let date = season.date?;
        let mut ends = ends(season, date);
        ends.retain(|end| cap.window.holds(date, *end, season.season_start));
        let amounts = season.treatments.iter().map(|treatment| cap.of_treatment(&self.job, treatment));
        let amounts: Vec<_> = season.treatments.iter().zip(amounts).collect();
        let mut all = Vec::new();
        for parcel in parcels(season) {
            for end in &ends {
                let held = amounts.iter().filter(|(treatment, _)| {
                    treatment.is_on(parcel) && cap.window.holds(treatment.date(), *end, season.season_start)
                });
                let counted = Counted::sum(held.map(|(_, amount)| *amount));
                all.push(Used { parcel, end: *end, counted });
            }
        }
        Some(all)
    }

    /// The treatments that a cap counts on a parcel in the window that ends on a date, by their places.
    pub(super) fn counted_treatments(&self, largest: &LargestDose) -> Vec<usize> {
        let (Some(season), Some((product, place, end))) = (self.job.season(), largest.cap) else { return Vec::new() };
        let Some(cap) = caps(&self.job).find(|cap| (cap.product, cap.place) == (product, place)) else {
            return Vec::new();
        };
        let parcel = season.parcels.iter().find(|parcel| Some(parcel.name()) == largest.parcel());
        let counts = |treatment: &Treatment| {
            treatment.is_on(parcel)
                && cap.window.holds(treatment.date(), end, season.season_start)
                && cap.of_treatment(&self.job, treatment).is_some_and(|amount| amount > MassPerArea::ZERO)
        };
        (0..season.treatments.len()).filter(|t| season.treatments.get(*t).is_some_and(counts)).collect()
    }

    /// The caps of the job, each with all that counts towards it.
    fn tallies(&self) -> impl Iterator<Item = Tally<'_>> {
        caps(&self.job).map(|cap| {
            let products = self.job.products().iter().enumerate();
            let counts = products.filter(|(i, product)| cap.counts(*i, product));
            let planned =
                counts.map(|(i, product)| (i, self.ground_dose(i).and_then(|dose| self.in_plan(&cap, product, dose))));
            Tally { used: self.used(&cap), planned: planned.collect(), cap }
        })
    }

    /// How much a planned dose per ground area counts towards a cap. Where a part of the ground is treated, that part takes all of it.
    fn in_plan(&self, cap: &CapOf<'_>, product: &Product, dose: Dose) -> Option<MassPerArea> {
        let amount = counted(cap.capped, product, dose)?;
        let part = self.job.crop().part_treated(self.job.area()).filter(|_| cap.basis == CapBasis::TreatedArea);
        Some(part.map_or(amount, |part| amount / part))
    }

    /// The findings on what labels limit over time, and the notes on what to look at before spraying.
    pub(super) fn on_season(&self, findings: &mut Vec<Finding>) {
        for tally in self.tallies() {
            self.on_cap(&tally, findings);
        }
        self.on_unknown_substances(findings);
        for (index, product) in self.job.products().iter().enumerate() {
            let mut buffers = 0;
            for restriction in product.label().restrictions() {
                let place = buffers;
                buffers += usize::from(matches!(restriction.rule(), Rule::Buffer(..)));
                self.on_rule(index, product, restriction, place, findings);
            }
        }
    }

    fn said(&self, code: FindingCode, index: usize, key: &str, product: &Product) -> Finding {
        Finding::new(code, format!("products[{index}].label.{key}"), self.job.units()).about(product.name())
    }

    fn on_cap(&self, tally: &Tally<'_>, findings: &mut Vec<Finding>) {
        let Tally { cap, used, .. } = tally;
        let Some(product) = self.job.products().get(cap.product) else { return };
        let key = format!("caps[{}]", cap.place);
        let said = |code| self.said(code, cap.product, &key, product);
        let planned = tally.planned(None);
        // Without a date, and without a density, what is known is held against it nonetheless: it may be too much by itself.
        let mut worst = (planned.amount, None);
        for used in used.iter().flatten() {
            let amount = used.counted.amount + planned.amount;
            if amount > worst.0 {
                worst = (amount, used.parcel);
            }
        }
        let (amount, parcel) = worst;
        let most = cap.most();
        let is_whole = planned.is_whole && used.iter().flatten().all(|used| used.counted.is_whole);
        let code = if is_over(amount, most) {
            FindingCode::CapPassed
        } else if used.is_none() || !is_whole {
            let missing = if used.is_none() { "season.date".into() } else { self.missing_density(cap) };
            return findings.push(said(FindingCode::LimitNotChecked).about(text::not_stated(product.name(), &missing)));
        } else if is_over(amount, most * Ratio::of_percent(NEARLY_USED_PERCENT)) {
            FindingCode::CapNearlyUsed
        } else {
            return;
        };
        let what = match cap.capped {
            Capped::Product(_) => product.name(),
            Capped::Substance(name, _) => name,
        };
        let limit = cap.restriction.limit(product.label(), Bound::AtMost, cap.shown(most));
        let finding = said(code).about(text::on_parcel(what, parcel.map(Parcel::name)));
        findings.push(finding.actual_value(cap.shown(amount)).against(limit));
    }

    /// The density that the sum of a cap lacks.
    fn missing_density(&self, cap: &CapOf<'_>) -> String {
        let one = |product: &Product| as_dose(MassPerArea::one(), product.dose().is_by_volume());
        let lacks = |product: &Product| counted(cap.capped, product, one(product)).is_none();
        let index = self.job.products().iter().position(lacks).unwrap_or(cap.product);
        format!("products[{index}].density")
    }

    /// A note on each substance of a treatment that no product of the job brings, where a cap counts substances.
    fn on_unknown_substances(&self, findings: &mut Vec<Finding>) {
        let Some(season) = self.job.season() else { return };
        if !caps(&self.job).any(|cap| matches!(cap.capped, Capped::Substance(..))) {
            return;
        }
        let mut said: Vec<&str> = Vec::new();
        for (i, treatment) in season.treatments.iter().enumerate() {
            let Applied::Substances(substances) = treatment.applied() else { continue };
            for (j, (name, _)) in substances.iter().enumerate() {
                if !is_known(&self.job, name) && !said.contains(&&**name) {
                    said.push(name);
                    let path = format!("season.treatments[{i}].substances[{j}].name");
                    let finding = Finding::new(FindingCode::LimitNotChecked, path, self.job.units());
                    findings.push(finding.about(text::not_brought(name)));
                }
            }
        }
    }

    fn on_rule(
        &self,
        index: usize,
        product: &Product,
        restriction: &Restriction,
        place: usize,
        findings: &mut Vec<Finding>,
    ) {
        let limit = |bound, value: Quantity| restriction.limit(product.label(), bound, value);
        let mut gate = |key: &str, what: String, bound, value: Quantity| {
            let subject = text::of_product(&what, product.name());
            let finding = self.said(FindingCode::CheckBeforeSpraying, index, key, product).about(subject);
            findings.push(finding.against(limit(bound, value)));
        };
        let word = |phrase: &'static str| String::from(text::word(phrase));
        match restriction.rule() {
            Rule::ReEntry(time) => {
                return gate(
                    "re_entry",
                    word("how long people stay out after a treatment"),
                    Bound::AtLeast,
                    (*time).into(),
                );
            }
            Rule::Buffer(from, width) => {
                return gate(&format!("buffers[{place}]"), text::buffer(from), Bound::AtLeast, (*width).into());
            }
            Rule::MinWind(speed, height) => {
                return gate(
                    "min_wind",
                    text::wind(height.map(|height| height.to_string())),
                    Bound::AtLeast,
                    (*speed).into(),
                );
            }
            Rule::MaxWind(speed, height) => {
                return gate(
                    "max_wind",
                    text::wind(height.map(|height| height.to_string())),
                    Bound::AtMost,
                    (*speed).into(),
                );
            }
            Rule::MinTemperature(value) => {
                return gate("min_temperature", word("the temperature"), Bound::AtLeast, (*value).into());
            }
            Rule::MaxTemperature(value) => {
                return gate("max_temperature", word("the temperature"), Bound::AtMost, (*value).into());
            }
            Rule::MinDeltaT(value) => {
                return gate("min_delta_t", word("the delta-T"), Bound::AtLeast, difference(*value));
            }
            Rule::MaxDeltaT(value) => {
                return gate("max_delta_t", word("the delta-T"), Bound::AtMost, difference(*value));
            }
            _ => {}
        }
        let (code, key, bound, value) = match restriction.rule() {
            Rule::MaxTreatments(most) => {
                (FindingCode::TooManyTreatments, "max_treatments", Bound::AtMost, Quantity::count((*most).into()))
            }
            Rule::MinInterval(time) => (FindingCode::IntervalTooShort, "min_interval", Bound::AtLeast, (*time).into()),
            Rule::WaitingPeriod(time) => {
                (FindingCode::WaitingPeriodNotKept, "waiting_period", Bound::AtLeast, (*time).into())
            }
            Rule::MinGrowthStage(stage) => {
                (FindingCode::GrowthStageOutside, "min_growth_stage", Bound::AtLeast, Quantity::count((*stage).into()))
            }
            Rule::MaxGrowthStage(stage) => {
                (FindingCode::GrowthStageOutside, "max_growth_stage", Bound::AtMost, Quantity::count((*stage).into()))
            }
            _ => return,
        };
        match self.judged(product, restriction.rule()) {
            None => {
                let missing = match restriction.rule() {
                    Rule::MinGrowthStage(_) | Rule::MaxGrowthStage(_) => "season.growth_stage",
                    Rule::WaitingPeriod(_) if self.job.season().is_some_and(|season| season.date.is_some()) => {
                        "season.harvest"
                    }
                    _ => "season.date",
                };
                let finding = self.said(FindingCode::LimitNotChecked, index, key, product);
                findings.push(finding.about(text::not_stated(product.name(), missing)));
            }
            Some(Some((_, actual))) => {
                findings.push(self.said(code, index, key, product).actual_value(actual).against(limit(bound, value)));
            }
            Some(None) => {}
        }
    }

    /// Whether a rule on count, interval, harvest or stage is broken, and by what. `None` where it cannot be told.
    #[allow(clippy::type_complexity, reason = "said once")]
    fn judged(&self, product: &Product, rule: &Rule) -> Option<Option<(Binding, Quantity)>> {
        let season = self.job.season()?;
        let of = |treatment: &&Treatment| treatment.is_of(product.name());
        Some(match rule {
            Rule::MaxTreatments(most) => {
                season.date?;
                let in_season =
                    |treatment: &&Treatment| season.season_start.is_none_or(|start| treatment.date() >= start);
                let done = parcels(season).map(|parcel| {
                    season.treatments.iter().filter(of).filter(in_season).filter(|one| one.is_on(parcel)).count()
                });
                let count = done.max().unwrap_or(0) + 1;
                (count > usize::from(*most)).then(|| (Binding::MaxTreatments, Quantity::count(count as u64)))
            }
            Rule::MinInterval(least) => {
                let date = season.date?;
                let days = season.treatments.iter().filter(of).map(|one| one.date().days_since(date).unsigned_abs());
                let nearest = days.min().map(Time::of_days);
                nearest.filter(|nearest| nearest < least).map(|nearest| (Binding::MinInterval, nearest.into()))
            }
            Rule::WaitingPeriod(least) => {
                let left = Time::of_days(season.harvest?.days_since(season.date?).unsigned_abs());
                (left < *least).then(|| (Binding::WaitingPeriod, left.into()))
            }
            Rule::MinGrowthStage(least) => {
                let stage = season.growth_stage?;
                (stage < *least).then(|| (Binding::GrowthStage, Quantity::count(stage.into())))
            }
            Rule::MaxGrowthStage(most) => {
                let stage = season.growth_stage?;
                (stage > *most).then(|| (Binding::GrowthStage, Quantity::count(stage.into())))
            }
            _ => None,
        })
    }

    /// For each product the largest dose per ground area that its limits leave on the planned date, and which of them binds. Empty
    /// without a season; none of a product where one of its limits could not be checked.
    ///
    /// It is arithmetic on what the job states, never permission.
    ///
    /// # Example
    ///
    /// At most 2 L/ha at once and 3 L/ha in a year, of which 1.8 L/ha were brought out in April: 1.2 L/ha are left.
    ///
    /// ```
    /// # #[cfg(feature = "document")]
    /// # fn main() -> Result<(), mixcalc::Error> {
    /// let job = mixcalc::document::read_job(br#"
    ///     format = "mixcalc-job/1"
    ///     area = "1 ha"
    ///     volume_rate = "200 L/ha"
    ///     sprayer = { kind = "boom" }
    ///     tank = { nominal = "500 L" }
    ///     measures = [{ kind = "vessel", capacity = "1 L", graduation = "10 mL" }]
    ///     [season]
    ///     date = 2026-05-31
    ///     treatments = [{ date = 2026-04-20, product = "example product A", dose = "1.8 L/ha" }]
    ///     [[products]]
    ///     name = "example product A"
    ///     dose = "1 L/ha"
    ///     label = { max_dose = "2 L/ha", caps = [{ value = "3 L/ha", over = { years = 1 } }] }
    /// "#)?;
    /// let largest = mixcalc::plan(&job)?.largest_doses();
    /// let largest = largest[0].as_ref().unwrap();
    /// assert_eq!(mixcalc::Quantity::from(largest.dose()).to_string(), "1.2 L/ha");
    /// assert_eq!(largest.binding(), mixcalc::Binding::Cap);
    /// # Ok(())
    /// # }
    /// # #[cfg(not(feature = "document"))]
    /// # fn main() {}
    /// ```
    ///
    /// # Source
    ///
    /// `docs/numbers.md`, section 14.
    #[must_use]
    pub fn largest_doses(&self) -> Vec<Option<LargestDose>> {
        if self.job.season().is_none() {
            return Vec::new();
        }
        let tallies: Vec<Tally<'_>> = self.tallies().collect();
        (0..self.job.products().len()).map(|index| self.largest_dose(index, &tallies)).collect()
    }

    fn largest_dose(&self, index: usize, tallies: &[Tally<'_>]) -> Option<LargestDose> {
        let product = self.held.products().get(index)?;
        let by_volume = product.dose().is_by_volume();
        let none = as_dose(MassPerArea::ZERO, by_volume);
        let mut forbidden = None;
        for restriction in product.label().restrictions() {
            let rule = restriction.rule();
            let (bound, value) = match rule {
                Rule::MaxTreatments(most) => (Bound::AtMost, Quantity::count((*most).into())),
                Rule::MinInterval(time) | Rule::WaitingPeriod(time) => (Bound::AtLeast, (*time).into()),
                Rule::MinGrowthStage(stage) => (Bound::AtLeast, Quantity::count((*stage).into())),
                Rule::MaxGrowthStage(stage) => (Bound::AtMost, Quantity::count((*stage).into())),
                _ => continue,
            };
            if let Some((binding, _)) = self.judged(product, rule)?
                && forbidden.is_none()
            {
                let limit = restriction.limit(product.label(), bound, value);
                forbidden = Some(LargestDose { dose: none, binding, parcel: None, limit, cap: None });
            }
        }
        if self.shifts_with_dose(product) {
            return None;
        }
        let (_, key, most, share) = self.binding_maximum(product)?;
        let dose = match most {
            Dose::LiquidPerArea(_) | Dose::SolidPerArea(_) => most,
            _ => share.on_ground(self.mix.rate),
        };
        let limit = product.largest_dose_limit(key, most);
        let mut largest = LargestDose { dose, binding: Binding::MaxDose, parcel: None, limit, cap: None };
        for tally in tallies.iter().filter(|tally| tally.cap.counts(index, product)) {
            let cap = &tally.cap;
            let per_unit = self.in_plan(cap, product, as_dose(MassPerArea::one(), by_volume))?;
            let others = tally.planned(Some(index));
            for used in tally.used.as_ref()? {
                if !others.is_whole || !used.counted.is_whole {
                    return None;
                }
                let room = (cap.most() - (used.counted.amount + others.amount)).max(MassPerArea::ZERO);
                let dose = MassPerArea::one() * (room / per_unit);
                if dose < as_mass(largest.dose) {
                    let label = self.job.products().get(cap.product).map(Product::label)?;
                    largest = LargestDose {
                        dose: as_dose(dose, by_volume),
                        binding: Binding::Cap,
                        parcel: used.parcel.map(|parcel| parcel.name().into()),
                        limit: cap.restriction.limit(label, Bound::AtMost, cap.shown(cap.most())),
                        cap: Some((cap.product, cap.place, used.end)),
                    };
                }
            }
        }
        Some(forbidden.unwrap_or(largest))
    }

    /// Whether one of its largest doses per volume moves with the dose itself, since more product leaves less room for carrier, or makes
    /// more mix.
    fn shifts_with_dose(&self, product: &Product) -> bool {
        let is_by_carrier = matches!(self.job.rate(), Rate::Carrier(_) | Rate::CarrierPerCrop(_));
        let shifts = |most: Dose| match most.basis() {
            Basis::CarrierVolume => true,
            Basis::MixVolume => is_by_carrier,
            _ => false,
        };
        !product.is_its_own_maximum() && product.largest_doses().any(|(_, most)| shifts(most))
    }

    /// The largest dose of a product that binds: its place among them, its key, itself, and its share of the mix.
    pub(super) fn binding_maximum(&self, product: &Product) -> Option<(usize, &'static str, Dose, Share)> {
        let of = self.mix.composition(&self.job);
        let all = product.largest_doses().enumerate();
        let shares = all.filter_map(|(n, (key, dose))| Some((n, key, dose, dose.share(&of).ok()?)));
        shares.reduce(|least, next| if next.3.min(least.3) == least.3 { least } else { next })
    }
}

/// The parcels of a season; one without a name where none is given.
fn parcels(season: &Season) -> impl Iterator<Item = Option<&Parcel>> {
    let nameless = season.parcels.is_empty().then_some(None);
    season.parcels.iter().map(Some).chain(nameless)
}

/// A difference of temperatures, which is no temperature.
fn difference(kelvins: Temperature) -> Quantity {
    Quantity::difference(kelvins)
}
