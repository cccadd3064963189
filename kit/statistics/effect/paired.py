"""How much more one of two vessels changed than the other, with an interval that holds against noise, display, calibration and drift.

The value stays the plain difference of window means; nothing is subtracted for drift. The noise is learnt from the whole record,
because the minute of a baseline holds one to six independent readings and no formula finds the long-run variance in them.
"""

from dataclasses import dataclass, fields

import numpy as np

from kit.estimate import Parts
from kit.statistics.ranges import drift_set, drifted_range, early_course
from kit.statistics.readings import best_trend, change, display_step, heard, hidden_of_change, lay_out, learn_noise, Noise

SHORT_S, FEWEST_DOF = 240.0, 3
# A course before the change that leaves its line by no more than this many times what the displays hide is none of the record's own.
STAIRS = 3.0


@dataclass(frozen=True)
class Terms:
    """What an interval has to hold: its level, the drift of the difference to allow for (°C a minute) where the record can't
    measure it, the relative uncertainty of each scale against the other, and the display's step (°C; None: read it off)."""

    level: float = 0.95
    tolerance_c_per_min: float = 0.01
    gain_uncertainty: float = 0.0
    resolution_c: float | None = None


@dataclass(frozen=True, eq=False)
class PairedEffects:
    """One number a run in each array, (runs,). The interval is `low` to `high`; it lies lopsided about `value` where a drift was measured."""

    value: np.ndarray  # mean in the response less mean in the baseline of the difference, °C
    low: np.ndarray  # °C
    high: np.ndarray  # °C
    error: np.ndarray  # standard uncertainty without the drift, °C
    noise: np.ndarray  # the part of `error` that is chance, °C
    display: np.ndarray  # the part of `error` that the display's step hides, °C
    gain: np.ndarray  # the part of `error` that the thermometers' scales leave, °C
    slope: np.ndarray  # of the difference before the change, °C a minute
    slope_error: np.ndarray  # its standard uncertainty, °C a minute; infinite where nothing was seen
    drift_low: np.ndarray  # the least drift that the interval holds for, °C a minute
    drift_high: np.ndarray  # the largest, °C a minute
    measured: np.ndarray  # did the record set these two, or the tolerance?
    bent: np.ndarray  # was the record before the change no straight line?
    swing: np.ndarray  # from the lowest to the highest minute before the change, °C
    sd: np.ndarray  # standard deviation of a cell of mean size, °C
    correlation_s: np.ndarray  # for how long readings agree by chance, s
    white_share: np.ndarray  # the share of the variance that neighbours do not have in common
    minutes: np.ndarray  # between the windows' middles
    dof: np.ndarray  # degrees of freedom of the noise

    @property
    def half_width(self):
        """Half the length of the interval, °C."""
        return (self.high - self.low) / 2

    def parts_at(self, run):
        """The `Parts` of one run's effect. A drift that was measured along a straight line is carried over to the response."""
        one = {name: values[run].item() for name, values in vars(self).items()}
        chance, minutes = max(one["error"] ** 2 - one["gain"] ** 2, 0.0) ** 0.5, one["minutes"]
        carried = (one["slope"] * minutes, one["slope_error"] * minutes) if one["measured"] and not one["bent"] else (0.0, np.inf)
        return Parts(chance, one["dof"], one["gain"], one["drift_low"] * minutes, one["drift_high"] * minutes, *carried)


@dataclass(frozen=True, eq=False)
class Learnt:
    """What the cells of records say about their noise and drift, (runs,) each; for the names see `PairedEffects`. `variance`: of the effect
    by chance, °C². `bend`: what a parabola and a cubic explain before the change beyond a line, half of a chi-squared of 2 degrees."""

    variance: np.ndarray
    slope: np.ndarray
    slope_error: np.ndarray
    bend: np.ndarray
    swing: np.ndarray
    sd: np.ndarray
    correlation_s: np.ndarray
    white_share: np.ndarray
    dof: np.ndarray


def paired_effects(seconds, treated, control, edges_s, question=Terms()):
    """`PairedEffects` of runs that share their times: `seconds` (readings,), `treated` and `control` (runs, readings) in °C, none missing.

    `edges_s`: the six edges of baseline, perturbation and response, in order, seconds; a reading on an edge lies in the window.
    Each window must hold a reading, and the record (from 10 minutes before the perturbation) three cells more than its trend has terms.
    """
    kept = heard(seconds, edges_s)
    return effects_of(lay_out(seconds[kept], edges_s), treated[..., kept], control[..., kept], question)


def effects_of(layout, treated, control, question):
    """`PairedEffects` of readings (runs, readings) that have this layout."""
    return judged(layout, (treated, control), noises(layout, layout.cells.means(treated - control).T), question)


@dataclass(frozen=True, eq=False)
class Seen:
    """Some runs with the same `trend` (its place among the designs): which of all (`runs`), their cells `values` (cells, runs), the `design`
    (cells, terms) that was taken out and the `noise` that is left. `shape` (cells,): a jump or a bump among the terms, or None."""

    runs: np.ndarray
    trend: int
    values: np.ndarray
    design: np.ndarray
    noise: Noise
    shape: np.ndarray | None = None


