//! Nozzles: flow against pressure, the liquid, the valve before it, and the standard sizes.

use alloc::vec::Vec;

use crate::error::{Error, ErrorCode};
use crate::finding::{Bound, Force, Limit};
use crate::quantity::close::{is_over, is_under};
use crate::quantity::{AdditiveKind, Density, Flow, Pressure, Ratio, not_negative, positive};
use crate::text;
use crate::uncertainty::line::Line;
use crate::uncertainty::{DegreesOfFreedom, Uncertain};

text::named! {
    /// How sure it is that a source says so.
    Confidence {
        /// Its text, or what is widely printed from it, was seen to agree.
        Certain = "certain";
        /// Its text was not seen.
        Probable = "probable";
    }
}

/// A flow of water at a pressure, as a standard or a custom states it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatedFlow {
    flow: Flow,
    pressure: Pressure,
    confidence: Confidence,
    source: &'static str,
}

impl RatedFlow {
    /// The flow.
    #[must_use]
    pub const fn flow(self) -> Flow {
        self.flow
    }

    /// The pressure at which it is stated.
    #[must_use]
    pub const fn pressure(self) -> Pressure {
        self.pressure
    }

    /// How sure it is.
    #[must_use]
    pub const fn confidence(self) -> Confidence {
        self.confidence
    }

    /// Where it stands.
    #[must_use]
    pub const fn source(self) -> &'static str {
        self.source
    }
}

/// A standard nozzle size: `02`, `015`.
///
/// Two definitions go by one number: ISO 10625 rounds size 01 to 0.40 L/min at 300 kPa, and by custom it is 0.1 US gal/min at 40 psi, which is 0.3948 L/min
/// at 300 kPa, 1.3 % less. Both are held; say which one a table was made from.
///
/// # Example
///
/// ```
/// use mixcalc::NozzleSize;
///
/// let size = NozzleSize::read("03")?;
/// assert_eq!(size.nominal().flow().to_string(), "1.2 L/min");
/// assert_eq!(size.by_custom().flow().us_gallons_per_minute(), 0.3);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// ISO 10625:2018, nominal flows at 300 kPa. Colours are left to the standard: for several sizes they are not certain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NozzleSize {
    name: &'static str,
    /// Thousandths of a US gallon per minute at 40 psi.
    by_custom: u16,
    /// Millilitres per minute at 300 kPa.
    nominal: u16,
    confidence: Confidence,
}

const fn size(name: &'static str, by_custom: u16, nominal: u16, confidence: Confidence) -> NozzleSize {
    NozzleSize { name, by_custom, nominal, confidence }
}

/// Sizes, the least first. Left out are those whose flow, or whose number, is not certain enough: 12, 125, 25 and 30.
const SIZES: &[NozzleSize] = &[
    size("0050", 50, 200, Confidence::Certain),
    size("0067", 67, 270, Confidence::Certain),
    size("0075", 75, 300, Confidence::Certain),
    size("01", 100, 400, Confidence::Certain),
    size("015", 150, 600, Confidence::Certain),
    size("02", 200, 800, Confidence::Certain),
    size("025", 250, 1000, Confidence::Certain),
    size("03", 300, 1200, Confidence::Certain),
    size("035", 350, 1400, Confidence::Certain),
    size("04", 400, 1600, Confidence::Certain),
    size("05", 500, 2000, Confidence::Certain),
    size("06", 600, 2400, Confidence::Certain),
    size("08", 800, 3200, Confidence::Certain),
    size("10", 1000, 4000, Confidence::Probable),
    size("15", 1500, 6000, Confidence::Probable),
    size("20", 2000, 8000, Confidence::Probable),
];

/// Of the flows in the table to a litre and a gallon.
const THOUSAND: f64 = 1000.0;
const ISO_10625_KPA: f64 = 300.0;
const CUSTOM_PSI: f64 = 40.0;

