"""Coverage factors: limits and laws; tabled values stand in tests/reference."""

from math import inf

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ndtr

from kit.statistics.ranges.quantiles import coverage_factor, one_sided_factor, widened_factor


def test_without_limit_on_the_readings_students_factor_is_that_of_the_normal():
    assert coverage_factor(0.95) == pytest.approx(1.959964, abs=1e-6)
    assert one_sided_factor(0.95, inf) == pytest.approx(1.644854, abs=1e-6)


@given(shift=st.floats(0, 1e6), level=st.floats(0.5, 0.999))
def test_the_widened_range_holds_at_its_level_under_the_largest_bias(shift, level):
    factor = widened_factor(shift, level)
    assert ndtr(factor - shift) - ndtr(-factor - shift) == pytest.approx(level, abs=1e-6)


def test_a_large_bias_adds_to_the_one_sided_factor():
    assert widened_factor(np.array([20.0, 50.0])) - [20, 50] == pytest.approx(one_sided_factor(0.95))
