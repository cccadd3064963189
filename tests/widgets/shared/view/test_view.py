"""What every lesson's view keeps: values within their grips, one answer for each move, faults as words."""

import pytest

from kit.faults import Fault
from kit.widgets.shared import Grip, Pick, View, line
from tests.widgets.parts import move

GRIPS = [Grip("lamp_w", "lamp", 1, 8, 4, step=0.5, unit="W"), Pick("walls", "The walls are", {"glass": "glass", "film": "thin film"}, "glass")]


def told(lamp_w, walls):
    if lamp_w > 7:
        raise Fault("That lamp would melt the walls.")
    return {"sentence": f"{lamp_w:g} W, {walls}"}


@pytest.fixture
def view():
    return View("Lamp", GRIPS, told)


def test_it_answers_at_once_and_at_every_move(view):
    assert view.answer == {"sentence": "4 W, glass"}
    assert move(view, lamp_w=2.5)["sentence"] == "2.5 W, glass"
    view.move(walls="film")
    assert view.answer["sentence"] == "2.5 W, film" and view.values == {"lamp_w": 2.5, "walls": "film"}


def test_a_value_beyond_a_grip_ends_there(view):
    move(view, lamp_w=0.2)
    assert view.values["lamp_w"] == 1


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"lamp": 3}, "This view has no 'lamp'. It has lamp_w and walls."),
        ({"lamp_w": float("nan")}, "lamp_w is a number from 1 to 8 W, not nan."),
        ({"lamp_w": "3"}, "lamp_w is a number from 1 to 8 W, not '3'."),
        ({"walls": "steel"}, "walls is 'glass' or 'film', not 'steel'."),
    ],
)
def test_what_it_does_not_know_is_a_fault_in_code_and_words_in_the_view(view, values, words):
    with pytest.raises(Fault) as fault:
        view.move(**values)
    assert str(fault.value) == words
    answer = move(view, **values)
    assert answer["trouble"] == words and view.values == {"lamp_w": 4, "walls": "glass"}
    assert "trouble" not in move(view, lamp_w=5)


def test_a_fault_of_the_answer_becomes_words_and_goes_again(view):
    assert move(view, lamp_w=8)["trouble"] == "That lamp would melt the walls."
    assert move(view, lamp_w=7) | {"to": ""} == {"sentence": "7 W, glass", "to": ""}


def test_a_surprise_of_the_answer_is_a_sentence_too():
    assert "ZeroDivisionError" in View("Broken", GRIPS, lambda lamp_w, walls: 1 / 0).answer["trouble"]


def test_a_long_line_goes_as_at_most_300_points_with_both_ends():
    sent = line(range(1000), range(1000))
    assert len(sent["x"]) == len(sent["y"]) == 300 and (sent["x"][0], sent["x"][-1]) == (0, 999)


def test_the_browser_hears_of_places_and_options(view):
    assert [each.get("places", each.get("options")) for each in view.grips] == [1, [["glass", "glass"], ["film", "thin film"]]]
