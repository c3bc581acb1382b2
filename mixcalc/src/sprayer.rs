//! The sprayer: its kind, its tank and the safe fill, what stays in it after spraying out, its nozzles, and what it puts out.

pub(crate) mod applied;
pub(crate) mod calibration;
mod delivered;
mod fan;
mod nozzle;
mod nozzle_check;
pub(crate) mod output;
mod record;
mod repeats;
mod rinse_rule;
mod rinsing;
mod setting;
mod tank_scale;
mod wear;

use alloc::sync::Arc;

pub use applied::*;
pub use calibration::*;
pub use delivered::*;
pub use fan::*;
pub use nozzle::*;
pub use nozzle_check::*;
pub use output::*;
pub use record::*;
pub use repeats::*;
pub use rinse_rule::*;
pub use rinsing::*;
pub use setting::*;
pub(crate) use tank_scale::Straight;
pub use tank_scale::{ScaleCheck, ScalePoint};
pub use wear::*;

use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Finding, FindingCode, Limit};
use crate::label::needs_mix_density;
use crate::quantity::close::{is_over, is_under};
use crate::quantity::{Density, Kind, Mass, Ratio, System, Volume, not_negative, people_unit, positive, scale_unit};
use crate::text;

/// Headspace of a carried tank where the job does not say: it moves with the body, and foam has no other place. Advice, origin:
/// mixcalc, twice the least of the standards below.
const CARRIED_HEADSPACE_PERCENT: f64 = 10.0;
/// Least headspace. ISO 16119-1 and EN 12761-1 ask of new machines a total volume at least 5 % above nominal.
const LEAST_HEADSPACE_PERCENT: f64 = 5.0;
/// Mass of a filled carried sprayer. FAO, guidelines on minimum requirements, 2001, volume 1: not above 25 kg.
const CARRIED_MASS_KG: f64 = 25.0;

/// Kinds of sprayer, after the parts of ISO 16119 and ISO 19932.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum SprayerKind {
    /// Carried in the hand.
    HandHeld,
    /// Carried on the back.
    Knapsack,
    /// With a horizontal boom.
    Boom,
    /// For bushes and trees, air-assisted.
    BushAndTree,
    /// Fixed or moved by hand, with hose and lance.
    SemiMobile,
}

impl SprayerKind {
    /// The kinds.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::HandHeld, Self::Knapsack, Self::Boom, Self::BushAndTree, Self::SemiMobile]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::HandHeld => "hand-held",
            Self::Knapsack => "knapsack",
            Self::Boom => "boom",
            Self::BushAndTree => "bush-and-tree",
            Self::SemiMobile => "semi-mobile",
        }
    }

    /// Whether a person carries it. Such tanks have no agitator.
    #[must_use]
    pub const fn is_carried(self) -> bool {
        matches!(self, Self::HandHeld | Self::Knapsack)
    }
}

/// What stays in the sprayer after spraying out (ISO 13440).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    dilutable: Volume,
    non_dilutable: Volume,
}

impl Residual {
    /// The part that mixes with rinse water, and the part that rinsing does not reach.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for less than nothing.
    pub fn new(dilutable: Volume, non_dilutable: Volume) -> Result<Self, Error> {
        Ok(Self {
            dilutable: not_negative(dilutable).map_err(|error| error.at("dilutable"))?,
            non_dilutable: not_negative(non_dilutable).map_err(|error| error.at("non_dilutable"))?,
        })
    }

    /// The part that mixes with rinse water.
    #[must_use]
    pub const fn dilutable(self) -> Volume {
        self.dilutable
    }

    /// The part that rinsing does not reach.
    #[must_use]
    pub const fn non_dilutable(self) -> Volume {
        self.non_dilutable
    }

    /// Both parts.
    #[must_use]
    pub fn total(self) -> Volume {
        self.dilutable + self.non_dilutable
    }
}

/// A sprayer without its tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sprayer {
    kind: SprayerKind,
    residual: Option<Residual>,
    empty_mass: Option<Mass>,
    carried_mass_limit: Option<Mass>,
}

impl Sprayer {
    /// A sprayer of a kind.
    #[must_use]
    pub const fn new(kind: SprayerKind) -> Self {
        Self { kind, residual: None, empty_mass: None, carried_mass_limit: None }
    }

    /// States what stays in it after spraying out.
    #[must_use]
    pub const fn with_residual(mut self, residual: Residual) -> Self {
        self.residual = Some(residual);
        self
    }

    /// States its mass when empty.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a mass that is not above zero.
    pub fn with_empty_mass(mut self, mass: Mass) -> Result<Self, Error> {
        self.empty_mass = Some(positive(mass).map_err(|error| error.at("empty_mass"))?);
        Ok(self)
    }

