"""What a record leaves open about a saturating rise: all curves that the readings allow, once their noise is known.

With time constant and delay fixed the rest is linear, so each pair has its best rise and its sum of squares; pairs whose sum lies
no more than t² above the smallest are allowed (profile likelihood: Bates and Watts, Nonlinear Regression Analysis, 1988, chapter 6,
from memory). The noise enters through its covariance, so that neighbouring readings do not count as independent.
"""

from dataclasses import dataclass
from math import inf

import numpy as np

from kit.statistics.rise import LONGEST, saturating

FIRST_GRID, FINER_GRID, REFINEMENTS = (40, 11), (25, 11), 2
# The shortest time constant looked for, as a share of the record: quicker rises are steps.
SHORTEST = 1e-3
# For a grid's own ends, which come back rounded.
NEARLY = 1 + 1e-9


@dataclass(frozen=True, eq=False)
class AllowedRises:
    """Curves that a record allows, (curves,) each: `time_constants_s`, `delays_s`, and the rise in the values' unit, which may lie
    `reaches` to both sides of `rises`. `best` is the position of the best one and `squares` its sum of squares (noise variance 1).

    `time_constant_s` and `delay_s` (low, high) bound the two in seconds: 0 or infinity where the record sets no bound on the time
    constant. No delay is known better than to a cell.
    """

    time_constants_s: np.ndarray
    delays_s: np.ndarray
    rises: np.ndarray
    reaches: np.ndarray
    best: int
    squares: float
    time_constant_s: tuple
    delay_s: tuple

    def range_at(self, times_s):
        """(low, high) of rise · share reached at `times_s` (seconds, any shape; infinity: the whole rise) over all curves."""
        shares = saturating(np.expand_dims(times_s, -1), self.time_constants_s, self.delays_s)
        return (shares * (self.rises - self.reaches)).min(-1), (shares * (self.rises + self.reaches)).max(-1)


@dataclass(frozen=True, eq=False)
class _Seen:
    """A record as a curve sees it: `precision` (cells, cells) with the level taken out, and which cells lie where the rise may
    begin (`early`) and behind the latest delay, where every curve falls alike (`late`)."""

    times_s: np.ndarray
    values: np.ndarray
    precision: np.ndarray
    delays_s: tuple

    @property
    def early(self):
        return (self.times_s > self.delays_s[0]) & ~self.late

    @property
    def late(self):
        return self.times_s > self.delays_s[1]

    @property
    def shortest_s(self):
        return SHORTEST * (self.times_s[-1] - self.delays_s[0])

    @property
    def longest_s(self):
        return LONGEST * (self.times_s[-1] - self.delays_s[0])


def allowed_rises(times_s, values, precision, delays_s, *, room):
    """`AllowedRises` for `values` (cells,) at `times_s` (cells,), ascending seconds.

    `precision` (cells, cells) is the inverse of the noise's covariance with the level taken out (`without_level`). The delay lies
    from `delays_s[0]` to `delays_s[1]`, with at least three cells after that. `room`: how far above the smallest sum of squares a
    curve is still allowed, t² for an interval.
    """
    seen = _Seen(times_s, values, precision, delays_s)
    ends, shape = ((seen.shortest_s, seen.longest_s), delays_s), FIRST_GRID
    for _ in range(REFINEMENTS):
        grid = _grid(ends, shape)
        squares = _profile(seen, *grid)[2]
        ends, shape = _around(grid, squares <= squares.min() + room), FINER_GRID
    grid = _grid(ends, shape)
    return _allowed(grid, _profile(seen, *grid), room, seen)


def joined(several):
    """All curves of `several` AllowedRises; the best is that of the first."""
    first = several[0]
    if len(several) == 1:
        return first
    columns = [np.concatenate([getattr(each, name) for each in several]) for name in ("time_constants_s", "delays_s", "rises", "reaches")]
    ranges = [
        (min(low), max(high)) for low, high in (zip(*(getattr(each, name) for each in several)) for name in ("time_constant_s", "delay_s"))
    ]
    return AllowedRises(*columns, first.best, first.squares, *ranges)


