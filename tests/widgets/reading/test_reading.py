"""The view of lesson 05: its effects are those of the verbs, wrong answers give numbers that look fine, and each cell knows its place."""

import pytest

from kit import paired_effect, read_run, suggest_windows
from kit.examples import example_path
from kit.widgets.reading import reading_view
from kit.widgets.reading.reading import LAPTOP, LOGGER, outcomes
from tests.widgets.parts import move


@pytest.fixture
def view():
    return reading_view()


def test_its_effect_is_that_of_the_verb(view):
    run = read_run(example_path("dolomite"), time=LOGGER)
    marks = suggest_windows(run)
    assert dict(view.answer["numbers"])["effect, jump kept"] == paired_effect(run, marks).warming.range
    shifted = read_run(example_path("dolomite"), time=LAPTOP)
    assert dict(move(view, clock=LAPTOP)["numbers"])["effect, jump kept"] == paired_effect(shifted, marks).warming.range


def test_leaving_the_jump_out_shows_the_effect_both_ways(view):
    kept, left = view.answer["numbers"], move(view, jump="leave out")["numbers"]
    assert dict(kept) == dict(left) and kept[0][1] != kept[1][1]


def test_three_of_four_wrong_answers_change_the_effect_and_no_reading_fails(view):
    assert outcomes().values == {"silent": 3}
    for wrong in ({"mark": "cut"}, {"clock": LAPTOP}, {"control": "Treated"}, {"flat": "steady"}):
        assert "trouble" not in move(view, **wrong) and "trouble" not in view.answer


def test_each_cell_is_found_in_its_line(view):
    for line in view.answer["lines"]:
        assert all(line["line"][cell["from"] : cell["to"]] == cell["text"] for cell in line["cells"])
    assert view.answer["lines"][2]["cells"][2] == {"from": 17, "to": 22, "text": "20,88", "read": "20.88"}
    assert move(view, mark="cut")["lines"][2]["cells"][2]["read"] == "20"
