"""Reading line by line, for files with something in them that is no reading: notes, summaries, marks, lines cut short."""

import csv
import io
import re
from itertools import islice

import numpy as np

from kit.faults import IntakeFault
from kit.records.cellnumbers import Part, joined, numbers_of
from kit.records.numbers import FAILED, MISSING, STRICT
from kit.records.splitting import RULE, by_blanks, by_delimiter, by_edges
from kit.records.stamps import looks_like_time
from kit.records.table import Column, Table, as_texts
from kit.words import counted, listed

BLOCK = 20_000
SHOWN = 3
SUMMARY = re.compile(
    r"(?:average|avg|mean|min|minimum|max|maximum|median|std|sd|stdev|total|sum|count|mittelwert|moyenne)\b[ .:()a-z]*", re.IGNORECASE
)
NOTE_STARTS = ("#", "//", "%", "!", "*")
UNUSUAL = re.compile(r"[^\d.,:+ eE-]|^ *$", re.ASCII)


def line_by_line(text, layout):
    """The table by the rules of RFC 4180. What is left out is said; a cell that is no number is odd, and refused if its column is used."""
    left_out = {}
    rows = of_one_width(readings(split(text, layout), layout, left_out), text, layout, left_out)
    blocks = [converted(block, layout) for block in iter(lambda: list(islice(rows, BLOCK)), [])]
    lines = np.concatenate([lines for lines, _ in blocks])
    parts = [joined(each) for each in zip(*(columns for _, columns in blocks))]
    columns = (
        Column(header, part.values, unit=unit or part.unit, odd=part.odd, notes=part.notes())
        for header, unit, part in zip(layout.headers, layout.units, parts)
    )
    return Table(text.file, tuple(columns), lines, (*text.remarks, *map(sentence, left_out.items())))


def split(text, layout):
    """(line, tidied cells) for every line from the first reading on."""
    lines = io.TextIOWrapper(io.BytesIO(text.utf8), "utf-8", newline="")
    for _ in range(layout.first - 1):
        lines.readline()
    above, line = layout.first - 1, 0
    try:
        for line, cells in records(lines, layout):
            yield above + line, cells
    except csv.Error as problem:
        what = "A quotation mark here or in the next line is not closed, or stands inside a cell."
        raise IntakeFault(what, "Correct it in a copy of the file.", file=text.file, line=above + line) from problem


def records(lines, layout):
    if layout.delimiter != " ":
        return by_delimiter(lines, layout.delimiter, strict=True)
    return by_edges(lines, layout.edges) if layout.edges else by_blanks(lines)


def readings(rows, layout, left_out):
    """The rows that hold readings; notes, headers that come again and summaries go to `left_out`."""
    for line, cells in rows:
        if not UNUSUAL.search("".join(cells)) or not (reason := why_no_reading(cells, layout.kinds)):
            yield line, cells
        elif reason != "blank":
            left_out.setdefault(reason, []).append((line, " ".join(filter(None, cells))))


def why_no_reading(cells, kinds):
    """'blank', 'note' or 'summary'; '' for a row of readings."""
    filled = [cell for cell in cells if cell and not RULE.fullmatch(cell)]
    if not filled:
        return "blank"
    if filled[0].startswith(NOTE_STARTS):
        return "note"
    if SUMMARY.fullmatch(filled[0]):
        return "summary"
    wanted = [(cell, kind) for cell, kind in zip(cells, kinds) if kind in "nt" and cell not in MISSING]
    numbers = sum(kind == "n" and any(form.fullmatch(cell) for form in STRICT.values()) for cell, kind in wanted)
    wordy = any(cell[0].isalpha() and cell.lower() not in FAILED and not looks_like_time(cell) for cell, _ in wanted)
    return "note" if wordy and numbers <= (kinds.count("n") >= 3) else ""


def of_one_width(rows, text, layout, left_out):
    """Rows with as many cells as the table has columns. A logger may leave out empty cells at the end of many lines, not of a few."""
    width, total, short = len(layout.kinds), 0, []
    cut = 0 if text.utf8.endswith((b"\n", b"\r")) else text.utf8.count(b"\n") + 1
    for line, cells in rows:
        if len(cells) > width and any(cells[width:]):
            what = f"This line has {len(cells)} cells, the others {width}."
            raise IntakeFault(
                what,
                "Is a comma both decimal mark and delimiter? Export with semicolons, or correct it in a copy.",
                file=text.file,
                line=line,
            )
        if len(cells) < width and line == cut:
            left_out["cut"] = [(line, " ".join(cells))]
            continue
        total, short = total + 1, short + [line] * (len(cells) < width)
        yield line, (*cells, *[""] * (width - len(cells)))[:width]
    refuse_few_short(short, total, text.file, width)
    if short:
        left_out["short"] = [(line, "") for line in short]


def refuse_few_short(short, total, file, width):
    if short and (len(short) < 3 or len(short) < 0.1 * total):
        raise IntakeFault(
            f"This line has fewer cells than the others, which have {width}.",
            "Complete it in a copy of the file.",
            file=file,
            line=short[0],
        )


def converted(rows, layout):
    lines, cells = zip(*rows)
    columns = [
        numbers_of(column, lines, layout.decimal) if kind == "n" else Part(as_texts(column))
        for column, kind in zip(zip(*cells), layout.kinds)
    ]
    return np.array(lines), columns


def sentence(reason_and_lines):
    """What was left out and why, with the first few lines quoted."""
    reason, lines = reason_and_lines
    shown = listed(f"line {line} '{words[:40]}'" if words else f"line {line}" for line, words in lines[:SHOWN])
    if reason == "short":
        return f"{counted(len(lines), 'line')} ended early; the cells at the end count as missing, first in line {lines[0][0]}."
    kind = {"note": "without readings", "summary": "with a summary, not readings", "cut": "that is cut off"}[reason]
    return f"Left out {counted(len(lines), 'line')} {kind}: {shown}{' and others' if len(lines) > SHOWN else ''}."
