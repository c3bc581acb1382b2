"""Random jobs that seek the edges: python jobs.py COUNT SEED prints COUNT job documents as JSON lines.

Amounts on a graduation or half way between two, doses at their maximum, areas of whole loads, tiny and huge jobs, in
metric, US and imperial units. The same SEED gives the same jobs.
"""

from __future__ import annotations

import json
import random
import sys
from datetime import date, timedelta
from fractions import Fraction as F

from quantities import quantity

# Each form of a unit with how many of it make one base unit (ha, L, kg; or ac, gal, lb).
METRIC = dict(
    units="metric", water=F(1), density=[("kg/L", 1)],
    area=[("ha", 1), ("m2", 10000)], volume=[("L", 1), ("mL", 1000)], mass=[("kg", 1), ("g", 1000)],
    rate=[("L/ha", 1), ("L/ha", 1), ("L/100 m2", F(1, 100))],
    volume_per_area=[("L/ha", 1), ("mL/ha", 1000), ("mL/100 m2", 10)],
    mass_per_area=[("kg/ha", 1), ("g/ha", 1000), ("g/100 m2", 10)],
    volume_per_mix=[("% v/v", 100), ("mL/100 L", 100000), ("mL/L", 1000), ("mL/15 L", 15000), ("ppm v/v", 10**6)],
    mass_per_mix=[("g/L", 1000), ("g/100 L", 100000), ("% w/v", 100), ("g/15 L", 15000)],
    vessels=["10 mL/0.5 mL", "25 mL/1 mL", "100 mL/2 mL", "250 mL/5 mL", "500 mL/10 mL", "1 L/10 mL", "2 L/50 mL",
             "5 L/100 mL", "10 L/0.25 L"],
    scales=["200 g/0.1 g", "500 g/1 g", "5 kg/1 g", "5 kg/5 g", "30 kg/0.02 kg"],
    rates=[50, 80, 100, 150, 200, 300, 400, 600, 1000],
    tanks=([1, 2, 5, 8], [10, 12, 15, 16, 20], [200, 400, 600, 1000, 3000]))
US = dict(
    units="US", water=F("8.3"), density=[("lb/US gal", 1)],
    area=[("ac", 1), ("ft2", 43560)], volume=[("US gal", 1), ("US qt", 4), ("US fl oz", 128)],
    mass=[("lb", 1), ("oz av", 16)],
    rate=[("US gal/ac", 1), ("US gal/ac", 1), ("US gal/1000 ft2", F(1000, 43560))],
    volume_per_area=[("US fl oz/ac", 128), ("US pt/ac", 8), ("US qt/ac", 4), ("US fl oz/1000 ft2", F(128000, 43560))],
    mass_per_area=[("lb/ac", 1), ("oz av/ac", 16), ("oz av/1000 ft2", F(16000, 43560))],
    volume_per_mix=[("% v/v", 100), ("US fl oz/100 US gal", 12800), ("US pt/100 US gal", 800),
                    ("US fl oz/US gal", 128), ("US tbsp/US gal", 256)],
    mass_per_mix=[("lb/100 US gal", 100), ("oz av/US gal", 16), ("oz av/4 US gal", 64)],
    vessels=["1 US fl oz/1 US tsp", "4 US fl oz/0.25 US fl oz", "1 US pt/0.5 US fl oz", "1 US qt/1 US fl oz",
             "32 US fl oz/2 US tbsp", "1 US gal/4 US fl oz", "5 US gal/1 US pt"],
    scales=["8 oz av/0.01 oz av", "1 lb/0.05 oz av", "10 lb/0.5 oz av", "50 lb/1 oz av"],
    rates=[5, 8, 10, 15, 20, 30, 40, 100],
    tanks=([F(1, 4), F(1, 2), 1, 2], [3, 4, 5], [50, 100, 200, 300, 500]))
IMPERIAL = dict(
    units="imperial", water=F(10), density=[("lb/imp gal", 1)],
    area=US["area"], volume=[("imp gal", 1), ("imp pt", 8), ("imp fl oz", 160)], mass=US["mass"],
    rate=[("imp gal/ac", 1)],
    volume_per_area=[("imp pt/ac", 8), ("imp fl oz/ac", 160), ("imp qt/ac", 4)], mass_per_area=US["mass_per_area"],
    volume_per_mix=[("% v/v", 100), ("imp fl oz/imp gal", 160), ("imp pt/100 imp gal", 800)],
    mass_per_mix=[("lb/100 imp gal", 100), ("oz av/imp gal", 16)],
    vessels=["2 imp fl oz/0.1 imp fl oz", "10 imp fl oz/0.5 imp fl oz", "1 imp pt/0.5 imp fl oz",
             "1 imp qt/1 imp fl oz", "1 imp gal/5 imp fl oz"],
    scales=US["scales"], rates=[10, 15, 20, 30, 50, 100],
    tanks=([F(1, 4), F(1, 2), 1], [2, 3, 4], [50, 100, 200, 400]))
SIZES = {name: size for table in (METRIC, US, IMPERIAL) for key in ("volume", "mass") for name, size in table[key]}
SIZES.update({"US tsp": 768, "US tbsp": 256, "US pt": 8, "imp qt": 4})


