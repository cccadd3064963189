"""A first guess at the three windows: from the gas probe, else from a break in the difference, else none."""

from dataclasses import replace
from functools import lru_cache

import numpy as np

from kit.faults import Fault
from kit.records import Windows
from kit.statistics import display_step, find_breaks

# A room with people in it wanders by hundreds of ppm; a vessel that gets gas, by tens of thousands. Common practice, no source.
GAS_RISE_PPM, GAS_STARTED, SMOOTH_S = 3000, 0.02, 15.0
# Gas that was let in rises through 30 % of the way and stays there for most of the next minutes; a breath at the probe doesn't.
LOW, PLAIN, HIGH, STAYS, STAYS_S = 0.1, 0.3, 0.8, 0.8, 180.0
# A probe that takes longer than this from 30 to 80 % lags, or the gas comes in slowly: the baseline then ends so much earlier.
SLOW_S, SLOW_PROBE_S, BEFORE_BREAK_S = 90.0, 60.0, 20.0
# Where a break in the difference must lie about the gas to belong to it, seconds.
NEAR_S = (-240.0, 60.0)
# The gas needs a moment to arrive and the thermometer lags, so the difference breaks later than the gas goes in.
EARLIER_S, LATER_S = 45.0, 180.0
WINDOW_S, AFTER_S, FEWEST = 60.0, 600.0, 3
LEEWAY_MIN = 0.1  # a baseline may reach so far beyond the change's first sign
# Of several breaks the first that is at least this part of the largest counts; nearer than this to a plainer one it is that one's.
WORTHY, OWN_S, WITH_S = 0.25, 180.0, 90.0
NONE_FOUND = (
    "No change stands out in this record, by the gas probe or in the difference. "
    "If you know when the gas went in, give that minute: Windows.of_perturbation(11), say."
)
TOO_NEAR = "A change was found, but too near an end of the record for three windows. Record a minute before it, and several after."


def suggest_windows(run):
    """First guess of the `Windows` of a run: to be looked at, and moved.

    The change is taken from the gas channel, where gas comes and stays, else from a break in treated - control that is no knock and no swing
    (`kit.statistics.effect.breaks`). The baseline is the minute before it could have begun, the response the minute around 10 min after it, or the
    record's last minute if that comes first; a slow logger's windows are longer, so that each holds three readings. A Fault says so where no
    change stands out, where gas and difference change at different times, or where no room is left for a window.
    """
    gas = gas_course(run)
    breaks = _worthy(run)
    if gas is None:
        return _from_break(run, breaks)
    start_s, slow = gas
    near = [each for each in breaks if NEAR_S[0] <= each.at_s - start_s <= NEAR_S[1] + EARLIER_S or each.earliest_s <= start_s <= each.latest_s]
    if breaks and not near and all(each.latest_s < start_s for each in breaks):
        raise Fault(
            f"The gas probe rises at minute {start_s / 60:.1f}, but the difference takes a new course at minute {breaks[0].at_s / 60:.1f}, before that. "
            f"Which was it? Say so: Windows.of_perturbation({breaks[0].at_s / 60:.1f})."
        )
    if slow:
        start_s = max(min(start_s - SLOW_PROBE_S, *(each.earliest_s - BEFORE_BREAK_S for each in near), start_s), float(run.readings.index[0]))
    return _around(run, start_s, start_s + WINDOW_S + slow * SLOW_PROBE_S)


def change_of(run):
    """(start, end) in minutes of the change that a run shows, by the gas channel or by a break in the difference; None without one."""
    try:
        return suggest_windows(run).perturbation
    except Fault:
        return None


def misplaced(windows, change):
    """A sentence on the window that stands on the wrong side of `change` ((start, end) in minutes, or None); '' when all stand well."""
    if change is None:
        return ""
    if windows.baseline[1] > change[0] + LEEWAY_MIN:
        return "Your baseline reaches into the time after the gas went in."
    if windows.perturbation[0] > change[1] or windows.perturbation[1] < change[0]:
        return "Your perturbation window does not hold the moment the gas went in yet."
    return "Your response comes before the gas had time to act." if windows.response[0] < change[1] else ""


def gas_start(run):
    """When gas came in by the gas channel, in s of elapsed time; None without such a channel or a rise of 3,000 ppm in it that stays."""
    gas = gas_course(run)
    return None if gas is None else gas[0]


