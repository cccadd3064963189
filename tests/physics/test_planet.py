"""The planet's balance and the assessed range of its warming."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.physics import planet
from kit.physics.light.radiation import exitance_w_m2


@given(st.floats(100, 5000), st.floats(0, 0.95), st.floats(0, 1))
def test_energy_out_is_energy_in(sun, albedo, absorbed_share):
    surface = exitance_w_m2(planet.layered_k(sun, albedo, absorbed_share))
    layer = absorbed_share * surface / 2
    assert (1 - absorbed_share) * surface + layer == pytest.approx(planet.absorbed_w_m2(sun, albedo))


def test_a_layer_that_takes_up_nothing_is_no_layer():
    assert planet.layered_k(absorbed_share=0) == planet.bare_rock_k()


@given(st.floats(150, 1000), st.floats(150, 1000), st.floats(150, 1000))
def test_forcings_add_along_the_way(first, second, third):
    assert planet.forcing_w_m2(third, first) == pytest.approx(planet.forcing_w_m2(second, first) + planet.forcing_w_m2(third, second), abs=1e-9)


def test_the_forcing_has_an_assessed_range():
    """3.93 ± 0.47 W/m2 for a doubling (IPCC AR6 WG1, chapter 7, executive summary); the older formula lies inside."""
    least, best, most = planet.effective_forcing_w_m2(556)
    assert (least, best, most) == pytest.approx((3.46, 3.93, 4.40))
    assert least < planet.forcing_w_m2(556) < most


@pytest.mark.parametrize("points", [planet.EQUILIBRIUM_K, planet.TRANSIENT_K])
def test_the_draws_have_the_assessed_quantiles(points):
    """Best 3, likely 2.5 to 4, very likely 2 to 5 K; transient 1.8, 1.4 to 2.2, 1.2 to 2.4 K (IPCC AR6 WG1, TS.3.2.1; transient from memory)."""
    found = np.quantile(planet.warming_draws_k(556, 278, points), planet.LEVELS)
    assert found == pytest.approx(points, rel=0.015)


def test_the_draws_are_the_same_every_time_and_follow_the_logarithm():
    assert np.array_equal(planet.warming_draws_k(420), planet.warming_draws_k(420))
    assert planet.warming_draws_k(800, 200) == pytest.approx(2 * planet.warming_draws_k(400, 200))
    assert np.all(planet.warming_draws_k(278) == 0)
