"""Where water boils, by altitude, with the weather's share."""

from kit.analysis.thermometers import BoilingPoint
from kit.charts import draw
from kit.charts.sheet import faint, level, note, sheet
from kit.charts.style import CONTROL, TREATED


@draw.register
def boiling_chart(boils: BoilingPoint):
    """Boiling point against altitude as a band for the weather; your value as a level line with its interval."""
    curve, yours = boils.curve, boils.temperature
    line = {"type": "scatter", "x": curve["altitude_m"], "mode": "lines", "line": {"color": TREATED, "width": 1}}
    filled = {"fill": "tonexty", "fillcolor": faint(TREATED)}
    middle = {**line, "y": curve["middle"], "line": {"color": TREATED, "width": 3}}
    traces = [{**line, "y": curve["low"]}, {**line, "y": curve["high"], **filled}, middle]
    notes = [
        note("yours", 0, yours.value, CONTROL, yanchor="top"),
        note("in any weather", curve["altitude_m"][-30], curve["high"][-30], TREATED, yanchor="bottom", xshift=8),
    ]
    marks = [level(yours.low, yours.high, color=CONTROL), level(yours.value, color=CONTROL, dash="dash")]
    axes = {"x": "altitude above sea level (m)", "y": "water boils at (°C)"}
    return sheet(traces, title="Water boils earlier higher up", said=str(boils), marks=marks, notes=notes, **axes)
