"""The curve that is taken out of a record before its noise is read: a level, a drift, and a rise of any speed after the change."""

import numpy as np

TIME_CONSTANTS_S = np.array([15.0, 45.0, 135.0, 405.0])
SETTLING_TIMES_S = np.array([80.0, 160.0, 320.0])
DELAYS_S = np.arange(0.0, 61.0, 5.0)
# A drift of its own is fitted only where it can be seen before the change.
DRIFT_SEEN_FROM_S = 180.0
FEW_CELLS = 30


def rising_trends(times_s, change_s, step_s):
    """Designs for a rise that begins some seconds after `change_s`, one for each delay tried: (delays, cells, terms).

    Terms: 1, minutes if the record begins 3 minutes or more before the change, and 1 - exp(-t / T) for some T. One rise of one
    speed is too stiff: what it leaves over would pass for slow noise. `times_s` (cells,) in seconds.
    """
    return _terms(times_s, times_s, change_s, step_s, _delays(times_s, change_s))


def trend_at(at_s, trend, times_s, change_s, step_s):
    """The terms of one of these designs, the `trend`-th, at any seconds `at_s` (n,): (n, terms)."""
    return _terms(np.asarray(at_s, float), times_s, change_s, step_s, _delays(times_s, change_s)[[trend]])[0]


def _delays(times_s, change_s):
    return DELAYS_S[DELAYS_S <= (times_s[-1] - change_s) / 3]


def _terms(at_s, times_s, change_s, step_s, delays):
    since = np.maximum(at_s - change_s - delays[:, None], 0)
    rises = 1 - np.exp(-since[:, :, None] / rise_times(times_s, step_s))
    level = np.ones_like(since)[:, :, None]
    if change_s - times_s[0] < DRIFT_SEEN_FROM_S:
        return np.concatenate([level, rises], axis=2)
    drift = np.broadcast_to((at_s[:, None] - change_s) / 60, level.shape)
    return np.concatenate([level, drift, rises], axis=2)


def settling_trends(times_s, designs):
    """`designs` (delays, cells, terms) with the terms that one vessel alone needs: it still warms, at any speed, from the record's start."""
    times = SETTLING_TIMES_S[:: 2 if len(times_s) < FEW_CELLS else 1]
    settling = np.exp(-(times_s - times_s[0])[:, None] / times)
    return np.concatenate([designs, np.broadcast_to(settling, (len(designs), *settling.shape))], axis=2)


def rise_times(times_s, step_s):
    """Which time constants a record read every `step_s` seconds can tell apart, in seconds."""
    told_apart = TIME_CONSTANTS_S[TIME_CONSTANTS_S > step_s / 2]
    return told_apart[:: 2 if len(times_s) < FEW_CELLS else 1]


def best_trend(designs, values):
    """For each run of `values` (cells, runs), which of `designs` (delays, cells, terms) leaves the smallest squares: (runs,)."""
    directions = np.linalg.qr(designs)[0].transpose(0, 2, 1)
    taken = directions.reshape(-1, len(values)) @ values
    return (taken**2).reshape(len(designs), -1, values.shape[1]).sum(1).argmax(0)
