"""Long layout: one row a probe. The rows of each probe become a record of their own, to be joined on time."""

from dataclasses import replace

import numpy as np

from kit.intake.time import says_time, stamps_in
from kit.intake.columns.roles import NAMES as ROLE_NAMES
from kit.intake.columns.roles import words_of
from kit.intake.forms import name_and_unit, unit_of

# Words that head a column of probe names. Common practice, no source.
PROBES = set("probe sensor channel location vessel variable series quantity label id thermometer position fühler sonde".split())
VALUES = {"value", "reading", "temperature", "temp", "measurement", "wert", "messwert", "valeur"}
MOST_PROBES = 12


def by_probe(table):
    """The tables of the probes in a long layout; the table alone in any other."""
    place = probe_column(table)
    if place is None:
        return [table]
    value, labels = value_column(table, place), np.array([label_of(table.columns[place].cell(row)) for row in range(len(table.lines))])
    names, first, counts = np.unique(labels, return_index=True, return_counts=True)
    if counts.min() < 2 or "" in names:
        row = int(first[0 if "" in names else counts.argmin()])
        what = f"Only this line names the probe '{labels[row][:30]}'." if labels[row] else "This line names no probe."
        raise table.fault(what, "Correct it in a copy of the file.", row=row, column=table.columns[place])
    return [piece(table, labels == names[at], str(names[at]), (place, value)) for at in np.argsort(first)]


def probe_column(table):
    """Where the names of the probes stand: a column called so, or one of texts that name both vessels."""
    return next((place for place, column in enumerate(table.columns) if holds_probes(column, len(table.lines))), None)


def holds_probes(column, rows):
    if column.role or column.unit:
        return False
    cells = {label_of(column.cell(row)) for row in range(min(rows, 200))}
    if not 2 <= len(cells) <= min(MOST_PROBES, rows / 2) or "" in cells or column.numeric and not all(map(str.isdigit, cells)):
        return False
    both = all(any(words_of(cell) & set(ROLE_NAMES[vessel]) for cell in cells) for vessel in ("treated", "control"))
    return column.name.lower() in PROBES or both and not column.numeric


def label_of(cell):
    return cell if isinstance(cell, str) else "" if cell != cell else f"{cell:g}"


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
