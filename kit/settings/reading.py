"""Reading `class-settings.toml`: the nearest one above the notebook. A bad line is named and left out; all others hold."""

import os
import re
import tomllib
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from kit.bootstrap.places import LESSONS, open_course
from kit.settings.lines import LINES, NAME, TABLES
from kit.words import listed

OURS = LESSONS / "teacher" / NAME
SHORTHAND = {"C": "°C", "F": "°F"}
NO_TOML = "{name} can't be read: {problem}. The usual settings hold until that line is mended."


@dataclass(frozen=True)
class Settings:
    """What the class's file says. `said`: the settings that stand there, by name; `problems`: a sentence for each line that was left out;
    `path`: the file, None where there is none. `settings["depth_cm"]` is what holds: what was said, or what is usual."""

    said: dict = field(default_factory=dict)
    problems: tuple = ()
    path: Path | None = None

    def __getitem__(self, name):
        return self.said.get(name, USUAL[name])

    @property
    def dose(self):
        """What makes the gas, as the keywords of `gas_dose`."""
        names = {"tablets": ("tablets",), "acid": ("bicarbonate_g", "acid_g"), "vinegar": ("bicarbonate_g", "vinegar_ml")}[self["source"]]
        return {name: self[name] for name in names}

    def of(self, table):
        """What was said in one table, by name; nothing that is only usual."""
        return {line.name: self.said[line.name] for line in LINES if line.table == table and line.name in self.said}


USUAL = {line.name: line.usual for line in LINES}


def class_settings(folder=None):
    """The `Settings` for a notebook in `folder` (the working folder): the nearest `class-settings.toml` there or above it, else the open
    course's, else the kit's own in `lessons/teacher/`. Read anew only when that file has changed. Never raises: what can't be used is
    among its problems."""
    for path in _places(_whole(folder or "."), open_course()):
        try:
            seen = os.stat(path)
        except OSError:
            continue
        return _read(Path(path), seen.st_mtime_ns, seen.st_size)
    return Settings()


def _whole(folder):
    """`folder` as a whole path; that of the kit's own file where the working folder is gone, for cells say that themselves."""
    try:
        return os.path.abspath(folder)
    except FileNotFoundError:
        return str(OURS.parent)


@lru_cache(maxsize=32)
def _places(folder, course):
    """Where the file may lie, the nearest first."""
    places = (Path(folder), *Path(folder).parents, *([Path(course)] if course else ()))
    return (*(str(place / NAME) for place in places), str(OURS))


@lru_cache(maxsize=32)
def _read(path, _changed, _size):
    try:
        return settings_from(path.read_text(encoding="utf-8"), path)
    except (OSError, UnicodeDecodeError) as problem:
        return Settings(problems=(NO_TOML.format(name=path.name, problem=problem),), path=path)


def settings_from(text, path=Path(NAME)):
    """The `Settings` that a file's text says."""
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as problem:
        return Settings(problems=(NO_TOML.format(name=path.name, problem=problem),), path=path)
    said, problems = {}, []
    for table, name, value in _lines_of(tables):
        value = SHORTHAND.get(value, value) if name == "temperature" and isinstance(value, str) else value
        problem = _problem(table, name, value)
        if problem:
            problems.append(f"{path.name}, line {_place(text, table, name)}: {problem} It is left out.")
        elif name:
            said[name] = value
    return Settings(said, tuple(problems), path)


def or_class(given, name):
    """`given`; where that is None, what the class's settings say under `name`."""
    return class_settings()[name] if given is None else given


def problems_with(values):
    """{name: what is wrong with it} for values by name, as a form gives them; empty where all may stand in the file."""
    return {line.name: f"{line.words.capitalize()}: {line.allowed}." for line in LINES if line.name in values and not line.takes(values[line.name])}


def _lines_of(tables):
    """(table, name, value) of all that stands in the file; the table is '' for a line above the first."""
    for table, lines in tables.items():
        if isinstance(lines, dict):
            yield from ((table, key, value) for key, value in lines.items()) if lines else [(table, "", None)]
        else:
            yield "", table, lines


def _problem(table, name, value):
    """What is wrong with a line, or ''."""
    known = {line.name: line for line in LINES if line.table == table}
    if not known:
        return f"there is no [{table}]. There are {listed(f'[{each}]' for each in TABLES)}." if table else f"{name} stands above the first table."
    if not name or name in known and known[name].takes(value):
        return ""
    if name not in known:
        return f"[{table}] has no {name}. It has {listed(known)}."
    return f"{name} can be {known[name].allowed}. It was given {value!r}."


def _place(text, table, name):
    """The number of the line on which this setting, or this table, stands; tomllib keeps no places."""
    within = ""
    for number, line in enumerate(text.splitlines(), 1):
        head = re.match(r"\s*\[+\s*([^\]]+?)\s*\]", line)
        within = head[1].strip("\"'") if head else within
        mine = re.match(rf"\s*[\"']?{re.escape(name or '[')}[\"']?\s*=", line) if name else head
        if within == table and mine:
            return number
    return "?"
