"""Radiation against numerical integration and its own laws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from kit.physics.light import absorption, radiation

# Shares in %, of each source: 0.38-0.75, 0.75-2.7, > 2.7, > 4 µm, then CO2's bands. Planck's law integrated by scipy, computed.
SHARES = {
    2700: ([0.0702, 0.7533, 0.1761, 0.0713], [0.0266, 0.0085, 0.0016]),
    5772: ([0.4377, 0.4345, 0.0281, 0.0098], [0.0051, 0.0013, 0.0002]),
    310: ([0.0, 0.0, 1.0, 0.9971], [0.0, 0.0026, 0.1797]),
    288: ([0.0, 0.0, 1.0, 0.9986], [0.0, 0.0015, 0.1879]),
}
EDGES = ([0.38, 0.75, 2.7, 4.0], [0.75, 2.7, np.inf, np.inf])
temperatures = st.floats(100, 8000)


@pytest.mark.parametrize("kelvin", SHARES)
def test_bands_of_lamp_sun_wall_and_ground(kelvin):
    bands, in_co2 = SHARES[kelvin]
    assert radiation.blackbody_share(kelvin, *EDGES) == pytest.approx(bands, abs=6e-5)
    assert absorption.co2_band_shares(kelvin) == pytest.approx(in_co2, abs=6e-5)


@pytest.mark.parametrize("kelvin, low, high", [(2700, 0.38, 0.75), (300, 4, 20), (5772, 0.2, 3), (300, 40, 400)])
def test_a_band_is_the_area_under_the_planck_curve(kelvin, low, high):
    area, _ = quad(radiation.planck_w_m2_um, low, high, args=(kelvin,), epsrel=1e-10)
    assert radiation.blackbody_share(kelvin, low, high) == pytest.approx(area / radiation.exitance_w_m2(kelvin), rel=1e-6)


@given(temperatures)
def test_the_whole_is_one_and_the_series_meet(kelvin):
    assert radiation.blackbody_share(kelvin, 0, np.inf) == 1
    seam = radiation.SECOND_UM_K / kelvin
    assert radiation.blackbody_share(kelvin, seam * (1 - 1e-9), seam * (1 + 1e-9)) == pytest.approx(0, abs=1e-9)


@given(temperatures, st.lists(st.floats(0.3, 50), min_size=3, max_size=3))
def test_neighbouring_bands_add(kelvin, edges):
    low, middle, high = sorted(edges)
    parts = radiation.blackbody_share(kelvin, low, middle) + radiation.blackbody_share(kelvin, middle, high)
    assert parts == pytest.approx(radiation.blackbody_share(kelvin, low, high), abs=1e-12)


@given(temperatures)
def test_the_curve_is_highest_at_the_peak(kelvin):
    peak = radiation.peak_um(kelvin)
    around = radiation.planck_w_m2_um(peak * np.array([0.99, 1.0, 1.01]), kelvin)
    assert around.argmax() == 1


def test_glass_passes_most_of_a_filament_and_next_to_nothing_of_a_wall():
    """82 to 95 % of 2700 K lies below 2.7 and 4.5 µm; of 310 K under 1 % (Planck's law, edges from memory)."""
    assert radiation.passed_share(2700, "soda-lime glass") == pytest.approx((0.8239, 0.9467), abs=1e-4)
    assert max(radiation.passed_share(310, "soda-lime glass")) < 0.01
    assert radiation.passed_share(310, "thin polyethylene") == (1, 1)
