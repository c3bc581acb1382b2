//! Quantities: a Python class for each kind, over the core's one dynamic quantity. No arithmetic of its own.

use std::borrow::Cow;
use std::hash::{DefaultHasher, Hash, Hasher};

use mixcalc::{Kind, System};
use pyo3::exceptions::{PyOverflowError, PyTypeError, PyValueError};
use pyo3::prelude::*;
use pyo3::pyclass::CompareOp;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyBool, PyFloat, PyInt, PyMapping, PyString, PyTuple, PyType};

use crate::border;

/// A value with its unit and kind.
///
/// Its class is its kind: `Quantity("16 L")` is a `Volume`. Text such as "300 L/ha" is a `VolumePerArea` until `VolumeRate`,
/// `LiquidDose` or a field of a job claims it; a claimed quantity fits only its slot. `+ - * / **` and comparison follow
/// the identities of the trade; where none applies the result is a plain `Quantity` of whatever dimension arises, which may be
/// claimed too. `==` compares to the bit: whole numbers of a metric unit are the same in the larger one, "70 mL" and "0.07 L"; for
/// fractions and results of arithmetic `is_close` is the better question. Quantities are made, not subclassed: whatever is asked for,
/// the class of the kind comes out.
///
/// Parameters
/// ----------
/// value : str, number or quantity
///     Text such as "300 L/ha", "12 US fl oz/ac" or "0.25 % v/v"; a number where `unit` is given; another quantity, one of
///     pint's or astropy's too.
/// unit : str, optional
///     The unit of a bare number.
///
/// Raises
/// ------
/// UnitError
///     For a number without a unit, an unknown unit, and a unit with more than one meaning, such as "gal".
/// InputError
///     For a number that is not finite.
///
/// Notes
/// -----
/// Factors are the exact legal definitions: SI brochure, international yard and pound of 1959, NIST Handbook 44 Appendix C,
/// Weights and Measures Act 1985; codes in brackets are of UCUM.
///
/// Examples
/// --------
/// >>> from mixcalc import Quantity, VolumeRate
/// >>> rate = VolumeRate("300 L/ha")
/// >>> rate * Quantity("12.5 ha")
/// Volume("3750 L")
/// >>> rate.to("US gal/ac")
/// 32.07199100112486
/// >>> f"{rate:.1f US gal/ac}"
/// '32.1 US gal/ac'
/// >>> Quantity("10 gal/ac")
/// Traceback (most recent call last):
///     ...
/// mixcalc.errors.UnitError: "gal" has more than one meaning; write US gal or imp gal
#[pyclass(frozen, subclass, module = "mixcalc", name = "Quantity")]
pub(crate) struct Object(Quantity);

/// What an object holds; on the way to Python it becomes an object of its kind's class.
#[derive(Clone)]
pub(crate) struct Quantity {
    pub(crate) core: mixcalc::Quantity,
    /// The unit that it is told in: the one it was stated in, where it was.
    pub(crate) unit: Cow<'static, str>,
}

/// How text is read for a kind, so that an error shows that kind's example.
type Read<'a> = &'a dyn Fn(&str) -> Result<mixcalc::Quantity, mixcalc::Error>;

