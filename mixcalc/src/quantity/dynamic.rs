//! The quantity whose kind is known only when the program runs: for text and for bindings.

use core::cmp::Ordering;
use core::fmt;
use core::hash::{Hash, Hasher};

use super::close;
use super::dimension::Dimension;
use super::kind::{self, Kind, PRODUCTS, QUOTIENTS, QuantityKind};
use super::read;
use super::show;
use super::unit::{PERCENT_READINGS, System};
use crate::error::{Error, ErrorCode};
use crate::text;

/// Of a value, a dimension and a kind.
#[cfg(feature = "document")]
const BYTES: usize = 8 + 8 + 1;

/// A value with its dimension and kind.
///
/// Text such as `"2.5 L/ha"` is a *volume per area* until somebody claims it as a volume rate or as a liquid dose; a claimed
/// quantity fits only its slot. Products and quotients follow the identities of the kinds; where none applies the result is a
/// derived quantity of whatever dimension arises.
///
/// ```
/// use mixcalc::{Kind, Quantity, VolumeRate, LiquidDose};
///
/// let rate: VolumeRate = Quantity::read("300 L/ha")?.claim()?;
/// let dose: LiquidDose = Quantity::read("150 mL/100 L")?.times(rate.into())?.claim()?;
/// assert!((dose.liters_per_hectare() - 0.45).abs() < 1e-12);
///
/// let refused = Quantity::from(rate).plus(dose.into()).unwrap_err();
/// assert_eq!(refused.to_string(), "cannot put together 300 L/ha, a volume rate, and 450 mL/ha, a liquid dose; they are different things");
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Copy, PartialEq)]
pub struct Quantity {
    value: f64,
    dimension: Dimension,
    kind: Kind,
}

impl Quantity {
    /// Reads a number, a blank and a unit: `300 L/ha`, `12 US fl oz/ac`, `150 mL/100 L`, `0.25 % v/v`, `20 [gal_us]/[acr_us]`.
    ///
    /// The number has a decimal point and may have an exponent; the unit is a unit word, or unit words over each other. What text
    /// cannot tell is left open: `L/ha` is a volume per area until somebody [claims](Self::claim) it. A word with more than one
    /// meaning is refused, never guessed.
    ///
    /// # Errors
    ///
    /// [`UnreadableQuantity`](ErrorCode::UnreadableQuantity) for text of another form, or of over 100 characters;
    /// [`MissingUnit`](ErrorCode::MissingUnit) for a number alone; [`UnknownUnit`](ErrorCode::UnknownUnit) with the nearest unit
    /// word; [`AmbiguousUnit`](ErrorCode::AmbiguousUnit) with its readings, for `gal`, `pt`, `oz`, `t` and the like;
    /// [`DecimalComma`](ErrorCode::DecimalComma); [`NotFinite`](ErrorCode::NotFinite) for a number beyond the range of doubles.
    ///
    /// # Example
    ///
    /// 3 US gallons of 3.785411784 L are 11.356235352 L.
    ///
    /// ```
    /// use mixcalc::{ErrorCode, Kind, Quantity};
    ///
    /// let volume = Quantity::read("3 US gal")?;
    /// assert!((volume.to("L")? - 11.356235352).abs() < 1e-12);
    /// assert_eq!(Quantity::read("300 L/ha")?.kind(), Kind::VolumePerArea);
    ///
    /// let refused = Quantity::read("3 gal").unwrap_err();
    /// assert_eq!(refused.code(), ErrorCode::AmbiguousUnit);
    /// assert_eq!(refused.allowed_text(), "US gal or imp gal");
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// Exact legal factors: SI brochure, the international yard and pound of 1959, NIST Handbook 44 Appendix C, Weights and
    /// Measures Act 1985 Schedule 1; codes in brackets from UCUM 2.2.
    pub fn read(text: &str) -> Result<Self, Error> {
        read::quantity(text).map(|(quantity, _)| quantity)
    }

    /// A number and a unit text.
    ///
    /// # Errors
    ///
    /// As [`read`](Self::read).
    pub fn from_parts(value: f64, unit: &str) -> Result<Self, Error> {
        read::unit(unit)?.quantity(value)
    }

