"""The rival causes and their sizes beside the measured effect."""

from kit.analysis.causes import CauseBudget
from kit.charts import draw
from kit.charts.ranges import ranges_chart
from kit.charts.sheet import note, upright
from kit.charts.style import CONTROL, QUIET, TREATED


@draw.register
def causes_chart(budget: CauseBudget):
    """Each cause as the range it could reach, against zero and the measured interval. The note says how it stands, in words."""
    rows, measured = [_row(cause, budget) for cause in budget.causes], budget.measured
    marks, notes = [upright(0)], []
    if measured:
        marks += [upright(measured.low, measured.high), upright(measured.value, color=CONTROL, dash="dash")]
        notes += [note("measured", measured.high, 0, CONTROL, yref="domain", yanchor="bottom")]
    title, said = "What could have warmed it more", str(budget)
    return ranges_chart(rows, title=title, said=said, x="extra warming (°C)", marks=marks, notes=notes, right=150)


def _row(cause, budget):
    said = cause.standing if budget.measured else str(cause.size)
    return f"{cause.rival.letter} {cause.rival.name}", cause.size, said, TREATED if cause.standing == "could alone" else QUIET
