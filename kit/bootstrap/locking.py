"""One set-up at a time. The lock goes with its process, however that ends."""

from contextlib import contextmanager

from kit.bootstrap.places import WINDOWS

TAKEN = "The kit is being set up in another window. Wait until that is done, then type the same command again."


@contextmanager
def alone(path):
    """Hold the file `path` locked. If another process does, a sentence."""
    with open(path, "w") as file:
        try:
            lock(file)
        except (BlockingIOError, PermissionError):
            raise SystemExit(TAKEN) from None
        yield
    path.unlink(missing_ok=True)


def lock(file):
    if WINDOWS:
        import msvcrt

        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        import fcntl

        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
