"""Bringing a file or a pasted table in: choose it, see what was understood, settle what is open, keep it, and take the line of code along."""

from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

import traitlets

from kit.coursework import decide_run, decided_in_code, decided_run, keep_unchanged, remember, remembered
from kit.faults import Fault
from kit.intake import asked_further, code_for, look, Reading, with_answers
from kit.intake.given import asked_of, Raw
from kit.widgets.cards import area, bullets, buttons, text
from kit.widgets.intake.handing import code_line, file_choice, first_rows, picks, RunCard, still
from kit.widgets.intake.oddplaces import decision, odd_blocks
from kit.words import counted, listed

HELP = "Choose the file that your logger wrote, or a table that you typed. It is only read, never changed."
HINT = "Or drop the file here. Up to {} MiB: text, CSV or an Excel workbook."
PASTE = "Or paste a table here, with its line of names:"
PASTED = "pasted-table.txt"
NOTHING_YET = "Nothing is brought in yet. Choose a file in the view above, settle what is open and press Keep. Then run this cell again."
KEPT = "Kept unchanged as {name}, beside this notebook."
TAKE = "The line below reads it in any cell."


@dataclass(frozen=True, eq=False)
class Brought:
    """One file on its way in: `source` and the `given` keywords as `read_run` takes them, what was `asked` and answered, and its `Reading`.

    `asked` holds (question, place of the answer or None) pairs; `kept_as` is the name under which the file lies on the disk; `decided` holds
    (key of an odd place, (choice, reason)) pairs.
    """

    source: object
    given: dict
    reading: Reading
    asked: tuple = ()
    kept_as: object = None
    decided: tuple = ()

    @property
    def run(self):
        """The `Run` as its odd places were decided; None while it is not understood."""
        return self.reading.run and decided_run(self.reading.run, self.decided)

    @property
    def keywords(self):
        """Those given, with the answers."""
        return with_answers(self.given, self.asked)


def bring_in(source=None, **keywords):
    """A view that takes in any logger's file: its first rows, what was understood, what is left open, the chart. `view.run` is the `Run`.

    `source` and `keywords` are those of `read_run`, for a file that lies here already; without them the file kept last is shown again. A
    file that is chosen or dropped is kept unchanged beside the notebook once Keep is pressed. `view.code` is the line that reads it.
    """
    asked_of(keywords, "bring_in")
    view, decided = BringIn(decides=True), ()
    if source is None and not keywords:
        source, keywords, decided = remembered() or (None, {}, ())
    if source is not None:
        view.take(source, keywords, kept_as=source, decided=decided)
    return view


