//! The plan document: wire structs, filled from a [`Plan`].

use alloc::string::{String, ToString};
use alloc::vec::Vec;

use serde::Serialize;

use super::calibration::{CalibratedWire, IntervalWire};
use super::job::{BasisWire, JobWire};
use super::stated::Stated;
use crate::finding::{Caution, Finding, Reading};
use crate::label::{Dose, Product};
use crate::measure::{Amount, Measure};
use crate::plan::{
    Action, Cleared, FieldList, Ground, JarTest, LargestDose, Ledger, Level, Load, MeasuredAmount, MixingOrder,
    OrderedProduct, Plan, ProductToTake, Recipe, Span, Step, SubstanceTotal, Total,
};
use crate::quantity::{Quantity, Ratio, Volume};

wire_out! {
    /// A job worked out.
    struct PlanWire {
        /// The format of this document.
        format: PlanFormat,
        /// Whether it may be carried out: no stop stands.
        usable: bool,
        /// The job that it was made from.
        job: JobWire,
        /// The most that the tank may be filled to.
        safe_fill: Stated,
        /// The ground of the job.
        area: Stated,
        /// What the ground is made of, where the job states it by its parts.
        #[serde(skip_serializing_if = "Option::is_none")]
        ground: Option<GroundPlanWire>,
        /// Volume of mix per ground area.
        volume_rate: Stated,
        /// Volume of carrier per ground area.
        carrier_rate: Stated,
        /// What the job's calibration comes to; absent where the job states its rate.
        #[serde(skip_serializing_if = "Option::is_none")]
        calibration: Option<CalibratedWire>,
        /// What the water analysis comes to; absent where the job states none.
        #[serde(skip_serializing_if = "Option::is_none")]
        water: Option<WaterPlanWire>,
        /// What the tank holds before the first load, which tops it up; absent where the job states none.
        #[serde(skip_serializing_if = "Option::is_none")]
        start: Option<HeldPlanWire>,
        /// The strip kept for the rinse water.
        last_strip: Option<LastStripWire>,
        /// What stays in the sprayer after spraying out.
        residual: Option<ResidualGroundWire>,
        /// The order in which the products go into the tank; absent where the job asks for none, and they go in as it has them.
        #[serde(skip_serializing_if = "Option::is_none")]
        mixing: Option<MixingOrderWire>,
        /// Of all loads.
        totals: TotalsWire,
        /// The loads, equal ones together.
        loads: Vec<LoadWire>,
        /// Where everything came from and went; null where a stop stands.
        ledger: Option<LedgerWire>,
        /// Everything to take along; absent where the job does not ask for it, and where a stop stands.
        #[serde(skip_serializing_if = "Option::is_none")]
        field_list: Option<FieldListWire>,
        /// What is to be said of it: stops, cautions, notes.
        findings: Vec<FindingWire>,
        /// Cautions for people.
        cautions: Vec<CautionWire>,
    }

    /// What a water analysis comes to.
    struct WaterPlanWire {
        /// As calcium carbonate.
        hardness: Stated,
        /// soft, moderate, hard or very-hard.
        hardness_class: &'static str,
        /// Ammonium sulfate per volume of mix that binds what is in it.
        ammonium_sulfate_need: Stated,
    }

    /// What the ground is made of: `area = field - buffers`.
    struct GroundPlanWire {
        /// The field, buffers inside.
        field: Stated,
        /// Ground that the buffers take.
        buffers: Stated,
        /// Ground that overlap sprays twice.
        sprayed_twice: Stated,
    }

    /// The strip kept for the rinse water.
    struct LastStripWire {
        /// Mix that is not made.
        held_back: Stated,
        /// Ground left untreated by it and by the residual.
        area: Stated,
    }

    /// What stays in the sprayer, and the ground that goes short by it.
    struct ResidualGroundWire {
        /// Dilutable and not.
        volume: Stated,
        /// Null where a strip is kept.
        ground_short: Option<Stated>,
    }

    /// The order in which the products go into the tank. It is one of several that are published.
    struct MixingOrderWire {
        /// The profile that it follows where no label says otherwise.
        profile: &'static str,
        /// Who says so.
        source: &'static str,
        /// The products, in this order.
        products: Vec<OrderedProductWire>,
        /// What goes into a jar; null where none is asked for, and where a stop stands.
        jar_test: Option<JarTestWire>,
    }

    /// A product's place in the mixing order.
    struct OrderedProductWire {
        /// The product.
        name: String,
        /// What it goes in with.
        group: &'static str,
        /// Why it stands there, and who says so.
        reason: String,
    }

    /// The mix in small.
    struct JarTestWire {
        /// Volume of mix.
        volume: Stated,
        /// Volume of carrier.
        carrier: Stated,
        /// Per product of the job.
        products: Vec<JarAmountWire>,
    }

    /// A product's amount in a jar.
    struct JarAmountWire {
        /// The product.
        name: String,
        /// What the dose asks for.
        exact: Stated,
    }

    /// What the tank holds before the first load.
    struct HeldPlanWire {
        /// Volume of it.
        volume: Stated,
        /// Per product of the job.
        products: Vec<HeldAmountWire>,
    }

    /// How much of a product the tank holds.
    struct HeldAmountWire {
        /// The product.
        name: String,
        /// How much.
        amount: Stated,
    }

    /// Of all loads.
    struct TotalsWire {
        /// How many.
        loads: u64,
        /// Volume of mix.
        mix: Stated,
        /// Volume of carrier.
        carrier: Stated,
        /// Ground that the mix is made for.
        area: Stated,
        /// Per product of the job.
        products: Vec<TotalWire>,
        /// Summed across products, by name; absent where no product states what acts in it.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        active_substances: Vec<SubstanceTotalWire>,
    }

    /// What the plan brings out of an active substance. Null where a density is missing.
    struct SubstanceTotalWire {
        /// The substance, or the acid or element that it is counted as.
        name: String,
        /// Per ground area.
        dose: Option<Stated>,
        /// In what the doses ask for.
        exact: Option<Stated>,
        /// In what the measures show; null where a stop stands.
        measured: Option<Stated>,
    }

    /// What all loads take of a product. What is measured is null where a stop stands.
    struct TotalWire {
        /// The product.
        name: String,
        /// The dose on every basis that the job says enough of.
        doses: Vec<DoseWire>,
        /// What the dose asks for.
        exact: Stated,
        /// What the measures show.
        measured: Option<Stated>,
        /// Measured less exact.
        gap: Option<GapWire>,
        /// Whole graduations per measure: recipe times count.
        drawn: Option<Vec<DrawnWire>>,
        /// What the job does with its containers; absent where it states none, and where a stop stands.
        #[serde(skip_serializing_if = "Option::is_none")]
        containers: Option<ContainerUseWire>,
        /// The largest dose that the limits given leave on the planned date; absent without a season, and where a limit could not be checked.
        #[serde(skip_serializing_if = "Option::is_none")]
        largest_dose: Option<LargestDoseWire>,
    }

    /// What a job does with the containers of a product; the one that is open is used up first.
    struct ContainerUseWire {
        /// What one holds.
        content: Stated,
        /// How many full ones are opened.
        opened: u64,
        /// How many are emptied, the one that was open among them.
        emptied: u64,
        /// What is left over in the last one that is opened.
        left: Stated,
        /// How many full ones to take along.
        take: u64,
        /// How many to buy; null where it is not stated how many there are.
        buy: Option<u64>,
    }

    /// The containers that some equal loads empty.
    struct EmptiedWire {
        /// How many.
        count: u64,
        /// The loads that empty them, one number for each container; the first twenty.
        loads: Vec<u64>,
    }

    /// The largest dose that the limits given leave: a sum, and no permission.
    struct LargestDoseWire {
        /// Per ground area; none where a treatment is forbidden.
        dose: Stated,
        /// Which limit binds: max-treatments, min-interval, waiting-period, growth-stage, max-dose or cap.
        binding: &'static str,
        /// The parcel on which it binds, where parcels have names.
        parcel: Option<String>,
        /// The limit itself; null where it is no amount.
        limit: Option<Stated>,
        /// Where it stands.
        source: String,
    }

    /// A dose on a basis.
    struct DoseWire {
        /// What it is counted on.
        basis: BasisWire,
        /// The dose.
        dose: Stated,
    }

    /// Measured less exact.
    struct GapWire {
        /// In percent of the exact amount.
        percent: f64,
        /// Per ground area.
        dose: Stated,
    }

    /// Whole graduations of a measure.
    struct DrawnWire {
        /// The measure.
        measure: String,
        /// Its step.
        graduation: Stated,
        /// How many of it.
        count: u64,
    }

    /// Equal loads that follow each other.
    struct LoadWire {
        /// Number of the first.
        first: u64,
        /// Number of the last.
        last: u64,
        /// How many.
        count: u64,
        /// Volume of mix in each.
        mix: Stated,
        /// How uncertain that is where it is read on the tank's scale; absent where no mark is reached.
        #[serde(skip_serializing_if = "Option::is_none")]
        mix_uncertainty: Option<UncertaintyWire>,
        /// Volume of carrier in each.
        carrier: Stated,
        /// Ground that each serves.
        area: Stated,
        /// Where each runs out; absent where the job has neither a calibration nor a pass.
        #[serde(skip_serializing_if = "Option::is_none")]
        run_out: Option<RunOutWire>,
        /// Per product of the job.
        products: Vec<PortionWire>,
        /// What to do, in order; empty where a stop stands.
        steps: Vec<StepWire>,
    }

    /// A product's amount in a load. What is measured is null where a stop stands.
    struct PortionWire {
        /// The product.
        name: String,
        /// What the dose asks for.
        exact: Stated,
        /// What the measure shows.
        measured: Option<Stated>,
        /// Measured less exact.
        gap: Option<GapWire>,
        /// The measure.
        measure: Option<String>,
        /// Whole graduations of it.
        graduations: Option<u64>,
        /// How it is poured.
        fillings: Option<Vec<FillingWire>>,
        /// The containers that these loads empty; absent where the job states none, and where a stop stands.
        #[serde(skip_serializing_if = "Option::is_none")]
        emptied: Option<EmptiedWire>,
        /// How uncertain the measured amount is; absent where its measure states neither class nor tolerance, and where a stop stands.
        #[serde(skip_serializing_if = "Option::is_none")]
        uncertainty: Option<UncertaintyWire>,
        /// The dose that is really delivered, as far as the calibration, the measure and the tank's scale tell; absent without one, and where a stop stands.
        #[serde(skip_serializing_if = "Option::is_none")]
        delivered: Option<DeliveredWire>,
    }

    /// How uncertain an amount is, with a coverage factor of 2.
    struct UncertaintyWire {
        /// In percent of the amount.
        percent: f64,
        /// The same as an amount.
        amount: Stated,
    }

    /// Where a load runs out.
    struct RunOutWire {
        /// After so much ground.
        area: SpanWire,
        /// After such a length with the boom open; absent where the job states no pass.
        #[serde(skip_serializing_if = "Option::is_none")]
        length: Option<SpanWire>,
        /// After so many passes; absent where the job does not state their length.
        #[serde(skip_serializing_if = "Option::is_none")]
        passes: Option<PassesWire>,
    }

    /// A value, and between what it is where a calibration tells.
    struct SpanWire {
        /// What it comes to at the volume rate of the plan.
        value: Stated,
        /// The least; null without a calibration.
        low: Option<Stated>,
        /// The most; null without a calibration, and where its doubt does not bound it.
        high: Option<Stated>,
    }

    /// A number of passes, and between what it is where a calibration tells.
    struct PassesWire {
        /// What it comes to at the volume rate of the plan.
        value: f64,
        /// The least; null without a calibration.
        low: Option<f64>,
        /// The most; null without a calibration, and where its doubt does not bound it.
        high: Option<f64>,
    }

    /// The dose that is really delivered, as far as the calibration, the measure and the tank's scale tell.
    struct DeliveredWire {
        /// Per ground area, in one pass.
        dose: Stated,
        /// Its standard uncertainty.
        standard_uncertainty: Stated,
        /// Between what it is, with the coverage of the calibration.
        interval: IntervalWire,
        /// The probability that it is over the most that is allowed per ground area; null where none is counted so.
        probability_over: Option<f64>,
        /// What to aim at to keep to the risk of the calibration; null where it states none.
        aim: Option<Stated>,
    }

    /// Equal fillings of a measure.
    struct FillingWire {
        /// How many.
        count: u64,
        /// What each shows.
        amount: Stated,
    }

    /// Where everything came from and went.
    struct LedgerWire {
        /// Per product of the job.
        products: Vec<ProductAccountWire>,
        /// The carrier in the loads.
        carrier: CarrierAccountWire,
        /// The mix.
        mix: MixAccountWire,
    }

    /// `drawn = in_loads + spilled`, `stock = drawn + left`.
    struct ProductAccountWire {
        /// The product.
        name: String,
        /// What there was.
        stock: Option<Stated>,
        /// Taken out of containers.
        drawn: Stated,
        /// Measured into loads.
        in_loads: Stated,
        /// Spilled.
        spilled: Stated,
        /// What is left of the stock; below zero where it is short.
        left: Option<Stated>,
    }

    /// `drawn = first + premixed + rinses + topped_up`.
    struct CarrierAccountWire {
        /// In all.
        drawn: Stated,
        /// Before the products.
        first: Stated,
        /// For premixes.
        premixed: Stated,
        /// For rinsing the measures.
        rinses: Stated,
        /// After the products.
        topped_up: Stated,
        /// What of that is for rinses of emptied containers; absent where none are rinsed.
        #[serde(skip_serializing_if = "Option::is_none")]
        container_rinses: Option<Stated>,
    }

    /// `at_start + made = sprayed + residual`.
    struct MixAccountWire {
        /// In the tank before the first load; absent where that is nothing.
        #[serde(skip_serializing_if = "Option::is_none")]
        at_start: Option<Stated>,
        /// In all loads.
        made: Stated,
        /// Leaves the nozzles.
        sprayed: Stated,
        /// Stays in the sprayer.
        residual: Stated,
    }

    /// Everything to take along for the job.
    struct FieldListWire {
        /// The products of the job.
        products: Vec<ProductToTakeWire>,
        /// The clean water, by what it is for.
        water: WaterToTakeWire,
        /// The measures that amounts are measured with.
        measures: Vec<String>,
        /// What the labels ask to be worn, as they say it.
        protection: WornWire,
        /// What a spill kit holds.
        spill_kit: &'static str,
    }

    /// A product to take along.
    struct ProductToTakeWire {
        /// The product.
        name: String,
        /// What all loads take of it.
        amount: Stated,
        /// How many of its containers go along, the one that is open among them; null where the job states none.
        containers: Option<u64>,
        /// How many of them are still to be bought; null where it is not stated how many there are.
        buy: Option<u64>,
    }

    /// `total = carrier + tank_rinse + hands + eyes`.
    struct WaterToTakeWire {
        /// In all.
        total: Stated,
        /// For all loads, rinses of measures and containers among it.
        carrier: Stated,
        /// What of that is for rinsing measures.
        measure_rinses: Stated,
        /// What of that is for rinsing emptied containers.
        container_rinses: Stated,
        /// For rinsing the tank after spraying.
        tank_rinse: Stated,
        /// For washing hands.
        hands: Stated,
        /// For flushing eyes.
        eyes: Stated,
    }

    /// What the labels ask to be worn, as they say it.
    struct WornWire {
        /// For mixing.
        mixing: Vec<String>,
        /// For spraying.
        spraying: Vec<String>,
        /// Products of which the job does not state it.
        unstated: Vec<String>,
    }

    /// A sentence about the plan.
    struct FindingWire {
        /// stop, caution or note.
        severity: &'static str,
        /// Stable code.
        code: &'static str,
        /// The field of the job that it concerns.
        path: String,
        /// The first load that it concerns.
        load: Option<u64>,
        /// The sentence.
        message: String,
        /// What was found.
        actual: Option<Stated>,
        /// What it is held against.
        limit: Option<LimitWire>,
        /// What the value may have been meant as, the likeliest first; absent where nothing of the kind is thought.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        readings: Vec<ReadingWire>,
        /// What would help, of an amount that is hard to measure; absent elsewhere.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        help: Vec<String>,
    }

    /// What a value may have been meant as.
    struct ReadingWire {
        /// The value that it would be.
        value: Stated,
        /// What was meant.
        meant: &'static str,
        /// What was stated instead.
        stated: &'static str,
    }

    /// A limit.
    struct LimitWire {
        /// at most or at least.
        bound: &'static str,
        /// The limit itself.
        value: Stated,
        /// law, label, standard or advice.
        force: &'static str,
        /// Where it stands.
        source: String,
    }

    /// A caution for people.
    struct CautionWire {
        /// Stable code.
        code: &'static str,
        /// The caution.
        text: &'static str,
    }
}

