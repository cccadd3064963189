"""The sheets of the concept check as a teacher types them in: one row a sheet, kept in one CSV file that a spreadsheet can write, too."""

import csv
import io
from dataclasses import dataclass
from pathlib import Path

from kit.faults import Fault
from kit.storage import write_atomically

CONCEPTS = "concept-check"  # the TOML with the eight questions, and the stem of the file with the sheets
BEFORE, AFTER = "before", "after"
LEFT_OUT = "."  # stands for a question that was left out
FORMULA = ("=", "+", "-", "@")
NO_SHEETS = "{name} holds no sheets of a concept check: its first line must be sheet,code,item_1,item_2 and so on. {seen}"


@dataclass(frozen=True)
class ConceptSheet:
    """One sheet as typed: `when` ('before' or 'after', else as it stands in the file), the learner's `code`, and the `letters`, one a question."""

    when: str
    code: str
    letters: str


def read_concept_sheets(path):
    """The `ConceptSheet`s in a CSV file; none if there is no file. A Fault if it holds something else.

    The letters of a row may stand in one cell or in a cell each; an empty cell is a question left out.
    """
    try:
        head, *rows = list(csv.reader(io.StringIO(_text(Path(path).read_bytes()).replace(";", ",")))) or [[]]
    except FileNotFoundError:
        return ()
    except (OSError, csv.Error) as problem:
        raise Fault(NO_SHEETS.format(name=Path(path).name, seen=f"It can't be read ({problem}).")) from problem
    if [cell.strip().lower() for cell in head[:2]] != ["sheet", "code"] or len(head) < 3:
        raise Fault(NO_SHEETS.format(name=Path(path).name, seen=f"It is {','.join(head)[:60]!r}."))
    return tuple(_sheet(row, len(head) - 2) for row in rows if any(cell.strip() for cell in row))


def _text(data):
    """The file's text: UTF-8, else as older spreadsheets write it."""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")


def _sheet(row, columns):
    when, code, *cells = [cell.strip().removeprefix("'") for cell in (*row, "", "")][: max(len(row), 2)]
    cells = [*cells, *[""] * (columns - len(cells))]
    filled = [cell for cell in cells if cell]
    whole = len(filled) == 1 and len(filled[0]) > 1 or not filled  # typed into one cell, or nothing yet
    return ConceptSheet(when.lower(), code, "".join(filled) if whole else "".join(cell or LEFT_OUT for cell in cells))


def write_concept_sheets(path, sheets, items=8):
    """Keep the sheets as a CSV file, whole or not at all: a column each for `items` questions. A Fault when the disk refuses.

    A row whose letters are not that many keeps them in its first cell, as typed; no cell can be a formula for a spreadsheet.
    """
    written = io.StringIO(newline="")
    table = csv.writer(written, lineterminator="\n")
    table.writerow(["sheet", "code", *(f"item_{number}" for number in range(1, items + 1))])
    table.writerows([_plain(each.when), _plain(each.code), *_cells(each.letters, items)] for each in sheets)
    try:
        write_atomically(path, written.getvalue())
    except OSError as problem:
        raise Fault(f"{Path(path).name} could not be written ({problem.strerror}). Make room there, then change one entry.") from problem


def _cells(letters, items):
    """A cell for each letter; a question left out stays an empty cell."""
    alone = letters if len(letters) == items else [letters]
    return [_plain("" if letter == LEFT_OUT else letter) for letter in alone]


def _plain(cell):
    return f"'{cell}" if cell.startswith(FORMULA) else cell
