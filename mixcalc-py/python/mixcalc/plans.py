"""What a plan holds, as named tuples: they are typed, compare, unpack, pickle, and make rows of a table.

A plan with a stop has no measured amounts: the fields that say so are then ``None``.
"""

from typing import Any, NamedTuple

from mixcalc._mixcalc import Area, LiquidDose, Mass, MassPerArea, MassPerVolume, Quantity, Ratio, SolidDose, Time, Volume, VolumePerArea
from mixcalc import uncertainty


class Gap(NamedTuple):
    """Measured less exact."""

    percent: float
    """In percent of the exact amount."""
    dose: Quantity
    """Per ground area."""


class Filling(NamedTuple):
    """Equal fillings of a measure."""

    count: int  # type: ignore[assignment]  # hides a method of tuples that nobody misses
    """How many."""
    amount: Volume | Mass
    """What each shows."""


class DeliveredDose(NamedTuple):
    """The dose that is really delivered, as far as the calibration, the measure and the tank's scale tell: what states no uncertainty is taken as it stands."""

    dose: MassPerArea | VolumePerArea
    """Per ground area, in one pass."""
    standard_uncertainty: MassPerArea | VolumePerArea
    """Its standard uncertainty."""
    interval: uncertainty.Interval
    """Between what it is, with the coverage of the calibration."""
    probability_over: float | None
    """The probability that it is over the most that is allowed per ground area; `None` where none is counted so."""
    aim: MassPerArea | VolumePerArea | None
    """What to aim at to keep to the risk of the calibration; `None` where it states none."""


class Span(NamedTuple):
    """A value, and between what it is where a calibration tells: an end is `None` where the doubt does not bound it."""

    value: Any
    """What it comes to at the volume rate of the plan."""
    low: Any
    """The least."""
    high: Any
    """The most."""


class RunOut(NamedTuple):
    """Where a load runs out."""

    area: Span
    """After so much ground."""
    length: Span | None
    """After such a length with the boom open; `None` where the job states no pass."""
    passes: Span | None
    """After so many passes; `None` where the job does not state their length."""


class Uncertainty(NamedTuple):
    """How uncertain a measured amount is, with a coverage factor of 2."""

    percent: float
    """In percent of the amount."""
    amount: Volume | Mass
    """The same as an amount."""


class Emptied(NamedTuple):
    """The containers that some equal loads empty."""

    count: int  # type: ignore[assignment]  # hides a method of tuples that nobody misses
    """How many."""
    loads: tuple[int, ...]
    """The loads that empty them, one number for each container; the first twenty."""


class ContainerUse(NamedTuple):
    """What a job does with the containers of a product; the one that is open is used up first."""

    content: Volume | Mass
    """What one holds."""
    opened: int
    """How many full ones are opened."""
    emptied: int
    """How many are emptied, the one that was open among them."""
    left: Volume | Mass
    """What is left over in the last one that is opened."""
    take: int
    """How many full ones to take along."""
    buy: int | None
    """How many to buy; none where it is not stated how many there are."""


class Portion(NamedTuple):
    """A product's amount in a load."""

    name: str
    """The product."""
    exact: Volume | Mass
    """What the dose asks for."""
    measured: Volume | Mass | None
    """What the measure shows."""
    gap: Gap | None
    """Measured less exact."""
    measure: str | None
    """The measure."""
    shown: Volume | Mass | None
    """What the measure shows in all, in the unit on its scale; of another sort than `measured` where a density came between."""
    graduations: int | None
    """Whole graduations of it."""
    fillings: tuple[Filling, ...] | None
    """How it is poured."""
    delivered: DeliveredDose | None
    """The dose that is really delivered; `None` without a calibration."""
    uncertainty: Uncertainty | None
    """How uncertain it is; none where its measure states neither class nor tolerance."""
    emptied: Emptied | None
    """The containers that these loads empty; none where the job states none."""


