//! The job: everything that a plan is made from.

use alloc::format;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::Ground;
use super::delivered::Pass;
use super::field_list::CleanWater;
use super::order::Mixing;
use super::start::TankStart;
use crate::error::{Error, ErrorCode};
use crate::label::{Basis, Crop, Dose, MixGroup, PerCrop, Product, Season, Stand, State, Water};
use crate::measure::{Measure, MeasureKind};
use crate::quantity::{Area, Density, Quantity, System, Volume, VolumeRate, not_negative, positive};
use crate::sprayer::{Calibration, CalibrationRecord, Sprayer, Tank};
use crate::text;

/// What the sprayer is set to. There is no default between the two: guessing would be a dosing error.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Rate {
    /// Volume of mix per ground area: the products are inside it.
    Volume(VolumeRate),
    /// Volume of carrier per ground area: the products come on top.
    Carrier(VolumeRate),
    /// Volume of mix for each unit of what the crop is counted in.
    VolumePerCrop(PerCrop),
    /// Volume of carrier for each unit of what the crop is counted in.
    CarrierPerCrop(PerCrop),
}

impl Rate {
    /// Volume of mix, products inside.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a quantity that is no volume on this basis; mix and carrier are none.
    pub fn volume_on(quantity: Quantity, basis: Basis) -> Result<Self, Error> {
        Self::on(quantity, basis, Self::Volume, Self::VolumePerCrop)
    }

    /// Volume of carrier, products on top.
    ///
    /// # Errors
    ///
    /// As [`volume_on`](Self::volume_on).
    pub fn carrier_on(quantity: Quantity, basis: Basis) -> Result<Self, Error> {
        Self::on(quantity, basis, Self::Carrier, Self::CarrierPerCrop)
    }

    fn on(
        quantity: Quantity,
        basis: Basis,
        on_ground: fn(VolumeRate) -> Self,
        on_crop: fn(PerCrop) -> Self,
    ) -> Result<Self, Error> {
        match basis {
            Basis::GroundArea => quantity.claim().map(on_ground),
            _ => match Dose::claim(quantity, Some(basis))? {
                Dose::PerCrop(volume) if volume.is_by_volume() => Ok(on_crop(volume)),
                _ => Err(Error::new(ErrorCode::WrongQuantity).given(quantity).allowed(text::volume_examples(basis))),
            },
        }
    }

    /// The key that states it.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Volume(_) | Self::VolumePerCrop(_) => "volume_rate",
            Self::Carrier(_) | Self::CarrierPerCrop(_) => "carrier_rate",
        }
    }

    /// What it is counted on.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            Self::Volume(_) | Self::Carrier(_) => Basis::GroundArea,
            Self::VolumePerCrop(volume) | Self::CarrierPerCrop(volume) => volume.basis(),
        }
    }

    /// The volume for each unit of its basis.
    #[must_use]
    pub fn stated(self) -> Quantity {
        match self {
            Self::Volume(rate) | Self::Carrier(rate) => rate.into(),
            Self::VolumePerCrop(volume) | Self::CarrierPerCrop(volume) => volume.amount(),
        }
    }

    fn positive(self) -> Result<Self, Error> {
        match self {
            Self::Volume(rate) => positive(rate).map(Self::Volume),
            Self::Carrier(rate) => positive(rate).map(Self::Carrier),
            Self::VolumePerCrop(volume) => volume.positive().map(Self::VolumePerCrop),
            Self::CarrierPerCrop(volume) => volume.positive().map(Self::CarrierPerCrop),
        }
        .map_err(|error| error.at(self.key()))
    }
}

/// How the mix is divided into loads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Split {
    /// Full loads, then one part load.
    #[default]
    FullThenPart,
    /// As few loads as fit, of one size.
    Even,
}

impl Split {
    /// The ways to split.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::FullThenPart, Self::Even]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::FullThenPart => "full-then-part",
            Self::Even => "even",
        }
    }
}

/// Ground left untreated on purpose, to take the diluted rinse water.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum LastStrip {
    /// So much ground.
    Area(Area),
    /// So much mix held back.
    Volume(Volume),
}