/// Declares the classes of the kinds.
macro_rules! kinds {
    ($($(#[$doc:meta])* $name:ident)*) => {
        $(
            $(#[$doc])*
            #[pyclass(frozen, extends = Object, module = "mixcalc")]
            pub(crate) struct $name;

            #[pymethods]
            impl $name {
                #[new]
                #[pyo3(signature = (value, unit=None))]
                fn object<'py>(value: &Bound<'py, PyAny>, unit: Option<&str>) -> PyResult<Bound<'py, PyAny>> {
                    let read: Read<'_> = &|text| mixcalc::$name::read(text).map(Into::into);
                    let quantity = Quantity::stated(value, unit, read)?;
                    let core = border::checked(value.py(), quantity.core.claim_kind(Kind::$name))?;
                    Quantity { core, ..quantity }.into_object(value.py())
                }
            }
        )*

        impl Quantity {
            /// The object of its kind's class.
            pub(crate) fn into_object(self, py: Python<'_>) -> PyResult<Bound<'_, PyAny>> {
                match self.core.kind() {
                    $(Kind::$name => {
                        Ok(Bound::new(py, PyClassInitializer::from(Object(self)).add_subclass($name))?.into_any())
                    })*
                    _ => Ok(Bound::new(py, Object(self))?.into_any()),
                }
            }
        }

        /// Adds the classes to the module.
        pub(crate) fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
            module.add_class::<Object>()?;
            $(module.add_class::<$name>()?;)*
            Ok(())
        }
    };
}

kinds! {
    /// A length: a width, a walked distance, a height, such as "0.5 m".
    Length
    /// An area of ground, such as "12.5 ha".
    Area
    /// A volume of liquid, or of a heap, such as "15 L".
    Volume
    /// A mass, such as "2.5 kg".
    Mass
    /// A span of time, such as "30 s".
    Time
    /// A temperature, as read from a thermometer, such as "21 °C".
    Temperature
    /// A speed over the ground, such as "5 km/h".
    Speed
    /// Ground treated in a time, such as "4 ha/h".
    WorkRate
    /// Volume leaving nozzles in a time, such as "1.2 L/min".
    Flow
    /// A pressure above that of the air, such as "300 kPa".
    Pressure
    /// Volume per area that nobody has yet said the meaning of: a volume rate or a liquid dose, such as "300 L/ha".
    VolumePerArea
    /// Volume of spray mix, or of carrier, per ground area, such as "300 L/ha".
    VolumeRate
    /// Volume of a product per ground area, such as "2.5 L/ha".
    LiquidDose
    /// Mass per area that nobody has yet said the meaning of, such as active substance per area: "0.4 kg/ha".
    MassPerArea
    /// Mass of a product per ground area, such as "0.4 kg/ha".
    SolidDose
    /// Volume of a part per volume of the whole, such as "0.25 % v/v".
    VolumeFraction
    /// Mass of a part per mass of the whole, such as "50 % w/w".
    MassFraction
    /// Mass per volume that nobody has yet said the meaning of, such as "2 g/L".
    MassPerVolume
    /// Mass of a product per volume of mix, such as "2 g/L".
    MassConcentration
    /// Mass of an active substance per volume of a product, such as "250 g/L".
    Content
    /// Mass per volume of a liquid: a liquid product, the mix, such as "1.1 kg/L".
    Density
    /// Mass per volume of the particles of a dry product: what it displaces in a liquid, such as "1.6 kg/L".
    ParticleDensity
    /// Mass per volume of the heap of a dry product: what a vessel of it weighs, such as "0.5 kg/L".
    BulkDensity
    /// Volume per length of row, such as "25 mL/100 m".
    VolumePerRowLength
    /// Mass per length of row, such as "5 g/100 m".
    MassPerRowLength
    /// Volume per tree row volume, such as "0.8 L/10000 m3".
    VolumePerTreeRowVolume
    /// Mass per tree row volume, such as "0.6 kg/10000 m3".
    MassPerTreeRowVolume
    /// Volume per ground area for each meter of crown height, such as "0.5 L/ha/m".
    VolumePerCrownHeight
    /// Mass per ground area for each meter of crown height, such as "0.4 kg/ha/m".
    MassPerCrownHeight
    /// A pure number, such as "10 %".
    Ratio
}

/// What a result of arithmetic is told in where its operands do not say.
fn told_in(core: mixcalc::Quantity) -> Cow<'static, str> {
    match core.kind().unit() {
        "" => core.to_told_parts().1.into(),
        unit => unit.into(),
    }
}

impl<Q: Into<mixcalc::Quantity>> From<Q> for Quantity {
    /// A quantity of the core, told in the unit of documents.
    fn from(quantity: Q) -> Self {
        let core = quantity.into().documented();
        Self { core, unit: told_in(core) }
    }
}

impl<'py> IntoPyObject<'py> for Quantity {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.into_object(py)
    }
}

impl Quantity {
    /// What somebody states: text, a number with a unit, a quantity of ours or of another library.
    pub(crate) fn stated(value: &Bound<'_, PyAny>, unit: Option<&str>, read: Read<'_>) -> PyResult<Self> {
        let py = value.py();
        if let Some(unit) = unit {
            let Some(number) = number(value)? else {
                let given = value.get_type().name()?;
                return Err(PyTypeError::new_err(format!("with a unit beside it, the value is a number, not {given}")));
            };
            let core = border::checked(py, mixcalc::Quantity::from_parts(number, unit))?.documented();
            return Ok(Self { core, unit: unit.to_owned().into() });
        }
        if let Ok(object) = value.cast::<Object>() {
            return Ok(object.get().0.clone());
        }
        if let Ok(text) = value.cast::<PyString>() {
            let text = text.to_string_lossy();
            let core = border::checked(py, read(&text))?.documented();
            let unit = text.split_once(' ').map_or("", |(_, unit)| unit);
            return Ok(Self { core, unit: unit.to_owned().into() });
        }
        if let Some(number) = number(value)? {
            // A bare number is refused in the words of the core.
            let core = border::checked(py, read(&number.to_string()))?;
            return Ok(core.into());
        }
        if let Some(quantity) = foreign(value)? {
            return Ok(quantity);
        }
        if let Ok(table) = value.cast::<PyMapping>()
            && table.len()? == 2
            && table.contains("value")?
            && table.contains("unit")?
        {
            return Self::stated(&table.get_item("value")?, Some(&table.get_item("unit")?.extract::<String>()?), read);
        }
        let given = value.get_type().name()?;
        Err(PyTypeError::new_err(format!("a quantity is text such as \"300 L/ha\", not {given}")))
    }

