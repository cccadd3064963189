"""The files of a class, from a folder or a zip, and nothing that only pretends to be one of them. Nothing is ever unpacked to disk."""

import stat
import zipfile
from io import BytesIO
from pathlib import Path, PurePosixPath, PureWindowsPath

from kit.faults import Fault, IntakeFault
from kit.intake.given import Raw, read_bytes

RECORDS = {".csv", ".txt", ".tsv", ".dat", ".log", ".asc", ".xlsx"}
LARGEST_MEMBER_BYTES, LARGEST_CLASS_BYTES, MOST_FILES = 64 * 2**20, 512 * 2**20, 1000
BY_MACHINES = {"__macosx", "thumbs.db", "desktop.ini"}
ENCRYPTED = 0x1


def members_of(source, kinds=RECORDS):
    """(title, `Raw` records, faults, (file, why) of files passed over) of a folder, a zip, or the `Raw` bytes of one, in the order of their
    names. `kinds`: the endings of the files that are read."""
    if isinstance(source, Raw):
        with zipfile.ZipFile(BytesIO(source.data)) as archive:
            return gathered(Path(source.name).stem, zip_files(archive), zip_bytes, kinds)
    path = Path(source)
    if path.is_dir():
        return gathered(path.name or str(path), folder_files(path), folder_bytes, kinds)
    if not path.is_file():
        raise Fault(f"There is no folder and no zip file {path.name!r}. Check the name, and the folder it is in.")
    if not zipfile.is_zipfile(path):
        raise Fault(f"{path.name} is neither a folder nor a zip file. Name the class's folder, or read one file with read_run.")
    with zipfile.ZipFile(path) as archive:
        return gathered(path.stem, zip_files(archive), zip_bytes, kinds)


def gathered(title, files, read, kinds):
    """Read each of `files`, (name, handle) pairs; a fault of one is kept and the rest is read."""
    if len(files) > MOST_FILES:
        raise Fault(f"{title} holds {len(files):,} files; at most {MOST_FILES:,} are read at once. Split the class into several folders.")
    records, faults, passed_over, size = [], [], [], 0
    for name, handle in sorted(files, key=lambda each: each[0]):
        if PurePosixPath(name).suffix.lower() not in kinds:
            passed_over.append((name, "not a kind of file that holds a record"))
            continue
        try:
            records.append(Raw(name, read(name, handle)))
        except IntakeFault as fault:
            faults.append(fault)
            continue
        except (OSError, RuntimeError):  # a link to itself
            faults.append(IntakeFault("This file can't be opened.", "Copy the file itself into the folder.", file=name))
            continue
        size += len(records[-1].data)
        if size > LARGEST_CLASS_BYTES:
            raise Fault(f"{title} holds more than {LARGEST_CLASS_BYTES // 2**20} MiB of records. Split the class into several folders.")
    return title, records, tuple(faults), tuple(passed_over)


def folder_files(folder):
    found = ((path.relative_to(folder).as_posix(), (path, folder)) for path in folder.rglob("*") if path.is_symlink() or path.is_file())
    return [(name, handle) for name, handle in found if not made_by_a_machine(name)]


def folder_bytes(name, handle):
    path, folder = handle
    if not path.resolve().is_relative_to(folder.resolve()):
        raise IntakeFault("This is a link to a file outside the class's folder.", "Copy the file itself into the folder.", file=name)
    if path.exists() and path.stat().st_size > LARGEST_MEMBER_BYTES:
        raise too_large(name)
    return read_bytes(path)


def zip_files(archive):
    return [(each.filename, (archive, each)) for each in archive.infolist() if not each.is_dir() and not made_by_a_machine(each.filename)]


def zip_bytes(name, handle):
    """The bytes of one member, never more than the limit, whatever size its entry claims."""
    archive, entry = handle
    refuse_tricks(name, entry)
    try:
        with archive.open(entry) as member:
            data = member.read(LARGEST_MEMBER_BYTES + 1)
    except Exception as problem:  # every way of packing has errors of its own; whichever it is, it is this member's
        raise IntakeFault("This part of the zip file is damaged.", "Make the zip anew.", file=name) from problem
    if len(data) > LARGEST_MEMBER_BYTES:
        raise too_large(name)
    return data


def refuse_tricks(name, entry):
    windows = PureWindowsPath(name)
    if ".." in windows.parts or windows.drive or windows.root:
        raise IntakeFault("Its name in the zip points outside the zip.", "Make the zip anew from the class's folder.", file=name)
    if stat.S_ISLNK(entry.external_attr >> 16):
        raise IntakeFault("This is a link, not a file.", "Put the file itself into the zip.", file=name)
    if entry.flag_bits & ENCRYPTED:
        raise IntakeFault("This file is locked with a password.", "Make the zip anew without one.", file=name)
    if entry.file_size > LARGEST_MEMBER_BYTES:
        raise too_large(name)


def too_large(name):
    most = LARGEST_MEMBER_BYTES // 2**20
    return IntakeFault(
        f"This file has more than {most} MiB.", "Save only the part with the run, or read it alone with read_run.", file=name
    )


def made_by_a_machine(name):
    parts = PurePosixPath(name).parts
    return any(part.startswith((".", "~$")) and part != ".." or part.lower() in BY_MACHINES for part in parts)
