"""The second look of lesson 11: the record is the published one, and the warming by it is the assessed one, scaled by its logarithm."""

from math import isfinite, log

import pytest

from kit.analysis.planet import planet_warming
from kit.widgets.airrecord import co2_view
from kit.widgets.airrecord.airrecord import FIRST, GRIPS, LAST
from tests.widgets.parts import move


@pytest.fixture
def view():
    return co2_view()


def bar(answer, label):
    return next(each for each in answer["bars"] if each["label"] == label)


def test_the_year_under_the_hand_names_its_measured_co2(view):
    """Yearly means at Mauna Loa, 1960 316.88 and 2000 369.36 ppm: Keeling & Whorf 2004, as statsmodels carries them."""
    for year, ppm in ((1960, "317 ppm"), (2000, "369 ppm")):
        assert dict(move(view, year=year)["numbers"])["CO2"] == ppm


def test_the_warming_is_that_of_a_doubling_times_the_doublings_made(view):
    """2 to 5 °C and 3.93 ± 0.47 W/m2 for a doubling, very likely: IPCC AR6 WG1, chapter 7 (from memory)."""
    end, doublings = bar(move(view, year=2000), "in the end"), log(369.36 / 278, 2)
    assert (end["low"], end["high"]) == pytest.approx((2 * doublings, 5 * doublings), rel=0.02)
    part = bar(view.answer, "of that range, from the forcing")
    assert (part["high"] - part["low"]) / end["to"] == pytest.approx(2 * 0.47 / 3.93, rel=1e-3)


def test_the_forcing_makes_the_smaller_part_of_the_range(view):
    answer = move(view, year=LAST)
    (end, part, _), width = answer["bars"], lambda bar: bar["high"] - bar["low"]
    assert end["low"] < part["low"] < part["high"] < end["high"] and width(part) < width(end) / 2


def test_counted_from_the_record_less_is_left(view):
    before, since = move(view, year=LAST), move(view, since="record")
    assert bar(since, "in the end")["to"] < bar(before, "in the end")["to"] / 1.4
    assert f"in {FIRST} to" in since["sentence"]


@pytest.mark.parametrize("end", ["low", "high"])
@pytest.mark.parametrize("since", ["before", "record"])
def test_it_answers_at_the_ends_of_its_grips(view, end, since):
    answer = move(view, year=getattr(GRIPS[0], end), since=since)
    assert "trouble" not in answer and all(isfinite(each) for each in answer["lines"][0]["y"])
    assert all(each["high"] <= answer["most"] for each in answer["bars"])


def test_less_co2_cools_by_a_range_with_its_ends_in_order():
    cooling = planet_warming(200, 400)
    assert cooling.by_forcing.low < cooling.in_the_end.value < cooling.by_forcing.high < 0
