"""Lesson 03: the numbers that the guide names are those of the view."""

from kit.widgets.probes.probes import of_basalt
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = (
        "effect {effect}, with a shift of 0.5 °C {shifted}, with light on both probes {lit}; 1 % of the treated vessel's own change is "
        "{one_percent}; at 1000 m water boils at {boils}, with the weather {boils_range}."
    ).format_map(of_basalt().texts)
    guide = " ".join((LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8").split())
    assert f"**Numbers** of group Basalt: {numbers}" in guide
