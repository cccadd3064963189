"""The warming curve of one record, from readings to everything the record says about it: one function, four answers."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.cells import within
from kit.statistics.display import display_step, mean_uncertainty
from kit.statistics.misfit import Misfit, misfit_of
from kit.statistics.noise import learn_noise
from kit.statistics.profile import AllowedRises, allowed_rises, joined, without_level
from kit.statistics.quantiles import coverage_factor
from kit.statistics.rise import RiseFit, fit_rise
from kit.statistics.trend import best_trend

# Warming may begin from the change on until this long after it, or twice the length of the perturbation.
LATEST_BEGIN_S = 60.0
# Rounding errors of a display agree while the temperature stays within about this share of its step.
ROUNDED_ALIKE = 0.2
# A part of the variance too small to matter.
NEGLIGIBLE = 1e-4


@dataclass(frozen=True, eq=False)
class Warming:
    """`fit`: the curve of least squares through all readings. `allowed`: all curves that the noise leaves open. `misfit`: how badly one
    rise describes the record. `sd`, `correlation_s`: the noise of a cell (°C) and for how long neighbours agree (s). `dof`: its degrees of
    freedom, and `factor` Student's t of the intervals. `step`: the display's step (°C)."""

    fit: RiseFit
    allowed: AllowedRises
    misfit: Misfit
    sd: float
    correlation_s: float
    dof: int
    factor: float
    step: float


def warming_of(layout, seconds, vessels, edges_s, *, level=0.95, tolerance_c_per_min=0.0):
    """The `Warming` of the difference between two `vessels` (2, readings), °C, at `seconds`, none missing, laid out by `lay_out`.

    `edges_s`: the six edges of the windows. The noise is learnt from the whole record, the curve from the baseline's start on. With a
    `tolerance_c_per_min` all curves are allowed that any drift of the difference up to that leaves open.
    """
    difference = vessels[0] - vessels[1]
    values = layout.cells.means(difference)
    design = layout.designs[int(best_trend(layout.designs, values[:, None])[0])]
    noise = learn_noise(layout.grid, design, values)
    step = float(display_step(vessels).max())
    first = int(layout.cells.times_s.searchsorted(edges_s[0]))
    precision = np.linalg.inv(_with_rounding(noise.covariance(first=first), layout, vessels, step))
    factor, times, seen = coverage_factor(level, noise.dof), layout.cells.times_s[first:], values[first:]
    level_out, drifted = without_level(precision), (times - edges_s[2]) / 60 * tolerance_c_per_min
    ramps = (0.0, drifted, -drifted) if tolerance_c_per_min else (0.0,)
    allowed = joined([allowed_rises(times, seen - ramp, level_out, begins(edges_s), room=factor**2) for ramp in ramps])
    misfit = misfit_of(seen, precision, design[first:], allowed.squares)
    fit = _least_squares(seconds, difference, edges_s)
    return Warming(fit, allowed, misfit, float(noise.sd[0]), float(noise.correlation_s[0]), noise.dof, factor, step)


def begins(edges_s):
    """(earliest, latest) second at which the warming may begin: from the change on, for as long as it may take to arrive."""
    change_s, changed_s, end_s = edges_s[2], edges_s[3], edges_s[5]
    return change_s, change_s + min(max(LATEST_BEGIN_S, 2 * (changed_s - change_s)), (end_s - change_s) / 3)


def _with_rounding(covariance, layout, vessels, step):
    """`covariance` (cells, cells) of the last cells, and what the display leaves in these cells of each vessel.

    A rounding error lasts while the temperature stays where it is and is another one a fraction of a step further; noise that moves
    the readings from step to step averages it out (`mean_uncertainty`).
    """
    for vessel in vessels:
        left = np.mean([mean_uncertainty(vessel[window], step) ** 2 for window in (layout.baseline, layout.response)])
        if left > NEGLIGIBLE * covariance[0, 0]:
            smooth = _smoothed(layout, vessel)[-len(covariance) :]
            covariance = covariance + left * np.exp(-((np.subtract.outer(smooth, smooth) / (ROUNDED_ALIKE * step)) ** 2))
    return covariance


def _smoothed(layout, vessel):
    """The cells of one vessel without their noise, by the trend's terms."""
    basis = np.linalg.qr(layout.designs[0])[0]
    return basis @ (basis.T @ layout.cells.means(vessel))


def _least_squares(seconds, difference, edges_s):
    """The curve through all readings from the baseline on; a delay outside what can be is held at the nearest that can."""
    kept = slice(*within(seconds, edges_s[0], edges_s[5]))
    times, values = seconds[kept], difference[kept]
    free = fit_rise(times, values)
    nearest = float(np.clip(free.delay_s, *begins(edges_s)))
    return free if nearest == free.delay_s else fit_rise(times, values, delay_s=nearest)
