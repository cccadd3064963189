"""Long layout: one row a probe, one a probe and quantity, or one reading a row. The rows of each become a record of their own, to be joined on
time."""

from dataclasses import replace

import numpy as np

from kit.intake.columns.kinds import constant_before, label_of, words_of
from kit.intake.forms import name_and_unit, unit_of
from kit.intake.time import stamps_in, tells_time

VALUES = {"value", "reading", "temperature", "temp", "measurement", "wert", "messwert", "valeur"}
UNIT_HEADS = ("unit", "units", "einheit", "unité")


def by_probe(table, places):
    """The tables of the probes in a long layout; the columns at `places` name the probe, or the probe and the quantity, of each row."""
    places, labels = labels_of(table, places)
    values = value_columns(table, places)
    names, first, counts = np.unique(labels, return_index=True, return_counts=True)
    if counts.min() < 2 or "" in names:
        row = int(first[0 if "" in names else counts.argmin()])
        what = f"Only this line names the probe '{labels[row][:30]}'." if labels[row] else "This line names no probe."
        raise table.fault(what, "Correct it in a copy of the file.", row=row, column=table.columns[places[0]])
    return [piece(table, labels == names[at], str(names[at]), places, values) for at in np.argsort(first)]


def labels_of(table, places):
    """(places, the label of every row): of columns that name probes and quantities, those that tell rows apart."""
    used, labels = [], np.full(len(table.lines), "", dtype=object)
    for place in places:
        called = constant_before(table, place).strip(" :=#") or table.columns[place].header
        before = f"{called} " if table.columns[place].numeric and len(places) == 1 else ""
        own = np.array([before + label_of(cell) if label_of(cell) else "" for cell in table.columns[place].values.tolist()], dtype=object)
        both = own if not used else labels + " " + own
        if len(set(both)) > len(set(labels)):
            used, labels = [*used, place], both
    return used, labels.astype(str)


def value_columns(table, probes):
    """Where the readings stand: the one column called value, or all columns of numbers that are no time."""
    free = [place for place, column in enumerate(table.columns) if column.numeric and place not in probes and not tells_time(column)]
    called = [place for place in free if words_of(table.columns[place].name) & VALUES]
    if not free:
        raise table.fault("Each row holds one probe, but no column holds its reading.", "Head it 'value' in a copy of the file.")
    return called if len(called) == 1 and len(free) > 1 and not table.columns[called[0]].unit else free


def piece(table, rows, label, probes, values):
    """The rows of one probe: its readings under its own name, with the columns that tell the time."""
    own = table.rows(rows)
    unit_heads = [column for column in own.columns if column.name.lower() in UNIT_HEADS and not column.numeric]
    name, unit = name_and_unit(label)
    written = next(filter(None, [*(unit_of(column.cell(0)) for column in unit_heads), unit]), "")
    kept = [
        column
        for place, column in enumerate(own.columns)
        if place not in (*probes, *values) and (tells_time(column) or not column.numeric and stamps_in(column))
    ]
    for place in values:
        column = own.columns[place]
        header, called = (label, name) if len(values) == 1 else (f"{label} {column.header}", f"{name} {column.name}")
        kept.append(replace(column, header=header, name=called, unit=written or column.unit, samples=()))
    named = " and ".join(f"'{table.columns[place].header}'" for place in probes)
    one = len(probes) == 1
    return replace(own, columns=tuple(kept)).said(f"{'Column' if one else 'Columns'} {named} {'names' if one else 'name'} the probe of each row.")


def by_column(table, places):
    """A table for each of the columns at `places`: the rows that hold a reading of it, and the columns that tell the time."""
    said = table.said("Each line holds one reading: took the columns as records of their own, joined on time.")
    return [with_one(said.rows(np.isfinite(table.columns[place].values)), place) for place in places]


def with_one(table, place):
    kept = [column for at, column in enumerate(table.columns) if at == place or tells_time(column) or not column.numeric and stamps_in(column)]
    return replace(table, columns=tuple(kept))
