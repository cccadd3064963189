"""The view of lesson 06: its ranges are those of the statistics, the count is that of the bars, and each grip does what its words say."""

import numpy as np
import pytest

from kit import Fault
from kit.statistics import coverage_factor, stacked_effects
from kit.widgets.repeats import repeats_view
from kit.widgets.repeats.hundred import EDGES_S, logged, ranges_of, RUNS
from kit.widgets.repeats.repeats import first_hundred
from tests.widgets.parts import move


@pytest.fixture
def view():
    return repeats_view(setup=True)


def test_the_count_is_that_of_the_bars_that_cross_the_line(view):
    for ways in ("honest", "naive"):
        answer = move(view, ways=ways)
        crossing = [low <= answer["truth"] <= high for low, high in answer["bars"]]
        assert answer["hold"] == crossing and answer["count"].startswith(f"{sum(crossing)} of {len(crossing)} ") and len(crossing) == RUNS


def test_over_many_hundreds_about_95_of_100_honest_ranges_hold_the_truth():
    """The level is a promise over repeats: 95 in 100 by its definition (GUM 6.2.2, JCGM 100:2008). 2000 runs leave 0.5 in 100 of chance."""
    held = [ranges_of(seed, 10, 3, 0.1)["honest"].hold.mean() for seed in range(1, 21)]
    assert 0.935 <= np.mean(held) <= 0.965


def test_the_naive_range_is_the_one_for_independent_readings():
    """Seven readings in each window, both ends counted. By Student's table of t the factor is 2.179 at 12 degrees of freedom, 2.447 at 6."""
    assert [coverage_factor(0.95, dof) for dof in (12, 6)] == pytest.approx([2.179, 2.447], abs=5e-4)
    seconds, treated, control, truth = logged(1, 10, 3, 0.1)
    difference, found = treated - control, ranges_of(1, 10, 3, 0.1)
    windows = [(seconds >= begin) & (seconds <= end) for begin, end in (EDGES_S[:2], EDGES_S[4:])]
    before, after = (difference[:, window] for window in windows)
    middle = (found["naive"].low + found["naive"].high) / 2
    assert middle == pytest.approx(after.mean(1) - before.mean(1)) and before.shape[1] == after.shape[1] == 7
    error = np.sqrt(before.var(1, ddof=1) / 7 + after.var(1, ddof=1) / 7)
    reach = (found["naive"].high - found["naive"].low) / 2
    assert (reach >= 2.178 * error).all() and (reach <= 2.448 * error).all()
    assert found["honest"].low == pytest.approx(stacked_effects(seconds, treated, control, EDGES_S).low)
    assert found["honest"].truth == truth


def test_ten_times_the_readings_narrow_the_naive_range_and_not_the_honest_one():
    slow, fast = (ranges_of(1, step_s, 3, 0.1) for step_s in (10, 1))
    assert fast["naive"].half_width < slow["naive"].half_width / 2.5
    assert 0.8 < slow["honest"].half_width / fast["honest"].half_width < 1.25
    assert fast["naive"].hold.sum() < slow["naive"].hold.sum() < 50 < slow["honest"].hold.sum()


def test_a_coarse_display_widens_the_honest_range_and_a_logger_does_not_change_the_runs(view):
    fine, coarse = (move(view, display_c=step, step_s="10 s") for step in ("0.01", "0.5"))
    assert np.ptp(coarse["bars"], axis=1).mean() > 2 * np.ptp(fine["bars"], axis=1).mean()
    assert len({round(ranges_of(1, step_s, 3, 0.01)["honest"].truth, 2) for step_s in (1, 2, 5, 10, 20)}) <= 2


def test_another_hundred_is_another_chance_and_the_first_comes_back(view):
    first, other = move(view, hundred=1)["bars"], move(view, hundred=2)["bars"]
    assert first != other and move(view, hundred=1)["bars"] == first


def test_what_is_not_under_the_hand_can_not_be_moved():
    with pytest.raises(Fault, match="no 'step_s'"):
        repeats_view().move(step_s="1 s")


def test_the_numbers_of_the_cards_are_those_of_the_first_view():
    told = first_hundred()
    assert f"{told.values['held']} of 100" == told.texts["honest_10"] == dict(repeats_view().answer["numbers"])["hold the truth"]
    assert "\N{MINUS SIGN}" in told.texts["air_range"]  # the air run's range holds 0


def test_it_counts_misses_in_plain_words_and_says_which_bars_are_cut_off(view):
    one = move(view, display_c="0.01", quiet_min=1, step_s="10 s")
    assert one["hold"].count(False) == 1 and "; 1 misses it." in one["sentence"]
    assert f"Bold: group {one['hold'].index(False) + 1}." in one["picture"]
    low, high = one["span"]
    assert f" {sum(ends[0] < low or ends[1] > high for ends in one['bars'])} ranges go on beyond the picture." in one["sentence"]
    none = move(view, quiet_min=10)
    assert all(none["hold"]) and none["sentence"] == "100 of 100 ranges hold the truth; none misses it." and none["picture"].endswith("None is bold.")
