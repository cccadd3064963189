"""JupyterLab as the kit sets it up: its settings, what the kit adds to the page in the browser, and what that asks of the server."""

from kit.jupyter.opening import first_page, own_settings, SETTINGS
from kit.jupyter.server import LEARNER, load

__all__ = ["first_page", "LEARNER", "load", "own_settings", "SETTINGS"]


def _jupyter_server_extension_points():
    return [{"module": "kit.jupyter"}]


def _load_jupyter_server_extension(server):
    load(server)