class BringIn(RunCard):
    """A file on its way into the notebook. Made by `bring_in`; observe `kept_run` to hear what was kept, as (file, keywords). With `decides`
    its odd places are decided here, too."""

    kept_run = traitlets.Tuple()

    def __init__(self, decides=False):
        self.brought, self.decides = None, decides
        super().__init__(
            "bring-in",
            "Bring in a run",
            self._drawn,
            file=self._handed,
            pasted=self._pasted,
            answer=self._answered,
            keep=self._keep,
            decide=self._decide,
            alike=partial(self._decide, alike=True),
            again=self._again,
        )

    @property
    def run(self):
        """The `Run` that was kept. A Fault while there is none."""
        brought = self.brought
        if not brought or brought.kept_as is None:
            raise Fault(NOTHING_YET)
        if brought.reading.question:
            raise brought.reading.question
        return brought.run

    @property
    def code(self):
        """The line of code that reads the same run. A Fault while there is none."""
        return self.run and _code(self.brought)

    def take(self, source, keywords, asked=(), kept_as=None, decided=()):
        """Read `source` with these keywords and answers, and show how far it is understood. `kept_as`: its name, if it lies on the disk."""
        reading = look(source, **with_answers(keywords, asked))
        self.brought = Brought(source, keywords, reading, asked_further(asked, reading.questions), kept_as, decided)
        self.redraw()

    def _handed(self, values):
        self.take(Raw(Path(values["name"]).name, values["data"]), {})
        return self._outcome(values["name"])

    def _pasted(self, values):
        table = values["paste"].strip("\r\n")
        if not table.strip():
            return "Paste a table into the box first."
        self.take(Raw(PASTED, f"{table}\n".encode("utf-8", "replace")), {})
        return self._outcome("The pasted table")

    def _answered(self, values):
        """Settle one question by the answer that was chosen, or change it, and read the file again."""
        brought, key, place = self.brought, values["question"], int(values["answer"])
        asked = [(question, place if _key(question) == key else before) for question, before in brought.asked]
        self.take(brought.source, brought.given, tuple(asked), brought.kept_as)
        return self._outcome()

    def _decide(self, values, alike=False):
        """One more odd place is decided, or all of its kind."""
        brought = self.brought
        more, missing = decision(brought.reading.run, dict(brought.decided), values, alike)
        return missing or self._as_decided((*brought.decided, *more.items()))

    def _again(self, _values):
        self._as_decided(())
        return "Everything is open again."

    def _as_decided(self, decided):
        """Show the run with these decisions, and keep them where the file is kept."""
        before, self.brought = self.brought, replace(self.brought, decided=decided)
        if before.kept_as is not None and not isinstance(before.kept_as, (list, tuple)):
            opened = ((key, ("", "")) for key, _ in before.decided if key not in dict(decided))
            decide_run(str(before.kept_as), (*opened, *(each for each in decided if each not in before.decided)))
        return ""

    def _keep(self, _values):
        """The file goes beside the notebook as it is, and what was settled is noted down."""
        brought = self.brought
        path = keep_unchanged(brought.source.name, brought.source.data)
        remember(path.name, brought.keywords)
        decide_run(path.name, brought.decided)
        self.brought = replace(brought, kept_as=path.name)
        self.kept_run = (path.name, brought.keywords)
        return f"Kept as {path.name}."

    def _outcome(self, what=""):
        """How far the file is understood; `what` has just come in."""
        reading = self.brought.reading
        if reading.run is None and not reading.questions:
            return f"{what or 'It'} can't be read as it is."
        told = f"{_left_open(reading.questions)}." if reading.run is None else "It is understood."
        return f"{what} is read. {told}" if what else told

    def _drawn(self):
        if self.brought is None:
            return [text("help", HELP), *_ways_in("The run's file")]
        odd = odd_blocks(self.brought.reading.run, dict(self.brought.decided)) if self.decides and self.brought.run else []
        return [*_seen(self.brought), *_form(self.brought), *_understood(self.brought, odd), *_ways_in("Another file")]


def _ways_in(label):
    """Where a file is chosen or dropped, and where a table is pasted."""
    return [file_choice("file", label, HINT, "file"), area("paste", PASTE, rows=3), buttons("take", ("pasted", "Read the pasted table"))]


def _seen(brought):
    """The file's name and its first rows, as far as the answers so far make sense of them."""
    name, table = listed(Path(getattr(each, "name", each)).name for each in _several(brought.source)), brought.reading.table
    return [first_rows("rows", f"First rows of {name}", *table.first_rows())] if table else [text("name", name, title="File")]


def _form(brought):
    """All that is open on one form, with what was answered, to be changed at will; a fault that no choice settles stands there, too."""
    reading, asked = brought.reading, brought.asked
    left = [text("open", "Choose an answer to each; the table above follows.", tone="feedback", title=f"{_left_open(reading.questions)}")]
    forms = [picks(_key(question), question.text, list(map(str, question.choices)), place, "answer") for question, place in asked]
    refused = reading.question is not None and not reading.questions
    return [*(left if reading.questions else []), *forms, *([text("fault", str(reading.question), tone="fault")] if refused else [])]


def _left_open(questions):
    return f"{counted(len(questions), 'thing is', 'things are')} open"


def _key(question):
    return f"{question.keyword}: {question.text}"


def _understood(brought, odd):
    """The sentences on how the file was read; for a run also its chart, the blocks for its odd places, Keep, and the code once it is kept."""
    remarks = brought.run.remarks if brought.run else brought.reading.remarks
    understood = [bullets("understood", "Read so", list(remarks))] if remarks else []
    if brought.run is None:
        return understood
    above = [text("run", str(brought.run), tone="kept"), still("chart", brought.run), *understood, *odd]
    return [*above, *([buttons("keep", ("keep", "Keep this run"))] if brought.kept_as is None else _kept(brought))]


def _kept(brought):
    files = counted(len(_several(brought.source)), "file")
    words = KEPT.format(name=brought.kept_as) if isinstance(brought.source, Raw) else f"{files} read from the disk."
    return [text("kept", f"{words} {TAKE}", tone="kept"), code_line("code", "The line that reads it", _code(brought))]


def _code(brought):
    decided = decided_in_code(brought.reading.run, brought.decided)
    return "\n".join([code_for(brought.kept_as, brought.keywords), *decided])


def _several(source):
    return source if isinstance(source, (list, tuple)) else [source]
