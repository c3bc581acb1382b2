//! A job and its parts as Python objects: frozen, made by keywords that are the keys of documents.
//!
//! Each keeps what was stated, as the tree that the core made the part from, so that a change of one field is the same reading
//! once more, and `repr` shows what was typed.

use std::any::Any;
use std::hash::{DefaultHasher, Hash, Hasher};

use mixcalc::document::{Node, Part};
use mixcalc::{Applied, BufferSize, Field, LastStrip as CoreStrip, Rate, SubstanceContent};
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyDict, PyMapping, PyTuple};

use crate::quantity::Quantity;
use crate::{border, node, text};

/// The one format of job documents, which keywords need not name.
const FORMAT: (&str, &str) = ("format", "mixcalc-job/1");

/// The value of a key.
fn at<'node>(node: &'node Node, key: &str) -> Option<&'node Node> {
    match node {
        Node::Table(entries) => entries.iter().find(|(name, _)| name == key).map(|(_, value)| value),
        _ => None,
    }
}

/// The tree of a part within a part; an empty one where it was left to its defaults.
fn within(node: &Node, key: &str) -> Node {
    at(node, key).filter(|node| **node != Node::Null).cloned().unwrap_or(Node::Table(Vec::new()))
}

/// The trees of the parts in a list.
fn each_of<'node>(node: &'node Node, key: &str) -> &'node [Node] {
    match at(node, key) {
        Some(Node::List(nodes)) => nodes,
        _ => &[],
    }
}

/// A quantity in the unit that it was stated in.
fn told(core: mixcalc::Quantity, stated: Option<&Node>) -> Quantity {
    match stated.and_then(Node::unit) {
        Some(unit) => Quantity { core, unit: unit.to_owned().into() },
        None => core.into(),
    }
}

/// A day of the calendar, as Python has it.
fn day(py: Python<'_>, date: mixcalc::Date) -> PyResult<Bound<'_, PyAny>> {
    py.import("datetime")?.getattr("date")?.call_method1("fromisoformat", (date.to_string(),))
}

/// Entries with some of them changed; a key that is changed to nothing counts as absent, if there is such a key.
fn changed(node: &Node, changes: Vec<(String, Node)>) -> Node {
    let mut entries = match node {
        Node::Table(entries) => entries.clone(),
        _ => Vec::new(),
    };
    for (key, value) in changes {
        entries.retain(|(name, _)| *name != key);
        entries.push((key, value));
    }
    Node::Table(entries)
}

/// A table with the keys that need not be given.
fn with_fixed(mut node: Node, fixed: &[(&str, &str)]) -> Node {
    if let Node::Table(entries) = &mut node {
        for (key, value) in fixed {
            if !entries.iter().any(|(name, _)| name == key) {
                entries.push(((*key).into(), Node::Text((*value).into())));
            }
        }
    }
    node
}

/// What was stated, in the objects of Python: tables as dicts, lists as tuples, quantities as they are.
fn stated<'py>(py: Python<'py>, node: Option<&Node>) -> PyResult<Bound<'py, PyAny>> {
    Ok(match node {
        None | Some(Node::Null) => py.None().into_bound(py),
        Some(Node::Bool(truth)) => truth.into_pyobject(py)?.to_owned().into_any(),
        Some(Node::Number(number)) => number.into_pyobject(py)?.into_any(),
        Some(Node::Text(text) | Node::Other(text)) => text.into_pyobject(py)?.into_any(),
        Some(Node::Quantity(core, unit)) => Quantity { core: *core, unit: unit.clone().into() }.into_object(py)?,
        Some(Node::List(nodes)) => {
            let items: PyResult<Vec<_>> = nodes.iter().map(|node| stated(py, Some(node))).collect();
            PyTuple::new(py, items?)?.into_any()
        }
        Some(Node::Table(entries)) => {
            let table = PyDict::new(py);
            for (key, node) in entries {
                table.set_item(key, stated(py, Some(node))?)?;
            }
            table.into_any()
        }
    })
}

/// What was stated, but for a dose that was stated as an active substance: that is the product's dose from here on, so that no dose is
/// taken for another.
fn settled(core: &dyn Any, node: Node) -> Node {
    if let Some(product) = core.downcast_ref::<mixcalc::Product>() {
        if at(&node, "dose_of").is_some_and(|name| *name != Node::Null) {
            let dose = mixcalc::Quantity::from(product.dose());
            let unit = dose.kind().unit().to_owned();
            return changed(&node, vec![("dose_of".into(), Node::Null), ("dose".into(), Node::Quantity(dose, unit))]);
        }
    } else if let Some(job) = core.downcast_ref::<mixcalc::Job>() {
        let products = job.products().iter().zip(each_of(&node, "products"));
        let products: Vec<Node> = products.map(|(core, node)| settled(core, node.clone())).collect();
        if products != each_of(&node, "products") {
            return changed(&node, vec![("products".into(), Node::List(products))]);
        }
    }
    node
}

