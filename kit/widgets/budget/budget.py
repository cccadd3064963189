"""The budget of an effect as bars that the hand pulls down, and beside them the range that is left."""

from functools import partial

import ipywidgets

from kit.analysis.effect import Effect, warming_with
from kit.faults import Fault
from kit.units import difference, difference_in, unit
from kit.widgets.cards import view_of
from kit.widgets.shared import Grip, LOOK, rows, script, sheet, View
from kit.words import listed

HELP = "Each bar is one cause of the range, as long as it alone would reach to each side. Pull a bar down. Arrow keys work, too."
NO_RANGE = "There is no range to take apart yet. Place the three windows on quiet readings first."
HEADROOM, SEEN_C = 1.25, 0.0005


def budget_view(source):
    """The bars of what makes a range wide, to be pulled down one by one. `source`: an `Effect`, or a marker from `mark_windows`, whose windows are
    then followed whenever they rest."""
    if isinstance(source, Effect):
        return BudgetView(source)
    box = ipywidgets.VBox()

    def fill(_change=None):
        if source.effect or not box.children:
            box.children = (view_of("budget", lambda: BudgetView(source.effect)),)

    fill()
    source.observe(fill, "effect")
    return box


class BudgetView(View):
    """What makes the range of one effect wide, under the hand. Made by `budget_view`."""

    _esm, _css = script("budget/budget"), sheet(*LOOK, "budget/budget")

    def __init__(self, effect):
        if effect is None or not effect.budget:
            raise Fault(effect.reason if effect else NO_RANGE)
        grips = [Grip(line.name, line.name, 0, 100, 100, step=5, unit="%") for line in effect.budget if line.size_c > SEEN_C]
        super().__init__(f"What makes the range wide: {effect.run.name}", grips, partial(answer_of, effect), help=HELP)


def answer_of(effect, **percents):
    """The bars, each at the percentage left of it, and the range of what is left."""
    whole, pulled = effect.warming, warming_with(effect, {name: percent / 100 for name, percent in percents.items()})
    kept = pulled.half_width / whole.half_width
    left = {line.name: percents.get(line.name, 100) / 100 for line in effect.budget}
    return {
        "sentence": _told(effect, pulled, percents) if min(percents.values()) < 100 else _first(effect),
        "numbers": [("range", pulled.range), ("its width, of the whole", f"{100 * kept:.0f} %")],
        "picture": f"A bar for each of {len(effect.budget)} causes, the largest first; beside them the range as measured and the range that is left.",
        "table": rows("What makes the range wide", ["cause", "alone it would reach", "left of it", "what would shrink it"], _cells(effect, left)),
        "bars": [{"name": line.name, "size": line.size_c, "left": left[line.name], "words": line.size_text} for line in effect.budget],
        "unit": unit(),
        "dots": [_dot(1, whole, "gas"), _dot(2, pulled, "difference")],
        "span": _span(whole),
    }


def _first(effect):
    return f"The range reaches {_reach(effect.warming)} to each side. The largest bar is {effect.budget[0].name}. Pull one down."


def _told(effect, pulled, percents):
    """What the pulled bars leave, and what would really shrink the one that is pulled down most."""
    named = listed([f"{name} at {percent:g} %" for name, percent in percents.items() if percent < 100])
    most = next(line for line in effect.budget if line.name == min(percents, key=percents.get))
    reach = f"With {named} the range would reach {_reach(pulled)} to each side, and not {_reach(effect.warming)}."
    return f"{reach} To shrink {most.name}: {most.remedy}."


def _cells(effect, left):
    return [[line.name, line.size_text, f"{100 * left[line.name]:.0f} %", line.remedy] for line in effect.budget]


def _dot(at, estimate, look):
    ends = {"y": estimate.value, "low": estimate.low, "high": estimate.high}
    return {"x": at, "look": look, **{name: difference_in(end) for name, end in ends.items()}}


def _span(whole):
    reach = HEADROOM * max(whole.high - whole.value, whole.value - whole.low)
    return [difference_in(whole.value - reach), difference_in(whole.value + reach)]


def _reach(estimate):
    return difference(estimate.half_width, 3 if estimate.half_width < 0.1 else 2)
