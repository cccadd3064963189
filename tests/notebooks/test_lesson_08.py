"""Lesson 08: the numbers that the guide names are those of the view."""

from kit.widgets.compare.compare import at_first
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = "have {mine} and {reference}; their difference {difference}.".format_map(at_first().texts)
    assert numbers in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
