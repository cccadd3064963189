"""Lesson 01: the numbers that the guide names are those of the view."""

from kit.widgets.energy.energy import compared
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = (
        "level {first_level} above the room, nearly there after {first_minutes}; with glass twice as thick {thick_level} after {thick_minutes}; "
        "with a mouth of 10 cm {wide_level}."
    ).format_map(compared().texts)
    assert f"first: {numbers}" in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")


def test_thicker_glass_changes_when_and_not_how_warm():
    """The level of a linear vessel does not depend on its heat capacity: Incropera and DeWitt, lumped capacitance (from memory)."""
    assert compared().values == {"two_hours": "level", "thicker": "later"}
    assert compared().texts["first_level"] == compared().texts["thick_level"]
