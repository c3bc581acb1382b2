//! Uncertain values, over the core's one that has its kind at run time. No arithmetic of its own.

use mixcalc::{AdditiveKind, DegreesOfFreedom, Interval, Side, UncertainQuantity};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyString, PyTuple};

use crate::border;
use crate::plan::{each, quantity};
use crate::quantity::{Quantity, number};

/// A value with its standard uncertainty, which remembers the inputs that it depends on by name.
///
/// Sums, products and quotients combine what the inputs contribute, so that an input that is used twice, such as one stopwatch for two
/// times, counts once with its whole effect. A quantity, text and, among pure numbers, a number are taken as exact.
///
/// Raises
/// ------
/// UnitError
///     Where a part of it is of another kind than the value, and where the identities of the kinds have no such sum.
/// InputError
///     For a blank name, an uncertainty below zero, fewer than two repeats, and one name for two inputs that differ.
///
/// Notes
/// -----
/// JCGM 100:2008 (GUM); the formulas are in docs/numbers.md, section 11.
///
/// Examples
/// --------
/// >>> from mixcalc import Uncertain
/// >>> refill = Uncertain.from_tolerance("refill", "6 L", "60 mL")
/// >>> rate = (refill / "0.02 ha").claim("volume rate")
/// >>> rate.value, round(rate.standard_uncertainty.to("L/ha"), 4)
/// (VolumeRate("300 L/ha"), 1.7321)
/// >>> [contribution.name for contribution in rate.contributions]
/// ['refill']
#[pyclass(frozen, module = "mixcalc", name = "Uncertain")]
pub(crate) struct Uncertain(UncertainQuantity);

/// The quantity of an argument: a number is a ratio, anything else as for `Quantity`.
pub(crate) fn stated(at: &str, value: &Bound<'_, PyAny>) -> PyResult<mixcalc::Quantity> {
    let named = |error: mixcalc::Error| error.at(at);
    match number(value)? {
        Some(number) => Ok(border::checked(value.py(), mixcalc::Ratio::from_number(number).map_err(named))?.into()),
        None => Ok(Quantity::stated(value, None, &|text| mixcalc::Quantity::read(text).map_err(named))?.core),
    }
}

/// An argument that is not uncertain, as of a kind.
pub(crate) fn known<Q: mixcalc::QuantityKind>(at: &str, value: &Bound<'_, PyAny>) -> PyResult<Q> {
    border::checked(value.py(), stated(at, value)?.claim().map_err(|error| error.at(at)))
}

/// An argument of a calculation: an uncertain value, or a quantity or text that is taken as exact.
pub(crate) fn input<Q: AdditiveKind>(at: &str, value: &Bound<'_, PyAny>) -> PyResult<mixcalc::Uncertain<Q>> {
    border::checked(value.py(), dynamic(at, value)?.claim().map_err(|error| error.at(at)))
}

/// As [`input`], of whatever kind it is.
pub(crate) fn dynamic(at: &str, value: &Bound<'_, PyAny>) -> PyResult<UncertainQuantity> {
    match value.cast::<Uncertain>() {
        Ok(uncertain) => Ok(uncertain.get().0.clone()),
        Err(_) => {
            border::checked(value.py(), UncertainQuantity::exact(stated(at, value)?).map_err(|error| error.at(at)))
        }
    }
}

/// The items of a list, each with its place in it; one text is no list.
pub(crate) fn items<'py, T>(
    at: &str,
    list: &Bound<'py, PyAny>,
    item: impl Fn(&str, &Bound<'py, PyAny>) -> PyResult<T>,
) -> PyResult<Vec<T>> {
    if list.is_instance_of::<PyString>() {
        return Err(PyTypeError::new_err(format!("{at} are a list, not one text")));
    }
    list.try_iter()?.enumerate().map(|(i, value)| item(&format!("{at}[{i}]"), &value?)).collect()
}

/// A result of a typed calculation.
pub(crate) fn told<Q: AdditiveKind>(
    py: Python<'_>,
    value: Result<mixcalc::Uncertain<Q>, mixcalc::Error>,
) -> PyResult<Uncertain> {
    border::checked(py, value.and_then(|value| UncertainQuantity::of(&value))).map(Uncertain)
}

