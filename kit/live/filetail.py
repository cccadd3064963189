"""The end of a file that a logger still writes: only the new bytes are read, and a file that began anew is noticed."""

import os
from dataclasses import dataclass
from pathlib import Path

from kit.faults import IntakeFault
from kit.intake.given import LARGEST_BYTES, refuse_unreadable

NOT_YET = "There is no file {name} yet. Start the logger, or check the name."
GONE = "{name} is not there at present. What was read is kept. It goes on when the file is back."
CHECKED = 64  # bytes before the new ones that are compared with what was read there


@dataclass(frozen=True)
class Arrival:
    """New bytes of a source. `anew`: they begin a new stretch. `trouble`: why nothing comes at present, '' if all is well."""

    data: bytes = b""
    anew: bool = False
    trouble: str = ""


class FileTail:
    """A growing file at `path`. `arrived(held)` gives what came after the bytes `held`; it may be there later, or replaced."""

    def __init__(self, path):
        self.path, self._identity = Path(path), None

    def arrived(self, held):
        """The `Arrival` since `held`. A fault for a folder, a device, or a file that has become too large."""
        try:
            refuse_unreadable(self.path, self.path.stat())  # before it is opened: to open a pipe would wait for its writer
            with open(self.path, "rb") as file:
                return self._new(file, held)
        except FileNotFoundError:
            return Arrival(trouble=(GONE if held else NOT_YET).format(name=self.path.name))
        except IsADirectoryError:
            refuse_unreadable(self.path, self.path.stat())
            raise
        except OSError as problem:
            if isinstance(problem, IntakeFault):
                raise
            return Arrival(trouble=f"{self.path.name} can't be opened at present ({problem.strerror}).")

    def close(self):
        """Nothing to let go: the file is closed after every look."""

    def _new(self, file, held):
        status = os.fstat(file.fileno())
        refuse_unreadable(self.path, status)
        identity, known = (status.st_dev, status.st_ino), self._identity
        self._identity = identity
        if identity == known and status.st_size >= len(held) and _follows(file, held):
            return Arrival(file.read(LARGEST_BYTES))
        return _compared(file.read(LARGEST_BYTES), held)


def _follows(file, held):
    """Does the file still hold, just before its new bytes, what was read there? Leaves it at the new bytes."""
    start = max(0, len(held) - CHECKED)
    file.seek(start)
    if file.read(len(held) - start) == held[start:]:
        return True
    file.seek(0)
    return False


def _compared(whole, held):
    """A file that is another one than before, or is shorter: the same record written again, in the midst of being written, or a new one."""
    if whole.startswith(held):
        return Arrival(whole[len(held) :])
    return Arrival() if held.startswith(whole) else Arrival(whole, anew=True)
