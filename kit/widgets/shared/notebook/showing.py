"""Showing a thing inside a widget: another widget as it is, anything else as a cell would show it."""

import json
from html import escape

import ipywidgets
from IPython.core.interactiveshell import InteractiveShell

from kit.charts import headless
from kit.widgets.shared.notebook.tables import figure_table

# Above a chart as text: inside it, a narrow page would cut it off.
HEADING = "<p><strong>{}</strong><br>{}</p>"
CONFIG = {"displaylogo": False, "modeBarButtons": [["resetScale2d", "toImage"]]}


def shown(thing):
    """A widget that shows `thing`; a function is called first, so that slow work waits until it is wanted."""
    thing = thing() if callable(thing) else thing
    if isinstance(thing, ipywidgets.Widget):
        return thing
    return ipywidgets.Output(outputs=tuple({"output_type": "display_data", "data": data, "metadata": {}} for data in bundles(thing)))


def bundles(thing):
    """What a notebook is sent for `thing`, one bundle after the other: a figure goes between its heading and a table of its lines."""
    if not hasattr(thing, "to_plotly_json"):
        return [InteractiveShell.instance().display_formatter.format(thing)[0]]
    title, said, figure = headless(thing)
    table = figure_table(thing)
    above = [{"text/html": HEADING.format(escape(title), escape(said)), "text/plain": f"{title}\n{said}".strip()}] if title else []
    below = [{"text/html": table, "text/plain": "The chart as a table"}] if table else []
    return [*above, _drawn(figure, title or thing.layout.title.text or "Figure"), *below]


def _drawn(figure, name):
    """A plotly figure as JupyterLab draws it. Made here because plotly's own way first loads a schema checker, for about four seconds."""
    return {"application/vnd.plotly.v1+json": {**json.loads(figure.to_json()), "config": CONFIG}, "text/plain": name}