/// Degrees of freedom, as stated or without end.
fn degrees(py: Python<'_>, degrees: Option<f64>) -> PyResult<DegreesOfFreedom> {
    match degrees {
        None => Ok(DegreesOfFreedom::INFINITE),
        Some(degrees) => border::checked(py, mixcalc::Ratio::from_number(degrees).and_then(DegreesOfFreedom::new)),
    }
}

/// A named tuple of `mixcalc.uncertainty`.
fn shape<'py>(py: Python<'py>, name: &str, fields: impl pyo3::call::PyCallArgs<'py>) -> PyResult<Py<PyAny>> {
    static MODULE: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    let module =
        MODULE.get_or_try_init(py, || Ok::<_, PyErr>(py.import("mixcalc.uncertainty")?.into_any().unbind()))?;
    Ok(module.bind(py).getattr(name)?.call1(fields)?.unbind())
}

pub(crate) fn interval(py: Python<'_>, interval: &Interval<mixcalc::Quantity>) -> PyResult<Py<PyAny>> {
    shape(py, "Interval", (quantity(interval.low()), quantity(interval.high()), quantity(interval.coverage())))
}

impl Uncertain {
    /// Does an operation with the other operand, or leaves it to that.
    fn with<'py>(
        other: &Bound<'py, PyAny>,
        operation: impl FnOnce(UncertainQuantity) -> Result<UncertainQuantity, mixcalc::Error>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let py = other.py();
        let operand = match other.cast::<Self>() {
            Ok(uncertain) => uncertain.get().0.clone(),
            Err(_) if other.is_instance_of::<PyString>() => dynamic("", other)?,
            Err(_) => match Quantity::operand(other)? {
                Some(exact) => border::checked(py, UncertainQuantity::exact(exact.core))?,
                None => return Ok(py.NotImplemented().into_bound(py)),
            },
        };
        Ok(Bound::new(py, Self(border::checked(py, operation(operand))?))?.into_any())
    }
}

#[pymethods]
impl Uncertain {
    /// A value that is known exactly.
    #[staticmethod]
    #[pyo3(signature = (value, /))]
    fn exact(value: &Bound<'_, PyAny>) -> PyResult<Self> {
        border::checked(value.py(), UncertainQuantity::exact(stated("value", value)?)).map(Self)
    }

    /// The mean of two repeats or more, with the uncertainty that their spread shows and one degree of freedom less than there are repeats.
    #[staticmethod]
    fn from_repeats(name: &str, repeats: &Bound<'_, PyAny>) -> PyResult<Self> {
        let values = items("repeats", repeats, stated)?;
        border::checked(repeats.py(), UncertainQuantity::from_repeats(name, &values)).map(Self)
    }

    /// A value that is off by no more than `half_width` to either side, and as likely by one amount as by another: `a / sqrt(3)`.
    #[staticmethod]
    fn from_tolerance(name: &str, value: &Bound<'_, PyAny>, half_width: &Bound<'_, PyAny>) -> PyResult<Self> {
        border::checked(
            value.py(),
            UncertainQuantity::from_tolerance(name, stated("value", value)?, stated("half_width", half_width)?),
        )
        .map(Self)
    }

    /// A value that was read from a display or a scale with steps of `resolution`: half of it to either side.
    #[staticmethod]
    fn from_resolution(name: &str, value: &Bound<'_, PyAny>, resolution: &Bound<'_, PyAny>) -> PyResult<Self> {
        border::checked(
            value.py(),
            UncertainQuantity::from_resolution(name, stated("value", value)?, stated("resolution", resolution)?),
        )
        .map(Self)
    }

    /// A value with its standard uncertainty; without `degrees_of_freedom` that is taken as certain.
    #[staticmethod]
    #[pyo3(signature = (name, value, standard_uncertainty, degrees_of_freedom=None))]
    fn from_standard_uncertainty(
        name: &str,
        value: &Bound<'_, PyAny>,
        standard_uncertainty: &Bound<'_, PyAny>,
        degrees_of_freedom: Option<f64>,
    ) -> PyResult<Self> {
        let (py, degrees) = (value.py(), degrees(value.py(), degrees_of_freedom)?);
        let (value, uncertainty) = (stated("value", value)?, stated("standard_uncertainty", standard_uncertainty)?);
        border::checked(py, UncertainQuantity::from_standard_uncertainty(name, value, uncertainty, degrees)).map(Self)
    }

