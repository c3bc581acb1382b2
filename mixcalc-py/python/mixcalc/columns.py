"""Every sum over columns: keyword arguments that end in the unit, arrays in, arrays out; a frame in, the same kind of frame out.

    >>> from mixcalc import columns
    >>> plan = columns.plan(area_ha=[1.2, 0.4], volume_rate_l_per_ha=200, dose_l_per_ha=1.5, safe_fill_l=95)
    >>> plan["full_loads"].tolist(), plan["part_load_l"].round(9).tolist()
    ([2.0, 0.0], [50.0, 80.0])

An argument is an array, a list, or one number for all rows; they are broadcast as numpy does. Doubles are read where they lie. Masked,
boolean and complex arrays are refused. The answer is a dictionary of arrays by the names under Returns.

With a `frame` of pandas, polars or pyarrow, or anything with the Arrow stream interface, an argument may be the name of a column, and one left out is
the column of its own name. The answer is the frame with the outputs beside its columns. What is missing in it stays missing.

`out` has arrays of doubles by the names under Returns, one row after the other and none of them an input: they are written and handed back, and memory
that is used again costs nothing to be had.

`on_error="raise"` raises the InputError of the first row that is refused, its place such as `area_ha[17]` in its path. With "status" such rows
are not a number, and `status` has for each row 0, or the code of its error. `threads` are used if asked for; other threads of Python run
meanwhile. `progress=True` tells on stderr how far it is, a function is called with rows done and all rows.

Made from the list of calculations of the core: change it there, then run `UPDATE_COLUMNS=1 cargo test -p mixcalc-tests --test columns`.
"""

from collections.abc import Callable, Mapping
from typing import Any, Literal, TypeAlias

from mixcalc import _columns

__all__ = [
    "applied_point",
    "area_for_mix",
    "course_length",
    "delivered_liquid_dose",
    "delivered_solid_dose",
    "flow",
    "flow_at_pressure",
    "full_and_part_load",
    "graduations_of_mass",
    "graduations_of_volume",
    "liquid_amount",
    "liquid_amount_in_mix",
    "liquid_dose",
    "liquid_dose_of_substance",
    "liquid_mass",
    "liquid_volume",
    "mass_concentration",
    "mix",
    "plan",
    "required_flow",
    "required_pressure",
    "required_speed",
    "required_swath",
    "safe_fill",
    "solid_amount",
    "solid_amount_in_mix",
    "solid_dose",
    "solid_dose_of_substance",
    "speed",
    "spraying_time",
    "substance_in_liquid_dose",
    "substance_in_solid_dose",
    "volume_fraction",
    "volume_rate",
    "water_density",
    "work_rate",
]

_Numbers: TypeAlias = Any
_Progress: TypeAlias = bool | Callable[[int, int], object]


