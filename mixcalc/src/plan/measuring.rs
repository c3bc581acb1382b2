//! Amounts that are hard to measure: how uncertain they are, and what would help. Nothing here changes an amount.

use alloc::string::String;
use alloc::vec::Vec;

use super::recipe::{self, Wanted};
use super::{Job, Load, MeasuredAmount, Plan, Portion, loads, steps};
use crate::finding::{Finding, FindingCode, Severity};
use crate::label::{Product, State};
use crate::measure::{Amount, Measure, MeasureClass, MeasureKind, cylinders};
use crate::quantity::close::{is_close, is_over, is_under, steps_down};
use crate::quantity::{Area, Mass, Quantity, Ratio, System, Volume};
use crate::text::{self, measuring as words};
use crate::uncertainty::{magnitude, root_of_squares};

/// The most that an amount may be uncertain, as a part of it, without a caution.
const MOST_UNCERTAIN_PERCENT: f64 = 5.0;
/// How many times the amount a premix is made with, the least that does is taken.
const PREMIX_TIMES: [u64; 8] = [2, 3, 4, 5, 10, 20, 50, 100];
/// Sizes of loads that are tried, and told.
const MOST_TRIED: u64 = 100;
const MOST_TOLD: usize = 3;
/// A premix with its product, in parts of its carrier: three to two.
const WITH_PRODUCT: f64 = 1.5;
/// Measures that a premix is tried with.
const MOST_MEASURES: usize = 10;
/// Products times measures times sizes that are tried, so that a job of a thousand products costs no more than it must.
const MOST_WORK: usize = 200_000;
/// Steps of scales that are to be had: from 0.01 g on, one, two and five of each power of ten.
const SCALE_STEPS: [f64; 3] = [1.0, 2.0, 5.0];
const SCALE_POWERS: [f64; 5] = [0.01, 0.1, 1.0, 10.0, 100.0];
/// Steps that such a scale has; what is weighed is then under its capacity.
const SCALE_CAPACITY: u64 = 1000;

/// The most that an amount may be uncertain without a caution: 5 % of it.
pub(super) fn most_uncertain() -> Ratio {
    Ratio::of_percent(MOST_UNCERTAIN_PERCENT)
}

/// A size of loads with which every amount can be measured.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadSize {
    mix: Volume,
    count: u64,
    rest: Volume,
    gap: Ratio,
    amount: Amount,
    rest_amount: Option<Amount>,
    dose: Quantity,
    uncertainty: Option<Ratio>,
}

impl LoadSize {
    /// Volume of mix in each of these loads.
    #[must_use]
    pub const fn mix(&self) -> Volume {
        self.mix
    }

    /// How many of them.
    #[must_use]
    pub const fn count(&self) -> u64 {
        self.count
    }

    /// Volume of mix in the load after them; none where they make the whole.
    #[must_use]
    pub fn rest(&self) -> Option<Volume> {
        (self.rest > Volume::ZERO).then_some(self.rest)
    }

    /// The amount that is measured into each of them, of the product that is hard to measure.
    #[must_use]
    pub const fn amount(&self) -> Amount {
        self.amount
    }

    /// The amount in the load after them.
    #[must_use]
    pub const fn rest_amount(&self) -> Option<Amount> {
        self.rest_amount
    }

    /// The dose that this makes in each of them, per ground area.
    #[must_use]
    pub const fn dose(&self) -> Quantity {
        self.dose
    }

    /// How uncertain the amount is, where its measure says so.
    #[must_use]
    pub const fn uncertainty(&self) -> Option<Ratio> {
        self.uncertainty
    }
}

/// A mix that is measured twice: more of the product into so much carrier, and of that the part that is wanted.
struct Premix<'job> {
    measure: &'job Measure,
    graduations: u64,
    vessel: &'job Measure,
    aliquot_in: &'job Measure,
    aliquot: u64,
    uncertainty: Ratio,
}

