"""How the text is laid out: which delimiter, which decimal mark, where the header ends and the readings begin."""

import csv
import re
from collections import Counter
from dataclasses import dataclass
from functools import lru_cache

from kit.intake.forms import decimal_mark, FAILED, looks_like_measure, looks_like_number, looks_like_time, MISSING, tidied
from kit.intake.text.gathering import always_written
from kit.intake.text.rare import (
    COMMENTS, header_cells, header_of_other_kind, is_comment, is_units, names_of_times, rows_with_names, uncommented, units_in, widened,
    with_row_above,
)  # fmt: skip
from kit.intake.text.refusing import no_table, other_width, too_long, too_many
from kit.intake.text.splitting import by_blanks, by_blanks_and_commas, by_edges, DELIMITERS, edges_of

HEAD_LINES, HEAD_BYTES = 200, 1 << 16
NAMES = {"\t": "tabs", ";": "semicolons", "|": "bars", ",": "commas", "~": "tildes", "^": "carets", " ": "blanks", " ,": "blanks and commas"}
MARKS = {".": "a point (21.4)", ",": "a comma (21,4)"}
MOST_COLUMNS, LINES_OF_A_CELL, SAMPLES = 200, 3, 3
RULE = re.compile(r"[-=+:_ ]{3,}")


@dataclass(frozen=True)
class TextRow:
    """The tidied cells of one record, the line it starts in, and a letter for each cell: n number, t time, x text, '-' nothing."""

    line: int
    cells: tuple
    kinds: str


@dataclass(frozen=True)
class Way:
    """One way to split the head of a text: its rows, the kinds of its columns, and a score: how many lines agree with them, times the
    share of columns that are no text."""

    score: float
    delimiter: str
    rows: list
    kinds: str
    edges: tuple = ()


@dataclass(frozen=True)
class TableLayout:
    """The plan of a table, column by column: `kinds` has a letter for each as in `TextRow`, `longest` how long cells get in the head,
    `samples` its first few readings as written, `decimals` how many decimals it always writes, 0 if that varies.

    `first` is the line of the first reading; `edges` is where columns of fixed width start, if they have one."""

    delimiter: str
    decimal: str
    kinds: str
    first: int
    headers: tuple
    units: tuple
    edges: tuple = ()
    longest: tuple = ()
    samples: tuple = ()
    decimals: tuple = ()

    def __str__(self):
        width = ", in columns of fixed width" if self.edges else ""
        begin = f"the readings begin in line {self.first}, with {MARKS[self.decimal]} as decimal mark"
        return f"Cells are parted by {NAMES[self.delimiter]}{width}; {begin}."


def sniff(text, decimal=None):
    """The `TableLayout` of a `Text`. A fault if no line looks like readings, or if the decimal mark stays open."""
    lines, before = head_of(text)
    way = best_way(text, lines)
    start = first_reading(way.rows, way.kinds)
    if start and len(way.rows[start - 1].kinds) > len(way.kinds):
        way, start = widened(way, start)
    body = [row for row in way.rows[start:] if len(row.kinds) == len(way.kinds)]
    numbers = [(row.line + before, cell) for row in body for cell, kind, wanted in zip(row.cells, row.kinds, way.kinds) if kind == wanted == "n"]
    mark = decimal_mark(numbers, decimal, text.file)
    headers, units = (text.headers, ("",) * len(text.headers)) if text.headers else header_of(text.file, way, start, lines)
    columns = list(zip(*(row.cells for row in body)))
    longest = tuple(max(map(len, cells)) for cells in columns)
    samples = tuple(tuple(cell for cell in cells if cell not in MISSING)[:SAMPLES] for cells in columns)
    decimals = tuple(always_written(cells, mark) if kind == "n" else 0 for cells, kind in zip(columns, way.kinds))
    return TableLayout(way.delimiter, mark, way.kinds, way.rows[start].line + before, headers, units, way.edges, longest, samples, decimals)


def head_of(text):
    """(the first lines without blank ones before them and without a last one that may be cut off, how many blank ones there were)."""
    place = re.search(rb"\S|$", text.utf8).start()
    place = text.utf8.rfind(b"\n", 0, place) + 1
    before = text.utf8.count(b"\n", 0, place)
    lines = text.utf8[place : place + HEAD_BYTES].decode("utf-8", "replace").replace("\r\n", "\n").split("\n")
    whole = lines[: min(HEAD_LINES, len(lines) - (len(text.utf8) - place > HEAD_BYTES))]
    if not whole:
        raise too_long(text.file, before + 1, HEAD_BYTES)
    return whole, before


def best_way(text, lines):
    """The `Way` to split that makes most lines look like one line of readings."""
    present = [delimiter for delimiter in DELIMITERS if any(delimiter in line for line in lines)]
    ways = [scored(delimiter, rows_of(split(lines, delimiter))) for delimiter in present]
    if not any(way.score and "x" not in way.kinds for way in ways):
        ways += blank_ways(lines)
        mixed = scored(" ,", rows_of(by_blanks_and_commas(lines)))
        texts = [way.kinds.count("x") for way in ways if way.score]
        ways += [mixed] if mixed.kinds.count("x") < min(texts, default=1) else []
    best = max(ways, key=lambda way: way.score)
    if not best.score:
        raise no_table(text, lines)
    if len(best.kinds) > MOST_COLUMNS:
        raise too_many(text.file, best.rows[-1].line, len(best.kinds), MOST_COLUMNS)
    return best


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
    start = next((row.line for row in rows if agree(row.kinds, way.kinds)), 0)
    body = [row for row in rows if row.line >= start and ("n" in row.kinds or "t" in row.kinds)]
    if not way.score or all(len(row.cells) == len(way.kinds) for row in body):
        return [way]
    above = [row.line for row in rows if row.line < start][-1:]
    edges = edges_of([lines[line - 1] for line in above] + [line for line in lines[start - 1 :] if line.strip()])
    return [way, scored(" ", rows_of(by_edges(lines, edges)), edges)] if len(edges) >= 2 else [way]


