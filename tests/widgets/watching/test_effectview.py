"""The live effect: the same numbers as `paired_effect`, marked as old while the windows move."""

import pytest

from kit.analysis.effect.paired import paired_effect
from kit.records.windows import Windows
from kit.widgets.marker.marker import mark_windows
from kit.widgets.watching.effectview import watch
from tests.widgets.invented import invented_run
from tests.widgets.marker.test_marker import PLACED, ask


@pytest.fixture
def marker(tmp_path):
    return mark_windows(invented_run(), folder=tmp_path)


def test_it_shows_the_effect_of_the_windows_as_they_are_now(marker):
    view = watch(marker)
    ask(marker, "rest", PLACED)
    effect = paired_effect(marker.run, PLACED)
    shown = view.shown
    assert shown["sentence"] == str(effect) and shown["verdict"] == effect.verdict == "warmer" and shown["reason"] == effect.reason
    assert shown["condition"] == effect.condition
    assert shown["cautions"] == [str(each) for each in effect.cautions]
    ends = [(each["low"], each["to"], each["high"]) for each in shown["bars"]]
    assert ends == [(effect.warming.low, effect.warming.value, effect.warming.high)]
    assert ["baseline", "10 min 0 s to 11 min 0 s"] in [list(row) for row in shown["rows"]]


def test_while_the_windows_are_misplaced_that_is_all_it_asks_for(marker):
    view = watch(marker)
    assert marker.effect.cautions and view.shown["first"] == marker.misplaced != "" and view.shown["cautions"] == []


def test_while_the_windows_move_the_last_result_is_marked_as_old(marker):
    view = watch(marker)
    last = view.shown
    ask(marker, "move", PLACED)
    assert view.moving and view.shown == last
    ask(marker, "rest", PLACED)
    assert not view.moving and view.shown != last


def test_single_changes_are_held_back_until_parts_are_asked_for(marker):
    alone, parts = watch(marker), watch(marker, parts=True)
    ask(marker, "rest", PLACED)
    effect = marker.effect
    assert effect.treated_change.text not in str(alone.shown) and effect.control_change.text not in str(alone.shown)
    whole, shared, extra = parts.shown["bars"]
    assert (whole["from"], shared["from"], extra["from"]) == (0, 0, 0)
    assert (extra["to"], extra["low"], extra["high"]) == (effect.warming.value, effect.warming.low, effect.warming.high)
    assert parts.shown["parts"] == (
        f"Treated changed by {effect.treated_change.value:.2f} °C, control by {effect.control_change.value:.2f} °C. "
        f"The control shows what both share. What is left is the extra: {effect.warming.value_text}."
    )


def test_no_number_shows_no_bar_and_says_why(tmp_path):
    run = invented_run()
    run.readings["control"] = 20.0  # a stuck thermometer
    marker = mark_windows(run, folder=tmp_path)
    view = watch(marker, parts=True)
    ask(marker, "rest", PLACED)
    assert view.shown["bars"] == [] and view.shown["condition"] == "" and view.shown["verdict"] == "cannot tell"
    assert view.shown["sentence"] == str(paired_effect(marker.run, marker.windows))


def test_windows_without_readings_show_what_to_do(tmp_path):
    marker = mark_windows(invented_run(22, 21), folder=tmp_path)
    view = watch(marker)
    ask(marker, "rest", Windows((9, 10.5), (11, 12), (19.2, 19.8)))
    assert "verdict" not in view.shown and view.shown["sentence"] == "The response holds no reading of both vessels. Make it wider, or move it."


def test_a_window_that_misses_the_gas_is_said_before_the_sentence(marker):
    view = watch(marker)
    ask(marker, "rest", Windows((5, 6), (7, 8), (20.5, 21.5)))
    assert view.shown["first"] == "Your perturbation window does not hold the moment the gas went in yet."
    ask(marker, "rest", PLACED)
    assert view.shown["first"] == ""
