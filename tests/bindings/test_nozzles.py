"""Nozzles, their check, repeats and wear in Python: against sums made here, and the manners of Python."""

import copy
import math
import pickle
import statistics
import sys
from pathlib import Path

import pytest
from hypothesis import given, strategies as st

import mixcalc
from mixcalc import (
    Flow, InputError, Nozzle, NozzleCatches, NozzleSize, Pressure, Uncertain, UnitError, Wear, best_repeats, boom_height, check_nozzles,
    control_chart, density_factor, fan_width, is_settled, outlier, read_readings, repeats_needed, required_sizes,
)

CATCHES = {
    "1": ["1.207 L/min", "1.210 L/min", "1.213 L/min"],
    "2": ["1.197 L/min", "1.200 L/min", "1.203 L/min"],
    "3": ["1.342 L/min", "1.345 L/min", "1.348 L/min"],
    "4": ["1.202 L/min", "1.205 L/min", "1.208 L/min"],
}


def close(left, right, within=1e-12):
    return math.isclose(left, right, rel_tol=within)


def test_two_definitions_go_by_one_number():
    for size in NozzleSize.all():
        nominal, custom = size.nominal, size.by_custom
        # Both at 300 kPa, where the custom's 40 psi are 275.79 kPa.
        at_300 = custom.flow.to("L/min") * math.sqrt(300 / custom.pressure.to("kPa"))
        assert abs(at_300 / nominal.flow.to("L/min") - 1) < 0.03, size
        assert nominal.pressure == Pressure("300 kPa") and custom.pressure == Pressure("40 psi")
    assert close(0.3947 / 0.4, 1 - 0.01325) and NozzleSize("10").nominal.confidence == "probable"
    assert NozzleSize("02") == NozzleSize("02") != NozzleSize("03") and len({*NozzleSize.all(), NozzleSize("02")}) == len(NozzleSize.all())
    assert repr(NozzleSize("015")) == 'NozzleSize("015")' and pickle.loads(pickle.dumps(NozzleSize("015"))) == NozzleSize("015")
    with pytest.raises(InputError, match="015") as caught:
        NozzleSize("O15")
    assert caught.value.name == "unknown-choice"


@given(st.floats(50, 1000), st.floats(0.4, 1.1), st.floats(0.1, 40), st.floats(0.3, 1), st.floats(0.8, 1.2))
def test_flow_goes_with_pressure_and_back(pressure, exponent, loss, duty, factor):
    nozzle = Nozzle("1.2 L/min", "300 kPa").with_exponent(exponent).with_pressure_loss(f"{loss!r} kPa")
    nozzle = nozzle.with_duty_cycle(duty).with_density_factor(factor)
    flow = nozzle.flow_at(f"{pressure!r} kPa")
    expected = duty * 1.2 * ((pressure - loss) / 300) ** exponent / factor
    assert isinstance(flow.value, Flow) and close(flow.value.to("L/min"), expected, 1e-9)
    assert close(nozzle.required_pressure(flow).value.to("kPa"), pressure, 1e-9)


def test_an_exponent_from_points():
    two = Nozzle.from_two_points(("100 kPa", "0.8 L/min"), ("400 kPa", "1.5 L/min"))
    assert close(two.exponent.value.to("%") / 100, math.log(1.5 / 0.8) / math.log(4))
    # One jug that may be 5 % off in both points cancels in the exponent and not in the flow.
    jug = Uncertain.from_tolerance("jug", 1, 0.05)
    shared = Nozzle.from_two_points(("100 kPa", jug * Flow("0.8 L/min")), ("400 kPa", jug * Flow("1.5 L/min")))
    assert shared.exponent.contributions == () and [one.name for one in shared.flow_at("200 kPa").contributions] == ["jug"]
    # On a curve without scatter least squares finds it.
    points = [(f"{p} kPa", f"{0.07 * p ** 0.47!r} L/min") for p in (100, 150, 230, 400)]
    fitted = Nozzle.from_points("cone", points)
    assert close(fitted.exponent.value.to("%"), 47, 1e-9)
    assert close(fitted.flow_at("300 kPa").value.to("L/min"), 0.07 * 300**0.47, 1e-9)
    with pytest.raises(InputError) as caught:
        Nozzle.from_points("cone", points[:2])
    assert caught.value.path == "points"
    with pytest.raises(UnitError) as caught:
        Nozzle.from_points("cone", [(flow, pressure) for pressure, flow in points])
    assert caught.value.path == "points[0]"


