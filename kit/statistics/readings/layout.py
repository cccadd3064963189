"""What a record's times and its windows settle before any temperature is looked at: cells, the noise grid, trends, weights."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.readings.cells import Cells, cut, within
from kit.statistics.readings.display import mean_uncertainty
from kit.statistics.readings.noise import noise_grid, NoiseGrid
from kit.statistics.readings.trend import rising_trends

# Earlier readings than this before the change tell of the lamp's own warming more than of noise and drift.
EARLIER_S = 600.0
# A bend before the change is looked for where this much record lies there.
BEND_SEEN_FROM_S = 240.0


@dataclass(frozen=True, eq=False)
class Layout:
    """`grid`, `before`: the noise grids of all `cells` and of those before the change at `change_s`; one reading every `step_s` seconds.

    `designs`: the trends, one a delay. `baseline`, `response`: which readings lie there; `shares` (2, cells): what each cell has in their
    means. `minutes`: between the windows' middles. `spread` (points,): variance of the effect where a cell's own is 1. `by_minute` (minutes,
    cells before): the means of the whole minutes before the change; none where the record before it is too short to show a bend.
    """

    cells: Cells
    grid: NoiseGrid
    before: NoiseGrid
    designs: np.ndarray
    baseline: slice
    response: slice
    shares: np.ndarray
    minutes: float
    spread: np.ndarray
    change_s: float
    step_s: float
    by_minute: np.ndarray

    @property
    def contrast(self):
        """The weights of the effect on the cells, (cells,): response less baseline."""
        return self.shares[1] - self.shares[0]


def heard(seconds, edges_s):
    """Which readings count: those from 10 minutes before the perturbation, or from the baseline's start, to the response's end."""
    return slice(*within(seconds, min(edges_s[0], edges_s[2] - EARLIER_S), edges_s[5]))


def lay_out(seconds, edges_s):
    """The `Layout` of a record at `seconds` (ascending) with windows at `edges_s`."""
    step_s, change_s = float(np.median(np.diff(seconds))), edges_s[2]
    windows = [within(seconds, *edges_s[:2]), within(seconds, *edges_s[4:])]
    changed = within(seconds, seconds[0], change_s)[1]
    cells = cut(seconds, [*np.ravel(windows), changed], step_s)
    grid = noise_grid(cells.times_s, cells.counts, step_s)
    shares = np.array([_share(cells, *window) for window in windows])
    contrast, early = shares[1] - shares[0], int((cells.starts < changed).sum())
    return Layout(
        cells, grid, grid.first(early), rising_trends(cells.times_s, change_s, step_s), slice(*windows[0]), slice(*windows[1]), shares,
        float(contrast @ cells.times_s / 60), grid.variance_of(contrast), change_s, step_s, _by_minute(cells, early, change_s),
    )  # fmt: skip


def change(layout, vessel):
    """Mean in the response minus mean in the baseline of `vessel` (runs, readings): (runs,)."""
    return vessel[..., layout.response].mean(-1) - vessel[..., layout.baseline].mean(-1)


def hidden_of_change(layout, vessel, step):
    """The display's part in the variance of a change of one vessel: (runs,)."""
    return sum(mean_uncertainty(vessel[..., window], step) ** 2 for window in (layout.baseline, layout.response))


def _share(cells, first, last):
    inside = (cells.starts >= first) & (cells.starts < last)
    return inside * cells.counts / (last - first)


def _by_minute(cells, early, change_s):
    """Weights that make means of whole minutes, counted back from the change, out of the cells before it: (minutes, cells)."""
    times, counts = cells.times_s[:early], cells.counts[:early]
    if early < 2 or change_s - times[0] < BEND_SEEN_FROM_S:
        return np.zeros((0, early))
    minute = ((change_s - times) // 60).astype(int)
    held = np.array([counts[minute == each].sum() for each in range(minute.max() + 1)])
    whole = np.flatnonzero(held >= max(0.5 * np.median(held), 1))
    return np.array([(minute == each) * counts / held[each] for each in whole])
