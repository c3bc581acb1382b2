//! The crop's geometry: rows, canopy, plants and spots, and what a dose that is counted on them comes to per ground area.

use super::{Basis, Dose};
use crate::error::{Error, ErrorCode};
use crate::quantity::close::{is_over, is_under};
use crate::quantity::{Area, Kind, Length, LiquidDose, Quantity, Ratio, SolidDose, VolumeRate, positive};
use crate::text;

/// Which sides of a row the spray reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sides {
    /// One side: one alley is driven with one side of the machine open, or every second alley with both.
    One,
    /// Both sides.
    Both,
}

impl Sides {
    /// The choices.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::One, Self::Both]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::One => "one",
            Self::Both => "both",
        }
    }

    /// How many they are.
    pub(crate) const fn count(self) -> u64 {
        match self {
            Self::One => 1,
            Self::Both => 2,
        }
    }
}

/// Which rows are treated.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Rows {
    /// Every row.
    #[default]
    Every,
    /// Every second row; the ones between stay untreated.
    Alternate,
}

impl Rows {
    /// The choices.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::Every, Self::Alternate]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Every => "every",
            Self::Alternate => "alternate",
        }
    }

    /// Rows for each one that is treated.
    pub(crate) const fn per_treated(self) -> u64 {
        match self {
            Self::Every => 1,
            Self::Alternate => 2,
        }
    }
}

/// The crop as it stands: what doses per wall, canopy, row, plant or spot are counted on.
///
/// Only what the doses of a job ask for need be stated; a plan whose dose asks for more is refused with the key that is missing.
/// Nothing is assumed: the sides that are treated are said wherever a canopy is counted.
///
/// # Example
///
/// Vines 1.2 m high in rows 2 m apart, sprayed from both sides: 1.2 ha of leaf wall on each hectare of ground.
///
/// ```
/// use mixcalc::{Area, Crop, Length, Sides};
///
/// let crop = Crop::new()
///     .with_row_spacing(Length::read("2 m")?)?
///     .with_canopy_height(Length::read("1.2 m")?)?
///     .with_treated_sides(Sides::Both);
/// assert_eq!(crop.leaf_wall_per_ground()?.number(), 1.2);
///
/// let missing = Crop::new().leaf_wall_per_ground().unwrap_err();
/// assert_eq!(missing.path(), "crop.row_spacing");
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Leaf wall area, tree row volume and crown height: EPPO standard PP 1/239(3), 2021. The others are definitions.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Crop {
    row_spacing: Option<Length>,
    plant_spacing: Option<Length>,
    canopy_height: Option<Length>,
    canopy_width: Option<Length>,
    band_width: Option<Length>,
    treated_sides: Option<Sides>,
    treated_rows: Rows,
    plants: Option<u64>,
    spots: Option<u64>,
    spot_area: Option<Area>,
}

/// Most plants or spots of a job: whole numbers to here are doubles.
const MOST_COUNTED: u64 = 1_000_000_000_000;

impl Crop {
    /// A crop of which nothing is stated yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// States the distance from row to row.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a length that is not above zero.
    pub fn with_row_spacing(mut self, length: Length) -> Result<Self, Error> {
        self.row_spacing = Some(positive(length).map_err(|error| error.at("row_spacing"))?);
        Ok(self)
    }

    /// States the distance from plant to plant along a row.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a length that is not above zero.
    pub fn with_plant_spacing(mut self, length: Length) -> Result<Self, Error> {
        self.plant_spacing = Some(positive(length).map_err(|error| error.at("plant_spacing"))?);
        Ok(self)
    }

    /// States the height of the canopy that is treated, from its lowest leaves to its highest.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a length that is not above zero.
    pub fn with_canopy_height(mut self, length: Length) -> Result<Self, Error> {
        self.canopy_height = Some(positive(length).map_err(|error| error.at("canopy_height"))?);
        Ok(self)
    }

    /// States the width of the canopy across the row.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a length that is not above zero.
    pub fn with_canopy_width(mut self, length: Length) -> Result<Self, Error> {
        self.canopy_width = Some(positive(length).map_err(|error| error.at("canopy_width"))?);
        Ok(self)
    }

    /// States the width of the band that is treated along each row.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a length that is not above zero.
    pub fn with_band_width(mut self, length: Length) -> Result<Self, Error> {
        self.band_width = Some(positive(length).map_err(|error| error.at("band_width"))?);
        Ok(self)
    }

