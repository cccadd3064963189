"""What can be amiss with a placing of the windows, said before any number is read."""

import numpy as np

from kit.faults import Fault
from kit.words import clock, counted

FEWEST, NEARLY_ALL = 2, 0.8
MEANT = {"baseline": "the quiet time just before the change", "perturbation": "the change", "response": "the time of the result"}


def refuse_outside(run, windows):
    """Raise a Fault when the windows leave the record."""
    first, last = run.readings.index[[0, -1]]
    if windows.seconds[0] < first - 1e-3:
        raise Fault(f"The baseline starts before the record of {run.name} begins. Start it at 0 minutes or later.")
    if windows.seconds[-1] > last + 1e-3:
        raise Fault(f"The response ends at {clock(windows.seconds[-1])}, but the record of {run.name} ends at {clock(last)}. Move it back.")


def too_few(run, windows):
    """A sentence when baseline or response holds fewer than two readings of both vessels; '' when each holds enough."""
    seconds = run.readings.index.to_numpy()[run.difference().notna().to_numpy()]
    for name in ("baseline", "response"):
        start, end = (60 * edge for edge in getattr(windows, name))
        held = int(np.searchsorted(seconds, end + 1e-6, "right") - np.searchsorted(seconds, start - 1e-6))
        if held < FEWEST:
            return f"The {name} holds {counted(held, 'reading') if held else 'no reading'} of both vessels. Make it wider."
    return ""


def too_wide(run, windows):
    """A sentence when one window takes in nearly the whole record, so that it is not what its name says; '' when none does."""
    first, last = run.minutes[[0, -1]]
    for name, meant in MEANT.items():
        start, end = getattr(windows, name)
        if end - start > NEARLY_ALL * (last - first):
            return f"The {name} takes in nearly the whole record, not only {meant}. Make it narrower."
    return ""
