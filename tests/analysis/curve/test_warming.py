"""The warming curve: laws, words, refusals.

Its coverage stands in tests/coverage/test_result_scenarios.py, the array fit in tests/statistics/curve/test_rise.py.
"""

import json
from dataclasses import replace
from math import inf

import numpy as np
import pandas as pd
import pytest

from kit import Fault, Windows, example_run, fit_warming, paired_effect
from kit.estimate import rounded

WINDOWS = Windows((9, 11), (11, 12), (20.5, 21.4))


def changed(run, **columns):
    return replace(run, readings=run.readings.assign(**columns))


def ends(estimate):
    return estimate.value, estimate.low, estimate.high


def test_the_made_run_gives_back_what_it_was_made_of(made):
    """A rise of one speed: 63 % after its delay, 10 s, and its time constant, 2.5 min, or a little less as the response is not the end of it."""
    curve = fit_warming(made(), WINDOWS)
    assert curve.determined and not curve.still_rising and not curve.falling_again
    assert curve.reason == "Its range is narrower than the time itself and ends before the response, and the rise is told from none."
    end = -np.expm1(-np.mean((np.arange(1230, 1284) - 670) / 150))
    assert curve.rise.holds(1.5 * end) and curve.time_to_63.holds((10 - 150 * np.log1p(-0.632 * end)) / 60)
    assert str(curve) == f"{curve.effect} It took {curve.time_to_63.text} to come 63 % of the way."


def test_the_rise_is_the_number_of_the_paired_effect(made):
    """In every part: value, range, what it is made of. So the two agree where there is no rise, too."""
    for rise in (0.0, 1.5):
        curve, effect = fit_warming(made(rise), WINDOWS), paired_effect(made(rise), WINDOWS)
        assert curve.rise == effect.warming and curve.condition == effect.condition


def test_a_rise_that_goes_on_is_said_to_with_the_least_it_can_be(made):
    curve = fit_warming(changed(run := made(0.0), treated=run.readings["treated"] + 2 * slow(run, 900)), WINDOWS)
    assert curve.still_rising and str(curve).endswith(f" It was still rising: in the end it is at least {rounded(curve.rise.low, 2)} °C.")
    assert "still on its way" in curve.explain()


def test_a_rise_that_turns_is_said_to_go_back(made):
    run = made()
    left = np.maximum(run.readings.index.to_numpy() - 1100, 0) / 60 * 0.3
    curve = fit_warming(changed(run, treated=run.readings["treated"] - left), WINDOWS)
    assert curve.falling_again and "By the end it was going back: " in str(curve) and curve.cautions[-1].code == "falling-again"


def slow(run, time_s):
    return -np.expm1(-np.maximum(run.readings.index.to_numpy() - 670, 0) / time_s)


def test_two_speeds_are_no_reason_to_doubt_the_time_and_the_drawing_says_that_it_does_not_fit(made):
    """'Determined' speaks of the time, which needs no formula, and never of the drawn rise, which is misfit here."""
    run = made(0.0)
    curve = fit_warming(changed(run, treated=run.readings["treated"] + 0.8 * slow(run, 30) + 0.8 * slow(run, 500)), WINDOWS)
    assert curve.determined and "one speed does not describe this record" in curve.diagnosis
    assert "determine" not in curve.diagnosis and "determine" not in curve.explain().splitlines()[3]


def test_doubling_the_difference_doubles_the_rise_and_keeps_the_time(made):
    run = made(display_c=0)
    doubled = changed(run, treated=run.readings["control"] + 2 * run.difference())
    one, twice = (fit_warming(run, WINDOWS, tolerance_c_per_min=0.01), fit_warming(doubled, WINDOWS, tolerance_c_per_min=0.02))
    assert ends(twice.rise) == pytest.approx([2 * end for end in ends(one.rise)], rel=1e-4)
    assert ends(twice.time_to_63) == pytest.approx(ends(one.time_to_63), rel=1e-4)


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


