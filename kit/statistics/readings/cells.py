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


def cut(seconds, borders, step_s):
    """Cells for readings at `seconds` (ascending). A new one begins at each of `borders` (positions among the readings).

    A cell spans max(step, 5 s, record / 240).
    """
    width = max(step_s, SHORTEST_CELL_S, (seconds[-1] - seconds[0]) / MOST_CELLS)
    begins = np.zeros(len(seconds), bool)
    begins[[0, *(border for border in borders if border < len(seconds))]] = True
    begun_s = seconds[begins][np.cumsum(begins) - 1]
    places = np.floor((seconds - begun_s + ON_THE_EDGE_S) / width)
    starts = np.flatnonzero(begins | (np.diff(places, prepend=0) != 0))
    counts = np.diff(starts, append=len(seconds))
    return Cells(np.add.reduceat(seconds, starts) / counts, counts, starts)


def within(seconds, start_s, end_s):
    """(first, last + 1): which of the ascending `seconds` lie in a window, its edges included."""
    first, last = np.searchsorted(seconds, (start_s - ON_THE_EDGE_S, end_s + ON_THE_EDGE_S))
    return int(first), int(last)
