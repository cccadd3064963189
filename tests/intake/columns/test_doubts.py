"""A column that no name calls a thermometer, and that begins far from the others: asked about plainly, never taken silently."""

import pytest

from kit.intake.read import look, read_run

LINES = range(30)


def lines(*columns, head=""):
    return head + "".join(f"{10 * n};{';'.join(f'{column(n):.2f}' for column in columns)}\n" for n in LINES)


def mild(n):
    return 21.4 + 0.02 * n


def near(n):
    return 21.1 + 0.01 * n


def humid(n):
    return 55 - 0.1 * n


DOUBT = (
    "Is 'column 3' another thermometer? No name tells, and it begins at 54.8, far from the 21.44 of 'column 2', as humidity may. "
    "If not, this file holds one thermometer, and a run needs two: repeat it with both. Which column is the treated vessel?"
)


def questions(text, **words):
    return {each.keyword: each for each in look(text, clock="s", **words).question.questions}


def test_a_second_column_far_from_the_first_is_asked_about_plainly_on_the_one_form():
    asked = questions(lines(mild, humid))
    assert list(asked) == ["treated", "control", "unit"] and asked["treated"].text == DOUBT
    assert asked["control"].text == "Which column is the control vessel?"


def test_it_is_not_taken_as_the_other_vessel_unasked():
    asked = questions(lines(mild, humid), treated=2, unit="degC")
    assert [*asked] == ["control"] and asked["control"].text == DOUBT.replace("treated", "control")
    assert questions(lines(mild, humid, head="t (s);Temp (°C);B\n"), treated=2)["control"].text.startswith("Is 'B' another thermometer?")


@pytest.mark.parametrize("second", [near, lambda n: mild(n) + 7])
def test_two_that_begin_near_each_other_raise_no_doubt(second):
    assert questions(lines(mild, second))["treated"].text == "Which column is the treated vessel?"
    assert "Only 'column 3' is left as a thermometer." in read_run(lines(mild, second), treated=2, unit="degC", clock="s").remarks


def test_a_cold_and_a_hot_probe_are_read_after_one_form():
    text = lines(lambda n: 5 + 0.1 * n, lambda n: 60 - 0.1 * n)
    assert [*questions(text)] == ["treated", "control", "unit"]
    run = read_run(text, clock="s", treated="column 3", control="column 2", unit="degC")
    assert run.readings.iloc[0].tolist() == [60, 5]


def test_names_or_units_leave_no_doubt():
    named = questions(lines(mild, humid, head="t (s);Probe 1;Probe 2\n"))
    assert named["treated"].text == "Which column is the treated vessel?"


def test_what_begins_far_from_two_thermometers_is_offered_last():
    asked = questions(lines(mild, humid, near))["treated"]
    assert asked.text.startswith("Is 'column 3' another thermometer?") and "If not, choose others." in asked.text
    assert [choice.value for choice in asked.choices] == ["column 2", "column 4", "column 3"]
