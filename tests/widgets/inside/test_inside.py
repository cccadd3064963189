"""Two vessels cut open: what the weight of a gas alone does at a mouth, held to formulas outside the model."""

import re

import pytest

from kit.widgets.inside import inside_view
from kit.widgets.inside.inside import GRIPS, pair_at, usual
from tests.widgets.parts import move


@pytest.fixture
def view():
    return inside_view()


def warmer(answer):
    told = re.search(r"is ([\d.−]+) °C warmer|equally warm", answer["sentence"])
    return float((told[1] or "0").replace("−", "-"))


def test_the_air_vessels_flow_is_that_of_the_formula_for_an_opening():
    """Q = 0.055 (g Δρ/ρ D⁵)^½ (Epstein 1988, number from memory), with Δρ/ρ by the ideal gas law, plus 1.6 mL/s that diffuse."""
    rise, flow, _ = pair_at(6.5, "CO2").at(30)
    lighter = rise[1] / (294.15 + rise[1])
    assert flow[1] == pytest.approx(1e6 * 0.055 * (9.81 * lighter * 0.065**5) ** 0.5 + 1.6, rel=0.03)


def test_a_gas_that_lies_still_lets_only_diffusion_through(view):
    """V π² D / (4 L²) with D = 0.16 cm²/s for CO2 in air at room temperature (handbook value, from memory) is 1.6 mL/s."""
    diffusing = 1.5e-3 * 9.87 * 0.16e-4 / (4 * 0.19**2) * 1e6
    assert pair_at(6.5, "CO2").at(10)[1][0] == pytest.approx(diffusing, rel=0.05)
    assert "lies still" in move(view, clock=10)["sentence"]


def test_its_mouth_opens_when_the_gas_weighs_no_more_than_the_room(view):
    """Share x of CO2 (44.01) in air (28.96) at T is as light as the room: 1 + 0.52 x = T/T0 (ideal gas law)."""
    pair = pair_at(6.5, "CO2")
    rise, _, share = pair.at(pair.opens)
    assert 1 + (44.01 / 28.96 - 1) * share == pytest.approx(1 + rise[0] / 294.15, abs=0.002)
    assert "comes in again" in move(view, clock=pair.opens + 1)["sentence"] and view.answer["bands"][0]["from"] == pair.opens


def test_a_wider_mouth_makes_more_of_it_and_all_of_it_ends(view):
    narrow, wide = (warmer(move(view, clock=20, mouth_cm=cm)) for cm in (4, 10))
    assert 0.2 < narrow < wide < 4 and abs(warmer(move(view, clock=60))) < 0.1


def test_argon_holds_the_mouth_shut_as_well_though_not_as_long(view):
    assert warmer(move(view, clock=10, gas="argon")) == pytest.approx(warmer(move(view, gas="CO2")), abs=0.15)
    assert pair_at(6.5, "argon").opens < pair_at(6.5, "CO2").opens


@pytest.mark.parametrize("end", ["low", "high"])
def test_it_answers_at_the_ends_of_its_grips(view, end):
    answer = move(view, **{grip.name: getattr(grip, end) for grip in GRIPS if hasattr(grip, end)})
    assert "trouble" not in answer and len(answer["table"]["rows"]) == 13 and len(answer["layers"]) == 24


def test_what_lies_in_the_vessel_is_no_more_than_the_model_has(view):
    answer = move(view, clock=45)
    assert sum(answer["layers"]) / 24 <= pair_at(6.5, "CO2").at(45)[2] + 0.001


def test_what_the_cards_are_told():
    told = usual()
    assert 1 <= told.values["left"] < 30 and told.texts["opens"].endswith("min")


def test_vessels_alike_are_not_told_as_one_warmer_by_nothing(view):
    assert move(view, clock=60)["sentence"].endswith("Both vessels are equally warm.")
    assert move(view, clock=10)["sentence"].endswith(" warmer.")
