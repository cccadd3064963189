"""A lesson's cells run from a fresh kernel, as a learner's copy whose predictions are made: which cell or card fails, and why."""

import os
import re
import tempfile
from pathlib import Path

from kit.bootstrap.places import COURSE
from kit.course.packing import packed_text
from kit.coursework import add_answer, Answer, answers_path, read_lesson
from kit.faults import Fault

TIMEOUT_S, STATES = 120, "application/vnd.jupyter.widget-state+json"
QUIET = ["--IPKernelApp.log_level=40"]  # what a kernel says of how it talks to this process is no teacher's concern
COLOURS = re.compile(r"\x1b\[[0-9;]*m")


def failures_of(path, course):
    """A sentence for the first cell of the notebook at `path` that fails in a fresh kernel while the folder `course` is open, else for each card
    that can't say what it should; none if all do."""
    import nbformat
    from nbclient import NotebookClient
    from nbclient.exceptions import CellExecutionError, CellTimeoutError, DeadKernelError

    book = nbformat.reads(packed_text(path), as_version=4)
    with tempfile.TemporaryDirectory(prefix="kit-check-") as passing:
        folder = Path(passing) / "my-work"
        folder.mkdir()
        surroundings, spoken = {**os.environ, COURSE: str(course)}, {"config": through_files(passing), "extra_arguments": QUIET}
        try:
            _predict(path, folder)
            NotebookClient(book, timeout=TIMEOUT_S, kernel_name="python3", resources={"metadata": {"path": str(folder)}}, **spoken).execute(env=surroundings)
        except Fault:
            return ()  # its texts can't be read: another check tells that, and each of its cards would tell it again
        except CellExecutionError as problem:
            return (_sentence(book, problem),)
        except (CellTimeoutError, DeadKernelError) as problem:
            return (f"A cell never ends in a fresh kernel, or ends Python itself: {problem}".strip(),)
    return tuple(f"The card {title!r} can't be shown: {told}" for title, told in _faulty_cards(book))


def through_files(folder):
    """Settings with which a kernel is spoken to through files in `folder`, where the system has such: a port is found free a moment before the
    kernel takes it, and where another program is quicker the kernel dies."""
    from traitlets.config import Config

    return Config({"KernelManager": {"transport": "ipc", "connection_file": str(Path(folder) / "kernel.json")}} if os.name == "posix" else {})


def _predict(path, folder):
    """Keep the first choice of every prediction in `folder`, so that all that is held back is shown."""
    lesson = read_lesson(path.stem.split("-")[0] if path.stem[:2].isdigit() else path.stem, path.parent)
    for each in lesson.predictions:
        said = {"choice": "a", "words": each.choices[0].text if each.choices else "", "because": "", "sure": "a guess"}
        add_answer(answers_path(lesson.number, folder), Answer(f"{lesson.number}.{each.key}", "prediction", said))


def _faulty_cards(book):
    """(title, what it says) of each card that shows a fault."""
    models = book.metadata.get("widgets", {}).get(STATES, {}).get("state", {}).values()
    cards = [model["state"] for model in models if isinstance(model.get("state", {}).get("blocks"), list)]
    return [(card.get("title", ""), block["text"]) for card in cards for block in card["blocks"] if block.get("tone") == "fault"]


def _sentence(book, problem):
    """Which cell failed, and with what."""
    number, cell = next((n, each) for n, each in enumerate(book.cells, start=1) if each.cell_type == "code" and each.source in str(problem))
    told = COLOURS.sub("", problem.evalue).strip()
    return f"Cell {number} fails in a fresh kernel ({cell.source.strip().splitlines()[0]}): {problem.ename}: {told}"