    /// The other operand: a quantity, or a pure number.
    pub(crate) fn operand(other: &Bound<'_, PyAny>) -> PyResult<Option<Self>> {
        if let Ok(object) = other.cast::<Object>() {
            return Ok(Some(object.get().0.clone()));
        }
        match number(other)? {
            Some(number) => Ok(Some(border::checked(other.py(), mixcalc::Ratio::from_number(number))?.into())),
            None => foreign(other),
        }
    }

    /// Does an operation with the other operand, or leaves it to that.
    fn with<'py>(
        other: &Bound<'py, PyAny>,
        operation: impl FnOnce(Python<'py>, Self) -> PyResult<Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        match Self::operand(other)? {
            Some(operand) => operation(other.py(), operand),
            None => Ok(other.py().NotImplemented().into_bound(other.py())),
        }
    }

    /// What it may be compared with.
    fn comparable(other: &Bound<'_, PyAny>) -> PyResult<Option<Self>> {
        match other.cast::<Object>() {
            Ok(object) => Ok(Some(object.get().0.clone())),
            Err(_) if number(other)?.is_some() => Ok(None),
            Err(_) => foreign(other),
        }
    }

    /// A sum with a bare number has a meaning only among pure numbers; anywhere else the number lacks its unit.
    fn is_no_bare_number(&self, other: &Bound<'_, PyAny>) -> PyResult<()> {
        match number(other)? {
            Some(number) if self.core.kind() != Kind::Ratio => {
                border::checked(other.py(), mixcalc::Quantity::read(&number.to_string())).map(drop)
            }
            _ => Ok(()),
        }
    }

    /// Sum, difference or comparison is of like with like, so that the unit stays.
    fn alike<'py>(
        &self,
        py: Python<'py>,
        core: Result<mixcalc::Quantity, mixcalc::Error>,
    ) -> PyResult<Bound<'py, PyAny>> {
        Self { core: border::checked(py, core)?.documented(), unit: self.unit.clone() }.into_object(py)
    }

    /// Product or quotient: a scaled quantity keeps its unit, any other is told in the measures of the trade that the operands are in.
    fn combined<'py>(
        py: Python<'py>,
        core: Result<mixcalc::Quantity, mixcalc::Error>,
        operands: [&Self; 2],
    ) -> PyResult<Bound<'py, PyAny>> {
        let core = border::checked(py, core)?.documented();
        let same =
            operands.into_iter().find(|operand| operand.core.kind() == core.kind() && core.kind() != Kind::Derived);
        let unit = match same {
            Some(operand) => operand.unit.clone(),
            None => match operands.into_iter().find_map(|operand| System::of_unit(&operand.unit)) {
                Some(System::Us | System::Imperial) if core.kind() == Kind::Derived => told_in(core),
                Some(system @ (System::Us | System::Imperial)) => core.unit_for_people(system).into(),
                _ => told_in(core),
            },
        };
        Self { core, unit }.into_object(py)
    }

    /// Value and unit as text that reads back to the same quantity.
    fn text(&self, py: Python<'_>) -> PyResult<String> {
        border::checked(py, self.core.to_text_in(&self.unit))
    }
}

/// A number that is no quantity: of Python, numpy, decimal or fractions. Not an array, not text, not true or false. A whole number
/// that no double holds is infinite, for the core to refuse.
pub(crate) fn number(value: &Bound<'_, PyAny>) -> PyResult<Option<f64>> {
    static NUMBER: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    let py = value.py();
    let is_number = value.is_exact_instance_of::<PyFloat>()
        || value.is_exact_instance_of::<PyInt>()
        || (value.is_instance(NUMBER.import(py, "numbers", "Number")?)? && !value.is_instance_of::<PyBool>());
    match value.extract() {
        _ if !is_number => Ok(None),
        Ok(number) => Ok(Some(number)),
        Err(error) if error.is_instance_of::<PyOverflowError>(py) => Ok(Some(f64::INFINITY)),
        Err(_) => Ok(None),
    }
}

