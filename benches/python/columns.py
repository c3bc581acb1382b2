"""The plain plan over columns beside the same sums in numpy and polars, and beside a copy of the same streams: ratios of one run.

`make bench-columns`. The best of several runs each, one after the other in turn, so that a busy machine hits all alike.
"""

import sys
import time

import numpy
import polars
from mixcalc import columns


def in_numpy(area_ha, volume_rate_l_per_ha, dose_l_per_ha, safe_fill_l):
    """The same answers with the same checks, as somebody who knows numpy writes them."""
    inputs = area_ha, volume_rate_l_per_ha, dose_l_per_ha, safe_fill_l
    sound = numpy.logical_and.reduce([numpy.isfinite(values) & (values > 0) for values in inputs])
    share = dose_l_per_ha / volume_rate_l_per_ha
    sound &= share < 1
    mix = volume_rate_l_per_ha * area_ha
    loads = mix / safe_fill_l
    nearest = numpy.rint(loads)
    on_step = numpy.abs(loads - nearest) <= 1e-12 * numpy.maximum(numpy.abs(loads), numpy.abs(nearest))
    full = numpy.where(on_step, nearest, numpy.floor(loads))
    count = numpy.where(on_step, nearest, numpy.ceil(loads))
    sound &= count <= 1e11
    part = numpy.where(count > full, numpy.minimum(numpy.maximum(mix - full * safe_fill_l, 0), safe_fill_l), 0)
    outputs = mix, share * mix, full, part, share * safe_fill_l, share * part
    return [numpy.where(sound, values, numpy.nan) for values in outputs], numpy.where(sound, 0, 1).astype("u2")


def in_polars(frame):
    """The same in expressions of polars."""
    col, when = polars.col, polars.when
    names = ("area_ha", "volume_rate_l_per_ha", "dose_l_per_ha", "safe_fill_l")
    frame = frame.lazy().with_columns(
        sound=polars.all_horizontal(*(col(name).is_finite() & (col(name) > 0) for name in names)),
        share=col("dose_l_per_ha") / col("volume_rate_l_per_ha"), mix=col("volume_rate_l_per_ha") * col("area_ha"),
    )
    frame = frame.with_columns(loads=col("mix") / col("safe_fill_l")).with_columns(nearest=col("loads").round())
    frame = frame.with_columns(
        on=(col("loads") - col("nearest")).abs() <= 1e-12 * polars.max_horizontal(col("loads").abs(), col("nearest").abs())
    ).with_columns(
        full=when("on").then("nearest").otherwise(col("loads").floor()), count=when("on").then("nearest").otherwise(col("loads").ceil())
    ).with_columns(
        sound=col("sound") & (col("share") < 1) & (col("count") <= 1e11),
        part=when(col("count") > col("full")).then(
            polars.min_horizontal((col("mix") - col("full") * col("safe_fill_l")).clip(0), col("safe_fill_l"))
        ).otherwise(0.0),
    )
    share = col("share")
    outputs = (col("mix"), share * col("mix"), col("full"), col("part"), share * col("safe_fill_l"), share * col("part"))
    return frame.select(
        *(when("sound").then(value).otherwise(float("nan")).alias(str(i)) for i, value in enumerate(outputs)),
        status=when("sound").then(0).otherwise(1).cast(polars.UInt16),
    ).collect()


def copied(arrays, out, status):
    """As many streams in and out: four read, six and a status written."""
    four = list(arrays.values())
    for start in range(0, len(status), 16384):
        part = slice(start, start + 16384)
        for into, of in zip(out, four + four[:2]):
            into[part] = of[part]
        status[part] = 0


def best(runs, **timed):
    """Seconds of the fastest of several runs of each."""
    seconds = dict.fromkeys(timed, float("inf"))
    for _ in range(runs):
        for name, call in timed.items():
            start = time.perf_counter()
            call()
            seconds[name] = min(seconds[name], time.perf_counter() - start)
    return seconds


def main():
    numbers = numpy.random.default_rng(1)
    for rows, runs in ((10_000_000, 5), (100_000, 60)):
        ranges = {"area_ha": (0.1, 50), "volume_rate_l_per_ha": (100, 400), "dose_l_per_ha": (0.1, 5), "safe_fill_l": (10, 3000)}
        arrays = {name: numbers.uniform(low, high, rows) for name, (low, high) in ranges.items()}
        frame = polars.DataFrame(arrays)
        answer, (peers, _) = columns.plan(**arrays), in_numpy(**arrays)
        assert all(numpy.allclose(ours, theirs, rtol=1e-9, atol=1e-9) for ours, theirs in zip(answer.values(), peers))
        rooms = dict(zip(answer, (numpy.zeros(rows) for _ in range(6))))
        status = numpy.zeros(rows, "u2")
        found = best(
            runs, mixcalc=lambda: columns.plan(**arrays, out=rooms), new_memory=lambda: columns.plan(**arrays),
            two_threads=lambda: columns.plan(**arrays, out=rooms, threads=2), copy=lambda: copied(arrays, rooms.values(), status), numpy=lambda: in_numpy(**arrays), polars=lambda: in_polars(frame),
        )
        ours = found["mixcalc"]
        print(f"{rows} rows, one thread: {1e3 * ours:.2f} ms, {1e9 * ours / rows:.2f} ns a row")
        for name, seconds in found.items():
            print(f"  {name:12} {1e3 * seconds:9.2f} ms, {seconds / ours:6.2f} times")


if __name__ == "__main__":
    sys.exit(main())
