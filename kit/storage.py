"""Writing a file whole or not at all, so that nothing a learner did is lost halfway."""

import os
import tempfile
from pathlib import Path

from kit.faults import Fault

GONE = (
    "The folder of this notebook is gone: it was deleted, moved or renamed. Put it back under its old name; "
    "or open the notebook where it lies now, and restart its kernel."
)


def here(folder="."):
    """`folder` (the working folder) as a whole path. A Fault if the folder in which this Python was started is there no more."""
    try:
        return Path(folder).absolute()
    except FileNotFoundError as problem:
        raise Fault(GONE) from problem


def write_atomically(path, content):
    """Write `content` (bytes, or text as UTF-8) to `path`: into a new file beside it first, onto the disk, then in one step into place."""
    path = Path(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content.encode("utf-8") if isinstance(content, str) else content)
            file.flush()
            os.fsync(file.fileno())
        os.replace(temporary, path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
