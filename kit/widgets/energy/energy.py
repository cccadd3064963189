"""Energy in, energy out: one vessel under a lamp, with three grips and a clock, and the moment when as much leaves as comes in."""

from functools import lru_cache

import numpy as np

from kit.estimate import rounded
from kit.physics import lamp_lit, Vessel
from kit.settings import class_settings
from kit.units import difference, difference_in, unit
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, View, line, rows, script, sheet, starting

HELP = "Drag the lamp, the edge of the mouth, the outside of the glass. Drag the minute along the curve. Arrow keys work, too."
LONGEST_MIN = 60
GRIPS = [
    Grip("lamp_w", "lamp", 1, 8, 4, step=0.1, unit="W"),
    Grip("mouth_cm", "mouth", 0, 10, 7, step=0.1, unit="cm"),
    Grip("glass_mm", "glass", 0.5, 3, 1, step=0.1, unit="mm"),
    Grip("minute", "minute", 0, LONGEST_MIN, 5, step=0.5, unit="min"),
]
GLASS_J_PER_K_MM = 120  # what each millimetre of glass of a canister of 1.5 L stores for each kelvin (our estimate, no source)
IN_THE_AIR = 0.025  # the part of the lamp's power that warms the air at once, by the dark card in it (plausible, no source)
EVEN_W = 0.05  # in and out that differ by less look alike as bars


def energy_view():
    """The view of lesson 01: lamp, mouth and thickness of the glass under the hand; in, out and the warming curve answer."""
    said = class_settings()
    grips = starting(GRIPS, lamp_w=said["taken_up_w"], mouth_cm=said["mouth_cm"])
    return EnergyView("Energy in, energy out", grips, answer, help=HELP)


class EnergyView(View):
    """A drawn vessel, what comes in and goes out as bars, and the curve that climbs while they differ. Made by `energy_view`."""

    _esm, _css = script("energy/energy"), sheet(*LOOK, "energy/energy")

    def numbers(self):
        """What the lesson's cards ask of this vessel, wherever the grips stand."""
        return compared()


def answer(lamp_w, mouth_cm, glass_mm, minute):
    """How warm this vessel gets and how soon; and the watts in and out at `minute`, with what the glass and the air store."""
    lit = _lit(lamp_w, mouth_cm, glass_mm)
    gas_k, wall_w, mouth_w = (float(np.interp(60 * minute, lit.times_s, each)) for each in (lit.gas_k, lit.through_wall_w, lit.through_mouth_w))
    level, soon = difference(lit.level_k, 1), f"{rounded(lit.nearly_s / 60, 0)} min"
    watts = {"in": lamp_w, "out": wall_w + mouth_w, "wall": wall_w, "mouth": mouth_w}
    return {
        "sentence": f"{_meanwhile(minute, lamp_w, wall_w + mouth_w)} It goes level {level} above the room.",
        "numbers": [("level, above the room", level), ("95 % of the way after", soon)],
        "picture": f"Minute {minute:g}, {difference(gas_k, 1)} above the room. In: {_watt(lamp_w)} from the lamp. "
        f"Out: {_watt(wall_w)} through the wall, {_watt(mouth_w)} through the mouth.",
        "table": _table(lit),
        "line": line(lit.times_s / 60, lit.gas_k, name="now"),
        "level_k": lit.level_k,
        "gas_k": gas_k,
        "watts": {name: [each, _watt(each)] for name, each in watts.items()},
    }


@lru_cache(maxsize=64)
def _lit(lamp_w, mouth_cm, glass_mm):
    vessel = Vessel(wall_j_per_k=GLASS_J_PER_K_MM * glass_mm, mouth_m=mouth_cm / 100)
    return lamp_lit(vessel, IN_THE_AIR * lamp_w, (1 - IN_THE_AIR) * lamp_w, until_s=60 * LONGEST_MIN)


def compared():
    """`Numbers` for the cards: the vessel as it stands first, with glass twice as thick, and with a wider mouth."""
    lamp_w, mouth_cm = (class_settings()[name] for name in ("taken_up_w", "mouth_cm"))
    first, thick, wide = (_lit(lamp_w, *shape) for shape in ((mouth_cm, 1), (mouth_cm, 2), (mouth_cm + 3, 1)))
    going = "level" if abs(first.through_wall_w[-1] + first.through_mouth_w[-1] - first.in_w) < EVEN_W else "climbing"
    later = "later" if thick.nearly_s > 1.2 * first.nearly_s else "sooner"
    thicker = later if abs(thick.level_k - first.level_k) < 0.05 else "higher" if thick.level_k > first.level_k else "lower"
    texts = {f"{name}_level": difference(each.level_k, 1) for name, each in (("first", first), ("thick", thick), ("wide", wide))}
    times = {f"{name}_minutes": f"{rounded(each.nearly_s / 60, 0)} min" for name, each in (("first", first), ("thick", thick))}
    return Numbers({"two_hours": going, "thicker": thicker}, {**texts, **times})


def _meanwhile(minute, in_w, out_w):
    now = f"At minute {minute:g}, {_watt(in_w)} come in and {_watt(out_w)} leave"
    return f"{now}: it warms." if in_w - out_w > EVEN_W else f"{now}: in equals out."


def _watt(power_w):
    return f"{rounded(power_w, 1)} W"


def _table(lit):
    at_s = 60 * np.arange(0, LONGEST_MIN + 1, 5)
    columns = [np.interp(at_s, lit.times_s, each) for each in (lit.gas_k, lit.through_wall_w, lit.through_mouth_w)]
    head = ["minute", f"above the room, {unit()}", "in, W", "out through the wall, W", "out through the mouth, W"]
    columns[0] = difference_in(columns[0])
    cells = [[f"{s / 60:g}", rounded(k, 1), rounded(lit.in_w, 1), rounded(wall, 2), rounded(mouth, 2)] for s, k, wall, mouth in zip(at_s, *columns)]
    return rows("The vessel every five minutes", head, cells)
