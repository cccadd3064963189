"""A planet's balance: what comes in, what leaves by the one way out, and the temperature at which they are alike."""

from functools import lru_cache

import numpy as np

from kit.analysis.planet import planet_warming
from kit.estimate import rounded
from kit.physics import exitance_w_m2, planet, ZERO_C_K
from kit.units import temperature
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, Pick, View, line, rows, script, sheet

HELP = "First say which way out a planet has. Then pull sunlight, reflected share, air and CO2. Arrow keys work, too."
COLDEST_C, HOTTEST_C = -60, 60
SURFACE_C = np.linspace(COLDEST_C, HOTTEST_C, 121)
START_PPM, MOST_PPM = 280, 1000  # the formula was fitted to the past and the near future: not beyond about 1,000 ppm
DOORS = {"all": "all three, as in the vessel", "wall": "a wall to a room", "mouth": "a mouth to a room", "radiation": "radiation"}
WHY_NOT = {
    "all": "A vessel loses heat by three ways: through its wall, through its mouth, and by radiation. Which of them has a planet?",
    "wall": "Around a planet there is no room that its ground could touch. Choose again.",
    "mouth": "Around a planet there is no air to change places with: beyond its own air is empty space. Choose again.",
}
GRIPS = [
    Pick("door", "Ways out of a planet", DOORS, "all"),
    Grip("sun", "sunlight", 1000, 1700, 1361, step=1, unit="W/m²"),
    Grip("reflected", "reflected", 0, 60, 30, step=1, unit="%"),
    Grip("taken_up", "infrared that the air takes up", 0, 100, 0, step=1, unit="%"),
    Grip("co2", "CO2", START_PPM, MOST_PPM, START_PPM, step=10, unit="ppm"),
]


def planet_view():
    """The view of lesson 11: ways out, sunlight, reflected share, the air's layer and CO2 under the hand; the level answers."""
    return PlanetView("From vessel to planet", GRIPS, answer, help=HELP)


class PlanetView(View):
    """What leaves over the ground's temperature, what comes in, and where they meet. Made by `planet_view`."""

    _esm, _css = script("planet/planet"), sheet(*LOOK)

    def numbers(self):
        """What the lesson's cards ask, wherever the grips stand."""
        return bare_and_layered()


def answer(door, sun, reflected, taken_up, co2):
    """Where a planet settles (°C); or, before the ways out are sorted, what speaks against the one that was chosen."""
    if door != "radiation":
        return {"sentence": WHY_NOT[door], "numbers": [], "picture": WHY_NOT[door], "closed": True}
    coming, level = float(planet.absorbed_w_m2(sun, reflected / 100)), _level_c(sun, reflected, taken_up)
    leaving = exitance_w_m2(SURFACE_C + ZERO_C_K) * (1 - taken_up / 200)
    now = f"{rounded(coming, 0)} W/m² come in. As much leaves when the ground is at {temperature(level, 1)}."
    return {
        "sentence": f"{now} {_more_co2(co2)}",
        "numbers": [("level of the ground", temperature(level, 1)), ("coming in, and leaving there", f"{rounded(coming, 0)} W/m²")],
        "picture": f"What leaves rises with the ground's temperature. It crosses what comes in at {temperature(level, 1)}.",
        "table": _table(sun, reflected),
        "lines": [line(SURFACE_C, leaving, "treated", "leaves"), *_held_back(leaving, co2)],
        "levels": [{"y": coming, "name": "comes in"}],
        "dots": [{"x": level, "y": coming, "name": temperature(level, 1)}],
        "closed": False,
    }


def _level_c(sun, reflected, taken_up):
    return float(planet.layered_k(sun, reflected / 100, taken_up / 100) - ZERO_C_K)


def _held_back(leaving, co2):
    """What leaves with more CO2, before the ground has answered: lower by the middle of the assessed range."""
    drop = (_warming(co2).forcing.effective.low + _warming(co2).forcing.effective.high) / 2 if co2 > START_PPM else 0
    return [{**line(SURFACE_C, leaving - drop, "control", "with more CO2"), "below": True}] if drop else []


def _more_co2(co2):
    if co2 <= START_PPM:
        return ""
    warming = _warming(co2)
    drop = warming.forcing.effective
    return f"With {co2:g} ppm of CO2, {drop} less leave at once. The Earth's ground then warms until out is as large as in again: by {warming.likely}, likely."


@lru_cache(maxsize=128)
def _warming(co2):
    return planet_warming(co2, START_PPM)


def _table(sun, reflected):
    cells = [[f"{share} %", temperature(_level_c(sun, reflected, share), 1)] for share in (0, 25, 50, 75, 100)]
    return rows("The level with more and more of the infrared taken up", ["taken up by the air", "level of the ground"], cells)


def bare_and_layered():
    """`Numbers` for the cards: the Earth without air that takes up infrared, with one full layer, and as it is observed."""
    bare, full = (_level_c(planet.SUN_W_M2, 100 * planet.ALBEDO, share) for share in (0, 100))
    warming = _warming(2 * START_PPM)
    observed = planet.SURFACE_K - ZERO_C_K
    texts = {"bare": temperature(bare, 0), "full": temperature(full, 0), "observed": f"about {temperature(observed, 0)}"}
    doubled = {"drop": str(warming.forcing.effective), "likely": str(warming.likely), "very_likely": warming.in_the_end.range}
    return Numbers({"bare": bare, "stops": "alike"}, {**texts, **doubled})
