"""The warming curve through the readings, with all curves that the record allows, and below it what the curve leaves over."""

import plotly.graph_objects as go
from plotly.subplots import make_subplots

from kit.analysis.curve import fitted_part, WarmingCurve
from kit.charts import draw
from kit.charts.run import thinned
from kit.charts.style import DIFFERENCE, LINES, MARKS, QUIET, TREATED, headed, label
from kit.estimate import MINUS

BAND = "rgba(11, 83, 148, 0.18)"


@draw.register
def curve_chart(curve: WarmingCurve):
    """Readings, curve and its band above; residuals below. Past the record's end the band opens as far as the record leaves it open."""
    heads = [f"treated {MINUS} control", "readings minus curve"][: 2 if curve.found else 1]
    figure = make_subplots(len(heads), 1, shared_xaxes=True, vertical_spacing=0.1, row_heights=[3, 1.3][: len(heads)], subplot_titles=heads)
    seconds, difference = fitted_part(curve.run, curve.windows)
    figure.add_trace(_readings(seconds / 60, difference), row=1, col=1)
    if curve.found:
        _curve(figure, curve, difference)
        figure.add_trace(_readings(curve.residuals.index / 60, curve.residuals.to_numpy()), row=2, col=1)
        figure.add_hline(y=0, line={"color": TREATED, "width": 2}, row=2, col=1)
    figure.update_yaxes(title_text="°C", col=1)
    figure.update_xaxes(title_text="time (min)", row=len(heads), col=1)
    return headed(figure, str(curve), curve.diagnosis, height=440, right=130)


def _readings(minutes, values):
    x, y = thinned(minutes, values)
    mark = {"symbol": MARKS["difference"], "size": 4 if len(values) > 60 else 8, "color": DIFFERENCE, "opacity": 0.6}
    return go.Scatter(x=x, y=y, mode="markers", marker=mark, name="readings", hovertemplate="%{x:.2f} min: %{y:.3f} °C<extra></extra>")


def _curve(figure, curve, difference):
    drawn, level, end = curve.traced(), curve.found.fit.level, curve.windows.response[1]
    high, low = drawn["high"] + level, drawn["low"] + level
    band = go.Scatter(
        x=[*drawn.index, *drawn.index[::-1]],
        y=[*high, *low[::-1]],
        fill="toself",
        fillcolor=BAND,
        line={"width": 0},
        hoverinfo="skip",
        name="range",
    )
    figure.add_trace(band, row=1, col=1)
    for part, dash in ((drawn[drawn.index <= end], "solid"), (drawn[drawn.index >= end], "dot")):
        line = {"color": TREATED, "width": 2, "dash": dash}
        figure.add_trace(go.Scatter(x=part.index, y=part["warming"] + level, mode="lines", line=line, name="curve"), row=1, col=1)
    figure.add_hline(y=level, line={"color": QUIET, "dash": "dash", "width": 1}, row=1, col=1)
    figure.update_yaxes(range=_reach(difference, low, high), row=1, col=1)
    _names(figure, curve, drawn, level)


def _names(figure, curve, drawn, level):
    last, height = drawn.index[-1], level + drawn["warming"].iloc[-1]
    label(figure, "curve" if curve.determined else "one of many", last, height, TREATED, xshift=6)
    label(figure, "baseline", drawn.index[0], level, QUIET, yshift=-11)
    label(figure, f"all curves allowed<br>({100 * curve.question.level:g} %)", last, height, TREATED, xshift=6, yshift=-34, align="left")
    end = curve.windows.response[1]
    figure.add_vline(x=end, line={"color": QUIET, "dash": "dot", "width": 1}, row="all", col=1)
    label(figure, "record ends", end, 0.02, QUIET, xshift=4, yref="y domain", yanchor="bottom")
    late = drawn.index.asof(0.3 * drawn.index[0] + 0.7 * end)
    label(figure, "readings", late, level + drawn["warming"][late], LINES["difference"]["color"], yshift=-24)


def _reach(difference, low, high):
    """The height of the upper panel: all readings, and the band as far as it goes within three times that."""
    bottom, top = difference.min(), difference.max()
    room = max(top - bottom, 0.05)
    return max(min(low.min(), bottom), bottom - room) - 0.15 * room, min(max(high.max(), top), top + room) + 0.1 * room
