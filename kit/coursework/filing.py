"""A file that came in from elsewhere, kept unchanged beside the notebook, and which one was kept last."""

import json
import re
from itertools import count
from pathlib import Path

from kit.faults import Fault
from kit.storage import write_atomically

MEMORY = "brought-in.json"
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


def remember(file, keywords, folder="."):
    """Note down which file was kept last, and how it is read. A Fault when the disk refuses."""
    try:
        write_atomically(Path(folder) / MEMORY, json.dumps({"file": file, "keywords": keywords}, ensure_ascii=False, indent=1))
    except OSError as problem:
        raise Fault(FULL.format(name=MEMORY, why=problem.strerror)) from problem


def remembered(folder="."):
    """(file, keywords) kept last in `folder`, or None: nothing was kept, the note is damaged, or the file is gone."""
    try:
        kept = json.loads((Path(folder) / MEMORY).read_text(encoding="utf-8"))
        file, keywords = str(kept["file"]), {str(name): value for name, value in kept["keywords"].items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None
    return (file, keywords) if Path(folder, file).is_file() else None
