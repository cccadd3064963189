"""Numbers that stand for 'no reading': a logger's known ones, and those that a file shows to be one: far from all else, again and again."""

import numpy as np

from kit.intake.columns.kinds import thermometer_rank
from kit.words import counted

ABSOLUTE_ZERO = {"°C": -273.15, "°F": -459.67, "K": 0.0, "m°C": -273150.0}  # SI Brochure, 9th edition, 2.3.1; NIST SP 811, B.8
LARGEST = 1e9  # more than any reading here, in any unit
# Numbers that loggers write for 'no reading'. Common practice, no source.
NO_READING = (-999.0, -999.9, -9999.0, -99999.0, -32768.0, -127.0)
# Between these lie the readings of any thermometer here: common practice, no source. '' is any of the three units.
BOUNDS = {"°C": (-60.0, 150.0), "°F": (-76.0, 302.0), "K": (200.0, 430.0), "m°C": (-6e4, 1.5e5), "": (-60.0, 450.0)}
MOST_MARKS = 3


def without_marks(table, place):
    """The table with those readings of one column missing that can't be, or are a mark for a missing one; said."""
    column = table.columns[place]
    for cannot, words in ((impossible_in(column), "can't be"), (learnt_in(column), "are far from all others and come again and again")):
        if cannot.any():
            first = int(np.argmax(cannot))
            seen = f"{column.values[first]:g} in line {table.lines[first]}"
            table = table.with_column(place, values=np.where(cannot, np.nan, table.columns[place].values))
            table = table.said(f"{column.header}: {counted(int(cannot.sum()), 'reading')} {words}, the first {seen}; counted as missing.")
    return table


def impossible_in(column):
    """A mask of the readings that can't be."""
    values = column.values
    return np.isin(values, NO_READING) | (values < ABSOLUTE_ZERO.get(column.unit, -np.inf)) | (np.abs(values) > LARGEST)


def learnt_in(column):
    """A mask of readings of a thermometer that no thermometer shows, where the same few come again and again."""
    none = np.zeros(len(column.values), dtype=bool)
    if column.unit not in BOUNDS or thermometer_rank(column) is None:
        return none
    low, high = BOUNDS[column.unit]
    outside = ((column.values < low) | (column.values > high)) & ~impossible_in(column)
    marks, counts = np.unique(column.values[outside], return_counts=True)
    if not len(marks) or len(marks) > MOST_MARKS or outside.mean() > 0.5:
        return none
    return np.isin(column.values, marks[counts >= 2])
