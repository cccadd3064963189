"""Every lesson in a class that reads °F: from a fresh kernel, all predictions passed over, no °C is left in anything that a learner sees."""

import json
import re
import shutil

import pytest

from kit.coursework import add_answer, Answer, answers_path, read_lesson, remember
from kit.examples import DATASETS
from kit.settings import NAME
from kit.widgets.simulated.book import PAGE, RUN
from kit.widgets.simulated.setup import USUAL
from tests.lessons.reading import LESSONS, NOTEBOOKS, number, source, cells
from tests.notebooks.test_own_run import FILE, WINDOWS
from tests.notebooks.widgets import shown

UNSEEN = ("_esm", "_css")
# What is said of a file names the unit that stands in the file: its remarks, the lines shown in lesson 05, and the sheet for readings by hand.
OF_A_FILE = "|".join(
    (
        r"as \w+, in °C|as it is, at [^:]+: [^<]* °C|turned from \S+ into °C|column '[^']*°C[^']*'",
        r"A new sheet in °C|hh:mm:ss;°C;°C;ppm|\"(?:text|read)\": \"°C\"",
    )
)
KEPT_AS = r'(?:\[|"value": )"[\d.]+ °C a minute", "'  # what a choice is kept as, which nobody sees


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_no_celsius_is_left(path, run_notebook, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / NAME).write_text('[show]\ntemperature = "°F"\n', encoding="utf-8")
    for prediction in read_lesson(number(path)).predictions:
        add_answer(answers_path(number(path)), Answer(f"{number(path)}.{prediction.key}", "skipped"))
    seen = seen_in(run_notebook(path.name))
    assert "This opens by itself once" not in seen and len(re.findall("°F", seen)) > 3
    assert re.findall(r".{40}°C.{20}", re.sub(OF_A_FILE, "", seen)) == []


@pytest.mark.parametrize("name", ["your-own-run", "simulated-bench", "teacher/desk"])
def test_no_celsius_is_left_on_pages_that_were_worked_on(name, run_notebook, tmp_path):
    """A run brought in, marked and compared; a bench used and opened; the bundled class on the desk. (The settings' card is in °C and
    says so: its file is.)"""
    (tmp_path / NAME).write_text('[show]\ntemperature = "°F"\n', encoding="utf-8")
    WORKED_ON[name](tmp_path)
    seen = seen_in(run_notebook(f"{name}.ipynb", folder=tmp_path))
    assert len(re.findall("°F", seen)) > 3 and re.findall(r"\{(?:at_|near_)?c(?::[^}]*)?\}", seen) == []
    assert re.findall(r".{40}°C.{20}", re.sub(f"{OF_A_FILE}|{KEPT_AS}", "", seen)) == []


def own_run(folder):
    (folder / FILE.name).write_bytes(FILE.read_bytes())
    path = remember(FILE.name, {}, folder)
    for card, kind, content in (
        ("steady", "asked", {"over_min": "10 min", "tolerance": "0.01 °C a minute"}),
        ("effect", "kept", {"windows": WINDOWS, "sentence": "as it was"}),
        ("compare", "asked", {"beside": "reference", "margin_c": 0.3}),
    ):
        add_answer(path, Answer(card, kind, content))


def bench(folder):
    path = folder / f"{PAGE}-answers.json"
    for changes in ({}, {"mouths": "covered"}):
        add_answer(path, Answer(RUN, "run", {"bench": 4, "chosen": list({**USUAL, **changes}.values())}))
    add_answer(path, Answer(f"{PAGE}.truth.4", "said", {"cause": "m"}))


WORKED_ON = {"your-own-run": own_run, "simulated-bench": bench, "teacher/desk": lambda folder: shutil.copytree(DATASETS / "class", folder / "class")}


def seen_in(ran):
    """All that is put on the page, as one text."""
    return json.dumps([*map(seen_of, shown(ran)), *outputs(ran)], ensure_ascii=False)


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
