//! Rinsing: how much of the first mix is left after portions of water, the water that a wanted share takes, and the ground that the rinse water
//! covers.
//!
//! Shares are of the concentration of the first mix, and are the same for every product in it. Every portion is taken to mix with all that rinsing
//! reaches; films in hoses, filters and valves mix worse than that, so that a share is the least that can be hoped for.

use alloc::format;
use alloc::vec::Vec;

use super::{Residual, RinseMeasure, course_length};
use crate::error::{Error, ErrorCode};
use crate::quantity::checks::{Checks, answered};
use crate::quantity::close::{is_over, is_under};
use crate::quantity::{Area, Length, Ratio, Volume, VolumeRate, not_negative, ordered_sum, positive};
use crate::text;

/// Most portions of one rinsing. More of them are hardly better than rinsing without a break.
const MOST_PORTIONS: u64 = 100;

/// The share of the first concentration that is left after equal portions of rinse water, each sprayed out down to the same residual:
/// `(r / (r + W / n))^n`.
///
/// * `residual` (r): what stays in the sprayer and mixes with the water. A vessel, too: what clings to it.
/// * `water` (W): all of the rinse water.
/// * `portions` (n): how many equal parts it is used in, 1 to 100.
///
/// # Errors
///
/// At `residual`: [`NotPositive`](ErrorCode::NotPositive). [`OutOfRange`](ErrorCode::OutOfRange) for other `portions`, for `water` below zero, and for a size
/// that nobody measures.
///
/// # Example
///
/// Ten residuals of water in three portions: (3 / 13)^3 = 1.23 %. All at once they leave 1 / 11 = 9.1 %.
///
/// ```
/// use mixcalc::{Volume, share_after_rinsing};
///
/// let [residual, water] = [Volume::read("5 L")?, Volume::read("50 L")?];
/// assert!((share_after_rinsing(residual, water, 3)?.percent() - 1.229).abs() < 5e-4);
/// assert!((share_after_rinsing(residual, water, 1)?.percent() - 9.091).abs() < 5e-4);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Conservation of mass with perfect mixing; `docs/numbers.md`, section 26.
pub fn share_after_rinsing(residual: Volume, water: Volume, portions: u64) -> Result<Ratio, Error> {
    let portions = counted("portions", portions)?;
    let residuals = answered(|checks| checks.factor(water, "water") / checks.divisor(residual, "residual"))?;
    Ok(Ratio::one() * libm::exp(-portions * libm::log1p(residuals.number() / portions)))
}

/// The share of the first concentration that is left where water runs in as fast as the sprayer sprays it out: `e^(-W / r)`. It is what
/// [`share_after_rinsing`] comes to with ever more portions, and its least.
///
/// * `residual` (r), `water` (W): as there.
///
/// # Errors
///
/// As there.
///
/// # Example
///
/// Five residuals: e^-5 = 0.67 %.
///
/// ```
/// use mixcalc::{Volume, share_after_continuous_rinsing};
///
/// let share = share_after_continuous_rinsing(Volume::read("4 L")?, Volume::read("20 L")?)?;
/// assert!((share.percent() - 0.674).abs() < 5e-4);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// As there, with a hold-up that stays the same.
pub fn share_after_continuous_rinsing(residual: Volume, water: Volume) -> Result<Ratio, Error> {
    let residuals = answered(|checks| checks.factor(water, "water") / checks.divisor(residual, "residual"))?;
    Ok(Ratio::one() * libm::exp(-residuals.number()))
}

/// The rinse water that brings the concentration down to a share of the first in equal portions: `n r (F^(1/n) - 1)`, where `F` is one over the share.
///
/// * `residual` (r), `portions` (n): as in [`share_after_rinsing`].
/// * `share`: wanted, such as 1 %.
///
/// # Errors
///
/// At `residual`: [`NotPositive`](ErrorCode::NotPositive). [`OutOfRange`](ErrorCode::OutOfRange) for a `share` that is not above 0 and at most 1, for `portions`
/// other than 1 to 100, and for a size that nobody measures.
///
/// # Example
///
/// 1 % in three portions: 3 x 5 L x (100^(1/3) - 1) = 54.6 L.
///
/// ```
/// use mixcalc::{Ratio, Volume, rinse_water};
///
/// let water = rinse_water(Volume::read("5 L")?, Ratio::from_percent(1.0)?, 3)?;
/// assert!((water.liters() - 54.62).abs() < 5e-3);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// [`share_after_rinsing`] solved for the water.
pub fn rinse_water(residual: Volume, share: Ratio, portions: u64) -> Result<Volume, Error> {
    let (portions, residual) = (counted("portions", portions)?, at_residual(residual)?);
    Ok(residual * (portions * libm::expm1(reduction(share)? / portions)))
}

