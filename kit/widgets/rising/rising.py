"""The warming curve: laid by hand beside the readings, and the end of the record under the hand: too short, long enough, too long."""

from functools import cache, lru_cache

import numpy as np

from kit.analysis.curve import fit_warming
from kit.estimate import rounded
from kit.examples import example_run
from kit.records import Windows
from kit.units import difference, stated
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, Pick, View, line, rows, script, sheet

HELP = "Lay your dashed curve over the readings with its height and its time. Then drag the end of the record. Arrow keys work, too."
GAS_AT_MIN, SHORTEST_MIN, LONGEST_MIN = 11, 3, 44
RUN = "basalt-long"
GRIPS = [
    Grip("end", "end of the record", SHORTEST_MIN, LONGEST_MIN, 10, step=0.5, unit="min"),
    Grip("height", "height of your curve", 0, 3, 0.6, step=0.02, unit="°C"),
    Grip("time", "its time to 63 %", 0.2, 8, 4, step=0.1, unit="min"),
    Pick("beside", "Beside it", {"no": "your curve alone", "yes": "what the record knows"}, "no"),
]


def rising_view():
    """The view of lesson 07: a curve of the learner's own, and the end of Basalt's long record under the hand; `fit_warming` answers."""
    return RisingView("The warming curve", GRIPS, answer, help=HELP)


class RisingView(View):
    """Readings, the curve laid by hand, and the level with its range as far as the record goes. Made by `rising_view`."""

    _esm, _css = script("rising/rising"), sheet(*LOOK)

    def numbers(self):
        """What the lesson's cards ask, of Basalt's long record."""
        return three_ends()


def answer(end, height, time, beside="no"):
    """How far the curve laid by hand lies off the readings until minute `end` after the gas; and what `fit_warming` knows of that record."""
    minutes, gap = readings()
    seen = minutes <= end
    own = height * -np.expm1(-np.maximum(minutes, 0) / time)
    off = float(np.sqrt(np.nanmean((gap - own)[seen & (minutes > 0)] ** 2)))
    told = known(end) if beside == "yes" else None
    sentence = f"Your curve lies {difference(off, 2)} off the readings, on average."
    return {
        "sentence": f"{sentence} {told.sentence}" if told else sentence,
        "numbers": [("your curve is off by", difference(off, 2)), *(told.numbers if told else [])],
        "picture": f"Readings of the difference until minute {end:g} after the gas, and a curve that goes level {stated(height)} up.",
        "table": _table(),
        "lines": [line(minutes[seen], gap[seen], "difference", "readings"), line(minutes, own, "control", "yours")],
        "dots": [told.dot] if told and told.dot else [],
        "stretch": {"from": end, "to": LONGEST_MIN, "name": "not recorded"},
    }


class Known:
    """What a record that ends at some minute knows: a sentence, two numbers, and the rise with its range as a dot."""

    def __init__(self, curve, end):
        self.curve, rise = curve, curve.rise
        self.sentence = _told(curve)
        self.numbers = [("rise until then", rise.range if np.isfinite(rise.value) else "no number"), ("time to 63 %", _time(curve))]
        self.dot = {"x": end, "y": rise.value, "low": rise.low, "high": rise.high, "name": ""} if np.isfinite([rise.low, rise.high]).all() else None


def _told(curve):
    """The curve in a sentence, in the view's own minutes: those after the gas. Where the gas has left, no word of running again."""
    jump = curve.effect.jump
    if not jump:
        return str(curve)
    at = f"From about minute {rounded(jump.at_min - GAS_AT_MIN, 0)} after the gas the difference falls, and no rise does that"
    return f"{curve.effect} {at}: end the record before it. How long it took to come 63 % of the way is not determined."


def _time(curve):
    return curve.time_to_63.range if curve.determined else "not determined"


@lru_cache(maxsize=128)
def known(end):
    """What the record of `RUN` knows when it ends `end` minutes after the gas."""
    at = GAS_AT_MIN + end
    return Known(fit_warming(example_run(RUN), Windows((10, 11), (11, 12), (at - 1, at))), end)


@cache
def readings():
    """Minutes after the gas and the difference's change since the baseline, °C, thinned to every 10 s."""
    gap = example_run(RUN).difference()
    minutes = gap.index.to_numpy(float) / 60 - GAS_AT_MIN
    level = float(np.nanmean(gap.to_numpy()[(minutes >= -1) & (minutes < 0)]))
    keep = (minutes >= -1) & (minutes <= LONGEST_MIN)
    return minutes[keep][::5], gap.to_numpy(float)[keep][::5] - level


def _table():
    cells = [[f"{end}", *(text for _, text in known(end).numbers), "yes" if known(end).curve.still_rising else "no"] for end in (4, 10, 20)]
    return rows("What Basalt's record knows if it ends earlier or later", ["ends, minutes after the gas", "rise", "time to 63 %", "still rising"], cells)


@cache
def three_ends():
    """`Numbers` for the cards: the record cut at 4, 10, 20 and 44 minutes, and what the difference does in the end."""
    short, usual, long = (known(end).curve for end in (4, 10, LONGEST_MIN))
    minutes, gap = readings()
    last = float(np.nanmean(gap[minutes > LONGEST_MIN - 2]))
    later = float(np.nanmean(gap[(minutes > 19) & (minutes < 21)]))
    ends = "falls" if last < 0.5 * later else "stays" if last < 1.1 * later else "climbs"
    guess = "rising" if short.still_rising else "level"
    texts = {"short": short.rise.range, "usual": usual.rise.range, "usual_time": usual.time_to_63.range, "last": difference(last, 1)}
    return Numbers({"ends": ends, "short": guess}, {**texts, "usual_rise": usual.rise.value_text, "long": str(long)})