/// Declares the classes: for each its signature, keys that keywords need not give, and the methods of its own.
macro_rules! parts {
    ($($(#[$doc:meta])* $name:ident, $signature:tt, $fixed:expr, { $($methods:tt)* })*) => {
        $(
            $(#[$doc])*
            #[pyclass(frozen, module = "mixcalc")]
            #[derive(Clone)]
            pub(crate) struct $name {
                pub(crate) core: mixcalc::$name,
                node: Node,
            }

            impl $name {
                pub(crate) fn of(py: Python<'_>, node: Node) -> PyResult<Self> {
                    let core = border::answer(py, || mixcalc::$name::from_node(&node))?;
                    let node = settled(&core, node);
                    Ok(Self { core, node })
                }

                /// A quantity of the part, in the unit that its key was stated in.
                #[allow(dead_code, reason = "a part may have none")]
                fn told(&self, quantity: impl Into<mixcalc::Quantity>, key: &str) -> Quantity {
                    told(quantity.into(), at(&self.node, key))
                }

                /// What was stated, as keyword arguments that make an equal one.
                fn keywords<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyDict>> {
                    let keywords = PyDict::new(slf.py());
                    if let Node::Table(entries) = &slf.get().node {
                        let fixed: &[(&str, &str)] = $fixed;
                        for (key, _) in entries.iter().filter(|(_, value)| *value != Node::Null) {
                            if !fixed.iter().any(|(name, _)| name == key) {
                                let key = node::keyword(key);
                                keywords.set_item(&key, slf.getattr(key.as_ref())?)?;
                            }
                        }
                    }
                    Ok(keywords)
                }
            }

            #[pymethods]
            impl $name {
                #[new]
                #[pyo3(signature = (**fields), text_signature = $signature)]
                fn new(py: Python<'_>, fields: Option<&Bound<'_, PyDict>>) -> PyResult<Self> {
                    Self::of(py, with_fixed(Node::Table(node::changes(fields)?), $fixed))
                }

                $($methods)*

                /// Makes it from a dict with the keys of documents.
                #[staticmethod]
                #[pyo3(signature = (fields, /))]
                pub(crate) fn from_dict(py: Python<'_>, fields: &Bound<'_, PyMapping>) -> PyResult<Self> {
                    Self::of(py, with_fixed(node::node(fields)?, $fixed))
                }

                /// As a dict with the keys of documents, every quantity as value and unit.
                fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
                    py.import("json")?.getattr("loads")?.call1((self.core.to_json(),))
                }

                /// The same with some fields changed; `None` takes a field out.
                #[pyo3(signature = (**changes), text_signature = "($self, /, **changes)")]
                fn replace(&self, py: Python<'_>, changes: Option<&Bound<'_, PyDict>>) -> PyResult<Self> {
                    let changes = node::changes(changes)?;
                    Self::of(py, changed(&self.node, changes))
                }

                #[pyo3(signature = (**changes), text_signature = "($self, /, **changes)")]
                fn __replace__(&self, py: Python<'_>, changes: Option<&Bound<'_, PyDict>>) -> PyResult<Self> {
                    self.replace(py, changes)
                }

                fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
                    other.cast::<Self>().is_ok_and(|other| self.core == other.get().core)
                }

                fn __hash__(&self) -> isize {
                    let mut hasher = DefaultHasher::new();
                    self.core.to_json().hash(&mut hasher);
                    isize::from_ne_bytes(hasher.finish().to_ne_bytes())
                }

                fn __repr__(slf: &Bound<'_, Self>) -> PyResult<String> {
                    let fields: PyResult<Vec<_>> = Self::keywords(slf)?
                        .iter()
                        .map(|(key, value)| Ok(format!("{key}={}", value.repr()?.to_string_lossy())))
                        .collect();
                    Ok(format!("{}({})", stringify!($name), fields?.join(", ")))
                }

                fn __getnewargs_ex__<'py>(
                    slf: &Bound<'py, Self>,
                ) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
                    Ok((PyTuple::empty(slf.py()), Self::keywords(slf)?))
                }

                fn __copy__(slf: Bound<'_, Self>) -> Bound<'_, Self> {
                    slf
                }

                fn __deepcopy__<'py>(slf: Bound<'py, Self>, _memo: &Bound<'py, PyAny>) -> Bound<'py, Self> {
                    slf
                }
            }
        )*

        /// The tree of a part; `None` for anything else.
        pub(crate) fn node_of(value: &Bound<'_, PyAny>) -> Option<Node> {
            $(if let Ok(part) = value.cast::<$name>() {
                return Some(part.get().node.clone());
            })*
            None
        }

        /// Adds the classes to the module.
        pub(crate) fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
            $(module.add_class::<$name>()?;)*
            Ok(())
        }
    };
}

