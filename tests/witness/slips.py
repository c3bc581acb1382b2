"""Section 12 of docs/numbers.md once more: the table of confusions, and the score."""

from __future__ import annotations

from fractions import Fraction as F

from quantities import AREA, BY_MASS, NoAnswer, named_basis, over, quantity, unit, value

LITRE_OF_WATER = 1000  # kg/L in SI


def rows():
    """Sort, meant, stated, kind of f, w, in the order of the page."""
    def both(sort, meant, stated, kind, w):
        return [(sort, meant, stated, kind, w), (sort, stated, meant, kind, w)]
    table = []
    for sort in ("liquid dose", "solid dose"):
        table += both(sort, "per ac", "per ha", "basis", 20) + both(sort, "per 100 L", "per ha", "basis", 20)
        table += both(sort, "per 100 US gal", "per ac", "basis", 10) + both(sort, "per 100 imp gal", "per ac", "basis", 5)
        table += [(sort, "per tank", "per ha", "basis", 10), (sort, "per tank", "per 100 L", "basis", 10)]
        table += both(sort, "per ha of leaf wall", "per ha", "basis", 10)
        table += both(sort, "per ha of treated ground", "per ha", "basis", 10)
        if sort == "liquid dose":
            for meant, stated, w in (("mL", "L", 20), ("cL", "L", 5), ("mL", "cL", 5), ("US gal", "imp gal", 10),
                                     ("US fl oz", "imp fl oz", 10), ("US fl oz", "US pt", 10), ("US tsp", "US tbsp", 5)):
                table += both(sort, meant, stated, "units", w)
        else:
            for meant, stated, w in (("g", "kg", 20), ("lb", "kg", 10), ("oz av", "lb", 10)):
                table += both(sort, meant, stated, "units", w)
        table += [(sort, "active substance", "product", "1 / content", 10),
                  (sort, "product", "active substance", "content", 10),
                  (sort, "salt", "acid equivalent", 1 / F("1.35"), 5), (sort, "acid equivalent", "salt", F("1.35"), 5)]
    table += [("solid dose", "copper", "copper sulfate", F("3.93"), 5),
              ("solid dose", "copper sulfate", "copper", 1 / F("3.93"), 5)]
    for meant, stated, w in (("L/ac", "L/ha", 20), ("US gal/ac", "imp gal/ac", 20), ("US gal/ac", "L/ha", 10),
                             ("imp gal/ac", "L/ha", 10), ("L/1000 m2", "L/ha", 5), ("L/100 m2", "L/ha", 5)):
        table += both("volume rate", meant, stated, "units", w)
    table += [("volume rate", "both sides", "one side", F(2), 5), ("volume rate", "one side", "both sides", F(1, 2), 5)]
    table += both("volume", "mL", "L", "units", 20) + both("volume", "L", "US gal", "units", 10)
    table += both("volume", "L", "imp gal", "units", 10) + [("volume", "US gal", "imp gal", "units", 10)]
    table += both("mass", "g", "kg", "units", 20)
    table += both("density", "g/L", "kg/L", "units", 20) + both("density", "lb/US gal", "kg/L", "units", 10)
    return table + both("content", "g/L", "kg/L", "units", 20) + [("content", "lb/US gal", "g/L", "units", 10)]


ROWS = rows()


def outside(x, low, high):
    """How many times x is over its range, or under it; 1 within."""
    return x / high if over(x, high) else low / x if over(low, x) else F(1)


def likelihood(x, low, high, rounded=False):
    q = outside(x, low, high)
    within = not over(q, F("1.01")) if rounded else q == 1
    return F(1) if within else F(5, 1000) / q**2


def factors(row, reckoning, p):
    """Every f of a line of the table."""
    _, meant, stated, kind, _ = row
    if kind == "units":
        return [unit(meant)[0] / unit(stated)[0]]
    if kind == "basis":
        def mix(words):
            if words == "per tank":
                return reckoning.U, "mix-volume"
            for end, basis in ((" of leaf wall", "leaf-wall-area"), (" of treated ground", "treated-area")):
                if words.endswith(end):
                    return reckoning.R / reckoning.stands(basis) * unit(words[4:-len(end)])[0], basis
            count, name = (100, words[8:]) if words.startswith("per 100 ") else (1, words[4:])
            size, dimension = unit(name)
            return (reckoning.R * size, "ground-area") if dimension == AREA else (count * size, "mix-volume")
        try:
            (of_stated, basis), (of_meant, _) = mix(stated), mix(meant)
        except NoAnswer:  # "none where the crop does not say enough"
            return []
        own = "mix-volume" if p.stated_basis == "carrier-volume" else p.stated_basis
        return [of_stated / of_meant] if basis == own else []
    substances = p.given.get("active_substances", []) if p else []
    if kind in ("content", "1 / content"):
        contents = []
        for substance in substances:
            size, dimension = quantity(substance["content"])
            contents.append(size if dimension == BY_MASS else size / LITRE_OF_WATER)
        return [c if kind == "content" else 1 / c for c in contents]
    return [kind] if substances or not p else []


