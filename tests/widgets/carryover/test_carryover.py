"""The third look of lesson 11: points are sorted by hand, and each says how it is in both."""

import pytest

from kit.analysis.planet import carries_over
from kit.widgets.carryover import sorting_view
from kit.widgets.carryover.carryover import POINTS
from tests.widgets.parts import move


@pytest.fixture
def view():
    return sorting_view()


def again(answer):
    return [name for name, told in answer["told"].items() if told["again"]]


def test_nothing_is_told_before_it_is_sorted(view):
    assert view.answer["sentence"].startswith("Nothing is sorted yet") and not any(column["points"] for column in view.answer["columns"])


def test_sorted_as_in_the_table_there_is_nothing_to_look_at_again(view):
    answer = move(view, **{name: "carries" if point.carries else "not" for name, point in POINTS.items()})
    assert answer["sentence"] == "All are sorted." and again(answer) == []
    assert [len(column["points"]) for column in answer["columns"]] == [len(carries_over().carrying), len(carries_over().not_carrying)]


def test_what_is_sorted_otherwise_says_both_sides_and_asks(view):
    answer = move(view, walls="carries", energy_balance="carries")
    assert again(answer) == ["walls"] and "8 points still to sort. 1 point to look at again." == answer["sentence"]
    assert POINTS["walls"].vessel in answer["told"]["walls"]["both"] and answer["columns"][0]["points"] == ["energy balance", "walls"]
