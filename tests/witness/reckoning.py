"""The sums of docs/numbers.md once more, in exact fractions, written from that page alone."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace as Record

from expectation import ANY, Either, Num
from quantities import (AREA, BY_MASS, BY_VOLUME, DENSITY, DRY_PER_AREA, LIQUID_PER_AREA, LITRE, MASS, PER_AREA, TIME, VOLUME,
                        E, close, down, exact, marks, nearest, over, quantity, under, up, value)


GROUPS = {  # section 12
    "soluble-bag": "WP-SB WG-SB EG-SB EP-SB SP-SB SG-SB GL-SB GW-SB", "powder": "WP EP", "granule": "WG WT EG",
    "suspension": "SC ZC SE ZE PA", "capsule-suspension": "CS", "emulsion": "EW EO ZW", "oil-dispersion": "OD",
    "emulsifiable": "EC DC ME GL", "solution": "SL GW", "soluble-solid": "SP SG ST", "oil": "SO"}
GROUP_OF = {code: group for group, codes in GROUPS.items() for code in codes.split()}
PROFILES = {  # section 13; in brackets what the source does not name
    "suggested": "anti-foam; soluble-bag; water-conditioner, buffer; compatibility-agent; powder, granule; suspension, "
                 "capsule-suspension; emulsion, oil-dispersion; emulsifiable; solution, soluble-solid; oil, surfactant; "
                 "drift-agent, foliar-nutrient",
    "manitoba": "[anti-foam]; soluble-bag; water-conditioner, buffer; [compatibility-agent]; powder, granule, suspension; "
                "[capsule-suspension]; [emulsion, oil-dispersion]; solution; [soluble-solid]; emulsifiable; oil, "
                "surfactant; [drift-agent, foliar-nutrient]",
    "south-dakota": "[soluble-bag]; water-conditioner; [buffer]; compatibility-agent; anti-foam; powder, granule; "
                    "suspension; [emulsion, oil-dispersion]; solution; [soluble-solid]; emulsifiable; "
                    "capsule-suspension; oil, surfactant; drift-agent; [foliar-nutrient]",
    "wales": "[anti-foam]; [soluble-bag]; water-conditioner, buffer; [compatibility-agent]; powder, granule; suspension; "
             "[capsule-suspension]; [emulsion, oil-dispersion]; emulsifiable; [soluble-solid]; solution, oil, surfactant; "
             "[drift-agent, foliar-nutrient]",
    "utah": "[anti-foam]; soluble-bag; [buffer]; [compatibility-agent]; powder; granule; [suspension]; "
            "capsule-suspension; [emulsion, oil-dispersion]; emulsifiable; solution; soluble-solid; oil, surfactant; "
            "[drift-agent]; water-conditioner, foliar-nutrient",
    "seed-trade": "[anti-foam]; [soluble-bag]; water-conditioner, buffer; [compatibility-agent]; [powder]; granule; "
                  "oil-dispersion; suspension; [capsule-suspension]; [emulsion]; emulsifiable; solution; [soluble-solid]; "
                  "oil, surfactant; [drift-agent, foliar-nutrient]"}
PLACES = {profile: {group: (at, "[" not in step) for at, step in enumerate(text.split(";"))
                    for group in step.strip(" []").split(", ")} for profile, text in PROFILES.items()}
SEQUENCE = list(PLACES["suggested"])


class NoAnswer(Exception):
    """The job is an error of the library; the text is its code."""


DRY = {"WP", "WG", "WT", "EG", "EP", "SP", "SG", "ST", "OP"}  # the solid types that go into water


def most_basis(given: dict, dose, most) -> str:
    """On what a largest dose is counted: "on the basis of the dose where that is per volume too, else on mix"."""
    implied = "ground-area" if most[1] in PER_AREA else "mix-volume"
    of_dose = given.get("basis") if (dose[1] in PER_AREA) == (most[1] in PER_AREA) else None
    return given.get("label", {}).get("max_dose_basis", of_dose or implied)


class Reckoning:
    """The plan of a job. Where doubles could rightly fall on either side of a decision, `script` says which side is
    taken, and `forks` how many there were; without a script it is the side where the exact number falls."""

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
        self.order()
        given = [(p.dose, p.basis) for p in self.products]
        least = {p.i for p in self.products if "at_least" in p.given}
        while True:  # "begin with L for all, let f hold wherever it comes to no less, and look again"
            for p in self.products:
                p.dose, p.basis = (quantity(p.given["at_least"]), "ground-area") if p.i in least else given[p.i]
                if "max_dose" not in p.given.get("label", {}):
                    p.label, p.most_basis = p.dose, p.basis
            self.rates()
            more = {i for i in least if not self.decide(under, self.fraction(given[i][0]) * self.R,
                                                        quantity(self.products[i].given["at_least"])[0])}
            if not more:
                break
            least -= more
        for i in least:
            self.note("note", "least-dose-holds", i)
        self.u += Fraction(1, 10**15) * (1 / self.k + 1 / (1 - self.of_mix))
        for p in self.products:
            p.c, p.most = self.share(p.dose, p.basis), self.share(p.label, p.most_basis)
            # "A dose over its maximum is the stop over-maximum-dose (compared as amounts of the mix)"
            if self.decide(over, p.c, p.most):
                self.note("stop", "over-maximum-dose", p.i)
            for bound, breaks in (("minimum", under), ("maximum", over)):
                limit = value(p.given, "label", f"{bound[:3]}_volume_rate")
                if limit is not None and self.decide(breaks, self.R, limit):
                    self.note("stop", f"volume-rate-{'below' if bound == 'minimum' else 'above'}-{bound}")

    def rates(self):
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
        self.of_mix = of_mix

    def product(self, i, given):
        p = Record(i=i, given=given, name=given["name"], dose=quantity(given["dose"]), own=given.get("measure"))
        p.label = quantity(given.get("label", {}).get("max_dose", given["dose"]))
        least, most = (value(given, "label", f"{bound}_volume_rate") for bound in ("min", "max"))
        if None not in (least, most) and least > most:
            raise NoAnswer("out-of-range")
        kind = p.dose[1]
        p.kind = VOLUME if kind in (LIQUID_PER_AREA, BY_VOLUME) else MASS
        # "per area means ground-area, per volume or per mass means mix-volume"
        p.basis = given.get("basis", "ground-area" if kind in PER_AREA else "mix-volume")
        p.most_basis = most_basis(given, p.dose, p.label)
        p.density, p.particle, p.bulk = (value(given, k) for k in ("density", "particle_density", "bulk_density"))
        p.dry = (given["formulation"][:2] in DRY if "formulation" in given else p.kind == MASS and p.density is None)
        # "For a share by mass d = c / density for a liquid with density, d = c / particle_density for a dry product
        # with particle_density, and otherwise 0 with the note displacement-not-counted."
        body = p.particle if p.dry else p.density
        p.displaces = 1 if p.kind == VOLUME else 1 / body if body else 0
        if p.kind == MASS and not body:
            self.note("caution", "displacement-not-counted", i)
        if "max_dose" not in given.get("label", {}):  # "A label without max_dose has the dose as its maximum, with a note"
            self.note("note", "dose-taken-as-maximum", i)
        return p

    # 13. The mixing order
    def order(self):
        """The products in the order in which they go in, and the groups of which sources say the reverse."""
        mixing, self.ordered = self.job.get("mixing"), self.products
        orders = {p.i: o for p in self.products if (o := p.given.get("label", {}).get("order"))
                  and (o.get("step") or o.get("before") or o.get("after"))}
        if mixing is None:
            if orders:
                raise NoAnswer("missing-input")
            return
        places = PLACES[mixing.get("profile", "suggested")]
        for p in self.products:
            role = p.given.get("role", "product")
            p.group = role if role != "product" else GROUP_OF.get(p.given.get("formulation"))
            if p.group is None:
                raise NoAnswer("missing-input")
        names = {p.name: p.i for p in self.products}
        pairs = set()  # (first, second)
        leads = {p.i: set() for p in self.products}
        for i, o in orders.items():
            for name in (*o.get("before", ()), *o.get("after", ())):
                if name not in names:
                    raise NoAnswer("unknown-choice")
            leads[i] = {names[name] for name in o.get("before", ())}
            pairs |= {(i, j) for j in leads[i]} | {(names[name], i) for name in o.get("after", ())}
        ends = {"first": 0, None: 1, "last": 2}
        keys = {p.i: (ends[orders.get(p.i, {}).get("step")], places[p.group][0], SEQUENCE.index(p.group), p.name)
                for p in self.products}

        def placed():
            left, out = set(keys), []
            while left:
                free = [i for i in left if not any(a in left and b == i for a, b in pairs)]
                if not free:
                    raise NoAnswer("order-in-circle")
                out.append(min(free, key=lambda i: (keys[i], self.products[i].name)))
                left.remove(out[-1])
            return out
        for i in reversed(placed()):  # "theirs settled first"
            keys[i] = min([keys[i], *(keys[j] for j in leads[i])])
        self.ordered = [self.products[i] for i in placed()]
        groups = list(dict.fromkeys(p.group for p in self.ordered if p.i not in orders))
        for at, first in enumerate(groups):
            for second in groups[at + 1:]:
                if any(said[second][1] and said[first][1] and said[second][0] < said[first][0]
                       for profile, said in PLACES.items() if profile != "suggested"):
                    self.note("note", "mixing-order-differs")

    def mixing(self):
        mixing = self.job["mixing"]
        jar = value(mixing, "jar_test")
        return {"profile": mixing.get("profile", "suggested"), "source": ANY,
                "products": [{"name": p.name, "group": p.group, "reason": ANY} for p in self.ordered],
                "jar_test": None if jar is None or self.stopped else {
                    "volume": self.num(jar, VOLUME), "carrier": self.num(self.k * jar, VOLUME),
                    "products": [{"name": p.name, "exact": self.num(p.c * jar, p.kind)} for p in self.products]}}

    def fraction(self, dose):
        return dose[0] * (self.density if dose[1] == BY_MASS else 1)

    def share(self, dose, basis):
        if dose[1] in PER_AREA:
            return dose[0] / self.R
        return self.fraction(dose) * (self.k if basis == "carrier-volume" else 1)

    # 3. The tank
    def tank(self):
        tank, sprayer = self.job["tank"], self.job["sprayer"]
        self.carried = sprayer["kind"] in ("hand-held", "knapsack")
        nominal, brim, self.g = (value(tank, key) for key in ("nominal", "brim", "graduation"))
        h = tank.get("headspace")
        h = quantity(h)[0] if isinstance(h, (str, dict)) else None if h is None else exact(h)
        # "a machine whose brim is at least 1.05 * nominal and that has no headspace of its own in the job fills to
        # nominal"
        roomy = not (self.carried or None in (nominal, brim) or self.decide(over, Fraction("1.05") * nominal, brim))
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
        # "carried-mass-above-advice where empty_mass + U * mix_density is over 25 kg"
        if self.carried and None not in (empty, self.density) and self.decide(over, empty + U * self.density, 25):
            self.note("caution", "carried-mass-above-advice")
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
        x, loading = self.V / self.U, self.job.get("loading", {})
        least = value(self.job["tank"], "least_working_volume")
        noise = self.R * self.A / 10**15  # what V - n U and V - M g may be off in doubles
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
                v = min(v, self.U)  # "Each load that is not full is min(its volume, U)"
                self.loads.append(Record(first=last + 1, last=last + count, count=count, v=v, u=u, products=[]))
            last += count
        for load in self.loads:
            if least and self.decide(under, load.v, least, u=load.u):
                self.note("caution", "part-load-below-working-volume", load=load)

    def even(self, V, n, noise, mark_noise):
        # "M mod n loads of M div n + 1 marks first, then the others of M div n marks, and the last load takes the rest"
        if not self.g:
            return [(n, V / n, self.u + noise * n / V)]
        M, whole = self.decide(marks, V / self.g, u=self.u + noise / V)
        rest = 0 if whole else V - M * self.g
        more, low, last = M % n, M // n * self.g, 1 if rest else 0
        return [(more, low + self.g, self.u), (n - more - last, low, self.u),
                (last, low + rest, self.u + mark_noise / (low + rest or 1))]

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
            self.hold_to_carrier(load)
            self.judge_packs(load)
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
        many = fillings > m.max_fillings
        # "n = min(steps_nearest(x), steps_down(ceiling / g)) graduations, at least 1"
        ceiling = p.most * load.v * m.factor
        n = max(1, min(self.decide(nearest, x, u=load.u), self.decide(down, ceiling / m.g, u=load.u)))
        # Capacities and graduations of vessels and scales are compared as amounts of the product.
        rank = (below, many, coarse, fillings, (m.capacity or 0) / m.factor, m.g / m.factor, m.i)
        return Record(x=x, n=n, below=below, coarse=coarse, many=many, rank=rank)

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
        if fit.below:
            self.note("stop", "amount-below-graduation", p.i, load)
        m, n = chosen, fit.n
        if fit.coarse and not m.pack:
            self.note("caution", "coarse-graduation", p.i, load)
        really = 0 if m.pack else -(-n // m.q)
        if fit.many or really > m.max_fillings:
            self.note("caution", "many-fillings", p.i, load, must=fit.many and really > m.max_fillings)
        return self.measured(p, load, m, n, fit.below)

    def measured(self, p, load, m, n, below):
        measured = n * m.g / m.factor
        viscous = p.given.get("viscous", False)
        premixed = self.carried and (p.dry or viscous) and not m.pack
        return Record(p=p, m=m, n=n, below=below, exact=p.c * load.v, measured=measured,
                      displaced=measured * p.displaces,
                      # "2 parts of carrier to one of product (2 L per kg, 2 L per L)"
                      premix=2 * measured * (LITRE if p.kind == MASS else 1) if premixed else 0,
                      rinse=m.capacity / 4 if m.sort == "vessel" else 0)

    def hold_to_carrier(self, load):
        """No more than the largest dose on the carrier that the load really has, where that is what it is counted on."""
        if any(a.below for a in load.products):  # "a load in which an amount is below one graduation"
            return
        carrier = max(0, load.v - sum(a.displaced for a in load.products))
        for i, a in enumerate(load.products):
            if a.p.most_basis == "carrier-volume":
                most = a.p.label[0] * carrier * a.m.factor / a.m.g
                n = min(a.n, self.decide(down, most, u=load.u * (1 + load.v / carrier)) if carrier else 0)
                if n == 0:
                    self.note("stop", "amount-below-graduation", i, load)
                load.products[i] = self.measured(a.p, load, a.m, max(1, n), n == 0)

    def judge_packs(self, load):
        # "packs-off-dose where whole packs miss the amount by over 5 % of it"
        for i, a in enumerate(load.products):
            x = a.exact * a.m.factor / a.m.g
            if a.m.pack and not a.below and self.decide(lambda x: over(abs(a.n - x), x / 20), x, u=load.u):
                self.note("caution", "packs-off-dose", i, load)

    # 7. Carrier, rinses and steps
    def fill(self, load):
        load.slack = 40 * load.u * load.v
        load.carrier = load.v - sum(a.displaced for a in load.products)
        load.rinses = sum(3 * a.rinse for a in load.products)
        load.premixed = sum(a.premix for a in load.products)
        used = load.rinses + load.premixed
        room = load.carrier - used
        # "carrier - rinses - premixes <= 0", by the closeness of section 1
        if self.pick([not under(used + d, load.carrier) for d in (0, load.u * load.v, -load.u * load.v)]):
            self.note("stop", "rinses-exceed-carrier", load=load)
        asked = [exact(f) for p in self.products if (f := p.given.get("label", {}).get("first_carrier")) is not None]
        load.initial = min(max(asked, default=Fraction(1, 2)) * load.v, room)
        if not load.products:  # "A load without products is filled in one go."
            load.initial = load.v
        elif self.g and room > 0:  # "where marks are given, down to a mark, if at least one mark remains"
            n = self.decide(down, load.initial / self.g, u=load.u + load.u * load.v / load.initial)
            load.initial = n * self.g if n > 0 else load.initial
        load.top_up = room - load.initial

    def filling(self, do, load, before, carrier):
        # "mark = steps_down(to / g), rest = to - mark * g (none where it is close). Without marks, or where the tank
        # already holds that much, the whole filling is measured: no mark, and the rest is all of it."
        def litres(v):
            return self.num(v, VOLUME, slack=load.slack)
        to = before + carrier
        measured = {"mark": None, "rest": litres(carrier)}
        how = measured
        if self.g:
            n, whole = self.decide(marks, to / self.g, u=load.u)
            mark = n * self.g
            if self.pick([under(before + d, mark) for d in (0, load.slack / 40, -load.slack / 40)]):
                how = {"mark": litres(mark), "rest": None if whole else litres(to - mark)}
        base = {"do": do, "carrier": litres(carrier), "in_tank": litres(to)}
        return Either(*({**base, **h} for h in (how.choices if isinstance(how, Either) else [how])))

    def steps(self, load):
        tank = load.initial

        def step(do, added, **more):
            nonlocal tank
            tank += added
            return {"do": do, **more, "in_tank": self.num(tank, VOLUME, slack=load.slack)}
        steps = [self.filling("fill", load, 0, load.initial)]
        if "mixing" in self.job and load.products and not self.carried:
            steps.append(step("start-agitator", 0))
        for a in (load.products[p.i] for p in self.ordered):
            # "A premixed product enters the tank with its premix and not before."
            measure = step("measure", 0 if a.premix else a.displaced, product=a.p.name, measure=a.m.name,
                           fillings=self.fillings(a))
            steps.append(measure)
            if a.premix:
                steps.append(step("premix", a.premix + a.displaced, product=a.p.name,
                                  carrier=self.num(a.premix, VOLUME)))
            if a.rinse:
                steps.append(step("rinse", 3 * a.rinse, product=a.p.name, measure=a.m.name, times=3,
                                  each=self.num(a.rinse, VOLUME)))
            wait = value(a.p.given, "label", "wait")
            if wait is not None or "mixing" in self.job:  # "1 to 5 minutes as advice"
                steps.append(step("wait", 0, product=a.p.name, least=self.num(60 if wait is None else wait, TIME),
                                  most=self.num(300, TIME) if wait is None else None))
        agitate, top_up = step("agitate", 0), self.filling("top-up", load, tank, load.top_up)
        tank = load.v
        full = steps + [agitate, top_up, step("agitate", 0)]
        if not load.products:  # "without products nothing is agitated"
            return steps
        # "Where nothing is left [...], the top-up and the agitating before it fall away"; doubles may leave a trace.
        bare = steps + full[-1:]
        return full if load.top_up > load.slack else Either(bare, full) if load.top_up else bare

    def fillings(self, a):
        if a.m.pack:  # "no fillings to count"
            return Either([], None, [{"count": a.n, "amount": self.num(a.m.g, a.m.kind)}])
        whole, rest = divmod(a.n, a.m.q)
        return [{"count": count, "amount": self.num(n * a.m.g, a.m.kind)}
                for count, n in ((whole, a.m.q), (1, rest)) if count and n]

    def gap(self, p, exactly, measured, u):
        """The gap in percent, and in dose: per area, or as the dose is stated."""
        gap = (measured - exactly) / exactly
        per_area, share = (LIQUID_PER_AREA, BY_VOLUME) if p.kind == VOLUME else (DRY_PER_AREA, DENSITY)
        sizes = {per_area: p.c * self.R, share: p.c, p.dose[1]: p.dose[0]}
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
            **({"mixing": self.mixing()} if "mixing" in self.job else {}),
            "format": "mixcalc-plan/1", "usable": go, "safe_fill": num(self.U, VOLUME), "area": num(self.A, AREA),
            "volume_rate": num(self.R, LIQUID_PER_AREA), "carrier_rate": num(self.k * self.R, LIQUID_PER_AREA),
            "last_strip": {"held_back": num(self.H, VOLUME, slack=10 * self.u * (self.H + (r or 0))),
                           "area": num(self.strip_area, AREA)} if self.strip else None,
            "residual": None if r is None else {
                "volume": num(r, VOLUME), "ground_short": None if self.strip else num(r / self.R, AREA)},
            "totals": {"loads": loads[-1].last, "mix": num(self.V, VOLUME), "carrier": carrier,
                       "area": num(self.V / self.R, AREA), "products": [self.total(p) for p in self.products]},
            "loads": [{"first": load.first, "last": load.last, "count": load.count, "mix": num(load.v, VOLUME, load.u),
                       "carrier": num(load.carrier, VOLUME, slack=load.slack),
                       "area": num(load.v / self.R, AREA, load.u),
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
            amount, stock, left = self.num(p.measured, p.kind), None, None
            if p.stock is not None:
                stock = self.num(p.stock, p.kind)
                left = self.num(p.stock - p.measured, p.kind, slack=4 * E * max(p.stock, p.measured))
            return {"name": p.name, "drawn": amount, "in_loads": amount, "spilled": self.num(0, p.kind), "stock": stock,
                    "left": left}

        def whole(of):
            return self.num(sum(load.count * of(load) for load in self.loads), VOLUME, slack=40 * self.u * self.V)
        residual = min(self.r or 0, self.V)  # "the residual is at most the mix made"
        sprayed = self.num(self.V - residual, VOLUME, slack=10 * self.u * (self.V + residual))
        return {"products": [line(p) for p in self.products],
                "carrier": {"drawn": whole(lambda l: l.carrier), "first": whole(lambda l: l.initial),
                            "premixed": whole(lambda l: l.premixed), "rinses": whole(lambda l: l.rinses),
                            "topped_up": whole(lambda l: l.top_up)},
                "mix": {"made": self.num(self.V, VOLUME), "sprayed": sprayed,
                        "residual": self.num(residual, VOLUME)}}
