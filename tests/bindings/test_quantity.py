"""Quantities in Python: the algebra, the kinds and the text of the core, in the manners of Python."""

import copy
import json
import math
import operator
import pickle
import subprocess
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import numpy
import pytest
from hypothesis import assume, given, strategies as st

import mixcalc
from mixcalc import (
    Area, Density, InputError, LiquidDose, Mass, Quantity, Ratio, SolidDose, Temperature, UnitError, Volume, VolumeFraction,
    VolumePerArea, VolumeRate,
)

CASES = json.loads((Path(__file__).parents[1] / "conformance/quantity.json").read_text(encoding="utf-8"))["cases"]

KINDS = sorted(
    (kind for kind in vars(mixcalc).values() if isinstance(kind, type) and issubclass(kind, Quantity) and kind is not Quantity),
    key=lambda kind: kind.__name__,
)


def named(words: str) -> type:
    """The class of a kind in words."""
    return getattr(mixcalc, words.title().replace(" ", ""), Quantity)


def test_every_kind_has_a_class():
    words = {case["kind"] for case in CASES if "kind" in case} | {case["claim"] for case in CASES if case.get("claim")}
    assert len(KINDS) == 30
    assert {named(kind) for kind in words} <= {*KINDS, Quantity}


def read(case):
    claim = case.get("claim")
    return named(claim)(case["text"]) if claim else Quantity(case["text"])


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_text_is_read_or_refused_as_the_vectors_say(case):
    if "error" in case:
        with pytest.raises(InputError) as caught:
            read(case)
        error = case["error"]
        assert (caught.value.code, caught.value.name) == (error["code"], error["name"])
        if not case.get("claim"):  # a class repeats the text as it was written, a claim the quantity
            assert str(caught.value) == error["message"]
    else:
        quantity = read(case)
        tolerance = max(case["rel_tol"], 4e-16) * abs(case["value"])  # on the grid of the unit of documents
        assert abs(quantity.to(case["unit"]) - case["value"]) <= tolerance
        assert isinstance(quantity, Quantity)


def test_quantities_have_the_bits_that_they_have_in_rust(rust_examples):
    cases = [case for case in CASES if "error" not in case]
    asked = [{"text": case["text"], "claim": case.get("claim"), "unit": case["unit"]} for case in cases]
    lines = "".join(json.dumps(line) + "\n" for line in asked)
    told = subprocess.run([rust_examples / "quantity_lines"], input=lines, capture_output=True, text=True, check=True).stdout.split()
    assert len(told) == len(cases) > 200
    for case, value in zip(cases, told):
        assert read(case).to(case["unit"]).hex() == float(value).hex(), case


# ------------------------------------------------------------------------------------------------------------ algebra


@pytest.mark.parametrize(
    "result, expected",
    [
        (lambda: VolumeRate("300 L/ha") * Area("12.5 ha"), Volume("3750 L")),
        (lambda: LiquidDose("2.5 L/ha") / VolumeRate("200 L/ha"), VolumeFraction("1.25 % v/v")),
        (lambda: Volume("1 L") / Area("4 ha"), VolumePerArea("0.25 L/ha")),
        (lambda: Quantity("1.2 L/min") / (Quantity("6 km/h") * Quantity("0.5 m")), VolumePerArea("240 L/ha")),
        (lambda: Density("1.1 kg/L") * Volume("2 L"), Mass("2.2 kg")),
        (lambda: 3 * Volume("2 L"), Volume("6 L")),
        (lambda: Volume("6 L") / 3, Volume("2 L")),
        (lambda: Volume("6 L") / Volume("2 L"), Ratio("300 %")),
        (lambda: Ratio("50 %") * SolidDose("2 kg/ha"), SolidDose("1 kg/ha")),
        (lambda: Quantity("3 m") ** 2, Area("9 m2")),
        (lambda: Volume((Volume("2 L") * Volume("2 L")) ** 0.5), Volume("2 L")),
        (lambda: Volume((Volume("2 L") ** 3) ** (1 / 3)), Volume("2 L")),
        (lambda: Volume((Volume("8 L") ** Fraction(2, 3)) ** Fraction(3, 2)), Volume("8 L")),
        (lambda: VolumeRate(Quantity("1.2 L/min") / Quantity("6 km/h") / Quantity("0.5 m")), VolumeRate("240 L/ha")),
        (lambda: -Volume("2 L"), Volume("-2 L")),
        (lambda: abs(Volume("-2 L")), Volume("2 L")),
        (lambda: sum([Volume("1 L"), Volume("2 L")]), Volume("3 L")),
        (lambda: numpy.float64(2) * Volume("1 L"), Volume("2 L")),
        (lambda: Volume("1 L") * numpy.int32(2), Volume("2 L")),
        (lambda: max(Volume("1 L"), Volume("900 mL")), Volume("1 L")),
    ],
)
def test_algebra_follows_the_identities(result, expected):
    made = result()
    assert type(made) is type(expected) and made.is_close(expected), (made, expected)


