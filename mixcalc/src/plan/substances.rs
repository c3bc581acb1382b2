//! Active substances summed across the products of a plan.

use alloc::format;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::Plan;
use super::mix::Mix;
use crate::finding::{Finding, FindingCode};
use crate::label::{ActiveSubstance, Dose, Product, Share};
use crate::measure::Amount;
use crate::quantity::{Mass, MassPerArea, ordered_sum};
use crate::text;

/// What a plan brings out of one active substance, summed across its products.
///
/// A sum to which a product brings an unknown part is `None`, and a finding says which density it wants.
#[derive(Clone, Debug, PartialEq)]
pub struct SubstanceTotal {
    name: Arc<str>,
    dose: Option<MassPerArea>,
    exact: Option<Mass>,
    measured: Option<Mass>,
}

impl SubstanceTotal {
    /// The name under which it is summed: that of the acid or element where it is counted as one.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Mass of it per ground area.
    #[must_use]
    pub const fn dose(&self) -> Option<MassPerArea> {
        self.dose
    }

    /// Mass of it in what the doses ask for, in all loads.
    #[must_use]
    pub const fn exact(&self) -> Option<Mass> {
        self.exact
    }

    /// Mass of it in what the measures show, in all loads; `None` where a stop stands.
    #[must_use]
    pub const fn measured(&self) -> Option<Mass> {
        self.measured
    }
}

/// The dose of a product per ground area: as stated where it is stated so, else its share of the mix times the volume rate.
pub(super) fn dose_on_ground(product: &Product, share: Share, mix: &Mix) -> Dose {
    match product.dose() {
        dose @ (Dose::LiquidPerArea(_) | Dose::SolidPerArea(_)) => dose,
        _ => share.on_ground(mix.rate),
    }
}

impl Plan {
    /// What it brings out of each active substance, summed across products, by name. Empty where no product states what acts in it.
    ///
    /// # Example
    ///
    /// 1.2 L/ha with 250 g/L and 0.4 kg/ha with 500 g/kg of the same substance: 300 and 200 are 500 g/ha; on 2 ha 1 kg.
    ///
    /// ```
    /// use mixcalc::*;
    ///
    /// let substance = |content| ActiveSubstance::new("example substance", content);
    /// let liquid = Product::new("example product A", LiquidDose::read("1.2 L/ha")?)?
    ///     .with_active_substance(substance(SubstanceContent::PerVolume(Content::read("250 g/L")?))?);
    /// let solid = Product::new("example product B", SolidDose::read("0.4 kg/ha")?)?
    ///     .with_active_substance(substance(SubstanceContent::PerMass(MassFraction::read("500 g/kg")?))?);
    /// let rate = Rate::Volume(VolumeRate::read("200 L/ha")?);
    /// let tank = Tank::of_nominal(Volume::read("500 L")?)?;
    /// let job = Job::new(Area::read("2 ha")?, rate, Sprayer::new(SprayerKind::Boom), tank)?
    ///     .with_product(liquid)?
    ///     .with_product(solid)?
    ///     .with_measure(Measure::vessel(Volume::read("1 L")?, Volume::read("10 mL")?)?)?
    ///     .with_measure(Measure::scale(Mass::read("1 kg")?, Mass::read("1 g")?)?)?;
    ///
    /// let substances = mixcalc::plan(&job)?.substances();
    /// assert_eq!(substances[0].dose().unwrap().to_string(), "500 g/ha");
    /// assert_eq!(substances[0].exact().unwrap().to_string(), "1 kg");
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// `docs/numbers.md`, section 13.
    #[must_use]
    pub fn substances(&self) -> Vec<SubstanceTotal> {
        let exact = self.exact_totals();
        let names = self.substance_names();
        let of = |name: &Arc<str>| SubstanceTotal {
            name: name.clone(),
            dose: self.summed(name, |i, product, substance| {
                let dose = dose_on_ground(product, self.mix.shares.get(i)?.0, &self.mix);
                substance.in_dose(dose, product.density())
            }),
            exact: self.summed(name, |i, product, substance| substance.in_amount(*exact.get(i)?, product.density())),
            measured: self
                .summed(name, |i, product, substance| substance.in_amount(self.measured_total(i)?, product.density())),
        };
        names.iter().map(of).collect()
    }

    /// The names under which substances are summed, in their order.
    pub(super) fn substance_names(&self) -> Vec<Arc<str>> {
        let substances = self.job.products().iter().flat_map(Product::active_substances);
        let mut names: Vec<Arc<str>> = substances.map(|substance| substance.summed_name().into()).collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    /// The sum of what each product has of a substance; none where one of them is unknown.
    fn summed<Q: crate::quantity::QuantityKind>(
        &self,
        name: &str,
        each: impl Fn(usize, &Product, &ActiveSubstance) -> Option<Q>,
    ) -> Option<Q> {
        let mut terms = Vec::new();
        for (i, product) in self.held.products().iter().enumerate() {
            for substance in product.active_substances().iter().filter(|substance| substance.summed_name() == name) {
                terms.push(each(i, product, substance)?);
            }
        }
        Some(ordered_sum(terms))
    }

    /// What a product brings of a substance that cannot be told without its density.
    pub(super) fn on_substances(&self, index: usize, product: &Product, findings: &mut Vec<Finding>) {
        let nothing =
            if product.dose().is_by_volume() { Amount::Volume(Default::default()) } else { Amount::Mass(Mass::ZERO) };
        let unknown = |substance: &&ActiveSubstance| substance.in_amount(nothing, product.density()).is_none();
        for substance in product.active_substances().iter().filter(unknown) {
            let subject = text::of_product(substance.summed_name(), product.name());
            let path = format!("products[{index}].density");
            findings.push(Finding::new(FindingCode::SubstanceNotCounted, path, self.job.units()).about(subject));
        }
    }
}
