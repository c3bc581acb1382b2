//! The ground of a job: a field by its area or its sides, less buffers, and what overlap sprays twice.

use alloc::sync::Arc;
use alloc::vec::Vec;

use crate::error::{Error, ErrorCode};
use crate::quantity::close::is_under;
use crate::quantity::{Area, Length, Ratio, not_negative, ordered_sum, positive};
use crate::text::{self, legible_at};

/// How large a field is.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Field {
    /// Its area.
    Area(Area),
    /// The sides of a rectangle.
    Sides {
        /// One side.
        length: Length,
        /// The side across it.
        width: Length,
    },
}

/// What a buffer is measured by.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum BufferSize {
    /// Its area, which somebody has measured.
    Area(Area),
    /// A strip so wide along so much of the edge. What lies between the edge and what is kept away from counts towards the width.
    Strip {
        /// Distance to keep.
        width: Length,
        /// Length of the edge that it runs along.
        along: Length,
        /// Distance that is there already, from what is kept away from to the edge of the field.
        edge_distance: Length,
    },
}

/// Ground at the edge of a field that stays untreated, to keep away from water, people or other crops.
#[derive(Clone, Debug, PartialEq)]
pub struct Buffer {
    keeps_from: Option<Arc<str>>,
    size: BufferSize,
}

impl Buffer {
    /// A buffer of a size.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for an area, width or length that is not above zero;
    /// [`OutOfRange`](ErrorCode::OutOfRange) for a distance below zero.
    pub fn new(size: BufferSize) -> Result<Self, Error> {
        match size {
            BufferSize::Area(area) => positive(area).map(|_| ()).map_err(|error| error.at("area"))?,
            BufferSize::Strip { width, along, edge_distance } => {
                positive(width).map_err(|error| error.at("width"))?;
                positive(along).map_err(|error| error.at("along"))?;
                not_negative(edge_distance).map_err(|error| error.at("edge_distance"))?;
            }
        }
        Ok(Self { keeps_from: None, size })
    }

    /// States what it keeps away from, such as a ditch.
    ///
    /// # Errors
    ///
    /// As [`Product::new`](crate::Product::new) for a name, at `keeps_from`.
    pub fn keeping_from(mut self, what: &str) -> Result<Self, Error> {
        self.keeps_from = Some(legible_at("keeps_from", what)?);
        Ok(self)
    }

    /// What it keeps away from, where stated.
    #[must_use]
    pub fn keeps_from(&self) -> Option<&str> {
        self.keeps_from.as_deref()
    }

    /// How it is measured.
    #[must_use]
    pub const fn size(&self) -> BufferSize {
        self.size
    }

    /// Ground of the field that it takes.
    #[must_use]
    pub fn area(&self) -> Area {
        match self.size {
            BufferSize::Area(area) => area,
            BufferSize::Strip { width, along, edge_distance } => (width - edge_distance).max(Length::ZERO) * along,
        }
    }
}

/// How much of the treated ground is sprayed twice, because passes overlap.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Overlap {
    /// Part of the treated ground that is sprayed twice.
    Share(Ratio),
    /// Passes of a swath that overlap by a width.
    Passes {
        /// Width that two passes share.
        width: Length,
        /// Treated width per pass.
        swath: Length,
    },
}

impl Overlap {
    /// Part of the treated ground that is sprayed twice: of passes `w` wide that overlap by `o`, `o / (w - o)`.
    #[must_use]
    pub fn share(self) -> Ratio {
        match self {
            Self::Share(share) => share,
            Self::Passes { width, swath } => width / (swath - width),
        }
    }

    /// A part of the ground.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for less than nothing and for more than all of it.
    pub fn of_share(share: Ratio) -> Result<Self, Error> {
        if share >= Ratio::ZERO && share <= Ratio::one() {
            return Ok(Self::Share(share));
        }
        let error = Error::new(ErrorCode::OutOfRange).at("share").given(share);
        Err(error.allowed(text::word("from 0 % to 100 % of the ground")))
    }

    /// Passes of a swath that overlap by a width: at most by half, for more would spray some ground three times.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for a swath that is not above zero; [`OutOfRange`](ErrorCode::OutOfRange) for an overlap
    /// below zero or above half of the swath.
    pub fn of_passes(width: Length, swath: Length) -> Result<Self, Error> {
        not_negative(width).map_err(|error| error.at("width"))?;
        positive(swath).map_err(|error| error.at("swath"))?;
        if width + width <= swath {
            return Ok(Self::Passes { width, swath });
        }
        let error = Error::new(ErrorCode::OutOfRange).at("width").given(width);
        Err(error.allowed(text::word("at most half of the swath")))
    }

    fn checked(self) -> Result<Self, Error> {
        match self {
            Self::Share(share) => Self::of_share(share),
            Self::Passes { width, swath } => Self::of_passes(width, swath),
        }
    }
}

