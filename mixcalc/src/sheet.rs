//! The load sheet and the findings page as plain text, for a person in a field.
//!
//! Layout only: every number comes from the plan, and every word from the catalogue of texts.

use alloc::string::{String, ToString};
use alloc::vec::Vec;
use alloc::{format, vec};
use core::mem::take;

use crate::finding::Caution;
use crate::label::{Basis, Dose, Product};
use crate::measure::{Amount, MeasureKind};
use crate::plan::{
    Action, Cleared, ContainerUse, DeliveredDose, FieldList, Ground, Held, LargestDose, Level, MeasuredAmount,
    MixingOrder, Plan, ProductToTake, Rate, Recipe, RunOut, Span, Step,
};
use crate::quantity::{
    Area, Quantity, Ratio, System, Time, Volume, VolumeRate, in_unit, on_scale, signed_percent, significant,
};
use crate::sprayer::{Calibration, CalibrationRecord};
use crate::text::{self, filled, legible, sheet as words, working as workings};

/// Characters in a line.
const WIDTH: usize = 80;
const BOX: &str = "[ ]";
const ACROSS: &str = "    ";
/// Loads of a run that have a column of boxes each beside the steps.
const MOST_COLUMNS: u64 = 6;
/// Loads of a run that have a box each; more are tallied, so that many loads do not make a long sheet.
const MOST_BOXES: u64 = 40;
const BOXES_PER_LINE: usize = 10;
/// A dose that is over its maximum less often is told without: a small number next to a dose would read as a promise.
const LEAST_TOLD_PERCENT: f64 = 1.0;
/// A place to write in.
const WRITE_HERE: &str = "______________________";

/// The load sheet: the job, what to read first, what all loads take, and each different load with its amounts and steps.
///
/// Plain text, at most 80 characters a line, in the measures of the job; amounts in the unit on the scale of their measure. Its length
/// does not grow with the number of equal loads. A plan with a stop has no [`Cleared`] and so no load sheet: see [`findings`].
///
/// # Example
///
/// 1 ha at 200 L/ha with 1.5 L/ha of product, in a tank that takes it all: 1.5 L in one load.
///
/// ```
/// use mixcalc::*;
///
/// let tank = Tank::new(Some(Volume::read("200 L")?), Some(Volume::read("220 L")?))?;
/// let job = Job::new(Area::read("1 ha")?, Rate::Volume(VolumeRate::read("200 L/ha")?), Sprayer::new(SprayerKind::Boom), tank)?
///     .with_product(Product::new("example product A", LiquidDose::read("1.5 L/ha")?)?)?
///     .with_measure(Measure::vessel(Volume::read("2 L")?, Volume::read("50 mL")?)?.marked_in("mL")?)?;
/// let plan = mixcalc::plan(&job)?;
/// let sheet = sheet::text(&plan.cleared().expect("no stop stands against this plan"));
/// assert!(sheet.contains("Measure 1500 mL of example product A"));
/// assert!(sheet.lines().all(|line| line.chars().count() <= 80));
/// # Ok::<(), mixcalc::Error>(())
/// ```
#[must_use]
pub fn text(cleared: &Cleared<'_>) -> String {
    load_sheet(cleared).0
}

/// The load sheet, and at its end how every number of the plan was reached.
#[must_use]
pub fn text_with_working(cleared: &Cleared<'_>) -> String {
    let mut page = load_sheet(cleared);
    page.working(cleared.plan());
    page.0
}

fn load_sheet(cleared: &Cleared<'_>) -> Page {
    let plan = cleared.plan();
    let mut page = Page::titled(words::LOAD_SHEET, plan);
    page.job(plan);
    if !plan.findings().is_empty() {
        page.heading(words::ABOUT_THIS_JOB);
        page.found(plan, false);
    }
    page.cautions(plan.cautions());
    page.totals(cleared);
    if let Some(list) = plan.field_list_asked() {
        page.field_list(plan, &list);
    }
    if let Some(order) = plan.mixing_order() {
        page.mixing(plan, order);
    }
    for recipe in cleared.recipes() {
        page.load(plan, &recipe);
    }
    page.write_in(cleared);
    page
}

/// The findings page of any plan. That of a stopped plan says first that it must not be mixed, and why. It has no amounts and no
/// steps.
#[must_use]
pub fn findings(plan: &Plan) -> String {
    let mut page = Page::titled(words::FINDINGS, plan);
    page.blank();
    if plan.usable() {
        page.paragraph(words::NO_STOP);
    } else {
        page.paragraph(words::MUST_NOT_BE_MIXED);
        page.paragraph(words::WHY_NOT);
    }
    page.blank();
    if plan.findings().is_empty() {
        page.paragraph(words::NOTHING_FOUND);
    }
    page.found(plan, true);
    page.largest(plan);
    page.cautions(plan.cautions());
    page.0
}

/// What a column of a table holds.
#[derive(Clone, Copy)]
enum Column {
    /// Words, in lines of at most so many characters.
    Words(usize),
    /// Words, in what the other columns leave.
    Rest,
    /// Numbers, one point below the other.
    Number,
    /// The unit of the number before it.
    Unit,
}

impl Column {
    const fn most(self) -> usize {
        match self {
            Self::Words(most) => most,
            Self::Rest => WIDTH,
            Self::Number => 20,
            Self::Unit => 12,
        }
    }

    const fn gap(self) -> &'static str {
        match self {
            Self::Unit => " ",
            _ => "  ",
        }
    }
}

