"""A column of cells as numbers, with word of every cell that is not a plain number."""

from dataclasses import dataclass, field

import numpy as np

from kit.intake.forms import FAILED, grouped, measure, MISSING, STRICT
from kit.intake.text.tally import add, merged
from kit.words import counted


@dataclass(frozen=True, eq=False)
class Part:
    """Some cells of one column. `seen` tallies what was unusual among them, as in `kit.intake.text.tally`; units are 'unit °C' and so on."""

    values: np.ndarray
    seen: dict = field(default_factory=dict)

    def unit(self, headed):
        """The unit of the column: that of its header, else the first one written in the cells, else ''."""
        return headed or next(iter(self.units()), "")

    def odd(self, headed):
        """(line, cell) of the first cell that holds no number and no mark for a missing one, or has another unit; None without any."""
        strange = [tally.examples[0] for unit, tally in self.units().items() if unit != self.unit(headed)]
        return min([*strange, *(self.seen["odd"].examples[:1] if "odd" in self.seen else ())], default=None)

    def units(self):
        """The units written in the cells, with a tally of each."""
        return {kind.removeprefix(UNIT): tally for kind, tally in self.seen.items() if kind.startswith(UNIT)}

    def notes(self):
        """A sentence for each kind of unusual cell that was read all the same; '{}' stands for the column's name."""
        return tuple(NOTES[kind.partition(" ")[0]](tally) for kind, tally in self.seen.items() if kind != "odd")


UNIT = "unit "


def failed_said(tally):
    line, cell = tally.examples[0]
    return f"{{}}: {counted(tally.count, 'cell')} like '{cell}', first in line {line}, counted as missing."


def grouped_said(tally):
    line, cell = tally.examples[0]
    return f"{{}}: {counted(tally.count, 'number')} with a mark between thousands, first '{cell}' in line {line}."


def unit_said(tally):
    line, cell = tally.examples[0]
    return f"{{}}: {counted(tally.count, 'number')} with a unit behind, first '{cell}' in line {line}."


NOTES = {"failed": failed_said, "grouped": grouped_said, "unit": unit_said}


def numbers_of(cells, lines, decimal):
    """The `Part` of tidied `cells`: float64, NaN where missing or odd."""
    plain = STRICT[decimal].fullmatch
    values, seen = np.full(len(cells), np.nan), {}
    for place, cell in enumerate(cells):
        if plain(cell):
            values[place] = cell.replace(",", ".")
        elif cell not in MISSING:
            kind, values[place] = unusual(cell, decimal)
            add(seen, kind, lines[place], cell)
    for place in np.flatnonzero(np.isinf(values)):
        values[place] = np.nan
        add(seen, "odd", lines[place], cells[place])
    return Part(values, seen)


def unusual(cell, decimal):
    """(kind, number) of a cell that is not a plain number."""
    if cell.lower() in FAILED:
        return "failed", np.nan
    value = grouped(cell, decimal)
    if value is not None:
        return "grouped", value
    found = measure(cell, decimal)
    return (UNIT + found[1], found[0]) if found else ("odd", np.nan)


def joined(parts):
    """One `Part` from those of one column's blocks."""
    if len(parts) == 1:
        return parts[0]
    return Part(np.concatenate([part.values for part in parts]), merged(part.seen for part in parts))
