"""What a warm body radiates: one curve under the hand, CO2's bands and the edge of a wall laid over it, and the share of each."""

from math import isfinite, log10

import numpy as np

from kit.estimate import rounded
from kit.physics import absorption, radiation
from kit.widgets.shared import LOOK, Grip, Pick, View, line, rows, script, sheet

HELP = "Drag the temperature. Choose a wall. Arrow keys work, too."
NO_WALL = "no wall"
WALLS = {NO_WALL: "nothing", "soda-lime glass": "glass", "PET": "a clear plastic bottle (PET)", "thin polyethylene": "thin film"}
GRIPS = [Grip("kelvin", "temperature of the source", 300, 6000, 2700, step=10, unit="K"), Pick("wall", "In its way stands", WALLS, NO_WALL)]
SHORTEST_UM, LONGEST_UM = 0.2, 50
WAVELENGTHS_UM = np.geomspace(SHORTEST_UM, LONGEST_UM, 300)
KNOWN = (("a lamp's filament", radiation.FILAMENT_K), ("the sun", 5772), ("a warm wall", radiation.WALL_K))


def spectrum_view():
    """The second view of lesson 01: a source's temperature and a wall under the hand; the shares that CO2 could take answer."""
    return SpectrumView("What a warm thing radiates", GRIPS, answer, help=HELP)


class SpectrumView(View):
    """One curve over wavelength, stretched at the short end, with CO2's bands and the wall's edge. Made by `spectrum_view`."""

    _esm, _css = script("spectrum/spectrum"), sheet(*LOOK)


def answer(kelvin, wall):
    """Shares (%) of a black body's power: visible, within CO2's bands before the wall, and what of it the wall lets through."""
    bands, seen = co2_share(kelvin), 100 * float(radiation.blackbody_share(kelvin, 0.38, 0.75))
    passed = "Nothing stands in its way." if wall == NO_WALL else f"{WALLS[wall].capitalize()} lets {passing(kelvin, wall)} of it pass."
    curve = radiation.planck_w_m2_um(WAVELENGTHS_UM, kelvin)
    return {
        "sentence": f"A body of {kelvin:g} K: of what it radiates, {percent(bands)} lies where CO2 can take it up. {passed}",
        "numbers": [("in CO2's bands, at most", percent(bands)), ("visible light", percent(seen))],
        "picture": f"One hump, highest at {rounded(float(radiation.peak_um(kelvin)), 1)} µm. CO2's bands stand near 2.7, 4.3 and 15 µm.",
        "table": rows("Three bodies, for comparison", ["body", "K", "visible", "in CO2's bands"], [_row(*each) for each in KNOWN]),
        "line": line(np.log10(WAVELENGTHS_UM), curve / curve.max(), "difference", f"{kelvin:g} K"),
        "bands": [{"from": log10(low), "to": log10(high), "name": name} for name, (low, high) in absorption.CO2_BANDS_UM.items()],
        "edge": _edge(wall),
    }


def co2_share(kelvin):
    """The share (%) of a black body's power within CO2's three bands: the most that any amount of CO2 could take up there."""
    return 100 * float(np.sum(absorption.co2_band_shares(kelvin)))


def passing(kelvin, wall):
    """'80 to 93 %': what a wall lets through of a black body's power, between its two edges."""
    low, high = (100 * float(each) for each in radiation.passed_share(kelvin, wall))
    return percent(high) if low == high or high < 1 else f"{percent(low)} to {percent(high)}"


def percent(share):
    """A share with as many digits as it deserves here."""
    return f"{rounded(share, 0 if share >= 10 else 1)} %" if share >= 0.05 else "next to nothing"


def _edge(wall):
    """Where a wall turns opaque, as a band on the axis; nothing where it never does."""
    low, high = radiation.WINDOWS_UM.get(wall, (np.inf, np.inf))
    return {"from": log10(low), "to": log10(LONGEST_UM), "name": f"{WALLS[wall]} stops it"} if isfinite(high) else None


def _row(name, kelvin):
    return [name, f"{kelvin:g}", percent(100 * float(radiation.blackbody_share(kelvin, 0.38, 0.75))), percent(co2_share(kelvin))]