impl NozzleSize {
    /// The sizes, the least first.
    #[must_use]
    pub const fn all() -> &'static [Self] {
        SIZES
    }

    /// The size of that name, such as `015`.
    ///
    /// # Errors
    ///
    /// [`UnknownChoice`](ErrorCode::UnknownChoice) for a name that is not held, with the nearest that is.
    pub fn read(name: &str) -> Result<Self, Error> {
        SIZES.iter().find(|size| size.name == name).copied().ok_or_else(|| {
            let nearest = text::nearest(name, SIZES.iter().map(|size| size.name)).unwrap_or("02");
            Error::new(ErrorCode::UnknownChoice).given(text::quoted(name)).allowed(text::quoted(nearest))
        })
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.name
    }

    /// The nominal flow of ISO 10625, at 300 kPa.
    #[must_use]
    pub fn nominal(self) -> RatedFlow {
        RatedFlow {
            flow: Flow::from_liters_per_minute(f64::from(self.nominal) / THOUSAND).unwrap_or(Flow::ZERO),
            pressure: Pressure::from_kilopascals(ISO_10625_KPA).unwrap_or(Pressure::ZERO),
            confidence: self.confidence,
            source: text::source::ISO_10625,
        }
    }

    /// The flow that the number means by custom: tenths of a US gallon per minute at 40 psi.
    #[must_use]
    pub fn by_custom(self) -> RatedFlow {
        RatedFlow {
            flow: Flow::from_us_gallons_per_minute(f64::from(self.by_custom) / THOUSAND).unwrap_or(Flow::ZERO),
            pressure: Pressure::from_pounds_per_square_inch(CUSTOM_PSI).unwrap_or(Pressure::ZERO),
            confidence: Confidence::Certain,
            source: text::source::SIZE_BY_CUSTOM,
        }
    }
}

/// How much more a nozzle takes of water than of a denser liquid at one pressure: the square root of the densities' ratio. A flow or a volume rate
/// of the liquid times this is that of water, as tables of nozzles show it.
///
/// * `liquid`: density of what is sprayed.
/// * `water`: density of water.
///
/// Viscosity and surface tension are not in it: measure a liquid that is thicker than about 10 mPa s.
///
/// # Errors
///
/// At `liquid` or `water`: [`NotPositive`](ErrorCode::NotPositive). Else as [`Uncertain::sum`].
///
/// # Example
///
/// 187 L/ha of a nitrogen solution of 1.28 kg/L: a table for water must show 187 x 1.13 = 212 L/ha.
///
/// ```
/// use mixcalc::{Density, Uncertain, density_factor};
///
/// let [liquid, water] = [1.28, 1.0].map(Density::from_kilograms_per_liter);
/// let factor = density_factor(&Uncertain::exact(liquid?)?, &Uncertain::exact(water?)?)?;
/// assert!((factor.value().number() - 1.131).abs() < 5e-4);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Orifice equation; University of Nebraska CropWatch, 2016; Oklahoma State University Extension.
pub fn density_factor(liquid: &Uncertain<Density>, water: &Uncertain<Density>) -> Result<Uncertain<Ratio>, Error> {
    positive(liquid.value()).map_err(|error| error.at("liquid"))?;
    positive(water.value()).map_err(|error| error.at("water"))?;
    liquid.over::<_, Ratio>(water)?.power(&square_root()?)
}

/// The exponent of a fixed orifice.
fn square_root() -> Result<Uncertain<Ratio>, Error> {
    Uncertain::exact(Ratio::one() * 0.5)
}

