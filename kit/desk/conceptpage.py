"""The concept check on paper: a sheet for before, one for after, and the key for the teacher alone."""

from pathlib import Path

from kit.coursework import AFTER, BEFORE, CONCEPTS, read_lesson
from kit.report import document, element, said, section, table, write_whole

FOLDER, SHEETS, KEY = "pages", f"{CONCEPTS}.html", f"{CONCEPTS}-key.html"
TITLES = {BEFORE: "Eight questions, before", AFTER: "Eight questions, after"}
CODE = "Your code: the first two letters of the street you live in, then the day of the month you were born, with two digits. For example: ma07."
HOW = (
    "Take about 12 minutes. Mark one letter for each question. If you don't know, take the one that you believe most. "
    "No name, no grade: it helps to plan the lessons."
)
BOXES = "Code: ____ ____ ____ ____"
LETTERS = "abcdefgh"
UNTESTED = "Own questions, untested: pilot them with a few learners before you trust them. Don't go over them after the first time."
USE = "12 minutes before lesson 00, and again after lesson 12. The code pairs the two sheets; nobody needs a name. Type the letters in on the desk."
STYLE = """
.kit-item { break-inside: avoid; margin: 0.7rem 0; } .kit-item ol { list-style: none; margin: 0.2rem 0; padding: 0 0 0 1.2rem; }
.kit-item li { margin: 0.15rem 0; }
.kit-circle { display: inline-block; width: 1.5em; border: 1px solid; border-radius: 50%; text-align: center; margin-right: 0.6em; }
.kit-code { font-size: 1.2rem; margin: 0.6rem 0; }
@media print { main > h1 { display: none; } main > section + section { break-before: page; }
  body { font-size: 10pt; line-height: 1.3; } .kit-item { margin: 0.45rem 0; } .kit-item ol { columns: 2; } }
"""
KEY_STYLE = "section { break-inside: avoid; } th:first-child { width: 4rem; } td:last-child { width: 38%; }"


def write_concept_pages(folder="."):
    """Write the sheets and the key into the folder `pages` in `folder`; gives their paths."""
    lesson = read_lesson(CONCEPTS)
    paths = [Path(folder) / FOLDER / name for name in (SHEETS, KEY)]
    for path, page in zip(paths, (concept_sheets_page(lesson), concept_key_page(lesson))):
        write_whole(path, page)
    return paths


def concept_sheets_page(lesson):
    """Both sheets as one HTML text, each on pages of its own; they tell nothing of what is right."""
    sheets = [section(TITLES[when], said("p", HOW), said("p", CODE), said("p", BOXES, cls="kit-code"), *_items(lesson)) for when in (BEFORE, AFTER)]
    return document("Eight questions", element("style", STYLE), *sheets)


def _items(lesson):
    return [_item(number, question) for number, question in enumerate(lesson.questions, start=1)]


def _item(number, question):
    """A question with a ring round each letter, to be filled in."""
    marks = [(said("span", letter, cls="kit-circle"), choice.text) for letter, choice in zip(LETTERS, question.choices)]
    choices = [element("li", mark, said("span", words)) for mark, words in marks]
    return element("div", said("p", f"{number}. {question.stem}", cls="finding"), element("ol", *choices), cls="kit-item")


def concept_key_page(lesson):
    """The key as one HTML text: what is right, the idea behind each other choice, and where lessons teach it."""
    parts = [_key(number, question) for number, question in enumerate(lesson.questions, start=1)]
    return document("Key to the eight questions", element("style", KEY_STYLE), said("p", USE), said("p", UNTESTED, cls="gap"), *parts)


def _key(number, question):
    rows = [(letter, choice.text, "right" if choice.right else choice.idea) for letter, choice in zip(LETTERS, question.choices)]
    return section(f"{number}. {question.stem}", said("p", question.hint, cls="quiet"), table("", rows, ("letter", "choice", "idea behind it")), level=3)
