"""A course of one's own: its title and its lessons in order, from `course.toml`."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

from kit.faults import Fault

COURSE_FILE = "course.toml"


@dataclass(frozen=True)
class OwnCourse:
    """A course in `folder`: its `title`, and the names of its `lessons` (files without their endings) in order."""

    folder: Path
    title: str
    lessons: tuple

    def lesson(self, name):
        """The notebook of that name. A Fault where it is missing."""
        path = self.folder / f"{name}.ipynb"
        if not path.is_file():
            raise Fault(f"{COURSE_FILE} names the lesson {name!r}, but there is no {name}.ipynb in {self.folder.name}. Mend the name there, or add the file.")
        return path


def course_named(folder):
    """The `OwnCourse` in `folder`. A Fault where there is none, or its file can't be read."""
    path = Path(folder) / COURSE_FILE
    try:
        told = tomllib.loads(path.read_text(encoding="utf-8"))
    except OSError as problem:
        raise Fault(f"{folder} is no course: there is no {COURSE_FILE} in it. Make one with: python3 -m kit course new {folder}") from problem
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as problem:
        raise Fault(f"{COURSE_FILE} can't be read: {problem}. Mend that line.") from problem
    lessons = told.get("lessons")
    if not (isinstance(lessons, list) and lessons and all(isinstance(name, str) and name == Path(name).name for name in lessons)):
        raise Fault(f'{COURSE_FILE} needs a line that names its lessons: lessons = ["00-your-first-run"]')
    return OwnCourse(Path(folder), str(told.get("title", "Our course")), tuple(name.removesuffix(".ipynb") for name in lessons))
