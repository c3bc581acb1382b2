//! The nozzle check: catches of a boom against a new nozzle and against their mean, and what cannot be told from them.

use alloc::format;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::calibration::side_difference;
use super::nozzle::above_zero;
use super::repeats::{OutlierTest, outlier};
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Force, Limit};
use crate::quantity::{Flow, Ratio, bounded, ordered_sum, positive};
use crate::text;
use crate::uncertainty::{DegreesOfFreedom, Side, Uncertain, customary_coverage};

/// A nozzle beyond this part of the mean is replaced or cleaned. Boom makers' handbooks and county extension bulletins.
const OF_MEAN_PERCENT: f64 = 5.0;
/// A nozzle, or the set, over a new one by more than this is worn. US state examination guidance; EN 13790-1 has the same figure.
const OVER_NEW_PERCENT: f64 = 10.0;
/// The sides of a sprayer may be so far apart. ISO 16122-3, EN 13790-2.
const SIDES_PERCENT: f64 = 10.0;

/// How far nozzles may be off: limits as data, with their source, each a part of what is compared with.
#[derive(Clone, Debug, PartialEq)]
pub struct NozzleLimits {
    /// From the mean of the set, to either side.
    pub of_mean: Limit,
    /// Over a new nozzle.
    pub over_new: Limit,
    /// Between the sides.
    pub sides: Limit,
    /// From a new nozzle, to either side, beyond which an inspection rejects: as the law where the sprayer is used says.
    pub reject: Option<Limit>,
}

impl NozzleLimits {
    /// The advice: 5 % of the mean, 10 % over new; 10 % between the sides. No law.
    #[must_use]
    pub fn advised() -> Self {
        let of = |percent, force, source| Limit::new(Bound::AtMost, Ratio::of_percent(percent), force, source);
        Self {
            of_mean: of(OF_MEAN_PERCENT, Force::Advice, text::source::NOZZLE_OF_MEAN),
            over_new: of(OVER_NEW_PERCENT, Force::Advice, text::source::NOZZLE_OVER_NEW),
            sides: of(SIDES_PERCENT, Force::Standard, text::source::NOZZLE_SIDES),
            reject: None,
        }
    }

    /// States how far from new an inspection allows a nozzle to be, and which law says so.
    ///
    /// # Errors
    ///
    /// At `reject`: [`NotPositive`](ErrorCode::NotPositive).
    pub fn with_reject(mut self, reject: Ratio, law: &str) -> Result<Self, Error> {
        let reject = positive(reject).map_err(|error| error.at("reject"))?;
        self.reject = Some(Limit::new(Bound::AtMost, reject, Force::Law, law));
        Ok(self)
    }
}

text::named! {
    /// A side of the sprayer, seen in the direction of travel.
    BoomSide {
        /// Left.
        Left = "left";
        /// Right.
        Right = "right";
    }
}

/// What was caught from one nozzle: one to many repeats, all at one pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct NozzleCatches {
    name: Arc<str>,
    side: Option<BoomSide>,
    repeats: Vec<Flow>,
}

impl NozzleCatches {
    /// The catches of a nozzle, as flows, by the name or number that it has on the boom.
    ///
    /// # Errors
    ///
    /// At `name`: [`MissingInput`](ErrorCode::MissingInput) for a blank one. At `repeats`: [`MissingInput`](ErrorCode::MissingInput) for none; at
    /// `repeats[i]`: [`NotPositive`](ErrorCode::NotPositive).
    pub fn new(name: &str, repeats: &[Flow]) -> Result<Self, Error> {
        if repeats.is_empty() {
            return Err(Error::new(ErrorCode::MissingInput).at("repeats").allowed(text::word("one or more")));
        }
        for (i, repeat) in repeats.iter().enumerate() {
            positive(*repeat).map_err(|error| error.at(format_args!("repeats[{i}]")))?;
        }
        Ok(Self { name: text::legible_name(name)?, side: None, repeats: repeats.into() })
    }

    /// States its side of the sprayer.
    #[must_use]
    pub const fn on_side(mut self, side: BoomSide) -> Self {
        self.side = Some(side);
        self
    }

    fn count(&self) -> f64 {
        Ratio::of_steps(self.repeats.len() as u64).number()
    }

    fn mean(&self) -> Flow {
        ordered_sum(self.repeats.iter().copied()) / self.count()
    }

