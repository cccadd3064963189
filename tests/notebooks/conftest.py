"""Notebooks run as a learner's copy: from a fresh kernel, in a folder of their own."""

import time
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from kit.course.running import through_files
from kit.coursework import learners_text

LESSONS = Path(__file__).parents[2] / "lessons"


@dataclass(frozen=True)
class Ran:
    """A notebook after its run: the book, the folder it ran in, and how long it took from starting the kernel, in seconds."""

    book: object
    folder: Path
    seconds: float
    stderr: list = field(default_factory=list)

    def outputs(self, cell_id):
        """The outputs of the cell with this id."""
        return next(cell for cell in self.book.cells if cell["id"] == cell_id).outputs

    def text(self, cell_id):
        """What the cell printed or showed as plain text."""
        return "\n".join(each.get("text") or each.get("data", {}).get("text/plain", "") for each in self.outputs(cell_id))


@pytest.fixture
def run_notebook(tmp_path):
    """`run_notebook("00-your-first-run.ipynb")` runs a learner's copy of a lesson; `folder` a folder used before, as on reopening.

    With `original=True` the `answer` cells hold their answers. A cell that raises fails the test.
    """
    import nbformat  # with all it loads, a second that collecting the tests need not take
    from nbclient import NotebookClient

    def run(name, *, folder=tmp_path, original=False):
        lesson = LESSONS / name
        book = nbformat.reads(lesson.read_text(encoding="utf-8") if original else learners_text(lesson), as_version=4)
        begun = time.perf_counter()
        with TemporaryDirectory(prefix="kit-tests-") as passing:
            NotebookClient(book, timeout=120, kernel_name="python3", resources={"metadata": {"path": str(folder)}}, config=through_files(passing)).execute()
        seconds = time.perf_counter() - begun
        printed = [each for cell in book.cells for each in cell.get("outputs", ()) if each.get("name") == "stderr"]
        return Ran(book, folder, seconds, [each["text"] for each in printed])

    return run
