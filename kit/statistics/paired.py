"""How much more one of two vessels changed than the other, with an interval that stands noise, display, calibration and drift.

The value stays the plain difference of window means; nothing is subtracted for drift. The noise is learnt from the whole record,
because the minute of a baseline holds one to six independent looks and no formula finds the long-run variance in them.
"""

from dataclasses import dataclass

import numpy as np

from kit.statistics.cells import Cells, cut, within
from kit.statistics.display import display_step, mean_uncertainty
from kit.statistics.noise import NoiseGrid, generalised_slope, learn_noise, noise_grid
from kit.statistics.quantiles import coverage_factor, one_sided_factor, widened_factor
from kit.statistics.trend import best_trend, rising_trends, settling_trends

# Earlier readings than this before the change tell of the lamp's own warming more than of noise and drift.
EARLIER_S = 600.0
SHORT_S, FEWEST_DOF = 240.0, 3


@dataclass(frozen=True)
class Question:
    """What an interval has to hold: its level, the drift of the difference to allow for (°C a minute) where the record can't
    measure it, the relative uncertainty of each scale against the other, and the display's step (°C; None: read it off)."""

    level: float = 0.95
    tolerance_c_per_min: float = 0.01
    gain_uncertainty: float = 0.0
    resolution_c: float | None = None


@dataclass(frozen=True, eq=False)
class PairedEffects:
    """One number a run in each array, (runs,). °C, and °C a minute for the drift.

    `value` ± `half_width` is the interval; `error` its standard uncertainty without the drift; `noise`, `display`, `gain` the parts
    of that. `drift` with `drift_error` is the slope of the difference before the change, `bound` what is allowed for it, `measured`
    says whether the record or the tolerance set that bound. `sd`, `correlation_s` and `white_share` describe the noise of a cell.
    `minutes` lie between the windows' middles; `dof` are the degrees of freedom of the noise.
    """

    value: np.ndarray
    half_width: np.ndarray
    error: np.ndarray
    noise: np.ndarray
    display: np.ndarray
    gain: np.ndarray
    drift: np.ndarray
    drift_error: np.ndarray
    bound: np.ndarray
    measured: np.ndarray
    sd: np.ndarray
    correlation_s: np.ndarray
    white_share: np.ndarray
    minutes: np.ndarray
    dof: np.ndarray


@dataclass(frozen=True, eq=False)
class Layout:
    """What times and windows settle before any temperature is looked at.

    `before`: the noise grid of the cells before the change. `minutes` between the windows' middles. `spread` (points,): variance of
    the effect where a cell's own is 1.
    """

    cells: Cells
    grid: NoiseGrid
    before: NoiseGrid
    designs: np.ndarray
    baseline: slice
    response: slice
    minutes: float
    spread: np.ndarray


def paired_effects(seconds, treated, control, edges_s, question=Question()):
    """`PairedEffects` of runs that share their times: `seconds` (readings,), `treated` and `control` (runs, readings) in °C, none missing.

    `edges_s`: the six edges of baseline, perturbation and response, in order, seconds; a reading on an edge lies in the window.
    Each window must hold a reading, and the record (from 10 minutes before the perturbation) three cells more than its trend has terms.
    """
    kept = heard(seconds, edges_s)
    return effects_of(lay_out(seconds[kept], edges_s), treated[..., kept], control[..., kept], question)


def heard(seconds, edges_s):
    """Which readings count: those from 10 minutes before the perturbation, or from the baseline's start, to the response's end."""
    return slice(*within(seconds, min(edges_s[0], edges_s[2] - EARLIER_S), edges_s[5]))


def effects_of(layout, treated, control, question):
    """`PairedEffects` of readings (runs, readings) that have this layout."""
    changes = [change(layout, vessel) for vessel in (treated, control)]
    steps = display_steps(treated, control) if question.resolution_c is None else (question.resolution_c,) * 2
    display = np.sqrt(sum(_hidden(layout, *each) for each in zip((treated, control), steps)))
    gain = question.gain_uncertainty * np.hypot(*changes)
    learnt = _learnt(layout, layout.cells.means(treated - control).T, display)
    return _allowed(layout, changes[0] - changes[1], (display, gain, *learnt), question)


def vessel_changes(layout, vessels, question):
    """How much each of `vessels` (vessels, readings) changed by itself (°C), its standard uncertainty, its coverage factor: (vessels,) each.

    Noise, display and calibration count; there is no drift to allow for, as the vessel's whole change is what is asked.
    """
    designs = settling_trends(layout.cells.times_s, layout.designs)
    changes, values = change(layout, vessels), layout.cells.means(vessels).T
    hidden = _hidden(layout, vessels, display_step(vessels) if question.resolution_c is None else question.resolution_c)
    variance, trends = np.empty_like(changes), best_trend(designs, values)
    for trend in np.unique(trends):
        alike = trends == trend
        noise = learn_noise(layout.grid, designs[trend], values[:, alike])
        variance[alike] = noise.mean_of(np.maximum(noise.variances * layout.spread[:, None], hidden[alike]))
    error = np.hypot(np.sqrt(variance), question.gain_uncertainty * changes)
    return changes, error, np.full_like(error, coverage_factor(question.level, len(values) - designs.shape[2] - 1))


