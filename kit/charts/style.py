"""One look for every chart: colours that colour-blind readers can tell apart, line kinds, fonts and margins."""

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


def label(figure, text, x, y, color, **place):
    """Write `text` at the point (x, y) of a chart, in the colour of what it names: labels stand at the lines, not in a legend."""
    return figure.add_annotation(text=text, x=x, y=y, font={"color": color}, **{"showarrow": False, "xanchor": "left", **place})