/// A nozzle: its flow of water at a reference pressure, and how the flow goes with pressure:
/// `q = d q_ref ((p - loss) / p_ref)^n / f`.
///
/// The exponent `n` is 0.5, that of a fixed orifice, unless another is stated or fitted; the `loss` before the tip is none, the duty cycle `d` one and the
/// density factor `f` that of water, until they are stated. Whatever is uncertain in them is in the flow.
///
/// # Example
///
/// 1.2 L/min at 300 kPa: at a quarter of the pressure half the flow. A gauge that may be 10 % off makes 10 % / sqrt(3) / 2 = 2.9 % of it.
///
/// ```
/// use mixcalc::{Flow, Nozzle, Pressure, Uncertain};
///
/// let nozzle = Nozzle::new(&Uncertain::exact(Flow::read("1.2 L/min")?)?, &Uncertain::exact(Pressure::read("300 kPa")?)?)?;
/// let gauge = Uncertain::from_tolerance("gauge", Pressure::read("75 kPa")?, Pressure::read("7.5 kPa")?)?;
/// let flow = nozzle.flow_at(&gauge)?;
/// assert!((flow.value().liters_per_minute() - 0.6).abs() < 1e-12);
/// let relative = flow.standard_uncertainty() / flow.value();
/// assert!((relative.number() - 0.0289).abs() < 5e-5);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// Orifice equation `q = k sqrt(p)`; general exponent as in ISO 5682-1 (probable).
#[derive(Clone, Debug, PartialEq)]
pub struct Nozzle {
    flow: Uncertain<Flow>,
    pressure: Uncertain<Pressure>,
    exponent: Uncertain<Ratio>,
    pressure_loss: Uncertain<Pressure>,
    density_factor: Uncertain<Ratio>,
    duty_cycle: Uncertain<Ratio>,
    pressure_range: Option<[Limit; 2]>,
}

impl Nozzle {
    /// A nozzle of a known flow of water at a pressure at its tip.
    ///
    /// # Errors
    ///
    /// At `flow` or `pressure`: [`NotPositive`](ErrorCode::NotPositive), [`OutOfRange`](ErrorCode::OutOfRange) for a size that nobody measures.
    pub fn new(flow: &Uncertain<Flow>, pressure: &Uncertain<Pressure>) -> Result<Self, Error> {
        Ok(Self {
            flow: above_zero(flow, "flow")?.clone(),
            pressure: above_zero(pressure, "pressure")?.clone(),
            exponent: square_root()?,
            pressure_loss: Uncertain::exact(Pressure::ZERO)?,
            density_factor: Uncertain::exact(Ratio::one())?,
            duty_cycle: Uncertain::exact(Ratio::one())?,
            pressure_range: None,
        })
    }

    /// A nozzle of a rated flow, taken as it stands. How far a new nozzle may be off is an input of its own: multiply by it, or state the flow with
    /// its tolerance through [`new`](Self::new).
    ///
    /// # Errors
    ///
    /// As [`new`](Self::new).
    pub fn rated(rated: RatedFlow) -> Result<Self, Error> {
        Self::new(&Uncertain::exact(rated.flow)?, &Uncertain::exact(rated.pressure)?)
    }

    /// A nozzle of two measured points: `n = ln(q2 / q1) / ln(p2 / p1)`. Inputs that both points share, such as a jug, cancel in the exponent.
    ///
    /// # Errors
    ///
    /// At `first` or `second`: [`NotPositive`](ErrorCode::NotPositive). [`NotFinite`](ErrorCode::NotFinite) for two points at one pressure. At `exponent`, as
    /// [`with_exponent`](Self::with_exponent), where the flow does not rise with the pressure.
    ///
    /// # Example
    ///
    /// 0.8 L/min at 100 kPa and 1.5 L/min at 400 kPa: n = ln(1.875) / ln(4) = 0.4534.
    ///
    /// ```
    /// use mixcalc::{Flow, Nozzle, Pressure, Uncertain};
    ///
    /// let point = |pressure, flow| Ok::<_, mixcalc::Error>((
    ///     Uncertain::exact(Pressure::read(pressure)?)?,
    ///     Uncertain::exact(Flow::read(flow)?)?,
    /// ));
    /// let (low, high) = (point("100 kPa", "0.8 L/min")?, point("400 kPa", "1.5 L/min")?);
    /// let nozzle = Nozzle::from_two_points((&low.0, &low.1), (&high.0, &high.1))?;
    /// assert!((nozzle.exponent().value().number() - 0.4534).abs() < 5e-5);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// `q = k p^n` at two points.
    pub fn from_two_points(
        first: (&Uncertain<Pressure>, &Uncertain<Flow>),
        second: (&Uncertain<Pressure>, &Uncertain<Flow>),
    ) -> Result<Self, Error> {
        for ((pressure, flow), at) in [(first, "first"), (second, "second")] {
            above_zero(pressure, "pressure").map_err(|error| error.at(at))?;
            above_zero(flow, "flow").map_err(|error| error.at(at))?;
        }
        let flows = second.1.over::<_, Ratio>(first.1)?.logarithm()?;
        let pressures = second.0.over::<_, Ratio>(first.0)?.logarithm()?;
        Self::new(first.1, first.0)?.with_exponent(&flows.over(&pressures)?)
    }

