"""The vessel cut open: gas comes in, lies there and leaves; and a time line on which the learner puts the reading."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from kit.estimate import rounded
from kit.physics import AIR_J_M3_K, contents_of, dose, flip_share, pair_course, Setting, share_over_depth, Vessel
from kit.settings import class_settings
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, Pick, View, line, rows, script, sheet, starting

HELP = "Drag the clock and see the gas go. Drag R to the minute at which you would read. Arrow keys work, too."
LONGEST_MIN = 45
MOVING_M3_S = 0.004 / AIR_J_M3_K  # air at 0.2 m/s over the mouth takes out as much as 0.004 W/K do (our estimate, no source)
NEARLY = 0.9  # of what the gas would do if it stayed: from then on the glass hardly warms any further
STEPS = np.arange(0, LONGEST_MIN + 0.01, 0.25)
HEIGHTS = (np.arange(24) + 0.5) / 24
GRIPS = [
    Grip("clock", "clock", 0, LONGEST_MIN, 2, step=0.5, unit="min"),
    Grip("read", "R", 0, LONGEST_MIN, 1, step=0.5, unit="min"),
    Grip("depth_cm", "depth of the vessel", 3, 30, 19, step=1, unit="cm"),
    Grip("tablets", "tablets", 1, 8, 4, step=1),
    Pick("way", "The gas comes in", {"mixed": "fast, and mixes", "floor": "slowly, at the floor"}, "mixed"),
    Pick("air", "The air in the room", {"still": "is still", "moving": "moves over the mouth"}, "still"),
    Pick("limits", "What limits R", {"hidden": "not yet", "shown": "show me"}, "hidden"),
]


def filling_view():
    """The view of lesson 02: dose, filling, depth, clock and R under the hand; the share of gas and the limits of R answer."""
    first = {name: class_settings()[name] for name in ("depth_cm", "tablets")}
    return FillingView("Gas in an open vessel", starting(GRIPS, **first), answer, help=HELP)


class FillingView(View):
    """A vessel cut open with its gas, and a time line with the share, the clock, R and what limits it. Made by `filling_view`."""

    _esm, _css = script("filling/filling"), sheet(*LOOK)

    def numbers(self):
        """What the lesson's cards ask of the usual vessel, wherever the grips stand."""
        return usual()


def answer(clock, read, depth_cm, tablets=4, way="mixed", air="still", limits="hidden"):
    """The share of CO2 at the clock and at R, and from when until when a reading says something about the gas."""
    gas = _gas(_bench(), depth_cm, tablets, way, air)
    now, then = (float(np.interp(minute, STEPS, gas.shares)) for minute in (clock, read))
    bands = [{"from": 0, "to": gas.warming, "name": "glass still warming"}, {"from": gas.gone, "to": LONGEST_MIN, "name": "too little gas"}]
    return {
        "sentence": f"At minute {clock:g}, {percent(now)} of the vessel is CO2. {_judged(gas, read, limits)}",
        "numbers": [("CO2 at the clock", percent(now)), ("CO2 at R", percent(then))],
        "picture": f"A vessel {depth_cm:g} cm deep. The gas is densest at the floor and thins out towards the mouth.",
        "table": _table(gas),
        "line": line(STEPS, 100 * gas.shares, "gas", "CO2 left"),
        "bands": bands if limits == "shown" else [],
        "layers": (np.round(_layers(clock, depth_cm, tablets, way, air), 3)).tolist(),
    }


class Gas:
    """What happens to one filling: `shares` (0 to 1) at STEPS minutes; minutes until the glass has nearly warmed, and until the gas is too light."""

    def __init__(self, shares, warming, gone):
        self.shares, self.warming, self.gone = shares, warming, gone

    @property
    def free(self):
        """Minutes between the two limits; 0 where they leave none."""
        return max(0.0, self.gone - self.warming)


@dataclass(frozen=True)
class Bench:
    """The class's vessel and timing: litres in a cm of its depth, its mouth (m), and how long the lamp shines before the gas (s).
    `leaves`: whether diffusion takes the gas out."""

    litres_a_cm: float
    mouth_m: float
    alone_s: float
    leaves: bool = True


def _bench():
    """The class's `Bench`. As usual: a canister 10 cm wide inside, its mouth under the rim."""
    said = class_settings()
    return Bench(said["volume_l"] / said["depth_cm"], said["mouth_cm"] / 100, 60 * said["gas_at_min"])


