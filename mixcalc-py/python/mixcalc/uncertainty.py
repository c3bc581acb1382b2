"""What an uncertain value tells, as named tuples."""

from typing import NamedTuple

from mixcalc._mixcalc import Quantity, Ratio

__all__ = ["Contribution", "Interval"]


class Interval(NamedTuple):
    """From where to where a value lies."""

    low: Quantity
    """The lower end."""
    high: Quantity
    """The upper end."""
    coverage: Ratio
    """The probability with which it holds the true value."""


class Contribution(NamedTuple):
    """What one input adds to a standard uncertainty."""

    name: str
    """The input."""
    standard_uncertainty: Quantity
    """The standard uncertainty that the value would have from it alone."""
    share_of_variance: float
    """Its square as a part of the square of the whole, from 0 to 1."""
