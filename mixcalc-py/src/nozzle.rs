//! Nozzles, their check, repeats and wear. No arithmetic of its own.

use mixcalc::{BoomSide, FanAngle, Force, Limit, NewNozzle, NozzleLimits, OutlierTest, Ratio};
use pyo3::call::PyCallArgs;
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyMapping, PyTuple};

use crate::border;
use crate::plan::{each, limit, quantity};
use crate::quantity::Quantity;
use crate::uncertain::{Uncertain, dynamic, input, items, known, share, stated, told};

/// A named tuple of `mixcalc.nozzles`.
fn shape<'py>(py: Python<'py>, name: &str, fields: impl PyCallArgs<'py>) -> PyResult<Py<PyAny>> {
    static MODULE: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    let module = MODULE.get_or_try_init(py, || Ok::<_, PyErr>(py.import("mixcalc.nozzles")?.into_any().unbind()))?;
    Ok(module.bind(py).getattr(name)?.call1(fields)?.unbind())
}

/// The two values of a pair, such as a pressure and the flow there.
fn pair<'py>(at: &str, pair: &Bound<'py, PyAny>) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyAny>)> {
    pair.extract()
        .map_err(|_| PyValueError::new_err(format!("{at} is a pair of values, such as a pressure and the flow there")))
}

/// A standard nozzle size, such as "02" or "015".
///
/// Two definitions go by one number: `nominal` is that of ISO 10625, rounded, at 300 kPa; `by_custom` is tenths of a US gallon per minute
/// at 40 psi, 1.3 % less. Say which one a table was made from.
///
/// Raises
/// ------
/// InputError
///     For a name that is not held, with the nearest that is.
///
/// Examples
/// --------
/// >>> from mixcalc import NozzleSize
/// >>> NozzleSize("03").nominal.flow, f"{NozzleSize('03').by_custom.flow:.4f L/min}"
/// (Flow("1.2 L/min"), '1.1356 L/min')
#[pyclass(frozen, eq, hash, module = "mixcalc", name = "NozzleSize")]
#[derive(PartialEq, Eq, Hash)]
pub(crate) struct NozzleSize(&'static str);

impl NozzleSize {
    fn core(&self, py: Python<'_>) -> PyResult<mixcalc::NozzleSize> {
        border::checked(py, mixcalc::NozzleSize::read(self.0))
    }
}

fn rated(py: Python<'_>, rated: mixcalc::RatedFlow) -> PyResult<Py<PyAny>> {
    shape(
        py,
        "RatedFlow",
        (quantity(rated.flow()), quantity(rated.pressure()), rated.confidence().name(), rated.source()),
    )
}

#[pymethods]
impl NozzleSize {
    #[new]
    #[pyo3(signature = (name, /))]
    fn object(py: Python<'_>, name: &str) -> PyResult<Self> {
        border::checked(py, mixcalc::NozzleSize::read(name)).map(|size| Self(size.name()))
    }

    /// All sizes that are held, the least first.
    #[staticmethod]
    fn all() -> Vec<Self> {
        mixcalc::NozzleSize::all().iter().map(|size| Self(size.name())).collect()
    }

    /// Its name.
    #[getter]
    fn name(&self) -> &'static str {
        self.0
    }

    /// The nominal flow of ISO 10625, at 300 kPa: `nozzles.RatedFlow`.
    #[getter]
    fn nominal(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        rated(py, self.core(py)?.nominal())
    }

    /// The flow that the number means by custom, tenths of a US gallon per minute at 40 psi: `nozzles.RatedFlow`.
    #[getter]
    fn by_custom(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        rated(py, self.core(py)?.by_custom())
    }

    fn __repr__(&self) -> String {
        format!("NozzleSize({:?})", self.0)
    }

    fn __reduce__(slf: &Bound<'_, Self>) -> (Py<PyAny>, (&'static str,)) {
        (slf.get_type().into_any().unbind(), (slf.get().0,))
    }
}

