"""Every lesson from a fresh kernel: quick, quiet, no prediction spoilt, and the teacher's page agrees with it."""

import re

import pytest

from kit.coursework.lessons.lessons import read_lesson
from kit.widgets.cards.card import lettered
from tests.lessons.reading import cells, guide_page, NOTEBOOKS, number, source, steps
from tests.notebooks.widgets import shown, words

LONGEST_S = 4
CARD = "kit.widgets.cards.card.Card"
each_lesson = pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)


@pytest.mark.alone
@each_lesson
def test_it_runs_in_four_seconds_and_says_nothing_on_stderr(path, run_notebook):
    """The quickest of three at most: another program on the machine is no fault of the lesson."""
    took = []
    while len(took) < 3 and not (took and min(took) <= LONGEST_S):
        ran = run_notebook(path.name)
        took.append(ran.seconds)
        assert ran.stderr == []
    print(f"lesson {number(path)} from a fresh kernel: {min(took):.1f} s")
    assert min(took) <= LONGEST_S


@each_lesson
def test_run_all_spoils_nothing(path, run_notebook):
    """Whatever a prediction keeps back stays back: a reminder stands in its place, and no number of the result is shown."""
    ran = run_notebook(path.name)
    kept_back = sum(source(cell).count("after(") for cell in cells(path, "code"))
    assert words(ran).count("This opens by itself once you have answered in Step") == kept_back > 0
    views = [each["_anywidget_id"] for each in shown(ran) if "_anywidget_id" in each]
    assert views.count(CARD) > kept_back


@each_lesson
def test_the_guide_has_its_page_with_the_same_minutes_and_the_key(path):
    page = guide_page(path)
    minutes = re.match(r".*\((\d+) min\)$", page, re.MULTILINE)
    assert minutes and int(minutes[1]) == sum(each for _, _, each in steps(path))
    right = [next(letter for letter, each in lettered(question.choices) if each.right) for question in read_lesson(number(path)).questions]
    key = ", ".join(f"{n} {letter}" for n, letter in enumerate(right, 1))
    assert f"**Key.** {key}." in page
    for wanted in ("**Purpose.**", "**Set-up.**", "**Pacing**", "**Safety.**", "**Three wrong turns**", "**Numbers**"):
        assert wanted in page, f"the guide's page on {path.stem} lacks {wanted}"
