//! The product: what is in the container, at the dose that is wanted.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::containers::container_rinse;
use super::{
    ActiveSubstance, Basis, Composition, Containers, Displacement, Dose, Formulation, Label, Role, Share, Stand, State,
};
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Limit};
use crate::measure::{Amount, Measure, MeasureKind};
use crate::quantity::{
    BulkDensity, Density, Kind, MassConcentration, ParticleDensity, Quantity, SolidDose, Volume, not_negative, positive,
};
use crate::text::{self, legible_name};

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
    at_least: Option<Dose>,
    formulation: Option<Formulation>,
    role: Role,
    viscous: bool,
    density: Option<Density>,
    particle_density: Option<ParticleDensity>,
    bulk_density: Option<BulkDensity>,
    active_substances: Vec<ActiveSubstance>,
    label: Label,
    stock: Option<Amount>,
    containers: Option<Containers>,
    measure: Option<Measure>,
}

impl Product {
    /// A product at a dose, whose maximum is that dose until [`with_label`](Self::with_label) says otherwise.
    ///
    /// * `name`: unique in a job, of at most 1000 characters.
    /// * `dose`: a typed quantity, whose kind gives the basis: [`LiquidDose`](crate::LiquidDose) and [`SolidDose`] per ground area,
    ///   [`VolumeFraction`](crate::VolumeFraction), [`MassConcentration`] and [`MassFraction`](crate::MassFraction) of finished mix;
    ///   [`Dose::claim`] for text and for other bases.
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
            at_least: None,
            formulation: None,
            role: Role::Product,
            viscous: false,
            density: None,
            particle_density: None,
            bulk_density: None,
            active_substances: Vec::new(),
            label: Label::new(),
            stock: None,
            containers: None,
            measure: None,
        })
    }

    /// States the least dose per ground area beside a dose per volume of mix, such as 1 L/ha beside 0.5 % v/v: the greater of the two holds.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) where the dose is not per volume or mass of finished mix, where this one is not per
    /// ground area, and where one is by volume and the other by mass; [`NotPositive`](ErrorCode::NotPositive) and
    /// [`OutOfRange`](ErrorCode::OutOfRange) for what is no dose.
    pub fn with_at_least(mut self, dose: impl Into<Dose>) -> Result<Self, Error> {
        let dose = dose.into().positive().map_err(|error| error.at("at_least"))?;
        let is_alike = dose.is_by_volume() == self.dose.is_by_volume();
        if self.dose.basis() != Basis::MixVolume || dose.basis() != Basis::GroundArea || !is_alike {
            let error = Error::new(ErrorCode::WrongQuantity).at("at_least").given(Quantity::from(dose));
            return Err(error.allowed(text::LEAST_DOSE));
        }
        self.at_least = Some(dose);
        Ok(self)
    }

    /// The same product at its least dose per ground area, where it has one.
    pub(crate) fn at_its_least(&self) -> Option<Self> {
        Some(Self { dose: self.at_least?, at_least: None, ..self.clone() })
    }

    /// States its formulation type.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a dry formulation that is dosed by volume.
    pub fn with_formulation(mut self, formulation: Formulation) -> Result<Self, Error> {
        if formulation.state() == State::Dry && self.dose.is_by_volume() {
            return Err(Error::new(ErrorCode::WrongQuantity)
                .at("dose")
                .given(Quantity::from(self.dose))
                .allowed(text::dose_like(false)));
        }
        self.formulation = Some(formulation);
        Ok(self)
    }

    /// States what it is in the tank for.
    #[must_use]
    pub const fn with_role(mut self, role: Role) -> Self {
        self.role = role;
        self
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

    /// States what it is sold in.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a mass where the dose is by volume, or the reverse; [`BothGiven`](ErrorCode::BothGiven) for a
    /// stock beside full or open containers.
    pub fn with_containers(mut self, containers: Containers) -> Result<Self, Error> {
        if matches!(containers.content(), Amount::Volume(_)) != self.dose.is_by_volume() {
            let due = if self.dose.is_by_volume() { Kind::Volume } else { Kind::Mass };
            let error = Error::new(ErrorCode::WrongQuantity).at("containers.content").given(containers.content());
            return Err(error.allowed(text::with_article(due.words())));
        }
        if self.stock.is_some() && (containers.full().is_some() || containers.part().is_some()) {
            let error = Error::new(ErrorCode::BothGiven).at("stock").given(text::word("stock and containers"));
            return Err(error.allowed(text::word("the containers")));
        }
        self.containers = Some(containers);
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

    /// The least dose per ground area beside the dose, where stated.
    #[must_use]
    pub const fn at_least(&self) -> Option<Dose> {
        self.at_least
    }

    /// The formulation type, where stated.
    #[must_use]
    pub const fn formulation(&self) -> Option<Formulation> {
        self.formulation
    }

    /// What it is in the tank for.
    #[must_use]
    pub const fn role(&self) -> Role {
        self.role
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
    pub fn stock(&self) -> Option<Amount> {
        self.stock.or_else(|| self.containers.and_then(|containers| containers.stock()))
    }

    /// What the job states as its stock, and not by its containers.
    pub(crate) const fn stated_stock(&self) -> Option<Amount> {
        self.stock
    }

    /// What it is sold in, where that is stated.
    #[must_use]
    pub const fn containers(&self) -> Option<&Containers> {
        self.containers.as_ref()
    }

    /// What one rinse of an emptied container takes, where those are rinsed and their volume is known.
    pub(crate) fn container_rinse(&self) -> Option<Volume> {
        self.container_rinsed().map(|(_, rinse)| rinse)
    }

    /// Whether its containers are small, and what one rinse takes.
    pub(crate) fn container_rinsed(&self) -> Option<(bool, Volume)> {
        let containers = self.containers?;
        let is_rinsed = containers.is_rinsed().unwrap_or(self.state() != State::Dry);
        let volume = match (containers.content(), self.state()) {
            (Amount::Volume(volume), _) => volume,
            (Amount::Mass(mass), State::Dry) => mass / self.bulk_density?,
            (Amount::Mass(mass), _) => mass / self.density?,
        };
        is_rinsed.then(|| container_rinse(volume))
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
            Some(formulation) => formulation.state(),
            None if self.dose.is_by_volume() || self.density.is_some() => State::Liquid,
            None => State::Dry,
        };
        if self.viscous && state == State::Liquid { State::Viscous } else { state }
    }

    /// The largest dose: the label's, or the dose itself where the label has one figure. A label may hold further ones beside it:
    /// [`Label::max_ground_dose`], [`Label::max_concentration`].
    #[must_use]
    pub fn max_dose(&self) -> Dose {
        self.largest_doses().next().map_or(self.dose, |(_, dose)| dose)
    }

    /// The largest doses that hold, each with its key in the label: those that the label gives, else the dose itself. What a label's
    /// tank comes to per area is one where no other is per ground area.
    pub(crate) fn largest_doses(&self) -> impl Iterator<Item = (&'static str, Dose)> + use<> {
        let of_tank = self.in_label_tank();
        let has_ground = self.label.doses().any(|(_, dose)| dose.basis() == Basis::GroundArea);
        let of_tank = of_tank.filter(|_| !has_ground).map(|dose| ("tank", dose));
        let is_bare = self.label.doses().next().is_none() && of_tank.is_none();
        let itself = is_bare.then_some(("max_dose", self.dose));
        self.label.doses().chain(of_tank).chain(itself)
    }

    /// A largest dose as a limit, with where it stands.
    pub(crate) fn largest_dose_limit(&self, key: &str, most: Dose) -> Limit {
        let limit = self.label.limit(Bound::AtMost, most);
        if key == "tank" { limit.at_source(text::source::LABEL_TANK) } else { limit }
    }

    /// Whether its dose stands for the largest one, for want of another.
    pub(crate) fn is_its_own_maximum(&self) -> bool {
        self.label.doses().next().is_none() && self.in_label_tank().is_none()
    }

    /// What its concentration comes to per area in the label's tank. A least dose per area is no concentration: where that holds, there is none.
    fn in_label_tank(&self) -> Option<Dose> {
        self.label.tank.and_then(|tank| self.dose.in_label_tank(tank))
    }

    /// The share of the mix that its largest dose has, whichever binds.
    pub(crate) fn largest_share(&self, of: &Composition) -> Result<Share, Error> {
        let mut least: Option<Share> = None;
        for (_, dose) in self.largest_doses() {
            let share = dose.share(of)?;
            least = Some(least.map_or(share, |least| least.min(share)));
        }
        least.map_or_else(|| self.dose.share(of), Ok)
    }

    /// Whether a largest dose is counted on carrier.
    pub(crate) fn is_limited_by_carrier(&self) -> bool {
        self.largest_doses().any(|(_, dose)| dose.basis() == Basis::CarrierVolume)
    }

    /// What the dose takes up. `None` where that is unknown.
    pub(crate) fn displacement(
        &self,
        mix_density: Option<Density>,
        stand: Stand,
    ) -> Result<Option<Displacement>, Error> {
        self.displacement_of(self.dose, mix_density, stand)
    }

    fn displacement_of(
        &self,
        dose: Dose,
        mix_density: Option<Density>,
        stand: Stand,
    ) -> Result<Option<Displacement>, Error> {
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
        Ok(match dose {
            Dose::LiquidPerArea(dose) => Some(Displacement::Area(dose)),
            Dose::SolidPerArea(dose) => per_area(dose).map(Displacement::Area),
            Dose::LiquidPerMix(fraction) => Some(Displacement::Mix(fraction)),
            Dose::SolidPerMix(concentration) => per_volume(concentration).map(Displacement::Mix),
            Dose::MassPerMass(fraction) => {
                mix_density.and_then(|density| per_volume(fraction * density)).map(Displacement::Mix)
            }
            Dose::LiquidPerCarrier(fraction) => Some(Displacement::Carrier(fraction)),
            Dose::SolidPerCarrier(concentration) => per_volume(concentration).map(Displacement::Carrier),
            Dose::PerCrop(dose) => self.displacement_of(dose.on_ground(stand)?, mix_density, stand)?,
        })
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
