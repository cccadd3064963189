"""Dates as numbers of days: which of three numbers is the day, the month and the year."""

import numpy as np

from kit.words import listed

# How a date of three numbers may be meant: places of the year, the month and the day.
ORDERS = {"day first": (2, 1, 0), "month first": (2, 0, 1), "year first": (0, 1, 2)}
WRITTEN = {"ymd": ("year first",), "dense": ("year first",), "dmy": ("day first",), "mdy": ("month first",), "open": tuple(ORDERS)}


def day_numbers(table, column, stamps, asked):
    """(days since the first stamp's day, for every cell; that day in days since 1970, None where the order is open but does not matter).

    A fault if there is no such day, or if day and month could change places and the times would differ.
    """
    order = stamps.form[0]
    wanted = asked.clock_among(ORDERS) if order == "open" else None
    ways = {way: days_since_1970(stamps.date, ORDERS[way]) for way in ([wanted] if wanted else WRITTEN[order])}
    sound = {way: days for way, days in ways.items() if not np.isnan(days).any()}
    if not sound:
        raise no_date(table, column, stamps, ways, wanted)
    refuse_open(table, column, stamps, sound)
    first = next(iter(sound.values()))
    return stamps.spread(first - first[0]), int(first[0]) if len(sound) == 1 else None


def no_date(table, column, stamps, ways, wanted):
    """The fault for the first cell that is no date by the way that gets furthest."""
    stretch = max(int(np.argmax(np.isnan(days))) for days in ways.values())
    row = int(stamps.lengths[:stretch].sum())
    what = f"'{column.cell(row)[:30]}' is no date{f' with the {wanted}' if wanted else ''}."
    return table.fault(what, "Correct it in a copy of the file, or say clock= with another order.", row=row, column=column, keyword="clock")


def refuse_open(table, column, stamps, sound):
    since = [days - days[0] for days in sound.values()]
    differ = np.any([each != since[0] for each in since], axis=0)
    if differ.any():
        row = int(stamps.lengths[: int(np.argmax(differ))].sum())
        ways = listed((f"clock='{way}'" for way in sound), "or")
        what = f"Day and month of '{column.cell(row)}' could change places."
        raise table.fault(what, f"Say {ways}.", row=row, column=column, keyword="clock")


def days_since_1970(dates, order):
    """Day numbers of dates (n x 3) of the Gregorian calendar; NaN where there is no such day. Two digits of a year count from 2000."""
    year, month, day = (dates[:, place].astype(np.int64) for place in order)
    year = np.where(year < 100, year + 2000, year)
    fits = (month >= 1) & (month <= 12) & (day >= 1) & (year < 10_000)
    first = (12 * (year - 1970) + np.where(fits, month, 1) - 1).astype("M8[M]")
    length = ((first + 1).astype("M8[D]") - first.astype("M8[D]")).astype(int)
    return np.where(fits & (day <= length), first.astype("M8[D]").astype(float) + day - 1, np.nan)
