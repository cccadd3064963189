"""How far one logger's clock is ahead of another's, from what both vessels felt."""

from dataclasses import dataclass

import numpy as np

SPAN_S = 20.0  # changes over this long are compared: long against noise, short against a warming
MOST_LAG_S = 1800.0
LEAST_MATCH = 0.6
LEAST_CHANGES = 20


@dataclass(frozen=True)
class Offset:
    """The second clock is `seconds` ahead of the first, give or take `give_s`."""

    seconds: float
    give_s: float

    def __str__(self):
        return f"{self.seconds:.0f} ± {max(self.give_s, 1):.0f} s"


def offset_between(times, values, other_times, other_values):
    """The `Offset` that lets the changes of two records agree best; None where nothing that both felt tells it.

    Both records are brought to one grid; the changes over a span of time are correlated at every lag. The lags whose misfit is
    within what the number of independent changes allows (about two standard errors) give the range.
    """
    step = max(np.median(np.diff(times)), np.median(np.diff(other_times)), 1.0)
    span = max(SPAN_S, 2 * step)
    lags = np.arange(-MOST_LAG_S, MOST_LAG_S + step, step)
    found = np.array([match_at(lag, (times, values), (other_times, other_values), step, span) for lag in lags])
    fits, changes = found[:, 0], found[:, 1]
    if not (fits > LEAST_MATCH).any():
        return None
    best = int(np.nanargmax(fits))
    misfit = (1 - fits**2) / (1 - fits[best] ** 2)
    allowed = np.flatnonzero((misfit <= 1 + 4 / max(changes[best], 1)) & (fits > 0))
    give = max(lags[allowed[-1]] - lags[best], lags[best] - lags[allowed[0]], step)
    return Offset(float(lags[best]), float(give)) if give <= 3 * span else None


def match_at(lag, one, two, step, span):
    """(correlation of the changes, number of independent changes) if the second clock is `lag` seconds ahead."""
    start, end = max(one[0][0], two[0][0] - lag), min(one[0][-1], two[0][-1] - lag)
    if end - start < LEAST_CHANGES * span / 2:
        return 0.0, 0.0
    grid = np.arange(start, end - span, step)
    first, second = (
        np.interp(grid + span, times, values) - np.interp(grid, times, values) for times, values in (one, (two[0] - lag, two[1]))
    )
    spread = first.std() * second.std()
    fit = float(np.mean((first - first.mean()) * (second - second.mean())) / spread) if spread > 0 else 0.0
    return fit, (end - start) / span
