"""`mixcalc.columns`: arrays and frames in, the same kind out, every row the sum of one number."""

import hashlib
import math
import sys

import mixcalc
import numpy
import pandas
import polars
import pyarrow
import pytest
from mixcalc import columns

PLAIN = {"volume_rate_l_per_ha": 200, "dose_l_per_ha": 1.5, "safe_fill_l": 95}


def test_rows_are_the_sums_of_one_number():
    """To the last bit in Rust and C; a quantity of Python is put on the grid of doubles in the unit of documents besides."""
    numbers = numpy.random.default_rng(1)
    flow, speed, swath = numbers.uniform(0.1, 60, (3, 500))
    answer = columns.volume_rate(flow_l_per_min=flow, speed_km_per_h=speed, swath_m=swath)["volume_rate_l_per_ha"]
    for flow_, speed_, swath_, rate in zip(flow.tolist(), speed.tolist(), swath.tolist(), answer.tolist()):
        one = mixcalc.volume_rate(f"{flow_!r} L/min", f"{speed_!r} km/h", f"{swath_!r} m")
        assert rate == pytest.approx(one.to("L/ha"), rel=1e-14)


@pytest.mark.parametrize(
    "areas",
    [
        [1.2, 0.4], (1.2, 0.4), numpy.array([1.2, 9, 0.4, 9])[::2], numpy.array([0.4, 1.2])[::-1], numpy.array([[1.2, 9], [0.4, 9]])[:, 0],
        numpy.array([1.2, 0.4], dtype=">f8"), numpy.array([(1.2, 1), (0.4, 2)], dtype=[("area", "f8"), ("id", "i4")])["area"],
        numpy.frombuffer(b"\0" + numpy.array([1.2, 0.4]).tobytes(), offset=1),
    ],
    ids=["list", "tuple", "strided", "reversed", "column", "big-endian", "record", "unaligned"],
)
def test_whatever_holds_real_numbers_is_taken(areas):
    answer = columns.plan(area_ha=areas, **PLAIN)
    assert answer["full_loads"].tolist() == [2, 0] and answer["part_load_l"].tolist() == pytest.approx([50, 80], rel=1e-12)


def test_integers_narrow_doubles_and_one_number_are_taken_and_shapes_are_broadcast():
    rates = columns.mix(volume_rate_l_per_ha=numpy.array([100, 200], dtype="u2"), area_ha=numpy.float32(0.5))["mix_l"]
    assert rates.tolist() == pytest.approx([50, 100], rel=1e-12)
    one = columns.mix(volume_rate_l_per_ha=numpy.array(200), area_ha=3)["mix_l"]
    assert one.shape == () and float(one) == pytest.approx(600, rel=1e-12)
    table = columns.mix(volume_rate_l_per_ha=[[100], [200], [300]], area_ha=[1, 2])["mix_l"]
    assert numpy.allclose(table, [[100, 200], [200, 400], [300, 600]], rtol=1e-12, atol=0)
    assert columns.mix(volume_rate_l_per_ha=[], area_ha=2)["mix_l"].shape == (0,)


@pytest.mark.parametrize(
    "areas", [numpy.ma.array([1.0, 2.0], mask=[0, 1]), [True, False], [1j], ["1 ha"], [None, 1.0], [mixcalc.Area("1 ha")]],
    ids=["masked", "boolean", "complex", "text", "object", "quantity"],
)
def test_what_is_no_real_number_is_refused_by_name(areas):
    with pytest.raises(mixcalc.InputError) as raised:
        columns.mix(volume_rate_l_per_ha=200, area_ha=areas)
    assert raised.value.path == "area_ha" and raised.value.code == 504


def test_a_bad_row_is_raised_with_its_place_or_has_a_status():
    areas = [1.2, -1, math.nan, 0.4]
    with pytest.raises(mixcalc.InputError) as raised:
        columns.plan(area_ha=areas, **PLAIN)
    assert (raised.value.path, raised.value.name) == ("area_ha[1]", "not-positive")
    answer = columns.plan(area_ha=areas, **PLAIN, on_error="status")
    assert answer["status"].tolist() == [0, 102, 101, 0] and answer["status"].dtype == numpy.uint16
    assert numpy.isnan(answer["mix_l"]).tolist() == [False, True, True, False]
    with pytest.raises(mixcalc.InputError, match="on_error"):
        columns.plan(area_ha=areas, **PLAIN, on_error="ignore")


