"""Lesson 09: the numbers that the guide names are those of the board."""

from kit import class_effect, example_class, Windows
from kit.widgets.board.board import of_the_bundled
from tests.lessons.reading import LESSONS

NUMBERS = (
    "eight groups: {mean} ({mean_range}), one more group {next_range}; {held} bars holds the mean. Without Slate ({slate}): {few} ({few_range}). "
    "Thirty groups without it: {many} ({many_range}). Swap pairs joined: {home} ({home_range}). The truth: {truth}."
)


def test_the_teachers_numbers_are_those_of_the_lesson():
    assert NUMBERS.format_map(of_the_bundled().texts) in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")


def test_the_spread_in_the_plan_of_step_10_is_that_of_the_groups_without_the_one_that_was_knocked():
    spread = of_the_bundled().values["spread"]
    assert f"spread_c={spread:.2f}" in (LESSONS / "09-the-whole-class.ipynb").read_text(encoding="utf-8")


def test_the_line_of_step_12_gives_the_numbers_of_the_board():
    """One class, one set of windows: with windows that the kit places for each run the mean without Slate would be 1.69, not 1.70."""
    assert "Windows.of_perturbation(11)" in (LESSONS / "09-the-whole-class.ipynb").read_text(encoding="utf-8")
    found, board = class_effect(example_class().runs[:8], Windows.of_perturbation(11)), of_the_bundled().texts
    without = next(share.without for share in found.shares if share.name == "Slate")
    assert (found.mean.value_text, found.mean.range) == (board["mean"], board["mean_range"])
    assert (without.value_text, without.range) == (board["few"], board["few_range"])
