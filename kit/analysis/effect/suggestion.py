"""A first guess at the three windows: from the gas probe, else from a break in the difference, else none."""

import numpy as np

from kit.faults import Fault
from kit.records import Windows
from kit.statistics import display_step, find_break

# A room with people in it wanders by hundreds of ppm; a vessel that gets gas, by tens of thousands. Common practice, no source.
GAS_RISE_PPM, GAS_STARTED = 3000, 0.02
# The gas needs a moment to arrive and the thermometer lags, so the difference breaks later than the gas goes in.
EARLIER_S = 45.0
WINDOW_S, AFTER_S, FEWEST = 60.0, 600.0, 3
LEEWAY_MIN = 0.1  # a baseline may reach so far beyond the change's first sign
NONE_FOUND = (
    "No change stands out in this record, by the gas probe or in the difference. "
    "If you know when the gas went in, give that minute: Windows.of_perturbation(11), say."
)
TOO_NEAR = "A change was found, but too near an end of the record for three windows. Record a minute before it, and several after."


def suggest_windows(run):
    """First guess of the `Windows` of a run: to be looked at, and moved.

    The change is taken from the gas channel, else from a break in treated - control (`kit.statistics.breaks`). The baseline is the
    minute before it could have begun, the response the minute around 10 min after it, or the record's last minute if that comes
    first; a slow logger's windows are longer, so that each holds three readings. A Fault says so where no change stands out, or
    where no room is left for a window.
    """
    start_s = gas_start(run)
    return _around(run, start_s, start_s + WINDOW_S) if start_s is not None else _from_break(run)


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
    """When gas came in by the gas channel, in s of elapsed time; None without such a channel or a rise of 3,000 ppm in it."""
    gas = run.readings["gas_ppm"].dropna() if "gas_ppm" in run.readings else []
    if len(gas) < 2:
        return None
    before, top = gas.iloc[: max(FEWEST, len(gas) // 20)].median(), gas.quantile(0.97)
    if top - before < GAS_RISE_PPM:
        return None
    risen = (gas > before + GAS_STARTED * (top - before)).to_numpy()
    first = int(np.argmax(risen & np.append(risen[1:], True)))
    return float(gas.index[max(first - 1, 0)])


def _from_break(run):
    difference = run.difference().dropna()
    seconds = difference.index.to_numpy(float)
    coarsest = max(float(display_step(run.readings[name].dropna().to_numpy())) for name in ("treated", "control"))
    found = find_break(seconds, difference.to_numpy(), run.step_s, coarsest) if len(seconds) > FEWEST else None
    if found is None:
        raise Fault(NONE_FOUND)
    earliest = max(found.earliest_s - max(EARLIER_S, run.step_s), seconds[0])
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
