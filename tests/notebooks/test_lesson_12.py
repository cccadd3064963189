"""Lesson 12: the numbers that the guide names are those of the view."""

from kit.widgets.writeup.claim import claim_view
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = "the barest claim leaves readers with {bare}, the fullest with {best}; without its limit they ask: {limit}"
    assert numbers.format_map(claim_view().numbers().texts) in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