/// The format of a plan document.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(super) enum PlanFormat {
    /// The first format.
    #[serde(rename = "mixcalc-plan/1")]
    One,
}

/// One step, told apart by `do`.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(tag = "do", rename_all = "kebab-case")]
pub(super) enum StepWire {
    /// Fill the tank with the first carrier.
    Fill {
        /// How much.
        carrier: Stated,
        /// The tank's mark to fill to.
        mark: Option<Stated>,
        /// What is measured on top of the mark, or in all.
        rest: Option<Stated>,
        /// What the tank then holds.
        in_tank: Stated,
    },
    /// Measure a product, and pour it in unless it is premixed.
    Measure {
        /// The product.
        product: String,
        /// The measure.
        measure: String,
        /// How it is poured.
        fillings: Vec<FillingWire>,
        /// What the tank then holds.
        in_tank: Stated,
    },
    /// Stir the measured product into carrier, and pour that in.
    Premix {
        /// The product.
        product: String,
        /// How much carrier.
        carrier: Stated,
        /// What the tank then holds.
        in_tank: Stated,
    },
    /// Rinse the measure of a product, and pour the rinses in.
    Rinse {
        /// The product.
        product: String,
        /// The measure.
        measure: String,
        /// How often.
        times: u64,
        /// How much carrier each time.
        each: Stated,
        /// What the tank then holds.
        in_tank: Stated,
    },
    /// Rinse the containers of a product that the load empties; their carrier is a part of the top-up.
    RinseContainers {
        /// The product.
        product: String,
        /// How many containers one of the loads empties at most.
        containers: u64,
        /// How often.
        times: u64,
        /// How much carrier each time.
        each: Stated,
        /// What the tank holds before it.
        in_tank: Stated,
    },
    /// Wait until a product is dispersed or dissolved.
    Wait {
        /// The product.
        product: String,
        /// How long at least.
        least: Stated,
        /// How long at most as a rule; null where a label says how long.
        most: Option<Stated>,
        /// What the tank holds.
        in_tank: Stated,
    },
    /// Start the agitator, and let it run until the tank is empty.
    StartAgitator {
        /// What the tank holds.
        in_tank: Stated,
    },
    /// Agitate until the mix is even.
    Agitate {
        /// What the tank holds.
        in_tank: Stated,
    },
    /// Fill up with what is left of the carrier.
    TopUp {
        /// How much.
        carrier: Stated,
        /// The tank's mark to fill to.
        mark: Option<Stated>,
        /// What is measured on top of the mark, or in all.
        rest: Option<Stated>,
        /// What the tank then holds.
        in_tank: Stated,
    },
}