    /// A typed quantity.
    pub fn of<Q: QuantityKind>(value: Q) -> Self {
        Self {
            value: value.si() + 0.0, // minus zero is zero
            dimension: Q::KIND.dimension().unwrap_or_default(),
            kind: Q::KIND,
        }
    }

    /// A number of things, such as treatments: a count has no unit and is no share.
    pub(crate) fn count(number: u64) -> Self {
        Self { value: kind::Ratio::of_steps(number).si(), dimension: Dimension::NONE, kind: Kind::Derived }
    }

    /// A difference of temperatures in kelvins, which has the dimension of a temperature and is none.
    pub(crate) fn difference(kelvins: kind::Temperature) -> Self {
        Self { kind: Kind::Derived, ..Self::of(kelvins) }
    }

    /// `None` for a value that is not finite.
    /// One of the coherent unit of this quantity's kind: what its number is the number of.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for a temperature, which has no multiple.
    pub(crate) fn unity(self) -> Result<Self, Error> {
        self.scalable().map(|this| Self { value: 1.0, ..this })
    }

    pub(super) fn from_si(value: f64, dimension: Dimension, kind: Kind) -> Option<Self> {
        value.is_finite().then_some(Self {
            value: value + 0.0, // minus zero is zero
            dimension,
            kind,
        })
    }

    /// The kind.
    #[must_use]
    pub const fn kind(self) -> Kind {
        self.kind
    }