    /// Squared deviations from the mean, in parts of it.
    fn squares(&self) -> impl Iterator<Item = Ratio> {
        let mean = self.mean();
        self.repeats.iter().map(move |repeat| {
            let part = (*repeat - mean) / mean;
            part * part
        })
    }
}

/// What a new nozzle gives at the pressure of the catches.
#[derive(Clone, Debug, PartialEq)]
pub enum NewNozzle {
    /// A table or a standard says so. Gauge, clock and jug stand between it and the catches: what is common to all catches is not wear.
    Rated(Uncertain<Flow>),
    /// A new nozzle was caught in the same way, at the same gauge, with the same clock and jug: what they do to all catches cancels.
    Caught(NozzleCatches),
}

text::named! {
    /// What to do about one nozzle.
    #[non_exhaustive]
    NozzleAdvice {
        /// It may stay.
        Keep = "keep";
        /// It gives less than the others: clean it and catch again.
        Clean = "clean";
        /// It gives more than the others, or more than a new one: replace it.
        Replace = "replace";
        /// It is off a table as all of them are: that is gauge, clock or jug, or the set worn as a whole. Catch a new nozzle in the same way to tell.
        SharedBias = "shared-bias";
        /// The catches are not certain enough for the limits: the verdict is withheld. Repeat, or take a better jug.
        CannotTell = "cannot-tell";
    }
}

text::named! {
    /// What to do about the set.
    #[non_exhaustive]
    SetAdvice {
        /// It may stay.
        Keep = "keep";
        /// All are off a table in the same direction: check gauge, clock and jug, and catch a new nozzle in the same way.
        CheckGaugeClockJug = "check-gauge-clock-jug";
        /// See to single nozzles.
        SingleNozzles = "single-nozzles";
        /// The mean is over new by more than the limit, or two nozzles or more are to be replaced: replace all of them.
        ReplaceSet = "replace-set";
        /// The verdict is withheld for one nozzle or more.
        CannotTell = "cannot-tell";
    }
}

/// What a check says of one nozzle. Differences are parts of what is compared with: 0.05 is 5 % more.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct CheckedNozzle {
    /// Its name.
    pub name: Arc<str>,
    /// Its flow.
    pub flow: Uncertain<Flow>,
    /// How far it is from the mean of the set.
    pub of_mean: Uncertain<Ratio>,
    /// How far it is from a new nozzle.
    pub of_new: Uncertain<Ratio>,
    /// What to do.
    pub advice: NozzleAdvice,
    /// Whether an inspection would reject it; none where no law was stated.
    pub rejected: Option<Side>,
    /// Whether one of its repeats is an outlier; none for fewer than two.
    pub outlier: Option<OutlierTest>,
}

/// What a check says.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct CheckedSet {
    /// Each nozzle, in the order of the catches.
    pub nozzles: Vec<CheckedNozzle>,
    /// The mean flow.
    pub mean: Uncertain<Flow>,
    /// How far the mean is from a new nozzle.
    pub of_new: Uncertain<Ratio>,
    /// The part of it that all nozzles have: the difference of the one that is nearest to new, where all differ in one direction.
    pub shared: Option<Uncertain<Ratio>>,
    /// Standard deviation of one catch, as a part of it: of all repeats together, or as stated.
    pub repeatability: Ratio,
    /// Whether one nozzle is an outlier among them; none for fewer than two.
    pub outlier: Option<OutlierTest>,
    /// How far left and right are apart, and whether that is over the limit; none unless both sides are stated.
    pub sides: Option<(Uncertain<Ratio>, Side)>,
    /// What to do.
    pub advice: SetAdvice,
}

