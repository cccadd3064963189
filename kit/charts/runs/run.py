"""A run as it was recorded: both vessels, their difference below, and the gas below that where a probe kept it."""

import numpy as np

from kit.analysis.effect import gas_start
from kit.charts import draw
from kit.charts.drawing import LINES, MARKS, Panel, QUIET, remark, sheet, upright
from kit.estimate import MINUS, rounded
from kit.records import NAMES, Run
from kit.units import difference_in, temperature_in, unit
from kit.words import clock

MARKED, BINS = 12, 1000
# Each panel: its heading, the unit at its axis, how high it stands against the others.
PANELS = {"temperature": ("temperature", "°C", 3), "difference": (f"treated {MINUS} control", "°C", 2), "gas_ppm": ("CO2", "ppm", 1.2)}
NAMED = {"difference": "difference", "gas_ppm": "CO2", "light": "light"}
CLOSE = 0.06  # of the axis: two names nearer than that are moved apart


@draw.register
def run_chart(run: Run, windows=None):
    """Temperatures over time, the difference below them, gas below that; each line named at its end. `summary(run)` is its subtitle.

    With `windows` they stand as bands behind the lines.
    """
    panels = _panels(run)
    drawn = [_panel(run, lines, PANELS[name], last=name == list(panels)[-1]) for name, lines in panels.items()]
    drawn[0].notes.extend(_gas_arrow(run))
    for panel in drawn:
        panel.marks.extend(_bands(windows))
    drawn[0].notes.extend(_band_names(windows))
    height = 120 + 140 * len(panels)
    return sheet(*drawn, title=f"Run {run.name} ({run.kind})", said=summary(run), height=height, right=88, letters=56, gap=0.09, tied="x")


def summary(run):
    """The chart in a sentence: where both vessels began and ended, and how far apart."""
    series = {**run.readings[["treated", "control"]], "difference": run.difference()}
    treated, control, difference = (f"{name} {_ends_of(name, column)}" for name, column in series.items())
    return f"First to last reading: {treated}, {control}; {difference}."


def _ends_of(name, column):
    """'21.02 to 31.44 °C': the first and the last reading."""
    known, shown = column.dropna(), difference_in if name == "difference" else temperature_in
    first, last = (rounded(shown(known.iloc[place]), 2) if len(known) else "unknown" for place in (0, -1))
    return f"{first} to {last} {unit()}"


def _panels(run):
    """Which lines stand in which panel, top down."""
    columns = {name: column.to_numpy(float) for name, column in run.readings.items()}
    panels = {
        "temperature": {name: columns[name] for name in ("treated", "control", "room") if name in columns},
        "difference": {"difference": run.difference().to_numpy(float)},
    }
    return panels | ({"gas_ppm": {"gas_ppm": columns["gas_ppm"]}} if "gas_ppm" in columns else {})


def _panel(run, lines, place, last):
    (heading, measure, share), minutes = place, run.minutes
    quiet = {"color": QUIET, "dash": "solid", "width": 1.5}
    traces = []
    for name, values in lines.items():
        x, y = thinned(minutes, values)
        mark = {"symbol": MARKS.get(name, "line-ns"), "size": 7, "maxdisplayed": MARKED}
        look = {"type": "scatter", "mode": "lines+markers", "line": LINES.get(name, quiet), "marker": mark}
        traces.append({**look, "x": x, "y": y, "name": name})
    notes = [
        remark(NAMED.get(name, name), minutes[-1], height, LINES.get(name, quiet)["color"], xshift=8, yshift=shift)
        for name, height, shift in _ends(lines)
    ]
    axes = {"xaxis": {"range": [minutes[0], minutes[-1]]}, "yaxis": {"tickformat": ","} if measure == "ppm" else {}}
    scale = "y" if heading == "temperature" else ""
    return Panel(traces, x="time (min)" if last else "", y=measure, heading=heading, marks=[], notes=notes, share=share, on_scale=scale, **axes)


def _ends(lines):
    """Name, height and shift in pixels of each line's label; names that would touch are moved apart."""
    known = {name: values[np.isfinite(values)] for name, values in lines.items() if np.isfinite(values).any()}
    ends = sorted((values[-1], name) for name, values in known.items())
    span = np.ptp(np.concatenate(list(known.values()))) if known else 0
    shift = 0
    for place, (height, name) in enumerate(ends):
        crowded = place > 0 and height - ends[place - 1][0] < CLOSE * span
        shift = shift + 16 if crowded else 0
        yield name, height, shift


def thinned(x, y):
    """The lowest and highest reading of each of a thousand stretches, in order of time: what a screen can show, spikes and gaps kept."""
    if len(x) <= 4 * BINS:
        return x, y
    edges = np.linspace(0, len(x), BINS + 1).astype(int)
    kept = {0, len(x) - 1}
    for start, end in zip(edges, edges[1:]):
        piece = y[start:end]
        gap = np.isnan(piece)
        kept |= {start + int(gap.argmax())} if gap.any() else set()
        kept |= set() if gap.all() else {start + int(np.nanargmin(piece)), start + int(np.nanargmax(piece))}
    order = sorted(kept)
    return x[order], y[order]


def _bands(windows):
    return [upright(*getattr(windows, name), color=QUIET) for name in NAMES] if windows else []


def _band_names(windows):
    """The first letter of each window above its band."""
    middles = {name[0].upper(): sum(getattr(windows, name)) / 2 for name in NAMES} if windows else {}
    return [remark(letter, middle, 1, QUIET, yref="domain", xanchor="center", yanchor="bottom", yshift=2) for letter, middle in middles.items()]


def _gas_arrow(run):
    """An arrow where the gas came in, if a probe recorded it."""
    seconds, treated = gas_start(run), run.readings["treated"].dropna()
    if seconds is None or treated.empty:
        return []
    height = np.interp(seconds, treated.index, treated)
    arrow = {"showarrow": True, "arrowhead": 2, "ax": 56, "ay": 56, "xanchor": "center"}
    return [remark(f"gas in, {clock(seconds)}", seconds / 60, height, LINES["treated"]["color"], **arrow)]