/// The rinse water that brings the concentration down to a share of the first where water runs in as fast as it is sprayed out: `r ln F`, where `F`
/// is one over the share.
///
/// * `residual` (r), `share`: as in [`rinse_water`].
///
/// # Errors
///
/// As there.
///
/// # Example
///
/// 1 %: 5 L x ln 100 = 23.0 L, less than half of what three portions take.
///
/// ```
/// use mixcalc::{Ratio, Volume, continuous_rinse_water};
///
/// let water = continuous_rinse_water(Volume::read("5 L")?, Ratio::from_percent(1.0)?)?;
/// assert!((water.liters() - 23.03).abs() < 5e-3);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// [`share_after_continuous_rinsing`] solved for the water.
pub fn continuous_rinse_water(residual: Volume, share: Ratio) -> Result<Volume, Error> {
    Ok(at_residual(residual)? * reduction(share)?)
}

/// The fewest equal portions in which so much rinse water brings the concentration down to a share of the first.
///
/// * `residual`, `water`, `share`: as in [`share_after_rinsing`] and [`rinse_water`].
///
/// # Errors
///
/// At `water`: [`OutOfRange`](ErrorCode::OutOfRange) where 100 portions do not do, with the water that would. Else as there.
///
/// # Example
///
/// Ten residuals: three portions leave 1.23 %, so that 1 % takes four.
///
/// ```
/// use mixcalc::{Ratio, Volume, rinse_portions};
///
/// let [residual, water] = [Volume::read("5 L")?, Volume::read("50 L")?];
/// assert_eq!(rinse_portions(residual, water, Ratio::from_percent(2.0)?)?, 3);
/// assert_eq!(rinse_portions(residual, water, Ratio::from_percent(1.0)?)?, 4);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// [`share_after_rinsing`] solved for the portions.
pub fn rinse_portions(residual: Volume, water: Volume, share: Ratio) -> Result<u64, Error> {
    let least = rinse_water(residual, share, MOST_PORTIONS)?;
    not_negative(water).map_err(|error| error.at("water"))?;
    let is_enough =
        |portions: &u64| rinse_water(residual, share, *portions).is_ok_and(|needed| !is_over(needed, water));
    (1..=MOST_PORTIONS).find(is_enough).ok_or_else(|| {
        let error = Error::new(ErrorCode::OutOfRange).at("water").given(water);
        error.allowed(format_args!("{} {least}", text::word("for this share in 100 portions at least")))
    })
}

/// The concentration of what is drained at the end, as a share of the first: the part that was rinsed, and the part that rinsing does not reach,
/// which still is of the first concentration: `(s r + d) / (r + d)`. However much water is used, it is not under `d / (r + d)`.
///
/// * `share` (s): that the part that was rinsed is left with.
/// * `residual` (r): the parts of what stays in the sprayer, dilutable and not.
///
/// # Errors
///
/// At `share`: [`OutOfRange`](ErrorCode::OutOfRange) below zero and over one. At `residual`: [`NotPositive`](ErrorCode::NotPositive) where nothing stays.
///
/// # Example
///
/// 1.2 % in 4.5 L, and 0.5 L that was not rinsed: (0.054 + 0.5) / 5 = 11 %.
///
/// ```
/// use mixcalc::{Ratio, Residual, Volume, drained_share};
///
/// let residual = Residual::new(Volume::read("4.5 L")?, Volume::read("0.5 L")?)?;
/// assert!((drained_share(Ratio::from_percent(1.2)?, residual)?.percent() - 11.08).abs() < 1e-9);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Conservation of mass. Tests of sprayers with rinsed tanks found 10 % to 15 % of the first concentration in valves, booms and filters (reported by the agriculture
/// ministry of Ontario, 2016: probable).
pub fn drained_share(share: Ratio, residual: Residual) -> Result<Ratio, Error> {
    if !(share >= Ratio::ZERO && share <= Ratio::one()) {
        let error = Error::new(ErrorCode::OutOfRange).at("share").given(share);
        return Err(error.allowed(text::word("from 0 % to 100 %")));
    }
    let all = at_residual(residual.total())?;
    Ok((residual.dilutable() * share + residual.non_dilutable()) / all)
}

