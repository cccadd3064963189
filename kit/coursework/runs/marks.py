"""Where the marks of a run are kept: small files in `marks/`, named after the run's own bytes, one for each notebook that it was marked in."""

import re
from pathlib import Path

from kit.coursework.answers import this_notebook
from kit.faults import Fault

FOLDER_OF_MARKS = "marks"
SIGNS = 16  # of the run's hash in a file's name
LONGEST_NAME = 100  # of the notebook in a file's name
LATER_COPY = re.compile(r".*-\d+")


def marks_path(run, folder="."):
    """The file for the marks that are made on `run` here: in this notebook, where there is one. A renamed file of readings keeps its marks."""
    notebook = this_notebook()
    return Path(folder) / FOLDER_OF_MARKS / f"{run.source.sha256[:SIGNS]}{f'-{notebook.stem[:LONGEST_NAME]}' if notebook else ''}.json"


def keep_marks(run, windows, folder="."):
    """Write `windows` as the marks of `run`, whole or not at all. A Fault says why, when the disk refuses."""
    path = marks_path(run, folder)
    try:
        windows.save(path, run)
    except OSError as problem:
        raise Fault(
            f"Your marks could not be written to {path.name} in the folder {FOLDER_OF_MARKS} ({problem.strerror}). "
            "Make room or allow writing there, then move any edge once."
        ) from problem


def marks_made_here(run, folder="."):
    """The `Windows` kept for `run` in this notebook, or None: a fresh copy of a lesson has none. Marks that no notebook's name stands behind
    were made outside one, or before each had its own: they are a lesson's first copy's, too."""
    path = marks_path(run, folder)
    notebook = this_notebook()
    if notebook and not path.exists() and not LATER_COPY.fullmatch(notebook.stem):
        path = path.with_name(f"{run.source.sha256[:SIGNS]}.json")
    return _read(path, run) if path.exists() else None


def kept_marks(run, folder="."):
    """The `Windows` kept last for `run`, in whichever notebook, or None. A damaged file is set aside under a new name, and a Fault says so."""
    found = Path(folder, FOLDER_OF_MARKS).glob(f"{run.source.sha256[:SIGNS]}*.json")
    newest = max(found, key=lambda path: (path.stat().st_mtime_ns, path.name), default=None)
    return newest and _read(newest, run)


def marked_hashes(folder="."):
    """The first signs of the hash of every run in `folder` for which marks are kept, a set."""
    return {path.stem[:SIGNS] for path in Path(folder, FOLDER_OF_MARKS).glob("*.json")}


def is_marked(notebook):
    """Are marks kept that were made in this notebook, on whichever run? They are kept as soon as a window has been moved, and not before."""
    own = {f"-{notebook.stem[:LONGEST_NAME]}", *([] if LATER_COPY.fullmatch(notebook.stem) else [""])}
    return any(path.stem[SIGNS:] in own for path in (notebook.parent / FOLDER_OF_MARKS).glob("*.json"))


def _read(path, run):
    from kit.records import Windows  # with pandas, which the server that shows how far a learner is has no need of

    try:
        return Windows.load(path, run)
    except (Fault, OSError) as problem:
        aside = set_aside(path)
        said = f"The marks kept for {run.name} could not be read. Their file is now {aside.name}. Mark the windows again."
        raise Fault(said) from problem


def set_aside(path):
    """Rename a damaged file, so that nothing overwrites it: `.damaged`, `.damaged-2` and so on."""
    number = 1
    while (aside := path.with_suffix(f".damaged{f'-{number}' if number > 1 else ''}")).exists():
        number += 1
    return path.rename(aside)
