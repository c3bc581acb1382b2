//! Products: formulation, active substances, densities, the dose on any basis, and what the label limits.

mod amount;

use alloc::string::String;
use alloc::sync::Arc;
use alloc::vec::Vec;

pub use amount::*;

use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Force, Limit};
use crate::measure::{Amount, Measure, MeasureKind};
use crate::quantity::{
    BulkDensity, Content, Density, Kind, LiquidDose, MassConcentration, MassFraction, ParticleDensity, Quantity, Ratio,
    SolidDose, Volume, VolumeFraction, VolumeRate, not_negative, positive,
};
use crate::text::{self, legible_name};

/// How a product behaves when it is measured and poured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum State {
    /// Powder, granules, tablets.
    Dry,
    /// Runs like a liquid.
    Liquid,
    /// A gel or paste, or a liquid that does not run out by itself.
    Viscous,
}

/// Formulation types that are mixed with water: code, name, state.
///
/// Source: `CropLife` International, Technical Monograph No. 2, 7th edition, 2017.
const FORMULATIONS: &[(&str, &str, State)] = &[
    ("WP", "wettable powder", State::Dry),
    ("WG", "water-dispersible granule", State::Dry),
    ("WT", "water-dispersible tablet", State::Dry),
    ("EG", "emulsifiable granule", State::Dry),
    ("EP", "emulsifiable powder", State::Dry),
    ("SP", "water-soluble powder", State::Dry),
    ("SG", "water-soluble granule", State::Dry),
    ("ST", "water-soluble tablet", State::Dry),
    ("SC", "suspension concentrate", State::Liquid),
    ("CS", "capsule suspension", State::Liquid),
    ("ZC", "mixed capsule suspension and suspension concentrate", State::Liquid),
    ("SE", "suspo-emulsion", State::Liquid),
    ("ZE", "mixed capsule suspension and suspo-emulsion", State::Liquid),
    ("OD", "oil dispersion", State::Liquid),
    ("EW", "emulsion, oil in water", State::Liquid),
    ("EO", "emulsion, water in oil", State::Liquid),
    ("ME", "micro-emulsion", State::Liquid),
    ("ZW", "mixed capsule suspension and emulsion", State::Liquid),
    ("EC", "emulsifiable concentrate", State::Liquid),
    ("DC", "dispersible concentrate", State::Liquid),
    ("SL", "soluble concentrate", State::Liquid),
    ("SO", "spreading oil", State::Liquid),
    ("GL", "emulsifiable gel", State::Viscous),
    ("GW", "water-soluble gel", State::Viscous),
    ("PA", "paste", State::Viscous),
];

/// A formulation type by its two-letter international code.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Formulation {
    code: &'static str,
    name: &'static str,
    state: State,
}

impl Formulation {
    /// The formulation type of a two-letter code, such as `SC`.
    ///
    /// # Errors
    ///
    /// [`UnknownChoice`](ErrorCode::UnknownChoice) for a code that is not of a product mixed with water.
    pub fn read(code: &str) -> Result<Self, Error> {
        FORMULATIONS
            .iter()
            .find(|(known, _, _)| *known == code)
            .map(|(code, name, state)| Self { code, name, state: *state })
            .ok_or_else(|| {
                let known: Vec<&str> = FORMULATIONS.iter().map(|(code, _, _)| *code).collect();
                Error::new(ErrorCode::UnknownChoice).given(text::quoted(code)).allowed(text::one_of(&known))
            })
    }

    /// The code.
    #[must_use]
    pub const fn code(self) -> &'static str {
        self.code
    }

    /// What the code stands for.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.name
    }

    /// How it is measured and poured.
    #[must_use]
    pub const fn state(self) -> State {
        self.state
    }
}

/// How much of an active substance a product holds.
#[derive(Clone, Debug, PartialEq)]
pub struct ActiveSubstance {
    name: Arc<str>,
    content: SubstanceContent,
}

/// Content per volume or per mass of a product.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum SubstanceContent {
    /// Mass per volume of product, such as 250 g/L.
    PerVolume(Content),
    /// Mass per mass of product, such as 500 g/kg.
    PerMass(MassFraction),
}

