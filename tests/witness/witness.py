"""The witness: the sums of a plan once more, in exact fractions, from docs/numbers.md alone.

    python witness.py JOB.toml|JOB.json PLAN.json     one sentence per failure; exit 0, 1, or 2 (cannot be read)
    python witness.py --lines < LINES                 JSON lines, each {"job": {...}, "plan": {...}}
                                                      or {"job": {...}, "error": "products-fill-mix"}

It shares no code with the library. `promises` holds the plan against itself and the label; `Reckoning` works the plan
out anew from the job; `check` reports every place where the document differs from either.
"""

from __future__ import annotations

import json
import re
import sys
from fractions import Fraction
from math import ceil, floor
from types import SimpleNamespace as Record


class Unreadable(ValueError):
    """The text is not a quantity or a document that the witness knows."""


class NoAnswer(Exception):
    """The job is an error of the library; the text is its code."""


# ------------------------------------------------------------------------------------------------------------ units
AREA, VOLUME, MASS, TIME = (2, 0, 0), (3, 0, 0), (0, 1, 0), (0, 0, 1)  # powers of m, kg, s
LIQUID_PER_AREA, DRY_PER_AREA, BY_VOLUME, DENSITY, BY_MASS = (1, 0, 0), (-2, 1, 0), (0, 0, 0), (-3, 1, 0), "w/w"
FOOT, POUND, US_GAL, IMP_GAL = (Fraction(t) for t in ("0.3048", "0.45359237", "0.003785411784", "0.00454609"))
LITRE, HECTARE, HOUR = Fraction(1, 1000), 10000, 3600

UNITS = {
    "m": (1, (1, 0, 0)), "in": (FOOT / 12, (1, 0, 0)), "ft": (FOOT, (1, 0, 0)), "yd": (3 * FOOT, (1, 0, 0)),
    "mi": (5280 * FOOT, (1, 0, 0)), "ha": (HECTARE, AREA), "ac": (43560 * FOOT**2, AREA),
    "lb": (POUND, MASS), "oz av": (POUND / 16, MASS), "tonne": (1000, MASS),
    "s": (1, TIME), "min": (60, TIME), "h": (HOUR, TIME), "mph": (5280 * FOOT / HOUR, (1, 0, -1)),
    "bar": (100000, (-1, 1, -2)), "psi": (POUND * Fraction("9.80665") / (FOOT / 12) ** 2, (-1, 1, -2)),
    "%": (Fraction(1, 100), "number"),
}
for _name, _parts in {"gal": 1, "qt": 4, "pt": 8, "cup": 16, "fl oz": 128, "tbsp": 256, "tsp": 768}.items():
    UNITS["US " + _name] = (US_GAL / _parts, VOLUME)
for _name, _parts in {"gal": 1, "qt": 4, "pt": 8, "fl oz": 160}.items():
    UNITS["imp " + _name] = (IMP_GAL / _parts, VOLUME)
for _name, (_size, _kind) in {"m": UNITS["m"], "g": (Fraction(1, 1000), MASS), "L": (LITRE, VOLUME),
                              "l": (LITRE, VOLUME), "Pa": (1, (-1, 1, -2))}.items():
    for _prefix, _power in {"": 0, "u": -6, "m": -3, "c": -2, "d": -1, "h": 2, "k": 3, "M": 6}.items():
        UNITS[_prefix + _name] = (_size * Fraction(10) ** _power, _kind)
for _name in [n for n, (_, kind) in UNITS.items() if kind == (1, 0, 0)]:
    for _power in (2, 3):
        UNITS[f"{_name}{_power}"] = (UNITS[_name][0] ** _power, (_power, 0, 0))

# "always the object on the way out, in one fixed unit per kind: ha, L, kg, L/ha, kg/ha"
FIXED = {AREA: "ha", VOLUME: "L", MASS: "kg", LIQUID_PER_AREA: "L/ha", DRY_PER_AREA: "kg/ha"}


def exact(number) -> Fraction:
    """The decimal text of a number, exactly; a double stands for its shortest text."""
    text = repr(number) if isinstance(number, float) else str(number)
    if isinstance(number, bool) or not (isinstance(number, Fraction)
                                        or re.fullmatch(r"[+-]?\d{1,400}(\.\d{1,400})?([eE][+-]?\d{1,3})?", text)):
        raise Unreadable(f"{number!r} is not a number")
    return Fraction(text)


def unit(text: str):
    """Factor to SI and kind of "kg", "US fl oz/1000 ft2", "mL/15 L", "% w/v"."""
    if share := re.fullmatch(r"(%|ppm) *(v/v|w/v|w/w)", text):
        part = Fraction(1, 100 if share[1] == "%" else 10**6)
        return {"v/v": (part, BY_VOLUME), "w/v": (part * 1000, DENSITY), "w/w": (part, BY_MASS)}[share[2]]
    above, slash, below = (part.strip() for part in text.replace("²", "2").replace("³", "3").partition("/"))
    count, name = re.fullmatch(r"([\d.]*)\s*(.*)", below).groups()
    for known in (above, name) if slash else (above,):
        if known not in UNITS:
            raise Unreadable(f"unit {known!r} in {text!r} is not known")
    size, kind = UNITS[above]
    if not slash:
        return size, kind
    if kind == UNITS[name][1] == MASS:
        return size / UNITS[name][0] / exact(count or 1), BY_MASS
    return size / UNITS[name][0] / exact(count or 1), tuple(a - b for a, b in zip(kind, UNITS[name][1]))


