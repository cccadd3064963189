"""How many modules one has to open to follow a file: those whose functions run while it is read."""

import sys
import threading
from pathlib import Path

import kit
from kit.intake.classes.folder import read_class
from kit.intake.read import read_run

KIT = Path(kit.__file__).parent
DATASETS = KIT.parent / "datasets"


def opened(act, source):
    """The modules of kit in which a function runs, in whichever thread."""
    act(source)  # what loads at the first call is no part of the walk
    seen = set()

    def note(frame, event, _):
        path = Path(frame.f_code.co_filename)
        if event == "call" and path.is_relative_to(KIT):
            seen.add(path.relative_to(KIT).as_posix())

    threading.setprofile(note)
    sys.setprofile(note)
    try:
        act(source)
    finally:
        sys.setprofile(None)
        threading.setprofile(None)
    return seen


def test_a_plain_file_opens_at_most_twelve_modules():
    modules = opened(read_run, DATASETS / "basalt.csv")
    assert "intake/read.py" in modules and len(modules) <= 12, sorted(modules)


def test_a_class_opens_at_most_thirty():
    modules = opened(read_class, DATASETS / "class")
    assert "intake/classes/folder.py" in modules and len(modules) <= 30, sorted(modules)
