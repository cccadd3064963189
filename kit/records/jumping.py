"""Steps and bumps of one thermometer that no vessel makes: away within one reading, and back much later or not at all.

A probe that slips out of its vessel does so, a lead that is plugged in anew, a hand at the glass. That such a change is alone tells it from
a vessel that warms: there the readings before or after it move, too. The limits are common practice, no source.
"""

import numpy as np

ALONE, BESIDE = 5, 5  # how many steps on either side are looked at, and how many times smaller they must be
LEAST_BESIDE, STUCK = 3, 10
BUMP_S = 300  # as long as a change and its way back are one bump
GAP_STEPS, QUICK_S = 2.5, 15  # no longer may pass meanwhile: in a minute a vessel can warm by much


def lonely(rows, steps, times):
    """Those of the `rows` whose step stands alone and was quick, with no gap in the record there."""
    longest = min(QUICK_S, GAP_STEPS * np.median(np.diff(times))) if len(rows) else 0
    return [row for row in rows if times[row + 1] - times[row] <= longest and is_lonely(row, steps)]


def is_lonely(row, steps):
    before, after = steps[max(0, row - ALONE) : row], steps[row + 1 : row + 1 + ALONE]
    still = not steps[max(0, row - STUCK) : row].any() or not steps[row + 1 : row + 1 + STUCK].any()
    if still or min(len(before), len(after)) < LEAST_BESIDE:
        return False  # the sensor stands still beside it, which is told as such; or an end is too near to tell
    return bool(BESIDE * max(np.abs(before).max(), np.abs(after).max()) < abs(steps[row]))


def jumps(rows, steps, times):
    """(kind, first row, last row, size) of each bump ('bump') and step ('step') in these `rows`; a step lasts to the end of the record."""
    found, past = [], -1
    for place, row in enumerate(rows):
        if row <= past:
            continue
        back = next((other for other in rows[place + 1 :] if returns(steps[row], steps[other]) and times[other] - times[row] <= BUMP_S), None)
        past = row if back is None else back
        kind, last = ("step", len(times) - 1) if back is None else ("bump", back)
        found.append((kind, row + 1, last, float(steps[row])))
    return found


def returns(away, back):
    """Does the second change undo the first, by more than half and not by much more?"""
    return away * back < 0 and abs(away + back) < abs(away) / 2
