"""Lesson 05: the numbers that the guide names are those of the view."""

from kit.widgets.reading.reading import outcomes
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = "as the file means it {right}; cut off {mark}; laptop's clock {clock}; vessels changed over {control}; jump left out {without}."
    assert numbers.format_map(outcomes().texts) in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
