"""Averages of neighbouring readings, so that a long record costs no more than a short one."""

from dataclasses import dataclass

import numpy as np

SHORTEST_CELL_S = 5.0
MOST_CELLS = 240
# Times in minutes come back from seconds with rounding: a reading this near an edge lies on it.
ON_THE_EDGE_S = 1e-6


@dataclass(frozen=True, eq=False)
class Cells:
    """Mean times in seconds (cells,), how many readings each cell holds (cells,), and where each begins among the readings (cells,)."""

    times_s: np.ndarray
    counts: np.ndarray
    starts: np.ndarray

    def means(self, values):
        """Cell means of `values` (..., readings): (..., cells)."""
        return np.add.reduceat(values, self.starts, axis=-1) / self.counts


def cut(seconds, edges_s, step_s):
    """Cells for readings at `seconds` (ascending), none straddling one of `edges_s`.

    A cell spans max(step, 5 s, record / 240). `edges_s` are pairs (start, end) of windows, in order, readings on an edge inside.
    """
    width = max(step_s, SHORTEST_CELL_S, (seconds[-1] - seconds[0]) / MOST_CELLS)
    borders = np.unique(np.concatenate([[0], np.ravel([within(seconds, *pair) for pair in edges_s])]).astype(int))
    borders = borders[borders < len(seconds)]
    part = np.searchsorted(borders, np.arange(len(seconds)), side="right")
    cell = ((seconds - seconds[borders[part - 1]] + ON_THE_EDGE_S) // width).astype(int)
    starts = np.flatnonzero(np.r_[True, (np.diff(part) != 0) | (np.diff(cell) != 0)])
    counts = np.diff(np.r_[starts, len(seconds)])
    return Cells(np.add.reduceat(seconds, starts) / counts, counts, starts)


def within(seconds, start_s, end_s):
    """(first, last + 1): which of the ascending `seconds` lie in a window, its edges included."""
    return np.searchsorted(seconds, start_s - ON_THE_EDGE_S), np.searchsorted(seconds, end_s + ON_THE_EDGE_S, side="right")
