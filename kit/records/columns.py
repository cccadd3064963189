"""From headers to names and units: 'Treated (°C)' is called 'Treated' and measured in °C."""

from dataclasses import replace
from pathlib import PurePath

from kit.records.roles import GAS, NAMES, words_of
from kit.records.units import name_and_unit

ROLE_WORDS = GAS.union(*NAMES.values())


def name_columns(table, asked):
    """Split every header into a name and a unit. Where it has none, a unit from a row of its own or from the cells counts."""
    columns = []
    for column in table.columns:
        name, unit = name_and_unit(column.header)
        columns.append(replace(column, name=name, unit=unit or column.unit))
    return replace(table, columns=tuple(columns))


def with_file_names(tables):
    """Tables of several files, with the file's name before each header that does not itself name a role: 'left: Temperature (°C)'."""
    return [replace(table, columns=tuple(named(column, PurePath(table.file).stem) for column in table.columns)) for table in tables]


def named(column, stem):
    if column.role or words_of(column.name) & ROLE_WORDS:
        return column
    return replace(column, header=f"{stem}: {column.header}", name=f"{stem} {column.name}")