impl ActiveSubstance {
    /// A substance and its content.
    ///
    /// # Errors
    ///
    /// At `content` [`NotPositive`](ErrorCode::NotPositive) for one that is not above zero; at `name` as
    /// [`Product::new`](Product::new).
    pub fn new(name: &str, content: SubstanceContent) -> Result<Self, Error> {
        match content {
            SubstanceContent::PerVolume(content) => positive(content).map(|_| ()),
            SubstanceContent::PerMass(content) => positive(content).map(|_| ()),
        }
        .map_err(|error| error.at("content"))?;
        Ok(Self { name: legible_name(name)?, content })
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its content.
    #[must_use]
    pub const fn content(&self) -> SubstanceContent {
        self.content
    }
}

/// What a dose is counted on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Basis {
    /// Treated ground.
    GroundArea,
    /// Finished mix.
    MixVolume,
    /// Carrier alone, as a label that spells "of carrier" means.
    CarrierVolume,
}

impl Basis {
    /// The bases.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::GroundArea, Self::MixVolume, Self::CarrierVolume]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::GroundArea => "ground-area",
            Self::MixVolume => "mix-volume",
            Self::CarrierVolume => "carrier-volume",
        }
    }
}

/// Amount of a product per unit of a basis.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Dose {
    /// Volume per ground area.
    LiquidPerArea(LiquidDose),
    /// Mass per ground area.
    SolidPerArea(SolidDose),
    /// Volume per volume of finished mix.
    LiquidPerMix(VolumeFraction),
    /// Mass per volume of finished mix.
    SolidPerMix(MassConcentration),
    /// Mass per mass of finished mix; needs the density of the mix.
    MassPerMass(MassFraction),
    /// Volume per volume of carrier.
    LiquidPerCarrier(VolumeFraction),
    /// Mass per volume of carrier.
    SolidPerCarrier(MassConcentration),
}

macro_rules! dose_from {
    ($($kind:ident => $variant:ident;)*) => { $(
        impl From<$kind> for Dose {
            fn from(dose: $kind) -> Self {
                Self::$variant(dose)
            }
        }
    )* };
}

dose_from! {
    LiquidDose => LiquidPerArea;
    SolidDose => SolidPerArea;
    VolumeFraction => LiquidPerMix;
    MassConcentration => SolidPerMix;
    MassFraction => MassPerMass;
}

impl Dose {
    /// Claims a quantity as a dose, on a stated basis or on the one that its dimension implies: ground area for an amount per
    /// area, finished mix for an amount per volume or per mass.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a quantity that is no dose, or not one on this basis;
    /// [`AmbiguousUnit`](ErrorCode::AmbiguousUnit) for a bare percent.
    pub fn claim(quantity: Quantity, basis: Option<Basis>) -> Result<Self, Error> {
        let dose = match (quantity.kind(), basis) {
            (Kind::VolumePerArea | Kind::LiquidDose, None | Some(Basis::GroundArea)) => {
                Self::LiquidPerArea(quantity.claim()?)
            }
            (Kind::MassPerArea | Kind::SolidDose, None | Some(Basis::GroundArea)) => {
                Self::SolidPerArea(quantity.claim()?)
            }
            (Kind::VolumeFraction | Kind::Ratio, None | Some(Basis::MixVolume)) => {
                Self::LiquidPerMix(quantity.claim()?)
            }
            (Kind::MassPerVolume | Kind::MassConcentration, None | Some(Basis::MixVolume)) => {
                Self::SolidPerMix(quantity.claim()?)
            }
            (Kind::MassFraction, None | Some(Basis::MixVolume)) => Self::MassPerMass(quantity.claim()?),
            (Kind::VolumeFraction | Kind::Ratio, Some(Basis::CarrierVolume)) => {
                Self::LiquidPerCarrier(quantity.claim()?)
            }
            (Kind::MassPerVolume | Kind::MassConcentration, Some(Basis::CarrierVolume)) => {
                Self::SolidPerCarrier(quantity.claim()?)
            }
            _ => {
                return Err(Error::new(ErrorCode::WrongQuantity)
                    .given(format_args!("{quantity}, {}", text::with_article(quantity.kind().words())))
                    .allowed(text::dose_examples(basis)));
            }
        };
        Ok(dose)
    }

