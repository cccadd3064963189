"""How often the ranges of class means and of a next group hold, on simulated classes: with swaps, shared drift, shared thermometers."""

from dataclasses import dataclass

import numpy as np

from kit.analysis.classes import GroupRuns, pooled_class, together
from kit.bench import displayed, wander
from kit.coverage.invented import HELD, seed_of
from kit.coverage.study import Figure, Row, Study, share
from kit.estimate import Parts
from kit.statistics import (
    coverage_factor, plain_mean, pool, Terms, saturating, spread_interval, spread_of_next, stacked_effects, Timing, Wander,
)  # fmt: skip

CLASSES, RUN_CLASSES, RUNS = 2000, 1000, 1000
ERROR_C, ERROR_DOF, UNEQUAL, WIDER = 0.04, 20, 2.0, 1.1
COUNTS, SPREADS_C = (4, 6, 8, 12), (0.0, 0.03, 0.05, 0.1, 0.3)


def class_row(groups, spread_c, classes):
    """One row: groups of unequal errors, from half to twice 0.04 °C, each known from 20 degrees of freedom; true mean 0."""
    rng = seed_of(f"class {groups} {spread_c}")
    errors = ERROR_C * np.exp(rng.uniform(-np.log(UNEQUAL), np.log(UNEQUAL), (classes, groups + 1)))
    values = spread_c * rng.standard_normal(errors.shape) + errors * rng.standard_normal(errors.shape)
    known = errors * np.sqrt(rng.chisquare(ERROR_DOF, errors.shape) / ERROR_DOF)
    factor, rows = coverage_factor(0.95, groups - 1), []
    for value, error in zip(values, known):
        group, own = value[:-1], error[:-1]
        pooled, (mean, by_hand) = pool(group, own), plain_mean(group)
        low, high = spread_interval(group, own)
        next_reach = factor * spread_of_next(own, pooled)
        reaches = factor * pooled.standard_error, factor * knapp_hartung(group, own, pooled), factor * by_hand
        rows.append((*reaches, abs(pooled.mean), abs(mean), abs(value[-1] - pooled.mean) <= next_reach, low <= spread_c <= high))
    reach, plain_reach, hand, off, hand_off, predicted, spread_held = np.array(rows).T
    figures = (
        share("mean covers %", off <= reach, low=HELD),
        Figure("half-width °C", float(np.median(reach)), places=4),
        Figure("to Knapp-Hartung", float(np.median(reach) / np.median(plain_reach)), high=WIDER, places=3),
        share("by hand covers %", hand_off <= hand),
        Figure("by hand °C", float(np.median(hand)), places=4),
        share("next covers %", predicted > 0, low=HELD),
        share("spread covers %", spread_held > 0),
    )
    return Row(f"{groups} groups, spread {spread_c:g} °C", figures)


def knapp_hartung(values, errors, pooled):
    """Standard error by Knapp and Hartung, at least that of the weights: the method to be no wider than by a tenth."""
    precision = 1 / (errors**2 + pooled.spread**2)
    return (max(precision @ (values - pooled.mean) ** 2 / (len(values) - 1), 1) / precision.sum()) ** 0.5


@dataclass(frozen=True)
class ClassOfRuns:
    """Whole runs in classes: groups, spread (°C), the drift (°C a minute) that all share, or that each has of its own, random, if `own`; how many
    of the groups swapped their vessels, which turns drift and what the `place` does (°C) round; minutes before the baseline."""

    groups: int
    spread_c: float
    drift_c: float
    swapped: int = 0
    place_c: float = 0.0
    own: bool = False
    earlier_min: float = 0.0

    def __str__(self):
        swaps = f", {self.swapped} swapped, place {self.place_c:g}" if self.swapped else ""
        return (
            f"{self.groups} groups, spread {self.spread_c:g}, {'own ' * self.own}drift {self.drift_c:g}{swaps}"
            f"{f', {self.earlier_min:g} min earlier' if self.earlier_min else ''}"
        )