    /// A nozzle of three measured points or more: the line of least squares through `ln q` over `ln p`. Exponent, and flow in the middle of the
    /// pressures, get the uncertainty that the scatter about the line shows, as inputs `NAME, exponent` and `NAME, flow`.
    ///
    /// What all points share does not show in the scatter. A jug or a gauge that is off by one factor everywhere leaves the exponent alone.
    ///
    /// * `name`: whose inputs they are.
    /// * `points`: pressure at the tip, and the flow of water there.
    ///
    /// # Errors
    ///
    /// At `points`: [`OutOfRange`](ErrorCode::OutOfRange) for fewer than three or for one pressure alone; at `points[i]`:
    /// [`NotPositive`](ErrorCode::NotPositive). At `exponent`, as [`with_exponent`](Self::with_exponent).
    ///
    /// # Source
    ///
    /// ISO 11095:1996, 6, for the line.
    pub fn from_points(name: &str, points: &[(Pressure, Flow)]) -> Result<Self, Error> {
        let mut logarithms = Vec::with_capacity(points.len());
        let unit = points.first().copied().unwrap_or_default();
        for (i, (pressure, flow)) in points.iter().enumerate() {
            let at = |error: Error| error.at(format_args!("points[{i}]"));
            let (x, y) = (positive(*pressure).map_err(at)? / unit.0, positive(*flow).map_err(at)? / unit.1);
            logarithms.push((libm::log(x.number()), libm::log(y.number())));
        }
        let line = Line::through(&logarithms)?;
        let degrees = DegreesOfFreedom::new(Ratio::one() * line.degrees())?;
        let scatter = alloc::format!("{name}, scatter");
        let fitted = |part: &str, value: f64, u: f64| {
            let (value, u) = (Ratio::one() * value, Ratio::one() * u);
            Uncertain::from_spread(&alloc::format!("{name}, {part}"), value, u, &scatter, degrees)
        };
        let exponent = fitted("exponent", line.slope, line.scatter() / libm::sqrt(line.x_squares))?;
        let middle = libm::exp(line.y_mean);
        let middle = fitted("flow", middle, middle * line.scatter() / libm::sqrt(line.count))?;
        let flow = Uncertain::exact(unit.1)?.times(&middle)?;
        Self::new(&flow, &Uncertain::exact(unit.0 * libm::exp(line.x_mean))?)?.with_exponent(&exponent)
    }

    /// States the exponent of the pressure: about 0.5 for a fixed orifice, 0.4 to 0.5 for hollow cones, to 1 and more for orifices that open.
    ///
    /// # Errors
    ///
    /// At `exponent`: [`NotPositive`](ErrorCode::NotPositive): with it a higher pressure would lower the flow.
    pub fn with_exponent(mut self, exponent: &Uncertain<Ratio>) -> Result<Self, Error> {
        self.exponent = above_zero(exponent, "exponent")?.clone();
        Ok(self)
    }

