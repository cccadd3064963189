"""What a record's readings are like: cells, display step, noise, trend, stretches that stand still."""

from kit.statistics.readings.cells import cut, SHORTEST_CELL_S, within
from kit.statistics.readings.display import display_step, display_uncertainty, hidden_by_display, mean_uncertainty
from kit.statistics.readings.layout import change, heard, hidden_of_change, lay_out, Layout
from kit.statistics.readings.noise import learn_noise, Noise, noise_grid
from kit.statistics.readings.stuck import still_stretches
from kit.statistics.readings.trend import best_trend, settling_trends, trend_at

__all__ = [
    "best_trend", "change", "cut", "display_step", "display_uncertainty", "heard", "hidden_by_display", "hidden_of_change", "lay_out",
    "Layout", "learn_noise", "mean_uncertainty", "Noise", "noise_grid", "settling_trends", "SHORTEST_CELL_S", "still_stretches",
    "trend_at", "within",
]  # fmt: skip
