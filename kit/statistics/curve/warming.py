"""The warming curve of one record: the way of its difference without a formula, and one saturating rise drawn through it, to look at."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.curve.course import course_of, DifferenceCourse
from kit.statistics.curve.misfit import Misfit, misfit_of, Wave, wave_in
from kit.statistics.curve.rise import fit_rise, RiseFit
from kit.statistics.readings import display_step, mean_uncertainty, within

# Warming may begin from the change on until this long after it, or twice the length of the perturbation.
LATEST_BEGIN_S = 60.0
# Rounding errors of a display agree while the temperature stays within about this share of its step.
ROUNDED_ALIKE = 0.2
# A part of the variance too small to matter.
NEGLIGIBLE = 1e-4


@dataclass(frozen=True, eq=False)
class Warming:
    """`course`: the way of the difference. `drawn`: one rise of least squares through all readings, to be looked at. `misfit`: how badly that
    describes the record; `wave`: what swings in what it leaves. `sd`, `correlation_s`: the noise of a cell (°C) and for how long neighbours
    agree (s)."""

    course: DifferenceCourse
    drawn: RiseFit
    misfit: Misfit
    wave: Wave
    sd: float
    correlation_s: float


def warming_of(layout, seconds, vessels, edges_s, one):
    """The `Warming` of the difference between two `vessels` (2, readings), °C, at `seconds`, none missing, laid out by `lay_out`.

    `edges_s`: the six edges of the windows. `one`: the `SingleEffect` of the same record. The noise is learnt from the whole record, the rise
    laid from the baseline's start on.
    """
    course, times = course_of(layout, one.seen, one.found, one.level), layout.cells.times_s
    first = int(times.searchsorted(edges_s[0] - (times[1] - times[0]) / 2))
    step, values = float(display_step(vessels).max()), course.cells[first:]
    if one.jump:
        values = values - one.jump.size * one.jump.shape[first:]
    covariance = _with_rounding(course.covariance[first:, first:], layout, vessels, step)
    misfit = misfit_of(times[first:], values, covariance, one.seen.design[first:], begins(edges_s))
    drawn = _least_squares(seconds, vessels[0] - vessels[1], edges_s)
    wave = wave_in(times[first:], course.cells[first:] - drawn.at(times[first:]))
    return Warming(course, drawn, misfit, wave, float(one.seen.noise.sd[0]), float(one.seen.noise.correlation_s[0]))


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
