"""What passes between the stages of the intake: the caller's words, and the columns of a record with the line each row stands in."""

import re
from dataclasses import dataclass, fields, replace
from itertools import islice
from math import isfinite

import numpy as np

from kit.faults import Choice, Fault, IntakeFault
from kit.intake.forms import SECONDS, unit_of
from kit.words import listed

GLANCED = 3
ROLES = ("treated", "control", "room", "gas", "light")
UNITS_OF_TIME = (*SECONDS, "mm:ss", "h:mm", "h:mm:ss")
ORDERS_OF_DATE = ("day first", "month first", "year first")
SEVERAL = ("clock", "unit")  # these keywords take several words
WAYS = ("summer time", "as written", "shared event", "sorted", "set back", "spread evenly")
EVERY = re.compile(r"every (\d{1,6}(?:[.,]\d{1,6})?) ?(ms|s|min|h|d)")
COUNTS = re.compile(r"(\d{1,6}(?:[.,]\d{1,6})?) ?(ms|s|min|h|d)")


@dataclass(frozen=True)
class Asked:
    """The keywords of `read_run`. Column keywords hold a header, a part of one, or a column's number counted from 1."""

    treated: object = None
    control: object = None
    room: object = None
    gas: object = None
    light: object = None
    time: object = None
    unit: object = None
    clock: object = None
    decimal: object = None
    sheet: object = None

    @property
    def clocks(self):
        """The words of `clock`, one or several, as a tuple. A fault for one that means nothing here."""
        return tuple(clock_word(word) for word in several(self.clock) if not is_number(word))

    @property
    def clock_numbers(self):
        """The numbers in `clock`: by how many seconds the clock of each further file is ahead of the first file's."""
        return tuple(float(word) for word in several(self.clock) if is_number(word))

    @property
    def count_s(self):
        """(seconds that each count of the time column stands for, as the caller wrote it); None without such a word."""
        match = next((match for word in self.clocks if (match := COUNTS.fullmatch(word))), None)
        return match and (float(match[1].replace(",", ".")) * SECONDS[match[2]], match[0])

    @property
    def every_s(self):
        """(seconds from one reading to the next, as the caller wrote it) where no column tells the time; None without such a word."""
        match = next((match for word in self.clocks if (match := EVERY.fullmatch(word))), None)
        return match and (float(match[1].replace(",", ".")) * SECONDS[match[2]], match[0])

    @property
    def units(self):
        """(the word for all temperatures or None, {role: word} for single ones), from one word, a dict or a list of both."""
        words = several(self.unit)
        plain = next((word for word in words if not isinstance(word, dict)), None)
        return plain, {role: word for each in words if isinstance(each, dict) for role, word in each.items()}

    def answering(self, answers):
        """These words with more: {keyword: value}. A second word on clocks or units joins the first."""
        return replace(self, **{keyword: added(getattr(self, keyword), keyword, value) for keyword, value in answers.items()})

    def of_file(self, place):
        """These words for one file of several: a list of time columns holds one for each."""
        times = several(self.time)
        return replace(self, time=times[min(place, len(times) - 1)]) if times else self

    def clock_among(self, choices):
        """The first of the caller's words on clocks that is one of `choices`, or None."""
        return next((word for word in self.clocks if word in choices), None)


def added(earlier, keyword, value):
    """What a keyword holds once `value` is said, too: `clock` and `unit` take several words."""
    return value if earlier is None or keyword not in SEVERAL else [*several(earlier), value]


def asked_of(keywords, verb="read_run", besides=()):
    """The `Asked` of keywords that `verb` hands on to `read_run`, without those that it takes `besides`. A Fault for an unknown one."""
    known, keywords = [each.name for each in fields(Asked)], {name: word for name, word in keywords.items() if name not in besides}
    unknown = [name for name in keywords if name not in known]
    if unknown:
        raise Fault(f"{verb} knows no {unknown[0]}=. It takes those of read_run: {listed(known)}.")
    return Asked(**keywords)


def clock_word(word):
    """A word of `clock` as the kit writes it: 'day first' for 'Day-first', 'min' for 'minutes'."""
    plain = " ".join(str(word).replace("-", " ").split()).lower()
    plain = unit_of(plain) if unit_of(plain) in UNITS_OF_TIME else plain
    if plain not in (*UNITS_OF_TIME, *ORDERS_OF_DATE, *WAYS) and not COUNTS.fullmatch(plain) and not EVERY.fullmatch(plain):
        known = listed((repr(each) for each in (*UNITS_OF_TIME[1:7], *ORDERS_OF_DATE[:2], *WAYS)), "or")
        raise IntakeFault(f"clock={str(word)[:20]!r} means nothing here.", f"Say {known}.", keyword="clock")
    return plain


def several(word):
    """One word or several as a tuple, without None."""
    return tuple(each for each in (word if isinstance(word, (list, tuple)) else (word,)) if each is not None)


def is_number(word):
    return isinstance(word, (int, float)) and not isinstance(word, bool) and isfinite(word)


