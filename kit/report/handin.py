"""`hand_in`: one file for whoever reads a learner's work. It is made on this computer, and nothing leaves it by itself."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from kit.coursework import safe_name
from kit.faults import Fault
from kit.report.findings import findings_of
from kit.report.make import write_whole
from kit.report.material import gather
from kit.report.package import packed, record_of
from kit.words import counted, listed, plain, table_html

STEM = "hand-in"
NOTHING = "There is nothing to hand in yet: no prediction, no note, no run with marks. Do a lesson first, or bring a run in."
STAYS = "Nothing has been sent. Give the file to your teacher in the way that your class agreed on."


@dataclass(frozen=True, eq=False)
class HandIn:
    """What one gives to the teacher. `path`: the file, None as long as it was only looked at; `contents`: sentences on what is in it."""

    path: Path | None
    contents: tuple
    faults: tuple

    def __str__(self):
        if self.path is None:
            return f"The hand-in would hold {counted(len(self.contents), 'thing')}. Nothing is written yet."
        return f"{self.path.name} lies beside this page, {max(1, self.path.stat().st_size // 1000):,} kB. {STAYS}"

    def _repr_html_(self):
        rows = [*(("in it", each) for each in self.contents), *(("not in it", each) for each in self.faults)]
        return table_html(rows, str(self))

    def to_dict(self):
        """What JSON can keep."""
        return plain({"path": self.path and self.path.name, "contents": self.contents, "faults": self.faults})


def look_at_hand_in(folder=None):
    """The `HandIn` that `hand_in` would make now; nothing is written."""
    material = _material(folder)
    return HandIn(None, _contents(material), material.faults)


def hand_in(name="", folder=None):
    """Make `hand-in.zip` in `folder` (without it: the notebook's own) from all that was done there, and give its `HandIn`.

    It holds each run's own file with its hash, the windows, what was decided about odd places, predictions, answers and notes. `name` (a
    group's, say) goes into the file and into its name; without one nobody is named. It is a package like that of `make_report`, and
    `open_report` opens it. Made anew, it takes the place of the last. A Fault where there is nothing to hand in, or no room to write.
    """
    material = _material(folder)
    findings = tuple(findings_of(each, material) for each in material.evidence)
    path = Path(folder or ".") / f"{'-'.join([STEM, *([safe_name(name)] if name.strip() else [])])}.zip"
    write_whole(path, packed({**record_of(material, findings, datetime.now()), "from": name.strip()}, findings))
    return HandIn(path, (*_contents(material), *([f"the name {name.strip()}"] if name.strip() else [])), material.faults)


def _material(folder):
    material = gather(folder or ".")
    if not (material.evidence or material.written):
        raise Fault(NOTHING)
    return material


def _contents(material):
    return (*map(_run, material.evidence), *(_lesson(lesson, kept) for lesson, kept in material.written))


def _run(piece):
    return f"run {piece.run.name}: its file {piece.file}, unchanged, {counted(len(piece.run.readings), 'reading')}, and its windows"


def _lesson(lesson, kept):
    kinds = [answer.kind for answer in kept.answers]
    parts = [counted(kinds.count(kind), word) for kind, word in (("prediction", "prediction"), ("question", "answer"), ("note", "note")) if kind in kinds]
    return f"lesson {lesson.number}, {lesson.title}: {listed(parts) if parts else 'what you opened'}"
