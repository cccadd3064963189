"""Bringing a file or a pasted table in: choose it, see what was understood, settle what is open, keep it, and take the line of code along."""

from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from string import ascii_lowercase

from kit.faults import Fault
from kit.intake.given import Asked, Raw
from kit.coursework import keep_unchanged, remember, remembered
from kit.intake import answers_to, code_for, look, open_keyword, Reading, settled_in_words, with_answer, with_sheet
from kit.widgets.cards import area, bullets, buttons, choices, text
from kit.widgets.intake.handing import MOST_MIB, RunCard, code_line, file_choice, first_rows, still
from kit.words import counted, listed

HELP = "Choose the file that your logger wrote, or a table that you typed. It is only read, never changed."
HINT = f"Or drop the file here. Up to {MOST_MIB} MiB: text, CSV or an Excel workbook."
PASTE = "Or paste a table here, with its line of names:"
PASTED = "pasted-table.txt"
NOTHING_YET = "Nothing is brought in yet. Choose a file in the view above, settle what is open and press Keep. Then run this cell again."
KEPT = "Kept unchanged as {name}, beside this notebook."
TAKE = "The next cells can use it: put the line below into the next cell."


@dataclass(frozen=True, eq=False)
class Brought:
    """One file on its way in: `source` as `read_run` takes it, the keywords settled so far, how many of them by hand, and its `Reading`."""

    source: object
    keywords: dict
    reading: Reading
    earlier: tuple = ()
    kept_as: object = field(default=None)


def bring_in(source=None, **keywords):
    """A view that takes in any logger's file: its first rows, what was understood, what is left open, the chart. `view.run` is the `Run`.

    `source` and `keywords` are those of `read_run`, for a file that lies here already; without them the file kept last is shown again. A
    file that is chosen or dropped is kept unchanged beside the notebook once Keep is pressed. `view.code` is the line that reads it.
    """
    unknown = [name for name in keywords if name not in {each.name for each in fields(Asked)}]
    if unknown:
        raise Fault(f"bring_in knows no {unknown[0]}=. It takes those of read_run: {listed(each.name for each in fields(Asked))}.")
    view = BringIn()
    if source is None and not keywords:
        source, keywords = remembered() or (None, {})
    if source is not None:
        view.take(source, keywords, kept_as=source)
    return view


class BringIn(RunCard):
    """A file on its way into the notebook. Made by `bring_in`."""

    def __init__(self):
        self.brought = None
        super().__init__(
            "bring-in",
            "Bring in a run",
            self._drawn,
            file=self._handed,
            pasted=self._pasted,
            answer=self._answered,
            back=self._taken_back,
            keep=self._keep,
        )

    @property
    def run(self):
        """The `Run` that was kept. A Fault while there is none."""
        brought = self.brought
        if not brought or brought.kept_as is None:
            raise Fault(NOTHING_YET)
        if brought.reading.question:
            raise brought.reading.question
        return brought.reading.run

    @property
    def code(self):
        """The line of code that reads the same run. A Fault while there is none."""
        return self.run and _code(self.brought)

    def take(self, source, keywords, earlier=(), kept_as=None):
        """Read `source` with these keywords and show how far it is understood. `kept_as`: the name under which it lies on the disk."""
        whole, settled = with_sheet(source, keywords)
        self.brought = Brought(source, keywords, look(whole, **settled), earlier, kept_as)
        self.redraw()

    def _handed(self, values):
        self.take(Raw(Path(values["name"]).name, values["data"]), {})
        return f"{values['name']} is read. {self._outcome()}"

    def _pasted(self, values):
        table = values["paste"].strip("\r\n")
        if not table.strip():
            return "Paste a table into the box first."
        self.take(Raw(PASTED, f"{table}\n".encode("utf-8", "replace")), {})
        return f"The pasted table is read. {self._outcome()}"

    def _answered(self, values):
        """Settle the open question by the letter that was chosen, and read the file again."""
        brought, open_ = self.brought, answers_to(self.brought.reading, self.brought.keywords)
        place = ascii_lowercase.find(values.get("answer") or "?")
        if not 0 <= place < len(open_):
            return "Choose one of the answers first."
        keywords = with_answer(brought.keywords, open_keyword(brought.reading.question), open_[place][0])
        self.take(brought.source, keywords, (*brought.earlier, brought.keywords), brought.kept_as)
        return self._outcome()

    def _taken_back(self, _values):
        *earlier, keywords = self.brought.earlier
        self.take(self.brought.source, keywords, tuple(earlier), self.brought.kept_as)
        return "Taken back."

    def _keep(self, _values):
        """The file goes beside the notebook as it is, and what was settled is noted down."""
        brought = self.brought
        path = keep_unchanged(brought.source.name, brought.source.data)
        remember(path.name, brought.keywords)
        self.brought = replace(brought, kept_as=path.name)
        return f"Kept as {path.name}."

    def _outcome(self):
        question = self.brought.reading.question
        if question is None:
            return "It is understood."
        return "One thing is left open." if open_keyword(question) else "It can't be read as it is."

    def _drawn(self):
        if self.brought is None:
            return [text("help", HELP), *_ways_in("The run's file")]
        return [*_seen(self.brought), *_open(self.brought), *_understood(self.brought), *_ways_in("Another file")]


def _ways_in(label):
    """Where a file is chosen or dropped, and where a table is pasted."""
    return [file_choice("file", label, HINT, "file"), area("paste", PASTE, rows=3), buttons("take", ("pasted", "Read the pasted table"))]


def _seen(brought):
    """The file's name and its first rows."""
    name = listed(Path(getattr(each, "name", each)).name for each in _several(brought.source))
    if not brought.reading.rows:
        return [text("name", name, title="File")]
    head, *rows = (row.split("\t") for row in brought.reading.rows)
    return [first_rows("rows", f"First rows of {name}", head, rows)]


def _open(brought):
    """What is left open, with the answers to choose from; what was chosen so far can be taken back."""
    question, answers = brought.reading.question, answers_to(brought.reading, brought.keywords)
    back = [("back", "Take back the last answer")] if brought.earlier else []
    chosen = [text("chosen", settled_in_words(brought.keywords), tone="quiet", title="You said")] if brought.earlier else []
    if answers:
        asked = text("question", question.what, tone="feedback", title="One thing is open")
        options = [(letter, words) for letter, (_, words) in zip(ascii_lowercase, answers)]
        return [*chosen, asked, choices("answer", "Choose one:", options), buttons("do", ("answer", "Use this answer"), *back)]
    said = [text("question", str(question), tone="fault")] if question else []
    return [*chosen, *said, *([buttons("do", *back)] if back else [])]


def _understood(brought):
    """The sentences on how the file was read; for a run also its chart, Keep, and the code once it is kept."""
    reading = brought.reading
    understood = [bullets("understood", "Read so", list(reading.remarks))] if reading.remarks else []
    if reading.run is None:
        return understood
    chart = still("chart", reading.run)
    told = text("run", str(reading.run), tone="kept")
    if brought.kept_as is None:
        return [told, chart, *understood, buttons("keep", ("keep", "Keep this run"))]
    return [told, chart, *understood, *_kept(brought)]


def _kept(brought):
    files = counted(len(_several(brought.source)), "file")
    words = KEPT.format(name=brought.kept_as) if isinstance(brought.source, Raw) else f"{files} read from the disk."
    return [text("kept", f"{words} {TAKE}", tone="kept"), code_line("code", "The line that reads it", _code(brought))]


def _code(brought):
    return code_for(*with_sheet(brought.kept_as, brought.keywords))


def _several(source):
    return source if isinstance(source, (list, tuple)) else [source]
