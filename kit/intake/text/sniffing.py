"""How the text is laid out: which delimiter, which decimal mark, where the header ends and the readings begin."""

import csv
from collections import Counter
from dataclasses import dataclass
from functools import lru_cache

from kit.faults import IntakeFault
from kit.intake.text.heading import fits, header_above
from kit.intake.forms import decimal_mark, FAILED, looks_like_measure, looks_like_number, looks_like_time, MISSING, tidied
from kit.intake.text.splitting import by_blanks, by_delimiter, by_edges, by_plain_delimiter, edges_of, is_blank

HEAD_LINES = 200
HEAD_BYTES = 1 << 16
DELIMITERS = ("\t", ";", "|", ",")
NAMES = {"\t": "tabs", ";": "semicolons", "|": "bars", ",": "commas", " ": "blanks"}
MARKS = {".": "a point (21.4)", ",": "a comma (21,4)"}
MOST_COLUMNS = 200
LINES_OF_A_CELL = 3


@dataclass(frozen=True)
class Row:
    """The tidied cells of one record, the line it starts in, and a letter for each cell: n number, t time, x text, '-' nothing."""

    line: int
    cells: tuple
    kinds: str


@dataclass(frozen=True)
class Layout:
    """The plan of a table, column by column: `kinds` has a letter for each as in `Row`, `longest` how long cells get in the head.

    `first` is the line of the first reading; `edges` is where columns of fixed width start, if they have one."""

    delimiter: str
    decimal: str
    kinds: str
    first: int
    headers: tuple
    units: tuple
    edges: tuple = ()
    longest: tuple = ()

    def __str__(self):
        width = ", in columns of fixed width" if self.edges else ""
        begin = f"the readings begin in line {self.first}, with {MARKS[self.decimal]} as decimal mark"
        return f"Cells are parted by {NAMES[self.delimiter]}{width}; {begin}."


def sniff(text, decimal=None):
    """The `Layout` of a `Text`. A fault if no line looks like readings, or if the decimal mark stays open."""
    lines = head_of(text.utf8)
    delimiter, rows, kinds, edges = best_reading(text.file, lines)
    start = next(place for place, row in enumerate(rows) if "n" in row.kinds and agree(row.kinds, kinds))
    numbers = [(row.line, cell) for row in rows[start:] for cell, kind, wanted in zip(row.cells, row.kinds, kinds) if kind == wanted == "n"]
    mark = decimal_mark(numbers, decimal, text.file)
    above = [row for row in rows[:start] if "n" not in row.kinds]
    refuse_other_width(text.file, above, kinds)
    headers, units = header_above([row.cells for row in above], kinds)
    longest = tuple(max(map(len, cells)) for cells in zip(*(row.cells for row in rows[start:] if len(row.kinds) == len(kinds))))
    return Layout(delimiter, mark, kinds, rows[start].line, headers, units, edges, longest)


def refuse_other_width(file, above, kinds):
    """A fault if the last line above the readings names columns, but not as many as there are."""
    if not above or len(above[-1].cells) < 2 or any(fits(row.cells, kinds) for row in above):
        return
    what = f"This header has {len(above[-1].cells)} cells, the lines below {len(kinds)}."
    do = "Is a comma both decimal mark and delimiter? Export with semicolons, or correct it in a copy."
    raise IntakeFault(what, do, file=file, line=above[-1].line)


def head_of(utf8):
    """The first lines, without a last one that may be cut off."""
    lines = utf8[:HEAD_BYTES].decode("utf-8", "replace").replace("\r\n", "\n").split("\n")
    return lines[: min(HEAD_LINES, len(lines) - (len(utf8) > HEAD_BYTES))]


def best_reading(file, lines):
    """(delimiter, rows, kinds, edges) of the way to split that makes most lines look like one line of readings."""
    present = [delimiter for delimiter in DELIMITERS if any(delimiter in line for line in lines)]
    ways = [scored(delimiter, rows_of(split(lines, delimiter))) for delimiter in present]
    if not any(score and "x" not in kinds for score, _, _, kinds, _ in ways):
        ways += blank_ways(lines)
    score, delimiter, rows, kinds, edges = max(ways, key=lambda way: way[0])
    if not score:
        raise no_table(file, lines)
    if len(kinds) > MOST_COLUMNS:
        raise IntakeFault(
            f"A line has {len(kinds)} cells; at most {MOST_COLUMNS} are read.",
            "Keep the columns of one run in a copy.",
            file=file,
            line=rows[-1].line,
        )
    return delimiter, rows, kinds, edges