def test_the_range_of_pressures():
    nozzle = Nozzle.rated(NozzleSize("03").nominal).with_pressure_range("150 kPa", "500 kPa", "the maker's table")
    assert nozzle.broken_limit("150 kPa") is nozzle.broken_limit("500 kPa") is None
    low, high = nozzle.broken_limit("149 kPa"), nozzle.broken_limit("501 kPa")
    assert (low.bound, low.value, low.source) == ("at least", Pressure("150 kPa"), "the maker's table")
    assert (high.bound, high.value) == ("at most", Pressure("500 kPa"))
    assert copy.copy(nozzle) is copy.deepcopy(nozzle) is nozzle and nozzle != Nozzle.rated(NozzleSize("03").nominal)


def test_sizes_for_a_flow():
    suited = required_sizes("1 L/min", "200 kPa", "400 kPa")
    assert [size.size.name for size in suited] == ["025", "03"]
    assert [round(size.pressure.to("kPa"), 6) for size in suited] == [300, round(300 / 1.2**2, 6)]


def test_fans_and_densities():
    assert close(fan_width(110, "0.5 m").to("m"), math.tan(math.radians(55)))
    assert close(boom_height(110, "0.5 m", "100 %").to("m"), 0.5 / math.tan(math.radians(55)))
    assert close(density_factor("1.28 kg/L", "1 kg/L").value.to("%") / 100, math.sqrt(1.28))
    with pytest.raises(InputError) as caught:
        fan_width(180, "0.5 m")
    assert caught.value.path == "fan_angle"


def test_a_check_tells_one_worn_nozzle_from_the_set():
    checked = check_nozzles(CATCHES, rated="1.2 L/min")
    assert [nozzle.name for nozzle in checked.nozzles] == list(CATCHES)
    assert [nozzle.advice for nozzle in checked.nozzles] == ["keep", "keep", "replace", "keep"]
    assert checked.advice == "single-nozzles" and checked.shared is None and checked.sides is None
    means = {name: statistics.mean(float(text.split()[0]) for text in repeats) for name, repeats in CATCHES.items()}
    for nozzle in checked.nozzles:
        assert close(nozzle.flow.value.to("L/min"), means[nozzle.name])
        assert close(nozzle.of_new.value.to("%") / 100, means[nozzle.name] / 1.2 - 1, 1e-9) or means[nozzle.name] == 1.2
        assert close(nozzle.of_mean.value.to("%") / 100, means[nozzle.name] / statistics.mean(means.values()) - 1, 1e-9)
        assert nozzle.outlier.verdict == "too-few" and nozzle.rejected is None
    # One repeatability of all repeats, in parts of each nozzle's mean.
    squares = [((float(text.split()[0]) - means[name]) / means[name]) ** 2 for name, repeats in CATCHES.items() for text in repeats]
    assert close(checked.repeatability.to("%") / 100, math.sqrt(sum(squares) / 8))


def test_what_all_share_is_not_wear():
    high = {name: [f"{float(text.split()[0]) * 1.2!r} L/min" for text in CATCHES["2"]] for name in "abcd"}
    rated = check_nozzles(high, rated="1.2 L/min")
    assert {nozzle.advice for nozzle in rated.nozzles} == {"shared-bias"} and rated.advice == "check-gauge-clock-jug"
    assert close(rated.shared.value.to("%"), 20, 1e-9)
    # A new nozzle that is caught with the same jug settles it, either way.
    same = check_nozzles(high, caught=NozzleCatches("new", high["a"]))
    assert same.advice == "keep"
    worn = check_nozzles(high, caught=NozzleCatches("new", CATCHES["2"]))
    assert worn.advice == "replace-set" and {nozzle.advice for nozzle in worn.nozzles} == {"replace"}


