"""What a killed `lab` or kernel leaves behind goes at the next start: folders in the computer's temporary one, files written by half."""

import os
import shutil
import tempfile
import time
from contextlib import contextmanager
from pathlib import Path

from kit.bootstrap.locking import in_turn
from kit.bootstrap.environment import free_within

PREFIX, IN_USE = "kit-lab-", "in-use"
A_MINUTE = 60.0  # whatever is younger may be in the making by another window


@contextmanager
def passing_folder(temporary=None):
    """A new folder for what passes, in the computer's temporary one. It goes with the block; one whose process was killed goes here."""
    temporary = Path(temporary or tempfile.gettempdir())
    for folder in temporary.glob(f"{PREFIX}*"):
        if is_ours(folder) and is_left(folder):
            shutil.rmtree(folder, ignore_errors=True)
    with tempfile.TemporaryDirectory(prefix=PREFIX, dir=temporary, ignore_cleanup_errors=True) as name, in_turn(Path(name) / IN_USE):
        yield name


def is_ours(folder):
    """Everybody may write in the temporary folder: is this one a folder, and this person's?"""
    return folder.is_dir() and not folder.is_symlink() and (os.name == "nt" or folder.stat().st_uid == os.getuid())


def is_left(folder):
    """Is the process that made it gone? As long as it lives, it holds a file in there locked."""
    mark = folder / IN_USE
    return free_within(mark, 0) if mark.exists() else is_old(folder)


def remove_halves(work):
    """Delete the files in the learner's folder that a killed process was about to write. What they were to replace is whole."""
    for half in work.rglob(".*.part"):
        if is_old(half):
            half.unlink(missing_ok=True)


def is_old(path):
    return time.time() - path.stat().st_mtime > A_MINUTE
