"""Section 20 of docs/numbers.md: the rate of a calibration in exact fractions, and its doubt from numerical derivatives."""

from __future__ import annotations

from fractions import Fraction
from math import atan, cos, erfc, pi, sin, sqrt
from statistics import NormalDist

from quantities import MASS, exact, quantity

THREE = sqrt(3)
WEIGHED = ("catch", "refill", "filled", "volume")


def flow(x):
    return x["flow"] if "flow" in x else x["catch"] / x["catch_time"]


def speed(x):
    return x["speed"] if "speed" in x else x["course"] / x["course_time"]


RATES = {  # section 15
    "flow": lambda x: flow(x) / (speed(x) * x["swath"]),
    "timed-course": lambda x: flow(x) / (speed(x) * x["swath"]),
    "catch-over-course": lambda x: x["catch"] / (x["course"] * x["swath"]),
    "catch-over-area": lambda x: x["catch"] / x["area"],
    "refill": lambda x: x["refill"] / x["area"],
    "emptied-tank": lambda x: (x["filled"] - x["residual"]) / x["area"],
    "spot": lambda x: x["catch"] / x["catch_time"] * x["spot_time"] / x["spot"],
    "plants": lambda x: x["volume"] / x["ground"],
    "band": lambda x: flow(x) / (speed(x) * x["row_spacing"]),
    "alleys": lambda x: x["passes"] * flow(x) / (speed(x) * x["row_spacing"]),
    "sides": lambda x: (x["left"] + x["right"]) / (speed(x) * x["row_spacing"]),
}


def fraction(stated) -> Fraction:
    return quantity(stated)[0] if isinstance(stated, (str, dict)) else exact(stated)


class Doubt:
    """An independent input: its name, standard uncertainty, and degrees of freedom, None without end."""

    def __init__(self, name, u, degrees=None):
        self.name, self.u, self.degrees = name, u, degrees


def measured(place, given, instruments, doubts):
    """A function from deviations of the doubts to the value of a place, and its kind. Adds its doubts."""
    table = given if isinstance(given, dict) and "value" not in given or isinstance(given, dict) and set(given) - {"value", "unit"} else {"measured": given}
    if "value" in table and "measured" not in table:
        table = {**table, "measured": {"value": table["value"], "unit": table["unit"]}}
    readings = table["measured"] if isinstance(table["measured"], list) else [table["measured"]]
    values, kind = [quantity(reading)[0] for reading in readings], quantity(readings[0])[1]
    mean, moves = sum(values) / len(values), []

    def doubt(name, u, degrees, move):
        if u and not any(known.name == name for known in doubts):
            doubts.append(Doubt(name, u, degrees))
        moves.append((name, move))
    if len(values) > 1:
        n = len(values)
        doubt(place, sqrt(sum((x - mean) ** 2 for x in values) / (n - 1) / n), n - 1, lambda x, d: x + d)
    if "tolerance" in table:
        size, of = quantity(table["tolerance"])
        is_part = of != kind
        doubt(f"{place} tolerance", float(size) / THREE, None, (lambda x, d: x * (1 + d)) if is_part else (lambda x, d: x + d))
    if "resolution" in table:
        doubt(f"{place} resolution", float(quantity(table["resolution"])[0]) / 2 / THREE, None, lambda x, d: x + d)
    if "instrument" in table:
        doubt(table["instrument"], float(instruments[table["instrument"]]) / THREE, None, lambda x, d: x * (1 + d))

    def of(deviations):
        x = mean
        for name, move in moves:
            x = move(x, deviations.get(name, 0))
        return x
    return of, kind


def whole(degrees):
    """What is certain of degrees of freedom."""
    return None if degrees is None else max(1, int(degrees * (1 + 1e-12)))


def student(coverage: float, degrees) -> float:
    """The two-sided quantile, by bisection of the finite sums of Abramowitz and Stegun, 26.7.3 and 26.7.4; for many degrees by their 26.7.5."""
    x = NormalDist().inv_cdf(0.5 + coverage / 2)
    if degrees is None:
        return x
    if degrees > 10_000:
        return x + (x**3 + x) / (4 * degrees) + (5 * x**5 + 16 * x**3 + 3 * x) / (96 * degrees**2)

    def within(t):
        angle = atan(t / sqrt(degrees))
        c, s = cos(angle), sin(angle)
        term, total = (c, c) if degrees % 2 else (1.0, 1.0)
        for i in range(3 if degrees % 2 else 2, degrees - 1, 2):
            term *= c * c * (i - 1) / i
            total += term
        if degrees % 2:
            return 2 / pi * (angle + (s * total if degrees > 1 else 0))
        return s * total
    low, high = 0.0, 1e9
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if within(middle) < coverage else (low, middle)
    return (low + high) / 2


