"""How the text is laid out: which delimiter, which decimal mark, where the header ends and the readings begin."""

import csv
import re
from collections import Counter
from dataclasses import dataclass

from kit.faults import IntakeFault
from kit.records.numbers import FAILED, MISSING, decimal_mark, looks_like_measure, looks_like_number, tidied
from kit.records.stamps import looks_like_time
from kit.records.units import unit_of

HEAD_LINES = 200
HEAD_BYTES = 1 << 16
DELIMITERS = ("\t", ";", "|", ",")
NAMES = {"\t": "tab", ";": "semicolon", "|": "bar", ",": "comma", " ": "blanks"}
MOST_COLUMNS = 200
RULE = re.compile(r"[-=+:_ ]{3,}")


@dataclass(frozen=True)
class Row:
    """The tidied cells of one line, and the line's number."""

    line: int
    cells: tuple


@dataclass(frozen=True)
class Layout:
    """The plan of a table. `kinds` has one letter a column: n number, t time, x text, '-' nothing seen; `first` and `head_line` are line numbers."""

    delimiter: str
    decimal: str
    kinds: str
    first: int
    head_line: int | None
    headers: tuple
    units: tuple

    def __str__(self):
        return f"{NAMES[self.delimiter]} between cells, decimal mark '{self.decimal}', header in line {self.head_line}, readings from line {self.first}: {self.kinds}"


def sniff(text, decimal=None):
    """The `Layout` of a `Text`. A fault if no line looks like readings, or if the decimal mark stays open."""
    lines = head_of(text.utf8)
    delimiter, rows, kinds = best_reading(text.file, lines)
    first = next(place for place, row in enumerate(rows) if fits(row, kinds))
    numbers = [(row.line, cell) for row in rows[first:] for cell, kind in zip(row.cells, kinds) if kind == "n" and looks_like_number(cell)]
    mark = "." if delimiter == "," and not any("," in cell for _, cell in numbers) and decimal is None else decimal_mark(numbers, decimal, text.file)
    head_line, headers, units = header_above(rows[:first], kinds)
    return Layout(delimiter, mark, kinds, rows[first].line, head_line, headers, units)


def head_of(utf8):
    """The first lines, without a last one that may be cut off."""
    head = utf8[:HEAD_BYTES].decode("utf-8", "replace")
    lines = head.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return lines[: min(HEAD_LINES, len(lines) - (len(utf8) > HEAD_BYTES))]


def best_reading(file, lines):
    """(delimiter, rows, kinds) of the way to split that makes most lines look like one line of readings."""
    ways = []
    for order, delimiter in enumerate((*DELIMITERS, " ")):
        rows = split_lines(lines, delimiter)
        kinds, score = commonest(rows)
        ways.append((score, -order, delimiter, rows, kinds))
    score, _, delimiter, rows, kinds = max(ways, key=lambda way: way[:2])
    if not score:
        raise no_table(file, lines)
    if len(kinds) > MOST_COLUMNS:
        raise IntakeFault(f"A line has {len(kinds)} cells; at most {MOST_COLUMNS} are read.", "Keep the columns of one run in a copy.", file=file, line=rows[-1].line)
    return delimiter, rows, kinds


def no_table(file, lines):
    filled = [line for line in lines if line.strip()]
    if not filled:
        return IntakeFault("This file is empty.", "Export the run again, and look into the file before you close the logger.", file=file)
    if len(filled) == 1:
        return IntakeFault("There is one line and no reading below it.", "Was the logger started? Export the run again.", file=file, line=1)
    if any(looks_like_number(tidied(line)) or looks_like_time(tidied(line)) for line in filled):
        return IntakeFault("There is only one column.", "A run needs the time and two thermometers, in columns with a header.", file=file, line=1)
    return IntakeFault("No line here looks like readings.", "Export the run as a table: times and two temperatures in columns, one header row.", file=file, line=1)


def split_lines(lines, delimiter):
    """Rows of tidied cells; empty lines and rules of dashes are left out."""
    if delimiter == " ":
        split = ((place, blank_cells(line)) for place, line in enumerate(lines, 1))
    else:
        split = quoted(lines, delimiter)
    rows = (Row(place, trimmed(cells, delimiter)) for place, cells in split)
    return [row for row in rows if any(cell and not RULE.fullmatch(cell) for cell in row.cells)]


def blank_cells(line):
    """The cells of a line with blanks between them: two or more where there are such, since a cell may hold a single one."""
    line = line.strip()
    return tuple(tidied(cell) for cell in re.split(r"\s{2,}|\t" if re.search(r"\s\s|\t", line) else r"\s", line))


def quoted(lines, delimiter):
    """(first line, cells) by the rules of RFC 4180. A quote that stays open counts as a plain sign."""
    reader, start = csv.reader((line + "\n" for line in lines), delimiter=delimiter), 1
    if any(delimiter in line and line.count('"') % 2 for line in lines):
        reader = csv.reader((line for line in lines), delimiter=delimiter, quoting=csv.QUOTE_NONE)
    for cells in reader:
        yield start, cells
        start = reader.line_num + 1


def trimmed(cells, delimiter):
    cells = tuple(tidied(cell.replace("\n", " ")) for cell in cells)
    if delimiter == "|" and len(cells) > 1 and not cells[0] and not cells[-1]:
        return cells[1:-1]
    return cells


def kind_of(cell):
    if cell in MISSING or cell.lower() in FAILED:
        return "-"
    if looks_like_number(cell):
        return "n"
    if looks_like_time(cell):
        return "t"
    return "n" if looks_like_measure(cell) else "x"


def commonest(rows):
    """(kinds, score): the commonest sequence of kinds that can be readings, and how many lines have it, times the share that isn't text."""
    patterns = Counter("".join(map(kind_of, row.cells)) for row in rows)
    merged = {pattern: sum(count for other, count in patterns.items() if agree(pattern, other)) for pattern in patterns if "n" in pattern and len(pattern) > 1}
    if not merged:
        return "", 0
    best = max(merged, key=lambda pattern: merged[pattern] * share(pattern) - 0.01 * pattern.count("-"))
    return best, merged[best] * share(best)


def share(pattern):
    return 1 - pattern.count("x") / len(pattern)


def agree(pattern, other):
    return len(pattern) == len(other) and all(one == two or "-" in (one, two) for one, two in zip(pattern, other))


def fits(row, kinds):
    found = "".join(map(kind_of, row.cells))
    return agree(kinds, found) and "n" in found


def header_above(rows, kinds):
    """(line, headers, units) from the lines above the readings; units of a row of their own. Without a header the columns are numbered."""
    width = len(kinds)
    rows = [row for row in rows if len(row.cells) >= 2 and abs(len(row.cells) - width) <= 1 and "n" not in map(kind_of, row.cells)]
    units = ("",) * width
    if len(rows) > 1 and is_units(rows[-1]):
        units = padded([unit_of(cell.strip("()[]")) for cell in rows[-1].cells], width)
        rows = rows[:-1]
    if not rows:
        return None, tuple(f"column {place}" for place in range(1, width + 1)), units
    return rows[-1].line, padded(rows[-1].cells, width), units


def is_units(row):
    filled = [cell.strip("()[]") for cell in row.cells if cell not in MISSING]
    return bool(filled) and all(unit_of(cell) or len(cell) <= 4 for cell in filled) and any(map(unit_of, filled))


def padded(cells, width):
    return tuple([*cells, *[""] * (width - len(cells))][:width])
