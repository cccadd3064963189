"""A lesson's card texts for a course of one's own: the lesson's file as it is, or, where the class reads short texts, one file that holds those."""

import json
import tomllib
from itertools import takewhile

from kit.coursework import FULL, short_file, with_short_cards


def cards_text(path, language):
    """The text of the TOML at `path` in the language of the class; the remarks at its top stay."""
    text, short = path.read_text(encoding="utf-8"), short_file(path)
    if language == FULL or not short.exists():
        return text
    table = with_short_cards(tomllib.loads(text), tomllib.loads(short.read_text(encoding="utf-8")))
    remarks = takewhile(lambda line: line.startswith("#"), text.splitlines())
    return "\n".join((*remarks, "", *_lines(table))) + "\n"


def _lines(table, above=""):
    """A table as lines of TOML: plain lines first, then each list of tables under its own heading."""
    lists = {name: value for name, value in table.items() if isinstance(value, list) and value and isinstance(value[0], dict)}
    yield from (f"{name} = {json.dumps(value, ensure_ascii=False)}" for name, value in table.items() if name not in lists)
    for name, tables in lists.items():
        for each in tables:
            yield from ("", f"[[{above}{name}]]", *_lines(each, f"{above}{name}."))