def tidy(x: F, digits: int) -> str | None:
    """Decimal text of x where it ends within so many digits."""
    for places in range(0, 10):
        scaled = x * 10**places
        if scaled.denominator == 1 and (places or scaled < 10**15):
            text = f"{abs(scaled.numerator):0{places + 1}d}"
            text = f"{text[:-places]}.{text[-places:]}" if places else text
            return text if len(text.replace(".", "").strip("0")) <= digits else None
    return None


class Draw(random.Random):
    def chance(self, percent):
        return self.random() * 100 < percent

    def say(self, x, forms) -> str:
        """x (in base units) as text: exactly in one of the forms where that takes few digits, else rounded."""
        x, forms = F(x), self.sample(forms, len(forms))
        for name, size in forms:
            if text := tidy(x * size, 8):
                return f"{text} {name}"
        name, size = forms[0]
        number = f"{float(x * size):.3g}"
        return f"{tidy(F(number), 8) or number} {name}"

    def between(self, low, high, digits=3):
        return F(f"{self.uniform(float(low), float(high)):.{digits}g}")


def size_of(text: str) -> F:
    number, name = text.split(" ", 1)
    return F(number) / SIZES[name]


def small_vessels(s, N) -> list[str]:
    """Those whose rinses leave room in the tank."""
    return [v for v in s["vessels"] if size_of(v.split("/")[0]) <= N / 6] or s["vessels"][:1]


def scale_check(draw: Draw, N, g, s) -> dict:
    """Points up to the tank's nominal or not quite, on its marks or beside them; at times it begins to show above the bottom."""
    poured, read, points = F(0), F(0), []
    if draw.chance(15):
        poured = N * draw.choice([F(1, 50), F(1, 25)])
        points.append((poured, F(0)))
    for _ in range(draw.choice([1, 2, 3, 5])):
        step = draw.choice([g, 2 * g, N / 4, N / 2, N])
        poured += step
        read += step * draw.choice([1, F(24, 25), F(21, 20), F(9, 10), F(101, 100)])
        points.append((poured, read))
    return {"tolerance": draw.choice(["1 %", "2.5 %", 0.01, "0 %"]),
            "points": [{"poured": draw.say(P, s["volume"]), "read": draw.say(R, s["volume"])} for P, R in points]}


def job(draw: Draw) -> dict:
    s = METRIC if draw.chance(67) else draw.choice([US, IMPERIAL])
    tiny, huge = draw.chance(8), draw.chance(6)
    size = 0 if tiny else draw.choice([0, 1, 1, 1, 2, 2])
    kind = ["hand-held", "knapsack", draw.choice(["boom", "bush-and-tree", "semi-mobile"])][size]
    N = F(draw.choice(s["tanks"][size]))
    R = F(draw.choice(s["rates"]))
    out = {"format": "mixcalc-job/1"}
    if draw.chance(30):
        out["units"] = s["units"]

    # The tank: mostly one that fills to N exactly, so that the edges aimed at below are met.
    g = None
    if draw.chance(45):
        g = N * draw.choice([F(1, n) for n in (20, 16, 16, 10, 10, 5, 4, 2, 1)] + [F(3, 10), F(7, 100)])
    tank = draw.choices([
        {"nominal": N, "brim": N * F(6, 5)},
        {"nominal": N, "brim": N * draw.choice([F(21, 20), F(104, 100), F(11, 10), F(1)])},
        {"nominal": N}, {"brim": N},
        {"nominal": N, "headspace": draw.choice(["0 %", "2 %", "5 %", "12.5 %", 0.1])},
        {"nominal": N, "brim": N * F(10, 9), "headspace": draw.choice(["3 %", "5 %", "10 %", 0.04])},
    ], [60, 10, 8, 8, 6, 8])[0]
    tank = {key: item if key == "headspace" else draw.say(item, s["volume"]) for key, item in tank.items()}
    if g:
        tank["graduation"] = draw.say(g, s["volume"])
    if g and draw.chance(20):  # 23. The tank's own scale
        tank["scale_check"] = scale_check(draw, N, g, s)
    if draw.chance(35):
        tank["least_working_volume"] = draw.say(draw.choice([N / 10, N / 5, N / 4, N / 2]), s["volume"])
    sprayer = {"kind": kind}
    dense = draw.chance(40)
    if dense:
        out["mix_density"] = draw.say(s["water"] * draw.choice([1, 1, F(51, 50), F(11, 10)]), s["density"])
    if dense and draw.chance(40):
        empty = s["water"] * N * draw.between(0.2, 0.5, 2)
        sprayer["empty_mass"] = draw.say(empty, s["mass"])
        load = s["water"] * N * draw.choice([F(3, 4), F(9, 10), 1, F(5, 4)])
        sprayer["carried_mass_limit"] = draw.say(empty + load, s["mass"])
    residual = F(0)
    if draw.chance(30):
        residual = N * draw.choice([F(1, 100), F(1, 50), F(1, 40), F(1, 20)])
        sprayer["residual"] = {"dilutable": draw.say(residual, s["volume"])}
        if draw.chance(50):
            sprayer["residual"]["non_dilutable"] = draw.say(residual / 4, s["volume"])

    # The ground: whole loads, a little more or less, or anything; from some square metres to 1e10 loads.
    many = [10**4, 10**5, 10**6, 10**8, 10**9, 10**10, 3 * 10**10, 99999999999, 10**11 + 1]
    n = draw.choice(many if huge else [1, 1, 2, 3, 5, 8, 12, 40])
    part = draw.choice([0, 0, F(1, 10), F(1, 5), F(1, 4), F(1, 2), F(3, 4), F(9, 10), draw.between(0.01, 1)])
    loads = draw.choice([F(1, 10), F(1, 4), F(1, 2), draw.between(0.05, 1)]) if tiny else F(n - 1 + part or n)
    out["area"] = draw.say(loads * N / R, s["area"])
    out["carrier_rate" if draw.chance(20) else "volume_rate"] = draw.say(R, s["rate"])
    loading = {}
    if draw.chance(80):
        loading["split"] = draw.choice(["even", "full-then-part", "full-then-part"])
    if draw.chance(30):
        share = draw.choices([F(1, 20), F(1, 50), F(1, 10), F(1, 5), F(1)], [40, 30, 16, 12, 1.5])[0]
        loading["last_strip"] = draw.choice([{"area": draw.say(loads * N / R * share, s["area"])},
                                             {"volume": draw.say(loads * N * share, s["volume"])}])
    if draw.chance(10):
        loading["max_fillings"] = draw.choice([1, 3, 5])

    # What amounts are measured with: vessels and scales that go with the tank.
    fitting = small_vessels(s, N)
    measures = [("vessel", v) for v in draw.sample(fitting, min(len(fitting), draw.choice([1, 2, 3])))]
    if draw.chance(60):
        measures += [("scale", v) for v in draw.sample(s["scales"], draw.choice([1, 1, 2]))]
    draw.shuffle(measures)
    out["measures"] = []
    for i, (sort, text) in enumerate(measures):
        capacity, graduation = text.split("/")
        name = f"{sort} {i + 1}"
        out["measures"].append(accurate(draw, {"kind": sort, "name": name, "capacity": capacity, "graduation": graduation}))
    count = draw.choices([0, 1, 2, 3, 4], [4, 40, 30, 18, 8])[0]
    fill = draw.chance(2)
    products = [product(draw, s, i, N, R, loads, measures, dense, count, fill) for i in range(count)]
    if products and draw.chance(40):
        limits(draw, s, products)
        if draw.chance(90):
            out["season"] = season(draw, s, products)
    out = {**out, "sprayer": sprayer, "tank": tank, **({"loading": loading} if loading else {}), "products": products}
    for p in products:
        least_dose(draw, s, p, R)
    mixing(draw, s, out, N)
    containers(draw, s, products)
    field_list(draw, s, out)
    water(draw, s, out)
    return out