    /// What it is counted on.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            Self::LiquidPerArea(_) | Self::SolidPerArea(_) => Basis::GroundArea,
            Self::LiquidPerMix(_) | Self::SolidPerMix(_) | Self::MassPerMass(_) => Basis::MixVolume,
            Self::LiquidPerCarrier(_) | Self::SolidPerCarrier(_) => Basis::CarrierVolume,
        }
    }

    /// Whether the product is dosed by volume; by mass otherwise.
    #[must_use]
    pub const fn is_by_volume(self) -> bool {
        matches!(self, Self::LiquidPerArea(_) | Self::LiquidPerMix(_) | Self::LiquidPerCarrier(_))
    }

    fn positive(self) -> Result<Self, Error> {
        match self {
            Self::LiquidPerArea(dose) => positive(dose).map(Self::LiquidPerArea),
            Self::SolidPerArea(dose) => positive(dose).map(Self::SolidPerArea),
            Self::LiquidPerMix(dose) => positive(dose).map(Self::LiquidPerMix),
            Self::SolidPerMix(dose) => positive(dose).map(Self::SolidPerMix),
            Self::MassPerMass(dose) => positive(dose).map(Self::MassPerMass),
            Self::LiquidPerCarrier(dose) => positive(dose).map(Self::LiquidPerCarrier),
            Self::SolidPerCarrier(dose) => positive(dose).map(Self::SolidPerCarrier),
        }
    }

    /// The product's share of the mix.
    pub(crate) fn share(
        self,
        rate: VolumeRate,
        carrier_share: VolumeFraction,
        mix_density: Option<Density>,
    ) -> Result<Share, Error> {
        Ok(match self {
            Self::LiquidPerArea(dose) => Share::Volume(dose / rate),
            Self::SolidPerArea(dose) => Share::Mass(dose / rate),
            Self::LiquidPerMix(fraction) => Share::Volume(fraction),
            Self::SolidPerMix(concentration) => Share::Mass(concentration),
            Self::MassPerMass(fraction) => Share::Mass(fraction * mix_density.ok_or_else(needs_mix_density)?),
            Self::LiquidPerCarrier(fraction) => Share::Volume(fraction * carrier_share.as_ratio()),
            Self::SolidPerCarrier(concentration) => Share::Mass(concentration * carrier_share.as_ratio()),
        })
    }

    /// The amount in a volume of carrier, where it is counted on carrier.
    pub(crate) fn in_carrier(self, carrier: Volume) -> Option<Amount> {
        match self {
            Self::LiquidPerCarrier(fraction) => Some((fraction * carrier).into()),
            Self::SolidPerCarrier(concentration) => Some((concentration * carrier).into()),
            _ => None,
        }
    }
}

pub(crate) fn needs_mix_density() -> Error {
    Error::new(ErrorCode::MissingInput).at("mix_density").allowed(text::example("mix_density", Kind::Density))
}

impl From<Dose> for Quantity {
    fn from(dose: Dose) -> Self {
        match dose {
            Dose::LiquidPerArea(dose) => dose.into(),
            Dose::SolidPerArea(dose) => dose.into(),
            Dose::LiquidPerMix(dose) | Dose::LiquidPerCarrier(dose) => dose.into(),
            Dose::SolidPerMix(dose) | Dose::SolidPerCarrier(dose) => dose.into(),
            Dose::MassPerMass(dose) => dose.into(),
        }
    }
}

/// A product's share of the mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Share {
    Volume(VolumeFraction),
    Mass(MassConcentration),
}

impl From<Share> for Quantity {
    fn from(share: Share) -> Self {
        match share {
            Share::Volume(fraction) => fraction.into(),
            Share::Mass(concentration) => concentration.into(),
        }
    }
}

impl Share {
    /// The amount in a volume of mix.
    pub(crate) fn of(self, mix: Volume) -> Amount {
        match self {
            Self::Volume(fraction) => Amount::Volume(fraction * mix),
            Self::Mass(concentration) => Amount::Mass(concentration * mix),
        }
    }
}

/// What a product takes up, on the basis of its dose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Displacement {
    Area(LiquidDose),
    Mix(VolumeFraction),
    Carrier(VolumeFraction),
}

