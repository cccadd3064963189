"""Where things are, on Linux, macOS and Windows alike."""

import os
from pathlib import Path

CHECKOUT = Path(__file__).absolute().parents[2]
ENVIRONMENT = CHECKOUT / ".venv"
WINDOWS = os.name == "nt"
COURSE = "TWIN_VESSELS_COURSE"  # names the folder of a course of one's own, for the server and its kernels


def open_course():
    """The folder of the course that is open, or None: then the lessons are the kit's own."""
    named = os.environ.get(COURSE)
    return Path(named) if named else None


def python_of(environment, windows=WINDOWS):
    """The Python inside a virtual environment."""
    return environment / "Scripts" / "python.exe" if windows else environment / "bin" / "python"
