"""Errors of the Python package."""

import copy
import json
import pickle
import re

import pytest
from hypothesis import example, given, strategies as st

import mixcalc
from mixcalc import _mixcalc


def error(job) -> mixcalc.MixcalcError:
    with pytest.raises(mixcalc.MixcalcError) as caught:
        mixcalc.plan_json(job)
    return caught.value


JOB = {
    "format": "mixcalc-job/1",
    "area": "1 ha",
    "volume_rate": "200 L/ha",
    "sprayer": {"kind": "knapsack"},
    "tank": {"nominal": "16 L"},
    "products": [{"name": "example product A", "dose": "1.5 L/ha"}],
    "measures": [{"kind": "vessel", "capacity": "250 mL", "graduation": "2 mL"}],
}


def with_area(area) -> str:
    return json.dumps({**JOB, "area": area})


def test_classes_follow_the_code(header):
    """Input that cannot be read is an InputError, a unit that is wrong a UnitError, and both are ValueErrors."""
    assert type(error("{}")) is mixcalc.InputError
    wrong = error(with_area("300 kg/ha"))
    assert type(wrong) is mixcalc.UnitError
    assert isinstance(wrong, mixcalc.InputError) and isinstance(wrong, ValueError)
    assert wrong.name == "wrong-quantity" and wrong.path == "area" and "300 kg/ha" in wrong.given and wrong.allowed
    number = re.search(r"MIXCALC_STATUS_WRONG_QUANTITY (\d+)", header)[1]
    assert wrong.code == int(number)
    assert str(wrong).startswith("area: ")


def test_a_job_of_these_keys_is_planned():
    assert json.loads(mixcalc.plan_json(json.dumps(JOB)))["loads"]


@pytest.mark.parametrize("job", ["{}", with_area("300 kg/ha"), with_area("1")])
def test_errors_survive_pickling_and_copying(job):
    first = error(job)
    for again in (pickle.loads(pickle.dumps(first)), copy.deepcopy(first)):
        assert type(again) is type(first) and str(again) == str(first) and again.args == first.args
        for attribute in ("code", "name", "path", "given", "allowed"):
            assert getattr(again, attribute) == getattr(first, attribute)


def test_a_panic_is_an_error_that_except_exception_catches(capfd):
    with pytest.raises(mixcalc.InternalError) as caught:
        _mixcalc._panic()
    assert isinstance(caught.value, mixcalc.MixcalcError) and not isinstance(caught.value, ValueError)
    assert caught.value.code == 99


@pytest.mark.parametrize("job", [None, 1, 1.5, {}, [], bytearray(b"{}")])
def test_another_type_is_a_type_error(job):
    with pytest.raises(TypeError, match=type(job).__name__):
        mixcalc.plan_json(job)


def test_half_of_a_surrogate_pair_is_an_input_error():
    assert error('{"format": "\ud800"}').code == error(b'{"format": "\xff"}').code


@given(st.text() | st.binary() | st.text().map(lambda text: "{" + text))
def test_nothing_but_input_errors_comes_of_what_is_no_job(job):
    assert isinstance(error(job), mixcalc.InputError)


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=10) | st.just("1 ha"),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner, max_size=3),
    max_leaves=8,
)


@given(st.dictionaries(st.sampled_from([*JOB, "title", "units", "carrier_rate", "loading"]), json_values, max_size=2))
@example({})
def test_a_job_of_any_values_is_an_input_error_or_a_plan(changes):
    try:
        plan = json.loads(mixcalc.plan_json(json.dumps({**JOB, **changes})))
        assert plan["format"] == "mixcalc-plan/1"
    except mixcalc.InputError as caught:
        assert caught.code >= 100 and str(caught)
