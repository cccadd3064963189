"""The first guess at the windows: from gas, from a break, or a fault that none was found."""

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.analysis.effect import suggestion
from kit.analysis.effect.suggestion import gas_start, suggest_windows
from kit.bench.simulation import simulate_run
from kit.faults import Fault
from kit.examples import example_run
from kit.records.run import Run, Source
from kit.records.windows import Windows
from kit.statistics import find_breaks

NONE_FOUND = (
    "No change stands out in this record, by the gas probe or in the difference. "
    "If you know when the gas went in, give that minute: Windows.of_perturbation(11), say."
)
TOO_NEAR = "A change was found, but too near an end of the record for three windows. Record a minute before it, and several after."


def run_of(**columns):
    readings = pd.DataFrame(columns, index=pd.Index(2.0 * np.arange(len(columns["treated"])), name="elapsed_s"))
    return Run(readings, "made", Source("made", "0"))


def with_gas(gas):
    return run_of(treated=np.full(len(gas), 25.0), control=np.full(len(gas), 25.0), gas_ppm=np.asarray(gas, float))


def fault_of(run):
    with pytest.raises(Fault) as caught:
        suggest_windows(run)
    return str(caught.value)


def test_the_gas_probe_gives_the_windows_of_basalt():
    assert suggest_windows(example_run("basalt")) == Windows.of_perturbation(11)


@pytest.mark.parametrize("ceiling", [5_000, 10_000, 100_000, 1_000_000])
def test_a_gas_probe_that_reaches_its_top_end_still_tells_when(ceiling):
    assert gas_start(simulate_run(gas_ceiling_ppm=ceiling)) == pytest.approx(660, abs=4)


def test_breaks_of_a_run_are_looked_for_once(monkeypatch):
    """A lesson asks whenever a hand rests, and the answer waits for it."""
    looked, run = [], simulate_run(seed=5)
    monkeypatch.setattr(suggestion, "find_breaks", lambda *given: looked.append(1) or find_breaks(*given))
    assert suggest_windows(run).perturbation == suggestion.change_of(run) and len(looked) == 1


def test_breath_in_the_room_is_no_gas():
    room = 600 + 800 * np.abs(np.sin(np.arange(600) / 60))
    assert gas_start(with_gas(room)) is None


def test_one_wild_reading_of_the_gas_probe_is_no_gas():
    gas = np.full(600, 420.0)
    gas[100] = 50_000
    assert gas_start(with_gas(gas)) is None
    gas[400:] = 300_000
    assert gas_start(with_gas(gas)) == 798


def test_missing_gas_readings_are_passed_over():
    gas = np.r_[np.full(300, 420.0), np.full(300, 300_000.0)]
    gas[:5], gas[299:303] = np.nan, np.nan
    assert gas_start(with_gas(gas)) == 596
    assert gas_start(with_gas(np.full(600, np.nan))) is None


def changed(run, more=0.0, gas=None):
    """`run` with something added to its treated vessel, and the gas channel put in place of its own."""
    columns = {"treated": run.readings["treated"] + more, **({} if gas is None else {"gas_ppm": gas})}
    return Run(run.readings.assign(**columns), run.name, run.source)


def led_in(minutes, at_min=11.0, share=0.9):
    return 420 + 1e6 * share * np.clip(minutes - at_min, 0, 1)


def rise(minutes, at_min, size):
    return -size * np.expm1(-np.maximum(minutes - at_min, 0) / 1.7)


def test_a_breath_at_the_gas_probe_is_not_the_gas():
    run = simulate_run(seed=3)
    breath = 5e5 * (np.abs(run.minutes - 3.5) < 0.2)
    assert suggest_windows(changed(run, gas=led_in(run.minutes) + breath)) == suggest_windows(changed(run, gas=led_in(run.minutes)))


def test_gas_that_leaks_in_before_does_not_end_the_baseline_late():
    run = simulate_run(seed=3)
    leak = 8e4 * np.clip((run.minutes - 6) / 5, 0, 1)
    assert suggest_windows(changed(run, gas=np.maximum(led_in(run.minutes), 420 + leak))).baseline[1] <= 11


def test_a_slow_gas_probe_ends_the_baseline_a_minute_earlier():
    run = simulate_run(seed=3)
    lagging = 420 + 9e5 * -np.expm1(-np.maximum(run.minutes - 11, 0) / 2)
    assert 8.5 <= suggest_windows(changed(run, gas=lagging)).baseline[1] <= 10.2