impl PlanWire {
    pub(super) fn of(plan: &Plan) -> Self {
        let cleared = plan.cleared();
        let has_residual = plan.residual() > Volume::ZERO;
        Self {
            format: PlanFormat::One,
            usable: plan.usable(),
            job: JobWire::of(plan.job()),
            safe_fill: Stated::of(plan.safe_fill()),
            area: Stated::of(plan.job().area()),
            ground: plan.job().ground().is_by_parts().then(|| ground(plan.job().ground())),
            volume_rate: Stated::of(plan.volume_rate()),
            carrier_rate: Stated::of(plan.carrier_rate()),
            calibration: plan.job().calibration().map(|(record, calibration)| CalibratedWire::of(record, calibration)),
            water: plan.job().water().map(|water| WaterPlanWire {
                hardness: Stated::of(water.hardness()),
                hardness_class: water.hardness_class().name(),
                ammonium_sulfate_need: Stated::of(water.ammonium_sulfate_need()),
            }),
            start: plan.start().map(|held| HeldPlanWire {
                volume: Stated::of(held.volume()),
                products: plan.job().products().iter().zip(held.amounts()).map(held_amount).collect(),
            }),
            last_strip: plan.last_strip().map(|strip| LastStripWire {
                held_back: Stated::of(strip.held_back()),
                area: Stated::of(strip.area()),
            }),
            residual: has_residual.then(|| ResidualGroundWire {
                volume: Stated::of(plan.residual()),
                ground_short: plan.ground_short().map(Stated::of),
            }),
            mixing: plan.mixing_order().map(|order| mixing(plan, order)),
            totals: totals(plan, cleared.as_ref()),
            loads: loads(plan, cleared.as_ref()),
            ledger: cleared.map(|cleared| ledger(plan, &cleared.ledger())),
            field_list: plan.field_list_asked().as_ref().map(field_list),
            findings: plan.findings().iter().map(finding).collect(),
            cautions: plan.cautions().map(caution).collect(),
        }
    }
}

