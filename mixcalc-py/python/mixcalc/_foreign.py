"""Quantities of pint and astropy, taken and given without importing either."""

import itertools
import math

from mixcalc._mixcalc import Quantity

# Units of other libraries by their names there. Each use is checked against the size that the other library gives it, for a registry
# may define its own; what does not agree goes by base units.
_WORDS = {
    "liter": "L", "l": "L", "milliliter": "mL", "ml": "mL", "hectare": "ha", "ha": "ha", "acre": "ac|[acr_us]", "international_acre": "ac",
    "meter": "m", "m": "m", "meter ** 2": "m2", "m2": "m2", "foot": "ft", "ft": "ft", "inch": "in", "mile": "mi", "yard": "yd",
    "foot ** 2": "ft2", "ft2": "ft2", "centimeter": "cm", "cm": "cm", "millimeter": "mm", "mm": "mm", "kilometer": "km", "km": "km",
    "gallon": "US gal", "gal": "US gal", "pint": "US pt", "quart": "US qt", "fluid_ounce": "US fl oz", "imperial_gallon": "imp gal",
    "imperial_pint": "imp pt", "imperial_fluid_ounce": "imp fl oz", "kilogram": "kg", "kg": "kg", "gram": "g", "g": "g",
    "milligram": "mg", "mg": "mg", "pound": "lb", "lb": "lb", "ounce": "oz av", "oz": "oz av", "second": "s", "s": "s", "minute": "min",
    "min": "min", "hour": "h", "h": "h", "kilopascal": "kPa", "kPa": "kPa", "pascal": "Pa", "Pa": "Pa", "bar": "bar",
    "pound_force_per_square_inch": "psi", "degree_Celsius": "°C", "deg_C": "°C", "degree_Fahrenheit": "°F", "deg_F": "°F", "kelvin": "K", "K": "K",
    "percent": "%", "%": "%",
}
_TEMPERATURES = ("degree_Celsius", "deg_C", "degree_Fahrenheit", "deg_F", "kelvin", "K")
# Within this, two sizes of a unit are the same.
_SAME = 1e-12
_NAMES = {word: name for name, words in reversed(_WORDS.items()) if len(name) > 2 for word in words.split("|")}


def _library(value):
    for kind in type(value).__mro__:
        root = str(kind.__module__).partition(".")[0]
        if root in ("pint", "astropy"):
            return root
    return None


def _words(text):
    """A unit text of another library in our words, such as "L/ha" for "liter / hectare"; none where it is not one over another."""
    parts = [_WORDS.get(part.strip()) for part in text.split(" / ")]
    if None in parts or len(parts) > 2:
        return []
    readings = [part.split("|") for part in parts]
    return ["/".join(words) for words in itertools.product(*readings)]


def _base_text(exponents):
    """Exponents of m, kg, s and K as the text of base units."""
    names = {"meter": "m", "m": "m", "kilogram": "kg", "kg": "kg", "second": "s", "s": "s", "kelvin": "K", "K": "K"}
    parts = []
    for name, exponent in exponents:
        if not exponent:
            continue
        if name not in names:
            return None
        ratio = exponent.as_integer_ratio() if isinstance(exponent, int) else _ratio(exponent)
        parts.append(f"{names[name]}^{ratio[0]}" + (f"/{ratio[1]}" if ratio[1] != 1 else ""))
    return " ".join(parts) or "m^0"


def _ratio(exponent):
    from fractions import Fraction

    ratio = Fraction(exponent).limit_denominator(12)
    return ratio.numerator, ratio.denominator


def _read(value, text, base, base_text):
    """In our own words where they mean the same size, else in base units."""
    for words in _words(text):
        try:
            read = Quantity(value, words)
            if math.isclose(read.to(base_text), base, rel_tol=_SAME):
                return read
        except ValueError:
            pass
    return Quantity(base, base_text)._named()


def taken(value):
    """The quantity that an object of pint or astropy is; None for any other object, and for an array."""
    library = _library(value)
    if library == "pint" and hasattr(value, "magnitude"):
        base = value.to_base_units()
        return _taken(value.magnitude, str(value.units), base.magnitude, base.unit_items())
    if library == "astropy" and hasattr(value, "unit"):
        base = value.decompose()
        exponents = [(unit.name, power) for unit, power in zip(base.unit.bases, base.unit.powers)]
        text = value.unit.to_string().replace(" / ", "/").replace("/", " / ")
        return _taken(value.value, text, base.value, exponents)
    return None


def _taken(value, text, base, exponents):
    if getattr(value, "ndim", 0) or "delta_" in text:
        return None  # an array, or a difference of temperatures, which is none
    if text in _TEMPERATURES:
        return Quantity(float(value), _WORDS[text])  # its zero is where its unit says, which base units do not tell
    base_text = _base_text(exponents)
    return None if base_text is None else _read(float(value), text, float(base), base_text)


def to_pint(quantity, registry=None):
    """`Quantity.to_pint`."""
    if registry is None:
        import pint

        registry = pint.get_application_registry()
    base, base_text = quantity._in_base_units()
    in_base = registry.Quantity(base, base_text.replace("^", "**").replace(" ", " * ").replace("m**0", "dimensionless"))
    names = [_NAMES.get(word) for word in quantity.unit.split("/")]
    if None not in names and len(names) <= 2:
        try:
            found = registry.Quantity(quantity.value, " / ".join(names))
            if quantity.kind == "temperature" or math.isclose(found.to(in_base.units).magnitude, base, rel_tol=_SAME):
                return found
        except Exception:  # a registry without that unit; its errors are its own
            pass
    return in_base
