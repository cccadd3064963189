"""Least and most of each cause: small cases that can be worked by hand, and laws of linear programs."""

import numpy as np
import pytest

from kit.analysis.causes.bounds import LETTERS, LIMITS_C, bounds

NONE = np.zeros(len(LETTERS))


def ratios(**known):
    """(low, high, slack) that are 1 but for the named letters."""
    low, high = np.ones(len(LETTERS)), np.ones(len(LETTERS))
    for letter, (least, most) in known.items():
        low[LETTERS.index(letter)], high[LETTERS.index(letter)] = least, most
    return low, high, NONE


def of(letter, found):
    return found[0][LETTERS.index(letter)], found[1][LETTERS.index(letter)]


def test_one_run_leaves_what_the_limits_leave():
    """m at most: the effect's high end less the least that all others can be (-0.1 - 0.6 - 0.3 - 0.3), by hand."""
    found = bounds({"gas": (1.4, 1.6)}, {})
    assert of("m", found) == pytest.approx((0, 1.6 + 1.3)) and of("d", found) == pytest.approx((0, 1.2))


def test_a_run_that_takes_all_but_one_cause_away_measures_it():
    gone = {letter: (0, 0) for letter in LETTERS if letter != "d"}
    assert of("d", bounds({"gas": (1.4, 1.6), "odd": (0.3, 0.5)}, {"odd": ratios(**gone)})) == pytest.approx((0.3, 0.5))


def test_a_run_that_takes_one_cause_away_tells_its_size_by_the_difference():
    """Effect 1.5 with and 0.4 without m: 1.1 by hand, each ± 0.1."""
    found = bounds({"gas": (1.4, 1.6), "odd": (0.3, 0.5)}, {"odd": ratios(m=(0, 0))})
    assert of("m", found) == pytest.approx((0.9, 1.3))


def test_a_cause_of_either_sign_turns_with_its_ratio():
    """All but f gone, and f the other way round: effect -0.2 tells f = 0.2."""
    turned = {letter: (0, 0) for letter in LETTERS if letter != "f"} | {"f": (-1, -1)}
    assert of("f", bounds({"gas": (1.4, 1.6), "odd": (-0.2, -0.2)}, {"odd": ratios(**turned)})) == pytest.approx((0.2, 0.2))


def test_runs_that_no_sizes_give_are_refused():
    assert bounds({"gas": (1.4, 1.6), "again": (0.1, 0.2)}, {"again": ratios()}) is None


def test_one_more_run_never_widens_a_bound():
    effects = {"gas": (1.4, 1.6), "covered": (0.2, 0.5), "shaded": (1.2, 1.5)}
    told = {"covered": ratios(m=(0, 0.05), d=(1.5, 6)), "shaded": ratios(d=(0, 0))}
    before = bounds({kind: effects[kind] for kind in ("gas", "covered")}, told)
    after = bounds(effects, told)
    assert (after[0] >= before[0] - 1e-9).all() and (after[1] <= before[1] + 1e-9).all()


def test_sizes_at_the_ends_are_sizes_that_fit():
    least, most, sizes = bounds({"gas": (1.4, 1.6), "shaded": (1.0, 1.2)}, {"shaded": ratios(d=(0, 0))})
    assert np.diagonal(sizes[0]) == pytest.approx(least) and np.diagonal(sizes[1]) == pytest.approx(most)
    low, high = np.array([LIMITS_C[letter] for letter in LETTERS]).T
    assert (sizes >= low - 1e-9).all() and (sizes <= high + 1e-9).all()
    assert ((sizes.sum(-1) >= 1.4 - 1e-9) & (sizes.sum(-1) <= 1.6 + 1e-9)).all()
