"""The view of lesson 08: the range of the difference is that of two independent results; its verdicts are those of the kit's own test."""

import re

import pytest

from kit import Fault, against_reference, example_run
from kit.coursework import Answer, add_answer, answers_path, margin_c, read_answers
from kit.widgets.compare import compare_view
from kit.widgets.compare.compare import GRIPS, at_first
from tests.widgets.parts import move


@pytest.fixture
def view():
    return compare_view()


def span(answer):
    return [float(number.replace("−", "-")) for number in re.findall(r"[−\d.]+", dict(answer["numbers"])["its range"])]


def test_bars_that_overlap_may_differ(view):
    """1.20 ± 0.20 and 1.52 ± 0.20 differ by 0.32, 0.04 to 0.60: independent ranges add as squares (GUM 5.1.2)."""
    assert view.answer["overlap"] and view.answer["differ"] and span(view.answer) == pytest.approx([-0.60, -0.04], abs=0.006)


def test_the_learner_can_find_the_stretch_where_both_are_true(view):
    seen = {(answer["overlap"], answer["differ"]) for mine in range(0, 301, 4) for answer in [move(view, mine=mine / 100)]}
    assert seen == {(True, False), (True, True), (False, True)}


@pytest.mark.parametrize(("mine", "margin", "verdict"), [(1.52, 0.3, "same within the margin"), (3.0, 0.3, "different"), (1.3, 0.3, "cannot tell")])
def test_within_the_margin_it_says_what_the_test_says(view, mine, margin, verdict):
    assert move(view, mine=mine, margin=margin, shown="yes")["sentence"].endswith(f"Within {margin:g} °C: {verdict}.")


@pytest.mark.parametrize("end", ["low", "high"])
def test_it_answers_at_the_ends_of_its_grips(view, end):
    assert "trouble" not in move(view, **{grip.name: getattr(grip, end) for grip in GRIPS if hasattr(grip, end)})


def test_the_cards_are_told_that_they_differ():
    assert at_first().values == {"bars": "differ"}


def test_no_comparison_opens_before_a_margin_is_kept(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(Fault, match="Choose your margin first"):
        against_reference(example_run("basalt"))
    assert against_reference(example_run("basalt"), margin=0.3).margin == 0.3


def test_the_margin_is_read_from_the_words_that_were_kept(tmp_path):
    path = answers_path("08", tmp_path)
    assert margin_c(read_answers(path)) is None
    add_answer(path, Answer("08.margin", "prediction", {"choice": "c", "words": "0.3 °C", "because": "our display"}))
    assert margin_c(read_answers(path)) == 0.3
