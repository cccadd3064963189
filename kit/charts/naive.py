"""Two ranges of one effect: the one that takes every reading for an independent look, and the honest one."""

import plotly.graph_objects as go

from kit.analysis.effect import NaiveEffect
from kit.charts import draw
from kit.charts.style import CONTROL, DIFFERENCE, QUIET, headed, label, reach


@draw.register
def naive_chart(naive: NaiveEffect):
    """Both ranges against zero, each with its name and digits; the mark of the independent one is hollow."""
    rows = (("honest", naive.honest.warming, DIFFERENCE, "diamond"), ("as if independent", naive.warming, CONTROL, "diamond-open"))
    board = headed(go.Figure([_row(*row) for row in rows]), str(naive), f"The honest range: {naive.honest.warming.range}.", height=200, right=170)
    for name, estimate, color, _ in rows:
        label(board, estimate.range, 1, name, color, xref="paper", xshift=8)
    board.add_vline(x=0, line={"color": QUIET, "dash": "dot"}, annotation={"text": "no change", "font": {"color": QUIET}})
    board.update_yaxes(showgrid=False, range=[-0.6, 1.6])
    return board.update_xaxes(title_text="warmed more by (°C)", rangemode="tozero")


def _row(name, estimate, color, symbol):
    mark = {"symbol": symbol, "size": 8, "color": color}
    return go.Scatter(x=[estimate.value], y=[name], mode="markers", marker=mark, error_x=reach(estimate, color, thickness=3, width=10), name=name)
