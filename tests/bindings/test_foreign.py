"""Quantities of pint and astropy, which mixcalc does not import."""

import subprocess
import sys

import astropy.units
import numpy
import pint
import pytest

import mixcalc
from mixcalc import Area, Quantity, Temperature, UnitError, Volume, VolumePerArea, VolumeRate

ureg = pint.UnitRegistry()
u = astropy.units


def test_neither_is_imported():
    code = "import sys, mixcalc; print({'pint', 'astropy', 'numpy', 'pandas', 'polars', 'json', 'pathlib'} & set(sys.modules))"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "set()\n"


@pytest.mark.parametrize(
    "given, expected",
    [
        (300 * ureg.liter / ureg.hectare, VolumePerArea("300 L/ha")),
        (20 * ureg.gallon, Volume("20 US gal")),
        (20 * ureg.imperial_gallon, Volume("20 imp gal")),
        (3 * ureg.acre, Area("3 [acr_us]")),  # pint's acre is the one of the US survey
        (ureg.Quantity(21, "degC"), Temperature("21 °C")),
        (ureg.Quantity(70, "degF"), Temperature("70 °F")),
        (2 * ureg.dimensionless, mixcalc.Ratio("200 %")),
        (5 * ureg.meter / ureg.second, mixcalc.Speed("5 m/s")),
        (40 * ureg.psi, mixcalc.Pressure("40 psi")),
        (4 * ureg.cm**3, Volume("4 mL")),
        (300 * u.l / u.m**2, VolumePerArea("300 L/m2")),
        (2.5 * u.l, Volume("2.5 L")),
        (21 * u.deg_C, Temperature("21 °C")),
        (2 * u.dimensionless_unscaled, mixcalc.Ratio("200 %")),
        (5 * u.m**2, Area("5 m2")),
        (3 * u.imperial.ft, mixcalc.Length("3 ft")),
        (2 * u.imperial.lb, mixcalc.Mass("2 lb")),
        (1.5 * u.km / u.h, mixcalc.Speed("1.5 km/h")),
        (3 * u.kg, mixcalc.Mass("3 kg")),
        (numpy.float32(3) * u.kg, mixcalc.Mass("3 kg")),
    ],
    ids=str,
)
def test_taken(given, expected):
    taken = Quantity(given)
    assert taken.kind == expected.kind and taken.is_close(expected)


def test_the_size_of_a_unit_is_that_of_its_registry():
    own = pint.UnitRegistry()
    own.define("gallon = 5 * liter")
    assert Quantity(2 * own.gallon).is_close("10 L")


def test_a_unit_of_another_size_goes_by_base_units():
    """astropy's gallon is rounded, so that its rate is not ours to the last digits."""
    rate = VolumeRate(20 * u.imperial.gallon / u.imperial.ac)
    assert rate.to("US gal/ac") == pytest.approx(20, rel=1e-8) and rate.to("US gal/ac") != 20


def test_what_a_registry_cannot_tell_is_claimed_by_the_slot():
    rate = 20 * ureg.gallon / ureg.acre
    job = mixcalc.Tank(nominal=16 * ureg.liter)
    assert job == mixcalc.Tank(nominal="16 L")
    assert VolumeRate(rate).kind == "volume rate"
    with pytest.raises(UnitError, match="nominal: must be a volume"):
        mixcalc.Tank(nominal=16 * ureg.kilogram)


@pytest.mark.parametrize("array", [numpy.array([1.0, 2.0]) * ureg.liter, numpy.array([1.0, 2.0]) * u.l], ids=["pint", "astropy"])
def test_an_array_is_no_quantity(array):
    with pytest.raises(TypeError):
        Quantity(array)


@pytest.mark.parametrize(
    "quantity", [3 * ureg.ampere, 3 * u.A, 3 * u.mol, 20 * ureg.degree, 3 * u.rad, ureg.Quantity(5, "delta_degC")], ids=str
)
def test_another_dimension_is_refused(quantity):
    with pytest.raises((TypeError, UnitError)):
        Quantity(quantity)


@pytest.mark.parametrize(
    "text", ["300 L/ha", "20 US gal/ac", "16 L", "21 °C", "70 °F", "0.25 % v/v", "250 g/L", "50 %", "2 [acr_us]", "12 US fl oz/ac", "3 bar"]
)
def test_given_back(text):
    quantity = Quantity(text)
    given = quantity.to_pint(ureg)
    assert isinstance(given, ureg.Quantity)
    base = given.to_base_units().magnitude
    assert base == pytest.approx(quantity._in_base_units()[0], rel=1e-12)
    again = Quantity(given)
    assert again.to(quantity.unit) == pytest.approx(quantity.value, rel=1e-12)


def test_comparison_beside_pint_never_raises():
    assert Volume("1 L") == 1 * ureg.liter and not Volume("1 L") == 1 * ureg.meter
    assert not 1 * ureg.meter == Volume("1 L")
    with pytest.raises(TypeError):
        float(Volume("1 L"))


def test_given_back_in_the_same_unit_where_the_registry_has_it():
    assert str(Quantity("300 L/ha").to_pint(ureg).units) == "liter / hectare"
    assert Quantity("2.5 L").to_pint().magnitude == 2.5
