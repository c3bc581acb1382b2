"""Uncertain values and calibration in Python: the vectors that Rust passes, and the manners of Python."""

import copy
import json
import math
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, strategies as st

import mixcalc
from mixcalc import Calibration, Flow, InputError, Length, Quantity, Setting, Speed, Uncertain, UnitError, Volume, VolumeRate, simulate

VECTORS = json.loads((Path(__file__).parents[1] / "conformance/calibration.json").read_text(encoding="utf-8"))
CASES = VECTORS["cases"]


def read(case):
    """The inputs of a case: a quantity, with a factor of one that has the relative uncertainty."""
    inputs = {}
    for key, stated in case["inputs"].items():
        factor = Uncertain.from_standard_uncertainty(stated.get("name", key), 1, f"{stated['u_percent']} %")
        inputs[key] = factor * Quantity(stated["quantity"])
    return inputs


def calibration(case):
    by, inputs = case["by"], read(case)
    if by.startswith("band"):
        band, field = Calibration.from_band(**inputs)
        return field if by == "band of field" else band
    if by.startswith("alleys: "):
        return Calibration.from_alleys(**inputs, alleys=by.removeprefix("alleys: ").replace(" ", "-"))
    return getattr(Calibration, "from_" + by.replace(" ", "_"))(**inputs)


def test_there_are_as_many_cases_as_the_vectors_say():
    assert len(CASES) == VECTORS["count"] >= 21


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_every_way_gives_what_a_hand_gets(case):
    rate = calibration(case).volume_rate
    expected, within = VolumeRate(case["volume_rate"]).to("L/ha"), case["rel_tol"]
    assert isinstance(rate.value, VolumeRate)
    assert math.isclose(rate.value.to("L/ha"), expected, rel_tol=within)
    relative = rate.standard_uncertainty.to("L/ha") / expected * 100
    assert math.isclose(relative, case["u_percent"], rel_tol=within, abs_tol=1e-12)


def test_text_quantities_and_exact_values_are_the_same_input():
    texts = Calibration.from_flow("1.2 L/min", "8 km/h", "0.5 m")
    quantities = Calibration.from_flow(Flow("1.2 L/min"), Speed("8 km/h"), Length("0.5 m"))
    exact = Calibration.from_flow(*map(Uncertain.exact, ("1.2 L/min", "8 km/h", "0.5 m")))
    assert texts == quantities == exact == copy.deepcopy(exact)
    assert texts.volume_rate.value.is_close("180 L/ha")
    assert texts.volume_rate.contributions == () and texts.volume_rate.degrees_of_freedom == math.inf
    assert [step.place for step in texts.working.inputs] == ["flow", "speed", "swath"]


