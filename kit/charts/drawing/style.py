"""One look for every chart: colours that colour-blind readers can tell apart, line kinds, marks, fonts and margins. Colours stand here only."""

import plotly.graph_objects as go

TREATED, CONTROL, DIFFERENCE, QUIET = "#0b5394", "#a33b00", "#3d6b1f", "#555555"
INK, GRID, PAPER = "#222222", "#dddddd", "#ffffff"
LINES = {
    "treated": {"color": TREATED, "dash": "solid", "width": 2},
    "control": {"color": CONTROL, "dash": "dash", "width": 2},
    "difference": {"color": DIFFERENCE, "dash": "dot", "width": 2},
}
MARKS = {"treated": "circle", "control": "square", "difference": "diamond"}

KIT = go.layout.Template(
    layout={
        "font": {"family": "system-ui, sans-serif", "size": 14, "color": INK},
        "paper_bgcolor": PAPER,
        "plot_bgcolor": PAPER,
        "margin": {"l": 16, "r": 24, "t": 56, "b": 56},
        "showlegend": False,
        "hovermode": "closest",
        "xaxis": {"showgrid": False, "linecolor": INK, "ticks": "outside", "zeroline": False, "automargin": True},
        "yaxis": {"title": {"standoff": 10}, "gridcolor": GRID, "linecolor": INK, "ticks": "outside", "zeroline": False, "automargin": True},
    }
)


def faint(color):
    """A colour like '#0b5394' as a see-through filling."""
    return f"rgba({int(color[1:3], 16)}, {int(color[3:5], 16)}, {int(color[5:], 16)}, 0.18)"
