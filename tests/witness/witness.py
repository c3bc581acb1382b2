"""The witness: the sums of a plan once more, in exact fractions, from docs/numbers.md alone.

    python witness.py JOB.toml|JOB.json PLAN.json     one sentence per failure; exit 0, 1, or 2 (cannot be read)
    python witness.py --lines < LINES                 JSON lines, each {"job": {...}, "plan": {...}}
                                                      or {"job": {...}, "error": {"name": "products-fill-mix"}}

It shares no code with the library. `promises` holds the plan against itself and the label; `Reckoning` works the plan
out anew from the job; `check` reports every place where the document differs from either.
"""

from __future__ import annotations

import json
import re
import sys

from expectation import differences, plain, show
from quantities import E, Unreadable, close, exact, quantity
from reckoning import NoAnswer, Reckoning


def at(table, *keys):
    """The SI value at a path of keys in the document."""
    for key in keys:
        table = table[key]
    return quantity(table)[0]


def same(what, a, b, scale=0):
    """A sentence where two numbers of the document (SI) that should be equal are not."""
    if abs(a - b) > 4 * E * max(abs(a), abs(b), scale):
        yield f"{what}: {float(a)!r} and {float(b)!r} (SI) should be equal"


def promises(job: dict, plan: dict):
    """What must hold within the document itself, and against the label, however the sums were done."""
    loads, totals, ledger = plan["loads"], plan["totals"], plan["ledger"]
    stopped, last, mix = any(f["severity"] == "stop" for f in plan["findings"]), 0, at(plan, "totals", "mix")
    if plan["usable"] is stopped:
        yield f"usable: {plan['usable']} although a stop finding {'stands' if stopped else 'does not stand'}"
    if not plan["cautions"] or not all(f["code"] and f["message"] for f in plan["findings"]):
        yield "cautions, findings: every plan carries its cautions, every finding a code and a message"
    for i, load in enumerate(loads):
        path, safe = f"loads[{i}]", plan["safe_fill"]
        # "no load is over it, compared as doubles, with no tolerance"
        if load["mix"]["unit"] != safe["unit"] or exact(load["mix"]["value"]) > exact(safe["value"]):
            yield f"{path}.mix: {show(load['mix'])} is over the safe fill, {show(safe)}"
        if (load["first"], load["last"]) != (last + 1, last + load["count"]) or load["count"] < 1:
            yield f"{path}: loads {load['first']} to {load['last']}, count {load['count']}, after load {last}"
        last = load["last"]
        if load["steps"] and not stopped:
            yield from of_steps(f"{path}.steps", load, at(plan, "safe_fill"))
    if last != totals["loads"]:
        yield f"totals.loads: {totals['loads']}, although the last load is {last}"
    for key in ("mix", "carrier", "area"):
        at_start = at(plan["start"], "volume") if "start" in plan else 0
        summed = sum(load["count"] * at(load, key) for load in loads) - (at_start if key == "mix" else 0)
        yield from same(f"totals.{key} and the sum over loads", at(totals, key), summed, {"carrier": mix, "mix": at_start}.get(key, 0))
    measuring = ("measured", "gap", "drawn", "measure", "graduations", "fillings")
    rows = totals["products"] + [part for load in loads for part in load["products"]]
    if stopped:
        if (ledger or any(load["steps"] for load in loads)
                or any(row.get(key) is not None for row in rows for key in measuring)):
            yield "usable: a plan with a stop holds measured amounts, a ledger or steps"
        return
    for i, given in enumerate(job.get("products", [])):
        yield from of_product(job, plan, i, given)
    carrier, made = ledger["carrier"], ledger["mix"]
    used = sum(at(carrier, key) for key in ("first", "premixed", "rinses", "topped_up"))
    yield from same("ledger.carrier: drawn and used", at(carrier, "drawn"), used, mix)
    yield from same("ledger.carrier.drawn and totals.carrier", at(carrier, "drawn"), at(totals, "carrier"), mix)
    there = at(made, "at_start") if "at_start" in made else 0
    yield from same("ledger.mix: at_start + made and sprayed + residual", there + mix, at(made, "sprayed") + at(made, "residual"))
    yield from same("ledger.mix.made and totals.mix", at(made, "made"), mix)


def of_steps(path, load, safe):
    tank = [at(step, "in_tank") for step in load["steps"]]
    if any(b < a * (1 - E) for a, b in zip(tank, tank[1:])) or max(tank) > safe * (1 + E):
        yield f"{path}: what is in the tank falls, or comes over the safe fill"
    yield from same(f"{path}: the tank at the end and the mix of the load", tank[-1], at(load, "mix"))
    carrier = sum(at(s, "carrier") if "carrier" in s else s["times"] * at(s, "each") if s["do"] == "rinse" else 0
                  for s in load["steps"])
    yield from same(f"{path}: carrier of the steps and of the load", carrier, at(load, "carrier"), at(load, "mix"))