def noises(layout, values, shape=None):
    """A list of `Seen` for `values` (cells, runs): one for each trend that fits some runs best. `shape` (cells,): a term that no warming has."""
    trends, found = best_trend(layout.designs, values), []
    for trend in np.unique(trends):
        runs, design = np.flatnonzero(trends == trend), layout.designs[trend]
        design = design if shape is None else np.column_stack([design, shape])
        found.append(Seen(runs, int(trend), values[:, runs], design, learn_noise(layout.grid, design, values[:, runs]), shape))
    return found


def judged(layout, vessels, seen, question):
    """`PairedEffects` of both `vessels` (runs, readings) once their noise was `seen`."""
    changes = [change(layout, vessel) for vessel in vessels]
    steps = display_steps(*vessels) if question.resolution_c is None else (question.resolution_c,) * 2
    display = np.sqrt(sum(hidden_of_change(layout, *each) for each in zip(vessels, steps)))
    gain = question.gain_uncertainty * np.hypot(*changes)
    learnt = _gathered([_learnt(layout, each, display[each.runs]) for each in seen], np.argsort(np.concatenate([each.runs for each in seen])))
    return _allowed(layout, changes[0] - changes[1], (display, gain), learnt, question)


def display_steps(treated, control):
    """The display's step of both vessels, (runs,) each. One that never changed is taken to have the other's step."""
    steps = display_step(treated), display_step(control)
    return [np.where(own > 0, own, other) for own, other in (steps, steps[::-1])]


def _learnt(layout, seen, display):
    noise = seen.noise
    # The residuals already hold most of the display's part: the larger of the two counts, not their sum.
    variance = noise.mean_of(np.maximum(noise.variances * layout.spread[:, None], display**2))
    return Learnt(variance, *_before(layout, seen, display), noise.sd, noise.correlation_s, noise.white_share, few_looks(layout, noise))


def few_looks(layout, noise):
    """Degrees of freedom of the noise: those of the cells, but few where a record of a few minutes meets slow noise, (runs,).

    The record over its correlation time, growing as the fourth power beyond `SHORT_S`: found so that records of 3 to 6 minutes hold their
    level under noise of 5 to 60 s, and those of the usual 11 minutes stay as they are.
    """
    length_s = np.ptp(layout.cells.times_s)
    return np.clip(length_s / noise.correlation_s * (length_s / SHORT_S) ** 4, min(FEWEST_DOF, noise.dof), noise.dof)


def _before(layout, seen, display):
    """Slope before the change, its standard uncertainty, bend and swing; no slope and no bend where there are not two cells to see it in."""
    noise, minutes = seen.noise, layout.before.times_s / 60
    nothing = np.zeros_like(display)
    if len(minutes) < 2:
        return nothing, np.full_like(display, np.inf), nothing, nothing
    values, shape = seen.values[: len(minutes)], None if seen.shape is None else seen.shape[: len(minutes)]
    course = early_course(layout.before, minutes, values, shape)
    variance = noise.spread_of(course.slopes, noise.variances * course.unscaled[:, None]) + (display / np.ptp(minutes)) ** 2
    if not len(layout.by_minute):
        return noise.mean_of(course.slopes), np.sqrt(variance), nothing, nothing
    jump = 0 if shape is None else shape[:, None] * noise.mean_of(noise.coefficients[:, -1])
    means, line = layout.by_minute @ (values - jump), np.linalg.qr(np.column_stack([np.ones(len(layout.by_minute)), layout.by_minute @ minutes]))[0]
    # The steps of a coarse display make stairs of a slope; they are no bend.
    seen_beside = np.ptp(means - line @ (line.T @ means), axis=0) > STAIRS * display
    bend = noise.mean_of(course.bends / noise.variances) * seen_beside
    return noise.mean_of(course.slopes), np.sqrt(variance), bend, np.ptp(means, axis=0)


def _gathered(several, order):
    """One `Learnt` from several, with the runs in `order`."""
    return Learnt(**{each.name: np.concatenate([getattr(part, each.name) for part in several])[order] for each in fields(Learnt)})


def _allowed(layout, value, known, learnt, question):
    display, gain = known
    minutes, error = np.full_like(value, layout.minutes), np.sqrt(learnt.variance + gain**2)
    drift = drift_set(learnt, learnt.dof, minutes, question)
    low, high = drifted_range(value, error, learnt.dof, (drift.low * minutes, drift.high * minutes), question.level)
    noise = np.sqrt(np.maximum(learnt.variance - display**2, 0))
    return PairedEffects(
        value, low, high, error, noise, display, gain, learnt.slope, learnt.slope_error, drift.low, drift.high, drift.measured, drift.bent,
        learnt.swing, learnt.sd, learnt.correlation_s, learnt.white_share, minutes, learnt.dof,
    )  # fmt: skip
