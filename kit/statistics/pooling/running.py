"""Running sums of a class: what all groups but one say, for each of thousands, in a time that grows as their number does.

Whatever a pooled mean is made of are sums over the groups of powers of their weights, for each side apart. One group is taken out of a sum by a
subtraction. But each group left out means another spread, and so other weights. The sums are smooth functions of the spread, though: they are worked out
at a few spreads and interpolated (Chebyshev's polynomials in the logarithm of squared spread + smallest squared error, in which no pole comes nearer
to the real line than π). 1/(1 − leverage) is a geometric series in the weights; where a leverage is large, its remainder is added by hand.
"""

from dataclasses import dataclass
from functools import cached_property
from math import asinh, ceil, pi

import numpy as np
from numpy.polynomial import chebyshev

from kit.statistics.pooling.pooling import pool, Pooled
from kit.statistics.ranges import FEWEST_AVERAGED

# Terms of the series; leverages from which its remainder is added; and what share of all a group may hold to be taken out by a subtraction.
TERMS, HEAVY, MOST_TAKEN_OUT = 10, 0.03, 0.3
# Fewer measured drifts than this have large leverages each.
FEW_DRIFTS = 20
# Digits asked of the interpolation, as e-folds, with what the powers of the weights cost.
E_FOLDS = 46.0
SMALLEST_HALF = 1e-6
# Where in `Columns.summed` the numbers stand that a mean and a mean drift are fitted to.
MEAN, GAIN, DRIFT, DRIFT_ERROR, OTHER_DRIFT = slice(0, 3), 3, slice(4, 7), 7, slice(8, 10)


@dataclass(frozen=True, eq=False)
class Columns:
    """A class in arrays, (groups,) each: `values` ± `errors`, `sides`, and from the `Parts`: `gains`, `drifts` (groups, 2), and which drifts are
    `known`: `carried` ± `carried_errors`, 0 elsewhere. `whole`: the `Pooled` of all."""

    values: np.ndarray
    errors: np.ndarray
    sides: np.ndarray
    gains: np.ndarray
    drifts: np.ndarray
    known: np.ndarray
    carried: np.ndarray
    carried_errors: np.ndarray
    whole: Pooled

    @classmethod
    def of(cls, values, errors, sides, several):
        names = ("gain", "drift_low", "drift_high", "carried", "carried_error")
        gains, low, high, carried, uncertain = np.array([[getattr(each, name) for name in names] for each in several]).T
        known, both = np.isfinite(uncertain), np.ptp(sides) > 0
        if known.sum() < FEWEST_AVERAGED + both or both and not np.ptp(sides[known]):
            known = np.zeros_like(known)
        measured = (np.where(known, column, 0) for column in (carried, uncertain))
        return cls(values, errors, sides, gains, np.stack([low, high], axis=1), known, *measured, pool(values, errors, sides))

    @property
    def both(self):
        """Were there both sides?"""
        return np.ptp(self.sides) > 0

    @cached_property
    def kinds(self):
        """The sides that there are, (kinds,), and which of them each group has, (groups,)."""
        return np.unique(self.sides, return_inverse=True)

    @cached_property
    def summed(self):
        """What is summed, (groups, 10): 1, y and y² of the residuals, gains; the same of the known drifts and their errors; the other drifts."""
        y, known = self.whole.residuals, self.known.astype(float)
        unknown = (1 - known)[:, None] * self.drifts
        measured = (known, self.carried, self.carried**2, self.carried_errors**2)
        return np.column_stack([np.ones_like(y), y, y**2, self.gains, *measured, unknown])

    def weights(self, squared, errors=None):
        """Weights at squared spreads, from 0 to 1 for the most precise group; `squared` and `errors` as numpy combines them."""
        return (squared + self.least) / (squared + (self.errors if errors is None else errors) ** 2)

    @cached_property
    def least(self):
        """The smallest squared error."""
        return float(self.errors.min() ** 2)