/// The quantity of an object; `None` for an object that is none.
pub(crate) fn quantity_of(value: &Bound<'_, PyAny>) -> Option<Quantity> {
    value.cast::<Object>().ok().map(|object| object.get().0.clone())
}

/// A quantity of pint or astropy; `None` for anything else.
pub(crate) fn foreign(value: &Bound<'_, PyAny>) -> PyResult<Option<Quantity>> {
    static TAKEN: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    let taken = TAKEN.import(value.py(), "mixcalc._foreign", "taken")?.call1((value,))?;
    Ok(quantity_of(&taken))
}

#[pymethods]
impl Object {
    #[new]
    #[pyo3(signature = (value, unit=None))]
    fn object<'py>(value: &Bound<'py, PyAny>, unit: Option<&str>) -> PyResult<Bound<'py, PyAny>> {
        Quantity::stated(value, unit, &mixcalc::Quantity::read)?.into_object(value.py())
    }

    /// numpy is to leave arithmetic with quantities to them.
    #[classattr]
    #[pyo3(name = "__array_ufunc__")]
    fn array_ufunc(py: Python<'_>) -> Py<PyAny> {
        py.None()
    }

    /// The number in `unit`, such as 300.0.
    #[getter]
    fn value(&self, py: Python<'_>) -> PyResult<f64> {
        border::checked(py, self.0.core.to(&self.0.unit))
    }

    /// The unit that it is told in: the one that it was stated in, where it was.
    #[getter]
    fn unit(&self) -> &str {
        &self.0.unit
    }

    /// What it is, in words: "volume rate", or "volume per area" where nobody has said.
    #[getter]
    fn kind(&self) -> &'static str {
        self.0.core.kind().words()
    }

    /// The number in a unit.
    ///
    /// Parameters
    /// ----------
    /// unit : str
    ///     Such as "US gal/ac".
    ///
    /// Returns
    /// -------
    /// float
    ///     The number that reads back to this quantity in that unit, or where none does the nearest.
    ///
    /// Raises
    /// ------
    /// UnitError
    ///     For an unknown unit, and for one that measures something else.
    ///
    /// Examples
    /// --------
    /// >>> from mixcalc import Quantity
    /// >>> Quantity("12 US fl oz/ac").to("US fl oz/ac")
    /// 12.0
    /// >>> Quantity("1 US gal").to("L")
    /// 3.785411784
    #[pyo3(signature = (unit, /))]
    fn to(&self, py: Python<'_>, unit: &str) -> PyResult<f64> {
        border::checked(py, self.0.core.to(unit))
    }

    /// The same quantity, told in another unit.
    ///
    /// Examples
    /// --------
    /// >>> from mixcalc import Quantity
    /// >>> Quantity("2.5 L").in_unit("mL")
    /// Volume("2500 mL")
    #[pyo3(signature = (unit, /))]
    fn in_unit<'py>(&self, py: Python<'py>, unit: &str) -> PyResult<Bound<'py, PyAny>> {
        border::checked(py, self.0.core.to(unit))?;
        Quantity { core: self.0.core, unit: unit.to_owned().into() }.into_object(py)
    }

    /// Text for people, in the measures of a trade, to four significant digits.
    ///
    /// Parameters
    /// ----------
    /// units : {"metric", "US", "imperial"}, optional
    ///     Whose measures.
    ///
    /// Examples
    /// --------
    /// >>> from mixcalc import Quantity
    /// >>> Quantity("0.46 L").to_people(), Quantity("0.46 L").to_people("US")
    /// ('460 mL', '15.55 US fl oz')
    #[pyo3(signature = (units="metric", /))]
    fn to_people(&self, units: &str) -> PyResult<String> {
        match System::all().iter().find(|system| system.name() == units) {
            Some(system) => Ok(self.0.core.to_people(*system)),
            None => Err(PyValueError::new_err(format!("units are \"metric\", \"US\" or \"imperial\", not {units:?}"))),
        }
    }

    /// Whether two quantities of one kind are the same within 1e-12 of the larger, as plans compare them; `==` compares exactly.
    /// Text is taken as this kind.
    ///
    /// Raises
    /// ------
    /// UnitError
    ///     For quantities of different kinds.
    ///
    /// Examples
    /// --------
    /// >>> from mixcalc import Quantity
    /// >>> thrice = Quantity("0.1 L") + Quantity("0.1 L") + Quantity("0.1 L")
    /// >>> thrice == Quantity("0.3 L"), thrice.is_close("0.3 L")
    /// (False, True)
    #[pyo3(signature = (other, /))]
    fn is_close(&self, other: &Bound<'_, PyAny>) -> PyResult<bool> {
        let py = other.py();
        let stated = Quantity::stated(other, None, &mixcalc::Quantity::read)?.core;
        let is_text = other.is_instance_of::<PyString>();
        let other =
            if is_text { stated.claim_kind(self.0.core.kind()).map(mixcalc::Quantity::documented) } else { Ok(stated) };
        border::checked(py, other.and_then(|other| self.0.core.is_close(other)))
    }

    /// A quantity of pint.
    ///
    /// Parameters
    /// ----------
    /// registry : pint.UnitRegistry, optional
    ///     pint's application registry where none is given.
    ///
    /// Returns
    /// -------
    /// pint.Quantity
    ///     In the same unit where the registry has it with the same size, else in base units. pint knows dimensions and not
    ///     kinds: a dose and a volume rate come out alike.
    #[pyo3(signature = (registry=None))]
    fn to_pint<'py>(slf: &Bound<'py, Self>, registry: Option<&Bound<'py, PyAny>>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mixcalc._foreign")?.getattr("to_pint")?.call1((slf, registry))
    }

    /// Of a derived quantity: as the one kind of its dimension, where there is one.
    fn _named(&self) -> Quantity {
        let named = self.0.core.named();
        if named.kind() == self.0.core.kind() { self.0.clone() } else { named.into() }
    }

    /// Value and unit in base units, for other libraries: `(0.001, "m^3")`.
    fn _in_base_units(&self, py: Python<'_>) -> PyResult<(f64, String)> {
        let unit = self.0.core.dimension().base_unit();
        Ok((border::checked(py, self.0.core.to(&unit))?, unit))
    }

    fn __add__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        self.0.is_no_bare_number(other)?;
        Quantity::with(other, |py, other| self.0.alike(py, self.0.core.plus(other.core)))
    }

    fn __radd__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        // `sum` starts from the number 0.
        if other.cast_exact::<PyInt>().is_ok_and(|number| number.extract().is_ok_and(|number: i64| number == 0)) {
            return self.0.clone().into_object(other.py());
        }
        self.0.is_no_bare_number(other)?;
        Quantity::with(other, |py, other| other.alike(py, other.core.plus(self.0.core)))
    }

    fn __sub__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        self.0.is_no_bare_number(other)?;
        Quantity::with(other, |py, other| self.0.alike(py, self.0.core.minus(other.core)))
    }

    fn __rsub__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        self.0.is_no_bare_number(other)?;
        Quantity::with(other, |py, other| other.alike(py, other.core.minus(self.0.core)))
    }

    fn __mul__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Quantity::with(other, |py, other| Quantity::combined(py, self.0.core.times(other.core), [&self.0, &other]))
    }

    fn __rmul__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Quantity::with(other, |py, other| Quantity::combined(py, other.core.times(self.0.core), [&other, &self.0]))
    }

    fn __truediv__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Quantity::with(other, |py, other| Quantity::combined(py, self.0.core.over(other.core), [&self.0, &other]))
    }

    fn __rtruediv__<'py>(&self, other: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        Quantity::with(other, |py, other| Quantity::combined(py, other.core.over(self.0.core), [&other, &self.0]))
    }

    fn __pow__<'py>(
        &self,
        exponent: &Bound<'py, PyAny>,
        modulo: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let py = exponent.py();
        if modulo.is_some() {
            return Err(PyTypeError::new_err("a quantity has no power modulo another"));
        }
        if exponent.is_instance_of::<Self>() || number(exponent)?.is_none() {
            return Ok(py.NotImplemented().into_bound(py));
        }
        // A float is meant as the ratio of small whole numbers that it is the nearest double to: 1/3, 0.5.
        let fraction = py.import("fractions")?.getattr("Fraction")?.call1((exponent,))?;
        let near = fraction.call_method1("limit_denominator", (1000,))?;
        let is_meant = near.call_method0("__float__")?.eq(fraction.call_method0("__float__")?)?;
        let part = |name: &str| {
            let whole = if is_meant { &near } else { &fraction }.getattr(name)?.extract::<i16>();
            whole.map_err(|_| {
                PyValueError::new_err("an exponent of a quantity is a ratio of small whole numbers, such as 2 or 1/2")
            })
        };
        let core = border::checked(py, self.0.core.power(part("numerator")?, part("denominator")?))?.documented();
        let unit = if core.kind() == self.0.core.kind() && core.kind() != Kind::Derived {
            self.0.unit.clone()
        } else {
            told_in(core)
        };
        Quantity { core, unit }.into_object(py)
    }

    fn __neg__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        let minus = border::checked(py, mixcalc::Ratio::from_number(-1.0))?;
        self.0.alike(py, self.0.core.times(minus.into()))
    }

    fn __pos__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.0.clone().into_object(py)
    }

    fn __abs__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        if self.0.core.to_parts().0.is_sign_negative() { self.__neg__(py) } else { self.__pos__(py) }
    }

    /// A pure number; anything else has a unit that a float would lose.
    fn __float__(&self, py: Python<'_>) -> PyResult<f64> {
        self.0.core.number().map_err(|error| border::no_number(py, &error))
    }

    fn __richcmp__<'py>(&self, other: &Bound<'py, PyAny>, operation: CompareOp) -> PyResult<Bound<'py, PyAny>> {
        let py = other.py();
        if self.0.core.kind() == Kind::Ratio && number(other)?.is_some() {
            return PyFloat::new(py, border::checked(py, self.0.core.number())?).rich_compare(other, operation);
        }
        let Some(other) = Quantity::comparable(other)? else {
            return Ok(py.NotImplemented().into_bound(py));
        };
        let answer = match operation {
            CompareOp::Eq => self.0.core == other.core,
            CompareOp::Ne => self.0.core != other.core,
            _ => operation.matches(border::checked(py, self.0.core.compare(other.core))?),
        };
        Ok(PyBool::new(py, answer).to_owned().into_any())
    }

    fn __hash__(&self, py: Python<'_>) -> PyResult<isize> {
        // A pure number equals a float, so that it has the float's hash.
        if self.0.core.kind() == Kind::Ratio {
            return PyFloat::new(py, border::checked(py, self.0.core.number())?).hash();
        }
        let mut hasher = DefaultHasher::new();
        self.0.core.hash(&mut hasher);
        Ok(isize::from_ne_bytes(hasher.finish().to_ne_bytes()))
    }

    fn __repr__(slf: &Bound<'_, Self>) -> PyResult<String> {
        Ok(format!("{}(\"{}\")", slf.get_type().name()?, slf.get().0.text(slf.py())?))
    }

    /// In its unit to nine digits: all that a scale shows, and no noise of the last places.
    fn __str__(&self, py: Python<'_>) -> PyResult<String> {
        border::checked(py, self.0.core.on_scale_in(&self.0.unit))
    }

    /// `f"{q}"` as `str(q)`; `f"{q:US gal/ac}"` in a unit, to four digits; `f"{q:.1f US gal/ac}"` and `f"{q:.1f}"` with Python's
    /// own formats of numbers where they begin with a point, a digit, a sign or one of `<>^=`.
    fn __format__(&self, py: Python<'_>, spec: &str) -> PyResult<String> {
        if spec.is_empty() {
            return self.__str__(py);
        }
        if !spec.starts_with(|c: char| c.is_ascii_digit() || ".+-,_<>^=".contains(c)) {
            return border::checked(py, self.0.core.to_people_in(spec));
        }
        let (number_format, unit) = spec.split_once(' ').unwrap_or((spec, &self.0.unit));
        if number_format.ends_with('%') {
            return Err(PyValueError::new_err("a quantity has a unit, so that its number is not told in percent"));
        }
        let value = border::checked(py, self.0.core.to(unit))?;
        let number = PyFloat::new(py, value).call_method1("__format__", (number_format,))?;
        Ok(format!("{number} {unit}"))
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        slf.py().import("mixcalc._html")?.getattr("quantity")?.call1((slf,))?.extract()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyType>, Bound<'py, PyTuple>)> {
        let text = slf.get().0.text(slf.py())?;
        Ok((slf.get_type(), PyTuple::new(slf.py(), [text])?))
    }

    fn __copy__(slf: Bound<'_, Self>) -> Bound<'_, Self> {
        slf
    }

    fn __deepcopy__<'py>(slf: Bound<'py, Self>, _memo: &Bound<'py, PyAny>) -> Bound<'py, Self> {
        slf
    }
}
