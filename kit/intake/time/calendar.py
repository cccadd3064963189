"""A moment that stands in several columns, a date and a clock, or year, month, day and hour, put together into one column."""

import re
from dataclasses import replace

import numpy as np

from kit.intake.forms import stamp
from kit.intake.given import as_texts

# Words that head a part of a date or of a time. Common practice, no source.
PARTS = {
    "year": set("year yr yyyy jahr année annee año anio ano anno".split()),
    "month": set("month mon mm mo monat mois mes mese".split()),
    "day": set("day dd dy dom tag jour día dia dia giorno".split()),
    "doy": set("doy yday jday julian dayofyear yearday jd".split()),
    "hour": set("hour hours hr hrs hh h stunde stunden heure heures hora horas ora".split()),
    "minute": set("minute minutes minuten minuto minutos min mn mi".split()),
    "second": set("second seconds sec secs ss s sekunde sekunden segundo segundos".split()),
}
RANGES = {"year": (1970, 2099), "month": (1, 12), "day": (1, 31), "doy": (1, 366.999), "hour": (0, 24), "minute": (0, 59), "second": (0, 60)}
CLOCKS = set("time clock hhmm hhmmss uhrzeit zeit hora ora heure hour hours hr utc gmt local lst mst mdt pst pdt cst cdt est edt cet cest".split())
HALVES = {"am", "pm", "a.m.", "p.m."}
WORDS = re.compile(r"[^\W\d_]+")
MIDNIGHT = re.compile(r"[T ]0?0:00(?::00(?:\.0+)?)?$")


def put_together(table):
    """(table, place of the column that holds the whole moment, places of its parts); place None if no two columns make one.

    The whole stands in the place of the clock, or of the last part, as texts that a stamp may have, or as seconds.
    """
    parts, year_first = nameless_parts(table)
    if not year_first:  # day and month may change places: their order is left to be seen, or asked
        return joined(table, sorted(parts.values()), with_open_order(table, parts))
    parts = parts or {part: place for part in PARTS if (place := part_column(table, part)) is not None}
    clock = None if {"hour", "minute"} <= set(parts) else clock_column(table)
    date = next((place for place, column in enumerate(table.columns) if place != clock and bare_dates(column)), None)
    clock = beside(table, date) if clock is None and date is not None and not parts else clock
    half = half_column(table) if clock is not None else None
    if half is not None:
        table = with_halves(table, clock, half)
    if date is not None and clock is not None:
        return joined(table, (date, clock), [f"{day} {time}" if day and time else "" for day, time in zip(dates(table, date), times(table, clock))])
    if date is not None and "hour" in parts:
        used = [date, *(parts[part] for part in ("hour", "minute", "second") if part in parts)]
        return joined(table, used, [f"{day} {time}" if day else "" for day, time in zip(dates(table, date), time_texts(seconds_of(table, parts)))])
    if {"year", "month", "day"} <= set(parts) or "doy" in parts and ("year" in parts or clock is not None or "hour" in parts):
        return from_parts(table, parts, clock)
    return table, None, ()


def beside(table, date):
    """The column without a name, next to one of dates without a name, that shows the time of day as digits (0905); None without it."""
    column = table.columns[date + 1] if date + 1 < len(table.columns) else None
    if not table.columns[date].nameless or column is None or not column.numeric or not column.nameless:
        return None
    padded = all(len(cell) in (4, 6) and cell.isdigit() for cell in column.samples)
    return date + 1 if padded and clock_seconds(column) is not None else None


def half_column(table):
    """The column that holds nothing but a.m. and p.m., or None."""
    texts = ((place, column) for place, column in enumerate(table.columns) if column.values.dtype.kind == "O")
    return next((place for place, column in texts if len(column.values) and {cell.lower() for cell in column.values} <= HALVES), None)


def with_halves(table, clock, half):
    """The table with a.m. and p.m. from their own column behind the times of the clock."""
    cells = [f"{time} {each}" if time else "" for time, each in zip(times(table, clock), table.columns[half].values)]
    header = f"{table.columns[clock].header} {table.columns[half].header}".strip()
    return table.with_column(clock, values=as_texts(cells), header=header).with_column(half, role="other time")