/// A nozzle: its flow of water at a pressure at its tip, and how the flow goes with pressure: `q = d q_ref ((p - loss) / p_ref)^n / f`.
///
/// The exponent `n` is 0.5, that of a fixed orifice, unless another is stated or fitted; the loss before the tip is none, the duty cycle `d`
/// one and the density factor `f` that of water, until they are stated. Whatever is uncertain in them is in the flow.
///
/// Parameters
/// ----------
/// flow : Uncertain or Flow
///     Flow of water.
/// pressure : Uncertain or Pressure
///     The pressure at its tip at which it gives that.
///
/// Raises
/// ------
/// InputError
///     For an input that is not above zero, with its name as the path.
/// UnitError
///     For an input of another kind.
///
/// Examples
/// --------
/// >>> from mixcalc import Nozzle, NozzleSize
/// >>> nozzle = Nozzle.rated(NozzleSize("03").nominal)
/// >>> f"{nozzle.flow_at('75 kPa').value:.2f L/min}", f"{nozzle.required_pressure('2.4 L/min').value:.0f kPa}"
/// ('0.60 L/min', '1200 kPa')
#[pyclass(frozen, module = "mixcalc", name = "Nozzle")]
pub(crate) struct Nozzle(mixcalc::Nozzle);

#[pymethods]
impl Nozzle {
    #[new]
    fn object(flow: &Bound<'_, PyAny>, pressure: &Bound<'_, PyAny>) -> PyResult<Self> {
        let made = mixcalc::Nozzle::new(&input("flow", flow)?, &input("pressure", pressure)?);
        border::checked(flow.py(), made).map(Self)
    }

    /// A nozzle of a rated flow, taken as it stands. How far a new nozzle may be off is an input of its own: state the flow with its
    /// tolerance in the constructor.
    #[staticmethod]
    #[pyo3(signature = (rated, /))]
    fn rated(rated: &Bound<'_, PyAny>) -> PyResult<Self> {
        Self::object(&rated.getattr("flow")?, &rated.getattr("pressure")?)
    }

