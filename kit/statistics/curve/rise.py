"""The saturating rise: level + rise · (1 − exp(−(t − delay) / time constant)) after the delay, and the level alone before it.

Two of the four numbers enter linearly, so only time constant and delay are searched (variable projection: Golub and Pereyra,
SIAM J. Numer. Anal. 10:413, 1973, from memory). With E = exp(−(t − delay) / time constant) and s = (t − delay) / time constant,
the model and all its slopes lie in the span of 1, E and sE, so one product of (1, E, sE, values) with itself is all a
Gauss-Newton step needs.
"""

from dataclasses import dataclass
from math import inf
from typing import NamedTuple

import numpy as np

MOST_STEPS, SMALLEST_STEP = 30, 1e-7
# A start is sought through means of neighbouring readings, this many; a long record is first fitted through them, too.
THINNED, WORTH_THINNING = 150, 3000
# The time constant is looked for up to this many lengths of the record: beyond it the curve is a straight line.
LONGEST = 20
FEWEST_AFTER = 4


@dataclass(frozen=True)
class RiseFit:
    """A fitted rise. `level` and `rise` in the values' unit, `time_constant_s` and `delay_s` in the times' unit (seconds).

    `rss` is the residual sum of squares, `readings` their number, `held` the names of numbers that were given and not fitted.
    `converged` is False when no best curve was found: a flat record, or a curve that is a straight line as far as one can see.
    """

    level: float
    rise: float
    time_constant_s: float
    delay_s: float
    rss: float
    readings: int
    held: tuple = ()
    converged: bool = True

    def at(self, times_s):
        """The curve at `times_s` (seconds)."""
        return self.level + self.rise * saturating(times_s, self.time_constant_s, self.delay_s)

    @property
    def scatter(self):
        """The standard deviation of the readings about the curve, in their unit (residual, over readings − numbers fitted)."""
        return (self.rss / (self.readings - 4 + len(self.held))) ** 0.5


class _Found(NamedTuple):
    """Where a descent ended: its `spot` (time constant, delay; s), the best `level` and `rise` there, what is left over, and whether it settled."""

    spot: tuple
    level: float
    rise: float
    rss: float
    converged: bool


def saturating(times_s, time_constant_s, delay_s):
    """The share of the rise reached: 0 up to the delay, 1 − 1/e one time constant after it. Arrays broadcast."""
    return -np.expm1(-np.maximum(np.subtract(times_s, delay_s), 0) / time_constant_s)


def fit_rise(times_s, values, *, start=None, level=None, delay_s=None):
    """The `RiseFit` of least squares through `values` at `times_s` (ascending, none missing, at least 6).

    `start` is a first (time constant, delay) in seconds; without it a coarse grid finds one. `level` and `delay_s`, when given,
    are held at that value. The errors of this fit are not those of independent readings: see `kit.statistics.profile`.
    """
    middle = float(values.sum() / len(values) if level is None else level)
    shifted = values - middle
    held = (level is not None, delay_s)
    near = _thinned(times_s, shifted)
    spot = start or _best_of_grid(*near, held)
    if len(times_s) >= WORTH_THINNING:
        spot = _descend(*near, spot, held).spot
    found = _descend(times_s, shifted, spot, held)
    found = found if found.converged else _at_a_reading(times_s, shifted, found, held)
    names = tuple(name for name, given in (("level", level), ("delay_s", delay_s)) if given is not None)
    return RiseFit(middle + found.level, found.rise, *found.spot, max(found.rss, 0.0), len(values), names, found.converged)


def independent_errors(fit, times_s):
    """Standard errors of level, rise, time constant and delay as if readings were independent, 0 where held. They seldom are."""
    since = np.maximum(times_s - fit.delay_s, 0) / fit.time_constant_s
    left = np.where(times_s > fit.delay_s, fit.rise * np.exp(-since) / fit.time_constant_s, 0)
    slopes = np.stack([np.ones_like(since), saturating(times_s, fit.time_constant_s, fit.delay_s), -left * since, -left], axis=1)
    free = np.array([name not in fit.held for name in ("level", "rise", "time_constant_s", "delay_s")])
    errors = np.zeros(4)
    errors[free] = fit.scatter * np.sqrt(np.diagonal(np.linalg.inv(slopes[:, free].T @ slopes[:, free])))
    return errors