def test_what_does_not_fit_together_is_refused():
    with pytest.raises(mixcalc.InputError, match=r"area_ha \(3,\)"):
        columns.mix(volume_rate_l_per_ha=[1, 2], area_ha=[1, 2, 3])
    with pytest.raises(TypeError, match="area_ha"):
        columns.mix(volume_rate_l_per_ha=200)
    with pytest.raises(mixcalc.InputError, match="frame"):
        columns.mix([1, 2], volume_rate_l_per_ha=200)


def test_doubles_side_by_side_are_not_copied():
    """Taking them as they lie costs no memory of theirs; making the outputs does."""
    import tracemalloc

    areas = numpy.full(1_000_000, 1.5)
    tracemalloc.start()
    columns.mix(volume_rate_l_per_ha=200, area_ha=areas)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 8e6 + 2e6 + 1e6


def test_outputs_go_into_memory_of_the_caller_that_is_theirs_alone():
    areas, room = numpy.array([1.2, 0.4]), numpy.empty(2)
    answer = columns.mix(volume_rate_l_per_ha=200, area_ha=areas, out={"mix_l": room})
    assert answer["mix_l"] is room and room.round(9).tolist() == [240, 80]
    for bad in (areas, numpy.empty(3), numpy.empty(4)[::2], numpy.empty(2, "f4"), numpy.empty(2, ">f8"), [0.0, 0.0]):
        with pytest.raises(mixcalc.InputError, match="out.mix_l"):
            columns.mix(volume_rate_l_per_ha=200, area_ha=areas, out={"mix_l": bad})
    room.flags.writeable = False
    with pytest.raises(mixcalc.InputError, match="out.mix_l"):
        columns.mix(volume_rate_l_per_ha=200, area_ha=areas, out={"mix_l": room})
    with pytest.raises(mixcalc.InputError, match="names mix_l"):
        columns.mix(volume_rate_l_per_ha=200, area_ha=areas, out={"mix": room})


def test_pandas_keeps_index_and_columns_and_missing_stays_missing():
    frame = pandas.DataFrame({"field": ["a", "b", "c"], "area_ha": [1.2, None, 0.4]}, index=[7, 8, 9])
    answer = columns.plan(frame, **PLAIN)
    assert list(answer.index) == [7, 8, 9] and list(answer.columns[:2]) == ["field", "area_ha"]
    assert answer["full_loads"].isna().tolist() == [False, True, False] and answer.loc[7, "part_load_l"] == pytest.approx(50, rel=1e-12)
    nullable = pandas.DataFrame({"ground": pandas.array([1, None], dtype="Int64")})
    assert columns.mix(nullable, area_ha="ground", volume_rate_l_per_ha=200)["mix_l"].isna().tolist() == [False, True]
    with pytest.raises(mixcalc.InputError, match="area_ha"):
        columns.mix(pandas.DataFrame({"area_ha": [True]}), volume_rate_l_per_ha=200)
    assert "full_loads" not in frame


def test_polars_keeps_columns_and_null_stays_null_while_nan_is_refused():
    frame = polars.DataFrame({"field": ["a", "b", "c"], "area_ha": [1.2, None, 0.4]})
    answer = columns.plan(frame, **PLAIN, on_error="status")
    assert answer.columns[:2] == ["field", "area_ha"] and answer["part_load_l"].round(9).to_list() == [50, None, 80]
    assert answer["status"].to_list() == [0, None, 0]
    with pytest.raises(mixcalc.InputError) as raised:
        columns.plan(polars.DataFrame({"area_ha": [1.2, math.nan]}), **PLAIN)
    assert raised.value.path == "area_ha[1]"
    whole = columns.mix(polars.DataFrame({"area_ha": [1, 2]}), volume_rate_l_per_ha=200)
    assert whole["mix_l"].round(9).to_list() == [200, 400]


