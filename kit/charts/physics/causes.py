"""The rival causes: their sizes beside the measured effect, and the bounds that several runs leave them."""

from kit.analysis.causes import CauseBudget, RUNS, WeighedCauses
from kit.charts import draw
from kit.charts.drawing import CONTROL, faint, line, Panel, QUIET, ranges_chart, remark, row_axis, row_label, sheet, TREATED, upright

WIDEST, NARROWEST = 26, 8  # pixels: bars of the first and of the last run


@draw.register
def causes_chart(budget: CauseBudget):
    """Each cause as the range it could reach, against zero and the measured interval. The note says how it stands, in words."""
    rows, measured = [_row(cause, budget) for cause in budget.causes], budget.measured
    marks, notes = [upright(0)], []
    if measured:
        marks += [upright(measured.low, measured.high), upright(measured.value, color=CONTROL, dash="dash")]
        notes += [remark("measured", measured.high, 0, CONTROL, yref="domain", yanchor="bottom")]
    title, said = "What could have warmed it more", str(budget)
    return ranges_chart(rows, title=title, said=said, x="extra warming (°C)", marks=marks, notes=notes)


def _row(cause, budget):
    said = cause.standing if budget.measured else str(cause.size)
    return str(cause.rival), cause.size, said, TREATED if cause.standing == "could alone" else QUIET


@draw.register
def weighed_chart(weighed: WeighedCauses):
    """A bar each cause, least to most: broad and pale after the gas run, ever narrower with each further run, dark once all are in."""
    names = {cause.letter: str(cause.rival) for cause in weighed.causes}
    steps = [_bars(bounds, names, place, len(weighed.history)) for place, (_, bounds) in enumerate(weighed.history)]
    words = [row_label(names[cause.letter], cause.word, _color(cause)) for cause in weighed.causes]
    measured = weighed.runs[0].effect
    marks = [upright(0), upright(measured.low, measured.high)]
    told = [remark("gas run", measured.high, 0, QUIET, yref="domain", yanchor="bottom")]
    panel = Panel(steps, x="extra warming in the gas run (°C)", marks=marks, notes=[*words, *told], yaxis=row_axis(list(names.values())))
    order = ", then ".join(RUNS[kind] for kind, _ in weighed.history)
    said = f"{weighed.reason} Bars from pale to dark: {order}."
    return sheet(panel, title=str(weighed), said=said, height=110 + 56 * len(names))


def _bars(bounds, names, place, steps):
    """One step's bars as one trace with gaps."""
    last = place == steps - 1
    width = NARROWEST if last else WIDEST - (WIDEST - NARROWEST) * place / max(steps - 1, 1)
    ends = [end for letter in names for end in (*bounds[letter], None)]
    rows = [name for name in names.values() for _ in range(3)]
    return line(ends, rows, TREATED if last else faint(TREATED), width=width, hoverinfo="x")


def _color(cause):
    return TREATED if cause.word == "needed" else QUIET
