"""What the bench lets one choose, and what it refuses."""

import pytest

from kit.bench.recipe import Recipe, recipe_with
from kit.faults import Fault


def test_a_gas_may_be_written_in_small_letters():
    assert recipe_with({"gas": "co2"}) == Recipe(gas="CO2")


def test_the_last_reading_is_not_taken_after_the_end():
    assert list(Recipe(gas_at_min=1, watch_min=1.5, step_s=60).times_s) == [0, 60, 120]


@pytest.mark.parametrize(
    "changes, text",
    [
        ({"gas": "neon"}, "The bench has no gas 'neon'. It has CO2, argon and air."),
        ({"layered": 1.5}, "layered can't be 1.5 here. Give 0.1 to 1."),
        ({"watch_min": float("nan")}, "watch_min can't be nan here. Give 1 to 600."),
        ({"step_s": "two"}, "step_s must be a number. This was given: 'two'."),
        ({"gas_l": [0.1, 0.9]}, "gas_l must be one number. This was given: [0.1, 0.9]."),
        ({"seed": 1.5}, "seed must be one whole number. This was given: 1.5."),
        ({"gas_ceiling_ppm": 400}, "gas_ceiling_ppm can't be 400 here. Give 1,000 to 1,000,000."),
        ({"stirred": 1}, "stirred is a switch: True or False. It was given 1."),
        ({"covered": "both"}, "covered can be False, True or 'treated'. It was given 'both'."),
        ({"filling": "quick"}, "filling can be 'mixing' or 'below'. It was given 'quick'."),
    ],
)
def test_a_choice_that_can_not_be_is_refused(changes, text):
    with pytest.raises(Fault) as caught:
        recipe_with(changes)
    assert str(caught.value) == text


def test_an_unknown_switch_is_named_and_all_known_ones_with_it():
    with pytest.raises(Fault) as caught:
        recipe_with({"stirring": True})
    assert str(caught.value).startswith("The bench has no switch 'stirring'. It has gas, gas_at_min, watch_min, warmed_min, filling, ")
    assert len(str(caught.value).split()) <= 40
