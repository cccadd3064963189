"""What the learners of a served class did, taken out of their folders as if they had handed it in, and how far the class is, without names.

A learner's code may have put anything there: no link is followed, only plain files are read, each no larger than a record can be, and every
number is worked out anew. Nothing in their folders is changed.
"""

import os
import stat
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from kit.analysis.effect import paired_effect
from kit.coursework import next_step, outlines, own_runs
from kit.faults import Fault
from kit.intake.classes import RECORDS
from kit.report import hand_in
from kit.storage import write_atomically
from kit.units import difference
from kit.words import counted

LARGEST_BYTES, MOST_FILES = 64 * 2**20, 500
LEFT_OUT = {".ipynb", ".part"}
PLAIN = "class"  # a learner's own folder for records to hand in as they are
ELSEWHERE = "A run in that folder is said to lie elsewhere ({}). It was not looked for."


def bring_served(homes, into):
    """Make a hand-in of each learner's folder in `homes` and put it into `into`, as `learner-NN.zip`; records in `NN/class` go beside it.

    Gives {number: None, or why nothing came}. What was brought before is replaced.
    """
    told = {}
    for home in sorted(path for path in Path(homes).iterdir() if path.is_dir() and not path.is_symlink()):
        with TemporaryDirectory(prefix="kit-served-") as scratch:
            try:
                copy_work(home, Path(scratch))
                refuse_elsewhere(scratch)
                made = hand_in(f"learner {home.name}", scratch)
                write_atomically(Path(into, f"learner-{home.name}.zip"), made.path.read_bytes())
                told[home.name] = None
            except (Fault, OSError) as problem:
                told[home.name] = str(problem)
            for record in sorted(path for path in Path(scratch, PLAIN).glob("*") if path.suffix.lower() in RECORDS):
                write_atomically(Path(into, f"learner-{home.name}", record.name), record.read_bytes())
    return told


def copy_work(home, into):
    """Copy the plain files of a learner's folder that hold work; hidden folders and notebooks are left out."""
    copied = 0
    for folder, folders, files, here in os.fwalk(home):
        folders[:] = [name for name in folders if not name.startswith(".")]
        for name in files:
            if Path(name).suffix not in LEFT_OUT and not name.startswith(".") and (data := plain_bytes(name, here)) is not None:
                copied += 1
                if copied > MOST_FILES:
                    raise Fault(f"There are more than {MOST_FILES} files in that folder. Somebody should look into it.")
                write_atomically(into / os.path.relpath(folder, home) / name, data)


def plain_bytes(name, folder):
    """The bytes of a plain file in the open folder; None for a link, a device, a pipe, or a file too large."""
    try:
        file = os.open(name, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK, dir_fd=folder)
    except OSError:
        return None
    found = os.fstat(file)
    if not stat.S_ISREG(found.st_mode) or found.st_size > LARGEST_BYTES:
        os.close(file)
        return None
    with os.fdopen(file, "rb") as opened:
        return opened.read(LARGEST_BYTES)


def refuse_elsewhere(folder):
    for own in own_runs(folder):
        if Path(own.file).name != own.file or "\\" in own.file:
            raise Fault(ELSEWHERE.format(own.file))


@dataclass(frozen=True)
class ClassProgress:
    """How far a class is: `steps` (a Counter of what each does now), `marks` ({run's name: °C of warming by each learner's windows})."""

    steps: Counter
    marks: dict

    def __str__(self):
        lines = [f"{place}: {counted(number, 'learner')}" for place, number in sorted(self.steps.items())]
        return "\n".join([*lines, *(said_of(name, values) for name, values in sorted(self.marks.items()))])


def said_of(name, values):
    low, middle, high = (difference(value, 2) for value in (min(values), median(values), max(values)))
    if len(values) == 1:
        return f"{name} was marked once: {middle}."
    return f"{name} was marked by {len(values)}: from {low} to {high}, the middle {middle}. That is one run read {len(values)} times, not {len(values)} runs."


def progress_in(packages, lessons):
    """The `ClassProgress` of the class that handed these packages in."""
    by_number = {outline.number: outline for outline in outlines(lessons)}
    steps, marks = Counter(), {}
    for package in packages:
        written = [(lesson, kept) for lesson, kept in package.material.written if lesson.number in by_number and kept.answers]
        if written:
            lesson, kept = max(written, key=lambda each: each[1].answers[-1].at)
            step = next_step(by_number[lesson.number], lesson, kept, bool(package.material.evidence))
            steps[f"{lesson.label}, {f'step {step.number}' if step else 'all done'}"] += 1
        for piece in package.material.evidence:
            if not piece.own:
                add_reading(marks, piece)
    return ClassProgress(steps, marks)


def add_reading(marks, piece):
    """The warming by one learner's windows, worked out anew; nothing where these windows give none."""
    try:
        value = paired_effect(piece.run, piece.windows).warming.value
    except Fault:
        return
    if value == value:
        marks.setdefault(piece.run.name, []).append(value)
