"""Small helpers that turn results into sentences, tables and JSON."""

from dataclasses import fields, is_dataclass
from html import escape
from math import isfinite

import numpy as np


def clock(seconds):
    """Elapsed time for people: 660 is '11 min 0 s', 45.5 is '45.5 s'."""
    seconds = round(float(seconds), 1)
    minutes, rest = divmod(seconds, 60)
    return f"{minutes:.0f} min {rest:g} s" if minutes else f"{rest:g} s"


def listed(things, last="and"):
    """'a', 'a and b', 'a, b and c'."""
    *head, tail = [str(thing) for thing in things]
    return f"{', '.join(head)} {last} {tail}" if head else tail


def some(things, most=12):
    """As `listed`; where there are more than `most`, the first of them and how many more: 'a, b, c and 4,997 more'."""
    things = list(things)
    return listed(things if len(things) <= most else [*things[: most - 1], f"{len(things) - most + 1:,} more"])


def counted(number, one, many=None):
    """'1 reading', '3 readings'."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def table_html(rows, caption):
    """A small table for a notebook: `rows` are (name, value) pairs, both escaped; `caption` is its title."""
    left = 'style="text-align:left"'  # JupyterLab sets cells to the right, which makes sentences hard to read
    wide = 'style="min-width:min(100%,34em)"'  # or a long caption over two narrow columns becomes a tower of words
    body = "".join(f'<tr><th scope="row" {left}>{escape(str(name))}</th><td {left}>{escape(str(value))}</td></tr>' for name, value in rows)
    return f'<table class="kit-table" {wide}><caption {left}><strong>{escape(caption)}</strong></caption><tbody>{body}</tbody></table>'


class Account(str):
    """A result's own account, one thought a line: plain text anywhere, paragraphs in a notebook.

    It is a text in every other way, so that it can be searched, written to a file and compared.
    """

    def __repr__(self):
        return str(self)

    def _repr_html_(self):
        return "".join(f"<p>{escape(line)}</p>" for line in self.splitlines())


def account(*lines):
    """The `Account` of these lines; an empty one is left out."""
    return Account("\n".join(str(line) for line in lines if line))


def plain(thing):
    """`thing` made of what JSON knows: dataclasses become dicts, arrays lists, and numbers that are not finite None."""
    if is_dataclass(thing):
        return {each.name: plain(getattr(thing, each.name)) for each in fields(thing)}
    if isinstance(thing, dict):
        return {str(key): plain(value) for key, value in thing.items()}
    if isinstance(thing, np.ndarray):
        return plain(thing.tolist())
    if isinstance(thing, (list, tuple)):
        return [plain(each) for each in thing]
    if isinstance(thing, (bool, str, int, type(None))):
        return thing
    return _number_or_text(thing)


def _number_or_text(thing):
    try:
        number = float(thing)
    except (TypeError, ValueError):
        return str(thing)
    return number if isfinite(number) else None
