"""What was understood of a record, in sentences, and the answers that would settle what it leaves open."""

import re
from dataclasses import replace
from pathlib import PurePath

import numpy as np

from kit.intake.given import Raw, ROLES
from kit.words import listed

MEANINGS = {
    "degC": "degrees Celsius, °C", "degF": "degrees Fahrenheit, °F", "K": "kelvin, K", "s": "seconds", "min": "minutes", "h": "hours",
    "mm:ss": "minutes and seconds", "h:mm": "hours and minutes", "day first": "the day comes first", "month first": "the month comes first",
    "year first": "the year comes first", "summer time": "summer time began or ended", "sorted": "the lines are mixed up: sort them",
    "set back": "someone set the clock", "as written": "the clock is right as written", "shared event": "shift it by what both felt",
    ".": "the mark . goes before the decimals", ",": "the mark , goes before the decimals",
}  # fmt: skip
SHOWN = 3
SHEET = "sheet"


def answers_to(reading, keywords):
    """(value for the keyword, words) of each answer that could settle the open question of a `Reading` with these keywords."""
    keyword = open_keyword(reading.question)
    if keyword == SHEET:
        return tuple((title, title) for title in re.findall(r"'([^']*)'", reading.question.what))
    if keyword in (*ROLES, "time"):
        named = [value for name, value in keywords.items() if name in ROLES and name != keyword]
        free = _columns(reading.table, keyword) if reading.table else ()
        return tuple((value, words) for value, words in free if value not in named)
    named = re.findall(rf"{keyword}='([^']*)'", reading.question.do) if keyword else ()
    return tuple((word, MEANINGS.get(word, word)) for word in dict.fromkeys(named))


def open_keyword(question):
    """The keyword that settles a question, 'sheet' if it asks which sheet of a workbook; None if there is none, or no question."""
    if question is None or question.keyword:
        return question and question.keyword
    return SHEET if question.what.startswith("Which sheet") else None


def with_sheet(source, keywords):
    """(source, keywords) as `read_run` takes them: the sheet of a workbook, settled like a keyword, belongs to the source."""
    if SHEET not in keywords:
        return source, keywords
    sheet, rest = keywords[SHEET], {name: value for name, value in keywords.items() if name != SHEET}
    return (replace(source, sheet=sheet) if isinstance(source, Raw) else f"{source}#{sheet}"), rest


def _columns(table, keyword):
    """The columns that have no role yet, by their header; by number where that is no name of one column alone."""
    headers = [column.header.strip() for column in table.columns]
    for place, (header, column) in enumerate(zip(headers, table.columns)):
        if not column.role and (keyword == "time" or column.numeric):
            sole = header and headers.count(header) == 1 and "'" not in header
            yield (header if sole else place + 1), f"{header or f'column {place + 1}'}: {_first_cells(column)}"


def _first_cells(column):
    values = [column.cell(row) for row in range(min(SHOWN, len(column.values)))]
    return ", ".join(f"{each:g}" if isinstance(each, float) and np.isfinite(each) else str(each) for each in values) + ", …"


def with_answer(keywords, keyword, value):
    """The keywords of `read_run` with one more answer; a second word on clocks is added to the first."""
    earlier = keywords.get(keyword)
    if keyword != "clock" or earlier is None:
        return {**keywords, keyword: value}
    return {**keywords, keyword: [*(earlier if isinstance(earlier, (list, tuple)) else [earlier]), value]}


def code_for(source, keywords):
    """The line of code that reads the same run: 'run = read_run("a.csv", treated="Probe 1")'."""
    named = [f"{name}={_written(value)}" for name, value in keywords.items() if value is not None]
    return f"run = read_run({', '.join([_written(source), *named])})"


def _written(value):
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(map(_written, value))}]"
    if isinstance(value, PurePath):
        value = value.as_posix()
    plain = isinstance(value, str) and value.isprintable() and not set(value) & {'"', "\\"}
    return f'"{value}"' if plain else repr(value)


def settled_in_words(keywords):
    """'treated = Probe 1 [K]; clock = min', what was chosen so far."""
    return "; ".join(f"{name} = {listed(value) if isinstance(value, (list, tuple)) else value}" for name, value in keywords.items())