/// A check of the nozzles of a sprayer.
///
/// # Example
///
/// Four nozzles, each caught three times to within 1 %, against a rated flow of 1.2 L/min: one gives 12 % more.
///
/// ```
/// use mixcalc::{Flow, NewNozzle, NozzleAdvice, NozzleCatches, NozzleCheck, SetAdvice, Uncertain};
///
/// let rated = Uncertain::exact(Flow::read("1.2 L/min")?)?;
/// let catches = [("1", 1.21), ("2", 1.20), ("3", 1.345), ("4", 1.205)].map(|(name, flow)| {
///     let repeats = [flow - 0.003, flow, flow + 0.003].map(Flow::from_liters_per_minute);
///     NozzleCatches::new(name, &repeats.map(|flow| flow.unwrap_or(Flow::ZERO)))
/// });
/// let catches: Vec<_> = catches.into_iter().collect::<Result<_, _>>()?;
/// let set = NozzleCheck::new(NewNozzle::Rated(rated)).judge(&catches)?;
/// assert_eq!(set.nozzles[2].advice, NozzleAdvice::Replace);
/// assert_eq!(set.advice, SetAdvice::SingleNozzles);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Limits: see [`NozzleLimits`]. Verdicts from intervals: JCGM 106:2012, 8.3. One repeatability for all nozzles: ISO 5725-2:1994, 7.4.
#[derive(Clone, Debug, PartialEq)]
pub struct NozzleCheck {
    new: NewNozzle,
    common: Option<Uncertain<Ratio>>,
    repeatability: Option<Ratio>,
    limits: NozzleLimits,
    coverage: Ratio,
    risk: Ratio,
}

/// Most nozzles of one check: each is held against the mean, which depends on all of them, so that the work grows with the square. No boom has
/// as many.
pub(crate) const MOST_NOZZLES: usize = 1000;

/// What is said of more of them.
pub(crate) fn too_many_nozzles(count: usize) -> Error {
    let error = Error::new(ErrorCode::OutOfRange).at("catches").given(count);
    error.allowed(format_args!("{} {MOST_NOZZLES}", text::word("at most")))
}

/// Risk of the tests for outliers: custom.
const RISK_PERCENT: f64 = 5.0;

impl NozzleCheck {
    /// A check against a new nozzle, with the limits advised, and verdicts from intervals of 95 %.
    #[must_use]
    pub fn new(new: NewNozzle) -> Self {
        Self {
            new,
            common: None,
            repeatability: None,
            limits: NozzleLimits::advised(),
            coverage: customary_coverage(),
            risk: Ratio::of_percent(RISK_PERCENT),
        }
    }

    /// States what all catches share, as a factor of about one: jug, clock, gauge. It cancels between nozzles.
    ///
    /// # Errors
    ///
    /// At `common`: [`NotPositive`](ErrorCode::NotPositive).
    pub fn with_common(mut self, common: &Uncertain<Ratio>) -> Result<Self, Error> {
        self.common = Some(above_zero(common, "common")?.clone());
        Ok(self)
    }

    /// States the standard deviation of one catch as a part of it, known from earlier work: for single catches, of which no spread shows.
    ///
    /// # Errors
    ///
    /// At `repeatability`: [`NotPositive`](ErrorCode::NotPositive).
    pub fn with_repeatability(mut self, repeatability: Ratio) -> Result<Self, Error> {
        self.repeatability = Some(positive(repeatability).map_err(|error| error.at("repeatability"))?);
        Ok(self)
    }

    /// States other limits.
    #[must_use]
    pub fn with_limits(mut self, limits: NozzleLimits) -> Self {
        self.limits = limits;
        self
    }