/// The ground of a job: field less buffers, and what overlap sprays twice.
///
/// # Example
///
/// 240 m by 100 m; 5 m are kept from a ditch along the long side, of which 2 m are bank: 2.4 ha less 720 m2. Passes of 12 m overlap by
/// half a meter.
///
/// ```
/// use mixcalc::{Buffer, BufferSize, Field, Ground, Length, Overlap};
///
/// let m = |text| Length::read(text);
/// let ground = Ground::new(Field::Sides { length: m("240 m")?, width: m("100 m")? })?
///     .with_buffer(Buffer::new(BufferSize::Strip { width: m("5 m")?, along: m("240 m")?, edge_distance: m("2 m")? })?)?
///     .with_overlap(Overlap::Passes { width: m("0.5 m")?, swath: m("12 m")? })?;
/// assert_eq!(ground.treated().to_string(), "2.328 ha");
/// assert_eq!(ground.sprayed_twice().to_string(), "0.1012 ha");
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Ground {
    field: Field,
    buffers: Vec<Buffer>,
    overlap: Option<Overlap>,
}

impl From<Area> for Ground {
    /// A field of an area, all of it treated, no part of it twice.
    fn from(area: Area) -> Self {
        Self { field: Field::Area(area), buffers: Vec::new(), overlap: None }
    }
}

/// Most buffers of a field.
const MOST_BUFFERS: usize = 1000;

impl Ground {
    /// A field, all of it treated, no part of it twice.
    ///
    /// # Errors
    ///
    /// [`NotPositive`](ErrorCode::NotPositive) for an area or a side that is not above zero.
    pub fn new(field: Field) -> Result<Self, Error> {
        match field {
            Field::Area(area) => positive(area).map(|_| ()).map_err(|error| error.at("area"))?,
            Field::Sides { length, width } => {
                positive(length).map_err(|error| error.at("length"))?;
                positive(width).map_err(|error| error.at("width"))?;
            }
        }
        Ok(Self { field, buffers: Vec::new(), overlap: None })
    }

    /// Keeps a buffer untreated. Strips that share a corner count it twice, on the cautious side; a buffer by its area does not.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) where the buffers leave no ground to treat, and for the thousand-and-first.
    pub fn with_buffer(mut self, buffer: Buffer) -> Result<Self, Error> {
        let index = self.buffers.len();
        let place = alloc::format!("buffers[{index}]");
        if index == MOST_BUFFERS {
            let most = format_args!("{} {MOST_BUFFERS}", text::word("at most"));
            return Err(Error::new(ErrorCode::OutOfRange).at("buffers").given(index + 1).allowed(most));
        }
        self.buffers.push(buffer);
        if is_under(self.buffered(), self.field()) {
            return Ok(self);
        }
        let error = Error::new(ErrorCode::OutOfRange).at(place).given(self.buffered());
        Err(error.allowed(format_args!("{} {}", text::word("less than the field in all,"), self.field())))
    }

    /// States how much is sprayed twice.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`](ErrorCode::OutOfRange) for more than all of the ground, or an overlap of more than half of the swath;
    /// [`NotPositive`](ErrorCode::NotPositive) for a swath that is not above zero.
    pub fn with_overlap(mut self, overlap: Overlap) -> Result<Self, Error> {
        self.overlap = Some(overlap.checked().map_err(|error| error.at("overlap"))?);
        Ok(self)
    }

    /// How the field is measured.
    #[must_use]
    pub const fn measured_by(&self) -> Field {
        self.field
    }

    /// The buffers.
    #[must_use]
    pub fn buffers(&self) -> &[Buffer] {
        &self.buffers
    }

    /// How much is sprayed twice, where stated.
    #[must_use]
    pub const fn overlap(&self) -> Option<Overlap> {
        self.overlap
    }

    /// Area of the field, buffers inside.
    #[must_use]
    pub fn field(&self) -> Area {
        match self.field {
            Field::Area(area) => area,
            Field::Sides { length, width } => length * width,
        }
    }

    /// Ground that the buffers take.
    #[must_use]
    pub fn buffered(&self) -> Area {
        ordered_sum(self.buffers.iter().map(Buffer::area))
    }

    /// Ground to be treated: field less buffers.
    #[must_use]
    pub fn treated(&self) -> Area {
        self.field() - self.buffered()
    }

    /// Ground that is sprayed twice.
    #[must_use]
    pub fn sprayed_twice(&self) -> Area {
        self.treated() * self.overlap_share()
    }

    /// Part of the treated ground that is sprayed twice.
    #[must_use]
    pub fn overlap_share(&self) -> Ratio {
        self.overlap.map_or(Ratio::ZERO, Overlap::share)
    }

    /// What overlap multiplies the mix by: 1 and the part that is sprayed twice.
    pub(crate) fn passes(&self) -> Ratio {
        Ratio::one() + self.overlap_share()
    }

    /// Whether more is known of it than its area.
    #[must_use]
    pub fn is_by_parts(&self) -> bool {
        *self != Self::from(self.field())
    }
}