    /// States which sides of a row the spray reaches.
    #[must_use]
    pub const fn with_treated_sides(mut self, sides: Sides) -> Self {
        self.treated_sides = Some(sides);
        self
    }

    /// States which rows are treated; every row where nothing is said.
    #[must_use]
    pub const fn with_treated_rows(mut self, rows: Rows) -> Self {
        self.treated_rows = rows;
        self
    }

    /// States how many plants of the job are treated, in place of their spacing.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for none and for more than a trillion.
    pub fn with_plants(mut self, plants: u64) -> Result<Self, Error> {
        self.plants = Some(counted(plants, "plants")?);
        Ok(self)
    }

    /// States how many spots of the job are treated.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for none and for more than a trillion.
    pub fn with_spots(mut self, spots: u64) -> Result<Self, Error> {
        self.spots = Some(counted(spots, "spots")?);
        Ok(self)
    }

    /// States the ground that a spot takes.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for an area that is not above zero.
    pub fn with_spot_area(mut self, area: Area) -> Result<Self, Error> {
        self.spot_area = Some(positive(area).map_err(|error| error.at("spot_area"))?);
        Ok(self)
    }

    /// The distance from row to row, where stated.
    #[must_use]
    pub const fn row_spacing(&self) -> Option<Length> {
        self.row_spacing
    }

    /// The distance from plant to plant along a row, where stated.
    #[must_use]
    pub const fn plant_spacing(&self) -> Option<Length> {
        self.plant_spacing
    }

    /// The height of the canopy that is treated, from its lowest leaves to its highest, where stated.
    #[must_use]
    pub const fn canopy_height(&self) -> Option<Length> {
        self.canopy_height
    }

    /// The width of the canopy across the row, where stated.
    #[must_use]
    pub const fn canopy_width(&self) -> Option<Length> {
        self.canopy_width
    }

    /// The width of the band that is treated along each row, where stated.
    #[must_use]
    pub const fn band_width(&self) -> Option<Length> {
        self.band_width
    }

    /// Which sides of a row the spray reaches, where stated.
    #[must_use]
    pub const fn treated_sides(&self) -> Option<Sides> {
        self.treated_sides
    }

    /// Which rows are treated.
    #[must_use]
    pub const fn treated_rows(&self) -> Rows {
        self.treated_rows
    }

    /// How many plants of the job are treated, where stated.
    #[must_use]
    pub const fn plants(&self) -> Option<u64> {
        self.plants
    }

    /// How many spots of the job are treated, where stated.
    #[must_use]
    pub const fn spots(&self) -> Option<u64> {
        self.spots
    }

    /// The ground that a spot takes, where stated.
    #[must_use]
    pub const fn spot_area(&self) -> Option<Area> {
        self.spot_area
    }

    /// Leaf wall per ground: `n * H / R`, with `n` sides of the rows treated, canopy height `H`, and ground `R` wide for each treated
    /// row.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) where row spacing, canopy height or treated sides are not stated.
    pub fn leaf_wall_per_ground(&self) -> Result<Ratio, Error> {
        let spacing = self.treated_row_spacing()?;
        Ok(self.crown()? / spacing * Ratio::of_steps(self.sides()?.count()))
    }

    /// Tree row volume per ground, as the depth that it would have if it lay level: `n / 2 * H * B / R`, with canopy width `B`. One
    /// side of a row is half of its canopy.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) where row spacing, canopy height or width, or treated sides are not stated.
    pub fn tree_row_volume_per_ground(&self) -> Result<Length, Error> {
        let spacing = self.treated_row_spacing()?;
        let width = stated(self.canopy_width, "canopy_width")?;
        Ok(self.crown()? * (width / spacing) * self.share_of_sides()?)
    }

    /// Crown height that a dose per meter of it is counted on: `n / 2 * H`, by half where every second row is treated.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) where canopy height or treated sides are not stated.
    pub fn treated_crown_height(&self) -> Result<Length, Error> {
        Ok(self.crown()? * self.share_of_sides()? / Ratio::of_steps(self.treated_rows.per_treated()))
    }

    /// Distance between treated rows: the row spacing, or twice that where every second row is treated.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) where the row spacing is not stated.
    pub fn treated_row_spacing(&self) -> Result<Length, Error> {
        Ok(stated(self.row_spacing, "row_spacing")? * Ratio::of_steps(self.treated_rows.per_treated()))
    }