class Calibrated:
    """The rate (exact), its standard uncertainty, degrees of freedom, and what each input adds."""

    def __init__(self, record: dict):
        instruments = {i["name"]: fraction(i["tolerance"]) for i in record.get("instruments", [])}
        doubts, places = [], {}
        for place, given in record.items():
            if place in ("method", "alleys", "instruments", "water_temperature", "setting", "use_in", "oldest", "coverage", "risk"):
                continue
            places[place] = measured(place, given, instruments, doubts)
        passes = {"each": 1, "each-twice": 2, "every-other": Fraction(1, 2)}.get(record.get("alleys"), 1)

        def rate(deviations):
            x = {place: of(deviations) for place, (of, _) in places.items()}
            for place in WEIGHED:
                if place in x and places[place][1] == MASS:  # "V = m (1 - a / s) / (d - a)"
                    x[place] *= Fraction("0.99985") / (x["density"] - Fraction("1.2"))
            return RATES[record["method"]]({**x, "passes": passes})
        self.R = rate({})
        self.adds = []
        for doubt in doubts:
            step = Fraction(doubt.u) / 10**6
            slope = (rate({doubt.name: step}) - rate({doubt.name: -step})) / (2 * step)
            size = abs(float(slope)) * doubt.u
            if size > 1e-9 * float(self.R) * doubt.u:
                self.adds.append((doubt.name, size, doubt.degrees))
        self.adds.sort(key=lambda one: -one[1])
        self.u = sqrt(sum(size * size for _, size, _ in self.adds))
        below = sum(size**4 / degrees for _, size, degrees in self.adds if degrees)
        self.degrees = self.u**4 / below if below else None
        self.coverage = float(fraction(record.get("coverage", Fraction(95, 100))))
        self.k = student(self.coverage, whole(self.degrees))
        self.low, self.high = float(self.R) - self.k * self.u, float(self.R) + self.k * self.u
        self.risk = float(fraction(record["risk"])) if "risk" in record else None
        self.record = record

    def differences(self):
        from datetime import date
        one, other = self.record.get("setting"), self.record.get("use_in")
        if other is None:
            return []
        if one is None:
            return ["unstated"]
        found = [key for key in ("sprayer", "operator", "nozzles") if one[key] != other[key]]
        found += ["pressure"] if quantity(one["pressure"])[0] != quantity(other["pressure"])[0] else []
        found += ["ground"] if one["ground"] != other["ground"] else []
        then, now = (date(*map(int, s["date"].split("-"))) for s in (one, other))
        age = (now - then).days * 86400
        found += ["too-old"] if "oldest" in self.record and age > quantity(self.record["oldest"])[0] else []
        return found + (["later-day"] if then > now else [])

    def beside(self, *shares: float) -> "Combined":
        """The doubt of what goes by this rate, and by what else is uncertain by parts of itself that are known for certain."""
        rate = self.u / float(self.R)
        share = sqrt(rate**2 + sum(x**2 for x in shares))
        return Combined(share, None if self.degrees is None or not rate else share**4 / (rate**4 / self.degrees), self.coverage)

    def aim(self, most: float, doubt: "Combined"):
        return None if self.risk is None else most / (1 + student(1 - 2 * self.risk, doubt.whole) * doubt.share)


class Combined:
    """A standard uncertainty as a part of its value, its whole degrees of freedom, and the interval's half as a part."""

    def __init__(self, share: float, degrees, coverage: float):
        self.share, self.whole = share, whole(degrees)
        self.half = student(coverage, self.whole) * share

    def over(self, dose: float, most: float) -> float:
        """The probability that a dose is really over a maximum."""
        if not self.share:
            return 1.0 if dose > most * (1 + 1e-12) else 0.0
        x = (most - dose) / (dose * self.share)
        if self.whole is None:
            return 0.5 * erfc(x / sqrt(2))
        low, high = 0.0, 1.0  # the coverage whose quantile is |x|
        for _ in range(100):
            middle = (low + high) / 2
            low, high = (middle, high) if student(min(middle, 1 - 1e-15), self.whole) < abs(x) else (low, middle)
        return 0.5 - low / 2 if x > 0 else 0.5 + low / 2
