"""A planet's balance, and the range of its warming."""

from kit.analysis.planet import PlanetBalance, PlanetWarming
from kit.charts import draw
from kit.charts.drawing import CONTROL, dots, level, line, Panel, QUIET, ranges_chart, reach, remark, sheet, TREATED, upright
from kit.units import temperature


@draw.register
def balance_chart(balance: PlanetBalance):
    """What leaves to space from each surface temperature, against what comes in: the planet settles where the lines cross."""
    surface, leaves, came = balance.curve["surface_c"], balance.curve["leaves_w_m2"], balance.absorbed_w_m2
    dot = dots([balance.surface_c], [came], QUIET, size=12, error_x=reach(balance.surface_c, balance.surface_range, QUIET))
    notes = [
        remark("sunlight taken up", surface[0], came, TREATED, yanchor="bottom"),
        remark("leaves to space", surface[-1], leaves[-1], CONTROL, xanchor="right", yanchor="bottom"),
        remark(f"settles at {temperature(balance.surface_c, 1)}", balance.surface_c, came, QUIET, yanchor="top", yshift=-10),
    ]
    axes = {"x": "temperature of the surface (°C)", "y": "power (W/m²)"}
    panel = Panel([line(surface, leaves, CONTROL), dot], **axes, marks=[level(came, color=TREATED, dash="dash")], notes=notes, on_scale="x")
    return sheet(panel, title="In and out", said=str(balance))


@draw.register
def warming_chart(warming: PlanetWarming):
    """Very likely and likely ranges, in the end and meanwhile, each named in words."""
    rows = [
        ("in the end, very likely", warming.in_the_end, warming.in_the_end.range, TREATED),
        ("in the end, likely", warming.likely, str(warming.likely), TREATED),
        ("after a slow rise, very likely", warming.meanwhile, warming.meanwhile.range, CONTROL),
        ("after a slow rise, likely", warming.likely_meanwhile, str(warming.likely_meanwhile), CONTROL),
    ]
    title, x = "Warming by CO2 alone", "warming of the planet (°C)"
    return ranges_chart(rows, title=title, said=str(warming), x=x, marks=[upright(0)])
