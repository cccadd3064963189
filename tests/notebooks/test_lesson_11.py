"""Lesson 11: the numbers that the guide names are those of the view."""

from kit.widgets.airrecord import co2_view
from kit.widgets.planet.planet import bare_and_layered
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = "bare {bare}, one full layer {full}, observed {observed}; twice the CO2: {drop} less leave at once, warming likely {likely}."
    assert numbers.format_map(bare_and_layered().texts) in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")


def test_the_record_as_the_guide_tells_it():
    told = "The record: in 2001 {ppm} in place of 278 in 1750, tips by {tips}, warms in the end by {warms}, very likely; from the forcing alone {by_forcing}."
    assert told.format_map(co2_view().numbers().texts) in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
