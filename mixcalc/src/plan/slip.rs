//! Slips of the unit: whether a known confusion explains a value better than that it was meant as it is stated.
//!
//! Nothing is changed by it. A value within its range is never asked about; one outside is held against the table of confusions, and
//! what fits better is a caution that shows both readings. `docs/numbers.md`, section 12, has the score and its reasons.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::cmp::Ordering;

use super::Plan;
use crate::finding::{Bound, Finding, FindingCode, Limit, Reading};
use crate::label::{Basis, Dose, Label, Product, Share, SubstanceContent};
use crate::measure::{Measure, MeasureKind};
use crate::quantity::close::{is_close, is_over, is_under};
use crate::quantity::{
    Area, BulkDensity, Content, Density, MassFraction, ParticleDensity, Quantity, Ratio, System, Volume, VolumeRate,
};
use crate::text::{self, source};

/// What a value is, as far as confusions go.
#[derive(Clone, Copy, PartialEq)]
enum Sort {
    LiquidDose,
    SolidDose,
    VolumeRate,
    Volume,
    Mass,
    Density,
    Content,
}

/// How many times what is stated the value is that was meant.
#[derive(Clone, Copy)]
enum Scaling {
    /// As the two units are to each other.
    Units,
    /// As what the dose is counted on is to each other, an area or a tank by the mix that it takes.
    Basis,
    /// Over the product's content of an active substance, or times it.
    OverContent,
    TimesContent,
    /// So many percent, or over so many.
    Times(f64),
    Over(f64),
}

/// One confusion, in one direction: what was meant, and what was stated instead.
struct Confusion {
    sort: Sort,
    meant: &'static str,
    stated: &'static str,
    scaling: Scaling,
    /// How often it is made among a thousand values, as a degree of belief.
    weight: f64,
}

const fn confused(sort: Sort, meant: &'static str, stated: &'static str, scaling: Scaling, weight: f64) -> Confusion {
    Confusion { sort, meant, stated, scaling, weight }
}

// Degrees of belief, for nobody has counted slips: the confusions that extension teaching and registries name most, others of one trade's
// units, and the rest.
const COMMON: f64 = 20.0;
const KNOWN: f64 = 10.0;
const RARE: f64 = 5.0;
/// How often a value outside its range is meant, for the part next to the range. Not more than the rarest confusion.
const MEANT: f64 = 5.0;
/// What is not given of a range is taken as this many times the other end.
const SPAN: f64 = 20.0;

/// How much less a confusion of another trade's units is thought of.
const STRANGE: f64 = 4.0;
/// Rounding of a number that somebody brought to another unit.
const ROUNDED: f64 = 1.01;
const HUNDRED: f64 = 100.0;
const THOUSAND: f64 = 1000.0;

/// Glyphosate: a salt over its acid, by molar mass.
const SALT_PERCENT: f64 = 135.0;
/// Copper sulfate pentahydrate over its copper, by molar mass.
const SULFATE_PERCENT: f64 = 393.0;

/// How a confusion says that an area is no ground.
const LEAF_WALL: &str = " of leaf wall";
const TREATED: &str = " of treated ground";

/// Both sides of a row for one.
const TWICE_PERCENT: f64 = 200.0;