def test_of_two_doses_the_first_counts():
    run = simulate_run(seed=3, watch_min=16)
    windows = suggest_windows(changed(run, more=rise(run.minutes, 17, 0.6)))
    assert 9 <= windows.baseline[1] <= 11.1


@pytest.mark.parametrize("size", [0.1, 0.5])
def test_a_knock_before_the_gas_is_no_change(size):
    run = simulate_run(seed=3)
    assert 9 <= suggest_windows(changed(run, more=size * (run.minutes > 5))).baseline[1] <= 11.1


def test_a_swing_of_the_room_is_no_change():
    run = simulate_run(gas="air", seed=3)
    assert fault_of(changed(run, more=0.1 * np.sin(2 * np.pi * run.minutes / 20))) == NONE_FOUND


def test_where_gas_and_difference_disagree_it_asks():
    run = simulate_run(gas="air", seed=3)
    told = fault_of(changed(run, more=rise(run.minutes, 5.0, 1.5), gas=led_in(run.minutes, 13.0)))
    minute = told.split("Windows.of_perturbation(")[1].split(")")[0]
    assert told == (
        f"The gas probe rises at minute 13.0, but the difference takes a new course at minute {minute}, before that. "
        f"Which was it? Say so: Windows.of_perturbation({minute})."
    )
    assert float(minute) == pytest.approx(5, abs=0.5)


KINDS = {
    "usual": {},
    "begun early, vessels unlike": {"gas_at_min": 4, "unequal": 0.05},
    "slow noise": {"correlation_s": 60},
    "drift": {"drift_c_per_min": 0.03},
    "read once a minute": {"step_s": 60, "display_c": 0.1, "noise_c": 0.05},
    "half a degree": {"display_c": 0.5, "offset_c": 0.2},
    "colder": {"nudge": -0.4},
    "argon": {"gas": "argon"},
}


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_without_a_gas_probe_the_baseline_ends_before_the_gas_and_the_response_is_ten_minutes_later(kind):
    for seed in range(5):
        run = simulate_run(seed=seed, **kind)
        windows, gas = suggest_windows(run), run.recipe.gas_at_min
        assert gas - 2.5 <= windows.baseline[1] <= gas + 0.1
        assert windows.perturbation[0] <= gas + 0.1 < windows.perturbation[1]
        assert 7 <= sum(windows.response) / 2 - gas <= 10.5


@pytest.mark.parametrize("kind", [{}, {"unequal": 0.02}, {"drift_c_per_min": 0.02}, {"step_s": 60, "display_c": 0.5}], ids=str)
def test_an_air_run_has_no_change_to_find(kind):
    assert [seed for seed in range(8) if fault_of(simulate_run(gas="air", seed=seed, **kind)) != NONE_FOUND] == []


def test_flint_s_air_run_has_none():
    assert fault_of(example_run("flint-air")) == NONE_FOUND
    assert len(NONE_FOUND.split()) <= 40


def test_gas_at_the_very_start_or_end_leaves_no_room_for_windows():
    assert fault_of(with_gas(np.r_[np.full(590, 420.0), np.full(25, 3e5)])) == TOO_NEAR
    assert fault_of(with_gas(np.r_[np.full(16, 420.0), np.full(14, 3e5)])) == TOO_NEAR


def test_a_short_baseline_is_taken_from_the_record_s_start():
    assert suggest_windows(with_gas(np.r_[np.full(20, 420.0), np.full(580, 3e5)])).seconds[:3] == pytest.approx((0, 38, 38))


def test_two_readings_are_too_few_to_find_anything():
    assert fault_of(run_of(treated=[25.0, 26.0], control=[25.0, 25.0])) == NONE_FOUND


@given(st.floats(1.5, 9), st.floats(1.5, 15), st.integers(0, 50))
@settings(max_examples=25, deadline=None)
def test_suggested_windows_lie_within_the_record(gas_at_min, watch_min, seed):
    run = simulate_run(gas_at_min=gas_at_min, watch_min=watch_min, seed=seed, step_s=5)
    try:
        edges = suggest_windows(run).seconds
    except Fault as fault:
        assert str(fault) in (NONE_FOUND, TOO_NEAR)
    else:
        assert edges[0] >= 0
        assert edges[-1] <= run.readings.index[-1]
