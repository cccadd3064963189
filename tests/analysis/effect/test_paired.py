"""The paired effect: laws, words, refusals. Its coverage stands in tests/bench/test_scenarios.py, published values in tests/statistics/effect."""

import json
from dataclasses import replace

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit import Fault, Run, Windows, example_run, paired_effect
from kit.analysis.effect.paired import quick_warming
from kit.estimate import amount
from kit.records.run import Source

WINDOWS = Windows.of_perturbation(11)


def changed(run, **columns):
    """The same run with some columns put in place of its own."""
    return replace(run, readings=run.readings.assign(**columns))


def parts(effect):
    return (effect.warming.value, effect.warming.half_width, effect.warming.standard_error)


def test_the_bundled_run_tells_its_story():
    effect = paired_effect(example_run("basalt"), WINDOWS)
    low, high = effect.warming.range.removesuffix(" °C").split(" to ")
    assert str(effect) == f"The treated vessel warmed by {effect.warming.value_text} more than the control (95 %: {low} to {high} °C)."
    assert effect.verdict == "warmer" and effect.reason == "The whole range lies above zero."
    assert effect.warming.value == pytest.approx(1.5, abs=0.3)  # common practice, no source
    assert effect.treated_change.value - effect.control_change.value == pytest.approx(effect.warming.value)
    assert effect.condition == (
        f"The range holds if the two vessels would otherwise have drifted apart by less than {amount(-10.5 * effect.drift.low)} °C in these "
        "10 minutes. The 10 minutes before the change say so."
    )


def test_an_air_run_cannot_be_told_from_zero():
    effect = paired_effect(example_run("flint-air"), WINDOWS)
    assert effect.verdict == "cannot tell" and effect.warming.holds(0)
    assert str(effect).startswith("Cannot tell whether the treated vessel warmed more than the control: ")
    assert effect.reason == f"The range holds zero. Its largest part is {effect.budget[0]}; what would shrink it: {effect.budget[0].remedy}."


def test_a_treated_vessel_that_warmed_less_is_called_cooler(made):
    effect = paired_effect(made(-1.0), WINDOWS)
    assert (effect.verdict, effect.reason) == ("cooler", "The whole range lies below zero.")
    assert str(effect) == f"The treated vessel warmed by {effect.warming.scaled(-1, '°C').text} less than the control."


def test_doubling_the_difference_doubles_effect_and_range(made):
    run = made()
    doubled = changed(run, treated=run.readings["control"] + 2 * run.difference())
    twice = paired_effect(doubled, WINDOWS, tolerance_c_per_min=0.02, resolution_c=0)
    assert parts(twice) == pytest.approx([2 * each for each in parts(paired_effect(run, WINDOWS, resolution_c=0))])


def test_shifting_both_clocks_changes_nothing(made):
    run = made()
    later = replace(run, readings=run.readings.set_index(run.readings.index + 3600))
    assert parts(paired_effect(later, Windows.of_perturbation(71))) == pytest.approx(parts(paired_effect(run, WINDOWS)))


def test_swapping_the_vessels_flips_the_sign_and_keeps_the_width(made):
    run = made()
    swapped = changed(run, treated=run.readings["control"], control=run.readings["treated"])
    value, *widths = parts(paired_effect(run, WINDOWS))
    assert parts(paired_effect(swapped, WINDOWS)) == pytest.approx([-value, *widths])


def test_a_thermometer_that_reads_too_high_by_the_same_amount_changes_nothing(made):
    run = made()
    assert parts(paired_effect(changed(run, treated=run.readings["treated"] + 3), WINDOWS)) == pytest.approx(parts(paired_effect(run, WINDOWS)))


def test_what_both_vessels_do_together_changes_nothing(made):
    run = made()
    wave = np.sin(run.readings.index.to_numpy() / 90)
    both = changed(run, treated=run.readings["treated"] + wave, control=run.readings["control"] + wave)
    assert parts(paired_effect(both, WINDOWS, resolution_c=0.01)) == pytest.approx(parts(paired_effect(run, WINDOWS, resolution_c=0.01)))


