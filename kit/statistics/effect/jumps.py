"""A jump or a bump in the difference that no warming makes: looked for everywhere but at the change, judged against the learnt noise.

Every shape is a step up at some place, less a step at its end (a bump) or less what dies away from there on (a bump with a tail). So all
that a shape has to do with the readings and with another shape is read off the running sums of one matrix, and no shape is ever written out.
"""

from dataclasses import dataclass
from math import inf

import numpy as np
from scipy.linalg.lapack import dpotrf, dpotri

from kit.statistics.effect.paired import noises

BUMPS_S, TAILED_S, TAIL_S = (40.0, 90.0, 180.0), (40.0, 90.0), 45.0
# Where the warming lives nothing is looked for: from before the change to so long after it.
BEFORE_S, AFTER_STEP_S, AFTER_BUMP_S = 15.0, 90.0, 60.0
MARGIN_S = 30.0
# A search over all places has no F table: found on simulated records, where these were passed by 1 of 100 healthy ones, by 4 under 1/f noise.
SURE_STEP, SURE_BUMP, WORTH_A_LOOK = 20.0, 35.0, 9.0
LIKELY, ONE_SIDED = 9.21, 1.65  # chi-squared of 2 degrees at 99 %; normal at 95 %
DISPLAY_STEPS = 1.5
# What gains no more than this once the noise is learnt beside it was noise: most healthy records that get so far end here.
STILL_WORTH = 12.0
# From so many cells on two are taken for one in the first look.
WORTH_HALVING = 100
# A reading this many times as far from the middle of its neighbours as readings are on average is a spike: the search of odd places finds those.
SPIKES, NEIGHBOURS = 8, 7


@dataclass(frozen=True, eq=False)
class Jump:
    """`at_s`: where it begins (s); `length_s`: how long it lasts, infinite for a step; `size` (°C); `shape` (cells,): 1 where it stands;
    `moved` (least, most): what it may have added to the effect, °C, over all places and shapes that fit nearly as well."""

    at_s: float
    length_s: float
    size: float
    shape: np.ndarray
    moved: tuple

    def on(self, times_s):
        """Where it stands at other times, 0 or 1: (times,)."""
        return ((times_s >= self.at_s) & (times_s < self.at_s + self.length_s)).astype(float)


@dataclass(frozen=True, eq=False)
class _Shapes:
    """Candidates on cells at `times` with their `borders` (s). For each (shapes,): the place where it begins and ends among the borders (fractions
    between two), its begin and its length in seconds, and whether it dies away after its end. One without an end (`ends` at the last border)
    is a step."""

    times: np.ndarray
    borders: np.ndarray
    begins: np.ndarray
    ends: np.ndarray
    begin_s: np.ndarray
    length_s: np.ndarray
    tailed: np.ndarray

    @property
    def without_tails(self):
        """Those that end at once or never: enough for a first look."""
        columns = (getattr(self, each)[~self.tailed] for each in ("begins", "ends", "begin_s", "length_s", "tailed"))
        return _Shapes(self.times, self.borders, *columns)


def find_jump(layout, difference, seen, step):
    """The `Jump` in one run's `difference` (readings,), which was `seen` (`kit.statistics.effect.paired.noises`), or None. `step`: the display's, °C.

    Generalised least squares beyond the trend, with the covariance averaged over the noise grid; the likeliest shape is put into the trend, the
    noise learnt again from readings without single spikes, and F of the best of all shapes must pass `SURE_STEP` or `SURE_BUMP`, its size
    1.5 display steps.
    """
    likeliest = _first_look(layout, seen)
    if likeliest is None:
        return None
    values, shapes = layout.cells.means(without_spikes(difference)), _candidates(layout.cells.times_s, layout.change_s)
    # The first look places the shape to within two cells, and what it misses passes for noise: so once more with the best of all.
    for tried, enough in ((shapes.without_tails, STILL_WORTH), (shapes, 0.0)):
        again = noises(layout, values[:, None], likeliest)[0]
        gains, sizes, lengths, left = _gains(tried, _precision(again.noise.covariance()), values, seen.design)
        best = int(np.argmax(gains))
        if gains[best] * again.noise.dof < enough * (left - gains[best]):
            return None
        likeliest = _written(tried, best)
    sure = SURE_BUMP if np.isfinite(shapes.length_s[best]) else SURE_STEP
    if gains[best] * again.noise.dof < sure * (left - gains[best]) or abs(sizes[best]) <= DISPLAY_STEPS * step:
        return None
    moved = _moved(shapes, layout.contrast, sizes, ONE_SIDED / np.sqrt(lengths), gains >= gains[best] - LIKELY)
    return Jump(float(shapes.begin_s[best]), float(shapes.length_s[best]), float(sizes[best]), likeliest, moved)