impl MeasuredAmount<'_> {
    /// How uncertain it is as a part of itself, by what its measure may be off and is read to: the expanded uncertainty with a coverage
    /// factor of 2. `None` where the measure states neither class nor tolerance.
    #[must_use]
    pub fn uncertainty(&self) -> Option<Ratio> {
        self.measure().uncertainty(self.graduations())
    }

    /// The same as an amount.
    #[must_use]
    pub fn uncertain_amount(&self) -> Option<Amount> {
        self.uncertainty().map(|uncertainty| self.measured().times(uncertainty))
    }
}

impl Plan {
    /// How uncertain the mix in each load of a run is, as a part of it, where it is read on the tank's scale (coverage factor 2): by the check of
    /// that, or by what the scale of a new tank may be off. `None` where no mark is reached.
    ///
    /// # Source
    ///
    /// [`Tank::uncertainty`](crate::Tank::uncertainty).
    #[must_use]
    pub fn mix_uncertainty(&self, load: &Load) -> Option<Ratio> {
        let tank = self.job.tank();
        tank.mark_below(load.mix()).filter(|mark| mark.written > Volume::ZERO)?;
        tank.uncertainty(load.mix())
    }

    /// The same as a volume.
    #[must_use]
    pub fn uncertain_mix(&self, load: &Load) -> Option<Volume> {
        Some(load.mix() * self.mix_uncertainty(load)?)
    }

    /// Sizes of loads with which every amount can be measured, where one is hard to measure: on the tank's marks where it has any, and the nearest
    /// to the plan's own first. Those whose amount falls on a mark of its measure stand before the others.
    ///
    /// None where nothing is hard to measure, where no size does, and where a stop stands.
    #[must_use]
    pub fn load_sizes(&self) -> Vec<LoadSize> {
        let hard = |finding: &&Finding| is_hard(finding);
        let first = self.findings.iter().filter(hard).find_map(|finding| self.product_of(finding));
        match first.filter(|_| self.usable()) {
            Some(product) => self.load_sizes_for(product),
            None => Vec::new(),
        }
    }

    fn product_of(&self, finding: &Finding) -> Option<usize> {
        self.job.products().iter().position(|product| product.name() == finding.subject)
    }

    /// Whether no stop stands but on amounts below a graduation: nobody is told how to measure what a label forbids.
    fn may_be_helped(&self) -> bool {
        let stops = self.findings.iter().filter(|finding| finding.severity() == Severity::Stop);
        stops.into_iter().all(|finding| finding.code() == FindingCode::AmountBelowGraduation)
    }

    /// Adds to each finding on an amount that is hard to measure what would help.
    pub(super) fn add_help(&mut self) {
        if !self.may_be_helped() || !self.findings.iter().any(|finding| is_hard(&finding)) {
            return;
        }
        let help: Vec<Vec<String>> = self.findings.iter().map(|finding| self.help(finding)).collect();
        for (finding, help) in self.findings.iter_mut().zip(help) {
            finding.help = help;
        }
    }

    fn help(&self, finding: &Finding) -> Vec<String> {
        let found = || {
            let index = self.product_of(finding).filter(|_| is_hard(&finding))?;
            let load = self.loads.iter().find(|load| Some(load.first) == finding.load())?;
            Some((index, self.job.products().get(index)?, load, load.portions.get(index)?))
        };
        let Some((index, product, load, portion)) = found() else { return Vec::new() };
        let wanted = Wanted { product, exact: portion.exact, ceiling: portion.ceiling };
        let mut help = Vec::new();
        match self.finer_at_hand(&wanted, portion) {
            Some((measure, uncertainty)) => help.push(text::filled(
                words::AT_HAND,
                &[("measure", &text::legible(measure.name())), ("uncertainty", &uncertainty)],
            )),
            None => help.extend(self.finer(&wanted)),
        }
        // A plan with a stop has nothing to measure from; that a finer measure would do is no instruction.
        if !self.usable() {
            return help;
        }
        if let Some(premix) = self.premix(index, load, &wanted, portion) {
            let shown = |measure: &Measure, graduations| measure.reading(measure.shows(graduations));
            help.push(text::filled(
                words::PREMIX,
                &[
                    ("amount", &shown(premix.measure, premix.graduations)),
                    ("measure", &text::legible(premix.measure.name())),
                    ("whole", &shown(premix.vessel, full(premix.vessel))),
                    ("vessel", &text::legible(premix.vessel.name())),
                    ("aliquot", &shown(premix.aliquot_in, premix.aliquot)),
                    ("in", &text::legible(premix.aliquot_in.name())),
                    ("uncertainty", &percent(premix.uncertainty)),
                ],
            ));
        }
        help.extend(self.load_sizes_for(index).iter().map(|size| self.says(size)));
        help
    }