def test_degrees_fahrenheit_scaled_back_give_the_same(made):
    run = made()
    fahrenheit = run.readings * 1.8 + 32
    back = replace(run, readings=(fahrenheit - 32) / 1.8)
    assert parts(paired_effect(back, WINDOWS)) == pytest.approx(parts(paired_effect(run, WINDOWS)), rel=1e-6)


def test_a_lower_level_gives_a_narrower_range(made):
    run = made()
    assert paired_effect(run, WINDOWS, level=0.8).warming.half_width < paired_effect(run, WINDOWS).warming.half_width


@settings(max_examples=30, deadline=None)
@given(
    levels=st.lists(st.floats(0.05, 0.999), min_size=2, max_size=6, unique=True).map(sorted),
    seed=st.integers(0, 10**6),
    kind=st.sampled_from([(0.0, 0), (0.02, 0), (0.004, 540), (0.0, 600)]),
    jump=st.sampled_from([0.0, 0.3]),
)
def test_a_higher_level_never_gives_a_narrower_range(made, levels, seed, kind, jump):
    """Whatever the level, the drift is the same one, found at 95 %, so that ranges of rising levels lie inside each other."""
    drift, start_s = kind
    run = made(drift=drift, seed=seed, step_s=5.0, jump=jump)
    run = replace(run, readings=run.readings.loc[start_s:])
    ranges = [paired_effect(run, WINDOWS, level=level).warming for level in levels]
    for lower, higher in zip(ranges, ranges[1:]):
        assert higher.low <= lower.low and lower.high <= higher.high


def stepped(run, at_min, size, lasts_min=np.inf):
    """`run` with a jump in the treated vessel."""
    minutes = run.minutes
    return changed(run, treated=run.readings["treated"] + size * ((minutes > at_min) & (minutes < at_min + lasts_min)))


def cautions_of(effect):
    return {caution.code: caution.text for caution in effect.cautions}


def test_a_jump_after_the_change_is_named_and_the_range_holds_it_and_does_without(made):
    plain, effect = paired_effect(made(), WINDOWS), paired_effect(stepped(made(), 16.0, 0.3), WINDOWS)
    assert effect.jump.at_min == pytest.approx(16, abs=0.1) and effect.jump.size_c == pytest.approx(0.3, abs=0.08)
    assert effect.warming.value == pytest.approx(plain.warming.value + 0.3, abs=0.02)
    assert effect.warming.low < plain.warming.value < plain.warming.value + 0.3 < effect.warming.high
    (low, high), (without_low, without_high) = effect.jump.with_it, effect.jump.without_it
    assert (effect.warming.low, effect.warming.high) == (min(low, without_low), max(high, without_high))
    told = cautions_of(effect)["jump"]
    assert told.startswith(f"At minute 16.0 the difference jumps up by {amount(effect.jump.size_c)} °C within seconds; no warming does that.")
    assert told in effect.explain() and effect.budget[0].name == "jump"


def test_a_draught_in_the_response_is_seen_for_what_it_is(made):
    effect = paired_effect(stepped(made(), 20.6, -0.5, 0.8), WINDOWS)
    assert effect.jump.lasts_min < 2 and effect.warming.holds(1.5 * -np.expm1(-590 / 150))
    assert cautions_of(effect)["jump"].startswith("From minute 20.6 the difference lies 0.")


def test_a_jump_in_the_baseline_with_nothing_before_it_leaves_no_number(made):
    run = stepped(made(), 10.5, 0.5)
    late = replace(run, readings=run.readings.loc[590:])
    effect = paired_effect(late, WINDOWS)
    assert effect.verdict == "cannot tell" and not np.isfinite(effect.warming.value)
    assert effect.reason == (
        "At minute 10.5 the difference jumps by 0.49 °C within seconds, in or near the baseline, and no quiet minute lies before that. "
        "Move the baseline, or run again."
    )


def test_a_healthy_run_has_no_jump(made):
    assert not any(paired_effect(made(seed=seed, memory_s=memory), WINDOWS).jump for seed in range(12) for memory in (2, 10, 40))


def test_a_wander_before_the_change_is_no_straight_line_and_widens_the_range(made):
    run = made()
    swing = 0.15 * np.sin(2 * np.pi * run.minutes / 9)
    effect = paired_effect(changed(run, treated=run.readings["treated"] + swing), WINDOWS)
    assert effect.drift.bent and -effect.drift.low == effect.drift.high
    assert cautions_of(effect)["bent-before"].startswith(f"The difference wandered by {amount(effect.drift.swing_c)} °C in the ")
    assert effect.condition.endswith("They wandered as far before the change.")


