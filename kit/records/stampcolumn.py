"""A column of stamps as seconds: the order of day and month, halves of the day, zones."""

from dataclasses import dataclass

import numpy as np

from kit.faults import IntakeFault
from kit.records.stamps import stamp
from kit.records.stampset import all_at_once, form_of, gathered
from kit.words import listed

DAY = 86400.0
# How a date of three numbers may be meant: places of the year, the month and the day.
ORDERS = {"day first": (2, 1, 0), "month first": (2, 0, 1), "year first": (0, 1, 2)}
WRITTEN = {"ymd": ("year first",), "dense": ("year first",), "dmy": ("day first",), "mdy": ("month first",), "open": tuple(ORDERS)}
AT_GREENWICH = ("Z", "z", "UTC", "GMT")


@dataclass(frozen=True, eq=False)
class Clock:
    """A column of times: `seconds` (NaN in an empty cell), counted from the clock's own zero or from `midnight` before the first.

    `midnight` is in days since 1970, None without a date that is certain. The clock starts anew after `period_s` (inf: never).
    `zone` holds names of zones as written; `stamped` means that it shows the time of day, `local` that summer time moves it.
    """

    seconds: np.ndarray
    remark: str
    midnight: int | None = None
    period_s: float = np.inf
    zone: np.ndarray | None = None
    stamped: bool = True
    local: bool = False


def clock_of_stamps(table, column, asked):
    """The `Clock` that a column of stamps shows. A fault for a cell that is no time, or where it could be read in two ways that differ."""
    stamps = all_at_once(column.values) or one_by_one(table, column)
    order, parts, halved, zoned = stamps.form
    in_minutes = minutes_and_seconds(table, column, stamps.form, asked)
    seconds = in_halves(table, column, stamps) / (60 if in_minutes else 1)
    days, midnight = day_numbers(table, column, stamps, asked) if order else (0, None)
    period = np.inf if order or parts == 4 else 3600.0 if in_minutes else DAY
    remark = (
        f"Times come from column '{column.header}', the first is '{first_cell(column)}'{' (minutes and seconds)' if in_minutes else ''}."
    )
    ahead, named = zone_offsets(stamps.zone) if zoned else (0, None)
    wall = order != "" or parts == 3 and not in_minutes or halved
    return Clock(
        np.round(seconds + DAY * days - ahead, 6), remark, midnight, period, named, wall, wall and (not zoned or named is not None)
    )


def first_cell(column):
    return column.cell(next(place for place in range(len(column.values)) if column.cell(place)))


def one_by_one(table, column):
    """The `Stamps` of a column. A fault for the first filled cell that is no time, or is written unlike the first."""
    stamps, first = [], None
    for place in range(len(column.values)):
        cell = column.cell(place)
        stamps.append(stamp(cell) if cell else None)
        first = first or stamps[-1]
        if cell and stamps[-1] is None:
            raise odd(table, column, place, f"'{cell[:30]}' is no time.", "Correct it in a copy of the file.")
        if cell and form_of(stamps[-1]) != form_of(first):
            raise odd(
                table, column, place, f"'{cell[:30]}' is written unlike the time before it.", "Write all times alike in a copy of the file."
            )
    return gathered(stamps)


def odd(table, column, place, what, do, keyword=None):
    line = int(table.lines[place])
    return IntakeFault(what, do, file=table.file, line=line, column=repr(column.header), seen=column.cell(place), keyword=keyword)


def minutes_and_seconds(table, column, form, asked):
    """Are times of two numbers minutes and seconds? Else they are hours and minutes."""
    order, parts, halved, _ = form
    if parts != 2 or order or halved:
        return False
    way = asked.clock_among(("mm:ss", "h:mm")) or column.unit
    if way not in ("mm:ss", "h:mm"):
        what = f"'{first_cell(column)}' could be minutes and seconds, or hours and minutes."
        raise odd(table, column, 0, what, "Say clock='mm:ss' or clock='h:mm'.", "clock")
    return way == "mm:ss"


def in_halves(table, column, stamps):
    """Seconds of the day: after 12 a.m. comes 1 a.m., after 12 p.m. 1 p.m. A date alone is its midnight."""
    _, parts, halved, _ = stamps.form
    if not parts:
        return np.where(stamps.time_s == stamps.time_s, stamps.time_s, 0.0)
    if not halved:
        return stamps.time_s
    off = (stamps.time_s < 3600) | (stamps.time_s >= 46800)
    if off.any():
        place = int(np.argmax(off))
        raise odd(table, column, place, f"'{column.cell(place)}' is no time of a 12-hour clock.", "Correct it in a copy of the file.")
    return stamps.time_s % 43200 + 43200 * (stamps.half == "p")


def zone_offsets(zone):
    """(seconds ahead of Greenwich, names): offsets as numbers count, names such as CET don't, but are kept."""
    known = {name: offset_s(name) for name in np.unique(zone).tolist()}
    if None in known.values():
        return 0, zone
    return np.array([known[name] for name in zone.tolist()]) if len(known) > 1 else next(iter(known.values())), None


def offset_s(name):
    """'+01:00' is 3600 s ahead of Greenwich (RFC 3339, 4.2); a name is not known here: None."""
    if name in AT_GREENWICH:
        return 0
    if name[0] not in "+-":
        return None
    digits = name[1:].replace(":", "").ljust(4, "0")
    return (1 if name[0] == "+" else -1) * (3600 * int(digits[:2]) + 60 * int(digits[2:]))


def day_numbers(table, column, stamps, asked):
    """(days since the first stamp's day, that day in days since 1970). A fault if day and month could change places, and it matters."""
    order = stamps.form[0]
    wanted = asked.clock_among(ORDERS) if order == "open" else None
    ways = {way: days_since_1970(stamps.date, ORDERS[way]) for way in ((wanted,) if wanted else WRITTEN[order])}
    sound = {way: days for way, days in ways.items() if not np.isnan(days).any()}
    if not sound:
        days = ways[max(ways, key=lambda way: np.argmax(np.isnan(ways[way])))]
        raise odd(
            table,
            column,
            int(np.argmax(np.isnan(days))),
            f"'{column.cell(int(np.argmax(np.isnan(days))))}' is no date{f' with {wanted}' if wanted else ''}.",
            "Correct it in a copy of the file.",
        )
    since = {way: days - days[0] for way, days in sound.items()}
    first = next(iter(since.values()))
    if any((each != first).any() for each in since.values()):
        place = int(np.argmax(np.any([each != first for each in since.values()], axis=0)))
        ask = listed((f"clock='{way}'" for way in sound), "or")
        raise odd(table, column, place, f"Day and month of '{column.cell(place)}' could change places.", f"Say {ask}.", "clock")
    return first, int(next(iter(sound.values()))[0]) if len(sound) == 1 else None


def days_since_1970(dates, order):
    """Day numbers of dates (n x 3) of the Gregorian calendar; NaN where there is no such day. Two digits of a year count from 2000."""
    year, month, day = (dates[:, place].astype(np.int64) for place in order)
    year = np.where(year < 100, year + 2000, year)
    fits = (month >= 1) & (month <= 12) & (day >= 1) & (year < 10_000)
    first = (12 * (year - 1970) + np.where(fits, month, 1) - 1).astype("M8[M]")
    length = ((first + 1).astype("M8[D]") - first.astype("M8[D]")).astype(int)
    return np.where(fits & (day <= length), first.astype("M8[D]").astype(float) + day - 1, np.nan)
