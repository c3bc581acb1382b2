//! Calibration, and the single sums around it. No arithmetic of its own.

use mixcalc::{Alleys, Change, Date, Difference};
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::types::PyTuple;

use crate::border;
use crate::plan::{quantity, working};
use crate::quantity::Quantity;
use crate::uncertain::{Uncertain, input, known, told};

/// What a calibration was measured with and where: it holds for that.
///
/// Parameters
/// ----------
/// sprayer, operator, nozzles, ground : str
///     Their names.
/// pressure : Pressure
///     At the gauge.
/// date : datetime.date or str
///     When.
#[pyclass(frozen, module = "mixcalc", name = "Setting")]
pub(crate) struct Setting(mixcalc::Setting);

#[pymethods]
impl Setting {
    #[new]
    #[pyo3(signature = (*, sprayer, operator, nozzles, pressure, ground, date))]
    fn object(
        sprayer: &str,
        operator: &str,
        nozzles: &str,
        pressure: &Bound<'_, PyAny>,
        ground: &str,
        date: &Bound<'_, PyAny>,
    ) -> PyResult<Self> {
        Ok(Self(mixcalc::Setting {
            sprayer: sprayer.into(),
            operator: operator.into(),
            nozzles: nozzles.into(),
            pressure: known("pressure", pressure)?,
            ground: ground.into(),
            // A date of Python is its text.
            date: border::checked(date.py(), Date::read(&date.str()?.to_string_lossy()))?,
        }))
    }

    /// The sprayer's name.
    #[getter]
    fn sprayer(&self) -> &str {
        &self.0.sprayer
    }

    /// Who sprays.
    #[getter]
    fn operator(&self) -> &str {
        &self.0.operator
    }

    /// The nozzles.
    #[getter]
    fn nozzles(&self) -> &str {
        &self.0.nozzles
    }

    /// The ground: its surface and slope.
    #[getter]
    fn ground(&self) -> &str {
        &self.0.ground
    }

    /// Pressure at the gauge.
    #[getter]
    fn pressure(&self) -> Quantity {
        quantity(self.0.pressure)
    }

    /// The day that it was measured on.
    #[getter]
    fn date<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        py.import("datetime")?.getattr("date")?.call_method1("fromisoformat", (self.0.date.to_string(),))
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| self.0 == other.get().0)
    }
}

/// A measured volume rate: the value with its uncertainty, how it was reached, and what it holds for.
///
/// There is a constructor for each way to measure, named after what is measured. Each takes uncertain values; a quantity or text is taken as
/// exact. What two of them depend on, such as one stopwatch, is an input of one name in both, and counts once.
///
/// Raises
/// ------
/// InputError
///     For an input that is not above zero, with its name as the path, and for one name that stands for two inputs that differ.
/// UnitError
///     For an input of another kind.
///
/// Notes
/// -----
/// The formulas are in docs/numbers.md.
///
/// Examples
/// --------
/// >>> from mixcalc import Calibration, Uncertain
/// >>> catches = Uncertain.from_repeats("catches", ["1.19 L/min", "1.2 L/min", "1.21 L/min"])
/// >>> speed = Uncertain.from_tolerance("speed", "8 km/h", "0.1 km/h")
/// >>> calibration = Calibration.from_flow(flow=catches, speed=speed, swath="0.5 m")
/// >>> f"{calibration.volume_rate.value:.1f L/ha}", calibration.volume_rate.contributions[0].name
/// ('180.0 L/ha', 'speed')
/// >>> calibration.working.formula
/// 'Q / (v * w)'
#[pyclass(frozen, module = "mixcalc", name = "Calibration")]
pub(crate) struct Calibration(mixcalc::Calibration);

impl From<mixcalc::Calibration> for Calibration {
    fn from(calibration: mixcalc::Calibration) -> Self {
        Self(calibration)
    }
}

