"""A chart laid out in one go: traces, lines, bands and labels handed to plotly at once, which is several times faster than adding them."""

from textwrap import wrap

import plotly.graph_objects as go

from kit.charts.style import KIT, QUIET


def sheet(traces, *, title, said, x, y="", marks=(), notes=(), margin=(), **layout):
    """A figure with its title and, under it, the result's own sentence. `marks`: shapes from below; `notes`: labels from `note`."""
    lines = wrap(said, 95)
    axes = {"xaxis": {"title": {"text": x}, **layout.pop("xaxis", {})}, "yaxis": {"title": {"text": y}, **layout.pop("yaxis", {})}}
    named = {"text": title, "subtitle": {"text": "<br>".join(lines)}, "y": 1, "yanchor": "top", "pad": {"t": 14}}
    edges = {"t": 58 + 19 * len(lines), **dict(margin)}
    drawn = {"shapes": list(marks), "annotations": list(notes), "margin": edges}
    return go.Figure(traces, {"template": KIT, "title": named, **drawn, **axes, **layout})


def note(text, x, y, color, **place):
    """A label at (x, y) in the colour of what it names."""
    return {"text": text, "x": x, "y": y, "font": {"color": color}, "showarrow": False, "xanchor": "left", **place}


def upright(low, high=None, *, color=QUIET, dash="dot"):
    """A line from top to bottom at `low`, or a band from `low` to `high`."""
    return _shape({"x0": low, "x1": low if high is None else high, "y0": 0, "y1": 1, "yref": "paper"}, high, color, dash)


def level(low, high=None, *, color=QUIET, dash="dot"):
    """A line from side to side at `low`, or a band from `low` to `high`."""
    return _shape({"y0": low, "y1": low if high is None else high, "x0": 0, "x1": 1, "xref": "paper"}, high, color, dash)


def faint(color):
    """A colour like '#0b5394' as a see-through filling."""
    return f"rgba({int(color[1:3], 16)}, {int(color[3:5], 16)}, {int(color[5:], 16)}, 0.2)"


def _shape(corners, high, color, dash):
    if high is None:
        return {"type": "line", "line": {"color": color, "dash": dash, "width": 2}, **corners}
    return {"type": "rect", "fillcolor": faint(color), "line": {"width": 0}, "layer": "below", **corners}
