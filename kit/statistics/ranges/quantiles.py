"""Coverage factors: how many standard uncertainties an interval reaches to each side."""

from math import inf

import numpy as np
from scipy.special import ndtr, ndtri, stdtrit


def coverage_factor(level, dof=inf):
    """Student's t for a two-sided interval at `level` with `dof` degrees of freedom, a number or an array (GUM annex G, table G.2)."""
    return one_sided_factor(0.5 + level / 2, dof)


def one_sided_factor(level, dof=inf):
    """Student's t for a bound that holds at `level` with `dof` degrees of freedom, a number or an array."""
    factor = stdtrit(np.minimum(dof, 1e9), level)
    return factor if np.ndim(factor) else float(factor)


def widened_factor(shift, level=0.95):
    """Half-width of the interval that holds at `level` whatever the bias up to `shift`, all in standard uncertainties.

    The c with Phi(c - shift) - Phi(-c - shift) = level: Student's 1.96 for no shift, shift + 1.645 for a large one
    (Armstrong and Kolesar, Econometrica 86:655, 2018, from memory). Numbers or arrays.
    """
    factor = shift + ndtri(level)
    # The left side rises ever more slowly, so that Newton's steps from below never pass the answer; six settle all digits.
    for _ in range(6):
        slope = np.exp(-((factor - shift) ** 2) / 2) + np.exp(-((factor + shift) ** 2) / 2)
        factor = factor + (level - ndtr(factor - shift) + ndtr(-factor - shift)) * np.sqrt(2 * np.pi) / slope
    return factor
