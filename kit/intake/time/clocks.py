"""Which column is the time, how it is written, and seconds from it."""

import re
from dataclasses import replace

import numpy as np

from kit.faults import Choice, IntakeFault
from kit.intake.forms import looks_like_time, SECONDS
from kit.intake.given import Column, place_named
from kit.intake.time.calendar import put_together
from kit.intake.time.counts import counts_up, starts_anew
from kit.intake.time.dense import counted_from_midnight, dense_number, is_dense, year_inside
from kit.intake.time.ordering import put_in_order, usual_step
from kit.intake.time.stampcolumn import DAY, Clock, clock_of_stamps
from kit.records import span
from kit.words import listed

# Words that name the time in a header. Common practice, no source.
NAMES = set("time elapsed timestamp date datetime clock seconds minutes hours hour zeit uhrzeit datum heure tiempo hora tempo ora".split())
CALENDAR_WORDS = set("date datum fecha data year yr yyyy jahr année año anio ano anno doy yday jday julian dayofyear yearday jd hhmm".split())
WARM = re.compile("temp|therm|probe|treat|control", re.IGNORECASE)
WORDS = re.compile(r"[^\W\d_]+")
SPOKEN = {"ms": "milliseconds", "s": "seconds", "min": "minutes", "h": "hours", "d": "days"}
# Days that spreadsheets count from 30 December 1899: 1970 to 2099 (ECMA-376 part 1, 18.17.4.1).
SERIAL_DAYS = (25569, 73050)
# Days counted from 4713 BC (the Julian date) and from the year 0, which some programs write: 1970 to 2099; 1970 is 2,440,587.5 (US Naval
# Observatory), and 719,529.
OTHER_DAYS = ((2440587.5, 2488069.5), (719529, 767010))
YEARS, DENSE_DAYS = (1970, 2099), (19700101, 20991231)
EVEN_STEPS = ("every 1 s", "every 2 s", "every 5 s", "every 10 s", "every 30 s", "every 60 s")  # offered where nothing tells the time
LONGEST_STEP_D = 0.05  # of a spreadsheet's days; numbers with longer steps are seconds, or count something else
LONGEST_S = 1e9  # thirty years: no run lasts so long, so these are no times of a run
SINCE_1970 = {"s": (1e9, 4.1e9), "ms": (1e12, 4.1e12)}


def read_clock(table, asked):
    """Put the time, in seconds from the first reading, into a column with the role 'time'. Rows run forward, no time comes twice."""
    if asked.every_s:
        return evenly(table, asked)
    table, places = time_places(table, asked)
    clocks = clocks_at(table, places, asked)
    agreeing = refuse_disagreeing(table, clocks)
    place = finest({at: clocks[at] for at in [next(iter(clocks)), *agreeing]})
    clock, others = clocks[place], [repr(table.columns[at].header) for at in [next(iter(clocks)), *agreeing] if at != place]
    said = table.said(clock.remark, *([f"Column {listed(others)} tells the same time."] if others else []))
    columns = [replace(each, role="other time") if at in places else each for at, each in enumerate(said.columns)]
    columns[place] = replace(columns[place], role="time", values=clock.seconds)
    return from_zero(replace(said, columns=tuple(columns)), place, clock, asked)


def evenly(table, asked):
    """The table with a time that the caller tells, one step a row."""
    step, said = asked.every_s
    column = Column("row", np.arange(len(table.lines)) * step, role="time")
    return replace(table.said(f"The time is counted from the rows, a reading {said}, as you said."), columns=(*table.columns, column))


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
    return replace(table.with_column(place, values=elapsed), start_s=start, midnight=clock.midnight, wall_clock=clock.stamped, days=clock.days)


