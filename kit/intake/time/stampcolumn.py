"""A column of stamps as seconds: which of three numbers is the day, the month and the year; halves of the day; zones."""

import re
from dataclasses import dataclass, replace

import numpy as np

from kit.faults import Choice
from kit.intake.forms import MISSING, SPOKEN_PARTS as SPOKEN, stamp, STRICT
from kit.intake.given import as_texts
from kit.intake.time.stampset import all_at_once, form_of, gathered

DAY = 86400.0
POINTED = re.compile(r"(\d{1,2})\.(\d\d)\.(\d\d)", re.ASCII)
SPLIT_SECOND = re.compile(r":\d{1,2}[.,](\d{1,3})(?!\d)", re.ASCII)
AT_GREENWICH = ("Z", "z", "UTC", "GMT")
# How a date of three numbers may be meant: places of the year, the month and the day.
ORDERS = {"day first": (2, 1, 0), "month first": (2, 0, 1), "year first": (0, 1, 2)}
WRITTEN = {"ymd": ("year first",), "dense": ("year first",), "dmy": ("day first",), "mdy": ("month first",), "md": ("year first",), "open": tuple(ORDERS)}
HALF_YEAR = 6 * 31  # in days of months that all have 31
NO_YEAR = " The dates name no year: it turns where the months begin anew."


@dataclass(frozen=True, eq=False)
class Clock:
    """A column of times: `seconds` (NaN in an empty cell), counted from the clock's own zero or from `midnight` before the first.

    `midnight` is in days since 1970, None without a date that is certain. The clock starts anew after `period_s` (inf: never).
    `zone` holds names of zones as written; `stamped` means that it shows the time of day, `local` that summer time moves it. `days` holds for
    each order that its dates may have (order, day of the first one in days since 1970).
    """

    seconds: np.ndarray
    remark: str
    midnight: int | None = None
    period_s: float = np.inf
    zone: np.ndarray | None = None
    stamped: bool = True
    local: bool = False
    days: tuple = ()


def clock_of_stamps(table, column, asked):
    """The `Clock` that a column of stamps shows. A fault for a cell that is no time, or where it could be read in two ways that differ."""
    column = with_colons(column)
    stamps, thousandths = all_at_once(column.values) or one_by_one(table, column), ""
    if stamps.form[1] == 3 and len(stamps.lengths) == len(column.values):
        stamps, thousandths = in_thousandths(column, stamps)
    order, parts, halved, zoned = stamps.form
    in_minutes = minutes_and_seconds(table, column, stamps.form, asked)
    days, firsts = day_numbers(table, column, stamps, asked) if order else (0.0, ())
    midnight = firsts[0][1] if len(firsts) == 1 and order != "md" else None
    ahead, zone = zone_offsets(stamps)
    seconds = np.round(in_halves(table, column, stamps) / (60 if in_minutes else 1) + DAY * days - ahead, 6)
    earliest = f"the first is '{first_cell(column, seconds)}'{' (minutes and seconds)' if in_minutes else ''}"
    period = np.inf if order or parts == SPOKEN else 3600.0 if in_minutes else DAY
    of_the_day = bool(order or halved or parts == 3)
    said = f"Times come from column '{column.header}', {earliest}.{thousandths}{NO_YEAR if order == 'md' else ''}"
    return Clock(seconds, said, midnight, period, zone, of_the_day, of_the_day and (not zoned or zone is not None), firsts)


def with_colons(column):
    """A column of clocks with points (18.00.00) with colons instead; as it is where these may be dates."""
    first = next((cell for row in range(len(column.values)) if (cell := column.cell(row))), "")
    if not POINTED.fullmatch(first):
        return column
    cells = [column.cell(row) for row in range(len(column.values))]
    numbers = [tuple(map(int, match.groups())) if (match := POINTED.fullmatch(cell)) else None for cell in cells if cell]
    clocks = all(each and each[0] < 24 and each[1] < 60 and each[2] < 60 for each in numbers)
    dates = all(each and (1 <= each[0] <= 31 and 1 <= each[1] <= 12 or 1 <= each[1] <= 31 and 1 <= each[0] <= 12) for each in numbers)
    return replace(column, values=as_texts([cell.replace(".", ":") for cell in cells])) if clocks and not dates else column


