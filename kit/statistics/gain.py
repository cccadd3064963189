"""The gain of a class between two sheets of the same questions, from its means."""

import numpy as np

from kit.estimate import Estimate
from kit.statistics.ranges import coverage_factor


def class_gain(before, after, level=0.95):
    """The `Estimate` of g = (Y - X) / (100 - X), without a unit: the share of what the class lacked before that it found afterwards.

    `before`, `after`: (learners,) scores in % of the same learners, in the same order; X and Y are their means. g: Hake, Am. J. Phys. 66:64
    (1998), as PhysPort's page on normalized gain cites it (read there, not in the paper). Taken from the means of the class: the mean of
    each learner's own g is biased where scores are rough (Navarrete and others 2024, abstract read).
    1 - g = B / A is a ratio of two means, of what was missed after (B) and before (A). Such a ratio is lopsided where little was missed, its
    logarithm hardly; so the range is 1 - (B / A)·exp(±t·u), as is usual for a ratio of two shares (Katz and others, Biometrics 34:469, 1978,
    from memory). u = sd(b/B - a/A) / √n of the learners' a and b, which belong together in pairs (GUM 5.2), and t has n - 1 degrees of freedom.
    The range is not determined for fewer than two learners, for A or B of 0, and where all b/B - a/A are alike, for then they show no chance.
    """
    missed = 100 - np.asarray([before, after], float)
    means = missed.mean(1, keepdims=True) if missed.size else np.zeros((2, 1))
    if missed.shape[1] < 2 or means[0] <= 0:
        return Estimate.undetermined("", level)
    left = float(means[1, 0] / means[0, 0])
    before_share, after_share = missed / means if left else missed
    error = (after_share - before_share).std(ddof=1) / np.sqrt(missed.shape[1])
    if not left or error < 1e-12:
        return Estimate(1 - left, np.inf, -np.inf, np.inf, level, "")
    reach = np.exp(coverage_factor(level, missed.shape[1] - 1) * error)
    return Estimate(1 - left, left * float(error), float(1 - left * reach), float(1 - left / reach), level, "")
