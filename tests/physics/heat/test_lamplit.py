"""One vessel under a lamp: the bars balance, and the sizes that lessons speak of."""

import time

import numpy as np
import pytest

from kit.physics.heat.lamplit import lamp_lit
from kit.physics.heat.vessel import Vessel, warming

MOUTHS = [0.0, 0.065, 0.1]


@pytest.mark.parametrize("mouth_m", MOUTHS)
def test_at_the_level_out_equals_in(mouth_m):
    found = lamp_lit(Vessel(mouth_m=mouth_m))
    assert sum(found.level_out_w) == pytest.approx(found.in_w, abs=1e-9)


@pytest.mark.parametrize("mouth_m", MOUTHS)
def test_what_does_not_leave_warms_the_vessel(mouth_m):
    """First law: stored heat = in less out, integrated over the course."""
    found = lamp_lit(Vessel(mouth_m=mouth_m))
    left_over = np.trapezoid(found.in_w - found.through_wall_w - found.through_mouth_w, found.times_s)
    assert 2 * found.gas_k[-1] + 120 * found.wall_k[-1] == pytest.approx(left_over, rel=0.01)


def test_twice_the_store_takes_twice_as_long_to_the_same_level():
    """24 instead of 12 min: time constants 244 and 484 s, times ln 20 (closed form of two stores)."""
    thin, thick = (lamp_lit(Vessel(wall_j_per_k=stored)) for stored in (120, 240))
    assert thin.level_k == thick.level_k
    assert (thin.nearly_s / 60, thick.nearly_s / 60) == pytest.approx((12.2, 24.0), abs=0.1)


def test_half_the_way_out():
    """Twice as warm and twice as long with the mouth shut; 1.7 and 1.8 times with a mouth of 6.5 cm."""
    grown = {}
    for mouth_m in (0.0, 0.065):
        usual, half = (lamp_lit(Vessel(mouth_m=mouth_m, wall_to_room_w_per_k=out)) for out in (0.5, 0.25))
        grown[mouth_m] = half.level_k / usual.level_k, half.nearly_s / usual.nearly_s
    assert grown[0.0] == pytest.approx((2.0, 2.0), abs=0.05) and grown[0.065] == pytest.approx((1.7, 1.8), abs=0.05)


def test_coarse_steps_are_fine_enough():
    found = lamp_lit(Vessel())
    assert found.gas_k == pytest.approx(warming(Vessel(), found.times_s, 0.1, 4)[0], abs=1e-9)
    openly, finely = lamp_lit(Vessel(mouth_m=0.1)), lamp_lit(Vessel(mouth_m=0.1), until_s=2000)
    at = np.linspace(60, 1900, 50)
    assert np.interp(at, openly.times_s, openly.gas_k) == pytest.approx(np.interp(at, finely.times_s, finely.gas_k), abs=0.03)


@pytest.mark.alone
def test_it_follows_the_hand():
    """The least of several times, as timeit advises."""
    spent = []
    for _ in range(10):
        start = time.perf_counter()
        lamp_lit(Vessel(mouth_m=0.065))
        spent.append(time.perf_counter() - start)
    assert min(spent) < 0.010
