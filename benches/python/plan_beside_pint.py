"""The time of a plan, beside the same sums written by hand with pint, as a careful user would write them.

    python benches/python/plan_beside_pint.py

It needs mixcalc, from a release build, and pint. All rows are timed in one run, so that their ratios hold on any machine; the
times do not. Before anything is timed, every number that both sides work out is held against the other's within 1e-9; a difference
ends it with an error. mixcalc does more than the sums: it checks the limits of labels, and settles carrier, steps and ledger. A plan
makes Python objects of its numbers when they are asked for, so the second row is the one to hold against pint.
"""

import math
import sys
import timeit

import mixcalc
import pint

REPEATS = 9

JOB = {
    "format": "mixcalc-job/1",
    "area": "12.4 ha",
    "volume_rate": "180 L/ha",
    "sprayer": {"kind": "boom"},
    "tank": {"nominal": "600 L", "brim": "640 L"},
    "products": [
        {
            "name": "example product A", "formulation": "SC", "dose": "1.5 L/ha", "label": {"max_dose": "2 L/ha"},
            "measure": {"kind": "vessel", "capacity": "5 L", "graduation": "50 mL"},
        },
        {
            "name": "example product B", "formulation": "WG", "dose": "240 g/ha", "label": {"max_dose": "300 g/ha"},
            "particle_density": "1.5 kg/L", "measure": {"kind": "scale", "capacity": "2 kg", "graduation": "5 g"},
        },
        {
            "name": "example product C", "formulation": "SL", "dose": "0.1 % v/v", "label": {"max_dose": "0.15 % v/v"},
            "measure": {"kind": "vessel", "capacity": "1 L", "graduation": "20 mL"},
        },
    ],
}

# pint gives numbers that are made in advance the unit that is asked for, and reads text as mixcalc does.
UNITS = pint.UnitRegistry()
TEXTS = {
    "area": "12.4 hectare",
    "rate": "180 L/hectare",
    "fill": "600 L",
    "doses": ["1.5 L/hectare", "240 g/hectare", "0.001"],
    "graduations": ["50 mL", "5 g", "20 mL"],
    "shown": ["L", "kg", "L"],
}


def read(texts):
    """The texts as quantities of pint."""
    one, many = (lambda key: UNITS.Quantity(texts[key])), (lambda key: [UNITS.Quantity(text) for text in texts[key]])
    return one("area"), one("rate"), one("fill"), many("doses"), many("graduations"), texts["shown"]


def by_hand(area, rate, fill, doses, graduations, shown):
    """Loads and amounts: full loads at the safe fill and a part load; each product rounded to its graduation."""
    mix = (area * rate).to("L")
    # A ratio that stands on a whole number but for rounding is that number.
    full = math.floor((mix / fill).to("").magnitude + 1e-9)
    part = mix - full * fill
    numbers = [mix.magnitude, full, part.magnitude]
    for dose, graduation, unit in zip(doses, graduations, shown):
        # A dose per area goes by the ground that a load serves, a share by its volume.
        total = 0 * graduation
        for count, load in ((full, fill), (1, part)):
            amount = (dose * load if dose.dimensionless else dose * load / rate).to(graduation.units)
            measured = round((amount / graduation).to("").magnitude) * graduation
            total += count * measured
            numbers.append(measured.to(unit).magnitude)
        numbers.append(total.to(unit).magnitude)
    return numbers


def read_off(plan):
    """The same numbers, in the same order, of a plan."""
    full, part = plan.loads
    numbers = [plan.totals.mix.to("L"), full.count, part.mix.to("L")]
    for in_full, in_part, total, unit in zip(full.products, part.products, plan.totals.products, TEXTS["shown"]):
        numbers += [in_full.measured.to(unit), in_part.measured.to(unit), total.measured.to(unit)]
    return numbers


def best(calls):
    """Seconds for one of each call: the best of several rounds, each through all of them, so that a busy machine slows all alike."""
    timers = [timeit.Timer(call) for call in calls]  # which keeps garbage collection off
    numbers = [timer.autorange()[0] for timer in timers]
    rounds = [[timer.timeit(number) / number for timer, number in zip(timers, numbers)] for _ in range(REPEATS)]
    return [min(times) for times in zip(*rounds)]


def main():
    """Compare, time, print."""
    job, quantities = mixcalc.Job.from_dict(JOB), read(TEXTS)
    ours, theirs = read_off(mixcalc.plan(JOB)), by_hand(*quantities)
    if len(ours) != len(theirs) or not all(math.isclose(a, b, rel_tol=1e-9) for a, b in zip(ours, theirs)):
        sys.exit(f"the numbers differ:\n{ours}\n{theirs}")
    if read_off(mixcalc.plan(job)) != ours or by_hand(*read(TEXTS)) != theirs:
        sys.exit("the same job gives other numbers")

    rows = [
        ("mixcalc.plan(job)", lambda: mixcalc.plan(job)),
        ("  and its numbers read off", lambda: read_off(mixcalc.plan(job))),
        ("mixcalc.plan(dict)", lambda: mixcalc.plan(JOB)),
        ("pint, quantities made before", lambda: by_hand(*quantities)),
        ("pint, quantities read from text", lambda: by_hand(*read(TEXTS))),
    ]
    times = best([call for _, call in rows])
    print(f"{len(ours)} numbers agree within 1e-9; best of {REPEATS} rounds, garbage collection off")
    print(f"mixcalc {mixcalc.__version__}, pint {pint.__version__}, Python {sys.version.split()[0]}\n")
    print(f"{'':32}{'us':>9}{'ratio':>9}")
    for (name, _), seconds in zip(rows, times):
        print(f"{name:32}{seconds * 1e6:9.1f}{seconds / times[0]:9.1f}")


if __name__ == "__main__":
    main()
