//! The mixing order: what published profiles say, what labels say, and where they differ about the products of a job.

use alloc::collections::{BTreeMap, BTreeSet};
use alloc::format;
use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use super::job::Job;
use crate::error::{Error, ErrorCode};
use crate::finding::{Finding, FindingCode};
use crate::label::{LabelOrder, MixGroup, OrderStep, Product};
use crate::quantity::{Volume, positive};
use crate::text::{self, order as words};

/// A published mixing order, or the one that mixcalc suggests.
///
/// The sources agree on the outline (bags, what conditions the water, dry products, suspensions, surfactants) and differ on solutions
/// and concentrates, capsules, oil dispersions and where ammonium sulfate goes. So the order is data, each profile says what its
/// source says, and a job may take any of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Profile {
    /// What mixcalc suggests, from what the others have in common.
    #[default]
    Suggested,
    /// The Manitoba guide, as the Canola Council gave it in 2013.
    Manitoba,
    /// South Dakota State University.
    SouthDakota,
    /// WALES, as extension services and the farm press of Canada teach it.
    Wales,
    /// Utah State University, 2012, its order for a jar.
    Utah,
    /// A sheet of the seed trade.
    SeedTrade,
}

/// One step of a profile: whether its source says so, and the groups that go in together. Where a source is silent, the step stands
/// where the suggested order has it.
type Step = (bool, &'static [MixGroup]);
const SAID: bool = true;
const SILENT: bool = false;

impl Profile {
    /// The profiles.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::Suggested, Self::Manitoba, Self::SouthDakota, Self::Wales, Self::Utah, Self::SeedTrade]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Suggested => "suggested",
            Self::Manitoba => "manitoba",
            Self::SouthDakota => "south-dakota",
            Self::Wales => "wales",
            Self::Utah => "utah",
            Self::SeedTrade => "seed-trade",
        }
    }

    /// Who says so.
    #[must_use]
    pub const fn source(self) -> &'static str {
        words::source(self)
    }

    /// Its steps; every group stands in one of them.
    const fn steps(self) -> &'static [Step] {
        use MixGroup as G;
        match self {
            Self::Suggested => &[
                (SAID, &[G::AntiFoam]),
                (SAID, &[G::SolubleBag]),
                (SAID, &[G::WaterConditioner, G::Buffer]),
                (SAID, &[G::CompatibilityAgent]),
                (SAID, &[G::Powder, G::Granule]),
                (SAID, &[G::Suspension, G::CapsuleSuspension]),
                (SAID, &[G::Emulsion, G::OilDispersion]),
                (SAID, &[G::Emulsifiable]),
                (SAID, &[G::Solution, G::SolubleSolid]),
                (SAID, &[G::Oil, G::Surfactant]),
                (SAID, &[G::DriftAgent, G::FoliarNutrient]),
            ],
            Self::Manitoba => &[
                (SILENT, &[G::AntiFoam]),
                (SAID, &[G::SolubleBag]),
                (SAID, &[G::WaterConditioner, G::Buffer]),
                (SILENT, &[G::CompatibilityAgent]),
                (SAID, &[G::Powder, G::Granule, G::Suspension]),
                (SILENT, &[G::CapsuleSuspension]),
                (SILENT, &[G::Emulsion, G::OilDispersion]),
                (SAID, &[G::Solution]),
                (SILENT, &[G::SolubleSolid]),
                (SAID, &[G::Emulsifiable]),
                (SAID, &[G::Oil, G::Surfactant]),
                (SILENT, &[G::DriftAgent, G::FoliarNutrient]),
            ],
            Self::SouthDakota => &[
                (SILENT, &[G::SolubleBag]),
                (SAID, &[G::WaterConditioner]),
                (SILENT, &[G::Buffer]),
                (SAID, &[G::CompatibilityAgent]),
                (SAID, &[G::AntiFoam]),
                (SAID, &[G::Powder, G::Granule]),
                (SAID, &[G::Suspension]),
                (SILENT, &[G::Emulsion, G::OilDispersion]),
                (SAID, &[G::Solution]),
                (SILENT, &[G::SolubleSolid]),
                (SAID, &[G::Emulsifiable]),
                (SAID, &[G::CapsuleSuspension]),
                (SAID, &[G::Oil, G::Surfactant]),
                (SAID, &[G::DriftAgent]),
                (SILENT, &[G::FoliarNutrient]),
            ],
            Self::Wales => &[
                (SILENT, &[G::AntiFoam]),
                (SILENT, &[G::SolubleBag]),
                (SAID, &[G::WaterConditioner, G::Buffer]),
                (SILENT, &[G::CompatibilityAgent]),
                (SAID, &[G::Powder, G::Granule]),
                (SAID, &[G::Suspension]),
                (SILENT, &[G::CapsuleSuspension]),
                (SILENT, &[G::Emulsion, G::OilDispersion]),
                (SAID, &[G::Emulsifiable]),
                (SILENT, &[G::SolubleSolid]),
                (SAID, &[G::Solution, G::Oil, G::Surfactant]),
                (SILENT, &[G::DriftAgent, G::FoliarNutrient]),
            ],
            Self::Utah => &[
                (SILENT, &[G::AntiFoam]),
                (SAID, &[G::SolubleBag]),
                (SILENT, &[G::Buffer]),
                (SILENT, &[G::CompatibilityAgent]),
                (SAID, &[G::Powder]),
                (SAID, &[G::Granule]),
                (SILENT, &[G::Suspension]),
                (SAID, &[G::CapsuleSuspension]),
                (SILENT, &[G::Emulsion, G::OilDispersion]),
                (SAID, &[G::Emulsifiable]),
                (SAID, &[G::Solution]),
                (SAID, &[G::SolubleSolid]),
                (SAID, &[G::Oil, G::Surfactant]),
                (SILENT, &[G::DriftAgent]),
                (SAID, &[G::WaterConditioner, G::FoliarNutrient]),
            ],
            Self::SeedTrade => &[
                (SILENT, &[G::AntiFoam]),
                (SILENT, &[G::SolubleBag]),
                (SAID, &[G::WaterConditioner, G::Buffer]),
                (SILENT, &[G::CompatibilityAgent]),
                (SILENT, &[G::Powder]),
                (SAID, &[G::Granule]),
                (SAID, &[G::OilDispersion]),
                (SAID, &[G::Suspension]),
                (SILENT, &[G::CapsuleSuspension]),
                (SILENT, &[G::Emulsion]),
                (SAID, &[G::Emulsifiable]),
                (SAID, &[G::Solution]),
                (SILENT, &[G::SolubleSolid]),
                (SAID, &[G::Oil, G::Surfactant]),
                (SILENT, &[G::DriftAgent, G::FoliarNutrient]),
            ],
        }
    }

    /// The place of a group, and whether the source says so.
    fn place(self, group: MixGroup) -> (usize, bool) {
        let steps = || self.steps().iter();
        let at = steps().position(|(_, groups)| groups.contains(&group));
        let said = steps().any(|(said, groups)| *said && groups.contains(&group));
        (at.unwrap_or(steps().len()), said)
    }

    /// Whether it says that one group goes in before another.
    fn says_before(self, first: MixGroup, second: MixGroup) -> bool {
        let ((first, is_said), (second, is_said_too)) = (self.place(first), self.place(second));
        is_said && is_said_too && first < second
    }
}