def without_level(precision):
    """`precision` (cells, cells) for what is left after the best level is taken out."""
    weight = precision.sum(0)
    return precision - np.outer(weight, weight) / weight.sum()


def _grid(ends, shape):
    return np.geomspace(*ends[0], shape[0]), np.linspace(*ends[1], shape[1])


def _around(grid, allowed):
    """The ends of a finer grid: the allowed part and two steps more on each side, as far as the grid goes."""
    found = []
    for axis, points in enumerate(grid):
        inside = np.flatnonzero(allowed.any(1 - axis))
        found.append((points[max(inside[0] - 2, 0)], points[min(inside[-1] + 2, len(points) - 1)]))
    return found


def _profile(seen, time_constants, delays):
    """Best rise, its precision and the sum of squares for each pair, (time constants, delays) each.

    Behind the latest delay every curve is 1 − f·E with E = exp(−(t − latest) / time constant) and f one number a pair: products with
    E are made once a time constant. Only the cells before that need a product for each pair.
    """
    precision, early, late, latest = seen.precision, seen.early, seen.late, seen.delays_s[1]
    begun = saturating(seen.times_s[early][:, None, None], time_constants[:, None], delays)
    fall = np.exp((latest - seen.times_s[late][:, None]) / time_constants)
    left = -np.exp((delays - latest) / time_constants[:, None])
    one, falling, data = precision[:, late].sum(1), precision[:, late] @ fall, precision @ seen.values
    weighed = np.tensordot(precision[np.ix_(early, early)], begun, 1) + 2 * (one[early][:, None, None] + falling[early][:, :, None] * left)
    gain = (begun * weighed).sum(0) + one[late].sum() + left * (2 * falling[late].sum(0) + (fall * falling[late]).sum(0) * left.T).T
    match = np.tensordot(data[early], begun, 1) + data[late].sum() + left * (fall.T @ data[late])[:, None]
    return match / gain, gain, seen.values @ data - match**2 / gain


def _allowed(grid, profile, room, seen):
    rises, gains, squares = profile
    spare = squares.min() + room - squares
    kept = spare >= 0
    time_constants, delays = (each[kept] for each in np.meshgrid(*grid, indexing="ij"))
    best = int(squares[kept].argmin())
    ranges = _time_constant_range(grid[0], spare.max(1), seen), _delay_range(grid[1], spare.max(0), seen)
    return AllowedRises(time_constants, delays, rises[kept], np.sqrt(spare[kept] / gains[kept]), best, float(squares.min()), *ranges)


def _time_constant_range(points, spare, seen):
    """Where `spare` room runs out; 0 or infinity where the search ends before it does."""
    low, high = _ends(points, spare)
    return (0.0 if low <= seen.shortest_s * NEARLY else low), (inf if high * NEARLY >= seen.longest_s else high)


def _delay_range(points, spare, seen):
    """Where `spare` room runs out, and a cell more, as no delay is seen more sharply than that; inside what was asked."""
    cell = float(np.median(np.diff(seen.times_s)))
    low, high = _ends(points, spare)
    return max(low - cell, seen.delays_s[0]), min(high + cell, seen.delays_s[1])


def _ends(points, spare):
    """The first and the last place where `spare` is zero, between `points` in proportion; the outermost points where it never is."""
    inside = np.flatnonzero(spare >= 0)
    found = []
    for edge, step in ((inside[0], -1), (inside[-1], 1)):
        beyond = edge + step
        share = spare[edge] / (spare[edge] - spare[beyond]) if 0 <= beyond < len(points) else 0.0
        found.append(float(points[edge] + share * (points[min(max(beyond, 0), len(points) - 1)] - points[edge])))
    return found
