"""The interval that takes every reading for an independent look. Readings seldom are: it is kept to be seen beside an honest one."""

from kit.statistics.ranges.quantiles import coverage_factor


def welch_interval(before, after, level=0.95):
    """Mean of `after` less mean of `before` (readings,), its standard error, and the factor to a two-sided interval at `level`.

    Unequal variances, degrees of freedom by Welch and Satterthwaite (Welch, Biometrika 34:28, 1947, from memory). Two readings each or more.
    """
    parts = [readings.var(ddof=1) / len(readings) for readings in (before, after)]
    spare = sum(part**2 / (len(readings) - 1) for part, readings in zip(parts, (before, after)))
    dof = sum(parts) ** 2 / spare if spare else len(before) + len(after) - 2
    return float(after.mean() - before.mean()), float(sum(parts) ** 0.5), coverage_factor(level, dof)
