"""The stretch that was judged, the line through it, and the drift with its range against the tolerance."""

from math import isfinite

from kit.analysis.steady import Steadiness
from kit.charts import draw
from kit.charts.drawing import CONTROL, DIFFERENCE, end_label, INK, line, Panel, QUIET, ranged, remark, row_axis, row_label, sheet, TREATED, upright
from kit.charts.runs.run import thinned
from kit.units import difference_in

COLORS = {"difference": DIFFERENCE, "treated": TREATED, "control": CONTROL}


@draw.register
def steadiness_chart(steadiness: Steadiness):
    """Readings and line above; below, the drift with its range, and the band within which it counts as steady."""
    return sheet(_readings(steadiness), _drift(steadiness), title=str(steadiness), height=400, gap=0.26)


def _readings(steadiness):
    color, (x, y) = COLORS[steadiness.of], thinned(*steadiness.seen)
    traces, notes = [line(x, y, color, width=1, name=steadiness.of)], []
    if isfinite(steadiness.slope.value):
        ends, through = steadiness.line
        traces.append(line(ends, through, INK, dash="dash", width=3, name="line"))
        notes.append(end_label("line through it", ends[1], through[1], INK))
    return Panel(traces, x="time (min)", y=f"{steadiness.of} (°C)", notes=notes, share=3, on_scale="" if steadiness.of == "difference" else "y")


def _drift(steadiness):
    slope, tolerance, color = steadiness.decides, steadiness.tolerance_c_per_min, COLORS[steadiness.of]
    traces, notes = [], [remark(f"steady: within ±{difference_in(tolerance):g}", -tolerance, 1, QUIET, yref="domain", yanchor="bottom", yshift=2)]
    if isfinite(slope.value):
        traces.append(ranged(slope, "drift", color, name="drift"))
        notes.append(row_label("drift", steadiness.drift, color))
    return Panel(traces, x="drift (°C a minute)", marks=[upright(-tolerance, tolerance), upright(0)], notes=notes, yaxis=row_axis(["drift"]))
