"""Pooling against a reference library, and the laws it must keep. Published values: tests/reference."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from kit.statistics.pooling.pooling import plain_mean, pool, spread_between, spread_interval, spread_of_next, surprise

VALUES = np.array([1.31, 1.52, 1.47, 1.60, 1.38, 1.75, 1.50])
ERRORS = np.array([0.04, 0.05, 0.03, 0.08, 0.05, 0.06, 0.04])

groups = st.integers(2, 12).flatmap(
    lambda k: st.tuples(
        st.lists(st.floats(-3, 3), min_size=k, max_size=k).map(np.array),
        st.lists(st.floats(0.01, 0.3), min_size=k, max_size=k).map(np.array),
    )
)


def settled(values, errors, reference):
    """Did the reference's own search end where it says: weighted squares equal to k − 1, or below that with no spread?"""
    precision = 1 / (errors**2 + reference.tau2)
    excess = precision @ (values - reference.mean_effect_re) ** 2 - (len(values) - 1)
    return abs(excess) < 1e-6 or (reference.tau2 == 0 and excess < 0)


@pytest.mark.filterwarnings("ignore:divide by zero")
@settings(max_examples=50, deadline=None)
@given(groups)
def test_spread_and_mean_equal_those_of_statsmodels(group):
    from statsmodels.stats.meta_analysis import combine_effects

    values, errors = group
    reference = combine_effects(values, errors**2, method_re="pm", use_t=True, atol=1e-12, maxiter=500)
    assume(settled(values, errors, reference))
    ours = pool(values, errors)
    assert ours.spread**2 == pytest.approx(reference.tau2, abs=1e-7)
    assert ours.mean == pytest.approx(reference.mean_effect_re, abs=1e-6)
    assert ours.standard_error >= 0.9999 * max(reference.sd_eff_w_re, reference.sd_eff_w_re_hksj)


def test_the_standard_error_is_that_of_knapp_and_hartung_where_errors_are_alike():
    """statsmodels 0.15, combine_effects: with equal errors all weights are equal, and the robust error is the same, too."""
    from statsmodels.stats.meta_analysis import combine_effects

    errors = np.full(7, 0.05)
    reference = combine_effects(VALUES, errors**2, method_re="pm", use_t=True, atol=1e-12)
    assert pool(VALUES, errors).standard_error == pytest.approx(reference.sd_eff_w_re_hksj, rel=1e-6)


@settings(max_examples=50, deadline=None)
@given(groups, st.floats(-5, 5), st.floats(0.1, 10))
def test_shifting_and_stretching_the_values_does_so_to_the_mean(group, shift, stretch):
    values, errors = group
    one, other = pool(values, errors), pool(shift + stretch * values, stretch * errors)
    assert other.mean == pytest.approx(shift + stretch * one.mean, abs=1e-6)
    assert other.standard_error == pytest.approx(stretch * one.standard_error, rel=1e-5)


def test_identical_groups_leave_no_spread_but_keep_their_errors():
    pooled = pool(np.full(4, 1.5), np.full(4, 0.1))
    assert (pooled.mean, pooled.spread, pooled.standard_error) == pytest.approx((1.5, 0, 0.05))
    assert spread_of_next(np.full(4, 0.1), pooled) == pytest.approx((0.1**2 + 0.05**2) ** 0.5)
    assert spread_interval(np.full(4, 1.5), np.full(4, 0.1)) == (0, 0)


def test_the_interval_of_the_spread_holds_the_spread():
    low, high = spread_interval(VALUES, ERRORS)
    assert low < spread_between(VALUES, ERRORS) < high


def test_a_group_far_off_is_a_surprise_to_the_others():
    others = pool(VALUES, ERRORS)
    assert abs(surprise(1.5, 0.05, others)) < 1 < 5 < surprise(2.6, 0.05, others)


def test_the_plain_mean_counts_all_alike():
    assert plain_mean(np.array([1.0, 2.0, 3.0])) == pytest.approx((2, 1 / 3**0.5))
