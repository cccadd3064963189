"""From runs to groups: one number a group, with what its vessels share told apart from what is its own."""

from dataclasses import dataclass, replace

from kit.analysis.effect import Effect, paired_effect, suggest_windows
from kit.analysis.comparison import Parts, parts_of, ranged
from kit.estimate import Estimate
from kit.faults import Fault
from kit.records import Run, Windows
from kit.statistics import welch_dof
from kit.words import listed


@dataclass(frozen=True)
class GroupRuns:
    """One group's own answer: `name`, the names of its `runs`, its `warming` as it would stand alone (°C), and the `parts` that pooling
    needs. `side`: half the difference between its usual and its swapped runs, what place and vessel do (°C); None without both."""

    name: str
    runs: tuple
    warming: Estimate
    parts: Parts
    side: Estimate | None = None


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
        if parts_of(result).known:
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


def gathered(results, groups, swapped, level):
    """The `GroupRuns` of named `results`; `groups` names the group of a run (a run not in it is its own group), `swapped` the runs
    in which the vessels' roles were exchanged."""
    together = {}
    for name in results:
        together.setdefault(groups.get(name, name), []).append(name)
    return tuple(_group(name, {run: results[run] for run in members}, swapped, level) for name, members in together.items())


def refuse_unknown(known, named):
    """Raise a Fault when a setting, {its word: names}, names something that is not `known`."""
    for setting, names in named.items():
        strange = [name for name in names if name not in known]
        if strange:
            raise Fault(f"{setting} names {strange[0]!r}, but the class has no such name. It has {listed(known)}.")


def _group(name, results, swapped, level):
    each = {run: parts_of(result) for run, result in results.items()}
    signs = {run: -1 if run in swapped else 1 for run in each}
    parts = _mean(list(each.values()), list(signs.values()))
    only = next(iter(results.values()))
    alone = (
        getattr(only, "warming", only)
        if len(results) == 1
        else ranged(parts.value, parts.standard_error, parts.dof, abs(parts.allowance), level=level)
    )
    return GroupRuns(name, tuple(results), alone, parts, _side(each, signs, level))


def _mean(several, signs):
    """The mean of some `Parts`. A drift that belongs to a place or a vessel has the other sign in a swapped run, and cancels."""
    count = len(several)
    error = sum(parts.error**2 for parts in several) ** 0.5 / count
    gain = sum(parts.gain for parts in several) / count
    allowance = sum(sign * parts.allowance for sign, parts in zip(signs, several)) / count
    dof = welch_dof([parts.error for parts in several], [parts.dof for parts in several])
    return Parts(sum(parts.value for parts in several) / count, error, dof, gain, allowance)


def _side(each, signs, level):
    """Half of (usual − swapped): by how much place and vessel alone make one of the two warmer, °C."""
    halves = [[parts for run, parts in each.items() if signs[run] == sign] for sign in (1, -1)]
    if not all(halves):
        return None
    usual, turned = (_mean(half, [1] * len(half)) for half in halves)
    both = _mean([usual, replace(turned, value=-turned.value)], [1, 1])
    return ranged(both.value, both.standard_error, both.dof, 0.0, level=level)
