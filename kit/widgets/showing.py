"""Showing a thing inside a widget: another widget as it is, anything else as a cell would show it."""

import ipywidgets
from IPython.core.interactiveshell import InteractiveShell


def shown(thing):
    """A widget that shows `thing`; a function is called first, so that slow work waits until it is wanted."""
    thing = thing() if callable(thing) else thing
    if isinstance(thing, ipywidgets.Widget):
        return thing
    data, metadata = _bundle(thing)
    return ipywidgets.Output(outputs=({"output_type": "display_data", "data": data, "metadata": metadata},))


def _bundle(thing):
    """What a notebook would be sent for `thing`. A figure is asked itself: IPython would let it write into whichever cell runs last."""
    if hasattr(thing, "to_plotly_json"):
        return thing._repr_mimebundle_(), {}
    return InteractiveShell.instance().display_formatter.format(thing)