    /// States what the pressure loses between gauge and tip: at an anti-drip valve, in a line.
    ///
    /// # Errors
    ///
    /// At `pressure_loss`: [`OutOfRange`](ErrorCode::OutOfRange) below zero.
    pub fn with_pressure_loss(mut self, loss: &Uncertain<Pressure>) -> Result<Self, Error> {
        not_negative(loss.value()).map_err(|error| error.at("pressure_loss"))?;
        self.pressure_loss = loss.clone();
        Ok(self)
    }

    /// States that it sprays another liquid than water, by its [`density_factor`].
    ///
    /// # Errors
    ///
    /// At `density_factor`: [`NotPositive`](ErrorCode::NotPositive).
    pub fn with_density_factor(mut self, factor: &Uncertain<Ratio>) -> Result<Self, Error> {
        self.density_factor = above_zero(factor, "density_factor")?.clone();
        Ok(self)
    }

    /// States the part of the time that a pulsing valve is open.
    ///
    /// # Errors
    ///
    /// At `duty_cycle`: [`NotPositive`](ErrorCode::NotPositive), and [`OutOfRange`](ErrorCode::OutOfRange) above 100 %.
    pub fn with_duty_cycle(mut self, duty_cycle: &Uncertain<Ratio>) -> Result<Self, Error> {
        if is_over(above_zero(duty_cycle, "duty_cycle")?.value(), Ratio::one()) {
            let error = Error::new(ErrorCode::OutOfRange).at("duty_cycle").given(duty_cycle.value());
            return Err(error.allowed(text::word("at most 100 %")));
        }
        self.duty_cycle = duty_cycle.clone();
        Ok(self)
    }

    /// States the pressures at the gauge between which it may be used, and where that is written.
    ///
    /// # Errors
    ///
    /// At `lowest`: [`NotPositive`](ErrorCode::NotPositive); at `highest`: [`OutOfRange`](ErrorCode::OutOfRange) for less than the lowest.
    pub fn with_pressure_range(mut self, lowest: Pressure, highest: Pressure, source: &str) -> Result<Self, Error> {
        positive(lowest).map_err(|error| error.at("lowest"))?;
        if is_under(positive(highest).map_err(|error| error.at("highest"))?, lowest) {
            let error = Error::new(ErrorCode::OutOfRange).at("highest").given(highest);
            return Err(error.allowed(format_args!("{} {lowest}", text::word("at least"))));
        }
        let limit = |bound, value: Pressure| Limit::new(bound, value, Force::Fact, source);
        self.pressure_range = Some([limit(Bound::AtLeast, lowest), limit(Bound::AtMost, highest)]);
        Ok(self)
    }

    /// The exponent of the pressure.
    #[must_use]
    pub const fn exponent(&self) -> &Uncertain<Ratio> {
        &self.exponent
    }

    /// Its flow at a pressure at the gauge.
    ///
    /// # Errors
    ///
    /// At `pressure`: [`OutOfRange`](ErrorCode::OutOfRange) for one that is not above the pressure loss. Else as [`Uncertain::sum`].
    pub fn flow_at(&self, pressure: &Uncertain<Pressure>) -> Result<Uncertain<Flow>, Error> {
        let at_tip = pressure.minus(&self.pressure_loss)?;
        if !is_over(pressure.value(), self.pressure_loss.value()) {
            let error = Error::new(ErrorCode::OutOfRange).at("pressure").given(pressure.value());
            return Err(error.allowed(format_args!("{} {}", text::word("above"), self.pressure_loss.value())));
        }
        let part = at_tip.over::<_, Ratio>(&self.pressure)?.power(&self.exponent)?;
        let open = self.flow.times::<_, Flow>(&self.duty_cycle)?.over::<_, Flow>(&self.density_factor)?;
        open.times(&part)
    }

