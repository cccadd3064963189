"""Pooling groups of unequal precision: each group's value is its own true value plus its own random error (random effects)."""

from dataclasses import dataclass

import numpy as np
from scipy.special import chdtri

MOST_STEPS = 100
CLOSE_ENOUGH = 1e-12
# Fewer groups than this leave no degree of freedom to spare for a side.
FEWEST_WITH_SIDES = 4


@dataclass(frozen=True, eq=False)
class Pooled:
    """A pooled mean and its standard error in the values' unit, `dof` for Student's t, the weights of the mean (they sum to 1), and
    `spread`, the standard deviation of the groups' true values about each other. `side` ± `side_error`: what belongs to the place and not to
    what is asked, half of (usual − swapped); 0 where one side alone was there. `residuals`: the values less mean and side."""

    mean: float
    standard_error: float
    dof: int
    weights: np.ndarray
    spread: float
    side: float
    side_error: float
    residuals: np.ndarray


def pool(values, errors, sides=None):
    """The `Pooled` mean of `values` (groups,) with standard errors `errors` (groups,), at least two groups.

    `sides` (groups,): 1 as usual, −1 where the roles were swapped, between where a group did both. With both there and four groups or
    more the mean is that of a regression on the side, so that what belongs to the place neither shifts nor widens it.

    Spread between groups by Paule and Mandel (J. Res. NBS 87:377, 1982). Standard error: the largest of three, so that it holds
    for few groups and unequal errors: the weights' own, that of Knapp and Hartung (Stat. Med. 22:2693, 2003), which looks at how
    far the values really lie apart, and the robust one of Sidik and Jonkman (Comput. Stat. Data Anal. 50:3681, 2006), which
    does so value by value. All three from memory.
    """
    design = _design(values, sides)
    dof = len(values) - design.shape[1]
    spread = _spread_where(values, errors, dof, design)
    precision = 1 / (errors**2 + spread**2)
    inverse, pull, residuals = _regressed(values, precision, design)
    scale = max(precision @ residuals**2 / dof, 1) if dof else 1.0
    spare = np.maximum(1 - (design * pull.T).sum(1), np.finfo(float).eps)
    variances = np.maximum(np.diagonal(inverse) * scale, pull**2 @ (residuals**2 / spare))
    coefficients = pull @ values
    side, side_error = (float(coefficients[1]), float(variances[1]) ** 0.5) if len(pull) > 1 else (0.0, 0.0)
    return Pooled(float(coefficients[0]), float(variances[0]) ** 0.5, dof, pull[0], spread, side, side_error, residuals)


def _design(values, sides):
    """1 alone, or 1 and the side (groups, terms)."""
    ones = np.ones(len(values))
    told_apart = sides is not None and np.ptp(sides) > 0 and len(values) >= FEWEST_WITH_SIDES
    return np.stack([ones, sides] if told_apart else [ones], axis=1)


def _regressed(values, precision, design):
    """Weighted least squares: the inverse of X'WX (terms, terms), the weights of the coefficients (terms, groups), the residuals (groups,)."""
    inverse = np.linalg.inv(design.T @ (precision[:, None] * design))
    pull = inverse @ (design.T * precision)
    return inverse, pull, values - design @ (pull @ values)


def plain_mean(values, sides=None):
    """(mean, standard error) of `values` (groups,) as a class can work it out by hand: all groups count alike, s/√k, k − 1 for t.

    With both `sides` there and four groups or more: the mean of those as usual and the mean of those swapped, and the middle of the two.
    """
    design = _design(values, sides)
    inverse, pull, residuals = _regressed(values, np.ones(len(values)), design)
    return float(pull[0] @ values), float(inverse[0, 0] * (residuals @ residuals) / (len(values) - design.shape[1])) ** 0.5


def spread_between(values, errors):
    """Standard deviation between the groups' true values: where the weighted squares are as large as their degrees of freedom.

    0 when the errors alone explain how far the values lie apart. Paule and Mandel, J. Res. NBS 87:377 (1982), from memory.
    """
    return _spread_where(values, errors, len(values) - 1, _design(values, None))


def spread_interval(values, errors, sides=None, level=0.95):
    """(low, high) for the spread between groups: every spread for which the weighted squares look like chance at `level`.

    The Q profile (Viechtbauer, Stat. Med. 26:37, 2007, from memory).
    """
    design = _design(values, sides)
    dof = len(values) - design.shape[1]
    return tuple(_spread_where(values, errors, float(chdtri(dof, tail)), design) for tail in ((1 - level) / 2, (1 + level) / 2))


def spread_of_next(errors, pooled):
    """Standard deviation of (what a next group will measure − pooled mean), for Student's t with `pooled.dof`.

    The larger of what the values themselves show, s²(1 + 1/k), and what spread and mean error add up to: the first alone is too
    small where groups agree by luck, the second where the spread is underestimated.
    """
    shown = pooled.residuals @ pooled.residuals / pooled.dof * (1 + 1 / len(errors))
    added = pooled.spread**2 + np.mean(errors**2) + pooled.standard_error**2
    return float(max(shown, added) ** 0.5)


def surprise(value, error, others, side=1.0):
    """How far `value` (± `error`) lies from what the `others` (a `Pooled`, or `Others` for arrays) predict for that side, in standard deviations of
    that difference."""
    variance = error**2 + others.spread**2 + others.standard_error**2 + (side * others.side_error) ** 2
    return (value - others.mean - side * others.side) / variance**0.5


def _spread_where(values, errors, wanted, design):
    """The spread for which the weighted sum of squares equals `wanted`, 0 if it is never that large. Newton's steps from 0.

    They are taken on the reciprocal of that sum, which is a straight line in the squared spread where all errors are alike.
    """
    squared = 0.0
    for _ in range(MOST_STEPS):
        precision = 1 / (errors**2 + squared)
        squares = _regressed(values, precision, design)[2] ** 2
        found = float(precision @ squares)
        if found <= wanted and squared == 0:
            break
        step = found * (found / wanted - 1) / float(precision**2 @ squares)
        squared = max(squared + step, 0.0)
        if abs(step) <= CLOSE_ENOUGH * squared:
            break
    return squared**0.5