    /// A value from a certificate: its expanded uncertainty and the coverage factor that it was made with.
    #[staticmethod]
    #[pyo3(signature = (name, value, expanded_uncertainty, coverage_factor, degrees_of_freedom=None))]
    fn from_expanded_uncertainty(
        name: &str,
        value: &Bound<'_, PyAny>,
        expanded_uncertainty: &Bound<'_, PyAny>,
        coverage_factor: f64,
        degrees_of_freedom: Option<f64>,
    ) -> PyResult<Self> {
        let (py, degrees) = (value.py(), degrees(value.py(), degrees_of_freedom)?);
        let (value, expanded) = (stated("value", value)?, stated("expanded_uncertainty", expanded_uncertainty)?);
        let factor = border::checked(py, mixcalc::Ratio::from_number(coverage_factor))?;
        border::checked(py, UncertainQuantity::from_expanded_uncertainty(name, value, expanded, factor, degrees))
            .map(Self)
    }

    /// The sum of values of one kind.
    #[staticmethod]
    #[pyo3(signature = (values, /))]
    fn sum(values: &Bound<'_, PyAny>) -> PyResult<Self> {
        border::checked(values.py(), UncertainQuantity::sum(&items("values", values, dynamic)?)).map(Self)
    }

    /// The mean of values of one kind.
    #[staticmethod]
    #[pyo3(signature = (values, /))]
    fn mean(values: &Bound<'_, PyAny>) -> PyResult<Self> {
        border::checked(values.py(), UncertainQuantity::mean(&items("values", values, dynamic)?)).map(Self)
    }

    /// One over the mean of one over each value: the mean speed over runs of one course.
    #[staticmethod]
    #[pyo3(signature = (values, /))]
    fn harmonic_mean(values: &Bound<'_, PyAny>) -> PyResult<Self> {
        border::checked(values.py(), UncertainQuantity::harmonic_mean(&items("values", values, dynamic)?)).map(Self)
    }

    /// The natural logarithm of a pure number above zero.
    fn logarithm(&self, py: Python<'_>) -> PyResult<Self> {
        border::checked(py, self.0.logarithm()).map(Self)
    }

    /// The value as of a kind, in words such as "volume rate", or by a class such as `VolumeRate`.
    #[pyo3(signature = (kind, /))]
    fn claim(&self, kind: &Bound<'_, PyAny>) -> PyResult<Self> {
        let py = kind.py();
        let name = match kind.cast::<PyString>() {
            Ok(words) => words.to_string_lossy().into_owned(),
            Err(_) => kind.getattr("__name__")?.extract::<String>()?,
        };
        let plain = |name: &str| name.replace([' ', '-', '_'], "").to_lowercase();
        let kind = mixcalc::Kind::all().iter().find(|kind| plain(kind.words()) == plain(&name));
        let Some(kind) = kind else {
            return Err(pyo3::exceptions::PyValueError::new_err(format!("no kind is called {name:?}")));
        };
        border::checked(py, self.0.claim_kind(*kind)).map(Self)
    }

    /// The value.
    #[getter]
    fn value(&self) -> Quantity {
        quantity(self.0.value())
    }

    /// How far the value may well be from the true one, as a standard deviation.
    #[getter]
    fn standard_uncertainty(&self) -> Quantity {
        quantity(self.0.standard_uncertainty())
    }

    /// How well the standard uncertainty is known (Welch-Satterthwaite); `inf` where it is taken as certain.
    #[getter]
    fn degrees_of_freedom(&self) -> f64 {
        self.0.degrees_of_freedom().number().map_or(f64::INFINITY, mixcalc::Ratio::number)
    }

    /// What each input contributes, the largest first: `Contribution(name, standard_uncertainty, share_of_variance)`.
    #[getter]
    fn contributions(&self, py: Python<'_>) -> PyResult<Py<PyTuple>> {
        each(py, self.0.contributions().iter(), |py, contribution| {
            let uncertainty = quantity(contribution.standard_uncertainty());
            shape(py, "Contribution", (contribution.name(), uncertainty, contribution.share_of_variance().number()))
        })
    }