/// The sheet so far.
struct Page(String);

impl Page {
    fn titled(title: &str, plan: &Plan) -> Self {
        let mut page = Self(String::new());
        page.rule('=');
        page.paragraph(title);
        page.paragraph(plan.job().title().unwrap_or_default());
        page.rule('=');
        page
    }

    fn line(&mut self, line: &str) {
        self.0.push_str(line.trim_end());
        self.0.push('\n');
    }

    fn blank(&mut self) {
        self.line("");
    }

    fn rule(&mut self, mark: char) {
        self.0.extend(core::iter::repeat_n(mark, WIDTH));
        self.blank();
    }

    fn heading(&mut self, heading: &str) {
        self.blank();
        self.paragraph(heading);
        self.rule('-');
    }

    fn paragraph(&mut self, text: &str) {
        if !text.is_empty() {
            self.table(&[Column::Rest], &[vec![text.into()]]);
        }
    }

    /// Rows of cells. A cell that is wider than its column goes on below; a row of one cell alone goes across, a little to the right.
    fn table(&mut self, columns: &[Column], rows: &[Vec<String>]) {
        let mut rows: Vec<Vec<String>> =
            rows.iter().map(|row| row.iter().map(|cell| legible(cell)).collect()).collect();
        align_points(columns, &mut rows);
        let widths = widths(columns, &rows);
        for row in &rows {
            match row.as_slice() {
                [across] if columns.len() > 1 => {
                    for line in wrapped(across, WIDTH - ACROSS.len()) {
                        self.line(&format!("{ACROSS}{line}"));
                    }
                }
                _ => self.row(columns, &widths, row),
            }
        }
    }

    fn row(&mut self, columns: &[Column], widths: &[usize], row: &[String]) {
        let cells: Vec<Vec<String>> = row.iter().zip(widths).map(|(cell, width)| wrapped(cell, *width)).collect();
        for i in 0..cells.iter().map(Vec::len).max().unwrap_or(0) {
            let mut line = String::new();
            for ((cell, column), width) in cells.iter().zip(columns).zip(widths) {
                if !line.is_empty() && *width > 0 {
                    line.push_str(column.gap());
                }
                let text = cell.get(i).map_or("", String::as_str);
                line.push_str(&match column {
                    Column::Number => format!("{text:>width$}"),
                    _ => format!("{text:<width$}"),
                });
            }
            self.line(&line);
        }
    }

    fn job(&mut self, plan: &Plan) {
        let (job, units) = (plan.job(), plan.job().units());
        let people = |quantity: Quantity| quantity.to_people(units);
        let volume_rate = people(plan.volume_rate().into());
        let unit = tank_unit(plan);
        let runs: Vec<String> = plan
            .loads()
            .iter()
            .map(|load| {
                let mix = in_unit(load.mix().into(), &unit);
                filled(words::RUN, &[("count", &load.count()), ("mix", &mix)])
            })
            .collect();
        let mut facts = vec![
            (words::AREA, ground(job.ground(), units)),
            (
                words::RATE,
                match (job.rate(), job.calibration()) {
                    (Rate::Volume(_), Some((record, calibration))) => calibrated(record, calibration, units),
                    (Rate::Volume(_), None) => filled(words::VOLUME_RATE, &[("mix", &volume_rate)]),
                    (Rate::VolumePerCrop(stated), _) => {
                        let stated = on_basis(stated.amount(), stated.basis(), units);
                        filled(words::VOLUME_RATE_ON, &[("stated", &stated), ("mix", &volume_rate)])
                    }
                    (Rate::Carrier(_) | Rate::CarrierPerCrop(_), _) => {
                        let carrier = on_basis(job.rate().stated(), job.rate().basis(), units);
                        filled(words::CARRIER_RATE, &[("carrier", &carrier), ("mix", &volume_rate)])
                    }
                },
            ),
            (
                words::SPRAYER,
                filled(
                    words::SPRAYER_VALUE,
                    &[
                        ("sprayer", &words::sprayer(job.sprayer().kind())),
                        ("fill", &in_unit(plan.safe_fill().into(), &unit)),
                    ],
                ),
            ),
            (
                words::LOADS,
                match runs.as_slice() {
                    [only] => only.clone(),
                    _ => filled(words::LOADS_VALUE, &[("count", &plan.load_count()), ("runs", &runs.join(", "))]),
                },
            ),
            (
                words::MIX,
                filled(
                    words::MIX_VALUE,
                    &[("mix", &people(plan.made().into())), ("area", &people(plan.area_made_for().into()))],
                ),
            ),
        ];
        if let Some(water) = job.water() {
            let (hardness, need) = (people(water.hardness().into()), people(water.ammonium_sulfate_need().into()));
            let class = words::hardness(water.hardness_class());
            facts.push((
                words::WATER,
                filled(words::WATER_VALUE, &[("class", &class), ("hardness", &hardness), ("need", &need)]),
            ));
        }
        if plan.last_strip().is_none() {
            facts.push((words::STRIP, words::NO_STRIP.into()));
        }
        if let Some(strip) = plan.last_strip() {
            let kept = filled(words::STRIP_VALUE, &[("area", &people(strip.area().into()))]);
            let held_back = strip.held_back();
            facts.push((
                words::STRIP,
                if held_back > Volume::ZERO {
                    filled(words::STRIP_HELD_BACK, &[("strip", &kept), ("volume", &people(held_back.into()))])
                } else {
                    kept
                },
            ));
        }
        if plan.job().sprayer().residual().is_none() {
            facts.push((words::RESIDUAL, words::NO_RESIDUAL.into()));
        }
        if plan.residual() > Volume::ZERO {
            let stays = filled(words::RESIDUAL_VALUE, &[("volume", &people(plan.residual().into()))]);
            facts.push((
                words::RESIDUAL,
                match plan.ground_short() {
                    Some(area) => {
                        filled(words::RESIDUAL_SHORT, &[("residual", &stays), ("area", &people(area.into()))])
                    }
                    None => stays,
                },
            ));
        }
        self.heading(words::JOB);
        let rows: Vec<Vec<String>> = facts.into_iter().map(|(label, value)| vec![label.into(), value]).collect();
        self.table(&[Column::Words(12), Column::Rest], &rows);
    }