/// What a product's label limits, and where it says so.
///
/// A label without a largest dose has the dose itself as its maximum. Its limits are checked when a product takes it
/// ([`Product::with_label`]), and held against a job by [`plan`](crate::plan()), where a limit that is broken is no error but a
/// stop: the plan then has no measured amounts, no steps and no sheet.
///
/// # Example
///
/// 2.5 L/ha of a product whose label allows 2 L/ha:
///
/// ```
/// use mixcalc::*;
///
/// let label = Label::new().with_max_dose(LiquidDose::read("2 L/ha")?).with_source("label, section 3");
/// let product = Product::new("example product A", LiquidDose::read("2.5 L/ha")?)?.with_label(label)?;
/// let rate = Rate::Volume(VolumeRate::read("200 L/ha")?);
/// let tank = Tank::of_nominal(Volume::read("100 L")?)?;
/// let job = Job::new(Area::read("1.2 ha")?, rate, Sprayer::new(SprayerKind::Boom), tank)?
///     .with_product(product)?
///     .with_measure(Measure::vessel(Volume::read("2 L")?, Volume::read("20 mL")?)?)?;
///
/// let plan = mixcalc::plan(&job)?;
/// let stop = &plan.findings()[0];
/// assert_eq!((stop.code(), stop.path()), (FindingCode::OverMaximumDose, "products[0].dose"));
/// assert_eq!(stop.limit().unwrap().source(), "label, section 3");
/// assert!(plan.cleared().is_none());
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Label {
    pub(crate) max_dose: Option<Dose>,
    pub(crate) min_volume_rate: Option<VolumeRate>,
    pub(crate) max_volume_rate: Option<VolumeRate>,
    pub(crate) first_carrier: Option<Ratio>,
    pub(crate) source: Option<Arc<str>>,
}

impl Label {
    /// A label that limits nothing but the dose itself.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The largest dose.
    #[must_use]
    pub fn with_max_dose(mut self, dose: impl Into<Dose>) -> Self {
        self.max_dose = Some(dose.into());
        self
    }

    /// The least volume rate.
    #[must_use]
    pub const fn with_min_volume_rate(mut self, rate: VolumeRate) -> Self {
        self.min_volume_rate = Some(rate);
        self
    }

    /// The largest volume rate.
    #[must_use]
    pub const fn with_max_volume_rate(mut self, rate: VolumeRate) -> Self {
        self.max_volume_rate = Some(rate);
        self
    }

    /// The share of the load that the label wants in the tank before the product.
    #[must_use]
    pub const fn with_first_carrier(mut self, share: Ratio) -> Self {
        self.first_carrier = Some(share);
        self
    }

    /// Where the limits stand.
    #[must_use]
    pub fn with_source(mut self, source: &str) -> Self {
        self.source = Some(source.into());
        self
    }

    /// The largest dose, where the label gives one.
    #[must_use]
    pub const fn max_dose(&self) -> Option<Dose> {
        self.max_dose
    }

    /// The least volume rate, where the label gives one.
    #[must_use]
    pub const fn min_volume_rate(&self) -> Option<VolumeRate> {
        self.min_volume_rate
    }

    /// The largest volume rate, where the label gives one.
    #[must_use]
    pub const fn max_volume_rate(&self) -> Option<VolumeRate> {
        self.max_volume_rate
    }

    /// The share of the load that the label wants in the tank before the product, where it asks for one.
    #[must_use]
    pub const fn first_carrier(&self) -> Option<Ratio> {
        self.first_carrier
    }

    /// Where the limits stand, where that is said.
    #[must_use]
    pub fn source(&self) -> Option<&str> {
        self.source.as_deref()
    }

    /// A limit of this label.
    pub(crate) fn limit(&self, bound: Bound, value: impl Into<Quantity>) -> Limit {
        Limit { bound, value: value.into(), force: Force::Label, source: self.source_text().into() }
    }

    /// Where the limits stand, in words.
    pub(crate) fn source_text(&self) -> String {
        self.source.as_deref().unwrap_or(text::word("the label as given in the job")).into()
    }

    fn checked(&self, dose: Dose) -> Result<(), Error> {
        if let Some(max_dose) = self.max_dose {
            max_dose.positive().map_err(|error| error.at("max_dose"))?;
            if max_dose.is_by_volume() != dose.is_by_volume() {
                return Err(Error::new(ErrorCode::WrongQuantity)
                    .at("max_dose")
                    .given(Quantity::from(max_dose))
                    .allowed(text::dose_like(dose.is_by_volume())));
            }
        }
        self.checked_alone()
    }

