"""Places in a record that need a second look: gaps, leaps, a sensor that stands still, a gas probe at its top end.

They are found and named, never taken out: `run.without(place)` does that, at the caller's word.
The limits below are common practice, no source; each is set so that ordinary noise and a coarse display stay below it.
"""

from dataclasses import dataclass

import numpy as np

from kit.faults import Fault
from kit.records.jumping import GAP_STEPS, jumps, lonely
from kit.records.run import larger, span, spread, thinned
from kit.units import difference_in, reading, temperature_in, unit
from kit.words import clock, counted

LEAP_NOISE, LEAP_STEPS, LEAP_C, LEAP_READINGS, AWAY_C = 8, 3, 0.2, 3, 10
STILL_READINGS, STILL_S, STILL_STEPS, STILL_TIMES = 10, 60, 3, 10
CEILING_S, CEILING_RISE = 30, 1.2
COLDEST_C, HOTTEST_C = -40, 120
MOST = 1000  # places of one kind that are looked at in one column
SHOWN = 3
THERMOMETERS = ("treated", "control", "room")


@dataclass(frozen=True)
class OddPlace:
    """A stretch of one column (for a gap, of the whole run) from `start_s` to `end_s`, with the number of readings in it.

    `kind` is 'gap', 'leap', 'step', 'bump', 'still', 'ceiling' or 'range'; `detail` says what was seen there, in °C; `told` the same in the class's
    unit, where it differs. `key` names the place whatever the class reads.
    """

    kind: str
    column: str
    start_s: float
    end_s: float
    count: int
    detail: str
    told: str = ""

    @property
    def when(self):
        """'at 5 min 2 s', or 'from 5 min 2 s to 6 min 0 s, 30 readings'."""
        if self.count == 1:
            return f"at {clock(self.start_s)}"
        return f"from {clock(self.start_s)} to {clock(self.end_s)}{f', {self.count:,} readings' if self.count else ''}"

    @property
    def key(self):
        """The place in words that stay the same in °C and °F: what is kept of it refers to these."""
        return f"{self.column}, {self.when}: {self.detail}."

    def __str__(self):
        return f"{self.column}, {self.when}: {self.told or self.detail}."


def odd_places(readings):
    """Every `OddPlace` in a table of readings (index `elapsed_s`), in order of time."""
    return places_in(readings.index.to_numpy(float), {name: series.to_numpy(float) for name, series in readings.items()})


def places_in(times, columns):
    """The same from arrays: times in seconds, and a dict of columns."""
    found = gaps(times)
    for name in columns:
        found += places_of(name, times, columns)
    return tuple(sorted(found, key=lambda place: place.start_s))


def places_of(name, times, columns):
    """The odd places of one column."""
    if name in THERMOMETERS:
        return leaps(name, times, columns[name]) + stills(name, times, columns) + out_of_range(name, times, columns[name])
    return ceilings(times, columns[name]) if name == "gas_ppm" else []


def taken_out(readings, place):
    """The readings with those of one column between `start_s` and `end_s` made missing."""
    if place.kind == "gap" or place.column not in readings:
        raise Fault(f"There is nothing to take out of '{place.column}' {place.when}. Choose a place that holds readings.")
    inside = (readings.index >= place.start_s) & (readings.index <= place.end_s)
    kept = readings[place.column].where(~inside)
    if not readings[place.column][inside].notna().any() or kept.notna().sum() < 2:
        raise Fault(f"Taking out {place.column} {place.when} would change nothing, or leave less than two readings. Choose another place.")
    return readings.assign(**{place.column: kept})


def gaps(times):
    steps = np.diff(times)
    rows = larger(steps, GAP_STEPS * np.median(thinned(steps)))[:MOST]
    return [OddPlace("gap", "all", times[row], times[row + 1], 0, f"no reading for {clock(steps[row])}") for row in rows]


def leaps(name, times, values):
    """Readings that leap away and come back within three; behind them steps, and bumps that come back later."""
    known = np.isfinite(values)
    times, values = (times, values) if known.all() else (times[known], values[known])
    steps = np.diff(values)
    if len(steps) < 4:
        return []
    found, past = away_at_first(name, times, values, steps), -1
    height = max(LEAP_NOISE * spread(thinned(steps)), LEAP_STEPS * smallest(steps), LEAP_C)
    rows, others = larger(steps, height)[:MOST], []
    for row in rows:
        back = next(
            (n for n in range(2, LEAP_READINGS + 2) if row + n < len(values) and abs(values[row + n] - values[row]) < height / 2), 0
        )
        if back and row >= past:
            past = row + back
            seen = _seen("leaps by {} and back", difference_in, 2, abs(values[row + 1] - values[row]))
            found.append(OddPlace("leap", name, times[row + 1], times[past - 1], back - 1, *seen))
        elif row >= past:
            others.append(row)
    return found + [jumped(name, times, jump) for jump in jumps(lonely(others, steps, times), steps, times)] if others else found


def jumped(name, times, jump):
    """The `OddPlace` of a step or a bump."""
    kind, first, last, size = jump
    words = f"goes {{}} {'up' if size > 0 else 'down'} within one reading, and {'stays' if kind == 'step' else 'later back so'}"
    seen = _seen(words, difference_in, 2, abs(size))
    return OddPlace(kind, name, times[first], times[last], last - first + 1, *seen)


