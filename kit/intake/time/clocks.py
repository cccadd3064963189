"""Which column is the time, how it is written, and seconds from it."""

import re
from dataclasses import replace

import numpy as np

from kit.intake.given import as_texts, place_named
from kit.intake.time.ordering import put_in_order, usual_step
from kit.intake.time.stampcolumn import DAY, Clock, clock_of_stamps, first_cell
from kit.faults import Choice
from kit.intake.forms import looks_like_time, SECONDS, stamp
from kit.records import span
from kit.words import listed

# Words that name the time in a header. Common practice, no source.
NAMES = set("time elapsed timestamp date datetime clock seconds minutes hours zeit uhrzeit datum heure tiempo hora tempo ora".split())
WORDS = re.compile(r"[^\W\d_]+")
SPOKEN = {"ms": "milliseconds", "s": "seconds", "min": "minutes", "h": "hours", "d": "days"}
# Days that spreadsheets count from 30 December 1899: 1970 to 2099 (ECMA-376 part 1, 18.17.4.1).
SERIAL_DAYS = (25569, 73050)
LONGEST_S = 1e9  # thirty years: no run lasts so long, so these are no times of a run
SINCE_1970 = {"s": (1e9, 4.1e9), "ms": (1e12, 4.1e12)}


def read_clock(table, asked):
    """Put the time, in seconds from the first reading, into a column with the role 'time'. Rows run forward, no time comes twice."""
    table, places = time_places(table, asked)
    clocks = [clock_of(table, table.columns[place], asked) for place in places]
    refuse_disagreeing(table, places, clocks)
    place, clock = places[0], clocks[0]
    others = listed(repr(table.columns[each].header) for each in places[1:]) if places[1:] else ""
    said = table.said(clock.remark, *([f"Column {others} tells the same time."] if others else []))
    columns = [replace(each, role="other time") if at in places[1:] else each for at, each in enumerate(said.columns)]
    columns[place] = replace(columns[place], role="time", values=clock.seconds)
    return from_zero(replace(said, columns=tuple(columns)), place, clock, asked)


def from_zero(table, place, clock, asked):
    """The table with its times running forward from 0, each once; `start_s` keeps what the clock showed at 0."""
    if clock.local or len(clock.seconds) < 2 or not (np.diff(clock.seconds) > 0).all():
        table, clock = put_in_order(table, clock, asked)
    times, start = clock.seconds, float(clock.seconds[0])
    if times[-1] - start > LONGEST_S:
        what = f"The time runs over {(times[-1] - start) / DAY:,.0f} days up to here."
        do = "Say time= with another column, or clock= with its unit."
        raise table.fault(what, do, row=len(times) - 1, keyword="clock")
    if start and not clock.stamped:
        table = table.said(f"The clock shows {start:g} s at the first reading, which counts as 0.")
    elapsed = times if start == 0 else np.round(times - start, 9)
    return replace(table.with_column(place, values=elapsed), start_s=start, midnight=clock.midnight, wall_clock=clock.stamped)


def time_places(table, asked):
    """(table, places of the columns that tell the time). A date and a time of day in two columns become one."""
    if asked.time is not None:
        return table, [place_named(table, asked.time, "time")]
    stamped = [place for place, column in enumerate(table.columns) if not column.numeric and stamps_in(column)]
    named = [place for place, column in enumerate(table.columns) if column.numeric and says_time(column)]
    counted = [place for place in named if table.columns[place].unit]
    table, stamped = date_with_time(table, stamped)
    found = [*counted, *stamped] or named  # numbers without a unit are asked about only where nothing else tells the time
    if found:
        return table, found
    raise table.fault("No column is plainly the time. Which is it?", keyword="time", choices=table.choices(range(len(table.columns))))


def stamps_in(column):
    filled = [cell for cell in map(column.cell, range(min(len(column.values), 50))) if cell]
    return bool(filled) and sum(map(looks_like_time, filled)) > len(filled) / 2


