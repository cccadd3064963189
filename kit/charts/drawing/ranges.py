"""Ranges as thick lines, one above the other: the drawing that several charts share."""

from kit.charts.drawing.sheet import Panel, line, row_axis, row_label, sheet


def ranges_chart(rows, *, title, said, x, marks=(), notes=()):
    """Rows (name, Range or Estimate, words, colour) from top to bottom as lines with square ends; name and words stand above.

    `marks` and `notes` besides, `x` and the rest as `Panel` and `sheet` take them.
    """
    colors = dict.fromkeys(row[3] for row in rows)
    words = [row_label(name, said, color) for name, _, said, color in rows]
    axis = row_axis([row[0] for row in rows])
    panel = Panel([_spans(rows, color) for color in colors], x=x, marks=marks, notes=[*words, *notes], yaxis=axis)
    return sheet(panel, title=title, said=said, height=110 + 52 * len(rows))


def _spans(rows, color):
    """All ranges of one colour as one trace with gaps, which plotly takes in much faster than a trace for each."""
    mine = [row for row in rows if row[3] == color]
    ends, names = [end for _, span, _, _ in mine for end in (span.low, span.high, None)], [name for name, *_ in mine for _ in range(3)]
    return line(ends, names, color, width=6, mode="lines+markers", marker={"symbol": "square", "size": 9, "color": color}, hoverinfo="x")
