"""How often the ranges of class means, of a next group, of comparisons and of plans hold, on simulated classes."""

from dataclasses import dataclass

import numpy as np

from kit.analysis.classes import GroupRuns, pooled_class
from kit.coverage.invented import HELD, seed_of
from kit.bench import displayed, wander
from kit.coverage.study import Figure, Row, Study, share
from kit.statistics import (
    coverage_factor,
    DIFFERENT,
    drifted_range,
    equivalence,
    plain_mean,
    pool,
    Question,
    ranged,
    rehearse,
    SAME,
    saturating,
    spread_interval,
    spread_of_next,
    stacked_effects,
    Timing,
    Wander,
)

CLASSES, DRAWS, RUN_CLASSES = 2000, 20_000, 300
ERROR_C, ERROR_DOF, UNEQUAL = 0.04, 20, 2.0
COUNTS, SPREADS_C = (4, 6, 8, 12), (0.0, 0.03, 0.05, 0.1, 0.3)
# 5 %, and two Monte-Carlo errors of 20,000 draws.
FALSE_SAME, WIDER = 5.3, 1.1
# Of 80 promised; a promise rests on 60 rehearsals, which by themselves move it by 5.
SPREAD_C, PROMISE_KEPT, LEAST_SIZE_C = 0.05, 68.0, 0.5


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
    """Whole runs in classes: groups, spread (°C), the drift that all share (°C a minute), whether half of them swapped vessels."""

    groups: int
    spread_c: float
    drift_c: float
    swapped: bool = False

    def __str__(self):
        return f"{self.groups} groups, spread {self.spread_c:g}, drift {self.drift_c:g}{', half swapped' if self.swapped else ''}"


CLASSES_OF_RUNS = (
    ClassOfRuns(6, 0.05, 0.0),
    ClassOfRuns(6, 0.05, 0.01),
    ClassOfRuns(6, 0.0, 0.01),
    ClassOfRuns(6, 0.05, 0.01, True),
    ClassOfRuns(4, 0.1, 0.01),
)


def runs_row(kind, classes):
    """One row: runs with a minute of baseline and no earlier record, whose difference drifts alike in all groups (unless swapped)."""
    rng, timing = seed_of(str(kind)), Timing(1.0, 1.0, 10.0)
    truths = 1 + kind.spread_c * rng.standard_normal((classes, kind.groups))
    signs = np.where(np.arange(kind.groups) % 2 == 1, -1, 1) if kind.swapped else np.ones(kind.groups)
    found = effects_of_runs(rng, truths.ravel(), np.tile(signs * kind.drift_c, classes), timing)
    means = means_of_classes(found, signs)
    figures = (
        share("mean covers %", np.array([mean.holds(1.0) for mean in means]), low=HELD),
        Figure("half-width °C", float(np.median([mean.half_width for mean in means])), places=3),
    )
    return Row(str(kind), figures)


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
    return stacked_effects(seconds, *vessels, edges, Question())


def means_of_classes(found, signs):
    """The class mean that `class_effect` would give for each class of runs, one after another in `found` (`PairedEffects`)."""
    groups = [
        GroupRuns(str(place), (), None, found.value[place].item(), found.parts_at(place), float(sign))
        for place, sign in enumerate(np.resize(signs, len(found.value)))
    ]
    return [pooled_class(tuple(groups[start : start + len(signs)]), Question()).mean for start in range(0, len(groups), len(signs))]


def margin_row(first_c, second_c, bias_c, draws):
    """One row: two results of standard error `first_c` and `second_c`, 20 degrees of freedom each, margin 0.15 °C."""
    rng, margin = seed_of(f"margin {first_c} {second_c} {bias_c}"), 0.15
    true = np.hypot(first_c, second_c)
    seen = true * np.sqrt(rng.chisquare(2 * ERROR_DOF, draws) / (2 * ERROR_DOF))
    chance = true * rng.standard_normal(draws)
    verdicts = {
        at: np.array(
            [
                equivalence(at + off - bias_c * (at == margin), error, 2 * ERROR_DOF, margin, drift=(-bias_c, bias_c)).verdict
                for off, error in zip(chance, seen)
            ]
        )
        for at in (0.0, margin, 2 * margin)
    }
    figures = (
        share("false same %", verdicts[margin] == SAME, high=FALSE_SAME),
        share("same at 0 %", verdicts[0.0] == SAME),
        share("different at twice %", verdicts[2 * margin] == DIFFERENT),
        share("false different %", verdicts[margin] == DIFFERENT, high=FALSE_SAME),
    )
    return Row(f"se {first_c:g} and {second_c:g} °C, bias up to {bias_c:g} °C", figures)


