"""How far one logger's clock is ahead of another's, from what both vessels felt."""

from dataclasses import dataclass
from functools import partial

import numpy as np

SPAN_S = 20.0  # changes over this long are compared: long against noise, short against a warming
MOST_LAG_S = 1800.0
LEAST_MATCH = 0.6
LEAST_CHANGES = 20
MOST_PLACES = 2000
ALMOST = 1.5  # so chosen that the range held the true offset in all of 59 simulated pairs; with 1.25 in 14 of 15


@dataclass(frozen=True)
class Offset:
    """The second clock is `seconds` ahead of the first, give or take `give_s`."""

    seconds: float
    give_s: float

    def __str__(self):
        return f"{self.seconds:.0f} ± {max(self.give_s, 1):.0f} s"


def offset_between(times, values, other_times, other_values):
    """The `Offset` that lets the changes of two records agree best; None where nothing that both felt tells it.

    Both records are brought to one grid; the changes over a span of time are correlated at every lag. The lags that fit almost as
    well as the best give the range: two vessels never warm alike, so that chance alone does not make it.
    """
    if min(len(times), len(other_times)) < LEAST_CHANGES:
        return None
    steps = np.median(np.diff(times)), np.median(np.diff(other_times))
    step = max(*steps, np.ptp(times) / MOST_PLACES, 1.0)
    span, fine = max(SPAN_S, 2 * step), max(min(steps) / 2, step / 20, 1.0)
    matches = partial(match_at, one=(times, values), two=(other_times, other_values), step=step, span=span)
    coarse = np.arange(-MOST_LAG_S, MOST_LAG_S + span / 4, span / 4)
    near = fine * np.round(coarse[np.argmax([matches(lag) for lag in coarse])] / fine)
    lags = np.unique(np.r_[coarse, near + np.arange(-3 * span, 3 * span + fine, fine)])
    fits = np.array([matches(lag) for lag in lags])
    return None if fits.max() < LEAST_MATCH else best_offset(lags, fits, fine, span)


def best_offset(lags, fits, fine, span):
    """The lag that fits best, with the range of those that fit almost as well; None if that range is too wide to be one place."""
    best = int(np.argmax(fits))
    misfit = (1 - fits**2) / max(1 - fits[best] ** 2, 1e-12)
    allowed = lags[(misfit <= ALMOST) & (fits > 0)]
    give = max(allowed.max() - lags[best], lags[best] - allowed.min(), fine, span / 4)
    return Offset(float(lags[best]), float(give)) if give <= 3 * span else None


def match_at(lag, *, one, two, step, span):
    """The correlation of the changes if the second clock is `lag` seconds ahead; 0 where too little is shared."""
    start, end = max(one[0][0], two[0][0] - lag), min(one[0][-1], two[0][-1] - lag)
    if end - start < LEAST_CHANGES * span / 2:
        return 0.0
    grid = np.arange(start, end - span, step)
    first, second = (
        np.interp(grid + span, times, values) - np.interp(grid, times, values) for times, values in (one, (two[0] - lag, two[1]))
    )
    spread = first.std() * second.std()
    return float(np.mean((first - first.mean()) * (second - second.mean())) / spread) if spread > 0 else 0.0
