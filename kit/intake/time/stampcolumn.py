"""A column of stamps as seconds: the order of day and month, halves of the day, zones."""

from dataclasses import dataclass

import numpy as np

from kit.intake.forms import day_numbers, MISSING, SPOKEN_PARTS as SPOKEN, stamp
from kit.intake.time.stampset import all_at_once, form_of, gathered

DAY = 86400.0
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
    days, midnight = day_numbers(table, column, stamps, asked) if order else (0.0, None)
    ahead, zone = zone_offsets(stamps)
    seconds = np.round(in_halves(table, column, stamps) / (60 if in_minutes else 1) + DAY * days - ahead, 6)
    said = f"Times come from column '{column.header}', the first is '{first_cell(column)}'{' (minutes and seconds)' if in_minutes else ''}."
    period = np.inf if order or parts == SPOKEN else 3600.0 if in_minutes else DAY
    of_the_day = bool(order or halved or parts == 3)
    return Clock(seconds, said, midnight, period, zone, of_the_day, of_the_day and (not zoned or zone is not None))


def first_cell(column):
    return column.cell(next(place for place in range(len(column.values)) if column.cell(place)))


def one_by_one(table, column):
    """The `Stamps` of a column. A fault for the first filled cell that is no time, or is written unlike the first."""
    stamps, first = [], None
    for row in range(len(column.values)):
        cell = column.cell(row)
        stamps.append(stamp(cell) if cell not in MISSING else None)
        first = first or stamps[-1]
        if cell not in MISSING and stamps[-1] is None:
            raise table.fault(f"'{cell[:30]}' is no time.", "Correct it in a copy of the file.", row=row, column=column)
        if stamps[-1] and form_of(stamps[-1]) != form_of(first):
            what = f"'{cell[:30]}' is written unlike the time before it."
            raise table.fault(what, "Write all times alike in a copy of the file.", row=row, column=column)
    if first is None:
        raise table.fault("This column holds no time.", "Say time= with another one.", column=column, keyword="time")
    return gathered(stamps)


def minutes_and_seconds(table, column, form, asked):
    """Are times of two numbers minutes and seconds? Else they are hours and minutes."""
    order, parts, halved, _ = form
    if parts != 2 or order or halved:
        return False
    way = asked.clock_among(("mm:ss", "h:mm")) or column.unit
    if way not in ("mm:ss", "h:mm"):
        what = f"'{first_cell(column)}' could be minutes and seconds, or hours and minutes."
        raise table.fault(what, "Say clock='mm:ss' or clock='h:mm'.", row=0, column=column, keyword="clock")
    return way == "mm:ss"


def in_halves(table, column, stamps):
    """Seconds of the day: after 12 a.m. comes 1 a.m., after 12 p.m. 1 p.m."""
    if not stamps.form[2]:
        return stamps.time_s
    off = (stamps.time_s < 3600) | (stamps.time_s >= 46800)
    if off.any():
        row = int(np.argmax(off))
        what = f"'{column.cell(row)}' is no time of a 12-hour clock."
        raise table.fault(what, "Correct it in a copy of the file.", row=row, column=column)
    return stamps.time_s % 43200 + 43200 * stamps.spread(stamps.half == "p")


def zone_offsets(stamps):
    """(seconds ahead of Greenwich, names), for every cell: offsets as numbers count; names such as CET don't, but are kept."""
    if not stamps.form[3]:
        return 0.0, None
    known = {name: offset_s(name) for name in np.unique(stamps.zone).tolist()}
    if None in known.values():
        return 0.0, stamps.spread(stamps.zone)
    return stamps.spread(np.array([float(known[name]) for name in stamps.zone.tolist()])), None


def offset_s(name):
    """'+01:00' is 3600 s ahead of Greenwich (RFC 3339, 4.2); a name is not known here: None."""
    if name in AT_GREENWICH:
        return 0
    if name[0] not in "+-":
        return None
    digits = name[1:].replace(":", "").ljust(4, "0")
    return (1 if name[0] == "+" else -1) * (3600 * int(digits[:2]) + 60 * int(digits[2:]))
