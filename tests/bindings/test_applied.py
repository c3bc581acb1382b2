"""`mixcalc.applied`: a log from arrays and frames is the same log, and a real one adds up to what it is known for."""

import csv
import math
import os
import pathlib

import mixcalc
import numpy
import pandas
import polars
import pyarrow
import pytest
from mixcalc.applied import PointMark, add_up

POINTS = {"distance_m": [10, 10, 0, 10, 10], "swath_m": [24.0, 24, 24, 24, 0], "applied_l_per_ha": [180.0, 104, 40, 96, 0], "target_l_per_ha": [100.0] * 5}


@pytest.mark.parametrize("kind", [pandas.DataFrame, polars.DataFrame, pyarrow.table])
def test_a_frame_is_added_up_as_its_arrays_are_and_has_its_marks_beside_it(kind):
    of_arrays = add_up(**POINTS, tolerance_percent=10)
    assert of_arrays.marks.tolist() == [2, 0, 3, 0, 4]
    assert of_arrays.marked == {mark: [2, 0, 1, 1, 1][mark] for mark in PointMark}
    of_frame = add_up(kind(POINTS | {"note": list("abcde")}), tolerance_percent=10)
    assert of_frame[:-1] == of_arrays[:-1]
    assert isinstance(of_frame.marks, kind if isinstance(kind, type) else pyarrow.Table)
    assert list(of_frame.marks["mark"]) == [2, 0, 3, 0, 4] or of_frame.marks["mark"].to_pylist() == [2, 0, 3, 0, 4]
    named = kind({name.upper(): values for name, values in POINTS.items()})
    assert add_up(named, **{name: name.upper() for name in POINTS}, tolerance_percent=10)[:-1] == of_arrays[:-1]


def test_sums_are_by_ground_and_overlap_counts_as_asked():
    log = add_up(**POINTS, tolerance_percent=10)
    assert (log.area_ha, log.mix_l, log.target_mix_l) == pytest.approx((0.072, 9.12, 7.2), rel=1e-12)
    assert (log.volume_rate_l_per_ha, log.to_target, log.area_off_target_ha) == pytest.approx((9.12 / 0.072, 9.12 / 7.2, 0.024), rel=1e-12)
    half = POINTS | {"overlap_m": [swath / 2 for swath in POINTS["swath_m"]]}
    assert add_up(**half, tolerance_percent=10)[:-1] == log[:-1]
    once = add_up(**half, overlap="once", tolerance_percent=10)
    assert (once.area_ha, once.mix_l, once.to_target) == pytest.approx((0.036, 9.12, 9.12 / 3.6), rel=1e-12)


def test_a_bad_point_is_marked_with_its_code_and_stops_no_other():
    log = add_up(distance_m=[10, math.nan, -1, 10], swath_m=24, applied_l_per_ha=100, target_l_per_ha=[100, 100, 100, 0], tolerance_percent=5)
    assert log.marks.tolist() == [0, 101, 103, 102] and log.refused == 3 and log.area_ha == pytest.approx(0.024, rel=1e-12)
    missing = add_up(pandas.DataFrame(POINTS | {"distance_m": pandas.array([10, None, 0, 10, 10], dtype="Int64")}), tolerance_percent=10)
    assert missing.refused == 1 and missing.marks["mark"].tolist() == [2, 101, 3, 0, 4]


def test_nothing_treated_has_no_rate_and_what_is_no_log_is_refused():
    empty = add_up(distance_m=[], swath_m=24, applied_l_per_ha=100, target_l_per_ha=100, tolerance_percent=5)
    assert (empty.area_ha, empty.volume_rate_l_per_ha, empty.to_target) == (0, None, None)
    rest = {"distance_m": 1.0, "swath_m": 24, "applied_l_per_ha": 100, "target_l_per_ha": 100}
    for given, path in [
        ({"swath_m": [True]}, "swath_m"), ({"overlap": "twice"}, "overlap"), ({"tolerance_percent": -1}, "tolerance"),
        ({"standstill_m": math.inf}, "standstill_m"), ({"swath_m": [1.0, 2], "distance_m": [1.0, 2, 3]}, "add_up"),
    ]:
        with pytest.raises(mixcalc.InputError) as raised:
            add_up(**rest | {"tolerance_percent": 5} | given)
        assert raised.value.path == path
    with pytest.raises(TypeError, match="target_l_per_ha"):
        add_up(distance_m=1.0, swath_m=24, applied_l_per_ha=100, tolerance_percent=5)


def test_a_log_of_a_sprayer_adds_up_to_its_ground_and_its_mix():
    """Of others, and not in the tree: `MIXCALC_DATA` says where it is."""
    beside = pathlib.Path(__file__).parents[3] / "shared/data"
    path = pathlib.Path(os.environ.get("MIXCALC_DATA", beside)) / "as_applied_log/one_hertz_log.csv"
    if not path.exists():
        pytest.skip(f"{path} is absent; MIXCALC_DATA may say where the data are")
    rows = list(csv.DictReader(path.open()))
    column = lambda name: numpy.array([float(row[name]) for row in rows])  # noqa: E731
    foot, gallon_per_acre = mixcalc.Length("1 ft").to("m"), mixcalc.VolumeRate("1 US gal/ac").to("L/ha")
    log = add_up(
        distance_m=column("distance_ft") * foot, swath_m=column("swath_ft") * foot, applied_l_per_ha=column("applied_gal_ac") * gallon_per_acre,
        target_l_per_ha=column("target_gal_ac") * gallon_per_acre, tolerance_percent=10,
    )
    acre, gallon = mixcalc.Area("1 ac").to("ha"), mixcalc.Volume("1 US gal").to("L")
    assert (log.area_ha / acre, log.mix_l / gallon) == (pytest.approx(47.63, abs=5e-3), pytest.approx(475.8, abs=5e-2))
    assert numpy.flatnonzero(log.marks).tolist() == [0, 1, 2, 3, 779] and log.marks[[0, 779]].tolist() == [2, 1]