def accurate(draw, measure):
    """The measure with how far it may be off, or without."""
    if draw.chance(45):
        return measure
    kind, graduation = measure["kind"], measure["graduation"]
    small = kind == "vessel" and quantity(measure["capacity"])[0] <= F(2, 1000)
    if kind == "pack" or draw.chance(30):
        number, name = graduation.split(" ", 1)
        measure["tolerance"] = draw.choice(["2 %", "0.5 %", "8 %", f"{tidy(F(number) / 2, 12) or number} {name}"])
    elif kind == "scale":
        measure["class"] = "scale"
    else:
        cylinders = ["cylinder-a", "cylinder-b", "cylinder-b", "plastic-cylinder", "syringe"] if small else []
        measure["class"] = draw.choice([*cylinders, "flask", "jug", "unchecked-jug", "cup", "cap", "powder-cup"])
    return measure


ROLES = ["water-conditioner", "buffer", "anti-foam", "compatibility-agent", "surfactant", "oil", "drift-agent",
         "foliar-nutrient", "product"]
PROFILES = ["suggested", "manitoba", "south-dakota", "wales", "utah", "seed-trade"]


def least_dose(draw, s, p, R):
    """A least dose per area beside one per volume of mix: equal to it, a little or far from it."""
    number, name = p["dose"].split(" ", 1)
    sizes = {**{n: ("volume", size) for n, size in s["volume_per_mix"]}, **{n: ("mass", size) for n, size in s["mass_per_mix"]}}
    if p.get("basis") != "carrier-volume" and name in sizes and draw.chance(30):
        what, size = sizes[name]
        least = F(number) / size * R * draw.choice([F(1, 2), 1, F(11, 10), F(9, 10), 2])
        p["at_least"] = draw.say(least, s[f"{what}_per_area"])


def water(draw, s, out):
    """A water analysis, labels that ask for ammonium sulfate, and products that hold some."""
    if draw.chance(20):
        ions = {"calcium": [20, 40, 100, 160], "magnesium": [5, 30], "sodium": [10, 100], "potassium": [2], "iron": [F(1, 10), 3]}
        out["water"] = {ion: f"{tidy(F(draw.choice(sizes)), 6)} mg/L" for ion, sizes in ions.items() if draw.chance(70)}
    for p in out["products"]:
        if draw.chance(15):
            p.setdefault("label", {})["ammonium_sulfate"] = draw.choice(["0 g/L", "1 g/L", "10 g/L", "2 % w/v"])
        if draw.chance(15) and "active_substances" not in p:
            p["active_substances"] = [{"name": "ammonium sulfate", "content": draw.choice(["40 % w/w", "340 g/L", "1000 g/kg"])}]


