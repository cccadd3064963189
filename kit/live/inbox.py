"""What a logger sent: on the disk before anything else looks at it, in files that only ever grow."""

import os
from codecs import BOM_UTF16_BE, BOM_UTF16_LE
from datetime import datetime
from itertools import count
from pathlib import Path

from kit.faults import Fault

FOLDER = "received"


class Inbox:
    """The bytes received from one source. Each unbroken stretch is a part with a file of its own in the folder `received`.

    `name` is the file that the first part gets; an earlier file of that name is kept, and continued if it holds the part's beginning.
    """

    def __init__(self, name, folder="."):
        self.folder, self.name = Path(folder) / FOLDER, Path(name)
        self.parts, self.paths, self._anew = [], [], True

    @property
    def part(self):
        """The bytes of the newest part."""
        return self.parts[-1] if self.parts else b""

    def add(self, data, anew=False):
        """Put `data` on the disk, then into the newest part; with `anew`, what comes next begins a part. A Fault when the disk refuses."""
        self._anew = self._anew or anew
        if not data:
            return
        try:
            if self._anew:
                self._begin(data)
            elif self._is_ours():
                _append(self.paths[-1], data)
            else:
                self.paths[-1], _ = self._place_for(whole := bytes(self.part + data))
                _append(self.paths[-1], whole)
        except OSError as problem:
            raise Fault(
                f"What the logger sent could not be written to the folder {FOLDER} ({problem.strerror}). Make room there, then start again."
            ) from problem
        self.part.extend(data)

    def _begin(self, data):
        path, known = self._place_for(data)
        _append(path, data[known:])
        self.paths.append(path)
        self.parts.append(bytearray())
        self._anew = False

    def _is_ours(self):
        """Does the newest file hold what was put there, and no more? Another program that follows the same logger may have added to it."""
        path = self.paths[-1]
        return path.exists() and path.stat().st_size == len(self.part)

    def _place_for(self, data):
        """(file for a new part, how many of its bytes are there already)."""
        for number in count(1):
            path = self.folder / (self.name.name if number == 1 else f"{self.name.stem}-{number}{self.name.suffix}")
            if not path.exists():
                return path, 0
            size = path.stat().st_size
            if path not in self.paths and 0 < size <= len(data) and path.read_bytes() == data[:size]:
                return path, size


def complete(data):
    """The bytes up to the end of the last whole line; in UTF-16 a line end is two bytes."""
    if data[:2] == BOM_UTF16_LE or data[1:2] == b"\0":
        mark = b"\n\0"
    elif data[:2] == BOM_UTF16_BE or data[:1] == b"\0":
        mark = b"\0\n"
    else:
        mark = b"\n" if b"\n" in data else b"\r"
    end = data.rfind(mark)
    while end > 0 and end % len(mark):
        end = data.rfind(mark, 0, end + len(mark) - 1)
    return bytes(data[: end + len(mark)]) if end >= 0 else b""


def time_of_day():
    """'14:06:31', for sentences about what happened."""
    return datetime.now().strftime("%H:%M:%S")


def _append(path, data):
    path.parent.mkdir(parents=True, exist_ok=True)
    with open(path, "ab") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
