"""Two runs laid over each other: what each difference did since its change, and the gap between them."""

import numpy as np
import pandas as pd

from kit.analysis.basis import both_vessels
from kit.statistics import cut

POINTS = 240


def overlay(mine, reference):
    """Minutes since the change, with `mine` and `reference` (treated − control above its baseline, °C) and the `gap` between them.

    A DataFrame of about 240 rows over the time that both records share; None where one side has no single run. The reference is read
    between its own means where the clocks tick differently.
    """
    if not all(hasattr(side, "run") and hasattr(side, "windows") for side in (mine, reference)):
        return None
    (minutes, height), (other_minutes, other_height) = (since_change(side) for side in (mine, reference))
    shared = (minutes >= other_minutes[0]) & (minutes <= other_minutes[-1])
    laid = np.interp(minutes[shared], other_minutes, other_height)
    return pd.DataFrame(
        {"mine": height[shared], "reference": laid, "gap": height[shared] - laid}, index=pd.Index(minutes[shared], name="minutes")
    )


def since_change(side):
    """(minutes since the change, treated − control above the baseline's mean in °C) of a result's run, in cells."""
    seconds, vessels = both_vessels(side.run)
    start_s, end_s, change_s, _, _, last_s = side.windows.seconds
    kept = (seconds >= start_s) & (seconds <= last_s)
    seconds, difference = seconds[kept], vessels[0, kept] - vessels[1, kept]
    cells = cut(seconds, (), max(float(np.median(np.diff(seconds))), (seconds[-1] - seconds[0]) / POINTS))
    level = difference[seconds <= end_s].mean()
    return (cells.times_s - change_s) / 60, cells.means(difference) - level
