"""A file that came in from elsewhere, kept unchanged beside the notebook."""

import re
from itertools import count
from pathlib import Path

from kit.faults import Fault
from kit.storage import write_atomically

UNFIT = re.compile(r'[\x00-\x1f<>:"/\\|?*#]+')  # characters that a file's name can't hold on Windows, and the mark before a sheet's name
LONGEST_NAME = 80
FULL = "{name} could not be written beside the notebook ({why}). Make room there, then press Keep again."


def keep_unchanged(name, data, folder="."):
    """Write `data` into `folder` under `name`, or a name with a number where another file has it; gives the path. Never overwrites."""
    safe = safe_name(name)
    try:
        for number in count(1):
            path = Path(folder) / (safe if number == 1 else f"{Path(safe).stem}-{number}{Path(safe).suffix}")
            if not path.exists():
                write_atomically(path, data)
                return path
            if path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data:
                return path
    except OSError as problem:
        raise Fault(FULL.format(name=safe, why=problem.strerror)) from problem


def safe_name(name):
    """The last part of a file's name without anything that an operating system refuses."""
    plain = UNFIT.sub("-", re.split(r"[/\\]", str(name))[-1]).strip(" .-")
    stem, suffix = Path(plain).stem[:LONGEST_NAME], Path(plain).suffix[:10]
    return f"{stem}{suffix}" if stem else "run.csv"
