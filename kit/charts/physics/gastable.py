"""Gases side by side: how well each carries heat to the walls."""

from kit.analysis.causes import GasTable
from kit.charts import draw
from kit.charts.drawing import ranges_chart, TREATED, upright
from kit.estimate import amount


@draw.register
def gases_chart(table: GasTable):
    """Heat carried, air = 1, from lying still to strong flow; the note tells each gas's density."""
    rows = [(row.name, row.carries, f"{amount(row.density_kg_m3, 3)} kg/m³", TREATED) for row in table.rows]
    title, x = "How well a gas carries heat to the walls", "heat carried over what air carries (no unit)"
    return ranges_chart(rows, title=title, said=str(table), x=x, marks=[upright(1)])
