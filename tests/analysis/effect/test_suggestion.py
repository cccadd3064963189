"""The first guess at the windows: from gas, from a break, or a fault that none was found."""

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.analysis.effect.suggestion import gas_start, suggest_windows
from kit.bench.simulation import simulate_run
from kit.faults import Fault
from kit.examples import example_run
from kit.records.run import Run, Source
from kit.records.windows import Windows

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