def split(lines, delimiter):
    """(line, cells) by RFC 4180; with the quote as a sign like any other where one cell would swallow many lines (5" probe)."""
    try:
        quoted = list(by_delimiter([line + "\n" for line in lines], delimiter))
    except csv.Error:
        return by_plain_delimiter(lines, delimiter)
    starts = [line for line, _ in quoted] + [len(lines) + 1]
    longest = max((end - start for start, end in zip(starts, starts[1:])), default=0)
    return by_plain_delimiter(lines, delimiter) if longest > LINES_OF_A_CELL else quoted


def blank_ways(lines):
    """Blanks between cells; and, where lines differ in cells so, columns of fixed width under the line above the readings."""
    rows = rows_of(by_blanks(lines))
    way = scored(" ", rows)
    body = [row for row in rows if "n" in row.kinds or "t" in row.kinds]
    if not way[0] or all(len(row.cells) == len(way[3]) for row in body):
        return [way]
    start = next(row.line for row in rows if agree(row.kinds, way[3]))
    above = [row.line for row in rows if row.line < start][-1:]
    edges = edges_of([lines[line - 1] for line in above] + [line for line in lines[start - 1 :] if line.strip()])
    return [way, scored(" ", rows_of(by_edges(lines, edges)), edges)] if len(edges) >= 2 else [way]


def rows_of(split_lines):
    return [Row(line, cells, "".join(map(kind_of, cells))) for line, cells in split_lines if not is_blank(cells)]


@lru_cache(maxsize=4096)
def kind_of(cell):
    if cell in MISSING:
        return "-"
    if looks_like_number(cell):
        return "n"
    if looks_like_time(cell):
        return "t"
    return "n" if looks_like_measure(cell) else "-" if cell.lower() in FAILED else "x"


def scored(delimiter, rows, edges=()):
    """A way to split with its score: how many lines agree with the commonest kinds of readings, times the share that isn't text."""
    patterns = Counter(row.kinds for row in rows if "n" in row.kinds and len(row.kinds) > 1)
    totals = {pattern: sum(count for other, count in patterns.items() if agree(pattern, other)) for pattern in patterns}
    if not totals:
        return 0, delimiter, rows, "", edges
    best = max(totals, key=lambda pattern: (totals[pattern] * share(pattern), -pattern.count("-")))
    kinds = "".join(commonest(letters) for letters in zip(*(row.kinds for row in rows if agree(row.kinds, best))))
    return totals[best] * share(best), delimiter, rows, kinds, edges


def commonest(letters):
    return max("ntx", key=letters.count) if set(letters) != {"-"} else "-"


def share(pattern):
    return 1 - pattern.count("x") / len(pattern)


def agree(kinds, other):
    return len(kinds) == len(other) and all(one == two or "-" in (one, two) for one, two in zip(kinds, other))


def no_table(file, lines):
    """The fault for a text in which no line looks like readings."""
    filled = {number: tidied(line) for number, line in enumerate(lines, 1) if line.strip()}
    if not filled:
        return IntakeFault("This file is empty.", "Export the run again, and look into the file before you close the logger.", file=file)
    if any(looks_like_number(line) or looks_like_time(line) for line in filled.values()):
        return IntakeFault(
            "There is only one column here.",
            "A run needs a time and two temperatures in each line, and a header above them.",
            file=file,
            line=1,
        )
    last = max(filled)
    if any(delimiter in filled[last] for delimiter in DELIMITERS):
        return IntakeFault(
            "There is a header, and no reading below it.", "Was the logger started? Export the run again.", file=file, line=last
        )
    return IntakeFault(
        "No line here looks like readings.",
        "Export the run as a table: in each line a time and two temperatures, a header above.",
        file=file,
        line=1,
    )
