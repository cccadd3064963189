"""Numbers that count on, as a clock without a name does."""

import numpy as np


def starts_anew(values):
    """Do these count up evenly, other than by ones, but for a few steps back to about their beginning?"""
    steps = np.diff(values)
    back = steps < 0
    usual = np.median(steps)
    return usual > 1 and bool(back.any() and (values[1:][back] <= usual).all() and counts_up(steps[~back]) and back.mean() <= 0.1)


def counts_up(steps):
    """Are nearly all steps up by about the same?"""
    usual = np.median(steps)
    return usual > 0 and bool((steps > 0).all() and (np.abs(steps - usual) <= usual / 2).mean() >= 0.9)
