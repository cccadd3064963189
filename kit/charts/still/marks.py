"""The marks of a figure: lines, points, bands, bars, error bars, and the lines and bands laid over or under them."""

from itertools import groupby
from math import isfinite

from kit.charts.drawing import INK, PAPER
from kit.charts.still.axes import BAR_REACH, reaches
from kit.charts.still.pen import dashed, filled, line, put

MANY, COLUMN = 300, 2.0  # points from which a line is thinned and symbols become dots; px in which they count as over each other


def draw_trace(page, trace, axes):
    """One trace: a bar chart's, or a scatter's with all it has."""
    x, y = axes[trace.xaxis or "x"], axes[trace.yaxis or "y"]
    if trace.type == "bar":
        return _bars(page, trace, x, y)
    spots = [_spot(x, y, *pair) for pair in zip(trace.x, trace.y)]
    mode = trace.mode or "lines"
    if trace.fill == "toself":
        put(page, "polygon", {"points": _points(filter(None, spots)), **filled(trace.fillcolor)})
    elif "lines" in mode:
        _lines(page, trace, spots)
    _error_bars(page, trace, x, y)
    if "markers" in mode:
        _symbols(page, trace, spots)


def _spot(x, y, across, up):
    """Pixels of a point; None for a missing reading."""
    if any(value is None or isinstance(value, float) and not isfinite(value) for value in (across, up)):
        return None
    return x.at(across), y.at(up)


def _points(spots):
    return " ".join(f"{across:.1f},{up:.1f}" for across, up in spots)


def _lines(page, trace, spots):
    """The line of a trace, broken where a reading is missing."""
    pieces = [[]]
    for spot in spots:
        pieces.append([]) if spot is None else pieces[-1].append(spot)
    look = {"fill": "none", "stroke": trace.line.color or INK, "stroke-width": trace.line.width or 2.0, **dashed(trace.line.dash)}
    for piece in filter(None, pieces):
        put(page, "polyline", {"points": _points(_as_fine_as_seen(piece)), **look})


def _as_fine_as_seen(spots):
    """Of the points that lie over each other the lowest and the highest: what can be seen, in a tenth of the text."""
    if len(spots) < MANY:
        return spots
    kept = [spots[0]]
    for _, column in groupby(spots, lambda spot: int(spot[0] / COLUMN)):
        column = list(column)
        ends = {min(range(len(column)), key=lambda place: column[place][1]), max(range(len(column)), key=lambda place: column[place][1])}
        kept += [column[place] for place in sorted(ends)]
    return [*kept, spots[-1]]


def _symbols(page, trace, spots):
    mark = trace.marker
    known = [spot for spot in spots if spot]
    most = mark.maxdisplayed or len(known)
    symbol, half, color = mark.symbol or "circle", float(mark.size or 6) / 2, mark.color or trace.line.color or INK
    if len(known) > MANY and not mark.maxdisplayed:
        return _dots(page, known, color, 2 * half, mark.opacity)
    look = filled(color) | ({"fill-opacity": mark.opacity} if mark.opacity else {})
    for spot in known[:: max(1, -(-len(known) // max(most, 1)))]:
        _symbol(page, spot, symbol, half, look)


def _dots(page, spots, color, size, opacity):
    """So many points that their shape is lost: round dots, all in one path."""
    path = "".join(f"M{across:.1f} {up:.1f}h0" for across, up in spots)
    look = {"stroke": color, "stroke-width": size, "stroke-linecap": "round", **({"stroke-opacity": opacity} if opacity else {})}
    put(page, "path", {"d": path, "fill": "none", **look})


def _symbol(page, spot, name, half, look):
    (x, y), color = spot, look["fill"]
    if name.endswith("-open"):
        look = {"fill": PAPER, "stroke": color, "stroke-width": 2.0}
    shape = name.removesuffix("-open")
    if shape == "circle":
        put(page, "circle", {"cx": x, "cy": y, "r": half, **look})
    elif shape == "square":
        put(page, "rect", {"x": x - half, "y": y - half, "width": 2 * half, "height": 2 * half, **look})
    elif shape == "diamond":
        put(page, "polygon", {"points": _points([(x, y - half), (x + half, y), (x, y + half), (x - half, y)]), **look})
    elif shape == "x":
        line(page, (x - half, y - half), (x + half, y + half), color, 3.0)
        line(page, (x - half, y + half), (x + half, y - half), color, 3.0)
    else:
        line(page, (x, y - half), (x, y + half), color, 2.0)


def _error_bars(page, trace, x, y):
    for letter, along in (("x", x), ("y", y)):
        bars = trace[f"error_{letter}"]
        if not bars or not bars.to_plotly_json():
            continue
        look, cap = (bars.color or trace.marker.color or INK, float(bars.thickness or 2)), (bars.width or 6) / 2
        for (low, high), across, up in zip(reaches(trace, letter), trace.x, trace.y):
            low, high, at = along.at(low), along.at(high), y.at(up) if letter == "x" else x.at(across)
            for start, end in (((low, at), (high, at)), ((low, at - cap), (low, at + cap)), ((high, at - cap), (high, at + cap))):
                line(page, *((start, end) if letter == "x" else (start[::-1], end[::-1])), *look)


def _bars(page, trace, x, y):
    lying = trace.orientation == "h"
    along, side = (x, y) if lying else (y, x)
    lengths, places = (trace.x, trace.y) if lying else (trace.y, trace.x)
    step = abs(side.pixels[1] - side.pixels[0]) / max(abs(side.high - side.low), 1e-12)
    half = step * (trace.width or 0.8) * BAR_REACH
    for place, length in zip(places, lengths):
        start, end = sorted((along.at(0.0), along.at(float(length))))
        middle = side.at(place)
        box = (start, middle - half, end - start, 2 * half) if lying else (middle - half, start, 2 * half, end - start)
        put(page, "rect", dict(zip(("x", "y", "width", "height"), box)) | filled(trace.marker.color or INK))


def draw_shape(page, shape, axes, frame):
    """A line or a band that a figure lays across its panels."""
    xs = [_edge(value, shape.xref or "x", axes, frame["left"], frame["right"]) for value in (shape.x0, shape.x1)]
    ys = [_edge(value, shape.yref or "y", axes, frame["bottom"], frame["top"]) for value in (shape.y0, shape.y1)]
    if shape.type == "line":
        return line(page, *zip(xs, ys), shape.line.color or INK, float(shape.line.width or 2), shape.line.dash)
    box = {"x": min(xs), "y": min(ys), "width": abs(xs[1] - xs[0]), "height": abs(ys[1] - ys[0])}
    put(page, "rect", box | filled(shape.fillcolor))


def _edge(value, reference, axes, start, end):
    name, _, domain = reference.partition(" ")
    if name == "paper":
        return start + float(value) * (end - start)
    axis = axes[name]
    low, high = sorted(axis.pixels)
    if domain:
        return axis.pixels[0] + float(value) * (axis.pixels[1] - axis.pixels[0])
    return min(max(axis.at(value), low), high)
