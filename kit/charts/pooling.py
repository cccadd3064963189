"""A class: its runs side by side; and its board, every group with its range, the class mean, what one more group would measure."""

from math import ceil

from kit.analysis.classes import ClassEffect
from kit.charts import draw
from kit.charts.run import thinned
from kit.charts.sheet import Panel, line, ranged, row_axis, row_label, sheet, upright
from kit.charts.style import CONTROL, DIFFERENCE, QUIET, TREATED
from kit.estimate import MINUS
from kit.intake.classes import ClassRuns

COLUMNS = 4


@draw.register
def forest_chart(effect: ClassEffect):
    """One row a group, the larger the mark the more it weighs; below them the means, and the range for one more group."""
    rows = [*_groups(effect), *_means(effect)]
    names = [name for name, *_ in rows]
    traces = [ranged(estimate, name, color, **mark, name=name) for name, estimate, color, mark in rows]
    notes = [row_label(name, next_text(each) if each is effect.next_group else each.text, color) for name, each, color, _ in rows]
    panel = Panel(traces, x="extra warming (°C)", marks=[upright(0)], notes=notes, yaxis=row_axis(names))
    return sheet(panel, title=str(effect), height=80 + 48 * len(rows))


def next_text(estimate):
    """The range for one more group with its level: it has no best value worth naming."""
    return f"{estimate.range} ({100 * estimate.level:g} %)"


def _groups(effect):
    for share in effect.shares:
        name = f"{share.name} (look again)" if share.suspect else share.name
        yield (
            name,
            share.warming,
            CONTROL if share.suspect else DIFFERENCE,
            {"symbol": "x" if share.suspect else "square", "size": 8 + 18 * share.weight},
        )


def _means(effect):
    yield "class mean", effect.mean, TREATED, {"symbol": "diamond", "size": 15}
    for share in effect.suspects:
        yield f"without {share.name}", share.without, TREATED, {"symbol": "diamond-open", "size": 12}
    yield "plain mean, by hand", effect.plain_mean, QUIET, {"symbol": "circle", "size": 9}
    yield "one more group", effect.next_group, QUIET, {"symbol": "line-ns-open", "size": 10}


@draw.register
def class_runs_chart(runs: ClassRuns):
    """One small panel a run, all to the same scale: treated minus control over time."""
    rows, panels = ceil(len(runs) / COLUMNS), []
    for place, run in enumerate(runs):
        x, y = thinned(run.minutes, run.difference().to_numpy())
        titles = {"x": "time (min)" if place + COLUMNS >= len(runs) else "", "y": "" if place % COLUMNS else f"treated {MINUS} control (°C)"}
        panels.append(Panel([line(x, y, DIFFERENCE, width=1.5, name=run.name)], heading=run.name, untitled_c="y", **titles))
    said, gap = " ".join(map(str, runs.faults)), 0.3 / max(rows, 2)
    return sheet(*panels, title=str(runs), said=said, height=90 + 190 * rows, columns=COLUMNS, gap=gap, tied="xy")