def test_tables_of_arrow_and_what_streams_them_come_back_as_tables():
    table = pyarrow.table({"field": ["a", "b", "c"], "area_ha": pyarrow.chunked_array([[1.2, None], [0.4]])})
    for frame in (table, table.combine_chunks().to_batches()[0], Streaming(table)):
        answer = columns.plan(frame, **PLAIN)
        assert answer.schema.names[:2] == ["field", "area_ha"]
        assert answer.column("full_loads").to_pylist() == [2, None, 0]
    with pytest.raises(mixcalc.InputError, match="area_ha"):
        columns.plan(pyarrow.table({"area_ha": [True]}), **PLAIN)


class Streaming:
    """What has nothing but the Arrow stream interface."""

    def __init__(self, table):
        self.table = table

    def __arrow_c_stream__(self, requested_schema=None):
        return self.table.__arrow_c_stream__(requested_schema)


def test_threads_and_progress_change_nothing_and_progress_is_told(capsys):
    areas = numpy.random.default_rng(2).uniform(0, 50, 3_000_000)
    told = []
    one = columns.plan(area_ha=areas, **PLAIN)
    two = columns.plan(area_ha=areas, **PLAIN, threads=2, progress=lambda done, rows: told.append((done, rows)))
    assert all((one[name] == two[name]).all() for name in one)
    assert told == [(2_097_152, 3_000_000), (3_000_000, 3_000_000)]
    columns.mix(volume_rate_l_per_ha=200, area_ha=areas[:3], progress=True)
    assert capsys.readouterr().err == "\r3 of 3 rows\n"


def test_every_calculation_is_offered_and_says_what_it_takes():
    assert columns.__all__ == sorted(columns.__all__) and len(columns.__all__) > 30
    for name in columns.__all__:
        assert "Parameters" in getattr(columns, name).__doc__


def test_importing_the_package_does_not_import_numpy():
    import subprocess

    code = "import sys, mixcalc; from mixcalc import columns; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code]).returncode == 0


def test_the_hash_of_hostile_rows_is_that_of_rust(rust_examples):
    """The same bits from the columns of Rust and of Python, and from Rust's sums of one number."""
    import subprocess

    rows = 200_000
    lines = subprocess.run([rust_examples / "column_hash", str(rows)], capture_output=True, text=True, check=True).stdout.split()
    inputs = hostile(rows)
    answer = columns.plan(**inputs, on_error="status")
    digest = hashlib.sha256()
    for values in answer.values():
        digest.update(values.astype(values.dtype.newbyteorder("<")).tobytes())
    assert lines == [digest.hexdigest()] * 2


def hostile(rows):
    """Inputs as benches and Rust make them: a generator of 64 bits, and each 7th number from a list of hostile ones."""
    picks = [math.nan, math.inf, -math.inf, 0.0, -0.0, 5e-324, 2.2e-308, 1e-300, -1.0, 1e28, 1e300]
    scales = {"area_ha": 50.0, "volume_rate_l_per_ha": 400.0, "dose_l_per_ha": 5.0, "safe_fill_l": 3000.0}
    index = numpy.arange(rows, dtype="u8")
    inputs = {}
    for which, (name, scale) in enumerate(scales.items()):
        with numpy.errstate(over="ignore"):
            mixed = (index * numpy.uint64(4) + numpy.uint64(which + 1)) * numpy.uint64(0x9E3779B97F4A7C15)
            mixed ^= mixed >> numpy.uint64(29)
            mixed *= numpy.uint64(0xBF58476D1CE4E5B9)
            mixed ^= mixed >> numpy.uint64(32)
        values = (mixed >> numpy.uint64(11)).astype("f8") / 2.0**53 * scale
        bad = mixed % numpy.uint64(7) == 0
        values[bad] = numpy.array(picks)[(mixed[bad] // numpy.uint64(7) % numpy.uint64(len(picks))).astype("i8")]
        inputs[name] = values
    return inputs