parts! {
    /// A job: everything that a plan is made from.
    ///
    /// Parameters
    /// ----------
    /// area : Area
    ///     Ground to be treated; or else
    /// ground : Ground
    ///     The same by its parts: field, buffers, overlap.
    /// volume_rate, carrier_rate : VolumeRate
    ///     Exactly one. Volume of mix per ground area, products inside; or volume of carrier, products on top.
    /// products : list of Product
    ///     In the order in which they go into the tank.
    /// measures : list of Measure
    ///     The vessels and scales at hand.
    /// sprayer : Sprayer
    ///     Its kind gives the default headspace and the cautions.
    /// tank : Tank
    ///     With the sprayer it gives the safe fill.
    /// loading : Loading, optional
    ///     How the mix is divided into loads; full loads and then a part load where absent.
    /// season : Season, optional
    ///     What limits over time are held against.
    /// title : str, optional
    ///     By which people know the job.
    /// units : {"metric", "US", "imperial"}, optional
    ///     Whose measures the load sheet speaks; follows the rate where absent.
    /// crop : Crop, optional
    ///     Rows, canopy, plants and spots, which doses and rates on their bases are counted on.
    /// rate_basis : str, optional
    ///     What the rate is counted on: ground area where absent, or what its unit names. The bases of the crop are treated-area,
    ///     leaf-wall-area, tree-row-volume, crown-height, row-length, plant and spot.
    /// mix_density : Density, optional
    ///     Needed for doses in % w/w and for a limit of the carried mass.
    /// mixing : Mixing, optional
    ///     The mixing order; the order of the job where absent.
    /// calibration : dict, optional
    ///     What the volume rate is worked out from, in place of it, with the keys of documents.
    /// passes : dict, optional
    ///     The sprayer's passes: swath, and length where it is known. Where loads run out is told in them.
    /// water : dict, optional
    ///     A water analysis with the keys of documents: potassium, sodium, calcium, magnesium, iron.
    /// start : dict, optional
    ///     What the tank holds before the first load, which tops it up, with the keys of documents: holds, volume, products. Empty where absent.
    /// field_list : dict, optional
    ///     Asks for the field list, with the clean water that is taken along beside the carrier: hands, eyes, tank_rinse; as advised where absent.
    ///
    /// Raises
    /// ------
    /// InputError
    ///     With the path of the field, such as ``products[1].label.max_dose``.
    /// UnitError
    ///     The same, for a unit.
    ///
    /// Notes
    /// -----
    /// Wherever a quantity is due, text, a `Quantity`, a dict of value and unit, and a quantity of pint or astropy are taken; a part
    /// may be a dict with the same keys.
    ///
    /// Examples
    /// --------
    /// 1.2 ha at 200 L/ha are 240 L; the tank is filled to 95 % of its nominal 100 L: two loads of 95 L, one of 50 L.
    ///
    /// >>> import mixcalc
    /// >>> job = mixcalc.Job(
    /// ...     area="1.2 ha",
    /// ...     volume_rate="200 L/ha",
    /// ...     products=[mixcalc.Product(name="example product A", dose="1.5 L/ha")],
    /// ...     measures=[mixcalc.Measure(kind="vessel", capacity="1 L", graduation="10 mL")],
    /// ...     sprayer=mixcalc.Sprayer(kind="boom"),
    /// ...     tank=mixcalc.Tank(nominal="100 L"),
    /// ... )
    /// >>> [(load.count, str(load.mix)) for load in mixcalc.plan(job).loads]
    /// [(2, '95 L'), (1, '50 L')]
    /// >>> mixcalc.plan(job.replace(volume_rate="150 L/ha")).totals.mix
    /// Volume("180 L")
    Job,
    "(*, sprayer, tank, area=None, ground=None, crop=None, volume_rate=None, carrier_rate=None, rate_basis=None, products=(), measures=(), loading=None, season=None, title=None, units=None, mix_density=None, mixing=None, calibration=None, passes=None, water=None, start=None, field_list=None)",
    &[FORMAT],
    {
        /// Reads a job document: JSON, or TOML.
        ///
        /// Parameters
        /// ----------
        /// document : str or bytes
        ///     Its first character that is not blank tells which: a brace begins JSON.
        ///
        /// Raises
        /// ------
        /// InputError
        ///     With the path of the field, or with line and column where it cannot be read at all.
        #[staticmethod]
        #[pyo3(signature = (document, /))]
        fn from_json(document: &Bound<'_, PyAny>) -> PyResult<Self> {
            let py = document.py();
            let taken = text::taken(document)?;
            let bytes = taken.as_bytes();
            let node = border::answer(py, || Node::read(bytes))?;
            Self::of(py, node)
        }

        /// Reads a file with a job document, JSON or TOML.
        ///
        /// Parameters
        /// ----------
        /// path : str or os.PathLike
        ///     The file.
        ///
        /// Raises
        /// ------
        /// OSError
        ///     Where the file cannot be read.
        /// InputError
        ///     As `from_json`.
        #[staticmethod]
        #[pyo3(signature = (path, /))]
        fn read(path: &Bound<'_, PyAny>) -> PyResult<Self> {
            let path = path.py().import("pathlib")?.getattr("Path")?.call1((path,))?;
            let document = path.call_method0("read_bytes")?;
            Self::from_json(document.cast::<PyBytes>()?.as_any())
        }

        fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
            slf.py().import("mixcalc._html")?.getattr("job")?.call1((slf, Self::keywords(slf)?))
        }

        /// As a JSON document: every quantity as value and unit, in the one unit of its kind.
        fn to_json(&self, py: Python<'_>) -> PyResult<String> {
            border::answer(py, || Ok(self.core.to_json()))
        }

        /// By which people know the job.
        #[getter]
        fn title(&self) -> Option<&str> {
            self.core.title()
        }

        /// Whose measures the load sheet speaks: "metric", "US" or "imperial".
        #[getter]
        fn units(&self) -> &'static str {
            self.core.units().name()
        }

        /// Ground to be treated.
        #[getter]
        fn area(&self) -> Quantity {
            self.told(self.core.area(), "area")
        }

        /// The ground: field, buffers, overlap.
        #[getter]
        fn ground<'py>(&self, py: Python<'py>) -> PyResult<Ground> {
            match at(&self.node, "ground").filter(|node| **node != Node::Null) {
                Some(node) => Ok(Ground { core: self.core.ground().clone(), node: node.clone() }),
                None => {
                    let area = at(&self.node, "area").cloned().unwrap_or(Node::Null);
                    Ground::of(py, Node::Table(vec![("area".into(), area)]))
                }
            }
        }

        /// The crop's geometry, as far as it is stated.
        #[getter]
        fn crop(&self) -> Crop {
            Crop { core: *self.core.crop(), node: within(&self.node, "crop") }
        }

        /// Volume of mix, where that is what was stated or calibrated.
        #[getter]
        fn volume_rate(&self) -> Option<Quantity> {
            let rate = self.core.rate();
            matches!(rate, Rate::Volume(_) | Rate::VolumePerCrop(_)).then(|| self.told(rate.stated(), "volume_rate"))
        }

        /// Volume of carrier, where that is what was stated.
        #[getter]
        fn carrier_rate(&self) -> Option<Quantity> {
            let rate = self.core.rate();
            matches!(rate, Rate::Carrier(_) | Rate::CarrierPerCrop(_)).then(|| self.told(rate.stated(), "carrier_rate"))
        }

        /// What the rate is counted on.
        #[getter]
        fn rate_basis(&self) -> &'static str {
            self.core.rate().basis().name()
        }

        /// Density of the mix, where stated.
        #[getter]
        fn mix_density(&self) -> Option<Quantity> {
            self.core.mix_density().map(|density| self.told(density, "mix_density"))
        }

        /// The products, in the order in which they go into the tank.
        #[getter]
        fn products<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
            let products = self.core.products().iter().zip(each_of(&self.node, "products"));
            let products: PyResult<Vec<_>> =
                products.map(|(core, node)| Py::new(py, Product { core: core.clone(), node: node.clone() })).collect();
            PyTuple::new(py, products?)
        }

        /// The measures at hand.
        #[getter]
        fn measures<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
            let measures = self.core.measures().iter().zip(each_of(&self.node, "measures"));
            let measures: PyResult<Vec<_>> =
                measures.map(|(core, node)| Py::new(py, Measure { core: core.clone(), node: node.clone() })).collect();
            PyTuple::new(py, measures?)
        }

        /// The sprayer.
        #[getter]
        fn sprayer(&self) -> Sprayer {
            Sprayer { core: *self.core.sprayer(), node: within(&self.node, "sprayer") }
        }

        /// The tank.
        #[getter]
        fn tank(&self) -> Tank {
            Tank { core: self.core.tank().clone(), node: within(&self.node, "tank") }
        }

        /// How the mix is divided into loads.
        #[getter]
        fn loading(&self) -> Loading {
            Loading { core: self.core.loading(), node: within(&self.node, "loading") }
        }

        /// What limits over time are held against, as it was stated.
        #[getter]
        fn season(&self) -> Option<Season> {
            self.core.season().map(|core| Season { core: core.clone(), node: within(&self.node, "season") })
        }

        /// The mixing order that is asked for, where one is.
        #[getter]
        fn mixing(&self) -> Option<Mixing> {
            self.core.mixing().map(|core| Mixing { core, node: within(&self.node, "mixing") })
        }

        /// What the volume rate is worked out from, as it was stated, where it is.
        #[getter]
        fn calibration<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "calibration"))
        }

        /// The water analysis, as it was stated.
        #[getter]
        fn water<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "water"))
        }

        /// What the tank holds before the first load, as it was stated.
        #[getter]
        fn start<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "start"))
        }

        /// The clean water of the field list, as it was stated.
        #[getter]
        fn field_list<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "field_list"))
        }

        /// The sprayer's passes over the ground, as they were stated.
        #[getter]
        fn passes<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "passes"))
        }
    }

    /// Ground by its parts: field, buffers, overlap.
    ///
    /// Parameters
    /// ----------
    /// area : Area, optional
    ///     The field, buffers inside.
    /// length, width : Length, optional
    ///     The sides of a rectangular field, in place of its area.
    /// buffers : list of Buffer, optional
    ///     Ground at its edges that stays untreated.
    /// overlap : Overlap, optional
    ///     How much of the treated ground is sprayed twice.
    ///
    /// Examples
    /// --------
    /// >>> from mixcalc import Buffer, Ground
    /// >>> ground = Ground(length="240 m", width="100 m", buffers=[Buffer(width="5 m", along="240 m")])
    /// >>> ground.treated
    /// Area("2.28 ha")
    Ground, "(*, area=None, length=None, width=None, buffers=(), overlap=None)", &[], {
        /// The area of the field, where that was stated.
        #[getter]
        fn area(&self) -> Option<Quantity> {
            match self.core.measured_by() {
                Field::Area(area) => Some(self.told(area, "area")),
                _ => None,
            }
        }

        /// One side of the field, where that was stated.
        #[getter]
        fn length(&self) -> Option<Quantity> {
            match self.core.measured_by() {
                Field::Sides { length, .. } => Some(self.told(length, "length")),
                _ => None,
            }
        }

        /// The side across it, where that was stated.
        #[getter]
        fn width(&self) -> Option<Quantity> {
            match self.core.measured_by() {
                Field::Sides { width, .. } => Some(self.told(width, "width")),
                _ => None,
            }
        }

        /// Ground at its edges that stays untreated.
        #[getter]
        fn buffers<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
            let buffers = self.core.buffers().iter().zip(each_of(&self.node, "buffers"));
            let buffers: PyResult<Vec<_>> =
                buffers.map(|(core, node)| Py::new(py, Buffer { core: core.clone(), node: node.clone() })).collect();
            PyTuple::new(py, buffers?)
        }

        /// How much of the treated ground is sprayed twice.
        #[getter]
        fn overlap(&self) -> Option<Overlap> {
            self.core.overlap().map(|core| Overlap { core, node: within(&self.node, "overlap") })
        }

        /// Ground to be treated: field less buffers.
        #[getter]
        fn treated(&self) -> Quantity {
            self.core.treated().into()
        }

        /// Ground that is sprayed twice.
        #[getter]
        fn sprayed_twice(&self) -> Quantity {
            self.core.sprayed_twice().into()
        }
    }

    /// Ground at the edge of a field that stays untreated.
    ///
    /// Parameters
    /// ----------
    /// area : Area, optional
    ///     Its area, or else the two that follow.
    /// width : Length, optional
    ///     Distance to keep.
    /// along : Length, optional
    ///     Length of the edge that it runs along.
    /// edge_distance : Length, optional
    ///     Distance that is there already, from what is kept away from to the edge of the field.
    /// keeps_from : str, optional
    ///     What it keeps away from, such as a ditch.
    Buffer, "(*, area=None, width=None, along=None, edge_distance=None, keeps_from=None)", &[], {
        /// Its area, where that was stated.
        #[getter]
        fn area(&self) -> Option<Quantity> {
            match self.core.size() {
                BufferSize::Area(area) => Some(self.told(area, "area")),
                _ => None,
            }
        }

        /// Distance to keep.
        #[getter]
        fn width(&self) -> Option<Quantity> {
            match self.core.size() {
                BufferSize::Strip { width, .. } => Some(self.told(width, "width")),
                _ => None,
            }
        }

        /// Length of the edge that it runs along.
        #[getter]
        fn along(&self) -> Option<Quantity> {
            match self.core.size() {
                BufferSize::Strip { along, .. } => Some(self.told(along, "along")),
                _ => None,
            }
        }

        /// Distance that is there already.
        #[getter]
        fn edge_distance(&self) -> Option<Quantity> {
            match self.core.size() {
                BufferSize::Strip { edge_distance, .. } => Some(self.told(edge_distance, "edge_distance")),
                _ => None,
            }
        }

        /// What it keeps away from.
        #[getter]
        fn keeps_from(&self) -> Option<&str> {
            self.core.keeps_from()
        }
    }

    /// How much of the treated ground is sprayed twice: a share, or passes that overlap.
    ///
    /// Parameters
    /// ----------
    /// share : float or str, optional
    ///     Part of the ground: 0.05 or "5 %".
    /// width, swath : Length, optional
    ///     Width that two passes share, and treated width per pass.
    Overlap, "(*, share=None, width=None, swath=None)", &[], {
        /// Part of the treated ground that is sprayed twice.
        #[getter]
        fn share(&self) -> Quantity {
            self.told(self.core.share(), "share")
        }

        /// Width that two passes share, where that was stated.
        #[getter]
        fn width(&self) -> Option<Quantity> {
            match self.core {
                mixcalc::Overlap::Passes { width, .. } => Some(self.told(width, "width")),
                _ => None,
            }
        }

        /// Treated width per pass, where that was stated.
        #[getter]
        fn swath(&self) -> Option<Quantity> {
            match self.core {
                mixcalc::Overlap::Passes { swath, .. } => Some(self.told(swath, "swath")),
                _ => None,
            }
        }
    }

    /// The crop's geometry, as far as doses and rates are counted on it.
    ///
    /// Parameters
    /// ----------
    /// row_spacing, plant_spacing : Length, optional
    ///     Distance from row to row, and from plant to plant along a row.
    /// canopy_height, canopy_width : Length, optional
    ///     Of the canopy that is treated: from its lowest leaves to its highest, and across the row.
    /// band_width : Length, optional
    ///     Width of the band that is treated along each row.
    /// treated_sides : {"one", "both"}, optional
    ///     Which sides of a row the spray reaches; needed wherever a canopy is counted.
    /// treated_rows : {"every", "alternate"}, optional
    ///     Which rows are treated; every row where absent.
    /// plants, spots : int, optional
    ///     How many of the job are treated.
    /// spot_area : Area, optional
    ///     Ground that a spot takes.
    ///
    /// Examples
    /// --------
    /// >>> from mixcalc import Crop
    /// >>> Crop(row_spacing="2 m", canopy_height="1.2 m", treated_sides="both").treated_sides
    /// 'both'
    Crop,
    "(*, row_spacing=None, plant_spacing=None, canopy_height=None, canopy_width=None, band_width=None, treated_sides=None, treated_rows=None, plants=None, spots=None, spot_area=None)",
    &[],
    {
        /// Distance from row to row.
        #[getter]
        fn row_spacing(&self) -> Option<Quantity> {
            self.core.row_spacing().map(|length| self.told(length, "row_spacing"))
        }

        /// Distance from plant to plant along a row.
        #[getter]
        fn plant_spacing(&self) -> Option<Quantity> {
            self.core.plant_spacing().map(|length| self.told(length, "plant_spacing"))
        }

        /// Height of the canopy that is treated, from its lowest leaves to its highest.
        #[getter]
        fn canopy_height(&self) -> Option<Quantity> {
            self.core.canopy_height().map(|length| self.told(length, "canopy_height"))
        }

        /// Width of the canopy across the row.
        #[getter]
        fn canopy_width(&self) -> Option<Quantity> {
            self.core.canopy_width().map(|length| self.told(length, "canopy_width"))
        }

        /// Width of the band that is treated along each row.
        #[getter]
        fn band_width(&self) -> Option<Quantity> {
            self.core.band_width().map(|length| self.told(length, "band_width"))
        }

        /// Which sides of a row the spray reaches: "one" or "both".
        #[getter]
        fn treated_sides(&self) -> Option<&'static str> {
            self.core.treated_sides().map(mixcalc::Sides::name)
        }

        /// Which rows are treated: "every" or "alternate".
        #[getter]
        fn treated_rows(&self) -> &'static str {
            self.core.treated_rows().name()
        }

        /// How many plants of the job are treated.
        #[getter]
        fn plants(&self) -> Option<u64> {
            self.core.plants()
        }

        /// How many spots of the job are treated.
        #[getter]
        fn spots(&self) -> Option<u64> {
            self.core.spots()
        }

        /// Ground that a spot takes.
        #[getter]
        fn spot_area(&self) -> Option<Quantity> {
            self.core.spot_area().map(|area| self.told(area, "spot_area"))
        }
    }

    /// What a label says that one tank serves: so much mix for so much ground.
    ///
    /// Parameters
    /// ----------
    /// mix : Volume
    ///     The finished mix.
    /// area : Area
    ///     The ground that it serves.
    LabelTank, "(*, mix, area)", &[], {
        /// The finished mix.
        #[getter]
        fn mix(&self) -> Quantity {
            self.told(self.core.mix(), "mix")
        }

        /// The ground that it serves.
        #[getter]
        fn area(&self) -> Quantity {
            self.told(self.core.area(), "area")
        }

        /// The volume rate that this comes to.
        #[getter]
        fn volume_rate(&self) -> Quantity {
            self.core.volume_rate().into()
        }
    }

    /// A product at its dose.
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     Unique in the job.
    /// dose : Quantity
    ///     Per ground area, "2.5 L/ha" or "400 g/ha"; per volume of mix, "0.25 % v/v" or "150 mL/100 L".
    /// dose_of : str, optional
    ///     The active substance that the dose is stated as, by its own name or by that of the acid or element that it is counted as. The
    ///     product then has the dose of its own that this comes to.
    /// basis : str, optional
    ///     What the dose is counted on: ground-area, mix-volume, carrier-volume, treated-area, leaf-wall-area, tree-row-volume,
    ///     crown-height, row-length, plant or spot; follows the dose where absent.
    /// formulation : str, optional
    ///     Two-letter international code, such as "SC".
    /// density, particle_density, bulk_density : Density, ParticleDensity, BulkDensity, optional
    ///     Of the liquid product; of a dry product's particles, what it displaces; of its heap, what a vessel of it weighs.
    /// viscous : bool, optional
    ///     Whether it does not run out of a measure by itself.
    /// stock : Volume or Mass, optional
    ///     How much of it there is: a volume where the dose is by volume, a mass where it is by mass.
    /// active_substances : list of ActiveSubstance, optional
    ///     What acts in it.
    /// label : Label, optional
    ///     What the label limits; without one the dose is its own maximum.
    /// measure : Measure, optional
    ///     One measure for this product, overriding the list of the job.
    /// role : str, optional
    ///     What it is in the tank for: "product", "water-conditioner", "buffer", "anti-foam", "compatibility-agent", "surfactant", "oil",
    ///     "drift-agent" or "foliar-nutrient".
    /// at_least : LiquidDose or SolidDose, optional
    ///     The least dose per ground area beside a dose per volume of mix: the greater holds.
    /// containers : dict, optional
    ///     What it is sold in, with the keys of documents: content, full, part, rinse.
    ///
    /// Examples
    /// --------
    /// >>> from mixcalc import Label, Product
    /// >>> product = Product(name="example product A", dose="1.5 L/ha", label=Label(max_dose="2 L/ha"))
    /// >>> product.dose, product.basis
    /// (LiquidDose("1.5 L/ha"), 'ground-area')
    Product,
    "(*, name, dose, dose_of=None, basis=None, formulation=None, density=None, particle_density=None, bulk_density=None, viscous=False, stock=None, active_substances=(), label=None, measure=None, role='product', at_least=None, containers=None)",
    &[],
    {
        /// Unique in the job.
        #[getter]
        fn name(&self) -> &str {
            self.core.name()
        }

        /// Two-letter international code.
        #[getter]
        fn formulation(&self) -> Option<&str> {
            self.core.formulation().map(mixcalc::Formulation::code)
        }

        /// What it is in the tank for.
        #[getter]
        fn role(&self) -> &'static str {
            self.core.role().name()
        }

        /// The least dose per ground area beside the dose.
        #[getter]
        fn at_least(&self) -> Option<Quantity> {
            self.core.at_least().map(|dose| self.told(dose, "at_least"))
        }

        /// The dose.
        #[getter]
        fn dose(&self) -> Quantity {
            self.told(self.core.dose(), "dose")
        }

        /// `None`: a dose that was stated as an active substance has become the product's.
        #[getter]
        fn dose_of(&self) -> Option<&str> {
            None
        }

        /// What the dose is counted on.
        #[getter]
        fn basis(&self) -> &'static str {
            self.core.dose().basis().name()
        }

        /// Density of the liquid product.
        #[getter]
        fn density(&self) -> Option<Quantity> {
            self.core.density().map(|density| self.told(density, "density"))
        }

        /// Density of a dry product's particles.
        #[getter]
        fn particle_density(&self) -> Option<Quantity> {
            self.core.particle_density().map(|density| self.told(density, "particle_density"))
        }

        /// Density of a dry product's heap.
        #[getter]
        fn bulk_density(&self) -> Option<Quantity> {
            self.core.bulk_density().map(|density| self.told(density, "bulk_density"))
        }

        /// Whether it does not run out of a measure by itself.
        #[getter]
        fn viscous(&self) -> bool {
            self.core.is_marked_viscous()
        }

        /// How much of it there is.
        #[getter]
        fn stock(&self) -> Option<Quantity> {
            self.core.stock().map(|stock| self.told(stock, "stock"))
        }

        /// What it is sold in, as it was stated.
        #[getter]
        fn containers<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "containers"))
        }

        /// What acts in it.
        #[getter]
        fn active_substances<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
            let substances = self.core.active_substances().iter().zip(each_of(&self.node, "active_substances"));
            let substances: PyResult<Vec<_>> = substances
                .map(|(core, node)| Py::new(py, ActiveSubstance { core: core.clone(), node: node.clone() }))
                .collect();
            PyTuple::new(py, substances?)
        }

        /// What the label limits, where that was stated.
        #[getter]
        fn label(&self) -> Option<Label> {
            let node = at(&self.node, "label").filter(|node| **node != Node::Null)?;
            Some(Label { core: self.core.label().clone(), node: node.clone() })
        }

        /// The measure of this product alone.
        #[getter]
        fn measure(&self) -> Option<Measure> {
            let core = self.core.measure()?.clone();
            Some(Measure { core, node: within(&self.node, "measure") })
        }
    }

    /// An active substance and its content.
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     Its name.
    /// content : Content or MassFraction
    ///     "250 g/L" or "50 % w/w" of the product.
    /// equivalent : Equivalent, optional
    ///     The acid or element that it is counted as.
    ActiveSubstance, "(*, name, content, equivalent=None)", &[], {
        /// Its name.
        #[getter]
        fn name(&self) -> &str {
            self.core.name()
        }

        /// Mass per volume or per mass of product.
        #[getter]
        fn content(&self) -> Option<Quantity> {
            match self.core.content() {
                SubstanceContent::PerVolume(content) => Some(self.told(content, "content")),
                SubstanceContent::PerMass(content) => Some(self.told(content, "content")),
                _ => None,
            }
        }

        /// The acid or element that it is counted as.
        #[getter]
        fn equivalent(&self) -> Option<Equivalent> {
            let core = self.core.equivalent()?.clone();
            Some(Equivalent { core, node: within(&self.node, "equivalent") })
        }
    }

    /// The acid or element that a substance is counted as.
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     The name under which amounts are summed.
    /// factor : float
    ///     Mass of it per mass of the substance as stated, above 0 and at most 1.
    Equivalent, "(*, name, factor)", &[], {
        /// The name under which amounts are summed.
        #[getter]
        fn name(&self) -> &str {
            self.core.name()
        }

        /// Mass of it per mass of the substance as stated.
        #[getter]
        fn factor(&self) -> Quantity {
            self.told(self.core.factor(), "factor")
        }
    }

    /// What a label limits.
    ///
    /// Parameters
    /// ----------
    /// min_dose : Quantity, optional
    ///     The least dose of the label's range: a lower one is cautioned.
    /// min_dose_basis : str, optional
    ///     What it is counted on; follows it where absent.
    /// max_dose : Quantity, optional
    ///     The largest dose; the dose itself where absent.
    /// max_dose_basis : str, optional
    ///     What it is counted on, as the basis of a product; follows it where absent.
    /// max_ground_dose : LiquidDose or SolidDose, optional
    ///     The largest dose per ground area, which holds beside one on another basis.
    /// max_concentration : VolumeFraction or MassConcentration, optional
    ///     The largest concentration in the finished mix, which holds beside a largest dose on another basis.
    /// tank : LabelTank, optional
    ///     What the label says that one tank serves, where it doses by the tank.
    /// min_volume_rate, max_volume_rate : VolumeRate, optional
    ///     The range of volume rates.
    /// volume_rate_basis : {"ground-area", "treated-area", "leaf-wall-area"}, optional
    ///     What the volume rates are counted on; ground area where absent.
    /// first_carrier : float or str, optional
    ///     Share of the load that the label wants in the tank first: 0.5 or "50 %".
    /// source : str, optional
    ///     Where these limits stand.
    /// max_treatments, min_growth_stage, max_growth_stage : dict, optional
    ///     ``{"value": 2, "force": "label", "source": "section 5"}``; force and source may be left out.
    /// min_interval, waiting_period, re_entry, min_temperature, max_temperature, min_delta_t, max_delta_t : dict, optional
    ///     The same with a quantity: ``{"value": "14 d"}``.
    /// min_wind, max_wind : dict, optional
    ///     The same with the height that it is meant at: ``{"value": "15 km/h", "height": "2 m"}``.
    /// caps : list of dict, optional
    ///     ``{"substance": "copper", "value": "28 kg/ha", "over": {"years": 7}}``; the product itself without a substance.
    /// buffers : list of dict, optional
    ///     ``{"from": "water", "value": "5 m"}``.
    /// wait : Time, optional
    ///     How long to wait after the product, before the next one.
    /// ammonium_sulfate : MassConcentration, optional
    ///     Ammonium sulfate that it asks for in the mix; 0 g/L where it asks for what the water needs.
    /// order : LabelOrder, optional
    ///     The place in the mixing order; it wins over every profile.
    /// protection : dict, optional
    ///     What it asks to be worn, in its words: ``{"mixing": ["gloves", "face shield"], "spraying": ["gloves"]}``.
    Label,
    "(*, min_dose=None, min_dose_basis=None, max_dose=None, max_dose_basis=None, max_ground_dose=None, max_concentration=None, tank=None, min_volume_rate=None, max_volume_rate=None, volume_rate_basis=None, first_carrier=None, source=None, max_treatments=None, min_interval=None, waiting_period=None, min_growth_stage=None, max_growth_stage=None, re_entry=None, min_wind=None, max_wind=None, min_temperature=None, max_temperature=None, min_delta_t=None, max_delta_t=None, caps=(), buffers=(), wait=None, order=None, ammonium_sulfate=None, protection=None)",

    &[],
    {
        /// The least dose.
        #[getter]
        fn min_dose(&self) -> Option<Quantity> {
            self.core.min_dose().map(|dose| self.told(dose, "min_dose"))
        }

        /// What the least dose is counted on.
        #[getter]
        fn min_dose_basis(&self) -> Option<&'static str> {
            self.core.min_dose().map(|dose| dose.basis().name())
        }

        /// The largest dose.
        #[getter]
        fn max_dose(&self) -> Option<Quantity> {
            self.core.max_dose().map(|dose| self.told(dose, "max_dose"))
        }

        /// What the largest dose is counted on.
        #[getter]
        fn max_dose_basis(&self) -> Option<&'static str> {
            self.core.max_dose().map(|dose| dose.basis().name())
        }

        /// The largest dose per ground area.
        #[getter]
        fn max_ground_dose(&self) -> Option<Quantity> {
            self.core.max_ground_dose().map(|dose| self.told(dose, "max_ground_dose"))
        }

        /// The largest concentration in the finished mix.
        #[getter]
        fn max_concentration(&self) -> Option<Quantity> {
            self.core.max_concentration().map(|dose| self.told(dose, "max_concentration"))
        }

        /// What the label says that one tank serves.
        #[getter]
        fn tank(&self) -> Option<LabelTank> {
            self.core.tank().map(|core| LabelTank { core, node: within(&self.node, "tank") })
        }

        /// What the volume rates are counted on, where that was stated.
        #[getter]
        fn volume_rate_basis(&self) -> Option<&'static str> {
            self.core.volume_rate_basis().map(mixcalc::Basis::name)
        }

        /// The least volume rate.
        #[getter]
        fn min_volume_rate(&self) -> Option<Quantity> {
            self.core.min_volume_rate().map(|rate| self.told(rate, "min_volume_rate"))
        }

        /// The largest volume rate.
        #[getter]
        fn max_volume_rate(&self) -> Option<Quantity> {
            self.core.max_volume_rate().map(|rate| self.told(rate, "max_volume_rate"))
        }

        /// Share of the load that goes into the tank first.
        #[getter]
        fn first_carrier(&self) -> Option<Quantity> {
            self.core.first_carrier().map(|share| self.told(share, "first_carrier"))
        }

        /// Where these limits stand.
        #[getter]
        fn source(&self) -> Option<&str> {
            self.core.source()
        }

        /// Most treatments with the product in a season, as it was stated.
        #[getter]
        fn max_treatments<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "max_treatments"))
        }

        /// Least time between treatments with the product, as it was stated.
        #[getter]
        fn min_interval<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "min_interval"))
        }

        /// Least time before the harvest, as it was stated.
        #[getter]
        fn waiting_period<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "waiting_period"))
        }

        /// Earliest growth stage, as it was stated.
        #[getter]
        fn min_growth_stage<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "min_growth_stage"))
        }

        /// Latest growth stage, as it was stated.
        #[getter]
        fn max_growth_stage<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "max_growth_stage"))
        }

        /// Time before anybody may enter, as it was stated.
        #[getter]
        fn re_entry<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "re_entry"))
        }

        /// Least wind, as it was stated.
        #[getter]
        fn min_wind<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "min_wind"))
        }

        /// Most wind, as it was stated.
        #[getter]
        fn max_wind<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "max_wind"))
        }

        /// Least temperature, as it was stated.
        #[getter]
        fn min_temperature<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "min_temperature"))
        }

        /// Largest temperature, as it was stated.
        #[getter]
        fn max_temperature<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "max_temperature"))
        }

        /// Least difference between the dry and the wet bulb, as it was stated.
        #[getter]
        fn min_delta_t<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "min_delta_t"))
        }

        /// Largest difference between the dry and the wet bulb, as it was stated.
        #[getter]
        fn max_delta_t<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "max_delta_t"))
        }

        /// The most of the product or of a substance in windows of time, as it was stated.
        #[getter]
        fn caps<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "caps"))
        }

        /// Ground not to be treated, as it was stated.
        #[getter]
        fn buffers<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "buffers"))
        }

        /// What it asks to be worn, as it was stated.
        #[getter]
        fn protection<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "protection"))
        }

        /// Ammonium sulfate that it asks for in the mix.
        #[getter]
        fn ammonium_sulfate(&self) -> Option<Quantity> {
            self.core.ammonium_sulfate().map(|rate| self.told(rate, "ammonium_sulfate"))
        }

        /// How long to wait after the product.
        #[getter]
        fn wait(&self) -> Option<Quantity> {
            self.core.wait().map(|time| self.told(time, "wait"))
        }

        /// The place in the mixing order.
        #[getter]
        fn order(&self) -> Option<LabelOrder> {
            self.core.order().map(|core| LabelOrder { core: core.clone(), node: within(&self.node, "order") })
        }
    }

    /// What limits over time are held against.
    ///
    /// Parameters
    /// ----------
    /// date : datetime.date or str, optional
    ///     When the treatment is planned.
    /// harvest : datetime.date or str, optional
    ///     When the harvest is.
    /// growth_stage : int, optional
    ///     The growth stage of the crop: BBCH, 0 to 99.
    /// season_start : datetime.date or str, optional
    ///     When the season began: limits on treatments and caps of a season need it.
    /// parcels : list of Parcel, optional
    ///     Parts of the ground that have histories of their own.
    /// treatments : list of Treatment, optional
    ///     Treatments that were recorded, in any order.
    Season, "(*, date=None, harvest=None, growth_stage=None, season_start=None, parcels=(), treatments=())", &[], {
        /// When the treatment is planned.
        #[getter]
        fn date<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
            self.core.date().map(|date| day(py, date)).transpose()
        }

        /// When the harvest is.
        #[getter]
        fn harvest<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
            self.core.harvest().map(|date| day(py, date)).transpose()
        }

        /// The growth stage of the crop.
        #[getter]
        fn growth_stage(&self) -> Option<u8> {
            self.core.growth_stage()
        }

        /// When the season began.
        #[getter]
        fn season_start<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
            self.core.season_start().map(|date| day(py, date)).transpose()
        }

        /// Parts of the ground that have histories of their own.
        #[getter]
        fn parcels<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
            let nodes = each_of(&self.node, "parcels");
            let parcels = self.core.parcels().iter().cloned().zip(nodes.iter().cloned());
            PyTuple::new(py, parcels.map(|(core, node)| Parcel { core, node }).collect::<Vec<_>>())
        }

        /// Treatments that were recorded.
        #[getter]
        fn treatments<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
            let nodes = each_of(&self.node, "treatments");
            let treatments = self.core.treatments().iter().cloned().zip(nodes.iter().cloned());
            PyTuple::new(py, treatments.map(|(core, node)| Treatment { core, node }).collect::<Vec<_>>())
        }
    }

    /// Ground with a history of its own.
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     Unique in the season.
    /// area : Area, optional
    ///     How large it is.
    Parcel, "(*, name, area=None)", &[], {
        /// Unique in the season.
        #[getter]
        fn name(&self) -> &str {
            self.core.name()
        }

        /// How large it is.
        #[getter]
        fn area(&self) -> Option<Quantity> {
            self.core.area().map(|area| self.told(area, "area"))
        }
    }

    /// A treatment that was recorded: a product of the job with its dose, or the substances that any other product brought out.
    ///
    /// Parameters
    /// ----------
    /// date : datetime.date or str
    ///     When.
    /// product : str, optional
    ///     A product of the job, with
    /// dose : LiquidDose or SolidDose, optional
    ///     its dose per area of the ground that was treated.
    /// substances : list of dict, optional
    ///     ``{"name": "copper", "dose": "2 kg/ha"}``: the mass of each per area of the ground that was treated.
    /// parcel : str, optional
    ///     The parcel that it was on; all of them where absent.
    /// treated_share : float or str, optional
    ///     The share of the ground that was treated, such as 0.5 or "50 %"; all of it where absent.
    Treatment, "(*, date, product=None, dose=None, substances=(), parcel=None, treated_share=None)", &[], {
        /// The day on which it was done.
        #[getter]
        fn date<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            day(py, self.core.date())
        }

        /// The product of the job.
        #[getter]
        fn product(&self) -> Option<&str> {
            match self.core.applied() {
                Applied::Product(name, _) => Some(name),
                _ => None,
            }
        }

        /// Its dose.
        #[getter]
        fn dose(&self) -> Option<Quantity> {
            match self.core.applied() {
                Applied::Product(_, dose) => Some(self.told(*dose, "dose")),
                _ => None,
            }
        }

        /// The substances, as they were stated.
        #[getter]
        fn substances<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, Some(&Node::List(each_of(&self.node, "substances").to_vec())))
        }

        /// The parcel that it was on.
        #[getter]
        fn parcel(&self) -> Option<&str> {
            self.core.parcel()
        }

        /// The share of the ground that was treated.
        #[getter]
        fn treated_share(&self) -> Quantity {
            self.told(self.core.treated_share(), "treated_share")
        }
    }

    /// A vessel, scale or counted pack that amounts are measured with.
    ///
    /// Parameters
    /// ----------
    /// kind : {"vessel", "scale", "pack"}
    ///     What it is. A pack is the measure of one product and cannot be divided.
    /// capacity : Volume or Mass, optional
    ///     The most it holds or weighs; a pack has none.
    /// graduation : Volume or Mass
    ///     The smallest step it shows; the content of a pack.
    /// name : str, optional
    ///     Unique among the measures.
    /// marked_in : str, optional
    ///     The unit on its scale, which the sheet speaks; follows the graduation where absent.
    /// class_ : str, optional
    ///     What sort it is, which says how far it may be off: cylinder-a, cylinder-b, plastic-cylinder, flask, jug, unchecked-jug, syringe, cup,
    ///     cap, powder-cup or scale.
    /// tolerance : Volume, Mass or Ratio, optional
    ///     How far it may be off, in place of its class: in each filling, or as a part of what is read.
    ///
    /// Examples
    /// --------
    /// >>> import mixcalc
    /// >>> mixcalc.Measure(kind="vessel", capacity="100 mL", graduation="1 mL", class_="cylinder-b").class_
    /// 'cylinder-b'
    Measure, "(*, kind, graduation, capacity=None, name=None, marked_in=None, class_=None, tolerance=None)", &[], {
        /// Its name; made from what it is where none was given.
        #[getter]
        fn name(&self) -> &str {
            self.core.name()
        }

        /// What it is: "vessel", "scale" or "pack".
        #[getter]
        fn kind(&self) -> &'static str {
            self.core.kind().name()
        }

        /// The most it holds or weighs.
        #[getter]
        fn capacity(&self) -> Quantity {
            self.told(self.core.capacity(), "capacity")
        }

        /// The smallest step it shows.
        #[getter]
        fn graduation(&self) -> Quantity {
            self.told(self.core.graduation(), "graduation")
        }

        /// The unit on its scale.
        #[getter]
        fn marked_in(&self) -> &str {
            self.core.unit()
        }

        /// What sort it is, where that is stated.
        #[getter]
        fn class_(&self) -> Option<&'static str> {
            self.core.class().map(mixcalc::MeasureClass::name)
        }

        /// How far it may be off, where that is stated by itself.
        #[getter]
        fn tolerance(&self) -> Option<Quantity> {
            self.core.tolerance().map(|tolerance| self.told(tolerance, "tolerance"))
        }
    }

    /// A sprayer without its tank.
    ///
    /// Parameters
    /// ----------
    /// kind : {"hand-held", "knapsack", "boom", "bush-and-tree", "semi-mobile"}
    ///     Its kind.
    /// residual : Residual, optional
    ///     What stays in it after spraying out.
    /// empty_mass, carried_mass_limit : Mass, optional
    ///     Its mass when empty, and the limit when filled.
    Sprayer, "(*, kind, residual=None, empty_mass=None, carried_mass_limit=None)", &[], {
        /// Its kind.
        #[getter]
        fn kind(&self) -> &'static str {
            self.core.kind().name()
        }

        /// What stays in it after spraying out.
        #[getter]
        fn residual(&self) -> Option<Residual> {
            self.core.residual().map(|core| Residual { core, node: within(&self.node, "residual") })
        }

        /// Its mass when empty.
        #[getter]
        fn empty_mass(&self) -> Option<Quantity> {
            self.core.empty_mass().map(|mass| self.told(mass, "empty_mass"))
        }

        /// Limit of its mass when filled.
        #[getter]
        fn carried_mass_limit(&self) -> Option<Quantity> {
            self.core.carried_mass_limit().map(|mass| self.told(mass, "carried_mass_limit"))
        }
    }

    /// What stays in a sprayer after spraying out.
    ///
    /// Parameters
    /// ----------
    /// dilutable, non_dilutable : Volume, optional
    ///     The part that mixes with rinse water, and the part that rinsing does not reach.
    Residual, "(*, dilutable=None, non_dilutable=None)", &[], {
        /// The part that mixes with rinse water.
        #[getter]
        fn dilutable(&self) -> Quantity {
            self.told(self.core.dilutable(), "dilutable")
        }

        /// The part that rinsing does not reach.
        #[getter]
        fn non_dilutable(&self) -> Quantity {
            self.told(self.core.non_dilutable(), "non_dilutable")
        }
    }

    /// A tank. `nominal`, `brim` or both are given.
    ///
    /// Parameters
    /// ----------
    /// nominal : Volume, optional
    ///     The filling that the maker declares for use.
    /// brim : Volume, optional
    ///     What it holds when full to the rim.
    /// headspace : float or str, optional
    ///     Part of the brim capacity to leave empty: 0.1 or "10 %".
    /// graduation : Volume, optional
    ///     The step of the tank's own marks.
    /// least_working_volume : Volume, optional
    ///     The least volume that the sprayer works with.
    /// marked_in : str, optional
    ///     The unit on the tank's scale; follows the graduation where absent.
    /// scale_check : dict, optional
    ///     What a check of its scale found, with the keys of documents: ``{"points": [{"poured": "16 L", "read": "15 L"}], "tolerance": "1 %"}``.
    Tank,
    "(*, nominal=None, brim=None, headspace=None, graduation=None, least_working_volume=None, marked_in=None, scale_check=None)",
    &[],
    {
        /// The filling that the maker declares for use.
        #[getter]
        fn nominal(&self) -> Option<Quantity> {
            self.core.nominal().map(|volume| self.told(volume, "nominal"))
        }

        /// What it holds when full to the rim.
        #[getter]
        fn brim(&self) -> Option<Quantity> {
            self.core.brim().map(|volume| self.told(volume, "brim"))
        }

        /// Part of the brim capacity to leave empty.
        #[getter]
        fn headspace(&self) -> Option<Quantity> {
            self.core.headspace().map(|share| self.told(share, "headspace"))
        }

        /// The step of the tank's own marks.
        #[getter]
        fn graduation(&self) -> Option<Quantity> {
            self.core.graduation().map(|volume| self.told(volume, "graduation"))
        }

        /// The least volume that the sprayer works with.
        #[getter]
        fn least_working_volume(&self) -> Option<Quantity> {
            self.core.least_working_volume().map(|volume| self.told(volume, "least_working_volume"))
        }

        /// The unit on the tank's scale.
        #[getter]
        fn marked_in(&self) -> Option<&str> {
            self.core.unit()
        }

        /// The check of its scale, as it was stated.
        #[getter]
        fn scale_check<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
            stated(py, at(&self.node, "scale_check"))
        }
    }

    /// How the mix is divided into loads.
    ///
    /// Parameters
    /// ----------
    /// split : {"full-then-part", "even"}, optional
    ///     Full loads and one part load, or as few equal loads as fit.
    /// last_strip : LastStrip, optional
    ///     Ground left untreated on purpose, to take the diluted rinse water.
    /// max_fillings : int, optional
    ///     Fillings of a measure for one amount before a caution.
    Loading, "(*, split='full-then-part', last_strip=None, max_fillings=2)", &[], {
        /// The way of dividing: "full-then-part" or "even".
        #[getter]
        fn split(&self) -> &'static str {
            self.core.split().name()
        }

        /// Ground left for the rinse water.
        #[getter]
        fn last_strip(&self) -> Option<LastStrip> {
            self.core.last_strip().map(|core| LastStrip { core, node: within(&self.node, "last_strip") })
        }

        /// Fillings of a measure for one amount before a caution.
        #[getter]
        fn max_fillings(&self) -> u64 {
            self.core.max_fillings()
        }
    }

    /// How the products are mixed.
    ///
    /// Parameters
    /// ----------
    /// profile : {"suggested", "manitoba", "south-dakota", "wales", "utah", "seed-trade"}, optional
    ///     The published order that they go by.
    /// jar_test : Volume, optional
    ///     How much mix to try in a jar first.
    Mixing, "(*, profile='suggested', jar_test=None)", &[], {
        /// The published order.
        #[getter]
        fn profile(&self) -> &'static str {
            self.core.profile().name()
        }

        /// How much mix to try in a jar first.
        #[getter]
        fn jar_test(&self) -> Option<Quantity> {
            self.core.jar_test().map(|volume| self.told(volume, "jar_test"))
        }
    }

    /// What a label says of a product's place in the mixing order.
    ///
    /// Parameters
    /// ----------
    /// step : {"first", "last"}, optional
    ///     At which end.
    /// before, after : list of str, optional
    ///     Names of the products that it goes in before, and after.
    LabelOrder, "(*, step=None, before=(), after=())", &[], {
        /// At which end.
        #[getter]
        fn step(&self) -> Option<&'static str> {
            self.core.step().map(mixcalc::OrderStep::name)
        }

        /// Names of the products that it goes in before.
        #[getter]
        fn before<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
            PyTuple::new(py, self.core.before().collect::<Vec<_>>())
        }

        /// Names of the products that it goes in after.
        #[getter]
        fn after<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
            PyTuple::new(py, self.core.after().collect::<Vec<_>>())
        }
    }

    /// Ground left untreated on purpose, to take the diluted rinse water. One of the two is given.
    ///
    /// Parameters
    /// ----------
    /// area : Area, optional
    ///     So much ground.
    /// volume : Volume, optional
    ///     So much mix held back.
    LastStrip, "(*, area=None, volume=None)", &[], {
        /// So much ground.
        #[getter]
        fn area(&self) -> Option<Quantity> {
            match self.core {
                CoreStrip::Area(area) => Some(self.told(area, "area")),
                _ => None,
            }
        }

        /// So much mix held back.
        #[getter]
        fn volume(&self) -> Option<Quantity> {
            match self.core {
                CoreStrip::Volume(volume) => Some(self.told(volume, "volume")),
                _ => None,
            }
        }
    }
}
