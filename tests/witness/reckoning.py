"""The sums of docs/numbers.md once more, in exact fractions, written from that page alone."""

from __future__ import annotations

from calendar import monthrange
from datetime import date
from fractions import Fraction
from types import SimpleNamespace as Record

import slips
from calibration import Calibrated
from expectation import ANY, Either, Num, Si
from quantities import (POUND, US_GAL, AREA, BY_MASS, BY_VOLUME, DENSITY, DRY_PER_AREA, LIQUID_PER_AREA, LITRE, MASS, PER_AREA, TIME, VOLUME,
                        NoAnswer, E, close, down, exact, marks, named_basis, nearest, over, quantity, under, up, value)


def day(text: str) -> date:
    return date(*map(int, text.split("-")))


def in_window(t: str, e: str, over: dict, start) -> bool:
    """Whether the window that ends on e holds t."""
    if over.get("season"):
        return t >= start
    if "days" in over:
        return t <= e and (day(e) - day(t)).days < over["days"]
    end = day(e)
    months = end.year * 12 + end.month - 1 - int(over.get("months", 12 * over.get("years", 0)))
    year, month = divmod(months, 12)
    # "the same day of the month so many months before e, or the last day of that month where it lacks that day"
    before = date(year, month + 1, min(end.day, monthrange(year, month + 1)[1]))
    return t <= e and day(t) > before


GROUPS = {  # section 16
    "soluble-bag": "WP-SB WG-SB EG-SB EP-SB SP-SB SG-SB GL-SB GW-SB", "powder": "WP EP", "granule": "WG WT EG",
    "suspension": "SC ZC SE ZE PA", "capsule-suspension": "CS", "emulsion": "EW EO ZW", "oil-dispersion": "OD",
    "emulsifiable": "EC DC ME GL", "solution": "SL GW", "soluble-solid": "SP SG ST", "oil": "SO"}
