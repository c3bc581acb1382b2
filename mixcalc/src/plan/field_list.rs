//! The field list: everything to take along for a job, so that nobody has to go back with an open container.

use alloc::vec::Vec;

use super::{Cleared, Plan, Total};
use crate::error::Error;
use crate::label::{Product, Protection};
use crate::measure::{Amount, Measure};
use crate::quantity::{Ratio, Volume, not_negative};
use crate::sprayer::{Residual, asked_of_rinse_tank};
use crate::text;

/// Water for washing hands. ISO 4254-6: a tank of at least 15 L on the machine (probable).
const HANDS_LITERS: f64 = 15.0;
/// Water for flushing eyes. 40 CFR 170.509: 6 US gallons where the label asks for eye protection (probable).
const EYES_US_GALLONS: f64 = 6.0;

/// Clean water that is taken along beside the carrier; what is not stated is as advised.
///
/// ```
/// use mixcalc::{CleanWater, Volume};
///
/// let water = CleanWater::new().with_hands(Volume::from_liters(20.0)?)?;
/// assert_eq!(water.hands().to_string(), "20 L");
/// assert_eq!(water.eyes(), Volume::from_us_gallons(6.0)?);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CleanWater {
    hands: Option<Volume>,
    eyes: Option<Volume>,
    tank_rinse: Option<Volume>,
}

impl CleanWater {
    /// As advised.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// States the water for washing hands.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](crate::ErrorCode::OutOfRange) for less than nothing.
    pub fn with_hands(mut self, water: Volume) -> Result<Self, Error> {
        self.hands = Some(not_negative(water).map_err(|error| error.at("hands"))?);
        Ok(self)
    }

    /// States the water for flushing eyes.
    ///
    /// # Errors
    ///
    /// As [`with_hands`](Self::with_hands).
    pub fn with_eyes(mut self, water: Volume) -> Result<Self, Error> {
        self.eyes = Some(not_negative(water).map_err(|error| error.at("eyes"))?);
        Ok(self)
    }

    /// States the water for rinsing the tank after spraying.
    ///
    /// # Errors
    ///
    /// As [`with_hands`](Self::with_hands).
    pub fn with_tank_rinse(mut self, water: Volume) -> Result<Self, Error> {
        self.tank_rinse = Some(not_negative(water).map_err(|error| error.at("tank_rinse"))?);
        Ok(self)
    }

    /// For washing hands: what is stated, or 15 L.
    ///
    /// # Source
    ///
    /// ISO 4254-6 (probable).
    #[must_use]
    pub fn hands(&self) -> Volume {
        self.hands.unwrap_or(Volume::from_liters(HANDS_LITERS).unwrap_or_default())
    }

    /// For flushing eyes: what is stated, or 6 US gallons.
    ///
    /// # Source
    ///
    /// 40 CFR 170.509 (probable).
    #[must_use]
    pub fn eyes(&self) -> Volume {
        self.eyes.unwrap_or(Volume::from_us_gallons(EYES_US_GALLONS).unwrap_or_default())
    }

    /// What is stated of hands, eyes and the tank's rinse.
    pub(crate) const fn stated(&self) -> [Option<Volume>; 3] {
        [self.hands, self.eyes, self.tank_rinse]
    }
}

/// The clean water to take along, by what it is for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaterToTake {
    carrier: Volume,
    measure_rinses: Volume,
    container_rinses: Volume,
    tank_rinse: Volume,
    hands: Volume,
    eyes: Volume,
}

impl WaterToTake {
    /// For all loads: the carrier, the rinses of measures and containers among it.
    #[must_use]
    pub const fn carrier(self) -> Volume {
        self.carrier
    }

    /// What of that is for rinsing measures.
    #[must_use]
    pub const fn measure_rinses(self) -> Volume {
        self.measure_rinses
    }

    /// What of that is for rinsing emptied containers.
    #[must_use]
    pub const fn container_rinses(self) -> Volume {
        self.container_rinses
    }

    /// For rinsing the tank after spraying: what the job states, or the greater of a tenth of the tank's nominal volume and ten times the
    /// dilutable residual.
    ///
    /// # Source
    ///
    /// ISO 16119-2, which asks for one of the two of a new machine.
    #[must_use]
    pub const fn tank_rinse(self) -> Volume {
        self.tank_rinse
    }

    /// For washing hands.
    #[must_use]
    pub const fn hands(self) -> Volume {
        self.hands
    }

    /// For flushing eyes.
    #[must_use]
    pub const fn eyes(self) -> Volume {
        self.eyes
    }

    /// In all.
    #[must_use]
    pub fn total(self) -> Volume {
        self.carrier + self.tank_rinse + self.hands + self.eyes
    }
}

/// A product to take along.
#[derive(Clone, Copy, Debug)]
pub struct ProductToTake<'plan> {
    product: &'plan Product,
    total: Total<'plan>,
}

impl<'plan> ProductToTake<'plan> {
    /// The product's name.
    #[must_use]
    pub fn name(&self) -> &'plan str {
        self.product.name()
    }

    /// What all loads take of it, as it is measured.
    #[must_use]
    pub const fn amount(&self) -> Amount {
        self.total.measured()
    }

    /// How many of its containers go along, the one that is open among them; `None` where the job states none.
    #[must_use]
    pub fn containers(&self) -> Option<u64> {
        let used = self.total.containers()?;
        Some(used.opened() + u64::from(used.is_open()))
    }

    /// How many of them are still to be bought, where it is stated how many there are.
    #[must_use]
    pub fn buy(&self) -> Option<u64> {
        self.total.containers()?.buy()
    }
}