def field_list(draw, s, out):
    """Everything to take along, and what labels ask to be worn."""
    if draw.chance(25):
        sizes = {key: draw.say(F(draw.choice([0, 5, 20, 200])), s["volume"]) for key in ("hands", "eyes", "tank_rinse") if draw.chance(35)}
        out["field_list"] = sizes
    for p in out["products"]:
        if draw.chance(15):
            worn = ["gloves", "face shield", "dust mask", "apron, boots"]
            kinds = {when: draw.sample(worn, draw.choice([0, 1, 2])) for when in ("mixing", "spraying") if draw.chance(80)}
            p.setdefault("label", {})["protection"] = kinds


def containers(draw, s, products):
    """What some products are sold in, near enough to what is drawn that several are emptied, or none."""
    for p in products:
        if draw.chance(65) or "stock" in p:
            continue
        by_mass = any(mark in p["dose"].split(" ", 1)[1].split("/")[0] for mark in ("g", "lb", "oz av", "w")) and "gal" not in p["dose"].split("/")[0]
        number = draw.choice([F(1, 4), F(1, 2), 1, 2, 5, 10, 20])
        unit = s["mass" if by_mass else "volume"][0]
        box = {"content": draw.say(number, [unit])}
        if draw.chance(60):
            box["full"] = draw.choice([0, 1, 2, 5, 100])
        if draw.chance(50):
            box["part"] = draw.say(number * draw.choice([0, F(1, 2), F(1, 5), F(99, 100)]), [unit])
        if draw.chance(30) and not ({"full", "part"} & set(box) and "stock" in p):
            box["rinse"] = False
        p["containers"] = box


def mixing(draw, s, out, N):
    """A mixing order, and labels that have a word in it."""
    products = out["products"]
    for p in products:
        if draw.chance(8):
            p.setdefault("label", {})["wait"] = draw.choice(["2 min", "90 s", "0.25 h"])
    if not draw.chance(40):
        return
    out["mixing"] = draw.choice([{}, *({"profile": profile} for profile in PROFILES * 2)])
    if draw.chance(30):
        out["mixing"]["jar_test"] = draw.say(N / draw.choice([16, 20, 50]), s["volume"])
    liquids = ["CS", "EW", "ME", "SE", "EC", "SL", "OD", "SC"]
    for p in products:
        if p.get("formulation") in liquids and draw.chance(50):
            p["formulation"] = draw.choice(liquids)
        if draw.chance(97 if "formulation" not in p else 20):
            p["role"] = draw.choice(ROLES)
    names = [p["name"] for p in products]
    for p in products:
        if draw.chance(20):
            order = {}
            if draw.chance(50):
                order["step"] = draw.choice(["first", "last"])
            for key in ("before", "after"):
                if draw.chance(40):
                    order[key] = [draw.choice([n for n in names if n != p["name"]] or ["example product Q"])]
            p.setdefault("label", {})["order"] = order
    draw.shuffle(products)