/// The confusions. Factors of units are the exact ones of the units, so that none stands here.
static CONFUSIONS: &[Confusion] = {
    use Scaling::{Basis, Over, OverContent, Times, TimesContent, Units};
    use Sort::{Content, Density, LiquidDose, Mass, SolidDose, Volume, VolumeRate};
    &[
        confused(LiquidDose, "per ac", "per ha", Basis, COMMON),
        confused(LiquidDose, "per ha", "per ac", Basis, COMMON),
        confused(LiquidDose, "per 100 L", "per ha", Basis, COMMON),
        confused(LiquidDose, "per ha", "per 100 L", Basis, COMMON),
        confused(LiquidDose, "per 100 US gal", "per ac", Basis, KNOWN),
        confused(LiquidDose, "per ac", "per 100 US gal", Basis, KNOWN),
        confused(LiquidDose, "per 100 imp gal", "per ac", Basis, RARE),
        confused(LiquidDose, "per ac", "per 100 imp gal", Basis, RARE),
        confused(LiquidDose, "per tank", "per ha", Basis, KNOWN),
        confused(LiquidDose, "per tank", "per 100 L", Basis, KNOWN),
        confused(LiquidDose, "per ha of leaf wall", "per ha", Basis, KNOWN),
        confused(LiquidDose, "per ha", "per ha of leaf wall", Basis, KNOWN),
        confused(LiquidDose, "per ha of treated ground", "per ha", Basis, KNOWN),
        confused(LiquidDose, "per ha", "per ha of treated ground", Basis, KNOWN),
        confused(LiquidDose, "mL", "L", Units, COMMON),
        confused(LiquidDose, "L", "mL", Units, COMMON),
        confused(LiquidDose, "cL", "L", Units, RARE),
        confused(LiquidDose, "L", "cL", Units, RARE),
        confused(LiquidDose, "mL", "cL", Units, RARE),
        confused(LiquidDose, "cL", "mL", Units, RARE),
        confused(LiquidDose, "US gal", "imp gal", Units, KNOWN),
        confused(LiquidDose, "imp gal", "US gal", Units, KNOWN),
        confused(LiquidDose, "US fl oz", "imp fl oz", Units, KNOWN),
        confused(LiquidDose, "imp fl oz", "US fl oz", Units, KNOWN),
        confused(LiquidDose, "US fl oz", "US pt", Units, KNOWN),
        confused(LiquidDose, "US pt", "US fl oz", Units, KNOWN),
        confused(LiquidDose, "US tsp", "US tbsp", Units, RARE),
        confused(LiquidDose, "US tbsp", "US tsp", Units, RARE),
        confused(LiquidDose, "active substance", "product", OverContent, KNOWN),
        confused(LiquidDose, "product", "active substance", TimesContent, KNOWN),
        confused(LiquidDose, "salt", "acid equivalent", Over(SALT_PERCENT), RARE),
        confused(LiquidDose, "acid equivalent", "salt", Times(SALT_PERCENT), RARE),
        confused(SolidDose, "per ac", "per ha", Basis, COMMON),
        confused(SolidDose, "per ha", "per ac", Basis, COMMON),
        confused(SolidDose, "per 100 L", "per ha", Basis, COMMON),
        confused(SolidDose, "per ha", "per 100 L", Basis, COMMON),
        confused(SolidDose, "per 100 US gal", "per ac", Basis, KNOWN),
        confused(SolidDose, "per ac", "per 100 US gal", Basis, KNOWN),
        confused(SolidDose, "per 100 imp gal", "per ac", Basis, RARE),
        confused(SolidDose, "per ac", "per 100 imp gal", Basis, RARE),
        confused(SolidDose, "per tank", "per ha", Basis, KNOWN),
        confused(SolidDose, "per tank", "per 100 L", Basis, KNOWN),
        confused(SolidDose, "per ha of leaf wall", "per ha", Basis, KNOWN),
        confused(SolidDose, "per ha", "per ha of leaf wall", Basis, KNOWN),
        confused(SolidDose, "per ha of treated ground", "per ha", Basis, KNOWN),
        confused(SolidDose, "per ha", "per ha of treated ground", Basis, KNOWN),
        confused(SolidDose, "g", "kg", Units, COMMON),
        confused(SolidDose, "kg", "g", Units, COMMON),
        confused(SolidDose, "lb", "kg", Units, KNOWN),
        confused(SolidDose, "kg", "lb", Units, KNOWN),
        confused(SolidDose, "oz av", "lb", Units, KNOWN),
        confused(SolidDose, "lb", "oz av", Units, KNOWN),
        confused(SolidDose, "active substance", "product", OverContent, KNOWN),
        confused(SolidDose, "product", "active substance", TimesContent, KNOWN),
        confused(SolidDose, "salt", "acid equivalent", Over(SALT_PERCENT), RARE),
        confused(SolidDose, "acid equivalent", "salt", Times(SALT_PERCENT), RARE),
        confused(SolidDose, "copper", "copper sulfate", Times(SULFATE_PERCENT), RARE),
        confused(SolidDose, "copper sulfate", "copper", Over(SULFATE_PERCENT), RARE),
        confused(VolumeRate, "L/ac", "L/ha", Units, COMMON),
        confused(VolumeRate, "L/ha", "L/ac", Units, COMMON),
        confused(VolumeRate, "US gal/ac", "imp gal/ac", Units, COMMON),
        confused(VolumeRate, "imp gal/ac", "US gal/ac", Units, COMMON),
        confused(VolumeRate, "US gal/ac", "L/ha", Units, KNOWN),
        confused(VolumeRate, "L/ha", "US gal/ac", Units, KNOWN),
        confused(VolumeRate, "imp gal/ac", "L/ha", Units, KNOWN),
        confused(VolumeRate, "L/ha", "imp gal/ac", Units, KNOWN),
        confused(VolumeRate, "L/1000 m2", "L/ha", Units, RARE),
        confused(VolumeRate, "L/ha", "L/1000 m2", Units, RARE),
        confused(VolumeRate, "L/100 m2", "L/ha", Units, RARE),
        confused(VolumeRate, "L/ha", "L/100 m2", Units, RARE),
        confused(VolumeRate, "both sides", "one side", Times(TWICE_PERCENT), RARE),
        confused(VolumeRate, "one side", "both sides", Over(TWICE_PERCENT), RARE),
        confused(Volume, "mL", "L", Units, COMMON),
        confused(Volume, "L", "mL", Units, COMMON),
        confused(Volume, "L", "US gal", Units, KNOWN),
        confused(Volume, "US gal", "L", Units, KNOWN),
        confused(Volume, "L", "imp gal", Units, KNOWN),
        confused(Volume, "imp gal", "L", Units, KNOWN),
        confused(Volume, "US gal", "imp gal", Units, KNOWN),
        confused(Mass, "g", "kg", Units, COMMON),
        confused(Mass, "kg", "g", Units, COMMON),
        confused(Density, "g/L", "kg/L", Units, COMMON),
        confused(Density, "kg/L", "g/L", Units, COMMON),
        confused(Density, "lb/US gal", "kg/L", Units, KNOWN),
        confused(Density, "kg/L", "lb/US gal", Units, KNOWN),
        confused(Content, "g/L", "kg/L", Units, COMMON),
        confused(Content, "kg/L", "g/L", Units, COMMON),
        confused(Content, "lb/US gal", "g/L", Units, KNOWN),
    ]
};

