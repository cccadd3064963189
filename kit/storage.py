"""Writing a file whole or not at all, so that nothing a learner did is lost halfway."""

import os
import tempfile
from pathlib import Path


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