    /// What can be checked without the product's dose.
    pub(crate) fn checked_alone(&self) -> Result<(), Error> {
        for (rate, key) in [(self.min_volume_rate, "min_volume_rate"), (self.max_volume_rate, "max_volume_rate")] {
            rate.map(positive).transpose().map_err(|error| error.at(key))?;
        }
        if let (Some(least), Some(most)) = (self.min_volume_rate, self.max_volume_rate)
            && least > most
        {
            return Err(Error::new(ErrorCode::OutOfRange)
                .at("min_volume_rate")
                .given(least)
                .allowed(format_args!("{} {most}", text::word("at most max_volume_rate,"))));
        }
        match self.first_carrier {
            Some(share) if !(share > Ratio::ZERO && share <= Ratio::one()) => Err(Error::new(ErrorCode::OutOfRange)
                .at("first_carrier")
                .given(share)
                .allowed(text::word("above 0 % and at most 100 % of the load"))),
            _ => Ok(()),
        }
    }
}

/// What is in the container, at the dose that is wanted.
///
/// ```
/// use mixcalc::{Formulation, Label, LiquidDose, Product};
///
/// let product = Product::new("example product A", LiquidDose::read("1.5 L/ha")?)?
///     .with_formulation(Formulation::read("SC")?)?
///     .with_label(Label::new().with_max_dose(LiquidDose::read("2 L/ha")?))?;
/// assert_eq!(product.name(), "example product A");
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    name: Arc<str>,
    dose: Dose,
    formulation: Option<Formulation>,
    viscous: bool,
    density: Option<Density>,
    particle_density: Option<ParticleDensity>,
    bulk_density: Option<BulkDensity>,
    active_substances: Vec<ActiveSubstance>,
    label: Label,
    stock: Option<Amount>,
    measure: Option<Measure>,
}

impl Product {
    /// A product at a dose, whose maximum is that dose until [`with_label`](Self::with_label) says otherwise.
    ///
    /// * `name`: unique in a job, of at most 1000 characters.
    /// * `dose`: a typed quantity, whose kind gives the basis: [`LiquidDose`] and [`SolidDose`] per ground area,
    ///   [`VolumeFraction`], [`MassConcentration`] and [`MassFraction`] of finished mix; [`Dose::claim`] for text and for other bases.
    ///
    /// # Errors
    ///
    /// At `name` [`MissingInput`](ErrorCode::MissingInput) for a blank one and [`OutOfRange`](ErrorCode::OutOfRange) for one that is
    /// too long; at `dose` [`NotPositive`](ErrorCode::NotPositive) for one that is not above zero and
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a size that nobody measures. There is no other cause of failure.
    ///
    /// # Example
    ///
    /// ```
    /// use mixcalc::{Basis, Dose, ErrorCode, LiquidDose, Product, Quantity};
    ///
    /// let product = Product::new("example product A", LiquidDose::read("1.5 L/ha")?)?;
    /// assert_eq!(product.dose().basis(), Basis::GroundArea);
    /// assert_eq!(product.max_dose(), product.dose());
    ///
    /// let of_carrier = Dose::claim(Quantity::read("150 mL/100 L")?, Some(Basis::CarrierVolume))?;
    /// assert_eq!(Product::new("example product B", of_carrier)?.dose().basis(), Basis::CarrierVolume);
    ///
    /// let refused = Product::new("example product A", LiquidDose::read("0 L/ha")?).unwrap_err();
    /// assert_eq!((refused.code(), refused.path()), (ErrorCode::NotPositive, "dose"));
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    pub fn new(name: &str, dose: impl Into<Dose>) -> Result<Self, Error> {
        Ok(Self {
            name: legible_name(name)?,
            dose: dose.into().positive().map_err(|error| error.at("dose"))?,
            formulation: None,
            viscous: false,
            density: None,
            particle_density: None,
            bulk_density: None,
            active_substances: Vec::new(),
            label: Label::new(),
            stock: None,
            measure: None,
        })
    }

    /// States its formulation type.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a dry formulation that is dosed by volume.
    pub fn with_formulation(mut self, formulation: Formulation) -> Result<Self, Error> {
        if formulation.state == State::Dry && self.dose.is_by_volume() {
            return Err(Error::new(ErrorCode::WrongQuantity)
                .at("dose")
                .given(Quantity::from(self.dose))
                .allowed(text::dose_like(false)));
        }
        self.formulation = Some(formulation);
        Ok(self)
    }

    /// States that it does not run out of a measure by itself.
    #[must_use]
    pub const fn viscous(mut self) -> Self {
        self.viscous = true;
        self
    }

    /// States the density of the liquid.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a density that is not above zero.
    pub fn with_density(mut self, density: Density) -> Result<Self, Error> {
        self.density = Some(positive(density).map_err(|error| error.at("density"))?);
        Ok(self)
    }