/// What there is of a kind, in kg/L and as a part of the product: wide, for it is to find a wrong unit and no rare product.
const LIQUID: (f64, f64) = (0.6, 2.2);
const PARTICLES: (f64, f64) = (0.8, 5.0);
const HEAP: (f64, f64) = (0.05, 2.5);
const CONTENT: (f64, f64) = (0.0001, 2.2);
/// Graduations of a vessel and of a scale in their capacity.
const VESSEL: (f64, f64) = (1.0, 1e4);
const SCALE: (f64, f64) = (1.0, 1e6);
/// The brim over nominal, and the residual over the tank.
const BRIM: (f64, f64) = (1.0, 1.5);
const RESIDUAL: (f64, f64) = (1e-6, 0.25);
/// A stock over what the job takes: a few cans too little, or a store.
const STOCK: (f64, f64) = (0.05, 1e6);

/// A value over either end of its range.
#[derive(Clone, Copy)]
struct Place {
    over_least: Ratio,
    over_most: Ratio,
}

impl Place {
    /// In a range of which one end may not be given.
    fn given(over_least: Option<Ratio>, over_most: Option<Ratio>) -> Option<Self> {
        match (over_least, over_most) {
            (Some(over_least), Some(over_most)) => Some(Self { over_least, over_most }),
            (Some(over_least), None) => Some(Self { over_least, over_most: over_least / SPAN }),
            (None, Some(over_most)) => Some(Self { over_least: over_most * SPAN, over_most }),
            (None, None) => None,
        }
    }

    fn within(value: Ratio, (least, most): (f64, f64)) -> Self {
        Self { over_least: value / least, over_most: value / most }
    }

