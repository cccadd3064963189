"""Coverage factors: how many standard uncertainties an interval reaches to each side."""

from math import inf

from scipy.special import stdtrit


def coverage_factor(level, dof=inf):
    """Student's t for a two-sided interval at `level` with `dof` degrees of freedom (GUM annex G, table G.2)."""
    return float(stdtrit(min(dof, 1e9), 0.5 + level / 2))
