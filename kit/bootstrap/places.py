"""Where things are, on Linux, macOS and Windows alike."""

import os
from pathlib import Path

CHECKOUT = Path(__file__).absolute().parents[2]
ENVIRONMENT = CHECKOUT / ".venv"
WINDOWS = os.name == "nt"


def python_of(environment, windows=WINDOWS):
    """The Python inside a virtual environment."""
    return environment / "Scripts" / "python.exe" if windows else environment / "bin" / "python"
