"""Numbers in texts: taken from results, named after their fields, rounded once."""

from dataclasses import dataclass

import pytest

from kit.analysis.effect.paired import paired_effect
from kit.estimate import Estimate
from kit.coursework.lessons.lessons import read_lesson
from kit.records.windows import Windows
from kit.analysis.effect import change_of, misplaced
from kit.widgets.cards.numbers import Numbers, numbers_of_effect, numbers_of_result, shown_numbers
from tests.widgets.invented import invented_run


@pytest.fixture(scope="module")
def run():
    return invented_run()


def test_the_parts_of_an_effect_add_up_and_agree_with_the_result(run):
    effect = paired_effect(run, Windows.of_perturbation(11))
    values = numbers_of_effect(effect).values
    assert values["treated_change"] - values["control_change"] == pytest.approx(values["effect"], abs=1e-9)
    assert values["gap_end"] - values["gap_start"] == pytest.approx(effect.warming.value, abs=1e-9)
    assert values["treated_change"] == pytest.approx(effect.treated_change.value, abs=1e-9)
    assert values["treated_end"] - values["control_end"] == pytest.approx(values["gap_end"], abs=1e-9)


def test_texts_carry_their_units(run):
    texts = numbers_of_effect(paired_effect(run, Windows.of_perturbation(11))).texts
    assert all(text.endswith("°C") for name, text in texts.items() if name != "sentence") and " to " in texts["range"]


def test_any_result_gives_its_estimates_by_name():
    @dataclass(frozen=True)
    class Curve:
        rise: Estimate
        note: str = "n"

        def __str__(self):
            return "It rose."

    numbers = numbers_of_result(Curve(Estimate.from_error(1.5, 0.05, 2)))
    assert numbers.texts == {"rise": "1.50 °C", "rise_range": "1.40 to 1.60 °C", "sentence": "It rose."} and numbers.values == {"rise": 1.5}
    assert shown_numbers(read_lesson("00"), Curve(Estimate.from_error(1.5, 0.05, 2))).texts == numbers.texts


@pytest.mark.parametrize(
    ("windows", "said"),
    [
        (Windows.of_perturbation(11), ""),
        (Windows((0.5, 1.5), (2, 3), (3.5, 4.5)), "Your perturbation window does not hold the moment the gas went in yet."),
        (Windows((11, 12.5), (12.5, 13), (20, 21)), "Your baseline reaches into the time after the gas went in."),
        (Windows((9, 10), (10.5, 11.2), (11.3, 11.6)), "Your response comes before the gas had time to act."),
    ],
)
def test_a_window_on_the_other_side_of_the_change_is_named(run, windows, said):
    assert misplaced(windows, change_of(run)) == said


def test_a_source_may_bring_its_own_numbers():
    ready = Numbers({"shift": "stays"}, {"shift": "it stays"})
    assert shown_numbers(None, ready) is ready