/// The least that the tank for rinse water should hold: a tenth of the tank's nominal volume or ten times the dilutable residual, whichever is
/// less. Advice for a sprayer in use, for the standard is for new ones.
///
/// * `nominal`: volume of the tank.
/// * `dilutable`: what of the residual mixes with rinse water.
///
/// # Errors
///
/// At `nominal` or `dilutable`: [`NotPositive`](ErrorCode::NotPositive); [`OutOfRange`](ErrorCode::OutOfRange) for a size that nobody measures.
///
/// # Example
///
/// 600 L with 4 L left in it: 60 L or 40 L, so 40 L.
///
/// ```
/// use mixcalc::{Volume, least_rinse_tank};
///
/// assert_eq!(least_rinse_tank(Volume::read("600 L")?, Volume::read("4 L")?)?.to_string(), "40 L");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// ISO 16119-2 and ISO 16119-3 (certain).
pub fn least_rinse_tank(nominal: Volume, dilutable: Volume) -> Result<Volume, Error> {
    let nominal = positive(nominal).map_err(|error| error.at("nominal"))?;
    let dilutable = positive(dilutable).map_err(|error| error.at("dilutable"))?;
    let (part, residuals) = asked_of_rinse_tank();
    Ok((nominal * part).min(dilutable * Ratio::of_steps(residuals)))
}

/// Rinse tank, as a part of the tank. ISO 16119-2 and -3.
const TANK_PERCENT: f64 = 10.0;
/// Rinse tank, in dilutable residuals. ISO 16119-2 and -3.
const RESIDUALS_IN_TANK: u64 = 10;

/// The part of the tank, and the dilutable residuals, that are asked of the tank for rinse water: the one or the other.
pub(crate) fn asked_of_rinse_tank() -> (Ratio, u64) {
    (Ratio::of_percent(TANK_PERCENT), RESIDUALS_IN_TANK)
}

fn at_residual(residual: Volume) -> Result<Volume, Error> {
    positive(residual).map_err(|error| error.at("residual"))
}

/// A count of portions or passes as a number.
fn counted(name: &str, count: u64) -> Result<f64, Error> {
    if (1..=MOST_PORTIONS).contains(&count) {
        return Ok(Ratio::of_steps(count).number());
    }
    Err(Error::new(ErrorCode::OutOfRange).at(name).given(count).allowed(text::word("from 1 to 100")))
}

/// The logarithm of one over a share.
fn reduction(share: Ratio) -> Result<f64, Error> {
    if share > Ratio::one() {
        let error = Error::new(ErrorCode::OutOfRange).at("share").given(share);
        return Err(error.allowed(text::word("at most 100 %")));
    }
    positive(share).map(|share| -libm::log(share.number())).map_err(|error| error.at("share"))
}

/// A portion of rinse water, and what stays in the sprayer once it is sprayed out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RinsePortion {
    /// Water of the portion.
    pub water: Volume,
    /// What stays of it and mixes with the next portion.
    pub left: Volume,
}

/// What a portion of rinse water came to.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct RinsedPortion {
    /// Water of the portion.
    pub water: Volume,
    /// Concentration once it is mixed, as a share of the first.
    pub share: Ratio,
    /// What of it is sprayed.
    pub sprayed: Volume,
    /// What stays in the sprayer.
    pub left: Volume,
}

