"""Who is on the board: every group with its runs, and the class mean of those that count."""

from dataclasses import dataclass, replace
from functools import lru_cache

from kit.analysis.classes import class_effect, pooled_class, together
from kit.analysis.effect import paired_effect
from kit.settings import or_class
from kit.statistics import Terms

APART, JOINED = "apart", "joined"


@dataclass(frozen=True, eq=False)
class Member:
    """A group: its `runs` (a `GroupRuns` each), what else is known of it in `facts` ('time' in min after midnight, 'mouth' in cm), its own `note`."""

    name: str
    runs: tuple
    facts: dict
    note: str = ""

    @property
    def swapped(self):
        """Its runs with the places of the vessels changed."""
        return tuple(run for run in self.runs if run.side < 0)

    def counted(self, pairs):
        """The runs that make its bar: all when the swap `pairs` are joined, else those in the usual places, if it has any."""
        usual = tuple(run for run in self.runs if run.side > 0)
        return self.runs if pairs == JOINED else usual or self.runs

    @lru_cache(maxsize=256)
    def pooled(self, pairs):
        """Its bar: one `GroupRuns`."""
        runs = self.counted(pairs)
        return together({run.name: run for run in runs}, {run.name: self.name for run in runs}, Terms().level)[0]


@dataclass(frozen=True, eq=False)
class Class:
    """All groups of a class, in their order; `run_of(name)` gives a run again; `truth` (°C) is there only where a bench invented them.
    `left_out`: (name, why) of runs without a number. `terms`: what the class's range has to hold."""

    name: str
    members: tuple
    run_of: object
    truth: float | None = None
    left_out: tuple = ()
    terms: Terms = Terms()

    @lru_cache(maxsize=8)
    def turned(self, names):
        """The same class, the runs with these `names` (a tuple) taken for swapped ones."""
        sides = {run.name: -run.side if run.name in names else run.side for each in self.members for run in each.runs}
        members = (replace(each, runs=tuple(replace(run, side=sides[run.name]) for run in each.runs)) for each in self.members)
        return replace(self, members=tuple(members)) if names else self

    @lru_cache(maxsize=64)
    def effect(self, names, pairs):
        """The `ClassEffect` of the groups with these `names`; None without any."""
        found = [each.pooled(pairs) for each in self.members if each.name in names]
        return pooled_class(found, self.terms, asked=True) if found else None


def class_from_runs(runs, windows=None):
    """The `Class` of measured runs: what `read_class` gives, or a list of runs. Runs in one subfolder are one group's.

    `windows`: those that were marked, by run name; the others get the kit's. A Fault where no run gives a number.
    """
    runs_by_name, marked = {run.name: run for run in runs}, windows or {}
    results = [paired_effect(run, marked[run.name]) if run.name in marked else run for run in runs]
    alone = class_effect(results, groups={name: name for name in runs_by_name}, thermometers="own")
    groups, members = getattr(runs, "groups", None) or {}, {}
    for share in alone.shares:
        members.setdefault(groups.get(share.name, share.name), []).append(share.group)
    named = tuple(Member(name, tuple(found), _begun([runs_by_name[run.name] for run in found])) for name, found in members.items())
    unread = tuple((fault.file, str(fault)) for fault in getattr(runs, "faults", ()))
    terms = Terms(tolerance_c_per_min=or_class(None, "tolerance_c_per_min"))
    return Class(getattr(runs, "name", "class"), named, runs_by_name.__getitem__, left_out=(*unread, *alone.left_out), terms=terms)


def _begun(runs):
    """{'time': when the first of a group's runs began}, by the clocks in their records; {} where none shows it."""
    known = [run.clock_min for run in runs if run.clock_min is not None]
    return {"time": min(known)} if known else {}