def says_time(column):
    named = {word.lower() for word in WORDS.findall(column.name)} & NAMES or column.name == "t"
    return column.unit in SPOKEN or bool(named) and not column.unit


def date_with_time(table, places):
    """Join a column of bare dates with one of bare times: '2026-03-01' and '10:00:02'."""
    firsts = {place: stamp(first_cell(table.columns[place])) for place in places}
    dates = [place for place, first in firsts.items() if first and first.order and not first.parts]
    times = [place for place, first in firsts.items() if first and first.parts and not first.order]
    if len(dates) != 1 or len(times) != 1:
        return table, places
    date, time = table.columns[dates[0]], table.columns[times[0]]
    cells = [f"{date.cell(row)} {time.cell(row)}" if time.cell(row) else "" for row in range(len(table.lines))]
    columns = list(table.columns)
    columns[dates[0]] = replace(date, role="other time")
    columns[times[0]] = replace(time, values=as_texts(cells), header=f"{date.header} + {time.header}")
    return replace(table, columns=tuple(columns)), [place for place in places if place != dates[0]]


def refuse_disagreeing(table, places, clocks):
    """A fault if two columns tell times that differ by more than a step."""
    for place, clock in zip(places[1:], clocks[1:]):
        apart = clocks[0].seconds - clock.seconds
        apart = np.abs(apart[np.isfinite(apart)][:1] - apart[np.isfinite(apart)])
        apart = np.minimum(apart % clock.period_s, -apart % clock.period_s) if clock.period_s < np.inf else apart
        if apart.max(initial=0) > max(usual_step(each.seconds) for each in (clocks[0], clock)):
            names = listed((repr(table.columns[each].header) for each in places), "and")
            raise table.fault(f"Columns {names} tell different times.", keyword="time", choices=table.choices(places))


def clock_of(table, column, asked):
    return counted_clock(table, column, asked) if column.numeric else clock_of_stamps(table, column, asked)


def counted_clock(table, column, asked):
    """The `Clock` in a column of numbers, by what kind of number it can only be, its unit or the caller's word."""
    if column.odd:
        raise table.odd_fault(column, "time")
    if asked.count_s:
        step, said = asked.count_s
        return Clock(column.values * step, f"Each count in column '{column.header}' stands for {said}, as you said.", stamped=False)
    unit = asked.clock_among(SPOKEN)
    return (None if unit else dated_number(column)) or elapsed(table, column, unit or column.unit)


def elapsed(table, column, unit):
    if unit not in SPOKEN:
        choices = [Choice(unit, seen=SPOKEN[unit]) for unit in ("s", "min", "h", "ms")]
        raise table.fault("These times are numbers without a unit.", column=column, keyword="clock", choices=choices)
    seconds = column.values * SECONDS[unit] if unit != "s" else column.values
    return Clock(seconds, f"Times are {SPOKEN[unit]}, in column '{column.header}'.", stamped=False)


def dated_number(column):
    """The `Clock` of numbers so large that they can only count from a year: a spreadsheet's days, or seconds since 1970 (POSIX.1, 4.16)."""
    low, high = span(column.values)
    for unit, (least, most) in SINCE_1970.items():
        if least <= low and high <= most and column.unit in (unit, ""):
            remark = f"Times in column '{column.header}' are {SPOKEN[unit]} since 1970."
            return counted_from_midnight(column.values * SECONDS[unit] / DAY, np.round(column.values * SECONDS[unit], 6), remark)
    if SERIAL_DAYS[0] <= low and high <= SERIAL_DAYS[1] and high - low < 2 and column.unit in ("d", ""):
        remark = f"Times in column '{column.header}' are a spreadsheet's days since 1899, read to the millisecond."
        days = column.values - SERIAL_DAYS[0]
        return counted_from_midnight(days, np.round(days * DAY, 3), remark, local=True)
    return None


def counted_from_midnight(days, seconds, remark, local=False):
    midnight = int(np.nanmin(days))
    return Clock(np.round(seconds - midnight * DAY, 6), remark, midnight, local=local)
