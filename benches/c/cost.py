"""Nanoseconds and instructions of what benches/c/cost.c does, less those of its empty loop: `python cost.py PROGRAM JOB`."""

import re
import subprocess
import sys

PROGRAM, JOB = sys.argv[1:]
TIMES = {"plan": 3000, "json": 3000, "amount": 100_000, "convert": 100_000, "refused": 300_000}
ASKED = ["nothing", "plain-mix", "plain-mix-checked", "mix", "plain-volume-rate", "volume-rate", "refused", "convert", "plan", "json", "amount"]


def nanoseconds(what: str) -> float:
    """The best of seven."""
    count = TIMES.get(what, 5_000_000)
    return min(float(subprocess.check_output([PROGRAM, what, str(count), JOB])) for _ in range(7))


def instructions(what: str) -> float:
    """The difference of two runs, so that starting does not count."""

    def counted(count: int) -> int:
        tool = ["valgrind", "--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null", "--log-fd=1"]
        out = subprocess.check_output([*tool, PROGRAM, what, str(count), JOB], text=True)
        return int(re.search(r"I\s+refs:\s+([\d,]+)", out)[1].replace(",", ""))

    few = 100
    return (counted(2 * few) - counted(few)) / few


empty = nanoseconds("nothing"), instructions("nothing")
print(f"{'':20}{'ns':>10}{'instructions':>14}")
for what in ASKED[1:]:
    print(f"{what:20}{nanoseconds(what) - empty[0]:>10.1f}{instructions(what) - empty[1]:>14.0f}")