def rows_of(split_lines):
    return [TextRow(line, cells, "".join(map(kind_of, cells))) for line, cells in split_lines if not is_blank(cells)]


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
    """The `Way` of these rows, by the commonest kinds of readings among them."""
    patterns = Counter(row.kinds for row in rows if "n" in row.kinds and len(row.kinds) > 1)
    totals = {pattern: sum(count for other, count in patterns.items() if agree(pattern, other)) for pattern in patterns}
    if not totals:
        return Way(0, delimiter, rows, "", edges)
    best = max(totals, key=lambda pattern: (totals[pattern] * share(pattern), -pattern.count("-")))
    seen = zip(*(row.kinds for row in rows if agree(row.kinds, best)))
    kinds = "".join(max("ntx", key=letters.count) if set(letters) != {"-"} else "-" for letters in seen)
    return Way(totals[best] * share(best), delimiter, rows, kinds, edges)


def share(pattern):
    return 1 - pattern.count("x") / len(pattern)


def agree(kinds, other):
    return len(kinds) == len(other) and all(one == two or "-" in (one, two) for one, two in zip(kinds, other))


def first_reading(rows, kinds):
    """Where the readings begin: at the first line, or lines before it that have their time and marks for all numbers, or fewer empty cells behind."""
    place = next(place for place, row in enumerate(rows) if agree(row.kinds, kinds) and ("n" in row.kinds or "t" in row.kinds))
    end = kinds.rstrip("-")
    while place and (len(one := rows[place - 1].kinds) == len(kinds) and "t" in one or "n" in one and agree(one.rstrip("-"), end)):
        place -= 1
    return place


def header_of(file, way, start, lines):
    """(headers, units) from what stands above the readings. A fault if the last line there names columns, but not as many as there are."""
    above = [uncommented(row, way) if row.cells[0].startswith(COMMENTS) else row for row in way.rows[:start]]
    above = [row for row in above if "x" in row.kinds and "t" not in row.kinds and row.kinds[:1] != "n"]
    fitting = [cells for row in above if fits(cells := header_cells(row, way, lines) if way.delimiter == " ," else row.cells, way.kinds)]
    if not fitting and above:
        other = header_of_other_kind(above, way, lines) or names_of_times(above[-1].cells, way, way.rows[start:])
        names_some = sum(map(bool, above[-1].cells)) > (1 if way.delimiter[0] != " " else len(way.kinds) / 2)
        if other is None and names_some and not is_comment(way.rows[:start], above[-1].line):
            raise other_width(file, above[-1], len(way.kinds))
        fitting = [other] if other else []
    return header_above(fitting, way.kinds)


def by_delimiter(lines, delimiter, strict=False):
    """(line from 1, cells) for each record; a quoted cell may run over several lines. csv.Error on a stray quote where `strict`."""
    reader, line = csv.reader(lines, delimiter=delimiter, strict=strict), 1
    for cells in reader:
        yield line, trimmed(cells, delimiter)
        line = reader.line_num + 1


def by_plain_delimiter(lines, delimiter):
    """The same with a quotation mark as a sign like any other."""
    return ((line, trimmed(each.rstrip("\r\n").split(delimiter), delimiter)) for line, each in enumerate(lines, 1))


def trimmed(cells, delimiter):
    """Tidied cells; the empty ones outside the bars of '| a | b |' are no cells."""
    cells = tuple([tidied(cell) if "\n" not in cell else tidied(cell.replace("\r", "").replace("\n", " ")) for cell in cells])
    return cells[1:-1] if delimiter == "|" and len(cells) > 2 and not cells[0] and not cells[-1] else cells


def is_blank(cells):
    """Is there nothing in this line but blanks and rules of dashes?"""
    return not any(cell and not RULE.fullmatch(cell) for cell in cells)


def header_above(rows, kinds):
    """(headers, units) of columns of these `kinds`, from the rows of cells above the readings. Without a header they are numbered."""
    width = len(kinds)
    units = ("",) * width
    names, below = rows_with_names(rows, width) if len(rows) > 1 else ((), ())
    if below:
        return names, padded(units_in(below), width)
    if len(rows) > 1 and is_units(rows[-1]):
        units = padded(units_in(rows[-1]), width)
        rows = rows[:-1]
    if not rows:
        return tuple(f"column {place}" for place in range(1, width + 1)), units
    headers = padded(rows[-1], width)
    named = [header for header in headers if header]
    return with_row_above(headers, padded(rows[-2], width)) if len(rows) > 1 and len(set(named)) < len(named) else headers, units


def fits(cells, kinds):
    """Can this row name the columns? It has a cell for each, but for a last column without readings unless its own last cell is empty, and two
    names at least; what is more is empty, or a note behind an empty cell."""
    least, more = len(kinds) - (kinds[-1] == "-" and bool(cells[-1])), cells[len(kinds) :]
    return len(cells) >= max(2, least) and sum(map(bool, cells)) >= 2 and not (more and more[0])


def padded(cells, width):
    return tuple([*cells, *[""] * (width - len(cells))][:width])