    /// The pressure at the gauge that a flow takes: [`flow_at`](Self::flow_at) the other way round.
    ///
    /// # Errors
    ///
    /// At `flow`: [`NotPositive`](ErrorCode::NotPositive). Else as [`Uncertain::sum`].
    ///
    /// # Example
    ///
    /// Twice the flow takes four times the pressure.
    ///
    /// ```
    /// use mixcalc::{Flow, Nozzle, NozzleSize, Uncertain};
    ///
    /// let nozzle = Nozzle::rated(NozzleSize::read("02")?.nominal())?;
    /// let pressure = nozzle.required_pressure(&Uncertain::exact(Flow::read("1.6 L/min")?)?)?;
    /// assert!((pressure.value().kilopascals() - 1200.0).abs() < 1e-9);
    /// # Ok::<(), mixcalc::Error>(())
    /// ```
    ///
    /// # Source
    ///
    /// As [`flow_at`](Self::flow_at).
    pub fn required_pressure(&self, flow: &Uncertain<Flow>) -> Result<Uncertain<Pressure>, Error> {
        let open = self.flow.times::<_, Flow>(&self.duty_cycle)?.over::<_, Flow>(&self.density_factor)?;
        let root = Uncertain::exact(Ratio::one())?.over(&self.exponent)?;
        let part = above_zero(flow, "flow")?.over::<_, Ratio>(&open)?.power(&root)?;
        self.pressure.times::<_, Pressure>(&part)?.plus(&self.pressure_loss)
    }

    /// The end of its pressure range that a pressure at the gauge is beyond; `None` within it, or where no range was stated.
    #[must_use]
    pub fn broken_limit(&self, pressure: Pressure) -> Option<&Limit> {
        self.pressure_range.iter().flatten().find(|limit| {
            let value = limit.value.claim().unwrap_or(Pressure::ZERO);
            match limit.bound {
                Bound::AtLeast => is_under(pressure, value),
                Bound::AtMost => is_over(pressure, value),
            }
        })
    }
}

/// The standard sizes that give a flow of water at a pressure between two, each with the pressure that it takes, by the nominal flows of ISO 10625.
/// Smallest first.
///
/// # Errors
///
/// At `flow`, `lowest` or `highest`: [`NotPositive`](ErrorCode::NotPositive).
///
/// # Example
///
/// 1 L/min between 200 and 400 kPa: size 025 at its nominal pressure, and 03 at 300 x (1 / 1.2)^2 = 208 kPa.
///
/// ```
/// use mixcalc::{Flow, Pressure, required_sizes};
///
/// let sizes = required_sizes(Flow::read("1 L/min")?, Pressure::read("200 kPa")?, Pressure::read("400 kPa")?)?;
/// let names: Vec<_> = sizes.iter().map(|(size, _)| size.name()).collect();
/// assert_eq!(names, ["025", "03"]);
/// # Ok::<(), mixcalc::Error>(())
/// ```
///
/// # Source
///
/// ISO 10625:2018 and the orifice equation.
pub fn required_sizes(flow: Flow, lowest: Pressure, highest: Pressure) -> Result<Vec<(NozzleSize, Pressure)>, Error> {
    positive(lowest).map_err(|error| error.at("lowest"))?;
    positive(highest).map_err(|error| error.at("highest"))?;
    let flow = Uncertain::exact(flow)?;
    let mut sizes = Vec::new();
    for size in SIZES {
        let pressure = Nozzle::rated(size.nominal())?.required_pressure(&flow)?.value();
        if !is_under(pressure, lowest) && !is_over(pressure, highest) {
            sizes.push((*size, pressure));
        }
    }
    Ok(sizes)
}

/// An uncertain value that must be above zero.
pub(super) fn above_zero<'a, Q: AdditiveKind>(
    value: &'a Uncertain<Q>,
    name: &'static str,
) -> Result<&'a Uncertain<Q>, Error> {
    positive(value.value()).map_err(|error| error.at(name))?;
    Ok(value)
}