fn ground(ground: &Ground) -> GroundPlanWire {
    GroundPlanWire {
        field: Stated::of(ground.field()),
        buffers: Stated::of(ground.buffered()),
        sprayed_twice: Stated::of(ground.sprayed_twice()),
    }
}

fn held_amount((product, amount): (&Product, &Amount)) -> HeldAmountWire {
    HeldAmountWire { name: product.name().to_string(), amount: Stated::of(*amount) }
}

fn mixing(plan: &Plan, order: &MixingOrder) -> MixingOrderWire {
    let name = |product: usize| plan.job().products().get(product).map_or_else(String::new, |it| it.name().to_string());
    let jar = |jar: JarTest| JarTestWire {
        volume: Stated::of(jar.volume()),
        carrier: Stated::of(jar.carrier()),
        products: (0..)
            .zip(jar.amounts())
            .map(|(i, amount)| JarAmountWire { name: name(i), exact: Stated::of(*amount) })
            .collect(),
    };
    let place = |at: &OrderedProduct| OrderedProductWire {
        name: name(at.product()),
        group: at.group().name(),
        reason: at.reason().to_string(),
    };
    MixingOrderWire {
        profile: order.profile().name(),
        source: order.profile().source(),
        products: order.products().iter().map(place).collect(),
        jar_test: plan.jar_test_asked().map(jar),
    }
}

