"""The view of lesson 02: shares and limits are those of the vessel's model, and say what they should where they must."""

import re

import pytest

from kit.widgets.filling import filling_view
from kit.widgets.filling.filling import GRIPS, litres, usual
from tests.widgets.parts import move


@pytest.fixture
def view():
    return filling_view()


def shares(view):
    return [float(text.split()[0]) if "%" in text else 0.0 for _, text in view.answer["numbers"]]


@pytest.mark.parametrize("end", ["low", "high"])
def test_it_answers_at_the_ends_of_its_grips(view, end):
    answer = move(view, **{grip.name: getattr(grip, end) for grip in GRIPS if hasattr(grip, "low")}, limits="shown")
    assert "trouble" not in answer and all(0 <= share <= 1 for share in answer["layers"]) and max(answer["line"]["y"]) <= 100


def test_mixed_gas_gives_the_share_of_a_stirred_vessel_at_first(view):
    """1 - exp(-v/V), the mass balance of a stirred vessel; a little of it has gone again after the tube is out."""
    from math import exp

    assert shares(view)[0] / 100 == pytest.approx(1 - exp(-litres(4) / 1.5), abs=0.08)


def test_the_gas_goes_and_a_deeper_vessel_keeps_it_longer(view):
    left = {}
    for depth in (5, 10, 19, 30):
        move(view, depth_cm=depth, clock=15)
        left[depth] = shares(view)[0]
    assert list(left.values()) == sorted(left.values()) and left[30] > left[5] + 20


def test_a_flat_bowl_has_no_minute_to_read_and_the_usual_vessel_has(view):
    assert "There is no minute at which you could read" in move(view, depth_cm=4, limits="shown")["sentence"]
    usual_one = move(view, depth_cm=19, read=15)["sentence"]
    start, end = map(float, re.search(r"from minute ([\d.]+) to ([\d.]+\d)", usual_one).groups())
    assert 3 < start < 12 < 20 < end and "Yours does." in usual_one


def test_moving_air_takes_the_gas_out_sooner(view):
    ends = []
    for air in ("still", "moving"):
        sentence = move(view, air=air, limits="shown")["sentence"]
        ends.append(float(re.search(r"to ([\d.]*\d)\. ", sentence)[1]))
    assert ends[1] < ends[0] / 2


@pytest.mark.parametrize(("read", "said"), [(0, "too early"), (44, "too late")])
def test_a_reading_outside_is_told_on_which_side(view, read, said):
    assert f"Yours is {said}" in move(view, read=read, limits="shown")["sentence"]


def test_the_limits_stay_hidden_until_they_are_asked_for(view):
    assert view.answer["bands"] == [] and "R may stand" not in view.answer["sentence"]


def test_what_the_cards_are_told():
    assert usual().values == {"left": "half", "twice": "less"}