def product(draw, s, i, N, R, loads, measures, dense, count, fill) -> dict:
    dry = draw.chance(35) and not fill
    by_mass = dry or draw.chance(12)
    p = {"name": f"example product {'ABCD'[i]}"}
    if draw.chance(85) or dry:
        p["formulation"] = draw.choice(["WG", "WP", "SG", "SP"] if dry else ["SC", "EC", "SL", "OD"])
    heavy = s["water"]
    vessels, scales = ([m for m in measures if m[0] == sort] for sort in ("vessel", "scale"))
    if dry:
        if draw.chance(60):
            p["particle_density"] = draw.say(heavy * draw.choice([F(7, 5), F(8, 5), 2]), s["density"])
        bulk = draw.choice([F(1, 2), F(2, 5), F(3, 5)])
        if (not scales or draw.chance(50)) and draw.chance(98):  # else there may be no measure that can serve
            p["bulk_density"] = draw.say(heavy * bulk, s["density"])
    elif by_mass or draw.chance(40):
        p["density"] = draw.say(heavy * draw.choice([F(11, 10), F(5, 4), F(19, 20)]), s["density"])
    own = None
    if draw.chance(25):
        if dry and draw.chance(60):
            content = heavy * N * draw.choice([F(1, 1000), F(1, 500), F(1, 2000)])
            own = accurate(draw, {"kind": "pack", "graduation": draw.say(content, s["mass"])})
        else:
            sort = "scale" if by_mass and draw.chance(90) else "vessel"
            capacity, graduation = draw.choice(s["scales"] if sort == "scale" else small_vessels(s, N)).split("/")
            own = accurate(draw, {"kind": sort, "name": f"own {sort} {i + 1}", "capacity": capacity, "graduation": graduation})
        p["measure"] = own

    # The amount in a full load: on a mark, half way between two, below the first, or anything that suits a measure.
    served = own or draw.choice([dict(zip(("kind", "capacity", "graduation"), (sort, *text.split("/"))))
                                 for sort, text in ((scales or measures) if by_mass else vessels)])
    step = size_of(served["graduation"])
    if by_mass and served["kind"] == "vessel":
        step *= heavy * (F(1, 2) if dry else 1)
    most = size_of(served["capacity"]) / size_of(served["graduation"]) if "capacity" in served else 6
    most = min(most * 2, N * (heavy if by_mass else 1) / step / (4 * count)) if draw.chance(95) else most * 4
    whole = draw.randint(1, max(1, int(most)))
    aim = draw.choices(["mark", "half", "any", "below"], [40, 14, 43, 3])[0]
    between = draw.between(max(1, whole * 0.7), max(1.2, whole))
    amount = step * {"mark": whole, "half": whole + F(1, 2), "any": between, "below": F(2, 5)}[aim]
    share = amount / N
    if fill:
        share = draw.choice([F(3, 10), F(1, 2), F(99, 100), F(98, 100)]) / (1 if count == 1 else 2)
    what = "mass" if by_mass else "volume"
    by_weight = 16 if by_mass and dense and aim == "any" else 0
    basis = draw.choices(["area", "mix", "carrier", "w/w"], [55, 25, 12, by_weight])[0]
    if basis == "area":
        forms, x = s[f"{what}_per_area"], share * R
    elif basis == "w/w":
        forms, x = [("% w/w", 100), ("ppm w/w", 10**6)], share / heavy
    else:
        forms, x = s[f"{what}_per_mix"], share
        if draw.chance(30):  # per tankful
            name, parts = draw.choice(s[what])
            bare = tidy(N, 6)
            forms = [(f"{name}/{bare} {s['volume'][0][0]}", parts * N)]
    p["dose"] = draw.say(x, forms)
    if basis == "carrier":
        p["basis"] = "carrier-volume"
    elif draw.chance(15):
        p["basis"] = "ground-area" if basis == "area" else "mix-volume"
    label = {}
    limit = draw.choices(["none", "same", "more", "less"], [31, 34, 32, 3])[0]
    other = draw.choice([b for b in ("area", "mix", "carrier") if b != ("mix" if basis == "w/w" else basis)])
    if limit in ("same", "more") and draw.chance(25):  # counted on something else than the dose
        allowed = share * draw.choice([F(1), F(101, 100), F(51, 50), F(21, 20), F(5, 4)])
        per_area = other == "area"
        label["max_dose"] = draw.say(allowed * (R if per_area else 1), s[f"{what}_per_{'area' if per_area else 'mix'}"])
        label["max_dose_basis"] = {"area": "ground-area", "mix": "mix-volume", "carrier": "carrier-volume"}[other]
    elif limit == "same":
        label["max_dose"] = p["dose"]
    elif limit != "none":
        number, name = p["dose"].split(" ", 1)
        factor = draw.choice([F(11, 10), F(5, 4), F(3, 2), F(101, 100)]) if limit == "more" else F(9, 10)
        label["max_dose"] = draw.say(F(number) * factor, [(name, 1)])
    if draw.chance(14):
        number, name = p["dose"].split(" ", 1)
        factor = draw.choices([F(1, 2), F(9, 10), F(1), F(101, 100), F(2)], [30, 20, 30, 10, 10])[0]
        label["min_dose"] = draw.say(F(number) * factor, [(name, 1)])
    elif draw.chance(8):  # counted on something else than the dose
        allowed = share * draw.choice([F(1, 2), F(1), F(101, 100)])
        per_area = other == "area"
        label["min_dose"] = draw.say(allowed * (R if per_area else 1), s[f"{what}_per_{'area' if per_area else 'mix'}"])
        label["min_dose_basis"] = {"area": "ground-area", "mix": "mix-volume", "carrier": "carrier-volume"}[other]
    if draw.chance(14):
        label["first_carrier"] = draw.choice([0.25, 0.5, 0.6, 0.75, 0.9])
    if draw.chance(12):
        share_of_rate = draw.choice([F(1, 3), F(1, 2), F(2, 3), F(3, 4), F(4, 5), 1, F(5, 4)])
        label["min_volume_rate"] = draw.say(R * share_of_rate, s["rate"])
    if draw.chance(12):
        label["max_volume_rate"] = draw.say(R * draw.choice([2, F(3, 2), F(5, 4), 3, 1, F(6, 5), F(4, 5)]), s["rate"])
    if label:
        p["label"] = label
    if draw.chance(30):
        p["active_substances"] = substances(draw, s, by_mass)
    if draw.chance(25):
        p["stock"] = draw.say(share * loads * N * draw.choice([F(1, 2), 1, F(11, 10), 3]) + step, s[what])
    if draw.chance(10):
        p["viscous"] = True
    return p


def system_of(job) -> str:
    """Whose measures a job is stated in."""
    rate = job.get("volume_rate", job.get("carrier_rate", ""))
    return "US" if "US" in rate else "imperial" if "imp" in rate else "metric"


def may_be_refused(job) -> bool:
    """Whether a label's least dose is above its largest, or may be. A job with two mistakes could be refused for either."""
    labels = [label for product in job["products"] if {"min_dose", "max_dose"} <= set(label := product.get("label", {}))]
    return any("min_dose_basis" in label or quantity(label["min_dose"])[0] > quantity(label["max_dose"])[0] for label in labels)


