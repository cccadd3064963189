"""Times that run forward from 0: midnight, summer time, clocks set back, lines out of order, stamps that come twice.

Every step takes and gives (table, clock), row by row in step; what it changes it says, what it can't decide it asks.
"""

from dataclasses import replace

import numpy as np

from kit.faults import Choice
from kit.intake.time.sharing import apart, lower_median
from kit.records import thinned
from kit.words import counted

HOUR, HALF_DAY, DAY = 3600.0, 43200.0, 86400.0
MOST_PLACES = 3  # by which a line may stand elsewhere
PAUSE_S = 600.0  # a pause this long across midnight is believed


def put_in_order(table, clock, asked):
    """(table, clock) with only the rows that have a time, their times running forward, each once."""
    table, clock = with_times_only(table, clock, asked)
    for step in STEPS if clock.local or not runs_forward(clock) else ():
        table, clock = step(table, clock, asked)
    return table, clock


def picked(table, clock, rows):
    """Both with only the rows that a mask keeps, or in the order that places give."""
    zone = None if clock.zone is None else clock.zone[rows]
    return table.rows(rows), replace(clock, seconds=clock.seconds[rows], zone=zone)


def usual_step(times):
    """The usual time from one reading to the next, whichever way it runs; 0 if the clock stands."""
    steps = np.abs(thinned(np.diff(times)))
    steps = steps[steps > 0]
    return float(lower_median(steps)) if steps.size else 0.0


def runs_forward(clock):
    return bool((np.diff(clock.seconds) > 0).all())


def with_times_only(table, clock, asked):
    """Leave out lines without a time."""
    kept = np.isfinite(clock.seconds)
    if kept.sum() < 2:
        what = f"This record holds {counted(int(kept.sum()), 'reading')} with a time."
        raise table.fault(what, "A run needs at least two: record for longer, or export the whole record.")
    if kept.all():
        return table, clock
    remark = f"Left out {counted(int((~kept).sum()), 'line')} without a time, first line {table.lines[~kept][0]}."
    return picked(table.said(remark), clock, kept)


def newest_last(table, clock, asked):
    """A logger may write the newest line first."""
    steps = np.diff(clock.seconds)
    if len(steps) < 2 or (steps > 0).any() or not (steps < 0).any():
        return table, clock
    return picked(table.said("The newest line came first: read from the last line to the first."), clock, np.arange(len(steps), -1, -1))


def past_the_turn(table, clock, asked):
    """A clock of hours starts anew at midnight, one without a.m. and p.m. at one o'clock, one of minutes after 60."""
    times, longest = clock.seconds, max(PAUSE_S, 10 * usual_step(clock.seconds))
    steps = np.diff(times)
    turns = [HALF_DAY, DAY] if clock.period_s == DAY and times.max() < 13 * HOUR else [clock.period_s]
    added = np.zeros(len(times))
    for row in np.flatnonzero(steps < 0):
        turn = next((turn for turn in turns if 0 <= steps[row] + turn <= longest), 0)
        added[row + 1 :] += turn
        remark = f"The clock starts anew in line {table.lines[row + 1]}: counted on, {turn / HOUR:g} h added from there."
        table = table.said(remark) if turn else table
    return table, replace(clock, seconds=times + added)


def past_noon(table, clock, asked):
    """A clock with dates that counts to 12 without a.m. and p.m.: half a day is added where that makes its steps even."""
    steps = np.diff(clock.seconds)
    if not clock.stamped or clock.period_s < np.inf or (clock.seconds % DAY).max() >= 13 * HOUR or not (steps < 0).any():
        return table, clock
    days, step = clock.seconds // DAY, usual_step(clock.seconds)
    base = days * DAY + clock.seconds % HALF_DAY
    turns = np.r_[0, np.flatnonzero((np.diff(base) < 0) | (np.diff(days) != 0)) + 1, len(base)]
    seconds = min((halves_added(base, turns, start) for start in (0.0, HALF_DAY)), key=lambda times: np.abs(np.diff(times) - step).sum())
    even = np.diff(seconds)
    if even.min() <= 0 or ((even > 0.5 * step) & (even < 1.5 * step)).mean() < 0.95:
        return table, clock
    remark = f"The clock counts to 12 without a.m. and p.m.: 12 h added where that makes its steps even, first line {table.lines[turns[1]]}."
    return table.said(remark), replace(clock, seconds=seconds)


def halves_added(base, turns, start):
    """Times of a 12-hour clock, stretch by stretch between `turns`, each in that half of its day which begins soonest after the last."""
    seconds, half = base.copy(), start
    for first, end in zip(turns, turns[1:]):
        if first:
            half = 0.0 if base[first] > seconds[first - 1] else HALF_DAY
        seconds[first:end] += half
    return seconds


