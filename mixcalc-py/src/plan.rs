//! A plan as a Python object, and what it holds as the named tuples of `mixcalc.plans`.

use mixcalc::document;
use mixcalc::{Action, Fillings, Measure, Recipe, Worked};
use pyo3::call::PyCallArgs;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyMapping, PyTuple};

use crate::border;
use crate::calibration::Calibration;
use crate::part::Job;
use crate::quantity::{Quantity, quantity_of};
use crate::uncertain::interval;

/// A job worked out: loads that never pass the safe fill, recipes in whole graduations, steps, a ledger that closes, findings.
///
/// `plan` makes it. Where a finding of severity "stop" stands, `usable` is false: totals and findings can be studied, but nothing
/// is measured, there are no steps and no ledger, and `sheet` raises an error that says why.
///
/// `print(plan)` shows the load sheet, or the findings of a stopped plan; a notebook shows a summary.
///
/// Examples
/// --------
/// >>> import mixcalc
/// >>> plan = mixcalc.plan({
/// ...     "format": "mixcalc-job/1", "area": "2 ha", "volume_rate": "150 L/ha",
/// ...     "sprayer": {"kind": "boom"}, "tank": {"nominal": "100 L", "brim": "110 L"},
/// ...     "measures": [{"kind": "vessel", "capacity": "1 L", "graduation": "10 mL"}],
/// ...     "products": [{"name": "example product A", "dose": "1.5 L/ha"}],
/// ... })
/// >>> plan.usable, plan.totals.loads
/// (True, 3)
/// >>> load, = plan.loads
/// >>> load.mix, load.carrier, load.products[0].measured
/// (Volume("100 L"), Volume("99 L"), Volume("1 L"))
#[pyclass(frozen, module = "mixcalc")]
pub(crate) struct Plan {
    core: mixcalc::Plan,
    job: Py<Job>,
    loads: PyOnceLock<Py<PyTuple>>,
}

/// Works out a job: the loads, what goes into each, and in which steps.
///
/// Parameters
/// ----------
/// job : Job or dict
///     A dict has the keys of job documents; it may leave out ``format``.
///
/// Returns
/// -------
/// Plan
///     Also where it breaks a limit: then a finding says so, and a stop makes it not usable.
///
/// Raises
/// ------
/// InputError
///     Where there is no answer, such as products that fill the mix; with the path of the field.
///
/// Notes
/// -----
/// The formulas, each with its reason, are in docs/numbers.md. Other threads run meanwhile.
#[pyfunction]
#[pyo3(signature = (job, /))]
pub(crate) fn plan(job: &Bound<'_, PyAny>) -> PyResult<Plan> {
    let py = job.py();
    let job = match job.cast::<Job>() {
        Ok(job) => job.clone().unbind(),
        Err(_) => match job.cast::<PyMapping>() {
            Ok(table) => Py::new(py, Job::from_dict(py, table)?)?,
            Err(_) => {
                let given = job.get_type().name()?;
                let hint = "read text with Job.from_json and a file with Job.read";
                return Err(PyTypeError::new_err(format!("a plan is made of a Job or a dict, not {given}; {hint}")));
            }
        },
    };
    let core = &job.get().core;
    let core = border::answer(py, || mixcalc::plan(core))?;
    Ok(Plan { core, job, loads: PyOnceLock::new() })
}

/// A named tuple of `mixcalc.plans`.
fn shape<'py>(py: Python<'py>, name: &str, fields: impl PyCallArgs<'py>) -> PyResult<Py<PyAny>> {
    static MODULE: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    let module = MODULE.get_or_try_init(py, || Ok::<_, PyErr>(py.import("mixcalc.plans")?.into_any().unbind()))?;
    Ok(module.bind(py).getattr(name)?.call1(fields)?.unbind())
}

/// Many of them.
pub(crate) fn each<'py, T>(
    py: Python<'py>,
    items: impl Iterator<Item = T>,
    made: impl Fn(Python<'py>, T) -> PyResult<Py<PyAny>>,
) -> PyResult<Py<PyTuple>> {
    let items: PyResult<Vec<_>> = items.map(|item| made(py, item)).collect();
    Ok(PyTuple::new(py, items?)?.unbind())
}

pub(crate) fn quantity(value: impl Into<mixcalc::Quantity>) -> Quantity {
    value.into().into()
}