def first_cell(column, seconds=None):
    """The first filled cell; of a record that runs backwards, the last one."""
    filled = [place for place in range(len(column.values)) if column.cell(place)] if seconds is None else np.flatnonzero(np.isfinite(seconds))
    backwards = seconds is not None and len(filled) > 1 and seconds[filled[-1]] < seconds[filled[0]] and (np.diff(seconds[filled]) <= 0).all()
    return column.cell(filled[-1 if backwards else 0])


def one_by_one(table, column):
    """The `Stamps` of a column. A fault for the first filled cell that is no time, or is written unlike the first."""
    stamps, first = [], None
    for row in range(len(column.values)):
        cell = column.cell(row)
        stamps.append(stamp(cell) if cell not in MISSING else None)
        first = first or stamps[-1]
        if cell not in MISSING and stamps[-1] is None:
            raise table.fault(f"'{cell[:30]}' is no time.", "Correct it in a copy of the file.", row=row, column=column)
        if stamps[-1] and not alike(stamps[-1], first):
            what = f"'{cell[:30]}' is written unlike the time before it."
            raise table.fault(what, "Write all times alike in a copy of the file.", row=row, column=column)
    if first is None:
        raise table.fault("This column holds no time.", "Say time= with another one.", column=column, keyword="time")
    return gathered(stamps)


def in_thousandths(column, stamps):
    """(stamps, words on it): a program may write the milliseconds of 48.012 s without the zero in front, 48.12. Seen by parts of a second of
    different lengths, of which none begins with a zero, as decimals do, and one ends with it, as decimals don't; or by far evener steps."""
    cells = [column.cell(row) for row in range(len(column.values))]
    found = [SPLIT_SECOND.search(cell) if cell else None for cell in cells]
    parts = [match[1] for match in found if match]
    if len(parts) < sum(map(bool, cells)) or len({len(part) for part in parts}) < 2 or any(part[0] == "0" < part[1:] for part in parts):
        return stamps, ""
    wrong = np.array([int(match[1]) / 1000 - float(f"0.{match[1]}") if match else 0.0 for match in found])
    plain, other = (np.abs(np.diff(np.diff(times[np.isfinite(times)]))).sum() for times in (stamps.time_s, stamps.time_s + wrong))
    ends_in_zero, to_thousandths = any(part[-1] == "0" < part[:-1] for part in parts), any(len(part) == 3 for part in parts)
    if not ends_in_zero and not (to_thousandths and other < plain / 4):
        return stamps, ""
    first = next(match[0][1:] for match in found if match and len(match[1]) < 3)
    words = f" Parts of a second are thousandths without zeros in front: {first} is {int(first.replace(',', '.').split('.')[1])} ms after the second."
    return replace(stamps, time_s=np.round(stamps.time_s + wrong, 6)), words


def alike(one, first):
    """Can two stamps stand in one column? With a date, the time may lack its seconds, or itself at midnight, as spreadsheets write it."""
    if one.order and one.order == first.order and SPOKEN not in (one.parts, first.parts):
        return 0 in (one.parts, first.parts) or form_of(one)[2:] == form_of(first)[2:]
    return form_of(one) == form_of(first)


def minutes_and_seconds(table, column, form, asked):
    """Are times of two numbers minutes and seconds? Else they are hours and minutes."""
    order, parts, halved, _ = form
    if parts != 2 or order or halved or first_cell(column)[:1].isalpha():  # behind a weekday stand hours
        return False
    way = asked.clock_among(("mm:ss", "h:mm")) or column.unit
    if way not in ("mm:ss", "h:mm"):
        what = f"'{first_cell(column)}' could be minutes and seconds, or hours and minutes."
        choices = Choice("mm:ss", "minutes and seconds"), Choice("h:mm", "hours and minutes")
        raise table.fault(what, row=0, column=column, keyword="clock", choices=choices)
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
    name = name.upper().removeprefix("UTC").removeprefix("GMT")
    if name[0] not in "+-":
        return None
    digits = name[1:].replace(":", "").ljust(4, "0")
    return (1 if name[0] == "+" else -1) * (3600 * int(digits[:2]) + 60 * int(digits[2:]))