GROUP_OF = {code: group for group, codes in GROUPS.items() for code in codes.split()}
PROFILES = {  # section 17; in brackets what the source does not name
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


DRY = {"WP", "WG", "WT", "EG", "EP", "SP", "SG", "ST", "OP"}  # the solid types that go into water


ON_CROP = {"treated-area": "/ha", "leaf-wall-area": "/ha", "tree-row-volume": "/10000 m3", "crown-height": "/ha/m",
           "row-length": "/100 m", "plant": "", "spot": ""}  # how the unit of documents ends


def basis_of(given, said=None) -> str:
    """What a dose is counted on: as said, as its unit names, or as its dimension implies."""
    return said or named_basis(given) or ("ground-area" if quantity(given)[1] in PER_AREA else "mix-volume")


def most_basis(given: dict, dose, most, key="max_dose") -> str:
    """On what a least or largest dose is counted: "on the basis of the dose where that is per volume too, else on mix"."""
    of_dose = given.get("basis") if (dose[1] in PER_AREA) == (most[1] in PER_AREA) else None
    return basis_of(given.get("label", {}).get(key, given["dose"]), given.get("label", {}).get(f"{key}_basis", of_dose))


def content(substance: dict):
    """Content, its kind, the factor and the name of what is summed."""
    equivalent = substance.get("equivalent") or {"name": substance["name"], "factor": 1}
    return *quantity(substance["content"]), exact(equivalent["factor"]), equivalent["name"]


def product_dose(given: dict):
    """The dose of a product; "S / q, or S / e / q where the name is that of the equivalent" where it is one of a substance."""
    dose = quantity(given["dose"])
    for substance in given["active_substances"] if given.get("dose_of") else []:
        q, kind, e, name = content(substance)
        if given["dose_of"] in (substance["name"], name):
            stated = dose[0] / (1 if given["dose_of"] == substance["name"] else e)
            return stated / q, LIQUID_PER_AREA if kind == DENSITY else DRY_PER_AREA
    return dose


CYLINDERS = {10: "0.1", 25: "0.25", 50: "0.5", 100: "0.5", 250: "1", 500: "2.5", 1000: "5", 2000: "10"}  # mL, section 21
PARTS = {"flask": "0.05", "jug": "0.05", "unchecked-jug": "0.1", "cup": "0.1", "cap": "0.1", "powder-cup": "0.15"}


def uncertainty(m, n):
    """U of section 21; None where the measure says nothing of it."""
    given = m.given
    if "class" not in given and "tolerance" not in given:
        return None
    ml = LITRE / 1000

    def off(y):
        if "tolerance" in given:
            size, kind = quantity(given["tolerance"])
            return size * y if kind == "number" else size
        sort = given["class"]
        if sort in PARTS:
            return Fraction(PARTS[sort]) * y
        if sort == "scale":
            return Fraction("1.5") * m.g
        if sort == "syringe":
            small = under(m.capacity, 5 * ml)
            if under(y, m.capacity / 2):
                return Fraction("0.015") * m.capacity + Fraction("0.02" if small else "0.01") * y
            return Fraction("0.05" if small else "0.04") * y
        a = next(Fraction(off) for size, off in CYLINDERS.items() if not over(m.capacity, size * ml))
        return a * ml * {"cylinder-a": 1, "cylinder-b": 2, "plastic-cylinder": 4}[sort]
    q = 1 if m.pack else m.q
    full, last = divmod(n, q)
    total = full * off(q * m.g) + (off(last * m.g) if last else 0)
    fillings = full + (1 if last else 0)
    squared = total**2 / 3 + fillings * {"vessel": m.g**2 / 16, "scale": m.g**2 / 12, "pack": 0}[m.sort]
    scale = (n * m.g) ** 2
    return 2 * exact(repr(float(squared / scale) ** 0.5))


class Reckoning:
    """The plan of a job. Where doubles could rightly fall on either side of a decision, `script` says which side is
    taken, and `forks` how many there were; without a script it is the side where the exact number falls."""

    def __init__(self, job: dict, script=()):
        self.job, self.script, self.forks = job, script, []
        self.u = Fraction(1, 10**13)  # how far doubles may be off, relatively
        self.findings, self.V0 = [], Fraction(0)
        self.calibrated = Calibrated(job["calibration"]) if "calibration" in job else None

    def solve(self):
        self.ground()
        self.mix()
        self.season()
        self.water()
        self.tank()
        self.volume()
        self.split()
        self.amounts()
        self.calibration()
        for path in slips.found(self):  # 12. Slips of the unit
            self.note("caution", "unit-slip", path=path)
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
        """The rule on x and on what doubles may make of it: a trace less, a trace more, or the whole number within that trace."""
        u = u or self.u
        on_step = [round(x)] if abs(round(x) - x) <= u * abs(x) else []
        return self.pick([rule(of, *others) for of in (x, x * (1 - u), x * (1 + u), *on_step)])

    def num(self, si, kind, u=None, slack=0):
        return Num(si, kind, 10 * (u or self.u) * abs(si) + slack)

    def note(self, severity, code, product=None, load=None, must=True, path=None):
        self.findings.append(Record(severity=severity, code=code, product=product, load=load, must=must, path=path))

    # 4. The ground
    def ground(self):
        if {"spot_area", "band_width"} <= set(self.job.get("crop", {})):
            raise NoAnswer("both-given")
        self.A, self.twice, ground = value(self.job, "area"), None, self.job.get("ground")
        if ground is None:
            self.pass_share = 0
            return
        field = value(ground, "area") if "area" in ground else value(ground, "length") * value(ground, "width")
        # "A buffer takes its area, or max(0, width - edge_distance) * along"
        buffers = sum(value(b, "area") if "area" in b else
                      max(0, value(b, "width") - (value(b, "edge_distance") or 0)) * value(b, "along")
                      for b in ground.get("buffers", []))
        if not self.decide(under, buffers, field):
            raise NoAnswer("out-of-range")
        overlap = ground.get("overlap", {})
        share = overlap.get("share", 0)
        self.pass_share = quantity(share)[0] if isinstance(share, (str, dict)) else exact(share)
        if "swath" in overlap:  # "o = width / (swath - width)"
            self.pass_share = value(overlap, "width") / (value(overlap, "swath") - value(overlap, "width"))
        self.A = field - buffers
        self.twice = {"field": self.num(field, AREA), "buffers": self.num(buffers, AREA),
                      "sprayed_twice": self.num(self.pass_share * self.A, AREA)}
        self.u += Fraction(1, 10**15) * field / self.A
        if self.pass_share:
            self.note("caution", "overlap-doubles-dose")

    # 2. The mix
    def mix(self):
        self.density = value(self.job, "mix_density")
        given = self.job.get("products", [])
        for product in given:  # what is wrong with a product alone comes before what the job lacks for it
            self.bounds(product)
        self.products = [Record(i=i, given=p, name=p["name"], group=None) for i, p in enumerate(given)]
        self.order()
        order = [(p.i, p.group) for p in self.ordered]
        self.products = [self.product(i, p) for i, p in enumerate(given)]
        self.ordered = [self.products[i] for i, _ in order]
        for i, group in order:
            self.products[i].group = group
        given = [(p.dose, p.basis) for p in self.products]
        least = {p.i for p in self.products if "at_least" in p.given}
        while True:  # "begin with L for all, let f hold wherever it comes to no less, and look again"
            for p in self.products:
                p.dose, p.basis = (quantity(p.given["at_least"]), "ground-area") if p.i in least else given[p.i]
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
            p.stated_share = self.share(*given[p.i])  # what a slip of the unit is looked for in
            if p.i in least:
                self.at_least(p)
            p.c, largest = self.share(p.dose, p.basis), [self.share(dose, basis) for dose, basis in p.maxima]
            p.most, p.once = min(largest), min(largest) * self.R
            # "A dose over its maximum is the stop over-maximum-dose (compared as amounts of the mix)"
            for most in largest:
                if self.decide(over, p.c, most):
                    self.note("stop", "over-maximum-dose", p.i)
            if p.tank and not self.decide(close, self.R, p.tank):
                self.note("caution", "label-tank-disagrees", p.i)
            if p.on_part:
                self.note("caution", "dose-on-part-of-ground", p.i)
            # "A dose under label.min_dose (as amounts of the mix too, on the basis of its own) [...] below-minimum-dose"
            p.low_share = p.low and self.share(*p.low)
            p.high_share = p.high and self.share(*p.high)
            if p.low and self.decide(under, p.c, p.low_share):
                self.note("caution", "below-minimum-dose", p.i)
            for bound, breaks in (("minimum", under), ("maximum", over)):
                limit = value(p.given, "label", f"{bound[:3]}_volume_rate")
                on = p.given.get("label", {}).get("volume_rate_basis", "ground-area")
                if limit is not None and self.decide(breaks, self.R / self.stands(on), limit):
                    self.note("stop", f"volume-rate-{'below' if bound == 'minimum' else 'above'}-{bound}")

    def at_least(self, p):
        """"The dose that holds" is then one per ground area; a tank of the label says nothing of it."""
        label = p.given.get("label", {})
        p.on_part = self.is_part()
        if not {"max_dose", "max_ground_dose", "max_concentration"} & set(label):
            p.label, p.most_basis, p.maxima = p.dose, p.basis, [(p.dose, p.basis)]
            p.as_stated = p.maxima
            if "tank" in label:
                self.note("note", "dose-taken-as-maximum", p.i)
        elif "tank" in label:
            p.maxima = p.maxima if "ground-area" in [b for _, b in p.stated] else p.stated
            p.as_stated = [most for most in p.as_stated if most in p.without_tank]

    def rates(self):
        area = sum(p.dose[0] * p.displaces for p in self.products if p.dose[1] in PER_AREA)
        of_mix = sum(self.fraction(p.dose) * p.displaces for p in self.products if p.basis == "mix-volume")
        of_carrier = sum(p.dose[0] * p.displaces for p in self.products if p.basis == "carrier-volume")
        if of_mix >= 1:
            raise NoAnswer("products-fill-mix")
        rate = self.job.get("volume_rate", self.job.get("carrier_rate"))
        if self.calibrated:
            self.R = self.calibrated.R
        else:
            self.R = self.on_ground(quantity(rate), basis_of(rate, self.job.get("rate_basis")), VOLUME)[0]
        if "carrier_rate" in self.job:  # "R = (Q * (1 + sum(C)) + sum(area doses as volume per area)) / (1 - sum(m))"
            self.R = (self.R * (1 + of_carrier) + area) / (1 - of_mix)
        # "k = (1 - sum(a) - sum(m)) / (1 + sum(C)), where a = (area dose as volume per area) / R"
        self.k = (1 - area / self.R - of_mix) / (1 + of_carrier)
        if self.k <= 0:
            raise NoAnswer("products-fill-mix")
        self.on_field = self.R * (1 + self.pass_share)  # "R' stands for R wherever mix is brought to ground or back"
        self.of_mix = of_mix

    def bounds(self, given):
        """"A min_dose over a max_dose that is counted on the same basis is the error out-of-range"; so are volume rates."""
        label, dose = given.get("label", {}), product_dose(given)
        least, largest = (value(label, f"{bound}_volume_rate") for bound in ("min", "max"))
        if None not in (least, largest) and least > largest:
            raise NoAnswer("out-of-range")
        if "min_dose" in label and "max_dose" in label:
            low, most = (quantity(label[key]) for key in ("min_dose", "max_dose"))
            same = low[1] == most[1] and most_basis(given, dose, low, "min_dose") == most_basis(given, dose, most)
            if same and self.decide(over, low[0], most[0]):
                raise NoAnswer("out-of-range")

    def product(self, i, given):
        p = Record(i=i, given=given, name=given["name"], dose=product_dose(given), own=given.get("measure"))
        most = given.get("label", {}).get("max_dose")
        p.label = p.dose if most is None else quantity(most)
        p.low = quantity(low) if (low := given.get("label", {}).get("min_dose")) is not None else None
        # The unit above the line tells a volume from a mass.
        p.kind = VOLUME if p.dose[1] == BY_VOLUME or p.dose[1] != BY_MASS and not p.dose[1][1] else MASS
        p.basis, p.most_basis = basis_of(given["dose"], given.get("basis")), most_basis(given, p.dose, p.label)
        # "Where the crop says that a part of the ground is treated (bands or spots) and a dose is on ground-area"
        p.on_part = p.basis == "ground-area" and self.is_part()
        label, p.tank = given.get("label", {}), None
        keys = {"max_dose": p.most_basis, "max_ground_dose": "ground-area", "max_concentration": "mix-volume"}
        stated = {key: (quantity(label[key]), basis) for key, basis in keys.items() if key in label}
        p.stated = [self.grounded(*most, p.kind) for most in stated.values()]  # as the label gives them
        p.without_tank = list(stated.values())
        if "tank" in label:  # "its concentration f means the dose f * mix / area per ground area"
            p.tank = value(label, "tank", "mix") / value(label, "tank", "area")
            if "ground-area" not in [basis for _, basis in stated.values()]:
                per_area = LIQUID_PER_AREA if p.kind == VOLUME else DRY_PER_AREA
                stated["tank"] = (p.dose[0] * p.tank, per_area), "ground-area"
        low_basis = p.low and most_basis(given, p.dose, p.low, "min_dose")
        p.stated_basis, p.high = p.basis, stated.get("max_dose") and self.grounded(*stated["max_dose"], p.kind)
        largest = list(stated.values()) or [(p.dose, p.basis)]
        p.maxima, p.as_stated = [self.grounded(dose, basis, p.kind) for dose, basis in largest], largest
        p.most_basis = p.most_basis if "max_dose" in label or not stated else None
        p.low = p.low and self.grounded(p.low, low_basis, p.kind)
        p.dose, p.basis = self.grounded(p.dose, p.basis, p.kind)
        p.density, p.particle, p.bulk = (value(given, k) for k in ("density", "particle_density", "bulk_density"))
        p.dry = (given["formulation"][:2] in DRY if "formulation" in given else p.kind == MASS and p.density is None)
        # "For a share by mass d = c / density for a liquid with density, d = c / particle_density for a dry product
        # with particle_density, and otherwise 0 with the note displacement-not-counted."
        body = p.particle if p.dry else p.density
        p.displaces = 1 if p.kind == VOLUME else 1 / body if body else 0
        if p.kind == MASS and not body:
            self.note("caution", "displacement-not-counted", i)
        for substance in given.get("active_substances", []):
            # "Where p is needed and missing it is the caution substance-not-counted"
            if p.density is None and self.holds(p, substance) is None:
                self.note("caution", "substance-not-counted", i)
        if not stated:  # "A label without max_dose has the dose as its maximum, with a note"
            self.note("note", "dose-taken-as-maximum", i)
        return p

    # What stands on a unit of ground
    def crop(self, key, power=1):
        found = value(self.job.get("crop", {}), key)
        if found is None:
            raise NoAnswer("missing-input")
        return found

    def is_part(self):
        crop = self.job.get("crop", {})
        return ("band_width" in crop or {"spots", "spot_area"} <= set(crop)) and self.decide(
            under, self.stands("treated-area"), 1)

    def stands(self, basis):
        """G of the page: what there is of a basis for each unit of ground."""
        crop = self.job.get("crop", {})
        alternate = 2 if crop.get("treated_rows") == "alternate" else 1

        def w():
            return self.crop("row_spacing") * alternate

        def n():
            if "treated_sides" not in crop:
                raise NoAnswer("missing-input")
            return {"one": 1, "both": 2}[crop["treated_sides"]]
        if basis == "leaf-wall-area":
            return n() * self.crop("canopy_height") / w()
        if basis == "tree-row-volume":
            return self.crop("canopy_height") * self.crop("canopy_width") / w() * n() / 2
        if basis == "crown-height":
            return self.crop("canopy_height") * n() / 2 / alternate
        if basis == "treated-area":
            spots = "spots" in crop and "spot_area" in crop
            share = exact(crop["spots"]) * self.crop("spot_area") / self.A if spots else self.crop("band_width") / w()
            if self.decide(over, share, 1):
                raise NoAnswer("out-of-range")
            return share
        if basis == "row-length":
            return 1 / w()
        if basis == "plant":
            return exact(crop["plants"]) / self.A if "plants" in crop else 1 / (w() * self.crop("plant_spacing"))
        if basis == "spot":
            if "spots" not in crop:
                raise NoAnswer("missing-input")
            return exact(crop["spots"]) / self.A
        return 1

    def on_ground(self, dose, basis, kind):
        """A dose on a basis of the crop, per ground area; as it is otherwise."""
        if basis in ("ground-area", "mix-volume", "carrier-volume"):
            return dose
        return dose[0] * self.stands(basis), LIQUID_PER_AREA if kind == VOLUME else DRY_PER_AREA

    def grounded(self, dose, basis, kind):
        on_crop = basis not in ("ground-area", "mix-volume", "carrier-volume")
        return self.on_ground(dose, basis, kind), "ground-area" if on_crop else basis

    def holds(self, p, substance):
        """How much of a substance there is per unit of its product: q e, q p e, or q / p e."""
        q, kind, e, _ = content(substance)
        if (kind == DENSITY) == (p.kind == VOLUME):
            return q * e
        return p.density and q * e * (p.density if p.kind == VOLUME else 1 / p.density)

    def substances(self):
        """12. The sums of each name over the products, null where a part is not known."""
        each = [(content(s)[3], self.holds(p, s), p) for p in self.products for s in p.given.get("active_substances", [])]

        def summed(name, kind, of):
            terms = [None if q is None else (q, of(p)) for at, q, p in each if at == name]
            return None if None in terms else self.num(sum(q * x for q, x in terms), kind)
        return [{"name": name,
                 # "D where it is stated per ground area, else c * R"
                 "dose": summed(name, DRY_PER_AREA, lambda p: p.dose[0] if p.dose[1] in PER_AREA else p.c * self.R),
                 "exact": summed(name, MASS, lambda p: self.lacking(self.loads[0], p, p.c * self.V)[0]),
                 "measured": None if self.stopped else summed(name, MASS, lambda p: p.measured)}
                for name in sorted({name for name, _, _ in each})]

    # 17. The mixing order
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
        free = [p.group for p in self.ordered if p.i not in orders]
        pairs = dict.fromkeys((first, second) for at, first in enumerate(free) for second in free[at + 1:])
        for first, second in pairs:
            if places[first][0] <= places[second][0]:
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

    # 13. The season
    def caps(self):
        return [Record(p=p, label=cap, most=quantity(cap["value"])[0], name=cap.get("substance"))
                for p in self.products for cap in p.given.get("label", {}).get("caps", [])]

    def per_unit(self, cap, p):
        """What a unit of a product counts towards a cap; None where a density is missing, 0 where it does not count."""
        if cap.name is None:
            return 1 if p is cap.p else 0
        parts = [self.holds(p, s) for s in p.given.get("active_substances", []) if content(s)[3] == cap.name]
        return None if None in parts else sum(parts)

    def per_ground(self, p):
        return p.dose[0] if p.dose[1] in PER_AREA else p.c * self.R

    def used(self, cap):
        """Per parcel and window: the amounts of the treatments in it, and whether all are known. None without a date."""
        season = self.job.get("season", {})
        d, start = season.get("date"), season.get("season_start")
        if d is None:
            return None
        over = cap.label["over"]
        sums = []
        for parcel in [parcel["name"] for parcel in season.get("parcels", [])] or [None]:
            treatments = [t for t in season.get("treatments", []) if t.get("parcel", parcel) == parcel]
            everywhere = season.get("treatments", [])
            for e in {d} | {t["date"] for t in everywhere if t["date"] > d}:
                if not in_window(d, e, over, start):
                    continue
                terms = [self.of_treatment(cap, t) for t in treatments if in_window(t["date"], e, over, start)]
                sums.append((parcel, sum(t for t in terms if t is not None), None not in terms))
        return sums

    def of_treatment(self, cap, t):
        if "product" in t:
            p = next(p for p in self.products if p.name == t["product"])
            q = self.per_unit(cap, p)
            amount = None if q is None else quantity(t["dose"])[0] * q
        else:
            amount = sum(quantity(s["dose"])[0] * self.equivalent(s["name"], cap.name) for s in t["substances"])
        share = t.get("treated_share", 1) if cap.label.get("on", "ground-area") == "ground-area" else 1
        share = quantity(share)[0] if isinstance(share, (str, dict)) else exact(share)
        return None if amount is None else amount * share

    def stated_substances(self):
        return [s for p in self.products for s in p.given.get("active_substances", [])]

    def equivalent(self, name, capped):
        """"A substance of a treatment that has the name of an active substance of the job with an equivalent counts as that"."""
        if name == capped:
            return 1
        return max((content(s)[2] for s in self.stated_substances() if s["name"] == name and content(s)[3] == capped), default=0)

    def broken(self, p, rule, limit):
        """Whether a rule on count, interval, harvest or stage is broken; None where it cannot be told."""
        season = self.job.get("season", {})
        d, start, stage = season.get("date"), season.get("season_start"), season.get("growth_stage")
        its = [t for t in season.get("treatments", []) if t.get("product") == p.name]
        if rule.endswith("growth_stage"):
            return None if stage is None else stage < limit if rule.startswith("min") else stage > limit
        if d is None or rule == "waiting_period" and season.get("harvest") is None:
            return None
        if rule == "max_treatments":
            names = [parcel["name"] for parcel in season.get("parcels", [])] or [None]
            return max(sum(t.get("parcel", n) == n and t["date"] >= start for t in its) for n in names) + 1 > limit
        if rule == "min_interval":
            return any(abs((day(t["date"]) - day(d)).days) * 86400 < limit for t in its)
        return (day(season["harvest"]) - day(d)).days * 86400 < limit

    def season(self):
        season = self.job.get("season", {})
        rules = {"max_treatments": "too-many-treatments", "min_interval": "interval-too-short",
                 "waiting_period": "waiting-period-not-kept", "min_growth_stage": "growth-stage-outside",
                 "max_growth_stage": "growth-stage-outside"}
        for p in self.products:
            label = p.given.get("label", {})
            if season.get("date") and not season.get("season_start") and (
                    "max_treatments" in label or any("season" in cap["over"] for cap in label.get("caps", []))):
                raise NoAnswer("missing-input")
        known = {name for s in self.stated_substances() for name in (s["name"], content(s)[3])}
        brought = [s["name"] for t in season.get("treatments", []) for s in t.get("substances", [])]
        if any(name not in known and name.lower() in {other.lower() for other in known} for name in brought):
            raise NoAnswer("unknown-choice")
        if not set(brought) <= known and any(cap.name for cap in self.caps()):
            self.note("note", "limit-not-checked")
        for p in self.products:
            label = p.given.get("label", {})
            p.forbidden, p.largest = None, []
            by_label = {"max_dose", "max_ground_dose", "max_concentration", "tank"} & set(label)
            if by_label and any(basis == "carrier-volume" or basis == "mix-volume" and "carrier_rate" in self.job
                                for _, basis in p.maxima):  # "there the volume [...] moves with the dose"
                p.largest = None
            if "tank" in label and "max_dose" not in label:  # "rounded up it would pass the label's one concentration"
                p.most, p.ceiling_held = min(p.most, p.c), True
            for rule, code in rules.items():
                if rule not in label:
                    continue
                limit = label[rule]["value"]
                broken = self.broken(p, rule, limit if isinstance(limit, int) else quantity(limit)[0])
                if broken is None:
                    self.note("note", "limit-not-checked", p.i)
                    p.largest = None
                elif broken:
                    self.note("stop", code, p.i)
                    kind = "growth-stage" if rule.endswith("growth_stage") else rule.replace("_", "-")
                    p.forbidden = p.forbidden or kind
            for key in ("re_entry", "min_wind", "max_wind", "min_temperature", "max_temperature", "min_delta_t", "max_delta_t"):
                if key in label:
                    self.note("note", "check-before-spraying", p.i)
            for _ in label.get("buffers", []):
                self.note("note", "check-before-spraying", p.i)
        for cap in self.caps():
            s = self.stands("treated-area") if cap.label.get("on") == "treated-area" and self.is_part() else 1
            parts = {p.i: q if (q := self.per_unit(cap, p)) is None else q / s for p in self.products}
            planned = {p.i: None if parts[p.i] is None else parts[p.i] * self.per_ground(p) for p in self.products}
            used = self.used(cap)
            counted = [p for p in self.products if parts[p.i] != 0]
            for p in counted:  # "The ceiling of a product that a cap of the job counts is not over its dose"
                p.most, p.ceiling_held = min(p.most, p.c), True
            is_whole = used is not None and None not in planned.values() and all(whole for _, _, whole in used)
            amount = max((amount for _, amount, _ in used or ()), default=0)
            whole = amount + sum(part for part in planned.values() if part is not None)
            if self.decide(over, whole, cap.most):
                self.note("stop", "cap-passed", cap.p.i)
            elif not is_whole:
                self.note("note", "limit-not-checked", cap.p.i)
            elif self.decide(over, whole, cap.most * Fraction(9, 10)):
                self.note("caution", "cap-nearly-used", cap.p.i)
            for p in counted:
                if not is_whole:
                    p.largest = None
                    continue
                others = sum(planned[i] for i in planned if i != p.i)
                for parcel, amount, _ in used:
                    if p.largest is not None:
                        p.largest.append((max(0, cap.most - amount - others) / parts[p.i], parcel, cap))

    def largest_dose(self, p):
        kind = LIQUID_PER_AREA if p.kind == VOLUME else DRY_PER_AREA
        if p.forbidden:
            return {"dose": self.num(0, kind), "binding": p.forbidden, "parcel": None, "limit": None, "source": ANY}
        once = p.once
        least = min([once] + [dose for dose, _, _ in p.largest])
        choices = []
        if close(once, least):
            choices.append(("max-dose", None))
        choices += [("cap", parcel) for dose, parcel, _ in p.largest if abs(dose - least) <= E * max(least, once)]
        return Either(*({"dose": self.num(least, kind, slack=10 * self.u * sum(
            (cap.most / (self.per_unit(cap, p) or 1) for _, _, cap in p.largest), start=least)),
            "binding": binding, "parcel": parcel, "source": ANY} for binding, parcel in choices))

    # 19. Water
    def water(self):
        ions = {ion: value(self.job.get("water", {}), ion) or 0 for ion in ("potassium", "sodium", "calcium", "magnesium", "iron")}
        self.hardness = Fraction("2.497") * ions["calcium"] + Fraction("4.118") * ions["magnesium"]
        pounds = {"potassium": "0.002", "sodium": "0.005", "calcium": "0.009", "magnesium": "0.014", "iron": "0.042"}
        ppm = Fraction(1, 10**6) / LITRE
        self.need = sum(Fraction(part) * ions[ion] / ppm for ion, part in pounds.items()) * POUND / (100 * US_GAL)
        if self.decide(over, self.hardness, 200 * ppm):
            self.note("note", "hard-water", path="water")
        found = [(self.holds(p, s), p) for p in self.products for s in p.given.get("active_substances", [])
                 if content(s)[3] == "ammonium sulfate"]
        if None in [q for q, _ in found]:
            return
        there = sum(q * p.c for q, p in found)
        for p in self.products:
            asked = value(p.given, "label", "ammonium_sulfate")
            if asked is not None and self.decide(under, there, max(asked, self.need)):
                self.note("caution", "ammonium-sulfate-short", p.i)

    def of_water(self):
        ppm = Fraction(1, 10**6) / LITRE
        classes = [("soft", under, 60), ("moderate", lambda a, b: not over(a, b), 120), ("hard", lambda a, b: not over(a, b), 180)]
        name = next((name for name, rule, limit in classes if self.decide(rule, self.hardness, limit * ppm)), "very-hard")
        return {"hardness": self.num(self.hardness, DENSITY), "hardness_class": name, "ammonium_sulfate_need": self.num(self.need, DENSITY)}

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
        self.scale(tank, nominal or brim)
        if self.straights:
            if self.decide(over, U, self.straights[-1][2]):
                self.note("note", "scale-check-short", path="tank.scale_check")
            U = min(U, self.straights[-1][2])
        if self.g:  # "U = steps_down(U / g) * g. Less than one mark is the error below-first-mark."
            U = self.holds_at(self.decide(down, self.shows(U) / self.g) * self.g)
            if U == 0:
                raise NoAnswer("below-first-mark")
        if not roomy and self.decide(over, U, Fraction(95, 100) * (brim or nominal)):
            self.note("caution", "headspace-below-five-percent")
        # "carried-mass-above-advice where empty_mass + U * mix_density is over 25 kg"
        if self.carried and None not in (empty, self.density) and self.decide(over, empty + U * self.density, 25):
            self.note("caution", "carried-mass-above-advice")
        self.U = U

    # 24. The field list
    def field_list(self):
        if "field_list" not in self.job or self.stopped:
            return {}
        stated, loads = self.job["field_list"], self.loads
        tank, residual = self.job["tank"], self.job["sprayer"].get("residual") or {}
        size = value(tank, "nominal") or value(tank, "brim")
        advised = {"hands": 15 * LITRE, "eyes": 6 * US_GAL, "tank_rinse": max(size / 10, 10 * (value(residual, "dilutable") or 0))}
        water = {key: advised[key] if value(stated, key) is None else value(stated, key) for key in advised}
        carrier = sum(load.count * load.carrier for load in loads)
        slack = 40 * self.u * self.V

        def told(v):
            return self.num(v, VOLUME, slack=slack)

        def product(p):
            if "containers" not in p.given:
                return {"containers": None, "buy": None}
            box = p.given["containers"]
            is_open = (value(box, "part") or 0) > 0
            return {"containers": p.containers["opened"] + is_open, "buy": p.containers["buy"]}

        def worn(when):
            return list(dict.fromkeys(text for p in self.products for text in p.given.get("label", {}).get("protection", {}).get(when, [])))
        used = [(p, load.products[p.i].m) for p in self.products for load in loads]

        def once(apart):  # "each once": whether two products' own ones without a name are one is left open
            return list({m.name if m.name is not ANY else (m.sort, m.g, m.capacity, m.given.get("class"), str(m.given.get("tolerance")),
                                                           p.i if apart and p.own else None, m.i): m.name for p, m in used}.values())
        measures = Either(once(False), once(True))
        return {"field_list": {
            "products": [{"name": p.name, "amount": self.num(p.measured, p.kind), **product(p)} for p in self.products],
            "water": {"total": told(carrier + sum(water.values())), "carrier": told(carrier),
                      "measure_rinses": told(sum(load.count * load.rinses for load in loads)),
                      "container_rinses": self.rinsed_containers().get("container_rinses", told(0)), **{key: told(v) for key, v in water.items()}},
            "measures": measures, "spill_kit": ANY,
            "protection": {"mixing": worn("mixing"), "spraying": worn("spraying"),
                           "unstated": [p.name for p in self.products if "protection" not in p.given.get("label", {})]}}}

    # 23. The tank's own scale
    def scale(self, tank, nominal):
        """Straight parts as (P1, R1, P2, R2); none without a check."""
        self.straights, self.off_nominal = [], nominal
        check = tank.get("scale_check")
        if check is None:
            return
        share = check["tolerance"]
        self.poured_off = quantity(share)[0] if isinstance(share, (str, dict)) else exact(share)
        points = [(value(point, "poured"), value(point, "read")) for point in check["points"]]
        starts = [] if points[0][1] == 0 else [(Fraction(0), Fraction(0))]
        points = starts + points
        self.straights = [(*low, *high) for low, high in zip(points, points[1:])]
        off = [(abs(P - R) / R, self.off_at(R)) for P, R in points if R > 0]
        if any(self.decide(over, x, most) for x, most in off):
            self.note("caution", "tank-scale-off", path="tank.scale_check")

    def off_at(self, mark):
        """7.5 % at marks up to 20 % of nominal, else 5 %."""
        return Fraction(5, 100) if self.decide(over, mark, self.off_nominal / 5) else Fraction(75, 1000)

    def shows(self, volume):
        for P1, R1, P2, R2 in self.straights:
            if volume <= P2 or (P2, R2) == self.straights[-1][2:]:
                return max(0, R1 + (volume - P1) * (R2 - R1) / (P2 - P1))
        return volume

    def holds_at(self, mark):
        if mark == 0:
            return 0
        for P1, R1, P2, R2 in self.straights:
            if mark <= R2 or (P2, R2) == self.straights[-1][2:]:
                return P1 + (mark - R1) * (P2 - P1) / (R2 - R1)
        return mark

    def of_mix_doubt(self, load):
        if not self.g:
            return {}

        def told(v, nearby):
            if self.straights:
                P1, R1, P2, R2 = next((s for s in self.straights if nearby <= s[2]), self.straights[-1])
                read = (P2 - P1) / (R2 - R1) * self.g / 4 / v
                U = 2 * exact(repr(float(self.poured_off**2 / 3 + 2 * read**2) ** 0.5))
            else:
                U = 2 * self.off_at(v) / exact(repr(3**0.5))
            about = Fraction(1, 10**11) + 20 * load.u
            return {"percent": Num(100 * U, None, 100 * U * about), "amount": Num(U * v, VOLUME, (U + 1) * v * about)}
        reached = self.decide(down, self.shows(load.v) / self.g, u=load.u) > 0
        if not reached:
            return {}
        trace = 100 * load.u * load.v
        return {"mix_uncertainty": Either(*(told(load.v, load.v + d) for d in (0, -trace, trace)))}

    # 4. How much mix
    def volume(self):
        self.strip = self.job.get("loading", {}).get("last_strip")
        residual = self.job["sprayer"].get("residual")
        self.r = None if residual is None else sum(value(residual, key) or 0 for key in residual)
        r, self.H = self.r or 0, 0
        if self.strip and "volume" in self.strip:
            self.H = value(self.strip, "volume")
        elif self.strip:  # "H = max(0, R * S - r); where R * S is under r the caution residual-exceeds-strip"
            whole = self.on_field * value(self.strip, "area")
            self.H = max(0, whole - r)
            if self.decide(under, whole, r):
                self.note("caution", "residual-exceeds-strip")
        self.V = self.on_field * self.A - self.H
        if self.strip:  # "not under the job area is the error strip-covers-job; over 10 % of it is the caution"
            self.strip_area = (self.H + r) / self.on_field
            if not self.decide(under, self.strip_area, self.A):
                raise NoAnswer("strip-covers-job")
            if self.decide(over, self.strip_area, self.A / 10):
                self.note("caution", "strip-above-ten-percent")
        elif r:
            self.note("note", "residual-leaves-ground-short")
        self.u += Fraction(1, 10**15) * self.on_field * self.A / self.V

    # 5. Loads
    def split(self):
        x, loading = self.V / self.U, self.job.get("loading", {})
        least = value(self.job["tank"], "least_working_volume")
        noise = self.on_field * self.A / 10**15  # what V - n U and V - M g may be off in doubles
        V, topped_up = self.V, []
        if "start" in self.job:  # "the first load is min(U, V), and the rest is divided as a mix of its own"
            first = self.start()
            topped_up, V = [(1, first, self.u)], V - first
            x = V / self.U
        if self.decide(over, x, 10**11):
            raise NoAnswer("too-many-loads")
        if loading.get("split", "full-then-part") == "even":
            groups = self.even(V, self.decide(up, x), 0, noise) if V else []
        else:
            n, whole = self.decide(marks, x)
            part = 0 if whole else V - n * self.U
            u = self.u + noise / (part or 1)
            if part and n and least and self.decide(under, part, least, u=u):
                groups = [(n - 1, self.U, self.u)] + self.even(self.U + part, 2, noise, noise)
            else:
                groups = [(n, self.U, self.u), (1 if part else 0, part, u)]
        self.loads, last = [], 0
        for count, v, u in topped_up + groups:
            if count and self.loads and close(v, self.loads[-1].v) and (last > 1 or not topped_up):  # "share one recipe and a count"
                self.loads[-1].count += count
                self.loads[-1].last += count
            elif count:
                v = min(v, self.U)  # "Each load that is not full is min(its volume, U)"
                self.loads.append(Record(first=last + 1, last=last + count, count=count, v=v, u=u, products=[],
                                         held=self.held if topped_up and not last else {}))
            last += count
        for load in self.loads:
            if least and self.decide(under, load.v, least, u=load.u):
                self.note("caution", "part-load-below-working-volume", load=load)

    # 27. What the tank holds before the first load
    def start(self):
        given = self.job["start"]
        self.V0, names = value(given, "volume"), {p.given["name"]: p for p in self.products}
        first = self.pick([self.U, self.V]) if close(self.U, self.V) else min(self.U, self.V)
        if self.decide(over, self.V0, self.U) or self.decide(over, self.V0, self.V):
            raise NoAnswer("out-of-range")
        stated = given.get("products", [])
        if given["holds"] == "another-mix":
            self.note("stop", "tank-holds-another-mix", path="start.holds")
        if any(it["name"] not in names for it in stated):
            raise NoAnswer("unknown-choice")
        as_planned = given["holds"] == "this-mix" and not stated
        self.held = {p.i: p.c * self.V0 if as_planned else Fraction(0) for p in self.products}
        for it in stated:
            size, kind = quantity(it["amount"])
            if kind != names[it["name"]].kind:
                raise NoAnswer("wrong-quantity")
            self.held[names[it["name"]].i] = size
        for p in self.products:
            if self.decide(over, self.held[p.i], p.most * first):
                self.note("stop", "tank-holds-too-much", load=Record(first=1, last=1), path="start")
            elif self.decide(over, self.held[p.i], p.c * first):
                self.note("caution", "tank-holds-more", load=Record(first=1, last=1), path="start")
        return first

    def lacking(self, load, p, amount):
        """What is to be added of an amount, and how far doubles may be off, relatively: it is a difference."""
        there = load.held.get(p.i, 0)
        if not there:
            return amount, load.u
        if not self.decide(over, amount, there, u=load.u):
            return Fraction(0), load.u
        return amount - there, load.u * (amount + there) / (amount - there)

    def volume_held(self, load):
        return self.V0 if load.held or (load.first == 1 and "start" in self.job) else 0

    def even(self, V, n, noise, mark_noise):
        # "M mod n loads of M div n + 1 marks first, then the others of M div n marks, and the last load takes the rest"
        if not self.g or self.straights:
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
            self.judge_doubt(load)
        self.unverified()
        for load in self.loads:
            load.emptied = {}
        for p in self.products:
            p.measured = sum(load.count * load.products[p.i].measured for load in self.loads)
            drawn = {}
            for load in self.loads:
                m = load.products[p.i].m
                drawn[m.i] = drawn.get(m.i, 0) + load.count * load.products[p.i].n
            if max(drawn.values()) > 2**53:  # "More than 2^53 graduations of a measure in all loads are the error uncountable."
                raise NoAnswer("uncountable")
            p.stock = value(p.given, "stock")
            if (box := p.given.get("containers")) and "full" in box:
                p.stock = exact(box["full"]) * value(box, "content") + (value(box, "part") or 0)
            self.empty(p)
            if p.stock is not None and self.decide(over, p.measured, p.stock):
                self.note("caution", "stock-short", p.i)
        for load in self.loads:
            self.fill(load)

    # 22. Containers
    def empty(self, p):
        box = p.given.get("containers")
        if box is None:
            return
        C, part = value(box, "content"), value(box, "part") or 0
        q = C - part if part > 0 else 0
        density = 1 if p.kind == VOLUME else p.bulk if p.dry else p.density
        p.each = None
        if box.get("rinse", not p.dry) and density:
            volume = C / density
            p.each = volume * (Fraction(1, 4) if self.decide(under, volume, 5 * US_GAL) else Fraction(1, 5))

        def contents(x, rule):
            return self.decide(rule, (x + q) / C)
        opened = contents(p.measured, up) - (1 if q else 0)
        full = box.get("full")
        p.containers = {"content": self.num(C, p.kind), "opened": opened, "emptied": contents(p.measured, down),
                        "left": self.num(opened * C + part - p.measured, p.kind, slack=self.u * 100 * (p.measured + C)),
                        "take": opened if full is None else min(opened, int(full)),
                        "buy": None if full is None else max(0, opened - int(full))}
        S = 0
        for load in self.loads:
            m = load.products[p.i].measured
            first, last = contents(S, down), contents(S + load.count * m, down)
            def emptying(j):  # the difference carries what doubles may be off of both
                x, off = (j * C - q - S) / m, self.u * (j * C + q + S) / m
                found = {load.first - 1 + min(load.count, max(1, up(of))) for of in (x, x - off, x + off)}
                return found.pop() if len(found) == 1 else Either(*sorted(found))
            named = [emptying(j) for j in range(first + 1, min(last, first + 20) + 1)] if m else []
            load.emptied[p.i] = Record(count=last - first, loads=named, most=min(last - first, self.decide(up, m / C)))
            S += load.count * m

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
        return Record(i=i, name=given.get("name", ANY), sort=given["kind"], kind=kind, g=g, factor=factor, pack=pack, given=given,
                      capacity=capacity, q=None if pack else self.decide(down, capacity / g),
                      max_fillings=self.job.get("loading", {}).get("max_fillings", 2))

    def fit(self, p, load, m, whole=True):
        """How a measure suits an amount: the preferences of the page, in their order. Of the whole amount, or of what is to be added."""
        amount, most, u, of_most = p.c * load.v, p.most * load.v, load.u, load.u
        if not whole:
            (amount, u), (most, of_most) = self.lacking(load, p, amount), self.lacking(load, p, most)
            if not amount:
                return Record(x=amount, n=0, below=False, coarse=False, many=False, amount=amount, u=u)
        x = amount * m.factor / m.g
        below = self.decide(under, x, 1, u=u)
        coarse = self.decide(under, x / 20, 1, u=u)
        fillings = 0 if m.pack else self.decide(up, x / m.q, u=u)
        many = fillings > m.max_fillings
        # "n = min(steps_nearest(x), steps_down(ceiling / g)) graduations, at least 1"
        n = max(1, min(self.decide(nearest, x, u=u), self.decide(down, most * m.factor / m.g, u=of_most)))
        # Capacities and graduations of vessels and scales are compared as amounts of the product.
        rank = (below, many, coarse, fillings, (m.capacity or 0) / m.factor, m.g / m.factor, m.i)
        return Record(x=x, n=n, below=below, coarse=coarse, many=many, rank=rank, amount=amount, u=u)

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
        if load.held:
            fit = self.fit(p, load, chosen, whole=False)
        if fit.below:
            self.note("stop", "amount-below-graduation", p.i, load)
        m, n = chosen, fit.n
        if fit.coarse and not m.pack:
            self.note("caution", "coarse-graduation", p.i, load)
        really = 0 if m.pack else -(-n // m.q)
        if fit.many or really > m.max_fillings:
            self.note("caution", "many-fillings", p.i, load, must=fit.many and really > m.max_fillings)
        return self.measured(p, load, m, n, fit.below, (fit.amount, fit.u))

    def measured(self, p, load, m, n, below, exactly):
        measured = n * m.g / m.factor
        viscous = p.given.get("viscous", False)
        premixed = self.carried and (p.dry or viscous) and not m.pack
        return Record(p=p, m=m, n=n, below=below, exact=exactly[0], u=exactly[1], measured=measured,
                      displaced=measured * p.displaces,
                      # "2 parts of carrier to one of product (2 L per kg, 2 L per L)"
                      premix=2 * measured * (LITRE if p.kind == MASS else 1) if premixed else 0,
                      rinse=m.capacity / 4 if n and m.sort == "vessel" else 0)

    def hold_to_carrier(self, load):
        """No more than the largest dose on the carrier that the load really has, where that is what it is counted on."""
        if any(a.below for a in load.products):  # "a load in which an amount is below one graduation"
            return
        carrier = max(0, load.v - sum(a.displaced + load.held.get(a.p.i, 0) * a.p.displaces for a in load.products))
        for i, a in enumerate(load.products):
            if a.p.most_basis == "carrier-volume" and a.n:
                most, u = self.lacking(load, a.p, a.p.label[0] * carrier)
                n = min(a.n, self.decide(down, most * a.m.factor / a.m.g, u=u * (1 + load.v / carrier)) if carrier else 0)
                if n == 0:
                    self.note("stop", "amount-below-graduation", i, load)
                load.products[i] = self.measured(a.p, load, a.m, max(1, n), n == 0, (a.exact, a.u))

    def judge_packs(self, load):
        # "packs-off-dose where whole packs miss the amount by over 5 % of it"
        for i, a in enumerate(load.products):
            x = a.exact * a.m.factor / a.m.g
            if a.m.pack and not a.below and self.decide(lambda x: over(abs(a.n - x), x / 20), x, u=a.u):
                self.note("caution", "packs-off-dose", i, load)

    # 21. What can be measured
    def judge_doubt(self, load):
        for i, a in enumerate(load.products):
            u = None if a.below or not a.n else uncertainty(a.m, a.n)
            if u is not None and u > Fraction(5, 100) * (1 - E * 10):
                self.note("caution", "amount-hard-to-measure", i, load, must=u > Fraction(5, 100) * (1 + E * 10))

    def unverified(self):
        used = {(a.p.i if a.p.own else None, a.m.i) for load in self.loads for a in load.products}
        for product, i in used:
            given = self.products[product].own if product is not None else self.job["measures"][i]
            if given.get("class") in ("unchecked-jug", "cap"):
                at = f"products[{product}].measure" if product is not None else f"measures[{i}]"
                self.note("caution", "tolerance-unverified", path=f"{at}.class")

    # 7. Carrier, rinses and steps
    def fill(self, load):
        load.slack = 40 * load.u * load.v
        there = self.volume_held(load)
        load.carrier = load.v - there - sum(a.displaced for a in load.products)
        load.rinses = sum(3 * a.rinse for a in load.products)
        load.premixed = sum(a.premix for a in load.products)
        load.for_containers = sum(3 * e.most * (self.products[i].each or 0) for i, e in load.emptied.items())
        used = load.rinses + load.premixed + load.for_containers
        room = load.carrier - used
        load.done = there and close(there, load.v) and not any(a.n for a in load.products)
        if load.done:
            load.carrier = load.initial = load.top_up = 0
            return
        # "carrier - rinses - premixes <= 0", by the closeness of section 1
        if self.pick([not under(used + d, load.carrier) for d in (0, load.u * load.v, -load.u * load.v)]):
            self.note("stop", "rinses-exceed-carrier", load=load)
        asked = [exact(f) for p in self.products if (f := p.given.get("label", {}).get("first_carrier")) is not None]
        load.initial = min(max(0, max(asked, default=Fraction(1, 2)) * load.v - there), room)
        if not load.products:  # "A load without products is filled in one go."
            load.initial = load.v - there
        elif self.g and room > 0:  # "where marks are given, down to a mark, if at least one mark remains"
            level = there + load.initial
            n = self.decide(down, self.shows(level) / self.g, u=(20 if self.straights else 1) * (load.u + load.u * load.v / level))
            mark = self.holds_at(n * self.g) if n > 0 else 0
            load.initial = min(mark - there, load.carrier) if n > 0 and self.decide(over, mark, there) else load.initial
        load.top_up = room - load.initial + load.for_containers

    def filling(self, do, load, before, carrier):
        # "mark = steps_down(to / g), rest = to - mark * g (none where it is close). Without marks, or where the tank
        # already holds that much, the whole filling is measured: no mark, and the rest is all of it."
        def litres(v):
            return self.num(v, VOLUME, slack=load.slack)
        to = before + carrier
        measured = {"mark": None, "rest": litres(carrier)}
        how = measured
        if self.g:
            n, whole = self.decide(marks, self.shows(to) / self.g, u=20 * load.u if self.straights else load.u)
            written, mark = n * self.g, self.holds_at(n * self.g)
            if self.pick([under(before + d, mark) for d in (0, load.slack / 40, -load.slack / 40)]):
                how = {"mark": litres(written), "rest": None if whole else litres(to - mark)}
        base = {"do": do, "carrier": litres(carrier), "in_tank": litres(to)}
        return Either(*({**base, **h} for h in (how.choices if isinstance(how, Either) else [how])))

    def steps(self, load):
        if load.done:
            return []
        there = self.volume_held(load)
        tank = there + load.initial

        def step(do, added, **more):
            nonlocal tank
            tank += added
            return {"do": do, **more, "in_tank": self.num(tank, VOLUME, slack=load.slack)}
        steps = [self.filling("fill", load, there, load.initial)] if load.initial else []
        if "mixing" in self.job and load.products and not self.carried:
            steps.append(step("start-agitator", 0))
        for a in (load.products[p.i] for p in self.ordered if load.products[p.i].n):
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
        for p in self.ordered:
            emptied = load.emptied.get(p.i)
            if emptied and emptied.most and p.each:
                steps.append(step("rinse-containers", 0, product=p.name, containers=emptied.most, times=3, each=self.num(p.each, VOLUME)))
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

    def gap(self, p, exactly, measured, u, V):
        """The gap in percent, and in dose: per area, or as the dose is stated."""
        gap, in_dose = ((measured - exactly) / of if of else Fraction(0) for of in (exactly, p.c * V))
        per_area, share = (LIQUID_PER_AREA, BY_VOLUME) if p.kind == VOLUME else (DRY_PER_AREA, DENSITY)
        sizes = {per_area: p.c * self.R, share: p.c, p.dose[1]: p.dose[0]}
        return {"percent": Num(100 * gap, None, 1000 * u * (1 + abs(gap))),
                "dose": Either(*(Num(in_dose * c, kind, 10 * u * c * (1 + abs(gap))) for kind, c in sizes.items()))}

    # The document
    # 20. A job that goes by a calibration
    def calibration(self):
        if not self.calibrated:
            return
        for what in self.calibrated.differences():
            at = {"unstated": "", "too-old": ".date", "later-day": ".date"}.get(what, f".{what}")
            self.note("caution", "calibration-too-old" if what == "too-old" else "calibration-differs", path=f"calibration.setting{at}")
        if not self.calibrated.adds:
            self.note("note", "calibration-doubt-missing", path="calibration")
        if self.calibrated.risk is None:
            return
        for p in self.products:
            doubts = [(load, self.doubt_of(load, a)) for load in self.loads for a in load.products if a.p is p and a.n]
            noise = max((float(10 * load.u) / doubt.share for load, doubt in doubts if doubt.share), default=0)
            worst = max((over for load in self.loads for a in load.products if a.p is p and a.n
                         if (over := self.delivered(load, a)[1]) is not None), default=0)
            if worst > self.calibrated.risk * (1 - 1e-9) - noise:
                self.note("caution", "dose-may-pass-maximum", product=p.i, must=worst > self.calibrated.risk * (1 + 1e-9) + noise)

    def delivered(self, load, a):
        """The dose that a load delivers, the probability of its being over the maximum per area, and what to aim at."""
        dose = float((a.measured + load.held.get(a.p.i, 0)) / load.v * self.calibrated.R)
        per_area = LIQUID_PER_AREA if a.p.kind == VOLUME else DRY_PER_AREA
        most = [size for size, basis in self.ground_maxima(a.p) if basis == per_area]
        if not most:
            return dose, None, None
        doubt = self.doubt_of(load, a)
        return dose, doubt.over(dose, float(min(most))), self.calibrated.aim(float(min(most)), doubt)

    def doubt_of(self, load, a):
        measured = a.measured / ((a.measured + load.held.get(a.p.i, 0)) or 1)
        mix = next(iter(self.of_mix_doubt(load).values()), None)
        told = (mix.choices[0] if isinstance(mix, Either) else mix)["percent"] if mix else None
        read = float(told.si if isinstance(told, Num) else told) / 200 if told is not None else 0
        return self.calibrated.beside(float(measured * (uncertainty(a.m, a.n) or 0) if a.n else 0) / 2, read)

    def ground_maxima(self, p):
        """The largest doses that are stated per ground area, or the dose itself where none is stated at all."""
        return [(dose[0], dose[1]) for dose, basis in p.as_stated if basis == "ground-area"]

    def about(self, si, kind, slack=1e-9):
        return Num(exact(si), kind, abs(exact(si)) * exact(slack))

    def of_calibration(self):
        c = self.calibrated
        def rate(x):
            return Num(exact(x), LIQUID_PER_AREA, exact(1e-9) * abs(c.R))
        return {"volume_rate": self.num(c.R, LIQUID_PER_AREA), "standard_uncertainty": rate(c.u),
                "degrees_of_freedom": None if c.degrees is None else self.about(c.degrees, None), "coverage": self.about(c.coverage, None),
                "coverage_factor": self.about(c.k, None), "interval": {"low": rate(c.low), "high": rate(c.high)},
                "contributions": [{"standard_uncertainty": rate(size), "share_of_variance": Num(exact(size**2 / c.u**2), None, exact(1e-9))}
                                  for _, size, _ in c.adds], "differences": c.differences()}

    def run_out(self, load):
        c, course = self.calibrated, self.job.get("passes")
        def span(x, told):
            low = c and float(x) * float(c.R) / c.high
            high = c and c.low > 0 and float(x) * float(c.R) / c.low or None
            near = lambda y: told(exact(y), (exact(1e-9) + 10 * load.u) * exact(y))
            return {"value": told(x, 10 * load.u * x), "low": low and near(low), "high": high and near(high)}
        out = {"area": span(load.v / self.on_field, lambda x, by: Num(x, AREA, by))}
        if course:
            length = load.v / self.R / value(course, "swath")
            out["length"] = span(length, lambda x, by: Si(x, by, "m"))
            if "length" in course:
                out["passes"] = span(length / value(course, "length"), lambda x, by: Num(x, None, by))
        return out

    def of_delivered(self, load, a):
        dose, over, aim = self.delivered(load, a)
        kind, doubt = LIQUID_PER_AREA if a.p.kind == VOLUME else DRY_PER_AREA, self.doubt_of(load, a)
        noise = exact(1e-9) + 10 * load.u  # of a load that what went before leaves
        about = lambda x: Num(exact(x), kind, noise * exact(dose))
        return {"dose": about(dose), "standard_uncertainty": about(dose * doubt.share),
                "interval": {"low": about(dose * (1 - doubt.half)), "high": about(dose * (1 + doubt.half))},
                "probability_over": None if over is None else Num(exact(over), None, exact(1e-6) + (noise / exact(doubt.share) if doubt.share else 0)),
                "aim": None if aim is None else about(aim)}

    def document(self):
        num, loads, go = self.num, self.loads, not self.stopped
        for load in loads:
            if self.stopped:  # "its carrier figures stand for the exact amounts"
                load.carrier = self.k * (load.v - self.volume_held(load))
        carrier = num(sum(load.count * load.carrier for load in loads), VOLUME, slack=40 * self.u * self.V)
        r = self.r
        return {
            **({"mixing": self.mixing()} if "mixing" in self.job else {}),
            "format": "mixcalc-plan/1", "usable": go, "safe_fill": num(self.U, VOLUME), "area": num(self.A, AREA),
            **({"ground": self.twice} if self.twice else {}),
            **({"water": self.of_water()} if "water" in self.job else {}),
            **({"calibration": self.of_calibration()} if self.calibrated else {}),
            "volume_rate": num(self.R, LIQUID_PER_AREA), "carrier_rate": num(self.k * self.R, LIQUID_PER_AREA),
            "last_strip": {"held_back": num(self.H, VOLUME, slack=10 * self.u * (self.H + (r or 0))),
                           "area": num(self.strip_area, AREA)} if self.strip else None,
            "residual": None if r is None else {
                "volume": num(r, VOLUME), "ground_short": None if self.strip else num(r / self.on_field, AREA)},
            **({"start": {"volume": num(self.V0, VOLUME), "products": [{"name": p.name, "amount": num(self.held[p.i], p.kind)} for p in self.products]}}
               if "start" in self.job else {}),
            "totals": {"loads": loads[-1].last, "mix": num(self.V - self.V0, VOLUME, slack=10 * self.u * self.V), "carrier": carrier,
                       "area": num(self.V / self.on_field, AREA), "products": [self.total(p) for p in self.products],
                       **({"active_substances": sums} if (sums := self.substances()) else {})},
            "loads": [{"first": load.first, "last": load.last, "count": load.count, "mix": num(load.v, VOLUME, load.u),
                       **self.of_mix_doubt(load),
                       "carrier": num(load.carrier, VOLUME, slack=load.slack),
                       "area": num(load.v / self.on_field, AREA, load.u),
                       **({"run_out": self.run_out(load)} if self.calibrated or "passes" in self.job else {}),
                       "products": [self.part(load, a) for a in load.products],
                       "steps": self.steps(load) if go else Either([], None)} for load in loads],
            "ledger": self.ledger() if go else None,
            **self.field_list(),
        }

    def part(self, load, a):
        part = {"name": a.p.name, "exact": self.num(a.exact, a.p.kind, a.u)}
        if self.stopped:
            return {**part, **dict.fromkeys(("measured", "gap", "measure", "graduations", "fillings"))}
        return {**part, "measured": self.num(a.measured, a.p.kind), "gap": self.gap(a.p, a.exact, a.measured, a.u, load.v),
                **({"delivered": self.of_delivered(load, a)} if self.calibrated else {}),
                **({"emptied": {"count": e.count, "loads": e.loads}} if (e := load.emptied.get(a.p.i)) else {}),
                **self.of_doubt(a),
                "measure": a.m.name, "graduations": a.n, "fillings": self.fillings(a)}

    def of_doubt(self, a):
        u = uncertainty(a.m, a.n) if a.n else None
        if u is None:
            return {}
        about = Fraction(1, 10**11)
        return {"uncertainty": {"percent": Num(100 * u, None, 100 * u * about),
                                "amount": Num(u * a.measured, a.p.kind, (u + 1) * a.measured * about)}}

    def total(self, p):
        exactly, off = self.lacking(self.loads[0], p, p.c * self.V)
        per_area, share = (LIQUID_PER_AREA, BY_VOLUME) if p.kind == VOLUME else (DRY_PER_AREA, DENSITY)
        of = "L" if p.kind == VOLUME else "kg"
        doses = {"ground-area": (p.c * self.R, per_area), "mix-volume": (p.c, share)}
        for basis in ON_CROP:
            try:  # "the dose on every basis that the job says enough of"
                doses[basis] = p.c * self.R / self.stands(basis), None
            except NoAnswer:
                continue
        total = {"name": p.name, "exact": self.num(exactly, p.kind, off),
                 "doses": [{"basis": basis, "dose": self.num(size, kind) if kind else Si(size, 10 * self.u * size, of + ON_CROP[basis])}
                           for basis, (size, kind) in doses.items()]}
        if "season" in self.job and p.largest is not None:
            total["largest_dose"] = self.largest_dose(p)
        if self.stopped:
            return {**total, **dict.fromkeys(("measured", "gap", "drawn"))}
        drawn = {}  # "counted in whole graduations per measure, sum(count * n), in integers"
        for load in self.loads:
            m = load.products[p.i].m
            line = drawn.setdefault(m.i, {"measure": m.name, "graduation": self.num(m.g, m.kind), "count": 0})
            line["count"] += load.count * load.products[p.i].n
        return {**total, "measured": self.num(p.measured, p.kind), "gap": self.gap(p, exactly, p.measured, off, self.V),
                "drawn": list(drawn.values()), **({"containers": p.containers} if "containers" in p.given else {})}

    def rinsed_containers(self):
        rinsed = [p for p in self.products if "containers" in p.given and p.each]
        if not rinsed:
            return {}
        return {"container_rinses": self.num(sum(3 * p.containers["emptied"] * p.each for p in rinsed), VOLUME)}

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
        at_start = {"at_start": self.num(self.V0, VOLUME)} if "start" in self.job else {}
        return {"products": [line(p) for p in self.products],
                "carrier": {"drawn": whole(lambda l: l.carrier), "first": whole(lambda l: l.initial),
                            "premixed": whole(lambda l: l.premixed), "rinses": whole(lambda l: l.rinses),
                            "topped_up": whole(lambda l: l.top_up), **self.rinsed_containers()},
                "mix": {**at_start, "made": self.num(self.V - self.V0, VOLUME, slack=10 * self.u * self.V), "sprayed": sprayed,
                        "residual": self.num(residual, VOLUME)}}