    /// A nozzle of two measured points, each a pressure and the flow there: `n = ln(q2 / q1) / ln(p2 / p1)`. What both share cancels in the
    /// exponent.
    #[staticmethod]
    fn from_two_points(first: &Bound<'_, PyAny>, second: &Bound<'_, PyAny>) -> PyResult<Self> {
        let point = |at: &str, of: &Bound<'_, PyAny>| {
            let (pressure, flow) = pair(at, of)?;
            Ok::<_, PyErr>((input(&format!("{at}.pressure"), &pressure)?, input(&format!("{at}.flow"), &flow)?))
        };
        let (low, high) = (point("first", first)?, point("second", second)?);
        let made = mixcalc::Nozzle::from_two_points((&low.0, &low.1), (&high.0, &high.1));
        border::checked(first.py(), made).map(Self)
    }

    /// A nozzle of three measured points or more, each a pressure and the flow there: least squares through `ln q` over `ln p`. Exponent
    /// and flow get the uncertainty that the scatter shows, as inputs `NAME, exponent` and `NAME, flow`.
    #[staticmethod]
    fn from_points(name: &str, points: &Bound<'_, PyAny>) -> PyResult<Self> {
        let py = points.py();
        let points = items("points", points, |at, point| {
            let (pressure, flow) = pair(at, point)?;
            Ok((known(at, &pressure)?, known(at, &flow)?))
        })?;
        border::checked(py, mixcalc::Nozzle::from_points(name, &points)).map(Self)
    }

    /// The same nozzle with another exponent: 0.4 to 0.5 for hollow cones, to 1 and more for orifices that open.
    #[pyo3(signature = (exponent, /))]
    fn with_exponent(&self, exponent: &Bound<'_, PyAny>) -> PyResult<Self> {
        border::checked(exponent.py(), self.0.clone().with_exponent(&input("exponent", exponent)?)).map(Self)
    }

    /// The same nozzle with what the pressure loses between gauge and tip: at an anti-drip valve, in a line.
    #[pyo3(signature = (pressure_loss, /))]
    fn with_pressure_loss(&self, pressure_loss: &Bound<'_, PyAny>) -> PyResult<Self> {
        let made = self.0.clone().with_pressure_loss(&input("pressure_loss", pressure_loss)?);
        border::checked(pressure_loss.py(), made).map(Self)
    }

    /// The same nozzle with another liquid than water, by its `density_factor`.
    #[pyo3(signature = (density_factor, /))]
    fn with_density_factor(&self, density_factor: &Bound<'_, PyAny>) -> PyResult<Self> {
        let made = self.0.clone().with_density_factor(&input("density_factor", density_factor)?);
        border::checked(density_factor.py(), made).map(Self)
    }

    /// The same nozzle behind a pulsing valve that is open for a part of the time.
    #[pyo3(signature = (duty_cycle, /))]
    fn with_duty_cycle(&self, duty_cycle: &Bound<'_, PyAny>) -> PyResult<Self> {
        border::checked(duty_cycle.py(), self.0.clone().with_duty_cycle(&input("duty_cycle", duty_cycle)?)).map(Self)
    }

    /// The same nozzle with the pressures at the gauge between which it may be used, and where that is written.
    fn with_pressure_range(
        &self,
        lowest: &Bound<'_, PyAny>,
        highest: &Bound<'_, PyAny>,
        source: &str,
    ) -> PyResult<Self> {
        let (low, high) = (known("lowest", lowest)?, known("highest", highest)?);
        border::checked(lowest.py(), self.0.clone().with_pressure_range(low, high, source)).map(Self)
    }

    /// The exponent of the pressure.
    #[getter]
    fn exponent(&self, py: Python<'_>) -> PyResult<Uncertain> {
        told(py, Ok(self.0.exponent().clone()))
    }

    /// Its flow at a pressure at the gauge.
    #[pyo3(signature = (pressure, /))]
    fn flow_at(&self, pressure: &Bound<'_, PyAny>) -> PyResult<Uncertain> {
        told(pressure.py(), self.0.flow_at(&input("pressure", pressure)?))
    }

    /// The pressure at the gauge that a flow takes.
    #[pyo3(signature = (flow, /))]
    fn required_pressure(&self, flow: &Bound<'_, PyAny>) -> PyResult<Uncertain> {
        told(flow.py(), self.0.required_pressure(&input("flow", flow)?))
    }

    /// The end of its pressure range that a pressure at the gauge is beyond, a `plans.Limit`; `None` within it, or where no range was
    /// stated.
    #[pyo3(signature = (pressure, /))]
    fn broken_limit(&self, pressure: &Bound<'_, PyAny>) -> PyResult<Option<Py<PyAny>>> {
        let broken = self.0.broken_limit(known("pressure", pressure)?);
        broken.map(|broken| limit(pressure.py(), broken)).transpose()
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| self.0 == other.get().0)
    }

    fn __copy__(slf: Bound<'_, Self>) -> Bound<'_, Self> {
        slf
    }

    fn __deepcopy__<'py>(slf: Bound<'py, Self>, _memo: &Bound<'py, PyAny>) -> Bound<'py, Self> {
        slf
    }
}

/// How much more a nozzle takes of water than of a denser liquid at one pressure: the square root of the ratio of their densities.
///
/// A flow or a volume rate of the liquid times this is that of water, as tables of nozzles show it. Viscosity is not in it: measure a liquid
/// that is thicker than about 10 mPa s.
#[pyfunction]
pub(crate) fn density_factor(liquid: &Bound<'_, PyAny>, water: &Bound<'_, PyAny>) -> PyResult<Uncertain> {
    told(liquid.py(), mixcalc::density_factor(&input("liquid", liquid)?, &input("water", water)?))
}

/// The standard sizes that give a flow of water at a pressure between two, each with the pressure that it takes, by the nominal flows of ISO
/// 10625. Smallest first.
#[pyfunction]
pub(crate) fn required_sizes(
    py: Python<'_>,
    flow: &Bound<'_, PyAny>,
    lowest: &Bound<'_, PyAny>,
    highest: &Bound<'_, PyAny>,
) -> PyResult<Py<PyTuple>> {
    let sizes = mixcalc::required_sizes(known("flow", flow)?, known("lowest", lowest)?, known("highest", highest)?);
    each(py, border::checked(py, sizes)?.into_iter(), |py, (size, pressure)| {
        shape(py, "SuitedSize", (NozzleSize(size.name()), quantity(pressure)))
    })
}

