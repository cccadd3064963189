"""What the gas of a class does to the air of a room, beside published limits."""

from dataclasses import dataclass

import numpy as np

from kit.physics.checking import bounded

BREATH_L_S = (0.0043, 0.005)  # CO2 from one seated person, litres a second (from memory: ASTM D6245, EN 16798-1)


@dataclass(frozen=True)
class Limit:
    """A published limit for CO2 in the air people breathe at work: ppm by volume, over which time, and by whom."""

    ppm: float
    over: str
    by: str


# As public summaries of OSHA and NIOSH repeat them; the EU's directive from memory. Local rules decide.
LIMITS = (
    Limit(5_000, "mean of 8 hours", "OSHA (29 CFR 1910.1000), NIOSH, EU directive 2006/15/EC"),
    Limit(30_000, "15 minutes", "NIOSH"),
    Limit(40_000, "at once dangerous to life", "NIOSH"),
)


def room_added_ppm(gas_l, room_m3):
    """ppm of CO2 that litres of gas add to a room of m3 if all of it escapes, mixes and nothing is ventilated: an upper limit.

    Ratio of volumes (definition of ppm by volume). Near the vessel's mouth the share is far higher.
    """
    litres = bounded(gas_l, "The gas", 0, np.inf, "L")
    return 1e6 * litres / 1000 / bounded(room_m3, "The room", 1, np.inf, "m3")


def breath_ppm_per_min(people, room_m3):
    """Least and most ppm a minute (a pair) that breathing people add to a closed room of m3, to compare with.

    0.0043 to 0.005 L/s of CO2 a seated person (from memory: ASTM D6245, EN 16798-1).
    """
    crowd = bounded(people, "The number of people", 0, np.inf)
    return tuple(room_added_ppm(crowd * rate * 60, room_m3) for rate in BREATH_L_S)