@pytest.mark.parametrize(
    "operation, says",
    [
        (lambda: LiquidDose("2 L/ha") + VolumeRate("200 L/ha"), ["2 L/ha, a liquid dose", "200 L/ha, a volume rate"]),
        (lambda: Quantity("2 L/ha") + VolumeRate("200 L/ha"), ["volume per area", "volume rate"]),
        (lambda: Quantity("2 m") + Quantity("2 L/ha"), ["length", "volume per area"]),
        (lambda: Temperature("20 °C") + Temperature("20 °C"), ["temperature"]),
        (lambda: Volume("1 L") + 1, ["1 has no unit"]),
        (lambda: abs(Temperature("-20 °C")), ["temperature"]),
        (lambda: Temperature("20 °C") * 2, ["temperature"]),
        (lambda: Volume("1 L") < Area("1 ha"), ["1 L", "1 ha"]),
        (lambda: VolumeRate(LiquidDose("2 L/ha")), ["volume rate", "2 L/ha, a liquid dose"]),
        (lambda: float(Volume("1 L")), ["1 L, a volume"]),
        (lambda: Volume("1 L").to("kg"), ["1 L", "mass"]),
        (lambda: VolumeRate(3.0), ["3 has no unit", '"300 L/ha"']),
        (lambda: Quantity("2,5 L/ha"), ['"2,5"', "2.5"]),
        (lambda: Quantity("10 gal/ac"), ["gal", "US gal or imp gal"]),
        (lambda: Quantity(3), ["3 has no unit"]),
        (lambda: f"{Volume('1 L'):kg}", ["1 L", "mass"]),
    ],
)
def test_what_does_not_fit_is_named(operation, says):
    with pytest.raises(UnitError) as caught:
        operation()
    assert all(words in str(caught.value) for words in says), caught.value


@pytest.mark.parametrize(
    "operation",
    [
        lambda: Volume("1 L") + "1 L",
        lambda: Volume("1 L") * None,
        lambda: Volume("1 L") * numpy.array([1.0, 2.0]),
        lambda: numpy.array([1.0, 2.0]) * Volume("1 L"),
        lambda: Volume("1 L") * True,
        lambda: Volume("1 L") ** Volume("1 L"),
        lambda: pow(Volume("1 L"), 2, 3),
        lambda: Volume("1 L") < 3,
        lambda: Volume("1 L") < "2 L",
        lambda: Quantity(None),
        lambda: Quantity([1, 2]),
        lambda: Quantity("1 L", "L"),
        lambda: Quantity(1 + 2j, "L"),
        lambda: math.sqrt(Volume("1 L")) if False else operator.index(Volume("1 L")),
    ],
)
def test_another_type_is_a_type_error(operation):
    with pytest.raises(TypeError):
        operation()


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_refused(number):
    for made in (lambda: Quantity(number, "L"), lambda: Volume("1 L") * number, lambda: Ratio("1 %") + number):
        with pytest.raises(InputError):
            made()
    with pytest.raises(InputError):
        Volume("1 L") / 0


@pytest.mark.parametrize("exponent", [0.1234567, Fraction(1, 13), 1e9, math.pi])
def test_an_exponent_that_no_dimension_has_is_refused(exponent):
    with pytest.raises(ValueError, match="exponent"):
        Volume("2 L") ** exponent


# ---------------------------------------------------------------------------------------------- equality, text, copies


def test_equality_is_of_kind_and_value():
    assert Volume("1 L") == Quantity("1000 mL") and hash(Volume("1 L")) == hash(Quantity("1000 mL"))
    assert Quantity("300 L/ha") != VolumeRate("300 L/ha") and VolumeRate("2 L/ha") != LiquidDose("2 L/ha")
    assert Volume("1 L") != 1 and Volume("1 L") != "1 L" and Volume("0 L") != 0
    assert Ratio("50 %") == 0.5 and hash(Ratio("50 %")) == hash(0.5) and Ratio("50 %") < 0.6
    assert Ratio("10 %") != Decimal("0.1") and Ratio("50 %") == Fraction(1, 2), "as Python compares a float"
    assert Quantity(5, "°F").value == 5.0
    assert Volume("-0 L") == Volume("0 L") and hash(Volume("-0 L")) == hash(Volume("0 L"))
    assert Volume("70 mL") == Volume("0.07 L") and Area("150 m2") == Area("0.015 ha"), "metric text is exact"
    assert not Volume("1 L") == Area("1 ha") and Volume("1 L").is_close("1000 mL") and VolumeRate("3 L/ha").is_close("3 L/ha")


