"""From runs to groups: one number a group, with what its vessels share told apart from what is its own."""

from dataclasses import dataclass, replace
from math import isfinite

from kit.analysis.comparison import number_of
from kit.analysis.effect import Effect, paired_effect, suggest_windows
from kit.estimate import Estimate, Parts
from kit.faults import Fault
from kit.records import Run, Windows
from kit.statistics import parts_of, ranged, welch_dof
from kit.words import some


@dataclass(frozen=True)
class GroupRuns:
    """One group's own answer: `name`, the names of its `runs`, its `warming` as it would stand alone (°C), its `value` (°C) and the `parts`
    that pooling needs. `side`: 1 where its vessels stood as usual, −1 where they had changed roles, between where it did both; `swap`: half
    the difference between its usual and its swapped runs, what place and vessel do (°C), None without both."""

    name: str
    runs: tuple
    warming: Estimate
    value: float
    parts: Parts
    side: float = 1.0
    swap: Estimate | None = None


def named_results(runs, windows, tolerance_c_per_min, level):
    """({name: Effect or Estimate}, ((name, why it is left out), ...)) for a ClassRuns, a list of Runs or Effects, or a dict by name."""
    found, out = {}, list(_unread(runs))
    for name, thing in _by_name(runs):
        if name in found:
            raise Fault(f"Two runs are named {name}. Give each its own name, so that none counts twice.")
        try:
            result = _effect(thing, _windows_of(windows, name, thing), tolerance_c_per_min, level) if isinstance(thing, Run) else thing
        except Fault as fault:
            out.append((name, str(fault)))
            continue
        number = number_of(result)
        if isfinite(number.value) and parts_of(number, tolerance_c_per_min).known:
            found[name] = result
        else:
            out.append((name, getattr(result, "reason", "It has no value with an uncertainty.")))
    return found, tuple(out)


def _by_name(runs):
    if isinstance(runs, dict):
        return list(runs.items())
    return [(_name(thing), thing) for thing in getattr(runs, "runs", runs)]


def _name(thing):
    if isinstance(thing, Run):
        return thing.name
    if isinstance(thing, Effect):
        return thing.run.name
    raise Fault(f"A class is made of runs or effects, or of a dict of named Estimates. This was among them: {type(thing).__name__}.")


def _unread(runs):
    """(file, why) of the files that the class folder could not read."""
    return [(fault.file or "A file", f"{fault.what} {fault.do}".strip()) for fault in getattr(runs, "faults", ())]


def _windows_of(windows, name, run):
    if windows is None:
        return suggest_windows(run)
    if isinstance(windows, Windows):
        return windows
    if name not in windows:
        raise Fault(f"There are no windows for the run {name}. Mark them, or leave windows out to have them suggested.")
    return windows[name]


def _effect(run, windows, tolerance_c_per_min, level):
    return paired_effect(run, windows, level=level, tolerance_c_per_min=tolerance_c_per_min)


def gathered(results, groups, swapped, question):
    """The `GroupRuns` of named `results`; `groups` names the group of a run (a run not in it is its own group), `swapped` the runs
    in which the vessels' roles were exchanged."""
    single, turned = {}, set(swapped)
    for name, result in results.items():
        number = number_of(result)
        parts = parts_of(number, question.tolerance_c_per_min)
        single[name] = GroupRuns(name, (name,), number, number.value, parts, -1.0 if name in turned else 1.0)
    return together(single, groups, question.level)


def together(several, names, level):
    """`GroupRuns` of {name: GroupRuns}, those with the same name in `names` (a dict, by their own name) made one; the others stay."""
    members = {}
    for name, group in several.items():
        members.setdefault(names.get(name, name), []).append(group)
    return tuple(replace(alike[0], name=name) if len(alike) == 1 else _one(name, alike, level) for name, alike in members.items())


def one_file(results):
    """Names of results whose runs come from one and the same file: they may well share a pair of thermometers."""
    files = {}
    for name, result in results.items():
        if isinstance(result, Effect):
            files.setdefault(result.run.source.name, []).append(name)
    return tuple(name for names in files.values() if len(names) > 1 for name in names)


def refuse_unknown(known, named):
    """Raise a Fault when a setting, {its word: names}, names something that is not `known`."""
    there = set(known)
    for setting, names in named.items():
        strange = [name for name in names if name not in there]
        if strange:
            raise Fault(f"{setting} names {strange[0]!r}, but the class has no such name. It has {some(known)}.")


def _one(name, several, level):
    """One `GroupRuns` from several that share their vessels or thermometers: a plain mean."""
    value, parts, side = _mean(several)
    runs = tuple(run for group in several for run in group.runs)
    return GroupRuns(name, runs, ranged(value, parts, level=level), value, parts, side, _swap(several, level))


def _mean(several):
    """(value, `Parts`, side) of the mean. A drift that belongs to a place or a vessel has the other sign in a swapped run, and cancels."""
    count, made = len(several), [group.parts for group in several]
    side = sum(group.side for group in several) / count
    error = sum(parts.error**2 for parts in made) ** 0.5 / count
    gain = sum(parts.gain for parts in made) / count
    drift = [abs(side) * sum(getattr(parts, name) for parts in made) / count for name in ("drift_low", "drift_high")]
    carried, carried_error = sum(parts.carried for parts in made) / count, sum(parts.carried_error**2 for parts in made) ** 0.5 / count
    dof = welch_dof([parts.error for parts in made], [parts.dof for parts in made])
    return sum(group.value for group in several) / count, Parts(error, dof, gain, *drift, carried, carried_error), side


def _swap(several, level):
    """Half of (usual − swapped): by how much place and vessel alone make one of the two warmer, °C."""
    halves = [[group for group in several if group.side * sign > 0] for sign in (1, -1)]
    if not all(halves):
        return None
    (usual, first, _), (turned, second, _) = (_mean(half) for half in halves)
    error, gain = (sum(getattr(parts, name) ** 2 for parts in (first, second)) ** 0.5 / 2 for name in ("error", "gain"))
    return ranged((usual - turned) / 2, Parts(error, min(first.dof, second.dof), gain), level=level)
