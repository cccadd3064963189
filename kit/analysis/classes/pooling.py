"""The whole class: one mean from groups of unequal precision, how much groups differ, and what the next one will find."""

from dataclasses import dataclass, replace
from math import inf, isfinite

import numpy as np

from kit.analysis.classes.groups import GroupRuns, gathered, named_results, refuse_unknown
from kit.analysis.classes.words import class_cautions, class_explained, class_sentence, why_class
from kit.analysis.comparison import Parts, parts_of, ranged
from kit.analysis.basis import refuse_question
from kit.estimate import Estimate
from kit.faults import Fault
from kit.statistics import coverage_factor, plain_mean, pool, Question, spread_interval, spread_of_next, surprise, without_each
from kit.words import Account, plain, table_html

# Two groups can't show how much groups differ; three can't foretell a fourth.
FEWEST_POOLED, FEWEST_FORETOLD = 3, 4
# A group is far off when chance would throw any of the groups that far in one class of twenty.
FAR_OFF_CHANCE = 0.05


def class_effect(runs, windows=None, *, groups=None, swapped=(), suspect=(), level=0.95, tolerance_c_per_min=0.01):
    """The `ClassEffect` of several groups' runs: random-effects mean, spread between groups, what a next group will measure.

    `runs`: what `read_class` gives, a list of Runs or Effects, or a dict of named Effects or Estimates. `windows`: one `Windows` for all
    runs, a dict by run name, or None to have them suggested. `groups`: {run name: group} where a group made several runs, which then
    count as one mean. `swapped`: names of the runs in which the vessels changed roles: what place and vessel do has the other sign there
    and cancels. `suspect`: groups to show with and without; groups far from the others are shown so by themselves, and none is ever
    dropped. The interval holds a drift of `tolerance_c_per_min` that all groups may share. Method: `kit.statistics.pooling`. A Fault
    where no run gives a number or a name is unknown; runs without a number are named in `left_out`.
    """
    refuse_question(Question(level, tolerance_c_per_min))
    results, left_out = named_results(runs, windows, tolerance_c_per_min, level)
    if not results:
        raise Fault(
            f"No run of this class gives a number. {' '.join(f'{name}: {why}' for name, why in left_out[:1]) or 'It holds no runs.'}"
        )
    without = [name for name, _ in left_out]
    refuse_unknown([*results, *without], {"groups": groups or (), "swapped": swapped})
    found = gathered(results, groups or getattr(runs, "groups", None) or {}, swapped, level)
    refuse_unknown([*(group.name for group in found), *without], {"suspect": suspect})
    return pooled_class(found, left_out, suspect, level)


@dataclass(frozen=True)
class Share:
    """A group in the class: `weight` (they sum to 1), the class mean `without` it (°C), how many standard deviations it lies from
    what the others foretell (`surprise`), and whether it is `suspect`: named so, or far off."""

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

    `spread`: standard deviation of the groups' true values about each other, °C. `next_group`: what one more group will measure.
    `shares`: every group with its weight, the mean without it, and whether it is suspect. `allowance_c`: a drift that all may share,
    which more groups don't average out. `left_out`: (name, reason) of runs without a number. `verdict`: 'warmer', 'cooler' or 'cannot
    tell'.
    """

    shares: tuple
    mean: Estimate
    plain_mean: Estimate
    spread: Estimate
    next_group: Estimate
    parts: Parts
    left_out: tuple
    verdict: str
    reason: str

    @property
    def allowance_c(self):
        """How far a drift that all groups share may have moved the mean, °C."""
        return self.parts.allowance

    @property
    def suspects(self):
        """The groups that are named suspect or lie far off."""
        return tuple(share for share in self.shares if share.suspect)

    @property
    def sides(self):
        """{group: what place and vessel do, °C} for the groups that swapped their vessels."""
        return {share.name: share.group.side for share in self.shares if share.group.side}

    @property
    def cautions(self):
        """What to keep in mind."""
        return class_cautions(self)

    def explain(self):
        """A short plain account of how the class's numbers were reckoned."""
        return Account(class_explained(self))

    def __str__(self):
        return class_sentence(self)

    def _repr_html_(self):
        groups = [(share.name, f"{share.warming.text}; weight {100 * share.weight:.0f} %") for share in self.shares]
        means = [("plain mean", self.plain_mean.text), ("groups differ by", self.spread.text), ("next group", self.next_group.range)]
        return table_html([*groups, *means, ("why", self.reason), *(("mind", each) for each in self.cautions)], str(self))

    def to_dict(self):
        """What JSON can keep."""
        parts = ("mean", "plain_mean", "spread", "next_group", "allowance_c", "left_out", "verdict", "reason", "cautions")
        shares = [{**plain(share), "name": share.name} for share in self.shares]
        return {"shares": shares, **{name: plain(getattr(self, name)) for name in parts}, "sentence": str(self)}