    /// Limits its mass when filled. Needs its empty mass and the density of the mix.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a mass that is not above zero.
    pub fn with_carried_mass_limit(mut self, mass: Mass) -> Result<Self, Error> {
        self.carried_mass_limit = Some(positive(mass).map_err(|error| error.at("carried_mass_limit"))?);
        Ok(self)
    }

    /// Its kind.
    #[must_use]
    pub const fn kind(&self) -> SprayerKind {
        self.kind
    }

    /// What stays in it after spraying out, where stated.
    #[must_use]
    pub const fn residual(&self) -> Option<Residual> {
        self.residual
    }

    /// Its mass when empty, where stated.
    #[must_use]
    pub const fn empty_mass(&self) -> Option<Mass> {
        self.empty_mass
    }

    /// The limit of its mass when filled, where stated.
    #[must_use]
    pub const fn carried_mass_limit(&self) -> Option<Mass> {
        self.carried_mass_limit
    }

    /// The volume of mix that the mass limit allows.
    fn mass_limited(&self, mix_density: Option<Density>) -> Result<Option<Volume>, Error> {
        let Some(limit) = self.carried_mass_limit else {
            return Ok(None);
        };
        let missing =
            |key| Error::new(ErrorCode::MissingInput).at(key).allowed(text::example("empty_mass", Kind::Mass));
        let empty = self.empty_mass.ok_or_else(|| missing("sprayer.empty_mass"))?;
        let density = mix_density.ok_or_else(needs_mix_density)?;
        if !is_over(limit, empty) {
            return Err(Error::new(ErrorCode::OutOfRange)
                .at("sprayer.carried_mass_limit")
                .given(limit)
                .allowed(format_args!("{} {empty}", text::word("above the empty mass,"))));
        }
        Ok(Some((limit - empty) / density))
    }
}

/// The tank: what it holds, how full it may be, and its marks.
///
/// ```
/// use mixcalc::{Tank, Volume};
///
/// let tank = Tank::of_nominal(Volume::read("16 L")?)?.with_graduation(Volume::read("1 L")?)?;
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Tank {
    nominal: Option<Volume>,
    brim: Option<Volume>,
    headspace: Option<Ratio>,
    graduation: Option<Volume>,
    least_working_volume: Option<Volume>,
    marked_in: Option<Arc<str>>,
    scale_check: Option<ScaleCheck>,
}

impl Tank {
    /// A tank of a nominal volume: the filling that the maker declares for use.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a volume that is not above zero.
    pub fn of_nominal(nominal: Volume) -> Result<Self, Error> {
        Self::new(Some(nominal), None)
    }

    /// A tank of a brim capacity: what it holds when full to the rim.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a volume that is not above zero.
    pub fn of_brim(brim: Volume) -> Result<Self, Error> {
        Self::new(None, Some(brim))
    }

    /// A tank of which nominal volume, brim capacity or both are known.
    ///
    /// The safe fill is the lesser of the nominal volume and of what the headspace leaves of the brim, down to a mark where the
    /// tank has marks. With the nominal volume alone the headspace is taken off that.
    ///
    /// * `nominal`: the filling that the maker declares for use.
    /// * `brim`: what it holds when full to the rim.
    ///
    /// # Errors
    ///
    /// At `nominal` or `brim`: [`MissingInput`](ErrorCode::MissingInput) where neither is given;
    /// [`NotPositive`](ErrorCode::NotPositive) for one that is not above zero;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a nominal volume over the brim, or a size that nobody measures.
    ///
    /// # Example
    ///
    /// A knapsack leaves 10 % of its brim empty: 0.9 x 17 L is 15.3 L, under the nominal 16 L, and the mark below is 15 L.
    ///
    /// ```
    /// use mixcalc::{Area, Job, Rate, Sprayer, SprayerKind, Tank, Volume, VolumeRate};
    ///
    /// let tank = Tank::new(Some(Volume::read("16 L")?), Some(Volume::read("17 L")?))?.with_graduation(Volume::read("1 L")?)?;
    /// let rate = Rate::Volume(VolumeRate::read("300 L/ha")?);
    /// let job = Job::new(Area::read("0.5 ha")?, rate, Sprayer::new(SprayerKind::Knapsack), tank)?;
    /// assert_eq!(mixcalc::plan(&job)?.safe_fill().to_string(), "15 L");
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// ISO 16119-1 and EN 12761-1 for nominal and total volume; the headspace of carried tanks is advice of mixcalc.
    pub fn new(nominal: Option<Volume>, brim: Option<Volume>) -> Result<Self, Error> {
        let nominal = nominal.map(positive).transpose().map_err(|error| error.at("nominal"))?;
        let brim = brim.map(positive).transpose().map_err(|error| error.at("brim"))?;
        match (nominal, brim) {
            (None, None) => Err(Error::new(ErrorCode::MissingInput)
                .at("nominal")
                .allowed(text::example("nominal or brim", Kind::Volume))),
            (Some(nominal), Some(brim)) if is_over(nominal, brim) => Err(Error::new(ErrorCode::OutOfRange)
                .at("nominal")
                .given(nominal)
                .allowed(format_args!("{} {brim}", text::word("at most the brim,")))),
            _ => Ok(Self {
                nominal,
                brim,
                headspace: None,
                graduation: None,
                least_working_volume: None,
                marked_in: None,
                scale_check: None,
            }),
        }
    }

