"""Several loggers made one record: on the times of the slowest, over the stretch that all cover, never beyond."""

from collections import Counter
from dataclasses import replace
from pathlib import PurePath

import numpy as np

from kit.faults import Choice, IntakeFault
from kit.records import GAP_STEPS, leaps
from kit.intake.time import offset_between
from kit.intake.columns.kinds import GAS, NAMES, words_of
from kit.intake.given import Column, Table
from kit.intake.forms import TEMPERATURES
from kit.words import clock, counted, listed

DAY = 86400.0
ROLE_WORDS = GAS.union(*NAMES.values())


def join(tables, asked):
    """One `Table` of several whose clocks are read. The clocks are compared by what both felt; a fault asks where they seem to differ."""
    starts, remark = starts_on_one_clock(tables)
    ahead, said = clocks_ahead(tables, starts, asked)
    times = [elapsed(table) + start - late for table, start, late in zip(tables, starts, ahead)]
    return on_one_grid(tables, times).said(*remark, *said)


def with_file_names(tables):
    """Tables of several files, with the file's name before each header that does not itself name a role, or that another file has, too."""
    heads = Counter(column.header for table in tables for column in table.columns if not column.role)
    return [
        replace(table, columns=tuple(named(column, PurePath(table.file).stem, heads[column.header] > 1) for column in table.columns))
        for table in tables
    ]


def named(column, stem, twice):
    """'left: Temperature (°C)' for 'Temperature (°C)' in left.csv."""
    if column.role or words_of(column.name) & ROLE_WORDS and not twice:
        return column
    return replace(column, header=f"{stem}: {column.header}", name=f"{stem} {column.name}")


def elapsed(table):
    return table.columns[table.place_of("time")].values


def step_of(table):
    return float(np.median(np.diff(elapsed(table))))


def starts_on_one_clock(tables):
    """(when each record starts in seconds of a clock they share, remarks): by date and time, by time of day, or each from its own zero."""
    if all(table.midnight is not None for table in tables):
        return [DAY * (table.midnight - tables[0].midnight) + table.start_s for table in tables], ()
    if all(table.wall_clock for table in tables):
        return [table.start_s % DAY for table in tables], ("Took the files' times as of the same day.",)
    return [table.start_s for table in tables], ()


def clocks_ahead(tables, starts, asked):
    """(seconds that each clock is ahead of the first, remarks): by the caller's word, or where clocks of the day agree."""
    given = [float(word) for word in asked.clock_numbers]
    if given:
        return given_ahead(tables, given)
    ahead, said = [0.0], []
    for table, start in zip(tables[1:], starts[1:]):
        found = estimated(tables[0], starts[0], table, start)
        seconds, remark = settled(tables[0], table, found, asked)
        ahead.append(seconds)
        said.append(remark)
    return ahead, said


def given_ahead(tables, given):
    if len(given) != len(tables) - 1:
        what = f"{counted(len(given), 'number')} in clock= for {len(tables)} files."
        raise IntakeFault(
            what, "Say how many seconds each clock is ahead of the first file's, one number for each further file.", keyword="clock"
        )
    return [0.0, *given], [
        f"The clock of {table.file} is {late:g} s ahead of that of {tables[0].file}, as you said." for table, late in zip(tables[1:], given)
    ]


def estimated(one, start, other, other_start):
    """The `Offset` between two records by their first thermometers; None where it can't be told."""
    first, second = thermometer(one), thermometer(other)
    if first is None or second is None:
        return None
    (times, values), (other_times, other_values) = known(one, start, first), known(other, other_start, second)
    return offset_between(times, values, other_times, other_values)


def thermometer(table):
    return next((column for column in table.columns if column.numeric and column.unit in (*TEMPERATURES, "") and not column.role), None)


def known(table, start, column):
    """Times on the shared clock and readings, without the missing ones and without leaps, which would pass for an event."""
    here, times = np.isfinite(column.values), elapsed(table)
    for place in leaps("", times, column.values):
        here &= (times < place.start_s) | (times > place.end_s)
    return times[here] + start, column.values[here]


