"""How wide the range gets with the number of runs, and how likely the planned runs tell a warming from none."""

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from kit.analysis.planning import Plan
from kit.charts import draw
from kit.charts.style import CONTROL, DIFFERENCE, QUIET, TREATED, headed, label

KINDS = {
    "ten quiet minutes": (lambda each: each.timing.quiet == 10 and not each.swap, CONTROL, "dash", "square"),
    "one quiet minute": (lambda each: each.timing.quiet == 1 and not each.swap, QUIET, "dot", "circle"),
    "ten, half swapped": (lambda each: each.timing.quiet == 10 and (each.swap or each.runs == 1), TREATED, "solid", "diamond"),
}


@draw.register
def plan_chart(plan: Plan):
    """Half-width against runs on the left, with the wish; chance of telling a warming from none on the right."""
    board = make_subplots(1, 2, horizontal_spacing=0.12, subplot_titles=["how wide", "how likely to be told from none"])
    for name, kind in KINDS.items():
        _widths(board, plan, name, kind)
    board.add_hline(y=plan.half_width_c, line={"color": DIFFERENCE, "dash": "dot"}, row=1, col=1)
    label(board, "wanted", 1, plan.half_width_c, DIFFERENCE, yshift=9, xref="x", yref="y")
    _chances(board, plan)
    return headed(board, str(plan), height=360, right=90)


def _widths(board, plan, name, kind):
    belongs, color, dash, symbol = kind
    options = [each for each in plan.options if belongs(each) and (each.shorter or each.timing.baseline == plan.chosen.timing.baseline)]
    if not options:
        return
    x, y = [each.runs for each in options], [each.half_width_c for each in options]
    line, mark = {"color": color, "dash": dash, "width": 2}, {"symbol": symbol, "color": color, "size": 7}
    board.add_trace(go.Scatter(x=x, y=y, mode="lines+markers", line=line, marker=mark, name=name), row=1, col=1)
    label(board, name, x[-1], y[-1], color, xshift=6, xref="x", yref="y")
    board.update_xaxes(title_text="number of runs", tickvals=[1, 3, 6, 9, 12], range=[0, 21], row=1, col=1)
    board.update_yaxes(title_text="4 of 5 reach at most ± (°C)", rangemode="tozero", row=1, col=1)


def _chances(board, plan):
    sizes = np.linspace(0, 4 * plan.chosen.half_width_c, 80)
    chances = 100 * plan.chance_of_telling(sizes)
    board.add_trace(go.Scatter(x=sizes, y=chances, mode="lines", line={"color": TREATED, "width": 2}, name="chance"), row=1, col=2)
    label(board, f"{plan.runs} run{'s' * (plan.runs > 1)}", sizes[-1], chances[-1], TREATED, xshift=6, xref="x2", yref="y2")
    board.update_xaxes(title_text="true extra warming (°C)", row=1, col=2)
    board.update_yaxes(title_text="% of such plans", range=[0, 105], row=1, col=2)
