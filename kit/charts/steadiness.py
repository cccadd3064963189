"""The stretch that was judged, the line through it, and the drift with its range against the tolerance."""

from math import isfinite

import plotly.graph_objects as go
from plotly.subplots import make_subplots

from kit.analysis.steady import Steadiness
from kit.charts import draw
from kit.charts.run import thinned
from kit.charts.style import CONTROL, DIFFERENCE, QUIET, TREATED, headed, label, reach

BAND = "rgba(85, 85, 85, 0.15)"
COLORS = {"difference": DIFFERENCE, "treated": TREATED, "control": CONTROL}


@draw.register
def steadiness_chart(steadiness: Steadiness):
    """Readings and line above; below, the drift with its range, and the band within which it counts as steady."""
    board = make_subplots(2, 1, row_heights=[3, 1], vertical_spacing=0.26)
    _readings(board, steadiness)
    _drift(board, steadiness)
    return headed(board, str(steadiness), height=400, right=120)


def _readings(board, steadiness):
    color, (minutes, values) = COLORS[steadiness.of], steadiness.seen
    x, y = thinned(minutes, values)
    board.add_trace(go.Scatter(x=x, y=y, mode="lines", line={"color": color, "width": 1}, name=steadiness.of), row=1, col=1)
    board.update_xaxes(title_text="time (min)", row=1, col=1)
    board.update_yaxes(title_text=f"{steadiness.of} (°C)", row=1, col=1)
    if isfinite(steadiness.slope.value):
        ends, line = steadiness.line
        board.add_trace(go.Scatter(x=ends, y=line, mode="lines", line={"color": "#222222", "dash": "dash", "width": 3}, name="line"), row=1, col=1)
        label(board, "line through it", ends[1], line[1], "#222222", xshift=6, xref="x", yref="y")


def _drift(board, steadiness):
    slope, tolerance, color = steadiness.slope, steadiness.tolerance_c_per_min, COLORS[steadiness.of]
    everywhere = {"row": 2, "col": 1, "exclude_empty_subplots": False}
    board.add_vrect(x0=-tolerance, x1=tolerance, fillcolor=BAND, line_width=0, **everywhere)
    label(board, f"steady: within ±{tolerance:g}", -tolerance, 1, QUIET, yshift=10, xref="x2", yref="y2 domain")
    board.add_vline(x=0, line={"color": QUIET, "dash": "dot"}, **everywhere)
    if isfinite(slope.value):
        mark = {"symbol": "diamond", "size": 12, "color": color}
        bar = reach(slope, color, thickness=4, width=10)
        board.add_trace(go.Scatter(x=[slope.value], y=["drift"], mode="markers", marker=mark, error_x=bar, name="drift"), row=2, col=1)
        label(board, slope.range, slope.high, "drift", color, xshift=8, xref="x2", yref="y2")
    board.update_xaxes(title_text="drift (°C a minute)", row=2, col=1)