    /// The dimension.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        self.dimension
    }

    pub(super) const fn si(self) -> f64 {
        self.value
    }

    /// Claims the quantity as a kind: a volume per area as a [`VolumeRate`](super::VolumeRate), say.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) where it is something else, and
    /// [`AmbiguousUnit`](ErrorCode::AmbiguousUnit) for a bare percent where a basis is due;
    /// [`NotFinite`](ErrorCode::NotFinite) where it was made of a typed quantity that is not finite.
    pub fn claim<Q: QuantityKind>(self) -> Result<Q, Error> {
        self.claim_kind(Q::KIND).map(|claimed| Q::from_si(claimed.value))
    }

    /// [`claim`](Self::claim) for a kind that is known only when the program runs.
    ///
    /// # Errors
    ///
    /// As [`claim`](Self::claim).
    pub fn claim_kind(self, kind: Kind) -> Result<Self, Error> {
        self.finite()?;
        let fits = match kind.dimension() {
            None => true,
            Some(dimension) if dimension != self.dimension => false,
            Some(_) => {
                let basis_matters =
                    self.kind == Kind::Ratio && matches!(kind, Kind::VolumeFraction | Kind::MassFraction);
                if basis_matters {
                    return Err(Error::new(ErrorCode::AmbiguousUnit).given(self).allowed(PERCENT_READINGS));
                }
                self.kind == kind
                    || self.kind == Kind::Derived
                    || kind::may_claim(self.kind, kind)
                    // A percent typed as `10 mL/100 mL` is a volume fraction; as a plain number it may also be asked for.
                    || (kind == Kind::Ratio && !self.kind.is_per_canopy())
            }
        };
        if kind == Kind::Temperature && self.value < 0.0 {
            return Err(read::below_absolute_zero(self.value));
        }
        if fits {
            let value =
                if kind::may_claim(self.kind, kind) { read::claimed(self.value, self.kind, kind) } else { self.value };
            Ok(Self { value, kind, ..self })
        } else {
            Err(self.refused_as(kind))
        }
    }

    fn refused_as(self, kind: Kind) -> Error {
        Error::new(ErrorCode::WrongQuantity)
            .given(format_args!("{self}, {}", text::with_article(self.kind.words())))
            .allowed(format_args!("{} such as \"{}\"", text::with_article(kind.words()), kind.example()))
    }

    /// The value in a unit: the number that reads back to this quantity, with few digits where few do, so that 12 US fl oz/ac are
    /// told as 12.
    ///
    /// # Errors
    ///
    /// Those of reading the unit, and [`WrongQuantity`](ErrorCode::WrongQuantity) where it measures something else.
    pub fn to(self, unit: &str) -> Result<f64, Error> {
        let unit = read::unit(unit)?;
        Ok(show::told(self, unit.value_of(self)?, unit))
    }

    /// Text in a unit that reads back to the same value; as [`to_text`](Self::to_text) where no number of that unit does.
    ///
    /// # Errors
    ///
    /// As [`to`](Self::to).
    pub fn to_text_in(self, unit: &str) -> Result<alloc::string::String, Error> {
        let value = self.to(unit)?;
        let read = Self::from_parts(value, unit)?.claim_kind(self.kind);
        Ok(if read.is_ok_and(|read| read.value.to_bits() == self.value.to_bits()) {
            show::number_and_unit(value, unit)
        } else {
            self.to_text()
        })
    }

    /// Sum of two quantities of one kind.
    ///
    /// # Errors
    ///
    /// [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) where they are of different kinds (two volumes per area can be added, one
    /// claimed as a dose and one as a rate cannot), or temperatures; [`NotFinite`](ErrorCode::NotFinite) on overflow.
    pub fn plus(self, other: Self) -> Result<Self, Error> {
        self.alike(other)?;
        self.with(self.value + other.value, self.dimension, self.kind)
    }

    /// Difference of two quantities of one kind.
    ///
    /// # Errors
    ///
    /// As [`plus`](Self::plus).
    pub fn minus(self, other: Self) -> Result<Self, Error> {
        self.alike(other)?;
        self.with(self.value - other.value, self.dimension, self.kind)
    }

    /// Compares two quantities of one kind.
    ///
    /// # Errors
    ///
    /// [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) where they are of different kinds; [`NotFinite`](ErrorCode::NotFinite) as for
    /// [`claim`](Self::claim).
    pub fn compare(self, other: Self) -> Result<Ordering, Error> {
        if self.kind != Kind::Temperature || other.kind != Kind::Temperature {
            self.alike(other)?;
        }
        Ok(self.finite()?.value.total_cmp(&other.finite()?.value))
    }

    /// Itself, unless it was made of a typed quantity that is not finite.
    fn finite(self) -> Result<Self, Error> {
        self.with(self.value, self.dimension, self.kind)
    }

    fn alike(self, other: Self) -> Result<(), Error> {
        if self.kind == Kind::Temperature && other.kind == Kind::Temperature {
            return Err(self.no_amount());
        }
        if self.kind == other.kind && self.dimension == other.dimension && kind::is_additive(self.kind) {
            return Ok(());
        }
        let named = |q: Self| alloc::format!("{q}, {}", text::with_article(q.kind.words()));
        Err(Error::new(ErrorCode::UnlikeQuantities).given(format_args!("{}, and {}", named(self), named(other))))
    }

    /// Product of two quantities.
    ///
    /// # Errors
    ///
    /// [`NotFinite`](ErrorCode::NotFinite) on overflow, also of a dimension's exponents; [`WrongQuantity`](ErrorCode::WrongQuantity) for a
    /// temperature, here and in the other operations: its zero is where the thermometer has it.
    pub fn times(self, other: Self) -> Result<Self, Error> {
        let dimension = self.scalable()?.dimension.times(other.scalable()?.dimension).ok_or_else(|| self.overflow())?;
        let kind = if self.kind == Kind::Ratio {
            other.kind
        } else if other.kind == Kind::Ratio {
            self.kind
        } else {
            PRODUCTS
                .iter()
                .find(|(a, b, _)| (*a, *b) == (self.kind, other.kind) || (*b, *a) == (self.kind, other.kind))
                .map_or(Self::unnamed(dimension), |(_, _, kind)| *kind)
        };
        self.with(self.value * other.value, dimension, kind)
    }

    /// Quotient of two quantities.
    ///
    /// # Errors
    ///
    /// [`NotFinite`](ErrorCode::NotFinite) on division by zero and on overflow.
    pub fn over(self, other: Self) -> Result<Self, Error> {
        let dimension = self.scalable()?.dimension.over(other.scalable()?.dimension).ok_or_else(|| self.overflow())?;
        if other.value == 0.0 {
            return Err(Error::new(ErrorCode::NotFinite).given(text::word("a division by zero")));
        }
        let kind = if other.kind == Kind::Ratio {
            self.kind
        } else if self.kind == other.kind {
            Self::unnamed(dimension)
        } else {
            QUOTIENTS
                .iter()
                .find(|(a, b, _)| (*a, *b) == (self.kind, other.kind))
                .map_or(Self::unnamed(dimension), |(_, _, kind)| *kind)
        };
        self.with(self.value / other.value, dimension, kind)
    }

    /// A power with a fractional exponent `numerator / denominator`: the square root is `1 / 2`.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) where an exponent of the dimension would not be a whole number of twelfths;
    /// [`NotFinite`](ErrorCode::NotFinite) for an even root of a negative value and on overflow.
    pub fn power(self, numerator: i16, denominator: i16) -> Result<Self, Error> {
        let dimension = self.scalable()?.dimension.power(numerator, denominator).ok_or_else(|| {
            Error::new(ErrorCode::OutOfRange)
                .given(format_args!("{numerator}/{denominator}"))
                .allowed(text::word("an exponent that keeps whole twelfths of a dimension"))
        })?;
        let value = match (numerator, denominator) {
            (1, 1) => self.value,
            (1, 2) => libm::sqrt(self.value),
            (n, 1) => libm::pow(self.value, f64::from(n)),
            (n, d) => libm::pow(self.value, f64::from(n) / f64::from(d)),
        };
        let kind = if (numerator, denominator) == (1, 1) { self.kind } else { Self::unnamed(dimension) };
        let kind = if self.kind == Kind::Length && (numerator, denominator) == (2, 1) { Kind::Area } else { kind };
        self.with(value, dimension, kind)
    }

    /// Whether two quantities of one kind are the same within 1e-12 of the larger, as plans compare them.
    ///
    /// # Errors
    ///
    /// [`UnlikeQuantities`](ErrorCode::UnlikeQuantities) where they are of different kinds.
    pub fn is_close(self, other: Self) -> Result<bool, Error> {
        self.compare(other).map(|_| close::close(self.value, other.value))
    }

    /// A pure number.
    ///
    /// # Errors
    ///
    /// [`WrongQuantity`](ErrorCode::WrongQuantity) for anything that has a dimension.
    pub fn number(self) -> Result<f64, Error> {
        self.claim_kind(Kind::Ratio).map(|ratio| ratio.value)
    }

    /// The quantity as a document says it: on the grid of doubles in the unit of documents, which may be the next double.
    #[must_use]
    pub fn documented(self) -> Self {
        Self { value: read::on_grid(self.value, self.kind), ..self }
    }

    /// A quantity read in base units as the one kind that has its dimension, where there is one: `5 m^2` as an area. A pure number is a
    /// ratio; `2 m^1` stays open, for lengths, rates and doses all have that dimension.
    ///
    /// ```
    /// use mixcalc::{Kind, Quantity};
    ///
    /// assert_eq!(Quantity::read("5 m^2")?.named().kind(), Kind::Area);
    /// assert_eq!(Quantity::read("2 m^1")?.named().kind(), Kind::Derived);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    #[must_use]
    pub fn named(self) -> Self {
        match kind::only_kind_of(self.dimension) {
            Some(kind) if self.kind == Kind::Derived => Self { kind, ..self }.documented(),
            _ => self,
        }
    }

    /// The kind of a result that no identity names: a pure number, or derived.
    fn unnamed(dimension: Dimension) -> Kind {
        if dimension == Dimension::NONE { Kind::Ratio } else { Kind::Derived }
    }

    fn with(self, value: f64, dimension: Dimension, kind: Kind) -> Result<Self, Error> {
        Self::from_si(value, dimension, kind).ok_or_else(|| self.overflow())
    }

    /// A temperature is read from a thermometer, whose zero is where it is: two of them have no sum, and there is no twice as much.
    fn no_amount(self) -> Error {
        let error =
            Error::new(ErrorCode::WrongQuantity).allowed(text::word("a quantity that has a sum and a multiple"));
        error.given(format_args!("{self}, {}", text::with_article(self.kind.words())))
    }

    /// Refuses what cannot be multiplied.
    fn scalable(self) -> Result<Self, Error> {
        if self.kind == Kind::Temperature { Err(self.no_amount()) } else { Ok(self) }
    }

    fn overflow(self) -> Error {
        Error::new(ErrorCode::NotFinite).given(text::word("a result beyond the range of numbers"))
    }

    /// Text that reads back to the same value, such as `300 L/ha`; where no double in the unit of documents is the same, in base
    /// units such as `0.3333333333333333 m^2`, which may be claimed as any kind of that dimension.
    #[must_use]
    pub fn to_text(self) -> alloc::string::String {
        show::exact(self)
    }

    /// Value and unit as documents write them, in the one unit of its kind.
    #[must_use]
    pub fn to_parts(self) -> (f64, alloc::string::String) {
        let (value, unit) = show::parts(self);
        (value, unit.into_owned())
    }

    /// The same as a plan tells it: a count, such as of treatments, has the unit 1 there, in which it would read back as a ratio.
    #[must_use]
    pub fn to_told_parts(self) -> (f64, alloc::string::String) {
        let (value, unit) = self.to_parts();
        let is_count = self.kind == Kind::Derived && self.dimension == Dimension::NONE;
        (value, if is_count { "1".into() } else { unit })
    }

    /// Value, kind and dimension as bytes, for a reader that carries nothing else.
    #[cfg(feature = "document")]
    pub(crate) fn to_bytes(self) -> [u8; BYTES] {
        let mut bytes = [0; BYTES];
        let parts = self.value.to_le_bytes().into_iter().chain(self.dimension.to_bytes()).chain([self.kind as u8]);
        for (slot, byte) in bytes.iter_mut().zip(parts) {
            *slot = byte;
        }
        bytes
    }

    /// What [`to_bytes`](Self::to_bytes) wrote.
    #[cfg(feature = "document")]
    pub(crate) fn from_bytes(bytes: [u8; BYTES]) -> Option<Self> {
        let (value, rest) = bytes.split_first_chunk()?;
        let (dimension, rest) = rest.split_first_chunk()?;
        let kind = *Kind::all().get(usize::from(*rest.first()?))?;
        Self::from_si(f64::from_le_bytes(*value), Dimension::from_bytes(*dimension), kind)
    }

    /// Text for people in a unit, to four significant digits.
    ///
    /// # Errors
    ///
    /// As [`to`](Self::to).
    pub fn to_people_in(self, unit: &str) -> Result<alloc::string::String, Error> {
        self.to(unit).map(|_| show::in_unit(self, unit))
    }

    /// Text in a unit as a scale shows it: to nine digits, which are all that graduations have, and hide the noise of the last places.
    ///
    /// # Errors
    ///
    /// As [`to`](Self::to).
    pub fn on_scale_in(self, unit: &str) -> Result<alloc::string::String, Error> {
        self.to(unit).map(|_| show::on_scale(self, unit))
    }

    /// The unit in which people of a trade read it: `mL` for 0.46 L; empty for a derived quantity.
    #[must_use]
    pub fn unit_for_people(self, system: System) -> &'static str {
        show::unit_for_people(self, system)
    }

    /// Text for people, in the measures of a trade: `460 mL`, `15.6 US fl oz`.
    #[must_use]
    pub fn to_people(self, system: System) -> alloc::string::String {
        show::people(self, system)
    }
}

/// The value is finite and zero has one sign, so that equality holds of each with itself.
impl Eq for Quantity {}

impl Hash for Quantity {
    fn hash<H: Hasher>(&self, state: &mut H) {
        (self.value.to_bits(), self.dimension, self.kind).hash(state);
    }
}

impl fmt::Display for Quantity {
    /// For people, in metric measures, to four significant digits.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.to_people(System::Metric))
    }
}

impl fmt::Debug for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Quantity({}, {})", self.to_text(), self.kind.words())
    }
}

impl core::str::FromStr for Quantity {
    type Err = Error;
    fn from_str(text: &str) -> Result<Self, Error> {
        Self::read(text)
    }
}
