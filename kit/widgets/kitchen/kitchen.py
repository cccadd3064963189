"""Two glasses in warm water, depth and mouth under the hand: from when until when they may be read, and how much warmer the treated one gets."""

from functools import cache, lru_cache

import numpy as np

from kit.analysis.effect import paired_effect
from kit.bench import glass_course
from kit.estimate import rounded
from kit.examples import example_run
from kit.records import Windows
from kit.units import difference_in, unit
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, line, Pick, rows, script, sheet, View

HELP = "Drag depth and mouth until they are those of your glass. Then drag R. All of it is computed by the kit; nobody has measured it yet."
LONGEST_MIN, FEW_MIN = 30, 3  # fewer minutes than that want a reading every half minute (common practice, no source)
USUAL = {"depth_cm": 9, "mouth_cm": 7, "water_c": 38}
GRIPS = [
    Grip("depth_cm", "depth", 4, 25, USUAL["depth_cm"], step=0.5, unit="cm"),
    Grip("mouth_cm", "mouth", 4.5, 12, USUAL["mouth_cm"], step=0.5, unit="cm"),
    Grip("read", "R", 0, LONGEST_MIN, 10, step=0.5, unit="min"),
    Grip("water_c", "warm water", 30, 45, USUAL["water_c"], step=1, unit="°C", on_scale=True),
    Pick("lid", "What goes over one glass", {"gas": "CO2, poured", "film": "film"}, "gas"),
    Pick("air", "The air in the room", {"still": "is still", "moving": "moves over the glasses"}, "still"),
]
RUNS = {"film": ("kitchen-film", Windows((5, 10), (10, 11), (17, 22))), "gas": ("kitchen-gas", Windows((5, 10), (10, 11), (12, 16)))}
LATER = Windows((5, 10), (10, 11), (20, 25))  # when the poured gas has gone


def glass_view():
    """The view of the kitchen lesson: size of the glass, water, lid and air under the hand; minutes to read and size to expect answer."""
    return GlassView("Your own glass", GRIPS, answer, help=HELP)


class GlassView(View):
    """Two glasses in warm water, and how much warmer the treated one is from minute to minute. Made by `glass_view`."""

    _esm, _css = script("kitchen/kitchen"), sheet(*LOOK, "kitchen/kitchen")

    def numbers(self):
        """What the lesson's cards ask, of the bundled kitchen runs and the usual glass, wherever the grips stand."""
        return kitchen_numbers()


def answer(depth_cm, mouth_cm, read, water_c, lid="gas", air="still"):
    """From when until when this glass may be read, and what to expect there and at R: the least and the most of the model's cases."""
    course = _course(depth_cm, mouth_cm, water_c, lid, air)
    least, most = course.effects_c.min(axis=1), course.effects_c.max(axis=1)
    at = [float(np.interp(read, course.minutes, each)) for each in (least, most)]
    readable = course.gone_min > course.ready_min
    return {
        "sentence": _judged(course, lid),
        "numbers": [*_when(course, lid), (f"computed at R, minute {read:g}", span(*at))],
        "picture": f"Two glasses {depth_cm:g} cm deep and {mouth_cm:g} cm wide in warm water, {_lid(lid)}. Below, how much warmer it gets.",
        "table": _table(course, least, most),
        "lines": [line(course.minutes, each) for each in (least, most)],
        "bands": [{"from": course.ready_min, "to": course.gone_min, "name": "read here"}] if readable else [],
        "span": [0, max(4.0, float(np.ceil(1.15 * most.max())))],
        "share": float(np.interp(read, course.minutes, course.shares.mean(axis=1))) if lid == "gas" else 0.0,
    }


@lru_cache(maxsize=64)
def _course(depth_cm, mouth_cm, water_c, lid, air):
    return glass_course(depth_cm, mouth_cm, water_c, film=lid == "film", air=air, watch_min=LONGEST_MIN)


def _lid(lid):
    return "film over one of them" if lid == "film" else "CO2 in one of them"


def _judged(course, lid):
    what, minutes = "film" if lid == "film" else "gas", course.gone_min - course.ready_min
    if minutes <= 0:
        return "No minute to read: the gas is gone before a thermometer has followed. Take a deeper glass, keep the air still, or take film."
    expected = f"Read from minute {course.ready_min:g} to {_until(course)} after the {what}. Expect {span(*course.size_c)} more than the control."
    return f"{expected} That is short: read every half minute." if minutes < FEW_MIN else expected


def _until(course):
    return f"{course.gone_min:g}" if course.gone_min < LONGEST_MIN - 2 else "the end"


def _when(course, lid):
    if course.gone_min <= course.ready_min:
        return [("minutes to read", "none")]
    return [(f"minutes to read, after the {lid}", f"{course.ready_min:g} to {_until(course)}"), ("computed size", span(*course.size_c))]


def span(least, most):
    """'3 to 7 °C': no finer than the model is; small ones to a tenth."""
    shown = [difference_in(each) for each in (least, most)]
    return f"{' to '.join(rounded(each, 0 if abs(each) >= 2 else 1) for each in shown)} {unit()}"


def _table(course, least, most):
    places = [int(np.abs(course.minutes - minute).argmin()) for minute in (1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25, 30)]
    cells = [[f"{course.minutes[i]:g}", *(rounded(difference_in(each[i]), 1) for each in (least, most))] for i in places]
    return rows("How much warmer the treated glass is than its twin, computed", ["minutes after", f"at least, {unit()}", f"at most, {unit()}"], cells)


def kitchen_numbers():
    """`Numbers` for the cards: the two bundled kitchen runs, the second read late as well, and the usual glass."""
    return _numbers_in(unit())


@cache
def _numbers_in(_unit):
    film, gas = (paired_effect(example_run(name), windows) for name, windows in RUNS.values())
    late = paired_effect(example_run(RUNS["gas"][0]), LATER)
    usual, cup = (_course(depth, USUAL["mouth_cm"], USUAL["water_c"], "gas", "still") for depth in (USUAL["depth_cm"], 4))
    share = gas.warming.value / film.warming.value
    lids = "like" if share > 0.75 else "half" if share > 0.25 else "none" if share > -0.25 else "cooler"
    effects = {name: each.warming for name, each in (("film", film), ("gas", gas), ("late", late))}
    texts = {name: each.value_text for name, each in effects.items()} | {f"{name}_range": each.range for name, each in effects.items()}
    spoken = {"film_sentence": str(film), "gas_sentence": str(gas), "late_verdict": late.verdict}
    left_min = cup.gone_min - cup.ready_min
    minutes = {"from": f"{usual.ready_min:g}", "until": f"minute {usual.gone_min:g}", "cup": f"{left_min:g} min" if left_min > 0 else "no time"}
    return Numbers({"film": film.warming.value, "lids": lids}, {**texts, **spoken, **minutes, "size": span(*usual.size_c)})
