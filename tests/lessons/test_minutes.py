"""The minutes that a lesson promises, held to one rule: what there is to read, to predict, to move, to answer and to write."""

import re

import pytest

from kit.coursework.lessons.lessons import read_lesson
from tests.lessons.reading import NOTEBOOKS, cells, number, prose, source, steps

# Our own practice, from no source: a careful reader of 14 with a screen; minutes for deciding, moving, weighing, writing.
WORDS_A_MINUTE, PREDICTION, VIEW, QUESTION, NOTE, FURTHER = 130, 1.5, 4, 1.2, 3, 2
WITHIN = 0.25


def estimated(path):
    """Minutes for the lesson in `path` by the rule above."""
    lesson = read_lesson(number(path), path.parent)
    read = sum(len(prose(source(cell)).split()) for cell in cells(path, "markdown"))
    asked = [text for question in lesson.questions for text in (question.stem, question.right.feedback, *(each.text for each in question.choices))]
    asked += [text for card in lesson.predictions for text in (card.stem, card.says, *(each.text for each in card.choices))]
    words = read + sum(len(text.split()) for text in asked)
    done = [cell for cell in cells(path, "code") if cell["metadata"]["tags"] == ["do"] and re.search(r"\bafter\(|_view\(", source(cell))]
    return (
        words / WORDS_A_MINUTE + PREDICTION * len(lesson.predictions) + VIEW * len(done) + QUESTION * len(lesson.questions)
        + NOTE * len(lesson.notes) + FURTHER
    )  # fmt: skip


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_the_promise_fits_the_work(path):
    promised = sum(minutes for _, _, minutes in steps(path))
    assert abs(estimated(path) - promised) <= WITHIN * promised, f"promised {promised} min, by the rule {estimated(path):.0f}"
