"""The curves that are taken out of a record before its noise is read."""

import numpy as np
import pytest

from kit.statistics.readings.trend import best_trend, rising_trends, settling_trends


@pytest.mark.parametrize(
    "step, before, after, terms",
    [
        (5.0, 60, 600, 5),  # level and four rises
        (5.0, 300, 600, 6),  # and a drift
        (60.0, 120, 660, 3),  # a record by hand tells fewer rises apart
    ],
)
def test_a_record_gets_as_many_terms_as_it_can_tell_apart(step, before, after, terms):
    times = np.arange(0, before + after + 1, step)
    assert rising_trends(times, before, step).shape[2] == terms


def test_delays_stay_within_the_first_third_after_the_change():
    times = np.arange(0, 181.0, 5)
    assert len(rising_trends(times, 60, 5.0)) == 9


@pytest.mark.parametrize("delay, tau", [(0, 30), (20, 60), (45, 200)])
def test_a_rise_is_found_with_its_delay_and_leaves_next_to_nothing(delay, tau):
    times = np.arange(0, 700.0, 5)
    values = 20 + 1.5 * (1 - np.exp(-np.maximum(times - 100 - delay, 0) / tau))[:, None]
    designs = rising_trends(times, 100, 5.0)
    best = best_trend(designs, values)[0]
    left = values - designs[best] @ np.linalg.lstsq(designs[best], values)[0]
    assert best == delay / 5
    assert abs(left).max() < 0.02 * 1.5


@pytest.mark.parametrize("tau", [150, 244, 350])
def test_a_lamp_that_still_warms_a_vessel_is_taken_out(tau):
    times = np.arange(0, 1200.0, 5)
    values = 28 - 8 * np.exp(-times / tau)[:, None]
    design = settling_trends(times, rising_trends(times, 600, 5.0))[0]
    assert abs(values - design @ np.linalg.lstsq(design, values)[0]).max() < 0.01
