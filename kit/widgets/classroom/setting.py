"""A card for every line of `class-settings.toml`: choices and boxes, and a button that writes the file with its comments. What stood there before
is kept beside it, and one press takes it back."""

from kit.faults import Fault
from kit.settings import class_settings, LINES, OURS, problems_with, settings_text, TABLES
from kit.storage import write_atomically
from kit.widgets.cards import area, buttons, Card, choices, text

HELP = "Leave a box empty, and what is usual holds. All temperatures on this card are in °C; the lessons turn them."
WRITTEN = "Written: {path}. It holds for {whom}. A lesson that is open follows when you go back to it."
GONE = "There is nothing to take back: no earlier settings are kept beside the file."
BEFORE = ".before"  # after the name of the file
ALL, BELOW = "every lesson of this kit that has no such file nearer to it", "the lessons in that folder and below it"


def settings_card():
    """The class's settings as they are, to be changed without typing TOML. Writes the file that holds here: the nearest one, else the kit's own."""

    def draw():
        said = class_settings()
        unfit = [text(f"unfit-{each}", each, tone="fault") for each in said.problems]
        form = [block for table in TABLES for block in _of_table(table, said)]
        back = [("back", "Take back what stood there before")] if _before() else []
        presses = buttons("do", ("write", "Write the settings"), ("usual", "All as usual"), *back)
        return [text("help", HELP, tone="quiet"), *unfit, *form, presses]

    return Card("class-settings", "What holds for the class", draw, write=_write, usual=lambda _values: _kept(settings_text({})), back=_take_back)


def _of_table(table, said):
    yield text(f"table-{table}", "", title=TABLES[table])
    for item in LINES:
        if item.table == table and item.choices:
            options = [(_told(value), words) for value, words in item.choices.items()]
            yield choices(item.name, _sentence(item.words), options, _told(said[item.name]), across=True)
        elif item.table == table:
            usual = f"; usual: {item.usual:g}" if item.usual is not None else ""
            unit = f" ({item.unit})" if item.unit else ""
            yield area(item.name, f"{_sentence(item.words)}{unit}, {item.low:g} to {item.high:g}{usual}", _told(said.said.get(item.name, "")), rows=1)


def _sentence(words):
    return words[0].upper() + words[1:]


def _told(value):
    return f"{value:g}" if isinstance(value, (int, float)) and not isinstance(value, bool) else str(value)


def _write(values):
    chosen = {item.name: _value(item, values.get(item.name, "").strip()) for item in LINES}
    said = {item.name: chosen[item.name] for item in LINES if chosen[item.name] not in (None, item.usual)}
    problems = problems_with(said)
    if problems:
        return f"Nothing is written yet. {' '.join(problems.values())}"
    return _kept(settings_text(said))


def _value(item, written):
    """What was chosen or typed, as the file has it; None for an empty box. What is no number stays text, which the check then names."""
    if item.choices:
        return next((value for value in item.choices if _told(value) == written), None)
    try:
        number = float(written.replace(",", ".")) if written else None
    except ValueError:
        return written
    return int(number) if number is not None and number.is_integer() else number


def _take_back(_values):
    before = _before()
    return _kept(before) if before else GONE


def _before():
    """What stood in the file before it was last written; nothing where that is what stands there now."""
    path = _path()
    before = _bytes(path.with_name(path.name + BEFORE))
    return b"" if before == _bytes(path) else before


def _kept(content):
    """Write the file. What it held is kept beside it, unless it is the same or holds nothing that was said."""
    path, content = _path(), content.encode("utf-8") if isinstance(content, str) else content
    try:
        if _bytes(path) not in (b"", content, settings_text({}).encode("utf-8")):
            write_atomically(path.with_name(path.name + BEFORE), _bytes(path))
        write_atomically(path, content)
    except OSError as problem:
        raise Fault(f"{path} could not be written ({problem.strerror}). Ask for the right to write there, or make room, then try again.") from problem
    return WRITTEN.format(path=path, whom=ALL if path == OURS else BELOW)


def _path():
    return class_settings().path or OURS


def _bytes(path):
    return path.read_bytes() if path.is_file() else b""
