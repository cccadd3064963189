"""Which readings an effect may use, what windows won't do, and when a record can give no number."""

from dataclasses import dataclass

import numpy as np

from kit.estimate import rounded
from kit.faults import Fault
from kit.statistics import heard, lay_out, Layout, still_stretches, within
from kit.units import reading
from kit.words import counted

FEWEST_DOF = 3
NO_READING = "The {} holds no reading of both vessels. Make it wider, or move it."


@dataclass(frozen=True, eq=False)
class Record:
    """The readings that an effect counts. `seconds` (n,), `vessels` (2, n) treated and control in °C, the `layout` that their times and
    the windows give, and how many times of the whole run are `missing` a vessel."""

    seconds: np.ndarray
    vessels: np.ndarray
    layout: Layout
    missing: int


def record_of(run, windows):
    """The `Record` of `run`. A Fault where it lacks readings of both vessels, or where the windows won't do."""
    seconds, vessels = both_vessels(run)
    refuse_windows(seconds, windows)
    kept = heard(seconds, windows.seconds)
    return Record(seconds[kept], vessels[:, kept], lay_out(seconds[kept], windows.seconds), len(run.readings) - len(seconds))


def both_vessels(run):
    """Seconds (n,) and temperatures of treated and control (2, n), °C, where both were read. A Fault where that is fewer than two times."""
    seconds = run.readings.index.to_numpy(float)
    vessels = np.stack([run.readings[name].to_numpy(float) for name in ("treated", "control")])
    read = np.isfinite(vessels).all(axis=0)
    if read.all():
        return seconds, vessels
    if read.sum() < 2:
        raise Fault(f"The run {run.name} has {counted(int(read.sum()), 'time')} at which both vessels were read. At least two are needed.")
    return seconds[read], vessels[:, read]


def refuse_windows(seconds, windows):
    """Raise a Fault unless each window lies in the record and baseline and response hold a reading of both vessels."""
    step = float(np.median(np.diff(seconds)))
    for name, end in (("baseline", "starts"), ("response", "ends")):
        start_s, end_s = (60 * edge for edge in getattr(windows, name))
        if start_s < seconds[0] - step or end_s > seconds[-1] + step:
            raise Fault(
                f"The {name}, {_minutes(start_s)} to {_minutes(end_s)} min, lies outside the record, which runs "
                f"from {_minutes(seconds[0])} to {_minutes(seconds[-1])} min. "
                f"Move the {name} so that it {end} inside."
            )
        first, last = within(seconds, start_s, end_s)
        if first == last:
            raise Fault(NO_READING.format(name))


def refuse_question(question):
    """Raise a Fault for a level, tolerance, gain uncertainty or display step that can't be."""
    if not 0 < question.level < 1:
        raise Fault(f"The level is the share of ranges that hold the truth, between 0 and 1: 0.95, say. It was given {question.level!r}.")
    for name in ("tolerance_c_per_min", "gain_uncertainty", "resolution_c"):
        value = getattr(question, name)
        if value is not None and not 0 <= value < np.inf:
            raise Fault(f"{name} can't be {value!r}. Give zero or a positive number.")


def why_no_number(record):
    """Why a `Record` can give no number, in a sentence; None where it can."""
    layout, vessels = record.layout, record.vessels
    dof = len(layout.cells.times_s) - layout.designs.shape[2] - 1
    if dof < FEWEST_DOF:
        return f"The record holds {counted(vessels.shape[1], 'reading')}: too few to see how much they scatter. Read more often, or for longer."
    stuck = why_stuck(record.seconds, vessels, layout.change_s)
    if stuck:
        return stuck
    if np.ptp(vessels[0] - vessels[1]) == 0:
        return "Treated and control never differ by more or less. Check that they are not one column read twice."
    return None


TOLD_BY = {
    "noise": "although its readings scatter at other times",
    "other": "although the other vessel changed meanwhile",
    "jump": "and it jumps there",
}


def why_stuck(seconds, vessels, change_s):
    """Which thermometer surely stands still, and how that shows, in a sentence; None where none does."""
    found = still_stretches(seconds, vessels, change_s)
    told = [each for each in found if each.told_by]
    if told:
        still = max(told, key=lambda each: each.last - each.first)
        name, (start, end) = ("treated", "control")[still.place], seconds[[still.first, still.last - 1]]
        whole = still.told_by == "noise" and still.last - still.first == len(seconds)
        why = "although the readings of the other one scatter" if whole else TOLD_BY[still.told_by]
        return (
            f"The {name} thermometer shows {reading(still.value)} and nothing else from minute {_minutes(start)} to {_minutes(end)}, {why}: "
            "stuck, perhaps. Check the probe and its cable, then run again."
        )
    if (np.ptp(vessels, axis=1) == 0).all():
        return "Both thermometers show one value all the time: their display is too coarse for this, or both are stuck. Use a finer display."
    return None


def _minutes(seconds):
    return rounded(seconds / 60, 1)
