"""The texts of a lesson's cards, read from the TOML beside the lesson. A teacher changes sentences there and touches no code."""

import re
import string
import tomllib
from dataclasses import MISSING, dataclass, fields
from math import inf
from pathlib import Path

from kit.bootstrap.places import LESSONS, open_course
from kit.coursework.lessons.short import class_language, SHORT, short_file, with_short_cards
from kit.faults import Fault
from kit.storage import here
from kit.units import marked
from kit.words import listed

TOLD = {str: "a text in quotes", int: "a whole number", bool: "true or false"}
TEACHERS = LESSONS / "teacher"


def lesson_folders():
    """Where lessons and their texts lie, the first one first: the open course, the kit's own, the teacher's pages."""
    return tuple(filter(None, (open_course(), LESSONS, TEACHERS)))


@dataclass(frozen=True)
class CardChoice:
    """One choice. In a question: `feedback` always, and unless it is `right` the `idea` it stands for and the step to go `back` to.
    In a prediction: the values of its number that this choice predicts: from `at_least` up to `below`, or the word `when`; none, when
    nothing of these is given."""

    text: str
    feedback: str = ""
    idea: str = ""
    back: int = 0
    right: bool = False
    at_least: float | None = None
    below: float | None = None
    when: str = ""

    def predicts(self, value):
        """Is `value` what this choice says: its word, or a number where this choice puts it?"""
        if isinstance(value, str) or self.when:
            return value == self.when
        if self.at_least is self.below is None:
            return False
        return (-inf if self.at_least is None else self.at_least) <= value < (inf if self.below is None else self.below)


@dataclass(frozen=True)
class Prediction:
    """A prediction: its question, where it is asked (`step`) and looked at again (`back`), and the sentence that the run `says` then.

    `number` names the value, a number or a word, that decides which choice predicted what came out; `ways` are further (title, text) to lay beside it.
    """

    key: str
    stem: str
    step: int
    back: int
    says: str
    choices: tuple
    number: str = ""
    ways: tuple = ()


@dataclass(frozen=True)
class CardQuestion:
    """A question to check oneself: the `goal` it serves, and a `hint` for the second miss."""

    key: str
    goal: int
    stem: str
    hint: str
    choices: tuple

    @property
    def texts(self):
        """Every text in which a {named number} may stand."""
        return (self.stem, self.hint, *(words for each in self.choices for words in (each.text, each.feedback)))

    @property
    def right(self):
        """The right choice."""
        return next(each for each in self.choices if each.right)


@dataclass(frozen=True)
class Note:
    """A writing task: sentence `starters`, `samples` (title, text) to compare with afterwards, and what to look for in them."""

    key: str
    prompt: str
    starters: tuple
    samples: tuple
    look_for: tuple


@dataclass(frozen=True)
class Lesson:
    """All card texts of one lesson. `run` names the bundled run that its numbers come from.

    The contents page shows `line` (one sentence), `minutes` and `needs`, under the heading of the `unit`. `hinge`: the number of the
    question that the class answers together; 0 where there is none.
    """

    number: str
    title: str
    run: str
    predictions: tuple
    questions: tuple
    notes: tuple
    line: str = ""
    minutes: int = 0
    needs: str = ""
    unit: str = ""
    hinge: int = 0

    @property
    def label(self):
        """What it is called in a sentence: 'Lesson 00'; the title of one without a number."""
        return f"Lesson {self.number}" if self.number.isdigit() else self.title

    def card(self, key):
        """The prediction or note with that key; a Fault that lists those there are."""
        cards = {each.key: each for each in (*self.predictions, *self.notes)}
        if key not in cards:
            raise Fault(f"{self.label} has no card {key!r}. It has {listed(cards)}.")
        return cards[key]


def read_lesson(number, folder=None):
    """The texts of lesson `number` ('00', or the whole name of a page without one), from its TOML: that in the notebook's folder, or the kit's.

    Marked temperatures stand there in °C ({c:1}, see `kit.units.marked`) and are read in the class's unit. Short texts take the place of the
    usual ones where the class's settings ask for them.
    """
    place = folder or here()
    path = _find(number, place)
    table, short = _table(path), short_file(path)
    if class_language(place) == SHORT and short.exists():
        table = with_short_cards(table, _table(short))
    kinds = (("predictions", _prediction), ("questions", _question), ("notes", _note))
    parts = {name: tuple(build(path, each) for each in _list(path, "the top", table, name)) for name, build in kinds}
    return _made(Lesson, path, "the top", {**table, **parts})


