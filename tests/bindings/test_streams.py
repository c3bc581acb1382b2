"""`mixcalc.streams` and `mixcalc.dask`: the rows of one frame whatever they come in; what is bad is told, and takes nothing else with it."""

import functools
import os
import pickle
import signal
import time

import mixcalc
import numpy
import pandas
import pyarrow
import pytest
from mixcalc import columns, streams
from test_columns import hostile

dask = pytest.importorskip("dask")
dask.config.set({"distributed.comm.timeouts.connect": "60s", "distributed.worker.memory.terminate": False})


def same_bits(frame, expected):
    assert list(frame.columns) == list(expected.columns) and len(frame) == len(expected)
    for name in expected:
        assert frame[name].dtype == expected[name].dtype, name
        assert frame[name].to_numpy().tobytes() == expected[name].to_numpy().tobytes(), name


def test_streams_are_worked_out_as_the_whole_is():
    inputs = hostile(10_000)
    whole = columns.plan(**inputs, on_error="status")
    table = pyarrow.table(inputs)
    parts = [batch for size in (1, 999, 9000) for batch in table.slice(*{1: (0, 1), 999: (1, 999), 9000: (1000, 9000)}[size]).to_batches()]
    sent = pickle.loads(pickle.dumps(functools.partial(streams.run, "plan")))
    done = list(sent(iter(parts)))
    assert [type(batch) for batch in done] == [pyarrow.RecordBatch] * 3
    for name, values in whole.items():
        found = numpy.concatenate([batch[name].to_numpy(zero_copy_only=False) for batch in done])
        assert found.tobytes() == values.tobytes(), name


def test_a_batch_that_cannot_be_taken_says_why_and_the_others_are_worked_out():
    good, bad = pyarrow.record_batch({"area_ha": [1.2, 0.4]}), pyarrow.record_batch({"area_ha": ["1.2 ha", "four"]})
    done = list(streams.run("mix", [good, bad, good], volume_rate_l_per_ha=200.0))
    assert [batch["status"].to_pylist() for batch in done] == [[0, 0], [504, 504], [0, 0]]
    assert done[0]["mix_l"].equals(done[2]["mix_l"]) and numpy.isnan(done[1]["mix_l"].to_numpy()).all()
    assert done[0].schema.field("mix_l") == done[1].schema.field("mix_l") and done[0].schema.field("status") == done[1].schema.field("status")
    with pytest.raises(mixcalc.InputError, match="calculation"):
        streams.run("mixture", [good])


@pytest.fixture(scope="module")
def client():
    """Two workers, each a process of its own."""
    distributed = pytest.importorskip("distributed")
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as cluster:
        with distributed.Client(cluster) as client:
            yield client


def test_dask_gives_the_rows_of_one_machine(client):
    import dask.dataframe
    import mixcalc.dask

    frame = pandas.DataFrame(hostile(50_000), index=numpy.arange(50_000) * 3)
    # In an array not a number is a number; in a frame of pandas it is missing.
    expected = columns.plan(frame, on_error="status")
    lazy = mixcalc.dask.run("plan", dask.dataframe.from_pandas(frame, npartitions=7))
    found = lazy.compute()
    same_bits(found, expected)
    assert (found.index == frame.index).all() and 0 < (found["status"] != 0).sum() < 50_000
    with pytest.raises(mixcalc.InputError, match="calculation"):
        mixcalc.dask.run("mixture", lazy)


def _fields(number):
    """A partition: the third is text, the fifth cannot be read at all."""
    if number == 4:
        raise OSError("no such part")
    areas = [1.2, 0.4, -1.0] if number != 2 else ["one", "two", "three"]
    return pandas.DataFrame({"area_ha": areas})


def test_a_bad_partition_is_told_and_the_rest_is_kept(client):
    import dask.dataframe
    import mixcalc.dask

    meta = pandas.DataFrame({"area_ha": [1.0]}).iloc[:0]
    frame = dask.dataframe.from_map(_fields, range(6), meta=meta)
    done = dict(mixcalc.dask.completed(mixcalc.dask.run("mix", frame, volume_rate_l_per_ha=200.0), client))
    assert sorted(done) == list(range(6))
    assert isinstance(done.pop(4), OSError)
    assert done[2]["status"].tolist() == [504] * 3 and done.pop(2)["mix_l"].isna().all()
    for part in done.values():
        assert part["status"].tolist() == [0, 0, 103] and part["mix_l"].tolist()[:2] == pytest.approx([240, 80], rel=1e-12)


def _slowly(frame, folder):
    """Tells who works on it, and takes its time."""
    with open(f"{folder}/{os.getpid()}", "a", encoding="utf-8") as told:
        told.write("x")
    time.sleep(0.3)
    return frame


def test_a_worker_that_is_killed_takes_nothing_with_it(client, tmp_path):
    import dask.dataframe
    import mixcalc.dask

    frame = pandas.DataFrame(hostile(4_000))
    slow = dask.dataframe.from_pandas(frame, npartitions=16).map_partitions(_slowly, str(tmp_path), meta=frame.iloc[:0])
    future = client.compute(mixcalc.dask.run("plan", slow))
    workers = set(client.run(os.getpid).values())
    deadline = time.monotonic() + 60
    while not (at_work := {int(path.name) for path in tmp_path.iterdir()} & workers):
        assert time.monotonic() < deadline
        time.sleep(0.05)
    os.kill(at_work.pop(), signal.SIGKILL)
    same_bits(future.result(timeout=120), columns.plan(frame, on_error="status"))
