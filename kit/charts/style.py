"""One look for every chart: colours that colour-blind readers can tell apart, line kinds, fonts and margins."""

from math import isfinite
from textwrap import wrap

import plotly.graph_objects as go

TREATED, CONTROL, DIFFERENCE, QUIET = "#0b5394", "#a33b00", "#3d6b1f", "#555555"
LINES = {
    "treated": {"color": TREATED, "dash": "solid", "width": 2},
    "control": {"color": CONTROL, "dash": "dash", "width": 2},
    "difference": {"color": DIFFERENCE, "dash": "dot", "width": 2},
}
MARKS = {"treated": "circle", "control": "square", "difference": "diamond"}

KIT = go.layout.Template(
    layout={
        "font": {"family": "system-ui, sans-serif", "size": 14, "color": "#222222"},
        "paper_bgcolor": "white",
        "plot_bgcolor": "white",
        "margin": {"l": 64, "r": 24, "t": 56, "b": 56},
        "showlegend": False,
        "hovermode": "closest",
        "xaxis": {"showgrid": False, "linecolor": "#222222", "ticks": "outside", "zeroline": False, "automargin": True},
        "yaxis": {"gridcolor": "#dddddd", "linecolor": "#222222", "ticks": "outside", "zeroline": False, "automargin": True},
    }
)


def figure(traces, *, title, x, y="", **layout):
    """A figure in the kit's look. `title` says what is seen in a sentence; `x` and `y` are axis titles with their units."""
    return go.Figure(traces, layout={"template": KIT, "title": {"text": title}, "xaxis": {"title": {"text": x}}, "yaxis": {"title": {"text": y}}, **layout})


def headed(board, title, subtitle="", *, height, right=24, letters=104):
    """`board` with its heading: a sentence, and smaller below it another, on as many lines as they need, with room for them above.

    `height`: of what lies below the heading, in pixels; `right`: the margin for labels at the ends of lines; `letters`: in a line of
    the subtitle at most (56 fit a telephone).
    """
    first, second = wrap(title, 88), wrap(subtitle, letters)
    room = 48 + 20 * len(first) + 16 * len(second)
    place = {"x": 0, "xref": "container", "y": 1, "yref": "container", "yanchor": "top", "pad": {"l": 16, "t": 16}, "font": {"size": 15}}
    heading = {"text": "<br>".join(first), **place, "subtitle": {"text": "<br>".join(second), "font": {"size": 12}}}
    return board.update_layout(template=KIT, title=heading, height=height + room, margin={"t": room, "r": right})


def reach(estimate, color, **look):
    """The error bar of an `Estimate` for plotly, as far as its range goes to each side; None where the range is open."""
    if not isfinite(estimate.high - estimate.low):
        return None
    sides = {"array": [estimate.high - estimate.value], "arrayminus": [estimate.value - estimate.low]}
    return {"type": "data", "symmetric": False, **sides, "color": color, **look}


def label(figure, text, x, y, color, **place):
    """Write `text` at the point (x, y) of a chart, in the colour of what it names: labels stand at the lines, not in a legend."""
    return figure.add_annotation(text=text, x=x, y=y, font={"color": color}, **{"showarrow": False, "xanchor": "left", **place})
