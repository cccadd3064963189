"""`guide`: the teacher's guide and sheets as one page for paper."""

import os
import sys
import webbrowser

from kit.faults import Fault
from kit.sheets import write_guide

NAME = "guide.html"


def guide(options):
    """Write the page, and open it where a browser has a screen."""
    try:
        into = options.into.absolute()
        path = write_guide(into / NAME if into.is_dir() else into)
    except Fault as fault:
        raise SystemExit(str(fault)) from fault
    opened = options.browser and has_screen() and webbrowser.open(path.as_uri())
    print(f"The guide is in {path}. {'Your browser shows it' if opened else 'Open it in a browser'}; print it from there, on A4 or Letter.")
    return 0


def has_screen():
    """Is there a screen for a browser? Without one, some systems would open a browser made of letters in this very window."""
    return sys.platform in ("win32", "darwin") or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
