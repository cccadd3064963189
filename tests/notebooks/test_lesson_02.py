"""Lesson 02: the numbers that the guide names are those of the view."""

from kit.widgets.filling.filling import usual
from tests.lessons.reading import LESSONS


def test_the_teachers_numbers_are_those_of_the_lesson():
    numbers = (
        "share {share_1} one minute after the gas, {share_10} after ten, {share_30} after thirty; "
        "R from {from} to {until}, with moving air to {until_moving}."
    ).format_map(usual().texts)
    assert f"usual vessel: {numbers}" in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")