def _first_look(layout, seen):
    """The likeliest shape without a tail, on the cells, or None where none is worth more work: two cells taken for one, the noise as it was seen."""
    times, values, design, covariance = layout.cells.times_s, seen.values[:, 0], seen.design, seen.noise.covariance()
    if len(times) >= WORTH_HALVING:
        odd, half = len(times) % 2, len(times) // 2
        times, values = (each[odd:].reshape(half, 2).mean(1) for each in (times, values))
        design = design[odd:].reshape(half, 2, -1).mean(1)
        covariance = covariance[odd:, odd:].reshape(half, 2, half, 2).mean((1, 3))
    shapes = _candidates(times, layout.change_s).without_tails
    if not len(shapes.begins):
        return None
    gains, _, _, left = _gains(shapes, _precision(covariance), values, design)
    best = int(np.argmax(gains))
    if gains[best] * (len(times) - design.shape[1] - 1) < WORTH_A_LOOK * (left - gains[best]):
        return None
    begins = shapes.begin_s[best]
    return ((layout.cells.times_s >= begins) & (layout.cells.times_s < begins + shapes.length_s[best])).astype(float)


def without_spikes(readings):
    """`readings` (n,), those put in the middle of their six neighbours that lie further from it than chance would throw them."""
    if len(readings) < NEIGHBOURS:
        return readings
    around = np.lib.stride_tricks.sliding_window_view(np.pad(readings, NEIGHBOURS // 2, mode="reflect"), NEIGHBOURS)
    middle = np.median(around, axis=1)
    off = np.abs(readings - middle)
    return np.where(off > SPIKES * off.mean(), middle, readings)


def _candidates(times, change_s):
    """Steps at every half cell and bumps from every second cell on, but none where the warming may begin."""
    borders = np.concatenate([[1.5 * times[0] - 0.5 * times[1]], (times[1:] + times[:-1]) / 2, [1.5 * times[-1] - 0.5 * times[-2]]])
    halves = np.arange(2, 2 * len(borders) - 3) / 2
    starts = np.arange(1, len(borders) - 2, 2.0)
    last = len(borders) - 1.0
    kinds = [(halves, inf, False, AFTER_STEP_S)]
    kinds += [(starts, length, tailed, AFTER_BUMP_S) for tailed, several in ((False, BUMPS_S), (True, TAILED_S)) for length in several]
    parts = []
    for begins, length, tailed, after_s in kinds:
        begin_s = np.interp(begins, np.arange(len(borders)), borders)
        end_s = begin_s + min(length, 1e12)
        clear = (begin_s < change_s - BEFORE_S) | (begin_s > change_s + after_s)
        room = (begin_s >= borders[0] + MARGIN_S) & (begin_s <= borders[-1] - MARGIN_S) & ((end_s <= borders[-1]) | (length == inf))
        kept = clear & room
        ends = np.interp(end_s, borders, np.arange(len(borders))) if length < inf else np.full(len(begins), last)
        parts.append((begins[kept], ends[kept], begin_s[kept], np.full(kept.sum(), length), np.full(kept.sum(), tailed)))
    return _Shapes(times, borders, *(np.concatenate(column) for column in zip(*parts)))


def _precision(covariance):
    """The inverse of a covariance (cells, cells)."""
    root, _ = dpotrf(covariance, lower=1, clean=1)
    inverse, _ = dpotri(root, lower=1)
    return inverse + inverse.T - np.diag(np.diagonal(inverse))


def _gains(shapes, precision, values, design):
    """For each shape: what it takes from the residual sum of squares, its size, its length; and the residual sum of squares without it."""
    weighed = precision @ design
    beyond = precision - weighed @ np.linalg.solve(design.T @ weighed, weighed.T)
    data = beyond @ values
    match, lengths = _of_vector(shapes, data), _of_matrix(shapes, beyond)
    lengths = np.maximum(lengths, 1e-9 * lengths.max(initial=1e-300))
    return match**2 / lengths, match / lengths, lengths, float(values @ data)


def _of_vector(shapes, vector):
    """The sum of shape · vector for each shape."""
    after = _running(vector)
    begun, ended = _between(after, shapes.begins), _between(after, shapes.ends)
    if not shapes.tailed.any():
        return begun - ended
    fall, grow = _falls(shapes)
    return begun - ended + shapes.tailed * _between(grow * _running(fall * vector), shapes.ends)


def _of_matrix(shapes, matrix):
    """The sum of shape · matrix · shape for each shape, `matrix` such that a constant has no part in it."""
    begins, ends, tailed = shapes.begins, shapes.ends, shapes.tailed
    # A constant counts for nothing, so that sums up to a border do as well as sums from there on, and come quicker.
    steps = np.zeros((len(matrix) + 1,) * 2)
    np.cumsum(np.cumsum(matrix, axis=0), axis=1, out=steps[1:, 1:])
    total = _between(steps, begins, begins) - 2 * _between(steps, begins, ends) + _between(steps, ends, ends)
    if not tailed.any():
        return total
    fall, grow = _falls(shapes)
    mixed = _running(_running(matrix * fall).T).T * grow
    tails = _running(_running(matrix * np.outer(fall, fall)).T).T * np.outer(grow, grow)
    ends, begins = ends[tailed], begins[tailed]
    total[tailed] += 2 * _between(mixed, begins, ends) - 2 * _between(mixed, ends, ends) + _between(tails, ends, ends)
    return total


def _running(columns):
    """Sums of rows from each border to the end, (cells, ...) -> (borders, ...)."""
    sums = np.zeros((len(columns) + 1, *columns.shape[1:]))
    np.cumsum(columns[::-1], axis=0, out=sums[-2::-1])
    return sums


def _falls(shapes):
    """exp(−t / tail) at the cells and exp(t / tail) at the borders, seconds before the record's end counted."""
    last = shapes.times[-1]
    return np.exp((last - shapes.times) / TAIL_S - 40), np.exp((shapes.borders - last) / TAIL_S + 40)


def _between(table, rows, columns=None):
    """`table` at fractional places, in proportion between its entries."""
    low = np.minimum(rows.astype(int), len(table) - 2)
    part = rows - low
    if columns is None:
        return (1 - part) * table[low] + part * table[low + 1]
    left = np.minimum(columns.astype(int), len(table) - 2)
    share = columns - left
    upper = (1 - share) * table[low, left] + share * table[low, left + 1]
    lower = (1 - share) * table[low + 1, left] + share * table[low + 1, left + 1]
    return (1 - part) * upper + part * lower


def _written(shapes, place):
    """One shape on the cells, (cells,)."""
    begin, end, tailed = shapes.begins[place], shapes.ends[place], shapes.tailed[place]
    times, borders = shapes.times, shapes.borders
    cells = np.arange(len(times))
    shape = np.clip(cells + 1 - begin, 0, 1) - np.clip(cells + 1 - end, 0, 1) * (end < len(times))
    if not tailed:
        return shape
    end_s = np.interp(end, np.arange(len(borders)), borders)
    return shape + np.clip(cells + 1 - end, 0, 1) * np.exp(-np.maximum(times - end_s, 0) / TAIL_S)


def _moved(shapes, contrast, sizes, reaches, likely):
    """What the likely shapes may have added to the effect: (least, most)."""
    part = _of_vector(shapes, contrast)[likely]
    ends = np.array([(sizes[likely] + sign * reaches[likely]) * part for sign in (-1, 1)])
    return float(ends.min()), float(ends.max())
