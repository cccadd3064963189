"""Showing a thing inside a widget: another widget as it is, anything else as a cell would show it."""

import json

import ipywidgets
from IPython.core.interactiveshell import InteractiveShell

CONFIG = {"displaylogo": False, "responsive": True, "modeBarButtons": [["resetScale2d", "toImage"]]}


def shown(thing):
    """A widget that shows `thing`; a function is called first, so that slow work waits until it is wanted."""
    thing = thing() if callable(thing) else thing
    if isinstance(thing, ipywidgets.Widget):
        return thing
    data, metadata = _bundle(thing)
    return ipywidgets.Output(outputs=({"output_type": "display_data", "data": data, "metadata": metadata},))


def figure_bundle(figure):
    """A plotly figure as JupyterLab draws it. Made here because plotly's own way first loads a schema checker, for about four seconds."""
    drawn = json.loads(figure.to_json())
    return {"application/vnd.plotly.v1+json": {**drawn, "config": CONFIG}, "text/plain": figure.layout.title.text or "Figure"}


def _bundle(thing):
    if hasattr(thing, "to_plotly_json"):
        return figure_bundle(thing), {}
    return InteractiveShell.instance().display_formatter.format(thing)
