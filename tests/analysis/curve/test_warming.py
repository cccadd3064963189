"""The warming curve: laws, words, refusals.

Its coverage stands in tests/bench/test_result_scenarios.py, the array fit in tests/statistics/test_rise.py.
"""

import json
from dataclasses import replace
from math import inf, isnan, log

import numpy as np
import pandas as pd
import pytest

from kit import Fault, Windows, example_run, fit_warming

WINDOWS = Windows((9, 11), (11, 12), (20.5, 21.4))
SHORT = Windows((9, 11), (11, 11.5), (12, 12.6))


def changed(run, **columns):
    return replace(run, readings=run.readings.assign(**columns))


def ends(estimate):
    return estimate.value, estimate.low, estimate.high


def test_the_made_run_gives_back_what_it_was_made_of(made):
    curve = fit_warming(made(), WINDOWS)
    assert curve.determined and curve.reason == "The record is long and quiet enough to bound the curve on both sides."
    assert curve.rise.holds(1.5) and curve.time_constant.holds(2.5) and curve.delay.holds(1 / 6)
    assert curve.half_time.value == pytest.approx(log(2) * curve.time_constant.value)
    assert str(curve) == f"The difference rises by {curve.rise.text}. Once begun, 63 % of that takes {curve.time_constant.text}."


def test_doubling_the_difference_doubles_the_rise_and_keeps_the_times(made):
    run = made(display_c=0)
    doubled = changed(run, treated=run.readings["control"] + 2 * run.difference())
    one, twice = (fit_warming(each, WINDOWS) for each in (run, doubled))
    assert ends(twice.rise) == pytest.approx([2 * end for end in ends(one.rise)], rel=1e-4)
    assert ends(twice.time_constant) == pytest.approx(ends(one.time_constant), rel=1e-4)


def test_swapping_the_vessels_turns_the_rise_into_a_fall(made):
    run = made()
    swapped = changed(run, treated=run.readings["control"], control=run.readings["treated"])
    one, other = (fit_warming(each, WINDOWS) for each in (run, swapped))
    assert (other.rise.value, other.rise.low, other.rise.high) == pytest.approx((-one.rise.value, -one.rise.high, -one.rise.low))


def test_a_later_clock_changes_nothing(made):
    run = made()
    later = replace(run, readings=run.readings.set_index(run.readings.index + 3600))
    moved = Windows(*([edge + 60 for edge in pair] for pair in (WINDOWS.baseline, WINDOWS.perturbation, WINDOWS.response)))
    assert ends(fit_warming(later, moved).rise) == pytest.approx(ends(fit_warming(run, WINDOWS).rise), rel=1e-6)


def test_a_record_of_half_a_time_constant_says_at_least_and_what_would_do(made):
    curve = fit_warming(made(end_min=12.6), SHORT)
    assert not curve.determined and isnan(curve.rise.value)
    assert 0 < curve.rise.low < 1.5 and curve.rise.high == inf and curve.time_constant.high == inf
    assert str(curve) == f"The rise is at least {curve.rise.range.removeprefix('at least ')}. {curve.reason}"
    assert curve.reason.startswith("Curves with a time constant from ")
    assert curve.reason.endswith("min after the change: three time constants show where it levels off.")


def test_an_air_run_shows_no_rise():
    curve = fit_warming(example_run("flint-air"), Windows.of_perturbation(11))
    assert str(curve) == (
        "The rise is not determined. No rise can be told from this record's noise. "
        "If there is one, a quieter record or a larger effect would show it."
    )


def test_a_display_of_half_degrees_shows_no_curve():
    curve = fit_warming(example_run("slate-hand"), Windows.of_perturbation(11))
    assert not curve.determined and curve.reason.startswith("The display moves in steps of 0.50 °C, and the difference moved by ")
    assert curve.reason.endswith(" °C: too few steps to show a curve. Use a finer display, or aim for a larger effect.")
    assert curve.at(15).range == "not determined" and curve.residuals.isna().all()
    assert curve.explain() == f"There is no curve. {curve.reason}"


def test_the_level_at_a_minute_grows_along_the_curve_and_its_range_opens_past_the_record(made):
    curve = fit_warming(made(), WINDOWS)
    assert (curve.at(10).value, curve.at(10).high) == (0, 0)
    assert curve.at(13).value < curve.at(16).value < curve.at(300).value == pytest.approx(curve.rise.value)
    assert curve.at(300).half_width >= curve.at(20).half_width
    truth = 1.5 * (1 - np.exp(-(20 - 11 - 1 / 6) / 2.5))
    assert curve.at(20).holds(truth)