    /// Where a reading of the value is. One that misses the range by what rounding a number does is within it.
    fn read(self, factor: Ratio) -> Self {
        let read = Self { over_least: self.over_least * factor, over_most: self.over_most * factor };
        let rounded = |(_, times): (Bound, Ratio)| !is_over(times, Ratio::one() * ROUNDED);
        if read.outside().is_some_and(rounded) {
            Self { over_least: Ratio::one(), over_most: Ratio::one() }
        } else {
            read
        }
    }

    /// The end that it misses, and how many times; none within.
    fn outside(self) -> Option<(Bound, Ratio)> {
        if is_over(self.over_most, Ratio::one()) {
            Some((Bound::AtMost, self.over_most))
        } else if is_under(self.over_least, Ratio::one()) {
            Some((Bound::AtLeast, Ratio::one() / self.over_least))
        } else {
            None
        }
    }

    /// Likelihood of a value that is meant: even within the range, on a scale of logarithms; next to it a few in a thousand, which fall
    /// off with the square.
    fn likelihood(self) -> Ratio {
        match self.outside() {
            Some((_, times)) => Ratio::one() * MEANT / THOUSAND / times / times,
            None => Ratio::one(),
        }
    }
}

/// A value that is outside its range, and what confusions of it may turn on.
struct Question<'plan> {
    sort: Sort,
    path: String,
    subject: &'plan str,
    stated: Quantity,
    product: Option<&'plan Product>,
    place: Place,
    /// What the value and the end of its range are counted on.
    bases: [Basis; 2],
}

/// A value that is counted on nothing.
const PLAIN: [Basis; 2] = [Basis::GroundArea; 2];

impl Plan {
    /// The cautions on values that a confusion explains better than that they are meant.
    pub(super) fn on_slips(&self, findings: &mut Vec<Finding>) {
        for (index, product) in self.job.products().iter().enumerate() {
            self.on_dose_slip(index, product, findings);
            self.on_property_slips(index, product, findings);
            if let Some(measure) = product.measure() {
                self.on_capacity_slip(measure, || format!("products[{index}].measure.capacity"), findings);
            }
        }
        for (index, measure) in self.job.measures().iter().enumerate() {
            self.on_capacity_slip(measure, || format!("measures[{index}].capacity"), findings);
        }
        self.on_rate_slip(findings);
        self.on_tank_slips(findings);
    }

    fn on_dose_slip(&self, index: usize, product: &Product, findings: &mut Vec<Finding>) {
        let label = product.label();
        let of = self.mix.composition(&self.job);
        let share = |dose: Dose| dose.share(&of).ok();
        let over = |end: Dose| over(share(product.dose())?, share(end)?);
        let Some(place) = Place::given(label.min_dose.and_then(over), label.max_dose.and_then(over)) else { return };
        let Some((bound, times)) = place.outside() else { return };
        let end = if bound == Bound::AtMost { label.max_dose } else { label.min_dose };
        let stated = Quantity::from(product.dose());
        let limit = match end {
            Some(end) => label.limit(bound, end),
            None => self.end(bound, stated, times, source::SPAN),
        };
        let sort = if product.dose().is_by_volume() { Sort::LiquidDose } else { Sort::SolidDose };
        let path = format!("products[{index}].dose");
        let bases = [product.dose(), end.unwrap_or(product.dose())].map(Dose::basis);
        self.ask(
            &Question { sort, path, subject: product.name(), stated, product: Some(product), place, bases },
            limit,
            findings,
        );
    }

