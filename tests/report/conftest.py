"""A learner's folder with one bundled run marked, predictions kept and a claim written. All of it is made up."""

import shutil
from pathlib import Path

import pytest

from kit import Windows, example_run
from kit.coursework import Answer, add_answer, answers_path, keep_marks, remember
from kit.examples import DATASETS

CLAIM = "The treated vessel got 1.5 °C warmer than the control, between 1.4 and 1.6 °C. We don't know why."


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    keep_marks(example_run("basalt"), Windows.of_perturbation(11))
    write("00.warmer", "prediction", choice="c", words="Up to 1 °C warmer", sure="a guess", because="<b>it</b> is a gas")
    write("00.warmer", "second look", choice="d", words="1 to 3 °C warmer", because="the lines part at 11 min")
    write("00.claim", "note", text=CLAIM)
    return tmp_path


def write(card, kind, **content):
    add_answer(answers_path("00"), Answer(card, kind, content))


def bring(source, name, done="", tail=b"", **keywords):
    """One of the learner's own runs: a bundled file under another name, its effect kept, and what was done in it."""
    windows = Windows.of_perturbation(11)
    Path(name).write_bytes((DATASETS / f"{source}.csv").read_bytes() + tail)
    path = remember(name, keywords)
    add_answer(path, Answer("effect", "kept", {"windows": [windows.baseline, windows.perturbation, windows.response], "sentence": ""}))
    if done:
        add_answer(path, Answer("kind", "kept", {"done": done}))
    return path


@pytest.fixture
def several(tmp_path, monkeypatch):
    """A learner's folder with three own runs of one bench, a class, a rubric ticked by two, and a note on a run."""
    monkeypatch.chdir(tmp_path)
    path = bring("basalt", "our-co2.csv", "gas")
    add_answer(path, Answer("note", "note", {"text": "Nobody touched the bench."}))
    bring("basalt-covered", "our-covered.csv", "covered")
    bring("flint-air", "our-air.csv", "air")
    for number, who in enumerate(("learner", "reader"), start=1):
        levels = {part: f"level {number}" for part in ("claim", "evidence", "reasoning", "limits")}
        add_answer(answers_path("12"), Answer("12.rubric", "rubric", {"who": who, **levels, "question": "Did the <lamp> move?" if number == 2 else ""}))
    (tmp_path / "class").mkdir()
    for group in ("basalt", "flint", "marble"):
        shutil.copy(DATASETS / "class" / f"{group}.csv", tmp_path / "class")
    return tmp_path