/// How the mix is divided into loads, what is kept for the rinse water, and how often a measure may be filled for one amount.
///
/// ```
/// use mixcalc::{Area, LastStrip, Loading, Split};
///
/// let loading = Loading::new().with_split(Split::Even).with_last_strip(LastStrip::Area(Area::from_square_meters(150.0)?))?;
/// assert_eq!((loading.split(), loading.max_fillings()), (Split::Even, 2));
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loading {
    split: Split,
    last_strip: Option<LastStrip>,
    max_fillings: u64,
}

impl Default for Loading {
    fn default() -> Self {
        Self::new()
    }
}

impl Loading {
    /// Full loads and one part load, no strip, two fillings of a measure for one amount.
    #[must_use]
    pub const fn new() -> Self {
        Self { split: Split::FullThenPart, last_strip: None, max_fillings: MAX_FILLINGS }
    }

    /// States how the mix is divided into loads.
    #[must_use]
    pub const fn with_split(mut self, split: Split) -> Self {
        self.split = split;
        self
    }

    /// Keeps a last strip for the rinse water.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for less than nothing.
    pub fn with_last_strip(mut self, strip: LastStrip) -> Result<Self, Error> {
        match strip {
            LastStrip::Area(area) => not_negative(area).map(|_| ()).map_err(|error| error.at("area")),
            LastStrip::Volume(volume) => not_negative(volume).map(|_| ()).map_err(|error| error.at("volume")),
        }
        .map_err(|error| error.at("last_strip"))?;
        self.last_strip = Some(strip);
        Ok(self)
    }

    /// States how many fillings of a measure one amount may take before a caution.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for none, and for over a million.
    pub fn with_max_fillings(mut self, fillings: u64) -> Result<Self, Error> {
        if !(1..=MOST_FILLINGS).contains(&fillings) {
            let error = Error::new(ErrorCode::OutOfRange).at("max_fillings");
            return Err(error.given(fillings).allowed(text::FILLINGS));
        }
        self.max_fillings = fillings;
        Ok(self)
    }

    /// How the mix is divided into loads.
    #[must_use]
    pub const fn split(&self) -> Split {
        self.split
    }

    /// The last strip, where one is kept.
    #[must_use]
    pub const fn last_strip(&self) -> Option<LastStrip> {
        self.last_strip
    }

    /// How many fillings of a measure one amount may take before a caution.
    #[must_use]
    pub const fn max_fillings(&self) -> u64 {
        self.max_fillings
    }
}

/// Most products of a job, and most measures at hand: far more than anybody has, and few enough to hold each against every other.
const MOST_AT_HAND: usize = 1000;

/// Fillings of a measure for one amount, before a caution: each is a splash and a miscount.
pub(crate) const MAX_FILLINGS: u64 = 2;

/// Most fillings before a caution that a job may ask for: far over what anybody pours.
const MOST_FILLINGS: u64 = 1_000_000;

/// A job: ground, rate, products, measures, sprayer, tank, loading. Cheap to clone.
///
/// ```
/// use mixcalc::{Area, Job, LiquidDose, Measure, Product, Rate, Sprayer, SprayerKind, Tank, Volume, VolumeRate};
///
/// let job = Job::new(
///     Area::from_hectares(1.2)?,
///     Rate::Volume(VolumeRate::from_liters_per_hectare(200.0)?),
///     Sprayer::new(SprayerKind::Boom),
///     Tank::of_nominal(Volume::from_liters(100.0)?)?,
/// )?
/// .with_product(Product::new("example product A", LiquidDose::from_liters_per_hectare(1.5)?)?)?
/// .with_measure(Measure::vessel(Volume::from_liters(1.0)?, Volume::from_milliliters(10.0)?)?)?;
/// let plan = mixcalc::plan(&job)?;
/// assert_eq!(plan.load_count(), 3);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Job(Arc<Fields>);

#[derive(Clone, Debug, PartialEq)]
struct Fields {
    title: Option<Arc<str>>,
    units: System,
    ground: Ground,
    crop: Crop,
    rate: Rate,
    mix_density: Option<Density>,
    products: Vec<Product>,
    measures: Vec<Measure>,
    sprayer: Sprayer,
    tank: Tank,
    loading: Loading,
    season: Option<Season>,
    mixing: Option<Mixing>,
    calibration: Option<(CalibrationRecord, Calibration)>,
    pass: Option<Pass>,
    water: Option<Water>,
    start: Option<TankStart>,
    field_list: Option<CleanWater>,
}

