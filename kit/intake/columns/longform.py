"""Long layout: one row a probe. The rows of each probe become a record of their own, to be joined on time."""

from dataclasses import replace

import numpy as np

from kit.intake.time import says_time, stamps_in
from kit.intake.columns.kinds import label_of, words_of
from kit.intake.forms import name_and_unit, unit_of

VALUES = {"value", "reading", "temperature", "temp", "measurement", "wert", "messwert", "valeur"}


def by_probe(table, place):
    """The tables of the probes in a long layout whose column at `place` names the probe of each row."""
    value, labels = value_column(table, place), np.array([label_of(table.columns[place].cell(row)) for row in range(len(table.lines))])
    names, first, counts = np.unique(labels, return_index=True, return_counts=True)
    if counts.min() < 2 or "" in names:
        row = int(first[0 if "" in names else counts.argmin()])
        what = f"Only this line names the probe '{labels[row][:30]}'." if labels[row] else "This line names no probe."
        raise table.fault(what, "Correct it in a copy of the file.", row=row, column=table.columns[place])
    return [piece(table, labels == names[at], str(names[at]), (place, value)) for at in np.argsort(first)]


def value_column(table, probes):
    """Where the readings stand: the one column of numbers that is no time, or the one called value."""
    free = [place for place, column in enumerate(table.columns) if column.numeric and place != probes and not says_time(column)]
    called = [place for place in free if words_of(table.columns[place].name) & VALUES]
    for places in (called, free):
        if len(places) == 1:
            return places[0]
    raise table.fault("Each row holds one probe, but which column holds its reading?", "Head it 'value' in a copy of the file.")


def piece(table, rows, label, places):
    """The rows of one probe: its readings under its own name, with the columns that tell the time."""
    probes, value = places
    own = table.rows(rows)
    units = [
        unit_of(column.cell(0)) for column in own.columns if column.name.lower() in ("unit", "units", "einheit") and not column.numeric
    ]
    name, unit = name_and_unit(label)
    kept = [
        column
        for place, column in enumerate(own.columns)
        if place not in places and (says_time(column) or not column.numeric and stamps_in(column))
    ]
    reading = replace(own.columns[value], header=label, name=name, unit=next(filter(None, [*units, unit, own.columns[value].unit]), ""))
    return replace(own, columns=(*kept, reading)).said(f"Column '{table.columns[probes].header}' names the probe of each row.")