    fn says(&self, size: &LoadSize) -> String {
        let people = |quantity: Quantity| quantity.to_people(self.job.units());
        let rest = size.rest().zip(size.rest_amount()).map_or_else(String::new, |(rest, amount)| {
            text::filled(words::REST, &[("mix", &people(rest.into())), ("amount", &people(amount.into()))])
        });
        let to = size
            .uncertainty()
            .map_or_else(String::new, |uncertainty| text::filled(words::TO, &[("uncertainty", &percent(uncertainty))]));
        text::filled(
            words::LOADS,
            &[
                ("count", &size.count),
                ("mix", &people(size.mix.into())),
                ("amount", &people(size.amount.into())),
                ("to", &to),
                ("rest", &rest),
                ("dose", &people(size.dose)),
            ],
        )
    }

    /// The measure at hand that measures an amount best, where it does well enough.
    fn finer_at_hand(&self, wanted: &Wanted<'_>, portion: &Portion) -> Option<(&Measure, String)> {
        let others =
            self.job.measures().iter().enumerate().filter(|(i, _)| portion.choice != recipe::Choice::Listed(*i));
        let serving = others.filter_map(|(_, measure)| Some((measure, self.served(wanted, measure)?)));
        let best = serving.reduce(|best, other| if is_under(other.1, best.1) { other } else { best });
        best.map(|(measure, uncertainty)| (measure, percent(uncertainty)))
    }

    /// How uncertain an amount is with a measure, where that does well enough.
    fn served(&self, wanted: &Wanted<'_>, measure: &Measure) -> Option<Ratio> {
        let (exact, _) = wanted.brought_to(measure)?;
        let uncertainty = measure.uncertainty(wanted.graduations(measure).ok()??)?;
        let serves = measure.fillings_for(exact) <= self.job.loading().max_fillings()
            && !recipe::is_coarse(measure, exact)
            && !is_over(uncertainty, most_uncertain());
        serves.then_some(uncertainty)
    }

    /// The smallest cylinder of the standard, or the coarsest scale, that would do.
    fn finer(&self, wanted: &Wanted<'_>) -> Option<String> {
        let says = |template, measure: &Measure, uncertainty| {
            let [capacity, graduation] =
                [measure.capacity(), measure.graduation()].map(|amount| measure.reading(amount));
            text::filled(
                template,
                &[("capacity", &capacity), ("graduation", &graduation), ("uncertainty", &percent(uncertainty))],
            )
        };
        if wanted.product.state() != State::Dry {
            let cylinder = cylinders().find_map(|measure| Some((self.served(wanted, &measure)?, measure)));
            if let Some((uncertainty, cylinder)) = cylinder {
                return Some(says(words::CYLINDER, &cylinder, uncertainty));
            }
        }
        let scale = scales().find_map(|measure| Some((self.served(wanted, &measure)?, measure)));
        scale.map(|(uncertainty, scale)| says(words::SCALE, &scale, uncertainty))
    }