fn totals(plan: &Plan, cleared: Option<&Cleared<'_>>) -> TotalsWire {
    let measured: Vec<Total<'_>> = cleared.map(|cleared| cleared.totals().collect()).unwrap_or_default();
    let products = plan.job().products().iter().zip(plan.exact_totals()).enumerate();
    let doses = |index| plan.doses(index).into_iter().map(dose).collect();
    let largest = plan.largest_doses();
    TotalsWire {
        loads: plan.load_count(),
        mix: Stated::of(plan.made()),
        carrier: Stated::of(plan.carrier()),
        area: Stated::of(plan.area_made_for()),
        products: products
            .map(|(index, (product, exact))| {
                let largest = largest.get(index).and_then(Option::as_ref);
                total(product.name(), doses(index), exact, measured.get(index), largest)
            })
            .collect(),
        active_substances: plan.substances().iter().map(substance).collect(),
    }
}

fn dose(dose: Dose) -> DoseWire {
    DoseWire { basis: dose.basis().into(), dose: Stated::of(dose) }
}

fn substance(total: &SubstanceTotal) -> SubstanceTotalWire {
    SubstanceTotalWire {
        name: total.name().to_string(),
        dose: total.dose().map(Stated::of),
        exact: total.exact().map(Stated::of),
        measured: total.measured().map(Stated::of),
    }
}

