"""The level of the difference with its range through the readings, one rise drawn beside it, and below what that rise leaves over."""

import plotly.graph_objects as go
from plotly.subplots import make_subplots

from kit.analysis.curve import fitted_part, WarmingCurve
from kit.charts import draw
from kit.charts.run import thinned
from kit.charts.style import CONTROL, DIFFERENCE, LINES, MARKS, QUIET, TREATED, headed, label, reach
from kit.estimate import MINUS

BAND = "rgba(11, 83, 148, 0.18)"


@draw.register
def curve_chart(curve: WarmingCurve):
    """Readings, level and its band, and the drawn rise above; residuals of the drawn rise below."""
    heads = [f"treated {MINUS} control", "readings minus drawn rise"][: 2 if curve.found else 1]
    figure = make_subplots(len(heads), 1, shared_xaxes=True, vertical_spacing=0.1, row_heights=[3, 1.3][: len(heads)], subplot_titles=heads)
    seconds, difference = fitted_part(curve.run, curve.windows)
    figure.add_trace(_readings(seconds / 60, difference), row=1, col=1)
    if curve.found:
        _curve(figure, curve, difference)
        figure.add_trace(_readings(curve.residuals.index / 60, curve.residuals.to_numpy()), row=2, col=1)
        figure.add_hline(y=0, line={"color": CONTROL, "width": 1.5, "dash": "dash"}, row=2, col=1)
    figure.update_yaxes(title_text="°C", col=1)
    figure.update_xaxes(title_text="time (min)", row=len(heads), col=1)
    return headed(figure, str(curve), curve.diagnosis, height=440, right=130)


def _readings(minutes, values):
    x, y = thinned(minutes, values)
    mark = {"symbol": MARKS["difference"], "size": 4 if len(values) > 60 else 8, "color": DIFFERENCE, "opacity": 0.6}
    return go.Scatter(x=x, y=y, mode="markers", marker=mark, name="readings", hovertemplate="%{x:.2f} min: %{y:.3f} °C<extra></extra>")


def _curve(figure, curve, difference):
    traced, level, end = curve.traced(), curve.found.drawn.level, curve.windows.response[1]
    base = float(curve.found.course.before @ curve.found.course.cells)
    seen = traced.loc[:end]
    figure.add_trace(_band(seen.index, base + seen["high"], base + seen["low"]), row=1, col=1)
    line = {"color": TREATED, "width": 3}
    figure.add_trace(go.Scatter(x=seen.index, y=base + seen["warming"], mode="lines", line=line, name="level"), row=1, col=1)
    for part, dash in ((traced.loc[:end], "dash"), (traced.loc[end:], "dot")):
        thin = {"color": CONTROL, "width": 1.5, "dash": dash}
        figure.add_trace(go.Scatter(x=part.index, y=level + part["drawn"], mode="lines", line=thin, name="drawn rise"), row=1, col=1)
    figure.add_hline(y=base, line={"color": QUIET, "dash": "dash", "width": 1}, row=1, col=1)
    if curve.determined:
        _time(figure, curve, base)
    figure.update_yaxes(range=_reach(difference, base + seen["low"], base + seen["high"]), row=1, col=1)
    _names(figure, curve, traced, base)


def _band(minutes, high, low):
    x, y = [*minutes, *minutes[::-1]], [*high, *low[::-1]]
    return go.Scatter(x=x, y=y, fill="toself", fillcolor=BAND, line={"width": 0}, hoverinfo="skip", name="range")


def _time(figure, curve, base):
    """When 63 % of the rise was reached, with its range."""
    time, height = curve.time_to_63, base + 0.632 * curve.rise.value
    mark = {"symbol": "diamond", "size": 11, "color": QUIET}
    x = curve.windows.perturbation[0] + time.value
    figure.add_trace(go.Scatter(x=[x], y=[height], mode="markers", marker=mark, error_x=reach(time, QUIET), name="63 %"), row=1, col=1)
    label(figure, f"63 % after {time.value_text}", x + time.high - time.value, height, QUIET, xshift=8, yshift=-8)


def _names(figure, curve, traced, base):
    last, height = traced.index[-1], curve.found.drawn.level + traced["drawn"].iloc[-1]
    label(figure, "one rise,<br>drawn", last, height, CONTROL, xshift=6, align="left")
    label(figure, "baseline", traced.index[0], base, QUIET, yshift=-11)
    end = curve.windows.response[1]
    figure.add_vline(x=end, line={"color": QUIET, "dash": "dot", "width": 1}, row="all", col=1)
    ends = f"record ends; level with its<br>{100 * curve.rise.level:g} % range up to here"
    label(figure, ends, end, 0.02, QUIET, xshift=4, yref="y domain", yanchor="bottom", align="left")
    late = traced.index.asof(0.3 * traced.index[0] + 0.7 * end)
    label(figure, "readings", late, base + traced["warming"][late], LINES["difference"]["color"], yshift=-24)


def _reach(difference, low, high):
    """The height of the upper panel: all readings, and the band as far as it goes within three times that."""
    bottom, top = difference.min(), difference.max()
    room = max(top - bottom, 0.05)
    return max(min(low.min(), bottom), bottom - room) - 0.15 * room, min(max(high.max(), top), top + room) + 0.1 * room
