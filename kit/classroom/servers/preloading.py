"""What every learner's server and kernel loads, loaded once, so that those forked from here share it and are there at once.

Modules alone save little: much is loaded when a first chart is drawn and a first marker moved, so that is done here, too (`warm`).
Never here: a thread, an event loop or a ZeroMQ context, which no fork survives; and `jupyterhub.singleuser` and `jupyterhub.services.auth`,
which read the learner's environment when they are imported.
"""

import gc
import importlib
import os
import sys
import tempfile

from kit.classroom.servers.kernels import offer_forked_kernels

SERVER = (
    "jupyterlab.labapp", "jupyter_server.serverapp", "jupyterhub.handlers", "jupyterhub.user", "jupyterhub.metrics", "alembic.command", "kit.jupyter",
    "pygments.lexers.html", "pygments.formatters.html", "mako.ext.pygmentplugin", "jupyter_server.view.handlers",
    *(f"jupyter_server.services.{each}.handlers" for each in ("api", "config", "contents", "events", "kernels", "kernelspecs", "security", "sessions")),
)  # fmt: skip
KERNEL = (
    "ipykernel.kernelapp", "ipykernel.ipkernel", "ipykernel.zmqshell", "IPython.core.completerlib", "IPython.core.magics.history",
    "IPython.extensions.storemagic", "tornado.platform.asyncio", "pdb", "kit.widgets.cards", "kit.widgets.watching",
)  # fmt: skip
UNUSED = ("debugpy",)  # nothing in the kit's JupyterLab asks for it, and each kernel would load 10 MB for it


def preload():
    """Load and warm all, and keep it out of the way of the collector, which would write to every page that is to be shared."""
    os.environ["PLOTLY_RENDERER"] = "plotly_mimetype"  # plotly chooses when it is imported, and without IPython it chooses a browser
    gc.disable()
    for name in (*SERVER, *KERNEL):
        load(name)
    warm()
    offer_forked_kernels()
    sys.modules.update(dict.fromkeys(UNUSED))
    gc.freeze()
    if len(os.listdir("/proc/self/task")) > 1:
        raise SystemExit("A package that was preloaded started a thread, so nothing can be forked from here.")


def load(name):
    try:
        importlib.import_module(name)
    except ImportError as problem:
        print(f"Not preloaded: {name} ({problem})", flush=True)


def warm():
    """Do once what every lesson does."""
    from kit import chart, example_run, mark_windows, Windows

    with tempfile.TemporaryDirectory() as folder:
        run = example_run("basalt")
        chart(run)._repr_mimebundle_()
        marker = mark_windows(run, folder=folder)
        marker.windows = Windows.of_perturbation(11)
        chart(marker.effect)._repr_mimebundle_()
        marker.effect._repr_html_()
        marker.close()
