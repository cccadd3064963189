"""The budget of causes: sizes as reckoned by hand, and never one cause by assertion."""

import re
from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.analysis.causes.possible import possible_causes
from kit.analysis.causes.published import PUBLISHED
from kit.analysis.causes.rivals import BY_LETTER, RIVALS, RUNS, runs_that_separate
from kit.analysis.causes.sizes import LIMITS, Scene, size_of
from kit.estimate import Estimate
from kit.faults import Fault

MEASURED = Estimate.from_error(1.53, 0.03, 2.2)
# A vessel of 1.5 L with 1.2 W of lamp light through it, 0.02 W taken up inside, U 0.26 and 0.5 W/K, 0.06 m2 of wall, pure CO2.
LAMP = {"irradiance_w_m2": 1.2 / 0.0116, "lit_cm2": 116, "inside_w": 0.02}
WORKED = {"gas_share": 1, "path_m": 0.1, "gas_to_wall_w_k": 0.26, "wall_to_room_w_k": 0.5, "wall_m2": 0.06, **LAMP}


def sizes(**scene):
    return {cause.rival.letter: cause.size for cause in possible_causes(**scene).causes}


def test_the_worked_vessel_as_reckoned_by_hand():
    """Lamp bands at most 3.5 % of 1.2 W: 0.25 K; infrared of the walls 0.01 K the other way; a layer 0.04 K at 0.08 K excess.

    Computed apart with CoolProp's conductivities and Planck's law; all energy balances of two stores.
    """
    found = sizes(**WORKED)
    assert (found["a"].low, found["a"].high) == (0, pytest.approx(0.246, abs=0.003))
    assert found["b"].low == pytest.approx(-0.0095, abs=0.002)
    assert found["c"].high == pytest.approx(0.077 * 0.573, abs=0.001)


def test_light_that_would_have_warmed_the_wall_anyway_counts_once():
    """Of the 0.25 K, 0.16 K is the gas over its wall: 0.042 W / 0.26 W/K."""
    assert sizes(**{**WORKED, "wall_to_room_w_k": 20})["a"].high == pytest.approx(0.042 / 0.26, abs=0.004)


def test_an_excess_of_a_few_kelvin_is_what_the_layer_needs():
    """+0.5 to 3 K for 1 to 5 K over the wall; 1.5 K takes 2.6 K (excess × 0.57)."""
    watts = {excess: excess * 0.26 for excess in (1, 2.6, 5)}
    grown = [sizes(**{**WORKED, "inside_w": watts[excess]})["c"].high for excess in watts]
    assert grown == pytest.approx([0.57, 1.5, 2.9], abs=0.05)
    cooled = sizes(**{**WORKED, "inside_w": watts[2.6]})["b"]
    assert cooled.holds(-0.3) and cooled.high < -0.2


def test_reasons_carry_what_the_scene_makes_of_them():
    """About 1.9 % of a filament's light over 10 cm (Edwards' wide bands, computed); 250 to 570 s for 10 to 15 cm at 0.16 cm2/s."""
    light, _, layer, *_ = (cause.reason for cause in possible_causes(**WORKED).causes)
    assert light.endswith("Reckoned without a wall: 1.9 to 2.9 %.")
    assert layer.endswith("In an open vessel a layer fades within 4.3 to 9.7 min.")


def test_argon_takes_up_nothing_but_lies_as_still():
    """Argon has no infrared bands; it conducts 0.68 of what air does (CoolProp), CO2 0.64."""
    argon = sizes(**WORKED, gas="argon")
    assert argon["a"].high == argon["b"].low == 0
    assert possible_causes(gas="argon").causes[0].reason == "There is none: argon takes up no infrared."
    assert argon["c"].high == pytest.approx(0.077 * (1 / 0.676 - 1), rel=0.05)


def test_plain_air_leaves_only_the_handling():
    air = sizes(gas="air", colder_k=0)
    assert all(size.low == size.high == 0 for letter, size in air.items() if letter != "f")
    assert air["f"].high == 2


def test_an_air_run_replaces_the_guess_of_the_disturbance():
    budget = possible_causes(MEASURED, air_run=Estimate.from_error(0.04, 0.03, 2))
    cause = next(each for each in budget.causes if each.rival.letter == "f")
    assert (cause.size.low, cause.size.high) == pytest.approx((-0.02, 0.10))
    assert cause.standing == "too small alone" and "air run" in cause.reason


inside = st.fixed_dictionaries({each.name: st.floats(0, 1) for each in fields(Scene)})


