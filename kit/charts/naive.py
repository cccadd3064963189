"""Two ranges of one effect: the one that takes every reading for an independent look, and the honest one."""

from kit.analysis.effect import NaiveEffect
from kit.charts import draw
from kit.charts.sheet import Panel, remark, ranged, sheet, upright
from kit.charts.style import CONTROL, DIFFERENCE, QUIET


@draw.register
def naive_chart(naive: NaiveEffect):
    """Both ranges against zero, each with its name and digits; the mark of the independent one is hollow."""
    rows = (("honest", naive.honest.warming, DIFFERENCE, "diamond"), ("as if independent", naive.warming, CONTROL, "diamond-open"))
    traces = [ranged(estimate, name, color, symbol=symbol, size=10, name=name) for name, estimate, color, symbol in rows]
    words = [remark(estimate.range, 1, name, color, xref="domain", xshift=8) for name, estimate, color, _ in rows]
    notes = [*words, remark("no change", 0, 1, QUIET, yref="domain", yanchor="bottom")]
    axes = {"xaxis": {"rangemode": "tozero"}, "yaxis": {"showgrid": False, "range": [-0.6, 1.6]}}
    panel = Panel(traces, x="warmed more by (°C)", marks=[upright(0)], notes=notes, **axes)
    return sheet(panel, title=str(naive), said=f"The honest range: {naive.honest.warming.range}.", height=200, right=170)
