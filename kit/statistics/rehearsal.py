"""Runs rehearsed before they are made: what range would paired effects have, given how a difference wanders?"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from kit.statistics.paired import Question, paired_effects
from kit.statistics.rise import saturating

REHEARSALS, SEED = 60, 20
# The rise that a rehearsed run shows: the usual size and speed of this demonstration (common practice, no source).
RISE_C, TIME_CONSTANT_S = 1.5, 100.0


@dataclass(frozen=True)
class Wander:
    """What the difference between two thermometers does by chance: standard deviation (°C), for how long neighbours agree (s), the
    share of the variance that they do not have in common, the time between readings (s), and the step of each display (°C)."""

    sd_c: float = 0.02
    correlation_s: float = 20.0
    white_share: float = 0.0
    step_s: float = 2.0
    display_c: float = 0.01


@dataclass(frozen=True)
class Timing:
    """Minutes of a run: `quiet` recorded before the change, the `baseline` at their end, `watch` from the change to the middle of the
    response, which lasts as long as the baseline."""

    quiet: float = 10.0
    baseline: float = 1.0
    watch: float = 10.0

    @property
    def edges_s(self):
        """The six edges of the windows, in seconds; the record begins at 0."""
        change, half = self.quiet, self.baseline / 2
        edges = (change - self.baseline, change, change, change + 1, change + self.watch - half, change + self.watch + half)
        return tuple(60 * edge for edge in edges)


@dataclass(frozen=True)
class Rehearsed:
    """What such a run would bring, in the median: standard error of chance (°C), what has to be allowed for drift (°C), the half-width
    of its range (°C), and the degrees of freedom of its noise."""

    error: float
    allowance: float
    half_width: float
    dof: float


@lru_cache(maxsize=64)
def rehearse(wander, timing, question=Question()):
    """`Rehearsed` from 60 runs with that wander and no drift of their own, put through `paired_effects`. The same call gives the same."""
    rng = np.random.default_rng(SEED)
    edges = timing.edges_s
    seconds = np.arange(0, edges[5] + wander.step_s / 2, wander.step_s)
    rise = RISE_C * saturating(seconds, TIME_CONSTANT_S, edges[2])
    # Half of the difference's variance lies in each vessel; each starts somewhere between two steps of its display.
    treated, control = (
        each + _wandering(rng, seconds, wander) / np.sqrt(2) + rng.uniform(0, 1, (REHEARSALS, 1)) for each in (30 + rise, 29 + 0 * rise)
    )
    shown = [np.round(each / wander.display_c) * wander.display_c if wander.display_c else each for each in (treated, control)]
    found = paired_effects(seconds, *shown, edges, question)
    allowance, half_width, error = (float(np.median(each)) for each in (found.bound * found.minutes, found.half_width, found.error))
    return Rehearsed(error, allowance, half_width, float(found.dof[0]))


def _wandering(rng, seconds, wander):
    """Ornstein-Uhlenbeck and white noise, (rehearsals, readings)."""
    fresh = rng.standard_normal((len(seconds), REHEARSALS))
    kept = np.exp(-wander.step_s / wander.correlation_s) if wander.correlation_s else 0.0
    for before, after in zip(fresh, fresh[1:]):
        after *= np.sqrt(1 - kept**2)
        after += kept * before
    white = rng.standard_normal((len(seconds), REHEARSALS))
    return (wander.sd_c * (np.sqrt(1 - wander.white_share) * fresh + np.sqrt(wander.white_share) * white)).T