    /// States the part of the brim capacity to leave empty.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) below 0 % and from 100 % on.
    pub fn with_headspace(mut self, headspace: Ratio) -> Result<Self, Error> {
        if !(headspace >= Ratio::ZERO && headspace < Ratio::one()) {
            return Err(Error::new(ErrorCode::OutOfRange)
                .at("headspace")
                .given(headspace)
                .allowed(text::word("from 0 % to under 100 % of the brim")));
        }
        self.headspace = Some(headspace);
        Ok(self)
    }

    /// States the step of the tank's own marks.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a step that is not above zero.
    pub fn with_graduation(mut self, graduation: Volume) -> Result<Self, Error> {
        self.graduation = Some(positive(graduation).map_err(|error| error.at("graduation"))?);
        // Until another unit is stated, the one in which people of the metric trade would read it.
        self.marked_in = self.marked_in.or_else(|| Some(people_unit(graduation.into()).into()));
        Ok(self)
    }

    /// States the unit on the tank's scale, in which people are then shown its marks.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a unit that is not one of volume, and the codes of reading a unit.
    pub fn marked_in(mut self, unit: &str) -> Result<Self, Error> {
        scale_unit(unit, Kind::Volume).map_err(|error| error.at("marked_in"))?;
        self.marked_in = Some(unit.into());
        Ok(self)
    }

    /// States the least volume that the sprayer works with. It has no default.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a volume that is not above zero.
    pub fn with_least_working_volume(mut self, volume: Volume) -> Result<Self, Error> {
        self.least_working_volume = Some(positive(volume).map_err(|error| error.at("least_working_volume"))?);
        Ok(self)
    }

    /// Nominal volume, where stated.
    #[must_use]
    pub const fn nominal(&self) -> Option<Volume> {
        self.nominal
    }

    /// Brim capacity, where stated.
    #[must_use]
    pub const fn brim(&self) -> Option<Volume> {
        self.brim
    }

    /// Headspace, where stated.
    #[must_use]
    pub const fn headspace(&self) -> Option<Ratio> {
        self.headspace
    }

    /// The step of its marks, where stated.
    #[must_use]
    pub const fn graduation(&self) -> Option<Volume> {
        self.graduation
    }

    /// The least volume that the sprayer works with, where stated.
    #[must_use]
    pub const fn least_working_volume(&self) -> Option<Volume> {
        self.least_working_volume
    }

    /// The unit on its scale, where stated.
    #[must_use]
    pub fn unit(&self) -> Option<&str> {
        self.marked_in.as_deref()
    }

    /// Whether the brim is far enough over nominal for a machine to be filled to nominal.
    fn has_room_over_nominal(&self) -> bool {
        match (self.nominal, self.brim) {
            (Some(nominal), Some(brim)) => {
                !is_under(brim, nominal * (Ratio::one() + Ratio::of_percent(LEAST_HEADSPACE_PERCENT)))
            }
            _ => false,
        }
    }

    /// The headspace that is kept: the job's, or the advice for the kind; none where a machine is filled to nominal.
    pub(crate) fn headspace_kept(&self, kind: SprayerKind) -> Option<Ratio> {
        match self.headspace {
            Some(headspace) => Some(headspace),
            None if kind.is_carried() => Some(Ratio::of_percent(CARRIED_HEADSPACE_PERCENT)),
            None if self.has_room_over_nominal() => None,
            None => Some(Ratio::of_percent(LEAST_HEADSPACE_PERCENT)),
        }
    }