/// Everything to take along for a job: products, clean water, measures, and what labels ask to be worn.
#[derive(Clone, Debug)]
pub struct FieldList<'plan> {
    products: Vec<ProductToTake<'plan>>,
    water: WaterToTake,
    measures: Vec<&'plan Measure>,
    mixing: Vec<&'plan str>,
    spraying: Vec<&'plan str>,
    unstated: Vec<&'plan str>,
}

impl<'plan> FieldList<'plan> {
    fn of(cleared: &Cleared<'plan>) -> Self {
        let plan = cleared.plan();
        let products = plan.job.products();
        let protection = || products.iter().filter_map(|product| product.label().protection());
        Self {
            products: products
                .iter()
                .zip(cleared.totals())
                .map(|(product, total)| ProductToTake { product, total })
                .collect(),
            water: plan.water_to_take(cleared),
            measures: told_once(cleared.totals().flat_map(|total| total.drawn()).map(|(measure, _)| measure)),
            mixing: told_once(protection().flat_map(Protection::mixing)),
            spraying: told_once(protection().flat_map(Protection::spraying)),
            unstated: products
                .iter()
                .filter(|product| product.label().protection().is_none())
                .map(Product::name)
                .collect(),
        }
    }

    /// The products, in the order of the job.
    #[must_use]
    pub fn products(&self) -> &[ProductToTake<'plan>] {
        &self.products
    }

    /// The clean water.
    #[must_use]
    pub const fn water(&self) -> WaterToTake {
        self.water
    }

    /// The measures that amounts are measured with.
    #[must_use]
    pub fn measures(&self) -> &[&'plan Measure] {
        &self.measures
    }

    /// What the labels ask to be worn for mixing, as they say it; what several say is told once.
    #[must_use]
    pub fn worn_for_mixing(&self) -> &[&'plan str] {
        &self.mixing
    }

    /// What the labels ask to be worn for spraying, as they say it; what several say is told once.
    #[must_use]
    pub fn worn_for_spraying(&self) -> &[&'plan str] {
        &self.spraying
    }

    /// The products of which the job does not state what their labels ask to be worn: look there.
    #[must_use]
    pub fn protection_unstated(&self) -> &[&'plan str] {
        &self.unstated
    }

    /// What a spill kit holds.
    #[must_use]
    pub const fn spill_kit(&self) -> &'static str {
        text::SPILL_KIT
    }
}

/// Each thing once, in the order in which it comes first.
fn told_once<T: PartialEq>(things: impl Iterator<Item = T>) -> Vec<T> {
    things.fold(Vec::new(), |mut told, thing| {
        if !told.contains(&thing) {
            told.push(thing);
        }
        told
    })
}

impl<'plan> Cleared<'plan> {
    /// Everything to take along for the job: products and their containers, all clean water, measures, what the labels ask to be worn, and a spill
    /// kit. Water for hands, eyes and the tank is what the job states, or as advised.
    ///
    /// # Example
    ///
    /// 100 L of mix with 1 L of product: 99 L of carrier, 10 L for the tank of 100 L, 15 L for hands and 22.71 L for eyes.
    ///
    /// ```
    /// use mixcalc::*;
    ///
    /// let tank = Tank::new(Some(Volume::read("100 L")?), Some(Volume::read("110 L")?))?;
    /// let job = Job::new(Area::read("1 ha")?, Rate::Volume(VolumeRate::read("100 L/ha")?), Sprayer::new(SprayerKind::Boom), tank)?
    ///     .with_product(Product::new("example product A", LiquidDose::read("1 L/ha")?)?)?
    ///     .with_measure(Measure::vessel(Volume::read("1 L")?, Volume::read("10 mL")?)?)?;
    /// let plan = mixcalc::plan(&job)?;
    /// let list = plan.cleared().expect("no stop stands against this plan").field_list();
    /// assert_eq!(list.water().total().to_string(), "146.7 L");
    /// assert_eq!(list.protection_unstated(), ["example product A"]);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// `docs/numbers.md`, 24.
    #[must_use]
    pub fn field_list(&self) -> FieldList<'plan> {
        FieldList::of(self)
    }
}

impl Plan {
    /// The field list, where the job asks for one and no stop stands.
    #[must_use]
    pub fn field_list_asked(&self) -> Option<FieldList<'_>> {
        self.job.field_list()?;
        Some(self.cleared()?.field_list())
    }

    fn water_to_take(&self, cleared: &Cleared<'_>) -> WaterToTake {
        let (stated, carrier) = (self.job.field_list().unwrap_or_default(), cleared.ledger().carrier());
        WaterToTake {
            carrier: carrier.drawn(),
            measure_rinses: carrier.rinses(),
            container_rinses: carrier.container_rinses().unwrap_or(Volume::ZERO),
            tank_rinse: stated.tank_rinse.unwrap_or_else(|| self.advised_tank_rinse()),
            hands: stated.hands(),
            eyes: stated.eyes(),
        }
    }

    /// A tenth of the tank, or ten times what dilutes in it where that is more: water that is taken along may be left, and must not be short.
    fn advised_tank_rinse(&self) -> Volume {
        let tank = self.job.tank();
        let (part, times) = asked_of_rinse_tank();
        let dilutable = self.job.sprayer().residual().map_or(Volume::ZERO, Residual::dilutable);
        (tank.nominal().or(tank.brim()).unwrap_or(Volume::ZERO) * part).max(dilutable * Ratio::of_steps(times))
    }
}
