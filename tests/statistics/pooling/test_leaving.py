"""Each group left out: from running sums against pooling the others anew, on classes of every kind that makes it hard."""

import time
import tracemalloc

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.estimate import Parts
from kit.statistics import pool
from kit.statistics.pooling import leaving
from kit.statistics.pooling.leaving import without_each
from kit.statistics.ranges.parts import mean_parts

TOLERANCE_C = 0.1


def class_of(count, seed, kind="usual"):
    """(values, errors, sides, Parts) of a made-up class, in °C."""
    rng = np.random.default_rng(seed)
    errors = 0.04 * np.exp(rng.uniform(*((-5, 3) if kind == "wild errors" else (-1, 1)), count))
    errors = np.full(count, 0.05) if kind == "equal errors" else errors
    errors[:3] = 1e-4 if kind == "three far better" else errors[:3]
    spread = 0 if kind in ("no spread", "three far better") else 0.08
    values = 1.5 + spread * rng.standard_normal(count) + errors * rng.standard_normal(count)
    values[3] += 20 if kind == "one far off" else 0
    values = np.full(count, 1.5) if kind == "all the same" else values
    sides = np.ones(count)
    turned = {"both sides": count // 3, "one swapped": 1, "three sides": count // 3}.get(kind, 0)
    sides[:turned] = -1
    sides[-40:] = 1 / 3 if kind == "three sides" else sides[-40:]
    known = {"no drifts": 0, "six drifts": 6}.get(kind, count // 2)
    carried = np.where(np.arange(count) % 2 if known > 6 else np.arange(count) < known, 0.02, np.inf)
    drifts = np.stack([-rng.random(count), rng.random(count)]) / 10
    rows = zip(errors, 0.01 * rng.random(count), *drifts, 0.05 + 0.03 * rng.standard_normal(count), carried)
    return values, errors, sides, [Parts(error, 20, *rest) for error, *rest in rows]


def anew(values, errors, sides, several):
    """The numbers of `Others`, by deleting each group and pooling those that are left."""
    rows = []
    for each in range(len(values)):
        rest = np.arange(len(values)) != each
        others = pool(values[rest], errors[rest], sides[rest])
        parts = mean_parts(others, [part for part, stays in zip(several, rest) if stays], sides[rest], TOLERANCE_C)
        rows.append(
            (others.mean, parts.error, parts.dof, others.spread, others.side, others.side_error, parts.gain, parts.drift_low, parts.drift_high)
        )
    return np.array(rows).T


def columns(others):
    names = ("mean", "standard_error", "dof", "spread", "side", "side_error", "gain", "drift_low", "drift_high")
    return np.array([getattr(others, name) for name in names])


KINDS = (
    "usual", "equal errors", "wild errors", "three far better", "no spread", "one far off", "all the same", "both sides", "one swapped", "three sides",
    "no drifts", "six drifts",
)  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_running_sums_give_what_pooling_the_others_gives(kind):
    """To 1e-11 of what pooling anew gives, or 1e-13 °C where that is more."""
    made = class_of(leaving.ONE_BY_ONE + 60, 7, kind)
    np.testing.assert_allclose(columns(without_each(*made, TOLERANCE_C)), anew(*made), rtol=1e-11, atol=1e-13)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6), st.sampled_from(KINDS))
def test_they_do_so_on_small_classes_too_where_each_group_matters(seed, kind):
    made = class_of(50, seed, kind)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(leaving, "ONE_BY_ONE", 0)
        found = columns(without_each(*made, TOLERANCE_C))
    np.testing.assert_allclose(found, anew(*made), rtol=1e-9, atol=1e-12)


def test_a_small_class_is_pooled_anew_bit_for_bit():
    made = class_of(12, 3)
    assert (columns(without_each(*made, TOLERANCE_C)) == anew(*made)).all()


def test_measured_drifts_of_one_side_alone_do_not_tell_the_place_apart():
    values, errors, sides, several = class_of(12, 3, "both sides")
    known = [Parts(part.error, 20, 0, -0.1, 0.1, 0.02, 0.01 if side > 0 else np.inf) for part, side in zip(several, sides)]
    parts = mean_parts(pool(values, errors, sides), known, sides, TOLERANCE_C)
    assert (parts.drift_low, parts.drift_high) == (0, 0)


@pytest.mark.alone
def test_ten_thousand_groups_take_half_a_second_and_hundred_megabytes():
    made = class_of(10_000, 1)
    before = time.process_time()
    without_each(*made, TOLERANCE_C)
    took = time.process_time() - before
    tracemalloc.start()
    without_each(*made, TOLERANCE_C)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    print(f"10,000 groups, each left out: {took:.2f} s (bar: 0.5), {most / 1e6:.0f} MB (bar: 100)")
    assert took < 0.5 and most < 100e6