    /// The volume rate against the range that all labels leave it.
    fn on_rate_slip(&self, findings: &mut Vec<Finding>) {
        // A rate per row, plant or spot has no units of area to mistake, and one that was measured was not typed.
        let rate = self.job.rate();
        if self.job.calibration().is_some()
            || !matches!(rate.basis(), Basis::GroundArea | Basis::TreatedArea | Basis::LeafWallArea)
        {
            return;
        }
        let labels = || self.job.products().iter().map(Product::label);
        // How many times an end the rate is, on the basis that its label counts on.
        let times = |end: VolumeRate, label: &Label| {
            let rate = self.mix.rate_on(label.volume_rate_basis(), self.job.stand()).ok()?;
            Some(rate / end)
        };
        let least = labels().filter_map(|label| Some((times(label.min_volume_rate?, label)?, label)));
        let least = least.reduce(|a, b| if b.0 < a.0 { b } else { a });
        let most = labels().filter_map(|label| Some((times(label.max_volume_rate?, label)?, label)));
        let most = most.reduce(|a, b| if b.0 > a.0 { b } else { a });
        let over = |end: Option<(Ratio, &Label)>| end.map(|(times, _)| times);
        let Some(place) = Place::given(over(least), over(most)) else { return };
        let Some((bound, times)) = place.outside() else { return };
        let end = match bound {
            Bound::AtMost => most.and_then(|(_, label)| Some((label.max_volume_rate?, label))),
            Bound::AtLeast => least.and_then(|(_, label)| Some((label.min_volume_rate?, label))),
        };
        let limit = match end {
            Some((end, label)) => label.limit(bound, end),
            None => self.end(bound, self.mix.rate.into(), times, source::SPAN),
        };
        let limited = end.and_then(|(_, label)| label.volume_rate_basis()).unwrap_or(Basis::GroundArea);
        let (stated, path, bases) = (rate.stated(), rate.key().into(), [rate.basis(), limited]);
        self.ask(
            &Question { sort: Sort::VolumeRate, path, subject: "", stated, product: None, place, bases },
            limit,
            findings,
        );
    }

    /// Densities, contents and the stock of a product.
    fn on_property_slips(&self, index: usize, product: &Product, findings: &mut Vec<Finding>) {
        let mut hold = |sort, key: &dyn Fn() -> String, stated: Quantity, value: Option<Ratio>, range, source| {
            let Some(place) = value.map(|value| Place::within(value, range)) else { return };
            let Some((bound, times)) = place.outside() else { return };
            let path = format!("products[{index}].{}", key());
            let limit = self.end(bound, stated, times, source);
            let subject = product.name();
            self.ask(&Question { sort, path, subject, stated, product: None, place, bases: PLAIN }, limit, findings);
        };
        let plausible = source::PLAUSIBLE;
        if let Some(density) = product.density() {
            let value = Density::from_kilograms_per_liter(1.0).ok().map(|water| density / water);
            hold(Sort::Density, &|| "density".into(), density.into(), value, LIQUID, plausible);
        }
        if let Some(density) = product.particle_density() {
            let value = ParticleDensity::from_kilograms_per_liter(1.0).ok().map(|water| density / water);
            hold(Sort::Density, &|| "particle_density".into(), density.into(), value, PARTICLES, plausible);
        }
        if let Some(density) = product.bulk_density() {
            let value = BulkDensity::from_kilograms_per_liter(1.0).ok().map(|water| density / water);
            hold(Sort::Density, &|| "bulk_density".into(), density.into(), value, HEAP, plausible);
        }
        for (at, substance) in product.active_substances().iter().enumerate() {
            let key = || format!("active_substances[{at}].content");
            if let SubstanceContent::PerVolume(content) = substance.content() {
                hold(Sort::Content, &key, content.into(), in_kilograms_per_liter(content), CONTENT, plausible);
            }
        }
        if let Some((stock, (share, _))) = product.stated_stock().zip(self.mix.shares.get(index)) {
            let value = stock.over(share.of(self.made()));
            let sort = if product.dose().is_by_volume() { Sort::Volume } else { Sort::Mass };
            hold(
                sort,
                &|| "stock".into(),
                stock.into(),
                value.filter(|value| *value > Ratio::ZERO),
                STOCK,
                source::JOB_TAKES,
            );
        }
    }

    fn on_capacity_slip(&self, measure: &Measure, path: impl Fn() -> String, findings: &mut Vec<Finding>) {
        let (sort, range) = match measure.kind() {
            MeasureKind::Vessel => (Sort::Volume, VESSEL),
            MeasureKind::Scale => (Sort::Mass, SCALE),
            MeasureKind::Pack => return,
        };
        let Some(steps) = measure.capacity().over(measure.graduation()) else { return };
        let (place, stated) = (Place::within(steps, range), measure.capacity().into());
        let Some((bound, times)) = place.outside() else { return };
        let limit = self.end(bound, stated, times, source::STEPS);
        let subject = measure.name();
        self.ask(
            &Question { sort, path: path(), subject, stated, product: None, place, bases: PLAIN },
            limit,
            findings,
        );
    }

