"""Lesson 12's view and cards: what readers ask of a claim, the rubric as it is kept, and the report."""

import pytest

from kit import claim_view, hand_in_card, paired_effect, report_card, rubric
from kit.analysis.effect import suggest_windows
from kit.coursework.answers.answers import add_answer, Answer, answers_path, read_answers
from kit.examples import example_run
from kit.widgets.cards.keeping import keeping_at
from tests.widgets.parts import block_of, buttons_of, press, words


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    keeping_at.cache_clear()
    return tmp_path


def test_each_missing_thing_calls_up_one_question():
    view, half = claim_view(), effect().warming.half_width
    assert len(view.answer["asks"]) == 4
    view.move(reach_c=round(half, 2), beside="control", limit="stated", cause="none")
    assert view.answer["asks"] == []
    whole, missing = view.values, {"a classmate": {"reach_c": 0}, "somebody at home": {"beside": "alone"}, "an engineer": {"limit": "out"}}
    for reader, change in {**missing, "a teacher": {"cause": "borrowed"}}.items():
        view.move(**{**whole, **change})
        assert [each.split(":")[0] for each in view.answer["asks"]] == [reader]


def test_a_range_that_the_record_does_not_give_is_asked_about():
    view, half = claim_view(), effect().warming.half_width
    view.move(reach_c=0.4 * half)
    assert view.answer["asks"][0] == "a classmate: Your record gives a wider range. Why is yours so narrow?"
    view.move(reach_c=3 * half)
    assert view.answer["asks"][0] == "a classmate: Your record gives a narrower range. What do you add?"


def test_the_claim_holds_the_effect_of_the_public_verb():
    assert f"warmed by {effect().warming.value:.2f} °C" in claim_view().answer["claim"]


def effect():
    run = example_run("basalt")
    return paired_effect(run, suggest_windows(run))


def test_the_rubric_is_kept_with_the_lessons_answers_and_comes_back():
    levels = {"claim": "level 3", "evidence": "level 2", "reasoning": "level 1", "limits": "level 3"}
    card = rubric("12")
    assert press(card, "keep", claim="level 3") == "Choose a level for evidence, reasoning and limits first."
    assert press(card, "keep", who="reader", question=" Which lamp? ", **levels) == ""
    kept = read_answers(answers_path("12")).latest("12.rubric", "rubric")
    assert kept.content == {"who": "reader", **levels, "question": "Which lamp?"}
    keeping_at.cache_clear()
    again = rubric("12")
    assert "claim 3, evidence 2, reasoning 1 and limits 3: 9 of 12 points, ticked by the reader. Asked: Which lamp?" in words(again)
    assert block_of(again, "limits")["value"] == "level 3"


def test_the_report_is_made_at_a_press_and_its_gaps_are_questions(folder):
    card = report_card()
    assert not (folder / "reports").exists()
    press(card, "make")
    assert len(list((folder / "reports").glob("*.html"))) == 1
    assert "A reader would still ask" in words(card) and "What do you claim?" in words(card)


def test_what_is_handed_in_is_shown_before_the_file_is_made(folder):
    card = hand_in_card()
    assert buttons_of(card) == ["look"] and press(card, "look").startswith("There is nothing to hand in yet")
    add_answer(answers_path("00"), Answer("00.claim", "note", {"text": "It warmed."}))
    press(card, "look")
    assert "lesson 00, Your first run: 1 note" in words(card) and not list(folder.glob("*.zip"))
    assert press(card, "make", group="Basalt") == "hand-in-Basalt.zip is made."
    assert (folder / "hand-in-Basalt.zip").exists() and "Nothing has been sent." in words(card)


def test_a_class_may_leave_names_out_of_what_is_handed_in(folder):
    (folder / "class-settings.toml").write_text("[show]\nask_names = false\n", encoding="utf-8")
    add_answer(answers_path("00"), Answer("00.claim", "note", {"text": "It warmed."}))
    card = hand_in_card()
    press(card, "look")
    assert not [block for block in card.blocks if block["key"] == "group"] and press(card, "make", group="Basalt") == "hand-in.zip is made."
