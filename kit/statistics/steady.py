"""The slope of a quiet stretch, with an uncertainty that stands noise which neighbours share and a display's steps."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.ranges import coverage_factor, one_sided_factor
from kit.statistics.readings import cut, hidden_by_display, learn_noise, noise_grid


LEVEL = 0.95
# In under 5 minutes slow noise passes for steadiness too often (7 in 100 at a memory of 60 s, measured).
FEWEST_MIN = 5
# Nobody waits longer than this; looks are compared at every quarter of a minute.
LONGEST_MIN, EVERY_MIN = 80.0, 0.25
# A slope of so many standard uncertainties may well be there; a smaller one shrinks as it is seen better.
PLAIN = 1.5
# A correlation time that is hardly seen in a short stretch may be longer: so much is added to the variance, times it over the stretch;
# to what a display hides no more than the second.
UNSEEN, COARSE = 10.0, 1.3


@dataclass(frozen=True, eq=False)
class Slopes:
    """One number a run in each array, (runs,): `slope` and its standard uncertainty `error` (unit a minute), of which `hidden` is what the
    display's steps leave, `correlation_s` of the noise, and the degrees of freedom `dof`, one number for all."""

    slope: np.ndarray
    error: np.ndarray
    hidden: np.ndarray
    correlation_s: np.ndarray
    dof: int

    @property
    def at_most(self):
        """The drift that a run stays under at 95 %, one-sided."""
        return abs(self.slope) + one_sided_factor(LEVEL, self.dof) * self.error

    def steady(self, tolerance, over_min):
        """Which runs are surely (95 %) below the tolerance, after enough minutes to call anything steady."""
        return (self.at_most < tolerance) & (over_min >= FEWEST_MIN)

    def drifting(self, tolerance):
        """Which runs are surely (97.5 %) beyond the tolerance."""
        return abs(self.slope) - coverage_factor(LEVEL, self.dof) * self.error > tolerance


def slopes(seconds, channels, steps):
    """`Slopes` of the first of `channels` less the second, or of one alone: each (runs, readings) at `seconds`, none missing, 4 cells or more.

    `steps`: the display's step of each channel, from more than this stretch: a quiet one may not show it.

    Generalised least squares at each point of the noise grid: its variance, and how far the points disagree. A display adds
    what its steps hide in half of the stretch, as seen from half a stretch away.
    """
    step_s = float(np.median(np.diff(seconds)))
    cells = cut(seconds, [], step_s)
    minutes = cells.times_s / 60
    design = np.stack([np.ones_like(minutes), minutes - minutes.mean()], axis=1)
    noise = learn_noise(noise_grid(cells.times_s, cells.counts, step_s), design, cells.means(channels[0] - sum(channels[1:])).T)
    coefficients = noise.coefficients[:, 1]
    variance = noise.spread_of(coefficients, noise.variances * noise.unscaled[:, 1, 1, None])
    hidden = sum(_hidden(seconds, *each) for each in zip(channels, steps)) * (2 / np.ptp(seconds / 60)) ** 2
    return Slopes(noise.mean_of(coefficients), np.sqrt(variance + hidden), np.sqrt(hidden) + 0 * variance, noise.correlation_s, noise.dof)


def _hidden(seconds, readings, step):
    """The variance that a display of that step hides in the mean of readings about their straight line: (runs,)."""
    line = np.linalg.qr(np.stack([np.ones_like(seconds), seconds], axis=1))[0]
    scatter = (readings - (readings @ line) @ line.T).std(axis=-1)
    return hidden_by_display(scatter, step) ** 2


def wait_for_steady(found, over_min, tolerance, settling_min=None):
    """(soonest, surely): how many more minutes until a stretch, perhaps a longer one, is called steady; None where nobody can say.

    `found`: the `Slopes` of one run over `over_min` minutes. The first where there is no drift at all, the second as often as nine times in ten.
    Watched for n minutes the random part of the slope's variance falls as n^-3 and what a display hides as n^-2; a drift that is hidden by
    noise shrinks as it is seen better, one that is plainly there stays, or dies away with the time constant `settling_min` (minutes).
    """
    waits, longer = np.meshgrid(*[np.arange(0, LONGEST_MIN - over_min + EVERY_MIN, EVERY_MIN)] * 2, indexing="ij")
    minutes = over_min + longer
    shorter = over_min / minutes
    slope, error, hidden = (abs(each[0].item()) for each in (found.slope, found.error, found.hidden))
    random = max(error**2 - hidden**2, 0.0)
    unseen = 1 + UNSEEN * found.correlation_s[0].item() / (60 * over_min)
    reaches = [np.sqrt(random * times * shorter**3 + hidden**2 * min(times, COARSE) * shorter**2) for times in (1, unseen)]
    drift = slope * _settled(waits, longer, over_min, settling_min) if slope > PLAIN * error else max(slope, random**0.5) * shorter**1.5
    factor, may = one_sided_factor(LEVEL, found.dof), (longer <= waits) & (minutes >= FEWEST_MIN)
    enough = [may & (each + factor * reach < tolerance) for each, reach in ((0 if slope <= PLAIN * error else drift, reaches[0]), (drift, reaches[1]))]
    return tuple(float(waits[each].min()) for each in enough) if enough[1].any() else None


def _settled(waits, longer, over_min, settling_min):
    """What is left of a slope after a wait, seen over a stretch that is so much longer; 1 where it shows no end."""
    if settling_min is None:
        return 1.0
    return np.exp((longer / 2 - waits) / settling_min) * _bulge((over_min + longer) / settling_min) / _bulge(over_min / settling_min)


def _bulge(stretches):
    """How much more an exponential falls on average over a stretch, in time constants, than its slope in the middle says."""
    return np.sinh(stretches / 2) / (stretches / 2)
