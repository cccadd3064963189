"""Leaving each group out in turn: one by one in a class, from running sums where there are hundreds or more."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from kit.estimate import Estimate, Parts
from kit.statistics.pooling.pooling import pool
from kit.statistics.pooling.running import (
    Columns, DRIFT, DRIFT_ERROR, Fit, GAIN, HEAVY, MEAN, MOST_TAKEN_OUT, OTHER_DRIFT, Remainder, robust, squares, SumTable, TERMS,
)  # fmt: skip
from kit.statistics.ranges import drift_between, drifted_range, mean_parts

# Up to so many groups each is left out by pooling the others anew, which takes as long as the square of their number.
ONE_BY_ONE = 200
# Newton's steps towards a spread, and how near to it, in parts of squared spread + smallest squared error, they end; how many groups at once.
STEPS, SETTLED, AT_ONCE = 12, 1e-13, 4096


@dataclass(frozen=True, eq=False)
class Others:
    """What all groups but one say, for each group in turn, (groups,) each: the pooled `mean` with the parts of its range (`standard_error` with
    `dof`, `gain`, `drift_low` to `drift_high`; see `kit.estimate.Parts`), the `spread` between them, and `side` ± `side_error` (see `Pooled`)."""

    mean: np.ndarray
    standard_error: np.ndarray
    dof: np.ndarray
    spread: np.ndarray
    side: np.ndarray
    side_error: np.ndarray
    gain: np.ndarray
    drift_low: np.ndarray
    drift_high: np.ndarray

    def ranged(self, level=0.95):
        """The means without each group as `Estimate`s in °C, a list."""
        parts = self.standard_error, self.dof, self.gain, self.drift_low, self.drift_high
        errors = (self.standard_error**2 + self.gain**2) ** 0.5
        lows, highs = drifted_range(self.mean, errors, self.dof, (self.drift_low, self.drift_high), level)
        rows = zip(*(column.tolist() for column in (self.mean, errors, lows, highs)), zip(*(column.tolist() for column in parts)))
        return [Estimate(*row, level, "°C", Parts(*made)) for *row, made in rows]


def without_each(values, errors, sides, several, tolerance_c):
    """The `Others` of three groups or more with `values` ± `errors` (groups,) and `sides` (groups,), whose `Parts` are `several`.

    Up to 200 groups by pooling the others anew. Beyond, by `kit.statistics.pooling.running`: the same to 1e-11 of each number's scale (its tests);
    the few groups on which much depends are still pooled anew. `tolerance_c`: what a tolerance makes (see `mean_drift`).
    """
    numbers = values, errors, sides
    if len(values) <= ONE_BY_ONE:
        rows = [_anew(numbers, several, tolerance_c, each) for each in range(len(values))]
        return Others(*np.array(rows).T)
    found, alone = _from_sums(Columns.of(*numbers, several), tolerance_c)
    for each in alone:
        found[each] = _anew(numbers, several, tolerance_c, each)
    return Others(*found.T)


def _anew(numbers, several, tolerance_c, each):
    """A row of `Others`, by pooling all groups but that one."""
    values, errors, sides = (np.delete(column, each) for column in numbers)
    others = pool(values, errors, sides)
    parts = mean_parts(others, [*several[:each], *several[each + 1 :]], sides, tolerance_c)
    return (
        others.mean, parts.error, parts.dof, others.spread, others.side, others.side_error, parts.gain, parts.drift_low, parts.drift_high,
    )  # fmt: skip


def _from_sums(columns, tolerance_c):
    """(rows of `Others` (groups, 9), indices of the groups that are to be left out one by one instead)."""
    rough, alone = _rough(columns)
    low, high = (float(end(rough[~alone])) for end in (np.min, np.max))
    room = (high - low) / 2 + 1e-6 * (high + columns.least)
    table = SumTable.over(columns, max(low - room, 0.0), high + room)
    found, inside = np.empty((len(rough), 9)), np.empty(len(rough), bool)
    with np.errstate(divide="ignore", invalid="ignore"):  # the only group of its side leaves nothing to divide by; it is left out by itself
        for start in range(0, len(rough), AT_ONCE):
            part = np.arange(start, min(start + AT_ONCE, len(rough)))
            squared, inside[part] = _spreads(columns, table, part, rough[part])
            found[part] = _rows(_TakenOut(columns, table, part, squared), tolerance_c)
    return found, np.flatnonzero(alone | table.alone | ~inside)


def _rough(columns):
    """Squared spreads without each group, (groups,), by one step from that of all; and who holds too much to be taken out by a subtraction."""
    residuals, squared, (kinds, which) = columns.whole.residuals, columns.whole.spread**2, columns.kinds
    precision = 1 / (columns.errors**2 + squared)
    sums = np.stack([np.bincount(which, precision * residuals**power) for power in range(3)], axis=1)
    leverage = precision * Fit.of(sums[None], kinds).leverage[0, which]
    share, slope = precision * residuals**2, precision**2 * residuals**2
    left, wanted = np.maximum(share.sum() - share / np.maximum(1 - leverage, HEAVY), 0), columns.whole.dof - 1
    rough = squared + left * (left / wanted - 1) / np.maximum(slope.sum() - slope, np.finfo(float).tiny)
    each = np.bincount(which)
    sole = (each[which] == 1) & (len(kinds) == 2)
    return np.maximum(rough, 0), sole | (leverage > MOST_TAKEN_OUT) | (share > MOST_TAKEN_OUT * share.sum())


def _spreads(columns, table, part, squared):
    """Squared spreads without each group of `part`, by Newton's steps as in `pool`; and whether they settled inside the table."""
    squared, wanted = np.clip(squared, table.low, table.high), columns.whole.dof - 1
    for _ in range(STEPS):
        sums = table.without(columns, part, squared, 2)[..., MEAN]
        first, second = squares(sums, Fit.of(sums[:, 0], columns.kinds[0]).lines).sum(2).T
        scale = squared + columns.least
        stepped = squared + scale * first * (first / scale / wanted - 1) / np.maximum(second, np.finfo(float).tiny)
        before, squared = squared, np.clip(stepped, table.low, table.high)
        settled = abs(squared - before) <= SETTLED * scale
        if settled.all():
            break
    near = abs(squared - before) <= 100 * SETTLED * scale
    return squared, near & (squared < table.high) & ((squared > table.low) | (table.low == 0))


