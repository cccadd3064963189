"""How likely a run, or several, will tell an effect from zero, and how wide their range will be."""

import numpy as np
from scipy.special import nctdtr

from kit.statistics.quantiles import coverage_factor, widened_factor


def chance_of_telling(effect, sd, repeats, *, bias=0.0, level=0.95):
    """The chance that the range of a mean of `repeats` values (2 or more) of standard deviation `sd` lies off zero on the side of `effect`.

    Student's t with repeats − 1 degrees of freedom, by the noncentral t distribution (Johnson and Welch, Biometrika 31:362, 1940, from
    memory). `effect` >= 0 and `bias` in the same unit: the range is wider by the bias that it allows for, none is there.
    """
    dof, error = repeats - 1, sd / np.sqrt(repeats)
    return 1 - nctdtr(dof, np.maximum(np.asarray(effect, float) - bias, 0) / error, coverage_factor(level, dof))


def expected_half_width(sd, repeats, *, bias=0.0, level=0.95):
    """The half-width to expect of the mean of `repeats` values (2 or more) of standard deviation `sd`, for any bias up to `bias`.

    The mean sample standard deviation is a little below `sd` (its factor c4: Montgomery, Introduction to Statistical Quality Control,
    from memory; 1 − 1/(4k − 3) here, good to 0.3 %).
    """
    seen = sd * (1 - 1 / (4 * repeats - 3))
    scale = seen / np.sqrt(repeats) * coverage_factor(level, repeats - 1) / coverage_factor(level)
    return scale * widened_factor(bias / scale, level)
