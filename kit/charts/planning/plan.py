"""How wide the range gets with the number of runs, and how likely the planned runs tell a warming from none."""

import numpy as np

from kit.analysis.planning import Plan
from kit.charts import draw
from kit.charts.drawing import CONTROL, DIFFERENCE, end_label, level, line, Panel, QUIET, remark, sheet, TREATED

# Which of a plan's options each line holds: (option, the chosen one) -> bool; its colour, dashes and marks.
KINDS = {
    "{} quiet minutes": (lambda each, chosen: each.timing == chosen.timing and not each.swap, CONTROL, "dash", "square"),
    "one quiet minute": (lambda each, chosen: each.timing.quiet == 1 and not each.swap, QUIET, "dot", "circle"),
    "{}, half swapped": (lambda each, chosen: each.timing == chosen.timing and (each.swap or each.runs == 1), TREATED, "solid", "diamond"),
}


@draw.register
def plan_chart(plan: Plan):
    """Half-width against runs above, with the wish; chance of telling a warming from none below."""
    return sheet(_widths(plan), _chances(plan), title=str(plan), height=600, gap=0.2)


def _widths(plan):
    traces, notes = [], [remark("wanted", 1, plan.half_width_c, DIFFERENCE, yshift=9)]
    quiet = "ten" if plan.chosen.timing.quiet == 10 else f"{plan.chosen.timing.quiet:g}"
    for name, (belongs, color, dash, symbol) in KINDS.items():
        options = [each for each in plan.options if belongs(each, plan.chosen)]
        if options:
            name = name.format(quiet)
            x, y = [each.runs for each in options], [each.half_width_c for each in options]
            look = {"mode": "lines+markers", "marker": {"symbol": symbol, "color": color, "size": 7}}
            traces.append(line(x, y, color, dash=dash, name=name, **look))
            notes.append(end_label(name, x[-1], y[-1], color, below=symbol != "circle"))
    axes = {"xaxis": {"tickvals": [1, 3, 6, 9, 12], "range": [0, 13]}, "yaxis": {"rangemode": "tozero"}}
    names = {"x": "number of runs", "y": "4 of 5 reach at most ± (°C)", "heading": "how wide"}
    return Panel(traces, **names, marks=[level(plan.half_width_c, color=DIFFERENCE)], notes=notes, **axes)


def _chances(plan):
    sizes = np.linspace(0, 4 * plan.chosen.half_width_c, 80)
    chances = 100 * plan.chance_of_telling(sizes)
    notes = [end_label(f"{plan.runs} run{'s' * (plan.runs > 1)}", sizes[-1], chances[-1], TREATED, below=True)]
    names = {"x": "true extra warming (°C)", "y": "% of such plans", "heading": "how likely to be told from none"}
    return Panel([line(sizes, chances, TREATED, name="chance")], **names, notes=notes, yaxis={"range": [0, 105]})
