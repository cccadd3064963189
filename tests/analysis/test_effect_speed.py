"""How fast an effect comes. Times of this process on one core; ratios within one run, as only those last."""

import time
from itertools import count

import numpy as np
import pytest

from kit import Windows, paired_effect
from kit.analysis.effect.paired import quick_warming
from kit.coverage.invented import simulated
from kit.coverage.effects import NOISE_ALONE
from kit.statistics.stacked import stacked_effects

pytestmark = pytest.mark.alone
WINDOWS, BLOCK_READINGS, RESAMPLES = Windows.of_perturbation(11), 30, 200


def fastest(work, times=12):
    """Seconds of processor time that `work` takes, the least of some."""
    work()
    taken = []
    for _ in range(times):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


def block_bootstrap(seconds, difference, rng):
    """The usual way to a range: residuals resampled in blocks, the effect worked out each time."""
    baseline, response = ((seconds >= start) & (seconds <= end) for start, end in ((600, 660), (1230, 1290)))
    level = np.where(seconds < 660, difference[baseline].mean(), difference[response].mean())
    left, blocks = difference - level, -(-len(difference) // BLOCK_READINGS)
    effects = np.empty(RESAMPLES)
    for each in range(RESAMPLES):
        starts = rng.integers(0, len(left) - BLOCK_READINGS + 1, blocks)
        again = level + left[(starts[:, None] + np.arange(BLOCK_READINGS)).ravel()[: len(left)]]
        effects[each] = again[response].mean() - again[baseline].mean()
    return np.quantile(effects, (0.025, 0.975))


def test_an_effect_takes_no_longer_than_200_resampled_ones(made):
    run = made(step_s=1.075)
    seconds, difference = run.readings.index.to_numpy(), run.difference().to_numpy()
    rng = np.random.default_rng(1)
    ours, theirs = fastest(lambda: paired_effect(run, WINDOWS)), fastest(lambda: block_bootstrap(seconds, difference, rng))
    print(f"\n{len(run.readings)} readings: paired_effect {1000 * ours:.1f} ms, {RESAMPLES} resampled effects {1000 * theirs:.1f} ms")
    assert ours <= theirs


def test_20000_readings_follow_a_moving_edge(made):
    run, moves = made(step_s=0.0645), count()

    def moved(work):
        shift = 0.002 * next(moves)
        return work(run, Windows((9.5 + shift, 11), (11, 12), (20 + shift, 21.4)))

    quick, full = fastest(lambda: moved(quick_warming)), fastest(lambda: moved(paired_effect))
    print(f"\n{len(run.readings)} readings, edges moved: quick_warming {1000 * quick:.2f} ms, paired_effect {1000 * full:.1f} ms")
    assert quick < 0.001 and full < 0.040


def test_ten_thousand_honest_effects_take_a_second_in_proportion_to_their_number():
    made = simulated(NOISE_ALONE[1], 10_000)
    half, whole = (
        fastest(lambda runs=runs: stacked_effects(made.seconds, made.treated[:runs], made.control[:runs], made.edges_s), times=4)
        for runs in (5_000, 10_000)
    )
    print(f"\n10,000 runs of {len(made.seconds)} readings: {10_000 / whole:,.0f} effects a second; 5,000 took {half / whole:.2f} of that time")
    assert 10_000 / whole >= 10_000
    assert 0.4 < half / whole < 0.65
