"""The study of weighed causes: a small part of it, and what it counts."""

import numpy as np
import pytest

from kit.analysis.causes import computed_table
from kit.coverage.causes import SEED, SETS, held, measured, row
from kit.coverage.study import Row


@pytest.fixture(scope="module")
def table():
    return computed_table(benches=12, seed=SEED, kinds=("gas", "covered", "argon", "air"))


def test_a_dozen_benches_keep_their_bounds(table):
    """All of twelve where 95 of 100 should; the whole study: `python3 -m kit check --causes`."""
    found = row("film, argon, air", *SETS["covered, argon and air"], table)
    assert isinstance(found, Row) and [figure.name for figure in found.figures][:2] == ["holds %", "named %"]
    assert found.figures[0].value >= 90 and found.figures[2].value == 0


def test_a_class_measures_what_the_bench_did_with_its_own_noise(table):
    effects, shares = measured(table, ("gas", "argon"), 3, np.random.default_rng(1))
    assert effects["gas"].value == pytest.approx(table.whole["gas"][3], abs=0.15) and effects["gas"].half_width == pytest.approx(0.0784)
    assert shares == {"gas": table.shares["gas"][3]}


def test_a_bound_that_misses_is_counted():
    class Cause:
        least, most = 0.1, 0.2

    assert held(Cause, 0.15) and not held(Cause, 0.25)