    /// The smallest premix of which the part that is wanted can be measured well enough.
    fn premix<'plan>(
        &'plan self,
        index: usize,
        load: &Load,
        wanted: &Wanted<'plan>,
        portion: &Portion,
    ) -> Option<Premix<'plan>> {
        let most_fillings = self.job.loading().max_fillings();
        let measures = || portion.choice.measure(&self.job, index).into_iter().chain(self.job.measures());
        let with = || measures().filter(|measure| measure.kind() != MeasureKind::Pack).take(MOST_MEASURES);
        let vessels = || measures().filter(|measure| measure.kind() == MeasureKind::Vessel).take(MOST_MEASURES);
        let taken = |times: &u64, measure: &Measure| {
            let more = |amount: Amount| amount.times(Ratio::of_steps(*times));
            let more = Wanted { exact: more(wanted.exact), ceiling: more(wanted.ceiling), ..*wanted };
            let graduations = more.graduations(measure).ok()??;
            let (exact, _) = more.brought_to(measure)?;
            let uncertainty = measure.uncertainty(graduations)?;
            (measure.fillings_for(exact) <= most_fillings).then_some((graduations, uncertainty))
        };
        let aliquot = |amount: Amount, doubt: Ratio, vessel: &Measure, of: &Measure| {
            let whole = vessel.shows(full(vessel));
            let part = |wanted: Amount| wanted.over(amount).map(|part| whole.times(part));
            let graduations = of.graduations(part(wanted.exact)?, part(wanted.ceiling)?).ok()??;
            let (Amount::Volume(volume), Amount::Volume(poured)) = (whole, of.shows(graduations)) else { return None };
            let doubts = [doubt, vessel.uncertainty(full(vessel))?, of.uncertainty(graduations)?];
            let uncertainty = root_of_squares(doubts.into_iter());
            let fits = !is_over(steps::premix(amount) * WITH_PRODUCT, volume)
                && !is_over(poured + poured, load.mix)
                && of.fillings_for(of.shows(graduations)) <= most_fillings;
            (fits && !is_over(uncertainty, most_uncertain())).then_some((graduations, uncertainty))
        };
        PREMIX_TIMES.iter().find_map(|times| {
            with().find_map(|measure| {
                let (graduations, doubt) = taken(times, measure)?;
                let amount = wanted.product.brought_back(measure.shows(graduations));
                vessels().find_map(|vessel| {
                    vessels().find_map(|aliquot_in| {
                        let (aliquot, uncertainty) = aliquot(amount, doubt, vessel, aliquot_in)?;
                        Some(Premix { measure, graduations, vessel, aliquot_in, aliquot, uncertainty })
                    })
                })
            })
        })
    }

    /// The sizes of loads that would make an amount measurable, the nearest to the plan's own first.
    fn load_sizes_for(&self, index: usize) -> Vec<LoadSize> {
        let (Some(first), Some((share, _))) = (self.loads.first(), self.mix.shares.get(index)) else {
            return Vec::new();
        };
        // A load that tops up what the tank holds is of one size only.
        if first.held().is_some() {
            return Vec::new();
        }
        let tried = MOST_WORK / (self.job.products().len() * self.job.measures().len().max(1)).max(1);
        let tried = u64::try_from(tried).unwrap_or(MOST_TRIED).clamp(1, MOST_TRIED);
        let most = self.safe_fill.min(self.made());
        // A step of the tank, or what one graduation of the amount goes with.
        let on_measure = || {
            let measure = first.portions.get(index)?.choice.measure(&self.job, index)?;
            let step = self.job.products().get(index)?.brought_back(measure.graduation());
            Some(Volume::from_liters(1.0).ok()? * step.over(share.of(Volume::from_liters(1.0).ok()?))?)
        };
        let tank = self.job.tank();
        let step = on_measure().filter(|_| tank.graduation().is_none());
        let marks = step.map_or_else(|| tank.marks_up_to(most), |step| steps_down(most / step)).unwrap_or(0);
        let size = |number| match step {
            Some(step) => Some(step * Ratio::of_steps(number)),
            None => tank.mark(number).map(|mark| mark.holds),
        };
        let sizes = (0..tried.min(marks)).filter_map(|less| size(marks - less));
        let mut sizes: Vec<(bool, Volume, LoadSize)> = sizes
            .filter(|size| !is_close(*size, first.mix))
            .filter_map(|size| self.sized(index, size))
            .map(|size| (!is_close(size.gap + Ratio::one(), Ratio::one()), magnitude(size.mix - first.mix), size))
            .collect();
        sizes.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.partial_cmp(&b.1).unwrap_or(core::cmp::Ordering::Equal)));
        sizes.into_iter().take(MOST_TOLD).map(|(_, _, size)| size).collect()
    }

    /// Loads of one size and what is left, where every amount in them can be measured.
    fn sized(&self, index: usize, mix: Volume) -> Option<LoadSize> {
        let job = &self.held;
        let (count, rest) = loads::full_and_part_load(self.made(), mix).ok()?;
        let least = job.tank().least_working_volume().unwrap_or(Volume::ZERO);
        let portions = self.measurable(mix, None)?;
        let rests = if rest > Volume::ZERO { Some(self.measurable(rest, Some(&portions))?) } else { None };
        if count == 0 || is_under(mix, least) || rests.is_some() && is_under(rest, least) {
            return None;
        }
        let product = job.products().get(index)?;
        let of = |portions: &[Portion]| measured(job, product, index, portions);
        let (amount, uncertainty) = of(&portions)?;
        let exact = portions.get(index)?.exact;
        let area: Area = mix / self.mix.ground_rate * job.ground().passes();
        Some(LoadSize {
            mix,
            count,
            rest,
            gap: super::gap(exact, amount),
            amount,
            rest_amount: match rests {
                Some(portions) => Some(of(&portions)?.0),
                None => None,
            },
            dose: super::per_area(amount, area),
            uncertainty,
        })
    }

    /// What goes into a load of a size, where all of it can be measured and its steps can be laid out.
    fn measurable(&self, mix: Volume, first: Option<&[Portion]>) -> Option<Vec<Portion>> {
        let job = &self.held;
        let mut portions = recipe::portions(job, &self.mix, mix, None, first).ok()?;
        recipe::hold_to_carrier(job, mix, None, &mut portions);
        for (index, (product, portion)) in job.products().iter().zip(&portions).enumerate() {
            let measure = portion.choice.measure(job, index)?;
            let graduations = portion.measured?.graduations;
            let does = match measure.uncertainty(graduations) {
                Some(uncertainty) => !is_over(uncertainty, most_uncertain()),
                None => !recipe::is_coarse(measure, product.brought_to(measure, portion.exact)?),
            };
            if !does {
                return None;
            }
        }
        let carrier = steps::carrier(job, mix, &portions);
        steps::steps(job, None, (mix, Volume::ZERO, carrier), &portions, &[]).is_ok().then_some(portions)
    }
}

