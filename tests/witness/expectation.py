"""What a plan document is expected to hold, and where it does not."""

from __future__ import annotations

import json

from quantities import FIXED, Unreadable, exact, quantity, unit


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


class Si(Num):
    """A number within a tolerance in SI, as documents tell it in a unit of its own."""

    def __init__(self, si, tolerance, name):
        super().__init__(si, "any", tolerance)
        self.name = name

    def plain(self):
        return {"value": float(self.si / unit(self.name)[0]), "unit": self.name}

    def holds(self, got):
        return abs(quantity(got)[0] - self.si) <= self.tolerance and got["unit"] == self.name


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


def show(got) -> str:
    return json.dumps(got, default=float)


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
    return [] if fits else [f"{path}: expected {show(plain(want))}, got {show(got)}"]
