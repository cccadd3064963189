"""Two runs over each other, the gap between them with the margin around zero, and the range that the verdict rests on."""

from kit.analysis.comparison import Comparison, overlay
from kit.charts import draw
from kit.charts.drawing import CONTROL, DIFFERENCE, end_label, level, line, Panel, ranged, remark, sheet, TREATED, upright
from kit.units import stated


@draw.register
def comparison_chart(comparison: Comparison):
    """Overlay above, gap and margin in the middle, the tested range below; without two runs the last alone."""
    laid = overlay(comparison.mine, comparison.reference)
    panels = [*([] if laid is None else [_runs(laid), _gap(laid, comparison.margin)]), _tested(comparison)]
    return sheet(*panels, title=str(comparison), said=comparison.reason, height=120 + 150 * len(panels))


def _runs(laid):
    traces, notes = [], []
    for name, color, dash in (("mine", TREATED, "solid"), ("reference", CONTROL, "dash")):
        traces.append(line(laid.index, laid[name], color, dash=dash, name=name))
        over = laid["mine"].iloc[-1] >= laid["reference"].iloc[-1]
        notes.append(end_label(name, laid.index[-1], laid[name].iloc[-1], color, below=over != (name == "mine")))
    return Panel(traces, y="°C", heading="since the change", notes=notes, share=3)


def _gap(laid, margin):
    notes = [
        end_label("gap", laid.index[-1], laid["gap"].iloc[-1], DIFFERENCE),
        remark(f"margin ± {stated(margin)}", laid.index[0], margin, DIFFERENCE, yshift=-10),
    ]
    axes = {"x": "time since the change (min)", "y": "°C", "heading": "mine minus reference"}
    marks = [level(-margin, margin, color=DIFFERENCE)]
    return Panel([line(laid.index, laid["gap"], DIFFERENCE, name="gap")], **axes, marks=marks, notes=notes, share=2)


def _tested(comparison):
    margin, traces = comparison.margin, []
    notes = [remark(f"margin ± {stated(margin)}", -margin, -0.8, DIFFERENCE, xshift=4, yanchor="bottom")]
    if comparison.test:
        ranges = ((1, comparison.difference, f"{100 * comparison.difference.level:g} % range"), (0, comparison.tested, "tested range"))
        traces = [ranged(estimate, height, TREATED, size=10, name=name) for height, estimate, name in ranges]
        notes += [remark(name, estimate.low, height, TREATED, yanchor="bottom", yshift=6) for height, estimate, name in ranges]
    marks = [upright(-margin, margin, color=DIFFERENCE), upright(0)]
    quiet = {"showticklabels": False, "range": [-0.8, 2], "showgrid": False, "ticks": ""}
    axes = {"x": "mine minus reference (°C)", "heading": "difference of the two results"}
    return Panel(traces, **axes, marks=marks, notes=notes, share=1.4, yaxis=quiet)