def read_card(card_id, folder=None):
    """The lesson and the card that an id like '00.warmer' names."""
    number, _, key = card_id.partition(".")
    lesson = read_lesson(number, folder)
    return lesson, lesson.card(key)


def filled(text, numbers):
    """`text` with its {named numbers} filled in from `numbers` (texts by name). A Fault names the one that is missing."""
    missing = [name for name in names_in(text) if name not in numbers]
    if missing:
        raise Fault(f"The text {text[:40]!r} asks for {{{missing[0]}}}, which this result does not hold. It holds {listed(numbers)}.")
    return text.format_map(numbers)


def names_in(text):
    """The names in braces in `text`, in order."""
    try:
        return [name for _, name, _, _ in string.Formatter().parse(text) if name]
    except ValueError as problem:
        raise Fault(f"The text {text[:40]!r} has a brace without its partner. Write each name as {{name}}.") from problem


def _find(number, folder):
    named = re.fullmatch(r"[\w-]+", str(number))  # the number may come from a file that somebody handed in: no way out of the folder
    forms = (f"{number}.toml", f"{number}-*.toml") if named else ()
    found = [path for place in (Path(folder), *lesson_folders()) for form in forms for path in sorted(place.glob(form))]
    if not found:
        raise Fault(f"There is no lesson {number!r}: no file {number}-….toml lies beside this notebook or among the kit's lessons.")
    return found[0]


def _table(path):
    try:
        return tomllib.loads(marked(path.read_text(encoding="utf-8")))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as problem:
        raise Fault(f"{path.name} can't be read as TOML: {problem}. Mend that line, then run this cell again.") from problem


def _prediction(path, table):
    return _with_choices(Prediction, path, {**table, "ways": _titled(path, table, "ways")})


def _question(path, table):
    question = _with_choices(CardQuestion, path, table)
    if sum(each.right for each in question.choices) != 1:
        raise Fault(f"{path.name}, {question.key!r}: one choice, and only one, needs the line 'right = true'.")
    return question


def _note(path, table):
    where = table.get("key", "a note without a key")
    lists = {name: tuple(_list(path, where, table, name, str)) for name in ("starters", "look_for")}
    return _made(Note, path, where, {**table, **lists, "samples": _titled(path, table, "samples")})


def _titled(path, table, name):
    return tuple((each.get("title", ""), each.get("text", "")) for each in _list(path, table.get("key", "a card without a key"), table, name))


def _list(path, where, table, name, kind=dict):
    """The list under `name`, none if there is none. A Fault if it holds anything but this kind of thing."""
    held = table.get(name, [])
    if not isinstance(held, list) or not all(isinstance(each, kind) for each in held):
        words = f"tables, each begun by a line like [[{name}]]" if kind is dict else 'texts in square brackets, ["one", "two"]'
        raise Fault(f"{path.name}, {where!r}: {name!r} must be {words}.")
    return held


def _with_choices(kind, path, table):
    where = table.get("key", "a card without a key")
    choices = tuple(_made(CardChoice, path, where, each) for each in _list(path, where, table, "choices"))
    return _made(kind, path, where, {**table, "choices": choices})


def _made(kind, path, where, table):
    known = {each.name: each.default for each in fields(kind)}
    missing = [name for name, default in known.items() if default is MISSING and name not in table]
    strange = [name for name in table if name not in known]
    if missing:
        raise Fault(f"{path.name}, {where!r}: the line {missing[0]!r} is missing.")
    if strange:
        raise Fault(f"{path.name}, {where!r}: the kit knows no line {strange[0]!r}. It knows {listed(known)}.")
    wrong = [each.name for each in fields(kind) if each.type in TOLD and not isinstance(table.get(each.name, each.default), each.type)]
    if wrong:
        raise Fault(f"{path.name}, {where!r}: {wrong[0]!r} must be {TOLD[next(each.type for each in fields(kind) if each.name == wrong[0])]}.")
    return kind(**table)