    /// The findings, stops first, each under its severity.
    fn found(&mut self, plan: &Plan, with_path: bool) {
        let mut rows = Vec::new();
        for finding in plan.findings() {
            rows.push(vec![words::severity(finding.severity()).into(), finding.message()]);
            if with_path {
                let path = filled(words::LOOK_AT, &[("path", &finding.path())]);
                rows.push(vec![String::new(), path]);
            }
        }
        self.table(&[Column::Words(12), Column::Rest], &rows);
    }

    /// The largest doses that limits over time leave, a line each.
    fn largest(&mut self, plan: &Plan) {
        let doses = plan.job().products().iter().zip(plan.largest_doses());
        let line = |(product, largest): (&Product, Option<LargestDose>)| {
            Some(vec![product.name().into(), largest_dose(&largest?, plan.job().units())])
        };
        let rows: Vec<Vec<String>> = doses.filter_map(line).collect();
        if !rows.is_empty() {
            self.blank();
            self.table(&[Column::Words(26), Column::Rest], &rows);
        }
    }

    /// The standing cautions, in full.
    fn cautions(&mut self, cautions: impl Iterator<Item = Caution>) {
        self.heading(words::READ_FIRST);
        let rows: Vec<Vec<String>> = cautions.map(|caution| vec!["-".into(), caution.text().into()]).collect();
        self.table(&[Column::Words(1), Column::Rest], &rows);
    }

    fn totals(&mut self, cleared: &Cleared<'_>) {
        let (plan, units) = (cleared.plan(), cleared.plan().job().units());
        self.heading(words::TO_BRING);
        let carrier = Quantity::from(plan.carrier()).to_people(units);
        self.paragraph(&filled(words::CARRIER_IN_ALL, &[("carrier", &carrier)]));
        let columns = [Column::Rest, Column::Number, Column::Unit, Column::Number, Column::Unit, Column::Number];
        let mut table =
            vec![[words::PRODUCT, words::EXACT, "", words::MEASURED, "", words::GAP].map(String::from).to_vec()];
        let ledger = cleared.ledger();
        let mut largest = plan.largest_doses().into_iter();
        let products = plan.job().products().iter().enumerate();
        for (((index, product), total), account) in products.zip(cleared.totals()).zip(ledger.products()) {
            let exact = number_and_unit(&Quantity::from(total.exact()).to_people(units));
            let measured = number_and_unit(&measured_text(total.measured(), units));
            table.push(vec![
                product.name().into(),
                exact.0,
                exact.1,
                measured.0,
                measured.1,
                signed_percent(total.gap()),
            ]);
            table.push(vec![dose(plan, index, product)]);
            table.extend(total.drawn().map(|(measure, count)| {
                let graduation = measure.reading(measure.graduation());
                vec![filled(
                    words::DRAWN,
                    &[("measure", &measure.name()), ("count", &count), ("graduation", &graduation)],
                )]
            }));
            table.extend(largest.next().flatten().map(|largest| vec![largest_dose(&largest, units)]));
            table.extend(total.containers().map(|used| vec![containers_of(&used, units)]));
            if let (Some(stock), Some(left)) = (account.stock(), account.left()) {
                let [stock, left] = [stock, left].map(|amount| Quantity::from(amount).to_people(units));
                let stock = filled(words::STOCK, &[("stock", &stock), ("left", &left)]);
                table.push(vec![stock]);
            }
        }
        if plan.job().products().is_empty() {
            return;
        }
        self.blank();
        self.table(&columns, &table);
        self.substances(plan);
    }

