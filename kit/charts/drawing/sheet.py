"""How every chart is built: panels of traces, marks and notes as plain dicts, handed to plotly at once, several times faster than adding them."""

from dataclasses import dataclass, field
from html import escape
from math import isfinite
from textwrap import wrap

import plotly.graph_objects as go

from kit.charts.drawing.degrees import in_class_unit
from kit.charts.drawing.style import KIT, QUIET, faint

ROW_LETTERS = 38


@dataclass(frozen=True, eq=False)
class Panel:
    """One pair of axes with what is drawn on it, all in the axes' own values. `x`, `y`: their titles with units; `heading`: above it.

    `traces` from `line`, `dots`, `band`, `ranged`; `marks` from `upright` and `level`; `notes` from `note`. `share`: of the height (or
    width), against the other panels. `xaxis`, `yaxis`: what plotly should know besides.
    An axis whose title names °C is drawn in the class's unit, and so is one in `untitled_c` ('x', 'y'), whose title another panel bears;
    `on_scale` names those that hold readings, not differences.
    """

    traces: list
    x: str = ""
    y: str = ""
    heading: str = ""
    marks: list = ()
    notes: list = ()
    share: float = 1
    xaxis: dict = field(default_factory=dict)
    yaxis: dict = field(default_factory=dict)
    untitled_c: str = ""
    on_scale: str = ""


def sheet(*panels, title, said="", height=310, right=24, letters=104, columns=1, gap=0.2, tied=""):
    """A figure of these panels, row by row, under its heading: a sentence, and smaller below it another, on as many lines as they need.

    `height`: of what lies below the heading, in pixels; `right`: the margin for labels at the ends of lines; `letters`: in a line of the
    second sentence at most (56 fit a telephone); `gap`: between panels, a share of the whole; `tied`: axes that all panels share
    ('x', 'xy'), with their numbers at the outermost only.
    """
    panels = [in_class_unit(panel) for panel in panels]
    first, second = ([_plain(each) for each in wrap(text, most)] for text, most in ((title, 88), (said, letters)))
    room = 48 + 20 * len(first) + 16 * len(second)
    place = {"x": 0, "xref": "container", "y": 1, "yref": "container", "yanchor": "top", "pad": {"l": 16, "t": 16}, "font": {"size": 15}}
    heading = {"text": "<br>".join(first), **place, "subtitle": {"text": "<br>".join(second), "font": {"size": 12}}}
    layout = {"template": KIT, "title": heading, "height": height + room, "margin": {"t": room, "r": right}, "shapes": [], "annotations": []}
    layout["meta"] = {"title": title, "said": said}
    traces = [each for place, panel in enumerate(panels) for each in _laid(layout, panel, place, _frame(panels, place, columns, gap, tied))]
    return go.Figure(traces, layout)


def line(x, y, color, *, dash="solid", width=2, **more):
    """A line through points; missing readings are gaps."""
    return {"type": "scatter", "x": x, "y": y, "mode": "lines", "line": {"color": color, "dash": dash, "width": width}, **more}


def dots(x, y, color, *, symbol="circle", size=8, opacity=1, **more):
    """Points, each for itself."""
    mark = {"symbol": symbol, "size": size, "color": color, "opacity": opacity}
    return {"type": "scatter", "x": x, "y": y, "mode": "markers", "marker": mark, **more}


def band(x, low, high, color, **more):
    """The room between two lines."""
    around = {"x": [*x, *x[::-1]], "y": [*high, *low[::-1]], "fill": "toself", "fillcolor": faint(color)}
    return {"type": "scatter", **around, "mode": "lines", "line": {"width": 0}, "hoverinfo": "skip", **more}


def ranged(estimate, y, color, *, symbol="diamond", size=12, **more):
    """The value of an `Estimate` as a mark at height `y`, with its range."""
    return dots([estimate.value], [y], color, symbol=symbol, size=size, error_x=reach(estimate.value, estimate, color), **more)


def reach(value, span, color):
    """The range around `value` as plotly's error bar; it need not be even. `span`: an `Estimate` or a `Range`. None if it has no ends."""
    if not (isfinite(span.low) and isfinite(span.high)):
        return None
    ends = {"array": [span.high - value], "arrayminus": [value - span.low]}
    return {"type": "data", "symmetric": False, **ends, "color": color, "thickness": 3, "width": 9}


def remark(text, x, y, color, **place):
    """A label at (x, y) in the colour of what it names: labels stand at the lines, not in a legend."""
    return {"text": text, "x": x, "y": y, "font": {"color": color}, "showarrow": False, "xanchor": "left", **place}


