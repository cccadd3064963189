"""A whole class's records at once, from a folder or a zip: what can be read is read, what can't is named with its reason."""

import csv
from collections import Counter
from dataclasses import dataclass, replace
from pathlib import PurePosixPath

from kit.faults import Fault, IntakeFault
from kit.intake.classes.files import members_of
from kit.intake.given import asked_of, decode
from kit.intake import read_run
from kit.words import counted, plain, table_html

NAMES_TABLE = "names.csv"
PROGRESS_FROM = 10


@dataclass(frozen=True, eq=False)
class ClassRuns:
    """The runs of a class. `faults`: one `IntakeFault` for each file that could not be read. `passed_over`: (file, why) of files that hold no
    record. `groups`: {run name: group} for runs in subfolders. `remarks`: what was noticed about the files together."""

    name: str
    runs: tuple
    faults: tuple = ()
    passed_over: tuple = ()
    groups: dict | None = None
    remarks: tuple = ()

    def __len__(self):
        return len(self.runs)

    def __iter__(self):
        return iter(self.runs)

    def __getitem__(self, name):
        """The run of that name. A Fault lists the names when there is none."""
        for run in self.runs:
            if run.name == name:
                return run
        raise Fault(f"No run here is named {name!r}. The runs are: {', '.join(run.name for run in self.runs)}.")

    def __str__(self):
        unread = f" {counted(len(self.faults), 'file')} could not be read." if self.faults else ""
        return f"Class {self.name}: {counted(len(self.runs), 'run')}.{unread}"

    def _repr_html_(self):
        read = [
            (run.name, f"{counted(len(run.readings), 'reading')} over {run.minutes[-1]:.1f} min, one every {run.step_s:g} s")
            for run in self.runs
        ]
        unread = [("could not be read", fault) for fault in self.faults]
        passed = [("passed over", f"{file}: {why}") for file, why in self.passed_over]
        return table_html([*read, *unread, *passed, *(("noticed", remark) for remark in self.remarks)], str(self))

    def to_dict(self):
        """What JSON can keep: the files, not the readings."""
        runs = [{"name": run.name, "file": run.source.name, "sha256": run.source.sha256, "remarks": list(run.remarks)} for run in self.runs]
        faults = [str(fault) for fault in self.faults]
        return {"name": self.name, "runs": runs, "faults": faults, **plain({"passed_over": self.passed_over, "groups": self.groups})}


def read_class(source, *, progress=print, **keywords):
    """The `ClassRuns` of a folder or a zip file, subfolders included; the files are only read, never changed or unpacked.

    `keywords` are those of `read_run` and hold for every file. A table `names.csv` at the top (columns `file` and `name`) gives runs better
    names than their files have. A run in a subfolder belongs to the group of that name. `progress` is called with a sentence now and then
    when there are more than ten files. A Fault where the source can't be opened, is too large, or holds no record that can be read.
    """
    asked_of(keywords, "read_class")
    made = class_of(*members_of(source), progress=progress, **keywords)
    refuse_empty(made)
    return made


def class_of(title, members, faults=(), passed_over=(), *, progress=print, **keywords):
    """The same of files that were taken in already (`Raw`), with what came of the others; there may be no run among them."""
    names, members, faults = names_told(members, faults)
    runs, unread = [], list(faults)
    for count, raw in enumerate(members, start=1):
        try:
            run = read_run(raw, **keywords)
            runs.append(replace(run, name=names.get(raw.name, run.name)))
        except IntakeFault as fault:
            unread.append(fault)
        if len(members) > PROGRESS_FROM and (count % PROGRESS_FROM == 0 or count == len(members)):
            progress(f"Read {count} of {len(members)} files.")
    runs = with_own_names(runs)
    return ClassRuns(title, tuple(runs), tuple(unread), passed_over, groups_of(runs), same_twice(runs))


def names_told(members, faults):
    """({file: name}, the members without the table of names, the faults with its own if it can't be read)."""
    told = [raw for raw in members if raw.name.lower() == NAMES_TABLE]
    others = [raw for raw in members if raw not in told]
    try:
        return (read_names(told[0]) if told else {}), others, faults
    except IntakeFault as fault:
        return {}, others, (*faults, fault)


def read_names(raw):
    rows = csv.DictReader(decode(raw).utf8.decode().splitlines())
    if not {"file", "name"} <= set(rows.fieldnames or ()):
        raise IntakeFault("The table of names needs the columns 'file' and 'name'.", "Write them in its first line.", file=raw.name, line=1)
    return {row["file"].strip(): row["name"].strip() for row in rows if row["file"] and row["name"]}


def refuse_empty(made):
    if not made.runs:
        first = f" The first reason: {made.faults[0]}" if made.faults else " Put the class's files into it: csv, txt, tsv, dat, log or xlsx."
        raise Fault(f"{made.name} holds no run that can be read.{first}")


def with_own_names(runs):
    """Runs whose names nobody else has: where two files share a name, the subfolder goes before it, then a number behind it."""
    shared = {name for name, count in Counter(run.name for run in runs).items() if count > 1}
    named = [replace(run, name=" ".join((*folders(run), run.name))) if run.name in shared else run for run in runs]
    seen = Counter()
    for place, run in enumerate(named):
        seen[run.name] += 1
        if seen[run.name] > 1:
            named[place] = replace(run, name=f"{run.name} ({seen[run.name]})")
    return named


def folders(run):
    return PurePosixPath(run.source.name).parts[:-1]


def groups_of(runs):
    """{run name: the subfolder it lies in}."""
    return {run.name: folders(run)[-1] for run in runs if folders(run)}


def same_twice(runs):
    """A remark for every record that came twice, byte for byte: it would count twice."""
    first, remarks = {}, []
    for run in runs:
        twin = first.setdefault(run.source.sha256, run)
        if twin is not run:
            remarks.append(
                f"{run.source.name} and {twin.source.name} are the same record, byte for byte. Take one out, or it counts twice."
            )
    return tuple(remarks)