#[pymethods]
impl Calibration {
    /// From flow, speed and swath: `R = Q / (v w)`. For a boom the mean flow of its nozzles and their spacing.
    #[staticmethod]
    fn from_flow(flow: &Bound<'_, PyAny>, speed: &Bound<'_, PyAny>, swath: &Bound<'_, PyAny>) -> PyResult<Self> {
        let made =
            mixcalc::Calibration::from_flow(&input("flow", flow)?, &input("speed", speed)?, &input("swath", swath)?);
        border::checked(flow.py(), made).map(Self)
    }

    /// From a timed catch and a timed course: `R = (V / t) / ((L / T) w)`. Where one stopwatch timed both, give both times its input: it
    /// cancels.
    #[staticmethod]
    fn from_timed_course(
        catch: &Bound<'_, PyAny>,
        catch_time: &Bound<'_, PyAny>,
        course: &Bound<'_, PyAny>,
        course_time: &Bound<'_, PyAny>,
        swath: &Bound<'_, PyAny>,
    ) -> PyResult<Self> {
        let made = mixcalc::Calibration::from_timed_course(
            &input("catch", catch)?,
            &input("catch_time", catch_time)?,
            &input("course", course)?,
            &input("course_time", course_time)?,
            &input("swath", swath)?,
        );
        border::checked(catch.py(), made).map(Self)
    }

    /// From a catch that takes as long as a course: `R = V / (L w)`.
    #[staticmethod]
    fn from_catch_over_course(
        catch: &Bound<'_, PyAny>,
        course: &Bound<'_, PyAny>,
        swath: &Bound<'_, PyAny>,
    ) -> PyResult<Self> {
        let made = mixcalc::Calibration::from_catch_over_course(
            &input("catch", catch)?,
            &input("course", course)?,
            &input("swath", swath)?,
        );
        border::checked(catch.py(), made).map(Self)
    }

    /// From a catch that takes as long as an area: `R = V / A`.
    #[staticmethod]
    fn from_catch_over_area(catch: &Bound<'_, PyAny>, area: &Bound<'_, PyAny>) -> PyResult<Self> {
        let made = mixcalc::Calibration::from_catch_over_area(&input("catch", catch)?, &input("area", area)?);
        border::checked(catch.py(), made).map(Self)
    }

    /// From what refills the tank to the mark after a test area: `R = V / A`. The mark was read twice, so that its reading is in it
    /// twice.
    #[staticmethod]
    fn from_refill(refill: &Bound<'_, PyAny>, area: &Bound<'_, PyAny>) -> PyResult<Self> {
        let made = mixcalc::Calibration::from_refill(&input("refill", refill)?, &input("area", area)?);
        border::checked(refill.py(), made).map(Self)
    }

    /// From a tank that was sprayed out: `R = (V - r) / A`.
    #[staticmethod]
    fn from_emptied_tank(
        filled: &Bound<'_, PyAny>,
        residual: &Bound<'_, PyAny>,
        area: &Bound<'_, PyAny>,
    ) -> PyResult<Self> {
        let made = mixcalc::Calibration::from_emptied_tank(
            &input("filled", filled)?,
            &input("residual", residual)?,
            &input("area", area)?,
        );
        border::checked(filled.py(), made).map(Self)
    }

    /// From a hand gun or lance: a spot is treated as always, timed, and then caught: `R = (V / t) T / A`.
    #[staticmethod]
    fn from_spot(
        catch: &Bound<'_, PyAny>,
        catch_time: &Bound<'_, PyAny>,
        spot: &Bound<'_, PyAny>,
        spot_time: &Bound<'_, PyAny>,
    ) -> PyResult<Self> {
        let made = mixcalc::Calibration::from_spot(
            &input("catch", catch)?,
            &input("catch_time", catch_time)?,
            &input("spot", spot)?,
            &input("spot_time", spot_time)?,
        );
        border::checked(catch.py(), made).map(Self)
    }

    /// From the mean volume that plants take each and the ground of one: `R = V / a`.
    #[staticmethod]
    fn from_plants(volume: &Bound<'_, PyAny>, ground: &Bound<'_, PyAny>) -> PyResult<Self> {
        let made = mixcalc::Calibration::from_plants(&input("volume", volume)?, &input("ground", ground)?);
        border::checked(volume.py(), made).map(Self)
    }

