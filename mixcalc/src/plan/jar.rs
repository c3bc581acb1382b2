//! The jar test: the mix in small, to see whether it stays mixed.

use alloc::vec::Vec;

use super::Plan;
use crate::error::Error;
use crate::measure::Amount;
use crate::quantity::{Volume, positive};

/// The amounts of a jar test: the mix of a plan, scaled down. It shows whether products go together, and nothing else.
#[derive(Clone, Debug, PartialEq)]
pub struct JarTest {
    volume: Volume,
    carrier: Volume,
    amounts: Vec<Amount>,
}

impl JarTest {
    /// Volume of mix in the jar.
    #[must_use]
    pub const fn volume(&self) -> Volume {
        self.volume
    }

    /// Volume of carrier in it.
    #[must_use]
    pub const fn carrier(&self) -> Volume {
        self.carrier
    }

    /// The exact amount of each product, in the order of the job.
    #[must_use]
    pub fn amounts(&self) -> &[Amount] {
        &self.amounts
    }
}

impl Plan {
    /// The mix of the plan in so much volume, to be tried in a jar.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](crate::ErrorCode::NotPositive) for a volume that is not above zero, and
    /// [`PlanStopped`](crate::ErrorCode::PlanStopped) where a stop stands.
    ///
    /// # Example
    ///
    /// 1 L/ha in 200 L/ha are 5 mL in a jar of 1 L, with 995 mL of carrier.
    ///
    /// ```
    /// use mixcalc::*;
    ///
    /// let tank = Tank::new(Some(Volume::read("100 L")?), Some(Volume::read("110 L")?))?;
    /// let rate = Rate::Volume(VolumeRate::read("200 L/ha")?);
    /// let job = Job::new(Area::read("2 ha")?, rate, Sprayer::new(SprayerKind::Boom), tank)?
    ///     .with_product(Product::new("example product A", LiquidDose::read("1 L/ha")?)?)?
    ///     .with_measure(Measure::vessel(Volume::read("1 L")?, Volume::read("10 mL")?)?)?;
    /// let jar = mixcalc::plan(&job)?.jar_test(Volume::read("1 L")?)?;
    /// assert_eq!(jar.amounts()[0].to_string(), "5 mL");
    /// assert_eq!(jar.carrier().to_string(), "995 mL");
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// `docs/numbers.md`, 18. Scaling to the ratio of the field: GRDC, Spray Application Manual, 2025.
    pub fn jar_test(&self, volume: Volume) -> Result<JarTest, Error> {
        let volume = positive(volume).map_err(|error| error.at("volume"))?;
        self.try_cleared()?;
        let amounts = self.mix.shares.iter().map(|(share, _)| share.of(volume)).collect();
        Ok(JarTest { volume, carrier: self.mix.carrier_in(volume), amounts })
    }

    /// The jar test that the job asks for, where it does and no stop stands.
    #[must_use]
    pub fn jar_test_asked(&self) -> Option<JarTest> {
        self.job.mixing()?.jar_test().and_then(|volume| self.jar_test(volume).ok())
    }
}
