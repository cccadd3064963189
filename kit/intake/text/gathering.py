"""The cells of a record put together from what its shares hold, in whatever order they come, with a tally of all that was unusual."""

from collections import Counter
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from kit.words import counted, listed

SHOWN = 3


class Tally(NamedTuple):
    """How many there were, and the first few as (line, text)."""

    count: int
    examples: tuple


def add(tallies, kind, line, text):
    """Count one more of `kind` in the dict `tallies`."""
    count, examples = tallies.get(kind, (0, ()))
    tallies[kind] = Tally(count + 1, (*examples, (line, text)) if count < SHOWN else examples)


def merged(many):
    """One dict of tallies from several, in their order."""
    whole = {}
    for tallies in many:
        for kind, (count, examples) in tallies.items():
            before = whole.get(kind, Tally(0, ()))
            whole[kind] = Tally(before.count + count, (before.examples + examples)[:SHOWN])
    return whole


def examples_of(tally):
    """ "line 8 '# lamp', line 9 '# gas' and others": the first few, quoted."""
    shown = ", ".join(f"line {line} '{text[:40]}'" if text else f"line {line}" for line, text in tally.examples)
    return f"{shown} and others" if tally.count > SHOWN else shown


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
        single = [tally.examples[0] for kind, tally in self.seen.items() if kind == "odd" or kind.startswith(WORD) and tally.count < 2]
        return min([*strange, *single], default=None)

    def units(self):
        """The units written in the cells, with a tally of each."""
        return {kind.removeprefix(UNIT): tally for kind, tally in self.seen.items() if kind.startswith(UNIT)}

    def notes(self):
        """A sentence for each kind of unusual cell that was read all the same; '{}' stands for the column's name."""
        return tuple(NOTES[kind.partition(" ")[0]](tally) for kind, tally in self.seen.items() if kind != "odd")


UNIT, WORD = "unit ", "word "
FIXED_LEAST, FEW_CUT = 20, 3  # so many cells show that a column writes all its decimals; so few others are damaged ones


def always_written(cells, mark):
    """How many decimals the `cells` of a column always have, as some that end in 0 show; 0 if that varies, or too few tell."""
    decimals = [cell.partition(mark)[2] for cell in cells if cell[-1:].isdigit() or cell.endswith(mark)]
    most, count = Counter(map(len, decimals)).most_common(1)[0] if decimals else (0, 0)
    told = any(each.endswith("0") and len(each) == most for each in decimals)
    return most if told and count >= FIXED_LEAST and len(decimals) - count <= FEW_CUT else 0


def failed_said(tally):
    line, cell = tally.examples[0]
    return f"{{}}: {counted(tally.count, 'cell')} like '{cell}', first in line {line}, counted as missing."


def grouped_said(tally):
    line, cell = tally.examples[0]
    return f"{{}}: {counted(tally.count, 'number')} with a mark between thousands, first '{cell}' in line {line}."


def unit_said(tally):
    line, cell = tally.examples[0]
    return f"{{}}: {counted(tally.count, 'number')} with a unit behind, first '{cell}' in line {line}."


def cut_said(tally):
    cells = listed(f"'{cell}' in line {line}" for line, cell in tally.examples)
    return f"{{}}: fewer decimals than all others in {cells}: were figures cut off? Kept as written."


NOTES = {"cut": cut_said, "failed": failed_said, "word": failed_said, "grouped": grouped_said, "unit": unit_said}


def joined(parts):
    """One `Part` from those of one column's blocks."""
    if len(parts) == 1:
        return parts[0]
    return Part(np.concatenate([part.values for part in parts]), merged(part.seen for part in parts))


@dataclass(frozen=True, eq=False)
class Piece:
    """What a block of lines holds: the numbers of the lines with readings, one `Part` a column, and a tally of the lines left out."""

    lines: np.ndarray
    parts: list
    left_out: dict


class Gathered:
    """The pieces of a table in one. Numbers go to their place at once, so that the memory holds those of a large file only once.

    `lines` has the line of the file that each row stands in, `left_out` the tally of the lines that are no row.
    """

    def __init__(self, kinds, most):
        """`kinds` are those of the `TableLayout`, `most` is the largest number of rows that may come."""
        self.kinds = kinds
        self.lines = np.empty(most, np.int32)
        self.numbers = {place: np.empty(most) for place, kind in enumerate(kinds) if kind == "n"}
        self.held = {}

    def put(self, row, pieces):
        """Put pieces in from `row` on. Several threads may do so at once, each in rows of its own."""
        held, end = [], row
        for piece in pieces:
            rows = slice(end, end + len(piece.lines))
            self.lines[rows] = piece.lines
            for place, numbers in self.numbers.items():
                numbers[rows] = piece.parts[place].values
                piece.parts[place] = Part(numbers[:0], piece.parts[place].seen)
            held.append((piece.parts, piece.left_out))
            end = rows.stop
        self.held[row] = end, held

    def close(self):
        """Move the rows together where lines were left out between them. To be called once, when all is in."""
        count, held = 0, []
        for row, (end, pairs) in sorted(self.held.items()):
            if row > count:
                for array in (self.lines, *self.numbers.values()):
                    array[count : count + end - row] = array[row:end]
            count += end - row
            held += pairs
        self.lines = self.lines[:count]
        self.parts = [self.whole(place, [parts[place] for parts, _ in held], count) for place in range(len(self.kinds))]
        self.left_out = merged(left_out for _, left_out in held)
        return self

    def whole(self, place, parts, count):
        part = joined(parts)
        return Part(self.numbers[place][:count], part.seen) if place in self.numbers else part