def test_a_coarse_display_on_a_quiet_day_is_not_called_stuck(made):
    """0.1 °C with noise of 0.01 °C: whole minutes of one value, and nothing that tells a healthy probe from a stuck one."""
    effects = [paired_effect(made(display_c=0.1, memory_s=2, seed=seed), WINDOWS) for seed in range(8)]
    assert all(np.isfinite(each.warming.value) for each in effects)
    told = [text for each in effects for code, text in cautions_of(each).items() if code == "one-value"]
    assert told and told[0].endswith(
        "thermometer shows one value. A coarse display does that, and a stuck probe, too: warm it with a finger to see."
    )


def test_ten_quiet_minutes_are_advised_only_to_those_who_lack_them(made):
    have, lack = made(display_c=0.5, rise_c=3.0), made()
    remedies = [
        {line.name: line.remedy for line in paired_effect(run, WINDOWS).budget}["drift"]
        for run in (have, replace(lack, readings=lack.readings.loc[600:]))
    ]
    assert not remedies[0].startswith("record 10 quiet minutes") and remedies[1].startswith("record 10 quiet minutes")


def test_the_runs_own_gain_uncertainty_counts_unless_another_is_given(made):
    run = replace(made(warming=0.05), gain_uncertainty=0.02)
    sizes = [{line.name: line.size_c for line in paired_effect(run, WINDOWS, **given).budget} for given in ({}, {"gain_uncertainty": 0.0})]
    assert sizes[0]["calibration"] > 0.05 and sizes[1]["calibration"] == 0


def test_the_budget_is_largest_first_and_says_what_would_shrink_it(made):
    budget = paired_effect(made(), WINDOWS).budget
    assert [line.size_c for line in budget] == sorted((line.size_c for line in budget), reverse=True)
    assert {line.name for line in budget} == {"noise", "display", "calibration", "drift"}
    assert all(line.remedy for line in budget)


def test_without_an_earlier_record_the_tolerance_is_the_condition(made):
    run = made()
    late = replace(run, readings=run.readings.loc[600:])
    effect = paired_effect(late, WINDOWS, tolerance_c_per_min=0.02)
    assert effect.condition == (
        "The range holds if the two vessels would otherwise have drifted apart by less than 0.21 °C in these 10 minutes. "
        "That is the tolerance, 0.02 °C a minute; the minutes before the change can't show so little."
    )
    assert effect.drift.allowance_c == pytest.approx(0.02 * effect.drift.minutes)


def test_the_account_speaks_of_this_run(made):
    effect = paired_effect(made(), WINDOWS)
    first, second, third, fourth, last = effect.explain().splitlines()
    assert first.endswith(f"The effect is the first minus the second: {effect.warming.value_text}.")
    assert second.endswith(f"So the 31 readings of the baseline are worth about {effect.noise.independent:.0f} independent ones.")
    assert third.startswith("In the 11 min before the change the difference drifted") or third.startswith("In the 9.9 min before")
    assert fourth.startswith(f"The largest part of the range is {effect.budget[0]}; ")
    assert last == f"{effect.condition} It says how much warmer, not why."


def test_the_result_becomes_json_and_a_table(made):
    effect = paired_effect(made(), WINDOWS)
    kept = json.loads(json.dumps(effect.to_dict()))
    assert kept["warming"]["value"] == effect.warming.value and kept["sentence"] == str(effect) and kept["sha256"] == effect.run.source.sha256
    assert effect.condition in effect._repr_html_() and "treated changed by" in effect._repr_html_()


def test_missing_readings_are_left_out_and_said(made):
    run = made()
    gappy = changed(run, control=run.readings["control"].where(run.readings.index % 60 > 10))
    effect = paired_effect(gappy, WINDOWS)
    assert {caution.code: caution.text for caution in effect.cautions}["readings-missing"] == (
        f"{int(gappy.readings['control'].isna().sum())} times left out: one of the vessels has no reading there."
    )
    assert effect.warming.holds(paired_effect(run, WINDOWS).warming.value)


