"""What a display's step hides: the smallest difference it can show, and the uncertainty that leaves in a mean."""

import numpy as np

# Conversions between units leave differences in the last bits of equal readings; no display steps this finely, in °C.
SAME_C = 1e-6


def display_step(readings):
    """The smallest difference of distinct readings (..., readings): (...,), in their unit. 0 where all are alike."""
    gaps = np.diff(np.sort(readings, axis=-1), axis=-1)
    np.copyto(gaps, np.inf, where=gaps <= SAME_C)
    smallest = gaps.min(axis=-1, initial=np.inf)
    return np.where(np.isfinite(smallest), smallest, 0.0)


def display_uncertainty(step):
    """Standard uncertainty of one reading of a display with that step: step / sqrt(12) (JCGM 100:2008, F.2.2.1)."""
    return step / np.sqrt(12)


def hidden_by_display(scatter, step):
    """What a display's `step` leaves in a mean of readings with standard deviation `scatter`, as a standard uncertainty. Arrays broadcast.

    Noise moves readings from step to step, so that their mean sees between the steps: what stays hidden is
    display_uncertainty(step) exp(-2 pi^2 max(0, scatter^2 - step^2 / 12) / step^2), the first term of the rounding error's
    Fourier series (Widrow and Kollar, Quantization Noise, 2008, from memory).
    """
    floor = np.maximum(step, SAME_C)
    moved = np.maximum(scatter**2 - floor**2 / 12, 0)
    return display_uncertainty(step) * np.exp(-2 * np.pi**2 * moved / floor**2)


def mean_uncertainty(readings, step):
    """What the display's `step` (...,) leaves in the mean of a window's `readings` (..., readings), as a standard uncertainty."""
    return hidden_by_display(readings.std(axis=-1, ddof=1 if readings.shape[-1] > 1 else 0), step)
