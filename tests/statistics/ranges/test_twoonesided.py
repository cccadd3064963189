"""Two one-sided tests against a reference library, and what a bias may do to them."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.statistics.ranges.twoonesided import CANNOT_TELL, DIFFERENT, equivalence, SAME, welch_dof


@settings(max_examples=40, deadline=None)
@given(st.integers(3, 20), st.integers(3, 20), st.floats(0.2, 2), st.integers(0, 10**6))
def test_same_is_said_just_where_statsmodels_gives_it_a_chance_below_5_percent(first, second, margin, seed):
    from statsmodels.stats.weightstats import ttost_ind

    rng = np.random.default_rng(seed)
    one, other = rng.normal(0, 1, first), rng.normal(0.2, 0.5, second)
    p_value, (_, _, dof), _ = ttost_ind(one, other, -margin, margin, usevar="unequal")
    errors = [each.std(ddof=1) / len(each) ** 0.5 for each in (one, other)]
    assert welch_dof(errors, (first - 1, second - 1)) == pytest.approx(dof)
    if abs(p_value - 0.05) > 1e-9:
        assert (equivalence(one.mean() - other.mean(), np.hypot(*errors), dof, margin).verdict == SAME) == (p_value < 0.05)


@pytest.mark.parametrize(
    "difference, error, verdict",
    [
        (0.01, 0.02, SAME),
        (-0.05, 0.04, SAME),
        (0.30, 0.05, DIFFERENT),
        (-0.30, 0.05, DIFFERENT),
        (0.10, 0.05, CANNOT_TELL),
        (0.0, 0.2, CANNOT_TELL),
    ],
)
def test_the_three_verdicts(difference, error, verdict):
    assert equivalence(difference, error, 30, 0.15).verdict == verdict


def test_same_is_said_just_when_the_range_stays_inside_the_margin():
    for difference in np.linspace(-0.2, 0.2, 81):
        found = equivalence(difference, 0.03, 12, 0.15, drift=(-0.01, 0.02))
        assert (found.verdict == SAME) == (-0.15 <= found.low and found.high <= 0.15)


def test_a_possible_bias_makes_both_answers_rarer():
    without, with_bias = equivalence(0.05, 0.02, 20, 0.15), equivalence(0.05, 0.02, 20, 0.15, drift=(-0.1, 0.1))
    assert (without.verdict, with_bias.verdict) == (SAME, CANNOT_TELL)
    assert with_bias.low < without.low < without.high < with_bias.high


@pytest.mark.parametrize("bias, shift", [(0.0, 0.0), (0.1, 0.1), (0.1, -0.1)])
def test_false_same_at_the_margin_is_rare_whatever_the_bias(bias, shift):
    """20,000 draws at a true difference of the margin; the difference is off by `shift`, inside what `bias` allows."""
    draws = 0.15 + shift + 0.03 * np.random.default_rng(8).standard_normal(20_000)
    false = np.mean([equivalence(each, 0.03, 1e9, 0.15, drift=(-bias, bias)).verdict == SAME for each in draws])
    assert false <= 0.055


def test_parts_known_for_sure_leave_the_degrees_of_freedom_to_the_others():
    assert welch_dof((0.1, 0.0), (7, 3)) == pytest.approx(7)
    assert welch_dof((0.1, 0.2), (float("inf"), float("inf"))) == float("inf")
