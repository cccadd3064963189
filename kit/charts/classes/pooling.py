"""A class: its runs side by side; and its board, every group with its range, the class mean, what one more group would measure."""

from math import ceil

import numpy as np

from kit.analysis.classes import ClassEffect
from kit.charts import draw
from kit.charts.drawing import CONTROL, DIFFERENCE, faint, line, Panel, QUIET, ranged, row_axis, row_label, sheet, TREATED, upright
from kit.charts.runs import thinned
from kit.estimate import MINUS
from kit.intake.classes import ClassRuns
from kit.units import difference
from kit.words import counted

COLUMNS = 4
# More groups than this are no longer read one by one. Of them the chart shows all but the outermost thousandth at each end, in so many steps at most.
MOST_ROWS, FARTHEST, MOST_BINS, MOST_SUSPECTS = 40, (0.001, 0.999), 80, 6


@draw.register
def forest_chart(effect: ClassEffect):
    """One row a group, the larger the mark the more it weighs, or in a large class how many groups found what; below them the means, and the
    range for one more group."""
    if len(effect.shares) > MOST_ROWS:
        return _crowd(effect)
    rows = [*_groups(effect), *_means(effect, effect.suspects)]
    return sheet(_board(effect, rows, [upright(0)]), title=str(effect), height=80 + 48 * len(rows))


def _board(effect, rows, marks, **more):
    names = [name for name, *_ in rows]
    traces = [ranged(estimate, name, color, **mark, name=name) for name, estimate, color, mark in rows]
    notes = [row_label(name, next_text(each) if each is effect.next_group else each.text, color) for name, each, color, _ in rows]
    return Panel(traces, x="extra warming (°C)", marks=marks, notes=notes, yaxis=row_axis(names), **more)


def _crowd(effect):
    """A large class: how many groups found what, above the means."""
    values = np.array([share.warming.value for share in effect.shares])
    low, high = np.quantile(values, FARTHEST)
    low, high = min(low, effect.next_group.low), max(high, effect.next_group.high)
    inside = values[(values >= low) & (values <= high)]
    counts, edges = np.histogram(inside, bins=min(len(np.histogram_bin_edges(inside, "fd")) - 1, MOST_BINS) or 1)
    steps = line(np.repeat(edges, 2), [0, *np.repeat(counts, 2), 0], DIFFERENCE, fill="tozeroy", fillcolor=faint(DIFFERENCE), name="groups")
    rows = list(_means(effect, effect.suspects[:MOST_SUSPECTS]))
    room = 0.04 * (high - min(low, 0))
    axis = {"range": [min(low, 0) - room, max(high, 0) + room]}
    above = Panel([steps], y="groups in each step", marks=[upright(0), upright(effect.mean.value, color=TREATED)], xaxis=axis, untitled_c="x", share=200)
    below = _board(effect, rows, [upright(0)], xaxis=axis, share=48 * len(rows))
    height = 330 + 48 * len(rows)
    return sheet(above, below, title=str(effect), said=_outside(values, low, high), height=height, gap=24 / height, tied="x")


def _outside(values, low, high):
    """What the chart of a large class does not show."""
    hidden = values[(values < low) | (values > high)]
    found = {difference(float(end), 2): None for end in (hidden.min(), hidden.max())} if len(hidden) else ()
    return f"{counted(len(hidden), 'group')} beyond the edges of this chart found {' to '.join(found)}." if found else ""


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


def _means(effect, suspects):
    yield "class mean", effect.mean, TREATED, {"symbol": "diamond", "size": 15}
    for share in suspects:
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
