"""The share of CO2 in the vessel while the gas comes."""

from kit.analysis.planning import GasDose
from kit.charts import draw
from kit.charts.drawing import band, CONTROL, end_label, line, Panel, sheet, TREATED

WAYS = {"from_below": ("fills from below", TREATED, "solid"), "mixed": ("mixes", CONTROL, "dash")}


@draw.register
def dose_chart(dose: GasDose):
    """Share against minutes as two bands, one for each way of filling; each band from the least to the most gas."""
    minutes, traces, notes = dose.curve["minutes"], [], []
    for key, (name, color, dash) in WAYS.items():
        low, high = dose.curve[key]
        traces += [band(minutes, low, high, color), line(minutes, low, color, dash=dash), line(minutes, high, color, dash=dash)]
        notes += [end_label(name, minutes[-1], float(low[-1]), color, below=True)]
    axes = {"x": "time since the fizzing (min)", "y": "CO2 in the vessel (%)", "yaxis": {"range": [0, 105]}}
    return sheet(Panel(traces, notes=notes, **axes), title=f"Gas from {dose.made_from}", said=str(dose))
