"""A class: its runs side by side; and its board, every group with its range, the class mean, what one more group would measure."""

from math import ceil

import plotly.graph_objects as go
from plotly.subplots import make_subplots

from kit.analysis.classes import ClassEffect
from kit.charts import draw
from kit.charts.run import thinned
from kit.charts.style import CONTROL, DIFFERENCE, QUIET, TREATED, headed, label, reach
from kit.estimate import MINUS
from kit.intake.classes import ClassRuns

COLUMNS = 4


@draw.register
def forest_chart(effect: ClassEffect):
    """One row a group, the larger the mark the more it weighs; below them the means, and the range for one more group."""
    rows = [*_groups(effect), *_means(effect)]
    names = [name for name, *_ in rows]
    traces = [_row(*row) for row in rows]
    board = headed(go.Figure(traces), str(effect), height=80 + 34 * len(rows), right=270)
    board.update_xaxes(title_text="extra warming of the treated vessel (°C)")
    board.update_yaxes(categoryorder="array", categoryarray=names[::-1], showgrid=False)
    board.add_vline(x=0, line={"color": QUIET, "dash": "dot"})
    for name, estimate, color, _ in rows:
        label(board, estimate.text if estimate is not effect.next_group else next_text(estimate), 1, name, color, xref="paper", xshift=8)
    return board


def next_text(estimate):
    """The range for one more group with its level: it has no best value worth naming."""
    return f"{estimate.range} ({100 * estimate.level:g} %)"


def _groups(effect):
    for share in effect.shares:
        name = f"{share.name} (look again)" if share.suspect else share.name
        yield (
            name,
            share.warming,
            CONTROL if share.suspect else DIFFERENCE,
            {"symbol": "x" if share.suspect else "square", "size": 8 + 18 * share.weight},
        )


def _means(effect):
    yield "class mean", effect.mean, TREATED, {"symbol": "diamond", "size": 15}
    for share in effect.suspects:
        yield f"without {share.name}", share.without, TREATED, {"symbol": "diamond-open", "size": 12}
    yield "plain mean, by hand", effect.plain_mean, QUIET, {"symbol": "circle", "size": 9}
    yield "one more group", effect.next_group, QUIET, {"symbol": "line-ns-open", "size": 10}


def _row(name, estimate, color, mark):
    return go.Scatter(
        x=[estimate.value], y=[name], mode="markers", marker={"color": color, **mark}, error_x=reach(estimate, color), name=name
    )


@draw.register
def class_runs_chart(runs: ClassRuns):
    """One small panel a run, all to the same scale: treated minus control over time."""
    rows = ceil(len(runs) / COLUMNS)
    names = [run.name for run in runs]
    panels = {"shared_xaxes": "all", "shared_yaxes": "all", "vertical_spacing": 0.3 / max(rows, 2), "horizontal_spacing": 0.03}
    board = make_subplots(rows, COLUMNS, subplot_titles=names, **panels)
    for place, run in enumerate(runs):
        x, y = thinned(run.minutes, run.difference().to_numpy())
        line = go.Scatter(x=x, y=y, mode="lines", line={"color": DIFFERENCE, "width": 1.5}, name=run.name)
        board.add_trace(line, row=place // COLUMNS + 1, col=place % COLUMNS + 1)
    board.update_xaxes(title_text="time (min)", row=rows)
    board.update_yaxes(title_text=f"treated {MINUS} control (°C)", col=1)
    return headed(board, str(runs), " ".join(map(str, runs.faults)), height=90 + 190 * rows)