MARGINS = ((0.02, 0.02, 0.0), (0.05, 0.02, 0.0), (0.08, 0.05, 0.0), (0.02, 0.02, 0.05), (0.02, 0.02, 0.1))


def plan_row(noise, runs, swapped, classes):
    """One row: the half-width that a plan promises to 4 of 5 against what simulated classes of such runs find, their difference drifting by the
    tolerance, half of the classes each way; and how often an effect of twice that is told from none, predicted and found."""
    rng, drift, alone = seed_of(f"plan {noise} {runs} {swapped}"), Question().tolerance_c_per_min, rehearse(noise, Timing(), Question(), 0.01)
    promised = alone.promised(runs, swapped, SPREAD_C)
    size = max(2 * promised, LEAST_SIZE_C)
    signs = np.where(np.arange(runs) % 2, -1, 1) if swapped else np.ones(runs)
    drifts = drift * np.outer(np.where(np.arange(classes) % 2, -1, 1), signs).ravel()
    found = effects_of_runs(rng, size + SPREAD_C * rng.standard_normal(classes * runs), drifts, Timing(), noise)
    if runs == 1:
        low, high = drifted_range(
            found.value, np.hypot(found.error, SPREAD_C), found.dof, (found.drift_low * found.minutes, found.drift_high * found.minutes)
        )
        told = found.low > 0
    else:
        low, high = np.array([(mean.low, mean.high) for mean in means_of_classes(found, signs)]).T
        told = low > 0
    figures = (
        Figure("promised °C", promised, places=3),
        Figure("median °C", float(np.median(high - low) / 2), places=3),
        share("kept %", (high - low) / 2 <= promised, low=PROMISE_KEPT),
        share("covers %", (low <= size) & (size <= high), low=HELD),
        Figure("predicted told %", 100 * float(alone.chance(size, runs, swapped, SPREAD_C))),
        share("told %", told),
    )
    return Row(f"memory {noise.correlation_s:g} s, every {noise.step_s:g} s, {noise.display_c:g} °C, {runs} runs{', half swapped' * swapped}", figures)


HAND = Wander(correlation_s=20.0, step_s=60.0, display_c=0.1)
PLANS = tuple(
    (noise, runs, swapped)
    for noise in (Wander(correlation_s=10.0), Wander(), Wander(correlation_s=60.0), Wander(correlation_s=10.0, display_c=0.1), HAND)
    for runs, swapped in ((1, False), (3, False), (4, True), (6, False), (12, True))
)

STUDIES = (
    Study("class", "class_effect's mean, spread and next group, from numbers of unequal precision.",
          lambda runs=None: (class_row(groups, spread, runs or CLASSES) for groups in COUNTS for spread in SPREADS_C)),
    Study("class of runs", "class_effect's mean over whole runs, one minute of baseline, drift shared by all.",
          lambda runs=None: (runs_row(kind, runs or RUN_CLASSES) for kind in CLASSES_OF_RUNS)),
    Study("margin", "compare, margin 0.15 °C; at the margin the bias is at its worst.",
          lambda runs=None: (margin_row(*errors, runs or DRAWS) for errors in MARGINS)),
    Study("plan", "plan_run: the half-width that 4 of 5 plans stay under, and simulated classes (spread 0.05 °C, drift ± 0.01 °C a minute).",
          lambda runs=None: (plan_row(*plan, runs or RUN_CLASSES) for plan in PLANS)),
)  # fmt: skip
