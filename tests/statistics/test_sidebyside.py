"""Two thermometers in one bath: slope and shift with errors that hold though neighbouring readings agree."""

import numpy as np
import pytest

from kit.bench.noise import displayed, wander
from kit.statistics.sidebyside import side_by_side

SECONDS = np.arange(0, 1200, 2.0)
BATH = 20 + 20 * -np.expm1(-SECONDS / 600)


def bath(seed, display_c=0.01):
    rng = np.random.default_rng(seed)
    return [displayed(each + wander(rng, SECONDS, 0.02, 20), display_c) for each in (1.004 * BATH + 0.3, BATH)]


def test_the_errors_hold_on_readings_that_agree_with_their_neighbours():
    lines = [side_by_side(SECONDS, *bath(seed)) for seed in range(60)]
    held = [abs(line.slope - (1 / 1.004 - 1)) <= 2 * line.slope_error for line in lines]
    assert np.mean(held) >= 0.9
    naive = np.median([np.std(bath(seed)[0] - bath(seed)[1] - 0.3 - 0.004 * BATH) for seed in range(5)]) / np.sqrt(600) / BATH.std()
    assert np.median([line.slope_error for line in lines]) > 2 * naive


def test_the_line_brings_one_reading_to_the_other():
    reading, other = bath(3)
    line = side_by_side(SECONDS, reading, other)
    assert np.mean(reading + line.at(reading) - other) == pytest.approx(0, abs=3 * line.intercept_error)


def test_a_coarse_display_leaves_its_own_uncertainty():
    fine, coarse = (side_by_side(SECONDS, *bath(3, display_c)) for display_c in (0.01, 0.5))
    assert coarse.intercept_error >= 0.5 * np.sqrt(2 / 12) > fine.intercept_error
