"""Lesson 07: the numbers that the guide names are those of the view."""

from kit.widgets.rising.rising import three_ends
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = "{short} after four minutes, {usual} after ten; 63 % of it after {usual_time}; back at {last} in the end.".format_map(three_ends().texts)
    assert f"rise {numbers}" in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