    /// Judges the catches.
    ///
    /// Repeats of all nozzles together give one repeatability; where no nozzle has two, it must be stated.
    ///
    /// # Errors
    ///
    /// At `catches`: [`MissingInput`](ErrorCode::MissingInput) for none, [`OutOfRange`](ErrorCode::OutOfRange) for over 1000, [`DuplicateName`](ErrorCode::DuplicateName) for two nozzles of one name. At
    /// `repeatability`: [`MissingInput`](ErrorCode::MissingInput). At `limits`: [`WrongQuantity`](ErrorCode::WrongQuantity) for a limit that is no ratio.
    pub fn judge(&self, catches: &[NozzleCatches]) -> Result<CheckedSet, Error> {
        if catches.is_empty() {
            return Err(Error::new(ErrorCode::MissingInput).at("catches").allowed(text::word("one or more")));
        }
        if catches.len() > MOST_NOZZLES {
            return Err(too_many_nozzles(catches.len()));
        }
        for (i, nozzle) in catches.iter().enumerate() {
            if catches.iter().take(i).any(|other| other.name == nozzle.name) {
                let error = Error::new(ErrorCode::DuplicateName).at(format_args!("catches[{i}].name"));
                return Err(error.given(text::quoted(&nozzle.name)));
            }
        }
        let spread = self.spread(catches)?;
        let flow = |prefix: &str, nozzle: &NozzleCatches| self.flow(prefix, nozzle, spread);
        let flows: Vec<_> = catches.iter().map(|nozzle| flow("nozzle", nozzle)).collect::<Result<_, _>>()?;
        let new = match &self.new {
            NewNozzle::Rated(rated) => above_zero(rated, "new")?.clone(),
            NewNozzle::Caught(caught) => flow("new nozzle", caught)?,
        };
        let mean = Uncertain::mean(&flows)?;
        let one = Uncertain::exact(Ratio::one())?;
        let from = |flow: &Uncertain<Flow>, of: &Uncertain<Flow>| flow.over::<_, Ratio>(of)?.minus(&one);
        let of_new: Vec<_> = flows.iter().map(|flow| from(flow, &new)).collect::<Result<_, _>>()?;
        let shared = shared(&of_new);
        let is_shared = match (&shared, &self.new) {
            (Some(shared), NewNozzle::Rated(_)) => self.beyond(shared, &self.limits.of_mean)? == Beyond::Yes,
            _ => false,
        };

        let mut nozzles = Vec::with_capacity(catches.len());
        for ((nozzle, flow), of_new) in catches.iter().zip(&flows).zip(of_new) {
            let of_mean = from(flow, &mean)?;
            nozzles.push(CheckedNozzle {
                name: Arc::clone(&nozzle.name),
                flow: flow.clone(),
                advice: self.advice(&of_mean, &of_new, is_shared)?,
                rejected: self.limits.reject.as_ref().map(|limit| self.rejected(&of_new, limit)).transpose()?,
                outlier: (nozzle.repeats.len() > 1).then(|| outlier(&nozzle.repeats, self.risk)).transpose()?,
                of_mean,
                of_new,
            });
        }
        let of_new = from(&mean, &new)?;
        let advice = self.set_advice(&nozzles, &of_new, is_shared)?;
        let means: Vec<Flow> = catches.iter().map(NozzleCatches::mean).collect();
        let outlier = (means.len() > 1).then(|| outlier(&means, self.risk)).transpose()?;
        let sides = self.sides(catches, &flows)?;
        Ok(CheckedSet { nozzles, mean, of_new, shared, repeatability: spread.0, outlier, sides, advice })
    }

    /// Standard deviation of one catch, as a part of it, and its degrees of freedom.
    fn spread(&self, catches: &[NozzleCatches]) -> Result<(Ratio, DegreesOfFreedom), Error> {
        let caught = match &self.new {
            NewNozzle::Caught(caught) => Some(caught),
            NewNozzle::Rated(_) => None,
        };
        let all = || catches.iter().chain(caught);
        let degrees: usize = all().map(|nozzle| nozzle.repeats.len() - 1).sum();
        if degrees == 0 {
            let missing = || {
                Error::new(ErrorCode::MissingInput)
                    .at("repeatability")
                    .allowed(text::word("two repeats of a nozzle, or a repeatability"))
            };
            return Ok((self.repeatability.ok_or_else(missing)?, DegreesOfFreedom::INFINITE));
        }
        let degrees = Ratio::of_steps(degrees as u64);
        let variance = ordered_sum(all().flat_map(NozzleCatches::squares)) / degrees;
        Ok((Ratio::one() * libm::sqrt(variance.number()), DegreesOfFreedom::new(degrees)?))
    }

    fn flow(
        &self,
        prefix: &str,
        nozzle: &NozzleCatches,
        (spread, degrees): (Ratio, DegreesOfFreedom),
    ) -> Result<Uncertain<Flow>, Error> {
        let (mean, name) = (nozzle.mean(), format!("{prefix} {}", nozzle.name));
        let u = bounded(mean * spread / libm::sqrt(nozzle.count()))?;
        let flow = Uncertain::from_spread(&name, mean, u, "repeatability", degrees)?;
        match &self.common {
            Some(common) => flow.times(common),
            None => Ok(flow),
        }
    }

    fn beyond(&self, difference: &Uncertain<Ratio>, limit: &Limit) -> Result<Beyond, Error> {
        let limit = part(limit)?;
        let opposite = Uncertain::exact(Ratio::ZERO)?.minus(difference)?;
        Ok(match (difference.side_of(limit, self.coverage)?, opposite.side_of(limit, self.coverage)?) {
            (Side::Under, Side::Under) => Beyond::No,
            (Side::Over, _) | (_, Side::Over) => Beyond::Yes,
            _ => Beyond::CannotTell,
        })
    }