    /// Part of the ground that is treated: spots of a job on `area`, or bands along the treated rows.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) where neither spots and their area, nor row spacing and band width are stated;
    /// [`OutOfRange`](ErrorCode::OutOfRange) where they take more than the ground.
    pub fn treated_share(&self, area: Area) -> Result<Ratio, Error> {
        let (share, key) = match (self.spots, self.spot_area) {
            (Some(spots), Some(spot)) => (spot * Ratio::of_steps(spots) / area, "spot_area"),
            (Some(_), None) if self.band_width.is_none() => return Err(missing("spot_area")),
            _ => (stated(self.band_width, "band_width")? / self.treated_row_spacing()?, "band_width"),
        };
        if is_over(share, Ratio::one()) {
            let error = Error::new(ErrorCode::OutOfRange).at(key).at("crop");
            return Err(error.given(share).allowed(text::word("at most 100 % of the ground")));
        }
        Ok(share)
    }

    /// Whether bands are treated.
    pub(crate) const fn has_bands(&self) -> bool {
        self.band_width.is_some()
    }

    /// Part of the ground that is treated, where the crop says that it is a part.
    pub(crate) fn part_treated(&self, area: Area) -> Option<Ratio> {
        let is_part = self.band_width.is_some() || (self.spots.is_some() && self.spot_area.is_some());
        self.treated_share(area).ok().filter(|share| is_part && is_under(*share, Ratio::one()))
    }

    /// Ground of a job on `area` for each plant that is treated.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) where neither the plants nor row and plant spacing are stated.
    pub fn ground_per_plant(&self, area: Area) -> Result<Area, Error> {
        match self.plants {
            Some(plants) => Ok(area / Ratio::of_steps(plants)),
            None => Ok(self.treated_row_spacing()? * stated(self.plant_spacing, "plant_spacing")?),
        }
    }

    /// Ground of a job on `area` for each spot that is treated.
    ///
    /// # Errors
    ///
    /// [`MissingInput`](ErrorCode::MissingInput) where the spots are not stated.
    pub fn ground_per_spot(&self, area: Area) -> Result<Area, Error> {
        self.spots.map(|spots| area / Ratio::of_steps(spots)).ok_or_else(|| missing("spots"))
    }

    /// What fits together: a plant has one way to be counted, and so has the part of the ground that is treated.
    pub(crate) fn checked(&self) -> Result<(), Error> {
        let both = |key: &str, keys: &str| {
            Err(Error::new(ErrorCode::BothGiven).at(key).given(keys).allowed(text::word("one of them")))
        };
        if self.plants.is_some() && self.plant_spacing.is_some() {
            return both("plants", "plants and plant_spacing");
        }
        if self.spot_area.is_some() && self.band_width.is_some() {
            return both("spot_area", "spot_area and band_width");
        }
        Ok(())
    }

    fn crown(&self) -> Result<Length, Error> {
        stated(self.canopy_height, "canopy_height")
    }

    fn sides(&self) -> Result<Sides, Error> {
        self.treated_sides.ok_or_else(|| missing("treated_sides"))
    }

    fn share_of_sides(&self) -> Result<Ratio, Error> {
        Ok(Ratio::of_steps(self.sides()?.count()) / Ratio::of_steps(Sides::Both.count()))
    }
}

fn counted(count: u64, key: &'static str) -> Result<u64, Error> {
    if (1..=MOST_COUNTED).contains(&count) {
        return Ok(count);
    }
    Err(Error::new(ErrorCode::OutOfRange).at(key).given(count).allowed(text::COUNTED))
}

fn missing(key: &str) -> Error {
    Error::new(ErrorCode::MissingInput).at(key).at("crop").allowed(text::key_example(key))
}

fn stated(length: Option<Length>, key: &str) -> Result<Length, Error> {
    length.ok_or_else(|| missing(key))
}

/// The crop on the ground of a job.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stand {
    pub(crate) crop: Crop,
    pub(crate) area: Area,
}

/// An amount of product, or a volume of mix, for each unit of what a crop is counted in: a wall, a canopy, a row, a plant, a spot, or
/// ground that is treated in bands or spots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PerCrop {
    basis: Basis,
    amount: Quantity,
}

