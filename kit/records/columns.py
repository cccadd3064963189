"""From headers to names and units: 'Treated (°C)' is called 'Treated' and measured in °C."""

from dataclasses import replace

from kit.records.units import name_and_unit


def name_columns(table, asked):
    """Split every header into a name and a unit. A unit from a row of its own, or written in the cells, counts where the header has none."""
    columns = []
    for column in table.columns:
        name, unit = name_and_unit(column.header)
        columns.append(replace(column, name=name, unit=unit or column.unit))
    return replace(table, columns=tuple(columns))
