"""Lesson 11: the numbers that the guide names are those of the view."""

from kit.widgets.planet.planet import bare_and_layered
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = "bare {bare}, one full layer {full}, observed {observed}; twice the CO2: {drop} less leave at once, warming likely {likely}."
    assert numbers.format_map(bare_and_layered().texts) in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