    /// The brim against nominal, and the residual against the tank.
    fn on_tank_slips(&self, findings: &mut Vec<Finding>) {
        let (tank, residual) = (self.job.tank(), self.residual());
        let mut hold = |path: &str, stated: Volume, over: Volume, range, source| {
            let place = Place::within(stated / over, range);
            let Some((bound, times)) = place.outside() else { return };
            let stated = stated.into();
            let limit = self.end(bound, stated, times, source);
            let question = Question {
                sort: Sort::Volume,
                path: path.into(),
                subject: "",
                stated,
                product: None,
                place,
                bases: PLAIN,
            };
            self.ask(&question, limit, findings);
        };
        if let (Some(nominal), Some(brim)) = (tank.nominal(), tank.brim()) {
            hold("tank.brim", brim, nominal, BRIM, source::TANK);
        }
        if let Some(room) = tank.nominal().or(tank.brim())
            && residual > Volume::ZERO
        {
            hold("sprayer.residual", residual, room, RESIDUAL, source::TANK);
        }
    }

    /// The end of a range that is not stated, as what is stated comes to it.
    fn end(&self, bound: Bound, stated: Quantity, times: Ratio, source: &'static str) -> Limit {
        let factor = if bound == Bound::AtMost { Ratio::one() / times } else { times };
        Limit::advice(bound, scaled(stated, factor).unwrap_or(stated), source)
    }

    /// Holds a value against the confusions: those that explain it better than that it is meant, the best of them told.
    fn ask(&self, question: &Question<'_>, limit: Limit, findings: &mut Vec<Finding>) {
        let as_meant = question.place.likelihood();
        let mut readings: Vec<(Ratio, Ratio, &Confusion)> = Vec::new();
        for confusion in CONFUSIONS.iter().filter(|confusion| confusion.sort == question.sort) {
            for factor in self.factors(confusion, question) {
                let score = question.place.read(factor).likelihood() * confusion.weight / THOUSAND;
                if is_over(score, as_meant) {
                    readings.push((score / self.strangeness(confusion), factor, confusion));
                }
            }
        }
        // The sort is stable: of equals the first of the table stands first.
        readings.sort_by(|(a, ..), (b, ..)| b.partial_cmp(a).unwrap_or(Ordering::Equal));
        let Some(&(best, factor, _)) = readings.first() else { return };
        readings.retain(|(score, ..)| !is_under(*score * 2.0, best));
        let other = readings.iter().skip(1).position(|(_, other, _)| !is_close(*other, factor)).map(|at| at + 1);
        let told = [Some(0), other].into_iter().flatten().filter_map(|at| readings.get(at));
        let told = told.filter_map(|(_, factor, confusion)| {
            Some(Reading { value: scaled(question.stated, *factor)?, meant: confusion.meant, stated: confusion.stated })
        });
        let finding =
            Finding::new(FindingCode::UnitSlip, question.path.as_str(), self.job.units()).about(question.subject);
        findings.push(
            finding
                .actual_value(question.stated)
                .on_bases(question.bases.map(text::on_basis))
                .against(limit)
                .read_as(told.collect()),
        );
    }

    /// How much less a confusion is thought of where the job is stated in the measures of another trade. It decides which reading is told
    /// first, never whether one is: the same job stated in other units has the same findings.
    fn strangeness(&self, confusion: &Confusion) -> f64 {
        let is_strange = |words| System::of_unit(unit_in(words)).is_some_and(|system| system != self.job.units());
        if is_strange(confusion.stated) || is_strange(confusion.meant) { STRANGE } else { 1.0 }
    }

