"""Two ranges of one effect: the one that takes every reading for an independent look, and the honest one."""

from kit.analysis.effect import NaiveEffect
from kit.charts import draw
from kit.charts.drawing import CONTROL, DIFFERENCE, Panel, QUIET, ranged, remark, row_axis, row_label, sheet, upright


@draw.register
def naive_chart(naive: NaiveEffect):
    """Both ranges against zero, each with its name and digits; the mark of the independent one is hollow."""
    rows = (("honest", naive.honest.warming, DIFFERENCE, "diamond"), ("as if independent", naive.warming, CONTROL, "diamond-open"))
    traces = [ranged(estimate, name, color, symbol=symbol, size=10, name=name) for name, estimate, color, symbol in rows]
    words = [row_label(name, estimate.range, color) for name, estimate, color, _ in rows]
    notes = [*words, remark("no change", 0, 1, QUIET, yref="domain", yanchor="bottom")]
    axes = {"xaxis": {"rangemode": "tozero"}, "yaxis": row_axis([row[0] for row in rows])}
    panel = Panel(traces, x="warmed more by (°C)", marks=[upright(0)], notes=notes, **axes)
    return sheet(panel, title=str(naive), said=f"The honest range: {naive.honest.warming.range}.", height=230)