@dataclass(frozen=True, eq=False)
class SumTable:
    """Sums as functions of the squared spread from `low` to `high`: `coefficients` (nodes, powers, kinds, columns) of Chebyshev's polynomials.
    `heavy`: groups whose leverage on the mean is large somewhere there, and `heavy_drift` on the mean drift; `alone` (groups,): too large."""

    low: float
    high: float
    coefficients: np.ndarray
    heavy: np.ndarray
    heavy_drift: np.ndarray
    alone: np.ndarray

    @classmethod
    def over(cls, columns, low, high):
        ends = np.log(np.array([low, high]) + columns.least)
        half = max((ends[1] - ends[0]) / 2, SMALLEST_HALF)
        # Half of the distance π to the nearest pole, as the powers of the weights grow towards it.
        nodes = ceil(E_FOLDS / asinh(pi / (2 * half))) + 2
        places = chebyshev.chebpts1(nodes)
        sums, seen = zip(*(_at_node(columns, float(squared)) for squared in np.exp(ends.mean() + half * places) - columns.least))
        back = chebyshev.chebvander(places, nodes - 1).T * np.where(np.arange(nodes) > 0, 2, 1)[:, None] / nodes
        on_mean, on_drift = np.max(seen, axis=0)
        few = columns.known & (columns.known.sum() <= FEW_DRIFTS)
        alone = few | (on_mean > MOST_TAKEN_OUT) | (on_drift > MOST_TAKEN_OUT)
        return cls(low, high, np.tensordot(back, np.array(sums), 1), np.flatnonzero(on_mean > HEAVY), np.flatnonzero(on_drift > HEAVY), alone)

    def without(self, columns, groups, squared, powers):
        """The sums over all but each of `groups`, at its squared spread: (groups, powers, kinds, columns)."""
        ends = np.log(np.array([self.low, self.high]) + columns.least)
        places = (np.log(squared + columns.least) - ends.mean()) / max((ends[1] - ends[0]) / 2, SMALLEST_HALF)
        sums = np.tensordot(chebyshev.chebvander(places, len(self.coefficients) - 1), self.coefficients[:, :powers], 1)
        own = columns.weights(squared, columns.errors[groups])[:, None] ** np.arange(1, powers + 1)
        sums[np.arange(len(groups)), :, columns.kinds[1][groups]] -= own[:, :, None] * columns.summed[groups, None]
        return sums


def _at_node(columns, squared):
    """All sums at one squared spread, (powers, kinds, columns), and each group's leverage there on mean and mean drift, (2, groups)."""
    (kinds, which), weights = columns.kinds, columns.weights(squared)
    powers = np.multiply.accumulate(np.broadcast_to(weights, (TERMS + 1, len(weights))))
    sums = np.stack([powers[:, which == kind] @ columns.summed[which == kind] for kind in range(len(kinds))], axis=1)
    fit = Fit.of(sums[None, 0, :, MEAN], kinds)
    leverage = [weights * fit.leverage[0, which], np.zeros_like(weights)]
    if columns.known.any():
        drift = Fit.of(fit.pulls[..., None] * sums[None, 0, :, DRIFT], kinds)
        leverage[1] = columns.known * weights * abs(fit.pulls * drift.leverage)[0, which]
    return sums, leverage


@dataclass(frozen=True, eq=False)
class Fit:
    """Weighted regressions on 1 (and the side, where there are two kinds): the coefficients `mean` and `side` (fits,), the diagonal of the inverse
    of X'WX (2, fits); and for each kind (fits, kinds) the `line` there, and what a group's weight is multiplied with to give its pull on the
    mean (`pulls`), on the side (`side_pulls`), and its `leverage`."""

    mean: np.ndarray
    side: np.ndarray
    inverse: np.ndarray
    lines: np.ndarray
    pulls: np.ndarray
    side_pulls: np.ndarray
    leverage: np.ndarray

    @classmethod
    def of(cls, sums, kinds):
        """From `sums` (fits, kinds, 3) of weights times 1, y, y²."""
        weight, moment = sums[..., 0], sums[..., 1]
        if len(kinds) == 1:
            first, cross, last = 1 / weight.sum(1), np.zeros(len(sums)), np.zeros(len(sums))
        else:
            zero, one, two = weight.sum(1), weight @ kinds, weight @ kinds**2
            first, cross, last = (part / (zero * two - one**2) for part in (two, -one, zero))
        mean, side = (a * moment.sum(1) + b * (moment @ kinds) for a, b in ((first, cross), (cross, last)))
        pulls, side_pulls, lines = (a[:, None] + b[:, None] * kinds for a, b in ((first, cross), (cross, last), (mean, side)))
        return cls(mean, side, np.stack([first, last]), lines, pulls, side_pulls, pulls + side_pulls * kinds)


def squares(sums, lines):
    """Sums of squared residuals from `sums` (fits, powers, kinds, 3) about `lines` (fits, kinds): (fits, powers, kinds)."""
    lines = lines[:, None]
    return sums[..., 2] - lines * (2 * sums[..., 1] - lines * sums[..., 0])


def robust(left, pulls, leverage, remainder):
    """Sum over groups of pull² residual² / (1 − leverage), (fits,): the series from `left` (fits, TERMS, kinds), squared residuals times the second and
    higher powers of the weights, and the `remainder` (a `Remainder`) of the heavy ones."""
    series = left[:, -1]
    for power in range(TERMS - 2, -1, -1):
        series = series * leverage + left[:, power]
    return (pulls**2 * series).sum(1) + remainder.of(pulls, leverage)


@dataclass(frozen=True, eq=False)
class Remainder:
    """What the series leaves out of 1 / (1 − leverage) for heavy groups: `weights` and `residuals` (fits, heavy), 0 where a group is itself left out, their
    kind `which` (heavy,), and the least that may be spared (fits, 1)."""

    weights: np.ndarray
    residuals: np.ndarray
    which: np.ndarray
    least: np.ndarray

    def of(self, pulls, leverage):
        heavy = self.weights * leverage[:, self.which]
        spare = np.maximum(1 - heavy, self.least)
        return ((self.weights * pulls[:, self.which] * self.residuals) ** 2 * heavy**TERMS / spare).sum(1)
