"""Chips and the four runs to spend: nothing shows before it is predicted, all is kept, and a reload finds it."""

import json

import pytest

from kit.widgets.cards.keeping import keeping_at
from kit.widgets.causes import lay_chips, spend_runs
from tests.widgets.parts import block_of, buttons_of, options_of, press, words


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def runs():
    press(lay_chips("10"), "keep", chips="mda")
    return spend_runs("10", chips_step=3)


def buy(card, run, **said):
    number = len(card._bought) + 1
    return press(card, "buy", **{f"run {number}": run}, **{f"run {number} {letter}": word for letter, word in said.items()})


def test_three_chips_no_more_and_no_fewer():
    card = lay_chips("10")
    assert press(card, "keep", chips="md") == "Lay three chips first. You have laid 2."
    assert press(card, "keep", chips="mda") == "" and "thermometer in the beam (d)" in words(card)


def test_the_chips_of_the_start_stand_beside_those_of_the_end():
    press(lay_chips("10"), "keep", chips="abc")
    again = lay_chips("10", again=True)
    press(again, "keep", chips="mda")
    assert "At the start: lamp light taken up (a)" in words(again) and "Your chips: less exchange" in words(again)
    assert block_of(lay_chips("10"), "chips")["value"] == "abc"


def test_runs_wait_for_the_chips_and_open_by_themselves():
    card = spend_runs("10", chips_step=3)
    assert "Step 3" in words(card) and block_of(card, "board") is None
    press(lay_chips("10"), "keep", chips="mda")
    assert block_of(card, "board")["chips"] == "mda" and len(options_of(card, "run 1")) == 9


def test_no_run_is_shown_before_each_cause_has_predicted_it(runs):
    assert press(runs, "buy") == "Choose a run first."
    assert "what thermometer in the beam (d)" in buy(runs, "argon", m="same")
    assert [row["key"] for row in block_of(runs, "shown")["value"]] == ["gas", "air"] and runs._bought == []


def test_a_run_shows_what_was_said_beside_the_model_and_moves_its_bar(runs):
    assert buy(runs, "covered", m="gone", d="less", a="same") == ""
    value = block_of(runs, "board")["value"]
    assert value["last"]["rows"][0] == ["less exchange through the mouth (m)", "gone", "gone", "fits"]
    assert "Moved: less exchange through the mouth (m)" in value["last"]["moved"] and value["bars"][0]["low"] > 0.1
    assert "covered" not in options_of(runs, "run 2") and "Needed" in value["weighed"]


def test_where_all_three_predict_the_same_it_says_that_the_run_could_tell_nothing(runs):
    buy(runs, "stirred", m="gone", d="less", a="same")
    assert "could have told them apart" in block_of(runs, "board")["value"]["last"]["moved"]


def test_after_four_the_other_five_open_and_the_learner_says_which_was_missed(runs):
    for run in ("argon", "stirred", "swapped", "waited"):
        buy(runs, run, m="same", d="same", a="gone")
    assert buttons_of(runs) == ["open"] and not runs.all_open and block_of(runs, "board")["value"]["last"]["title"] == "Run 4 of 4: waited"
    press(runs, "open")
    assert len(block_of(runs, "shown")["value"]) == 11 and block_of(runs, "telling") is None
    assert press(runs, "should") == "Choose a run first."
    press(runs, "should", should="covered")
    assert len(block_of(runs, "telling")["rows"]) == 9 and "You said covered" in words(runs)
    press(runs, "should", should="shaded")
    assert "You said shaded: alone it shortens the bars of your causes by 0.8 °C. No other run does more." in words(runs)


def test_a_reload_finds_all_of_it(runs, folder):
    buy(runs, "argon", m="same", d="more", a="gone")
    keeping_at.cache_clear()
    again = spend_runs("10", chips_step=3)
    assert again.blocks == runs.blocks and again is not runs
    kept = json.loads((folder / "10-answers.json").read_text(encoding="utf-8"))["answers"]
    assert [(each["card"], each["kind"]) for each in kept] == [("10.chips", "chips"), ("10.runs", "run")]


def test_the_argon_run_stays_untold_until_it_is_seen(runs):
    assert "not seen the argon run yet" in runs.numbers().problem and runs.numbers().texts["argon"]
    buy(runs, "argon", m="same", d="more", a="gone")
    assert runs.numbers().problem == "" and 0.75 < runs.numbers().values["argon"] < 1.33


def test_nobody_is_locked_out():
    card = spend_runs("10", chips_step=3)
    press(card, "open")
    assert len(block_of(card, "shown")["value"]) == 11 and block_of(card, "board")["chips"] == ""


def test_only_handling_can_change_its_sign():
    press(lay_chips("10"), "keep", chips="mdf")
    card = spend_runs("10", chips_step=3)
    assert "changes sign" in options_of(card, "run 1 f") and "changes sign" not in options_of(card, "run 1 m")


def test_where_no_run_shortens_a_bar_the_card_says_which_cause_it_rules_out_instead():
    press(lay_chips("10"), "keep", chips="abf")
    card = spend_runs("10", chips_step=3)
    press(card, "open")
    press(card, "should", should="stirred")
    assert "You said stirred. Alone no run shortens the bars of your causes. No lamp rules out the most as the only cause: a, b and f." in words(card)
