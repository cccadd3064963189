"""Choosing what a lesson works on: its bundled run or one's own; the marker and what is shown go along, and the choice is kept."""

import pytest

from kit import chart, choose_run, mark_windows, watch
from kit.coursework.runs.marks import kept_marks
from kit.coursework.runs.runs import remember
from kit.records.windows import Windows
from kit.widgets.cards.keeping import keeping_at
from kit.widgets.ownrun.choosing import BUNDLED, NONE_YET
from tests.widgets.invented import invented_run
from tests.widgets.parts import buttons_of, options_of, press, words

PLACED = Windows((5, 6), (6, 7), (15, 16))


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def own(folder):
    """The learner's own run, brought in as harbour.csv."""
    run = invented_run(400, 20, name="harbour")
    run.save(folder / "harbour.csv")
    remember("harbour.csv", {})
    return run


def test_without_a_run_of_ones_own_it_says_how_to_get_one(folder):
    card = choose_run("00.basalt")
    assert NONE_YET in words(card) and buttons_of(card) == ["look"] and card.run.name == "basalt" and not card.own
    invented_run(name="harbour").save(folder / "harbour.csv")
    remember("harbour.csv", {})
    press(card, "look")
    assert list(options_of(card)) == [BUNDLED, "harbour.csv"]


def test_the_marker_goes_over_to_the_run_chosen_with_its_own_marks(own):
    card = choose_run("00.basalt")
    marker = mark_windows(card)
    marker.windows = PLACED
    view = watch(marker)
    assert press(card, "choose", run="harbour.csv") == "From here on this page works on harbour."
    assert card.own and marker.run is card.run and marker.picture["name"] == "harbour"
    assert marker.windows != PLACED and view.shown["sentence"] == str(marker.effect)
    assert len(marker.times) == 4 * 400 and not marker.answer["undo"]
    press(card, "choose", run=BUNDLED)
    assert marker.windows == PLACED == kept_marks(marker.run) and marker.run.name == "basalt" and not card.own


def test_windows_that_two_runs_share_are_measured_anew(own):
    card = choose_run("00.basalt")
    marker = mark_windows(card)
    before = marker.windows
    press(card, "choose", run="harbour.csv")
    assert marker.windows == before and marker.effect.run is card.run


def test_what_is_shown_is_made_anew_for_the_run_chosen(own):
    card, seen = choose_run("00.basalt"), []
    box = card.show(lambda run: seen.append(run.name) or chart(run))
    press(card, "choose", run="harbour.csv")
    assert seen == ["basalt", "harbour"] and len(box.children) == 1


def test_what_can_not_be_shown_says_why(own):
    card = choose_run("00.basalt")
    (inside,) = card.show(lambda run: run.without(run.odd_places()[99])).children
    assert "The kit met something it did not expect (IndexError" in words(inside)


def test_the_choice_is_kept_with_the_lessons_answers(own):
    press(choose_run("00.basalt"), "choose", run="harbour.csv")
    keeping_at.cache_clear()
    assert choose_run("00.basalt").run.name == "harbour" and choose_run("04.basalt").run.name == "basalt"


def test_a_run_that_is_gone_gives_way_to_the_bundled_one_and_says_so(own, folder):
    press(choose_run("00.basalt"), "choose", run="harbour.csv")
    (folder / "harbour.csv").unlink()
    card = choose_run("00.basalt")
    assert card.run.name == "basalt" and not card.own
    assert words(card).startswith(
        "Which run? Your run harbour.csv can't be read: harbour.csv is no longer beside this notebook. Put it back there, or bring the "
        "run in again. This page works on basalt again."
    )
    assert press(card, "choose", run="harbour.csv").startswith("harbour.csv is no longer beside this notebook.")


def test_a_sheet_typed_in_the_lesson_becomes_the_run_it_works_on(folder):
    card = choose_run("at-home.kitchen-gas")
    box = card.by_hand()
    marker = mark_windows(card)
    press(box.children[0], "open", sheet="degC")
    asking, sheet, use = box.children
    press(sheet, "entered", rows=[["0", "30", "3o"]])
    assert "'3o' is no number" in press(use, "use") and not card.own
    press(sheet, "entered", rows=[[str(minute), str(30 + 4 * (minute > 10)), "30"] for minute in range(25)])
    assert press(use, "use") == "by-hand-1 is open. Go on with the next step."
    assert card.own and card.run.name == marker.run.name == "by-hand-1" and "by-hand-1" in words(card)
    keeping_at.cache_clear()
    assert choose_run("at-home.kitchen-gas").run.name == "by-hand-1"
