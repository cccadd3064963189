"""The measured CO2 of the air: months, trend and season."""

from kit.analysis.planet import Co2Record
from kit.charts import draw
from kit.charts.drawing import CONTROL, line, Panel, remark, sheet, TREATED

MONTHS = list(range(1, 13))
LETTERS = list("JFMAMJJASOND")


@draw.register
def record_chart(record: Co2Record):
    """Every month with the trend on the left; the mean season with its spread from year to year on the right."""
    traces = [line(record.years, record.ppm, TREATED, width=1), line(record.years, record.trend_ppm, CONTROL, width=3)]
    notes = [
        remark("months", record.years[0], record.ppm[0] + 6, TREATED),
        remark("trend", record.years[-80], float(record.trend_ppm[-80]) - 6, CONTROL),
    ]
    title = f"CO2 at Mauna Loa, {record.first_day[:4]} to {record.last_day[:4]}"
    months = Panel(traces, x="year", y="CO2 (ppm)", notes=notes, share=2.4)
    return sheet(months, _season(record), title=title, said=str(record), columns=2, gap=0.14)


def _season(record):
    spread = {"type": "data", "array": record.season_spread_ppm, "color": TREATED}
    trace = line(MONTHS, record.season_ppm, TREATED, mode="lines+markers", error_y=spread)
    return Panel([trace], x="month", y="above or below the trend (ppm)", xaxis={"tickvals": MONTHS, "ticktext": LETTERS})