fn gap(py: Python<'_>, gap: mixcalc::Ratio, dose: mixcalc::Quantity) -> PyResult<Py<PyAny>> {
    shape(py, "Gap", (gap.percent(), quantity(dose)))
}

fn span<'py, Q, T: IntoPyObject<'py>>(
    py: Python<'py>,
    span: mixcalc::Span<Q>,
    told: impl Fn(Q) -> T,
) -> PyResult<Py<PyAny>> {
    shape(py, "Span", (told(span.value), span.low.map(&told), span.high.map(&told)))
}

fn run_out(py: Python<'_>, of: &mixcalc::RunOut) -> PyResult<Py<PyAny>> {
    let area = span(py, of.area(), quantity)?;
    let length = of.length().map(|length| span(py, length, quantity)).transpose()?;
    let passes = of.passes().map(|passes| span(py, passes, mixcalc::Ratio::number)).transpose()?;
    shape(py, "RunOut", (area, length, passes))
}

fn delivered_dose(py: Python<'_>, delivered: &mixcalc::DeliveredDose) -> PyResult<Py<PyAny>> {
    let dose = delivered.dose();
    let over = delivered.probability_over().map(mixcalc::Ratio::number);
    let interval = interval(py, &delivered.interval())?;
    let aim = delivered.aim().map(quantity);
    shape(py, "DeliveredDose", (quantity(dose.value()), quantity(dose.standard_uncertainty()), interval, over, aim))
}

/// An amount in the unit on the scale of its measure.
fn told_on(measure: &Measure, core: mixcalc::Quantity) -> Quantity {
    Quantity { core, unit: measure.unit().to_owned().into() }
}

fn filling(py: Python<'_>, measure: &Measure, (count, graduations): (u64, u64)) -> PyResult<Py<PyAny>> {
    shape(py, "Filling", (count, told_on(measure, quantity(measure.shows(graduations)).core)))
}

fn fillings(py: Python<'_>, measure: &Measure, fillings: Fillings) -> PyResult<Py<PyTuple>> {
    each(py, fillings.groups(), |py, group| filling(py, measure, group))
}

fn step(py: Python<'_>, recipe: &Recipe<'_>, step: mixcalc::Step) -> PyResult<Py<PyAny>> {
    let text = mixcalc::sheet::step(recipe, step);
    let in_tank = quantity(step.in_tank());
    let load = recipe.load().first();
    let amount = match step.action() {
        Action::Measure { product }
        | Action::Premix { product, .. }
        | Action::Rinse { product, .. }
        | Action::RinseContainers { product, .. }
        | Action::Wait { product, .. } => recipe.amount(product),
        _ => None,
    };
    let product = amount.as_ref().map(mixcalc::MeasuredAmount::name);
    let measure = amount.as_ref().map(mixcalc::MeasuredAmount::measure);
    let none = || PyTuple::empty(py).unbind();
    let (action, carrier, level, poured, times, each_rinse) = match step.action() {
        Action::Fill { carrier, level } => ("fill", Some(carrier), Some(level), none(), None, None),
        Action::TopUp { carrier, level } => ("top-up", Some(carrier), Some(level), none(), None, None),
        Action::Measure { .. } => {
            let poured = amount.as_ref().map(|amount| fillings(py, amount.measure(), amount.fillings())).transpose()?;
            ("measure", None, None, poured.unwrap_or_else(none), None, None)
        }
        Action::Premix { carrier, .. } => ("premix", Some(carrier), None, none(), None, None),
        Action::Rinse { times, each, .. } => ("rinse", None, None, none(), Some(times), Some(each)),
        Action::RinseContainers { times, each, .. } => {
            ("rinse-containers", None, None, none(), Some(times), Some(each))
        }
        Action::Wait { .. } => ("wait", None, None, none(), None, None),
        Action::StartAgitator => ("start-agitator", None, None, none(), None, None),
        _ => ("agitate", None, None, none(), None, None),
    };
    let measure = match step.action() {
        Action::Premix { .. } | Action::Wait { .. } | Action::RinseContainers { .. } => None,
        _ => measure.map(Measure::name),
    };
    let mark = level.and_then(mixcalc::Level::mark).map(quantity);
    let rest = level.and_then(mixcalc::Level::rest).map(quantity);
    let (carrier, each_rinse) = (carrier.map(quantity), each_rinse.map(quantity));
    let (least, most) = match step.action() {
        Action::Wait { least, most, .. } => (Some(quantity(least)), most.map(quantity)),
        _ => (None, None),
    };
    let containers = match step.action() {
        Action::RinseContainers { containers, .. } => Some(containers),
        _ => None,
    };
    // More fields than a tuple of Rust may have.
    let first = (load, action, text, in_tank, product, measure, poured).into_pyobject(py)?;
    let second = (carrier, mark, rest, times, each_rinse, least, most, containers).into_pyobject(py)?;
    shape(py, "Step", first.as_sequence().concat(second.as_sequence())?.to_tuple()?)
}

