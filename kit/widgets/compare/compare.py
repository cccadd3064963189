"""Two results that the hand pushes along one axis, and the range of their difference, which knows more than the two bars."""

from math import hypot, inf

from kit.statistics import coverage_factor, equivalence
from kit.units import difference, span, stated
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, Pick, View, rows, script, sheet

HELP = "Push the two results along, and pull their ranges. Then let the margin show. Arrow keys work, too."
LEVEL, FACTOR = 0.95, coverage_factor(0.95)
GRIPS = [
    Grip("mine", "your result", 0, 3, 1.2, step=0.02, unit="°C"),
    Grip("mine_pm", "your range, to each side", 0.04, 0.8, 0.2, step=0.02, unit="°C"),
    Grip("reference", "the reference", 0, 3, 1.52, step=0.02, unit="°C"),
    Grip("reference_pm", "the reference's range, to each side", 0.04, 0.8, 0.2, step=0.02, unit="°C"),
    Grip("margin", "margin", 0.05, 1, 0.3, step=0.05, unit="°C"),
    Pick("shown", "The margin", {"no": "not yet", "yes": "show it"}, "no"),
]


def compare_view():
    """The view of lesson 08: two results with their ranges and a margin under the hand; the range of the difference answers."""
    return CompareView("Two results", GRIPS, answer, help=HELP)


class CompareView(View):
    """Two results with their ranges, and beside them the difference with its own. Made by `compare_view`."""

    _esm, _css = script("compare/compare"), sheet(*LOOK)

    def numbers(self):
        """What the lesson's cards ask, of the two results that the view begins with."""
        return at_first()


def answer(mine, mine_pm, reference, reference_pm, *, margin=0.3, shown="no"):
    """The range of the difference of two independent results (each ± at 95 %), whether it leaves out 0, and the verdict within the margin."""
    gap, reach = mine - reference, hypot(mine_pm, reference_pm)
    overlap = abs(gap) <= mine_pm + reference_pm
    told = f"Yours minus the reference: {difference(gap, 2)} ({_range(gap, reach)})."
    bars = "The two bars overlap" if overlap else "The two bars lie apart"
    differ = abs(gap) > reach
    seen = f"{bars}, and the range of the difference {'leaves out 0: they differ.' if differ else 'holds 0: no difference shows.'}"
    verdict = equivalence(gap, reach / FACTOR, inf, margin).verdict
    judged = f" Within {stated(margin)}: {verdict}." if shown == "yes" else ""
    return {
        "sentence": f"{told} {seen}{judged}",
        "numbers": [("difference", difference(gap, 2)), ("its range", _range(gap, reach))],
        "picture": f"Two bars, which {'overlap' if overlap else 'do not overlap'}; beside them the bar of the difference, from {_range(gap, reach)}.",
        "table": rows("The two results and their difference", ["what", "value", "range"], _cells(mine, mine_pm, reference, reference_pm)),
        "results": [_dot(1, mine, mine_pm, "treated", "yours"), _dot(2, reference, reference_pm, "control", "reference")],
        "difference": [_dot(1, gap, reach, "difference", "difference")],
        "levels": [{"y": 0, "name": "no difference"}, *([{"y": margin, "name": "margin"}, {"y": -margin}] if shown == "yes" else [])],
        "differ": differ,
        "overlap": overlap,
    }


def _dot(at, value, reach, look, name):
    return {"x": at, "y": value, "low": value - reach, "high": value + reach, "look": look, "name": name}


def _cells(mine, mine_pm, reference, reference_pm):
    triples = (("yours", mine, mine_pm), ("reference", reference, reference_pm), ("difference", mine - reference, hypot(mine_pm, reference_pm)))
    return [[name, difference(value, 2), _range(value, reach)] for name, value, reach in triples]


def _range(value, reach):
    return span(value - reach, value + reach, 2)


def at_first():
    """`Numbers` for the cards: the two results that the view begins with."""
    start = {grip.name: grip.start for grip in GRIPS}
    first = answer(**start)
    texts = {"mine": _range(start["mine"], start["mine_pm"]), "reference": _range(start["reference"], start["reference_pm"])}
    small = {"small": stated(0.15), "small_range": _range(0.15, 0.1), "wide_margin": stated(0.3)}
    word = "differ" if first["differ"] else "same"
    return Numbers({"bars": word}, {**texts, **small, "difference": dict(first["numbers"])["its range"], "gap": dict(first["numbers"])["difference"]})