numbers = st.floats(-1e12, 1e12).filter(lambda x: x == 0 or abs(x) > 1e-12)
units = {
    Volume: ["L", "mL", "US gal", "imp fl oz", "m3"], VolumeRate: ["L/ha", "US gal/ac"], LiquidDose: ["L/ha", "US fl oz/ac", "mL/ha"],
    SolidDose: ["kg/ha", "oz av/ac"], Area: ["ha", "ac", "m2"], VolumeFraction: ["% v/v", "mL/L"], Density: ["kg/L", "lb/US gal"],
    Temperature: ["°C", "°F", "K"], Ratio: ["%"], Quantity: ["L/ha", "kg", "m^3 kg^-1", "km/h"],
}
quantities = st.sampled_from([(kind, unit) for kind, all_of in units.items() for unit in all_of]).flatmap(
    lambda pair: numbers.map(lambda number: pair[0](abs(number) if pair[0] is Temperature else number, pair[1]))
)


@given(quantities)
def test_repr_evaluates_and_copies_are_equal(quantity):
    for again in (eval(repr(quantity), vars(mixcalc).copy()), pickle.loads(pickle.dumps(quantity)), copy.copy(quantity), copy.deepcopy(quantity)):
        assert again == quantity and type(again) is type(quantity) and hash(again) == hash(quantity)
    assert Quantity(quantity) == quantity and type(Quantity(quantity)) is type(quantity)


@given(quantities, quantities)
def test_results_of_arithmetic_keep_through_repr_and_pickle(a, b):
    for operation in (operator.add, operator.sub, operator.mul, operator.truediv):
        try:
            result = operation(a, b)
        except InputError:
            continue
        for again in (eval(repr(result), vars(mixcalc).copy()), pickle.loads(pickle.dumps(result))):
            assert again == result and type(again) is type(result) and hash(again) == hash(result)


@given(quantities)
def test_the_number_in_a_unit_reads_back(quantity):
    again = type(quantity)(quantity.value, quantity.unit)
    assert again.is_close(quantity)
    assert quantity.to(quantity.unit) == quantity.value


@given(st.integers(1, 10**9), st.sampled_from([("mL", "L", 3), ("g", "kg", 3), ("m2", "ha", 4), ("mL/ha", "L/ha", 3), ("cL", "L", 2)]))
def test_a_whole_number_of_a_metric_unit_is_the_same_in_the_larger_one(whole, units):
    fine, coarse, shift = units
    text = str(whole).rjust(shift + 1, "0")
    assert Quantity(f"{whole} {fine}") == Quantity(f"{text[:-shift]}.{text[-shift:]} {coarse}")


@given(st.integers(-10**6, 10**6), st.sampled_from(["L", "US gal", "imp pt", "US fl oz", "mL"]), st.integers(0, 6))
def test_what_was_typed_is_told(whole, unit, places):
    number = whole / 10**places
    assert Volume(number, unit).to(unit) == number


@given(quantities, quantities)
def test_arithmetic_never_fails_but_by_an_input_error(a, b):
    for operation in (operator.add, operator.sub, operator.mul, operator.truediv, operator.lt):
        try:
            operation(a, b)
        except InputError as error:
            assert str(error)
    assert (a == b) in (True, False)


@given(quantities, st.floats(0.001, 1000))
def test_scaling_and_back_is_the_same(quantity, factor):
    assume(type(quantity) is not Temperature)
    assert (quantity * factor / factor).is_close(quantity)
    assert (quantity * factor).unit == quantity.unit


def test_text_for_people_and_formats():
    rate = VolumeRate("300 L/ha")
    assert str(rate) == "300 L/ha" == f"{rate}" and repr(rate) == 'VolumeRate("300 L/ha")'
    assert f"{rate:US gal/ac}" == "32.07 US gal/ac"
    assert f"{rate:.1f US gal/ac}" == "32.1 US gal/ac" and f"{rate:.2f}" == "300.00 L/ha" and f"{rate:>8.1f}" == "   300.0 L/ha"
    assert f"{Mass('2 kg'):g}" == "2000 g", "a unit, not a format"
    assert str(Volume("1 L") / 3) == "0.333333333 L" and str(Volume("1.23456 L")) == "1.23456 L", "what a scale can show"
    with pytest.raises(ValueError, match="percent"):
        f"{rate:.1%}"
    assert rate.value == 300.0 and rate.unit == "L/ha" and rate.kind == "volume rate"
    assert rate.in_unit("US gal/ac").unit == "US gal/ac" and rate.in_unit("US gal/ac") == rate
    assert (VolumeRate("20 US gal/ac") * Quantity("10 ac")).unit == "US gal", "results speak the trade of what they are made of"


def test_a_notebook_shows_value_unit_and_kind():
    assert Volume("2.5 L")._repr_html_() == '<span title="volume">2.5 L</span>'


def test_quantities_are_frozen():
    quantity = Volume("1 L")
    for name in ("value", "unit", "kind", "other"):
        with pytest.raises(AttributeError):
            setattr(quantity, name, 1)