def through_summer_time(table, clock, asked):
    """Undo the hour that a wall clock jumps when summer time begins or ends."""
    if not clock.local:
        return table, clock
    steps, step = np.diff(clock.seconds), usual_step(clock.seconds)
    added = np.zeros(len(clock.seconds))
    for jump in (HOUR, -HOUR):
        for row in np.flatnonzero(np.abs(steps - step - jump) <= step / 2) if step < HOUR / 3 else ():
            if (jump < 0 or at_full_hour(clock.seconds[row], step)) and is_summer_time(table, clock, asked, row, jump):
                added[row + 1 :] -= jump
                what = f"Summer time {'begins' if jump > 0 else 'ends'} in line {table.lines[row + 1]}"
                table = table.said(f"{what}: the clock's jump of an hour is taken out.")
    return table, replace(clock, seconds=clock.seconds + added)


def at_full_hour(seconds, step):
    """Would the next reading have come at or behind a full hour, when clocks are set forward? Else the logger paused for about an hour."""
    return (seconds + 1.5 * step) // HOUR > seconds // HOUR


def is_summer_time(table, clock, asked, row, jump):
    if clock.zone is not None and clock.zone[row] != clock.zone[row + 1] or "summer time" in asked.clocks:
        return True
    if {"as written", "sorted", "set back"} & set(asked.clocks):
        return False
    begins = jump > 0
    what = f"The clock goes {'forward' if begins else 'back'} by an hour here."
    other = Choice("as written", "the logger paused") if begins else Choice("set back", "someone set it back")
    choices = Choice("summer time", f"summer time {'began' if begins else 'ended'}"), other
    raise table.fault(what, row=row + 1, keyword="clock", choices=choices)


def without_repeats(table, clock, asked):
    """Drop a line that says the same as another of its time. Where stamps are coarser than the readings, equal lines are no repeats."""
    if runs_forward(clock):
        return table, clock
    order = np.argsort(clock.seconds, kind="stable")
    twice = np.diff(clock.seconds[order]) == 0
    if not twice.any() or twice.mean() > 0.4:
        return table, clock
    for column in table.columns:
        values = column.values[order]
        same = values[1:] == values[:-1]
        twice &= (
            same | (np.isnan(values[1:]) & np.isnan(values[:-1]))
            if column.numeric and column.role != "time"
            else same | (column.role == "time")
        )
    if not twice.any():
        return table, clock
    repeats = np.sort(order[1:][twice])
    remark = f"Left out {counted(len(repeats), 'repeated line')}, first line {table.lines[repeats[0]]}."
    return picked(table.said(remark), clock, np.delete(np.arange(len(order)), repeats))


def sorted_or_set_back(table, clock, asked):
    """Single lines out of order that fill each other's gaps are sorted. Any other way back is for the caller to explain."""
    steps = np.diff(clock.seconds)
    back = np.flatnonzero(steps < 0)
    if not back.size:
        return table, clock
    if "set back" in asked.clocks:
        return set_forward(table, clock, back)
    order = np.argsort(clock.seconds, kind="stable")
    if "sorted" in asked.clocks or strays(clock.seconds[order], order, usual_step(clock.seconds)):
        moved = int((order != np.arange(len(order))).sum())
        return picked(
            table.said(f"Sorted by time: {counted(moved, 'line')} stood elsewhere, first line {table.lines[back[0] + 1]}."), clock, order
        )
    choices = Choice("sorted", "the lines are mixed up"), Choice("set back", "someone set it back")
    do = "Two runs in one file? Save them apart."
    raise table.fault(f"The clock goes back by {-steps[back[0]]:.6g} s here.", do, row=back[0] + 1, keyword="clock", choices=choices)


def strays(times, order, step):
    """Are only single lines out of place, and do the times, once sorted, lie about one usual step apart? Whole blocks are for the caller."""
    steps = np.diff(times)
    near = np.abs(order - np.arange(len(order))).max() <= MOST_PLACES
    return bool(near and steps.min() >= 0.75 * step and (steps <= 1.25 * step).mean() >= 0.9)


def set_forward(table, clock, back):
    step, seconds = usual_step(clock.seconds), clock.seconds.copy()
    for row in back:
        lost = seconds[row] + step - seconds[row + 1]
        seconds[row + 1 :] += lost
        table = table.said(
            f"The clock was set back in line {table.lines[row + 1]}, as you said: {lost:.6g} s added from there, for one usual step."
        )
    return table, replace(clock, seconds=seconds)


STEPS = (newest_last, past_the_turn, past_noon, through_summer_time, without_repeats, sorted_or_set_back, apart)
