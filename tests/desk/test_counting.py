"""Counts of what a class predicted, changed and missed, worked out by hand here; and notes that name nobody."""

from collections import Counter
from contextlib import chdir

import pytest

from kit.desk import collect, hinges_of, notes_of, predictions_of, questions_of
from kit.desk.counting import GONE, known_as, SKIPPED
from kit.desk.years import card_of, YearCount
from tests.desk.conftest import texts
from tests.desk.test_collecting import SIX


@pytest.fixture(scope="module")
def packages(handed_in):
    return collect(handed_in(SIX)).packages


def test_predictions_are_counted_by_choice_with_how_sure_and_what_became_of_them(packages):
    count = predictions_of(packages)[0]
    low, high = texts()
    # places 0 to 5: even ones said the lower, odd ones the higher; 0 and 3 were sure; even ones changed to the higher
    assert count.first == Counter({low: 3, high: 3}) and count.sure == Counter({low: 1, high: 1})
    assert count.changed == Counter({high: 3, "kept their answer": 3})
    assert str(count).endswith("6 predicted. Of 6 who looked again, 3 changed it.")
    assert [row[0] for row in count.rows] == [choice.text for choice in count.prediction.choices]


def test_the_question_missed_by_most_comes_first_with_its_idea(packages):
    count = questions_of(packages)[0]
    # places 1, 2, 3 and 5 took a, which misses; 0 and 4 took the right one
    assert (count.asked, count.missed, count.first) == (6, 4, Counter(a=4, d=2))
    idea = count.question.choices[0].idea
    assert str(count) == f"Lesson 00, question 2: 4 of 6 missed it at first. Most often behind it: {idea}."


def test_a_hinge_question_says_what_to_do_by_how_many_found_it(packages):
    assert hinges_of(packages) == ()  # nobody came to question 1 of lesson 00
    count = questions_of(packages)[0]
    assert count.advice == f"Go back to Step {count.question.choices[0].back} together."


def test_notes_stand_side_by_side_without_a_name_and_in_an_order_that_tells_none(packages):
    notes = notes_of(packages)[0]
    assert sorted(notes.texts) == [f"<b>Group {place}</b> found that it warmed." for place in range(6)]
    assert list(notes.texts) != sorted(notes.texts)


def test_what_was_kept_in_the_other_unit_counts_as_the_same_choice(packages, handed_in):
    """Learners whose page read °C, on the desk of a teacher whose settings say °F; and counts of a year in which the class read °F."""
    count = predictions_of(packages)[0]
    texts = [choice.text for choice in count.prediction.choices]
    assert known_as("1.8 to 5.4 °F warmer", texts) == "1 to 3 °C warmer" and known_as("Up to 1.8 °F warmer", texts) == "Up to 1 °C warmer"
    assert known_as("1.8 to 5.5 °F warmer", texts) == known_as("1 to 3 °F warmer", texts) == known_as("1.8 to 5.4 °F cooler", texts) == GONE
    told = {"1.8 to 5.4 °F warmer": 7, SKIPPED: 1}
    assert YearCount("8a", "2025", {card_of(count): told}).of(count)[3] == "7 of 8"
    assert set(YearCount("8a", "2025", {card_of(count): told | {"It sang": 2}}).of(count)) == {""}  # other choices: never side by side
    (handed := handed_in(["Amber"])).joinpath("class-settings.toml").write_text('[show]\ntemperature = "°F"\n')
    with chdir(handed):
        told = predictions_of(collect(handed).packages)[0]
    assert sum(told.first.values()) == 1 and told.first[GONE] == 0 and "°F" in next(iter(told.first))


def test_a_choice_that_the_lesson_no_longer_has_is_counted_as_such(packages):
    from dataclasses import replace

    from kit.coursework import Answer, Kept

    package = packages[0]
    lesson, kept = package.material.written[0]
    other = Kept((Answer("00.warmer", "prediction", {"words": "<script>", "choice": "z"}), Answer("00.control", "question", {"choice": ["a"]})))
    changed = replace(package, material=replace(package.material, written=((lesson, other),)))
    assert predictions_of([changed])[0].rows[-1][:2] == ("a choice that the lesson no longer has", 1) and questions_of([changed]) == ()
    assert kept.answers
