"""Where water boils, by altitude, with the weather's share."""

from kit.analysis.thermometers import BoilingPoint
from kit.charts import draw
from kit.charts.drawing import band, CONTROL, level, line, Panel, remark, sheet, TREATED


@draw.register
def boiling_chart(boils: BoilingPoint):
    """Boiling point against altitude as a band for the weather; your value as a level line with its interval."""
    curve, yours = boils.curve, boils.temperature
    altitude = curve["altitude_m"]
    traces = [band(altitude, curve["low"], curve["high"], TREATED), line(altitude, curve["middle"], TREATED, width=3)]
    notes = [
        remark("yours", 0, yours.value, CONTROL, yanchor="top"),
        remark("in any weather", altitude[-30], curve["high"][-30], TREATED, yanchor="bottom", xshift=8),
    ]
    marks = [level(yours.low, yours.high, color=CONTROL), level(yours.value, color=CONTROL, dash="dash")]
    panel = Panel(traces, x="altitude above sea level (m)", y="water boils at (°C)", marks=marks, notes=notes, on_scale="y")
    return sheet(panel, title="Water boils earlier higher up", said=str(boils))
