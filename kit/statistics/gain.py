"""The gain of a class between two sheets of the same questions, from its means."""

import numpy as np

from kit.estimate import Estimate
from kit.statistics.ranges import coverage_factor


def class_gain(before, after, level=0.95):
    """The `Estimate` of g = (Y - X) / (100 - X), without a unit: the share of what the class lacked before that it found afterwards.

    `before`, `after`: (learners,) scores in % of the same learners, in the same order; X and Y are their means. g: Hake, Am. J. Phys. 66:64
    (1998), as PhysPort's page on normalized gain cites it (read there, not in the paper). Taken from the means of the class: the mean of
    each learner's own g is biased where scores are rough (Navarrete and others 2024, abstract read).
    The range is g ± t·u with n - 1 degrees of freedom, u = sd(r) / √n, r = ((y - Y) - (1 - g)(x - X)) / (100 - X): the usual linear
    uncertainty of a function of two means (GUM 5.2), whose scores belong together in pairs. Not determined for fewer than two learners, for
    X = 100, and where all r are alike, for then they show no chance.
    """
    before, after = np.asarray(before, float), np.asarray(after, float)
    room = 100 - before.mean() if before.size else 0.0
    if before.size < 2 or room <= 0:
        return Estimate.undetermined("", level)
    gain = (after.mean() - before.mean()) / room
    left = ((after - after.mean()) - (1 - gain) * (before - before.mean())) / room
    error = left.std(ddof=1) / np.sqrt(before.size)
    if error < 1e-12:
        return Estimate(float(gain), np.inf, -np.inf, np.inf, level, "")
    return Estimate.from_error(float(gain), float(error), coverage_factor(level, before.size - 1), unit="", level=level)
