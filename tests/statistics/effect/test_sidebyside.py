"""Two thermometers in one bath: slope and shift with errors that hold though neighbouring readings agree."""

import numpy as np
import pytest

from kit.bench.noise import displayed, wander
from kit.statistics.effect.sidebyside import side_by_side

SECONDS = np.arange(0, 1200, 2.0)
BATH = 20 + 20 * -np.expm1(-SECONDS / 600)


def bath(seed, display_c=0.01):
    rng = np.random.default_rng(seed)
    return [displayed(each + wander(rng, SECONDS, 0.02, 20), display_c) for each in (1.004 * BATH + 0.3, BATH)]


def test_the_errors_hold_on_readings_that_agree_with_their_neighbours():
    lines = [side_by_side(SECONDS, *bath(seed)).line for seed in range(60)]
    held = [abs(line.slope - (1 / 1.004 - 1)) <= 2 * line.slope_error for line in lines]
    assert np.mean(held) >= 0.9
    naive = np.median([np.std(bath(seed)[0] - bath(seed)[1] - 0.3 - 0.004 * BATH) for seed in range(5)]) / np.sqrt(600) / BATH.std()
    assert np.median([line.slope_error for line in lines]) > 2 * naive


def test_the_line_brings_one_reading_to_the_other():
    reading, other = bath(3)
    line = side_by_side(SECONDS, reading, other).line
    assert np.mean(reading + line.at(reading) - other) == pytest.approx(0, abs=3 * line.intercept_error)


def test_a_coarse_display_leaves_its_own_uncertainty():
    fine, coarse = (side_by_side(SECONDS, *bath(3, display_c)).line for display_c in (0.01, 0.5))
    assert coarse.intercept_error >= 0.5 * np.sqrt(2 / 12) > fine.intercept_error


UP_AND_DOWN = 30 + 8 * np.sin(2 * np.pi * SECONDS / 700)


def pair(seed, treated, control=UP_AND_DOWN):
    rng = np.random.default_rng(seed)
    return [displayed(each + wander(rng, SECONDS, 0.01, 10), 0.01) for each in (treated, control)]


def late(seconds):
    return 30 + 8 * np.sin(2 * np.pi * (SECONDS - seconds) / 700)


def test_a_lag_is_told_from_a_scale_where_the_bath_goes_up_and_down():
    found = [side_by_side(SECONDS, *pair(seed, late(3.0))) for seed in range(10)]
    assert np.median([each.lag_s for each in found]) == pytest.approx(3, abs=0.6) and not any(each.lag_hides for each in found)
    assert all(abs(each.line.slope) <= 3 * each.line.slope_error for each in found)


def test_where_the_bath_only_warms_a_lag_hides_behind_the_scale():
    assert all(side_by_side(SECONDS, *bath(seed)).lag_hides for seed in range(5))


def test_a_bow_is_seen_and_widens_the_scale():
    bow = 0.2 * ((UP_AND_DOWN - 30) / 8) ** 2
    straight, bent = (side_by_side(SECONDS, *pair(2, UP_AND_DOWN + more)) for more in (0, bow))
    assert straight.bend_c == 0 and abs(bent.bend_c) == pytest.approx(0.1, abs=0.03)
    assert bent.line.slope_error > 3 * straight.line.slope_error


def test_two_good_thermometers_have_neither():
    found = [side_by_side(SECONDS, *pair(seed, 1.004 * UP_AND_DOWN)) for seed in range(40)]
    assert sum(each.bend_c != 0 for each in found) <= 2 and sum(each.lag_s != 0 for each in found) <= 2