def day_numbers(table, column, stamps, asked):
    """(days since the first stamp's day, for every cell; that day as in `Clock.days`).

    A fault if there is no such day, or if day and month could change places and the times would differ.
    """
    order = stamps.form[0]
    if order == "md":
        stamps = replace(stamps, date=with_years(stamps.date))
    wanted = asked.clock_among(ORDERS) if order == "open" else None
    ways = {way: days_since_1970(stamps.date, ORDERS[way]) for way in ([wanted] if wanted else WRITTEN[order])}
    sound = {way: days for way, days in ways.items() if not np.isnan(days).any()}
    if not sound:
        raise no_date(table, column, stamps, ways, wanted)
    refuse_open(table, column, stamps, sound)
    first = next(iter(sound.values()))
    return stamps.spread(first - first[0]), tuple((way, int(days[0])) for way, days in sound.items())


def with_years(dates):
    """Dates (n x 3) that name no year, with one: it turns where the months begin anew, either way; a 29 February is that of a leap year, and
    without one no year is a leap year, so that 1 March follows on 28 February."""
    steps = np.diff(31 * dates[:, 1] + dates[:, 2])
    turns = np.r_[0, np.cumsum((steps < -HALF_YEAR).astype(int) - (steps > HALF_YEAR))]
    leap = turns[(dates[:, 1] == 2) & (dates[:, 2] == 29)]
    return np.column_stack([turns + (2000 - leap[0] if len(leap) else 2001), dates[:, 1:]])


def no_date(table, column, stamps, ways, wanted):
    """The fault for the first cell that is no date by the way that gets furthest."""
    stretch = max(int(np.argmax(np.isnan(days))) for days in ways.values())
    row = int(stamps.lengths[:stretch].sum())
    what = f"'{column.cell(row)[:30]}' is no date{f' with the {wanted}' if wanted else ''}."
    return table.fault(what, "Correct it in a copy of the file, or say clock= with another order.", row=row, column=column, keyword="clock")


def refuse_open(table, column, stamps, sound):
    """A fault if the times between two cells depend on the order; it shows the first cell that is another day by another order."""
    first, *others = sound.values()
    if not any((days - days[0] != first - first[0]).any() for days in others):
        return
    stretch = int(np.argmax(np.any([days != first for days in others], axis=0)))
    row = int(stamps.lengths[:stretch].sum())
    what = f"Day and month of '{column.cell(row)}' could change places."
    choices = [Choice(way, str(np.datetime64(int(days[stretch]), "D"))) for way, days in sound.items()]
    raise table.fault(what, row=row, column=column, keyword="clock", choices=choices)


def moment(cell):
    """A number that grows with the time in one cell: the cell's own number, or seconds of its stamp; None if it holds no time."""
    if STRICT["."].fullmatch(cell) or STRICT[","].fullmatch(cell):
        return float(cell.replace(",", "."))
    found = stamp(cell)
    if found is None:
        return None
    days = days_since_1970(np.array([found.date]), ORDERS[WRITTEN[found.order][0]])[0] if found.order else 0.0
    half = 43200 if found.half == "p" else 0
    return None if np.isnan(days) else DAY * float(days) + (found.time_s % 43200 + half if found.half else found.time_s)


def days_since_1970(dates, order):
    """Day numbers of dates (n x 3) of the Gregorian calendar; NaN where there is no such day. Two digits of a year count from 2000."""
    year, month, day = (dates[:, place].astype(np.int64) for place in order)
    year = np.where(year < 100, year + 2000, year)
    fits = (month >= 1) & (month <= 12) & (day >= 1) & (year < 10_000)
    first = (12 * (year - 1970) + np.where(fits, month, 1) - 1).astype("M8[M]")
    length = ((first + 1).astype("M8[D]") - first.astype("M8[D]")).astype(int)
    return np.where(fits & (day <= length), first.astype("M8[D]").astype(float) + day - 1, np.nan)
