"""The effect with its range against zero, and below it what makes the range wide."""

from math import isfinite

import plotly.graph_objects as go
from plotly.subplots import make_subplots

from kit.analysis.effect import Effect
from kit.charts import draw
from kit.charts.style import DIFFERENCE, MARKS, QUIET, headed, label, reach
from kit.estimate import MINUS

NAME = f"treated {MINUS} control"


@draw.register
def effect_chart(effect: Effect):
    """A dot with its range, zero marked; below it one bar for each line of the budget, the largest first. Without a number: why not."""
    if not isfinite(effect.warming.value):
        return headed(go.Figure(), str(effect), height=60).update_xaxes(visible=False).update_yaxes(visible=False)
    board = make_subplots(2, 1, row_heights=[1, 2], vertical_spacing=0.34)
    _range(board, effect.warming)
    _budget(board, effect.budget)
    subtitle = f"{effect.reason} The range holds {effect.condition}."
    return headed(board, str(effect), subtitle, height=360, right=120)


def _range(board, warming):
    mark = {"symbol": MARKS["difference"], "size": 12, "color": DIFFERENCE}
    bar = reach(warming, DIFFERENCE, thickness=4, width=10)
    board.add_trace(go.Scatter(x=[warming.value], y=[NAME], mode="markers", marker=mark, error_x=bar, name=NAME), row=1, col=1)
    label(board, warming.range, warming.high, NAME, DIFFERENCE, xshift=8, xref="x", yref="y")
    board.add_vline(x=0, line={"color": QUIET, "dash": "dot"}, row=1, col=1)
    label(board, "no change", 0, 1, QUIET, xshift=4, yshift=8, xref="x", yref="y domain")
    board.update_xaxes(title_text="warmed more by (°C)", rangemode="tozero", row=1, col=1)


def _budget(board, budget):
    names = [line.name for line in budget]
    bars = go.Bar(x=[line.size_c for line in budget], y=names, orientation="h", marker={"color": QUIET}, width=0.5, name="budget")
    board.add_trace(bars, row=2, col=1)
    for line in budget:
        label(board, line.size_text, line.size_c, line.name, QUIET, xshift=6, xref="x2", yref="y2")
    board.update_yaxes(categoryorder="array", categoryarray=names[::-1], showgrid=False, row=2, col=1)
    board.update_xaxes(title_text="each alone could move the effect by up to (°C)", rangemode="tozero", row=2, col=1)
