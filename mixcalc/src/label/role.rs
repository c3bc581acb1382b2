//! What a product is in the tank for, and what its label says of its place there.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::MixGroup;

/// What a product is in the tank for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Role {
    /// What the spraying is done for.
    #[default]
    Product,
    /// Binds what makes water hard.
    WaterConditioner,
    /// Brings the water to a pH.
    Buffer,
    /// Keeps foam down.
    AntiFoam,
    /// Keeps products from separating.
    CompatibilityAgent,
    /// Helps the mix to wet and to spread.
    Surfactant,
    /// An oil that is added to the mix.
    Oil,
    /// Keeps droplets from drifting.
    DriftAgent,
    /// Feeds the leaf.
    FoliarNutrient,
}

impl Role {
    /// The roles.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[
            Self::Product,
            Self::WaterConditioner,
            Self::Buffer,
            Self::AntiFoam,
            Self::CompatibilityAgent,
            Self::Surfactant,
            Self::Oil,
            Self::DriftAgent,
            Self::FoliarNutrient,
        ]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self.group() {
            Some(group) => group.name(),
            None => "product",
        }
    }

    /// The place in a mixing order that goes with it; none where the formulation type decides.
    #[must_use]
    pub const fn group(self) -> Option<MixGroup> {
        match self {
            Self::Product => None,
            Self::WaterConditioner => Some(MixGroup::WaterConditioner),
            Self::Buffer => Some(MixGroup::Buffer),
            Self::AntiFoam => Some(MixGroup::AntiFoam),
            Self::CompatibilityAgent => Some(MixGroup::CompatibilityAgent),
            Self::Surfactant => Some(MixGroup::Surfactant),
            Self::Oil => Some(MixGroup::Oil),
            Self::DriftAgent => Some(MixGroup::DriftAgent),
            Self::FoliarNutrient => Some(MixGroup::FoliarNutrient),
        }
    }
}

/// Which end of the mixing order a label wants a product at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OrderStep {
    /// Before all others.
    First,
    /// After all others.
    Last,
}

impl OrderStep {
    /// The ends.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        &[Self::First, Self::Last]
    }

    /// Name in documents.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::First => "first",
            Self::Last => "last",
        }
    }
}

/// What a label says of a product's place in the mixing order. It wins over every profile.
///
/// ```
/// use mixcalc::{Label, LabelOrder};
///
/// let label = Label::new().with_order(LabelOrder::new().with_before("example product B"));
/// assert_eq!(label.order().unwrap().before().next(), Some("example product B"));
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LabelOrder {
    pub(crate) step: Option<OrderStep>,
    pub(crate) before: Vec<Arc<str>>,
    pub(crate) after: Vec<Arc<str>>,
}

impl LabelOrder {
    /// An order that says nothing as yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// At one end of the order.
    #[must_use]
    pub const fn with_step(mut self, step: OrderStep) -> Self {
        self.step = Some(step);
        self
    }

    /// Before another product of the job, by its name.
    #[must_use]
    pub fn with_before(mut self, product: &str) -> Self {
        self.before.push(product.into());
        self
    }

    /// After another product of the job, by its name.
    #[must_use]
    pub fn with_after(mut self, product: &str) -> Self {
        self.after.push(product.into());
        self
    }

    /// At which end, where it says so.
    #[must_use]
    pub const fn step(&self) -> Option<OrderStep> {
        self.step
    }

    /// The products that it goes in before.
    pub fn before(&self) -> impl Iterator<Item = &str> {
        self.before.iter().map(|name| &**name)
    }

    /// The products that it goes in after.
    pub fn after(&self) -> impl Iterator<Item = &str> {
        self.after.iter().map(|name| &**name)
    }

    /// Whether it says anything.
    pub(crate) const fn says_nothing(&self) -> bool {
        self.step.is_none() && self.before.is_empty() && self.after.is_empty()
    }
}
