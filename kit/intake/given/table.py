"""What passes between two stages of the intake: the columns of a record with the line each row stands in."""

from dataclasses import dataclass, replace

import numpy as np

from kit.faults import IntakeFault


@dataclass(frozen=True, eq=False)
class Column:
    """One column: its header as the file has it, and its cells (numbers, or texts as written).

    `odd` is (line, cell) of the first that is no number in a column of numbers: refused once the column gets a role. `notes` are
    sentences to say then, '{}' standing for the column.
    """

    header: str
    values: np.ndarray
    name: str = ""
    unit: str = ""
    role: str = ""
    odd: tuple | None = None
    notes: tuple = ()

    @property
    def numeric(self):
        """Does it hold numbers (float64, NaN where missing)?"""
        return self.values.dtype.kind == "f"

    def cell(self, row):
        """The text of one cell, or its number."""
        value = self.values[row]
        return value.decode("utf-8", "replace").strip() if isinstance(value, bytes) else value


@dataclass(frozen=True, eq=False)
class Table:
    """A record on its way to a `Run`. `lines` holds the line of the file that each row came from; `remarks` all that was decided.

    Once the clock is read, `start_s` is what it showed at elapsed time 0: seconds from `midnight` (in days since 1970; None if the
    date is not certain), or from the clock's own zero; `wall_clock` tells whether it shows the time of day.
    `about` holds what the kit wrote about a run that it saved: name, kind, gain uncertainty.
    """

    file: str
    columns: tuple
    lines: np.ndarray
    remarks: tuple = ()
    start_s: float = 0.0
    midnight: int | None = None
    wall_clock: bool = False
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

    def fault(self, what, do, *, row=None, column=None, keyword=None):
        """An `IntakeFault` that names this file, and the line and column it is about."""
        seen = column.cell(row) if column and row is not None else None
        line, header = None if row is None else int(self.lines[row]), column and repr(column.header)
        return IntakeFault(what, do, file=self.file, line=line, column=header, seen=seen, keyword=keyword)

    def odd_fault(self, column, wanted):
        """The fault for a column with a cell that is no number."""
        line, cell = column.odd
        do = "Correct it in a copy of the file, or leave the cell empty there."
        return IntakeFault(f"'{cell[:30]}' is no {wanted}.", do, file=self.file, line=line, column=repr(column.header), seen=cell)

    def __str__(self):
        """The first rows, to look at what a stage made. A column without a role stands there as the file has it."""
        heads = [f"{each.role}: {each.header}" if each.role else each.header for each in self.columns]
        first = [[str(line), *(str(each.cell(row)) for each in self.columns)] for row, line in enumerate(self.lines[:5].tolist())]
        return "\n".join("\t".join(cells) for cells in [["line", *heads], *first])


def as_texts(cells):
    """An array of texts; what is not a text is an empty one."""
    array = np.empty(len(cells), dtype=object)
    array[:] = [cell if isinstance(cell, str) else "" for cell in cells]
    return array