    /// The most that it may be filled to with a stated headspace: the lesser of nominal and of what the headspace `h` leaves of the
    /// brim, `min(nominal, (1 - h) * brim)`; `(1 - h) * nominal` where the brim is unknown; then down to a mark.
    ///
    /// A plan also bounds it by a mass limit, and has a default for the headspace (`docs/numbers.md`, section 3).
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) for a tank that states no headspace;
    /// [`BelowFirstMark`](ErrorCode::BelowFirstMark) where the first mark is above it.
    ///
    /// # Example
    ///
    /// 0.9 x 17 L is 15.3 L, under the nominal 16 L; the mark below is 15 L.
    ///
    /// ```
    /// use mixcalc::{Ratio, Tank, Volume};
    ///
    /// let tank = Tank::new(Some(Volume::read("16 L")?), Some(Volume::read("17 L")?))?
    ///     .with_headspace(Ratio::read("10 %")?)?
    ///     .with_graduation(Volume::read("1 L")?)?;
    /// assert_eq!(tank.safe_fill()?.to_string(), "15 L");
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// As [`new`](Self::new).
    pub fn safe_fill(&self) -> Result<Volume, Error> {
        let missing = || Error::new(ErrorCode::MissingInput).allowed(text::example("headspace", Kind::Ratio));
        let headspace = self.headspace.ok_or_else(missing).map_err(|error| error.at("headspace"))?;
        self.down_to_mark(self.filled(Some(headspace)))
    }

    /// Down to a mark, where there are marks.
    fn down_to_mark(&self, fill: Volume) -> Result<Volume, Error> {
        let fill = self.within_check(fill);
        let Some(graduation) = self.graduation else {
            return Ok(fill);
        };
        match self.marks_up_to(fill) {
            Some(0) => Err(Error::new(ErrorCode::BelowFirstMark).given(graduation).allowed(fill)),
            // So many marks may come out a rounding above the fill that they are meant to stay under.
            Some(marks) => Ok(self.mark(marks).map_or(fill, |mark| fill.min(mark.holds))),
            None => Err(crate::measure::uncountable(graduation.into())),
        }
        .map_err(|error| error.at("graduation"))
    }

    /// The most that the tank may be filled to, before marks and mass.
    fn filled(&self, headspace: Option<Ratio>) -> Volume {
        let Some(headspace) = headspace else {
            return self.nominal.unwrap_or(Volume::ZERO);
        };
        let full = Ratio::one() - headspace;
        match (self.nominal, self.brim) {
            (Some(nominal), Some(brim)) => nominal.min(brim * full),
            (nominal, brim) => brim.or(nominal).unwrap_or(Volume::ZERO) * full,
        }
    }
}

/// The most that the tank may be filled to: under nominal, brim and mass, and down to a mark.
pub(crate) fn safe_fill(sprayer: &Sprayer, tank: &Tank, mix_density: Option<Density>) -> Result<Volume, Error> {
    tank.down_to_mark(unmarked_fill(sprayer, tank, mix_density)?).map_err(|error| error.at("tank"))
}

/// The most that the tank may be filled to, whatever its scale shows.
pub(crate) fn unmarked_fill(sprayer: &Sprayer, tank: &Tank, mix_density: Option<Density>) -> Result<Volume, Error> {
    let fill = tank.filled(tank.headspace_kept(sprayer.kind));
    Ok(sprayer.mass_limited(mix_density)?.map_or(fill, |limited| fill.min(limited)))
}

/// What is to be said of a safe fill.
pub(crate) fn findings_on(
    fill: Volume,
    (sprayer, tank): (&Sprayer, &Tank),
    mix_density: Option<Density>,
    units: System,
) -> impl Iterator<Item = Finding> {
    let brim = tank.brim.or(tank.nominal).unwrap_or(Volume::ZERO);
    let most = brim * (Ratio::one() - Ratio::of_percent(LEAST_HEADSPACE_PERCENT));
    let as_made = !sprayer.kind.is_carried() && tank.has_room_over_nominal();
    let headspace = (is_over(fill, most) && !as_made).then(|| {
        Finding::new(FindingCode::HeadspaceBelowFivePercent, "tank.headspace", units)
            .actual_value(fill)
            .against(Limit::advice(Bound::AtMost, most, text::source::HEADSPACE))
    });
    let advised = Mass::from_kilograms(CARRIED_MASS_KG).unwrap_or(Mass::ZERO);
    let known = sprayer.empty_mass.zip(mix_density).filter(|_| sprayer.kind.is_carried());
    let full = known.map(|(empty, density)| empty + density * fill);
    let carried = full.filter(|full| is_over(*full, advised)).map(|full| {
        Finding::new(FindingCode::CarriedMassAboveAdvice, "sprayer.empty_mass", units)
            .actual_value(full)
            .against(Limit::advice(Bound::AtMost, advised, text::source::CARRIED_MASS))
    });
    // What could be worked out once can be worked out again.
    let unmarked = unmarked_fill(sprayer, tank, mix_density).unwrap_or(fill);
    headspace.into_iter().chain(carried).chain(tank.findings_on_scale(unmarked, units))
}