def test_an_open_curve_is_known_inside_its_record_and_at_least_beyond(made):
    curve = fit_warming(made(end_min=12.6), SHORT)
    assert curve.at(12).holds(1.5 * (1 - np.exp(-(12 - 11 - 1 / 6) / 2.5)))
    assert curve.at(60).high == inf and curve.at(60).range.startswith("at least ")


def test_a_drift_is_held_when_it_is_asked_for(made):
    run = made(drift=0.01)
    plain, held = (fit_warming(run, WINDOWS, tolerance_c_per_min=size) for size in (0.0, 0.01))
    assert held.rise.low < plain.rise.low and held.rise.high > plain.rise.high and held.rise.holds(1.5)
    assert plain.condition == "as long as the difference would have stayed level without the change, and one rise describes it"
    assert held.condition.startswith("as long as the difference would have drifted by no more than 0.01 °C a minute")


def test_residuals_are_readings_minus_curve_from_baseline_to_response(made):
    run = made()
    curve = fit_warming(run, WINDOWS)
    left = curve.residuals
    assert (left.index[0], left.index[-1]) == (540, 1284) and left.index.name == "elapsed_s"
    level = curve.found.fit.level
    assert left.loc[900] == pytest.approx(run.difference().loc[900] - level - curve.at(15).value)


def test_a_stray_reading_is_counted_in_the_diagnosis(made):
    run = made()
    treated = run.readings["treated"].copy()
    treated.loc[960.0] += 3
    assert "1 reading lies far off the curve, the first at minute 16.0." in fit_warming(changed(run, treated=treated), WINDOWS).diagnosis


def test_the_account_has_the_runs_own_numbers(made):
    curve = fit_warming(made(), WINDOWS)
    account = curve.explain().splitlines()
    assert account[0].endswith(f"Here it begins {curve.delay.value_text} after the change.")
    assert account[1].startswith(f"It was laid through {len(curve.residuals)} readings (minute 9 to 21.4)")
    assert account[4] == curve.diagnosis and account[5].endswith(f"The ranges hold {curve.condition}.")


def test_it_is_kept_as_json_and_shown_as_a_table(made):
    curve = fit_warming(made(), WINDOWS)
    kept = json.loads(json.dumps(curve.to_dict()))
    assert kept["rise"]["value"] == curve.rise.value and kept["sentence"] == str(curve) and "readings" not in kept
    assert curve.rise.text in curve._repr_html_()


@pytest.mark.parametrize(
    "windows, message",
    [
        (Windows((9, 11), (11, 12), (22, 23)), "The response {} Move the response so that it ends inside."),
        (Windows((-5, -4), (11, 12), (20, 21)), "The baseline {} Move the baseline so that it starts inside."),
    ],
)
def test_windows_outside_the_record_are_refused(made, windows, message):
    with pytest.raises(Fault) as fault:
        fit_warming(made(), windows)
    assert str(fault.value) == message.format("lies outside the record, which runs from 0.0 to 21.5 min.")


def test_settings_that_cannot_be_are_refused(made):
    with pytest.raises(Fault) as fault:
        fit_warming(made(), WINDOWS, tolerance_c_per_min=-1)
    assert str(fault.value) == "tolerance_c_per_min can't be -1. Give zero or a positive number."


@pytest.mark.parametrize("column", ["treated", "control"])
def test_a_stuck_thermometer_gives_no_curve(made, column):
    curve = fit_warming(changed(made(), **{column: 21.0}), WINDOWS)
    assert not curve.determined and curve.reason == (
        f"The {column} thermometer shows one value and no change: stuck, perhaps. Check the probe and its cable, then run again."
    )


def test_too_few_readings_after_the_change_give_no_curve(made):
    curve = fit_warming(made(step_s=60.0), Windows((6, 11), (11, 12), (13, 15)))
    assert curve.reason == "Only 3 readings come late enough after the change to show a curve. Read more often, or watch for longer."


def test_missing_readings_are_passed_over(made):
    run = made()
    gaps = run.readings["treated"].where(np.arange(len(run.readings)) % 7 > 0)
    assert fit_warming(changed(run, treated=gaps), WINDOWS).rise.holds(1.5)


def test_what_is_drawn_goes_on_past_the_record(made):
    drawn = fit_warming(made(), WINDOWS).traced()
    assert isinstance(drawn, pd.DataFrame) and drawn.index[-1] > 21.4
    assert (drawn["low"] <= drawn["high"]).all()