def of_product(job, plan, i, given):
    """Nothing over the maximum, nothing lost: graduations in integers, amounts within the closeness."""
    total, line, path = plan["totals"]["products"][i], plan["ledger"]["products"][i], f"totals.products[{i}]"
    sizes = {drawn["measure"]: drawn for drawn in total["drawn"]}
    most, least = largest(job, i, given)
    counts, measured = {}, 0
    for load in plan["loads"]:
        part, where = load["products"][i], f"loads {load['first']} to {load['last']}, {total['name']}"
        n, measure = part["graduations"], part["measure"]
        topped_up = "start" in plan and load["first"] == 1
        there = at(plan["start"]["products"][i], "amount") if topped_up else 0
        if n < 1 and not there:
            yield f"{where}: {n} graduations"
        counts[measure] = counts.get(measure, 0) + load["count"] * n
        measured += load["count"] * at(part, "measured")
        if part["fillings"] and measure in sizes:
            poured = sum(filling["count"] * at(filling, "amount") for filling in part["fillings"])
            yield from same(f"{where}: fillings and graduations", poured, n * at(sizes[measure], "graduation"))
        allowed = max(min(size * (at(load, base) + (at(plan["start"], "volume") if topped_up and base == "carrier" else 0)) for size, base in most),
                      least * at(load, "area"))
        if n and at(part, "measured") + there > allowed * (1 + 2 * E):
            yield f"{where}: {show(part['measured'])} is over the maximum, {float(allowed)!r} (SI)"
    if counts != {name: drawn["count"] for name, drawn in sizes.items()}:
        yield f"{path}.drawn: {show(total['drawn'])}, although the loads hold {counts} graduations"
    at_start = at(plan["start"], "volume") if "start" in plan else 0
    allowed = max(min(size * (at(plan, "totals", base) + (at_start if base != "area" else 0)) for size, base in most),
                  least * at(plan, "totals", "area"))
    if at(total, "measured") > allowed * (1 + 2 * E):
        yield f"{path}: {show(total['measured'])} in total is over the maximum, {float(allowed)!r} (SI)"
    drawn, in_loads, spilled = (at(line, key) for key in ("drawn", "in_loads", "spilled"))
    yield from same(f"{path}.measured and the sum over loads", at(total, "measured"), measured)
    yield from same(f"ledger.products[{i}]: drawn and measured", drawn, at(total, "measured"))
    yield from same(f"ledger.products[{i}]: drawn and in loads + spilled", drawn, in_loads + spilled)
    if line["stock"]:
        stock, left = at(line, "stock"), at(line, "left")
        yield from same(f"ledger.products[{i}]: stock and drawn + left", stock, drawn + left, drawn)


def largest(job, i, given):
    """Each largest dose, and what of a load it is multiplied with; and the least dose, where it may be the largest too."""
    reckoning = Reckoning(job)
    reckoning.density = quantity(job["mix_density"])[0] if "mix_density" in job else None
    reckoning.ground()
    base = {"ground-area": "area", "carrier-volume": "carrier", "mix-volume": "mix"}
    product, passes = reckoning.product(i, given), 1 + reckoning.pass_share
    most = product.stated or product.maxima if "at_least" in given else product.maxima
    # "The dose that holds ... is the maximum where no label says one"
    least = quantity(given["at_least"])[0] * passes if "at_least" in given and not product.stated else 0
    return [(reckoning.fraction(dose) * (passes if basis == "ground-area" else 1), base[basis]) for dose, basis in most], least


TEXTS = {"format", "title", "units", "kind", "split", "name", "formulation", "basis", "min_dose_basis", "max_dose_basis",
         "source", "marked_in", "keeps_from", "rate_basis", "volume_rate_basis", "treated_sides", "treated_rows", "dose_of",
         "profile", "role", "step", "before", "after", "force", "on", "substance", "from", "date", "harvest", "season_start", "product", "parcel",
         "method", "alleys", "instrument", "operator", "nozzles", "class", "holds"}
AFTER_MEASURING = {"dose-may-pass-maximum", "coarse-graduation", "packs-off-dose", "many-fillings", "stock-short"}


