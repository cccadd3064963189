"""Pooling groups of unequal precision: each group's value is its own true value plus its own random error (random effects)."""

from dataclasses import dataclass

import numpy as np
from scipy.special import chdtri

MOST_STEPS = 100
CLOSE_ENOUGH = 1e-12


@dataclass(frozen=True, eq=False)
class Pooled:
    """A pooled mean and its standard error in the values' unit, `dof` for Student's t, the weights (they sum to 1), and
    `spread`, the standard deviation of the groups' true values about each other."""

    mean: float
    standard_error: float
    dof: int
    weights: np.ndarray
    spread: float


def pool(values, errors):
    """The `Pooled` mean of `values` (groups,) with standard errors `errors` (groups,), at least two groups.

    Spread between groups by Paule and Mandel (J. Res. NBS 87:377, 1982). Standard error: the largest of three, so that it holds
    for few groups and unequal errors: the weights' own, that of Knapp and Hartung (Stat. Med. 22:2693, 2003), which looks at how
    far the values really lie apart, and the robust one of Sidik and Jonkman (Comput. Stat. Data Anal. 50:3681, 2006), which
    does so value by value. All three from memory.
    """
    spread = spread_between(values, errors)
    precision = 1 / (errors**2 + spread**2)
    weights = precision / precision.sum()
    mean = float(weights @ values)
    squares = (values - mean) ** 2
    knapp_hartung = precision @ squares / (len(values) - 1) / precision.sum()
    robust = (weights**2 / (1 - weights)) @ squares
    return Pooled(mean, float(max(1 / precision.sum(), knapp_hartung, robust)) ** 0.5, len(values) - 1, weights, spread)


def plain_mean(values):
    """(mean, standard error) of `values` (groups,) as a class can work it out by hand: all groups count alike, s/√k, k − 1 for t."""
    return float(np.mean(values)), float(np.std(values, ddof=1) / len(values) ** 0.5)


def spread_between(values, errors):
    """Standard deviation between the groups' true values: where the weighted squares are as large as their degrees of freedom.

    0 when the errors alone explain how far the values lie apart. Paule and Mandel, J. Res. NBS 87:377 (1982), from memory.
    """
    return _spread_where(values, errors, len(values) - 1)


def spread_interval(values, errors, level=0.95):
    """(low, high) for the spread between groups: every spread for which the weighted squares look like chance at `level`.

    The Q profile (Viechtbauer, Stat. Med. 26:37, 2007, from memory).
    """
    dof = len(values) - 1
    return tuple(_spread_where(values, errors, float(chdtri(dof, tail))) for tail in ((1 - level) / 2, (1 + level) / 2))


def spread_of_next(values, errors, pooled):
    """Standard deviation of (what a next group will measure − pooled mean), for Student's t with `pooled.dof`.

    The larger of what the values themselves show, s²(1 + 1/k), and what spread and mean error add up to: the first alone is too
    small where groups agree by luck, the second where the spread is underestimated.
    """
    shown = np.var(values, ddof=1) * (1 + 1 / len(values))
    added = pooled.spread**2 + np.mean(errors**2) + pooled.standard_error**2
    return float(max(shown, added) ** 0.5)


def without_each(values, errors):
    """The `Pooled` of all groups but one, for each group in turn: a list, None where fewer than two would be left."""
    others = ~np.eye(len(values), dtype=bool)
    return [pool(values[rest], errors[rest]) if rest.sum() > 1 else None for rest in others]


def surprise(value, error, others):
    """How far `value` (± `error`) lies from what the `others` (a `Pooled`) foretell, in standard deviations of that difference."""
    return (value - others.mean) / (error**2 + others.spread**2 + others.standard_error**2) ** 0.5


def _spread_where(values, errors, wanted):
    """The spread for which the weighted sum of squares equals `wanted`, 0 if it is never that large. Newton's steps from 0.

    They are taken on the reciprocal of that sum, which is a straight line in the squared spread where all errors are alike.
    """
    squared = 0.0
    for _ in range(MOST_STEPS):
        precision = 1 / (errors**2 + squared)
        squares = (values - precision @ values / precision.sum()) ** 2
        found = float(precision @ squares)
        if found <= wanted and squared == 0:
            break
        step = found * (found / wanted - 1) / float(precision**2 @ squares)
        squared = max(squared + step, 0.0)
        if abs(step) <= CLOSE_ENOUGH * squared:
            break
    return squared**0.5
