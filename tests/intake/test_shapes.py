"""The same invented run in every shape that loggers and people write it in: each file gives the same readings at the same times."""

import json
from pathlib import Path

import pytest

from kit.intake.read import look

SHAPES = Path(__file__).parents[1] / "files" / "shapes"
WORDS = json.loads((SHAPES / "words.json").read_text(encoding="utf-8"))  # what each file leaves open, settled
STEPS = {name: words.pop("every_s", 10) for name, words in WORDS.items()}  # seconds between two lines, where a shape can't write 10
LINES = range(12)
TREATED, CONTROL = ([round(start + step * k, 2) for k in LINES] for start, step in ((21.40, 0.13), (21.05, 0.07)))


@pytest.mark.parametrize("name", WORDS)
def test_every_shape_gives_the_same_run(name):
    reading = look(SHAPES / name, **WORDS[name])
    assert reading.question is None, str(reading.question)
    assert reading.run.readings.index.tolist() == pytest.approx([STEPS[name] * k for k in LINES], abs=2e-3)
    assert reading.run.readings.treated.tolist() == pytest.approx(TREATED, abs=0.006)
    assert reading.run.readings.control.tolist() == pytest.approx(CONTROL, abs=0.006)


@pytest.mark.parametrize("name", [name for name, words in WORDS.items() if words])
def test_what_is_open_stands_on_one_form(name):
    """Without the words, one form asks for all of them at once (or, where nothing tells the time, the fault says what to do)."""
    question = look(SHAPES / name).question
    assert {each.keyword for each in question.questions} >= set(WORDS[name]) or question.keyword == "clock"
