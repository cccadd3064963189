"""The whole still picture: heading, axes, marks and labels of a plotly figure, as SVG with a title and a description."""

from xml.etree import ElementTree

from kit.charts import headless
from kit.charts.drawing import GRID, INK, KIT, PAPER
from kit.charts.still.axes import axes_of
from kit.charts.still.marks import draw_shape, draw_trace
from kit.charts.still.pen import line, put, words

WIDTH, HEIGHT = 760, 450  # px
LETTER, TITLE, ROOM = 7.2, 24, 12  # px: a letter at an axis, the line that its title takes, the room between the two


def svg(figure, description="", *, headed=True):
    """`figure` (plotly) as the text of an SVG, 760 px wide: the kinds of marks that the kit's charts are made of.

    `description`: what a reader who can't see it should hear; the heading is its title in any case. `headed`: is it drawn, too?
    """
    heading, below = heading_of(figure)
    figure = figure if headed else headless(figure)[-1]
    height = figure.layout.height or HEIGHT
    top, right, bottom, left = edges(figure)
    page = ElementTree.Element("svg", xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {WIDTH} {height}", role="img", width="100%")
    put(page, "title", {}, heading or "chart")
    put(page, "desc", {}, description or below)
    put(page, "rect", {"width": WIDTH, "height": height, "fill": PAPER})
    axes = axes_of(figure, left, WIDTH - right, top, height - bottom)
    shapes = figure.layout.shapes or ()
    frame = {"left": left, "right": WIDTH - right, "top": top, "bottom": height - bottom}
    for shape in (each for each in shapes if each.layer == "below" or each.type == "rect"):
        draw_shape(page, shape, axes, frame)
    for axis in axes.values():
        draw_axis(page, axis, axes)
    for shape in (each for each in shapes if not (each.layer == "below" or each.type == "rect")):
        draw_shape(page, shape, axes, frame)
    for trace in figure.data:
        draw_trace(page, trace, axes)
    for label in figure.layout.annotations or ():
        draw_label(page, label, axes, frame)
    if headed:
        _draw_heading(page, heading, below)
    return ElementTree.tostring(page, encoding="unicode")


def heading_of(figure):
    """(title, subtitle) of a figure, with its line breaks."""
    title = figure.layout.title
    return title.text or "", title.subtitle.text or ""


def edges(figure):
    """Top, right, bottom and left margin in pixels; the left one wide enough for the longest name at the axis."""
    margin, given = figure.layout.margin, KIT.layout.margin
    top, right, bottom = (getattr(margin, side) if getattr(margin, side) is not None else given[side] for side in "trb")
    upright = [axis for axis in axes_of(figure, 0, 1, 0, 1).values() if axis.name.startswith("y")]
    longest = max((len(part) for axis in upright for _, text in axis.ticks for part in text.split("<br>")), default=0)
    titled = TITLE * any(axis.given.title.text for axis in upright)
    return top, right, bottom, max(given.l, 16 + titled + LETTER * longest)


def draw_axis(page, axis, axes):
    """The axis's line, its ticks with their texts, faint lines across for an upright one, and its title."""
    if axis.given.visible is False:
        return
    across = axes.get((axis.given.anchor or ("y" if axis.name[0] == "x" else "x")), None)
    if across is None:
        return
    (_side_axis if axis.name[0] == "y" else _floor_axis)(page, axis, across)


def _floor_axis(page, axis, across):
    base = across.pixels[0]
    line(page, (axis.pixels[0], base), (axis.pixels[1], base), INK)
    for value, text in _within(axis):
        x = axis.at(value)
        line(page, (x, base), (x, base + 5), INK)
        words(page, x, base + 19, text, anchor="middle", size=13)
    words(page, sum(axis.pixels) / 2, base + 40, axis.given.title.text, anchor="middle")


def _side_axis(page, axis, across):
    side = across.pixels[0]
    for value, text in _within(axis):
        y = axis.at(value)
        if axis.given.showgrid is not False:
            line(page, (side, y), (across.pixels[1], y), GRID)
        words(page, side - 8, y + 4, text, anchor="end", size=13)
    line(page, (side, axis.pixels[0]), (side, axis.pixels[1]), INK)
    if axis.given.title.text:
        longest = max((len(text) for _, text in axis.ticks), default=0)
        middle, x = sum(axis.pixels) / 2, max(side - 8 - LETTER * max(longest, 3) - ROOM, 14)
        words(page, x, middle, axis.given.title.text, anchor="middle", turn=-90)


def _within(axis):
    low, high = sorted(axis.pixels)
    return [(value, text) for value, text in axis.ticks if low - 0.5 <= axis.at(value) <= high + 0.5]


def draw_label(page, label, axes, frame):
    """A label where its figure has it: in the values of an axis, in shares of a panel, or in shares of the plot area."""
    if not label.text:
        return
    x = _place(label.x, label.xref or "x", axes, frame["left"], frame["right"]) + (label.xshift or 0)
    y = _place(label.y, label.yref or "y", axes, frame["bottom"], frame["top"]) - (label.yshift or 0)
    anchor = {"left": "start", "right": "end"}.get(label.xanchor, "middle")
    if label.showarrow is not False and label.ax is not None:
        line(page, (x + label.ax, y + label.ay), (x, y), label.font.color or INK)
        x, y = x + label.ax, y + label.ay + 12
    drop = {"top": 12, "bottom": -4}.get(label.yanchor, 4)
    lines = label.text.split("<br>")
    if anchor == "start" and not label.textangle:
        x = min(x, max(frame["left"], WIDTH - 4 - LETTER * max(map(len, lines))))  # within the picture, whatever its margin
    above = {"top": 0, "bottom": len(lines) - 1}.get(label.yanchor, (len(lines) - 1) / 2)  # lines that stand higher than the anchor
    for count, text in enumerate(lines):
        down = y + drop + 15 * (count - above)
        words(page, x, down, text, anchor=anchor, color=label.font.color or INK, size=13, turn=label.textangle or 0)


def _place(value, reference, axes, start, end):
    name, _, domain = reference.partition(" ")
    if name == "paper":
        return start + value * (end - start)
    axis = axes[name]
    if domain:
        return axis.pixels[0] + value * (axis.pixels[1] - axis.pixels[0])
    return axis.at(value, power=True)


def _draw_heading(page, heading, below):
    y = 28
    for text in heading.split("<br>"):
        words(page, 16, y, text, size=15, weight="600")
        y += 20
    for text in filter(None, below.split("<br>")):
        words(page, 16, y, text, size=12)
        y += 16