/// How a job's products are mixed: by which profile, and whether in a jar before.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Mixing {
    profile: Profile,
    jar_test: Option<Volume>,
}

impl Mixing {
    /// Mixing by the suggested order.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes another profile.
    #[must_use]
    pub const fn with_profile(mut self, profile: Profile) -> Self {
        self.profile = profile;
        self
    }

    /// Asks for the amounts of a jar test, of so much mix.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a volume that is not above zero.
    pub fn with_jar_test(mut self, volume: Volume) -> Result<Self, Error> {
        self.jar_test = Some(positive(volume).map_err(|error| error.at("jar_test"))?);
        Ok(self)
    }

    /// The profile.
    #[must_use]
    pub const fn profile(&self) -> Profile {
        self.profile
    }

    /// How much mix is tried in a jar, where any is.
    #[must_use]
    pub const fn jar_test(&self) -> Option<Volume> {
        self.jar_test
    }
}

/// A product's place in the mixing order, and why it stands there.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderedProduct {
    product: usize,
    group: MixGroup,
    is_by_label: bool,
    reason: String,
}

impl OrderedProduct {
    /// Its place in the job.
    #[must_use]
    pub const fn product(&self) -> usize {
        self.product
    }

    /// Its group.
    #[must_use]
    pub const fn group(&self) -> MixGroup {
        self.group
    }

    /// Why it stands there, and who says so.
    #[must_use]
    pub fn reason(&self) -> &str {
        &self.reason
    }
}