def plan(
    frame: Any = None, /, *, area_ha: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, dose_l_per_ha: _Numbers = None, safe_fill_l: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """The loads of one liquid product at a volume rate: mix, product, full loads and the part load after them, and the product in each. Nothing is measured here, and no limit of a label is known.

    Parameters
    ----------
    area_ha
        ground to be treated, ha, above 0.
    volume_rate_l_per_ha
        volume of mix per ground area, the product inside, L/ha, above 0.
    dose_l_per_ha
        volume of product per ground area, L/ha, above 0 and below the volume rate.
    safe_fill_l
        the most that the tank may be filled to, L, above 0.

    Returns
    -------
    mix_l
        finished mix for the area, L.
    product_l
        product for the area, L.
    full_loads
        how many loads are filled to the safe fill.
    part_load_l
        the part load after them, L; 0 where there is none.
    product_in_full_load_l
        product in a load at the safe fill, L.
    product_in_part_load_l
        product in the part load, L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("plan", ["mix_l", "product_l", "full_loads", "part_load_l", "product_in_full_load_l", "product_in_part_load_l"], frame, {"area_ha": area_ha, "volume_rate_l_per_ha": volume_rate_l_per_ha, "dose_l_per_ha": dose_l_per_ha, "safe_fill_l": safe_fill_l}, out, on_error, threads, progress)


def mix(
    frame: Any = None, /, *, volume_rate_l_per_ha: _Numbers = None, area_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Volume of mix for an area at a volume rate.

    Parameters
    ----------
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, 0 or more.
    area_ha
        ground to be treated, ha, 0 or more.

    Returns
    -------
    mix_l
        finished mix, L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("mix", ["mix_l"], frame, {"volume_rate_l_per_ha": volume_rate_l_per_ha, "area_ha": area_ha}, out, on_error, threads, progress)


def area_for_mix(
    frame: Any = None, /, *, mix_l: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Ground that a volume of mix serves.

    Parameters
    ----------
    mix_l
        finished mix, L, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, above 0.

    Returns
    -------
    area_ha
        ground that it serves, ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("area_for_mix", ["area_ha"], frame, {"mix_l": mix_l, "volume_rate_l_per_ha": volume_rate_l_per_ha}, out, on_error, threads, progress)


def full_and_part_load(
    frame: Any = None, /, *, mix_l: _Numbers = None, safe_fill_l: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Full loads, and the volume of the part load after them.

    Parameters
    ----------
    mix_l
        finished mix, L, above 0.
    safe_fill_l
        the most that the tank may be filled to, L, above 0.

    Returns
    -------
    full_loads
        how many loads are filled to the safe fill.
    part_load_l
        the part load after them, L; 0 where there is none.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("full_and_part_load", ["full_loads", "part_load_l"], frame, {"mix_l": mix_l, "safe_fill_l": safe_fill_l}, out, on_error, threads, progress)


def safe_fill(
    frame: Any = None, /, *, nominal_l: _Numbers = None, brim_l: _Numbers = None, headspace_percent: _Numbers = None, graduation_l: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """The most that a tank may be filled to, by what is known of it: the lesser of the nominal volume and the brim capacity without the headspace, down to a mark of the tank.

    Parameters
    ----------
    nominal_l
        nominal volume, L; 0 where it is not known.
    brim_l
        brim capacity, L; 0 where it is not known.
    headspace_percent
        part of the brim capacity left empty on purpose, %, 0 or more and below 100.
    graduation_l
        the step of the tank's own marks, L; 0 for a tank without.

    Returns
    -------
    safe_fill_l
        the safe fill, L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("safe_fill", ["safe_fill_l"], frame, {"nominal_l": nominal_l, "brim_l": brim_l, "headspace_percent": headspace_percent, "graduation_l": graduation_l}, out, on_error, threads, progress)


def graduations_of_volume(
    frame: Any = None, /, *, amount_l: _Numbers = None, graduation_l: _Numbers = None, maximum_l: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Whole graduations nearest to a volume, a half going down, and never over the maximum.

    Parameters
    ----------
    amount_l
        what the dose asks for, L, at least one graduation and at most the maximum.
    graduation_l
        the smallest step that the measure shows, L, above 0.
    maximum_l
        the most that the label allows, L; the amount itself where it allows no more.

    Returns
    -------
    graduations
        how many graduations to measure.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("graduations_of_volume", ["graduations"], frame, {"amount_l": amount_l, "graduation_l": graduation_l, "maximum_l": maximum_l}, out, on_error, threads, progress)


def graduations_of_mass(
    frame: Any = None, /, *, amount_kg: _Numbers = None, graduation_kg: _Numbers = None, maximum_kg: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Whole graduations nearest to a mass, a half going down, and never over the maximum.

    Parameters
    ----------
    amount_kg
        what the dose asks for, kg, at least one graduation and at most the maximum.
    graduation_kg
        the smallest step that the measure shows, kg, above 0.
    maximum_kg
        the most that the label allows, kg; the amount itself where it allows no more.

    Returns
    -------
    graduations
        how many graduations to measure.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("graduations_of_mass", ["graduations"], frame, {"amount_kg": amount_kg, "graduation_kg": graduation_kg, "maximum_kg": maximum_kg}, out, on_error, threads, progress)


def liquid_amount(
    frame: Any = None, /, *, liquid_dose_l_per_ha: _Numbers = None, area_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Volume of a product for an area, at a dose by volume.

    Parameters
    ----------
    liquid_dose_l_per_ha
        volume of product per ground area, L/ha, 0 or more.
    area_ha
        ground to be treated, ha, 0 or more.

    Returns
    -------
    amount_l
        product, L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("liquid_amount", ["amount_l"], frame, {"liquid_dose_l_per_ha": liquid_dose_l_per_ha, "area_ha": area_ha}, out, on_error, threads, progress)


def solid_amount(
    frame: Any = None, /, *, solid_dose_kg_per_ha: _Numbers = None, area_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Mass of a product for an area, at a dose by mass.

    Parameters
    ----------
    solid_dose_kg_per_ha
        mass of product per ground area, kg/ha, 0 or more.
    area_ha
        ground to be treated, ha, 0 or more.

    Returns
    -------
    amount_kg
        product, kg.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("solid_amount", ["amount_kg"], frame, {"solid_dose_kg_per_ha": solid_dose_kg_per_ha, "area_ha": area_ha}, out, on_error, threads, progress)


def liquid_amount_in_mix(
    frame: Any = None, /, *, volume_fraction_ml_per_100_l: _Numbers = None, mix_l: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Volume of a product in a volume of mix, at a dose per volume of finished mix.

    Parameters
    ----------
    volume_fraction_ml_per_100_l
        product per finished mix, mL/100 L, 0 or more.
    mix_l
        finished mix, the product inside, L, 0 or more.

    Returns
    -------
    amount_l
        product, L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("liquid_amount_in_mix", ["amount_l"], frame, {"volume_fraction_ml_per_100_l": volume_fraction_ml_per_100_l, "mix_l": mix_l}, out, on_error, threads, progress)


def solid_amount_in_mix(
    frame: Any = None, /, *, mass_concentration_g_per_100_l: _Numbers = None, mix_l: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Mass of a product in a volume of mix, at a dose per volume of finished mix.

    Parameters
    ----------
    mass_concentration_g_per_100_l
        product per finished mix, g/100 L, 0 or more.
    mix_l
        finished mix, the product inside, L, 0 or more.

    Returns
    -------
    amount_kg
        product, kg.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("solid_amount_in_mix", ["amount_kg"], frame, {"mass_concentration_g_per_100_l": mass_concentration_g_per_100_l, "mix_l": mix_l}, out, on_error, threads, progress)


def liquid_dose(
    frame: Any = None, /, *, volume_fraction_ml_per_100_l: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Dose by volume per ground area that a dose per volume of mix comes to.

    Parameters
    ----------
    volume_fraction_ml_per_100_l
        product per finished mix, mL/100 L, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, 0 or more.

    Returns
    -------
    liquid_dose_l_per_ha
        volume of product per ground area, L/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("liquid_dose", ["liquid_dose_l_per_ha"], frame, {"volume_fraction_ml_per_100_l": volume_fraction_ml_per_100_l, "volume_rate_l_per_ha": volume_rate_l_per_ha}, out, on_error, threads, progress)


def solid_dose(
    frame: Any = None, /, *, mass_concentration_g_per_100_l: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Dose by mass per ground area that a dose per volume of mix comes to.

    Parameters
    ----------
    mass_concentration_g_per_100_l
        product per finished mix, g/100 L, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, 0 or more.

    Returns
    -------
    solid_dose_kg_per_ha
        mass of product per ground area, kg/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("solid_dose", ["solid_dose_kg_per_ha"], frame, {"mass_concentration_g_per_100_l": mass_concentration_g_per_100_l, "volume_rate_l_per_ha": volume_rate_l_per_ha}, out, on_error, threads, progress)


def volume_fraction(
    frame: Any = None, /, *, liquid_dose_l_per_ha: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Dose per volume of finished mix that a dose by volume per ground area comes to.

    Parameters
    ----------
    liquid_dose_l_per_ha
        volume of product per ground area, L/ha, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, above 0.

    Returns
    -------
    volume_fraction_ml_per_100_l
        product per finished mix, mL/100 L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("volume_fraction", ["volume_fraction_ml_per_100_l"], frame, {"liquid_dose_l_per_ha": liquid_dose_l_per_ha, "volume_rate_l_per_ha": volume_rate_l_per_ha}, out, on_error, threads, progress)


def mass_concentration(
    frame: Any = None, /, *, solid_dose_kg_per_ha: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Dose per volume of finished mix that a dose by mass per ground area comes to.

    Parameters
    ----------
    solid_dose_kg_per_ha
        mass of product per ground area, kg/ha, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, above 0.

    Returns
    -------
    mass_concentration_g_per_100_l
        product per finished mix, g/100 L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("mass_concentration", ["mass_concentration_g_per_100_l"], frame, {"solid_dose_kg_per_ha": solid_dose_kg_per_ha, "volume_rate_l_per_ha": volume_rate_l_per_ha}, out, on_error, threads, progress)


def substance_in_liquid_dose(
    frame: Any = None, /, *, content_g_per_l: _Numbers = None, liquid_dose_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Active substance per ground area in a dose by volume.

    Parameters
    ----------
    content_g_per_l
        active substance in the product, g/L, 0 or more.
    liquid_dose_l_per_ha
        volume of product per ground area, L/ha, 0 or more.

    Returns
    -------
    substance_kg_per_ha
        active substance per ground area, kg/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("substance_in_liquid_dose", ["substance_kg_per_ha"], frame, {"content_g_per_l": content_g_per_l, "liquid_dose_l_per_ha": liquid_dose_l_per_ha}, out, on_error, threads, progress)


def substance_in_solid_dose(
    frame: Any = None, /, *, content_g_per_kg: _Numbers = None, solid_dose_kg_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Active substance per ground area in a dose by mass.

    Parameters
    ----------
    content_g_per_kg
        active substance in the product, g/kg, 0 or more.
    solid_dose_kg_per_ha
        mass of product per ground area, kg/ha, 0 or more.

    Returns
    -------
    substance_kg_per_ha
        active substance per ground area, kg/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("substance_in_solid_dose", ["substance_kg_per_ha"], frame, {"content_g_per_kg": content_g_per_kg, "solid_dose_kg_per_ha": solid_dose_kg_per_ha}, out, on_error, threads, progress)


def liquid_dose_of_substance(
    frame: Any = None, /, *, content_g_per_l: _Numbers = None, substance_kg_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Dose by volume that gives an amount of active substance per ground area.

    Parameters
    ----------
    content_g_per_l
        active substance in the product, g/L, above 0.
    substance_kg_per_ha
        active substance per ground area, kg/ha, 0 or more.

    Returns
    -------
    liquid_dose_l_per_ha
        volume of product per ground area, L/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("liquid_dose_of_substance", ["liquid_dose_l_per_ha"], frame, {"content_g_per_l": content_g_per_l, "substance_kg_per_ha": substance_kg_per_ha}, out, on_error, threads, progress)


def solid_dose_of_substance(
    frame: Any = None, /, *, content_g_per_kg: _Numbers = None, substance_kg_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Dose by mass that gives an amount of active substance per ground area.

    Parameters
    ----------
    content_g_per_kg
        active substance in the product, g/kg, above 0.
    substance_kg_per_ha
        active substance per ground area, kg/ha, 0 or more.

    Returns
    -------
    solid_dose_kg_per_ha
        mass of product per ground area, kg/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("solid_dose_of_substance", ["solid_dose_kg_per_ha"], frame, {"content_g_per_kg": content_g_per_kg, "substance_kg_per_ha": substance_kg_per_ha}, out, on_error, threads, progress)


def liquid_mass(
    frame: Any = None, /, *, density_kg_per_l: _Numbers = None, volume_l: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Mass of a volume of a liquid.

    Parameters
    ----------
    density_kg_per_l
        density of the liquid, kg/L, above 0.
    volume_l
        its volume, L, 0 or more.

    Returns
    -------
    mass_kg
        its mass, kg.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("liquid_mass", ["mass_kg"], frame, {"density_kg_per_l": density_kg_per_l, "volume_l": volume_l}, out, on_error, threads, progress)


def liquid_volume(
    frame: Any = None, /, *, mass_kg: _Numbers = None, density_kg_per_l: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Volume of a mass of a liquid.

    Parameters
    ----------
    mass_kg
        mass of the liquid, kg, 0 or more.
    density_kg_per_l
        its density, kg/L, above 0.

    Returns
    -------
    volume_l
        its volume, L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("liquid_volume", ["volume_l"], frame, {"mass_kg": mass_kg, "density_kg_per_l": density_kg_per_l}, out, on_error, threads, progress)


def volume_rate(
    frame: Any = None, /, *, flow_l_per_min: _Numbers = None, speed_km_per_h: _Numbers = None, swath_m: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Volume rate at a flow, a speed over the ground and a swath.

    Parameters
    ----------
    flow_l_per_min
        flow of all open nozzles together, L/min, 0 or more.
    speed_km_per_h
        speed over the ground, km/h, above 0.
    swath_m
        treated width per pass, m, above 0.

    Returns
    -------
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("volume_rate", ["volume_rate_l_per_ha"], frame, {"flow_l_per_min": flow_l_per_min, "speed_km_per_h": speed_km_per_h, "swath_m": swath_m}, out, on_error, threads, progress)


def required_flow(
    frame: Any = None, /, *, volume_rate_l_per_ha: _Numbers = None, speed_km_per_h: _Numbers = None, swath_m: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Flow of all open nozzles that a volume rate takes.

    Parameters
    ----------
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, 0 or more.
    speed_km_per_h
        speed over the ground, km/h, 0 or more.
    swath_m
        treated width per pass, m, 0 or more.

    Returns
    -------
    flow_l_per_min
        flow of all open nozzles together, L/min.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("required_flow", ["flow_l_per_min"], frame, {"volume_rate_l_per_ha": volume_rate_l_per_ha, "speed_km_per_h": speed_km_per_h, "swath_m": swath_m}, out, on_error, threads, progress)


def required_speed(
    frame: Any = None, /, *, flow_l_per_min: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, swath_m: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Speed over the ground at which a flow gives a volume rate.

    Parameters
    ----------
    flow_l_per_min
        flow of all open nozzles together, L/min, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, above 0.
    swath_m
        treated width per pass, m, above 0.

    Returns
    -------
    speed_km_per_h
        speed over the ground, km/h.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("required_speed", ["speed_km_per_h"], frame, {"flow_l_per_min": flow_l_per_min, "volume_rate_l_per_ha": volume_rate_l_per_ha, "swath_m": swath_m}, out, on_error, threads, progress)


def required_swath(
    frame: Any = None, /, *, flow_l_per_min: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, speed_km_per_h: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Swath over which a flow gives a volume rate at a speed.

    Parameters
    ----------
    flow_l_per_min
        flow of all open nozzles together, L/min, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, L/ha, above 0.
    speed_km_per_h
        speed over the ground, km/h, above 0.

    Returns
    -------
    swath_m
        treated width per pass, m.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("required_swath", ["swath_m"], frame, {"flow_l_per_min": flow_l_per_min, "volume_rate_l_per_ha": volume_rate_l_per_ha, "speed_km_per_h": speed_km_per_h}, out, on_error, threads, progress)


def work_rate(
    frame: Any = None, /, *, speed_km_per_h: _Numbers = None, swath_m: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Ground treated in a time. Turning and filling are not in it.

    Parameters
    ----------
    speed_km_per_h
        speed over the ground, km/h, 0 or more.
    swath_m
        treated width per pass, m, 0 or more.

    Returns
    -------
    work_rate_ha_per_h
        ground treated in a time, ha/h.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("work_rate", ["work_rate_ha_per_h"], frame, {"speed_km_per_h": speed_km_per_h, "swath_m": swath_m}, out, on_error, threads, progress)


def spraying_time(
    frame: Any = None, /, *, area_ha: _Numbers = None, work_rate_ha_per_h: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Time that the nozzles are open over an area. Turning and filling are not in it.

    Parameters
    ----------
    area_ha
        ground to be treated, ha, 0 or more.
    work_rate_ha_per_h
        ground treated in a time, ha/h, above 0.

    Returns
    -------
    time_s
        time that the nozzles are open, s.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("spraying_time", ["time_s"], frame, {"area_ha": area_ha, "work_rate_ha_per_h": work_rate_ha_per_h}, out, on_error, threads, progress)


def flow(
    frame: Any = None, /, *, volume_l: _Numbers = None, time_s: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Flow from a volume that was caught in a time.

    Parameters
    ----------
    volume_l
        volume that was caught, L, 0 or more.
    time_s
        time for which it was caught, s, above 0.

    Returns
    -------
    flow_l_per_min
        flow, L/min.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("flow", ["flow_l_per_min"], frame, {"volume_l": volume_l, "time_s": time_s}, out, on_error, threads, progress)


def speed(
    frame: Any = None, /, *, distance_m: _Numbers = None, time_s: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Speed from a distance that was covered in a time.

    Parameters
    ----------
    distance_m
        distance over the ground, m, 0 or more.
    time_s
        time that it took, s, above 0.

    Returns
    -------
    speed_km_per_h
        speed over the ground, km/h.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("speed", ["speed_km_per_h"], frame, {"distance_m": distance_m, "time_s": time_s}, out, on_error, threads, progress)


def course_length(
    frame: Any = None, /, *, area_ha: _Numbers = None, swath_m: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Length of a course that a swath treats an area on.

    Parameters
    ----------
    area_ha
        ground of the course, ha, 0 or more.
    swath_m
        treated width per pass, m, above 0.

    Returns
    -------
    course_length_m
        length of the course, m.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("course_length", ["course_length_m"], frame, {"area_ha": area_ha, "swath_m": swath_m}, out, on_error, threads, progress)


def applied_point(
    frame: Any = None, /, *, distance_m: _Numbers = None, swath_m: _Numbers = None, overlap_m: _Numbers = None, applied_l_per_ha: _Numbers = None, target_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """One point of an as-applied log: ground that the swath treats, mix that went on it, mix that the target asks for on it, and the applied rate as a part of the target.

    Parameters
    ----------
    distance_m
        travelled since the point before, m, 0 or more.
    swath_m
        width of the open sections, m, 0 or more; 0 where the boom is closed.
    overlap_m
        what of the swath lies on ground treated before, where such ground is counted once, m, at most the swath; 0 where it is counted each time.
    applied_l_per_ha
        volume rate over the swath, as logged, L/ha, 0 or more.
    target_l_per_ha
        volume rate that was asked for, L/ha, above 0.

    Returns
    -------
    area_ha
        ground that the swath treats, without the overlap, ha.
    mix_l
        mix that went on it, L.
    target_mix_l
        mix that the target asks for on it, L.
    to_target
        the applied rate as a part of the target.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("applied_point", ["area_ha", "mix_l", "target_mix_l", "to_target"], frame, {"distance_m": distance_m, "swath_m": swath_m, "overlap_m": overlap_m, "applied_l_per_ha": applied_l_per_ha, "target_l_per_ha": target_l_per_ha}, out, on_error, threads, progress)


def water_density(
    frame: Any = None, /, *, temperature_c: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Density of pure water at a temperature from 0 to 40 °C.

    Parameters
    ----------
    temperature_c
        temperature of the water, °C, from 0 to 40.

    Returns
    -------
    density_kg_per_l
        its density, kg/L.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("water_density", ["density_kg_per_l"], frame, {"temperature_c": temperature_c}, out, on_error, threads, progress)


def flow_at_pressure(
    frame: Any = None, /, *, rated_flow_l_per_min: _Numbers = None, rated_pressure_kpa: _Numbers = None, pressure_kpa: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Flow of a nozzle at a pressure, by the square root of the pressure, from its flow at one pressure.

    Parameters
    ----------
    rated_flow_l_per_min
        flow of the nozzle at the rated pressure, L/min, above 0.
    rated_pressure_kpa
        pressure at which it has that flow, kPa, above 0.
    pressure_kpa
        pressure that is asked about, kPa, above 0.

    Returns
    -------
    flow_l_per_min
        flow at that pressure, L/min.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("flow_at_pressure", ["flow_l_per_min"], frame, {"rated_flow_l_per_min": rated_flow_l_per_min, "rated_pressure_kpa": rated_pressure_kpa, "pressure_kpa": pressure_kpa}, out, on_error, threads, progress)


def required_pressure(
    frame: Any = None, /, *, rated_flow_l_per_min: _Numbers = None, rated_pressure_kpa: _Numbers = None, flow_l_per_min: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Pressure at which a nozzle has a flow, by the square root of the pressure, from its flow at one pressure.

    Parameters
    ----------
    rated_flow_l_per_min
        flow of the nozzle at the rated pressure, L/min, above 0.
    rated_pressure_kpa
        pressure at which it has that flow, kPa, above 0.
    flow_l_per_min
        flow that is asked for, L/min, above 0.

    Returns
    -------
    pressure_kpa
        pressure that gives it, kPa.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("required_pressure", ["pressure_kpa"], frame, {"rated_flow_l_per_min": rated_flow_l_per_min, "rated_pressure_kpa": rated_pressure_kpa, "flow_l_per_min": flow_l_per_min}, out, on_error, threads, progress)


def delivered_liquid_dose(
    frame: Any = None, /, *, amount_l: _Numbers = None, amount_standard_uncertainty_l: _Numbers = None, mix_l: _Numbers = None, mix_standard_uncertainty_l: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, volume_rate_standard_uncertainty_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Dose by volume that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.

    Parameters
    ----------
    amount_l
        product in the mix, L, above 0.
    amount_standard_uncertainty_l
        its standard uncertainty, L, 0 or more.
    mix_l
        finished mix, L, above 0.
    mix_standard_uncertainty_l
        its standard uncertainty, L, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, as calibrated, L/ha, above 0.
    volume_rate_standard_uncertainty_l_per_ha
        its standard uncertainty, L/ha, 0 or more.

    Returns
    -------
    liquid_dose_l_per_ha
        volume of product per ground area, L/ha.
    liquid_dose_standard_uncertainty_l_per_ha
        its standard uncertainty, L/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("delivered_liquid_dose", ["liquid_dose_l_per_ha", "liquid_dose_standard_uncertainty_l_per_ha"], frame, {"amount_l": amount_l, "amount_standard_uncertainty_l": amount_standard_uncertainty_l, "mix_l": mix_l, "mix_standard_uncertainty_l": mix_standard_uncertainty_l, "volume_rate_l_per_ha": volume_rate_l_per_ha, "volume_rate_standard_uncertainty_l_per_ha": volume_rate_standard_uncertainty_l_per_ha}, out, on_error, threads, progress)


def delivered_solid_dose(
    frame: Any = None, /, *, amount_kg: _Numbers = None, amount_standard_uncertainty_kg: _Numbers = None, mix_l: _Numbers = None, mix_standard_uncertainty_l: _Numbers = None, volume_rate_l_per_ha: _Numbers = None, volume_rate_standard_uncertainty_l_per_ha: _Numbers = None, 
    out: Mapping[str, Any] | None = None, on_error: Literal["raise", "status"] = "raise", threads: int = 1, progress: _Progress = False,
) -> Any:
    """Dose by mass that reaches the ground, and its standard uncertainty, from what was measured into a mix and what the sprayer puts out.

    Parameters
    ----------
    amount_kg
        product in the mix, kg, above 0.
    amount_standard_uncertainty_kg
        its standard uncertainty, kg, 0 or more.
    mix_l
        finished mix, L, above 0.
    mix_standard_uncertainty_l
        its standard uncertainty, L, 0 or more.
    volume_rate_l_per_ha
        volume of mix per ground area, as calibrated, L/ha, above 0.
    volume_rate_standard_uncertainty_l_per_ha
        its standard uncertainty, L/ha, 0 or more.

    Returns
    -------
    solid_dose_kg_per_ha
        mass of product per ground area, kg/ha.
    solid_dose_standard_uncertainty_kg_per_ha
        its standard uncertainty, kg/ha.

    What a frame, `out`, `on_error`, `threads` and `progress` do stands at the head of this module.
    """
    return _columns.run("delivered_solid_dose", ["solid_dose_kg_per_ha", "solid_dose_standard_uncertainty_kg_per_ha"], frame, {"amount_kg": amount_kg, "amount_standard_uncertainty_kg": amount_standard_uncertainty_kg, "mix_l": mix_l, "mix_standard_uncertainty_l": mix_standard_uncertainty_l, "volume_rate_l_per_ha": volume_rate_l_per_ha, "volume_rate_standard_uncertainty_l_per_ha": volume_rate_standard_uncertainty_l_per_ha}, out, on_error, threads, progress)
