"""How fast an effect comes. Times of this process on one core; ratios within one run, as only those last."""

import time
from itertools import count

import numpy as np
import pytest

from kit import Windows, paired_effect
from kit.analysis.effect.paired import quick_warming
from kit.coverage.effects import NOISE_ALONE
from kit.coverage.invented import simulated
from kit.statistics.effect.stacked import stacked_effects

pytestmark = pytest.mark.alone
WINDOWS = Windows.of_perturbation(11)


def fastest(work, times=12):
    """Seconds of processor time that `work` takes, the least of some."""
    work()
    taken = []
    for _ in range(times):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


def test_an_effect_of_1200_readings_takes_6_ms_and_twice_that_where_a_jump_must_be_ruled_out(made):
    """The bars are 6 ms in the median and 12 ms for nine in ten, over many records: about a quarter of healthy ones look as if they had a jump
    and cost more. As much again is left for a slow hour: the same code took 5.3 to 9.1 ms on one machine in one evening."""
    times = sorted(fastest(lambda run=made(step_s=1.075, seed=seed): paired_effect(run, WINDOWS), times=8) for seed in range(20))
    print(f"\n1,201 readings, 20 records: paired_effect {1000 * times[10]:.1f} ms in the median, {1000 * times[17]:.1f} ms for nine in ten")
    assert times[10] < 2 * 0.006 and times[17] < 2 * 0.012


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