def quantity(given):
    """SI value and kind of "300 L/ha" or {"value": 300, "unit": "L/ha"}."""
    if isinstance(given, dict) and {"value", "unit"} <= set(given):
        number, name = given["value"], given["unit"]
    elif isinstance(given, str) and (parts := re.fullmatch(r"\s*([-+.\deE]+)\s*(\S.*?)\s*", given)):
        number, name = parts.groups()
    else:
        raise Unreadable(f"{given!r} is not a quantity")
    factor, kind = unit(name)
    return exact(number) * factor, kind


def value(table: dict, *keys: str):
    """The SI value at a path of keys, None where one is absent."""
    for key in keys:
        table = (table or {}).get(key)
    return None if table is None else quantity(table)[0]


# ------------------------------------------------------------------------------------------------------ 1. closeness
E = Fraction(1, 10**12)


def close(a, b) -> bool:  # "|a - b| <= e * max(|a|, |b|)"
    return abs(a - b) <= E * max(abs(a), abs(b))


def over(a, limit) -> bool:  # "over a limit L where x > L and they are not close"
    return a > limit and not close(a, limit)


def under(a, limit) -> bool:  # "under likewise"
    return over(limit, a)


def down(x) -> int:  # "the nearest whole number n where x is close to n, else floor(x)"
    return round(x) if close(x, round(x)) else floor(x)


def up(x) -> int:
    return round(x) if close(x, round(x)) else ceil(x)


def nearest(x) -> int:  # "where x is over n + 1/2, n + 1, else n (a half goes down)"
    return down(x) + over(x, down(x) + Fraction(1, 2))


def marks(x):
    """Whole marks below x, and whether x stands on the mark."""
    return down(x), close(x, down(x))


# ------------------------------------------------------------------------------- what the document is expected to hold
class Num:
    """A number within a tolerance; of a kind, in its fixed unit, or bare."""

    def __init__(self, si, kind, tolerance):
        self.si, self.kind, self.tolerance = si, kind, tolerance

    def plain(self):
        if self.kind is None:
            return float(self.si)
        name = FIXED.get(self.kind)
        return {"value": float(self.si / unit(name)[0]), "unit": name} if name else {"si": float(self.si)}

    def holds(self, got):
        if self.kind is None:
            return abs(exact(got) - self.si) <= self.tolerance
        si, kind = quantity(got)
        return abs(si - self.si) <= self.tolerance and kind == self.kind and got["unit"] == FIXED.get(kind, got["unit"])


class Either:
    """Any of these: the page leaves it open."""

    def __init__(self, *choices):
        self.choices = choices


ANY = object()


def plain(want):
    """The expected document as JSON would hold it."""
    if isinstance(want, dict):
        return {key: plain(item) for key, item in want.items()}
    if isinstance(want, list):
        return [plain(item) for item in want]
    if isinstance(want, Either):
        return plain(want.choices[0])
    return want.plain() if isinstance(want, Num) else "some text" if want is ANY else want


def differences(path: str, want, got):
    """A sentence for each place where the document is not what is expected."""
    if isinstance(want, Either):
        return min((differences(path, choice, got) for choice in want.choices), key=len)
    if isinstance(want, Num):
        try:
            fits = want.holds(got)
        except (Unreadable, TypeError):
            fits = False
    elif isinstance(want, dict) and isinstance(got, dict):
        return [s for key in want for s in (differences(f"{path}.{key}".lstrip("."), want[key], got[key])
                                            if key in got else [f"{path}.{key}: is missing"])]
    elif isinstance(want, list) and isinstance(got, list) and len(want) == len(got):
        return [s for i, item in enumerate(want) for s in differences(f"{path}[{i}]", item, got[i])]
    else:
        fits = isinstance(got, str) if want is ANY else type(want) is type(got) and want == got
    return [] if fits else [f"{path}: expected {json.dumps(plain(want))}, got {json.dumps(got, default=float)}"]


# ------------------------------------------------------------------------------------------------- the sums, once more
DRY = {"WP", "WG", "WT", "EG", "EP", "SP", "SG", "ST", "OP"}  # the solid types that go into water
PER_AREA = (LIQUID_PER_AREA, DRY_PER_AREA)


