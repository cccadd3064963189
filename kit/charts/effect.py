"""The effect with its range against zero, and below it what makes the range wide."""

from math import isfinite

from kit.analysis.effect import Effect
from kit.charts import draw
from kit.charts.sheet import Panel, remark, ranged, sheet, upright
from kit.charts.style import DIFFERENCE, MARKS, QUIET
from kit.estimate import MINUS

NAME = f"treated {MINUS} control"


@draw.register
def effect_chart(effect: Effect):
    """A dot with its range, zero marked; below it one bar for each line of the budget, the largest first. Without a number: why not."""
    if not isfinite(effect.warming.value):
        return sheet(Panel([], xaxis={"visible": False}, yaxis={"visible": False}), title=str(effect), height=60)
    said = f"{effect.reason} {effect.condition}"
    return sheet(_range(effect.warming), _budget(effect.budget), title=str(effect), said=said, height=360, right=120, gap=0.34)


def _range(warming):
    notes = [remark(warming.range, warming.high, NAME, DIFFERENCE, xshift=8), remark("no change", 0, 1, QUIET, yref="domain", xshift=4, yshift=8)]
    dot = ranged(warming, NAME, DIFFERENCE, symbol=MARKS["difference"], name=NAME)
    return Panel([dot], x="warmed more by (°C)", marks=[upright(0)], notes=notes, xaxis={"rangemode": "tozero"})


def _budget(budget):
    names = [line.name for line in budget]
    bars = {"type": "bar", "x": [line.size_c for line in budget], "y": names, "orientation": "h", "marker": {"color": QUIET}, "width": 0.5}
    notes = [remark(line.size_text, line.size_c, line.name, QUIET, xshift=6) for line in budget]
    axes = {"xaxis": {"rangemode": "tozero"}, "yaxis": {"categoryorder": "array", "categoryarray": names[::-1], "showgrid": False}}
    return Panel([bars], x="each alone could move the effect by up to (°C)", notes=notes, share=2, **axes)
