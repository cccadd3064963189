"""Taking a source in: a path, pasted text or bytes become named bytes. The file itself is only ever read."""

import stat
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cached_property
from hashlib import sha256
from pathlib import Path

from kit.faults import IntakeFault

LARGEST_BYTES = 256 * 2**20


@dataclass(frozen=True)
class Raw:
    """The bytes of a record with the name they go by. `sheet` names one sheet of a workbook."""

    name: str
    data: bytes
    sheet: str | None = None

    @cached_property
    def sha256(self):
        """SHA-256 of the bytes, in hexadecimal."""
        return sha256(self.data).hexdigest()


def take(source):
    """`Raw` bytes of `source`: a path ('book.xlsx#Sheet 2' names a sheet), `Raw` itself, or a text of several lines."""
    if isinstance(source, Raw):
        return source
    if isinstance(source, str) and "\n" in source:
        return Raw("pasted text", source.encode("utf-8", "replace"))
    path, sheet = path_and_sheet(source)
    return Raw(path.name, read_bytes(path), sheet)


def path_and_sheet(source):
    try:
        path = Path(source)
    except TypeError as problem:
        raise IntakeFault(
            f"Expected the path of a file, and was given {type(source).__name__}.", "Write it in quotes: read_run('run.csv')."
        ) from problem
    name, mark, sheet = path.name.partition("#")
    split = mark and not there(path)
    return (path.with_name(name), sheet) if split and name else (path, None)


def there(path):
    try:
        return path.exists()
    except (OSError, ValueError):
        return False


def read_bytes(path):
    """The bytes of a file. A fault for whatever is no file, may not be read, or is too large."""
    try:
        refuse_unreadable(path, path.stat())
        return path.read_bytes()
    except IntakeFault:
        raise
    except FileNotFoundError as problem:
        raise IntakeFault("There is no such file.", beside(path), file=path.name) from problem
    except PermissionError as problem:
        do = "Close other programs that hold it, or copy it to your own folder."
        raise IntakeFault("This file may not be read: permission denied.", do, file=path.name) from problem
    except (OSError, ValueError) as problem:
        name = "".join(sign for sign in path.name[:40] if sign.isprintable())
        do = "Copy it to your own folder, under a short name, and try that."
        raise IntakeFault("This file can't be opened.", do, file=name) from problem


def refuse_unreadable(path, status):
    if stat.S_ISDIR(status.st_mode):
        raise IntakeFault("This is a folder, not a file.", "Name one file in it, or read them all with read_class.", file=path.name)
    if not stat.S_ISREG(status.st_mode):
        raise IntakeFault("This is a device or a pipe, not a file.", "Save the record to a file first.", file=path.name)
    if status.st_size > LARGEST_BYTES:
        what = f"This file has {status.st_size / 2**20:,.0f} MiB; at most {LARGEST_BYTES // 2**20} are read."
        raise IntakeFault(what, "Save only the part with the run, or log less often.", file=path.name)


def beside(path):
    """What to do about a missing file: the nearest name in its folder, if one is near."""
    try:
        names = [each.name for each in path.parent.iterdir() if each.is_file()]
    except (OSError, ValueError):
        return "Check the folder's name."
    near = get_close_matches(path.name, names, n=1)
    return f"Did you mean '{near[0]}'?" if near else "Check the name, and the folder it is in."