fn worked(py: Python<'_>, value: Worked) -> PyResult<Bound<'_, PyAny>> {
    match value {
        Worked::Quantity(value) => quantity(value).into_object(py),
        Worked::Count(count) => Ok(count.into_pyobject(py)?.into_any()),
        _ => Ok(py.None().into_bound(py)),
    }
}

pub(crate) fn working(py: Python<'_>, working: &mixcalc::Working, units: mixcalc::System) -> PyResult<Py<PyAny>> {
    let inputs = each(py, working.inputs().iter(), |py, input| {
        shape(py, "Input", (input.symbol(), input.place(), worked(py, input.value())?))
    })?;
    let value = worked(py, working.value())?;
    shape(py, "Working", (working.place(), value, working.formula(), inputs, working.source(), working.text(units)))
}

fn largest_dose(py: Python<'_>, largest: &mixcalc::LargestDose) -> PyResult<Py<PyAny>> {
    let (dose, limit) = (quantity(largest.dose()), largest.limit());
    let value = largest.most().map(quantity);
    let fields = (dose, largest.binding().name(), largest.parcel(), value, limit.source());
    shape(py, "LargestDose", fields)
}

pub(crate) fn limit(py: Python<'_>, limit: &mixcalc::Limit) -> PyResult<Py<PyAny>> {
    shape(py, "Limit", (limit.bound().name(), quantity(limit.value()), limit.force().name(), limit.source()))
}

fn finding(py: Python<'_>, finding: &mixcalc::Finding) -> PyResult<Py<PyAny>> {
    let limit = finding.limit().map(|of| limit(py, of));
    let readings = each(py, finding.readings().iter(), |py, reading| {
        shape(py, "Reading", (quantity(reading.value()), reading.meant(), reading.stated()))
    })?;
    shape(
        py,
        "Finding",
        (
            finding.severity().name(),
            finding.code().name(),
            finding.path(),
            finding.load(),
            finding.message(),
            finding.actual().map(quantity),
            limit.transpose()?,
            readings,
            PyTuple::new(py, finding.help())?,
        ),
    )
}

impl Plan {
    /// The products by name, each with what it has by its place in the job.
    fn names(&self) -> impl Iterator<Item = (usize, &str)> {
        self.core.job().products().iter().map(mixcalc::Product::name).enumerate()
    }

    fn load(&self, py: Python<'_>, load: &mixcalc::Load, recipe: Option<&Recipe<'_>>) -> PyResult<Py<PyAny>> {
        let products = each(py, self.names().zip(load.exact_amounts()), |py, ((index, name), exact)| {
            let measured = recipe.and_then(|recipe| recipe.amount(index));
            let Some(amount) = measured else {
                let none = || py.None();
                let fields =
                    (name, quantity(exact), none(), none(), none(), none(), none(), none(), none(), none(), none());
                return shape(py, "Portion", fields);
            };
            let uncertainty = amount
                .uncertainty()
                .zip(amount.uncertain_amount())
                .map(|(uncertainty, amount)| shape(py, "Uncertainty", (uncertainty.percent(), quantity(amount))));
            let emptied = amount
                .emptied()
                .map(|emptied| shape(py, "Emptied", (emptied.count(), PyTuple::new(py, emptied.loads())?)));
            let measure = amount.measure();
            shape(
                py,
                "Portion",
                (
                    name,
                    quantity(exact),
                    quantity(amount.measured()),
                    gap(py, amount.gap(), amount.dose_gap())?,
                    measure.name(),
                    told_on(measure, measure.read_at(amount.graduations())),
                    amount.graduations(),
                    fillings(py, measure, amount.fillings())?,
                    amount.delivered().map(|delivered| delivered_dose(py, &delivered)).transpose()?,
                    uncertainty.transpose()?,
                    emptied.transpose()?,
                ),
            )
        })?;
        let run_out = self.core.run_out(load).map(|of| run_out(py, &of)).transpose()?;
        let steps = match recipe {
            Some(recipe) => each(py, recipe.steps().iter(), |py, next| step(py, recipe, *next))?,
            None => PyTuple::empty(py).unbind(),
        };
        let (mix, carrier) = (quantity(load.mix()), quantity(self.core.carrier_in(load)));
        let uncertainty = self.core.mix_uncertainty(load).zip(self.core.uncertain_mix(load));
        let mix_uncertainty =
            uncertainty.map(|(uncertainty, mix)| shape(py, "Uncertainty", (uncertainty.percent(), quantity(mix))));
        let fields = (
            load.first(),
            load.last(),
            load.count(),
            mix,
            carrier,
            quantity(load.area()),
            products,
            steps,
            run_out,
            mix_uncertainty.transpose()?,
        );
        shape(py, "Load", fields)
    }

    fn jar(&self, py: Python<'_>, volume: mixcalc::Volume) -> PyResult<Py<PyAny>> {
        let jar = border::answer(py, || self.core.jar_test(volume))?;
        let products = each(py, self.names().zip(jar.amounts()), |py, ((_, name), amount)| {
            shape(py, "JarAmount", (name, quantity(*amount)))
        })?;
        shape(py, "JarTest", (quantity(jar.volume()), quantity(jar.carrier()), products))
    }

    fn loads_once(&self, py: Python<'_>) -> PyResult<&Py<PyTuple>> {
        self.loads.get_or_try_init(py, || {
            let recipes: Vec<_> = self.core.cleared().map(|cleared| cleared.recipes().collect()).unwrap_or_default();
            each(py, self.core.loads().iter().enumerate(), |py, (index, load)| self.load(py, load, recipes.get(index)))
        })
    }
}

#[pymethods]
impl Plan {
    /// Whether it may be carried out: no stop stands.
    #[getter]
    fn usable(&self) -> bool {
        self.core.usable()
    }

    /// The job that it was made from.
    #[getter]
    fn job(&self, py: Python<'_>) -> Py<Job> {
        self.job.clone_ref(py)
    }

    /// The most that the tank may be filled to.
    #[getter]
    fn safe_fill(&self) -> Quantity {
        quantity(self.core.safe_fill())
    }

    /// Volume of mix per ground area.
    #[getter]
    fn volume_rate(&self) -> Quantity {
        quantity(self.core.volume_rate())
    }

    /// Volume of carrier per ground area.
    #[getter]
    fn carrier_rate(&self) -> Quantity {
        quantity(self.core.carrier_rate())
    }

    /// What the tank holds before the first load: `Held(volume, products)`, or `None`.
    #[getter]
    fn start(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        let Some(held) = self.core.start() else { return Ok(None) };
        let products = self.core.job().products().iter().zip(held.amounts());
        let products =
            each(py, products, |py, (product, amount)| shape(py, "HeldAmount", (product.name(), quantity(*amount))))?;
        shape(py, "Held", (quantity(held.volume()), products)).map(Some)
    }

    /// The strip kept for the rinse water: `Strip(held_back, area)`, or `None`.
    #[getter]
    fn last_strip(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        let strip = self.core.last_strip();
        strip.map(|strip| shape(py, "Strip", (quantity(strip.held_back()), quantity(strip.area())))).transpose()
    }

    /// What stays in the sprayer after spraying out.
    #[getter]
    fn residual(&self) -> Quantity {
        quantity(self.core.residual())
    }

    /// Ground at the end that goes short by the residual, where no strip is kept.
    #[getter]
    fn ground_short(&self) -> Option<Quantity> {
        self.core.ground_short().map(quantity)
    }

    /// The order in which the products go into the tank: `MixingOrder(profile, source, products, jar_test)`; `None` where the job asks for
    /// none, and they go in as it has them.
    #[getter]
    fn mixing(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        let Some(order) = self.core.mixing_order() else {
            return Ok(None);
        };
        let names: Vec<&str> = self.names().map(|(_, name)| name).collect();
        let products = each(py, order.products().iter(), |py, at| {
            let name = names.get(at.product()).copied().unwrap_or_default();
            shape(py, "OrderedProduct", (name, at.group().name(), at.reason()))
        })?;
        let jar = self.core.job().mixing().and_then(|mixing| mixing.jar_test());
        let jar = jar.filter(|_| self.core.usable()).map(|volume| self.jar(py, volume)).transpose()?;
        shape(py, "MixingOrder", (order.profile().name(), order.profile().source(), products, jar)).map(Some)
    }

    /// Everything to take along, where the job asks for it and no stop stands: `FieldList(products, water, measures, protection, spill_kit)`.
    #[getter]
    fn field_list(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        let Some(list) = self.core.field_list_asked() else {
            return Ok(None);
        };
        let products = each(py, list.products().iter(), |py, product| {
            let fields = (product.name(), quantity(product.amount()), product.containers(), product.buy());
            shape(py, "ProductToTake", fields)
        })?;
        let water = list.water();
        let volumes = [
            water.total(),
            water.carrier(),
            water.measure_rinses(),
            water.container_rinses(),
            water.tank_rinse(),
            water.hands(),
            water.eyes(),
        ];
        let water = shape(py, "WaterToTake", PyTuple::new(py, volumes.map(quantity))?)?;
        let texts = |texts: &[&str]| PyTuple::new(py, texts);
        let worn =
            (texts(list.worn_for_mixing())?, texts(list.worn_for_spraying())?, texts(list.protection_unstated())?);
        let protection = shape(py, "Worn", worn)?;
        let measures = PyTuple::new(py, list.measures().iter().map(|measure| measure.name()))?;
        shape(py, "FieldList", (products, water, measures, protection, list.spill_kit())).map(Some)
    }

    /// What the water analysis comes to: `WaterTold(hardness, hardness_class, ammonium_sulfate_need)`; `None` where the job states none.
    #[getter]
    fn water(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        let told = |water: mixcalc::Water| {
            let need = quantity(water.ammonium_sulfate_need());
            shape(py, "WaterTold", (quantity(water.hardness()), water.hardness_class().name(), need))
        };
        self.core.job().water().map(told).transpose()
    }

    /// Sizes of loads with which every amount can be measured, where one is hard to measure, the nearest first:
    /// `LoadSize(mix, count, rest, amount, rest_amount, dose, uncertainty)`. None where nothing is, where no size does, and where a stop stands.
    fn load_sizes(&self, py: Python<'_>) -> PyResult<Py<PyTuple>> {
        let sizes = border::answer(py, || Ok(self.core.load_sizes()))?;
        each(py, sizes.iter(), |py, size| {
            let fields = (
                quantity(size.mix()),
                size.count(),
                size.rest().map(quantity),
                quantity(size.amount()),
                size.rest_amount().map(quantity),
                quantity(size.dose()),
                size.uncertainty().map(quantity),
            );
            shape(py, "LoadSize", fields)
        })
    }

    /// The mix in small, to be tried in a jar: `JarTest(volume, carrier, products, active_substances)`.
    ///
    /// Parameters
    /// ----------
    /// volume : Volume
    ///     So much mix, such as "1 L".
    ///
    /// Raises
    /// ------
    /// InputError
    ///     Code 116, where a stop stands: there is nothing to be mixed.
    #[pyo3(signature = (volume, /))]
    fn jar_test(&self, volume: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
        let py = volume.py();
        // Read as any quantity of Python is.
        let volume = py.import("mixcalc._mixcalc")?.getattr("Volume")?.call1((volume,))?;
        let stated = quantity_of(&volume).ok_or_else(|| PyTypeError::new_err("a volume is due"))?;
        let claimed = border::answer(py, || stated.core.claim())?;
        self.jar(py, claimed)
    }

    /// What all loads take: `Totals(loads, mix, carrier, area, products, active_substances)`.
    #[getter]
    fn totals(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        let measured: Vec<_> = self.core.cleared().map(|cleared| cleared.totals().collect()).unwrap_or_default();
        let exact = self.core.exact_totals();
        let largest = self.core.largest_doses();
        let largest =
            |index: usize| largest.get(index).and_then(Option::as_ref).map(|one| largest_dose(py, one)).transpose();
        let products = each(py, self.names().zip(exact), |py, ((index, name), exact)| {
            let doses = each(py, self.core.doses(index).into_iter(), |py, dose| {
                shape(py, "DoseOn", (dose.basis().name(), quantity(dose)))
            })?;
            let Some(total) = measured.get(index) else {
                return shape(
                    py,
                    "Total",
                    (name, doses, quantity(exact), py.None(), py.None(), py.None(), largest(index)?, py.None()),
                );
            };
            let drawn = each(py, total.drawn(), |py, (measure, count)| {
                shape(py, "Drawn", (measure.name(), quantity(measure.graduation()), count))
            })?;
            let gap = gap(py, total.gap(), total.dose_gap())?;
            let used = total.containers().map(|used| {
                let (content, left) = (quantity(used.content()), quantity(used.left()));
                let fields = (content, used.opened(), used.emptied(), left, used.take(), used.buy());
                shape(py, "ContainerUse", fields)
            });
            let measured = quantity(total.measured());
            let fields = (name, doses, quantity(exact), measured, gap, drawn, largest(index)?, used.transpose()?);
            shape(py, "Total", fields)
        })?;
        let plan = &self.core;
        let (mix, carrier, area) = (quantity(plan.made()), quantity(plan.carrier()), quantity(plan.area_made_for()));
        let substances = each(py, plan.substances().iter(), |py, total| {
            let (dose, exact) = (total.dose().map(quantity), total.exact().map(quantity));
            shape(py, "SubstanceTotal", (total.name(), dose, exact, total.measured().map(quantity)))
        })?;
        shape(py, "Totals", (plan.load_count(), mix, carrier, area, products, substances))
    }

    /// The loads, equal ones together: a tuple of `Load`. What is measured is `None` where a stop stands.
    #[getter]
    fn loads(&self, py: Python<'_>) -> PyResult<Py<PyTuple>> {
        Ok(self.loads_once(py)?.clone_ref(py))
    }

    /// What to do for each load, in order: a tuple of `Step`, empty where a stop stands.
    #[getter]
    fn steps(&self, py: Python<'_>) -> PyResult<Py<PyTuple>> {
        let loads = self.loads_once(py)?.bind(py);
        let steps: PyResult<Vec<_>> =
            loads.iter().map(|load| load.getattr("steps")?.extract::<Vec<Bound<'_, PyAny>>>()).collect();
        let steps: Vec<_> = steps?.into_iter().flatten().collect();
        Ok(PyTuple::new(py, steps)?.unbind())
    }

    /// Where everything came from and went: `Ledger(products, carrier, mix)`; `None` where a stop stands.
    #[getter]
    fn ledger(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        let Some(ledger) = self.core.cleared().map(|cleared| cleared.ledger()) else {
            return Ok(None);
        };
        let products = each(py, self.names().zip(ledger.products()), |py, ((_, name), account)| {
            let stock = (account.stock().map(quantity), account.left().map(quantity));
            let (drawn, in_loads) = (quantity(account.drawn()), quantity(account.in_loads()));
            shape(py, "ProductAccount", (name, stock.0, drawn, in_loads, quantity(account.spilled()), stock.1))
        })?;
        let carrier = ledger.carrier();
        let carrier = shape(
            py,
            "CarrierAccount",
            (
                quantity(carrier.drawn()),
                quantity(carrier.first()),
                quantity(carrier.premixed()),
                quantity(carrier.rinses()),
                quantity(carrier.topped_up()),
                carrier.container_rinses().map(quantity),
            ),
        )?;
        let at_start = self.core.start().map(|_| quantity(ledger.at_start()));
        let mix = (quantity(ledger.made()), quantity(ledger.sprayed()), quantity(ledger.residual()), at_start);
        shape(py, "Ledger", (products, carrier, shape(py, "MixAccount", mix)?)).map(Some)
    }

    /// What is to be said of it, stops first, then cautions, then notes: a tuple of `Finding`.
    #[getter]
    fn findings(&self, py: Python<'_>) -> PyResult<Py<PyTuple>> {
        each(py, self.core.findings().iter(), finding)
    }

    /// The cautions for people that go with it: a tuple of `Caution`.
    #[getter]
    fn cautions(&self, py: Python<'_>) -> PyResult<Py<PyTuple>> {
        each(py, self.core.cautions(), |py, caution| shape(py, "Caution", (caution.code(), caution.text())))
    }

    /// How every number was reached: a tuple of `Working`, worked out when it is asked for.
    #[getter]
    fn working(&self, py: Python<'_>) -> PyResult<Py<PyTuple>> {
        let workings = border::answer(py, || Ok(self.core.working()))?;
        each(py, workings.iter(), |py, one| working(py, one, self.core.job().units()))
    }

    /// The calibration that its volume rate is from; `None` where the job states none.
    #[getter]
    fn calibration(&self) -> Option<Calibration> {
        self.core.job().calibration().map(|(_, calibration)| calibration.clone().into())
    }

    /// How one number was reached.
    ///
    /// Parameters
    /// ----------
    /// place : str
    ///     Its path in the plan document, such as "loads[0].products[1].exact".
    ///
    /// Returns
    /// -------
    /// Working or None
    ///     `None` where the plan has no such number.
    #[pyo3(signature = (place, /))]
    fn working_of(&self, py: Python<'_>, place: &str) -> PyResult<Option<Py<PyAny>>> {
        let found = border::answer(py, || Ok(self.core.working_of(place)))?;
        found.map(|found| working(py, &found, self.core.job().units())).transpose()
    }

    /// The load sheet as plain text, at most 80 characters a line.
    ///
    /// Parameters
    /// ----------
    /// working : bool, optional
    ///     Whether it ends with how every number was reached.
    ///
    /// Raises
    /// ------
    /// InputError
    ///     Code 116, where a stop stands; `findings_page` says why.
    #[pyo3(signature = (*, working=false))]
    fn sheet(&self, py: Python<'_>, working: bool) -> PyResult<String> {
        border::answer(py, || {
            let cleared = self.core.try_cleared()?;
            Ok(if working { mixcalc::sheet::text_with_working(&cleared) } else { mixcalc::sheet::text(&cleared) })
        })
    }

    /// What is to be said of it, as plain text. That of a stopped plan says first that it must not be mixed.
    fn findings_page(&self, py: Python<'_>) -> PyResult<String> {
        border::answer(py, || Ok(mixcalc::sheet::findings(&self.core)))
    }

    /// As a JSON document; the same bytes from Rust and C.
    fn to_json(&self, py: Python<'_>) -> PyResult<String> {
        border::answer(py, || Ok(document::write_plan(&self.core)))
    }

    /// As a dict with the keys of plan documents, every quantity as value and unit.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        py.import("json")?.getattr("loads")?.call1((self.to_json(py)?,))
    }

    /// How every number was reached, as a JSON list.
    fn working_json(&self, py: Python<'_>) -> PyResult<String> {
        border::answer(py, || Ok(document::write_working(&self.core)))
    }

    /// A table with a row for each product of each different load, as a pandas frame.
    ///
    /// Returns
    /// -------
    /// pandas.DataFrame
    ///     Columns ``first_load, last_load, count, mix_l, carrier_l, area_ha, product, exact, measured, unit, gap_percent, measure,
    ///     shown, shown_unit, graduations``. ``exact`` and ``measured`` are in ``unit``, L or kg; ``shown`` is what the measure shows,
    ///     in the unit on its scale. Nothing is measured where a stop stands.
    fn to_pandas<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mixcalc._tables")?.getattr("to_pandas")?.call1((slf,))
    }

    /// The rows of `to_pandas`, each a dict, for `csv.DictWriter` and the like.
    fn rows<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mixcalc._tables")?.getattr("rows")?.call1((slf,))
    }

    /// The table of `to_pandas` as a polars frame.
    fn to_polars<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mixcalc._tables")?.getattr("to_polars")?.call1((slf,))
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("mixcalc._html")?.getattr("plan")?.call1((slf,))
    }

    fn __repr__(&self) -> String {
        let (plan, people) = (&self.core, |quantity: mixcalc::Quantity| quantity.to_people(self.core.job().units()));
        let loads = plan.load_count();
        let state = if plan.usable() { "usable" } else { "stopped" };
        format!(
            "<Plan, {state}: {} of mix in {loads} load{}>",
            people(plan.made().into()),
            if loads == 1 { "" } else { "s" }
        )
    }

    fn __str__(&self, py: Python<'_>) -> PyResult<String> {
        border::answer(py, || {
            Ok(match self.core.cleared() {
                Some(cleared) => mixcalc::sheet::text(&cleared),
                None => mixcalc::sheet::findings(&self.core),
            })
        })
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| self.core == other.get().core)
    }

    fn __hash__(&self, py: Python<'_>) -> PyResult<isize> {
        self.job.bind(py).hash()
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (Py<Job>,))> {
        Ok((py.import("mixcalc")?.getattr("plan")?, (self.job.clone_ref(py),)))
    }

    fn __copy__(slf: Bound<'_, Self>) -> Bound<'_, Self> {
        slf
    }

    fn __deepcopy__<'py>(slf: Bound<'py, Self>, _memo: &Bound<'py, PyAny>) -> Bound<'py, Self> {
        slf
    }
}
