"""A learner's folder with one bundled run marked, predictions kept and a claim written. All of it is made up."""

import pytest

from kit import Windows, example_run
from kit.coursework import Answer, add_answer, answers_path, keep_marks

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