def lay_out(seconds, edges_s):
    """The `Layout` of a record at `seconds` (ascending) with windows at `edges_s`."""
    step_s, change_s = float(np.median(np.diff(seconds))), edges_s[2]
    windows = [within(seconds, *edges_s[:2]), within(seconds, *edges_s[4:])]
    changed = within(seconds, seconds[0], change_s)[1]
    cells = cut(seconds, [*np.ravel(windows), changed], step_s)
    grid = noise_grid(cells.times_s, cells.counts, step_s)
    shares = [_share(cells, *window) for window in windows]
    contrast = shares[1] - shares[0]
    return Layout(
        cells, grid, grid.first(int((cells.starts < changed).sum())), rising_trends(cells.times_s, change_s, step_s),
        slice(*windows[0]), slice(*windows[1]), contrast @ cells.times_s / 60, grid.variance_of(contrast),
    )  # fmt: skip


def change(layout, vessel):
    """Mean in the response minus mean in the baseline of `vessel` (runs, readings): (runs,)."""
    return vessel[..., layout.response].mean(-1) - vessel[..., layout.baseline].mean(-1)


def display_steps(treated, control):
    """The display's step of both vessels, (runs,) each. One that never changed is taken to have the other's step."""
    steps = display_step(treated), display_step(control)
    return [np.where(own > 0, own, other) for own, other in (steps, steps[::-1])]


def stuck(layout, treated, control):
    """In which runs a thermometer shows one value throughout, although noise moves the other one from step to step: (runs,)."""
    return still(layout, treated, control) | still(layout, control, treated)


def still(layout, vessel, other):
    """In which runs `vessel` shows one value although the `other` is moved by noise, or itself shows but one: (runs,)."""
    moved = np.maximum(*(other[..., window].std(axis=-1) for window in (layout.baseline, layout.response)))
    return (np.ptp(vessel, axis=-1) == 0) & ((moved > display_step(other)) | (np.ptp(other, axis=-1) == 0))


def _share(cells, first, last):
    inside = (cells.starts >= first) & (cells.starts < last)
    return inside * cells.counts / (last - first)


def _hidden(layout, vessel, step):
    """The display's part in the variance of a change of one vessel: (runs,)."""
    return sum(mean_uncertainty(vessel[..., window], step) ** 2 for window in (layout.baseline, layout.response))


def _learnt(layout, values, display):
    """From cells (cells, runs): variance of the effect, drift and its variance, sd, correlation and white share of the noise, dof."""
    trends = best_trend(layout.designs, values)
    learnt = np.empty((7, values.shape[1]))
    for trend in np.unique(trends):
        alike = trends == trend
        learnt[:, alike] = _with_trend(layout, layout.designs[trend], values[:, alike], display[alike])
    return learnt


def _with_trend(layout, design, values, display):
    noise = learn_noise(layout.grid, design, values)
    # The residuals already hold most of the display's part: the larger of the two counts, not their sum.
    variance = noise.mean_of(np.maximum(noise.variances * layout.spread[:, None], display**2))
    drift, drift_variance = _drift(layout, noise, values, display)
    return variance, drift, drift_variance, noise.sd, noise.correlation_s, noise.white_share, few_looks(layout, noise)


def few_looks(layout, noise):
    """Degrees of freedom of the noise: those of the cells, but few where a record of a few minutes meets slow noise, (runs,).

    The record over its correlation time, growing as the fourth power beyond `SHORT_S`: found so that records of 3 to 6 minutes hold their
    level under noise of 5 to 60 s, and those of the usual 11 minutes stay as they are.
    """
    length_s = np.ptp(layout.cells.times_s)
    return np.clip(length_s / noise.correlation_s * (length_s / SHORT_S) ** 4, min(FEWEST_DOF, noise.dof), noise.dof)


def _drift(layout, noise, values, display):
    """Slope of the difference before the change, °C a minute, and its variance; unknown where there are not two cells to see it in."""
    minutes = layout.before.times_s / 60
    if len(minutes) < 2:
        return np.zeros_like(display), np.full_like(display, np.inf)
    slopes, unscaled = generalised_slope(layout.before, minutes, values[: len(minutes)])
    variance = noise.spread_of(slopes, noise.variances * unscaled[:, None])
    return noise.mean_of(slopes), variance + (display / np.ptp(minutes)) ** 2


def _allowed(layout, value, parts, question):
    display, gain, variance, drift, drift_variance, *described, dof = parts
    error, drift_error = np.sqrt(variance + gain**2), np.sqrt(drift_variance)
    reach = one_sided_factor(question.level, dof) * drift_error
    measured = (reach <= question.tolerance_c_per_min) | (abs(drift) - reach > question.tolerance_c_per_min)
    bound = np.where(measured, abs(drift) + reach, question.tolerance_c_per_min)
    minutes = np.full_like(value, layout.minutes)
    scale = np.maximum(error * coverage_factor(question.level, dof) / coverage_factor(question.level), np.finfo(float).tiny)
    half_width = scale * widened_factor(bound * minutes / scale, question.level)
    noise = np.sqrt(np.maximum(variance - display**2, 0))
    return PairedEffects(value, half_width, error, noise, display, gain, drift, drift_error, bound, measured, *described, minutes, dof)
