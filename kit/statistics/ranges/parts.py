"""What a range is made of, carried along: so that a mean or a difference of estimates allows for what they share, and no range loses any."""

from math import inf, isfinite

import numpy as np

from kit.estimate import Estimate, Parts
from kit.statistics.ranges.drift import DECIDED_AT, drifted_range
from kit.statistics.ranges.quantiles import coverage_factor, one_sided_factor

# A number from elsewhere says nothing of its drift: it may have drifted by the tolerance for so long between its two windows.
BARE_MIN = 10.0
# Fewer measured drifts than this are not averaged, one more where a side is told apart.
FEWEST_AVERAGED = 3


def ranged(value, parts, *, level=0.95, unit="°C"):
    """The `Estimate` of `value` whose range holds at `level` for what its `Parts` say."""
    if not (isfinite(value) and parts.known):
        return Estimate.undetermined(unit, level)
    moved = parts.drift_low, parts.drift_high
    low, high = drifted_range(value, parts.standard_error, parts.dof, moved, level)
    return Estimate(value, parts.standard_error, float(low), float(high), level, unit, parts)


def parts_of(estimate, tolerance_c_per_min=0.01):
    """The `Parts` of an `Estimate`. A bare one, typed by hand or read somewhere, gets its half-width as chance, and on top the drift that
    ten minutes of the tolerance would make: what such a number allowed for, nobody knows."""
    if estimate.parts is not None:
        return estimate.parts
    error = estimate.half_width / coverage_factor(estimate.level) if isfinite(estimate.half_width) else estimate.standard_error
    drifted = tolerance_c_per_min * BARE_MIN
    return Parts(error, inf, 0.0, -drifted, drifted)


def difference_of(first, second):
    """The `Parts` of one number less another that has nothing to do with it: chance in squares, drift at its worst, the fewer degrees."""
    error, gain = (float(np.hypot(*pair)) for pair in ((first.error, second.error), (first.gain, second.gain)))
    drift = first.drift_low - second.drift_high, first.drift_high - second.drift_low
    return Parts(error, min(first.dof, second.dof), gain, *drift)


def mean_parts(pooled, several, sides, tolerance_c):
    """The `Parts` of a `Pooled` mean of `several` Parts with `sides` (groups,): chance and spread by weight, and what all may have in common, which does
    not average out. `tolerance_c`: what a tolerance makes of drift."""
    gain = float(abs(pooled.weights) @ [each.gain for each in several])
    drift = mean_drift(several, pooled.weights, sides if pooled.side_error else np.ones(len(several)), tolerance_c)
    return Parts(pooled.standard_error, pooled.dof, gain, *drift)


def mean_drift(several, weights, sides, tolerance_c):
    """(least, most) that drift may have added to the mean of `several` Parts with `weights` (they sum to 1), in their unit.

    Measured drifts are averaged, as chance parts them: what their mean may do is that of one run (`kit.statistics.ranges.drift`). Where only a
    tolerance or a bend stands for them, they may all be off alike. With both `sides` present (1 usual, -1 roles swapped) what drifts with
    place, vessel or thermometer cancels; only a mean drift that is surely there beyond that still counts. `tolerance_c`: what a tolerance makes.
    """
    carried, errors = (np.array([getattr(each, name) for each in several]) for name in ("carried", "carried_error"))
    known, both = np.isfinite(errors), np.ptp(sides) > 0
    if known.sum() < FEWEST_AVERAGED + both or both and not np.ptp(sides[known]):
        known[:] = False
    others = [] if both else [w * np.array([each.drift_low, each.drift_high]) for w, each, seen in zip(weights, several, known) if not seen]
    alike = sum(others, np.zeros(2))
    if not known.any():
        return float(alike[0]), float(alike[1])
    part = weights[known].sum()
    drift = _averaged(carried[known], errors[known], weights[known] / part, sides[known], tolerance_c)
    return float(alike[0] + part * drift[0]), float(alike[1] + part * drift[1])


def _averaged(carried, errors, weights, sides, tolerance_c):
    """(least, most) of the mean of measured drifts `carried` (groups,), °C between the windows, with standard `errors`."""
    both = np.ptp(sides) > 0
    count, terms = len(carried), 1 + both
    design = np.stack([np.ones(count), sides][:terms], axis=1)
    pull = np.linalg.solve(design.T @ (weights[:, None] * design), design.T * weights)
    mean, left = float(pull[0] @ carried), carried - design @ (pull @ carried)
    spare = np.maximum(1 - (design * pull.T).sum(1), 1 / count)
    error = float(max((pull[0] ** 2) @ (left**2 / spare), (pull[0] ** 2) @ errors**2)) ** 0.5
    return drift_between(mean, error, count - terms, both, tolerance_c)


def drift_between(mean, error, dof, both, tolerance_c):
    """(least, most) of a mean drift that was measured as `mean` ± `error` (°C, `dof`), in runs of `both` sides or one. Numbers or arrays."""
    reach = one_sided_factor(DECIDED_AT, dof) * error
    low, high = np.minimum(mean, -mean / 2) - reach, np.maximum(mean, -mean / 2) + reach
    vague = (reach > tolerance_c) & (abs(mean) - reach <= tolerance_c)
    low, high = np.where(vague, -tolerance_c, low), np.where(vague, tolerance_c, high)
    cancels = both & (abs(mean) <= coverage_factor(DECIDED_AT, dof) * error)
    return np.where(cancels, 0.0, [low, high])
