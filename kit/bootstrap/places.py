"""Where things are, on Linux, macOS and Windows alike: in a checkout, and in a kit that pip has installed."""

import os
from pathlib import Path

KIT = Path(__file__).absolute().parents[1]
# What lies beside the package in a checkout lies inside it once pip has installed it (packing.py).
SHIPPED = KIT / "shipped"
INSTALLED = SHIPPED.is_dir()
CHECKOUT = KIT.parent
LESSONS, DATASETS = ((SHIPPED if INSTALLED else CHECKOUT) / name for name in ("lessons", "datasets"))
ENVIRONMENT = CHECKOUT / ".venv"
WINDOWS = os.name == "nt"
COURSE = "TWIN_VESSELS_COURSE"  # names the folder of a course of one's own, for the server and its kernels


def open_course():
    """The folder of the course that is open, or None: then the lessons are the kit's own."""
    named = os.environ.get(COURSE)
    return Path(named) if named else None


def own_folder():
    """Where a person's own work goes unless they say otherwise: beside the kit; where pip has installed it, the working folder."""
    return Path.cwd() if INSTALLED else CHECKOUT


def python_of(environment, windows=WINDOWS):
    """The Python inside a virtual environment."""
    return environment / "Scripts" / "python.exe" if windows else environment / "bin" / "python"
