"""The whole class: one mean from groups of unequal precision, how much groups differ, and what the next one will find."""

from dataclasses import dataclass, replace
from math import isfinite

import numpy as np

from kit.analysis.basis import refuse_question
from kit.analysis.classes.groups import GroupRuns, gathered, named_results, one_file, refuse_unknown, together
from kit.analysis.classes.words import class_cautions, class_explained, class_sentence, MOST_NAMED, MOST_ROWS, percent, why_class
from kit.estimate import Estimate
from kit.faults import Fault
from kit.settings import or_class
from kit.statistics import (
    BARE_MIN, coverage_factor, mean_parts, plain_mean, pool, Pooled, Terms, ranged, spread_interval, spread_of_next, surprise, without_each,
)  # fmt: skip
from kit.words import Account, counted, plain, table_html

# Two groups can't show how much groups differ; three can't predict a fourth.
FEWEST_POOLED, FEWEST_PREDICTED = 3, 4
# A group is far off when chance would throw any of the groups that far in one class of twenty.
FAR_OFF_CHANCE = 0.05
EACH_ITS_OWN = "own"


def class_effect(runs, windows=None, *, groups=None, swapped=(), thermometers=None, suspect=(), level=0.95, tolerance_c_per_min=None):
    """The `ClassEffect` of several groups' runs: random-effects mean, spread between groups, what a next group will measure.

    `runs`: what `read_class` gives, a list of Runs or Effects, or a dict of named Effects or Estimates. `windows`: one `Windows` for all
    runs, a dict by run name, or None to have them suggested. `groups`: {run name: group} where a group made several runs, which then
    count as one mean. `swapped`: names of the runs in which the vessels changed roles: what place and vessel do has the other sign there;
    with four groups it is told apart from what the gas does. `thermometers`: {group: pair of thermometers} where groups shared one, whose
    results then count as one mean; "own" where each had its own. `suspect`: groups to show with and without; groups far from the others
    are shown so by themselves, and none is ever dropped. The interval holds a drift of `tolerance_c_per_min` (None: the class's) that all groups may
    share, or what they measured of it. Method: `kit.statistics.pooling.pooling`, `kit.statistics.ranges.parts`. A Fault where no run gives a
    number or a name is unknown; runs without a number are named in `left_out`.
    """
    tolerance = or_class(tolerance_c_per_min, "tolerance_c_per_min")
    question = Terms(level, tolerance)
    refuse_question(question)
    results, left_out = named_results(runs, windows, tolerance, level)
    if not results:
        raise Fault(
            f"No run of this class gives a number. {' '.join(f'{name}: {why}' for name, why in left_out[:1]) or 'It holds no runs.'}"
        )
    without = [name for name, _ in left_out]
    refuse_unknown([*results, *without], {"groups": groups or (), "swapped": swapped})
    found = gathered(results, groups or getattr(runs, "groups", None) or {}, swapped, question)
    pairs = {} if thermometers in (None, EACH_ITS_OWN) else thermometers
    refuse_unknown([*(group.name for group in found), *without], {"suspect": suspect, "thermometers": pairs})
    shared = one_file(results) if thermometers is None else ()
    if pairs:
        found = together({group.name: group for group in found}, {name: f"pair {pair}" for name, pair in pairs.items()}, level)
    return pooled_class(found, question, left_out=left_out, suspect=suspect, asked=thermometers is not None, shared=shared)


@dataclass(frozen=True)
class Share:
    """A group in the class: `weight` (they sum to 1), the class mean `without` it (°C), how many standard deviations it lies from
    what the others predict (`surprise`), and whether it is `suspect`: named so, or far off."""

    group: GroupRuns
    weight: float
    without: Estimate
    surprise: float
    suspect: bool

    @property
    def name(self):
        return self.group.name

    @property
    def warming(self):
        """The group's own effect with its own range, °C."""
        return self.group.warming


