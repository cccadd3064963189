"""A straight line with the uncertainty of both its numbers and how they hang together, as a calibration needs it."""

from dataclasses import dataclass
from math import inf, sqrt

import numpy as np

from kit.faults import Fault


@dataclass(frozen=True)
class Line:
    """y = intercept + slope · (x − origin), with standard errors, their `correlation`, the `scatter` of the points about the line
    (standard deviation, nan where two points leave none to see) and `dof`, infinite when the points' errors were given."""

    intercept: float
    slope: float
    origin: float
    intercept_error: float
    slope_error: float
    correlation: float
    scatter: float
    dof: float

    def at(self, x):
        """The line at `x`."""
        return self.intercept + self.slope * (x - self.origin)

    def error_at(self, x):
        """The standard error of the line at `x` (GUM H.3.4, from memory: the two numbers are not independent)."""
        reach = x - self.origin
        both = 2 * reach * self.correlation * self.intercept_error * self.slope_error
        return np.sqrt(self.intercept_error**2 + (reach * self.slope_error) ** 2 + both)


def fit_line(x, y, *, origin=0.0, errors=None):
    """The `Line` of least squares through `y` at `x`, both (points,), with its intercept at `origin`.

    Without `errors` the points' scatter gives the uncertainty, three points or more (GUM annex H.3, from memory). With `errors`
    (points,), the known standard errors of the y, each point weighs by them, two points or more. A Fault when all x are the same.
    """
    if np.ptp(x) == 0:
        raise Fault(f"All points lie at {x[0]:g}. A line needs points at two values at least, the further apart the better.")
    weights = np.ones_like(x, dtype=float) if errors is None else 1 / np.square(errors)
    design = np.stack([np.ones_like(x, dtype=float), x - origin], axis=1)
    inverse = np.linalg.inv(design.T @ (weights[:, None] * design))
    intercept, slope = (float(each) for each in inverse @ (design.T @ (weights * y)))
    left, dof = y - design @ (intercept, slope), len(x) - 2
    scatter = sqrt(float(left @ left) / dof) if dof else float("nan")
    u, v = np.sqrt(np.diagonal(inverse))
    correlation, unit = float(inverse[0, 1] / (u * v)), scatter if errors is None else 1  # by where the points lie, not by how they scatter
    return Line(intercept, slope, origin, float(u * unit), float(v * unit), correlation, scatter, dof if errors is None else inf)