def settled(one, other, found, asked):
    """(seconds that the other clock is ahead, remark): by the caller's word, or where two clocks of the day agree. Else a fault asks."""
    names, fit = f"{one.file} and {other.file}", f"; what both felt fits best with {found} between them" if found else ""
    if "as written" in asked.clocks:
        return 0.0, f"Took the clocks of {names} as written, as you said{fit}."
    if "shared event" in asked.clocks and found:
        return found.seconds, f"The clock of {other.file} is ahead of that of {one.file} by {found}, from what both felt, as you said."
    of_the_day = one.wall_clock and other.wall_clock
    if of_the_day and found is None and "shared event" not in asked.clocks:
        return 0.0, f"Took the clocks of {names} as agreeing; nothing that both felt tells otherwise."
    if of_the_day and found and abs(found.seconds) <= max(found.give_s, step_of(one), step_of(other)):
        return 0.0, f"Took the clocks of {names} as agreeing{fit}."
    raise question(one, other, found)


def question(one, other, found):
    if found:
        what = f"This clock seems {found} ahead of that of {one.file}."
        choices = Choice("shared event", "shift it so"), Choice("as written", "leave it")
    else:
        what = f"Nothing here tells how far this clock is ahead of that of {one.file}."
        choices = (Choice("as written", "they agree, or were started together"),)
    return IntakeFault(what, "Or say how many seconds: clock=40.", file=other.file, keyword="clock", choices=choices)


def join_pieces(tables):
    """One `Table` of several that share one clock: the probes of a long layout."""
    return on_one_grid(tables, [elapsed(table) + table.start_s + DAY * days for table, days in zip(tables, days_apart(tables))])


def days_apart(tables):
    """How many days after the first day of the first piece each piece begins. A fault where that depends on the order of day and month."""
    if len({table.days for table in tables}) == 1:
        return [0] * len(tables)
    ways = [way for way, _ in tables[0].days if all(way in dict(table.days) for table in tables)]
    if not ways:
        what = "The dates of some lines are day first, those of others month first."
        raise tables[0].fault(what, "Write them alike in a copy of the file.", keyword="clock")
    apart = {way: [dict(table.days)[way] - dict(tables[0].days)[way] for table in tables] for way in ways}
    if any(days != apart[ways[0]] for days in apart.values()):
        raise tables[0].fault("Day and month of these dates could change places.", keyword="clock", choices=[Choice(way) for way in ways])
    return apart[ways[0]]


def on_one_grid(tables, times):
    """All columns at the times of the record read least often (among those with a thermometer), within what all cover."""
    slowest = max((place for place, table in enumerate(tables) if thermometer(table)), key=lambda place: step_of(tables[place]), default=0)
    start, end = max(each[0] for each in times), min(each[-1] for each in times)
    inside = (times[slowest] >= start) & (times[slowest] <= end)
    grid, base = times[slowest][inside], tables[slowest]
    if len(grid) < 2:
        files = listed(table.file for table in tables)
        raise IntakeFault(
            "These records do not cover a common stretch of time.",
            "Check the dates, or say by how many seconds the clocks differ: clock=40.",
            file=files,
            keyword="clock",
        )
    columns = [Column("elapsed", np.round(grid - grid[0], 6), role="time")]
    for table, own in zip(tables, times):
        columns += [
            replace(column, values=at_times(grid, own, column.values))
            for column in table.columns
            if column.numeric and column.role != "time"
        ]
    name = " + ".join(dict.fromkeys(table.file for table in tables))
    remarks = remarks_of(tables)
    remark = joined_remark(base, grid, all(np.isin(grid, each).all() for each in times))
    return Table(name, tuple(columns), base.lines[inside], (*remarks, remark), start_s=float(grid[0]), wall_clock=base.wall_clock)


def remarks_of(tables):
    """The remarks on all records, each once; what does not hold for all files is said of its file."""
    files = len({table.file for table in tables}) > 1
    everywhere = set(tables[0].remarks).intersection(*(table.remarks for table in tables))
    named = ((table, remark) for table in tables for remark in table.remarks)
    return dict.fromkeys(f"{table.file}: {remark}" if files and remark not in everywhere else remark for table, remark in named)


def joined_remark(base, grid, same_times):
    name = thermometer(base).header if thermometer(base) else base.file
    between = "" if same_times else " Readings of the others lie on the straight line between two of theirs, never beyond."
    return f"Joined on the {len(grid):,} times of '{name}', over the {clock(grid[-1] - grid[0])} that all cover.{between}"


def at_times(grid, times, values):
    """Values at the times of `grid`: as read where the times agree, on the line between two neighbours elsewhere, missing across a gap."""
    after = np.clip(np.searchsorted(times, grid), 1, len(times) - 1)
    wide = times[after] - times[after - 1] > GAP_STEPS * np.quantile(np.diff(times), 0.5, method="lower")
    read = (grid == times[after]) | (grid == times[after - 1])
    return np.where(wide & ~read, np.nan, np.interp(grid, times, values))