fn total(
    name: &str,
    doses: Vec<DoseWire>,
    exact: Amount,
    measured: Option<&Total<'_>>,
    largest: Option<&LargestDose>,
) -> TotalWire {
    TotalWire {
        name: name.to_string(),
        doses,
        exact: Stated::of(exact),
        measured: measured.map(|total| Stated::of(total.measured())),
        gap: measured.map(|total| gap(total.gap(), total.dose_gap())),
        drawn: measured.map(|total| {
            let drawn = |(measure, count): (&Measure, u64)| DrawnWire {
                measure: measure.name().to_string(),
                graduation: Stated::of(measure.graduation()),
                count,
            };
            total.drawn().map(drawn).collect()
        }),
        containers: measured.and_then(Total::containers).map(|used| ContainerUseWire {
            content: Stated::of(used.content()),
            opened: used.opened(),
            emptied: used.emptied(),
            left: Stated::of(used.left()),
            take: used.take(),
            buy: used.buy(),
        }),
        largest_dose: largest.map(|largest| LargestDoseWire {
            dose: Stated::of(largest.dose()),
            binding: largest.binding().name(),
            parcel: largest.parcel().map(ToString::to_string),
            limit: largest.most().map(Stated::of),
            source: largest.limit().source().to_string(),
        }),
    }
}

fn gap(gap: Ratio, dose: Quantity) -> GapWire {
    GapWire { percent: gap.in_percent(), dose: Stated::of(dose) }
}

