"""The lines above the readings: names, units in a row of their own, and names over several columns."""

from kit.intake.forms import MISSING, unit_of


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
