"""The learner's copies: whole, prompts in place of answers, never written over."""

import json

import pytest

from kit.coursework.answers.answers import answers_beside
from kit.coursework.lessons.copies import add_fresh_copy, add_missing_lessons, learners_text, LESSONS, PROMPT
from kit.settings import NAME


def cell(name, kind, source, tag):
    parts = {"cell_type": kind, "id": name, "metadata": {"deletable": False, "editable": False, "tags": [tag]}, "source": source}
    return parts | ({"outputs": [], "execution_count": None} if kind == "code" else {})


@pytest.fixture
def lessons(tmp_path):
    """A folder with two lessons; 04 has an answer in code and one in words."""
    folder = tmp_path / "lessons"
    folder.mkdir()
    answers = [cell("04-a", "code", ["check_steady(run)"], "answer"), cell("04-b", "markdown", ["Wait."], "answer")]
    steps = [cell("04-do", "code", ["go()"], "do"), *answers]
    for name, cells in {"04-is-it-steady": steps, "00-your-first-run": steps[:1]}.items():
        book = {"cells": cells, "metadata": {"kernelspec": {"name": "python3"}}, "nbformat": 4, "nbformat_minor": 5}
        (folder / f"{name}.ipynb").write_text(json.dumps(book), encoding="utf-8")
    (folder / "04-is-it-steady.toml").write_text("")
    return folder


def test_an_answer_keeps_its_place_and_id_and_holds_a_prompt(lessons):
    before = json.loads((lessons / "04-is-it-steady.ipynb").read_text())
    after = json.loads(learners_text(lessons / "04-is-it-steady.ipynb"))
    assert [each["id"] for each in after["cells"]] == ["04-do", "04-a", "04-b"]
    assert after["cells"][0] == before["cells"][0] and after["metadata"] == before["metadata"]
    assert [each["source"] for each in after["cells"][1:]] == [[PROMPT["code"]], [PROMPT["markdown"]]]


def test_an_answer_can_be_written_into_and_not_deleted(lessons):
    answers = json.loads(learners_text(lessons / "04-is-it-steady.ipynb"))["cells"][1:]
    assert all(each["metadata"] == {"deletable": False, "tags": ["answer"]} for each in answers)


def test_only_lessons_that_are_not_there_are_copied(lessons, tmp_path):
    work = tmp_path / "my-work"
    assert add_missing_lessons(work, lessons) == ["00-your-first-run.ipynb", "04-is-it-steady.ipynb"]
    mine = work / "00-your-first-run.ipynb"
    mine.write_text("all my work")
    (work / "04-is-it-steady.ipynb").unlink()
    assert add_missing_lessons(work, lessons) == ["04-is-it-steady.ipynb"]
    assert mine.read_text() == "all my work" and {path.name for path in work.iterdir()} == {mine.name, "04-is-it-steady.ipynb"}


def test_a_copy_cut_short_leaves_nothing_behind(lessons, tmp_path, monkeypatch):
    def full(handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError):
        add_missing_lessons(tmp_path / "my-work", lessons)
    assert list((tmp_path / "my-work").iterdir()) == []


def test_a_fresh_copy_lies_beside_every_older_one(lessons, tmp_path):
    lesson, work = lessons / "00-your-first-run.ipynb", tmp_path / "my-work"
    names = [add_fresh_copy(lesson, work).name for _ in range(3)]
    assert names == ["00-your-first-run.ipynb", "00-your-first-run-2.ipynb", "00-your-first-run-3.ipynb"]


@pytest.mark.parametrize("lesson", sorted(LESSONS.glob("*.ipynb")), ids=lambda path: path.stem)
def test_every_lesson_can_be_copied_and_is_itself_but_for_its_answers(lesson):
    original, copy = json.loads(lesson.read_text(encoding="utf-8")), json.loads(learners_text(lesson))
    open_cells = [(a, b) for a, b in zip(original["cells"], copy["cells"], strict=True) if "answer" not in a["metadata"]["tags"]]
    assert open_cells and all(a == b for a, b in open_cells)


@pytest.fixture
def in_short(lessons, tmp_path):
    """`in_short("short")` sets the class's language; lesson 00 has a text cell, and a short text for it."""
    book = json.loads((lessons / "00-your-first-run.ipynb").read_text())
    book["cells"].append(cell("00-say", "markdown", ["## Step 1\n", "\n", "Say what you expect to see."], "predict"))
    (lessons / "00-your-first-run.ipynb").write_text(json.dumps(book), encoding="utf-8")
    (lessons / "short").mkdir()
    (lessons / "short" / "00-your-first-run.toml").write_text('[pages]\n00-say = "Guess."\n', encoding="utf-8")
    work = tmp_path / "my-work"
    work.mkdir()

    def choose(language):
        (work / NAME).write_text(f'[show]\nlanguage = "{language}"\n', encoding="utf-8")
        return work

    return choose


def told(path):
    return "".join(json.loads(path.read_text(encoding="utf-8"))["cells"][-1]["source"])


def test_a_copy_is_in_the_language_of_the_class(lessons, in_short):
    work = in_short("short")
    assert add_missing_lessons(work, lessons) == ["00-your-first-run.ipynb", "04-is-it-steady.ipynb"]
    assert told(work / "00-your-first-run.ipynb") == "## Step 1\n\nGuess."
    in_short("full")
    assert told(add_fresh_copy(lessons / "00-your-first-run.ipynb", work)) == "## Step 1\n\nSay what you expect to see."


def test_only_a_copy_that_nobody_has_opened_follows_to_another_language(lessons, in_short):
    work = in_short("full")
    first = work / "00-your-first-run.ipynb"
    add_missing_lessons(work, lessons)
    add_missing_lessons(in_short("short"), lessons)
    assert told(first) == "## Step 1\n\nGuess."
    answers_beside(first).write_text("{}")
    assert add_missing_lessons(in_short("full"), lessons) == [] and told(first) == "## Step 1\n\nGuess."
    answers_beside(first).unlink()
    first.write_text(first.read_text().replace("go()", "go(2)"))
    add_missing_lessons(work, lessons)
    assert told(first) == "## Step 1\n\nGuess." and "go(2)" in first.read_text()