/// A rinsing in portions, each sprayed out: what is left after each, and the ground that the rinse water covers.
///
/// With [`share_after_rinsing`] all portions are alike. Here each has its own water, and leaves its own residual:
/// `s_k = s_(k-1) l_(k-1) / (l_(k-1) + W_k)`, where `l` is what the portion before left.
///
/// ```
/// use mixcalc::{Length, Residual, Rinsing, Volume, VolumeRate};
///
/// // 5 L stay in the sprayer; 50 L of water in two portions, sprayed out at half the volume rate of the job.
/// let residual = Residual::new(Volume::read("5 L")?, Volume::ZERO)?;
/// let rinsing = Rinsing::in_equal_portions(residual, Volume::read("50 L")?, 2)?;
/// assert!((rinsing.share().percent() - 100.0 / 36.0).abs() < 1e-12);
///
/// let [rate, rinse_rate] = [VolumeRate::read("200 L/ha")?, VolumeRate::read("100 L/ha")?];
/// let strip = rinsing.strip(rate, rinse_rate, 2)?;
/// assert!((strip.area().hectares() - 0.25).abs() < 1e-12);
/// assert!((strip.length(Length::read("20 m")?)?.meters() - 125.0).abs() < 1e-9);
/// // Each square metre takes 1/6 and then 1/36 of the concentration, at half of the volume: under a tenth of the dose.
/// assert!((strip.most().percent() - 50.0 * (1.0 / 6.0 + 1.0 / 36.0)).abs() < 1e-9);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Rinsing {
    residual: Residual,
    portions: Vec<RinsedPortion>,
}

impl Rinsing {
    /// A rinsing with the given portions.
    ///
    /// * `residual`: what stays in the sprayer before the first of them, of the concentration of the mix.
    /// * `portions`: 1 to 100.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for none and for more `portions`. At `portions[i].water`: [`NotPositive`](ErrorCode::NotPositive). At
    /// `portions[i].left`: [`OutOfRange`](ErrorCode::OutOfRange) below zero, and over what is in the sprayer then. For a size that nobody measures, as well.
    ///
    /// # Example
    ///
    /// 5 L; 20 L of water leave a fifth of it, and 4 L of that; 16 L then leave a fifth of the fifth, 4 %.
    ///
    /// ```
    /// use mixcalc::{Residual, RinsePortion, Rinsing, Volume};
    ///
    /// let liters = Volume::from_liters;
    /// let residual = Residual::new(liters(5.0)?, Volume::ZERO)?;
    /// let portions = [
    ///     RinsePortion { water: liters(20.0)?, left: liters(4.0)? },
    ///     RinsePortion { water: liters(16.0)?, left: liters(4.0)? },
    /// ];
    /// let rinsing = Rinsing::new(residual, &portions)?;
    /// assert!((rinsing.share().percent() - 4.0).abs() < 1e-12);
    /// assert_eq!((rinsing.water().to_string(), rinsing.sprayed().to_string()), ("36 L".into(), "37 L".into()));
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// Conservation of mass with perfect mixing; `docs/numbers.md`, section 26.
    pub fn new(residual: Residual, portions: &[RinsePortion]) -> Result<Self, Error> {
        // A usize is never wider than 64 bits.
        counted("portions", portions.len() as u64)?;
        let (mut share, mut before) = (Ratio::one(), residual.dilutable());
        let mut rinsed = Vec::with_capacity(portions.len());
        for (index, portion) in portions.iter().enumerate() {
            let at = |key: &str, error: Error| error.at(format!("portions[{index}].{key}"));
            let water = positive(portion.water).map_err(|error| at("water", error))?;
            let left = not_negative(portion.left).map_err(|error| at("left", error))?;
            let mixed = before + water;
            if is_over(left, mixed) {
                let error = Error::new(ErrorCode::OutOfRange).given(left);
                let error = error.allowed(format_args!("{} {mixed}", text::word("at most what is in the sprayer,")));
                return Err(at("left", error));
            }
            share = share * (before / mixed);
            rinsed.push(RinsedPortion { water, share, sprayed: Volume::ZERO.max(mixed - left), left });
            before = left;
        }
        Ok(Self { residual, portions: rinsed })
    }

    /// A rinsing in equal portions, each sprayed out down to the dilutable residual, as in [`share_after_rinsing`].
    ///
    /// * `water`: in all.
    /// * `portions`: 1 to 100.
    ///
    /// # Errors
    ///
    /// At `water`: [`NotPositive`](ErrorCode::NotPositive), [`OutOfRange`](ErrorCode::OutOfRange) for a size that nobody measures. At `portions`: as [`new`](Self::new).
    pub fn in_equal_portions(residual: Residual, water: Volume, portions: u64) -> Result<Self, Error> {
        let count = counted("portions", portions)?;
        let water = positive(water).map_err(|error| error.at("water"))? / (Ratio::one() * count);
        let each = RinsePortion { water, left: residual.dilutable() };
        Self::new(residual, &(0..portions).map(|_| each).collect::<Vec<_>>())
    }

