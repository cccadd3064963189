"""Readings that share one time, since the clock shows it more coarsely than they come: they lie evenly up to the next one."""

from dataclasses import replace

import numpy as np

from kit.faults import Choice
from kit.words import counted

COARSEST_S = 60.0  # between two stamps: readings of one stamp are spread over no longer time without asking


def apart(table, clock, asked):
    """Readings that share a stamp lie evenly up to the next one: the stamp is coarser than the readings."""
    stamps, group, counts = np.unique(clock.seconds, return_inverse=True, return_counts=True)
    if len(stamps) == len(group):
        return table, clock
    usual = int(lower_median(counts[1:-1] if len(counts) > 3 else counts))
    starts = np.cumsum(counts) - counts
    if len(stamps) < 2:
        do = "Say how often the readings came, clock='every 2 s', or time= with another column."
        raise table.fault(f"All {len(group)} lines have one and the same time.", do, keyword="clock")
    unit, ahead, still = np.diff(stamps).min(), np.diff(stamps, append=stamps[-1]), counts > max(3, 1.5 * usual + 1)
    if still.any() or unit > COARSEST_S:
        refuse_shared(table, stamps, counts, still, asked)
    gaps = np.where(still, ahead, unit) / np.maximum(counts, usual)
    within = np.arange(len(group)) - starts[group] + np.where(group == 0, max(usual - counts[0], 0), 0)
    shared = int((counts - 1).sum())
    first = table.lines[starts[counts > 1][0] + 1]
    how = "up to the next time" if still.any() else f"within {unit:g} s"
    remark = f"{counted(shared, 'line')} with the time of the line before, first line {first}: placed evenly {how}."
    return table.said(remark), replace(clock, seconds=np.round(stamps[group] + within * gaps[group], 6))


def refuse_shared(table, stamps, counts, still, asked):
    """A fault where more lines than usual, or lines over a long time, share one stamp, unless the caller says that they lie evenly."""
    if still[-1]:
        what = f"The time stands still for {counts[-1]} lines from here, up to the end."
        raise table.fault(what, "Say time= with another column, or correct it in a copy.", row=len(table.lines) - counts[-1], keyword="time")
    if "spread evenly" not in asked.clocks:
        most = counts.argmax()
        behind = f"the next time is {stamps[most + 1] - stamps[most]:g} s later" if most + 1 < len(stamps) else "no other time follows"
        what = f"{counts[most]} lines share one time from here, and {behind}."
        choices = [Choice("spread evenly", "the lines lie evenly between two times")]
        raise table.fault(what, "Or say time= with another column.", row=counts[:most].sum(), keyword="clock", choices=choices)


def lower_median(values):
    """The middle one; of two middle ones the lower, so that one pause among few steps is not the usual step."""
    return np.sort(values)[(len(values) - 1) // 2]
