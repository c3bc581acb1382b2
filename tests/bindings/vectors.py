"""Writes tests/conformance/quantity.json, sums.json and calibration.json as a C header: `python vectors.py > vectors.h`."""

import json
from pathlib import Path

CONFORMANCE = Path(__file__).parents[1] / "conformance"
INPUTS = 4


def cases(name: str) -> list:
    file = json.loads((CONFORMANCE / name).read_text(encoding="utf-8"))
    assert len(file["cases"]) == file["count"], name
    return file["cases"]


def text(value) -> str:
    """A C string; every byte that is not plain as three octal digits, so that no digit after it is taken in."""
    if value is None:
        return "NULL"
    plain = (chr(byte) if 32 <= byte < 127 and chr(byte) not in '"\\?' else f"\\{byte:03o}" for byte in value.encode())
    return '"' + "".join(plain) + '"'


def number(value) -> str:
    return float(value).hex() if value is not None else "0"


def quantity(case: dict) -> str:
    error = case.get("error", {})
    fields = [
        text(case["id"]), text(case["text"]), text(case.get("claim")), text(case.get("unit", "1")), number(case.get("value")),
        number(case.get("rel_tol")), str(error.get("code", 0)), text(error.get("message", "")),
    ]
    # A zero byte ends a C string: what stands after it cannot be said in C.
    return "    {" + ", ".join(fields) + "},\n" if "\0" not in case["text"] else ""


def sum_(case: dict) -> tuple[str, str]:
    """The function that calls it, and its line in the table."""
    inputs = [number(value) for value in case["input"].values()]
    error = case.get("error", {})
    fields = [
        text(case["id"]), f"{{{', '.join(inputs + ['0'] * (INPUTS - len(inputs)))}}}", number(case.get("value")),
        number(case.get("rel_tol")), str(error.get("code", 0)), text(error.get("path", "")),
    ]
    parameters = ", ".join(f"in[{i}]" for i in range(len(inputs)))
    call = f"static uint32_t {case['id'].replace('-', '_')}(const double *in, double *out, mixcalc_error *error)"
    call += f" {{ return mixcalc_{case['function']}({parameters}, out, error); }}\n"
    return call, "    {" + ", ".join(fields) + f", {case['id'].replace('-', '_')}}},\n"


# What a way to a volume rate is called in the vectors: its function, its inputs in order, and what follows them.
WAYS = {
    "flow": ("flow", ["flow", "speed", "swath"]),
    "timed course": ("timed_course", ["catch", "catch_time", "course", "course_time", "swath"]),
    "catch over course": ("catch_over_course", ["catch", "course", "swath"]),
    "catch over area": ("catch_over_area", ["catch", "area"]),
    "refill": ("refill", ["refill", "area"]),
    "emptied tank": ("emptied_tank", ["filled", "residual", "area"]),
    "spot": ("spot", ["catch", "catch_time", "spot", "spot_time"]),
    "plants": ("plants", ["volume", "ground"]),
    "sides": ("sides", ["left", "right", "speed", "row_spacing"]),
    "band": ("band", ["flow", "speed", "band", "row_spacing"], "&made[0], &made[1]"),
    "band of field": ("band", ["flow", "speed", "band", "row_spacing"], "&made[1], &made[0]"),
    "alleys: each": ("alleys", ["flow", "speed", "row_spacing"], "MIXCALC_ALLEYS_EACH, &made[0]"),
    "alleys: each twice": ("alleys", ["flow", "speed", "row_spacing"], "MIXCALC_ALLEYS_EACH_TWICE, &made[0]"),
    "alleys: every other": ("alleys", ["flow", "speed", "row_spacing"], "MIXCALC_ALLEYS_EVERY_OTHER, &made[0]"),
}


def calibration(case: dict) -> tuple[str, str]:
    """The function that calls it, and its line in the table."""
    way, names, *rest = WAYS[case["by"]]
    assert set(names) == set(case["inputs"]), case["id"]
    call = f"static uint32_t calibrate_{case['id'].replace('-', '_')}(mixcalc_uncertain *const *in, mixcalc_calibration **made, mixcalc_error *error)"
    inputs = ", ".join(f"in[{i}]" for i in range(len(names)))
    call += f" {{ return mixcalc_calibration_from_{way}({inputs}, {rest[0] if rest else '&made[0]'}, error); }}\n"

    def stated(name: str) -> str:
        value, unit = case["inputs"][name]["quantity"].split(" ", 1)
        return f"{{{text(case['inputs'][name].get('name', name))}, {number(value)}, {text(unit)}, {number(case['inputs'][name]['u_percent'])}}}"

    value, unit = case["volume_rate"].split(" ", 1)
    fields = [
        text(case["id"]), f"{{{', '.join(stated(name) for name in names)}}}", str(len(names)), number(value), text(unit),
        number(case["u_percent"]), number(case["rel_tol"]), f"calibrate_{case['id'].replace('-', '_')}",
    ]
    return call, "    {" + ", ".join(fields) + "},\n"


quantities = [quantity(case) for case in cases("quantity.json")]
sums = [sum_(case) for case in cases("sums.json")]
calibrations = [calibration(case) for case in cases("calibration.json")]
print(f"""/* Made by tests/bindings/vectors.py from tests/conformance. */
#pragma GCC diagnostic ignored "-Woverlength-strings"

static const struct {{ const char *id, *text, *kind, *unit; double value, rel_tol; uint32_t code; const char *message; }} quantities[] = {{
{"".join(quantities)}}};
enum {{ QUANTITIES = {sum(1 for line in quantities if line)} }};

{"".join(call for call, _ in sums)}
static const struct {{
    const char *id;
    double in[{INPUTS}];
    double value, rel_tol;
    uint32_t code;
    const char *path;
    uint32_t (*call)(const double *, double *, mixcalc_error *);
}} sums[] = {{
{"".join(line for _, line in sums)}}};
enum {{ SUMS = {len(sums)} }};

{"".join(call for call, _ in calibrations)}
static const struct {{
    const char *id;
    struct {{ const char *name; double value; const char *unit; double u_percent; }} in[{max(len(names) for _, names, *_ in WAYS.values())}];
    size_t inputs;
    double value;
    const char *unit;
    double u_percent, rel_tol;
    uint32_t (*call)(mixcalc_uncertain *const *, mixcalc_calibration **, mixcalc_error *);
}} calibrations[] = {{
{"".join(line for _, line in calibrations)}}};
enum {{ CALIBRATIONS = {len(calibrations)} }};""")
