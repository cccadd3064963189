"""Two vessels cut open, moved by the model: what changes places at the mouth, while a heavy gas lies there and when it has thinned out."""

from functools import cache

import numpy as np

from kit.estimate import amount, rounded
from kit.physics import contents_of, flip_share, pair_course, Setting, share_over_depth, Vessel
from kit.units import difference
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, Pick, View, line, rows, script, sheet

HELP = "Drag the clock, and the width of the mouths. In this model the gas only lies there: it takes up no light and no infrared."
LONGEST_MIN, LAMP_ALONE_S, LITRES, DEPTH_M = 60, 660, 1.5, 0.19
MOUTHS_CM = np.arange(4, 10.01, 0.5)
STEPS = np.arange(0, LONGEST_MIN + 0.01, 0.25)
HEIGHTS = (np.arange(24) + 0.5) / 24
TOGETHER_C = 0.6  # nearer than this, two names would lie on each other
FILLED_MIN = 2  # from then on no more gas comes in
GRIPS = [
    Grip("clock", "clock", 0, LONGEST_MIN, 2, step=0.5, unit="min"),
    Grip("mouth_cm", "mouth", MOUTHS_CM[0], MOUTHS_CM[-1], 6.5, step=0.5, unit="cm"),
    Pick("gas", "Into the right-hand vessel", {"CO2": "CO2", "argon": "argon"}, "CO2"),
]


def inside_view():
    """The second view of lesson 10: clock and mouth under the hand; what changes places at the mouths, and the warmth it leaves, answer."""
    return InsideView("Two vessels cut open", GRIPS, answer, help=HELP)


class InsideView(View):
    """Air and a heavy gas, cut open, with arrows at their mouths, and both warmths over time. Made by `inside_view`."""

    _esm, _css = script("inside/inside"), sheet(*LOOK, "inside/inside")

    def numbers(self):
        """What the lesson's cards ask of the usual vessel, wherever the grips stand."""
        return usual()


class Pair:
    """Both vessels at STEPS minutes after the gas: `rise_c` over the room and `flow_ml_s` through the mouth, (steps, 2), gas first; the
    gas's `share`; `opens`, the minute at which room air comes in again (None: not within `LONGEST_MIN`)."""

    def __init__(self, course, place, gas):
        at_s = LAMP_ALONE_S + 60 * STEPS
        self.rise_c, self.flow_ml_s = course.at(at_s, "gas_k")[:, place], 1e6 * course.at(at_s, "flow_m3_s")[:, place]
        self.share = course.at(at_s, "share")[:, place, 0]
        light = (STEPS > FILLED_MIN) & (self.share < flip_share(np.maximum(self.rise_c[:, 0], 0), gas))
        self.opens = float(STEPS[np.argmax(light)]) if light.any() else None

    def at(self, minute):
        """(rises in °C, flows in mL/s, share) at a minute after the gas; rises and flows of gas and air."""
        rise, flow = ([float(np.interp(minute, STEPS, each[:, side])) for side in (0, 1)] for each in (self.rise_c, self.flow_ml_s))
        return rise, flow, float(np.interp(minute, STEPS, self.share))


def answer(clock, mouth_cm, gas="CO2"):
    """What changes places at the two mouths at the clock, how warm that leaves the vessels, and when the gas's mouth opens again."""
    pair = pair_at(mouth_cm, gas)
    rise, flow, share = pair.at(clock)
    warmer = rise[0] - rise[1]
    return {
        "sentence": f"{_mouths(pair, clock, flow, gas)} {_told_warmer(warmer, gas)}",
        "numbers": [(f"share of {gas}", _percent(share)), *zip((f"through the {gas} vessel's mouth", "through that over air"), map(_ml, flow))],
        "picture": f"Two vessels cut open. Through the mouth over air go {_ml(flow[1])}, through that over {gas} {_ml(flow[0])}.",
        "table": _table(pair, gas),
        "lines": [line(STEPS, pair.rise_c[:, side], look) for side, look in enumerate(("treated", "control"))],
        "dots": _dots(clock, rise, gas),
        "bands": [{"from": pair.opens, "to": LONGEST_MIN, "name": "open again"}] if pair.opens else [],
        "flows": [round(each, 2) for each in flow],
        "names": [f"{name}: {difference(each, 1)}" for name, each in zip((gas, "air"), rise)],
        "layers": np.round(_layers(clock, mouth_cm, gas, share), 3).tolist(),
    }