@pytest.mark.parametrize(
    "call, error, says",
    [
        (lambda: Calibration.from_flow("0 L/min", "8 km/h", "0.5 m"), InputError, "flow"),
        (lambda: Calibration.from_flow("1.2 L/min", "8 L", "0.5 m"), UnitError, "speed"),
        (lambda: Calibration.from_flow("1.2 L/min", 8, "0.5 m"), UnitError, ""),
        (lambda: Calibration.from_flow("1.2 L/min", None, "0.5 m"), TypeError, "NoneType"),
        (lambda: Calibration.from_band("0.4 L/min", "6 km/h", "1 m", "0.75 m"), InputError, "band"),
        (lambda: Calibration.from_alleys("12 L/min", "4.8 km/h", "4 m", "all"), ValueError, "each-twice"),
        (lambda: Uncertain.from_repeats("catch", ["600 mL"]), InputError, "repeats"),
        (lambda: Uncertain.from_repeats("catch", "600 mL"), TypeError, "list"),
        (lambda: Uncertain.from_tolerance("", "6 L", "60 mL"), InputError, "name"),
        (lambda: Uncertain.from_tolerance("a", "6 L", "-60 mL"), InputError, "half_width"),
        (lambda: Uncertain.from_tolerance("a", "6 L", "60 g"), UnitError, "half_width"),
        (lambda: Uncertain.from_standard_uncertainty("a", "6 L", "1 mL", 0.5), InputError, "degrees_of_freedom"),
        (lambda: Uncertain.from_tolerance("a", "6 L", "1 mL") + "1 m", UnitError, ""),
        (lambda: Uncertain.from_tolerance("a", "6 L", "1 mL") + Uncertain.from_tolerance("a", "6 L", "2 mL"), InputError, "name"),
        (lambda: Uncertain.exact("6 L") / "0 s", InputError, "zero"),
        (lambda: Uncertain.exact("6 L").claim("liquid dose"), UnitError, ""),
        (lambda: Uncertain.exact("6 L").claim("nothing"), ValueError, "nothing"),
        (lambda: Uncertain.exact("6 L").interval("100 %"), InputError, "coverage"),
        (lambda: Uncertain.exact("6 L").side_of("6 kg"), UnitError, ""),
        (lambda: Uncertain.sum([]), InputError, "values"),
        (lambda: simulate(lambda: "1 L", [], trials=10, seed=1), InputError, "trials"),
        (lambda: simulate(lambda: 1 / 0, [], trials=1000, seed=1), ZeroDivisionError, ""),
        (lambda: simulate(lambda: object(), [], trials=1000, seed=1), TypeError, "object"),
        (lambda: mixcalc.volume_rate("1.2 L/min", "0 km/h", "1 m"), InputError, "speed"),
        (lambda: mixcalc.water_density("41 °C"), InputError, "temperature"),
        (lambda: Setting(sprayer="a", operator="b", nozzles="c", pressure="2 bar", ground="d", date="yesterday"), InputError, "day of the calendar"),
    ],
)
def test_what_cannot_be_is_refused(call, error, says):
    with pytest.raises(error) as caught:
        call()
    assert says in str(caught.value) + str(getattr(caught.value, "path", ""))


def test_one_input_counts_once():
    swath = Uncertain.from_tolerance("swath", "2 m", "0.1 m")
    assert (swath - swath).standard_uncertainty.is_close("0 m") and (swath / swath).standard_uncertainty == Quantity("0 %")
    twice = swath + swath
    assert twice.standard_uncertainty.is_close(swath.standard_uncertainty * 2)
    (only,) = twice.contributions
    assert only.name == "swath" and only.share_of_variance == 1.0


def test_repeats_give_students_interval():
    """Of 600, 603 and 597 mL: u = 3 / sqrt(3) mL, and 4.3027 of them at two degrees of freedom."""
    catches = Uncertain.from_repeats("catches", ["600 mL", "603 mL", Volume("597 mL")])
    low, high, coverage = catches.interval()
    assert math.isclose(high.to("mL") - 600, 4.302653 * 3**0.5, rel_tol=1e-6) and math.isclose(600 - low.to("mL"), high.to("mL") - 600)
    assert coverage == 0.95 and catches.degrees_of_freedom == 2
    assert catches.side_of("610 mL") == "under" and catches.side_of("590 mL") == "over" and catches.side_of("601 mL") == "cannot-tell"
    assert catches.probability_over("600 mL") == 0.5
    assert catches.aim_under("600 mL", "5 %") < Quantity("600 mL")
    assert repr(catches) == "<Uncertain, volume: 0.6 L, u = 0.00173205081 L>"


def test_operands_of_either_side():
    half = Uncertain.from_tolerance("half", 0.5, "1 %")
    assert (2 * half).value == 1.0 and (1 - half).value == 0.5 and (Volume("4 L") * half).value == Volume("2 L")
    assert (half**2).value.is_close("25 %") and ("1 L" / half).value.is_close("2 L")
    assert math.isclose(float(half.logarithm().value), math.log(0.5), rel_tol=1e-12)
    assert Uncertain.harmonic_mean(["4 km/h", "6 km/h"]).value.is_close("4.8 km/h")
    with pytest.raises(TypeError):
        half + object()