@pytest.mark.parametrize("start, end", [((9.5, 10.8), (20.1, 21.4)), ((10, 11), (13, 14)), ((5, 6.5), (20.5, 21.5))])
def test_the_quick_value_is_that_of_the_full_effect(made, start, end):
    run = made()
    gappy = changed(run, treated=run.readings["treated"].where(run.readings.index % 50 > 10))
    for each in (run, gappy):
        windows = Windows(start, (11, 12), end)
        assert quick_warming(each, windows) == pytest.approx(paired_effect(each, windows).warming.value)


def test_the_quick_value_of_an_empty_window_is_refused_in_the_same_words(made):
    with pytest.raises(Fault) as fault:
        quick_warming(made(step_s=60), Windows((10.2, 10.8), (11, 12), (20.5, 21.5)))
    assert str(fault.value) == "The baseline holds no reading of both vessels. Make it wider, or move it."


CAUTIONS = [
    ("baseline-short", {}, Windows((10.5, 11), (11, 12), (20.5, 21.5)), "The baseline lasts 30 s. Mark at least a minute of quiet before the change."),
    ("few-readings", {"step_s": 20}, WINDOWS, "The response holds 3 readings. Read more often, or make the window wider."),
    ("record-short", {}, Windows((10, 11), (11, 12), (14, 15)),
     "The record is used to 4.0 min after the change. Its noise is better known from 5 min or more."),
    ("gas-in-response", {}, Windows((10, 11), (11, 20), (20.2, 21.2)),
     "The response begins at minute 20.2, while the gas may still be flowing. Begin it later."),
]  # fmt: skip


@pytest.mark.parametrize("code, settings, windows, text", CAUTIONS, ids=[case[0] for case in CAUTIONS])
def test_cautions_name_what_set_them_off(made, code, settings, windows, text):
    assert {caution.code: caution.text for caution in paired_effect(made(**settings), windows).cautions}[code] == text


def codes(run, windows=WINDOWS, **settings):
    return {caution.code for caution in paired_effect(run, windows, **settings).cautions}


def test_a_quiet_run_with_a_long_start_calls_for_no_caution(made):
    assert codes(made()) == set()


def test_a_drift_before_the_change_is_seen(made):
    assert "drift-in-baseline" in codes(made(drift=0.05)) and "drift-in-baseline" not in codes(made(drift=0.005))


def test_a_drift_that_can_only_be_assumed_is_said(made):
    run = made()
    assert "drift-assumed" in codes(replace(run, readings=run.readings.loc[600:]))


def test_vessels_that_still_warm_and_a_control_that_moves_far_are_said(made):
    assert {"not-steady", "control-moved"} <= codes(made(warming=0.3))


def test_slow_noise_is_said(made):
    assert "noise-slow" in codes(made(memory_s=300, seed=3))


def test_a_display_that_decides_the_range_is_said(made):
    assert "display-coarse" in codes(made(display_c=0.5))


def test_an_effect_hardly_known_is_said(made):
    assert "range-wide" in codes(made(0.1))


def test_gas_that_comes_in_during_the_baseline_is_seen_by_the_probe(made):
    seconds = np.arange(0, 1291.0, 2)
    gas = 400 + 9000 * (seconds > 630)
    cautions = paired_effect(made(gas_ppm=gas), WINDOWS).cautions
    assert [str(each) for each in cautions if each.code == "gas-in-baseline"] == [
        "Gas was already coming in at minute 10.5. End the baseline before that."
    ]


REFUSED = [
    ("response outside", {}, Windows.of_perturbation(15), {},
     "The response, 24.5 to 25.5 min, lies outside the record, which runs from 0.0 to 21.5 min. Move the response so that it ends inside."),
    ("baseline outside", {}, Windows((-1, 0), (1, 2), (5, 6)), {},
     "The baseline, −1.0 to 0.0 min, lies outside the record, which runs from 0.0 to 21.5 min. Move the baseline so that it starts inside."),
    ("empty window", {"step_s": 60}, Windows((10.2, 10.8), (11, 12), (20.5, 21.5)), {},
     "The baseline holds no reading of both vessels. Make it wider, or move it."),
    ("level", {}, WINDOWS, {"level": 95}, "The level is the share of ranges that hold the truth, between 0 and 1: 0.95, say. It was given 95."),
    ("tolerance", {}, WINDOWS, {"tolerance_c_per_min": -0.01}, "tolerance_c_per_min can't be -0.01. Give zero or a positive number."),
    ("step", {}, WINDOWS, {"resolution_c": float("nan")}, "resolution_c can't be nan. Give zero or a positive number."),
]  # fmt: skip


