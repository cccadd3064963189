"""Does one saturating rise describe a record? Its sum of squares against that of a curve with many speeds; and is there a wave in what is left?"""

from dataclasses import dataclass

import numpy as np
from scipy.linalg import cholesky, solve_triangular
from scipy.special import fdtrc

from kit.statistics.curve.rise import LONGEST, saturating

# A rise has a level, a size, a time constant and a delay.
NUMBERS_OF_A_RISE = 4
SHORTEST, GRID, FINER = 0.005, (24, 7), (9, 5)
PERIODS = 40


@dataclass(frozen=True)
class Misfit:
    """`chance`: how often noise alone would leave as much over (0.001: one record in a thousand). `excess`: what the rise leaves over
    beyond a freer curve, per number that this curve has more; about 1 where the rise is right."""

    chance: float
    excess: float


@dataclass(frozen=True)
class Wave:
    """The sine that takes most out of what a curve leaves: its `period_s` and the `share` (0 to 1) of the variance that it explains."""

    period_s: float
    share: float


def misfit_of(times_s, values, covariance, design, delays_s):
    """The `Misfit` of one rise through `values` (cells,) at `times_s`, against the freer curve of `design` (cells, terms).

    `covariance` (cells, cells): of the noise. The rise is the best of generalised least squares with its delay from `delays_s[0]` to
    `delays_s[1]`. F test of nested fits (Draper and Smith, Applied Regression Analysis, 1998, chapter 6, from memory); only nearly nested here,
    so that `chance` is a guide and not a level.
    """
    root = cholesky(covariance, lower=True)
    white = solve_triangular(root, np.column_stack([values, np.ones_like(values), design]), lower=True)
    free, _ = np.linalg.qr(white[:, 2:])
    freer = float(white[:, 0] @ white[:, 0] - ((white[:, 0] @ free) ** 2).sum())
    more = max(design.shape[1] + 1 - NUMBERS_OF_A_RISE, 1)
    dof = max(len(values) - design.shape[1] - 1, 1)
    excess = max(_best_rise(times_s, root, white, delays_s) - freer, 0.0) / more / (freer / dof)
    return Misfit(float(fdtrc(more, dof, excess)), excess)


def wave_in(times_s, left):
    """The `Wave` in residuals `left` (cells,) at `times_s`, with periods from two minutes, or eight cells, to the record's length."""
    span, left = np.ptp(times_s), left - left.mean()
    shortest = max(120.0, 8 * span / len(times_s))
    if span <= shortest or not left @ left > 0:
        return Wave(np.inf, 0.0)
    periods = span / np.linspace(1, span / shortest, PERIODS)
    turns = 2 * np.pi * (times_s - times_s.mean()) / periods[:, None]
    shares = [((left @ np.linalg.qr(np.column_stack([np.ones_like(left), np.sin(turn), np.cos(turn)]))[0]) ** 2).sum() for turn in turns]
    best = int(np.argmax(shares))
    return Wave(float(periods[best]), float(shares[best] / (left @ left)))


def _best_rise(times_s, root, white, delays_s):
    """The smallest sum of squares that a level and one rise leave: on a grid of time constants and delays, then on a finer one about the best."""
    span = times_s[-1] - delays_s[0]
    ends, best = ((SHORTEST * span, LONGEST * span), delays_s), np.inf
    for shape in (GRID, FINER):
        times, delays = np.geomspace(*ends[0], shape[0]), np.linspace(*ends[1], shape[1])
        shapes = saturating(times_s[:, None], *(each.ravel() for each in np.meshgrid(times, delays, indexing="ij")))
        squares = _left_over(solve_triangular(root, shapes, lower=True), white[:, 1], white[:, 0])
        place = np.unravel_index(int(np.argmin(squares)), shape)
        best = min(best, float(squares.min()))
        ends = tuple((axis[max(at - 1, 0)], axis[min(at + 1, len(axis) - 1)]) for axis, at in zip((times, delays), place))
    return best


def _left_over(shapes, level, values):
    level = level / np.sqrt(level @ level)
    values, shapes = values - level * (level @ values), shapes - np.outer(level, level @ shapes)
    return values @ values - (values @ shapes) ** 2 / np.maximum((shapes**2).sum(0), np.finfo(float).tiny)