    /// Everything to take along, a box for each thing.
    fn field_list(&mut self, plan: &Plan, list: &FieldList<'_>) {
        let units = plan.job().units();
        let people = |quantity: Quantity| quantity.to_people(units);
        let product = |product: &ProductToTake<'_>| {
            let amount = measured_text(product.amount(), units);
            let mut line = filled(words::PRODUCT_TO_TAKE, &[("product", &product.name()), ("amount", &amount)]);
            if let Some(containers) = product.containers() {
                line += &filled(words::CONTAINERS_TO_TAKE, &[("containers", &containers)]);
            }
            if let Some(buy) = product.buy().filter(|buy| *buy > 0) {
                line += &filled(words::CONTAINERS_TO_BUY, &[("buy", &buy)]);
            }
            line
        };
        let water = list.water();
        let volumes = [
            ("total", water.total()),
            ("carrier", water.carrier()),
            ("measure_rinses", water.measure_rinses()),
            ("container_rinses", water.container_rinses()),
            ("tank_rinse", water.tank_rinse()),
            ("hands", water.hands()),
            ("eyes", water.eyes()),
        ]
        .map(|(gap, volume)| (gap, people(volume.into())));
        let mut lines: Vec<String> = list.products().iter().map(product).collect();
        lines.push(filled(words::WATER_TO_TAKE, &volumes.each_ref().map(|(gap, text)| (*gap, text as _))));
        lines.extend(
            list.measures().iter().map(|measure| filled(words::MEASURE_TO_TAKE, &[("measure", &measure.name())])),
        );
        let told = [
            (words::WORN_FOR_MIXING, "worn", list.worn_for_mixing()),
            (words::WORN_FOR_SPRAYING, "worn", list.worn_for_spraying()),
            (words::PROTECTION_UNSTATED, "products", list.protection_unstated()),
        ];
        let told = told.into_iter().filter(|(.., things)| !things.is_empty());
        lines.extend(told.map(|(template, gap, things)| filled(template, &[(gap, &things.join(words::LISTED))])));
        lines.push(list.spill_kit().into());
        self.heading(words::FIELD_LIST);
        let rows: Vec<Vec<String>> = lines.into_iter().map(|line| vec![BOX.into(), line]).collect();
        self.table(&[Column::Words(BOX.len()), Column::Rest], &rows);
    }

    /// The active substances that are known, a line each.
    fn substances(&mut self, plan: &Plan) {
        let units = plan.job().units();
        let lines: Vec<Vec<String>> = plan
            .substances()
            .iter()
            .filter_map(|substance| {
                let [dose, amount] = [substance.dose()?.into(), substance.measured()?.into()]
                    .map(|quantity: Quantity| quantity.to_people(units));
                Some(vec![
                    String::new(),
                    filled(words::SUBSTANCE, &[("name", &substance.name()), ("dose", &dose), ("amount", &amount)]),
                ])
            })
            .collect();
        if !lines.is_empty() {
            self.blank();
            self.paragraph(words::SUBSTANCES);
            self.table(&[Column::Words(1), Column::Rest], &lines);
        }
    }

    /// The order of the products with its reasons, and what goes into a jar.
    fn mixing(&mut self, plan: &Plan, order: &MixingOrder) {
        let (products, units) = (plan.job().products(), plan.job().units());
        let in_order = || order.products().iter().filter_map(|at| Some((at, products.get(at.product())?)));
        self.heading(words::MIXING_ORDER);
        self.paragraph(&filled(words::ORDER_IS_ONE_OF_SEVERAL, &[("source", &order.profile().source())]));
        let rows = (1..).zip(in_order());
        let rows: Vec<_> = rows
            .map(|(number, (at, product))| vec![format!("{number}"), product.name().into(), at.reason().into()])
            .collect();
        self.blank();
        self.table(&[Column::Number, Column::Words(26), Column::Rest], &rows);
        let Some(jar) = plan.jar_test_asked() else { return };
        self.heading(words::JAR_TEST);
        let (volume, carrier) = (Quantity::from(jar.volume()), Quantity::from(jar.carrier()));
        let what = [("volume", volume.to_people(units)), ("carrier", carrier.to_people(units))];
        self.paragraph(&filled(words::JAR, &what.each_ref().map(|(gap, text)| (*gap, text as _))));
        let mut rows = vec![[words::PRODUCT, words::IN_JAR, ""].map(String::from).to_vec()];
        rows.extend(in_order().filter_map(|(at, product)| {
            let (number, unit) = number_and_unit(&Quantity::from(*jar.amounts().get(at.product())?).to_people(units));
            Some(vec![product.name().into(), number, unit])
        }));
        self.blank();
        self.table(&[Column::Words(26), Column::Number, Column::Unit], &rows);
        self.blank();
        self.paragraph(words::JAR_SHOWS);
    }

    fn load(&mut self, plan: &Plan, recipe: &Recipe<'_>) {
        let load = recipe.load();
        let (first, last, all) = (load.first(), load.last(), plan.load_count());
        let is_run = load.count() > 1;
        let unit = tank_unit(plan);

        self.blank();
        self.rule('=');
        self.paragraph(&filled(
            if is_run { words::LOADS_RUN } else { words::LOAD },
            &[("first", &first), ("last", &last), ("all", &all)],
        ));
        self.rule('=');
        let units = plan.job().units();
        let held = load.held().map(|held| (in_unit(held.volume().into(), &unit), held_what(plan, held, units)));
        let (held, what) = held.unwrap_or_default();
        let is_there = recipe.steps().is_empty();
        self.paragraph(&filled(
            match is_run {
                true => words::IN_EACH_LOAD,
                false if is_there => words::IS_THERE,
                false if !held.is_empty() => words::TOPPED_UP,
                false => words::IN_LOAD,
            },
            &[
                ("held", &held),
                ("what", &what),
                ("mix", &in_unit(load.mix().into(), &unit)),
                ("carrier", &in_unit(recipe.carrier().into(), &unit)),
                ("area", &Quantity::from(load.area()).to_people(units)),
            ],
        ));
        if let Some(uncertainty) = plan.mix_uncertainty(load).filter(|_| plan.job().tank().scale_check().is_some()) {
            let uncertainty = Quantity::from(uncertainty).to_people(plan.job().units());
            self.paragraph(&filled(words::MIX_IS_READ, &[("uncertainty", &uncertainty)]));
        }
        if let Some(run_out) = plan.run_out(load) {
            self.paragraph(&filled(words::RUNS_OUT, &[("where", &runs_out(&run_out, units))]));
        }
        if !is_there {
            self.amounts(recipe);
            self.steps(recipe, &unit);
        }
        if is_run && !has_columns(recipe) {
            self.boxes(first, last);
        }
        if let Some(strip) = plan.last_strip().filter(|_| last == all) {
            let area = Quantity::from(strip.area()).to_people(units);
            self.blank();
            self.paragraph(&filled(words::KEEP_STRIP, &[("area", &area)]));
        }
    }

    fn amounts(&mut self, recipe: &Recipe<'_>) {
        let amount = if recipe.load().count() > 1 { words::AMOUNT_IN_EACH } else { words::AMOUNT };
        let mut rows = vec![[words::PRODUCT, amount, "", words::GAP, words::MEASURE].map(String::from).to_vec()];
        let units = recipe.plan().job().units();
        for amount in recipe.amounts() {
            let (number, unit) = number_and_unit(&reading(&amount));
            if amount.graduations() == 0 {
                let none = words::NONE_TO_ADD.to_string();
                rows.push(vec![amount.name().into(), String::from("0"), unit, String::new(), none]);
                continue;
            }
            rows.push(vec![amount.name().into(), number, unit, signed_percent(amount.gap()), measured_with(&amount)]);
            let doubted = |delivered: &DeliveredDose| !delivered.dose().contributions().is_empty();
            rows.extend(amount.delivered().filter(doubted).map(|delivered| vec![delivers(&delivered, units)]));
        }
        if rows.len() > 1 {
            self.blank();
            self.table(&[Column::Words(26), Column::Number, Column::Unit, Column::Number, Column::Rest], &rows);
        }
        let emptied: Vec<String> = recipe.amounts().filter_map(|amount| emptied_by(&amount)).collect();
        if !emptied.is_empty() {
            self.blank();
            emptied.iter().for_each(|line| self.paragraph(line));
        }
    }

    fn steps(&mut self, recipe: &Recipe<'_>, unit: &str) {
        let load = recipe.load();
        let (boxes, numbers) = match (load.count(), has_columns(recipe)) {
            (1, _) => (BOX.into(), String::new()),
            (count, true) => (
                (0..count).map(|_| BOX).collect(),
                (load.first()..=load.last()).map(|number| format!("{number:^3}")).collect(),
            ),
            _ => (String::new(), String::new()),
        };
        let mut rows = vec![vec![numbers, String::new(), words::STEP.into(), words::IN_TANK.into(), String::new()]];
        for (number, next) in (1..).zip(recipe.steps()) {
            let (in_tank, unit) = number_and_unit(&in_unit(next.in_tank().into(), unit));
            rows.push(vec![boxes.clone(), format!("{number}"), step(recipe, *next), in_tank, unit]);
        }
        self.blank();
        let columns = [Column::Words(WIDTH), Column::Number, Column::Rest, Column::Number, Column::Unit];
        self.table(&columns, &rows);
    }

    /// A box for each load, or a line for a tally.
    fn boxes(&mut self, first: u64, last: u64) {
        self.blank();
        if last - first < MOST_BOXES {
            self.paragraph(words::TICK_LOADS);
            let loads: Vec<String> = (first..=last).map(|number| format!("{BOX} {number}")).collect();
            let widest = loads.iter().map(String::len).max().unwrap_or(0);
            let per_line = BOXES_PER_LINE.min(WIDTH / (widest + 2)).max(1);
            for line in loads.chunks(per_line) {
                let cells: Vec<String> = line.iter().map(|cell| format!("{cell:<widest$}")).collect();
                self.line(&cells.join("  "));
            }
        } else {
            self.paragraph(words::TALLY_LOADS);
            self.blank();
            self.rule('_');
            self.blank();
            self.rule('_');
        }
    }

    /// Each number, and below it how it was reached.
    fn working(&mut self, plan: &Plan) {
        self.heading(workings::WORKING);
        self.paragraph(workings::WHAT_IT_SAYS);
        for working in plan.working() {
            self.blank();
            self.paragraph(&working.number(plan.job().units()));
            let pieces = working.pieces(plan.job().units());
            let pieces = pieces.iter().flat_map(|piece| wrapped(piece, WIDTH - ACROSS.len()));
            for line in set(pieces.collect(), WIDTH - ACROSS.len()) {
                self.line(&format!("{ACROSS}{line}"));
            }
        }
    }

    fn write_in(&mut self, cleared: &Cleared<'_>) {
        let (plan, units) = (cleared.plan(), cleared.plan().job().units());
        self.heading(words::WRITE_IN);
        let (here, label) = (WRITE_HERE.to_string(), str::to_string);
        let columns = [Column::Words(14), Column::Words(WIDTH), Column::Words(14), Column::Rest];
        let rows = [(words::DATE, words::PLACE), (words::MIXED_BY, words::CHECKED_BY)]
            .map(|(left, right)| vec![label(left), here.clone(), label(right), here.clone()]);
        self.table(&columns, &rows);
        self.blank();

        let mut rows = vec![vec![String::new(), words::PLANNED.into(), String::new(), words::REALLY_USED.into()]];
        let mut row = |name: &str, planned: &str| {
            let (number, unit) = number_and_unit(planned);
            rows.push(vec![name.into(), number, unit, here.clone()]);
        };
        for (product, total) in plan.job().products().iter().zip(cleared.totals()) {
            row(product.name(), &measured_text(total.measured(), units));
        }
        row(words::CARRIER, &Quantity::from(plan.carrier()).to_people(units));
        row(words::LOADS_DONE, &format!("{}", plan.load_count()));
        row(words::AREA, &Quantity::from(plan.area_made_for()).to_people(units));
        let columns = [Column::Rest, Column::Number, Column::Unit, Column::Words(WRITE_HERE.len())];
        self.table(&columns, &rows);
        self.blank();
        self.paragraph(words::REMARKS);
        self.blank();
        self.rule('_');
    }
}

