"""A course as one zip for learners, and such a zip opened: no outputs, no answers, and nothing but a course's own files."""

import json
import re
from pathlib import Path

from kit.course.making import CONTENTS
from kit.coursework import course_named, COURSE_FILE, learners_text
from kit.examples import DATA
from kit.faults import Fault
from kit.intake.classes import RECORDS, zip_bytes, zip_files
from kit.report import zipped
from kit.settings import NAME
from kit.storage import write_atomically

TEACHERS_TAG = "teacher"  # a cell with this tag is for the teacher alone
MEMBER = re.compile(r"[\w][\w .-]*\.(?:ipynb|toml)|data/[\w][\w .-]*\.[A-Za-z]{3,4}")
NO_COURSE = "{} is no course of the kit: {}."
KERNEL = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}}


def pack_course(folder, into=None):
    """Write the course in `folder` as a zip beside it, or in the folder `into`; gives its path. A Fault where a lesson that `course.toml` names is
    missing."""
    folder = Path(folder).absolute()
    course = course_named(folder)
    members = {COURSE_FILE: (folder / COURSE_FILE).read_bytes()}
    for name in (CONTENTS, *course.lessons):
        members[f"{name}.ipynb"] = packed_text(course.lesson(name))
    texts = [f"{name}.toml" for name in (CONTENTS, *course.lessons)]
    own = sorted(path.relative_to(folder).as_posix() for path in (folder / DATA).glob("*") if path.suffix.lower() in RECORDS)
    members |= {name: (folder / name).read_bytes() for name in (*texts, NAME, *own) if (folder / name).exists()}
    path = Path(into or folder.parent) / f"{folder.name}.zip"
    write_atomically(path, zipped(members))
    return path


def packed_text(notebook):
    """A notebook's JSON for learners: without outputs, answers, the teacher's own cells and any trace of a machine; texts closed to stray keys."""
    book = json.loads(learners_text(notebook))
    cells = [cell for cell in book["cells"] if TEACHERS_TAG not in cell["metadata"].get("tags", ())]
    return json.dumps({**book, "metadata": KERNEL, "cells": [_closed(cell) for cell in cells]}, indent=1, ensure_ascii=False) + "\n"


def _closed(cell):
    tags = cell["metadata"].get("tags", [])
    kept = {"deletable": False, "tags": tags}
    if cell["cell_type"] == "code":
        folded = {"jupyter": {"source_hidden": True}} if cell["metadata"].get("jupyter", {}).get("source_hidden") else {}
        return {**cell, "metadata": {**kept, **folded}, "outputs": [], "execution_count": None}
    return {**cell, "metadata": kept if "answer" in tags else {**kept, "editable": False}}


def unpack_course(source, home):
    """Write the course in the zip `source` into a folder of its name in `home`, over an earlier state of it; gives that folder.

    What a learner did there is not touched: it lies in a folder of its own. A Fault where it is no course, or holds what a course does not.
    """
    import zipfile

    source = Path(source)
    try:
        with zipfile.ZipFile(source) as archive:
            members = {name: zip_bytes(name, handle) for name, handle in zip_files(archive)}
    except (OSError, zipfile.BadZipFile) as problem:
        raise Fault(NO_COURSE.format(source.name, "it can't be opened as a zip file")) from problem
    strange = next((name for name in members if not MEMBER.fullmatch(name)), None)
    if COURSE_FILE not in members or strange:
        raise Fault(NO_COURSE.format(source.name, f"it holds {strange}" if strange else f"there is no {COURSE_FILE} in it"))
    folder = Path(home) / source.stem
    for name, data in members.items():
        write_atomically(folder / name, data)
    course_named(folder)
    return folder
