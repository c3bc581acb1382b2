//! What a product is sold in, and what there is of it.

use crate::error::{Error, ErrorCode};
use crate::measure::Amount;
use crate::quantity::close::is_under;
use crate::quantity::{Ratio, Volume, not_negative, positive};
use crate::text;

/// Most unopened containers of a product.
const MOST_FULL: u64 = 1_000_000_000;
/// Rinses of an emptied container, and how much of it each takes: a quarter where it holds under 5 US gallons, else a fifth. Montana ARM
/// 4.10.803; University of Illinois Extension (certain). Federal definitions of a tenth, and labels, differ: the label decides.
pub(crate) const CONTAINER_RINSES: u64 = 3;
const SMALL_BELOW_US_GALLONS: f64 = 5.0;
pub(crate) const SMALL_RINSE_PERCENT: f64 = 25.0;
pub(crate) const LARGE_RINSE_PERCENT: f64 = 20.0;

/// Containers of one content: how many full ones there are, and what is in the one that is open.
///
/// ```
/// use mixcalc::{Containers, Volume};
///
/// let cans = Containers::new(Volume::read("10 L")?)?.with_full(2)?.with_part(Volume::read("2.5 L")?)?;
/// assert_eq!(cans.stock().map(|stock| stock.to_string()), Some("22.5 L".into()));
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Containers {
    content: Amount,
    full: Option<u64>,
    part: Option<Amount>,
    is_rinsed: Option<bool>,
}

impl Containers {
    /// Containers of a content.
    ///
    /// # Errors
    ///
    /// At `content`: [`NotPositive`](ErrorCode::NotPositive).
    pub fn new(content: impl Into<Amount>) -> Result<Self, Error> {
        let content = match content.into() {
            Amount::Volume(volume) => positive(volume).map(Amount::Volume),
            Amount::Mass(mass) => positive(mass).map(Amount::Mass),
        };
        Ok(Self { content: content.map_err(|error| error.at("content"))?, full: None, part: None, is_rinsed: None })
    }

    /// How many full ones there are.
    ///
    /// # Errors
    ///
    /// At `full`: [`OutOfRange`](ErrorCode::OutOfRange) for over a thousand million.
    pub fn with_full(mut self, full: u64) -> Result<Self, Error> {
        if full > MOST_FULL {
            return Err(Error::new(ErrorCode::OutOfRange).at("full").given(full).allowed(text::CONTAINERS));
        }
        self.full = Some(full);
        Ok(self)
    }

    /// What is in the one that is open: it is used up first.
    ///
    /// # Errors
    ///
    /// At `part`: [`OutOfRange`](ErrorCode::OutOfRange) unless it is under the content;
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a volume beside a mass.
    pub fn with_part(mut self, part: impl Into<Amount>) -> Result<Self, Error> {
        let part = part.into();
        let refused = |code| Error::new(code).given(part);
        match (part, self.content) {
            (Amount::Volume(volume), Amount::Volume(_)) => not_negative(volume).map(|_| ()),
            (Amount::Mass(mass), Amount::Mass(_)) => not_negative(mass).map(|_| ()),
            _ => Err(refused(ErrorCode::WrongQuantity).allowed(text::word("of the sort of the content"))),
        }
        .map_err(|error| error.at("part"))?;
        if !part.over(self.content).is_some_and(|share| is_under(share, Ratio::one())) {
            let allowed = format_args!("{} {}", text::word("under the content,"), self.content);
            return Err(refused(ErrorCode::OutOfRange).at("part").allowed(allowed));
        }
        self.part = Some(part);
        Ok(self)
    }

    /// Whether emptied ones are rinsed into the tank; without this those of liquids are, and those of dry products are not.
    #[must_use]
    pub const fn rinsed(mut self, is_rinsed: bool) -> Self {
        self.is_rinsed = Some(is_rinsed);
        self
    }

    /// What one holds.
    #[must_use]
    pub const fn content(&self) -> Amount {
        self.content
    }

    /// How many full ones there are, where that is stated.
    #[must_use]
    pub const fn full(&self) -> Option<u64> {
        self.full
    }

    /// What is in the one that is open, where that is stated.
    #[must_use]
    pub const fn part(&self) -> Option<Amount> {
        self.part
    }

    /// Whether emptied ones are rinsed into the tank, where that is stated.
    #[must_use]
    pub const fn is_rinsed(&self) -> Option<bool> {
        self.is_rinsed
    }

    /// What there is in all, where it is stated how many full ones there are.
    #[must_use]
    pub fn stock(&self) -> Option<Amount> {
        let full = self.content.times(Ratio::of_steps(self.full?));
        full.plus(self.part.unwrap_or(self.content.none()))
    }

    /// What is gone from the one that is open.
    pub(crate) fn gone(&self) -> Amount {
        let part = self.part.filter(|part| part.exceeds(part.none()));
        part.and_then(|part| self.content.minus(part)).unwrap_or(self.content.none())
    }
}

/// Whether a container of a volume is small, and what one rinse of it takes.
pub(crate) fn container_rinse(volume: Volume) -> (bool, Volume) {
    let small = Volume::from_us_gallons(SMALL_BELOW_US_GALLONS).unwrap_or_default();
    let is_small = is_under(volume, small);
    let percent = if is_small { SMALL_RINSE_PERCENT } else { LARGE_RINSE_PERCENT };
    (is_small, volume * Ratio::of_percent(percent))
}
