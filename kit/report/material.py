"""What a report is made from: the runs with marks in a learner's folder, and all that was predicted, answered and written there."""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from kit.bench import example_kind
from kit.coursework import (
    decided_run, decisions_of, Kept, kept_marks, kept_windows, margin_c, marked_hashes, own_runs, peek_at_answers, read_as_recorded, read_lesson,
    run_kind,
)  # fmt: skip
from kit.examples import example_names, example_path, example_run, SETTLED
from kit.faults import Fault
from kit.report.classwork import class_work, ClassWork
from kit.settings import class_settings

ANSWERS = "*answers.json"


@dataclass(frozen=True, eq=False)
class Evidence:
    """One run with the learner's windows on it. `data`: its file's bytes, as recorded; `keywords`: how `read_run` took them in, `read_so` what
    that said; `decisions`: the answers kept for an own run."""

    run: object
    windows: object
    data: bytes
    keywords: dict
    own: bool
    decisions: tuple = ()
    read_so: tuple = ()

    @property
    def kind(self):
        """What kind of run it is ('gas', 'covered'); '' where nobody said."""
        return run_kind(Kept(self.decisions)) if self.own else example_kind(Path(self.file).stem)

    @property
    def odd_places(self):
        """((the place's sentence, what was decided, why), …): first those that somebody decided on, then those that stand as they are."""
        told = decisions_of(Kept(self.decisions))
        others = [str(place) for place in self.run.odd_places() if str(place) not in dict(told)]
        return (*((place, *said) for place, said in told), *((place, "", "") for place in others))

    @property
    def file(self):
        """The run's file name."""
        return Path(self.run.source.name.split("#")[0]).name


@dataclass(frozen=True, eq=False)
class Material:
    """`evidence`: own runs first, the newest last; `written`: (Lesson, Kept) for each lesson with answers; `faults`: what could not be taken in.
    `tolerance_c_per_min`: what the class's settings say, so that the numbers come out alike elsewhere. `class_`: a `ClassWork`, or None."""

    evidence: tuple
    written: tuple
    faults: tuple = ()
    tolerance_c_per_min: float | None = None
    class_: ClassWork | None = None

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
    own = _taken(faults, [lambda each=each: _own_evidence(each, folder) for each in reversed(own_runs(folder))])
    marked = _marked_examples(folder, {piece.run.source.sha256 for piece in own})
    bundled = _taken(faults, [lambda name=name: _bundled_evidence(name, folder) for name in marked])
    written = _taken(faults, [lambda path=path: _lesson_with(path, folder) for path in sorted(Path(folder).glob(ANSWERS))])
    newest = {lesson.number: (lesson, kept) for lesson, kept in sorted(written, key=lambda each: each[1].answers[-1].at)}  # of a lesson's copies
    judged = class_settings(folder)["tolerance_c_per_min"]
    class_ = _taken(faults, [lambda: class_work(folder, own, tuple(newest.values()))])
    return Material(tuple(own + bundled), tuple(newest[number] for number in sorted(newest)), tuple(faults), judged, *class_)


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
    """One of the learner's own runs, under the windows of the effect that was kept, else under those last marked."""
    recorded = read_as_recorded(own, folder)
    windows = kept_windows(own) or kept_marks(recorded, folder)
    run = decided_run(recorded, decisions_of(own.kept))
    data = Path(folder, own.file).read_bytes()
    return windows and Evidence(run, windows, data, own.keywords, True, own.kept.answers, recorded.remarks)


def _marked_examples(folder, taken):
    """Names of the bundled runs for which marks are kept: their file begins with the run's hash. One whose bytes are `taken` was brought in."""
    kept = marked_hashes(folder)
    hashes = {name: sha256(example_path(name).read_bytes()).hexdigest() for name in example_names()} if kept else {}
    return [name for name, hash_ in hashes.items() if hash_[:16] in kept and hash_ not in taken]


def _bundled_evidence(name, folder):
    run = example_run(name)
    windows = kept_marks(run, folder)
    return windows and Evidence(run, windows, example_path(name).read_bytes(), SETTLED.get(name, {}), False, read_so=run.remarks)


def _lesson_with(path, folder):
    """(Lesson, Kept) of a file of answers; None where it holds none."""
    kept = peek_at_answers(path)
    number = next((answer.card.split(".")[0] for answer in kept.answers), None)
    return number and (read_lesson(number, folder), kept)