fn loads(plan: &Plan, cleared: Option<&Cleared<'_>>) -> Vec<LoadWire> {
    let recipes: Vec<Recipe<'_>> = cleared.map(|cleared| cleared.recipes().collect()).unwrap_or_default();
    plan.loads().iter().enumerate().map(|(index, run)| load(plan, run, recipes.get(index))).collect()
}

fn load(plan: &Plan, load: &Load, recipe: Option<&Recipe<'_>>) -> LoadWire {
    let products = plan.job().products().iter().zip(load.exact_amounts()).enumerate();
    let steps = recipe.map(Recipe::steps).unwrap_or_default();
    LoadWire {
        first: load.first(),
        last: load.last(),
        count: load.count(),
        mix: Stated::of(load.mix()),
        mix_uncertainty: plan
            .mix_uncertainty(load)
            .zip(plan.uncertain_mix(load))
            .map(|(uncertainty, mix)| UncertaintyWire { percent: uncertainty.in_percent(), amount: Stated::of(mix) }),
        carrier: Stated::of(plan.carrier_in(load)),
        area: Stated::of(load.area()),
        run_out: plan.run_out(load).map(|run_out| RunOutWire {
            area: span(run_out.area()),
            length: run_out.length().map(span),
            passes: run_out.passes().map(|passes| PassesWire {
                value: passes.value.number(),
                low: passes.low.map(Ratio::number),
                high: passes.high.map(Ratio::number),
            }),
        }),
        products: products
            .map(|(index, (product, exact))| {
                portion(product.name(), exact, recipe.and_then(|recipe| recipe.amount(index)).as_ref())
            })
            .collect(),
        steps: recipe.map(|recipe| steps.iter().map(|s| step(recipe, *s)).collect()).unwrap_or_default(),
    }
}

fn portion(name: &str, exact: Amount, measured: Option<&MeasuredAmount<'_>>) -> PortionWire {
    PortionWire {
        name: name.to_string(),
        exact: Stated::of(exact),
        measured: measured.map(|amount| Stated::of(amount.measured())),
        gap: measured.map(|amount| gap(amount.gap(), amount.dose_gap())),
        measure: measured.map(|amount| amount.measure().name().to_string()),
        graduations: measured.map(MeasuredAmount::graduations),
        fillings: measured.map(fillings),
        emptied: measured
            .and_then(MeasuredAmount::emptied)
            .map(|emptied| EmptiedWire { count: emptied.count(), loads: emptied.loads().to_vec() }),
        uncertainty: measured.and_then(|amount| {
            let (percent, amount) = (amount.uncertainty()?.in_percent(), Stated::of(amount.uncertain_amount()?));
            Some(UncertaintyWire { percent, amount })
        }),
        delivered: measured.and_then(MeasuredAmount::delivered).map(|delivered| DeliveredWire {
            dose: Stated::of(delivered.dose().value()),
            standard_uncertainty: Stated::of(delivered.dose().standard_uncertainty()),
            interval: IntervalWire::of(delivered.interval()),
            probability_over: delivered.probability_over().map(Ratio::number),
            aim: delivered.aim().map(Stated::of),
        }),
    }
}

fn span<Q: Into<Quantity>>(span: Span<Q>) -> SpanWire {
    SpanWire { value: Stated::of(span.value), low: span.low.map(Stated::of), high: span.high.map(Stated::of) }
}

fn fillings(amount: &MeasuredAmount<'_>) -> Vec<FillingWire> {
    let groups = amount.fillings().groups();
    groups
        .map(|(count, graduations)| FillingWire { count, amount: Stated::of(amount.measure().shows(graduations)) })
        .collect()
}

