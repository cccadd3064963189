"""What a lesson's notebook holds: what it is about, its steps with what is to do in each, and its code."""

import json
import re
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from kit.coursework.lessons.copies import learners_text
from kit.coursework.lessons.lessons import lesson_folders, LESSONS

STEP = re.compile(r"^#+ Step (\d+) of \d+: (.*?)(?: \(\d+ min\))?$", re.MULTILINE)
# Windows that a lesson places itself (`start=`) may be left as they are: no task.
TASK = re.compile(r'\b((?:predict|recall|quiz|note)(?=\(")|mark_windows(?=\(\w+\)))\("?([^")]+)')


@dataclass(frozen=True)
class LessonStep:
    """A numbered step: its title, and its tasks as (verb, what it names): ('predict', '00.warmer'), ('quiz', '00'), ('mark_windows', 'run')."""

    number: int
    title: str
    tasks: tuple


@dataclass(frozen=True)
class Outline:
    """A lesson as a learner gets it. `name` is its file's without the ending, `first_cell` that cell's id, `code` its code cells.

    `number` ('00', or '' for a page that is none of the numbered lessons), `line` (one sentence), `minutes`, `needs` and `unit` come from
    the TOML beside it and are empty without one. `path`: the notebook it was read from.
    """

    path: Path
    name: str
    title: str
    number: str
    line: str
    minutes: int
    needs: str
    unit: str
    first_cell: str
    code: tuple
    steps: tuple


def outlines(folder=LESSONS):
    """Every lesson in `folder`, in the order of their names. Read anew only when a file has changed."""
    return [_outline(path, *map(_changed, (path, path.with_suffix(".toml")))) for path in sorted(folder.glob("*.ipynb"))]


def outline_with(first_cell, *folders):
    """The lesson that begins with the cell of this id, or None: a copy keeps its cells' ids, whatever its file is called.

    Looked for in `folders`, the first one first; without any, wherever lessons lie.
    """
    every = (each for folder in folders or lesson_folders() for each in outlines(folder))
    return next((each for each in every if each.first_cell == first_cell), None)


def _changed(path):
    return path.stat().st_mtime_ns if path.exists() else 0


@lru_cache(maxsize=64)
def _outline(path, *_when):
    cells = json.loads(learners_text(path))["cells"]
    texts = [(cell["cell_type"], "".join(cell["source"])) for cell in cells]
    about = _about(path.with_suffix(".toml")) if _when[1] else {}
    return Outline(
        path=path,
        name=path.stem,
        title=about.get("title") or _heading(texts) or path.stem,
        **{name: about.get(name, "") for name in ("number", "line", "needs", "unit")},
        minutes=about.get("minutes", 0),
        first_cell=cells[0].get("id", "") if cells else "",
        code=tuple(text for kind, text in texts if kind == "code" and text.strip()),
        steps=_steps(texts),
    )


def _about(path):
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError):  # the cards say what is amiss; the notebook itself can still be read
        return {}


def _heading(texts):
    found = re.search(r"^# (.*)$", "\n".join(text for kind, text in texts if kind == "markdown"), re.MULTILINE)
    return found and found[1]


def _steps(texts):
    steps = []
    for kind, text in texts:
        if kind == "markdown":
            steps += [[int(number), title, []] for number, title in STEP.findall(text)]
        elif steps:
            steps[-1][2] += TASK.findall(text)
    return tuple(LessonStep(number, title, tuple(tasks)) for number, title, tasks in steps)