impl PerCrop {
    /// Claims a quantity as an amount on a basis of the crop.
    pub(super) fn claim(quantity: Quantity, basis: Basis) -> Option<Result<Self, Error>> {
        let kind = basis.crop_kinds()?.into_iter().find(|kind| {
            // A volume per area is a liquid dose before anybody says that it is one.
            quantity.kind() == *kind || quantity.claim_kind(*kind).is_ok()
        })?;
        Some(quantity.claim_kind(kind).map(|amount| Self { basis, amount }))
    }

    /// What it is counted on.
    #[must_use]
    pub const fn basis(self) -> Basis {
        self.basis
    }

    /// The amount for each unit of it.
    #[must_use]
    pub const fn amount(self) -> Quantity {
        self.amount
    }

    /// Whether it is a volume; a mass otherwise.
    #[must_use]
    pub const fn is_by_volume(self) -> bool {
        use Kind::{LiquidDose, Volume, VolumePerCrownHeight, VolumePerRowLength, VolumePerTreeRowVolume};
        matches!(
            self.amount.kind(),
            LiquidDose | Volume | VolumePerCrownHeight | VolumePerRowLength | VolumePerTreeRowVolume
        )
    }

    /// What it comes to per ground area.
    pub(crate) fn on_ground(self, Stand { crop, area }: Stand) -> Result<Dose, Error> {
        let amount = self.amount;
        let per_ground = match self.basis {
            Basis::TreatedArea => amount.times(crop.treated_share(area)?.into()),
            Basis::LeafWallArea => amount.times(crop.leaf_wall_per_ground()?.into()),
            Basis::TreeRowVolume => amount.times(crop.tree_row_volume_per_ground()?.into()),
            Basis::CrownHeight => amount.times(crop.treated_crown_height()?.into()),
            Basis::RowLength => amount.over(crop.treated_row_spacing()?.into()),
            Basis::Plant => amount.over(crop.ground_per_plant(area)?.into()),
            Basis::Spot => amount.over(crop.ground_per_spot(area)?.into()),
            Basis::GroundArea | Basis::MixVolume | Basis::CarrierVolume => Ok(amount),
        }?;
        if self.is_by_volume() {
            per_ground.claim::<LiquidDose>().map(Dose::LiquidPerArea)
        } else {
            per_ground.claim::<SolidDose>().map(Dose::SolidPerArea)
        }
    }

    /// Whether it is over another one on the same basis.
    pub(super) fn is_over(self, other: Self) -> bool {
        let times = self.amount.over(other.amount).and_then(Quantity::claim::<Ratio>);
        self.basis == other.basis && times.is_ok_and(|times| is_over(times, Ratio::one()))
    }

    /// What a volume of mix comes to per ground area.
    pub(crate) fn volume_rate(self, stand: Stand) -> Result<VolumeRate, Error> {
        match self.on_ground(stand)? {
            Dose::LiquidPerArea(rate) => Ok(rate.as_volume_rate()),
            _ => Err(Error::new(ErrorCode::WrongQuantity).given(self.amount)),
        }
    }

    /// The dose on a basis of the crop that comes to one per ground area; `None` where the crop does not say enough.
    pub(crate) fn of_ground(dose: Dose, basis: Basis, stand: Stand) -> Option<Self> {
        let one = Self::one(basis, dose.is_by_volume())?;
        let units: Ratio = Quantity::from(dose).over(one.on_ground(stand).ok()?.into()).ok()?.claim().ok()?;
        Some(Self { amount: one.amount.times(units.into()).ok()?, ..one })
    }

    /// One unit of the document on a basis, by volume or by mass.
    fn one(basis: Basis, by_volume: bool) -> Option<Self> {
        let [liquid, solid] = basis.crop_kinds()?;
        let kind = if by_volume { liquid } else { solid };
        let amount = Quantity::from_parts(1.0, kind.unit()).and_then(|one| one.claim_kind(kind)).ok()?;
        Some(Self { basis, amount })
    }

    pub(crate) fn positive(self) -> Result<Self, Error> {
        let one = Self::one(self.basis, self.is_by_volume()).ok_or_else(|| Error::new(ErrorCode::WrongQuantity))?;
        let units: Ratio = self.amount.over(one.amount)?.claim()?;
        positive(units).map_err(|error| error.given(self.amount)).map(|_| self)
    }
}