def on_crop(draw, s, job):
    """The job once more, its doses and its rate counted on a crop, and its ground by parts."""
    square = {name: F(size) for name, size in s["area"]}
    area = F(job["area"].split(" ", 1)[0]) / square[job["area"].split(" ", 1)[1]]  # ha or ac
    metric = s is METRIC
    side = 100 if metric else F(2087103, 10000)  # of a hectare in m; about that of an acre in ft
    length, small = ("m", 1) if metric else ("ft", F(10, 3))
    lengths = {key: size * small for key, size in (
        ("row_spacing", draw.between(1.5, 4, 2)), ("plant_spacing", draw.between(0.5, 3, 2)),
        ("canopy_height", draw.between(0.8, 3.5, 2)), ("canopy_width", draw.between(0.4, 2, 2)),
        ("band_width", draw.between(0.2, 1.2, 2)))}
    crop = {key: f"{tidy(size, 12) or float(size)} {length}" for key, size in lengths.items()}
    lengths = {key: F(text.split(" ")[0]) for key, text in crop.items()}
    sides, rows = draw.choice(["one", "both", "both"]), draw.choice([None, "every", "alternate"])
    crop["treated_sides"] = sides
    if rows:
        crop["treated_rows"] = rows
    w = lengths["row_spacing"] * (2 if rows == "alternate" else 1)
    n = 1 if sides == "one" else 2
    if draw.chance(20):  # leave a length out: some doses then have no answer
        crop.pop(draw.choice(["band_width", "canopy_width", "plant_spacing"]))
    if draw.chance(30):
        crop["spots"], crop["spot_area"] = draw.randint(1, 10**4), draw.say(area / 20000, s["area"])
        if draw.chance(95):
            crop.pop("band_width", None)
    if draw.chance(20) and "plant_spacing" in crop:
        del crop["plant_spacing"]
        crop["plants"] = draw.randint(10, 10**5)
    unit = {"ha": "m3", "ac": "ft3"}[s["area"][0][0]]
    # Of each basis: its size per ha or ac of ground in units of the text, and how the text ends.
    h, width = lengths["canopy_height"], lengths["canopy_width"]
    bases = {"leaf-wall-area": (n * h / w, s["area"][0][0]), "crown-height": (
                 h * F(n, 2) / (2 if rows == "alternate" else 1), f"{s['area'][0][0]}/{length}"),
             "tree-row-volume": (h * width / w * F(n, 2) * side * side / 10000, f"10000 {unit}"),
             "row-length": (side * side / w / 100, f"100 {length}"), "treated-area": (F(1, 3), s["area"][0][0]),
             "plant": (side * side / w / lengths["plant_spacing"], None), "spot": (1000 / (area or 1), None)}
    named = {"crown-height", "tree-row-volume", "row-length"}

    def restated(text, sort):
        number, name = text.split(" ", 1)
        above = next((name[:-len(end)] for end in ("/ha", "/ac") if name.endswith(end)), None)
        if above is None:
            return None
        basis = draw.choice(list(bases)) if sort is None else sort
        size, end = bases[basis]
        x = float(F(number) / size)
        if not 1e-6 < x < 1e9:
            return None
        amount = f"{x:.4g}"
        return basis, f"{tidy(F(amount), 12) or amount} {above}" + (f"/{end}" if end else "")

    if draw.chance(35):
        key = "volume_rate" if "volume_rate" in job else "carrier_rate"
        if said := restated(job[key], draw.choice(["leaf-wall-area", "row-length", "treated-area", "plant", "crown-height"])):
            job[key] = said[1]
            if said[0] not in named or draw.chance(50):
                job["rate_basis"] = said[0]
    for product in job["products"]:
        if product.get("basis", "ground-area") != "ground-area" or draw.chance(30):
            continue
        label, same = product.get("label", {}), None
        if label.get("max_dose_basis", "ground-area") == "ground-area" and "max_dose" in label:
            same = label["max_dose"]
        if not (said := restated(product["dose"], None)):
            continue
        if "min_dose" in label and label.get("min_dose_basis", "ground-area") == "ground-area":
            if (least := restated(label["min_dose"], said[0])) and draw.chance(60):
                label["min_dose"], label["min_dose_basis"] = least[1], said[0]
            else:
                label["min_dose_basis"] = "ground-area"
        if same and draw.chance(60) and (most := restated(same, said[0])):
            label["max_dose"], label["max_dose_basis"] = most[1], said[0]
        elif same:
            label["max_dose_basis"] = "ground-area"
        product["dose"] = said[1]
        product.pop("basis", None)
        if said[0] not in named or draw.chance(50):
            product["basis"] = said[0]
        if same and draw.chance(30):
            number, name = same.split(" ", 1)
            label["max_ground_dose"] = draw.say(F(number) * draw.choice([1, F(3, 2), F(9, 10), 3]), [(name, 1)])
    for product in job["products"]:
        if product.get("basis") == "mix-volume" and draw.chance(40) and "w/w" not in product["dose"]:
            product.setdefault("label", {})["tank"] = {"mix": draw.say(F(15), s["volume"]),
                                                       "area": draw.say(F(1, 20), s["area"])}
    job["crop"] = crop
    if draw.chance(60):
        ground = {"area": job.pop("area")}
        if draw.chance(30):
            across = tidy(F(f"{float(area * side * side / (100 * small)):.5g}"), 14)
            if across and F(across) > 0:
                ground = {"length": f"{tidy(F(100 * small), 12) or float(100 * small)} {length}", "width": f"{across} {length}"}
        if draw.chance(60):
            ground["buffers"] = [{"area": draw.say(area * draw.choice([F(1, 50), F(1, 10)]), s["area"])}]
            if draw.chance(50):
                ground["buffers"].append({"keeps_from": "ditch", "width": f"5 {length}", "along": f"{draw.randint(1, 20)} {length}",
                                          "edge_distance": f"{draw.choice([1, 2, 7])} {length}"})
        if draw.chance(50):
            ground["overlap"] = draw.choice([{"share": "5 %"}, {"share": 0.02},
                                             {"width": f"0.5 {length}", "swath": f"12 {length}"}])
        if list(ground) == ["area"]:
            job["area"] = ground["area"]
        else:
            job["ground"] = ground
    return job


