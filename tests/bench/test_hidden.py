"""Benches with a nature of their own: the same number gives the same bench, and each is one that could stand in a classroom."""

import pytest

from kit.bench import hidden_bench, reveal, simulate_run
from kit.bench.hidden import SPREAD


@pytest.mark.parametrize("number", range(1, 9))
def test_a_bench_is_plausible_and_its_gas_outlasts_the_reading(number):
    nature = hidden_bench(number)
    assert nature == hidden_bench(number) != hidden_bench(number + 1)
    assert all(SPREAD[name][0] - 0.05 <= nature[name] <= SPREAD[name][1] + 0.05 for name in SPREAD) and 0.5 <= nature["exchange"] <= 2
    truth = reveal(simulate_run(**nature))
    assert truth.holds_min is None or truth.holds_min > 10


def test_the_benches_differ_in_what_made_most():
    """Or a learner would know the answer after the second one."""
    truths = [reveal(simulate_run(**hidden_bench(number))) for number in range(1, 9)]
    assert {max(truth.causes, key=lambda each: each.alone_c).letter for truth in truths} >= {"m", "a"}
    assert max(truth.warming_c for truth in truths) > 3 * min(truth.warming_c for truth in truths)
