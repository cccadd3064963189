"""What to add to each thermometer over its reading, with the uncertainty of the line, and the points that it rests on."""

import numpy as np
import plotly.graph_objects as go

from kit.analysis.thermometers import Calibration
from kit.charts import draw
from kit.charts.run import thinned
from kit.charts.style import LINES, MARKS, figure, headed, label

FAINT = {"treated": "rgba(11, 83, 148, 0.16)", "control": "rgba(163, 59, 0, 0.16)"}


@draw.register
def calibration_chart(calibration: Calibration):
    """One line a thermometer with its 95 % band; points with the uncertainty of a reading."""
    traces, names = [], []
    for probe in calibration.lines:
        temperatures = np.linspace(*_ends(calibration), 60)
        corrections = [calibration.correction(probe, each) for each in temperatures]
        low, middle, high = (np.array([getattr(each, part) for each in corrections]) for part in ("low", "value", "high"))
        band = go.Scatter(
            x=[*temperatures, *temperatures[::-1]],
            y=[*high, *low[::-1]],
            fill="toself",
            fillcolor=FAINT[probe],
            line={"width": 0},
            hoverinfo="skip",
        )
        traces += [band, go.Scatter(x=temperatures, y=middle, mode="lines", line=LINES[probe], name=probe), _points(calibration, probe)]
        names.append((probe, temperatures[-1], middle[-1]))
    drawn = figure(traces, title="", x="reading (°C)", y="to be added (°C)")
    headed(drawn, str(calibration), height=380, right=90)
    for name, x, y in names:
        label(drawn, name, x, y, LINES[name]["color"], xshift=6)
    return drawn.add_annotation(
        text="bands: 95 %", x=1, y=0, xref="paper", yref="paper", showarrow=False, xanchor="right", yanchor="bottom"
    )


def _ends(calibration):
    readings = np.concatenate([calibration.points.readings[probe] for probe in calibration.lines])
    room = 0.05 * max(np.ptp(readings), 1)
    return readings.min() - room, readings.max() + room


def _points(calibration, probe):
    points = calibration.points
    x, y = thinned(points.readings[probe], points.true[probe] - points.readings[probe])
    spread = {"type": "constant", "value": float(points.reading_error.mean()), "color": LINES[probe]["color"]} if len(x) <= 50 else None
    mark = {"symbol": MARKS[probe], "size": 8 if spread else 3, "color": LINES[probe]["color"], "opacity": 1 if spread else 0.4}
    return go.Scatter(x=x, y=y, mode="markers", marker=mark, error_y=spread, name=f"{probe}, read")
