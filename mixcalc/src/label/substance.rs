//! Active substances: what acts in a product, how much of it there is, and under which name amounts of it are summed.

use alloc::sync::Arc;

use super::Dose;
use crate::error::{Error, ErrorCode};
use crate::measure::Amount;
use crate::quantity::{Content, Density, Mass, MassFraction, MassPerArea, Ratio, positive};
use crate::text::{self, legible_name};

/// How much of an active substance a product holds.
///
/// Labels count some substances as an acid or an element and not as the salt that is in the container; then the content is that of the
/// salt, and an [`Equivalent`] brings it to what is summed.
///
/// # Example
///
/// 480 g/L of a salt, of which 741 g per kg are the acid: 1.5 L/ha of the product are 720 g/ha of salt, 533.5 g/ha of acid.
///
/// ```
/// use mixcalc::*;
///
/// let content = SubstanceContent::PerVolume(Content::read("480 g/L")?);
/// let acid = Equivalent::new("example acid", Ratio::from_number(0.741)?)?;
/// let substance = ActiveSubstance::new("example salt", content)?.with_equivalent(acid);
/// assert_eq!(substance.summed_name(), "example acid");
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct ActiveSubstance {
    name: Arc<str>,
    content: SubstanceContent,
    equivalent: Option<Equivalent>,
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

/// The acid or element as which a substance is counted, and how much of it there is in the substance as stated.
#[derive(Clone, Debug, PartialEq)]
pub struct Equivalent {
    name: Arc<str>,
    factor: Ratio,
}

impl Equivalent {
    /// An acid or element, by mass of it per mass of the substance as stated.
    ///
    /// # Errors
    ///
    /// At `factor` [`OutOfRange`](ErrorCode::OutOfRange) for one that is not above 0 and at most 1: a part is not more than the whole,
    /// and the factor turned round would be; at `name` as [`Product::new`](super::Product::new).
    pub fn new(name: &str, factor: Ratio) -> Result<Self, Error> {
        if !(factor > Ratio::ZERO && factor <= Ratio::one()) {
            let error = Error::new(ErrorCode::OutOfRange).at("factor").given(factor.number());
            return Err(error.allowed(text::word("above 0 and at most 1, the mass of it in the substance as stated")));
        }
        Ok(Self { name: legible_name(name)?, factor: positive(factor).map_err(|error| error.at("factor"))? })
    }

    /// The name under which amounts are summed.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Mass of it per mass of the substance as stated.
    #[must_use]
    pub const fn factor(&self) -> Ratio {
        self.factor
    }
}

impl ActiveSubstance {
    /// A substance and its content.
    ///
    /// # Errors
    ///
    /// At `content` [`NotPositive`](ErrorCode::NotPositive) for one that is not above zero; at `name` as
    /// [`Product::new`](super::Product::new).
    pub fn new(name: &str, content: SubstanceContent) -> Result<Self, Error> {
        match content {
            SubstanceContent::PerVolume(content) => positive(content).map(|_| ()),
            SubstanceContent::PerMass(content) => positive(content).map(|_| ()),
        }
        .map_err(|error| error.at("content"))?;
        Ok(Self { name: legible_name(name)?, content, equivalent: None })
    }

    /// Counts it as an acid or an element.
    #[must_use]
    pub fn with_equivalent(mut self, equivalent: Equivalent) -> Self {
        self.equivalent = Some(equivalent);
        self
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

    /// The acid or element that it is counted as, where stated.
    #[must_use]
    pub const fn equivalent(&self) -> Option<&Equivalent> {
        self.equivalent.as_ref()
    }

    /// The name under which amounts are summed: that of the acid or element where it is counted as one, else its own.
    #[must_use]
    pub fn summed_name(&self) -> &str {
        self.equivalent.as_ref().map_or(&self.name, Equivalent::name)
    }

    fn factor(&self) -> Ratio {
        self.equivalent.as_ref().map_or(Ratio::one(), Equivalent::factor)
    }

    /// How much of it, as it is summed, there is in a product's dose per ground area. `None` without the density that the sum needs, and
    /// for a dose on another basis.
    pub(crate) fn in_dose(&self, dose: Dose, density: Option<Density>) -> Option<MassPerArea> {
        let stated = match (dose, self.content) {
            (Dose::LiquidPerArea(dose), SubstanceContent::PerVolume(content)) => content * dose,
            (Dose::SolidPerArea(dose), SubstanceContent::PerMass(content)) => content * dose,
            (Dose::LiquidPerArea(dose), SubstanceContent::PerMass(content)) => content * (density? * dose),
            (Dose::SolidPerArea(dose), SubstanceContent::PerVolume(content)) => content * (dose / density?),
            _ => return None,
        };
        Some(stated * self.factor())
    }

    /// How much of it, as it is summed, there is in an amount of a product. `None` without the density that the sum needs.
    pub(crate) fn in_amount(&self, amount: Amount, density: Option<Density>) -> Option<Mass> {
        let stated = match (amount, self.content) {
            (Amount::Volume(volume), SubstanceContent::PerVolume(content)) => content * volume,
            (Amount::Mass(mass), SubstanceContent::PerMass(content)) => content * mass,
            (Amount::Volume(volume), SubstanceContent::PerMass(content)) => content * (density? * volume),
            (Amount::Mass(mass), SubstanceContent::PerVolume(content)) => content * (mass / density?),
        };
        Some(stated * self.factor())
    }

    /// The dose of its product that holds so much of it: by volume where the content is per volume, else by mass. The name says whether
    /// it is meant as stated or as summed; `None` for another name.
    #[cfg(feature = "document")]
    pub(crate) fn dose_of(&self, name: &str, substance: MassPerArea) -> Option<Result<Dose, Error>> {
        use crate::quantity::{LiquidDose, SolidDose};
        let stated = match () {
            () if *self.name == *name => substance,
            () if self.summed_name() == name => substance / self.factor(),
            () => return None,
        };
        // Onto the grid of doubles in the unit of documents, so that what is written reads back.
        Some(match self.content {
            SubstanceContent::PerVolume(content) => super::liquid_dose_of_substance(content, stated)
                .and_then(|dose| LiquidDose::from_liters_per_hectare(dose.liters_per_hectare()))
                .map(Dose::LiquidPerArea),
            SubstanceContent::PerMass(content) => super::solid_dose_of_substance(content, stated)
                .and_then(|dose| SolidDose::from_kilograms_per_hectare(dose.kilograms_per_hectare()))
                .map(Dose::SolidPerArea),
        })
    }
}
