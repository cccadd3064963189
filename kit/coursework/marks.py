"""Where the marks of a run are kept: one small file in `marks/`, beside the notebook, named after the run's own bytes."""

from pathlib import Path

from kit.faults import Fault

FOLDER_OF_MARKS = "marks"


def marks_path(run, folder="."):
    """The file that holds the marks of `run` when the notebook lies in `folder`. A renamed file keeps its marks; another run has others."""
    return Path(folder) / FOLDER_OF_MARKS / f"{run.source.sha256[:16]}.json"


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


def kept_marks(run, folder="."):
    """The `Windows` kept for `run`, or None. A damaged file is set aside under a new name, and a Fault says so."""
    path = marks_path(run, folder)
    if not path.exists():
        return None
    try:
        return _read(path, run)
    except (Fault, OSError) as problem:
        aside = set_aside(path)
        said = f"The marks kept for {run.name} could not be read. Their file is now {aside.name}. Mark the windows again."
        raise Fault(said) from problem


def _read(path, run):
    from kit.records import Windows  # with pandas, which the server that shows how far a learner is has no need of

    return Windows.load(path, run)


def set_aside(path):
    """Rename a damaged file, so that nothing overwrites it: `.damaged`, `.damaged-2` and so on."""
    number = 1
    while (aside := path.with_suffix(f".damaged{f'-{number}' if number > 1 else ''}")).exists():
        number += 1
    return path.rename(aside)