def time_places(table, asked):
    """(table, places of the columns that tell the time, the surest first). A moment that stands in several columns becomes one."""
    whole, parts = None, ()
    if any(map(holds_date_or_clock, table.columns)):
        table, whole, parts = put_together(table)
    if asked.time is not None:
        place = place_named(table, asked.time, "time")
        return table, [whole if place in parts else place]
    free = [(place, column) for place, column in enumerate(table.columns) if place != whole and not column.role]
    stamped = [place for place, column in free if not column.numeric and stamps_in(column)]
    named = [place for place, column in free if column.numeric and named_time(column)]
    counted = [place for place in named if table.columns[place].unit]
    found = [*([whole] if whole is not None else []), *counted, *stamped]
    # what is headed as a time without a unit, has only the unit, or just counts, is asked about only where nothing else tells the time
    found = found or named or [place for place, column in free if column.numeric and says_time(column)] or counting(free)
    if found:
        return table, found
    do = "Say time= with its column; or, if the readings came at even steps, how often: clock='every 2 s'."
    numbers_only = all(column.numeric for column in table.columns)  # a column of texts may hold a time that is written strangely
    raise table.fault("No column tells the time.", do, keyword="clock", choices=[Choice(step) for step in EVEN_STEPS] if numbers_only else ())


def holds_date_or_clock(column):
    """Could this column be a part of a moment, by its name or its first cell?"""
    if not column.numeric:
        return stamps_in(column)
    words = {word.lower() for word in WORDS.findall(column.header)}
    first = column.values[0] if column.nameless and len(column.values) else 0
    return bool(words & CALENDAR_WORDS) or any(low <= first <= high for low, high in (YEARS, DENSE_DAYS))


def counting(free):
    """The column of numbers that counts from 1970, or writes date and time as one; else the first that only ever rises, about evenly, and does
    not just count lines; else one that does so and now and then starts anew, as a logger's own clock does when it is switched on."""
    held = {place: column.values for place, column in free if column.numeric and not column.unit and not WARM.search(column.name)}
    epoch = [place for place, values in held.items() if len(values) > 1 and since_1970(values)]
    epoch = epoch or [place for place, column in free if place in held and (is_dense(column) or year_inside(column) is not None)]
    rising = [place for place, values in held.items() if len(values) > 1 and counts_up(np.diff(values))]
    more = [place for place in rising if held[place][0] > 1 or (np.diff(held[place]) != 1).any()]
    anew = [place for place, values in held.items() if len(values) > 1 and starts_anew(values)]
    return (epoch or more or anew or rising)[:1]


def since_1970(values):
    """The unit in which these numbers count from 1970, or ''."""
    low, high = span(values)
    return next((unit for unit, (least, most) in SINCE_1970.items() if least <= low and high <= most), "")


def stamps_in(column):
    filled = [cell for cell in map(column.cell, range(min(len(column.values), 50))) if cell]
    return bool(filled) and sum(map(looks_like_time, filled)) > len(filled) / 2


def named_time(column):
    """Is this column of numbers called a time?"""
    return bool({word.lower() for word in WORDS.findall(column.name)} & NAMES or column.name == "t") and column.unit in ("", *SPOKEN)


def says_time(column):
    """Is it called a time, or has it a unit of time and never goes back? ('Min' may be the lowest reading.)"""
    return named_time(column) or column.unit in SPOKEN and never_back(column.values)


def tells_time(column):
    """Does it say so, or can its numbers only count from 1970?"""
    return says_time(column) or column.numeric and bool(since_1970(column.values))


def never_back(values):
    known = values[np.isfinite(values)]
    return len(known) > 1 and bool((np.diff(known) >= 0).all() and known[-1] > known[0])


def clocks_at(table, places, asked):
    """{place: `Clock`} of those columns whose times can be read. A fault if none can."""
    clocks, faults = {}, []
    for place in places:
        try:
            clocks[place] = (counted_clock if table.columns[place].numeric else clock_of_stamps)(table, table.columns[place], asked)
        except IntakeFault as fault:
            faults.append(fault)
    if not clocks:
        raise faults[0]
    going = {place: clock for place, clock in clocks.items() if len(clocks) > 1 and moves(clock.seconds)}
    return going or clocks


def moves(seconds):
    """Does a clock show more than one time? One that doesn't tells when the record began, not when each line was written."""
    known = seconds[np.isfinite(seconds)]
    return bool(known.size) and bool((known != known[0]).any())


