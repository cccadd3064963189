"""What can be amiss with a placing of the windows, said before any number is read."""

import numpy as np

from kit.faults import Fault
from kit.records.windows import NAMES
from kit.words import clock, counted

FEWEST = 2


def refuse_outside(run, windows):
    """Raise a Fault when the windows leave the record."""
    first, last = run.readings.index[[0, -1]]
    if windows.seconds[0] < first - 1e-3:
        raise Fault(f"The baseline starts before the record of {run.name} begins. Start it at 0 minutes or later.")
    if windows.seconds[-1] > last + 1e-3:
        raise Fault(f"The response ends at {clock(windows.seconds[-1])}, but the record of {run.name} ends at {clock(last)}. Move it back.")


def too_few(run, windows):
    """A sentence for the first window in which fewer than two readings of both vessels lie; '' when each holds enough."""
    seconds = run.readings.index.to_numpy()[run.difference().notna().to_numpy()]
    edges = np.reshape(windows.seconds, (3, 2)) + [-1e-6, 1e-6]
    for name, (start, end) in zip(NAMES, edges):
        held = int(np.searchsorted(seconds, end, "right") - np.searchsorted(seconds, start))
        if held < FEWEST:
            return f"The {name} holds {counted(held, 'reading') if held else 'no reading'} of both vessels. Make it wider."
    return ""
