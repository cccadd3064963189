"""Where a record takes a new course: one break, looked for everywhere, judged against noise that neighbours share."""

from dataclasses import dataclass

import numpy as np
from scipy.linalg import solve_triangular

from kit.statistics.cells import cut
from kit.statistics.noise import learn_noise, noise_grid

SETTLING_S, RISING_S = (45.0, 135.0, 405.0), (15.0, 45.0, 135.0)
MARGIN_S, MARGIN_CELLS = 60.0, 3
# A search over all places has no F table: in 15 kinds of simulated record without a break the highest F of 375 was 11.
SURE = 15.0
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

    Without a break the record is a slow settling (constant, line, exponentials from its start); with one at p a rise or fall in
    exponentials begins there, too. Generalised least squares with the record's own noise; the best p must gain `SURE` in F, and the size be
    plain against the `display_step`. The range of p holds all whose residual sum of squares is near the best one's (`LIKELY`).
    """
    cells = cut(seconds, [], step_s)
    x, means = cells.times_s, cells.means(values)
    places = _places(seconds, cells, step_s)
    settling, rises = _settling(x, step_s), np.array([_rising(x, place, step_s) for place in places])
    if not len(places) or np.ptp(means) <= DISPLAY_STEPS * display_step or len(x) < settling.shape[1] + rises.shape[2] + 3:
        return None
    likely = np.argmax(_gains(settling, rises, means)[0])
    noise = learn_noise(noise_grid(x, cells.counts, step_s), np.hstack([settling, rises[likely]]), means)
    settling, white, means = _whitened(noise, settling, rises, means)
    gains, left = _gains(settling, white, means)
    best = np.argmax(gains)
    size = _size(settling, white[best], means, rises[best])
    near = places[gains >= gains[best] - LIKELY]
    plain = gains[best] * noise.dof > SURE * rises.shape[2] * left[best] and abs(size) > DISPLAY_STEPS * display_step
    return Break(float(places[best]), float(near[0]), float(near[-1]), size) if plain else None


def _places(seconds, cells, step_s):
    """Where a break may be looked for: the cells' borders, not too near either end."""
    margin = max(MARGIN_S, MARGIN_CELLS * step_s)
    borders = seconds[cells.starts]
    return borders[(borders >= seconds[0] + margin) & (borders <= seconds[-1] - margin)]


def _settling(x, step_s):
    since = x - x[0]
    falls = [np.exp(-since / time) for time in SETTLING_S if time > step_s]
    return np.stack([np.ones_like(x), since / since[-1], *falls], axis=1)


def _rising(x, place, step_s):
    since = np.maximum(x - place, 0)
    return np.stack([-np.expm1(-since / max(time, step_s)) for time in RISING_S if time > step_s or time == RISING_S[-1]], axis=1)


def _gains(settling, rises, values):
    """How much of the residual sum of squares each place's rise takes away, and what it leaves: (places,) each."""
    base, _ = np.linalg.qr(settling)
    left = values - base @ (base.T @ values)
    directions, _ = np.linalg.qr(rises - base @ (base.T @ rises))
    gains = ((np.swapaxes(directions, 1, 2) @ left) ** 2).sum(1)
    return gains, left @ left - gains


def _whitened(noise, settling, rises, values):
    """All three, freed of the noise's correlation by one triangular factor."""
    root = np.linalg.cholesky(noise.covariance())
    columns = np.column_stack([values, settling, *rises])
    white = solve_triangular(root, columns, lower=True, overwrite_b=True)
    terms = settling.shape[1]
    flat = white[:, 1 + terms :].reshape(len(values), len(rises), -1)
    return white[:, 1 : 1 + terms], flat.transpose(1, 0, 2), white[:, 0]


def _size(settling, white, values, rise):
    """By how much the fitted rise lifts the record from the break to its end."""
    terms = np.linalg.lstsq(np.hstack([settling, white]), values, rcond=None)[0]
    lifted = rise @ terms[settling.shape[1] :]
    return float(lifted[np.argmax(np.abs(lifted))])