def test_a_verdict_is_withheld_where_the_jug_cannot_tell():
    singles = {name: repeats[1:2] for name, repeats in CATCHES.items()}
    with pytest.raises(InputError) as caught:
        check_nozzles(singles, rated="1.2 L/min")
    assert caught.value.path == "repeatability"
    assert check_nozzles(singles, rated="1.2 L/min", repeatability="5 %").advice == "cannot-tell"
    assert check_nozzles(singles, rated="1.2 L/min", repeatability="0.3 %").advice == "single-nozzles"


def test_sides_limits_and_law():
    sides = [NozzleCatches(name, CATCHES["3" if name in "ab" else "2"], "left" if name in "ab" else "right") for name in "abcd"]
    checked = check_nozzles(sides, rated="1.2 L/min", reject="10 %", reject_law="a law")
    assert close(checked.sides.difference.value.to("%") / 100, (1.345 - 1.2) / ((1.345 + 1.2) / 2), 1e-9) and checked.sides.side == "over"
    assert [nozzle.rejected for nozzle in checked.nozzles] == ["over", "over", "under", "under"]
    wide = check_nozzles(CATCHES, rated="1.2 L/min", of_mean="20 %", over_new="20 %", limits_source="a handbook")
    assert wide.advice == "keep"
    for words in ({"of_mean": "20 %"}, {"reject": "20 %"}, {"caught": NozzleCatches("new", CATCHES["1"])}):
        with pytest.raises(ValueError):
            check_nozzles(CATCHES, rated="1.2 L/min", **words)
    with pytest.raises(ValueError, match="rated or"):
        check_nozzles(CATCHES)
    with pytest.raises(ValueError, match="left"):
        NozzleCatches("a", CATCHES["1"], "port")
    with pytest.raises(UnitError) as caught:
        check_nozzles({"1": ["1.2 L/min"], "2": ["1.2 L/min", "0.6 L"]}, rated="1.2 L/min")
    assert caught.value.path == "catches[1].repeats[1]"
    with pytest.raises(InputError) as caught:
        check_nozzles([NozzleCatches("1", CATCHES["1"]), NozzleCatches("1", CATCHES["2"])], rated="1.2 L/min")
    assert caught.value.path == "catches[1].name"


def test_a_check_as_a_table(monkeypatch):
    checked = check_nozzles(CATCHES, rated="1.2 L/min")
    rows = checked.rows()
    frame = checked.to_pandas()
    assert frame.to_dict("records") == rows and frame["nozzle"].tolist() == list(CATCHES)
    third = rows[2]
    assert close(third["of_new_percent"], (1.345 / 1.2 - 1) * 100, 1e-9)
    assert third["of_new_low_percent"] < third["of_new_percent"] < third["of_new_high_percent"]
    monkeypatch.setitem(sys.modules, "pandas", None)
    with pytest.raises(ImportError, match=r"CheckedSet\.rows"):
        checked.to_pandas()


def test_repeats():
    assert repeats_needed("5 %", "5 %") == 7 and repeats_needed(0.03, 0.05, 0.95) == 4
    catches = Uncertain.from_repeats("catches", ["600 mL", "603 mL", "597 mL"])
    # Student's t at two degrees of freedom is 4.3027: 4.3027 x 3 / sqrt(3) = 7.45 mL, 1.24 % of 600.
    assert is_settled(catches, "1.25 %") and not is_settled(catches, "1.24 %")
    assert best_repeats([("1 %", "2 min"), ("5 %", "3 min")], "30 min") == [3, 8]
    with pytest.raises(InputError) as caught:
        best_repeats([("1 %", "2 min"), ("-5 %", "3 min")], "30 min")
    assert caught.value.path == "efforts[1].spread"
    with pytest.raises(ValueError, match=r"efforts\[0\] is a pair"):
        best_repeats(["1 %"], "30 min")


def test_an_outlier_among_values_of_any_kind():
    three = outlier(["600 mL", "604 mL", "680 mL"], "5 %")
    assert (three.verdict, three.farthest) == ("too-few", 2)
    values = [600, 604, 680, 602]
    four = outlier([f"{value} mL" for value in values], "5 %")
    residual = (680 - statistics.mean(values)) / statistics.stdev(values)
    assert (four.verdict, four.farthest) == ("outlier", 2) and close(four.residual, residual, 1e-9)
    assert close(four.critical, 1.4812, 1e-4), "the table of ASTM E178 for four values at 2.5 % to one side"
    with pytest.raises(UnitError) as caught:
        outlier(["600 mL", "604 g"], "5 %")
    assert caught.value.path == "values[1]"


