"""What a learner answered, kept in a file beside the notebook: every answer is added, none is overwritten."""

import json
import os
from dataclasses import asdict, dataclass, field
from datetime import datetime
from itertools import count
from pathlib import Path

from kit.bootstrap.locking import in_turn
from kit.faults import Fault
from kit.storage import here, write_atomically

DAMAGE = (ValueError, TypeError, KeyError, RecursionError)  # what reading a damaged file raises


@dataclass(frozen=True)
class Answer:
    """One answer: the card's id ('00.warmer'), its kind ('prediction', 'note', …), what was answered, and the local time it was kept."""

    card: str
    kind: str
    content: dict = field(default_factory=dict)
    at: str = field(default_factory=lambda: datetime.now().astimezone().isoformat(timespec="seconds"))


@dataclass(frozen=True)
class Kept:
    """All answers of one lesson in the order they were given; `remark` says what happened to a file that could not be read."""

    answers: tuple = ()
    remark: str = ""

    def of(self, card, *kinds):
        """The answers of one card, oldest first; of some kinds only, if any are named."""
        return tuple(each for each in self.answers if each.card == card and (not kinds or each.kind in kinds))

    def latest(self, card, *kinds):
        """The newest answer of a card (of those kinds), or None."""
        return next(iter(reversed(self.of(card, *kinds))), None)


def this_notebook():
    """The notebook that this Python serves, as the Jupyter server has named it; None elsewhere."""
    named = os.environ.get("JPY_SESSION_NAME", "")
    return Path(named) if named.endswith(".ipynb") else None


def answers_beside(notebook):
    """Where the answers given in a notebook are kept: beside it, under its name. A copy under another name has its own."""
    return notebook.with_name(f"{notebook.stem}-answers.json")


def answers_path(lesson, folder=None):
    """Where the answers given here are kept: beside this notebook; without a notebook in `folder` (or the working folder), by lesson."""
    notebook = this_notebook() if folder is None else None
    return answers_beside(notebook or Path(folder or here()) / f"{lesson}.ipynb")


def read_answers(path):
    """The answers kept in `path`, none if there is no such file. A damaged file is set aside whole, and `remark` names it."""
    try:
        return _read(path)
    except OSError as problem:
        what = f"Your answers in {path.name} could not be opened ({problem.strerror})."
        raise Fault(f"{what} Ask for help with the folder, then run this cell again.") from problem
    except DAMAGE:
        return Kept(remark=_set_aside(path))


def peek_at_answers(path):
    """The answers kept in `path`; none where they can't be read. Changes nothing on the disk."""
    try:
        return _read(path)
    except (OSError, *DAMAGE):
        return Kept()


def _read(path):
    try:
        kept = json.loads(path.read_text(encoding="utf-8"))["answers"]
    except FileNotFoundError:
        return Kept()
    return Kept(tuple(map(answer_of, kept)))


def add_answer(path, answer, known=()):
    """Add `answer` to the file at `path` and give all that it now holds. `known` answers that the file has lost are written again.

    A note that only grew takes the place of the text it continues.
    """
    with in_turn(path.with_name(f".{path.stem}.lock")):  # the same lesson may be open twice, with a kernel each
        return _added(path, answer, known)


def _added(path, answer, known):
    found = read_answers(path)
    earlier = [*(each for each in known if each not in found.answers), *found.answers]
    answers = (*(each for each in earlier if not _continues(answer, each)), answer)
    try:
        write_atomically(path, json.dumps({"answers": [asdict(each) for each in answers]}, ensure_ascii=False, indent=1))
    except OSError as problem:
        what = f"This could not be kept in {path.name} ({problem.strerror})."
        raise Fault(f"{what} Free some space or ask for help with the folder, then try again.") from problem
    return Kept(answers, found.remark)


def answer_of(table):
    """The `Answer` that a file holds as a table. TypeError where it is none."""
    answer = Answer(**table)
    if not (isinstance(answer.content, dict) and all(isinstance(each, str) for each in (answer.card, answer.kind, answer.at))):
        raise TypeError("an answer holds a card, a kind and a time as text, and its content under names")
    return answer


def _continues(answer, earlier):
    same_note = (answer.card, answer.kind, "note") == (earlier.card, earlier.kind, earlier.kind)
    return same_note and answer.content["text"].startswith(earlier.content["text"])


def _set_aside(path):
    aside = next(each for n in count(1) if not (each := path.with_name(f"{path.stem}-damaged-{n}.json")).exists())
    try:
        path.replace(aside)
    except OSError as problem:
        what = f"{path.name} is damaged and could not be set aside ({problem.strerror})."
        raise Fault(f"{what} Rename it, then run this cell again.") from problem
    return f"The file {path.name} could not be read. It is kept unchanged as {aside.name}; new answers go into a new file."
