"""The measured CO2 of the air: months, trend and season."""

from kit.analysis.planet import Co2Record
from kit.charts import draw
from kit.charts.sheet import note, sheet
from kit.charts.style import CONTROL, TREATED

MONTHS = list(range(1, 13))
LETTERS = list("JFMAMJJASOND")


@draw.register
def record_chart(record: Co2Record):
    """Every month with the trend on the left; the mean season with its spread from year to year on the right."""
    line = {"type": "scatter", "mode": "lines", "x": record.years}
    traces = [
        {**line, "y": record.ppm, "line": {"color": TREATED, "width": 1}},
        {**line, "y": record.trend_ppm, "line": {"color": CONTROL, "width": 3}},
        _season(record),
    ]
    notes = [
        note("months", record.years[0], record.ppm[0] + 6, TREATED),
        note("trend", record.years[-80], float(record.trend_ppm[-80]) - 6, CONTROL),
    ]
    return sheet(
        traces,
        title=f"CO2 at Mauna Loa, {record.first_day[:4]} to {record.last_day[:4]}",
        said=str(record),
        x="year",
        y="CO2 (ppm)",
        notes=notes,
        xaxis={"domain": [0, 0.62]},
        xaxis2={"title": {"text": "month"}, "domain": [0.74, 1], "tickvals": MONTHS, "ticktext": LETTERS},
        yaxis2={"title": {"text": "above or below the trend (ppm)"}, "anchor": "x2"},
    )


def _season(record):
    spread = {"type": "data", "array": record.season_spread_ppm}
    look = {"mode": "lines+markers", "line": {"color": TREATED}}
    return {"type": "scatter", "x": MONTHS, "y": record.season_ppm, "error_y": spread, "xaxis": "x2", "yaxis": "y2", **look}
