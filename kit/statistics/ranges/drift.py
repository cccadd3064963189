"""What the difference between two vessels may do by itself after the change: a set of drifts, from what was seen before, or a tolerance."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.ranges.quantiles import coverage_factor, one_sided_factor, widened_factor

# Whether the record measured its drift is decided at this level, whatever level is asked: a lower one must never give a wider range.
DECIDED_AT = 0.95
# A course before the change of which a parabola and a cubic explain more than this (half of a chi-squared of 2) is no straight line: passed by
# 6 in 100 steady records, and by 78 to 98 in 100 under a cycle of the room of 0.15 °C and 15 to 25 min (simulated).
BENT = 2.0


@dataclass(frozen=True, eq=False)
class EarlyCourse:
    """How values run before a change, at each grid point: the `slopes` a minute (points, runs), their variance where a cell's own is 1
    (`unscaled`, (points,)), and what a parabola and a cubic explain beyond a line, half of their chi-squared there (`bends`)."""

    slopes: np.ndarray
    unscaled: np.ndarray
    bends: np.ndarray


def early_course(grid, minutes, values, shape=None):
    """The `EarlyCourse` of `values` (cells, runs) over `minutes` (cells,), two cells or more; `shape` (cells,): a term beside the line."""
    centre = minutes - minutes.mean()
    line = [np.ones_like(centre), centre, *([] if shape is None or not np.ptp(shape) else [shape])]
    curved = [centre**2, centre**3] if len(minutes) > len(line) + 2 else []
    terms, back = np.linalg.qr(np.stack([*line, *curved], axis=1))
    products, _ = grid.products(terms, np.hstack([terms, values - values.mean(0)]))
    information, moments, plain = products[:, :, : len(back)], products[:, :, len(back) :], len(line)
    unscaled = np.linalg.inv(information[:, :plain, :plain])
    fitted = unscaled @ moments[:, :plain]
    inverse = np.linalg.inv(back[:plain, :plain])[1]
    explained = (np.linalg.solve(information, moments) * moments).sum(1) - (fitted * moments[:, :plain]).sum(1)
    return EarlyCourse(inverse @ fitted, inverse @ unscaled @ inverse, explained / 2)


@dataclass(frozen=True, eq=False)
class DriftSet:
    """The drifts that a range holds for, `low` to `high`, °C a minute, (runs,) each. `measured`: set by the record and not by the
    tolerance. `bent`: the record before the change was no straight line, so that the set is as wide as what was seen there."""

    low: np.ndarray
    high: np.ndarray
    measured: np.ndarray
    bent: np.ndarray


def drift_set(seen, dof, minutes, question):
    """The `DriftSet` after what was `seen` before the change (its slope, slope_error, bend, swing: see `kit.statistics.effect.paired.Learnt`).

    A measured drift has a sign: it may go on, fade, stop, or turn round at half its speed. That half turn, and the bend test, were chosen on
    simulated runs (walks, 1/f noise, room cycles) so that 95 % hold. `minutes` between the windows' middles; `dof` (runs,).
    """
    slope, tolerance = seen.slope, question.tolerance_c_per_min
    reach = one_sided_factor(DECIDED_AT, dof) * seen.slope_error
    measured = (reach <= tolerance) | (abs(slope) - reach > tolerance)
    wider = one_sided_factor(max(question.level, DECIDED_AT), dof) * seen.slope_error
    bent = seen.bend > BENT
    turned = -slope / 2
    low, high = np.minimum(slope, turned) - wider, np.maximum(slope, turned) + wider
    low, high = np.where(measured, low, -tolerance), np.where(measured, high, tolerance)
    swings = np.maximum(abs(slope) + wider, seen.swing / minutes)
    return DriftSet(np.where(bent, -swings, low), np.where(bent, swings, high), measured | bent, bent)


def drifted_range(value, error, dof, moved, level=0.95):
    """(low, high) of the interval that holds at `level` for `value` ± `error` (standard, `dof`) if a drift moved it by anything in `moved`.

    `moved`: (least, most), in the value's unit. The range lies about value − their middle (Armstrong and Kolesar's fixed-length interval,
    Econometrica 86:655, 2018, from memory, about the middle of the set). Numbers or arrays.
    """
    middle, half = (moved[0] + moved[1]) / 2, (moved[1] - moved[0]) / 2
    scale = np.maximum(error * coverage_factor(level, dof) / coverage_factor(level), np.finfo(float).tiny)
    reach = scale * widened_factor(half / scale, level)
    return value - middle - reach, value - middle + reach
