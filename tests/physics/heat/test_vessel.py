"""The vessel: against a stiff solver, a textbook's single store, the first law, and laws of linear systems."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from kit.faults import Fault
from kit.physics.heat.vessel import energy, powers_out, steady_rise, time_constants, Vessel, warming

VESSELS = st.builds(
    Vessel, st.floats(0.5, 300), st.floats(20, 1000), st.floats(0.2, 5), st.floats(0.2, 5), st.floats(0, 120)
)  # fmt: skip
POWERS = st.tuples(st.floats(0, 5), st.floats(0, 10))
TIMES = np.array([0, 1, 7, 60, 333, 900, 3600.0])


def stiffly(vessel, powers, probe_k, times_s):
    """scipy's Radau on the same balance."""

    def slopes(_, rise):
        gas, wall, probe = rise
        across = vessel.gas_to_wall_w_per_k * (gas - wall)
        return (
            (powers[0] - across) / vessel.gas_j_per_k,
            (powers[1] + across - vessel.wall_to_room_w_per_k * wall) / vessel.wall_j_per_k,
            (gas + probe_k - probe) / vessel.probe_lag_s,
        )

    return solve_ivp(slopes, (0, times_s[-1]), np.zeros(3), "Radau", t_eval=times_s, rtol=1e-9, atol=1e-11).y


@pytest.mark.parametrize("nearness", [0, 1e-12, 1e-6, -1e-6])
def test_a_lag_equal_to_a_time_constant_of_the_vessel_is_no_trouble(nearness):
    quick, _ = time_constants(Vessel())
    vessel = Vessel(probe_lag_s=quick * (1 + nearness))
    assert warming(vessel, TIMES, 0.5, 3, probe_k=1) == pytest.approx(stiffly(vessel, (0.5, 3), 1, TIMES), abs=1e-7)


def test_a_tightly_coupled_vessel_warms_like_one_store():
    """One lumped store: T = P/U (1 - exp(-U t / C)), Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, eq. 5.25 (from memory)."""
    vessel = Vessel(gas_j_per_k=2, wall_j_per_k=118, gas_to_wall_w_per_k=1000, wall_to_room_w_per_k=0.5)
    lone = 4 / 0.5 * -np.expm1(-TIMES * 0.5 / 120)
    assert warming(vessel, TIMES, 0, 4)[1] == pytest.approx(lone, abs=1e-4)


@given(VESSELS, POWERS)
@settings(max_examples=200, deadline=None)
def test_no_energy_is_made_or_lost(vessel, powers):
    supplied, stored, lost = energy(vessel, TIMES, *powers)
    assert np.abs(supplied - stored - lost).max() <= 1e-9 * supplied[-1] + 1e-12


@given(VESSELS, POWERS)
@settings(max_examples=100, deadline=None)
def test_long_after_the_lamp_went_on_the_rise_is_the_steady_one(vessel, powers):
    late = 30 * (time_constants(vessel)[1] + vessel.probe_lag_s)
    gas, wall, probe = warming(vessel, late, *powers, probe_k=1)[:, 0]
    assert (gas, wall, probe - 1) == pytest.approx((*steady_rise(vessel, *powers), gas), abs=1e-9)


@given(VESSELS, POWERS)
@settings(max_examples=100, deadline=None)
def test_twice_the_lamp_gives_twice_the_rise(vessel, powers):
    once, twice = (warming(vessel, TIMES, *np.multiply(powers, times)) for times in (1, 2))
    assert twice == pytest.approx(2 * once, rel=1e-9, abs=1e-9)


@given(st.floats(0.02, 0.2), st.floats(0.3, 3), POWERS)
@settings(max_examples=100, deadline=None)
def test_with_an_open_mouth_out_equals_in_at_the_level(mouth_m, exchange, powers):
    vessel = Vessel(mouth_m=mouth_m, exchange=exchange)
    assert sum(powers_out(vessel, *steady_rise(vessel, *powers))) == pytest.approx(sum(powers), abs=1e-9)


def test_a_wider_mouth_lowers_the_level_and_a_thicker_wall_does_not():
    shut, narrow, wide = (steady_rise(Vessel(mouth_m=width), 0.1, 4)[0] for width in (0, 0.065, 0.1))
    assert shut > narrow > wide > 0
    assert steady_rise(Vessel(mouth_m=0.065, wall_j_per_k=240), 0.1, 4)[0] == narrow


def test_many_vessels_at_once_are_each_as_if_alone():
    widths = np.array([0.0, 0.05, 0.1])
    alone = [steady_rise(Vessel(mouth_m=width), 0.1, 4)[0] for width in widths]
    assert steady_rise(Vessel(mouth_m=widths), 0.1, 4)[0] == pytest.approx(alone, abs=1e-12)


@pytest.mark.parametrize(
    "make, text",
    [
        (lambda: Vessel(gas_j_per_k=-2), "The heat capacity of the gas can't be -2 J/K here. Give 0.01 to 100,000 J/K."),
        (lambda: Vessel(wall_to_room_w_per_k=0), "The conductance from wall to room can't be 0 W/K here. Give 0.0001 to 1,000 W/K."),
        (lambda: Vessel(probe_lag_s=np.nan), "The thermometer's lag can't be nan s here. Give 0 to 10,000 s."),
        (lambda: warming(Vessel(), [0, -3], 1, 1), "The time can't be -3 s here. Give 0 to 864,000 s."),
        (lambda: steady_rise(Vessel(), np.inf, 1), "The power taken up can't be inf W here. Give -100,000 to 100,000 W."),
        (lambda: Vessel(mouth_m=-0.1), "The width of the mouth can't be -0.1 m here. Give 0 to 1 m."),
        (
            lambda: warming(Vessel(mouth_m=0.07), TIMES, 0.1, 4),
            "There is no closed formula for an open mouth. Follow it with kit.physics.course, or set mouth_m to 0.",
        ),
    ],
)
def test_what_can_not_be_is_refused_by_its_value(make, text):
    with pytest.raises(Fault) as caught:
        make()
    assert str(caught.value) == text
