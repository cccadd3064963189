"""The last stage: readings that can't be, readings that are missing, and odd places, each counted and said."""

import numpy as np
import pandas as pd

from kit.records import COLUMNS, missing_in, places_in, remarks_on, span
from kit.words import counted

ABSOLUTE_ZERO = {"°C": -273.15, "°F": -459.67, "K": 0.0}  # SI Brochure, 9th edition, 2.3.1; NIST SP 811, B.8
LARGEST = 1e9  # more than any reading here, in any unit
# Numbers that loggers write for 'no reading'. Common practice, no source.
NO_READING = (-999.0, -999.9, -9999.0, -99999.0, -32768.0)


def check_readings(table, asked):
    """Count what is missing, name what is odd. Only what can't be a reading becomes missing; all else is kept."""
    table = without_impossible(table, asked)
    for column in table.columns:
        missing = missing_in(column.values)
        if len(column.values) - missing < 2 and column.role in ("treated", "control"):
            one = len(column.values) - missing == 1
            what = f"There {'is 1 reading' if one else 'are no readings'} for the {column.role} vessel."
            raise table.fault(what, "A run needs at least two of each.", column=column)
        if missing:
            table = table.said(f"{column.role}: {missing:,} of {len(column.values):,} readings are missing.")
    held = {column.role: column.values for column in table.columns}
    return table.said(*remarks_on(places_in(held.pop("time"), held)))


def without_impossible(table, asked):
    """Make missing what is colder than absolute zero, larger than anything here can be, or a logger's number for 'no reading'."""
    for place, column in enumerate(table.columns):
        impossible = impossible_in(column)
        if impossible.any():
            first = int(np.argmax(impossible))
            seen = f"{column.values[first]:g} in line {table.lines[first]}"
            table = table.with_column(place, values=np.where(impossible, np.nan, column.values))
            many = counted(int(impossible.sum()), "reading")
            table = table.said(f"{column.header}: {many} can't be, the first {seen}; counted as missing.")
    return table


def impossible_in(column):
    """A mask of the readings that can't be (of length 1 if there are none)."""
    values, floor = column.values, ABSOLUTE_ZERO.get(column.unit, -np.inf)
    if not column.numeric or column.role == "time":
        return np.zeros(1, dtype=bool)
    low, high = span(values)
    if not max(floor, max(NO_READING)) >= low and not high >= LARGEST:
        return np.zeros(1, dtype=bool)
    return np.isin(values, NO_READING) | (values < floor) | (np.abs(values) > LARGEST)


def frame(table):
    """The readings of a finished table, as a `Run` holds them."""
    held = {column.role: column.values for column in table.columns}
    index = pd.Index(held["time"], name="elapsed_s", dtype=float)
    return pd.DataFrame({name: held[name] for name in COLUMNS if name in held}, index=index, copy=False)
