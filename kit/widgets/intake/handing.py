"""Blocks of a card for runs that come in: a file to choose, its first rows, the chart, and the line of code that does the same."""

from dataclasses import replace

from kit.widgets.cards import Card
from kit.widgets.shared import picture_of, script, sheet

MOST_MIB = 8  # the notebook's server refuses messages of more than 10 MiB (default of tornado's websocket_max_message_size)
MOST_DRAWN = 20_000
ENDINGS = ".csv,.txt,.tsv,.dat,.log,.asc,.xlsx,text/*"


class RunCard(Card):
    """A card that can also hold the blocks of this module."""

    _esm = script("intake/intake")
    _css = sheet("shared/page/look", "cards/cards", "intake/handing")


def file_choice(key, label, hint, press, accept=ENDINGS, several=False):
    """A file to choose or to drop; `press` gets its `name` and its bytes as `data`. Of `several` each by itself, and how many are `left`.
    A {} in the hint becomes the most MiB that come in at once."""
    settings = {"accept": accept, "most": MOST_MIB, "several": several}
    return {"is": "file", "key": key, "label": label, "hint": hint.format(MOST_MIB), "press": press, **settings}


def folded(key, title, svg, alt, *, lines=(), is_open=True):
    """A still picture under a title, open or folded up, with lines of text below it. It is shown as an image: nothing in it can run."""
    return {"is": "folded", "key": key, "title": title, "svg": svg, "alt": alt, "lines": list(lines), "open": is_open}


def picks(key, legend, words, chosen, press):
    """A question whose answers, some `words`, are pressed at once; `press` gets the `question`'s key and the place of the `answer`."""
    options = [[str(place), each] for place, each in enumerate(words)]
    return {"is": "picks", "key": key, "legend": legend, "options": options, "value": "" if chosen is None else str(chosen), "press": press}


def first_rows(key, caption, head, rows, *, wraps=False):
    """A table of texts; it scrolls sideways where it is too wide. With `wraps` long texts take a further line first, as sentences should."""
    return {"is": "rows", "key": key, "caption": caption, "head": list(head), "rows": [list(each) for each in rows], "wraps": wraps}


def ticks(key, caption, head, rows, chosen):
    """A table with a box to tick at the end of each row; `rows` are (name, label of the box, *cells). The value: names `chosen`, with spaces between."""
    return {"is": "ticks", "key": key, "caption": caption, "head": list(head), "rows": [list(each) for each in rows], "value": " ".join(chosen)}


def typing_sheet(key, caption, columns, value, press, unit=""):
    """Rows of boxes under the names of `columns`; `press` gets all `rows` at every entry. `value`: its rows, and which (row, column) are odd.
    With a `unit` the first column counts by itself."""
    return {"is": "sheet", "key": key, "caption": caption, "columns": list(columns), "unit": unit, "press": press, "value": value}


def code_line(key, title, code):
    """A line of code to read and to copy."""
    return {"is": "code", "key": key, "title": title, "code": code}


def still(key, run):
    """The chart of a run with its sentence and its table; of a very long run only every second, third or further reading."""
    every = -(-len(run.readings) // MOST_DRAWN)
    return {"is": "still", "key": key, "label": f"Readings of {run.name}", "value": picture_of(thinned(run, every))}


def thinned(run, every):
    return run if every == 1 else replace(run, readings=run.readings.iloc[::every])