def test_a_calibration_knows_where_it_holds():
    may = dict(sprayer="knapsack 2", operator="A", nozzles="4 x 03", pressure="200 kPa", ground="level stubble", date="2026-05-01")
    july = Setting(**may | {"operator": "B", "date": date(2026, 7, 1)})
    rate = Calibration.from_flow("1.2 L/min", "8 km/h", "0.5 m")
    assert rate.setting is None and rate.differences(july, "30 d") == ("unstated",)
    stated = rate.with_setting(Setting(**may))
    assert stated.differences(july, "30 d") == ("operator", "too-old") and stated.setting.date == date(2026, 5, 1)
    assert stated.after("speed", "8 km/h", "10 km/h").value.is_close("144 L/ha")
    with pytest.raises(ValueError, match="swath"):
        stated.after("pressure", "2 bar", "3 bar")


def test_single_sums():
    assert mixcalc.volume_rate("1.2 L/min", "4 km/h", "1 m").is_close("180 L/ha")
    assert mixcalc.required_flow("180 L/ha", "4 km/h", "1 m").is_close("1.2 L/min")
    assert mixcalc.required_speed("1.2 L/min", "180 L/ha", "1 m").is_close("4 km/h")
    assert mixcalc.required_swath("1.2 L/min", "180 L/ha", "4 km/h").is_close("1 m")
    assert mixcalc.work_rate("8 km/h", "24 m").is_close("19.2 ha/h")
    assert mixcalc.spraying_time("9.6 ha", "19.2 ha/h").is_close("30 min")
    assert mixcalc.flow("600 mL", "30 s").is_close("1.2 L/min") and mixcalc.speed("50 m", "45 s").is_close("4 km/h")
    assert math.isclose(mixcalc.course_length(mixcalc.one_128th_acre(), "20 in").to("ft"), 204.1875)
    assert math.isclose(mixcalc.water_density("20 °C").to("kg/L"), 0.998207, abs_tol=1e-6)
    assert math.isclose(mixcalc.volume_of_catch("998.2 g", mixcalc.water_density("20 °C")).value.to("mL"), 1001.05, abs_tol=5e-3)
    assert math.isclose(float(mixcalc.side_difference("6.3 L/min", "5.7 L/min").value), 0.1)
    assert mixcalc.delivered_liquid_dose("1 L", "100 L", "200 L/ha").value.is_close("2 L/ha")
    assert mixcalc.delivered_solid_dose("1 kg", "100 L", "200 L/ha").value.is_close("2 kg/ha")


def test_the_same_seed_draws_the_same():
    """The lesser of two even draws lies a third of the half-width under their middle."""
    left, right = (Uncertain.from_tolerance(name, "2 m", "0.1 m") for name in ("left", "right"))
    one, same, other = (simulate(min_of, [left, right], trials=20_000, seed=seed) for seed in (1, 1, 2))
    assert math.isclose(one.mean.to("m"), 2 - 0.1 / 3, abs_tol=2e-3)
    assert one.median == same.median != other.median
    low, high, coverage = one.interval("90 %")
    assert low < one.median < high and coverage == 0.9
    repeats = Uncertain.from_repeats("repeats", ["1 m", "1.1 m"])
    assert simulate(lambda x: x, [repeats], trials=1000, seed=1).mean is None


def min_of(left, right):
    return min(left, right)


@given(st.floats(0.1, 10), st.floats(1, 20), st.floats(0.1, 5))
def test_rate_and_required_flow_undo_each_other(flow, speed, swath):
    flow, speed, swath = Flow(flow, "L/min"), Speed(speed, "km/h"), Length(swath, "m")
    rate = Calibration.from_flow(flow, speed, swath).volume_rate.value
    assert rate.is_close(mixcalc.volume_rate(flow, speed, swath)) and mixcalc.required_flow(rate, speed, swath).is_close(flow)
