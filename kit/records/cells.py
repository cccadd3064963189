"""Every cell below the header, as columns: quickly where the text is even, line by line where it is not."""

import csv
import io

import numpy as np
import pandas as pd

from kit.records.lines import line_by_line
from kit.records.numbers import MISSING
from kit.records.table import Column, Table, as_texts


def read_cells(text, layout):
    """The `Table` of a `Text`: columns of numbers (float64) or of texts, each with its header.

    Both ways give the same table; the quick one hands over whatever is not even.
    """
    table = quickly(text, layout)
    if table is None:
        table = line_by_line(text, layout)
    whole = text.utf8.endswith((b"\n", b"\r"))
    return table if whole else table.said("The last line has no line end: look whether it is whole.")


def quickly(text, layout):
    """The table by pandas' parser; None unless every line has the same number of cells, each as its column wants it."""
    rows = even_rows(text.utf8, layout)
    if not rows:
        return None
    kinds = {place: float if kind == "n" else str for place, kind in enumerate(layout.kinds)}
    plan = dict(header=None, names=range(len(kinds)), dtype=kinds, skiprows=layout.first - 1, keep_default_na=False, na_values=list(MISSING))
    try:
        frame = pd.read_csv(io.BytesIO(text.utf8), sep=layout.delimiter, decimal=layout.decimal, quoting=csv.QUOTE_NONE, **plan)
    except (ValueError, pd.errors.ParserError):
        return None
    columns = [frame[place].to_numpy() for place in kinds]
    if len(frame) != rows or any(np.isinf(each).any() for each in columns if each.dtype.kind == "f"):
        return None
    return assembled(text, layout, columns)


def even_rows(utf8, layout):
    """How many lines the readings fill, if each can have the same number of cells; else 0."""
    start = start_of_line(utf8, layout.first)
    ends = utf8.count(b"\n", start)
    rows = ends + (not utf8.endswith(b"\n"))
    simple = layout.delimiter in ",;\t" and utf8.find(b'"', start) < 0 and utf8.count(b"\r", start) in (0, ends)
    even = utf8.count(layout.delimiter.encode(), start) == rows * (len(layout.kinds) - 1)
    return rows if simple and even else 0


def start_of_line(utf8, number):
    place = 0
    for _ in range(number - 1):
        place = utf8.find(b"\n", place) + 1
    return place


def assembled(text, layout, columns):
    values = (each if each.dtype.kind == "f" else as_texts(each) for each in columns)
    made = tuple(Column(header, each, unit=unit) for header, each, unit in zip(layout.headers, values, layout.units))
    return Table(text.file, made, np.arange(layout.first, layout.first + len(columns[0])), text.remarks)
