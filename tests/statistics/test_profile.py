"""All curves that a record allows: against the same likelihood written out in full, and the laws of its ranges."""

import numpy as np
import pytest

from kit.bench.noise import wander
from kit.statistics.profile import allowed_rises, joined, without_level
from kit.statistics.rise import saturating

ROOM, DELAYS = 3.84, (120.0, 180.0)


def record(noise_c=0.02, time_constant=150.0, seed=1, end_s=720):
    times = np.arange(2.5, end_s, 5.0)
    covariance = noise_c**2 * np.exp(-np.abs(np.subtract.outer(times, times)) / 20)
    values = 0.3 + saturating(times, time_constant, 140) + wander(np.random.default_rng(seed), times, noise_c, 20)
    return times, values, covariance


def allowed(times, values, covariance, delays=DELAYS):
    return allowed_rises(times, values, without_level(np.linalg.inv(covariance)), delays, room=ROOM)


def squares_in_full(times, values, covariance, time_constant, delay):
    """Generalised least squares of level and rise by a Cholesky factor: sum of squares, rise, its standard error."""
    root = np.linalg.cholesky(covariance)
    design = np.linalg.solve(root, np.stack([np.ones_like(times), saturating(times, time_constant, delay)], axis=1))
    seen = np.linalg.solve(root, values)
    found, rss, *_ = np.linalg.lstsq(design, seen, rcond=None)
    return rss[0], found[1], np.sqrt(np.linalg.inv(design.T @ design)[1, 1])


def test_each_allowed_curve_is_what_full_least_squares_gives():
    numbers = record()
    found = allowed(*numbers)
    for place in range(0, len(found.rises), len(found.rises) // 20):
        rss, rise, error = squares_in_full(*numbers, found.time_constants_s[place], found.delays_s[place])
        assert rise == pytest.approx(found.rises[place], rel=1e-7)
        assert found.reaches[place] == pytest.approx(error * np.sqrt(max(found.squares + ROOM - rss, 0)), abs=1e-6)


def test_the_best_curve_is_at_least_as_good_as_any_on_a_fine_grid():
    numbers = record()
    best = min(squares_in_full(*numbers, tau, delay)[0] for tau in np.linspace(120, 190, 29) for delay in np.linspace(120, 180, 25))
    assert allowed(*numbers).squares <= best + 0.01


def test_the_ends_of_the_time_constant_lie_where_the_squares_have_risen_by_the_room():
    numbers = record()
    found = allowed(*numbers)
    for end in found.time_constant_s:
        profiled = min(squares_in_full(*numbers, end, delay)[0] for delay in np.linspace(*DELAYS, 121))
        assert profiled - found.squares == pytest.approx(ROOM, abs=0.25)


def test_shifting_doubling_and_turning_the_values():
    times, values, covariance = record()
    one, other = allowed(times, values, covariance), allowed(times, 7 - 2 * values, 4 * covariance)
    assert other.time_constant_s == pytest.approx(one.time_constant_s)
    assert sorted(other.range_at(np.inf)) == pytest.approx(sorted(-2 * end for end in one.range_at(np.inf)))


def test_a_short_record_leaves_the_time_constant_open_above():
    found = allowed(*record(time_constant=3000.0))
    assert found.time_constant_s[1] == np.inf and found.time_constant_s[0] > 0


def test_the_range_within_the_record_is_narrower_than_that_of_the_whole_rise():
    found = allowed(*record(time_constant=600.0))
    (low, middle, whole), (high, mid, top) = found.range_at(np.array([700.0, 1400.0, np.inf]))
    assert high - low < mid - middle < top - whole


def test_nothing_has_risen_before_the_earliest_delay():
    assert allowed(*record()).range_at(100.0) == (0, 0)


def test_no_delay_is_outside_what_was_asked():
    low, high = allowed(*record()).delay_s
    assert DELAYS[0] <= low <= 140 <= high <= DELAYS[1]


def test_joined_curves_hold_all_of_each():
    one, other = allowed(*record(seed=1)), allowed(*record(seed=2))
    both = joined([one, other])
    assert both.range_at(np.inf)[0] == min(one.range_at(np.inf)[0], other.range_at(np.inf)[0])
    assert both.time_constant_s[1] == max(one.time_constant_s[1], other.time_constant_s[1])
    assert both.squares == one.squares and joined([one]) is one