@dataclass(frozen=True, eq=False)
class ClassEffect:
    """`mean`: how much more the treated vessels warmed, over all groups, °C. `plain_mean`: the same with all groups alike, as by hand.

    `spread`: standard deviation of the groups' true values about each other, °C. `side`: what place and vessel do, half of (usual − swapped),
    °C; None where it was not told apart. `next_group`: what one more group will measure, its vessels as usual. `shares`: every group with its
    weight, the mean without it, and whether it is suspect. `left_out`: (name, reason) of runs without a number. `asked`: whether it was said
    who used which thermometers; `shared_files`: groups whose runs come from one file. `verdict`: 'warmer', 'cooler' or 'cannot tell'.
    """

    shares: tuple
    mean: Estimate
    plain_mean: Estimate
    spread: Estimate
    side: Estimate | None
    next_group: Estimate
    left_out: tuple
    asked: bool
    shared_files: tuple
    verdict: str
    reason: str

    @property
    def comparable(self):
        """The number that other results can be compared with."""
        return self.mean

    @property
    def allowance_c(self):
        """How far a drift that all groups share may have moved the mean at most, °C; more groups don't average it out."""
        parts = self.mean.parts
        return max(-parts.drift_low, parts.drift_high, 0.0) if parts else 0.0

    @property
    def suspects(self):
        """The groups that are named suspect or lie far off."""
        return tuple(share for share in self.shares if share.suspect)

    @property
    def swaps(self):
        """{group: what place and vessel do, °C} for the groups that made runs with their vessels swapped, too."""
        return {share.name: share.group.swap for share in self.shares if share.group.swap}

    @property
    def cautions(self):
        """What to keep in mind."""
        return class_cautions(self)

    def explain(self):
        """A short plain account of how the class's numbers were worked out."""
        return Account(class_explained(self))

    def __str__(self):
        return class_sentence(self)

    def _repr_html_(self):
        shown = self.shares if len(self.shares) <= MOST_ROWS else sorted(self.shares, key=lambda share: not share.suspect)[:MOST_NAMED]
        groups = [(share.name, f"{share.warming.text}; weight {percent(share.weight)}") for share in shown]
        groups += [("and", f"{counted(len(self.shares) - len(shown), 'more group')}, in shares")] if len(shown) < len(self.shares) else []
        side = [("place and vessel", self.side.text)] if self.side else []
        means = [("plain mean", self.plain_mean.text), ("groups differ by", self.spread.text), ("next group", self.next_group.text)]
        return table_html([*groups, *side, *means, ("why", self.reason), *(("mind", each) for each in self.cautions)], str(self))

    def to_dict(self):
        """What JSON can keep."""
        parts = ("mean", "plain_mean", "spread", "side", "next_group", "allowance_c", "left_out", "shared_files", "verdict", "reason", "cautions")
        shares = [{**plain(share), "name": share.name} for share in self.shares]
        return {"shares": shares, **{name: plain(getattr(self, name)) for name in parts}, "sentence": str(self)}


def pooled_class(found, question, *, left_out=(), suspect=(), asked=False, shared=()):
    """The `ClassEffect` of `GroupRuns`, however few."""
    numbers, level = _Numbers.of(found), question.level
    if len(found) == 1:
        return one_group(found[0], question, left_out, suspect)
    pooled = pool(*numbers.all)
    mean, hand = mean_of(found, pooled, question), by_hand(found, numbers, question)
    shares = tuple(shares_of(found, pooled, numbers, suspect, question))
    return ClassEffect(
        shares, mean, hand, spread_of(numbers, pooled, level), side_of(pooled, level), next_of(numbers, pooled, level), left_out, asked, shared,
        *why_class(mean, len(found)),
    )  # fmt: skip


