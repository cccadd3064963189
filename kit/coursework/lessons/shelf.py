"""The contents page: every lesson that lies in the learner's folder, what it takes, and how far this learner is in each copy of it."""

import re
import tomllib
from dataclasses import dataclass
from html import escape
from pathlib import Path
from urllib.parse import quote

from kit.bootstrap.places import open_course
from kit.coursework.answers import answers_beside, peek_at_answers
from kit.coursework.lessons.courses import course_named
from kit.coursework.lessons.lessons import LESSONS, read_lesson
from kit.coursework.lessons.outline import Outline, outlines
from kit.coursework.lessons.progress import next_step, progress_of
from kit.coursework.runs import is_marked
from kit.faults import Fault
from kit.storage import here

PAGE = "contents"
STYLE = """<style>
.kit-contents { max-width: 46rem; font: 16px/1.5 system-ui, sans-serif; }
.kit-contents h2 { margin: 1.2em 0 .3em; font-size: 20px; }
.kit-contents ul { margin: 0; padding: 0; list-style: none; }
.kit-contents li { padding: 2px 0 10px 12px; border-left: 4px solid #0b5394; margin-bottom: 10px; }
.kit-contents .kit-title { display: flex; align-items: center; min-height: 44px; font-size: 18px; font-weight: 600; text-decoration: underline; }
.kit-contents .kit-older { display: inline-flex; align-items: center; min-height: 44px; min-width: 44px; }
.kit-contents p { margin: 0; }
</style>"""


@dataclass(frozen=True)
class Entry:
    """A lesson in the learner's folder: its `outline`, and (file name, how far, in words) for each copy, the newest first."""

    outline: Outline
    copies: tuple


@dataclass(frozen=True)
class Contents:
    """What there is to do, as ((heading, entries), …), and the `folder` that the work is kept in. Prints; in a notebook with links."""

    units: tuple
    folder: Path

    def __str__(self):
        lines = [line for heading, entries in self.units for line in (f"\n{heading}", *map(_as_line, entries))]
        return "\n".join([*lines, "", f"Your work is kept in {self.folder}."]).strip()

    def _repr_html_(self):
        units = "".join(f"<h2>{escape(heading)}</h2><ul>{''.join(map(_as_item, entries))}</ul>" for heading, entries in self.units)
        where = f"<h2>Where your work is kept</h2><p>In the folder <code>{escape(str(self.folder))}</code> on this computer.</p>"
        return f'{STYLE}<div class="kit-contents">{units}{where}</div>'


def contents(folder=None, lessons=LESSONS):
    """What lies in the learner's folder (the working folder), unit by unit, with how far this learner is: a `Contents`.

    Of an open course: its lessons in its own order.
    """
    folder, course = Path(folder or here()), open_course()
    if course:
        return _of_course(course_named(course), folder)
    about = tomllib.loads((lessons / f"{PAGE}.toml").read_text(encoding="utf-8"))
    there = [entry for outline in outlines(lessons) if outline.name != PAGE and (entry := _entry(outline, folder)).copies]
    headings = {each["key"]: each["title"] for each in about["units"]} | {"": about["beside"]}
    units = [(heading, tuple(each for each in there if each.outline.unit == key)) for key, heading in headings.items()]
    return Contents(tuple((heading, entries) for heading, entries in units if entries), folder)


def _of_course(course, folder):
    by_name = {outline.name: outline for outline in outlines(course.folder)}
    entries = (_entry(by_name[name], folder) for name in course.lessons if name in by_name)
    return Contents(((course.title, tuple(entry for entry in entries if entry.copies)),), folder)


def _entry(outline, folder):
    copies = [path for path in folder.glob(f"{outline.name}*.ipynb") if re.fullmatch(rf"{re.escape(outline.name)}(-\d+)?", path.stem)]
    newest = sorted(copies, key=lambda path: (len(path.stem), path.stem), reverse=True)
    return Entry(outline, tuple((path.name, _how_far(outline, path)) for path in newest))


def _how_far(outline, notebook):
    """In words: not begun, begun and how far, or all done; nothing for a page that asks no questions."""
    try:
        lesson, kept = read_lesson(outline.number, notebook.parent), peek_at_answers(answers_beside(notebook))
    except Fault:  # no cards on this page, or texts that can't be read
        return ""
    if not kept.answers:
        return "Not begun."
    progress = str(progress_of(lesson, kept))
    return f"You {progress}." if next_step(outline, lesson, kept, is_marked(notebook)) else f"All steps done: {progress}."


def _about(outline):
    minutes = [f"{outline.minutes} minutes."] if outline.minutes else []
    return " ".join([*minutes, *([f"You need: {outline.needs}."] if outline.needs else [])])


def _as_line(entry):
    (name, how_far), *_ = entry.copies
    return "  ".join(filter(None, (entry.outline.title, _about(entry.outline), how_far, name)))


def _as_item(entry):
    (name, how_far), *older = entry.copies
    links = ", ".join(f'<a class="kit-older" href="{quote(each)}">{escape(Path(each).stem)}</a> {escape(far)}' for each, far in older)
    lines = [entry.outline.line, _about(entry.outline), how_far]
    title = f'<a class="kit-title" href="{quote(name)}">{escape(entry.outline.title)}</a>'
    return f"<li>{title}{''.join(f'<p>{escape(line)}</p>' for line in lines if line)}{f'<p>Earlier: {links}</p>' if older else ''}</li>"