@dataclass(frozen=True, eq=False)
class _TakenOut:
    """Some groups of a class: their indices `part`, and the `squared` spreads without each of them."""

    columns: Columns
    table: SumTable
    part: np.ndarray
    squared: np.ndarray

    @cached_property
    def sums(self):
        """The sums over all but each of them, at its squared spread."""
        return self.table.without(self.columns, self.part, self.squared, TERMS + 1)

    def remainder(self, heavy, numbers, lines, least):
        """The `Remainder` of the `heavy` groups, whose residuals are `numbers` (groups,) about `lines` (part, kinds)."""
        which = self.columns.kinds[1][heavy]
        weights = self.columns.weights(self.squared[:, None], self.columns.errors[heavy]) * (self.part[:, None] != heavy)
        return Remainder(weights, numbers[heavy] - lines[:, which], which, least)


def _rows(taken, tolerance_c):
    """Rows of `Others` for the groups that are `taken` out."""
    columns, sums, scale = taken.columns, taken.sums, taken.squared + taken.columns.least
    whole, (kinds, _) = columns.whole, columns.kinds
    fit, dof = Fit.of(sums[:, 0, :, MEAN], kinds), whole.dof - 1
    left = squares(sums[..., MEAN], fit.lines)
    remainder = taken.remainder(taken.table.heavy, whole.residuals, fit.lines, np.finfo(float).eps)
    chance = np.maximum(left[:, 0].sum(1) / scale / dof, 1)
    variances = [
        np.maximum(inverse * scale * chance, robust(left[:, 1:], pulls, fit.leverage, remainder))
        for inverse, pulls in zip(fit.inverse, (fit.pulls, fit.side_pulls))
    ]
    sides = (whole.side + fit.side, variances[1] ** 0.5) if len(kinds) > 1 else np.zeros((2, len(scale)))
    gain = (abs(fit.pulls) * sums[:, 0, :, GAIN]).sum(1)
    error, dofs = variances[0] ** 0.5, np.full(len(scale), dof)
    return np.stack([whole.mean + fit.mean, error, dofs, taken.squared**0.5, *sides, gain, *_drift(taken, fit.pulls, tolerance_c)], axis=1)


def _drift(taken, pulls, tolerance_c):
    """(least, most) that drift may have added to each mean, as `mean_drift` has it; `pulls` (part, kinds) of the mean."""
    (kinds, _), both, sums = taken.columns.kinds, len(taken.columns.kinds[0]) > 1, taken.sums
    alike = np.zeros((2, len(pulls))) if both else np.einsum("nk,nkc->cn", pulls, sums[:, 0, :, OTHER_DRIFT])
    if not taken.columns.known.any():
        return alike
    fit = Fit.of(pulls[..., None] * sums[:, 0, :, DRIFT], kinds)
    count = taken.columns.known.sum() - taken.columns.known[taken.part]
    remainder = taken.remainder(taken.table.heavy_drift, taken.columns.carried, fit.lines, 1 / count[:, None])
    own = pulls * fit.pulls
    left = squares(sums[:, 1:, :, DRIFT], fit.lines)
    variance = np.maximum(robust(left, own, pulls * fit.leverage, remainder), (own**2 * sums[:, 1, :, DRIFT_ERROR]).sum(1))
    share = (pulls * sums[:, 0, :, DRIFT][..., 0]).sum(1)
    return alike + share * drift_between(fit.mean, variance**0.5, count - 1 - both, both, tolerance_c)
