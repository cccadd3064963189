"""Where water boils, and how sure that is."""

import pytest

from kit.analysis.thermometers.boiling import boiling_point
from kit.faults import Fault


def test_by_altitude_the_weather_makes_it_a_range():
    """96.65 °C at 1000 m (IAPWS, ISO 2533); ± 3,000 Pa move it by about ± 0.9 °C (IAPWS, computed)."""
    boils = boiling_point(altitude_m=1000)
    assert boils.temperature.value == pytest.approx(96.65, abs=0.005)
    assert boils.temperature.standard_error == pytest.approx(0.92 / 3**0.5, abs=0.02)


def test_a_barometer_is_much_surer():
    """99.042 °C at 98,000 Pa (IAPWS-95 by CoolProp 8.0.0)."""
    boils = boiling_point(pressure_pa=98_000)
    assert boils.temperature.value == pytest.approx(99.042, abs=0.005) and boils.temperature.half_width < 0.05
    assert str(boils) == "Water boils at 99.04 °C (95 %: 99.01 to 99.07 °C) here, from a barometer that shows 98000 Pa."


@pytest.mark.parametrize("given", [{}, {"altitude_m": 100, "pressure_pa": 100_000}])
def test_one_of_the_two_is_needed(given):
    with pytest.raises(Fault) as caught:
        boiling_point(**given)
    assert str(caught.value) == "Give either altitude_m, in metres above sea level, or pressure_pa, read from a barometer. One of them, not both."
