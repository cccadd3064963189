"""Two runs over each other, the gap between them with the margin around zero, and the range that the verdict rests on."""

import plotly.graph_objects as go
from plotly.subplots import make_subplots

from kit.analysis.comparison import Comparison, overlay
from kit.charts import draw
from kit.charts.style import CONTROL, DIFFERENCE, QUIET, TREATED, headed, label, reach

MARGIN = "rgba(61, 107, 31, 0.14)"


@draw.register
def comparison_chart(comparison: Comparison):
    """Overlay above, gap and margin in the middle, the tested range below; without two runs the last alone."""
    laid = overlay(comparison.mine, comparison.reference)
    heights = [3, 2, 1.4] if laid is not None else [1]
    titles = ["since the change", "mine minus reference", "difference of the two results"][-len(heights) :]
    board = make_subplots(len(heights), 1, vertical_spacing=0.2, row_heights=heights, subplot_titles=titles)
    if laid is not None:
        _runs(board, laid)
        _gap(board, laid, comparison.margin)
    _tested(board, comparison, len(heights))
    return headed(board, str(comparison), comparison.reason, height=120 + 150 * len(heights), right=120)


def _runs(board, laid):
    for name, color, dash in (("mine", TREATED, "solid"), ("reference", CONTROL, "dash")):
        line = {"color": color, "dash": dash, "width": 2}
        board.add_trace(go.Scatter(x=laid.index, y=laid[name], mode="lines", line=line, name=name), row=1, col=1)
        over = laid["mine"].iloc[-1] >= laid["reference"].iloc[-1]
        label(
            board,
            name,
            laid.index[-1],
            laid[name].iloc[-1],
            color,
            xshift=6,
            yshift=8 if over == (name == "mine") else -8,
            xref="x",
            yref="y",
        )
    board.update_yaxes(title_text="°C", row=1, col=1)


def _gap(board, laid, margin):
    board.add_trace(go.Scatter(x=laid.index, y=laid["gap"], mode="lines", line={"color": DIFFERENCE, "width": 2}, name="gap"), row=2, col=1)
    board.add_hrect(y0=-margin, y1=margin, fillcolor=MARGIN, line_width=0, row=2, col=1)
    label(board, "gap", laid.index[-1], laid["gap"].iloc[-1], DIFFERENCE, xshift=6, xref="x2", yref="y2")
    label(board, f"margin ± {margin:g} °C", laid.index[0], margin, DIFFERENCE, yshift=-10, xref="x2", yref="y2")
    board.update_yaxes(title_text="°C", row=2, col=1)
    board.update_xaxes(title_text="time since the change (min)", row=2, col=1)


def _tested(board, comparison, row):
    axes = {"xref": f"x{row}" if row > 1 else "x", "yref": f"y{row}" if row > 1 else "y"}
    margin = comparison.margin
    if comparison.test:
        for height, estimate, name in (
            (1, comparison.difference, f"{100 * comparison.difference.level:g} % range"),
            (0, comparison.tested, "tested range"),
        ):
            mark = {"color": TREATED, "symbol": "diamond", "size": 10}
            board.add_trace(
                go.Scatter(x=[estimate.value], y=[height], mode="markers", marker=mark, error_x=reach(estimate, TREATED), name=name), row=row, col=1
            )
            label(board, name, estimate.high, height, TREATED, xshift=8, **axes)
    everywhere = {"row": row, "col": 1, "exclude_empty_subplots": False}
    board.add_vrect(x0=-margin, x1=margin, fillcolor=MARGIN, line_width=0, **everywhere)
    board.add_vline(x=0, line={"color": QUIET, "dash": "dot"}, **everywhere)
    label(board, f"margin ± {margin:g} °C", -margin, 1.6, DIFFERENCE, xshift=4, **axes)
    board.update_yaxes(showticklabels=False, range=[-0.8, 2], showgrid=False, ticks="", row=row, col=1)
    board.update_xaxes(title_text="mine minus reference (°C)", row=row, col=1)
