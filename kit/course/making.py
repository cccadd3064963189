"""A new course in a folder: lessons with every cell open for writing, a template, the teacher's own runs, and the class's settings."""

import json
import re
from pathlib import Path

from kit.course.texts import cards_text
from kit.coursework import course_named, COURSE_FILE, LESSONS, page_of, TEACHERS
from kit.examples import DATA, plain_name
from kit.faults import Fault
from kit.intake import read_run
from kit.settings import class_settings, NAME
from kit.storage import write_atomically

TEMPLATE = Path(__file__).with_name("template")
CONTENTS = "contents"
NAMED = re.compile(r"\d\d-[a-z0-9]+(?:-[a-z0-9]+)*")
TAKEN = "{} holds files already. Name a folder that does not exist yet."
ABOUT = """# {title}

This course is yours: change any text, and any order. The kit itself is not touched.

    python3 -m kit lab --course {folder}            write it, and try it as you write
    python3 -m kit course check {folder}            says what a lesson lacks
    python3 -m kit course pack {folder}             makes one zip for your learners
    python3 -m kit lab --course {name}.zip    what a learner types to open it

- `course.toml`: the course's title, and its lessons in order.
- `NN-name.ipynb`: a lesson's page. Double-click a text to change it.
- `NN-name.toml`: what its cards say: predictions, questions with the feedback on each choice, notes.
- `template.ipynb`, `template.toml`: a short lesson in which every part stands once and is explained. A lesson of your own begins as a copy:
  `python3 -m kit course add {folder} 20-our-lamp`.
- `data/`: your own runs. A lesson shows `data/our-run.csv` by `example_run("our-run")`.
- `class-settings.toml`: what holds for your class. A line that begins with # holds nothing.

To translate a course, translate the texts in both files of each lesson, and leave what stands in braces, in quotes behind `key`, and in
code cells as it is.
"""


def new_course(folder, lessons, runs=(), title="Our course"):
    """Make a course in `folder`, which must be new or empty, of these lessons (paths of notebooks) in this order, with the files in `runs`.

    The course takes the class's settings along, and its texts are in the language that they ask for. A Fault where the folder holds files, or
    where a run can't be read.
    """
    folder = Path(folder)
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise Fault(TAKEN.format(folder))
    settings = class_settings(folder)
    names = {path: f"{plain_name(path.stem)}{path.suffix.lower()}" for path in map(Path, runs) if read_run(path)}
    for lesson in (*lessons, LESSONS / f"{CONTENTS}.ipynb", TEMPLATE / "template.ipynb"):
        write_atomically(folder / lesson.name, unlocked(lesson, settings["language"]))
        if (texts := lesson.with_suffix(".toml")).exists():
            write_atomically(folder / texts.name, cards_text(texts, settings["language"]))
    for path, name in names.items():
        write_atomically(folder / DATA / name, path.read_bytes())
    write_atomically(folder / NAME, (settings.path or TEACHERS / NAME).read_bytes())
    write_atomically(folder / COURSE_FILE, course_text(title, [lesson.stem for lesson in lessons]))
    write_atomically(folder / "README.md", ABOUT.format(title=title, folder=folder, name=folder.name))
    return folder


def add_lesson(folder, name):
    """Begin a lesson called `name` ('20-our-lamp') in the course in `folder` as a copy of the template, and add it to the course's list; gives
    its path. A Fault where the name won't do, or is taken."""
    course, number = course_named(folder), name.split("-")[0]
    path = Path(folder) / f"{name}.ipynb"
    if not NAMED.fullmatch(name):
        raise Fault(f"A lesson needs a name like 20-our-lamp: a number of two digits, then words. This one is {name!r}.")
    if any(Path(folder).glob(f"{number}-*")) or any(LESSONS.glob(f"{number}-*")):
        raise Fault(f"There is a lesson with the number {number} already. Choose another number.")
    for source in (TEMPLATE / "template.ipynb", TEMPLATE / "template.toml"):
        write_atomically(path.with_suffix(source.suffix), _renumbered(source, number))
    write_atomically(Path(folder) / COURSE_FILE, course_text(course.title, [*course.lessons, name]))
    return path


def _renumbered(source, number):
    """The template's text with `number` wherever its own name stands as one: in ids of cells, in cards, in the line `number`."""
    return re.sub(r'(?<=")template(?=["\-.])|(?<=\\")template(?=\\"|\.)', number, source.read_text(encoding="utf-8"))


def unlocked(lesson, language):
    """A lesson's JSON, in the language of the class, with every cell open for writing and for taking out."""
    book = page_of(lesson, language)
    for cell in book["cells"]:
        for lock in ("editable", "deletable"):
            cell["metadata"].pop(lock, None)
    return json.dumps(book, indent=1, ensure_ascii=False) + "\n"


def course_text(title, names):
    """The text of `course.toml`."""
    lines = "".join(f"  {json.dumps(name, ensure_ascii=False)},\n" for name in names)
    head = "# The course: its title, and its lessons in the order in which they stand on the contents page, each by its file's name.\n\n"
    return f"{head}title = {json.dumps(title, ensure_ascii=False)}\nlessons = [\n{lines}]\n"
