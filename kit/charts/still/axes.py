"""The axes of a plotly figure as plain numbers: where a value lies on the picture, and where the ticks stand."""

from dataclasses import dataclass
from math import ceil, floor, isfinite, log10

import numpy as np

ROOM = 0.05  # of the span, beside the outermost points
BAR_REACH = 0.5


@dataclass(frozen=True)
class Axis:
    """One axis: `name` ('x', 'x2', 'y' ...), the `pixels` of its two ends, the values there (`low`, `high`), its `ticks` as (place, text).

    `categories` in order, where it holds names. On a logarithmic axis `low` and `high` are powers of ten. `given`: what plotly was told.
    """

    name: str
    pixels: tuple
    low: float
    high: float
    ticks: tuple
    categories: tuple
    logarithmic: bool
    given: object

    def at(self, value, power=False):
        """Pixels of a value (a number, or a category); `power`: of a power of ten, as plotly's labels on a logarithmic axis are."""
        number = self.categories.index(value) if value in self.categories else float(value)
        number = log10(number) if self.logarithmic and not power else number
        first, last = self.pixels
        return first + (number - self.low) / (self.high - self.low) * (last - first)


def axes_of(figure, left, right, top, bottom):
    """Every `Axis` of a figure, by name, on a plot area with these edges in pixels."""
    given = {key: figure.layout[key] for key in figure.layout if key.startswith(("xaxis", "yaxis"))}
    spans = {key: span_of(figure, key, axis) for key, axis in given.items()}
    found = {}
    for key, axis in given.items():
        matched = [other for other in given if _leader(given, other) == _leader(given, key)]
        values = [value for other in matched for value in spans[other][0]]
        low, high = _ends(axis, values, spans[key][1])
        ends = (left, right) if key.startswith("x") else (bottom, top)
        start, end = axis.domain or (0, 1)
        pixels = tuple(ends[0] + share * (ends[1] - ends[0]) for share in (start, end))
        name, ticks = key[0] + key[5:], ticks_of(axis, low, high, spans[key][1])
        found[name] = Axis(name, pixels, low, high, ticks, spans[key][1], axis.type == "log", axis)
    return found


def _leader(given, key):
    """The axis whose range this one shares."""
    matches = given[key].matches
    return _leader(given, f"{matches[0]}axis{matches[1:]}") if matches else key


def span_of(figure, key, axis):
    """(numbers drawn along this axis, categories in order)."""
    letter, short = key[0], key[0] + key[5:]
    mine = [trace for trace in figure.data if (getattr(trace, f"{letter}axis") or letter) == short]
    cells = [cell for trace in mine for cell in _cells(trace, letter)] + _laid_over(figure, letter, short)
    names = tuple(dict.fromkeys(cell for cell in cells if isinstance(cell, str)))
    if names:
        order = tuple(axis.categoryarray) if axis.categoryarray is not None else names
        return [-0.5, len(order) - 0.5], order
    logarithmic = axis.type == "log"
    numbers = [float(cell) for cell in cells if cell is not None and isfinite(cell) and (cell > 0 or not logarithmic)]
    return [log10(each) for each in numbers] if logarithmic else numbers, ()


def _cells(trace, letter):
    cells = list(trace[letter]) if trace[letter] is not None else []
    bars = trace[f"error_{letter}"]
    if bars and bars.to_plotly_json() and cells and not isinstance(cells[0], str):
        cells += [end for low, high in reaches(trace, letter) for end in (low, high)]
    along = trace.type == "bar" and (trace.orientation or "v") == ("h" if letter == "x" else "v")
    return [*cells, 0.0] if along else cells


def _laid_over(figure, letter, short):
    """Where lines and bands begin and end along an axis: they are kept in view, too."""
    mine = [shape for shape in figure.layout.shapes or () if shape[f"{letter}ref"] == short]
    return [end for shape in mine for end in (shape[f"{letter}0"], shape[f"{letter}1"]) if not isinstance(end, str)]


def reaches(trace, letter):
    """The two ends of each error bar along an axis."""
    bars, values = trace[f"error_{letter}"], np.asarray(trace[letter], dtype=float)
    above = np.full(values.shape, bars.value, float) if bars.type == "constant" else np.asarray(bars.array, float)
    below = above if bars.symmetric is not False or bars.arrayminus is None else np.asarray(bars.arrayminus, float)
    return list(zip((values - below).tolist(), (values + above).tolist()))


def _ends(axis, values, categories):
    if axis.range is not None:
        return tuple(map(float, axis.range))
    low, high = (min(values), max(values)) if values else (0.0, 1.0)
    if categories:
        return low, high
    room = ROOM * (high - low) or max(abs(low), 1) * ROOM
    if axis.rangemode == "tozero":
        return min(0.0, low - room * (low < 0)), max(0.0, high + room * (high > 0))
    return low - room, high + room


def ticks_of(axis, low, high, categories):
    """(value or category, text) of each tick within the axis."""
    if axis.showticklabels is False or axis.visible is False:
        return ()
    if categories:
        return tuple((name, str(name)) for name in categories)
    if axis.tickvals is not None:
        texts = axis.ticktext if axis.ticktext is not None else [f"{each:g}" for each in axis.tickvals]
        return tuple(zip(axis.tickvals, texts))
    if axis.type == "log":
        return tuple((10.0**power, f"{10.0**power:g}") for power in range(ceil(low), floor(high) + 1))
    return _even_ticks(*sorted((low, high)), "," in (axis.tickformat or ""))


def _even_ticks(low, high, thousands):
    step = _round_step((high - low) / 5)
    first, last = ceil(low / step - 1e-9), floor(high / step + 1e-9)
    places = max(0, -floor(log10(step) + 1e-9))
    values = [count * step for count in range(first, last + 1)]
    return tuple((value, f"{value + 0.0:{',' if thousands else ''}.{places}f}".replace("-", "\N{MINUS SIGN}")) for value in values)


def _round_step(rough):
    """The next of 1, 2, 5 times a power of ten."""
    power = 10.0 ** floor(log10(rough))
    return next(step * power for step in (1, 2, 5, 10) if step * power >= rough * (1 - 1e-9))