CLASSES_OF_RUNS = (
    ClassOfRuns(6, 0.05, 0.0),
    ClassOfRuns(6, 0.05, 0.01),
    ClassOfRuns(6, 0.0, 0.01),
    ClassOfRuns(4, 0.1, 0.01),
    ClassOfRuns(6, 0.05, 0.01, swapped=3),
    *(ClassOfRuns(groups, 0.05, 0.0, earlier_min=9) for groups in (3, 8)),
    *(ClassOfRuns(groups, 0.05, 0.01, earlier_min=9) for groups in (3, 4, 8, 12)),
    *(ClassOfRuns(groups, 0.05, 0.01, own=True, earlier_min=9) for groups in (4, 8)),
    *(ClassOfRuns(groups, 0.05, 0.01, groups // 2, 0.2, earlier_min=9) for groups in (4, 8, 12)),
    *(ClassOfRuns(groups, 0.05, 0.01, groups // 4, 0.2, earlier_min=9) for groups in (4, 8, 12)),
)


def runs_row(kind, classes):
    """One row: runs with a minute of baseline; the true mean is 1, what the place does left out."""
    rng, timing = seed_of(str(kind)), Timing(1.0 + kind.earlier_min, 1.0, 10.0)
    signs = np.where(np.arange(kind.groups) < kind.swapped, -1, 1)
    truths = 1 + kind.spread_c * rng.standard_normal((classes, kind.groups)) + signs * kind.place_c
    shape = truths.shape if kind.own else (classes, 1)
    drifts = kind.drift_c * signs * (rng.uniform(-1, 1, shape) if kind.own else np.where(np.arange(classes) % 2, -1, 1)[:, None])
    found = effects_of_runs(rng, truths.ravel(), np.broadcast_to(drifts, truths.shape).ravel(), timing)
    means = means_of_classes(found, signs)
    figures = (
        share("mean covers %", np.array([mean.holds(1.0) for mean in means]), low=HELD),
        Figure("half-width °C", float(np.median([mean.half_width for mean in means])), places=3),
    )
    return Row(str(kind), figures)


# Who used which pair of thermometers, by the place of the group: two and two, half of the class on one, three sets going round.
SHARED = {
    "two and two": lambda groups: np.arange(groups) // 2,
    "half on one pair": lambda groups: np.maximum(np.arange(groups) - groups // 2, -1) + 1,
    "three sets": lambda groups: np.arange(groups) % 3,
}
PAIR_C = 0.08


def thermometers_row(name, groups, classes):
    """One row: numbers of groups, each pair of thermometers off by 0.08 °C (standard deviation) for all that use it; told, and not told."""
    rng, pairs = seed_of(f"thermometers {name} {groups}"), SHARED[name](groups)
    offs = PAIR_C * rng.standard_normal((classes, pairs.max() + 1))[:, pairs]
    values = offs + 0.05 * rng.standard_normal(offs.shape) + ERROR_C * rng.standard_normal(offs.shape)
    told, ignored = [], []
    for row in values:
        single = {str(place): GroupRuns(str(place), (), None, float(value), Parts(ERROR_C, ERROR_DOF)) for place, value in enumerate(row)}
        merged = together(single, {str(place): f"pair {pair}" for place, pair in enumerate(pairs)}, 0.95)
        told.append(pooled_class(merged, Terms()).mean)
        ignored.append(pooled_class(tuple(single.values()), Terms()).mean)
    figures = (
        share("told: covers %", np.array([mean.holds(0.0) for mean in told]), low=HELD),
        Figure("half-width °C", float(np.median([mean.half_width for mean in told])), places=3),
        share("not told: covers %", np.array([mean.holds(0.0) for mean in ignored])),
    )
    return Row(f"{groups} groups, {name}", figures)


def effects_of_runs(rng, rises, drifts, timing, noise=Wander(correlation_s=10.0)):
    """`PairedEffects` of one run for each of `rises` (runs,), °C, drifting by `drifts` (runs,), °C a minute, with that noise."""
    edges = timing.edges_s
    seconds = np.arange(0, edges[5] + noise.step_s / 2, noise.step_s)
    settled = saturating(seconds, 100.0, edges[2])
    settled /= settled[seconds >= edges[4]].mean()
    moved = rises[:, None] * settled + drifts[:, None] * seconds / 60
    vessels = [
        displayed(
            each + 25 + rng.uniform(0, 1, (len(rises), 1)) + wander(rng, seconds, noise.sd_c / 2**0.5, noise.correlation_s, len(rises)),
            noise.display_c,
        )
        for each in (moved, 0 * moved)
    ]
    return stacked_effects(seconds, *vessels, edges, Terms())


def means_of_classes(found, signs):
    """The class mean that `class_effect` would give for each class of runs, one after another in `found` (`PairedEffects`)."""
    groups = [
        GroupRuns(str(place), (), None, found.value[place].item(), found.parts_at(place), float(sign))
        for place, sign in enumerate(np.resize(signs, len(found.value)))
    ]
    return [pooled_class(tuple(groups[start : start + len(signs)]), Terms()).mean for start in range(0, len(groups), len(signs))]


STUDIES = (
    Study("class", "class_effect's mean, spread and next group, from numbers of unequal precision.",
          lambda runs=None: (class_row(groups, spread, runs or CLASSES) for groups in COUNTS for spread in SPREADS_C)),
    Study("class of runs", "class_effect's mean over whole runs, one minute of baseline, drift shared by all.",
          lambda runs=None: (runs_row(kind, runs or RUN_CLASSES) for kind in CLASSES_OF_RUNS)),
    Study("thermometers", "class_effect where groups share pairs of thermometers.",
          lambda runs=None: (thermometers_row(name, groups, runs or RUNS) for name in SHARED for groups in (6, 12, 30))),
)  # fmt: skip
