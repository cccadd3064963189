"""The view of lesson 07: what it says of a record is what `fit_warming` says of it, cut where the hand cuts it."""

import pytest

from kit import Windows, example_run, fit_warming
from kit.widgets.rising import rising_view
from kit.widgets.rising.rising import GAS_AT_MIN, GRIPS, known, RUN, three_ends
from tests.widgets.parts import move


@pytest.fixture
def view():
    return rising_view()


def off(answer):
    return float(answer["numbers"][0][1].split()[0])


def test_a_curve_that_lies_on_the_readings_is_hardly_off(view):
    far, near = off(view.answer), off(move(view, height=1.5, time=1.4))
    assert near < 0.1 < far


@pytest.mark.parametrize("end", [4, 10, 30])
def test_it_knows_what_the_verb_knows(view, end):
    answer = move(view, end=end, beside="yes")
    curve = fit_warming(example_run(RUN), Windows((10, 11), (11, 12), (10 + end, 11 + end)))
    assert str(curve) in answer["sentence"] and dict(answer["numbers"])["rise until then"] == curve.rise.range
    assert max(answer["lines"][0]["x"]) <= end


@pytest.mark.parametrize("end", ["low", "high"])
def test_it_answers_at_the_ends_of_its_grips(view, end):
    assert "trouble" not in move(view, **{grip.name: getattr(grip, end) for grip in GRIPS if hasattr(grip, end)}, beside="yes")


def test_a_short_record_still_rises_and_a_long_one_has_lost_its_gas():
    assert three_ends().values == {"ends": "falls", "short": "rising"}


@pytest.mark.parametrize("end", [35, 40, 44])
def test_a_record_whose_gas_has_left_is_told_in_the_minutes_of_the_picture(view, end):
    """Basalt's gas has thinned out about 34 min after it came in: `fit_warming` finds a fall there that no rise makes."""
    told, jump = move(view, end=end, beside="yes")["sentence"], known(end).curve.effect.jump
    assert jump.size_c < 0 and 33 < jump.at_min - GAS_AT_MIN < end
    assert f"From about minute {round(jump.at_min - GAS_AT_MIN)} after the gas the difference falls" in told
    assert str(known(end).curve.effect) in told and "un again" not in told
