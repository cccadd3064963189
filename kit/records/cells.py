"""Every cell below the header, as columns: quickly where the text is even, line by line where it is not."""

import csv
import io

import numpy as np
import pandas as pd

from kit.records.lines import line_by_line
from kit.records.numbers import MISSING
from kit.records.table import Column, Table, as_texts

QUICK_BYTES = 8192  # below, starting the quick parser takes longer than reading line by line


def read_cells(text, layout):
    """The `Table` of a `Text`: columns of numbers (float64) or of texts, each with its header.

    A long text goes through the quick parser, which hands over whatever is not even; both ways give the same table.
    """
    table = quickly(text, layout) if len(text.utf8) > QUICK_BYTES else None
    if table is None:
        table = line_by_line(text, layout)
    whole = text.utf8.endswith((b"\n", b"\r"))
    return table if whole else table.said("The last line has no line end: look whether it is whole.")


def quickly(text, layout):
    """The table by pandas' parser; None unless every line has the same number of cells, each as its column wants it."""
    start = start_of_line(text.utf8, layout.first)
    rows = even_rows(text.utf8, start, layout)
    if not rows:
        return None
    kinds = {place: parsed_as(kind, length) for place, (kind, length) in enumerate(zip(layout.kinds, layout.longest))}
    plan = dict(header=None, names=range(len(kinds)), dtype=kinds, keep_default_na=False, na_values=list(MISSING), quoting=csv.QUOTE_NONE)
    stream = io.BytesIO(text.utf8)
    stream.seek(start)  # pandas' own skiprows made reading half as slow again
    try:
        frame = pd.read_csv(stream, sep=layout.delimiter, decimal=layout.decimal, **plan)
    except (ValueError, pd.errors.ParserError):
        return None
    columns = [frame[place].to_numpy() for place in kinds]
    return None if len(frame) != rows or any(map(overflows, columns)) else assembled(text, layout, columns)


def start_of_line(utf8, number):
    place = 0
    for _ in range(number - 1):
        place = utf8.find(b"\n", place) + 1
    return place


def even_rows(utf8, start, layout):
    """How many lines the readings fill, if each can have the same number of cells; else 0."""
    ends = how_many(b"\n", utf8, start)
    rows = ends + (not utf8.endswith(b"\n"))
    plain = layout.delimiter in ",;\t" and utf8.find(b'"', start) < 0
    returns = how_many(b"\r", utf8, start) if plain and utf8.find(b"\r", start) >= 0 else 0
    even = plain and returns in (0, ends) and how_many(layout.delimiter.encode(), utf8, start) == rows * (len(layout.kinds) - 1)
    return rows if even else 0


def how_many(sign, utf8, start):
    """How often one byte comes from `start` on. Faster than bytes.count where it comes in every line."""
    found, block = 0, 1 << 20
    for place in range(start, len(utf8), block):
        part = np.frombuffer(utf8, np.uint8, min(block, len(utf8) - place), place)
        found += np.count_nonzero(part == ord(sign))
    return int(found)


def parsed_as(kind, length):
    """Numbers as float64; times as bytes with one to spare, which take a quarter of the memory of texts; the rest as texts."""
    return float if kind == "n" else f"S{length + 1}" if kind == "t" else str


def overflows(values):
    """Is a number too large for float64, or a time longer than those in the head?"""
    if values.dtype.kind == "f":
        return np.isinf(values).any()
    return values.dtype.kind == "S" and values.view(np.uint8).reshape(len(values), -1)[:, -1].any()


def assembled(text, layout, columns):
    values = (each if each.dtype.kind in "fS" else as_texts(each) for each in columns)
    made = tuple(Column(header, each, unit=unit) for header, each, unit in zip(layout.headers, values, layout.units))
    return Table(text.file, made, np.arange(layout.first, layout.first + len(columns[0])), text.remarks)
