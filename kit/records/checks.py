"""The last stage: readings that can't be, readings that are missing, and odd places, each counted and said."""

import numpy as np
import pandas as pd

from kit.faults import IntakeFault
from kit.records.oddities import THERMOMETERS, odd_places, remarks_on
from kit.records.run import COLUMNS

ABSOLUTE_ZERO_C = -273.15  # SI Brochure, 9th edition, 2.3.1
# Numbers that loggers write for 'no reading'. Common practice, no source.
NO_READING = (-999.0, -999.9, -9999.0, -99999.0, -32768.0)


def check_readings(table, asked):
    """Count what is missing, name what is odd. Only what can't be a reading becomes missing; all else is kept."""
    for place, column in enumerate(table.columns):
        if column.role != "time":
            table = without_impossible(table, place, column)
    for column in table.columns:
        missing = int(np.isnan(column.values).sum())
        if len(column.values) - missing < 2 and column.role in ("treated", "control"):
            what = f"There are {len(column.values) - missing} readings for the {column.role} vessel."
            raise IntakeFault(what, "A run needs at least two of each.", file=table.file, column=repr(column.header))
        if missing:
            table = table.said(f"{column.role}: {missing:,} of {len(column.values):,} readings are missing.")
    return table.said(*remarks_on(odd_places(frame(table))))


def without_impossible(table, place, column):
    """Make missing what is colder than absolute zero, or a logger's number for 'no reading'."""
    impossible = np.isin(column.values, NO_READING)
    if column.role in THERMOMETERS:
        impossible |= column.values < ABSOLUTE_ZERO_C
    if not impossible.any():
        return table
    first = int(np.argmax(impossible))
    seen = f"{column.values[first]:g} in line {table.lines[first]}"
    remark = f"{column.role}: {int(impossible.sum())} readings can't be, the first {seen}; counted as missing."
    return table.with_column(place, values=np.where(impossible, np.nan, column.values)).said(remark)


def frame(table):
    """The readings of a finished table, as a `Run` holds them."""
    held = {column.role: column.values for column in table.columns}
    index = pd.Index(held["time"], name="elapsed_s", dtype=float)
    return pd.DataFrame({name: held[name] for name in COLUMNS if name in held}, index=index)
