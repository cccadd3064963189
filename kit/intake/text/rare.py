"""Headers that seldom occur: parted by another sign than the readings, without a name for the numbers of the rows, or over two lines."""

import re
from dataclasses import replace

from kit.intake.forms import looks_like_number, looks_like_time, MISSING, tidied, unit_of
from kit.intake.text.splitting import DELIMITERS

OTHER_SIGNS = (*map(re.escape, DELIMITERS), r"\s{2,}", r"\s+", r"\s*[,;]\s*|\s+")
NUMBERED = "row number"
COMMENTS = ("#", "%", "//", "!")
TIME_NAMES = set("year month day hour minute second date time timestamp datetime yr mo dy hr min sec doy jday zone utc gmt lst mst pst cst est cet".split())


def header_of_other_kind(above, way, lines):
    """The names of the columns from rows that stand above the readings and have not as many cells; None if none of them tells."""
    for row in reversed(above):
        cells = behind_row_numbers(row, way) or parted_otherwise(lines[row.line - 1], len(way.kinds))
        if cells:
            return cells
    return None


def header_cells(row, way, lines):
    """The cells of a header where blanks part readings, too: those that its other signs part, if they are as many as there are columns, since
    a name may hold blanks."""
    first, *others = map(tidied, re.split(r"[,;|\t]", lines[row.line - 1]))
    cells = (first.lstrip("".join(COMMENTS) + " "), *others)
    return cells if len(cells) == len(way.kinds) else row.cells


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


def uncommented(row, way):
    """A row without the sign of a comment before its first name: '# time T1 T2' names columns; '#' over row numbers is a name itself."""
    first = row.cells[0]
    if first in COMMENTS and (way.delimiter[0] == " " or len(row.cells) > len(way.kinds)):
        return replace(row, cells=row.cells[1:] or ("",), kinds=row.kinds[1:])
    bare_first = first.lstrip("#%!/ ")
    return replace(row, cells=(bare_first, *row.cells[1:])) if first.startswith(COMMENTS) and bare_first else row


def is_comment(rows, line):
    return any(row.line == line and row.cells[0].startswith(COMMENTS) for row in rows)


def names_of_times(cells, way, body):
    """The names of a header with fewer cells than there are columns, as far as they name parts of the time from the left; the columns of
    readings are numbered, for which of them the other names mean is not certain. None where a comma may part decimals."""
    safe = way.delimiter != "," or any("." in cell for row in body for cell, kind in zip(row.cells, row.kinds) if kind == "n")
    told = next((place for place, cell in enumerate(cells) if cell and not set(cell.lower().split("_")) & TIME_NAMES), len(cells))
    if not safe or not any(cells[:told]) or len(cells) >= len(way.kinds):
        return None
    return (*cells[:told], *(f"column {place}" for place in range(told + 1, len(way.kinds) + 1)))


def rows_with_names(rows, width):
    """(names, units below) where a row names every column differently and the one below it holds units, as loggers write that give names,
    units and the kind of mean in three rows; ((), ()) elsewhere."""
    full = [place for place, row in enumerate(rows) if len(set(row[:width])) == width and all(row[:width])]
    if not full or full[-1] == len(rows) - 1:
        return (), ()
    below = rows[full[-1] + 1]
    return (rows[full[-1]][:width], below) if any(unit_of(bare(cell)) for cell in below) else ((), ())


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