    /// What was in the sprayer before.
    #[must_use]
    pub const fn residual(&self) -> Residual {
        self.residual
    }

    /// Each portion.
    #[must_use]
    pub fn portions(&self) -> &[RinsedPortion] {
        &self.portions
    }

    /// Rinse water in all.
    #[must_use]
    pub fn water(&self) -> Volume {
        ordered_sum(self.portions.iter().map(|portion| portion.water))
    }

    /// Rinse water that is sprayed, with what it took up.
    #[must_use]
    pub fn sprayed(&self) -> Volume {
        ordered_sum(self.portions.iter().map(|portion| portion.sprayed))
    }

    /// The first mix in what is sprayed: so much of it as holds the same products.
    #[must_use]
    pub fn mix_sprayed(&self) -> Volume {
        ordered_sum(self.portions.iter().map(|portion| portion.sprayed * portion.share))
    }

    /// What stays in the sprayer after the last portion, of what was rinsed.
    #[must_use]
    pub fn left(&self) -> Volume {
        self.portions.last().map_or(Volume::ZERO, |portion| portion.left)
    }

    /// The first mix in what stays, of what was rinsed: `dilutable = mix_sprayed + mix_left`.
    #[must_use]
    pub fn mix_left(&self) -> Volume {
        self.left() * self.share()
    }

    /// Concentration after the last portion, as a share of the first.
    #[must_use]
    pub fn share(&self) -> Ratio {
        self.portions.last().map_or(Ratio::one(), |portion| portion.share)
    }

    /// Concentration of what is drained at the end, the part that rinsing does not reach along with it: see [`drained_share`]. Zero where nothing
    /// stays.
    #[must_use]
    pub fn drained_share(&self) -> Ratio {
        let all = self.left() + self.residual.non_dilutable();
        if all > Volume::ZERO { (self.mix_left() + self.residual.non_dilutable()) / all } else { Ratio::ZERO }
    }

    /// What a rule looks at: for a limit of the user's own. Nothing where nothing stays in the sprayer that could be diluted.
    #[must_use]
    pub fn measured(&self, measure: RinseMeasure) -> Option<Ratio> {
        let all = self.residual.total();
        if all == Volume::ZERO {
            return None;
        }
        match measure {
            RinseMeasure::FirstDilution => self.portions.first().map(|portion| portion.water / all),
            RinseMeasure::DrainedShare => Some(self.drained_share()),
        }
    }

    /// Mix to hold back so that a strip is left for the rinse water: `max(0, R S - r)`, for what stays in the sprayer leaves ground untreated as well.
    ///
    /// * `strip` (S): ground.
    /// * `volume_rate` (R): of the job.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for an input below zero, or a size that nobody measures.
    pub fn held_back(&self, strip: Area, volume_rate: VolumeRate) -> Result<Volume, Error> {
        let takes = answered(|checks| checks.factor(volume_rate, "volume_rate") * checks.factor(strip, "strip"))?;
        Ok(Volume::ZERO.max(takes - self.residual.total()))
    }

