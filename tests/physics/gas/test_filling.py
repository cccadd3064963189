"""How a vessel fills, against scipy's solver and its own limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from kit.physics.gas import filling

litres, shares = st.floats(0.05, 20), st.floats(0, 0.9)


def solved(gas_l, vessel_l, headspace_l, start):
    """Shares in headspace and vessel while the gas drives mixture from one to the other and out."""

    def flow(_, y):
        return [(1 - y[0]) / headspace_l, (y[0] - y[1]) / vessel_l]

    return solve_ivp(flow, (0, gas_l), [start, start], rtol=1e-10, atol=1e-12, method="LSODA").y[1, -1]


@pytest.mark.parametrize("headspace_l", [0.05, 0.25, 1.5, 4.0])
@pytest.mark.parametrize("gas_l", [0.2, 1.0, 6.0])
def test_with_a_headspace_as_the_solver_has_it(gas_l, headspace_l):
    assert filling.headspace_share(gas_l, 1.5, headspace_l) == pytest.approx(solved(gas_l, 1.5, headspace_l, 420e-6), abs=1e-8)


@given(litres, litres, litres, shares)
def test_a_headspace_only_delays_and_layers_fill_best(gas_l, vessel_l, headspace_l, start):
    delayed, mixed, layered = (
        filling.headspace_share(gas_l, vessel_l, headspace_l, start),
        filling.mixed_share(gas_l, vessel_l, start),
        filling.layered_share(gas_l, vessel_l, start),
    )
    assert start - 1e-9 <= delayed <= mixed + 1e-9 and mixed <= layered + 1e-9 and layered <= 1


@given(litres, litres, shares)
def test_no_headspace_and_two_equal_ones_are_limits(gas_l, vessel_l, start):
    assert filling.headspace_share(gas_l, vessel_l, 0, start) == pytest.approx(filling.mixed_share(gas_l, vessel_l, start), abs=1e-9)
    near = filling.headspace_share(gas_l, vessel_l, vessel_l * (1 + 1e-9), start)
    assert filling.headspace_share(gas_l, vessel_l, vessel_l, start) == pytest.approx(near, abs=1e-8)


@given(litres, st.floats(0.01, 0.999))
def test_the_gas_needed_gives_the_share_wanted(vessel_l, wanted):
    assert filling.mixed_share(filling.gas_for_mixed_share_l(wanted, vessel_l), vessel_l) == pytest.approx(wanted)
    assert filling.layered_share(filling.gas_for_layered_share_l(wanted, vessel_l), vessel_l) == pytest.approx(wanted)


def test_a_vessel_that_has_the_share_already_needs_no_gas():
    assert filling.gas_for_mixed_share_l(0.2, 1.5, 0.3) == filling.gas_for_layered_share_l(0.2, 1.5, 0.3) == 0


def test_twice_the_gas_is_not_twice_the_share():
    """63 %, then 86 %: 1 - 1/e and 1 - 1/e^2, any table."""
    assert filling.mixed_share([1.5, 3.0], 1.5, 0.0) == pytest.approx([0.6321, 0.8647], abs=5e-5)


def test_arrays_in_arrays_out():
    gas = np.linspace(0, 5, 40)
    assert filling.headspace_share(gas, 1.5, 0.25).shape == (40,) and np.all(np.diff(filling.mixed_share(gas, 1.5)) > 0)
