"""What the nine runs say: their effects against the hidden truth, the bars of `weigh_causes`, and when a bar counts as moved."""

import pytest

from kit.bench import reveal
from kit.examples import example_run
from kit.widgets.causes.board import bars_of, moved, moving_sentence
from kit.widgets.causes.runs import FILES, FOR_SALE, beside_gas, best_first, effect_of, fits_alone, weighed


@pytest.mark.parametrize("kind", FILES)
def test_every_run_is_bundled_and_its_range_holds_the_truth(kind):
    """The truth is the simulated bench's own, gas and bench together in the same windows."""
    effect = effect_of(kind)
    assert effect.warming.holds(reveal(example_run(FILES[kind])).effect_c(effect.windows))
    assert example_run(FILES[kind]).kind == "simulated"


def test_the_mouth_is_needed_once_the_covered_run_is_in_and_nothing_is_needed_before():
    """One published test of such vessels put the warming down to density (Wagoner, Liu & Tobin 2010, by an institute's notice)."""
    assert [each.word for each in weighed(()).causes if each.word == "needed"] == []
    assert [each.letter for each in weighed(("covered",)).causes if each.word == "needed"] == ["m"]


def test_a_run_for_which_all_predict_the_same_moves_no_bar():
    found = weighed(("stirred",))
    assert moved(found, 2) == [] and moving_sentence(found, 2).startswith("No bar moved")
    assert all(bar["before"] == [] and ", before" not in bar["text"] for bar in bars_of(found, 2))


def test_a_bar_that_moved_says_where_it_was():
    found = weighed(("covered", "shaded"))
    bar = {each["key"]: each for each in bars_of(found, 3)}["d"]
    assert moved(found, 3) == ["d"] and ", before 0 to 1.2 °C" in bar["text"] and bar["before"] == [0, pytest.approx(1.2)]
    assert bar["high"] < 1.2 and "thermometer in the beam" in moving_sentence(found, 3)


def test_argon_fits_the_mouth_alone_and_no_cause_that_needs_infrared():
    assert [fits_alone(letter, "argon") for letter in "mab"] == [True, False, False]
    assert beside_gas("argon").word == "same" and beside_gas("stirred").word == "gone"


def test_the_runs_are_ordered_by_what_they_tell():
    rows = best_first("mda")
    assert len(rows) == len(FOR_SALE) == 9 and {row[0] for row in rows[:2]} == {"shaded", "covered"}
    assert [float(row[1].split()[0]) for row in rows] == sorted((float(row[1].split()[0]) for row in rows), reverse=True)
