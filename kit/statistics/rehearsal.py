"""Runs rehearsed before they are made: what range would paired effects have, given how a difference wanders?"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.special import ndtr

from kit.statistics.curve import saturating
from kit.statistics.effect import paired_effects, Terms
from kit.statistics.ranges import chance_of_telling, drifted_range, half_width, one_sided_factor, seldom_more
from kit.statistics.readings import within

REHEARSALS, SEED = 60, 20
# So large a part of plans shall keep what they promise.
MOST, NEARLY_ALL = 0.8, 0.85
# A class takes the largest of three standard errors, which is seldom the smallest possible; found on simulated classes.
LARGEST_OF_THREE = 1.35
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


@dataclass(frozen=True, eq=False)
class Rehearsed:
    """What such runs brought, (rehearsals,) each, °C: `off`, how far the value lay from the truth and the drift; `error`, its standard
    uncertainty; `drift_low`, `drift_high`, what is allowed for drift; `slope`, `slope_error`, the drift measured beforehand, both carried over
    to the response; `measured`, whether it was. `drift` ± is what the runs did drift, half of them each way (°C); `allowed`, what the tolerance
    makes; `dof` the degrees of freedom."""

    off: np.ndarray
    error: np.ndarray
    drift_low: np.ndarray
    drift_high: np.ndarray
    slope: np.ndarray
    slope_error: np.ndarray
    measured: np.ndarray
    drift: float
    allowed: float
    dof: float

    @property
    def allowance(self):
        """How far drift may have moved the value at most, in the median, °C."""
        return float(np.median(np.maximum(-self.drift_low, self.drift_high)))

    def promised(self, runs, swapped, spread, level=0.95):
        """The half-width (°C) that the mean of so many `runs` stays under in 4 of 5 plans; they differ by `spread` (°C) beyond their noise.

        One run: its range for the set-up, so that the spread counts. Several: what `kit.analysis.classes` will allow for. Checked against simulated
        classes.
        """
        if runs == 1:
            halves = half_width(np.hypot(self.error, spread), self.dof, (self.drift_high - self.drift_low) / 2, level)
            return float(np.quantile(halves, MOST))
        error, dof = self.of_mean(runs, swapped, spread)
        error = max(error * seldom_more(dof, NEARLY_ALL), LARGEST_OF_THREE * float(np.median(self.error)) / runs**0.5)
        return float(half_width(error, dof, 0.0 if swapped else self._allowed_for(runs, NEARLY_ALL), level))

    def chance(self, effect, runs, swapped, spread, level=0.95):
        """How likely the range of the mean lies off zero for a true `effect` (°C, number or array)."""
        if runs == 1:
            low, _ = drifted_range(self.off + self._drifted, self.error, self.dof, (self.drift_low, self.drift_high), level)
            return ndtr((np.asarray(effect, float)[..., None] + low) / max(spread, 1e-9)).mean(-1)
        error, dof = self.of_mean(runs, swapped, spread)
        if swapped:
            return chance_of_telling(effect, error, dof, level=level)
        bias = self._allowed_for(runs, 0.5)
        return sum(chance_of_telling(effect, error, dof, bias=bias - way * self.drift, level=level) for way in (-0.75, 0.75)) / 2

    def of_mean(self, runs, swapped, spread):
        """(standard error in truth, degrees of freedom) of a mean of so many runs."""
        return float(np.hypot(self.off.std(ddof=1), spread)) / runs**0.5, runs - 2 if swapped else runs - 1

    def _allowed_for(self, runs, share):
        """Half of the set of drifts that a class will allow for, °C: averaged where enough runs measured it, else each run's own."""
        part = float(self.measured.mean())
        spare = part * runs - 1
        if spare < 2:
            return float((self.drift_high - self.drift_low).mean() / 2)
        own = (self.slope - self._drifted)[self.measured]
        seen = max(own.std(ddof=1) * seldom_more(spare, share), float(np.median(self.slope_error[self.measured])))
        averaged = one_sided_factor(0.95, spare) * seen / (part * runs) ** 0.5 + 0.75 * self.drift
        return part * averaged + (1 - part) * self.allowed

    @property
    def _drifted(self):
        return self.drift * np.where(np.arange(len(self.off)) % 2, -1, 1)


@lru_cache(maxsize=64)
def rehearse(wander, timing, question=Terms(), drift_c_per_min=0.0):
    """`Rehearsed` from 60 runs with that wander, half drifting by `drift_c_per_min` and half against it, put through `paired_effects`.

    The same call gives the same.
    """
    rng = np.random.default_rng(SEED)
    edges = timing.edges_s
    seconds = np.arange(0, edges[5] + wander.step_s / 2, wander.step_s)
    rise = RISE_C * saturating(seconds, TIME_CONSTANT_S, edges[2])
    ways = np.where(np.arange(REHEARSALS) % 2, -1, 1)[:, None]
    moved = drift_c_per_min * ways * seconds / 60
    # Half of the difference's variance lies in each vessel; each starts somewhere between two steps of its display.
    treated, control = (
        each + _wandering(rng, seconds, wander) / np.sqrt(2) + rng.uniform(0, 1, (REHEARSALS, 1)) for each in (30 + rise + moved, 29 + 0 * rise)
    )
    shown = [np.round(each / wander.display_c) * wander.display_c if wander.display_c else each for each in (treated, control)]
    found = paired_effects(seconds, *shown, edges, question)
    minutes, true = float(found.minutes[0]), window_change(rise, seconds, edges)
    drift = drift_c_per_min * minutes
    return Rehearsed(
        found.value - true - drift * ways[:, 0], found.error, found.drift_low * minutes, found.drift_high * minutes, found.slope * minutes,
        found.slope_error * minutes, found.measured & ~found.bent, drift, question.tolerance_c_per_min * minutes, float(np.median(found.dof)),
    )  # fmt: skip


def window_change(values, seconds, edges_s):
    """Mean of `values` (readings,) in the response less that in the baseline."""
    baseline, response = (slice(*within(seconds, *pair)) for pair in (edges_s[:2], edges_s[4:]))
    return float(values[response].mean() - values[baseline].mean())


def _wandering(rng, seconds, wander):
    """Ornstein-Uhlenbeck and white noise, (rehearsals, readings)."""
    fresh = rng.standard_normal((len(seconds), REHEARSALS))
    kept = np.exp(-wander.step_s / wander.correlation_s) if wander.correlation_s else 0.0
    for before, after in zip(fresh, fresh[1:]):
        after *= np.sqrt(1 - kept**2)
        after += kept * before
    white = rng.standard_normal((len(seconds), REHEARSALS))
    return (wander.sd_c * (np.sqrt(1 - wander.white_share) * fresh + np.sqrt(wander.white_share) * white)).T
