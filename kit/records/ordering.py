"""Times that run forward from 0."""

import numpy as np

from kit.faults import IntakeFault
from kit.words import counted


def put_in_order(table, place, asked):
    """Drop rows without a time, refuse what doesn't run forward, and start at 0."""
    seconds = table.columns[place].values
    kept = np.isfinite(seconds)
    if not kept.all():
        first = table.lines[~kept][0]
        table = table.rows(kept).said(f"Left out {counted(int((~kept).sum()), 'line')} without a time, first line {first}.")
        seconds = seconds[kept]
    if len(seconds) < 2:
        raise IntakeFault(f"This record holds {counted(len(seconds), 'reading')} with a time.", "At least two are needed.", file=table.file)
    back = np.flatnonzero(np.diff(seconds) <= 0)
    if back.size:
        line = int(table.lines[back[0] + 1])
        raise IntakeFault("The time does not run forward here.", "Correct it in a copy of the file.", file=table.file, line=line, column=repr(table.columns[place].header))
    start = seconds[0]
    return table.with_column(place, values=seconds if start == 0 else np.round(seconds - start, 9))