def gas_course(run):
    """(second at which gas came in, whether the channel rises slowly) by the gas channel; None without a rise of 3,000 ppm that stays."""
    gas = run.readings["gas_ppm"].dropna() if "gas_ppm" in run.readings else []
    if len(gas) < 2:
        return None
    seconds, values = gas.index.to_numpy(float), gas.to_numpy(float)
    base, top = np.median(values[: max(FEWEST, len(values) // 20)]), np.quantile(values, 0.97)
    if top - base < GAS_RISE_PPM:
        return None
    way = _smoothed(seconds, (values - base) / (top - base))
    plain = _stays(seconds, way)
    if plain is None:
        return None
    low = _last_below(way, plain, LOW)
    line_s = seconds[low] - (seconds[plain] - seconds[low]) * LOW / (PLAIN - LOW)
    started = seconds[_last_below((values - base) / (top - base), plain, GAS_STARTED)]
    high = np.flatnonzero((way >= HIGH) & (seconds >= seconds[plain]))
    slow = not len(high) or seconds[high[0]] - seconds[plain] > SLOW_S
    return max(float(started), float(line_s - run.step_s), float(seconds[0])), slow


def _smoothed(seconds, values):
    """The running median over about 15 s."""
    width = max(int(SMOOTH_S / np.median(np.diff(seconds))) // 2 * 2 + 1, 1)
    around = np.lib.stride_tricks.sliding_window_view(np.pad(values, width // 2, mode="edge"), width)
    return np.median(around, axis=1)


def _stays(seconds, way):
    """The place of the first rise through 30 % after which most of the next three minutes stay above it; None where there is none."""
    above = way >= PLAIN
    for place in np.flatnonzero(above & ~np.append(False, above[:-1])):
        after = above[place : np.searchsorted(seconds, seconds[place] + STAYS_S)]
        if after.mean() >= STAYS:
            return int(place)
    return None


def _last_below(way, place, level):
    """The last place before `place` at which `way` is below `level`; the first of all where it never is."""
    below = np.flatnonzero(way[:place] < level)
    return int(below[-1]) if len(below) else 0


@lru_cache(maxsize=4)  # a lesson asks at each rest of a hand, and the answer waits for it
def _worthy(run):
    """The breaks in the difference that may be the change, in order of time: no knocks, none much smaller than the largest, none at the end."""
    difference = run.difference().dropna()
    seconds = difference.index.to_numpy(float)
    if len(seconds) <= FEWEST:
        return ()
    coarsest = max(float(display_step(run.readings[name].dropna().to_numpy())) for name in ("treated", "control"))
    every, found = find_breaks(seconds, difference.to_numpy(), run.step_s, coarsest), []
    for each in every:
        # What a rise of one speed leaves over beside it is no break of its own.
        if not each.knock and all(abs(each.at_s - plainer.at_s) > OWN_S for plainer in found):
            # A knock just before came with the change, by a hand on the lamp, say: the baseline ends before both.
            knocks = [knock.earliest_s for knock in every if knock.knock and 0 <= each.at_s - knock.at_s < WITH_S]
            found.append(replace(each, earliest_s=min([each.earliest_s, *knocks])))
    largest = max((abs(each.size) for each in found), default=0.0)
    worthy = [each for each in found if abs(each.size) >= WORTHY * largest and each.at_s <= seconds[-1] - LATER_S]
    return tuple(sorted(worthy, key=lambda each: each.at_s))


def _from_break(run, breaks):
    if not breaks:
        raise Fault(NONE_FOUND)
    found = breaks[0]
    earliest = max(found.earliest_s - max(EARLIER_S, run.step_s), float(run.readings.index[0]))
    return _around(run, earliest, max(found.latest_s + run.step_s, earliest + WINDOW_S))


def _around(run, start_s, end_s):
    """Baseline before, perturbation from start to end, response 10 min after the start."""
    first, last = (float(run.readings.index[place]) for place in (0, -1))
    fewest_s = FEWEST * run.step_s
    width = max(WINDOW_S, fewest_s)
    response = min(start_s + AFTER_S - width / 2, last - width)
    if start_s - first < fewest_s or response <= start_s:
        raise Fault(TOO_NEAR)
    return Windows.of_seconds((max(start_s - width, first), start_s, start_s, min(end_s, response), response, response + width))