def explained(reckoning, sort, x, low, high, p=None):
    """Whether a confusion explains x better than that it is meant."""
    meant = likelihood(x, low, high)
    scores = [F(row[4], 1000) * likelihood(f * x, low, high, rounded=True)
              for row in ROWS if row[0] == sort for f in factors(row, reckoning, p)]
    return any(over(score, meant) for score in scores)


def ends(low, high):
    """A range of which one end may not be given."""
    return (low if low is not None else high / 20), (high if high is not None else 20 * low)


def questions(reckoning):
    """Path, product, sort, value and range of everything that is asked about."""
    job, limits = reckoning.job, {"min": [], "max": []}
    for p in reckoning.products:
        label, path = p.given.get("label", {}), f"products[{p.i}]"
        if "min_dose" in label or "max_dose" in label:
            low = p.low_share if p.low else None
            high = p.high_share if "max_dose" in label else None
            sort = "liquid dose" if p.kind == (3, 0, 0) else "solid dose"
            yield f"{path}.dose", p, sort, p.stated_share, *ends(low, high)
        for key, low, high in (("density", "0.6", "2.2"), ("particle_density", "0.8", "5"), ("bulk_density", "0.05", "2.5")):
            if (x := value(p.given, key)) is not None:
                yield f"{path}.{key}", None, "density", x / LITRE_OF_WATER, F(low), F(high)
        for j, substance in enumerate(p.given.get("active_substances", [])):
            x, dimension = quantity(substance["content"])
            if dimension != BY_MASS:
                yield f"{path}.active_substances[{j}].content", None, "content", x / LITRE_OF_WATER, F("0.0001"), F("2.2")
        stock = value(p.given, "stock")
        if stock:
            total = p.c * reckoning.V
            yield f"{path}.stock", None, "volume" if p.kind == (3, 0, 0) else "mass", stock / total, F("0.05"), F(10**6)
        if p.own:
            yield from capacity(f"{path}.measure", p.own)
        for bound, found in limits.items():
            if (x := value(label, f"{bound}_volume_rate")) is not None:
                found.append(x * reckoning.stands(label.get("volume_rate_basis", "ground-area")))
    for i, measure in enumerate(job.get("measures", [])):
        yield from capacity(f"measures[{i}]", measure)
    rate = job.get("volume_rate", job.get("carrier_rate"))
    on_area = rate is not None and (job.get("rate_basis") or named_basis(rate) or "ground-area") in ("ground-area", "treated-area", "leaf-wall-area")
    if on_area and (limits["min"] or limits["max"]):
        low, high = max(limits["min"], default=None), min(limits["max"], default=None)
        key = "volume_rate" if job.get("volume_rate") is not None else "carrier_rate"
        yield key, None, "volume rate", reckoning.R, *ends(low, high)
    nominal, brim = (value(job["tank"], key) for key in ("nominal", "brim"))
    if None not in (nominal, brim):
        yield "tank.brim", None, "volume", brim / nominal, F(1), F("1.5")
    if reckoning.r:
        yield "sprayer.residual", None, "volume", reckoning.r / (brim if nominal is None else nominal), F(1, 10**6), F("0.25")


def capacity(path, measure):
    if measure["kind"] != "pack":
        steps = value(measure, "capacity") / value(measure, "graduation")
        most = 10**4 if measure["kind"] == "vessel" else 10**6
        yield f"{path}.capacity", None, "volume" if measure["kind"] == "vessel" else "mass", steps, F(1), F(most)


def found(reckoning):
    """The path of each value that is cautioned. Where doubles may fall on either side of an end, both are possible."""
    for path, p, sort, x, low, high in questions(reckoning):
        # With the value a trace up or down, for every border in the score at once.
        if reckoning.pick([explained(reckoning, sort, x * f, low, high, p) if outside(x * f, low, high) != 1 else False
                           for f in (1, 1 - reckoning.u, 1 + reckoning.u)]):
            yield path
