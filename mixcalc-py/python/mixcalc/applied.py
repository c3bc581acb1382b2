"""As-applied logs: what the points of a log add up to, by ground and not by point, and which of them to look at.

    >>> from mixcalc.applied import PointMark, add_up
    >>> log = add_up(distance_m=[10, 10, 0, 10], swath_m=24, applied_l_per_ha=[180, 104, 40, 96], target_l_per_ha=100, tolerance_percent=10)
    >>> round(log.area_ha, 9), round(log.mix_l, 9), round(log.to_target, 6)
    (0.072, 9.12, 1.266667)
    >>> [PointMark(mark).name for mark in log.marks]
    ['START_UP', 'ON_TARGET', 'STANDSTILL', 'ON_TARGET']
"""

import enum
from typing import Any, Literal, NamedTuple

from mixcalc import _columns

__all__ = ["AppliedTotals", "PointMark", "add_up"]


class PointMark(enum.IntEnum):
    """What a point of a log is. In `marks`, numbers from 100 on are codes of errors: such a point counts for nothing."""

    ON_TARGET = 0
    """Within the tolerance of the target."""
    OFF_TARGET = 1
    """Further from the target than the tolerance."""
    START_UP = 2
    """The same, without a break since the first point, or since a point that stands still or is closed: a pass begins."""
    STANDSTILL = 3
    """The machine stands still, so that its rate says nothing."""
    CLOSED = 4
    """The boom is closed: no swath."""


class AppliedTotals(NamedTuple):
    """What a log adds up to."""

    area_ha: float
    """Ground treated, ha."""
    mix_l: float
    """Mix that went on it, L."""
    target_mix_l: float
    """Mix that the target asks for on that ground, L."""
    area_off_target_ha: float
    """Of the ground, what points treat that are marked OFF_TARGET or START_UP, ha."""
    volume_rate_l_per_ha: float | None
    """Mix over area, L/ha, not the mean of the points; `None` where no ground is treated."""
    to_target: float | None
    """Mix over the mix that the target asks for, not the mean of the points; `None` where no ground is treated."""
    marked: dict[PointMark, int]
    """Points with each mark."""
    refused: int
    """Points that are refused."""
    marks: Any
    """The mark of each point, an array; for a frame, the frame with the column `mark`."""


def add_up(
    frame: Any = None, /, *, distance_m: Any = None, swath_m: Any = None, applied_l_per_ha: Any = None, target_l_per_ha: Any = None,
    overlap_m: Any = 0.0, overlap: Literal["once", "each-time"] = "each-time", tolerance_percent: float, standstill_m: float = 0.0,
) -> AppliedTotals:
    """Adds up a log, each point by the ground that it treats, and marks its points.

    Parameters
    ----------
    frame
        of pandas, polars or pyarrow; then a column may be named, and one left out is the column of its own name.
    distance_m
        travelled since the point before, m, 0 or more.
    swath_m
        width of the open sections, m, 0 or more; 0 where the boom is closed.
    applied_l_per_ha
        volume rate over the swath, as logged, L/ha, 0 or more.
    target_l_per_ha
        volume rate that was asked for, L/ha, above 0.
    overlap_m
        what of the swath lies on ground that was treated before, m, at most the swath. Where swaths lie is for whoever has their positions.
    overlap
        "each-time": ground counts each time that a swath goes over it. "once": it counts once, and more mix than its target goes on
        the overlap.
    tolerance_percent
        how far a rate may be off its target, % of the target, 0 or more.
    standstill_m
        a point that travels no further stands still, m. It still counts by its ground.

    Returns
    -------
    AppliedTotals
        Sums, counts, and the mark of each point.

    Raises
    ------
    InputError
        For columns of unlike lengths, and for what is no array of real numbers. A point that is refused raises nothing: its mark is the
        code of its error, and what is missing in a frame is refused as not finite.
    """
    given = {
        "distance_m": distance_m, "swath_m": swath_m, "overlap_m": overlap_m, "applied_l_per_ha": applied_l_per_ha,
        "target_l_per_ha": target_l_per_ha,
    }
    sums, volume_rate, to_target, counts, refused, marks = _columns.applied(frame, given, overlap, tolerance_percent, standstill_m)
    marked = {mark: counts[mark] for mark in PointMark}
    area_ha, mix_l, target_mix_l, area_off_target_ha = sums
    return AppliedTotals(area_ha, mix_l, target_mix_l, area_off_target_ha, volume_rate, to_target, marked, refused, marks)
