"""How the text is laid out: which delimiter, which decimal mark, where the header ends and the readings begin."""

import csv
import re
from collections import Counter
from dataclasses import dataclass
from functools import lru_cache

from kit.faults import IntakeFault
from kit.intake.forms import decimal_mark, FAILED, looks_like_measure, looks_like_number, looks_like_time, MISSING, tidied, unit_of
from kit.intake.text.refusing import no_table, other_width
from kit.intake.text.splitting import by_blanks, by_edges, DELIMITERS, edges_of

HEAD_LINES = 200
HEAD_BYTES = 1 << 16
NAMES = {"\t": "tabs", ";": "semicolons", "|": "bars", ",": "commas", " ": "blanks"}
MARKS = {".": "a point (21.4)", ",": "a comma (21,4)"}
MOST_COLUMNS = 200
LINES_OF_A_CELL = 3
RULE = re.compile(r"[-=+:_ ]{3,}")


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
    if above and len(above[-1].cells) > 1 and not any(fits(row.cells, kinds) for row in above):
        raise other_width(text.file, above[-1], len(kinds))
    headers, units = header_above([row.cells for row in above], kinds)
    longest = tuple(max(map(len, cells)) for cells in zip(*(row.cells for row in rows[start:] if len(row.kinds) == len(kinds))))
    return Layout(delimiter, mark, kinds, rows[start].line, headers, units, edges, longest)


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
    rows = [cells for cells in rows if fits(cells, kinds)]
    units = ("",) * width
    if len(rows) > 1 and is_units(rows[-1]):
        units = padded([unit_of(bare(cell)) for cell in rows[-1]], width)
        rows = rows[:-1]
    if not rows:
        return tuple(f"column {place}" for place in range(1, width + 1)), units
    headers = padded(rows[-1], width)
    return with_row_above(headers, padded(rows[-2], width)) if len(rows) > 1 else headers, units


def fits(cells, kinds):
    """Can this row name the columns? It has a cell for each, but for a last column without readings; what is more is empty."""
    least = len(kinds) - (kinds[-1] == "-")
    return len(cells) >= max(2, least) and not any(cells[len(kinds) :])


def is_units(cells):
    """Is this a row of units? At least one is known, and the others are as short as units are."""
    filled = [bare(cell) for cell in cells if cell not in MISSING]
    return any(map(unit_of, filled)) and all(unit_of(cell) or len(cell) <= 5 for cell in filled)


def bare(cell):
    return cell.strip("()[] ")


def padded(cells, width):
    return tuple([*cells, *[""] * (width - len(cells))][:width])


def with_row_above(headers, above):
    """Names that come twice get the name above them in front: 'Treated' over two columns called 'T (°C)' and 'RH (%)'."""
    if len(set(filter(None, headers))) == len([each for each in headers if each]):
        return headers
    carried, last = [], ""
    for cell in above:
        last = cell or last
        carried.append(last)
    return tuple(f"{over} {header}".strip() if headers.count(header) > 1 else header for over, header in zip(carried, headers))