@settings(max_examples=40)
@given(inside, st.sampled_from("abcdefg"), st.sampled_from(["CO2", "argon"]))
def test_whatever_lies_between_the_inputs_lies_in_the_range(parts, letter, gas):
    whole, ends = size_of(letter, Scene(), gas), {each.name: getattr(Scene(), each.name) for each in fields(Scene)}
    point = size_of(letter, Scene(**{name: np.interp(part, [0, 1], ends[name]) for name, part in parts.items()}), gas)
    slack = 0.03 * (whole.high - whole.low)
    assert whole.low - slack <= point.low and point.high <= whole.high + slack


@settings(max_examples=40)
@given(st.floats(-3, 3), st.floats(0.01, 0.5), st.floats(0.02, 3), st.floats(10, 2000))
def test_sizes_never_settle_a_cause(value, error, inside_w, irradiance):
    budget = possible_causes(Estimate.from_error(value, error, 2), inside_w=inside_w, irradiance_w_m2=irradiance)
    assert budget.verdict == "cannot tell" and "several could together" in budget.reason and budget.next_runs
    assert not re.search(r"\b(because of|caused by|proves?|shows that|must be)\b", str(budget))


def test_the_sentence_names_reach_and_the_runs_that_tell():
    assert str(possible_causes(MEASURED)) == (
        "Why it got warmer: cannot tell from sizes. Of 7 causes, c, d and f could reach 1.53 °C (95 %: 1.46 to 1.60 °C) alone; several could "
        "together. Runs that tell them apart: both vessels stirred, foil between lamp and both thermometers and plain air through the same tube."
    )


def test_an_effect_without_a_number_is_not_compared():
    budget = possible_causes(Estimate.undetermined())
    assert {each.standing for each in budget.causes} == {"not compared"}
    assert budget.reason.startswith("No effect with a range was given.")


def test_more_light_and_more_watts_inside_make_larger_sizes():
    small, large = sizes(irradiance_w_m2=66, inside_w=0.1), sizes(irradiance_w_m2=198, inside_w=0.3)
    for letter in "abcd":
        assert large[letter].high - large[letter].low == pytest.approx(3 * (small[letter].high - small[letter].low))


# More, same, less of the grid that lesson 10 fills, from the same reasoning in words; "-" where it says neither.
GRID = {
    "a": "gone gone same gone same same less",
    "b": "gone gone less same same same less",
    "c": "gone same gone less less same less",
    "d": "gone same less less gone same same",
    "e": "less unclear same same same same gone",
    "f": "same same same same same opposite unclear",
}


@pytest.mark.parametrize("letter", GRID)
def test_the_grid_is_that_of_the_lesson(letter):
    assert [BY_LETTER[letter].predicts[run] for run in list(RUNS)[:7]] == GRID[letter].split()


def test_every_cause_speaks_of_every_run_and_no_two_predict_alike():
    assert all(set(rival.predicts) == set(RUNS) for rival in RIVALS)
    assert len({tuple(rival.predicts.values()) for rival in RIVALS}) == len(RIVALS)


def test_runs_that_separate_two_causes():
    assert set(runs_that_separate("c", "d")) == {"stirred", "shaded", "waited"}
    assert "argon" in runs_that_separate("a", "c") and "argon" not in runs_that_separate("c", "d")


def test_published_work_is_cited_no_stronger_than_it_was_read():
    assert [each.doi for each in PUBLISHED] == ["10.1119/1.3322738", "10.1088/0143-0807/35/2/025016", "10.1098/rsos.192075"]
    assert all("not the paper" in each.read or "Not read" in each.read for each in PUBLISHED)


@pytest.mark.parametrize(
    "given, message",
    [
        ({"inside_w": -1}, "inside_w can't be -1 W here. Give 0 to 50 W."),
        ({"gas_share": 1.2}, "gas_share can't be 1.2 here. Give 0.01 to 1."),
        ({"gas_share": float("nan")}, "gas_share can't be nan here. Give 0.01 to 1."),
        ({"inside_w": (2, 1)}, "inside_w must be one number or a pair, least before most. This was given: (2, 1)."),
        ({"gas": "neon"}, "The gas 'neon' is not known. Known: air, CO2, argon, nitrogen, helium."),
        ({"watts": 3}, f"There is no input 'watts'. Inputs: {', '.join(LIMITS)}."),
    ],
)
def test_what_cannot_be_is_refused(given, message):
    with pytest.raises(Fault) as caught:
        possible_causes(MEASURED, **given)
    assert str(caught.value) == message


def test_an_unknown_letter_is_refused_with_the_list():
    with pytest.raises(Fault) as caught:
        runs_that_separate("z")
    assert str(caught.value).startswith("No cause has the letter 'z'. Causes: a lamp light taken up, b infrared of the walls,")