def joined(table, places, cells):
    """The table with the moment's cells in the place of its last part."""
    *others, last = places
    header = " + ".join(table.columns[place].header for place in places)
    columns = [replace(column, role="other time") if place in others else column for place, column in enumerate(table.columns)]
    values = as_texts(cells) if isinstance(cells, list) else cells
    columns[last] = replace(columns[last], header=header, name="time", unit="" if isinstance(cells, list) else "s", values=values, odd=None, samples=())
    return replace(table, columns=tuple(columns)), last, tuple(places)


def from_parts(table, parts, clock):
    """The moment from year, month and day, or from the day of the year, with hours and so on or a clock in a column of its own."""
    dated = [parts[part] for part in ("year", "month", "day")] if {"year", "month", "day"} <= set(parts) else None
    used = dated or [parts[part] for part in ("year", "doy") if part in parts]
    used = [*used, *([parts["doy"]] if dated and "doy" in parts else [])]
    timed = [clock] if clock is not None and clock not in used else [parts[part] for part in ("hour", "minute", "second") if part in parts]
    if timed == [clock]:
        seconds = np.array([stamp_seconds(text) for text in times(table, clock)])
    else:
        seconds = seconds_of(table, parts)
    values = [table.columns[place].values for place in used]
    if dated:
        months = 12 * (values[0] - 1970) + values[1] - 1
        days = months_as_days(months) + values[2] - 1
    elif "year" in parts:
        days = months_as_days(12 * (values[0] - 1970)) + values[1] - 1
    else:  # the day of a year that is nowhere written
        return joined(table, [*used, *timed], np.round(86400 * values[0] + seconds, 6))
    moments = np.round(1000 * (86400 * days + seconds))
    known = np.isfinite(moments)
    texts = np.datetime_as_string(np.where(known, moments, 0).astype("M8[ms]"))
    return joined(table, [*used, *timed], ["" if not there else text for there, text in zip(known.tolist(), texts.tolist())])


def months_as_days(months):
    return np.where(np.isfinite(months), months, 0).astype("M8[M]").astype("M8[D]").astype(float)


def with_open_order(table, parts):
    """Texts like '2/3/2026 10:00:05' of a date whose year comes last."""
    days = [table.columns[place].values.tolist() for place in sorted(parts[part] for part in ("year", "month", "day"))]
    clocks = time_texts(seconds_of(table, parts))
    return ["/".join(f"{part:.0f}" for part in date) + f" {clock}" if clock else "" for *date, clock in zip(*days, clocks)]


def nameless_parts(table):
    """({part: place} of a date, hour, minute and perhaps second in columns without names, side by side, is the year first?); ({}, True)
    if there are none."""
    for start in range(len(table.columns) - 4):
        for order in (("year", "doy", "month", "day"), ("year", "month", "day"), ("day", "month", "year"), ("month", "day", "year")):
            order = (*order, "hour", "minute", "second")
            row = table.columns[start : start + len(order)]
            fits = [each.numeric and each.nameless and within(each.values, *RANGES[part]) for each, part in zip(row, order)]
            found = fits.index(False) if False in fits else len(fits)
            if found >= len(order) - 1 and ("doy" not in order or same_day(*(each.values for each in row[:4]))):
                return {part: start + step for step, part in enumerate(order[:found])}, order[0] == "year"
    return {}, True


def same_day(year, doy, month, day):
    """Is the day of the year that of month and day? Else month, day and hour pass for day of the year, month and day."""
    january = 12 * (year - 1970)
    known = np.isfinite(year + doy + month + day)
    return bool((months_as_days(january) + doy == months_as_days(january + month - 1) + day)[known].all())


def part_column(table, part):
    """The column of whole numbers that is headed as this part of a moment and holds nothing else."""
    low, high = RANGES[part]
    for place, column in enumerate(table.columns):
        if column.numeric and words_of(column) & PARTS[part] and within(column.values, low, high, whole=part != "doy"):
            return place
    return None


