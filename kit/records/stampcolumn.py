"""A column of stamps as seconds."""

import numpy as np

from kit.faults import IntakeFault
from kit.records.stamps import stamp


def seconds_of_stamps(table, column, asked):
    """(seconds, table with remarks)."""
    stamps = [stamp(cell) for cell in column.values.tolist()]
    bad = next((place for place, each in enumerate(stamps) if each is None and column.values[place]), None)
    if bad is not None:
        cell = column.values[bad]
        raise IntakeFault(f"'{cell[:30]}' is no time.", "Correct it in a copy of the file.", file=table.file, line=int(table.lines[bad]), column=repr(column.header), seen=cell)
    parts = {each.parts for each in stamps if each}
    factor = 1.0
    if parts == {2} and not stamps[0].order and not stamps[0].half:
        unit = column.unit if column.unit in ("mm:ss", "h:mm") else asked.clock_among(("mm:ss", "h:mm"))
        if not unit:
            cell = column.values[0]
            what = f"'{cell}' could be minutes and seconds, or hours and minutes."
            raise IntakeFault(what, "Say clock='mm:ss' or clock='h:mm'.", file=table.file, line=int(table.lines[0]), column=repr(column.header), seen=cell, keyword="clock")
        factor = 1 / 60 if unit == "mm:ss" else 1.0
    days = [np.datetime64(f"{each.date[0]:04d}-{each.date[1]:02d}-{each.date[2]:02d}").astype(int) if each and each.order == "ymd" else 0 for each in stamps]
    seconds = np.array([np.nan if each is None else each.time_s * factor for each in stamps]) + 86400.0 * (np.array(days) - days[0])
    return seconds, table.said(f"Times are stamps like '{column.values[0]}', in column '{column.header}'.")
