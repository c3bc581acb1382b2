"""What a table of readings holds, as named tuples."""

from typing import NamedTuple

from mixcalc._mixcalc import Calibration
from mixcalc.errors import MixcalcError
from mixcalc.nozzles import CheckedSet

__all__ = ["FlaggedRow", "ReadCalibration", "ReadNozzleCheck", "Readings"]


class FlaggedRow(NamedTuple):
    """A row that is left out, and why. It is never repaired."""

    line: int
    """Where it begins in the table, from 1, the header being the first."""
    check: str
    """The check that it says it belongs to."""
    column: str
    """The column that cannot be read."""
    name: str
    """Name of the error's code, such as ``unreadable-quantity``."""
    message: str
    """What is wrong, and how to mend it."""


class ReadCalibration(NamedTuple):
    """A calibration that a table holds."""

    calibration: Calibration | None
    """What came of it; `None` where it cannot be worked out."""
    error: MixcalcError | None
    """Why not."""
    flagged: int
    """How many of its rows are flagged and left out."""


class ReadNozzleCheck(NamedTuple):
    """A check of nozzles that a table holds."""

    checked: CheckedSet | None
    """What it says; `None` where it cannot be judged."""
    error: MixcalcError | None
    """Why not."""
    flagged: int
    """How many of its rows are flagged and left out."""


class Readings(NamedTuple):
    """What a table of readings holds, by the names of the checks."""

    calibrations: dict[str, ReadCalibration]
    """The calibrations."""
    nozzle_checks: dict[str, ReadNozzleCheck]
    """The checks of nozzles."""
    flagged: tuple[FlaggedRow, ...]
    """The rows that are left out."""
