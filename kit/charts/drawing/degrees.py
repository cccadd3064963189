"""A panel in the unit that the class reads: everything along an axis whose title names °C is drawn in that unit. The results stay in °C."""

from dataclasses import replace

import numpy as np

from kit.units import difference_in, temperature_in, unit

PLACES = {"x": ("x", "x0", "x1"), "y": ("y", "y0", "y1")}
REACHES, AXIS_VALUES = ("array", "arrayminus", "value"), ("range", "tickvals")


def in_class_unit(panel):
    """`panel` itself in a class that reads °C; else the same with its °C turned."""
    if unit() == "°C":
        return panel
    for letter, title in (("x", panel.x), ("y", panel.y)):
        if "°C" in title or letter in panel.untitled_c:
            panel = _turned(panel, letter, temperature_in if letter in panel.on_scale else difference_in)
    return panel


def _turned(panel, letter, shown):
    own = getattr(panel, f"{letter}axis")
    axis = {name: _values(value, shown) if name in AXIS_VALUES else value for name, value in own.items()}
    return replace(
        panel,
        traces=[_trace(each, letter, shown) for each in panel.traces],
        marks=[_placed(each, letter, shown) for each in panel.marks],
        notes=[_placed(each, letter, shown) for each in panel.notes],
        **{letter: getattr(panel, letter).replace("°C", unit()), f"{letter}axis": axis},
    )


def _trace(trace, letter, shown):
    """The trace with its values along that axis turned, and with them the ends of its error bars, which are differences."""
    turned = {**trace, letter: _values(trace[letter], shown)}
    bar = trace.get(f"error_{letter}")
    if bar:
        turned[f"error_{letter}"] = {name: _values(value, difference_in) if name in REACHES else value for name, value in bar.items()}
    if "hovertemplate" in trace:
        turned["hovertemplate"] = trace["hovertemplate"].replace("°C", unit())
    return turned


def _placed(thing, letter, shown):
    """A mark or a note, where it is measured along that axis and not in shares of the panel."""
    if thing.get(f"{letter}ref") is not None:
        return thing
    return {**thing, **{name: shown(thing[name]) for name in PLACES[letter] if name in thing}}


def _values(values, shown):
    """An array, a list with gaps (None), or one number."""
    if isinstance(values, (list, tuple)):
        return [None if value is None else shown(value) for value in values]
    return shown(np.asarray(values, float)) if hasattr(values, "__len__") else shown(values)