def pair_at(mouth_cm, gas):
    """The `Pair` of this mouth (cm)."""
    return _pairs(gas)[int(np.abs(MOUTHS_CM - mouth_cm).argmin())]


@cache
def _pairs(gas):
    """A `Pair` for each of MOUTHS_CM, all followed at once, with nothing but the weight of the gas at work."""
    contents = contents_of(gas, LITRES, DEPTH_M)
    course = pair_course(_vessel(MOUTHS_CM[:, None]), contents, Setting(gas_l=LITRES), LAMP_ALONE_S + 60 * LONGEST_MIN, at_work=("m",))
    return [Pair(course, place, gas) for place in range(len(MOUTHS_CM))]


def _vessel(mouth_cm):
    return Vessel(mouth_m=mouth_cm / 100, volume_l=LITRES, depth_m=DEPTH_M)


def _layers(clock, mouth_cm, gas, share):
    """Share of the gas in 24 layers from the floor up, as diffusion leaves it, and no more in all than the model's share."""
    lying = share_over_depth(clock, HEIGHTS * DEPTH_M, LITRES, _vessel(mouth_cm), from_below=False, gas=gas)
    return lying * min(1.0, share / max(float(lying.mean()), 1e-9))


def _dots(clock, rise, gas):
    """A dot with its name on each line at the clock; one name for both where they lie together."""
    names = (gas, "air") if abs(rise[0] - rise[1]) > TOGETHER_C else (f"{gas} and air", "")
    return [{"x": clock, "y": each, "look": look, "name": name} for each, look, name in zip(rise, ("treated", "control"), names)]


def _told_warmer(warmer, gas):
    return f"The {gas} vessel is {difference(warmer, 1)} warmer." if round(warmer, 1) > 0 else "Both vessels are equally warm."


def _mouths(pair, clock, flow, gas):
    if clock < FILLED_MIN:
        return f"At minute {clock:g} the {gas} is coming in."
    if pair.opens and clock >= pair.opens:
        return f"At minute {clock:g} so little {gas} is left that room air comes in again: {_ml(flow[0])}."
    return f"At minute {clock:g} heavy {gas} lies still under its mouth. Through the other mouth {_ml(flow[1])} of air change places."


def _ml(flow):
    return f"{amount(flow)} mL/s"


def _percent(share):
    return f"{rounded(100 * share, 0)} %" if share >= 0.005 else "next to nothing"


def _table(pair, gas):
    found = [(minute, *pair.at(minute)) for minute in range(0, LONGEST_MIN + 1, 5)]
    cells = [
        [f"{minute}", _percent(share), *map(_ml, flow), difference(rise[0] - rise[1], 1)] for minute, rise, flow, share in found
    ]
    head = ["minute after the gas", f"share of {gas}", f"through its mouth, {gas}", "air", f"{gas} warmer by"]
    return rows("Every five minutes", head, cells)


@cache
def usual():
    """`Numbers` for the cards: when the mouth of the usual CO2 vessel opens again, and how much of the gas is left then."""
    pair = pair_at(6.5, "CO2")
    (*_, first), (*_, last) = (pair.at(minute) for minute in (FILLED_MIN, pair.opens))
    rise = pair.at(10)[0]
    left, alone = 100 * last / first, rise[0] - rise[1]
    texts = {"opens": f"{rounded(pair.opens, 0)} min", "left": f"{rounded(left, 0)} %", "share": _percent(last), "alone": f"{difference(alone, 1)}"}
    return Numbers({"left": left}, texts)