    /// From where to where the true value lies with the probability `coverage`: `Interval(low, high, coverage)`.
    #[pyo3(signature = (coverage=None))]
    fn interval(&self, py: Python<'_>, coverage: Option<&Bound<'_, PyAny>>) -> PyResult<Py<PyAny>> {
        interval(py, &border::checked(py, self.0.interval(share(coverage)?))?)
    }

    /// Half the width of the interval.
    #[pyo3(signature = (coverage=None))]
    fn expanded_uncertainty(&self, py: Python<'_>, coverage: Option<&Bound<'_, PyAny>>) -> PyResult<Quantity> {
        border::checked(py, self.0.expanded_uncertainty(share(coverage)?)).map(quantity)
    }

    /// How many standard uncertainties reach from the value to the end of its interval: Student's t at the degrees of freedom.
    #[pyo3(signature = (coverage=None))]
    fn coverage_factor(&self, py: Python<'_>, coverage: Option<&Bound<'_, PyAny>>) -> PyResult<f64> {
        border::checked(py, self.0.coverage_factor(share(coverage)?)).map(mixcalc::Ratio::number)
    }

    /// The probability that the true value is over a limit, from 0 to 1.
    #[pyo3(signature = (limit, /))]
    fn probability_over(&self, limit: &Bound<'_, PyAny>) -> PyResult<f64> {
        let (py, limit) = (limit.py(), self.of_this_kind(limit)?);
        border::checked(py, self.0.probability_over(limit)).map(mixcalc::Ratio::number)
    }

    /// Where the interval is: "under" a limit, "over" it, or "cannot-tell" where it holds it.
    #[pyo3(signature = (limit, coverage=None))]
    fn side_of(&self, limit: &Bound<'_, PyAny>, coverage: Option<&Bound<'_, PyAny>>) -> PyResult<&'static str> {
        let (py, limit) = (limit.py(), self.of_this_kind(limit)?);
        border::checked(py, self.0.side_of(limit, share(coverage)?)).map(Side::name)
    }

    /// The value to aim at, under a limit by so much that the true one is over it with no more than the probability `risk`.
    #[pyo3(signature = (limit, risk))]
    fn aim_under(&self, limit: &Bound<'_, PyAny>, risk: &Bound<'_, PyAny>) -> PyResult<Quantity> {
        let (py, limit) = (limit.py(), self.of_this_kind(limit)?);
        border::checked(py, self.0.aim_under(limit, known("risk", risk)?)).map(quantity)
    }

    fn __add__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Self::with(other, |other| self.0.plus(&other))
    }

    fn __radd__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Self::with(other, |other| other.plus(&self.0))
    }

    fn __sub__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Self::with(other, |other| self.0.minus(&other))
    }

    fn __rsub__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Self::with(other, |other| other.minus(&self.0))
    }

    fn __mul__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Self::with(other, |other| self.0.times(&other))
    }

    fn __rmul__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Self::with(other, |other| other.times(&self.0))
    }

    fn __truediv__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Self::with(other, |other| self.0.over(&other))
    }

    fn __rtruediv__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Self::with(other, |other| other.over(&self.0))
    }

    fn __pow__<'py>(
        &self,
        exponent: &Bound<'py, PyAny>,
        modulo: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        if modulo.is_some() {
            return Err(PyTypeError::new_err("an uncertain value has no power modulo another"));
        }
        Self::with(exponent, |exponent| self.0.power(&exponent))
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| self.0 == other.get().0)
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let (value, uncertainty) = (self.value(), self.standard_uncertainty());
        let told = |quantity: Quantity| -> PyResult<String> { quantity.into_object(py)?.str()?.extract() };
        Ok(format!("<Uncertain, {}: {}, u = {}>", self.0.value().kind().words(), told(value)?, told(uncertainty)?))
    }

    fn __copy__(slf: Bound<'_, Self>) -> Bound<'_, Self> {
        slf
    }

    fn __deepcopy__<'py>(slf: Bound<'py, Self>, _memo: &Bound<'py, PyAny>) -> Bound<'py, Self> {
        slf
    }
}

impl Uncertain {
    /// A limit: a quantity, or text that is taken as of this kind.
    fn of_this_kind(&self, limit: &Bound<'_, PyAny>) -> PyResult<mixcalc::Quantity> {
        let stated = stated("limit", limit)?;
        if limit.is_instance_of::<PyString>() {
            return border::checked(limit.py(), stated.claim_kind(self.0.value().kind()));
        }
        Ok(stated)
    }
}

