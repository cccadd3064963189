"""What a report is made from: the runs with marks in a learner's folder, and all that was predicted, answered and written there."""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from kit.coursework import FOLDER_OF_MARKS, kept_marks, margin_c, own_runs, peek_at_answers, read_lesson, read_own
from kit.examples import DATASETS, example_names, example_run, SETTLED
from kit.faults import Fault
from kit.settings import class_settings

ANSWERS = "*answers.json"


@dataclass(frozen=True, eq=False)
class Evidence:
    """One run with the learner's windows on it. `data`: its file's bytes, as recorded; `keywords`: how `read_run` took them in."""

    run: object
    windows: object
    data: bytes
    keywords: dict
    own: bool
    decisions: tuple = ()

    @property
    def file(self):
        """The run's file name."""
        return Path(self.run.source.name.split("#")[0]).name


@dataclass(frozen=True, eq=False)
class Material:
    """`evidence`: own runs first; `written`: (Lesson, Kept) for each lesson with answers; `faults`: sentences on what could not be taken in.
    `tolerance_c_per_min`: what the class's settings say, so that the numbers come out alike elsewhere."""

    evidence: tuple
    written: tuple
    faults: tuple = ()
    tolerance_c_per_min: float | None = None

    def latest(self, name):
        """The value that the learner decided on last under `name` ('margin_c'), or None."""
        answers = [answer for _, kept in self.written for answer in kept.answers]
        answers += [answer for piece in self.evidence for answer in piece.decisions]
        told = [answer for answer in answers if name in answer.content]
        return max(told, key=lambda answer: answer.at).content[name] if told else None

    @property
    def margin_c(self):
        """The margin chosen in lesson 08, °C; None while there is none."""
        return next((chosen for _, kept in self.written if (chosen := margin_c(kept))), None)


def gather(folder="."):
    """The `Material` in a learner's folder."""
    faults = []
    own = _taken(faults, [lambda each=each: _own_evidence(each, folder) for each in own_runs(folder)])
    marked = _marked_examples(folder)
    bundled = _taken(faults, [lambda name=name: _bundled_evidence(name, folder) for name in marked])
    written = _taken(faults, [lambda path=path: _lesson_with(path, folder) for path in sorted(Path(folder).glob(ANSWERS))])
    newest = {lesson.number: (lesson, kept) for lesson, kept in sorted(written, key=lambda each: each[1].answers[-1].at)}  # of a lesson's copies
    judged = class_settings(folder)["tolerance_c_per_min"]
    return Material(tuple(own + bundled), tuple(newest[number] for number in sorted(newest)), tuple(faults), judged)


def _taken(faults, makers):
    """What each maker gives; where one raises a Fault, its sentence goes to `faults` instead."""
    made = []
    for make in makers:
        try:
            made.append(make())
        except Fault as fault:
            faults.append(str(fault))
    return [each for each in made if each is not None]


def _own_evidence(own, folder):
    run = read_own(own, folder)
    windows = kept_marks(run, folder)
    data = Path(folder, own.file).read_bytes()
    return windows and Evidence(run, windows, data, own.keywords, True, own.kept.answers)


def _marked_examples(folder):
    """Names of the bundled runs for which marks are kept: their file begins with the run's hash."""
    kept = {path.stem for path in Path(folder, FOLDER_OF_MARKS).glob("*.json")}
    return [name for name in example_names() if kept and sha256((DATASETS / f"{name}.csv").read_bytes()).hexdigest()[:16] in kept]


def _bundled_evidence(name, folder):
    run = example_run(name)
    windows = kept_marks(run, folder)
    return windows and Evidence(run, windows, (DATASETS / f"{name}.csv").read_bytes(), SETTLED.get(name, {}), False)


def _lesson_with(path, folder):
    """(Lesson, Kept) of a file of answers; None where it holds none."""
    kept = peek_at_answers(path)
    number = next((answer.card.split(".")[0] for answer in kept.answers), None)
    return number and (read_lesson(number, folder), kept)
