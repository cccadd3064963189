"""A display's step: found from readings, and what it hides in a mean."""

import numpy as np
import pytest

from kit.statistics.readings.display import display_step, mean_uncertainty


@pytest.mark.parametrize(
    "readings, step",
    [
        ([21.3, 21.4, 21.4, 21.8], 0.1),
        ([20.0, 20.5, 22.0], 0.5),
        ([21.11, 21.11 + 1e-12, 21.61], 0.5),
        ([21.0, 21.0, 21.0], 0.0),
    ],
)
def test_the_step_is_the_smallest_difference_of_distinct_readings(readings, step):
    assert display_step(np.array(readings)) == pytest.approx(step)


def test_runs_are_told_apart():
    assert display_step(np.array([[1.0, 1.1, 1.3], [1.0, 1.5, 1.0]])) == pytest.approx([0.1, 0.5])


@pytest.mark.parametrize("noise", [0.0, 0.1, 0.15])
def test_simulated_displays_hide_no_more_than_is_told_and_no_less_than_half(noise):
    """Levels of any phase, read by a display of step 1 through white noise: the error of the mean of 10,000 readings, as its root mean square."""
    rng = np.random.default_rng(8)
    levels = rng.uniform(0, 1, (300, 1))
    shown = np.round(levels + noise * rng.standard_normal((300, 10_000)))
    error = np.sqrt(np.mean((shown.mean(1) - levels[:, 0]) ** 2))
    told = np.sqrt(np.mean(mean_uncertainty(shown, 1.0) ** 2))
    assert 0.95 * error < told < 2 * error


def test_noise_of_a_step_lets_the_mean_see_between_the_steps():
    shown = np.round(np.random.default_rng(1).standard_normal(1000))
    assert mean_uncertainty(shown, 1.0) < 1e-6


def test_one_reading_hides_all_of_the_step():
    assert mean_uncertainty(np.array([21.3]), 0.1) == pytest.approx(0.1 / 12**0.5)
