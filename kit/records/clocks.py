"""Which column is the time, how it is written, and seconds from it."""

import re
from dataclasses import replace

import numpy as np

from kit.faults import IntakeFault
from kit.records.asked import place_named
from kit.records.numbers import tidied
from kit.records.ordering import put_in_order
from kit.records.stamps import looks_like_time
from kit.records.stampcolumn import seconds_of_stamps
from kit.records.units import SECONDS
from kit.words import listed

# Words that name the time in a header. Common practice, no source.
NAMES = {"time", "elapsed", "timestamp", "date", "datetime", "clock", "seconds", "minutes", "hours", "zeit", "uhrzeit", "datum", "temps", "heure", "tiempo", "hora", "tempo", "ora", "t"}
NUMBERINGS = {"no", "nr", "n", "number", "index", "record", "row", "line", "sample", "count"}
WORDS = re.compile(r"[^\W\d_]+")


def read_clock(table, asked):
    """Put the time, in seconds from the first reading, into a column with the role 'time'; rows run forward, no time twice."""
    place = time_place(table, asked)
    column = table.columns[place]
    if column.numeric:
        seconds, words = counted_seconds(table, column, asked)
        timed = table.said(f"Times are {words}, in column '{column.header}'.")
    else:
        seconds, timed = seconds_of_stamps(table, column, asked)
    timed = timed.with_column(place, values=seconds, role="time")
    return put_in_order(timed, place, asked)


def time_place(table, asked):
    if asked.time is not None:
        return place_named(table, asked.time, "time")
    stamped = [place for place, column in enumerate(table.columns) if not column.numeric and stamps_in(column)]
    named = [place for place, column in enumerate(table.columns) if column.numeric and (says_time(column) or column.unit in SECONDS)]
    found = stamped or named
    if len(found) == 1:
        return found[0]
    headers = listed((repr(table.columns[place].header) for place in (found or range(len(table.columns)))[:6]), "or")
    what = f"Which column is the time: {headers}?" if found else f"No column is plainly the time. Is it {headers}?"
    raise IntakeFault(what, "Say time= with its header, or its number: time=1.", file=table.file, keyword="time")


def stamps_in(column):
    filled = [cell for cell in column.values[:200].tolist() if cell]
    return bool(filled) and sum(map(looks_like_time, filled)) > len(filled) / 2


def says_time(column):
    return bool({word.lower() for word in WORDS.findall(column.name)} & NAMES)


def counted_seconds(table, column, asked):
    """Seconds from a column of numbers, by its unit or the caller's word."""
    if column.odd:
        line, cell = column.odd[0]
        raise IntakeFault(f"'{cell[:30]}' is no time.", "Correct it in a copy of the file.", file=table.file, line=line, column=repr(column.header), seen=cell)
    unit = asked.clock_among(SECONDS) or column.unit
    if unit not in SECONDS:
        what = "These times are numbers without a unit."
        raise IntakeFault(what, "Say clock='s', clock='min' or clock='h'.", file=table.file, column=repr(column.header), keyword="clock")
    return column.values * SECONDS[unit], {"ms": "milliseconds", "s": "seconds", "min": "minutes", "h": "hours", "d": "days"}[unit]