def end_label(text, x, y, color, *, below=False):
    """A label over (or `below`) the right end of a line: beside it, it would take a quarter of a narrow page."""
    up, away = ("top", -4) if below else ("bottom", 4)
    return remark(text, x, y, color, xanchor="right", align="right", yanchor=up, yshift=away)


def row_axis(names):
    """The y axis of a chart in rows, from top to bottom; their names stand above them (`row_label`), so that a narrow page has room."""
    order = {"categoryorder": "array", "categoryarray": names[::-1], "range": [-0.5, len(names) - 0.3]}
    return {**order, "showticklabels": False, "showgrid": False, "ticks": ""}


def row_label(name, said, color):
    """A row's name and what is `said` of it, above the row: on two lines if one is more than a narrow page can hold."""
    parted = "<br>" if len(name) + len(said) > ROW_LETTERS else "  "
    look = {"font": {"color": color, "size": 12}, "align": "left", "xshift": 4, "yanchor": "bottom", "yshift": 8}
    return remark(f"<b>{_plain(name)}</b>{parted}{said}", 0, name, color, xref="domain", **look)


def upright(low, high=None, *, color=QUIET, dash="dot", width=2):
    """A line from top to bottom at `low`, or a band from `low` to `high`."""
    return _shape({"x0": low, "x1": low if high is None else high, "y0": 0, "y1": 1, "yref": "domain"}, high, color, dash, width)


def level(low, high=None, *, color=QUIET, dash="dot", width=2):
    """A line from side to side at `low`, or a band from `low` to `high`."""
    return _shape({"y0": low, "y1": low if high is None else high, "x0": 0, "x1": 1, "xref": "domain"}, high, color, dash, width)


def _plain(text):
    """Text that plotly shows letter by letter: a name may hold what it takes for markup."""
    return escape(text, quote=False)


def _shape(corners, high, color, dash, width):
    if high is None:
        return {"type": "line", "line": {"color": color, "dash": dash, "width": width}, **corners}
    return {"type": "rect", "fillcolor": faint(color), "line": {"width": 0}, "layer": "below", **corners}


def _laid(layout, panel, place, frame):
    """Put a panel's axes, marks and notes into `layout`; its traces, each with the axes it belongs to."""
    number = "" if place == 0 else str(place + 1)
    x, y = f"x{number}", f"y{number}"
    for letter, title, own, other in (("x", panel.x, panel.xaxis, y), ("y", panel.y, panel.yaxis, x)):
        layout[f"{letter}axis{number}"] = {"title": {"text": title}, "anchor": other, **frame[letter], **own}
    heading = [remark(_plain(panel.heading), 0, 1, None, xref="domain", yref="domain", yanchor="bottom", yshift=4)] if panel.heading else []
    layout["shapes"] += [_placed(each, x, y) for each in panel.marks]
    layout["annotations"] += [_placed(each, x, y) for each in (*heading, *panel.notes)]
    return [{**trace, "xaxis": x, "yaxis": y} for trace in panel.traces]


def _placed(thing, x, y):
    """A mark or note with the names of the axes it is measured along; 'domain' is a share of the panel."""
    return {**thing, **{f"{name[0]}ref": _along(thing.get(f"{name[0]}ref"), name) for name in (x, y)}}


def _along(reference, name):
    return f"{name} domain" if reference == "domain" else reference or name


def _frame(panels, place, columns, gap, tied):
    """Where the panel at `place` stands, and which of its axes follow the first panel's."""
    row, column, rows = place // columns, place % columns, -(-len(panels) // columns)
    shares = [panel.share for panel in panels[::columns]] if rows > 1 else [1]
    widths = [panel.share for panel in panels[:columns]] if rows == 1 else [1] * columns
    low, high = _stretch(shares, row, gap)
    across = {"domain": _stretch(widths, column, gap if rows == 1 else 0.03)}
    up = {"domain": (1 - high, 1 - low)}
    if "x" in tied:
        across |= {"showticklabels": place + columns >= len(panels), **({"matches": "x"} if place else {})}
    if "y" in tied:
        up |= {"showticklabels": column == 0, **({"matches": "y"} if place else {})}
    return {"x": across, "y": up}


def _stretch(shares, place, gap):
    """(start, end) of the part at `place`: parts by their shares, with `gap` between two."""
    room = (1 - gap * (len(shares) - 1)) / sum(shares)
    start = room * sum(shares[:place]) + gap * place
    return start, min(start + room * shares[place], 1)