@dataclass(frozen=True, eq=False)
class _Numbers:
    """Values and standard errors (°C) and sides of groups, (groups,) each."""

    values: np.ndarray
    errors: np.ndarray
    sides: np.ndarray

    @classmethod
    def of(cls, found):
        return cls(*(np.array(column, float) for column in zip(*((group.value, group.parts.error, group.side) for group in found))))

    @property
    def all(self):
        return self.values, self.errors, self.sides


def one_group(group, question, left_out, suspect):
    """The `ClassEffect` of a single group: its value, and that it can't speak for a class."""
    value, nothing = value_alone(group.value, question.level), Estimate.undetermined(level=question.level)
    share = Share(group, 1.0, nothing, 0.0, group.name in suspect)
    return ClassEffect((share,), value, value, nothing, None, nothing, left_out, True, (), *why_class(value, 1))


def mean_of(found, pooled, question):
    """The class mean with its range: chance and spread by weight, and what all groups may have in common, which does not average out. Its value
    alone where there are too few groups for one."""
    if pooled.dof < 1 or len(found) < FEWEST_POOLED:
        return value_alone(pooled.mean, question.level)
    sides = np.array([group.side for group in found])
    parts = mean_parts(pooled, [group.parts for group in found], sides, question.tolerance_c_per_min * BARE_MIN)
    return ranged(pooled.mean, parts, level=question.level)


def value_alone(value, level):
    """A value without a range."""
    return replace(Estimate.undetermined(level=level), value=value)


def by_hand(found, numbers, question):
    """The plain mean, with what all groups may share."""
    if len(found) < FEWEST_POOLED:
        return value_alone(float(numbers.values.mean()), question.level)
    alike = pool(numbers.values, np.full(len(found), numbers.errors.mean()), numbers.sides)
    mean, error = plain_mean(numbers.values, numbers.sides)
    return mean_of(found, replace(alike, mean=mean, standard_error=error), question)


def spread_of(numbers, pooled, level):
    """How much the groups' true values differ, an `Estimate` in °C."""
    if pooled.dof < 2:
        return Estimate.undetermined(level=level)
    low, high = spread_interval(*numbers.all, level)
    return Estimate(pooled.spread, (high - low) / (2 * coverage_factor(level)), low, high, level)


def side_of(pooled, level):
    """What place and vessel do, an `Estimate` in °C; None where nothing tells it apart."""
    return Estimate.from_error(pooled.side, pooled.side_error, coverage_factor(level, pooled.dof), level=level) if pooled.side_error else None


def next_of(numbers, pooled, level):
    """What one more group will measure, its vessels as usual, an `Estimate` in °C."""
    if len(numbers.values) < FEWEST_PREDICTED or pooled.dof < 2:
        return Estimate.undetermined(level=level)
    error = float(np.hypot(spread_of_next(numbers.errors, pooled), pooled.side_error))
    return Estimate.from_error(pooled.mean + pooled.side, error, coverage_factor(level, pooled.dof), level=level)


def shares_of(found, pooled, numbers, suspect, question):
    """A `Share` for each of two groups or more."""
    means, off, surely = left_out_each(found, numbers, question)
    named, rows = set(suspect), zip(found, pooled.weights.tolist(), means, off.tolist(), (abs(off) > surely).tolist())
    return (Share(group, weight, without, surprise, strange or group.name in named) for group, weight, without, surprise, strange in rows)


def left_out_each(found, numbers, question):
    """(the class mean without each group, how surprising that group is to the others, from where on that is no chance)."""
    if len(found) == 2:
        return [value_alone(value, question.level) for value in numbers.values[::-1].tolist()], np.zeros(2), np.inf
    others = without_each(*numbers.all, [group.parts for group in found], question.tolerance_c_per_min * BARE_MIN)
    off = surprise(numbers.values, numbers.errors, others, numbers.sides)
    if len(found) == FEWEST_POOLED:
        return [value_alone(value, question.level) for value in others.mean.tolist()], off, np.inf
    return others.ranged(question.level), off, coverage_factor(1 - FAR_OFF_CHANCE / len(found), others.dof)