    /// States the density of the particles of a dry product: what it displaces.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a density that is not above zero.
    pub fn with_particle_density(mut self, density: ParticleDensity) -> Result<Self, Error> {
        self.particle_density = Some(positive(density).map_err(|error| error.at("particle_density"))?);
        Ok(self)
    }

    /// States the density of the heap of a dry product: what a vessel of it weighs.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a density that is not above zero.
    pub fn with_bulk_density(mut self, density: BulkDensity) -> Result<Self, Error> {
        self.bulk_density = Some(positive(density).map_err(|error| error.at("bulk_density"))?);
        Ok(self)
    }

    /// Adds an active substance.
    #[must_use]
    pub fn with_active_substance(mut self, substance: ActiveSubstance) -> Self {
        self.active_substances.push(substance);
        self
    }

    /// States what the label limits.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a largest dose by mass where the dose is by volume, or the reverse;
    /// [`NotPositive`](ErrorCode::NotPositive) and [`OutOfRange`](ErrorCode::OutOfRange) for limits that are no limits.
    pub fn with_label(mut self, label: Label) -> Result<Self, Error> {
        label.checked(self.dose).map_err(|error| error.at("label"))?;
        self.label = label;
        Ok(self)
    }

    /// States how much of it there is.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a mass where the dose is by volume, or the reverse;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for less than nothing.
    pub fn with_stock(mut self, stock: impl Into<Amount>) -> Result<Self, Error> {
        let stock = stock.into();
        let refused = |code| Error::new(code).at("stock").given(stock);
        if matches!(stock, Amount::Volume(_)) != self.dose.is_by_volume() {
            let due = if self.dose.is_by_volume() { Kind::Volume } else { Kind::Mass };
            return Err(refused(ErrorCode::WrongQuantity).allowed(text::with_article(due.words())));
        }
        match stock {
            Amount::Volume(volume) => not_negative(volume).map(|_| ()),
            Amount::Mass(mass) => not_negative(mass).map(|_| ()),
        }
        .map_err(|error| error.at("stock"))?;
        self.stock = Some(stock);
        Ok(self)
    }

