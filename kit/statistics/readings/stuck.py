"""A thermometer that shows one value: stuck, or only a coarse display on a quiet day? Three things tell, and where none does, nobody can."""

from dataclasses import dataclass

import numpy as np

from kit.statistics.readings.display import display_step

LONG_S, FEWEST, ENOUGH = 60.0, 10, 20
# Found on simulated runs: 57 kinds of healthy ones, displays of 0.1 and 0.5 °C, and 14 kinds of stuck ones.
NOISE_STEPS, MOVED_STEPS, JUMP_STEPS, TIMES_THE_NEXT = 0.6, 3.0, 3.0, 4.0
BLOCK_S, MEAN_S = 60.0, 30.0


@dataclass(frozen=True)
class Still:
    """A stretch of one `value` (°C) in the vessel at `place` (0 treated, 1 control), readings `first` to `last` (not counted). `told_by`:
    'noise' (readings scatter elsewhere), 'other' (the other vessel moved meanwhile), 'jump' (it begins or ends with one), None: it may
    be a healthy probe with a coarse display."""

    place: int
    first: int
    last: int
    value: float
    told_by: str | None


def still_stretches(seconds, vessels, change_s):
    """All `Still` stretches of 60 s and 10 readings or more in `vessels` (2, readings), °C, at `seconds`; the change came at `change_s`."""
    found = [(place, *ends) for place, vessel in enumerate(vessels) for ends in _stretches(seconds, vessel)]
    if not found:
        return ()
    steps = [float(display_step(vessel)) for vessel in vessels]
    steps = [own or other for own, other in zip(steps, steps[::-1])]
    return tuple(
        Still(place, first, last, float(vessels[place][first]), _told_by(seconds, vessels, steps, (place, first, last), change_s))
        for place, first, last in found
    )


def _stretches(seconds, vessel):
    """(first, last) of each stretch of one value, long enough."""
    borders = np.flatnonzero(np.diff(vessel)) + 1
    firsts, lasts = np.concatenate([[0], borders]), np.concatenate([borders, [len(vessel)]])
    long = (lasts - firsts >= FEWEST) & (seconds[lasts - 1] - seconds[firsts] >= LONG_S)
    return list(zip(firsts[long].tolist(), lasts[long].tolist()))


def _told_by(seconds, vessels, steps, stretch, change_s):
    place, first, last = stretch
    own, other = vessels[place], vessels[1 - place]
    step, coarser = steps[place], max(steps)
    if last - first >= ENOUGH and _scatter(seconds, own, other, steps, stretch) > NOISE_STEPS * step:
        return "noise"
    end = min(last, int(np.searchsorted(seconds, change_s))) if place == 1 else last
    if _moved(seconds[first:end], other[first:end]) > MOVED_STEPS * coarser:
        return "other"
    return "jump" if _jumped(own, first, step) or _jumped(own[::-1], len(own) - last, step) else None


def _scatter(seconds, own, other, steps, stretch):
    """The usual standard deviation about a line within a minute, outside the stretch; of the other vessel where there is no outside."""
    place, first, last = stretch
    outside = np.r_[0:first, last:len(own)]
    if len(outside) >= FEWEST:
        return _about_lines(seconds[outside], own[outside])
    return _about_lines(seconds, other) if 0 < steps[1 - place] <= steps[place] and np.ptp(other) > 0 else 0.0


def _about_lines(seconds, values):
    block = ((seconds - seconds[0]) // BLOCK_S).astype(int)
    sizes = []
    for each in np.unique(block):
        x, y = seconds[block == each], values[block == each]
        if len(x) > 3:
            x = x - x.mean()
            left = y - y.mean() - x * (x @ y) / (x @ x)
            sizes.append(np.sqrt(left @ left / (len(x) - 2)))
    return float(np.median(sizes)) if sizes else 0.0


def _moved(seconds, values):
    """From the lowest to the highest of the means of half a minute."""
    if len(seconds) < 2:
        return 0.0
    block = ((seconds - seconds[0]) // MEAN_S).astype(int)
    counts = np.bincount(block)
    return float(np.ptp((np.bincount(block, values) / np.maximum(counts, 1))[counts > 0]))


def _jumped(values, first, step):
    """Does the stretch begin at `first` with a jump that its neighbours don't make?"""
    if first < 1:
        return False
    jump, before = abs(values[first] - values[first - 1]), np.abs(np.diff(values[max(first - 4, 0) : first]))
    return bool(len(before)) and jump > JUMP_STEPS * step and jump > TIMES_THE_NEXT * before.max() + step
