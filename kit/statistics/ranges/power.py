"""How likely several runs will tell an effect from zero, and how wide a range most such classes stay under."""

import numpy as np
from scipy.special import chdtri, nctdtr

from kit.statistics.ranges.quantiles import coverage_factor, widened_factor


def chance_of_telling(effect, error, dof, *, bias=0.0, level=0.95):
    """The chance that the range of a mean with standard error `error` (`dof` degrees of freedom) lies off zero on the side of `effect`.

    By the noncentral t distribution (Johnson and Welch, Biometrika 31:362, 1940, from memory). `effect` >= 0 and `bias`, how far drift and what
    is allowed for it push the range's end towards zero, in the same unit. Arrays broadcast.
    """
    return 1 - nctdtr(dof, np.maximum(np.asarray(effect, float) - bias, 0) / error, coverage_factor(level, dof))


def seldom_more(dof, share):
    """By what factor a standard deviation seen with `dof` degrees of freedom stays under the true one's multiple in that `share` of cases."""
    return float((chdtri(dof, 1 - share) / dof) ** 0.5)


def half_width(error, dof, bias, level=0.95):
    """Half the length of the range for a standard error (`dof` degrees of freedom) and any bias up to `bias`."""
    scale = error * coverage_factor(level, dof) / coverage_factor(level)
    return scale * widened_factor(bias / scale, level)
