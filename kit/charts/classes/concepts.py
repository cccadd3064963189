"""The concept check: for each question how many had it right before and after, on one line."""

from kit.analysis.concepts import ConceptCheck
from kit.charts import draw
from kit.charts.drawing import CONTROL, dots, line, Panel, QUIET, remark, row_axis, row_label, sheet, TREATED


@draw.register
def concepts_chart(check: ConceptCheck):
    """A row a question: a hollow square before, a filled dot after, the way between them. The note names the idea most held now."""
    names = [f"{item.number} {item.question.hint.partition(':')[0]}" for item in check.items]
    before, after = ([_share(item, getattr(item, when)) for item in check.items] for when in ("before", "after"))
    ways = [end for pair in zip(before, after) for end in (*pair, None)]
    rows = [name for name in names for _ in range(3)]
    traces = [
        line(ways, rows, QUIET, hoverinfo="skip"),
        dots(before, names, CONTROL, symbol="square-open", size=12, hoverinfo="x"),
        dots(after, names, TREATED, size=10, hoverinfo="x"),
    ]
    words = [row_label(name, _held(item), QUIET) for name, item in zip(names, check.items)]
    marks = [remark(text, value, names[0], color, **place) for text, value, color, place in _ends(before[0], after[0])]
    axes = {"xaxis": {"range": [-4, 104]}, "yaxis": row_axis(names)}
    panel = Panel(traces, x="right answers (% of those who took both sheets)", notes=[*words, *marks], **axes)
    return sheet(panel, title=str(check), said="Square: before. Dot: after. Beside each question: the idea most held afterwards.", height=120 + 48 * len(names))


def _share(item, letters):
    return 100 * letters[item.right] / item.asked if item.asked else None


def _held(item):
    return f"{item.still[0]} ({item.still[1]})" if item.still else ""


def _ends(before, after):
    """The words beside the first row's marks, on their outer sides."""
    if before is None:
        return ()
    left, right = {"xanchor": "right", "xshift": -10}, {"xanchor": "left", "xshift": 10}
    first, second = (left, right) if before <= after else (right, left)
    return ("before", before, CONTROL, first), ("after", after, TREATED, second)
