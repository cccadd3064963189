"""The contents: only what is there, unit by unit, and how far this learner is in each copy."""

import json

import pytest

from kit.coursework.answers.answers import Answer, add_answer, answers_beside
from kit.coursework.lessons.copies import LESSONS, add_fresh_copy, add_missing_lessons
from kit.coursework.lessons.lessons import read_lesson
from kit.coursework.lessons.outline import outlines
from kit.coursework.lessons.shelf import contents

FIRST = LESSONS / "00-your-first-run.ipynb"
HEAD = "45 minutes. You need: nothing, the run is on this page."


@pytest.fixture
def work(tmp_path):
    """A learner's folder with lesson 00 alone."""
    add_fresh_copy(FIRST, tmp_path)
    return tmp_path


def listed(work):
    return [(heading, [(entry.outline.title, entry.copies) for entry in entries]) for heading, entries in contents(work).units]


def test_only_what_lies_in_the_folder_is_listed(work):
    assert listed(work) == [("First look", [("Your first run", (("00-your-first-run.ipynb", "Not begun."),))])]
    assert str(contents(work)) == f"First look\nYour first run  {HEAD}  Not begun.  00-your-first-run.ipynb\n\nYour work is kept in {work}."


def test_every_copy_says_how_far_it_is_and_the_newest_comes_first(work):
    add_answer(answers_beside(work / FIRST.name), Answer("00.warmer", "prediction"))
    add_fresh_copy(FIRST, work)
    (work / "00-your-first-run-of-my-own.ipynb").write_text("{}")
    assert listed(work)[0][1][0][1] == (
        ("00-your-first-run-2.ipynb", "Not begun."),
        ("00-your-first-run.ipynb", "You kept 1 of 2 predictions, 0 of 5 questions."),
    )


def test_a_lesson_gone_through_says_so(work):
    lesson, path = read_lesson("00"), answers_beside(work / FIRST.name)
    for cards, kind in ((lesson.predictions, "skipped"), (lesson.questions, "question"), (lesson.notes, "note")):
        for card in cards:
            add_answer(path, Answer(f"00.{card.key}", kind, {"text": "…"}))
    said = "kept 0 of 2 predictions, 5 of 5 questions."
    assert listed(work)[0][1][0][1][0][1] == f"You {said}"  # its windows have not been marked
    (work / "marks").mkdir()
    (work / "marks" / f"{'0' * 16}-{FIRST.stem}.json").touch()
    assert listed(work)[0][1][0][1][0][1] == f"All steps done: {said}"


def test_its_links_lead_to_files_that_are_there_and_names_are_escaped(work, tmp_path):
    lessons = tmp_path / "lessons"
    lessons.mkdir()
    (lessons / "contents.toml").write_text((LESSONS / "contents.toml").read_text("utf-8"), encoding="utf-8")
    cells = [{"cell_type": "markdown", "id": "a", "metadata": {}, "source": ["# <b>Bold"]}]
    for folder in (lessons, work):
        (folder / "a page.ipynb").write_text(json.dumps({"cells": cells}), encoding="utf-8")
    page = contents(work, lessons)._repr_html_()
    assert 'href="a%20page.ipynb">&lt;b&gt;Bold</a>' in page and "<h2>Beside the lessons</h2>" in page


def test_every_lesson_that_is_shipped_is_listed_once_under_a_unit(tmp_path):
    add_missing_lessons(tmp_path)
    named = [entry.outline.name for _, entries in contents(tmp_path).units for entry in entries]
    assert sorted([*named, "contents"]) == [each.name for each in outlines()]


@pytest.mark.parametrize("lesson", [each for each in outlines() if each.number], ids=lambda each: each.name)
def test_every_lesson_says_what_it_is_about_and_what_it_takes(lesson):
    assert lesson.line.endswith(".") and len(lesson.line.split()) <= 20 and lesson.needs and lesson.unit in "ABCDEF" and lesson.minutes > 0
