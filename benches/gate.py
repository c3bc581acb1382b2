"""Holds the instruction counts against the numbers checked in, from the JSON of the benchmark on standard input:

    cargo bench --package mixcalc-benches --bench instructions -- --output-format=json | python3 benches/gate.py

Fails where a count is 0 (a stripped binary counts nothing and looks fine), over the number checked in by more than a tenth, new or
gone; and where a plan of ten billion loads costs more than a tenth more than one of ten. UPDATE=1 checks the counts in.
"""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

CHECKED_IN = Path(__file__).with_name("instructions.json")
MOST = 1.10
FEW_LOADS, MANY_LOADS = "plan three_products", "plan many_loads"
# Per tool of valgrind, what is counted and what it is called here.
COUNTED = {"Callgrind": ("Ir", "instructions"), "DHAT": ("TotalBlocks", "allocations")}


def counts(lines: list[str]) -> dict[str, dict[str, int]]:
    """Per benchmark, instructions and allocations."""
    found = {}
    for run in map(json.loads, filter(str.strip, lines)):
        totals = {profile["tool"]: profile["data"]["total"]["metrics"] for profile in run["profiles"]}
        found[f"{run['function_name']} {run['id']}"] = {
            name: int(totals[tool][metric]["values"]["new"]) for tool, (metric, name) in COUNTED.items()
        }
    return found


def faults(now: dict[str, dict[str, int]], before: dict[str, dict[str, int]]) -> list[str]:
    """What is wrong with the counts."""
    wrong = [f"{name}: counts no instructions" for name, count in now.items() if count["instructions"] == 0]
    wrong += [f"{name}: not checked in" for name in now.keys() - before.keys()]
    wrong += [f"{name}: did not run" for name in before.keys() - now.keys()]
    for name in now.keys() & before.keys():
        for what, count in now[name].items():
            if count > before[name][what] * MOST:
                wrong.append(f"{name}: {count} {what}, {before[name][what]} are checked in")
    if not {FEW_LOADS, MANY_LOADS} <= now.keys():
        return wrong + [f"{FEW_LOADS} and {MANY_LOADS}: both are needed"]
    few, many = now[FEW_LOADS]["instructions"], now[MANY_LOADS]["instructions"]
    if many > few * MOST:
        wrong.append(f"{MANY_LOADS}: {many} instructions, {few} for ten loads")
    return wrong


def main() -> int:
    now = counts(sys.stdin.readlines())
    before = json.loads(CHECKED_IN.read_text()) if CHECKED_IN.exists() else {}
    for name, count in now.items():
        was = before.get(name, {}).get("instructions")
        change = f"{count['instructions'] / was - 1:+.1%}" if was else "new"
        print(f"{name:24} {count['instructions']:>9} instructions {change:>7} {count['allocations']:>5} allocations")
    if os.environ.get("UPDATE") == "1":
        CHECKED_IN.write_text(json.dumps(now, indent=1) + "\n")
        before = now
    wrong = sorted(faults(now, before))
    for fault in wrong:
        print(fault, file=sys.stderr)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
