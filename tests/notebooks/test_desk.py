"""The teacher's desk from a fresh kernel: no code in sight but one line a card, and with the bundled class it shows all there is."""

import shutil

from kit.coursework.lessons.outline import outlines
from kit.examples import DATASETS
from tests.lessons.reading import LESSONS, cells, source
from tests.notebooks.widgets import words

DESK = LESSONS / "teacher" / "desk.ipynb"


def test_it_opens_empty_and_says_how_to_begin(run_notebook):
    ran = run_notebook("teacher/desk.ipynb")
    assert ran.stderr == [] and words(ran).count("No run has come in yet") == 2 and "Every file could be read." in words(ran)


def test_it_shows_the_bundled_class(run_notebook, tmp_path):
    shutil.copytree(DATASETS / "class", tmp_path / "class")
    ran = run_notebook("teacher/desk.ipynb", folder=tmp_path)
    assert ran.stderr == [] and "0 hand-ins and 8 runs came in." in words(ran) and "The treated vessels of 8 groups warmed by" in words(ran)


def test_it_is_closed_to_stray_keys_and_each_cell_is_one_line():
    code = [source(cell) for cell in cells(DESK, "code")]
    assert all(cell["metadata"]["deletable"] is False and len(cell["metadata"]["tags"]) == 1 for cell in cells(DESK))
    assert all(cell["metadata"]["editable"] is False for cell in cells(DESK, "markdown"))
    assert max(len(each.splitlines()) for each in code) == 2 and all(len(each.splitlines()) == 1 for each in code[1:])
    assert len(outlines(DESK.parent)[0].steps) == 10 == len(code) - 1
