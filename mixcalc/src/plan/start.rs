//! What the tank holds before the first load: water of a check, what is left of this mix, or another mix.

use alloc::format;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::job::Job;
use super::loads::{Cut, Run, divided};
use super::mix::Mix;
use super::{Load, Plan};
use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Finding, FindingCode, Limit};
use crate::label::Product;
use crate::measure::Amount;
use crate::quantity::close::{is_close, is_over};
use crate::quantity::{Quantity, Volume, not_negative, ordered_sum, positive};
use crate::text::{self, legible_at, source};

text::named! {
    /// What a tank holds before the first load.
    #[non_exhaustive]
    InTank {
        /// Water alone, as after a check of the nozzles.
        Water = "water";
        /// What is left of this mix, or rinse water with its products.
        ThisMix = "this-mix";
        /// Another mix, or what it was is not known.
        AnotherMix = "another-mix";
    }
}

/// What the tank holds before the first load, which the load then tops up.
///
/// ```
/// use mixcalc::{InTank, TankStart, Volume};
///
/// let left = TankStart::new(InTank::ThisMix, Volume::read("120 L")?)?;
/// assert!(left.amounts().next().is_none(), "as strong as the plan's own mix");
/// let rinse_water = left.with_amount("example product A", Volume::read("30 mL")?)?;
/// assert_eq!(rinse_water.amounts().count(), 1);
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct TankStart {
    holds: InTank,
    volume: Volume,
    amounts: Vec<(Arc<str>, Amount)>,
}

impl TankStart {
    /// So much of it.
    ///
    /// # Errors
    ///
    /// At `volume`: [`NotPositive`](ErrorCode::NotPositive), [`OutOfRange`](ErrorCode::OutOfRange) for a size that nobody measures.
    pub fn new(holds: InTank, volume: Volume) -> Result<Self, Error> {
        let volume = positive(volume).map_err(|error| error.at("volume"))?;
        Ok(Self { holds, volume, amounts: Vec::new() })
    }

    /// States how much of a product is in it. Without any, what is left of this mix is as strong as the plan's own; with some, the other products are not
    /// in it.
    ///
    /// # Errors
    ///
    /// [`BothGiven`](ErrorCode::BothGiven) beside water or another mix. At `name`: as [`Product::new`] for a name, and
    /// [`DuplicateName`](ErrorCode::DuplicateName). At `amount`: [`OutOfRange`](ErrorCode::OutOfRange) below zero.
    pub fn with_amount(mut self, product: &str, amount: impl Into<Amount>) -> Result<Self, Error> {
        if self.holds != InTank::ThisMix {
            let given = format!("{} {}", text::quoted(self.holds.name()), text::word("and products"));
            return Err(Error::new(ErrorCode::BothGiven).given(given).allowed(text::quoted(InTank::ThisMix.name())));
        }
        let name = legible_at("name", product)?;
        if self.amounts.iter().any(|(known, _)| *known == name) {
            return Err(Error::new(ErrorCode::DuplicateName).at("name").given(text::quoted(&name)));
        }
        let amount = match amount.into() {
            Amount::Volume(volume) => not_negative(volume).map(Amount::Volume),
            Amount::Mass(mass) => not_negative(mass).map(Amount::Mass),
        };
        self.amounts.push((name, amount.map_err(|error| error.at("amount"))?));
        Ok(self)
    }

    /// What it is.
    #[must_use]
    pub const fn holds(&self) -> InTank {
        self.holds
    }

    /// How much of it.
    #[must_use]
    pub const fn volume(&self) -> Volume {
        self.volume
    }

    /// What is stated of the products in it.
    #[must_use]
    pub fn amounts(&self) -> impl ExactSizeIterator<Item = (&str, Amount)> {
        self.amounts.iter().map(|(name, amount)| (&**name, *amount))
    }
}

/// What the tank holds before the first load: its volume, and the amount of each product of the job.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    pub(super) volume: Volume,
    pub(super) amounts: Vec<Amount>,
}

impl Held {
    /// Volume of it.
    #[must_use]
    pub const fn volume(&self) -> Volume {
        self.volume
    }

    /// The amount of each product in it, in the order of the job.
    #[must_use]
    pub fn amounts(&self) -> &[Amount] {
        &self.amounts
    }

