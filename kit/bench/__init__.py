"""The simulated bench: runs with a hidden truth, from the documented vessel model."""

from kit.bench.bundled import CLASS, example_kind, SINGLE
from kit.bench.expected import Expected, expected_pair
from kit.bench.glasses import glass_course
from kit.bench.hidden import hidden_bench
from kit.bench.noise import displayed, wander
from kit.bench.simulation import recorded, reveal, simulate_run

__all__ = [
    "CLASS", "displayed", "Expected", "expected_pair", "example_kind", "glass_course", "hidden_bench", "recorded", "reveal", "simulate_run", "SINGLE", "wander",
]  # fmt: skip
