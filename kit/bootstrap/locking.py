"""One process at a time: for a set-up, or for a file that two may add to. A lock goes with its process, however that ends."""

import os
import time
from contextlib import contextmanager, suppress

from kit.bootstrap.places import WINDOWS

UNWRITTEN = 1 << 30  # Windows lets nobody read a locked byte: lock one behind all that is written
TAKEN = "The kit is being set up in another window. Wait until that is done, then type the same command again."


@contextmanager
def alone(path):
    """Hold the file `path` locked, and delete it in the end. If another process holds it, a sentence."""
    with open(path, "w") as file:
        try:
            lock(file)
        except (BlockingIOError, PermissionError):
            raise SystemExit(TAKEN) from None
        try:
            yield
        finally:
            file.close()
            with suppress(PermissionError):  # another window has opened it by now
                path.unlink(missing_ok=True)


@contextmanager
def in_turn(path, wait_s=2.0):
    """Hold the file `path` locked, after whoever else does. Goes on without it after `wait_s`, and where files can't be locked."""
    try:
        file = open(path, "w")
    except OSError:
        yield
        return
    with file:
        wait_for_lock(file, time.monotonic() + wait_s)
        yield


def wait_for_lock(file, until):
    while time.monotonic() < until:
        try:
            return lock(file)
        except (BlockingIOError, PermissionError):
            time.sleep(0.005)
        except OSError:
            return None
    return None


def lock(file):
    if WINDOWS:
        import msvcrt

        os.lseek(file.fileno(), UNWRITTEN, os.SEEK_SET)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        os.lseek(file.fileno(), 0, os.SEEK_SET)
    else:
        import fcntl

        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