/// Width of a fan of so many degrees at a height above its target: `2 h tan(angle / 2)`. Real fans bend: it is the most that the geometry
/// gives.
#[pyfunction]
pub(crate) fn fan_width(fan_angle_degrees: u8, height: &Bound<'_, PyAny>) -> PyResult<Quantity> {
    let angle = border::checked(height.py(), FanAngle::of_degrees(fan_angle_degrees))?;
    border::checked(height.py(), mixcalc::fan_width(angle, known("height", height)?)).map(quantity)
}

/// Height of the boom above its target at which fans of so many degrees overlap: `(1 + overlap) x / (2 tan(angle / 2))`. With an overlap of
/// 100 % each point is under two fans. Makers advise more, since real fans bend.
#[pyfunction]
pub(crate) fn boom_height(
    fan_angle_degrees: u8,
    spacing: &Bound<'_, PyAny>,
    overlap: &Bound<'_, PyAny>,
) -> PyResult<Quantity> {
    let py = spacing.py();
    let angle = border::checked(py, FanAngle::of_degrees(fan_angle_degrees))?;
    border::checked(py, mixcalc::boom_height(angle, known("spacing", spacing)?, known("overlap", overlap)?))
        .map(quantity)
}

fn outlier_test(py: Python<'_>, test: OutlierTest) -> PyResult<Py<PyAny>> {
    let critical = test.critical.map(Ratio::number);
    shape(py, "OutlierTest", (test.verdict.name(), test.farthest, test.residual.number(), critical))
}

/// What was caught from one nozzle: one to many repeats, all at one pressure.
///
/// Parameters
/// ----------
/// name : str
///     The name or number that it has on the boom.
/// repeats : sequence of Flow
///     The catches, as flows.
/// side : str, optional
///     "left" or "right", seen in the direction of travel.
#[pyclass(frozen, module = "mixcalc", name = "NozzleCatches")]
pub(crate) struct NozzleCatches(mixcalc::NozzleCatches);

impl NozzleCatches {
    fn of(
        py: Python<'_>,
        at: &str,
        name: &str,
        repeats: &Bound<'_, PyAny>,
        side: Option<&str>,
    ) -> PyResult<mixcalc::NozzleCatches> {
        let place = if at.is_empty() { "repeats".to_owned() } else { format!("{at}.repeats") };
        let flows: Vec<mixcalc::Flow> = items(&place, repeats, known)?;
        let made = mixcalc::NozzleCatches::new(name, &flows).map_err(|error| error.at(at));
        let made = border::checked(py, made)?;
        let Some(side) = side else { return Ok(made) };
        let Some(side) = BoomSide::all().iter().find(|known| known.name() == side) else {
            return Err(PyValueError::new_err(format!("a side is \"left\" or \"right\", not {side:?}")));
        };
        Ok(made.on_side(*side))
    }
}

#[pymethods]
impl NozzleCatches {
    #[new]
    #[pyo3(signature = (name, repeats, side=None))]
    fn object(name: &str, repeats: &Bound<'_, PyAny>, side: Option<&str>) -> PyResult<Self> {
        Self::of(repeats.py(), "", name, repeats, side).map(Self)
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| self.0 == other.get().0)
    }
}

/// Catches as a list of `NozzleCatches`, or as a dict of the repeats by the nozzle's name.
fn catches(py: Python<'_>, stated: &Bound<'_, PyAny>) -> PyResult<Vec<mixcalc::NozzleCatches>> {
    let Ok(table) = stated.cast::<PyMapping>() else {
        return items("catches", stated, |at, one| {
            let one = one.cast::<NozzleCatches>().map_err(|_| {
                PyValueError::new_err(format!(
                    "{at} is a NozzleCatches; or state all of them as a dict of repeats by name"
                ))
            })?;
            Ok(one.get().0.clone())
        });
    };
    table
        .items()?
        .iter()
        .enumerate()
        .map(|(i, item)| {
            let (name, repeats) = item.extract::<(Bound<'_, PyAny>, Bound<'_, PyAny>)>()?;
            NozzleCatches::of(py, &format!("catches[{i}]"), &name.str()?.to_string_lossy(), &repeats, None)
        })
        .collect()
}

