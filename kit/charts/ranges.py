"""Ranges as thick lines, one above the other: the drawing that several charts share."""

from kit.charts.sheet import note, sheet


def ranges_chart(rows, *, notes=(), **layout):
    """Rows (name, Range or Estimate, words, colour) from top to bottom as lines with square ends; the words stand at the right edge.

    `notes` and the rest of `layout` go to `sheet`: title, said, x, marks, margin.
    """
    colors = dict.fromkeys(row[3] for row in rows)
    yaxis = {"categoryorder": "array", "categoryarray": [row[0] for row in reversed(rows)]}
    words = [note(said, 1.01, name, color, xref="paper") for name, _, said, color in rows]
    return sheet([_spans(rows, color) for color in colors], yaxis=yaxis, height=200 + 52 * len(rows), notes=[*words, *notes], **layout)


def _spans(rows, color):
    """All ranges of one colour as one trace with gaps, which plotly takes in much faster than a trace for each."""
    mine = [row for row in rows if row[3] == color]
    return {
        "type": "scatter",
        "x": [end for _, span, _, _ in mine for end in (span.low, span.high, None)],
        "y": [name for name, *_ in mine for _ in range(3)],
        "mode": "lines+markers",
        "line": {"color": color, "width": 6},
        "marker": {"symbol": "square", "size": 9},
        "hoverinfo": "x",
    }
