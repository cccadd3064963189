"""How a difference comes to its new level, without a formula for it: when 63 % of the way is done, and whether it is still on its way.

The level at any moment is read off the flexible trend that is taken out of every record before its noise is learnt; its weights on the cells
are known, so each number has the variance that the learnt noise gives it, and a drift moves it by a known amount. The time to 63 % is where a
contrast crosses zero: its range is made of all moments at which that contrast may be zero (Fieller, J. R. Stat. Soc. B 16:175, 1954, from
memory).
"""

from dataclasses import dataclass

import numpy as np
from scipy.linalg import cho_factor, cho_solve

from kit.statistics.ranges import drifted_range
from kit.statistics.readings import trend_at

WAY = 1 - np.exp(-1)
FIRST_S, FINE_S, LATER = 60.0, 3.0, 50
# The end of the response is compared with a like window that begins so long before it.
LOOK_BACK_S = 120.0
# Of what the displays hide in the windows this part counts in the 63 % contrast, found on simulated records.
HIDDEN_PART = 0.75


@dataclass(frozen=True, eq=False)
class DifferenceCourse:
    """The way of one run's difference. `cells` (n,): its means, °C; `covariance` (n, n) of their noise; `pull` (terms, n): the weights of the
    trend's terms on the cells; `before`, `after` (n,): those of the windows' means, a jump taken out. `hidden`: what the displays hide of the
    effect (standard uncertainty, °C). `drift` (low, high), °C a minute; `dof`, `level` of the ranges."""

    layout: object
    trend: int
    cells: np.ndarray
    covariance: np.ndarray
    pull: np.ndarray
    before: np.ndarray
    after: np.ndarray
    hidden: float
    drift: tuple
    dof: float
    level: float

    def warmed(self, at_s):
        """(value, low, high) of the warming above the baseline at seconds `at_s` (n,) of the record, °C: the trend's level, not one reading."""
        return self._ranged(self._levels(at_s) - self.before, HIDDEN_PART)

    def time_to_63(self):
        """(value, low, high) in seconds from the change: when 63 % of the rise is done. nan where that is not before the response; a bound
        that the record does not set is 0 or the response's start."""
        start_s, end_s = self.layout.change_s, self._response_s
        since = np.arange(0, min(FIRST_S, end_s - start_s) + FINE_S / 2, FINE_S)
        since = np.concatenate([since, np.geomspace(since[-1], end_s - start_s, LATER)[1:]]) if since[-1] < end_s - start_s else since
        value, low, high = self._ranged(self._levels(start_s + since) - (1 - WAY) * self.before - WAY * self.after, HIDDEN_PART)
        if (self.after - self.before) @ self.cells < 0:
            value, low, high = -value, -high, -low
        return _first(since, value), _first(since, high, at_the_start=0.0), _last(since, low)

    def late(self):
        """(value, low, high): by how much the response lies above a like window two minutes before it, °C; None where that is not after
        the change."""
        layout, early = self.layout, self._response_s - LOOK_BACK_S
        width = self._response_end_s - self._response_s
        inside = (layout.cells.times_s >= early) & (layout.cells.times_s <= early + width)
        if early < layout.change_s or not inside.any():
            return None
        shares = inside * layout.cells.counts
        return tuple(float(each[0]) for each in self._ranged((self.after - shares / shares.sum())[None], 1.0))

    @property
    def _response_s(self):
        return float(self.layout.cells.times_s[np.flatnonzero(self.layout.shares[1])[0]])

    @property
    def _response_end_s(self):
        return float(self.layout.cells.times_s[np.flatnonzero(self.layout.shares[1])[-1]])

    def _levels(self, at_s):
        """The weights of the trend's level at each moment on the cells, (moments, cells)."""
        layout = self.layout
        terms = trend_at(at_s, self.trend, layout.cells.times_s, layout.change_s, layout.step_s)
        return terms @ self.pull[: terms.shape[1]]

    def _ranged(self, weights, hidden_part):
        """(value, low, high) of each row of `weights` (rows, cells)."""
        variance = np.maximum(((weights @ self.covariance) * weights).sum(1), hidden_part * self.hidden**2)
        minutes = weights @ (self.layout.cells.times_s / 60)
        moved = np.sort(np.outer(self.drift, minutes), axis=0)
        value = weights @ self.cells
        return (value, *drifted_range(value, np.sqrt(variance), self.dof, moved, self.level))


def course_of(layout, seen, effect, level):
    """The `DifferenceCourse` of one run that was `seen` (`statistics.effect.paired.noises`), with the display and drift of its `effect` (`PairedEffects`)."""
    covariance = seen.noise.covariance()
    weighed = cho_solve(cho_factor(covariance), seen.design)
    pull = np.linalg.solve(seen.design.T @ weighed, weighed.T)
    windows = layout.shares if seen.shape is None else layout.shares - np.outer(layout.shares @ seen.shape, pull[-1])
    drift = float(effect.drift_low[0]), float(effect.drift_high[0])
    return DifferenceCourse(
        layout, seen.trend, seen.values[:, 0], covariance, pull, *windows, float(effect.display[0]), drift, float(effect.dof[0]), level
    )


def _first(moments, values, at_the_start=np.nan):
    """The first moment at which `values` reach zero, in proportion between two; nan where they never do."""
    up = np.flatnonzero(values >= 0)
    if not len(up):
        return np.nan
    if up[0] == 0:
        return at_the_start if at_the_start == at_the_start else float(moments[0])
    return _crossing(moments, values, up[0])


def _last(moments, values):
    """The last moment up to which `values` are not above zero; the last one of all where they still aren't."""
    down = np.flatnonzero(values <= 0)
    if not len(down):
        return float(moments[0])
    return float(moments[-1]) if down[-1] == len(moments) - 1 else _crossing(moments, values, down[-1] + 1)


def _crossing(moments, values, place):
    before, after = values[place - 1], values[place]
    return float(moments[place - 1] + (moments[place] - moments[place - 1]) * before / (before - after))
