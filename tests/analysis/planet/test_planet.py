"""A planet's balance and its warming, always with a range."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.analysis.planet.planet import planet_balance, planet_warming
from kit.faults import Fault


def test_earth_bare_and_under_one_layer():
    """-18.6 and 29.6 °C for 1361 W/m2 and 0.30 (energy balance, computed); observed about 15 °C."""
    earth = planet_balance()
    assert (earth.bare_c, earth.surface_c) == (pytest.approx(254.58 - 273.15, abs=0.01), pytest.approx(302.75 - 273.15, abs=0.01))
    assert earth.bare_range.holds(earth.bare_c) and earth.surface_range.holds(earth.surface_c)
    assert str(earth) == (
        "In: 238.2 W/m². Out equals in at −18.6 °C bare (−19 to −18 °C), at 29.6 °C under the layer (29 to 31 °C). Observed: about 15 °C."
    )


@given(st.floats(500, 2500), st.floats(0.05, 0.9), st.floats(0, 1))
def test_the_curve_crosses_the_sunlight_where_the_planet_settles(sun, albedo, taken):
    planet = planet_balance(sun, albedo, taken)
    if -60 < planet.surface_c < 60:
        leaves = np.interp(planet.surface_c, planet.curve["surface_c"], planet.curve["leaves_w_m2"])
        assert leaves == pytest.approx(planet.absorbed_w_m2, rel=1e-4)


def test_a_doubling_warms_by_the_assessed_range():
    """3 K in the end, very likely 2 to 5, likely 2.5 to 4; 1.8 K (1.2 to 2.4) meanwhile (IPCC AR6 WG1, TS.3.2.1; transient from memory)."""
    warming = planet_warming(556, 278)
    ends, meanwhile = warming.in_the_end, warming.meanwhile
    assert (ends.low, ends.value, ends.high) == pytest.approx((2, 3, 5), rel=0.015)
    assert (warming.likely.low, warming.likely.high) == pytest.approx((2.5, 4), rel=0.015)
    assert (meanwhile.low, meanwhile.value, meanwhile.high) == pytest.approx((1.2, 1.8, 2.4), rel=0.015)
    assert ends.level == 0.90


def test_the_measured_rise_as_forcing_and_range():
    """316.0 to 369.4 ppm: 5.35 ln(369.4/316.0) = 0.835 W/m2 (Myhre et al. 1998, computed)."""
    warming = planet_warming(369.4, 316.0)
    assert warming.forcing.value_w_m2 == pytest.approx(0.835, abs=0.001)
    assert warming.forcing.effective.holds(warming.forcing.value_w_m2)
    assert warming.in_the_end.low < warming.likely.low < warming.likely.high < warming.in_the_end.high


def test_less_co2_cools():
    assert planet_warming(200, 278).in_the_end.high < 0 > planet_warming(200, 278).likely.high


def test_beyond_the_formula_nothing_is_said():
    with pytest.raises(Fault) as caught:
        planet_warming(10_000)
    assert str(caught.value) == (
        "The CO2 can't be 10,000 ppm here. Give 150 to 1,000 ppm. The formula was fitted to the CO2 of the past and the near future."
    )