def test_an_air_run_shows_no_rise():
    curve = fit_warming(example_run("flint-air"), Windows.of_perturbation(11))
    assert not curve.determined and curve.time_to_63.range == "not determined"
    assert str(curve) == (
        f"{curve.effect} How long it took to come 63 % of the way is not determined. "
        "No rise can be told from this record's noise and drift, so there is no way of which 63 % could be reached."
    )


def test_a_change_that_is_marked_late_is_not_determined(made):
    curve = fit_warming(made(), Windows((11.5, 12.5), (12.5, 13), (20.5, 21.4)))
    assert not curve.determined or curve.time_to_63.value < 2.5


def test_a_jump_beside_the_rise_leaves_no_time(made):
    run = made()
    jump = 0.4 * (run.readings.index.to_numpy() > 960)
    curve = fit_warming(changed(run, treated=run.readings["treated"] + jump), WINDOWS)
    assert curve.reason == f"The jump at minute {rounded(curve.effect.jump.at_min, 1)} is mixed into the rise. Run again without it."
    assert curve.effect.jump.at_min == pytest.approx(16, abs=0.15)


def test_the_level_at_a_minute_has_a_range_in_the_record_and_none_beyond(made):
    curve = fit_warming(made(), WINDOWS)
    assert curve.at(10).holds(0) and curve.at(13).value < curve.at(16).value
    assert curve.at(20).holds(1.5 * (1 - np.exp(-(20 - 11 - 1 / 6) / 2.5)))
    assert curve.at(60).value == pytest.approx(curve.found.drawn.rise, rel=1e-3) and curve.at(60).high == inf
    assert str(curve.at(60)).endswith(" °C, uncertainty not determined")


def test_residuals_are_readings_minus_the_drawn_rise_from_baseline_to_response(made):
    run = made()
    curve = fit_warming(run, WINDOWS)
    left = curve.residuals
    assert (left.index[0], left.index[-1]) == (540, 1284) and left.index.name == "elapsed_s"
    assert left.loc[900] == pytest.approx(run.difference().loc[900] - curve.found.drawn.at(900.0))


def test_a_stray_reading_is_counted_in_the_diagnosis(made):
    run = made()
    treated = run.readings["treated"].copy()
    treated.loc[960.0] += 3
    assert "1 reading lies far off the drawn rise, the first at minute 16.0." in fit_warming(changed(run, treated=treated), WINDOWS).diagnosis


def test_the_account_has_the_runs_own_numbers(made):
    curve = fit_warming(made(), WINDOWS)
    account = curve.explain().splitlines()
    assert curve.rise.text in account[0] and f"That was {curve.time_to_63.text} after the change." in account[1]
    assert account[2].startswith(f"At the end: the response lies {curve.late.text} above a like window 2 min before it")
    assert account[4] == curve.diagnosis and account[5] == curve.condition


def test_it_is_kept_as_json_and_shown_as_a_table(made):
    curve = fit_warming(made(), WINDOWS)
    kept = json.loads(json.dumps(curve.to_dict()))
    assert kept["rise"]["value"] == curve.rise.value and kept["sentence"] == str(curve) and "readings" not in kept
    assert curve.rise.text in curve._repr_html_()


@pytest.mark.parametrize(
    "windows, message",
    [
        (Windows((9, 11), (11, 12), (22, 23)), "The response, 22.0 to 23.0 min, {} Move the response so that it ends inside."),
        (Windows((-5, -4), (11, 12), (20, 21)), "The baseline, −5.0 to −4.0 min, {} Move the baseline so that it starts inside."),
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
        f"The {column} thermometer shows 21 °C and nothing else from minute 1.0 to 21.4, although the readings of the other one scatter: "
        "stuck, perhaps. Check the probe and its cable, then run again."
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
    assert isinstance(drawn, pd.DataFrame) and drawn.index[-1] > 21.4 and drawn["drawn"].notna().all()
    seen = drawn.loc[:21.4]
    assert (seen["low"] < seen["warming"]).all() and (seen["warming"] < seen["high"]).all() and drawn.loc[21.5:, "warming"].isna().all()