fn step(recipe: &Recipe<'_>, step: Step) -> StepWire {
    let in_tank = Stated::of(step.in_tank());
    let amount = |product: usize| recipe.amount(product);
    let product_name = |product: usize| amount(product).map(|amount| amount.name().to_string()).unwrap_or_default();
    let measure_name =
        |product: usize| amount(product).map(|amount| amount.measure().name().to_string()).unwrap_or_default();
    let parts = |level: Level| (level.mark().map(Stated::of), level.rest().map(Stated::of));
    match step.action() {
        Action::Fill { carrier, level } => {
            let (mark, rest) = parts(level);
            StepWire::Fill { carrier: Stated::of(carrier), mark, rest, in_tank }
        }
        Action::Measure { product } => StepWire::Measure {
            product: product_name(product),
            measure: measure_name(product),
            fillings: amount(product).as_ref().map(fillings).unwrap_or_default(),
            in_tank,
        },
        Action::Premix { product, carrier } => {
            StepWire::Premix { product: product_name(product), carrier: Stated::of(carrier), in_tank }
        }
        Action::Rinse { product, times, each } => StepWire::Rinse {
            product: product_name(product),
            measure: measure_name(product),
            times,
            each: Stated::of(each),
            in_tank,
        },
        Action::RinseContainers { product, containers, times, each } => StepWire::RinseContainers {
            product: product_name(product),
            containers,
            times,
            each: Stated::of(each),
            in_tank,
        },
        Action::Wait { product, least, most } => StepWire::Wait {
            product: product_name(product),
            least: Stated::of(least),
            most: most.map(Stated::of),
            in_tank,
        },
        Action::StartAgitator => StepWire::StartAgitator { in_tank },
        Action::Agitate => StepWire::Agitate { in_tank },
        Action::TopUp { carrier, level } => {
            let (mark, rest) = parts(level);
            StepWire::TopUp { carrier: Stated::of(carrier), mark, rest, in_tank }
        }
    }
}

fn ledger(plan: &Plan, ledger: &Ledger) -> LedgerWire {
    let products = plan.job().products().iter().zip(ledger.products());
    let carrier = ledger.carrier();
    LedgerWire {
        products: products
            .map(|(product, account)| ProductAccountWire {
                name: product.name().to_string(),
                stock: account.stock().map(Stated::of),
                drawn: Stated::of(account.drawn()),
                in_loads: Stated::of(account.in_loads()),
                spilled: Stated::of(account.spilled()),
                left: account.left().map(Stated::of),
            })
            .collect(),
        carrier: CarrierAccountWire {
            drawn: Stated::of(carrier.drawn()),
            first: Stated::of(carrier.first()),
            premixed: Stated::of(carrier.premixed()),
            rinses: Stated::of(carrier.rinses()),
            topped_up: Stated::of(carrier.topped_up()),
            container_rinses: carrier.container_rinses().map(Stated::of),
        },
        mix: MixAccountWire {
            at_start: plan.start().map(|_| Stated::of(ledger.at_start())),
            made: Stated::of(ledger.made()),
            sprayed: Stated::of(ledger.sprayed()),
            residual: Stated::of(ledger.residual()),
        },
    }
}

fn field_list(list: &FieldList<'_>) -> FieldListWire {
    let water = list.water();
    let texts = |texts: &[&str]| texts.iter().map(ToString::to_string).collect();
    let product = |product: &ProductToTake<'_>| ProductToTakeWire {
        name: product.name().to_string(),
        amount: Stated::of(product.amount()),
        containers: product.containers(),
        buy: product.buy(),
    };
    FieldListWire {
        products: list.products().iter().map(product).collect(),
        water: WaterToTakeWire {
            total: Stated::of(water.total()),
            carrier: Stated::of(water.carrier()),
            measure_rinses: Stated::of(water.measure_rinses()),
            container_rinses: Stated::of(water.container_rinses()),
            tank_rinse: Stated::of(water.tank_rinse()),
            hands: Stated::of(water.hands()),
            eyes: Stated::of(water.eyes()),
        },
        measures: list.measures().iter().map(|measure| measure.name().to_string()).collect(),
        protection: WornWire {
            mixing: texts(list.worn_for_mixing()),
            spraying: texts(list.worn_for_spraying()),
            unstated: texts(list.protection_unstated()),
        },
        spill_kit: list.spill_kit(),
    }
}

fn finding(finding: &Finding) -> FindingWire {
    FindingWire {
        severity: finding.severity().name(),
        code: finding.code().name(),
        path: finding.path().to_string(),
        load: finding.load(),
        message: finding.message(),
        actual: finding.actual().map(Stated::of),
        limit: finding.limit().map(|limit| LimitWire {
            bound: limit.bound().name(),
            value: Stated::of(limit.value()),
            force: limit.force().name(),
            source: limit.source().to_string(),
        }),
        readings: finding.readings().iter().map(reading).collect(),
        help: finding.help().to_vec(),
    }
}

fn reading(reading: &Reading) -> ReadingWire {
    ReadingWire { value: Stated::of(reading.value()), meant: reading.meant(), stated: reading.stated() }
}

fn caution(caution: Caution) -> CautionWire {
    CautionWire { code: caution.code(), text: caution.text() }
}