/// A coverage, as stated or the customary one.
pub(crate) fn share(coverage: Option<&Bound<'_, PyAny>>) -> PyResult<mixcalc::Ratio> {
    match coverage {
        Some(coverage) => known("coverage", coverage),
        None => Ok(mixcalc::customary_coverage()),
    }
}

/// What came out of a simulation.
#[pyclass(frozen, module = "mixcalc", name = "Simulation")]
pub(crate) struct Simulation(mixcalc::SimulatedQuantity);

#[pymethods]
impl Simulation {
    /// The middle of the results.
    #[getter]
    fn median(&self) -> Quantity {
        quantity(self.0.median())
    }

    /// The mean of the results; `None` where an input was drawn from two repeats or three, of which it does not settle.
    #[getter]
    fn mean(&self) -> Option<Quantity> {
        self.0.mean().map(quantity)
    }

    /// The standard deviation of the results; `None` as for `mean`.
    #[getter]
    fn standard_uncertainty(&self) -> Option<Quantity> {
        self.0.standard_uncertainty().map(quantity)
    }

    /// The interval that holds the share `coverage` of the results, with as many below it as above: `Interval(low, high, coverage)`.
    #[pyo3(signature = (coverage=None))]
    fn interval(&self, py: Python<'_>, coverage: Option<&Bound<'_, PyAny>>) -> PyResult<Py<PyAny>> {
        interval(py, &border::checked(py, self.0.interval(share(coverage)?))?)
    }

    fn __repr__(&self) -> String {
        format!("<Simulation, median {}>", self.0.median().to_people(mixcalc::System::Metric))
    }
}

/// Works a model out many times, each time with other values of its inputs, drawn as they are distributed: Monte Carlo.
///
/// A tolerance and a resolution are drawn evenly over their width, repeats from Student's t, others from the normal distribution, or from
/// Student's t where their degrees of freedom are finite. The same seed gives the same digits on every machine.
///
/// Parameters
/// ----------
/// model : callable
///     From one quantity for each input to the result of a trial, a quantity. What it raises ends the simulation.
/// inputs : sequence of Uncertain
///     What the model takes, in this order. Inputs that they share are drawn once in a trial.
/// trials : int
///     From 1000 to ten million; a million settles 95 % intervals to two or three digits.
/// seed : int
///     Any number from 0; another one shows how far the digits have settled.
///
/// Raises
/// ------
/// InputError
///     For too few or too many trials, and for one name that stands for two inputs that differ.
/// UnitError
///     Where a trial gives another kind than the first.
///
/// Notes
/// -----
/// JCGM 101:2008, Supplement 1 to the GUM.
///
/// Examples
/// --------
/// >>> from mixcalc import Uncertain, simulate
/// >>> swath = Uncertain.from_tolerance("swath", "2 m", "0.1 m")
/// >>> square = simulate(lambda side: side * side, [swath], trials=2000, seed=1)
/// >>> f"{square.median:.1f m2}"
/// '4.0 m2'
#[pyfunction]
#[pyo3(signature = (model, inputs, *, trials, seed))]
pub(crate) fn simulate(
    model: &Bound<'_, PyAny>,
    inputs: &Bound<'_, PyAny>,
    trials: u32,
    seed: u64,
) -> PyResult<Simulation> {
    let py = model.py();
    let inputs = items("inputs", inputs, dynamic)?;
    let mut raised = None;
    let simulation = mixcalc::simulate_quantity(trials, seed, |trial| {
        let drawn: Vec<_> = inputs.iter().map(|input| trial.of_quantity(input)).collect::<Result<_, _>>()?;
        let result = PyTuple::new(py, drawn.into_iter().map(quantity))
            .and_then(|drawn| model.call1(drawn))
            .and_then(|result| stated("", &result));
        result.or_else(|error| {
            raised = Some(error);
            // Any error of the core ends the simulation; the one that was raised is told.
            mixcalc::Quantity::read("")
        })
    });
    match raised {
        Some(error) => Err(error),
        None => border::checked(py, simulation).map(Simulation),
    }
}
