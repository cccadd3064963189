"""The least and the most that each cause can be, given what several runs showed: linear programming.

Unknown sizes s_c (°C, what each cause made in the gas run) lie within limits. In another run a cause makes between low and high times
its size, give or take a little. The parts of each run add up to its effect, anywhere in that effect's interval. Where a size may be
of either sign, the two cases are joined by their convex hull, so that all stays linear: the bounds hold, and are at worst a little wide.
"""

import numpy as np

LETTERS = "mdcabef"
# What each cause can make at all, °C: least and most over plausible benches, rounded outwards; f is common practice (no source).
LIMITS_C = {"m": (0, 6), "d": (0, 1.2), "c": (-0.1, 0.4), "a": (0, 0.6), "b": (-0.6, 0.1), "e": (-0.3, 0.1), "f": (-0.3, 0.3)}
COUNT = len(LETTERS)


def bounds(effects, ratios, limits=None):
    """(least, most, sizes): °C, each (causes,) in the order of `LETTERS`, and the sizes at which each end is reached, (2, causes, causes).

    `effects`: kind -> (low, high) in °C, 'gas' among them. `ratios`: kind -> (low, high, slack), arrays (causes,), without unit but the
    slack in °C. `limits`: letter -> (least, most). None where the runs contradict each other.
    """
    from scipy.optimize import linprog
    from scipy.sparse import block_diag

    rows, highest, free = _program(effects, ratios, limits or LIMITS_C)
    size = np.zeros((COUNT, rows.shape[1]))
    size[:, :COUNT], size[:, COUNT : 2 * COUNT] = np.eye(COUNT), -np.eye(COUNT)
    goals = np.vstack([size, -size])
    found = linprog(goals.ravel(), block_diag([rows] * len(goals)), np.tile(highest, len(goals)), bounds=free * len(goals))
    if found.status != 0:
        return None
    sizes = found.x.reshape(2, COUNT, -1) @ size.T
    ends = sizes[:, np.arange(COUNT), np.arange(COUNT)]
    return ends[0], ends[1], sizes


def _program(effects, ratios, limits):
    """(rows, highest, bounds): rows @ x <= highest. Of x the first are sizes above 0, sizes below 0 (as positive numbers), which of both
    (0 to 1), then what each cause makes in each further run."""
    others = [kind for kind in effects if kind != "gas"]
    least, most = (np.array([limits[letter][end] for letter in LETTERS], float) for end in (0, 1))
    width, one, none = COUNT * (3 + len(others)), np.eye(COUNT), np.zeros((COUNT, COUNT))
    above, below = np.maximum(most, 0), np.maximum(-least, 0)
    blocks = [(_row([one, none, -np.diag(above)], width), np.zeros(COUNT)), (_row([none, one, np.diag(below)], width), below)]
    total = _row([np.ones((1, COUNT)), -np.ones((1, COUNT))], width)
    blocks += _between(total, *effects["gas"])
    for place, kind in enumerate(others):
        low, high, slack = ratios[kind]
        made = np.zeros((COUNT, width))
        made[:, COUNT * (3 + place) : COUNT * (4 + place)] = one
        blocks += [
            (made - _row([np.diag(high), -np.diag(low)], width), slack),
            (_row([np.diag(low), -np.diag(high)], width) - made, slack),
            *_between(made.sum(0, keepdims=True), *effects[kind]),
        ]
    free = [(0, None)] * (2 * COUNT) + [(0, 1)] * COUNT + [(None, None)] * (COUNT * len(others))
    return np.vstack([rows for rows, _ in blocks]), np.concatenate([highest for _, highest in blocks]), free


def _row(parts, width):
    given = np.hstack(parts)
    return np.hstack([given, np.zeros((len(given), width - given.shape[1]))])


def _between(total, low, high):
    return [(total, np.array([high])), (-total, np.array([-low]))]
