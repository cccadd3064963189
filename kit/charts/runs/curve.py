"""The level of the difference with its range through the readings, one rise drawn beside it, and below what that rise leaves over."""

from kit.analysis.curve import WarmingCurve, fitted_part
from kit.charts import draw
from kit.charts.drawing import band, CONTROL, DIFFERENCE, dots, end_label, level, line, MARKS, Panel, QUIET, reach, remark, sheet, TREATED, upright
from kit.charts.runs.run import thinned
from kit.estimate import MINUS


@draw.register
def curve_chart(curve: WarmingCurve):
    """Readings, level and its band, and the drawn rise above; residuals of the drawn rise below."""
    seconds, difference = fitted_part(curve.run, curve.windows)
    readings, end = _readings(seconds / 60, difference), upright(curve.windows.response[1], width=1)
    above = {"y": "°C", "heading": f"treated {MINUS} control", "share": 3}
    if not curve.found:
        panels = [Panel([readings], x="time (min)", **above)]
    else:
        over = _readings(curve.residuals.index / 60, curve.residuals.to_numpy())
        zero = level(0, color=CONTROL, dash="dash", width=1.5)
        below = Panel([over], x="time (min)", y="°C", heading="readings minus drawn rise", marks=[zero, end], share=1.3)
        panels = [_curve(curve, readings, difference, end, above), below]
    return sheet(*panels, title=str(curve), said=curve.diagnosis, height=440, gap=0.1, tied="x")


def _readings(minutes, values):
    x, y = thinned(minutes, values)
    size, hover = 4 if len(values) > 60 else 8, "%{x:.2f} min: %{y:.3f} °C<extra></extra>"
    return dots(x, y, DIFFERENCE, symbol=MARKS["difference"], size=size, opacity=0.6, name="readings", hovertemplate=hover)


def _curve(curve, readings, difference, end, axes):
    traced, last = curve.traced(), curve.windows.response[1]
    base = float(curve.found.course.before @ curve.found.course.cells)
    seen = traced.loc[:last]
    low, high = base + seen["low"], base + seen["high"]
    traces = [readings, band(seen.index, low, high, TREATED, name="range"), line(seen.index, base + seen["warming"], TREATED, width=3, name="level")]
    for part, dash in ((seen, "dash"), (traced.loc[last:], "dot")):
        traces.append(line(part.index, curve.found.drawn.level + part["drawn"], CONTROL, dash=dash, width=1.5, name="drawn rise"))
    dot, named = _time(curve, base) if curve.determined else ([], [])
    marks, notes = [level(base, dash="dash", width=1), end], [*_names(curve, traced, base), *named]
    return Panel([*traces, *dot], **axes, marks=marks, notes=notes, yaxis={"range": _reach(difference, low, high)})


def _time(curve, base):
    """When 63 % of the rise was reached, with its range and its name."""
    start, time, height = curve.windows.perturbation[0], curve.time_to_63, base + 0.632 * curve.rise.value
    dot = dots([start + time.value], [height], QUIET, symbol="diamond", size=11, error_x=reach(time.value, time, QUIET), name="63 %")
    return [dot], [remark(f"63 % after {time.value_text}", start + time.high, height, QUIET, xshift=8, yshift=-8)]


def _names(curve, traced, base):
    last, height = traced.index[-1], curve.found.drawn.level + traced["drawn"].iloc[-1]
    end = curve.windows.response[1]
    late = traced.index.asof(0.3 * traced.index[0] + 0.7 * end)
    ends = f"record ends; level with its<br>{100 * curve.rise.level:g} % range up to here"
    return [
        end_label("one rise, drawn", last, height, CONTROL, below=True),
        remark("baseline", traced.index[0], base, QUIET, yshift=11),
        remark(ends, end, 0.5, QUIET, xshift=-4, yref="domain", yanchor="middle", xanchor="right", align="right"),
        remark("readings", late, base + traced["warming"][late], DIFFERENCE, yshift=-24),
    ]


def _reach(difference, low, high):
    """The height of the upper panel: all readings, and the band as far as it goes within three times that."""
    bottom, top = difference.min(), difference.max()
    room = max(top - bottom, 0.05)
    return max(min(low.min(), bottom), bottom - room) - 0.15 * room, min(max(high.max(), top), top + room) + 0.1 * room
