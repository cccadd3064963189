"""Readings averaged over cells that respect the windows' edges."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kit.statistics.readings.cells import cut, within


def test_an_edge_belongs_to_its_window():
    seconds = np.arange(0, 100.0, 10)
    assert within(seconds, 20, 50) == (2, 6)


def test_times_that_went_through_minutes_stay_on_their_edge():
    seconds = np.arange(0, 1300.0)
    first, end = within(seconds, 60 * (607 / 60), 60 * (661 / 60))
    assert (seconds[first], seconds[end - 1]) == (607, 661)


def test_long_records_get_no_more_than_about_240_cells():
    seconds = np.arange(0, 20_000, 1.0)
    assert 240 <= len(cut(seconds, [100, 201, 900, 961], 1.0).times_s) <= 246


@given(
    gaps=st.lists(st.floats(0.2, 90), min_size=4, max_size=80),
    edges=st.lists(st.floats(0, 1), min_size=4, max_size=4, unique=True).map(sorted),
    step=st.floats(0.2, 60),
)
def test_no_cell_straddles_an_edge_and_none_loses_a_reading(gaps, edges, step):
    seconds = np.cumsum(gaps)
    pairs = [within(seconds, *pair) for pair in np.reshape([seconds[-1] * edge for edge in edges], (2, 2))]
    cells = cut(seconds, np.ravel(pairs), step)
    assert cells.counts.sum() == len(seconds) and (cells.counts > 0).all()
    inside = np.zeros(len(seconds))
    for start, end in pairs:
        inside[start:end] += 1
    shares = cells.means(inside)
    assert set(shares) <= {0.0, 1.0}


def test_means_weigh_back_to_the_mean_of_all():
    seconds, values = np.arange(0, 333.0), np.sin(np.arange(0, 333.0))
    cells = cut(seconds, [50, 61, 200, 291], 1.0)
    assert cells.means(values) @ cells.counts / 333 == pytest.approx(values.mean())
