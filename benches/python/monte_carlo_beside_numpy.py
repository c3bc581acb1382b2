"""Trials a second of a Monte Carlo, beside the same in numpy, as a careful user would write it.

    python benches/python/monte_carlo_beside_numpy.py PROGRAM

PROGRAM is the example monte_carlo of mixcalc-benches, from a release build; `make bench-monte-carlo` builds and runs all. Both draw seven
inputs of a calibration on a timed course (four repeats, five tolerances, one stopwatch for both times) and give the 95 % interval of the volume rate.
Both run here one after the other, so that their ratio holds on any machine; the times do not. The ends of the intervals are held against
each other within 0.2 % first.
"""

import subprocess
import sys
import time

import numpy

TRIALS, REPEATS = 1_000_000, 7
CATCHES = numpy.array([396.0, 402.0, 399.0, 403.0])


def by_numpy(seed):
    """The ends of the interval, L/ha."""
    draw = numpy.random.default_rng(seed)
    even = lambda half_width: draw.uniform(-half_width, half_width, TRIALS)
    repeated = CATCHES.mean() + CATCHES.std(ddof=1) / 2 * draw.standard_t(3, TRIALS)
    catch = repeated * (1 + even(0.025))
    stopwatch = 1 + even(0.01)
    catch_time, course_time = (30 + even(0.3)) * stopwatch, (36 + even(0.3)) * stopwatch
    course = 50 + even(0.2)
    rate = catch / 1000 / catch_time / (course / course_time * 0.5) * 10_000
    return numpy.quantile(rate, [0.025, 0.975])


def main(program):
    best = float("inf")
    for seed in range(REPEATS):
        begin = time.perf_counter()
        ends = by_numpy(seed)
        best = min(best, time.perf_counter() - begin)
    theirs = TRIALS / best
    told = subprocess.run([program, str(TRIALS), str(REPEATS)], capture_output=True, text=True, check=True).stdout.split()
    ours, low, high = map(float, told)
    if abs(low / ends[0] - 1) > 2e-3 or abs(high / ends[1] - 1) > 2e-3:
        sys.exit(f"the intervals differ: {low} to {high}, and {ends[0]} to {ends[1]} by numpy")
    print(f"{'':10}{'trials/s':>14}  95 % interval, L/ha")
    print(f"{'numpy':10}{theirs:14.3g}  {ends[0]:.2f} to {ends[1]:.2f}")
    print(f"{'mixcalc':10}{ours:14.3g}  {low:.2f} to {high:.2f}")
    print(f"mixcalc is {ours / theirs:.2f} times as fast")


if __name__ == "__main__":
    main(*sys.argv[1:])
