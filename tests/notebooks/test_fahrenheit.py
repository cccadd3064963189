"""Every lesson in a class that reads °F: from a fresh kernel, all predictions passed over, no °C is left in anything that a learner sees."""

import json
import re

import pytest

from kit.coursework import add_answer, Answer, answers_path, read_lesson
from kit.settings import NAME
from tests.lessons.reading import LESSONS, NOTEBOOKS, number, source, cells
from tests.notebooks.widgets import shown

UNSEEN = ("_esm", "_css")
# What is said of a file names the unit that stands in the file: its remarks, the lines shown in lesson 05, and the sheet for readings by hand.
OF_A_FILE = r"as \w+, in °C|as it is, at [^:]+: [^<]* °C|turned from \S+ into °C|A new sheet in °C|hh:mm:ss;°C;°C;ppm|\"(?:text|read)\": \"°C\""


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_no_celsius_is_left(path, run_notebook, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / NAME).write_text('[show]\ntemperature = "°F"\n', encoding="utf-8")
    for prediction in read_lesson(number(path)).predictions:
        add_answer(answers_path(number(path)), Answer(f"{number(path)}.{prediction.key}", "skipped"))
    ran = run_notebook(path.name)
    seen = json.dumps([*map(seen_of, shown(ran)), *outputs(ran)], ensure_ascii=False)
    assert "This opens by itself once" not in seen and len(re.findall("°F", seen)) > 3
    assert re.findall(r".{40}°C.{20}", re.sub(OF_A_FILE, "", seen)) == []


def seen_of(state):
    """What a widget's state brings to the page; of what a widget shows as a cell would, what that puts on the page."""
    seen = {name: value for name, value in state.items() if name not in UNSEEN and isinstance(value, (str, list, dict))}
    return seen | ({"outputs": texts_of(state["outputs"])} if "outputs" in state else {})


def outputs(ran):
    """What cells show besides widgets."""
    return [text for cell in ran.book.cells for text in texts_of(cell.get("outputs", ()))]


def texts_of(shown_there):
    """What the page puts there: plain text only where nothing richer came with it."""
    shapes = [each.get("data", {}) for each in shown_there]
    return [text for shape in shapes for kind, text in shape.items() if "widget" not in kind and (kind != "text/plain" or len(shape) == 1)]


@pytest.mark.parametrize("path", sorted(LESSONS.glob("*.ipynb")), ids=lambda path: path.stem)
def test_no_text_cell_names_a_unit_that_a_class_may_not_read(path):
    """Text cells can't be turned: a temperature belongs on a card, in a view, or into words without a number."""
    assert [source(cell) for cell in cells(path, "markdown") if "°" in source(cell)] == []


@pytest.mark.parametrize("path", sorted(LESSONS.glob("*.toml")), ids=lambda path: path.stem)
def test_every_temperature_in_a_lesson_s_texts_is_marked(path):
    lines = [line for line in path.read_text(encoding="utf-8").splitlines() if not line.lstrip().startswith("#")]
    assert [line for line in lines if "°" in line] == []
