"""The table of a plan: a row for each product of each different load."""

import importlib


def columns(plan):
    """The columns of the table, each a list; the same for every kind of frame."""
    names = (
        "first_load", "last_load", "count", "mix_l", "carrier_l", "area_ha", "product", "exact", "measured", "unit", "gap_percent",
        "measure", "shown", "shown_unit", "graduations",
    )
    table = {name: [] for name in names}
    for load in plan.loads:
        for portion in load.products:
            unit = "kg" if portion.exact.kind == "mass" else "L"
            row = (
                load.first, load.last, load.count, load.mix.to("L"), load.carrier.to("L"), load.area.to("ha"), portion.name,
                portion.exact.to(unit), None if portion.measured is None else portion.measured.to(unit), unit,
                None if portion.gap is None else portion.gap.percent, portion.measure,
                None if portion.shown is None else portion.shown.value, None if portion.shown is None else portion.shown.unit,
                portion.graduations,
            )
            for name, value in zip(names, row):
                table[name].append(value)
    return table


def rows(plan):
    """`Plan.rows`."""
    table = columns(plan)
    return [dict(zip(table, row)) for row in zip(*table.values())]


def library(name, instead="Plan.rows()"):
    """The library that makes a table, or an error that says how to get it and what does without it."""
    try:
        return importlib.import_module(name)
    except ModuleNotFoundError as error:
        raise ImportError(f"this table needs {name}: pip install 'mixcalc[{name}]'; {instead} needs nothing") from error


def to_pandas(plan):
    """`Plan.to_pandas`."""
    pandas = library("pandas")

    frame = pandas.DataFrame(columns(plan))
    # What a stop leaves out is missing, whatever else a column holds.
    types = {"measured": "float64", "gap_percent": "float64", "shown": "float64", "graduations": "Int64"}
    counts = {"first_load": "int64", "last_load": "int64", "count": "int64"}
    types |= dict.fromkeys(("product", "unit", "measure", "shown_unit"), object)
    return frame.astype(types | counts | {name: "float64" for name in ("mix_l", "carrier_l", "area_ha", "exact")})


def to_polars(plan):
    """`Plan.to_polars`."""
    polars = library("polars")

    floats = ("mix_l", "carrier_l", "area_ha", "exact", "measured", "gap_percent", "shown")
    whole = ("first_load", "last_load", "count", "graduations")
    types = {name: polars.Float64 for name in floats} | {name: polars.Int64 for name in whole}
    return polars.DataFrame(columns(plan), schema_overrides=types | dict.fromkeys(("product", "unit", "measure", "shown_unit"), polars.String))
