"""Lesson 06: the numbers that the guide names are those of the view."""

from kit.widgets.repeats.repeats import first_hundred
from tests.lessons.reading import LESSONS

NUMBERS = (
    "a reading every 10 s: {honest_10} honest ranges hold the truth ({width_10}), {naive_10} naive ones. Every second: {honest_1} ({width_1}), "
    "{naive_1}. The air run: {air} ({air_range})."
)


def test_the_teachers_numbers_are_those_of_the_lesson():
    assert NUMBERS.format_map(first_hundred().texts) in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