/// The order in which the products of a job go into the tank.
#[derive(Clone, Debug, PartialEq)]
pub struct MixingOrder {
    profile: Profile,
    products: Vec<OrderedProduct>,
}

/// What decides: an end that a label asks for, the step of the profile, the group, the name; then the name of the product itself, which is
/// another one's where it was moved to that.
type Key<'job> = ((u8, usize, MixGroup, &'job str), &'job str);

/// What a label says of two products of a job, by their places in it.
struct Said {
    first: usize,
    second: usize,
    /// Whether it is the label of the first, which is then moved to the second.
    by_first: bool,
}

impl MixingOrder {
    /// The profile that it follows where no label says otherwise.
    #[must_use]
    pub const fn profile(&self) -> Profile {
        self.profile
    }

    /// The products, in the order in which they go into the tank.
    #[must_use]
    pub fn products(&self) -> &[OrderedProduct] {
        &self.products
    }

    /// The order of a job that asks for one.
    pub(super) fn of(job: &Job) -> Result<Option<Self>, Error> {
        let Some(mixing) = job.mixing() else {
            let speaks = |product: &Product| product.label().order().is_some();
            return if job.products().iter().any(speaks) { Err(needs_mixing()) } else { Ok(None) };
        };
        let profile = mixing.profile();
        let groups = job.products().iter().enumerate().map(|(i, product)| group(i, product));
        let groups = groups.collect::<Result<Vec<MixGroup>, Error>>()?;
        let keys = job.products().iter().zip(&groups);
        let mut keys: Vec<Key<'_>> = keys.map(|(product, group)| key(profile, product, *group)).collect();
        let said = said(job)?;

        let outline = sorted(&keys, &said);
        if outline.len() < keys.len() {
            return Err(circle(job, &outline));
        }
        // Who is to go in before another is moved, and the other is not: the last ones first, so that a chain moves as one.
        let mut led: Vec<Vec<usize>> = vec![Vec::new(); keys.len()];
        for Said { first, second, .. } in said.iter().filter(|said| said.by_first) {
            led.get_mut(*first).into_iter().for_each(|led| led.push(*second));
        }
        for i in outline.into_iter().rev() {
            let least = led.get(i).into_iter().flatten().filter_map(|j| keys.get(*j)).map(|(place, _)| *place).min();
            if let (Some((place, _)), Some(least)) = (keys.get_mut(i), least) {
                *place = (*place).min(least);
            }
        }
        let placed = |i: usize| {
            let (product, group) = (job.products().get(i)?, *groups.get(i)?);
            let label = product.label().order();
            let reason = label.map_or_else(|| by_profile(profile, group), by_label);
            Some(OrderedProduct { product: i, group, is_by_label: label.is_some(), reason })
        };
        Ok(Some(Self { profile, products: sorted(&keys, &said).into_iter().filter_map(placed).collect() }))
    }

    /// A note for each two groups of this tank about which the sources differ. Where a label decides, there is nothing to differ about.
    pub(super) fn differences(&self, job: &Job) -> Vec<Finding> {
        let name = |at: &OrderedProduct| job.products().get(at.product).map_or("", Product::name);
        let mut groups: Vec<(MixGroup, Vec<&str>)> = Vec::new();
        for at in self.products.iter().filter(|at| !at.is_by_label) {
            match groups.last_mut() {
                Some((group, names)) if *group == at.group => names.push(name(at)),
                _ => groups.push((at.group, vec![name(at)])),
            }
        }
        let mut findings = Vec::new();
        for (i, (earlier, first)) in groups.iter().enumerate() {
            for (later, second) in groups.iter().skip(i + 1) {
                let who = |first: MixGroup, second: MixGroup| -> Vec<Profile> {
                    Profile::all().iter().copied().filter(|profile| profile.says_before(first, second)).collect()
                };
                let others: Vec<Profile> =
                    who(*later, *earlier).into_iter().filter(|profile| *profile != Profile::Suggested).collect();
                // Where labels turned the two groups round, it is not the profile that differs from others.
                let is_turned = self.profile.place(*earlier).0 > self.profile.place(*later).0;
                if !is_turned && !others.is_empty() {
                    let subject = words::differ((first, &who(*earlier, *later)), (second, &others));
                    let finding = Finding::new(FindingCode::MixingOrderDiffers, "mixing.profile", job.units());
                    findings.push(finding.about(subject));
                }
            }
        }
        findings
    }
}

