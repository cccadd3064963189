"""Questions: every choice is answered with its reason, numbers are the learner's own, nothing is scored or locked."""

import pytest

from kit.analysis.effect.paired import paired_effect
from kit.coursework.answers.answers import Answer, add_answer, answers_path, read_answers
from kit.coursework.lessons.lessons import read_lesson
from kit.records.windows import Windows
from kit.widgets.cards.card import lettered
from kit.widgets.marker.marker import mark_windows
from kit.widgets.cards.questions import quiz
from tests.widgets.invented import invented_run
from tests.widgets.parts import block_of, buttons_of, options_of, press, words

GOOD = Windows.of_perturbation(11)
QUESTIONS = read_lesson("00").questions


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def marker():
    marker = mark_windows(invented_run())
    marker.windows = GOOD
    return marker


@pytest.fixture
def card(marker):
    return quiz("00", marker)


def tries(key):
    return [each.content for each in read_answers(answers_path("00")).of(f"00.{key}", "question")]


def test_questions_open_one_by_one(card):
    assert "Question 1 of 5" in words(card) and buttons_of(card) == ["check", "next"]
    press(card, "next")
    assert "Question 2 of 5" in words(card) and QUESTIONS[1].stem in words(card) and buttons_of(card) == ["check", "next", "back"]
    for _ in range(9):
        press(card, "next")
    assert "Question 5 of 5" in words(card) and buttons_of(card) == ["check", "back"]


def test_nothing_chosen_is_said_and_not_kept(card):
    assert press(card, "check") == "Choose an answer first." and tries("result") == []


def test_numbers_are_those_of_the_learners_windows_and_follow_them(card, marker):
    effect = paired_effect(marker.run, GOOD)
    assert options_of(card)["c"].startswith(f"{effect.warming.value_text}: the change")
    assert "The numbers come from your own windows." in words(card)
    marker.windows = Windows((9, 11), (11, 12), (18, 19))
    assert options_of(card)["c"].startswith(f"{paired_effect(marker.run, marker.windows).warming.value_text}: the change")


def test_unfit_windows_are_replaced_by_the_kits_and_the_card_says_so(card, marker):
    good = options_of(card)
    marker.windows = marker.start
    said = "The numbers come from the kit's windows. Your perturbation window does not hold the moment the gas went in yet."
    assert block_of(card, "result-origin")["text"] == said
    assert options_of(card).keys() == good.keys() and not options_of(card)["c"].startswith("0.0")


def test_choices_that_come_too_close_are_replaced(marker, monkeypatch):
    monkeypatch.setattr("kit.widgets.cards.numbers.TOO_CLOSE_C", 50)
    said = "The numbers come from the kit's windows: with yours, two answers would lie too close together."
    assert block_of(quiz("00", marker), "result-origin")["text"] == said


def test_a_miss_names_the_idea_and_leads_back(card):
    press(card, "check", **{"result-choice": "a"})
    assert "Not yet. The idea behind this: the last temperature is the result" in words(card) and "Go to Step 7" in words(card)
    assert "A hint" not in words(card) and buttons_of(card)[0] == "check"
    (tried,) = tries("result")
    assert tried["choice"] == "a" and tried["words"].endswith("°C: the treated vessel at the end")


def test_the_second_miss_brings_a_hint_and_the_third_the_answer_with_its_reason(card):
    press(card, "check", **{"result-choice": "a"})
    press(card, "check", **{"result-choice": "b"})
    assert QUESTIONS[0].hint in words(card) and "The answer, and why:" not in words(card)
    press(card, "check", **{"result-choice": "d"})
    assert "The answer, and why:" in words(card) and "You took the change" in words(card) and buttons_of(card) == ["next"]


def test_the_right_choice_gets_its_reason_too(card):
    press(card, "check", **{"result-choice": "c"})
    assert "Yes. Here is why: You took the change" in words(card) and "Go to Step" not in words(card) and buttons_of(card) == ["next"]


def test_after_the_last_question_the_open_ones_are_named_and_the_way_on_is_the_main_button(card):
    for question in QUESTIONS:
        right = next(letter for letter, each in lettered(question.choices) if each.right)
        misses = [letter for letter in options_of(card, question.key) if letter != right]
        for letter in misses[:3] if question is QUESTIONS[1] else [right]:
            press(card, "check", **{f"{question.key}-choice": letter})
        press(card, "next")
    assert block_of(card, "closing")["text"] == "Still open: question 2. Go back to it now, or later."
    assert block_of(card, "on")["step"] == 0 and block_of(card, "do")["plain"] and buttons_of(card) == ["back"]


def test_every_choice_of_every_question_can_be_shown(card):
    for question in QUESTIONS:
        for letter in options_of(card, question.key):
            press(card, "check", **{f"{question.key}-choice": letter})
            assert "{" not in words(card) and block_of(card, "fault") is None
        press(card, "next")
    assert "5 of 5 questions looked at" in words(card)


def test_a_reopened_lesson_goes_on_at_the_first_question_not_looked_at(card, marker):
    press(card, "check", **{"result-choice": "c"})
    again = quiz("00", marker)
    assert "Question 2 of 5" in words(again)
    press(again, "back")
    assert block_of(again, "result-choice")["value"] == "c" and "Yes. Here is why:" in words(again)


def test_a_choice_that_a_teacher_took_out_since_is_left_aside(marker):
    add_answer(answers_path("00"), Answer("00.result", "question", {"choice": "h"}))
    assert "Question 1 of 5" in words(quiz("00", marker))