@parts_of.register
def _(effect: ClassEffect):
    return effect.parts if isfinite(effect.mean.high) else Parts(effect.mean.value, inf)


def pooled_class(found, left_out, suspect, level):
    """The `ClassEffect` of `GroupRuns`, however few."""
    values, errors = (np.array([getattr(group.parts, name) for group in found]) for name in ("value", "error"))
    if len(found) == 1:
        return one_group(found[0], left_out, suspect, level)
    pooled = pool(values, errors)
    parts = shared(pooled, found)
    mean, hand = estimate_of(parts, level), by_hand(values, parts, level)
    shares = tuple(shares_of(found, pooled, (values, errors), suspect, level))
    return ClassEffect(shares, mean, hand, *differing(values, errors, pooled, level), parts, left_out, *why_class(mean, len(found)))


def one_group(group, left_out, suspect, level):
    """The `ClassEffect` of a single group: its value, and that it can't speak for a class."""
    value, nothing = value_alone(group.parts.value, level), Estimate.undetermined(level=level)
    share = Share(group, 1.0, nothing, 0.0, group.name in suspect)
    return ClassEffect((share,), value, value, nothing, nothing, group.parts, left_out, *why_class(value, 1))


def shared(pooled, found):
    """The `Parts` of the class mean: what all groups may have in common is added up by weight, with its sign, and does not average out."""
    gain = float(pooled.weights @ [group.parts.gain for group in found])
    allowance = abs(float(pooled.weights @ [group.parts.allowance for group in found]))
    return Parts(pooled.mean, pooled.standard_error, pooled.dof, gain, allowance)


def estimate_of(parts, level):
    """A mean of groups with its range; with its value alone where there are too few groups for one."""
    if parts.dof + 1 < FEWEST_POOLED:
        return value_alone(parts.value, level)
    return ranged(parts.value, parts.standard_error, parts.dof, parts.allowance, level=level)


def value_alone(value, level):
    """A value without a range."""
    return replace(Estimate.undetermined(level=level), value=value)


def by_hand(values, parts, level):
    """The plain mean, with what all groups may share."""
    mean, error = plain_mean(values)
    return estimate_of(replace(parts, value=mean, error=error), level)


def differing(values, errors, pooled, level):
    """Two Estimates, °C: the spread between groups, and what a next group will measure."""
    spread = next_group = Estimate.undetermined(level=level)
    if len(values) >= FEWEST_POOLED:
        low, high = spread_interval(values, errors, level)
        spread = Estimate(pooled.spread, (high - low) / (2 * coverage_factor(level)), low, high, level)
    if len(values) >= FEWEST_FORETOLD:
        next_group = Estimate.from_error(
            pooled.mean, spread_of_next(values, errors, pooled), coverage_factor(level, pooled.dof), level=level
        )
    return spread, next_group


def shares_of(found, pooled, numbers, suspect, level):
    """A `Share` for each group."""
    groups = zip(found, pooled.weights, without_each(*numbers))
    for group, weight, others in groups:
        rest = [each for each in found if each is not group]
        without = estimate_of(shared(others, rest), level) if others else value_alone(rest[0].parts.value, level)
        off = surprise(group.parts.value, group.parts.error, others) if others else 0.0
        far = len(found) >= FEWEST_FORETOLD and abs(off) > coverage_factor(1 - FAR_OFF_CHANCE / len(found), len(found) - 2)
        yield Share(group, float(weight), without, off, far or group.name in suspect)
