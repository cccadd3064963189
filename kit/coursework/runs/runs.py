"""A learner's own runs: for each one file in `runs/`, beside the notebook, that holds how it is read and all that was decided since.

Such a file is a file of answers, so everything is added and nothing overwritten. The readings stay where they are, in the run's own file.
"""

from dataclasses import dataclass
from pathlib import Path

from kit.coursework.answers import add_answer, Answer, Kept, peek_at_answers
from kit.coursework.runs.deciding import CARD, decided_run, decisions_of, KIND
from kit.coursework.runs.filing import safe_name
from kit.faults import Fault
from kit.storage import here

FOLDER = "runs"
OWN_CARD, BROUGHT, OPENED = "run", "brought", "opened"
NO_FILE = "{file} is no longer beside this notebook. Put it back there, or bring the run in again."


@dataclass(frozen=True)
class OwnRun:
    """One of a learner's runs: its `file` beside the notebook, the `keywords` that read it, and all that was `kept` about it in `path`."""

    path: Path
    file: str
    keywords: dict
    kept: Kept

    @property
    def opened(self):
        """When it was brought in or opened last, as ISO 8601."""
        return self.kept.latest(OWN_CARD, BROUGHT, OPENED).at


def own_runs(folder="."):
    """The `OwnRun`s kept in `folder`, the one that was open last first. What can't be read is passed over and stays as it is."""
    found = [_own_run(path, peek_at_answers(path)) for path in sorted(here(Path(folder, FOLDER)).glob("*.json"))]
    return tuple(sorted(filter(None, found), key=lambda each: (each.opened, each.path.stat().st_mtime_ns), reverse=True))


def remember(file, keywords, folder="."):
    """Note down that `file`, which lies in `folder`, is a run of the learner's and is read with `keywords`; gives the path of the note."""
    path = _note_of(file, folder)
    add_answer(path, Answer(OWN_CARD, BROUGHT, {"file": str(file), "keywords": keywords}))
    return path


def remembered(folder="."):
    """(file, keywords, decisions on its odd places) of the run that was open last and whose file is there, or None."""
    there = (each for each in own_runs(folder) if Path(folder, each.file).is_file())
    return next(((each.file, each.keywords, decisions_of(each.kept)) for each in there), None)


def decide_run(file, decisions, folder="."):
    """Note down what was decided about odd places of the run in `file`: (key, (choice, reason)) pairs."""
    for place, (choice, reason) in decisions:
        add_answer(_note_of(file, folder), Answer(CARD, KIND, {"place": place, "choice": choice, "reason": reason}))


def _note_of(file, folder):
    return here(Path(folder, FOLDER, f"{safe_name(str(file).replace('/', '-'))}.json"))


def read_own(own, folder="."):
    """The `Run` of an `OwnRun`, with its odd places as decided. A Fault if its file is gone, or can't be read as it was."""
    return decided_run(read_as_recorded(own, folder), decisions_of(own.kept))


def read_as_recorded(own, folder="."):
    """The same with every reading that is in its file."""
    from kit.intake import read_run  # with pandas, which a mere list of runs has no need of

    path = Path(folder, own.file)
    if not path.is_file():
        raise Fault(NO_FILE.format(file=own.file))
    return read_run(path, **own.keywords)


def kept_windows(own):
    """The `Windows` of the effect that was kept last for an `OwnRun`; None where none was kept."""
    from kit.records import Windows  # with pandas, too

    told = own.kept.latest("effect", "kept")
    return told and Windows(*map(tuple, told.content["windows"]))


def _own_run(path, kept):
    """The `OwnRun` in a file of answers; None where it names no file."""
    brought = kept.latest(OWN_CARD, BROUGHT)
    if brought is None or not isinstance(brought.content.get("keywords"), dict):
        return None
    return OwnRun(path, str(brought.content.get("file")), brought.content["keywords"], kept)
