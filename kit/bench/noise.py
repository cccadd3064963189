"""What a thermometer adds to a temperature: wander that neighbouring readings share, white noise, and the display's step."""

import numpy as np


def wander(rng, times_s, sd_c, correlation_s, runs=()):
    """Autocorrelated noise in °C at `times_s` (seconds, ascending, any spacing): shape `runs` + (readings,).

    An Ornstein-Uhlenbeck process: its standard deviation is `sd_c`, and readings Δ seconds apart correlate by exp(-Δ / correlation_s);
    a `correlation_s` of 0 gives white noise. Exact at any spacing (Gillespie, Phys. Rev. E 54:2084, 1996, from memory).
    """
    fresh = rng.standard_normal((*np.atleast_1d(np.array(runs, int)), len(times_s)))
    if correlation_s == 0:
        return sd_c * fresh
    kept = np.exp(-np.diff(times_s) / correlation_s)
    for i, share in enumerate(kept, start=1):
        fresh[..., i] = share * fresh[..., i - 1] + np.sqrt(1 - share**2) * fresh[..., i]
    return sd_c * fresh


def displayed(values_c, step_c):
    """Values in °C as a display with that step shows them (step 0: unchanged)."""
    return np.round(np.asarray(values_c) / step_c) * step_c if step_c else np.asarray(values_c)
