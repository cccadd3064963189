"""The two levels that a learner sees on the difference: before, and after."""

import numpy as np

from kit.faults import Fault


def difference_levels(run, windows):
    """Mean of treated - control in the baseline and in the response, °C. The second minus the first is the extra warming.

    Both ends of a window belong to it. A Fault when a window holds no reading of both vessels.
    """
    difference = run.difference()
    return tuple(level(difference, name, getattr(windows, name)) for name in ("baseline", "response"))


def level(difference, name, window):
    start, end = (60 * edge for edge in window)
    inside = difference.loc[start - 1e-6 : end + 1e-6].to_numpy()
    if not np.isfinite(inside).any():
        raise Fault(f"The {name} holds no reading of both vessels. Make it wider, or move it.")
    return float(np.nanmean(inside))