impl Job {
    /// A job on an area at a rate, as yet with carrier alone: products, measures and the rest are added to it.
    ///
    /// * `ground`: an [`Area`] to be treated, or a [`Ground`]: field, buffers, overlap.
    /// * `rate`: volume per ground area, of mix (products inside) or of carrier (products on top).
    /// * `sprayer`, `tank`: they give the safe fill.
    ///
    /// # Errors
    ///
    /// At `area`, `volume_rate` or `carrier_rate`: [`NotPositive`](ErrorCode::NotPositive) for one that is not above zero;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a size that nobody measures. There is no other cause of failure.
    ///
    /// # Example
    ///
    /// 0.5 ha at 300 L/ha take 150 L; the tank is filled to its nominal 16 L, so there are nine full loads, 144 L, and one of 6 L.
    ///
    /// ```
    /// use mixcalc::{Area, Job, Rate, Sprayer, SprayerKind, Tank, Volume, VolumeRate};
    ///
    /// let job = Job::new(
    ///     Area::from_hectares(0.5)?,
    ///     Rate::Volume(VolumeRate::from_liters_per_hectare(300.0)?),
    ///     Sprayer::new(SprayerKind::Knapsack),
    ///     Tank::new(Some(Volume::from_liters(16.0)?), Some(Volume::from_liters(18.0)?))?,
    /// )?;
    /// let plan = mixcalc::plan(&job)?;
    /// let loads: Vec<_> = plan.loads().iter().map(|load| (load.count(), load.mix().to_string())).collect();
    /// assert_eq!(loads, [(9, "16 L".to_string()), (1, "6 L".to_string())]);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    pub fn new(ground: impl Into<Ground>, rate: Rate, sprayer: Sprayer, tank: Tank) -> Result<Self, Error> {
        let ground = ground.into();
        positive(ground.treated()).map_err(|error| error.at("area"))?;
        let rate = rate.positive()?;
        Ok(Self(Arc::new(Fields {
            title: None,
            units: System::Metric,
            ground,
            crop: Crop::new(),
            rate,
            mix_density: None,
            products: Vec::new(),
            measures: Vec::new(),
            sprayer,
            tank,
            loading: Loading::new(),
            season: None,
            mixing: None,
            calibration: None,
            pass: None,
            water: None,
            start: None,
            field_list: None,
        })))
    }

    /// A job without products, measures and title, whose volume rate is the one that was calibrated: mix, products inside.
    ///
    /// # Errors
    ///
    /// As [`new`](Self::new), and at `calibration` as [`CalibrationRecord::calibration`].
    pub fn calibrated(
        ground: impl Into<Ground>,
        record: CalibrationRecord,
        sprayer: Sprayer,
        tank: Tank,
    ) -> Result<Self, Error> {
        let calibration = record.calibration().map_err(|error| error.at("calibration"))?;
        let rate = positive(calibration.volume_rate().value()).map_err(|error| error.at("calibration"))?;
        let job = Self::new(ground, Rate::Volume(rate), sprayer, tank)?;
        Ok(job.changed(|fields| fields.calibration = Some((record, calibration))))
    }

    fn changed(mut self, change: impl FnOnce(&mut Fields)) -> Self {
        change(Arc::make_mut(&mut self.0));
        self
    }

    /// Gives it a title.
    #[must_use]
    pub fn with_title(self, title: &str) -> Self {
        self.changed(|fields| fields.title = Some(title.into()))
    }

    /// States whose measures people are shown.
    #[must_use]
    pub fn in_units(self, units: System) -> Self {
        self.changed(|fields| fields.units = units)
    }

    /// States the density of the mix.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a density that is not above zero.
    pub fn with_mix_density(self, density: Density) -> Result<Self, Error> {
        let density = positive(density).map_err(|error| error.at("mix_density"))?;
        Ok(self.changed(|fields| fields.mix_density = Some(density)))
    }

    /// States the geometry of the crop, which doses and rates on bases of the crop are counted on.
    ///
    /// # Errors
    ///
    /// [`BothGiven`](ErrorCode::BothGiven) where plants are counted in two ways, or both bands and the area of spots are stated;
    /// [`MissingInput`](ErrorCode::MissingInput) and [`OutOfRange`](ErrorCode::OutOfRange) where bands have no rows, or are wider than them.
    pub fn with_crop(self, crop: Crop) -> Result<Self, Error> {
        crop.checked().map_err(|error| error.at("crop"))?;
        if crop.has_bands() {
            crop.treated_share(self.area())?;
        }
        Ok(self.changed(|fields| fields.crop = crop))
    }

    /// Adds a product. Products go into the tank in the order in which they are added, unless [`with_mixing`](Self::with_mixing) asks for
    /// another.
    ///
    /// # Errors
    ///
    /// [`DuplicateName`](ErrorCode::DuplicateName) for a name that another product has;
    /// [`MissingInput`](ErrorCode::MissingInput) for one in sealed bags without a pack as its measure, for a bag is not divided;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for the thousand-and-first.
    pub fn with_product(self, product: Product) -> Result<Self, Error> {
        one_more("products", self.products().len())?;
        if self.products().iter().any(|other| other.name() == product.name()) {
            let place = format!("products[{}].name", self.products().len());
            return Err(Error::new(ErrorCode::DuplicateName).at(place).given(text::quoted(product.name())));
        }
        let is_in_bags = product.formulation().is_some_and(|formulation| formulation.group() == MixGroup::SolubleBag);
        if is_in_bags && product.measure().is_none_or(|measure| measure.kind() != MeasureKind::Pack) {
            let place = format!("products[{}].measure", self.products().len());
            let wanted = text::word("measure of kind \"pack\", with what one bag holds as its graduation");
            return Err(Error::new(ErrorCode::MissingInput).at(place).allowed(wanted));
        }
        let rinses_unknown = product.containers().is_some_and(|containers| containers.is_rinsed() == Some(true));
        if rinses_unknown && product.container_rinse().is_none() {
            let key = if product.state() == State::Dry { "bulk_density" } else { "density" };
            let place = format!("products[{}].{key}", self.products().len());
            return Err(Error::new(ErrorCode::MissingInput).at(place).allowed(text::CONTAINER_VOLUME));
        }
        Ok(self.changed(|fields| fields.products.push(product)))
    }

    /// The same job with its products at other doses.
    pub(super) fn with_products(&self, products: Vec<Product>) -> Self {
        self.clone().changed(|fields| fields.products = products)
    }

    /// Adds a measure that is at hand.
    ///
    /// # Errors
    ///
    /// [`DuplicateName`](ErrorCode::DuplicateName) for a name that another measure has;
    /// [`UnknownChoice`](ErrorCode::UnknownChoice) for a pack, which belongs to one product;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for the thousand-and-first.
    pub fn with_measure(self, measure: Measure) -> Result<Self, Error> {
        one_more("measures", self.measures().len())?;
        let place = |key: &str| format!("measures[{}].{key}", self.measures().len());
        if measure.kind() == MeasureKind::Pack {
            return Err(Error::new(ErrorCode::UnknownChoice)
                .at(place("kind"))
                .given(text::quoted(measure.kind().name()))
                .allowed(text::word("vessel or scale, and the pack as the measure of its product")));
        }
        if self.measures().iter().any(|other| other.name() == measure.name()) {
            return Err(Error::new(ErrorCode::DuplicateName).at(place("name")).given(text::quoted(measure.name())));
        }
        Ok(self.changed(|fields| fields.measures.push(measure)))
    }

    /// States how the mix is divided into loads.
    #[must_use]
    pub fn with_loading(self, loading: Loading) -> Self {
        self.changed(|fields| fields.loading = loading)
    }

    /// States what limits over time are held against. Whether it goes with the products is looked at when the job is planned.
    #[must_use]
    pub fn with_season(self, season: Season) -> Self {
        self.changed(|fields| fields.season = Some(season))
    }

    /// What limits over time are held against, where that is stated.
    #[must_use]
    pub fn season(&self) -> Option<&Season> {
        self.0.season.as_ref()
    }

    #[cfg(feature = "document")]
    pub(crate) fn with_checked_season(self) -> Result<Self, Error> {
        super::season::checked(&self).map(|()| self)
    }

    /// Asks for a mixing order; without one the products go into the tank in the order of the job.
    #[must_use]
    pub fn with_mixing(self, mixing: Mixing) -> Self {
        self.changed(|fields| fields.mixing = Some(mixing))
    }

    /// What is in the water that is the carrier.
    #[must_use]
    pub fn with_water(self, water: Water) -> Self {
        self.changed(|fields| fields.water = Some(water))
    }

    /// What is in the water, where that is stated.
    #[must_use]
    pub fn water(&self) -> Option<Water> {
        self.0.water
    }

    /// States what the tank holds before the first load; else it is empty.
    #[must_use]
    pub fn with_start(self, start: TankStart) -> Self {
        self.changed(|fields| fields.start = Some(start))
    }

    /// What the tank holds before the first load, where that is stated.
    #[must_use]
    pub fn start(&self) -> Option<&TankStart> {
        self.0.start.as_ref()
    }

    /// Asks for the field list on the sheet and in documents, with the clean water that is taken along beside the carrier.
    #[must_use]
    pub fn with_field_list(self, water: CleanWater) -> Self {
        self.changed(|fields| fields.field_list = Some(water))
    }

    /// The clean water of the field list, where one is asked for.
    #[must_use]
    pub fn field_list(&self) -> Option<CleanWater> {
        self.0.field_list
    }

    /// The sprayer's passes over the ground: where loads run out is told in them.
    #[must_use]
    pub fn with_pass(self, pass: Pass) -> Self {
        self.changed(|fields| fields.pass = Some(pass))
    }

    /// The calibration that its volume rate is from, and its record.
    #[must_use]
    pub fn calibration(&self) -> Option<(&CalibrationRecord, &Calibration)> {
        self.0.calibration.as_ref().map(|(record, calibration)| (record, calibration))
    }

    /// The sprayer's passes over the ground.
    #[must_use]
    pub fn pass(&self) -> Option<Pass> {
        self.0.pass
    }

    /// The title, where there is one.
    #[must_use]
    pub fn title(&self) -> Option<&str> {
        self.0.title.as_deref()
    }

    /// Whose measures people are shown.
    #[must_use]
    pub fn units(&self) -> System {
        self.0.units
    }

    /// The ground to be treated.
    #[must_use]
    pub fn area(&self) -> Area {
        self.0.ground.treated()
    }

    /// The ground: field, buffers and overlap.
    #[must_use]
    pub fn ground(&self) -> &Ground {
        &self.0.ground
    }

    /// The crop, as far as it is stated.
    #[must_use]
    pub fn crop(&self) -> &Crop {
        &self.0.crop
    }

    /// The crop on the ground to be treated.
    pub(crate) fn stand(&self) -> Stand {
        Stand { crop: *self.crop(), area: self.area() }
    }

    /// What the sprayer is set to.
    #[must_use]
    pub fn rate(&self) -> Rate {
        self.0.rate
    }

    /// The density of the mix, where stated.
    #[must_use]
    pub fn mix_density(&self) -> Option<Density> {
        self.0.mix_density
    }

    /// The products, in the order in which they go into the tank where no mixing order is asked for.
    #[must_use]
    pub fn products(&self) -> &[Product] {
        &self.0.products
    }

    /// The measures at hand.
    #[must_use]
    pub fn measures(&self) -> &[Measure] {
        &self.0.measures
    }

    /// The sprayer.
    #[must_use]
    pub fn sprayer(&self) -> &Sprayer {
        &self.0.sprayer
    }

    /// The tank.
    #[must_use]
    pub fn tank(&self) -> &Tank {
        &self.0.tank
    }

    /// How the mix is divided into loads.
    #[must_use]
    pub fn loading(&self) -> Loading {
        self.0.loading
    }

    /// The mixing order that is asked for, where one is.
    #[must_use]
    pub fn mixing(&self) -> Option<Mixing> {
        self.0.mixing
    }
}

/// Refuses one more than the most.
fn one_more(key: &'static str, count: usize) -> Result<(), Error> {
    if count < MOST_AT_HAND {
        return Ok(());
    }
    let most = format_args!("{} {MOST_AT_HAND}", text::word("at most"));
    Err(Error::new(ErrorCode::OutOfRange).at(key).given(count + 1).allowed(most))
}