    /// Gives it a measure of its own, which overrides the list.
    #[must_use]
    pub fn with_measure(mut self, measure: Measure) -> Self {
        self.measure = Some(measure);
        self
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The dose that is wanted.
    #[must_use]
    pub const fn dose(&self) -> Dose {
        self.dose
    }

    /// The formulation type, where stated.
    #[must_use]
    pub const fn formulation(&self) -> Option<Formulation> {
        self.formulation
    }

    /// The active substances.
    #[must_use]
    pub fn active_substances(&self) -> &[ActiveSubstance] {
        &self.active_substances
    }

    /// What the label limits.
    #[must_use]
    pub const fn label(&self) -> &Label {
        &self.label
    }

    /// How much of it there is, where stated.
    #[must_use]
    pub const fn stock(&self) -> Option<Amount> {
        self.stock
    }

    /// The measure of its own.
    #[must_use]
    pub const fn measure(&self) -> Option<&Measure> {
        self.measure.as_ref()
    }

    /// Density of the liquid, where stated.
    #[must_use]
    pub const fn density(&self) -> Option<Density> {
        self.density
    }

    /// Density of a dry product's particles, where stated.
    #[must_use]
    pub const fn particle_density(&self) -> Option<ParticleDensity> {
        self.particle_density
    }

    /// Density of a dry product's heap, where stated.
    #[must_use]
    pub const fn bulk_density(&self) -> Option<BulkDensity> {
        self.bulk_density
    }

    /// Whether it is marked as one that does not run out of a measure by itself.
    #[must_use]
    pub const fn is_marked_viscous(&self) -> bool {
        self.viscous
    }

    /// How it is measured and poured: as its formulation says, else dry where it is dosed by mass and no density of a liquid is
    /// known. A liquid may be marked viscous; a dry product stays dry.
    #[must_use]
    pub fn state(&self) -> State {
        let state = match self.formulation {
            Some(formulation) => formulation.state,
            None if self.dose.is_by_volume() || self.density.is_some() => State::Liquid,
            None => State::Dry,
        };
        if self.viscous && state == State::Liquid { State::Viscous } else { state }
    }

    /// The largest dose: the label's, or the dose itself where the label has one figure.
    #[must_use]
    pub fn max_dose(&self) -> Dose {
        self.label.max_dose.unwrap_or(self.dose)
    }

    /// Whether its largest dose is counted on carrier.
    pub(crate) fn is_limited_by_carrier(&self) -> bool {
        self.max_dose().basis() == Basis::CarrierVolume
    }

    /// What the dose takes up. `None` where that is unknown.
    pub(crate) fn displacement(&self, mix_density: Option<Density>) -> Option<Displacement> {
        let per_area = |dose: SolidDose| match (self.state(), self.density, self.particle_density) {
            (State::Dry, _, Some(particles)) => Some(dose / particles),
            (State::Liquid | State::Viscous, Some(density), _) => Some(dose / density),
            _ => None,
        };
        let per_volume = |concentration: MassConcentration| match (self.state(), self.density, self.particle_density) {
            (State::Dry, _, Some(particles)) => Some(concentration / particles),
            (State::Liquid | State::Viscous, Some(density), _) => Some(concentration / density),
            _ => None,
        };
        match self.dose {
            Dose::LiquidPerArea(dose) => Some(Displacement::Area(dose)),
            Dose::SolidPerArea(dose) => per_area(dose).map(Displacement::Area),
            Dose::LiquidPerMix(fraction) => Some(Displacement::Mix(fraction)),
            Dose::SolidPerMix(concentration) => per_volume(concentration).map(Displacement::Mix),
            Dose::MassPerMass(fraction) => per_volume(fraction * mix_density?).map(Displacement::Mix),
            Dose::LiquidPerCarrier(fraction) => Some(Displacement::Carrier(fraction)),
            Dose::SolidPerCarrier(concentration) => per_volume(concentration).map(Displacement::Carrier),
        }
    }

    /// The room that an amount takes up in the tank; none where that is unknown.
    pub(crate) fn room_of(&self, amount: Amount) -> Volume {
        match (amount, self.state(), self.density, self.particle_density) {
            (Amount::Volume(volume), ..) => volume,
            (Amount::Mass(mass), State::Dry, _, Some(particles)) => mass / particles,
            (Amount::Mass(mass), State::Liquid | State::Viscous, Some(density), _) => mass / density,
            _ => Volume::ZERO,
        }
    }

    /// The key whose density a measure of this kind needs, where it is missing.
    pub(crate) fn missing_density(&self, measure: &Measure) -> Option<&'static str> {
        self.brought_to(measure, measure_sort(self.dose)).is_none().then(|| match self.state() {
            State::Dry => "bulk_density",
            State::Liquid | State::Viscous => "density",
        })
    }

    /// An amount of the product in the sort that a measure shows. `None` where the density is missing.
    pub(crate) fn brought_to(&self, measure: &Measure, amount: Amount) -> Option<Amount> {
        match (amount, measure.graduation(), self.state()) {
            (Amount::Volume(_), Amount::Volume(_), _) | (Amount::Mass(_), Amount::Mass(_), _) => Some(amount),
            (Amount::Mass(mass), Amount::Volume(_), State::Dry) => {
                self.bulk_density.map(|density| (mass / density).into())
            }
            (Amount::Mass(mass), Amount::Volume(_), _) => self.density.map(|density| (mass / density).into()),
            (Amount::Volume(volume), Amount::Mass(_), _) => self.density.map(|density| (density * volume).into()),
        }
    }

    /// What a measure shows, in the sort that the product is dosed in.
    pub(crate) fn brought_back(&self, measured: Amount) -> Amount {
        match (measured, self.dose.is_by_volume(), self.state()) {
            (Amount::Volume(volume), false, State::Dry) => self.bulk_density.map(|density| (density * volume).into()),
            (Amount::Volume(volume), false, _) => self.density.map(|density| (density * volume).into()),
            (Amount::Mass(mass), true, _) => self.density.map(|density| (mass / density).into()),
            _ => None,
        }
        .unwrap_or(measured)
    }

    /// Whether it is premixed before it goes into a carried tank, which has no agitator.
    pub(crate) fn is_premixed(&self, measure: &Measure) -> bool {
        self.state() != State::Liquid && measure.kind() != MeasureKind::Pack
    }
}

/// An amount of the sort that a dose is in, to ask what a measure needs.
fn measure_sort(dose: Dose) -> Amount {
    if dose.is_by_volume() { Volume::ZERO.into() } else { crate::quantity::Mass::ZERO.into() }
}
