"""A chart of lines as a small table, for those who read better than they see."""

from html import escape

import numpy as np

from kit.estimate import rounded

MOST_ROWS = 12


def figure_table(figure):
    """A folded HTML table of a figure's named lines, a dozen rows of it; '' for a figure whose points are not numbers over numbers."""
    lines = [trace for trace in figure.data if trace.name and _is_line(trace)]
    if not lines:
        return ""
    across = max((np.asarray(line.x, float) for line in lines), key=len)
    chosen = across[np.unique(np.linspace(0, len(across) - 1, MOST_ROWS).round().astype(int))]
    head = [_title(figure.select_xaxes()) or "x", *(_named(figure, line) for line in lines)]
    rows = [[rounded(x, _places(across)), *(_value(line, x) for line in lines)] for x in chosen]
    return f"<details><summary>The chart as a table</summary><table>{_row(head, 'th')}{''.join(_row(row, 'td') for row in rows)}</table></details>"


def _is_line(trace):
    values = [getattr(trace, name, None) for name in ("x", "y")]
    return all(each is not None and len(each) > 1 and np.asarray(each).dtype.kind in "fiu" for each in values)


def _value(line, x):
    """The line's value nearest to `x`; a dash where it has none."""
    y = float(line.y[np.abs(np.asarray(line.x, float) - x).argmin()])
    return rounded(y, _places(line.y)) if np.isfinite(y) else "\N{EN DASH}"


def _places(values):
    """Two decimals, and none for a line that reaches a thousand."""
    values = np.abs(np.asarray(values, float))
    return 2 if values[np.isfinite(values)].max(initial=0) < 1000 else 0


def _named(figure, line):
    axis = figure.layout[(line.yaxis or "y").replace("y", "yaxis")]
    unit = axis.title.text
    return f"{line.name} ({unit})" if unit else line.name


def _title(axes):
    return next((axis.title.text for axis in axes if axis.title.text), "")


def _row(cells, tag):
    return "<tr>" + "".join(f"<{tag}>{escape(str(cell))}</{tag}>" for cell in cells) + "</tr>"
