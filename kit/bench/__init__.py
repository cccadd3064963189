"""The simulated bench: runs with a hidden truth, from the documented vessel model."""

from kit.bench.bundled import CLASS, SINGLE
from kit.bench.noise import displayed, wander
from kit.bench.simulation import recorded, reveal, simulate_run

__all__ = ["CLASS", "displayed", "recorded", "reveal", "simulate_run", "SINGLE", "wander"]
