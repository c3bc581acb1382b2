"""Quantities as exact fractions in SI, and the closeness of docs/numbers.md section 1."""

from __future__ import annotations

import re
from fractions import Fraction
from math import ceil, floor


class Unreadable(ValueError):
    """The text is not a quantity or a document that the witness knows."""


class NoAnswer(Exception):
    """The job is an error of the library; the text is its code."""


AREA, VOLUME, MASS, TIME = (2, 0, 0), (3, 0, 0), (0, 1, 0), (0, 0, 1)  # powers of m, kg, s
LIQUID_PER_AREA, DRY_PER_AREA, BY_VOLUME, DENSITY, BY_MASS = (1, 0, 0), (-2, 1, 0), (0, 0, 0), (-3, 1, 0), "w/w"
FOOT, POUND, US_GAL, IMP_GAL = (Fraction(t) for t in ("0.3048", "0.45359237", "0.003785411784", "0.00454609"))
PER_AREA = (LIQUID_PER_AREA, DRY_PER_AREA)
LITRE, HECTARE, HOUR = Fraction(1, 1000), 10000, 3600

UNITS = {
    "m": (1, (1, 0, 0)), "in": (FOOT / 12, (1, 0, 0)), "ft": (FOOT, (1, 0, 0)), "yd": (3 * FOOT, (1, 0, 0)),
    "mi": (5280 * FOOT, (1, 0, 0)), "ha": (HECTARE, AREA), "ac": (43560 * FOOT**2, AREA),
    "lb": (POUND, MASS), "oz av": (POUND / 16, MASS), "tonne": (1000, MASS),
    "s": (1, TIME), "min": (60, TIME), "h": (HOUR, TIME), "d": (24 * HOUR, TIME), "km/h": (Fraction(1000, 3600), (1, 0, -1)),
    "°C": (1, "temperature"), "K": (1, "temperature"), "mph": (5280 * FOOT / HOUR, (1, 0, -1)),
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
FIXED = {AREA: "ha", VOLUME: "L", MASS: "kg", LIQUID_PER_AREA: "L/ha", DRY_PER_AREA: "kg/ha", BY_VOLUME: "% v/v",
         DENSITY: "g/L", TIME: "s"}


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
    text = text.replace("²", "2").replace("³", "3")
    if text.count("/") > 1:  # "L/ha/m"
        head, _, last = text.rpartition("/")
        (size, kind), (below, length) = unit(head), unit(last)
        return size / below, tuple(a - b for a, b in zip(kind, length))
    above, slash, below = (part.strip() for part in text.partition("/"))
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


def named_basis(given):
    """The basis that a unit names: "per length row-length, per area and length crown-height", by the 100 m3 tree-row-volume."""
    name = given["unit"] if isinstance(given, dict) else given.split(" ", 1)[1]
    if name.count("/") > 1 and unit(name.rpartition("/")[2])[1] == (1, 0, 0):
        return "crown-height"
    below = name.partition("/")[2].strip()
    count, of = re.fullmatch(r"([\d.]*)\s*(.*)", below).groups()
    if of in ("m", "ft"):
        return "row-length"
    return "tree-row-volume" if of in ("m3", "ft3") and exact(count or 1) >= 100 else None


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
