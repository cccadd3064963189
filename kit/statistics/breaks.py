"""Where a record takes a new course: one break, looked for everywhere, judged against noise that neighbours share."""

from dataclasses import dataclass

import numpy as np
from scipy.linalg import solve_triangular

from kit.statistics.cells import cut
from kit.statistics.noise import learn_noise, noise_grid

SETTLING_S = (45.0, 135.0, 405.0)
RISING_S = (0.0, 15.0, 45.0, 135.0)  # 0 is a step
MARGIN_S, MARGIN_CELLS = 60.0, 3
# A search over all places and shapes has no F table. On simulated air runs, 100 of each of 13 kinds, 20 was passed by 2 of 700 where the
# noise is remembered for up to 20 s, by 2 of 200 where vessels are unlike, by 12 of 400 where it is remembered for 1 to 3 min.
SURE = 20.0
LIKELY = 9.21  # chi-squared of 2 degrees at 99 %
DISPLAY_STEPS = 1.5  # a change of one step of the display can be the display's own


@dataclass(frozen=True)
class Break:
    """A break at `at_s`, somewhere from `earliest_s` to `latest_s` (s), after which the record rises or falls by `size`."""

    at_s: float
    earliest_s: float
    latest_s: float
    size: float


def find_break(seconds, values, step_s, display_step):
    """The `Break` in `values` (readings,) at `seconds`, or None where none stands out.

    Without a break the record is a slow settling (constant, line, exponentials from its start); with one at p a step or an
    exponential begins there, too. Generalised least squares with the record's own noise; the best of all places and shapes must gain
    `SURE` in F, and its size be plain against the `display_step`. The range holds all places that fit nearly as well (`LIKELY`).
    """
    cells = cut(seconds, [], step_s)
    x, means = cells.times_s, cells.means(values)
    places = _places(seconds, cells, step_s)
    settling = _settling(x, step_s)
    if not len(places) or np.ptp(means) <= DISPLAY_STEPS * display_step or len(x) < settling.shape[1] + 4:
        return None
    at = np.tile(places, len(RISING_S))
    rises = np.concatenate([_rising(x, places, time) for time in RISING_S], axis=1)
    likely = np.argmax(_gains(settling, rises, means)[0])
    noise = learn_noise(noise_grid(x, cells.counts, step_s), np.column_stack([settling, rises[:, likely]]), means)
    gains, left, sizes = _gains(*_whitened(noise, settling, rises, means))
    best = np.argmax(gains)
    size = float(sizes[best] * rises[-1, best])
    if gains[best] * noise.dof <= SURE * left[best] or abs(size) <= DISPLAY_STEPS * display_step:
        return None
    near = at[gains >= gains[best] - LIKELY]
    return Break(float(at[best]), float(near.min()), float(near.max()), size)


def _places(seconds, cells, step_s):
    """Where a break may be looked for: the cells' borders, not too near either end."""
    margin = max(MARGIN_S, MARGIN_CELLS * step_s)
    borders = seconds[cells.starts]
    return borders[(borders >= seconds[0] + margin) & (borders <= seconds[-1] - margin)]


def _settling(x, step_s):
    since = x - x[0]
    falls = [np.exp(-since / time) for time in SETTLING_S if time > step_s]
    return np.stack([np.ones_like(x), since / since[-1], *falls], axis=1)


def _rising(x, places, time):
    """A rise from 0 to 1 that begins at each place: (cells, places)."""
    since = x[:, None] - places
    return np.where(since < 0, 0.0, -np.expm1(-np.maximum(since, 0) / time) if time else 1.0)


def _gains(settling, rises, values):
    """For each rise: what it takes from the residual sum of squares, what it leaves, and how large it comes out. (rises,) each."""
    base, _ = np.linalg.qr(settling)
    left = values - base @ (base.T @ values)
    fresh = rises - base @ (base.T @ rises)
    moments, lengths = fresh.T @ left, (fresh**2).sum(0)
    gains = moments**2 / lengths
    return gains, left @ left - gains, moments / lengths


def _whitened(noise, settling, rises, values):
    """All three, freed of the noise's correlation by one triangular factor."""
    root = np.linalg.cholesky(noise.covariance())
    white = solve_triangular(root, np.column_stack([values, settling, rises]), lower=True)
    return white[:, 1 : 1 + settling.shape[1]], white[:, 1 + settling.shape[1] :], white[:, 0]
