"""A column of cells as numbers, with word of every cell that is not a plain number."""

from dataclasses import dataclass

import numpy as np

from kit.records.numbers import FAILED, MISSING, STRICT, grouped, measure
from kit.words import counted


@dataclass(frozen=True, eq=False)
class Part:
    """Cells of one column. `seen` maps what was unusual to (line, cell) pairs; `unit` is the one written in the cells, if any."""

    values: np.ndarray
    seen: dict = None
    unit: str = ""

    @property
    def odd(self):
        """(line, cell) of the cells that hold no number and no mark for a missing one."""
        return tuple((self.seen or {}).get("odd", ()))

    def notes(self):
        """A sentence for each kind of unusual cell that was read all the same; '{}' stands for the column's name."""
        return tuple(NOTES[kind](cells) for kind, cells in (self.seen or {}).items() if kind in NOTES)


NOTES = {
    "failed": lambda cells: (
        f"{{}}: {counted(len(cells), 'cell')} say '{cells[0][1]}' or the like, first in line {cells[0][0]}; counted as missing."
    ),
    "grouped": lambda cells: f"{{}}: {counted(len(cells), 'number')} with a thousands mark, first '{cells[0][1]}' in line {cells[0][0]}.",
}


def numbers_of(cells, lines, decimal):
    """The `Part` of tidied `cells`: float64, NaN where missing or odd."""
    plain = STRICT[decimal].fullmatch
    values, seen, units = np.full(len(cells), np.nan), {}, set()
    for place, cell in enumerate(cells):
        if plain(cell):
            values[place] = cell.replace(",", ".")
        elif cell not in MISSING:
            kind, values[place], unit = unusual(cell, decimal)
            units.update({unit} - {""})
            seen.setdefault(kind, []).append((lines[place], cell))
    for place in np.flatnonzero(np.isinf(values)):
        values[place] = np.nan
        seen.setdefault("odd", []).append((lines[place], cells[place]))
    if len(units) > 1:
        seen.setdefault("odd", []).extend(seen.pop("measure"))
    return Part(values, seen, units.pop() if len(units) == 1 else "")


def unusual(cell, decimal):
    """(kind, number, unit) of a cell that is not a plain number."""
    if cell.lower() in FAILED:
        return "failed", np.nan, ""
    value = grouped(cell, decimal)
    if value is not None:
        return "grouped", value, ""
    found = measure(cell, decimal)
    return ("measure", *found) if found else ("odd", np.nan, "")


def joined(parts):
    """One `Part` from those of one column's blocks."""
    seen = {}
    for part in parts:
        for kind, cells in (part.seen or {}).items():
            seen.setdefault(kind, []).extend(cells)
    units = {part.unit for part in parts} - {""}
    return Part(np.concatenate([part.values for part in parts]), seen, units.pop() if len(units) == 1 else "")
