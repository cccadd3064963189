"""The view of lesson 11: its levels are those of the energy balance, and nothing opens before the ways out are sorted."""

import re

import pytest

from kit.widgets.planet import planet_view
from kit.widgets.planet.planet import DOORS, GRIPS, bare_and_layered
from tests.widgets.parts import move


@pytest.fixture
def view():
    return planet_view()


def level(answer):
    return float(dict(answer["numbers"])["level of the ground"].split()[0].replace("−", "-"))


@pytest.mark.parametrize("door", [door for door in DOORS if door != "radiation"])
def test_a_door_that_a_planet_lacks_opens_nothing(view, door):
    answer = move(view, door=door)
    assert answer["closed"] and answer["numbers"] == [] and answer["sentence"].endswith(("Choose again.", "has a planet?"))


def test_the_bare_and_the_layered_earth_are_those_of_the_textbook(view):
    """254.6 K and 302.7 K: (S (1 - a) / 4 σ)^¼ and 2^¼ times that, with 1361 W/m2 and 0.30; σ from CODATA."""
    assert level(move(view, door="radiation")) == pytest.approx(254.58 - 273.15, abs=0.06)
    assert level(move(view, taken_up=100)) == pytest.approx(302.75 - 273.15, abs=0.06)


def test_more_sun_warms_and_more_reflection_cools(view):
    start = level(move(view, door="radiation"))
    assert level(move(view, sun=1700)) > start > level(move(view, sun=1361, reflected=60))


def test_co2_shows_a_drop_and_a_range_of_warming(view):
    """3.93 ± 0.47 W/m2 and likely 2.5 to 4 °C for a doubling: IPCC AR6 WG1, chapter 7 (from memory)."""
    answer = move(view, door="radiation", co2=560)
    drop, warming = (tuple(map(float, found)) for found in re.findall(r"([\d.]+) to ([\d.]+) (?:W|°C)", answer["sentence"]))
    assert drop == pytest.approx((3.46, 4.40), abs=0.06) and warming == pytest.approx((2.5, 4.0), abs=0.06)
    assert len(answer["lines"]) == 2


@pytest.mark.parametrize("end", ["low", "high"])
def test_it_answers_at_the_ends_of_its_grips(view, end):
    answer = move(view, door="radiation", **{grip.name: getattr(grip, end) for grip in GRIPS if hasattr(grip, end)})
    assert "trouble" not in answer and answer["table"]["rows"]


def test_what_the_cards_are_told():
    told = bare_and_layered()
    assert told.values["bare"] == pytest.approx(-18.6, abs=0.05) and told.texts["bare"] == "−19 °C"
