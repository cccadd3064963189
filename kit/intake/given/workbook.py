"""A sheet of an Excel workbook (ECMA-376) as text, one line a row, tabs between cells. Needs the package openpyxl."""

import csv
import io
from contextlib import contextmanager
from datetime import datetime, time, timedelta
from itertools import islice
from zipfile import BadZipFile, ZipFile

from kit.faults import Choice, IntakeFault
from kit.intake.given.source import Text

MOST_BYTES = 96 * 2**20  # of a sheet, unpacked; more would take gigabytes to read
MOST_OTHER_BYTES = 16 * 2**20  # of styles, texts and all else beside the sheets
MOST_TAGS, MOST_OTHER_TAGS = 8_000_000, 400_000  # of a sheet (about 440,000 rows of four cells) and of all else: 20 s of reading, measured
ROW_BYTES = 1 << 20  # of one row; 16,384 cells, as many as a row can have, take less
MOST_ROWS = 1_048_576  # as many as a sheet can have
HEAD_ROWS = 200
NUMBERS = (int, float, datetime, time, timedelta)
INSTALL = "It belongs to the kit: stop, and start again with python3 -m kit lab. Or save the sheet as CSV."


def is_workbook(data):
    """Is there a workbook in these bytes of a zip archive?"""
    try:
        with ZipFile(io.BytesIO(data)) as archive:
            return "xl/workbook.xml" in archive.namelist()
    except (BadZipFile, ValueError, OSError, NotImplementedError):
        return b"xl/workbook.xml" in data


def sheet_text(raw):
    """The `Text` of the sheet that `raw.sheet` names, or of the only one with readings in it."""
    refuse_swollen(raw)
    with damage_said(raw):
        book = opened(raw)
        sheet = chosen(book, raw)
        text = "".join(lines_of(sheet, raw))
    return Text(raw.name, text.encode("utf-8", "replace"), sheet=sheet.title)


def refuse_swollen(raw):
    """A fault for a workbook whose parts are larger than any record needs, before the library takes them in."""
    with damage_said(raw), ZipFile(io.BytesIO(raw.data)) as archive:
        members = [member for member in archive.infolist() if not member.filename.startswith("xl/media/")]
        sheets = [member for member in members if member.filename.startswith("xl/worksheets/")]
        others = [member for member in members if member not in sheets]
        largest = max((member.file_size for member in sheets), default=0), sum(member.file_size for member in others)
        for what, size, most in zip(("A sheet of this workbook", "What goes with its sheets"), largest, (MOST_BYTES, MOST_OTHER_BYTES)):
            if size > most:
                raise swollen(raw, f"{what} unpacks to {size / 2**20:,.0f} MiB; at most {most // 2**20} are read.")
        if sum(tags_in(archive, member) for member in others) > MOST_OTHER_TAGS:
            raise swollen(raw, f"This workbook has more than {MOST_OTHER_TAGS:,} styles, texts and the like.")
        for member in sheets:
            if tags_in(archive, member, raw) > MOST_TAGS:
                raise swollen(raw, "A sheet of this workbook has more cells than can be read in half a minute.")


def swollen(raw, what):
    return IntakeFault(what, "Save the sheet with the run as CSV.", file=raw.name)


def tags_in(archive, member, raw=None):
    """How many tags a part has, read piece by piece. Of a sheet, for `raw`, a fault for a row larger than any can be."""
    tags, inside = 0, raw is not None
    with archive.open(member) as part:
        while piece := part.read(ROW_BYTES):
            tags += piece.count(b"<")
            inside = inside and b"</sheetData" not in piece and len(piece) == ROW_BYTES
            if inside and b"row" not in piece:
                raise swollen(raw, "A row or a cell of this workbook is larger than any can be.")
    return tags


@contextmanager
def damage_said(raw):
    """Turn whatever the zip, XML and workbook readers raise at a damaged file (there is no end of kinds) into one fault."""
    try:
        yield
    except IntakeFault:
        raise
    except Exception as problem:
        raise IntakeFault(
            "This workbook is damaged, or protected by a password.", "Open it in a spreadsheet and save it as CSV.", file=raw.name
        ) from problem


def opened(raw):
    try:
        from openpyxl import load_workbook
    except ImportError as problem:
        raise IntakeFault("Reading workbooks needs the package openpyxl.", INSTALL, file=raw.name) from problem
    return load_workbook(io.BytesIO(raw.data), read_only=True, data_only=True)


def chosen(book, raw):
    """The sheet to read. A fault asks where several hold readings."""
    titles = [sheet.title for sheet in book.worksheets]
    if raw.sheet is not None:
        if raw.sheet in titles:
            return book[raw.sheet]
        what = f"There is no sheet {str(raw.sheet)[:30]!r} here."
        raise IntakeFault(what, file=raw.name, keyword="sheet", choices=list(map(Choice, titles)))
    filled = [sheet for sheet in book.worksheets if has_readings(sheet)]
    if len(filled) == 1:
        return filled[0]
    if not filled:
        raise IntakeFault("No sheet of this workbook holds readings.", "Was it saved before the run was pasted in?", file=raw.name)
    choices = [Choice(sheet.title) for sheet in filled]
    raise IntakeFault("Which sheet holds the run?", file=raw.name, keyword="sheet", choices=choices)


def rows_of(sheet):
    sheet.reset_dimensions()  # what the file says of its size may be false
    return sheet.iter_rows(values_only=True)


def has_readings(sheet):
    """Do at least two of the first rows hold two numbers or times?"""
    return sum(sum(isinstance(cell, NUMBERS) for cell in row) >= 2 for row in islice(rows_of(sheet), HEAD_ROWS)) >= 2


def lines_of(sheet, raw):
    """The rows as lines of text. Line numbers are the sheet's row numbers."""
    width = max((len(row) for row in islice(rows_of(sheet), HEAD_ROWS)), default=1)
    size, line = 0, io.StringIO()
    writer = csv.writer(line, delimiter="\t", lineterminator="\n")
    for number, row in enumerate(rows_of(sheet), 1):
        writer.writerow([*map(cell_text, row), *[""] * (width - len(row))])
        size += line.tell()
        if number > MOST_ROWS or size > MOST_BYTES:
            raise IntakeFault("This sheet is too large to read.", "Keep only the rows and columns of one run.", file=raw.name, line=number)
        yield line.getvalue()
        line.seek(0)
        line.truncate()


def cell_text(cell):
    """The text of a cell: numbers to the last bit, dates and times as ISO 8601, durations as h:mm:ss."""
    if cell is None:
        return ""
    if isinstance(cell, datetime) and cell.year <= 1900:  # hours from 24 on are days since 1899 to a spreadsheet (ECMA-376 part 1, 18.17.4)
        cell = cell - datetime(1899, 12, 30 if cell.year < 1900 else 31)
    if isinstance(cell, (datetime, time)):  # openpyxl gives them to the millisecond
        return cell.isoformat()
    if isinstance(cell, timedelta):
        seconds = round(cell.total_seconds(), 3)
        return f"{int(seconds // 3600)}:{int(seconds // 60 % 60):02d}:{seconds % 60:06.3f}"
    if isinstance(cell, float):
        return repr(cell).removesuffix(".0")
    return " ".join(str(cell).split())
