"""Does one saturating rise describe a record? Its sum of squares against that of a curve with many speeds, in units of the noise."""

from dataclasses import dataclass

import numpy as np
from scipy.special import fdtrc

# A rise has a level, a size, a time constant and a delay.
NUMBERS_OF_A_RISE = 4


@dataclass(frozen=True)
class Misfit:
    """`chance`: how often noise alone would leave as much over (0.001: one record in a thousand). `excess`: what the rise leaves over
    beyond a freer curve, per number that this curve has more; about 1 where the rise is right."""

    chance: float
    excess: float


def misfit_of(values, precision, design, squares):
    """The `Misfit` of a rise that left `squares` of `values` (cells,), against the freer curve of `design` (cells, terms).

    `precision` (cells, cells): inverse covariance of the noise. F test of nested least-squares fits (Draper and Smith, Applied
    Regression Analysis, 1998, chapter 6, from memory); only nearly nested here, so that `chance` is a guide and not a level.
    """
    weighed = precision @ design
    moments = weighed.T @ values
    freer = float(values @ precision @ values - moments @ np.linalg.solve(design.T @ weighed, moments))
    more = max(design.shape[1] + 1 - NUMBERS_OF_A_RISE, 1)
    dof = max(len(values) - design.shape[1] - 1, 1)
    excess = max(squares - freer, 0.0) / more / (freer / dof)
    return Misfit(float(fdtrc(more, dof, excess)), excess)
