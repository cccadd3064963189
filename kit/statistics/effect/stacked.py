"""Thousands of paired effects at once: runs stacked on one time grid, in blocks, on as many workers as are passed in."""

from dataclasses import fields
from functools import partial

import numpy as np

from kit.faults import Fault
from kit.statistics.effect.paired import effects_of, PairedEffects, Terms
from kit.statistics.readings import heard, lay_out, within

# Large enough that what a block's times settle costs nothing, small enough to share out and to stay in memory.
BLOCK = 2048


def stacked_effects(seconds, treated, control, edges_s, question=Terms(), executor=None):
    """`PairedEffects` of many runs: `treated` and `control` (runs, readings) in °C at the same `seconds` (readings,), none missing.

    `edges_s`: the six edges of baseline, perturbation and response in seconds. Each run gets what `paired_effects` gives it alone. Time and
    memory grow in proportion to the runs. `executor`: anything with the `map` of `concurrent.futures` (dask's too); None: this process.
    A Fault for shapes that do not fit, readings that are missing, or windows without readings.
    """
    refuse_stack(seconds, treated, control, edges_s)
    kept, starts = heard(seconds, edges_s), range(0, len(treated), BLOCK)
    work = partial(effects_of, lay_out(seconds[kept], edges_s), question=question)
    blocks = (executor.map if executor else map)(work, *([each[start : start + BLOCK, kept] for start in starts] for each in (treated, control)))
    return joined_effects(list(blocks))


def joined_effects(blocks):
    """One `PairedEffects` from several."""
    return PairedEffects(**{each.name: np.concatenate([getattr(block, each.name) for block in blocks]) for each in fields(PairedEffects)})


def refuse_stack(seconds, treated, control, edges_s):
    """Raise a Fault unless `stacked_effects` can work with these."""
    if treated.shape != control.shape or treated.ndim != 2 or treated.shape[1] != len(seconds) or not len(treated):
        raise Fault(f"Give treated and control as (runs, readings) at {len(seconds)} times. They are {treated.shape} and {control.shape}.")
    if not (np.isfinite(treated).all() and np.isfinite(control).all()):
        raise Fault("A stack can't hold missing or infinite readings. Use paired_effect for runs that have some.")
    if not (np.diff(seconds) > 0).all():
        raise Fault("The times of a stack must run forward, each once.")
    for name, pair in (("baseline", edges_s[:2]), ("response", edges_s[4:])):
        first, end = within(seconds, *pair)
        if first == end:
            raise Fault(f"The {name} holds no reading. Make it wider, or move it.")