def kept(path: str, given, got):
    """The plan's own copy of the job: nothing lost, nothing changed, quantities as objects."""
    if isinstance(given, str) and "protection." in path:  # words of a label
        yield from [] if given == got else [f"{path}: expected {given!r}, got {got!r}"]
        return
    if isinstance(given, dict) and set(given) == {"measured"}:  # readings of which nothing more is said
        given = given["measured"]
    if isinstance(given, dict) and not {"value", "unit"} <= set(given):
        # A dose of a substance has become the product's, which the totals show.
        for key, item in given.items() if not given.get("dose_of") else [i for i in given.items() if i[0][:4] != "dose"]:
            yield from kept(f"{path}.{key}", item, (got or {}).get(key)) if key not in TEXTS and not (key in ("sprayer", "ground") and isinstance(item, str)) else (
                [] if got.get(key) == item or (key, item) == ("role", "product") else [f"{path}.{key}: expected {item!r}, got {got.get(key)!r}"])
    elif isinstance(given, list):
        for i, item in enumerate(given):
            yield from kept(f"{path}[{i}]", item, got[i])
    elif isinstance(given, bool) or isinstance(given, int) and isinstance(got, int):
        yield from [] if given is got or given == got else [f"{path}: expected {given}, got {got!r}"]
    else:
        a, kind = quantity(given) if isinstance(given, (str, dict)) else (exact(given), "number")
        b, kind_kept = quantity(got) if isinstance(got, (str, dict)) else (exact(got), "number")
        if kind != kind_kept or not close(a, b) or isinstance(got, str):
            yield f"{path}: expected {given!r} as an object, got {show(got)}"


def of_findings(reckoning, got):
    """The findings that numbers.md asks for, and no others; product and load where the finding names them."""
    def meets(want, f):
        product = re.search(r"products\[(\d+)\]", f.get("path") or "")
        return ((want.severity, want.code) == (f["severity"], f["code"])
                and want.path in (None, f.get("path"))
                and (want.product is None or product and int(product[1]) == want.product)
                and (None in (want.load, f.get("load")) or want.load.first <= f["load"] <= want.load.last))
    others = any(f.severity == "stop" and f.code != "rinses-exceed-carrier" for f in reckoning.findings)
    for want in reckoning.findings:
        # Where the plan is stopped, the page does not say whether what comes after measuring is still found.
        open_ = (not want.must or reckoning.stopped and want.code in AFTER_MEASURING
                 or others and want.code == "rinses-exceed-carrier")
        if not open_ and not any(meets(want, f) for f in got):
            where = "" if want.product is None else f" for products[{want.product}]"
            where += f" at {want.path}" if want.path else ""
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


def gathered(sentences) -> list[str]:
    """All sentences; where the document is not of the form that they need, that is one more."""
    found = []
    try:
        for sentence in sentences:
            found.append(sentence)
    except (KeyError, IndexError, TypeError, AttributeError, ValueError) as trouble:
        found.append(f"the plan is not of the form that is documented: {type(trouble).__name__}: {trouble}")
    return found


def check(job: dict, plan: dict | None, error: str | None = None, tally: dict | None = None) -> list[str]:
    """One sentence for each place where the plan (or the error's code) is not what the job asks for."""
    best = None
    for reckoning, want, code in answers(job):
        if plan is None or want is None:
            wrong = [] if plan is None and code == error else [f"expected {code or 'a plan'}, got {error or 'a plan'}"]
        else:
            wrong = differences("", want, plan) + gathered(of_findings(reckoning, plan.get("findings")))
        best = wrong if best is None or len(wrong) < len(best) else best
        if not wrong:
            if tally is not None and any(reckoning.script):
                tally["borders"] = tally.get("borders", 0) + 1
            break
    return best if plan is None else gathered(promises(job, plan)) + gathered(kept("job", job, plan.get("job"))) + best


def expected(job: dict) -> dict:
    """The plan document that the page asks for; texts are placeholders. Raises NoAnswer where the job is an error."""
    def objects(item, key=""):
        if isinstance(item, dict):
            return {k: objects(v, k) for k, v in item.items()}
        if isinstance(item, list):
            return [objects(v, key) for v in item]
        if isinstance(item, str) and key not in TEXTS | {"mixing", "spraying"}:  # what is worn for them, in a label's own words
            number, name = re.fullmatch(r"\s*([-+.\deE]+)\s*(\S.*?)\s*", item).groups()
            return {"value": float(number), "unit": name}
        return item
    reckoning = Reckoning(job)
    document = plain(reckoning.solve())
    found = [{"severity": f.severity, "code": f.code, "path": f.path or (f"products[{f.product}]" if f.product is not None else ""),
              "load": f.load and f.load.first, "message": "some text"} for f in reckoning.findings]
    cautions = [{"code": "label-decides", "text": "some text"}]
    return {**document, "job": objects(job), "findings": found, "cautions": cautions}


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
        error = line.get("error")
        error = error["name"] if isinstance(error, dict) else error
        if wrong := check(line["job"], line.get("plan"), error, tally):
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
    except (ImportError, OSError, ValueError, LookupError, TypeError, AttributeError) as trouble:
        print(f"cannot be read: {trouble}\n\n{__doc__}", file=sys.stderr)
        return 2
    print(*wrong, sep="\n", end="\n" if wrong else "")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