def test_wear_and_its_limit():
    hours, flows = [0, 10, 20, 30, 40], [1.0, 1.011, 1.019, 1.031, 1.039]
    wear = Wear.from_flows([(f"{h} h", f"{q} L/min") for h, q in zip(hours, flows)])
    slope, start = statistics.linear_regression(hours, flows)
    assert close(wear.flow_at("25 h").to("L/min"), start + slope * 25, 1e-9)
    assert close(wear.wear_at("100 h").to("%") / 100, slope * 100 / start, 1e-9)
    worn = wear.reaches("1.1 L/min", 0.95)
    assert close(worn.expected.to("h"), (1.1 - start) / slope, 1e-9) and worn.earliest < worn.expected < worn.latest
    flat = Wear.from_flows([("0 h", "1 L/min"), ("10 h", "1.01 L/min"), ("20 h", "0.99 L/min")])
    assert flat.reaches("1.1 L/min") is None


def test_a_chart_of_individuals():
    chart = control_chart(["1.20 L/min", "1.21 L/min", "1.20 L/min", "1.22 L/min", "1.21 L/min"])
    assert isinstance(chart.center, Flow) and close(chart.center.to("L/min"), 1.208)
    assert close(chart.high.to("L/min"), 1.208 + 2.66 * 0.0125, 1e-9) and chart.outside == ()
    assert control_chart([100.0, 101.0, 100.0, 130.0, 100.0, 101.0, 100.0, 101.0]).outside == (3,)


def test_arguments_name_themselves():
    for call, path in (
        (lambda: Nozzle("1.2 L", "300 kPa"), "flow"), (lambda: Nozzle("1.2 L/min", "300"), "pressure"),
        (lambda: mixcalc.volume_rate("1 L/min", "8 km/h", "0.5 kg"), "swath"), (lambda: mixcalc.volume_rate("1 L/min", "8 kmh", "1 m"), "speed"),
        (lambda: repeats_needed("5 m", "5 %"), "spread"), (lambda: repeats_needed("5 %", "5 %", "1 L"), "coverage"),
    ):
        with pytest.raises(UnitError) as caught:
            call()
        assert caught.value.path == path


TABLE = (Path(__file__).parents[1] / "conformance/readings.csv").read_text(encoding="utf-8")


def test_a_table_of_readings():
    readings = read_readings(TABLE)
    assert {check: read.flagged for check, read in readings.calibrations.items()} == {"spring": 1, "orchard": 0, "poor": 0}
    assert close(readings.calibrations["spring"].calibration.volume_rate.value.to("L/ha"), 360)
    poor = readings.calibrations["poor"]
    assert poor.calibration is None and (poor.error.path, poor.error.name) == ("area", "missing-input")
    boom = readings.nozzle_checks["boom"]
    assert [nozzle.name for nozzle in boom.checked.nozzles] == ["L1", "R1"] and boom.checked.advice == "keep"
    assert [row.line for row in readings.flagged] == [10, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27]
    assert readings.flagged[7].column == "value" and "1,5" in readings.flagged[7].message
    assert read_readings(TABLE.encode()).flagged == readings.flagged
    with pytest.raises(InputError) as caught:
        read_readings("check,method,input,value,unitt\n")
    assert caught.value.name == "unknown-key"


def test_a_frame_is_a_table():
    pandas = pytest.importorskip("pandas")
    rows = [("boom", "nozzle-check", "rated", 0.8, "L/min", None, None)]
    rows += [("boom", "nozzle-check", "catch", value, "mL", nozzle, "30 s") for nozzle in "ab" for value in (401.0, 402.5, None)]
    frame = pandas.DataFrame(rows, columns=["check", "method", "input", "value", "unit", "nozzle", "time"])
    read = read_readings(frame.to_csv(index=False))
    assert read.nozzle_checks["boom"].flagged == 2 and read.nozzle_checks["boom"].checked.advice == "keep"
