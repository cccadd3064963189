"""A stretch of a record looked at through an axis that the hand can pull: the line tilts, the drift does not."""

from functools import cache, partial

import numpy as np

from kit.analysis.steady import check_steady
from kit.estimate import rounded
from kit.examples import example_run
from kit.units import difference, difference_in, stated, unit
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, Pick, View, line, rows, script, sheet

HELP = "Pull the height of the picture. Drag the end of the look back, and how far it reaches. Arrow keys work, too."
OF = {"difference": "treated minus control", "treated": "the treated vessel", "control": "the control"}
TALLEST_C, TOLERANCE = 100, 0.01
RATE = 0.02  # °C a minute, in a question of the lesson
SHORTEST_MIN, LONGEST_MIN = 1, 10
START_MIN, CLIMB_MIN, LEVEL_MIN = 10.5, 3, 10  # where Basalt is judged: a climb that bends is a straight line only in its last minutes
NAMES = {"difference": "difference", "treated": "treated", "control": "control"}


def steady_view(run, *, tolerance_c_per_min=TOLERANCE):
    """The view of lesson 04 on `run`: the height of the axis and a look back under the hand; drift and verdict of `check_steady` answer."""
    return SteadyView("Is it steady?", grips_of(run), partial(answer, run, tolerance_c_per_min), help=HELP)


class SteadyView(View):
    """One line of a run, the stretch that is judged, and the drift with its range against the tolerance. Made by `steady_view`."""

    _esm, _css = script("steady/steady"), sheet(*LOOK)

    def numbers(self):
        """What the lesson's cards ask, of the two groups that the lesson is about."""
        return both_groups()


def grips_of(run):
    """The grips for a run: the look back ends somewhere in it."""
    last = float(np.floor(2 * run.minutes[-1]) / 2)
    return [
        Grip("until", "now", SHORTEST_MIN, last, min(8.0, last), step=0.5, unit="min"),
        Grip("over", "look back over", SHORTEST_MIN, min(LONGEST_MIN, last), min(5.0, last), step=0.5, unit="min"),
        Grip("tall", "height of the picture", 0.5, TALLEST_C, TALLEST_C, step=0.5, unit="°C"),
        Pick("of", "Look at", OF, "difference"),
    ]


def answer(run, tolerance, until, over, *, tall=TALLEST_C, of="difference"):
    """Drift and verdict of the last `over` minutes before minute `until`; the picture is `tall` °C high."""
    over = min(over, until)
    found = check_steady(run, over_min=over, tolerance_c_per_min=tolerance, until_min=until, of=of)
    minutes, values = _series(run, of)
    middle = float(np.nanmean(values[(minutes >= until - over) & (minutes <= until)]))
    return {
        "sentence": str(found),
        "numbers": [("drift", found.drift if np.isfinite(found.slope.value) else "no number"), ("verdict", found.verdict)],
        "picture": f"{OF[of].capitalize()} over {minutes[-1]:.0f} min, in a picture {stated(tall)} high. It looks {'flat' if tall > 20 else 'tilted'}.",
        "table": _table(run, tolerance, over, of, until),
        "span": [middle - tall / 2, middle + tall / 2],
        "reading": of != "difference",
        "line": line(minutes, values, of, NAMES[of]),
        "stretch": {"from": until - over, "to": until, "name": "judged"},
        "drift": _drift(found, tolerance),
    }


def _series(run, of):
    values = run.difference() if of == "difference" else run.readings[of]
    return run.minutes, values.to_numpy(float)


@cache
def both_groups():
    """`Numbers` for the cards: Basalt, who waited, and Chert, who began early, each looked at just before the gas."""
    basalt, chert = example_run("basalt"), example_run("chert-early")
    at_start = {"until_min": START_MIN, "tolerance_c_per_min": TOLERANCE}
    climbing, level = check_steady(basalt, over_min=CLIMB_MIN, of="treated", **at_start), check_steady(basalt, over_min=LEVEL_MIN, **at_start)
    early = check_steady(chert, over_min=5, until_min=8, tolerance_c_per_min=TOLERANCE)
    short = check_steady(basalt, over_min=2, **at_start)
    start = "yes" if level.verdict == "steady" and climbing.verdict == "drifting" else "no"
    climb = f"by {climbing.slope.text} over the {CLIMB_MIN} min up to minute {START_MIN:g}"
    told = {"climbing": climb, "level": str(level), "early": str(early), "short": str(short)}
    return Numbers({"start": start, "axis": "neither"}, {**told, "rate": stated(RATE), "passed": difference(10 * RATE, 1)})


def _drift(found, tolerance):
    """The drift with its range as a dot over the tolerance, and how far the axis must reach; no dot where there is no number."""
    slope = found.decides
    known = bool(np.isfinite([slope.low, slope.high]).all())
    far = 1.15 * max(3 * tolerance, *(map(abs, (slope.low, slope.high)) if known else ()))
    dot = {"x": 0.5, "y": slope.value, "low": slope.low, "high": slope.high, "look": "difference", "name": found.drift}
    return {"dots": [dot] if known else [], "levels": [{"y": tolerance, "name": "tolerance"}, {"y": -tolerance}], "span": [-far, far]}


def _table(run, tolerance, over, of, until):
    ends = [each for each in (until - 2, until - 1, until, until + 1, until + 2) if SHORTEST_MIN <= each <= run.minutes[-1]]
    found = [check_steady(run, over_min=min(over, end), tolerance_c_per_min=tolerance, until_min=end, of=of) for end in ends]
    drifts = [rounded(difference_in(each.slope.value), 3) if np.isfinite(each.slope.value) else "–" for each in found]
    cells = [[f"{end:g}", drift, each.verdict] for end, drift, each in zip(ends, drifts, found)]
    return rows("The same look back, ending at other minutes", ["ends at minute", f"drift, {unit()} a minute", "verdict"], cells)
