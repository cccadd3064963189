"""A column of cells as numbers, with word of every cell that is not a plain number."""

from dataclasses import dataclass, field

import numpy as np

from kit.records.numbers import FAILED, MISSING, STRICT, grouped, measure
from kit.records.tally import add, merged
from kit.words import counted


@dataclass(frozen=True, eq=False)
class Part:
    """Some cells of one column. `seen` tallies what was unusual among them, as in `kit.records.tally`; units are 'unit °C' and so on."""

    values: np.ndarray
    seen: dict = field(default_factory=dict)

    @property
    def unit(self):
        """The one unit that is written in the cells, or ''."""
        units = [kind.removeprefix("unit ") for kind in self.seen if kind.startswith("unit ")]
        return units[0] if len(units) == 1 else ""

    @property
    def odd(self):
        """(line, cell) of the first cell that holds no number and no mark for a missing one, or a second unit; None if there is none."""
        units = [tally.examples[0] for kind, tally in self.seen.items() if kind.startswith("unit ")]
        odd = [self.seen["odd"].examples[0]] if "odd" in self.seen else []
        return min(odd + units[1:], default=None)

    def notes(self):
        """A sentence for each kind of unusual cell that was read all the same; '{}' stands for the column's name."""
        return tuple(sentence(tally) for kind, tally in self.seen.items() if (sentence := NOTES.get(kind)))


def failed_said(tally):
    line, cell = tally.examples[0]
    return f"{{}}: {counted(tally.count, 'cell')} like '{cell}', first in line {line}, counted as missing."


def grouped_said(tally):
    line, cell = tally.examples[0]
    return f"{{}}: {counted(tally.count, 'number')} with a mark between thousands, first '{cell}' in line {line}."


NOTES = {"failed": failed_said, "grouped": grouped_said}


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
    return (f"unit {found[1]}", found[0]) if found else ("odd", np.nan)


def joined(parts):
    """One `Part` from those of one column's blocks."""
    if len(parts) == 1:
        return parts[0]
    return Part(np.concatenate([part.values for part in parts]), merged(part.seen for part in parts))