    /// From the flows of both sides of an orchard sprayer, each alley driven once: `R = (Q_left + Q_right) / (v d)`.
    #[staticmethod]
    fn from_sides(
        left: &Bound<'_, PyAny>,
        right: &Bound<'_, PyAny>,
        speed: &Bound<'_, PyAny>,
        row_spacing: &Bound<'_, PyAny>,
    ) -> PyResult<Self> {
        let made = mixcalc::Calibration::from_sides(
            &input("left", left)?,
            &input("right", right)?,
            &input("speed", speed)?,
            &input("row_spacing", row_spacing)?,
        );
        border::checked(left.py(), made).map(Self)
    }

    /// From the flow over one band: two calibrations, on treated ground (what most label doses are on) and on field ground (what the tank
    /// is filled for): `R = Q / (v b)` and `Q / (v d)`.
    #[staticmethod]
    fn from_band(
        flow: &Bound<'_, PyAny>,
        speed: &Bound<'_, PyAny>,
        band: &Bound<'_, PyAny>,
        row_spacing: &Bound<'_, PyAny>,
    ) -> PyResult<(Self, Self)> {
        let banded = mixcalc::Calibration::from_band(
            &input("flow", flow)?,
            &input("speed", speed)?,
            &input("band", band)?,
            &input("row_spacing", row_spacing)?,
        );
        border::checked(flow.py(), banded).map(|banded| (Self(banded.band), Self(banded.field)))
    }

    /// From the flow of an orchard sprayer: `R = g Q / (v d)`, where `g` is 1 for "each" alley driven once, 2 for "each-twice", 1/2 for
    /// "every-other".
    #[staticmethod]
    fn from_alleys(
        flow: &Bound<'_, PyAny>,
        speed: &Bound<'_, PyAny>,
        row_spacing: &Bound<'_, PyAny>,
        alleys: &str,
    ) -> PyResult<Self> {
        let Some(alleys) = Alleys::all().iter().find(|known| known.name() == alleys) else {
            let message = format!("alleys are \"each\", \"each-twice\" or \"every-other\", not {alleys:?}");
            return Err(PyValueError::new_err(message));
        };
        let made = mixcalc::Calibration::from_alleys(
            &input("flow", flow)?,
            &input("speed", speed)?,
            &input("row_spacing", row_spacing)?,
            *alleys,
        );
        border::checked(flow.py(), made).map(Self)
    }

    /// The same calibration with what it was measured with and where.
    #[pyo3(signature = (setting, /))]
    fn with_setting(&self, setting: &Setting) -> Self {
        Self(self.0.clone().with_setting(setting.0.clone()))
    }

    /// The volume rate.
    #[getter]
    fn volume_rate(&self, py: Python<'_>) -> PyResult<Uncertain> {
        told(py, Ok(self.0.volume_rate().clone()))
    }

    /// How it was reached: `plans.Working`. The contributions of its inputs are those of the volume rate.
    #[getter]
    fn working(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        working(py, self.0.working(), mixcalc::System::Metric)
    }

    /// What it was measured with and where; `None` where that was not stated.
    #[getter]
    fn setting(&self) -> Option<Setting> {
        self.0.setting().cloned().map(Setting)
    }