PER_AREA = {name for table in (METRIC, US, IMPERIAL) for key in ("volume_per_area", "mass_per_area") for name, _ in table[key]}


def per_area(draw, s, p):
    """A dose per ground area of the size of the product's, and its forms."""
    number, name = p["dose"].split(" ", 1)
    if name in PER_AREA:
        return F(number), [(name, 1)]
    by_mass = any(name.startswith(f"{mass}/") for mass in ("g", "kg", "lb", "oz av")) or "w/" in name
    return F(draw.choice([1, 2, 4])), [s["mass_per_area" if by_mass else "volume_per_area"][0]]


def a_day(draw, first, last) -> str:
    return str(date(first, 1, 1) + timedelta(draw.randrange((date(last + 1, 1, 1) - date(first, 1, 1)).days)))


def limits(draw, s, products):
    """What labels limit over time, near enough to what is planned to bind now and then."""
    for p in products:
        label = p.setdefault("label", {})
        if draw.chance(25):
            label["max_treatments"] = {"value": draw.choice([1, 2, 3, 8])}
        if draw.chance(25):
            label["min_interval"] = {"value": f"{draw.choice([7, 14, 30, 400])} d"}
        if draw.chance(20):
            label["waiting_period"] = {"value": f"{draw.choice([7, 21, 60])} d", "force": "law"}
        if draw.chance(15):
            label[draw.choice(["min", "max"]) + "_growth_stage"] = {"value": draw.choice([10, 31, 59])}
        if draw.chance(15):
            label["max_wind"] = {"value": "15 km/h", "height": "2 m"}
        if draw.chance(10):
            label["re_entry"] = {"value": "24 h"}
        for _ in range(draw.choice([0, 0, 1, 1, 2])):
            over = draw.choice([{"season": True}, {"days": 365}, {"months": 6}, {"years": 1}, {"years": 7}])
            cap = {"over": over, **({"on": "treated-area"} if draw.chance(20) else {})}
            if p.get("active_substances") and draw.chance(60):
                one = draw.choice(p["active_substances"])
                cap["substance"] = one.get("equivalent", one)["name"]
                cap["value"] = draw.say(F(draw.choice([1, 3, 10, 100, 10000]), 10), s["mass_per_area"][:2])
            else:
                x, forms = per_area(draw, s, p)
                cap["value"] = draw.say(x * draw.choice([1, F(11, 10), 2, F(5, 2), 4, 8]), forms)
            label.setdefault("caps", []).append(cap)
        if not label:
            del p["label"]


def season(draw, s, products) -> dict:
    """Some years of treatments, most of the plan's products, on parcels or not."""
    out = {}
    if draw.chance(93):
        out["date"] = draw.choice([a_day(draw, 2026, 2028), "2028-02-29", "2027-05-31"])
        out["season_start"] = f"{int(out['date'][:4]) - draw.choice([0, 1])}-01-01"
        if draw.chance(70):
            out["harvest"] = str(date(*map(int, out["date"].split("-"))) + timedelta(draw.choice([0, 7, 20, 21, 60, 90])))
    if draw.chance(70):
        out["growth_stage"] = draw.choice([5, 10, 31, 59, 65])
    names = draw.choice([[], [], ["North"], ["North", "South"]])
    if names:
        out["parcels"] = [{"name": name} for name in names]
    edges = ["2021-02-28", "2021-03-01", "2020-05-31", "2020-06-01"]
    treatments = []
    for _ in range(draw.choice([0, 1, 2, 3, 6])):
        t = {"date": draw.choice(edges) if draw.chance(15) else a_day(draw, *draw.choice([(2020, 2028), (2026, 2028)]))}
        p = draw.choice(products)
        if draw.chance(75):
            x, forms = per_area(draw, s, p)
            t.update(product=p["name"], dose=draw.say(x * draw.choice([F(1, 2), F(1, 2), 1, 1, 2]), forms))
        else:
            name = draw.choice(["example acid", "example acid", "example salt", "another substance"])
            t["substances"] = [{"name": name, "dose": draw.say(F(draw.choice([1, 5, 20]), 10), s["mass_per_area"][:2])}]
        if names and draw.chance(60):
            t["parcel"] = draw.choice(names)
        if draw.chance(20):
            t["treated_share"] = draw.choice([0.25, 0.3, "50 %"])
        treatments.append(t)
    if treatments:
        out["treatments"] = treatments
    return out


def substances(draw, s, by_mass) -> list:
    """Some of three, two of which may be counted as one acid; content per volume or per mass."""
    found = []
    for name in draw.sample(["example acid", "example salt", "example oil"], draw.choice([1, 1, 2])):
        per_mass = draw.chance(80 if by_mass else 15)
        share = F(draw.choice([25, 40, 50, 75, 100, 125, 250, 360, 480, 500, 750]), 1000)
        forms = [("g/kg", 1000), ("% w/w", 100)] if per_mass else [("g/L", 1000), ("% w/v", 100)]
        one = {"name": name, "content": draw.say(share, forms)}
        if name == "example salt":
            one["equivalent"] = {"name": "example acid", "factor": draw.choice([0.741, 0.75, 0.5])}
        found.append(one)
    return found


