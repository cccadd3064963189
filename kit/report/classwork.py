"""The class in a report: its runs, who was left out of it and why, and their pooled effect."""

from dataclasses import dataclass, field, replace
from pathlib import Path

from kit.analysis.classes import class_effect
from kit.analysis.effect import paired_effect
from kit.coursework import class_choices, Kept, kept_marks
from kit.examples import example_class
from kit.intake.classes import ClassRuns, read_class

FOLDER, EXAMPLE, OWN = "class", "example", "own"
NO_REASON = "no reason was given"


@dataclass(frozen=True, eq=False)
class ClassWork:
    """The class that a learner looked at: its `runs` (`ClassRuns`), the `windows` marked on some of them, by run name; `left_out`, ((group, why), …),
    and the runs `turned`, whose vessels had changed places. `invented`: the groups are the kit's own."""

    runs: ClassRuns
    windows: dict = field(default_factory=dict)
    left_out: tuple = ()
    turned: tuple = ()
    invented: bool = False

    def effect(self, tolerance_c_per_min):
        """The `ClassEffect` of those that count; a run without marks is read in the windows that the kit suggests."""
        counting = [run for run in self.runs if self._group(run) not in dict(self.left_out)]
        read = tuple(self._read(run, tolerance_c_per_min) for run in counting)
        swapped = [run.name for run in counting if run.name in self.turned]
        return class_effect(replace(self.runs, runs=read), swapped=swapped, tolerance_c_per_min=tolerance_c_per_min)

    def _group(self, run):
        return (self.runs.groups or {}).get(run.name, run.name)

    def _read(self, run, tolerance_c_per_min):
        windows = self.windows.get(run.name)
        return paired_effect(run, windows, tolerance_c_per_min=tolerance_c_per_min) if windows else run


def class_work(folder, own, written):
    """The `ClassWork` in a learner's folder, None where there is no class: the one chosen in lesson 09, else the folder `class`, else the kit's
    invented groups, if the learner's run was laid among them or their board was changed. A Fault where that class can't be read."""
    kept = next((kept for lesson, kept in written if lesson.number == "09"), Kept())
    runs, invented = _runs(Path(folder), own, kept)
    if runs is None:
        return None
    choices = class_choices(kept, runs.name)[-1:]
    told = (choices[0].left_out, choices[0].turned) if choices else ((), ())
    windows = {run.name: marks for run in runs if (marks := kept_marks(run, folder))}
    return ClassWork(runs, windows, *told, invented)


def _runs(folder, own, kept):
    """(the class's runs or None, are they invented?)."""
    chosen = kept.latest("09.class", "class")
    source = str(chosen.content.get("source", "")) if chosen else ""
    if source == OWN:
        return ClassRuns("of my own runs", tuple(piece.run for piece in own)), False
    path = next((path for name in (source, FOLDER) if name and _holds_files(path := folder / name)), None)
    if path:
        return read_class(path, progress=lambda _said: None), False
    groups, joined = example_class(), tuple(piece.run for piece in own if _joined(piece))
    return (replace(groups, runs=(*groups.runs, *joined)), True) if joined or class_choices(kept, groups.name) else (None, False)


def _holds_files(path):
    return path.is_file() or path.is_dir() and any(path.iterdir())


def _joined(piece):
    told = Kept(piece.decisions).latest("class", "added")
    return told is not None and told.content.get("to") == EXAMPLE