def away_at_first(name, times, values, steps):
    """Up to three first readings far from all that follow, such as the value that some probes give before their first measurement."""
    row = int(np.argmax(np.abs(steps[:LEAP_READINGS])))
    low, high = span(values[row + 1 :])
    jump = abs(steps[row])
    if jump < max(AWAY_C, high - low):
        return []
    return [OddPlace("leap", name, times[0], times[row], row + 1, *_seen("starts {} away from what follows", difference_in, 2, jump))]


def _seen(words, shown, places, value):
    """`words` with this temperature, in °C and as the class reads it; `shown` is `difference_in` or `temperature_in`."""
    return words.format(f"{value:.{places}f} °C"), words.format(f"{shown(value):.{places}f} {unit()}")


def display_step(values):
    """The smallest step between two readings next to each other: that of the display, as far as the record shows it; 0 without any."""
    return smallest(np.diff(values))


def smallest(steps):
    """The smallest of some steps but 0; of very many, of a part."""
    steps = np.abs(thinned(steps))
    steps = steps[steps > 1e-9]
    return float(steps.min()) if steps.size else 0.0


def stills(name, times, columns):
    """Long stretches of one value: far longer than others here, or while the other vessel moves by more than a display could hide."""
    values, long = columns[name], stretches(columns[name], times, STILL_S)
    if not long:
        return []
    usual = usual_stretch(values)
    other = columns["control" if name == "treated" else "treated"]
    step = max(display_step(values), display_step(other))
    found = []
    for start, end in long:
        moved = drift(other[start:end])
        if moved > STILL_STEPS * step or end - start >= STILL_TIMES * usual:
            seen = _seen("stands still at {}", temperature_in, 2, values[start])
            found.append(OddPlace("still", name, times[start], times[end - 1], end - start, *seen))
    return found


def ends_of_stretches(values):
    """Rows at which a stretch of one value starts, with the end of the last behind them. A missing reading is a stretch of its own."""
    return np.r_[0, np.flatnonzero(~(np.diff(values) == 0)) + 1, len(values)]


def usual_stretch(values):
    """How long stretches of one value get in this column: 19 of 20 are no longer."""
    return float(np.quantile(thinned(np.diff(ends_of_stretches(values))), 0.95))


def stretches(values, times, least_s):
    """(start, end) rows of the stretches of one value over at least 10 readings and `least_s` seconds."""
    if not holds_stretch(values):
        return []
    ends = ends_of_stretches(values)
    long = np.flatnonzero(np.diff(ends) >= STILL_READINGS)
    pairs = [(int(ends[place]), int(ends[place + 1])) for place in long[:MOST]]
    return [(start, end) for start, end in pairs if times[end - 1] - times[start] >= least_s]


def holds_stretch(values):
    """Do at least 10 readings in a row agree anywhere? Much faster than finding all stretches."""
    same = values[1:] == values[:-1]
    for shift in (1, 2, 4, 1):  # after these, one place stands for 9 in a row
        same = same[shift:] & same[:-shift]
    return bool(same.any())


def drift(values):
    """How far the mean of the last third of some readings lies from that of the first; 0 where there are too few."""
    values = values[np.isfinite(values)]
    third = len(values) // 3
    return float(abs(values[-third:].mean() - values[:third].mean())) if third else 0.0


def out_of_range(name, times, values):
    """Temperatures that no vessel under a lamp has."""
    low, high = span(values)
    if not low < COLDEST_C and not high > HOTTEST_C:
        return []
    rows = np.flatnonzero((values < COLDEST_C) | (values > HOTTEST_C))
    first = _seen("{}: look whether the unit is right", temperature_in, 1, values[rows[0]])
    ends = f"{COLDEST_C} to {HOTTEST_C} °C", f"{temperature_in(COLDEST_C):g} to {reading(HOTTEST_C)}"
    return [OddPlace("range", name, times[rows[0]], times[rows[-1]], len(rows), *(f"outside {end}, the first is {seen}" for end, seen in zip(ends, first)))]


def ceilings(times, values):
    """The highest value of a gas probe, held: the probe's top end, where it can only say 'at least'."""
    early = values[: max(1, len(values) // 20)]
    early = early[np.isfinite(early)]
    top = float(np.nanmax(values)) if early.size else 0.0
    if not early.size or top < CEILING_RISE * np.median(early):
        return []
    held = [(start, end) for start, end in stretches(values, times, CEILING_S) if values[start] == top]
    detail = f"held at its highest value, {top:,.0f} ppm: the probe's top end, so read it as 'at least'"
    return [OddPlace("ceiling", "gas_ppm", times[start], times[end - 1], end - start, detail) for start, end in held]


def remarks_on(places):
    """One sentence for each kind of odd place in each column, with how many and when."""
    groups = {}
    for place in places:
        groups.setdefault((place.kind, place.column), []).append(place)
    return tuple(sentence(*key, group) for key, group in groups.items())


def sentence(kind, column, group):
    shown = "; ".join(f"{place.when}: {place.detail}" for place in group[:SHOWN])
    more = f"; and {len(group) - SHOWN} more" if len(group) > SHOWN else ""
    if kind == "gap":
        return f"{counted(len(group), 'gap')} in the record, {shown}{more}. The logger paused, or its clock was set forward."
    many = f"{len(group)} odd places, kept as they are" if len(group) > 1 else "1 odd place, kept as it is"
    return f"{column}: {many}, {shown}{more}."
