"""Thousands of effects at once: the same as one by one, in proportion to their number, on any executor."""

from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import fields

import numpy as np
import pytest

from kit.bench.noise import wander
from kit.faults import Fault
from kit.statistics.effect.paired import paired_effects, PairedEffects
from kit.statistics.effect.stacked import BLOCK, stacked_effects

EDGES, SECONDS = (0, 60, 60, 120, 330, 390), np.arange(0, 391.0, 3)


def stack(count, seed=0):
    rng = np.random.default_rng(seed)
    rise = 1 - np.exp(-np.maximum(SECONDS - 80, 0) / rng.uniform(30, 200, (count, 1)))
    noise = np.round(wander(rng, SECONDS, 0.02, 10, (2, count)), 2)
    return 21 + rise + noise[0], 21.3 + noise[1]


def same(one, other):
    return all(getattr(one, each.name) == pytest.approx(getattr(other, each.name), rel=1e-7, abs=1e-9) for each in fields(PairedEffects))


def test_a_stack_gives_each_run_what_it_gets_alone():
    treated, control = stack(600)
    together = stacked_effects(SECONDS, treated, control, EDGES)
    for run in range(0, 600, 97):
        alone = paired_effects(SECONDS, treated[run : run + 1], control[run : run + 1], EDGES)
        part = PairedEffects(**{each.name: getattr(together, each.name)[run : run + 1] for each in fields(PairedEffects)})
        assert same(part, alone)


@pytest.mark.parametrize("pool", [ThreadPoolExecutor, ProcessPoolExecutor])
def test_an_executor_gives_the_same_in_the_same_order(pool):
    treated, control = stack(BLOCK + 50)
    with pool(2) as executor:
        assert same(stacked_effects(SECONDS, treated, control, EDGES, executor=executor), stacked_effects(SECONDS, treated, control, EDGES))


@pytest.mark.parametrize(
    "spoil, text",
    [
        (lambda t, c: (t[:, :-1], c), "Give treated and control as (runs, readings) at 131 times. They are (3, 130) and (3, 131)."),
        (lambda t, c: (t * np.nan, c), "A stack can't hold missing or infinite readings. Use paired_effect for runs that have some."),
        (lambda t, c: (t[:0], c[:0]), "Give treated and control as (runs, readings) at 131 times. They are (0, 131) and (0, 131)."),
    ],
)
def test_what_does_not_fit_is_refused(spoil, text):
    with pytest.raises(Fault) as fault:
        stacked_effects(SECONDS, *spoil(*stack(3)), EDGES)
    assert str(fault.value) == text


def test_a_window_without_readings_is_named():
    with pytest.raises(Fault) as fault:
        stacked_effects(SECONDS, *stack(3), (0, 60, 60, 120, 400, 460))
    assert str(fault.value) == "The response holds no reading. Make it wider, or move it."


def test_times_must_run_forward():
    with pytest.raises(Fault) as fault:
        stacked_effects(SECONDS[::-1], *stack(3), EDGES)
    assert str(fault.value) == "The times of a stack must run forward, each once."
