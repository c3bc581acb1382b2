//! Containers across the job: how many are opened and emptied, in which loads, what is left over, what to take and what to buy.

use alloc::vec::Vec;

use super::{Load, MeasuredAmount, Plan, Total};
use crate::label::{Containers, Product};
use crate::measure::Amount;
use crate::quantity::close::{is_close, steps_down, steps_up};
use crate::quantity::{Ratio, Volume};

/// Loads that are named one by one as emptying containers.
const MOST_NAMED: u64 = 20;

/// What a job does with the containers of a product. The one that is open is used up first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ContainerUse {
    containers: Containers,
    drawn: Amount,
}

/// The containers that some equal loads empty.
#[derive(Clone, Debug, PartialEq)]
pub struct EmptiedContainers {
    count: u64,
    loads: Vec<u64>,
}

impl EmptiedContainers {
    /// How many.
    #[must_use]
    pub const fn count(&self) -> u64 {
        self.count
    }

    /// The numbers of the loads that empty them, one for each container; the first twenty.
    #[must_use]
    pub fn loads(&self) -> &[u64] {
        &self.loads
    }
}

impl ContainerUse {
    /// Contents of containers that a drawn amount comes to, with what was gone from the one that is open.
    fn contents(&self, drawn: Amount) -> Ratio {
        drawn.plus(self.containers.gone()).and_then(|all| all.over(self.containers.content())).unwrap_or(Ratio::ZERO)
    }

    /// Whether one of them is open already.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.containers.gone().exceeds(self.drawn.none())
    }

    /// Containers that have been emptied when so much is drawn.
    fn emptied_at(&self, drawn: Amount) -> u64 {
        steps_down(self.contents(drawn)).unwrap_or(0)
    }

    /// What one holds.
    #[must_use]
    pub const fn content(&self) -> Amount {
        self.containers.content()
    }

    /// How many full ones are opened.
    #[must_use]
    pub fn opened(&self) -> u64 {
        let all = steps_up(self.contents(self.drawn)).unwrap_or(0);
        all.saturating_sub(u64::from(self.is_open()))
    }

    /// How many are emptied, the one that was open among them.
    #[must_use]
    pub fn emptied(&self) -> u64 {
        self.emptied_at(self.drawn)
    }

    /// What is left over in the last one that is opened.
    #[must_use]
    pub fn left(&self) -> Amount {
        let there = self
            .content()
            .times(Ratio::of_steps(self.opened()))
            .plus(self.containers.part().unwrap_or(self.drawn.none()));
        let left = there.and_then(|there| there.minus(self.drawn)).unwrap_or(self.drawn.none());
        if is_close(self.contents(self.drawn), Ratio::of_steps(self.emptied())) || !left.exceeds(left.none()) {
            left.none()
        } else {
            left
        }
    }

    /// How many full ones to take along: as many as are opened, of those there are.
    #[must_use]
    pub fn take(&self) -> u64 {
        self.containers.full().map_or(self.opened(), |full| full.min(self.opened()))
    }

    /// How many to buy, where it is stated how many there are.
    #[must_use]
    pub fn buy(&self) -> Option<u64> {
        Some(self.opened().saturating_sub(self.containers.full()?))
    }

    /// What equal loads empty that draw so much each, after so much was drawn.
    fn emptied_in(&self, load: &Load, before: Amount, each: Amount) -> EmptiedContainers {
        let after = before.plus(each.times(Ratio::of_steps(load.count()))).unwrap_or(before);
        let (first, last) = (self.emptied_at(before), self.emptied_at(after));
        let load_of = |number: u64| {
            // The container runs out when its contents and those before are drawn.
            let at = self.content().times(Ratio::of_steps(number)).minus(self.containers.gone())?.minus(before)?;
            let nth = steps_up(at.over(each)?)?.clamp(1, load.count());
            Some(load.first() + nth - 1)
        };
        let named = (first + 1..=last.min(first + MOST_NAMED)).filter_map(load_of);
        EmptiedContainers { count: last.saturating_sub(first), loads: named.collect() }
    }
}

impl Total<'_> {
    /// What the job does with the product's containers, where it states them.
    #[must_use]
    pub fn containers(&self) -> Option<ContainerUse> {
        let containers = *self.plan.job.products().get(self.product)?.containers()?;
        Some(ContainerUse { containers, drawn: self.measured })
    }
}

impl MeasuredAmount<'_> {
    /// The containers of the product that these loads empty, where the job states them.
    #[must_use]
    pub fn emptied(&self) -> Option<EmptiedContainers> {
        let load = self.plan.loads.iter().find(|load| load.first() == self.load)?;
        self.plan.emptied(self.product, load)
    }
}

impl Plan {
    /// What equal loads empty of a product's containers.
    fn emptied(&self, product: usize, load: &Load) -> Option<EmptiedContainers> {
        let containers = *self.job.products().get(product)?.containers()?;
        let drawn = self.measured_total(product)?;
        let measured = |load: &Load| MeasuredAmount::of(self, load, product).map(|amount| amount.measured());
        let mut before = drawn.none();
        for earlier in self.loads.iter().take_while(|earlier| earlier.first() < load.first()) {
            before = before.plus(measured(earlier)?.times(Ratio::of_steps(earlier.count())))?;
        }
        Some(ContainerUse { containers, drawn }.emptied_in(load, before, measured(load)?))
    }

    /// Of each product the containers that one of these loads empties at most, and what one rinse of them takes; empty where none has any.
    pub(super) fn container_rinses(&self, load: &Load) -> Vec<(u64, Volume)> {
        if self.job.products().iter().all(|product| product.containers().is_none()) {
            return Vec::new();
        }
        let of = |(index, product): (usize, &Product)| {
            let rinse = product.container_rinse()?;
            let emptied = self.emptied(index, load)?.count();
            let each = MeasuredAmount::of(self, load, index)?.measured();
            let most = steps_up(each.over(product.containers()?.content())?)?;
            Some((most.min(emptied), rinse))
        };
        self.job.products().iter().enumerate().map(|product| of(product).unwrap_or((0, Volume::ZERO))).collect()
    }
}
