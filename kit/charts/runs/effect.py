"""The effect with its range against zero, and below it what makes the range wide."""

from math import isfinite

from kit.analysis.effect import Effect
from kit.charts import draw
from kit.charts.drawing import DIFFERENCE, MARKS, Panel, QUIET, ranged, remark, row_axis, row_label, sheet, upright
from kit.estimate import MINUS

NAME = f"treated {MINUS} control"


@draw.register
def effect_chart(effect: Effect):
    """A dot with its range, zero marked; below it one bar for each line of the budget, the largest first. Without a number: why not."""
    if not isfinite(effect.warming.value):
        return sheet(Panel([], xaxis={"visible": False}, yaxis={"visible": False}), title=str(effect), height=60)
    said = f"{effect.reason} {effect.condition}"
    return sheet(_range(effect.warming), _budget(effect.budget), title=str(effect), said=said, height=180 + 46 * max(len(effect.budget), 3), gap=0.34)


def _range(warming):
    notes = [row_label(NAME, warming.range, DIFFERENCE), remark("no change", 0, 1, QUIET, yref="domain", xshift=4, yshift=8)]
    dot = ranged(warming, NAME, DIFFERENCE, symbol=MARKS["difference"], name=NAME)
    return Panel([dot], x="warmed more by (°C)", marks=[upright(0)], notes=notes, xaxis={"rangemode": "tozero"}, yaxis=row_axis([NAME]))


def _budget(budget):
    names = [line.name for line in budget]
    bars = {"type": "bar", "x": [line.size_c for line in budget], "y": names, "orientation": "h", "marker": {"color": QUIET}, "width": 0.22}
    notes = [row_label(line.name, line.size_text, QUIET) for line in budget]
    axes = {"xaxis": {"rangemode": "tozero"}, "yaxis": row_axis(names)}
    return Panel([bars], x="alone moves it by up to (°C)", notes=notes, share=2, **axes)
