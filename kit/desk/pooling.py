"""The class's runs pooled, with what the teacher knows of how they stood; and what to do next."""

from math import isfinite

from kit.analysis.causes import possible_causes, RUNS
from kit.analysis.classes import class_effect
from kit.estimate import amount
from kit.words import counted, listed

FEWEST, ENOUGH = 3, 4  # groups: for a range, and for a forecast of one more (kit.analysis.classes)


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


def next_runs(collected, effect):
    """What the class could do next, the most useful first, each with its reason."""
    count, unread = len(effect.shares), len(collected.unread)
    missing = f"Have {counted(unread, 'file')} handed in again: nobody knows yet what is in {'it' if unread == 1 else 'them'}." if unread else ""
    more = f"Make {counted(ENOUGH - count, 'more run')} in other groups: with {counted(count, 'group')} nobody can say what the next one would find." if count < ENOUGH else ""
    again = f"Run {listed(share.name for share in effect.suspects)} again with the vessels swapped: if the sign of what is odd changes, it was the place." if effect.suspects else ""
    swap = "Let half of the groups swap their vessels: what place and vessel do then cancels." if not _swapped(effect) else ""
    return tuple(filter(None, (missing, more, again, swap, _which_cause(effect))))


def _swapped(effect):
    return any(share.group.side < 1 for share in effect.shares)


def _which_cause(effect):
    """The run that would tell the causes apart which could have made the class mean."""
    if not isfinite(effect.mean.low):
        return ""
    kinds = possible_causes(effect.mean).next_runs
    return f"To tell why it got warmer, make {RUNS[kinds[0]]}: of all runs it separates the most causes. {_size(effect)}" if kinds else ""


def _size(effect):
    return f"So far {amount(effect.mean.value)} °C could have more than one cause."