/// Checks the nozzles of a sprayer: catches against a new nozzle at that pressure, and against their mean.
///
/// Verdicts are made from intervals of 95 %: one is withheld where the catches are not certain enough for the limit. Repeats of all nozzles
/// together give one repeatability. What is common to all catches is not wear.
///
/// Parameters
/// ----------
/// catches : dict or sequence of NozzleCatches
///     What was caught from each nozzle, all at one pressure; a dict has the repeats by the nozzle's name.
/// rated : Uncertain or Flow, optional
///     What a table or a standard says that a new nozzle gives at that pressure. Gauge, clock and jug stand between it and the catches.
/// caught : NozzleCatches, optional
///     A new nozzle that was caught in the same way, with the same gauge, clock and jug: what they do to all catches cancels. Either
///     this or `rated`.
/// common : Uncertain, optional
///     What all catches share, as a factor of about one: jug, clock, gauge.
/// repeatability : Ratio, optional
///     Standard deviation of one catch as a part of it, from earlier work: for single catches.
/// of_mean, over_new, sides : Ratio, optional
///     Most that a nozzle may be off the mean (5 % advised), over a new one (10 %), and the sides apart (10 %).
/// limits_source : str, optional
///     Where these are written; must be there where one of them is.
/// reject : Ratio, optional
///     How far from new an inspection allows a nozzle to be.
/// reject_law : str, optional
///     Which law says so; must be there where `reject` is.
///
/// Returns
/// -------
/// nozzles.CheckedSet
///     With a row for each nozzle in `.rows()` and `.to_pandas()`.
///
/// Raises
/// ------
/// InputError
///     For no catches, two nozzles of one name, a flow that is not above zero, and single catches without a repeatability.
///
/// Examples
/// --------
/// >>> from mixcalc import check_nozzles
/// >>> catches = {
/// ...     "1": ["1.207 L/min", "1.210 L/min", "1.213 L/min"],
/// ...     "2": ["1.197 L/min", "1.200 L/min", "1.203 L/min"],
/// ...     "3": ["1.342 L/min", "1.345 L/min", "1.348 L/min"],
/// ...     "4": ["1.202 L/min", "1.205 L/min", "1.208 L/min"],
/// ... }
/// >>> checked = check_nozzles(catches, rated="1.2 L/min")
/// >>> [nozzle.advice for nozzle in checked.nozzles], checked.advice
/// (['keep', 'keep', 'replace', 'keep'], 'single-nozzles')
#[pyfunction]
#[pyo3(signature = (
    catches, *, rated=None, caught=None, common=None, repeatability=None, of_mean=None, over_new=None, sides=None,
    limits_source=None, reject=None, reject_law=None,
))]
#[expect(clippy::too_many_arguments, reason = "keywords in Python")]
pub(crate) fn check_nozzles(
    py: Python<'_>,
    catches: &Bound<'_, PyAny>,
    rated: Option<&Bound<'_, PyAny>>,
    caught: Option<&NozzleCatches>,
    common: Option<&Bound<'_, PyAny>>,
    repeatability: Option<&Bound<'_, PyAny>>,
    of_mean: Option<&Bound<'_, PyAny>>,
    over_new: Option<&Bound<'_, PyAny>>,
    sides: Option<&Bound<'_, PyAny>>,
    limits_source: Option<&str>,
    reject: Option<&Bound<'_, PyAny>>,
    reject_law: Option<&str>,
) -> PyResult<Py<PyAny>> {
    let new = match (rated, caught) {
        (Some(rated), None) => NewNozzle::Rated(input("rated", rated)?),
        (None, Some(caught)) => NewNozzle::Caught(caught.0.clone()),
        _ => {
            return Err(PyValueError::new_err(
                "a check is against a nozzle that is rated or one that was caught: state one of them",
            ));
        }
    };
    let without = |what: &str, of: &str| PyValueError::new_err(format!("{what} must be there where {of} is"));
    let mut limits = NozzleLimits::advised();
    let stated = [
        ("of_mean", of_mean, &mut limits.of_mean),
        ("over_new", over_new, &mut limits.over_new),
        ("sides", sides, &mut limits.sides),
    ];
    for (name, value, limit) in stated {
        if let Some(value) = value {
            let source = limits_source.ok_or_else(|| without("limits_source", name))?;
            *limit = Limit::new(mixcalc::Bound::AtMost, known::<Ratio>(name, value)?, Force::Advice, source);
        }
    }
    if let Some(reject) = reject {
        let law = reject_law.ok_or_else(|| without("reject_law", "reject"))?;
        limits = border::checked(py, limits.with_reject(known("reject", reject)?, law))?;
    }
    let mut check = mixcalc::NozzleCheck::new(new).with_limits(limits);
    if let Some(common) = common {
        check = border::checked(py, check.with_common(&input("common", common)?))?;
    }
    if let Some(repeatability) = repeatability {
        check = border::checked(py, check.with_repeatability(known("repeatability", repeatability)?))?;
    }
    let catches = self::catches(py, catches)?;
    let set = border::answer(py, || check.judge(&catches))?;

    checked_set(py, set)
}