def finest(clocks):
    """The place of the clock that shows the same time least often: the first one, unless another is finer."""
    if len(clocks) == 1:
        return next(iter(clocks))
    return max(clocks, key=lambda place: len(np.unique(clocks[place].seconds[np.isfinite(clocks[place].seconds)])))


def refuse_disagreeing(table, clocks):
    """The places of those columns that tell the same as the first. A fault if another tells times that differ by more than a step, unless
    it counts days, which may begin anywhere."""
    (first, clock), *others = clocks.items()
    agreeing, differing = [], []
    for place, other in others:
        apart = clock.seconds - other.seconds
        apart = np.abs(apart[np.isfinite(apart)][:1] - apart[np.isfinite(apart)])
        apart = np.minimum(apart % other.period_s, -apart % other.period_s) if other.period_s < np.inf else apart
        steps = [usual_step(each.seconds) for each in (clock, other)]
        (differing if apart.max(initial=0) > max(steps) else agreeing).append(place)
    serious = [place for place in differing if clock.midnight is None or table.columns[place].unit not in ("", "d")]
    if serious:
        names = listed((repr(table.columns[each].header) for each in [first, *serious]), "and")
        raise table.fault(f"Columns {names} tell different times.", keyword="time", choices=table.choices([first, *serious]))
    return agreeing


def counted_clock(table, column, asked):
    """The `Clock` in a column of numbers, by what kind of number it can only be, its unit or the caller's word."""
    if column.odd:
        raise table.odd_fault(column, "time")
    if asked.count_s:
        step, said = asked.count_s
        return Clock(column.values * step, f"Each count in column '{column.header}' stands for {said}, as you said.", stamped=False)
    unit = asked.clock_among(SPOKEN)
    texts = None if unit or column.unit else year_inside(column)
    if texts is not None:
        return clock_of_stamps(table, replace(column, values=texts), asked)
    return (None if unit else dated_number(column)) or elapsed(table, column, unit or column.unit)


def elapsed(table, column, unit):
    if unit not in SPOKEN:
        choices = [Choice(unit, seen=SPOKEN[unit]) for unit in ("s", "min", "h", "ms", "d")]
        raise table.fault("These times are numbers without a unit.", column=column, keyword="clock", choices=choices)
    seconds = column.values * SECONDS[unit] if unit != "s" else column.values
    low, high = span(column.values)
    of_the_day = unit == "h" and low >= 0 and high < 24 and not never_back(column.values)
    return Clock(seconds, f"Times are {SPOKEN[unit]}, in column '{column.header}'.", period_s=DAY if of_the_day else np.inf, stamped=False)


def dated_number(column):
    """The `Clock` of numbers so large that they can only count from a year: a spreadsheet's days, or seconds since 1970 (POSIX.1, 4.16)."""
    low, high = span(column.values)
    unit = since_1970(column.values)
    if unit and column.unit in (unit, ""):
        remark = f"Times in column '{column.header}' are {SPOKEN[unit]} since 1970."
        return counted_from_midnight(column.values * SECONDS[unit] / DAY, np.round(column.values * SECONDS[unit], 6), remark)
    if column.unit == "" and is_dense(column):
        return dense_number(column)
    if SERIAL_DAYS[0] <= low and high <= SERIAL_DAYS[1] and usual_step(column.values) <= LONGEST_STEP_D and column.unit in ("d", ""):
        remark = f"Times in column '{column.header}' are a spreadsheet's days since 1899, read to the millisecond."
        days = column.values - SERIAL_DAYS[0]
        return counted_from_midnight(days, np.round(days * DAY, 3), remark, local=True)
    if any(least <= low and high <= most for least, most in OTHER_DAYS) and usual_step(column.values) <= LONGEST_STEP_D and column.unit in ("d", ""):
        return Clock(np.round(column.values * DAY, 3), f"Times in column '{column.header}' are days, read to the millisecond.", stamped=False)
    return None
