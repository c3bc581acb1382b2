"""Plain plans on Dask: rows, workers and seconds, and whether the rows are those of one machine.

usage: columns_on_dask.py [ROWS [WORKERS]]

Partitions are made where they are worked out, and what comes back of each is how many rows were refused and a hash: memory holds a
partition for each worker, whatever the rows.
"""

import hashlib
import sys
import time

import dask.dataframe
import distributed
import mixcalc.dask
import numpy
import pandas
from mixcalc import columns

PARTITION = 1_000_000


def fields(number):
    """A partition of invented fields, the same wherever it is made."""
    random = numpy.random.default_rng(number)
    area = random.uniform(-1, 50, PARTITION)
    return pandas.DataFrame({"area_ha": area, "dose_l_per_ha": random.uniform(0.1, 5, PARTITION)})


def told(frame):
    """What is told of a partition that was worked out."""
    digest = hashlib.sha256(b"".join(frame[name].to_numpy().tobytes() for name in frame)).hexdigest()
    return pandas.DataFrame({"refused": [int((frame["status"] != 0).sum())], "hash": [digest]})


def main(rows, workers):
    """Runs, and prints a line."""
    plain = {"volume_rate_l_per_ha": 200.0, "safe_fill_l": 95.0}
    with distributed.LocalCluster(n_workers=workers, threads_per_worker=1, processes=True, dashboard_address=None) as cluster:
        with distributed.Client(cluster):
            parts = range(rows // PARTITION)
            frame = dask.dataframe.from_map(fields, parts, meta=pandas.DataFrame({"area_ha": [0.1], "dose_l_per_ha": [0.1]}).iloc[:0])
            start = time.perf_counter()
            lazy = mixcalc.dask.run("plan", frame, **plain)
            found = lazy.map_partitions(told, meta=pandas.DataFrame({"refused": [0], "hash": [""]}).iloc[:0]).compute()
            seconds = time.perf_counter() - start
    same = all(
        found["hash"].iloc[number] == told(columns.plan(fields(number), **plain, on_error="status"))["hash"].iloc[0]
        for number in {parts[0], parts[-1]}
    )
    print(f"{rows} rows, {workers} workers: {seconds:.1f} s, {found['refused'].sum()} refused, first and last partition as on one machine: {same}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000_000, int(sys.argv[2]) if len(sys.argv) > 2 else 2)
