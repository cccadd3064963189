"""The class board: every group with its range, the class mean, and what one more group would measure."""

import plotly.graph_objects as go

from kit.analysis.pooling import ClassEffect
from kit.charts import draw
from kit.charts.style import CONTROL, DIFFERENCE, QUIET, TREATED, headed, label


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
        label(board, estimate.text if estimate is not effect.next_group else estimate.range, 1, name, color, xref="paper", xshift=8)
    return board


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
    reach = {
        "type": "data",
        "symmetric": False,
        "array": [estimate.high - estimate.value],
        "arrayminus": [estimate.value - estimate.low],
        "color": color,
    }
    known = abs(estimate.half_width) < float("inf")
    return go.Scatter(
        x=[estimate.value], y=[name], mode="markers", marker={"color": color, **mark}, error_x=reach if known else None, name=name
    )
