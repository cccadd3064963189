"""Air and water against the steam tables of two libraries."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS97

from kit.physics.gas.air import boiling_point_c, standard_pressure_pa, vapour_pressure_pa
from tests.coolprop import PropsSI

# Printed with the facts of the trade: IAPWS boiling point at the standard atmosphere's pressure (ISO 2533), geopotential metres.
AT_ALTITUDE = {0: 99.974, 500: 98.313, 1000: 96.649, 1500: 94.983, 2000: 93.315, 3000: 89.973}


@pytest.mark.parametrize("pressure_pa", np.linspace(60_000, 110_000, 6))
def test_boiling_point_agrees_with_iapws_95_and_if97(pressure_pa):
    boils = boiling_point_c(pressure_pa)
    assert boils == pytest.approx(PropsSI("T", "P", pressure_pa, "Q", 0, "Water") - 273.15, abs=0.005)
    assert boils == pytest.approx(IAPWS97(P=pressure_pa / 1e6, x=0).T - 273.15, abs=0.0005)


@pytest.mark.parametrize("altitude_m, expected", AT_ALTITUDE.items())
def test_boiling_point_by_altitude(altitude_m, expected):
    assert boiling_point_c(standard_pressure_pa(altitude_m)) == pytest.approx(expected, abs=0.005)


@pytest.mark.parametrize("temperature_c", [1, 20, 40, 60, 80, 100])
def test_vapour_pressure_agrees_with_iapws_95(temperature_c):
    assert vapour_pressure_pa(temperature_c) == pytest.approx(PropsSI("P", "T", temperature_c + 273.15, "Q", 0, "Water"), rel=5e-4)


@given(st.floats(61, 119))
def test_water_boils_where_its_vapour_has_the_pressure_of_the_air(temperature_c):
    assert boiling_point_c(vapour_pressure_pa(temperature_c)) == pytest.approx(temperature_c, abs=1e-6)


def test_arrays_in_arrays_out_and_higher_is_cooler():
    boils = boiling_point_c(standard_pressure_pa(np.linspace(-400, 9_000, 50)))
    assert boils.shape == (50,) and np.all(np.diff(boils) < 0)
