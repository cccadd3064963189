"""The vessel: against a stiff solver, a textbook's single store, the first law, and laws of linear systems."""

import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from kit.faults import Fault
from kit.physics.vessel import Stage, Vessel, course, energy, steady_rise, time_constants, warming

VESSELS = st.builds(
    Vessel, st.floats(0.5, 300), st.floats(20, 1000), st.floats(0.2, 5), st.floats(0.2, 5), st.floats(0, 120)
)  # fmt: skip
POWERS = st.tuples(st.floats(0, 5), st.floats(0, 10))
TIMES = np.array([0, 1, 7, 60, 333, 900, 3600.0])


def stiffly(stages, times_s):
    """scipy's Radau through the same stages, in one go per stage."""
    state, out = np.zeros(3), []
    for stage, end in zip(stages, [*(each.start_s for each in stages[1:]), times_s[-1]]):
        inside = times_s[(times_s >= stage.start_s) & ((times_s < end) | (end == times_s[-1]))]
        found = solve_ivp(balance(stage), (stage.start_s, end), state, "Radau", t_eval=[*inside[inside < end], end], rtol=1e-9, atol=1e-11)
        out.append(found.y[:, : len(inside)])
        state = found.y[:, -1]
    return np.hstack(out)


def balance(stage):
    v = stage.vessel

    def slopes(_, rise):
        gas, wall, probe = rise
        across = v.gas_to_wall_w_per_k * (gas - wall)
        return (
            (stage.gas_w - across) / v.gas_j_per_k,
            (stage.wall_w + across - v.wall_to_room_w_per_k * wall) / v.wall_j_per_k,
            (gas + stage.probe_k - probe) / v.probe_lag_s,
        )

    return slopes


STAGES = [
    Stage(0, Vessel(24, 60, 0.24, 0.6, 12), 0.7, 2, 1.3),
    Stage(600, Vessel(24.5, 60, 0.16, 0.6, 12), 0.7, 2, 2.0),
    Stage(660, Vessel(24.5, 60, 0.16, 0.6, 300), 0.1, 0, 0),
]


def test_three_stages_agree_with_a_stiff_solver():
    times = np.linspace(0, 1500, 301)
    assert course(STAGES, times) == pytest.approx(stiffly(STAGES, times), abs=1e-7)


@pytest.mark.parametrize("nearness", [0, 1e-12, 1e-6, -1e-6])
def test_a_lag_equal_to_a_time_constant_of_the_vessel_is_no_trouble(nearness):
    quick, _ = time_constants(Vessel())
    stage = Stage(0, Vessel(probe_lag_s=quick * (1 + nearness)), 0.5, 3, 1)
    assert course([stage], TIMES) == pytest.approx(stiffly([stage], TIMES), abs=1e-7)


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


@given(VESSELS, st.floats(1, 800))
@settings(max_examples=100, deadline=None)
def test_a_stage_cut_in_two_changes_nothing(vessel, cut_s):
    whole = [Stage(0, vessel, 0.5, 2, 1)]
    assert course([*whole, Stage(cut_s, vessel, 0.5, 2, 1)], TIMES) == pytest.approx(course(whole, TIMES), abs=1e-9)


@pytest.mark.parametrize(
    "make, text",
    [
        (lambda: Vessel(gas_j_per_k=-2), "The heat capacity of the gas can't be -2 J/K here. Give 0.01 to 100,000 J/K."),
        (lambda: Vessel(wall_to_room_w_per_k=0), "The conductance from wall to room can't be 0 W/K here. Give 0.0001 to 1,000 W/K."),
        (lambda: Vessel(probe_lag_s=np.nan), "The thermometer's lag can't be nan s here. Give 0 to 10,000 s."),
        (lambda: warming(Vessel(), [0, -3], 1, 1), "The time can't be -3 s here. Give 0 to 864,000 s."),
        (lambda: steady_rise(Vessel(), np.inf, 1), "The power taken up can't be inf W here. Give -100,000 to 100,000 W."),
        (lambda: course(STAGES[::-1], TIMES), "Stages and times must run forward, and no time may come before the first stage."),
    ],
)
def test_what_can_not_be_is_refused_by_its_value(make, text):
    with pytest.raises(Fault) as caught:
        make()
    assert str(caught.value) == text


@pytest.mark.alone
def test_a_change_of_an_input_takes_less_than_20_ms():
    """Sixty stages, 1,200 readings; the least of several times, as the standard library's timeit advises: others use the machine, too."""
    stages = [Stage(20.0 * place, Vessel(24, 60, 0.24, 0.6, 12), 0.7, 2, 1.3) for place in range(60)]
    times, spent = np.arange(0, 1200, 1.0), []
    for _ in range(15):
        start = time.perf_counter()
        course(stages, times)
        spent.append(time.perf_counter() - start)
    assert min(spent) < 0.020
