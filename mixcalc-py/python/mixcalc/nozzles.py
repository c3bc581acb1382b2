"""What nozzles and their checks tell, as named tuples."""

from typing import NamedTuple

from mixcalc._mixcalc import Flow, NozzleSize, Pressure, Quantity, Ratio, Time, Uncertain

__all__ = ["CheckedNozzle", "CheckedSet", "ControlChart", "OutlierTest", "RatedFlow", "Sides", "SuitedSize", "WornAt"]


class RatedFlow(NamedTuple):
    """A flow of water at a pressure, as a standard or a custom states it."""

    flow: Flow
    """The flow."""
    pressure: Pressure
    """The pressure at which it is stated."""
    confidence: str
    """certain, or probable where the text of the source was not seen."""
    source: str
    """Where it stands."""


class SuitedSize(NamedTuple):
    """A standard size that gives a flow, and the pressure that it takes."""

    size: NozzleSize
    """The size."""
    pressure: Pressure
    """The pressure at its tip."""


class OutlierTest(NamedTuple):
    """A test of the value that is farthest from the mean."""

    verdict: str
    """none, outlier, or too-few where there are too few values to tell."""
    farthest: int
    """Which value it is, from 0."""
    residual: float
    """Its distance from the mean in standard deviations."""
    critical: float | None
    """The distance that chance passes with no more than the chosen probability; `None` for fewer than three values."""


class Sides(NamedTuple):
    """How far the sides of a sprayer are apart."""

    difference: Uncertain
    """A part of their mean; above zero where the left gives more."""
    side: str
    """under the limit, over it, or cannot-tell."""


class CheckedNozzle(NamedTuple):
    """What a check says of one nozzle. Differences are parts of what is compared with: 0.05 is 5 % more."""

    name: str
    """Its name."""
    flow: Uncertain
    """Its flow."""
    of_mean: Uncertain
    """How far it is from the mean of the set."""
    of_new: Uncertain
    """How far it is from a new nozzle."""
    advice: str
    """keep, clean, replace, shared-bias where it is off as all of them are, or cannot-tell where the catches are not certain enough."""
    rejected: str | None
    """Whether an inspection would reject it: under what a law allows, over it, or cannot-tell; `None` where no law was stated."""
    outlier: OutlierTest | None
    """Whether one of its repeats is an outlier; `None` for fewer than two."""


class CheckedSet(NamedTuple):
    """What a check says of a set of nozzles."""

    nozzles: tuple[CheckedNozzle, ...]
    """Each nozzle, in the order of the catches."""
    mean: Uncertain
    """The mean flow."""
    of_new: Uncertain
    """How far the mean is from a new nozzle."""
    shared: Uncertain | None
    """The part of that which all nozzles have; `None` where they differ in both directions."""
    repeatability: Ratio
    """Standard deviation of one catch, as a part of it: of all repeats together, or as stated."""
    outlier: OutlierTest | None
    """Whether one nozzle is an outlier among them; `None` for fewer than two."""
    sides: Sides | None
    """How far left and right are apart; `None` unless both are stated."""
    advice: str
    """keep, check-gauge-clock-jug, single-nozzles, replace-set, or cannot-tell."""

    def rows(self):
        """A row for each nozzle, as a list of dicts: flow in L/min, differences in percent, with the ends of their 95 % intervals."""
        rows = []
        for nozzle in self.nozzles:
            row = {"nozzle": nozzle.name, "flow_l_per_min": nozzle.flow.value.to("L/min")}
            for name in ("of_mean", "of_new"):
                difference = getattr(nozzle, name)
                interval = difference.interval()
                row[f"{name}_percent"] = difference.value.to("%")
                row[f"{name}_low_percent"], row[f"{name}_high_percent"] = interval.low.to("%"), interval.high.to("%")
            outlier = nozzle.outlier.verdict if nozzle.outlier else None
            rows.append(row | {"advice": nozzle.advice, "rejected": nozzle.rejected, "outlier": outlier})
        return rows

    def to_pandas(self):
        """The rows as a pandas frame."""
        from mixcalc._tables import library

        return library("pandas", "CheckedSet.rows()").DataFrame(self.rows())


class WornAt(NamedTuple):
    """When a limit is reached, in hours of use."""

    expected: Time
    """Where the line meets the limit."""
    earliest: Time
    """The lower end of the interval. Before the last flow: it may have been reached already."""
    latest: Time
    """The upper end."""


class ControlChart(NamedTuple):
    """The limits between which single values of a steady thing stay."""

    center: Quantity
    """The mean."""
    low: Quantity
    """The lower limit; below zero where values spread widely."""
    high: Quantity
    """The upper limit."""
    outside: tuple[int, ...]
    """The values outside of the limits, from 0."""
