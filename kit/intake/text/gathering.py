"""The readings of a record put together from what its shares hold, in whatever order they come."""

import numpy as np

from kit.intake.text.cellnumbers import Part, joined
from kit.intake.text.tally import merged


class Gathered:
    """The pieces of a table in one. Numbers go to their place at once, so that the memory holds those of a large file only once.

    `lines` has the line of the file that each row stands in, `left_out` the tally of the lines that are no row.
    """

    def __init__(self, kinds, most):
        """`kinds` are those of the `Layout`, `most` is the largest number of rows that may come."""
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