@dataclass(frozen=True, eq=False)
class Column:
    """One column: its header as the file has it, and its cells (numbers, or texts as written).

    `odd` is (line, cell) of the first that is no number in a column of numbers: refused once the column gets a role. `notes` are
    sentences to say then, '{}' standing for the column. `samples` are its first readings as the file writes them.
    """

    header: str
    values: np.ndarray
    name: str = ""
    unit: str = ""
    role: str = ""
    odd: tuple | None = None
    notes: tuple = ()
    samples: tuple = ()

    @property
    def numeric(self):
        """Does it hold numbers (float64, NaN where missing)?"""
        return self.values.dtype.kind == "f"

    @property
    def nameless(self):
        """Has the file no header for it, so that it is called by its number?"""
        return self.header.startswith("column ") and self.header[7:].isdigit()

    @property
    def glance(self):
        """'T1 (°C): 21.4, 21.5, 21.6, …', the header with the first readings that are there."""
        filled = self.samples or filter(None, map(cell_text, map(self.cell, range(len(self.values)))))
        return f"{self.header or 'no name'}: {', '.join(islice(filled, GLANCED))}, …"

    def cell(self, row):
        """The text of one cell, or its number."""
        value = self.values[row]
        return value.decode("utf-8", "replace").strip() if isinstance(value, bytes) else value


@dataclass(frozen=True, eq=False)
class Table:
    """A record on its way to a `Run`. `lines` holds the line of the file that each row came from; `remarks` all that was decided.

    Once the clock is read, `start_s` is what it showed at elapsed time 0: seconds from `midnight` (in days since 1970; None if the
    date is not certain), or from the clock's own zero; `wall_clock` tells whether it shows the time of day.
    `days` says for each order of day, month and year that its dates may have which day that midnight began, in days since 1970.
    `about` holds what the kit wrote about a run that it saved: name, kind, gain uncertainty.
    """

    file: str
    columns: tuple
    lines: np.ndarray
    remarks: tuple = ()
    start_s: float = 0.0
    midnight: int | None = None
    wall_clock: bool = False
    days: tuple = ()
    about: dict | None = None

    def said(self, *remarks, **changes):
        """This table with more sentences in `remarks`, and some fields changed."""
        return replace(self, remarks=(*self.remarks, *remarks), **changes)

    def rows(self, kept):
        """This table with the rows that `kept` (a mask, or places in order) picks."""
        columns = tuple(replace(each, values=each.values[kept]) for each in self.columns)
        return replace(self, columns=columns, lines=self.lines[kept])

    def with_column(self, place, **changes):
        """This table with one column changed."""
        columns = list(self.columns)
        columns[place] = replace(columns[place], **changes)
        return replace(self, columns=tuple(columns))

    def place_of(self, role):
        """Where the column with this role stands, or None."""
        return next((place for place, column in enumerate(self.columns) if column.role == role), None)

    def fault(self, what, do="", *, row=None, column=None, **asked):
        """An `IntakeFault` that names this file, and the line and column it is about. `asked`: its keyword, choices or questions."""
        seen = column.cell(row) if column and row is not None else None
        line, header = None if row is None else int(self.lines[row]), column and repr(column.header)
        return IntakeFault(what, do, file=self.file, line=line, column=header, seen=seen, **asked)

    def choices(self, places):
        """A `Choice` for each column at `places`: by its header, or by its number from 1 where that is no name of one column alone."""
        headers = [column.header.strip() for column in self.columns]
        return tuple(
            Choice(headers[place] if headers[place] and headers.count(headers[place]) == 1 else place + 1, seen=self.columns[place].glance)
            for place in places
        )

    def odd_fault(self, column, wanted):
        """The fault for a column with a cell that is no number."""
        line, cell = column.odd
        do = "Correct it in a copy of the file, or leave the cell empty there."
        return IntakeFault(f"'{cell[:30]}' is no {wanted}.", do, file=self.file, line=line, column=repr(column.header), seen=cell)

    def first_rows(self, most=5):
        """(head, rows) of texts: the line of the file, then each column under its role, if it has one, and its header. Times have become seconds."""
        called = {"time": "time in s"}
        heads = [f"{called.get(each.role, each.role)}: {each.header}" if each.role else each.header for each in self.columns]
        rows = [[str(line), *(cell_text(each.cell(row)) for each in self.columns)] for row, line in enumerate(self.lines[:most].tolist())]
        return ["line", *heads], rows

    def __str__(self):
        """The first rows, to look at what a stage made."""
        head, rows = self.first_rows()
        return "\n".join("\t".join(cells) for cells in [head, *rows])


def cell_text(cell):
    """A cell as people read it: nothing where it is missing."""
    return cell if isinstance(cell, str) else "" if cell != cell else f"{cell:.15g}"


def as_texts(cells):
    """An array of texts; what is not a text is an empty one."""
    array = np.empty(len(cells), dtype=object)
    array[:] = [cell if isinstance(cell, str) else "" for cell in cells]
    return array
