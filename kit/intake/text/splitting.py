"""One line of text as cells: by a delimiter (RFC 4180), by blanks, or by the columns of a fixed-width table."""

import csv
import re

from kit.intake.forms import tidied

RULE = re.compile(r"[-=+:_ ]{3,}")
TWO_BLANKS = re.compile(r"\s\s|\t")


def by_delimiter(lines, delimiter, strict=False):
    """(line from 1, cells) for each record; a quoted cell may run over several lines. csv.Error on a stray quote where `strict`."""
    reader, line = csv.reader(lines, delimiter=delimiter, strict=strict), 1
    for cells in reader:
        yield line, trimmed(cells, delimiter)
        line = reader.line_num + 1


def by_plain_delimiter(lines, delimiter):
    """The same with a quotation mark as a sign like any other."""
    return ((line, trimmed(each.rstrip("\r\n").split(delimiter), delimiter)) for line, each in enumerate(lines, 1))


def by_blanks(lines):
    """(line, cells): two blanks or more between cells where a line has them, since a cell may hold a single one."""
    for line, each in enumerate(lines, 1):
        each = each.strip()
        yield line, tuple(tidied(cell) for cell in re.split(r"\s{2,}|\t" if TWO_BLANKS.search(each) else r"\s", each))


def by_edges(lines, edges):
    """(line, cells) of a fixed-width table whose columns start at `edges`."""
    for line, each in enumerate(lines, 1):
        each = each.rstrip("\r\n").expandtabs()
        yield line, tuple(tidied(each[start:end]) for start, end in zip(edges, (*edges[1:], None)))


def edges_of(lines):
    """Where the columns of a fixed-width table start: after places that are blank in every one of `lines`."""
    lines = [line.rstrip().expandtabs() for line in lines]
    width = max(map(len, lines), default=0)
    filled = [any(place < len(line) and line[place] != " " for line in lines) for place in range(width)]
    return tuple(place for place in range(width) if filled[place] and (place == 0 or not filled[place - 1]))


def trimmed(cells, delimiter):
    """Tidied cells; the empty ones outside the bars of '| a | b |' are no cells."""
    cells = tuple([tidied(cell) if "\n" not in cell else tidied(cell.replace("\r", "").replace("\n", " ")) for cell in cells])
    return cells[1:-1] if delimiter == "|" and len(cells) > 2 and not cells[0] and not cells[-1] else cells


def is_blank(cells):
    """Is there nothing in this line but blanks and rules of dashes?"""
    return not any(cell and not RULE.fullmatch(cell) for cell in cells)
