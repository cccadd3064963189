"""The vessel under its lamp in a straight line: mouth and wall pass heat in proportion. Stands in until the physics has a mouth of its own."""

from dataclasses import dataclass
from math import sqrt

import numpy as np


@dataclass(frozen=True, eq=False)
class Lit:
    """Rise of the air over the room (K) and watts out at `times_s`; the level (K), and when 95 % of it is reached (s)."""

    times_s: np.ndarray
    gas_k: np.ndarray
    in_w: float
    through_wall_w: np.ndarray
    through_mouth_w: np.ndarray
    level_k: float
    nearly_s: float


def lamp_lit(vessel, mouth_m, gas_w, wall_w, until_s):
    """`Lit` for a linear vessel whose mouth passes what Epstein's orifice passes at the level (J. Heat Transfer 110:885, 1988)."""
    inside, outside, through = vessel.gas_to_wall_w_per_k, vessel.wall_to_room_w_per_k, 0.0
    for _ in range(30):
        balance = np.array([[-inside - through, inside], [inside, -inside - outside]])
        level = -np.linalg.solve(balance, [gas_w, wall_w])
        through = 0.055 * 1200 * sqrt(9.81 * level[0] / 300 * mouth_m**5)
    rates, modes = np.linalg.eig(balance / np.array([[vessel.gas_j_per_k], [vessel.wall_j_per_k]]))
    times_s = np.linspace(0, until_s, 301)
    gas, wall = level[:, None] + modes @ (np.linalg.solve(modes, -level)[:, None] * np.exp(np.outer(rates, times_s)))
    return Lit(times_s, gas, gas_w + wall_w, outside * wall, through * gas, float(level[0]), float(np.interp(0.95 * level[0], gas, times_s)))
