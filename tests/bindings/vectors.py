"""Writes tests/conformance/quantity.json and sums.json as a C header: `python vectors.py > vectors.h`."""

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


quantities = [quantity(case) for case in cases("quantity.json")]
sums = [sum_(case) for case in cases("sums.json")]
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
enum {{ SUMS = {len(sums)} }};""")
