"""What to add to each thermometer over its reading, with the uncertainty of the line, and the points that it rests on."""

import numpy as np

from kit.analysis.thermometers import Calibration
from kit.charts import draw
from kit.charts.drawing import band, dots, end_label, line, LINES, MARKS, Panel, QUIET, remark, sheet
from kit.charts.runs import thinned


@draw.register
def calibration_chart(calibration: Calibration):
    """One line a thermometer with its 95 % band; points with the uncertainty of a reading."""
    traces, notes = [], [remark("bands: 95 %", 1, 0, QUIET, xref="domain", yref="domain", xanchor="right", yanchor="bottom")]
    for probe in calibration.lines:
        temperatures, look = np.linspace(*_ends(calibration), 60), LINES[probe]
        corrections = [calibration.correction(probe, each) for each in temperatures]
        low, middle, high = (np.array([getattr(each, part) for each in corrections]) for part in ("low", "value", "high"))
        through = line(temperatures, middle, look["color"], dash=look["dash"], name=probe)
        traces += [band(temperatures, low, high, look["color"]), through, _points(calibration, probe)]
        notes.append(end_label(probe, temperatures[-1], middle[-1], look["color"]))
    panel = Panel(traces, x="reading (°C)", y="to be added (°C)", notes=notes, on_scale="x")
    return sheet(panel, title=str(calibration), height=380)


def _ends(calibration):
    readings = np.concatenate([calibration.points.readings[probe] for probe in calibration.lines])
    room = 0.05 * max(np.ptp(readings), 1)
    return readings.min() - room, readings.max() + room


def _points(calibration, probe):
    points = calibration.points
    x, y = thinned(points.readings[probe], points.true[probe] - points.readings[probe])
    few, color = len(x) <= 50, LINES[probe]["color"]
    spread = {"type": "constant", "value": float(points.reading_error.mean()), "color": color} if few else None
    look = {"symbol": MARKS[probe], "size": 8 if few else 3, "opacity": 1 if few else 0.4}
    return dots(x, y, color, **look, error_y=spread, name=f"{probe}, read")