/// A product's amount of a load, and how uncertain it is.
fn measured(job: &Job, product: &Product, index: usize, portions: &[Portion]) -> Option<(Amount, Option<Ratio>)> {
    let measured = portions.get(index)?.measured?;
    let measure = measured.choice.measure(job, index)?;
    Some((product.brought_back(measure.shows(measured.graduations)), measure.uncertainty(measured.graduations)))
}

fn is_hard(finding: &&Finding) -> bool {
    matches!(finding.code(), FindingCode::AmountHardToMeasure | FindingCode::AmountBelowGraduation)
}

/// The graduations of a full measure.
fn full(measure: &Measure) -> u64 {
    measure.capacity().over(measure.graduation()).and_then(steps_down).unwrap_or(0)
}

fn percent(uncertainty: Ratio) -> String {
    Quantity::from(uncertainty).to_people(System::Metric)
}

/// Scales, the coarsest first.
fn scales() -> impl Iterator<Item = Measure> {
    let steps = SCALE_POWERS.iter().rev().flat_map(|power| SCALE_STEPS.iter().rev().map(move |step| power * step));
    steps.filter_map(|step| {
        let step = Mass::from_grams(step).ok()?;
        let scale = Measure::scale(step * Ratio::of_steps(SCALE_CAPACITY), step).ok()?;
        scale.marked_in("g").ok()?.with_class(MeasureClass::Scale).ok()
    })
}
