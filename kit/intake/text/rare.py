"""Headers that seldom occur: parted by another sign than the readings, without a name for the numbers of the rows, or over two lines."""

import re
from dataclasses import replace

from kit.intake.forms import looks_like_number, looks_like_time, MISSING, tidied, unit_of
from kit.intake.text.splitting import DELIMITERS

OTHER_SIGNS = (*map(re.escape, DELIMITERS), r"\s{2,}", r"\s+", r"\s*[,;]\s*|\s+")
NUMBERED = "row number"


def header_of_other_kind(above, way, lines):
    """The names of the columns from rows that stand above the readings and have not as many cells; None if none of them tells."""
    for row in reversed(above):
        cells = behind_row_numbers(row, way) or parted_otherwise(lines[row.line - 1], len(way.kinds))
        if cells:
            return cells
    return None


def parted_otherwise(line, width):
    """The cells of a line by a sign that parts it in as many as there are columns; None if there is no such sign."""
    for sign in OTHER_SIGNS:
        cells = tuple(map(tidied, re.split(sign, line.strip(" \r"))))
        if len(cells) == width and all(cells) and not any(looks_like_number(cell) or looks_like_time(cell) for cell in cells):
            return cells
    return None


def behind_row_numbers(row, way):
    """The cells behind a name for the row numbers that a header leaves out, as R writes tables; None if there are no such numbers."""
    if len(row.cells) != len(way.kinds) - 1:
        return None
    firsts = [each.cells[0].strip('"') for each in way.rows if len(each.kinds) == len(way.kinds)]
    counts = all(cell.isdigit() for cell in firsts) and len({int(cell) - place for place, cell in enumerate(firsts)}) == 1
    return (NUMBERED, *row.cells) if counts and len(firsts) > 1 else None


def with_row_above(headers, above):
    """Names that come twice get the name above them in front: 'Treated' over two columns called 'T (°C)' and 'RH (%)'."""
    carried, last = [], ""
    for cell in above:
        last = cell or last
        carried.append(last)
    return tuple(f"{over} {header}".strip() if headers.count(header) > 1 else header for over, header in zip(carried, headers))


def is_units(cells):
    """Is this a row of units? At least one is known, and the others are as short as units are."""
    filled = [bare(cell) for cell in cells if cell not in MISSING]
    return any(map(unit_of, filled)) and all(unit_of(cell) or len(cell) <= 5 for cell in filled)


def bare(cell):
    return cell.strip("()[] ")


def units_in(cells):
    return [unit_of(bare(cell)) for cell in cells]


def widened(way, start):
    """(way, start) with those columns at the end that the header names and only some lines of readings have."""
    place = next((at for at, row in enumerate(way.rows) if len(row.kinds) > len(way.kinds) and row.kinds[: len(way.kinds)] == way.kinds), None)
    if place is None:
        return way, start
    return replace(way, kinds=way.rows[place].kinds), min(start, place)