fn needs_mixing() -> Error {
    Error::new(ErrorCode::MissingInput).at("mixing").allowed(words::MIXING_WANTED)
}

/// The group of a product: that of its role, else of its formulation type.
fn group(index: usize, product: &Product) -> Result<MixGroup, Error> {
    product.role().group().or(product.formulation().map(crate::label::Formulation::group)).ok_or_else(|| {
        let error = Error::new(ErrorCode::MissingInput).at(format!("products[{index}].formulation"));
        error.allowed(words::GROUP_WANTED)
    })
}

fn key(profile: Profile, product: &Product, group: MixGroup) -> Key<'_> {
    let end = match product.label().order().and_then(LabelOrder::step) {
        Some(OrderStep::First) => 0,
        None => 1,
        Some(OrderStep::Last) => 2,
    };
    ((end, profile.place(group).0, group, product.name()), product.name())
}

fn by_profile(profile: Profile, group: MixGroup) -> String {
    match profile.place(group) {
        (_, SAID) => words::by_profile(profile, group),
        _ => words::by_suggestion(profile, group),
    }
}

fn by_label(order: &LabelOrder) -> String {
    let end = order.step().map(words::end).map(String::from);
    let names = |names: Vec<&str>, template| {
        (!names.is_empty()).then(|| text::filled(template, &[("names", &names.join(", "))]))
    };
    let said = [end, names(order.before().collect(), words::BEFORE), names(order.after().collect(), words::AFTER)];
    text::filled(words::BY_LABEL, &[("said", &said.into_iter().flatten().collect::<Vec<_>>().join(", "))])
}

/// What labels say of two products.
fn said(job: &Job) -> Result<Vec<Said>, Error> {
    let places: BTreeMap<&str, usize> = job.products().iter().map(Product::name).zip(0..).collect();
    let mut all = Vec::new();
    for (i, product) in job.products().iter().enumerate() {
        let Some(order) = product.label().order() else { continue };
        let place = |key: &str, (at, name): (usize, &str)| {
            places.get(name).copied().ok_or_else(|| {
                let error = Error::new(ErrorCode::UnknownChoice).at(format!("products[{i}].label.order.{key}[{at}]"));
                error.given(text::quoted(name)).allowed(words::NAME_WANTED)
            })
        };
        for name in order.before().enumerate() {
            all.push(Said { first: i, second: place("before", name)?, by_first: true });
        }
        for name in order.after().enumerate() {
            all.push(Said { first: place("after", name)?, second: i, by_first: false });
        }
    }
    Ok(all)
}

/// Again and again the one of least key of those whose turn it is. Shorter than the keys where labels go round in a circle.
fn sorted(keys: &[Key<'_>], said: &[Said]) -> Vec<usize> {
    let mut waiting: Vec<usize> = vec![0; keys.len()];
    let mut followers: Vec<Vec<usize>> = vec![Vec::new(); keys.len()];
    for Said { first, second, .. } in said {
        waiting.get_mut(*second).into_iter().for_each(|count| *count += 1);
        followers.get_mut(*first).into_iter().for_each(|after| after.push(*second));
    }
    let ready = keys.iter().zip(0..).zip(&waiting).filter(|(_, waits)| **waits == 0);
    let mut ready: BTreeSet<(Key<'_>, usize)> = ready.map(|((key, i), _)| (*key, i)).collect();
    let mut order = Vec::with_capacity(keys.len());
    while let Some((_, next)) = ready.pop_first() {
        order.push(next);
        for follower in followers.get(next).into_iter().flatten() {
            if let (Some(count), Some(key)) = (waiting.get_mut(*follower), keys.get(*follower)) {
                *count -= 1;
                if *count == 0 {
                    ready.insert((*key, *follower));
                }
            }
        }
    }
    order
}

/// The error for labels that cannot all be followed; `outline` are the products that can still be placed.
fn circle(job: &Job, outline: &[usize]) -> Error {
    let rest = job.products().iter().enumerate();
    let rest = rest.filter(|(i, product)| product.label().order().is_some() && !outline.contains(i));
    let mut names: Vec<(&str, usize)> = rest.map(|(i, product)| (product.name(), i)).collect();
    names.sort_unstable();
    let first = names.first().map_or(0, |(_, i)| *i);
    let shown: Vec<String> = names.iter().take(3).map(|(name, _)| text::quoted(name)).collect();
    Error::new(ErrorCode::OrderInCircle).at(format!("products[{first}].label.order")).given(shown.join(", "))
}
