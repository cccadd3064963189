"""Drawing one thing on an SVG page."""

import re
from html import unescape
from xml.etree import ElementTree

from kit.charts.drawing import INK

DASHES = {"dash": "9 5", "dot": "2 4", "dashdot": "9 4 2 4", "longdash": "14 6"}
FAINT = re.compile(r"rgba\((\d+), ?(\d+), ?(\d+), ?([\d.]+)\)")
TAG = re.compile(r"<[^>]*>")


def put(page, kind, attributes, text=None):
    """Add one element; numbers are rounded to a tenth of a pixel."""
    told = {name: f"{value:.1f}".removesuffix(".0") if isinstance(value, float) else str(value) for name, value in attributes.items()}
    element = ElementTree.SubElement(page, kind, told)
    element.text = text
    return element


def line(page, start, end, color, width=1.0, dash=""):
    """A straight line between two points (x, y)."""
    ends = dict(zip(("x1", "y1", "x2", "y2"), map(float, (*start, *end))))
    put(page, "line", ends | {"stroke": color, "stroke-width": width} | dashed(dash))


def words(page, x, y, text, *, anchor="start", size=14, color=INK, weight="", turn=0):
    """A line of text; marks of markup in it are left out."""
    if not text:
        return
    look = {"x": float(x), "y": float(y), "font-size": size, "fill": color, "text-anchor": anchor, "font-family": "system-ui, sans-serif"}
    turned = {"transform": f"rotate({turn} {x:.1f} {y:.1f})"} if turn else {}
    put(page, "text", look | turned | ({"font-weight": weight} if weight else {}), unescape(TAG.sub("", text)))


def dashed(dash):
    """The attribute for plotly's kinds of dashes; nothing for a solid line."""
    return {"stroke-dasharray": DASHES[dash]} if dash in DASHES else {}


def filled(color):
    """A colour, see-through or not, as attributes of a filling."""
    match = FAINT.fullmatch(color or "")
    if not match:
        return {"fill": color or "none"}
    red, green, blue, share = match.groups()
    return {"fill": f"#{int(red):02x}{int(green):02x}{int(blue):02x}", "fill-opacity": share}
