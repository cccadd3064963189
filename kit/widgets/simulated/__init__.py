"""The page with the simulated bench: set up a run, watch it, mark it, weigh several, and open the bench's truth last."""

from kit.widgets.simulated.page import simulated_bench

__all__ = ["simulated_bench"]