class Step(NamedTuple):
    """One thing to do for a load."""

    load: int
    """The first of the equal loads that it is for."""
    action: str
    """fill, measure, premix, rinse, wait, rinse-containers, start-agitator, agitate or top-up."""
    text: str
    """The sentence on the load sheet."""
    in_tank: Volume
    """What the tank holds after it."""
    product: str | None
    """The product, where one is measured, premixed, rinsed out or waited for."""
    measure: str | None
    """The measure, where one is filled or rinsed."""
    fillings: tuple[Filling, ...]
    """How a measured amount is poured."""
    carrier: Volume | None
    """How much carrier is filled in, or stirred into a premix."""
    mark: Volume | None
    """The tank's mark to fill to."""
    rest: Volume | None
    """What is measured on top of the mark, or in all."""
    times: int | None
    """How often a measure is rinsed."""
    each: Volume | None
    """How much carrier each rinse takes."""
    least: Time | None
    """How long is waited at least."""
    most: Time | None
    """How long is waited at most as a rule; none where a label says how long."""
    containers: int | None
    """How many containers one of the loads empties at most, where they are rinsed."""


class OrderedProduct(NamedTuple):
    """A product's place in the mixing order."""

    name: str
    """The product."""
    group: str
    """What it goes in with."""
    reason: str
    """Why it stands there, and who says so."""


class JarAmount(NamedTuple):
    """A product's amount in a jar."""

    name: str
    """The product."""
    exact: Volume | Mass
    """What the dose asks for."""


class JarTest(NamedTuple):
    """The mix in small, to see whether it stays mixed."""

    volume: Volume
    """Volume of mix."""
    carrier: Volume
    """Volume of carrier."""
    products: tuple[JarAmount, ...]
    """Per product of the job."""


class MixingOrder(NamedTuple):
    """The order in which the products go into the tank; others are published that differ."""

    profile: str
    """The profile that it follows where no label says otherwise."""
    source: str
    """Who says so."""
    products: tuple[OrderedProduct, ...]
    """The products, in this order."""
    jar_test: JarTest | None
    """What goes into a jar, where the job asks for that and no stop stands."""


class ProductToTake(NamedTuple):
    """A product to take along."""

    name: str
    """The product."""
    amount: Volume | Mass
    """What all loads take of it."""
    containers: int | None
    """How many of its containers go along, the one that is open among them; `None` where the job states none."""
    buy: int | None
    """How many of them are still to be bought; `None` where it is not stated how many there are."""


class WaterToTake(NamedTuple):
    """The clean water to take along, by what it is for."""

    total: Volume
    """In all."""
    carrier: Volume
    """For all loads, rinses of measures and containers among it."""
    measure_rinses: Volume
    """What of that is for rinsing measures."""
    container_rinses: Volume
    """What of that is for rinsing emptied containers."""
    tank_rinse: Volume
    """For rinsing the tank after spraying."""
    hands: Volume
    """For washing hands."""
    eyes: Volume
    """For flushing eyes."""


class Worn(NamedTuple):
    """What the labels ask to be worn, as they say it."""

    mixing: tuple[str, ...]
    """For mixing."""
    spraying: tuple[str, ...]
    """For spraying."""
    unstated: tuple[str, ...]
    """Products of which the job does not state it: look at their labels."""


class FieldList(NamedTuple):
    """Everything to take along for a job."""

    products: tuple[ProductToTake, ...]
    """The products of the job."""
    water: WaterToTake
    """The clean water, by what it is for."""
    measures: tuple[str, ...]
    """The measures that amounts are measured with."""
    protection: Worn
    """What the labels ask to be worn, as they say it."""
    spill_kit: str
    """What a spill kit holds."""


class WaterTold(NamedTuple):
    """What a water analysis comes to."""

    hardness: MassPerVolume
    """As calcium carbonate."""
    hardness_class: str
    """soft, moderate, hard or very-hard."""
    ammonium_sulfate_need: MassPerVolume
    """Ammonium sulfate per volume of mix that binds what is in it."""


class LoadSize(NamedTuple):
    """A size of loads with which every amount can be measured."""

    mix: Volume
    """Volume of mix in each of these loads."""
    count: int  # type: ignore[assignment]  # hides a method of tuples that nobody misses
    """How many of them."""
    rest: Volume | None
    """Volume of mix in the load after them; `None` where they make the whole."""
    amount: Volume | Mass
    """What is measured into each of them, of the product that is hard to measure."""
    rest_amount: Volume | Mass | None
    """What is measured into the load after them."""
    dose: MassPerArea | VolumePerArea
    """The dose that this makes in each of them, per ground area."""
    uncertainty: Ratio | None
    """How uncertain the amount is, where its measure says so."""


