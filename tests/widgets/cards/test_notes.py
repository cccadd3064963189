"""A learner's writing: kept as it grows, compared only once there is something of one's own."""

import pytest

from kit.coursework.answers.answers import answers_path, read_answers
from kit.widgets.cards.notes import note
from kit.widgets.cards.prediction import predict
from tests.widgets.parts import block_of, buttons_of, press, words


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)


def kept():
    return [each.content["text"] for each in read_answers(answers_path("00")).of("00.claim", "note")]


def test_what_is_typed_is_on_disk_at_once_and_back_in_the_box():
    card = note("00.claim")
    for text in ("The treated", "The treated vessel warmed"):
        assert press(card, "typed", text=text).startswith("Kept at ")
    assert kept() == ["The treated vessel warmed"] and block_of(note("00.claim"), "text")["value"] == kept()[0]


def test_a_pause_without_change_keeps_nothing_new():
    card = note("00.claim")
    assert press(card, "typed", text="Warmer") == press(card, "typed", text="Warmer")
    assert len(read_answers(answers_path("00")).answers) == 1


def test_an_empty_box_is_no_note():
    assert press(note("00.claim"), "typed", text="") == "" and kept() == []


def test_other_notes_come_after_ones_own():
    card = note("00.claim")
    assert press(card, "compare", text="  too short ") == "Write a sentence of your own first. Then compare."
    assert block_of(card, "samples") is None
    press(card, "compare", text="The treated vessel warmed by more.")
    assert kept() == ["The treated vessel warmed by more."] and buttons_of(card) == []
    titles = [title for title, _ in block_of(card, "samples")["pairs"]]
    assert titles == ["Note A (two cups of tea, invented)", "Note B (the same two cups)"]
    assert block_of(card, "look")["lines"][0] == "a number with its unit;"


def test_progress_counts_what_other_cards_kept():
    card = note("00.claim")
    assert "So far: kept 0 of 2 predictions, 0 of 5 questions looked at, 0 notes written." in words(card)
    press(predict("00.warmer"), "keep", choice="a", sure="sure")
    press(predict("00.nocontrol"), "skip")
    press(card, "typed", text="Warmer")
    assert "So far: kept 1 of 2 predictions, 0 of 5 questions looked at, 1 note written." in words(card)
