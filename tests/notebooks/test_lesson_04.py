"""Lesson 04: the numbers that the guide names are those of the view."""

from kit.widgets.steady.steady import both_groups
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = "treated climbed {climbing}. Chert at minute 8: {early}".format_map(both_groups().texts)
    assert numbers in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
