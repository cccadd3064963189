"""A hundred ranges over a truth that is open: those that miss are bold and counted; how often one logs is under the hand."""

from functools import cache

import numpy as np

from kit.analysis.effect import paired_effect
from kit.examples import example_run
from kit.records import Windows
from kit.units import difference
from kit.widgets.cards import Numbers
from kit.widgets.repeats.hundred import LONGEST_MIN, ranges_of, RISE_C, RUNS
from kit.widgets.shared import LOOK, Grip, Pick, View, rows, script, sheet
from kit.words import counted, listed

HELP = "Each bar is the range of one group. A bold bar with a mark at its foot misses the truth. Arrow keys work, too."
AIR_RUN, AIR_AT_MIN = "flint-air", 11
SPAN_C = (RISE_C - 1.0, RISE_C + 1.0)  # of the picture; a few ranges of a poor set-up are ten times as long
WAYS = {"honest": "honest ones", "naive": "naive ones, each reading a fresh look"}
COUNT = [
    Grip("hundred", "another hundred groups", 1, 20, 1),
    Pick("ways", "The ranges are", WAYS, "honest"),
]
SETUP = [
    Pick("step_s", "A reading every", {f"{each} s": f"{each} s" for each in (1, 2, 5, 10, 20)}, "10 s"),
    Grip("quiet_min", "quiet minutes before the gas", 1, LONGEST_MIN, 3, unit="min"),
    Pick("display_c", "The display's step", {each: f"{{c:{each}}}" for each in ("0.01", "0.1", "0.5")}, "0.1"),
]


def repeats_view(*, setup=False):
    """The view of lesson 06: a hundred ranges over the truth, and how many of them hold it. `setup`: logging, quiet time and display are
    under the hand, too. The runs are simulated."""
    return RepeatsView("A hundred groups, one truth", COUNT + SETUP * setup, answer, help=HELP)


class RepeatsView(View):
    """A hundred ranges as bars over the truth that they are after. Made by `repeats_view`."""

    _esm, _css = script("repeats/repeats"), sheet(*LOOK, "repeats/repeats")

    def numbers(self):
        """What the lesson's cards ask, of the first hundred groups."""
        return first_hundred()


def answer(hundred, ways, *, step_s="10 s", quiet_min=3, display_c="0.1"):
    """The ranges of the `hundred`th hundred groups, how many of them hold the truth, and how wide they are."""
    found = ranges_of(round(hundred), int(step_s.removesuffix(" s")), round(quiet_min), float(display_c))
    shown = found[ways]
    held, missed = int(shown.hold.sum()), np.flatnonzero(~shown.hold) + 1
    return {
        "sentence": f"{held} of {RUNS} ranges hold the truth; {_told_missed(len(missed))}.{_cut_off(shown)}",
        "numbers": [("hold the truth", f"{held} of {RUNS}"), ("a range of middle width", _to_each_side(shown))],
        "picture": f"{RUNS} bars beside each other, over a line at the truth, {_degrees(shown.truth)}. {_missing(missed)}",
        "table": rows("The same hundred groups, both ways", ["ranges", "hold the truth", "a range of middle width"], _cells(found)),
        "bars": np.stack([shown.low, shown.high], axis=1).round(3).tolist(),
        "hold": shown.hold.tolist(),
        "truth": shown.truth,
        "span": list(SPAN_C),
        "line": f"line: the truth, {_degrees(shown.truth)}",
        "count": f"{held} of {RUNS} hold the truth",
    }


@cache
def first_hundred():
    """`Numbers` for the cards: the first hundred groups as the view begins, the same logged every second, and the bundled air run."""
    air = paired_effect(example_run(AIR_RUN), Windows.of_perturbation(AIR_AT_MIN)).warming
    slow, fast = (ranges_of(1, step_s, 3, 0.1) for step_s in (10, 1))
    held = {f"{way}_{step}": int(found[way].hold.sum()) for step, found in ((10, slow), (1, fast)) for way in WAYS}
    told = {"width_10": _to_each_side(slow["honest"]), "width_1": _to_each_side(fast["honest"]), "air": air.value_text, "air_range": air.range}
    values = {"held": held["honest_10"], "narrower": slow["honest"].half_width / fast["honest"].half_width}
    return Numbers(values, told | {name: f"{count} of {RUNS}" for name, count in held.items()})


def _to_each_side(ranges):
    return f"± {_degrees(ranges.half_width)}"


def _degrees(number):
    return difference(number, 2)


def _told_missed(count):
    return "none misses it" if not count else "1 misses it" if count == 1 else f"{count} miss it"


def _cut_off(ranges):
    """What to say where bars end at the picture's edge and their ranges do not."""
    longer = int(((ranges.low < SPAN_C[0]) | (ranges.high > SPAN_C[1])).sum())
    return f" {counted(longer, 'range')} {'go' if longer > 1 else 'goes'} on beyond the picture." if longer else ""


def _missing(missed):
    if len(missed) >= 20:
        return f"{len(missed)} are bold."
    return f"Bold: {listed([f'group {each}' for each in missed])}." if len(missed) else "None is bold."


def _cells(found):
    return [[way, f"{int(each.hold.sum())} of {RUNS}", _to_each_side(each)] for way, each in found.items()]
