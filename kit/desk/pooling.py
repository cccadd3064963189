"""The class's runs pooled, with what the teacher knows of how they stood; and what to do next."""

from math import isfinite

from kit.analysis.causes import possible_causes, RUNS
from kit.analysis.classes import class_effect
from kit.units import about
from kit.words import counted, listed

SWAPPED = "swapped"  # what is kept of a run whose vessels had changed places
ENOUGH = 4  # groups, for a forecast of one more (kit.analysis.classes)
CODED = ("thermometers", "one-file")  # cautions that tell which keyword to type
SIGN = "if what is odd changes its sign, it was the place."
UNSAID = "Nobody has said whether each group had thermometers of its own. Groups that share them err alike, and the range would be too narrow."


def pool_runs(collected, swapped=(), own_thermometers=False):
    """The `ClassEffect` of a `Collected`. `swapped`: names of runs whose vessels had changed places. A Fault where no run gives a number."""
    effects = {made.name: made.effect for made in collected.runs if made.effect}
    groups = {made.name: made.group for made in collected.runs if made.effect}
    several = {name: group for name, group in groups.items() if list(groups.values()).count(group) > 1}
    known = [name for name in swapped if name in effects]
    return class_effect(effects, groups=several, swapped=known, thermometers="own" if own_thermometers else None)


def suspect_runs(collected, effect):
    """Names of the runs to look at again: without a number, far from the others, or with no sign of the gas."""
    far = {name for share in effect.suspects for name in share.group.runs} if effect else set()
    return tuple(made.name for made in collected.runs if made.effect is None or not isfinite(made.effect.warming.value) or made.name in far)


def open_points(effect):
    """The cautions of a `ClassEffect` as sentences, for people who don't type code."""
    return tuple(UNSAID if caution.code in CODED else str(caution) for caution in effect.cautions)


def next_runs(collected, effect):
    """What the class could do next, the most useful first, each with its reason."""
    count, unread = len(effect.shares), len(collected.unread)
    told = (
        unread and f"Have {counted(unread, 'file')} handed in again: nobody knows yet what is in {'it' if unread == 1 else 'them'}.",
        count < ENOUGH and f"Make {counted(ENOUGH - count, 'more run')} in other groups: {counted(count, 'group')} can't say what the next one would find.",
        effect.suspects and f"Run {listed(share.name for share in effect.suspects)} again with the vessels swapped: {SIGN}",
        not _swapped(effect) and "Let half of the groups swap their vessels: what place and vessel do then cancels.",
        _which_cause(effect),
    )
    return tuple(filter(None, told))


def _swapped(effect):
    return any(share.group.side < 1 for share in effect.shares)


def _which_cause(effect):
    """The run that would tell the causes apart which could have made the class mean."""
    if not isfinite(effect.mean.low):
        return ""
    kinds = possible_causes(effect.mean).next_runs
    size = f"{about(effect.mean.value)} could have more than one cause."
    return f"{size} Of all runs this one separates the most: {RUNS[kinds[0]]}." if kinds else ""