@pytest.mark.parametrize("settings, windows, asked, text", [case[1:] for case in REFUSED], ids=[case[0] for case in REFUSED])
def test_what_cannot_be_answered_is_refused_with_what_to_do(made, settings, windows, asked, text):
    with pytest.raises(Fault) as fault:
        paired_effect(made(**settings), windows, **asked)
    assert str(fault.value) == text


def test_a_vessel_that_was_never_read_is_refused(made):
    with pytest.raises(Fault) as fault:
        paired_effect(changed(made(), control=np.nan), WINDOWS)
    assert str(fault.value) == "The run made has 0 times at which both vessels were read. At least two are needed."


STUCK = (
    "The control thermometer shows {} °C and nothing else from minute {} to 21.0, although {}: stuck, perhaps. "
    "Check the probe and its cable, then run again."
)
NO_NUMBER = [
    ("stuck", lambda run: changed(run, control=21.2), STUCK.format("21.2", "1.0", "the readings of the other one scatter")),
    ("stuck in a window", lambda run: changed(run, control=run.readings["control"].where(run.readings.index < 1200, 21.25)),
     STUCK.format("21.25", "20.0", "its readings scatter at other times")),
    ("one column twice", lambda run: changed(run, control=run.readings["treated"]),
     "Treated and control never differ by more or less. Check that they are not one column read twice."),
    ("few readings", lambda run: replace(run, readings=run.readings.iloc[::150]),
     "The record holds 4 readings: too few to see how much they scatter. Read more often, or for longer."),
]  # fmt: skip


@pytest.mark.parametrize("spoil, reason", [case[1:] for case in NO_NUMBER], ids=[case[0] for case in NO_NUMBER])
def test_a_record_without_a_number_in_it_cannot_tell_and_says_why(made, spoil, reason):
    effect = paired_effect(spoil(made()), Windows((10, 11), (11, 14), (20, 21)))
    assert (effect.verdict, effect.reason) == ("cannot tell", reason)
    assert str(effect) == f"Cannot tell how much more the treated vessel warmed. {reason}"
    assert effect.warming.range == effect.treated_change.range == "not determined"
    assert effect.explain() == f"There is no number. {reason}" and effect.to_dict()["warming"]["value"] is None


def test_a_control_that_a_coarse_display_never_moves_is_not_called_stuck(made):
    run = made(display_c=0.5, rise_c=3.0)
    assert np.ptp(run.readings["control"]) == 0
    effect = paired_effect(run, WINDOWS)
    assert effect.verdict == "warmer" and effect.warming.holds(3.0 * -np.expm1(-590 / 150))


@given(
    gaps=st.lists(st.floats(0.5, 120), min_size=8, max_size=60),
    values=st.lists(st.floats(-50, 150), min_size=4, max_size=8),
    edges=st.lists(st.floats(0, 1), min_size=6, max_size=6, unique=True).map(sorted),
    missing=st.integers(1, 9),
)
def test_any_run_gives_a_range_that_holds_its_value_or_a_plain_refusal(gaps, values, edges, missing):
    seconds = np.cumsum(gaps)
    treated, control = np.resize(values, len(seconds)), np.resize(values[::-1][1:], len(seconds))
    treated[::missing] = np.nan if missing > 3 else treated[0]
    run = Run(pd.DataFrame({"treated": treated, "control": control}, index=seconds), "odd", Source("odd", "0"))
    try:
        windows = Windows.of_seconds([seconds[0] + edge * (seconds[-1] - seconds[0]) for edge in edges])
        effect = paired_effect(run, windows)
    except Fault as fault:
        assert len(str(fault).split()) <= 40
        return
    assert effect.reason and str(effect) and effect.explain()
    if np.isfinite(effect.warming.value):
        assert effect.warming.low < effect.warming.value < effect.warming.high
    else:
        assert effect.verdict == "cannot tell"
