"""The lesson at home: the numbers that the guide names are those of the bundled kitchen runs and of the usual glass."""

from kit import example_run, paired_effect
from kit.widgets.kitchen.kitchen import RUNS, kitchen_numbers
from tests.lessons.reading import LESSONS

NUMBERS = (
    "film {film} ({film_range}), gas {gas} ({gas_range}); the gas run read from minute 20 to 25: {late} ({late_range}), {late_verdict}. "
    "The usual glass, 9 cm deep and 7 cm wide, in water of 38 °C, is read from minute {from} to {until} after the gas; computed size {size}."
)


def test_the_teachers_numbers_are_those_of_the_lesson():
    assert NUMBERS.format_map(kitchen_numbers().texts) in (LESSONS / "teacher" / "guide.md").read_text(encoding="utf-8")


def test_windows_that_the_page_gives_bring_no_caution_against_themselves():
    """One step of a display of half a degree is no warming of the control, and poured gas is in long before R begins."""
    codes = {caution.code for name, windows in RUNS.values() for caution in paired_effect(example_run(name), windows).cautions}
    assert not codes & {"not-steady", "gas-in-response"}