def within(values, low, high, whole=True):
    known = values[np.isfinite(values)]
    return bool(len(known) and known.min() >= low and known.max() <= high and (not whole or (known == np.floor(known)).all()))


def words_of(column):
    return {word.lower() for word in WORDS.findall(f"{column.header} {column.name}")}


def seconds_of(table, parts):
    """Seconds of the day from columns of hours, minutes and seconds; 0 for those that are not there."""
    weights = {"hour": 3600, "minute": 60, "second": 1}
    held = [weights[part] * table.columns[parts[part]].values for part in weights if part in parts]
    return sum(held) if held else np.zeros(len(table.lines))


def bare_dates(column):
    """Does the column hold dates without a time, as texts or as numbers like 20260301?"""
    if column.numeric:
        known = column.values[np.isfinite(column.values)]
        dense = within(column.values, 19700101, 20991231) and bool((known // 100 % 100 <= 12).all() and (known % 100 <= 31).all())
        return dense and bool((known % 100 >= 1).all())
    cells = [cell for cell in map(column.cell, range(min(len(column.values), 500))) if cell]
    first = stamp(cells[0]) if cells else None
    if not first or not first.order:
        return False
    return all((each := stamp(cell)) is not None and each.order and not each.time_s and not each.half for cell in cells)


def clock_column(table):
    """The column that shows the time of day alone: texts without a date, or numbers like 1005 under a name for it."""
    for place, column in enumerate(table.columns):
        if not column.numeric and only_times(column) or column.numeric and words_of(column) & CLOCKS and clock_seconds(column) is not None:
            return place
    return None


def only_times(column):
    cells = [cell for cell in map(column.cell, range(min(len(column.values), 50))) if cell]
    stamps = [stamp(cell) for cell in cells]
    return bool(cells) and all(each is not None and each.parts in (2, 3) and not each.order for each in stamps)


def clock_seconds(column):
    """Seconds of the day of numbers like 10 or 10.5 (hours), 1005, 100502, or 0.42 (of a day); None if they are no such numbers."""
    values = column.values
    padded = any(len(cell) == 4 and cell.isdigit() for cell in column.samples)
    if within(values, 0, 24) and not padded:
        return 3600 * values
    if within(values, 0, 2400) and (np.nan_to_num(values) % 100 < 60).all():
        return 3600 * (values // 100) + 60 * (values % 100)
    sixes = np.nan_to_num(values)
    if within(values, 0, 240000) and (sixes % 100 < 60).all() and (sixes // 100 % 100 < 60).all():
        return 3600 * (values // 10000) + 60 * (values // 100 % 100) + values % 100
    if within(values, 0, 1, whole=False):
        return 86400 * values
    return 3600 * values if within(values, 0, 24, whole=False) else None


def dates(table, place):
    """The dates of a column as texts, without the midnight that a spreadsheet adds."""
    column = table.columns[place]
    if column.numeric:
        return ["" if cell != cell else "-".join((f"{cell:.0f}"[:4], f"{cell:.0f}"[4:6], f"{cell:.0f}"[6:])) for cell in column.values.tolist()]
    return [MIDNIGHT.sub("", column.cell(row)) for row in range(len(column.values))]


def times(table, place):
    """The times of day of a column as texts."""
    column = table.columns[place]
    if column.numeric:
        return time_texts(clock_seconds(column))
    return [column.cell(row) for row in range(len(column.values))]


def time_texts(seconds):
    whole = np.round(np.nan_to_num(seconds), 3).tolist()
    texts = [f"{int(each // 3600)}:{int(each // 60 % 60):02d}:{each % 60:06.3f}".removesuffix(".000") for each in whole]
    return [text if known else "" for text, known in zip(texts, np.isfinite(seconds).tolist())]


def stamp_seconds(text):
    each = stamp(text) if text else None
    half = 43200 if each and each.half == "p" and each.time_s < 43200 else -43200 if each and each.half == "a" and each.time_s >= 43200 else 0
    return each.time_s + half if each else np.nan