class Reckoning:
    """The plan of a job. Where doubles could rightly fall on either side of a decision, `script` says which is taken."""

    def __init__(self, job: dict, script=()):
        self.job, self.script, self.forks = job, script, []
        self.u = Fraction(1, 10**13)  # how far doubles may be off, relatively
        self.findings = []

    def solve(self):
        self.mix()
        self.tank()
        self.volume()
        self.split()
        self.amounts()
        self.stopped = any(f.severity == "stop" for f in self.findings)
        return self.document()

    def pick(self, choices):
        choices = list(dict.fromkeys(choices))
        if len(choices) == 1:
            return choices[0]
        self.forks.append(len(choices))
        at = len(self.forks) - 1
        return choices[self.script[at]] if at < len(self.script) else choices[0]

    def decide(self, rule, x, *others, u=None):
        """The rule on x and on what doubles may make of it."""
        u = u or self.u
        return self.pick([rule(x * f, *others) for f in (1, 1 - u, 1 + u)])

    def num(self, si, kind, u=None, slack=0):
        return Num(si, kind, 10 * (u or self.u) * abs(si) + slack)

    def note(self, severity, code, product=None, load=None, must=True):
        self.findings.append(Record(severity=severity, code=code, product=product, load=load, must=must))

    # 2. The mix
    def mix(self):
        self.density = value(self.job, "mix_density")
        self.products = [self.product(i, p) for i, p in enumerate(self.job.get("products", []))]
        area = sum(p.dose[0] * p.displaces for p in self.products if p.dose[1] in PER_AREA)
        of_mix = sum(self.fraction(p.dose) * p.displaces for p in self.products if p.basis == "mix-volume")
        of_carrier = sum(p.dose[0] * p.displaces for p in self.products if p.basis == "carrier-volume")
        if of_mix >= 1:
            raise NoAnswer("products-fill-mix")
        self.R = value(self.job, "volume_rate")
        if self.R is None:  # "R = (Q * (1 + sum(C)) + sum(area doses as volume per area)) / (1 - sum(m))"
            self.R = (value(self.job, "carrier_rate") * (1 + of_carrier) + area) / (1 - of_mix)
        # "k = (1 - sum(a) - sum(m)) / (1 + sum(C)), where a = (area dose as volume per area) / R"
        self.k = (1 - area / self.R - of_mix) / (1 + of_carrier)
        if self.k <= 0:
            raise NoAnswer("products-fill-mix")
        self.u += Fraction(1, 10**15) * (1 / self.k + 1 / (1 - of_mix))
        for p in self.products:
            p.c, p.most = self.share(p, p.dose), self.share(p, p.label)
            # "A dose over its maximum is the stop over-maximum-dose (compared as amounts of the mix)"
            if self.decide(over, p.c, p.most):
                self.note("stop", "over-maximum-dose", p.i)
            for bound, breaks in (("minimum", under), ("maximum", over)):
                limit = value(p.given, "label", f"{bound[:3]}_volume_rate")
                if limit is not None and self.decide(breaks, self.R, limit):
                    self.note("stop", f"volume-rate-{'below' if bound == 'minimum' else 'above'}-{bound}")

    def product(self, i, given):
        p = Record(i=i, given=given, name=given["name"], dose=quantity(given["dose"]), own=given.get("measure"))
        p.label = quantity(given.get("label", {}).get("max_dose", given["dose"]))
        kind = p.dose[1]
        p.kind = VOLUME if kind in (LIQUID_PER_AREA, BY_VOLUME) else MASS
        # "per area means ground-area, per volume or per mass means mix-volume"
        p.basis = given.get("basis", "ground-area" if kind in PER_AREA else "mix-volume")
        p.density, p.particle, p.bulk = (value(given, k) for k in ("density", "particle_density", "bulk_density"))
        p.dry = (given["formulation"][:2] in DRY if "formulation" in given else p.kind == MASS and p.density is None)
        # "For a share by mass d = c / density for a liquid with density, d = c / particle_density for a dry product
        # with particle_density, and otherwise 0 with the note displacement-not-counted."
        body = p.particle if p.dry else p.density
        p.displaces = 1 if p.kind == VOLUME else 1 / body if body else 0
        if p.kind == MASS and not body:
            self.note("note", "displacement-not-counted", i)
        return p

    def fraction(self, dose):
        return dose[0] * (self.density if dose[1] == BY_MASS else 1)

    def share(self, p, dose):
        if dose[1] in PER_AREA:
            return dose[0] / self.R
        return self.fraction(dose) * (self.k if p.basis == "carrier-volume" else 1)

    # 3. The tank
    def tank(self):
        tank, sprayer = self.job["tank"], self.job["sprayer"]
        self.carried = sprayer["kind"] in ("hand-held", "knapsack")
        nominal, brim, self.g = (value(tank, key) for key in ("nominal", "brim", "graduation"))
        h = tank.get("headspace")
        h = quantity(h)[0] if isinstance(h, (str, dict)) else None if h is None else exact(h)
        roomy = not self.carried and None not in (nominal, brim) and not self.decide(over, Fraction("1.05") * nominal, brim)
        if h is None and not roomy:
            h = Fraction(10 if self.carried else 5, 100)
        U = nominal if h is None else (1 - h) * (nominal if brim is None else brim)
        U = min(U, nominal or U)
        limit, empty = value(sprayer, "carried_mass_limit"), value(sprayer, "empty_mass")
        if None not in (limit, empty, self.density):
            U = min(U, (limit - empty) / self.density)
        if self.g:  # "U = steps_down(U / g) * g. Less than one mark is the error below-first-mark."
            U = self.decide(down, U / self.g) * self.g
            if U == 0:
                raise NoAnswer("below-first-mark")
        if not roomy and self.decide(over, U, Fraction(95, 100) * (brim or nominal)):
            self.note("caution", "headspace-below-five-percent")
        self.U = U

    # 4. How much mix
    def volume(self):
        self.A, self.strip = value(self.job, "area"), self.job.get("loading", {}).get("last_strip")
        residual = self.job["sprayer"].get("residual")
        self.r = None if residual is None else sum(value(residual, key) or 0 for key in residual)
        r, self.H = self.r or 0, 0
        if self.strip and "volume" in self.strip:
            self.H = value(self.strip, "volume")
        elif self.strip:  # "H = max(0, R * S - r); where R * S is under r the caution residual-exceeds-strip"
            whole = self.R * value(self.strip, "area")
            self.H = max(0, whole - r)
            if self.decide(under, whole, r):
                self.note("caution", "residual-exceeds-strip")
        self.V = self.R * self.A - self.H
        if self.strip:  # "not under the job area is the error strip-covers-job; over 10 % of it is the caution"
            self.strip_area = (self.H + r) / self.R
            if not self.decide(under, self.strip_area, self.A):
                raise NoAnswer("strip-covers-job")
            if self.decide(over, self.strip_area, self.A / 10):
                self.note("caution", "strip-above-ten-percent")
        elif r:
            self.note("note", "residual-leaves-ground-short")
        self.u += Fraction(1, 10**15) * self.R * self.A / self.V

    # 5. Loads
    def split(self):
        x, loading, least = self.V / self.U, self.job.get("loading", {}), value(self.job["tank"], "least_working_volume")
        noise = self.V / 10**15  # what V - n U and V - M g may be off in doubles
        if self.decide(over, x, 10**11):
            raise NoAnswer("too-many-loads")
        if loading.get("split", "full-then-part") == "even":
            groups = self.even(self.V, self.decide(up, x), 0, noise)
        else:
            n, whole = self.decide(marks, x)
            part = 0 if whole else self.V - n * self.U
            u = self.u + noise / (part or 1)
            if part and n and least and self.decide(under, part, least, u=u):
                groups = [(n - 1, self.U, self.u)] + self.even(self.U + part, 2, noise, noise)
            else:
                groups = [(n, self.U, self.u), (1 if part else 0, part, u)]
        self.loads, last = [], 0
        for count, v, u in groups:
            if count and self.loads and close(v, self.loads[-1].v):  # "share one recipe and a count"
                self.loads[-1].count += count
                self.loads[-1].last += count
            elif count:
                self.loads.append(Record(first=last + 1, last=last + count, count=count, v=min(v, self.U), u=u, products=[]))
            last += count
        for load in self.loads:
            if least and self.decide(under, load.v, least, u=load.u):
                self.note("caution", "part-load-below-working-volume", load=load)

    def even(self, V, n, noise, mark_noise):
        if not self.g:
            return [(n, V / n, self.u + noise * n / V)]
        M, whole = self.decide(marks, V / self.g, u=self.u + noise / V)
        rest = 0 if whole else V - M * self.g
        more, low = M % n, M // n * self.g
        groups = [(more, low + self.g, self.u), (n - more - 1, low, self.u), (1, low + rest, self.u + mark_noise / (low + rest))]
        return groups if rest else [(more, low + self.g, self.u), (n - more, low, self.u)]

    # 6. Amounts
    def amounts(self):
        measures = self.job.get("measures", [])
        largest = max(range(len(self.loads)), key=lambda i: self.loads[i].v)
        reference = self.pick([0, largest])  # the page says "the first (largest) load"
        for p in self.products:
            options = [m for i, g in enumerate([p.own] if p.own else measures) if (m := self.measure(p, i, g))]
            if not options:
                raise NoAnswer("missing-density" if p.own else "no-measure")
            chosen = self.choose(p, self.loads[reference], options)
            for load in self.loads:
                load.products.append(self.amount(p, load, chosen, options))
        for load in self.loads:
            self.fill(load)
        for p in self.products:
            p.measured = sum(load.count * load.products[p.i].measured for load in self.loads)
            p.stock = value(p.given, "stock")
            if p.stock is not None and self.decide(over, p.measured, p.stock):
                self.note("caution", "stock-short", p.i)

    def measure(self, p, i, given):
        """The measure as it serves the product; None where it lacks the density that it needs."""
        g, kind = quantity(given["graduation"])
        # "brought to the measure's dimension with density (liquid) or bulk_density (dry product in a vessel)"
        density = 1 if kind == p.kind else p.bulk if p.dry else p.density
        if density is None:
            return None
        factor = 1 if kind == p.kind else density if kind == MASS else 1 / density
        pack = given["kind"] == "pack"
        capacity = None if pack else value(given, "capacity")
        return Record(i=i, name=given.get("name", ANY), sort=given["kind"], kind=kind, g=g, factor=factor, pack=pack,
                      capacity=capacity, q=None if pack else self.decide(down, capacity / g),
                      max_fillings=self.job.get("loading", {}).get("max_fillings", 2))

    def fit(self, p, load, m):
        """How a measure suits an amount: the preferences of the page, in their order."""
        x = p.c * load.v * m.factor / m.g
        below = self.decide(under, x, 1, u=load.u)
        coarse = self.decide(under, x / 20, 1, u=load.u)
        fillings = 0 if m.pack else self.decide(up, x / m.q, u=load.u)
        n = max(1, min(self.decide(nearest, x, u=load.u), self.decide(down, p.most * load.v * m.factor / m.g, u=load.u)))
        return Record(x=x, n=n, below=below, coarse=coarse, fillings=fillings, many=fillings > m.max_fillings,
                      rank=(below, fillings > m.max_fillings, coarse, fillings, (m.capacity or 0) / m.factor, m.g / m.factor, m.i))

    def choose(self, p, load, options):
        fits = {m.i: self.fit(p, load, m) for m in options}
        best = options[0]
        for m in options[1:]:
            for a, b in zip(fits[m.i].rank, fits[best.i].rank):  # "first difference decides"
                if not close(a, b):
                    best = m if a < b else best
                    break
        return best

    def amount(self, p, load, chosen, options):
        fit = self.fit(p, load, chosen)
        # "serves the product's other loads too where it holds one graduation or more of the amount, needs no more than
        # max_fillings, and its rounded amount is within 2.5 % of the exact one"
        off = self.decide(lambda x: over(abs(fit.n - x), x / 40), fit.x, u=load.u)
        if not p.own and (fit.below or fit.many or off):
            chosen = self.choose(p, load, options)
            fit = self.fit(p, load, chosen)
        m, n = chosen, fit.n
        if fit.below:
            self.note("stop", "amount-below-graduation", p.i, load)
        if fit.coarse and not m.pack:
            self.note("caution", "coarse-graduation", p.i, load)
        really = 0 if m.pack else -(-n // m.q)
        if fit.many or really > m.max_fillings:
            self.note("caution", "many-fillings", p.i, load, must=fit.many and really > m.max_fillings)
        measured = n * m.g / m.factor
        viscous = p.given.get("viscous", False)
        premixed = self.carried and (p.dry and not m.pack or viscous)
        return Record(p=p, m=m, n=n, exact=p.c * load.v, measured=measured, displaced=measured * p.displaces,
                      # "2 parts of carrier to one of product (2 L per kg, 2 L per L)"
                      premix=2 * measured * (LITRE if p.kind == MASS else 1) if premixed else 0,
                      rinse=m.capacity / 4 if m.sort == "vessel" else 0)

    # 7. Carrier, rinses and steps
    def fill(self, load):
        load.slack = 40 * load.u * load.v
        load.carrier = load.v - sum(a.displaced for a in load.products)
        load.rinses = sum(3 * a.rinse for a in load.products)
        load.premixed = sum(a.premix for a in load.products)
        room = load.carrier - load.rinses - load.premixed
        if self.pick([room + d <= 0 for d in (0, load.u * load.v, -load.u * load.v)]):
            self.note("stop", "rinses-exceed-carrier", load=load)
        asked = [exact(f) for p in self.products if (f := p.given.get("label", {}).get("first_carrier")) is not None]
        load.initial = min(max(asked, default=Fraction(1, 2)) * load.v, room)
        if self.g and room > 0:  # "where marks are given, down to a mark, if at least one mark remains"
            n = self.decide(down, load.initial / self.g, u=load.u + load.u * load.v / load.initial)
            load.initial = n * self.g if n > 0 else load.initial
        load.top_up = room - load.initial

    def filling(self, do, load, before, carrier):
        """"mark = steps_down(to / g), rest = to - mark * g (none where it is close). Without marks, or where the tank
        already holds more than that mark, the whole filling is measured.\""""
        def litres(v):
            return self.num(v, VOLUME, slack=load.slack)
        to = before + carrier
        measured = {"mark": None, "rest": Either(litres(carrier), None)}
        how = measured
        if self.g:
            n, whole = self.decide(marks, to / self.g, u=load.u)
            mark = n * self.g
            if not self.pick([over(before + d, mark) for d in (0, load.slack / 40, -load.slack / 40)]):
                how = {"mark": litres(mark), "rest": None if whole else litres(to - mark)}
            if n == 0 and before == 0:
                how = Either(how, measured)
        base = {"do": do, "carrier": litres(carrier), "in_tank": litres(to)}
        return Either(*({**base, **h} for h in (how.choices if isinstance(how, Either) else [how])))

    def steps(self, load):
        tank = load.initial

        def step(do, added, **more):
            nonlocal tank
            tank += added
            return {"do": do, **more, "in_tank": self.num(tank, VOLUME, slack=load.slack)}
        steps = [self.filling("fill", load, 0, load.initial)]
        for a in load.products:
            # A premixed product comes into the tank with its premix; the page does not say whether "measure" counts it.
            measure = step("measure", 0 if a.premix else a.displaced, product=a.p.name, measure=a.m.name, fillings=self.fillings(a))
            if a.premix:
                early = self.num(tank + a.displaced, VOLUME, slack=load.slack)
                measure["in_tank"] = Either(measure["in_tank"], early)
            steps.append(measure)
            if a.premix:
                steps.append(step("premix", a.premix + a.displaced, product=a.p.name, carrier=self.num(a.premix, VOLUME)))
            if a.rinse:
                steps.append(step("rinse", 3 * a.rinse, product=a.p.name, measure=a.m.name, times=3,
                                  each=self.num(a.rinse, VOLUME)))
        agitate, top_up = step("agitate", 0), self.filling("top-up", load, tank, load.top_up)
        tank = load.v
        full = steps + [agitate, top_up, step("agitate", 0)]
        # Where nothing is left to top up, the page does not say whether the step stands.
        return full if load.top_up > load.slack else Either(full, steps + [agitate], steps + [agitate, step("agitate", 0)])

    def fillings(self, a):
        if a.m.pack:  # "no fillings to count"
            return Either([], None, [{"count": a.n, "amount": self.num(a.m.g, a.m.kind)}])
        whole, rest = divmod(a.n, a.m.q)
        return [{"count": count, "amount": self.num(n * a.m.g, a.m.kind)} for count, n in ((whole, a.m.q), (1, rest)) if count and n]

    def gap(self, p, exactly, measured, u):
        """The gap in percent, and in dose: per area, or as the dose is stated."""
        gap = (measured - exactly) / exactly
        sizes = {LIQUID_PER_AREA if p.kind == VOLUME else DRY_PER_AREA: p.c * self.R, BY_VOLUME if p.kind == VOLUME else DENSITY: p.c, p.dose[1]: p.dose[0]}
        return {"percent": Num(100 * gap, None, 1000 * u * (1 + abs(gap))),
                "dose": Either(*(Num(gap * c, kind, 10 * u * c * (1 + abs(gap))) for kind, c in sizes.items()))}

    # The document
    def document(self):
        num, loads, go = self.num, self.loads, not self.stopped
        for load in loads:
            if self.stopped:  # "its carrier figures stand for the exact amounts"
                load.carrier = self.k * load.v
        carrier = num(sum(load.count * load.carrier for load in loads), VOLUME, slack=40 * self.u * self.V)
        r = self.r
        return {
            "format": "mixcalc-plan/1", "usable": go, "safe_fill": num(self.U, VOLUME), "area": num(self.A, AREA),
            "volume_rate": num(self.R, LIQUID_PER_AREA), "carrier_rate": num(self.k * self.R, LIQUID_PER_AREA),
            "last_strip": {"held_back": num(self.H, VOLUME, slack=10 * self.u * (self.H + (r or 0))),
                           "area": num(self.strip_area, AREA)} if self.strip else None,
            "residual": None if r is None else {
                "volume": num(r, VOLUME), "ground_short": None if self.strip else num(r / self.R, AREA)},
            "totals": {"loads": loads[-1].last, "mix": num(self.V, VOLUME), "carrier": carrier, "area": num(self.V / self.R, AREA),
                       "products": [self.total(p) for p in self.products]},
            "loads": [{"first": load.first, "last": load.last, "count": load.count, "mix": num(load.v, VOLUME, load.u),
                       "carrier": num(load.carrier, VOLUME, slack=load.slack), "area": num(load.v / self.R, AREA, load.u),
                       "products": [self.part(load, a) for a in load.products],
                       "steps": self.steps(load) if go else Either([], None)} for load in loads],
            "ledger": self.ledger() if go else None,
        }

    def part(self, load, a):
        part = {"name": a.p.name, "exact": self.num(a.exact, a.p.kind, load.u)}
        if self.stopped:
            return {**part, **dict.fromkeys(("measured", "gap", "measure", "graduations", "fillings"))}
        return {**part, "measured": self.num(a.measured, a.p.kind), "gap": self.gap(a.p, a.exact, a.measured, load.u),
                "measure": a.m.name, "graduations": a.n, "fillings": self.fillings(a)}

    def total(self, p):
        exactly = p.c * self.V
        total = {"name": p.name, "exact": self.num(exactly, p.kind)}
        if self.stopped:
            return {**total, **dict.fromkeys(("measured", "gap", "drawn"))}
        drawn = {}  # "counted in whole graduations per measure, sum(count * n), in integers"
        for load in self.loads:
            m = load.products[p.i].m
            line = drawn.setdefault(m.i, {"measure": m.name, "graduation": self.num(m.g, m.kind), "count": 0})
            line["count"] += load.count * load.products[p.i].n
        return {**total, "measured": self.num(p.measured, p.kind), "gap": self.gap(p, exactly, p.measured, self.u),
                "drawn": list(drawn.values())}

    # 8. Ledger
    def ledger(self):
        def line(p):
            amount, stock = self.num(p.measured, p.kind), p.stock
            return {"name": p.name, "drawn": amount, "in_loads": amount, "spilled": self.num(0, p.kind),
                    "stock": None if stock is None else self.num(stock, p.kind),
                    "left": None if stock is None else self.num(stock - p.measured, p.kind, slack=4 * E * max(stock, p.measured))}
        def whole(of):
            return self.num(sum(load.count * of(load) for load in self.loads), VOLUME, slack=40 * self.u * self.V)
        sprayed = self.num(self.V - (self.r or 0), VOLUME, slack=10 * self.u * (self.V + (self.r or 0)))
        return {"products": [line(p) for p in self.products],
                "carrier": {"drawn": whole(lambda l: l.carrier), "first": whole(lambda l: l.initial),
                            "premixed": whole(lambda l: l.premixed), "rinses": whole(lambda l: l.rinses),
                            "topped_up": whole(lambda l: l.top_up)},
                "mix": {"made": self.num(self.V, VOLUME), "sprayed": sprayed, "residual": self.num(self.r or 0, VOLUME)}}



# ------------------------------------------------------------------------------------------------------------ promises
def promises(job: dict, plan: dict):
    """What must hold within the document itself, and against the label, however the sums were done."""
    def at(table, *keys):
        for key in keys:
            table = table[key]
        return quantity(table)[0]

    def same(path, a, b, scale=0):
        if abs(a - b) > 4 * E * max(abs(a), abs(b), scale):
            yield f"{path}: {float(a)!r} and {float(b)!r} (SI) should be equal"

    loads, totals, ledger = plan["loads"], plan["totals"], plan["ledger"]
    stopped, last, mix = any(f["severity"] == "stop" for f in plan["findings"]), 0, at(plan, "totals", "mix")
    if plan["usable"] is stopped:
        yield f"usable: {plan['usable']} although a stop finding {'stands' if stopped else 'does not stand'}"
    if not plan["cautions"] or not all(f["code"] and f["message"] for f in plan["findings"]):
        yield "cautions, findings: every plan carries its cautions, every finding a code and a message"
    for i, load in enumerate(loads):
        path = f"loads[{i}]"
        if exact(load["mix"]["value"]) > exact(plan["safe_fill"]["value"]) or load["mix"]["unit"] != plan["safe_fill"]["unit"]:
            yield f"{path}.mix: {load['mix']} is over the safe fill {plan['safe_fill']}"
        if (load["first"], load["last"]) != (last + 1, last + load["count"]) or load["count"] < 1:
            yield f"{path}: loads {load['first']} to {load['last']}, count {load['count']}, after load {last}"
        last = load["last"]
        if load["steps"] and not stopped:
            tank = [at(step, "in_tank") for step in load["steps"]]
            if tank != sorted(tank) or tank[-1] > at(plan, "safe_fill") * (1 + E):
                yield f"{path}.steps: what is in the tank falls, or comes over the safe fill"
            yield from same(f"{path}.steps: the tank at the end and the mix of the load", tank[-1], at(load, "mix"))
            carrier = sum(at(s, "carrier") if "carrier" in s else s["times"] * at(s, "each") if "each" in s else 0
                          for s in load["steps"])
            yield from same(f"{path}.steps: carrier of the steps and of the load", carrier, at(load, "carrier"), at(load, "mix"))
    if last != totals["loads"]:
        yield f"totals.loads: {totals['loads']}, although the last load is {last}"
    for key in ("mix", "carrier", "area"):
        scale = mix if key == "carrier" else 0
        yield from same(f"totals.{key} and the sum over loads", at(totals, key), sum(l["count"] * at(l, key) for l in loads), scale)
    for i, given in enumerate(job.get("products", [])):
        total, parts = totals["products"][i], [(load, load["products"][i]) for load in loads]
        path = f"totals.products[{i}]"
        if stopped:
            if any(p.get(k) is not None for p in [total] + [p for _, p in parts] for k in
                   ("measured", "gap", "drawn", "measure", "graduations", "fillings")) or ledger or any(l["steps"] for l in loads):
                yield f"{path}: a plan with a stop holds measured amounts, a ledger or steps"
            continue
        counts = {}
        sizes = {line["measure"]: line for line in total["drawn"]}
        for load, part in parts:
            n = part["graduations"]
            counts[part["measure"]] = counts.get(part["measure"], 0) + load["count"] * n
            poured = sum(f["count"] * at(f, "amount") for f in part["fillings"] or [])
            if part["fillings"]:
                yield from same(f"{path}: fillings and graduations", poured, n * at(sizes[part["measure"]], "graduation"))
            dose, kind = quantity(given.get("label", {}).get("max_dose", given["dose"]))
            most = dose * (at(load, "area") if kind in PER_AREA else at(load, "mix"))
            if kind == BY_MASS:
                most *= quantity(job["mix_density"])[0]
            elif kind not in PER_AREA and given.get("basis") == "carrier-volume":
                most *= at(plan, "carrier_rate") / at(plan, "volume_rate")
            if at(part, "measured") > most * (1 + 2 * E):
                yield f"loads {load['first']} to {load['last']}, {part['name']}: {part['measured']} is over the maximum, {float(most)!r} (SI)"
            if n < 1:
                yield f"{path}: {n} graduations measured"
        if counts != {line["measure"]: line["count"] for line in total["drawn"]}:
            yield f"{path}.drawn: {total['drawn']}, although the loads hold {counts} graduations"
        yield from same(f"{path}.measured and the sum over loads", at(total, "measured"), sum(l["count"] * at(p, "measured") for l, p in parts))
        line = ledger["products"][i]
        yield from same(f"ledger.products[{i}]: drawn and measured", at(line, "drawn"), at(total, "measured"))
        yield from same(f"ledger.products[{i}]: drawn and in loads + spilled", at(line, "drawn"), at(line, "in_loads") + at(line, "spilled"))
        if line["stock"]:
            yield from same(f"ledger.products[{i}]: stock and drawn + left", at(line, "stock"), at(line, "drawn") + at(line, "left"), at(line, "drawn"))
    if ledger:
        c, m = ledger["carrier"], ledger["mix"]
        yield from same("ledger.carrier: drawn and used", at(c, "drawn"), sum(at(c, k) for k in ("first", "premixed", "rinses", "topped_up")), mix)
        yield from same("ledger.carrier.drawn and totals.carrier", at(c, "drawn"), at(totals, "carrier"), mix)
        yield from same("ledger.mix: made and sprayed + residual", at(m, "made"), at(m, "sprayed") + at(m, "residual"))
        yield from same("ledger.mix.made and totals.mix", at(m, "made"), mix)


# --------------------------------------------------------------------------------------------------------------- check
TEXTS = {"format", "title", "units", "kind", "split", "name", "formulation", "basis", "source", "marked_in"}
AFTER_MEASURING = {"coarse-graduation", "many-fillings", "stock-short"}


def kept(path: str, given, got):
    """The plan's own copy of the job: nothing lost, nothing changed, quantities as objects."""
    if isinstance(given, dict) and not {"value", "unit"} <= set(given):
        for key, item in given.items():
            yield from kept(f"{path}.{key}", item, (got or {}).get(key)) if key not in TEXTS else (
                [] if got.get(key) == item else [f"{path}.{key}: expected {item!r}, got {got.get(key)!r}"])
    elif isinstance(given, list):
        for i, item in enumerate(given):
            yield from kept(f"{path}[{i}]", item, got[i])
    elif isinstance(given, bool) or isinstance(given, int) and isinstance(got, int):
        yield from [] if given is got or given == got else [f"{path}: expected {given}, got {got!r}"]
    else:
        a, kind = quantity(given) if isinstance(given, (str, dict)) else (exact(given), "number")
        b, kind_kept = quantity(got) if isinstance(got, (str, dict)) else (exact(got), "number")
        if kind != kind_kept or not close(a, b) or isinstance(got, str):
            yield f"{path}: expected {given!r} as an object, got {json.dumps(got, default=float)}"


def of_findings(reckoning, got):
    """The findings that numbers.md asks for, and no others; product and load where the finding names them."""
    def meets(want, f):
        product = re.search(r"products\[(\d+)\]", f.get("path") or "")
        return ((want.severity, want.code) == (f["severity"], f["code"])
                and (want.product is None or product and int(product[1]) == want.product)
                and (None in (want.load, f.get("load")) or want.load.first <= f["load"] <= want.load.last))
    others = any(f.severity == "stop" and f.code != "rinses-exceed-carrier" for f in reckoning.findings)
    for want in reckoning.findings:
        # Where the plan is stopped, the page does not say whether what comes after measuring is still found.
        open_ = (not want.must or reckoning.stopped and want.code in AFTER_MEASURING
                 or others and want.code == "rinses-exceed-carrier")
        if not open_ and not any(meets(want, f) for f in got):
            where = "" if want.product is None else f" for products[{want.product}]"
            where += f" in load {want.load.first}" if want.load else ""
            yield f"findings: {want.severity} {want.code}{where} is missing"
    for f in got:
        if not any(meets(want, f) for want in reckoning.findings):
            yield f"findings: {f['severity']} {f['code']} ({f.get('path')}, load {f.get('load')}) is not due"


def answers(job: dict, most=200):
    """The reckoning on every way that decisions at the border of what doubles tell apart could fall."""
    scripts = [()]
    while scripts and most:
        script, most = scripts.pop(0), most - 1
        reckoning = Reckoning(job, script)
        try:
            yield reckoning, reckoning.solve(), None
        except NoAnswer as error:
            yield reckoning, None, str(error)
        for at in range(len(script), len(reckoning.forks)):
            scripts += [script + (0,) * (at - len(script)) + (other,) for other in range(1, reckoning.forks[at])]


def check(job: dict, plan: dict | None, error: str | None = None, tally: dict | None = None) -> list[str]:
    """One sentence for each place where the plan (or the error's code) is not what the job asks for."""
    best = None
    try:
        own = [] if plan is None else [*promises(job, plan), *kept("job", job, plan["job"])]
        for reckoning, want, code in answers(job):
            if plan is None or want is None:
                wrong = [] if code == error else [f"expected {code or 'a plan'}, got {error or 'a plan'}"]
            else:
                wrong = differences("", want, plan) + list(of_findings(reckoning, plan["findings"]))
            best = wrong if best is None or len(wrong) < len(best) else best
            if not wrong:
                if tally is not None and any(reckoning.script):
                    tally["borders"] = tally.get("borders", 0) + 1
                break
    except (KeyError, IndexError, TypeError, AttributeError, Unreadable) as trouble:
        return [f"the documents do not have the form of a job and a plan: {type(trouble).__name__}: {trouble}"]
    return own + best


def expected(job: dict) -> dict:
    """The plan document that the page asks for; texts are placeholders. Raises NoAnswer where the job is an error."""
    def objects(item, key=""):
        if isinstance(item, dict):
            return {k: objects(v, k) for k, v in item.items()}
        if isinstance(item, list):
            return [objects(v) for v in item]
        if isinstance(item, str) and key not in TEXTS:
            number, name = re.fullmatch(r"\s*([-+.\deE]+)\s*(\S.*?)\s*", item).groups()
            return {"value": float(number), "unit": name}
        return item
    reckoning = Reckoning(job)
    document = plain(reckoning.solve())
    found = [{"severity": f.severity, "code": f.code, "path": f"products[{f.product}]" if f.product is not None else "",
              "load": f.load and f.load.first, "message": "some text"} for f in reckoning.findings]
    return {**document, "job": objects(job), "findings": found, "cautions": [{"code": "label-decides", "text": "some text"}]}


def read(path: str) -> dict:
    with open(path, "rb") as file:
        if path.endswith(".toml"):
            import tomllib  # Python 3.11
            return tomllib.load(file, parse_float=exact)
        return json.loads(file.read(), parse_float=exact, parse_constant=exact)


def lines(stream, shown=20) -> int:
    checked = disagree = 0
    tally = {}
    for text in filter(str.strip, stream):
        line = json.loads(text, parse_float=exact, parse_constant=exact)
        checked += 1
        if wrong := check(line["job"], line.get("plan"), line.get("error"), tally):
            disagree += 1
            if disagree <= shown:
                print(*wrong[:8], "  job: " + json.dumps(line["job"], default=float), sep="\n")
    print(f"{checked} checked, {disagree} disagree, {tally.get('borders', 0)} decided at a border")
    return 1 if disagree or not checked else 0


def main(arguments) -> int:
    try:
        if arguments == ["--lines"]:
            return lines(sys.stdin)
        job, plan = map(read, arguments)
        wrong = check(job, plan)
    except (ImportError, OSError, ValueError, KeyError) as trouble:  # wrong JSON and TOML are ValueErrors too
        print(f"cannot be read: {trouble}\n\n{__doc__}", file=sys.stderr)
        return 2
    print(*wrong, sep="\n", end="\n" if wrong else "")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
