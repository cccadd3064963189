"""One line of text as cells where no single delimiter parts them: by blanks, by blanks and commas, or by the columns of a fixed-width table."""

import re

from kit.intake.forms import tidied

DELIMITERS = ("\t", ";", "|", ",", "~", "^")
BETWEEN = re.compile(r"\s*[,;|\t]\s*|\s+")
TWO_BLANKS = re.compile(r"\s\s|\t")


def by_blanks(lines):
    """(line, cells): two blanks or more between cells where a line has them, since a cell may hold a single one."""
    for line, each in enumerate(lines, 1):
        each = each.strip()
        yield line, tuple(tidied(cell) for cell in re.split(r"\s{2,}|\t" if TWO_BLANKS.search(each) else r"\s", each))


def by_blanks_and_commas(lines):
    """(line, cells) where both blanks and commas, semicolons or tabs part cells."""
    for line, each in enumerate(lines, 1):
        yield line, tuple(tidied(cell) for cell in BETWEEN.split(each.strip()))


def by_edges(lines, edges):
    """(line, cells) of a fixed-width table whose columns start at `edges`; of a line that an edge would cut through, what stands between blanks."""
    for line, each in enumerate(lines, 1):
        each = each.rstrip("\r\n").expandtabs()
        cut = any(0 < edge < len(each) and " " not in each[edge - 1 : edge + 1] for edge in edges)
        yield line, tuple(map(tidied, each.split() if cut else (each[start:end] for start, end in zip(edges, (*edges[1:], None)))))


def edges_of(lines):
    """Where the columns of a fixed-width table start: after places that are blank in every one of `lines`."""
    lines = [line.rstrip().expandtabs() for line in lines]
    width = max(map(len, lines), default=0)
    filled = [any(place < len(line) and line[place] != " " for line in lines) for place in range(width)]
    return tuple(place for place in range(width) if filled[place] and (place == 0 or not filled[place - 1]))


def cell_spans(line, delimiter):
    """(start, end) of every cell in a line, so that each can be shown in its place; a delimiter in quotation marks parts nothing."""
    start, spans, quoted = 0, [], False
    for place, sign in enumerate(line + delimiter):
        quoted ^= sign == '"'
        if sign == delimiter and not quoted or place == len(line):
            spans.append((start, place))
            start = place + 1
    return spans
