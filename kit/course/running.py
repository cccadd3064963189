"""A lesson's cells run from a fresh kernel, as a learner's copy: which one fails, and why."""

import os
import re
import tempfile

from kit.bootstrap.places import COURSE
from kit.course.packing import packed_text

TIMEOUT_S = 120
COLOURS = re.compile(r"\x1b\[[0-9;]*m")


def failures_of(path, course):
    """A sentence for the first cell of the notebook at `path` that fails in a fresh kernel while the folder `course` is open; none if all run."""
    import nbformat
    from nbclient import NotebookClient
    from nbclient.exceptions import CellExecutionError, CellTimeoutError, DeadKernelError

    book = nbformat.reads(packed_text(path), as_version=4)
    with tempfile.TemporaryDirectory(prefix="kit-check-") as folder:
        surroundings = {**os.environ, COURSE: str(course)}
        client = NotebookClient(book, timeout=TIMEOUT_S, kernel_name="python3", resources={"metadata": {"path": folder}})
        try:
            client.execute(env=surroundings)
        except CellExecutionError as problem:
            return (_sentence(book, problem),)
        except (CellTimeoutError, DeadKernelError) as problem:
            return (f"A cell never ends in a fresh kernel, or ends Python itself: {problem}".strip(),)
    return ()


def _sentence(book, problem):
    """Which cell failed, and with what."""
    number, cell = next((n, each) for n, each in enumerate(book.cells, start=1) if each.cell_type == "code" and each.source in str(problem))
    told = COLOURS.sub("", problem.evalue).strip()
    return f"Cell {number} fails in a fresh kernel ({cell.source.strip().splitlines()[0]}): {problem.ename}: {told}"