class Load(NamedTuple):
    """Equal loads that follow each other: one recipe and a count."""

    first: int
    """Number of the first of them, from 1."""
    last: int
    """Number of the last of them."""
    count: int  # type: ignore[assignment]  # hides a method of tuples that nobody misses
    """How many."""
    mix: Volume
    """Volume of mix in each."""
    carrier: Volume
    """Volume of carrier in each."""
    area: Area
    """Ground that each serves."""
    products: tuple[Portion, ...]
    """Per product of the job."""
    steps: tuple[Step, ...]
    """What to do, in order; empty where a stop stands."""
    run_out: RunOut | None
    """Where it runs out; `None` where the job has neither a calibration nor a pass."""
    mix_uncertainty: Uncertainty | None
    """How uncertain the mix is where it is read on the tank's scale; `None` where no mark is reached."""


class Drawn(NamedTuple):
    """Whole graduations of a measure that all loads take."""

    measure: str
    """The measure."""
    graduation: Volume | Mass
    """Its step."""
    count: int  # type: ignore[assignment]  # hides a method of tuples that nobody misses
    """How many of it."""


class DoseOn(NamedTuple):
    """A dose on a basis."""

    basis: str
    """What it is counted on."""
    dose: Quantity
    """The dose."""


class LargestDose(NamedTuple):
    """The largest dose of a product that the limits given leave on the planned date: a sum, and no permission."""

    dose: LiquidDose | SolidDose
    """Per ground area; none where a treatment is forbidden."""
    binding: str
    """Which limit binds: max-treatments, min-interval, waiting-period, growth-stage, max-dose or cap."""
    parcel: str | None
    """The parcel on which it binds, where parcels have names."""
    limit: Quantity | None
    """The limit itself, where it is an amount."""
    source: str
    """Where it stands."""


class Total(NamedTuple):
    """What all loads take of a product."""

    name: str
    """The product."""
    doses: tuple[DoseOn, ...]
    """The dose on every basis that the job says enough of."""
    exact: Volume | Mass
    """What the dose asks for."""
    measured: Volume | Mass | None
    """What the measures show."""
    gap: Gap | None
    """Measured less exact."""
    drawn: tuple[Drawn, ...] | None
    """Whole graduations per measure: recipe times count."""
    largest_dose: LargestDose | None
    """The largest dose that the limits given leave; ``None`` without a season, and where a limit could not be checked."""
    containers: ContainerUse | None
    """What the job does with its containers; none where it states none, and where a stop stands."""


class SubstanceTotal(NamedTuple):
    """What the plan brings out of an active substance, summed across products; ``None`` where a density is missing."""

    name: str
    """The substance, or the acid or element that it is counted as."""
    dose: MassPerArea | None
    """Per ground area."""
    exact: Mass | None
    """In what the doses ask for."""
    measured: Mass | None
    """In what the measures show."""


class Totals(NamedTuple):
    """What all loads take."""

    loads: int
    """How many loads."""
    mix: Volume
    """Volume of mix."""
    carrier: Volume
    """Volume of carrier."""
    area: Area
    """Ground that the mix is made for."""
    products: tuple[Total, ...]
    """Per product of the job."""
    active_substances: tuple[SubstanceTotal, ...]
    """Summed across products, by name; empty where no product states what acts in it."""


class HeldAmount(NamedTuple):
    """How much of a product the tank holds before the first load."""

    name: str
    """The product."""
    amount: Volume | Mass
    """How much."""


class Held(NamedTuple):
    """What the tank holds before the first load, which tops it up."""

    volume: Volume
    """Volume of it."""
    products: tuple[HeldAmount, ...]
    """Per product of the job."""


class Strip(NamedTuple):
    """The strip kept for the rinse water."""

    held_back: Volume
    """Mix that is not made."""
    area: Area
    """Ground left untreated by it and by the residual."""