@lru_cache(maxsize=64)
def _gas(bench, depth_cm, tablets, way, air):
    course = _course(bench, depth_cm, tablets, way, air)
    at_s = bench.alone_s + 60 * STEPS
    shares, rise = (np.interp(at_s, course.times_s, each[:, 0]) for each in (course.share, course.gas_k))
    gained = np.interp(at_s, course.times_s, course.gas_k[:, 0] - course.gas_k[:, 1])
    enough = gained >= NEARLY * _staying(bench, tablets, way)
    light = (STEPS > 1) & (shares < flip_share(rise))
    return Gas(shares, float(STEPS[np.argmax(enough)]) if enough.any() else LONGEST_MIN, float(STEPS[np.argmax(light)]) if light.any() else LONGEST_MIN)


@lru_cache(maxsize=16)
def _staying(bench, tablets, way):
    """By how much a vessel of the usual depth would warm (K) if its gas never left."""
    course = _course(replace(bench, leaves=False), 19, tablets, way, "still")
    return float((course.gas_k[:, 0] - course.gas_k[:, 1])[-1])


def _course(bench, depth_cm, tablets, way, air):
    still = {} if bench.leaves else {"diffusion_m3_s": 0.0}
    contents = contents_of("CO2", bench.litres_a_cm * depth_cm, depth_cm / 100, **still)
    setting = Setting(gas_l=litres(tablets), from_below=float(way == "floor"))
    return pair_course(_vessel(bench, depth_cm, air == "moving"), contents, setting, bench.alone_s + 60 * LONGEST_MIN)


def _vessel(bench, depth_cm, moving):
    return Vessel(mouth_m=bench.mouth_m, volume_l=bench.litres_a_cm * depth_cm, depth_m=depth_cm / 100, draught_m3_s=MOVING_M3_S * moving)


def litres(tablets):
    """Litres of CO2 from so many tablets: the middle of what they may make."""
    return float(np.mean([dose.gas_volume_l(each) for each in dose.tablets_mol(tablets)]))


def _layers(clock, depth_cm, tablets, way, air):
    """Share of CO2 in 24 layers from the floor up."""
    vessel = _vessel(_bench(), depth_cm, air == "moving")
    return share_over_depth(clock, HEIGHTS * vessel.depth_m, litres(tablets), vessel, from_below=way == "floor")


def percent(share):
    """A share in whole percent."""
    return f"{rounded(100 * share, 0)} %" if share >= 0.005 else "next to nothing"


def _judged(gas, read, limits):
    if limits == "hidden":
        return f"You would read at minute {read:g}."
    if not gas.free:
        return "There is no minute at which you could read: the gas goes before the glass has warmed."
    span = f"R may stand from minute {gas.warming:g} to {gas.gone:g}."
    if gas.warming <= read <= gas.gone:
        return f"{span} Yours does."
    return f"{span} Yours is {'too early: the glass still warms' if read < gas.warming else 'too late: too little gas is left'}."


def _table(gas):
    cells = [[f"{minute:g}", percent(float(np.interp(minute, STEPS, gas.shares)))] for minute in range(0, LONGEST_MIN + 1, 5)]
    return rows("CO2 in the vessel every five minutes", ["minute after the gas", "CO2"], cells)


def usual():
    """`Numbers` for the cards: the usual vessel with mixed gas in a still room, with twice the gas, and a flat bowl."""
    bench, depth_cm = _bench(), class_settings()["depth_cm"]
    cases = ((4, "still"), (8, "still"), (4, "moving"))
    once, twice, moving = (_gas(bench, depth_cm, tablets, "mixed", air) for tablets, air in cases)
    at = {minute: float(np.interp(minute, STEPS, once.shares)) for minute in (1, 10, 30)}
    more = float(np.interp(1, STEPS, twice.shares)) / at[1]
    left = at[10] / at[1]
    how_much = "all" if left > 0.9 else "half" if left > 0.3 else "tenth" if left > 0.05 else "none"
    gain = "double" if more > 1.9 else "less" if more > 1.05 else "same"
    texts = {f"share_{minute}": percent(share) for minute, share in at.items()} | {"share_twice": percent(more * at[1]), "left": percent(left)}
    spans = {"from": f"{once.warming:g} min", "until": f"{once.gone:g} min", "until_moving": f"{moving.gone:g} min"}
    return Numbers({"left": how_much, "twice": gain}, {**texts, **spans})