/// What a check says, as `nozzles.CheckedSet`.
pub(crate) fn checked_set(py: Python<'_>, set: mixcalc::CheckedSet) -> PyResult<Py<PyAny>> {
    let test = |py, test: Option<OutlierTest>| test.map(|test| outlier_test(py, test)).transpose();
    let nozzles = each(py, set.nozzles.into_iter(), |py, nozzle| {
        let (flow, of_mean, of_new) =
            (told(py, Ok(nozzle.flow))?, told(py, Ok(nozzle.of_mean))?, told(py, Ok(nozzle.of_new))?);
        let rejected = nozzle.rejected.map(mixcalc::Side::name);
        let fields = (&*nozzle.name, flow, of_mean, of_new, nozzle.advice.name(), rejected, test(py, nozzle.outlier)?);
        shape(py, "CheckedNozzle", fields)
    })?;
    let shared = set.shared.map(|shared| told(py, Ok(shared))).transpose()?;
    let apart = set.sides.map(|(apart, side)| shape(py, "Sides", (told(py, Ok(apart))?, side.name()))).transpose()?;
    let (mean, of_new) = (told(py, Ok(set.mean))?, told(py, Ok(set.of_new))?);
    let fields =
        (nozzles, mean, of_new, shared, quantity(set.repeatability), test(py, set.outlier)?, apart, set.advice.name());
    shape(py, "CheckedSet", fields)
}

/// How many repeats bring the half-width of a mean's interval down to a part of the mean, where one repeat has a standard deviation of
/// `spread`, also a part of it. It is a plan: the spread that then shows may be larger.
#[pyfunction]
#[pyo3(signature = (spread, precision, coverage=None))]
pub(crate) fn repeats_needed(
    spread: &Bound<'_, PyAny>,
    precision: &Bound<'_, PyAny>,
    coverage: Option<&Bound<'_, PyAny>>,
) -> PyResult<u64> {
    let needed = mixcalc::repeats_needed(known("spread", spread)?, known("precision", precision)?, share(coverage)?);
    border::checked(spread.py(), needed)
}

/// Whether a mean of repeats is as precise as wanted, so that one may stop: the half-width of its interval is not over that part of the mean.
/// Stopping at the first time that it is so picks lucky spreads: plan the number by `repeats_needed`.
#[pyfunction]
#[pyo3(signature = (mean, precision, coverage=None))]
pub(crate) fn is_settled(
    mean: &Bound<'_, PyAny>,
    precision: &Bound<'_, PyAny>,
    coverage: Option<&Bound<'_, PyAny>>,
) -> PyResult<bool> {
    let settled = dynamic("mean", mean)?.is_settled(known("precision", precision)?, share(coverage)?);
    border::checked(mean.py(), settled)
}

/// Tests whether the value farthest from the mean is an outlier, by its maximum normed residual; of fewer than four values it cannot be told.
/// `risk` is the probability of calling an outlier where there is none. Look for its cause before leaving a value out.
#[pyfunction]
pub(crate) fn outlier(values: &Bound<'_, PyAny>, risk: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
    let (py, of) = (values.py(), items("values", values, stated)?);
    outlier_test(py, border::checked(py, mixcalc::outlier_quantity(&of, known("risk", risk)?))?)
}