    /// What the tank of a job holds, where it holds anything.
    pub(super) fn of(job: &Job, mix: &Mix, safe_fill: Volume, made: Volume) -> Result<Option<Self>, Error> {
        let Some(start) = job.start() else { return Ok(None) };
        let place = |error: Error| error.at("start");
        for (most, what) in [(safe_fill, text::AT_MOST_SAFE_FILL), (made, text::AT_MOST_THE_MIX)] {
            if is_over(start.volume, most) {
                let error = Error::new(ErrorCode::OutOfRange).at("volume").given(start.volume);
                return Err(place(error.allowed(format!("{what} {most}"))));
            }
        }
        let place_of = |i: usize| move |error: Error| place(error.at(format!("products[{i}]")));
        for (i, (name, amount)) in start.amounts().enumerate() {
            let known = job.products().iter().find(|product| product.name() == name).ok_or_else(|| {
                let names: Vec<&str> = job.products().iter().map(Product::name).collect();
                let error = Error::new(ErrorCode::UnknownChoice).at("name").given(text::quoted(name));
                place_of(i)(error.allowed(text::one_of(&names)))
            })?;
            if matches!(amount, Amount::Volume(_)) != known.dose().is_by_volume() {
                let error = Error::new(ErrorCode::WrongQuantity).at("amount").given(amount);
                let is_liquid = known.dose().is_by_volume();
                return Err(place_of(i)(error.allowed(text::amount_like(is_liquid))));
            }
        }
        let is_as_planned = start.holds == InTank::ThisMix && start.amounts.is_empty();
        let amounts = job.products().iter().zip(&mix.shares).map(|(product, (share, _))| {
            let stated = start.amounts().find(|(name, _)| *name == product.name());
            let of_plan = share.of(start.volume);
            stated.map_or(if is_as_planned { of_plan } else { of_plan.none() }, |(_, amount)| amount)
        });
        Ok(Some(Self { volume: start.volume, amounts: amounts.collect() }))
    }

    /// What a volume leaves beside it.
    pub(super) fn beside(&self, volume: Volume) -> Volume {
        if is_close(volume, self.volume) { Volume::ZERO } else { Volume::ZERO.max(volume - self.volume) }
    }

    /// What the products in it take up.
    pub(super) fn room(&self, job: &Job) -> Volume {
        ordered_sum(job.products().iter().zip(&self.amounts).map(|(product, amount)| product.room_of(*amount)))
    }

    /// How much of what a load asks for has to be added: what a product's share of the mix comes to, less what is there; none where that is more.
    pub(super) fn lacking(&self, product: usize, wanted: Amount) -> Amount {
        let there = self.amounts.get(product).copied().unwrap_or(wanted.none());
        match wanted.minus(there) {
            Some(lacking) if wanted.exceeds(there) => lacking,
            _ => wanted.none(),
        }
    }
}

/// The loads where the tank holds something: the first tops it up to the safe fill, or to all of the mix, and the rest is divided as without it.
pub(super) fn divided_after(made: Volume, safe_fill: Volume, job: &Job) -> Result<Vec<Run>, Error> {
    let first = if is_close(made, safe_fill) { safe_fill } else { made.min(safe_fill) };
    let mut runs = alloc::vec![Run { volume: first, count: 1, cut: Cut::Full }];
    if is_over(made, first) {
        runs.extend(divided(made - first, safe_fill, job)?.runs);
    }
    Ok(runs)
}

impl Load {
    /// What the tank holds before it, where that is anything.
    #[must_use]
    pub const fn held(&self) -> Option<&Held> {
        self.held.as_ref()
    }

    /// What comes to it beside what the tank holds.
    pub(crate) fn added(&self) -> Volume {
        self.held.as_ref().map_or(self.mix, |held| held.beside(self.mix))
    }

    /// Volume of what the tank holds before it.
    pub(crate) fn held_volume(&self) -> Volume {
        self.held.as_ref().map_or(Volume::ZERO, Held::volume)
    }
}

impl Plan {
    /// What the tank holds before the first load, where the job states that.
    #[must_use]
    pub fn start(&self) -> Option<&Held> {
        self.loads.first()?.held()
    }

    /// What is to be said of what the tank holds before the first load.
    pub(super) fn on_start(&self, findings: &mut Vec<Finding>) {
        let (Some(start), Some(load), Some(held)) = (self.job.start(), self.loads.first(), self.start()) else {
            return;
        };
        if start.holds == InTank::AnotherMix {
            let finding = Finding::new(FindingCode::TankHoldsAnotherMix, "start.holds", self.job.units());
            findings.push(finding.actual_value(start.volume));
        }
        let products = self.held.products().iter().zip(&self.mix.shares).zip(&held.amounts);
        for ((product, (share, most)), amount) in products {
            let (wanted, most) = (share.of(load.mix), most.of(load.mix));
            let (code, limit) = if amount.exceeds(most) {
                (FindingCode::TankHoldsTooMuch, Limit::fact(Bound::AtMost, most, source::LOAD))
            } else if amount.exceeds(wanted) {
                (FindingCode::TankHoldsMore, Limit::fact(Bound::AtMost, wanted, source::LOAD))
            } else {
                continue;
            };
            let finding = Finding::new(code, "start", self.job.units()).about(product.name()).in_load(1);
            findings.push(finding.actual_value(Quantity::from(*amount)).against(limit));
        }
    }
}