    /// What differs where it is used in another setting, each a reason to calibrate again: "sprayer", "operator", "nozzles", "pressure",
    /// "ground", "too-old", "later-day"; "unstated" alone where no setting was stated. `oldest` is the age up to which it is accepted.
    fn differences<'py>(&self, use_in: &Setting, oldest: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyTuple>> {
        let differences = self.0.differences(&use_in.0, known("oldest", oldest)?);
        PyTuple::new(oldest.py(), differences.into_iter().map(Difference::name))
    }

    /// The volume rate after something of it changes, all else as calibrated. `changed` is "flow", "speed" or "swath"; `before` is what it
    /// was when calibrated, `to` what it is to be.
    fn after(&self, changed: &str, before: &Bound<'_, PyAny>, to: &Bound<'_, PyAny>) -> PyResult<Uncertain> {
        let after = match changed {
            "flow" => self.0.after(Change::Flow(&input("before", before)?, &input("to", to)?)),
            "speed" => self.0.after(Change::Speed(&input("before", before)?, &input("to", to)?)),
            "swath" => self.0.after(Change::Swath(&input("before", before)?, &input("to", to)?)),
            _ => {
                let message = format!("what changes is \"flow\", \"speed\" or \"swath\", not {changed:?}");
                return Err(PyValueError::new_err(message));
            }
        };
        told(to.py(), after)
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| self.0 == other.get().0)
    }

    fn __repr__(&self) -> String {
        let (rate, metric) = (self.0.volume_rate(), mixcalc::System::Metric);
        let people = |quantity: mixcalc::VolumeRate| mixcalc::Quantity::from(quantity).to_people(metric);
        let (value, uncertainty) = (people(rate.value()), people(rate.standard_uncertainty()));
        format!("<Calibration, {value}, u = {uncertainty}: {}>", self.0.working().formula())
    }

    fn __copy__(slf: Bound<'_, Self>) -> Bound<'_, Self> {
        slf
    }

    fn __deepcopy__<'py>(slf: Bound<'py, Self>, _memo: &Bound<'py, PyAny>) -> Bound<'py, Self> {
        slf
    }
}

/// How far the flows of two sides are apart, as a part of their mean; above zero where the left gives more.
#[pyfunction]
pub(crate) fn side_difference(left: &Bound<'_, PyAny>, right: &Bound<'_, PyAny>) -> PyResult<Uncertain> {
    told(left.py(), mixcalc::side_difference(&input("left", left)?, &input("right", right)?))
}

/// Volume of a catch from its weight in air and the density of the liquid, of water `water_density`. The air makes 0.1 %.
#[pyfunction]
pub(crate) fn volume_of_catch(mass: &Bound<'_, PyAny>, density: &Bound<'_, PyAny>) -> PyResult<Uncertain> {
    told(mass.py(), mixcalc::volume_of_catch(&input("mass", mass)?, &input("density", density)?))
}

/// The dose that really reaches the ground, from the volume measured into a mix and the rate that the sprayer really puts out.
#[pyfunction]
pub(crate) fn delivered_liquid_dose(
    amount: &Bound<'_, PyAny>,
    mix: &Bound<'_, PyAny>,
    volume_rate: &Bound<'_, PyAny>,
) -> PyResult<Uncertain> {
    told(
        amount.py(),
        mixcalc::delivered_liquid_dose(
            &input("amount", amount)?,
            &input("mix", mix)?,
            &input("volume_rate", volume_rate)?,
        ),
    )
}

/// The dose that really reaches the ground, from the mass measured into a mix and the rate that the sprayer really puts out.
#[pyfunction]
pub(crate) fn delivered_solid_dose(
    amount: &Bound<'_, PyAny>,
    mix: &Bound<'_, PyAny>,
    volume_rate: &Bound<'_, PyAny>,
) -> PyResult<Uncertain> {
    told(
        amount.py(),
        mixcalc::delivered_solid_dose(
            &input("amount", amount)?,
            &input("mix", mix)?,
            &input("volume_rate", volume_rate)?,
        ),
    )
}

/// Length of the course that makes an area of a swath: `A / w`.
#[pyfunction]
pub(crate) fn course_length(area: &Bound<'_, PyAny>, swath: &Bound<'_, PyAny>) -> PyResult<Quantity> {
    border::checked(area.py(), mixcalc::course_length(known("area", area)?, known("swath", swath)?)).map(quantity)
}