class ProductAccount(NamedTuple):
    """``drawn = in_loads + spilled``, ``stock = drawn + left``."""

    name: str
    """The product."""
    stock: Volume | Mass | None
    """What there was."""
    drawn: Volume | Mass
    """Taken out of containers."""
    in_loads: Volume | Mass
    """Measured into loads."""
    spilled: Volume | Mass
    """Spilled."""
    left: Volume | Mass | None
    """What is left of the stock; below zero where it is short."""


class CarrierAccount(NamedTuple):
    """``drawn = first + premixed + rinses + topped_up``."""

    drawn: Volume
    """In all."""
    first: Volume
    """Before the products."""
    premixed: Volume
    """For premixes."""
    rinses: Volume
    """For rinsing the measures."""
    topped_up: Volume
    """After the products."""
    container_rinses: Volume | None
    """What of the topping up is for rinses of emptied containers; none where none are rinsed."""


class MixAccount(NamedTuple):
    """``at_start + made = sprayed + residual``."""

    made: Volume
    """In all loads."""
    sprayed: Volume
    """Leaves the nozzles."""
    residual: Volume
    """Stays in the sprayer."""
    at_start: Volume | None
    """In the tank before the first load; `None` where the job states none."""


class Ledger(NamedTuple):
    """Where every amount came from and went."""

    products: tuple[ProductAccount, ...]
    """Per product of the job."""
    carrier: CarrierAccount
    """The carrier in the loads."""
    mix: MixAccount
    """The mix."""


class Limit(NamedTuple):
    """What a finding is held against."""

    bound: str
    """at most or at least."""
    value: Quantity
    """The limit itself."""
    force: str
    """law, label, standard, advice or fact."""
    source: str
    """Where it stands."""


class Reading(NamedTuple):
    """What a value may have been meant as, where a confusion of units explains it. It is shown, and never taken."""

    value: Quantity
    """The value that it would be."""
    meant: str
    """What was meant, such as ``per ac``."""
    stated: str
    """What was stated instead, such as ``per ha``."""


class Finding(NamedTuple):
    """A sentence about a plan."""

    severity: str
    """stop, caution or note."""
    code: str
    """Stable code, such as ``over-maximum-dose``."""
    path: str
    """The field of the job that it concerns."""
    load: int | None
    """The first load that it concerns, where it concerns one."""
    message: str
    """The sentence."""
    actual: Quantity | None
    """What was found."""
    limit: Limit | None
    """What it is held against."""
    readings: tuple[Reading, ...]
    """What the value may have been meant as, the likeliest first; empty where nothing of the kind is thought."""
    help: tuple[str, ...]
    """What would help, of an amount that is hard to measure; empty elsewhere."""


class Caution(NamedTuple):
    """A caution for people, which goes with every plan."""

    code: str
    """Stable code, such as ``label-decides``."""
    text: str
    """The caution."""


class Input(NamedTuple):
    """What stands in a formula."""

    symbol: str
    """Its name in the formula."""
    place: str
    """``job.`` and a path for a number of the job, else the place of another working."""
    value: Quantity | Ratio | int
    """The number."""


class Working(NamedTuple):
    """How a number was reached."""

    place: str
    """Its path in the plan document; ``mix.`` and a name for a number between, ``advice.`` and a name for a default."""
    value: Quantity | int
    """The number."""
    formula: str
    """The formula, with the symbols of the inputs; empty for a default."""
    inputs: tuple[Input, ...]
    """What stands in the formula."""
    source: str
    """Where the formula is written, or what stands behind a default."""
    text: str
    """All of it in words."""


__all__ = [
    "CarrierAccount", "Caution", "ContainerUse", "DeliveredDose", "DoseOn", "Drawn", "Emptied", "FieldList", "Filling", "Finding",
    "Gap", "Held", "HeldAmount", "Input", "JarAmount", "JarTest", "LargestDose", "Ledger", "Limit", "Load", "LoadSize", "MixAccount", "MixingOrder",
    "OrderedProduct", "Portion", "ProductAccount", "ProductToTake", "Reading", "RunOut", "Span", "Step", "Strip",
    "SubstanceTotal", "Total", "Totals", "Uncertainty", "WaterToTake", "WaterTold", "Working", "Worn",
]
