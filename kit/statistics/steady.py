"""The slope of a quiet stretch, with an uncertainty that stands noise which neighbours share and a display's steps."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.cells import cut
from kit.statistics.display import hidden_by_display
from kit.statistics.noise import learn_noise, noise_grid
from kit.statistics.quantiles import coverage_factor, one_sided_factor


LEVEL = 0.95
# In under 5 minutes slow noise passes for steadiness too often (7 in 100 at a memory of 60 s, measured).
FEWEST_MIN = 5


@dataclass(frozen=True, eq=False)
class Slopes:
    """One number a run in each array, (runs,): `slope` and its standard uncertainty `error` (unit a minute), `correlation_s` of the noise,
    and the degrees of freedom `dof`, one number for all."""

    slope: np.ndarray
    error: np.ndarray
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
    return Slopes(noise.mean_of(coefficients), np.sqrt(variance + hidden), noise.correlation_s, noise.dof)


def _hidden(seconds, readings, step):
    """The variance that a display of that step hides in the mean of readings about their straight line: (runs,)."""
    line = np.linalg.qr(np.stack([np.ones_like(seconds), seconds], axis=1))[0]
    scatter = (readings - (readings @ line) @ line.T).std(axis=-1)
    return hidden_by_display(scatter, step) ** 2
