"""The class in a report: the runs that its board was made from, and their pooled effect."""

from dataclasses import dataclass, replace
from pathlib import Path

from kit.analysis.classes import class_effect
from kit.examples import example_class
from kit.intake.classes import ClassRuns, read_class

FOLDER, EXAMPLE = "class", "example"


@dataclass(frozen=True, eq=False)
class ClassWork:
    """The class that a learner looked at: its `runs` (`ClassRuns`); `invented` where they are the kit's own."""

    runs: ClassRuns
    invented: bool = False

    def effect(self, tolerance_c_per_min):
        """The `ClassEffect`, every run under the windows that the kit suggests."""
        return class_effect(self.runs, tolerance_c_per_min=tolerance_c_per_min)


def class_work(folder, own):
    """The `ClassWork` in a learner's folder: the folder `class`, else the kit's invented groups, if the learner laid a run among them; else None.

    A Fault where the folder holds no run that can be read.
    """
    path = Path(folder, FOLDER)
    if path.is_dir() and any(path.iterdir()):
        return ClassWork(read_class(path, progress=lambda _said: None))
    joined = [piece.run for piece in own if _joined(piece)]
    if not joined:
        return None
    groups = example_class()
    return ClassWork(replace(groups, runs=(*groups.runs, *joined)), invented=True)


def _joined(piece):
    told = [answer for answer in piece.decisions if (answer.card, answer.kind) == ("class", "added")]
    return bool(told) and told[-1].content.get("to") == EXAMPLE
