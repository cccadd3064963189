"""The second view of lesson 01: its shares are those of Planck's law, and of the walls as the physics has them."""

import re

import pytest

from kit import band_share
from kit.widgets.spectrum import spectrum_view
from kit.widgets.spectrum.spectrum import GRIPS, WALLS, co2_share
from tests.widgets.parts import move


@pytest.fixture
def view():
    return spectrum_view()


def share(text):
    return float(re.search(r"([\d.]+) %", text)[1])


def test_a_filament_and_a_wall_have_the_shares_of_the_published_table(view):
    """Band shares of a black body: Siegel and Howell, Thermal Radiation Heat Transfer, table of F(0, λT) (from memory); see tests/reference."""
    filament, wall = move(view, kelvin=2700), move(view, kelvin=310)
    assert share(dict(filament["numbers"])["visible light"]) == pytest.approx(7.0, abs=0.1)
    assert share(dict(filament["numbers"])["in CO2's bands, at most"]) == pytest.approx(2.66 + 0.85 + 0.16, abs=0.06)
    assert share(dict(wall["numbers"])["in CO2's bands, at most"]) == pytest.approx(18.2, abs=0.3)
    assert dict(wall["numbers"])["visible light"] == "next to nothing"


def test_glass_lets_a_filament_pass_and_stops_a_warm_wall(view):
    assert "lets 82 % to 95 % of it pass" in move(view, kelvin=2700, wall="soda-lime glass")["sentence"]
    assert "of it pass" in move(view, kelvin=310, wall="soda-lime glass")["sentence"]
    assert share(move(view, kelvin=310, wall="soda-lime glass")["sentence"].split("Glass")[1]) < 1


@pytest.mark.parametrize("wall", WALLS)
@pytest.mark.parametrize("kelvin", [GRIPS[0].low, GRIPS[0].high])
def test_it_answers_at_the_ends_with_every_wall(view, kelvin, wall):
    answer = move(view, kelvin=kelvin, wall=wall)
    assert "trouble" not in answer and max(answer["line"]["y"]) == pytest.approx(1, abs=0.01)
    assert (answer["edge"] is None) == (wall in ("no wall", "thin polyethylene"))


def test_co2_can_take_up_no_more_than_all(view):
    assert all(0 < co2_share(kelvin) < 100 for kelvin in (300, 1000, 6000))
    assert band_share(2700, 0.01, 1e6).share == pytest.approx(100, abs=0.01)
