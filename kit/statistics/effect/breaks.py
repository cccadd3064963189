"""Where a record takes a new course: breaks, looked for everywhere one after another, judged against noise that neighbours share."""

from dataclasses import dataclass

import numpy as np
from scipy.linalg import solve_triangular

from kit.statistics.readings import cut, learn_noise, noise_grid

SETTLING_S = (45.0, 135.0, 405.0)
RISING_S = (0.0, 15.0, 45.0, 135.0, 405.0)  # 0 is a step
MARGIN_S, MARGIN_CELLS = 60.0, 3
# A search over all places and shapes has no F table. On simulated air runs, 100 of each of 13 kinds, 20 was passed by 2 of 700 where the
# noise is remembered for up to 20 s, by 2 of 200 where vessels are unlike, by 12 of 400 where it is remembered for 1 to 3 min.
SURE = 20.0
LIKELY = 9.21  # chi-squared of 2 degrees at 99 %
DISPLAY_STEPS = 1.5  # a change of one step of the display can be the display's own
MOST_BREAKS = 3
# A step that explains so much more than any rise is a knock; a sine that explains nearly as much as a break comes and goes.
KNOCK, NEARLY = 4.0, 3.0
SHORTEST_PERIOD_S, PERIODS, MANY_CELLS = 300.0, 12, 60


@dataclass(frozen=True)
class Break:
    """A break at `at_s`, somewhere from `earliest_s` to `latest_s` (s), after which the record rises or falls by `size`; `knock`: at once."""

    at_s: float
    earliest_s: float
    latest_s: float
    size: float
    knock: bool = False


def find_break(seconds, values, step_s, display_step):
    """The first that `find_breaks` finds, the plainest of all, or None."""
    return next(iter(find_breaks(seconds, values, step_s, display_step, most=1)), None)


def find_breaks(seconds, values, step_s, display_step, most=MOST_BREAKS):
    """Up to `most` `Break`s in `values` (readings,) at `seconds`, the plainest first; none where nothing stands out.

    Without a break the record is a slow settling (constant, line, exponentials from its start); with one at p a step or an
    exponential begins there, too. Generalised least squares with the record's own noise; the best of all places and shapes must gain
    `SURE` in F, more than a sine of any period does, and its size be plain against the `display_step`. The range holds all places that fit
    nearly as well (`LIKELY`). What is found is taken for granted when the next is looked for.
    """
    cells = cut(seconds, [], step_s)
    x, means = cells.times_s, cells.means(values)
    places, base, found = _places(seconds, cells, step_s), _settling(x, step_s), []
    if not len(places) or np.ptp(means) <= DISPLAY_STEPS * display_step:
        return ()
    grid, middles = noise_grid(x, cells.counts, step_s), (places[1:] + places[:-1]) / 2
    at = np.concatenate([middles, np.tile(places, len(RISING_S))])
    steps = _rising(x, places, 0)
    # A step in mid-cell lifts half of it, as a quick rise would; so steps are looked for there, too.
    rises = np.concatenate([(steps[:, 1:] + steps[:, :-1]) / 2, steps, *(_rising(x, places, time) for time in RISING_S[1:])], axis=1)
    for _ in range(most):
        if len(x) < base.shape[1] + 4:
            break
        one, column = _plainest(x, grid, (base, rises, at, len(middles) + len(places)), means)
        if one is None or abs(one.size) <= DISPLAY_STEPS * display_step:
            break
        found.append(one)
        base = np.column_stack([base, column])
    return tuple(found)


def _plainest(x, grid, shapes, means):
    """The plainest `Break` beyond the base and its column, or (None, None). `shapes`: base, rises (cells, rises), where each
    begins, and how many of them, the first, are steps."""
    base, rises, at, steps = shapes
    likely = np.argmax(_gains(base, rises, means)[0])
    noise = learn_noise(grid, np.column_stack([base, rises[:, likely]]), means)
    waves = _waves(x)
    white_base, white, white_means = _whitened(noise, base, np.column_stack([rises, waves]), means)
    gains, left, sizes = _gains(white_base, white[:, : rises.shape[1]], white_means)
    best = np.argmax(gains)
    if gains[best] * noise.dof <= SURE * left[best] or _swings(white_base, white[:, rises.shape[1] :], white_means, gains[best]):
        return None, None
    near = at[gains >= gains[best] - LIKELY]
    knock = best < steps and gains[best] > gains[steps:].max() + KNOCK
    size = float(sizes[best] * rises[-1, best])
    return Break(float(at[best]), float(near.min()), float(near.max()), size, bool(knock)), rises[:, best]


def _swings(base, waves, values, gain):
    """Does a wave explain nearly as much as the break? In few cells, read by hand, only if it explains more."""
    return _best_wave(base, waves, values) > gain - (NEARLY if len(values) >= MANY_CELLS else 0)


def _waves(x):
    """Sines and cosines of several periods, from five minutes to the record's length, (cells, 2 periods)."""
    span = x[-1] - x[0]
    turns = np.linspace(1, max(span / SHORTEST_PERIOD_S, 1), PERIODS)
    phases = 2 * np.pi * (x[:, None] - x[0]) / span * turns
    return np.stack([np.sin(phases), np.cos(phases)], axis=2).reshape(len(x), -1)


def _best_wave(base, waves, values):
    """The most that one of the waves takes from the residual sum of squares."""
    beyond, _ = np.linalg.qr(base)
    left = values - beyond @ (beyond.T @ values)
    fresh = waves - beyond @ (beyond.T @ waves)
    return max(float(((np.linalg.qr(pair)[0].T @ left) ** 2).sum()) for pair in np.split(fresh, fresh.shape[1] // 2, axis=1))


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
