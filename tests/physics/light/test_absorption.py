"""A short path of CO2, against other published correlations."""

import numpy as np
import pytest

from kit.physics.light import absorption


def sasamori_1968(u_cm):
    """Emissivity of CO2 for diffuse radiation, u in cm at 0 °C and one atmosphere (Sasamori 1968, as a public program gives it)."""
    return 0.0546 * np.log10(u_cm) + 0.0581


def test_the_range_holds_what_others_find_at_ten_centimetres():
    """Edwards' wide bands 0.089 (computed, coefficients from memory); Sasamori with the usual 1.66 for diffuse radiation."""
    least, most = absorption.co2_emissivity_range(0.1)
    assert (least, most) == (pytest.approx(0.07, abs=0.001), pytest.approx(0.11, abs=0.001))
    for other in (0.089, sasamori_1968(10 * 273.15 / 300 / 1.66)):
        assert least < other < most


def test_ordinary_air_takes_up_a_thousandth():
    """About 0.001 for 420 ppm over 10 cm at 300 K (Leckner 1972, computed)."""
    assert absorption.co2_emissivity(0.1, 420e-6) == pytest.approx(0.001, abs=1e-4)


def test_longer_and_richer_paths_take_up_more():
    assert np.all(np.diff(absorption.co2_emissivity(np.geomspace(0.01, 1, 30))) > 0)
    assert absorption.co2_emissivity(0.2, 0.5) == pytest.approx(absorption.co2_emissivity(0.1, 1.0))


def test_of_a_filament_pure_co2_takes_up_about_two_hundredths():
    """1.9 % by Edwards' wide bands (computed, coefficients from memory); never more than its two bands hold, 3.5 %."""
    computed = absorption.lamp_absorbed_share(0.1)
    low, high = (computed * factor for factor in absorption.EMISSIVITY_SPREAD)
    assert low < 0.019 < high < absorption.co2_band_shares(2700)[:2].sum()


def test_the_exchange_is_the_slope_of_stefan_and_boltzmann():
    """0.58 W/m2/K for emissivity 0.09 at 305 K, and the slope by a small difference."""
    slope = 0.09 * 5.670374419e-8 * (305.05**4 - 304.95**4) / 0.1
    assert absorption.exchange_w_m2_k(0.09, 31.85) == pytest.approx(slope, rel=1e-6) == pytest.approx(0.58, abs=0.002)