/// How often to measure each of several things, so that a volume rate made of them is known best in the time there is.
///
/// `efforts` are pairs: the standard deviation of one repeat as a part of the mean, and what one repeat takes. Each is measured twice or
/// more. What repeats do not lessen, such as a jug that reads high, is not in it.
///
/// Examples
/// --------
/// >>> from mixcalc import best_repeats
/// >>> best_repeats([("1 %", "2 min"), ("5 %", "3 min")], "30 min")  # catches, runs of a walker
/// [3, 8]
#[pyfunction]
pub(crate) fn best_repeats(efforts: &Bound<'_, PyAny>, available: &Bound<'_, PyAny>) -> PyResult<Vec<u64>> {
    let py = available.py();
    let efforts = items("efforts", efforts, |at, effort| {
        let (spread, time) = pair(at, effort)?;
        Ok(mixcalc::Effort {
            spread: known(&format!("{at}.spread"), &spread)?,
            time: known(&format!("{at}.time"), &time)?,
        })
    })?;
    let available = known("available", available)?;
    border::answer(py, || mixcalc::best_repeats(&efforts, available))
}

/// The straight line through the flows of a nozzle, or the mean flows of a set, over their hours of use: `q = q0 (1 + b t)`.
///
/// All flows are of one pressure and one way to measure. Wear is no straight line for good: do not look far beyond the last flow.
///
/// Examples
/// --------
/// >>> from mixcalc import Wear
/// >>> wear = Wear.from_flows([("0 h", "1 L/min"), ("10 h", "1.011 L/min"), ("20 h", "1.019 L/min"), ("30 h", "1.031 L/min")])
/// >>> worn = wear.reaches("1.1 L/min")
/// >>> f"{worn.expected:.0f h}", worn.earliest < worn.expected < worn.latest
/// ('99 h', True)
#[pyclass(frozen, module = "mixcalc", name = "Wear")]
pub(crate) struct Wear(mixcalc::Wear);

#[pymethods]
impl Wear {
    /// The line through three flows or more, each a pair of the hours of use and the flow then.
    #[staticmethod]
    #[pyo3(signature = (points, /))]
    fn from_flows(points: &Bound<'_, PyAny>) -> PyResult<Self> {
        let py = points.py();
        let points = items("points", points, |at, point| {
            let (time, flow) = pair(at, point)?;
            Ok((known(at, &time)?, known(at, &flow)?))
        })?;
        border::checked(py, mixcalc::Wear::from_flows(&points)).map(Self)
    }

    /// The flow at a time of use, on the line.
    #[pyo3(signature = (time, /))]
    fn flow_at(&self, time: &Bound<'_, PyAny>) -> PyResult<Quantity> {
        Ok(quantity(self.0.flow_at(known("time", time)?)))
    }

    /// How much more than when new it gives after a time of use, as a part of the flow when new.
    #[pyo3(signature = (time, /))]
    fn wear_at(&self, time: &Bound<'_, PyAny>) -> PyResult<Quantity> {
        border::checked(time.py(), self.0.wear_at(known("time", time)?)).map(quantity)
    }

    /// When a flow is reached that counts as worn, such as 1.1 times that of a new nozzle: `nozzles.WornAt`; `None` where the line does not
    /// rise for certain.
    #[pyo3(signature = (limit, coverage=None))]
    fn reaches(&self, limit: &Bound<'_, PyAny>, coverage: Option<&Bound<'_, PyAny>>) -> PyResult<Option<Py<PyAny>>> {
        let py = limit.py();
        let worn = border::checked(py, self.0.reaches(known("limit", limit)?, share(coverage)?))?;
        let told = |worn: mixcalc::WornAt| {
            shape(py, "WornAt", (quantity(worn.expected), quantity(worn.earliest), quantity(worn.latest)))
        };
        worn.map(told).transpose()
    }
}

/// The limits between which single values of a steady thing stay, from values in the order in which they were measured, such as one nozzle's
/// flow at each check: the mean, plus and minus 2.66 times the mean of the ranges from each value to the next.
#[pyfunction]
#[pyo3(signature = (values, /))]
pub(crate) fn control_chart(values: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
    let (py, of) = (values.py(), items("values", values, stated)?);
    let chart = border::checked(py, mixcalc::control_chart_quantity(&of))?;
    let outside = PyTuple::new(py, chart.outside)?;
    shape(py, "ControlChart", (quantity(chart.center), quantity(chart.low), quantity(chart.high), outside))
}