    /// How many times what is stated the value is that a confusion says was meant.
    fn factors(&self, confusion: &Confusion, question: &Question<'_>) -> Vec<Ratio> {
        let of_content = |turned: fn(Ratio) -> Ratio| {
            let substances = question.product.map(Product::active_substances).unwrap_or_default();
            substances.iter().filter_map(|substance| content(substance.content())).map(turned).collect()
        };
        let has_substance = || question.product.is_some_and(|product| !product.active_substances().is_empty());
        match confusion.scaling {
            Scaling::Units => ratio(confusion.meant, confusion.stated).into_iter().collect(),
            Scaling::Basis => self.basis_factor(confusion, question).into_iter().collect(),
            Scaling::OverContent => of_content(|content| Ratio::one() / content),
            Scaling::TimesContent => of_content(|content| content),
            Scaling::Times(percent) if question.product.is_none() || has_substance() => {
                Vec::from([Ratio::of_percent(percent)])
            }
            Scaling::Over(percent) if question.product.is_none() || has_substance() => {
                Vec::from([Ratio::one() / Ratio::of_percent(percent)])
            }
            Scaling::Times(_) | Scaling::Over(_) => Vec::new(),
        }
    }

    /// What is counted on less mix is more. A dose holds only against what is stated on its own basis.
    fn basis_factor(&self, confusion: &Confusion, question: &Question<'_>) -> Option<Ratio> {
        let own = match question.product?.dose().basis() {
            Basis::CarrierVolume => Basis::MixVolume,
            basis => basis,
        };
        let (stated, basis) = self.mix_for(confusion.stated)?;
        let (meant, _) = self.mix_for(confusion.meant)?;
        (own == basis).then(|| stated / meant)
    }

    /// The mix that so much of a basis takes, and the basis.
    fn mix_for(&self, per: &str) -> Option<(Volume, Basis)> {
        let words = bare(per);
        if words == "tank" {
            return Some((self.safe_fill, Basis::MixVolume));
        }
        let on_wall = words.strip_suffix(LEAF_WALL).map(|words| (words, Basis::LeafWallArea));
        let on_part = words.strip_suffix(TREATED).map(|words| (words, Basis::TreatedArea));
        if let Some((words, basis)) = on_wall.or(on_part) {
            let area: Area = Quantity::from_parts(1.0, words).ok()?.claim().ok()?;
            return Some((self.mix.rate_on(Some(basis), self.job.stand()).ok()? * area, basis));
        }
        let (count, unit) = words.strip_prefix("100 ").map_or((1.0, words), |unit| (HUNDRED, unit));
        let basis = Quantity::from_parts(count, unit).ok()?;
        match basis.claim::<Area>() {
            Ok(area) => Some((self.mix.rate * area, Basis::GroundArea)),
            Err(_) => basis.claim().ok().map(|volume| (volume, Basis::MixVolume)),
        }
    }
}

/// `ha` of `per ha`.
fn bare(words: &str) -> &str {
    words.strip_prefix("per ").unwrap_or(words)
}

/// `US gal` of `per 100 US gal`.
fn unit_in(words: &str) -> &str {
    let words = bare(words);
    words.strip_prefix("100 ").unwrap_or(words)
}

/// How many times one unit the other is.
fn ratio(unit: &str, of: &str) -> Option<Ratio> {
    Quantity::from_parts(1.0, unit).ok()?.over(Quantity::from_parts(1.0, of).ok()?).ok()?.claim().ok()
}

/// The active substance in a kilogram of product, or in a liter where it is dosed by volume: as the numbers of doses are confused.
fn content(content: SubstanceContent) -> Option<Ratio> {
    match content {
        SubstanceContent::PerVolume(content) => in_kilograms_per_liter(content),
        SubstanceContent::PerMass(content) => MassFraction::from_percent(HUNDRED).ok().map(|whole| content / whole),
    }
}

fn in_kilograms_per_liter(content: Content) -> Option<Ratio> {
    Content::from_grams_per_liter(THOUSAND).ok().map(|whole| content / whole)
}

fn scaled(quantity: Quantity, factor: Ratio) -> Option<Quantity> {
    quantity.times(factor.into()).ok()
}

fn over(share: Share, end: Share) -> Option<Ratio> {
    match (share, end) {
        (Share::Volume(share), Share::Volume(end)) => Some(share / end),
        (Share::Mass(share), Share::Mass(end)) => Some(share / end),
        _ => None,
    }
}