/// Density of air-free water at one atmosphere, from 0 to 40 °C, to 0.001 %.
#[pyfunction]
pub(crate) fn water_density(temperature: &Bound<'_, PyAny>) -> PyResult<Quantity> {
    border::checked(temperature.py(), mixcalc::water_density(known("temperature", temperature)?)).map(quantity)
}

/// Volume rate at a flow, speed over the ground and swath: `Q / (v w)`.
#[pyfunction]
pub(crate) fn volume_rate(
    flow: &Bound<'_, PyAny>,
    speed: &Bound<'_, PyAny>,
    swath: &Bound<'_, PyAny>,
) -> PyResult<Quantity> {
    border::checked(
        flow.py(),
        mixcalc::volume_rate(known("flow", flow)?, known("speed", speed)?, known("swath", swath)?),
    )
    .map(quantity)
}

/// Flow of all open nozzles that a volume rate takes: `R v w`.
#[pyfunction]
pub(crate) fn required_flow(
    volume_rate: &Bound<'_, PyAny>,
    speed: &Bound<'_, PyAny>,
    swath: &Bound<'_, PyAny>,
) -> PyResult<Quantity> {
    border::checked(
        volume_rate.py(),
        mixcalc::required_flow(known("volume_rate", volume_rate)?, known("speed", speed)?, known("swath", swath)?),
    )
    .map(quantity)
}

/// Speed over the ground at which a flow gives a volume rate: `Q / (R w)`.
#[pyfunction]
pub(crate) fn required_speed(
    flow: &Bound<'_, PyAny>,
    volume_rate: &Bound<'_, PyAny>,
    swath: &Bound<'_, PyAny>,
) -> PyResult<Quantity> {
    border::checked(
        flow.py(),
        mixcalc::required_speed(known("flow", flow)?, known("volume_rate", volume_rate)?, known("swath", swath)?),
    )
    .map(quantity)
}

/// Swath over which a flow gives a volume rate at a speed: `Q / (R v)`.
#[pyfunction]
pub(crate) fn required_swath(
    flow: &Bound<'_, PyAny>,
    volume_rate: &Bound<'_, PyAny>,
    speed: &Bound<'_, PyAny>,
) -> PyResult<Quantity> {
    border::checked(
        flow.py(),
        mixcalc::required_swath(known("flow", flow)?, known("volume_rate", volume_rate)?, known("speed", speed)?),
    )
    .map(quantity)
}

/// Ground treated in a time: `v w`. Turning and filling are not in it.
#[pyfunction]
pub(crate) fn work_rate(speed: &Bound<'_, PyAny>, swath: &Bound<'_, PyAny>) -> PyResult<Quantity> {
    border::checked(speed.py(), mixcalc::work_rate(known("speed", speed)?, known("swath", swath)?)).map(quantity)
}

/// Time that the nozzles are open over an area. Turning and filling are not in it.
#[pyfunction]
pub(crate) fn spraying_time(area: &Bound<'_, PyAny>, work_rate: &Bound<'_, PyAny>) -> PyResult<Quantity> {
    border::checked(area.py(), mixcalc::spraying_time(known("area", area)?, known("work_rate", work_rate)?))
        .map(quantity)
}

/// Flow from a volume that was caught in a time: `V / t`.
#[pyfunction]
pub(crate) fn flow(volume: &Bound<'_, PyAny>, time: &Bound<'_, PyAny>) -> PyResult<Quantity> {
    border::checked(volume.py(), mixcalc::flow(known("volume", volume)?, known("time", time)?)).map(quantity)
}

/// Speed from a distance that was covered in a time: `d / t`.
#[pyfunction]
pub(crate) fn speed(distance: &Bound<'_, PyAny>, time: &Bound<'_, PyAny>) -> PyResult<Quantity> {
    border::checked(distance.py(), mixcalc::speed(known("distance", distance)?, known("time", time)?)).map(quantity)
}

/// The ground on which US fluid ounces are US gallons per acre: 1/128 acre, 340.3125 ft2.
#[pyfunction]
pub(crate) fn one_128th_acre() -> Quantity {
    quantity(mixcalc::one_128th_acre())
}
