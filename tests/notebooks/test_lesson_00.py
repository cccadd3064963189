"""Lesson 00 from a fresh kernel: quick, quiet, and no prediction spoilt."""

import re

import pytest

from kit.analysis.effect.paired import paired_effect
from kit.analysis.effect.suggestion import suggest_windows
from kit.coursework.answers.answers import Answer, add_answer, answers_path
from kit.examples import example_run
from kit.coursework.lessons.lessons import read_lesson
from kit.records.windows import Windows
from kit.widgets.marker.marker import starting_windows
from kit.widgets.watching.threebars import three_effects
from kit.analysis.effect import change_of, misplaced
from kit.widgets.cards.numbers import TOO_CLOSE_C, numbers_of_effect
from tests.lessons.reading import LESSONS
from tests.notebooks.widgets import shown, words

NAME = "00-your-first-run.ipynb"
GUIDE = LESSONS / "teacher" / "guide.md"


@pytest.fixture(scope="module")
def suggested():
    run = example_run(read_lesson("00").run)
    return numbers_of_effect(paired_effect(run, suggest_windows(run)))


def test_run_all_shows_no_result_before_its_prediction(run_notebook):
    ran = run_notebook(NAME)
    assert {each["_anywidget_id"] for each in shown(ran) if "_anywidget_id" in each} == {"kit.widgets.cards.card.Card"}
    assert not re.search(r"-?\d+\.\d+ °C", words(ran)) and words(ran).count("This opens by itself once you have answered in Step") == 10


def test_what_was_kept_in_an_earlier_session_opens_everything(run_notebook, tmp_path):
    path = answers_path("00", tmp_path)
    for card, kind, content in [
        ("00.warmer", "prediction", {"choice": "b", "words": "No clear difference", "sure": "sure", "because": "gas is thin"}),
        ("00.nocontrol", "skipped", {}),
        ("00.claim", "note", {"text": "My own sentence."}),
    ]:
        add_answer(path, Answer(card, kind, content))
    ran = run_notebook(NAME, folder=tmp_path)
    kinds = [each.get("_anywidget_id", "") for each in shown(ran)]
    assert kinds.count("kit.widgets.marker.marker.WindowMarker") == 1 and kinds.count("kit.widgets.watching.effectview.EffectView") == 3
    assert "No clear difference (sure).\\nBecause: gas is thin" in words(ran) and "My own sentence." in words(ran)
    assert "kept 1 of 2 predictions, 0 of 5 questions looked at, 1 note written" in words(ran)


def test_the_windows_start_where_no_answer_lies():
    run = example_run("basalt")
    assert misplaced(starting_windows(run), change_of(run)) and paired_effect(run, starting_windows(run)).verdict == "cannot tell"


def test_the_kits_own_numbers_keep_every_choice_apart(suggested):
    numbers = sorted(suggested.values[name] for name in ("effect", "treated_change", "gap_end", "treated_end"))
    assert min(later - earlier for earlier, later in zip(numbers, numbers[1:])) > 2 * TOO_CLOSE_C
    assert suggested.values["control_change"] > 2 * TOO_CLOSE_C and 1 < suggested.values["effect"] < 3


def test_an_air_run_can_not_tell():
    assert {paired_effect(example_run("flint-air"), Windows.of_perturbation(at)).verdict for at in (9, 11)} == {"cannot tell"}


def test_the_teachers_numbers_are_those_of_the_lesson(suggested):
    numbers = (
        "effect {effect} ({range}); treated changed by {treated_change}, control by {control_change}; "
        "gap {gap_start} before, {gap_end} at the end."
    ).format_map(suggested.texts)
    assert f"suggests: {numbers}" in GUIDE.read_text(encoding="utf-8")


def test_the_teachers_three_bars_are_those_of_the_last_page():
    co2, argon, film = (effect.warming.text for effect in three_effects().values())
    assert f"The three bars of step 16: CO2 {co2}, argon {argon}, CO2 under film {film}." in GUIDE.read_text(encoding="utf-8")