/// The rate of a calibration, and between what it is.
fn calibrated(record: &CalibrationRecord, calibration: &Calibration, units: System) -> String {
    let people = |rate: VolumeRate| Quantity::from(rate).to_people(units);
    let mix = people(calibration.volume_rate().value());
    let doubted = !calibration.volume_rate().contributions().is_empty();
    match calibration.interval(record) {
        Ok(interval) if doubted => {
            let coverage = Quantity::from(interval.coverage()).to_people(units);
            let ends = [("low", people(interval.low())), ("high", people(interval.high()))];
            let [low, high] = ends.each_ref().map(|(gap, text)| (*gap, text as _));
            filled(words::VOLUME_RATE_CALIBRATED, &[("mix", &mix), low, high, ("coverage", &coverage)])
        }
        _ => filled(words::VOLUME_RATE, &[("mix", &mix)]),
    }
}

/// Where a load runs out: ground, length and passes, as far as they are known.
fn runs_out(run_out: &RunOut, units: System) -> String {
    let people = |quantity: Quantity| quantity.to_people(units);
    let number = |passes: Ratio| significant(passes.number(), 4);
    let passes = |passes| filled(words::PASSES, &[("passes", &between(passes, number))]);
    let places = [
        Some(between(run_out.area(), |area| people(area.into()))),
        run_out.length().map(|length| between(length, |length| people(length.into()))),
        run_out.passes().map(passes),
    ];
    places.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A value, and between what it is where that is known and more than nothing.
fn between<Q>(span: Span<Q>, told: impl Fn(Q) -> String) -> String {
    let value = told(span.value);
    match (span.low.map(&told), span.high.map(&told)) {
        (Some(low), Some(high)) if low == high => value,
        (Some(low), Some(high)) => {
            filled(words::RUNS_OUT_BETWEEN, &[("value", &value), ("low", &low), ("high", &high)])
        }
        (Some(low), None) => filled(words::RUNS_OUT_FROM, &[("value", &value), ("low", &low)]),
        _ => value,
    }
}

/// What the tank holds before the first load.
fn held_what(plan: &Plan, held: &Held, units: System) -> String {
    let products = plan.job().products().iter().zip(held.amounts());
    let there = products.filter(|(_, amount)| Quantity::from(**amount) != Quantity::from(amount.none()));
    let there = there.map(|(product, amount)| {
        let amount = Quantity::from(*amount).to_people(units);
        filled(words::HELD_PRODUCT, &[("amount", &amount), ("product", &product.name())])
    });
    let there: Vec<String> = there.collect();
    if there.is_empty() {
        words::HELD_WATER.into()
    } else {
        filled(words::HELD_MIX, &[("products", &there.join(", "))])
    }
}

/// The dose that a load really delivers, and how likely it is over the maximum.
fn delivers(delivered: &DeliveredDose, units: System) -> String {
    let people = |quantity: Quantity| quantity.to_people(units);
    let (dose, interval) = (people(delivered.dose().value()), delivered.interval());
    let (low, high) = (people(interval.low()), people(interval.high()));
    let gaps: [(&str, &dyn core::fmt::Display); 3] = [("dose", &dose), ("low", &low), ("high", &high)];
    let worth_telling = |(_, over): &(Quantity, Ratio)| over.percent() >= LEAST_TOLD_PERCENT;
    match delivered.maximum().zip(delivered.probability_over()).filter(worth_telling) {
        Some((maximum, probability)) => {
            let (maximum, probability) = (people(maximum), format!("{} %", significant(probability.percent(), 2)));
            let over: [(&str, &dyn core::fmt::Display); 2] = [("probability", &probability), ("maximum", &maximum)];
            filled(words::DELIVERS_OVER, &[gaps.as_slice(), &over].concat())
        }
        None => filled(words::DELIVERS, &gaps),
    }
}

/// Whole graduations for people, with every digit that they have: rounded to four they could show more than was measured.
fn measured_text(measured: Amount, units: System) -> String {
    let measured = Quantity::from(measured);
    on_scale(measured, measured.unit_for_people(units))
}

/// Whether each load of a run has a column of boxes: where they are few, and their numbers fit above the boxes.
fn has_columns(recipe: &Recipe<'_>) -> bool {
    let load = recipe.load();
    load.count() <= MOST_COLUMNS && load.last() < 1000
}

/// The unit of the tank's scale, or that in which people are shown the safe fill: one for all volumes in the tank.
fn tank_unit(plan: &Plan) -> String {
    let unit = plan.job().tank().unit().map(String::from);
    unit.unwrap_or_else(|| number_and_unit(&Quantity::from(plan.safe_fill()).to_people(plan.job().units())).1)
}

fn number_and_unit(amount: &str) -> (String, String) {
    let (number, unit) = amount.split_once(' ').unwrap_or((amount, ""));
    (number.into(), unit.into())
}

fn reading(amount: &MeasuredAmount<'_>) -> String {
    let measure = amount.measure();
    measure.reading(measure.shows(amount.graduations()))
}

/// The measure of an amount, and how often and how far it is filled.
fn measured_with(amount: &MeasuredAmount<'_>) -> String {
    let measure = amount.measure();
    let (kind, name) = (measure.kind(), measure.name());
    let groups: Vec<(u64, u64)> = match kind {
        MeasureKind::Pack => vec![(1, amount.graduations())],
        _ => amount.fillings().groups().collect(),
    };
    // One weighing is the amount itself, which stands beside it.
    if kind == MeasureKind::Scale && matches!(groups.as_slice(), [(1, _)]) {
        return name.into();
    }
    let fillings: Vec<String> = groups
        .into_iter()
        .map(|(count, graduations)| {
            let filling = filled(
                words::filling(kind),
                &[("amount", &measure.reading(measure.shows(graduations))), ("count", &graduations)],
            );
            match count {
                1 => filling,
                _ => filled(words::FILLINGS, &[("count", &count), ("filling", &filling)]),
            }
        })
        .collect();
    filled(words::MEASURE_AND_FILLINGS, &[("measure", &name), ("fillings", &fillings.join(words::THEN))])
}

/// The containers of a product, in a line.
fn containers_of(used: &ContainerUse, units: System) -> String {
    let [content, left] = [used.content(), used.left()].map(|amount| Quantity::from(amount).to_people(units));
    let what: [(&str, &dyn core::fmt::Display); 4] =
        [("content", &content), ("opened", &used.opened()), ("emptied", &used.emptied()), ("left", &left)];
    let line = filled(words::CONTAINERS, &what);
    match used.buy() {
        Some(buy) => line + &filled(words::TAKE_AND_BUY, &[("take", &used.take()), ("buy", &buy)]),
        None => line,
    }
}

/// Which loads empty containers of a product, where any do.
fn emptied_by(amount: &MeasuredAmount<'_>) -> Option<String> {
    let emptied = amount.emptied().filter(|emptied| emptied.count() > 0)?;
    let mut loads: Vec<String> = emptied.loads().iter().map(|load| format!("{load}")).collect();
    let is_all = u64::try_from(loads.len()).is_ok_and(|named| named == emptied.count());
    loads.dedup();
    let loads = loads.join(", ") + if is_all { "" } else { words::AND_MORE };
    Some(filled(words::EMPTIES, &[("product", &amount.name()), ("count", &emptied.count()), ("loads", &loads)]))
}

/// A step as the sentence that stands on the load sheet.
#[must_use]
pub fn step(recipe: &Recipe<'_>, step: Step) -> String {
    let plan = recipe.plan();
    let units = plan.job().units();
    let is_carried = plan.job().sprayer().kind().is_carried();
    let action = step.action();
    let product = match action {
        Action::Measure { product }
        | Action::Premix { product, .. }
        | Action::Rinse { product, .. }
        | Action::RinseContainers { product, .. }
        | Action::Wait { product, .. } => recipe.amount(product).map(|amount| (product, amount)),
        Action::Fill { .. } | Action::TopUp { .. } | Action::StartAgitator | Action::Agitate => None,
    };
    let Some((index, amount)) = product else {
        let level = match action {
            Action::Fill { level, .. } | Action::TopUp { level, .. } => level_text(plan, level),
            _ => String::new(),
        };
        let template = words::step(action, MeasureKind::Vessel, false, is_carried);
        return filled(template, &[("level", &level)]);
    };
    let measure = amount.measure();
    let is_premixed =
        recipe.steps().iter().any(|other| matches!(other.action(), Action::Premix { product, .. } if product == index));
    let (times, each, containers) = match action {
        Action::Rinse { times, each, .. } => (times, in_unit(each.into(), measure.unit()), 0),
        Action::RinseContainers { containers, times, each, .. } => {
            (times, Quantity::from(each).to_people(units), containers)
        }
        _ => (0, String::new(), 0),
    };
    let minutes = |time: Time| in_unit(time.into(), words::WAITED_IN);
    let (least, most) = match action {
        Action::Wait { least, most, .. } => (minutes(least), most.map(minutes).unwrap_or_default()),
        _ => Default::default(),
    };
    filled(
        words::step(action, measure.kind(), is_premixed, is_carried),
        &[
            ("amount", &reading(&amount)),
            ("product", &amount.name()),
            ("measure", &measure.name()),
            ("measured_with", &measured_with(&amount)),
            ("carrier", &Quantity::from(step.carrier()).to_people(units)),
            ("times", &times),
            ("each", &each),
            ("containers", &containers),
            ("least", &least),
            ("most", &most),
        ],
    )
}

/// Where a filling of the tank ends.
fn level_text(plan: &Plan, level: Level) -> String {
    let mark = level.mark().map(|mark| on_scale(mark.into(), &tank_unit(plan))).unwrap_or_default();
    let rest = level.rest().map(|rest| Quantity::from(rest).to_people(plan.job().units())).unwrap_or_default();
    let template = match (level.mark(), level.rest()) {
        (Some(_), None) => words::TO_MARK,
        (Some(_), Some(_)) => words::TO_MARK_AND_REST,
        (None, _) => words::MEASURED_REST,
    };
    filled(template, &[("mark", &mark), ("rest", &rest)])
}

// -------------------------------------------------------------------------------------------------------------- lines

fn length(text: &str) -> usize {
    text.chars().count()
}

/// Pads numbers so that their points stand one below the other when they are set at the right.
fn align_points(columns: &[Column], rows: &mut [Vec<String>]) {
    let is_number = |cell: &str| cell.starts_with(|c: char| c.is_ascii_digit() || "+-".contains(c));
    let decimals = |cell: &str| cell.find('.').map_or(0, |point| cell.len() - point);
    for (i, _) in columns.iter().enumerate().filter(|(_, column)| matches!(column, Column::Number)) {
        let cells = || rows.iter().filter_map(|row| row.get(i));
        let most = cells().filter(|cell| is_number(cell)).map(|cell| decimals(cell)).max().unwrap_or(0);
        for cell in rows.iter_mut().filter_map(|row| row.get_mut(i)) {
            if is_number(cell) {
                let padding = most - decimals(cell);
                cell.extend(core::iter::repeat_n(' ', padding));
            }
        }
    }
}

/// The widths of columns: as wide as their widest cell, up to their most; [`Rest`](Column::Rest) has what is left.
fn widths(columns: &[Column], rows: &[Vec<String>]) -> Vec<usize> {
    let widest = |i: usize| {
        let rows = rows.iter().filter(|row| row.len() == columns.len());
        let cells = rows.filter_map(|row| row.get(i));
        cells.map(|cell| length(cell)).max().unwrap_or(0)
    };
    let mut widths: Vec<usize> = columns.iter().enumerate().map(|(i, column)| widest(i).min(column.most())).collect();
    let used: usize = columns
        .iter()
        .zip(&widths)
        .filter(|(_, width)| **width > 0)
        .map(|(column, width)| column.gap().len() + width)
        .sum();
    // No gap stands before the first column.
    let over = used.saturating_sub(WIDTH + 2);
    for (column, width) in columns.iter().zip(&mut widths) {
        if matches!(column, Column::Rest) {
            *width = width.saturating_sub(over).max(1);
        }
    }
    widths
}

/// Whether a word stays on one line with the next: an amount must not be torn from its unit, nor a unit apart.
fn sticks(word: &str) -> bool {
    let word = word.trim_start_matches('(');
    word.parse::<f64>().is_ok() || matches!(word, "US" | "imp" | "fl")
}

/// Lines of at most `width` characters.
fn wrapped(text: &str, width: usize) -> Vec<String> {
    if length(text) <= width {
        return vec![text.into()];
    }
    let mut pieces: Vec<String> = Vec::new();
    let mut is_open = false;
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        match pieces.last_mut() {
            Some(last) if is_open => {
                last.push(' ');
                last.push_str(word);
            }
            _ => pieces.push(word.into()),
        }
        is_open = sticks(word);
    }
    set(pieces, width)
}