def calibrated(draw, made):
    """The job with a calibration in place of its volume rate, which it comes to again."""
    number, unit = made["volume_rate"].split(" ", 1)
    if unit != "L/ha" or "rate_basis" in made:
        return made
    rate = F(number)

    def text(x):
        return f"{float(x)!r}" if x < 10**15 else str(x)

    def doubtful(x, name, spread=True):
        readings = f"{text(x)} {name}"
        if spread and draw.chance(50):
            step = x * draw.choice([F(1, 100), F(1, 50), F(1, 10)])
            readings = [f"{text(of)} {name}" for of in draw.choice([(x - step, x, x + step), (x - step, x + step, x, x, x)])]
        table = {"measured": readings}
        if draw.chance(50):
            table["tolerance"] = draw.choice(["1 %", "2.5 %", f"{text(x / 50)} {name}"])
        if draw.chance(30):
            table["resolution"] = f"{text(x / 100)} {name}"
        return table if len(table) > 1 or draw.chance(50) else readings
    way = draw.choice(["refill", "flow", "timed-course", "emptied-tank", "alleys", "band"])
    record = {"method": way}
    if way == "refill":
        record |= {"refill": doubtful(rate, "L"), "area": "1 ha"}
    elif way == "emptied-tank":
        record |= {"filled": doubtful(rate + 1, "L"), "residual": doubtful(F(1), "L", False), "area": doubtful(F(1), "ha", False)}
    elif way == "timed-course":  # 60 s over 100 m x 1 m
        record |= {"catch": doubtful(rate / 100, "L"), "course": "100 m", "swath": doubtful(F(1), "m", False),
                   "catch_time": {"measured": "60 s", "instrument": "stopwatch"}, "course_time": {"measured": "1 min", "instrument": "stopwatch"},
                   "instruments": [{"name": "stopwatch", "tolerance": draw.choice([0.01, "2 %"])}]}
    elif way == "alleys":
        record |= {"flow": doubtful(rate / 100, "L/min"), "speed": "6 km/h", "row_spacing": "2 m", "alleys": "each-twice"}
    elif way == "band":
        record |= {"catch": doubtful(rate / 100, "L"), "catch_time": "60 s", "speed": doubtful(F(6), "km/h"), "band": "0.4 m", "row_spacing": "1 m"}
    else:
        record |= {"flow": doubtful(rate / 100, "L/min"), "course": "100 m", "course_time": doubtful(F(60), "s"), "swath": "100 cm"}
    if draw.chance(30):
        record["risk"] = draw.choice(["5 %", 0.01, "20 %"])
    if draw.chance(20):
        record["coverage"] = draw.choice([0.99, "90 %"])
    if draw.chance(40):
        setting = {"sprayer": "one", "operator": "A", "nozzles": "03", "pressure": "2 bar", "ground": "level", "date": "2026-05-01"}
        if draw.chance(80):
            record["setting"] = setting
        if draw.chance(80):
            record["use_in"] = {**setting, **draw.choice([{}, {"operator": "B"}, {"date": "2026-06-01"}, {"pressure": "200 kPa"}, {"nozzles": "04"}])}
        if draw.chance(50):
            record["oldest"] = draw.choice(["14 d", "31 d"])
    made = {key: item for key, item in made.items() if key != "volume_rate"} | {"calibration": record}
    return made


def start(draw, job):
    """What the tank holds before the first load: some part of it, of water, of this mix as planned or with stated amounts, of another."""
    tank = job["tank"]
    number, name = (tank.get("nominal") or tank["brim"]).split(" ", 1)
    volume = F(number) * draw.choice([F(1, 20), F(1, 10), F(1, 4), F(1, 2), F(3, 4), F(9, 10)])
    holds = draw.choice(["water", "this-mix", "this-mix", "this-mix", "this-mix", "another-mix"] if draw.chance(20) else ["water", "this-mix"])
    made = {"holds": holds, "volume": f"{tidy(volume, 9) or f'{float(volume):.4g}'} {name}"}
    if holds == "this-mix" and draw.chance(50):
        doses = [p for p in job.get("products", []) if "dose" in p and draw.chance(70)]
        units = {p["name"]: p["dose"].split(" ", 1)[1].split("/")[0] for p in doses if isinstance(p["dose"], str) and "/" in p["dose"]}
        made["products"] = [{"name": product, "amount": f"{draw.choice(['0', '0.01', '0.1', '1'])} {unit}"} for product, unit in units.items() if unit in SIZES]
    return made


if __name__ == "__main__":
    count, seed = sys.argv[1:]
    for i in range(int(count)):
        draw = Draw(f"{seed}:{i}")
        made = job(draw)
        systems = {"metric": METRIC, "US": US, "imperial": IMPERIAL}
        if draw.chance(25) and not may_be_refused(made):
            made = on_crop(draw, systems[made.get("units") or system_of(made)], made)
        if draw.chance(15) and "volume_rate" in made and not may_be_refused(made):
            made = calibrated(draw, made)
        if draw.chance(10):
            made["passes"] = {"swath": "12 m"} | draw.choice([{}, {"length": "250 m"}])
        if draw.chance(8):
            made["start"] = start(draw, made)
        print(json.dumps(made))