def _thinned(times, values):
    """Times and values as means of equal numbers of neighbours; fewer readings than that stay as they are."""
    each = max(len(times) // THINNED, 1)
    share = np.full(each, 1 / each)
    return tuple(column[: len(column) // each * each].reshape(-1, each) @ share for column in (times, values))


def _best_of_grid(times, values, held):
    """The (time constant, delay) of a coarse grid that leaves the smallest sum of squares."""
    span = times[-1] - times[0]
    delays = [held[1]] if held[1] is not None else times[0] + span * np.linspace(0, 0.6, 13)
    spots = [(float(span * share), float(delay)) for share in (0.03, 0.08, 0.2, 0.5, 1.5) for delay in delays]
    shapes = saturating(times, *(np.array(column)[:, None] for column in zip(*spots)))
    centred = shapes if held[0] else shapes - shapes.mean(1, keepdims=True)
    explained = (centred @ values) ** 2 / np.maximum((centred**2).sum(1), np.finfo(float).tiny)
    return spots[int(explained.argmax())]


def _descend(times, values, spot, held):
    """Gauss-Newton from `spot`, going half way back when a step explains less: the `_Found`."""
    work = np.empty((4, len(times)))
    work[0], work[3] = 1, values
    count = inf if held[0] else len(times)
    total, square = float(values.sum()), float(values @ values)
    best, seen, at_best, converged = spot, -inf, (0.0, 0.0, square), False
    for _ in range(MOST_STEPS):
        try:
            explained, linear, move = _solve(_products(work, times, spot), count, total, spot, held)
        except ZeroDivisionError:
            break
        if explained < seen * (1 - 1e-10):
            spot = ((spot[0] + best[0]) / 2, (spot[1] + best[1]) / 2)
        else:
            best, seen, at_best = spot, explained, (*linear, square - total * total / count - explained)
            spot = _moved(spot, move, times)
        if abs(spot[0] - best[0]) + abs(spot[1] - best[1]) < SMALLEST_STEP * best[0]:
            converged = spot[0] < LONGEST * (times[-1] - times[0])
            break
    return _Found(best, *at_best, converged)


def _at_a_reading(times, values, found, held):
    """The sum of squares has a corner wherever the delay meets a reading; where its lowest point is one, the delay stays there."""
    time_constant, delay = found.spot
    corner = float(times[np.abs(times - delay).argmin()])
    other = _descend(times, values, (time_constant, corner), (held[0], corner))
    return other if other.converged and other.rss <= found.rss * (1 + 1e-6) else found


def _products(work, times, spot):
    """Products of the rows 1, E, −sE and values with one another, over the readings after the delay."""
    part = work[:, times.searchsorted(spot[1], side="right") :]
    fall, slope = part[1], part[2]
    np.subtract(spot[1], times[-len(fall) :], out=slope)
    slope *= 1 / spot[0]
    np.exp(slope, out=fall)
    slope *= fall
    return (part @ part.T).tolist()


def _solve(products, count, total, spot, held):
    """What the curve at `spot` explains, its (level, rise), and the step to the next spot.

    The linear problem is: values = level + a·1 + p·E + q·(−sE) after the delay. With the level taken out (`count` readings in
    all, infinite when it is held) three numbers are left, two when the delay is held, for then p = −a.
    """
    (m, e, f, y), (_, ee, ef, ey), (_, _, ff, fy), _ = products
    mm, me, mf, my = m - m * m / count, e - m * e / count, f - m * f / count, y - m * total / count
    ee, ef, ff, ey, fy = ee - e * e / count, ef - e * f / count, ff - f * f / count, ey - e * total / count, fy - f * total / count
    gg, gf, gy = mm - 2 * me + ee, mf - ef, my - ey
    rise = gy / gg
    level = (total - rise * (m - e)) / count
    if held[1] is not None:
        bend = (fy - gf * rise) / (ff - gf * gf / gg)
        return rise * gy, (level, rise), (spot[0] * bend / (rise - gf / gg * bend), 0.0)
    a, p, q = _three((mm, me, mf, ee, ef, ff), (my, ey, fy))
    return rise * gy, (level, rise), (spot[0] * q / a, -spot[0] * (p / a + 1))


def _three(matrix, right):
    """Solve three symmetric equations, `matrix` row by row from the diagonal, by elimination: quicker than any library's call."""
    (xx, xy, xz, yy, yz, zz), (x, y, z) = matrix, right
    u, v = xy / xx, xz / xx
    yy, yz, zz, y, z = yy - u * xy, yz - u * xz, zz - v * xz, y - u * x, z - v * x
    w = yz / yy
    third = (z - w * y) / (zz - w * yz)
    second = (y - yz * third) / yy
    return (x - xy * second - xz * third) / xx, second, third


def _moved(spot, move, times):
    """The next spot: the time constant at most tripled or divided by three, the delay inside the record."""
    span = float(times[-1] - times[0])
    time_constant = min(max(spot[0] + move[0], spot[0] / 3), 3 * spot[0], LONGEST * span)
    return time_constant, min(max(spot[1] + move[1], float(times[0]) - span), float(times[-FEWEST_AFTER]))
