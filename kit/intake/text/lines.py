"""Reading line by line, for text with something in it that is no reading: notes, summaries, marks, lines cut short."""

import csv
import io
import re
from itertools import islice

import numpy as np

from kit.faults import IntakeFault
from kit.intake.forms import FAILED, grouped, looks_like_time, measure, MISSING, STRICT
from kit.intake.text.sniffing import by_delimiter, RULE
from kit.intake.text.splitting import by_blanks, by_blanks_and_commas, by_edges
from kit.intake.given import as_texts
from kit.intake.text.gathering import add, joined, Part, Piece, UNIT, WORD

ROWS = 20_000
LONGEST_CELL = 100_000
SUMMARIES = "average avg mean min minimum max maximum median std sd stdev total sum count mittelwert moyenne".split()
SUMMARY = re.compile(rf"(?:{'|'.join(SUMMARIES)})\b[ .:()a-z]*", re.IGNORECASE)
NOTE_STARTS = ("#", "//", "%", "!", "*")
LONGEST_WORD = 12  # of a word that may stand for a missing reading
UNUSUAL = re.compile(r"[^\d.,:+ eE-]|^[ -]*$", re.ASCII)


def line_by_line(block, layout):
    """The `Piece` of a block, by the rules of RFC 4180. Lines without readings are tallied in `left_out`."""
    left_out = {}
    rows = of_one_width(readings(split(block, layout), layout, left_out), block, layout, left_out)
    some = [converted(some, layout) for some in iter(lambda: list(islice(rows, ROWS)), [])]
    if not some:
        return Piece(np.zeros(0, np.int32), [part([], kind, [], ".") for kind in layout.kinds], left_out)
    lines, parts = zip(*some)
    return Piece(np.concatenate(lines), [joined(each) for each in zip(*parts)], left_out)


def split(block, layout):
    """(line, tidied cells) for every line of the block."""
    lines = io.TextIOWrapper(io.BytesIO(block.utf8), "utf-8", newline="")
    line = 0
    try:
        for line, cells in map(refuse_long, records(lines, layout)):
            yield block.first + line - 1, cells
    except csv.Error as problem:
        what = "A quotation mark here or in the next line is not closed, or stands inside a cell; or a cell is far too long."
        raise IntakeFault(what, "Correct it in a copy of the file.", file=block.text.file, line=block.first + line) from problem


def refuse_long(record):
    """The record itself; csv.Error for a cell beyond all use. The reader has a limit too, but other libraries may have lifted that."""
    if max(map(len, record[1]), default=0) > LONGEST_CELL:
        raise csv.Error
    return record


def records(lines, layout):
    if layout.delimiter[0] != " ":
        return by_delimiter(lines, layout.delimiter, strict=True)
    if layout.delimiter == " ,":
        return by_blanks_and_commas(lines)
    return by_edges(lines, layout.edges) if layout.edges else by_blanks(lines)


def readings(rows, layout, left_out):
    """The rows that hold readings; notes, headers that come again and summaries are tallied."""
    for line, cells in rows:
        if len(cells) == len(layout.kinds) and not UNUSUAL.search("".join(cells)) or not (reason := why_no_reading(cells, layout.kinds)):
            yield line, cells
        elif reason != "blank":
            add(left_out, reason, line, " ".join(filter(None, cells)))


def why_no_reading(cells, kinds):
    """'blank', 'note' or 'summary'; '' for a row of readings."""
    filled = [cell for cell in cells if cell and not RULE.fullmatch(cell)]
    if not filled:
        return "blank"
    if filled[0].startswith(NOTE_STARTS):
        return "note"
    if SUMMARY.fullmatch(filled[0]):
        return "summary"
    if len(cells) == 1 < len(kinds) and filled[0][0] in "([" and filled[0][-1] in ")]" and not looks_like_time(filled[0]):
        return "note"  # '(12 rows)' below the answer of a database
    wanted = [(cell, kind) for cell, kind in zip(cells, kinds) if kind in "nt" and cell not in MISSING]
    numbers = sum(kind == "n" and any(form.fullmatch(cell) for form in STRICT.values()) for cell, kind in wanted)
    wordy = any(cell[0].isalpha() and cell.lower() not in FAILED and not looks_like_time(cell) for cell, _ in wanted)
    return "note" if wordy and numbers <= (kinds.count("n") >= 3) else ""


def of_one_width(rows, block, layout, left_out):
    """Rows with as many cells as the table has columns; short ones are tallied, a last one cut short is left out."""
    width = len(layout.kinds)
    cut = last_line_cut(block)
    for line, cells in rows:
        if len(cells) > width and any(cells[width:]):
            what = f"This line has {len(cells)} cells, the others {width}."
            do = "Is a comma both decimal mark and delimiter? Export with semicolons, or correct it in a copy."
            raise IntakeFault(what, do, file=block.text.file, line=line)
        if len(cells) < width and layout.kinds[len(cells) :].strip("-"):
            add(left_out, "cut" if line == cut else "short", line, "" if line != cut else " ".join(cells))
        if len(cells) >= width or line != cut or not layout.kinds[len(cells) :].strip("-"):
            yield line, (*cells, *[""] * (width - len(cells)))[:width]


def last_line_cut(block):
    """The number of a last line that has no end and so may be cut; 0 if it has one."""
    utf8 = block.utf8
    return 0 if utf8.endswith(b"\n") else block.first + utf8.count(b"\n")


def converted(rows, layout):
    """(line numbers, one `Part` a column) of rows of one width."""
    lines, cells = zip(*rows)
    return np.array(lines, np.int32), [part(column, kind, lines, layout.decimal) for column, kind in zip(zip(*cells), layout.kinds)]


def part(cells, kind, lines, decimal):
    if kind == "n":
        return numbers_of(cells, lines, decimal)
    return Part(np.array([cell.encode() for cell in cells], dtype="S") if kind == "t" else as_texts(cells))


def numbers_of(cells, lines, decimal):
    """The `Part` of tidied `cells`: float64, NaN where missing or odd."""
    plain = STRICT[decimal].fullmatch
    values, seen = np.full(len(cells), np.nan), {}
    for place, cell in enumerate(cells):
        if plain(cell):
            values[place] = cell.replace(",", ".")
        elif cell not in MISSING:
            kind, values[place] = unusual(cell, decimal)
            add(seen, kind, lines[place], cell)
    for place in np.flatnonzero(np.isinf(values)):
        values[place] = np.nan
        add(seen, "odd", lines[place], cells[place])
    return Part(values, seen)


def unusual(cell, decimal):
    """(kind, number) of a cell that is not a plain number."""
    if cell.lower() in FAILED:
        return "failed", np.nan
    value = grouped(cell, decimal)
    if value is not None:
        return "grouped", value
    found = measure(cell, decimal)
    if found:
        return UNIT + found[1], found[0]
    return (WORD + cell if cell.isalpha() and len(cell) <= LONGEST_WORD else "odd"), np.nan
