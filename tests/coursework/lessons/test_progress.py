"""How far a learner is: counts as words, and the first step with something left to do."""

import pytest

from kit.coursework.answers.answers import Answer, Kept
from kit.coursework.lessons.lessons import read_lesson
from kit.coursework.lessons.outline import outline_with
from kit.coursework.lessons.progress import next_step, progress_of

LESSON, OUTLINE = read_lesson("00"), outline_with("00-title")
PREDICTED = [Answer("00.warmer", "prediction"), Answer("00.warmer", "second look")]
SKIPPED = [Answer("00.nocontrol", "skipped")]
ASKED = [Answer(f"00.{each.key}", "question") for each in LESSON.questions]
WRITTEN = [Answer(f"00.{each.key}", "note") for each in LESSON.notes]


def kept(*parts):
    return Kept(tuple(answer for part in parts for answer in part))


@pytest.mark.parametrize(
    ("parts", "words", "begun"),
    [
        ((), "kept 0 of 2 predictions, 0 of 5 questions", False),
        ((PREDICTED, ASKED[:3]), "kept 1 of 2 predictions, 3 of 5 questions", True),
        ((WRITTEN,), "kept 0 of 2 predictions, 0 of 5 questions", True),
    ],
)
def test_it_counts_and_says_so(parts, words, begun):
    progress = progress_of(LESSON, kept(*parts))
    assert (str(progress), progress.begun) == (words, begun)


@pytest.mark.parametrize(
    ("parts", "step"),
    [
        ((), 3),
        ((PREDICTED[:1],), 8),
        ((PREDICTED,), 9),
        ((PREDICTED, SKIPPED), 12),
        ((PREDICTED, SKIPPED, ASKED), 13),
        ((PREDICTED, SKIPPED, ASKED, WRITTEN[1:]), 14),
    ],
)
def test_the_next_step_is_the_first_with_something_left(parts, step):
    """A prediction that was passed over has no second look to take."""
    assert next_step(OUTLINE, LESSON, kept(*parts), marked=True).number == step


def test_after_the_last_there_is_none():
    assert next_step(OUTLINE, LESSON, kept(PREDICTED, SKIPPED, ASKED, WRITTEN), marked=True) is None


@pytest.mark.parametrize(("parts", "step"), [((), 3), ((PREDICTED[:1],), 6), ((PREDICTED, SKIPPED, ASKED, WRITTEN), 6)])
def test_windows_that_nobody_has_moved_are_still_to_be_marked(parts, step):
    assert next_step(OUTLINE, LESSON, kept(*parts), marked=False).number == step


def test_only_windows_that_begin_plainly_wrong_are_a_task():
    """Two runs of the lesson at home have their windows placed by the lesson; the learner's own has not."""
    tasks = [task for step in outline_with("at-home-title").steps for task in step.tasks]
    assert [named for verb, named in tasks if verb == "mark_windows"] == ["chosen"]
