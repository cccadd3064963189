"""The learner's folder: copies of the lessons. Each copy is whole or not there, and none that was begun is ever written over."""

import json
import re

from kit.coursework.answers import answers_beside
from kit.coursework.lessons.lessons import LESSONS
from kit.coursework.lessons.short import class_language, FULL, page_of, SHORT
from kit.storage import write_atomically

PROMPT = {
    "code": "# Your turn: write your line here, then press Shift+Enter.",
    "markdown": "*Your turn: press Enter here and write. Shift+Enter closes the text.*",
}
PRESS = "**Press Run in the menu at the top, then Run All Cells. Do that again whenever you come back.**"
STARTS = re.compile(r"(This page|Each) starts by itself[^.]*\.( If you see the button \*\*Start this lesson\*\*, press it first\.)?")


def add_missing_lessons(work, lessons=LESSONS, text_of=None):
    """Copy each lesson that `work` does not hold yet, as `text_of` (`learners_text`) makes it; give the new copies' names.

    In the language of the class. A copy that nobody has opened since it was made in another follows.
    """
    text_of, language, new = text_of or learners_text, class_language(work), []
    for lesson in sorted(lessons.glob("*.ipynb")):
        path, text, other = work / lesson.name, text_of(lesson, language), text_of(lesson, SHORT if language == FULL else FULL)
        new += [] if path.exists() else [lesson.name]
        if not path.exists() or text != other and _is_untouched(path, other):
            write_atomically(path, text)
    return new


def _is_untouched(path, made):
    """Does `path` hold what was `made` for it, letter by letter, and has nothing been answered there?"""
    try:
        return not answers_beside(path).exists() and path.read_bytes() == made.encode("utf-8")
    except OSError:
        return False


def add_fresh_copy(lesson, work):
    """A new copy of `lesson` in `work`, beside any older one and with no answers yet. Gives its path."""
    path, number = work / lesson.name, 1
    while path.exists() or answers_beside(path).exists():
        number += 1
        path = work / f"{lesson.stem}-{number}{lesson.suffix}"
    write_atomically(path, learners_text(lesson, class_language(work)))
    return path


def learners_text(lesson, language=FULL):
    """The lesson's JSON as a learner gets it: cells tagged `answer` keep their place and id and hold a prompt."""
    book = page_of(lesson, language)
    for cell in book["cells"]:
        if "answer" in cell.get("metadata", {}).get("tags", ()):
            cell["source"] = [PROMPT[cell["cell_type"]]]
            cell["metadata"].pop("editable", None)  # a lesson's own text is closed to stray keys; this one is for writing
    return json.dumps(book, indent=1, ensure_ascii=False) + "\n"


def text_for_elsewhere(lesson, language=FULL):
    """As `learners_text`, for a Jupyter that the kit did not start: no page starts by itself there, and the first line says what to press."""
    book = json.loads(learners_text(lesson, language))
    first = book["cells"][0]
    told = STARTS.sub(r"\1 keeps your work.", "".join(first["source"]))
    first["source"] = f"{PRESS}\n\n{told}".splitlines(keepends=True)
    return json.dumps(book, indent=1, ensure_ascii=False) + "\n"
