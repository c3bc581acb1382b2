//! The ledger: where every amount of product, carrier and mix came from and went.

use alloc::vec::Vec;

use super::steps::Action;
use super::{Cleared, Held, Plan};
use crate::label::CONTAINER_RINSES;
use crate::measure::Amount;
use crate::quantity::{Ratio, Volume, ordered_sum};

/// Where a product came from and went: `drawn = in loads + spilled`, `stock = drawn + left`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ProductAccount {
    drawn: Amount,
    stock: Option<Amount>,
}

impl ProductAccount {
    /// Taken out of containers.
    #[must_use]
    pub const fn drawn(self) -> Amount {
        self.drawn
    }

    /// Measured into loads. A plan spills nothing.
    #[must_use]
    pub const fn in_loads(self) -> Amount {
        self.drawn
    }

    /// Spilled: nothing, in a plan.
    #[must_use]
    pub const fn spilled(self) -> Amount {
        self.drawn.none()
    }

    /// What there was, where stated.
    #[must_use]
    pub const fn stock(self) -> Option<Amount> {
        self.stock
    }

    /// What is left of the stock; below zero where it is short.
    #[must_use]
    pub fn left(self) -> Option<Amount> {
        self.stock?.minus(self.drawn)
    }
}

/// Where the carrier went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CarrierAccount {
    first: Volume,
    premixed: Volume,
    rinses: Volume,
    topped_up: Volume,
    container_rinses: Option<Volume>,
}

impl CarrierAccount {
    /// Each use summed in ascending magnitude, so that the order of products changes no digit.
    fn of(plan: &Plan) -> Self {
        let used = |is: fn(Action) -> bool| {
            ordered_sum(plan.loads().iter().flat_map(|load| {
                let steps = load.steps.iter().filter(move |step| is(step.action()));
                steps.map(|step| step.carrier() * Ratio::of_steps(load.count()))
            }))
        };
        Self {
            first: used(|action| matches!(action, Action::Fill { .. })),
            premixed: used(|action| matches!(action, Action::Premix { .. })),
            rinses: used(|action| matches!(action, Action::Rinse { .. })),
            topped_up: used(|action| matches!(action, Action::TopUp { .. })),
            container_rinses: container_rinses(plan),
        }
    }

    /// In all.
    #[must_use]
    pub fn drawn(self) -> Volume {
        self.first + self.premixed + self.rinses + self.topped_up
    }

    /// Into the tank before the products.
    #[must_use]
    pub const fn first(self) -> Volume {
        self.first
    }

    /// For premixes.
    #[must_use]
    pub const fn premixed(self) -> Volume {
        self.premixed
    }

    /// For rinsing the measures.
    #[must_use]
    pub const fn rinses(self) -> Volume {
        self.rinses
    }

    /// Into the tank after the products.
    #[must_use]
    pub const fn topped_up(self) -> Volume {
        self.topped_up
    }

    /// What of the topping up is for rinses of emptied containers, where any are rinsed.
    #[must_use]
    pub const fn container_rinses(self) -> Option<Volume> {
        self.container_rinses
    }
}

/// What the rinses of all emptied containers take, where any are rinsed.
fn container_rinses(plan: &Plan) -> Option<Volume> {
    let totals = plan.cleared()?.totals();
    let rinsed = plan.job().products().iter().zip(totals).filter_map(|(product, total)| {
        let rinses = Ratio::of_steps(total.containers()?.emptied().saturating_mul(CONTAINER_RINSES));
        Some(product.container_rinse()? * rinses)
    });
    let rinsed: Vec<Volume> = rinsed.collect();
    (!rinsed.is_empty()).then(|| ordered_sum(rinsed))
}

/// Every account of a plan. Water for rinsing the tank is an account of its own, which a plan does not hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Ledger {
    pub(crate) products: Vec<ProductAccount>,
    pub(crate) carrier: CarrierAccount,
    pub(crate) made: Volume,
    pub(crate) at_start: Volume,
    pub(crate) residual: Volume,
}

impl Ledger {
    pub(crate) fn of(cleared: &Cleared<'_>) -> Self {
        let plan = cleared.plan();
        let products = plan.job().products().iter().zip(cleared.totals());
        Self {
            products: products
                .map(|(product, total)| ProductAccount { drawn: total.measured(), stock: product.stock() })
                .collect(),
            carrier: CarrierAccount::of(plan),
            made: plan.made(),
            at_start: plan.start().map_or(Volume::ZERO, Held::volume),
            residual: plan.residual(),
        }
    }

    /// Per product of the job.
    #[must_use]
    pub fn products(&self) -> &[ProductAccount] {
        &self.products
    }

    /// The carrier in the loads.
    #[must_use]
    pub const fn carrier(&self) -> CarrierAccount {
        self.carrier
    }

    /// Mix made: `at start + made = sprayed + residual`.
    #[must_use]
    pub const fn made(&self) -> Volume {
        self.made
    }

    /// What the tank holds before the first load.
    #[must_use]
    pub const fn at_start(&self) -> Volume {
        self.at_start
    }

    /// Mix that leaves the nozzles.
    #[must_use]
    pub fn sprayed(&self) -> Volume {
        Volume::ZERO.max(self.at_start + self.made - self.residual)
    }

    /// Mix that stays in the sprayer.
    #[must_use]
    pub fn residual(&self) -> Volume {
        self.residual.min(self.at_start + self.made)
    }
}
