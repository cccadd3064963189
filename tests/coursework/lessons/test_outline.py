"""What is read from a lesson's notebook: about, steps and tasks, code."""

import json
import os

import pytest

from kit.coursework.lessons.copies import LESSONS, PROMPT
from kit.coursework.lessons.outline import outline_with, outlines


def cell(kind, name, text, tag="do"):
    return {"cell_type": kind, "id": name, "metadata": {"tags": [tag]}, "source": [text]}


@pytest.fixture
def lessons(tmp_path):
    """A lesson with two steps, a task in each, an answer cell and its TOML; and a page without a TOML."""
    cells = [
        cell("markdown", "04-title", "# Is it steady?"),
        cell("markdown", "04-one", "## Step 1 of 2: predict (5 min)\n\nSay it."),
        cell("code", "04-p", 'predict("04.flat")'),
        cell("code", "04-empty", "  \n"),
        cell("markdown", "04-two", "## Step 2 of 2: look"),
        cell("code", "04-do", 'recall("04.flat", run)\nquiz("04", run)'),
        cell("code", "04-own", "my own line", tag="answer"),
    ]
    (tmp_path / "04-is-it-steady.ipynb").write_text(json.dumps({"cells": cells}), encoding="utf-8")
    head = 'number = "04"\ntitle = "Is it steady?"\nline = "When to start."\nminutes = 40\nneeds = "a run"\nunit = "C"\n'
    (tmp_path / "04-is-it-steady.toml").write_text(head, encoding="utf-8")
    page = [cell("markdown", "map-title", "# Where things are\n\nText."), cell("code", "map-it", "contents()")]
    (tmp_path / "map.ipynb").write_text(json.dumps({"cells": page}), encoding="utf-8")
    return tmp_path


def test_a_lesson_is_read_whole(lessons):
    lesson, page = outlines(lessons)
    assert (lesson.name, lesson.title, lesson.number, lesson.unit) == ("04-is-it-steady", "Is it steady?", "04", "C")
    assert (lesson.line, lesson.minutes, lesson.needs, lesson.first_cell) == ("When to start.", 40, "a run", "04-title")
    assert [(step.number, step.title, step.tasks) for step in lesson.steps] == [
        (1, "predict", (("predict", "04.flat"),)),
        (2, "look", (("recall", "04.flat"), ("quiz", "04"))),
    ]
    assert (page.title, page.number, page.minutes, page.steps) == ("Where things are", "", 0, ())


def test_its_code_is_that_of_a_learners_copy(lessons):
    assert outlines(lessons)[0].code == ('predict("04.flat")', 'recall("04.flat", run)\nquiz("04", run)', PROMPT["code"])


def test_a_copy_is_known_by_its_first_cell(lessons):
    assert outline_with("map-title", lessons).name == "map" and outline_with("another", lessons) is None


def test_a_changed_lesson_is_read_anew(lessons):
    before = outlines(lessons)[1].code
    path = lessons / "map.ipynb"
    path.write_text(path.read_text().replace("contents()", "contents() # new"))
    os.utime(path, ns=(1, 1))
    assert outlines(lessons)[1].code != before


@pytest.mark.parametrize("lesson", outlines(), ids=lambda each: each.name)
def test_every_lesson_that_is_shipped_has_code_and_a_cell_of_its_own_to_begin_with(lesson):
    assert lesson.code and [each.first_cell for each in outlines()].count(lesson.first_cell) == 1 and (LESSONS / f"{lesson.name}.ipynb").exists()