/// Pieces as many to a line as fit; one that is longer than a line goes on in the next.
fn set(pieces: Vec<String>, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for piece in pieces {
        if !line.is_empty() && length(&line) + 1 + length(&piece) > width {
            lines.push(take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        for c in piece.chars() {
            if length(&line) == width {
                lines.push(take(&mut line));
            }
            line.push(c);
        }
    }
    lines.push(line);
    lines
}

/// The largest dose that limits leave, and which of them binds.
fn largest_dose(largest: &LargestDose, units: System) -> String {
    let template = if largest.parcel().is_some() { words::LARGEST_ON } else { words::LARGEST };
    filled(
        template,
        &[
            ("dose", &Quantity::from(largest.dose()).to_people(units)),
            ("binding", &largest.binding().name()),
            ("parcel", &largest.parcel().unwrap_or_default()),
            ("source", &largest.limit().source()),
        ],
    )
}

/// The ground to treat, and what it is made of where the job says.
fn ground(ground: &Ground, units: System) -> String {
    let people = |area: Area| Quantity::from(area).to_people(units);
    let mut text = filled(words::AREA_VALUE, &[("area", &people(ground.treated()))]);
    if !ground.buffers().is_empty() {
        let (field, buffers) = (people(ground.field()), people(ground.buffered()));
        text += &filled(words::LESS_BUFFERS, &[("field", &field), ("buffers", &buffers)]);
    }
    if ground.sprayed_twice() > Area::ZERO {
        text += &filled(words::SPRAYED_TWICE, &[("twice", &people(ground.sprayed_twice()))]);
    }
    text
}

/// A quantity, and what it is counted on where that is not said by its unit.
fn on_basis(quantity: Quantity, basis: Basis, units: System) -> String {
    quantity.to_people(units) + text::on_basis(basis)
}

/// The dose of a product beside the most that is allowed, for whoever checks the amounts.
fn dose(plan: &Plan, index: usize, product: &Product) -> String {
    let units = plan.job().units();
    let people = |dose: Dose| on_basis(dose.into(), dose.basis(), units);
    let mut stated = people(product.dose());
    if let (Dose::PerCrop(_), Some(on_ground)) = (product.dose(), plan.doses(index).first()) {
        stated = filled(words::ON_GROUND, &[("dose", &stated), ("ground", &people(*on_ground))]);
    }
    if let Some(least) = product.at_least() {
        stated = filled(words::DOSE_AND_LEAST, &[("dose", &stated), ("least", &people(least))]);
    }
    if product.is_its_own_maximum() {
        return filled(words::DOSE_IS_MOST, &[("dose", &stated)]);
    }
    let most: Vec<String> = product.largest_doses().map(|(_, dose)| people(dose)).collect();
    let source = product.label().source_text();
    filled(words::DOSE, &[("dose", &stated), ("most", &most.join(words::AND)), ("source", &source)])
}