    /// The ground that the rinse water covers, and how much of the job's dose it brings there.
    ///
    /// The rinse water is sprayed in the order of the portions, over the same ground in every pass. The ground where a pass begins takes the most, and
    /// the ground where it ends the least, for every portion is thinner than the one before.
    ///
    /// * `volume_rate`: of the job, at which the first mix gives its dose.
    /// * `rinse_rate`: of each pass with rinse water.
    /// * `passes`: over the same ground, 1 to 100.
    ///
    /// # Errors
    ///
    /// At `volume_rate` or `rinse_rate`: [`NotPositive`](ErrorCode::NotPositive). [`OutOfRange`](ErrorCode::OutOfRange) for other `passes`, and for a size that nobody
    /// measures.
    ///
    /// # Example
    ///
    /// 5 L and 25 L of water at the job's own 200 L/ha: 25 L cover 1250 m2 with a sixth of the dose. Where a dose was sprayed already, it must have been
    /// 6/7 of the maximum or less.
    ///
    /// ```
    /// use mixcalc::{Residual, Rinsing, Volume, VolumeRate};
    ///
    /// let residual = Residual::new(Volume::read("5 L")?, Volume::ZERO)?;
    /// let rate = VolumeRate::read("200 L/ha")?;
    /// let strip = Rinsing::in_equal_portions(residual, Volume::read("25 L")?, 1)?.strip(rate, rate, 1)?;
    /// assert!((strip.area().hectares() - 0.125).abs() < 1e-12);
    /// assert!((strip.main_dose_share().number() - 6.0 / 7.0).abs() < 1e-12);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// Definition; `docs/numbers.md`, section 26.
    pub fn strip(&self, volume_rate: VolumeRate, rinse_rate: VolumeRate, passes: u64) -> Result<RinsedStrip, Error> {
        let count = Ratio::one() * counted("passes", passes)?;
        let volume_rate = positive(volume_rate).map_err(|error| error.at("volume_rate"))?;
        let rinse_rate = positive(rinse_rate).map_err(|error| error.at("rinse_rate"))?;
        let (sprayed, thinner) = (self.sprayed(), rinse_rate / volume_rate);
        let after = |pass: u64| sprayed * (Ratio::of_steps(pass) / count);
        Ok(RinsedStrip {
            area: sprayed / (rinse_rate * count),
            passes,
            mean: if sprayed > Volume::ZERO { self.mix_sprayed() / sprayed * thinner * count } else { Ratio::ZERO },
            most: ordered_sum((0..passes).map(|pass| self.share_from(after(pass)))) * thinner,
            least: ordered_sum((1..=passes).map(|pass| self.share_up_to(after(pass)))) * thinner,
        })
    }

    /// Share of what is sprayed from a volume on: that of the first portion that is not over by then.
    fn share_from(&self, volume: Volume) -> Ratio {
        self.share_where(|end| is_over(end, volume))
    }

    /// Share of what is sprayed up to a volume: that of the first portion that lasts until then.
    fn share_up_to(&self, volume: Volume) -> Ratio {
        self.share_where(|end| !is_under(end, volume))
    }

    fn share_where(&self, lasts: impl Fn(Volume) -> bool) -> Ratio {
        let mut ends = self.portions.iter().scan(Volume::ZERO, |end, portion| {
            *end = *end + portion.sprayed;
            Some((*end, portion.share))
        });
        ends.find(|(end, _)| lasts(*end)).map_or(self.share(), |(_, share)| share)
    }
}

/// Ground that rinse water covers. Doses are parts of the job's dose, the same for every product.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RinsedStrip {
    area: Area,
    passes: u64,
    mean: Ratio,
    most: Ratio,
    least: Ratio,
}

impl RinsedStrip {
    /// The ground.
    #[must_use]
    pub const fn area(self) -> Area {
        self.area
    }

    /// How often the rinse water is sprayed over it.
    #[must_use]
    pub const fn passes(self) -> u64 {
        self.passes
    }

    /// Its length at a swath.
    ///
    /// # Errors
    ///
    /// As [`course_length`].
    pub fn length(self, swath: Length) -> Result<Length, Error> {
        course_length(self.area, swath)
    }

    /// The dose of the rinse water on the whole of it. Ground that takes nothing else is under-dosed wherever this is under one.
    #[must_use]
    pub const fn mean(self) -> Ratio {
        self.mean
    }

    /// The dose of the rinse water on the square metre that takes most of it, in all passes.
    #[must_use]
    pub const fn most(self) -> Ratio {
        self.most
    }

    /// The dose of the rinse water on the square metre that takes least of it, in all passes.
    #[must_use]
    pub const fn least(self) -> Ratio {
        self.least
    }

    /// The most that the job's dose may be, as a part of the maximum, where it is sprayed over ground that was treated already: `1 / (1 + most)`. Then no
    /// square metre takes more than the maximum in any pass.
    #[must_use]
    pub fn main_dose_share(self) -> Ratio {
        Ratio::one() / (Ratio::one() + self.most)
    }
}