    fn rejected(&self, of_new: &Uncertain<Ratio>, limit: &Limit) -> Result<Side, Error> {
        Ok(match self.beyond(of_new, limit)? {
            Beyond::Yes => Side::Over,
            Beyond::No => Side::Under,
            Beyond::CannotTell => Side::CannotTell,
        })
    }

    fn advice(
        &self,
        of_mean: &Uncertain<Ratio>,
        of_new: &Uncertain<Ratio>,
        is_shared: bool,
    ) -> Result<NozzleAdvice, Error> {
        let over_new = of_new.side_of(part(&self.limits.over_new)?, self.coverage)?;
        Ok(match (self.beyond(of_mean, &self.limits.of_mean)?, over_new) {
            (Beyond::Yes, _) if of_mean.value() < Ratio::ZERO => NozzleAdvice::Clean,
            (Beyond::Yes, _) => NozzleAdvice::Replace,
            (Beyond::CannotTell, _) => NozzleAdvice::CannotTell,
            (Beyond::No, _) if is_shared => NozzleAdvice::SharedBias,
            (Beyond::No, Side::Over) => NozzleAdvice::Replace,
            (Beyond::No, Side::CannotTell) => NozzleAdvice::CannotTell,
            (Beyond::No, Side::Under) => NozzleAdvice::Keep,
        })
    }

    fn set_advice(
        &self,
        nozzles: &[CheckedNozzle],
        of_new: &Uncertain<Ratio>,
        is_shared: bool,
    ) -> Result<SetAdvice, Error> {
        let count = |advice| nozzles.iter().filter(|nozzle| nozzle.advice == advice).count();
        let over_new = of_new.side_of(part(&self.limits.over_new)?, self.coverage)?;
        let to_replace = count(NozzleAdvice::Replace);
        Ok(if is_shared {
            SetAdvice::CheckGaugeClockJug
        } else if over_new == Side::Over || to_replace > 1 {
            SetAdvice::ReplaceSet
        } else if count(NozzleAdvice::CannotTell) > 0 {
            SetAdvice::CannotTell
        } else if to_replace + count(NozzleAdvice::Clean) > 0 {
            SetAdvice::SingleNozzles
        } else {
            SetAdvice::Keep
        })
    }

    fn sides(
        &self,
        catches: &[NozzleCatches],
        flows: &[Uncertain<Flow>],
    ) -> Result<Option<(Uncertain<Ratio>, Side)>, Error> {
        let of = |side| -> Vec<Uncertain<Flow>> {
            let all = catches.iter().zip(flows).filter(|(nozzle, _)| nozzle.side == Some(side));
            all.map(|(_, flow)| flow.clone()).collect()
        };
        let (left, right) = (of(BoomSide::Left), of(BoomSide::Right));
        if left.is_empty() || right.is_empty() {
            return Ok(None);
        }
        let apart = side_difference(&Uncertain::sum(&left)?, &Uncertain::sum(&right)?)?;
        let side = self.rejected(&apart, &self.limits.sides)?;
        Ok(Some((apart, side)))
    }
}

/// The value of a limit, which is a part of what is compared with.
fn part(limit: &Limit) -> Result<Ratio, Error> {
    limit.value.claim().map_err(|error| error.at("limits"))
}

/// Whether a difference is beyond a limit to either side.
#[derive(Clone, Copy, PartialEq)]
enum Beyond {
    Yes,
    No,
    CannotTell,
}

/// The least difference in magnitude, where all are to one side.
fn shared(differences: &[Uncertain<Ratio>]) -> Option<Uncertain<Ratio>> {
    let size = |difference: &Uncertain<Ratio>| libm::fabs(difference.value().number());
    let all = |is_to: fn(Ratio) -> bool| differences.iter().all(|difference| is_to(difference.value()));
    let one_sided = all(|value| value > Ratio::ZERO) || all(|value| value < Ratio::ZERO);
    let least = differences.iter().min_by(|a, b| size(a).total_cmp(&size(b)));
    least.filter(|_| one_sided).cloned()
}
